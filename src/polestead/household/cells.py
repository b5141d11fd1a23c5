"""The battery's equations, compiled.

Import it inside functions only: compiling machinery is slow to load.  The published symbols of each equation stand in its
own body; the sources are gathered in ``docs/method/household.md``.
"""

from __future__ import annotations

from math import exp, sqrt

from polestead.base.battery import (
    BRIM,
    accepted_at_slope_per_h,
    capacity_factor,
    charge_slope_v,
    iron_in_per_h,
    iron_ohm_growth,
    iron_out_per_h,
    iron_rest_v,
    iron_share,
    mean_accepted_a,
)
from polestead.base.compiled import compiled
from polestead.household.plan import Bank, HourOfTanks

_FLOAT_V = 2.25
# The inverter lets go below this.  Lead-acid: low enough not to count the slow tank a second time under a heavy load (ours);
# lithium: what cell makers allow (from memory).
_LEAD_CUT_OUT_V = 1.5
_IRON_CUT_OUT_V = 2.5
_HEAT_UNDER_C = 3.0  # a lithium bank's heater comes on below this when charge is wanted ...
_HEAT_TO_C = 5.5  # ... and lets go here, clear of the step in the charging limit at 5 C (both common, from memory)


@compiled
def compensated_v(absorb_v: float, battery_c: float) -> float:
    """Absorption voltage per cell, 5 mV per kelvin and cell against 25 C (a maker's .028 V per 10 F; seen).

    Args:
        absorb_v: At 25 C [V].
        battery_c: Of the battery [C].

    Returns:
        Set point [V].
    """
    return absorb_v + 0.005 * (25.0 - battery_c)


@compiled
def gassing_a_per_ah(cell_v: float, battery_c: float) -> float:
    """Current that makes gas instead of charge, per Ah of a flooded antimonial cell.

    Lander's form as in Schiffer et al. 2007, J. Power Sources 168:66 (from memory):
    I_gas = .020 A per 100 Ah exp(11 (V - 2.23) + .06 (T - 20)).

    Args:
        cell_v: V [V].
        battery_c: T [C].

    Returns:
        Current per Ah of the rating [A/Ah].

    Example:
        >>> round(100 * gassing_a_per_ah(2.45, 25.0), 2)
        0.3
    """
    return 2.0e-4 * exp(11.0 * (cell_v - 2.23) + 0.06 * (battery_c - 20.0))


@compiled
def first_tank_after_ah(
    hour: HourOfTanks, at_once_ah: float, held_ah: float, out_a: float
) -> float:
    """The tank that gives at once, after an hour of steady current.

    Args:
        hour: Of ``tanks.hour_of_tanks``.
        at_once_ah: q1 before [Ah].
        held_ah: q = q1 + q2 before [Ah].
        out_a: I, drawn; below zero while charging [A].

    Returns:
        q1 after [Ah]; both together hold q - I.
    """
    return hour.keeps * at_once_ah + hour.mixes * held_ah - hour.falls_per_a * out_a


@compiled
def tank_current_a(hour: HourOfTanks, from_ah: float, held_ah: float, to_ah: float) -> float:
    """Steady current that brings the first tank to a given content in one hour: ``first_tank_after_ah`` solved for I.

    Args:
        hour: Of ``tanks.hour_of_tanks``.
        from_ah: q1 now [Ah].
        held_ah: q1 + q2 now [Ah].
        to_ah: q1 wanted after the hour [Ah].

    Returns:
        Current drawn, below zero while charging [A].
    """
    return (hour.keeps * from_ah + hour.mixes * held_ah - to_ah) / hour.falls_per_a


@compiled
def out_of_reach_ah(bank: Bank, battery_c: float) -> float:
    """Charge that cold keeps from being drawn; it is not lost, and comes back with warmth."""
    if bank.lead:
        return bank.full_ah * max(1.0 - 1.0 / capacity_factor(battery_c), 0.0)
    if not bank.cold_limits:
        return 0.0
    return bank.full_ah * (1.0 - iron_share(battery_c))


@compiled
def most_in_a(bank: Bank, battery_c: float) -> float:
    """Largest charging current: the maker's, and for lithium none below 0 C (cell), .1 C to 5, .2 C to 10, .5 C above."""
    if bank.lead or not bank.cold_limits:
        return bank.most_in_a
    return min(bank.most_in_a, iron_in_per_h(battery_c) * bank.rated_ah)


@compiled
def _most_out_by_cold_a(bank: Bank, battery_c: float) -> float:
    if bank.lead or not bank.cold_limits:
        return 1e12
    return iron_out_per_h(battery_c) * bank.rated_ah


@compiled
def _ohm(bank: Bank, battery_c: float) -> float:
    return bank.cell_ohm * iron_ohm_growth(battery_c)


@compiled
def giving_line(bank: Bank, charge: float, battery_c: float) -> tuple[float, float]:
    """Cell voltage while giving, V = a - b I.

    Lead-acid: Copetti, Lorenzo & Chenlo 1993 (constants from memory):
    V = 2.085 - .12 (1 - s) - (I/C10)(4/(1 + I^1.3) + .27/s^1.5 + .02)(1 - .007 (T - 25)); the first term in the bracket is not
    free of units and is taken at the twenty-hour current of a 100 Ah cell, .45.

    Returns:
        a [V] and b [V/A].
    """
    if bank.lead:
        s = max(charge, 0.05)
        bracket = (0.45 + 0.27 / (s * sqrt(s)) + 0.02) * (1.0 - 0.007 * (battery_c - 25.0))
        return 2.085 - 0.12 * (1.0 - s), bracket / bank.ten_hour_ah
    rest_v = iron_rest_v(charge)
    return rest_v - bank.lag_v, _ohm(bank, battery_c)


@compiled
def taking_line(
    bank: Bank, charge: float, battery_c: float, equalizing: bool = False
) -> tuple[float, float, float]:
    """Cell voltage while taking, V = a + b I but never over the set point.

    The set point of lead-acid is absorption, float once brim-full, or the equalizing charge's.

    Returns:
        a [V], b [V/A], set point [V].
    """
    if bank.lead:
        set_v = bank.absorb_v if charge < BRIM else (bank.equal_v if equalizing else _FLOAT_V)
        slope = charge_slope_v(charge, battery_c) / bank.full_ah
        return 2.0 + 0.16 * charge, slope, compensated_v(set_v, battery_c)
    rest_v = iron_rest_v(charge)
    return rest_v + bank.lag_v, _ohm(bank, battery_c), 3.45


@compiled
def taken(
    bank: Bank, q: float, battery_c: float, source_w: float, equalizing: bool = False
) -> tuple[float, float, float, float, bool]:
    """Charge for an hour from a source of power.

    Args:
        bank: The battery.
        q: Charge in both tanks [Ah].
        battery_c: Of the battery [C].
        source_w: What is offered [W].
        equalizing: Whether the controller holds the equalizing voltage.

    Returns:
        Power taken [W], current in [A], of it stored [A], bank voltage [V], whether the bank was the limit.
    """
    charge = q / bank.full_ah
    a, b, set_v = taking_line(bank, charge, battery_c, equalizing)
    per_cell_w = source_w / bank.cells
    root = sqrt(a * a + 4.0 * b * per_cell_w)
    offered = 2.0 * per_cell_w / (a + root)
    if a + b * offered > set_v:
        offered = per_cell_w / set_v
    most = most_in_a(bank, battery_c)
    into = min(offered, most)
    cell_v = min(a + b * into, set_v)
    gas = 0.0
    if bank.lead:
        gas = min(bank.gas_share * bank.rated_ah * gassing_a_per_ah(cell_v, battery_c), into)
        per_h = accepted_at_slope_per_h(set_v, charge, b * bank.full_ah)
    elif bank.taper_from < 1.0:
        per_h = most / ((1.0 - bank.taper_from) * bank.full_ah)
    else:
        per_h = 1e12
    wanted = (into - gas) * bank.returned
    room = bank.full_ah - q
    stored = mean_accepted_a(wanted, room, per_h) if per_h < 1e11 else wanted
    stored = max(min(stored, room), 0.0)
    if stored < wanted:
        cell_v = max(cell_v, set_v) if bank.lead else cell_v
    total = stored / bank.returned + gas
    power = min(total * cell_v * bank.cells, source_w)
    limited = stored < wanted * (1.0 - 1e-12) or into < offered
    return power, total, stored, cell_v * bank.cells, limited


@compiled
def given(
    bank: Bank, q1: float, q: float, battery_c: float, locked_ah: float, need_w: float
) -> tuple[float, float, float]:
    """Give power for an hour, as far as it goes: first tank dry, cold keeping the rest, floor reached, or voltage too low.

    Args:
        bank: The battery.
        q1: Charge in the first tank [Ah].
        q: Charge in both [Ah].
        battery_c: Of the battery [C].
        locked_ah: Of ``out_of_reach_ah`` at this temperature [Ah].
        need_w: What is asked for [W].

    Returns:
        Power given [W], current out [A], bank voltage [V].
    """
    a, b = giving_line(bank, q / bank.full_ah, battery_c)
    per_cell_w = need_w / bank.cells
    inside = a * a - 4.0 * b * per_cell_w
    current = a / (2.0 * b) if inside < 0.0 else 2.0 * per_cell_w / (a + sqrt(inside))
    locked = locked_ah
    tanks = tank_current_a(bank.hour, q1 - bank.at_once * locked, q - locked, 0.0)
    most = min(tanks, q - max(bank.floor * bank.full_ah, locked))
    most = min(most, _most_out_by_cold_a(bank, battery_c))
    if b > 0.0:
        most = min(most, (a - (_LEAD_CUT_OUT_V if bank.lead else _IRON_CUT_OUT_V)) / b)
    current = max(min(current, most), 0.0)
    cell_v = a - b * current
    return current * cell_v * bank.cells, current, cell_v * bank.cells


@compiled
def heater_w(bank: Bank, battery_c: float, wanted: bool) -> float:
    """What the heater of a lithium bank draws in an hour: on when charge is wanted and the cells are too cold to take it.

    Args:
        bank: The battery.
        battery_c: Before [C].
        wanted: Whether sun or engine would charge.

    Returns:
        Mean power [W]; no more than brings the bank to where the heater lets go.
    """
    if not wanted or battery_c >= _HEAT_UNDER_C:
        return 0.0
    return min(bank.heater_w, (_HEAT_TO_C - battery_c) * bank.warm_wh_k)
