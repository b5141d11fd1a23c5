"""The sun at its highest on one date: when, how high, and how fast a shadow turns then."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta

import numpy as np
from numpy.typing import NDArray

from polestead.site.sunpath import REFRACTION_DEG, _spa

BESIDE_S = 300.0
Hours365 = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class SolarNoon:
    """Solar noon.

    Attributes:
        on: The date.
        clock_h: Local standard time, hours after midnight; never summer time.
        height_deg: Of the sun over a level horizon, as seen through the air.
        azimuth_deg: Of the sun, from true north: 180 or 0 (360).
        turns_deg_per_min: How fast the sun's bearing, and a shadow's, turns about then.
    """

    on: date
    clock_h: float
    height_deg: float
    azimuth_deg: float
    turns_deg_per_min: float


def solar_noon(
    latitude_deg: float,
    longitude_deg: float,
    elevation_m: float,
    clock_offset_hours: float,
    on: date,
) -> SolarNoon:
    """When the sun stands highest, by pvlib's solar position algorithm.

    Source: Reda & Andreas, NREL/TP-560-34302 (seen), through pvlib.

    Args:
        latitude_deg: North positive.
        longitude_deg: East positive.
        elevation_m: Over the sea.
        clock_offset_hours: Local standard time minus UTC.
        on: The date at the place.

    Example:
        >>> noon = solar_noon(51.48, 0.0, 0.0, 0.0, date(2026, 11, 3))  # the sun 16 min 26 s early
        >>> round(noon.clock_h * 60.0) - 720, round(noon.height_deg), round(noon.azimuth_deg)
        (-16, 23, 180)
    """
    spa = _spa()
    delta_t = spa.calculate_deltat(on.year, on.month)
    midnight = datetime(on.year, on.month, on.day, tzinfo=UTC).timestamp()
    guess = midnight + (12.0 - longitude_deg / 15.0) * 3600.0
    day = midnight + 86400.0 * np.floor((guess - midnight) / 86400.0)
    transits = spa.transit_sunrise_sunset(
        np.array([day - 86400.0, day, day + 86400.0]), latitude_deg, longitude_deg, delta_t, 1
    )[0]
    local = np.asarray(transits) + clock_offset_hours * 3600.0 - midnight
    middle = guess + clock_offset_hours * 3600.0 - midnight
    clock_s = float(local[np.argmin(np.abs(local - middle))])
    at = midnight + clock_s - clock_offset_hours * 3600.0
    pressure_hpa = 1013.25 * (1.0 - 2.25577e-5 * elevation_m) ** 5.25588  # the standard air
    zenith, _, _, _, azimuth, *_ = spa.solar_position_numpy(
        np.array([at - BESIDE_S, at, at + BESIDE_S]), latitude_deg, longitude_deg, elevation_m,
        pressure_hpa, 12.0, delta_t, REFRACTION_DEG, 1,
    )  # fmt: skip
    turned = (float(azimuth[2]) - float(azimuth[0]) + 180.0) % 360.0 - 180.0
    return SolarNoon(
        on, clock_s / 3600.0, 90.0 - float(zenith[1]), float(azimuth[1]), abs(turned) / (2.0 * BESIDE_S / 60.0)
    )  # fmt: skip


def sun_up_and_down_h(latitude_deg: float, longitude_deg: float, clock_offset_hours: float, on: date) -> tuple[float, float] | None:  # fmt: skip
    """When the sun comes up and goes down over a level horizon; None where it does not that day.

    Source: Reda & Andreas, NREL/TP-560-34302 (seen), through pvlib.

    Args:
        latitude_deg: North positive.
        longitude_deg: East positive.
        clock_offset_hours: Local standard time minus UTC.
        on: The date at the place.

    Returns:
        Local standard time, hours after midnight.

    Example:
        >>> [clock_words(hour) for hour in sun_up_and_down_h(51.48, 0.0, 0.0, date(2026, 3, 20))]
        ['06:03', '18:13']
    """
    spa = _spa()
    midnight = datetime(on.year, on.month, on.day, tzinfo=UTC).timestamp()
    days = midnight + 86400.0 * np.array([-1.0, 0.0, 1.0])
    _, ups, downs = spa.transit_sunrise_sunset(days, latitude_deg, longitude_deg, spa.calculate_deltat(on.year, on.month), 1)  # fmt: skip
    noon = midnight + (12.0 - clock_offset_hours) * 3600.0
    near = [float(found[np.nanargmin(np.abs(found - noon - side))]) for found, side in ((ups, -21600.0), (downs, 21600.0)) if np.isfinite(found).any()]  # fmt: skip
    if len(near) < 2:
        return None
    up, down = ((at - midnight) / 3600.0 + clock_offset_hours for at in near)
    return up, down


def sun_up_and_down_of_year_h(latitude_deg: float, longitude_deg: float, clock_offset_hours: float, year: int) -> tuple[Hours365, Hours365]:  # fmt: skip
    """The same for the first 365 days of a year at once.

    Args:
        latitude_deg: North positive.
        longitude_deg: East positive.
        clock_offset_hours: Local standard time minus UTC.
        year: Which.

    Returns:
        Up and down in local standard time, hours after midnight [365]; not a number where it does not that day.

    Example:
        >>> up, down = sun_up_and_down_of_year_h(51.48, 0.0, 0.0, 2026)
        >>> clock_words(up[78]), clock_words(down[78])
        ('06:03', '18:13')
    """
    spa = _spa()
    first = datetime(year, 1, 1, tzinfo=UTC).timestamp()
    days = first + 86400.0 * np.arange(-1.0, 366.0)
    _, ups, downs = spa.transit_sunrise_sunset(days, latitude_deg, longitude_deg, spa.calculate_deltat(year, 7), 1)  # fmt: skip
    midnights = days[1:-1]
    noons = midnights + (12.0 - clock_offset_hours) * 3600.0
    found = []
    for events, side in ((ups, -21600.0), (downs, 21600.0)):
        near = np.stack([np.asarray(events)[shift : shift + 365] for shift in (0, 1, 2)])
        off = np.where(np.isfinite(near), np.abs(near - noons - side), np.inf)
        at = np.take_along_axis(near, off.argmin(axis=0)[None], axis=0)[0]
        found.append((at - midnights) / 3600.0 + clock_offset_hours)
    return found[0], found[1]


def clock_words(clock_h: float) -> str:
    """Hours and minutes, to the nearest minute.

    Example:
        >>> clock_words(12.999), clock_words(11.5)
        ('13:00', '11:30')
    """
    at = datetime(2000, 1, 1, tzinfo=UTC) + timedelta(minutes=round(clock_h * 60.0))
    return f"{at:%H:%M}"
