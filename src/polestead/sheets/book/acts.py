"""A build card as a page: its words, its sketch in several heights, its clock; the typesetter takes the tallest that fits."""

from __future__ import annotations

from typing import Any

from polestead.base.show import gust
from polestead.build.cards.card import Card
from polestead.sheets.book.blocks import Section, raised
from polestead.sheets.book.matter import Matter, figure_words, high_of, picture_of
from polestead.sheets.drawn.clock import cure_clock
from polestead.sheets.drawn.sketches.index import WIDE_PX, sketch
from polestead.sheets.svg import PAPER

PX_PER_PT = 96.0 / 72.0
CARD_PT = 14.0
SKETCH_PX = 392.0
HEIGHTS_PX = (484.0, 430.0, 380.0, 330.0, 280.0, 230.0)
CLOCK_PX = 660.0
MOST_MISSING = 150  # letters: two lines across the card


def card_pages(matter: Matter) -> tuple[Section, ...]:
    """One section a card, in their order; drawn once for all leaves they stand in."""
    return matter.once("card pages", lambda: tuple(Section(card.title, (), "card", _card(matter, card)) for card in matter.cards))  # fmt: skip


def place_words(matter: Matter, card: Card) -> str:
    """Which act of how many, and which of its cards where it has several."""
    acts = list(dict.fromkeys(one.act for one in matter.cards))
    part = "" if card.parts == 1 else f", card {card.part} of {card.parts}"
    return f"act {acts.index(card.act) + 1} of {len(acts)}{part}"


def _card(matter: Matter, card: Card) -> dict[str, Any]:
    gate = card.gate
    return {
        "place": place_words(matter, card),
        "lines": _lines(card),
        "missing": missing_words(card),
        "figures": [{"figure": figure_words(one, matter.style), "words": raised(one.words)} for one in card.figures],
        "stances": [list(row) for row in stance_rows(card, matter)],
        "as_built": [one.words for one in card.as_built],
        "steps": [{"words": raised(step.words), "caution": raised(step.caution), "rule": step.rule} for step in card.steps],
        "gate": None if gate is None else {"words": gate.words, "sign": gate.sign},
        "gate_after": -1 if card.gate_after is None else card.gate_after,
        "notes": [raised(words) for words in card.notes],
        "sketches": _sketches(matter, card),
        **_clock(matter, card),
    }  # fmt: skip


def _sketches(matter: Matter, card: Card) -> list[dict[str, Any]]:
    """The sketch in every height that may be wanted, the tallest first."""
    if matter.drawn_from is None or not card.sketch:
        return []
    most = WIDE_PX.get(card.sketch, HEIGHTS_PX[0])
    heights = (most, *(high for high in HEIGHTS_PX if high < most))
    made = (sketch(card.sketch, matter.drawn_from, matter.style, PAPER, SKETCH_PX, high, CARD_PT * PX_PER_PT) for high in heights)  # fmt: skip
    return [{"svg": svg, "alt": picture_of(svg).words, "high": high_of(svg) / PX_PER_PT} for svg in made]  # fmt: skip


def _clock(matter: Matter, card: Card) -> dict[str, Any]:
    if card.clock is None:
        return {"clock": None}
    made = picture_of(cure_clock(card.clock, matter.style, PAPER, CLOCK_PX, CARD_PT * PX_PER_PT))
    return {"clock": {"svg": made.svg, "alt": made.words}}


def missing_words(card: Card) -> list[str]:
    """What the file does not tell, in two lines at most; how many more there are."""
    if not card.missing:
        return []
    told = f"This card needs: {card.missing[0]}"
    for nth, one in enumerate(card.missing[1:], start=1):
        if len(told) + len(one) > MOST_MISSING:
            return [f"{told}{_then(told)}and {len(card.missing) - nth} more: polestead cards --act {card.act}."]  # fmt: skip
        told += f"{_then(told)}{one}"
    return [told if told.endswith((".", "?")) else f"{told}."]


def _then(told: str) -> str:
    """Between two wants."""
    return " " if told.endswith((".", "?")) else "; "


def stance_rows(card: Card, matter: Matter) -> tuple[tuple[str, str, str, str, str], ...]:
    """Stance, tilt, hole of the pin, what it stands to, what gives then."""
    return tuple(
        (line.name, f"{line.tilt_deg:g}°", "?" if line.hole is None else f"{line.hole}", gust(line.stands_to_m_s, matter.style), line.gives_first)
        for line in card.stances
    )  # fmt: skip


def _lines(card: Card) -> list[str]:
    tools = ", ".join(card.tools)
    said = [f"{card.who}. {tools[0].upper()}{tools[1:]}." if tools else f"{card.who}."]
    more = [f"Hire: {card.hire}."] if card.hire else []
    if card.needs:
        more.append(f"After: {', '.join(card.needs)}.")
    elif card.part > 1:
        more.append(f"Begun on card {card.part - 1}.")
    return [*said, " ".join(more)] if more else said
