"""The wires as text: what does not hold and what stands open first, then part by part."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import chain

from polestead.answer.wires import Wires
from polestead.base.show import Style, in_one_unit_all
from polestead.sheets.data import CAUTION
from polestead.sheets.lines import heading, say
from polestead.sheets.sentences import figures_of, unfit_to_engrave
from polestead.sheets.text import strings_and_run
from polestead.sheets.wires.bank import bank_lines
from polestead.sheets.wires.basis import basis_lines
from polestead.sheets.wires.form import form_lines
from polestead.sheets.wires.guards import guards_lines, labels_lines
from polestead.sheets.wires.run import run_lines, terminals_lines, trade_lines
from polestead.sheets.wires.strings import strings_lines
from polestead.sheets.wires.tilt_drive import tilt_drive_lines
from polestead.sheets.wires.trench import hinge_cable_lines, trench_lines
from polestead.sheets.workings import of_all_wires


def wires_text(wires: Wires, currency: str, style: Style, part: str | None = None) -> str:
    """All of it, or one part.

    Args:
        wires: As worked.
        currency: The owner's.
        style: Feet and inches, or metric.
        part: A key of ``parts``; None for all.
    """
    every = parts(in_one_unit_all(wires, style), currency, style)
    if part is not None:
        return "\n".join(every[part]).lstrip("\n")
    lines = chain.from_iterable(every.values())
    return "\n".join((f"{wires.name}: wires, from the modules to the battery", *lines, "", _last(wires, every)))  # fmt: skip


def parts(wires: Wires, currency: str, style: Style) -> dict[str, Iterator[str]]:
    """Lines of each part by its word, in the order of the page."""
    wiring, over = wires.wiring, wires.over_years
    return {
        "short": _first(wires, style),
        "strings": strings_lines(wires.layouts, style),
        "run": chain(
            run_lines(wires.choices.sizes, over, currency, style),
            terminals_lines(wires.choices, wiring.run_asks),
            trade_lines(over.trade, over.economy.years, currency),
        ),
        "guards": chain(guards_lines(wiring.guards), _labels(wires)),
        "battery": iter(()) if wiring.bank is None else bank_lines(wiring.bank, style),
        "trench": iter(()) if wiring.trench is None else trench_lines(wiring.trench, style),
        "cord": iter(()) if wiring.cord is None else hinge_cable_lines(wiring.cord, style),
        "drive": tilt_drive_lines(wires.tilt_drive, style),
        "test": form_lines(wires.form, wires.name, style),
        "basis": basis_lines(wires.basis, wires.asks),
    }


WORKINGS = (
    "cold voltage", "heat", "terminals", "drop", "charging", "short circuit", "hydrogen", "pull", "fuse", "loop", "worth",
)  # fmt: skip


def workings_offered(wires: Wires) -> tuple[str, ...]:
    """Words for ``--working`` that find something in these very wires."""
    names = [name.lower() for name, _ in of_all_wires(wires)]
    return tuple(
        words for words in WORKINGS if any(all(w in name for w in words.split()) for name in names)
    )


def _last(wires: Wires, every: dict[str, Iterator[str]]) -> str:
    return say(
        f"One part at a time: --part {', '.join(every)}. --working ITEM shows how a figure was found: {', '.join(workings_offered(wires))}. "
        f"--light and --cell fill the test form for the hour, --drawings FOLDER writes one-line and string map. {CAUTION}"
    )


def _labels(wires: Wires) -> Iterator[str]:
    """The labels; nothing to engrave while strings, wire or breaker of the file are refused."""
    faults = [*wires.layouts.chosen.faults, *unfit_to_engrave(wires.wiring)]
    if not faults:
        yield from labels_lines(wires.wiring.guards)
        return
    yield heading("Labels to engrave")
    yield say(
        f"Nothing to engrave until this is mended: {'; '.join(dict.fromkeys(faults))}. Volts and amperes of the labels follow from strings and breaker."
    )


def _first(wires: Wires, style: Style) -> Iterator[str]:
    """The verdict: strings and run in short, all that does not hold, how much stands open."""
    yield heading("Strings and run")
    yield from strings_and_run(wires.wiring)
    broken = [check for check in wires.checks if not check.holds]
    for check in broken:
        yield say(f"NO: {check.part}, {check.name}: {figures_of(check, style)}.")
    if not broken:
        yield say(f"All {len(wires.checks)} checks hold.")
    for words in wires.not_looked_at:
        yield say(words)
    asks = len(wires.open_asks)
    if asks:
        yield say(f"{asks} ratings, labels, rules and own lines stand open because the file does not say: they are asked below, and not passed.")  # fmt: skip
    for note in wires.wiring.notes:
        yield say(note, "  * ", "    ")
