"""Ticks set and taken back one by one, what holds a tick back, and how far each card is."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from typing import Literal

from polestead.base.problem import Problem, Wrong
from polestead.build.cards.card import Card
from polestead.daybook.ticks import (
    GATE,
    BuiltTick,
    Cards,
    GateTick,
    Ticks,
    needs_of,
    plain,
    read_what_fits,
)

Stage = Literal["done", "now", "waits", "later", "stays"]


@dataclass(frozen=True, slots=True)
class Standing:
    """How far a card is.

    Attributes:
        stage: ``waits``: for a gate; ``later``: for another act; ``stays``: it hangs at the pole, and is gone through afresh each time.
        done: Steps ticked.
        of: Steps there are.
        gate: The gate it waits for.
        after: Titles of the acts that come first and are not done.
    """

    stage: Stage
    done: int
    of: int
    gate: str = ""
    after: tuple[str, ...] = ()


def steps_of(ticks: Ticks, act: str) -> frozenset[int]:
    """Steps ticked on a card."""
    return frozenset(step for name, steps in ticks.steps if name == act for step in steps)


def gate_filled(ticks: Ticks, name: str) -> GateTick | None:
    """The gate as filled, None where it is open to nobody yet."""
    return next((one for one in ticks.gates if one.name == name), None)


def held_back(ticks: Ticks, cards: Cards, act: str, step: int) -> str:
    """The gate that lets this step not be ticked; empty: none does.

    Example:
        >>> cards = Cards({"aim": 6, "pour": 7}, {"footing": ("aim", 6)}, {}, {"pour": ("footing",)})
        >>> held_back(Ticks(), cards, "pour", 1), held_back(Ticks(), cards, "aim", 6)
        ('footing', '')
    """
    own = [name for name, (at, after) in cards.gates.items() if at == act and step > after]
    return _first_open(ticks, (*_wanted(cards, act), *own))


def gate_held_back(ticks: Ticks, cards: Cards, name: str) -> str:
    """The gate that stands before this one and is not filled; empty: none.

    Example:
        >>> cards = Cards({"aim": 6, "pour": 7}, {"footing": ("aim", 6), "bare steel": ("pour", 7)}, {}, {"pour": ("footing",)})
        >>> gate_held_back(Ticks(), cards, "bare steel"), gate_held_back(Ticks(), cards, "footing")
        ('footing', '')
    """
    return _first_open(ticks, _wanted(cards, cards.gates[name][0]))


def _wanted(cards: Cards, act: str) -> tuple[str, ...]:
    return tuple(name for name in cards.waits.get(act, ()) if name in cards.gates)


def _first_open(ticks: Ticks, names: Sequence[str]) -> str:
    return next((name for name in names if gate_filled(ticks, name) is None), "")


def ticked(ticks: Ticks, cards: Cards, act: str, step: int, *, done: bool) -> Ticks:
    """One step ticked, or its tick taken back.

    Args:
        ticks: As they are.
        cards: What can be ticked.
        act: Of the card.
        step: Counted from 1.
        done: Ticked, or taken back.

    Raises:
        Wrong: No such step, or it stands behind a gate that is not filled.
    """
    if not 1 <= step <= cards.steps.get(act, 0) or step in cards.rules.get(act, ()):
        raise Wrong([Problem("ticks", act, str(step), "a step of a card", "Press a box of the card.")])  # fmt: skip
    gate = held_back(ticks, cards, act, step) if done else ""
    if gate:
        allowed = f"a tick once the gate {gate} is filled"
        raise Wrong([Problem("ticks", act, f"step {step}", allowed, "Fill the gate first: name and day, or why it is not needed.")])  # fmt: skip
    now = steps_of(ticks, act)
    return _with_steps(ticks, cards, act, now | {step} if done else now - {step})


def _with_steps(ticks: Ticks, cards: Cards, act: str, steps: frozenset[int]) -> Ticks:
    by_act = {name: tuple(done) for name, done in ticks.steps} | {act: tuple(sorted(steps))}
    return replace(ticks, steps=tuple((name, by_act[name]) for name in cards.steps if by_act.get(name)))  # fmt: skip


def gate_of(name: str, by: str, on: str, why: str) -> GateTick:
    """A gate as it is filled in; what would break the line is smoothed.

    Args:
        name: Of the gate.
        by: Who signed.
        on: The day, as written.
        why: Why it is not needed; then name and day do not count.

    Raises:
        Wrong: Neither is there.

    Example:
        >>> gate_of("footing", "R. Jensen", "12 Jun", ""), gate_of("footing", "", "", "nobody asks for one, says the county").why
        (GateTick(name='footing', on='12 Jun', by='R.Jensen', why=''), 'nobody asks for one says the county')
    """
    by, on, why = (" ".join(one.replace(",", " ").replace(";", " ").split()) for one in (by, on, why))  # fmt: skip
    if why:
        return GateTick(name, why=why)
    if not by or not on:
        given = " and ".join(word for word, one in (("no name", by), ("no day", on)) if not one)
        raise Wrong([Problem("ticks", f"gate {name}", given, "a name and a day, or why it is not needed", "Fill both in, or say why it is not needed here.")])  # fmt: skip
    return GateTick(name, on, by.replace(". ", ".").replace(" ", "."))


def filled(ticks: Ticks, cards: Cards, gate: GateTick) -> Ticks:
    """A gate filled in its turn.

    Args:
        ticks: As they are.
        cards: What can be ticked.
        gate: As it is filled in.

    Raises:
        Wrong: Another gate stands before it and is not filled.
    """
    before = gate_held_back(ticks, cards, gate.name)
    if before:
        raise Wrong([Problem("ticks", "gate", f"gate {gate.name}", f"it once the gate {before} is filled", f"Fill the gate {before} first: name and day, or why it is not needed.")])  # fmt: skip
    return with_gate(ticks, gate)


def with_gate(ticks: Ticks, gate: GateTick) -> Ticks:
    """A gate filled."""
    others = tuple(one for one in ticks.gates if one.name != gate.name)
    return replace(ticks, gates=(*others, gate))


def gate_gone(ticks: Ticks, cards: Cards, name: str) -> Ticks:
    """A gate taken back takes back what stands behind it, on its own card and on those that wait for it, their gates too."""
    act, after = cards.gates.get(name, ("", 0))
    gone = {name, *(one for one, (at, _) in cards.gates.items() if name in cards.waits.get(at, ()))}
    left = replace(ticks, gates=tuple(one for one in ticks.gates if one.name not in gone))
    left = _with_steps(left, cards, act, frozenset(one for one in steps_of(left, act) if one <= after)) if act else left  # fmt: skip
    for waiting in (one for one, gates in cards.waits.items() if name in gates):
        left = _with_steps(left, cards, waiting, frozenset())
    return left


def together(one: Ticks, other: Ticks, cards: Cards) -> Ticks:
    """What is in either; where both have a gate, a figure or a pour, the other's counts."""
    found = one
    for act, steps in other.steps:
        found = _with_steps(found, cards, act, steps_of(found, act) | frozenset(steps))
    for gate in other.gates:
        found = with_gate(found, gate)
    built: dict[tuple[str, str], BuiltTick] = {(each.act, each.key): each for each in (*one.built, *other.built)}  # fmt: skip
    return replace(found, built=tuple(built.values()), poured=other.poured or one.poured)


def line_of(ticks: Ticks, cards: Cards) -> str:
    """The line to keep: it reads back as the same ticks, those set too early in an older line among them; the pour is kept beside it.

    Raises:
        Wrong: It does not.
    """
    ticks = replace(ticks, poured=None)
    line = plain(ticks)
    if read_what_fits(line, cards, date.max)[0] != ticks:
        raise Wrong([Problem("ticks", "the line", line[:60], "words that read back as they were written", "Write it plainer.")])  # fmt: skip
    return line


def standings(deck: Sequence[Card], ticks: Ticks) -> Mapping[str, Standing]:
    """How far each card is.

    Args:
        deck: The cards, in order.
        ticks: What is done.
    """
    titles = {card.act: card.title for card in deck}
    done = {card.act for card in deck if _all_done(card, ticks)}
    return {card.act: _standing(card, needs_of(card, deck), ticks, titles, done) for card in deck}


def _all_done(card: Card, ticks: Ticks) -> bool:
    signed = card.gate is None or gate_filled(ticks, card.gate.name) is not None
    return signed and len(steps_of(ticks, card.act)) >= sum(not step.rule for step in card.steps)


def _standing(
    card: Card, needs: Sequence[str], ticks: Ticks, titles: Mapping[str, str], done: set[str]
) -> Standing:
    steps = steps_of(ticks, card.act)
    count, of = len(steps), len(card.steps)
    if card.stances:
        return Standing("stays", 0, of)
    if card.act in done:
        return Standing("done", count, of)
    gates = [need.removeprefix(GATE) for need in needs if need.startswith(GATE)]
    shut = next((name for name in gates if gate_filled(ticks, name) is None), "")
    after = tuple(titles[need] for need in needs if need in titles and need not in done)
    if after:
        return Standing("later", count, of, shut, after)
    if shut:
        return Standing("waits", count, of, shut)
    own = card.gate
    if own is not None and card.gate_after is not None and gate_filled(ticks, own.name) is None and steps >= set(range(1, card.gate_after + 2)):  # fmt: skip
        return Standing("waits", count, of, own.name)
    return Standing("now", count, of)
