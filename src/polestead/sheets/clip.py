"""Straight strokes and boxes: whether and where one runs through the other."""

from __future__ import annotations

from polestead.sheets.svg import Point

Box = tuple[float, float, float, float]  # left, top, right, bottom
Segment = tuple[Point, Point]


def clipped(way: Segment, box: Box) -> Segment | None:
    """The part of a line inside a box, None where it stays outside.

    Example:
        >>> clipped(((0.0, 1.0), (10.0, 1.0)), (2.0, 0.0, 4.0, 2.0))
        ((2.0, 1.0), (4.0, 1.0))
    """
    found = _shares(way, box)
    if found is None:
        return None
    (x1, y1), (x2, y2) = way
    dx, dy, (first, last) = x2 - x1, y2 - y1, found
    return (x1 + first * dx, y1 + first * dy), (x1 + last * dx, y1 + last * dy)


def crosses(way: Segment, box: Box) -> bool:
    """Whether any part of a line lies inside a box.

    Example:
        >>> crosses(((0.0, 1.0), (10.0, 1.0)), (2.0, 0.0, 4.0, 2.0)), crosses(((0.0, 3.0), (3.0, 0.0)), (0.0, 0.0, 1.0, 1.0))
        (True, False)
    """
    return _shares(way, box) is not None


def _shares(way: Segment, box: Box) -> tuple[float, float] | None:
    """Where along a line it lies inside a box; None: nowhere."""
    (x1, y1), (x2, y2) = way
    left, top, right, bottom = box
    if (x1 > right and x2 > right) or (x1 < left and x2 < left) or (y1 > bottom and y2 > bottom) or (y1 < top and y2 < top):  # fmt: skip
        return None
    dx, dy, first, last = x2 - x1, y2 - y1, 0.0, 1.0
    if dx != 0.0:
        one, two = (left - x1) / dx, (right - x1) / dx
        if dx < 0.0:
            one, two = two, one
        first, last = one if one > first else first, two if two < last else last
    elif not left <= x1 <= right:
        return None
    if dy != 0.0:
        one, two = (top - y1) / dy, (bottom - y1) / dy
        if dy < 0.0:
            one, two = two, one
        first, last = one if one > first else first, two if two < last else last
    elif not top <= y1 <= bottom:
        return None
    return (first, last) if first < last else None
