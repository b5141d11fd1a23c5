"""The house year after year, compiled.

Import it inside functions only: compiling machinery is slow to load.  A twin in plain Python stands in the tests and gives the
same to 1e-9 of the bank's capacity.
"""

from __future__ import annotations

from math import exp, isfinite, isnan, log

import numpy as np
from numpy.typing import NDArray

from polestead.base.battery import freezes_at_c
from polestead.base.compiled import compiled
from polestead.household.cells import (
    compensated_v,
    first_tank_after_ah,
    heater_w,
    out_of_reach_ah,
)
from polestead.household.engine import engine_power_w, may_be_heard, tries_to_start
from polestead.household.hour import in_turn, one_hour, waiting_uses_w
from polestead.household.plan import (
    AH_AMPS,
    AH_KELVIN,
    ARRAYS_LEFT,
    CHARGE_LEFT,
    DARK_H,
    DARK_WH,
    DAWN,
    DAWNS,
    DRY_H,
    ENGINE_H,
    ENGINE_WH,
    FAILED_STARTS,
    FILLS,
    FREEZE_MARGIN,
    FULL,
    GAS_AH,
    HEATER_WH,
    HELD_BACK,
    LONGEST_DARK,
    LONGEST_SINCE_FULL,
    LOWEST,
    MONTHLY,
    OUT_AH,
    STARTS,
    SUN_USED,
    TANK_LEFT,
    TERMINALS_LEFT,
    TOO_SLOW,
    UNDER_HALF_H,
    USES_WH,
    WAITING_WH,
    WITHOUT_SUN_WH,
    WORN_AH,
    YEARLY,
    Floats,
    Plan,
)

_TINY_W = 1e-3
_UNDER_HALF = 0.5 - exp(
    -9.0
)  # a bank kept at half is not under it; nor can a floor be written that lies on it
_DOUBLES_IN_10_K = log(2.0) / 10.0
_WATER_FREEZES_UNDER_K = 2.8  # no acid freezes warmer than this under 0 C


@compiled
def run_years(
    plan: Plan,
    sun_w: NDArray[np.float32],
    air_c: NDArray[np.float32],
    luck: int = 1,
    starts: Floats | None = None,
    from_h: int = 0,
    bank_c: float = np.inf,
    tank_l: float = np.inf,
) -> tuple[Floats, Floats, Floats]:
    """All years one after the other, the first of them twice (the first time only to find the state it starts with).

    Or, with ``starts``, each by itself from a charge of its own, at rest and with the engine off: some days ahead, many times.

    Args:
        plan: The house.
        sun_w: Power of the arrays on each controller [controllers, years, hours].
        air_c: Outdoors [years, hours].
        luck: Seed of the engine that may not start, 1 to 2^31 - 2.
        starts: Charge each year starts from [years]; None: where the year before ended.
        from_h: With ``starts``, the hour in which it starts; the hours before it are left out.
        bank_c: With ``starts``, temperature of the bank; not finite: as outdoors, or of its room.
        tank_l: With ``starts``, fuel in the tank; not finite: full.

    Returns:
        By month [MONTHLY, years, 12 or as many columns as the plan has] and by year [YEARLY, years], rows as named in ``plan``;
        charge at the start of each hour [years, hours].
    """
    bank, inside, motor, waiting = plan.bank, plan.inside, plan.motor, plan.waiting
    uses_w, month, hour_of_day = plan.uses_w, plan.month, plan.hour_of_day
    column = plan.column
    limits_a, efficiencies = plan.limits_a, plan.efficiencies
    some_wait = waiting.power_w.size > 0
    controllers, years, hours = sun_w.shape
    by_month = np.zeros((MONTHLY, years, max(column.max() + 1, 12)))
    by_year = np.zeros((YEARLY, years))
    charges = np.zeros((years, hours))
    owed_wh, put_off = np.zeros(waiting.power_w.size), np.zeros(waiting.power_w.size)
    q = 0.8 * bank.full_ah
    q1 = bank.at_once * q
    shed = isnan(bank.room_c)
    battery_c = bank.room_c
    if shed:
        battery_c = air_c[0, : min(24, hours)].astype(np.float64).mean()
    follow = 1.0 - exp(-1.0 / bank.lag_h)
    changing = shed or bank.heater_w > 0.0
    standing = bank.self_per_h * exp(_DOUBLES_IN_10_K * (battery_c - 20.0))
    locked_ah = out_of_reach_ah(bank, battery_c)
    volts = bank.cells * (2.0 if bank.lead else 3.2)
    running, airing, ran_h, since_ran_h, stuck_h = False, False, 0.0, 0.0, 0.0
    since_full_h, dark_run_h, since_equal_h, equal_left_h = 0.0, 0.0, 0.0, 0.0
    level_l = motor.tank_l
    low = min(motor.call_always_at + 0.05, motor.let_go_at)

    for turn in range(-1, years):
        y = max(turn, 0)
        if turn == 0:
            by_month[:, 0, :] = 0.0
        if starts is not None:
            if turn < 0:
                continue
            q = starts[y] * bank.full_ah
            q1 = bank.at_once * q
            if shed:
                battery_c = air_c[y, : min(24, hours)].astype(np.float64).mean()
            if isfinite(bank_c):
                battery_c = bank_c
            standing = bank.self_per_h * exp(_DOUBLES_IN_10_K * (battery_c - 20.0))
            locked_ah = out_of_reach_ah(bank, battery_c)
            running, airing, ran_h, since_ran_h, stuck_h = False, False, 0.0, 0.0, 0.0
            since_full_h, dark_run_h, since_equal_h, equal_left_h = 0.0, 0.0, 0.0, 0.0
            level_l = min(tank_l, motor.tank_l) if isfinite(tank_l) else motor.tank_l
            put_off[:] = 0.0
            for k in range(owed_wh.size):
                owed_wh[k] = waiting.day_wh[k] if waiting.wanted[k, from_h // 24] else 0.0
        told = np.zeros(YEARLY)
        told[LOWEST] = 1.0
        told[FREEZE_MARGIN] = np.inf
        start_ah, in_ah, out_ah, lost_ah = q, 0.0, 0.0, 0.0
        start_l, filled_l, burnt_l = level_l, 0.0, 0.0
        for h in range(from_h if starts is not None else 0, hours):
            m, b, clock = month[h], column[h], hour_of_day[h]
            air = air_c[y, h]

            # Sun on the controllers, at the bank's voltage of the hour before.
            offered, capped = 0.0, 0.0
            for c in range(controllers):
                power = sun_w[c, y, h] * efficiencies[c]
                offered += power
                capped += min(power, limits_a[c] * volts)

            # The bank: its temperature, its heater, what it loses standing.
            heat_w = 0.0
            if shed:
                battery_c += (air - battery_c) * follow
            elif bank.heater_w > 0.0:
                battery_c += (bank.room_c - battery_c) * follow
            if bank.heater_w > 0.0:
                heat_w = heater_w(bank, battery_c, running or capped > inside.idle_w)
                battery_c += heat_w / bank.warm_wh_k
            charge = q / bank.full_ah
            charges[y, h] = charge
            if clock == 6:
                by_month[DAWN, y, b] += charge
                by_month[DAWNS, y, b] += 1.0
            if changing:
                if clock == 0:  # a bank's temperature follows its air over a day
                    standing = bank.self_per_h * exp(_DOUBLES_IN_10_K * (battery_c - 20.0))
                locked_ah = out_of_reach_ah(bank, battery_c)
            lost_ah += q * standing
            q1 -= q1 * standing
            q -= q * standing
            if bank.equal_every_h > 0.0:
                since_equal_h += 1.0
                if since_equal_h >= bank.equal_every_h and equal_left_h <= 0.0:
                    equal_left_h = bank.equal_h
            equalizing = equal_left_h > 0.0

            # What the house asks for.
            uses = uses_w[h]
            if some_wait:
                spare_w = (capped - inside.idle_w - bank.own_draw_w - heat_w) * inside.efficiency
                spare_w = min(spare_w, inside.power_w) - uses
                more, sunless = waiting_uses_w(
                    waiting, owed_wh, put_off, h // 24, clock, spare_w, charge
                )
                uses += more
                told[WAITING_WH] += more
                told[WITHOUT_SUN_WH] += sunless

            # The engine: whether it can run, is called, starts.
            engine_w, able, asked, heard, started = 0.0, False, False, True, False
            if motor.present:
                if h > 0 and m == motor.fill_month and month[h - 1] != m:
                    filled_l += motor.tank_l - level_l
                    level_l = motor.tank_l
                    told[FILLS] += 1.0
                heard = may_be_heard(float(clock), motor.heard_from_hour, motor.heard_to_hour)
                stuck_h -= 1.0
                called = (heard and charge <= motor.call_at) or charge <= motor.call_always_at
                due = (
                    not called
                    and heard
                    and motor.airing_every_h > 0.0
                    and since_ran_h >= motor.airing_every_h
                )
                if running or called or due:  # else nobody asks what it could give
                    asked = True
                    engine_w = engine_power_w(motor, air, level_l)
                    able = engine_w > 0.0 and stuck_h <= 0.0
                    running = running and able
                    if not running:
                        airing = due
                        if called and engine_w <= 0.0:
                            told[DRY_H] += 1.0
                        if able and (called or due):
                            able, luck = tries_to_start(motor, air, luck)
                            started = able
                            if not able:
                                stuck_h = motor.mended_h
                                told[FAILED_STARTS] += 1.0
                        running = started
            share = 1.0 if running else 0.0
            result = one_hour(
                bank, inside, motor, q1, q, battery_c, locked_ah, capped, uses, share, engine_w, heat_w, equalizing
            )  # fmt: skip
            if motor.present and not running and not asked and result[5] > _TINY_W:
                engine_w = engine_power_w(motor, air, level_l)
                able = engine_w > 0.0 and stuck_h <= 0.0
            if able and not running and result[5] > _TINY_W:
                alone = result
                result = one_hour(
                    bank, inside, motor, q1, q, battery_c, locked_ah, capped, uses, 1.0, engine_w, heat_w, equalizing
                )  # fmt: skip
                if result[5] < alone[5]:
                    able, luck = tries_to_start(motor, air, luck)
                    if able:
                        running, started, airing, share = True, True, False, 1.0
                    else:
                        result = alone
                        stuck_h = motor.mended_h
                        told[FAILED_STARTS] += 1.0
                else:
                    result = alone
            since_ran_h += 1.0
            if running:
                since_ran_h = 0.0
                if started:
                    ran_h = 0.0
                least_h = motor.airing_h if airing else motor.shortest_run_h
                must_h = min(max(least_h - ran_h, 0.0), 1.0)
                target = -1.0 if airing else (motor.let_go_at if heard else low)
                rise = (result[3] - result[4]) / bank.full_ah
                now = q / bank.full_ah
                stop = False
                if now >= target:
                    share, stop = must_h, True
                elif now + rise >= target:
                    share, stop = max((target - now) / rise, must_h), True
                if share < 1.0:
                    alone = one_hour(
                        bank, inside, motor, q1, q, battery_c, locked_ah, capped, uses, 0.0, engine_w, heat_w, equalizing
                    )  # fmt: skip
                    part = in_turn(result, alone, share)
                    if part[5] <= result[5] + _TINY_W:
                        result = part
                    else:
                        share, stop = 1.0, False
                tired = result[10] and result[8] < share * motor.charger_w / 3.0
                ran_h += share
                if stop or tired:
                    running = ran_h < least_h - 1e-9
                by_month[ENGINE_H, y, b] += share
                if started and share > 0.0:
                    by_month[STARTS, y, b] += 1.0
                gave = share * min(uses, engine_w) + result[8] / motor.charger_efficiency
                by_month[ENGINE_WH, y, b] += gave
                burnt = share * motor.burns_l_h + gave * motor.burns_l_wh
                if motor.tank_l < np.inf:
                    burnt_l += burnt
                    level_l -= burnt
                    if level_l < motor.fill_at * motor.tank_l:
                        filled_l += motor.tank_l - level_l
                        level_l = motor.tank_l
                        told[FILLS] += 1.0

            into, out, in_a, stored_a, out_a, short, drawn, spare, charger_w, volts, limited = (
                result
            )
            q1 = first_tank_after_ah(bank.hour, q1, q, out_a - stored_a)
            q -= out_a - stored_a
            # the acceptance already holds the slow flow between the tanks
            q1 = min(q1, bank.at_once * bank.full_ah)
            in_ah += in_a
            lost_ah += in_a - stored_a
            out_ah += out_a
            if equalizing and volts >= 0.99 * bank.cells * compensated_v(bank.equal_v, battery_c):
                equal_left_h -= 1.0
                if equal_left_h <= 0.0:
                    since_equal_h = 0.0

            # Sun taken, and why the rest was not.
            used = capped - spare
            by_month[SUN_USED, y, b] += used
            after = q / bank.full_ah
            brim = limited and (
                (stored_a < 0.02 * bank.rated_ah and after > 0.9) if bank.lead else after > 0.97
            )
            turned = offered - used
            full, slow, held = 0.0, 0.0, 0.0
            if spare > _TINY_W:
                if brim:
                    full = turned
                else:
                    slow = turned
            else:
                held = turned
            by_month[FULL, y, b] += full
            by_month[TOO_SLOW, y, b] += slow
            by_month[HELD_BACK, y, b] += held

            # What the house felt, and what the bank has been through.
            told[USES_WH] += uses
            told[HEATER_WH] += heat_w
            if short > _TINY_W:
                told[DARK_WH] += short
                by_month[DARK_H, y, b] += 1.0
                dark_run_h += 1.0
                told[LONGEST_DARK] = max(told[LONGEST_DARK], dark_run_h)
            else:
                dark_run_h = 0.0
            told[LOWEST] = min(told[LOWEST], after)
            if bank.lead:
                told[GAS_AH] += in_a - stored_a
                if (
                    battery_c + _WATER_FREEZES_UNDER_K < told[FREEZE_MARGIN]
                ):  # else it cannot be less
                    margin = battery_c - freezes_at_c(after)
                    told[FREEZE_MARGIN] = min(told[FREEZE_MARGIN], margin)
            if after < _UNDER_HALF:
                told[UNDER_HALF_H] += 1.0
            since_full_h = 0.0 if brim else since_full_h + 1.0
            told[LONGEST_SINCE_FULL] = max(told[LONGEST_SINCE_FULL], since_full_h / 24.0)
            if out_a > 0.0:
                told[WORN_AH] += out_a * (1.0 + since_full_h / 360.0)
                told[AH_KELVIN] += out_a * battery_c
                told[AH_AMPS] += out_a * out_a
            told[TERMINALS_LEFT] += used + charger_w + out - into - drawn
            told[ARRAYS_LEFT] += offered - used - full - slow - held
        told[OUT_AH] = out_ah
        told[CHARGE_LEFT] = in_ah - out_ah - lost_ah - (q - start_ah)
        if motor.tank_l < np.inf:
            told[TANK_LEFT] = start_l + filled_l - burnt_l - level_l
        by_year[:, y] = told
    return by_month, by_year, charges
