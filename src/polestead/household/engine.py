"""The engine, compiled: when it may be heard, whether it starts, what thin, hot or cold air and its tank leave of it."""

from __future__ import annotations

import numpy as np

from polestead.base.battery import along
from polestead.base.compiled import compiled
from polestead.household.plan import Motor

# Air temperatures (32, 20, 10, 0, -10, -30, -40 F) at which a generator manual sizes the tank, coldest first [C].
TANK_C = np.array([-40.0, -34.444, -23.333, -17.778, -12.222, -6.667, 0.0])
# Boil-off by how full the tank is, half full 1: the wetted part of its skin (a heater manual's 30 % row; the rest from memory).
_FULL = np.array([0.05, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6])
_WETTED = np.array([0.4, 0.5, 0.67, 0.75, 0.89, 1.0, 1.11])
_FILLED_TO = 0.8  # of the tank's own volume: a propane tank is full there
_COLD_C, _MILD_C = -20.0, 0.0
LUCKS = 2147483647  # 2^31 - 1


@compiled
def may_be_heard(hour: float, from_hour: float, to_hour: float) -> bool:
    """Whether the engine may be heard in the hour that starts now; a window may run over midnight."""
    if from_hour <= to_hour:
        return from_hour <= hour and hour + 1.0 <= to_hour
    return hour >= from_hour or hour + 1.0 <= to_hour


@compiled
def start_chance(in_cold: float, air_c: float) -> float:
    """Chance that the engine starts: the owner's figure at -20 C and below, certain at 0 C, a straight line between.

    The form is ours; nobody publishes such a curve for a set in an unheated shed.

    Args:
        in_cold: At -20 C and below.
        air_c: Outdoors [C].

    Returns:
        Chance, 0 to 1.

    Example:
        >>> start_chance(0.8, -10.0), start_chance(0.8, 5.0)
        (0.9, 1.0)
    """
    mild = min(max((air_c - _COLD_C) / (_MILD_C - _COLD_C), 0.0), 1.0)
    return in_cold + (1.0 - in_cold) * mild


@compiled
def next_luck(luck: int) -> int:
    """The next of a run of evenly spread numbers below 2^31 - 1: the multiplier of Park & Miller 1988, Comm. ACM 31:1192.

    Args:
        luck: The last one, 1 to 2^31 - 2.

    Example:
        >>> next_luck(1)
        48271
    """
    return (luck * 48271) % LUCKS


@compiled
def tries_to_start(motor: Motor, air_c: float, luck: int) -> tuple[bool, int]:
    """Whether the engine starts when it is tried in this air, and the luck that is left.

    Args:
        motor: The engine.
        air_c: Outdoors [C].
        luck: Of ``next_luck``; not touched by an engine that always starts.

    Example:
        An engine without a chance does not start, and the next try has other luck.

        >>> from polestead.household.plan import Motor
        >>> never = Motor(True, 5e3, 3e3, 0.85, 0.6, 0.8, 0.5, 0.0, 24.0, 1.0, start_in_cold=0.0)
        >>> tries_to_start(never, -30.0, 1)
        (False, 48271)
    """
    if motor.start_in_cold >= 1.0:
        return True, luck
    luck = next_luck(luck)
    return luck < start_chance(motor.start_in_cold, air_c) * LUCKS, luck


@compiled
def boiled_off_l_h(motor: Motor, air_c: float, level_l: float) -> float:
    """Fuel an outdoor propane tank can boil off, by the cold and by how full it is.

    Source: tank sizes by withdrawal and temperature of a generator manual (seen), for a tank half full; other levels by the
    wetted skin.  Between short runs the liquid gives heat of its own: careful by that much.

    Args:
        motor: The engine and its tank.
        air_c: Outdoors [C].
        level_l: In the tank [l].

    Returns:
        [l/h]; endless where no tank of propane is named.
    """
    if motor.boils_l_h[0] == np.inf:
        return np.inf
    half_full = along(air_c, TANK_C, motor.boils_l_h)
    return half_full * along(_FILLED_TO * level_l / motor.tank_l, _FULL, _WETTED)


@compiled
def engine_power_w(motor: Motor, air_c: float, level_l: float) -> float:
    """What the engine can give in this hour's air from this tank.

    1 % less for each 10 F over 77 F (a generator manual, seen); no more than the tank boils off; nothing from a tank that would
    not last the hour.

    Args:
        motor: The engine.
        air_c: Outdoors [C].
        level_l: In the tank [l].

    Returns:
        [W]; 0 when it cannot run.
    """
    power = motor.power_w * (1.0 - 0.01 * max(air_c - 25.0, 0.0) / 5.5556)
    if motor.tank_l == np.inf:
        return power
    if level_l < motor.burns_l_h + motor.burns_l_wh * power:
        return 0.0
    boils = boiled_off_l_h(motor, air_c, level_l)
    if motor.burns_l_h + motor.burns_l_wh * power > boils:
        power = max((boils - motor.burns_l_h) / motor.burns_l_wh, 0.0)
    return power
