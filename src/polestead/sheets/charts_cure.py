"""The cure clock as a ruled line from the pour on: days that count, days nobody looked at, and the three marks."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from polestead.base.show import Style, in_style, number
from polestead.build.cure import COUNTED_AT_MOST_C, COUNTS_OVER_C, WHOLE_DAYS, Cure, CureMark
from polestead.sheets.drawn.clock import day_of
from polestead.sheets.svg import Ink, drawing, line, tag, text

LEFT, RIGHT, RAIL, BASE = 10.0, 16.0, 22.0, 92.0
ROOM_FOR_A_DAY = 22.0  # px; under that its temperature is left to the table


@dataclass(frozen=True, slots=True)
class _Rule:
    day_px: float
    style: Style
    ink: Ink
    width: float
    size: float

    def x(self, day: float) -> float:
        return LEFT + day * self.day_px


def cure_words(cure: Cure, style: Style) -> tuple[str, ...]:
    """The marks, a sentence each, then what makes them later.

    Args:
        cure: The clock.
        style: Whose degrees.

    Example:
        >>> from polestead.build.cure import cured_by
        >>> cure_words(cured_by([20.0] * 10, 20.7e6, poured=date(2026, 5, 15)), "metric")[1:3]
        ('Bare steel: from Fri 22 May 2026 on.', 'Modules: not before Fri 12 Jun 2026.')
    """
    told = [f"{mark.name[0].upper()}{mark.name[1:]}: {_when(cure, mark)}." for mark in cure.marks]
    warm, cold = (in_style(degrees, "C", style) for degrees in (COUNTED_AT_MOST_C, COUNTS_OVER_C))
    told.append(f"A date still to come takes every day from here on at {warm}: cooler days make it later, and a day at {cold} or under counts for nothing.")  # fmt: skip
    return tuple(told)


def _when(cure: Cure, mark: CureMark) -> str:
    day = day_of(cure, mark)
    if day is None:
        return "never, by what was ordered"
    if cure.poured is None:
        return f"{'from' if mark.reached_day is not None else 'not before'} day {day}"
    on = _day(cure.poured + timedelta(days=day))
    return f"from {on} on" if mark.reached_day is not None else f"not before {on}"


def _day(on: date) -> str:
    return f"{on:%a} {on.day} {on:%b %Y}"


def cure_line(cure: Cure, style: Style, ink: Ink, width: float = 760.0, size: float = 13.0) -> str:
    """The ruled line: solid where days counted, dotted where nobody looked and ahead, a gap where it was too cold.

    Args:
        cure: The clock.
        style: Whose degrees.
        ink: Of the medium.
        width: Of the picture [px]; no less than 340.
        size: Of the letters [px].
    """
    ends = [day_of(cure, mark) or 0 for mark in cure.marks]
    whole = max(len(cure.days), *ends, int(WHOLE_DAYS)) + 1
    rule = _Rule((width - LEFT - RIGHT) / whole, style, ink, width, size)
    body = [*_days(rule, cure, whole), *_marks(rule, cure)]
    shown = _temperatures(rule, cure)
    heading = "Cure clock" if cure.poured is None else f"Cure clock from {_day(cure.poured)}"
    return drawing(width, BASE + (66.0 if shown else 30.0), "", [*body, *shown], heading, _told(cure, style))  # fmt: skip


def _told(cure: Cure, style: Style) -> str:
    days = "; ".join(f"day {one.day} {'nobody looked' if one.air_c is None else in_style(one.air_c, 'C', style)}{'' if one.counts else ', does not count'}" for one in cure.days)  # fmt: skip
    return " ".join(cure_words(cure, style)[:-1]) + (f" The days: {days}." if days else " No day is written yet.")  # fmt: skip


def _days(rule: _Rule, cure: Cure, whole: int) -> Iterator[str]:
    ink = rule.ink
    for one in cure.days:
        ends = ((rule.x(one.day - 1), BASE), (rule.x(one.day), BASE))
        if one.counts:
            yield line(*ends, ink.ink, 2.5)
        elif one.air_c is None:
            yield line(*ends, ink.ink, 1.5, "1 4")
    yield line((rule.x(len(cure.days)), BASE), (rule.x(whole), BASE), ink.pencil, 1.0, "1 4")
    for day in range(whole + 1):
        week = day % 7 == 0
        yield line((rule.x(day), BASE), (rule.x(day), BASE + (9.0 if week else 5.0)), ink.ink if day <= len(cure.days) else ink.pencil, 1.0)  # fmt: skip
        if week:
            words = "poured" if day == 0 else f"{day} d"
            yield text((rule.x(day) - (6.0 if day == 0 else 0.0), BASE + 11.0 + rule.size), words, ink.pencil, ink.face, rule.size, "start" if day == 0 else "middle")  # fmt: skip


def _marks(rule: _Rule, cure: Cure) -> Iterator[str]:
    """Stems first, then the words: the earliest mark has the highest rail, so that no stem crosses a word."""
    ink = rule.ink
    there = [(mark, day) for mark in cure.marks if (day := day_of(cure, mark)) is not None]
    for nth, (mark, day) in enumerate(there):
        top = RAIL * (nth + 1) - rule.size
        yield line((rule.x(day), top), (rule.x(day), BASE), ink.ink, 2.5 if mark.reached_day is not None else 1.5, None if mark.reached_day is not None else "6 3")  # fmt: skip
    for nth, (mark, day) in enumerate(there):
        words = f"{mark.name}, {_short(cure, mark, day)}"
        long, x = len(words) * rule.size * ink.letter, rule.x(day)
        left = x + 6.0 + long <= rule.width
        start = x + 6.0 if left else x - 6.0 - long
        y = RAIL * (nth + 1)
        yield tag("rect", x=start - 2.0, y=y - rule.size, width=long + 4.0, height=rule.size + 5.0, fill=ink.paper)  # fmt: skip
        yield text((x + 6.0 if left else x - 6.0, y), words, ink.ink, ink.face, rule.size, "start" if left else "end", "600")  # fmt: skip


def _short(cure: Cure, mark: CureMark, day: int) -> str:
    word = "from" if mark.reached_day is not None else "not before"
    if cure.poured is None:
        return f"{word} day {day}"
    on = cure.poured + timedelta(days=day)
    return f"{word} {on.day} {on:%b}"


def _temperatures(rule: _Rule, cure: Cure) -> Sequence[str]:
    """Under each day its mean, where there is room."""
    if not cure.days or rule.day_px < ROOM_FOR_A_DAY:
        return ()
    ink, y = rule.ink, BASE + 18.0 + 2.0 * rule.size
    unit = "°F" if rule.style == "feet" else "°C"
    found = []
    for one in cure.days:
        degrees = "?" if one.air_c is None else in_style(one.air_c, "C", rule.style).split()[0]
        found.append(text((rule.x(one.day - 0.5), y), degrees, ink.ink if one.counts else ink.pencil, ink.face, rule.size, "middle"))  # fmt: skip
    cold = number(sum(not one.counts for one in cure.days))
    found.append(text((rule.x(0) - 6.0, y + rule.size + 5.0), f"mean of each 24 hours, {unit}; {cold} of {len(cure.days)} count for nothing", ink.pencil, ink.face, rule.size))  # fmt: skip
    return found
