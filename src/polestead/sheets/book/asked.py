"""The asking leaf: whom to ring, the sentence to say, the trap in the reply, blanks for the answer, and how it goes into the file."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from polestead.base.row import Row
from polestead.build.asking import AskingLine, asking_leaf
from polestead.build.result import Question
from polestead.offers.doubts import ORDER, doubts_of
from polestead.sheets.book.blocks import (  # fmt: skip
    Block,
    Section,
    blank_lines,
    caution,
    head,
    listed,
    say,
    small,
    together,
)
from polestead.sheets.book.matter import Matter

BLANKS = ("They said", "Who, and on which day")


def asking(matter: Matter) -> Section:
    """All ten subjects, what else of the place is open, what is only assumed."""
    return Section("Whom to ask", tuple(_asking(matter)))


def _asking(matter: Matter) -> Iterator[Block]:
    file, rows = matter.owners.homestead, matter.answer.rows
    leaf = asking_leaf(rows, file.buried)
    by_key = {f"{row.section}.{row.key}": row for row in rows}
    yield say(
        "Take this leaf to the telephone. Write down what they say word by word, who said it and when; then put it into the file, one command a line."
    )
    yield from _settled(matter, [line for line in leaf if line.settled], by_key)
    still = [line for line in leaf if not line.settled]
    for number, line in enumerate(still, start=1):
        yield together(_line(matter, number, line, by_key.get(line.key)))
    on_leaf = {line.key for line in leaf}
    more = [one for one in matter.answer.questions if f"{one.row.section}.{one.row.key}" not in on_leaf]  # fmt: skip
    for number, question in enumerate(more, start=len(still) + 1):
        yield together(_question(matter, number, question))
    yield from _assumed(matter, on_leaf | {f"{one.row.section}.{one.row.key}" for one in more})


def _settled(matter: Matter, lines: Sequence[AskingLine], by_key: Mapping[str, Row]) -> Iterator[Block]:  # fmt: skip
    if lines:
        told = "; ".join(f"{line.subject} {_now(matter, line, by_key.get(line.key))}" for line in lines)  # fmt: skip
        yield say(f"Settled, with a name and a day: {told}. Ask again only if the place or the code has changed.")  # fmt: skip


def _now(matter: Matter, line: AskingLine, row: Row | None) -> str:
    if row is None:
        return line.now
    return "" if row.standing == "default" else f"{row.mark}{matter.written(row)}"


def _line(matter: Matter, number: int, line: AskingLine, row: Row | None) -> Iterator[Block]:
    subject = f"{number}. {line.subject[0].upper()}{line.subject[1:]}"
    yield head(f"{subject}: the file says {_now(matter, line, row) or 'nothing yet'}")
    yield say(f"Ask {line.whom}. “{line.sentence}”")
    yield caution(f"Trap: {line.trap}")
    yield blank_lines(BLANKS)
    yield small(f"Then: {_command(line.key)}." if "." in line.key else f"Then write: {line.write}.")


def _command(key: str) -> str:
    return f'polestead ask FILE --answer {key} "what they said" --of "who"'


def _question(matter: Matter, number: int, question: Question) -> Iterator[Block]:
    row = question.row
    yield head(f"{number}. {row.key.replace('_', ' ').capitalize()}: taken as {row.mark}{matter.written(row)}")  # fmt: skip
    yield say(f"Ask {question.whom}. “{question.sentence}”")
    if question.trap:
        yield caution(f"Trap: {question.trap}")
    yield blank_lines(BLANKS)
    yield small(f"Then: {_command(f'{row.section}.{row.key}')}.")


def _assumed(matter: Matter, asked: set[str]) -> Iterator[Block]:
    left = [one for one in doubts_of(matter.answer.rows) if f"{one.row.section}.{one.row.key}" not in asked]  # fmt: skip
    guesses = [one for one in left if one.row.standing == "assumed"]
    if guesses:
        yield head("Also assumed")
        yield listed((f"{one.row.section}.{one.row.key} = {matter.written(one.row)}: {one.row.why}. {one.in_full}" for one in guesses), "~")  # fmt: skip
    yield small(f"{ORDER} {len(left) - len(guesses)} defaults of the tool stand in the engineer's leaf.")  # fmt: skip
