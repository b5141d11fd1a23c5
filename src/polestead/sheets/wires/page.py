"""Strings, run, and what else could be wired, as text."""

from __future__ import annotations

from collections.abc import Iterator

from polestead.base.show import Style
from polestead.sheets.data import CAUTION
from polestead.sheets.text import heading, say, wires_lines
from polestead.sheets.wires.bank import bank_lines
from polestead.sheets.wires.guards import guards_lines, labels_lines
from polestead.sheets.wires.strings import strings_lines
from polestead.wiring.bank.charging import Charging
from polestead.wiring.choices import METALS, Choices, SizeOfWire
from polestead.wiring.layouts import Layouts
from polestead.wiring.result import WiringResult
from polestead.wiring.strings.voltage import HEAT_CHECK

HERE = ", in the file"


def wires_text(
    name: str,
    wires: WiringResult,
    layouts: Layouts,
    choices: Choices,
    charging: Charging,
    style: Style = "metric",
) -> str:
    """All of it."""
    return "\n".join(_lines(name, wires, layouts, choices, charging, style))


def _lines(
    name: str,
    wires: WiringResult,
    layouts: Layouts,
    choices: Choices,
    charging: Charging,
    style: Style,
) -> Iterator[str]:
    yield f"{name}: strings and the run"
    yield from wires_lines(wires)
    yield from strings_lines(layouts)
    yield heading("Every size of wire")
    for metal in METALS:
        yield from _metal(metal, choices)
    yield say(
        "Lost: in full sun, the wire at 75 C. What it loses over a year in light as it comes, and what that is worth in fuel, is not worked "
        "here yet."
    )
    yield heading("Into the battery at once")
    for name, amps in charging.currents_a:
        yield f"  {name:<28}{amps:>6.0f} A"
    yield say(charging.words)
    yield from guards_lines(wires.guards)
    yield from labels_lines(wires.guards)
    if wires.bank is not None:
        yield from bank_lines(wires.bank, style)
    yield ""
    yield say(
        "--working ITEM shows how a figure was found: cold voltage, heat, terminals, breaker, drop, charging, short circuit, live wire on the frame, fuse, air, absorb. "
        + CAUTION
    )


def _metal(metal: str, choices: Choices) -> Iterator[str]:
    thinnest = choices.thinnest(metal)
    yield f"  {metal:<11}carries  breaker up to    lost"
    for one in choices.sizes:
        if one.metal == metal:
            yield _size(one, one is thinnest)
    if thinnest is None:
        yield say(f"No size of {metal} in the table will do.")


def _size(one: SizeOfWire, thinnest: bool) -> str:
    words = [HERE.removeprefix(", ")] if one.chosen else []
    words += ["thinnest lawful"] if thinnest else []
    words += ["NO: loses too many volts in the heat"] if HEAT_CHECK in one.faults else []
    words += ["NO: carries too little"] if set(one.faults) - {HEAT_CHECK} else []
    row = f"{one.size:<9}{one.carries_a:>6.0f} A{one.largest_breaker_a:>12.0f} A{one.drop_share:>9.1%}  {', '.join(words)}"
    return say(row.rstrip(), "    ", " " * 44)
