"""Where the sun stands, hour by hour: a fact of the place, worked once and handed up (decision 0003)."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, datetime
from functools import cache
from importlib.util import find_spec, module_from_spec, spec_from_file_location
from pathlib import Path
from typing import Any

import numpy as np
from numpy.typing import NDArray

from polestead.base.hours import HOURS, working_year_at

Floats = NDArray[np.float64]
YEAR = 2025  # a year without a leap day; another one moves the sun by under a quarter of a degree
SLICES = 6  # of an hour, for the mean outside the air
REFRACTION_DEG = 0.5667  # at sunrise, the algorithm's own default
SOLAR_CONSTANT_W_M2 = 1366.1


@dataclass(frozen=True, slots=True, eq=False)
class SunPath:
    """The sun at the middle of each hour of the working year.

    Attributes:
        zenith_deg: Apparent zenith [8760].
        azimuth_deg: From true north, clockwise [8760].
        extra_w_m2: Irradiance outside the air, square to the sun [8760].
        extra_flat_w_m2: Mean over the hour of the same on a level plane, sunrise hours included [8760].
        start_month: First month of the working year (7 or 1).
    """

    zenith_deg: Floats
    azimuth_deg: Floats
    extra_w_m2: Floats
    extra_flat_w_m2: Floats
    start_month: int


def nearest_clock_hours(longitude_deg: float) -> float:
    """The whole hours from UTC nearest to the sun at a longitude.

    Example:
        >>> nearest_clock_hours(-91.4)
        -6.0
    """
    return float(round(longitude_deg / 15.0))


def sun_path(
    latitude_deg: float, longitude_deg: float, elevation_m: float, clock_offset_hours: float
) -> SunPath:
    """The sun's path over a place, by pvlib's solar position algorithm.

    Source: Reda & Andreas, NREL/TP-560-34302 (seen), through pvlib; outside the air Spencer 1971 with 1366.1 W/m^2.

    Args:
        latitude_deg: North positive, -90 to 90.
        longitude_deg: East positive.
        elevation_m: Over the sea.
        clock_offset_hours: Local standard time minus UTC.
    """
    year = working_year_at(latitude_deg)
    zenith, _, azimuth = _position(latitude_deg, longitude_deg, elevation_m, clock_offset_hours, 1)
    _, true, _ = _position(latitude_deg, longitude_deg, elevation_m, clock_offset_hours, SLICES)
    extra = _extra_w_m2()
    up = np.maximum(np.cos(np.radians(true)), 0.0).reshape(HOURS, SLICES).mean(axis=1)
    turned = [
        np.asarray(year.from_january(values)) for values in (zenith, azimuth, extra, up * extra)
    ]
    return SunPath(turned[0], turned[1], turned[2], turned[3], year.start_month)


def _position(
    latitude: float, longitude: float, elevation: float, offset: float, slices: int
) -> tuple[Floats, Floats, Floats]:
    """Apparent zenith, true zenith and azimuth in the middle of each slice of an hour, January first."""
    first = datetime(YEAR, 1, 1, tzinfo=UTC).timestamp() - offset * 3600.0
    times = first + (np.arange(HOURS * slices) + 0.5) * 3600.0 / slices
    pressure_hpa = 1013.25 * (1.0 - 2.25577e-5 * elevation) ** 5.25588  # the standard air
    spa = _spa()
    found = spa.solar_position_numpy(
        times, latitude, longitude, elevation, pressure_hpa, 12.0, spa.calculate_deltat(YEAR, 6), REFRACTION_DEG, 1
    )  # fmt: skip
    return found[0], found[1], found[4]


@cache
def _spa() -> Any:
    """Pvlib's solar position module by itself (decision 0007)."""
    library = find_spec("pvlib")
    if library is None or not library.submodule_search_locations:
        message = "pvlib is not installed"
        raise ImportError(message)
    spec = spec_from_file_location(
        "polestead_pvlib_spa", Path(library.submodule_search_locations[0]) / "spa.py"
    )
    if spec is None or spec.loader is None:
        message = "this pvlib has no solar position module of its own"
        raise ImportError(message)
    module = module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def _extra_w_m2() -> Floats:
    """Outside the air, square to the sun, by day (Spencer 1971), 1366.1 W/m^2 at the mean distance."""
    b = np.repeat(2.0 * np.pi * np.arange(365) / 365.0, 24)
    near = (
        1.00011
        + 0.034221 * np.cos(b)
        + 0.00128 * np.sin(b)
        + 0.000719 * np.cos(2 * b)
        + 0.000077 * np.sin(2 * b)
    )
    return np.asarray(SOLAR_CONSTANT_W_M2 * near)
