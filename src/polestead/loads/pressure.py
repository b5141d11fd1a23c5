"""From a gust to the pressure at the array (ASCE 7 chapter 26)."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from polestead.base.source import Source
from polestead.base.table import table
from polestead.loads.hill import Hill, topographic_factor

Floats = NDArray[np.float64]
FOOT_M = 0.3048
# 0.00256 psf per mph squared, in SI: half of 0.0765 lb/ft3 of air (ASCE 7-16 C26.10).
AIR_FACTOR = 0.613
LEAST_KZ_HEIGHT_M = 15.0 * FOOT_M
PEAK = 3.4  # g_Q and g_v of Eq. 26.11-6
RIGID_GUST_FACTOR = 0.85
DIRECTIONALITY = 0.85
LEAST_NATURAL_HZ = 1.0

KZ_SOURCE = Source("ASCE 7-16", "Table 26.10-1", "seen-copy")
KE_SOURCE = Source("ASCE 7-16", "Table 26.9-1 note 2", "seen")
PRESSURE_SOURCE = Source("ASCE 7-16", "Eq. 26.10-1, Kd written apart", "seen-copy")
GUST_SOURCE = Source("ASCE 7-16", "26.11.4, Eq. 26.11-6", "memory")
RIGID_SOURCE = Source("ASCE 7-16", "26.11.1, rigid", "memory")
FLEXIBLE_SOURCE = Source("ASCE 7-16", "26.11.5, Eqs. 26.11-10 to -15", "memory")
EN_PRESSURE_SOURCE = Source("EN 1991-1-4:2005", "4.5, Eq. 4.8 with Table 4.1", "seen-copy")
EN = "EN 1991-1-4"
EN_AIR_KG_M3 = 1.25  # EN 1991-1-4, 4.5 note 2
# z0 and z_min of the terrain categories, metres (EN 1991-1-4 Table 4.1; seen in a copy)
EN_TERRAIN = {
    "0": (0.003, 1.0), "I": (0.01, 1.0), "II": (0.05, 2.0), "III": (0.3, 5.0), "IV": (1.0, 10.0),
}  # fmt: skip
KD_SOURCE = Source("ASCE 7-16", "Table 26.6-1", "seen-copy")


@dataclass(frozen=True, slots=True)
class SiteWind:
    """The place as the wind feels it.

    Attributes:
        exposure: B, C or D; under Eurocode the terrain category, 0 to IV.
        topographic: Kzt on flat ground, 1; under Eurocode the orography factor c0, on the speed.
        elevation: Ke.
        basis: ``ASCE 7-16`` or ``ASCE 7-22`` (Kz constants), or ``EN 1991-1-4``.
        blocked: Whether more than half of the opening under the array may be blocked; Eurocode looks at both always.
        hill: What makes Kzt larger with its three multipliers; None for the one figure of ``topographic``.
    """

    exposure: str
    topographic: float
    elevation: float
    basis: str
    hill: Hill | None = None
    blocked: bool = False

    @property
    def eurocode(self) -> bool:
        """Whether the Eurocodes are the basis."""
        return self.basis == EN


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
    """Velocity pressure q = 0.613 Kz Kzt Ke V^2, without Kd; under Eurocode the peak pressure of that gust.

    7-16 writes Kd inside this equation and 7-22 beside it; here it always stands beside, and is used once.  Eurocode:
    q_p(z) = 1/2 rho V^2 ce(z) / ce_II(10), with V the gust at 10 m in terrain II, so that V = v_b sqrt(ce_II(10)) gives
    q_b ce(z).
    Source: ASCE 7-16 Eq. 26.10-1.SI; EN 1991-1-4 Eq. 4.8.

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
    if site.eurocode:
        share = exposure_factor(height_m, site.exposure, site.topographic) / OPEN_TEN_METRES
        return np.asarray(0.5 * EN_AIR_KG_M3 * np.square(gust_m_s) * share)
    kz = height_factor(height_m, site.basis, site.exposure)
    kzt = site.topographic if site.hill is None else topographic_factor(site.hill, height_m)
    return np.asarray(AIR_FACTOR * kz * kzt * site.elevation * np.square(gust_m_s))


def roughness_factor(height_m: Floats | float, category: str) -> Floats:
    """c_r(z) = .19 (z0/.05)^.07 ln(z/z0), held below z_min.

    Source: EN 1991-1-4 Eqs. 4.4, 4.5 and Table 4.1.

    Args:
        height_m: Over the ground [m], any shape.
        category: 0, I, II, III or IV.
    """
    rough_m, least_m = EN_TERRAIN[category]
    z = np.maximum(height_m, least_m)
    return np.asarray(0.19 * (rough_m / 0.05) ** 0.07 * np.log(z / rough_m))


def exposure_factor(height_m: Floats | float, category: str, orography: float = 1.0) -> Floats:
    """c_e(z) = (1 + 7 I_v) c_r^2 c_0^2 with I_v = 1 / (c_0 ln(z/z0)); k_I = 1.

    Source: EN 1991-1-4 Eqs. 4.7, 4.8.

    Args:
        height_m: Over the ground [m], any shape.
        category: 0, I, II, III or IV.
        orography: c_0.

    Example:
        >>> round(float(exposure_factor(4.0, "II")), 2), round(float(exposure_factor(10.0, "II")), 2)
        (1.8, 2.35)
    """
    rough_m, least_m = EN_TERRAIN[category]
    z = np.maximum(height_m, least_m)
    swing = 1.0 / (orography * np.log(z / rough_m))
    return np.asarray(
        (1.0 + 7.0 * swing) * np.square(orography * roughness_factor(height_m, category))
    )


OPEN_TEN_METRES = float(exposure_factor(10.0, "II"))


def map_gust_m_s(basis: str, map_speed_m_s: float) -> float:
    """The three-second gust at 10 m in the open that stands for the map's figure: the map's own, or v_b sqrt(ce_II(10)).

    Args:
        basis: Edition.
        map_speed_m_s: Of the map: a three-second gust (ASCE), or a ten-minute mean, v_b (EN).

    Example:
        >>> map_gust_m_s("ASCE 7-16", 47.0), round(map_gust_m_s("EN 1991-1-4", 27.0), 1)
        (47.0, 41.4)
    """
    return map_speed_m_s * (float(np.sqrt(OPEN_TEN_METRES)) if basis == EN else 1.0)


def allowable_gust_m_s(basis: str, map_speed_m_s: float) -> float:
    """The code's wind on the scale of the gust card: V sqrt(.6), or the characteristic gust (METHODS 4.3)."""
    share = 1.0 if basis == EN else float(np.sqrt(0.6))
    return map_gust_m_s(basis, map_speed_m_s) * share


def mean_pressure_pa(gust_m_s: float, height_m: float, site: SiteWind) -> float:
    """Pressure of the mean (hourly) speed at a height, for the collector coefficients (conventions §11).

    V(z) = b (z / 33 ft)^a V; under Eurocode c_r(z) c_0 v_b with v_b = V / sqrt(ce_II(10)).
    Source: ASCE 7-16 Eq. 26.11-16 with Table 26.11-1 (from memory); EN 1991-1-4 Eq. 4.3.

    Args:
        gust_m_s: Three-second gust at 10 m over open ground [m/s].
        height_m: Hinge height [m].
        site: The place.

    Returns:
        [Pa].
    """
    if site.eurocode:
        faster = float(roughness_factor(height_m, site.exposure)) * site.topographic
        return 0.5 * EN_AIR_KG_M3 * (faster * gust_m_s) ** 2 / OPEN_TEN_METRES
    t = terrain(site.basis, site.exposure)
    height_ft = max(height_m / FOOT_M, 1.0)
    mean_m_s = t["mean_share"] * (height_ft / 33.0) ** t["mean_power"] * gust_m_s
    kzt = site.topographic if site.hill is None else float(topographic_factor(site.hill, height_m))
    return float(AIR_FACTOR * kzt * site.elevation * mean_m_s**2)


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


def flexible_gust_factor(
    height_m: float,
    width_m: float,
    basis: str,
    exposure: str,
    gust_m_s: float,
    natural_hz: float,
    damping: float = 0.01,
) -> float:
    """Gust factor of a thing that sways slower than once a second.

    Gf = .925 (1 + 1.7 I sqrt(gQ^2 Q^2 + gR^2 R^2)) / (1 + 1.7 gv I), not below the rigid one.
    Source: ASCE 7-16 26.11.5, Eqs. 26.11-10 to 26.11-15 (from memory); damping of 1 % is that of bare steel (C26.11).

    Args:
        height_m: Top height h [m].
        width_m: Width square to the wind B; the depth along it is taken alike [m].
        basis: Edition.
        exposure: B, C or D.
        gust_m_s: V of the map [m/s].
        natural_hz: n1 [Hz].
        damping: Share of critical.

    Example:
        >>> slow = flexible_gust_factor(5.1, 4.6, "ASCE 7-16", "C", 47.0, 0.8)
        >>> 0.9 < slow < 1.6
        True
    """
    t = terrain(basis, exposure)
    z = max(0.6 * height_m / FOOT_M, t["least_ft"])
    intensity = t["intensity"] * (33.0 / z) ** (1.0 / 6.0)
    length_ft = t["length_ft"] * (z / 33.0) ** t["length_power"]
    size = (width_m + height_m) / FOOT_M
    background2 = 1.0 / (1.0 + 0.63 * (size / length_ft) ** 0.63)
    mean_ft_s = t["mean_share"] * (z / 33.0) ** t["mean_power"] * gust_m_s / FOOT_M
    reduced = natural_hz * length_ft / mean_ft_s
    turbulence = 7.47 * reduced / (1.0 + 10.3 * reduced) ** (5.0 / 3.0)
    tall, wide = (
        _aerodynamic(share * natural_hz * side_m / FOOT_M / mean_ft_s)
        for share, side_m in ((4.6, height_m), (4.6, width_m))
    )
    deep = _aerodynamic(15.4 * natural_hz * width_m / FOOT_M / mean_ft_s)
    resonant2 = turbulence * tall * wide * (0.53 + 0.47 * deep) / damping
    root = np.sqrt(2.0 * np.log(3600.0 * natural_hz))
    peak2 = (root + 0.577 / root) ** 2
    swing = 1.7 * intensity * np.sqrt(PEAK**2 * background2 + peak2 * resonant2)
    flexible = 0.925 * (1.0 + swing) / (1.0 + 1.7 * PEAK * intensity)
    return max(gust_factor(height_m, width_m, basis, exposure), float(flexible))


def _aerodynamic(eta: float) -> float:
    """R_l of Eq. 26.11-15."""
    return 1.0 / eta - (1.0 - float(np.exp(-2.0 * eta))) / (2.0 * eta**2) if eta > 0.0 else 1.0
