"""The uses as power by the hour."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from polestead.base.hours import DAYS, working_year
from polestead.base.problem import Problem, Wrong
from polestead.homestead.words import Use

Floats = NDArray[np.float64]
_NORTH_WINTER = (10, 11, 12, 1, 2, 3)


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
    """The days of the working year on which a use runs, spread evenly; each use starts on another day of the week.

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
    if use.season == "all year":
        return runs
    winter: NDArray[np.bool_] = np.isin(year.month_of_day, _NORTH_WINTER)
    if start_month != 7:
        winter = ~winter
    return runs & (winter if use.season == "winter" else ~winter)


def uses_by_hour_w(uses: tuple[Use, ...], start_month: int) -> Floats:
    """Mean power of all uses in each hour of the working year; a use is spread evenly over its window.

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
        day_w = use.power_w * use.hours_per_day * window / window.sum()
        total += np.outer(days_of(use, start_month, nth), day_w).ravel()
    if problems:
        raise Wrong(problems)
    return total


def _too_long(use: Use, window_h: float) -> Problem:
    return Problem(
        "household.uses",
        use.name,
        f'"{use.written}": {use.hours_per_day:g} h a day',
        f"at most the {window_h:g} h of its time of day",
        "Give it a longer time of day, or fewer hours.",
    )
