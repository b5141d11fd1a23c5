"""Good, median and bad year of a figure that has one value per year (conventions §14)."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray


@dataclass(frozen=True, slots=True)
class Spread:
    """Points of a yearly figure where *more is worse* (engine hours, fuel).

    Attributes:
        good: 10 % point: one year in ten is as good or better.
        median: 50 % point.
        bad: 90 % point: one year in ten is as bad or worse.
        bad_low: Lower end of the bad year's 90 % bootstrap interval.
        bad_high: Upper end of it.
        mean: Mean of all years.
        years: Number of years.
    """

    good: float
    median: float
    bad: float
    bad_low: float
    bad_high: float
    mean: float
    years: int

    def times(self, factor: float) -> Spread:
        """The same spread in another unit; the factor is above nothing."""
        return Spread(
            self.good * factor,
            self.median * factor,
            self.bad * factor,
            self.bad_low * factor,
            self.bad_high * factor,
            self.mean * factor,
            self.years,
        )


def spread(values: NDArray[np.floating], seed: int = 0, draws: int = 400) -> Spread:
    """Spread of one figure over the years.

    Args:
        values: One value per year, more is worse [years].
        seed: Seed of the bootstrap.
        draws: Bootstrap draws.

    Example:
        >>> s = spread(np.arange(101.0))
        >>> s.good, s.median, s.bad
        (10.0, 50.0, 90.0)
    """
    good, median, bad = np.quantile(values, (0.1, 0.5, 0.9))
    rng = np.random.default_rng(seed)
    picks = rng.integers(0, values.size, size=(draws, values.size))
    bads = np.quantile(values[picks], 0.9, axis=1)
    low, high = np.quantile(bads, (0.05, 0.95))
    return Spread(
        float(good),
        float(median),
        float(bad),
        float(low),
        float(high),
        float(values.mean()),
        int(values.size),
    )
