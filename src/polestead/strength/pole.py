"""The pole: its section, its allowable strengths, its use (AISC 360 ASD)."""

from __future__ import annotations

from dataclasses import dataclass
from math import inf, pi, sqrt, tan

import numpy as np
from numpy.typing import NDArray

from polestead.base.problem import Problem, Wrong
from polestead.base.source import Source
from polestead.base.table import table
from polestead.base.working import Step
from polestead.homestead.words import PoleWords
from polestead.strength.allowable import GAMMA_M0, GAMMA_M1, SteelCode, en
from polestead.strength.aluminium import OMEGA_YIELD, column_stress_pa
from polestead.strength.aluminium import SOURCE as ADM

Floats = NDArray[np.float64]

INCH_M = 0.0254
OMEGA = 1.67  # AISC 360: flexure F1, compression E1, shear G1, torsion H3
UNKNOWN_WALL = 0.93  # AISC 360 B4.2, of a nominal wall
ALUMINIUM_UNDER_PA = 100e9  # whose stiffness is under this
CURVE_A, CURVE_C = (
    0.21,
    0.49,
)  # imperfection of EN 1993-1-1 Table 6.1: hot finished, cold formed (from memory)
ASD_LEAN = 1.6  # alpha of AISC 360 Appendix 8: second order is that of 1.6 times the allowable loads (from memory)
CANTILEVER_K = (
    2.1  # AISC 360 Table C-A-7.1, recommended for a fixed foot and a free top (from memory)
)


def aisc(place: str) -> Source:
    """AISC 360 at a place, from memory until a licensed copy confirms it."""
    return Source("AISC 360-16", place, "memory")


@dataclass(frozen=True, slots=True)
class PipeSection:
    """A round pipe with its design wall and its steel.

    Attributes:
        written: The owner's words.
        outside_m, wall_m, design_wall_m: Diameter, nominal (or measured) wall, wall that counts.
        area_m2, inertia_m4, elastic_m3, plastic_m3, torsion_m3: Of the design wall (torsion_m3 is C of AISC H3).
        mass_kg_m: Of the nominal wall.
        yield_pa, ultimate_pa, stiffness_pa: The steel.
        assumed: What was taken on trust (an unknown steel), for the owner to see.
        steel: A row of ``materials.csv``.
    """

    written: str
    outside_m: float
    wall_m: float
    design_wall_m: float
    area_m2: float
    inertia_m4: float
    elastic_m3: float
    plastic_m3: float
    torsion_m3: float
    mass_kg_m: float
    yield_pa: float
    ultimate_pa: float
    stiffness_pa: float
    assumed: str
    steel: str


@dataclass(frozen=True, slots=True)
class PoleStrength:
    """Allowable strengths (Rn / omega) and the Euler load, with how they were found.

    Attributes:
        bending_n_m, axial_n, shear_n, torsion_n_m: What it may carry.
        euler_n: Elastic buckling load.
        steps: Their rungs.
        lean: How many times its push second order counts: 1.6 in the allowable format, 1 against design resistances.
    """

    bending_n_m: float
    axial_n: float
    shear_n: float
    torsion_n_m: float
    euler_n: float
    steps: tuple[Step, ...]
    lean: float = ASD_LEAN


@dataclass(frozen=True, slots=True)
class Ring:
    """Section of a round pipe: area, inertia, elastic and plastic modulus, torsion constant C."""

    area_m2: float
    inertia_m4: float
    elastic_m3: float
    plastic_m3: float
    torsion_m3: float


def ring(outside_m: float, wall_m: float) -> Ring:
    """Section of a round pipe, closed form; C = pi (D - t)^2 t / 2 of AISC 360 H3.1.

    Args:
        outside_m: Outside diameter D [m].
        wall_m: Wall t [m], 0 < t <= D / 2.

    Raises:
        ValueError: The wall is outside (0, D / 2].

    Example:
        >>> section = ring(0.168275, 0.007112)  # 6 in schedule 40
        >>> round(section.area_m2 * 1e6), round(section.inertia_m4 * 1e8, 1), round(section.plastic_m3 * 1e6, 1)
        (3601, 1171.4, 184.8)
    """
    if not 0.0 < wall_m <= outside_m / 2.0:
        message = f"a wall of {wall_m} m in a pipe of {outside_m} m"
        raise ValueError(message)
    inside_m = outside_m - 2.0 * wall_m
    inertia = pi / 64.0 * (outside_m**4 - inside_m**4)
    return Ring(
        pi / 4.0 * (outside_m**2 - inside_m**2),
        inertia,
        2.0 * inertia / outside_m,
        (outside_m**3 - inside_m**3) / 6.0,
        pi * (outside_m - wall_m) ** 2 * wall_m / 2.0,
    )


def material(name: str) -> dict[str, str]:
    """Row of ``materials.csv``."""
    return next(row for row in table("strength", "materials") if row["material"] == name)


def yield_source(row: dict[str, str]) -> Source:
    """Where the yield strength of a row of ``materials.csv`` stands, from memory."""
    return Source(row["yield_source"], "", "memory")


def pipe_section(words: PoleWords) -> PipeSection:
    """The section of a pole as written.

    Source: sizes ``pipes.csv``; the wall that counts is 0.93 of the nominal one for A53 and A500 (AISC 360 B4.2).

    Args:
        words: The pole as read.

    Raises:
        Wrong: No such size in the table; names the sizes there are.
    """
    outside_m, wall_m = _lengths(words)
    steel = material(words.material)
    share = float(steel["wall_share"])
    if words.nominal is not None and words.material == "unknown steel":
        share = UNKNOWN_WALL  # rolled and welded to the same tolerance as the grades it may be
    design_m = wall_m * share
    section = ring(outside_m, design_m)
    return PipeSection(
        words.written,
        outside_m,
        wall_m,
        design_m,
        section.area_m2,
        section.inertia_m4,
        section.elastic_m3,
        section.plastic_m3,
        section.torsion_m3,
        ring(outside_m, wall_m).area_m2 * float(steel["density_kg_m3"]),
        float(steel["yield_mpa"]) * 1e6,
        float(steel["ultimate_mpa"]) * 1e6,
        float(steel["stiffness_gpa"]) * 1e9,
        steel["assumed"] or "",
        words.material,
    )


def _lengths(words: PoleWords) -> tuple[float, float]:
    if words.outside_m is not None and words.wall_m is not None:
        return words.outside_m, words.wall_m
    sizes = table("strength", "pipes")
    for row in sizes:
        if row["nominal"] == words.nominal and row["schedule"] == words.schedule:
            return float(row["outside_in"]) * INCH_M, float(row["wall_in"]) * INCH_M
    known = ", ".join(f"{row['nominal']} in schedule {row['schedule']}" for row in sizes)
    do = 'Measure it and write "measured ... outside, ... wall, ...".'
    raise Wrong([Problem("mount", "pole", words.written, known, do)])


def bending_n_m(pipe: PipeSection) -> tuple[float, str]:
    """Nominal bending strength of a round section and its formula with numbers (AISC 360 F8).

    Args:
        pipe: The section.
    """
    slender = pipe.outside_m / pipe.design_wall_m
    e, fy = pipe.stiffness_pa, pipe.yield_pa
    if slender <= 0.07 * e / fy:
        return (
            fy * pipe.plastic_m3,
            f"{fy:.4g} x {pipe.plastic_m3:.5g} (compact, D/t {slender:.1f})",
        )
    if slender <= 0.31 * e / fy:
        stress = 0.021 * e / slender + fy
        return (
            stress * pipe.elastic_m3,
            f"(0.021 x {e:.4g} / {slender:.1f} + {fy:.4g}) x {pipe.elastic_m3:.5g}",
        )
    stress = 0.33 * e / slender
    return stress * pipe.elastic_m3, f"0.33 x {e:.4g} / {slender:.1f} x {pipe.elastic_m3:.5g}"


def buckling_stress_pa(slenderness: float, yield_pa: float, stiffness_pa: float) -> float:
    """Critical stress of a column (AISC 360 E3-2, E3-3).

    Args:
        slenderness: K L / r.
        yield_pa: Fy [Pa].
        stiffness_pa: E [Pa].

    Example:
        >>> round(buckling_stress_pa(140.0, 35.0, 29000.0), 2)  # ksi in, ksi out
        12.81
    """
    elastic = float(pi**2 * stiffness_pa / slenderness**2)
    if yield_pa / elastic <= 2.25:
        return float(0.658 ** (yield_pa / elastic) * yield_pa)
    return float(0.877 * elastic)


def buckling_share(
    slenderness: float, yield_pa: float, stiffness_pa: float, imperfection: float
) -> float:
    """chi, the share of its yield load a column may be pushed with (EN 1993-1-1 6.3.1.2).

    Args:
        slenderness: L_cr / i.
        yield_pa: fy [Pa].
        stiffness_pa: E [Pa].
        imperfection: alpha.

    Example:
        >>> round(buckling_share(93.9, 235e6, 210e9, 0.49), 2)  # lambda bar 1.0 on curve c
        0.54
    """
    bar = slenderness / (pi * sqrt(stiffness_pa / yield_pa))
    phi = 0.5 * (1.0 + imperfection * (bar - 0.2) + bar**2)
    return min(1.0 / (phi + sqrt(max(phi**2 - bar**2, 0.0))), 1.0)


def pole_strength(pipe: PipeSection, free_length_m: float, code: SteelCode = "AISC") -> PoleStrength:  # fmt: skip
    """What a cantilever pole of that free length may carry (K = 2.1): allowable, or design resistances.

    Source: AISC 360 F8, E3, G5, H3.1, each over 1.67; EN 1993-1-1 6.2.5, 6.3.1 (curve c), 6.2.6, 6.2.7; aluminium after the
    Aluminum Design Manual, the strength of its weld zone over the whole length (under Eurocode through the clauses of steel
    with that strength, which is lower than EN 1999 asks).

    Args:
        pipe: The section.
        free_length_m: From the fixed point to the hinge [m].
        code: Which code's format.
    """
    if code == "EN":
        return _eurocode_strength(pipe, free_length_m)
    if pipe.stiffness_pa < ALUMINIUM_UNDER_PA:
        return _aluminium_strength(pipe, free_length_m)
    radius_m, slenderness, euler_n = _as_column(pipe, free_length_m)
    nominal, formula = bending_n_m(pipe)
    stress = buckling_stress_pa(slenderness, pipe.yield_pa, pipe.stiffness_pa)
    bending, axial = nominal / OMEGA, stress * pipe.area_m2 / OMEGA
    shear = 0.6 * pipe.yield_pa * pipe.area_m2 / 2.0 / OMEGA
    torsion = _torsion_stress_pa(pipe, free_length_m) * pipe.torsion_m3 / OMEGA
    steps = (
        Step(f"yield of {pipe.steel}", "Fy", "", pipe.yield_pa, "Pa", yield_source(material(pipe.steel))),
        Step("wall that counts", "t", f"{pipe.design_wall_m / pipe.wall_m:.2f} x {pipe.wall_m:.5f}", pipe.design_wall_m, "m", aisc("B4.2")),
        Step("nominal bending strength", "Mn", formula, nominal, "N m", aisc("F8")),
        Step("allowable bending", "Mc", f"{nominal:.5g} / {OMEGA}", bending, "N m", aisc("F1")),
        Step("slenderness", "K L / r", f"{CANTILEVER_K} x {free_length_m:.3f} / {radius_m:.4f}", slenderness, "", aisc("E2")),
        Step("allowable push", "Pc", f"{stress:.4g} x {pipe.area_m2:.5g} / {OMEGA}", axial, "N", aisc("E3")),
        Step("allowable shear", "Vc", f"0.6 x {pipe.yield_pa:.4g} x {pipe.area_m2:.5g} / 2 / {OMEGA}", shear, "N", aisc("G5")),
        Step("allowable twist", "Tc", f"0.6 x {pipe.yield_pa:.4g} x {pipe.torsion_m3:.5g} / {OMEGA}", torsion, "N m", aisc("H3.1")),
        Step("Euler load", "Pe", f"pi^2 x {pipe.stiffness_pa:.4g} x {pipe.inertia_m4:.4g} / ({CANTILEVER_K} x {free_length_m:.3f})^2", euler_n, "N", aisc("A-8-5")),
    )  # fmt: skip
    return PoleStrength(bending, axial, shear, torsion, euler_n, steps)


def _as_column(pipe: PipeSection, free_length_m: float) -> tuple[float, float, float]:
    """Radius of gyration [m], slenderness and Euler load [N] of a free-standing pole."""
    radius_m = sqrt(pipe.inertia_m4 / pipe.area_m2)
    length_m = CANTILEVER_K * free_length_m
    euler_n = pi**2 * pipe.stiffness_pa * pipe.inertia_m4 / length_m**2
    return radius_m, length_m / radius_m, euler_n


def eurocode_bending_n_m(pipe: PipeSection) -> tuple[float, str]:
    """M_c,Rd of a round tube and its formula: Wpl to D/t = 70 epsilon^2, Wel to 90, nothing beyond.

    Source: EN 1993-1-1 6.2.5 and Table 5.2 (from memory).

    Args:
        pipe: The section.
    """
    slender, epsilon2 = pipe.outside_m / pipe.design_wall_m, 235e6 / pipe.yield_pa
    if slender > 90.0 * epsilon2:
        return 0.0, f"D/t {slender:.1f} is over 90 epsilon^2: class 4, not summed here"
    modulus = pipe.plastic_m3 if slender <= 70.0 * epsilon2 else pipe.elastic_m3
    return pipe.yield_pa * modulus / GAMMA_M0, f"{pipe.yield_pa:.4g} x {modulus:.5g} / {GAMMA_M0} (D/t {slender:.1f})"  # fmt: skip


def thick_enough(pipe: PipeSection, code: SteelCode) -> None:
    """Refuse a wall so thin that the sums do not hold for it.

    Source: AISC 360 F8 (D/t to .45 E/Fy); EN 1993-1-1 Table 5.2 (D/t to 90 epsilon^2, class 3).

    Args:
        pipe: The section.
        code: Whose limits.

    Raises:
        Wrong: The wall is thinner.
    """
    most = 0.45 * pipe.stiffness_pa / pipe.yield_pa
    if code == "EN":
        most = 90.0 * 235e6 / pipe.yield_pa
    if pipe.outside_m > most * pipe.design_wall_m:
        least_mm = pipe.outside_m / most * 1e3
        raise Wrong([Problem(
            "mount", "pole", pipe.written, f"a wall of {least_mm:.1f} mm or more that counts, for this diameter and steel",
            "A thinner wall buckles before it bends: take a thicker one, or an engineer.",
        )])  # fmt: skip


def _eurocode_strength(pipe: PipeSection, free_length_m: float) -> PoleStrength:
    radius_m, slenderness, euler_n = _as_column(pipe, free_length_m)
    bending, formula = eurocode_bending_n_m(pipe)
    share = buckling_share(slenderness, pipe.yield_pa, pipe.stiffness_pa, CURVE_C)
    axial = share * pipe.area_m2 * pipe.yield_pa / GAMMA_M1
    shear = 2.0 * pipe.area_m2 / pi * pipe.yield_pa / sqrt(3.0) / GAMMA_M0
    torsion = 2.0 * pipe.elastic_m3 * pipe.yield_pa / sqrt(3.0) / GAMMA_M0
    steps = (
        Step(f"yield of {pipe.steel}", "Fy", "", pipe.yield_pa, "Pa", yield_source(material(pipe.steel))),
        Step("wall that counts", "t", f"{pipe.design_wall_m / pipe.wall_m:.2f} x {pipe.wall_m:.5f}", pipe.design_wall_m, "m", en("1-1, Table 5.2")),
        Step("design bending", "Mc,Rd", formula, bending, "N m", en("1-1, 6.2.5")),
        Step("slenderness", "K L / i", f"{CANTILEVER_K} x {free_length_m:.3f} / {radius_m:.4f}", slenderness, "", en("1-1, 6.3.1.3")),
        Step("design push", "Nb,Rd", f"{share:.3f} x {pipe.area_m2:.5g} x {pipe.yield_pa:.4g}", axial, "N", en("1-1, 6.3.1.1, curve c")),
        Step("design shear", "Vc,Rd", f"2 x {pipe.area_m2:.5g} / pi x {pipe.yield_pa:.4g} / sqrt 3", shear, "N", en("1-1, 6.2.6")),
        Step("design twist", "TRd", f"2 x {pipe.elastic_m3:.5g} x {pipe.yield_pa:.4g} / sqrt 3", torsion, "N m", en("1-1, 6.2.7")),
        Step("Euler load", "Ncr", f"pi^2 x {pipe.stiffness_pa:.4g} x {pipe.inertia_m4:.4g} / ({CANTILEVER_K} x {free_length_m:.3f})^2", euler_n, "N", en("1-1, 6.3.1.2")),
    )  # fmt: skip
    return PoleStrength(bending, axial, shear, torsion, euler_n, steps, 1.0)


def _aluminium_strength(pipe: PipeSection, free_length_m: float) -> PoleStrength:
    """Yielding over 1.65 on the elastic modulus, member buckling by E.3; all with the weld zone's strength."""
    radius_m, slenderness, euler_n = _as_column(pipe, free_length_m)
    stress = column_stress_pa(slenderness, pipe.yield_pa, pipe.stiffness_pa)
    bending = pipe.yield_pa * pipe.elastic_m3 / OMEGA_YIELD
    axial = stress * pipe.area_m2 / OMEGA_YIELD
    shear = pipe.yield_pa / sqrt(3.0) * pipe.area_m2 / 2.0 / OMEGA_YIELD
    torsion = pipe.yield_pa / sqrt(3.0) * pipe.torsion_m3 / OMEGA_YIELD
    steps = (
        Step("strength of the weld zone, whole length", "Ftyw", pipe.written, pipe.yield_pa, "Pa", ADM),
        Step("allowable bending", "Mc", f"{pipe.yield_pa:.4g} x {pipe.elastic_m3:.5g} / {OMEGA_YIELD}", bending, "N m", ADM),
        Step("slenderness", "K L / r", f"{CANTILEVER_K} x {free_length_m:.3f} / {radius_m:.4f}", slenderness, "", ADM),
        Step("allowable push", "Pc", f"{stress:.4g} x {pipe.area_m2:.5g} / {OMEGA_YIELD}", axial, "N", ADM),
        Step("allowable shear", "Vc", f"{pipe.yield_pa:.4g} / sqrt 3 x {pipe.area_m2:.5g} / 2 / {OMEGA_YIELD}", shear, "N", ADM),
        Step("allowable twist", "Tc", f"{pipe.yield_pa:.4g} / sqrt 3 x {pipe.torsion_m3:.5g} / {OMEGA_YIELD}", torsion, "N m", ADM),
        Step("Euler load", "Pe", f"pi^2 x {pipe.stiffness_pa:.4g} x {pipe.inertia_m4:.4g} / ({CANTILEVER_K} x {free_length_m:.3f})^2", euler_n, "N", ADM),
    )  # fmt: skip
    return PoleStrength(bending, axial, shear, torsion, euler_n, steps)


@dataclass(frozen=True, slots=True)
class WallLimits:
    """D/t of a round section up to which clauses hold: compact, not slender, any; and in pure push."""

    compact: float
    slender: float
    most: float
    push: float


def wall_limits(yield_pa: float, stiffness_pa: float) -> WallLimits:
    """Limits of D/t: .07, .31 and .45 E/Fy in bending, .11 E/Fy in push.

    Source: AISC 360 Tables B4.1a, B4.1b and F8 (from memory).

    Args:
        yield_pa: Fy [Pa].
        stiffness_pa: E [Pa].

    Example:
        >>> limits = wall_limits(35.0, 29000.0)
        >>> round(limits.compact, 1), round(limits.most, 1)
        (58.0, 372.9)
    """
    ratio = stiffness_pa / yield_pa
    return WallLimits(0.07 * ratio, 0.31 * ratio, 0.45 * ratio, 0.11 * ratio)


def tip_moves_m(pipe: PipeSection, level_n: float, down_n: float, height_m: float) -> float:
    """How far the pole's top moves under a level force, its load leaning with it: H L^3 / 3 E I x 3 (tan u - u) / u^3.

    Source: beam-column closed form, u = L sqrt(P / E I).

    Args:
        pipe: The section; its inertia as given.
        level_n: H [N].
        down_n: P, 0 or more [N].
        height_m: L [m].
    """
    stiff = pipe.stiffness_pa * pipe.inertia_m4
    straight = level_n * height_m**3 / (3.0 * stiff)
    u = height_m * sqrt(max(down_n, 0.0) / stiff)
    return straight if u < 1e-3 else straight * 3.0 * (tan(u) - u) / u**3


def shedding_hz(speed_m_s: float, diameter_m: float) -> float:
    """Beat of the vortices behind a bare round pole, .2 U / D.

    Source: EN 1991-1-4 Annex E, Strouhal number .18 to .2 (from memory).

    Args:
        speed_m_s: U [m/s].
        diameter_m: D [m].

    Example:
        >>> round(shedding_hz(1.68, 0.1683), 1)
        2.0
    """
    return 0.2 * speed_m_s / diameter_m


def _torsion_stress_pa(pipe: PipeSection, length_m: float) -> float:
    """Critical shear of a round section in torsion (AISC 360 H3-2a, H3-2b), at most 0.6 Fy."""
    slender, e = pipe.outside_m / pipe.design_wall_m, pipe.stiffness_pa
    long = 1.23 * e / (sqrt(length_m / pipe.outside_m) * slender**1.25)
    return float(min(max(long, 0.60 * e / slender**1.5), 0.6 * pipe.yield_pa))


def enlarged(axial_n: Floats, euler_n: float) -> Floats:
    """How much second order enlarges the moment: 1 / (1 - P / Pe); endless from the Euler load on.

    In the allowable format P is 1.6 times the push.

    Source: AISC 360 Appendix 8 with Cm = 1 (from memory); the exact tan u / u is less: by .3 % at P/Pe .017, 2.2 % at .12.

    Args:
        axial_n: Push, times alpha where the format asks it, any shape [N].
        euler_n: Euler load [N].
    """
    ratio = np.maximum(np.asarray(axial_n, dtype=np.float64), 0.0) / euler_n
    return np.where(ratio < 1.0, 1.0 / np.maximum(1.0 - ratio, 1e-12), inf)


def pole_use(
    strength: PoleStrength,
    axial_n: Floats,
    moment_n_m: Floats,
    shear_n: Floats,
    torsion_n_m: Floats,
) -> Floats:
    """Use by AISC 360 H3-6 with the moment enlarged for second order; arrays of one shape.

    (Pr/Pc + Mr/Mc) + (Vr/Vc + Tr/Tc)^2.  The clause is meant for twist over a fifth of its strength; used always, it is on
    the side of caution.

    Args:
        strength: Allowable strengths.
        axial_n: Push; pull counts as nothing [N].
        moment_n_m: First-order moment [N m].
        shear_n: [N].
        torsion_n_m: [N m].
    """
    push = np.maximum(axial_n, 0.0)
    moment = np.abs(moment_n_m) * enlarged(strength.lean * push, strength.euler_n)
    sideways = np.abs(shear_n) / strength.shear_n + np.abs(torsion_n_m) / strength.torsion_n_m
    return np.asarray(push / strength.axial_n + moment / strength.bending_n_m + sideways**2)
