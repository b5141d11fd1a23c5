"""The engineer's and banker's leaf on money, as plain text."""

from __future__ import annotations

from collections.abc import Iterator

from polestead.answer.answer import Answer
from polestead.answer.instead import Instead
from polestead.base.quantity import in_unit
from polestead.base.show import Style, number, percent
from polestead.money.result import MoneyResult
from polestead.money.slips import beside_no_line, line_words
from polestead.sheets.sentences import UNPRICED, between, priced, winters
from polestead.sheets.text import heading, ledger_lines, say

POINTS = "Each column has its own good, median and bad point of all years, the whole too: a row's fuel and wear may miss it by a little."
DIFFERENCE = "What is saved is the middle of the years' own savings (conventions §14): it may miss the one median less the other by a little."


def money_text(answer: Answer, instead: tuple[Instead, ...], style: Style) -> str:
    """Ledger, what a year saves, winters until paid, worth today, build or buy, and what else the money could do.

    Args:
        answer: Of the homestead.
        instead: What the money might do instead (`answer.instead.instead_of`).
        style: Feet or metric.
    """
    cost = answer.money
    parts = (
        _head(answer),
        _ledger(cost),
        _saved(answer, style),
        *((_banker(cost), _build_or_buy(cost)) if priced(answer) else ()),
        instead_lines(answer, instead),
    )
    return "\n".join("\n".join(part) for part in parts)


def _head(answer: Answer) -> Iterator[str]:
    yield f"{answer.name}: money, {answer.years} years, seed {answer.seed}, homestead {answer.fingerprint}"
    yield "=" * 78


def _ledger(cost: MoneyResult) -> Iterator[str]:
    yield heading(f"Ledger, {cost.currency}: each line at its latest stage")
    yield from _lines(cost)
    yield f"   {'in all':<32} {'':<8} {number(cost.total, 2):>12}"
    yield from ledger_lines(cost)
    yield from _by_status(cost)
    guessed = [one for one in cost.ledger.lines if one.part_guessed]
    if guessed:
        yield say(
            f"Parts of {len(guessed)} line{'s' if len(guessed) > 1 else ''} are guessed from their names; write part to settle it."
        )
    beside = {one.words for one in cost.slips if one.line is not None}
    if beside:
        yield say(
            f"{len(beside)} figure{'s' if len(beside) > 1 else ''} hardly meant as written, told beside the line (!): the sums take them as they stand."
        )
    for line in (*beside_no_line(cost.doubts, cost.slips), *cost.notes):
        yield say(line, "  * ", "    ")


def _lines(cost: MoneyResult) -> Iterator[str]:
    ledger = cost.ledger
    for part in ledger.parts:
        yield f"  {part.part}"
        for nth, one in enumerate(ledger.lines):
            if one.part != part.part:
                continue
            day = "" if one.on is None else one.on.isoformat()
            hours = "" if one.hours is None else f"  {number(one.hours)} h {one.by}".rstrip()
            amount = number(one.amount, 2) if one.stage else "-"
            yield f"   {one.mark or ' ':1}{one.name[:31]:<31} {one.stage or 'hours':<8} {amount:>12} {day}{hours}".rstrip()
            for words in line_words(cost.slips, nth):
                yield say(words, "      ! ", "        ")


def _by_status(cost: MoneyResult) -> Iterator[str]:
    """Each part at each stage; only where something has moved on from its plan."""
    ledger = cost.ledger
    if not (ledger.paid or ledger.quoted):
        return
    yield f"  {'part':<24}{'planned':>11}{'quoted':>11}{'paid':>11}{'in all':>11}{'hours':>8}"
    for one in ledger.parts:
        sums = "".join(f"{number(value, 2):>11}" for value in (one.planned, one.quoted, one.paid, one.total))  # fmt: skip
        yield f"  {one.part:<24}{sums}{number(one.hours) if one.hours else '-':>8}"
    sums = "".join(f"{number(value, 2):>11}" for value in (ledger.planned, ledger.quoted, ledger.paid, ledger.total))  # fmt: skip
    yield f"  {'all':<24}{sums}{number(ledger.hours) if ledger.hours else '-':>8}"


def _saved(answer: Answer, style: Style) -> Iterator[str]:
    cost = answer.money
    yield heading("Saved in fuel and engine hours in a year")
    rows = (cost.saved_good, cost.saved_median, cost.saved_bad)
    unit = "gal" if style == "feet" else "l"
    yield f"  {'year':<8} {'engine h':>9} {'fuel, ' + unit:>13} {'fuel':>14} {'wear':>8} {'in all, ' + cost.currency:>16}"
    for year, ends in zip(cost.saved_years, rows, strict=True):
        litres = between(in_unit(year.fuel_l[0], unit), in_unit(year.fuel_l[1], unit))
        yield (
            f"  {year.word:<8} {number(year.engine_hours):>9} {litres:>13} {between(*year.fuel_money):>14} "
            f"{number(year.wear_money):>8} {between(*ends):>16}"
        )
    yield say(POINTS)  # fmt: skip
    if not priced(answer):
        yield say(UNPRICED)
        return
    if cost.per_engine_hour_saved is not None:
        each = [one.per_engine_hour for one in cost.saved_years if one.per_engine_hour is not None]
        yield say(
            f"{number(cost.per_engine_hour_saved, 2)} {cost.currency} for each engine hour saved in ten median winters "
            f"({between(min(each), max(each), 2)} by good and bad ones)"
            + ("." if cost.engine_hour_worth is None else f"; such an hour burns and wears {between(*cost.engine_hour_worth, 2)}.")
        )  # fmt: skip
    if cost.winters_low is not None and cost.winters_high is not None:
        yield say(
            f"Paid for after {winters(cost.winters_low, cost.winters_high)}: luck and the fuel line in it, nothing discounted."
        )


def _banker(cost: MoneyResult) -> Iterator[str]:
    banker = cost.banker
    yield heading("Worth today")
    for line in banker.sentences:
        yield say(line)
    for line in level_words(cost):
        yield say(line)
    for line in banker.working.notes:
        yield say(line, "  * ", "    ")


def level_words(cost: MoneyResult) -> tuple[str, ...]:
    """What it costs as the same sum each winter, and the mean winter's saving from which its worth is summed, to the cent."""
    banker = cost.banker
    if not banker.outlay > 0.0:
        return ()
    rises = f", which rises {percent(banker.fuel_rise, 1)} a year over other prices" if banker.fuel_rise else ""  # fmt: skip
    return (
        f"As the same sum each winter it costs {number(banker.level_cost, 2)} {cost.currency}.",
        f"From this the sums go: {number(banker.outlay, 2)} {cost.currency} paid today; at the end of each winter what a mean one saves, "
        f"{between(*banker.saved_mean, 2)} at today's prices, {number(banker.wear_mean, 2)} of it wear, the rest fuel{rises}.",
    )


def _build_or_buy(cost: MoneyResult) -> Iterator[str]:
    if cost.build_or_buy is None:
        return
    yield heading("Build or buy")
    for line in cost.build_or_buy.sentences:
        yield say(line)


def instead_lines(answer: Answer, instead: tuple[Instead, ...]) -> Iterator[str]:
    """What the money might do instead."""
    if not instead:
        return
    years = instead[0].saved_hours.years
    yield heading(f"What else it could be spent on, beside the array as planned ({years} years)")
    for one in instead:
        yield say(_one(answer, one), "  ", "    ")


def _one(answer: Answer, one: Instead) -> str:
    currency = answer.money.currency
    if not one.told_apart:
        return f"{one.word} ({one.what}): these years cannot tell it from nothing."
    hours = f"{between(*one.mean_interval_h)} h of engine in a mean year"
    dark = "" if one.saved_dark_hours < 0.5 else f", {number(one.saved_dark_hours)} h without power"
    said = f"{one.word} ({one.what}) saves {hours}{dark}, {between(*one.saved_money)} {currency}"
    if not one.per:
        return f"{said}. It costs walks, not money."
    counted = number(answer.money.banker.winters)
    step = "a module" if one.per == "module" else one.per
    said += f"; {step} may cost {between(*one.may_cost)} {currency} to pay for itself in {counted} winters"  # fmt: skip
    if one.costs is not None:
        said += f", and costs about {number(one.costs)} by the ledger, without room for it on the frame"  # fmt: skip
    return f"{said}."
