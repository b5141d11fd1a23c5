from __future__ import annotations

from datetime import date, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from polestead.build.calendar import Calendar, Event
from polestead.build.chores import chore_words, chores
from polestead.daybook.chores import Asks, Due, calendar_from, due_soon, dues, with_daybook
from polestead.daybook.daybook import Kept
from polestead.daybook.entry import Entry, Moment
from polestead.mount.schedule import TiltSchedule, two_tilts
from tests.daybook.seen import NOW

TODAY = date(2026, 6, 10)
HERE = Asks(stands=True, drive=True, engine=True, lead=True, flooded=True, equalize_every_days=60.0, airing_every_days=7.0, latitude_deg=47.9)  # fmt: skip


def on(day: date, **seen: object) -> Entry:
    return Entry(Moment(day), **seen)  # type: ignore[arg-type]


def found(*seen: Entry, asks: Asks = HERE, today: date = TODAY) -> dict[str, Due]:
    kept = [Kept(n, entry, NOW) for n, entry in enumerate(seen, start=1)]
    return {one.chore.key: one for one in dues(kept, today, asks)}


def test_every_chore_says_why_how_and_where_its_rhythm_comes_from() -> None:
    for one in chores():
        assert all((one.why, one.words, one.source, one.name))
        rhythms = (one.month, one.every_days, one.every_moves, one.every_engine_h)
        assert any(rhythms) or one.key == "equalize"  # its maker's days stand in the homestead file
    every = [word for one in chores() for word in (one.key, *one.also)]
    assert len(every) == len(set(every)) == len(chore_words())


def test_by_days_from_the_last_time_or_the_first_day_of_the_log() -> None:
    seen = found(on(date(2026, 5, 1), charge=0.5), on(date(2026, 6, 1), done=("monthly cycle",)))
    assert (seen["monthly cycle"].last, seen["monthly cycle"].due) == (date(2026, 6, 1), date(2026, 7, 1))  # fmt: skip
    assert (seen["acid level"].last, seen["acid level"].due) == (None, date(2026, 6, 30))
    assert seen["equalize"].due == date(2026, 6, 30)  # the file's sixty days
    assert seen["engine airing"].due == date(2026, 5, 8)  # the file's seven


@pytest.mark.parametrize(
    ("last", "due"),
    [
        (date(2025, 9, 3), date(2026, 9, 1)),
        (date(2025, 8, 20), date(2026, 9, 1)),  # a little early: this year's was meant
        (date(2026, 2, 1), date(2026, 9, 1)),
        (date(2026, 6, 1), date(2027, 9, 1)),  # 92 days before: it counts for that one
        (date(2026, 4, 1), date(2026, 9, 1)),  # 153 days before: it does not
    ],
)
def test_a_yearly_one_falls_due_in_its_month(last: date, due: date) -> None:
    assert found(on(last, done=("torque",)))["torque"].due == due


def test_south_of_the_equator_the_year_is_turned() -> None:
    south = Asks(stands=True, drive=True, engine=True, lead=True, flooded=True, equalize_every_days=None, airing_every_days=None, latitude_deg=-40.0)  # fmt: skip
    assert found(on(date(2025, 9, 3), done=("torque",)), asks=south)["torque"].due == date(2026, 3, 1)  # fmt: skip


def test_by_engine_hours_it_is_due_the_day_they_are_up() -> None:
    ran = [on(date(2026, 1, 1) + timedelta(days=n), engine_hours=4.0) for n in range(40)]
    due = found(on(date(2025, 12, 31), done=("engine oil",)), *ran)["engine oil"]
    # 100 h at 4 h a day: the 25th day, 25 January
    assert (due.by, due.due, due.used, due.limit) == ("engine hours", date(2026, 1, 25), 160.0, 100.0)  # fmt: skip


def test_by_engine_hours_to_come_at_the_pace_of_the_last_days() -> None:
    ran = [on(TODAY - timedelta(days=n), engine_hours=2.0) for n in range(20)]
    due = found(on(TODAY - timedelta(days=20), done=("engine oil",)), *ran)["engine oil"]
    # 40 h in 20 days; 60 h more take 30 days, long before the year is out
    assert (due.by, due.used, due.due) == ("engine hours", 40.0, TODAY + timedelta(days=30))


def test_by_moves_whichever_comes_first() -> None:
    moved = [on(date(2025, 10, 1) + timedelta(days=n), tilt_deg=60.0 if n % 2 else 5.0) for n in range(230)]  # fmt: skip
    due = found(on(date(2025, 9, 30), done=("grease",), tilt_deg=60.0), *moved)["grease"]
    # the 200th move is on the 200th day from 1 October: 18 April, before September
    assert (due.by, due.due, due.limit) == ("moves", date(2026, 4, 18), 200.0)
    assert found(on(date(2025, 9, 30), done=("grease",), tilt_deg=60.0))["grease"].by == "date"


def test_the_engine_run_for_the_house_airs_it_and_a_full_charge_is_brim_full() -> None:
    seen = found(
        on(date(2026, 6, 1), engine_hours=2.0),
        on(date(2026, 6, 5), engine_hours=0.0, charge=0.97),
        on(date(2026, 6, 3), charge=1.0),
        on(date(2026, 5, 20), done=("equalize",)),
    )
    assert seen["engine airing"].last == date(2026, 6, 1)
    assert seen["brim-full"].last == date(2026, 6, 3)
    assert found(on(date(2026, 5, 20), done=("equalize",)))["brim-full"].last == date(2026, 5, 20)


def test_only_what_is_there_is_looked_after() -> None:
    bare = Asks(stands=False, drive=False, engine=False, lead=False, flooded=False, equalize_every_days=None, airing_every_days=None, latitude_deg=47.9)  # fmt: skip
    assert found(on(date(2026, 5, 1), charge=0.5), asks=bare) == {}
    up = found(on(date(2026, 5, 1), charge=0.5), on(date(2026, 6, 1), tilt_deg=62.0), asks=bare)
    assert set(up) == {one.key for one in chores() if not one.asks}
    assert up["paint"].due == date(2026, 8, 1)


def test_without_a_rhythm_it_stands_last_and_says_so() -> None:
    asks = Asks(stands=True, drive=True, engine=True, lead=True, flooded=True, equalize_every_days=None, airing_every_days=None, latitude_deg=47.9)  # fmt: skip
    seen = found(on(date(2026, 5, 1), charge=0.5), asks=asks)
    assert list(seen)[-1] == "equalize"
    assert (seen["equalize"].due, seen["equalize"].by) == (None, "no rhythm")
    assert seen["engine airing"].due == date(2026, 5, 15)  # the table's fourteen days


@settings(deadline=None, max_examples=50)
@given(st.lists(st.tuples(st.dates(date(2025, 1, 1), TODAY), st.sampled_from([one.key for one in chores()])), max_size=12))  # fmt: skip
def test_having_done_it_later_never_makes_it_due_earlier(did: list[tuple[date, str]]) -> None:
    before = found(on(date(2025, 1, 1), charge=0.5), *(on(day, done=(key,)) for day, key in did))
    for key in ("torque", "monthly cycle", "acid level", "engine oil"):
        after = found(on(date(2025, 1, 1), charge=0.5), *(on(day, done=(one,)) for day, one in did), on(TODAY, done=(key,)))  # fmt: skip
        assert after[key].last == TODAY
        assert (after[key].due or date.max) >= max(before[key].due or date.min, TODAY)
    assert [one.due or date.max for one in before.values()] == sorted(one.due or date.max for one in before.values())  # fmt: skip


def test_due_soon_is_within_a_week_or_over() -> None:
    seen = found(on(date(2026, 5, 1), charge=0.5), on(TODAY - timedelta(days=25), done=("monthly cycle",)))  # fmt: skip
    soon = [one.chore.key for one in due_soon(list(seen.values()), TODAY)]
    assert soon == ["engine airing", "brim-full", "monthly cycle"]


def test_the_calendar_takes_the_dates_of_the_daybook_and_nothing_stands_in_the_past() -> None:
    seen = found(on(date(2026, 5, 1), charge=0.5), on(date(2026, 6, 1), done=("monthly cycle",)))
    made = calendar_from(list(seen.values()), TODAY, two_tilts(65.0, 25.0, 47.9))
    by_key = {event.key: event for event in made.events}
    assert min(event.on for event in made.events) == TODAY
    assert (by_key["chore monthly cycle"].on, by_key["chore monthly cycle"].every_days) == (date(2026, 7, 1), 30)  # fmt: skip
    assert (by_key["chore torque"].on, by_key["chore torque"].repeats) == (date(2026, 9, 1), "yearly")  # fmt: skip
    assert {"tilt 1", "tilt 2"} <= set(by_key)
    building = Calendar((Event("act pour", "act", "Pour", date(2026, 7, 5), 1, ""), Event("chore torque", "chore", "Torque", date(2027, 9, 1), 1, "", "yearly")), ("one crew",))  # fmt: skip
    both = with_daybook(building, calendar_from(list(seen.values()), TODAY, TiltSchedule("fixed", ((1, 50.0),))))  # fmt: skip
    dated = {event.key: event.on for event in both.events}
    assert dated["act pour"] == date(2026, 7, 5)
    assert dated["chore torque"] == date(2026, 9, 1)
    assert len(dated) == len(both.events)
