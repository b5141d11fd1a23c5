"""Planted faults and faultless logs; what the logs are drawn from is not what the test believes (``logs``)."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.stats import norm, poisson

from polestead.daybook.teaching.causes import told_apart
from polestead.daybook.teaching.scatter import MEASURED, USUAL, half_square, log_ratio
from polestead.daybook.teaching.series import Paired, expected_of, paired, seen_of
from polestead.daybook.teaching.shapes import shapes_of
from polestead.daybook.teaching.watch import BUDGET_DAYS, DAY_SAYS_AT_MOST, watched
from tests.daybook.teaching.logs import FAULTS, FIRST, START, log_of

FIRST_DAY = int(START.astype(int))


def pairs_of(made) -> tuple:
    seen = seen_of(made.day, made.made_wh, charge=made.charge)
    expected = expected_of(made.expected_wh, made.log_sd, low_sun_share=made.low_sun_share)
    return seen, paired(seen, expected)


def found_in(name: str, seed: int, sun: str, days: int = 60):
    """Delay, causes and alarm of the first alarm after the planted fault began; None where there was none."""
    loss, strings, _ = FAULTS[name]
    seen, pairs = pairs_of(log_of(seed, FIRST + days, sun, loss))
    scatter = MEASURED if sun == "measured" else USUAL
    found = watched(pairs, shapes_of(strings), scatter, strings=strings)
    for nth, alarm in enumerate(found.alarms):
        if alarm.told - FIRST_DAY >= FIRST:
            causes = told_apart(pairs, seen, found, nth, strings, scatter).causes
            return alarm.told - FIRST_DAY - FIRST + 1, causes, alarm
    return None


@pytest.mark.parametrize(
    ("name", "sun", "within_days", "cause"),
    [
        ("string of 2", "eye", 14, "string"),
        ("string of 4", "measured", 21, "string"),
        ("dirt of 10 %", "measured", 150, "dirt"),
        ("snow week", "eye", 7, "snow"),
    ],
)
def test_a_planted_fault_is_found_in_time_and_its_cause_is_first_or_second(
    name: str, sun: str, within_days: int, cause: str
) -> None:
    found = [found_in(name, seed, sun, within_days + 5) for seed in (41, 42)]
    assert all(one is not None and one[0] <= within_days for one in found)
    assert sum(cause in [c.name for c in one[1][:2]] for one in found) >= 1


def test_a_quarter_lost_is_found_by_eye_too_though_its_cause_is_not() -> None:
    found = found_in("string of 4", 41, "eye", 95)
    assert found is not None
    assert found[0] <= 90
    assert found[2].left < 0.9


def test_growing_trees_are_found_within_the_third_winter() -> None:
    found = found_in("growth of trees", 44, "measured", 1150)
    assert found is not None
    delay, causes, _ = found
    assert delay <= 1100
    assert {"growth", "shade"} & {cause.name for cause in causes[:2]}


def test_the_end_of_a_snow_week_is_found_too() -> None:
    _, _, alarm = found_in("snow week", 45, "eye")
    assert alarm.until is not None
    assert abs(alarm.until - FIRST_DAY - FIRST - 7) <= 2
    assert alarm.left < 0.25


def test_a_lost_string_is_known_to_its_size() -> None:
    _, causes, alarm = found_in("string of 2", 46, "eye")
    assert alarm.left == pytest.approx(0.5, abs=0.08)
    assert abs(causes[0].since - FIRST_DAY - FIRST) <= 5


def test_faultless_logs_keep_the_budget() -> None:
    """Six logs of two years: no more alarms than the budget of twelve years allows at 1 %."""
    count = days = 0
    for seed in range(6):
        sun = "eye" if seed % 2 else "measured"
        _, pairs = pairs_of(log_of(700 + seed, 730, sun))
        count += len(watched(pairs, shapes_of(2), MEASURED if sun == "measured" else USUAL, strings=2).alarms)  # fmt: skip
        days += 730
    assert count <= poisson.ppf(0.99, days / BUDGET_DAYS)


def test_one_absurd_day_makes_no_alarm_and_moves_little() -> None:
    _, pairs = pairs_of(log_of(51, 400, "measured"))
    plain = watched(pairs, shapes_of(2), MEASURED)
    for wrong in (np.log(0.02), np.log(4.9)):
        miss = pairs.miss.copy()
        miss[300] = wrong
        slipped = watched(replace(pairs, miss=miss), shapes_of(2), MEASURED)
        assert len(slipped.alarms) == len(plain.alarms)
        assert slipped.base == pytest.approx(plain.base, abs=0.03)


def test_gaps_of_months_make_no_alarm() -> None:
    _, pairs = pairs_of(log_of(52, 700, "eye"))
    kept = (pairs.number - FIRST_DAY < 200) | (pairs.number - FIRST_DAY > 420)
    short = Paired(*(getattr(pairs, name)[kept] for name in ("day", "number", "month", "year", "miss", "log_sd", "at_least", "low_sun_share", "snow")), ())  # fmt: skip
    assert watched(short, shapes_of(2), USUAL).alarms == ()


def test_days_with_snow_seen_are_told_apart_and_not_tested() -> None:
    loss, strings, days = FAULTS["snow week"]
    _, pairs = pairs_of(log_of(47, days, "eye", loss))
    covered = (pairs.number - FIRST_DAY >= FIRST) & (pairs.number - FIRST_DAY < FIRST + 7)
    assert covered.any()
    seen = replace(pairs, snow=covered)
    assert [a for a in watched(seen, shapes_of(strings), USUAL).alarms if a.told - FIRST_DAY >= FIRST] == []  # fmt: skip


@given(st.floats(-8.0, -0.01))
@settings(max_examples=60, deadline=None)
def test_a_day_says_nothing_on_average_while_nothing_is_wrong(by: float) -> None:
    """The mean likelihood ratio of a day is at most 1: that is what the false-alarm budget rests on."""
    z = np.linspace(-12.0, 12.0, 4801)
    ratio = np.minimum(half_square(z) - half_square(z - by), DAY_SAYS_AT_MOST)
    assert log_ratio(z[7], np.array([by]), False)[0] == pytest.approx(half_square(z[7]) - half_square(z[7] - by))  # fmt: skip
    mean = np.trapezoid(norm.pdf(z) * np.exp(ratio), z)
    assert mean <= 1.004  # Huber's density has heavier tails than the normal by this much at 2


@given(st.floats(-6.0, 6.0), st.floats(-8.0, -0.01))
@settings(max_examples=100, deadline=None)
def test_a_full_battery_never_speaks_for_a_loss(z: float, by: float) -> None:
    said = float(log_ratio(z, np.array([by]), True)[0])
    assert said <= 1e-12


@given(st.floats(-5.0, 5.0), st.floats(-4.0, -0.01))
@settings(max_examples=60, deadline=None)
def test_with_the_battery_full_above_a_bound_the_mean_ratio_is_one(bound: float, by: float) -> None:
    """Chance above the bound by the full day's ratio, below it by the density's own: together 1."""
    above = norm.sf(bound) * float(np.exp(log_ratio(bound, np.array([by]), True)[0]))
    below = norm.cdf(bound - by)
    assert above + below == pytest.approx(1.0, abs=1e-9)
