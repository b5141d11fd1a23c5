"""What the owner saw at one moment, and what no moment can hold."""

from __future__ import annotations

from dataclasses import dataclass, fields
from datetime import date, datetime, time, timedelta, timezone
from math import isfinite
from typing import Literal

from polestead.base.problem import Problem
from polestead.base.show import Style, in_style, percent
from polestead.daybook.house import UNKNOWN, House, Key, Span, spans

Snow = Literal["bare", "dusted", "covered"]
# A figure of the whole day: a second one on the same day stands in the place of the first.
OF_THE_DAY: frozenset[Key] = frozenset({"new_wh", "all_wh", "engine_hours"})
KINDS: tuple[Key, ...] = (
    "tilt_deg", "rod_m", "charge", "rest_v", "new_wh", "all_wh", "engine_hours", "engine_meter_hours",
    "filled_l", "tank_l", "tank_share", "snow", "snow_share", "gust_m_s", "bank_c",
)  # fmt: skip
EARLIEST = date(1970, 1, 1)
TEXT_MOST = {"note": 2000, "ticks": 8000, "written": 8000, "gust_seen": 200, "whence": 200}
# The clocks go on and back by an hour: a moment without its offset may be so far ahead of the clock.
SLACK = timedelta(hours=1)
# Of the glass covered, from which a share is told as this word: our own.
DUSTED_FROM, COVERED_FROM = 0.02, 0.5


@dataclass(frozen=True, slots=True)
class Moment:
    """A local wall time as written; where its clock stood from UTC, if that is known.

    Attributes:
        day: The day.
        at: Time of the day, to the minute; None where nobody wrote it down.
        offset_min: Wall clock minus UTC in minutes; None where it is not known (a clock changed that night, a journey).
    """

    day: date
    at: time | None = None
    offset_min: int | None = None

    @property
    def wall(self) -> datetime:
        """Wall time without its offset; the start of the day where no time was written.

        Example:
            >>> Moment(date(2026, 11, 24)).wall.isoformat()
            '2026-11-24T00:00:00'
        """
        return datetime.combine(self.day, self.at or time())

    @property
    def clock_h(self) -> float:
        """Hours after midnight, by the wall clock; 0 where no time was written.

        Example:
            >>> Moment(date(2026, 11, 24), time(7, 30)).clock_h, Moment(date(2026, 11, 24)).clock_h
            (7.5, 0.0)
        """
        return 0.0 if self.at is None else self.at.hour + self.at.minute / 60.0

    @property
    def instant(self) -> datetime | None:
        """The same moment everywhere; None where time or offset is not known.

        Example:
            >>> Moment(date(2026, 11, 24), time(7, 10), -360).instant.isoformat()
            '2026-11-24T07:10:00-06:00'
        """
        if self.at is None or self.offset_min is None:
            return None
        return self.wall.replace(tzinfo=timezone(timedelta(minutes=self.offset_min)))

    def age_h(self, now: datetime) -> float:
        """Hours from this moment to now, the most it can be; never under nothing.

        Both clocks' offsets count where both are known, else the wall times alone.

        Args:
            now: Local time, with or without its offset.

        Example:
            >>> Moment(date(2026, 11, 24), time(7, 10)).age_h(datetime(2026, 11, 25, 7, 40))
            24.5
        """
        own = self.instant
        if own is not None and now.tzinfo is not None:
            gone = now - own
        else:
            gone = now.replace(tzinfo=None) - self.wall
        return max(gone.total_seconds(), 0.0) / 3600.0

    def to_come(self, now: datetime) -> bool:
        """Whether it is still to come, by more than a clock goes back: by both offsets where they are known, else by what is shown.

        Args:
            now: Local time, with or without its offset.
        """
        own = self.instant
        if own is not None and now.tzinfo is not None:
            return own > now + SLACK
        return self.wall > now.replace(tzinfo=None) + SLACK


@dataclass(frozen=True, slots=True)
class Entry:
    """What was seen or done at one moment; what was not looked at is None.

    Attributes:
        moment: When.
        tilt_deg: Tilt the array stood at from then on; made from the rod where only that was read.
        rod_m: Rod that showed, as read.
        charge: Of the battery, 0 to 1.
        rest_v: Battery at rest.
        new_wh: Made by the new array that day.
        all_wh: Made by all arrays that day.
        engine_hours: The engine ran that day, all runs together.
        engine_meter_hours: What its hour meter stood at.
        filled_l: Fuel filled at that moment.
        tank_l: Fuel in the tank, as litres.
        tank_share: Fuel in the tank, as a share of full.
        snow: On the glass, in a word.
        snow_share: On the glass, as a share covered.
        gust_m_s: Strongest gust met.
        bank_c: Temperature of the battery.
        gust_seen: The step of the ladder it was judged by, empty where it was measured or heard.
        done: Chores done, by key.
        ticks: The phone file's line, in its plain form (``ticks.plain``).
        note: In his own words.
        written: The words the figures were read from.
        whence: Where they came from: terminal, page, a file and its line.
    """

    moment: Moment
    tilt_deg: float | None = None
    rod_m: float | None = None
    charge: float | None = None
    rest_v: float | None = None
    new_wh: float | None = None
    all_wh: float | None = None
    engine_hours: float | None = None
    engine_meter_hours: float | None = None
    filled_l: float | None = None
    tank_l: float | None = None
    tank_share: float | None = None
    snow: Snow | None = None
    snow_share: float | None = None
    gust_m_s: float | None = None
    bank_c: float | None = None
    gust_seen: str = ""
    done: tuple[str, ...] = ()
    ticks: str = ""
    note: str = ""
    written: str = ""
    whence: str = ""

    @property
    def glass(self) -> Snow | None:
        """Snow on the glass in a word, from the share where only that was written.

        Example:
            >>> Entry(Moment(date(2026, 1, 2)), snow_share=0.3).glass
            'dusted'
        """
        if self.snow is not None or self.snow_share is None:
            return self.snow
        if self.snow_share < DUSTED_FROM:
            return "bare"
        return "dusted" if self.snow_share < COVERED_FROM else "covered"

    def same_as(self, other: Entry) -> bool:
        """Whether moment and values are the same; how they were written and where they came from does not count."""
        return all(
            getattr(self, one.name) == getattr(other, one.name)
            for one in fields(Entry)
            if one.name not in ("written", "whence")
        )


def entry_problems(entry: Entry, now: datetime, house: House = UNKNOWN) -> list[Problem]:
    """All that is wrong with an entry, at once.

    Args:
        entry: What is to be written.
        now: The clock, local time, with or without its offset.
        house: What is known of the house.
    """
    problems = _moment_problems(entry.moment, now)
    for span in spans(house):
        value = getattr(entry, span.key)
        if value is not None and not (isfinite(value) and span.least <= value <= span.most):
            problems.append(_problem(span.name, _figure(value, span, house.style), f"{_figure(span.least, span, house.style)} to {_figure(span.most, span, house.style)}", "Look again, or leave it out."))  # fmt: skip
    for name, most in TEXT_MOST.items():
        if len(getattr(entry, name)) > most:
            problems.append(_problem(name, f"{len(getattr(entry, name))} signs", f"up to {most} signs", "Shorten it."))  # fmt: skip
        if _cannot_be_kept(getattr(entry, name)):
            problems.append(_problem(name, "a sign no text file keeps", "letters, figures, signs, new lines", "Take it out."))  # fmt: skip
    if entry.snow is not None and entry.snow_share is not None:
        problems.append(_problem("snow", f"{entry.snow} and {percent(entry.snow_share)}", "a word or a share", "Write one of them."))  # fmt: skip
    if all(getattr(entry, key) is None for key in KINDS) and not (entry.done or entry.ticks or entry.note.strip()):  # fmt: skip
        problems.append(_problem("entry", "nothing", "a figure, a chore or a note", "Write down at least one thing."))  # fmt: skip
    return problems


def _moment_problems(moment: Moment, now: datetime) -> list[Problem]:
    today, do = now.date(), "Write down what was, not what will be."
    if not EARLIEST <= moment.day <= today + timedelta(days=moment.instant is not None):
        return [_problem("day", str(moment.day), f"a day from {EARLIEST} to today, {today}", do)]
    if moment.offset_min is not None and not -14 * 60 <= moment.offset_min <= 14 * 60:
        return [_problem("offset", f"{moment.offset_min} min", "-14:00 to +14:00", "Write it as -06:00, or leave it out.")]  # fmt: skip
    if moment.at is not None and moment.at.replace(second=0, microsecond=0, tzinfo=None) != moment.at:  # fmt: skip
        return [_problem("time", str(moment.at), "hours and minutes", "Leave the seconds out.")]
    instant = moment.instant
    if instant is not None and now.tzinfo is not None:
        ahead = instant - now
    else:
        ahead = moment.wall - now.replace(tzinfo=None)
    if ahead > SLACK:
        return [_problem("time", f"{moment.wall:%Y-%m-%d %H:%M}", f"up to now, {now:%Y-%m-%d %H:%M}", do)]  # fmt: skip
    return []


def _cannot_be_kept(text: str) -> bool:
    """Signs that neither the file nor a CSV gives back: a lone half of a pair, a nought."""
    return "\0" in text or any("\ud800" <= sign <= "\udfff" for sign in text)


def _figure(value: float, span: Span, style: Style) -> str:
    if span.unit == "":
        return f"{100.0 * value:g} %"
    return in_style(value, span.unit, style)


def _problem(key: str, given: str, allowed: str, do: str) -> Problem:
    return Problem("daybook", key, given, allowed, do)
