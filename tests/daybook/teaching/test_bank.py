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
from polestead.daybook.teaching.series import Seen, expected_of, seen_of

START = np.datetime64("2026-09-01")


def house(seed: int, days: int, capacity=lambda n: 1.0, uses=lambda n: 1.0) -> Seen:
    """A bank run day by day, apart from the house's own model: sun heavy-tailed and remembering, one draw a night."""
    rng = np.random.default_rng([77, seed])
    charge, luck = 0.8, 0.0
    dawn, top, engine = np.empty(days), np.empty(days), np.empty(days)
    for n in range(days):
        luck = 0.5 * luck + 0.87 * rng.standard_t(6) / 1.22
        held = capacity(n)
        sun = max(0.30 + 0.10 * luck, 0.02)
        high = min(charge + sun / held, 1.0)
        ran = max(0.0, 0.55 - high) if high < 0.55 else 0.0
        high = min(high + ran, 1.0)
        charge = max(high - 0.22 * uses(n) * np.exp(rng.normal(0.0, 0.1)) / held, 0.1)
        dawn[n], top[n], engine[n] = charge, high, 6.0 * ran * held
    day = START + np.arange(days)
    return seen_of(day, np.full(days, 1e3), charge=top, dawn_charge=dawn, engine_h=engine)


def expected(seen: Seen, dawn: float = 0.7):
    size = seen.days
    return expected_of(np.full(size, 1e3), np.full(size, 0.1), dawn_charge=np.full(size, dawn), engine_h=np.full(size, 0.3))  # fmt: skip


def test_against_its_own_past_a_steady_series_is_standard_normal() -> None:
    rng = np.random.default_rng(9)
    z = np.concatenate([standard_by_own_past(rng.normal(5.0, 3.0, 120))[3:] for _ in range(8)])
    assert kstest(z, "norm").pvalue > 0.01
    assert abs(np.corrcoef(z[1:], z[:-1])[0, 1]) < 0.1


def test_the_threshold_is_what_the_budget_asks() -> None:
    assert cusum_run(0.5, threshold()) == pytest.approx(522.0, rel=0.01)


def test_a_bank_that_holds_less_is_told_and_still_fills() -> None:
    seen = house(1, 900, capacity=lambda n: 1.0 if n < 500 else 0.62)
    alarm = dawn_alarm(seen, expected(seen))
    assert alarm is not None
    assert 0 <= alarm.told - int((START + 500).astype(int)) <= 120
    assert alarm.after < alarm.before
    before, after, _, _ = full_days(seen, int((START + 500).astype(int)), 0.97)
    assert after >= 0.8 * before  # smaller, it fills as often


def test_a_house_that_uses_more_is_told_and_fills_less() -> None:
    seen = house(2, 900, uses=lambda n: 1.0 if n < 500 else 1.3)
    alarm = dawn_alarm(seen, expected(seen))
    assert alarm is not None
    before, after, _, _ = full_days(seen, alarm.since, 0.97)
    assert after < 0.8 * before


def test_steady_banks_keep_the_budget() -> None:
    told = [dawn_alarm(seen, expected(seen)) for seen in (house(20 + n, 730) for n in range(12))]
    # 24 years, one false alarm in ten: 2.4 expected; seven or more would come once in a hundred
    assert sum(one is not None for one in told) <= 6


def test_engine_hours_without_figures_say_nothing() -> None:
    days = START + np.arange(100)
    seen = seen_of(days, np.ones(100))
    assert engine_alarm(seen, expected(seen)) is None


def test_weeks_with_under_three_figures_are_left_out() -> None:
    days = START + np.arange(21)
    values = np.full(21, np.nan)
    values[:9] = 1.0
    starts, means = weekly(seen_of(days, np.ones(21)), values)
    assert starts.size == means.size
    assert (np.diff(starts) % 7 == 0).all()
    assert means == pytest.approx(1.0)
