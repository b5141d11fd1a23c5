"""The calendar: gates before what stands behind them, cure waits, chores; the file read back by another library."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
import vobject
from hypothesis import given, settings
from hypothesis import strategies as st

from polestead.answer.cards import calendar_only
from polestead.build.calendar import calendar_of
from polestead.build.steps import ACTS, SIGN_OFFS
from polestead.homestead.demos import demo_names, demo_path
from polestead.homestead.read import read_homestead
from polestead.mount.schedule import TiltSchedule, two_tilts
from polestead.sheets.calendar import calendar_ics

START = date(2026, 5, 4)
TILTS = two_tilts(65.0, 25.0, 47.9)


def dates(start: date, means: list[float] | None) -> dict[str, tuple[date, date]]:
    made = calendar_of(start, TILTS, 47.9, 20.7e6, means)
    return {e.key: (e.on, e.on + timedelta(days=e.days)) for e in made.events}


@settings(deadline=None, max_examples=30)
@given(
    st.dates(date(2024, 1, 1), date(2030, 12, 31)),
    st.one_of(st.none(), st.lists(st.floats(-10.0, 30.0), min_size=12, max_size=12)),
)
def test_nothing_is_dated_before_what_it_needs(start: date, means: list[float] | None) -> None:
    when = dates(start, means)
    for act in ACTS:
        if f"act {act.name}" not in when:
            continue
        on = when[f"act {act.name}"][0]
        assert all(when[f"act {need}"][1] <= on for need in act.needs)
        assert all(when[f"gate: {gate}"][0] <= on for gate in act.behind)
    for gate in SIGN_OFFS:
        if gate.waits and f"gate: {gate.name}" in when:
            assert when[f"cure {gate.waits}"][0] <= when[f"gate: {gate.name}"][0]


def test_at_twenty_degrees_modules_hang_four_weeks_after_the_pour() -> None:
    when = dates(START, None)
    # ask, locate, stake, trench, hole, aim a day each from 4 May: the pour on the 10th
    assert when["act pour"][0] == date(2026, 5, 10)
    assert when["cure bare steel"][0] == date(2026, 5, 17)
    assert when["act load modules"][0] == date(2026, 6, 7)


def test_where_it_never_warms_nothing_after_the_cure_is_dated_and_it_is_said() -> None:
    made = calendar_of(START, TILTS, 47.9, 20.7e6, [3.0] * 12)
    keys = {event.key for event in made.events}
    assert "act pour" in keys
    assert not keys & {"act lift", "act connect", "chore grease", "tilt 1"}
    assert any("No date for bare steel" in note for note in made.notes)


def test_chores_and_tilts_come_after_it_stands_and_turn_with_the_half_of_the_earth() -> None:
    made = calendar_of(START, TILTS, 47.9, 20.7e6)
    last = max(e.on for e in made.events if e.kind == "act")
    after = [e for e in made.events if e.kind in ("chore", "tilt")]
    assert all(e.on > last and e.repeats for e in after)
    assert {e.name for e in after if e.kind == "tilt"} == {"Set the array to 25 deg", "Set the array to 65 deg"}  # fmt: skip
    assert {(e.on.month, e.on.day) for e in after if e.kind == "tilt"} == {(3, 30), (9, 10)}
    asked = ("grease", "torque", "weld look", "ground clamp", "cable loop", "trees", "monthly cycle")  # fmt: skip
    assert {f"chore {key}" for key in asked} <= {e.key for e in after}
    south = calendar_of(START, TILTS, -40.0, 20.7e6)
    grease = [next(e for e in m.events if e.key == "chore grease").on.month for m in (made, south)]
    assert grease == [9, 3]
    fixed = calendar_of(START, TiltSchedule("fixed", ((1, 50.0),)), 47.9, 20.7e6)
    assert not any(e.kind == "tilt" for e in fixed.events)


@pytest.mark.parametrize("name", demo_names())
def test_the_file_is_read_back_by_another_library(name: str) -> None:
    owners = read_homestead(demo_path(name))
    made = calendar_only(owners, START)
    first = calendar_ics(owners.homestead.name, owners.fingerprint, START, made)
    assert first == calendar_ics(owners.homestead.name, owners.fingerprint, START, calendar_only(owners, START))  # fmt: skip
    read = vobject.readOne(first.decode("utf-8"))
    entries = read.vevent_list
    assert len(entries) == len(made.events) > 30
    uids = [entry.uid.value for entry in entries]
    assert len(set(uids)) == len(uids)
    assert all(uid.startswith(owners.fingerprint) for uid in uids)
    for entry, event in zip(entries, made.events, strict=True):
        assert (entry.summary.value, entry.dtstart.value, entry.dtend.value) == (event.name, event.on, event.on + timedelta(days=event.days))  # fmt: skip
        assert entry.description.value == event.words
        assert hasattr(entry, "rrule") == bool(event.repeats)
    tilt = next(entry for entry in entries if entry.summary.value.startswith("Set the array"))
    assert tilt.rrule.value == "FREQ=YEARLY"


def test_a_pour_that_is_done_moves_all_days_about_it_and_its_readings_count_first():
    """Poured 10 May, seven days at 10 C: half a day each, so 3.5 of 7; the plan's means carry on from there."""
    owners = read_homestead(demo_path("hollow-spruce"))
    poured = date(2026, 5, 10)
    plan = {event.key: event.on for event in calendar_only(owners, START).events}
    cold = calendar_only(owners, START, poured, [10.0] * 7)
    days = {event.key: event.on for event in cold.events}
    assert days["act pour"] == poured
    assert days["act hole"] - days["act pour"] == plan["act hole"] - plan["act pour"]
    warm = {
        event.key: event.on for event in calendar_only(owners, START, poured, [20.0] * 7).events
    }
    assert warm["cure bare steel"] == date(2026, 5, 17)  # seven days at 20 C
    assert days["cure bare steel"] > date(2026, 5, 17)
    assert any("readings of 7 days" in note for note in cold.notes)
