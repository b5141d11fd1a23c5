"""Stand between the published rows and the rooms `modules`, `household`."""

from __future__ import annotations

import numpy as np

from polestead.base.battery import acceptance_per_h, capacity_factor, freezes_at_c
from polestead.homestead.model import Module
from polestead.household import cells, hour
from polestead.household.bank import bank_of
from polestead.household.fuel import heat_wh_per_l
from polestead.household.plan import Bank, Inside, Motor
from polestead.modules.power import cold_voltage_v
from tests.household.fabricated import battery

NO_MOTOR = Motor(False, 0.0, 0.0, 1.0, 0.0, 1.0, 0.0, 0.0, 24.0, 0.0)


def string_voltage_v(
    open_circuit_v: float, per_k: float, cell_c: float, in_series: int = 1
) -> float:
    module = Module.model_construct(
        open_circuit_voltage_v=open_circuit_v, voltage_change_per_k=per_k
    )
    return cold_voltage_v(module, in_series, cell_c)


def most_in_series(open_circuit_v: float, per_k: float, cell_c: float, limit_v: float) -> int:
    return int(limit_v // string_voltage_v(open_circuit_v, per_k, cell_c))


def capacity_factors(battery_c: np.ndarray) -> list[float]:
    return [capacity_factor(float(t)) for t in battery_c]


def _lasts_h(bank: Bank, out_a: float) -> float:
    """Hours a full bank carries a steady current, by the hour as the house runs it (the last hour in proportion)."""
    inside = Inside(1e9, 1.0, 0.0)
    q1, q, hours = bank.at_once * bank.full_ah, bank.full_ah, 0.0
    while True:
        a, b = cells.giving_line(bank, q / bank.full_ah, 25.0)
        need_w = out_a * (a - b * out_a) * bank.cells
        given_a = hour.one_hour(bank, inside, NO_MOTOR, q1, q, 25.0, 0.0, 0.0, need_w, 0.0, 0.0)[4]
        if given_a < out_a * (1.0 - 1e-9):
            return hours + given_a / out_a
        q1 = cells.first_tank_after_ah(bank.hour, q1, q, given_a)
        q, hours = q - given_a, hours + 1.0


def given_at_steady_load(hours: np.ndarray) -> list[float]:
    """What a full bank gives, over its 20 h rating, when the steady current is such that it lasts so many hours."""
    bank = bank_of(battery(capacity_ah=100.0, lowest_charge=0.0))

    def capacity(wanted_h: float) -> float:
        low, high = 0.0, 100.0
        for _ in range(40):
            middle = 0.5 * (low + high)
            low, high = (middle, high) if _lasts_h(bank, middle) > wanted_h else (low, middle)
        return low * wanted_h / 100.0

    return [capacity(float(h)) for h in hours]


def hours_to_charge(start: float, end: float, set_v: float) -> float:
    """Hours of plentiful sun from one charge to another, by the hour as the house runs it (the last hour in proportion)."""
    bank = bank_of(battery(absorb_v_per_cell=set_v, charge_limit_a=1e6))
    inside = Inside(1e6, 1.0, 0.0)
    q1, q = bank.at_once * start * bank.full_ah, start * bank.full_ah
    hours = 0.0
    while True:
        told = hour.one_hour(bank, inside, NO_MOTOR, q1, q, 25.0, 0.0, 1e5, 0.0, 0.0, 0.0)
        first, both = cells.first_tank_after_ah(bank.hour, q1, q, -told[3]), q + told[3]
        before, after = 1.0 - q / bank.full_ah, 1.0 - both / bank.full_ah
        if after <= 1.0 - end:
            return hours + float(np.log(before / (1.0 - end)) / np.log(before / after))
        q1, q, hours = min(first, bank.at_once * bank.full_ah), both, hours + 1.0


def accepted_at(set_v: float, charges: np.ndarray) -> list[float]:
    """Current the acceptance gives, over the ten-hour capacity [1/h]."""
    return [acceptance_per_h(set_v, float(s), 25.0) * (1.0 - float(s)) for s in charges]


def gassing_a_per_100_ah(cell_v: np.ndarray) -> list[float]:
    return [100.0 * cells.gassing_a_per_ah(float(v), 25.0) for v in cell_v]


def set_point_of_twelve_volts_v(set_v: float, set_at_f: float, battery_f: float) -> float:
    """A 12 V set point given at one temperature, worked at another."""
    at, now = ((f - 32.0) / 1.8 for f in (set_at_f, battery_f))
    at_25 = set_v / 6.0 - (cells.compensated_v(0.0, at) - cells.compensated_v(0.0, 25.0))
    return 6.0 * cells.compensated_v(at_25, now)


def freezing_points_f(gravities: np.ndarray) -> list[float]:
    return [freezes_at_c((float(g) - 1.10) / 0.165) * 1.8 + 32.0 for g in gravities]


def heat_kwh_per_gal(fuel: str) -> float:
    return heat_wh_per_l(fuel) * 3.785411784 / 1000.0


def desoto(light_w_m2: float, cell_c: float) -> list[float]:
    """Power, open and working voltage of the diode with given numbers."""
    from polestead.modules.diode import Diode, diode_power_w, diode_voltage_v

    diode = Diode(1.5, 9.5, 2e-10, 0.3, 300.0, 1.121, 0.004, 264.91, 0.0, 0.0)
    power = float(diode_power_w(diode, np.array([light_w_m2]), np.array([cell_c]))[0])
    return [power, *diode_voltage_v(diode, light_w_m2, cell_c)]
