"""Ways of tipping side by side: engine hours from a good to a bad year, those nobody can tell apart under one bracket.

On a narrow page a way's name stands over its row.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import ceil

from polestead.habits.result import Habit
from polestead.mount.schedule import TiltSchedule
from polestead.sheets.axes import Lettered, nice_step
from polestead.sheets.sentences import hours
from polestead.sheets.svg import Ink, drawing, line, tag

LEFT, RIGHT, TOP, ROW = 164.0, 146.0, 34.0, 30.0
NARROW = 560.0  # under that the names stand over the rows
LEFT_NARROW, RIGHT_NARROW, ROW_NARROW = 8.0, 26.0, 44.0
APART = ("nobody can", "tell these apart")


@dataclass(frozen=True, slots=True)
class _Plot(Lettered):
    """Where everything lies.

    Attributes:
        most: Hours a year at the right end.
    """

    most: float

    @property
    def narrow(self) -> bool:
        return self.width < NARROW

    @property
    def left(self) -> float:
        return LEFT_NARROW if self.narrow else LEFT

    @property
    def right(self) -> float:
        return self.width - (RIGHT_NARROW if self.narrow else RIGHT)

    @property
    def row(self) -> float:
        return ROW_NARROW if self.narrow else ROW

    def x(self, hours_a_year: float) -> float:
        return self.left + hours_a_year / self.most * (self.right - self.left)


def habits_chart(
    habits: Sequence[Habit], ink: Ink, width: float = 760.0, size: float = 13.0
) -> str:
    """One row a habit, best first: a line from the good to the bad year, the median as a bar across it.

    Args:
        habits: Of the answer.
        ink: Of the medium.
        width: Of the picture [px]; no less than 340; under 560 each name stands over its row.
        size: Of the letters [px].
    """
    measured = [_measure(one) for one in habits]
    most = max(1.0, *(spread[2] for spread in measured))
    step = nice_step(most)
    plot = _Plot(ink, width, size, step * ceil(most / step - 1e-9))
    base = TOP + plot.row * len(habits)
    body = [*_axis(plot, step, base)]
    for nth, (one, spread) in enumerate(zip(habits, measured, strict=True)):
        body += _row(plot, one, spread, TOP + plot.row * (nth + 1) - 15.0)
    groups = list(_groups(habits))
    body += [piece for first, last in groups for piece in _bracket(plot, first, last)]
    if plot.narrow and groups:
        body.append(plot.say((plot.left, base + 42.0), f"bracket: {' '.join(APART)}", pale=True))
    words = "; ".join(f"{one.schedule.name}: {hours(one.engine_hours)}" for one in habits)
    height = base + (58.0 if plot.narrow and groups else 40.0)
    return drawing(width, height, "", body, "Ways of tipping", f"Engine hours a year, median (good to bad). {words}")  # fmt: skip


def _measure(one: Habit) -> tuple[float, float, float]:
    """Engine hours; with no engine the hours without power count beside them."""
    told, dark = one.engine_hours, one.dark_hours
    return told.good + dark.good, told.median + dark.median, told.bad + dark.bad


def _axis(plot: _Plot, step: float, base: float) -> Iterator[str]:
    at = 2.0 if plot.narrow else plot.left
    yield plot.say((at, 16.0), "engine and dark hours: good, median, bad year", pale=True)
    yield line((plot.left, base), (plot.right, base), plot.ink.ink, 2.5)
    value = 0.0
    while value <= plot.most + 1e-9:
        x = plot.x(value)
        yield line((x, base), (x, base + 5.0), plot.ink.ink, 1.0)
        yield plot.say((x, base + 20.0), f"{value:g}", "middle", pale=True)
        value += step


def _row(plot: _Plot, one: Habit, spread: tuple[float, float, float], y: float) -> list[str]:
    good, median, bad = (plot.x(value) for value in spread)
    ink, dash = plot.ink.ink, "8 4" if one.a_bound else None
    at, anchor = ((plot.left, y - 13.0), "start") if plot.narrow else ((plot.left - 10.0, y + 4.5), "end")  # fmt: skip
    return [
        plot.say(at, short_name(one), anchor),
        line((good, y), (bad, y), ink, 1.5, dash),
        line((good, y - 5.0), (good, y + 5.0), ink, 1.0),
        line((bad, y - 5.0), (bad, y + 5.0), ink, 1.0),
        tag("rect", x=median - 3.0, y=y - 9.0, width=6.0, height=18.0, fill="none" if one.a_bound else ink, stroke=ink, stroke_width=1.2),
    ]  # fmt: skip


def short_name(one: Habit) -> str:
    """A name that fits before its row: of a rule by the sky the first words only."""
    name = one.schedule.name
    if one.a_bound:
        return "the most any could"
    if not isinstance(one.schedule, TiltSchedule):
        return name.split(",")[0].split(":")[0][:20]
    return name if len(name) <= 20 else name.split(",")[0][:20]


def _groups(habits: Sequence[Habit]) -> Iterator[tuple[int, int]]:
    """First row of each group that has more than one, and the row after its last."""
    start = 0
    for nth in range(1, len(habits) + 1):
        if nth < len(habits) and _group(habits[nth]) == _group(habits[start]):
            continue
        if nth - start > 1 and not habits[start].a_bound:
            yield start, nth
        start = nth


def _bracket(plot: _Plot, first: int, last: int) -> Iterator[str]:
    """At the right, over rows that stand together."""
    x = plot.right + 14.0
    top, low = TOP + plot.row * first + 6.0, TOP + plot.row * last - 6.0
    for a, b in (((x, top), (x, low)), ((x - 5.0, top), (x, top)), ((x - 5.0, low), (x, low))):
        yield line(a, b, plot.ink.pencil, 1.0)
    for row, words in enumerate(() if plot.narrow else APART):
        yield plot.say((x + 7.0, (top + low) / 2.0 + row * plot.size * 1.3 - 2.0), words, pale=True)  # fmt: skip


def _group(one: Habit) -> int:
    return -1 if one.a_bound else one.group
