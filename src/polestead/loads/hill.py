"""Wind that a hill, a ridge or an escarpment makes faster: Kzt with its three multipliers (ASCE 7, 26.8)."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from polestead.base.source import Source

Floats = NDArray[np.float64]
Shape = Literal["ridge", "escarpment", "round hill"]
SOURCE = Source("ASCE 7-16", "26.8.1, 26.8.2 and Fig. 26.8-1", "memory")
# K1 over H/Lh by exposure B, C, D; gamma; mu on the windward and on the lee side of the crest (Fig. 26.8-1, from memory).
_FIGURE: dict[str, tuple[tuple[float, float, float], float, float, float]] = {
    "ridge": ((1.30, 1.45, 1.55), 3.0, 1.5, 1.5),
    "escarpment": ((0.75, 0.85, 0.95), 2.5, 1.5, 4.0),
    "round hill": ((0.95, 1.05, 1.15), 4.0, 1.5, 1.5),
}
LEAST_STEEPNESS = 0.2  # H/Lh, 26.8.1 (4)
LEAST_HEIGHT_M = {"B": 60 * 0.3048, "C": 15 * 0.3048, "D": 15 * 0.3048}  # 26.8.1 (5)


@dataclass(frozen=True, slots=True)
class Hill:
    """A hill the wind must climb, and where on it the pole stands.

    Attributes:
        shape: Its form.
        height_m: H, crest over the plain upwind [m].
        half_length_m: Lh, from the crest to where the ground upwind is half as high [m].
        from_crest_m: x, from the crest to the pole, level [m].
        beyond_crest: Whether the pole stands on the lee side.
        exposure: B, C or D of the ground.
    """

    shape: Shape
    height_m: float
    half_length_m: float
    from_crest_m: float
    beyond_crest: bool
    exposure: str


def counts(hill: Hill) -> bool:
    """Whether the hill is steep and high enough to count (26.8.1, conditions 4 and 5).

    The code's other three conditions (it stands alone, it rises over all within two miles, the pole is on its upper half or
    near the crest) are taken as met, which is on the careful side.
    """
    steep = hill.height_m / hill.half_length_m >= LEAST_STEEPNESS
    return steep and hill.height_m >= LEAST_HEIGHT_M[hill.exposure]


def multipliers(hill: Hill, height_m: Floats | float) -> tuple[float, float, Floats]:
    """K1, K2 and K3 at a height over the ground.

    K1 = k H/Lh; K2 = 1 - |x|/(mu Lh), not below 0; K3 = exp(-gamma z/Lh).  Over H/Lh = .5 the figure holds the ratio at .5 and
    takes Lh = 2 H in K2 and K3.

    Args:
        hill: The hill.
        height_m: z [m], any shape.

    Returns:
        K1, K2, K3 (of z's shape).

    Example:
        >>> crest = Hill("ridge", 30.0, 60.0, 0.0, False, "C")
        >>> k1, k2, k3 = multipliers(crest, 4.0)
        >>> round(k1, 3), round(k2, 3), round(float(k3), 3)
        (0.725, 1.0, 0.819)
    """
    slopes, gamma, windward, lee = _FIGURE[hill.shape]
    steep = hill.height_m / hill.half_length_m
    length_m = hill.half_length_m if steep <= 0.5 else 2.0 * hill.height_m
    k1 = slopes["BCD".index(hill.exposure)] * min(steep, 0.5)
    mu = lee if hill.beyond_crest else windward
    k2 = max(1.0 - abs(hill.from_crest_m) / (mu * length_m), 0.0)
    return k1, k2, np.exp(-gamma * np.asarray(height_m, dtype=np.float64) / length_m)


def topographic_factor(hill: Hill, height_m: Floats | float) -> Floats:
    """Kzt = (1 + K1 K2 K3)^2; 1 where the hill does not count.

    Source: ASCE 7-16 Eq. 26.8-1 and Fig. 26.8-1 (from memory).

    Args:
        hill: The hill.
        height_m: Over the ground [m], any shape.

    Example:
        >>> crest = Hill("ridge", 30.0, 60.0, 0.0, False, "C")
        >>> round(float(topographic_factor(crest, 4.0)), 2)
        2.54
        >>> float(topographic_factor(Hill("ridge", 3.0, 60.0, 0.0, False, "C"), 4.0))
        1.0
    """
    k1, k2, k3 = multipliers(hill, height_m)
    return np.square(1.0 + k1 * k2 * k3) if counts(hill) else np.ones_like(k3)
