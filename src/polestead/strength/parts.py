"""Pins, tubes, rod and modules: allowable strengths as plain numbers with their steps."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import pi, sqrt

from polestead.base.problem import Problem, Wrong
from polestead.base.source import OWNER, Source
from polestead.base.table import table
from polestead.base.working import Step
from polestead.homestead.sentences import TUBE_FORMS, tube_sentence
from polestead.strength.pole import INCH_M, OMEGA, aisc, buckling_stress_pa, material

PIN_OMEGA = 2.0  # AISC 360 J3.6
ROD_SAFETY = 3.0  # actuator handbooks: 3 to 3.5 (from memory)
MODULE_SAFETY = 1.5  # between test load and design load, IEC 61215-2 (from memory)
STEEL_PA = 200e9


@dataclass(frozen=True, slots=True)
class Allowable:
    """One allowable strength and how it was found."""

    value: float
    unit: str
    steps: tuple[Step, ...]


@dataclass(frozen=True, slots=True)
class TubeSection:
    """A square or rectangular tube with its design wall and steel."""

    written: str
    depth_m: float
    breadth_m: float
    design_wall_m: float
    area_m2: float
    inertia_m4: float
    plastic_m3: float
    torsion_m3: float
    radius_m: float
    mass_kg_m: float
    yield_pa: float


def tube_section(written: str) -> TubeSection:
    """``HSS 6x6x1/4 A500 C`` or ``SHS 60x60x4 S355``; depth by breadth by wall.

    Outside corner radius twice the wall (AISC Manual and EN 10219 practice); closed form with the corners taken off.  HSS of
    A500 count 0.93 of the nominal wall.

    Args:
        written: The owner's words.

    Raises:
        Wrong: Not readable, or no tube that could be.

    Example:
        >>> tube = tube_section("HSS 6x6x1/4 A500 C")
        >>> round(tube.area_m2 / 0.0254**2, 2), round(tube.plastic_m3 / 0.0254**3, 1)
        (5.22, 11.2)
    """
    try:
        words = tube_sentence(written)
    except ValueError as wrong:
        raise Wrong([Problem("", "tube", written, TUBE_FORMS, f"{wrong}.")]) from None
    kind, sides, steel = words.split(" ", 2)
    depth, breadth, wall = (float(Fraction(part)) for part in sides.split("x"))
    unit = INCH_M if kind == "HSS" else 0.001
    return _tube(written, depth * unit, breadth * unit, wall * unit, material(steel))


def _tube(
    written: str, depth: float, breadth: float, wall: float, steel: dict[str, str]
) -> TubeSection:
    t = wall * float(steel["wall_share"])
    outer, inner = (
        _Rounded(depth, breadth, 2.0 * t),
        _Rounded(depth - 2.0 * t, breadth - 2.0 * t, t),
    )
    nominal = (
        _Rounded(depth, breadth, 2.0 * wall).area
        - _Rounded(depth - 2.0 * wall, breadth - 2.0 * wall, wall).area
    )
    area, inertia = outer.area - inner.area, outer.inertia - inner.inertia
    torsion = 2.0 * (depth - t) * (breadth - t) * t - 4.5 * (4.0 - pi) * t**3
    return TubeSection(
        written,
        depth,
        breadth,
        t,
        area,
        inertia,
        outer.plastic - inner.plastic,
        torsion,
        sqrt(inertia / area),
        nominal * float(steel["density_kg_m3"]),
        float(steel["yield_mpa"]) * 1e6,
    )


@dataclass(frozen=True, slots=True)
class _Rounded:
    """A rectangle with rounded corners; each corner takes off (1 - pi/4) r^2 at 0.2234 r from both edges."""

    depth: float
    breadth: float
    corner: float

    @property
    def _off(self) -> tuple[float, float]:
        return (1.0 - pi / 4.0) * self.corner**2, self.depth / 2.0 - 0.2234 * self.corner

    @property
    def area(self) -> float:
        return self.depth * self.breadth - 4.0 * self._off[0]

    @property
    def inertia(self) -> float:
        off, at = self._off
        return self.breadth * self.depth**3 / 12.0 - 4.0 * (0.00755 * self.corner**4 + off * at**2)

    @property
    def plastic(self) -> float:
        off, at = self._off
        return self.breadth * self.depth**2 / 4.0 - 4.0 * off * at


def pin_double_shear(diameter_m: float, steel: str) -> Allowable:
    """Allowable shear of a pin cut twice [N].

    Source: AISC 360 J3.6: Fnv A / 2.0 on each of two planes.

    Args:
        diameter_m: Of the pin [m].
        steel: A row of ``pins.csv``.

    Example:
        >>> round(pin_double_shear(0.01905, "A307").value / 4448.2216, 1)  # 3/4 in, kip
        11.9
    """
    row = next(row for row in table("strength", "pins") if row["steel"] == steel)
    shear_pa, area = float(row["shear_mpa"]) * 1e6, pi / 4.0 * diameter_m**2
    value = 2.0 * shear_pa * area / PIN_OMEGA
    steps = (
        Step(
            "shear strength of the pin",
            "Fnv",
            "",
            shear_pa,
            "Pa",
            Source(row["source"], status="memory"),
        ),
        Step("area of the pin", "A", f"pi {diameter_m:.5f}^2 / 4", area, "m^2", aisc("J3.6")),
        Step(
            "allowable, cut twice",
            "Rc",
            f"2 x {shear_pa:.4g} x {area:.4g} / {PIN_OMEGA}",
            value,
            "N",
            aisc("J3.6"),
        ),
    )
    return Allowable(value, "N", steps)


def strut_push(tube: TubeSection, length_m: float) -> Allowable:
    """Allowable push of a pin-ended strut [N] (AISC 360 E3, K = 1).

    Args:
        tube: Its section.
        length_m: Pin to pin [m].
    """
    slenderness = length_m / tube.radius_m
    stress = buckling_stress_pa(slenderness, tube.yield_pa, STEEL_PA)
    value = stress * tube.area_m2 / OMEGA
    steps = (
        Step(
            "slenderness",
            "L / r",
            f"{length_m:.3f} / {tube.radius_m:.4f}",
            slenderness,
            "",
            aisc("E2"),
        ),
        Step(
            "allowable push",
            "Pc",
            f"{stress:.4g} x {tube.area_m2:.4g} / {OMEGA}",
            value,
            "N",
            aisc("E3"),
        ),
    )
    return Allowable(value, "N", steps)


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


def tube_bending(tube: TubeSection) -> Allowable:
    """Allowable bending moment of a tube [N m]: Fy Z / 1.67 (AISC 360 F7, compact walls).

    A wall over 1.12 sqrt(E / Fy) wide is not compact; it is then taken at the elastic modulus.

    Args:
        tube: Its section.
    """
    flat = (tube.breadth_m - 3.0 * tube.design_wall_m) / tube.design_wall_m
    compact = flat <= 1.12 * sqrt(STEEL_PA / tube.yield_pa)
    modulus = tube.plastic_m3 if compact else 2.0 * tube.inertia_m4 / tube.depth_m
    value = tube.yield_pa * modulus / OMEGA
    formula = (
        f"{tube.yield_pa:.4g} x {modulus:.4g} / {OMEGA}{'' if compact else ' (walls not compact)'}"
    )
    return Allowable(
        value,
        "N m",
        (Step("allowable bending of the tube", "Mc", formula, value, "N m", aisc("F7")),),
    )


def tube_torsion(tube: TubeSection) -> Allowable:
    """Allowable torsion of a tube [N m]: 0.6 Fy C / 1.67 (AISC 360 H3.1, stocky walls).

    Args:
        tube: Its section.
    """
    value = 0.6 * tube.yield_pa * tube.torsion_m3 / OMEGA
    formula = f"0.6 x {tube.yield_pa:.4g} x {tube.torsion_m3:.4g} / {OMEGA}"
    return Allowable(
        value,
        "N m",
        (Step("allowable twist of the tube", "Tc", formula, value, "N m", aisc("H3.1")),),
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
