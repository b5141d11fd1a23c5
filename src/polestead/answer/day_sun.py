"""What the new array gives on one day of the year at each tilt: a dull, a middle and a bright day of that week."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from polestead.answer.supply import BLOCK_YEARS, Skies, daily_wh_by_tilt
from polestead.base.source import Source
from polestead.base.working import Step, Working
from polestead.homestead.model import Place
from polestead.homestead.read import OwnersFile
from polestead.mount.geometry import Geometry
from polestead.site.noon import solar_noon
from polestead.site.place import clock_offset_hours

EITHER_SIDE_DAYS = 3  # days alike are taken together: ours
POINTS = (0.1, 0.5, 0.9)
DRAWN = Source("the weather of the answer, day by day: dirt, glass and warmth counted, the glass free of snow", "docs/method", "ours")  # fmt: skip


@dataclass(frozen=True, eq=False)
class SunOfDays:
    """Energy of the new array by tilt and day.

    Attributes:
        tilt_deg: [tilts].
        wh: 10, 50 and 90 % points [3, tilts, 365], 1 January first.
        years: Of weather.
    """

    tilt_deg: NDArray[np.float64]
    wh: NDArray[np.float32]
    years: int

    def of(self, tilt_deg: float, calendar_day: int) -> tuple[float, float, float]:
        """A dull, a middle and a bright day [Wh].

        Args:
            tilt_deg: The nearest that was worked.
            calendar_day: 1 to 365.
        """
        place = int(np.abs(self.tilt_deg - tilt_deg).argmin())
        low, middle, high = self.wh[:, place, calendar_day - 1].tolist()
        return low, middle, high

    def working(self, tilt_deg: float, calendar_day: int) -> Working:
        """How the middle day comes about."""
        low, middle, high = self.of(tilt_deg, calendar_day)
        days = 2 * EITHER_SIDE_DAYS + 1
        note = "At the array, snow off the glass, before controller, wire and battery: the house may take less."
        return Working(
            f"sun of the day at {tilt_deg:g} degrees", (
                Step("years of weather", "n", "", float(self.years), "", DRAWN),
                Step("days of each year, three either side", "d", "", float(days), "", DRAWN),
                Step("one day in ten gives less than", "E10", f"10 % point of {self.years} x {days} days", low, "W h", DRAWN),
                Step("one day in ten gives more than", "E90", f"90 % point of {self.years} x {days} days", high, "W h", DRAWN),
                Step("the middle day gives", "E50", f"middle of {self.years} x {days} days", middle, "W h", DRAWN),
            ), (note,),
        )  # fmt: skip


def sun_of_days(
    owners: OwnersFile, geometry: Geometry, tilts_deg: NDArray[np.float64], seed: int
) -> SunOfDays:
    """Worked over the first block of the answer's years, the glass free of snow; a second or two.

    What lies on the glass hangs on how it stood before, which is another question than where to set it today.

    Args:
        owners: The file as read.
        geometry: Of the mount.
        tilts_deg: At which tilts [tilts].
        seed: Of the draw, the answer's own.
    """
    file = owners.homestead
    skies = Skies(file, owners.path.parent, geometry, BLOCK_YEARS, seed)
    sun = next(skies.blocks())
    sun = replace(sun, weather=replace(sun.weather, fresh_snow_m=None))
    daily = daily_wh_by_tilt(
        file.array, file.mount.facing_deg, sun, tilts_deg
    )  # [tilts, years, 365]
    alike = [np.roll(daily, shift, axis=2) for shift in range(-EITHER_SIDE_DAYS, EITHER_SIDE_DAYS + 1)]  # fmt: skip
    points = np.quantile(np.concatenate(alike, axis=1), POINTS, axis=1).astype(np.float32)
    by_day = np.empty_like(points)
    by_day[:, :, sun.year.calendar_day - 1] = points
    return SunOfDays(tilts_deg, by_day, daily.shape[1])


def noon_height_deg(place: Place, on: date) -> float:
    """How high the sun stands at its highest on a date [deg]."""
    return _noon_height_deg(place.latitude_deg, place.longitude_deg, place.elevation_m, clock_offset_hours(place), on)  # fmt: skip


@lru_cache(maxsize=64)
def _noon_height_deg(latitude_deg: float, longitude_deg: float, elevation_m: float, offset_h: float, on: date) -> float:  # fmt: skip
    return solar_noon(latitude_deg, longitude_deg, elevation_m, offset_h, on).height_deg
