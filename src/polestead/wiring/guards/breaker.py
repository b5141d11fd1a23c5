"""The wire at its terminals and in the heat; the breaker against the current and against the wire."""

from __future__ import annotations

from polestead.base.check import Check, share
from polestead.base.source import OWNER, Source
from polestead.base.working import Step, Working
from polestead.wiring.currents import BRIGHT, RATINGS, STEADY, bright_current_a, steady_current_a
from polestead.wiring.run.ampacity import ABOUT, ABOUT_C, carries_a, largest_breaker_a
from polestead.wiring.run.conductor import AMPACITY, SURROUNDING, Conductor, share_left

SMALL = Source("NEC", "240.4(B) and 240.4(D)")
TERMINALS = Source("NEC", "110.14(C), 75 C terminals; Table 310.16", "memory")


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
