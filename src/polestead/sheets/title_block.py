"""The title block: three answers short enough for its cells, what stands beside them, the assumed line; the next act."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from polestead.answer.answer import Answer
from polestead.base.row import Row
from polestead.base.show import Style, gust, number
from polestead.offers.doubts import doubts_of
from polestead.sheets.sentences import (
    between,
    fault_of,
    fuel,
    priced,
    use_of,
    winters,
)
from polestead.sheets.text import day_words, moves_words
from polestead.sheets.verdict import failing, least, yes
from polestead.stand.stances import as_really_set, set_within_deg

MOST = 34  # letters of an answer: two lines of a cell at its size
DAYS_BEFORE = 365


@dataclass(frozen=True, slots=True)
class Cell:
    """One of the three.

    Attributes:
        question: In pencil.
        answer: No longer than ``MOST``.
        beside: What stands under it.
        key: Name of its working.
    """

    question: str
    answer: str
    beside: tuple[str, ...]
    key: str


def title_block(answer: Answer, style: Style) -> tuple[Cell, Cell, Cell]:
    """Does it stand, does it carry us through winter, what does it cost."""
    return _stands(answer, style), _winter(answer, style), _cost(answer)


def _fits(*sayings: str) -> str:
    """The first that a cell holds; the last always does."""
    return next((words for words in sayings if len(words) <= MOST), sayings[-1])


def _stands(answer: Answer, style: Style) -> Cell:
    stand = answer.stand
    first = least(stand, style)
    most = (
        f"under the code's loads, most used: {stand.checks[0].part}, {use_of(stand.checks[0].use)}"
    )
    beside = [first, most]
    if stand.verdict == "stands":
        said = yes(answer, style)
    elif stand.verdict == "stands only when laid flat":
        said = "Only when laid flat"
    else:
        broken = failing(answer)
        fault = fault_of(answer, broken[0]).replace("gives: ", "") if broken else ""
        said = _fits(f"No: {fault}", "No, by these sums")
        beside = [*(fault_of(answer, check) for check in broken[:2]), first]
    return Cell("Does it stand?", said, tuple(beside), "first-gives-of-all")


def _winter(answer: Answer, style: Style) -> Cell:
    winter = answer.winter
    question = "Through the winter?"
    without, with_new = winter.without, winter.with_new
    if without.engine_hours.mean == 0.0 and with_new.engine_hours.mean == 0.0:
        told, was, word = with_new.dark_hours, without.dark_hours, "Dark"
        beside = ["no engine ran in any year"]
    else:
        told, was, word = with_new.engine_hours, without.engine_hours, "Engine"
        saved = without.fuel_most_l.median - with_new.fuel_most_l.median
        beside = [f"{fuel(saved, style)} of fuel less in a median year"]
        if with_new.dark_hours.bad >= 0.5:
            beside.append(f"dark {number(with_new.dark_hours.median)} h besides")
    said = _fits(
        f"{word} {number(told.median)} hours a year, was {number(was.median)}",
        f"{word} {number(told.median)} h, was {number(was.median)}",
    )
    spread = f"good year {number(told.good)}, bad year {number(told.bad)}"
    off = winter.if_off
    if off is not None:
        spread += f"; were the weather off, {between(off.brighter_with.median, off.darker_with.median)}"  # fmt: skip
    if winter.a_guess:
        beside.append("a guess until your last winter fits")
    return Cell(question, said, (spread, *beside), "engine-hours-with-the-new-array")


def _cost(answer: Answer) -> Cell:
    cost, question = answer.money, "What does it cost?"
    key = "cost-saved-in-a-year-winters-until-paid"
    worth = tipping_short(answer)
    if not priced(answer):
        return Cell(question, "Not yet: nothing is priced", (worth,) if worth else (), key)
    total = f"{number(cost.total)} {cost.currency}"
    beside = [f"saves {between(*cost.saved_median)} {cost.currency} in a median year"]
    said = total
    if cost.winters_low is not None and cost.winters_high is not None:
        paid = winters(cost.winters_low, cost.winters_high)
        said = _fits(f"{total}, paid in {paid}", total)
        if paid not in said:
            beside.insert(0, f"paid for after {paid}")
    return Cell(question, said, (*beside, worth) if worth else tuple(beside), key)


def tipping_short(answer: Answer) -> str:
    """What tipping is worth in sun and in storm, in one line."""
    tipping = answer.tipping
    if tipping is None:
        return ""
    best = next(one for one in answer.stand.stances if one.name == "storm flat")
    card, tilt_deg = answer.stand.card, tipping.fixed_tilt_deg
    fixed = as_really_set(card, min(card, key=lambda row: abs(row.tilt_deg - tilt_deg)))
    storm = (
        f"in storm {gust(best.stands_to_m_s, answer.units)} within {set_within_deg(best.tilt_deg):.0f}° of {best.tilt_deg:.0f}°, "
        f"{gust(fixed.stands_to_m_s, answer.units)} within {set_within_deg(tilt_deg):.0f}° of {tilt_deg:.0f}°"
    )
    if not tipping.told_apart:
        return f"tipping: in sun no more than {tipping.fixed_tilt_deg:.0f}° all year, {storm}"
    saved = between(tipping.saves_hours.bad, tipping.saves_hours.good)
    return f"tipping: {saved} h of engine a year in sun, {storm}"


def assumed(answer: Answer) -> tuple[Row, ...]:
    """What was assumed of the place, then else, in the order of the doubts."""
    return tuple(doubt.row for doubt in doubts_of(answer.rows) if doubt.row.standing == "assumed")


def next_act(answer: Answer, today: date) -> tuple[str, str]:
    """What to do next, by how far they are, and a word on it.

    Args:
        answer: Of the homestead.
        today: The date.
    """
    if answer.we_are == "thinking" and answer.questions:
        first = answer.questions[0]
        return f"{first.whom[0].upper()}{first.whom[1:]}", first.sentence
    if answer.we_are == "building" and answer.build.sign_offs:
        gate = answer.build.sign_offs[0]
        return gate.words, f"signed by {gate.sign}"
    moves = sorted(answer.schedule.moves)
    if len(moves) > 1:
        day = min(today.timetuple().tm_yday, DAYS_BEFORE)
        when, tilt = next(((d, t) for d, t in moves if d > day), moves[0])
        return f"Set {tilt:.0f}° on {day_words(when)}", moves_words(answer.schedule)
    return "Nothing to move this year", moves_words(answer.schedule)
