"""The homestead's own drawn years made ready for its log: skies at every tilt, what the house does, what foresight saves."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date

import numpy as np

from polestead.answer.stands import strongback_kg_of
from polestead.answer.supply import (  # fmt: skip
    Single,
    Skies,
    Sun,
    bare_power_w,
    new_power_w,
    old_supply,
    with_new,
)
from polestead.answer.winter import HouseOnSun
from polestead.base.quantity import units
from polestead.daybook.daybook import Kept
from polestead.daybook.days import A_MOVE_DEG, Day, days
from polestead.daybook.teaching.foresight import NOT_KNOWN, MonthRuns, drawn_sentence
from polestead.daybook.teaching.from_days import series_of
from polestead.daybook.teaching.months import MonthFactor
from polestead.daybook.teaching.series import Bools, Floats, Ints
from polestead.daybook.teaching.skies import (  # fmt: skip
    HouseDays,
    SkyTable,
    calendar_place,
    expected_from,
    house_days,
    sky_table,
)
from polestead.daybook.teaching.taught import House, Taught, taught_of
from polestead.daybook.teaching.trees import Growth, Tree
from polestead.homestead.model import Homestead, View
from polestead.homestead.read import OwnersFile
from polestead.household.result import HouseYears
from polestead.household.run import run_by_hour, run_house
from polestead.mount.geometry import geometry_of
from polestead.mount.schedule import TiltSchedule, two_tilts
from polestead.sun.view import OpenSky, open_sky, skyline

YEARS, SEED = 25, 1
TILT_STEP_DEG = 10.0  # energy bends little between: under half a percent (cos 5 degrees)
LOW_SUN_DEG = 12.0  # where no trees stand, beam under this height is low; ours
OVER_TREES_DEG = 4.0  # beam so little over the trees is what they take as they grow; ours
FACTORS = np.geomspace(0.6, 1.8, 7)  # house-use factors the house is run with
UNKNOWN_USE = (1.0, 0.6, 1.67)  # where neither winter's figures nor the file tell it; ours
GROWTHS_M = (0.1, 0.3, 0.6, 1.2)  # a year, tried
FROST_C, FROST_SHARE = 0.0, 0.1  # a month in which one day in ten is colder may see snow; ours
MONTHS_TOLD, LEAST_DAYS = 12, 20  # of the log, told with foresight; days with a tilt a month needs


@dataclass(frozen=True, slots=True, eq=False)
class OwnYears:
    """A homestead's drawn years made ready.

    Attributes:
        table: Of skies.
        house: What else the teaching is told.
        usual_tilt_deg: What the plan holds by day of the calendar [365].
    """

    table: SkyTable
    house: House
    usual_tilt_deg: Floats


def taught_from(owners: OwnersFile, entries: Sequence[Kept], today: date) -> Taught:
    """All that a daybook teaches of a homestead; some seconds, more for a log of many years.

    Args:
        owners: The file as read.
        entries: From ``Daybook.entries``.
        today: The last day looked at.

    Raises:
        Wrong: As ``answer_of``.
    """
    counted = [one for one in entries if one.struck is None and one.entry.moment.day <= today]
    if not counted:
        return taught_of(series_of(()), expected_from((), _NO_SKIES, np.zeros(365))[0])
    rolled = days(counted, min(one.entry.moment.day for one in counted), today)
    own = _Own(owners, rolled)
    years = own.years()
    expected, notes = expected_from(rolled, years.table, years.usual_tilt_deg)
    taught = taught_of(series_of(rolled), expected, years.house)
    return replace(taught, foresight=own.foresight(taught.months), notes=(*notes, *taught.notes))


_NOTHING = np.full((1, 365), np.nan)
_NO_SKIES = SkyTable(np.zeros(1), _NOTHING, _NOTHING, _NOTHING, _NOTHING, np.zeros(365))


class _Own:
    """The house under its skies, tipped as the log says."""

    def __init__(self, owners: OwnersFile, rolled: Sequence[Day]) -> None:
        file = owners.homestead
        geometry = geometry_of(file.mount, file.array, strongback_kg_of(file.mount, file.array))
        self.file, self.rolled = file, rolled
        self.skies = Skies(file, owners.path.parent, geometry, YEARS, SEED)
        self.sun = next(self.skies.blocks())
        self.on_sun = HouseOnSun(file, self.skies)
        plan = TiltSchedule("your own dates", file.mount.own_move_list) if file.mount.own_move_list else two_tilts(file.mount.winter_tilt_deg, file.mount.summer_tilt_deg, file.place.latitude_deg)  # fmt: skip
        self.usual = plan.tilt_by_hour_deg(np.arange(1, 366))
        self.held = held_by_calendar(rolled, self.usual)
        steepest = file.mount.steepest_tilt_deg
        self.tilts = np.unique(np.append(np.arange(file.mount.least_tilt_deg, steepest, TILT_STEP_DEG), steepest))  # fmt: skip
        self.old = old_supply(file.household, self.sun)
        self.power = [self._bare(np.full(365, tilt), self.sun) for tilt in self.tilts]

    def years(self) -> OwnYears:
        """Table and house."""
        order = np.argsort(self.sun.year.calendar_day)
        daily = np.array([_daily(power)[:, order] for power in self.power])
        snowless = replace(self.sun, weather=replace(self.sun.weather, fresh_snow_m=None))
        old, bare = _summed(self.old)[:, order], _summed(old_supply(self.file.household, snowless))[:, order]  # fmt: skip
        snowy = new_power_w(self.file.array, self.file.mount.facing_deg, self.sun, _schedule(self.held))  # fmt: skip
        table = sky_table(self.tilts, daily, bare, 1.0 - old / np.maximum(bare, 1.0), self._low_sun(order), days_of_house(self.file, self.sun, self.old, snowy, self.held, self.on_sun.use_factor))  # fmt: skip
        return OwnYears(table, self._house(snowy), self.usual)

    def foresight(self, months: Sequence[MonthFactor]) -> tuple[str, ...]:
        """A sentence for each of the last months of the log."""
        told = _months_with_tilt(self.rolled)[-MONTHS_TOLD:]
        if not told or self.file.household.engine is None:
            return ()
        factor = np.ones(12)
        for one in months:
            factor[one.month - 1] = one.factor
        scale = np.repeat(factor[self.sun.year.month_of_day - 1], 24).astype(np.float32)
        by_day = np.array([_daily(power) for power in self.power])
        best = np.argmax(by_day, axis=0)  # [years, 365]
        tall = np.array([power.reshape(-1, 365, 24) for power in self.power])
        years, at = np.indices(best.shape)
        best_power = tall[best, years, at].reshape(self.power[0].shape)
        did = self._run(self._bare(self._working(self.held), self.sun) * scale, self.on_sun.use_factor)  # fmt: skip
        known = self._run(best_power * scale, self.on_sun.use_factor)
        moves = (np.abs(np.diff(self.tilts[best].ravel(), prepend=self.tilts[best[0, 0]])) >= A_MOVE_DEG).reshape(best.shape)  # fmt: skip
        said = [self._sentence(year, month, did, known, moves, float(factor[month - 1])) for year, month in told]  # fmt: skip
        return (*said, NOT_KNOWN)

    def _sentence(
        self, year: int, month: int, did: HouseYears, known: HouseYears, moves: Bools, factor: float
    ) -> str:
        here = [one for one in self.rolled if (one.day.year, one.day.month) == (year, month)]
        hours = [one.engine_hours for one in here if one.engine_hours is not None]
        fuel = [0.5 * (run.fuel_least_l_by_month + run.fuel_most_l_by_month)[:, month - 1] for run in (did, known)]  # fmt: skip
        runs = MonthRuns(
            did.engine_hours[:, month - 1], known.engine_hours[:, month - 1], fuel[0] - fuel[1],
            sum(one.moves for one in here), float(moves[:, self.sun.year.month_of_day == month].sum(axis=1).mean()), factor,
        )  # fmt: skip
        logged = sum(hours) if len(hours) >= LEAST_DAYS else None
        litres, per_litre = ("gal", 1.0 / units()["gal"].factor) if self.file.units == "feet" else ("l", 1.0)  # fmt: skip
        return drawn_sentence(year, month, runs, logged, litres, per_litre)

    def _bare(self, tilts_by_day: Floats, sun: Sun) -> Single:
        return bare_power_w(self.file.array, self.file.mount.facing_deg, sun, tilts_by_day[None])

    def _working(self, by_calendar: Floats) -> Floats:
        """Figures by day of the calendar in the order of the working year."""
        return by_calendar[self.sun.year.calendar_day - 1]

    def _run(self, power: Single, factor: float) -> HouseYears:
        file = self.file
        return run_house(
            file.household, with_new(self.old, file.array.controller, power), self.sun.weather.air_c, self.sun.path.start_month,
            file.place.elevation_m, factor, self.sun.first,
        )  # fmt: skip

    def _low_sun(self, order: Ints) -> Floats:
        """Share of the energy that comes as low beam [tilts, 365], at three tilts and between them."""
        file, sun = self.file, self.sun
        low = low_sun_hours(file, sun)
        high = replace(sun, sky=OpenSky(np.where(low, 0.0, sun.sky.beam_share), sun.sky.sky_share))
        at = np.unique(np.linspace(0, self.tilts.size - 1, 3).astype(int))
        shares = []
        for nth in at:
            all_wh = _daily(self.power[nth]).mean(axis=0)
            rest = _daily(self._bare(np.full(365, self.tilts[nth]), high)).mean(axis=0)
            shares.append((1.0 - rest / np.maximum(all_wh, 1.0))[order])
        return np.array([[np.interp(tilt, self.tilts[at], one) for one in np.array(shares).T] for tilt in self.tilts])  # fmt: skip

    def _house(self, power: Single) -> House:
        file, house = self.file, self.on_sun
        runs = self._run(power, house.use_factor)
        at = np.array([self._run(power, float(factor)).engine_hours for factor in FACTORS])
        engine = file.household.engine is not None
        return House(
            strings=file.array.in_parallel,
            freezing_months=_freezing_months(self.sun),
            hours_by_year=runs.engine_hours if engine else None,
            fuel_by_year=0.5 * (runs.fuel_least_l_by_month + runs.fuel_most_l_by_month) if engine else None,
            use=_use(house) if engine else None,
            factors=FACTORS, hours_at=at, trees=trees_of(file.view), growth=growth_of(file, self.skies, self.sun), units=file.units,
        )  # fmt: skip


def days_of_house(
    file: Homestead, sun: Sun, old: dict[str, list[Single]], power: Single, held_deg: Floats, use_factor: float
) -> HouseDays:  # fmt: skip
    """What the house does on each day of the calendar, run hour by hour over a block of years.

    Args:
        file: The homestead.
        sun: The block.
        old: Supply of the arrays that were there.
        power: Of the new array, snow counted [years, 8760].
        held_deg: Its tilt by day of the calendar [365].
        use_factor: All uses times this.
    """
    supply = with_new(old, file.array.controller, power)
    hours = run_by_hour(
        file.household, supply, sun.weather.air_c, sun.path.start_month, file.place.elevation_m, use_factor, sun.first,
    )  # fmt: skip
    share = _daily(power) / np.maximum(_summed(supply), 1.0)
    tilts = held_deg[sun.year.calendar_day - 1][None]
    could = _daily(bare_power_w(file.array, file.mount.facing_deg, sun, tilts))
    return house_days(hours.charge, hours.engine_h, share * _daily(hours.sun_used_wh), could, sun.year.calendar_day)  # fmt: skip


def held_by_calendar(rolled: Sequence[Day], usual_deg: Floats) -> Floats:
    """Tilt by day of the calendar as last held; the plan's where the log holds none [365].

    Args:
        rolled: Every day in order.
        usual_deg: What the plan holds [365].
    """
    held = usual_deg.astype(float).copy()
    for one in rolled:
        if one.tilt_held_deg is not None:
            held[calendar_place(one.day)] = one.tilt_held_deg
    return held


def _schedule(held: Floats) -> TiltSchedule:
    """The same as moves."""
    moved = np.flatnonzero(np.diff(held, prepend=np.nan) != 0.0)
    return TiltSchedule("as you tipped it", tuple((int(day) + 1, float(held[day])) for day in moved))  # fmt: skip


def _months_with_tilt(rolled: Sequence[Day]) -> list[tuple[int, int]]:
    count: dict[tuple[int, int], int] = {}
    for one in rolled:
        if one.entries and one.tilt_held_deg is not None:
            count[one.day.year, one.day.month] = count.get((one.day.year, one.day.month), 0) + 1
    return [month for month, written in count.items() if written >= LEAST_DAYS]


def _use(house: HouseOnSun) -> tuple[float, float, float]:
    fit = house.use_fit
    if fit is not None and not fit.at_edge:
        return fit.factor, fit.low, fit.high
    return UNKNOWN_USE if house.use_factor == 1.0 else (house.use_factor,) * 3


def _freezing_months(sun: Sun) -> tuple[int, ...]:
    day_c = sun.weather.air_c.reshape(-1, 365, 24).mean(axis=2)
    months = sun.year.month_of_day
    return tuple(month for month in range(1, 13) if (day_c[:, months == month] < FROST_C).mean() > FROST_SHARE)  # fmt: skip


def trees_of(view: View) -> tuple[Tree, ...]:
    """The rows of trees the file holds as spans, with their number in ``[[view.skyline]]``.

    Args:
        view: From the file.
    """
    return tuple(
        Tree(nth, one.from_bearing_deg, one.to_bearing_deg, one.lets_through_winter, one.away_m, one.grows_m)
        for nth, one in enumerate(view.skyline, 1)
        if one.what == "trees"
    )  # fmt: skip


def low_sun_hours(file: Homestead, sun: Sun) -> Bools:
    """Hours in which the sun stands low: behind trees or little over them; where none stand, under a fixed height [8760].

    Args:
        file: For place and view.
        sun: A block of years.
    """
    place, mount = file.place, file.mount
    layers = skyline(file.view, place.latitude_deg, place.longitude_deg, place.elevation_m, mount.hinge_height_m)  # fmt: skip
    trees = [layer.height_deg for layer in layers if layer.winter > 0.0 or layer.summer > 0.0]
    edge = np.max(trees, axis=0) if trees else np.zeros(720)
    low_under = np.where(edge > 0.0, edge + OVER_TREES_DEG, 0.0 if trees else LOW_SUN_DEG)
    at = np.floor(sun.path.azimuth_deg * low_under.size / 360.0).astype(np.int64) % low_under.size
    return np.asarray(90.0 - sun.path.zenith_deg < low_under[at])


def growth_of(file: Homestead, skies: Skies, sun: Sun) -> Growth | None:
    """What trees that grow so much in a year take of the low sun; None where no tree of the file has its distance.

    Args:
        file: For view and place.
        skies: For the sun's path.
        sun: A block of years.
    """
    if not any(one.away_m is not None for one in trees_of(file.view)):
        return None
    place, low = file.place, low_sun_hours(file, sun)
    beam = (sun.weather.beam_w_m2.mean(axis=0) * np.maximum(np.cos(np.radians(sun.path.zenith_deg)), 0.0))[low]  # fmt: skip

    def light(grows_m: float) -> float:
        grown = tuple(one.model_copy(update={"grows_m": grows_m}) if one.what == "trees" else one for one in file.view.skyline)  # fmt: skip
        view = file.view.model_copy(update={"skyline": grown})
        sky = open_sky(view, skies.path, place.latitude_deg, place.longitude_deg, place.elevation_m, file.mount.hinge_height_m, 1.0)  # fmt: skip
        return float((beam * sky.beam_share[low]).sum())

    now = light(0.0)
    if now <= 0.0:
        return None
    return Growth((0.0, *GROWTHS_M), (0.0, *(light(grows) / now - 1.0 for grows in GROWTHS_M)))


def _daily(power: Floats | Single) -> Floats:
    return np.asarray(np.asarray(power, dtype=float).reshape(-1, 365, 24).sum(axis=2))


def _summed(supply: Mapping[str, Sequence[Single]]) -> Floats:
    """Energy of all arrays by day [years, 365]; nothing where there are none."""
    days = [_daily(power) for powers in supply.values() for power in powers]
    return np.asarray(np.sum(days, axis=0)) if days else np.zeros((1, 365))
