"""Dates: the acts with their sign-offs from a first day on, the cure clock, and what comes round every year after it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from math import ceil
from typing import Literal

from polestead.base.show import percent
from polestead.build.chores import chores
from polestead.build.cure import CureMark, cured_by
from polestead.build.steps import ACTS, SIGN_OFFS, in_order
from polestead.mount.schedule import TiltSchedule

Kind = Literal["act", "gate", "cure", "chore", "tilt"]
Repeats = Literal["", "yearly", "monthly"]
LOOKS_AHEAD_DAYS = 500


@dataclass(frozen=True, slots=True)
class Event:
    """One entry, of whole days.

    Attributes:
        key: Stable name within the file (``act pour``).
        kind: Act, gate, cure, chore or tilt.
        name: As shown.
        on: First day.
        days: Whole days, one or more.
        words: What to know.
        repeats: Empty, yearly or monthly.
        every_days: Days between two, where it comes round by days; 0 where it does not.
    """

    key: str
    kind: Kind
    name: str
    on: date
    days: int
    words: str
    repeats: Repeats = ""
    every_days: int = 0


@dataclass(frozen=True, slots=True)
class Calendar:
    """All entries.

    Attributes:
        events: In order of their first day.
        notes: What the dates rest on, and what could not be dated.
    """

    events: tuple[Event, ...]
    notes: tuple[str, ...]


def calendar_of(
    start: date,
    schedule: TiltSchedule,
    latitude_deg: float,
    ordered_pa: float,
    month_means_c: Sequence[float] | None = None,
    needed_pa: float | None = None,
    poured: date | None = None,
    daily_c: Sequence[float | None] = (),
) -> Calendar:
    """Acts one after another by one crew from a first day on, waits of the cure clock between them, and what follows for good.

    Days of work are common practice, no source; no day of rest, no rain and no inspector's wait is counted.

    Args:
        start: The first day.
        schedule: The plan's tilt dates.
        latitude_deg: Of the place; its sign turns the chores by half a year.
        ordered_pa: 28-day strength ordered [Pa].
        month_means_c: Mean air of each month, January first, for the cure clock [C]; None: 20 C, the earliest it can be.
        needed_pa: Strength the sums took [Pa]; None: what was ordered.
        poured: The day of the pour, where it is done: all days then stand about it; None: as the first day brings it.
        daily_c: Mean of each 24 hours since the pour [C], None where nobody looked; month means follow on it.
    """
    if poured is not None:
        planned = calendar_of(start, schedule, latitude_deg, ordered_pa, month_means_c, needed_pa)
        pour = next(event.on for event in planned.events if event.key == "act pour")
        start += poured - pour
    events: list[Event] = []
    notes = ["One crew, every day a working day: no rest, rain or inspector's wait is in it. Move an entry, and move all after it."]  # fmt: skip
    notes.append("The cure clock took 20 C: no mark can come earlier, in the cold each comes later." if month_means_c is None else "The cure clock took the mean air of each month; your own readings (--poured, --air) count in their place.")  # fmt: skip
    if daily_c:
        notes.append(f"Your own readings of {len(daily_c)} days since the pour come first in the cure clock.")  # fmt: skip
    acts, gates = {a.name: a for a in ACTS}, {f"gate: {g.name}": g for g in SIGN_OFFS}
    ends: dict[str, date] = {}
    marks: tuple[CureMark, ...] = ()
    free = start
    for name in in_order():
        if name in gates:
            gate = gates[name]
            if any(one not in ends for one in gate.after):
                continue
            on = max(ends[one] for one in gate.after)
            if gate.waits:
                mark = next(one for one in marks if one.name == gate.waits)
                if mark.on is None:
                    notes.append(f"No date for {gate.waits} within {LOOKS_AHEAD_DAYS} days of these temperatures: nothing after it is dated.")  # fmt: skip
                    continue
                on = max(on, mark.on)
            ends[name] = on
            events.append(Event(name, "gate", f"GATE: {gate.name}", on, 1, f"{gate.words} Signs: {gate.sign}."))  # fmt: skip
            continue
        act = acts[name]
        asks = (*act.needs, *(f"gate: {one}" for one in act.behind))
        if any(one not in ends for one in asks):
            continue
        days = max(1, ceil(act.work_days))
        on = max((free, *(ends[one] for one in asks)))
        free = ends[name] = on + timedelta(days=days)
        hire = f" Hire: {act.hire}." if act.hire else ""
        events.append(Event(f"act {name}", "act", name[0].upper() + name[1:], on, days, f"{act.words} People: {act.people}.{hire}"))  # fmt: skip
        if name == "pour":
            air = _mean_air(month_means_c)
            after = (air(on + timedelta(days=n)) for n in range(len(daily_c), LOOKS_AHEAD_DAYS))
            daily = [*daily_c, *after]
            marks = cured_by(daily, ordered_pa, needed_pa, on).marks
            events += [
                Event(f"cure {m.name}", "cure", f"Concrete: {m.name} not before today", m.on, 1, f"{percent(m.strength_share)} of the 28-day strength, by the cure clock. {notes[1]}")
                for m in marks if m.on is not None
            ]  # fmt: skip
    if len(ends) == len(acts) + len(gates):
        events += after_it(free, schedule, latitude_deg)
    return Calendar(tuple(sorted(events, key=_when)), tuple(notes))


def _when(event: Event) -> tuple[date, int]:
    """On one day: what the clock says, then what is signed, then what is done."""
    return event.on, ("cure", "gate", "act", "tilt", "chore").index(event.kind)


def _mean_air(month_means_c: Sequence[float] | None) -> Callable[[date], float]:
    return lambda day: 20.0 if month_means_c is None else float(month_means_c[day.month - 1])


def after_it(from_day: date, schedule: TiltSchedule, latitude_deg: float) -> tuple[Event, ...]:
    """Yearly chores, the monthly cycle and the tilt dates, each from its first day on or after one.

    Args:
        from_day: The first day it stands.
        schedule: The plan's moves.
        latitude_deg: South of the equator chores come half a year later.
    """
    made = [
        Event(f"chore {one.key}", "chore", one.name, _next(from_day, in_month(one.month, latitude_deg), 1), 1, one.words, "yearly")
        for one in chores() if one.month is not None
    ]  # fmt: skip
    month = from_day.replace(day=1) + timedelta(days=32)
    made += [
        Event(f"chore {one.key}", "chore", one.name, month.replace(day=1), 1, one.words, "monthly")
        for one in chores() if one.asks == "drive"
    ]  # fmt: skip
    return (*made, *tilt_dates(from_day, schedule))


def in_month(month: int, latitude_deg: float) -> int:
    """Month of a yearly chore where the place lies: half a year later south of the equator.

    Example:
        >>> in_month(9, 47.9), in_month(9, -40.0)
        (9, 3)
    """
    return month if latitude_deg >= 0.0 else (month + 5) % 12 + 1


def tilt_dates(from_day: date, schedule: TiltSchedule) -> tuple[Event, ...]:
    """The plan's moves, each from its first day on or after one; none where it never moves.

    Args:
        from_day: The day.
        schedule: The plan's moves.
    """
    made = []
    if len(schedule.moves) > 1:
        for nth, (day, tilt) in enumerate(schedule.moves, start=1):
            common = date(2025, 1, 1) + timedelta(days=day - 1)  # a year without a leap day
            on = _next(from_day, common.month, common.day)
            made.append(Event(f"tilt {nth}", "tilt", f"Set the array to {tilt:g} deg", on, 1, f"{schedule.name[0].upper()}{schedule.name[1:]}. Under the moving gust; lock it after. A week either way costs next to nothing.", "yearly"))  # fmt: skip
    return tuple(made)


def _next(from_day: date, month: int, day: int) -> date:
    this = date(from_day.year, month, day)
    return this if this >= from_day else date(from_day.year + 1, month, day)
