"""What `money` hands up."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from polestead.base.working import Working
from polestead.homestead.model import Prices


@dataclass(frozen=True, slots=True)
class MoneyResult:
    """What it costs and what it saves, in the owner's currency.

    Attributes:
        currency: As written.
        lines: Ledger lines (name, amount, mark ``~`` where estimated).
        total: Their sum.
        saved_good, saved_median, saved_bad: Saved in a year in fuel and engine hours, least to most fuel (low, high).
        per_engine_hour_saved: Total over the engine hours saved in ten median winters, None when none is saved.
        winters_low, winters_high: Paid for after so many winters; None when it saves nothing.
        working: The sums.
        doubts: A slipped unit or an absurd price, in words.
    """

    currency: str
    lines: tuple[tuple[str, float, str], ...]
    total: float
    saved_good: tuple[float, float]
    saved_median: tuple[float, float]
    saved_bad: tuple[float, float]
    per_engine_hour_saved: float | None
    winters_low: float | None
    winters_high: float | None
    working: Working
    doubts: tuple[str, ...]


def money_of(
    prices: Prices,
    concrete_m3: float,
    module_power_w: float,
    hours_saved: NDArray[np.float64],
    fuel_saved_least_l: NDArray[np.float64],
    fuel_saved_most_l: NDArray[np.float64],
) -> MoneyResult:
    """Ledger total, saved money in good, median and bad years, winters until paid.

    Args:
        concrete_m3: To order; used where the ledger has a price per volume but no concrete line.
        module_power_w: Rated power of the new array, to catch a slipped unit.
        hours_saved, fuel_saved_least_l, fuel_saved_most_l: Year by year, without minus with the new array [years].
    """
    raise NotImplementedError
