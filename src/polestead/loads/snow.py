"""Snow on the glass: flat, sloped, uneven (ASCE 7 chapter 7)."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from polestead.base.source import Source
from polestead.loads.pressure import EN

Floats = NDArray[np.float64]
Flags = NDArray[np.bool_]
PSF_PA = 47.88026
OPEN_AIR_CT = 1.2
# Is by risk category (ASCE 7-16 Table 1.5-2, from memory)
IMPORTANCE = {"I": 0.8, "II": 1.0, "III": 1.1, "IV": 1.2}
# most of the least snow by risk category, 7-22 Table 7.3-4 (from memory)
LEAST_AT_MOST_PSF = {"I": 25.0, "II": 30.0, "III": 35.0, "IV": 40.0}
SHAPE_FLAT = 0.8  # mu_1 of a flat roof
EN_SOURCE = Source("EN 1991-1-3:2003", "Eq. 5.1 with Table 5.2: mu_1, Ce 1, Ct 1", "seen-copy")
# Partially exposed in each terrain: neither sheltered by trees close by nor swept clean on all sides.
EXPOSURE_CE = {"B": 1.0, "C": 1.0, "D": 0.9}
SLIDES_FROM_DEG, BARE_FROM_DEG = 15.0, 70.0
REPOSE_DEG = 40.0
LEAST_WHOLE = "least whole"
PATTERNS = ("whole", "lower half", "upper half", "one side", LEAST_WHOLE)
FLAT_SOURCE = Source("ASCE 7-16", "Eq. 7.3-1: Ce, Ct 1.2 of open air, Is", "seen")
FLAT_LATER_SOURCE = Source("ASCE 7-22", "Eq. 7.3-1: Ce, Ct 1.2 of open air", "memory")
SLOPE_SOURCE = Source("ASCE 7-16", "Fig. 7.4-1c, slippery, unobstructed", "memory")
DENSITY_SOURCE = Source("ASCE 7-16", "Eq. 7.7-1", "memory")
UNEVEN_SOURCE = Source("half-covered glass", "docs/method/loads.md", "ours")
LEAST_SOURCE = Source("ASCE 7-16", "7.3.4, least snow under 15 degrees", "memory")


def flat_snow_pa(
    ground_snow_pa: float, exposure_factor: float, thermal_factor: float, importance: float
) -> float:
    """Flat roof snow pf = 0.7 Ce Ct Is pg.

    Source: ASCE 7-16 Eq. 7.3-1 (seen).  In 7-22 pg is a strength-level load and Is falls away: give 1.

    Args:
        ground_snow_pa: pg [Pa].
        exposure_factor: Ce.
        thermal_factor: Ct, 1.2 in open air.
        importance: Is.

    Example:
        >>> round(flat_snow_pa(30 * PSF_PA, 1.0, 1.0, 1.0) / PSF_PA, 2)
        21.0
    """
    return 0.7 * exposure_factor * thermal_factor * importance * ground_snow_pa


def slope_factor(tilt_deg: Floats, slides_from_deg: float, bare_from_deg: float) -> Floats:
    """Slope factor Cs: 1 to the first angle, straight to 0 at the second.

    Source: ASCE 7-16 Fig. 7.4-1 and C7.4 (15 and 70 for a slippery open-air surface from memory).

    Args:
        tilt_deg: Any shape.
        slides_from_deg: 15 for slippery glass in open air.
        bare_from_deg: 70.

    Example:
        >>> slope_factor(np.array([0.0, 40.0, 80.0]), 15.0, 70.0).round(3).tolist()
        [1.0, 0.545, 0.0]
    """
    share = (bare_from_deg - tilt_deg) / (bare_from_deg - slides_from_deg)
    return np.clip(share, 0.0, 1.0)


def sloped_snow_pa(
    ground_snow_pa: float,
    exposure: str,
    tilt_deg: Floats,
    room_to_slide: bool | Flags,
    basis: str,
    risk: str = "II",
) -> Floats:
    """Design snow on plan area at each tilt, Cs pf; without room to slide the whole of pf lies.

    Nominal in the edition's own sense: 50-year load in 7-16, strength load in 7-22 (the combinations know which);
    characteristic under Eurocode, mu_1 Ce Ct s_k with Ce = Ct = 1.
    Source: ASCE 7-16 Eqs. 7.3-1, 7.4-1; EN 1991-1-3 Eq. 5.1.

    Args:
        ground_snow_pa: pg [Pa].
        exposure: B, C or D; partially exposed in it.
        tilt_deg: Any shape.
        room_to_slide: Whether what slides off finds room under the low edge; one for all, or one for each tilt.
        basis: ``ASCE 7-16``, ``ASCE 7-22`` or ``EN 1991-1-4`` (for EN 1991-1-3).
        risk: Risk category, I to IV; counts in 7-16 (Is), is in the map in 7-22.

    Returns:
        [Pa], same shape.

    Raises:
        ValueError: No such basis.

    Example:
        >>> p = sloped_snow_pa(60 * PSF_PA, "C", np.array([5.0, 40.0]), True, "ASCE 7-16")
        >>> (p / PSF_PA).round(1).tolist()
        [50.4, 27.5]
    """
    if basis == EN:
        shape = shape_coefficient(np.abs(tilt_deg))
        return np.asarray(ground_snow_pa * np.where(room_to_slide, shape, SHAPE_FLAT))
    if basis not in ("ASCE 7-16", "ASCE 7-22"):
        message = f"no snow rule for {basis}"
        raise ValueError(message)
    importance = IMPORTANCE[risk] if basis == "ASCE 7-16" else 1.0
    flat = flat_snow_pa(ground_snow_pa, EXPOSURE_CE[exposure], OPEN_AIR_CT, importance)
    slides = slope_factor(np.abs(tilt_deg), SLIDES_FROM_DEG, BARE_FROM_DEG)
    return np.asarray(flat * np.where(room_to_slide, slides, 1.0))


def shape_coefficient(tilt_deg: Floats) -> Floats:
    """mu_1: .8 to 30 degrees, straight to 0 at 60.

    Source: EN 1991-1-3:2003 Table 5.2; snow that cannot slide keeps .8 (5.3.3 (2)).

    Args:
        tilt_deg: Any shape.

    Example:
        >>> shape_coefficient(np.array([0.0, 30.0, 45.0, 60.0])).round(3).tolist()
        [0.8, 0.8, 0.4, 0.0]
    """
    return SHAPE_FLAT * np.clip((60.0 - np.asarray(tilt_deg)) / 30.0, 0.0, 1.0)


def least_snow_pa(ground_snow_pa: float, tilt_deg: Floats, basis: str, risk: str = "II") -> Floats:
    """Least uniform snow on a low slope, under 15 degrees: Is pg, at most Is 20 psf; 7-22: pg, at most 25 to 40 psf; else 0.

    A case of its own, never uneven and never with wind.  Source: ASCE 7-16 and 7-22, 7.3.4 (from memory).

    Args:
        ground_snow_pa: pg [Pa].
        tilt_deg: Any shape.
        basis: Edition.
        risk: Risk category, I to IV.
    """
    if basis == EN:  # knows no such case
        return np.zeros_like(tilt_deg)
    if basis == "ASCE 7-22":
        least_pa = min(ground_snow_pa, LEAST_AT_MOST_PSF[risk] * PSF_PA)
    else:
        least_pa = IMPORTANCE[risk] * min(ground_snow_pa, 20.0 * PSF_PA)
    return np.where(np.abs(tilt_deg) < SLIDES_FROM_DEG, least_pa, 0.0)


def least_snow_words(ground_snow_pa: float, basis: str, risk: str = "II") -> str:
    """The same with its numbers, under 15 degrees.

    Example:
        >>> least_snow_words(957.6, "ASCE 7-16"), least_snow_words(2873.0, "ASCE 7-22", "I")
        ('1.0 x min(958, 958)', 'min(2873, 1197)')
    """
    if basis == "ASCE 7-22":
        return f"min({ground_snow_pa:.0f}, {LEAST_AT_MOST_PSF[risk] * PSF_PA:.0f})"
    return f"{IMPORTANCE[risk]} x min({ground_snow_pa:.0f}, {20.0 * PSF_PA:.0f})"


def snow_density_n_m3(ground_snow_pa: float) -> float:
    """Weight of lying snow, 0.13 pg + 14 <= 30 lb/ft3 (pg in psf).

    Source: ASCE 7-16 Eq. 7.7-1 (from memory).

    Args:
        ground_snow_pa: pg [Pa].

    Example:
        >>> round(snow_density_n_m3(50 * PSF_PA) / 157.08746, 1)
        20.5
    """
    return min(0.13 * ground_snow_pa / PSF_PA + 14.0, 30.0) * 157.08746


def heap_height_m(
    ground_snow_pa: float, snow_pa: Floats, chord_m: float, tilt_deg: Floats
) -> Floats:
    """Height of the heap under the low edge: the snow that lies, and once the array's own slid off on top of it.

    The slid snow is taken as a ridge at 40 degrees on both sides: height = sqrt(area tan 40), area = p c cos t / weight.
    Source: our own rule; density ASCE 7-16 Eq. 7.7-1, angle of repose 40 degrees (pvlib documentation).

    Args:
        ground_snow_pa: pg [Pa].
        snow_pa: What slides, on plan area [Pa], any shape.
        chord_m: Chord [m].
        tilt_deg: Same shape.
    """
    if ground_snow_pa <= 0.0:
        return np.zeros_like(tilt_deg)
    weight = snow_density_n_m3(ground_snow_pa)
    slid_m2 = snow_pa * chord_m * np.cos(np.radians(tilt_deg)) / weight
    return np.asarray(ground_snow_pa / weight + np.sqrt(slid_m2 * np.tan(np.radians(REPOSE_DEG))))


@dataclass(frozen=True, slots=True, eq=False)
class SnowActions:
    """Snow as it may lie, one line per pattern, one column per tilt.

    Attributes:
        pattern_names: ``whole``, ``lower half``, ``upper half``, ``one side``, ``least whole`` [patterns].
        tilt_deg: [tilts].
        pressure_pa: On plan area where it lies [patterns, tilts].
        down_n: Weight; a half keeps the weight of the whole, on the careful side [patterns, tilts].
        hinge_n_m: Moment about the hinge, + steepens [patterns, tilts].
        roll_n_m: About the horizontal axis across the hinge [patterns, tilts].
    """

    pattern_names: tuple[str, ...]
    tilt_deg: Floats
    pressure_pa: Floats
    down_n: Floats
    hinge_n_m: Floats
    roll_n_m: Floats


def snow_actions(
    snow_pa: Floats,
    least_pa: Floats,
    tilt_deg: Floats,
    width_m: float,
    upper_m: float,
    lower_m: float,
    above_m: float,
) -> SnowActions:
    """Weight, hinge moment and roll of each pattern.

    A half of the glass bears p A cos t / 2 at a quarter of the chord: M = p A c cos2 t / 8, + (steepens) on the lower half.
    Where snow slides, from 15 degrees, a slab may have stopped at the low rail: the low quarter at 2 p, M = 3/16.  One side:
    roll p A B cos t / 8.  Snow square over the hinge adds its weight times what the glass stands over the hinge.
    Source: statics; the patterns and the slab are our own rule, on the careful side.

    Args:
        snow_pa: p, on plan area [tilts].
        least_pa: Least uniform snow [tilts].
        tilt_deg: [tilts].
        width_m: B [m].
        upper_m: Hinge to upper edge [m].
        lower_m: Hinge to low edge [m].
        above_m: Hinge to glass [m].
    """
    t = np.radians(tilt_deg)
    chord_m = upper_m + lower_m
    plan_m2 = width_m * chord_m * np.cos(t)
    off_m = (lower_m - upper_m) / 2.0  # hinge over mid-chord
    pressures = np.stack([snow_pa, snow_pa, snow_pa, snow_pa, least_pa])
    down = pressures * plan_m2
    slab = np.where(np.abs(tilt_deg) >= SLIDES_FROM_DEG, 3.0 / 16.0, 1.0 / 8.0)
    nothing = np.zeros_like(t)
    # Lever of the whole cover's weight, + steepening: glass over the hinge, hinge off mid-chord.
    lever_m = above_m * np.sin(t) + off_m * np.cos(t)
    turned = np.stack([nothing, slab, nothing - 1.0 / 8.0, nothing, nothing])
    covered = np.array([1.0, 0.5, 0.5, 0.5, 1.0])[:, None]
    hinge = down * (covered * lever_m + turned * chord_m * np.cos(t))
    roll = np.zeros_like(hinge)
    roll[3] = down[3] * width_m / 8.0
    return SnowActions(PATTERNS, tilt_deg, pressures, down, hinge, roll)
