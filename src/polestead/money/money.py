"""Ledger, what a year saves, winters until paid."""

from __future__ import annotations

from polestead.base.show import number
from polestead.base.source import OWNER, Source
from polestead.base.working import Step, Working
from polestead.homestead.ledger import LedgerRow
from polestead.homestead.model import Prices
from polestead.money.banker import bankers_leaf
from polestead.money.buy import build_or_buy
from polestead.money.house import House
from polestead.money.ledger import Ledger, ledger_of
from polestead.money.result import MoneyIfOff, MoneyResult, SavedYear
from polestead.money.saved import (
    HORIZON,
    Floats,
    Pair,
    Saved,
    point,
    saved_by_year,
    winters_until_paid,
)
from polestead.money.slips import kept_columns_note, no_span_note, slips

HOUSE = Source("the house run through all years, without minus with the new array", status="computed")  # fmt: skip
SUM = Source("the ledger", status="computed")
NO_WEAR = (
    "An engine hour wears nothing in the file: count oil and filter over the hours between changes, and the engine's price over the hours "
    "it lasts, and write the sum as engine_hour."
)
NOTHING_PRICED = "Nothing is priced in the file yet: give the lines under prices."
NOTHING_SAVED = (
    "It saves no engine hours or fuel that can be counted on: it is never paid for out of fuel."
)
# Public Law 119-21, section 70506, as told in Congressional Research Service Insight IN12611 (seen).
ENDED = (
    "The federal credit of 30 % for a home's own power is not given for what is spent after 31 December 2025 (Public Law 119-21, section "
    "70506; a bill may change it again); states and utilities have rules of their own."
)
NOTES = (
    "A median saved is the middle of the years' own savings: it may miss the one median less the other by a little (conventions §14).",
    "Not discounted, fuel at today's price, your own hours not counted, no repair or new battery.",
    "Only sun the house could take counts; summer sun turned away saves nothing.",
)


def money_of(
    prices: Prices,
    rows: tuple[LedgerRow, ...],
    house: House,
    hours_saved: Floats,
    fuel_saved_least_l: Floats,
    fuel_saved_most_l: Floats,
    if_off: tuple[Saved, ...] = (),
) -> MoneyResult:
    """Ledger, saved money in good, median and bad years, winters until paid, build against buy, worth today.

    Args:
        prices: The owner's, in his currency.
        rows: All lines of his ledger (`homestead.ledger.rows_in`).
        house: What the house wants: the concrete is priced where the ledger has a price per volume but no concrete line, and
            every price is held against it, to catch a slipped unit.
        hours_saved: Engine hours, year by year, without minus with the new array [years].
        fuel_saved_least_l: Fuel by the low end of the fuel line, the same way [years].
        fuel_saved_most_l: By the high end [years].
        if_off: The same three were the climate brighter, and were it darker, by the error of its source.

    Raises:
        ValueError: If the years of the three do not agree, or there is none.
    """
    ledger = ledger_of(rows, prices.currency, house.concrete_m3, prices.concrete_per_m3)
    found = slips(prices, rows, ledger, house)
    total = ledger.total
    low, high = saved_by_year(prices, hours_saved, fuel_saved_least_l, fuel_saved_most_l)
    good, median, bad = ((point(low, p), point(high, p)) for p in (0.9, 0.5, 0.1))
    winters = winters_until_paid(total, low, high)
    years = _years(prices, total, (low, high), (hours_saved, fuel_saved_least_l, fuel_saved_most_l))
    per_hour = _per_engine_hour(total, hours_saved)
    return MoneyResult(
        currency=prices.currency,
        lines=tuple((one.name, one.amount, one.mark) for one in ledger.lines if one.stage),
        ledger=ledger,
        total=total,
        saved_good=good,
        saved_median=median,
        saved_bad=bad,
        saved_years=years,
        engine_hour_worth=_hour_worth(years[1]),
        per_engine_hour_saved=per_hour,
        winters_low=None if winters is None else winters[0],
        winters_high=None if winters is None else winters[1],
        build_or_buy=build_or_buy(prices, ledger),
        banker=bankers_leaf(prices, total, hours_saved, fuel_saved_least_l, fuel_saved_most_l),
        if_off=tuple(_if_off(prices, total, saved) for saved in if_off),
        working=_working(
            prices,
            total,
            (low, high),
            hours_saved,
            (fuel_saved_least_l, fuel_saved_most_l),
            winters,
        ),
        slips=found,
        doubts=(*(one.words for one in found), *_doubts(prices, ledger, winters)),
        notes=(*_notes(prices, ledger), *kept_columns_note(rows)),
    )


def _if_off(prices: Prices, total: float, saved: Saved) -> MoneyIfOff:
    low, high = saved_by_year(prices, *saved)
    return MoneyIfOff((point(low, 0.5), point(high, 0.5)), winters_until_paid(total, low, high))


def _per_engine_hour(total: float, hours_saved: Floats) -> float | None:
    hours = 10.0 * point(hours_saved, 0.5)
    return total / hours if hours > 0.0 and total > 0.0 else None


def _years(
    prices: Prices, total: float, money: tuple[Floats, Floats], saved: Saved
) -> tuple[SavedYear, ...]:
    """Good, median and bad points of what is saved: of hours, fuel and money each from its own yearly values."""
    hours, least, most = saved
    found = []
    for word, share in (("good", 0.9), ("median", 0.5), ("bad", 0.1)):
        litres = sorted((point(least, share), point(most, share)))
        spared = point(hours, share)
        each = total / (10.0 * spared) if spared > 0.0 and total > 0.0 else None
        found.append(
            SavedYear(
                word, spared, (litres[0], litres[1]), (litres[0] * prices.fuel_per_l, litres[1] * prices.fuel_per_l),
                spared * prices.engine_hour, (point(money[0], share), point(money[1], share)), each,
            )
        )  # fmt: skip
    return tuple(found)


def _hour_worth(median: SavedYear) -> Pair | None:
    if median.engine_hours <= 0.0:
        return None
    return median.money[0] / median.engine_hours, median.money[1] / median.engine_hours


def _doubts(prices: Prices, ledger: Ledger, winters: Pair | None) -> list[str]:
    said = []
    if ledger.total <= 0.0:
        said.append(NOTHING_PRICED)
    elif winters is None:
        said.append(NOTHING_SAVED)
    elif winters[0] > HORIZON:
        said.append(f"Paid for after more than {HORIZON} winters: not out of fuel.")
    if prices.engine_hour == 0.0:
        said.append(NO_WEAR)
    lines = {one.name for one in ledger.lines}
    said += [
        f"bought_replaces names {name}, and no line of the ledger is called so."
        for name in prices.bought_replaces
        if name.replace("_", " ") not in lines
    ]
    if ledger.grants_to_come > 0.0:
        without = number(ledger.total + ledger.grants_to_come)
        said.append(
            f"Grants of {number(ledger.grants_to_come)} {prices.currency} are counted and not yet paid out; without them it costs {without}."
        )
        if "USD" in prices.currency.upper() or prices.currency.strip() in ("$", "US$"):
            said.append(ENDED)
    return said


def _notes(prices: Prices, ledger: Ledger) -> tuple[str, ...]:
    return (*NOTES, *no_span_note(prices.currency), *_hours_note(prices, ledger))


def _hours_note(prices: Prices, ledger: Ledger) -> tuple[str, ...]:
    """Whose hours, beside the money and not in it."""
    if ledger.hours <= 0.0:
        return ()
    each = [
        f"{number(one.hours)} h by {one.by or 'nobody named'}"
        + (f", {number(one.priced_hours)} of them worth {number(one.worth)} {prices.currency} at their rate" if one.worth > 0.0 else "")
        for one in ledger.workers
    ]  # fmt: skip
    return (f"Hours, beside the money and in no sum of it: {'; '.join(each)}.",)


def _working(
    prices: Prices,
    total: float,
    saved: tuple[Floats, Floats],
    hours_saved: Floats,
    fuel: tuple[Floats, Floats],
    winters: Pair | None,
) -> Working:
    money = prices.currency
    hours = point(hours_saved, 0.5)
    litres = [point(ends, 0.5) for ends in fuel]
    low, high = (point(end, 0.5) for end in saved)
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
    if hours > 0.0 and total > 0.0:
        each = f"{total:.2f} / (10 x {hours:.1f})"
        steps.append(Step("for each engine hour saved in ten median winters", "c", each, total / (10.0 * hours), f"{money}/h", SUM))  # fmt: skip
    if winters is not None:
        drawn = f"winters drawn from {hours_saved.size} years until they sum to {total:.0f}"
        steps += [
            Step("paid for, the sooner end", "n1", drawn, winters[0], "winters", HOUSE),
            Step("paid for, the later end", "n2", drawn, winters[1], "winters", HOUSE),
        ]
    return Working("what it costs and what it saves", tuple(steps), NOTES)
