"""The asking list as text."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from polestead.base.row import Row
from polestead.build.asking import AskingLine
from polestead.build.result import Question
from polestead.homestead.answered import Reply
from polestead.offers.doubts import ORDER, doubts_of
from polestead.sheets.text import heading, say
from polestead.site.place import PlaceInWords


def asking_text(
    name: str,
    where: PlaceInWords,
    questions: Sequence[Question],
    rows: Sequence[Row],
    leaf: Sequence[AskingLine] = (),
) -> str:
    """Whom to ask what, then everything else that is only assumed; with the leaf, the whole list to take to the telephone."""
    lines = [*_lines(name, where, questions, rows), *(_leaf(leaf) if leaf else ())]
    return "\n".join(lines)


def _leaf(leaf: Sequence[AskingLine]) -> Iterator[str]:
    yield heading("The whole list, to take to the telephone")
    for number, line in enumerate(leaf, start=1):
        now = line.now or "nothing yet"
        yield say(f"{number}. {line.subject.upper()} ({line.key}; the file says: {now}{', settled' if line.settled else ''})", "  ", "     ")  # fmt: skip
        yield say(f"Ask: {line.whom}.", "     ")
        yield say(f'Say: "{line.sentence}"', "     ")
        yield say(f"Trap: {line.trap}", "     ")
        yield say("They say: ________________________ who: ____________ on: ________", "     ")
        yield say(f"Then write: {line.write}", "     ")


def _lines(
    name: str, where: PlaceInWords, questions: Sequence[Question], rows: Sequence[Row]
) -> Iterator[str]:
    yield f"{name}: what is assumed, and whom to ask"
    yield ""
    yield from (f"  {line}" for line in where.land_map)
    yield say(f"X marks the place. {where.words}")
    for odd in where.doubts:
        yield say(f"Look: {odd}", "  ", "    ")
    if not questions:
        yield say("Every fact of the place has been confirmed by someone.")
    for number, question in enumerate(questions, start=1):
        row = question.row
        yield heading(f"{number}. {row.section}.{row.key} = {row.mark}{row.told}")
        yield say(f"Ask: {question.whom}.")
        yield say(f'Say: "{question.sentence}"')
        yield say(f"Trap: {question.trap}")
        yield say(f'Then write: {row.key} = {{ said = "...", asked_of = "...", on = 2026-05-01 }}')
    asked = {(question.row.section, question.row.key) for question in questions}
    left = [doubt for doubt in doubts_of(rows) if (doubt.row.section, doubt.row.key) not in asked]
    guesses = [doubt for doubt in left if doubt.row.standing == "assumed"]
    if guesses:
        yield heading("Also assumed")
    for doubt in guesses:
        yield say(
            f"~ {doubt.row.section}.{doubt.row.key} = {doubt.row.told}: {doubt.row.why}. {doubt.in_full}",
            "  ",
            "    ",
        )
    yield heading("The tool's own defaults; write the key into the file to replace one")
    for doubt in left:
        row = doubt.row
        if row.standing == "default":
            yield say(
                f"~ {row.section}.{row.key} = {row.told}. {row.why} ({row.source})", "  ", "    "
            )
    yield say(ORDER)


def answered_line(reply: Reply, rows: Sequence[Row]) -> str:
    """An answer as it stands in the file now, and what counts before it.

    Args:
        reply: The answer.
        rows: Rows of the file as it is now.
    """
    row = next((one for one in rows if f"{one.section}.{one.key}" == reply.key), None)
    planned = f" (planned {row.planned})" if row is not None and row.planned else ""
    first = "" if row is None or row.standing == "said" else f"; but {row.told} was measured as built, and counts first"  # fmt: skip
    return (
        f"{reply.key} = {reply.value}{planned}, told by {reply.of}, {reply.on.isoformat()}{first}"
    )
