"""Kilonewtons around our own equations of the pier."""

from __future__ import annotations

import numpy as np

from polestead.footing.pier import CONCRETE_N_M3, Pier, below_grade_moment_n_m, pier_of
from polestead.homestead.demos import demo_path
from polestead.homestead.read import read_homestead


def _bare(width_m: float, soil_n_m3: float, passive: float, undrained_pa: float) -> Pier:
    return Pier(
        width_m, 2.1, 0.0, 2.0, 0.0, 1.0, 1.0, 0.0, 0.0, 1.0, (), passive, soil_n_m3, undrained_pa
    )


def drained_moment_kn_m(
    force_kn: float, lever_m: float, width_m: float, soil_kn_m3: float, angle_deg: float
) -> float:
    passive = float(np.tan(np.radians(45.0 + angle_deg / 2.0)) ** 2)
    pier = _bare(width_m, soil_kn_m3 * 1e3, passive, 0.0)
    force = np.array(force_kn * 1e3)
    return float(below_grade_moment_n_m(pier, force, force * lever_m)) / 1e3


def undrained_moment_kn_m(
    force_kn: float, lever_m: float, width_m: float, undrained_kpa: float
) -> float:
    pier = _bare(width_m, 18e3, 0.0, undrained_kpa * 1e3)
    force = np.array(force_kn * 1e3)
    return float(below_grade_moment_n_m(pier, force, force * lever_m)) / 1e3


def presumptive(soil: str) -> list[float]:
    footing = read_homestead(demo_path("hollow-spruce")).homestead.footing.model_copy(
        update={"half_inch_allowed": False}
    )
    pier = pier_of(footing, soil, "drained, not frost-susceptible", 0.5)
    return [pier.bearing_pa / 47.880258980336, pier.lateral_pa_m / 157.08746384625]


def volume_m3(diameter_m: float, depth_m: float) -> float:
    """Concrete of a pier without collar, back from its weight."""
    footing = read_homestead(demo_path("hollow-spruce")).homestead.footing.model_copy(
        update={"diameter_m": diameter_m, "depth_m": depth_m, "collar_m": 0.0}
    )
    pier = pier_of(footing, "sandy gravel or gravel", "drained, not frost-susceptible", 0.5)
    return pier.weight_n / CONCRETE_N_M3
