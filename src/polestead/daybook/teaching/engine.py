"""Engine hours and fuel, expected against seen, month by month; and the house-use factor they speak for."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from polestead.base.hours import MONTH_NAMES
from polestead.base.source import OWNER, Source
from polestead.base.working import Step, Working
from polestead.daybook.teaching.series import Floats, Seen

LEAST_DAYS, LEAST_DAYS_OF_YEAR = (
    20,
    300,
)  # of a month, of a year, that must have been written for it to count; ours
OURS = Source("the house's own years beside the log", status="ours")
BAYES = Source("Bayes' rule on a grid of factors, as the house-use factor is fitted to last winter", "docs/method/household.md", "ours")  # fmt: skip
OFF_SHARE, OFF_LEAST_H, OFF_LEAST_L = 0.10, 4.0, 10.0  # how far hours written and our rule for the engine disagree at best, as for last winter; ours  # fmt: skip
TELL_RATIO = 0.05  # a use factor is proposed where its 90 % interval leaves out the file's by this much; ours


@dataclass(frozen=True, slots=True)
class MonthBeside:
    """One month, or year, of the log beside the same of the house's years.

    Attributes:
        year, month: Which; month 0 for the whole year.
        word: ``engine hours`` or ``fuel``.
        seen: By the log, brought to a whole month where days are missing.
        good, median, bad: 10, 50 and 90 % points of the years.
        unit: ``h`` or ``l``.
        share_below: Share of the years that need less.
        days: Days written.
        within: Whether it lies within the years' spread and what neither side knows.
    """

    year: int
    month: int
    word: str
    seen: float
    good: float
    median: float
    bad: float
    unit: str
    share_below: float
    days: int
    within: bool


@dataclass(frozen=True, slots=True)
class UseUpdate:
    """The house-use factor after the log.

    Attributes:
        factor, low, high: Middle, 5 and 95 % points.
        file: What the file or the fit to last winter has.
        proposed: Whether the log speaks against that.
        sentence: What to write in the file, empty where nothing is to be changed.
        working: How it was found.
    """

    factor: float
    low: float
    high: float
    file: float
    proposed: bool
    sentence: str
    working: Working


def months_beside(
    seen: Seen, hours_by_year: Floats, fuel_by_year: Floats | None = None
) -> tuple[MonthBeside, ...]:
    """Engine hours, and fuel, of each month written beside the same month over the house's years.

    Args:
        seen: The log; days of a month without engine hours are taken as the mean of its others.
        hours_by_year: Of the house with the array, all years [years, 12], January first.
        fuel_by_year: The same in litres, left out where fuel is not worked.
    """
    rows = _month_rows(seen, hours_by_year)
    if fuel_by_year is not None:
        rows += _year_rows(seen, fuel_by_year)
    return tuple(rows)


def _month_rows(seen: Seen, by_year: Floats) -> list[MonthBeside]:
    """Engine hours month by month."""
    rows, values = [], seen.engine_h
    months = seen.day.astype("datetime64[M]")
    for at in np.unique(months):
        here = (months == at) & np.isfinite(values)
        days = int(here.sum())
        if days < LEAST_DAYS:
            continue
        year, month = 1970 + int(at.astype(int)) // 12, int(at.astype(int)) % 12
        whole = int((at + 1).astype("datetime64[D]").astype(int) - at.astype("datetime64[D]").astype(int))  # fmt: skip
        total = float(values[here].sum()) * whole / days
        rows.append(_beside(year, month + 1, "engine hours", total, by_year[:, month], "h", OFF_LEAST_H, days))  # fmt: skip
    return rows


def _year_rows(seen: Seen, by_year: Floats) -> list[MonthBeside]:
    """Fuel year by year: a tank is filled a few times a year, so that months say nothing."""
    rows = []
    years = seen.day.astype("datetime64[Y]")
    for at in np.unique(years):
        here = (years == at) & np.isfinite(seen.fuel_l)
        if int(here.sum()) >= LEAST_DAYS_OF_YEAR:
            total = float(seen.fuel_l[here].sum())
            rows.append(_beside(1970 + int(at.astype(int)), 0, "fuel", total, by_year.sum(axis=1), "l", OFF_LEAST_L, int(here.sum())))  # fmt: skip
    return rows


def _beside(
    year: int, month: int, word: str, total: float, years: Floats, unit: str, least: float, days: int
) -> MonthBeside:  # fmt: skip
    good, median, bad = (float(v) for v in np.quantile(years, (0.1, 0.5, 0.9)))
    off = max(OFF_SHARE * total, least)
    within = good - off <= total <= bad + off
    return MonthBeside(year, month, word, total, good, median, bad, unit, float((years < total).mean()), days, within)  # fmt: skip


def use_factor_after(
    file: tuple[float, float, float],
    rows: Sequence[MonthBeside],
    factors: Floats,
    hours_at: Floats,
) -> UseUpdate | None:
    """The house-use factor after the engine hours of the log.

    The file's factor with its interval is the belief beforehand (normal on a logarithmic scale); each month written is one draw
    from the house's years at each factor.

    Args:
        file: Middle, 5 and 95 % points of the factor in use; three like figures where it was written by the owner.
        rows: Months beside the house's years.
        factors: Factors the house was run with, rising [factors].
        hours_at: Engine hours of each [factors, years, 12].

    Returns:
        None where no month of engine hours was written.
    """
    hours = [row for row in rows if row.word == "engine hours"]
    if not hours:
        return None
    fine = np.geomspace(factors[0], factors[-1], 401)
    middle, low, high = file
    beforehand = max(np.log(high / low) / 3.29, 0.05)
    log_belief = -0.5 * ((np.log(fine) - np.log(middle)) / beforehand) ** 2
    for row in hours:
        years = hours_at[:, :, row.month - 1]
        mean = np.interp(np.log(fine), np.log(factors), years.mean(axis=1))
        spread = np.interp(np.log(fine), np.log(factors), years.std(axis=1))
        off = max(OFF_SHARE * row.seen, OFF_LEAST_H)
        sd = np.hypot(spread, off)
        log_belief += -0.5 * ((row.seen - mean) / sd) ** 2 - np.log(sd)
    weight = np.exp(log_belief - log_belief.max())
    weight /= weight.sum()
    below, at, above = np.interp((0.05, 0.5, 0.95), np.cumsum(weight) - 0.5 * weight, fine)
    proposed = bool(middle < below * (1.0 - TELL_RATIO) or middle > above * (1.0 + TELL_RATIO))
    sentence = f"[household] use_factor = {at:.2f}: the engine ran as if the house used {_times(at / middle)} what is taken now, over {len(hours)} months written; or the sun brings less than expected: see the month factors first."  # fmt: skip
    steps = (
        Step("factor in use", "f_0", "", middle, "", OWNER),
        *(Step(f"engine hours, {MONTH_NAMES[row.month - 1]} {row.year}", "y", f"our years: {row.good:.0f} to {row.bad:.0f}", row.seen, "h", OWNER) for row in hours),
        Step("factor, 5 % point", "f_5", "", float(below), "", BAYES),
        Step("factor, 95 % point", "f_95", "", float(above), "", BAYES),
        Step("house-use factor after the log", "f_50", "belief beforehand times how well each month lies among our years", float(at), "", BAYES),
    )  # fmt: skip
    return UseUpdate(
        float(at), float(below), float(above), middle, proposed, sentence if proposed else "",
        Working("house-use factor after the log", steps),
    )  # fmt: skip


def _times(ratio: float) -> str:
    return f"{ratio:.2f} times"
