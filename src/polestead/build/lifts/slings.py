"""Ropes and slings: what an angle does to them, what gear must bear, what tackle and turns on a post give."""

from __future__ import annotations

from dataclasses import dataclass
from math import exp, pi, radians, sin

from polestead.base.problem import Problem, Wrong
from polestead.base.table import table

LEAST_DEG = 30.0  # flatter than this no sling may hang
ANGLES_DEG = (60.0, 45.0, 30.0)


@dataclass(frozen=True, slots=True)
class SlingLeg:
    """Two legs at one angle.

    Attributes:
        from_level_deg: Angle of each leg from the LEVEL, not from the upright.
        factor: Over half the weight.
        each_n: Pull in each leg.
    """

    from_level_deg: float
    factor: float
    each_n: float


def sling_factor(from_level_deg: float) -> float:
    """How much more a leg is pulled than its even share of the weight: 1 / sin.

    The angle is from the level; a page that measures from the upright gives cosines, and the two are easily mixed up.
    Source: statics; rigging pages (seen).

    Args:
        from_level_deg: 0 < angle <= 90.

    Raises:
        Wrong: A flat or backward angle.

    Example:
        >>> [round(sling_factor(angle), 3) for angle in (90.0, 60.0, 45.0, 30.0)]
        [1.0, 1.155, 1.414, 2.0]
    """
    if not 0.0 < from_level_deg <= 90.0:
        raise Wrong([Problem("", "sling angle", f"{from_level_deg:g} deg", "over 0 to 90 deg from the level", "Measure it from the level.")])  # fmt: skip
    return 1.0 / sin(radians(from_level_deg))


def leg_tension_n(weight_n: float, legs: int, from_level_deg: float) -> float:
    """Pull in each of several even legs over the centre of gravity [N].

    Of more than two legs two are taken to bear, for the rest may hang slack.

    Args:
        weight_n: Hung on them [N].
        legs: One or more.
        from_level_deg: From the level; not under 30.

    Raises:
        Wrong: An angle under 30 degrees, or no leg.

    Example:
        >>> round(leg_tension_n(1000.0, 2, 30.0))
        1000
    """
    if from_level_deg < LEAST_DEG - 1e-9:
        raise Wrong([Problem("", "sling angle", f"{from_level_deg:g} deg", "30 deg or more from the level", "Take longer slings.")])  # fmt: skip
    if legs < 1:
        raise Wrong([Problem("", "legs", str(legs), "one or more", "Something must hold it.")])
    return weight_n / min(legs, 2) * sling_factor(from_level_deg)


def two_legs(weight_n: float) -> tuple[SlingLeg, ...]:
    """Both legs at 60, 45 and 30 degrees from the level."""
    return tuple(SlingLeg(a, sling_factor(a), leg_tension_n(weight_n, 2, a)) for a in ANGLES_DEG)


def design_factor(gear: str) -> float:
    """Breaking strength over the load a tag may name.

    Source: ``lifts/gear.csv`` (ASME B30.9, from memory).

    Args:
        gear: ``wire rope``, ``synthetic web``, ``chain`` or ``people``.
    """
    return float(next(row for row in table("build", "lifts/gear") if row["gear"] == gear)["factor"])


@dataclass(frozen=True, slots=True)
class Gear:
    """What a sling must be.

    Attributes:
        gear: Kind.
        tag_n: Least load on its tag at the flattest angle used: the factor is in the tag already.
        breaks_n: Least breaking strength where it has no tag (and then it is not used for a lift).
    """

    gear: str
    tag_n: float
    breaks_n: float


def gear_for(leg_n: float) -> tuple[Gear, ...]:
    """Slings of each kind for a leg's pull; people are never lifted by these."""
    kinds = (row["gear"] for row in table("build", "lifts/gear") if row["gear"] != "people")
    return tuple(Gear(kind, leg_n, leg_n * design_factor(kind)) for kind in kinds)


def tackle_advantage(parts: int, each_sheave: float, hauled_from: str) -> float:
    """Load over pull of block and tackle, friction in it.

    Each sheave passes on the share e of the pull: 1 + e + ... + e^(n-1) where the hauling part leaves the moving block (its own
    part lifts too), e + ... + e^n where it leaves the fixed one.
    Source: geometric series (computed).

    Args:
        parts: Parts of rope that lift the moving block.
        each_sheave: Share a sheave passes on, 0 < e <= 1: .95 new, .90 worn.
        hauled_from: ``moving`` or ``fixed`` block.

    Raises:
        Wrong: No part, a share that is none, or another block.

    Example:
        >>> round(tackle_advantage(4, 0.95, "moving"), 2), round(tackle_advantage(4, 0.95, "fixed"), 2)
        (3.71, 3.52)
    """
    if parts < 1 or not 0.0 < each_sheave <= 1.0 or hauled_from not in ("moving", "fixed"):
        raise Wrong([Problem("", "tackle", f"{parts} parts, {each_sheave:g}, {hauled_from}", "one part or more, a share over 0 to 1, the moving or the fixed block", "Count the parts at the moving block.")])  # fmt: skip
    first = 0 if hauled_from == "moving" else 1
    return sum(each_sheave**n for n in range(first, first + parts))


def capstan_ratio(friction: float, turns: float) -> float:
    """Load that turns round a post hold back, over the pull on the tail: e^(mu 2 pi n).

    Source: Euler and Eytelwein.  The friction of a wet or icy rope is not known: half of a dry one's, at best.

    Args:
        friction: mu, rope on post.
        turns: Whole turns and parts.

    Example:
        >>> round(capstan_ratio(0.25, 3.0))
        111
    """
    return exp(friction * 2.0 * pi * turns)


@dataclass(frozen=True, slots=True)
class TackleRow:
    """Pull on the rope of one tackle.

    Attributes:
        parts: At the moving block.
        new_n, worn_n: Pull at .95 and .90 a sheave, the hauling part from the fixed block (pulled downwards).
    """

    parts: int
    new_n: float
    worn_n: float


def tackle_rows(weight_n: float) -> tuple[TackleRow, ...]:
    """Two to six parts, hauled downwards from the fixed block."""
    return tuple(
        TackleRow(n, weight_n / tackle_advantage(n, 0.95, "fixed"), weight_n / tackle_advantage(n, 0.90, "fixed"))
        for n in (2, 3, 4, 5, 6)
    )  # fmt: skip
