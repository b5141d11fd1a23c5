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
# Strength-level wind over allowable-level wind, 1.0 W over 0.6 W, the largest of what acts here (ASCE 7, 2.3 and 2.4).
LOAD_FACTOR = 1.0 / 0.6
PLAIN_PHI = 0.6  # plain concrete (ACI 318-14 21.2.1, from memory)
AGAINST_EARTH_M = 0.0508  # so much of what is cast against earth does not count (ACI 318-14 14.5.1.7, from memory)
PLAIN = Source("ACI 318-14", "14.5.2, 5 sqrt(fc') S, 14.5.1.7, 2 in less against earth, phi .6, times .6 for allowable loads", "memory")  # fmt: skip
BORNE = Source("ACI 318-14", "14.5.6, .85 fc', phi .6, times .6 for allowable loads", "memory")
IN_EARTH_EN = 1.1  # on the concrete's factor of a pile without a casing left in (EN 1992-1-1 2.4.2.5, from memory)
PLAIN_EN = Source("EN 1992-1-1:2004", "12.3, fctd = .8 x .7 x .3 fck^(2/3) / (1.5 x 1.1), drilled diameter lessened: 2.3.4.2, 2.4.2.5", "memory")  # fmt: skip
CAGE = Source("half the bars pull; cover 3 in", "docs/method/footing.md", "ours")
COVER_M = 0.0762  # ACI 318 20.5.1.3, cast against earth (from memory)
LINE = Source("from the largest moment to nothing at the pier's foot, slowly at first", "docs/method/footing.md", "ours")  # fmt: skip


def counted_en_m(diameter_m: float) -> float:
    """What counts of a hole drilled and poured without a casing that stays.

    Source: EN 1992-1-1 2.3.4.2 (2) (from memory): 20 mm less under .4 m, .95 of it to 1 m, 50 mm less over that.

    Args:
        diameter_m: As drilled [m].

    Example:
        >>> [round(counted_en_m(d), 3) for d in (0.3, 0.6, 1.2)]
        [0.28, 0.57, 1.15]
    """
    if diameter_m < 0.4:
        return diameter_m - 0.02
    return 0.95 * diameter_m if diameter_m <= 1.0 else diameter_m - 0.05


def plain_bending_n_m(diameter_m: float, strength_pa: float, eurocode: bool) -> tuple[float, Step]:
    """Bending a round shaft of plain concrete may carry [N m].

    Source: ACI 318-14 14.5.2.1a with phi = .6 (21.2.1), 2 in less than was drilled (14.5.1.7), brought to allowable level by
    1 / .6; EN 1992-1-1 12.3.1 with 2.3.4.2 and 2.4.2.5 (from memory).

    Args:
        diameter_m: b [m].
        strength_pa: Cylinder strength at 28 days [Pa].
        eurocode: Which format.

    Example:
        >>> round(plain_bending_n_m(0.9144, 3000 * PSI_PA, False)[0] / 1e3, 1)
        43.0
    """
    if eurocode:
        counts_m = counted_en_m(diameter_m)
        section = pi / 32.0 * counts_m**3
        mpa = strength_pa / 1e6
        stress = 0.8 * 0.7 * 0.3 * mpa ** (2.0 / 3.0) / (1.5 * IN_EARTH_EN) * 1e6
        formula, source = (
            f"0.8 x 0.7 x 0.3 x {mpa:.2f}^(2 / 3) x 1e+06 / (1.5 x {IN_EARTH_EN}) x pi x {counts_m:.4f}^3 / 32",
            PLAIN_EN,
        )
    else:
        counts_m = diameter_m - AGAINST_EARTH_M
        section = pi / 32.0 * counts_m**3
        stress = PLAIN_PHI * 5.0 * sqrt(strength_pa / PSI_PA) * PSI_PA / LOAD_FACTOR
        formula, source = (
            f"0.6 x 5 x sqrt({strength_pa / PSI_PA:.0f}) x {PSI_PA:.5g} x 0.6 x pi x ({diameter_m:.4f} - {AGAINST_EARTH_M})^3 / 32",
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
    Source: statics (ours); fy 60 ksi with phi .9 over 1 / .6 (ACI 318 21.2), or 500 / 1.15 MPa (EN 1992-1-1) (from memory).

    Args:
        diameter_m: Of the pier [m].
        bars: How many.
        bar_m: Their diameter [m].
        eurocode: Which format.

    Example:
        >>> round(cage_bending_n_m(0.9144, 8, 0.0127, False)[0] / 1e3)
        53
    """
    steel_pa = 500e6 / 1.15 if eurocode else 0.9 * 414e6 / LOAD_FACTOR
    across_m = counted_en_m(diameter_m) if eurocode else diameter_m
    ring_m = across_m / 2.0 - COVER_M - bar_m / 2.0
    lever = 2.0 / pi * ring_m + 0.25 * across_m
    value = bars / 2.0 * pi / 4.0 * bar_m**2 * steel_pa * lever
    formula = f"{bars} / 2 x pi x {bar_m:.4f}^2 / 4 x {steel_pa:.4g} x (.637 x {ring_m:.3f} + .25 x {across_m:.3f})"
    return value, Step("bending the cage may carry", "Mc", formula, value, "N m", CAGE)


def pressing_pa(strength_pa: float, eurocode: bool) -> tuple[float, Step]:
    """Pressure the concrete round a pole may bear [Pa].

    Source: ACI 318-14 14.5.6, .85 fc' with phi .6 of plain concrete, brought to allowable level by 1 / .6, no more for what
    stands round it;
    EN 1992-1-1 3.1.6, .85 fck / (1.5 x 1.1), 2.4.2.5 (both from memory).

    Args:
        strength_pa: Cylinder strength at 28 days [Pa].
        eurocode: Which format.

    Example:
        >>> round(pressing_pa(20.7e6, False)[0] / 1e6, 1)
        6.3
    """
    share = 0.85 / (1.5 * IN_EARTH_EN) if eurocode else 0.85 * PLAIN_PHI / LOAD_FACTOR
    source = Source("EN 1992-1-1:2004", "3.1.6, alpha_cc .85, 2.4.2.5", "memory") if eurocode else BORNE  # fmt: skip
    formula = f"{'.85 / (1.5 x 1.1)' if eurocode else '.85 x .6 x .6'} x {strength_pa:.4g}"
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
