"""The tilts of the next two days: run through the house, held by their own gusts, told as they look now."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, datetime

import pytest

from polestead.base.quantity import in_unit
from polestead.morning.decide import morning_of
from polestead.morning.forecast.forecast import nothing_heard
from polestead.morning.forecast.words import read_heard
from polestead.morning.seen import Away, Reading, Seen
from tests.morning.given import AT, MPH

SEEN = Seen(AT, lies=Reading(65.0), charge=Reading(0.6), glass="bare")
SUMMER = datetime(2026, 7, 1, 7, 0)


def line(basis, text, **changes):
    seen = replace(SEEN, **changes)
    heard = read_heard(text, seen.at.date()) if text else nothing_heard(seen.at.date())
    return morning_of(basis, seen, heard)


def test_a_storm_told_for_a_later_day_lays_that_day_flat_and_no_other(spruce) -> None:
    found = line(spruce, "clear, gusts 10 mph; clear, gusts 10 mph; clear, gusts 60 mph")
    assert [one.day for one in found.outlook] == [date(2026, 11, 26), date(2026, 11, 27)]
    near, far = found.outlook
    assert near.tilt_deg is not None
    assert near.tilt_deg >= 55.0
    assert far.tilt_deg is not None
    assert far.tilt_deg <= 15.0
    # told for hours 48 to 79, on the mean 56 h ahead: sd .2 + .05 (56.3 / 24 - 1) = .267; 60 exp(2.326 x .267) = 111.8
    assert in_unit(far.upper_m_s, "mph") == pytest.approx(112.0)
    assert f"Friday {far.tilt_deg:.0f}, gust up to 112 mph" in found.outlook_words


def test_the_day_may_be_steep_and_its_night_flat(spruce) -> None:
    found = line(spruce, "clear, gusts 10 mph; clear, gusts 10 mph by dark, gusts 60 mph after dark; clear, gusts 15 mph by dark")  # fmt: skip
    near = found.outlook[0]
    assert near.tilt_deg is not None
    assert near.night_deg is not None
    assert near.tilt_deg > 50.0 > 15.0 > near.night_deg
    assert near.by_wall == datetime(2026, 11, 26, 16, 0)
    assert "then flat" in found.outlook_words or "then 8 by 4 pm" in found.outlook_words


def test_what_each_day_holds_to_is_its_own_gust(spruce) -> None:
    """Whatever is told, no tilt of an outlook stands under its day's upper gust, before the rule of §19."""
    for text in ("", "grey", "clear, gusts 20 mph; grey, gusts 45 mph; gusts 80 mph", "gusts 30 kt; gusts 100 mph"):  # fmt: skip
        found = line(spruce, text)
        for one in found.outlook:
            if one.tilt_deg is not None and one.by_wall is None:
                assert spruce.card.stands_to_m_s(one.tilt_deg) >= one.upper_m_s - 1e-9
            if one.tilt_deg is None:
                assert spruce.card.stands_to_m_s(5.0) < one.upper_m_s
                assert "no tilt stands" in found.outlook_words


def test_the_house_decides_it_not_the_calendar(spruce) -> None:
    """In July the bank is full at any tilt: the outlook is as firm as the card goes; in November, low, it is steep."""
    idle = line(spruce, "clear, gusts 10 mph; clear, gusts 10 mph; clear, gusts 10 mph", at=SUMMER, charge=Reading(0.97))  # fmt: skip
    short = line(spruce, "clear, gusts 10 mph; clear, gusts 10 mph; clear, gusts 10 mph")
    firmest = max(spruce.card.stands_to_m_s(tilt) for tilt in spruce.card.tried())
    assert all(spruce.card.stands_to_m_s(one.tilt_deg or 90.0) >= 0.9 * firmest - 3.0 * MPH for one in idle.outlook)  # fmt: skip
    assert all((one.tilt_deg or 0.0) > 50.0 for one in short.outlook)


def test_no_outlook_where_he_is_away_or_it_must_not_be_moved(spruce) -> None:
    assert line(spruce, "clear, gusts 10 mph", away=Away("2 days", 2.0)).outlook == ()
    stop = line(spruce, "clear, gusts 10 mph", glass="iced")
    assert (stop.outlook, stop.outlook_words) == ((), "")


def test_a_day_nothing_was_told_of_says_so(spruce) -> None:
    found = line(spruce, "clear, gusts 10 mph")
    assert [one.told for one in found.outlook] == [False, False]
    assert "Friday" in found.outlook_words
    assert found.outlook_words.endswith("taken, none is told.")
