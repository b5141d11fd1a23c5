"""From a gust to the pressure at the array (ASCE 7 chapter 26)."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from polestead.base.source import Source
from polestead.base.table import table

Floats = NDArray[np.float64]
FOOT_M = 0.3048
# 0.00256 psf per mph squared, in SI: half of 0.0765 lb/ft3 of air (ASCE 7-16 C26.10).
AIR_FACTOR = 0.613
LEAST_KZ_HEIGHT_M = 15.0 * FOOT_M
PEAK = 3.4  # g_Q and g_v of Eq. 26.11-6
RIGID_GUST_FACTOR = 0.85
DIRECTIONALITY = 0.85
LEAST_NATURAL_HZ = 1.0

KZ_SOURCE = Source("ASCE 7", "Table 26.10-1", "seen-copy")
KE_SOURCE = Source("ASCE 7-16", "Table 26.9-1 note 2", "seen")
PRESSURE_SOURCE = Source("ASCE 7", "Eq. 26.10-1, Kd written apart", "seen-copy")
GUST_SOURCE = Source("ASCE 7-16", "26.11.4, Eq. 26.11-6", "memory")
RIGID_SOURCE = Source("ASCE 7", "26.11.1, rigid", "memory")
KD_SOURCE = Source("ASCE 7-16", "Table 26.6-1", "seen-copy")


@dataclass(frozen=True, slots=True)
class SiteWind:
    """The place as the wind feels it.

    Attributes:
        exposure: B, C or D.
        topographic: Kzt.
        elevation: Ke.
        basis: ``ASCE 7-16`` or ``ASCE 7-22`` (Kz constants).
    """

    exposure: str
    topographic: float
    elevation: float
    basis: str


def terrain(basis: str, exposure: str) -> dict[str, float]:
    """Constants of an exposure in an edition, by column name of ``terrain.csv``.

    Raises:
        ValueError: No such edition or exposure.

    Example:
        >>> terrain("ASCE 7-16", "C")["gradient_ft"]
        900.0
    """
    for row in table("loads", "terrain"):
        if row["basis"] == basis and row["exposure"] == exposure:
            words = ("basis", "exposure", "source")
            return {key: float(value) for key, value in row.items() if key not in words}
    message = f"no exposure {exposure} in {basis}"
    raise ValueError(message)


def height_factor(height_m: Floats | float, basis: str, exposure: str) -> Floats:
    """Velocity pressure exposure coefficient Kz = K (z / zg)^(2 / alpha), z at least 15 ft.

    Source: ASCE 7-16 and 7-22, Table 26.10-1 note 1 (constants seen in public copies).

    Args:
        height_m: Height over the ground [m], any shape.
        basis: Edition.
        exposure: B, C or D.

    Returns:
        Kz, same shape.

    Example:
        >>> round(float(height_factor(20 * 0.3048, "ASCE 7-16", "C")), 3)
        0.902
    """
    t = terrain(basis, exposure)
    z_ft = np.maximum(height_m, LEAST_KZ_HEIGHT_M) / FOOT_M
    return np.asarray(t["leading"] * (z_ft / t["gradient_ft"]) ** (2.0 / t["alpha"]))


def elevation_factor(elevation_m: float) -> float:
    """Ground elevation factor Ke = exp(-0.000119 z).

    Source: ASCE 7-16 Table 26.9-1 note 2 (seen).  Below the sea it rises over 1:
    the air is thicker there.

    Args:
        elevation_m: Of the ground over the sea [m].

    Example:
        >>> round(elevation_factor(110.0), 5)
        0.987
    """
    return float(np.exp(-0.000119 * elevation_m))


def velocity_pressure_pa(
    gust_m_s: Floats | float, height_m: Floats | float, site: SiteWind
) -> Floats:
    """Velocity pressure q = 0.613 Kz Kzt Ke V^2, without Kd.

    7-16 writes Kd inside this equation and 7-22 beside it; here it always stands beside, and is used once.
    Source: ASCE 7-16 Eq. 26.10-1.SI.

    Args:
        gust_m_s: Three-second gust at 10 m over open ground [m/s].
        height_m: Height of the pressure [m]; shapes broadcast.
        site: The place.

    Returns:
        [Pa].

    Example:
        >>> site = SiteWind("C", 1.0, elevation_factor(110.0), "ASCE 7-16")
        >>> round(0.85 * float(velocity_pressure_pa(52.0, 5.0, site)), 1)
        1202.9
    """
    kz = height_factor(height_m, site.basis, site.exposure)
    return np.asarray(AIR_FACTOR * kz * site.topographic * site.elevation * np.square(gust_m_s))


def mean_pressure_pa(gust_m_s: float, height_m: float, site: SiteWind) -> float:
    """Pressure of the mean (hourly) speed at a height, for the collector coefficients (conventions §11).

    V(z) = b (z / 33 ft)^a V.  Source: ASCE 7-16 Eq. 26.11-16 with Table 26.11-1 (from memory).

    Args:
        gust_m_s: Three-second gust at 10 m over open ground [m/s].
        height_m: Hinge height [m].
        site: The place.

    Returns:
        [Pa].
    """
    t = terrain(site.basis, site.exposure)
    height_ft = max(height_m / FOOT_M, 1.0)
    mean_m_s = t["mean_share"] * (height_ft / 33.0) ** t["mean_power"] * gust_m_s
    return float(AIR_FACTOR * site.topographic * site.elevation * mean_m_s**2)


def gust_factor(height_m: float, width_m: float, basis: str, exposure: str) -> float:
    """Gust factor of a rigid thing, 0.925 (1 + 1.7 g I Q) / (1 + 1.7 g I), at least 0.85.

    Source: ASCE 7-16 Eqs. 26.11-6 to 26.11-9 (from memory).  Valid from 1 Hz natural frequency up.

    Args:
        height_m: Top height h [m].
        width_m: Width square to the wind B [m].
        basis: Edition.
        exposure: B, C or D.

    Example:
        >>> round(gust_factor(5.1, 4.6, "ASCE 7-16", "C"), 2)
        0.9
    """
    t = terrain(basis, exposure)
    z = max(0.6 * height_m / FOOT_M, t["least_ft"])
    intensity = t["intensity"] * (33.0 / z) ** (1.0 / 6.0)
    length = t["length_ft"] * (z / 33.0) ** t["length_power"]
    size = (width_m + height_m) / FOOT_M
    background = np.sqrt(1.0 / (1.0 + 0.63 * (size / length) ** 0.63))
    swing = 1.7 * PEAK * intensity
    return max(RIGID_GUST_FACTOR, float(0.925 * (1.0 + swing * background) / (1.0 + swing)))
