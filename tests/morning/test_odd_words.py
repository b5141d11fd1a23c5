"""Forecasts as a half-awake owner types them."""

from __future__ import annotations

from datetime import date, datetime, timedelta

import pytest

from polestead.base.problem import Wrong
from polestead.daybook.daybook import empty_daybook
from polestead.daybook.entry import Entry, Moment
from polestead.morning.clock import PlaceClock, in_standard
from polestead.morning.decide import morning_of
from polestead.morning.forecast.forecast import Forecast
from polestead.morning.forecast.words import read_heard
from polestead.morning.learned import gust_bias
from polestead.morning.looked import seen_of
from polestead.morning.seen import HEARD, Reading, Seen
from tests.morning.given import AT, MPH

DAY = date(2026, 11, 25)


def heard(text, feet=True, now_h=7.0):
    return read_heard(text, DAY, feet, now_h)


@pytest.mark.parametrize("text", [
    "severe cold", "extreme cold warning", "extreme heat", "no storm", "no storms tonight", "no wind advisory", "storm warning lifted", "storm warning cancelled",
    "gale warning has expired", "storm is over", "no more storms", "no severe winds", "wind chill -30 F", "windchill of -20",
])  # fmt: skip
def test_cold_and_storms_that_are_none_are_no_storm(text) -> None:
    found = heard(text)
    assert (found.storm, found.least_gust_m_s) == (False, 0.0)
    assert found.not_understood  # and it is told


@pytest.mark.parametrize("text", [
    "storm", "strom", "hurricaine", "blizard", "gail force winds", "severe weather", "severe thunderstorm watch", "extreme winds", "storm over the lake",
    "no end to the storm", "storm warning lifted to hurricane warning", "storm warning not lifted", "storm later", "damaging gusts", "wind getting up", "red flag",
])  # fmt: skip
def test_what_may_be_a_storm_is_one(text) -> None:
    assert heard(text).storm


@pytest.mark.parametrize(("text", "least_mph"), [
    ("gsuts 45 mph", 45), ("guts 60", 60), ("45 gusting 60", 60), ("20g35", 35), ("gusts 60 moh", 60), ("no gusts over 20", 20),
    ("no blizzard but gusts 50 mph", 50), ("calm, then 60", 60), ("winds nw 15 to 25", 37), ("gusts 35,5 m/s", 79),
])  # fmt: skip
def test_a_slip_of_the_fingers_makes_no_gust_softer(text, least_mph) -> None:
    assert heard(text).least_gust_m_s >= least_mph * MPH


@pytest.mark.parametrize(("text", "gust_mph"), [("light winds", 18.1), ("light breeze", 11.1), ("fresh breeze", 35.9)])  # fmt: skip
def test_a_wind_by_its_name_is_the_upper_end_of_its_force(text, gust_mph) -> None:
    """Force 2, 3 and 5 end at 3.3, 5.4 and 10.7 m/s as a mean; gusts 1.5 times that."""
    (span,) = heard(text).spans
    assert span.gust_m_s == pytest.approx(gust_mph * MPH, abs=0.1)
    assert "gusts taken as" in heard(text).echo


@pytest.mark.parametrize("text", ["low -3,5 C", "snow 2,5 cm", "gusts 1,5 m/s", "low 3,5 C, gusts 10 mph"])  # fmt: skip
def test_a_decimal_comma_is_asked_about_and_nothing_split(text) -> None:
    (asked,) = heard(text).not_understood
    assert "decimal comma" in asked


def test_a_comma_without_a_blank_still_parts_what_is_told() -> None:
    found = heard("clear,gusts 15 mph,low 20 F")
    assert (found.not_understood, len(found.spans)) == ((), 3)


def test_a_low_over_the_high_of_the_same_day_is_asked_about() -> None:
    found = heard("low 90 F, high -10 F, gusts 10 mph")
    assert "one of them is a slip" in found.not_understood[0]
    assert all(one.low_c is None and one.high_c is None for one in found.spans)
    fine = heard("low -10 F, high 20 F; tomorrow low 30 F, high 40 F")
    assert fine.not_understood == ()


def test_a_temperature_no_season_has_is_asked_about(spruce) -> None:
    def line(text):
        return morning_of(spruce, Seen(AT, Reading(65.0), Reading(0.7), "bare"), heard(text))

    assert any("slip of unit or sign" in note for note in line("low 90 F").notes)
    assert any("slip of unit or sign" in note for note in line("high -60 F").notes)
    for usual in ("low -20 F", "high 45 F", "20 to 30 F"):
        assert not any("slip of unit" in note for note in line(usual).notes)


@pytest.mark.parametrize("lies", ["88", "0", "80 deg"])
def test_a_tilt_past_the_travel_is_refused_in_words(spruce, lies) -> None:
    """The Spruce is built for 5 to 75."""
    with pytest.raises(Wrong) as wrong:
        seen_of(AT, PlaceClock(), spruce.facts, lies, None, "0 h", "home", None, "not looked", (5.0, 75.0))  # fmt: skip
    (problem,) = wrong.value.problems
    assert (problem.key, problem.allowed) == ("--lies", "a tilt of its travel, 5 to 75")


def test_the_least_gust_of_words_ends_by_the_owners_clock() -> None:
    """Summer time an hour ahead: what lasts until 31:00 on his wall ends at 30:00 of standard time."""
    clock = PlaceClock(-6.0, lambda _: timedelta(hours=-5))
    found = in_standard(heard("gusts 60"), clock)
    assert (heard("gusts 60").least_to_h, found.least_to_h) == (31.0, 30.0)
    assert {one.least_to_h for _, one in found.readings} <= {30.0, 0.0}


def test_a_gust_heard_at_night_is_of_the_night_it_was_heard_in(spruce) -> None:
    """At 22:00 'gusts 30 mph this morning' is of tomorrow: it says nothing of the gust met today."""
    with empty_daybook() as book:
        for day in range(1, 16):
            note = f"{HEARD}gusts 30 mph this morning"
            moment = Moment(date(2026, 11, day), datetime(2026, 11, day, 22, 0).time())
            book.append(Entry(moment, gust_m_s=60.0 * MPH, gust_seen="x", note=note), datetime(2026, 11, 20))  # fmt: skip
        entries = book.entries()
    assert gust_bias(entries, spruce) == 1.0


def test_a_forecast_without_slips_asks_nothing() -> None:
    assert isinstance(heard("clear, gusts 20 mph"), Forecast)
    assert (heard("clear, gusts 20 mph").unitless, heard("clear, gusts 20 mph").readings) == ("", ())  # fmt: skip
