"""Where the sun stands, hour by hour: a fact of the place, worked once and handed up (decision 0003)."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from polestead.base.hours import HOURS, working_year_at

Floats = NDArray[np.float64]
YEAR = 2025  # a year without a leap day; another one moves the sun by under a quarter of a degree
SLICES = 6  # of an hour, for the mean outside the air


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


def sun_path(
    latitude_deg: float, longitude_deg: float, elevation_m: float, clock_offset_hours: float
) -> SunPath:
    """The sun's path over a place, by pvlib's solar position algorithm.

    Source: Reda & Andreas, NREL/TP-560-34302 (seen), through pvlib; outside the air Spencer 1971 with 1366.1 W/m^2
    through pvlib.

    Args:
        latitude_deg: North positive, -90 to 90.
        longitude_deg: East positive.
        elevation_m: Over the sea.
        clock_offset_hours: Local standard time minus UTC.
    """
    year = working_year_at(latitude_deg)
    middle = _position(latitude_deg, longitude_deg, elevation_m, clock_offset_hours, 1)
    fine = _position(latitude_deg, longitude_deg, elevation_m, clock_offset_hours, SLICES)
    extra = _extra_w_m2()
    flat = np.maximum(np.cos(np.radians(fine[2])), 0.0).reshape(HOURS, SLICES).mean(axis=1) * extra
    turned = [
        np.asarray(year.from_january(values)) for values in (middle[0], middle[1], extra, flat)
    ]
    return SunPath(turned[0], turned[1], turned[2], turned[3], year.start_month)


def _position(
    latitude: float, longitude: float, elevation: float, offset: float, slices: int
) -> tuple[Floats, Floats, Floats]:
    """Apparent zenith, azimuth and true zenith in the middle of each slice, January first."""
    import pandas as pd
    from pvlib.solarposition import spa_python

    step = pd.Timedelta(hours=1) / slices
    first = pd.Timestamp(f"{YEAR}-01-01", tz="UTC") - pd.Timedelta(hours=offset) + step / 2
    times = pd.date_range(first, periods=HOURS * slices, freq=step)
    found = spa_python(times, latitude, longitude, altitude=elevation)
    return tuple(found[name].to_numpy() for name in ("apparent_zenith", "azimuth", "zenith"))


def _extra_w_m2() -> Floats:
    from pvlib.irradiance import get_extra_radiation

    days = np.repeat(np.arange(1, 366), 24)
    return np.asarray(get_extra_radiation(days), dtype=np.float64)
