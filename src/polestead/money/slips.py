"""Prices that look as if a unit had slipped, told in words and never mended silently."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from itertools import pairwise

from polestead.base.show import number
from polestead.homestead.ledger import LedgerRow
from polestead.homestead.model import Prices
from polestead.money.ledger import Ledger

# Spans wide enough for any honest price of 2015 to 2026 in these currencies; common practice, no source.
_LIKE_A_DOLLAR = ("$", "€", "£", "usd", "us$", "eur", "gbp", "cad", "aud", "nzd", "chf", "c$", "a$", "nz$", "dollar", "dollars", "euro", "euros")  # fmt: skip
_FUEL_PER_L = (0.15, 4.0)
_CONCRETE_PER_M3 = (40.0, 1500.0)
_ENGINE_HOUR_MOST = 25.0
_ALL_PER_W = (0.2, 20.0)
_MODULES_PER_W = (0.05, 4.0)
_MODULE_WORDS = ("module", "panel")
_MOUNT_PER_W = (0.1, 12.0)
_WIRE_PER_M = (0.1, 150.0)
_RATE_PER_H = (2.0, 400.0)
_PENNIES = 3.0  # a line under this, among lines of hundreds, is a thousand cut short or the price of one piece
_GRANT_WORDS = ("grant", "rebate", "subsid", "incentive")
_HOUR_WORDS = ("hour", "hours", "hrs", "labour", "labor")
# A later figure so many times the earlier one is another unit, not another price; whatever the currency.
_TURNS = ((100.0, "cents in one of them"), (1000.0, "a thousands' mark read as a decimal point"))


def slips(
    prices: Prices, rows: Iterable[LedgerRow], ledger: Ledger, module_power_w: float
) -> tuple[str, ...]:
    """Every price that cannot be meant, and what was probably meant.

    Valid for: spans of a price in currencies near a dollar in worth; what a ledger says against itself, in any.

    Args:
        prices: As in the file.
        rows: Of the ledger, with every stage.
        ledger: Added up.
        module_power_w: Rated power of the new array [W].
    """
    said = [*_against_itself(rows, prices.currency), *_kinds(ledger, prices.currency)]
    if prices.currency.strip().lower() in _LIKE_A_DOLLAR:
        said += _rates(prices)
        said += _module_lines(prices, ledger, module_power_w)
        said += _small_lines(ledger, prices.currency)
        said += _hours(ledger, prices.currency)
        said += _mount(prices, module_power_w)
        said += _whole(prices, ledger.total, module_power_w)
    return tuple(dict.fromkeys(said))


def _against_itself(rows: Iterable[LedgerRow], money: str) -> Iterator[str]:
    """One line whose stages do not belong to one thing, and lines that stand twice."""
    listed = list(rows)
    for row in listed:
        stages = [(word, value) for word, value in (("planned", row.planned), ("quoted", row.quoted), ("paid", row.paid)) if value]  # fmt: skip
        for (first, one), (second, other) in pairwise(stages):
            yield from _turn(row.name.replace("_", " "), (first, one), (second, other), money)
    twice = Counter((row.name, row.amount, row.on) for row in listed if row.stage and row.amount)
    for (name, amount, _), count in twice.items():
        if count > 1:
            yield f"{name.replace('_', ' ')}, {number(amount, 2)} {money}, stands {count} times in the ledger: entered twice?"


def _turn(name: str, first: tuple[str, float], second: tuple[str, float], money: str) -> Iterator[str]:  # fmt: skip
    one, other = first[1], second[1]
    line = f"{name}: {first[0]} {number(one, 2)}, {second[0]} {number(other, 2)} {money}"
    if one * other < 0.0:
        yield f"{line}: a minus too many, or one missing?"
        return
    turn = max(other / one, one / other)
    near = next((why for size, why in _TURNS if 0.6 * size <= turn <= 1.6 * size), None)
    if near is not None:
        yield f"{line}, about {turn:,.0f} times apart: {near}?"
    elif turn >= 10.0:
        yield f"{line}, {turn:,.0f} times apart: are both of the same thing?"


def _kinds(ledger: Ledger, money: str) -> Iterator[str]:
    """A grant without its minus, a minus that is no grant, hours written as money."""
    for line in ledger.lines:
        words = line.name.lower().replace(",", " ").split()
        shown = f"{line.name}, {number(line.amount, 2)} {money}"
        if line.amount > 0.0 and any(word.startswith(_GRANT_WORDS) for word in words):
            yield f"{shown}: money that comes in is written with a minus."
        elif line.amount < 0.0 and line.part != "grants":
            yield f"{shown}: a minus takes it off the cost. Is it a grant or something sold? Else take the minus out."
        if line.amount > 0.0 and line.hours is None and any(word in _HOUR_WORDS for word in words):
            yield f"{shown}: are these hours, not money? Hours stand under hours in a line of [[prices.entry]] or of the CSV."


def _small_lines(ledger: Ledger, money: str) -> Iterator[str]:
    """A line of pennies among lines of hundreds."""
    for line in ledger.lines:
        if 0.0 < line.amount < _PENNIES and not line.mark and ledger.total > 500.0 and not _module(line.name):  # fmt: skip
            yield (
                f"{line.name}: {number(line.amount, 2)} {money} in a ledger of {number(ledger.total)}: 1.180 written for 1,180, or the price "
                "of one piece, one foot or one pound?"
            )


def _mount(prices: Prices, power_w: float) -> Iterator[str]:
    quote, money = prices.bought_mount, prices.currency
    if quote is None:
        return
    per_w, (low, high) = quote / power_w, _MOUNT_PER_W
    line = (
        f"The bought mount at {number(quote, 2)} {money} is {per_w:.3g} {money} a watt of modules"
    )
    if per_w > high:
        yield f"{line}: cents written as {money}?"
    elif per_w < low:
        yield f"{line}: the price of one module's share, or a thousand cut short?"


def _module(name: str) -> bool:
    return any(word in name.lower() for word in _MODULE_WORDS)


def _hours(ledger: Ledger, money: str) -> Iterator[str]:
    """Hours at a rate no hour has."""
    low, high = _RATE_PER_H
    for line in ledger.lines:
        if line.rate is not None and line.rate > 0.0 and not low <= line.rate <= high:
            yield f"{line.name}: an hour at {number(line.rate, 2)} {money}: cents, or the price of all hours together?"


def _rates(prices: Prices) -> list[str]:
    said = []
    money, fuel = prices.currency, prices.fuel_per_l
    low, high = _FUEL_PER_L
    if fuel > high:
        said.append(
            f"Fuel at {fuel:.2f} {money} a litre ({fuel * 3.785411784:.2f} a gallon): cents written as {money}, or a price per "
            "gallon written as per litre?"
        )
    elif 0.0 < fuel < low:
        said.append(
            f"Fuel at {fuel:.3f} {money} a litre ({fuel * 3.785411784:.2f} a gallon) is next to nothing: a price per litre "
            "written as per gallon?"
        )
    elif fuel == 0.0:
        said.append("Fuel costs nothing in the file: then no fuel saved is worth anything.")
    if prices.engine_hour > _ENGINE_HOUR_MOST:
        said.append(
            f"An engine hour at {prices.engine_hour:.2f} {money} in wear and oil: cents written as {money}, or fuel counted in "
            "it twice?"
        )
    low, high = _WIRE_PER_M
    said += [
        f"Wire {size} at {per_m:.2f} {money} a metre ({per_m * 0.3048:.2f} a foot): cents, a whole reel, or a foot's price for a metre?"
        for size, per_m in prices.wire.items()
        if not low <= per_m <= high
    ]
    concrete = prices.concrete_per_m3
    if concrete is not None and not _CONCRETE_PER_M3[0] <= concrete <= _CONCRETE_PER_M3[1]:
        said.append(f"Concrete at {concrete:.2f} {money} a cubic metre: the price of a bag, or of the whole load?")  # fmt: skip
    return said


def _module_lines(prices: Prices, ledger: Ledger, power_w: float) -> list[str]:
    said = []
    money = prices.currency
    low, high = _MODULES_PER_W
    named = [line for line in ledger.lines if _module(line.name) and line.part == "array"]
    apart = (
        len([line for line in named if line.amount > 0.0]) > 1
    )  # bought in lots: one lot says little of all
    for line_ in named:
        amount = line_.amount
        per_w = amount / power_w
        if amount <= 0.0 or (apart and low / 10.0 <= per_w <= high):
            continue
        line = f"{line_.name}: {amount:,.2f} {money} is {per_w:.3g} {money} a watt"
        if per_w > high:
            said.append(f"{line}: cents written as {money}?")
        elif per_w < low:
            one = "module, not of all" if amount > 5.0 else "watt, not of all modules"
            said.append(f"{line}: the price of one {one}?")
    return said


def _whole(prices: Prices, total: float, power_w: float) -> list[str]:
    if total <= 0.0:
        return []
    per_w, (low, high) = total / power_w, _ALL_PER_W
    money = prices.currency
    if per_w > high:
        return [f"The whole comes to {per_w:,.0f} {money} a watt: is a line in cents, or entered twice?"]  # fmt: skip
    if per_w < low:
        return [f"The whole comes to {per_w:.3f} {money} a watt: are lines missing, or prices of one piece entered for all?"]  # fmt: skip
    return []
