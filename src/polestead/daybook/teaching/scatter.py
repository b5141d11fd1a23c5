"""What the days are taken to do while nothing is wrong: a level, twelve months, a slow sway, and the luck of the day.

A linear model with normal states, filtered day by day (Kalman 1960; West & Harrison 1997, Bayesian Forecasting and Dynamic
Models), made robust by Huber's bounded score (Huber 1964; Masreliez & Martin 1977).
"""

from __future__ import annotations

from dataclasses import dataclass, field
from math import erf, exp, pi, sqrt

import numpy as np

from polestead.base.source import Source
from polestead.daybook.teaching.series import Floats, Paired

LEVEL, SLOW, FAST = 0, 13, 14  # places in the state; the months lie between
LOSSES = (15, 16, 17)  # sizes of losses that are told and last
STATES = 18
HUBER = (
    2.0  # standard deviations from which a day's miss counts by its size only, not its square; ours
)
SIZE_DRIFTS = 0.015  # of its size, what a told loss may grow or shrink in a day (by the square root of days); ours
DOUBT_DAYS = 60.0  # days' worth of belief in the scatter as it was handed in; ours

HUBER_1964 = Source("Huber 1964, Ann. Math. Statist. 35:73", "bounded score", "memory")
MASRELIEZ = Source("Masreliez & Martin 1977, IEEE Trans. Autom. Control 22:361", "robust filter", "memory")  # fmt: skip
WEST_HARRISON = Source("West & Harrison 1997, Bayesian Forecasting and Dynamic Models", "4.3", "memory")  # fmt: skip
STEINER_MACKAY = Source("Steiner & MacKay 2000, J. Quality Technology 32:199", "censored values by their conditional mean", "memory")  # fmt: skip


@dataclass(frozen=True, slots=True)
class Scatter:
    """How far days, months and seasons stray while nothing is wrong, on a logarithmic scale.

    Attributes:
        level: Standard deviation of the whole array's level before the log begins: the climate table is good to 15 % in winter.
        season: Of a smooth wave over the year, the same every year: what an expectation is off in winter against summer; ours.
        month: Of each month's own offset beside it; ours.
        slow: Of a sway that comes and goes within weeks, as months differ from year to year; ours, from the climate's
            own spread of a month beyond the luck of its days (.045 to .065), of which the day's own sun removes the most.
        slow_memory_days: Days in which the sway falls to a third; ours.
        memory: Correlation of the luck of neighbouring days, .26 to .36 as measured (docs/method/site.md).
        reading: Of the reading itself; ours.
    """

    level: float = 0.15
    season: float = 0.05
    month: float = 0.03
    slow: float = 0.03
    slow_memory_days: float = 15.0
    memory: float = 0.33
    reading: float = 0.03


USUAL = Scatter()  # the sky by eye
MEASURED = Scatter(slow=0.02)  # the day's sun measured, or seen from above


@dataclass(frozen=True, slots=True, eq=False)
class Look:
    """A day's miss against what is believed: row of the model, its spread, the gain, and the miss standardised.

    Attributes:
        row, spread_row, gain: [states].
        sd: Standard deviation of the miss.
        z: The miss over it.
        score, firm: Bounded score, and the share of a whole day's information.
    """

    row: Floats
    spread_row: Floats
    gain: Floats
    sd: float
    z: float
    score: float
    firm: float


@dataclass(slots=True, eq=False)
class Filter:
    """The state of belief after some days; ``step`` moves it on.

    Attributes:
        scatter: As above.
        mean, spread: Of the states [states], [states, states].
        squares, count: Of the standardised misses so far: they teach how wide the scatter really is.
        before: Number of the day before, None at the start.
        losses: Places of the losses that last.
    """

    scatter: Scatter
    mean: Floats = field(init=False)
    spread: Floats = field(init=False)
    squares: float = DOUBT_DAYS
    count: float = DOUBT_DAYS
    before: int | None = None
    losses: tuple[int, ...] = ()

    def __post_init__(self) -> None:
        self.mean = np.zeros(STATES)
        apart = np.arange(12)[:, None] - np.arange(12)[None, :]
        months = self.scatter.season**2 * np.cos(2.0 * np.pi * apart / 12.0)
        self.spread = np.diag([self.scatter.level**2, *[self.scatter.month**2] * 12, self.scatter.slow**2, 1.0, 0.0, 0.0, 0.0])  # fmt: skip
        self.spread[1:13, 1:13] += months

    def base_sd(self, month: int) -> float:
        """Standard deviation of the level of a month, 0 to 11, while nothing is wrong."""
        nth = 1 + month
        var = self.spread[LEVEL, LEVEL] + 2.0 * self.spread[LEVEL, nth] + self.spread[nth, nth]
        return sqrt(max(float(var), 0.0))

    def fades(self, number: int) -> tuple[float, float]:
        """What is left of sway and luck since the day before."""
        gone = 0 if self.before is None else number - self.before
        return float(np.exp(-gone / self.scatter.slow_memory_days)), self.scatter.memory**gone

    def go_to(self, number: int) -> None:
        """Let the days up to this one pass."""
        slow, fast = self.fades(number)
        fade = np.ones(STATES)
        fade[SLOW], fade[FAST] = slow, fast
        self.mean = fade * self.mean
        self.spread = self.spread * np.outer(fade, fade)
        self.spread[SLOW, SLOW] += (1.0 - slow**2) * self.scatter.slow**2
        self.spread[FAST, FAST] += 1.0 - fast**2
        for place in self.losses:
            self.spread[place, place] += SIZE_DRIFTS**2 * (
                number - self.before if self.before else 0
            )
        self.before = number

    def carry(self, place: int, times: float, sd: float) -> None:
        """Learn the size of a loss from now on, begun at a guess."""
        self.mean[place], self.spread[place, place] = times, sd**2
        self.losses = (*self.losses, place)

    def drop(self, place: int) -> None:
        """A loss is over."""
        self.mean[place] = self.spread[place, :] = self.spread[:, place] = 0.0
        self.losses = tuple(one for one in self.losses if one != place)

    def row(self, month: int, log_sd: float, losses: dict[int, float]) -> Floats:
        """How the states make up a day's miss [states]."""
        row = np.zeros(STATES)
        row[LEVEL] = row[1 + month] = row[SLOW] = 1.0
        row[FAST] = log_sd
        for place, log_left in losses.items():
            row[place] = log_left
        return row

    def wide(self) -> float:
        """How much wider the misses are than told: a factor on variances, learned (normal with unknown variance)."""
        return self.squares / self.count

    def copy(self) -> Filter:
        """As it stands now."""
        other = Filter.__new__(Filter)
        other.scatter, other.mean, other.spread = self.scatter, self.mean.copy(), self.spread.copy()
        other.squares, other.count = self.squares, self.count
        other.before, other.losses = self.before, self.losses
        return other

    def look(self, pairs: Paired, nth: int, losses: dict[int, float]) -> Look:
        """How a day's miss stands against what is believed.

        Args:
            pairs: Expected against seen.
            nth: Which day.
            losses: Logarithm of what is left by each loss that lasts, by its place.
        """
        row = self.row(int(pairs.month[nth]), float(pairs.log_sd[nth]), losses)
        spread_row = self.spread @ row
        own = float(row @ spread_row) + self.scatter.reading**2
        sd = sqrt(own * self.wide())
        z = (float(pairs.miss[nth]) - float(row @ self.mean)) / sd
        score, firm = scores(np.array([z]), bool(pairs.at_least[nth]))
        return Look(row, spread_row, spread_row / own, sd, z, float(score[0]), float(firm[0]))

    def learn(self, look: Look, at_least: bool) -> None:
        """Take the day in."""
        self.mean = self.mean + look.gain * look.sd * look.score
        self.spread = self.spread - look.firm * np.outer(look.gain, look.spread_row)
        if not at_least:
            self.squares += min(look.z**2, HUBER**2)
            self.count += CLIPPED_VARIANCE


def scores(z: Floats, at_least: bool) -> tuple[Floats, Floats]:
    """Bounded scores of standardised misses, and the share of a whole day's information each carries.

    Args:
        z: Misses, in standard deviations.
        at_least: The battery was full: the score is the conditional mean of what lies above.
    """
    if not at_least:
        return np.clip(z, -HUBER, HUBER), np.ones(z.shape)
    from scipy.special import log_ndtr

    above = np.exp(-0.5 * z**2 - log_ndtr(-z)) / sqrt(2.0 * pi)
    return np.minimum(above, HUBER), np.clip(above * (above - z), 0.0, 1.0)


def log_ratio(z: float, by: Floats, at_least: bool) -> Floats:
    """Logarithm of the likelihood with each shift over that without.

    Args:
        z: Miss without, in standard deviations.
        by: Shifts [any].
        at_least: The battery was full: the chance to lie above counts.
    """
    if not at_least:
        return half_square(np.array([z])) - half_square(z - by)
    from scipy.special import log_ndtr

    return np.asarray(log_ndtr(by - z) - log_ndtr(-z))


def half_square(z: Floats) -> Floats:
    """Huber's half square, straight beyond his bound."""
    far = np.abs(z)
    return np.where(far <= HUBER, 0.5 * z**2, HUBER * far - 0.5 * HUBER**2)


def _clipped_variance() -> float:
    """Mean of min(z^2, HUBER^2) of a standard normal z."""
    inside = erf(HUBER / sqrt(2.0))
    return inside - HUBER * sqrt(2.0 / pi) * exp(-0.5 * HUBER**2) + HUBER**2 * (1.0 - inside)


CLIPPED_VARIANCE = _clipped_variance()
