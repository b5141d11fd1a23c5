"""What `habits` hands up."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from polestead.base.spread import Spread
from polestead.household.result import HouseYears
from polestead.mount.schedule import TiltSchedule


@dataclass(frozen=True, slots=True)
class Habit:
    """One way of tipping over the year, judged through the household.

    Attributes:
        schedule: Its moves.
        engine_hours: Good, median, bad.
        fuel_most_l: The same for fuel (upper end of the fuel line).
        sun_wh_year: Sun on the array it turns into power in a mean year, whether or not the house can use it.
        used_wh_year: What the house could use of all arrays in a mean year.
        same_as_best: True where it cannot be told apart from the best habit (their year-by-year difference
            has a 90 % interval that holds zero).
    """

    schedule: TiltSchedule
    engine_hours: Spread
    fuel_most_l: Spread
    sun_wh_year: float
    used_wh_year: float
    same_as_best: bool


def habits_of(
    least_tilt_deg: float,
    steepest_tilt_deg: float,
    own: TiltSchedule,
    monthly_wh_by_tilt: NDArray[np.float64],
    tilts_deg: NDArray[np.float64],
    house_with: Callable[[TiltSchedule], HouseYears],
    sun_wh_year: Callable[[TiltSchedule], float],
) -> tuple[Habit, ...]:
    """Fixed at its best winter angle, two moves, four, monthly, and the owner's own; best first.

    Args:
        own: The owner's own moves (winter and summer tilt of the mount section).
        monthly_wh_by_tilt: Mean energy of the new array by month (January first) and tilt [12, tilts].
        tilts_deg: [tilts].
        house_with: Runs the house with the new array under a schedule.
        sun_wh_year: Energy of the new array in a mean year under a schedule.
    """
    raise NotImplementedError
