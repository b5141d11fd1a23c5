"""The pier in its soil: IBC 1807.3 with topsoil and frost left out."""

from __future__ import annotations

from dataclasses import dataclass
from math import pi, radians, tan

import numpy as np
from numpy.typing import NDArray

from polestead.base.source import OWNER, Source
from polestead.base.table import table
from polestead.base.working import Step
from polestead.homestead.model import Footing, Place

Floats = NDArray[np.float64]

PSF_PA, PSF_FT_PA_M = 47.880258980336, 157.08746384625
CONCRETE_N_M3 = 23.5e3  # 150 lb/ft3, plain concrete with some steel: common practice, no source
WATER_N_M3 = 9.81e3
WATER = Source("buoyancy, spread evenly over the pier's depth", status="ours")
LEAST_USELESS_M = 0.3  # topsoil is never trusted: our own rule
THAW_SHARE = 0.5  # of the frost depth in silt or clay, soft in spring: our own rule
CAP_M = 12 * 0.3048  # IBC 1807.3.2.1: depth beyond which the pressure no longer grows
EARTH_K = 0.7  # side pressure of the soil on the cast shaft over its weight above: our own, low
RUBS = Source("skin of a cast pier: K .7, concrete's friction three quarters of the soil's; clay half its strength", "docs/method/footing.md", "ours")  # fmt: skip
ROUGH = 0.75  # friction angle of concrete on soil over the soil's own: common practice, no source
CLAY_ADHESION = 0.5  # of the undrained strength (from memory)
TWIST_SAFETY = 1.5
IBC_EDITION = "IBC 2012"  # the one whose Table 1806.2 was read; Eqs. 18-1 and 18-2 read alike from 2009 to 2021
IBC = Source(IBC_EDITION, "1807.3.2.1, Eq. 18-1")
IBC_HELD = Source(IBC_EDITION, "1807.3.2.2, Eq. 18-2, held by a slab")
TABLE = Source(IBC_EDITION, "Table 1806.2")
DOUBLING = Source(IBC_EDITION, "1806.3.4")
PRESUMED = Source("presumed for the soil class, low: test it", "docs/method/footing.md", "ours")
BROMS = Source("Broms 1964", "UFC 3-220-20, Eqs. 6-59 to 6-65")


@dataclass(frozen=True, slots=True)
class Pier:
    """A pier in a soil class.

    Attributes:
        diameter_m, depth_m, collar_m, pole_depth_m: As planned or built.
        effective_m: Depth below ground above which the soil does not help, z0.
        lateral_pa_m: Allowable lateral pressure per depth, doubled where the owner ticked it.
        bearing_pa: Allowable bearing.
        skin_friction: Coefficient of skin friction, 0 for clay.
        skin_pa: Adhesion of clay, 0 for grains.
        weight_n: Of the concrete, the pole's volume left in.
        steps: How the soil counts, by any code.
        passive: Rankine's passive coefficient Kp, 0 for clay.
        soil_n_m3: Weight of the soil.
        undrained_pa: Undrained strength, 0 for grains.
        angle_deg: Friction angle, 0 for clay.
        times: 2 where the lateral value is doubled, else 1.
        lateral_steps: The same with the lateral value, which Eqs. 18-1 and 18-2 alone ask for.
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
    passive: float
    soil_n_m3: float
    undrained_pa: float
    angle_deg: float = 0.0
    times: float = 1.0
    lateral_steps: tuple[Step, ...] = ()


def pier_in(footing: Footing, place: Place) -> Pier:
    """The pier in the soil, frost and water of its place.

    Args:
        footing: The footing section.
        place: The place section.
    """
    return pier_of(
        footing, place.soil, place.frost_soil, place.frost_depth_m, place.undrained_strength_pa, place.water_depth_m
    )  # fmt: skip


def pier_of(
    footing: Footing,
    soil: str,
    frost_soil: str,
    frost_depth_m: float,
    undrained_pa: float | None = None,
    water_m: float | None = None,
) -> Pier:
    """The pier as the sums take it.

    Args:
        footing: The footing section.
        soil: Soil class of the place.
        frost_soil: Whether frost lifts it.
        frost_depth_m: [m].
        undrained_pa: Undrained strength where it was tested; counts in clay only [Pa].
        water_m: Depth of the water in the wettest month, None for deeper than the pier [m].
    """
    row = next(row for row in table("footing", "soils") if row["soil"] == soil)
    soft_m = (
        THAW_SHARE * frost_depth_m
        if frost_soil == "silt or clay" or soil == "clay or silt"
        else 0.0
    )
    useless_m = max(footing.neglected_m, LEAST_USELESS_M, soft_m)
    times = 2.0 if footing.half_inch_allowed else 1.0
    single = float(row["lateral_psf_ft"]) * PSF_FT_PA_M
    angle, undrained = float(row["friction_angle_deg"]), float(row["undrained_kpa"]) * 1e3
    if undrained > 0.0 and undrained_pa is not None:
        undrained = undrained_pa
    weight_n = (
        pi / 4.0 * footing.diameter_m**2 * (footing.depth_m + footing.collar_m) * CONCRETE_N_M3
    )
    bearing = float(row["vertical_psf"]) * PSF_PA
    wet_m = 0.0 if water_m is None else max(footing.depth_m - water_m, 0.0)
    weight_n -= pi / 4.0 * footing.diameter_m**2 * wet_m * WATER_N_M3
    soil_n_m3 = float(row["weight_kn_m3"]) * 1e3 - WATER_N_M3 * wet_m / footing.depth_m
    useless = Step("soil that does not help", "z0", f"max({footing.neglected_m:.3f}, {LEAST_USELESS_M}, {soft_m:.3f})", useless_m, "m", Source("topsoil, frost-softened soil", status="ours"))  # fmt: skip
    across = Step("diameter", "b", "", footing.diameter_m, "m", OWNER)
    steps = (
        useless,
        across,
        *_strength_steps(angle, undrained, float(row["weight_kn_m3"]) * 1e3, undrained_pa is not None),
        *([Step("weight of the soil, lighter where it stands in water", "g", f"{wet_m:.2f} m of {footing.depth_m:.2f} m in water", soil_n_m3, "N/m^3", WATER)] if wet_m else []),
    )  # fmt: skip
    lateral_steps = (
        useless,
        Step("lateral value of the soil class", "S", "", single, "Pa/m", TABLE),
        Step("taken, doubled where half an inch does no harm", "S'", f"{times:.0f} x {single:.0f}", times * single, "Pa/m", DOUBLING),
        across,
    )  # fmt: skip
    return Pier(
        diameter_m=footing.diameter_m,
        depth_m=footing.depth_m,
        collar_m=footing.collar_m,
        pole_depth_m=footing.pole_depth_m,
        effective_m=useless_m,
        lateral_pa_m=times * single,
        bearing_pa=bearing,
        skin_friction=EARTH_K * tan(radians(ROUGH * angle)),
        skin_pa=CLAY_ADHESION * undrained,
        weight_n=weight_n,
        steps=steps,
        lateral_steps=lateral_steps,
        passive=tan(radians(45.0 + angle / 2.0)) ** 2 if angle > 0.0 else 0.0,
        soil_n_m3=soil_n_m3,
        undrained_pa=undrained,
        angle_deg=angle,
        times=times,
    )


def _strength_steps(
    angle_deg: float, undrained_pa: float, soil_n_m3: float, tested: bool
) -> tuple[Step, ...]:
    """Strength and weight of the soil, and who says so."""
    weight = Step("weight of the soil", "g", "", soil_n_m3, "N/m^3", PRESUMED)
    if undrained_pa > 0.0:
        who = OWNER if tested else PRESUMED
        return (Step("undrained strength of the soil", "c", "", undrained_pa, "Pa", who), weight)
    return (Step("friction angle of the soil", "phi", "", angle_deg, "deg", PRESUMED), weight)


def embedment_m(
    lateral_pa_m: float, width_m: float, horizontal_n: Floats, height_m: Floats
) -> Floats:
    """Embedment of an unconstrained pole footing.

    Source: IBC 1807.3.2.1, Eq. 18-1: d = A/2 (1 + sqrt(1 + 4.36 h / A)), A = 2.34 P / (S1 b), S1 the lateral value at d/3.
    With S1 = S d / 3 put in, d^3 - k d - 1.09 h k = 0, k = 7.02 P / (S b), which has one root above nothing.  Beyond 12 ft S1
    is that of 12 ft.

    Args:
        lateral_pa_m: S, allowable lateral pressure per depth [Pa/m].
        width_m: b [m].
        horizontal_n: P, any shape [N].
        height_m: h of P over the resisting surface, same shape [m].

    Returns:
        d [m], same shape.

    Example:
        >>> d = embedment_m(266 * 157.0874638, 0.3048, np.array(510 * 4.4482216), np.array(4 * 0.3048))
        >>> round(float(d) / 0.3048, 2)
        5.02
    """
    p, h = np.maximum(horizontal_n, 0.0), np.maximum(height_m, 0.0)
    d = _cubic_root(3.0 * 2.34 * p / (lateral_pa_m * width_m), 1.09 * h)
    a = 2.34 * p / (lateral_pa_m * CAP_M / 3.0 * width_m)
    with np.errstate(divide="ignore", invalid="ignore"):
        capped = np.where(a > 0.0, 0.5 * a * (1.0 + np.sqrt(1.0 + 4.36 * h / a)), 0.0)
    return np.asarray(np.where(d > CAP_M, np.maximum(capped, CAP_M), d))


def _cubic_root(k: Floats, s: Floats) -> Floats:
    """The root above nothing of d^3 - k d - s k = 0, in closed form; both above or at nothing."""
    half, third = s * k / 2.0, k / 3.0
    inside = half**2 - third**3
    root = np.sqrt(np.maximum(inside, 0.0))
    one = np.cbrt(half + root) + np.cbrt(half - root)
    cosine = np.divide(half, third**1.5, out=np.zeros_like(half * third), where=third > 0.0)
    three = 2.0 * np.sqrt(third) * np.cos(np.arccos(np.clip(cosine, -1.0, 1.0)) / 3.0)
    return np.asarray(np.where(inside >= 0.0, one, three))


def constrained_embedment_m(
    lateral_pa_m: float, width_m: float, horizontal_n: Floats, height_m: Floats
) -> Floats:
    """Embedment of a pole footing held at the ground by a rigid slab.

    Source: IBC 1807.3.2.2, Eq. 18-2: d = sqrt(4.25 P h / (S3 b)), S3 the lateral value at d; with S3 = S d put in,
    d^3 = 4.25 P h / (S b).

    Args:
        lateral_pa_m: S [Pa/m].
        width_m: b [m].
        horizontal_n: P, any shape [N].
        height_m: h, same shape [m].

    Example:
        >>> d = constrained_embedment_m(266 * 157.0874638, 0.3048, np.array(510 * 4.4482216), np.array(4 * 0.3048))
        >>> round(float(d) / 0.3048, 2)
        3.19
    """
    load = 4.25 * np.maximum(horizontal_n, 0.0) * np.maximum(height_m, 0.0)
    d = np.cbrt(load / (lateral_pa_m * width_m))
    return np.asarray(np.where(d > CAP_M, np.sqrt(load / (lateral_pa_m * CAP_M * width_m)), d))


def needed_depth_m(
    pier: Pier, horizontal_n: Floats, moment_n_m: Floats, constrained: bool = False
) -> Floats:
    """Depth of embedment below ground needed by IBC Eq. 18-1 (held by a slab: 18-2), the useless top included.

    Args:
        pier: The pier.
        horizontal_n: Total horizontal force.
        moment_n_m: Its moment about the ground line.
        constrained: Whether a rigid slab at the ground holds it.

    Returns:
        Same shape as the forces [m].
    """
    p = np.maximum(np.abs(horizontal_n), 1e-6)
    height = np.abs(moment_n_m) / p
    if constrained:  # the slab is at the ground; frost and topsoil are left out all the same
        return pier.effective_m + constrained_embedment_m(
            pier.lateral_pa_m, pier.diameter_m, p, height
        )
    height = height + pier.effective_m
    return pier.effective_m + embedment_m(pier.lateral_pa_m, pier.diameter_m, p, height)


def below_grade_moment_n_m(pier: Pier, horizontal_n: Floats, moment_n_m: Floats) -> Floats:
    """Largest moment in the pole below the ground.

    Source: Broms 1964.  Grains: at f = 0.82 sqrt(H / (g Kp b)) below the effective grade, M = H (e + 2 f / 3).  Clay:
    M = H (e + 1.5 b + f / 2), f = H / (9 c b), the dead zone 1.5 b or the useless soil, whichever is deeper.

    Args:
        pier: The pier.
        horizontal_n: Total horizontal force.
        moment_n_m: Its moment about the ground line.
    """
    h, b = np.abs(horizontal_n), pier.diameter_m
    at_grade = np.abs(moment_n_m)
    if pier.undrained_pa > 0.0:
        f = h / (9.0 * pier.undrained_pa * b)
        return np.asarray(at_grade + h * (max(pier.effective_m, 1.5 * b) + 0.5 * f))
    f = 0.82 * np.sqrt(h / (pier.soil_n_m3 * pier.passive * b))
    return np.asarray(at_grade + h * (pier.effective_m + 2.0 / 3.0 * f))


def uplift_allowable_n(pier: Pier) -> float:
    """Allowable pull upwards: 0.6 of the pier's weight; skin is not counted (it loosens with frost and sway).

    Source: ASCE 7 combination 0.6 D + 0.6 W.
    """
    return 0.6 * pier.weight_n


def bearing_pa(pier: Pier, down_n: Floats) -> Floats:
    """Pressure under the pier, its own weight included.

    Args:
        pier: The pier.
        down_n: From above, + down, any shape [N].
    """
    return np.asarray((np.asarray(down_n) + pier.weight_n) / (pi / 4.0 * pier.diameter_m**2))


def skin_of(pier: Pier, depth_m: float) -> tuple[float, tuple[Step, ...]]:
    """Friction of soil on the cast shaft at a depth [Pa], with its rungs.

    Source: our own sum, on the low side: grains press with K of the weight above and rub by K tan(delta), clay clings with
    half its undrained strength.  Valid for: a pier cast against the soil.

    Args:
        pier: The pier.
        depth_m: Middle of the length that rubs [m].

    Returns:
        The friction and the rungs it follows from.
    """
    if pier.undrained_pa > 0.0:
        clings = Step("skin of the clay, half of its strength", "fs", f"{CLAY_ADHESION:g} x {pier.undrained_pa:.0f}", pier.skin_pa, "Pa", RUBS)  # fmt: skip
        return pier.skin_pa, (clings,)
    skin = pier.skin_friction * pier.soil_n_m3 * depth_m
    return skin, (
        Step("side pressure over the weight above, times concrete's friction on the soil", "K tan delta", f"{EARTH_K:g} x tan {ROUGH * pier.angle_deg:.3f}", pier.skin_friction, "", RUBS),
        Step("skin at the middle of what rubs", "fs", f"{pier.skin_friction:.4f} x {pier.soil_n_m3:.0f} x {depth_m:.4f}", skin, "Pa", RUBS),
    )  # fmt: skip


def twist_allowable_n_m(pier: Pier, twist_bars: bool) -> float:
    """Allowable twist by skin over 1.5; without bars the pole may turn in the pier and nothing is allowed.

    Source: our own sum: grains K tan(delta) times the soil's weight at mid-depth, clay half its undrained strength, on the
    shaft below the useless soil, times the radius.

    Args:
        pier: The pier.
        twist_bars: Whether bars through the pole's foot tie it to the concrete.
    """
    if not twist_bars:
        return 0.0
    below = max(pier.depth_m - pier.effective_m, 0.0)
    middle = pier.effective_m + below / 2.0
    skin, _ = skin_of(pier, middle)
    return skin * pi * pier.diameter_m * below * pier.diameter_m / 2.0 / TWIST_SAFETY
