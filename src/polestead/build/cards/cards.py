"""All cards of one mount, in the order of work."""

from __future__ import annotations

from polestead.build.cards.after import pole_side_card, stuck_card
from polestead.build.cards.card import Card
from polestead.build.cards.electric import tests_card, travel_card, wire_card
from polestead.build.cards.ground import (
    aim_card,
    hole_card,
    locate_card,
    pour_card,
    stake_card,
    trench_card,
)
from polestead.build.cards.known import Known
from polestead.build.cards.steel import coat_card, lift_card, load_card, shop_card, weld_card

MAKERS = (
    locate_card, stake_card, trench_card, hole_card, aim_card, pour_card, shop_card, weld_card, coat_card, lift_card,
    load_card, wire_card, tests_card, travel_card, pole_side_card, stuck_card,
)  # fmt: skip


def cards_of(known: Known) -> tuple[Card, ...]:
    """A card for each act, and the two that stay at the pole.

    Args:
        known: The mount worked out.
    """
    return tuple(make(known) for make in MAKERS)
