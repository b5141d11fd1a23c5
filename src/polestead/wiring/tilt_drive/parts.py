"""The ordinary parts of the drive's supply: switch, lamps, stops, fuse, cut-out, surge."""

from __future__ import annotations

from math import ceil

from polestead.base.source import COMMON_PRACTICE, Source
from polestead.homestead.model import DriveSupply
from polestead.wiring.currents import Code
from polestead.wiring.tilt_drive.clauses import drive_source
from polestead.wiring.tilt_drive.result import MotorWire, PartOfDrive
from polestead.wiring.tilt_drive.years import sold

CUT_OUT = Source("1.5 times the running current, above cold grease and under the stall", status="ours")  # fmt: skip
CHARGED_OVER = (
    1.4  # lead-acid in deep cold is charged at up to 2.78 V a cell of 2 V; lithium at 1.14 times
)
CUT_OUT_TIMES = 1.5


def bears_v(nominal_v: float) -> float:
    """Direct-current volts a part must be marked for: the next common marking over the highest charging voltage.

    Source: 1.4 times the nominal (2.45 V and 5 mV for each kelvin under 25 C, at -40 C, over 2 V); markings ISO 8820 (memory).

    Example:
        >>> bears_v(12.0), bears_v(24.0), bears_v(48.0)
        (32.0, 58.0, 80.0)
    """
    marks = sold("volts")
    wanted = CHARGED_OVER * nominal_v
    return next((one for one in marks if one >= wanted), 10.0 * ceil(wanted / 10.0))


def parts_of(supply: DriveSupply, wire: MotorWire, code: Code) -> tuple[PartOfDrive, ...]:
    """What to buy and where it goes, from the battery to the motor.

    Args:
        supply: The section.
        wire: Currents, fuse.
        code: That holds.
    """
    volts, run, stall = bears_v(supply.nominal_v), wire.running_a, max(wire.stall_a, wire.inrush_a)
    dc = f"{volts:g} V direct current"
    trip = CUT_OUT_TIMES * run
    found = [
        PartOfDrive(
            "fuse, gG or time-delay" if code == "IEC" else "fuse, time-delay", f"{wire.fuse_a:g} A, {dc}, breaks {thousands(wire.dead_short_a)} A",
            "within 7 in (18 cm) of the battery's plus, before anything else",
            "protects the wire; before it nothing does. Its breaking current must be over what the battery gives into a dead short.",
            drive_source("battery fuse", code),
        ),
        PartOfDrive(
            "switch that parts the battery", f"{dc}, {run:g} A running, {stall:.0f} A made and broken",
            "beside the fuse; with a hole for a padlock", "hands in the hinge only with it open and locked.", drive_source("in sight", code),
        ),
        PartOfDrive(
            "over-current cut-out, reset by hand", f"trips for good near {trip:.1f} A, within 5 s at {wire.stall_a:.0f} A; {dc}",
            "in the motor's plus, after the fuse",
            "a rod that meets ice, a stop or a person draws more: this lets go. Not one that closes again by itself.", CUT_OUT,
        ),
        PartOfDrive(
            "reversing switch, double-pole double-throw, (on)-off-(on), springs back to off",
            f"{dc}, motor load, {run:g} A running and {stall:.0f} A for a second",
            "where he who holds it sees the whole array and all ground under it, outside its reach",
            "hold to run: let go and it stops. Crossed between its throws it turns the motor round. A switch with alternating-current marks "
            "only will weld: direct current does not go through nought.", COMMON_PRACTICE,
        ),
        PartOfDrive(
            "two relays instead, if the switch is too small", f"change-over, contacts {dc}, {stall:.0f} A; coils {supply.nominal_v:g} V",
            "in the battery's box, both at rest joining the motor's leads",
            "then the hand switch carries the coils only. At rest both leads lie on minus: the motor brakes itself.", COMMON_PRACTICE,
        ),
        PartOfDrive(
            "two direction lamps", f"{supply.nominal_v:g} V, 0.1 A each, one with a diode each way",
            "by the switch, one marked STEEPER, one FLATTER, behind the stop switches",
            "lit by the motor's own leads: the one is lit while it steepens, the other while it flattens, neither at a stop. Mark them after "
            "a first short move, not before.", COMMON_PRACTICE,
        ),
        PartOfDrive(
            "two stop switches, normally closed, each with a by-pass diode",
            f"switches {dc}, {stall:.0f} A broken; diodes {_next_diode_a(stall):.0f} A and {2.0 * volts:g} V backward, on metal",
            "at both ends of the travel, one before the least tilt and one before the steepest; worked by the frame, not by counting turns",
            "each opens the one direction; its diode lets the current of the other direction past, so that it comes back. A diode put in "
            "backward means it never stops, or never comes back: try both ends by hand with the rod unpinned.", COMMON_PRACTICE,
        ),
        PartOfDrive(
            "two stops of steel", "for the drive's whole moving force, and for the blow of an array driven by wind",
            "beyond the stop switches, before the rod's own end",
            "a stop switch that sticks has wound cables round shafts and bent frames: the steel must hold the stalled motor until fuse or hand lets go.",
            COMMON_PRACTICE,
        ),
        PartOfDrive(
            "surge arrester", f"over {1.2 * CHARGED_OVER * supply.nominal_v:.0f} V, direct current, both leads to earth",
            "at the controller of the little panel and at the motor's plug",
            "leads to motor and sensors are aerials in thunder. A plug that is pulled for storms does more.", COMMON_PRACTICE,
        ),
        PartOfDrive(
            "marked, keyed plug", f"{dc}, {run:g} A, shut against wet", "near the motor, with a loop that drips",
            "wrong polarity turns the array the other way round from its lamps and stop switches: the stops then let it run through. Red plus, "
            "and a key that fits one way.", COMMON_PRACTICE,
        ),
        PartOfDrive(
            "charge controller", _controller_words(supply), "in the battery's box, its own fuse to the battery",
            _controller_why(supply), COMMON_PRACTICE,
        ),
        PartOfDrive(
            "a way to move it with no current", "hand crank or drill on the rod, or a clevis pin that comes out with the array propped",
            "at the drive", "a dead battery and a storm coming is the day it is wanted: try it once.", COMMON_PRACTICE,
        ),
    ]  # fmt: skip
    return tuple(found)


def _controller_words(supply: DriveSupply) -> str:
    amps = 1.25 * supply.panel_w / supply.nominal_v
    charge = "lithium charging curve, stops under 0 C (32 F) by a sensor in the cells"
    lead = "lead-acid curve with a sensor on the battery"
    kind = charge if supply.battery_kind == "lithium iron phosphate" else lead
    return f"{max(amps, 1.0):.0f} A or more at {supply.nominal_v:g} V; {kind}; lets go at low volts"


def _controller_why(supply: DriveSupply) -> str:
    return f"its own draw, day and night, is what empties the battery: {24.0 * supply.idle_w:.0f} Wh a day in the file."


def _next_diode_a(current_a: float) -> float:
    return 5.0 * ceil(1.25 * current_a / 5.0)


def thousands(current_a: float) -> str:
    """Rounded up to a hundred ampere."""
    return f"{100.0 * ceil(current_a / 100.0):,.0f}"
