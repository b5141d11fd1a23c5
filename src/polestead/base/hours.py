"""The hours of the working year (conventions §6 and §7).

A working year has 8760 hours, [start, end) in local standard time, and begins so that a winter lies whole in it:
on 1 July north of the equator, on 1 January south of it.  A leap day is left out.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

import numpy as np
from numpy.typing import NDArray

HOURS = 8760
DAYS = 365
MONTH_DAYS = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
MONTH_STARTS = tuple(sum(MONTH_DAYS[:month]) for month in range(12))  # days before each month
MONTH_NAMES = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")

Ints = NDArray[np.int64]


@dataclass(frozen=True, slots=True, eq=False)
class WorkingYear:
    """Calendar of one working year.

    Attributes:
        start_month: 7 (north) or 1 (south).
        month: Month of each hour, 1 to 12 [8760].
        day_of_year: Calendar day of each hour, 1 to 365 [8760].
        hour: Hour of the day of each hour, 0 to 23 [8760].
        day: Day counted from the start of the working year, 0 to 364 [8760].
        month_of_day: Month of each day of the working year, 1 to 12 [365].
        calendar_day: Calendar day (1 to 365) of each day of the working year [365].
    """

    start_month: int
    month: Ints
    day_of_year: Ints
    hour: Ints
    day: Ints
    month_of_day: Ints
    calendar_day: Ints

    def from_january(self, values: NDArray[np.floating]) -> NDArray[np.floating]:
        """Turn a January-to-December run so that it starts where the working year does.

        Args:
            values: Last axis has 8760 hours or 365 days from 1 January.

        Returns:
            The same values in working-year order, same shape.
        """
        days_before = MONTH_STARTS[self.start_month - 1]
        per_day = values.shape[-1] // DAYS
        return np.roll(values, -days_before * per_day, axis=-1)


@cache
def working_year(start_month: int) -> WorkingYear:
    """The calendar of the working year that starts with the given month.

    Example:
        >>> year = working_year(7)
        >>> int(year.month[0]), int(year.day_of_year[0]), int(year.month[-1])
        (7, 182, 6)
    """
    january = np.repeat(np.arange(1, 13), MONTH_DAYS)
    shift = -MONTH_STARTS[start_month - 1]
    month_of_day = np.roll(january, shift)
    calendar_day = np.roll(np.arange(1, DAYS + 1), shift)
    arrays = (
        np.repeat(month_of_day, 24),
        np.repeat(calendar_day, 24),
        np.tile(np.arange(24), DAYS),
        np.repeat(np.arange(DAYS), 24),
        month_of_day,
        calendar_day,
    )
    for array in arrays:
        array.setflags(write=False)
    return WorkingYear(start_month, *arrays)


def working_year_at(latitude_deg: float) -> WorkingYear:
    """The working year of a place: July to June in the north, January to December in the south."""
    return working_year(7 if latitude_deg >= 0.0 else 1)


def dark_months(start_month: int) -> tuple[int, ...]:
    """The dark half of the year: October to March north of the equator, April to September south of it.

    Args:
        start_month: First month of the working year, which tells the side.

    Example:
        >>> dark_months(7), dark_months(1)
        ((1, 2, 3, 10, 11, 12), (4, 5, 6, 7, 8, 9))
    """
    return (1, 2, 3, 10, 11, 12) if start_month == 7 else (4, 5, 6, 7, 8, 9)


def between_months(
    by_month: NDArray[np.floating], at_day: NDArray[np.floating] | Ints
) -> NDArray[np.float64]:
    """Monthly figures read on days, in a straight line between the middles of the months, round the year.

    Args:
        by_month: January first [12].
        at_day: Days since the start of January [days].

    Returns:
        [days].

    Example:
        >>> between_months(np.arange(12.0), np.array([15.5, 45.0])).tolist()
        [0.0, 1.0]
    """
    middle = np.array(MONTH_STARTS) + np.array(MONTH_DAYS) / 2.0
    around = np.concatenate([middle - DAYS, middle, middle + DAYS])
    return np.asarray(np.interp(at_day, around, np.tile(by_month, 3)))
