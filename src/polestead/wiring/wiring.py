"""The strings, the run, its protection and its cautions, put together."""

from __future__ import annotations

from polestead.base.problem import Problem, Wrong
from polestead.base.source import OWNER, Source
from polestead.base.table import table
from polestead.base.working import Step, Working
from polestead.homestead.model import Battery, CableRun, Controller, NewArray, Place
from polestead.modules.power import cold_voltage_v
from polestead.wiring.currents import next_rating_a, steady_current_a
from polestead.wiring.dangers import array_notes, battery_notes, controller_notes, run_notes
from polestead.wiring.guards.breaker import run_checks
from polestead.wiring.guards.earth import earth_wire_of, in_metric
from polestead.wiring.result import WiringResult
from polestead.wiring.run.ampacity import Code
from polestead.wiring.run.conductor import WARM_C, Conductor, conductor_of, drop_v
from polestead.wiring.strings.heat import hot_check
from polestead.wiring.strings.label import new_label
from polestead.wiring.strings.voltage import cold_checks, cold_of, most_in_series, with_margin_v
from polestead.wiring.trench.burial import cover_check

OHM = Source("Ohm's law, there and back", status="computed")
COOL_C = 20.0


def wiring_of(
    place: Place,
    array: NewArray,
    controller: Controller,
    run: CableRun,
    battery: Battery,
) -> WiringResult:
    """Strings against the controller, and the buried run.

    Args:
        place: Record low.
        array: Modules, strings.
        controller: The one the new array is wired to.
        run: From the pole to it.
        battery: The bank: what the strings must charge, and the cautions of its kind.

    Raises:
        Wrong: For a wire size no table knows, and for more current than one run may carry.
    """
    wire, breaker_a = _wire_and_breaker(array, run)
    module = array.module
    full_sun_v = array.in_series * module.working_voltage_v
    full_sun_a = array.in_parallel * module.working_current_a
    lost = drop_v(run.length_m, full_sun_a, wire.ohm_per_m())
    in_place_a = breaker_a if run.breaker_a is None else run.breaker_a
    earth = earth_wire_of(in_place_a)
    label = new_label(array)
    cold = cold_of(label, array.in_series, place.record_low_c, place.wired_by)
    strings = (
        *cold_checks(label, cold, controller, place.wired_by),
        hot_check(label, array.in_series, battery, controller, lost),
    )
    isc_a, code = module.short_circuit_current_a, place.wired_by
    run_part = run_checks(wire, run, code, isc_a, array.in_parallel, in_place_a)
    metric = wire.size.endswith("mm2")
    notes = _string_notes(place, array, controller, cold.by_table_v) + _wire_notes(wire, run, code)
    dangers = _dangers(place, array, controller, run, battery)
    return WiringResult(
        cold_voltage_v=_cold_v(place, array),
        cold_with_margin_v=with_margin_v(_cold_v(place, array)),
        table_voltage_v=cold.by_table_v,
        most_in_series=_most(place, array, controller),
        full_sun_v=full_sun_v,
        full_sun_a=full_sun_a,
        drop_v=lost,
        drop_share=lost / full_sun_v,
        cold_drop_share=drop_v(run.length_m, full_sun_a, wire.ohm_per_m(COOL_C)) / full_sun_v,
        drop_working=_drop_working(wire, run, full_sun_v, full_sun_a),
        current_for_hours_a=steady_current_a(module.short_circuit_current_a, array.in_parallel),
        breaker_a=breaker_a,
        earth_wire=in_metric(earth) if metric else earth,
        checks=(*strings, *run_part, cover_check(run)),
        notes=notes + dangers,
    )


def _wire_and_breaker(array: NewArray, run: CableRun) -> tuple[Conductor, float]:
    """Both, or all that is wrong with them at once."""
    problems: list[Problem] = []
    try:
        wire = conductor_of(run.size, run.metal)
    except Wrong as wrong:
        problems += wrong.problems
    try:
        steady = steady_current_a(array.module.short_circuit_current_a, array.in_parallel)
        breaker_a = next_rating_a(steady)
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


def _drop_working(wire: Conductor, run: CableRun, volts: float, amps: float) -> Working:
    per_m, length = wire.ohm_per_m(), run.length_m
    lost = drop_v(length, amps, per_m)
    return Working(
        "volts lost in the run in full sun",
        (
            Step("one way", "L", "", length, "m", OWNER),
            Step("current in full sun", "I", "", amps, "A", OWNER),
            Step(f"{wire.size} {wire.metal} at {WARM_C:g} C", "r", "", per_m, "ohm/m", wire.source),
            Step("lost", "dV", f"2 x {length:.2f} x {amps:g} x {per_m:.6f}", lost, "V", OHM),
            Step("share", "dV/V", f"{lost:.2f} / {volts:g}", lost / volts, "", OHM),
        ),
        (
            "No pass mark: a thicker wire is worth what it saves. Over a year about half of this share is lost, less in "
            "winter light.",
        ),
    )


def _string_notes(
    place: Place, array: NewArray, controller: Controller, by_table: float | None
) -> tuple[str, ...]:
    cold = _cold_v(place, array)
    most, limit = _most(place, array, controller), controller.voltage_limit_v
    notes = [f"{controller.name} bears at most {most} of these modules in series at your record low."]  # fmt: skip
    if by_table is None:
        notes.append("The code's cold table ends at -40 C; the maker's coefficient decides.")
    elif with_margin_v(cold) <= limit < by_table:
        notes.append(
            f"By the code's table the string shows {by_table:.0f} V, over the controller's {limit:g} V. The coefficient decides, "
            "yet an inspector without the datasheet goes by the table: have the sheet at hand, or take one module less."
        )
    return tuple(notes)


def _wire_notes(wire: Conductor, run: CableRun, code: Code) -> tuple[str, ...]:
    notes = []
    if wire.rated_as != wire.size and code != "IEC":
        notes.append(
            f"{wire.size} is rated here like {wire.rated_as}, the next thinner American size; and the earth wire is the "
            "American one rounded up. IEC 60364-5-54 asks for an earth wire as thick as the live one up to 16 mm2: ask the "
            "electrician which code holds."
        )
    ratings = [float(row["rating_a"]) for row in table("wiring", "guards/breakers")]
    if run.breaker_a is not None and run.breaker_a not in ratings:
        notes.append(f"{run.breaker_a:g} A is no standard breaker of NEC 240.6(A).")
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
        *array_notes(array, _cold_v(place, array)),
        *run_notes(run),
        *battery_notes(battery),
    )
