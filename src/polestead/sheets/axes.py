"""What charts and drawings share: round steps for an axis, the stair of tilts in words, words kept off one another."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import floor, log10

from polestead.sheets.svg import Ink, Point, text
from polestead.sheets.text import day_words


@dataclass(frozen=True, slots=True)
class Lettered:
    """A chart's medium, width and letters; a chart adds where its things lie.

    Attributes:
        ink: Of the medium.
        width: Of the picture [px].
        size: Of the letters [px].
    """

    ink: Ink
    width: float
    size: float

    def say(self, at: Point, words: str, anchor: str = "start", strong: bool = False, pale: bool = False) -> str:  # fmt: skip
        """Words in the chart's face."""
        colour = self.ink.pencil if pale else self.ink.ink
        return text(at, words, colour, self.ink.face, self.size, anchor, "600" if strong else None)


def nice_step(most: float, about: int = 4) -> float:
    """A round step, so that about so many of them reach the most.

    Example:
        >>> nice_step(8.3), nice_step(0.9), nice_step(9000.0)
        (2.0, 0.2, 2000.0)
    """
    raw = most / about
    power = 10.0 ** floor(log10(raw))
    return float(next(step * power for step in (1.0, 2.0, 5.0, 10.0) if step * power >= raw * 0.75))


def stair_words(moves: Sequence[tuple[int, float]]) -> str:
    """Tilts and the days they begin.

    Example:
        >>> stair_words(((73, 20.0), (265, 60.0))), stair_words(((1, 40.0),))
        ('20° from 14 Mar, 60° from 22 Sep', '40° all year')
    """
    if len(moves) == 1:
        return f"{moves[0][1]:.0f}° all year"
    return ", ".join(f"{tilt:.0f}° from {day_words(day)}" for day, tilt in moves)


def spread(wanted: Sequence[float], high: Sequence[float], top: float, bottom: float) -> list[float]:  # fmt: skip
    """Tops of boxes as near as they may be to where they are wanted, in order, none on another.

    Args:
        wanted: Where each would stand, ascending.
        high: How high each is, the gap to the next in it.
        top: Nothing stands over this.
        bottom: Nor under this.

    Example:
        >>> spread([10.0, 12.0, 90.0], [20.0, 20.0, 20.0], 0.0, 100.0)
        [10.0, 30.0, 80.0]
    """
    tops = list(wanted)
    floor = top
    for n, height in enumerate(high):
        tops[n] = max(tops[n], floor)
        floor = tops[n] + height
    ceiling = bottom
    for n in reversed(range(len(tops))):
        tops[n] = min(tops[n], ceiling - high[n])
        ceiling = tops[n]
    return tops
