"""One day of sun past the skyline."""

from __future__ import annotations

from datetime import date

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from polestead.homestead.model import View
from polestead.sun.day_seen import day_seen

SHORTEST = date(2026, 12, 21)


def band(height: str, start: str = "0 deg", end: str = "360 deg", **more: str) -> dict[str, object]:
    return {"from_bearing": start, "to_bearing": end, "height": height, **more}


def seen(*bands: dict[str, object], on: date = SHORTEST, latitude: float = 47.9):  # type: ignore[no-untyped-def]
    view = View.model_validate({"skyline": bands})
    return day_seen(view, latitude, -91.4, 500.0, -6.0, on)


def test_a_ridge_all_round_takes_the_hours_under_its_height() -> None:
    # at the winter solstice sin h = sin L sin d + cos L cos d cos w; for L = 47.9, d = -23.44, h = 10 deg:
    # cos w = (.1736 + .7420 x .3978) / (.6704 x .9175) = .7621, w = 40.35 deg: 5 h 23 clear; the air lifts the sun by
    # about .09 deg there, which is a minute and a half in all
    day = seen(band("10 deg"))
    assert day.clear_h == pytest.approx(2.0 * 40.35 / 15.0, abs=0.06)
    morning, evening = day.lost
    assert morning.what == evening.what == "ground"
    assert 120.0 < morning.bearing_deg < 150.0 < 210.0 < evening.bearing_deg < 240.0
    assert day.up_h == pytest.approx(day.clear_h + sum(one.to_h - one.from_h for one in day.lost))


def test_what_stands_in_the_north_takes_nothing_of_a_winter_day() -> None:
    day = seen(band("40 deg", "300 deg", "60 deg"))
    assert day.lost == ()
    assert day.clear_h == day.up_h


def test_a_short_gap_between_two_things_is_lost_and_a_long_one_is_not() -> None:
    # the noon sun turns by about a quarter of a degree a minute
    narrow = seen(band("40 deg", "150 deg", "179 deg"), band("40 deg", "181 deg", "210 deg"))
    wide = seen(band("40 deg", "150 deg", "175 deg"), band("40 deg", "185 deg", "210 deg"))
    assert 0.0 < narrow.clear_h < wide.clear_h - 0.4
    assert narrow.hidden[abs(narrow.azimuth_deg - 180.0).argmin()]
    assert not wide.hidden[abs(wide.azimuth_deg - 180.0).argmin()]


def test_trees_say_what_they_let_through_in_leaf_and_bare() -> None:
    wood = band("60 deg", what="trees", lets_through_summer="20 %", lets_through_winter="50 %")
    assert {one.lets_through for one in seen(wood).lost} == {0.5}
    assert {one.lets_through for one in seen(wood, on=date(2026, 6, 21)).lost} == {0.2}
    assert {one.what for one in seen(wood).lost} == {"trees"}


@given(low=st.integers(0, 40), more=st.integers(0, 40), latitude=st.floats(-60.0, 65.0))
@settings(max_examples=20, deadline=None)
def test_a_higher_ridge_never_leaves_more_sun(low: int, more: int, latitude: float) -> None:
    less = seen(band(f"{low} deg"), latitude=latitude)
    higher = seen(band(f"{low + more} deg"), latitude=latitude)
    assert higher.clear_h <= less.clear_h + 1e-9
    assert higher.up_h == less.up_h
