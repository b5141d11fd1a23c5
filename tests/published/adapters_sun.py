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


def perez_w_m2() -> float:
    """The same hour as ``hay_davies_w_m2`` under Perez' sky."""
    one = np.ones(1)
    path = SunPath(60.0 * one, 180.0 * one, 1400.0 * one, 700.0 * one, 7)
    found = plane_at_tilts_w_m2(
        path, OpenSky(one, 1.0), 500.0 * one, 800.0 * one, 100.0 * one, 60.0 * one, 180.0, 0.2 * one, "perez"
    )  # fmt: skip
    return float(found[0, 0])


def through_glass(incidence_deg: np.ndarray) -> list[float]:
    from polestead.sun.glass import module_glass

    glass = module_glass()
    cosines = np.cos(np.radians(np.asarray(incidence_deg, dtype=float)))
    return [
        float(np.interp(c, np.linspace(0.0, 1.0, glass.beam.size), glass.beam)) for c in cosines
    ]


def snow_left_after_an_hour(tilt_deg: float, air_c: float, plane_w_m2: float) -> float:
    """Deep snow at midnight, one hour on."""
    from polestead.sun.snow_on_glass import covered_share

    hours = np.full((1, 24), plane_w_m2, dtype=np.float32)
    air = np.full((1, 24), air_c, dtype=np.float32)
    fresh = np.full((1, 1), 1.0, dtype=np.float32)
    return float(covered_share(fresh, hours, air, np.full((1, 1), tilt_deg))[0, 1])


def shares_of_a_tracker(latitude_deg: float) -> list[float]:
    """Fixed, two and four settings over a full tracker, direct light of a year of clear days, our own search of the moves.

    The clear sky is the one those shares were worked with: 1353 W/m2 x .7^(airmass^.678) (Meinel & Meinel 1976).
    """
    from pvlib.atmosphere import get_relative_airmass

    from polestead.habits.search import best_moves, worth_of

    path = _path(latitude_deg)
    mass = np.nan_to_num(get_relative_airmass(path.zenith_deg), nan=1e3)
    beam = np.where(path.zenith_deg < 89.0, 1353.0 * 0.7 ** (mass**0.678), 0.0)
    zenith = np.radians(path.zenith_deg)
    up, south = np.cos(zenith), np.sin(zenith) * np.cos(np.radians(path.azimuth_deg - 180.0))
    tilts = np.radians(np.arange(0.0, 91.0))
    on_plane = np.maximum(up[:, None] * np.cos(tilts) + south[:, None] * np.sin(tilts), 0.0)
    days = (beam[:, None] * on_plane).reshape(365, 24, -1).sum(axis=1)
    whole = float(beam.sum())
    return [100.0 * worth_of(days, best_moves(days, moves)) / whole for moves in (1, 2, 4)]


def gain_over_fixed_percent(latitude_deg: float) -> list[float]:
    """What two and four settings gain over the best fixed tilt under a clear sky."""
    fixed, two, four = shares_of_a_tracker(latitude_deg)
    return [100.0 * (two / fixed - 1.0), 100.0 * (four / fixed - 1.0)]
