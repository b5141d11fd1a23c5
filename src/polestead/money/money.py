"""Ledger, what a year saves, winters until paid."""

from __future__ import annotations

from math import isfinite

import numpy as np
from numpy.typing import NDArray

from polestead.base.source import OWNER, Source
from polestead.base.working import Step, Working
from polestead.homestead.model import Prices
from polestead.money.result import MoneyIfOff, MoneyResult
from polestead.money.slips import slips

Floats = NDArray[np.float64]
Pair = tuple[float, float]
Saved = tuple[Floats, Floats, Floats]  # engine hours, fuel by the low end, fuel by the high end

HOUSE = Source("the house run through all years, without minus with the new array", status="computed")  # fmt: skip
SUM = Source("the ledger", status="computed")
HORIZON = 100  # winters; longer than any array, pole or owner
DRAWS = 400
SEED = 1
NOTHING_PRICED = "Nothing is priced in the file yet: give the lines under prices."
NOTHING_SAVED = (
    "It saves no engine hours or fuel that can be counted on: it is never paid for out of fuel."
)
NOTES = (
    "Not discounted, fuel at today's price, your own hours not counted, no repair or new battery.",
    "Only sun the house could take counts; summer sun turned away saves nothing.",
)


def money_of(
    prices: Prices,
    concrete_m3: float,
    module_power_w: float,
    hours_saved: Floats,
    fuel_saved_least_l: Floats,
    fuel_saved_most_l: Floats,
    if_off: tuple[Saved, ...] = (),
) -> MoneyResult:
    """Ledger total, saved money in good, median and bad years, winters until paid.

    Args:
        prices: The owner's, in his currency.
        concrete_m3: To order; used where the ledger has a price per volume but no concrete line.
        module_power_w: Rated power of the new array, to catch a slipped unit [W].
        hours_saved: Engine hours, year by year, without minus with the new array [years].
        fuel_saved_least_l: Fuel by the low end of the fuel line, the same way [years].
        fuel_saved_most_l: By the high end [years].
        if_off: The same three were the climate brighter, and were it darker, by the error of its source.

    Raises:
        ValueError: If the years of the three do not agree, or there is none.
    """
    lines = ledger(prices, concrete_m3)
    total = float(sum(amount for _, amount, _ in lines))
    low, high = saved_by_year(prices, hours_saved, fuel_saved_least_l, fuel_saved_most_l)
    good, median, bad = ((_point(low, p), _point(high, p)) for p in (0.9, 0.5, 0.1))
    winters = winters_until_paid(total, low, high)
    per_hour = _per_engine_hour(total, hours_saved)
    return MoneyResult(
        currency=prices.currency,
        lines=lines,
        total=total,
        saved_good=good,
        saved_median=median,
        saved_bad=bad,
        per_engine_hour_saved=per_hour,
        winters_low=None if winters is None else winters[0],
        winters_high=None if winters is None else winters[1],
        if_off=tuple(_if_off(prices, total, saved) for saved in if_off),
        working=_working(
            prices,
            total,
            (low, high),
            hours_saved,
            (fuel_saved_least_l, fuel_saved_most_l),
            winters,
        ),
        doubts=_doubts(prices, total, module_power_w, winters),
        notes=_notes(prices),
    )


def _if_off(prices: Prices, total: float, saved: Saved) -> MoneyIfOff:
    low, high = saved_by_year(prices, *saved)
    return MoneyIfOff((_point(low, 0.5), _point(high, 0.5)), winters_until_paid(total, low, high))


def ledger(prices: Prices, concrete_m3: float) -> tuple[tuple[str, float, str], ...]:
    """The owner's lines, and the concrete by volume where he priced it so and has no line for it.

    Returns:
        (name, amount, mark): ``~`` marks the estimated line.
    """
    lines = [(name.replace("_", " "), amount, "") for name, amount in prices.lines.items()]
    has_concrete = any("concrete" in name.lower() for name in prices.lines)
    if prices.concrete_per_m3 is not None and not has_concrete:
        lines.append(("concrete", prices.concrete_per_m3 * concrete_m3, "~"))
    return tuple(lines)


def saved_by_year(
    prices: Prices, hours_saved: Floats, fuel_least_l: Floats, fuel_most_l: Floats
) -> tuple[Floats, Floats]:
    """Money saved each year by the low and by the high end of the fuel line; less than 0 where it costs.

    Source: fuel saved x its price + engine hours saved x what an hour wears.

    Returns:
        Low and high, low never over high [years] each.
    """
    if not hours_saved.shape == fuel_least_l.shape == fuel_most_l.shape or hours_saved.size == 0:
        message = "hours and fuel saved need the same years, at least one"
        raise ValueError(message)
    wear = hours_saved * prices.engine_hour
    by_least = fuel_least_l * prices.fuel_per_l + wear
    by_most = fuel_most_l * prices.fuel_per_l + wear
    return np.minimum(by_least, by_most), np.maximum(by_least, by_most)


def winters_until_paid(total: float, low: Floats, high: Floats) -> Pair | None:
    """Whole winters until the savings reach the total: the sooner and the later end.

    Winters are drawn from the years worked, with the same luck for both ends: the sooner end is the 10 % point by the
    high end of the fuel line, the later end the 90 % point by the low end.  Source: our own rule.

    Args:
        total: To be paid.
        low: Saved each year by the low end [years].
        high: By the high end [years].

    Returns:
        (sooner, later), or None when nothing is priced, or when it may never be paid.

    Example:
        >>> winters_until_paid(1000.0, np.full(20, 100.0), np.full(20, 200.0))
        (5.0, 10.0)
    """
    if total <= 0.0:
        return None
    picks = np.random.default_rng(SEED).integers(0, low.size, size=(DRAWS, HORIZON))
    sooner = float(np.quantile(_paid_after(total, high[picks]), 0.1, method="lower"))
    later = float(np.quantile(_paid_after(total, low[picks]), 0.9, method="higher"))
    return (sooner, later) if isfinite(sooner) and isfinite(later) else None


def _paid_after(total: float, savings: Floats) -> Floats:
    """Winters until each run of savings [draws, winters] reaches the total; endless where it goes nowhere."""
    sums = np.cumsum(savings, axis=1)
    reached = sums >= total * (1.0 - 1e-12)
    within = reached.argmax(axis=1) + 1.0
    with np.errstate(divide="ignore", over="ignore"):
        beyond = np.where(sums[:, -1] > 0.0, np.ceil(HORIZON * total / np.abs(sums[:, -1])), np.inf)
    return np.where(reached.any(axis=1), within, beyond)


def _point(values: Floats, share: float) -> float:
    return float(np.quantile(values, share))


def _per_engine_hour(total: float, hours_saved: Floats) -> float | None:
    hours = 10.0 * _point(hours_saved, 0.5)
    return total / hours if hours > 0.0 and total > 0.0 else None


def _doubts(
    prices: Prices, total: float, module_power_w: float, winters: Pair | None
) -> tuple[str, ...]:
    said = list(slips(prices, total, module_power_w))
    if total <= 0.0:
        said.append(NOTHING_PRICED)
    elif winters is None:
        said.append(NOTHING_SAVED)
    elif winters[0] > HORIZON:
        said.append(f"Paid for after more than {HORIZON} winters: not out of fuel.")
    return tuple(said)


def _notes(prices: Prices) -> tuple[str, ...]:
    if prices.bought_mount is None:
        return NOTES
    beside = (
        f"A bought mount is quoted at {prices.bought_mount:,.0f} {prices.currency}; set pole, concrete, crane, galvanizing, "
        "actuator and your own hours beside it, for a quote mostly leaves pole and concrete out."
    )
    return (*NOTES, beside)


def _working(
    prices: Prices,
    total: float,
    saved: tuple[Floats, Floats],
    hours_saved: Floats,
    fuel: tuple[Floats, Floats],
    winters: Pair | None,
) -> Working:
    money = prices.currency
    hours = _point(hours_saved, 0.5)
    litres = [_point(ends, 0.5) for ends in fuel]
    low, high = (_point(end, 0.5) for end in saved)
    steps = [
        Step("fuel", "p", "", prices.fuel_per_l, f"{money}/l", OWNER),
        Step("wear and oil of an engine hour", "w", "", prices.engine_hour, f"{money}/h", OWNER),
        Step("engine hours saved, median", "h", "", hours, "h", HOUSE),
        Step("fuel saved, median, low end", "f1", "", min(litres), "l", HOUSE),
        Step("fuel saved, median, high end", "f2", "", max(litres), "l", HOUSE),
        Step("saved in a median year, low end", "s1", "median over the years of f1 p + h w", low, money, HOUSE),
        Step("saved in a median year, high end", "s2", "median over the years of f2 p + h w", high, money, HOUSE),
        Step("all lines of the ledger", "T", "", total, money, SUM),
    ]  # fmt: skip
    if winters is not None:
        drawn = f"winters drawn from {hours_saved.size} years until they sum to {total:.0f}"
        steps += [
            Step("paid for, the sooner end", "n1", drawn, winters[0], "winters", HOUSE),
            Step("paid for, the later end", "n2", drawn, winters[1], "winters", HOUSE),
        ]
    return Working("what it costs and what it saves", tuple(steps), NOTES)
