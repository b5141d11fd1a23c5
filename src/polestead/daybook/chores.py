"""Which chore is due when: by date, by use, whichever comes first, from what the daybook says was done."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from math import ceil
from typing import Literal

from polestead.build.calendar import Calendar, Event, in_month, tilt_dates
from polestead.build.chores import Chore, chores
from polestead.daybook.daybook import Kept
from polestead.daybook.days import Day, days
from polestead.homestead.model import Drive, Household
from polestead.mount.schedule import TiltSchedule

By = Literal["date", "moves", "engine hours", "no rhythm"]
# A yearly chore done so shortly before its month was that month's: ours.
COUNTS_FOR_IT = timedelta(days=120)
# Use to come is taken as that of the last so many days: ours.
RECENT_DAYS = 60
SOON_DAYS = 7
FULL = 1.0  # a charge read as this is brim-full
OF_THE_HOUSE = ("engine", "lead", "flooded")  # the rest is the array's


@dataclass(frozen=True, slots=True)
class Asks:
    """What is there to look after.

    Attributes:
        stands: The array is up; else it is taken to be from the first tilt in the log on.
        drive: An actuator.
        engine: An engine.
        lead: A lead-acid bank.
        flooded: One with open cells.
        equalize_every_days: The maker's, from the file; None where it is not written.
        airing_every_days: The owner's own, from the file; None where it is not written.
        latitude_deg: South of the equator yearly chores come half a year later.
    """

    stands: bool
    drive: bool
    engine: bool
    lead: bool
    flooded: bool
    equalize_every_days: float | None
    airing_every_days: float | None
    latitude_deg: float


@dataclass(frozen=True, slots=True)
class Due:
    """A chore and when it is due.

    Attributes:
        chore: The chore.
        last: The day it was last done; None where the daybook knows of none.
        due: The day; None where nobody has said how often.
        by: What makes it due first.
        used: Moves or engine hours since it was last done, where use makes it due first.
        limit: How many may be between two; 0 where use does not count.
        every_days: Days between two, where it goes by days.
    """

    chore: Chore
    last: date | None
    due: date | None
    by: By
    used: float = 0.0
    limit: float = 0.0
    every_days: float | None = None

    def days_left(self, today: date) -> int | None:
        """Days until it is due; under nothing where it is over.

        Args:
            today: The day.
        """
        return None if self.due is None else (self.due - today).days


def asks_of(household: Household, drive: Drive | None, latitude_deg: float, *, stands: bool) -> Asks:  # fmt: skip
    """What is there, from the homestead file.

    Args:
        household: For bank and engine.
        drive: The actuator, if there is one.
        latitude_deg: Of the place.
        stands: The array is up.
    """
    kind, engine = household.battery.kind, household.engine
    return Asks(
        stands, drive is not None, engine is not None, kind != "lithium iron phosphate", kind == "flooded lead-acid",
        household.battery.equalize_every_days, None if engine is None else engine.airing_every_days, latitude_deg,
    )  # fmt: skip


def dues(entries: Sequence[Kept], today: date, asks: Asks) -> tuple[Due, ...]:
    """Every chore of this house, the one due first in front; those without a rhythm last.

    What was never done counts from the first day of the log, a chore of the array from the first tilt or such chore in it; before the array
    stands its chores are left out.

    Args:
        entries: All of them, from ``Daybook.entries``.
        today: The day.
        asks: What is there.
    """
    counted = [one for one in entries if one.struck is None and one.entry.moment.day <= today]
    begun = min((one.entry.moment.day for one in counted), default=today)
    rolled = days(counted, begun, today)
    arrays = {one.key for one in chores() if one.asks not in OF_THE_HOUSE}
    up = min(
        (one.entry.moment.day for one in counted if one.entry.tilt_deg is not None or arrays & set(one.entry.done)),
        default=begun if asks.stands else None,
    )  # fmt: skip
    found = []
    for chore in chores():
        from_day = begun if chore.asks in OF_THE_HOUSE else up
        if from_day is not None and (not chore.asks or getattr(asks, chore.asks)):
            found.append(_due(chore, _last(chore, counted, rolled), from_day, today, rolled, asks))
    return tuple(sorted(found, key=lambda one: (one.due or date.max, one.chore.key)))


def _last(chore: Chore, counted: Sequence[Kept], rolled: Sequence[Day]) -> date | None:
    """The last day it was done; some are done by what else is written."""
    keys = {chore.key, "equalize"} if chore.key == "brim-full" else {chore.key}
    done = [one for one in counted if keys & set(one.entry.done)]
    if chore.key == "brim-full":
        done += [one for one in counted if one.entry.charge is not None and one.entry.charge >= FULL]  # fmt: skip
    last = max((one.entry.moment.day for one in done), default=None)
    if chore.key == "engine airing":
        ran = [day.day for day in rolled if (day.engine_hours or 0.0) > 0.0 and day.engine_over_days <= 2]  # fmt: skip
        last = max(filter(None, (last, *ran)), default=None)
    return last


def _due(
    chore: Chore,
    last: date | None,
    begun: date,
    today: date,
    rolled: Sequence[Day],
    asks: Asks,
) -> Due:
    every = _every_days(chore, asks)
    ways: list[Due] = []
    if chore.month is not None:
        on = _in_its_month(last, begun, in_month(chore.month, asks.latitude_deg))
        ways.append(Due(chore, last, on, "date"))
    elif every is not None:
        ways.append(Due(chore, last, (last or begun) + timedelta(days=ceil(every)), "date", every_days=every))  # fmt: skip
    since = [day for day in rolled if last is None or day.day > last]
    if chore.every_moves is not None:
        ways.append(_by_use(chore, last, "moves", [float(day.moves) for day in since], chore.every_moves, since, today))  # fmt: skip
    if chore.every_engine_h is not None:
        hours = [day.engine_hours or 0.0 for day in since]
        ways.append(_by_use(chore, last, "engine hours", hours, chore.every_engine_h, since, today))
    dated = [way for way in ways if way.due is not None]
    return min(dated, key=lambda way: way.due or date.max) if dated else Due(chore, last, None, "no rhythm")  # fmt: skip


def _every_days(chore: Chore, asks: Asks) -> float | None:
    if chore.key == "equalize":
        return asks.equalize_every_days
    if chore.key == "engine airing":
        return asks.airing_every_days or chore.every_days
    return chore.every_days


def _in_its_month(last: date | None, begun: date, month: int) -> date:
    from_day = begun if last is None else last + COUNTS_FOR_IT
    this = date(from_day.year, month, 1)
    return this if this >= from_day else date(from_day.year + 1, month, 1)


def _by_use(
    chore: Chore,
    last: date | None,
    by: By,
    used: Sequence[float],
    limit: float,
    since: Sequence[Day],
    today: date,
) -> Due:
    """The day the use is up, or will be at the pace of the last days; no day where it is not used."""
    total = 0.0
    for day, part in zip(since, used, strict=True):
        total += part
        if total >= limit:
            return Due(chore, last, day.day, by, sum(used), limit)
    recent = used[-RECENT_DAYS:]
    pace = sum(recent) / len(recent) if recent else 0.0
    due = today + timedelta(days=ceil((limit - total) / pace)) if pace > limit / 36500.0 else None
    return Due(chore, last, due, by, total, limit)


def due_soon(found: Sequence[Due], today: date, within_days: int = SOON_DAYS) -> tuple[Due, ...]:
    """Those that are due by a day not far off, or over.

    Args:
        found: From ``dues``.
        today: The day.
        within_days: How far off.
    """
    return tuple(one for one in found if one.due is not None and (one.due - today).days <= within_days)  # fmt: skip


def calendar_from(found: Sequence[Due], today: date, schedule: TiltSchedule) -> Calendar:
    """The chores and the plan's moves from today on, as the daybook dates them; what is over stands today.

    Args:
        found: From ``dues``.
        today: The day.
        schedule: The plan's moves.
    """
    events = [_event(one, today) for one in found if one.due is not None]
    events += tilt_dates(today, schedule)
    notes = ["Chores are dated from what the daybook says was done, or from its first day; what is over stands today."]  # fmt: skip
    notes += [f"No rhythm for {one.chore.name.lower()}: {one.chore.source} is not written." for one in found if one.due is None]  # fmt: skip
    return Calendar(tuple(sorted(events, key=lambda event: (event.on, event.key))), tuple(notes))


def _event(one: Due, today: date) -> Event:
    due = max(one.due or today, today)
    words = f"{one.chore.why} {one.chore.words}"
    yearly = one.chore.month is not None and one.by == "date"
    return Event(
        f"chore {one.chore.key}", "chore", one.chore.name, due, 1, words, "yearly" if yearly else "",
        0 if yearly or one.every_days is None else ceil(one.every_days),
    )  # fmt: skip


def with_daybook(calendar: Calendar, dated: Calendar) -> Calendar:
    """A calendar of the building whose chores are dated by the daybook, where it dates them.

    Args:
        calendar: From ``build.calendar``.
        dated: From ``calendar_from``.
    """
    own = {event.key: event for event in dated.events if event.kind == "chore"}
    events = [own.pop(event.key, event) for event in calendar.events]
    return Calendar(tuple(sorted([*events, *own.values()], key=lambda event: (event.on, event.key))), (*calendar.notes, *dated.notes))  # fmt: skip
