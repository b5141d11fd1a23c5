"""Run lengths of our sequential tests, asked in the way they are published."""

from __future__ import annotations

from polestead.daybook.teaching.run_length import cusum_run, ratio_sum_run


def cusum_runs(reference: float, threshold: float, shifts) -> list[float]:
    """One-sided."""
    return [cusum_run(reference, threshold, float(shift)) for shift in shifts]


def both_sides(reference: float, threshold: float, shifts) -> list[float]:
    """Two one-sided sums run side by side: rates of alarm add (Kemp 1961)."""
    return [
        1.0 / (1.0 / cusum_run(reference, threshold, float(shift)) + 1.0 / cusum_run(reference, threshold, -float(shift)))
        for shift in shifts
    ]  # fmt: skip


def ratio_runs(watched: float, thresholds) -> list[float]:
    return [ratio_sum_run(watched, float(threshold)) for threshold in thresholds]
