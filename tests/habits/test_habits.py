"""Habits: the search is exact, the house judges, the bounds hold."""

from __future__ import annotations

from itertools import combinations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from polestead.base.hours import working_year
from polestead.habits.habits import candidates, habits_of, lacking_hours
from polestead.habits.search import best_moves, by_half_month, half_month_days
from polestead.household.run import run_house
from polestead.mount.schedule import TiltSchedule
from tests.household.fabricated import air, household, sun

TILTS = np.arange(0.0, 91.0, 5.0)
YEARS = 4
OWN = TiltSchedule("your own", ((75, 20.0), (265, 60.0)))


def share_by_tilt(tilt_deg, day_of_year):
    """Made-up array: the best tilt swings from 65 in mid-winter to 15 in mid-summer; off it by x loses as a cosine."""
    best = 40.0 + 25.0 * np.cos(2.0 * np.pi * (day_of_year - 355.0) / 365.0)
    return np.cos(np.radians(tilt_deg - best))


def monthly_energy():
    year = working_year(1)
    power = sun(1)[0].astype(float)
    turned = np.roll(power, 8760 - 184 * 24)  # the made-up sun starts in July
    return np.array(
        [
            [(turned * share_by_tilt(t, year.day_of_year))[year.month == m].sum() for t in TILTS]
            for m in range(1, 13)
        ]
    )


def house_with(schedule):
    year = working_year(7)
    shares = share_by_tilt(schedule.tilt_by_hour_deg(year.day_of_year), year.day_of_year)
    power = (sun(YEARS) * shares).astype(np.float32)
    return run_house(household(), {"roof": [power]}, air(YEARS), 7, 500.0)


@pytest.fixture(scope="module")
def habits():
    return habits_of(5.0, 75.0, OWN, monthly_energy(), TILTS, house_with, lambda schedule: 1.0)


@settings(max_examples=20, deadline=None)
@given(st.integers(0, 10**6), st.integers(1, 3))
def test_no_other_dates_or_tilts_are_worth_more(seed, moves):
    worth = np.random.default_rng(seed).gamma(1.0, 1.0, size=(24, 4))

    def worth_of(found):
        tilt = np.empty(24, dtype=int)
        for nth, (start, index) in enumerate(found):
            end = found[(nth + 1) % len(found)][0]
            for half in range(start, start + ((end - start) % 24 or 24)):
                tilt[half % 24] = index
        return worth[np.arange(24), tilt].sum()

    ours = worth_of(best_moves(worth, moves))
    rng = np.random.default_rng(seed + 1)
    for starts in combinations(range(24), moves):
        tilts = rng.integers(0, 4, moves)
        assert worth_of(list(zip(starts, tilts, strict=True))) <= ours + 1e-9


def test_two_moves_find_the_turn_of_the_year_when_only_two_tilts_matter():
    worth = np.zeros((24, 3))
    worth[6:18, 0] = 1.0  # April to September flat
    worth[:6, 2] = worth[18:, 2] = 1.0  # the rest steep
    assert best_moves(worth, 2) == ((6, 0), (18, 2))
    assert best_moves(worth, 4) == ((6, 0), (18, 2))  # more moves would change nothing


def test_half_months_keep_the_months():
    months = np.random.default_rng(1).gamma(2.0, 1.0, size=(12, 5))
    halves = by_half_month(months)
    np.testing.assert_allclose(halves[0::2] + halves[1::2], months)
    assert by_half_month(np.zeros((12, 2))).sum() == 0.0
    assert len(set(half_month_days())) == 24


def test_every_habit_is_judged_and_the_best_stands_first(habits):
    assert {habit.schedule.name for habit in habits} == {
        "your own", "fixed for winter", "fixed for the year", "two moves", "four moves", "monthly",
    }  # fmt: skip
    means = [habit.engine_hours.mean + habit.dark_hours.mean for habit in habits]
    assert means == sorted(means)
    assert habits[0].same_as_best


def test_tipping_is_worth_something_against_the_best_fixed_tilt(habits):
    by_name = {habit.schedule.name: habit for habit in habits}
    assert by_name["four moves"].saves_hours.median >= 0.0
    assert by_name["two moves"].saves_hours.bad <= by_name["two moves"].saves_hours.good
    fixed = min(
        (by_name["fixed for winter"], by_name["fixed for the year"]),
        key=lambda habit: habit.engine_hours.mean,
    )
    assert fixed.saves_hours.mean == 0.0


def test_the_winter_tilt_is_steeper_than_the_year_tilt(habits):
    tilt = {habit.schedule.name: habit.schedule.moves[0][1] for habit in habits}
    assert tilt["fixed for winter"] > tilt["fixed for the year"]


def test_tilts_keep_within_the_mount():
    found = candidates(20.0, 40.0, monthly_energy(), TILTS, np.ones(12))
    angles = {tilt for schedule in found for _, tilt in schedule.moves}
    assert min(angles) >= 20.0
    assert max(angles) <= 40.0


def test_a_mount_between_two_angles_of_the_table_still_gets_a_tilt():
    found = candidates(41.0, 43.0, monthly_energy(), TILTS, np.ones(12))
    assert found[0].moves == ((1, 41.0),)


def test_the_house_runs_once_for_each_schedule():
    asked = []

    def counting(schedule):
        asked.append(schedule.moves)
        return house_with(schedule)

    habits_of(30.0, 30.0, OWN, monthly_energy(), TILTS, counting, lambda schedule: 1.0)
    assert len(asked) == len(set(asked)) == 2


def test_dark_hours_count_where_there_is_no_engine():
    year = working_year(7)
    house = household(motor=None)
    power = sun(YEARS)
    dark = run_house(house, {"roof": [power]}, air(YEARS), year.start_month, 0.0)
    np.testing.assert_allclose(lacking_hours(dark), dark.dark_hours)
