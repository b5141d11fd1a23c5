"""What `household` hands up."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from polestead.base.spread import Spread
from polestead.base.working import Working

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True, eq=False)
class HouseYears:
    """The house over all working years, with one set of arrays.

    Attributes:
        engine_hours: By month of the calendar (0 = January) [years, 12].
        starts: Engine starts [years].
        fuel_least_l, fuel_most_l: Fuel by the two ends of the fuel line [years].
        engine_wh: What the engine gave, house and charger [years].
        sun_used_wh: Sun that reached battery or house, from all arrays, at the battery's terminals [years, 12].
        full_wh, acceptance_wh, held_back_wh: Sun turned away: battery full, battery could not take it so fast,
            controller at its limit [years, 12].
        uses_wh: What the uses asked for [years].
        dark_wh: What they did not get [years].
        dark_hours: Hours in which some use was not met [years].
        dawn_charge: Mean charge at 6 h by month [years, 12].
        lowest_charge: Lowest charge of the year [years].
        charge: State of charge at the start of each hour of the year nearest to the median of engine hours [8760].
        freeze_margin_k: Least the battery was warmer than the freezing point of its acid [years]; endless for lithium.
        longest_since_brim_full_days: Longest time between two full charges, counted over the turn of the year [years].
        balance_error: Largest of three balances (charge, terminals, arrays) as a share of the bank's capacity [years].
        notes: What stands beside the figures.
    """

    engine_hours: Floats
    starts: Floats
    fuel_least_l: Floats
    fuel_most_l: Floats
    engine_wh: Floats
    sun_used_wh: Floats
    full_wh: Floats
    acceptance_wh: Floats
    held_back_wh: Floats
    uses_wh: Floats
    dark_wh: Floats
    dark_hours: Floats
    dawn_charge: Floats
    lowest_charge: Floats
    charge: Floats
    freeze_margin_k: Floats
    longest_since_brim_full_days: Floats
    balance_error: Floats
    notes: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class HouseSummary:
    """Good, median and bad year of what the owner asks for."""

    engine_hours: Spread
    fuel_least_l: Spread
    fuel_most_l: Spread
    dark_hours: Spread
    engine_hours_by_month: tuple[float, ...]  # mean over the years, January first
    sun_used_wh_by_month: tuple[float, ...]
    turned_away_wh_by_month: tuple[float, ...]
    working: Working


@dataclass(frozen=True, slots=True)
class Beside:
    """One of the owner's own figures of last winter, beside ours.

    Attributes:
        word: What it is.
        ours_good, ours_median, ours_bad: 10, 50 and 90 % points of the years without the new array.
        theirs: The owner's figure.
        unit: SI unit, empty for a share.
        within: Whether theirs lies between our good and bad year.
    """

    word: str
    ours_good: float
    ours_median: float
    ours_bad: float
    theirs: float
    unit: str
    within: bool
