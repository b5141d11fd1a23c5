"""All cards of one mount, in the order of work."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from itertools import groupby
from typing import TypeVar

from polestead.base.show import Style, in_one_unit
from polestead.build.cards.after import pole_side_cards, stuck_cards
from polestead.build.cards.card import Card
from polestead.build.cards.electric import tests_cards, travel_cards, wire_cards
from polestead.build.cards.ground import (
    aim_cards,
    hole_cards,
    locate_cards,
    pour_cards,
    stake_cards,
    trench_cards,
)
from polestead.build.cards.known import Known
from polestead.build.cards.steel import coat_cards, lift_cards, load_cards, shop_cards, weld_cards

T = TypeVar("T")

MAKERS = (
    locate_cards, stake_cards, trench_cards, hole_cards, aim_cards, pour_cards, shop_cards, weld_cards, coat_cards, lift_cards,
    load_cards, wire_cards, tests_cards, travel_cards, pole_side_cards, stuck_cards,
)  # fmt: skip


def cards_of(known: Known) -> tuple[Card, ...]:
    """Cards for each act, a long one on several, and those that stay at the pole.

    Args:
        known: The mount worked out.
    """
    style = known.given.style
    return tuple(_in_one_unit(card, style) for make in MAKERS for card in numbered(make(known)))


def numbered(cards: tuple[Card, ...]) -> tuple[Card, ...]:
    """Cards of one act with their place among them and the number of their first step.

    Args:
        cards: In order.
    """
    told, first = [], 1
    for part, card in enumerate(cards, start=1):
        told.append(replace(card, part=part, parts=len(cards), first=first))
        first += len(card.steps)
    return tuple(told)


def _in_one_unit(card: Card, style: Style) -> Card:
    """Figures a sentence gives both ways, in one of them."""

    def of(words: str) -> str:
        return in_one_unit(words, style)

    return replace(
        card,
        figures=tuple(replace(one, words=of(one.words), text=of(one.text)) for one in card.figures),
        steps=tuple(replace(one, words=of(one.words), caution=of(one.caution)) for one in card.steps),
        missing=tuple(map(of, card.missing)),
        notes=tuple(map(of, card.notes)),
    )  # fmt: skip


def whole(cards: Sequence[Card]) -> tuple[Card, ...]:
    """One card for each act, however many sheets of paper it takes: for a screen, and for what can be ticked.

    Args:
        cards: As ``cards_of`` gives them; those of one act stand together.
    """
    return tuple(_joined(list(parts)) for _, parts in groupby(cards, key=lambda card: card.act))


def _joined(parts: list[Card]) -> Card:
    if len(parts) == 1:
        return parts[0]
    with_gate = next((one for one in parts if one.gate is not None), None)
    after = None if with_gate is None or with_gate.gate_after is None else with_gate.first - 1 + with_gate.gate_after  # fmt: skip
    return replace(
        parts[0],
        title=parts[0].title.partition(":")[0],
        tools=_each(one.tools for one in parts),
        needs=_each(one.needs for one in parts),
        figures=_each(one.figures for one in parts),
        steps=tuple(step for one in parts for step in one.steps),
        gate=None if with_gate is None else with_gate.gate,
        gate_after=after,
        as_built=_each(one.as_built for one in parts),
        sketch=next((one.sketch for one in parts if one.sketch), ""),
        missing=_each(one.missing for one in parts),
        notes=_each(one.notes for one in parts),
        stances=_each(one.stances for one in parts),
        clock=next((one.clock for one in parts if one.clock is not None), None),
        part=1,
        parts=1,
        first=1,
    )


def _each(groups: Iterable[tuple[T, ...]]) -> tuple[T, ...]:
    """What several groups hold, each thing once, in order."""
    return tuple(dict.fromkeys(thing for group in groups for thing in group))
