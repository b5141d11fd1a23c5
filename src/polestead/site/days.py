"""How the days of a month spread about its mean clearness.

The mean and the form's own spread are Bendt's (with the limits of Hollands & Huget); the spread is then narrowed to what
places of that temperature show, for cold dry air and hot dry air vary less.  Days follow a beta distribution of that spread,
and a small share of them is very dark, so that the tail is not lost.

``NARROWING`` and ``DARK_DAYS`` are this project's own fit to 48 station-months of four long measured series (Kellogg MI,
Carrington ND, Swift Current SK, Maricopa AZ): root mean square error of the spread .010, with each station left out in turn at
most .020; the plain form is off by .027.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]

LEAST = 0.05  # least daily clearness (Hollands & Huget)
DARKEST, CLEARER = (
    0.04,
    0.02,
)  # ends of the family: a little under LEAST, a little over Hollands & Huget's largest
NARROWING = (
    1.182,
    -0.3374,
    -0.0144,
    -0.0098,
)  # share: constant, by clearness, by degrees under 5 C, by degrees over 5 C
NARROWEST, WIDEST = 0.5, 1.1
DARK_DAYS, DARK_DAYS_COLD = 0.02, 0.25  # share of very dark days; of it from 10 below on down
MEANS = (0.08, 0.76)  # monthly means the family is made for


def most_clear(mean: Floats) -> Floats:
    """Largest daily clearness in a month of a given mean.

    Source: Hollands & Huget 1983 (from memory): 0.6313 + 0.267 K - 11.9 (K - 0.75)^8.

    Args:
        mean: Monthly mean clearness, 0.1 to 0.75.

    Example:
        >>> [round(float(k), 4) for k in most_clear(np.array([0.3, 0.5, 0.7]))]
        [0.6914, 0.7646, 0.8182]
    """
    return np.asarray(0.6313 + 0.267 * mean - 11.9 * (mean - 0.75) ** 8)


def bendt_gamma(mean: Floats) -> Floats:
    """Exponent of Bendt's distribution of daily clearness, by Herzog's fit.

    Source: Herzog 1985 (from memory).

    Args:
        mean: Monthly mean clearness, 0.1 to 0.75.

    Example:
        >>> [round(float(g), 3) for g in bendt_gamma(np.array([0.3, 0.5, 0.7]))]
        [-2.1, 2.314, 8.517]
    """
    most = most_clear(mean)
    ratio = (most - LEAST) / (most - mean)
    return np.asarray(-1.498 + (1.184 * ratio - 27.182 * np.exp(-1.5 * ratio)) / (most - LEAST))


def bendt_clearness(mean: Floats, share: Floats) -> Floats:
    """Clearness of the day that a share of the days falls below, in Bendt's own form.

    Source: Bendt et al. 1981 (from memory): F = (e^(g Kmin) - e^(g K)) / (e^(g Kmin) - e^(g Kmax)).

    Args:
        mean: Monthly mean clearness.
        share: Between 0 and 1, same shape.
    """
    gamma, most = bendt_gamma(mean), most_clear(mean)
    gamma = np.where(np.abs(gamma) < 1e-3, 1e-3, gamma)
    low, high = np.exp(gamma * LEAST), np.exp(gamma * most)
    return np.asarray(np.log((1.0 - share) * low + share * high) / gamma)


@cache
def _bendt_spreads() -> tuple[Floats, Floats]:
    """Standard deviation of Bendt's form over a grid of means."""
    means = np.linspace(*MEANS, 69)
    shares = (np.arange(1000.0) + 0.5) / 1000.0
    return means, bendt_clearness(means[:, None], shares[None, :]).std(axis=1)


def spread_of_days(mean: Floats, air_c: Floats) -> Floats:
    """Standard deviation of the daily clearness within a month.

    Args:
        mean: Monthly mean clearness.
        air_c: Monthly mean air temperature, same shape [C].

    Example:
        >>> [round(float(s), 3) for s in spread_of_days(np.array([0.375, 0.525]), np.array([-4.0, -13.0]))]
        [0.181, 0.141]
    """
    constant, by_mean, under, over = NARROWING
    share = (
        constant
        + by_mean * mean
        + under * np.maximum(5.0 - air_c, 0.0)
        + over * np.maximum(air_c - 5.0, 0.0)
    )
    return np.asarray(np.interp(mean, *_bendt_spreads()) * np.clip(share, NARROWEST, WIDEST))


@dataclass(frozen=True, slots=True, eq=False)
class DaySpread:
    """How the days of a place's own series spread about their month's mean.

    Attributes:
        sd_by_month: Standard deviation of the daily clearness, January first [12].
        memory: Correlation of one day with the next.
        days: How many days it was learned from.
    """

    sd_by_month: Floats
    memory: float
    days: int


def daily_clearness(
    mean: Floats,
    air_c: Floats,
    share: Floats,
    learned: Floats | None = None,
) -> Floats:
    """Clearness of days, drawn by a share between 0 and 1; the mean of many is the month's mean.

    A share under the very dark days' own is one of them, evenly between the darkest and half the mean; the others follow
    a beta distribution whose mean and spread make up the month's.

    Args:
        mean: Monthly mean clearness, any shape.
        air_c: Monthly mean air temperature, same shape [C].
        share: Same shape.
        learned: Standard deviation of the days of the place's own series, that broadcasts to the shape; None for the family's.
    """
    from scipy.special import betaincinv

    low, high = DARKEST, most_clear(mean) + CLEARER
    dark = DARK_DAYS * np.clip((air_c + 10.0) / 10.0, DARK_DAYS_COLD, 1.0)
    spread = spread_of_days(mean, air_c) if learned is None else learned
    dark_mean, dark_var = (low + mean / 2.0) / 2.0, (mean / 2.0 - low) ** 2 / 12.0
    other = (mean - dark * dark_mean) / (1.0 - dark)
    squares = spread**2 + mean**2 - dark * (dark_var + dark_mean**2)
    room = (other - low) * (high - other)
    variance = np.clip(squares / (1.0 - dark) - other**2, 1e-5, 0.9 * room)
    weight = room / variance - 1.0
    at = (other - low) / (high - low)
    rest = np.clip((share - dark) / (1.0 - dark), 1e-9, 1.0 - 1e-9)
    drawn = low + (high - low) * betaincinv(at * weight, (1.0 - at) * weight, rest)
    return np.asarray(np.where(share < dark, low + (mean / 2.0 - low) * share / dark, drawn))
