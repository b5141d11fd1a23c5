"""Good, median and bad year (conventions §14)."""

from __future__ import annotations

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from polestead.base.spread import spread


@given(st.lists(st.floats(0.0, 1e4), min_size=2, max_size=60))
def test_points_are_in_order_and_inside_the_years(values: list[float]) -> None:
    found = spread(np.array(values))
    assert min(values) <= found.good <= found.median <= found.bad <= max(values)
    assert found.bad_low <= found.bad_high
    assert found.years == len(values)


def test_the_interval_of_the_bad_year_holds_the_true_point_nine_times_in_ten() -> None:
    rng = np.random.default_rng(7)
    truth = np.quantile(rng.gamma(4.0, 20.0, 400_000), 0.9)
    draws = [spread(rng.gamma(4.0, 20.0, 100), seed=k) for k in range(200)]
    inside = np.mean([found.bad_low <= truth <= found.bad_high for found in draws])
    # 200 trials of a 90 % interval: two standard errors are 4 points; a percentile bootstrap at n = 100 runs a little short
    assert 0.82 <= inside <= 0.96


def test_the_same_seed_gives_the_same_interval() -> None:
    values = np.random.default_rng(1).normal(100.0, 20.0, 100)
    assert spread(values, seed=3) == spread(values, seed=3)
