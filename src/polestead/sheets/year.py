"""The year as a picture: tilt as a stair, sun the house could use above the line, engine hours hanging below as tally strokes."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from math import ceil

import numpy as np

from polestead.answer.answer import Answer
from polestead.base.hours import MONTH_DAYS, MONTH_NAMES
from polestead.base.show import number, percent
from polestead.habits.result import Habit
from polestead.mount.schedule import Habitual, SkyRule, TiltSchedule
from polestead.sheets.axes import Lettered, nice_step, stair_words
from polestead.sheets.svg import Ink, Point, drawing, line, polyline, tag
from polestead.sheets.text import day_words

HOURS_A_STROKE = 5.0
STROKES_A_ROW = 5
STROKE, ROW = 17.0, 23.0
THIN, HEAVY = 0.9, 2.2
LEFT, RIGHT = 40.0, 122.0
TILT_TOP, TILT_HIGH, BARS_TOP, BARS_HIGH = 40.0, 74.0, 152.0, 132.0
GROUND = BARS_TOP + BARS_HIGH


@dataclass(frozen=True, slots=True)
class _Field(Lettered):
    """Where the months stand, and how they are inked."""

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


@dataclass(frozen=True, slots=True)
class _Told:
    """What one way of tipping brings, by month, January first."""

    used: tuple[float, ...]
    low: tuple[float, ...]
    high: tuple[float, ...]
    away: tuple[float, ...]
    engine_h: tuple[float, ...]
    schedule: Habitual
    median_h: float  # of a whole year, as the title block has it


def _of_plan(answer: Answer) -> _Told:
    told = answer.winter.with_new
    return _Told(
        told.sun_used_wh_by_month, told.sun_used_low_wh_by_month, told.sun_used_high_wh_by_month, told.turned_away_wh_by_month,
        told.engine_hours_by_month, answer.schedule, told.engine_hours.median,
    )  # fmt: skip


def _of_habit(habit: Habit) -> _Told:
    return _Told(
        habit.sun_used_wh_by_month, habit.sun_used_low_wh_by_month, habit.sun_used_high_wh_by_month, habit.turned_away_wh_by_month,
        habit.engine_hours_by_month, habit.schedule, habit.engine_hours.median,
    )  # fmt: skip


def year_picture(
    answer: Answer,
    ink: Ink,
    width: float = 802.0,
    size: float = 13.0,
    habit: Habit | None = None,
    before: Habit | None = None,
) -> str:
    """Twelve months from the start of the working year; the mean of all years.

    Args:
        answer: Of the homestead.
        ink: Of the medium.
        width: Of the picture [px]; no less than 640.
        size: Of the letters [px].
        habit: One of the answer's; None: the owner's own dates.
        before: Another, as a ghost beside it.
    """
    winter = answer.winter
    months = tuple((winter.start_month - 1 + nth) % 12 for nth in range(12))
    field = _Field(ink, width, size, months)
    told = _of_plan(answer) if habit is None else _of_habit(habit)
    hanging = (winter.without.engine_hours_by_month, told.engine_h)
    rows = max(_rows(hours) for by_month in hanging for hours in by_month)
    foot = GROUND + 30.0 + max(rows, 2) * ROW
    body = [
        *_lanes(foot, field),
        *_tilts(answer, told.schedule, habit is not None, field),
        *_bars(told, None if before is None else _of_habit(before), field),
        *_alike(answer, habit, hanging, field),
        *_tallies(hanging, foot, field),
        *_rail(
            winter.without.engine_hours.median, told.median_h, max(map(sum, hanging)), foot, field
        ),
        *_source(answer, field),
    ]
    return drawing(width, foot + 70.0, "", body, "The year", _words(answer, told, months))


def _words(answer: Answer, told: _Told, months: tuple[int, ...]) -> str:
    without = answer.winter.without
    moves = told.schedule.moves if isinstance(told.schedule, TiltSchedule) else ()
    tilt = f"Tilt: {stair_words(moves)}. " if moves else f"{told.schedule.name}. "
    return tilt + "; ".join(
        f"{MONTH_NAMES[month]}: {told.used[month] / 1000.0:.0f} kWh used, {told.away[month] / 1000.0:.0f} turned away, "
        f"engine {without.engine_hours_by_month[month]:.0f} h without, {told.engine_h[month]:.0f} h with"
        for month in months
    )


def _lanes(foot: float, field: _Field) -> Iterator[str]:
    """The months, dotted through all lanes."""
    for nth in range(13):
        x = LEFT + nth * field.step
        yield line((x, TILT_TOP), (x, foot), field.ink.ghost, 1.0, "0.1 5")


def _source(answer: Answer, field: _Field) -> Iterator[str]:
    """How far the weather may be off, on the picture itself."""
    if answer.winter.winter_error > 0.0:
        words = f"winter's sun may be {percent(answer.winter.winter_error)} off"
        yield field.say((field.right, TILT_TOP - 26.0), words, "end", pale=True)


def _stairs(schedule: Habitual, field: _Field, y: Callable[[float], float]) -> tuple[list[Point], list[tuple[float, int, float]]]:  # fmt: skip
    """Path of a schedule of dates, and its risers; nothing for a rule by the sky."""
    if not isinstance(schedule, TiltSchedule):
        return [], []
    risers = sorted((field.x(day), day, tilt) for day, tilt in schedule.moves)
    path = [(LEFT, y(risers[-1][2]))]  # what the last move of the working year left it at
    for x, _, tilt in risers:
        path += [(x, path[-1][1]), (x, y(tilt))]
    return [*path, (field.right, path[-1][1])], risers


def _sky_band(rule: SkyRule, field: _Field, y: Callable[[float], float]) -> Iterator[str]:
    """A rule by the sky: clear mornings solid, dull ones dashed, month by month."""
    for tilts, dash, wide in ((rule.clear_tilt_deg, None, 2.5), (rule.dull_tilt_deg, "5 4", 1.5)):
        path = [(LEFT + (nth + k) * field.step, y(tilts[month])) for nth, month in enumerate(field.months) for k in (0, 1)]  # fmt: skip
        yield polyline(path, field.ink.ink, wide, dash)
        word = "clear" if dash is None else "dull"
        yield field.say((field.right + 10.0, path[-1][1] + (4.5 if dash is None else 14.0)), word, strong=dash is None)  # fmt: skip


def _tilts(answer: Answer, chosen: Habitual, among: bool, field: _Field) -> Iterator[str]:
    """The tilt over the year, the day of each change written at its riser; the ways not chosen thin behind it."""
    most = 15.0 * ceil(max(answer.geometry.steepest_tilt_deg, 30.0) / 15.0)
    base = TILT_TOP + TILT_HIGH

    def y(tilt: float) -> float:
        return base - tilt / most * TILT_HIGH

    yield field.say((2.0, TILT_TOP - 26.0), "tilt", pale=True)
    for tilt in range(0, int(most) + 1, 30):
        yield line((LEFT, y(tilt)), (field.right, y(tilt)), field.ink.ghost, 0.6)
        yield field.say((LEFT - 6.0, y(tilt) + 4.5), f"{tilt:.0f}°", "end", pale=True)
    if among:
        for other in answer.habits:
            path, _ = _stairs(other.schedule, field, y)
            if path and other.schedule != chosen:
                yield polyline(path, field.ink.edge, 1.0, "6 3")
    if isinstance(chosen, SkyRule):
        yield from _sky_band(chosen, field, y)
    path, risers = _stairs(chosen, field, y)
    if not path:
        return
    yield polyline(path, field.ink.ink, 2.5)
    if len(risers) > 1:
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


def _a_day(values: tuple[float, ...], field: _Field) -> list[float]:
    """Watt-hours by calendar month to kWh a day, in the order of the months."""
    return [values[month] / (MONTH_DAYS[month] * 1000.0) for month in field.months]


def _bars(told: _Told, before: _Told | None, field: _Field) -> Iterator[str]:
    """Per month and day: solid what the house could use, outline what it turned away, the bracket from bad to good."""
    used, away, low, high = (_a_day(values, field) for values in (told.used, told.away, told.low, told.high))  # fmt: skip
    was = None if before is None else _a_day(before.used, field)
    most = max(max(high), max(a + b for a, b in zip(used, away, strict=True)), 0.1, *(was or ()))
    step = nice_step(most)
    most = step * ceil(most / step - 1e-9)
    yield from _kwh_axis(step, most, field)
    scale = BARS_HIGH / most
    for nth, month in enumerate(field.months):
        x, wide = LEFT + nth * field.step + field.step * 0.14, field.step * 0.46
        yield tag("rect", x=x, y=GROUND - used[nth] * scale, width=wide, height=used[nth] * scale, fill=field.ink.ink)  # fmt: skip
        yield tag("rect", x=x, y=GROUND - (used[nth] + away[nth]) * scale, width=wide, height=away[nth] * scale, fill="none", stroke=field.ink.ink, stroke_width=1.2)  # fmt: skip
        if was is not None:
            yield polyline([(x - 3.0, GROUND - was[nth] * scale), (x + wide + 3.0, GROUND - was[nth] * scale)], field.ink.edge, 1.5, "4 3")  # fmt: skip
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


def _alike(answer: Answer, habit: Habit | None, hanging: tuple[tuple[float, ...], tuple[float, ...]], field: _Field) -> Iterator[str]:  # fmt: skip
    """Months in which a habit and the best fixed tilt cannot be told apart, where there is room under them."""
    fixed = next((one for one in answer.habits if isinstance(one.schedule, TiltSchedule) and len(one.schedule.moves) == 1), None)  # fmt: skip
    if habit is None or fixed is None or habit is fixed:
        return
    alike = [
        abs(habit.engine_hours_by_month[m] - fixed.engine_hours_by_month[m])
        <= max(fixed.engine_hours_bad_by_month[m] - fixed.engine_hours_by_month[m], 0.5)
        and not any(_rows(by_month[m]) for by_month in hanging)
        for m in field.months
    ]
    start = None
    for nth in range(13):
        here = nth < 12 and alike[nth]
        if here and start is None:
            start = nth
        elif not here and start is not None:
            if nth - start >= 2:
                x1, x2, y = LEFT + start * field.step + 6.0, LEFT + nth * field.step - 6.0, GROUND + 28.0  # fmt: skip
                yield polyline([(x1, y), (x1, y + 5.0), (x2, y + 5.0), (x2, y)], field.ink.pencil, 1.0)  # fmt: skip
                yield field.say(((x1 + x2) / 2.0, y + 20.0), "no telling apart", "middle", pale=True)  # fmt: skip
            start = None


def _rail(without_h: float, with_h: float, most_h: float, foot: float, field: _Field) -> Iterator[str]:  # fmt: skip
    """What the marks mean, in words at the right end of each lane; hours of a whole year as the title block has them."""
    x, step = field.right + 10.0, field.size * 1.3
    for nth, words in enumerate(("outline:", "turned away", "solid: could", "be used", "bracket: bad", "to good year")):  # fmt: skip
        yield field.say((x, BARS_TOP + 8.0 + nth * step + (nth // 2) * 8.0), words, pale=True)
    both = ((without_h, "without"), (with_h, "with it"))
    yield field.say((x, GROUND + 34.0), "engine hours,", pale=True)
    yield field.say((x, GROUND + 34.0 + step), "a median year:", pale=True)
    for nth, (hours, word) in enumerate(both, start=2):
        yield field.say((x, GROUND + 34.0 + nth * step), f"{number(hours)} {word}", strong=nth == 3)
    if most_h < 0.5:
        yield field.say((LEFT, GROUND + 42.0), "The engine never runs; this array saves no fuel.")
    for nth, words in enumerate(("1 stroke = 5 h, the fifth struck through; under them the month's mean hours.", "Thin: without the new array; heavy: with it.")):  # fmt: skip
        yield field.say((LEFT, foot + 36.0 + nth * step), words, pale=True)


ROW_HIGH = 46.0  # of a month in the upright picture
BAR_LEFT = 96.0


def year_upright(answer: Answer, ink: Ink, width: float = 358.0, habit: Habit | None = None) -> str:
    """The same for a narrow page: a row a month, its bar to the right, its tallies under it.

    Args:
        answer: Of the homestead.
        ink: Of the medium.
        width: Of the picture [px].
        habit: One of the answer's; None: the owner's own dates.
    """
    winter = answer.winter
    months = tuple((winter.start_month - 1 + nth) % 12 for nth in range(12))
    field = _Field(ink, width, 13.0, months)
    told = _of_plan(answer) if habit is None else _of_habit(habit)
    used, away = _a_day(told.used, field), _a_day(told.away, field)
    most = max(max(a + b for a, b in zip(used, away, strict=True)), 0.1)
    scale = (width - BAR_LEFT - 44.0) / most
    body = [field.say((2.0, 14.0), "month, tilt", pale=True), field.say((BAR_LEFT, 14.0), "kWh a day; engine hours under it", pale=True)]  # fmt: skip
    for nth, month in enumerate(months):
        y = 24.0 + nth * ROW_HIGH
        body.append(line((0.0, y), (width, y), ink.ghost, 1.0))
        body.append(field.say((2.0, y + 17.0), MONTH_NAMES[month], strong=True))
        body.append(field.say((BAR_LEFT - 10.0, y + 17.0), _tilt_in(told.schedule, month), "end", pale=True))  # fmt: skip
        body.append(tag("rect", x=BAR_LEFT, y=y + 6.0, width=used[nth] * scale, height=13.0, fill=ink.ink))  # fmt: skip
        body.append(tag("rect", x=BAR_LEFT + used[nth] * scale, y=y + 6.0, width=away[nth] * scale, height=13.0, fill="none", stroke=ink.ink, stroke_width=1.2))  # fmt: skip
        body.append(field.say((BAR_LEFT + (used[nth] + away[nth]) * scale + 6.0, y + 17.0), f"{used[nth]:.1f}"))  # fmt: skip
        both = (winter.without.engine_hours_by_month[month], told.engine_h[month])
        if max(both) >= 0.5:
            body.append(_short_tally(BAR_LEFT, y + 24.0, both[0], THIN, ink.pencil))
            body.append(_short_tally(BAR_LEFT, y + 34.0, both[1], HEAVY, ink.ink))
            body.append(field.say((width - 4.0, y + 36.0), f"{both[0]:.0f}, now {both[1]:.0f} h", "end", pale=True))  # fmt: skip
    foot = 24.0 + 12.0 * ROW_HIGH
    body.append(line((0.0, foot), (width, foot), ink.ink, 1.5))
    year = f"Engine hours, a median year: {number(winter.without.engine_hours.median)} without, {number(told.median_h)} with it."
    for n, words in enumerate((year, "1 stroke = 5 h, mean of all years.", "Thin: without it; heavy: with it.")):  # fmt: skip
        body.append(field.say((2.0, foot + 20.0 + 18.0 * n), words, pale=n > 0))
    return drawing(width, foot + 66.0, "", body, "The year", _words(answer, told, months))


def _tilt_in(schedule: Habitual, month: int) -> str:
    """Tilt in the middle of a month."""
    if isinstance(schedule, TiltSchedule):
        day = sum(MONTH_DAYS[:month]) + MONTH_DAYS[month] // 2
        return f"{float(schedule.tilt_by_hour_deg(np.array([day]))[0]):.0f}°"
    return f"{schedule.clear_tilt_deg[month]:.0f}°" if isinstance(schedule, SkyRule) else ""


def _short_tally(x: float, y: float, hours: float, wide: float, colour: str) -> str:
    """Strokes of five hours in one row, the fifth struck through the four before it."""
    ways = []
    for nth in range(round(hours / HOURS_A_STROKE)):
        five, place = divmod(nth, STROKES_A_ROW)
        at = x + five * 24.0 + place * 4.5
        ways.append(f"M{at - 16.0:.1f} {y + 7.0:.1f}l16 -6" if place == STROKES_A_ROW - 1 else f"M{at:.1f} {y:.1f}v8")  # fmt: skip
    return tag("path", d="".join(ways) or "M0 0", fill="none", stroke=colour, stroke_width=wide)
