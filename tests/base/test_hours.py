"""The working year (conventions §6, §7)."""

from __future__ import annotations

import numpy as np
import pytest

from polestead.base.hours import MONTH_DAYS, working_year, working_year_at


@pytest.mark.parametrize(("latitude", "first", "last"), [(47.0, 7, 6), (0.0, 7, 6), (-35.0, 1, 12)])
def test_a_winter_lies_whole_in_it(latitude: float, first: int, last: int) -> None:
    year = working_year_at(latitude)
    assert (year.month[0], year.month[-1]) == (first, last)


@pytest.mark.parametrize("start", [1, 7])
def test_every_hour_of_the_calendar_stands_once(start: int) -> None:
    year = working_year(start)
    assert (
        len(
            {
                (day, hour)
                for day, hour in zip(year.day_of_year.tolist(), year.hour.tolist(), strict=True)
            }
        )
        == 8760
    )
    assert tuple(np.bincount(year.month)[1:] // 24) == MONTH_DAYS


@pytest.mark.parametrize("start", [1, 7])
def test_a_january_run_is_turned_to_where_its_own_hours_are(start: int) -> None:
    year = working_year(start)
    hour_of_january = np.arange(8760.0)
    assert (year.from_january(hour_of_january) == (year.day_of_year - 1) * 24 + year.hour).all()
    assert (year.from_january(np.arange(1.0, 366.0)) == year.calendar_day).all()


def test_the_calendar_cannot_be_changed() -> None:
    with pytest.raises(ValueError, match="read-only"):
        working_year(7).month[0] = 1
