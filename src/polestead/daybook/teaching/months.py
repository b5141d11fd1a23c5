"""Month factors: seen over expected by month of the year, with their certainty.

Normal on a logarithmic scale, drawn towards 1 by what the climate table is good for; years differ from one another by a
spread of their own, learned from the log where it has years enough (Gelman et al. 2013, Bayesian Data Analysis, 3rd ed.: 2.5,
2.6, 5.4).  Days with the battery full count as *at least so much* (Tobin 1958, Econometrica 26:24), never as less.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from polestead.base.hours import MONTH_NAMES
from polestead.base.source import OWNER, Source
from polestead.base.working import Step, Working
from polestead.daybook.teaching.scatter import HUBER, USUAL, Scatter, scores
from polestead.daybook.teaching.series import Bools, Floats, Paired

BEFOREHAND = 0.15  # standard deviation of a month's factor before the log: the climate table's winter error (docs/method/site.md)  # fmt: skip
YEARS_APART = 0.05  # of the same month in unlike years, before the log tells; ours, the climate's own spread (site: .045 to .065)  # fmt: skip
YEARS_BELIEF = 10.0  # pairs of months' worth of belief in that; ours
ROUNDS, SETTLED = 25, 1e-7
SURE_WITHIN = 0.05  # 90 % half-width of a factor from which it is called sure; ours

BDA = Source("Gelman et al. 2013, Bayesian Data Analysis, 3rd ed.", "2.5 and 5.4", "memory")
TOBIN = Source("Tobin 1958, Econometrica 26:24", "censored values", "memory")
MEMORY_OF_DAYS = Source("Bayley & Hammersley 1946, J. R. Statist. Soc. Suppl. 8:184", "days' worth of a series that remembers", "memory")  # fmt: skip


@dataclass(frozen=True, slots=True)
class MonthFactor:
    """What one month makes of the expected.

    Attributes:
        month: 1 to 12.
        factor: The likeliest middle.
        low, high: 5 and 95 % points.
        days: Days that count, of them ``at_least`` with the battery full.
        at_least: See there.
        years: Years the month was seen in.
        held: Share of the answer that comes from before the log (1: nothing is learned yet).
        working: How it was found.
    """

    month: int
    factor: float
    low: float
    high: float
    days: int
    at_least: int
    years: int
    held: float
    working: Working

    @property
    def sure(self) -> bool:
        """Whether the factor is known to a twentieth."""
        return 0.5 * (self.high - self.low) <= SURE_WITHIN


def month_factors(
    pairs: Paired,
    left_out: Bools,
    wide: float = 1.0,
    scatter: Scatter = USUAL,
    beforehand: float = BEFOREHAND,
) -> tuple[MonthFactor, ...]:
    """Twelve factors, January first.

    Args:
        pairs: Expected against seen.
        left_out: Days that do not count: snow on the glass, or a loss told since [days].
        wide: Factor on the days' standard deviation, as the log shows it.
        scatter: For the memory of the days.
        beforehand: Standard deviation of a factor's logarithm before the log.
    """
    cells = [_cells(pairs, ~left_out & ~pairs.snow, month, wide) for month in range(12)]
    worth = (1.0 - scatter.memory) / (1.0 + scatter.memory)
    apart = _years_apart(cells, worth)
    return tuple(_factor(month, cells[month], worth, apart, beforehand) for month in range(12))


@dataclass(frozen=True, slots=True, eq=False)
class _Cell:
    """One month of one year."""

    miss: Floats
    sd: Floats
    at_least: Bools


def _cells(pairs: Paired, counts: Bools, month: int, wide: float) -> tuple[_Cell, ...]:
    here = counts & (pairs.month == month)
    return tuple(
        _Cell(pairs.miss[one], wide * pairs.log_sd[one], pairs.at_least[one])
        for year in np.unique(pairs.year[here])
        if (one := here & (pairs.year == year)).any()
    )


def _taken(cell: _Cell, level: float) -> tuple[float, float]:
    """Mean of a cell's days about a level, and what is known of it: scores of days free and full (Fisher's scoring)."""
    pull = known = 0.0
    for at_least in (False, True):
        mine = cell.at_least == at_least
        if mine.any():
            z = (cell.miss[mine] - level) / cell.sd[mine]
            score, firm = scores(z, at_least)
            if not at_least:
                firm = (np.abs(z) <= HUBER).astype(float)
            pull += float((score / cell.sd[mine]).sum())
            known += float((firm / cell.sd[mine] ** 2).sum())
    known = max(known, 1e-9)
    return level + float(np.clip(pull / known, -1.0, 1.0)), known


def _years_apart(cells: list[tuple[_Cell, ...]], worth: float) -> float:
    """Standard deviation between years of the same month: the log's own, weighed with the belief beforehand."""
    squares, pairs = 0.0, 0.0
    for month in cells:
        means = [_settled(cell) for cell in month if not cell.at_least.all()]
        if len(means) > 1:
            own = float(np.mean([1.0 / (worth * known) for _, known in means]))
            spread = float(np.var([mean for mean, _ in means], ddof=1))
            squares += (len(means) - 1) * max(spread - own, 0.0)
            pairs += len(means) - 1
    return float(np.sqrt((YEARS_BELIEF * YEARS_APART**2 + squares) / (YEARS_BELIEF + pairs)))


def _settled(cell: _Cell) -> tuple[float, float]:
    level, known = float(np.median(cell.miss)), 0.0
    for _ in range(12):
        before, (level, known) = level, _taken(cell, level)
        if abs(level - before) < SETTLED:
            break
    return level, known


def _factor(
    month: int, cells: tuple[_Cell, ...], worth: float, apart: float, beforehand: float
) -> MonthFactor:
    level, levels = 0.0, [0.0] * len(cells)
    before = 1.0 / beforehand**2
    weight = 0.0
    for _ in range(ROUNDS if cells else 0):
        taken = [_taken(cell, at) for cell, at in zip(cells, levels, strict=True)]
        weights = [1.0 / (apart**2 + 1.0 / (worth * known)) for _, known in taken]
        weight = sum(weights)
        level = sum(w * mean for w, (mean, _) in zip(weights, taken, strict=True)) / (before + weight)  # fmt: skip
        shares = [worth * known * apart**2 / (1.0 + worth * known * apart**2) for _, known in taken]
        before_levels, levels = levels, [level + share * (mean - level) for share, (mean, _) in zip(shares, taken, strict=True)]  # fmt: skip
        if max(abs(new - old) for new, old in zip(levels, before_levels, strict=True)) < SETTLED:
            break
    sd = float(np.sqrt(1.0 / (before + weight)))
    factor, low, high = (float(np.exp(level + at * sd)) for at in (0.0, -1.645, 1.645))
    days = sum(cell.miss.size for cell in cells)
    full = sum(int(cell.at_least.sum()) for cell in cells)
    held = before / (before + weight)
    steps = (
        Step("days that count", "n", "", float(days), "", OWNER),
        Step("of them with the battery full: at least so much", "n_c", "", float(full), "", TOBIN),
        Step("worth of a day that remembers the one before", "w", "(1 - phi) / (1 + phi)", worth, "", MEMORY_OF_DAYS),
        Step("years apart, standard deviation", "tau", "of the logarithm", apart, "", BDA),
        Step("weight of the log", "W", "sum over years of 1 / (tau^2 + 1 / (w x information))", weight, "", BDA),
        Step("weight beforehand", "W_0", f"1 / {beforehand:g}^2", before, "", BDA),
        Step(f"factor of {MONTH_NAMES[month]}", "F", f"exp(W x mean / (W_0 + W)), 90 % within {low:.3f} to {high:.3f}", factor, "", BDA),
    )  # fmt: skip
    name = f"month factor of {MONTH_NAMES[month]}"
    return MonthFactor(month + 1, factor, low, high, days, full, len(cells), float(held), Working(name, steps))  # fmt: skip
