"""How well each form of loss, each size and each start fits the days since, weighed against one another.

The bounded likelihood of the days, the luck of neighbouring days taken out (pre-whitening), and the slow sway allowed for by a
wider scatter; sizes and starts within a form are as likely as each other beforehand.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np

from polestead.daybook.teaching.scatter import HUBER, Scatter, half_square
from polestead.daybook.teaching.series import Bools, Floats, Ints, Paired
from polestead.daybook.teaching.shapes import DIRT_MOST, Shape, ShapeName

FormName = Literal["string", "dirt", "part", "gone", "shade", "growth"]
BEFORE_DAYS = 90  # before the loss: what it is measured against; ours
NEAR_DAYS = 45  # the start may lie so far from where the test put it; ours
NEVER_EXACT = (
    1.5  # a fault is never exactly of one of the forms: beliefs are drawn together by this; ours
)
LOW_SHARE = 0.05  # of a day's energy, low sun that can tell something; ours
SWAY = 0.05  # of the level before the loss, against what the log knows of it; ours


@dataclass(frozen=True, slots=True)
class Fitted:
    """One form at its best.

    Attributes:
        name: Which.
        belief: Logarithm, over all its sizes and starts, its weight beforehand in it.
        start: Best start, as a number of days.
        shape: Best size.
    """

    name: FormName
    belief: float
    start: int
    shape: Shape


@dataclass(frozen=True, slots=True, eq=False)
class Span:
    """The days looked at, what they miss beyond the base, by how much they may, and how well the base itself is known."""

    number: Ints
    low: Floats
    rest: Floats
    sd: Floats
    free: Bools
    memory: float
    inflated: float
    base_sd: float = 0.0

    def beliefs(self, shifts: Floats, starts: Ints) -> Floats:
        """Logarithm of the bounded likelihood with each shift of the days, the base since its start at its best [shifts].

        Args:
            shifts: What a form takes of each day's logarithm [shifts, days].
            starts: Number of its first day [shifts].
        """
        from scipy.special import log_ndtr

        rest = self.rest - shifts
        off = np.zeros(len(shifts))
        since = self.number >= starts[:, None]
        if self.base_sd > 0.0:
            weight = (since & self.free) / (self.inflated * self.sd**2)
            apart = np.clip(rest, -HUBER * self.sd, HUBER * self.sd)
            off = (weight * apart).sum(axis=1) / (weight.sum(axis=1) + 1.0 / self.base_sd**2)
        z = (rest - off[:, None] * since) / self.sd
        mine = z[:, self.free]
        fade = self.memory ** np.diff(self.number[self.free])
        own = np.concatenate([mine[:, :1], (mine[:, 1:] - fade * mine[:, :-1]) / np.sqrt(1.0 - fade**2)], axis=1)  # fmt: skip
        data = log_ndtr(-z[:, ~self.free]).sum(axis=1) - half_square(own).sum(axis=1)
        held = 0.5 * (off / self.base_sd) ** 2 if self.base_sd > 0.0 else 0.0
        return np.asarray(data / self.inflated - held)


def _inflated(sd: Floats, scatter: Scatter) -> float:
    """How much wider sums over many days scatter by the slow sway: ratio of variances of a long sum."""
    luck = float(np.median(sd)) ** 2 * (1.0 + scatter.memory) / (1.0 - scatter.memory)
    return NEVER_EXACT * (1.0 + 2.0 * scatter.slow_memory_days * scatter.slow**2 / luck)


def _level(rest: Floats, sd: Floats, before: Bools, free: Bools) -> float:
    """Level before the loss, held to nothing by ``SWAY``."""
    mine = before & free
    if not mine.any():
        return 0.0
    weight = 1.0 / sd[mine] ** 2
    middle = float(np.median(rest[mine]))
    clipped = np.clip(rest[mine], middle - HUBER * sd[mine], middle + HUBER * sd[mine])
    return float((weight * clipped).sum() / (weight.sum() + 1.0 / SWAY**2))


def fitted(span: Span, since: int, end: int, strings: int | None) -> tuple[Fitted, ...]:
    """All forms at their best, the likeliest first.

    Args:
        span: Days looked at.
        since: Where the test puts the start, as a number of days.
        end: The loss is over by then.
        strings: In parallel, None where not known.
    """
    found = []
    low = bool((span.low[span.number >= since] >= LOW_SHARE).any())
    for name, weight, shapes in _forms(strings):
        if (
            name in ("shade", "growth") and not low
        ):  # nothing of the low sun is known: it would fit as nothing lost
            continue
        slow = name in ("dirt", "growth")
        reach = 8 * NEAR_DAYS if name == "growth" else 3 * NEAR_DAYS if slow else NEAR_DAYS
        later = min(NEAR_DAYS, max(end - 1 - since, 0))
        starts = np.unique(np.append(np.arange(since - reach, since + later + 1, 12 if slow else 3), since))  # fmt: skip
        shifts = np.concatenate([_shifts(span, shape, starts) for shape in shapes])
        beliefs = span.beliefs(shifts, np.tile(starts, len(shapes)))
        which, at = divmod(int(np.argmax(beliefs)), starts.size)
        total = np.log(np.exp(beliefs - beliefs.max()).mean()) + beliefs.max() + np.log(weight)
        found.append(Fitted(name, float(total), int(starts[at]), shapes[which]))
    return tuple(sorted(found, key=lambda one: -one.belief))


def span_of(
    pairs: Paired, rest: Floats, wide: float, scatter: Scatter, since: int, end: int, base_sd: float = 0.0
) -> Span:  # fmt: skip
    """The days to be weighed, from well before the loss to its end.

    Args:
        pairs: Expected against seen.
        rest: What the days miss beyond what is known without this loss [days].
        wide: Factor on their standard deviation.
        scatter: What days do while nothing is wrong.
        since: Where the test puts the start.
        end: The loss is over by then.
        base_sd: Standard deviation of what is known without this loss, for the days since.
    """
    here = (pairs.number >= since - BEFORE_DAYS) & (pairs.number < end) & ~pairs.snow
    number, sd, free = pairs.number[here], pairs.log_sd[here] * wide, ~pairs.at_least[here]
    left = rest[here] - _level(rest[here], sd, number < since, free)
    return Span(
        number, pairs.low_sun_share[here], left, np.hypot(sd, scatter.reading), free, scatter.memory, _inflated(sd, scatter), base_sd
    )  # fmt: skip


def _forms(strings: int | None) -> tuple[tuple[FormName, float, tuple[Shape, ...]], ...]:
    """Names, weights beforehand, and the sizes each may have."""
    lost = (0.5, 1.0 / 3.0, 0.25) if strings is None else tuple(n / strings for n in range(1, strings))  # fmt: skip
    dirt = tuple(Shape("dirt", rate, most=most) for rate in (0.001, 0.002, 0.003, 0.005) for most in (0.1, DIRT_MOST))  # fmt: skip
    forms: tuple[tuple[FormName, float, tuple[Shape, ...]], ...] = (
        ("string", 0.25, _sizes("string", *lost)),
        ("part", 0.15, _sizes("tenth", 0.05, 0.08, 0.12, 0.16, 0.2, 0.3, 0.42, 0.6, 0.7)),
        ("dirt", 0.25, dirt),
        ("gone", 0.15, _sizes("gone", 0.8, 0.9, 0.95, 0.98)),
        ("shade", 0.1, _sizes("shade", 0.25, 0.5, 0.75, 1.0)),
        ("growth", 0.1, _sizes("growth", 0.1, 0.2, 0.3)),
    )
    return tuple(form for form in forms if form[2])


def _sizes(name: ShapeName, *sizes: float) -> tuple[Shape, ...]:
    return tuple(Shape(name, size) for size in sizes)


def _shifts(span: Span, shape: Shape, starts: Ints) -> Floats:
    """What a form takes of each day's logarithm, by start [starts, days]."""
    since = (span.number - starts[:, None]).astype(float)
    return np.where(since >= 0.0, shape.log_of(np.maximum(since, 0.0), span.low), 0.0)
