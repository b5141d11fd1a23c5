"""The cheapest wire over the owner's years beside the smallest lawful one."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from functools import partial
from itertools import pairwise
from operator import mul

from polestead.base.source import OWNER, Source
from polestead.base.working import Step, Working
from polestead.homestead.sentences import priced_wire_words
from polestead.wiring.run.conductor import is_metric
from polestead.wiring.run.loss import JOULE
from polestead.wiring.run.sizes import METALS, SizeOfWire, smallest_lawful

Pair = tuple[float, float]  # by the low and by the high end of the fuel line
SUM = Source("price of the wire, and what its loss costs over the years, undiscounted", status="ours")  # fmt: skip
WORTH = Source("fuel and engine hours, from the house run with and without such a loss", status="computed")  # fmt: skip
ALIKE = 0.005  # of the whole: nearer than that two sizes cost the same; ours


@dataclass(frozen=True, slots=True)
class SizeOverYears:
    """One size of wire over the owner's years.

    Attributes:
        wire: The size, what it carries and loses in full sun.
        lost_wh: In a mean year.
        worth_year: What that costs in fuel and engine hours in a mean year (low, high).
        price: Of the whole run, two live wires and the earth wire; None without a price.
        total: Price and worth of the loss over the years (low, high); None without a price.
        next_size: The next thicker size of its kind and metal; None at the end.
        next_worth_per_m: What that one may cost more per metre of run and still pay for itself (low, high).
    """

    wire: SizeOfWire
    lost_wh: float
    worth_year: Pair
    price: float | None
    total: Pair | None
    next_size: str | None
    next_worth_per_m: Pair | None

    @property
    def middle(self) -> float | None:
        """Half way between the low and the high total."""
        return None if self.total is None else 0.5 * (self.total[0] + self.total[1])


@dataclass(frozen=True, slots=True)
class Economy:
    """All sizes over the owner's years.

    Attributes:
        years: Over which fuel is counted.
        rows: Metal by metal, thinnest first.
        smallest: The thinnest lawful size of each metal that has one.
        cheapest: Least price and loss together among the lawful sizes with a price, half way between both ends.
        cheapest_at_ends: The same by the low and by the high end of the fuel line; where they differ fuel decides.
        priced: How many lawful sizes have a price.
        working: How the cheapest, or else the smallest, came about; None where no size is lawful.
    """

    years: float
    rows: tuple[SizeOverYears, ...]
    smallest: tuple[SizeOverYears, ...]
    cheapest: SizeOverYears | None
    cheapest_at_ends: tuple[SizeOverYears, ...]
    priced: int
    working: Working | None


def wire_prices(written: Mapping[str, float]) -> dict[tuple[str, str], float]:
    """Prices by size and metal from the owner's own words, per metre of run.

    Example:
        >>> wire_prices({"4 AWG copper": 12.0})
        {('4 AWG', 'copper'): 12.0}
    """
    return {priced_wire_words(name): price for name, price in written.items()}


def economy_of(
    sizes: Iterable[SizeOfWire],
    i2_h_a2: float,
    worth_per_wh: Pair,
    years: float,
    length_m: float,
    prices: Mapping[tuple[str, str], float],
    lost_wh: Callable[[float], float] | None = None,
) -> Economy:
    """Every size's loss over a mean year, its worth over the years, its price; the cheapest and the smallest lawful.

    Nothing is discounted, fuel stays at today's price.  Source: our own sum.

    Args:
        sizes: Metal by metal, thinnest first.
        i2_h_a2: Sum of the squared current over a mean year [A^2 h].
        worth_per_wh: What a lost watt-hour costs (low, high), none of them under nothing.
        years: Over which it is counted.
        length_m: Of the run, one way [m].
        prices: Two live wires and the earth wire per metre of run, by size and metal.
        lost_wh: What a loop of so many ohm loses in a mean year [Wh]; None: the sum of the squared current, which holds for every wire that
            can bring the power.
    """
    losing = lost_wh or partial(mul, i2_h_a2)
    listed = tuple(sizes)
    thicker = _thicker(listed)
    rows = tuple(
        _row(one, thicker.get((one.size, one.metal)), losing, worth_per_wh, years, length_m, prices)
        for one in listed
    )  # fmt: skip
    by_name = {(row.wire.size, row.wire.metal): row for row in rows}
    thinnest = (smallest_lawful(listed, metal) for metal in METALS)
    smallest = tuple(by_name[one.size, one.metal] for one in thinnest if one is not None)
    open_to = [row for row in rows if not row.wire.faults and row.total is not None]
    cheapest = cheapest_of(open_to)
    told = cheapest or (smallest[0] if smallest else None)
    return Economy(
        years=years,
        rows=rows,
        smallest=smallest,
        cheapest=cheapest,
        cheapest_at_ends=tuple(_least(open_to, end) for end in (0, 1)) if open_to else (),
        priced=len(open_to),
        working=None if told is None else _working(told, i2_h_a2, worth_per_wh, years, length_m),
    )


def cheapest_of(rows: Iterable[SizeOverYears]) -> SizeOverYears | None:
    """The lawful, priced row with the least total, half way between both ends."""
    lawful = [row for row in rows if not row.wire.faults and row.middle is not None]
    return min(lawful, key=lambda row: row.middle or 0.0, default=None)


def costs_the_same(one: SizeOverYears, other: SizeOverYears) -> bool:
    """Whether two sizes cost the same, as far as such sums reach."""
    if one.middle is None or other.middle is None:
        return False
    return abs(one.middle - other.middle) <= ALIKE * max(one.middle, other.middle)


def _row(
    one: SizeOfWire,
    thicker: SizeOfWire | None,
    losing: Callable[[float], float],
    worth_per_wh: Pair,
    years: float,
    length_m: float,
    prices: Mapping[tuple[str, str], float],
) -> SizeOverYears:
    lost = losing(one.loop_ohm)
    low, high = (lost * worth for worth in worth_per_wh)
    per_m = prices.get((one.size, one.metal))
    price = None if per_m is None else per_m * length_m
    spared = None
    if thicker is not None:
        less = (lost - losing(thicker.loop_ohm)) * years / length_m
        spared = (less * worth_per_wh[0], less * worth_per_wh[1])
    return SizeOverYears(
        wire=one,
        lost_wh=lost,
        worth_year=(low, high),
        price=price,
        total=None if price is None else (price + years * low, price + years * high),
        next_size=None if thicker is None else thicker.size,
        next_worth_per_m=spared,
    )


def _thicker(sizes: tuple[SizeOfWire, ...]) -> dict[tuple[str, str], SizeOfWire]:
    """The next thicker size of the same metal and family, by size and metal."""
    found: dict[tuple[str, str], SizeOfWire] = {}
    for metal in METALS:
        for metric in (False, True):
            family = [one for one in sizes if one.metal == metal and is_metric(one.size) == metric]
            found |= {(thin.size, metal): thick for thin, thick in pairwise(family)}
    return found


def _least(rows: list[SizeOverYears], end: int) -> SizeOverYears:
    return min(rows, key=lambda row: row.total[end] if row.total else 0.0)


def _working(
    told: SizeOverYears, i2_h_a2: float, worth_per_wh: Pair, years: float, length_m: float
) -> Working:
    wire = told.wire
    low, high = told.worth_year
    steps = [
        Step("one way", "L", "", length_m, "m", OWNER),
        Step(f"{wire.size} {wire.metal}, pole wires and cord, there and back at {wire.warm_c:.0f} C", "R", "", wire.loop_ohm, "ohm", JOULE),
        Step("squared current over a mean year", "S", "sum of I^2 over the hours", i2_h_a2, "A^2 h", JOULE),
        Step("lost in a mean year", "E", f"{wire.loop_ohm:.5f} x {i2_h_a2:.0f}", told.lost_wh, "Wh", JOULE),
        Step("what a lost watt-hour costs, low end", "w1", "", worth_per_wh[0], "money/Wh", WORTH),
        Step("what a lost watt-hour costs, high end", "w2", "", worth_per_wh[1], "money/Wh", WORTH),
        Step("cost of the loss in a mean year, low end", "c1", f"{told.lost_wh:.0f} x {worth_per_wh[0]:.3g}", low, "money", WORTH),
        Step("cost of the loss in a mean year, high end", "c2", f"{told.lost_wh:.0f} x {worth_per_wh[1]:.3g}", high, "money", WORTH),
    ]  # fmt: skip
    if told.price is not None and told.total is not None:
        steps += [
            Step("price of the run", "P", f"{told.price / length_m:.3f} x {length_m:.2f}", told.price, "money", OWNER),
            Step("price and loss, low end", "T1", f"{told.price:.0f} + {years:g} x {low:.2f}", told.total[0], "money", SUM),
            Step("price and loss, high end", "T2", f"{told.price:.0f} + {years:g} x {high:.2f}", told.total[1], "money", SUM),
        ]  # fmt: skip
    return Working(f"{wire.size} {wire.metal} over {years:g} years", tuple(steps))
