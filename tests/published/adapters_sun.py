"""One hour, one day, one year around our own sun and clearness."""

from __future__ import annotations

from functools import cache

import numpy as np

from polestead.base.hours import MONTH_DAYS
from polestead.site.days import bendt_clearness
from polestead.site.sunpath import SunPath, sun_path
from polestead.site.synthetic import diffuse_share
from polestead.sun.plane import plane_at_tilts_w_m2
from polestead.sun.view import OpenSky

MEAN_DAYS = (17, 47, 75, 105, 135, 162, 198, 228, 258, 288, 318, 344)


def median_day(mean: float) -> float:
    return float(bendt_clearness(np.array(mean), np.array(0.5)))


def erbs(clearness: np.ndarray) -> np.ndarray:
    return diffuse_share(clearness)


def hay_davies_w_m2() -> float:
    """One hour: the sun at zenith 60 due south, the plane at 60 to the south."""
    one = np.ones(1)
    path = SunPath(60.0 * one, 180.0 * one, 1400.0 * one, 700.0 * one, 7)
    found = plane_at_tilts_w_m2(
        path, OpenSky(one, 1.0), 500.0 * one, 800.0 * one, 100.0 * one, 60.0 * one, 180.0, 0.2 * one
    )
    return float(found[0, 0])


@cache
def _path(latitude_deg: float) -> SunPath:
    return sun_path(latitude_deg, 0.0, 0.0, 0.0)


def _january_first(values: np.ndarray) -> np.ndarray:
    """From July-first order back to the calendar."""
    return np.roll(values, sum(MONTH_DAYS[:6]) * 24).reshape(365, 24)


def outside_mj_m2(latitude_deg: float) -> list[float]:
    """Irradiation outside the air on a level plane on the mean day of each month."""
    days = _january_first(_path(latitude_deg).extra_flat_w_m2).sum(axis=1) * 3600.0 / 1e6
    return [float(days[day - 1]) for day in MEAN_DAYS]


def compass_error_deg(year: float, height_km: float, north: float, east: float) -> float:
    """Our declination at a decimal year; the model's own rows stand on the first or the middle of a year."""
    from datetime import date

    from polestead.sun.compass import declination_deg

    day = date(int(year), 1, 1) if year == int(year) else date(int(year), 7, 2)
    return declination_deg(north, east, 1000.0 * height_km, day)
