"""All cards of one mount, in the order of work."""

from __future__ import annotations

from dataclasses import replace

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
