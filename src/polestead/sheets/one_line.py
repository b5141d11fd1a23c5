"""The one-line drawn: the pole at the left, its ground under it, the battery at the right; on a narrow page from top to bottom."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from functools import lru_cache
from math import ceil, floor
from textwrap import wrap

from polestead.base.show import Style, dimension, number
from polestead.sheets.ratings import NEVER_PART, rating_words
from polestead.sheets.svg import Ink, Point, drawing, line, polyline, tag, text
from polestead.sheets.symbols import EDGE, FINE, HEAVY, REACH, symbol
from polestead.wiring.drawn.one_line import OneLine, Station
from polestead.wiring.guards.rating import Rating

NARROW_UNDER = 640.0
EARTH_DASH = "7 4"
ALTERNATING_DASH = "12 3 2 3"
SHOWN_STRINGS = 3
FRAME_OUT = 22.0  # the house's outline, left of where its lines begin
STRONG = 1.12  # of a heavy letter's width over a plain one's
CAUTION = (
    "One line stands for both live wires. Dashed: earth wire; dash and dot: alternating current; heavy: battery bus. Every fuse, switch, breaker and "
    "arrestor but those of the house board must be rated for direct current. ≥: at least. ask: no label told it yet. "
    "Screening sums, not a stamped design: a licensed electrician and the inspector decide."
)  # fmt: skip


@lru_cache(maxsize=256)  # told for the room it takes, to be written, and in the drawing's words
def station_words(station: Station, style: Style) -> tuple[str, ...]:
    """Name first, then its figures and its note."""
    figures = [rating_words(rating, style) for rating in station.ratings]
    if station.kind in ("strings", "old modules"):
        figures = _counted(station, style)
    if station.kind == "controller":
        figures = _set(station, style)
    return (station.name, *figures, *([station.note] if station.note else []))


def _set(station: Station, style: Style) -> list[str]:
    """What a controller is set to and its limit, in one breath."""
    found = {rating.what: rating for rating in station.ratings}
    to = found.get("set to")
    if to is None:
        return [rating_words(rating, style) for rating in station.ratings]
    most = found["charges"].value or 0.0
    others = [rating_words(one, style) for one in station.ratings if one.what not in ("charges", "set to")]  # fmt: skip
    return [*others, f"{rating_words(to, style).rpartition(NEVER_PART)[0]} of {number(most)}{NEVER_PART}A"]  # fmt: skip


def _counted(station: Station, style: Style) -> list[str]:
    """Counts of modules and strings in one breath."""
    counts = [rating for rating in station.ratings if rating.unit == ""]
    others = [rating_words(rating, style) for rating in station.ratings if rating.unit != ""]
    if not counts:
        return others
    series = number(counts[0].value or 0.0)
    if station.kind == "strings":
        return [f"each {series} x {others[0].rpartition(' ')[2]}", *others[1:]]
    count = counts[1].value or 0.0
    return [f"{number(count)} string{'s' if count > 1.0 else ''} of {series}", *others]


def one_line_words(data: OneLine, style: Style) -> str:
    """The whole drawing in words, for those who do not see it."""
    told = "; ".join(", ".join(station_words(station, style)) for station in data.stations)
    return (
        f"From the pole to the battery: {told}. Earth wire {data.earth_size} copper all along. Neutral and earth meet in one place "
        f"only, drawn at the {data.station(data.neutral_bond_at).name}: ask the makers of inverter and engine where it is."
    )


@lru_cache(maxsize=1024)
def _wrapped(said: str, most: int) -> tuple[str, ...]:
    """Measured once for the room it takes, and again when it is written."""
    return tuple(wrap(said, most, break_long_words=True))


@dataclass(slots=True)
class _Pen:
    """Lines first, symbols over them, words last."""

    ink: Ink
    size: float
    style: Style
    lines: list[str] = field(default_factory=list)
    signs: list[str] = field(default_factory=list)
    words: list[str] = field(default_factory=list)

    @property
    def step(self) -> float:
        """From one line of words to the next."""
        return self.size * 1.3

    def fitted(self, said: Sequence[str], width: float) -> list[tuple[str, bool]]:
        """Lines that fit, the first ones heavy."""
        room = width / (self.size * self.ink.letter)
        found: list[tuple[str, bool]] = []
        for nth, one in enumerate(said):
            heavy = nth == 0
            most = max(4, floor(room / (STRONG if heavy else 1.0)))
            found += [(part, heavy) for part in _wrapped(one, most)]
        return found

    def high(self, said: Sequence[str], width: float) -> float:
        """How much room they take."""
        return len(self.fitted(said, width)) * self.step

    def say(self, at: Point, said: Sequence[str], width: float, anchor: str = "start") -> float:
        """Words from a first baseline down; returns where the next would stand."""
        x, y = at
        for part, heavy in self.fitted(said, width):
            colour = self.ink.ink if heavy else self.ink.pencil
            self.words.append(
                text((x, y), part, colour, self.ink.face, self.size, anchor, "600" if heavy else None)
            )  # fmt: skip
            y += self.step
        return y

    def small(self, at: Point, said: str, anchor: str = "start") -> None:
        """A word in pencil."""
        self.words.append(text(at, said, self.ink.pencil, self.ink.face, self.size, anchor))

    def live(self, *points: Point) -> None:
        """Direct current."""
        self.lines.append(polyline(points, self.ink.ink, EDGE))

    def alternating(self, *points: Point) -> None:
        """Alternating current."""
        self.lines.append(polyline(points, self.ink.ink, EDGE, ALTERNATING_DASH))

    def earth(self, *points: Point) -> None:
        """The earth wire."""
        self.lines.append(polyline(points, self.ink.ink, EDGE, EARTH_DASH))

    def joint(self, at: Point) -> None:
        """A dot where lines are joined."""
        self.signs.append(tag("circle", cx=at[0], cy=at[1], r=3.0, fill=self.ink.ink))

    def sign(self, station: Station, at: Point, upright: bool = False) -> None:
        """Its symbol."""
        self.signs.append(symbol(station.kind, at, self.ink, upright))

    def ground(
        self,
        x1: float,
        x2: float,
        y: float,
        bare: Sequence[tuple[float, float]] = (),
        earth_over: bool = False,
    ) -> None:
        """The ground line with earth on one side of it, left bare where something must be read."""
        near = -8.0 if earth_over else 3.0
        self.lines.append(line((x1, y), (x2, y), self.ink.ink, HEAVY))
        strokes, x = [], x1 + 8.0
        while x < x2 - 14.0:
            if not any(a - 12.0 < x < b for a, b in bare):
                strokes += [f"M{x + at + 4.0:.2f} {y + near:.2f}l-4 5" for at in (0.0, 4.0, 8.0)]
            x += 26.0
        self.lines.append(
            tag("path", d="".join(strokes), fill="none", stroke=self.ink.pencil, stroke_width=0.8)
        )

    def all(self) -> list[str]:
        """In the order of drawing."""
        return [*self.lines, *self.signs, *self.words]


def one_line(
    data: OneLine, style: Style, ink: Ink, width: float = 1216.0, size: float = 13.0, name: str = ""
) -> str:
    """The one-line as SVG; as high as its words need.

    Args:
        data: What stands on it.
        style: Units of lengths.
        ink: Of the medium.
        width: Of the drawing [px]; under 640 it runs from top to bottom.
        size: Of the letters [px].
        name: Of the homestead.
    """
    pen = _Pen(ink, size, style)
    height = _down(data, pen, width) if width < NARROW_UNDER else _across(data, pen, width)
    foot = [f"{name + ', ' if name else ''}basis {data.code}. {CAUTION}"]
    room = width - 16.0
    pen.words += _plain(pen, (8.0, height + pen.step), foot, room)
    height += pen.step * (len(wrap(foot[0], floor(room / (size * ink.letter)))) + 0.6)
    title = f"One-line{' of ' + name if name else ''}: pole to battery"
    return drawing(width, ceil(height), "", pen.all(), title, one_line_words(data, style))


def _plain(pen: _Pen, at: Point, said: Sequence[str], width: float) -> Iterator[str]:
    """Words in pencil only."""
    x, y = at
    for one in said:
        for part in wrap(one, floor(width / (pen.size * pen.ink.letter))):
            yield text((x, y), part, pen.ink.pencil, pen.ink.face, pen.size)
            y += pen.step


# Across: the pole, the yard, the house.


@dataclass(frozen=True, slots=True)
class _Across:
    """Where things stand from left to right."""

    earth_x: float
    pole_x: float
    pole_end: float
    riser_x: float
    in_x: float
    bus_x: float
    engine_x: float
    bond_x: float
    left: tuple[tuple[float, float], ...]  # middle and width of each place left of the bus
    right: tuple[tuple[float, float], ...]


def _places(width: float, wall: bool) -> _Across:
    pole_end = 0.245 * width
    in_x = pole_end + (0.125 if wall else 0.07) * width
    riser_x = pole_end + 14.0 if wall else in_x
    bus_x = in_x + 0.595 * (width - in_x)
    engine_x, bond_x = width - 30.0, width - 14.0
    return _Across(
        24.0, 100.0, pole_end, riser_x, in_x, bus_x, engine_x, bond_x,
        _shared(in_x + 10.0, bus_x - 4.0, (1.26, 0.95, 0.95, 1.1, 0.95)), _shared(bus_x + 10.0, engine_x - 6.0, (1.0, 1.0, 1.0)),
    )  # fmt: skip


def _shared(start: float, end: float, parts: Sequence[float]) -> tuple[tuple[float, float], ...]:
    one, found = (end - start) / sum(parts), []
    for part in parts:
        found.append((start + part * one / 2.0, part * one))
        start += part * one
    return tuple(found)


@dataclass(frozen=True, slots=True)
class _Row:
    """One level of the house: what stands left of the bus and what right of it, by place."""

    left: dict[int, Station]
    right: dict[int, Station]


SURGE, SWITCH, BREAKER, CONTROLLER, BEHIND = range(5)  # places left of the bus


def _rows(data: OneLine) -> list[_Row]:
    """From the bottom up; the new array and the battery share the lowest."""
    left: list[dict[int, Station]] = [
        {
            SURGE: data.station("surge at the house"),
            SWITCH: data.station("house switch"),
            BREAKER: data.station("run breaker"),
            CONTROLLER: data.of_kind("controller")[0],
            BEHIND: data.station("controller breaker"),
        }
    ]
    left += [
        {SWITCH: _together(modules), CONTROLLER: data.station(key), BEHIND: data.station(data.after(key) or key)}
        if key != left[0][CONTROLLER].key
        else {SWITCH: _together(modules)}
        for key, modules in _old_by_controller(data).items()
    ]  # fmt: skip
    right: list[dict[int, Station]] = [
        dict(enumerate(data.station(k) for k in ("battery switch", "main fuse", "battery")))
    ]
    if data.of_kind("engine"):
        right.append({0: data.station("charger"), 2: data.station("engine")})
    between = dict(enumerate(data.of_kind("transfer switch"), start=1))
    right.append({0: data.station("inverter"), **between, 2: data.station("house")})
    levels = max(len(left), len(right))
    left += [{}] * (levels - len(left))
    right += [{}] * (levels - len(right))
    return [_Row(a, b) for a, b in zip(left, right, strict=True)]


def _wall_box(data: OneLine) -> Station | None:
    return next((station for station in data.stations if station.where == "wall"), None)


def _pole_chain(data: OneLine) -> list[Station]:
    """On the line from the strings down the pole, arrestor apart."""
    apart = ("strings", "surge arrestor")
    return [s for s in data.stations if s.where == "pole" and s.kind not in apart]


def _old_by_controller(data: OneLine) -> dict[str, list[Station]]:
    found: dict[str, list[Station]] = {}
    for old in data.of_kind("old modules"):
        found.setdefault(data.after(old.key) or "", []).append(old)
    return found


def _together(modules: Sequence[Station]) -> Station:
    """Old arrays on one controller, drawn as one."""
    if len(modules) == 1:
        return modules[0]
    name = "old arrays " + ", ".join(one.name.removeprefix("old array ") for one in modules)
    watts = sum(r.value or 0.0 for one in modules for r in one.ratings if r.unit == "W")
    first = modules[0]
    return Station(first.key, first.kind, name, first.where, (Rating("", watts, "W"),), first.note)  # fmt: skip


def _house_words(data: OneLine, station: Station, style: Style) -> tuple[str, ...]:
    """As ``station_words``; the bond is told where it is."""
    words = station_words(station, style)
    if station.key == data.neutral_bond_at:
        words = (*words, "neutral to earth: ask")
    return words


def _across(data: OneLine, pen: _Pen, width: float) -> float:
    wall = _wall_box(data)
    at = _places(width, wall is not None)
    pole_bottom = _pole(data, pen, at)
    rows = _rows(data)
    heights = [_row_high(data, pen, at, row) for row in rows]
    if wall is not None:
        words = pen.high(station_words(wall, pen.style), _wall_room(at))
        heights[0] = max(heights[0], 2.0 * REACH + 10.0 + pen.step + words)
    house_top = pen.step * 2.2
    earth_y = max(house_top + sum(heights), pole_bottom - pen.step) + 6.0
    ys, y = [], earth_y
    for high in heights:
        y -= high
        ys.append(y + REACH + 8.0)
    ground_y = earth_y + pen.step * 2.1
    trench_y = ground_y + 46.0
    _house(data, pen, at, rows, ys, earth_y)
    if wall is not None:
        middle = at.riser_x + 12.0 + _wall_room(at) / 2.0
        pen.sign(wall, (middle, ys[0]))
        pen.say((middle, ys[0] + REACH + pen.step * 0.9), station_words(wall, pen.style), _wall_room(at), "middle")  # fmt: skip
    _frame(pen, at, width, pen.step * 0.5, ground_y)
    return _ground(data, pen, at, width, ground_y, trench_y, ys[0], earth_y)


def _wall_room(at: _Across) -> float:
    """Between the riser and the house."""
    return at.in_x - FRAME_OUT - 6.0 - at.riser_x - 12.0


def _frame(pen: _Pen, at: _Across, width: float, top: float, ground_y: float) -> None:
    x = at.in_x - FRAME_OUT
    pen.lines.append(
        polyline([(x, ground_y), (x, top), (width - 3.0, top), (width - 3.0, ground_y)], pen.ink.pencil, FINE, "8 3")
    )  # fmt: skip
    pen.small((x + 10.0, top + pen.size * 1.4), "in the house")
    pen.small((8.0, top + pen.size * 1.4), "on the pole")


def _pole(data: OneLine, pen: _Pen, at: _Across) -> float:
    """Modules on top, the line down to the box; returns where its words end."""
    x, words_x = at.pole_x, at.pole_x + 38.0
    room = at.pole_end - words_x
    y = pen.step * 4.4
    strings, count = data.station("strings"), len(data.strings)
    shown = min(count, SHOWN_STRINGS)
    xs = [x + (nth - (shown - 1) / 2.0) * 36.0 for nth in range(shown)]
    names = [*data.strings[: shown - 1], data.strings[-1]]
    joined = y + REACH + 14.0
    for sx, letter in zip(xs, names, strict=True):
        pen.live((sx, y), (sx, joined), (x, joined))
        pen.sign(strings, (sx, y), upright=True)
        pen.small((sx, y - REACH - 4.0), letter, "middle")
    if count > shown:
        pen.lines.append(line((xs[-2] + 16.0, y), (xs[-1] - 16.0, y), pen.ink.ink, EDGE, "1 4"))
    # Its frames' earth goes down the left.
    pen.earth((xs[0] - 11.0, y), (at.earth_x, y), (at.earth_x, joined))
    side = xs[-1] + 24.0
    end = pen.say((side, y - REACH + 6.0), station_words(strings, pen.style), at.pole_end - side)
    y = max(joined + 34.0, end + pen.size * 0.9)
    if count > 1:
        mark = joined + 10.0
        pen.lines.append(line((x - 6.0, mark + 5.0), (x + 6.0, mark - 5.0), pen.ink.ink, EDGE))
        pen.small((x - 10.0, mark + 5.0), str(count), "end")
        y = max(y, mark + 34.0)
    for station in _pole_chain(data):
        pen.sign(station, (x, y), upright=True)
        end = pen.say((words_x, y - pen.size * 0.6), station_words(station, pen.style), room)
        y = max(y + 2.0 * REACH + 16.0, end + pen.size * 0.9)
    surge = data.station("surge at the pole")
    middle = (at.earth_x + x) / 2.0
    pen.live((x, y), (middle, y))
    pen.earth((middle - REACH, y), (at.earth_x, y))
    pen.joint((x, y))
    pen.joint((at.earth_x, y))
    pen.signs.append(tag("g", symbol("surge arrestor", (0.0, 0.0), pen.ink), transform=f"translate({middle:.2f} {y:.2f}) rotate(180)"))  # fmt: skip
    end = pen.say((words_x - 20.0, y + pen.size * 0.35), station_words(surge, pen.style), room + 20.0)  # fmt: skip
    return max(end, y + 20.0)


def _row_high(data: OneLine, pen: _Pen, at: _Across, row: _Row) -> float:
    words = [pen.high(_house_words(data, s, pen.style), _room(at, s, at.left[n][1])) for n, s in row.left.items()]  # fmt: skip
    words += [pen.high(_house_words(data, s, pen.style), _room(at, s, at.right[n][1])) for n, s in row.right.items()]  # fmt: skip
    return 2.0 * REACH + 10.0 + pen.step + max(words, default=0.0)


def _room(at: _Across, station: Station, wide: float) -> float:
    """For its words: an arrestor's stand beside it, those of old modules may reach into the empty place at each side."""
    if station.kind == "surge arrestor":
        return wide - 34.0
    return 0.92 * (wide + at.left[BREAKER][1]) if station.kind == "old modules" else wide - 8.0


def _house(
    data: OneLine, pen: _Pen, at: _Across, rows: Sequence[_Row], ys: Sequence[float], earth_y: float
) -> None:
    """The rows of the house, its bus and its earth bar."""
    main_y = ys[0]
    for row, y in zip(rows, ys, strict=True):
        for nth, station in row.left.items():
            _standing(data, pen, at, at.left[nth], station, y, earth_y)
        for nth, station in row.right.items():
            _standing(data, pen, at, at.right[nth], station, y, earth_y)
    joins = [main_y]
    pen.live((at.riser_x, main_y), (at.right[2][0], main_y))
    for row, y in list(zip(rows, ys, strict=True))[1:]:
        if BEHIND in row.left:
            pen.live((at.left[SWITCH][0], y), (at.bus_x, y))
            joins.append(y)
        elif SWITCH in row.left:  # hangs on the new array's controller
            edge = at.left[BREAKER][0] + at.left[BREAKER][1] / 2.0
            pen.live((at.left[SWITCH][0], y), (edge, y), (edge, main_y))
            pen.joint((edge, main_y))
        if row.right:
            pen.live((at.bus_x, y), (at.right[0][0], y))
            pen.alternating((at.right[0][0] + REACH, y), (at.right[2][0], y))
            joins.append(y)
    pen.lines.append(line((at.bus_x, min(joins) - 12.0), (at.bus_x, main_y + 12.0), pen.ink.ink, 4.0))  # fmt: skip
    pen.small((at.bus_x - 8.0, min(joins) - 17.0), "battery bus", "end")
    _engine_and_bond(data, pen, at, rows, ys, earth_y)
    pen.earth((at.in_x - 12.0, earth_y), (at.bond_x, earth_y))
    bar = f"main earth bar: {data.station('earth-bar').note}"
    pen.small((at.in_x + 10.0, earth_y + pen.size * 1.35), bar)


def _standing(
    data: OneLine,
    pen: _Pen,
    at: _Across,
    place: tuple[float, float],
    station: Station,
    y: float,
    earth_y: float,
) -> None:
    """A station on its row with its words under it; an arrestor hangs from the row to the earth bar."""
    x, wide = place
    words = _house_words(data, station, pen.style)
    if station.kind == "surge arrestor":
        x -= wide / 2.0 - 16.0
        pen.joint((x, y))
        pen.live((x, y), (x, y + 2.0 * REACH))
        pen.earth((x, y + 2.0 * REACH), (x, earth_y))
        pen.joint((x, earth_y))
        pen.sign(station, (x, y + 2.0 * REACH), upright=True)
        pen.say((x + 14.0, y + REACH + pen.step * 0.9), words, _room(at, station, wide))
        return
    pen.sign(station, (x, y))
    pen.say((x, y + REACH + pen.step * 0.9), words, _room(at, station, wide), "middle")


def _engine_and_bond(
    data: OneLine, pen: _Pen, at: _Across, rows: Sequence[_Row], ys: Sequence[float], earth_y: float
) -> None:
    y_of = {s.key: y for row, y in zip(rows, ys, strict=True) for s in row.right.values()}
    house_x, house_y = at.right[2][0], y_of["house"]
    if "engine" in y_of:
        over, change_x = house_y - REACH - 5.0, at.right[1][0]
        into = [(change_x, house_y - 6.0), (change_x, over), (at.engine_x, over)]
        if "transfer switch" not in y_of:
            into = [(house_x, house_y + 8.0), (at.engine_x, house_y + 8.0)]
        pen.alternating(*into, (at.engine_x, y_of["engine"]), (house_x, y_of["engine"]))
    bond = data.neutral_bond_at
    if bond == "inverter":
        x = at.right[0][0] + at.right[0][1] / 2.0
        start = (at.right[0][0] + REACH, y_of[bond] + 12.0)
    else:
        x, half = at.bond_x, 14.0 if bond == "house" else 12.0
        start = (house_x + half, y_of[bond] - 10.0)
    pen.joint(start)
    pen.earth(start, (x, start[1]), (x, earth_y))
    pen.joint((x, earth_y))


def _ground(
    data: OneLine,
    pen: _Pen,
    at: _Across,
    width: float,
    ground_y: float,
    trench_y: float,
    main_y: float,
    earth_y: float,
) -> float:
    """The buried run, its earth wire, both electrodes; returns where the words end."""
    run, size = data.station("run"), pen.size
    told_x, cover_x = at.pole_end - 0.02 * width, at.pole_end - 0.115 * width
    shown = dimension(data.cover_m, pen.style)
    wide = len(shown) * size * pen.ink.letter
    pen.ground(0.0, width, ground_y, [(cover_x - 8.0, cover_x + wide + 18.0)])
    earth_wire_y = trench_y + 9.0
    # The line comes down the pole, runs in the trench and rises at the house.
    pen.live((at.pole_x, pen.step * 4.4 + REACH + 14.0), (at.pole_x, trench_y), (at.riser_x, trench_y), (at.riser_x, main_y))  # fmt: skip
    pen.earth((at.earth_x, pen.step * 4.4 + REACH + 14.0), (at.earth_x, earth_wire_y), (at.in_x - 12.0, earth_wire_y), (at.in_x - 12.0, earth_y))  # fmt: skip
    pen.joint((at.in_x - 12.0, earth_y))
    pen.joint((at.earth_x, earth_wire_y))
    pen.lines += _cover(pen, cover_x, ground_y, trench_y)
    pen.small((cover_x + 8.0, (ground_y + trench_y) / 2.0 + size * 0.45), shown)
    pole_rod, house_rod = data.station("electrode"), data.station("house-electrode")
    rod_y = earth_wire_y + 22.0
    pen.earth((at.earth_x, earth_wire_y), (at.earth_x, rod_y - 8.0))
    pen.sign(pole_rod, (at.earth_x, rod_y))
    words_y = rod_y + size * 0.4
    ends = [pen.say((at.earth_x + 22.0, words_y), station_words(pole_rod, pen.style), at.pole_end - at.earth_x - 50.0)]  # fmt: skip
    house_y = ground_y + 26.0
    pen.earth((at.bus_x, earth_y), (at.bus_x, house_y - 8.0))
    pen.joint((at.bus_x, earth_y))
    pen.sign(house_rod, (at.bus_x, house_y))
    ends.append(pen.say((at.bus_x + 22.0, house_y + size * 0.9), station_words(house_rod, pen.style), width - at.bus_x - 30.0))  # fmt: skip
    told = (
        f"{run.name}, {rating_words(run.ratings[0], pen.style)}",
        f"{run.note}, {shown} of cover; earth wire {data.earth_size} copper beside it, all the way from the frames to the bar",
    )
    ends.append(pen.say((told_x, words_y), told, at.bus_x - told_x - 30.0))
    return max(*ends, rod_y + 12.0)


def _cover(pen: _Pen, x: float, top: float, bottom: float) -> Iterator[str]:
    """The cover as a dimension with its two ticks."""
    yield line((x, top), (x, bottom), pen.ink.pencil, FINE)
    for y in (top, bottom):
        yield line((x - 3.5, y + 3.5), (x + 3.5, y - 3.5), pen.ink.pencil, FINE)


# Down: the same from top to bottom, for a narrow page.


@dataclass(slots=True)
class _Column:
    """A line downwards with its words at the right."""

    pen: _Pen
    x: float
    words_x: float
    room: float
    y: float

    def stand(self, station: Station, words: Sequence[str], on_line: bool = True) -> float:
        """One station; returns the height of its symbol."""
        at_y = self.y
        if on_line:
            self.pen.sign(station, (self.x, at_y), upright=True)
        end = self.pen.say((self.words_x, at_y - self.pen.size * 0.4), words, self.room)
        self.y = max(at_y + 2.0 * REACH + 14.0, end + REACH * 0.7)
        return at_y


DOWN_EARTH_X, DOWN_X, DOWN_WORDS_X = 14.0, 54.0, 92.0
BRANCH_X, BRANCH_WORDS_X = 88.0, 122.0


def _down(data: OneLine, pen: _Pen, width: float) -> float:
    column = _Column(pen, DOWN_X, DOWN_WORDS_X, width - DOWN_WORDS_X - 8.0, pen.step * 1.2)
    pen.small((DOWN_WORDS_X, column.y), "on the pole")
    column.y += REACH + pen.step
    top = column.y
    first, last = data.strings[0], data.strings[-1]
    letters = first if first == last else f"{first} to {last}" if len(data.strings) > 2 else f"{first}, {last}"  # fmt: skip
    strings = data.station("strings")
    column.stand(strings, (f"{strings.name} {letters}", *station_words(strings, pen.style)[1:]))
    pen.earth((DOWN_X - 11.0, top), (DOWN_EARTH_X, top))
    for station in _pole_chain(data):
        column.stand(station, station_words(station, pen.style))
    _tap(data, pen, column, "pole")
    _into_the_ground(data, pen, column, width)
    _tap(data, pen, column, "house")
    for key in ("house switch", "run breaker", data.of_kind("controller")[0].key, "controller breaker"):  # fmt: skip
        at_y = column.stand(data.station(key), station_words(data.station(key), pen.style))
        if key.startswith("controller-"):
            _shared_controller(data, pen, column, key, at_y)
    bus_y = column.y
    pen.small((DOWN_WORDS_X, bus_y + pen.size * 0.35), "battery bus")
    pen.live((DOWN_X, top), (DOWN_X, bus_y))
    column.y += REACH + pen.step
    rail_end = _branches(data, pen, column, width)
    pen.lines.append(line((DOWN_X, bus_y), (DOWN_X, rail_end), pen.ink.ink, 4.0))
    bar_y = column.y
    pen.signs.append(symbol("earth bar", (DOWN_EARTH_X + 8.0, bar_y), pen.ink))
    bar = data.station("earth-bar")
    column.stand(bar, station_words(bar, pen.style), on_line=False)
    rod = data.station("house-electrode")
    rod_y = column.y
    pen.sign(rod, (DOWN_EARTH_X, rod_y))
    column.stand(rod, station_words(rod, pen.style), on_line=False)
    pen.earth((DOWN_EARTH_X, top), (DOWN_EARTH_X, rod_y - 10.0))
    return column.y


def _tap(data: OneLine, pen: _Pen, column: _Column, where: str) -> None:
    """An arrestor between the line and the earth wire."""
    surge = data.station(f"surge at the {where}")
    y, middle = column.y, (DOWN_EARTH_X + DOWN_X) / 2.0
    pen.signs.append(tag("g", symbol("surge arrestor", (0.0, 0.0), pen.ink), transform=f"translate({middle:.2f} {y:.2f}) rotate(180)"))  # fmt: skip
    pen.joint((DOWN_X, y))
    pen.joint((DOWN_EARTH_X, y))
    column.stand(surge, station_words(surge, pen.style), on_line=False)


def _into_the_ground(data: OneLine, pen: _Pen, column: _Column, width: float) -> None:
    """Down through the ground line, along the run, and up again in the house."""
    pen.ground(0.0, width, column.y)
    column.y += 14.0 + pen.step
    pen.small((DOWN_WORDS_X, column.y), "in the ground")
    column.y += pen.step * 1.6
    rod = data.station("electrode")
    y = column.y
    pen.earth((DOWN_EARTH_X, y), (DOWN_EARTH_X + 18.0, y))
    pen.joint((DOWN_EARTH_X, y))
    pen.signs.append(symbol("electrode", (DOWN_EARTH_X + 18.0, y + 10.0), pen.ink))
    column.stand(rod, station_words(rod, pen.style), on_line=False)
    run = data.station("run")
    words = (*station_words(run, pen.style), f"earth wire {data.earth_size} copper beside it, all the way")  # fmt: skip
    column.stand(run, words, on_line=False)
    pen.ground(0.0, width, column.y, earth_over=True)
    column.y += 14.0 + pen.step
    wall = _wall_box(data)
    if wall is not None:
        column.y += REACH
        column.stand(wall, station_words(wall, pen.style))
    pen.small((DOWN_WORDS_X, column.y), "in the house")
    column.y += pen.step * 1.8


def _shared_controller(data: OneLine, pen: _Pen, column: _Column, key: str, at_y: float) -> None:
    """Old arrays that hang on the new one's controller are told in words beside it."""
    for old in _old_by_controller(data).get(key, []):
        words = (f"{old.name} joins here", *station_words(old, pen.style)[1:])
        column.y = max(column.y, at_y + 2.0 * REACH + 14.0)
        column.stand(old, words, on_line=False)


def _branches(data: OneLine, pen: _Pen, column: _Column, width: float) -> float:
    """What hangs on the bus, one branch under the other; returns where the last one leaves it."""
    branches: list[list[Station]] = [
        [data.station(key) for key in ("battery switch", "main fuse", "battery")],
        [data.station("inverter"), *data.of_kind("transfer switch"), data.station("house")],
    ]
    if data.of_kind("engine"):
        branches.append([data.station("charger"), data.station("engine")])
    for key, modules in _old_by_controller(data).items():
        if key != data.of_kind("controller")[0].key:
            branches.append([data.station(data.after(key) or key), data.station(key), _together(modules)])  # fmt: skip
    leaves = column.y
    for branch in branches:
        lane = _Column(pen, BRANCH_X, BRANCH_WORDS_X, width - BRANCH_WORDS_X - 8.0, column.y)
        leaves = lane.y - REACH - 8.0
        pen.joint((DOWN_X, leaves))
        past = (DOWN_X, leaves)
        for station in branch:
            words = _house_words(data, station, pen.style)
            if station.kind == "engine":
                words = (*words, "and to the transfer switch" if data.of_kind("transfer switch") else "and straight to the house board")  # fmt: skip
            y = lane.stand(station, words)
            draw = (
                pen.alternating
                if station.kind in ("house", "engine", "transfer switch")
                else pen.live
            )
            draw(past, (BRANCH_X, past[1]), (BRANCH_X, y))
            past = (BRANCH_X, y)
            if station.key == data.neutral_bond_at:
                pen.joint((BRANCH_X - 14.0, y))
                pen.earth((BRANCH_X - 14.0, y), (DOWN_EARTH_X, y))
                pen.joint((DOWN_EARTH_X, y))
        column.y = lane.y + 8.0
    return leaves
