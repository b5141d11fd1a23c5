"""Fillet welds of ears, and steel under the everyday gusts of many years."""

from __future__ import annotations

from dataclasses import dataclass
from math import pi, sqrt

from polestead.base.source import Source
from polestead.base.working import Step
from polestead.strength.allowable import GAMMA_M2, Allowable, SteelCode, en
from polestead.strength.pins import PIN_OMEGA
from polestead.strength.pole import aisc, material

ROD_PA = 482.6e6  # E70 electrode, 70 ksi; the weaker of rod and steel counts (EN: the steel, under a rod as strong)
THROAT = sqrt(0.5)
# beta_w of EN 1993-1-8 Table 4.1
_BETA = {"S235": 0.8, "S355": 0.9, "A36": 0.85}
# Stress ranges that may come for ever (from memory): a fillet welded ear, AISC 360 category E, 4.5 ksi; plain pipe, B, 16 ksi.
# Eurocode: detail 36 on the throat and 140 for plain pipe, at the constant amplitude limit (.737) over 1.35.
ENDLESS_PA: dict[SteelCode, dict[str, float]] = {
    "AISC": {"weld": 31.0e6, "pipe": 110.3e6},
    "EN": {"weld": 0.737 * 36e6 / 1.35, "pipe": 0.737 * 140e6 / 1.35},
}
ENDLESS_SOURCE: dict[SteelCode, Source] = {
    "AISC": Source("AISC 360-16", "Table A-3.1, categories E and B, threshold", "memory"),
    "EN": Source(
        "EN 1993-1-9:2005", "details 36 and 140, constant amplitude limit over 1.35", "memory"
    ),
}
EVERYDAY_GUST_PA = 5.2 * 47.88026  # range of pressure by natural gusts, before the drag coefficient
EVERYDAY_SOURCE = Source(
    "AASHTO signs and luminaires", "11.7.1.2, natural gusts, times Cd", "memory"
)


@dataclass(frozen=True, slots=True)
class WeldLine:
    """A weld taken as a line: its length, its section modulus in bending, its polar modulus.

    Attributes:
        length_m: All round.
        bending_m2: S, moment over it is force on a metre of weld.
        polar_m2: J / r, the same for twist.
    """

    length_m: float
    bending_m2: float
    polar_m2: float


def round_weld(radius_m: float) -> WeldLine:
    """A weld all round a pipe: S = pi r^2, J / r = 2 pi r^2.

    Source: Blodgett, Design of Welded Structures, welds as lines (from memory).

    Args:
        radius_m: r [m].

    Example:
        >>> round(round_weld(3.3125).bending_m2, 2)
        34.47
    """
    return WeldLine(2.0 * pi * radius_m, pi * radius_m**2, 2.0 * pi * radius_m**2)


def box_weld(breadth_m: float, depth_m: float) -> WeldLine:
    """A weld round a rectangle: S = b d + d^2 / 3, J = (b + d)^3 / 6 at the corner.

    Source: Blodgett, welds as lines (from memory).

    Args:
        breadth_m: b [m].
        depth_m: d [m].

    Example:
        >>> round(box_weld(4.0, 6.0).bending_m2, 1)
        36.0
    """
    polar = (breadth_m + depth_m) ** 3 / 6.0
    corner = 0.5 * sqrt(breadth_m**2 + depth_m**2)
    return WeldLine(
        2.0 * (breadth_m + depth_m), breadth_m * depth_m + depth_m**2 / 3.0, polar / corner
    )


def _ultimate_pa(steel: str, code: SteelCode) -> float:
    """Fu that counts: EN 1993-1-8 4.5.3.3 asks for the weaker part joined; beside AISC the rod's, if it is weaker."""
    fu = float(material(steel)["ultimate_mpa"]) * 1e6
    return fu if code == "EN" else min(fu, ROD_PA)


def line_strength_n_m(leg_m: float, steel: str, code: SteelCode = "AISC") -> tuple[float, Step]:
    """Force a metre of fillet weld may carry [N/m].

    Source: AISC 360 J2.4; EN 1993-1-8 4.5.3.3.

    Args:
        leg_m: Of the fillet [m].
        steel: A row of ``materials.csv``.
        code: Which code's format.

    Example:
        >>> pounds = line_strength_n_m(0.00635, "A53 B")[0] / 175.126835  # 1/4 in, E70, lb/in
        >>> 3000.0 < pounds < 3712.0
        True
    """
    fu = _ultimate_pa(steel, code)
    if code == "EN":
        beta = _BETA.get(steel, 0.9)
        value = fu / (sqrt(3.0) * beta * GAMMA_M2) * THROAT * leg_m
        formula, clause = f"{fu:.4g} / (sqrt 3 x {beta} x {GAMMA_M2}) x .707 x {leg_m:.4f}", en("1-8, 4.5.3.3")  # fmt: skip
    else:
        value = 0.6 * fu / PIN_OMEGA * THROAT * leg_m
        formula, clause = f"0.6 x {fu:.4g} / {PIN_OMEGA} x .707 x {leg_m:.4f}", aisc("J2.4")
    return value, Step("force a metre of weld may carry", "rw", formula, value, "N/m", clause)


@dataclass(frozen=True, slots=True)
class EarFoot:
    """The weld under one ear: a fillet along both sides of its foot.

    Attributes:
        leg_m: Of the fillet.
        length_m: Of the foot.
        height_m: From the weld to the middle of the pin.
        steel: A row of ``materials.csv``.
    """

    leg_m: float
    length_m: float
    height_m: float
    steel: str


def stress_of_one_n(foot: EarFoot) -> float:
    """Stress on the throat of one ear's weld by 1 N on the pin, half of it on each of two ears [1/m2].

    Straight and bent added as if both stood square to the foot, which is on the careful side: 1 / (4 a L) + 3 h / (2 a L^2).

    Args:
        foot: The weld.
    """
    throat = THROAT * foot.leg_m
    straight = 0.5 / (2.0 * throat * foot.length_m)
    bent = 0.5 * foot.height_m / (throat * foot.length_m**2 / 3.0)
    return straight + bent


def ear_weld(foot: EarFoot, code: SteelCode = "AISC") -> Allowable:
    """Force on the pin that the welds of both its ears may carry [N].

    Source: AISC 360 J2.4: .6 F_EXX on the throat, over 2.0; EN 1993-1-8 4.5.3.3: fu / (sqrt 3 beta_w 1.25).

    Args:
        foot: The weld.
        code: Which code's format.
    """
    fu = _ultimate_pa(foot.steel, code)
    if code == "EN":
        stress = fu / (sqrt(3.0) * _BETA[foot.steel] * GAMMA_M2)
        formula, clause = (
            f"{fu:.4g} / (sqrt 3 x {_BETA[foot.steel]} x {GAMMA_M2})",
            en("1-8, 4.5.3.3"),
        )
    else:
        stress = 0.6 * fu / PIN_OMEGA
        formula, clause = f"0.6 x {fu:.4g} / {PIN_OMEGA}", aisc("J2.4")
    each = stress_of_one_n(foot)
    value = stress / each
    by = f"1 / (4 x {THROAT * foot.leg_m:.4f} x {foot.length_m:.4f}) + 3 x {foot.height_m:.4f} / (2 x {THROAT * foot.leg_m:.4f} x {foot.length_m:.4f}^2)"
    statics = Source("statics of the ear's foot", "docs/method/stand.md", "ours")
    steps = (
        Step("stress the throat may carry" + ("" if code == "EN" else ", by the weaker of rod and steel"), "fw", formula, stress, "Pa", clause),
        Step("stress by 1 N on the pin", "s / F", by, each, "1/m^2", statics),
        Step("force on the pin at that stress", "Rc", f"{stress:.5g} / {each:.4g}", value, "N", clause),
    )  # fmt: skip
    return Allowable(value, "N", steps)
