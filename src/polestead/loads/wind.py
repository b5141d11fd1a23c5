"""Wind on the tipped array (METHODS of the house 4.1): open-roof coefficients to 45 degrees, blended into the sign above."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from polestead.mount.geometry import Geometry

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class SiteWind:
    """The place as the wind feels it.

    Attributes:
        exposure: B, C or D.
        topographic: Kzt.
        elevation: Ke.
        basis: ``ASCE 7-16`` or ``ASCE 7-22`` (Kz constants).
    """

    exposure: str
    topographic: float
    elevation: float
    basis: str


@dataclass(frozen=True, slots=True, eq=False)
class WindActions:
    """Wind on the whole array, one line per load case, one column per tilt.

    Cases: wind on the back or on the glass, coefficient set A or B; above 45 degrees each with both signs of the
    hinge eccentricity.  Hinge moment: + turns the array steeper (conventions §10).

    Attributes:
        case_names: [cases].
        tilt_deg: [tilts].
        normal_n: Size of the force square to the glass [cases, tilts].
        across_n: Its horizontal part [cases, tilts].
        up_n: Its upright part, + upwards [cases, tilts].
        hinge_n_m: Moment about the hinge, + steepens [cases, tilts].
        base_n_m: Moment of ``across_n`` and the hinge moment about the ground line, its size [cases, tilts].
        twist_n_m: About the pole's axis, from the force off centre [cases, tilts].
        roll_n_m: About the horizontal axis across the hinge [cases, tilts].
    """

    case_names: tuple[str, ...]
    tilt_deg: Floats
    normal_n: Floats
    across_n: Floats
    up_n: Floats
    hinge_n_m: Floats
    base_n_m: Floats
    twist_n_m: Floats
    roll_n_m: Floats


def wind_actions(
    geometry: Geometry,
    site: SiteWind,
    gust_m_s: float,
    tilt_deg: Floats,
    directionality: float,
    gust_factor: float,
    code_floors: bool,
) -> WindActions:
    """Wind actions at one gust (3 s, 10 m, open country), all cases and tilts.

    Args:
        directionality: Kd, 0.85 for the code check, 1.0 for what it stands to.
        gust_factor: G.
        code_floors: Whether the least pressures of the code apply (the code check only).
    """
    raise NotImplementedError
