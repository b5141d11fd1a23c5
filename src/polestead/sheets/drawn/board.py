"""The drawing board: lines in order of weight, words where they touch neither one another nor the frame."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from itertools import pairwise
from math import cos, hypot, inf, radians, sin
from textwrap import wrap

from polestead.sheets.clip import Box, Segment, crosses
from polestead.sheets.svg import Ink, Point, drawing, polygon, polyline, tag, text

Room = tuple[
    float, float, float, float
]  # width, over and under the first base line, from there to the last
Bounds = tuple[float, float, float, float, bool, Segment]  # of a line; whether it slants; the line
HEAVY = 1.12  # of a heavy letter's width over a plain one's
CUT, EDGE, FINE, THIN = 2.5, 1.5, 1.0, 0.8
HIDDEN_DASH, CENTRE_DASH, GHOST_DASH = "8 3", "12 3 2 3", "5 3"
ROOM = 5.0  # kept free between words
ROW = 32.0  # of the board, for finding lines near words
UP, DOWN = 0.76, 0.24  # of the letters' size over and under the base line
NOTE_RINGS = (16.0, 30.0, 48.0, 70.0, 96.0, 126.0, 160.0, 200.0)
RAIL_PLACES = 16
LONGEST = 27  # letters in a line of a note
PATCHED = re.compile(r'data-words="(\d+)"')
WAYS = tuple(
    (cos(radians(way)), sin(radians(way)), "middle" if way in (90, 270) else "end" if 90 < way < 270 else "start")
    for way in range(0, 360, 30)
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class View:
    """From metres to the board: z up, x to the right."""

    scale: float
    origin: Point

    def at(self, x_m: float, z_m: float) -> Point:
        """A point of the thing drawn."""
        return self.origin[0] + x_m * self.scale, self.origin[1] - z_m * self.scale


@dataclass(slots=True)
class Board:
    """One drawing in the making.

    Attributes:
        width, height: Of the drawing.
        ink: Colours and face of the medium.
        size: Of its letters.
        under: Fills and hatches.
        lines: Everything inked.
        words: Letters, last of all.
        taken: Boxes of the words that stand.
        inked: Lines words keep off where they can.
        told: What the drawing says, for those who do not see it.
        late: Words that found no room; they stand at the foot.
        thin, slashes: Dimension lines and their ends, drawn as one stroke each.
        rows: Bounds of the inked lines, by the rows of the board they lie in.
        bound: How many of them stand there.
    """

    width: float
    height: float
    ink: Ink
    size: float
    under: list[str] = field(default_factory=list)
    lines: list[str] = field(default_factory=list)
    words: list[str] = field(default_factory=list)
    taken: list[Box] = field(default_factory=list)
    inked: list[Segment] = field(default_factory=list)
    told: list[str] = field(default_factory=list)
    late: list[str] = field(default_factory=list)
    thin: list[Segment] = field(default_factory=list)
    slashes: list[Segment] = field(default_factory=list)
    rows: dict[int, list[Bounds]] = field(default_factory=dict)
    bound: int = 0

    @property
    def step(self) -> float:
        """From one line of words to the next."""
        return self.size * 1.28

    def wide(self, words: str, heavy: bool = False, size: float | None = None) -> float:
        """How wide words stand, by the mean letter of the face."""
        return len(words) * (size or self.size) * self.ink.letter * (HEAVY if heavy else 1.0)

    def edge(self, points: Sequence[Point], weight: float = EDGE, dash: str | None = None, colour: str = "", closed: bool = False, keep_off: bool = True) -> None:  # fmt: skip
        """A line through points that words keep off."""
        way = [*points, points[0]] if closed else list(points)
        colour = colour or self.ink.ink
        self.lines.append(polygon(points, "none", colour, weight, dash) if closed else polyline(way, colour, weight, dash))  # fmt: skip
        if keep_off:
            self.inked += list(pairwise(way))

    def hidden(self, points: Sequence[Point], closed: bool = False) -> None:
        """What lies behind."""
        self.edge(points, FINE, HIDDEN_DASH, closed=closed)

    def centre(self, a: Point, b: Point) -> None:
        """A centre line."""
        self.edge((a, b), THIN, CENTRE_DASH, self.ink.pencil)

    def ghost(self, points: Sequence[Point], closed: bool = True) -> None:
        """Where it may stand as well."""
        self.edge(points, FINE, GHOST_DASH, self.ink.pencil, closed)

    def circle(self, at: Point, radius: float, weight: float = EDGE, fill: str = "none", dash: str | None = None, colour: str = "") -> None:  # fmt: skip
        """A round."""
        self.lines.append(tag("circle", cx=at[0], cy=at[1], r=float(radius), fill=fill, stroke=colour or self.ink.ink, stroke_width=weight, stroke_dasharray=dash))  # fmt: skip
        ring = [(at[0] + radius * cos(radians(t)), at[1] + radius * sin(radians(t))) for t in range(0, 361, 45)]  # fmt: skip
        self.inked += list(pairwise(ring))

    def fill(self, points: Sequence[Point], pattern: str = "") -> None:
        """A bare field, and a hatch on it."""
        self.under.append(polygon(points, self.ink.paper))
        if pattern:
            self.under.append(polygon(points, f"url(#{pattern})"))

    def box(self, at: Point, said: Sequence[str], anchor: str = "start", heavy: bool = False, size: float | None = None) -> Box:  # fmt: skip
        """What lines of words would take, the first base line at the point."""
        return boxed(self.room(said, heavy, size), at, anchor)

    def room(self, said: Sequence[str], heavy: bool = False, size: float | None = None) -> Room:
        """What lines of words take, wherever they stand."""
        high = size or self.size
        wide = max(map(len, said)) * high * self.ink.letter * (HEAVY if heavy else 1.0)
        return wide, high * UP, high * DOWN, (len(said) - 1) * high * 1.28

    def free(self, box: Box) -> bool:
        """Whether words may stand there."""
        left, top, right, bottom = box
        if left < 2.0 or top < 2.0 or right > self.width - 2.0 or bottom > self.height - 2.0:
            return False
        left, top, right, bottom = left - ROOM, top - 1.0, right + ROOM, bottom + 1.0
        for x1, y1, x2, y2 in self.taken:
            if left < x2 and right > x1 and top < y2 and bottom > y1:
                return False
        return True

    def crossings(self, box: Box, most: float = inf) -> int:
        """How many lines run through it; no further than to so many."""
        if self.bound < len(self.inked):
            self._bound()
        left, top, right, bottom = box
        first, found = int(top // ROW), 0
        for row in range(first, int(bottom // ROW) + 1):
            start = (
                row * ROW if row > first else -inf
            )  # a line over several rows is counted where it and the box first meet
            for x1, y1, x2, y2, slants, one in self.rows.get(row, ()):
                if x1 <= right and x2 >= left and y1 <= bottom and y2 >= top and y1 >= start and (not slants or crosses(one, box)):  # fmt: skip
                    found += 1
                    if found >= most:
                        return found
        return found

    def _bound(self) -> None:
        """Bounds of what was inked since, by the rows of the board they lie in."""
        for one in self.inked[self.bound :]:
            (ax, ay), (bx, by) = one
            x1, x2 = (ax, bx) if ax < bx else (bx, ax)
            y1, y2 = (ay, by) if ay < by else (by, ay)
            line = (x1, y1, x2, y2, x1 != x2 and y1 != y2, one)
            for row in range(int(y1 // ROW), int(y2 // ROW) + 1):
                self.rows.setdefault(row, []).append(line)
        self.bound = len(self.inked)

    def fine(self, a: Point, b: Point) -> None:
        """A thin line in pencil, of a dimension or a leader."""
        self.thin.append((a, b))
        self.inked.append((a, b))

    def cuts_words(self, way: Segment) -> int:
        """How many words a line would run through."""
        (ax, ay), (bx, by) = way
        x1, x2 = (ax, bx) if ax < bx else (bx, ax)
        y1, y2 = (ay, by) if ay < by else (by, ay)
        found = 0
        for box in self.taken:
            if x1 <= box[2] and x2 >= box[0] and y1 <= box[3] and y2 >= box[1] and crosses(way, box):  # fmt: skip
                found += 1
        return found

    def say(self, at: Point, said: Sequence[str], anchor: str = "start", colour: str = "", heavy: bool = False, size: float | None = None) -> Box:  # fmt: skip
        """Words that stand where they are told to; a bare patch behind them where they cross a line."""
        box = self.box(at, said, anchor, heavy, size)
        self.taken.append(box)
        high = size or self.size
        for nth, one in enumerate(said):
            shade = colour or (self.ink.ink if nth == 0 else self.ink.pencil)
            self.words.append(text((at[0], at[1] + nth * high * 1.28), one, shade, self.ink.face, high, anchor, "600" if heavy else None))  # fmt: skip
        return box

    def note(self, target: Point, said: Sequence[str], spots: Iterable[tuple[Point, str]] = (), heavy: bool = False, lead: bool = True, most: int = 0) -> None:  # fmt: skip
        """Words near a thing with a leader to it: the wanted spots first, then rings about it, the one that disturbs least."""
        said = [part for one in said for part in wrapped(one, most or LONGEST)]
        room = self.room(said, heavy)
        best: tuple[float, Point, str] | None = None
        for bonus, at, anchor in self._spots(target, spots):
            if best is not None and best[0] <= bonus:
                break  # what follows lies farther
            box = boxed(room, at, anchor)
            if not self.free(box):
                continue
            way = (_nearest(box, target), target)
            far = abs(way[0][0] - target[0]) + abs(way[0][1] - target[1])
            cost = bonus + 0.02 * far
            if best is not None and cost >= best[0]:
                continue
            cost += 12.0 * self.crossings(box, inf if best is None else (best[0] - cost) / 12.0)
            if best is not None and cost >= best[0]:
                continue
            if lead:
                cost += 40.0 * self.cuts_words(way)
                cost += 1.5 * self._cut(way) if best is None or cost < best[0] else 0.0
            if best is None or cost < best[0]:
                best = (cost, at, anchor)
        if best is None:
            return self._at_the_foot(said)
        box = self.say(best[1], said, best[2], heavy=heavy)
        start = _nearest(box, target)
        if lead and hypot(start[0] - target[0], start[1] - target[1]) > 4.0:
            self.fine(start, target)
        if lead:
            self.lines.append(tag("circle", cx=target[0], cy=target[1], r=1.8, fill=self.ink.pencil))  # fmt: skip
        return None

    def _cut(self, lead: Segment) -> int:
        """How many lines a leader would cross."""
        (ax, ay), (bx, by) = lead
        left, right = (ax, bx) if ax < bx else (bx, ax)
        top, bottom = (ay, by) if ay < by else (by, ay)
        if self.bound < len(self.inked):
            self._bound()
        first, found = int(top // ROW), 0
        for row in range(first, int(bottom // ROW) + 1):
            start = row * ROW if row > first else -inf
            for x1, y1, x2, y2, _, one in self.rows.get(row, ()):
                if x1 <= right and x2 >= left and y1 <= bottom and y2 >= top and y1 >= start and _meet(lead, one):  # fmt: skip
                    found += 1
        return found

    def _spots(self, target: Point, wanted: Iterable[tuple[Point, str]]) -> Iterator[tuple[float, Point, str]]:  # fmt: skip
        """Wanted places, then rings about the thing; the first figure is the least it costs to stand there."""
        for nth, (at, anchor) in enumerate(wanted):
            yield 2.0 * nth, at, anchor
        for far in NOTE_RINGS:
            for dx, dy, anchor in WAYS:
                yield 30.0 + far * 0.25, (target[0] + far * dx, target[1] + far * dy), anchor

    def rail(self, y: float, right: bool = True) -> list[tuple[Point, str]]:
        """Places for a note on a rail at one side, the nearest to a height first."""
        x = self.width - self.rail_wide if right else 8.0
        count, about = int(self.height / self.size), int(y / self.size)
        first = max(0, min(about - RAIL_PLACES - 2, count - 2 * RAIL_PLACES - 4))
        near = range(first, min(count, first + 2 * RAIL_PLACES + 4))
        rows = sorted((self.size * (1.2 + nth) for nth in near), key=lambda at: abs(at - y))
        return [((x, at), "start") for at in rows[:RAIL_PLACES]]

    @property
    def lane(self) -> float:
        """From a thing to an upright dimension line whose figure keeps off it."""
        return self.wide("10′-10 1/16″", True) / 2.0 + 7.0

    @property
    def rail_wide(self) -> float:
        """Of a rail for notes."""
        return LONGEST * self.size * self.ink.letter + 8.0

    def _at_the_foot(self, said: Sequence[str]) -> None:
        """No room: the words stand in the list under the drawing."""
        self.late.append(", ".join(said))

    def foot(self, said: Iterable[str]) -> None:
        """Lines of words under the drawing, broken to its width; what found no room in it first."""
        most = int((self.width - 16.0) / (self.size * self.ink.letter))
        late, self.late = self.late, []
        for one in (*late, *said):
            for part in wrapped(one, most):
                self.height += self.step
                self.say((8.0, self.height - self.size * 0.6), (part,), colour=self.ink.pencil)

    @property
    def lowest(self) -> float:
        """Foot of the lowest words that stand."""
        return max((box[3] for box in self.taken), default=0.0)

    def svg(self, defs: str, title: str) -> str:
        """The finished drawing."""
        self.foot(())
        self.told = [one for one in self.told if one]
        covers = [box for box in self.taken if self.crossings(box, 1.0)]
        bare = "".join(f"M{x1 - 1.5:.1f} {y1:.1f}H{x2 + 1.5:.1f}V{y2:.1f}H{x1 - 1.5:.1f}Z" for x1, y1, x2, y2 in covers)  # fmt: skip
        body = [
            *self.under, *self.lines, strokes(self.thin, self.ink.pencil, THIN), strokes(self.slashes, self.ink.ink, 1.3),
            tag("path", d=bare, fill=self.ink.paper, data_words=len(covers)) if bare else "", *self.words,
        ]  # fmt: skip
        return drawing(self.width, self.height, defs, body, title, "; ".join(self.told) + ".")


def boxed(room: Room, at: Point, anchor: str) -> Box:
    """What words take that stand at a point."""
    (wide, over, under, down), (x, y) = room, at
    left = x if anchor == "start" else x - wide if anchor == "end" else x - wide / 2.0
    return left, y - over, left + wide, y + under + down


def patched(svg: str) -> int:
    """How many words of a finished drawing stand on a bare patch, over a line."""
    found = PATCHED.search(svg)
    return int(found.group(1)) if found else 0


def strokes(segments: Iterable[Segment], colour: str, weight: float) -> str:
    """Many straight lines as one element."""
    way = "".join(f"M{x1:.2f} {y1:.2f}L{x2:.2f} {y2:.2f}" for (x1, y1), (x2, y2) in segments)
    return tag("path", d=way, fill="none", stroke=colour, stroke_width=weight, stroke_linecap="round") if way else ""  # fmt: skip


def wrapped(words: str, most: int) -> list[str]:
    """Words broken into lines of at most so many letters."""
    return [words] if len(words) <= most else wrap(words, max(most, 8))


def _meet(one: Segment, two: Segment) -> bool:
    """Whether two lines cross."""
    ((ax, ay), (bx, by)), ((cx, cy), (dx, dy)) = one, two
    ux, uy, vx, vy = bx - ax, by - ay, dx - cx, dy - cy
    beside_one = (ux * (cy - ay) - uy * (cx - ax)) * (ux * (dy - ay) - uy * (dx - ax))
    return beside_one < 0.0 and (vx * (ay - cy) - vy * (ax - cx)) * (vx * (by - cy) - vy * (bx - cx)) < 0.0  # fmt: skip


def _nearest(box: Box, target: Point) -> Point:
    """Where a leader leaves the words: the middle of the side that looks at the thing."""
    left, top, right, bottom = box
    middle = (top + bottom) / 2.0
    if target[0] > right:
        return right + 3.0, middle
    if target[0] < left:
        return left - 3.0, middle
    return min(max(target[0], left), right), top - 1.0 if target[1] < top else bottom + 1.0
