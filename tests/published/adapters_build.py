"""Stand between the published rows and the room `build`."""

from __future__ import annotations

import numpy as np

from polestead.build.ground.concrete import YARD_M3, bags_for
from polestead.build.ground.spoil import loose_m3, swell_share
from polestead.build.ground.trench import depth_checks
from polestead.build.lifts.slings import (
    capstan_ratio,
    design_factor,
    sling_factor,
    tackle_advantage,
)
from polestead.build.pieces.bolts import bolt_length_m, turn_past_snug
from polestead.build.pieces.coating import index_v

FOOT_M, INCH_M = 0.3048, 0.0254


def sling_factors(angles_deg: np.ndarray) -> list[float]:
    return [sling_factor(float(angle)) for angle in angles_deg]


def swell_percent(soils: list[str]) -> list[float]:
    return [100.0 * swell_share(soil) for soil in soils]


def loose(bank: float, soil: str) -> float:
    return loose_m3(bank, soil)


def held_from_ft(depths_ft: np.ndarray) -> list[float]:
    """1 where sides must be held, 0 where they may stand straight."""
    return [float(not depth_checks("trench", float(d) * FOOT_M)[0].holds) for d in depths_ft]


def ladder_from_ft(depths_ft: np.ndarray) -> list[float]:
    return [float(not depth_checks("trench", float(d) * FOOT_M)[1].holds) for d in depths_ft]


def advantages(parts: np.ndarray, each: float, block: str) -> list[float]:
    return [tackle_advantage(int(n), each, block) for n in parts]


def capstan(friction: float, turns: float) -> float:
    return capstan_ratio(friction, turns)


def bags_and_pounds(yards: float) -> list[float]:
    bags = bags_for(yards * YARD_M3, "80 lb")
    return [float(bags.count), bags.mass_kg / 0.45359237]


def factors(kinds: list[str]) -> list[float]:
    return [design_factor(kind) for kind in kinds]


def turns(diameter_in: float, lengths_in: np.ndarray) -> list[float]:
    found = (turn_past_snug(float(n) * INCH_M, diameter_in * INCH_M) for n in lengths_in)
    return [turn or 0.0 for turn in found]


def bolt_lengths_in(grips_in: np.ndarray, diameter_in: float, washers: int) -> list[float]:
    found = (bolt_length_m(float(g) * INCH_M, diameter_in * INCH_M, washers) for g in grips_in)
    return [(length or 0.0) / INCH_M for length in found]


def indices(metals: list[str]) -> list[float]:
    return [index_v(metal) for metal in metals]
