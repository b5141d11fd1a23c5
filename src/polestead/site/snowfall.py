"""Fresh snow by day, roughly, from cold and dull days; and whether snow lies on the ground.

The shipped climate has no rain or snow in it.  The rule here is ours: good to half and double at a place nobody has told us of,
and scaled to the owner's own figure of a winter's snowfall where he gives one.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]

SNOWS_UNDER_C = 1.0  # mean of the day; most published thresholds lie between 0 and 2 C
WET_CLEAREST, WET_SLOPE, WET_LEAST, WET_MOST = (
    0.95,
    1.4,
    0.03,
    0.8,
)  # chance of a wet day by its clearness: ours
WATER_M = 0.0045  # mean of a wet day's water at 0 C: ours, from memory of station means
WATER_PER_K = 0.055  # colder air carries less, a little under what saturation allows
DEPTH_AT_0_C, DEPTH_PER_K, DEPTH_MOST = (
    10.0,
    0.5,
    20.0,
)  # of snow per depth of water: 10 to 20, common practice
MELT_M_K_DAY = 0.004  # water melted for each degree over 0 C and day: degree-day factors lie between 3 and 6 mm (from memory)
PACKED = 5.0  # depth of lying snow per depth of water
LIES_M = 0.025  # an inch


def wet_chance(clearness: Floats) -> Floats:
    """Chance that a day of a given clearness brings rain or snow (ours).

    Args:
        clearness: Of days, any shape.

    Example:
        >>> [round(float(p), 2) for p in wet_chance(np.array([0.15, 0.4, 0.7]))]
        [0.74, 0.39, 0.03]
    """
    return np.clip(WET_CLEAREST - WET_SLOPE * np.asarray(clearness), WET_LEAST, WET_MOST)


def mean_depth_m(day_c: Floats) -> Floats:
    """Mean fresh snow of a snowy day [m] (ours).

    Args:
        day_c: Mean temperature of the day, any shape [C].

    Example:
        >>> [round(float(d), 3) for d in mean_depth_m(np.array([0.0, -10.0, -25.0]))]
        [0.045, 0.039, 0.023]
    """
    cold = np.maximum(-np.asarray(day_c), 0.0)
    return np.asarray(WATER_M * np.exp(-WATER_PER_K * cold) * depth_per_water(day_c))


def depth_per_water(day_c: NDArray[np.floating]) -> Floats:
    """Depth of fresh snow over that of its water: 10 at 0 C, more in cold, 20 at most (common practice).

    Args:
        day_c: Mean temperature of the day, any shape [C].
    """
    cold = np.maximum(-np.asarray(day_c), 0.0)
    return np.asarray(np.minimum(DEPTH_AT_0_C + DEPTH_PER_K * cold, DEPTH_MOST))


def fresh_snow_m(clearness: Floats, day_c: Floats, drawn: Floats, scale: float = 1.0) -> Floats:
    """Fresh snow of days: on dull days that are cold, an exponential depth about the mean.

    Args:
        clearness: [years, days].
        day_c: Mean temperature [years, days] [C].
        drawn: Evenly spread numbers, one for whether and one for how much [years, 2, days].
        scale: Of the depth.

    Returns:
        [years, days] m.
    """
    snows = (drawn[:, 0] < wet_chance(clearness)) & (day_c < SNOWS_UNDER_C)
    depth = -np.log1p(-drawn[:, 1]) * mean_depth_m(day_c) * scale
    return np.where(snows, depth, 0.0)


def mean_snowfall_m_year(clearness: Floats, air_c: Floats) -> float:
    """What the rule gives in a mean year, by its own sums over usual days of each month [m].

    Args:
        clearness: Monthly, January first [12].
        air_c: The same [C].
    """
    spread = np.linspace(-1.6, 1.6, 9)
    weight = np.exp(-0.5 * spread**2)
    weight /= weight.sum()
    sky = np.clip(clearness[:, None] + 0.17 * spread, 0.04, 0.8)
    amplitude = float(np.ptp(air_c))
    cold = air_c[:, None] + 0.18 * amplitude * spread
    chance = (wet_chance(sky) * weight).sum(axis=1)
    depth = ((cold < SNOWS_UNDER_C) * mean_depth_m(cold) * weight).sum(axis=1)
    return float((chance * depth).sum() * 365.25 / 12.0)


def snow_lies(fresh_m: NDArray[np.floating], day_c: NDArray[np.floating]) -> NDArray[np.bool_]:
    """Whether an inch of snow lies on open ground [years, days].

    Args:
        fresh_m: Fresh snow [years, days].
        day_c: Mean temperature [years, days] [C].
    """
    return np.asarray(lying_snow_m(fresh_m, day_c) > LIES_M)


def lying_snow_m(fresh_m: NDArray[np.floating], day_c: NDArray[np.floating]) -> Floats:
    """Depth of packed snow on open ground, by a degree-day budget; no rain on it, no drift [years, days].

    Args:
        fresh_m: Fresh snow [years, days].
        day_c: Mean temperature [years, days] [C].
    """
    lies = np.zeros(fresh_m.shape)
    water = np.zeros(fresh_m.shape[0])
    for day in range(fresh_m.shape[1]):
        water = water + fresh_m[:, day] / depth_per_water(day_c[:, day])
        water = np.maximum(water - MELT_M_K_DAY * np.maximum(day_c[:, day], 0.0), 0.0)
        lies[:, day] = water * PACKED
    return lies
