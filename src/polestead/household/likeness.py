"""Does this look like your house: the owner's own figures beside ours, and one factor on all uses fitted to them."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from polestead.base.hours import MONTH_NAMES
from polestead.base.source import OWNER, Source
from polestead.base.working import Step, Working
from polestead.homestead.model import LastWinter
from polestead.household.result import Beside, HouseYears

Floats = NDArray[np.float64]
MONTHS = tuple(name.lower() for name in MONTH_NAMES)  # as the file writes them
TRIED = np.geomspace(0.5, 2.5, 11)  # factors the house is run with
FINE = np.geomspace(0.5, 2.5, 801)  # factors weighed, the runs read between
OURS = Source("the house run with other factors, its years as likely as each other", status="ours")
# How well owners' figures and our rule for the engine agree at best, as a share and a least amount; ours.
HOURS_OFF, FUEL_OFF, FILLS_OFF, DAWN_OFF = (0.10, 4.0), (0.10, 10.0), (0.0, 0.5), (0.0, 0.05)
MONTHS_THAT_STAND_FOR_THE_YEAR = 6


@dataclass(frozen=True, slots=True)
class Known:
    """One figure the owner knows, and how it reads in our years.

    Attributes:
        word: What it is.
        theirs: The owner's figure.
        unit: SI unit, empty for a share.
        of: Takes our years and gives the figure of each [years].
        off_share, off_least: Standard deviation of what neither he nor we can know of it: a share, and at least so much.
        more_is_better: As with a charge.
        per_l: Of the figure, for each litre of fuel: how the range of the fuel line widens it.
    """

    word: str
    theirs: float
    unit: str
    of: Callable[[HouseYears], Floats]
    off_share: float
    off_least: float
    more_is_better: bool = False
    per_l: float = 0.0

    @property
    def off(self) -> float:
        """Standard deviation of the figure itself."""
        return max(self.off_share * self.theirs, self.off_least)


@dataclass(frozen=True, slots=True)
class UseFit:
    """The house-use factor that makes our years look like the owner's winter.

    Attributes:
        factor: The likeliest middle (50 % point).
        low, high: 5 and 95 % points.
        at_edge: True where it lies at the end of what was tried: something else is wrong.
        far: How far the figures lie from ours at that factor, in standard deviations, the farthest of them.
        working: How it was found.
    """

    factor: float
    low: float
    high: float
    at_edge: bool
    far: float
    working: Working


def known_of(last: LastWinter, tank_l: float | None = None) -> tuple[Known, ...]:
    """The figures of last winter that are given.

    A whole year's engine hours are left aside where the months are given that make them up.

    Args:
        last: What the owner knows.
        tank_l: Fuel in his tank when full, for fills [l].
    """
    found = []
    months = {MONTHS.index(month): hours for month, hours in last.engine_hours_by_month.items()}
    if last.engine_hours is not None and len(months) < MONTHS_THAT_STAND_FOR_THE_YEAR:
        found.append(Known("engine hours", last.engine_hours, "h", _hours, *HOURS_OFF))
    found += [
        Known(f"engine hours in {MONTHS[month].capitalize()}", hours, "h", _hours_in(month), *HOURS_OFF)
        for month, hours in sorted(months.items())
    ]  # fmt: skip
    if last.fuel_l is not None:
        found.append(Known("fuel", last.fuel_l, "l", _fuel_l, *FUEL_OFF, per_l=1.0))
    if last.fills is not None and tank_l is not None:
        fills = Known(
            "tank fills", last.fills, "fills", _fills(tank_l), *FILLS_OFF, per_l=1.0 / tank_l
        )
        found.append(fills)
    if last.dawn_charge is not None:
        word = "charge at dawn, three leanest months"
        found.append(Known(word, last.dawn_charge, "", _dawn, *DAWN_OFF, more_is_better=True))
    return tuple(found)


def _hours(years: HouseYears) -> Floats:
    return np.asarray(years.engine_hours.sum(axis=1))


def _hours_in(month: int) -> Callable[[HouseYears], Floats]:
    return lambda years: years.engine_hours[:, month]


def _fills(tank_l: float) -> Callable[[HouseYears], Floats]:
    return lambda years: _fuel_l(years) / tank_l


def _fuel_l(years: HouseYears) -> Floats:
    return 0.5 * (years.fuel_least_l + years.fuel_most_l)


def _dawn(years: HouseYears) -> Floats:
    lean = np.argsort(years.dawn_charge.mean(axis=0))[:3]
    return np.asarray(years.dawn_charge[:, lean].mean(axis=1))


def beside_last_winter(years: HouseYears, known: tuple[Known, ...]) -> tuple[Beside, ...]:
    """The owner's own figures beside the years worked without the new array.

    Args:
        years: The house as it was last winter.
        known: What the owner knows.

    Returns:
        A row for each figure.
    """
    rows = []
    for one in known:
        low, median, high = (float(v) for v in np.quantile(one.of(years), (0.1, 0.5, 0.9)))
        good, bad = (high, low) if one.more_is_better else (low, high)
        within = low - one.off <= one.theirs <= high + one.off
        rows.append(Beside(one.word, good, median, bad, one.theirs, one.unit, within))
    return tuple(rows)


def house_use(house_at: Callable[[float], HouseYears], known: tuple[Known, ...]) -> UseFit | None:
    """Fit one factor on all uses, so that the years without the new array look like the owner's winter.

    For each factor the figures of our years have a mean, a spread and go together in some way; the owner's winter is one draw
    from them, and neither side is sure of a tenth.  Factors between .5 and 2.5 are as likely as each other beforehand
    (evenly on a logarithmic scale).  The normal distribution stands for the spread of the years: a shape, not a law.

    Args:
        house_at: Runs the house as it was, all uses times a factor.
        known: What the owner knows.

    Returns:
        None where he knows nothing.
    """
    if not known:
        return None
    means, spreads = _looks(house_at, known)
    weight, far = _weights(means, spreads, known)
    low, middle, high = np.interp((0.05, 0.5, 0.95), np.cumsum(weight) - 0.5 * weight, FINE)
    at = int(np.argmin(np.abs(FINE - middle)))
    edge = bool(weight[:8].sum() > 0.05 or weight[-8:].sum() > 0.05)
    steps = (
        *(Step(f"{one.word}, yours", f"y_{n}", "", one.theirs, one.unit, OWNER) for n, one in enumerate(known, 1)),
        *(
            Step(f"{one.word}, ours with the factor", f"m_{n}", "mean of our years", float(means[at, n - 1]), one.unit, OURS)
            for n, one in enumerate(known, 1)
        ),
        Step("factor, 5 % point", "f_5", "", float(low), "", OURS),
        Step("factor, 95 % point", "f_95", "", float(high), "", OURS),
        Step("house-use factor", "f_50", f"middle of {FINE.size} factors weighed by how well y lies among m", float(middle), "", OURS),
    )  # fmt: skip
    return UseFit(
        float(middle), float(low), float(high), edge, float(far[at]),
        Working("house-use factor", steps, ("All uses are taken times this factor: what the list of uses forgets.",)),
    )  # fmt: skip


def _looks(
    house_at: Callable[[float], HouseYears], known: tuple[Known, ...]
) -> tuple[Floats, Floats]:
    """Mean and covariance of the figures at each fine factor [factors, figures], [factors, figures, figures]."""
    means, spreads = [], []
    for factor in TRIED:
        years = house_at(float(factor))
        figures = np.array([one.of(years) for one in known])
        extra = np.diag([_range_of_fuel(one, years) ** 2 for one in known])
        means.append(figures.mean(axis=1))
        spreads.append(np.atleast_2d(np.cov(figures)) + extra)
    tall, wide = np.array(means), np.array(spreads)
    at = np.interp(np.log(FINE), np.log(TRIED), np.arange(TRIED.size))
    left = np.minimum(at.astype(int), TRIED.size - 2)
    part = at - left
    return (
        tall[left] + part[:, None] * (tall[left + 1] - tall[left]),
        wide[left] + part[:, None, None] * (wide[left + 1] - wide[left]),
    )


def _range_of_fuel(one: Known, years: HouseYears) -> float:
    """Standard deviation of an even spread between the two ends of the fuel line."""
    wide_l = float((years.fuel_most_l - years.fuel_least_l).mean())
    return one.per_l * wide_l / float(np.sqrt(12.0))


def _weights(means: Floats, spreads: Floats, known: tuple[Known, ...]) -> tuple[Floats, Floats]:
    """Share of belief in each fine factor, and how far off the farthest figure is there in standard deviations."""
    theirs = np.array([one.theirs for one in known])
    off = np.diag([one.off**2 for one in known])
    all_of_it = spreads + off
    miss = theirs - means
    solved = np.linalg.solve(all_of_it, miss[:, :, None])[:, :, 0]
    _, size = np.linalg.slogdet(all_of_it)
    likely = -0.5 * ((miss * solved).sum(axis=1) + size)
    weight = np.exp(likely - likely.max())
    sd = np.sqrt(np.einsum("fii->fi", all_of_it))
    return weight / weight.sum(), np.asarray(np.abs(miss / sd).max(axis=1))
