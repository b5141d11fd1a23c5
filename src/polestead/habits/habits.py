"""Ways of tipping over the year: searched by worth, judged through the house."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from polestead.base.hours import DAYS, MONTH_DAYS, MONTH_STARTS
from polestead.base.source import Source
from polestead.base.spread import Spread, spread
from polestead.base.working import Step, Working
from polestead.habits.result import Habit, TippingWorth
from polestead.habits.search import best_moves, by_day, on_round_dates
from polestead.household.result import HouseYears
from polestead.mount.schedule import EachDaysBest, Habitual, SkyRule, TiltSchedule

Floats = NDArray[np.float64]
OURS = Source("the house run under both, year by year", status="ours")
# Where the house lacks nothing more sun still fills the bank a little better: a small weight keeps such months in the choice.
_SPARE_WEIGHT = 0.02
MATTERS = 0.05  # of the engine hours: a mean difference beyond it is told apart; ours
DRAWS = 400  # of the bootstrap
ROUNDS = 2  # search, judge, weigh again
MOVES = ((2, "two moves"), (4, "four moves"))
DULL_UNDER = (0.15, 0.2, 0.25, 0.3, 0.35, 0.4)  # clearness of a day that counts as dull, tried


@dataclass(frozen=True, slots=True)
class Prices:
    """What an engine hour and a litre cost, in the owner's currency."""

    engine_hour: float = 0.0
    fuel_per_l: float = 0.0


def need_by_month(years: HouseYears) -> Floats:
    """How much one more watt-hour of sun is worth to the house in each month, the neediest month 1.

    A month with engine hours (or, in a house without an engine, a low charge at dawn) needs sun; a month that turns sun away
    does not.  Ours: a weight for the search only; the house itself judges what it finds.

    Args:
        years: The house under some moves.

    Returns:
        [12].
    """
    lack = years.engine_hours.mean(axis=0) / np.array(MONTH_DAYS)
    if lack.max() <= 0.0:
        lack = 1.0 - np.minimum(years.dawn_charge.mean(axis=0), 1.0)
    turned = (years.full_wh + years.acceptance_wh + years.held_back_wh).mean(axis=0)
    used = years.sun_used_wh.mean(axis=0)
    taken = np.divide(used, used + turned, out=np.ones(12), where=used + turned > 0.0)
    need: Floats = lack / max(float(lack.max()), 1e-12) * taken + _SPARE_WEIGHT * taken
    return need / max(float(need.max()), 1e-12)


def moved(
    name: str,
    worth: Floats,
    tilts_deg: Floats,
    moves: int,
    no_move: NDArray[np.bool_] | None = None,
) -> TiltSchedule:
    """The schedule of so many moves that is worth most, on round dates where those cost nothing.

    Args:
        name: In words.
        worth: Minus infinity where a tilt may not stand [365, tilts].
        tilts_deg: [tilts].
        moves: At most.
        no_move: Days on which nobody is there [365].
    """
    found = on_round_dates(worth, best_moves(worth, moves, no_move=no_move))
    return TiltSchedule(name, tuple((day + 1, float(tilts_deg[tilt])) for day, tilt in found))


def monthly(worth: Floats, tilts_deg: Floats) -> TiltSchedule:
    """The best tilt of each month, moved on its first day; no move to the tilt that holds already.

    Args:
        worth: [365, tilts].
        tilts_deg: [tilts].
    """
    best = [float(tilts_deg[np.argmax(worth[days].sum(axis=0))]) for days in _months()]
    kept = tuple((MONTH_STARTS[m] + 1, best[m]) for m in range(12) if best[m] != best[m - 1])
    return TiltSchedule("monthly", kept or ((1, best[0]),))


def _months() -> list[slice]:
    """The days of each month of the calendar year."""
    return [slice(first, end) for first, end in pairwise((*MONTH_STARTS, DAYS))]


def sky_rule(
    wh: NDArray[np.float32],
    clearness: Floats,
    month_of_day: NDArray[np.int64],
    tilts_deg: Floats,
    allowed: NDArray[np.bool_],
) -> SkyRule:
    """The rule of two angles a month, one for dull mornings, that makes most sun.

    Args:
        wh: Energy at each tilt on each day [tilts, years, days].
        clearness: Of those days [years, days].
        month_of_day: [days].
        tilts_deg: [tilts].
        allowed: Tilts that may stand in every month [12, tilts].
    """

    def best(sky: NDArray[np.bool_], days: NDArray[np.bool_], month: int) -> tuple[float, float]:
        """The angle that makes most on these days of the month under such a sky, and what it makes."""
        counted = (
            sky if sky.any() else np.ones_like(sky)
        )  # never seen: the month's own best will do
        sums = np.where(allowed[month - 1], (wh[:, :, days] * counted).sum(axis=(1, 2)), -1.0)
        return float(tilts_deg[np.argmax(sums)]), float(sums.max()) if sky.any() else 0.0

    tried: list[tuple[float, SkyRule]] = []
    for under in DULL_UNDER:
        dull = clearness < under
        clear_best, dull_best = [], []
        for month in range(1, 13):
            days = month_of_day == month
            clear_best.append(best(~dull[:, days], days, month))
            dull_best.append(best(dull[:, days], days, month))
        rule = SkyRule(
            "daily, by the sky",
            tuple(tilt for tilt, _ in clear_best),
            tuple(tilt for tilt, _ in dull_best),
            under,
        )
        tried.append((sum(wh for _, wh in clear_best + dull_best), rule))
    return max(tried, key=lambda one: one[0])[1]


def habits_of(
    own: tuple[TiltSchedule, ...],
    daily_wh: NDArray[np.float32],
    clearness: Floats,
    calendar_day: NDArray[np.int64],
    month_of_day: NDArray[np.int64],
    tilts_deg: Floats,
    allowed: NDArray[np.bool_],
    house_with: Callable[[Habitual], HouseYears],
    few_years_with: Callable[[Habitual], HouseYears],
    sun_wh_year: Callable[[Habitual], float],
    moves_a_year: Callable[[Habitual], float],
    prices: Prices,
) -> tuple[Habit, ...]:
    """Fixed at its best angle, two moves, four, monthly, daily by the sky, the owner's own; best first, then the bound.

    The worth of a watt-hour by day comes from the house under the last moves tried; searched by dynamic programming, judged
    over a few years by the house, weighed again; what is kept is judged over all years.

    Args:
        own: The owner's own moves, the first of them the plan.
        daily_wh: Energy of the new array at each tilt [tilts, years, days of the working year].
        clearness: Of those days [years, days].
        calendar_day: 1 to 365, of each day of the working year [365].
        month_of_day: 1 to 12 [365].
        tilts_deg: [tilts].
        allowed: Which tilts may stand, by calendar day [365, tilts].
        house_with: Runs the house under a habit over all years.
        few_years_with: The same over a few years.
        sun_wh_year: Energy of the new array in a mean year under a habit.
        moves_a_year: Walks to the pole under a habit.
        prices: Of engine hours and fuel.
    """
    mean_wh = np.empty((calendar_day.size, tilts_deg.size))
    mean_wh[calendar_day - 1] = daily_wh.mean(axis=1, dtype=np.float64).T
    bounded = np.where(allowed, mean_wh, -np.inf)
    months = np.array([allowed[month_days].all(axis=0) for month_days in _months()])
    found: list[Habitual] = [_best_fixed(bounded, tilts_deg, few_years_with)]
    found += _searched(own[0], bounded, tilts_deg, few_years_with)
    found.append(monthly(bounded, tilts_deg))
    found.append(sky_rule(daily_wh, clearness, month_of_day, tilts_deg, months))
    kept = {
        _key(habit): habit for habit in reversed([*own, *found])
    }  # of two alike the owner's own words
    bound = EachDaysBest("each day's best on bare glass, could one know", tuple(float(t) for t in tilts_deg[months.all(axis=0)]))  # fmt: skip
    habits = list(reversed(kept.values()))
    runs = [(habit, house_with(habit)) for habit in [*habits, bound]]
    return _judged(runs, sun_wh_year, moves_a_year, prices)


def _key(habit: Habitual) -> object:
    return habit.moves if isinstance(habit, TiltSchedule) else habit


def _best_fixed(
    bounded: Floats, tilts_deg: Floats, few_years_with: Callable[[Habitual], HouseYears]
) -> TiltSchedule:
    """The fixed tilt with the fewest engine and dark hours, sought among those that may stand all year."""
    may = np.flatnonzero(np.isfinite(bounded).all(axis=0))
    if may.size == 0:
        may = np.flatnonzero(np.isfinite(bounded).any(axis=0))

    def fixed(n: int) -> TiltSchedule:
        return TiltSchedule("fixed at its best", ((1, float(tilts_deg[may[n]])),))

    def hours(n: int) -> tuple[float, float]:
        """Fewer hours first; where no hour tells two apart, more sun used."""
        years = few_years_with(fixed(n))
        return float(lacking_hours(years).mean()), -float(years.sun_used_wh.sum())

    at, step = may.size // 2, max(may.size // 4, 1)
    tried: dict[int, tuple[float, float]] = {}
    while True:
        for n in (at - step, at, at + step):
            if 0 <= n < may.size and n not in tried:
                tried[n] = hours(n)
        best = min(tried, key=lambda n: tried[n])
        if best == at and step == 1:
            return fixed(at)
        if best == at:
            step = max(step // 2, 1)
        at = best


def _searched(
    plan: TiltSchedule,
    bounded: Floats,
    tilts_deg: Floats,
    few_years_with: Callable[[Habitual], HouseYears],
) -> list[TiltSchedule]:
    """For each number of moves the best of the rounds, judged by the house over a few years."""
    best: dict[str, tuple[float, TiltSchedule]] = {}
    judged = few_years_with(plan)
    for _ in range(ROUNDS):
        worth = np.where(
            np.isfinite(bounded), bounded * by_day(need_by_month(judged))[:, None], -np.inf
        )
        for moves, name in MOVES:
            schedule = moved(name, worth, tilts_deg, moves)
            years = few_years_with(schedule)
            lack = float(lacking_hours(years).mean())
            if name not in best or lack < best[name][0]:
                best[name] = (lack, schedule)
            judged = years
    return [schedule for _, schedule in best.values()]


def lacking_hours(years: HouseYears) -> Floats:
    """Hours of engine and hours in the dark together: what a habit is judged by [years]."""
    lacking: Floats = years.engine_hours.sum(axis=1) + years.dark_hours
    return lacking


def mean_difference(hours: Floats, best: Floats, seed: int = 0) -> tuple[float, float]:
    """Between what the mean of the yearly differences of two habits surely lies: its 90 % bootstrap interval.

    Args:
        hours: Of one habit [years].
        best: Of the best, the same years in the same weather [years].
        seed: Of the bootstrap.

    Example:
        >>> mean_difference(np.array([5.0, 5.0, 5.0]), np.array([4.0, 4.0, 4.0]))
        (1.0, 1.0)
    """
    more = hours - best
    picks = np.random.default_rng(seed).integers(0, more.size, size=(DRAWS, more.size))
    low, high = np.quantile(more[picks].mean(axis=1), (0.05, 0.95))
    return float(low), float(high)


def cannot_be_told_apart(hours: Floats, best: Floats) -> bool:
    """Whether no owner could say which of two habits he lived under.

    The year-by-year difference has a 90 % interval (5 to 95 % points) that holds zero, and the mean difference is not surely
    more than a twentieth of the lesser mean (ours): a habit that loses in nine winters of ten is not the same as one that wins.

    Args:
        hours: Of one habit [years].
        best: Of the best, the same years in the same weather [years].

    Example:
        >>> cannot_be_told_apart(np.array([5.0, 3.0, 4.0]), np.array([4.0, 4.0, 4.0]))
        True
    """
    low, high = np.quantile(hours - best, (0.05, 0.95))
    least, most = mean_difference(hours, best)
    matters = MATTERS * min(float(hours.mean()), float(best.mean()))
    return bool(low <= 0.0 <= high and least <= matters and most >= -matters)


def saving(hours: Floats) -> Spread:
    """Spread of a figure where more is better: good is its 90 % point, bad its 10 % point (conventions §14).

    Args:
        hours: Saved, one value a year [years].

    Example:
        >>> told = saving(np.arange(101.0))
        >>> told.good, told.median, told.bad
        (90.0, 50.0, 10.0)
    """
    turned = spread(-hours)
    return Spread(
        0.0 - turned.good,
        0.0 - turned.median,
        0.0 - turned.bad,
        0.0 - turned.bad_high,
        0.0 - turned.bad_low,
        0.0 - turned.mean,
        turned.years,
    )


Run = tuple[Habitual, HouseYears]


def _judged(
    runs: list[Run],
    sun_wh_year: Callable[[Habitual], float],
    moves_a_year: Callable[[Habitual], float],
    prices: Prices,
) -> tuple[Habit, ...]:
    """Best first, bracketed, the bound last."""
    runs = sorted(runs, key=lambda run: (isinstance(run[0], EachDaysBest), float(lacking_hours(run[1]).mean())))  # fmt: skip
    fixed = min(
        (lacking_hours(years) for habit, years in runs if _stays(habit)),
        key=lambda hours: float(hours.mean()),
    )
    best = lead = lacking_hours(runs[0][1])
    group, told = 1, []
    for habit, years in runs:
        hours = lacking_hours(years)
        if not isinstance(habit, EachDaysBest) and not cannot_be_told_apart(hours, lead):
            group, lead = group + 1, hours
        same = cannot_be_told_apart(hours, best)
        made, walks = sun_wh_year(habit), moves_a_year(habit)
        more = mean_difference(hours, best)
        told.append(_habit(habit, years, fixed - hours, prices, made, walks, same, group, more))
    return tuple(told)


def _stays(habit: Habitual) -> bool:
    return isinstance(habit, TiltSchedule) and len(habit.moves) == 1


def _cost(years: HouseYears, fuel_l: Floats, prices: Prices) -> Floats:
    hours = years.engine_hours.sum(axis=1)
    return np.asarray(hours * prices.engine_hour + fuel_l * prices.fuel_per_l)


def _habit(
    habit: Habitual,
    years: HouseYears,
    saved: Floats,
    prices: Prices,
    sun_wh_year: float,
    moves_a_year: float,
    same: bool,
    group: int,
    more_than_best: tuple[float, float],
) -> Habit:
    return Habit(
        schedule=habit,
        engine_hours=spread(years.engine_hours.sum(axis=1)),
        fuel_least_l=spread(years.fuel_least_l),
        fuel_most_l=spread(years.fuel_most_l),
        dark_hours=spread(years.dark_hours),
        saves_hours=saving(saved),
        cost_least=spread(_cost(years, years.fuel_least_l, prices)),
        cost_most=spread(_cost(years, years.fuel_most_l, prices)),
        sun_wh_year=sun_wh_year,
        used_wh_year=float(years.sun_used_wh.sum(axis=1).mean()),
        moves_a_year=moves_a_year,
        engine_hours_by_month=_plain(years.engine_hours.mean(axis=0)),
        engine_hours_bad_by_month=_plain(np.quantile(years.engine_hours, 0.9, axis=0)),
        sun_used_wh_by_month=_plain(years.sun_used_wh.mean(axis=0)),
        sun_used_low_wh_by_month=_plain(np.quantile(years.sun_used_wh, 0.1, axis=0)),
        sun_used_high_wh_by_month=_plain(np.quantile(years.sun_used_wh, 0.9, axis=0)),
        turned_away_wh_by_month=_plain(
            (years.full_wh + years.acceptance_wh + years.held_back_wh).mean(axis=0)
        ),
        same_as_best=same,
        group=group,
        more_than_best_h=more_than_best,
        a_bound=isinstance(habit, EachDaysBest),
    )


def _plain(values: Floats) -> tuple[float, ...]:
    return tuple(float(value) for value in values)


def tipping_worth(
    habits: tuple[Habit, ...],
    house_with: Callable[[Habitual], HouseYears],
    prices: Prices,
    if_off: tuple[Callable[[Habitual], HouseYears], ...] = (),
) -> TippingWorth | None:
    """The best way of moving against the best fixed tilt, year by year.

    Args:
        habits: As judged.
        house_with: Hands back the house under a habit already run.
        prices: Of engine hours and fuel.
        if_off: Runs the house were the climate brighter, and were it darker, by the error of its source.

    Returns:
        None where nothing moves, or nothing stays.
    """
    moving = next((h for h in habits if not h.a_bound and not _stays(h.schedule)), None)
    fixed = next((h for h in habits if _stays(h.schedule)), None)
    if moving is None or fixed is None or not isinstance(fixed.schedule, TiltSchedule):
        return None
    with_moves, still = house_with(moving.schedule), house_with(fixed.schedule)
    hours_still, hours_moved = lacking_hours(still), lacking_hours(with_moves)
    saved = hours_still - hours_moved
    ends = [
        _cost(still, still.fuel_least_l, prices)
        - _cost(with_moves, with_moves.fuel_least_l, prices),
        _cost(still, still.fuel_most_l, prices) - _cost(with_moves, with_moves.fuel_most_l, prices),
    ]
    low, high = sorted(ends, key=lambda money: float(money.mean()))
    tilt = fixed.schedule.moves[0][1]
    steps = (
        Step("engine and dark hours, fixed at its best", "h_f", "mean of the years", float(hours_still.mean()), "h", OURS),
        Step("engine and dark hours, moved", "h_m", "mean of the years", float(hours_moved.mean()), "h", OURS),
        Step("saved in a mean year", "h_s", "h_f - h_m", float(saved.mean()), "h", OURS),
        Step("saved in the median year", "h_50", f"50 % point of {saved.size} years' differences", float(np.median(saved)), "h", OURS),
    )  # fmt: skip
    other = [
        lacking_hours(house(fixed.schedule)) - lacking_hours(house(moving.schedule))
        for house in if_off
    ]
    return TippingWorth(
        moving.schedule.name, tilt, saving(saved), saving(low), saving(high), tuple(float(np.mean(hours)) for hours in other),
        not cannot_be_told_apart(hours_still, hours_moved),
        Working("what tipping earns in sun", steps),
    )  # fmt: skip
