from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, date, datetime, time, timedelta
from time import tzset
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from polestead.base.problem import Problem, Wrong
from polestead.daybook.entry import KINDS, Entry, Moment
from polestead.daybook.house import House
from polestead.daybook.words import (
    Known,
    joined,
    machine_offset,
    moment_of,
    on_the_clock,
    read_line,
)

MORNING = datetime(2026, 11, 24, 7, 10)
HERE = Moment(date(2026, 11, 24), time(7, 10))


def tilt_of_rod(rod_m: float) -> float:
    if rod_m > 1.0:
        raise Wrong([Problem("drive", "rod", "too much rod", "0 to 1 m", "Measure again.")])
    return 90.0 * rod_m


KNOWN = Known(tilt_of_rod, {"whole trees move": 25.0, "small branches move": 12.0}, {7: 25.0}, {"grease": "grease", "greased": "grease", "oil": "engine oil", "engine oil": "engine oil"})  # fmt: skip


def heard(text: str) -> Entry:
    return read_line(text, HERE, KNOWN, MORNING).entry


def wrong(text: str, house: House | None = None) -> list[Problem]:
    with pytest.raises(Wrong) as caught:
        read_line(text, HERE, KNOWN, MORNING, house or House())
    return list(caught.value.problems)


def test_a_whole_line() -> None:
    line = 'tilt 62, charge 78 %, engine 2.5 h, fuel 3 gal, snow dusted, gust 35 mph, made 6.2 kWh, note "ice, and left it"'
    entry = heard(line)
    assert (entry.tilt_deg, entry.charge, entry.engine_hours) == (62.0, 0.78, 2.5)
    assert entry.filled_l == pytest.approx(11.356, abs=0.001)  # 3 x 3.785411784
    assert entry.gust_m_s == pytest.approx(15.646, abs=0.001)  # 35 x .44704
    assert (entry.snow, entry.new_wh, entry.note) == ("dusted", 6200.0, "ice, and left it")
    assert entry.written == line.rpartition(", note")[0]
    assert entry.moment == HERE


@pytest.mark.parametrize(
    ("said", "key", "value"),
    [
        ("tilt 62", "tilt_deg", 62.0),
        ("Tilt: 62°", "tilt_deg", 62.0),
        ("tilt=7 deg", "tilt_deg", 7.0),
        ("battery 78%", "charge", 0.78),
        ("rest 25.1 V", "rest_v", 25.1),
        ("all made 9 kWh", "all_wh", 9000.0),
        ("made by all 9 kWh", "all_wh", 9000.0),
        ("engine 2 h 30 min", "engine_hours", 2.5),
        ("ran 90 min", "engine_hours", 1.5),
        ("engine 0 h", "engine_hours", 0.0),
        ("meter 1,250.5 h", "engine_meter_hours", 1250.5),
        ("fuel 10 l", "filled_l", 10.0),
        ("tank 40 %", "tank_share", 0.4),
        ("tank 100 l", "tank_l", 100.0),
        ("snow 30 %", "snow_share", 0.3),
        ("snow none", "snow", "bare"),
        ("glass covered", "snow", "covered"),
        ("snow iced", "snow", "covered"),
        ("wind 20 m/s", "gust_m_s", 20.0),
        ("gust whole trees move", "gust_m_s", 25.0),
        ("gust force 7", "gust_m_s", 25.0),
        ("done greased and oil", "done", ("grease", "engine oil")),
        ("greased", "done", ("grease",)),
        ("engine oil", "done", ("engine oil",)),
        ("note charge 78 %", "note", "charge 78 %"),
        ("rod 500 mm", "tilt_deg", 45.0),
    ],
)
def test_each_thing_by_itself(said: str, key: str, value: object) -> None:
    entry = heard(said)
    assert getattr(entry, key) == value
    seen = {name for name in (*KINDS, "done", "note") if getattr(entry, name) not in (None, (), "")}
    assert seen == {key, *(["rod_m"] if said.startswith("rod") else [])}


@pytest.mark.parametrize(
    ("said", "told"),
    [
        ("charge 78", "78 %"),
        ("charge 0.78", "0.78 %"),
        ("engine 2.5", "2.5 h or 2.5 min"),
        ("fuel 3", "3 gal or 3 l"),
        ("gust 35", "35 mph or 35 m/s"),
        ("charge 78,5 %", "write a point"),
        ("charge", "the word alone"),
        ("engin 2 h", "Did you mean engine?"),
        ("charge 12 V", "is a voltage, a share is wanted"),
        ("tilt 62 charge 78 %", "Put a comma before charge"),
        ("tilt 62, tilt 15", "twice in one line"),
        ("done sweeping", "no chore known here"),
        ("gust move", "whole trees move or small branches move"),
        ("gust dogs fly", "this ladder"),
        ("rod 1.2 m", "too much rod"),
        ('note "ice, tilt 62', "Close the quote"),
        ('note "ice", note more', "one note in a line"),
        ("", "Write down at least one thing"),
        (" , ", "Write down at least one thing"),
        ("tilt 95", "0 deg to 90 deg"),
        ("engine 30 h", "0 h to 24 h"),
    ],
)
def test_what_cannot_be_read_is_told_with_what_could_be_meant(said: str, told: str) -> None:
    (problem,) = wrong(said)
    assert told in str(problem)


def test_all_is_told_at_once_what_cannot_be_read_and_what_cannot_be() -> None:
    told = wrong("charge 78, tilt 95, sno dusted, gust 300 mph", House(style="feet"))
    assert len(told) == 4
    assert "257.2 mph" in str(told[-1])  # 115 m/s, in his units


def test_a_rod_without_a_drive_asks_for_the_level() -> None:
    with pytest.raises(Wrong, match="Read the level"):
        read_line("rod 500 mm", HERE, Known(), MORNING)


def test_a_tilt_beside_a_rod_counts_as_it_was_read() -> None:
    entry = heard("rod 500 mm, tilt 44")
    assert (entry.rod_m, entry.tilt_deg) == (0.5, 44.0)


def test_a_note_that_swallowed_figures_says_so() -> None:
    told = read_line("tilt 62, note ice, fuel 3 gal, and cold", HERE, KNOWN, MORNING)
    assert told.entry.note == "ice, fuel 3 gal, and cold"
    assert told.entry.filled_l is None
    assert "In the note, and not read: fuel 3 gal." in told.told[0]


@pytest.mark.parametrize(
    ("typed", "line"),
    [
        (["tilt", "62,", "note", "ice, left it"], 'tilt 62, note "ice, left it"'),
        (["tilt", "62,", "note", "ice, left it,", "fuel", "3", "gal"], 'tilt 62, note "ice, left it", fuel 3 gal'),
        (["tilt 62, note ice"], "tilt 62, note ice"),
        (["note", 'a "b" c'], 'note "a ""b"" c"'),
    ],
)  # fmt: skip
def test_what_a_shell_took_out_of_quotes_is_one_note_again(typed: list[str], line: str) -> None:
    assert joined(typed) == line


@settings(deadline=None)
@given(st.text(st.characters(exclude_categories=["Cs", "Cc"])), st.text(st.characters(exclude_categories=["Cs", "Cc"])))  # fmt: skip
def test_any_note_in_quotes_is_kept_word_for_word(one: str, other: str) -> None:
    note = f"x{one} {other}y"
    entry = heard(joined(["charge", "78", "%,", "note", note + ",", "fuel", "3", "l"]))
    assert (entry.note, entry.filled_l, entry.charge) == (note, 3.0, 0.78)


@settings(deadline=None)
@given(st.text(max_size=80))
def test_any_text_is_read_or_refused_in_words(text: str) -> None:
    entry, told = Entry(HERE), ()
    try:
        entry = heard(text)
    except Wrong as refused:
        told = refused.problems
    assert all(problem.given and problem.allowed and problem.do for problem in told)
    assert told or entry.note or entry.written


def chicago(wall: datetime) -> timedelta:
    offset = wall.replace(tzinfo=ZoneInfo("America/Chicago")).utcoffset()
    assert offset is not None
    return offset


@pytest.mark.parametrize(
    ("on", "at", "moment"),
    [
        (None, None, Moment(date(2026, 11, 24), time(7, 10), -360)),
        ("yesterday", None, Moment(date(2026, 11, 23))),
        ("2026-07-01", "7:10", Moment(date(2026, 7, 1), time(7, 10), -300)),
        ("2026-07-01", "7 pm", Moment(date(2026, 7, 1), time(19, 0), -300)),
        (None, "12:05 am", Moment(date(2026, 11, 24), time(0, 5), -360)),
        ("2026-07-01", "7:10 +01:00", Moment(date(2026, 7, 1), time(7, 10), 60)),
        ("2026-07-01", "07:10Z", Moment(date(2026, 7, 1), time(7, 10), 0)),
    ],
)
def test_the_moment_of_a_line(on: str | None, at: str | None, moment: Moment) -> None:
    assert moment_of(on, at, MORNING, chicago) == (moment, "plain")


def test_an_hour_that_came_twice_or_never_is_kept_without_its_offset() -> None:
    # the United States went back on 1 Nov 2026 and on on 8 Mar 2026, both at 2:00
    assert moment_of("2026-11-01", "1:30", MORNING, chicago) == (Moment(date(2026, 11, 1), time(1, 30)), "twice")  # fmt: skip
    assert moment_of("2026-03-08", "2:30", MORNING, chicago) == (Moment(date(2026, 3, 8), time(2, 30)), "never")  # fmt: skip
    known = moment_of("2026-11-01", "1:30 -06:00", MORNING, chicago)
    assert known == (Moment(date(2026, 11, 1), time(1, 30), -360), "plain")
    assert [on_the_clock(date(2026, 11, 1), time(hour), chicago)[1] for hour in (0, 1, 2)] == ["plain", "twice", "plain"]  # fmt: skip
    assert [on_the_clock(date(2026, 3, 8), time(hour), chicago)[1] for hour in (1, 2, 3)] == ["plain", "never", "plain"]  # fmt: skip


def test_now_in_the_second_of_two_same_hours_bears_its_own_offset() -> None:
    now = datetime(2026, 11, 1, 7, 30, tzinfo=UTC).astimezone(ZoneInfo("America/Chicago"))
    assert moment_of(None, None, now, chicago)[0] == Moment(date(2026, 11, 1), time(1, 30), -360)


@pytest.fixture
def in_chicago(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """The machine's clock set to another place."""
    monkeypatch.setenv("TZ", "America/Chicago")
    tzset()
    yield
    monkeypatch.undo()
    tzset()


@pytest.mark.usefixtures("in_chicago")
def test_the_machines_own_offset_is_that_of_its_place_at_every_hour_of_a_year() -> None:
    start = datetime(2026, 1, 1, 0, 30)
    for hour in range(8760):
        for fold in (0, 1):
            wall = (start + timedelta(hours=hour)).replace(fold=fold)
            assert machine_offset(wall) == chicago(wall), wall


@pytest.mark.parametrize(("on", "at"), [("24/11/2026", None), ("2026-02-30", None), (None, "25:00"), (None, "7"), ("tomorrow", "13 pm")])  # fmt: skip
def test_a_day_or_time_that_is_none_is_told(on: str | None, at: str | None) -> None:
    with pytest.raises(Wrong) as caught:
        moment_of(on, at, MORNING, chicago)
    assert len(caught.value.problems) == (2 if on == "tomorrow" else 1)
