"""Frost jacking (METHODS of the house 4.5)."""

from __future__ import annotations

from polestead.base.check import Check
from polestead.footing.pier import Pier


def frost_check(
    pier: Pier, frost_soil: str, frost_depth_m: float, dead_n: float, sleeve: str
) -> Check:
    """Uplift by frozen soil on the shaft against dead weight and skin below the frost."""
    raise NotImplementedError
