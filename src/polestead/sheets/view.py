"""The view: skyline and sun over it, one scale both ways, and the same day at each spot as bars."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import ceil, floor

import numpy as np
from numpy.typing import NDArray

from polestead.answer.views import SpotView
from polestead.base.show import Style, dimension, percent
from polestead.sheets.svg import Ink, Point, drawing, line, polygon, polyline, tag, text
from polestead.sun.day_seen import DaySeen, Lost
from polestead.sun.view import BEARINGS, STEP_DEG, Layer

PX_PER_DEG = 4.62  # at 802 px: 170 degrees of bearing fill the field
EACH_SIDE_DEG = 85.0
WINDS = ("north", "north-north-east", "north-east", "east-north-east", "east", "east-south-east", "south-east", "south-south-east",
         "south", "south-south-west", "south-west", "west-south-west", "west", "west-north-west", "north-west", "north-north-west")  # fmt: skip
ROUND_MIN = 5
CROSS_EVERY_DEG = 2.2
DATES = {(12, 21): "21 December", (3, 20): "20 March, 23 September", (6, 21): "21 June"}


def wind_word(bearing_deg: float, points: int = 8) -> str:
    """The compass word nearest to a bearing.

    Example:
        >>> wind_word(132.0), wind_word(359.0), wind_word(112.5, 16)
        ('south-east', 'north', 'east-south-east')
    """
    step = 360.0 / points
    return WINDS[round(bearing_deg / step) % points * (16 // points)]


def clock(hour: float, style: Style) -> str:
    """A moment to five minutes: by twelve hours where the file is in feet, by twenty-four in metric.

    Example:
        >>> clock(15.26, "feet"), clock(15.26, "metric"), clock(12.0, "feet")
        ('3:15', '15:15', '12:00')
    """
    minutes = _rounded(hour)
    at, past = divmod(minutes, 60)
    return f"{(at - 1) % 12 + 1 if style == 'feet' else at}:{past:02d}"


def lasting(minutes: int) -> str:
    """A duration in words.

    Example:
        >>> lasting(335), lasting(30), lasting(120)
        ('5 h 35', '30 min', '2 h')
    """
    hours, rest = divmod(minutes, 60)
    if not hours:
        return f"{rest} min"
    return f"{hours} h {rest:02d}" if rest else f"{hours} h"


def lost_minutes(lost: Lost) -> int:
    """How long a stretch lasts, from its ends as shown."""
    return _rounded(lost.to_h) - _rounded(lost.from_h)


def clear_minutes(day: DaySeen) -> int:
    """How long the sun stands clear, to five minutes, so that what is shown adds up."""
    return max(_rounded(day.up_h) - sum(lost_minutes(lost) for lost in day.lost), 0)


def clear_sentence(day: DaySeen) -> str:
    """The shortest day in a sentence: how long the sun stands clear, and what takes the rest."""
    said = f"On {day.on.day} {day.on:%B} the sun stands clear {lasting(clear_minutes(day))} of {lasting(_rounded(day.up_h))}."  # fmt: skip
    takes = [f"{_what(lost)} {lasting(lost_minutes(lost))}" for lost in day.lost if lost_minutes(lost) > 0]  # fmt: skip
    if not takes:
        return f"{said} Nothing stands before it."
    listed = takes[0] if len(takes) == 1 else f"{'; '.join(takes[:-1])}; {takes[-1]}"
    return f"{said} Lost: {listed}."


def view_picture(
    seen: SpotView, style: Style, ink: Ink, width: float = 802.0, size: float = 13.0
) -> str:
    """The skyline with the sun of three days over it.

    Args:
        seen: What is drawn.
        style: Twelve or twenty-four hours.
        ink: Of the medium.
        width: Of the field; the scale follows it, one both ways.
        size: Of the letters.
    """
    field = _field(seen, width, size)
    named = [] if field.narrow else _named(field, seen, style, ink)
    parts = [
        *_ruling(field, seen, ink),
        *_things(field, seen, ink),
        *_ground(field, ink),
        *_sun(field, seen, style, ink, named),
        *(_ringed(field, seen, ink) if field.narrow else _told(field, named, ink)),
        *_foot(field, seen, style, ink),
    ]
    words = " ".join((clear_sentence(seen.days[0]), *(stretch_words(lost, style) for lost in seen.days[0].lost)))  # fmt: skip
    return drawing(field.width, field.height, _fills(ink, width), parts, f"The view from {seen.spot}", words)  # fmt: skip


@dataclass(frozen=True, slots=True)
class _Field:
    """From degrees to pixels."""

    width: float
    height: float
    scale: float
    ground: float
    middle_deg: float
    size: float
    narrow: bool

    def x(self, bearing_deg: float) -> float:
        return self.width / 2.0 + self.off(bearing_deg) * self.scale

    def off(self, bearing_deg: float) -> float:
        """Degrees to the right of the middle, -180 to 180."""
        return (bearing_deg - self.middle_deg + 180.0) % 360.0 - 180.0

    def y(self, height_deg: float) -> float:
        return self.ground - height_deg * self.scale


def _field(seen: SpotView, width: float, size: float) -> _Field:
    scale = PX_PER_DEG * width / 802.0
    highest = max(float(day.height_deg.max()) for day in seen.days)
    tallest = max((float(layer.height_deg.max()) for layer in seen.layers), default=0.0)
    top = size * 3.2 + min(max(highest, tallest) + 2.0, 92.0) * scale
    return _Field(width, top + size * 6.4, scale, top, seen.noon_deg, size, width < 500.0)


def _fills(ink: Ink, width: float) -> str:
    slope = tag("line", x1=0.0, y1=0.0, x2=0.0, y2=7.0, stroke=ink.pencil, stroke_width=0.7)
    dots = tag("circle", cx=3.5, cy=3.5, r=0.8, fill=ink.pencil)
    return tag("pattern", slope, id=f"view-wood-{width:.0f}", width=7.0, height=7.0, patternUnits="userSpaceOnUse", patternTransform="rotate(45)") + tag(
        "pattern", dots, id=f"view-hill-{width:.0f}", width=7.0, height=7.0, patternUnits="userSpaceOnUse", patternTransform="rotate(30)"
    )  # fmt: skip


def _ruling(field: _Field, seen: SpotView, ink: Ink) -> Iterator[str]:
    """Fists up and across."""
    top = field.size * 2.2
    fists = int((field.ground - top) / field.scale / seen.fist_deg)
    left = field.x(field.middle_deg - EACH_SIDE_DEG)
    for nth in range(1, fists + 1):
        y = field.y(nth * seen.fist_deg)
        yield line((left, y), (field.width - left, y), ink.ghost, 0.7, "1 5")
        if not field.narrow or nth % 2 == 0:
            yield text((4.0, y + field.size * 0.35), str(nth), ink.pencil, ink.face, field.size)
    yield text((4.0, field.size * 1.2), "fists up", ink.pencil, ink.face, field.size)
    across = int(EACH_SIDE_DEG / seen.fist_deg)
    for nth in range(-across, across + 1):
        x = field.x(field.middle_deg + nth * seen.fist_deg)
        yield line((x, top), (x, field.ground), ink.ghost, 0.7, "1 5")
        yield line((x, field.ground + 10.0), (x, field.ground + 16.0), ink.pencil, 1.0)
        if nth and (not field.narrow or nth % 2 == 0):
            yield text((x, field.ground + field.size * 2.3), str(abs(nth)), ink.pencil, ink.face, field.size, "middle")  # fmt: skip
    yield text((field.x(field.middle_deg), field.ground + field.size * 2.4), wind_word(field.middle_deg), ink.ink, ink.face, field.size, "middle", "600")  # fmt: skip
    yield from _winds(field, ink)


def _winds(field: _Field, ink: Ink) -> Iterator[str]:
    """Compass words, true, one row under the fists; every other one where there is no room."""
    step = 22.5 if field.width > 780.0 else 45.0
    for nth in range(-3, 4):
        bearing = field.middle_deg + nth * step
        if nth == 0 or abs(nth * step) > EACH_SIDE_DEG - 12.0:
            continue
        x = field.x(bearing)
        yield line((x, field.ground + field.size * 2.8), (x, field.ground + field.size * 3.2), ink.pencil, 1.0)  # fmt: skip
        yield text((x, field.ground + field.size * 4.2), wind_word(bearing % 360.0, 16), ink.pencil, ink.face, field.size, "middle")  # fmt: skip


def _ground(field: _Field, ink: Ink) -> Iterator[str]:
    yield line((0.0, field.ground), (field.width, field.ground), ink.ink, 2.5)
    for nth in range(int(field.width / 28.0) + 1):
        for stroke in range(3):
            x = nth * 28.0 + stroke * 5.0
            yield line((x, field.ground + 9.0), (x + 7.0, field.ground + 2.0), ink.pencil, 0.7)


def _things(field: _Field, seen: SpotView, ink: Ink) -> Iterator[str]:
    """Ground far to near, then trees with a ragged top; hatch and outline are two shapes."""
    for layer in sorted(seen.layers, key=_is_wood):
        for run in _runs(field, layer):
            top = _ragged(run, field) if _is_wood(layer) else run
            closed = [(top[0][0], field.ground), *top, (top[-1][0], field.ground)]
            yield polygon(closed, ink.paper)
            yield polygon(
                closed, f"url(#{'view-wood' if _is_wood(layer) else 'view-hill'}-{field.width:.0f})"
            )
            bare = "5 4" if _is_wood(layer) and layer.winter >= 0.35 else None
            yield polyline(closed, ink.ink, 1.3, bare)


def _is_wood(layer: Layer) -> bool:
    return max(layer.summer, layer.winter) > 0.0


def _runs(field: _Field, layer: Layer) -> Iterator[list[Point]]:
    """Stretches of a layer inside the field, left to right."""
    order = np.argsort([field.off(float(bearing)) for bearing in BEARINGS])
    run: list[Point] = []
    for at in order:
        bearing, height = float(BEARINGS[at]), float(layer.height_deg[at])
        inside = abs(field.off(bearing)) <= EACH_SIDE_DEG and height > 0.0
        if inside:
            run.append((field.x(bearing), field.y(min(height, 90.0))))
        if run and not inside:
            yield _closed_run(run, field)
            run = []
    if run:
        yield _closed_run(run, field)


def _closed_run(run: list[Point], field: _Field) -> list[Point]:
    half = STEP_DEG / 2.0 * field.scale
    return [(run[0][0] - half, run[0][1]), *run, (run[-1][0] + half, run[-1][1])]


def _ragged(run: Sequence[Point], field: _Field) -> list[Point]:
    """Tree tops: the run's own height at every second tooth, a little under it between; never over what was measured."""
    tooth = max(2.2 * field.scale, 6.0)
    many = max(2, ceil((run[-1][0] - run[0][0]) / tooth) * 2)
    xs = np.linspace(run[0][0], run[-1][0], many + 1)
    ys = np.interp(xs, [x for x, _ in run], [y for _, y in run])
    dip = np.minimum(2.4 * field.scale, (field.ground - ys) * 0.35)
    return [(float(x), float(y + (d if nth % 2 == 0 else 0.0))) for nth, (x, y, d) in enumerate(zip(xs, ys, dip, strict=True))]  # fmt: skip


def _sun(
    field: _Field, seen: SpotView, style: Style, ink: Ink, named: Sequence[_Named]
) -> Iterator[str]:
    """Three paths; hours over them, dates under their tops, no mark where the sun is lost."""
    looks: tuple[tuple[float, str | None], ...] = ((2.5, None), (1.2, None), (1.2, "7 4"))
    for day, (heavy, dash) in zip(seen.days, looks, strict=True):
        yield from _path(field, day, ink, heavy, dash)
        yield from _hours(field, day, style, ink, named)
        top = int(np.argmin(np.abs([field.off(float(a)) for a in day.azimuth_deg])))
        word = DATES[(day.on.month, day.on.day)]
        word = word.partition(",")[0] if field.narrow else word
        if abs(field.off(float(day.azimuth_deg[top]))) < 2.0:
            at = (field.width / 2.0, field.y(float(day.height_deg[top])) + field.size * 1.6)
            yield text(at, word, ink.ink, ink.face, field.size, "middle", "600")


def _shown(field: _Field, day: DaySeen) -> NDArray[np.bool_]:
    return np.array([abs(field.off(float(a))) <= EACH_SIDE_DEG for a in day.azimuth_deg])


def _path(field: _Field, day: DaySeen, ink: Ink, heavy: float, dash: str | None) -> Iterator[str]:
    shown = _shown(field, day)
    for hidden in (False, True):
        for start, stop in _pieces(shown & (day.hidden == hidden), day.clock_h):
            points = [
                (field.x(float(day.azimuth_deg[n])), field.y(float(day.height_deg[n])))
                for n in range(start, stop, 2)
            ]
            if not hidden:
                yield polyline(points, ink.ink, heavy, dash)
            elif heavy > 2.0:
                yield from _crosses(points, field, ink)
            else:
                yield polyline(points, ink.ghost, heavy, dash)


def _pieces(which: NDArray[np.bool_], clock_h: NDArray[np.float64]) -> list[tuple[int, int]]:
    """Stretches of True that do not jump in time."""
    found: list[tuple[int, int]] = []
    start: int | None = None
    for n in range(which.size + 1):
        joined = 0 < n < which.size and clock_h[n] - clock_h[n - 1] < 0.1
        if start is not None and (n == which.size or not which[n] or not joined):
            found.append((start, n))
            start = None
        if start is None and n < which.size and which[n]:
            start = n
    return [(a, b) for a, b in found if b - a > 2]


def _crosses(points: Sequence[Point], field: _Field, ink: Ink) -> Iterator[str]:
    """Where the shortest day's sun is lost: small crosses along its path."""
    yield polyline(points, ink.rust, 1.2)
    gap, last = CROSS_EVERY_DEG * field.scale, None
    for x, y in points:
        if last is None or abs(x - last) >= gap:
            yield line((x - 3.0, y - 3.0), (x + 3.0, y + 3.0), ink.rust, 1.2)
            yield line((x - 3.0, y + 3.0), (x + 3.0, y - 3.0), ink.rust, 1.2)
            last = x


def _hours(
    field: _Field, day: DaySeen, style: Style, ink: Ink, named: Sequence[_Named]
) -> Iterator[str]:
    shown = _shown(field, day)
    for hour in range(24):
        n = int(np.argmin(np.abs(day.clock_h - hour)))
        if abs(float(day.clock_h[n]) - hour) > 0.02 or day.hidden[n] or not shown[n]:
            continue
        if field.narrow and hour % 2:
            continue
        x, y = field.x(float(day.azimuth_deg[n])), field.y(float(day.height_deg[n]))
        yield tag("circle", cx=x, cy=y, r=2.8, fill=ink.ink)
        word = str((hour - 1) % 12 + 1) if style == "feet" else str(hour)
        covered = any(one.covers(x, y - field.size * 0.75, field.size, field.size) for one in named)
        if field.size * 2.4 < x < field.width - field.size and not covered:
            yield text((x, y - field.size * 0.75), word, ink.pencil, ink.face, field.size, "middle")


@dataclass(frozen=True, slots=True)
class _Named:
    """Words over a lost stretch: what, when, the middle of its box and half its width, and the thing."""

    words: tuple[str, str]
    at: Point
    half: float
    thing: Point

    def covers(self, x: float, y: float, size: float, half: float = 0.0) -> bool:
        """Whether other words of one line round x would run into these."""
        return abs(x - self.at[0]) < self.half + half and -size * 1.2 < y - self.at[1] < size * 2.6


def _taken(field: _Field, seen: SpotView) -> Iterator[tuple[int, Lost, Point]]:
    """What takes the shortest day's sun inside the field: its number, itself, and where its middle is."""
    day = seen.days[0]
    for nth, lost in enumerate(day.lost, start=1):
        if lost_minutes(lost) > 0 and abs(field.off(lost.bearing_deg)) <= EACH_SIDE_DEG:
            middle = int(np.argmin(np.abs(day.clock_h - (lost.from_h + lost.to_h) / 2.0)))
            yield nth, lost, (field.x(float(day.azimuth_deg[middle])), field.y(float(day.height_deg[middle])))  # fmt: skip


def _named(field: _Field, seen: SpotView, style: Style, ink: Ink) -> list[_Named]:
    """The words of what takes the sun, each over its thing and none over another."""
    placed: list[_Named] = []
    for _, lost, thing in _taken(field, seen):
        words = (_what(lost), f"lost {clock(lost.from_h, style)} to {clock(lost.to_h, style)}")
        half = max(len(word) for word in words) * field.size * ink.letter * 1.12 / 2.0 + 4.0
        x = min(max(thing[0], half + field.size * 1.6), field.width - half)
        y = min(thing[1], _top_about(field, seen, x, half)) - field.size * 2.2
        while any(abs(x - one.at[0]) < half + one.half and abs(y - one.at[1]) < field.size * 2.8 for one in placed):  # fmt: skip
            y -= field.size * 2.8
        placed.append(_Named(words, (x, y), half, thing))
    return placed


def _told(field: _Field, named: Sequence[_Named], ink: Ink) -> Iterator[str]:
    for one in named:
        x, y = one.at
        yield tag("rect", x=x - one.half, y=y - field.size * 1.1, width=2.0 * one.half, height=field.size * 2.7, fill=ink.paper)  # fmt: skip
        yield text((x, y), one.words[0], ink.rust, ink.face, field.size, "middle", "600")
        yield text((x, y + field.size * 1.25), one.words[1], ink.pencil, ink.face, field.size, "middle")  # fmt: skip
        foot = (min(max(one.thing[0], x - one.half), x + one.half), y + field.size * 1.7)
        yield line(foot, (one.thing[0], one.thing[1] - 6.0), ink.rust, 1.2)


def _ringed(field: _Field, seen: SpotView, ink: Ink) -> Iterator[str]:
    """Where there is no room a ringed number stands for the words, which the page lists."""
    for nth, _, at in _taken(field, seen):
        y = at[1] - field.size * 2.0
        yield line((at[0], y), (at[0], at[1] - 4.0), ink.rust, 1.2)
        yield tag("circle", cx=at[0], cy=y, r=field.size * 0.75, fill=ink.paper, stroke=ink.rust, stroke_width=1.5)  # fmt: skip
        yield text((at[0], y + field.size * 0.35), str(nth), ink.rust, ink.face, field.size, "middle")  # fmt: skip


def _top_about(field: _Field, seen: SpotView, x: float, half: float) -> float:
    """The highest of things and winter sun under words that stand at x."""
    near = np.array([abs(field.x(float(bearing)) - x) <= half for bearing in BEARINGS])
    tallest = max((float(layer.height_deg[near].max()) for layer in seen.layers), default=0.0)
    day = seen.days[0]
    there = np.array([abs(field.x(float(bearing)) - x) <= half for bearing in day.azimuth_deg])
    sun = float(day.height_deg[there].max()) if there.any() else 0.0
    return field.y(max(tallest, sun))


def _foot(field: _Field, seen: SpotView, style: Style, ink: Ink) -> Iterator[str]:
    y = field.height - field.size * 0.6
    said = "True bearings." if field.narrow else f"One fist is {seen.fist_deg:.0f} degrees, across and up. Compass words are true, not the needle's."  # fmt: skip
    yield text((8.0, y), said, ink.pencil, ink.face, field.size)
    yield text((field.width - 8.0, y), f"eye {dimension(seen.eye_m, style)}", ink.pencil, ink.face, field.size, "end")  # fmt: skip


def day_bars(spots: Sequence[tuple[str, DaySeen]], style: Style, ink: Ink, width: float = 802.0, size: float = 13.0) -> str:  # fmt: skip
    """The same day at each spot: a bar where its sun stands clear.

    Args:
        spots: Name of each spot and its day; the first is the one the file describes.
        style: Twelve or twenty-four hours.
        ink: Of the medium.
        width: Of the picture.
        size: Of the letters.
    """
    every = [day for _, day in spots]
    first = floor(min(float(day.clock_h.min()) for day in every))
    last = ceil(max(float(day.clock_h.max()) for day in every))
    names = max(len(name) for name, _ in spots) * size * ink.letter * 1.1 + 14.0
    left, right = min(names, width * 0.34), width - size * 5.2
    row, top = size * 2.4, size * 1.2
    foot = top + row * len(spots)

    def x(hour: float) -> float:
        return left + (hour - first) / (last - first) * (right - left)

    parts: list[str] = []
    step = 1 if right - left > 420.0 else 2
    for hour in range(first, last + 1, step):
        parts.append(line((x(hour), top), (x(hour), foot), ink.ghost, 0.7, "1 5"))
        word = str((hour - 1) % 12 + 1) if style == "feet" else str(hour)
        parts.append(text((x(hour), foot + size * 1.5), word, ink.pencil, ink.face, size, "middle"))
    for nth, (name, day) in enumerate(spots):
        y = top + row * (nth + 0.5)
        shown = name if len(name) <= (left - 14.0) / size / ink.letter else name[: int((left - 14.0) / size / ink.letter) - 1] + "…"  # fmt: skip
        parts.append(text((0.0, y + size * 0.35), shown, ink.ink, ink.face, size, weight="600" if nth == 0 else None))  # fmt: skip
        up = (x(float(day.clock_h[0])), x(float(day.clock_h[-1])))
        parts.append(line((up[0], y), (up[1], y), ink.pencil, 1.0, "4 3"))
        parts += [line((at, y - 5.0), (at, y + 5.0), ink.pencil, 1.2) for at in up]
        for start, stop in _pieces(~day.hidden, day.clock_h):
            box = (x(float(day.clock_h[start])), x(float(day.clock_h[stop - 1])))
            heavy = 9.0 if nth == 0 else 6.0
            parts.append(tag("rect", x=box[0], y=y - heavy / 2.0, width=box[1] - box[0], height=heavy, fill=ink.ink if nth == 0 else ink.pencil))  # fmt: skip
        parts.append(text((right + 8.0, y + size * 0.35), lasting(clear_minutes(day)), ink.ink, ink.face, size, weight="600" if nth == 0 else None))  # fmt: skip
    parts.append(line((left, foot), (right, foot), ink.ink, 2.5))
    words = "; ".join(f"{name}: clear {lasting(clear_minutes(day))}" for name, day in spots)  # fmt: skip
    return drawing(width, foot + size * 2.2, "", parts, "The same day at each spot", words)


def _rounded(hour: float) -> int:
    return round(hour * 60.0 / ROUND_MIN) * ROUND_MIN


def _what(lost: Lost) -> str:
    side = wind_word(lost.bearing_deg)
    return f"{'trees' if lost.what == 'trees' else 'ground'}, {side}"


def stretch_words(lost: Lost, style: Style) -> str:
    """One stretch the sun is lost, for the list beside the picture."""
    past = f", {percent(lost.lets_through)} comes through" if lost.lets_through > 0.0 else ""
    return f"{_what(lost)}: lost {clock(lost.from_h, style)} to {clock(lost.to_h, style)}{past}."
