"""The leaves for those who look at one thing only: engineer, inspector."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from polestead.base.check import Check, share
from polestead.base.row import Row
from polestead.base.show import Style, compared, default_words, in_style, length, significant
from polestead.base.working import Step, Working
from polestead.mount.geometry import lowest_edge_m, top_height_m
from polestead.sheets.book.blocks import (  # fmt: skip
    Block,
    Section,
    blank_lines,
    caution,
    gate,
    head,
    ladder,
    listed,
    say,
    small,
    table,
)
from polestead.sheets.book.matter import Matter
from polestead.sheets.sentences import three_answers, use_of
from polestead.sheets.working import in_trade
from polestead.sheets.workings import Named, of_answer

STANDING = {"planned": "owner", "built": "measured as built", "said": "told by", "assumed": "ASSUMED", "default": "tool's default"}  # fmt: skip


NUMBERED = " Clauses and tables of the NEC are numbered as in its 2020 edition (from memory): ask which one counts."


def engineer(matter: Matter) -> tuple[Section, ...]:
    """Basis and summary, inputs, every check with its whole working, sources."""
    return (_basis(matter), _inputs(matter), *_workings(matter), _sources(matter))


def _basis(matter: Matter) -> Section:
    answer = matter.answer
    said = three_answers(answer, matter.style)[0]
    rows = [
        (check.part, check.name, _of(check, matter.style), use_of(check.use), str(check.source))
        for check in _checks(matter)
    ]
    blocks: list[Block] = [
        say(
            f"Basis: {answer.basis}. Wind, snow, steel and soil by the rules named beside each figure; the house worked hour by hour over {answer.years} years, seed {answer.seed}."
            + (NUMBERED if matter.owners.homestead.place.wired_by == "NEC" else "")
        ),
        say(" ".join((said.question, said.answer, *said.beside))),
        blank_lines(["Looked at by", "License", "Accepted / rejected, on which day", "Remarks"]),
        head("It relies on"),
        listed(answer.stand.relied_on),
        head("Scope"),
        listed(answer.stand.notes),
        *(matter.shown("side")),
        head("Every check, worst first in each room"),
        small("A use is rounded up to the whole hundredth. Where a clause adds several shares (bending, push, shear and twist), the bending alone stands under demand of capacity, marked +, and the use is the whole sum, worked in its ladder."),
        table(("part", "what is checked", "demand of capacity", "use", "by"), rows, ("1.2fr", "1.6fr", "1.2fr", "1fr", "1.4fr")),
    ]  # fmt: skip
    return Section("Basis and every check", tuple(blocks))


def _checks(matter: Matter) -> Iterator[Check]:
    stand, built = matter.answer.stand, matter.answer.build
    for room in (stand.checks, stand.geometry_checks, matter.answer.wiring.checks, built.checks):
        yield from sorted(room, key=lambda check: -check.use)


def _of(check: Check, style: Style) -> str:
    demand, capacity = compared(check.demand, check.capacity, check.unit, style)
    more = " +" if check.use > share(check.demand, check.capacity) + 0.005 else ""
    return f"{demand} of {capacity}{more}"


def _inputs(matter: Matter) -> Section:
    rows, style = matter.answer.rows, matter.style
    open_rows = [row for row in rows if row.standing == "assumed"]
    blocks = [
        head("Assumed: nobody has confirmed these"),
        table(("input", "taken as", "why"), [(_key(row), f"~{row.written}", row.why) for row in open_rows], ("1.2fr", "1fr", "2fr"))
        if open_rows
        else say("None."),
        head("All inputs as the sums used them"),
        table(("input", "as written", "in SI", "who says so"), [(_key(row), row.mark + _written(row, style), _si(row), _who(row)) for row in rows], ("1.3fr", "1.1fr", "0.9fr", "1.6fr")),
    ]  # fmt: skip
    return Section("Inputs", tuple(blocks))


def _key(row: Row) -> str:
    """The key, with room to break the line at its dots and bars."""
    whole = f"{row.section}.{row.key}".strip(".")
    return whole.replace(".", ".\u200b").replace("_", "_\u200b")


def _written(row: Row, style: Style) -> str:
    """The owner's own words as he wrote them; the tool's in the leaf's units."""
    if row.standing != "default":
        return row.written
    return default_words(row.written, row.value, row.unit, style)


def _si(row: Row) -> str:
    """The figure the sums took; a dash where the words themselves are taken."""
    return "–" if isinstance(row.value, str) else f"{significant(row.value)} {row.unit}".strip()


def _who(row: Row) -> str:
    told = STANDING[row.standing]
    if row.standing == "said":
        told = f"told by {row.asked_of}"
    day = "" if row.on is None else f", {row.on.isoformat()}"
    planned = f"; planned {row.planned}" if row.planned else ""
    source = f" ({row.source})" if row.source and row.standing == "default" else ""
    return f"{told}{day}{planned}{source}"


def _workings(matter: Matter) -> Iterator[Section]:
    """The workings room by room, each room from a page of its own."""
    everything = tuple(of_answer(matter.answer))
    for title, wanted in _rooms(everything, matter):
        yield Section(
            title, tuple(block for named in wanted for block in ladder_block(named, matter.style))
        )


def _rooms(everything: tuple[Named, ...], matter: Matter) -> Iterator[tuple[str, list[Named]]]:
    wires = {id(check) for check in matter.answer.wiring.checks}
    stand = {id(check) for check in (*matter.answer.stand.checks, *matter.answer.stand.geometry_checks)}  # fmt: skip
    first = next(nth for nth, (_, what) in enumerate(everything) if id(what) in wires)
    last_stand = max(nth for nth, (_, what) in enumerate(everything) if id(what) in stand)
    yield "Workings: wind, snow, steel and soil", [*everything[: last_stand + 1]]
    yield "Workings: half built, house", [*everything[last_stand + 1 : first]]
    yield "Workings: wires, build, money", [*everything[first:]]


def ladder_block(named: Named, style: Style) -> Iterator[Block]:
    """A check or a working as its ladder."""
    name, what = named
    if isinstance(what, Check):
        yield head(f"{what.part}: {use_of(what.use)}")
        yield _ladder(what.working, style, f"{what.name}. Demand {_of(what, style)}; by {what.source}", what)  # fmt: skip
    else:
        yield head(f"{name[0].upper()}{name[1:]}")
        yield _ladder(what, style, "")


def _ladder(working: Working, style: Style, end: str, of: Check | None = None) -> Block:
    return ladder(
        working.title, (_rung(step, style, of) for step in working.steps), working.notes, end
    )


def _rung(step: Step, style: Style, of: Check | None) -> tuple[str, str, str]:
    value = f"{significant(step.value)} {step.unit}".strip()
    trade = in_trade(step, style, of)
    # both, since the numbers in the formula are SI; not in brackets, where one of two figures is left away
    beside = f" = {trade}" if style == "feet" and trade != value else ""
    told = "".join(f"{part} = " for part in (step.symbol, step.formula) if part)
    return step.word, f"{told}{value}{beside}", str(step.source)


def _sources(matter: Matter) -> Section:
    found = {
        str(step.source)
        for _, what in of_answer(matter.answer)
        for step in (what.working if isinstance(what, Check) else what).steps
    }
    found |= {str(check.source) for check in _checks(matter)}
    return Section(
        "Sources",
        (
            say(
                "Works and places named in the workings. “From memory” was not confirmed in a copy and wants a second look before anybody signs."
            ),
            listed(sorted(found)),
        ),
    )


def inspector(matter: Matter) -> Section:
    """Where it stands, how high, its footing, the sums in short."""
    return Section("For the inspector", tuple(_inspector(matter)))


def _inspector(matter: Matter) -> Iterator[Block]:
    answer, style = matter.answer, matter.style
    geometry, pier, place = answer.geometry, answer.pier, matter.owners.homestead.place
    yield say(answer.place.words.removesuffix(" Is that your place?"))
    for name in ("side", "front", "plan", "site"):
        yield from matter.shown(name)
    yield head("Heights and footing")
    tilts = np.linspace(geometry.least_tilt_deg, geometry.steepest_tilt_deg, 91)
    top = float(top_height_m(geometry, tilts).max())
    low = float(lowest_edge_m(geometry, tilts).min())
    limit = "no limit in the file: ask" if place.height_limit_m is None else f"limit {length(place.height_limit_m, style)}"  # fmt: skip
    rows = [
        ("hinge over the ground", length(geometry.hinge_height_m, style)),
        ("highest point over the travel", f"{length(top, style)}; {limit}"),
        ("lowest edge over the travel", length(low, style)),
        ("array", f"{length(geometry.width_m, style)} × {length(geometry.chord_m, style)}, {in_style(geometry.mass_kg, 'kg', style)} tip"),
        ("pole", next(row.mark + row.written for row in answer.rows if (row.section, row.key) == ("mount", "pole"))),
        ("pier", f"{length(pier.diameter_m, style)} across, {length(pier.depth_m, style)} deep"),
        *_facts(matter),
    ]  # fmt: skip
    yield table(("", ""), rows, ("1fr", "2fr"))
    yield from matter.shown("section")
    yield head("The sums in short: most used parts")
    checks = sorted(_checks(matter), key=lambda one: -one.use)[:14]
    yield table(("part", "what is checked", "use", "by"), [(one.part, one.name, use_of(one.use), str(one.source)) for one in checks], ("1.2fr", "1.6fr", "1fr", "1.4fr"))  # fmt: skip
    yield small("Every check with its whole working stands in the engineer's leaf.")
    yield head("Nothing is covered before it has been seen")
    for words in answer.build.steps:
        if words.startswith("GATE"):
            yield gate(words.partition(":")[2].strip().capitalize())
    yield caution(answer.cautions[0])


def _facts(matter: Matter) -> Iterator[tuple[str, str]]:
    """Facts of the place as the sums took them, with who says so."""
    wanted = ("wind_speed", "exposure", "ground_snow", "frost_depth", "soil", "frost_soil", "record_low")  # fmt: skip
    for row in matter.answer.rows:
        if row.section == "place" and row.key in wanted:
            yield row.key.replace("_", " "), f"{row.mark}{matter.written(row)} ({_who(row)})"
