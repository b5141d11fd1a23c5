"""All that the log teaches, gathered."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from math import isfinite, sqrt
from typing import Literal

import numpy as np

from polestead.base.show import Style, percent
from polestead.base.source import OWNER, Source
from polestead.base.working import Step, Working
from polestead.daybook.teaching.bank import (  # fmt: skip
    BUDGET_WEEKS,
    HAWKINS,
    WeeklyAlarm,
    dawn_alarm,
    engine_alarm,
    full_days,
)
from polestead.daybook.teaching.causes import ACTS, WORDS, ToldApart, told_apart
from polestead.daybook.teaching.engine import (
    MonthBeside,
    UseUpdate,
    months_beside,
    use_factor_after,
)
from polestead.daybook.teaching.months import MonthFactor, month_factors
from polestead.daybook.teaching.run_length import BROOK_EVANS, PAGE, SHIRYAEV_ROBERTS, waits
from polestead.daybook.teaching.scatter import MEASURED, STEINER_MACKAY, USUAL, Scatter
from polestead.daybook.teaching.series import FULL, Bools, Expected, Floats, Paired, Seen, paired
from polestead.daybook.teaching.shapes import Shape, shapes_of
from polestead.daybook.teaching.trees import Growth, Tree, growth_lines
from polestead.daybook.teaching.view import ViewFit, view_fit
from polestead.daybook.teaching.watch import BUDGET_DAYS, DAY_SAYS_AT_MOST, Alarm, Watched, watched

Sureness = Literal["sure", "likely", "guess"]

LEAST_DAYS = 30  # days that count before anything is told of them; ours
MONTH_DAYS = 10  # of a month before its factor is told; ours
RECENT_DAYS, LEAST_RECENT = 30, 5  # days looked at, and of them compared at least; ours
MEASURED_SD = 0.09  # middle of the expected's own doubt from which its sun counts as measured; ours
MOST_FULL, SKY_UNKNOWN_SD = (
    0.2,
    0.3,
)  # share of full days, and doubt, over which the last days are not summed; ours
SURE, LIKELY = 0.9, 0.6  # belief in a cause; ours
FULL_AS_OFTEN = 0.8  # of the share of full days before: at least that, and the bank is meant, not the uses; ours
OURS = Source("expected against seen, day by day", "docs/method/teaching.md", "ours")

BATTERY_ACT = "Bring it brim-full, let it rest, draw a known use down to the level you know, and count the watt-hours; flooded cells: measure each cell's gravity. Take off rings, wear goggles, vent the room."
USES_ACT = "Read what the house uses over one night with everything as always, then switch one thing off after another: something draws that is not on the list."


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing the log says has changed.

    Attributes:
        what: In a sentence.
        cause, next_best: In words; the second empty where none is left.
        odds, next_odds: Belief in each.
        sureness: Of the cause.
        since: Most likely first day.
        told: Day the test told it.
        until: Day it most likely ended; None while it lasts.
        left, left_low, left_high: Of the energy, with its 90 % interval; not numbers where energy is not meant.
        false_alarms: How often the test is wrong while nothing is.
        act: What settles it.
        working: How it was found.
    """

    what: str
    cause: str
    next_best: str
    odds: float
    next_odds: float
    sureness: Sureness
    since: date
    told: date
    until: date | None
    left: float
    left_low: float
    left_high: float
    false_alarms: str
    act: str
    working: Working


@dataclass(frozen=True, slots=True)
class Recent:
    """The last days that count, expected against seen.

    Attributes:
        days: Days compared; ``at_least`` more had a full battery and could have made more: they are not in the sums.
        at_least: See there.
        seen_wh, expected_wh: Over the days compared.
        low_wh, high_wh: What the expected may be, 5 and 95 % points.
        within: Whether the seen lies between.
        at_least_over: Of the days with a full battery, those that made more than expected all the same.
    """

    days: int
    at_least: int
    seen_wh: float
    expected_wh: float
    low_wh: float
    high_wh: float
    within: bool
    at_least_over: int


@dataclass(frozen=True, slots=True)
class Taught:
    """What the log teaches.

    Attributes:
        days: Days that count.
        first, last: Of them, None where there are none.
        recent: The last days, None where too few.
        findings: What has changed: what lasts first, the newest first.
        months: Month factors, of months with days enough.
        view: What the low sun says of the trees, None where it says nothing.
        engine: Engine hours and fuel beside the house's years.
        use: The house-use factor after the log, None where no engine hours were written.
        foresight: Sentences on what foresight would have saved.
        proposals: Changes of the homestead file, in sentences; nothing is ever changed.
        missing: What the log lacks, and how many more days.
        notes: What stands beside.
    """

    days: int
    first: date | None
    last: date | None
    recent: Recent | None
    findings: tuple[Finding, ...]
    months: tuple[MonthFactor, ...]
    view: ViewFit | None
    engine: tuple[MonthBeside, ...]
    use: UseUpdate | None
    foresight: tuple[str, ...]
    proposals: tuple[str, ...]
    missing: tuple[str, ...]
    notes: tuple[str, ...]

    @property
    def loss_lasts(self) -> bool:
        """Whether something found has not ended, and is not by now so small that it may be nothing."""
        return any(one.until is None and not one.left_high >= 1.0 for one in self.findings)


@dataclass(frozen=True, slots=True, eq=False)
class House:
    """What the household and the file say, as far as it is worked; everything may be left out.

    Attributes:
        strings: In parallel on the array.
        freezing_months: 1 to 12, months in which snow may lie.
        hours_by_year: Engine hours with the array [years, 12], January first.
        fuel_by_year: Litres, the same.
        use: Middle, 5 and 95 % points of the house-use factor in use.
        factors: Factors the house was run with, rising [factors].
        hours_at: Engine hours of each [factors, years, 12].
        trees: Rows of trees in the file.
        growth: What their growth takes of the low sun.
        units: Whose units a line for the file is written in.
    """

    strings: int | None = None
    freezing_months: tuple[int, ...] = ()
    hours_by_year: Floats | None = None
    fuel_by_year: Floats | None = None
    use: tuple[float, float, float] | None = None
    factors: Floats | None = None
    hours_at: Floats | None = None
    trees: tuple[Tree, ...] = ()
    growth: Growth | None = None
    units: Style = "metric"


def taught_of(
    seen: Seen,
    expected: Expected,
    house: House | None = None,
    *,
    foresight: Sequence[str] = (),
    budget_days: float = BUDGET_DAYS,
) -> Taught:
    """Gather what the log teaches.

    Args:
        seen: The log.
        expected: Of the same days.
        house: What else is known.
        foresight: Sentences of ``drawn_sentence``, worked by who has the household at hand.
        budget_days: Mean days between false alarms of the test on the array's energy.

    Raises:
        Wrong: If log and expected do not fit one another.
    """
    house = house or House()
    pairs = paired(seen, expected)
    engine, use = _engine(seen, house)
    beside = _weekly(seen, expected)
    if pairs.days < LEAST_DAYS:
        return Taught(
            pairs.days, _first(pairs), _last(pairs), None, beside, (), None, engine, use, tuple(foresight),
            (use.sentence,) if use is not None and use.proposed else (), _missing(seen, pairs), pairs.set_aside,
        )  # fmt: skip
    scatter = MEASURED if float(np.median(pairs.log_sd)) <= MEASURED_SD else USUAL
    shapes = shapes_of(house.strings)
    found = watched(pairs, shapes, scatter, budget_days, house.strings)
    apart = [
        told_apart(pairs, seen, found, nth, house.strings, scatter, house.freezing_months)
        for nth in range(len(found.alarms))
    ]
    lost = _days_of(pairs, found.alarms)
    of_trees = _days_of(pairs, [a for a in found.alarms if a.form in ("shade", "growth")])
    months = [m for m in month_factors(pairs, lost, found.wide, scatter) if m.days >= MONTH_DAYS]
    view = view_fit(pairs, lost & ~of_trees, house.trees, found.wide, scatter)
    findings = [_finding(alarm, one, found, pairs) for alarm, one in zip(found.alarms, apart, strict=True)]  # fmt: skip
    proposals = [
        *([view.sentence] if view is not None and view.proposed else []),
        *(growth_lines(house.trees, house.growth, view.a_year, house.units) if view is not None and view.a_year_high < 0.0 else ()),
        *([use.sentence] if use is not None and use.proposed else []),
    ]  # fmt: skip
    return Taught(
        pairs.days, _first(pairs), _last(pairs), _recent(pairs, seen, expected, found, scatter),
        tuple(sorted([*findings, *beside], key=lambda f: (f.until is not None, -f.told.toordinal()))),
        tuple(months), view, engine, use, tuple(foresight), tuple(proposals), _missing(seen, pairs),
        (*pairs.set_aside, *_notes(pairs, found, scatter, shapes, house.strings)),
    )  # fmt: skip


def _engine(seen: Seen, house: House) -> tuple[tuple[MonthBeside, ...], UseUpdate | None]:
    if house.hours_by_year is None:
        return (), None
    rows = months_beside(seen, house.hours_by_year, house.fuel_by_year)
    if house.use is None or house.factors is None or house.hours_at is None:
        return rows, None
    return rows, use_factor_after(house.use, rows, house.factors, house.hours_at)


def _days_of(pairs: Paired, alarms: Sequence[Alarm]) -> Bools:
    """Days on which one of these losses lasted."""
    lost = np.zeros(pairs.days, dtype=bool)
    for alarm in alarms:
        end = np.iinfo(np.int64).max if alarm.until is None else alarm.until
        lost |= (pairs.number >= alarm.since) & (pairs.number < end)
    return lost


def _finding(alarm: Alarm, apart: ToldApart, found: Watched, pairs: Paired) -> Finding:
    first, second = apart.causes[0], apart.causes[1]
    since = min(first.since, alarm.told)
    until = None if alarm.until is None else _day(alarm.until)
    from_to = f"Since about {_said(since)}" if until is None else f"From about {_said(since)} to {_said(alarm.until or 0)}"  # fmt: skip
    makes = "makes" if until is None else "made"
    where = " when the sun is low" if first.name in ("shade", "growth") else ""
    low, high = sorted((1.0 - alarm.left_low, 1.0 - alarm.left_high))
    what = f"{from_to} the array {makes} {100.0 * (1.0 - alarm.left):.0f} % less than expected{where} (90 % sure of {100.0 * max(low, 0.0):.0f} to {100.0 * min(high, 1.0):.0f} %)."  # fmt: skip
    steps = (
        Step("days since it began, up to the telling", "n", "", float(alarm.days), "", OWNER),
        Step("days of the false-alarm budget", "A", "the sum must pass it", found.threshold, "", SHIRYAEV_ROBERTS),
        Step("sum of likelihood ratios when told", "R", "sum over starts and forms of weight x ratio; full days by the chance of at least so much", alarm.ratio, "", SHIRYAEV_ROBERTS),
        Step("left on bright days", "r_b", f"middle of {apart.bright_days} days", apart.left_bright, "", OURS),
        Step("left on dull days", "r_d", f"middle of {apart.dull_days} days", apart.left_dull, "", OURS),
        *(Step(f"belief: {WORDS[cause.name]}", "p", f"since {_said(cause.since)}, {100.0 * (1.0 - cause.left):.0f} % lost by it", cause.odds, "", OURS) for cause in apart.causes[:4]),
        Step("left of the energy", "r", f"90 % within {alarm.left_low:.2f} to {alarm.left_high:.2f}", alarm.left, "", OURS),
    )  # fmt: skip
    steps = tuple(step for step in steps if isfinite(step.value))
    return Finding(
        what, WORDS[first.name], WORDS[second.name] if second.odds >= 0.01 else "", first.odds, second.odds, _sureness(first.odds),
        _day(since), _day(alarm.told), until, alarm.left, alarm.left_low, alarm.left_high,
        f"While nothing is wrong this test tells something once in {found.threshold / 365.25:.0f} years at most on average, all losses of the array together.",
        ACTS[first.name], Working("what was lost", steps, (f"{int(pairs.at_least.sum())} of {pairs.days} days had a full battery and count as at least so much.",)),
    )  # fmt: skip


def _weekly(seen: Seen, expected: Expected) -> tuple[Finding, ...]:
    """Dawn charge and engine hours."""
    alarms = [alarm for alarm in (dawn_alarm(seen, expected), engine_alarm(seen, expected)) if alarm is not None]  # fmt: skip
    return tuple(_weekly_finding(alarm, seen) for alarm in alarms)


def _weekly_finding(alarm: WeeklyAlarm, seen: Seen) -> Finding:
    before, after, days_before, days_after = full_days(seen, alarm.since, FULL)
    counted = min(days_before, days_after) >= 20 and before > 0.0
    # Beta posteriors with one half of a day each: what the share of full days says, bank or uses
    odds = _bank_odds(before, after, days_before, days_after) if counted else 0.5
    bank, uses = "a battery that holds less than it did", "a house that uses more than its list"
    cause, other, act = (bank, uses, BATTERY_ACT) if odds >= 0.5 else (uses, bank, USES_ACT)
    belief = max(odds, 1.0 - odds)
    change = 100.0 * (alarm.after - alarm.before) if alarm.unit == "" else alarm.after - alarm.before  # fmt: skip
    words = f"{abs(change):.0f} points lower" if alarm.name == "dawn charge" else f"{change:.1f} hours a day longer"  # fmt: skip
    subject = "the charge in the morning is" if alarm.name == "dawn charge" else "the engine runs"
    span = f"Since about {_said(alarm.since)}" if alarm.until is None else f"From about {_said(alarm.since)} to {_said(alarm.until)}"  # fmt: skip
    what = f"{span} {subject} {words} than expected from the sun seen."
    steps = (
        Step("weeks since it began, up to the telling", "n", "", float(alarm.weeks), "", OWNER),
        Step(f"{alarm.name}, seen less expected, before", "d_0", "mean of weeks", alarm.before, alarm.unit, OURS),
        Step(f"{alarm.name}, seen less expected, since", "d_1", "mean of weeks", alarm.after, alarm.unit, OURS),
        Step("days brim-full, share before", "b_0", f"of {days_before} days of the same season where there are", before, "", OWNER),
        Step("days brim-full, share since", "b_1", f"of {days_after} days", after, "", OWNER),
        Step("threshold", "h", f"one false alarm in {BUDGET_WEEKS:.0f} weeks, k = .5", alarm.threshold, "", BROOK_EVANS),
        Step("each week against the log's own past", "z", "brought to a standard normal", 0.0, "", HAWKINS),
        Step("cumulative sum", "S", "max(0, S + z - .5)", alarm.value, "", PAGE),
    )  # fmt: skip
    return Finding(
        what, cause, other, belief, 1.0 - belief, _sureness(belief), _day(alarm.since), _day(alarm.told), None if alarm.until is None else _day(alarm.until),
        float("nan"), float("nan"), float("nan"),
        f"While nothing is wrong this test tells something once in {BUDGET_WEEKS / 52.18:.0f} years on average.",
        act, Working(alarm.name, tuple(step for step in steps if isfinite(step.value) and step.symbol != "z")),
    )  # fmt: skip


def _bank_odds(before: float, after: float, days_before: int, days_after: int) -> float:
    """Belief that the battery fills as often as before (so that it, not the uses, has changed)."""
    from scipy.stats import norm

    shares = [(share * days + 0.5) / (days + 1.0) for share, days in ((before, days_before), (after, days_after))]  # fmt: skip
    # neighbouring days are alike: a third of them count (Bayley & Hammersley 1946 with a memory of .5)
    sd = sqrt(sum(share * (1.0 - share) / max(days / 3.0, 1.0) for share, days in zip(shares, (days_before, days_after), strict=True)))  # fmt: skip
    return float(norm.sf((FULL_AS_OFTEN * shares[0] - shares[1]) / max(sd, 1e-9)))


def _recent(
    pairs: Paired, seen: Seen, expected: Expected, found: Watched, scatter: Scatter
) -> Recent | None:
    last = pairs.number > pairs.number[-1] - RECENT_DAYS
    here = last & ~pairs.snow & ~pairs.at_least
    full = last & pairs.at_least
    # where the sky is not known, days left by a full battery are the dull ones: their sum would look like a loss
    one_sided = full.sum() > MOST_FULL * last.sum() and float(np.median(pairs.log_sd[last])) > SKY_UNKNOWN_SD  # fmt: skip
    if here.sum() < LEAST_RECENT or one_sided:
        return None
    at = np.searchsorted(seen.day, pairs.day[here])
    expected_wh, sd = expected.mean_wh[at], found.wide * pairs.log_sd[here]
    total = float(expected_wh.sum())
    luck = float(((expected_wh * sd) ** 2).sum()) * (1.0 + scatter.memory) / (1.0 - scatter.memory)
    off = sqrt(luck + (scatter.slow**2 + scatter.season**2 + scatter.month**2) * total**2) / total
    low, high = total * np.exp(-1.645 * off), total * np.exp(1.645 * off)
    made = float(seen.made_wh[at].sum())
    return Recent(
        int(here.sum()), int(full.sum()), made, total, float(low), float(high), bool(low <= made <= high),
        int((pairs.miss[full] > 0.0).sum()),
    )  # fmt: skip


def _missing(seen: Seen, pairs: Paired) -> tuple[str, ...]:
    said = []
    if not seen.days:
        said.append(f"The log is empty: write each evening what the array made and the charge, each morning the charge. {LEAST_DAYS} more days of that, before anything is told.")  # fmt: skip
        return tuple(said)
    if pairs.days < LEAST_DAYS:
        said.append(f"{LEAST_DAYS - pairs.days} more days with what the array made, before anything is told of it.")  # fmt: skip
    if not np.isfinite(seen.charge).any():
        said.append("No line says how full the battery was: whether the array was turned away is taken from what the household expects.")  # fmt: skip
    if not np.isfinite(seen.engine_h).any():
        said.append("No line says how long the engine ran: write its hours, nothing too.")
    if not np.isfinite(seen.dawn_charge).any():
        said.append("No line says the charge in the morning: without it an ageing battery is not seen.")  # fmt: skip
    return tuple(said)


def _notes(
    pairs: Paired, found: Watched, scatter: Scatter, shapes: Sequence[Shape], strings: int | None
) -> tuple[str, ...]:
    """How long a fault would wait at this log's scatter, and what was done with full days."""
    free = ~pairs.at_least & ~pairs.snow
    if not free.any():
        return ("The battery was full on every day: the log says nothing of what the array could have made.",)  # fmt: skip
    luck = found.wide**2 / float(np.mean(1.0 / pairs.log_sd[free] ** 2))
    long = luck * (1.0 + scatter.memory) / (1.0 - scatter.memory) + 2.0 * scatter.slow_memory_days * scatter.slow**2  # fmt: skip
    rate = float(free.sum()) / max(int(pairs.number[-1] - pairs.number[0]) + 1, 1)
    waiting = []
    for shape in shapes:
        if shape.name in ("tenth", "string"):
            size = -float(np.log1p(-shape.size)) / sqrt(long)
            days = max(waits(round(size, 3), round(found.threshold / shape.weight, 0)), _least_days(found.threshold / shape.weight)) / max(rate, 0.01)  # fmt: skip
            name = "a tenth lost" if shape.name == "tenth" else f"a string lost, {percent(shape.size)} of it"  # fmt: skip
            waiting.append(f"{name}: about {days:.0f} days")
    return (
        f"At the scatter of this log a lasting loss is told on average after so long: {'; '.join(waiting)}. In the first year longer: its months are not known yet.",
        f"{int(pairs.at_least.sum())} days with a full battery count as at least so much ({STEINER_MACKAY.work}); {int(pairs.snow.sum())} with snow on the glass are left out.",
        *(() if strings is not None else ("How many strings stand in parallel is not known here: a half and a quarter were looked for.",)),
    )  # fmt: skip


def _least_days(threshold: float) -> float:
    """Days the test takes at least: no day says more than its bound."""
    return float(np.ceil(np.log(threshold) / DAY_SAYS_AT_MOST))


def _sureness(odds: float) -> Sureness:
    return "sure" if odds >= SURE else "likely" if odds >= LIKELY else "guess"


def _first(pairs: Paired) -> date | None:
    return _day(int(pairs.number[0])) if pairs.days else None


def _last(pairs: Paired) -> date | None:
    return _day(int(pairs.number[-1])) if pairs.days else None


def _day(number: int) -> date:
    return date.fromordinal(date(1970, 1, 1).toordinal() + int(number))


def _said(number: int) -> str:
    day = _day(number)
    return f"{day.day} {day:%b %Y}"
