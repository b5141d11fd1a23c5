from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from polestead.daybook.teaching.months import BEFOREHAND, YEARS_APART, month_factors
from polestead.daybook.teaching.scatter import USUAL
from polestead.daybook.teaching.series import expected_of, paired, seen_of
from tests.daybook.teaching.logs import log_of


def _pairs(seed: int, days: int = 1096):
    made = log_of(seed, days, "eye")
    seen = seen_of(made.day, made.made_wh, charge=made.charge)
    return made, paired(seen, expected_of(made.expected_wh, made.log_sd))


def test_without_days_a_factor_is_one_within_what_the_climate_is_good_for() -> None:
    _, pairs = _pairs(1, 20)  # twenty days of September
    april = month_factors(pairs, np.zeros(pairs.days, dtype=bool))[3]
    assert april.factor == 1.0
    assert april.high == pytest.approx(np.exp(1.645 * BEFOREHAND))
    assert (april.days, april.years, april.held) == (0, 0, 1.0)


def test_one_month_of_like_days_by_hand() -> None:
    """Ten days of .8, sd .2, none full: 1/(tau^2 + sd^2/(n w)), w = .67/1.33, against 1/.15^2.

    tau = .05 (one year says nothing of years).  sd^2/(n w) = .04/(10 x .503759) = .0079403; W = 1/(.0025 + .0079403)
    = 95.783; W0 = 44.444; ln F = 95.783 x ln .8 / 140.227 = -.152418; F = .85863; sd = 1/sqrt(140.227) = .084447.
    """
    days = np.datetime64("2026-04-01") + np.arange(10)
    pairs = paired(
        seen_of(days, np.full(10, 800.0)), expected_of(np.full(10, 1000.0), np.full(10, 0.2))
    )
    april = month_factors(pairs, np.zeros(10, dtype=bool))[3]
    assert (YEARS_APART, USUAL.memory) == (0.05, 0.33)
    assert april.factor == pytest.approx(0.85863, abs=2e-4)
    assert april.low == pytest.approx(np.exp(-0.152418 - 1.645 * 0.084447), abs=3e-4)
    assert april.held == pytest.approx(44.444 / 140.227, abs=1e-3)
    assert april.working.result.value == april.factor


def test_nine_in_ten_intervals_hold_the_truth_and_full_days_do_not_pull_it_down() -> None:
    held = count = 0
    off, dropped = [], []
    for seed in range(5):
        made, pairs = _pairs(300 + seed)
        factors = month_factors(pairs, np.zeros(pairs.days, dtype=bool))
        without = month_factors(pairs, pairs.at_least)
        for nth in (
            3,
            4,
            5,
            6,
        ):  # the months in which the battery is full on half the days and more
            truth = made.truth_by_month[nth]
            off.append(np.log(factors[nth].factor) - truth)
            dropped.append(np.log(without[nth].factor) - truth)
        for nth in range(12):
            held += factors[nth].low <= np.exp(made.truth_by_month[nth]) <= factors[nth].high
            count += 1
    assert held / count >= 0.85
    assert abs(np.mean(off)) < 0.03
    # days left out instead of counted as at least so much would make the array look worse than it is
    assert np.mean(dropped) < np.mean(off) - 0.03


def test_a_log_of_full_days_only_never_lowers_a_factor() -> None:
    _, pairs = _pairs(5, 300)
    full = replace(pairs, at_least=np.ones(pairs.days, dtype=bool))
    assert all(one.factor >= 1.0 - 1e-9 for one in month_factors(full, np.zeros(pairs.days, dtype=bool)))  # fmt: skip


def test_one_slipped_day_moves_a_factor_little() -> None:
    _, pairs = _pairs(6, 120)
    none = np.zeros(pairs.days, dtype=bool)
    miss = pairs.miss.copy()
    at = int(np.flatnonzero((pairs.month == 10) & ~pairs.at_least)[0])
    miss[at] = np.log(0.02)
    plain, slipped = month_factors(pairs, none)[10], month_factors(replace(pairs, miss=miss), none)[10]  # fmt: skip
    assert slipped.factor == pytest.approx(plain.factor, rel=0.06)


def test_more_years_make_it_surer() -> None:
    wide = []
    for days in (90, 455, 1550):
        _, pairs = _pairs(7, days)
        october = month_factors(pairs, np.zeros(pairs.days, dtype=bool))[9]
        wide.append(october.high - october.low)
    assert wide == sorted(wide, reverse=True)
