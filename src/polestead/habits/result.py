"""What `habits` hands up."""

from __future__ import annotations

from dataclasses import dataclass

from polestead.base.spread import Spread
from polestead.base.working import Working
from polestead.mount.schedule import Habitual


@dataclass(frozen=True, slots=True)
class Habit:
    """One way of tipping over the year, judged through the household.

    Attributes:
        schedule: Its moves, or the rule by the sky.
        engine_hours: Good, median, bad.
        fuel_least_l, fuel_most_l: The same for fuel, by the two ends of the fuel line.
        dark_hours: The same for hours without power; the measure of a house without an engine.
        saves_hours: What tipping so is worth: engine and dark hours of the best fixed tilt less those of this habit, year by
            year; here more is better, so ``good`` is the 90 % point.
        cost_least, cost_most: Money for fuel and engine a year, by the two ends of the fuel line.
        sun_wh_year: Sun on the array it turns into power in a mean year, whether or not the house can use it.
        used_wh_year: What the house could use of all arrays in a mean year.
        moves_a_year: Walks to the pole in a mean year.
        engine_hours_by_month: Mean, January first; ``engine_hours_bad_by_month`` its 90 % point.
        engine_hours_bad_by_month: See there.
        sun_used_wh_by_month: Mean, January first; its 10 and 90 % points beside.
        turned_away_wh_by_month: Sun the house could not take, mean.
        same_as_best: True where it cannot be told apart from the best habit.
        more_than_best_h: Engine and dark hours a year more than the best habit's, in the mean of the years: its 90 % interval.
        group: Habits of one number cannot be told apart from the best of them; 1 holds the best.
        a_bound: True for what is no habit: the most any could bring.
    """

    schedule: Habitual
    engine_hours: Spread
    fuel_least_l: Spread
    fuel_most_l: Spread
    dark_hours: Spread
    saves_hours: Spread
    cost_least: Spread
    cost_most: Spread
    sun_wh_year: float
    used_wh_year: float
    moves_a_year: float
    engine_hours_by_month: tuple[float, ...]
    engine_hours_bad_by_month: tuple[float, ...]
    sun_used_wh_by_month: tuple[float, ...]
    sun_used_low_wh_by_month: tuple[float, ...]
    sun_used_high_wh_by_month: tuple[float, ...]
    turned_away_wh_by_month: tuple[float, ...]
    same_as_best: bool
    group: int
    more_than_best_h: tuple[float, float]
    a_bound: bool


@dataclass(frozen=True, slots=True)
class TippingWorth:
    """What the actuator earns in sun at this house: the best way of moving against the best fixed tilt.

    Attributes:
        moving: Name of the best way of moving.
        fixed_tilt_deg: The best fixed tilt.
        saves_hours: Engine and dark hours a year; more is better.
        saves_least, saves_most: Money a year, by the two ends of the fuel line; more is better.
        if_off_h: Mean hours saved were the climate brighter, and were it darker, by the error of its source; empty where
            years were measured.
        told_apart: False where the years cannot tell the two apart.
        working: How it comes about.
    """

    moving: str
    fixed_tilt_deg: float
    saves_hours: Spread
    saves_least: Spread
    saves_most: Spread
    if_off_h: tuple[float, ...]
    told_apart: bool
    working: Working
