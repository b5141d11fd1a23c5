"""What the low sun of the log says of the trees: how much they let through, and how that changes from year to year."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from polestead.base.source import Source
from polestead.base.working import Step, Working
from polestead.daybook.teaching.scatter import HUBER, USUAL, Scatter, half_square
from polestead.daybook.teaching.series import Bools, Floats, Ints, Paired
from polestead.daybook.teaching.trees import Tree, light_lines

LEAST_DAYS = 40  # days with a good share of low sun; ours
LEAST_SHARE = 0.1  # of the day's energy from which low sun counts; ours
TRIED = np.linspace(0.0, 2.0, 101)  # times what the file lets through
LEVEL = 0.15  # standard deviation of the whole array's level, learned beside; the climate table's winter error
OURS = Source(
    "low sun of the log against the skyline of the file", "docs/method/teaching.md", "ours"
)


@dataclass(frozen=True, slots=True)
class ViewFit:
    """What comes past the trees, as a factor on what the file says.

    Attributes:
        times, low, high: Middle, 5 and 95 % points of the light let through, over the file's.
        a_year: Change of it in a year, in shares of the file's, nothing where the log is under two winters; with its 90 % interval.
        a_year_low, a_year_high: See there.
        days: Days with enough low sun.
        proposed: Whether the log speaks against the file.
        sentence: What to write at [view], and what that rests on; empty where nothing is to be changed.
        working: How it was found.
    """

    times: float
    low: float
    high: float
    a_year: float
    a_year_low: float
    a_year_high: float
    days: int
    proposed: bool
    sentence: str
    working: Working


def view_fit(
    pairs: Paired,
    left_out: Bools,
    trees: tuple[Tree, ...],
    wide: float = 1.0,
    scatter: Scatter = USUAL,
) -> ViewFit | None:
    """Fit the light that comes past the trees to the days with low sun.

    A day with the share q of its energy from the low sun makes 1 - q + q r of the expected if the trees let r times the file's light
    through: high sun, which they do not touch, holds the level.  Full days count as at least so much.

    Args:
        pairs: Expected against seen.
        left_out: Days that do not count: another loss, snow [days].
        trees: Of the file; none where it names no trees.
        wide: Factor on the days' standard deviation.
        scatter: For memory and sway of the days.

    Returns:
        None where there are too few days with low sun.
    """
    counts = ~left_out & ~pairs.snow
    low_days = int((counts & (pairs.low_sun_share >= LEAST_SHARE)).sum())
    if low_days < LEAST_DAYS:
        return None
    sd = wide * pairs.log_sd[counts]
    days = _LowSun(
        pairs.miss[counts], pairs.low_sun_share[counts], (pairs.number[counts] - pairs.number[0]) / 365.25, sd,
        pairs.at_least[counts], pairs.month[counts], _worth(sd, scatter), float(np.hypot(scatter.season, scatter.month)),
    )  # fmt: skip
    most = min(2.0, *(1.0 / max(one.winter, 0.05) for one in trees), 2.0)
    tried = TRIED[most >= TRIED]
    times, below, above = _points(tried, np.array([days.belief(_past(days.low, r)) for r in tried]))
    a_year, a_low, a_high = _change(days, times)
    proposed = not below <= 1.0 <= above
    steps = (
        Step("days with low sun", "n", f"a tenth of the energy and more of it low, of {sd.size} days", float(low_days), "", OURS),
        Step("worth of a day, sway and memory taken off", "w", "", days.worth, "", OURS),
        Step("light past the trees, 5 % point", "r_5", "", below, "", OURS),
        Step("light past the trees, 95 % point", "r_95", "", above, "", OURS),
        Step("change in a year", "dr", f"90 % within {a_low:.2f} to {a_high:.2f}", a_year, "", OURS),
        Step("light past the trees, times the file's", "r", "day = 1 - q + q r, q its share of low sun", times, "", OURS),
    )  # fmt: skip
    return ViewFit(
        times, below, above, a_year, a_low, a_high, low_days, proposed,
        _sentence(times, below, above, trees, low_days) if proposed else "",
        Working("light past the trees", steps, ("Nothing is changed in the file: it is for you to write.",)),
    )  # fmt: skip


def _worth(sd: Floats, scatter: Scatter) -> float:
    """Of a day, for sums over many days: memory and slow sway taken off."""
    luck = float(np.median(sd)) ** 2
    long = luck * (1.0 + scatter.memory) / (1.0 - scatter.memory) + 2.0 * scatter.slow_memory_days * scatter.slow**2  # fmt: skip
    return luck / long


@dataclass(frozen=True, slots=True, eq=False)
class _LowSun:
    """The days the fit rests on.

    Attributes:
        miss, low, years, sd: Miss, share of low sun, years since the log began, standard deviation [days].
        at_least: Battery full [days].
        month: 0 to 11 [days].
        worth: Of a day among many.
        off: Standard deviation of a month's own offset: what the expectation is off in winter against summer.
    """

    miss: Floats
    low: Floats
    years: Floats
    sd: Floats
    at_least: Bools
    month: Ints
    worth: float
    off: float

    def belief(self, shift: Floats) -> float:
        """Bounded log likelihood with level and months at their best, each held to nothing by its own doubt."""
        from scipy.special import log_ndtr

        level, months = 0.0, np.zeros(12)
        weight = np.where(self.at_least, 0.0, self.worth / self.sd**2)
        of_month = np.bincount(self.month, weight, 12)
        for _ in range(8):
            rest = self._clipped(shift, level + months[self.month]) + level
            level = float((weight * rest).sum() / (weight.sum() + 1.0 / LEVEL**2))
            rest = self._clipped(shift, level + months[self.month]) + months[self.month]
            months = np.bincount(self.month, weight * rest, 12) / (of_month + 1.0 / self.off**2)
        z = (self.miss - shift - level - months[self.month]) / self.sd
        data = log_ndtr(-z[self.at_least]).sum() - half_square(z[~self.at_least]).sum()
        held = (level / LEVEL) ** 2 + ((months / self.off) ** 2).sum()
        return float(self.worth * data - 0.5 * held)

    def _clipped(self, shift: Floats, known: Floats) -> Floats:
        return np.clip(self.miss - shift - known, -HUBER * self.sd, HUBER * self.sd)


def _points(tried: Floats, belief: Floats) -> tuple[float, float, float]:
    weight = np.exp(belief - belief.max())
    weight /= weight.sum()
    low, middle, high = np.interp((0.05, 0.5, 0.95), np.cumsum(weight) - 0.5 * weight, tried)
    return float(middle), float(low), float(high)


def _past(low: Floats, times: Floats | float) -> Floats:
    """Logarithm of a day's energy when the trees let so many times the light through."""
    return np.asarray(np.log1p(np.maximum(low * (times - 1.0), -0.95)))


def _change(days: _LowSun, times: float) -> tuple[float, float, float]:
    """Change of the light in a year about its middle; not told under a year and a half."""
    if days.years.max() - days.years.min() < 1.5:
        return 0.0, 0.0, 0.0
    since = days.years - float((days.low * days.years).sum() / days.low.sum())
    tried = np.linspace(-0.5, 0.5, 51)
    belief = [days.belief(_past(days.low, np.maximum(times + slope * since, 0.0))) for slope in tried]  # fmt: skip
    at, low, high = _points(tried, np.array(belief))
    return at, low, high


def _sentence(times: float, low: float, high: float, trees: tuple[Tree, ...], days: int) -> str:
    rests = f"{days} days with low sun; 90 % sure of {low:.2f} to {high:.2f} times the file's light"
    if not trees:
        return f"The low sun of the log is {times:.2f} times what the file expects ({rests}): something stands there. Read the skyline again with compass and fist and write it at [view]."  # fmt: skip
    return f"{'; '.join(light_lines(trees, times))} ({rests}). Look at the trees first; if they have grown, measure them again instead."
