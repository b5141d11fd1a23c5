"""Power of an array from the sun on its glass."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from polestead.homestead.model import Module


def array_power_w(
    module: Module,
    count: int,
    plane_w_m2: NDArray[np.floating],
    air_c: NDArray[np.floating],
) -> NDArray[np.float32]:
    """Direct-current power of ``count`` modules at their best point, any shape."""
    raise NotImplementedError


def cold_voltage_v(module: Module, in_series: int, cell_c: float) -> float:
    """Open-circuit voltage of a string at a cell temperature, by the datasheet's coefficient."""
    raise NotImplementedError
