"""The gusts of a place: the rare ones from the code's map, the everyday ones from a weather file or a rough rule."""

from __future__ import annotations

from dataclasses import dataclass
from math import exp, gamma, log

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
MONTH_DAYS = np.array([31, 28.25, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31])
MAP_YEARS = 700.0  # return period of the map for risk category II (ASCE 7-16 and 7-22, 26.5)
EN_MAP_YEARS = 50.0  # of the Eurocode's basic wind velocity (EN 1991-1-4, 4.2)
EVERYDAY_SHARE = 0.22  # mean daily largest gust over the 50-year gust, open inland country: from memory, .15 to .3
EVERYDAY_SHAPE = 2.2  # of its Weibull distribution: from memory
GUST_OVER_HOURLY_MEAN = (
    1.5  # three seconds over the hour, open country (ASCE 7, fig. C26.5-1, from memory)
)


def return_gust_share(years: float) -> float:
    """Gust of a return period over the 50-year gust.

    ASCE 7, commentary to 26.5 (from memory): V_T / V_50 = .36 + .1 ln(12 T), places that see no hurricanes; T from 5 years.

    Args:
        years: T.

    Returns:
        Share.

    Raises:
        ValueError: Under one year, where the form does not hold.

    Example:
        >>> round(return_gust_share(50.0), 2), round(return_gust_share(700.0), 2)
        (1.0, 1.26)
    """
    if years < 1.0:
        message = "a return period under a year has no such gust"
        raise ValueError(message)
    return 0.36 + 0.1 * log(12.0 * years)


@dataclass(frozen=True, slots=True, eq=False)
class GustClimate:
    """Gusts of three seconds at 10 m in the open.

    Attributes:
        fifty_year_m_s: The 50-year gust [m/s].
        everyday_mean_m_s: Mean of the day's largest gust by month, January first [12].
        share_by_month: In which month the rare gusts come, sums to 1 [12].
        source: In words.
    """

    fifty_year_m_s: float
    everyday_mean_m_s: tuple[float, ...]
    share_by_month: tuple[float, ...]
    source: str

    def gust_of_m_s(self, years: float) -> float:
        """Gust of a return period, a year and more [m/s]."""
        return self.fifty_year_m_s * return_gust_share(years)

    def chance_over(self, gust_m_s: float, days: float, month: int) -> float:
        """Chance that the largest gust of some days in a month is over a speed: the larger of the two bodies of evidence.

        The rare gusts come at a rate of exp(-(v - V_1)/(.1 V_50)) a year (the return-period form read backwards); the
        everyday ones follow a Weibull distribution about their month's mean.

        Args:
            gust_m_s: v [m/s].
            days: How many.
            month: 1 to 12.

        Returns:
            0 to 1.
        """
        rate = exp(-(gust_m_s - self.gust_of_m_s(1.0)) / (0.1 * self.fifty_year_m_s))
        rare = rate * self.share_by_month[month - 1] * days / float(MONTH_DAYS[month - 1])
        scale = self.everyday_mean_m_s[month - 1] / gamma(1.0 + 1.0 / EVERYDAY_SHAPE)
        under = 1.0 - exp(-((gust_m_s / scale) ** EVERYDAY_SHAPE))
        return float(max(1.0 - exp(-rare), 1.0 - under**days))


def gusts_of_map(map_speed_m_s: float, wind_m_s: Floats | None = None, months: NDArray[np.int64] | None = None, map_years: float = MAP_YEARS) -> GustClimate:  # fmt: skip
    """Gust climate of a place from the code's map, and from a weather file's hourly wind where there is one.

    Args:
        map_speed_m_s: Basic wind speed of risk category II, 700 years [m/s].
        wind_m_s: Hourly mean wind at 10 m of whole days; None for the rough rule [hours].
        months: Month of each hour, 1 to 12 [hours].
        map_years: Return period of the map's speed.

    Returns:
        The climate; without a file every month is alike, which is wrong wherever storms have a season.

    Example:
        >>> climate = gusts_of_map(47.8)
        >>> round(climate.fifty_year_m_s, 1), round(climate.gust_of_m_s(10.0), 1)
        (37.8, 31.7)
    """
    fifty = map_speed_m_s / return_gust_share(map_years)
    even = (1.0 / 12.0,) * 12
    if wind_m_s is None or months is None:
        return GustClimate(fifty, (EVERYDAY_SHARE * fifty,) * 12, even, "the code's map and a rough rule for everyday gusts")  # fmt: skip
    largest = GUST_OVER_HOURLY_MEAN * wind_m_s.reshape(-1, 24).max(axis=1)
    month = months.reshape(-1, 24)[:, 0]
    means = tuple(float(largest[month == m].mean()) for m in range(1, 13))
    # rare gusts are given to the months by their windiest tenth of days, to the power the tail has over it
    high = np.array([np.quantile(largest[month == m], 0.9) for m in range(1, 13)])
    weight = np.exp(high / (0.1 * fifty))
    return GustClimate(fifty, means, tuple(float(w) for w in weight / weight.sum()), "the code's map, and the weather file's wind for the seasons")  # fmt: skip
