"""Cautions of array, run and controller, each at the act it belongs to.

What guards the circuit stands in `guards`, what stands by the battery in `bank`.
"""

from __future__ import annotations

from polestead.base.show import number
from polestead.homestead.model import CableRun, Controller, NewArray
from polestead.wiring.bank.hydrogen import hydrogen_air_m3_h

__all__ = ["array_notes", "controller_notes", "held_back_w", "hydrogen_air_m3_h", "run_notes"]
REACHED_V = 30.0


def array_notes(cold_v: float) -> tuple[str, ...]:
    """What stands by the modules and the combiner."""
    notes = [
        "Modules are live in any light and cannot be switched off. Cover them, open the load-break switch first, measure, "
        "and never pull a connector under load.",
    ]
    if cold_v > REACHED_V:
        notes.append(
            "Over 30 V, conductors that people can reach must be guarded or in raceway: screen the back of the modules, "
            "fence the pole, or go higher."
        )
    return tuple(notes)


def run_notes(run: CableRun) -> tuple[str, ...]:
    """What stands by the trench and is said nowhere else."""
    notes = ["The earth wire goes with the circuit all the way back to the house; a rod at the pole never replaces it."]  # fmt: skip
    if run.metal == "aluminium":
        notes.append(
            "Aluminium wire: terminals marked for it, and never bare or cut ends in the ground."
        )
    return tuple(notes)


def held_back_w(power_w: float, controller: Controller, battery_nominal_v: float) -> float:
    """What a controller cannot pass on of the modules' rating, by its current limit at the bank's nominal voltage [W]."""
    return max(0.0, power_w - controller.passes_a * battery_nominal_v)


def controller_notes(
    array: NewArray, controller: Controller, battery_nominal_v: float
) -> tuple[str, ...]:
    """What the controller can pass on, against what the array may give."""
    power = array.columns * array.rows * array.module.power_w
    held = held_back_w(power, controller, battery_nominal_v)
    notes = [
        "Never leave the array on a controller without its battery unless the maker says you may: battery first on, last off."
    ]
    how = ", as it is set," if controller.passes_a < controller.current_limit_a else ""
    if held > 0.0:
        notes.append(
            f"{controller.name} passes on no more than {number(power - held)} W ({controller.passes_a:g} A{how} at "
            f"{battery_nominal_v:g} V); the array may give {number(power)} W: up to {number(held)} W are held back in "
            "full sun."
        )
    return tuple(notes)
