"""The basis as text: what it is taken to say, and what to ask."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from polestead.sheets.text import heading, say
from polestead.wiring.basis import EDITIONS_TAKEN, Ask, Basis


def basis_lines(basis: Basis, asks: Iterable[Ask]) -> Iterator[str]:
    """The basis and its questions, 78 columns.

    Args:
        basis: Chosen in the file.
        asks: Where a local rule is known to differ.
    """
    yield heading(f"Basis of the wires: {basis.name}")
    for edition in basis.editions:
        yield say(f"{edition}.", "  ", "    ")
    yield say(
        f"Taken: {EDITIONS_TAKEN}. Another edition, or a local change of it, may say otherwise. What stands from memory was not read here: let it "
        "be looked up before it is built on."
    )
    for rule in basis.rules:
        yield say(f"{rule.topic}: {rule.says} ({rule.source}).", "  * ", "    ")
    yield from ask_lines(asks)


def ask_lines(asks: Iterable[Ask]) -> Iterator[str]:
    """Whom to ask what, with the trap beside it and a place for the answer."""
    yield heading("Ask, for local rules differ")
    country = None
    for nth, ask in enumerate(asks, start=1):
        if ask.country and ask.country != country:
            country = ask.country
            yield say(f"If the place lies in {country}:", "  ")
        yield say(f"{nth}. {ask.whom}: {ask.question}", "  ", "     ")
        yield say(f"Trap: {ask.trap} ({ask.source})", "     ", "     ")
        yield "     said: ______________________________________  on: __________"
