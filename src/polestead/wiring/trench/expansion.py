"""How far a pipe grows and shrinks, and where it must be able to slip."""

from __future__ import annotations

from dataclasses import dataclass
from math import exp, pi, sqrt

from polestead.base.source import Source
from polestead.base.working import Step, Working
from polestead.wiring.by_code import borrowed
from polestead.wiring.currents import Code
from polestead.wiring.trench.burial import INCH_M
from polestead.wiring.trench.conduit import Kind

PVC = Source("NEC", "Table 352.44")
STEEL = Source("NEC", "300.7(B), note")
FITTING = Source("NEC", "352.44")
SUN = Source("NEC", "352.44, note: 30 F for a pipe in the sun", "memory")
PER_F = 1.8  # of a figure per degree Fahrenheit, per kelvin
GROWS_PER_K: dict[Kind, float] = {
    "PVC schedule 40": 3.38e-5 * PER_F,
    "PVC schedule 80": 3.38e-5 * PER_F,
    "rigid metal": 0.65e-5 * PER_F,
    "duct": 2.0e-4,  # polyethylene
}
POLYETHYLENE = Source("handbooks of plastics", "polyethylene, 2e-4 a kelvin", "memory")
FITTING_FROM_M = 0.25 * INCH_M
IN_SUN_K = 30.0 / PER_F
DIFFUSIVITY_M2_S = 0.6e-6  # moist soil; from memory
YEAR_S = 365.25 * 86400.0
WAVE = Source("heat wave in soil", "Carslaw & Jaeger, half-space, yearly wave", "memory")


@dataclass(frozen=True, slots=True)
class Leg:
    """One straight of the pipe between two things that hold it.

    Attributes:
        name: Where it is.
        length_m: Its length.
        swing_k: From its coldest to its hottest.
        change_m: Growth from coldest to hottest, free to move.
        fitting: Whether an expansion fitting is wanted; None in the ground, where the soil holds it, and for ducts.
        working: The sum.
    """

    name: str
    length_m: float
    swing_k: float
    change_m: float
    fitting: bool | None
    working: Working


@dataclass(frozen=True, slots=True)
class Expansion:
    """Growth of the pipe.

    Attributes:
        legs: Both risers, and the buried length where the soil's swing is known.
        slip_riser: Whether frost moves the soil, so that the pipe must slip in its riser.
        notes: Cautions.
    """

    legs: tuple[Leg, ...]
    slip_riser: bool
    notes: tuple[str, ...]


def grows_m(kind: Kind, length_m: float, swing_k: float) -> float:
    """How much longer a pipe is at its hottest than at its coldest.

    Source: NEC Table 352.44, 3.38e-5 a degree Fahrenheit for PVC; 300.7(B), 0.65e-5 for steel (both seen); polyethylene
    2e-4 a kelvin (from memory).

    Args:
        kind: Of pipe.
        length_m: Its length [m].
        swing_k: From coldest to hottest [K].

    Returns:
        [m].

    Example:
        >>> round(grows_m("PVC schedule 40", 30.48, 100.0 / 1.8) / 0.0254, 2)  # 100 ft, 100 F: inches
        4.06
    """
    return GROWS_PER_K[kind] * length_m * swing_k


def soil_swing_k(air_swing_k: float, depth_m: float) -> float:
    """Yearly swing of the soil's temperature at a depth, from that of the months' mean air.

    The yearly wave dies away with depth: e^(-z sqrt(pi / (a P))), a the soil's diffusivity, P a year.  Snow makes it less.
    Source: Carslaw & Jaeger, half-space (from memory); a = 0.6e-6 m2/s, moist soil (from memory).

    Args:
        air_swing_k: Warmest month's mean less the coldest's [K].
        depth_m: Depth [m].

    Returns:
        [K].

    Example:
        >>> soil_swing_k(40.0, 0.0), round(soil_swing_k(40.0, 0.6), 1)
        (40.0, 31.3)
    """
    return air_swing_k * exp(-depth_m * sqrt(pi / (DIFFUSIVITY_M2_S * YEAR_S)))


def expansion_of(
    kind: Kind,
    risers_m: tuple[tuple[str, float], ...],
    buried_m: float,
    depth_m: float,
    record_low_c: float,
    hottest_c: float,
    frost_lifts: bool,
    month_means_c: tuple[float, float] | None = None,
    code: Code = "NEC",
) -> Expansion:
    """Growth of each leg of the pipe.

    Args:
        kind: Of pipe.
        risers_m: Name and straight length of each riser, from elbow to box [m].
        buried_m: Level length in the ground [m].
        depth_m: Its depth [m].
        record_low_c: Coldest the riser gets [C].
        hottest_c: Hottest air about the riser; the sun adds 30 F [C].
        frost_lifts: Whether frost goes deeper than the pipe in a soil it lifts.
        month_means_c: Mean of the coldest and of the warmest month [C]; None leaves the buried length untold.
        code: That holds; the growth of a pipe is the same everywhere.
    """
    swing = hottest_c + IN_SUN_K - record_low_c
    legs = [_leg(name, kind, length_m, swing, True, code) for name, length_m in risers_m]
    notes = []
    if month_means_c is not None:
        coldest, warmest = month_means_c
        buried = soil_swing_k(max(0.0, warmest - coldest), depth_m)
        legs.append(_leg("in the ground", kind, buried_m, buried, None, code))
        notes.append(
            "In the ground the soil holds the pipe and most of that growth becomes push and pull at the ends: glue every joint, "
            "lay it in gentle curves, close the trench from one end on a cool morning."
        )
    if any(leg.fitting for leg in legs):
        notes.append(
            "Set the expansion fitting by the day's temperature: on a hot day almost closed, on a cold one almost open; "
            "clamp the pipe tight on one side of it only, loose on the other."
        )
    if kind == "duct":
        notes.append(
            "Corrugated duct takes its own growth in its waves. In a riser it wants a guard, and must be marked for sunlight."
        )
    if frost_lifts:
        notes.append(
            "Frost lifts this soil: let the pipe slip up and down in a larger riser or an expansion fitting with enough travel at pole "
            "and wall. How far it lifts nobody has measured here: ask the neighbours how far fence posts rise in a winter."
        )
    return Expansion(tuple(legs), frost_lifts, tuple(notes))


def _leg(
    name: str, kind: Kind, length_m: float, swing: float, in_air: bool | None, code: Code
) -> Leg:
    change = grows_m(kind, length_m, swing)
    plastic = kind != "rigid metal"
    source = borrowed(POLYETHYLENE if kind == "duct" else PVC if plastic else STEEL, code)
    rigid = in_air and kind != "duct"
    fitting = round(change, 7) >= round(FITTING_FROM_M, 7) if rigid else None
    working = Working(
        f"growth of the pipe, {name}",
        (
            Step("length", "L", "", length_m, "m", Source("the run", status="computed")),
            Step("from coldest to hottest", "dT", "", swing, "K", borrowed(SUN, code) if in_air else WAVE),
            Step("growth", "dL", f"{GROWS_PER_K[kind]:.4g} x {length_m:.2f} x {swing:.1f}", change, "m", source),
        ),
        (f"From 1/4 in (6 mm) on between two things that hold it, an expansion fitting ({borrowed(FITTING, code)}).",) if rigid else (),
    )  # fmt: skip
    return Leg(name, length_m, swing, change, fitting, working)
