"""What `habits` hands up."""

from __future__ import annotations

from dataclasses import dataclass

from polestead.base.spread import Spread
from polestead.mount.schedule import TiltSchedule


@dataclass(frozen=True, slots=True)
class Habit:
    """One way of tipping over the year, judged through the household.

    Attributes:
        schedule: Its moves.
        engine_hours: Good, median, bad.
        fuel_most_l: The same for fuel (upper end of the fuel line).
        dark_hours: The same for hours without power; the measure of a house without an engine.
        saves_hours: What tipping so is worth: engine and dark hours of the best fixed tilt less those of this habit, year by
            year; here more is better, so ``good`` is the 90 % point.
        sun_wh_year: Sun on the array it turns into power in a mean year, whether or not the house can use it.
        used_wh_year: What the house could use of all arrays in a mean year.
        same_as_best: True where it cannot be told apart from the best habit (their year-by-year difference
            has a 90 % interval that holds zero).
    """

    schedule: TiltSchedule
    engine_hours: Spread
    fuel_most_l: Spread
    dark_hours: Spread
    saves_hours: Spread
    sun_wh_year: float
    used_wh_year: float
    same_as_best: bool
