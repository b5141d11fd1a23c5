"""The drive's small supply year after year, compiled.

Import it inside functions only: compiling machinery is slow to load.
"""

from __future__ import annotations

from math import exp, log

import numpy as np
from numpy.typing import NDArray

from polestead.base.battery import (
    acceptance_per_h,
    freezes_at_c,
    iron_in_per_h,
    iron_out_per_h,
    iron_share,
    lead_share,
    mean_accepted_a,
)
from polestead.base.compiled import compiled
from polestead.wiring.tilt_drive.motor import NEVER_S, travel_s
from polestead.wiring.tilt_drive.numbers import (
    ABSORB_V,
    LEAD_MOST_IN,
    TEN_HOUR_SHARE,
    Cell,
    MotorNumbers,
)

Floats = NDArray[np.float64]
Single = NDArray[np.float32]

# Rows by month.
SUN, TURNED_AWAY, IDLE, MOVES, CHARGE_LOSS, STANDING, CHANGE = 0, 1, 2, 3, 4, 5, 6
UNMET, EMPTY_H, WANTED, MISSED, REFUSED_WH, REFUSED_H = 7, 8, 9, 10, 11, 12
LOWEST, MARGIN, AIR, COLDEST, SECONDS, TOO_COLD = 13, 14, 15, 16, 17, 18
ROWS = 19
_IRON_TAPER = 0.05  # the last twentieth of a lithium charge tapers, as the house's bank does
_DOUBLES_IN_10_K = log(2.0) / 10.0
START = 0.9  # the working year begins in summer


@compiled
def within_reach(cell: Cell, battery_c: float) -> float:
    """Lowest charge that may still be drawn: the controller's cut-off, or what cold keeps back where that is more."""
    share = lead_share(battery_c) if cell.lead else iron_share(battery_c)
    return max(cell.floor, 1.0 - share)


@compiled
def taken_wh(cell: Cell, charge: float, battery_c: float, offer_wh: float) -> float:
    """What the battery takes in an hour, at its terminals [Wh].

    Lead-acid by acceptance at 2.45 V a cell (Copetti, Lorenzo & Chenlo 1993, constants from memory; cold slows it) and no more than a
    quarter of the rating in an hour; lithium not
    below 0 C in the cell and by its limits above, tapering at the end.
    """
    room_ah = cell.rated_ah * (1.0 - charge)
    if room_ah <= 0.0 or offer_wh <= 0.0:
        return 0.0
    # ampere-hours that come to be stored, were the whole offer taken
    offer_a = offer_wh * cell.keeps / cell.nominal_v
    if cell.lead:
        per_h = acceptance_per_h(ABSORB_V, charge, battery_c) * TEN_HOUR_SHARE
        amps = mean_accepted_a(min(offer_a, LEAD_MOST_IN * cell.rated_ah), room_ah, per_h)
    else:
        most = iron_in_per_h(battery_c) * cell.rated_ah
        per_h = most / (_IRON_TAPER * cell.rated_ah)
        amps = mean_accepted_a(min(offer_a, most), room_ah, per_h)
    return min(amps, room_ah) * cell.nominal_v / cell.keeps


@compiled
def run_supply(
    cell: Cell, motor: MotorNumbers, idle_w: float, moves_by_hour: Floats, panel_w: Single, air_c: Single, month: NDArray[np.int64],
) -> tuple[Floats, Floats, Single, Single]:  # fmt: skip
    """All years one after the other.

    Args:
        cell: The battery.
        motor: Motor and wire.
        idle_w: Drawn day and night [W].
        moves_by_hour: Full moves wanted in each hour [hours].
        panel_w: What the panel gives behind shade, dirt and controller [years, hours].
        air_c: Outdoors [years, hours].
        month: 0 to 11 of each hour [hours].

    Returns:
        By month [ROWS, years, 12], rows as named above: Wh; hours; counts; lowest charge; least margin to freezing [K]; mean air
        [C]; coldest battery [C]; longest move [s].  Charge at the end of each hour, battery temperature [years, hours].
    """
    years, hours = panel_w.shape
    out = np.zeros((ROWS, years, 12))
    by_day = np.zeros((2, years, (hours + 23) // 24))
    charges = np.empty((years, hours), dtype=np.float32)
    cell_c = np.empty((years, hours), dtype=np.float32)
    out[LOWEST, :, :] = 1.0
    out[MARGIN, :, :] = 1e9
    out[COLDEST, :, :] = 1e9
    full_wh = cell.rated_ah * cell.nominal_v
    held = START * full_wh
    follow = 1.0 - exp(-1.0 / cell.lag_h)
    battery_c = air_c[0, : min(24, hours)].astype(np.float64).mean()
    hours_in = np.zeros(12)
    for h in range(hours):
        hours_in[month[h]] += 1.0
    for y in range(years):
        for h in range(hours):
            m = month[h]
            air = float(air_c[y, h])
            battery_c += (air - battery_c) * follow
            before = held
            floor_wh = within_reach(cell, battery_c) * full_wh
            sun = float(panel_w[y, h])
            # a battery whose own electronics keep it off feeds nothing, sun or no sun
            off = not cell.lead and iron_out_per_h(battery_c) <= 0.0
            by_sun = 0.0 if off else min(sun, idle_w)
            want = idle_w - by_sun
            from_store = 0.0 if off else min(want, max(held - floor_wh, 0.0))
            held -= from_store
            unmet = want - from_store
            moved, missed, cold_missed = 0.0, 0.0, 0.0
            wanted = moves_by_hour[h]
            if wanted > 0.0:
                out[WANTED, y, m] += wanted
                seconds = travel_s(cell, motor, held / full_wh, battery_c, air)
                need = NEVER_S
                if seconds < NEVER_S:
                    need = cell.nominal_v * motor.running_a * seconds / 3600.0
                    out[SECONDS, y, m] = max(out[SECONDS, y, m], seconds)
                too_cold = not cell.lead and (iron_out_per_h(battery_c) * cell.rated_ah < motor.running_a)  # fmt: skip
                left = wanted
                while left > 1e-9:
                    part = min(left, 1.0)
                    if not too_cold and held - part * need >= floor_wh:
                        held -= part * need
                        moved += part * need
                    else:
                        missed += part
                        if too_cold:
                            cold_missed += part
                    left -= part
            offer = sun - by_sun
            into = taken_wh(cell, held / full_wh, battery_c, offer)
            stored = into * cell.keeps
            held += stored
            standing = held * cell.self_per_h * exp(_DOUBLES_IN_10_K * (battery_c - 20.0))
            held -= standing
            charge = held / full_wh
            refused = 0.0
            if not cell.lead and battery_c < 0.0 and offer > 0.0 and charge < 0.999:
                refused = offer
                out[REFUSED_H, y, m] += 1.0
            out[SUN, y, m] += sun
            out[TURNED_AWAY, y, m] += max(offer - into, 0.0)
            out[IDLE, y, m] += idle_w - unmet
            out[MOVES, y, m] += moved
            out[CHARGE_LOSS, y, m] += into - stored
            out[STANDING, y, m] += standing
            out[CHANGE, y, m] += held - before
            out[UNMET, y, m] += unmet
            if unmet > 1e-9:
                out[EMPTY_H, y, m] += 1.0
            out[MISSED, y, m] += missed
            out[TOO_COLD, y, m] += cold_missed
            out[REFUSED_WH, y, m] += refused
            out[LOWEST, y, m] = min(out[LOWEST, y, m], charge)
            out[AIR, y, m] += air / hours_in[m]
            out[COLDEST, y, m] = min(out[COLDEST, y, m], battery_c)
            if cell.lead:
                out[MARGIN, y, m] = min(out[MARGIN, y, m], battery_c - freezes_at_c(charge))
            by_day[0, y, h // 24] += idle_w - unmet + moved
            by_day[1, y, h // 24] += missed
            charges[y, h] = charge
            cell_c[y, h] = battery_c
    return out, by_day, charges, cell_c
