"""Cautions of array, run and battery, each at the act it belongs to."""

from __future__ import annotations

from polestead.base.source import Source
from polestead.homestead.model import Battery, CableRun, Controller, NewArray

HYDROGEN = Source("IEC 62485-2", "ventilation of battery rooms", "memory")
ARC_FROM_V = 80.0
REACHED_V = 30.0
GAS_A_PER_AH = {"flooded lead-acid": 0.020, "sealed lead-acid": 0.008}  # IEC 62485-2, boost; memory
CELL_V = 2.0


def hydrogen_air_m3_h(cells: int, gas_current_a: float) -> float:
    """Fresh air a charging lead-acid bank needs.

    Source: IEC 62485-2: Q = .05 n I_gas (from memory).  Valid for: lead-acid, to keep hydrogen under 4 % with a factor 5.

    Args:
        cells: Cells in series of one bank.
        gas_current_a: Gassing current at boost charge [A].

    Returns:
        Air [m3/h].

    Example:
        >>> round(hydrogen_air_m3_h(24, 14.8), 2)
        17.76
    """
    return 0.05 * cells * gas_current_a


def battery_notes(battery: Battery | None) -> tuple[str, ...]:
    """What stands by the battery: the main fuse, one bond, no back-feed; gas or cold by its kind, if known."""
    return (*_fuse_notes(), *(_kind_notes(battery) if battery else ()))


def array_notes(array: NewArray, cold_v: float) -> tuple[str, ...]:
    """What stands by the modules and the combiner."""
    notes = [
        "Modules are live in any light and cannot be switched off. Cover them, open the load-break switch first, measure, "
        "and never pull a connector under load.",
        "Breakers, switches and fuses must be rated for direct current at the cold voltage.",
        "A switch at the pole and one in sight of the controller; a surge arrestor at both ends of the run.",
    ]
    if array.in_parallel >= 3:
        notes.append(
            f"{array.in_parallel} strings in parallel: a fuse in each string, no larger than the module's label allows "
            "(NEC 690.9)."
        )
    if cold_v >= ARC_FROM_V:
        notes.append(
            "From 80 V direct current, conductors on or in a building need arc-fault protection (NEC 690.11); a run in the "
            "ground or metal raceway to a pole off the building is let off, the part in the house is not. Ask the inspector."
        )
    if cold_v > REACHED_V:
        notes.append(
            "Over 30 V, conductors that people can reach must be guarded or in raceway: screen the back of the modules, "
            "fence the pole, or go higher."
        )
    return tuple(notes)


def run_notes(run: CableRun) -> tuple[str, ...]:
    """What stands by the trench and the house wall."""
    notes = [
        "The run inside or on the house falls under rapid shutdown (NEC 690.12) too: ask before the wall is closed.",
        "Flexible rubber cord with a strain relief at each end over the moving hinge, a loop for the full swing, a drip loop.",
        "The earth wire goes with the circuit all the way back to the house; a rod at the pole never replaces it.",
        "Under a public road or drive 24 in of cover whatever the method. Ribbon 12 in above the cable. Photograph the open "
        "trench with a tape in view: it becomes your own map of buried lines.",
    ]
    if run.method != "direct burial":
        notes.append(
            "Single wires rated wet (THWN-2, USE-2) in the conduit, sweeps, an expansion fitting at the pole where frost "
            "moves the ground."
        )
    if run.metal == "aluminium":
        notes.append(
            "Aluminium wire: terminals marked for it, and never bare or cut ends in the ground."
        )
    return tuple(notes)


def held_back_w(power_w: float, controller: Controller, battery_nominal_v: float) -> float:
    """What a controller cannot pass on of the modules' rating, by its current limit at the bank's nominal voltage [W]."""
    return max(0.0, power_w - controller.current_limit_a * battery_nominal_v)


def controller_notes(
    array: NewArray, controller: Controller, battery_nominal_v: float
) -> tuple[str, ...]:
    """What the controller can pass on, against what the array may give."""
    power = array.columns * array.rows * array.module.power_w
    held = held_back_w(power, controller, battery_nominal_v)
    notes = [
        "Never leave the array on a controller without its battery unless the maker says you may: battery first on, last off."
    ]
    if held > 0.0:
        notes.append(
            f"{controller.name} passes on no more than {power - held:.0f} W ({controller.current_limit_a:g} A at "
            f"{battery_nominal_v:g} V); the array may give {power:.0f} W: up to {held:.0f} W are held back in "
            "full sun."
        )
    return tuple(notes)


def _fuse_notes() -> tuple[str, ...]:
    return (
        "Main fuse at the battery, its interrupting rating at direct current over the bank's short-circuit current: that is "
        "thousands of amperes, ask the battery's maker for it.",
        "Short circuit: insulated tools, no rings, terminals covered.",
        "One bond of neutral to earth in the whole system, and no way for the engine or inverter to back-feed the other.",
    )


def _kind_notes(battery: Battery) -> tuple[str, ...]:
    if battery.kind == "lithium iron phosphate":
        return (
            "No charging below 0 C in the cells: the battery's own guard must stop it, and its box be kept warm.",
        )
    cells = round(battery.nominal_v / CELL_V)
    air = hydrogen_air_m3_h(cells, GAS_A_PER_AH[battery.kind] * battery.capacity_ah)
    opening_cm2 = 28.0 * air
    return (
        f"Hydrogen: the room needs about {air:.1f} m3 of fresh air an hour while the bank gasses, by nature through two "
        f"openings of {opening_cm2:.0f} cm2 each, one low, one high (IEC 62485-2, from memory). No spark, no grinding near it.",
        "A frozen lead-acid battery may burst; do not charge it. Acid: goggles, water and soda at hand.",
    )
