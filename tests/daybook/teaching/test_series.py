from __future__ import annotations

from datetime import date

import numpy as np
import pytest

from polestead.base.problem import Wrong
from polestead.daybook.teaching.series import FULL, expected_of, paired, seen_of

DAYS = [date(2026, 1, 1), date(2026, 1, 2), date(2026, 1, 4)]


def test_a_day_that_stands_twice_is_refused() -> None:
    with pytest.raises(Wrong, match="2026-01-02"):
        seen_of([DAYS[0], DAYS[1], DAYS[1]], np.ones(3))


def test_days_out_of_order_are_refused() -> None:
    with pytest.raises(Wrong, match="oldest first"):
        seen_of(DAYS[::-1], np.ones(3))


@pytest.mark.parametrize(
    ("key", "bad"), [("charge", 1.2), ("engine_h", 25.0), ("fuel_l", -1.0), ("dawn_charge", np.inf)]
)
def test_what_cannot_be_is_told_with_its_day(key: str, bad: float) -> None:
    with pytest.raises(Wrong, match="2026-01-02"):
        seen_of(DAYS, np.ones(3), **{key: np.array([np.nan, bad, np.nan])})


def test_series_of_unlike_length_are_refused() -> None:
    with pytest.raises(Wrong, match="one a day"):
        seen_of(DAYS, np.ones(2))
    with pytest.raises(Wrong, match="3 days, as the log"):
        paired(seen_of(DAYS, np.ones(3)), expected_of(np.ones(2), np.ones(2)))


def test_the_miss_is_the_logarithm_and_a_full_battery_makes_it_at_least() -> None:
    seen = seen_of(DAYS, np.array([500.0, 1000.0, 2000.0]), charge=np.array([0.5, FULL, np.nan]))
    pairs = paired(
        seen, expected_of(np.full(3, 1000.0), np.full(3, 0.2), fills=np.array([True, False, True]))
    )
    assert pairs.miss == pytest.approx(np.log([0.5, 1.0, 2.0]))
    # the charge read counts before what the household expects; where none was read, the household speaks
    assert pairs.at_least.tolist() == [False, True, True]


def test_days_without_a_figure_and_absurd_ones_are_set_aside_and_told() -> None:
    seen = seen_of(DAYS, np.array([np.nan, 90000.0, 1000.0]))
    pairs = paired(seen, expected_of(np.array([1000.0, 1000.0, 1000.0]), np.full(3, 0.2)))
    assert pairs.days == 1
    assert len(pairs.set_aside) == 2
    assert "slipped point" in pairs.set_aside[1]


def test_nothing_expected_says_nothing() -> None:
    seen = seen_of(DAYS, np.ones(3))
    pairs = paired(seen, expected_of(np.array([0.0, np.nan, 1.0]), np.full(3, 0.2)))
    assert pairs.days == 1
