"""What the hourly loop is told: plain numbers, in the order it wants them."""

from __future__ import annotations

from math import inf
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]


class HourOfTanks(NamedTuple):
    """What an hour of steady current does to the two tanks: q1' = keeps q1 + mixes q - falls_per_a I."""

    keeps: float
    mixes: float
    falls_per_a: float


class Bank(NamedTuple):
    """The battery as the hourly loop sees it.

    Attributes:
        lead: Lead-acid; otherwise lithium iron phosphate.
        cells: Cells in series.
        full_ah: What it holds when brim-full, at 25 C [Ah].
        rated_ah: Its rating times its health: 20 h rate for lead-acid [Ah].
        ten_hour_ah: What it gives in ten hours; the current unit of the lead-acid equations [Ah].
        at_once: Share of the two-tank battery that gives at once; 1 for lithium.
        slow_per_h: How fast the slow tank follows [1/h].
        hour: What an hour of steady current does to the two tanks.
        floor: The house is cut off below this charge.
        most_in_a: The maker's largest charging current [A].
        absorb_v: Absorption voltage per cell at 25 C, lead-acid [V].
        gas_share: Gassing against a flooded antimonial cell; 0 without.
        self_per_h: Charge lost standing, share per hour at 20 C [1/h].
        own_draw_w: What its own electronics draw [W].
        room_c: Temperature of its room [C]; not a number for a shed.
        lag_h: Time it takes to follow the air in a shed [h].
        cell_ohm: Resistance of a lithium cell at 25 C [ohm].
        lag_v: Voltage by which a lithium cell's rest voltage differs between charge and discharge, half of it [V].
        returned: Charge stored for each unit put into a lithium cell.
        taper_from: Charge from which lithium charging tapers; 1 for no taper.
        cold_limits: Whether lithium currents are limited by temperature.
        heater_w: Warms a lithium bank that would be charged but is too cold [W]; 0 without.
        warm_wh_k: Heat that warms it by one kelvin [Wh/K].
        equal_every_h: Hours between two equalizing charges, flooded lead-acid; 0 for never.
        equal_v: Voltage per cell of such a charge [V].
        equal_h: Hours it is held.
    """

    lead: bool
    cells: float
    full_ah: float
    rated_ah: float
    ten_hour_ah: float
    at_once: float
    slow_per_h: float
    hour: HourOfTanks
    floor: float
    most_in_a: float
    absorb_v: float
    gas_share: float
    self_per_h: float
    own_draw_w: float
    room_c: float
    lag_h: float
    cell_ohm: float
    lag_v: float
    returned: float
    taper_from: float
    cold_limits: bool
    heater_w: float = 0.0
    warm_wh_k: float = 1.0
    equal_every_h: float = 0.0
    equal_v: float = 2.58
    equal_h: float = 3.0


class Motor(NamedTuple):
    """The engine and its rule as the hourly loop sees them.

    Attributes:
        present: False for a house without one.
        power_w: Rated power after derating for elevation [W].
        charger_w: Most the charger gives the battery, direct current [W].
        charger_efficiency: Direct current out for alternating current in.
        call_at, let_go_at: Charge at which it is called and let go.
        call_always_at: Charge at which it is called at any hour.
        heard_from_hour, heard_to_hour: When it may be heard.
        shortest_run_h: No run shorter than this [h].
        airing_every_h: Longest it may stand before it is run for its own sake [h]; 0 for never.
        airing_h: Length of such a run [h].
        start_in_cold: Chance that it starts at -20 C and below; 1 at 0 C and above, a straight line between.
        mended_h: Hours until it is tried again after it would not start [h].
        tank_l: Fuel on the place when full [l]; endless where the owner names none.
        fill_at: Share of the tank at which it is filled again; below 0 never.
        fill_month: Month (0 to 11) at whose start it is filled; -1 for none.
        burns_l_h, burns_l_wh: The thirstier end of its fuel line [l/h], [l/Wh].
        boils_l_h: What a half-full tank of propane boils off at the temperatures of ``engine.TANK_C`` [l/h]; endless otherwise.
    """

    present: bool
    power_w: float
    charger_w: float
    charger_efficiency: float
    call_at: float
    let_go_at: float
    call_always_at: float
    heard_from_hour: float
    heard_to_hour: float
    shortest_run_h: float
    airing_every_h: float = 0.0
    airing_h: float = 0.25
    start_in_cold: float = 1.0
    mended_h: float = 24.0
    tank_l: float = inf
    fill_at: float = -1.0
    fill_month: int = -1
    burns_l_h: float = 0.0
    burns_l_wh: float = 0.0
    boils_l_h: tuple[float, ...] = (inf,) * 7


class Inside(NamedTuple):
    """The inverter.

    Attributes:
        power_w: Largest power [W].
        efficiency: Of the next watt at small load.
        idle_w: What it draws idle [W].
        curve_per_w: What it draws besides, with the square of its load [1/W].
    """

    power_w: float
    efficiency: float
    idle_w: float
    curve_per_w: float = 0.0


class Waiting(NamedTuple):
    """Uses that wait for sun.

    Attributes:
        power_w: While it runs [uses].
        day_wh: Energy of a day on which it is wanted [uses].
        from_hour, to_hour: Hours of the day within which it may run; whole hours, the second may be the smaller [uses].
        patience_days: Days it may be put off before it runs without sun [uses].
        wanted: Whether it is wanted on a day of the working year [uses, days].
    """

    power_w: Floats
    day_wh: Floats
    from_hour: Floats
    to_hour: Floats
    patience_days: Floats
    wanted: NDArray[np.bool_]


def nothing_waits(days: int) -> Waiting:
    """No use waits for sun."""
    none = np.zeros(0)
    return Waiting(none, none, none, none, none, np.zeros((0, days), dtype=np.bool_))


class Plan(NamedTuple):
    """All the loop is told of the house.

    Attributes:
        bank, inside, motor, waiting: See there.
        limits_a: Largest current of each controller [controllers].
        efficiencies: Of each controller [controllers].
        uses_w: What the uses ask for that do not wait [hours].
        month: 0 to 11 [hours].
        hour_of_day: 0 to 23 [hours].
        column: Where what is summed by month goes; the month itself, or for a closer look each hour [hours].
    """

    bank: Bank
    inside: Inside
    motor: Motor
    waiting: Waiting
    limits_a: Floats
    efficiencies: Floats
    uses_w: Floats
    month: NDArray[np.int64]
    hour_of_day: NDArray[np.int64]
    column: NDArray[np.int64]


# Rows of what the loop hands back by month.
(
    ENGINE_H, SUN_USED, FULL, TOO_SLOW, HELD_BACK, DAWN, DAWNS, DARK_H, STARTS, ENGINE_WH,
) = range(10)  # fmt: skip
MONTHLY = 10
# Rows of what it hands back by year.
(
    USES_WH, DARK_WH, LOWEST, FREEZE_MARGIN, LONGEST_SINCE_FULL, LONGEST_DARK, FAILED_STARTS, FILLS, DRY_H, OUT_AH, WORN_AH,
    UNDER_HALF_H, GAS_AH, AH_KELVIN, AH_AMPS, WAITING_WH, WITHOUT_SUN_WH, HEATER_WH, CHARGE_LEFT, TERMINALS_LEFT, ARRAYS_LEFT,
    TANK_LEFT,
) = range(22)  # fmt: skip
YEARLY = 22
