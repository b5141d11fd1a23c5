"""Irradiance on a plane that tips about a level hinge, all tilts in one pass."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from polestead.site.sunpath import SunPath
from polestead.site.weather import WeatherYears
from polestead.sun.view import OpenSky


def plane_at_tilts_w_m2(
    path: SunPath,
    sky: OpenSky,
    global_w_m2: NDArray[np.floating],
    beam_w_m2: NDArray[np.floating],
    diffuse_w_m2: NDArray[np.floating],
    tilts_deg: NDArray[np.float64],
    facing_deg: float,
    ground_reflectance: NDArray[np.float64],
) -> NDArray[np.float64]:
    """One year at many tilts, Hay-Davies sky.

    Args:
        global_w_m2, beam_w_m2, diffuse_w_m2: One working year [8760].
        tilts_deg: [tilts].
        ground_reflectance: By hour [8760].

    Returns:
        [tilts, 8760].
    """
    raise NotImplementedError


def plane_over_years_w_m2(
    path: SunPath,
    sky: OpenSky,
    weather: WeatherYears,
    tilt_by_hour_deg: NDArray[np.float64],
    facing_deg: float,
    ground_reflectance: NDArray[np.float64],
) -> NDArray[np.float32]:
    """All years with the tilt the owner's habit gives each hour [8760]; returns [years, 8760]."""
    raise NotImplementedError


def ground_reflectance_by_hour(
    snow_months: tuple[int, ...], start_month: int
) -> NDArray[np.float64]:
    """Reflectance of the ground by month, with snow where the owner says it lies [8760]."""
    raise NotImplementedError
