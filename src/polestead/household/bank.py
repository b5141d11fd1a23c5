"""The homestead file's battery, inverter and engine turned into what the hourly loop is told."""

from __future__ import annotations

from math import nan

from polestead.base.problem import Problem, Wrong
from polestead.homestead.model import Battery, Engine, Household, Inverter
from polestead.household.fuel import derated_power_w
from polestead.household.plan import Bank, Inside, Motor

# Two-tank battery, fitted to a flooded table of 1.13/1.00/.89/.78/.62 of the 20 h rating at 100/20/10/5/2 h (computed,
# fit within 3 %); Manwell & McGowan 1993 give the form.
HOLDS = 1.15
AT_ONCE = 0.43
SLOW_PER_H = 0.47
TEN_HOUR_SHARE = 0.89
SHED_LAG_H = 24.0  # a boxed bank; assumed
CRITICAL_MARGIN = 0.03  # over the cut-off: the engine is called at any hour; ours
# A sealed cell turns most of its gas back to water but loses the charge all the same; a quarter is ours, from memory.
SEALED_GAS_SHARE = 0.25


def bank_of(battery: Battery) -> Bank:
    """The battery as the loop sees it."""
    room_c = nan if battery.temperature_c is None else battery.temperature_c
    if battery.kind == "lithium iron phosphate":
        return _iron(battery, room_c)
    rated = battery.capacity_ah * battery.health
    sealed = battery.kind == "sealed lead-acid"
    return Bank(
        lead=True,
        cells=float(max(round(battery.nominal_v / 2.0), 1)),
        full_ah=HOLDS * rated,
        rated_ah=rated,
        ten_hour_ah=TEN_HOUR_SHARE * rated,
        at_once=AT_ONCE,
        slow_per_h=SLOW_PER_H,
        floor=battery.lowest_charge,
        most_in_a=battery.charge_limit_a or battery.capacity_ah / 5.0,
        absorb_v=battery.absorb_v_per_cell,
        gas_share=SEALED_GAS_SHARE if sealed else 1.0,
        self_per_h=(0.0010 if sealed else 0.0015) / 24.0,
        own_draw_w=0.0,
        room_c=room_c,
        lag_h=SHED_LAG_H,
        cell_ohm=0.0,
        lag_v=0.0,
        returned=1.0,
        taper_from=0.95,
        cold_limits=True,
    )


def _iron(battery: Battery, room_c: float) -> Bank:
    rated = battery.capacity_ah * battery.health
    return Bank(
        lead=False,
        cells=float(max(round(battery.nominal_v / 3.2), 1)),
        full_ah=rated,
        rated_ah=rated,
        ten_hour_ah=rated,
        at_once=1.0,
        slow_per_h=1.0,
        floor=battery.lowest_charge,
        most_in_a=battery.charge_limit_a or battery.capacity_ah / 5.0,
        absorb_v=3.45,
        gas_share=0.0,
        self_per_h=0.02 / (30.4 * 24.0),
        own_draw_w=3.0,
        room_c=room_c,
        lag_h=SHED_LAG_H,
        cell_ohm=0.0005 * 280.0 / rated,
        lag_v=0.025,
        returned=0.998,
        taper_from=0.95,
        cold_limits=True,
    )


def inside_of(inverter: Inverter) -> Inside:
    """The inverter as the loop sees it."""
    return Inside(inverter.power_w, inverter.efficiency, inverter.idle_w)


def motor_of(engine: Engine | None, battery: Battery, elevation_m: float) -> Motor:
    """The engine as the loop sees it."""
    if engine is None:
        return Motor(False, 0.0, 0.0, 1.0, 0.0, 1.0, 0.0, 0.0, 24.0, 0.0)
    iron = battery.kind == "lithium iron phosphate"
    return Motor(
        present=True,
        power_w=derated_power_w(engine.power_w, elevation_m),
        charger_w=engine.charger_w,
        charger_efficiency=0.92 if iron else 0.85,
        call_at=engine.call_at,
        let_go_at=engine.let_go_at,
        call_always_at=min(battery.lowest_charge + CRITICAL_MARGIN, engine.call_at),
        heard_from_hour=engine.heard_from_hour,
        heard_to_hour=engine.heard_to_hour,
        shortest_run_h=engine.shortest_run_s / 3600.0,
    )


def refuse_what_cannot_work(house: Household, controllers: tuple[str, ...]) -> None:
    """Tell all at once what the sections say against each other.

    Args:
        house: The household section.
        controllers: Names that arrays are wired to.

    Raises:
        Wrong: With every such problem.
    """
    names = {controller.name for controller in house.controller}
    problems = [
        Problem(
            "household.controller", "name", f'an array on "{name}"', ", ".join(sorted(names)),
            "Name a controller that stands in the file.",
        )
        for name in sorted(set(controllers) - names)
    ]  # fmt: skip
    engine = house.engine
    if engine is not None and engine.let_go_at <= engine.call_at:
        problems.append(
            Problem(
                "household.engine", "let_go_at", f"{engine.let_go_at:.0%}", f"above call_at, {engine.call_at:.0%}",
                "Let the engine go at a higher charge than it is called at.",
            )
        )  # fmt: skip
    if problems:
        raise Wrong(problems)


def notes_of(house: Household) -> tuple[str, ...]:
    """What stands beside the figures."""
    battery = house.battery
    notes = []
    if battery.temperature_c is None:
        notes.append(
            "Battery temperature: no room given, so it follows the outdoor air a day behind."
        )
    if battery.charge_limit_a is None:
        notes.append("The bank is charged with no more than a fifth of its rating; the maker's limit is not in the file.")  # fmt: skip
    if battery.kind == "sealed lead-acid":
        notes.append("Sealed lead-acid is worked as flooded with a quarter of the gassing and less loss while standing.")  # fmt: skip
    if battery.kind == "lithium iron phosphate":
        notes.append("No heater is worked: below 0 °C the bank takes no charge. A heater is a use in the file.")  # fmt: skip
    engine = house.engine
    if engine is None:
        notes.append("No engine: what the bank cannot give stays dark.")
    elif engine.full_load_fuel_l_h is None or engine.half_load_fuel_l_h is None:
        notes.append("Fuel is a range: the maker's figures at full and half load would narrow it.")
    if engine is not None:
        notes.append("The engine is taken to start every time it is called.")
        notes.append("It is also let go once the bank takes less than a third of what the charger could give.")  # fmt: skip
    return tuple(notes)
