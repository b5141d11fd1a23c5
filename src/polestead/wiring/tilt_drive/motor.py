"""Battery, wire and motor in one loop of current: volts that reach the motor, how fast it then runs; compiled.

Import it inside functions or in kernel files only: compiling machinery is slow to load.
"""

from __future__ import annotations

import numpy as np

from polestead.base.battery import along, iron_ohm_growth, iron_rest_v
from polestead.base.compiled import compiled
from polestead.wiring.tilt_drive.numbers import Cell, MotorNumbers

# Lead-acid resistance over its own at 25 C (typical, from memory).
_LEAD_OHM_C = np.array([-40.0, -20.0, 0.0, 25.0])
_LEAD_OHM = np.array([3.0, 2.0, 1.4, 1.0])
# Cold grease: a loaded drive runs at half its speed (common practice, no source), reached here at -20 C, gone at 20 C (ours).
_STIFF_C = np.array([-20.0, 20.0])
_STIFF = np.array([2.0, 1.0])
CRAWL = 0.25  # of its speed: slower, it is taken not to move at all; ours
NEVER_S = 1e12


@compiled
def rest_v(cell: Cell, charge: float) -> float:
    """Battery at rest: lead-acid 2.085 - .12 (1 - s) a cell (Copetti et al. 1993, from memory), lithium by its table.

    Args:
        cell: The battery.
        charge: s.

    Returns:
        Of the whole battery [V].
    """
    if cell.lead:
        return cell.cells * (2.085 - 0.12 * (1.0 - charge))
    return cell.cells * iron_rest_v(charge)


@compiled
def battery_ohm(cell: Cell, battery_c: float) -> float:
    """Resistance of the battery, grown in the cold [ohm]."""
    growth = along(battery_c, _LEAD_OHM_C, _LEAD_OHM) if cell.lead else iron_ohm_growth(battery_c)
    return cell.ohm * growth


@compiled
def stiff(air_c: float) -> float:
    """How many times as long cold grease makes a move: 1 from 20 C, 2 from -20 C down.

    Example:
        >>> stiff(0.0), stiff(-30.0)
        (1.5, 2.0)
    """
    return along(air_c, _STIFF_C, _STIFF)


@compiled
def motor_v(cell: Cell, motor: MotorNumbers, charge: float, battery_c: float) -> float:
    """Volts at the motor while it runs at its rated load: rest less what battery and wire take.

    Source: Ohm's law, V = E - I (R_battery + R_wire).
    """
    lost = motor.running_a * (battery_ohm(cell, battery_c) + motor.wire_ohm)
    return rest_v(cell, charge) - lost


@compiled
def speed_share(motor: MotorNumbers, at_motor_v: float) -> float:
    """Speed at the rated load over the rated speed, by the volts that reach the motor.

    A motor with a steady field turns as fast as what is left of its volts behind its winding: n / n0 = (V - I R) / (V0 - I R),
    R = V0 / I_stalled; at a given load the current is the same.  Source: equations of the DC machine with a steady field.

    Args:
        motor: Motor and wire.
        at_motor_v: V [V].

    Returns:
        0 where it would not turn.

    Example:
        12 V, 14 A running, 42 A stalled: I R = 4 V, so a tenth of the volts is 15 % of the speed.

        >>> round(speed_share(MotorNumbers(12.0, 14.0, 12.0 / 42.0, 0.0, 144.0), 10.8), 3)
        0.85
    """
    inside_v = motor.running_a * motor.ohm
    if motor.nominal_v <= inside_v:  # stalls at its rated load
        return 0.0
    return max(at_motor_v - inside_v, 0.0) / (motor.nominal_v - inside_v)


@compiled
def travel_s(cell: Cell, motor: MotorNumbers, charge: float, battery_c: float, air_c: float) -> float:  # fmt: skip
    """Seconds of the whole stroke: rated seconds, longer by low volts and by stiff grease.

    Returns:
        [s]; endless (1e12) where it would only crawl.
    """
    share = speed_share(motor, motor_v(cell, motor, charge, battery_c))
    if share < CRAWL:
        return NEVER_S
    return motor.full_travel_s * stiff(air_c) / share
