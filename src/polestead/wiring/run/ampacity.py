"""What the wire may carry for good, and the largest breaker that still protects it."""

from __future__ import annotations

from polestead.base.source import Source
from polestead.base.table import table
from polestead.wiring.currents import next_rating_a
from polestead.wiring.run.conductor import Conductor, share_left

ABOUT = Source("45 C about the cable where it rises in the sun", status="ours")
ABOUT_C = 45.0  # our own assumption: a riser in summer sun; buried soil is cooler


def carries_a(wire: Conductor, about_c: float = ABOUT_C) -> float:
    """What the wire carries for good: the 75 C column, or the 90 C column in its surrounding, whichever is less.

    Source: NEC Table 310.16 with 110.14(C) and Table 310.15(B)(1).
    """
    return min(wire.at_75_a, wire.at_90_a * share_left(about_c, 90))


def largest_breaker_a(wire: Conductor, about_c: float = ABOUT_C) -> float:
    """Largest breaker that still protects the wire: the next rating over its ampacity, less on small wire.

    Source: NEC 240.4(B), next standard size up; 240.4(D), small conductors (seen).
    """
    carried = carries_a(wire, about_c)
    for row in table("wiring", "run/small"):
        if (row["size"], row["metal"]) == (wire.rated_as, wire.metal):
            return min(float(row["largest_a"]), next_rating_a(carried))
    return next_rating_a(carried)
