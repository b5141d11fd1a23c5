"""All the leaves of a demo against four seconds, by the clock on the wall, after the answer."""

from __future__ import annotations

from datetime import date
from time import perf_counter

from polestead.answer.answer import answer_of
from polestead.answer.cards import calendar_only, cards_only
from polestead.answer.drawables import drawables_of
from polestead.homestead.demos import demo_path
from polestead.homestead.read import read_homestead
from polestead.sheets.book.book import matter_of
from polestead.sheets.named import ALL, PHONE
from polestead.sheets.shelf import made, pressed

LEAVES_S = 4.0


def run() -> list[tuple[str, float, float]]:
    """(name, ratio, wanted)."""
    owners = read_homestead(demo_path("hollow-spruce"))
    answer = answer_of(owners, 10)
    begun = perf_counter()  # once: the typesetter keeps what it has laid
    drawn = drawables_of(owners, answer.stand, "feet")
    cards = cards_only(owners, stand=answer.stand, style="feet")
    dates = calendar_only(owners, date(2026, 5, 4))
    matter = matter_of(owners, answer, "feet", "letter", None, cards, drawn, dates)
    pressed(made((*ALL, PHONE), matter, drawn), lambda *_: None)
    return [("four seconds over all the leaves of Hollow Spruce", LEAVES_S / (perf_counter() - begun), 1.0)]  # fmt: skip
