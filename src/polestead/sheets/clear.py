"""Words kept clear: each stands where no stroke, no ring and no other word runs through it, as near as may be to where it is wanted."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import pairwise
from math import cos, pi, sin

import numpy as np
from numpy.typing import NDArray

from polestead.sheets.clip import Box, Segment, clipped
from polestead.sheets.svg import Point

OVER, UNDER = 0.78, 0.24  # of a letter's size over and under its line
WORD_COUNTS = 4.0  # lying on a word is worse than on a stroke
OUTSIDE_COUNTS = 50.0
ROUND_STEPS = 12
AIR_PX = 1.5  # between words and whatever is next to them


class Clear:
    """What is drawn already, and where there is room between.

    Args:
        width, height: Of the drawing [px].
        inset: So far from its edges words stay [px].
    """

    def __init__(self, width: float, height: float, inset: float = 0.0) -> None:
        self._inside: Box = (inset, inset, width - inset, height - inset)
        self._strokes: list[Segment] = []
        self._boxes: list[Box] = []
        self._laid: NDArray[np.float64] | None = None

    def stroke(self, points: Iterable[Point]) -> None:
        """A line through points lies here."""
        self._strokes += pairwise(points)
        self._laid = None

    def ring(self, at: Point, radius: float) -> None:
        """A circle lies here, and is full."""
        turns = [2.0 * pi * n / ROUND_STEPS for n in range(ROUND_STEPS + 1)]
        self.stroke((at[0] + radius * cos(t), at[1] + radius * sin(t)) for t in turns)
        half = radius * 0.7
        self._boxes.append((at[0] - half, at[1] - half, at[0] + half, at[1] + half))

    def box(self, box: Box) -> None:
        """Words lie here."""
        self._boxes.append(box)

    def hits(self, box: Box) -> float:
        """How much lies in a box: strokes, words, the edge of the drawing; 0 where it is clear."""
        left, top, right, bottom = box
        left, top, right, bottom = left - AIR_PX, top - AIR_PX, right + AIR_PX, bottom + AIR_PX
        a, b, c, d = self._inside
        found = OUTSIDE_COUNTS * (left < a or top < b or right > c or bottom > d)
        found += WORD_COUNTS * sum(left < x2 and right > x1 and top < y2 and bottom > y1 for x1, y1, x2, y2 in self._boxes)  # fmt: skip
        return found + self._crossing((left, top, right, bottom))

    def _crossing(self, box: Box) -> int:
        """Strokes that run through a box."""
        if not self._strokes:
            return 0
        if self._laid is None:
            self._laid = np.array(self._strokes).reshape(-1, 4)
        x1, y1, x2, y2 = self._laid.T
        left, top, right, bottom = box
        near = (np.minimum(x1, x2) < right) & (np.maximum(x1, x2) > left) & (np.minimum(y1, y2) < bottom) & (np.maximum(y1, y2) > top)  # fmt: skip
        return sum(clipped(self._strokes[n], box) is not None for n in np.flatnonzero(near))

    def best(self, tried: Iterable[Box]) -> int:
        """Take the first of some boxes that is clear, the one wanted most first; where none is, the one in which least lies.

        Returns:
            Which it is; words lie there now.
        """
        least, found = float("inf"), (0, self._inside)
        for nth, box in enumerate(tried):
            much = self.hits(box)
            if much < least:
                least, found = much, (nth, box)
            if not much:
                break
        self.box(found[1])
        return found[0]


def box_of(at: Point, wide: float, lines: int, size: float, leading: float, anchor: str = "start") -> Box:  # fmt: skip
    """The box of some lines of words.

    Args:
        at: Where the first line is set.
        wide: Width of the widest line [px].
        lines: How many.
        size: Of the letters [px].
        leading: From line to line, in letters.
        anchor: ``start``, ``middle`` or ``end``.

    Example:
        >>> box_of((10.0, 20.0), 30.0, 2, 10.0, 1.2, "end")
        (-20.0, 12.2, 10.0, 34.4)
    """
    left = at[0] - {"start": 0.0, "middle": wide / 2.0, "end": wide}[anchor]
    return left, at[1] - OVER * size, left + wide, at[1] + (lines - 1) * leading * size + UNDER * size  # fmt: skip
