"""The week leaf."""

from __future__ import annotations

from datetime import datetime, time, timedelta
from itertools import pairwise
from math import exp, inf

import pytest

from polestead.base.quantity import in_unit
from polestead.morning.decide import morning_of
from polestead.morning.forecast.words import read_heard
from polestead.morning.seen import Reading, Seen
from polestead.morning.week import week_of
from polestead.sheets.morning import week_text
from tests.morning.given import AT, MPH


@pytest.fixture(scope="module")
def leaf(spruce):
    return week_of(spruce, AT, "feet")


def test_every_gust_row_stands_to_the_gust_that_may_come(spruce, leaf) -> None:
    """Heard times exp(2.326 x .20), rounded up, is under what the tilt stands to, to the very end of its row; in November under snow,
    unless the row asks for bare glass."""
    for row in leaf.gusts[:-1]:
        assert row.tilt_deg is not None
        may = row.heard_to_m_s * exp(2.326348 * 0.2)
        stands = spruce.card.stands_to_m_s(row.tilt_deg, under_snow=not row.bare_only)
        assert in_unit(stands, "mph") >= in_unit(may, "mph") - 1e-6
        assert (row.snow_stands_to_m_s is None) == row.bare_only
    assert any(row.bare_only for row in leaf.gusts)


def test_where_no_snow_lies_the_leaf_is_of_bare_glass(spruce) -> None:
    summer = week_of(spruce, datetime(2026, 7, 1), "feet")
    assert {(row.snow_stands_to_m_s, row.bare_only) for row in summer.gusts} == {(None, False)}


@pytest.mark.parametrize(
    ("charge", "sky"), [(0.5, "grey"), (0.6, "grey"), (0.6, "broken"), (0.95, "clear")]
)
def test_leaf_and_morning_say_the_same_of_the_same_day(spruce, leaf, charge, sky) -> None:
    """At seven on the middle day, the same charge and sky, left at the plan's tilt in little wind."""
    at = datetime.combine(leaf.day, time(7)) + timedelta(days=3)
    seen = Seen(at, lies=Reading(65.0), charge=Reading(charge), glass="bare")
    line = morning_of(spruce, seen, read_heard(f"{sky}, gusts 10 mph", at.date()))
    assert line.stays_deg == 65.0
    assert line.ahead is not None
    cell = leaf.engine[leaf.charges.index(charge)][leaf.skies.index(sky)]
    said = line.ahead.engine
    assert (cell.chance, cell.hours, cell.from_h) == (said.chance, said.hours, said.from_h)
    shown = week_text(leaf, "feet")
    if said.chance >= 0.5:
        hours = next(one.text for one in line.sentences if one.text.startswith("Engine"))
        assert hours.removeprefix("Engine ").removeprefix("about ").split(" h,")[0] + " h" in shown
    last = leaf.gusts[-1]
    assert (last.tilt_deg, last.heard_to_m_s) == (None, inf)


def test_the_rows_rise_without_a_gap(leaf) -> None:
    tops = [row.heard_to_m_s for row in leaf.gusts]
    assert tops == sorted(tops)
    assert leaf.gusts[0].tilt_deg == 65.0


def test_a_lower_charge_and_a_duller_sky_never_call_less_for_the_engine(leaf) -> None:
    for sky in range(3):
        chances = [row[sky].chance for row in leaf.engine]
        assert all(a <= b + 0.05 for a, b in pairwise(chances))
    for row in leaf.engine:
        assert row[0].chance <= row[2].chance + 0.05


def test_it_is_good_for_a_week_and_says_so(leaf) -> None:
    text = week_text(leaf, "feet")
    assert "good until Wed 02 Dec" in text
    assert "Move only under 30 mph" in text
    assert leaf.under_m_s == pytest.approx(30.0 * MPH)
    assert "keep away" in text
