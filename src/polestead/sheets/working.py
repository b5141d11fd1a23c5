"""A working printed as a ladder: word | symbol = formula = value | source."""

from __future__ import annotations

from collections.abc import Iterator
from textwrap import fill

from polestead.base.check import Check
from polestead.base.show import Style, compared, in_style, significant, styled
from polestead.base.working import Step, Working
from polestead.sheets.sentences import figures_of

WIDTH = 78


def working_lines(working: Working, style: Style, against: Check | None = None) -> Iterator[str]:
    """The ladder of one working, of a check's own; SI, with the trade's unit beside it in feet style."""
    yield working.title
    for step in working.steps:
        value = f"{significant(step.value)} {step.unit}".strip()
        trade = in_trade(step, style, against)
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


def in_trade(step: Step, style: Style, against: Check | None = None) -> str:
    """A step's value in the trade's unit; a volume to as many figures as its SI, or a small one taken off would not add up.

    A stress is told in the unit of the strength it is held against, however small it is: concrete in ksi beside ksi.
    """
    if against is not None and step.unit == against.unit == "Pa" and step.value == against.demand:
        return (
            compared(against.demand, against.capacity, "Pa", style)[0]
            if style == "feet"
            else in_style(step.value, "Pa", style)
        )
    if step.unit == "m^3" and style == "feet":
        value, unit = styled(step.value, step.unit, style)
        return f"{significant(value)} {unit}"
    return in_style(step.value, step.unit, style)


def check_lines(check: Check, style: Style) -> Iterator[str]:
    """A check with its working."""
    yield fill(
        f"{check.part}: {check.name}: {figures_of(check, style)}", WIDTH, subsequent_indent="  "
    )
    yield from working_lines(check.working, style, check)
    yield fill(f"by {check.source}", WIDTH, initial_indent="  ", subsequent_indent="    ")
