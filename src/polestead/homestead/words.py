"""What some sentences of the file were read as: a pole, a use, an amount of money per litre."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal


@dataclass(frozen=True, slots=True)
class PoleWords:
    """A pole as the owner wrote it.

    ``8 in schedule 80 A53 B`` gives ``nominal="8"``, ``schedule="80"``; a measured one gives both lengths instead.

    Attributes:
        written: The owner's words.
        nominal: Nominal pipe size in inches as text, or None for a measured pole.
        schedule: Schedule as text, or None.
        outside_m: Measured outside diameter [m], or None.
        wall_m: Measured wall [m], or None.
        material: ``A53 B``, ``A500 B``, ``A500 C``, ``6061-T6``, ``6063-T6``, ``S235``, ``S355`` or ``unknown steel``.
    """

    written: str
    nominal: str | None
    schedule: str | None
    outside_m: float | None
    wall_m: float | None
    material: str


@dataclass(frozen=True, slots=True)
class Use:
    """One thing the house uses power for, as a sentence of data said.

    Attributes:
        name: The key in the file.
        written: The owner's sentence.
        power_w: Power while it runs [W], AC.
        hours_per_day: Hours a day it runs, on the days it runs.
        from_hour: Window in which it runs, start [0, 24).
        to_hour: Window end (0, 24]; smaller than the start when it runs over midnight.
        season: When in the year.
        share_of_days: 1 every day, 5/7 on weekdays, 1/7 once a week.
        waits_days: Days it may be put off until there is sun to spare; None for a use that does not wait.
        days: Which days of the week it falls on, where the sentence says so.
    """

    name: str
    written: str
    power_w: float
    hours_per_day: float
    from_hour: float
    to_hour: float
    season: Literal["all year", "winter", "summer"]
    share_of_days: float
    waits_days: float | None = None
    days: Literal["any", "weekdays", "weekends"] = "any"


@dataclass(frozen=True, slots=True)
class BatteryTableRow:
    """A line of a maker's discharge table: so much charge when drawn evenly over so many hours.

    Attributes:
        written: The owner's words.
        charge_ah: [Ah].
        hours: [h].
    """

    written: str
    charge_ah: float
    hours: float


@dataclass(frozen=True, slots=True)
class SkylineReading:
    """One reading of the skyline, eye to the top of what stands there.

    Attributes:
        written: The owner's words.
        bearing_deg: As read off the compass.
        height: In fists or degrees.
        in_fists: Which of the two.
        trees: Trees, which let some light through; otherwise ground, hills, buildings.
    """

    written: str
    bearing_deg: float
    height: float
    in_fists: bool
    trees: bool
