"""The uses as power by the hour."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from polestead.base.hours import DAYS, dark_months, working_year
from polestead.base.problem import Problem, Wrong
from polestead.homestead.words import Use
from polestead.household.plan import Waiting, nothing_waits

Floats = NDArray[np.float64]


def hours_in_window(from_hour: float, to_hour: float) -> Floats:
    """How much of each hour of the day lies in a window; equal ends are the whole day.

    Args:
        from_hour: Start [0, 24).
        to_hour: End (0, 24]; smaller than the start when it runs over midnight.

    Returns:
        Share of each hour [24].

    Example:
        >>> hours_in_window(22.5, 1.0)[[22, 23, 0, 1]].tolist()
        [0.5, 1.0, 1.0, 0.0]
    """
    starts = np.arange(24.0)

    def overlap(start: float, end: float) -> Floats:
        inside: Floats = np.minimum(starts + 1.0, end) - np.maximum(starts, start)
        return np.maximum(inside, 0.0)

    if from_hour < to_hour:
        return overlap(from_hour, to_hour)
    if from_hour == to_hour:
        return np.ones(24)
    return overlap(from_hour, 24.0) + overlap(0.0, to_hour)


def days_of(use: Use, start_month: int, nth: int) -> NDArray[np.bool_]:
    """The days of the working year on which a use runs.

    Weekdays and weekends are taken as such, the working year beginning on a Monday (ours: no year is meant); other shares are
    spread evenly, each use starting on another day.

    Winter is October to March north of the equator, April to September south of it.

    Args:
        use: The use.
        start_month: First month of the working year.
        nth: Its place in the list.

    Returns:
        [365].
    """
    year = working_year(start_month)
    day = np.arange(DAYS) + nth
    runs: NDArray[np.bool_] = np.floor((day + 1) * use.share_of_days + 1e-9) > np.floor(
        day * use.share_of_days + 1e-9
    )
    if use.days != "any":
        runs = (np.arange(DAYS) % 7 < 5) == (use.days == "weekdays")
    if use.season == "all year":
        return runs
    winter: NDArray[np.bool_] = np.isin(year.month_of_day, dark_months(start_month))
    return runs & (winter if use.season == "winter" else ~winter)


def uses_by_hour_w(uses: tuple[Use, ...], start_month: int) -> Floats:
    """Mean power of all uses that do not wait, in each hour of the working year; a use is spread evenly over its window.

    Args:
        uses: As read from the file.
        start_month: First month of the working year.

    Returns:
        [8760] W, at the sockets.

    Raises:
        Wrong: Where a use runs longer than its window.
    """
    total = np.zeros(DAYS * 24)
    problems = []
    for nth, use in enumerate(uses):
        window = hours_in_window(use.from_hour, use.to_hour)
        if use.hours_per_day > window.sum() + 1e-6:
            problems.append(_too_long(use, float(window.sum())))
            continue
        if use.waits_days is not None:
            continue
        day_w = use.power_w * use.hours_per_day * window / window.sum()
        total += np.outer(days_of(use, start_month, nth), day_w).ravel()
    if problems:
        raise Wrong(problems)
    return total


def waiting_of(uses: tuple[Use, ...], start_month: int, factor: float = 1.0) -> Waiting:
    """The uses that wait for sun, as the hourly loop sees them.

    Args:
        uses: As read from the file.
        start_month: First month of the working year.
        factor: House-use factor: energy of each day times this.
    """
    chosen = [(nth, use) for nth, use in enumerate(uses) if use.waits_days is not None]
    if not chosen:
        return nothing_waits(DAYS)
    return Waiting(
        power_w=np.array([use.power_w for _, use in chosen]),
        day_wh=np.array([use.power_w * use.hours_per_day * factor for _, use in chosen]),
        from_hour=np.array([np.floor(use.from_hour) for _, use in chosen]),
        to_hour=np.array([np.ceil(use.to_hour) for _, use in chosen]),
        patience_days=np.array([use.waits_days or 0.0 for _, use in chosen]),
        wanted=np.array([days_of(use, start_month, nth) for nth, use in chosen]),
    )


def _too_long(use: Use, window_h: float) -> Problem:
    return Problem(
        "household.uses",
        use.name,
        f'"{use.written}": {use.hours_per_day:g} h a day',
        f"at most the {window_h:g} h of its time of day",
        "Give it a longer time of day, or fewer hours.",
    )
