"""A whole book in one set of units: its text searched for the marks of the other, trade names and quoted words left out."""

from __future__ import annotations

import re

import pytest

from polestead.base.show import Style, in_one_unit
from polestead.homestead.demos import demo_path
from polestead.homestead.read import read_homestead
from polestead.sheets.book.book import leaf_pdf, matter_of
from polestead.sheets.book.matter import Matter
from polestead.sheets.phone.phone import phone_file
from polestead.sheets.wires.page import wires_text
from tests.answers import deck, drawn, wired, worked
from tests.sheets.pdf_text import pages_of

NUMBER = r"(?<![\w.\-])[-−~]?\d(?:[\d,./ ]*\d)?"
MARKS = {
    "feet": rf"{NUMBER} ?(?:ft|in(?! all)|inch|inches|feet|foot|psf|psi|ksi|lb|lbf|mph|gal|yd3|F)\b(?!-)|\d ?[′″]",
    "metric": rf"{NUMBER} ?(?:mm|cm|m|km|kPa|Pa|MPa|kN|N|kg|m/s|km/h|l|C|m3|m³|m²|cm²)(?![\w/²³°])",
}  # fmt: skip
# Names under which things are sold, whoever measures; the bars and the card that prove a print; temperatures a label is rated at.
TRADE = (
    r"\d+ in schedule \d+", r"(?:A36|S355|8\.8|A307) ?(?:round|plate)?, [\d/ ]+ (?:in|mm)\b", r"[\d/ ]+ (?:in|mm), (?:A325|A36|A307|8\.8)",
    r"16 mm \(No\. 5\)", r"No\. 5 bar", r"[\d/ ]+ in (?:PVC|EMT)\b.{0,14}", r"(?:\d+ of )?\d+ mm(?=,? ?(?:duct|90|leaves|pipe))", r"pipe 50 mm", r"50 mm or wider", r"\d+ mm[2²]",
    r"150 mm 6 in", r"150 mm", r"\b6 in\b", r"85\.6 by 54\.0 mm|3 3/8 by 2 1/8 in", r"(?:at|wire at|cell at) (?:25|75|90) C", r"the wire at 75 C", r"\d+ of 100 in",
)  # fmt: skip
# Sentences of the wires that quote a clause in its code's own units.
CLAUSES = (
    r"of 1/2 in bar in one piece or tied, or 20 ft of bare 4 AWG copper, within the lowest 2 in of concrete", r"never within 18 in of the ground",
    r"from 18 in under to (?:the box or )?8 ft over the (?:ground)?", r"(?:taken as|bears?|marked|count as|Wire with) \d+ C\b", r"\d+ C terminals", r"finer than 0\.02 mm",
)  # fmt: skip
# What else the wires' own page quotes: a source in its own words, a table's own conditions, a fitting as it is sold.
QUOTED = (
    r"0\.028 V a cell for each 10 F", r"A = 28 Q in cm2, air moving 0\.1 m/s", r"EN 60204-1, 25 mm from parts that move", r"open rack: 3 C at 1000 W/m2", r"soil at \d+ C", r"450 to 600 mm",
    r"24 in for cable, 18 in for PVC pipe, 6 in for metal pipe", r"of 1 in(?:,| riser)", r"grows more than 1/4 in there",
)  # fmt: skip


def matter(name: str, style: Style) -> Matter:
    owners = read_homestead(demo_path(name))
    paper = "letter" if style == "feet" else "a4"
    return matter_of(
        owners, worked(name), style, paper, None, deck(name, style), drawn(name, style)
    )


def others(words: str, style: Style, name: str, quoted: tuple[str, ...] = ()) -> list[str]:
    """Figures in the other units."""
    owners = read_homestead(demo_path(name)).homestead
    words = re.sub(r"\s+", " ", words.replace("\xa0", " ").replace("\u2009", " "))
    for line in owners.buried:
        for told in line.offsets:
            words = words.replace(told, "")
    for pattern in (*CLAUSES, *quoted, *TRADE):
        words = re.sub(pattern, "", words)
    other = "metric" if style == "feet" else "feet"
    return [words[max(0, m.start() - 40) : m.end() + 10] for m in re.finditer(MARKS[other], words)]


CASES = [
    ("hollow-spruce", "metric"),
    ("slieve-moss", "feet"),
]  # each in the units its file is not in


@pytest.mark.parametrize(("name", "style"), CASES)
def test_no_page_of_the_book_and_its_leaves_speaks_in_the_other_units(name, style) -> None:
    made = matter(name, style)
    for leaf in ("book", "inspector", "technician", "gust-card"):
        for nth, page in enumerate(pages_of(leaf_pdf(leaf, made)), 1):
            assert others(page, style, name) == [], (leaf, nth)


@pytest.mark.parametrize(("name", "style"), CASES)
def test_nor_does_the_phone_file(name, style) -> None:
    words = re.sub(r"<style>.*?</style>|<script>.*?</script>|<svg.*?</svg>|<[^>]+>", " ", phone_file(matter(name, style)), flags=re.DOTALL)  # fmt: skip
    assert others(words, style, name) == []


@pytest.mark.parametrize("style", ["feet", "metric"])
@pytest.mark.parametrize("name", ["hollow-spruce", "slieve-moss"])
def test_nor_does_the_wires_page_in_either_units(name, style) -> None:
    told = wires_text(wired(name), "USD", style)
    assert others(told, style, name, QUOTED) == []


def test_the_search_would_find_what_it_looks_for() -> None:
    assert others("a hole 3 ft across", "metric", "hollow-spruce")
    assert others("8′-6″", "metric", "hollow-spruce")
    assert others("gusts to 105 mph, 60 psf", "metric", "hollow-spruce")
    assert others("2,896 mm deep, 24 MPa, 38 m/s", "feet", "slieve-moss")
    assert not others("650 in all; 34 of 100; 12 V", "metric", "hollow-spruce")


@pytest.mark.parametrize(
    ("words", "feet", "metric"),
    [("52 kN m (39,000 lb ft) at 5 psf (.25 kPa)", "39,000 lb ft at 5 psf", "52 kN m at .25 kPa"), ("1/8 in (3 mm) thicker", "1/8 in thicker", "3 mm thicker"),
     ("bags of 80 lb (36 kg); 20 C (68 F)", "bags of 80 lb; 68 F", "bags of 36 kg; 20 C"), ("16 mm (No. 5) bar", "16 mm (No. 5) bar", "16 mm (No. 5) bar"),
     ("2 ft (or so)", "2 ft (or so)", "2 ft (or so)")],
)  # fmt: skip
def test_of_a_figure_given_both_ways_one_is_left(words, feet, metric) -> None:
    assert in_one_unit(words, "feet") == feet
    assert in_one_unit(words, "metric") == metric
