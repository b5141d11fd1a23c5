"""The phone file's line of ticks read back: ``ticks: hole 1-4, gate footing 12 Jun RJ, poured 2026-06-15: 12 C; ?``."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date

from polestead.base.problem import Problem, Wrong
from polestead.build.cards.card import Card
from polestead.build.cards.cards import whole
from polestead.build.steps import ACTS, signed_before
from polestead.daybook.poured import Poured, pour_words, read_poured

LONGEST = 8000
GATE = "gate: "  # before the name of one among what a card needs


@dataclass(frozen=True, slots=True)
class Cards:
    """What can be ticked, from the cards of the house.

    Attributes:
        steps: Number of steps by act.
        gates: Act and step after which it stands, by the gate's name.
        built: Keys measured as built, by act.
        waits: Gates of other cards that an act waits for, those of the acts it needs among them.
        rules: Steps that are rules and have no box, by act; older phone files ticked them.
    """

    steps: Mapping[str, int]
    gates: Mapping[str, tuple[str, int]]
    built: Mapping[str, frozenset[str]]
    waits: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    rules: Mapping[str, frozenset[int]] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class GateTick:
    """A gate filled.

    Attributes:
        name: Of the gate.
        on: Day as written, empty where it was not needed.
        by: Initials of who signed.
        why: Why it was not needed, empty where it was signed.
    """

    name: str
    on: str = ""
    by: str = ""
    why: str = ""


@dataclass(frozen=True, slots=True)
class BuiltTick:
    """A figure measured as built.

    Attributes:
        act: Of the card.
        key: Of the homestead file.
        value: As written.
    """

    act: str
    key: str
    value: str


@dataclass(frozen=True, slots=True)
class Ticks:
    """A line of ticks as understood.

    Attributes:
        steps: Steps done by act, in the line's order.
        gates: Gates filled.
        built: Figures as built.
        poured: The pour and the days since, None where the line tells none.
        rules: Rules the line has as ticks (``pole-side 1-8``): not counted.
    """

    steps: tuple[tuple[str, tuple[int, ...]], ...] = ()
    gates: tuple[GateTick, ...] = ()
    built: tuple[BuiltTick, ...] = ()
    poured: Poured | None = None
    rules: tuple[str, ...] = field(default=(), compare=False)


def cards_of(cards: Sequence[Card]) -> Cards:
    """What can be ticked on the build cards.

    Args:
        cards: Of the house.
    """
    cards = whole(cards)
    return Cards(
        {card.act: len(card.steps) for card in cards},
        {card.gate.name: (card.act, card.gate_after + 1) for card in cards if card.gate is not None and card.gate_after is not None},
        {card.act: frozenset(one.key for one in card.as_built) for card in cards},
        {card.act: _waits(card, cards) for card in cards},
        {card.act: frozenset(nth for nth, step in enumerate(card.steps, start=1) if step.rule) for card in cards if any(step.rule for step in card.steps)},
    )  # fmt: skip


def _waits(card: Card, cards: Sequence[Card]) -> tuple[str, ...]:
    """Gates on other cards that stand before this one, in the order of work."""
    own = "" if card.gate is None else card.gate.name
    told = (need.removeprefix(GATE) for need in needs_of(card, cards) if need.startswith(GATE))
    there = {one.gate.name for one in cards if one.gate is not None}
    found = dict.fromkeys((*signed_before(card.act), *told))
    return tuple(name for name in found if name in there and name != own)


def needs_of(card: Card, cards: Sequence[Card]) -> tuple[str, ...]:
    """What comes before a card: acts that have one, and gates; an act without a card passes on what it needs itself.

    Args:
        card: The card.
        cards: All of the house.
    """
    there = {one.act for one in cards}
    found: list[str] = []
    for need in card.needs:
        if need in there or need.startswith(GATE):
            found.append(need)
        else:
            found += _passed_on(need, there)
    return tuple(dict.fromkeys(found))


def _passed_on(name: str, there: set[str]) -> list[str]:
    act = next((one for one in ACTS if one.name == name), None)
    if act is None:
        return []
    inner = [one for need in act.needs for one in ([need] if need in there else _passed_on(need, there))]  # fmt: skip
    return [*inner, *(GATE + gate for gate in act.behind)]


def read_ticks(text: str, cards: Cards, today: date) -> Ticks:
    """Read the line strictly.

    Args:
        text: As copied; ``ticks:`` in front may be left out.
        cards: What can be ticked.
        today: By the clock; no pour to come is taken.

    Raises:
        Wrong: With every part that cannot be, and its place in the line.

    Example:
        >>> cards = Cards({"hole": 5}, {"footing": ("hole", 4)}, {})
        >>> ticks = read_ticks("ticks: hole 1-4, gate footing 12 Jun RJ", cards, date(2026, 7, 1))
        >>> ticks.steps, ticks.gates[0].by
        ((('hole', (1, 2, 3, 4)),), 'RJ')
    """
    ticks, problems = read_what_fits(text, cards, today)
    if problems:
        raise Wrong(problems)
    return ticks


def read_what_fits(text: str, cards: Cards, today: date) -> tuple[Ticks, list[Problem]]:
    """Read what can be read, and say what cannot: a line kept earlier may be of cards that have changed since.

    Args:
        text: As copied or kept.
        cards: What can be ticked now.
        today: By the clock.

    Example:
        >>> ticks, problems = read_what_fits("hole 1-4, well 2", Cards({"hole": 5}, {}, {}), date(2026, 7, 1))
        >>> ticks.steps, problems[0].given
        ((('hole', (1, 2, 3, 4)),), 'well 2')
    """
    body = re.match(r"\s*(?:ticks:)?", text, re.IGNORECASE)
    start = 0 if body is None else body.end()
    rest = text[start:]
    if len(text) > LONGEST:
        return Ticks(), [_problem("the line", f"{len(text)} signs", f"up to {LONGEST}", "Is it one line of the phone file?")]  # fmt: skip
    problems: list[Problem] = []
    steps: list[tuple[str, tuple[int, ...]]] = []
    gates: list[GateTick] = []
    built: list[BuiltTick] = []
    pours: list[Poured] = []
    if rest.strip() == "none":
        return Ticks(), []
    at = start
    for nth, part in enumerate(rest.split(","), start=1):
        place = f"part {nth}, sign {at + len(part) - len(part.lstrip()) + 1}"
        at += len(part) + 1
        said = part.strip()
        try:
            if said.startswith("gate "):
                gates.append(_gate(said, cards))
            elif said.startswith("built "):
                built.append(_built(said, cards))
            elif said.startswith("poured "):
                pours.append(_poured(said, today))
            else:
                steps.append(_steps(said, cards))
        except Wrong as wrong:
            problems += [_problem(f"{place}, {one.key}", one.given, one.allowed, one.do) for one in wrong.problems]  # fmt: skip
        except ValueError as wrong:
            problems.append(_problem(place, said[:60] or "nothing", "as the phone file writes it: hole 1-4, gate footing 12 Jun RJ", str(wrong)))  # fmt: skip
    problems += _twice(steps, gates, built, pours)
    steps, rules = _without_rules(steps, cards)
    problems += _before_the_gate(steps, gates, cards) if not problems else []
    return Ticks(
        tuple(steps), tuple(gates), tuple(built), pours[-1] if pours else None, rules
    ), problems


def _without_rules(steps: Sequence[tuple[str, tuple[int, ...]]], cards: Cards) -> tuple[list[tuple[str, tuple[int, ...]]], tuple[str, ...]]:  # fmt: skip
    """The steps with a box, and the rules among them in words."""
    boxed, rules = [], []
    for act, done in steps:
        ruled = cards.rules.get(act, frozenset())
        left = tuple(step for step in done if step not in ruled)
        boxed += [(act, left)] if left else []
        rules += [f"{act} {_runs([step for step in done if step in ruled])}"] if len(left) < len(done) else []  # fmt: skip
    return boxed, tuple(rules)


def plain(ticks: Ticks) -> str:
    """The line as the phone file writes it, without ``ticks:`` in front.

    Args:
        ticks: As read.

    Example:
        >>> plain(Ticks((("hole", (1, 2, 3, 5)),), (GateTick("footing", "12 Jun", "RJ"),)))
        'hole 1-3 5, gate footing 12 Jun RJ'
    """
    parts = [f"{act} {_runs(steps)}" for act, steps in ticks.steps]
    parts += [f"gate {one.name} {f'not needed: {one.why}' if one.why else f'{one.on} {one.by}'}" for one in ticks.gates]  # fmt: skip
    parts += [f"built {one.act}/{one.key} = {one.value}" for one in ticks.built]
    parts += [pour_words(ticks.poured)] if ticks.poured is not None else []
    return ", ".join(parts) or "none"


def _runs(steps: Sequence[int]) -> str:
    runs: list[list[int]] = []
    for step in steps:
        if runs and runs[-1][1] == step - 1:
            runs[-1][1] = step
        else:
            runs.append([step, step])
    return " ".join(str(first) if first == last else f"{first}-{last}" for first, last in runs)


def _steps(said: str, cards: Cards) -> tuple[str, tuple[int, ...]]:
    act = max((one for one in cards.steps if said.startswith(f"{one} ")), key=len, default=None)
    if act is None:
        message = f"No card of that name: {', '.join(cards.steps)}."
        raise ValueError(message)
    done: list[int] = []
    for run in said[len(act) :].split():
        found = re.fullmatch(r"(\d{1,3})(?:-(\d{1,3}))?", run)
        if found is None:
            message = f"{run} is no step: write 3, or 1-4."
            raise ValueError(message)
        first, last = int(found[1]), int(found[2] or found[1])
        if not (1 <= first <= last <= cards.steps[act]) or (found[2] and first == last):
            message = f"{run}: the card {act} has steps 1 to {cards.steps[act]}."
            raise ValueError(message)
        if done and first <= done[-1] + 1:
            message = f"{run} is not in order behind {done[-1]}."
            raise ValueError(message)
        done += range(first, last + 1)
    if not done:
        message = f"No step behind {act}."
        raise ValueError(message)
    return act, tuple(done)


def _gate(said: str, cards: Cards) -> GateTick:
    name = max((one for one in cards.gates if said.startswith(f"gate {one} ")), key=len, default=None)  # fmt: skip
    if name is None:
        message = f"No gate of that name: {', '.join(cards.gates)}."
        raise ValueError(message)
    rest = said[len(f"gate {name} ") :].strip()
    if rest.startswith("not needed: "):
        return GateTick(name, why=rest.removeprefix("not needed: "))
    on, _, by = rest.rpartition(" ")
    if not on or not by:
        message = "A gate has a day and initials, or  not needed: why."
        raise ValueError(message)
    return GateTick(name, on.strip(), by)


def _built(said: str, cards: Cards) -> BuiltTick:
    found = re.fullmatch(r"built (.+?)/(\S+) = (.+)", said)
    if found is None or found[2] not in cards.built.get(found[1], ()):
        message = "No such figure as built: it is written  built hole/footing.depth = 8 ft 2 in."
        raise ValueError(message)
    return BuiltTick(found[1], found[2], found[3].strip())


def _poured(said: str, today: date) -> Poured:
    on, _, days = said.removeprefix("poured ").partition(":")
    return read_poured(on, days, today)


def _twice(steps: Sequence[tuple[str, tuple[int, ...]]], gates: Sequence[GateTick], built: Sequence[BuiltTick], pours: Sequence[Poured]) -> list[Problem]:  # fmt: skip
    names = [act for act, _ in steps] + [f"gate {one.name}" for one in gates] + [f"{one.act}/{one.key}" for one in built] + ["poured" for _ in pours]  # fmt: skip
    return [_problem("the line", f"{name} twice", "each once", "Copy the line again.") for name in sorted({one for one in names if names.count(one) > 1})]  # fmt: skip


def _before_the_gate(steps: Sequence[tuple[str, tuple[int, ...]]], gates: Sequence[GateTick], cards: Cards) -> list[Problem]:  # fmt: skip
    """Steps and gates behind a gate that is not filled: the phone file takes no such tick."""
    filled = {one.name for one in gates}
    done = dict(steps)
    said = [(f"{act} {max(nths)}", act) for act, nths in steps]
    said += [(f"gate {one.name}", cards.gates[one.name][0]) for one in gates]
    early = [
        _problem("the line", what, f"it once the gate {name} is filled", "Nothing behind a gate is ticked before it is signed.")
        for what, act in said
        if (name := next((one for one in cards.waits.get(act, ()) if one not in filled), ""))
    ]  # fmt: skip
    return early + [
        _problem("the line", f"{act} {max(done[act])}", f"steps up to {after}, or the gate {name} filled", "Nothing behind a gate is ticked before it is signed.")
        for name, (act, after) in cards.gates.items()
        if name not in filled and act in done and max(done[act]) > after
    ]  # fmt: skip


def _problem(key: str, given: str, allowed: str, do: str) -> Problem:
    return Problem("ticks", key, given, allowed, do)
