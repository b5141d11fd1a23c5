"""What a part may carry, in either code's own format."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from polestead.base.source import Source
from polestead.base.working import Step

SteelCode = Literal["AISC", "EN"]
"""Allowable strengths Rn / omega, or design resistances R_k / gamma_M."""
STEEL_PA = 200e9
STEEL_EN_PA = 210e9  # EN 1993-1-1 3.2.6 (from memory)
GAMMA_M0, GAMMA_M1, GAMMA_M2 = (
    1.0,
    1.0,
    1.25,
)  # EN 1993-1-1 6.1, 1993-1-8 Table 2.1: recommended (from memory)


def en(place: str) -> Source:
    """A part of EN 1993 at a place, from memory until a licensed copy confirms it.

    Args:
        place: Part and clause.

    Example:
        >>> str(en("1-1, 6.2.5"))
        'EN 1993-1-1:2005, 6.2.5 (from memory)'
    """
    part, clause = place.split(", ", 1)
    return Source(f"EN 1993-{part}:2005", clause, "memory")


@dataclass(frozen=True, slots=True)
class Allowable:
    """One allowable strength and how it was found."""

    value: float
    unit: str
    steps: tuple[Step, ...]
