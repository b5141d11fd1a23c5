"""The pole: its section, its allowable strengths, its use."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from polestead.base.working import Step
from polestead.homestead.words import PoleWords

Floats = NDArray[np.float64]


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


@dataclass(frozen=True, slots=True)
class PoleStrength:
    """Allowable strengths (Rn / omega) and the Euler load, with how they were found."""

    bending_n_m: float
    axial_n: float
    shear_n: float
    torsion_n_m: float
    euler_n: float
    steps: tuple[Step, ...]


def pipe_section(words: PoleWords) -> PipeSection:
    """The section of a pole as written.

    Raises:
        Wrong: No such size in the table; names the sizes there are.
    """
    raise NotImplementedError


def pole_strength(pipe: PipeSection, free_length_m: float) -> PoleStrength:
    """Allowable strengths of a cantilever pole of that free length (K = 2.1)."""
    raise NotImplementedError


def pole_use(
    strength: PoleStrength,
    axial_n: Floats,
    moment_n_m: Floats,
    shear_n: Floats,
    torsion_n_m: Floats,
) -> Floats:
    """Use by AISC 360 H3-6 with the moment enlarged for second order; arrays of one shape."""
    raise NotImplementedError
