"""A working printed as a ladder: word | symbol = formula = value | source."""

from __future__ import annotations

from collections.abc import Iterator
from textwrap import fill

from polestead.base.check import Check
from polestead.base.show import Style, in_style, significant
from polestead.base.working import Working
from polestead.sheets.sentences import figures_of

WIDTH = 78


def working_lines(working: Working, style: Style) -> Iterator[str]:
    """The ladder of one working; SI, with the trade's unit beside it in feet style."""
    yield working.title
    for step in working.steps:
        value = f"{significant(step.value)} {step.unit}".strip()
        trade = in_style(step.value, step.unit, style)
        beside = f"  ({trade})" if style == "feet" and trade != value else ""
        formula = f" = {step.formula}" if step.formula else ""
        yield fill(step.word, WIDTH, initial_indent="  ", subsequent_indent="    ")
        yield fill(
            f"{step.symbol}{formula} = {value}{beside}",
            WIDTH,
            initial_indent="      ",
            subsequent_indent="        ",
        )
        yield fill(
            str(step.source), WIDTH, initial_indent="        | ", subsequent_indent="        | "
        )
    for note in working.notes:
        yield fill(note, WIDTH, initial_indent="  * ", subsequent_indent="    ")


def check_lines(check: Check, style: Style) -> Iterator[str]:
    """A check with its working."""
    yield fill(
        f"{check.part}: {check.name}: {figures_of(check, style)}", WIDTH, subsequent_indent="  "
    )
    yield from working_lines(check.working, style)
    yield fill(f"by {check.source}", WIDTH, initial_indent="  ", subsequent_indent="    ")
