"""What a maker rates: the actuator's rod, the modules."""

from __future__ import annotations

from math import pi

from polestead.base.source import OWNER, Source
from polestead.base.working import Step
from polestead.strength.allowable import STEEL_PA, Allowable

ROD_SAFETY = 3.0  # actuator handbooks: 3 to 3.5 (from memory)
MODULE_SAFETY = 1.5  # between test load and design load, IEC 61215-2 (from memory)


def rod_push(rod_diameter_m: float, free_length_m: float) -> Allowable:
    """Allowable push of a pin-ended round rod [N]: Euler's load over 3.

    Source: Euler; safety 3 by actuator handbooks (from memory).

    Args:
        rod_diameter_m: [m].
        free_length_m: Pin to pin [m].
    """
    inertia = pi * rod_diameter_m**4 / 64.0
    value = pi**2 * STEEL_PA * inertia / free_length_m**2 / ROD_SAFETY
    formula = f"pi^2 x {STEEL_PA:.3g} x {inertia:.4g} / {free_length_m:.3f}^2 / {ROD_SAFETY:g}"
    return Allowable(
        value,
        "N",
        (
            Step(
                "allowable push of the rod",
                "Pc",
                formula,
                value,
                "N",
                Source("Euler", "pinned ends", "computed"),
            ),
        ),
    )


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
