"""The pour: volume, bags or truck, spoil."""

from __future__ import annotations

from math import ceil, pi

from polestead.base.source import COMMON_PRACTICE, OWNER, Source
from polestead.base.table import table
from polestead.base.working import Step, Working
from polestead.build.result import Concrete

BAG_80_LB_M3 = 0.60 * 0.028316846592
BAG_YIELD = Source("bagged-concrete yield tables", "80 lb: 0.60 ft3")
WASTE_SHARE = 0.10  # an augered hole is never round: common practice, no source
TRUCK_FROM_M3 = 1.0  # past about 60 bags a truck is the sensible way: common practice, no source
GEOMETRY = Source("volume of a cylinder", status="computed")


def cylinder_m3(diameter_m: float, height_m: float) -> float:
    """Volume of a cylinder.

    Example:
        >>> round(cylinder_m3(0.75, 2.1), 3)
        0.928
    """
    return pi * diameter_m**2 / 4.0 * height_m


def loose_m3(bank_m3: float, soil: str) -> float:
    """Dug soil as it lies beside the hole.

    Source: swell factors of ``soil.csv``.

    Args:
        bank_m3: In the ground [m^3].
        soil: Soil class of the place section.

    Example:
        >>> round(loose_m3(8000.0, "clay or silt"))
        11200
    """
    swell = next(float(row["swell"]) for row in table("build", "soil") if row["soil"] == soil)
    return bank_m3 * (1.0 + swell)


def concrete_of(
    diameter_m: float,
    depth_m: float,
    collar_m: float,
    pole_outside_m: float,
    pole_depth_m: float,
    soil: str,
) -> Concrete:
    """The pour of a round pier with the pole standing in it, filled inside as well.

    The pole's steel is thin: its own volume is taken out as the whole cylinder it stands for only if it is left empty;
    here it is filled, so nothing is taken out of the order but the steel is neglected (under 2 %).

    Args:
        diameter_m: Of the hole [m].
        depth_m: Below the ground [m].
        collar_m: Above the ground [m].
        pole_outside_m: Pole's outside diameter [m].
        pole_depth_m: Pole below the ground [m].
        soil: Soil class.
    """
    volume_m3 = cylinder_m3(diameter_m, depth_m + collar_m)
    order_m3 = volume_m3 * (1.0 + WASTE_SHARE)
    bags = ceil(order_m3 / BAG_80_LB_M3)
    bank_m3 = cylinder_m3(diameter_m, depth_m)
    filled_m3 = cylinder_m3(pole_outside_m, pole_depth_m)
    steps = (
        Step("diameter of the hole", "b", "", diameter_m, "m", OWNER),
        Step("depth and collar", "D + e", f"{depth_m:.3f} + {collar_m:.3f}", depth_m + collar_m, "m", OWNER),
        Step("in place", "V", f"pi {diameter_m:.3f}^2 / 4 x {depth_m + collar_m:.3f}", volume_m3, "m^3", GEOMETRY),
        Step("of it inside the pole, poured through its top", "Vp", f"pi {pole_outside_m:.3f}^2 / 4 x {pole_depth_m:.3f}", filled_m3, "m^3", GEOMETRY),
        Step("to order", "V + 10 %", f"{volume_m3:.3f} x {1 + WASTE_SHARE:.2f}", order_m3, "m^3", COMMON_PRACTICE),
        Step("or bags of 80 lb", "n", f"{order_m3:.3f} / {BAG_80_LB_M3:.5f}, rounded up", float(bags), "", BAG_YIELD),
    )  # fmt: skip
    working = Working("concrete for the pier", steps)
    return Concrete(
        volume_m3,
        order_m3,
        bags,
        order_m3 >= TRUCK_FROM_M3,
        bank_m3,
        loose_m3(bank_m3, soil),
        working,
    )
