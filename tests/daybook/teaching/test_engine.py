from __future__ import annotations

import numpy as np
import pytest

from polestead.daybook.teaching.engine import months_beside, use_factor_after
from polestead.daybook.teaching.series import seen_of

FACTORS = np.geomspace(0.5, 2.5, 9)
DAYS = np.datetime64("2026-11-01") + np.arange(120)  # November to February


def _years(factor: float, seed: int = 3) -> np.ndarray:
    """Engine hours [years, 12]: the more the house uses, steeply more."""
    rng = np.random.default_rng(seed)
    return rng.gamma(9.0, 3.0, (60, 12)) * factor**2.2


def _log(hours_a_day: float):
    return seen_of(DAYS, np.ones(120), engine_h=np.full(120, hours_a_day))


def test_a_month_is_laid_beside_the_same_month_of_all_years() -> None:
    rows = months_beside(_log(1.0), np.tile(np.arange(10.0)[:, None] + 25.0, (1, 12)))
    assert [(row.month, row.seen) for row in rows] == [(11, 30.0), (12, 31.0), (1, 31.0), (2, 28.0)]
    january = rows[2]
    # years 25..34: 10, 50, 90 % points 25.9, 29.5, 33.1; six of ten need less than 31
    assert (january.good, january.median, january.bad) == pytest.approx((25.9, 29.5, 33.1))
    assert january.share_below == pytest.approx(0.6)
    assert january.within


def test_days_that_are_missing_are_taken_as_the_others() -> None:
    hours = np.full(120, 1.0)
    hours[31:41] = np.nan  # ten days of December
    rows = months_beside(seen_of(DAYS, np.ones(120), engine_h=hours), np.ones((10, 12)))
    assert rows[1].seen == pytest.approx(31.0)
    assert rows[1].days == 21
    hours[31:50] = np.nan
    rows = months_beside(seen_of(DAYS, np.ones(120), engine_h=hours), np.ones((10, 12)))
    assert [row.month for row in rows] == [11, 1, 2]  # too few days of December


def test_a_planted_house_use_is_found_in_nine_of_ten_winters_and_only_proposed() -> None:
    hours_at = np.stack([_years(factor) for factor in FACTORS])
    truth, held, proposed = 1.4, 0, 0
    month = DAYS.astype("datetime64[M]").astype(int) % 12
    for truly in _years(truth, seed=8):
        rows = months_beside(seen_of(DAYS, np.ones(120), engine_h=truly[month] / 30.4), _years(1.0))
        update = use_factor_after((1.2, 0.5, 2.4), rows, FACTORS, hours_at)
        held += update.low <= truth <= update.high
        assert update.proposed == bool(update.sentence)
        far = use_factor_after((0.7, 0.6, 0.9), rows, FACTORS, hours_at)
        proposed += far.proposed and "use_factor" in far.sentence
    assert held >= 47  # of 60, nine in ten wanted: fewer come less than once in a hundred
    assert proposed >= 30


def test_a_house_as_listed_is_left_as_it_is() -> None:
    hours_at = np.stack([_years(factor) for factor in FACTORS])
    middle = np.median(_years(1.0), axis=0)
    engine = np.array([middle[m] / 30.4 for m in DAYS.astype("datetime64[M]").astype(int) % 12])
    rows = months_beside(seen_of(DAYS, np.ones(120), engine_h=engine), _years(1.0))
    update = use_factor_after((1.0, 0.8, 1.25), rows, FACTORS, hours_at)
    assert update is not None
    assert not update.proposed
    assert update.sentence == ""
    assert update.factor == pytest.approx(1.0, abs=0.08)


def test_without_engine_hours_nothing_is_said() -> None:
    assert use_factor_after((1.0, 0.8, 1.2), (), FACTORS, np.ones((9, 5, 12))) is None


def test_fuel_is_compared_by_the_year() -> None:
    days = np.datetime64("2026-01-01") + np.arange(365)
    fuel = np.zeros(365)
    fuel[[40, 200, 330]] = 150.0
    rows = months_beside(seen_of(days, np.ones(365), fuel_l=fuel), np.ones((5, 12)), np.full((5, 12), 30.0))  # fmt: skip
    (row,) = [one for one in rows if one.word == "fuel"]
    assert (row.year, row.month, row.seen, row.median) == (2026, 0, 450.0, 360.0)
    assert not row.within  # 450 less a tenth is over 360
