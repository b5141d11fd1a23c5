"""Inches, kips and kip-feet around our own equations of steel and soil."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from polestead.footing.pier import embedment_m
from polestead.homestead.sentences import pole_words
from polestead.strength.aluminium import column_constants
from polestead.strength.pins import PinnedJoint, pin_bending, pin_double_shear
from polestead.strength.pole import (
    enlarged,
    material,
    pipe_section,
    pole_strength,
    ring,
    shedding_hz,
    tip_moves_m,
    wall_limits,
)
from polestead.strength.welds import box_weld, round_weld

INCH, FOOT, POUND, PSF_FT = 0.0254, 0.3048, 4.4482216152605, 157.08746384625


def pipe_row(outside_in: float, wall_in: float) -> list[float]:
    """Area in2, I in4, S in3, Z in3, r in."""
    found = ring(outside_in * INCH, wall_in * INCH)
    radius = (found.inertia_m4 / found.area_m2) ** 0.5
    values = (
        found.area_m2 / INCH**2, found.inertia_m4 / INCH**4, found.elastic_m3 / INCH**3, found.plastic_m3 / INCH**3, radius / INCH,
    )  # fmt: skip
    return [float(value) for value in values]


def pipe_weight_lb_ft(words: str) -> float:
    return pipe_section(pole_words(words)).mass_kg_m / 0.45359237 * FOOT


def allowable_bending_kip_ft(words: str) -> float:
    return pole_strength(pipe_section(pole_words(words)), 3.0).bending_n_m / (1000.0 * POUND * FOOT)


def allowable_shear_kip(words: str) -> float:
    return pole_strength(pipe_section(pole_words(words)), 3.0).shear_n / (1000.0 * POUND)


def allowable_torsion_kip_ft(words: str) -> float:
    return pole_strength(pipe_section(pole_words(words)), 3.0).torsion_n_m / (1000.0 * POUND * FOOT)


def allowable_push_kip(words: str, length_in: float) -> float:
    return pole_strength(pipe_section(pole_words(words)), length_in * INCH).axial_n / (
        1000.0 * POUND
    )


def second_order(push_lb: float, euler_lb: float) -> float:
    return float(enlarged(np.array(push_lb), euler_lb))


def double_shear_kip(diameter_in: float, steel: str) -> float:
    return pin_double_shear(diameter_in * INCH, steel).value / (1000.0 * POUND)


def embedment_ft(
    force_lb: float, height_ft: float, width_ft: float, lateral_psf_ft: float
) -> float:
    found = embedment_m(
        lateral_psf_ft * PSF_FT,
        width_ft * FOOT,
        np.array(force_lb * POUND),
        np.array(height_ft * FOOT),
    )
    return float(found) / FOOT


KSI = 6894757.293168


def grade_ksi(name: str) -> list[float]:
    """Yield and ultimate."""
    row = material(name)
    return [float(row["yield_mpa"]) * 1e6 / KSI, float(row["ultimate_mpa"]) * 1e6 / KSI]


def walls(yield_ksi: float) -> list[float]:
    """Limits of D/t."""
    limits = wall_limits(yield_ksi, 29000.0)
    return [limits.compact, limits.slender, limits.most, limits.push]


def tip_in(down_lb: float) -> float:
    """How far the top moves."""
    pipe = replace(
        pipe_section(pole_words("6 in schedule 40 A53 B")), inertia_m4=ring(6.625 * INCH, 0.280 * INCH).inertia_m4,
        stiffness_pa=29e3 * KSI,
    )  # fmt: skip
    return tip_moves_m(pipe, 1500.0 * POUND, down_lb * POUND, 150.0 * INCH) / INCH


def vortices(speeds_m_s: np.ndarray) -> list[float]:
    """Beats a second."""
    return [shedding_hz(float(speed), 0.1683) for speed in speeds_m_s]


def pin_bent() -> list[float]:
    """Moment of 20 kN, its stress, and what the pin may bear; ours gives the force at the last."""
    d, force = 0.020, 20e3
    joint = PinnedJoint(d, "8.8", 0.010, 0.020, 0.002, 0.040, "S355")
    steps = {step.symbol: step.value for step in pin_bending(joint, "EN").steps}
    moment = force * steps["M / F"]
    elastic = np.pi * d**3 / 32.0
    bears = steps["Mc"] / 640e6 * 355e6  # their pin is of 355 MPa
    return [moment / 1e3, moment / elastic / 1e6, bears / 1e3]


def round_line() -> list[float]:
    """Section modulus of the line, and force on an inch by 225 kip-in."""
    line = round_weld(3.3125)
    return [line.bending_m2, 225.0 / line.bending_m2]


def box_line() -> list[float]:
    """Section modulus; polar inertia back from the corner."""
    line = box_weld(4.0, 6.0)
    return [line.bending_m2, line.polar_m2 * 0.5 * np.hypot(4.0, 6.0)]


def weld_zone_ksi() -> list[float]:
    """Yield and ultimate of both alloys within an inch of a weld."""
    return [value for name in ("6061-T6", "6063-T6") for value in grade_ksi(name)]


def aluminium_constants(yield_ksi: float) -> list[float]:
    """Bc, Dc, Cc."""
    found = column_constants(yield_ksi * KSI, 10100.0 * KSI)
    return [found.b_pa / KSI, found.d_pa / KSI, found.c]


def tube_masses() -> list[float]:
    """Kilograms a metre."""
    area = ring(0.168275, 0.007112).area_m2
    return [area * float(material(name)["density_kg_m3"]) for name in ("A53 B", "6061-T6")]
