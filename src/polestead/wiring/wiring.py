"""The strings, the run, its protection and its cautions, put together."""

from __future__ import annotations

from math import ceil

from polestead.base.check import Check, share
from polestead.base.problem import Problem, Wrong
from polestead.base.source import OWNER, Source
from polestead.base.working import Step, Working
from polestead.homestead.model import (
    Battery,
    CableRun,
    Controller,
    Household,
    NewArray,
    OldArray,
    Place,
)
from polestead.modules.power import cold_voltage_v
from polestead.wiring.bank.bank import Bank, bank_of
from polestead.wiring.bank.charging import charging_of
from polestead.wiring.bank.set_points import least_full_v
from polestead.wiring.bank.short_circuit import short_circuit_of
from polestead.wiring.by_code import borrowed
from polestead.wiring.currents import (
    Code,
    bright_current_a,
    next_rating_a,
    ratings_a,
    steady_current_a,
)
from polestead.wiring.dangers import array_notes, controller_notes, run_notes
from polestead.wiring.guards.breaker import run_checks
from polestead.wiring.guards.earth import earth_wire_of
from polestead.wiring.guards.guards import guards_of
from polestead.wiring.guards.inside import WALL_BOX
from polestead.wiring.guards.result import Guards
from polestead.wiring.result import AtThePole, WiringResult
from polestead.wiring.run.ampacity import terminals_ask
from polestead.wiring.run.beyond import FINE_STRANDS, NOTHING, Beyond, beyond_of, loop_ohm
from polestead.wiring.run.conductor import RISE_PER_K, WARM_C, Conductor, conductor_of
from polestead.wiring.run.hinge_cable import HingeCable, hinge_cable_of
from polestead.wiring.run.loss import MOST_SHARE, lost_share
from polestead.wiring.run.on_pole import OnPole
from polestead.wiring.run.sizes import BRINGS
from polestead.wiring.strings.fuses import string_fuse
from polestead.wiring.strings.heat import hot_check
from polestead.wiring.strings.label import new_label
from polestead.wiring.strings.voltage import cold_checks, cold_of, most_in_series, with_margin_v
from polestead.wiring.trench.burial import cover_check
from polestead.wiring.trench.trench import Trench, trench_of

OHM = Source("Ohm's law, there and back", status="computed")
TRANSFER = Source("maximum power transfer: half the volts at the far end", status="computed")
CORD_LENGTH = Source("as the cord and the boxes on the pole were worked out", status="computed")
COOL_C = 20.0


def wiring_of(
    place: Place,
    array: NewArray,
    controller: Controller,
    run: CableRun,
    battery: Battery,
    house: Household | None = None,
    pole: AtThePole | None = None,
    beyond: Beyond | None = None,
) -> WiringResult:
    """Strings against the controller, and the buried run.

    Args:
        place: Record low.
        array: Modules, strings.
        controller: The one the new array is wired to.
        run: From the pole to it.
        battery: The bank: what the strings must charge, and what it gives into a short circuit.
        house: For what else hangs on the controller and what stands by the battery; without it the latter is left out.
        pole: For the trench and the cord over the hinge; without it only the cover is looked at.
        beyond: Lengths of cord and pole wires where the pole is not looked at; None: none.

    Raises:
        Wrong: For a wire size no table knows, and for more current than one run may carry.
    """
    wire, breaker_a = _wire_and_breaker(array, run, place.wired_by)
    module = array.module
    full_sun_v = array.in_series * module.working_voltage_v
    full_sun_a = array.in_parallel * module.working_current_a
    in_place_a = breaker_a if run.breaker_a is None else run.breaker_a
    bank = _bank(place, array, house)
    cord = None if pole is None else _cord(place, array, run, pole, in_place_a)
    two_boxes = cord is None or cord.boxes.two_boxes
    far = beyond_of(cord) if cord is not None else beyond or NOTHING
    isc_a, code = module.short_circuit_current_a, place.wired_by
    steady_a, bright_a = (
        at(isc_a, array.in_parallel) for at in (steady_current_a, bright_current_a)
    )
    cord_ohm = far.cord_ohm_20c(steady_a, bright_a, in_place_a)
    warm_ohm, cool_ohm = (loop_ohm(wire, run.length_m, far.pipe_m, cord_ohm, c) for c in (WARM_C, COOL_C))  # fmt: skip
    lost = full_sun_a * warm_ohm
    drop = _drop_working(wire, run, far, cord_ohm, full_sun_v, full_sun_a, code)
    guards = _guards(place, array, controller, run, battery, bank, in_place_a, house, two_boxes)
    label = new_label(array)
    cold = cold_of(label, array.in_series, place.record_low_c, place.wired_by)
    strings = (
        *cold_checks(label, cold, controller, place.wired_by),
        hot_check(label, array.in_series, battery, controller, lost),
    )
    run_part = (
        *run_checks(wire, run, code, isc_a, array.in_parallel, in_place_a),
        _brings(full_sun_v, full_sun_a, warm_ohm),
    )
    terminals = terminals_ask(wire, run, code, isc_a, array.in_parallel)
    notes = _string_notes(place, array, controller, cold.by_table_v)
    notes += _wire_notes(wire, run, code)
    dangers = _dangers(place, array, controller, run, battery)
    trench = None if pole is None or cord is None else _trench(place, run, pole, cord.boxes, guards)
    return WiringResult(
        cold_voltage_v=_cold_v(place, array),
        cold_with_margin_v=with_margin_v(_cold_v(place, array)),
        table_voltage_v=cold.by_table_v,
        most_in_series=_most(place, array, controller),
        full_sun_v=full_sun_v,
        full_sun_a=full_sun_a,
        drop_v=lost,
        drop_share=lost_share(lost / full_sun_v),
        cold_drop_share=lost_share(full_sun_a * cool_ohm / full_sun_v),
        drop_working=drop,
        current_for_hours_a=steady_a,
        breaker_a=breaker_a,
        in_place_a=in_place_a,
        earth_wire=guards.earth.least,
        checks=(
            *strings,
            *run_part,
            *((cover_check(run, code),) if trench is None else trench.checks),
            *(() if cord is None else cord.checks),
            *guards.checks,
            *(() if bank is None else bank.checks),
        ),
        notes=notes + dangers,
        guards=guards,
        bank=bank,
        trench=trench,
        cord=cord,
        run_asks=() if terminals is None else (terminals,),
    )


def _trench(place: Place, run: CableRun, pole: AtThePole, boxes: OnPole, guards: Guards) -> Trench:
    """The trench, up to the switch's box on the pole and to the box or entry at the wall."""
    return trench_of(
        place, run, pole.buried, guards.earth.least if run.earth_size is None else run.earth_size, pole.pier_radius_m,
        pole_above_m=boxes.switch_m, pole_pipe_m=boxes.pipe_m,
        change_over=any(guard.key == WALL_BOX for guard in guards.guards),
        signal_wire=any(rule.name == "rapid shutdown" and rule.outcome == "missing" for rule in guards.rules),
    )  # fmt: skip


def beyond_run(place: Place, array: NewArray, run: CableRun, pole: AtThePole) -> Beyond:
    """Cord and pole wires that the current passes beside the run.

    Args:
        place: Record low and code.
        array: Strings, for the cord.
        run: The cord's own figures, and its breaker.
        pole: Hinge and travel.

    Raises:
        Wrong: As ``wiring_of``.
    """
    _, breaker_a = _wire_and_breaker(array, run, place.wired_by)
    in_place_a = breaker_a if run.breaker_a is None else run.breaker_a
    return beyond_of(_cord(place, array, run, pole, in_place_a))


def _brings(volts: float, amps: float, ohm: float) -> Check:
    """Whether the run can bring the array's power: past half the volts a larger current brings less."""
    most_a = MOST_SHARE * volts / ohm
    steps = (
        Step("working voltage in full sun", "V", "", volts, "V", OWNER),
        Step("current in full sun", "I", "", amps, "A", OWNER),
        Step("run, pole wires and cord, warm", "R", "", ohm, "ohm", OHM),
        Step("most current that still brings more", "Imax", f"{volts:g} / (2 x {ohm:.4f})", most_a, "A", TRANSFER),
    )  # fmt: skip
    note = "Past it the controller can only work the array at a smaller current: the most that ever arrives is V^2 / 4R."
    return Check("run", BRINGS, amps, most_a, "A", share(amps, most_a), TRANSFER, Working("the run against the array's power", steps, (note,)))  # fmt: skip


def _cord(
    place: Place, array: NewArray, run: CableRun, pole: AtThePole, breaker_a: float
) -> HingeCable:
    """The cord from the box on the frame to the box under the hinge."""
    isc_a, strings = array.module.short_circuit_current_a, array.in_parallel
    return hinge_cable_of(
        pole.least_tilt_deg,
        pole.steepest_tilt_deg,
        pole.hinge_height_m,
        bright_current_a(isc_a, strings),
        steady_current_a(isc_a, strings),
        place.record_low_c,
        kind="H07RN-F" if place.wired_by == "IEC" else "SOOW",
        coldest_c=run.cord_coldest_c,
        loop_m=run.cord_loop_m,
        breaker_a=breaker_a,
        code=place.wired_by,
        moves_a_day=pole.moves_a_day,
    )


def _wire_and_breaker(array: NewArray, run: CableRun, code: Code) -> tuple[Conductor, float]:
    """Both, or all that is wrong with them at once."""
    problems: list[Problem] = []
    try:
        wire = conductor_of(run.size, run.metal)
    except Wrong as wrong:
        problems += wrong.problems
    try:
        steady = steady_current_a(array.module.short_circuit_current_a, array.in_parallel)
        breaker_a = next_rating_a(steady, code)
        earth_wire_of(breaker_a if run.breaker_a is None else run.breaker_a)
    except Wrong as wrong:
        problems += wrong.problems
    if problems:
        raise Wrong(problems)
    return wire, breaker_a


def _cold_v(place: Place, array: NewArray, in_series: int | None = None) -> float:
    count = array.in_series if in_series is None else in_series
    return cold_voltage_v(array.module, count, place.record_low_c)


def _most(place: Place, array: NewArray, controller: Controller) -> int:
    """Most modules in a string: by 3 % and by 5 V, whichever allows fewer."""
    one, limit = _cold_v(place, array, 1), controller.voltage_limit_v
    return max(0, min(most_in_series(limit, 1.03 * one), most_in_series(limit - 5.0, one)))


def _drop_working(wire: Conductor, run: CableRun, far: Beyond, cord_ohm_20c: float, volts: float, amps: float, code: Code) -> Working:  # fmt: skip
    per_m, length = wire.ohm_per_m(), run.length_m
    cord = cord_ohm_20c * (1.0 + RISE_PER_K["copper"] * (WARM_C - COOL_C))
    lost = amps * loop_ohm(wire, length, far.pipe_m, cord_ohm_20c)
    beside = (
        Step("fixed wires down the pole, one way", "Lp", "", far.pipe_m, "m", CORD_LENGTH),
        Step("cord over the hinge, one way as cut", "Lc", "", far.cord_m, "m", CORD_LENGTH),
        Step(f"cord there and back at {WARM_C:g} C", "Rc", f"{cord_ohm_20c:.5f} at {COOL_C:g} C, warmed", cord, "ohm", FINE_STRANDS),
    )  # fmt: skip
    return Working(
        "volts lost in the run in full sun",
        (
            Step("one way", "L", "", length, "m", OWNER),
            *(() if far == NOTHING else beside),
            Step("current in full sun", "I", "", amps, "A", OWNER),
            Step(f"{wire.size} {wire.metal} at {WARM_C:g} C", "r", "", per_m, "ohm/m", borrowed(wire.source, code)),
            Step("lost", "dV", f"{amps:g} x (2 x ({length:.2f} + {far.pipe_m:.2f}) x {per_m:.6f} + {cord:.5f})", lost, "V", OHM),
            Step("share of the volts", "dV/V", f"{lost:.2f} / {volts:g}", lost / volts, "", OHM),
        ),
        (
            "No pass mark: a thicker wire is worth what it saves. Over a year about half of this share is lost, less in "
            "winter light.",
        ),
    )  # fmt: skip


def _string_notes(
    place: Place, array: NewArray, controller: Controller, by_table: float | None
) -> tuple[str, ...]:
    cold = _cold_v(place, array)
    most, limit = _most(place, array, controller), controller.voltage_limit_v
    notes = [f"{controller.name} bears at most {most} of these modules in series at your record low."]  # fmt: skip
    if by_table is None:
        notes.append("The code's cold table ends at 40 below; the maker's coefficient decides.")
    elif with_margin_v(cold) <= limit < by_table:
        notes.append(
            f"By the code's table the string shows {ceil(by_table - 1e-9)} V, over the controller's {limit:g} V. The coefficient decides, "
            "yet an inspector without the datasheet goes by the table: have the sheet at hand, or take one module less."
        )
    return tuple(notes)


def _wire_notes(wire: Conductor, run: CableRun, code: Code) -> tuple[str, ...]:
    notes = []
    if wire.rated_as != wire.size and code != "IEC":
        notes.append(
            f"{wire.size} is rated here like {wire.rated_as}, the next thinner American size."
        )
    if run.breaker_a is not None and run.breaker_a not in ratings_a(code):
        notes.append(f"{run.breaker_a:g} A is no standard breaker by {code}.")
    return tuple(notes)


def _dangers(
    place: Place,
    array: NewArray,
    controller: Controller,
    run: CableRun,
    battery: Battery,
) -> tuple[str, ...]:
    return (
        *controller_notes(array, controller, battery.nominal_v),
        *array_notes(_cold_v(place, array)),
        *run_notes(run),
    )


def _guards(
    place: Place,
    array: NewArray,
    controller: Controller,
    run: CableRun,
    battery: Battery,
    bank: Bank | None,
    breaker_a: float,
    house: Household | None,
    two_boxes: bool,
) -> Guards:
    module, code = array.module, place.wired_by
    short, cold_v = short_circuit_of(battery), with_margin_v(_cold_v(place, array))
    old = () if house is None else house.old_array
    beside = tuple(_strings_of(one) for one in old if one.controller == controller.name)
    fuse = string_fuse(new_label(array), array.in_parallel, beside, cold_v, code)
    return guards_of(
        code,
        run,
        controller,
        cold_v=cold_v,
        open_v=array.in_series * module.open_circuit_voltage_v,
        working_v=array.in_series * module.working_voltage_v,
        working_a=array.in_parallel * module.working_current_a,
        short_circuit_a=module.short_circuit_current_a,
        in_parallel=array.in_parallel,
        breaker_a=breaker_a,
        nominal_v=battery.nominal_v,
        full_v=least_full_v(battery, battery.in_series)
        if bank is None
        else bank.set_points.highest_v,
        fuse_wanted=fuse.wanted,
        string_fuse_a=fuse.rating_a,
        back_feed_a=fuse.back_feed_a,
        bank_a=short.amps_a,
        bank_by_maker=short.by_maker,
        beside_a=sum(bright_current_a(amps, strings) for amps, strings in beside),
        engine=house is not None and house.engine is not None,
        two_boxes=two_boxes,
        to_set=()
        if bank is None
        else tuple((one.name, one.amps_a) for one in bank.charging.to_set),
        charge_a=None if bank is None else battery.charge_limit_a,
    )


def _strings_of(old: OldArray) -> tuple[float, int]:
    """Short-circuit current and strings of an old array; without its label nothing is known and nothing added."""
    if old.module is None:
        return 0.0, 0
    return old.module.short_circuit_current_a, old.in_parallel or 1


def _bank(place: Place, array: NewArray, house: Household | None) -> Bank | None:
    if house is None:
        return None
    return bank_of(
        house.battery, house.inverter, house.engine, charging_of(house, array), place.wired_by, place.record_low_c,
    )  # fmt: skip
