"""What the daybook remembers counts where nobody just looked, with its age; a broken one is told, none is begun."""

from __future__ import annotations

import sqlite3
from dataclasses import replace
from datetime import date, datetime, time, timedelta

import pytest

from polestead.daybook.daybook import empty_daybook, open_daybook
from polestead.daybook.entry import Entry, Moment
from polestead.morning.decide import morning_of
from polestead.morning.forecast.forecast import nothing_heard
from polestead.morning.remembered import (
    Remembered,
    entries_of,
    house_in,
    remembering,
    with_daybook,
)
from polestead.morning.seen import Away, Reading, Seen

AT = datetime(2026, 11, 25, 7, 10)


def known(spruce, *entries: Entry, seen: Seen | None = None) -> Seen:
    with empty_daybook() as book:
        book.append_all(entries, AT + timedelta(days=30))
        return remembering(seen or Seen(AT), book, spruce, "feet").seen


def on(day: int, hour: int | None = None, **seen) -> Entry:
    at = None if hour is None else time(hour)
    return Entry(Moment(date(2026, 11, day), at), **seen)


def test_tilt_and_charge_come_with_their_age(spruce) -> None:
    found = known(spruce, on(23, 18, tilt_deg=65.0), on(25, 6, charge=0.78))
    assert found.lies == Reading(65.0, 37.0 + 10.0 / 60.0)
    assert found.charge is not None
    assert found.charge.value == 0.78
    assert found.charge.age_h == pytest.approx(1.0 + 10.0 / 60.0)
    assert found.told == (
        "From the daybook: at 65 since Monday 18:00; charge 78 % from today 6:00.",
    )


def test_an_old_charge_is_told_with_its_day(spruce) -> None:
    found = known(spruce, on(23, charge=0.6))
    assert "~ charge 60 % from Monday" in found.told[0]
    line = morning_of(spruce, found, nothing_heard(AT.date()))
    assert any("The charge is from Monday" in note for note in line.notes)


def test_what_was_just_seen_goes_before_it(spruce) -> None:
    seen = Seen(AT, lies=Reading(40.0), charge=Reading(0.5), glass="bare", blows_m_s=3.0)
    found = known(
        spruce, on(25, 7, tilt_deg=65.0, charge=0.78, snow="covered", gust_m_s=20.0), seen=seen
    )
    assert found == replace(seen, met_m_s=20.0)


def test_what_is_struck_or_of_a_later_hour_tells_nothing(spruce) -> None:
    ahead = known(spruce, on(26, 7, tilt_deg=65.0, charge=0.5))
    assert replace(ahead, told=()) == Seen(AT)
    assert ahead.told == ("~ Entry 1 is of 26 Nov 2026, which is still to come: it counts for nothing yet. Is a clock wrong?",)  # fmt: skip
    both = known(spruce, on(26, 7, charge=0.1), on(25, 6, charge=0.6))
    assert both.charge is not None
    assert both.charge.value == 0.6
    with empty_daybook() as book:
        book.append(on(25, 6, charge=0.1), AT)
        book.strike(1, "slip", AT)
        assert remembering(Seen(AT), book, spruce, "feet").seen.charge is None


@pytest.mark.parametrize(
    ("entry", "glass"),
    [
        (on(25, 6, snow="dusted"), "dusted"), (on(24, 6, snow="bare"), "not looked"), (on(25, 6, snow_share=0.9), "covered"),
        (on(23, 8, snow="covered"), "covered"), (on(20, 8, snow="covered"), "not looked"),
    ],
)  # fmt: skip
def test_snow_that_covered_it_counts_until_somebody_may_be_thought_to_have_looked(
    spruce, entry, glass
) -> None:
    found = known(spruce, entry)
    assert found.glass == glass
    assert ("taken as covered" in "".join(found.told)) is (entry.moment.day.day == 23)


def test_a_gust_tells_of_its_own_hour_only_and_an_own_gauge_is_turned_to_ten_metres(spruce) -> None:
    facts = replace(spruce, facts=replace(spruce.facts, anemometer_share=0.8))
    assert known(facts, on(25, 7, gust_m_s=8.0)).blows_m_s == pytest.approx(10.0)
    assert known(facts, on(25, 7, gust_m_s=8.0, gust_seen="whole trees move")).blows_m_s == 8.0
    assert known(facts, on(25, 5, gust_m_s=30.0)).blows_m_s is None


def test_no_daybook_begins_none(spruce, tmp_path) -> None:
    path = tmp_path / "home.daybook"
    assert with_daybook(Seen(AT), path, spruce, "feet") == Remembered(Seen(AT))
    assert not path.exists()


@pytest.mark.parametrize("kind", ["no database", "newer", "folder"])
def test_a_daybook_that_cannot_be_read_is_told_and_the_line_goes_on_as_a_guess(
    spruce, tmp_path, kind
) -> None:
    path = tmp_path / "home.daybook"
    if kind == "folder":
        path.mkdir()
    elif kind == "newer":
        open_daybook(path).close()
        with sqlite3.connect(path) as connection:
            connection.execute("PRAGMA user_version = 99")
    else:
        path.write_bytes(b"tilt 62\n" * 99)
    found = with_daybook(Seen(AT), path, spruce, "feet").seen
    assert replace(found, told=()) == Seen(AT)
    (told,) = found.told
    assert told.startswith("~ The daybook cannot be read, the line goes by climate: ")
    line = morning_of(spruce, found, nothing_heard(AT.date()))
    assert told in line.notes
    assert {one.sureness for one in line.sentences} == {"guess"}


@pytest.mark.parametrize("glass", ["iced", "buried"])
def test_ice_that_was_kept_still_lets_nothing_be_moved(spruce, glass) -> None:
    seen = Seen(AT, lies=Reading(25.0), glass=glass)
    line = morning_of(spruce, seen, nothing_heard(AT.date()))
    later = datetime(2026, 11, 25, 11, 0)
    with empty_daybook() as book:
        book.append_all(entries_of(seen, line, lambda _: timedelta(hours=-6)), AT, house_in(spruce, "feet"))  # fmt: skip
        back = remembering(Seen(later), book, spruce, "feet").seen
        assert back.glass == glass
        assert morning_of(spruce, back, nothing_heard(AT.date())).stop
        book.append(Entry(Moment(AT.date(), time(11, 0)), snow="bare"), later)
        assert remembering(Seen(later), book, spruce, "feet").seen.glass == "bare"


def test_what_is_kept_comes_back_and_the_tilt_told_is_no_tilt_seen(spruce) -> None:
    seen = Seen(AT, charge=Reading(0.78, 2.0), glass="dusted")
    line = morning_of(spruce, seen, nothing_heard(AT.date()))
    entries = entries_of(seen, line, lambda _: timedelta(hours=-6))
    with empty_daybook() as book:
        book.append_all(entries, AT, house_in(spruce, "feet"))
        back = remembering(Seen(AT), book, spruce, "feet").seen
    assert back.lies is None
    assert back.charge is not None
    assert back.charge.value == 0.78
    assert back.charge.age_h == pytest.approx(2.0)
    assert back.glass == "dusted"
    assert line.sentences[0].text in entries[-1].note


def noted(spruce, *notes: Entry, **also) -> Remembered:
    with empty_daybook() as book:
        book.append_all(notes, AT + timedelta(days=30))
        return remembering(Seen(AT), book, spruce, "feet", **also)


def test_what_was_written_as_heard_is_read_again_with_its_age_and_day(spruce) -> None:
    found = noted(
        spruce,
        on(24, 18, note="cold\nheard: clear, gusts 45 kt tomorrow"),
        on(25, 6, note="not heard: gusts 10 kt"),
    )
    assert found.heard is not None
    assert found.heard.day == date(2026, 11, 24)
    assert found.heard.age_h == pytest.approx(13.0 + 10.0 / 60.0)
    assert found.heard.echo.startswith("Tuesday 18:00. Today: clear")
    assert noted(spruce, on(23, 18, note="heard: clear")).heard is None


@pytest.mark.parametrize(
    ("entry", "away"),
    [
        (on(25, 6, note="away: till dark"), Away("till dark", till_dark=True)), (on(24, 6, note="away: till dark"), Away()),
        (on(24, 6, note="away: 3 days"), Away("2 days", days=2.0)), (on(22, 6, note="away: 3 days"), Away()), (on(25, 6, note="away: far"), Away()),
    ],
)  # fmt: skip
def test_away_runs_out_and_what_is_said_now_goes_before_it(spruce, entry, away) -> None:
    assert noted(spruce, entry).seen.away == away
    assert noted(spruce, entry, away_told=True).seen.away == Away()
