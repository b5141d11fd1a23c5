"""The test form as text, to be printed and filled in by hand."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from typing import Any

from polestead.base.show import Style, in_style, number
from polestead.base.source import Source
from polestead.sheets.lines import WIDTH, heading, say
from polestead.sheets.plain import plain_data
from polestead.wiring.drawn.expected import (
    BACK_TO_CELL,
    BOTH_WAYS,
    CURRENT_CHANGE,
    DIODE,
    LEAST_LIGHT,
    LEAST_LIGHT_W_M2,
    LIKE_STRINGS,
    METERS,
    Expected,
    Span,
    faults_of,
)
from polestead.wiring.drawn.form import LIGHTS_W_M2, Form, TestStep

BLANK = "_______"
STRINGS_A_LINE = 5


def form_text(form: Form, name: str, style: Style) -> str:
    """The whole form."""
    return "\n".join(form_lines(form, name, style))


def form_lines(form: Form, name: str, style: Style) -> Iterator[str]:
    """The form, 78 columns.

    Args:
        form: What it says.
        name: Of the homestead.
        style: Units of temperatures.
    """
    strings = len(form.strings)
    yield f"{name}: test form of {strings} string{'' if strings == 1 else 's'} of {form.in_series}"
    yield "=" * WIDTH
    yield f"  date {BLANK}  hour {BLANK}  by {BLANK * 2}  glass: dry / wet / dirty"
    yield f"  light on the glass {BLANK} W/m2   back of a module {BLANK}   cells {BLANK}"
    yield say(
        "150 to 600 V of direct current kills, and its arc does not die. Where the law says so, a licensed technician does this. "
        "Modules are live in any light."
    )
    yield from _hour(form, style)
    yield from _how_to_read(style)
    yield heading("In this order; stop where one does not pass")
    for nth, step in enumerate(form.steps, start=1):
        yield from _step(nth, step, form)
    yield from _cold(form, style)
    yield from _grid(form, style)
    yield from _sources()


def _hour(form: Form, style: Style) -> Iterator[str]:
    yield heading("One string, at this hour")
    if form.expected is None:
        yield say("Light and cell temperature were not given: take the table at the end.")
        return
    one = form.expected
    yield f"  Light {one.plane_w_m2:.0f} W/m2, cells {in_style(one.cell_c, 'C', style)}"
    yield f"  {'':<28}{'expected':>9}   passes"
    yield _span_row("open volts", one.open_v, "V", 0)
    yield _span_row("short-circuit amperes", one.short_a, "A", 1)
    yield _span_row("working volts", one.working_v, "V", 0)
    yield _span_row("working amperes", one.working_a, "A", 1)
    yield _span_row("watts", one.watts, "W", 0)
    yield _together(form, one)
    if not one.light_enough:
        yield say(f"Under {LEAST_LIGHT_W_M2:.0f} W/m2 amperes and watts tell little: come back in better sun. Polarity and open volts may be read.")  # fmt: skip
    yield say("If the open volts read instead:")
    for fault in faults_of(one):
        apart = (
            "" if fault.told_apart else "; a sound string may read so: hold the strings together"
        )
        yield say(f"about {fault.reads_v:.0f} V: {fault.word}{apart}", "    ", "        ")
    yield say("less than nothing: the string, or the meter, is the wrong way round", "    ", "        ")  # fmt: skip


def _span_row(word: str, span: Span, unit: str, digits: int) -> str:
    low, high = number(span.low, digits), number(span.high, digits)
    return f"  {word:<28}{number(span.value, digits):>9} {unit}   {low} to {high} {unit}"


def _together(form: Form, one: Expected) -> str:
    count = len(form.strings)
    left = 1.0 - form.drop_share * min(one.plane_w_m2 / 1000.0, 1.0)
    low, value, high = (count * watts * left for watts in (one.watts.low, one.watts.value, one.watts.high))  # fmt: skip
    return say(
        f"All {count} together at the controller, the run's loss taken off: about {number(value)} W ({number(low)} to {number(high)}), while "
        "the battery takes all it gives."
        if count > 1
        else f"At the controller, the run's loss taken off: about {number(value)} W ({number(low)} to {number(high)}), while the battery takes all it gives."
    )


def _how_to_read(style: Style) -> Iterator[str]:
    three, two = ("5 F", "4 F") if style == "feet" else ("3 C", "2 C")
    yield heading("How to know light and cell temperature")
    yield say(
        f"Cells: a thermometer taped under a pad on the back of a module, in its middle, left ten minutes; add {three} in full sun, in proportion in "
        f"less ({BACK_TO_CELL}; {two} to {three} by kind of back, from memory; ten minutes and the pad: common practice, no source)."
    )
    yield say(
        "Light: a meter laid in the plane of the glass. Or a module that is not one of those under test, in the same plane, its amperes "
        f"shorted: 1000 x its reading / its sheet's amperes, less 0.05 % for each degree C of its cells over 25 ({CURRENT_CHANGE})."
    )
    yield say("A thin cloud in the minute of the reading spoils it: read light, amperes, light again; the two must agree within 2 % (our own rule).")  # fmt: skip


def _step(nth: int, step: TestStep, form: Form) -> Iterator[str]:
    yield f"  [ ] {nth}. {step.act}"
    yield say(step.do, "      ")
    if step.caution:
        yield say(f"CAUTION: {step.caution}", "      ", "        ")
    yield say(f"passes: {step.passes}. Asked by: {step.source}.", "      ", "        ")
    if step.each_string:
        blanks = [f"{letter} {BLANK}" for letter in form.strings]
        for start in range(0, len(blanks), STRINGS_A_LINE):
            row = "  ".join(blanks[start : start + STRINGS_A_LINE])
            yield f"      {row} {step.unit}".rstrip()
    elif step.unit:
        yield f"      {BLANK} {step.unit}"


def _cold(form: Form, style: Style) -> Iterator[str]:
    low = in_style(form.record_low_c, "C", style)
    yield heading(f"From the reading to the record low of {low}")
    yield say("cold volts = open volts read x factor of the light x factor of the cells")
    lights = "".join(f"{factor:>8.3f}" for _, factor in form.light_factors)
    yield f"  light W/m2 {''.join(f'{light:>8.0f}' for light, _ in form.light_factors)}"
    yield f"  factor     {lights}"
    yield f"  cells      {''.join(f'{_degrees(cell, style):>8}' for cell, _ in form.cold_factors)}"
    yield f"  factor     {''.join(f'{factor:>8.3f}' for _, factor in form.cold_factors)}"
    if form.expected is not None:
        yield say(_worked(form, form.expected, style))
    yield say(
        f"The sums took the string for {form.cold_v:.0f} V there, {form.cold_with_margin_v:.0f} V with margin; the controller bears {form.limit_v:g} V. "
        f"What you find, and 3 % or 5 V more, must stay under {form.limit_v:g} V."
    )


def _worked(form: Form, one: Expected, style: Style) -> str:
    """The sum done once with the expected reading, between rows in straight lines, as a man with the table does it."""
    bright = _between(form.light_factors, one.plane_w_m2)
    cold = _between(form.cold_factors, one.cell_c)
    if bright is None or cold is None:
        return "Light or cells of this hour lie outside these rows."
    volts = one.open_v.value
    return (
        f"Worked: a string that read {volts:.0f} V at {one.plane_w_m2:.0f} W/m2 and {in_style(one.cell_c, 'C', style)}: "
        f"{volts:.0f} x {bright:.3f} x {cold:.3f} = {volts * bright * cold:.0f} V."
    )


def _between(rows: tuple[tuple[float, float], ...], at: float) -> float | None:
    for (x1, y1), (x2, y2) in pairwise(rows):
        if x1 <= at <= x2:
            return y1 + (y2 - y1) * (at - x1) / (x2 - x1)
    return None


def _degrees(cell_c: float, style: Style) -> str:
    return in_style(cell_c, "C", style).replace(" ", "")


def _grid(form: Form, style: Style) -> Iterator[str]:
    yield heading("Without a computer: one string in light and warmth")
    head = "".join(f"{light:>7.0f}" for light in LIGHTS_W_M2)
    thin = "".join(f"{light:>6.0f}" for light in LIGHTS_W_M2)
    yield f"  {'':<7}open volts at W/m2{'':<17}watts at W/m2"
    yield f"  {'cells':<5}{thin}  {head}"
    for row in form.grid:
        volts = "".join(f"{value:>6.0f}" for value in row.open_v)
        watts = "".join(f"{value:>7.0f}" for value in row.watts)
        yield f"  {_degrees(row.cell_c, style):<5}{volts}  {watts}"
    yield ""
    yield f"  {'':<7}short-circuit amperes at W/m2"
    yield f"  {'cells':<5}{head}"
    for row in (form.grid[0], form.grid[3], form.grid[-1]):
        yield f"  {_degrees(row.cell_c, style):<5}{''.join(f'{value:>7.1f}' for value in row.short_a)}"  # fmt: skip
    yield say(
        "Passes: volts within about 5 %, amperes about 10 %, watts about 15 % of the table for a new, clean string and good hand meters; the "
        "spans above are the exact ones."
        if form.expected is not None
        else "Passes: volts within about 5 %, amperes about 10 %, watts about 15 % of the table for a new, clean string and good hand meters."
    )


def _sources() -> Iterator[str]:
    yield ""
    told: tuple[Source, ...] = (DIODE, BOTH_WAYS, METERS, LIKE_STRINGS, LEAST_LIGHT)
    yield say("Rests on: " + "; ".join(str(source) for source in told) + ". Order of the tests: IEC 62446-1, clause 6 (from memory).")  # fmt: skip
    yield say("Keep this sheet: it is what every later reading is held against.")


def form_data(form: Form) -> dict[str, Any]:
    """The form for a page or a program: plain names, numbers and words, SI, unit last in each key."""
    data: dict[str, Any] = plain_data(form)
    if form.expected is not None:
        data["faults"] = plain_data(faults_of(form.expected))
    return {**data, "lights_w_m2": list(LIGHTS_W_M2)}
