"""Hatches: earth, concrete, gravel, sand, cut steel; each drawing puts its own name before theirs."""

from __future__ import annotations

from collections.abc import Sequence

from polestead.sheets.clip import Segment
from polestead.sheets.drawn.board import strokes
from polestead.sheets.svg import Ink, tag

TILE = 44.0
HATCHED = 9.0  # how far under the ground line its strokes are in the way of words
DOTS = ((5.0, 7.0), (17.0, 31.0), (29.0, 14.0), (38.0, 37.0), (11.0, 20.0), (24.0, 40.0), (40.0, 5.0), (33.0, 25.0), (3.0, 36.0))  # fmt: skip
STONES = ((13.0, 11.0), (35.0, 33.0), (22.0, 22.0), (8.0, 29.0))  # little triangles
PEBBLES = ((5.0, 5.0, 4.2), (15.0, 4.6, 4.6), (25.4, 5.4, 4.0), (9.8, 12.4, 4.4), (20.4, 12.6, 4.4), (30.0, 12.4, 3.6))  # fmt: skip


def _pattern(name: str, wide: float, high: float, body: str) -> str:
    return tag("pattern", body, id=name, width=wide, height=high, patternUnits="userSpaceOnUse")


def concrete(name: str, ink: Ink) -> str:
    """A scatter of dots and small triangles."""
    dots = tag("path", d="".join(f"M{x:g} {y:g}h0" for x, y in DOTS), fill="none", stroke=ink.pencil, stroke_width=1.6, stroke_linecap="round")  # fmt: skip
    stones = tag("path", d="".join(f"M{x:g} {y:g}l4.4 .6l-2.5 3.6z" for x, y in STONES), fill="none", stroke=ink.pencil, stroke_width=0.6)  # fmt: skip
    return _pattern(name, TILE, TILE, dots + stones)


def gravel(name: str, ink: Ink) -> str:
    """Round stones."""
    return _pattern(name, 33.0, 17.0, "".join(tag("ellipse", cx=x, cy=y, rx=r, ry=r * 0.72, fill="none", stroke=ink.pencil, stroke_width=0.8) for x, y, r in PEBBLES))  # fmt: skip


def sand(name: str, ink: Ink) -> str:
    """Sparse dots, nine apart."""
    return _pattern(name, 9.0, 9.0, tag("path", d="M2.5 2.5h0M7 7h0", fill="none", stroke=ink.pencil, stroke_width=1.3, stroke_linecap="round"))  # fmt: skip


def steel(name: str, ink: Ink, gap: float = 4.0) -> str:
    """Cut steel: lines at 45 degrees, near together."""
    ways: list[Segment] = [((-gap, gap), (gap, -gap)), ((0.0, 2 * gap), (2 * gap, 0.0)), ((gap, 3 * gap), (3 * gap, gap))]  # fmt: skip
    return _pattern(name, 2 * gap, 2 * gap, strokes(ways, ink.pencil, 0.7))


def by_hand(name: str, ink: Ink) -> str:
    """Where only a spade digs: lines at 45 degrees, wide apart."""
    return _pattern(name, 8.0, 8.0, strokes([((-2.0, 10.0), (10.0, -2.0)), ((-2.0, 2.0), (2.0, -2.0)), ((6.0, 10.0), (10.0, 6.0))], ink.pencil, 0.7))  # fmt: skip


def ground(ink: Ink, x1: float, x2: float, y: float, bare: Sequence[tuple[float, float]] = ()) -> list[str]:  # fmt: skip
    """The ground line with groups of three strokes under it, left bare between given edges."""
    pieces, at = [], x1
    for left, right in sorted(bare):
        pieces.append(((at, y), (left, y)))
        at = right
    pieces.append(((at, y), (x2, y)))
    marks: list[Segment] = []
    x = x1 + 6.0
    while x < x2 - 12.0:
        if not any(left - 20.0 < x < right + 2.0 for left, right in bare):
            marks += [((x + 8.0 + 4.0 * n, y + 3.0), (x + 4.0 * n, y + 11.0)) for n in range(3)]
        x += 34.0
    return [strokes(pieces, ink.ink, 2.5), strokes(marks, ink.pencil, 0.7)]


def banks(ink: Ink, x: float, y1: float, y2: float, left: bool) -> list[str]:
    """Soil beside a hole: groups of three strokes along its side."""
    marks: list[Segment] = []
    y, side = y1 + 14.0, -11.0 if left else 3.0
    while y < y2 - 10.0:
        marks += [((x + side, y + 8.0 + 4.0 * n), (x + side + 8.0, y + 4.0 * n)) for n in range(3)]
        y += 34.0
    return [strokes(marks, ink.pencil, 0.7)]
