"""Irradiance on a plane that tips about a level hinge, all tilts in one pass."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from polestead.base.hours import working_year
from polestead.base.table import table
from polestead.site.sunpath import SunPath
from polestead.site.weather import WeatherYears
from polestead.sun.view import OpenSky

Floats = NDArray[np.float64]


def plane_at_tilts_w_m2(
    path: SunPath,
    sky: OpenSky,
    global_w_m2: NDArray[np.floating],
    beam_w_m2: NDArray[np.floating],
    diffuse_w_m2: NDArray[np.floating],
    tilts_deg: Floats,
    facing_deg: float,
    ground_reflectance: Floats,
) -> Floats:
    """One year at many tilts, Hay-Davies sky.

    Source: Hay & Davies 1980 in the form of pvlib (zenith limited at cos 89 degrees); ground light by Liu & Jordan.  The
    skyline's share is taken of the beam and the light about the sun, and of the rest of the sky.

    Args:
        path: The sun's path.
        sky: What comes past the skyline.
        global_w_m2: One working year [8760].
        beam_w_m2: The same, square to the sun [8760].
        diffuse_w_m2: The same, from the sky [8760].
        tilts_deg: [tilts].
        facing_deg: Where the glass looks.
        ground_reflectance: By hour [8760].

    Returns:
        [tilts, 8760].
    """
    from polestead.sun.kernel import at_tilts

    first, second, even, ground = _separated(
        path,
        sky,
        global_w_m2[None],
        beam_w_m2[None],
        diffuse_w_m2[None],
        facing_deg,
        ground_reflectance,
    )
    return np.asarray(at_tilts(np.radians(tilts_deg), first[0], second[0], even[0], ground[0]))


def plane_over_years_w_m2(
    path: SunPath,
    sky: OpenSky,
    weather: WeatherYears,
    tilt_by_hour_deg: Floats,
    facing_deg: float,
    ground_reflectance: Floats,
) -> NDArray[np.float32]:
    """All years with the tilt the owner's habit gives each hour [8760]; returns [years, 8760].

    Args:
        path: The sun's path.
        sky: What comes past the skyline.
        weather: All years.
        tilt_by_hour_deg: [8760].
        facing_deg: Where the glass looks.
        ground_reflectance: By hour [8760].
    """
    from polestead.sun.kernel import over_years

    across, up = _towards(path, facing_deg)
    return np.asarray(
        over_years(
            np.radians(tilt_by_hour_deg), across, up, path.extra_w_m2, sky.beam_share, sky.sky_share, ground_reflectance,
            weather.global_w_m2, weather.beam_w_m2, weather.diffuse_w_m2,
        )
    )  # fmt: skip


def _towards(path: SunPath, facing_deg: float) -> tuple[Floats, Floats]:
    """The sun's direction in the plane's own upright section: sin z cos(azimuth difference), cos z."""
    zenith = np.radians(path.zenith_deg)
    across = np.sin(zenith) * np.cos(np.radians(path.azimuth_deg - facing_deg))
    return across, np.cos(zenith)


def _separated(
    path: SunPath,
    sky: OpenSky,
    total: NDArray[np.floating],
    beam: NDArray[np.floating],
    diffuse: NDArray[np.floating],
    facing_deg: float,
    reflectance: Floats,
) -> tuple[Floats, Floats, Floats, Floats]:
    """Parts that do not know the tilt: E(t) = max(A cos t + B sin t, 0) + C (1 + cos t) / 2 + D (1 - cos t) / 2."""
    across, up = _towards(path, facing_deg)
    index = np.clip(beam / np.maximum(path.extra_w_m2, 1e-9), 0.0, None)
    about = beam + diffuse * index / np.maximum(up, 0.01745)
    first = about * up * sky.beam_share
    second = about * across * sky.beam_share
    even = diffuse * (1.0 - index) * sky.sky_share
    return first, second, even, np.asarray(total * reflectance, dtype=np.float64)


def ground_reflectance_by_hour(snow_months: tuple[int, ...], start_month: int) -> Floats:
    """Reflectance of the ground by month, with snow where the owner says it lies [8760].

    Source: ``albedo.csv`` of this room.

    Args:
        snow_months: Months 1 to 12 in which snow usually lies.
        start_month: First month of the working year.
    """
    bare, snow = (float(row["reflectance"]) for row in table("sun", "albedo"))
    return np.where(np.isin(working_year(start_month).month, snow_months), snow, bare)
