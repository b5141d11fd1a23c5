"""Every working of an answer by its name, and those whose name holds the owner's words."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from difflib import get_close_matches

from polestead.answer.answer import Answer
from polestead.answer.instead import Instead
from polestead.answer.wires import Wires
from polestead.answer.wires_run import RunChoices
from polestead.base.check import Check
from polestead.base.problem import Problem, Wrong
from polestead.base.show import Style
from polestead.base.working import Working
from polestead.build.result import BuildResult
from polestead.money.result import MoneyResult
from polestead.sheets.working import check_lines, working_lines
from polestead.stand.result import StandMore, StandResult
from polestead.wiring.layouts import Layouts
from polestead.wiring.result import WiringResult
from polestead.wiring.strings.voltage import HEAT_CHECK

Named = tuple[str, Check | Working]


def of_stand(stand: StandResult) -> Iterator[Named]:
    """Workings of the first answer: the headline, then every check."""
    yield "stands to", stand.first_gives_working
    for card in stand.states[1:]:
        yield f"stands to, {card.state}", card.working
    for check in (*stand.checks, *stand.geometry_checks):
        yield f"{check.part}, {check.name}", check


def of_more(more: StandMore) -> Iterator[Named]:
    """Workings of the half-built states."""
    for half in more.half_built:
        yield f"half built: {half.name}", half.working


def of_wires(wires: WiringResult) -> Iterator[Named]:
    """Workings of strings and run."""
    for check in wires.checks:
        yield f"{check.part}, {check.name}", check
    if wires.cord is not None:
        yield wires.cord.working.title, wires.cord.working
    yield "drop in the run", wires.drop_working
    for working in (*wires.guards.workings, *(() if wires.bank is None else wires.bank.workings)):
        yield working.title, working


def of_build(built: BuildResult) -> Iterator[Named]:
    """Workings of pour, trench, braces, lifts, holds and plates."""
    yield "concrete", built.concrete.working
    yield "trench", built.trench.working
    yield "braces of the pole", built.braces.working
    for lift in built.lifts:
        yield lift.working.title, lift.working
    for check in built.checks:
        yield f"{check.part}, {check.name}", check


def of_layouts(layouts: Layouts) -> Iterator[Named]:
    """Workings of each array as the file has it strung: its fuse, its neighbours, and for an old one its volts."""
    told = {HEAT_CHECK, *(check.name for check in layouts.chosen.checks if "cold voltage" in check.name)}  # fmt: skip
    every = (*layouts.new, *(one for old in layouts.old for one in old.layouts))
    for one in every:
        if not one.chosen:
            continue
        name = f"{one.array}, {one.in_series} x {one.in_parallel} on {one.controller}"
        yield f"{name}: fuse of a string", _titled(one.fuse.working, name)
        for check in one.checks:
            if check.part == "string" and not (one is layouts.chosen and check.name in told):
                working = _titled(check.working, name)
                yield f"{name}: {check.name}", replace(check, working=working)


def _titled(working: Working, name: str) -> Working:
    return replace(working, title=f"{working.title}: {name}")


def of_all_wires(wires: Wires) -> Iterator[Named]:
    """Workings of all the wires."""
    yield from of_wires(wires.wiring)
    yield from of_layouts(wires.layouts)
    yield from of_run(wires.over_years)
    if wires.tilt_drive is not None:
        for check in wires.tilt_drive.checks:
            yield f"{check.part}, {check.name}", check
        for working in wires.tilt_drive.workings:
            yield working.title, working


def of_run(over_years: RunChoices) -> Iterator[Named]:
    """Workings of the run over the year and of the wire it makes cheapest."""
    yield "worth of a lost watt-hour", over_years.year.working
    if over_years.economy.working is not None:
        yield "wire over the years", over_years.economy.working


def of_money(money: MoneyResult) -> Iterator[Named]:
    """Workings of the third answer."""
    yield "cost, saved in a year, winters until paid", money.working
    yield "ledger by part", money.ledger.working
    if money.build_or_buy is not None:
        yield "build against buy", money.build_or_buy.working
    yield "net present value, rate of return", money.banker.working


def of_instead(instead: tuple[Instead, ...]) -> Iterator[Named]:
    """Workings of what the money might do instead."""
    for one in instead:
        yield one.working.title, one.working


def of_answer(answer: Answer) -> Iterator[Named]:
    """Workings of all three answers."""
    yield from of_stand(answer.stand)
    yield from of_more(answer.more)
    yield "engine hours without the new array", answer.winter.without.working
    yield "engine hours with the new array", answer.winter.with_new.working
    if answer.winter.use_fit is not None:
        yield "house-use factor", answer.winter.use_fit.working
    yield from of_wires(answer.wiring)
    yield from of_build(answer.build)
    yield from of_money(answer.money)


def printed(workings: Iterator[Named], words: str, style: Style) -> str:
    """The workings whose name holds all the words, as ladders.

    Raises:
        Wrong: None does; names those there are.
    """
    every = tuple(workings)
    wanted = [word.strip(",:;") for word in words.lower().split()]
    found = [what for name, what in every if all(word in name.lower() for word in wanted)]
    if not found or not wanted:
        names = list(dict.fromkeys(name for name, _ in every))
        do = "Name one of these, or words of it."
        near = get_close_matches(
            words.lower(), [*names, *(name.partition(", ")[0] for name in names)], 1
        )
        said = f"The nearest is: {near[0]}. {do}" if near else do
        raise Wrong(
            [Problem("", "--working", words or "nothing", "\n".join(_by_part(names)), said)]
        )
    return "\n\n".join("\n".join(_lines(what, style)) for what in found)


def _by_part(names: list[str]) -> list[str]:
    """One line for each part, what is known of it behind a colon: a long list the eye can run down."""
    parts: dict[str, list[str]] = {}
    for name in names:
        part, comma, rest = name.partition(", ")
        whole = not comma or ":" in part
        parts.setdefault(name if whole else part, []).extend([] if whole else [rest])
    return [
        f"{part}: {'; '.join(rest)}" if len(rest) > 1 else ", ".join((part, *rest))
        for part, rest in parts.items()
    ]


def _lines(what: Check | Working, style: Style) -> Iterator[str]:
    if isinstance(what, Check):
        yield from check_lines(what, style)
    else:
        yield from working_lines(what, style)
