"""All that stands by the battery, in one result."""

from __future__ import annotations

from dataclasses import dataclass

from polestead.base.check import Check
from polestead.base.show import warmth_both_ways
from polestead.base.working import Working
from polestead.homestead.model import Battery, Engine, Inverter
from polestead.wiring.bank.charging import Charging
from polestead.wiring.bank.cold_charge import (
    NO_CHARGE_UNDER_C,
    cold_charge_ask,
    cold_charge_check,
)
from polestead.wiring.bank.hydrogen import Hydrogen, hydrogen_of
from polestead.wiring.bank.main_fuse import MainFuse, main_fuse_of
from polestead.wiring.bank.neutral import house_side_guards
from polestead.wiring.bank.set_points import SetPoints, coldest_source, set_points_of
from polestead.wiring.bank.short_circuit import ShortCircuit, short_circuit_of
from polestead.wiring.currents import Code
from polestead.wiring.guards.result import Guard

HOTTEST_C = 40.0  # of a bank that follows the air; our own assumption


@dataclass(frozen=True, slots=True)
class Bank:
    """What stands by the battery.

    Attributes:
        short_circuit: What it gives into a dead short.
        main_fuse: Fuse and switch at its terminals.
        hydrogen: Air it wants; None for lithium.
        charging: What may charge at once, and what to lower.
        set_points: Voltages to set.
        guards: Main fuse, switch, neutral bond, transfer switch.
        checks: Charging currents against what the battery may take; lithium in the cold; the main fuse, where the file gives one.
        cautions: At the act.
        asks: What the file does not say; none of it counts as passed.
        workings: Of all of it.
        engine: Whether there is one.
    """

    short_circuit: ShortCircuit
    main_fuse: MainFuse
    hydrogen: Hydrogen | None
    charging: Charging
    set_points: SetPoints
    guards: tuple[Guard, ...]
    checks: tuple[Check, ...]
    cautions: tuple[str, ...]
    asks: tuple[str, ...]
    workings: tuple[Working, ...]
    engine: bool


def bank_of(
    battery: Battery,
    inverter: Inverter,
    engine: Engine | None,
    charging: Charging,
    code: Code,
    record_low_c: float,
) -> Bank:
    """Main fuse, gas, set-points, bond, charging.

    Source: as each part names.

    Args:
        battery: The bank.
        inverter: That hangs on it.
        engine: If there is one.
        charging: All that may charge it at once.
        code: That holds.
        record_low_c: Coldest air [C], for a bank whose room the file does not give: then its coldest, and 40 C its warmest.
    """
    cells = battery.in_series
    cold, warm = bank_temperatures_c(battery, record_low_c)
    short = short_circuit_of(battery)
    points = set_points_of(battery, cells, cold, warm, battery.sensor)
    charged_a, full = charging.together_a, points.highest_v
    fuse = main_fuse_of(battery, inverter, charged_a, full, short, code)
    gas = hydrogen_of(battery, cells, charged_a)
    workings = [short.working, fuse.working, points.working]
    if gas is not None:
        workings.append(gas.working)
    asks = [*fuse.asks, *points.asks]
    cold_charge = cold_charge_check(battery, cold, coldest_source(battery))
    if cold_charge is not None and not cold_charge.holds:
        asks.append(cold_charge_ask(battery, cold_charge))
    if not charging.limit_by_file:
        asks.append(
            "Battery's maker: the largest charging current of the whole bank (battery.charge_limit)."
        )
    return Bank(
        short_circuit=short,
        main_fuse=fuse,
        hydrogen=gas,
        charging=charging,
        set_points=points,
        guards=(*fuse.guards, *house_side_guards(engine is not None, code)),
        checks=(*charging.checks, *(() if cold_charge is None else (cold_charge,)), *fuse.checks),
        cautions=_cautions(battery, cold),
        asks=tuple(asks),
        workings=tuple(workings),
        engine=engine is not None,
    )


def bank_temperatures_c(battery: Battery, record_low_c: float) -> tuple[float, float]:
    """The bank's coldest and warmest: its room's, or the record low and 40 C, which is further than it mostly goes.

    Example:
        >>> cellar = {"kind": "flooded lead-acid", "nominal": "48 V", "capacity": "740 Ah", "temperature": "12 C"}
        >>> bank_temperatures_c(Battery.model_validate(cellar), -43.9)
        (12.0, 12.0)
    """
    if battery.temperature_c is not None:
        return battery.temperature_c, battery.temperature_c
    return record_low_c, HOTTEST_C


def _cautions(battery: Battery, coldest_c: float) -> tuple[str, ...]:
    short = (
        "A short circuit at the bank welds tools and throws metal: insulated tools, no rings or watch, terminals covered, one terminal at a time, the far end of a lead bolted "
        "before the battery's."
    )
    if battery.kind == "lithium iron phosphate":
        warmed = f"a heater of {battery.heater_w:.0f} W is in the file" if battery.heater_w > 0.0 else "no heater is in the file"  # fmt: skip
        if battery.stops_cold_charge:
            warmed += ", its own guard stops the charge there: sun and engine then give it nothing until it has thawed"
        at = f"The bank stands down to {warmth_both_ways(coldest_c)}; {warmed}. " if coldest_c < NO_CHARGE_UNDER_C + 5.0 else ""  # fmt: skip
        return (
            short,
            f"{at}No charging with cells under {warmth_both_ways(NO_CHARGE_UNDER_C)}: metal grows in them and one day shorts. The battery's own guard must stop it, the controllers too; ask how it is tested.",
            "No gas while all is well, so no vents for hydrogen. A cell that fails blows off gas that burns and poisons, for hours: a lagged box apart from beds and the way out, "
            "a smoke alarm over it, and out and away; water cools it.",
            "When its guard cuts off under charge, the voltage of a controller may jump and take lamps and inverter with it: ask how the controller is warned first.",
        )
    return (
        short,
        "A frozen lead-acid battery may burst when charged: let it thaw whole. The emptier it is, the sooner it freezes.",
        "Acid: goggles, gloves, water and soda at hand. Distilled water after charging, not before.",
        "Charge with caps on and vents open; nobody smokes, welds or grinds near it.",
    )
