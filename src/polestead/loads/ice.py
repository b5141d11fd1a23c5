"""Ice of freezing rain on the array (ASCE 7 chapter 10): its weight; the wind that comes with it is a gust of its own."""

from __future__ import annotations

from math import pi

from polestead.base.source import Source

ICE_N_M3 = 56.0 * 157.08746  # 56 lb/ft3, 10.4.1
LEANING = 0.8  # 10.4.1: flat things upright .8, level .6; the larger is kept for every tilt
SOURCE = Source("ASCE 7-16", "10.4.1, Eq. 10.4-2", "memory")


def ice_weight_n(thickness_m: float, area_m2: float) -> float:
    """Weight of ice on a flat thing, V = .8 pi td As.

    Source: ASCE 7-16 Eq. 10.4-2 (from memory).

    Args:
        thickness_m: Design radial thickness td [m].
        area_m2: As, one side [m2].

    Example:
        >>> round(ice_weight_n(0.0127, 16.0) / 1000.0, 1)
        4.5
    """
    return LEANING * pi * thickness_m * area_m2 * ICE_N_M3
