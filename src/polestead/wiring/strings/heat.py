"""What is left of a string in the heat, old and weak as it may be, against the battery it must charge."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil, floor

from polestead.base.cells import IRON_CELLS, IRON_FULL_V, IRON_GENTLE_V, LEAD_CELLS
from polestead.base.check import Check, share
from polestead.base.source import OWNER, Source
from polestead.base.working import Step, Working
from polestead.homestead.fields import source_of
from polestead.homestead.model import Battery, Controller
from polestead.modules.ageing import VOLTS_LOST, VOLTS_LOST_A_YEAR, volts_left
from polestead.modules.power import FAIMAN, cell_c, full_sun_voltage_v
from polestead.wiring.strings.label import Label
from polestead.wiring.strings.voltage import HEAT_CHECK

HOTTEST_AIR_C = 45.0  # our own assumption, hotter than most places ever are
HOTTEST = Source("air of 45 C, hotter than most places ever are", status="ours")
FALLS = Source("the working voltage falls by as many volts as the open one", status="ours")
CHARGES = Source("a string charges while it stands over the battery and what the controller wants", status="ours")  # fmt: skip
IRON_FULL = Source("makers' charging voltage of a cell, 3.45 to 3.6 V, the upper end", status="common practice")  # fmt: skip
OHM = Source("Ohm's law, there and back", status="computed")
BANK = Source("cells in series, each at its charging voltage", status="computed")
NO_WIRE = Source("the array's own wire is not in the file: nothing taken off", status="ours")
COOLER_V_PER_K = 0.005
COOLER = Source("makers' charging instructions", "5 mV per kelvin and cell under 25 C")


@dataclass(frozen=True, slots=True)
class Wanted:
    """What the string must show to charge the battery full.

    Attributes:
        cells: In series.
        charge_v: Charging voltage of the bank.
        equalize_v: The same when equalizing; None where the bank is not.
        gentle_v: The same at the lower end of what makers of lithium cells write; None for lead.
        over_v: What the controller wants over it.
        steps: How ``charge_v`` and ``over_v`` were found.
    """

    cells: int
    charge_v: float
    equalize_v: float | None
    gentle_v: float | None
    over_v: float
    steps: tuple[Step, ...]

    @property
    def wanted_v(self) -> float:
        """At the controller's array terminals."""
        return self.charge_v + self.over_v

    @property
    def equalizing_v(self) -> float | None:
        """The same while equalizing."""
        return None if self.equalize_v is None else self.equalize_v + self.over_v


def wanted_of(battery: Battery, controller: Controller) -> Wanted:
    """What a string must show at the controller to charge a battery full.

    Lead-acid: absorption by the owner's set point, lifted by a sensor on a cool bank, never lowered.  Lithium iron phosphate: 3.6 V
    a cell.

    Args:
        battery: The bank.
        controller: What it wants over the battery.
    """
    cells = battery.in_series
    lead = battery.kind != "lithium iron phosphate"
    cell_v, source = (
        (battery.absorb_v_per_cell, source_of(battery, "absorb_v_per_cell")) if lead else (IRON_FULL_V, IRON_FULL)
    )  # fmt: skip
    named = LEAD_CELLS if lead else IRON_CELLS
    lift = _lift_v(battery) if lead else 0.0
    steps = [
        Step("cells in series", "n", f"from {battery.nominal_v:g} V", float(cells), "", named if battery.cells is None else OWNER),
        Step("charging voltage of a cell", "Vcell", "", cell_v, "V", source),
    ]  # fmt: skip
    if lift > 0.0:
        formula = f"{COOLER_V_PER_K:g} x (25 - {battery.temperature_c:g})"
        steps.append(Step("lifted by the sensor on the cool bank", "dVcell", formula, lift, "V", COOLER))  # fmt: skip
    charge = cells * (cell_v + lift)
    each = f"({cell_v:g} + {lift:.3g})" if lift > 0.0 else f"{cell_v:g}"
    steps += [
        Step("charging voltage of the bank", "Vbat", f"{cells} x {each}", charge, "V", BANK),
        Step(
            "the controller wants over it",
            "dVctl",
            "",
            controller.over_battery_v,
            "V",
            source_of(controller, "over_battery_v"),
        ),
    ]
    equal = cells * (battery.equalize_v_per_cell + lift) if battery.equalized else None
    gentle = None if lead else cells * IRON_GENTLE_V
    return Wanted(cells, charge, equal, gentle, controller.over_battery_v, tuple(steps))


def _lift_v(battery: Battery) -> float:
    """Of a cell, where a sensor sits on a bank cooler than 25 C; a bank outdoors is warm when the string is weak."""
    if not battery.sensor or battery.temperature_c is None:
        return 0.0
    return max(COOLER_V_PER_K * (25.0 - battery.temperature_c), 0.0)


def hot_voltage_v(label: Label, in_series: int, air_c: float = HOTTEST_AIR_C) -> float:
    """Least working voltage of a string at the modules: hot, low by its tolerance, and aged.

    Source: cell temperature after Faiman 2008 (seen); the fall by the open voltage's coefficient, the air and the ageing are ours.

    Args:
        label: Of the module.
        in_series: Modules in the string.
        air_c: Hottest air [C].

    Returns:
        [V].
    """
    fall = label.open_circuit_voltage_v * label.hot_change_per_k
    fresh = full_sun_voltage_v(label.working_voltage_v, fall, in_series, air_c)
    return fresh * (1.0 - label.volts_low_by) * volts_left(label.years)


def charges_to_air_c(label: Label, in_series: int, wanted_v: float, drop_v: float) -> float:
    """Warmest air in which a string still charges full in full sun, weak and old as for ``hot_voltage_v``.

    Source: the same sum solved for the air, in which it is straight.

    Args:
        label: Of the module.
        in_series: Modules in the string.
        wanted_v: At the controller [V].
        drop_v: Lost in the run in full sun [V].
    """
    at_25, at_26 = (hot_voltage_v(label, in_series, air_c) for air_c in (25.0, 26.0))
    return 25.0 + (wanted_v + drop_v - at_25) / (at_26 - at_25)


def hot_check(
    label: Label, in_series: int, battery: Battery, controller: Controller, drop_v: float | None
) -> Check:
    """The string in the heat against what charging wants, every step told.

    Args:
        label: Of the module.
        in_series: Modules in the string.
        battery: What it must charge.
        controller: Through which.
        drop_v: Lost in the run in full sun [V]; None where the array's own wire is not known.
    """
    wanted = wanted_of(battery, controller)
    asked = Step("wanted at the controller", "Vwant", f"{wanted.charge_v:.1f} + {wanted.over_v:g}", wanted.wanted_v, "V", CHARGES)  # fmt: skip
    rungs = _hot_steps(label, in_series, drop_v)
    hot = rungs[-1].value
    working = Working(
        "working voltage of a string in the heat", (*wanted.steps, asked, *rungs), _hot_notes(battery, wanted, hot)
    )  # fmt: skip
    return Check(
        "string", HEAT_CHECK, wanted.wanted_v, hot, "V", share(wanted.wanted_v, max(hot, 0.0)), CHARGES, working
    )  # fmt: skip


def _hot_steps(label: Label, in_series: int, drop_v: float | None) -> tuple[Step, ...]:
    cell, change = cell_c(1000.0, HOTTEST_AIR_C), label.hot_change_per_k
    volts, opened = label.working_voltage_v, label.open_circuit_voltage_v
    fall = opened * change
    fresh = full_sun_voltage_v(volts, fall, in_series, HOTTEST_AIR_C)
    left = volts_left(label.years)
    at_modules, lost = hot_voltage_v(label, in_series), drop_v or 0.0
    return (
        Step("working voltage of a module at 25 C", "Vmp", "", volts, "V", OWNER),
        Step("hottest air", "Ta", "", HOTTEST_AIR_C, "C", HOTTEST),
        Step("cells in full sun", "Tc", f"{HOTTEST_AIR_C:g} + 1000 / (25 + 6.84 x 1)", cell, "C", FAIMAN),
        Step("change of the open voltage per degree", "beta", "", change, "1/K", label.hot_change_source),
        Step("a module loses per degree", "dV/dT", f"{opened:g} x {change:g}", fall, "V/K", FALLS),
        Step("hot, as the sheet says", "Vhot", f"{in_series} x ({volts:g} + {fall:.4f} x ({cell:.1f} - 25))", fresh, "V", FALLS),
        Step("less by tolerance", "tol", "", label.volts_low_by, "", label.low_by_source),
        Step("years in the sun when it must still charge", "t", "", label.years, "year", label.years_source),
        Step("left after its years", "a", f"1 - {VOLTS_LOST_A_YEAR:g} x {label.years:g}", left, "", VOLTS_LOST),
        Step(
            "hot, weak and old, at the modules", "Vold", f"{fresh:.1f} x (1 - {label.volts_low_by:g}) x {left:.3f}", at_modules, "V",
            VOLTS_LOST,
        ),
        Step("lost in the run", "dV", "", lost, "V", NO_WIRE if drop_v is None else OHM),
        Step("at the controller", "Vleast", f"{at_modules:.1f} - {lost:.2f}", at_modules - lost, "V", CHARGES),
    )  # fmt: skip


def _hot_notes(battery: Battery, wanted: Wanted, hot_v: float) -> tuple[str, ...]:
    equalizing = wanted.equalizing_v
    if wanted.gentle_v is not None:
        gentle = wanted.gentle_v + wanted.over_v
        return (f"At {IRON_GENTLE_V:g} V a cell, the lower end of what makers write, {gentle:.1f} V are wanted.",)  # fmt: skip
    if equalizing is None:
        return ()
    left = hot_v - equalizing
    words = f"{floor(left * 10.0 + 1e-6) / 10.0:.1f} V are left" if left >= 0.0 else f"{ceil(-left * 10.0 - 1e-6) / 10.0:.1f} V are wanting: equalize on a cool day"  # fmt: skip
    return (
        f"Equalizing at {battery.equalize_v_per_cell:g} V a cell wants {equalizing:.1f} V: {words}.",
    )
