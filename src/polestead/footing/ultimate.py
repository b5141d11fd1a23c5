"""What a short free-headed pier stands against when all its soil gives: Broms, and the full statics.

Ultimate forces: a factor of 2 belongs to them against allowable loads, partial factors under Eurocode.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from polestead.base.source import Source
from polestead.footing.pier import Pier

Floats = NDArray[np.float64]
SAFETY = 2.0
BROMS = Source("Broms 1964", "UFC 3-220-20, Eqs. 6-59 to 6-65", "seen")
FULL = Source("statics of a rigid pier in soil that gives all along", "docs/method/footing.md", "ours")  # fmt: skip
DEAD_ZONE = 1.5  # diameters at the top of clay that do not help
CLAY_BEARS = 9.0  # undrained strengths


def broms_drained_n(
    depth_m: Floats | float, width_m: float, soil_n_m3: float, passive: float, lever_m: Floats | float
) -> Floats:  # fmt: skip
    """Ultimate horizontal force on a short free-headed pier in grains.

    Source: Broms 1964b; UFC 3-220-20 Eq. 6-62: H = 0.5 g b L^3 Kp / (e + L).

    Args:
        depth_m: L, any shape [m].
        width_m: b [m].
        soil_n_m3: g [N/m^3].
        passive: Kp.
        lever_m: e, height of the force over the ground [m].

    Example:
        >>> round(float(broms_drained_n(2.1, 0.75, 18e3, 3.0, 3.75)) / 1e3, 2)
        32.06
    """
    depth = np.asarray(depth_m, dtype=np.float64)
    return np.asarray(0.5 * soil_n_m3 * width_m * depth**3 * passive / (lever_m + depth))


def broms_undrained_n(
    depth_m: Floats | float, width_m: float, undrained_pa: float, lever_m: Floats | float, useless_m: float = 0.0
) -> Floats:  # fmt: skip
    """Ultimate horizontal force on a short free-headed pier in clay.

    Source: Broms 1964a; UFC 3-220-20 Eqs. 6-59 to 6-61: L = z + f + g, f = H / (9 c b), H (e + z + f/2) = 2.25 c b g^2, with z
    the dead zone of 1.5 b or the useless soil, whichever is deeper.  Put together, f^2 + B f - m^2 = 0, m = L - z,
    B = 4 (e + z) + 2 m.

    Args:
        depth_m: L, any shape [m].
        width_m: b [m].
        undrained_pa: c [Pa].
        lever_m: e [m].
        useless_m: Soil at the top that does not help [m].

    Example:
        >>> round(float(broms_undrained_n(2.1, 0.75, 50e3, 3.75)) / 1e3, 2)
        14.93
    """
    dead = max(useless_m, DEAD_ZONE * width_m)
    m = np.maximum(np.asarray(depth_m, dtype=np.float64) - dead, 0.0)
    half = 2.0 * (np.asarray(lever_m) + dead) + m
    f = m**2 / (
        half + np.sqrt(half**2 + m**2)
    )  # the root, without the difference of two large numbers
    return np.asarray(CLAY_BEARS * undrained_pa * width_m * f)


def full_statics_drained_n(
    depth_m: Floats | float, width_m: float, soil_n_m3: float, passive: float, lever_m: Floats | float
) -> Floats:  # fmt: skip
    """Ultimate horizontal force on a rigid pier in grains that give on one side above, on the other below the turning point.

    The soil presses with 3 Kp g z b; with the turning point at r, H = k (r^2 - L^2/2) and H e = k (L^3 - 2 r^3)/3,
    k = 3 Kp g b.  So 2 r^3 + 3 e r^2 - L^3 - 1.5 e L^2 = 0, which has one root between .7 L and L.
    Source: statics; the pressure is Broms' own, without his single force at the toe.

    Args:
        depth_m: L, any shape [m].
        width_m: b [m].
        soil_n_m3: g [N/m^3].
        passive: Kp.
        lever_m: e [m].

    Example:
        >>> round(float(full_statics_drained_n(2.1, 0.75, 18e3, 3.0, 3.75)) / 1e3, 1)
        20.9
    """
    depth, lever = np.broadcast_arrays(
        np.asarray(depth_m, dtype=np.float64), np.asarray(lever_m, dtype=np.float64)
    )
    held = depth**3 + 1.5 * lever * depth**2
    turn = (
        0.8 * depth
    )  # the root lies between .707 and .794 of the depth, and Newton comes down to it
    for _ in range(4):
        square = turn * turn
        off = (2.0 * turn + 3.0 * lever) * square - held
        turn = turn - off / np.maximum(6.0 * square + 6.0 * lever * turn, 1e-12)
    return np.asarray(3.0 * passive * soil_n_m3 * width_m * (turn**2 - depth**2 / 2.0))


def ultimate_n(pier: Pier, lever_m: Floats) -> Floats:
    """The lesser of Broms' force and the full statics' for the pier as it is, its useless top left out.

    In clay the two are one: Broms' pressures are already those of the full statics.

    Args:
        pier: The pier.
        lever_m: Moment over force at the ground line, any shape [m].
    """
    if pier.undrained_pa > 0.0:
        return broms_undrained_n(
            pier.depth_m, pier.diameter_m, pier.undrained_pa, lever_m, pier.effective_m
        )
    depth = max(pier.depth_m - pier.effective_m, 0.0)
    lever = np.asarray(lever_m) + pier.effective_m
    both = (
        rule(depth, pier.diameter_m, pier.soil_n_m3, pier.passive, lever)
        for rule in (broms_drained_n, full_statics_drained_n)
    )
    return np.minimum(*both)
