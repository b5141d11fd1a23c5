"""Dimension lines: an architect's slash at each end, extension lines with a gap, the figure in a gap of its line."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise
from math import hypot

from polestead.base.show import Style, Way, dimension, set_out
from polestead.sheets.clip import Box, Segment, clipped
from polestead.sheets.drawn.board import WAYS, Board, boxed
from polestead.sheets.svg import Point

TICK = 3.6  # half the slash, each way
PAST = 5.0  # an extension line beyond its dimension line
GAP = 3.0  # from the thing to its extension line
LEAST_PIECE = 5.0  # of the dimension line on each side of its figure
PLACES = (0.5, 0.36, 0.64, 0.24, 0.76, 0.14, 0.86)
FAR_RINGS = tuple(20.0 * n for n in range(2, 16))
OFFS = (4.0, 12.0, 24.0, 38.0, 54.0, 72.0, 92.0)


def dimensioned(board: Board, a: Point, b: Point, words: str, of: tuple[Point, Point] | None = None, heavy: bool = False) -> None:  # fmt: skip
    """A dimension line from a to b.

    Args:
        board: The drawing.
        a: Where the dimension line begins.
        b: Where it ends.
        words: Its figure.
        of: The two points of the thing, where extension lines begin; None draws none.
        heavy: Whether the figure is heavy.
    """
    for at, end in zip(of or (), (a, b), strict=False):
        _extension(board, at, end)
    at, anchor, inside, start = _place(board, a, b, words, heavy)
    box = board.box(at, (words,), anchor, heavy)
    for piece in _pieces((a, b), _grown(box)) if inside else [(a, b)]:
        board.fine(*piece)
    if not inside:
        _reach(board, start, box)
    for end in (a, b):
        _slash(board, a, b, end)
    board.say(at, (words,), anchor, heavy=heavy)


def of_length(board: Board, a: Point, b: Point, metres: float, style: Style, of: tuple[Point, Point] | None = None, what: str = "", parts: int = 16, heavy: bool = True, mark: str = "", after: str = "", way: Way = "") -> None:  # fmt: skip
    """The same with a length for its figure, a mark before it and words after; what it is goes into the drawing's words; one of our own choosing is made round (``way``)."""
    figure = f"{mark}{dimension(set_out(metres, style, way), style, parts)}{after}"
    if what:
        board.told.append(f"{what} {figure}")
    dimensioned(board, a, b, figure, of, heavy)


def chain(board: Board, line_at: Sequence[Point], things: Sequence[Point], lengths_m: Sequence[float], style: Style, whats: Sequence[str]) -> None:  # fmt: skip
    """Dimensions end to end on one line.

    Args:
        board: The drawing.
        line_at: Points on the dimension line, one more than lengths.
        things: Where each extension line begins.
        lengths_m: From each point to the next.
        style: Whose units.
        whats: What each is.
    """
    for (a, b), of, metres, what in zip(pairwise(line_at), pairwise(things), lengths_m, whats, strict=True):  # fmt: skip
        of_length(board, a, b, metres, style, of, what)


def _grown(box: Box) -> Box:
    return box[0] - 3.0, box[1] - 1.0, box[2] + 3.0, box[3] + 1.0


def _extension(board: Board, at: Point, end: Point) -> None:
    far = hypot(end[0] - at[0], end[1] - at[1])
    if far < GAP + 1.0:
        return
    ux, uy = (end[0] - at[0]) / far, (end[1] - at[1]) / far
    start, stop = (at[0] + ux * GAP, at[1] + uy * GAP), (end[0] + ux * PAST, end[1] + uy * PAST)
    board.fine(start, stop)


def _slash(board: Board, a: Point, b: Point, end: Point) -> None:
    """A stroke at 45 degrees to the dimension line."""
    far = hypot(b[0] - a[0], b[1] - a[1]) or 1.0
    ux, uy = (b[0] - a[0]) / far, (b[1] - a[1]) / far
    tx, ty = TICK * (ux + uy), TICK * (uy - ux)
    board.slashes.append(((end[0] - tx, end[1] - ty), (end[0] + tx, end[1] + ty)))


def _pieces(way: Segment, box: Box) -> list[Segment]:
    """What is left of a line outside a box."""
    gone = clipped(way, box)
    if gone is None:
        return [way]
    return [piece for piece in ((way[0], gone[0]), (gone[1], way[1])) if piece[0] != piece[1]]


def _place(
    board: Board, a: Point, b: Point, words: str, heavy: bool
) -> tuple[Point, str, bool, Point]:
    """In a gap of the line; where that is too short, beyond an end or beside it."""
    drop = board.size * 0.26
    far = hypot(b[0] - a[0], b[1] - a[1]) or 1.0
    ux, uy = (b[0] - a[0]) / far, (b[1] - a[1]) / far
    room = board.room((words,), heavy)
    best: tuple[float, Point, str, bool, Point] | None = None
    for nth, share in enumerate(PLACES):
        at = (a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share + drop)
        box = boxed(room, at, "middle")
        gone = clipped((a, b), _grown(box))
        if gone is None:
            continue
        if best is not None and 2.0 * nth >= best[0]:
            break
        ends = [hypot(p[0] - q[0], p[1] - q[1]) for p, q in ((a, gone[0]), (gone[1], b))]
        if min(ends) < LEAST_PIECE or not board.free(box):
            continue
        cost = 14.0 * board.crossings(box) + 2.0 * nth
        if best is None or cost < best[0]:
            best = (cost, at, "middle", True, a)
        if cost < 1.0:
            break
    if best is None or best[0] > 60.0:
        other = _outside(board, a, b, (ux, uy), words, heavy)
        if other is not None and (best is None or other[0] < best[0]):
            best = (other[0], other[1], other[2], False, other[3])
    if best is None:
        return _far_off(board, ((a[0] + b[0]) / 2.0, (a[1] + b[1]) / 2.0), words, heavy)
    return best[1:]


def _far_off(board: Board, middle: Point, words: str, heavy: bool) -> tuple[Point, str, bool, Point]:  # fmt: skip
    """Anywhere free about the line, the nearest first; else in a line of its own under the drawing."""
    for far in FAR_RINGS:
        for dx, dy, anchor in WAYS:
            at = (middle[0] + far * dx, middle[1] + far * dy)
            if board.free(board.box(at, (words,), anchor, heavy)):
                return at, anchor, False, middle
    board.height += board.step
    return (8.0, board.height - board.size * 0.6), "start", False, (8.0, board.height)


def _outside(board: Board, a: Point, b: Point, way: Point, words: str, heavy: bool) -> tuple[float, Point, str, Point] | None:  # fmt: skip
    room = board.room((words,), heavy)
    best: tuple[float, Point, str, Point] | None = None
    for base, at, anchor, start in _beside(board, a, b, way):
        if best is not None and base >= best[0]:
            break
        box = boxed(room, at, anchor)
        if board.free(box):
            cost = base + 14.0 * board.crossings(box)
            if best is None or cost < best[0]:
                best = (cost, at, anchor, start)
    return best


def _beside(board: Board, a: Point, b: Point, way: Point) -> Iterator[tuple[float, Point, str, Point]]:  # fmt: skip
    """Places beyond the ends and beside the middle, by what it costs to stand there at least; and what each is led to."""
    drop = board.size * 0.26
    middle = ((a[0] + b[0]) / 2.0, (a[1] + b[1]) / 2.0)
    for nth, off in enumerate(OFFS):
        for start, sign in ((b, 1.0), (a, -1.0)):
            reach = off + 6.0 + (board.size * 0.5 if abs(way[0]) < 0.5 else 0.0)
            x, y = start[0] + sign * way[0] * reach, start[1] + sign * way[1] * reach
            anchor = "middle" if abs(way[0]) < 0.5 else "start" if sign * way[0] > 0.0 else "end"
            yield 16.0 + 8.0 * nth, (x, y + drop), anchor, start
        for sign in (1.0, -1.0):
            reach = off + 4.0 + (0.0 if abs(way[0]) < 0.5 else board.size * 0.5)
            x, y = middle[0] - sign * way[1] * reach, middle[1] + sign * way[0] * reach
            anchor = "middle" if abs(way[0]) >= 0.5 else "start" if -sign * way[1] > 0.0 else "end"
            yield 18.0 + 8.0 * nth, (x, y + drop), anchor, middle


def _reach(board: Board, start: Point, box: Box) -> None:
    """From a short dimension line to the figure that stands outside it."""
    near = (min(max(start[0], box[0] - 2.0), box[2] + 2.0), min(max(start[1], box[1]), box[3]))
    if hypot(near[0] - start[0], near[1] - start[1]) > 2.0:
        board.fine(start, near)
