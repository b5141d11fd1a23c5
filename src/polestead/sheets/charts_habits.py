"""Ways of tipping side by side: engine hours from a good to a bad year, those nobody can tell apart under one bracket."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import ceil

from polestead.habits.result import Habit
from polestead.mount.schedule import TiltSchedule
from polestead.sheets.axes import nice_step
from polestead.sheets.sentences import hours
from polestead.sheets.svg import Ink, drawing, line, tag, text

LEFT, RIGHT, TOP, ROW = 164.0, 146.0, 34.0, 30.0


def habits_chart(
    habits: Sequence[Habit], ink: Ink, width: float = 760.0, size: float = 13.0
) -> str:
    """One row a habit, best first: a line from the good to the bad year, the median as a bar across it.

    Args:
        habits: Of the answer.
        ink: Of the medium.
        width: Of the picture [px]; no less than 560.
        size: Of the letters [px].
    """
    measured = [_measure(one) for one in habits]
    most = max(1.0, *(spread[2] for spread in measured))
    step = nice_step(most)
    most = step * ceil(most / step - 1e-9)
    base = TOP + ROW * len(habits)
    body = [*_axis(step, most, base, ink, width, size)]
    for nth, (one, spread) in enumerate(zip(habits, measured, strict=True)):
        body += _row(one, spread, most, TOP + ROW * (nth + 0.5), ink, width, size)
    body += _brackets(habits, ink, width, size)
    words = "; ".join(f"{one.schedule.name}: {hours(one.engine_hours)}" for one in habits)
    return drawing(width, base + 40.0, "", body, "Ways of tipping", f"Engine hours a year, median (good to bad). {words}")  # fmt: skip


def _measure(one: Habit) -> tuple[float, float, float]:
    """Engine hours; with no engine the hours without power count beside them."""
    told, dark = one.engine_hours, one.dark_hours
    return told.good + dark.good, told.median + dark.median, told.bad + dark.bad


def _x(value: float, most: float, width: float) -> float:
    return LEFT + value / most * (width - LEFT - RIGHT)


def _axis(step: float, most: float, base: float, ink: Ink, width: float, size: float) -> Iterator[str]:  # fmt: skip
    yield text((LEFT, 16.0), "engine and dark hours a year: good, median, bad", ink.pencil, ink.face, size)  # fmt: skip
    yield line((LEFT, base), (width - RIGHT, base), ink.ink, 2.5)
    value = 0.0
    while value <= most + 1e-9:
        x = _x(value, most, width)
        yield line((x, base), (x, base + 5.0), ink.ink, 1.0)
        yield text((x, base + 20.0), f"{value:g}", ink.pencil, ink.face, size, "middle")
        value += step


def _row(
    one: Habit, spread: tuple[float, float, float], most: float, y: float, ink: Ink, width: float, size: float
) -> list[str]:  # fmt: skip
    good, median, bad = (_x(value, most, width) for value in spread)
    dash = "8 4" if one.a_bound else None
    return [
        text((LEFT - 10.0, y + 4.5), short_name(one), ink.ink, ink.face, size, "end"),
        line((good, y), (bad, y), ink.ink, 1.5, dash),
        line((good, y - 5.0), (good, y + 5.0), ink.ink, 1.0),
        line((bad, y - 5.0), (bad, y + 5.0), ink.ink, 1.0),
        tag("rect", x=median - 3.0, y=y - 9.0, width=6.0, height=18.0, fill="none" if one.a_bound else ink.ink, stroke=ink.ink, stroke_width=1.2),
    ]  # fmt: skip


def short_name(one: Habit) -> str:
    """A name that fits before its row: of a rule by the sky the first words only."""
    name = one.schedule.name
    if one.a_bound:
        return "the most any could"
    if not isinstance(one.schedule, TiltSchedule):
        return name.split(",")[0].split(":")[0][:20]
    return name if len(name) <= 20 else name.split(",")[0][:20]


def _brackets(habits: Sequence[Habit], ink: Ink, width: float, size: float) -> Iterator[str]:
    """A bracket at the right over rows of one group that stand together."""
    x = width - RIGHT + 14.0
    start = 0
    for nth in range(1, len(habits) + 1):
        if nth < len(habits) and _group(habits[nth]) == _group(habits[start]):
            continue
        if nth - start > 1 and not habits[start].a_bound:
            top, low = TOP + ROW * start + 6.0, TOP + ROW * nth - 6.0
            for a, b in (((x, top), (x, low)), ((x - 5.0, top), (x, top)), ((x - 5.0, low), (x, low))):  # fmt: skip
                yield line(a, b, ink.pencil, 1.0)
            for row, words in enumerate(("nobody can", "tell these apart")):
                yield text((x + 7.0, (top + low) / 2.0 + row * size * 1.3 - 2.0), words, ink.pencil, ink.face, size)  # fmt: skip
        start = nth


def _group(one: Habit) -> int:
    return -1 if one.a_bound else one.group
