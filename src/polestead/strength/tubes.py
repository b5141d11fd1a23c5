"""Square and rectangular tubes: section, bending, twist, push."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction
from math import pi, sqrt

from polestead.base.problem import Problem, Wrong
from polestead.base.working import Step
from polestead.homestead.sentences import TUBE_FORMS, tube_sentence
from polestead.strength.allowable import GAMMA_M0, STEEL_EN_PA, STEEL_PA, Allowable, SteelCode, en
from polestead.strength.pole import (
    CURVE_C,
    INCH_M,
    OMEGA,
    aisc,
    buckling_share,
    buckling_stress_pa,
    material,
    yield_source,
)


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
    steel: str


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
    return _tube(written, depth * unit, breadth * unit, wall * unit, steel)


def _tube(written: str, depth: float, breadth: float, wall: float, named: str) -> TubeSection:
    steel = material(named)
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
    weak = (
        _Rounded(breadth, depth, 2.0 * t).inertia
        - _Rounded(breadth - 2.0 * t, depth - 2.0 * t, t).inertia
    )
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
        sqrt(min(inertia, weak) / area),
        nominal * float(steel["density_kg_m3"]),
        float(steel["yield_mpa"]) * 1e6,
        named,
    )


def tube_yield(tube: TubeSection) -> Step:
    """Yield strength a tube is counted with: of A500 the round's, which is the lesser.

    Args:
        tube: Its section.

    Example:
        >>> tube_yield(tube_section("HSS 6x6x1/4 A500 C")).formula
        'min(3.172e+08, 3.447e+08)'
    """
    row = material(tube.steel)
    square = row["square_yield_mpa"]
    both = f"min({tube.yield_pa:.4g}, {float(square) * 1e6:.4g})" if square else ""
    word = f"yield of {tube.steel}" + (", round or square, the lesser" if square else "")
    return Step(word, "Fy", both, tube.yield_pa, "Pa", yield_source(row))


def turned(tube: TubeSection) -> TubeSection:
    """The same tube lying on its side: bent about its other axis.

    Args:
        tube: Depth by breadth.
    """
    t = tube.design_wall_m
    depth, breadth = tube.breadth_m, tube.depth_m
    outer = _Rounded(depth, breadth, 2.0 * t)
    inner = _Rounded(depth - 2.0 * t, breadth - 2.0 * t, t)
    return replace(
        tube, depth_m=depth, breadth_m=breadth, inertia_m4=outer.inertia - inner.inertia, plastic_m3=outer.plastic - inner.plastic,
    )  # fmt: skip


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


def strut_push(tube: TubeSection, length_m: float, code: SteelCode = "AISC") -> Allowable:
    """What a pin-ended strut may be pushed with [N] (AISC 360 E3, K = 1; EN 1993-1-1 6.3.1, curve c).

    Args:
        tube: Its section.
        length_m: Pin to pin [m].
        code: Which code's format.
    """
    slenderness = length_m / tube.radius_m
    first = Step("slenderness", "L / r", f"{length_m:.3f} / {tube.radius_m:.4f}", slenderness, "", aisc("E2") if code == "AISC" else en("1-1, 6.3.1.3"))  # fmt: skip
    if code == "EN":
        share = buckling_share(slenderness, tube.yield_pa, STEEL_EN_PA, CURVE_C)
        value = share * tube.area_m2 * tube.yield_pa / GAMMA_M0
        formula = f"{share:.3f} x {tube.area_m2:.4g} x {tube.yield_pa:.4g} / {GAMMA_M0}"
        return Allowable(value, "N", (tube_yield(tube), first, Step("design push", "Nb,Rd", formula, value, "N", en("1-1, 6.3.1.1, curve c"))))  # fmt: skip
    stress = buckling_stress_pa(slenderness, tube.yield_pa, STEEL_PA)
    value = stress * tube.area_m2 / OMEGA
    formula = f"{stress:.4g} x {tube.area_m2:.4g} / {OMEGA}"
    return Allowable(value, "N", (tube_yield(tube), first, Step("allowable push", "Pc", formula, value, "N", aisc("E3"))))  # fmt: skip


def tube_bending(tube: TubeSection, code: SteelCode = "AISC") -> Allowable:
    """Bending moment a tube may carry [N m]: Fy Z / 1.67 (AISC 360 F7), or Wpl fy (EN 1993-1-1 6.2.5).

    A wall over 1.12 sqrt(E / Fy) wide (EN: 38 epsilon) is not compact; it is then taken at the elastic modulus.

    Args:
        tube: Its section.
        code: Which code's format.
    """
    flat = (tube.breadth_m - 3.0 * tube.design_wall_m) / tube.design_wall_m
    widest = 38.0 * sqrt(235e6 / tube.yield_pa) if code == "EN" else 1.12 * sqrt(STEEL_PA / tube.yield_pa)  # fmt: skip
    compact = flat <= widest
    modulus = tube.plastic_m3 if compact else 2.0 * tube.inertia_m4 / tube.depth_m
    over = GAMMA_M0 if code == "EN" else OMEGA
    value = tube.yield_pa * modulus / over
    formula = (
        f"{tube.yield_pa:.4g} x {modulus:.4g} / {over}{'' if compact else ' (walls not compact)'}"
    )
    source = en("1-1, 6.2.5") if code == "EN" else aisc("F7")
    return Allowable(value, "N m", (Step("bending the tube may carry", "Mc", formula, value, "N m", source),))  # fmt: skip


def tube_torsion(tube: TubeSection, code: SteelCode = "AISC") -> Allowable:
    """Twist a tube may carry [N m]: 0.6 Fy C / 1.67 (AISC 360 H3.1, stocky walls), or C fy / sqrt 3 (EN 1993-1-1 6.2.7).

    Args:
        tube: Its section.
        code: Which code's format.
    """
    share, over = (1.0 / sqrt(3.0), GAMMA_M0) if code == "EN" else (0.6, OMEGA)
    value = share * tube.yield_pa * tube.torsion_m3 / over
    formula = f"{share:.3g} x {tube.yield_pa:.4g} x {tube.torsion_m3:.4g} / {over}"
    source = en("1-1, 6.2.7") if code == "EN" else aisc("H3.1")
    return Allowable(value, "N m", (Step("twist the tube may carry", "Tc", formula, value, "N m", source),))  # fmt: skip


def tube_shear(tube: TubeSection, code: SteelCode = "AISC") -> Allowable:
    """Shear a tube may carry along its depth [N]: 0.6 Fy Aw Cv2 / 1.67 (AISC 360 G4), or Av fy / sqrt 3 (EN 1993-1-1 6.2.6).

    Aw = 2 (d - 3 t) t; Av = A d / (d + b).  Cv2 after G2.2 with kv = 5; the flat of the wall is taken as the depth less three walls.

    Args:
        tube: Its section, sheared along its depth.
        code: Which code's format.

    Example:
        >>> round(tube_shear(tube_section("HSS 6x6x1/4 A500 C")).value / 4448.22, 1)  # kip
        40.8
    """
    if code == "EN":
        area = tube.area_m2 * tube.depth_m / (tube.depth_m + tube.breadth_m)
        value = area * tube.yield_pa / sqrt(3.0) / GAMMA_M0
        formula = f"{area:.4g} x {tube.yield_pa:.4g} / sqrt(3) / {GAMMA_M0}"
        return Allowable(value, "N", (Step("shear the tube may carry", "Vc", formula, value, "N", en("1-1, 6.2.6")),))  # fmt: skip
    t = tube.design_wall_m
    flat_m = tube.depth_m - 3.0 * t
    share = _web_share(flat_m / t, tube.yield_pa)
    value = 0.6 * tube.yield_pa * 2.0 * flat_m * t * share / OMEGA
    formula = f"0.6 x {tube.yield_pa:.4g} x 2 x {flat_m:.4f} x {t:.5f} x {share:.3g} / {OMEGA}"
    return Allowable(value, "N", (Step("shear the tube may carry", "Vc", formula, value, "N", aisc("G4")),))  # fmt: skip


def _web_share(slender: float, yield_pa: float) -> float:
    """Cv2 of a wall's h / t (AISC 360 G2.2, kv = 5)."""
    stiff = 5.0 * STEEL_PA / yield_pa
    if slender <= 1.10 * sqrt(stiff):
        return 1.0
    if slender <= 1.37 * sqrt(stiff):
        return 1.10 * sqrt(stiff) / slender
    return 1.51 * stiff / slender**2
