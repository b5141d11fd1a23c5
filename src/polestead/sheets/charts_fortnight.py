"""Charge through the worst fortnight of a bad year: one line, the engine as blocks on the base, grey or snowed days hatched.

On a narrow page the two weeks stand one under the other, and what names the lines stands over them.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from polestead.answer.fortnight import DAYS, Fortnight
from polestead.base.show import number, percent
from polestead.sheets.axes import Lettered
from polestead.sheets.svg import SCREEN, Ink, Point, drawing, line, polyline, tag
from polestead.sheets.text import day_words

# at the right stand the longest words, "let go at 85 %", as wide as a screen sets them
LEFT, RIGHT, TOP, HIGH = 40.0, 124.0, 28.0, 156.0
UNDER = 62.0  # the days and their two figures, under a base
NARROW = 640.0  # under that a week to a row
RIGHT_NARROW, TOP_NARROW, HIGH_NARROW, APART = 4.0, 66.0, 120.0, 14.0
Rules = tuple[float, float] | None


@dataclass(frozen=True, slots=True)
class _Plot(Lettered):
    """Where everything lies.

    Attributes:
        told: The fortnight.
    """

    told: Fortnight

    @property
    def narrow(self) -> bool:
        return self.width < NARROW

    @property
    def rows(self) -> int:
        return 2 if self.narrow else 1

    @property
    def days(self) -> int:
        """Days to a row."""
        return DAYS // self.rows

    @property
    def right(self) -> float:
        return self.width - (RIGHT_NARROW if self.narrow else RIGHT)

    @property
    def high(self) -> float:
        return HIGH_NARROW if self.narrow else HIGH

    @property
    def height(self) -> float:
        return self.base(self.rows - 1) + UNDER

    def base(self, row: int) -> float:
        top = TOP_NARROW if self.narrow else TOP
        return top + self.high + row * (self.high + UNDER + APART)

    def row(self, hour: int) -> int:
        """The row an hour begins in."""
        return min(hour // (24 * self.days), self.rows - 1)

    def x(self, hour: float, row: int) -> float:
        return LEFT + (hour / 24.0 - row * self.days) / self.days * (self.right - LEFT)

    def y(self, charge: float, row: int) -> float:
        return self.base(row) - charge * self.high


def fortnight_chart(
    told: Fortnight, ink: Ink, width: float = 760.0, size: float = 13.0, rules: Rules = None, mark: str = "fortnight-hour"
) -> str:  # fmt: skip
    """Fourteen days, hour by hour.

    Args:
        told: From the answer's winter.
        ink: Of the medium.
        width: Of the picture [px]; no less than 340; under 640 a week to a row.
        size: Of the letters [px].
        rules: Charge at which the engine is called, and at which it is let go; None where there is none.
        mark: Name of the empty group for one hour's mark.
    """
    plot = _Plot(ink, width, size, told)
    body = [*_grey(plot), *_hatched(plot)]
    for row in range(plot.rows):
        body += [*_axis(plot, row), *_rules(plot, rules, row), *_charge(plot, row), *_days(plot, row)]  # fmt: skip
    body += [*_engine(plot), *(_keys(plot, rules) if plot.narrow else _named(plot, rules)), tag("g", " ", id=mark)]  # fmt: skip
    return drawing(width, plot.height, "", body, "The worst fortnight of a bad year", fortnight_words(told))  # fmt: skip


def fortnight_words(told: Fortnight) -> str:
    """The picture in words."""
    hours, grey = sum(told.engine_h), sum(told.grey)
    dark = f" {number(told.dark_hours)} hours without power." if told.dark_hours >= 0.5 else ""
    return (
        f"From {day_words(told.calendar_days[0])} to {day_words(told.calendar_days[-1])}: {grey} of {DAYS} days grey or under snow; the engine runs {number(hours)} h, "
        f"and the charge never falls under {percent(min(told.charge_share))}.{dark}"
    )


def hours_told(told: Fortnight, width: float) -> list[dict[str, float | str]]:
    """Where each hour lies on the chart and what it says: for reading one hour after another.

    Args:
        told: As in the chart.
        width: Of the chart [px].

    Returns:
        For each hour its place, top and base of its row [px], and its words.
    """
    plot = _Plot(SCREEN, width, 13.0, told)
    found: list[dict[str, float | str]] = []
    for hour, charge in enumerate(told.charge_share):
        nth, clock = divmod(hour, 24)
        row = plot.row(hour)
        engine = "the engine runs" if told.engine_h[hour] > 0.0 else "engine off"
        grey = ", grey" if told.grey[nth] else ""
        words = (
            f"{day_words(told.calendar_days[nth])}, {clock}:00: charge {percent(charge)}, {engine}; "
            f"the house took {told.sun_wh[nth] / 1000.0:.1f} kWh of sun that day{grey}."
        )
        x, y = plot.x(hour, row), plot.y(charge, row)
        found.append({"x": round(x, 1), "y": round(y, 1), "top": plot.y(1.0, row), "base": plot.base(row), "words": words})  # fmt: skip
    return found


def _grey(plot: _Plot) -> Iterator[str]:
    """Broken steep strokes; 45 degrees mean something else on these sheets."""
    for nth, is_grey in enumerate(plot.told.grey):
        if not is_grey:
            continue
        row = plot.row(24 * nth)
        start, end = plot.x(24.0 * nth, row), plot.x(24.0 * (nth + 1), row)
        for stroke in range(5):
            x = start + (end - start) * (stroke + 0.3) / 5.0
            yield line((x, plot.base(row) - 4.0), (x + 5.0, plot.y(1.0, row) + 4.0), plot.ink.ghost, 0.9, "7 9")  # fmt: skip


def _hatched(plot: _Plot) -> Iterator[str]:
    """What the broken strokes mean."""
    if any(plot.told.grey):
        at = (plot.right, 14.0 if plot.narrow else TOP - 12.0)
        words = "broken: grey, snow" if plot.narrow else "broken strokes: grey or under snow"
        yield plot.say(at, words, "end", pale=True)


def _axis(plot: _Plot, row: int) -> Iterator[str]:
    top, base = plot.y(1.0, row), plot.base(row)
    if row == 0:
        yield plot.say((2.0, top - 12.0), "charge, %", pale=True)
    for hundredths in (0, 50, 100) if plot.narrow else (0, 25, 50, 75, 100):
        y = plot.y(hundredths / 100.0, row)
        yield line((LEFT - 5.0, y), (LEFT, y), plot.ink.pencil, 1.0)
        yield plot.say((LEFT - 8.0, y + 4.5), str(hundredths), "end", pale=True)
    yield line((LEFT, top), (LEFT, base), plot.ink.pencil, 1.0)
    yield line((LEFT - 8.0, base), (plot.right, base), plot.ink.ink, 2.5)


def _rules(plot: _Plot, rules: Rules, row: int) -> Iterator[str]:
    for share in rules or ():
        y = plot.y(share, row)
        yield line((LEFT, y), (plot.right, y), plot.ink.edge, 1.0, "8 4")


def _charge(plot: _Plot, row: int) -> Iterator[str]:
    shares, first = plot.told.charge_share, 24 * plot.days * row
    hours = range(first, min(first + 24 * plot.days + (row < plot.rows - 1), len(shares)))
    points: list[Point] = [(plot.x(hour, row), plot.y(shares[hour], row)) for hour in hours]
    yield polyline(points, plot.ink.ink, 2.5)


def _engine(plot: _Plot) -> Iterator[str]:
    for start, end, _ in runs_of(plot.told.engine_h):
        for row in range(plot.row(start), plot.row(end - 1) + 1):
            x = max(plot.x(start, row), LEFT)
            wide = max(min(plot.x(end, row), plot.right) - x, 2.0)
            yield tag("rect", x=x, y=plot.base(row) - 13.0, width=wide, height=13.0, fill=plot.ink.ink)  # fmt: skip


def runs_of(engine_h: tuple[float, ...]) -> list[tuple[int, int, float]]:
    """Spans in which the engine ran: first hour, hour after the last, hours.

    Example:
        >>> runs_of((0.0, 1.0, 0.5, 0.0, 1.0))
        [(1, 3, 1.5), (4, 5, 1.0)]
    """
    found: list[tuple[int, int, float]] = []
    for hour, ran in enumerate(engine_h):
        if ran <= 0.0:
            continue
        if found and found[-1][1] == hour:
            found[-1] = (found[-1][0], hour + 1, found[-1][2] + ran)
        else:
            found.append((hour, hour + 1, ran))
    return found


def _named(plot: _Plot, rules: Rules) -> Iterator[str]:
    """At the right, what each line is, as near to it as the other words let it."""
    told, x, base, apart = plot.told, plot.right + 8.0, plot.base(0), 1.3 * plot.size
    words = [f"{word} {percent(share)}" for word, share in zip(("call at", "let go at"), rules or (), strict=False)]  # fmt: skip
    heights = [plot.y(share, 0) + 4.5 for share in (*(rules or ()), told.charge_share[-1])]
    for word, y in zip((*words, "charge"), _spread(heights, base - 4.0 - apart, apart), strict=True):  # fmt: skip
        yield plot.say((x, y), word, pale=word != "charge", strong=word == "charge")
    yield plot.say((x, base - 4.0), "engine runs")
    yield plot.say((x, base + 36.0), "engine h", pale=True)
    yield plot.say((x, base + 54.0), "sun kWh", pale=True)


def _spread(heights: list[float], lowest: float, apart: float) -> list[float]:
    """Heights of words [px, down], none under the lowest and each clear of the next one below it.

    Example:
        >>> _spread([100.0, 104.0, 190.0], 180.0, 17.0)
        [87.0, 104.0, 180.0]
    """
    free, found = lowest, dict[int, float]()
    for nth in sorted(range(len(heights)), key=lambda nth: -heights[nth]):
        found[nth] = min(heights[nth], free)
        free = found[nth] - apart
    return [found[nth] for nth in range(len(heights))]


def _keys(plot: _Plot, rules: Rules) -> Iterator[str]:
    """Over the weeks, what each line is."""
    yield line((2.0, 10.0), (24.0, 10.0), plot.ink.ink, 2.5)
    yield plot.say((30.0, 14.0), "charge", strong=True)
    yield tag("rect", x=88.0, y=4.0, width=14.0, height=13.0, fill=plot.ink.ink)
    yield plot.say((108.0, 14.0), "engine runs")
    if rules is not None:
        yield line((2.0, 30.0), (24.0, 30.0), plot.ink.edge, 1.0, "8 4")
        yield plot.say((30.0, 34.0), f"called at {percent(rules[0])}, let go at {percent(rules[1])}", pale=True)  # fmt: skip


def _days(plot: _Plot, row: int) -> Iterator[str]:
    """Day, what the engine ran on it, what the sun gave."""
    told, base, first = plot.told, plot.base(row), row * plot.days
    if plot.narrow:
        yield plot.say((LEFT - 4.0, base + 36.0), "h", "end", pale=True)
        yield plot.say((LEFT - 4.0, base + 54.0), "kWh", "end", pale=True)
    for nth in range(first, first + plot.days):
        x = plot.x(24.0 * nth + 12.0, row)
        ran = sum(told.engine_h[24 * nth : 24 * (nth + 1)])
        yield plot.say((x, base + 18.0), _day(told.calendar_days, nth, first), "middle")
        yield plot.say((x, base + 36.0), f"{ran:.0f}" if ran >= 0.5 else "–", "middle")
        yield plot.say((x, base + 54.0), f"{told.sun_wh[nth] / 1000.0:.1f}", "middle", pale=True)


def _day(calendar_days: Sequence[int], nth: int, first: int) -> str:
    """The day; its month where it begins, and on the first of a row where the next one does not say it already."""
    words = [day_words(day) for day in calendar_days[nth : nth + 2]]
    begins = [one.startswith("1 ") for one in words]
    return words[0] if begins[0] or (nth == first and not begins[-1]) else words[0].split()[0]
