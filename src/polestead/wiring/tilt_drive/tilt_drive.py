"""The tilt drive's own supply, put together: its years, its wire and fuse, its ordinary parts."""

from __future__ import annotations

from math import floor

from polestead.base.check import Check, share
from polestead.base.hours import MONTH_NAMES
from polestead.base.show import percent
from polestead.base.source import OWNER, Source
from polestead.base.working import Step, Working
from polestead.homestead.fields import source_of
from polestead.homestead.model import Drive, DriveSupply
from polestead.wiring.currents import Code
from polestead.wiring.run.conductor import Conductor
from polestead.wiring.tilt_drive.clauses import BORROWED_ASK, thin_note
from polestead.wiring.tilt_drive.numbers import (
    BOX,
    CHARGING,
    FLOORS,
    LEAD_MOST_IN,
    Cell,
    MotorNumbers,
    cell_of,
    motor_numbers,
)
from polestead.wiring.tilt_drive.parts import parts_of, thousands
from polestead.wiring.tilt_drive.result import (
    CLEAR_OF_FREEZING,
    LOWEST_CHARGE,
    MotorWire,
    TiltDrive,
    WouldDo,
    YearsOfDrive,
)
from polestead.wiring.tilt_drive.wire import (
    drop_working,
    motor_wire_of,
    speed_working,
    stall_working,
    wire_checks,
    wire_of,
)
from polestead.wiring.tilt_drive.years import (
    FREEZE_MARGIN_K,
    LEAST_CHARGE,
    SupplyYears,
    holds,
    would_do,
    years_of,
)

PART = "tilt drive's battery"
EACH_HOUR = Source("hour by hour through every year", status="computed")
KEPT = Source("half for lead-acid, a fifth for lithium", status="common practice")
FREEZES = Source("vehicle manual, freezing of acid by its density; 5 K of margin ours")
COLD = Source("IEEE 485-2020", "Table 1 (seen quoted); below -20 C carried on, ours")
IRON_COLD = Source("usual cell makers' figures", status="memory")
CHARGING_V_PER_V = 1.15  # volts while charging over nominal volts
ENERGY = Source("volts x ampere x hours", status="computed")


def tilt_drive_of(drive: Drive | None, sky: SupplyYears, code: Code = "NEC") -> TiltDrive | None:
    """The drive's own supply, worked.

    Args:
        drive: The section.
        sky: Light on the panel and air, of `answer`.
        code: That holds at the place.

    Returns:
        None where the file has no drive, or the drive no supply; ``result.FILL_IN`` says what to write.

    Raises:
        Wrong: A wire size no table knows.
    """
    if drive is None or drive.supply is None:
        return None
    supply = drive.supply
    wire = wire_of(supply)
    cell, motor = cell_of(supply), motor_numbers(drive, supply, wire)
    years = years_of(supply, cell, motor, sky)
    darker = years_of(supply, cell, motor, sky, sun_share=1.0 - sky.sun_error) if sky.sun_error > 0.0 else None  # fmt: skip
    coldest_cell, coldest_air = years.coldest_c, float(sky.air_c.min())
    told = motor_wire_of(
        supply, wire, cell, motor, years.lowest_charge, coldest_cell, coldest_air, code
    )
    pairs = would_do(supply, motor, sky)
    dark = _dark_days(supply, cell, motor, years)
    speed = speed_working(motor, told, coldest_air)
    return TiltDrive(
        years=years,
        darker=darker,
        darker_by=sky.sun_error,
        dark_days=dark.result.value,
        box_lag_h=cell.lag_h,
        move_wh=_move_wh(cell, motor),
        wire=told,
        would_do=pairs,
        parts=parts_of(supply, told, code),
        checks=(
            *_battery_checks(cell, years),
            *wire_checks(supply, wire, cell, told, years.lowest_charge, coldest_cell, code),
        ),
        workings=(
            *_move_workings(cell, motor),
            dark,
            _balance(cell, years),
            drop_working(supply, wire, told, code),
            stall_working(supply, cell, motor, told),
            *((speed,) if speed is not None else ()),
        ),
        words=_words(supply, cell, years, darker, sky.sun_error, told, pairs, dark.result.value),
        notes=_notes(supply, cell, years, told, wire, code),
        asks=_asks(drive, supply, told, code),
    )


def _move_wh(cell: Cell, motor: MotorNumbers) -> float | None:
    if motor.full_travel_s <= 0.0:
        return None
    return cell.nominal_v * motor.running_a * motor.full_travel_s / 3600.0


def _move_workings(cell: Cell, motor: MotorNumbers) -> tuple[Working, ...]:
    wh = _move_wh(cell, motor)
    if wh is None:
        return ()
    return (
        Working(
            "one full move",
            (
                Step("volts of the store", "V", f"{cell.cells:g} cells", cell.nominal_v, "V", CHARGING),
                Step("motor at its rated load", "I", "", motor.running_a, "A", OWNER),
                Step("full travel at rated speed", "t", "stroke / speed", motor.full_travel_s, "s", OWNER),
                Step("one move", "E", f"{cell.nominal_v:g} x {motor.running_a:g} x {motor.full_travel_s:.0f} / 3600", wh, "Wh", ENERGY),
            ),
            ("In the cold it takes longer, and so much more: the hours count it so.",),
        ),
    )  # fmt: skip


def _dark_days(supply: DriveSupply, cell: Cell, motor: MotorNumbers, years: YearsOfDrive) -> Working:  # fmt: skip
    """Days from full without any sun, at the mean air of the worst month."""
    from polestead.wiring.tilt_drive.kernel import within_reach
    from polestead.wiring.tilt_drive.motor import NEVER_S, travel_s

    air = years.worst.air_c
    left = 1.0 - within_reach(cell, air)
    there = cell.full_wh * left
    idle = 24.0 * supply.idle_w
    seconds = travel_s(cell, motor, 1.0, air, air) if motor.full_travel_s > 0.0 else 0.0
    move = cell.nominal_v * motor.running_a * seconds / 3600.0 if seconds < NEVER_S else 0.0
    day = idle + move * supply.moves_a_day
    moves = ENERGY if "moves_a_day" in supply.model_fields_set else source_of(supply, "moves_a_day")
    standing = 24.0 * cell.self_per_h * 2.0 ** ((air - 20.0) / 10.0) * cell.full_wh
    return Working(
        "days of darkness it lasts",
        (
            Step("mean air of the worst month", "T", "", air, "C", EACH_HOUR),
            Step("rated energy", "E", f"{cell.nominal_v:g} x {cell.rated_ah:g}", cell.full_wh, "Wh", OWNER),
            Step("share that can be had so cold, over the cut-off", "s", f"1 - max({cell.floor:g}, what cold keeps)", left, "", COLD if cell.lead else IRON_COLD),
            Step("idle draw of a day", "Ei", f"24 x {supply.idle_w:g}", idle, "Wh", source_of(supply, "idle_w")),
            Step("moves of a day", "Em", f"{supply.moves_a_day:g} x {move:.4g}", move * supply.moves_a_day, "Wh", moves),
            Step("lost standing in a day", "Es", "", standing, "Wh", CHARGING),
            Step("days", "n", f"{there:.0f} / ({idle:.4g} + {move * supply.moves_a_day:.4g} + {standing:.2f})", there / max(day + standing, 1e-9), "", EACH_HOUR),
        ),
        (f"From full, down to where the controller lets go ({percent(cell.floor)}) or cold keeps the rest.",),
    )  # fmt: skip


def _balance(cell: Cell, years: YearsOfDrive) -> Working:
    """Where the watt-hours of the worst month went."""
    at = years.worst
    end = at.panel_wh - at.turned_away_wh - at.idle_wh - at.moves_wh - at.charge_loss_wh - at.standing_wh  # fmt: skip
    return Working(
        "watt-hours of the worst month",
        (
            Step("the panel gives", "Ep", "", at.panel_wh, "Wh", EACH_HOUR),
            Step("turned away", "Et", "", at.turned_away_wh, "Wh", EACH_HOUR),
            Step("idle draw", "Ei", "", at.idle_wh, "Wh", EACH_HOUR),
            Step("moves", "Em", "", at.moves_wh, "Wh", EACH_HOUR),
            Step("lost in charging", "El", f"{percent(1.0 - cell.keeps)} of what goes in", at.charge_loss_wh, "Wh", CHARGING),
            Step("lost standing", "Es", "", at.standing_wh, "Wh", CHARGING),
            Step("in the battery, more than before", "dE", f"{at.panel_wh:.0f} - {at.turned_away_wh:.0f} - {at.idle_wh:.0f} - {at.moves_wh:.0f} - {at.charge_loss_wh:.0f} - {at.standing_wh:.0f}", end, "Wh", EACH_HOUR),
        ),
        (f"{_month(at.month)} of year {at.year}.",),
    )  # fmt: skip


def _battery_checks(cell: Cell, years: YearsOfDrive) -> tuple[Check, ...]:
    least = LEAST_CHARGE[cell.lead]
    lowest = Working(
        "lowest charge of all years",
        (
            Step("wanted", "s0", "", least, "", KEPT),
            Step("controller lets go", "sc", "", cell.floor, "", FLOORS),
            Step("follows the air", "tau", "heat of the battery / .7 W/K", cell.lag_h, "h", BOX),
            Step("lowest", "s", f"{_month(years.worst.month)} of year {years.worst.year}", years.lowest_charge, "", EACH_HOUR),
        ),
    )  # fmt: skip
    found = [
        Check(PART, LOWEST_CHARGE, least, years.lowest_charge, "", share(least, years.lowest_charge), KEPT, lowest),
        _none_of("hours without power", years.without_power_h, "h"),
    ]  # fmt: skip
    if years.moves is not None:
        found.append(_none_of("moves missed", years.missed, ""))
    if years.freeze_margin_k is not None:
        margin = Working(
            "margin to freezing",
            (
                Step("wanted", "dT0", "", FREEZE_MARGIN_K, "K", FREEZES),
                Step("least, box over freezing point by charge", "dT", "", years.freeze_margin_k, "K", FREEZES),
            ),
            ("Sealed cells hold a little stronger acid and freeze a little later: flooded counts here.",),
        )  # fmt: skip
        found.append(Check(PART, CLEAR_OF_FREEZING, FREEZE_MARGIN_K, years.freeze_margin_k, "K", share(FREEZE_MARGIN_K, max(years.freeze_margin_k, 0.0)), FREEZES, margin))  # fmt: skip
    return tuple(found)


def _none_of(name: str, found: float, unit: str) -> Check:
    working = Working(name, (Step(f"{name}, all years", "n", "", found, unit, EACH_HOUR),))
    return Check(PART, name, found, 0.0, unit, share(found, 0.0), EACH_HOUR, working)


def _words(
    supply: DriveSupply, cell: Cell, years: YearsOfDrive, darker: YearsOfDrive | None, error: float, wire: MotorWire,
    pairs: tuple[WouldDo, ...], dark_days: float,
) -> tuple[str, ...]:  # fmt: skip
    found = [_carries_words(supply, cell, years)]
    if darker is not None:
        found.append(_darker_words(cell, darker, error))
    if years.refused_h > 0.0:
        found.append(
            f"Lithium turned the panel away in {years.refused_h:.0f} sunny hours of a mean year, because its cells stood below 0 C (32 F); it must not be "
            "charged there, and its controller must know its cells' temperature."
        )
    if years.missed_for_cold > 0.0:
        found.append(
            f"{years.missed_for_cold:.0f} moves fell in hours too cold for lithium to give the motor's {wire.running_a:g} A. A sealed lead-acid "
            "battery gives its current in the cold."
        )
    found.append(
        f"From full it lasts {floor(dark_days)} days without any sun in the cold of that month."
    )
    found.append(_sizes_words(supply, pairs, error))
    found.append(_speed_words(wire))
    return tuple(found)


def _carries_words(supply: DriveSupply, cell: Cell, years: YearsOfDrive) -> str:
    at = years.worst
    where = f"{_month(at.month)} of year {at.year} of {years.years}"
    if holds(years, cell.lead):
        return f"The {supply.panel_w:g} W panel carries the drive through every year; the lowest charge is {percent(years.lowest_charge)}, in {where}."
    return f"It does not carry the drive through every year: {_short_words(cell, years)}. The worst month is {where}."


def _short_words(cell: Cell, years: YearsOfDrive) -> str:
    """What falls short, in one breath."""
    gives = []
    if years.without_power_h > 0.0:
        gives.append(f"{years.without_power_h:.0f} hours without power in {years.years} years")
    if years.missed > 0.0:
        gives.append(f"{years.missed:.0f} of {years.moves:.0f} moves missed")
    if years.freeze_margin_k is not None and years.freeze_margin_k < FREEZE_MARGIN_K:
        near = (
            "below its freezing point"
            if years.freeze_margin_k < 0.0
            else "nearer than it should to freezing"
        )
        gives.append(f"its acid comes {near}")
    if years.lowest_charge < LEAST_CHARGE[cell.lead]:
        gives.append(f"the charge falls to {percent(years.lowest_charge)}")
    return ", ".join(gives)


def _darker_words(cell: Cell, darker: YearsOfDrive, error: float) -> str:
    less = f"With {percent(error)} less sun, as the weather's source may be off"
    if holds(darker, cell.lead):
        return f"{less}, it still holds, down to {percent(darker.lowest_charge)}."
    return f"{less}: {_short_words(cell, darker)}."


def _sizes_words(supply: DriveSupply, pairs: tuple[WouldDo, ...], error: float) -> str:
    less = f", {percent(error)} less sun counted" if error > 0.0 else ""
    if not pairs:
        return f"No panel up to 200 W with a battery of the sizes commonly sold would hold{less}: draw less while idle, move less, or feed it from the house."
    text = "; ".join(f"{one.panel_w:g} W with {one.battery_ah:g} Ah" for one in pairs)
    other = (
        ""
        if pairs[0].kind == supply.battery_kind
        else "No lithium of the sizes commonly sold would hold. "
    )
    return f"{other}Smallest {supply.nominal_v:g} V {pairs[0].kind} that would do{less}: {text}."


def _speed_words(wire: MotorWire) -> str:
    if wire.warm_s is None:
        return "How long a move takes is not known: write the drive's speed."
    if wire.cold_s is None:
        return f"Full travel {wire.warm_s:.0f} s warm; in the deepest cold too few volts reach the motor to move it."
    return f"Full travel takes {wire.warm_s:.0f} s warm and up to {wire.cold_s:.0f} s in the deepest cold: start early, and count on the longer one before a storm."


def _notes(supply: DriveSupply, cell: Cell, years: YearsOfDrive, wire: MotorWire, copper: Conductor, code: Code) -> tuple[str, ...]:  # fmt: skip
    found = [
        "Hold to run, in sight of the whole array: nobody below, nobody within its reach, look for children and animals first. No clock, no "
        "light sensor and no remote start moves it: it cannot see who stands there.",
        "Do not move it buried, iced, or in wind over the gust to move under. When it slows or the current rises, let go and look.",
        _stall_words(wire),
        f"The little battery gives up to {wire.dead_short_a:,.0f} A into a dead short (told high): rings off, insulated tools, fuse at its plus.",
    ]
    if supply.panel_w == 0.0:
        found.append(
            "No panel in the file (0 W): somebody must carry the battery in and charge it, or charge it from the house through a small charger."
        )
    if (
        cell.lead
        and supply.panel_w > LEAD_MOST_IN * cell.rated_ah * CHARGING_V_PER_V * supply.nominal_v
    ):
        found.append(
            f"In full sun the panel could push more than a quarter of the {cell.rated_ah:g} Ah in an hour: set the controller's limit lower."
        )
    if cell.lead:
        found.append(
            "A lead-acid battery freezes when it is flat and may burst: keep it charged, vent its box; a frozen one is not charged."
        )
    else:
        found.append(
            "Lithium must not be charged below 0 C (32 F) in its cells: a pack whose electronics do not stop that has no place outdoors."
        )
    found.append(
        f"The box: 20 in (50 cm) each way in 2 in (50 mm) of foam; the battery follows the air {cell.lag_h:.0f} h behind. Without it the nights count in full."
    )
    thin = thin_note(copper.area_mm2, code)
    found += [] if thin is None else [thin]
    if cell.lead and years.lowest_charge > 0.0:
        found.append(
            "Charging is counted with no help from a temperature sensor; with one it takes more in the cold."
        )
    return tuple(found)  # fmt: skip


def _asks(drive: Drive, supply: DriveSupply, wire: MotorWire, code: Code) -> tuple[str, ...]:
    """What the file does not say of motor and fuse, and what their makers know."""
    found = []
    if drive.speed_m_s is None:
        found.append(
            "The drive's speed is not in the file, so its moves are not counted: write [drive] speed from its sheet, or time one full travel."
        )
    if supply.fuse_a is None:
        found.append(f"The file gives no fuse at the drive's battery (drive.supply.fuse): not passed; {wire.fuse_a:g} A by rule.")  # fmt: skip
    found.append(f"The label of that fuse: does it break {thousands(wire.dead_short_a)} A of direct current?")  # fmt: skip
    if supply.stalled_a is None:
        found.append(
            f"Ask the motor's maker for its stalled current (drive.supply.stalled); {wire.stalled_a:g} A, three times running, is ours."
        )
    found.append(
        "Ask the motor's maker how long it bears being stalled, and how many minutes in the hour it may run."
    )
    found += [] if code == "NEC" else [BORROWED_ASK]
    return tuple(found)


def _stall_words(wire: MotorWire) -> str:
    start = f"Held still the motor draws {wire.stall_a:.0f} A, {wire.stall_v:.1f} V left at it, {wire.stall_drop_v:.1f} V lost in the wire;"
    if wire.stall_opens_s is None:
        return f"{start} a {wire.fuse_a:g} A fuse may never open at that. Only the hand, the stop switches and a cut-out save the motor."
    within = f"{wire.stall_opens_s:.0f} s" if wire.stall_opens_s <= 300.0 else "an hour"
    return f"{start} a {wire.fuse_a:g} A time-delay fuse opens only within {within}. It guards the wire; the motor is saved by letting go, by the stop switches and by a cut-out."


def _month(number: int) -> str:
    return MONTH_NAMES[number - 1]
