from __future__ import annotations

import numpy as np
import pytest

from polestead.daybook.teaching.run_length import (
    cusum_run,
    cusum_threshold,
    ratio_sum_run,
    waits,
)


@pytest.mark.parametrize("watched", [0.2, 0.5, 1.0, 2.0])
@pytest.mark.parametrize("threshold", [100.0, 3652.5])
def test_the_sum_of_ratios_is_never_wrong_oftener_than_its_threshold_says(
    watched: float, threshold: float
) -> None:
    """Pollak 1985: the mean run is at least the threshold, whatever is watched for."""
    assert ratio_sum_run(watched, threshold) >= threshold * 0.998


def test_the_chain_agrees_with_runs_drawn_one_by_one() -> None:
    rng = np.random.default_rng(3)
    runs = []
    for _ in range(1500):
        total, n = 0.0, 0
        while total < 4.0:
            total = max(0.0, total + rng.normal(0.5) - 0.5)
            n += 1
        runs.append(n)
    mean, off = float(np.mean(runs)), float(np.std(runs)) / np.sqrt(len(runs))
    assert abs(mean - cusum_run(0.5, 4.0, 0.5)) < 4.0 * off


def test_a_threshold_gives_back_its_run() -> None:
    for run in (52.0, 522.0, 3652.0):
        assert cusum_run(0.5, cusum_threshold(0.5, run)) == pytest.approx(run, rel=0.01)


def test_a_larger_fault_waits_less_and_a_smaller_budget_more() -> None:
    sizes = [waits(size, 3652.5) for size in (0.2, 0.5, 1.0, 2.0)]
    assert sizes == sorted(sizes, reverse=True)
    assert waits(0.5, 10000.0) > waits(0.5, 1000.0)
