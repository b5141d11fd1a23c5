"""The pier in its soil: IBC 1807.3 with topsoil and frost left out (METHODS of the house 4.5)."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from polestead.base.working import Step
from polestead.homestead.model import Footing

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Pier:
    """A pier in a soil class.

    Attributes:
        diameter_m, depth_m, collar_m, pole_depth_m: As planned or built.
        effective_m: Depth below ground above which the soil does not help, z0.
        lateral_pa_m: Allowable lateral pressure per depth, doubled where the owner ticked it.
        bearing_pa: Allowable bearing.
        skin_friction: Coefficient, or skin_pa for clay.
        weight_n: Of the concrete, the pole's volume left in.
        steps: How these were found.
    """

    diameter_m: float
    depth_m: float
    collar_m: float
    pole_depth_m: float
    effective_m: float
    lateral_pa_m: float
    bearing_pa: float
    skin_friction: float
    skin_pa: float
    weight_n: float
    steps: tuple[Step, ...]


def pier_of(footing: Footing, soil: str, frost_soil: str, frost_depth_m: float) -> Pier:
    """The pier as the sums take it."""
    raise NotImplementedError


def needed_depth_m(pier: Pier, horizontal_n: Floats, moment_n_m: Floats) -> Floats:
    """Depth of embedment below ground needed by IBC Eq. 18-1, the useless top included; same shape as the forces.

    Args:
        horizontal_n: Total horizontal force.
        moment_n_m: Its moment about the ground line.
    """
    raise NotImplementedError


def below_grade_moment_n_m(pier: Pier, horizontal_n: Floats, moment_n_m: Floats) -> Floats:
    """Largest moment in the pole below the ground (Broms, drained, or undrained in clay)."""
    raise NotImplementedError


def uplift_allowable_n(pier: Pier) -> float:
    """Allowable pull upwards: 0.6 of the weight and the skin below the useless depth."""
    raise NotImplementedError


def bearing_pa(pier: Pier, down_n: Floats) -> Floats:
    """Pressure under the pier, its own weight included."""
    raise NotImplementedError


def twist_allowable_n_m(pier: Pier, twist_bars: bool) -> float:
    """Allowable twist by skin over 1.5; without bars the pole may turn in the pier and nothing is allowed."""
    raise NotImplementedError
