"""Dug soil: as it lies beside the hole, and how large a heap that is."""

from __future__ import annotations

from math import pi, radians, tan

from polestead.base.table import table

HEAP_DEG = 34.0  # 1.5 across to 1 up, the flattest slope asked of loose soil: 29 CFR 1926.652(b)(1)(i), taken for the heap
EDGE_M = 0.6096  # spoil no nearer to an edge: 29 CFR 1926.651(j)(2), 2 ft (seen)


def swell_share(soil: str) -> float:
    """How much more room a soil takes once it is dug.

    Source: ``ground/soil.csv``.

    Args:
        soil: Soil class of the place section.

    Raises:
        KeyError: A soil that has no row: fill, peat and rock are not dug by these sums.

    Example:
        >>> swell_share("clay or silt")
        0.4
    """
    for row in table("build", "ground/soil"):
        if row["soil"] == soil:
            return float(row["swell"])
    raise KeyError(soil)


def loose_m3(bank_m3: float, soil: str) -> float:
    """Dug soil as it lies beside the hole.

    Source: swell factors of ``ground/soil.csv``.

    Args:
        bank_m3: In the ground [m^3].
        soil: Soil class of the place section.

    Example:
        >>> round(loose_m3(8000.0, "clay or silt"))
        11200
    """
    return bank_m3 * (1.0 + swell_share(soil))


def heap_m(loose: float) -> tuple[float, float]:
    """Width over the ground and height of a round heap at 34 degrees.

    V = pi r^2 h / 3 with h = r tan 34.
    Source: a cone; the slope is the flattest 29 CFR 1926.652 asks for.

    Args:
        loose: Loose soil [m^3].

    Returns:
        Width [m], height [m].

    Example:
        >>> [round(side, 2) for side in heap_m(2.0)]
        [2.83, 0.95]
    """
    slope = tan(radians(HEAP_DEG))
    radius_m = float((3.0 * loose / (pi * slope)) ** (1.0 / 3.0))
    return 2.0 * radius_m, radius_m * slope
