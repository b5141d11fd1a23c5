"""Every lift: weight, centre of gravity, slings, what holds it, in which wind, where nobody stands."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import sqrt

from polestead.base.source import Source
from polestead.base.working import Step, Working
from polestead.build.lifts.slings import (
    Gear,
    SlingLeg,
    TackleRow,
    gear_for,
    leg_tension_n,
    tackle_rows,
    two_legs,
)
from polestead.stand.result import HalfBuilt

GRAVITY_M_S2 = 9.80665
AIR_KG_M3 = 1.225
FLAT_PLATE = 1.2  # drag of a plate square to the wind
LIFT_GUST_M_S = 6.7056  # 15 mph: common practice, no source
CLEAR_MORE = 1.25  # beyond what falls: ours
CLEAR = Source("what falls lands within its height and half its length, and a quarter more", "docs/method/build.md", "ours")  # fmt: skip
STATICS = Source("statics", status="computed")
PIECES = Source("the list of pieces and the file", status="computed")
# 10 ft up to 50 kV: 29 CFR 1926.1408, table A (from memory); the rest common practice, no source.
CALM_WORDS = "No lift in a gust over this; none at dusk, none alone, no line within 10 ft (3 m) of hook, load or rope, more where its voltage is not known."


@dataclass(frozen=True, slots=True)
class Lift:
    """One thing raised at once.

    Attributes:
        name: What.
        count: How often.
        mass_kg: Of one, None where its maker must be asked.
        centre_m: Centre of gravity from the datum.
        datum: What it is measured from, and along what.
        legs: Two sling legs at 60, 45 and 30 degrees from the level; empty where the mass is not known.
        gear: What a leg's sling must be at 30 degrees.
        tackle: Pull on the rope by parts of tackle.
        how: How it is slung and raised.
        holds: What holds it until the next thing is on.
        lift_under_m_s: No lift in a gust over this.
        push_n: What such a gust pushes it with, square on; None where it has no sail.
        left_in_m_s: Gust the half-built state stands to afterwards, None where that state has no sum.
        left_state: Name of that state.
        gives_first: What gives then.
        clear_m: Nobody within this of the point under it, but those who guide it by tag lines.
        not_under: Who and what must not stand where.
        working: Weight, centre, slings.
        parts: What the weight is of, in words and kilograms; empty for a thing of one piece. They sum to it.
        unweighed: Pieces that hang on it and that nobody has weighed.
    """

    name: str
    count: int
    mass_kg: float | None
    centre_m: float
    datum: str
    legs: tuple[SlingLeg, ...]
    gear: tuple[Gear, ...]
    tackle: tuple[TackleRow, ...]
    how: str
    holds: str
    lift_under_m_s: float
    push_n: float | None
    left_in_m_s: float | None
    left_state: str
    gives_first: str
    clear_m: float
    not_under: str
    working: Working
    parts: tuple[tuple[str, float], ...] = ()
    unweighed: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Raised:
    """What a lift is made from.

    Attributes:
        name, count, mass_kg, centre_m, datum, how, holds, not_under: As in the lift.
        sail_m2: Seen by the wind square on, None for what has none worth a sum.
        height_m: How high its lowest point is raised.
        long_m: Its longest side.
        state: Half-built state it leaves behind, empty for none.
        parts, unweighed: As in the lift.
    """

    name: str
    count: int
    mass_kg: float | None
    centre_m: float
    datum: str
    how: str
    holds: str
    not_under: str
    sail_m2: float | None
    height_m: float
    long_m: float
    state: str
    parts: tuple[tuple[str, float], ...] = ()
    unweighed: tuple[str, ...] = ()


def lift_of(raised: Raised, half_built: Sequence[HalfBuilt]) -> Lift:
    """The lift with its slings, winds and clear ground.

    Args:
        raised: What is raised.
        half_built: The half-built states with the gust each stands to.
    """
    weight = None if raised.mass_kg is None else raised.mass_kg * GRAVITY_M_S2
    left = next((one for one in half_built if one.name == raised.state), None)
    push = (
        None
        if raised.sail_m2 is None
        else AIR_KG_M3 / 2.0 * LIFT_GUST_M_S**2 * FLAT_PLATE * raised.sail_m2
    )
    flattest = None if weight is None else leg_tension_n(weight, 2, 30.0)
    return Lift(
        raised.name, raised.count, raised.mass_kg, raised.centre_m, raised.datum,
        () if weight is None else two_legs(weight),
        () if flattest is None else gear_for(flattest),
        () if weight is None else tackle_rows(weight),
        raised.how, raised.holds, LIFT_GUST_M_S, push,
        None if left is None else left.gust_m_s, raised.state, "" if left is None else left.gives_first,
        clear_m(raised.height_m, raised.long_m), raised.not_under, _working(raised, weight), raised.parts, raised.unweighed,
    )  # fmt: skip


def clear_m(height_m: float, long_m: float) -> float:
    """Ground nobody stands on: what hangs so high and is so long falls and topples within height + half its length.

    Source: ours, with a quarter more.

    Example:
        >>> clear_m(3.0, 4.0)
        6.25
    """
    return CLEAR_MORE * (height_m + long_m / 2.0)


def _working(raised: Raised, weight_n: float | None) -> Working:
    steps = [Step(f"centre of gravity, {raised.datum}", "x", "", raised.centre_m, "m", STATICS)]
    if raised.mass_kg is not None and weight_n is not None:
        steps += [Step(name, "m", "", kg, "kg", PIECES) for name, kg in raised.parts]
        steps += [
            Step("weight", "W", f"{raised.mass_kg:.5g} x g", weight_n, "N", STATICS),
            *(
                Step(f"each of two legs at {leg.from_level_deg:.0f} deg from the level", "T", f"{weight_n:.0f} / 2 / sin({leg.from_level_deg:.0f})", leg.each_n, "N", STATICS)
                for leg in two_legs(weight_n)
            ),
        ]  # fmt: skip
    steps.append(Step("nobody within", "r", f"{CLEAR_MORE} x ({raised.height_m:.2f} + {raised.long_m:.2f} / 2)", clear_m(raised.height_m, raised.long_m), "m", CLEAR))  # fmt: skip
    return Working(f"lift: {raised.name}", tuple(steps))


def module_gust_m_s(mass_kg: float, area_m2: float) -> float:
    """Gust whose push on a module held upright is half its weight: two people then no longer rule it.

    q Cd A = W / 2.
    Source: ours.

    Args:
        mass_kg: Of the module [kg].
        area_m2: Of it [m^2].

    Example:
        >>> round(module_gust_m_s(21.8, 1.998), 1)
        8.5
    """
    return sqrt(mass_kg * GRAVITY_M_S2 / 2.0 / (AIR_KG_M3 / 2.0 * FLAT_PLATE * area_m2))
