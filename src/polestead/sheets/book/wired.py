"""Wires: layout, guards, labels, the battery, the trench, sizes of wire, the test form."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from math import ceil

from polestead.answer.stands import wire_choices_of
from polestead.base.check import Check
from polestead.base.show import Style, in_style, number
from polestead.homestead.model import Homestead
from polestead.sheets.book.blocks import (  # fmt: skip
    Block,
    Section,
    blank_lines,
    boxes,
    caution,
    head,
    labels,
    listed,
    say,
    small,
    table,
)
from polestead.sheets.book.matter import Matter
from polestead.sheets.ratings import down, guard_figures, share_up
from polestead.sheets.sentences import breaker_and_earth, figures_of, lost_words, unfit_to_engrave
from polestead.sheets.wires.guards import OUTCOME, held
from polestead.sheets.wires.run import PLACES
from polestead.sheets.wires.trench import trench_lines
from polestead.wiring.bank.bank import Bank
from polestead.wiring.bank.set_points import SetPoint
from polestead.wiring.drawn.form import LIGHTS_W_M2, Form, form_of
from polestead.wiring.guards.result import Guard
from polestead.wiring.run.sizes import SizeOfWire

KILLS = "150 to 600 V of direct current kills, and its arc does not die. Where the law says so, a licensed technician does this. Modules are live in any light."


def one_line_page(matter: Matter) -> Section:
    """Pole to battery, on one leaf."""
    return Section(
        "One-line: pole to battery",
        (caution(KILLS), *matter.shown("one-line", high="150mm")),
        "wide",
    )


ASKED_OF_HIM = (
    "Hold the one-line against what is there, and against the code of the place; what differs is written on it.",
    "Answer what the file does not say: the pages on guards and battery list it. Nothing is switched on before that.",
    "Look at the trench before it is closed, and at the earth wire all the way.",
    "Put the labels up; go through the test form in its order, the array's switch open, and sign it.",
    "Give the figures back: what was measured goes into the owner's file, and all sums are made again.",
)


def to_the_technician(matter: Matter) -> Section:
    """Who the leaf is for, what is asked of him, the circuit in short."""
    code = matter.answer.wiring.guards.code
    battery = matter.owners.homestead.household.battery
    return Section(
        "To whoever wires it",
        (
            say(f"For the licensed technician, or the owner where the law lets him, who wires it from the modules to the battery. Worked by {code}."),
            caution(KILLS),
            head("What is asked of you"),
            listed(ASKED_OF_HIM),
            head("The circuit in short"),
            _in_short(matter, (("battery", f"{battery.kind}, {battery.nominal_v:.0f} V, {battery.capacity_ah:.0f} Ah"),)),
            blank_lines(["Looked at by", "License", "Switched on / not yet, on which day", "Remarks"]),
        ),
    )  # fmt: skip


def layout(matter: Matter, *, in_short: bool = True) -> Section:
    """What the sums found of strings and run, and which module is joined to which; without its table where that stands before it."""
    return Section("Strings and run", ((_in_short(matter),) if in_short else ()) + tuple(_layout(matter)))  # fmt: skip


def _in_short(matter: Matter, more: Iterable[tuple[str, str]] = ()) -> Block:
    wires, file = matter.answer.wiring, matter.owners.homestead
    by_table = "" if wires.table_voltage_v is None else f"; {wires.table_voltage_v:.0f} V by the code's table"  # fmt: skip
    return table(
        ("", ""),
        [
            ("strings", f"{file.array.in_parallel} of {file.array.in_series} modules"),
            ("coldest dawn", f"{wires.cold_voltage_v:.0f} V by the maker's figure, {wires.cold_with_margin_v:.0f} V with margin{by_table}"),
            ("most modules in a string", f"{wires.most_in_series} at the record low, margin in it"),
            ("the run in full sun", f"{wires.full_sun_a:.1f} A at {wires.full_sun_v:.0f} V; {lost_words(wires)}"),
            ("wire in the file", f"{file.run.size}, {file.run.method}"),
            ("breaker, earth wire all the way with the run", breaker_and_earth(wires)),
            *more,
        ],
        ("1fr", "2fr"),
    )  # fmt: skip


def _layout(matter: Matter) -> Iterator[Block]:
    wires = matter.answer.wiring
    for check in wires.checks:
        if not check.holds:
            yield caution(f"{check.part}, {check.name}: {figures_of(check, matter.style)}.")
    yield from matter.shown("string map")
    yield head("Beside it")
    yield listed(wires.notes)


def guards(matter: Matter) -> Section:
    """What guards the circuit, and the rules that hold."""
    return Section("What guards strings and run", tuple(_guards(matter)))


def _guards(matter: Matter) -> Iterator[Block]:
    found = matter.answer.wiring.guards
    yield caution("A breaker, switch or fuse without volts DC on its label never passes here: an arc of direct current does not go out.")  # fmt: skip
    if found.asks:
        yield head("Not passed, because the file does not say")
        yield listed(found.asks, "?")
    yield head("From the modules to the battery")
    yield _guard_table(found.guards)
    yield head(f"Rules that hold or not ({found.code})")
    for rule in found.rules:
        yield say(f"{rule.name}: {OUTCOME[rule.outcome]}. {rule.words} {rule.ask}")
        yield small(f"by {rule.source}")
    yield head("Earth wire")
    earth = found.earth
    aluminium = "" if earth.aluminium is None else f", or {earth.aluminium} aluminium in pipe"
    yield say(f"At least {earth.least} copper{aluminium}, all the way with the run. {earth.words}")
    yield small(f"by {earth.source}")
    yield from _held(found.checks)


def _guard_table(guards: Iterable[Guard]) -> Block:
    rows = [(f"{one.what}, {one.where}", ", ".join(guard_figures(one, "feet")), f"{one.words}{' Ask: ' + one.ask if one.ask else ''}") for one in guards]  # fmt: skip
    return table(
        ("what, where", "its label", "why, and what to ask"), rows, ("1fr", "0.7fr", "2.7fr")
    )


def _held(checks: Iterable[Check]) -> Iterator[Block]:
    for check in checks:
        words = f"{check.part} {check.name}: {held(check)}."
        yield say(words) if check.holds else caution(words)


def label_page(matter: Matter) -> Section:
    """Every label as it is engraved."""
    found = matter.answer.wiring.guards
    broken = unfit_to_engrave(matter.answer.wiring)
    if broken:
        words = f"Nothing to engrave until this is mended: {'; '.join(broken)}."
        return Section("Labels to engrave", (caution(words),))
    return Section(
        "Labels to engrave",
        (
            labels((f"{one.where} ({one.source})", one.lines) for one in found.labels),
            small(
                "Volts are the coldest dawn with margin, amperes 1.25 times the short circuit of all strings, both rounded up. Engraved or etched, not written. The words are ours; where the "
                "inspector wants those of his code, put these figures into them. An estimate is never engraved: the line stays blank until the maker answers."
            ),
        ),
    )


def bank_page(matter: Matter) -> Section | None:
    """What stands by the battery; None where the house was not looked at."""
    bank = matter.answer.wiring.bank
    return None if bank is None else Section("By the battery", tuple(_bank(bank, matter.style)))


def _bank(bank: Bank, style: Style) -> Iterator[Block]:
    for one in bank.cautions:
        yield caution(one)
    yield say(f"Short circuit: {bank.short_circuit.words}")
    fuse = bank.main_fuse
    size = "past the standard sizes" if fuse.rating_a is None else f"{fuse.rating_a:g} A"
    yield say(f"Main fuse: carries {fuse.carries_a:.0f} A for hours, so at least {fuse.least_a:.0f} A: {size}.")  # fmt: skip
    yield _guard_table(bank.guards)
    yield from _held(bank.checks)
    if bank.hydrogen is not None:
        yield head("Hydrogen")
        rows = [(row.charge, f"{row.gas_a:.1f} A", *_air(row.air_m3_h, row.opening_m2, style)) for row in bank.hydrogen.rows]  # fmt: skip
        yield table(("charge", "makes gas", "fresh air", "each of two openings"), rows, ("1fr", "1fr", "1fr", "1fr"), "lrrr")  # fmt: skip
        yield say(bank.hydrogen.words)
    points = bank.set_points
    yield head(f"Set-points, {points.cells} cells")
    cold, warm = (in_style(c, "C", style) for c in (points.coldest_c, points.warmest_c))
    heads = ("", "a cell", f"at {in_style(25.0, 'C', style)}", f"at {cold}", f"at {warm}", "")
    drop = 4 if cold == warm else -1  # a room as warm all year: one column of the two
    every = [tuple(word for nth, word in enumerate(row) if nth != drop) for row in (heads, *map(_point, points.points))]  # fmt: skip
    yield table(every[0], every[1:], ("1fr", *("auto",) * (len(every[0]) - 2), "2fr"), "l" + "r" * (len(every[0]) - 2) + "l")  # fmt: skip
    yield say(points.words)
    if bank.asks:
        yield head("Not passed or not known, because the file does not say")
        yield listed(bank.asks, "?")


def _air(air_m3_h: float, opening_m2: float, style: Style) -> tuple[str, str]:
    """Fresh air and each opening, neither ever shown smaller than it must be."""
    if style == "metric":
        return (
            f"{ceil(air_m3_h * 10.0 - 1e-9) / 10.0:.1f} m³/h",
            f"{ceil(opening_m2 * 1e4 - 1e-9)} cm²",
        )
    return (
        f"{number(ceil(air_m3_h / 0.3048**3 - 1e-9))} ft³/h",
        f"{ceil(opening_m2 / 0.0254**2 - 1e-9)} in²",
    )


def _point(one: SetPoint) -> tuple[str, ...]:
    volts = [
        "–" if value is None else f"{value:.{digits}f} V"
        for value, digits in ((one.per_cell_v, 2), (one.bank_v, 1), (one.coldest_v, 1), (one.warmest_v, 1))
    ]  # fmt: skip
    return (one.name, *volts, f"{one.standing}. {one.words}".strip())


def trench_page(matter: Matter, to_buy: bool = True) -> Section | None:
    """Cover, pipe, pull, own lines, what lies in it before it closes; None where the pole was not looked at."""
    found = matter.answer.wiring.trench
    if found is None:
        return None
    return Section(
        "Trench of the run", tuple(from_lines(trench_lines(found, matter.style, to_buy)))
    )


_BOX = re.compile(r"^\d+\.? \[ \] ")


def from_lines(lines: Iterable[str]) -> Iterator[Block]:
    """Wrapped paragraphs, headings and boxes of a plain text as blocks; what stands under a box goes with it."""
    box: list[str] = []
    items: list[str] = []
    mark = ""
    for line in lines:
        words = " ".join(line.split())
        plain = words and not line.startswith("\n") and words[:2] not in ("* ", "? ", "! ", "- ")
        if box and not (plain and not _BOX.match(words)):
            yield boxes([{"words": box[0], "more": " ".join(box[1:])}])
            box = []
        its = "" if plain or not words or line.startswith("\n") else {"* ": "•", "- ": "–"}.get(words[:2], words[0])  # fmt: skip
        if items and (
            its != mark or not its
        ):  # neighbours are one list: the page does not part a short one
            yield listed(items, mark)
            items = []
        if _BOX.match(words):
            box = [_BOX.sub("", words)]
        elif box:
            box.append(words)
        elif line.startswith("\n"):
            yield head(words.rstrip("- "))
        elif plain:
            yield say(words)
        elif words:
            mark = its
            items.append(words[2:])
    if items:
        yield listed(items, mark)
    if box:
        yield boxes([{"words": box[0], "more": " ".join(box[1:])}])


def sizes_page(matter: Matter) -> Section:
    """Every size of wire of the file's own metal and the other, held against the run."""
    rows = wire_choices_of(matter.owners.homestead).sizes
    lawful = [row for row in rows if not row.faults or row.chosen]
    told = [_size(row) for row in lawful]
    return Section(
        "Sizes of wire for the run",
        (
            table(("size", "metal", "carries", "weakest at", "largest breaker", "lost in full sun", ""), told, ("auto", "auto", "auto", "1fr", "auto", "auto", "1.4fr"), "llrlrrl"),
            small("Lawful sizes and the one in the file. Carries: at the weakest place along the run. Lost: in full sun, the wire at 75 C; there is no pass mark, a thicker wire is worth what it saves."),
            listed(matter.answer.wiring.run_asks, "?"),
        ),
    )  # fmt: skip


def _size(row: SizeOfWire) -> tuple[str, ...]:
    said = "in the file" if row.chosen else ""
    if row.faults:
        said += f": NO, {', '.join(row.faults)}"
    return (row.size, row.metal, f"{down(row.carries_a)} A", PLACES[row.governs], f"{down(row.largest_breaker_a)} A", share_up(row.drop_share), said)  # fmt: skip


def test_form(matter: Matter) -> Section:
    """The form to be filled in by hand."""
    return Section("Test form", tuple(_form(form_in(matter), matter.style)))


def form_in(matter: Matter) -> Form:
    """The form of the owner's array; hour and light are not known when it is printed."""
    return matter.once("test form", lambda: _form_of(matter))


def _form_of(matter: Matter) -> Form:
    file: Homestead = matter.owners.homestead
    controller = next(one for one in file.household.controller if one.name == file.array.controller)
    return form_of(file.place, file.array, controller, matter.answer.wiring.drop_share)


def _form(form: Form, style: Style) -> Iterator[Block]:
    yield caution(KILLS)
    yield say(f"{len(form.strings)} string{'' if len(form.strings) == 1 else 's'} of {form.in_series}. Stop where one does not pass.")  # fmt: skip
    yield blank_lines(["Date, hour, by whom", "Glass dry, wet, dirty; light on it, W/m²; cells"])
    yield boxes(
        {
            "words": f"{nth}. {step.act}: {step.do}",
            "more": f"Passes: {step.passes}. Asked by: {step.source}.",
            "caution": step.caution,
            "blanks": [f"string {letter}{', ' + step.unit if step.unit else ''}" for letter in form.strings] if step.each_string else [step.unit] if step.unit else [],
        }
        for nth, step in enumerate(form.steps, start=1)
    )  # fmt: skip
    yield head("One string in light and warmth: open volts | working watts")
    heads = ("cells", *(f"{light:.0f} W/m²" for light in LIGHTS_W_M2))
    rows = [(in_style(row.cell_c, "C", style), *(f"{volts:.0f} V | {watts:.0f} W" for volts, watts in zip(row.open_v, row.watts, strict=True))) for row in form.grid]  # fmt: skip
    yield table(heads, rows, ("auto", *("1fr",) * len(LIGHTS_W_M2)), "r" * len(heads))
    yield head("Short-circuit amperes")
    rows = [(in_style(row.cell_c, "C", style), *(f"{amps:.1f} A" for amps in row.short_a)) for row in (form.grid[0], form.grid[len(form.grid) // 2], form.grid[-1])]  # fmt: skip
    yield table(heads, rows, ("auto", *("1fr",) * len(LIGHTS_W_M2)), "r" * len(heads))
    yield small("Passes: volts within about 5 %, amperes about 10 %, watts about 15 % for a new, clean string and good hand meters.")  # fmt: skip
    yield head(f"From the reading to the record low of {in_style(form.record_low_c, 'C', style)}")
    yield say("Cold volts = open volts read × factor of the light × factor of the cells.")
    yield table(("light, W/m²", *(f"{light:.0f}" for light, _ in form.light_factors)), [("factor", *(number(factor, 3) for _, factor in form.light_factors))], ("auto", *("1fr",) * len(form.light_factors)))  # fmt: skip
    yield table(("cells", *(in_style(cell, "C", style) for cell, _ in form.cold_factors)), [("factor", *(number(factor, 3) for _, factor in form.cold_factors))], ("auto", *("1fr",) * len(form.cold_factors)))  # fmt: skip
    yield say(
        f"The sums took the string for {form.cold_v:.0f} V there, {form.cold_with_margin_v:.0f} V with margin; the controller bears {form.limit_v:g} V. What you find, and 3 % or 5 V more, "
        f"must stay under {form.limit_v:g} V."
    )
