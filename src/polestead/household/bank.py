"""The homestead file's battery, inverter and engine turned into what the hourly loop is told."""

from __future__ import annotations

from math import inf, nan
from typing import Any

import numpy as np

from polestead.base.cells import IRON_GENTLE_V
from polestead.base.problem import Problem, Wrong
from polestead.base.show import percent
from polestead.homestead.model import Battery, Engine, Household, Inverter
from polestead.household.fuel import boil_off_l_h, derated_power_w, fuel_lines
from polestead.household.plan import Bank, Inside, Motor
from polestead.household.tanks import given_over, hour_of_tanks, tanks_of

CRITICAL_MARGIN = 0.03  # over the cut-off: the engine is called at any hour; ours
# A sealed cell turns most of its gas back to water but loses the charge all the same; a quarter is ours, from memory.
SEALED_GAS_SHARE = 0.25
FULL_LOAD_POINTS = 0.04
FILL_AT = 0.3  # a supplier usually comes at 20 to 30 %; common practice


def bank_of(battery: Battery) -> Bank:
    """The battery as the loop sees it."""
    room_c = nan if battery.temperature_c is None else battery.temperature_c
    if battery.kind == "lithium iron phosphate":
        return _iron(battery, room_c)
    rated = battery.capacity_ah * battery.health
    sealed = battery.kind == "sealed lead-acid"
    tanks = tanks_of(battery.kind, battery.capacity_ah, battery.table_rows)
    ten_hours = float(given_over(np.array([10.0]), tanks.holds, tanks.at_once, tanks.slow_per_h)[0])
    return Bank(
        lead=True,
        cells=float(battery.in_series),
        full_ah=tanks.holds * rated,
        rated_ah=rated,
        ten_hour_ah=ten_hours * rated,
        at_once=tanks.at_once,
        slow_per_h=tanks.slow_per_h,
        hour=hour_of_tanks(tanks.at_once, tanks.slow_per_h),
        floor=battery.lowest_charge,
        most_in_a=battery.may_take_a,
        absorb_v=battery.absorb_v_per_cell,
        gas_share=SEALED_GAS_SHARE if sealed else 1.0,
        self_per_h=(0.0010 if sealed else 0.0015) / 24.0,
        own_draw_w=0.0,
        room_c=room_c,
        lag_h=battery.follows_air_s / 3600.0,
        cell_ohm=0.0,
        lag_v=0.0,
        returned=1.0,
        taper_from=0.95,
        cold_limits=True,
        equal_every_h=24.0 * (battery.equalize_every_days or 0.0) if battery.equalized else 0.0,
        equal_v=battery.equalize_v_per_cell,
    )


def _iron(battery: Battery, room_c: float) -> Bank:
    rated = battery.capacity_ah * battery.health
    return Bank(
        lead=False,
        cells=float(battery.in_series),
        full_ah=rated,
        rated_ah=rated,
        ten_hour_ah=rated,
        at_once=1.0,
        slow_per_h=1.0,
        hour=hour_of_tanks(1.0, 1.0),
        floor=battery.lowest_charge,
        most_in_a=battery.may_take_a,
        absorb_v=IRON_GENTLE_V,
        gas_share=0.0,
        self_per_h=0.02 / (30.4 * 24.0),
        own_draw_w=3.0,
        room_c=room_c,
        lag_h=battery.follows_air_s / 3600.0,
        cell_ohm=0.0005 * 280.0 / rated,
        lag_v=0.025,
        returned=0.998,
        taper_from=0.95,
        cold_limits=True,
        heater_w=battery.heater_w,
        warm_wh_k=battery.warm_wh_k,
    )


def inside_of(inverter: Inverter) -> Inside:
    """The inverter as the loop sees it: idle draw, the next watt's efficiency, and a loss with the square of the load.

    The square's factor is such that at full load power out over power in, idle draw left aside, is what the owner writes, else
    four points under the efficiency at a usual load (from memory of usual curves).
    """
    full = inverter.efficiency_at_full_load or max(inverter.efficiency - FULL_LOAD_POINTS, 0.5)
    curve = max(1.0 / full - 1.0 / inverter.efficiency, 0.0) / inverter.power_w
    return Inside(inverter.power_w, inverter.efficiency, inverter.idle_w, curve)


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
        airing_every_h=24.0 * (engine.airing_every_days or 0.0),
        airing_h=engine.airing_s / 3600.0,
        start_in_cold=engine.starts_in_deep_cold,
        **_tank(engine),
    )


def _tank(engine: Engine) -> dict[str, Any]:
    """What the loop is told of the fuel on the place; nothing where the owner names no tank."""
    if engine.tank_l is None:
        return {}
    thirsty = max(fuel_lines(engine), key=lambda line: line.at_l_h(engine.power_w))
    once = engine.filled == "once a year"
    return {
        "tank_l": engine.tank_l,
        "fill_at": -1.0 if once else FILL_AT,
        "fill_month": engine.filled_in_month - 1 if once else -1,
        "burns_l_h": thirsty.per_hour_l,
        "burns_l_wh": thirsty.per_wh_l,
        "boils_l_h": boil_off_l_h(engine.tank_l) if engine.fuel == "propane" else (inf,) * 7,
    }


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
                "household.engine", "let_go_at", percent(engine.let_go_at), f"above call_at, {percent(engine.call_at)}",
                "Let the engine go at a higher charge than it is called at.",
            )
        )  # fmt: skip
    full = house.inverter.efficiency_at_full_load
    if full is not None and full > house.inverter.efficiency:
        problems.append(
            Problem(
                "household.inverter", "efficiency_at_full_load", percent(full), f"at most efficiency, {percent(house.inverter.efficiency)}",
                "A heavy load loses more; look at the maker's curve.",
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
    if battery.kind == "lithium iron phosphate" and battery.heater_w == 0.0:
        notes.append("The bank has no heater in the file: below 0 C (32 F) it takes no charge.")
    engine = house.engine
    if engine is None:
        notes.append("No engine: what the bank cannot give stays dark.")
    elif engine.full_load_fuel_l_h is None or engine.half_load_fuel_l_h is None:
        notes.append("Fuel is a range: the maker's figures at full and half load would narrow it.")
    if engine is not None:
        if engine.starts_in_deep_cold >= 1.0:
            notes.append("The engine is taken to start every time it is called; in deep cold many do not. Write engine.starts_in_deep_cold and see the hours without power.")  # fmt: skip
        if engine.tank_l is None:
            notes.append(
                "Fuel is taken to be there whenever the engine runs: no tank is in the file."
            )
        notes.append("It is also let go once the bank takes less than a third of what the charger could give.")  # fmt: skip
    return tuple(notes)
