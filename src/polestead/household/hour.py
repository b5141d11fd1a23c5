"""One hour of the house, compiled: who gives, who takes, what is left over."""

from __future__ import annotations

from polestead.base.compiled import compiled
from polestead.household.cells import given, taken
from polestead.household.engine import may_be_heard
from polestead.household.plan import Bank, Floats, Inside, Motor, Waiting

Hour = tuple[float, float, float, float, float, float, float, float, float, float, bool]

WAITS_FOR_CHARGE = 0.85  # a use that waits for sun runs from here on; ours


@compiled
def one_hour(
    bank: Bank,
    inside: Inside,
    motor: Motor,
    q1: float,
    q: float,
    battery_c: float,
    locked_ah: float,
    sun_w: float,
    uses_w: float,
    engine_share: float,
    engine_w: float,
    heater_w: float = 0.0,
    equalizing: bool = False,
) -> Hour:
    """Balance one hour at the battery's terminals: sun first to the house, then to the battery, then the engine.

    Args:
        bank: The battery.
        inside: The inverter.
        motor: The engine.
        q1: Charge in the first tank [Ah].
        q: Charge in both [Ah].
        battery_c: Of the battery [C].
        locked_ah: What cold keeps from being drawn at this temperature [Ah].
        sun_w: Sun after the controllers [W].
        uses_w: What the uses ask for [W].
        engine_share: 1 with the engine running, 0 without.
        engine_w: What it can give in this air [W].
        heater_w: What the bank's heater draws [W].
        equalizing: Whether the controller holds the equalizing voltage.

    Returns:
        Power into the battery and out of it [W], current in, of it stored, current out [A], short [W, at the uses],
        drawn by the inverter [W, direct current], sun not taken [W], engine to charger [W, direct current],
        bank voltage [V], whether the bank was the limit.
    """
    by_engine = engine_share * min(uses_w, engine_w)
    by_inverter = min(uses_w - by_engine, inside.power_w)
    short = uses_w - by_engine - by_inverter
    draw = by_inverter * (1.0 / inside.efficiency + inside.curve_per_w * by_inverter)
    draw += inside.idle_w + bank.own_draw_w + heater_w
    spare_w = (engine_w - min(uses_w, engine_w)) * motor.charger_efficiency
    offer = engine_share * min(motor.charger_w, spare_w)
    source = sun_w + offer - draw
    if source >= 0.0:
        into, amps, stored, volts, limited = taken(bank, q, battery_c, source, equalizing)
        left = source - into
        unused = min(left, offer)
        return (
            into,
            0.0,
            amps,
            stored,
            0.0,
            short,
            draw,
            left - unused,
            offer - unused,
            volts,
            limited,
        )
    gave, amps, volts = given(bank, q1, q, battery_c, locked_ah, -source)
    missing = max(-source - gave, 0.0)
    if missing <= 1e-9 * draw:  # rounding only
        missing = 0.0
    short += min(by_inverter, missing * inside.efficiency)
    return 0.0, gave, 0.0, 0.0, amps, short, draw - missing, 0.0, offer, volts, False


@compiled
def in_turn(first: Hour, then: Hour, share: float) -> Hour:
    """An hour of which a share goes like one hour and the rest like another; what is kept in balance stays so."""
    rest = 1.0 - share
    return (
        first[0] * share + then[0] * rest,
        first[1] * share + then[1] * rest,
        first[2] * share + then[2] * rest,
        first[3] * share + then[3] * rest,
        first[4] * share + then[4] * rest,
        first[5] * share + then[5] * rest,
        first[6] * share + then[6] * rest,
        first[7] * share + then[7] * rest,
        first[8] * share + then[8] * rest,
        first[9] * share + then[9] * rest,
        first[10] or then[10],
    )


@compiled
def waiting_uses_w(
    waiting: Waiting,
    owed_wh: Floats,
    put_off_days: Floats,
    day: int,
    hour: int,
    spare_w: float,
    charge: float,
) -> tuple[float, float]:
    """What the uses that wait for sun draw in this hour; the two arrays are kept up to date.

    A use runs within its hours when the sun left over covers it and the charge is high, or, put off long enough, in the last
    hours it has.

    Args:
        waiting: The uses.
        owed_wh: Energy each still wants [uses].
        put_off_days: Days each has been put off [uses].
        day: Of the working year.
        hour: Of the day.
        spare_w: Sun left over, at the sockets [W].
        charge: Of the battery.

    Returns:
        All they draw, and of it without sun [W].
    """
    drawn, without_sun = 0.0, 0.0
    for k in range(owed_wh.size):
        if hour == 0 and waiting.wanted[k, day]:
            put_off_days[k] = put_off_days[k] + 1.0 if owed_wh[k] > 0.0 else 0.0
            owed_wh[k] += waiting.day_wh[k]
        if owed_wh[k] <= 0.0:
            continue
        if not may_be_heard(float(hour), waiting.from_hour[k], waiting.to_hour[k]):
            continue
        run = min(waiting.power_w[k], owed_wh[k])
        left_h = (waiting.to_hour[k] - hour) % 24.0
        left_h = 24.0 if left_h == 0.0 else left_h
        if spare_w >= run and charge >= WAITS_FOR_CHARGE:
            spare_w -= run
        elif put_off_days[k] >= waiting.patience_days[k] and (
            (left_h - 1.0) * waiting.power_w[k] < owed_wh[k]
        ):
            without_sun += run
        else:
            continue
        drawn += run
        owed_wh[k] -= run
        if owed_wh[k] < 1e-6:
            owed_wh[k] = 0.0
    return drawn, without_sun
