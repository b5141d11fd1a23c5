"""The house under the sun: without the new array, with it, and under every habit."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from polestead.answer.supply import (
    Single,
    Sun,
    monthly_wh_by_tilt,
    new_power_w,
    old_supply,
    with_new,
)
from polestead.base.spread import Spread
from polestead.habits.habits import habits_of, saving
from polestead.habits.result import Habit
from polestead.homestead.model import Homestead
from polestead.household.likeness import UseFit, beside_last_winter, house_use, known_of
from polestead.household.result import Beside, HouseSummary, HouseYears
from polestead.household.run import run_house, summary
from polestead.mount.schedule import TiltSchedule

FIT_YEARS = 50  # enough for the spread of the figures of last winter
TILT_STEP_DEG = 5.0  # between the angles the search for habits tries


@dataclass(frozen=True, slots=True)
class Winter:
    """Does it carry us through winter.

    Attributes:
        without: The house as it is.
        with_new: With the new array, moved as the owner plans.
        saved_hours: Year by year, without minus with: good, median and bad *saving*.
        weather: Where the weather comes from, in words.
        winter_error: Share by which winter figures may be off because of it.
        notes: What stands beside the figures.
        beside: The owner's own figures of last winter beside the years without the new array, with the factor used.
        use_factor: House-use factor all uses are taken times.
        use_fit: How it was fitted to last winter; None where no figure is known, or the owner writes the factor himself.
        start_month: First month of the working year, 7 or 1 (conventions §7).
        a_guess: True until the figures of last winter lie inside what the years without the array gave, or are waived.
    """

    without: HouseSummary
    with_new: HouseSummary
    saved_hours: Spread
    weather: str
    winter_error: float
    notes: tuple[str, ...]
    beside: tuple[Beside, ...]
    use_factor: float
    use_fit: UseFit | None
    start_month: int
    a_guess: bool


class HouseOnSun:
    """One house under one sun, run under any schedule; each schedule is run once."""

    def __init__(self, file: Homestead, sun: Sun) -> None:
        self._file = file
        self._sun = sun
        self._old = old_supply(file.household, sun)
        self._done: dict[TiltSchedule, tuple[HouseYears, float]] = {}
        house = file.household
        self.known = known_of(house.last_winter, house.engine.tank_l if house.engine else None)
        self.use_fit = None if house.use_factor else house_use(self._as_it_was, self.known)
        fitted = self.use_fit.factor if self.use_fit else 1.0
        self.use_factor = house.use_factor or fitted

    def _as_it_was(self, factor: float) -> HouseYears:
        """Without the new array, all uses times a factor, over enough years to know their spread."""
        few = {name: [power[:FIT_YEARS] for power in all_] for name, all_ in self._old.items()}
        return self._run(few, factor, FIT_YEARS)

    def without(self) -> HouseYears:
        """All years without the new array."""
        return self._run(self._old)

    def under(self, schedule: TiltSchedule) -> HouseYears:
        """All years with the new array under a schedule."""
        return self._both(schedule)[0]

    def sun_wh_year(self, schedule: TiltSchedule) -> float:
        """Energy of the new array in a mean year under a schedule."""
        return self._both(schedule)[1]

    def _both(self, schedule: TiltSchedule) -> tuple[HouseYears, float]:
        if schedule not in self._done:
            file = self._file
            power = new_power_w(file.array, file.mount.facing_deg, self._sun, schedule)
            years = self._run(with_new(self._old, file.array, power))
            self._done[schedule] = (years, float(power.sum(axis=1, dtype=np.float64).mean()))
        return self._done[schedule]

    def _run(
        self, supply: dict[str, list[Single]], factor: float | None = None, years: int | None = None
    ) -> HouseYears:
        file, sun = self._file, self._sun
        return run_house(
            file.household,
            supply,
            sun.weather.air_c[:years],
            sun.path.start_month,
            file.place.elevation_m,
            self.use_factor if factor is None else factor,
        )

    def habits(self, own: TiltSchedule) -> tuple[Habit, ...]:
        """Ways of tipping, judged on this house."""
        mount = self._file.mount
        least, steepest = mount.least_tilt_deg, mount.steepest_tilt_deg
        tilts = np.unique(np.append(np.arange(least, steepest, TILT_STEP_DEG), steepest))
        return habits_of(
            least,
            steepest,
            own,
            monthly_wh_by_tilt(self._file.array, mount.facing_deg, self._sun, tilts),
            tilts,
            self.under,
            self.sun_wh_year,
        )


def winter_of(
    file: Homestead, house: HouseOnSun, sun: Sun, without: HouseYears, with_new_years: HouseYears
) -> Winter:
    """The second answer."""
    beside = beside_last_winter(without, house.known)
    saved = without.engine_hours.sum(axis=1) - with_new_years.engine_hours.sum(axis=1)
    return Winter(
        without=summary(without),
        with_new=summary(with_new_years),
        saved_hours=saving(saved),
        weather=f"{sun.weather.kind}: {sun.weather.source}",
        winter_error=sun.weather.winter_error,
        notes=(*_snow_note(file), *sun.weather.notes, *without.notes),
        beside=beside,
        use_factor=house.use_factor,
        use_fit=house.use_fit,
        start_month=sun.path.start_month,
        a_guess=not (
            file.household.last_winter.waived or (beside and all(r.within for r in beside))
        ),
    )


def _snow_note(file: Homestead) -> tuple[str, ...]:
    """What the sums leave out where snow lies."""
    if not file.climate.snow_on_ground:
        return ()
    return (
        "Snow lying on the glass is not counted: steep glass sheds it, flat glass keeps it, and where it has no room to fall it stays. "
        "Sweep it off, or take these hours as the least.",
    )
