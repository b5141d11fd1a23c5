"""What the drive's own supply hands up."""

from __future__ import annotations

from dataclasses import dataclass

from polestead.base.check import Check
from polestead.base.source import Source
from polestead.base.working import Working

LOWEST_CHARGE, CLEAR_OF_FREEZING = "lowest charge", "clear of freezing"  # names of checks
NONE_MAY_BE = ("moves missed", "hours without power")
NO_SUPPLY = (
    "The file gives no [drive.supply]: the drive's wire, fuse and battery are not looked at."
)
NO_DRIVE = "The file gives no [drive]: whatever tips the array is not looked at, nor its wire, fuse and battery."
FILL_IN = (
    "The tilt drive's own supply is not worked: the file has no [drive.supply]. Write there the volts, kind and ampere-hours of its "
    "battery, the watts of its panel, the motor's running current from its label, and length and size of its wire."
)


@dataclass(frozen=True, slots=True)
class DayOfDrive:
    """One day of a month.

    Attributes:
        day: Of the month, 1 to 31.
        panel_wh: Behind shade, snow, dirt and controller.
        uses_wh: Idle draw and moves that were met.
        charge: At the end of the day, of the rating.
        coldest_c, warmest_c: The battery in its box.
        missed: Moves that could not be made.
    """

    day: int
    panel_wh: float
    uses_wh: float
    charge: float
    coldest_c: float
    warmest_c: float
    missed: float


@dataclass(frozen=True, slots=True)
class MonthOfDrive:
    """One month of one year, worked hour by hour.

    Attributes:
        year: Which of the years, 1 the first.
        month: 1 to 12.
        air_c: Mean air.
        coldest_c: The battery in its box, coldest hour.
        panel_wh: Behind shade, snow, dirt and controller.
        turned_away_wh: Of it, not taken: full, slow to accept, or too cold.
        idle_wh, moves_wh: What went into the idle draw and into moves.
        charge_loss_wh, standing_wh: Lost in charging, and by standing.
        change_wh: What the battery holds more at the end than at the start.
        lowest_charge: Of the rating, at the end of an hour.
        freeze_margin_k: Least distance of the acid from freezing; None for lithium.
        without_power_h: Hours in which the idle draw could not be fed.
        moves: Full moves wanted; None where the drive's speed is not known.
        missed: Of them, not made.
        refused_h, refused_wh: Hours with sun, and the sun, that lithium refused for cold.
        days: Each of its days.
    """

    year: int
    month: int
    air_c: float
    coldest_c: float
    panel_wh: float
    turned_away_wh: float
    idle_wh: float
    moves_wh: float
    charge_loss_wh: float
    standing_wh: float
    change_wh: float
    lowest_charge: float
    freeze_margin_k: float | None
    without_power_h: float
    moves: float | None
    missed: float
    refused_h: float
    refused_wh: float
    days: tuple[DayOfDrive, ...] = ()


@dataclass(frozen=True, slots=True)
class YearsOfDrive:
    """All years of the supply.

    Attributes:
        years: How many.
        lowest_charge: Of all hours.
        freeze_margin_k: Least of all hours; None for lithium.
        without_power_h: Hours in all years.
        moves, missed: Wanted and not made in all years; moves None where the drive's speed is not known.
        missed_for_cold: Of them, because lithium may not give the motor's current so cold.
        refused_h: Hours with sun that lithium refused for cold, a year.
        coldest_c: The battery in its box, coldest hour of all.
        longest_move_s: Slowest full travel met; None where the speed is not known or none was made.
        panel_wh, idle_wh, moves_wh: A mean year.
        worst: Month with most hours without power and moves missed; where there are none, with the lowest charge.  Day by day.
        darkest: Of the six cold months the one with the least sun on the panel.
        coldest: Month with the coldest mean air.
    """

    years: int
    lowest_charge: float
    freeze_margin_k: float | None
    without_power_h: float
    moves: float | None
    missed: float
    missed_for_cold: float
    refused_h: float
    coldest_c: float
    longest_move_s: float | None
    panel_wh: float
    idle_wh: float
    moves_wh: float
    worst: MonthOfDrive
    darkest: MonthOfDrive
    coldest: MonthOfDrive


@dataclass(frozen=True, slots=True)
class WouldDo:
    """A panel with the smallest battery, of the sizes commonly sold, that hold through every year.

    Attributes:
        panel_w: [W].
        battery_ah: At the volts in the file.
        kind: Of the battery: the file's, or sealed lead-acid where no lithium of those sizes holds.
    """

    kind: str
    panel_w: float
    battery_ah: float


@dataclass(frozen=True, slots=True)
class MotorWire:
    """Wire and fuse to the motor.

    Attributes:
        size: Of the copper wire.
        running_a: Motor at its rated load.
        stalled_a: Held still at nominal volts.
        drop_v, drop_share: In the wire while running, warm, there and back; share of nominal volts.
        warm_v, cold_v: At the motor while running: battery charged at 20 C; at the lowest charge and the coldest box.
        stall_a, stall_v: What really flows and reaches the motor held still, battery charged and warm.
        stall_drop_v: Of it, lost in the wire.
        inrush_a: Most at a cold start: a cold winding takes more.
        warm_s, cold_s: Full travel; None where the drive's speed is not known; cold None too where it would only crawl.
        fuse_a: In the file, else the one to buy.
        from_file: Whether it is in the file.
        inrush_holds_s: At the inrush a time-delay fuse holds at least so long.
        stall_opens_s: At the stall it opens within; None: it may never.
        dead_short_a: What the battery may give into a dead short, told high.
    """

    size: str
    running_a: float
    stalled_a: float
    drop_v: float
    drop_share: float
    warm_v: float
    cold_v: float
    stall_a: float
    stall_v: float
    stall_drop_v: float
    inrush_a: float
    warm_s: float | None
    cold_s: float | None
    fuse_a: float
    from_file: bool
    inrush_holds_s: float
    stall_opens_s: float | None
    dead_short_a: float


@dataclass(frozen=True, slots=True)
class PartOfDrive:
    """An ordinary part of the supply.

    Attributes:
        what: The part.
        rating: What it must bear.
        where: Where it sits.
        why: What it is for, what goes wrong without it.
        source: Who says so.
    """

    what: str
    rating: str
    where: str
    why: str
    source: Source


@dataclass(frozen=True, slots=True)
class TiltDrive:
    """The tilt drive's own supply.

    Attributes:
        years: Hour by hour through every year.
        darker: The same with the sun less by all its source may be off; None where the years were measured.
        darker_by: That share.
        dark_days: Days it lasts from full without any sun, in the worst month's cold.
        box_lag_h: How slowly the battery follows the air.
        move_wh: One full move, warm; None where the drive's speed is not known.
        wire: Wire, fuse and volts.
        would_do: Panels with the smallest battery that hold, smallest panel first; sun less by the source's error.
        parts: Ordinary parts.
        checks: What must hold.
        workings: How the figures were found.
        words: What it comes to.
        notes: Cautions.
        asks: What stands open because nobody has said; none of it counts as passed.
    """

    years: YearsOfDrive
    darker: YearsOfDrive | None
    darker_by: float
    dark_days: float
    box_lag_h: float
    move_wh: float | None
    wire: MotorWire
    would_do: tuple[WouldDo, ...]
    parts: tuple[PartOfDrive, ...]
    checks: tuple[Check, ...]
    workings: tuple[Working, ...]
    words: tuple[str, ...]
    notes: tuple[str, ...]
    asks: tuple[str, ...]
