"""The wire at its terminals and in the heat; the breaker against the current and against the wire."""

from __future__ import annotations

from polestead.base.check import Check, share
from polestead.base.source import OWNER, Source
from polestead.base.working import Step, Working
from polestead.homestead.model import CableRun
from polestead.wiring.by_code import bright_source, ratings_source, steady_source
from polestead.wiring.currents import Code, bright_current_a, steady_current_a
from polestead.wiring.run.ampacity import ampacity_of, wire_checks
from polestead.wiring.run.conductor import Conductor

PROTECTS: dict[Code, Source] = {
    "NEC": Source("NEC", "240.4(B) and 240.4(D)"),
    "Canada": Source("CSA C22.1", "14-104 and Table 13", "memory"),
    "IEC": Source("IEC 60364-4-43", "433.1: no more than the wire carries", "memory"),
}


def run_checks(
    wire: Conductor,
    run: CableRun,
    code: Code,
    short_circuit_current_a: float,
    in_parallel: int,
    breaker_a: float,
) -> tuple[Check, ...]:
    """The wire at its terminals, in the heat and in the soil, the breaker against the current and against the wire."""
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
            bright_source(code),
        ),
        Step(
            "current for hours", "Isteady", f"1.25 x {bright:g}", steady, "A", steady_source(code)
        ),
    )
    return (
        *wire_checks(wire, run, code, short_circuit_current_a, in_parallel),
        _large_enough(breaker_a, currents, code),
        _protects(wire, run, code, breaker_a),
    )


def _large_enough(breaker_a: float, steps: tuple[Step, ...], code: Code) -> Check:
    rating = Step("breaker", "In", "", breaker_a, "A", ratings_source(code))
    working = Working("the breaker against the current", (*steps, rating))
    return _check("breaker", "does not trip in bright sun", steps[-1].value, breaker_a, steady_source(code), working)  # fmt: skip


def _protects(wire: Conductor, run: CableRun, code: Code, breaker_a: float) -> Check:
    told = ampacity_of(wire, run, code)
    source = PROTECTS[code]
    rungs = (
        *told.working.steps,
        Step("largest breaker that protects it", "Inmax", "", told.largest_breaker_a, "A", source),
    )
    working = Working("the breaker against the wire", rungs, told.notes)
    return _check("breaker", "protects the wire", breaker_a, told.largest_breaker_a, source, working)  # fmt: skip


def _check(
    part: str, name: str, demand: float, capacity: float, source: Source, working: Working
) -> Check:
    return Check(part, name, demand, capacity, "A", share(demand, capacity), source, working)
