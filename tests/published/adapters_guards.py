"""Columns of the tables of guards and battery, in the unit and order they are published in."""

from __future__ import annotations

from polestead.base.table import table
from polestead.wiring.bank.hydrogen import HYDROGEN_M3_PER_AH, opening_m2
from polestead.wiring.bank.set_points import compensated_bank_v
from polestead.wiring.guards.earth import earth_by_live_mm2, earth_wire_of


def gauge(size: str) -> float:
    """1/0 is 0, 2/0 is -1 and so on."""
    number = size.removesuffix(" AWG")
    return 1.0 - float(number.removesuffix("/0")) if number.endswith("/0") else float(number)


def earth_gauges(breakers_a, metal: str) -> list[float]:
    return [gauge(earth_wire_of(float(a), metal)) for a in breakers_a]


def earth_mm2(live_mm2) -> list[float]:
    return [earth_by_live_mm2(float(s)) for s in live_mm2]


def gassing_ma_per_ah(kind: str, charges: list[str]) -> list[float]:
    rows = {(r["kind"], r["charge"]): float(r["ma_per_ah"]) for r in table("wiring", "bank/gas")}
    return [rows[kind, charge] for charge in charges]


def hydrogen_l_per_ah() -> float:
    return HYDROGEN_M3_PER_AH * 1000.0


def opening_for_air_cm2(air_m3_h: float) -> float:
    return opening_m2(air_m3_h) * 1e4


def set_point_at(volts_26_7_c: float, cells: int, fahrenheit: float) -> float:
    """A set-point published at 80 F, taken to another temperature."""
    at_25 = volts_26_7_c / cells + 0.005 * (80.0 - 77.0) / 1.8
    return compensated_bank_v(at_25, cells, (fahrenheit - 32.0) / 1.8)


def rod_current_a(volts: float) -> float:
    from polestead.wiring.guards.electrode import electrode_of

    return electrode_of("NEC", volts, 1000.0, 20.0, 0.1).rod_a
