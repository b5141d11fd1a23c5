"""A guard's label in figures, one after the other: the list, the book and the drawing all tell these."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from polestead.wiring.guards.result import Guard

Bound = Literal["is", "at least", "at most", "reaches", "asked"]
VOLTS_DC = "V DC"


@dataclass(frozen=True, slots=True)
class Rating:
    """One figure of a thing on the line.

    Attributes:
        what: Of what, a word or two.
        value: In ``unit``; None where nobody has told it.
        unit: ``V``, ``V DC``, ``A``, ``W``, ``Ah``, ``m`` or empty for a count.
        bound: It *is* so; it must bear *at least* so much; it may see *at most* so much; it itself *reaches* so
            much; it must be *asked*.
    """

    what: str
    value: float | None
    unit: str
    bound: Bound = "is"


def ratings_of(guard: Guard) -> tuple[Rating, ...]:
    """What must stand on its label: volts, amperes, fault current.

    A switch may always bear more than its least; a fuse or breaker is of its rating.  What a fuse or breaker must have and nobody told is asked.

    Args:
        guard: Any of the list.

    Example:
        >>> from polestead.base.source import COMMON_PRACTICE
        >>> fuse = Guard("string fuse", "on the frame", "string fuse", 190.8, None, 600.0, COMMON_PRACTICE, "", "")
        >>> [(one.what, one.value, one.bound) for one in ratings_of(fuse)]
        [('bears', 190.8, 'at least'), ('', None, 'asked'), ('breaks', 600.0, 'at least')]
    """
    told = []
    if guard.volts_v is not None:
        told.append(Rating("bears", guard.volts_v, VOLTS_DC, "at least"))
    if guard.rating_a is not None:
        told.append(Rating("", guard.rating_a, "A", "at least" if "switch" in guard.what else "is"))
    elif trips(guard):
        told.append(Rating("", None, "A", "asked"))
    if guard.interrupts_a is not None:
        told.append(Rating("breaks", guard.interrupts_a, "A", "at least"))
    elif trips(guard):
        told.append(Rating("breaks", None, "A", "asked"))
    return tuple(told)


def trips(guard: Guard) -> bool:
    """Whether it opens by itself: a fuse or a breaker."""
    return any(word in guard.what for word in ("fuse", "breaker"))
