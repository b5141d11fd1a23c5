"""What the hourly loop is told of the drive's battery and motor: plain numbers, in the order it wants them."""

from __future__ import annotations

from typing import NamedTuple

from polestead.base.cells import IRON_CELL_V, LEAD_CELL_V, cells_in_series
from polestead.base.source import Source
from polestead.homestead.model import Drive, DriveSupply
from polestead.wiring.run.conductor import Conductor

IRON = "lithium iron phosphate"

# A battery in its lagged box, half a metre each way, 50 mm of foam (.035 W/m K) on 1 m2 at the middle of the wall: .7 W/K.
BOX_W_PER_K = 0.7
BOX = Source("box half a metre each way in 50 mm of foam, no heater", status="ours")
LEAD_WH_PER_KG, IRON_WH_PER_KG = 35.0, 100.0  # from memory
HEAT_WH_PER_KG_K = 1000.0 / 3600.0  # acid, lead and lithium cells alike, from memory
# Wh stored for a Wh put in.  Lead-acid: the whole round trip of 78 to 85 % is taken here; lithium 95 to 97 % (both from memory).
LEAD_KEEPS, IRON_KEEPS = 0.80, 0.95
CHARGING = Source("usual round trip of the chemistry", status="memory")
# Standing: sealed .10 % a day, flooded .15 % at 20 C, twice in 10 K; lithium 2 % a month (from memory).
STANDING_PER_DAY = {"sealed lead-acid": 0.0010, "flooded lead-acid": 0.0015, IRON: 0.02 / 30.4}
# Low-voltage cut-off of a plain controller or of a pack's own electronics.
FLOOR = {"sealed lead-acid": 0.20, "flooded lead-acid": 0.20, IRON: 0.10}
FLOORS = Source("common practice, no source", "cut-off of a plain controller", "common practice")
ABSORB_V = (
    2.45  # per lead-acid cell, with no help from warmth or cold: no sensor is taken to be there
)
# Most charging current of a small sealed battery, of its rating in an hour (from memory).
LEAD_MOST_IN = 0.25
TEN_HOUR_SHARE = (
    0.93  # of the 20 h rating a sealed battery gives in ten hours, typical, from memory
)
# Resistance of a 1 Ah cell at 25 C, some of its slow part in it, and its growth in the cold.
LEAD_OHM_AH = 0.10
IRON_OHM_AH = 0.0005 * 280.0
RESISTANCE = Source("resistance of small batteries, half charged", status="memory")


class Cell(NamedTuple):
    """The drive's battery.

    Attributes:
        lead: Lead-acid; otherwise lithium iron phosphate.
        cells: In series.
        rated_ah: 20 h rate, at 25 C [Ah].
        nominal_v: Cells times 2.0 or 3.2; watt-hours of the store are ampere-hours at this [V].
        keeps: Stored for each Wh put in.
        self_per_h: Charge lost standing, share an hour at 20 C.
        floor: The controller lets go below this charge.
        ohm: Of the whole battery at 25 C [ohm].
        lag_h: How slowly it follows the air [h].
    """

    lead: bool
    cells: float
    rated_ah: float
    nominal_v: float
    keeps: float
    self_per_h: float
    floor: float
    ohm: float
    lag_h: float

    @property
    def full_wh(self) -> float:
        """Rated energy [Wh]."""
        return self.rated_ah * self.nominal_v


class MotorNumbers(NamedTuple):
    """Motor and wire, as the loop sees them.

    Attributes:
        nominal_v: It is made for [V].
        running_a: At its rated load [A].
        ohm: Of its winding: nominal volts over the stalled current [ohm].
        wire_ohm: There and back, at 20 C [ohm].
        full_travel_s: Whole stroke at rated speed [s]; not above zero where the speed is not known.
    """

    nominal_v: float
    running_a: float
    ohm: float
    wire_ohm: float
    full_travel_s: float


def box_lag_h(nominal_v: float, rated_ah: float, kind: str) -> float:
    """How slowly the battery follows the air: its heat over what the box lets through.

    Source: first-order cooling, tau = m c / (U A), .7 W/K (ours), 1000 J/kg K and Wh per kg from memory.

    Args:
        nominal_v: Of the battery [V].
        rated_ah: [Ah].
        kind: Chemistry.

    Example:
        12 V 35 Ah: 420 Wh / 35 = 12 kg, 3.33 Wh/K / .7 W/K.

        >>> round(box_lag_h(12.0, 35.0, "sealed lead-acid"), 2)
        4.76
    """
    per_kg = IRON_WH_PER_KG if kind == IRON else LEAD_WH_PER_KG
    return nominal_v * rated_ah / per_kg * HEAT_WH_PER_KG_K / BOX_W_PER_K


def cell_of(supply: DriveSupply, rated_ah: float | None = None) -> Cell:
    """The battery as the loop sees it.

    Args:
        supply: The section.
        rated_ah: Another capacity than the file's.

    Example:
        >>> supply = DriveSupply.model_validate({"nominal": "12 V", "battery_kind": "sealed lead-acid", "battery": "35 Ah",
        ...     "panel": "20 W", "running": "14 A", "wire_length": "5 m", "wire_size": "8 AWG"})
        >>> cell = cell_of(supply)
        >>> cell.cells, cell.full_wh, round(cell.ohm, 4)
        (6.0, 420.0, 0.0171)
    """
    lead = supply.battery_kind != IRON
    one_v, one_ohm_ah = (LEAD_CELL_V, LEAD_OHM_AH) if lead else (IRON_CELL_V, IRON_OHM_AH)
    count = float(cells_in_series(not lead, supply.nominal_v))
    ah = supply.battery_ah if rated_ah is None else rated_ah
    return Cell(
        lead=lead,
        cells=count,
        rated_ah=ah,
        nominal_v=count * one_v,
        keeps=LEAD_KEEPS if lead else IRON_KEEPS,
        self_per_h=STANDING_PER_DAY[supply.battery_kind] / 24.0,
        floor=FLOOR[supply.battery_kind],
        ohm=count * one_ohm_ah / ah,
        lag_h=box_lag_h(count * one_v, ah, supply.battery_kind),
    )


def stalled_a(supply: DriveSupply) -> float:
    """Motor held still at its nominal volts: the owner's figure, else three times the running current (ours)."""
    return 3.0 * supply.running_a if supply.stalled_a is None else supply.stalled_a


def motor_numbers(drive: Drive, supply: DriveSupply, wire: Conductor) -> MotorNumbers:
    """Motor and wire as the loop sees them; the wire at 20 C, a little high for the cold."""
    return MotorNumbers(
        supply.nominal_v,
        supply.running_a,
        supply.nominal_v / stalled_a(supply),
        2.0 * supply.wire_length_m * wire.ohm_per_m(20.0),
        0.0 if drive.speed_m_s is None else drive.stroke_m / drive.speed_m_s,
    )
