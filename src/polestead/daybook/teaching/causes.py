"""Which of the known causes a loss looks most like, once it is told: all days since speak, not only those up to the telling.

What the form of the loss says (``fit``) is weighed with snow, frost, rain and washes in the log.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import nan
from typing import Literal

import numpy as np

from polestead.daybook.teaching.fit import Fitted, fitted, span_of
from polestead.daybook.teaching.scatter import Scatter
from polestead.daybook.teaching.series import Floats, Paired, Seen
from polestead.daybook.teaching.watch import Alarm, Watched

CauseName = Literal["string", "dirt", "part", "snow", "off", "shade", "growth"]

LEAST_DAYS = 5  # to tell bright from dull days
SNOW_NEAR_DAYS = 5
# How much likelier a cause is by what else the log says: our own weights.
WASHED_STAYED, WASHED_ENDED, SNOW_SEEN, NO_FROST = 0.2, 5.0, 10.0, 0.02

WORDS: dict[CauseName, str] = {
    "string": "a string that no longer gives",
    "dirt": "dirt on the glass",
    "part": "a part of the array gone: leaves or droppings on the glass, a loose connector, a module",
    "snow": "snow on the glass",
    "off": "the array or its controller off",
    "shade": "something new that stands before the low sun",
    "growth": "trees grown before the low sun",
}
ACTS: dict[CauseName, str] = {
    "string": "At noon on a clear day lay a clamp meter round each string's wire: like strings read within 5 % of each other. Touch nothing bare; never unplug under load.",
    "dirt": "Wash one module, leave its neighbour, and compare them by a clamp meter or by eye at noon; hard rain does the same for all.",
    "part": "Walk round the array at noon: look for leaves, droppings, a warm or browned connector, a cracked pane; then wash one module and compare.",
    "snow": "Look at the glass from the house. If it is covered, clear it from the side, from the ground, with a soft tool; never move the array under snow.",
    "off": "Look at the controller and the breakers: is it lit, does it say a fault, does it charge. Open and close only what its sheet says, battery first.",
    "shade": "Stand at the array at nine and at three by the sun: what stands before it that did not last year.",
    "growth": "Measure the trees again with compass and fist from the array, in winter, and write it at [view].",
}


@dataclass(frozen=True, slots=True)
class Cause:
    """One cause and how much the days speak for it.

    Attributes:
        name: Which.
        odds: Belief, all causes adding to one.
        since: Day it most likely began, as a number of days.
        left: What is left of the energy on a usual day, by this cause.
    """

    name: CauseName
    odds: float
    since: int
    left: float


@dataclass(frozen=True, slots=True)
class ToldApart:
    """A loss told apart.

    Attributes:
        causes: The likeliest first.
        left_bright, left_dull: What was left on bright and on dull days, middle; not a number where there were under five.
        bright_days, dull_days: How many.
    """

    causes: tuple[Cause, ...]
    left_bright: float
    left_dull: float
    bright_days: int
    dull_days: int


def told_apart(
    pairs: Paired,
    seen: Seen,
    found: Watched,
    nth: int,
    strings: int | None,
    scatter: Scatter,
    freezing_months: Sequence[int] = (),
) -> ToldApart:
    """Weigh the causes of one loss.

    Args:
        pairs: Expected against seen.
        seen: The log, for snow, rain and washes.
        found: What the test told.
        nth: Which of its alarms.
        strings: In parallel, None where not known.
        scatter: What days do while nothing is wrong.
        freezing_months: 1 to 12, months in which snow may lie; none given: any.
    """
    alarm = found.alarms[nth]
    end = alarm.until if alarm.until is not None else int(pairs.number[-1]) + 1
    rest = pairs.miss - found.base - _others(pairs, found, nth)
    of_days = found.base_sd[pairs.month[(pairs.number >= alarm.since) & (pairs.number < end)]]
    base_sd = float(np.median(of_days)) if of_days.size else 0.0
    span = span_of(pairs, rest, found.wide, scatter, alarm.since, end, base_sd)
    forms = fitted(span, alarm.since, end, strings)
    since = (span.number >= alarm.since) & span.free
    bright = span.sd <= np.median(span.sd)
    parts = [span.rest[since & bright], span.rest[since & ~bright]]
    left = [float(np.exp(np.median(part))) if part.size >= LEAST_DAYS else nan for part in parts]
    low = span.low[span.number >= alarm.since]
    usual = float(np.quantile(low, 0.9)) if low.size else 0.0
    causes = _by_cause(forms, usual, alarm, seen, end, freezing_months)
    return ToldApart(causes, left[0], left[1], parts[0].size, parts[1].size)


def _others(pairs: Paired, found: Watched, nth: int) -> Floats:
    """What the other losses took of each day."""
    taken = np.zeros(pairs.days)
    for place, other in enumerate(found.alarms):
        if place != nth:
            end = other.until if other.until is not None else np.iinfo(np.int64).max
            taken += np.where((pairs.number >= other.since) & (pairs.number < end), np.log(other.left), 0.0)  # fmt: skip
    return taken


def _by_cause(
    forms: Sequence[Fitted],
    usual_low: float,
    alarm: Alarm,
    seen: Seen,
    end: int,
    freezing_months: Sequence[int],
) -> tuple[Cause, ...]:
    """Beliefs with what else the log says, the likeliest first."""
    more = _what_else(alarm, seen, end, freezing_months)
    named: list[tuple[CauseName, Fitted]] = []
    for form in forms:
        if form.name == "gone":
            named += [("snow", form), ("off", form)]
        else:
            named.append((form.name, form))
    beliefs = np.array([form.belief + np.log(more.get(name, 1.0)) for name, form in named])
    odds = np.exp(beliefs - beliefs.max())
    odds /= odds.sum()
    causes = [
        Cause(
            name,
            float(share),
            form.start,
            float(np.exp(form.shape.log_of(np.array(max(end - 1.0 - form.start, 0.0)), usual_low))),
        )
        for (name, form), share in zip(named, odds, strict=True)
    ]
    return tuple(sorted(causes, key=lambda cause: -cause.odds))


def _what_else(
    alarm: Alarm, seen: Seen, end: int, freezing_months: Sequence[int]
) -> dict[CauseName, float]:
    """How much likelier each cause is by snow, frost, rain and washes."""
    number = seen.day.astype(np.int64)
    snow = bool(seen.snow[(number >= alarm.since - SNOW_NEAR_DAYS) & (number < end)].any())
    month = int(np.datetime64(alarm.since, "D").astype("datetime64[M]").astype(int)) % 12 + 1
    frost = not freezing_months or month in freezing_months
    washed = number[seen.cleaned & (number > alarm.since + 2)]
    stayed = bool((washed < end - 3).any())
    ended = alarm.until is not None and bool((np.abs(washed - end) <= 3).any())
    return {
        "snow": 0.7 * (SNOW_SEEN if snow else 1.0 if frost else NO_FROST),
        "off": 0.3,
        "dirt": WASHED_ENDED if ended else WASHED_STAYED if stayed else 1.0,
    }
