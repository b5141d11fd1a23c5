"""A build card as a page: words only, the typesetter lays it."""

from __future__ import annotations

from typing import Any

from polestead.build.cards.card import Card
from polestead.sheets.book.blocks import Section, raised
from polestead.sheets.book.matter import Matter, figure_words


def card_pages(matter: Matter) -> tuple[Section, ...]:
    """One section a card, in their order."""
    count = len(matter.cards)
    return tuple(
        Section(card.title, (), "card", _card(matter, card, nth, count))
        for nth, card in enumerate(matter.cards, start=1)
    )


def _card(matter: Matter, card: Card, nth: int, count: int) -> dict[str, Any]:
    made = matter.drawn(card.sketch) if card.sketch else None
    gate = card.gate
    return {
        "place": f"act {nth} of {count}",
        "lines": _lines(card),
        "missing": [f"This card needs: {', '.join(card.missing)}."] if card.missing else [],
        "figures": [{"figure": figure_words(one, matter.style), "words": raised(one.words)} for one in card.figures],
        "as_built": [one.words for one in card.as_built],
        "steps": [{"words": raised(step.words), "caution": raised(step.caution)} for step in card.steps],
        "gate": None if gate is None else {"words": gate.words, "sign": gate.sign},
        "gate_after": -1 if card.gate_after is None else card.gate_after,
        "notes": [raised(words) for words in card.notes],
        "svg": "" if made is None else made.svg,
        "alt": "" if made is None else made.words,
    }  # fmt: skip


def _lines(card: Card) -> list[str]:
    tools = ", ".join(card.tools)
    said = [f"{card.who}. {tools[0].upper()}{tools[1:]}." if tools else f"{card.who}."]
    if card.hire:
        said.append(f"Hire: {card.hire}.")
    if card.needs:
        said.append(f"After: {', '.join(card.needs)}.")
    return said
