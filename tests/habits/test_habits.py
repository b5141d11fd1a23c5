"""Habits: the search is exact, the house judges, the bounds hold."""

from __future__ import annotations

from functools import cache
from itertools import combinations, product

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from polestead.base.hours import working_year
from polestead.habits.habits import (
    Prices,
    cannot_be_told_apart,
    habits_of,
    lacking_hours,
    mean_difference,
    monthly,
    sky_rule,
    tipping_worth,
)
from polestead.habits.search import (
    ROUND_DAYS,
    allowed_angles,
    best_moves,
    by_day,
    on_round_dates,
    worth_of,
)
from polestead.household.run import run_house
from polestead.mount.schedule import EachDaysBest, SkyRule, TiltSchedule
from tests.household.fabricated import air, household, sun

TILTS = np.arange(0.0, 91.0, 5.0)
YEARS = 4
OWN = TiltSchedule("your own", ((75, 20.0), (265, 60.0)))


def share_by_tilt(tilt_deg, day_of_year):
    """Made-up array: the best tilt swings from 65 in mid-winter to 15 in mid-summer; off it by x loses as a cosine."""
    best = 40.0 + 25.0 * np.cos(2.0 * np.pi * (day_of_year - 355.0) / 365.0)
    return np.cos(np.radians(tilt_deg - best))


def light():
    """The made-up sun's days at every tilt [tilts, years, days of the working year]."""
    days = sun(YEARS).reshape(YEARS, 365, 24).sum(axis=2)
    calendar = working_year(7).calendar_day
    return np.array([days * share_by_tilt(t, calendar) for t in TILTS], dtype=np.float32)


@cache
def house_with(habit):
    year = working_year(7)
    if isinstance(habit, TiltSchedule):
        tilts = np.tile(habit.tilt_by_hour_deg(year.calendar_day), (YEARS, 1))
    elif isinstance(habit, SkyRule):
        tilts = habit.tilt_by_day_deg(year.month_of_day, np.full((YEARS, 365), 0.5))
    else:
        may = np.isin(TILTS, habit.tilts_deg)
        tilts = TILTS[may][np.argmax(light()[may], axis=0)]
    shares = np.repeat(share_by_tilt(tilts, year.calendar_day), 24, axis=1)
    return run_house(
        household(), {"roof": [(sun(YEARS) * shares).astype(np.float32)]}, air(YEARS), 7, 500.0
    )


def judged(least=5.0, steepest=75.0, own=(OWN,)):
    year = working_year(7)
    return habits_of(
        own, light(), np.full((YEARS, 365), 0.5), year.calendar_day, year.month_of_day, TILTS,
        allowed_angles(TILTS, least, steepest), house_with, house_with, lambda habit: 1.0,
        lambda habit: getattr(habit, "moves_a_year", 100.0), Prices(1.0, 2.0),
    )  # fmt: skip


@pytest.fixture(scope="module")
def habits():
    return judged()


def brute(worth, moves, cost=0.0):
    """Every choice of days and tilts, tried."""
    days, tilts = worth.shape
    best = max(float(worth[:, t].sum()) for t in range(tilts))
    for count in range(2, moves + 1):
        for starts in combinations(range(days), count):
            for chosen in product(range(tilts), repeat=count):
                if all(a != b for a, b in zip(chosen, chosen[1:] + chosen[:1], strict=True)):
                    found = tuple(zip(starts, chosen, strict=True))
                    best = max(best, worth_of(worth, found) - cost * count)
    return best


@settings(max_examples=40, deadline=None)
@given(st.integers(0, 10**6), st.integers(1, 3), st.sampled_from([0.0, 0.3]))
def test_no_other_dates_or_tilts_are_worth_more(seed, moves, cost):
    worth = np.random.default_rng(seed).gamma(1.0, 1.0, size=(8, 3))
    found = best_moves(worth, moves, cost)
    ours = worth_of(worth, found) - (cost * len(found) if len(found) > 1 else 0.0)
    assert ours == pytest.approx(brute(worth, moves, cost), rel=1e-9)


@settings(max_examples=20, deadline=None)
@given(st.integers(0, 10**6))
def test_more_moves_are_never_worth_less(seed):
    worth = np.random.default_rng(seed).gamma(1.0, 1.0, size=(30, 4))
    values = [worth_of(worth, best_moves(worth, moves)) for moves in (1, 2, 3, 4, 8, 30)]
    assert np.all(np.diff(values) >= -1e-9)
    assert values[-1] == pytest.approx(worth.max(axis=1).sum())


def test_two_moves_find_the_turn_of_the_year_when_only_two_tilts_matter():
    worth = np.zeros((24, 3))
    worth[6:18, 0] = 1.0
    worth[:6, 2] = worth[18:, 2] = 1.0
    assert best_moves(worth, 2) == ((6, 0), (18, 2))
    assert best_moves(worth, 4) == ((6, 0), (18, 2))  # more moves would change nothing


def test_a_year_all_alike_is_never_moved():
    assert best_moves(np.ones((40, 5)), 4) == ((0, 0),)


def test_nobody_home_means_no_move():
    worth = np.zeros((12, 2))
    worth[:6, 0] = worth[6:, 1] = 1.0
    away = np.zeros(12, dtype=bool)
    away[5:8] = True
    moves = best_moves(worth, 2, no_move=away)
    assert not {day for day, _ in moves} & {5, 6, 7}
    assert worth_of(worth, moves) == 10.0


def test_a_tilt_that_may_not_stand_is_never_held():
    worth = np.random.default_rng(3).gamma(1.0, 1.0, size=(20, 3))
    worth[5:9, 2] = -np.inf
    worth[:, 2] += 5.0
    moves = best_moves(worth, 4)
    assert np.isfinite(worth_of(worth, moves))
    with pytest.raises(ValueError, match="no tilt may stand"):
        best_moves(np.where(np.eye(2, dtype=bool), 1.0, -np.inf), 1)


def test_dates_are_rounded_only_where_it_costs_nothing():
    day = np.arange(365)
    soft = np.stack([np.cos((day - 172) * 2 * np.pi / 365), -np.cos((day - 172) * 2 * np.pi / 365)], axis=1) + 2.0  # fmt: skip
    rounded = on_round_dates(soft, best_moves(soft, 2), costs=0.005)
    assert {day for day, _ in rounded} <= set(ROUND_DAYS)
    hard = np.zeros((365, 2))
    hard[100:260, 1] = hard[:100, 0] = hard[260:, 0] = 1.0
    assert on_round_dates(hard, best_moves(hard, 2), costs=0.001) == ((100, 1), (260, 0))


def test_days_keep_the_level_of_their_months():
    flat = by_day(np.full(12, 3.0))
    np.testing.assert_allclose(flat, 3.0)
    assert by_day(np.arange(24.0).reshape(12, 2)).shape == (365, 2)


def test_bounds_handed_in_as_numbers_hold():
    edge, wanted = np.linspace(2.0, 0.2, TILTS.size), np.full(365, 0.6)
    stands, gusts = np.linspace(60.0, 25.0, TILTS.size), np.where(np.arange(365) < 90, 40.0, 20.0)
    allowed = allowed_angles(TILTS, 10.0, 80.0, edge, wanted, stands, gusts)
    assert not allowed[:, TILTS < 10.0].any()
    assert not allowed[:, edge < 0.6].any()
    assert not allowed[:90, stands < 40.0].any()
    assert allowed[200, (TILTS >= 10.0) & (edge >= 0.6)].all()


def test_every_habit_is_judged_and_the_best_stands_first(habits):
    names = [habit.schedule.name for habit in habits]
    assert set(names[:-1]) == {
        "your own", "fixed at its best", "two moves", "four moves", "monthly", "daily, by the sky",
    }  # fmt: skip
    means = [habit.engine_hours.mean + habit.dark_hours.mean for habit in habits[:-1]]
    assert means == sorted(means)
    assert habits[0].same_as_best
    assert habits[0].group == 1
    assert [habit.group for habit in habits[:-1]] == sorted(habit.group for habit in habits[:-1])


def test_the_bound_is_last_and_no_habit_beats_it(habits):
    bound = habits[-1]
    assert bound.a_bound
    assert isinstance(bound.schedule, EachDaysBest)
    assert not any(habit.a_bound for habit in habits[:-1])
    assert bound.engine_hours.mean <= habits[0].engine_hours.mean + 1.0


def test_the_owners_own_dates_stand_beside(habits):
    dates = TiltSchedule("your own dates", ((60, 45.0), (130, 10.0), (280, 70.0)))
    assert "your own dates" in [habit.schedule.name for habit in judged(own=(OWN, dates))]


def test_tipping_is_worth_something_against_the_best_fixed_tilt(habits):
    by_name = {habit.schedule.name: habit for habit in habits}
    assert by_name["four moves"].saves_hours.median >= 0.0
    assert by_name["fixed at its best"].saves_hours.mean == 0.0
    told = tipping_worth(habits, house_with, Prices(1.0, 2.0))
    assert told.working.result.value == pytest.approx(told.saves_hours.median)
    fixed = float(by_name["fixed at its best"].schedule.moves[0][1])
    assert told.fixed_tilt_deg == fixed
    saved = lacking_hours(house_with(by_name["fixed at its best"].schedule)).mean()
    assert told.working.steps[0].value == pytest.approx(saved)


def test_the_fixed_tilt_is_the_best_of_all_that_could_be_fixed(habits):
    fixed = next(habit for habit in habits if habit.schedule.name == "fixed at its best")
    every = [lacking_hours(house_with(TiltSchedule("f", ((1, float(t)),)))).mean() for t in TILTS if 5 <= t <= 75]  # fmt: skip
    assert lacking_hours(house_with(fixed.schedule)).mean() == pytest.approx(min(every), rel=0.01)


def test_money_is_hours_and_fuel_at_the_owners_prices(habits):
    one = habits[0]
    years = house_with(one.schedule)
    by_hand = years.engine_hours.sum(axis=1) * 1.0 + years.fuel_most_l * 2.0
    assert one.cost_most.mean == pytest.approx(by_hand.mean())
    assert one.cost_least.mean <= one.cost_most.mean


def test_a_house_nothing_can_be_saved_in_is_told_so():
    assert cannot_be_told_apart(np.zeros(5), np.zeros(5))


def test_tilts_keep_within_the_mount():
    for habit in judged(20.0, 40.0):
        if isinstance(habit.schedule, TiltSchedule) and habit.schedule is not OWN:
            assert all(20.0 <= tilt <= 40.0 for _, tilt in habit.schedule.moves)


def test_the_rule_by_the_sky_takes_the_flat_angle_under_a_dull_sky():
    year = working_year(7)
    rng = np.random.default_rng(1)
    clear = rng.uniform(0.05, 0.75, (YEARS, 365))
    steep, flat = np.where(clear > 0.3, 5.0, 1.0), np.where(clear > 0.3, 3.0, 1.5)
    rule = sky_rule(
        np.array([flat, steep], dtype=np.float32), clear, year.month_of_day, np.array([0.0, 60.0]), np.ones((12, 2), bool)
    )  # fmt: skip
    assert set(rule.clear_tilt_deg) == {60.0}
    assert set(rule.dull_tilt_deg) == {0.0}
    assert rule.dull_under == pytest.approx(0.3)


def test_monthly_leaves_out_moves_to_the_tilt_that_holds():
    worth = np.zeros((365, 2))
    worth[90:273, 1] = 1.0
    worth[:90, 0] = worth[273:, 0] = 1.0
    assert monthly(worth, np.array([60.0, 20.0])).moves == ((91, 20.0), (274, 60.0))


def test_dark_hours_count_where_there_is_no_engine():
    dark = run_house(household(motor=None), {"roof": [sun(YEARS)]}, air(YEARS), 7, 0.0)
    np.testing.assert_allclose(lacking_hours(dark), dark.dark_hours)


def test_what_loses_in_nearly_every_winter_is_not_the_same():
    rng = np.random.default_rng(3)
    best = rng.uniform(40.0, 80.0, 100)
    often = best + np.where(np.arange(100) < 8, -1.0, 15.0)  # now and then it wins, mostly it loses
    assert np.quantile(often - best, 0.05) <= 0.0
    assert not cannot_be_told_apart(often, best)
    assert cannot_be_told_apart(best + rng.normal(0.5, 4.0, 100), best)


def test_the_mean_difference_is_as_sure_as_its_years_allow():
    rng = np.random.default_rng(4)
    best = rng.uniform(40.0, 80.0, 400)
    low, high = mean_difference(best + rng.normal(3.0, 10.0, 400), best)
    # the mean of 400 differences of sd 10 is known to .5: a 90 % interval 1.645 to each side
    assert high - low == pytest.approx(2 * 1.645 * 0.5, rel=0.15)
    assert low < 3.0 + 1.0
    assert high > 3.0 - 1.0
