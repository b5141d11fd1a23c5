"""The sun's path over one day, minute by minute."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, date, datetime

import numpy as np
from numpy.typing import NDArray

from polestead.site.sunpath import REFRACTION_DEG, _spa

Floats = NDArray[np.float64]
MINUTES = 1440


@dataclass(frozen=True, slots=True, eq=False)
class DayPath:
    """The sun at the middle of each minute of a day.

    Attributes:
        clock_h: Local standard time, hours after midnight [1440].
        height_deg: Over a level horizon, as seen through the air; under it negative [1440].
        azimuth_deg: From true north, clockwise [1440].
    """

    clock_h: Floats
    height_deg: Floats
    azimuth_deg: Floats


def day_path(
    latitude_deg: float,
    longitude_deg: float,
    elevation_m: float,
    clock_offset_hours: float,
    on: date,
) -> DayPath:
    """The sun over one day, by pvlib's solar position algorithm.

    Source: Reda & Andreas, NREL/TP-560-34302 (seen), through pvlib; the standard air at 12 °C.

    Args:
        latitude_deg: North positive.
        longitude_deg: East positive.
        elevation_m: Over the sea.
        clock_offset_hours: Local standard time minus UTC.
        on: The date at the place.

    Example:
        >>> path = day_path(51.48, 0.0, 0.0, 0.0, date(2026, 6, 21))
        >>> round(float(path.height_deg.max()), 1)  # 90 - 51.48 + 23.44
        62.0
    """
    midnight = datetime(on.year, on.month, on.day, tzinfo=UTC).timestamp()
    clock_s = (np.arange(MINUTES) + 0.5) * 60.0
    pressure_hpa = 1013.25 * (1.0 - 2.25577e-5 * elevation_m) ** 5.25588
    spa = _spa()
    zenith, _, _, _, azimuth, *_ = spa.solar_position_numpy(
        midnight + clock_s - clock_offset_hours * 3600.0, latitude_deg, longitude_deg, elevation_m, pressure_hpa,
        12.0, spa.calculate_deltat(on.year, on.month), REFRACTION_DEG, 1,
    )  # fmt: skip
    height = np.asarray(90.0 - zenith, dtype=np.float64)
    turned = np.asarray(azimuth % 360.0, dtype=np.float64)
    return DayPath(np.asarray(clock_s / 3600.0, dtype=np.float64), height, turned)
