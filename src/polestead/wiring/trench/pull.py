"""Pulling the wires in: bends, tension, what the wire and its insulation bear, where a pull box is wanted."""

from __future__ import annotations

from dataclasses import dataclass
from math import exp, pi, radians, sqrt

from polestead.base.check import Check, share
from polestead.base.source import COMMON_PRACTICE, OWNER, Source
from polestead.base.working import Step, Working
from polestead.wiring.by_code import borrowed
from polestead.wiring.currents import Code
from polestead.wiring.run.conductor import area_mm2
from polestead.wiring.trench.conduit import Conduit, InPipe

TENSION = Source("IEEE 1185", "pulling tension in straights and bends", "memory")
BEARS = Source(
    "ICEA guidance (United States)",
    "0.008 lb/cmil (70 N/mm²) of copper, 0.006 lb/cmil (53 N/mm²) of aluminium",
)
SIDE = Source("ICEA guidance (United States)", "side pressure, 300 lb/ft (4.38 kN/m) of radius")
FRICTION = Source("ICEA guidance (United States)", "friction usually 0.5")
BENDS_BY_CODE: dict[Code, Source] = {
    "NEC": Source("NEC", "352.26 and 344.26", "memory"),
    "Canada": Source("CSA C22.1", "12-942", "memory"),
    "IEC": COMMON_PRACTICE,
}
SWEEP = Source("NEC", "Ch. 9 Table 2", "memory")
LBF_N = 4.4482216152605
CMIL_MM2 = pi / 4.0 * 0.0254**2
STRESS_N_MM2 = {"copper": 0.008 * LBF_N / CMIL_MM2, "aluminium": 0.006 * LBF_N / CMIL_MM2}
SIDE_N_M = 300.0 * LBF_N / 0.3048
GRIP_N = 1000.0 * LBF_N  # a basket grip over the insulation
MOST_BENDS_DEG = 360.0
DRY, WITH_LUBRICANT = 0.5, 0.35
DENSITY_KG_M3 = {"copper": 8890.0, "aluminium": 2703.0}  # IEC 60028, IEC 60889
PLASTIC_KG_M3 = 1400.0  # insulation and sheath, on the heavy side: ours
G = 9.80665
BY_HAND_N = 500.0  # two people on a rope: common practice, no source
TWO_SWEEPS_DEG = (90.0, 90.0)


@dataclass(frozen=True, slots=True)
class Pull:
    """One pull, from pull point to pull point.

    Attributes:
        length_m: Pipe from end to end.
        bends_deg: Each bend; ``bends_told`` whether the file names them.
        bends_told: See above.
        friction: Wire against pipe, dry.
        mass_kg_m: All wires together.
        wedging: Factor on the weight by which the wires press on one another and the wall.
        tension_n: Most that may be felt at the rope, dry; bends of the file all at the pulling end.
        oiled_n: The same with lubricant.
        limit_n: What the live wires bear at their metal, or the grip.
        side_n_m: Side pressure in the last bend, on the wire pressed most.
        longest_m: Longest straight length that would still hold with these bends.
        pull_box: Whether a pull box is wanted.
        by_hand: Whether two people on a rope will do, with lubricant.
        sweep_m: Radius the bends are taken at: the least allowed.
        checks: Bends, tension, side pressure.
        notes: Cautions.
    """

    length_m: float
    bends_deg: tuple[float, ...]
    bends_told: bool
    friction: float
    mass_kg_m: float
    wedging: float
    tension_n: float
    oiled_n: float
    limit_n: float
    side_n_m: float
    longest_m: float
    pull_box: bool
    by_hand: bool
    sweep_m: float
    checks: tuple[Check, ...]
    notes: tuple[str, ...]


def straight_n(mass_kg_m: float, length_m: float, friction: float, wedging: float = 1.0) -> float:
    """Tension after a level straight: T = w m g L mu.

    Source: IEEE 1185 (from memory).

    Args:
        mass_kg_m: Wires together [kg/m].
        length_m: Level straight [m].
        friction: Wire against pipe.
        wedging: Factor on the weight.

    Returns:
        [N].

    Example:
        >>> round(straight_n(1.0, 100.0, 0.5), 2)
        490.33
    """
    return wedging * mass_kg_m * G * length_m * friction


def after_bend_n(before_n: float, bend_deg: float, friction: float, wedging: float = 1.0) -> float:
    """Tension after a bend: T e^(w mu theta).

    Source: capstan equation; IEEE 1185 (from memory).

    Args:
        before_n: Tension that enters it [N].
        bend_deg: Its angle [deg].
        friction: Wire against pipe.
        wedging: Factor on the weight.

    Returns:
        [N].

    Example:
        >>> round(after_bend_n(100.0, 90.0, 0.5), 1)
        219.3
    """
    return before_n * exp(wedging * friction * radians(bend_deg))


def wedging_of(count: int, thickest_m: float, inside_m: float) -> float:
    """Factor on the weight by which wires in a pipe press on one another and the wall.

    Source: industry guidance (from memory): 1 for one; 1/sqrt(1 - (d/(D-d))^2) for two; 1 + 4/3 (d/(D-d))^2 for three
    lying as in a cradle; 1.4 for more.  Valid for: d < D/2; beyond it the two-wire form has no value and 1.4 is the least.

    Args:
        count: Wires.
        thickest_m: Outside diameter d [m].
        inside_m: Of the pipe, D [m].

    Example:
        >>> wedging_of(1, 0.01, 0.05), round(wedging_of(3, 0.01, 0.05), 4), wedging_of(5, 0.01, 0.05)
        (1.0, 1.0833, 1.4)
    """
    if count == 1:
        return 1.0
    if count > 3:
        return 1.4
    ratio = (thickest_m / (inside_m - thickest_m)) ** 2 if inside_m > thickest_m else 1.0
    if count == 3:
        return 1.0 + 4.0 / 3.0 * ratio
    return 1.0 / sqrt(1.0 - ratio) if ratio < 0.49 else 1.4


def worst_wire(count: int, wedging: float) -> float:
    """Share of the side pressure that lies on the wire pressed most.

    Source: industry guidance (from memory): all of it for one wire, w/2 for two, (3w - 2)/3 for three or more as in a cradle.

    Args:
        count: Wires.
        wedging: Factor on the weight.

    Example:
        >>> worst_wire(1, 1.0), round(worst_wire(3, 1.3), 4)
        (1.0, 0.6333)
    """
    if count == 1:
        return 1.0
    return wedging / 2.0 if count == 2 else (3.0 * wedging - 2.0) / 3.0


def bears_n(size: str, metal: str, count: int) -> float:
    """Tension the metal of so many wires of one size bears at a pulling eye.

    Source: ICEA guidance (seen in makers' pages): 0.008 lb a circular mil of soft copper, 0.006 of AA-8000 aluminium, a
    fifth less for more than three wires.

    Args:
        size: As the tables write it.
        metal: ``copper`` or ``aluminium``.
        count: Wires that hold.

    Returns:
        [N].

    Example:
        >>> round(bears_n("4 AWG", "copper", 1) / 4.4482, 0)
        334.0
    """
    fewer = 0.8 if count > 3 else 1.0
    return fewer * count * STRESS_N_MM2[metal] * area_mm2(size)


def mass_kg_m(wires: tuple[InPipe, ...], metal: str) -> float:
    """All wires of the pipe together.

    Metal with 2 % for the lay of the strands, plastic for the rest of the area at 1400 kg/m3 (ours, on the heavy side);
    the earth wire is copper.

    Args:
        wires: What lies in the pipe.
        metal: Of the live wires.
    """
    total = 0.0
    for wire in wires:
        core_m2 = area_mm2(wire.size) * 1e-6
        of = "copper" if wire.what == "earth wire" else metal
        plastic_m2 = max(0.0, wire.area_m2 - core_m2)
        total += wire.count * (1.02 * core_m2 * DENSITY_KG_M3[of] + plastic_m2 * PLASTIC_KG_M3)
    return total


def pull_of(
    conduit: Conduit,
    metal: str,
    length_m: float,
    bends_deg: tuple[float, ...],
    rise_m: float = 0.0,
    code: Code = "NEC",
    friction: float = DRY,
) -> Pull:
    """The pull of the run's wires through its pipe.

    Bends the file names may lie anywhere, so all are taken at the pulling end: every pound of friction is then raised by
    every bend, and no other order of straights and bends pulls harder.  Where none is named there is one sweep at the foot of
    each riser: the wires enter the first slack from the reel, and the level straight is raised by the second only.

    Args:
        conduit: The pipe and its wires.
        metal: Of the live wires.
        length_m: Pipe from end to end [m].
        bends_deg: Each bend [deg]; none named: two sweeps of 90 deg.
        rise_m: How far the wires are lifted besides [m].
        code: Whose limit on bends.
        friction: Wire against pipe.
    """
    bends = bends_deg or TWO_SWEEPS_DEG
    thickest = max(wire.outside_m for wire in conduit.wires)
    wedging = wedging_of(conduit.count, thickest, conduit.pipe.inside_m)
    mass = mass_kg_m(conduit.wires, metal)
    lifted = mass * G * rise_m
    live = conduit.wires[0]
    limit = min(bears_n(live.size, metal, live.count), GRIP_N)
    radius = conduit.pipe.sweep_m

    raised = sum(bends) if bends_deg else bends[-1]
    before, after = (
        (lifted, 0.0) if bends_deg else (0.0, lifted)
    )  # the lift comes last in the riser

    def felt(mu: float) -> float:
        straight = straight_n(mass, length_m, mu, wedging)
        return after_bend_n(straight + before, raised, mu, wedging) + after

    tension, oiled = felt(friction), felt(min(friction, WITH_LUBRICANT))
    worst = worst_wire(conduit.count, wedging)
    most = min(limit - after, SIDE_N_M * radius / worst)
    turned = after_bend_n(1.0, raised, friction, wedging)
    longest = max(0.0, (most / turned - before) / straight_n(mass, 1.0, friction, wedging))
    in_bend = tension - after
    checks = (
        _bends_check(bends, bool(bends_deg), code),
        _tension_check(mass, length_m, friction, wedging, (before, after), raised, tension, limit),
        _side_check(in_bend, radius, worst, code),
    )
    return Pull(
        length_m=length_m,
        bends_deg=tuple(bends),
        bends_told=bool(bends_deg),
        friction=friction,
        mass_kg_m=mass,
        wedging=wedging,
        tension_n=tension,
        oiled_n=oiled,
        limit_n=limit,
        side_n_m=worst * in_bend / radius,
        longest_m=longest,
        pull_box=not all(check.holds for check in checks),
        by_hand=oiled <= BY_HAND_N,
        sweep_m=radius,
        checks=checks,
        notes=_notes(oiled),
    )


def _bends_check(bends: tuple[float, ...], told: bool, code: Code) -> Check:
    turned, source = sum(bends), BENDS_BY_CODE[code]
    formula = " + ".join(f"{bend:g}" for bend in bends)
    given = OWNER if told else Source("two sweeps, none in the file", status="ours")
    working = Working(
        "bends between two places to pull from",
        (
            Step("all bends", "theta", formula, turned, "deg", given),
            Step("most", "", "", MOST_BENDS_DEG, "deg", source),
        ),
    )
    use = share(turned, MOST_BENDS_DEG)
    return Check("conduit", "bends in one pull", turned, MOST_BENDS_DEG, "deg", use, source, working)  # fmt: skip


def _tension_check(
    mass: float, length_m: float, friction: float, wedging: float, lifted_n: tuple[float, float],
    raised_deg: float, tension: float, limit: float,
) -> Check:  # fmt: skip
    straight = straight_n(mass, length_m, friction, wedging)
    theta, (before, after) = radians(raised_deg), lifted_n
    working = Working(
        "pull at the rope",
        (
            Step("wires together", "m", "", mass, "kg/m", Source("metal and plastic by their areas", status="ours")),
            Step("friction, dry", "mu", "", friction, "", FRICTION),
            Step("wires pressing on one another", "w", "", wedging, "", TENSION),
            Step("on the straight", "T1", f"{wedging:.3f} x {mass:.3f} x {G} x {length_m:.2f} x {friction:g}", straight, "N", TENSION),
            Step("bends that raise it", "theta", f"{raised_deg:g} deg", theta, "", Source("angle", status="computed")),
            Step("lifted in the riser", "Tr", "", before + after, "N", Source("weight", status="computed")),
            Step("at the rope", "T", f"({straight:.0f} + {before:.0f}) e^({wedging:.3f} x {friction:g} x {theta:.3f}) + {after:.0f}", tension, "N", TENSION),
            Step("the live wires' metal, or a basket grip", "Tm", "", limit, "N", BEARS),
        ),
        ("The earth wire is not counted on to bear any of it.",),
    )  # fmt: skip
    use = share(tension, limit)
    return Check("conduit", "pull on the wires", tension, limit, "N", use, BEARS, working)


def _side_check(tension: float, radius_m: float, worst: float, code: Code) -> Check:
    side = worst * tension / radius_m
    working = Working(
        "side pressure in the last bend",
        (
            Step("pull out of it", "T", "", tension, "N", TENSION),
            Step("least radius of a sweep", "R", "", radius_m, "m", borrowed(SWEEP, code)),
            Step("share on the wire that is pressed most", "s", "", worst, "", TENSION),
            Step("side pressure", "s T/R", f"{worst:.3f} x {tension:.0f} / {radius_m:.3f}", side, "N/m", TENSION),
            Step("most", "", "", SIDE_N_M, "N/m", SIDE),
        ),
    )  # fmt: skip
    return Check(
        "conduit", "side pressure in a sweep", side, SIDE_N_M, "N/m", share(side, SIDE_N_M), SIDE, working
    )  # fmt: skip


def _notes(oiled: float) -> tuple[str, ...]:
    notes = ["Pulling lubricant made for the insulation; never soap or grease, which eat it."]
    if oiled > BY_HAND_N:
        notes.append(
            "More than two people pull by hand: use a come-along with a scale on it, or set a pull box."
        )
    return tuple(notes)
