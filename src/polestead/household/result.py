"""What `household` hands up."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, fields

import numpy as np
from numpy.typing import NDArray

from polestead.base.spread import Spread
from polestead.base.working import Working
from polestead.household.wear import Wear

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True, eq=False)
class HouseYears:
    """The house over all working years, with one set of arrays.

    Attributes:
        engine_hours: By month of the calendar (0 = January) [years, 12].
        sun_used_wh: Sun that reached battery or house, from all arrays, at the battery's terminals [years, 12].
        full_wh, acceptance_wh, held_back_wh: Sun turned away: battery full, battery could not take it so fast,
            controller at its limit [years, 12].
        uses_wh: What the uses asked for [years].
        dark_wh: What they did not get [years].
        dawn_charge: Mean charge at 6 h by month [years, 12].
        lowest_charge: Lowest charge of the year [years].
        charge: State of charge at the start of each hour of the year nearest to the median of engine hours [8760].
        freeze_margin_k: Least the battery was warmer than the freezing point of its acid [years]; endless for lithium.
        longest_since_brim_full_days: Longest time between two full charges, counted over the turn of the year [years].
        balance_error: Largest of three balances (charge, terminals, arrays) as a share of the bank's capacity [years].
        starts_by_month: Engine starts [years, 12].
        engine_wh_by_month: What the engine gave, house and charger [years, 12].
        fuel_least_l_by_month, fuel_most_l_by_month: Fuel by the two ends of the fuel line [years, 12].
        dark_hours_by_month: Hours in which some use was not met [years, 12].
        longest_dark_h: Longest spell of such hours [years].
        failed_starts: Times the engine was called and did not start [years].
        fills: Times the tank was filled [years].
        dry_hours: Hours in which the engine was called and its tank could not feed it [years].
        waited_wh: Energy of the uses that wait for sun [years]; ``sunless_wh`` of it was drawn without sun after all.
        sunless_wh: See there.
        heater_wh: What the bank's heater drew [years].
        wear: What the year did to the bank.
        notes: What stands beside the figures.
    """

    engine_hours: Floats
    sun_used_wh: Floats
    full_wh: Floats
    acceptance_wh: Floats
    held_back_wh: Floats
    uses_wh: Floats
    dark_wh: Floats
    dawn_charge: Floats
    lowest_charge: Floats
    charge: Floats
    freeze_margin_k: Floats
    longest_since_brim_full_days: Floats
    balance_error: Floats
    starts_by_month: Floats
    engine_wh_by_month: Floats
    fuel_least_l_by_month: Floats
    fuel_most_l_by_month: Floats
    dark_hours_by_month: Floats
    longest_dark_h: Floats
    failed_starts: Floats
    fills: Floats
    dry_hours: Floats
    waited_wh: Floats
    sunless_wh: Floats
    heater_wh: Floats
    wear: Wear
    notes: tuple[str, ...] = ()

    @property
    def starts(self) -> Floats:
        """Engine starts [years]."""
        return _year(self.starts_by_month)

    @property
    def fuel_least_l(self) -> Floats:
        """Fuel by the kinder end of the fuel line [years]."""
        return _year(self.fuel_least_l_by_month)

    @property
    def fuel_most_l(self) -> Floats:
        """Fuel by the thirstier end of it [years]."""
        return _year(self.fuel_most_l_by_month)

    @property
    def engine_wh(self) -> Floats:
        """What the engine gave, house and charger [years]."""
        return _year(self.engine_wh_by_month)

    @property
    def dark_hours(self) -> Floats:
        """Hours in which some use was not met [years]."""
        return _year(self.dark_hours_by_month)


def _year(by_month: Floats) -> Floats:
    return np.asarray(by_month.sum(axis=1))


def middle_year(hours: Floats) -> int:
    """The year nearest to the median of engine hours [years]."""
    return int(np.argmin(np.abs(hours - np.median(hours))))


def joined(blocks: Sequence[HouseYears]) -> HouseYears:
    """Blocks of years laid end to end; the hourly charge is the block's nearest to the median of all.

    Args:
        blocks: At least one, of the same house.
    """
    if len(blocks) == 1:
        return blocks[0]
    together = {
        part.name: np.concatenate([getattr(block, part.name) for block in blocks])
        for part in fields(HouseYears)
        if part.name not in ("charge", "notes", "wear")
    }
    wear = Wear(
        *(
            np.concatenate([getattr(block.wear, part.name) for block in blocks])
            for part in fields(Wear)
        )
    )
    median = float(np.median(together["engine_hours"].sum(axis=1)))
    nearest = [
        abs(float(hours[middle_year(hours)]) - median)
        for hours in (block.engine_hours.sum(axis=1) for block in blocks)
    ]
    return HouseYears(
        **together,
        charge=blocks[int(np.argmin(nearest))].charge,
        wear=wear,
        notes=blocks[0].notes,
    )


@dataclass(frozen=True, slots=True, eq=False)
class HouseHours:
    """A block of years hour by hour, each [years, hours].

    Attributes:
        charge: At the start of the hour.
        engine_h: Share of the hour the engine ran.
        sun_used_wh, turned_away_wh: Sun that reached battery or house, and sun it could not take.
        dark_h: 1 where some use was not met.
    """

    charge: Floats
    engine_h: Floats
    sun_used_wh: Floats
    turned_away_wh: Floats
    dark_h: Floats


@dataclass(frozen=True, slots=True)
class HouseSummary:
    """Good, median and bad year of what the owner asks for; what a chart of the months needs.

    Attributes:
        engine_hours, fuel_least_l, fuel_most_l, dark_hours, longest_dark_h: Good, median and bad year.
        engine_hours_by_month: Mean, January first; good and bad (10 and 90 % points) beside.
        fuel_least_l_by_month, fuel_most_l_by_month, starts_by_month, dark_hours_by_month: Mean.
        dawn_charge_by_month: Mean charge at 6 h, and its 10 % point.
        full_wh_by_month, acceptance_wh_by_month, held_back_wh_by_month: Sun turned away, mean, by cause.
        starts, fills, failed_starts, dry_hours: In a mean year.
        full_cycles, water_l, cycling_loss: Wear in a mean year; the last not a number for lead-acid.
        longest_since_brim_full_days: In a median year.
        sun_used_low_wh_by_month, sun_used_high_wh_by_month: 10 and 90 % points of each month.
    """

    engine_hours: Spread
    fuel_least_l: Spread
    fuel_most_l: Spread
    dark_hours: Spread
    engine_hours_by_month: tuple[float, ...]  # mean over the years, January first
    sun_used_wh_by_month: tuple[float, ...]
    turned_away_wh_by_month: tuple[float, ...]
    working: Working
    longest_dark_h: Spread
    engine_hours_good_by_month: tuple[float, ...]
    engine_hours_bad_by_month: tuple[float, ...]
    fuel_least_l_by_month: tuple[float, ...]
    fuel_most_l_by_month: tuple[float, ...]
    starts_by_month: tuple[float, ...]
    dark_hours_by_month: tuple[float, ...]
    dawn_charge_by_month: tuple[float, ...]
    dawn_charge_low_by_month: tuple[float, ...]
    full_wh_by_month: tuple[float, ...]
    acceptance_wh_by_month: tuple[float, ...]
    held_back_wh_by_month: tuple[float, ...]
    starts: float
    fills: float
    failed_starts: float
    dry_hours: float
    full_cycles: float
    water_l: float
    cycling_loss: float
    longest_since_brim_full_days: float
    sun_used_low_wh_by_month: tuple[float, ...]
    sun_used_high_wh_by_month: tuple[float, ...]


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
