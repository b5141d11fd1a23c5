"""Engine hours and fuel saved, turned into money, year by year, and the winters until they have paid."""

from __future__ import annotations

from math import isfinite

import numpy as np
from numpy.typing import NDArray

from polestead.homestead.model import Prices

Floats = NDArray[np.float64]
Pair = tuple[float, float]
Saved = tuple[Floats, Floats, Floats]  # engine hours, fuel by the low end, fuel by the high end

HORIZON = 100  # winters; longer than any array, pole or owner
DRAWS = 400
SEED = 1


def point(values: Floats, share: float) -> float:
    """The point of a yearly figure under which so large a share of the years lies."""
    return float(np.quantile(values, share))


def saved_by_year(
    prices: Prices, hours_saved: Floats, fuel_least_l: Floats, fuel_most_l: Floats
) -> tuple[Floats, Floats]:
    """Money saved each year by the low and by the high end of the fuel line; less than 0 where it costs.

    Source: fuel saved x its price + engine hours saved x what an hour wears.

    Returns:
        Low and high, low never over high [years] each.
    """
    if not hours_saved.shape == fuel_least_l.shape == fuel_most_l.shape or hours_saved.size == 0:
        message = "hours and fuel saved need the same years, at least one"
        raise ValueError(message)
    wear = hours_saved * prices.engine_hour
    by_least = fuel_least_l * prices.fuel_per_l + wear
    by_most = fuel_most_l * prices.fuel_per_l + wear
    return np.minimum(by_least, by_most), np.maximum(by_least, by_most)


def winters_until_paid(total: float, low: Floats, high: Floats) -> Pair | None:
    """Whole winters until the savings reach the total: the sooner and the later end.

    Winters are drawn from the years worked, with the same luck for both ends: the sooner end is the 10 % point by the
    high end of the fuel line, the later end the 90 % point by the low end.  Source: our own rule.

    Args:
        total: To be paid.
        low: Saved each year by the low end [years].
        high: By the high end [years].

    Returns:
        (sooner, later), or None when nothing is priced, or when it may never be paid.

    Example:
        >>> winters_until_paid(1000.0, np.full(20, 100.0), np.full(20, 200.0))
        (5.0, 10.0)
    """
    if total <= 0.0:
        return None
    picks = drawn_winters(low.size, HORIZON)
    sooner = float(np.quantile(_paid_after(total, high[picks]), 0.1, method="lower"))
    later = float(np.quantile(_paid_after(total, low[picks]), 0.9, method="higher"))
    return (sooner, later) if isfinite(sooner) and isfinite(later) else None


def drawn_winters(years: int, winters: int) -> NDArray[np.int64]:
    """Which of the years worked each winter of each run is [draws, winters]; the same every time."""
    return np.random.default_rng(SEED).integers(0, years, size=(DRAWS, winters))


def _paid_after(total: float, savings: Floats) -> Floats:
    """Winters until each run of savings [draws, winters] reaches the total; endless where it goes nowhere."""
    sums = np.cumsum(savings, axis=1)
    reached = sums >= total * (1.0 - 1e-12)
    within = reached.argmax(axis=1) + 1.0
    with np.errstate(divide="ignore", over="ignore"):
        beyond = np.where(sums[:, -1] > 0.0, np.ceil(HORIZON * total / np.abs(sums[:, -1])), np.inf)
    return np.where(reached.any(axis=1), within, beyond)
