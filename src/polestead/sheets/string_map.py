"""The string map drawn: every module with its letter and number, the way of the wire, the ends and where they come out."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from math import ceil, floor
from textwrap import wrap

from polestead.base.show import MINUS, Style, length, number
from polestead.sheets.svg import Ink, Point, drawing, hatch, line, polygon, polyline, tag, text
from polestead.wiring.drawn.string_map import HomeRun, Spot, StringMap

GAP, SLOT = 6.0, 26.0
MOST_HIGH, MOST_WIDE = 120.0, 150.0
TOLD_ONE_BY_ONE = 6  # strings whose ends are told each; more are told by the longest
CHARACTERS = 4  # of the longest label, as AA10


@dataclass(frozen=True, slots=True)
class _Field:
    """Where each cell lies; turned, the low edge is at the left."""

    map: StringMap
    turned: bool
    left: float
    top: float
    wide: float
    high: float

    @property
    def across(self) -> int:
        return self.map.rows if self.turned else self.map.columns

    @property
    def down(self) -> int:
        return self.map.columns if self.turned else self.map.rows

    def _slot(self) -> float:
        """Over the hinge, where it runs between two rows."""
        return SLOT - GAP if self.map.rows % 2 == 0 else 0.0

    def middle(self, spot: Spot) -> Point:
        """Middle of a module."""
        past = self._slot() if spot.row > self.map.rows / 2.0 else 0.0
        if self.turned:
            x = self.left + (spot.row - 0.5) * self.wide + (spot.row - 1) * GAP + past
            return x, self.top + (spot.column - 0.5) * self.high + (spot.column - 1) * GAP
        x = self.left + (spot.column - 0.5) * self.wide + (spot.column - 1) * GAP
        from_low = (spot.row - 0.5) * self.high + (spot.row - 1) * GAP + past
        return x, self.bottom - from_low

    @property
    def right(self) -> float:
        more = self._slot() if self.turned else 0.0
        return self.left + self.across * self.wide + (self.across - 1) * GAP + more

    @property
    def bottom(self) -> float:
        more = 0.0 if self.turned else self._slot()
        return self.top + self.down * self.high + (self.down - 1) * GAP + more

    @property
    def pole(self) -> Point:
        return (self.left + self.right) / 2.0, (self.top + self.bottom) / 2.0


def string_map_words(data: StringMap, style: Style) -> tuple[str, ...]:
    """What stands under the map."""
    letters = list(dict.fromkeys(spot.string for spot in data.spots))
    if len(letters) <= TOLD_ONE_BY_ONE:
        ends = "; ".join(
            f"{run.string}{run.number} ({_sign(run)}) {_about(run.length_m, style)}" for run in data.home_runs
        )  # fmt: skip
    else:
        longest = max(data.home_runs, key=lambda run: run.length_m)
        ends = f"the longest {_about(longest.length_m, style)}, of {longest.string}{longest.number}"
    leads = f" Leads of two neighbours must reach {_reach(data.links_m, style)} between their middles: hold that against the sheet." if data.links_m else ""  # fmt: skip
    return (
        f"Ends to the ring, the box on the frame by the hinge: {ends}. About {_about(data.wire_m, style)} of wire together, a "
        f"fifth more than the straight way in it.{leads}",
        *data.words,
    )


def _about(metres: float, style: Style) -> str:
    """An estimate, rounded up: whole feet, or tenths of a metre."""
    if style == "feet":
        return f"{number(float(ceil(metres / 0.3048 - 1e-9)))} ft"
    return f"{number(ceil(metres * 10.0 - 1e-9) / 10.0, 1)} m"


def _reach(metres: float, style: Style) -> str:
    """What a lead must reach, rounded up to the inch or the centimetre."""
    if style == "feet":
        return length(ceil(metres / 0.0254 - 1e-9) * 0.0254, style)
    return f"{ceil(metres * 100.0 - 1e-9)} cm"


def string_map(
    data: StringMap,
    style: Style,
    ink: Ink,
    width: float = 720.0,
    size: float = 13.0,
    name: str = "",
) -> str:
    """The map as SVG.

    Args:
        data: What stands on it.
        style: Units of lengths.
        ink: Of the medium.
        width: Of the drawing [px].
        size: Of the letters [px].
        name: Of the homestead.
    """
    field = _field(data, ink, width, size)
    says = f"seen from the {data.seen}, low edge {'at the left' if field.turned else 'below'}"
    said_in = wrap(says, floor((width - 16.0) / (size * ink.letter)))
    heads = [
        text((8.0, size * 1.3 * nth), part, ink.pencil, ink.face, size)
        for nth, part in enumerate(said_in, start=1)
    ]
    field = replace(field, top=field.top + size * 1.3 * (len(said_in) - 1))
    body = [
        *_modules(field, ink),
        *_ways(field, ink),
        *_ends(field, ink, size),
        *_labels(field, ink, size),
        *heads,
    ]
    if not field.turned:
        middle = (field.left + field.right) / 2.0
        body.append(text((middle, field.bottom + size * 1.3), "low edge", ink.pencil, ink.face, size, "middle"))  # fmt: skip
    y = field.bottom + size * 3.2
    for said in string_map_words(data, style):
        for part in wrap(said, floor((width - 16.0) / (size * ink.letter))):
            body.append(text((8.0, y), part, ink.pencil, ink.face, size))
            y += size * 1.3
        y += size * 0.4
    title = f"String map{' of ' + name if name else ''}, {says}"
    told = "; ".join(
        f"string {letter}: "
        + ", ".join(f"{s.label} column {s.column} row {s.row}" for s in data.of_string(letter))
        for letter in dict.fromkeys(spot.string for spot in data.spots)
    )
    words = f"Columns from the left, rows from the low edge. {told}. " + " ".join(
        string_map_words(data, style)
    )
    return drawing(width, ceil(y), hatch("every-second", ink.ghost, 7.0, 45.0), body, title, words)


def _field(data: StringMap, ink: Ink, width: float, size: float) -> _Field:
    need = CHARACTERS * size * ink.letter + 4.0
    side = size * ink.letter * 2.0
    room = width - 2.0 * side
    turned = (room - (data.columns - 1) * GAP) / data.columns < need and data.rows < data.columns
    across = data.rows if turned else data.columns
    slot = SLOT - GAP if turned and data.rows % 2 == 0 else 0.0
    wide = min((room - (across - 1) * GAP - slot) / across, MOST_WIDE)
    shape = data.module_up_m / data.module_along_m
    high = wide / shape if turned else wide * shape
    high = min(max(high, size * 3.4), MOST_HIGH)
    if not turned:
        wide = max(min(wide, high / shape), min(wide, need))
    whole = across * wide + (across - 1) * GAP + slot
    return _Field(data, turned, (width - whole) / 2.0, size * 2.2, wide, high)


def _corners(field: _Field, spot: Spot) -> list[Point]:
    x, y = field.middle(spot)
    half_x, half_y = field.wide / 2.0, field.high / 2.0
    return [(x - half_x, y - half_y), (x + half_x, y - half_y), (x + half_x, y + half_y), (x - half_x, y + half_y)]  # fmt: skip


def _modules(field: _Field, ink: Ink) -> Iterator[str]:
    letters = list(dict.fromkeys(spot.string for spot in field.map.spots))
    for spot in field.map.spots:
        corners = _corners(field, spot)
        if letters.index(spot.string) % 2:
            yield polygon(corners, "url(#every-second)")
        yield polygon(corners, "none", ink.ink, 1.5)
    x, y = field.pole
    if field.turned:
        yield line((x, field.top - 8.0), (x, field.bottom + 8.0), ink.pencil, 1.0, "12 3 2 3")
    else:
        yield line((field.left - 12.0, y), (field.right + 12.0, y), ink.pencil, 1.0, "12 3 2 3")


def _labels(field: _Field, ink: Ink, size: float) -> Iterator[str]:
    for spot in field.map.spots:
        mx, my = field.middle(spot)
        # A clear ground under the letters, where hatch and wire would eat them.
        half = len(spot.label) * size * ink.letter / 2.0 + 2.0
        low, high = my - field.high * 0.22 - size * 0.6, my - field.high * 0.22 + size * 0.5
        yield polygon([(mx - half, low), (mx + half, low), (mx + half, high), (mx - half, high)], ink.paper)  # fmt: skip
        yield text((mx, my - field.high * 0.22 + size * 0.3), spot.label, ink.ink, ink.face, size, "middle", "600")  # fmt: skip


def _ways(field: _Field, ink: Ink) -> Iterator[str]:
    """The chain of each string through the middles of its modules, a dot on each."""
    for letter in dict.fromkeys(spot.string for spot in field.map.spots):
        points = [_on_chain(field, spot) for spot in field.map.of_string(letter)]
        yield polyline(points, ink.ink, 2.0)
        for at in points:
            yield tag("circle", cx=at[0], cy=at[1], r=2.5, fill=ink.ink)


def _on_chain(field: _Field, spot: Spot) -> Point:
    x, y = field.middle(spot)
    return x, y + field.high * 0.12


def _ends(field: _Field, ink: Ink, size: float) -> Iterator[str]:
    """Plus and minus in the modules at the ends, and their wires to the ring, in the gaps between the modules."""
    by = {(spot.string, spot.number): spot for spot in field.map.spots}
    for nth, run in enumerate(field.map.home_runs):
        spot = by[run.string, run.number]
        x, y = _on_chain(field, spot)
        aside = (-0.28 if run.sign == "-" else 0.28) * field.wide
        mx, my = field.middle(spot)
        yield text((mx + aside, my + field.high * 0.42), _sign(run), ink.ink, ink.face, size, "middle", "600")  # fmt: skip
        yield polyline(_home(field, spot, (x, y), nth), ink.pencil, 1.0, "5 3")
    x, y = field.pole
    yield tag("circle", cx=x, cy=y, r=6.0, fill=ink.paper, stroke=ink.ink, stroke_width=2.0)


def _home(field: _Field, spot: Spot, start: Point, nth: int) -> list[Point]:
    """Sideways into the gap that lies towards the pole, along it to the hinge, along the hinge to the ring."""
    x, y = start
    px, py = field.pole
    spread = (nth % 3 - 1) * 1.5
    if field.turned:
        _, my = field.middle(spot)
        gap = my + (1.0 if my < py else -1.0) * (field.high + GAP) / 2.0 + spread
        return [(x, y), (x, gap), (px, gap), (px, py)]
    mx, _ = field.middle(spot)
    gap = mx + (1.0 if mx < px else -1.0) * (field.wide + GAP) / 2.0 + spread
    return [(x, y), (gap, y), (gap, py), (px, py)]


def _sign(run: HomeRun) -> str:
    return "+" if run.sign == "+" else MINUS
