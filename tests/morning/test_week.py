"""The week leaf."""

from __future__ import annotations

from itertools import pairwise
from math import exp, inf

import pytest

from polestead.base.quantity import in_unit
from polestead.morning.week import week_of
from polestead.sheets.morning import week_text
from tests.morning.given import AT, MPH


@pytest.fixture(scope="module")
def leaf(spruce):
    return week_of(spruce, AT, "feet")


def test_every_gust_row_stands_to_the_gust_that_may_come(spruce, leaf) -> None:
    """Heard times exp(2.326 x .20), rounded up, is under what the tilt stands to, to the very end of its row."""
    for row in leaf.gusts[:-1]:
        assert row.tilt_deg is not None
        may = row.heard_to_m_s * exp(2.326348 * 0.2)
        assert in_unit(spruce.card.stands_to_m_s(row.tilt_deg), "mph") >= in_unit(may, "mph") - 1e-6
    last = leaf.gusts[-1]
    assert (last.tilt_deg, last.heard_to_m_s) == (None, inf)


def test_the_rows_rise_without_a_gap(leaf) -> None:
    tops = [row.heard_to_m_s for row in leaf.gusts]
    assert tops == sorted(tops)
    assert leaf.gusts[0].tilt_deg == 65.0


def test_a_lower_charge_and_a_duller_sky_never_call_less_for_the_engine(leaf) -> None:
    for sky in range(3):
        chances = [row[sky][0] for row in leaf.engine]
        assert all(a <= b + 0.05 for a, b in pairwise(chances))
    for row in leaf.engine:
        assert row[0][0] <= row[2][0] + 0.05


def test_it_is_good_for_a_week_and_says_so(leaf) -> None:
    text = week_text(leaf, "feet")
    assert "good until Wed 02 Dec" in text
    assert "Move only under 30 mph" in text
    assert leaf.under_m_s == pytest.approx(30.0 * MPH)
    assert "keep away" in text
