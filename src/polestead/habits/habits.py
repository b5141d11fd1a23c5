"""Ways of tipping over the year, found from the array's monthly energy and judged through the house."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray

from polestead.base.hours import MONTH_DAYS
from polestead.base.spread import Spread, spread
from polestead.habits.result import Habit
from polestead.habits.search import best_moves, by_half_month, half_month_days, without_repeats
from polestead.household.result import HouseYears
from polestead.mount.schedule import TiltSchedule

Floats = NDArray[np.float64]
FIXED = ("fixed for winter", "fixed for the year")
# Where the house lacks nothing more sun still fills the bank a little better: a small weight keeps such months in the choice.
_SPARE_WEIGHT = 0.02


def need_by_month(years: HouseYears) -> Floats:
    """How much one more watt-hour of sun is worth to the house in each month, the neediest month 1.

    A month with engine hours (or, in a house without an engine, a low charge at dawn) needs sun; a month that turns sun away
    does not.  Ours: a first weight for the search only; the house itself judges what it finds.

    Args:
        years: The house under the owner's own moves.

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


def candidates(
    least_tilt_deg: float,
    steepest_tilt_deg: float,
    monthly_wh_by_tilt: Floats,
    tilts_deg: Floats,
    need: Floats,
) -> tuple[TiltSchedule, ...]:
    """The schedules worth trying: fixed for winter, fixed for the year, two moves, four moves, monthly.

    Args:
        least_tilt_deg: Bound of the mount [deg].
        steepest_tilt_deg: Bound of the mount [deg].
        monthly_wh_by_tilt: Mean energy of the new array [12, tilts].
        tilts_deg: [tilts].
        need: Worth of a watt-hour by month [12].

    Returns:
        One schedule each; angles are among ``tilts_deg``, dates on the 1st or the 16th.
    """
    within = (tilts_deg >= least_tilt_deg - 1e-9) & (tilts_deg <= steepest_tilt_deg + 1e-9)
    if not within.any():
        held = TiltSchedule(
            FIXED[0], ((1, float(np.clip(tilts_deg[0], least_tilt_deg, steepest_tilt_deg))),)
        )
        return (held,)
    tilts, energy = tilts_deg[within], monthly_wh_by_tilt[:, within]
    worth = by_half_month(energy * need[:, None])
    days = half_month_days()

    def named(name: str, moves: tuple[tuple[int, int], ...]) -> TiltSchedule:
        return TiltSchedule(name, tuple((days[half], float(tilts[tilt])) for half, tilt in moves))

    monthly = tuple((2 * month, int(np.argmax(energy[month]))) for month in range(12))
    return (
        named(FIXED[0], best_moves(worth, 1)),
        named(FIXED[1], best_moves(by_half_month(energy), 1)),
        named("two moves", best_moves(worth, 2)),
        named("four moves", best_moves(worth, 4)),
        named("monthly", without_repeats(monthly)),
    )


def habits_of(
    least_tilt_deg: float,
    steepest_tilt_deg: float,
    own: TiltSchedule,
    monthly_wh_by_tilt: NDArray[np.float64],
    tilts_deg: NDArray[np.float64],
    house_with: Callable[[TiltSchedule], HouseYears],
    sun_wh_year: Callable[[TiltSchedule], float],
) -> tuple[Habit, ...]:
    """Fixed at its best winter and its best year angle, two moves, four, monthly, and the owner's own; best first.

    Args:
        least_tilt_deg: Least tilt of the mount [deg].
        steepest_tilt_deg: Steepest tilt of the mount [deg].
        own: The owner's own moves (winter and summer tilt of the mount section).
        monthly_wh_by_tilt: Mean energy of the new array by month (January first) and tilt [12, tilts].
        tilts_deg: [tilts].
        house_with: Runs the house with the new array under a schedule; called once for each schedule.
        sun_wh_year: Energy of the new array in a mean year under a schedule.

    Returns:
        Habits by their mean of engine and dark hours, best first.
    """
    owned = house_with(own)
    found = candidates(
        least_tilt_deg, steepest_tilt_deg, monthly_wh_by_tilt, tilts_deg, need_by_month(owned)
    )
    judged = {own.moves: owned}
    for schedule in found:
        if schedule.moves not in judged:
            judged[schedule.moves] = house_with(schedule)
    runs = [(schedule, judged[schedule.moves]) for schedule in (own, *found)]
    runs.sort(key=lambda run: float(lacking_hours(run[1]).mean()))
    best = lacking_hours(runs[0][1])
    fixed = next(lacking_hours(years) for schedule, years in runs if schedule.name in FIXED)
    return tuple(_habit(schedule, years, best, fixed, sun_wh_year) for schedule, years in runs)


def lacking_hours(years: HouseYears) -> Floats:
    """Hours of engine and hours in the dark together: what a habit is judged by [years]."""
    lacking: Floats = years.engine_hours.sum(axis=1) + years.dark_hours
    return lacking


def cannot_be_told_apart(hours: Floats, best: Floats) -> bool:
    """Whether the year-by-year difference of two habits has a 90 % interval (5 to 95 % points) that holds zero.

    Args:
        hours: Of one habit [years].
        best: Of the best, the same years in the same weather [years].

    Example:
        >>> cannot_be_told_apart(np.array([5.0, 3.0, 4.0]), np.array([4.0, 4.0, 4.0]))
        True
    """
    low, high = np.quantile(hours - best, (0.05, 0.95))
    return bool(low <= 0.0 <= high)


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


def _habit(
    schedule: TiltSchedule,
    years: HouseYears,
    best: Floats,
    fixed: Floats,
    sun_wh_year: Callable[[TiltSchedule], float],
) -> Habit:
    hours = lacking_hours(years)
    return Habit(
        schedule=schedule,
        engine_hours=spread(years.engine_hours.sum(axis=1)),
        fuel_most_l=spread(years.fuel_most_l),
        dark_hours=spread(years.dark_hours),
        saves_hours=saving(fixed - hours),
        sun_wh_year=sun_wh_year(schedule),
        used_wh_year=float(years.sun_used_wh.sum(axis=1).mean()),
        same_as_best=cannot_be_told_apart(hours, best),
    )
