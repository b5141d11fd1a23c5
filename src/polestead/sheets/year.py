"""The year as a picture: tilt as a stair, sun the house could use above the line, engine hours hanging below as tally strokes."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import ceil

from polestead.answer.answer import Answer
from polestead.base.hours import MONTH_DAYS, MONTH_NAMES
from polestead.household.result import HouseSummary
from polestead.sheets.axes import nice_step, stair_words
from polestead.sheets.svg import Ink, Point, drawing, line, polyline, tag, text
from polestead.sheets.text import day_words

HOURS_A_STROKE = 5.0
STROKES_A_ROW = 5
STROKE, ROW = 17.0, 23.0
THIN, HEAVY = 0.9, 2.2
LEFT, RIGHT = 40.0, 122.0
TILT_TOP, TILT_HIGH, BARS_TOP, BARS_HIGH = 40.0, 74.0, 152.0, 132.0
GROUND = BARS_TOP + BARS_HIGH


@dataclass(frozen=True, slots=True)
class _Field:
    """Where the months stand, and how they are inked."""

    ink: Ink
    width: float
    size: float
    months: tuple[int, ...]

    @property
    def step(self) -> float:
        """Width of a month."""
        return (self.width - LEFT - RIGHT) / 12.0

    @property
    def right(self) -> float:
        """Where the months end."""
        return self.width - RIGHT

    @property
    def pitch(self) -> float:
        """Between two strokes, so that both tallies find room in a month."""
        return min(5.5, (self.step - 9.0) / (2.0 * STROKES_A_ROW))

    def x(self, calendar_day: int) -> float:
        """Where a day of the calendar lies."""
        before = sum(MONTH_DAYS[month] for month in range(self.months[0]))
        return LEFT + ((calendar_day - 1 - before) % 365) / 365.0 * (self.right - LEFT)

    def say(
        self, at: Point, words: str, anchor: str = "start", strong: bool = False, pale: bool = False
    ) -> str:
        """Words in the field's face."""
        colour = self.ink.pencil if pale else self.ink.ink
        return text(at, words, colour, self.ink.face, self.size, anchor, "600" if strong else None)


def year_picture(answer: Answer, ink: Ink, width: float = 802.0, size: float = 13.0) -> str:
    """Twelve months from the start of the working year; the mean of all years.

    Args:
        answer: Of the homestead.
        ink: Of the medium.
        width: Of the picture [px]; no less than 640.
        size: Of the letters [px].
    """
    winter = answer.winter
    months = tuple((winter.start_month - 1 + nth) % 12 for nth in range(12))
    field = _Field(ink, width, size, months)
    hanging = (winter.without.engine_hours_by_month, winter.with_new.engine_hours_by_month)
    rows = max(_rows(hours) for by_month in hanging for hours in by_month)
    foot = GROUND + 30.0 + rows * ROW
    body = [
        *_tilts(answer, field),
        *_bars(winter.with_new, field),
        *_tallies(hanging, foot, field),
        *_rail(winter.without, winter.with_new, foot, field),
    ]
    return drawing(width, foot + 70.0, "", body, "The year", _words(answer, months))


def _words(answer: Answer, months: tuple[int, ...]) -> str:
    told, without = answer.winter.with_new, answer.winter.without
    return f"Tilt: {stair_words(answer.schedule.moves)}. " + "; ".join(
        f"{MONTH_NAMES[month]}: {told.sun_used_wh_by_month[month] / 1000.0:.0f} kWh used, {told.turned_away_wh_by_month[month] / 1000.0:.0f} turned away, "
        f"engine {without.engine_hours_by_month[month]:.0f} h without, {told.engine_hours_by_month[month]:.0f} h with"
        for month in months
    )


def _tilts(answer: Answer, field: _Field) -> Iterator[str]:
    """The tilt over the year, the day of each change written at its riser."""
    moves = answer.schedule.moves
    most = 15.0 * ceil(max(answer.geometry.steepest_tilt_deg, 30.0) / 15.0)
    base = TILT_TOP + TILT_HIGH

    def y(tilt: float) -> float:
        return base - tilt / most * TILT_HIGH

    yield field.say((2.0, TILT_TOP - 22.0), "tilt", pale=True)
    for tilt in (0.0, most / 2.0, most):
        yield line((LEFT, y(tilt)), (field.right, y(tilt)), field.ink.ghost, 0.6)
        yield field.say((LEFT - 6.0, y(tilt) + 4.5), f"{tilt:.0f}°", "end", pale=True)
    risers = sorted((field.x(day), day, tilt) for day, tilt in moves)
    level = risers[-1][2]  # what the last move of the working year left it at
    path = [(LEFT, y(level))]
    for x, _, tilt in risers:
        path += [(x, path[-1][1]), (x, y(tilt))]
    yield polyline([*path, (field.right, path[-1][1])], field.ink.ink, 2.5)
    if len(moves) > 1:
        yield from _risers(risers, field)
    yield field.say((field.right + 10.0, path[-1][1] + 4.5), f"{risers[-1][2]:.0f}°", strong=True)


def _risers(risers: list[tuple[float, int, float]], field: _Field) -> Iterator[str]:
    """Dates over their risers, left out where they would run into one another."""
    free = LEFT
    for x, day, tilt in risers:
        words = f"{day_words(day)}: to {tilt:.0f}°"
        wide = len(words) * field.size * field.ink.letter
        start = min(max(x - wide / 2.0, free), field.right - wide)
        if start >= free:
            yield field.say((start, TILT_TOP - 8.0), words)
            free = start + wide + 10.0


def _bars(told: HouseSummary, field: _Field) -> Iterator[str]:
    """Per month and day: solid what the house could use, outline what it turned away, the bracket from bad to good."""
    days = [MONTH_DAYS[month] * 1000.0 for month in field.months]
    used, away, low, high = (
        [values[month] / day for month, day in zip(field.months, days, strict=True)]
        for values in (told.sun_used_wh_by_month, told.turned_away_wh_by_month, told.sun_used_low_wh_by_month, told.sun_used_high_wh_by_month)
    )  # fmt: skip
    most = max(max(high), max(a + b for a, b in zip(used, away, strict=True)), 0.1)
    step = nice_step(most)
    most = step * ceil(most / step - 1e-9)
    yield from _kwh_axis(step, most, field)
    scale = BARS_HIGH / most
    for nth, month in enumerate(field.months):
        x, wide = LEFT + nth * field.step + field.step * 0.14, field.step * 0.46
        yield tag("rect", x=x, y=GROUND - used[nth] * scale, width=wide, height=used[nth] * scale, fill=field.ink.ink)  # fmt: skip
        yield tag("rect", x=x, y=GROUND - (used[nth] + away[nth]) * scale, width=wide, height=away[nth] * scale, fill="none", stroke=field.ink.ink, stroke_width=1.2)  # fmt: skip
        yield from _bracket(x + wide + 6.0, GROUND - low[nth] * scale, GROUND - high[nth] * scale, field)  # fmt: skip
        yield field.say((LEFT + (nth + 0.5) * field.step, GROUND + 18.0), MONTH_NAMES[month], "middle")  # fmt: skip
    yield line((LEFT - 8.0, GROUND), (field.right, GROUND), field.ink.ink, 2.5)


def _kwh_axis(step: float, most: float, field: _Field) -> Iterator[str]:
    yield field.say((2.0, BARS_TOP - 14.0), "kWh a day", pale=True)
    value = step
    while value <= most + 1e-9:
        y = GROUND - value / most * BARS_HIGH
        yield line((LEFT - 5.0, y), (LEFT, y), field.ink.pencil, 1.0)
        yield field.say((LEFT - 8.0, y + 4.5), f"{value:g}", "end", pale=True)
        value += step


def _bracket(x: float, y1: float, y2: float, field: _Field) -> Iterator[str]:
    yield line((x, y1), (x, y2), field.ink.pencil, 1.0)
    for y in (y1, y2):
        yield line((x - 2.5, y), (x + 2.5, y), field.ink.pencil, 1.0)


def _tallies(
    hanging: tuple[tuple[float, ...], tuple[float, ...]], foot: float, field: _Field
) -> Iterator[str]:
    """Two tallies a month, thin without the new array and heavy with it; the exact figures under them."""
    for nth, month in enumerate(field.months):
        for place, by_month in enumerate(hanging):
            x = LEFT + nth * field.step + 4.0 + place * (field.pitch * STROKES_A_ROW + 4.0)
            yield from _tally(x, GROUND + 26.0, by_month[month], place == 1, field)
            if round(by_month[month]) > 0:
                yield field.say((x, foot + 12.0), f"{by_month[month]:.0f}", pale=place == 0, strong=place == 1)  # fmt: skip


def _rows(hours: float) -> int:
    return -(-round(hours / HOURS_A_STROKE) // STROKES_A_ROW)


def _tally(x: float, y: float, hours: float, heavy: bool, field: _Field) -> Iterator[str]:
    """Strokes, every fifth struck through the four before it."""
    colour, wide = (field.ink.ink, HEAVY) if heavy else (field.ink.pencil, THIN)
    for nth in range(round(hours / HOURS_A_STROKE)):
        row, place = divmod(nth, STROKES_A_ROW)
        top = y + row * ROW
        if place == STROKES_A_ROW - 1:
            yield line((x - 2.0, top + STROKE - 2.0), (x + field.pitch * 3.0 + 2.0, top + 2.0), colour, wide)  # fmt: skip
        else:
            along = x + place * field.pitch
            yield line((along, top), (along, top + STROKE), colour, wide)


def _rail(
    without: HouseSummary, with_new: HouseSummary, foot: float, field: _Field
) -> Iterator[str]:
    """What the marks mean, in words at the right end of each lane."""
    x, step = field.right + 10.0, field.size * 1.3
    for nth, words in enumerate(("outline:", "turned away", "solid: could", "be used", "bracket: bad", "to good year")):  # fmt: skip
        yield field.say((x, BARS_TOP + 8.0 + nth * step + (nth // 2) * 8.0), words, pale=True)
    both = (
        (sum(without.engine_hours_by_month), "without"),
        (sum(with_new.engine_hours_by_month), "with it"),
    )
    yield field.say((x, GROUND + 34.0), "engine hours", pale=True)
    for nth, (hours, word) in enumerate(both, start=1):
        yield field.say((x, GROUND + 34.0 + nth * step), f"{hours:.0f} {word}", strong=nth == 2)
    if sum(hours for hours, _ in both) < 0.5:
        yield field.say((LEFT, GROUND + 42.0), "The engine never runs; this array saves no fuel.")
    for nth, words in enumerate(("1 stroke = 5 h, the fifth struck through; figures under the strokes are exact.", "Thin: without the new array; heavy: with it.")):  # fmt: skip
        yield field.say((LEFT, foot + 36.0 + nth * step), words, pale=True)
