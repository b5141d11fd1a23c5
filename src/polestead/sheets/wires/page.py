"""Strings, run, and what else could be wired, as text."""

from __future__ import annotations

from collections.abc import Iterator

from polestead.answer.wires_run import RunChoices
from polestead.base.show import Style
from polestead.sheets.data import CAUTION
from polestead.sheets.text import heading, say, wires_lines
from polestead.sheets.wires.run import run_lines, trade_lines
from polestead.sheets.wires.strings import strings_lines
from polestead.wiring.bank.charging import Charging
from polestead.wiring.choices import Choices
from polestead.wiring.layouts import Layouts
from polestead.wiring.result import WiringResult


def wires_text(
    name: str,
    wires: WiringResult,
    layouts: Layouts,
    choices: Choices,
    charging: Charging,
    over_years: RunChoices | None,
    currency: str,
    style: Style,
) -> str:
    """All of it; the run over the years where the weather was worked."""
    return "\n".join(_lines(name, wires, layouts, choices, charging, over_years, currency, style))


def _lines(
    name: str,
    wires: WiringResult,
    layouts: Layouts,
    choices: Choices,
    charging: Charging,
    over_years: RunChoices | None,
    currency: str,
    style: Style,
) -> Iterator[str]:
    yield f"{name}: strings and the run"
    yield from wires_lines(wires)
    yield from strings_lines(layouts)
    yield from run_lines(choices.sizes, over_years, currency, style)
    if over_years is not None:
        yield from trade_lines(over_years.trade, over_years.economy.years, currency)
    yield heading("Into the battery at once")
    for name_, amps in charging.currents:
        yield f"  {name_:<28}{amps:>6.0f} A"
    yield say(charging.words)
    yield ""
    yield say(
        "--working ITEM shows how a figure was found: cold voltage, heat, terminals, breaker, drop, charging. "
        + CAUTION
    )
