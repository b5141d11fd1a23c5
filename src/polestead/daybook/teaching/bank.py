"""Dawn charge and engine hours week by week against what was expected: an ageing battery, or a house that uses more.

Page's cumulative sum (1954) on values brought to a standard normal by the log's own past (self-starting: Hawkins 1987, The
Statistician 36:299), with the threshold from the false-alarm budget by the Markov chain of Brook & Evans (1972).
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from math import sqrt
from typing import Literal

import numpy as np

from polestead.base.source import Source
from polestead.daybook.teaching.run_length import cusum_threshold
from polestead.daybook.teaching.series import Expected, Floats, Ints, Seen

REFERENCE = 0.5  # k: half of the shift watched for, one standard deviation
BUDGET_WEEKS = 522.0  # one false alarm in ten years, each; ours
LEAST_DAYS = 3  # of a week
WARM_UP = 12  # weeks before anything is told; ours
BACK_WEEKS = 8  # so many weeks nearer to what was before, and it is over; ours
BOUND = 2.0  # a single week counts no more standard deviations; ours
HAWKINS = Source("Hawkins 1987, The Statistician 36:299", "self-starting cumulative sum", "memory")
WeeklyName = Literal["dawn charge", "engine hours"]


@dataclass(frozen=True, slots=True)
class WeeklyAlarm:
    """A lasting shift of a weekly figure against the expected.

    Attributes:
        name: Which figure.
        since: Number of the first day of the week it most likely began with.
        told: Number of the last day of the week it was told.
        until: Number of the first day of the weeks from which it was back; None while it lasts.
        before, after: Mean of seen less expected before and since.
        unit: Of both.
        value, threshold: Of the cumulative sum.
        weeks: Weeks from the start to the telling.
    """

    name: WeeklyName
    since: int
    told: int
    until: int | None
    before: float
    after: float
    unit: str
    value: float
    threshold: float
    weeks: int


@cache
def threshold() -> float:
    """Of the cumulative sum, from the budget."""
    return cusum_threshold(REFERENCE, BUDGET_WEEKS)


def dawn_alarm(seen: Seen, expected: Expected) -> WeeklyAlarm | None:
    """Whether the charge in the morning has fallen against the expected.

    Args:
        seen: The log.
        expected: With the dawn charge worked from the sun seen.
    """
    return _alarm(
        seen, seen.dawn_charge - expected.dawn_charge, expected.dawn_sd, -1.0, "dawn charge", ""
    )


def engine_alarm(seen: Seen, expected: Expected) -> WeeklyAlarm | None:
    """Whether the engine runs longer than expected from the sun seen.

    Args:
        seen: The log.
        expected: With the engine hours of each day.
    """
    return _alarm(
        seen, seen.engine_h - expected.engine_h, expected.engine_sd, 1.0, "engine hours", "h a day"
    )


def full_days(seen: Seen, since: int, full: float) -> tuple[float, float, int, int]:
    """Share of days brim-full before and since a day, and the days counted.

    Args:
        seen: The log.
        since: Number of the day.
        full: Charge from which a day counts.
    """
    number = seen.day.astype(np.int64)
    read = np.isfinite(seen.charge)
    # the same season only, as far as the log goes: a year before against now
    after = read & (number >= since)
    before = read & (number < since)
    if after.any():
        last = int(number[after].max())
        season = read & (number >= since - 365) & (number <= last - 365)
        before = season if season.sum() >= 20 else before
    shares = [float((seen.charge[part] >= full).mean()) if part.any() else float("nan") for part in (before, after)]  # fmt: skip
    return shares[0], shares[1], int(before.sum()), int(after.sum())


def weekly(seen: Seen, values: Floats) -> tuple[Ints, Floats]:
    """Means of whole weeks: number of the first day, mean; weeks with under three figures are left out.

    Args:
        seen: The log.
        values: One a day, not a number where there is none [days].
    """
    number = seen.day.astype(np.int64)
    week = number // 7
    starts, means = [], []
    for one in np.unique(week):
        mine = values[(week == one) & np.isfinite(values)]
        if mine.size >= LEAST_DAYS:
            starts.append(7 * int(one))
            means.append(float(np.median(mine)) if mine.size < 5 else float(np.mean(np.sort(mine)[1:-1])))  # fmt: skip
    return np.array(starts, dtype=np.int64), np.array(means)


def standard_by_own_past(values: Floats) -> Floats:
    """Each value against those before it, brought to a standard normal; the first three are nothing.

    Source: Hawkins 1987: while nothing changes these are independent standard normal, whatever mean and spread are.

    Args:
        values: In order, normal and independent.
    """
    from scipy.special import ndtri, stdtr

    out = np.zeros(values.size)
    for nth in range(3, values.size):
        past = values[:nth]
        sd = float(past.std(ddof=1))
        if sd > 0.0:
            ratio = sqrt(nth / (nth + 1.0)) * (values[nth] - float(past.mean())) / sd
            out[nth] = float(ndtri(np.clip(stdtr(nth - 1, ratio), 1e-12, 1.0 - 1e-12)))
    return out


def _alarm(
    seen: Seen, values: Floats, strays: Floats, sign: float, name: WeeklyName, unit: str
) -> WeeklyAlarm | None:
    starts, means = weekly(seen, values)
    if means.size <= WARM_UP:
        return None
    # a week of winter strays far, one of summer hardly: each against its season
    z = sign * standard_by_own_past(_whitened(starts, weekly(seen, values / strays)[1]))
    limit = threshold()
    told: WeeklyAlarm | None = None
    total, begun, nth = 0.0, 0, 0
    while nth < z.size:
        if total == 0.0:
            begun = nth
        total = max(0.0, total + float(np.clip(z[nth], -BOUND, BOUND)) - REFERENCE)
        if total >= limit and nth >= WARM_UP and begun:
            before, after = float(means[:begun].mean()), float(means[begun : nth + 1].mean())
            back = _back(means[nth + 1 :], before, after)
            until = None if back is None else int(starts[nth + 1 + back])
            told = WeeklyAlarm(name, int(starts[begun]), int(starts[nth]) + 6, until, before, after, unit, total, limit, nth - begun + 1)  # fmt: skip
            if back is None:
                return told
            nth, total = nth + back + BACK_WEEKS, 0.0
        nth += 1
    return told


def _back(later: Floats, before: float, after: float) -> int | None:
    """Place of the first eight weeks whose mean is nearer to what was before; None where there are none."""
    for nth in range(later.size - BACK_WEEKS + 1):
        mean = float(later[nth : nth + BACK_WEEKS].mean())
        if abs(mean - before) < abs(mean - after):
            return nth
    return None


def _whitened(starts: Ints, values: Floats) -> Floats:
    """Free of the memory of the week before, as the first weeks and all up to each show it."""
    out = values.copy()
    for nth in range(1, values.size):
        if starts[nth] - starts[nth - 1] != 7 or nth < WARM_UP:
            continue
        past = values[:nth] - values[:nth].mean()
        spread = float((past**2).sum())
        # drawn towards .3 by twelve weeks' worth of belief: few weeks tell little of their memory
        memory = (float((past[1:] * past[:-1]).sum()) / spread * nth + 0.3 * 12.0) / (nth + 12.0) if spread > 0.0 else 0.0  # fmt: skip
        out[nth] = values[nth] - float(np.clip(memory, 0.0, 0.9)) * (values[nth - 1] - float(values[:nth].mean()))  # fmt: skip
    return out
