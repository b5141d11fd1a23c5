"""The worst fourteen days of a bad year, hour by hour: what a chart of the charge needs."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from polestead.household.result import HouseHours, HouseYears

DAYS = 14
BAD = 0.9  # the 90 % point, as everywhere (conventions §14)
GREY_UNDER = 0.3  # of the best day within a month about it: our own rule


@dataclass(frozen=True, slots=True)
class Fortnight:
    """Fourteen days in a row.

    Attributes:
        calendar_days: 1 to 365 [14].
        charge_share: State of charge at the start of each hour [336].
        engine_h: Share of each hour the engine ran [336].
        sun_wh: Sun the house could use, by day [14].
        grey: Whether the array could have given less than 0.3 of the best day within fifteen days about it [14].
        dark_hours: Hours in which some use was not met.
    """

    calendar_days: tuple[int, ...]
    charge_share: tuple[float, ...]
    engine_h: tuple[float, ...]
    sun_wh: tuple[float, ...]
    grey: tuple[bool, ...]
    dark_hours: float


def bad_year(years: HouseYears) -> int:
    """Number of the year nearest the 90 % point of engine hours; where no engine runs, of hours without power.

    Where neither is ever wanted, the year of the lowest charge.
    """
    for told in (years.engine_hours.sum(axis=1), years.dark_hours):
        if told.max() > 0.0:
            return int(np.abs(told - np.quantile(told, BAD)).argmin())
    return int(years.lowest_charge.argmin())


def worst_fortnight(hours: HouseHours, year: int, calendar_day: NDArray[np.int64]) -> Fortnight:
    """Of one year: most engine and dark hours; where these are alike, the least charge.

    Args:
        hours: The block the year lies in.
        year: Its place in the block.
        calendar_day: Of each day of the working year [365].
    """
    engine, dark = _by_day(hours.engine_h[year]), _by_day(hours.dark_h[year])
    charge = _by_day(hours.charge[year]) / 24.0
    sun = _by_day(hours.sun_used_wh[year])
    offered = sun + _by_day(hours.turned_away_wh[year])
    first = int(np.argmax(_running(engine + dark - 1e-6 * charge)))
    days, whole = slice(first, first + DAYS), slice(24 * first, 24 * (first + DAYS))
    return Fortnight(
        calendar_days=tuple(int(day) for day in calendar_day[days]),
        charge_share=_plain(hours.charge[year, whole]),
        engine_h=_plain(hours.engine_h[year, whole]),
        sun_wh=_plain(sun[days]),
        grey=tuple(bool(one) for one in (offered < GREY_UNDER * _best_about(offered))[days]),
        dark_hours=float(dark[days].sum()),
    )


def _by_day(by_hour: NDArray[np.float64]) -> NDArray[np.float64]:
    return np.asarray(by_hour.reshape(-1, 24).sum(axis=1))


def _running(by_day: NDArray[np.float64]) -> NDArray[np.float64]:
    """Sum of each fourteen days in a row."""
    return np.convolve(by_day, np.ones(DAYS), "valid")


def _best_about(by_day: NDArray[np.float64]) -> NDArray[np.float64]:
    """The best day within fifteen days about each, over the turn of the year."""
    return np.asarray(np.max([np.roll(by_day, shift) for shift in range(-15, 16)], axis=0))


def _plain(values: NDArray[np.float64]) -> tuple[float, ...]:
    return tuple(float(value) for value in values)
