"""What a maker rates: the actuator's rod, the modules."""

from __future__ import annotations

from math import cos, pi, sin, sqrt

from polestead.base.source import OWNER, Source
from polestead.base.working import Step
from polestead.strength.allowable import STEEL_PA, Allowable

ROD_SAFETY = 3.0  # actuator handbooks: 3 to 3.5 (from memory)
ROD_YIELD_PA = 350e6  # plain carbon steel rod, low (from memory)
MODULE_SAFETY = 1.5  # between test load and design load, IEC 61215-2 (from memory)


def transition_slenderness(yield_pa: float, stiffness_pa: float) -> float:
    """Slenderness at which Johnson's parabola meets Euler's curve, sqrt(2 pi^2 E / Sy).

    Source: Johnson 1893, as every handbook of machine design has it (from memory).

    Args:
        yield_pa: Sy [Pa].
        stiffness_pa: E [Pa].

    Example:
        >>> round(transition_slenderness(350e6, 200e9), 1)
        106.2
    """
    return sqrt(2.0 * pi**2 * stiffness_pa / yield_pa)


def stepped_share(tube_m: float, rod_m: float) -> float:
    """What buckles a rod that stands out of a stiff tube, over Euler's load of the rod alone: (u / pi)^2, sin u + (a/b) u cos u = 0.

    The tube is taken as stiff: 1 without a tube, a quarter with a very long one.  Source: statics of the stepped column.

    Args:
        tube_m: a, tube and its fork, pin to gland [m].
        rod_m: b, rod that shows and its fork [m].

    Example:
        >>> round(stepped_share(0.0, 1.0), 6), round(stepped_share(1.0, 1.0), 3), round(stepped_share(1e6, 1.0), 3)
        (1.0, 0.417, 0.25)
    """
    low, high, ratio = pi / 2.0, pi, tube_m / rod_m
    for _ in range(60):
        u = (low + high) / 2.0
        low, high = (u, high) if sin(u) + ratio * u * cos(u) > 0.0 else (low, u)
    return (high / pi) ** 2


def rod_buckles_n(rod_diameter_m: float, rod_m: float, tube_m: float = 0.0) -> float:
    """Force at which a pin-ended round rod buckles: Euler's when slender, Johnson's parabola when not [N].

    Args:
        rod_diameter_m: [m].
        rod_m: Rod that shows at the most [m].
        tube_m: The tube it stands out of, taken as stiff [m].

    Example:
        >>> round(rod_buckles_n(0.020, 0.700) / 1e3, 1)
        31.6
    """
    area, inertia = pi / 4.0 * rod_diameter_m**2, pi * rod_diameter_m**4 / 64.0
    euler = pi**2 * STEEL_PA * inertia / rod_m**2 * stepped_share(tube_m, rod_m)
    slender = pi * sqrt(STEEL_PA * area / euler)
    if slender >= transition_slenderness(ROD_YIELD_PA, STEEL_PA):
        return euler
    return area * ROD_YIELD_PA * (1.0 - ROD_YIELD_PA * slender**2 / (4.0 * pi**2 * STEEL_PA))


def rod_push(rod_diameter_m: float, rod_m: float, tube_m: float = 0.0) -> Allowable:
    """Allowable push of a pin-ended round rod [N]: what buckles it over 3.

    Source: Euler, Johnson; safety 3 by actuator handbooks (from memory).

    Args:
        rod_diameter_m: [m].
        rod_m: Rod that shows at the most [m].
        tube_m: The tube it stands out of, taken as stiff [m].
    """
    buckles = rod_buckles_n(rod_diameter_m, rod_m, tube_m)
    value = buckles / ROD_SAFETY
    where = Source("Euler for a rod out of a stiff tube, Johnson where it is stocky", "pinned ends", "computed")  # fmt: skip
    steps = (
        Step("share of the rod's own Euler load the tube leaves", "(u/pi)^2", f"sin u + {tube_m:.3f} / {rod_m:.3f} u cos u = 0", stepped_share(tube_m, rod_m), "", where),
        Step("push that buckles it", "Pcr", f"{rod_diameter_m * 1e3:.1f} mm round, {rod_m:.3f} m out of {tube_m:.3f} m", buckles, "N", where),
        Step("allowable push of the rod", "Pc", f"{buckles:.0f} / {ROD_SAFETY:g}", value, "N", where),
    )  # fmt: skip
    return Allowable(value, "N", steps)


def module_front(tested_front_pa: float) -> Allowable:
    """Allowable pressure on the glass [Pa]: test over 1.5."""
    return _module(tested_front_pa, "glass")


def module_back(tested_back_pa: float) -> Allowable:
    """Allowable pressure on the back [Pa]: test over 1.5."""
    return _module(tested_back_pa, "back")


def _module(tested_pa: float, side: str) -> Allowable:
    value = tested_pa / MODULE_SAFETY
    steps = (
        Step(f"test load on the {side}, clamped as the maker says", "pt", "", tested_pa, "Pa", OWNER),
        Step("allowable", "pc", f"{tested_pa:.0f} / {MODULE_SAFETY}", value, "Pa", Source("IEC 61215-2", "safety between test and design load", "memory")),
    )  # fmt: skip
    return Allowable(value, "Pa", steps)
