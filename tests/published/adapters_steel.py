"""Inches, kips and kip-feet around our own equations of steel and soil."""

from __future__ import annotations

import numpy as np

from polestead.footing.pier import embedment_m
from polestead.homestead.sentences import pole_words
from polestead.strength.pins import pin_double_shear
from polestead.strength.pole import enlarged, pipe_section, pole_strength, ring

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
