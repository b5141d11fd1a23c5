"""A split sleeve over a pole of the same nominal size: the slot it opens to, the strip that fills it."""

from __future__ import annotations

from dataclasses import dataclass
from math import pi

from polestead.strength.pole import PipeSection


@dataclass(frozen=True, slots=True)
class SplitSleeve:
    """What to cut.

    Attributes:
        opens_m: Width of the slot once the pipe, cut along its length, is opened round the pole.
        strip_m: Width of the strip that fills it, two root gaps less.
        strain: Largest strain of the wall by opening it; beyond the yield strain it stays open.
    """

    opens_m: float
    strip_m: float
    strain: float


ROOT_GAP_M = 0.003  # left on each side of the strip for the weld: common practice, no source
KERF_M = 0.003  # what the cut itself takes: common practice, no source


def split_sleeve(pipe: PipeSection, play_m: float) -> SplitSleeve:
    """A length of the pole's own pipe, slit along, opened and welded with a strip.

    Its inside is smaller than the pole by two walls; the inside round must become that of the pole and its play, so the slot
    opens by pi (2 t + play).  The nominal wall counts, for it must go over the real pole.
    Source: geometry of the middle line.

    Args:
        pipe: The pole's own size.
        play_m: Difference of the diameters wanted [m].

    Example:
        >>> from polestead.homestead.sentences import pole_words
        >>> from polestead.strength.pole import pipe_section
        >>> sleeve = split_sleeve(pipe_section(pole_words("6 in schedule 40 A53 B")), 0.0016)
        >>> round(sleeve.opens_m * 1000.0, 1)
        52.7
    """
    opens = pi * (2.0 * pipe.wall_m + play_m) + KERF_M
    middle_before = pipe.outside_m - pipe.wall_m
    middle_after = middle_before + 2.0 * pipe.wall_m + play_m
    strain = pipe.wall_m * (1.0 / middle_before - 1.0 / middle_after)
    return SplitSleeve(opens, opens - 2.0 * ROOT_GAP_M, strain)
