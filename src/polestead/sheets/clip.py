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
    (x1, y1), (x2, y2) = way
    left, top, right, bottom = box
    if (x1 > right and x2 > right) or (x1 < left and x2 < left) or (y1 > bottom and y2 > bottom) or (y1 < top and y2 < top):  # fmt: skip
        return None
    dx, dy, first, last = x2 - x1, y2 - y1, 0.0, 1.0
    if (dx == 0.0 and not left <= x1 <= right) or (dy == 0.0 and not top <= y1 <= bottom):
        return None
    for move, low, high in ((dx, left - x1, right - x1), (dy, top - y1, bottom - y1)):
        if move != 0.0:
            one, two = (low / move, high / move) if move > 0.0 else (high / move, low / move)
            first, last = one if one > first else first, two if two < last else last
    if first >= last:
        return None
    return (x1 + first * dx, y1 + first * dy), (x1 + last * dx, y1 + last * dy)
