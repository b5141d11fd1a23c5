"""Irradiance on a plane that tips about a level hinge, all tilts in one pass."""

from __future__ import annotations

from typing import Literal

import numpy as np
from numpy.typing import NDArray

from polestead.base.hours import working_year
from polestead.base.quiet import solar_library
from polestead.base.table import table
from polestead.site.sunpath import SunPath
from polestead.site.weather import WeatherYears
from polestead.sun.glass import Glass, clear_glass
from polestead.sun.sky import LEAST_COS, LEAST_COS_PEREZ
from polestead.sun.view import OpenSky

SkyModel = Literal["hay-davies", "perez"]
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
    model: SkyModel = "hay-davies",
) -> Floats:
    """One year at many tilts.

    Source: Hay & Davies 1980 in the form of pvlib (zenith limited at cos 89 degrees), or Perez et al. 1990, Solar Energy
    44:271, with the coefficients for all sites together (both seen in pvlib); ground light by Liu & Jordan.  The skyline's
    share is taken of the beam and the light about the sun, and of the rest of the sky.

    Args:
        path: The sun's path.
        sky: What comes past the skyline.
        global_w_m2: One working year [8760].
        beam_w_m2: The same, square to the sun [8760].
        diffuse_w_m2: The same, from the sky [8760].
        tilts_deg: [tilts].
        facing_deg: Where the glass looks.
        ground_reflectance: By hour [8760].
        model: Of the sky.

    Returns:
        [tilts, 8760].
    """
    from polestead.sun.kernel import at_tilts

    first, second, even, edge, ground = _separated(
        path,
        sky,
        global_w_m2[None],
        beam_w_m2[None],
        diffuse_w_m2[None],
        facing_deg,
        ground_reflectance,
        model,
    )
    return np.asarray(
        at_tilts(np.radians(tilts_deg), first[0], second[0], even[0], edge[0], ground[0])
    )


def plane_over_years_w_m2(
    path: SunPath,
    sky: OpenSky,
    weather: WeatherYears,
    tilt_deg: Floats,
    facing_deg: float,
    ground_reflectance: Floats,
    glass: Glass | None = None,
    model: SkyModel = "hay-davies",
) -> NDArray[np.float32]:
    """All years on a plane whose tilt holds for whole days.

    Args:
        path: The sun's path.
        sky: What comes past the skyline.
        weather: All years.
        tilt_deg: By hour of the working year, the same in each [8760], or by year and day [1 or years, 365].
        facing_deg: Where the glass looks.
        ground_reflectance: By hour [8760], or by year and day [1 or years, 365].
        glass: What the glass lets through; None for the bare plane.
        model: Of the sky.

    Returns:
        [years, 8760].
    """
    from polestead.sun.kernel import over_years

    across, up = _towards(path, facing_deg)
    glass = glass or clear_glass()
    return np.asarray(
        over_years(
            np.radians(_by_day(tilt_deg)), across, up, path.extra_w_m2, sky.beam_share, sky.sky_share,
            _by_day(ground_reflectance), weather.global_w_m2, weather.beam_w_m2, weather.diffuse_w_m2,
            np.radians(path.zenith_deg), *_perez(path, model), glass.beam, glass.sky, glass.ground,
        )
    )  # fmt: skip


def daily_wh_m2_at_tilts(
    path: SunPath,
    sky: OpenSky,
    weather: WeatherYears,
    tilts_deg: Floats,
    facing_deg: float,
    ground_reflectance: Floats,
) -> NDArray[np.float32]:
    """Light of each day at many tilts in one pass, Hay and Davies, bare plane: what the search for habits starts from.

    Args:
        path: The sun's path.
        sky: What comes past the skyline.
        weather: All years.
        tilts_deg: [tilts].
        facing_deg: Where the glass looks.
        ground_reflectance: As in ``plane_over_years_w_m2``.

    Returns:
        [tilts, years, 365] Wh/m2.
    """
    from polestead.sun.kernel import daily_sums

    across, up = _towards(path, facing_deg)
    return np.asarray(
        daily_sums(
            np.radians(tilts_deg), across, up, path.extra_w_m2, sky.beam_share, sky.sky_share,
            _by_day(ground_reflectance), weather.global_w_m2, weather.beam_w_m2, weather.diffuse_w_m2,
        )
    )  # fmt: skip


def _by_day(values: Floats) -> Floats:
    """A figure by hour that holds for whole days, or by year and day, as [1 or years, 365]."""
    values = np.asarray(values, dtype=np.float64)
    return np.ascontiguousarray(values[None, ::24] if values.ndim == 1 else values)


def _perez(path: SunPath, model: SkyModel) -> tuple[Floats, Floats]:
    """Relative airmass by hour and the published coefficients; empty for Hay and Davies."""
    if model == "hay-davies":
        return np.zeros(0), np.zeros((0, 6))
    pvlib = solar_library()
    first, second = pvlib.irradiance._get_perez_coefficients("allsitescomposite1990")
    table = np.hstack([np.asarray(first), np.asarray(second)])[:8]
    return np.asarray(pvlib.atmosphere.get_relative_airmass(path.zenith_deg)), np.ascontiguousarray(
        table
    )


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
    model: SkyModel,
) -> tuple[Floats, Floats, Floats, Floats, Floats]:
    """Parts that do not know the tilt.

    E(t) = max(A cos t + B sin t, 0) + max(C (1 + cos t) / 2 + F sin t, 0) + D (1 - cos t) / 2.
    """
    across, up = _towards(path, facing_deg)
    edge = np.zeros(diffuse.shape)
    if model == "perez":
        first_share, edge_share = _perez_by_hour(path, beam, diffuse)
        about = beam + diffuse * first_share / np.maximum(up, LEAST_COS_PEREZ)
        even = diffuse * (1.0 - first_share) * sky.sky_share
        edge = diffuse * edge_share * sky.sky_share
    else:
        index = np.clip(beam / np.maximum(path.extra_w_m2, 1e-9), 0.0, None)
        about = beam + diffuse * index / np.maximum(up, LEAST_COS)
        even = diffuse * (1.0 - index) * sky.sky_share
    first = about * up * sky.beam_share
    second = about * across * sky.beam_share
    return first, second, even, edge, np.asarray(total * reflectance, dtype=np.float64)


def _perez_by_hour(
    path: SunPath, beam: NDArray[np.floating], diffuse: NDArray[np.floating]
) -> tuple[Floats, Floats]:
    """F1 and F2 of each hour [years, hours]."""
    from polestead.sun.kernel import perez_by_hour

    airmass, table = _perez(path, "perez")
    return perez_by_hour(
        np.asarray(beam, dtype=np.float64), np.asarray(diffuse, dtype=np.float64), np.radians(path.zenith_deg), airmass,
        path.extra_w_m2, table,
    )  # fmt: skip


def ground_reflectance_by_hour(snow_months: tuple[int, ...], start_month: int) -> Floats:
    """Reflectance of the ground by month, with snow where the owner says it lies [8760].

    Args:
        snow_months: Months 1 to 12 in which snow usually lies.
        start_month: First month of the working year.
    """
    return reflectance_under_snow(np.isin(working_year(start_month).month, snow_months))


def reflectance_under_snow(lies: NDArray[np.bool_]) -> Floats:
    """Reflectance of the ground where snow lies or not, any shape.

    Source: ``albedo.csv`` of this room.

    Args:
        lies: Whether snow lies.
    """
    bare, snow = (float(row["reflectance"]) for row in table("sun", "albedo"))
    return np.where(lies, snow, bare)
