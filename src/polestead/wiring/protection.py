"""Currents by 690.8, the breaker, the earth wire."""

from __future__ import annotations

from polestead.base.check import Check, share
from polestead.base.problem import Problem, Wrong
from polestead.base.source import OWNER, Source
from polestead.base.table import table
from polestead.base.working import Step, Working
from polestead.wiring.conductor import AMPACITY, SURROUNDING, Conductor, area_mm2, share_left

BRIGHT = Source("NEC", "690.8(A)(1)")
STEADY = Source("NEC", "690.8(B)(1) and 690.9(B)")
RATINGS = Source("NEC", "240.6(A)", "seen-copy")
SMALL = Source("NEC", "240.4(B) and 240.4(D)")
TERMINALS = Source("NEC", "110.14(C), 75 C terminals; Table 310.16", "memory")
ABOUT = Source("45 C about the cable where it rises in the sun", status="ours")
ABOUT_C = 45.0  # our own assumption: a riser in summer sun; buried soil is cooler


def bright_current_a(short_circuit_current_a: float, in_parallel: int = 1) -> float:
    """Largest current of the circuit: sun at a snow or cloud edge is brighter than the datasheet's.

    Source: NEC 690.8(A)(1): 1.25 x short-circuit current of all strings (seen).

    Args:
        short_circuit_current_a: Of one string [A].
        in_parallel: Strings.

    Example:
        >>> bright_current_a(11.2)
        14.0
    """
    return 1.25 * short_circuit_current_a * in_parallel


def steady_current_a(short_circuit_current_a: float, in_parallel: int = 1) -> float:
    """Current that terminals and breaker must bear for hours.

    Source: NEC 690.8(B)(1): 1.25 x the largest current, that is 1.5625 x short-circuit current (seen).

    Example:
        >>> steady_current_a(11.2), round(steady_current_a(14.0, 2), 2)
        (17.5, 43.75)
    """
    return 1.25 * bright_current_a(short_circuit_current_a, in_parallel)


def next_rating_a(current_a: float) -> float:
    """Smallest standard breaker that is no smaller.

    Source: NEC 240.6(A) (seen in a public copy).  Valid for: up to 400 A.

    Raises:
        Wrong: Over 400 A: one run is not the way.

    Example:
        >>> next_rating_a(17.5), next_rating_a(60.0), next_rating_a(43.75)
        (20.0, 60.0, 45.0)
    """
    for row in table("wiring", "breakers"):
        if float(row["rating_a"]) >= current_a - 1e-9:
            return float(row["rating_a"])
    problem = Problem(
        "array",
        "in_parallel",
        f"strings that together ask for {current_a:.0f} A",
        "no more than 400 A in one run",
        "Put more modules in series, or run two cables with a breaker each.",
    )
    raise Wrong([problem])


def carries_a(wire: Conductor, about_c: float = ABOUT_C) -> float:
    """What the wire carries for good: the 75 C column, or the 90 C column in its surrounding, whichever is less.

    Source: NEC Table 310.16 with 110.14(C) and Table 310.15(B)(1).
    """
    return min(wire.at_75_a, wire.at_90_a * share_left(about_c, 90))


def largest_breaker_a(wire: Conductor, about_c: float = ABOUT_C) -> float:
    """Largest breaker that still protects the wire: the next rating over its ampacity, less on small wire.

    Source: NEC 240.4(B), next standard size up; 240.4(D), small conductors (seen).
    """
    carried = carries_a(wire, about_c)
    for row in table("wiring", "small"):
        if (row["size"], row["metal"]) == (wire.rated_as, wire.metal):
            return min(float(row["largest_a"]), next_rating_a(carried))
    return next_rating_a(carried)


def earth_wire_of(breaker_a: float) -> str:
    """Least copper earth wire behind a breaker; 690.45 asks for no thicker one because of voltage drop.

    Source: NEC Table 250.122 (seen in a public copy); 690.45 (from memory).  Valid for: up to 400 A.

    Example:
        >>> earth_wire_of(15.0), earth_wire_of(45.0), earth_wire_of(61.0)
        ('14 AWG', '10 AWG', '8 AWG')
    """
    for row in table("wiring", "earth"):
        if breaker_a <= float(row["up_to_a"]):
            return row["size"]
    problem = Problem(
        "run", "breaker", f"{breaker_a:g} A", "up to 400 A", "Run two cables with a breaker each."
    )
    raise Wrong([problem])


def in_metric(size: str) -> str:
    """The thinnest metric size that is no thinner than an American one.

    Example:
        >>> in_metric("10 AWG"), in_metric("14 AWG")
        ('6 mm2', '2.5 mm2')
    """
    metric = [
        row["size"]
        for row in table("wiring", "resistance")
        if row["metal"] == "copper" and row["size"].endswith("mm2")
    ]
    return min((m for m in metric if area_mm2(m) >= area_mm2(size)), key=area_mm2)


def run_checks(
    wire: Conductor, short_circuit_current_a: float, in_parallel: int, breaker_a: float
) -> tuple[Check, ...]:
    """The wire at its terminals and in the heat, the breaker against the current and against the wire."""
    bright = bright_current_a(short_circuit_current_a, in_parallel)
    steady = steady_current_a(short_circuit_current_a, in_parallel)
    currents = (
        Step("short-circuit current of a string", "Isc", "", short_circuit_current_a, "A", OWNER),
        Step(
            "largest current",
            "Imax",
            f"1.25 x {in_parallel} x {short_circuit_current_a:g}",
            bright,
            "A",
            BRIGHT,
        ),
    )
    hours = Step("current for hours", "Isteady", f"1.25 x {bright:g}", steady, "A", STEADY)
    return (
        _terminals(wire, (*currents, hours)),
        _in_heat(wire, currents),
        _large_enough(breaker_a, (*currents, hours)),
        _protects(wire, breaker_a),
    )


def _terminals(wire: Conductor, steps: tuple[Step, ...]) -> Check:
    carried = Step(f"{wire.rated_as} {wire.metal}, 75 C column", "I75", "", wire.at_75_a, "A", AMPACITY)  # fmt: skip
    working = Working("the wire at its terminals", (*steps, carried))
    return _check("run", "current at the terminals", steps[-1].value, carried.value, TERMINALS, working)  # fmt: skip


def _in_heat(wire: Conductor, steps: tuple[Step, ...]) -> Check:
    left = share_left(ABOUT_C, 90)
    carried = wire.at_90_a * left
    rungs = (
        *steps,
        Step(f"{wire.rated_as} {wire.metal}, 90 C column", "I90", "", wire.at_90_a, "A", AMPACITY),
        Step("surrounding", "Ta", "", ABOUT_C, "C", ABOUT),
        Step("share left in it", "k", "", left, "", SURROUNDING),
        Step("carried", "I", f"{wire.at_90_a:g} x {left:g}", carried, "A", SURROUNDING),
    )
    working = Working("the wire in the heat", rungs, ("Wire with 90 C insulation: USE-2, RHW-2, THWN-2 or XLPE.",))  # fmt: skip
    return _check("run", "current in the heat", steps[-1].value, carried, SURROUNDING, working)


def _large_enough(breaker_a: float, steps: tuple[Step, ...]) -> Check:
    rating = Step("breaker", "In", "", breaker_a, "A", RATINGS)
    working = Working("the breaker against the current", (*steps, rating))
    return _check("breaker", "does not trip in bright sun", steps[-1].value, breaker_a, STEADY, working)  # fmt: skip


def _protects(wire: Conductor, breaker_a: float) -> Check:
    largest = largest_breaker_a(wire)
    rungs = (
        Step(
            "the wire carries",
            "Iz",
            f"min({wire.at_75_a:g}, {wire.at_90_a:g} x {share_left(ABOUT_C, 90):g})",
            carries_a(wire),
            "A",
            AMPACITY,
        ),
        Step("largest breaker that protects it", "Inmax", "", largest, "A", SMALL),
    )
    working = Working("the breaker against the wire", rungs)
    return _check("breaker", "protects the wire", breaker_a, largest, SMALL, working)


def _check(
    part: str, name: str, demand: float, capacity: float, source: Source, working: Working
) -> Check:
    return Check(part, name, demand, capacity, "A", share(demand, capacity), source, working)
