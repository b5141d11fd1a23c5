"""Prices that look as if a unit had slipped: told in words beside their line, never mended silently, never refused."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import combinations, pairwise

from polestead.base.show import number
from polestead.build.given import FOOT_M
from polestead.build.ground.concrete import YARD_M3
from polestead.homestead.ledger import LedgerRow
from polestead.homestead.model import Prices
from polestead.money.house import House
from polestead.money.kinds import (
    POUND_KG,
    PaidThing,
    bought_thing,
    concrete_in,
    lots_of,
    power_of,
    thing_of,
)
from polestead.money.ledger import Ledger
from polestead.money.spans import (
    LITRES_A_GALLON,
    Currency,
    PriceSpan,
    about,
    currency_of,
    fuel_span,
    in_figures,
    price_span,
)
from polestead.wiring.run.conductor import area_mm2

_GRANT_WORDS = ("grant", "rebate", "subsid", "incentive")
_BACK_WORDS = ("refund", "return", "sold", "credit", "back")
_SUM_WORDS = ("total", "totals", "subtotal", "sum")
_HOUR_WORDS = ("hour", "hours", "hrs", "labour", "labor")
_AGAIN = ("again", "more", "second", "rest", "the", "of", "for", "and", "all", "other", "new")
# A later figure so many times the earlier one is another unit, not another price; whatever the currency.
_TURNS = ((100.0, "cents in one of them"), (1000.0, "a thousands' mark read as a decimal point"))
_MOST_HOURS = 1500.0  # of one line: most of a working year; ours
_STANDS_OUT = 2.2  # of a wire's price by its area, against a wire of up to three times or a third of its area: ours
_LOT = 0.05  # of several lots one may be so small a share; a lot of modules no smaller than one of them
_POUR_APART = 3.0  # a line for concrete against volume times the file's own price: ours


@dataclass(frozen=True, slots=True)
class Slip:
    """One price that is hardly meant as it is written.

    Attributes:
        where: Name of the ledger's line, or field of the prices section.
        line: Place of that line in the ledger, None for a field.
        words: What was read, what it would mean by the unit, and what was probably meant.
    """

    where: str
    line: int | None
    words: str


def slips(prices: Prices, rows: Iterable[LedgerRow], ledger: Ledger, house: House) -> tuple[Slip, ...]:  # fmt: skip
    """Every price that is hardly meant, and what was probably meant.

    Each figure of each stage of a line, and each field of money, is held against the span of its kind (``spans.csv``) times what
    the house wants of it; and lines against themselves, one another and the file's own prices by the unit.

    Valid for: spans in the currencies of ``currencies.csv``; what a ledger says against itself, in any.

    Args:
        prices: As in the file.
        rows: Of the ledger, with every stage.
        ledger: Added up, its lines in the order of the rows.
        house: What the house wants.
    """
    listed = list(rows)
    found = [*_against_itself(listed, prices.currency), *_kinds(ledger, prices.currency), *_worked(ledger)]  # fmt: skip
    currency = currency_of(prices.currency)
    if currency is not None:
        found += _lines(listed, ledger, house, currency)
        found += _rates(ledger, currency)
        found += _pour(prices, ledger, house, currency)
        found += [Slip(where, None, words) for where, words in _fields(prices, ledger, house, currency)]  # fmt: skip
    return tuple(dict.fromkeys(found))


def no_span_note(code: str) -> tuple[str, ...]:
    """That prices in a currency nobody has spans for are only held against one another."""
    if currency_of(code) is not None:
        return ()
    return (
        f"No span of ordinary prices is kept for {code}: a slipped unit is caught only where two figures of one thing differ, not by the price itself. "
        "Look twice at cents, thousands and units.",
    )  # fmt: skip


def kept_columns_note(rows: Iterable[LedgerRow]) -> tuple[str, ...]:
    """Own columns of the CSV that hold numbers: kept, and in no sum."""
    heads = dict.fromkeys(head for row in rows for head, text in row.beside if re.fullmatch(r"\D{0,4}\d[\d,.]*\D{0,4}", text.strip()))  # fmt: skip
    if not heads:
        return ()
    return (
        f"Numbers under {', '.join(heads)} of the ledger's file are kept and in no sum: if one is money or hours, say so under ledger_columns.",
    )  # fmt: skip


def line_span(thing: PaidThing, currency: Currency, lots: int, house: House) -> PriceSpan:
    """What a line for a thing may come to and not be told.

    Args:
        thing: It pays for.
        currency: Of the file.
        lots: Lines that pay for the same.
        house: What the house wants.
    """
    span = price_span(thing.kind, currency)
    if lots < 2 or not thing.shown:
        return span.times(thing.quantity)
    return span.times(thing.quantity, 1.0 / house.modules if thing.kind == "modules" else _LOT)


def _lines(rows: list[LedgerRow], ledger: Ledger, house: House, currency: Currency) -> Iterator[Slip]:  # fmt: skip
    things = [(line, thing_of(line.name, line.part, house)) for line in ledger.lines]
    lots = lots_of(things)
    for nth, (row, (line, thing)) in enumerate(zip(rows, things, strict=False)):
        if line.part == "grants" or line.amount < 0.0:
            continue
        span = line_span(thing, currency, lots.get(thing, 0), house)
        for stage, value in _stages(row):
            if value > 0.0 and not span.holds(value):
                yield Slip(
                    line.name, nth, f"{line.name}: {stage} {_told(value, thing, span, currency)}"
                )


def _told(value: float, thing: PaidThing, span: PriceSpan, currency: Currency) -> str:
    """What was read, what it means by the unit, what is ordinary, what was probably meant."""
    code = currency.code
    read = f"{number(value, 2)} {code}"
    if thing.shown:
        per = in_figures(value / thing.each_of, currency)
        low, high = (about(end / thing.each_of, currency) for end in (span.low, span.high))
        read += f" for {thing.shown} is {per} {thing.each}; ordinary is {low} to {high}"
    else:
        way = "over" if value > span.high else "under"
        read += f" is {way} what such a line comes to, {about(span.low, currency)} to {about(span.high, currency)}"
    return f"{read}. {_meant(value, thing.pieces, span, currency)}"


def _meant(value: float, pieces: tuple[tuple[str, float], ...], span: PriceSpan, currency: Currency) -> str:  # fmt: skip
    """The likely slip: at most two figures that would lie in the span."""
    code = currency.code
    if value > span.high:
        tried = [(value / 100.0, f"cents written as {code}"), (value / 1000.0, "a decimal point lost"), (value / 10.0, "a nought too many")]  # fmt: skip
    else:
        tried = [(value * many, what) for what, many in pieces]
        if value >= 1.0:
            tried.append((value * 1000.0, f"{value:.3f} written for {value * 1000.0:,.0f}"))
        tried += [(value * 100.0, "a point two places too far left"), (value * 10.0, "a nought lost")]  # fmt: skip
    said = [f"{number(meant, 2)} ({what})" for meant, what in tried if span.holds(meant)][:2]
    if not said:
        return "What is it the price of? Check its unit."
    return f"Was it {', or '.join(said)}?"


def _stages(row: LedgerRow) -> list[tuple[str, float]]:
    return [(word, value) for word, value in (("planned", row.planned), ("quoted", row.quoted), ("paid", row.paid)) if value]  # fmt: skip


def _against_itself(rows: list[LedgerRow], money: str) -> Iterator[Slip]:
    """One line whose stages do not belong to one thing, and lines that stand twice."""
    for nth, row in enumerate(rows):
        name = row.name.replace("_", " ")
        for first, second in pairwise(_stages(row)):
            yield from (Slip(name, nth, words) for words in _turn(name, first, second, money))
    for (_, one), (nth, other) in combinations(enumerate(rows), 2):
        if _same(one, other):
            name = other.name.replace("_", " ")
            yield Slip(
                name,
                nth,
                f"{name}, {number(other.amount, 2)} {money}, stands in the ledger twice, the other time as {one.name.replace('_', ' ')}: entered twice?",
            )


def _same(one: LedgerRow, other: LedgerRow) -> bool:
    """The same sum for the same thing, and not on two days."""
    if not (one.stage and other.stage and one.amount) or abs(one.amount - other.amount) > 0.004:
        return False
    if one.on is not None and other.on is not None and one.on != other.on:
        return False
    first, second = _head(one.name), _head(other.name)
    return first == second if not (first and second) else first <= second or second <= first


def _head(name: str) -> frozenset[str]:
    words = (word.removesuffix("s") for word in re.findall(r"[^\W\d_]+", name.lower()))
    return frozenset(word for word in words if word not in _AGAIN)


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


def _kinds(ledger: Ledger, money: str) -> Iterator[Slip]:
    """A grant without its minus, a minus that is no grant, hours written as money."""
    paid_out = sum(line.amount for line in ledger.lines if line.amount > 0.0)
    for nth, line in enumerate(ledger.lines):
        words = line.name.lower().replace(",", " ").split()
        shown = f"{line.name}, {number(line.amount, 2)} {money}"
        if line.amount > 0.0 and any(word.startswith(_GRANT_WORDS) for word in words):
            yield Slip(line.name, nth, f"{shown}: money that comes in is written with a minus.")
        elif (
            line.amount < 0.0
            and line.part != "grants"
            and not any(word.startswith(_BACK_WORDS) for word in words)
        ):
            yield Slip(line.name, nth, f"{shown}: a minus takes it off the cost. Is it a grant, a refund or something sold? Else take the minus out.")  # fmt: skip
        if line.amount < 0.0 and paid_out > 0.0 and -line.amount > paid_out * (1.0 + 1e-9):
            yield Slip(line.name, nth, f"{shown}: more comes in than all other lines cost together ({number(paid_out, 2)}). Was it {number(line.amount / 100.0, 2)} (cents written as {money})?")  # fmt: skip
        if line.amount and any(word.strip(":") in _SUM_WORDS for word in words):
            yield Slip(line.name, nth, f"{shown}: a sum of other lines? Then it counts twice: take it out of the ledger.")  # fmt: skip
        if line.amount > 0.0 and line.hours is None and any(word in _HOUR_WORDS for word in words):
            yield Slip(line.name, nth, f"{shown}: are these hours, not money? Hours stand under hours in a line of [[prices.entry]] or of the CSV.")  # fmt: skip


def _worked(ledger: Ledger) -> Iterator[Slip]:
    """More hours than one line of this work can take."""
    for nth, line in enumerate(ledger.lines):
        if line.hours is not None and line.hours > _MOST_HOURS:
            yield Slip(line.name, nth, f"{line.name}: {number(line.hours)} h is {number(line.hours / 40.0)} weeks of forty hours: minutes written as hours, or money?")  # fmt: skip


def _rates(ledger: Ledger, currency: Currency) -> Iterator[Slip]:
    """Hours at a rate no hour has."""
    span = price_span("hour", currency)
    for nth, line in enumerate(ledger.lines):
        rate, hours = line.rate, line.hours
        if rate is None or rate <= 0.0 or span.holds(rate):
            continue
        all_ = rate / hours if hours else 0.0
        whole = f", or {number(all_, 2)} (the price of all {number(hours or 0.0)} hours together)" if span.holds(all_) else ""  # fmt: skip
        yield Slip(line.name, nth, f"{line.name}: an hour at {number(rate, 2)} {currency.code}. {_meant(rate, (), span, currency).rstrip('?')}{whole}?")  # fmt: skip


def _pour(prices: Prices, ledger: Ledger, house: House, currency: Currency) -> Iterator[Slip]:
    """A line for concrete against the pour at the file's own price."""
    per_m3, wanted = prices.concrete_per_m3, house.concrete_m3
    lines = [(nth, one) for nth, one in enumerate(ledger.lines) if thing_of(one.name, one.part, house).kind == "concrete" and one.amount > 0.0]  # fmt: skip
    if not per_m3 or wanted <= 0.0 or len(lines) != 1:
        return
    nth, line = lines[0]
    whole = per_m3 * wanted
    said = f"{line.name}: {number(line.amount, 2)} {currency.code}, while {concrete_in(house).shown} at the file's own price comes to {number(whole, 2)}"
    units = (("a cubic metre", 1.0), ("a yard", YARD_M3))
    of_one = next((word for word, volume in units if wanted > 1.3 * volume and abs(line.amount / (per_m3 * volume) - 1.0) < 0.005), "")  # fmt: skip
    if of_one:
        yield Slip(line.name, nth, f"{said}: the price of {of_one} written for all?")
    elif max(line.amount / whole, whole / line.amount) > _POUR_APART:
        yield Slip(line.name, nth, f"{said}: which of the two is right?")


def _fields(prices: Prices, ledger: Ledger, house: House, currency: Currency) -> Iterator[tuple[str, str]]:  # fmt: skip
    """The fields of the prices section, each by its own unit."""
    yield from _fuel(prices.fuel_per_l, house, currency)
    engine = price_span("engine hour", currency)
    if prices.engine_hour > 0.0 and not engine.holds(prices.engine_hour):
        yield "engine_hour", (
            f"An engine hour at {in_figures(prices.engine_hour, currency)} in wear and oil. {_meant(prices.engine_hour, (), engine, currency)} "
            "Fuel is counted apart: in it here, it would be counted in it twice."
        )  # fmt: skip
    yield from _concrete(prices.concrete_per_m3, house, currency)
    yield from _wires(prices, currency)
    yield from _stock(prices, house, currency)
    quote = prices.bought_mount
    if quote:
        thing = power_of("mount", house)
        span = price_span("mount", currency).times(house.module_power_w)
        if not span.holds(quote):
            yield "bought_mount", f"The bought mount: {_told(quote, thing, span, currency)}"
    yield from _bought_lines(prices, house, currency)
    total, whole = ledger.total, price_span("whole", currency).times(house.module_power_w)
    if total > 0.0 and not whole.holds(total):
        why = "is a line in cents, or entered twice?" if total > whole.high else "are lines missing, or prices of one piece entered for all?"  # fmt: skip
        yield (
            "lines",
            f"The whole comes to {in_figures(total / house.module_power_w, currency)} a watt: {why}",
        )


def _bought_lines(prices: Prices, house: House, currency: Currency) -> Iterator[tuple[str, str]]:
    for name, amount in prices.bought_lines.items():
        shown, grant = name.replace("_", " "), any(word in name.lower() for word in _GRANT_WORDS)
        if amount <= 0.0:
            continue
        if grant:
            yield "bought_lines", f"{shown}, {number(amount, 2)} {currency.code}, beside the bought mount: money that comes in is written with a minus."  # fmt: skip
            continue
        thing = bought_thing(name, house)
        span = line_span(thing, currency, 1, house)
        if not span.holds(amount):
            yield "bought_lines", f"{shown}, beside the bought mount: {_told(amount, thing, span, currency)}"  # fmt: skip


def _fuel(fuel: float, house: House, currency: Currency) -> Iterator[tuple[str, str]]:
    span = fuel_span(house.fuel, currency)
    if fuel == 0.0:
        yield "fuel", "Fuel costs nothing in the file: then no fuel saved is worth anything."
        return
    if span.holds(fuel):
        return
    code, gallon = currency.code, LITRES_A_GALLON
    low, high = (about(end * (gallon if house.style == "feet" else 1.0), currency) for end in (span.low, span.high))  # fmt: skip
    small = " is next to nothing" if fuel < span.low else ""
    each = "a gallon" if house.style == "feet" else "a litre"
    read = f"Fuel at {in_figures(fuel, currency)} a litre ({in_figures(fuel * gallon, currency)} a gallon){small}; ordinary is {low} to {high} {each}{f' of {house.fuel}' if house.fuel else ''}"  # fmt: skip
    tried = (
        (fuel / gallon, f"{number(fuel, 2)} {code} per gal written as per l"),
        (fuel * gallon, f"{number(fuel * gallon, 2)} {code} per l written as per gal"),
        (fuel / 100.0, f"cents written as {code}"),
        (fuel / gallon / 100.0, f"cents per gal written as {code} per l"),
        (fuel * 100.0, "a point two places too far left"),
        (fuel * gallon * 100.0, "per l written as per gal, and a point too far left"),
    )
    said = [why for value, why in tried if span.holds(value)][:2]
    yield "fuel", f"{read}. " + (f"Was it {', or '.join(said)}?" if said else "Check its unit.")


def _concrete(per_m3: float | None, house: House, currency: Currency) -> Iterator[tuple[str, str]]:
    span = price_span("concrete", currency)
    if not per_m3 or span.holds(per_m3):
        return
    low, high = (about(end, currency) for end in (span.low, span.high))
    read = f"Concrete at {in_figures(per_m3, currency)} a cubic metre ({in_figures(per_m3 * YARD_M3, currency)} a yard); ordinary is {low} to {high} a cubic metre"
    pour = concrete_in(House(1.0, concrete_m3=1.0, style=house.style))
    what, many = pour.pieces[1]
    tried = [(per_m3 * many, what)] if per_m3 < span.low else [(per_m3 / 100.0, f"cents written as {currency.code}")]  # fmt: skip
    if per_m3 > span.high and house.concrete_m3 > 0.0:
        tried.append((per_m3 / house.concrete_m3, "the price of the whole load"))
    said = [f"{number(value, 2)} ({why})" for value, why in tried if span.holds(value)]
    yield "concrete_per_m3", f"{read}. " + (f"Was it {', or '.join(said)}?" if said else "Check its unit.")  # fmt: skip


def _wires(prices: Prices, currency: Currency) -> Iterator[tuple[str, str]]:
    """Each wire by its metal and area, then against those near it in size."""
    by_metal: dict[str, list[tuple[str, float, float]]] = {}
    for size, per_m in prices.wire.items():
        metal = "aluminium" if "alumin" in size.lower() else "copper"
        try:
            area = area_mm2(re.sub(r"\s*(copper|alumini?um)\s*$", "", size.strip()))
        except ValueError:
            continue
        by_metal.setdefault(metal, []).append((size, area, per_m))
    for metal, wires in by_metal.items():
        kind = price_span(metal, currency)
        for size, area, per_m in wires:
            read = f"Wire {size} at {in_figures(per_m, currency)} a metre ({in_figures(per_m * FOOT_M, currency)} a foot)"
            span = kind.times(area)
            if per_m > 0.0 and not span.holds(per_m):
                low, high = (about(end, currency) for end in (span.low, span.high))
                tried = (
                    (per_m * FOOT_M, "the price of a metre written as of a foot"), (per_m / FOOT_M, "the price of a foot written as of a metre"),
                    (per_m / 100.0, "cents, or a reel of a hundred"), (per_m / 152.4, "a whole reel of 500 ft"), (per_m * 100.0, "a point two places too far left"),
                )  # fmt: skip
                said = [f"{number(value, 2)} ({why})" for value, why in tried if span.holds(value)][:2]  # fmt: skip
                yield "wire", f"{read}; ordinary is {low} to {high} a metre. " + (f"Was it {', or '.join(said)}?" if said else "Cents, a whole reel? Check its unit.")  # fmt: skip
                continue
            near = [p / a for s, a, p in wires if s != size and kind.times(a).holds(p) and 1.0 / 3.05 <= a / area <= 3.05]  # fmt: skip
            if len(near) < 2 or per_m <= 0.0:
                continue
            rate = per_m / area
            turn = rate / max(near) if rate > max(near) else min(rate / min(near), 1.0)
            if not 1.0 / _STANDS_OUT <= turn <= _STANDS_OUT:
                why = "a metre's price for a foot's" if 2.6 <= turn <= 4.1 else "a foot's price for a metre's" if 2.6 <= 1.0 / turn <= 4.1 else "another unit"  # fmt: skip
                times = f"{turn:.1f} times as dear" if turn > 1.0 else f"{1.0 / turn:.1f} times as cheap"  # fmt: skip
                yield "wire", f"{read} is, area for area, {times} as the sizes beside it: {why}?"


def _stock(prices: Prices, house: House, currency: Currency) -> Iterator[tuple[str, str]]:
    """Steel by the length, by its weight."""
    for name, per_m in prices.stock.items():
        weighs = house.stock_kg_m.get(name)
        if not weighs or per_m <= 0.0:
            continue
        span = price_span("stock", currency).times(weighs)
        if span.holds(per_m):
            continue
        unit, kg = ("a pound", POUND_KG) if house.style == "feet" else ("a kilogram", 1.0)
        read = f"{name} at {in_figures(per_m, currency)} a metre ({in_figures(per_m * FOOT_M, currency)} a foot) is {in_figures(per_m / weighs * kg, currency)} {unit}"
        tried = (
            (per_m * FOOT_M, "the price of a metre written as of a foot"), (per_m / FOOT_M, "the price of a foot written as of a metre"),
            (per_m / 6.1, "the price of a whole length"), (per_m / 100.0, f"cents written as {currency.code}"), (per_m * weighs, "the price of a kilogram"), (per_m * 100.0, "a point two places too far left"),
        )  # fmt: skip
        said = [f"{number(value, 2)} a metre ({why})" for value, why in tried if span.holds(value)][:2]  # fmt: skip
        yield "stock", f"{read}. " + (f"Was it {', or '.join(said)}?" if said else "Check its unit.")  # fmt: skip


def line_words(found: Iterable[Slip], nth: int) -> tuple[str, ...]:
    """What is told beside one line of the ledger."""
    return tuple(one.words for one in found if one.line == nth)


def beside_no_line(doubts: Iterable[str], found: Iterable[Slip]) -> tuple[str, ...]:
    """The doubts of the money that are not told beside a line of the ledger already."""
    beside = {one.words for one in found if one.line is not None}
    return tuple(one for one in doubts if one not in beside)
