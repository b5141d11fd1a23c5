"""What the hourly loop is told: plain numbers, in the order it wants them."""

from __future__ import annotations

from typing import NamedTuple


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
    """

    lead: bool
    cells: float
    full_ah: float
    rated_ah: float
    ten_hour_ah: float
    at_once: float
    slow_per_h: float
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


class Inside(NamedTuple):
    """The inverter: largest power [W], efficiency, what it draws idle [W]."""

    power_w: float
    efficiency: float
    idle_w: float
