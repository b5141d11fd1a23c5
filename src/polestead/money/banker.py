"""The banker's leaf: what the savings of so many winters are worth today, at the owner's own rate."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from polestead.base.show import number, percent
from polestead.base.source import OWNER, Source
from polestead.base.working import Step, Working
from polestead.homestead.model import Prices
from polestead.money.discount import level_payment, present_value, rate_of_return
from polestead.money.saved import Floats, Pair, drawn_winters, point

CLOSED = Source("sum of flow_t / (1 + rate)^t, the first flow today and not discounted", status="computed")  # fmt: skip
HOUSE = Source("the house run through all years, without minus with the new array", status="computed")  # fmt: skip
NOTES = (
    "All is paid today, which is not discounted; a winter's saving comes at its end. A spreadsheet's own function often "
    "discounts the first flow too: then it shows this one divided by 1 + rate.",
    "In money of today: the rate and the rise of fuel are those over and above other prices.",
    "No repair, new battery, ageing of the modules, sale or own hours are in it.",
)


@dataclass(frozen=True, slots=True)
class BankersLeaf:
    """Money later against money now; every pair is by the low and the high end of the fuel line.

    Attributes:
        winters: Counted.
        rate: The owner's, a year; None where he wrote none, and nothing is discounted.
        fuel_rise: Of fuel over other prices, a year.
        outlay: Paid today.
        saved_mean: In a mean year, at today's fuel price.
        wear_mean: Wear and oil in it; the rest is fuel.
        savings_worth: What all savings are worth today: what it may cost at most.
        worth: The same less the outlay: net present value with every winter a mean one.
        worth_undiscounted: The same at a rate of 0.
        worth_unlucky: One run of winters in ten is worth less, by the low end of the fuel line.
        worth_lucky: One run in ten is worth more, by the high end.
        returns: Rate at which it is worth nothing, low and high; None where there is none.
        level_cost: The outlay as the same sum each winter, interest at the rate in it.
        sentences: In words.
        working: The sums.
    """

    winters: int
    rate: float | None
    fuel_rise: float
    outlay: float
    saved_mean: Pair
    wear_mean: float
    savings_worth: Pair
    worth: Pair
    worth_undiscounted: Pair
    worth_unlucky: float
    worth_lucky: float
    returns: tuple[float | None, float | None]
    level_cost: float
    sentences: tuple[str, ...]
    working: Working


def bankers_leaf(
    prices: Prices, outlay: float, hours_saved: Floats, fuel_least_l: Floats, fuel_most_l: Floats
) -> BankersLeaf:
    """Net present value over the counted years, with luck's own range, and the rate of return.

    The mean year stands for every winter, for the worth of a run of winters is in the mean that of mean ones.

    Args:
        prices: For fuel, engine hour, counted years, rate and rise.
        outlay: All lines of the ledger.
        hours_saved: Engine hours, year by year [years].
        fuel_least_l: Fuel by the low end of the fuel line [years].
        fuel_most_l: By the high end [years].
    """
    winters = max(1, round(prices.counted_years))
    rate = prices.discount or 0.0
    rise = prices.fuel_rise
    ends = [_flows(prices, rise, winters, float(hours_saved.mean()), float(fuel.mean())) for fuel in (fuel_least_l, fuel_most_l)]  # fmt: skip
    ends.sort(key=sum)
    worths = [present_value(rate, [0.0, *flows]) for flows in ends]
    bare = [sum(flows) for flows in ends]
    unlucky, lucky = _luck(prices, (rate, rise, winters), outlay, hours_saved, (fuel_least_l, fuel_most_l))  # fmt: skip
    back = [rate_of_return([-outlay, *flows]) if outlay > 0.0 else None for flows in ends]
    means = sorted(
        float(hours_saved.mean()) * prices.engine_hour + float(fuel.mean()) * prices.fuel_per_l
        for fuel in (fuel_least_l, fuel_most_l)
    )
    worth = (worths[0] - outlay, worths[1] - outlay)
    undiscounted = (bare[0] - outlay, bare[1] - outlay)
    level = level_payment(rate, winters, outlay) if outlay > 0.0 else 0.0
    returns = (back[0], back[1])
    said = _sentences(prices, winters, worth, undiscounted, (worths[0], worths[1]), returns, (unlucky, lucky), outlay)  # fmt: skip
    return BankersLeaf(
        winters, prices.discount, rise, outlay, (means[0], means[1]), float(hours_saved.mean()) * prices.engine_hour, (worths[0], worths[1]), worth, undiscounted,
        unlucky, lucky, returns, level, said,
        _working(prices, (rate, rise, winters), outlay, (means[0], means[1]), ends, worth, returns, level),
    )  # fmt: skip


def _flows(prices: Prices, rise: float, winters: int, hours: float, fuel_l: float) -> list[float]:
    """Saved at the end of each winter; fuel has risen once by the end of the first."""
    return [
        fuel_l * prices.fuel_per_l * (1.0 + rise) ** t + hours * prices.engine_hour
        for t in range(1, winters + 1)
    ]


def _luck(
    prices: Prices, terms: tuple[float, float, int], outlay: float, hours: Floats, fuel: tuple[Floats, Floats]
) -> Pair:  # fmt: skip
    """Worth of drawn runs of winters: 10 % point by the low end, 90 % point by the high end."""
    rate, rise, winters = terms
    at = np.arange(1, winters + 1)
    picks = drawn_winters(hours.size, winters)
    both = [
        (((one * prices.fuel_per_l)[picks] * (1.0 + rise) ** at + (hours * prices.engine_hour)[picks]) / (1.0 + rate) ** at).sum(axis=1)
        - outlay
        for one in fuel
    ]  # fmt: skip
    return point(np.minimum(*both), 0.1), point(np.maximum(*both), 0.9)


def _sentences(
    prices: Prices,
    winters: int,
    worth: Pair,
    undiscounted: Pair,
    savings: Pair,
    returns: tuple[float | None, float | None],
    luck: Pair,
    outlay: float,
) -> tuple[str, ...]:
    money = prices.currency
    said = []
    if outlay <= 0.0:
        said.append("Nothing is priced yet, so only what it saves can be told.")
    if prices.discount is None:
        what = f"Over {winters} winters, nothing discounted, it saves {_pair(savings, money)}"
        said.append(f"{what} and leaves {_pair(undiscounted, money)} over what it costs." if outlay > 0.0 else f"{what}.")  # fmt: skip
        said.append(
            "No rate is written, and none is invented here: write discount under [prices], what your money earns elsewhere in a year or "
            "a loan costs, rising prices taken off."
        )
    else:
        said.append(
            f"At {percent(prices.discount, 1)} a year the savings of {winters} winters are worth {_pair(savings, money)} today: so "
            f"much it may cost. Less what it costs that leaves {_pair(worth, money)}; undiscounted {_pair(undiscounted, money)}."
        )
    said.append(f"One run of winters in ten leaves less than {number(luck[0])}, one in ten more than {number(luck[1])} {money}.")  # fmt: skip
    if outlay > 0.0:
        said.append(_return_words(returns, winters))
    return tuple(said)


def _return_words(returns: tuple[float | None, float | None], winters: int) -> str:
    low, high = returns
    if high is None:
        return "No rate makes it worth its cost: the savings do not stand against it."
    if low is None:
        return f"It brings at most {percent(high, 1)} a year; by the low end of the fuel line nothing."  # fmt: skip
    words = f"{number(100.0 * low, 1)}" if abs(high - low) < 5e-4 else f"{number(100.0 * low, 1)} to {number(100.0 * high, 1)}"  # fmt: skip
    return f"Over {winters} winters it brings {words} % a year: money that costs or earns more than that is better left where it is."  # fmt: skip


def _pair(ends: Pair, money: str) -> str:
    low, high = number(ends[0]), number(ends[1])
    return f"{low} {money}" if low == high else f"{low} to {high} {money}"


def _working(
    prices: Prices,
    terms: tuple[float, float, int],
    outlay: float,
    means: Pair,
    ends: list[list[float]],
    worth: Pair,
    returns: tuple[float | None, float | None],
    level: float,
) -> Working:
    rate, rise, winters = terms
    money = prices.currency
    steps = [
        Step("paid today", "T", "", outlay, money, OWNER),
        Step("winters counted", "n", "", float(winters), "", OWNER),
        Step("rate a year" if prices.discount is not None else "rate a year (none written)", "r", "", rate, "", OWNER),
        Step("rise of fuel over other prices, a year", "g", "", rise, "", OWNER),
        Step("saved in a mean year at today's price, low end", "s1", "h w + f1 p", means[0], money, HOUSE),
        Step("saved in a mean year at today's price, high end", "s2", "h w + f2 p", means[1], money, HOUSE),
    ]  # fmt: skip
    for number_, flows, end in zip((1, 2), ends, ("low end", "high end"), strict=True):
        terms_shown = " + ".join(f"{flow:.0f}/{1 + rate:g}^{t}" for t, flow in enumerate(flows[:3], start=1))  # fmt: skip
        rest = f" + ... + {flows[-1]:.0f}/{1 + rate:g}^{winters}" if winters > 3 else ""
        steps.append(Step(f"worth of all savings today, {end}", f"P{number_}", f"{terms_shown}{rest}", worth[number_ - 1] + outlay, money, CLOSED))  # fmt: skip
        steps.append(Step(f"net present value, {end}", f"N{number_}", f"{worth[number_ - 1] + outlay:.0f} - {outlay:.0f}", worth[number_ - 1], money, CLOSED))  # fmt: skip
    if outlay > 0.0:
        each_winter = (
            f"{outlay:.2f} x {rate:g} / (1 - {1 + rate:g}^-{winters})"
            if rate
            else f"{outlay:.2f} / {winters}"
        )
        steps.append(Step("the cost as the same sum each winter", "a", each_winter, level, money, CLOSED))  # fmt: skip
    for end_, found, end in zip((1, 2), returns, ("low end", "high end"), strict=True):
        if found is not None:
            steps.append(Step(f"rate at which it is worth nothing, {end}", "r0", f"the rate at which N{end_} is 0", found, "", CLOSED))  # fmt: skip
    return Working("what it is worth today", tuple(steps), NOTES)
