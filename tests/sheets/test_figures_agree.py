"""One thing has one figure: a card, its sketch, the terminal's card, the phone file and the drawings beside them."""

from __future__ import annotations

import re
from html import unescape

import pytest

from polestead.homestead.demos import demo_names, demo_path
from polestead.homestead.read import read_homestead
from polestead.mount.gauge import gauge_of
from polestead.sheets.book.matter import figure_words
from polestead.sheets.cards import figure_text
from polestead.sheets.drawn.index import drawing_named
from polestead.sheets.drawn.sketches.index import sketch
from polestead.sheets.svg import PAPER
from tests.answers import deck, drawn

FEET = re.compile(
    r"(?:(\d+)(?:\u2032-| ft ?))?(?:(\d+) )?(?:(\d+)/(\d+)|(\d+))(?:\u2033| in\b)|(\d+) ft\b"
)
METRIC = re.compile(r"(\d[\d,]*(?:\.\d+)?) (mm|m)\b(?![\u00b2\u00b3^/])")
NEAR = 0.01  # two figures nearer than this, and not the same, are one thing said twice
LEAST_M = 0.15  # under it many things are of like size


def lengths(words: str, style: str) -> list[tuple[float, str]]:
    """Every length in some words [m], as it stands there."""
    if style == "metric":
        return [(float(one[1].replace(",", "")) * (0.001 if one[2] == "mm" else 1.0), one[0]) for one in METRIC.finditer(words)]  # fmt: skip
    found = []
    for one in FEET.finditer(words):
        feet, whole, part, below, inches, only = one.groups()
        inch = 12.0 * int(feet or only or 0) + int(whole or 0) + int(inches or 0) + (int(part) / int(below) if part else 0.0)  # fmt: skip
        found.append((inch * 0.0254, one[0]))
    return found


def lettering(svg: str) -> str:
    return " | ".join(unescape(one) for one in re.findall(r"<text[^>]*>(.*?)</text>", svg))


def test_lengths_are_read_as_they_are_written():
    assert lengths("2\u2032-6 1/2\u2033, 9 ft, 3/4 in", "feet") == [(30.5 * 0.0254, "2\u2032-6 1/2\u2033"), (108 * 0.0254, "9 ft"), (0.75 * 0.0254, "3/4 in")]  # fmt: skip
    assert lengths("2,896 mm and 60.5 m, 3 m\u00b3", "metric") == [(2.896, "2,896 mm"), (60.5, "60.5 m")]  # fmt: skip


@pytest.mark.parametrize("style", ["feet", "metric"])
@pytest.mark.parametrize("name", demo_names())
def test_a_card_and_its_sketch_say_no_length_in_two_ways(name, style):
    d, checked = drawn(name, style), 0
    for card in deck(name, style):
        if not card.sketch:
            continue
        said = {words: value for one in card.figures for value, words in lengths(figure_words(one, style), style)}  # fmt: skip
        shown = lengths(lettering(sketch(card.sketch, d, style, PAPER, 392.0, 430.0, 18.67)), style)
        checked += sum(words in said for _, words in shown)
        there = {words for _, words in shown}
        for value, words in shown:
            if words in said or value < LEAST_M:
                continue
            twice = [other for other, metres in said.items() if other not in there and abs(metres - value) < NEAR * value]  # fmt: skip
            assert not twice, (card.title, words, twice)
    assert checked > 12


@pytest.mark.parametrize("style", ["feet", "metric"])
@pytest.mark.parametrize("name", demo_names())
def test_the_terminal_shows_the_figures_of_the_paper_card(name, style):
    for card in deck(name, style):
        for figure in card.figures:
            paper, terminal = (lengths(of(figure, style), style) for of in (figure_words, figure_text))  # fmt: skip
            assert [one for one, _ in terminal] == pytest.approx([one for one, _ in paper], abs=0.0051), card.title  # fmt: skip


@pytest.mark.parametrize("style", ["feet", "metric"])
@pytest.mark.parametrize("name", demo_names())
def test_a_length_on_a_drawing_is_a_dimension(name, style):
    for which in ("side", "site"):
        words = lettering(drawing_named(which, drawn(name, style), style, PAPER, 1200.0)).split(
            " | "
        )
        prose = r"\d ft\b" if style == "feet" else r"(?<![\d,.])\d(?:\.\d+)? m\b"
        ours = [
            one for one in words if one not in ("5 ft", "2 m") and not one.startswith("taped: ")
        ]  # the measuring bar; the owner's own words
        assert any(lengths(one, style) for one in ours)
        assert not [one for one in ours if re.search(prose, one)]


@pytest.mark.parametrize("name", demo_names())
def test_the_earth_wire_has_one_size_on_cards_list_and_trench(name):
    d = drawn(name, "feet")
    size = next(one.size for one in d.trench.items if one.what == "earth wire")
    assert re.match(r"\d", size)
    wires = [one.material for one in d.built.pieces if one.name.startswith("earth wire")]
    assert wires
    assert set(wires) == {size}
    told = [one.text for card in deck(name, "feet") for one in card.figures if one.words.startswith("earth wire")]  # fmt: skip
    assert told
    assert set(told) == {size}


@pytest.mark.parametrize("name", demo_names())
def test_volts_are_whole_on_a_card_and_never_rounded_to_the_bold_side(name):
    for card in deck(name, "feet"):
        for figure in card.figures:
            if figure.unit != "V" or figure.text or figure.value < 10.0:
                continue
            words = figure_words(figure, "feet")
            shown = float(words.removesuffix(" V").replace(",", ""))
            assert words == figure_text(figure, "feet")
            assert shown == round(shown)
            assert shown >= figure.value - 1e-6 if "record low" in figure.words or "bears" in figure.words else True  # fmt: skip
            assert shown <= figure.value + 1e-6 if "limit" in figure.words else True


@pytest.mark.parametrize("name", demo_names())
def test_the_rod_is_the_gauges_own_in_sketch_and_side_view(name):
    file = read_homestead(demo_path(name)).homestead
    gauge = gauge_of(file.drive, file.mount.least_tilt_deg, file.mount.steepest_tilt_deg)
    told = lengths(lettering(sketch("rod", drawn(name), "feet", PAPER, 392.0, 430.0, 18.67)), "feet")  # fmt: skip
    stops = [one.rod_m for one in gauge.stops]
    assert sorted(one for one, _ in told) == pytest.approx(sorted(stops), abs=0.0254 / 32 + 1e-9)
    side = lettering(drawing_named("side", drawn(name), "feet", PAPER, 1200.0))
    out, tilt = re.search(r"rod out (.*?) at ([\d.]+)°", side).groups()
    mark = gauge_of(file.drive, float(tilt), file.mount.steepest_tilt_deg + 1.0).stops[0]
    assert lengths(out, "feet")[0][0] == pytest.approx(mark.rod_m, abs=0.0254 / 32 + 1e-9)
