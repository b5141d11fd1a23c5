"""The calendar as a leaf: acts, sign-offs and the cure clock by date, then what comes round every year."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date, timedelta

from polestead.build.calendar import Event, after_it
from polestead.build.steps import in_order
from polestead.mount.schedule import two_tilts
from polestead.sheets.book.blocks import Block, Section, head, listed, say, small, table
from polestead.sheets.book.matter import Matter

ANY_YEAR = date(2025, 1, 1)  # without a leap day
BLANK = "__________"
MARKS = {"gate": "GATE", "cure": "clock", "act": "do"}


def calendar(matter: Matter) -> Section:
    """With a first day by date; without one a list with blanks."""
    return Section("Calendar", tuple(_calendar(matter)))


def _calendar(matter: Matter) -> Iterator[Block]:
    if matter.calendar is None:
        yield from _undated(matter)
        yearly: Iterable[Event] = _yearly(matter)
    else:
        events = matter.calendar.events
        yield listed(matter.calendar.notes)
        rows = [(_span(one), MARKS[one.kind], one.name.removeprefix("GATE: "), one.words) for one in events if one.kind in MARKS]  # fmt: skip
        yield table(("when", "", "what", "what to know"), rows, ("auto", "auto", "1fr", "3fr"))
        yearly = [one for one in events if one.kind not in MARKS]
    yield head("Once it stands, every year")
    yield table(("when", "what", "what to know"), [(_season(one), one.name.replace(" deg", "°"), f"{one.words[:1].upper()}{one.words[1:]}") for one in sorted(yearly, key=_turn)], ("auto", "1.4fr", "2.4fr"))  # fmt: skip
    yield small("Chores and their months are common practice, no source; a tilt date a week either way costs next to nothing. polestead calendar FILE --start DATE --ics PATH writes all of it for telephone and desk.")  # fmt: skip


def _undated(matter: Matter) -> Iterator[Block]:
    """The order of work with blanks for its days."""
    yield say("No first day was given (--start): write the days in. The days are of work, not of waiting; rest, rain and inspectors come on top.")  # fmt: skip
    acts = {one.name: one for one in matter.answer.build.acts}
    gates = {f"gate: {one.name}": one for one in matter.answer.build.sign_offs}
    rows = []
    for name in in_order():
        if name in acts:
            act = acts[name]
            hire = f" Hire: {act.hire}." if act.hire else ""
            rows.append((BLANK, MARKS["act"], f"{name[0].upper()}{name[1:]}", f"{act.work_days:g} {'day' if act.work_days <= 1.0 else 'days'}, {act.people} {'person' if act.people == 1 else 'people'}.{hire}"))  # fmt: skip
        else:
            gate = gates[name]
            rows.append((BLANK, MARKS["gate"], gate.name, f"{gate.words} Signs: {gate.sign}."))
    yield table(("when", "", "what", "what to know"), rows, ("auto", "auto", "1fr", "3fr"))


def _yearly(matter: Matter) -> tuple[Event, ...]:
    file = matter.owners.homestead
    latitude = file.place.latitude_deg
    return after_it(ANY_YEAR, two_tilts(file.mount.winter_tilt_deg, file.mount.summer_tilt_deg, latitude), latitude)  # fmt: skip


def _span(one: Event) -> str:
    last = one.on + timedelta(days=one.days - 1)
    end = f" to {last.day} {last:%b}" if one.days > 1 else ""
    return f"{one.on:%a} {one.on.day} {one.on:%b %Y}{end}"


def _season(one: Event) -> str:
    return "every month" if one.repeats == "monthly" else f"{one.on.day} {one.on:%b}"


def _turn(one: Event) -> tuple[int, int]:
    return (0, 0) if one.repeats == "monthly" else (one.on.month, one.on.day)
