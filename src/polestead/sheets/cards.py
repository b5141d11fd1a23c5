"""A build card as text for the terminal."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date

from polestead.base.show import Style, gust, in_style, number, set_length
from polestead.build.cards.card import Card, Figure
from polestead.sheets.book.matter import said_alike
from polestead.sheets.lines import WIDTH, heading, say

PLAIN = {"deg": "deg", "A": "A", "Mohm": "Mohm"}


def figure_text(figure: Figure, style: Style) -> str:
    """A figure as shown: gusts rounded down (conventions §13), lengths as a tape reads, counts bare.

    Args:
        figure: The figure.
        style: In whose units.

    Example:
        >>> figure_text(Figure(38.0, "m/s", "stands to"), "feet"), figure_text(Figure(2.0, "", "bars"), "metric")
        ('85 mph', '2')
    """
    if figure.text:
        return figure.text
    alike = said_alike(figure, style)
    if alike is not None:
        return alike
    if figure.unit == "m":
        return set_length(figure.value, style, figure.way)
    if figure.unit == "":
        return number(figure.value)
    if figure.unit in PLAIN:
        shown = number(figure.value, 1 if abs(figure.value) < 1000.0 else 0)
        return f"{shown.removesuffix('.0')} {PLAIN[figure.unit]}"
    return in_style(figure.value, figure.unit, style)


def card_lines(card: Card, style: Style) -> Iterator[str]:
    """A card, 78 columns wide.

    Args:
        card: The card.
        style: In whose units its figures stand; sentences keep the file's own.
    """
    yield heading(card.title.upper())
    tools = f" At hand: {', '.join(card.tools)}." if card.tools else ""
    yield say(f"{card.who}.{tools}" + (f" Hire: {card.hire}." if card.hire else ""))
    if card.needs:
        yield say(f"After: {', '.join(card.needs)}.")
    yield ""
    for figure in card.figures:
        yield say(f"{figure_text(figure, style):>16}  {figure.words}", "", " " * 18)
    for line in card.stances:
        hole = "no hole known" if line.hole is None else f"hole {line.hole}"
        yield say(f"{line.name:>16}  {line.tilt_deg:g} deg, {hole}; stands to {gust(line.stands_to_m_s, style)}, then: {line.gives_first}", "", " " * 18)  # fmt: skip
    yield ""
    for nth, step in enumerate(card.steps):
        yield say(step.words, "   -  " if step.rule else "  [ ] ", "      ")
        if step.caution:
            yield say(step.caution, "    | ", "    | ")
        if card.gate is not None and nth == card.gate_after:
            yield from _gate(card.gate.words, card.gate.sign)
    for item in card.as_built:
        yield say(f"Measured as built: {item.words}: ________  -> {item.key}", "  ", "      ")
    for word in card.missing:
        yield say(f"This card needs: {word}", "  ~ ", "    ")
    for note in card.notes:
        yield say(note, "  - ", "    ")


def _gate(words: str, sign: str) -> Iterator[str]:
    yield f"  H{'=' * (WIDTH - 4)}H"
    yield say(words, "    ")
    yield say(f"Signed ____________ on ________ ({sign})", "    ")
    yield say("or not needed here because ________________", "    ")
    yield f"  H{'=' * (WIDTH - 4)}H"


def cards_text(name: str, cards: Sequence[Card], style: Style, on: date | None) -> str:
    """All cards, under one heading.

    Args:
        name: Of the homestead.
        cards: In order.
        style: In whose units.
        on: The day of the aim, None without one.
    """
    day = "" if on is None else f"; aim for {on:%d %b %Y}"
    top = [f"{name}: build cards{day}", say("Screening sums, not a stamped design: local code, a licensed engineer and an electrician decide.", "")]  # fmt: skip
    return "\n".join([*top, *(line for card in cards for line in card_lines(card, style))])
