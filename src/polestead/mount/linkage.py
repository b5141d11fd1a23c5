"""The actuator's triangle: length, exposed rod, arm over the travel (CHECKS A1; conventions §9)."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from polestead.base.check import Check
from polestead.homestead.model import Drive

Floats = NDArray[np.float64]


def rod_length_m(drive: Drive, tilt_deg: Floats) -> Floats:
    """Pin-to-pin length at each tilt."""
    raise NotImplementedError


def rod_arm_m(drive: Drive, tilt_deg: Floats) -> Floats:
    """dL/dt [m per radian]: + where the rod lengthens as the array steepens, so that steepening pulls it."""
    raise NotImplementedError


def linkage_checks(
    drive: Drive, least_tilt_deg: float, steepest_tilt_deg: float
) -> tuple[Check, ...]:
    """Stroke, retracted length and dead centre over the travel."""
    raise NotImplementedError
