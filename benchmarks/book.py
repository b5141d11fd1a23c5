"""All the leaves of a demo against four seconds, by this process's own clock, after the answer."""

from __future__ import annotations

from datetime import date
from time import process_time

from polestead.answer.answer import answer_of
from polestead.answer.cards import calendar_only, cards_only
from polestead.answer.drawables import drawables_of
from polestead.homestead.demos import demo_path
from polestead.homestead.read import read_homestead
from polestead.sheets.book.book import matter_of
from polestead.sheets.named import ALL, PHONE
from polestead.sheets.shelf import made

LEAVES_S = 4.0


def run() -> list[tuple[str, float, float]]:
    """(name, ratio, wanted)."""
    owners = read_homestead(demo_path("hollow-spruce"))
    answer = answer_of(owners, 10)
    begun = process_time()  # once: the typesetter keeps what it has laid
    drawn = drawables_of(owners, answer.stand, "feet")
    cards = cards_only(owners, stand=answer.stand, style="feet")
    dates = calendar_only(owners, date(2026, 5, 4))
    matter = matter_of(owners, answer, "feet", "letter", None, cards, drawn, dates)
    for _, _, make in made((*ALL, PHONE), matter, drawn):
        make()
    return [("four seconds over all the leaves of Hollow Spruce", LEAVES_S / (process_time() - begun), 1.0)]  # fmt: skip
