"""The house under the sun: without the new array, with it, and under every habit."""

from __future__ import annotations

import os
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from itertools import islice

import numpy as np

from polestead.answer.fortnight import Fortnight, bad_year, worst_fortnight
from polestead.answer.supply import (
    BLOCK_YEARS,
    KEPT_YEARS,
    Single,
    Skies,
    Sun,
    daily_wh_by_tilt,
    lying_by_day_m,
    new_power_w,
    old_supply,
    with_new,
)
from polestead.base.spread import Spread, spread
from polestead.habits.habits import Prices, habits_of, saving, tipping_worth
from polestead.habits.result import Habit, TippingWorth
from polestead.habits.search import allowed_angles
from polestead.homestead.model import Homestead
from polestead.household.likeness import UseFit, beside_last_winter, house_use, known_of
from polestead.household.result import Beside, HouseSummary, HouseYears, joined
from polestead.household.run import run_by_hour, run_house, summary
from polestead.loads.pressure import EN, map_gust_m_s
from polestead.money.saved import Saved
from polestead.mount.geometry import Geometry, lowest_edge_m
from polestead.mount.schedule import Habitual, TiltSchedule
from polestead.site.gusts import EN_MAP_YEARS, MAP_YEARS, gusts_of_map
from polestead.site.weather import WeatherYears
from polestead.stand.result import TiltStand

CORES = os.cpu_count() or 1
FIT_YEARS = 25  # enough for the spread of the figures of last winter
TILT_STEP_DEG = 5.0  # between the angles the search for habits tries


@dataclass(frozen=True, slots=True)
class IfTheWeatherIsOff:
    """Engine hours and fuel, were the climate brighter or darker by all its source may be off; 25 years each.

    Attributes:
        brighter_without, brighter_with: Engine hours without the new array, and with it.
        brighter_fuel_without_l, brighter_fuel_with_l: Fuel by the thirstier end of the fuel line.
        darker_without, darker_with, darker_fuel_without_l, darker_fuel_with_l: The same.
    """

    brighter_without: Spread
    brighter_with: Spread
    brighter_fuel_without_l: Spread
    brighter_fuel_with_l: Spread
    darker_without: Spread
    darker_with: Spread
    darker_fuel_without_l: Spread
    darker_fuel_with_l: Spread


@dataclass(frozen=True, slots=True)
class Winter:
    """Does it carry us through winter.

    Attributes:
        without: The house as it is.
        with_new: With the new array, moved as the owner plans.
        saved_hours: Year by year, without minus with: good, median and bad *saving*.
        weather: Where the weather comes from, in words.
        winter_error: Share by which winter sun may be off because of it.
        if_off: What that does to the engine hours; None where the years were measured.
        notes: What stands beside the figures.
        beside: The owner's own figures of last winter beside the years without the new array, with the factor used.
        use_factor: House-use factor all uses are taken times.
        use_fit: How it was fitted to last winter; None where no figure is known, or the owner writes the factor himself.
        start_month: First month of the working year, 7 or 1 (conventions §7).
        fortnight: The worst fourteen days of a bad year, with the new array.
        a_guess: True until the figures of last winter lie inside what the years without the array gave, or are waived.
    """

    without: HouseSummary
    with_new: HouseSummary
    saved_hours: Spread
    weather: str
    winter_error: float
    if_off: IfTheWeatherIsOff | None
    notes: tuple[str, ...]
    beside: tuple[Beside, ...]
    use_factor: float
    use_fit: UseFit | None
    start_month: int
    a_guess: bool
    fortnight: Fortnight


class HouseOnSun:
    """One house under the weather of its place, run under any habit; each habit is run once."""

    def __init__(self, file: Homestead, skies: Skies, use_factor: float | None = None) -> None:
        self._file = file
        self._skies = skies
        self._done: dict[Habitual | None, tuple[HouseYears, float]] = {}
        self._old: dict[int, dict[str, list[Single]]] = {}
        house = file.household
        self.known = known_of(house.last_winter, house.engine.tank_l if house.engine else None)
        given = use_factor or house.use_factor
        self.use_fit = None if given else house_use(self._as_it_was, self.known)
        # a fit that ends where the trying ends points at something else: it is told, not used
        fitted = self.use_fit.factor if self.use_fit and not self.use_fit.at_edge else 1.0
        self.use_factor = given or fitted
        self.prices = Prices(file.prices.engine_hour, file.prices.fuel_per_l)

    def without(self) -> HouseYears:
        """All years without the new array."""
        return self._all(None)[0]

    def under(self, habit: Habitual) -> HouseYears:
        """All years with the new array under a habit."""
        return self._all(habit)[0]

    def sun_wh_year(self, habit: Habitual) -> float:
        """Energy of the new array in a mean year under a habit."""
        return self._all(habit)[1]

    def _as_it_was(self, factor: float) -> HouseYears:
        """Without the new array, all uses times a factor, over enough years to know their spread."""
        return self._worked(None, FIT_YEARS, factor)[0]

    def few(self, habit: Habitual | None, controller: str | None = None) -> HouseYears:
        """The first block of years only, for searches.

        Args:
            habit: Of the new array; None: without it.
            controller: It hangs on; None: the one in the file.
        """
        return self._worked(habit, BLOCK_YEARS, self.use_factor, controller)[0]

    def _all(self, habit: Habitual | None) -> tuple[HouseYears, float]:
        if habit not in self._done:
            self._done[habit] = self._worked(habit, None, self.use_factor)
        return self._done[habit]

    def _worked(
        self,
        habit: Habitual | None,
        years: int | None,
        factor: float,
        controller: str | None = None,
    ) -> tuple[HouseYears, float]:
        """Blocks of years, as many at a time as the machine has cores; the same on one."""
        with ThreadPoolExecutor(max_workers=CORES) as pool:
            done: list[tuple[HouseYears, float]] = []
            blocks = self._skies.blocks(years)
            while some := list(islice(blocks, CORES)):
                done += pool.map(lambda sun: self._block(habit, sun, factor, controller), some)
        total = sum(energy for _, energy in done)
        joined_years = joined([years for years, _ in done])
        return joined_years, total / joined_years.dark_hours.size

    def with_less(self, habit: Habitual, left: Callable[[Sun, Single], Single]) -> HouseYears:
        """The first block of years with the new array's power changed before it reaches the controller.

        Args:
            habit: How it is tipped.
            left: From the block and the power [years, 8760] to what is left of it, the same shape.
        """
        file = self._file
        sun = next(self._skies.blocks(BLOCK_YEARS))
        power = left(sun, new_power_w(file.array, file.mount.facing_deg, sun, habit))
        return run_house(
            file.household, with_new(self._old_supply(sun), file.array.controller, power), sun.weather.air_c, sun.path.start_month,
            file.place.elevation_m, self.use_factor, sun.first,
        )  # fmt: skip

    def _block(
        self, habit: Habitual | None, sun: Sun, factor: float, controller: str | None
    ) -> tuple[HouseYears, float]:
        """One block, and the energy of the new array in all its years."""
        file, energy = self._file, 0.0
        supply = self._old_supply(sun)
        if habit is not None:
            power = new_power_w(file.array, file.mount.facing_deg, sun, habit)
            supply = with_new(supply, controller or file.array.controller, power)
            energy = float(power.sum(dtype=np.float64))
        years = run_house(
            file.household, supply, sun.weather.air_c, sun.path.start_month, file.place.elevation_m, factor, sun.first,
        )  # fmt: skip
        return years, energy

    def worst_fortnight(self, habit: Habitual) -> Fortnight:
        """The worst fourteen days of a bad year under a habit, hour by hour; that year's block is run once more."""
        year = bad_year(self.under(habit))
        sun = next(one for one in self._skies.blocks() if year < one.first + one.weather.air_c.shape[0])  # fmt: skip
        file = self._file
        power = new_power_w(file.array, file.mount.facing_deg, sun, habit)
        hours = run_by_hour(
            file.household, with_new(self._old_supply(sun), file.array.controller, power), sun.weather.air_c, sun.path.start_month,
            file.place.elevation_m, self.use_factor, sun.first,
        )  # fmt: skip
        return worst_fortnight(hours, year - sun.first, sun.year.calendar_day)

    def _old_supply(self, sun: Sun) -> dict[str, list[Single]]:
        """Of the arrays that are there; kept as long as the weather itself is kept."""
        if self._skies.years > KEPT_YEARS:
            return old_supply(self._file.household, sun)
        if sun.first not in self._old:
            self._old[sun.first] = old_supply(self._file.household, sun)
        return self._old[sun.first]

    def habits(
        self, plan: TiltSchedule, geometry: Geometry, card: tuple[TiltStand, ...]
    ) -> tuple[Habit, ...]:
        """Ways of tipping, judged on this house.

        No habit holds a tilt that does not stand, locked, to the gust of one year (for rarer storms it is laid flat), nor one
        whose low edge would be under the snow that lies in one winter of ten.

        Args:
            plan: The owner's own moves.
            geometry: Of the mount, for its low edge.
            card: What each tilt stands to.
        """
        mount = self._file.mount
        least, steepest = mount.least_tilt_deg, mount.steepest_tilt_deg
        tilts = np.unique(np.append(np.arange(least, steepest, TILT_STEP_DEG), steepest))
        sun = next(self._skies.blocks())
        edges = lowest_edge_m(geometry, tilts)
        wanted_m = np.maximum(mount.clear_below_m, lying_by_day_m(sun))
        stands = np.interp(
            tilts, [row.tilt_deg for row in card], [row.stands_to_m_s for row in card]
        )
        place = self._file.place
        gust = map_gust_m_s(place.wind_basis, place.wind_speed_m_s)
        years = EN_MAP_YEARS if place.wind_basis == EN else MAP_YEARS
        yearly = gusts_of_map(gust, map_years=years).gust_of_m_s(1.0)
        allowed = allowed_angles(
            tilts,
            least,
            steepest,
            edges,
            np.minimum(wanted_m, float(edges.max())),
            stands,
            np.full(365, min(yearly, float(stands.max()))),
        )
        return habits_of(
            (plan, *self._own_moves()),
            daily_wh_by_tilt(self._file.array, mount.facing_deg, sun, tilts),
            sun.clearness,
            sun.year.calendar_day,
            sun.year.month_of_day,
            tilts,
            allowed,
            self.under,
            self.few,
            self.sun_wh_year,
            self._moves_a_year,
            self.prices,
        )

    def leaned(self, plan: TiltSchedule, leaning: Callable[[float], Skies]) -> tuple[HouseOnSun, HouseOnSun]:  # fmt: skip
        """The same house, its uses as fitted, under a brighter and under a darker climate; run under the plan.

        Args:
            plan: The owner's own moves.
            leaning: Weather laid to the bright (1) or the dark side (-1).
        """

        def under(lean: float) -> HouseOnSun:
            other = HouseOnSun(self._file, leaning(lean), self.use_factor)
            other.without(), other.under(plan)
            return other

        with ThreadPoolExecutor(max_workers=CORES) as pool:
            brighter, darker = pool.map(under, (1.0, -1.0))
        return brighter, darker

    def tipping(
        self, habits: tuple[Habit, ...], leaned: tuple[HouseOnSun, ...] = ()
    ) -> TippingWorth | None:
        """What the actuator earns in sun at this house, and were the climate brighter or darker."""
        return tipping_worth(
            habits, self.under, self.prices, tuple(house.under for house in leaned)
        )

    def _own_moves(self) -> tuple[TiltSchedule, ...]:
        moves = self._file.mount.own_move_list
        return (TiltSchedule("your own dates", moves),) if moves else ()

    def _moves_a_year(self, habit: Habitual) -> float:
        if isinstance(habit, TiltSchedule):
            return habit.moves_a_year
        tilts = next(self._skies.blocks()).tilts_of(habit, self._file.mount.facing_deg)
        return float((np.diff(tilts, axis=1) != 0.0).sum(axis=1).mean())


def if_off_of(plan: TiltSchedule, leaned: tuple[HouseOnSun, ...]) -> IfTheWeatherIsOff | None:
    """What the error of the weather's source does to hours and fuel; None where years were measured."""
    told: list[Spread] = []
    for house in leaned:
        both = (house.without(), house.under(plan))
        told += [spread(years.engine_hours.sum(axis=1)) for years in both]
        told += [spread(years.fuel_most_l) for years in both]
    return IfTheWeatherIsOff(*told) if told else None


def saved_under(without: HouseYears, with_new: HouseYears) -> Saved:
    """Engine hours and fuel (low end, high end) that the new array saves, year by year."""
    return (
        without.engine_hours.sum(axis=1) - with_new.engine_hours.sum(axis=1),
        without.fuel_least_l - with_new.fuel_least_l,
        without.fuel_most_l - with_new.fuel_most_l,
    )


def _source_of(weather: WeatherYears) -> str:
    """The kind of years, where their source does not begin with it already."""
    source = str(weather.source)
    return source if source.startswith(weather.kind) else f"{weather.kind}: {source}"


def winter_of(
    file: Homestead,
    house: HouseOnSun,
    skies: Skies,
    without: HouseYears,
    with_new_years: HouseYears,
    if_off: IfTheWeatherIsOff | None,
    fortnight: Fortnight,
) -> Winter:
    """The second answer."""
    beside = beside_last_winter(without, house.known)
    saved = without.engine_hours.sum(axis=1) - with_new_years.engine_hours.sum(axis=1)
    return Winter(
        without=summary(without),
        with_new=summary(with_new_years),
        saved_hours=saving(saved),
        weather=_source_of(skies.weather),
        winter_error=skies.weather.winter_error,
        if_off=if_off,
        notes=(*_snow_note(file), *skies.weather.notes, *without.notes),
        beside=beside,
        use_factor=house.use_factor,
        use_fit=house.use_fit,
        start_month=skies.path.start_month,
        a_guess=not (
            file.household.last_winter.waived or (beside and all(r.within for r in beside))
        ),
        fortnight=fortnight,
    )


def _snow_note(file: Homestead) -> tuple[str, ...]:
    """How snow on the glass is counted."""
    if file.climate.snowfall_m == 0.0:
        return ()
    swept = "swept by nine in the morning" if file.array.swept else "left to slide"
    known = (
        "scaled to your own figure"
        if file.climate.snowfall_m is not None
        else "by a rough rule from cold and dull days, good to half and double: the weather office knows climate.snowfall"
    )
    return (f"Snow on the glass is counted, {swept}: fresh snow {known}.",)
