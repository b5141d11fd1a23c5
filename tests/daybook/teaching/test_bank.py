from __future__ import annotations

import numpy as np
import pytest
from scipy.stats import kstest

from polestead.daybook.teaching.bank import (
    dawn_alarm,
    engine_alarm,
    full_days,
    standard_by_own_past,
    threshold,
    weekly,
)
from polestead.daybook.teaching.run_length import cusum_run
from polestead.daybook.teaching.series import expected_of, seen_of

START = np.datetime64("2026-09-01")


def run(sun: np.ndarray, uses: np.ndarray, capacity: np.ndarray):
    """A bank run day by day: dawn and top charge, engine hours."""
    dawn, top, engine = (np.empty(sun.size) for _ in range(3))
    charge = 0.8
    for n in range(sun.size):
        high = min(charge + sun[n] / capacity[n], 1.0)
        ran = max(0.0, 0.55 - high)
        high = min(high + ran, 1.0)
        charge = max(high - uses[n] / capacity[n], 0.1)
        dawn[n], top[n], engine[n] = charge, high, 6.0 * ran * capacity[n]
    return dawn, top, engine


def house(seed: int, days: int, capacity=lambda n: 1.0, uses=lambda n: 1.0):
    """The log of a house, and what was expected of it from its sun, known to a tenth, and the list of its uses."""
    rng = np.random.default_rng([77, seed])
    noise = rng.standard_t(6, days) / np.sqrt(1.5)
    luck = np.empty(days)
    luck[0] = noise[0]
    for n in range(1, days):
        luck[n] = 0.5 * luck[n - 1] + 0.87 * noise[n]
    sun = np.maximum(0.30 + 0.10 * luck, 0.02)
    at = np.arange(days)
    drawn = 0.22 * np.array([uses(n) for n in at]) * np.exp(rng.normal(0.0, 0.1, days))
    dawn, top, engine = run(sun, drawn, np.array([capacity(n) for n in at]))
    told = run(sun * np.exp(rng.normal(0.0, 0.1, days)), np.full(days, 0.22), np.ones(days))
    seen = seen_of(START + at, np.full(days, 1e3), charge=top, dawn_charge=dawn, engine_h=engine)
    expected = expected_of(np.full(days, 1e3), np.full(days, 0.1), dawn_charge=told[0], engine_h=told[2])  # fmt: skip
    return seen, expected


def test_against_its_own_past_a_steady_series_is_standard_normal() -> None:
    rng = np.random.default_rng(9)
    z = np.concatenate([standard_by_own_past(rng.normal(5.0, 3.0, 120))[3:] for _ in range(8)])
    assert kstest(z, "norm").pvalue > 0.01
    assert abs(np.corrcoef(z[1:], z[:-1])[0, 1]) < 0.1


def test_the_threshold_is_what_the_budget_asks() -> None:
    assert cusum_run(0.5, threshold()) == pytest.approx(522.0, rel=0.01)


def test_a_bank_that_holds_less_is_told_and_still_fills() -> None:
    seen, expected = house(1, 900, capacity=lambda n: 1.0 if n < 500 else 0.62)
    alarm = dawn_alarm(seen, expected)
    assert alarm is not None
    assert 0 <= alarm.told - int((START + 500).astype(int)) <= 120
    assert alarm.after < alarm.before
    before, after, _, _ = full_days(seen, int((START + 500).astype(int)), 0.97)
    assert after >= 0.8 * before  # smaller, it fills as often


def test_a_house_that_uses_more_is_told_and_fills_less() -> None:
    seen, expected = house(2, 900, uses=lambda n: 1.0 if n < 500 else 1.3)
    alarm = dawn_alarm(seen, expected)
    assert alarm is not None
    before, after, _, _ = full_days(seen, alarm.since, 0.97)
    assert after < 0.8 * before


def test_steady_banks_keep_the_budget() -> None:
    told = [dawn_alarm(*house(20 + n, 730)) for n in range(12)]
    # 24 years, one false alarm in ten: 2.4 expected; seven or more would come once in a hundred
    assert sum(one is not None for one in told) <= 6


def test_engine_hours_without_figures_say_nothing() -> None:
    days = START + np.arange(100)
    seen = seen_of(days, np.ones(100))
    assert engine_alarm(seen, expected_of(np.ones(100), np.ones(100))) is None


def test_weeks_with_under_three_figures_are_left_out() -> None:
    days = START + np.arange(21)
    values = np.full(21, np.nan)
    values[:9] = 1.0
    starts, means = weekly(seen_of(days, np.ones(21)), values)
    assert starts.size == means.size
    assert (np.diff(starts) % 7 == 0).all()
    assert means == pytest.approx(1.0)
