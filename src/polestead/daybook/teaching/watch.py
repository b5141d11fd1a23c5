"""The sequential test on the array's energy: has something been lost, since when, and in which form.

For every start and every form of loss the likelihood ratio of the days since, against nothing lost, is carried along; their
weighted sum is told when it passes the days of the false-alarm budget.  While nothing is wrong that sum less the days gone
is a martingale, so that false alarms come no oftener than the budget says, whatever memory, gaps, full batteries and
unknown months the model holds (Shiryaev 1963, Roberts 1966, Pollak 1985).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from math import sqrt

import numpy as np

from polestead.daybook.teaching.fit import Fitted, FormName, fitted, span_of
from polestead.daybook.teaching.scatter import (
    FAST,
    LEVEL,
    LOSSES,
    SLOW,
    STATES,
    USUAL,
    Filter,
    Scatter,
    log_ratio,
    scores,
)
from polestead.daybook.teaching.series import Floats, Ints, Paired
from polestead.daybook.teaching.shapes import Shape

# A loss told so soon after another, and begun before that was told, is the same one, weighed again; ours.
SAME_LOSS_DAYS, SAME_START_DAYS = 60, 3
AGAIN_DAYS = (7, 21, 60)  # after it was told, a loss that lasts is weighed again; ours
BUDGET_DAYS = 3652.5  # one false alarm in ten years, all forms of loss together; ours
DAY_SAYS_AT_MOST = (
    3.0  # of one day's log likelihood ratio: a single wrong figure never makes an alarm; ours
)
HOPELESS = (
    -12.0
)  # logarithm of a likelihood ratio under which a start is let go: that only lowers the sum; ours
SIZE_DOUBT = 0.3  # standard deviation of a loss about its form's own size, as a share of it; ours
BACK = Shape("back", 0.0, 1.0, 1, 120)


@dataclass(frozen=True, slots=True)
class Alarm:
    """One thing told by the test.

    Attributes:
        form: The likeliest form when it was last weighed.
        since: Number of the day it most likely began.
        told: Number of the day the test told it.
        until: Number of the day it most likely ended; None while it lasts.
        ended_told: Number of the day its end was told.
        left: What is left of the energy on a usual day, as learned since; with its 90 % interval.
        left_low, left_high: See there.
        ratio: The sum of likelihood ratios it was told at.
        days: Days counted since it began, up to the telling.
    """

    form: FormName
    since: int
    told: int
    until: int | None
    ended_told: int | None
    left: float
    left_low: float
    left_high: float
    ratio: float
    days: int


@dataclass(frozen=True, slots=True, eq=False)
class Watched:
    """What came of the test.

    Attributes:
        alarms: In order.
        ratio: The sum of likelihood ratios after each day [days].
        base: What the day's miss is made of without faults, as known at the end [days].
        base_sd: Standard deviation of that, by month as known at the end [12].
        wide: How much wider the days scatter than told, as a factor on the standard deviation.
        threshold: Days of the budget.
    """

    alarms: tuple[Alarm, ...]
    ratio: Floats
    base: Floats
    base_sd: Floats
    wide: float
    threshold: float


@dataclass(slots=True, eq=False)
class _Starts:
    """All starts of all forms looked at now.

    Attributes:
        which: Form of each [starts].
        begun: Day of each [starts].
        apart: State of belief with the loss less that without [states, starts].
        ratio: Logarithm of the likelihood ratio so far [starts].
    """

    which: Ints = field(default_factory=lambda: np.zeros(0, dtype=np.int64))
    begun: Ints = field(default_factory=lambda: np.zeros(0, dtype=np.int64))
    apart: Floats = field(default_factory=lambda: np.zeros((STATES, 0)))
    ratio: Floats = field(default_factory=lambda: np.zeros(0))

    def begin(self, which: Sequence[int], number: int) -> None:
        """Look at starts of these forms on this day."""
        new = np.zeros(len(which))
        self.which = np.append(self.which, np.array(which, dtype=np.int64))
        self.begun = np.append(self.begun, np.full(new.size, number))
        self.apart = np.concatenate([self.apart, np.zeros((STATES, new.size))], axis=1)
        self.ratio = np.append(self.ratio, new)

    def keep(self, kept: Ints) -> None:
        """Let all other starts go."""
        self.which, self.begun, self.ratio = self.which[kept], self.begun[kept], self.ratio[kept]
        self.apart = self.apart[:, kept]


@dataclass(frozen=True, slots=True)
class _Carried:
    """A loss that is told and lasts: its form grows no further once told, its size is learned on.

    Attributes:
        place: Of its size among the states.
        form: Its name.
        shape: Its form.
        since: Number of the day it began.
        first_told, told: Number of the day it was told, first and last.
        ratio: What it was told at first.
        weighed: How often it was weighed again since.
    """

    place: int
    form: FormName
    shape: Shape
    since: int
    first_told: int
    told: int
    ratio: float
    weighed: int

    def log_at(self, number: int, low_sun_share: float) -> float:
        """Logarithm of what is left at the form's own size; nothing is lost before it began."""
        if number < self.since:
            return 0.0
        days = np.array(float(min(number, self.told) - self.since))
        return float(self.shape.log_of(days, low_sun_share))


def watched(
    pairs: Paired,
    shapes: Sequence[Shape],
    scatter: Scatter = USUAL,
    budget_days: float = BUDGET_DAYS,
    strings: int | None = None,
) -> Watched:
    """Run the test over the whole log.

    Days with snow seen on the glass are let pass untested: their cause is told.  A day with the battery full counts with the
    chance of *at least so much*, with the loss and without.

    Args:
        pairs: Expected against seen.
        shapes: Losses looked for, their weights adding to one.
        scatter: What days do while nothing is wrong.
        budget_days: Mean days between false alarms.
        strings: In parallel, None where not known.
    """
    run = _Run(pairs, tuple(shapes), scatter, budget_days, strings)
    for nth in range(pairs.days):
        run.day(nth)
    run.finish()
    base = run.filter.mean[LEVEL] + run.filter.mean[1 + pairs.month]
    return Watched(tuple(run.alarms), np.array(run.ratios), np.asarray(base), np.array([run.filter.base_sd(month) for month in range(12)]), sqrt(run.filter.wide()), budget_days)  # fmt: skip


class _Run:
    """The test as it stands after some days."""

    def __init__(
        self,
        pairs: Paired,
        shapes: tuple[Shape, ...],
        scatter: Scatter,
        budget_days: float,
        strings: int | None,
    ) -> None:
        self.pairs, self.shapes, self.budget_days, self.strings = (
            pairs,
            shapes,
            budget_days,
            strings,
        )
        self.filter = Filter(scatter)
        self.kept: list[Filter] = []  # as it stood before each day
        self.starts, self.ends = _Starts(), _Starts()
        self.newest: dict[int, int] = {}
        self.alarms: list[Alarm] = []
        self.carried: list[_Carried] = []
        self.ratios: list[float] = []

    def day(self, nth: int) -> None:
        """One day of the log."""
        number = int(self.pairs.number[nth])
        self.kept.append(self.filter.copy())
        slow, fast = self.filter.fades(number)
        for starts in (self.starts, self.ends):
            starts.apart[SLOW] *= slow
            starts.apart[FAST] *= fast
        self.filter.go_to(number)
        if not self.pairs.snow[nth]:
            self._begin(number)
            self._count(nth)
            self.ratios.append(self._sum(self.starts, self.shapes))
            self._tell(nth)
        else:
            self.ratios.append(self.ratios[-1] if self.ratios else 0.0)

    def finish(self) -> None:
        """What still lasts is told as it is known now."""
        for loss in self.carried:
            self.alarms.append(self._alarm_of(loss, None, None))
        self.alarms.sort(key=lambda alarm: alarm.told)

    def _begin(self, number: int) -> None:
        """New starts, and old ones let go."""
        due = [which for which, shape in enumerate(self.shapes) if number - self.newest.get(which, -(10**9)) >= shape.every_days]  # fmt: skip
        if due:
            self.starts.begin(due, number)
            self.newest.update(dict.fromkeys(due, number))
        if self.carried:
            self.ends.begin([0], number)
        for starts, shapes in ((self.starts, self.shapes), (self.ends, (BACK,))):
            window = np.array([shape.window_days for shape in shapes])
            old = (number - starts.begun > window[starts.which]) | (starts.ratio < HOPELESS)
            if old.any():
                starts.keep(np.flatnonzero(~old))

    def _losses(self, nth: int) -> dict[int, float]:
        number, low = int(self.pairs.number[nth]), float(self.pairs.low_sun_share[nth])
        return {loss.place: loss.log_at(number, low) for loss in self.carried}

    def _count(self, nth: int) -> None:
        """Let a day's miss speak."""
        filt, at_least = self.filter, bool(self.pairs.at_least[nth])
        look = filt.look(self.pairs, nth, self._losses(nth))
        for starts, shapes in ((self.starts, self.shapes), (self.ends, (BACK,))):
            if starts.which.size:
                by = (self._shift(starts, shapes, nth) + look.row @ starts.apart) / look.sd
                starts.ratio += np.minimum(log_ratio(look.z, by, at_least), DAY_SAYS_AT_MOST)
                theirs = scores(look.z - by, at_least)[0]
                starts.apart += look.gain[:, None] * (look.sd * (theirs - look.score))[None, :]
        filt.learn(look, at_least)

    def _shift(self, starts: _Starts, shapes: Sequence[Shape], nth: int) -> Floats:
        """What each start would have taken of this day's logarithm [starts]."""
        number, low = int(self.pairs.number[nth]), float(self.pairs.low_sun_share[nth])
        since = (number - starts.begun).astype(float)
        shift = np.zeros(since.size)
        for which, shape in enumerate(shapes):
            mine = starts.which == which
            shift[mine] = self._given_back(number, low) if shape is BACK else shape.log_of(since[mine], low)  # fmt: skip
        return shift

    def _given_back(self, number: int, low: float) -> float:
        """What the end of the last loss told would add to the logarithm."""
        last = self.carried[-1]
        return float(-self.filter.mean[last.place] * last.log_at(number, low))

    def _sum(self, starts: _Starts, shapes: Sequence[Shape]) -> float:
        """The weighted sum of ratios."""
        return float(self._parts(starts, shapes).sum())

    def _parts(self, starts: _Starts, shapes: Sequence[Shape]) -> Floats:
        weight = np.array([shape.weight * shape.every_days for shape in shapes])
        return np.asarray(weight[starts.which] * np.exp(np.clip(starts.ratio, HOPELESS, 600.0)))

    def _tell(self, nth: int) -> None:
        if self.carried and self._sum(self.ends, (BACK,)) >= self.budget_days:
            parts = self._parts(self.ends, (BACK,))
            self._end(nth, int(self.ends.begun[np.argmax(parts)]))
        elif self.ratios[-1] >= self.budget_days:
            parts = self._parts(self.starts, self.shapes)
            self._alarm(nth, int(self.starts.begun[np.argmax(parts)]), self.ratios[-1])
        else:
            self._weigh_again(nth)
            return
        self._afresh()

    def _afresh(self) -> None:
        """Begin the test anew: what lasts is carried, and only what comes now counts."""
        self.starts, self.ends, self.newest = _Starts(), _Starts(), {}
        if len(self.carried) == len(LOSSES):  # no place for another: only ends are looked for
            self.newest = dict.fromkeys(range(len(self.shapes)), 10**9)

    def _alarm(self, nth: int, since: int, ratio: float) -> None:
        """Tell a loss; one told and begun so near to the last is the same."""
        number = int(self.pairs.number[nth])
        last = self.carried[-1] if self.carried else None
        if last is not None and number - last.told <= SAME_LOSS_DAYS and since <= last.told + SAME_START_DAYS:  # fmt: skip
            self.carried.pop()
            self._carry(nth, min(since, last.since), last.first_told, last.ratio, last.weighed)
        else:
            self._carry(nth, since, number, ratio, 0)

    def _weigh_again(self, nth: int) -> None:
        """Weigh the last loss again when more days are there than when it was told."""
        if not self.carried:
            return
        last, number = self.carried[-1], int(self.pairs.number[nth])
        if last.weighed < len(AGAIN_DAYS) and number - last.first_told >= AGAIN_DAYS[last.weighed]:
            self.carried.pop()
            self._carry(nth, last.since, last.first_told, last.ratio, last.weighed + 1)
            self._afresh()

    def _carry(self, nth: int, since: int, first_told: int, ratio: float, weighed: int) -> None:
        """Weigh the forms of a loss, go back to its start, and learn the days since again with it."""
        number = int(self.pairs.number[nth])
        best = self._weigh(nth, since)
        start = max(best.start, int(self.pairs.number[0]))
        place = next(one for one in LOSSES if one not in [loss.place for loss in self.carried])
        self.carried.append(_Carried(place, best.name, best.shape, start, first_told, number, ratio, weighed))  # fmt: skip
        self._again(int(np.searchsorted(self.pairs.number, start)), nth, place)

    def _weigh(self, nth: int, since: int) -> Fitted:
        """The likeliest form, with the days up to now, against what was known before it began."""
        pairs, number = self.pairs, int(self.pairs.number[nth])
        known = self.kept[int(np.searchsorted(pairs.number, since))].mean
        lost = np.zeros(pairs.days)
        for loss in self.carried:
            lost[: nth + 1] += [known[loss.place] * loss.log_at(int(pairs.number[n]), float(pairs.low_sun_share[n])) for n in range(nth + 1)]  # fmt: skip
        rest = pairs.miss - known[LEVEL] - known[1 + pairs.month] - lost
        span = span_of(pairs, rest, sqrt(self.filter.wide()), self.filter.scatter, since, number + 1)  # fmt: skip
        return fitted(span, since, number + 1, self.strings)[0]

    def _again(self, first: int, last: int, place: int | None) -> None:
        """Go back to the state before a day and learn up to another with the losses known now."""
        self.filter = self.kept[first].copy()
        self.filter.losses = tuple(loss.place for loss in self.carried)
        gone = [one for one in LOSSES if one not in self.filter.losses]
        for one in gone:
            self.filter.drop(one)
        if place is not None:
            self.filter.drop(place)
            self.filter.carry(place, 1.0, SIZE_DOUBT)
        for nth in range(first, last + 1):
            self.kept[nth] = self.filter.copy()
            self.filter.go_to(int(self.pairs.number[nth]))
            if not self.pairs.snow[nth]:
                look = self.filter.look(self.pairs, nth, self._losses(nth))
                self.filter.learn(look, bool(self.pairs.at_least[nth]))

    def _end(self, nth: int, until: int) -> None:
        """Tell that the last loss told is over, and learn the days since again without it."""
        over = self.carried.pop()
        first = int(np.searchsorted(self.pairs.number, max(until, over.since)))
        self.alarms.append(self._alarm_of(over, until, int(self.pairs.number[nth])))
        self._again(first, nth, None)

    def _alarm_of(self, loss: _Carried, until: int | None, ended_told: int | None) -> Alarm:
        known = self.filter if until is None else self.kept[int(np.searchsorted(self.pairs.number, until))]  # fmt: skip
        times, sd = float(known.mean[loss.place]), sqrt(max(float(known.spread[loss.place, loss.place]), 0.0))  # fmt: skip
        low = self.pairs.low_sun_share[self.pairs.number >= loss.since]
        at = (
            0.9 if loss.form in ("shade", "growth") else 0.5
        )  # what the low sun loses is told for days with much of it
        usual = loss.log_at(loss.told, float(np.quantile(low, at)))
        left = [float(np.exp((times + nth * 1.645 * sd) * usual)) for nth in (0.0, 1.0, -1.0)]
        return Alarm(
            loss.form, loss.since, loss.first_told, until, ended_told, left[0], left[1], left[2], loss.ratio,
            loss.first_told - loss.since + 1,
        )  # fmt: skip
