"""Lithium must not be charged with cells under 0 C: what stops it, in kelvins."""

from __future__ import annotations

from math import ceil

from polestead.base.check import Check, share
from polestead.base.source import Source
from polestead.base.working import Step, Working
from polestead.homestead.fields import source_of
from polestead.homestead.model import Battery

NO_CHARGE_UNDER_C = 0.0
UNDER_FREEZING = Source(
    "cell makers' sheets: no charging with cells of lithium iron phosphate under 0 C (32 F)",
    status="memory",
)
LIFTS = Source("heat in over heat lost, P tau / C: what a steady heater holds the bank over its air", status="computed")  # fmt: skip
COLD_CHECK = (
    "cells over freezing whenever it is charged: degrees short of it, of what its heater lifts"
)


def cold_charge_check(battery: Battery, coldest_c: float, coldest: Source) -> Check | None:
    """Whether a lithium bank may be charged with cells under 0 C; None for lead-acid.

    Its own guard may stop it, or a heater lift the cells; where neither does and the bank gets under 0 C, it does not hold.

    Source: makers' sheets (from memory); first-order heat balance, with the mass and the lag of the household's sums.

    Args:
        battery: The bank.
        coldest_c: The bank's coldest without a heater [C].
        coldest: Who says so.
    """
    if battery.kind != "lithium iron phosphate":
        return None
    charged_c = max(coldest_c, NO_CHARGE_UNDER_C) if battery.stops_cold_charge else coldest_c
    wanted = max(0.0, NO_CHARGE_UNDER_C - charged_c)
    lag_h, warm = battery.follows_air_s / 3600.0, battery.warm_wh_k
    lifts = battery.heater_w * lag_h / warm
    stops = (
        Step("coldest it is charged at: its own guard stops it under that", "Tc", "", charged_c, "C", source_of(battery, "stops_cold_charge")),
    )  # fmt: skip
    steps = (
        Step("the bank's coldest, unheated", "T", "", coldest_c, "C", coldest),
        *(stops if battery.stops_cold_charge else ()),
        Step("under 0 C (32 F)", "dT", f"max(0, 0 - ({charged_c:.1f}))", wanted, "K", UNDER_FREEZING),
        Step("its heater", "P", "", battery.heater_w, "W", source_of(battery, "heater_w")),
        Step("follows the air", "tau", "", lag_h, "h", source_of(battery, "follows_air_s")),
        Step("warms by a kelvin", "C", "", warm, "Wh/K", source_of(battery, "mass_kg")),
        Step("the heater lifts it", "dTh", f"{battery.heater_w:g} x {lag_h:g} / {warm:.1f}", lifts, "K", LIFTS),
    )  # fmt: skip
    working = Working(
        "battery: no charging under 0 C (32 F)", steps,
        ("Metal grows in cells charged cold, and one day shorts them. A heater that has failed guards nothing: the guard of the bank must stop the charge all the same.",),
    )  # fmt: skip
    return Check("battery", COLD_CHECK, wanted, lifts, "K", share(wanted, lifts), UNDER_FREEZING, working)  # fmt: skip


def cold_charge_ask(battery: Battery, check: Check) -> str:
    """What cures it where it does not hold."""
    watts = ceil(check.demand * battery.warm_wh_k / (battery.follows_air_s / 3600.0) - 1e-6)
    return (
        "Lithium that may be charged under 0 C (32 F). What cures it: a room that stays warmer (battery.temperature); "
        f"a heater of {watts} W or more in a lagged box (battery.heater); or its own guard, once its sheet says that it stops the charge and you have tried it (battery.stops_cold_charge = true)."
    )
