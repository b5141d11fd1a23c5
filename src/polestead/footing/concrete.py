"""Below the pole's foot the pier is concrete alone: whether plain concrete bends that far, or a cage must."""

from __future__ import annotations

from math import pi, sqrt

import numpy as np
from numpy.typing import NDArray

from polestead.base.source import Source
from polestead.base.working import Step
from polestead.footing.pier import Pier

Floats = NDArray[np.float64]
PSI_PA = 6894.757
PLAIN = Source("ACI 318-14", "14.5.2, 5 sqrt(fc') S, phi .6 over a load factor of 1.6", "memory")
PLAIN_EN = Source("EN 1992-1-1:2004", "12.3, fctd = .8 x .7 x .3 fck^(2/3) / 1.5", "memory")
CAGE = Source("half the bars pull; cover 3 in", "docs/method/footing.md", "ours")
COVER_M = 0.0762  # ACI 318 20.5.1.3, cast against earth (from memory)
LINE = Source("from the largest moment to nothing at the pier's foot, slowly at first", "docs/method/footing.md", "ours")  # fmt: skip


def plain_bending_n_m(diameter_m: float, strength_pa: float, eurocode: bool) -> tuple[float, Step]:
    """Bending a round shaft of plain concrete may carry [N m].

    Source: ACI 318 14.5.2.1a with phi = .6 (21.2.1), brought to allowable level by 1.6; EN 1992-1-1 12.3.1 (from memory).

    Args:
        diameter_m: b [m].
        strength_pa: Cylinder strength at 28 days [Pa].
        eurocode: Which format.

    Example:
        >>> round(plain_bending_n_m(0.9144, 3000 * PSI_PA, False)[0] / 1e3, 1)
        53.1
    """
    section = pi / 32.0 * diameter_m**3
    if eurocode:
        mpa = strength_pa / 1e6
        stress = 0.8 * 0.7 * 0.3 * mpa ** (2.0 / 3.0) / 1.5 * 1e6
        formula, source = (
            f"0.8 x 0.7 x 0.3 x {mpa:.2f}^(2 / 3) x 1e+06 / 1.5 x {section:.4g}",
            PLAIN_EN,
        )
    else:
        stress = 0.6 * 5.0 * sqrt(strength_pa / PSI_PA) * PSI_PA / 1.6
        formula, source = (
            f"0.6 x 5 x sqrt({strength_pa / PSI_PA:.0f}) x {PSI_PA:.5g} / 1.6 x {section:.4g}",
            PLAIN,
        )
    value = stress * section
    return value, Step("bending plain concrete may carry", "Mc", formula, value, "N m", source)


def cage_bending_n_m(
    diameter_m: float, bars: int, bar_m: float, eurocode: bool
) -> tuple[float, Step]:
    """Bending a round shaft with a ring of bars may carry [N m].

    Half the bars pull, their centre 2 r / pi from the middle; the concrete's push is taken half a radius beyond the middle:
    M = As/2 fy (.637 r + .5 R), on the careful side of the strip-by-strip sum.
    Source: statics (ours); fy 60 ksi with phi .9 over 1.6 (ACI 318 21.2), or 500 / 1.15 MPa (EN 1992-1-1) (from memory).

    Args:
        diameter_m: Of the pier [m].
        bars: How many.
        bar_m: Their diameter [m].
        eurocode: Which format.

    Example:
        >>> round(cage_bending_n_m(0.9144, 8, 0.0127, False)[0] / 1e3)
        55
    """
    steel_pa = 500e6 / 1.15 if eurocode else 0.9 * 414e6 / 1.6
    ring_m = diameter_m / 2.0 - COVER_M - bar_m / 2.0
    lever = 2.0 / pi * ring_m + 0.25 * diameter_m
    value = bars / 2.0 * pi / 4.0 * bar_m**2 * steel_pa * lever
    formula = f"{bars} / 2 x pi x {bar_m:.4f}^2 / 4 x {steel_pa:.4g} x (.637 x {ring_m:.3f} + .25 x {diameter_m:.3f})"
    return value, Step("bending the cage may carry", "Mc", formula, value, "N m", CAGE)


def pressing_pa(strength_pa: float, eurocode: bool) -> tuple[float, Step]:
    """Pressure the concrete round a pole may bear [Pa].

    Source: ACI 318 22.8.3, .85 fc' with phi .65, brought to allowable level by 1.6, no more for what stands round it;
    EN 1992-1-1 3.1.6, .85 fck / 1.5 (both from memory).

    Args:
        strength_pa: Cylinder strength at 28 days [Pa].
        eurocode: Which format.

    Example:
        >>> round(pressing_pa(20.7e6, False)[0] / 1e6, 1)
        7.1
    """
    share = 0.85 / 1.5 if eurocode else 0.85 * 0.65 / 1.6
    source = Source("EN 1992-1-1:2004", "3.1.6, alpha_cc .85", "memory") if eurocode else Source("ACI 318-14", "22.8.3, phi .65 over a load factor of 1.6", "memory")  # fmt: skip
    formula = f"{'.85 / 1.5' if eurocode else '.85 x .65 / 1.6'} x {strength_pa:.4g}"
    return share * strength_pa, Step("pressure the concrete may bear", "pc", formula, share * strength_pa, "Pa", source)  # fmt: skip


LEAST_STEEL = 0.005  # of the gross section, a drilled pier in bending (ACI 318 10.3.1.2 and 10.6.1.1, from memory)


def least_steel_m2(diameter_m: float) -> float:
    """Least steel of a cage: half a per cent of the concrete.

    Source: ACI 318 (from memory).

    Args:
        diameter_m: Of the pier [m].

    Example:
        >>> round(least_steel_m2(30 * 0.0254) / 0.0254**2, 2)
        3.53
    """
    return LEAST_STEEL * pi / 4.0 * diameter_m**2


def moment_at_foot_n_m(pier: Pier, largest_n_m: Floats, deepest_at_m: Floats) -> Floats:
    """Moment left in the pier at the pole's foot.

    The moment falls from its largest, at its depth, to nothing at the pier's foot, slowly at first: 1 - 1.5 s^3, and the
    straight line where that is over it.
    Source: ours, over the full statics of soil that gives all along.

    Args:
        pier: The pier.
        largest_n_m: Largest moment below the ground, any shape [N m].
        deepest_at_m: Its depth below the ground, same shape [m].
    """
    below = np.maximum(pier.depth_m - deepest_at_m, 1e-9)
    s = np.clip((pier.pole_depth_m - deepest_at_m) / below, 0.0, 1.0)
    return np.asarray(largest_n_m * np.maximum(1.0 - s, 1.0 - 1.5 * s**3))


def deepest_moment_at_m(pier: Pier, horizontal_n: Floats) -> Floats:
    """Depth of the largest moment: where the soil has taken up the whole force (Broms' f under the useless top).

    Args:
        pier: The pier.
        horizontal_n: Total horizontal force, any shape [N].
    """
    h, b = np.abs(horizontal_n), pier.diameter_m
    if pier.undrained_pa > 0.0:
        return np.asarray(max(pier.effective_m, 1.5 * b) + h / (9.0 * pier.undrained_pa * b))
    return np.asarray(pier.effective_m + 0.82 * np.sqrt(h / (pier.soil_n_m3 * pier.passive * b)))
