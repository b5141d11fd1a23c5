"""The demos' own cards on paper: one page each, at their sizes, with a sketch of this act, in one set of units."""

from __future__ import annotations

import re
from dataclasses import replace
from functools import cache
from io import BytesIO

import pytest
from pypdf import PdfReader

from polestead.base.show import Style
from polestead.build.cards.card import Card
from polestead.homestead.demos import demo_names, demo_path
from polestead.homestead.read import read_homestead
from polestead.sheets.book.acts import HEIGHTS_PX, MOST_MISSING, missing_words
from polestead.sheets.book.book import leaf_pdf, matter_of
from polestead.sheets.book.matter import Matter, figure_words
from polestead.sheets.leaf import Paper
from tests.answers import deck, drawn, worked
from tests.sheets.pdf_lines import straight_lines_mm
from tests.sheets.pdf_text import pages_of

BOTH = [("feet", "letter"), ("feet", "a4"), ("metric", "letter"), ("metric", "a4")]


def matter(name: str, style: Style, paper: Paper) -> Matter:
    owners = read_homestead(demo_path(name))
    return matter_of(
        owners, worked(name), style, paper, None, deck(name, style), drawn(name, style)
    )


@cache
def leaf(name: str, style: Style, paper: Paper) -> bytes:
    return leaf_pdf("cards", matter(name, style, paper))


def squeezed(words: str) -> str:
    return re.sub(r"[\s\xad]", "", words)


@pytest.mark.parametrize("name", demo_names())
@pytest.mark.parametrize(("style", "paper"), BOTH)
def test_every_card_has_one_page_and_every_page_one_card(name, style, paper) -> None:
    told = pages_of(leaf(name, style, paper))[1:]  # the cautions stand in front
    cards = deck(name, style)
    assert len(told) == len(cards)
    for page, card in zip(told, cards, strict=True):
        whole = squeezed(page)
        assert squeezed(card.title) in whole
        for step in card.steps:
            assert (
                squeezed(step.words.replace("^2", "²").replace("^3", "³").replace("mm2", "mm²"))
                in whole
            )
            assert squeezed(step.caution) in whole
        for item in card.as_built:
            assert squeezed(item.words) in whole
        for figure in card.figures:
            assert squeezed(figure_words(figure, style)) in whole, figure
        assert ("ornotneededherebecause" in whole) == (card.gate is not None)


@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_a_warning_on_top_pushes_no_card_over_its_page(paper) -> None:
    whole = matter("hollow-spruce", "feet", paper)
    stand = replace(whole.answer.stand, verdict="stands only when laid flat")
    told = pages_of(leaf_pdf("cards", replace(whole, answer=replace(whole.answer, stand=stand))))
    assert len(told) == len(whole.cards) + 1
    assert all("THE SUMS SAY NO: it stands only when laid flat" in page for page in told)


@pytest.mark.parametrize(("name", "style", "paper"), [("hollow-spruce", "feet", "letter"), ("slieve-moss", "metric", "a4")])  # fmt: skip
def test_words_are_14_points_figures_24_boxes_8_millimetres_and_so_are_those_of_the_sketch(name, style, paper) -> None:  # fmt: skip
    pdf = leaf(name, style, paper)
    reader = PdfReader(BytesIO(pdf))
    for nth, (page, card) in enumerate(zip(reader.pages[1:], deck(name, style), strict=True), 1):
        sizes: list[tuple[str, float]] = []

        def look(text, cm, matrix, _font, size, into=sizes):
            scale = abs(matrix[0] * cm[0] - matrix[1] * cm[1] * 0.0) or 1.0
            if text.strip():
                into.append((text.strip(), abs(size) * scale))

        page.extract_text(visitor_text=look)
        foot = {"screening sums", "page", "build cards", "printed", "homestead"}
        own = [(word, size) for word, size in sizes if not any(one in word for one in foot)]
        small = [(word, round(size, 1)) for word, size in own if size < 13.9 and len(word) > 3]
        assert not [one for one in small if one[1] > 9.1 or one[0] in " ".join(s.words for s in card.steps)], (card.title, small)  # fmt: skip
        figures = squeezed("".join(word for word, size in own if size >= 23.9))
        for figure in card.figures:
            assert squeezed(figure_words(figure, style)) in figures, (card.title, figure)
        boxes = [abs(x2 - x1) for x1, y1, x2, y2 in straight_lines_mm(pdf, nth) if abs(y1 - y2) < 1e-3]  # fmt: skip
        assert boxes


def test_the_sketch_is_as_high_as_the_page_leaves_and_never_shrunk() -> None:
    # a sketch 392 px wide is 294 pt: its widest stroke on the page is no longer than that, and its letters are the card's 14 pt
    assert HEIGHTS_PX[0] == pytest.approx(483.0, abs=1.0)
    pdf = leaf("hollow-spruce", "feet", "letter")
    hole = next(nth for nth, card in enumerate(deck("hollow-spruce"), 1) if card.act == "hole")
    dims = PdfReader(BytesIO(pdf)).pages[hole]
    found: dict[str, float] = {}

    def look(text, cm, matrix, _font, size):
        for word in text.split():
            found[word] = max(found.get(word, 0.0), abs(size * matrix[0] * cm[0]))

    dims.extract_text(visitor_text=look)
    assert found["planks,"] == pytest.approx(14.0, abs=0.1)


def test_a_long_list_of_wants_is_cut_to_two_lines_and_says_so() -> None:
    card = next(card for card in deck("hollow-spruce") if card.missing)
    many = replace(card, missing=tuple(f"thing number {n} that the file ought to tell" for n in range(9)))  # fmt: skip
    (told,) = missing_words(many)
    assert len(told) <= MOST_MISSING + 60
    assert "more: polestead cards --act" in told
    assert missing_words(replace(card, missing=("How near?",))) == ["This card needs: How near?"]
    assert missing_words(replace(card, missing=())) == []


def _acts(cards: tuple[Card, ...]) -> list[str]:
    return list(dict.fromkeys(card.act for card in cards))


def test_a_card_says_which_it_is() -> None:
    cards = deck("cinder-mesa")
    told = pages_of(leaf("cinder-mesa", "feet", "letter"))[1:]
    for page, card in zip(told, cards, strict=True):
        assert f"act {_acts(cards).index(card.act) + 1} of 16" in page
        if card.parts > 1:
            assert f"card {card.part} of {card.parts}" in page
