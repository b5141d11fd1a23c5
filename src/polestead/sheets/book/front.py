"""The title sheet and the steps."""

from __future__ import annotations

from collections.abc import Iterator

from polestead.base.show import gust
from polestead.offers.doubts import doubts_of
from polestead.sheets.book.blocks import (  # fmt: skip
    Block,
    Section,
    boxes,
    caution,
    gate,
    say,
    small,
)
from polestead.sheets.book.matter import Matter
from polestead.sheets.sentences import fault_of, helps_most, three_answers
from polestead.sheets.verdict import failing

MOST_GUESSES = 7


def title_sheet(matter: Matter) -> Section:
    """Three answers under the drawing, what gives first, what one change would do, what is only assumed."""
    return Section(matter.answer.name, tuple(_title(matter)))


def _title(matter: Matter) -> Iterator[Block]:
    answer, style = matter.answer, matter.style
    stand = answer.stand
    yield small(f"We are {answer.we_are}. {answer.place.words}")
    yield from matter.shown("title" if "title" in matter.drawings else "side")
    yield {"kind": "answers", "answers": [{"question": one.question, "answer": one.answer, "beside": list(one.beside)} for one in three_answers(answer, style)]}  # fmt: skip
    yield say(
        f"First gives: {stand.first_gives}, from {gust(stand.first_gives_m_s, style)} at tilt {stand.first_gives_tilt_deg:.0f}°. {helps_most(answer, style)}"
    )
    for check in failing(answer):
        yield caution(f"{fault_of(answer, check)}.")
    guesses = [doubt.row for doubt in doubts_of(answer.rows) if doubt.row.standing == "assumed"]
    if guesses:
        told = "; ".join(f"~{row.key.replace('_', ' ')} {matter.written(row)}" for row in guesses[:MOST_GUESSES])  # fmt: skip
        more = len(guesses) - MOST_GUESSES
        yield small(f"Nobody has confirmed: {told}{f'; and {more} more' if more > 0 else ''}. The asking list says whom to ring.")  # fmt: skip
    yield small(f"Basis: {answer.basis}. {answer.years} years, seed {answer.seed}.")


def cautions(matter: Matter) -> Section:
    """What hurts people, before anything is begun."""
    return Section("Before you begin", (*(caution(words) for words in matter.answer.cautions),))


def steps(matter: Matter) -> Section:
    """The order of work with its gates, where no cards are given."""
    return Section("The order of work", tuple(_steps(matter.answer.build.steps)))


def _steps(lines: tuple[str, ...]) -> Iterator[Block]:
    for words in lines:
        if words.startswith("GATE"):
            yield gate(words.partition(":")[2].strip().capitalize())
        else:
            yield boxes([{"words": words}])
