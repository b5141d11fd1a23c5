"""Where no tilt holds, in the dark, and what a move must earn."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import datetime

import pytest

from polestead.morning.ahead import even_wh
from polestead.morning.choose import AS_FIRM
from polestead.morning.decide import morning_of
from polestead.morning.forecast.forecast import Forecast, Span
from polestead.morning.forecast.words import read_heard
from polestead.morning.seen import Reading, Seen
from tests.morning.given import MPH

AT = datetime(2026, 11, 25, 8, 10)
SEEN = Seen(AT, lies=Reading(65.0), charge=Reading(0.78), glass="bare")


def line(basis, text, **changes):
    seen = replace(SEEN, **changes)
    return morning_of(basis, seen, read_heard(text, seen.at.date(), True, seen.at.hour))


def words(found) -> str:
    return " ".join(one.text for one in found.sentences)


# -- no tilt holds -----------------------------------------------------------------------------------------------------


def test_where_no_tilt_holds_the_firmest_that_can_be_reached_is_the_act(spruce) -> None:
    """120 mph may be 192; bare, the card stands to most at 5.  By 4 pm it still blows under the 30 of the way."""
    found = line(spruce, "gusts 120 mph after dark, gusts 10 mph by dark")
    firmest = found.firmest
    assert found.stop
    assert firmest is not None
    assert firmest.allowed
    card = spruce.card
    assert firmest.stands_to_m_s == pytest.approx(115.0 * MPH)
    assert card.stands_to_m_s(firmest.tilt_deg) == max(card.stands_to_m_s(tilt) for tilt in card.tried(5.0))  # fmt: skip
    assert firmest.by_wall == datetime(2026, 11, 25, 16, 0)
    said = words(found)
    assert said.startswith("No tilt on the card stands to 192 mph")
    assert "It is the firmest, it stands to 115 mph, where it lies to 75 mph." in said
    assert "Bring it to 5 now, by 4 pm at the latest: only under 30 mph." in said
    assert "keep everybody away" in said
    assert not re.search(r"\bSet\b|Leave it at|\d s\b|\bmark\b|\bkey\b", said)


@pytest.mark.parametrize(
    ("changes", "why"),
    [
        ({"blows_m_s": 40.0 * MPH}, "it blows 40 mph"), ({"glass": "iced", "lies": Reading(15.0)}, "there is ice on it"), ({"glass": "buried", "lies": Reading(15.0)}, "its low edge is buried"),
        ({"glass": "covered", "lies": Reading(15.0)}, "snow covers it"), ({"glass": "covered", "snow_m": 0.3, "lies": Reading(15.0)}, "too much snow lies on it"),
        ({"at": datetime(2026, 11, 25, 20, 0)}, "in the dark nothing is moved: it is light at 7:30 am"),
    ],
)  # fmt: skip
def test_what_stands_against_the_way_to_the_firmest_is_told(spruce, changes, why) -> None:
    found = line(spruce, "gusts 120 mph", **({"lies": Reading(75.0)} | changes))
    assert found.firmest is not None
    assert not found.firmest.allowed
    assert found.sentences[0].text == "Do not move it."
    assert why in words(found)
    assert "keep everybody away" in words(found)


def test_unseen_wind_told_over_the_moving_gust_is_looked_at_first(spruce) -> None:
    found = line(spruce, "gusts 120 mph")
    assert found.firmest is not None
    assert found.firmest.look_first
    assert "look first, and only under 30 mph" in words(found)
    lull = line(spruce, "gusts 120 mph", blows_m_s=5.0 * MPH)
    assert lull.firmest is not None
    assert not lull.firmest.look_first


def test_a_little_firmer_is_no_reason_to_go_out_into_it(spruce) -> None:
    """Under snow the card stands to no more than a tenth over the 75 of the winter tilt."""
    found = line(spruce, "gusts 120 mph", glass="not looked")
    card = spruce.card
    assert card.stands_to_m_s(65.0, under_snow=True) >= AS_FIRM * max(card.stands_to_m_s(tilt, under_snow=True) for tilt in card.tried(5.0))  # fmt: skip
    assert found.firmest is None
    assert "It lies about as firm as it can: it stands to 75 mph there." in words(found)


# -- a wind without its unit -------------------------------------------------------------------------------------------


def test_a_wind_without_its_unit_is_asked_and_each_reading_told_where_they_differ(spruce) -> None:
    """Bare at 65: 60 km/h may be 60 mph, held; 60 mph 96, held at 10; 60 kt 110, held flat; 60 m/s 215, by none."""
    found = line(spruce, "gusts 60")
    assert found.sentences[0].text == (
        "Gusts 60: of which unit, mph, kt, km/h or m/s? Say it again. "
        "In mph it must be at 10; in kt it must be at 5; in km/h it may stay at 65; in m/s no tilt holds."
    )
    assert found.sentences[0].sureness == "guess"
    asked = line(spruce, "gusts 12")
    assert asked.sentences[0].text == "Gusts 12: of which unit, mph, kt, km/h or m/s? Say it again."
    assert "of which unit" not in words(line(spruce, "gusts 60 mph"))


# -- the dark ----------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("hour", [0, 3, 6, 17, 20, 23])
@pytest.mark.parametrize("text", ["clear, gusts 10 mph", "clear, gusts 45 mph", "gusts 70 mph", "gusts 10 mph, 6 in snow tonight"])  # fmt: skip
def test_nothing_is_moved_in_the_dark(spruce, hour, text) -> None:
    """Sun up 7:30, down 4:18: a move is told for an hour between, and only where it stands until then."""
    at = datetime(2026, 11, 25, hour, 10)
    for lies in (Reading(25.0), Reading(65.0), None):
        found = line(spruce, text, at=at, lies=lies)
        if found.move is not None:
            assert hour < 8
            assert found.move.light_wall is not None
            assert (found.move.light_wall.hour, found.move.light_wall.minute) == (7, 30)
            assert "at 7:30 am when it is light" in words(found)
            if lies is not None:
                assert spruce.card.stands_to_m_s(lies.value) >= max(found.upper_by_hour[hour:8])
        if found.tonight is not None and found.tonight.by_wall is not None:
            assert 8 <= found.tonight.by_wall.hour + found.tonight.by_wall.minute / 60.0 <= 16.32
        if found.stop and lies is not None and found.firmest is None:
            assert "In the dark nothing is moved" in words(found) or "No tilt on the card" in words(found)  # fmt: skip


def test_by_day_no_hour_of_light_is_named(spruce) -> None:
    found = line(spruce, "clear, gusts 15 mph", lies=Reading(25.0), charge=Reading(0.6))
    assert found.move is not None
    assert found.move.light_wall is None
    assert "when it is light" not in words(found)


def test_the_line_is_good_until_sundown_as_the_page_says_it(spruce) -> None:
    from polestead.site.noon import sun_up_and_down_h

    found = line(spruce, "clear, gusts 15 mph")
    facts = spruce.facts
    sun = sun_up_and_down_h(
        facts.latitude_deg, facts.longitude_deg, facts.clock_offset_h, AT.date()
    )
    assert sun is not None
    good = found.good_until.hour + found.good_until.minute / 60.0
    assert good == pytest.approx(sun[1], abs=0.03)


# -- what a move must earn ---------------------------------------------------------------------------------------------


@pytest.mark.parametrize("charge", [0.5, 0.7, 0.9])
@pytest.mark.parametrize("lies", [25.0, 58.0, 60.0, 64.0, 66.0, 70.0])
@pytest.mark.parametrize("sky", ["clear", "broken", "grey"])
def test_every_move_says_what_it_is_for(spruce, charge, lies, sky) -> None:
    """It is worth at least twice what counts as even, or it is for firmness, or it cannot stay; a degree or two earn nothing."""
    found = line(spruce, f"{sky}, gusts 15 mph; gusts 15 mph", lies=Reading(lies), charge=Reading(charge))  # fmt: skip
    if found.move is None:
        return
    worth = re.search(r"Worth ([\d.]+) kWh\.", words(found))
    assert worth or "The sun is even, it is firmer." in words(found)
    if worth:
        assert float(worth[1]) * 1000.0 >= 2.0 * even_wh(spruce) - 50.0
        assert abs(found.move.to_deg - lies) > 5.0


def test_what_was_not_worth_a_move_is_told(spruce) -> None:
    found = line(spruce, "clear, gusts 15 mph; gusts 15 mph", lies=Reading(60.0), charge=Reading(0.6))  # fmt: skip
    assert found.stays_deg == 60.0
    assert "a move must earn 0.3 kWh" in found.why[0].text


def test_a_full_bank_does_not_go_to_and_fro(spruce) -> None:
    """Two weeks of clear mornings with the bank all but full, each told move made: flat once, or not at all."""
    for month in (3, 6, 10, 12):
        lies, path = 65.0, []
        for day in range(1, 15):
            at = datetime(2026, month, day, 9, 0)
            seen = Seen(at, Reading(lies), Reading(0.97), "bare")
            told = Forecast("heard", at.date(), (Span(0.0, 79.0, gust_m_s=5.0, sky="clear" if day % 2 else "grey"),))  # fmt: skip
            found = morning_of(spruce, seen, told)
            if found.move is not None:
                lies = found.move.to_deg
                path.append(lies)
        assert len(path) <= 1, (month, path)


# -- an old charge -----------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("read", [0.45, 0.56, 0.62, 0.75, 0.95])
@pytest.mark.parametrize("age_h", [14.0, 40.0, 120.0])
def test_an_old_charge_never_tells_of_fewer_engine_hours_than_the_same_read_now(spruce, read, age_h) -> None:  # fmt: skip
    for sky in ("clear", "grey"):
        now, old = (line(spruce, f"{sky}, gusts 10 mph", charge=Reading(read, age)) for age in (0.0, age_h))  # fmt: skip
        assert now.ahead is not None
        assert old.ahead is not None
        fresh, stale = now.ahead.engine, old.ahead.engine
        assert stale.chance >= fresh.chance
        for one in ("low", "mid", "high"):
            assert getattr(stale.hours, one) >= getattr(fresh.hours, one) - 0.05
            assert getattr(stale.ahead_h, one) >= getattr(fresh.ahead_h, one) - 0.05
    if "Engine" in words(old):
        assert "Read the charge first." in words(old)
