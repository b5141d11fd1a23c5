"""All that guards strings and run, in one result."""

from __future__ import annotations

from collections.abc import Iterable
from functools import cache

from polestead.homestead.model import CableRun, Controller
from polestead.wiring.currents import Code, bright_current_a
from polestead.wiring.guards.boxes import frame_box, hinge_box
from polestead.wiring.guards.circuit import FUSES_FROM, Circuit, circuit_checks, circuit_guards
from polestead.wiring.guards.earth import earth_of
from polestead.wiring.guards.electrode import electrode_of
from polestead.wiring.guards.fault import fault_workings
from polestead.wiring.guards.inside import WALL_BOX, changes_over, inside_rule, wall_box
from polestead.wiring.guards.labels import Engraved, labels_of
from polestead.wiring.guards.result import Guard, Guards
from polestead.wiring.guards.rounded import volts_up, whole_amps_up
from polestead.wiring.guards.rules import arc_fault_rule, ground_fault_rule, shutdown_rule
from polestead.wiring.guards.surge import lead_working, surge_guards
from polestead.wiring.run.conductor import Conductor, conductor_of

COOL_C = 20.0
ALONG = (
    "frame box", "string fuse", "hinge box", "pole switch", "surge at the pole", "electrode", WALL_BOX, "surge at the house", "house switch", "run breaker",
    "controller breaker",
)  # fmt: skip


def guards_of(
    code: Code,
    run: CableRun,
    controller: Controller,
    *,
    cold_v: float,
    open_v: float,
    working_v: float,
    working_a: float,
    short_circuit_a: float,
    in_parallel: int,
    breaker_a: float,
    nominal_v: float,
    full_v: float,
    fuse_wanted: bool | None = None,
    string_fuse_a: float | None = None,
    back_feed_a: float | None = None,
    bank_a: float | None = None,
    bank_by_maker: bool = False,
    beside_a: float = 0.0,
    engine: bool = False,
    two_boxes: bool = True,
    to_set: tuple[tuple[str, float], ...] = (),
    charge_a: float | None = None,
) -> Guards:
    """What guards strings and run: breakers, switches, rules, surge, earth, labels.

    Source: as each guard names; the code by the place.

    Args:
        code: That holds.
        run: As in the file.
        controller: The one the run ends at.
        cold_v: Cold voltage with margin [V].
        open_v: Open-circuit voltage of a string at 25 C [V].
        working_v: In full sun [V].
        working_a: In full sun [A].
        short_circuit_a: Of one string [A].
        in_parallel: Strings.
        breaker_a: Of the run, in the file or by rule [A].
        nominal_v: Of the bank [V].
        full_v: The bank while it is charged, at its highest known [V].
        fuse_wanted: Whether each string wants a fuse, worked where the strings are; None: from three strings on.
        string_fuse_a: Size of the string fuses; None: asked.
        back_feed_a: What all others can push into one string [A]; None: the other strings of this array.
        bank_a: The bank's short-circuit current [A].
        bank_by_maker: Whether its maker gave it; an estimate is not engraved.
        beside_a: 1.25 times the short-circuit current of other arrays on the same controller [A].
        engine: Whether there is one.
        to_set: What controllers and charger are set to, by name [A].
        charge_a: What the bank's maker lets all of them push together [A]; None: not told.
        two_boxes: Whether the cord's loop ends in a box of its own, over the one with the switch (``on_pole``).

    Raises:
        Wrong: For a wire no table knows, and for a breaker over 800 A.
    """
    bright = bright_current_a(short_circuit_a, in_parallel)
    live = _conductor(run.size, run.metal)
    run_ohm = 2.0 * run.length_m * live.ohm_per_m(COOL_C)
    at_pole, at_house = fault_workings(bright, beside_a, bank_a, full_v, run_ohm, code)
    house_a = None if at_house is None else at_house.result.value
    wanted = in_parallel >= FUSES_FROM if fuse_wanted is None else fuse_wanted
    back = bright * (in_parallel - 1) / in_parallel if back_feed_a is None else back_feed_a
    circuit = Circuit(
        code, cold_v, bright, wanted, back, string_fuse_a, breaker_a, run.breaker_bears_v, run.breaker_breaks_a,
        at_pole.result.value, house_a, full_v, controller.current_limit_a, bank_a, run.terminals,
    )  # fmt: skip
    earth = earth_of(code, breaker_a, live.size, live.metal, run.earth_size)
    earth_wire = _conductor(run.earth_size or earth.least, "copper")
    electrode = electrode_of(code, cold_v, bright, breaker_a, run.length_m * earth_wire.ohm_per_m())
    inside = run.in_house_m
    shutdown = shutdown_rule(code, inside, max(0.0, run.length_m - inside))
    within = inside_rule(code, cold_v, bright, inside, run.method)
    rules = (
        arc_fault_rule(code, cold_v, working_v, inside, run.method, controller.guards_arcs),
        shutdown,
        within,
        ground_fault_rule(code, in_parallel, inside, controller.guards_earth_faults),
    )
    boxes = [] if wanted else [frame_box(code, cold_v, in_parallel)]
    boxes += [hinge_box(code, cold_v)] if two_boxes else []
    boxes += [wall_box(code, cold_v, inside)] if changes_over(code, within) else []
    guards = _in_order(
        (*boxes, *circuit_guards(circuit), *surge_guards(code, cold_v, open_v, run.length_m), electrode.guard)
    )  # fmt: skip
    engraved = Engraved(
        code, cold_v, bright, working_v, working_a, breaker_a, nominal_v, full_v, bank_a if bank_by_maker else None,
        controller.current_limit_a, inside > 0.0, shutdown.outcome, engine, controller.name, to_set, charge_a,
    )  # fmt: skip
    own = () if earth.check is None else (earth.check,)
    workings = (at_pole, *(() if at_house is None else (at_house,)), electrode.working, lead_working())  # fmt: skip
    return Guards(
        code, guards, rules, earth, electrode, labels_of(engraved), (*circuit_checks(circuit), *own), at_pole.result.value, house_a, workings,
        _asks(circuit),
    )  # fmt: skip


def _in_order(guards: Iterable[Guard]) -> tuple[Guard, ...]:
    """As they stand on the line from the modules to the battery."""
    return tuple(sorted(guards, key=lambda guard: ALONG.index(guard.key)))


@cache
def _conductor(size: str, metal: str) -> Conductor:
    return conductor_of(size, metal)


def _asks(circuit: Circuit) -> tuple[str, ...]:
    """What the file leaves open about the breaker: told, never passed."""
    asks = []
    if circuit.bears_v is None:
        asks.append(
            f"The file gives no direct-current voltage of the breaker (run.breaker_bears): it is not passed. Read its label: {volts_up(circuit.cold_v)} or more, beside the word DC."
        )
    if circuit.breaks_a is None:
        wanted = circuit.pole_a if circuit.house_a is None else circuit.house_a
        asks.append(
            f"The file gives no interrupting rating of the breaker (run.breaker_breaks): it is not passed. Read its label: {whole_amps_up(wanted)} or more at that voltage"
            + (
                "."
                if circuit.house_a is None
                else f" at the controller, {whole_amps_up(circuit.pole_a)} at the pole."
            )
        )
    if circuit.bank_a is None:
        asks.append("Nothing is known of the bank here: ask its short-circuit current.")
    return tuple(asks)
