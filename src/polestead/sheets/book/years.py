"""Winter, habits and money, with their charts."""

from __future__ import annotations

from collections.abc import Iterator

from polestead.answer.instead import Instead
from polestead.base.quantity import in_unit
from polestead.base.show import number, percent
from polestead.base.spread import Spread
from polestead.habits.result import Habit
from polestead.sheets.book.blocks import Block, Section, caution, head, listed, say, small, table
from polestead.sheets.book.matter import Matter
from polestead.sheets.book.wired import from_lines
from polestead.sheets.charts_fortnight import fortnight_words
from polestead.sheets.money import DIFFERENCE, POINTS, instead_lines, level_words
from polestead.sheets.sentences import (
    UNPRICED,
    between,
    fuel,
    hours,
    priced,
    tipping_worth,
    winters,
)
from polestead.sheets.text import house_lines, likeness_lines, moves_words


def winter(matter: Matter) -> Section:
    """The second answer: good, median and bad year, the year by months, the worst fortnight."""
    return Section("Through the winter", tuple(_winter(matter)))


def _winter(matter: Matter) -> Iterator[Block]:
    answer, style = matter.answer, matter.style
    told = answer.winter
    yield from matter.shown("year")
    rows: list[tuple[str, ...]] = []
    for word, summary in (("without it", told.without), ("with it", told.with_new)):
        rows.append((f"engine hours, {word}", *_three(summary.engine_hours)))
        fuels = (summary.fuel_most_l.good, summary.fuel_most_l.median, summary.fuel_most_l.bad)
        rows.append((f"fuel at most, {word}", *(fuel(litres, style) for litres in fuels)))
        rows.append((f"hours without power, {word}", *_three(summary.dark_hours)))
    yield table((f"{answer.years} years, seed {answer.seed}", "good year", "median", "bad year"), rows, ("2fr", "1fr", "1fr", "1fr"), "lrrr")  # fmt: skip
    yield small(DIFFERENCE)
    yield head("The worst fortnight of a bad year")
    yield say(fortnight_words(told.fortnight))
    yield from matter.shown("fortnight")
    yield small(f"Weather: {told.weather}.")
    if told.if_off is not None:
        yield say(
            f"The weather's source may be off by {percent(told.winter_error)} of the winter's sun: then a median year would be "
            f"{between(told.if_off.brighter_with.median, told.if_off.darker_with.median)} h with it, {between(told.if_off.brighter_without.median, told.if_off.darker_without.median)} h without."
        )
    if told.a_guess:
        yield caution("A guess until your own figures of a winter fit the year without it.")
    yield listed(told.notes)


def _three(spread: Spread) -> tuple[str, str, str]:
    return number(spread.good), number(spread.median), number(spread.bad)


def likeness(matter: Matter) -> Section:
    """Whether it looks like the owner's house, and what the house does with the sun."""
    answer = matter.answer
    told = [*from_lines(likeness_lines(answer.winter, matter.style)), head("With it, in a mean year"), *from_lines(house_lines(answer, matter.style))]  # fmt: skip
    if not answer.winter.beside:
        told.insert(0, say("Tell last winter's fuel, engine hours or dawn charge under [household.last_winter], and the year without the new array is laid beside them."))  # fmt: skip
    return Section("Does this look like your house?", tuple(told))


def habits(matter: Matter) -> Section:
    """Ways of tipping, best first, and what tipping is worth."""
    return Section("Ways of tipping", tuple(_habits(matter)))


def _habits(matter: Matter) -> Iterator[Block]:
    answer = matter.answer
    yield from matter.shown("habits")
    rows = [_habit(one) for one in answer.habits]
    yield table(("", "how", "engine hours: median (good to bad)", "walks", "saves over the best fixed"), rows, ("auto", "2.4fr", "1.3fr", "auto", "1fr"), "llrrr")  # fmt: skip
    yield small("Of one number: nobody can tell them apart in these years. – no habit, the most any could bring.")  # fmt: skip
    if answer.tipping is not None:
        yield say(tipping_worth(answer))


def _habit(one: Habit) -> tuple[str, ...]:
    return (
        "–" if one.a_bound else str(one.group),
        f"{one.schedule.name}: {moves_words(one.schedule)}",
        hours(one.engine_hours),
        number(one.moves_a_year),
        f"{between(one.saves_hours.bad, one.saves_hours.good)} h",
    )


def money(matter: Matter) -> Section:
    """What it costs, by part, and what a year saves."""
    return Section("What it costs", tuple(_money(matter)))


def _money(matter: Matter) -> Iterator[Block]:
    cost = matter.answer.money
    yield from matter.shown("costs")
    told = {one.line for one in cost.slips}
    rows = [(one.part, one.mark + one.name + (" (!)" if nth in told else ""), one.stage or "hours", "" if one.on is None else one.on.isoformat(), number(one.amount, 2) if one.stage else "–") for nth, one in enumerate(cost.ledger.lines)]  # fmt: skip
    rows.append(("in all", "", "", "", number(cost.total, 2)))
    if any(on for _, _, _, on, _ in rows):
        yield table(("part", "line", "stage", "on", cost.currency), rows, ("1fr", "2.4fr", "auto", "auto", "auto"), "llllr")  # fmt: skip
    else:  # nothing is dated yet
        yield table(("part", "line", "stage", cost.currency), [(*row[:3], row[4]) for row in rows], ("1fr", "2.4fr", "auto", "auto"), "lllr")  # fmt: skip
    ledger = cost.ledger
    yield say(f"Paid {number(ledger.paid)}, quoted {number(ledger.quoted)}, only planned {number(ledger.planned)} {cost.currency}; still to pay {number(ledger.still_to_pay)}.")  # fmt: skip
    for words in cost.doubts:
        yield caution(words)
    yield listed(cost.notes)


def bankers(matter: Matter) -> Section:
    """What a year saves; where anything is priced, winters until paid, worth today, build or buy."""
    if not priced(matter.answer):
        return Section("What a year saves", (*_saved(matter), say(UNPRICED)))
    return Section("What it saves, and its worth today", (*_saved(matter), *_bankers(matter)))


def _saved(matter: Matter) -> Iterator[Block]:
    cost, style = matter.answer.money, matter.style
    unit = "gal" if style == "feet" else "l"
    ends = (cost.saved_good, cost.saved_median, cost.saved_bad)
    rows = [
        (year.word, number(year.engine_hours), between(in_unit(year.fuel_l[0], unit), in_unit(year.fuel_l[1], unit)), between(*year.fuel_money), number(year.wear_money), between(*pair))
        for year, pair in zip(cost.saved_years, ends, strict=True)
    ]  # fmt: skip
    yield table(("year", "engine hours saved", f"fuel, {unit}", "its money", "wear", f"in all, {cost.currency}"), rows, ("1fr",) * 6, "lrrrrr")  # fmt: skip
    yield small(f"{POINTS} {DIFFERENCE}")


def _bankers(matter: Matter) -> Iterator[Block]:
    cost = matter.answer.money
    if cost.winters_low is not None and cost.winters_high is not None:
        yield say(f"Paid for after {winters(cost.winters_low, cost.winters_high)}: luck and the fuel line in it, nothing discounted.")  # fmt: skip
    else:
        yield say("Never paid for out of fuel alone.")
    banker = cost.banker
    yield head("Worth today (net present value) and rate of return")
    for words in (*banker.sentences, *level_words(cost)):
        yield say(words)
    yield listed(banker.working.notes)
    if cost.build_or_buy is not None:
        yield head("Build or buy")
        for words in cost.build_or_buy.sentences:
            yield say(words)


def instead_section(matter: Matter, found: tuple[Instead, ...]) -> Section:
    """What the money might do instead, where it was worked."""
    return Section("What the money might do instead", tuple(from_lines(one for one in instead_lines(matter.answer, found) if not one.startswith("\n"))))  # fmt: skip
