"""What the log teaches as plain text, 78 columns."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import fields
from datetime import date
from math import isfinite
from typing import Any

from polestead.base.hours import MONTH_NAMES
from polestead.base.show import Style, in_style, number, significant
from polestead.base.working import Working
from polestead.daybook.teaching.engine import MonthBeside
from polestead.daybook.teaching.months import MonthFactor
from polestead.daybook.teaching.taught import LEAST_DAYS, Finding, Recent, Taught
from polestead.daybook.teaching.view import ViewFit
from polestead.sheets.lines import heading, say

FORMAT = 1


def taught_text(taught: Taught, style: Style, why: bool = False) -> str:
    """What the log teaches, for a terminal.

    Args:
        taught: As gathered.
        style: Whose units.
        why: With the working of each finding.
    """
    parts = (
        _head(taught),
        _recent(taught.recent),
        _findings(taught, style, why),
        _months(taught.months),
        _view(taught.view),
        _engine(taught.engine, style),
        _said("What foresight would have saved", taught.foresight),
        _said("For you to write in the homestead file, if you find it so", taught.proposals),
        _said("What the log lacks", taught.missing),
        _said("Beside it", taught.notes),
    )
    return "\n".join(line for part in parts for line in part)


def taught_data(name: str, taught: Taught) -> dict[str, Any]:
    """What the log teaches as data: SI, the unit last in each key, one format number, null where nothing is known (conventions §18).

    Args:
        name: Of the homestead.
        taught: As gathered.
    """
    return {"format": FORMAT, "name": name, "loss_lasts": taught.loss_lasts, **_plain(taught)}


def _plain(value: Any) -> Any:
    """Results as plain data, workings by step left out: they are for reading."""
    if isinstance(value, float):
        return value if isfinite(value) else None
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, tuple):
        return [_plain(one) for one in value]
    if hasattr(value, "__dataclass_fields__"):
        return {each.name: _plain(getattr(value, each.name)) for each in fields(value) if each.name != "working"}  # fmt: skip
    return value


def _head(taught: Taught) -> Iterator[str]:
    if taught.first is None or taught.last is None:
        yield say("What the log teaches: nothing yet.", "")
        return
    yield say(f"What the log teaches: {taught.days} days that count, {taught.first} to {taught.last}.", "")  # fmt: skip


def _recent(recent: Recent | None) -> Iterator[str]:
    if recent is None:
        return
    yield heading("The last thirty days")
    judged = "as expected" if recent.within else "less than expected" if recent.seen_wh < recent.low_wh else "more than expected"  # fmt: skip
    yield say(
        f"{recent.days} days compared: {_kwh(recent.seen_wh)} kWh seen, {_kwh(recent.expected_wh)} expected "
        f"({_kwh(recent.low_wh)} to {_kwh(recent.high_wh)}): {judged}."
    )
    if recent.at_least:
        yield say(f"{recent.at_least} more days had a full battery: the array was turned away, they say only at least so much. On {recent.at_least_over} of them it made more than expected all the same.")  # fmt: skip


def _findings(taught: Taught, style: Style, why: bool) -> Iterator[str]:
    if not taught.findings:
        if taught.days >= LEAST_DAYS:
            yield heading("What has changed")
            yield say("Nothing that this log can tell from luck.")
        return
    yield heading("What has changed")
    for finding in taught.findings:
        yield from _finding(finding, style, why)


def _finding(finding: Finding, style: Style, why: bool) -> Iterator[str]:
    yield say(finding.what)
    other = f" Else: {finding.next_best} ({_share(finding.next_odds)})." if finding.next_best else ""  # fmt: skip
    yield say(f"Most like: {finding.cause} ({finding.sureness}, {_share(finding.odds)}).{other}", "    ")  # fmt: skip
    if finding.until is None:
        yield say(f"To settle it: {finding.act}", "    ")
    yield say(finding.false_alarms, "    ")
    if why:
        yield from _working(finding.working, style)


def _working(working: Working, style: Style) -> Iterator[str]:
    for step in working.steps:
        value = in_style(step.value, step.unit, style) if step.unit else significant(step.value)
        formula = f" = {step.formula}" if step.formula else ""
        yield say(f"{step.word}: {step.symbol}{formula} = {value}   [{step.source}]", "      ", "        ")  # fmt: skip
    for note in working.notes:
        yield say(note, "      ")


def _months(months: tuple[MonthFactor, ...]) -> Iterator[str]:
    if not months:
        return
    yield heading("Month factors: seen over expected")
    yield "  month  factor   90 % within    days  full  years"
    for one in months:
        mark = " " if one.sure else "~"
        yield f"  {MONTH_NAMES[one.month - 1]:5} {mark}{one.factor:6.2f}   {one.low:5.2f} to {one.high:4.2f}   {one.days:5d} {one.at_least:5d} {one.years:6d}"  # fmt: skip
    yield say("~ not yet sure to a twentieth; full: days with a full battery, at least so much. Days with snow seen on the glass or a loss told are not in them.")  # fmt: skip


def _view(view: ViewFit | None) -> Iterator[str]:
    if view is None:
        return
    yield heading("The low sun")
    yield say(f"What comes past the trees is {view.times:.2f} times what the file says ({view.low:.2f} to {view.high:.2f}), by {view.days} days with low sun.")  # fmt: skip
    if view.a_year_low != view.a_year_high:
        sign = "less" if view.a_year < 0.0 else "more"
        yield say(f"Each year {abs(view.a_year):.2f} {sign} of it ({number(view.a_year_low, 2)} to {number(view.a_year_high, 2)}).")  # fmt: skip


def _engine(rows: tuple[MonthBeside, ...], style: Style) -> Iterator[str]:
    if not rows:
        return
    yield heading("Engine and fuel, expected against seen")
    for row in rows:
        when = f"{MONTH_NAMES[row.month - 1]} {row.year}" if row.month else f"{row.year}"
        shown = [in_style(value, row.unit, style) if row.unit == "l" else f"{value:.0f} h" for value in (row.seen, row.good, row.median, row.bad)]  # fmt: skip
        judged = "" if row.within else "  outside its years"
        yield say(f"{when:9} {row.word}: {shown[0]}; good, median, bad year {shown[1]}, {shown[2]}, {shown[3]}{judged}", "  ", "    ")  # fmt: skip


def _said(title: str, sentences: tuple[str, ...]) -> Iterator[str]:
    if not sentences:
        return
    yield heading(title)
    for sentence in sentences:
        yield say(sentence, "  ", "    ")


def _kwh(energy_wh: float) -> str:
    return f"{energy_wh / 1000.0:.0f}"


def _share(odds: float) -> str:
    """Never nothing and never all: no test is sure of that."""
    percent = min(max(round(100.0 * odds), 1), 99)
    return f"{percent} %"
