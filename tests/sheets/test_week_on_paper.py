"""The week leaf on paper and in the phone file: the same rows as at the terminal, one page, never made unasked."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import date
from io import BytesIO
from math import inf

import pytest
from pypdf import PdfReader

from polestead.homestead.demos import demo_path
from polestead.homestead.read import read_homestead
from polestead.morning.result import Band, EngineToday
from polestead.morning.week import GustRow, WeekLeaf
from polestead.sheets.book.book import leaf_pdf, matter_of
from polestead.sheets.morning import week_text
from polestead.sheets.named import wanted
from polestead.sheets.phone.phone import phone_file
from tests.answers import worked

MPH = 0.44704
WEEK = WeekLeaf(
    "Hollow Spruce", date(2026, 11, 25), date(2026, 12, 2), 30.0 * MPH, 46.0 * MPH,
    (GustRow(45.0 * MPH, 65.0, 75.0 * MPH, False), GustRow(70.0 * MPH, 5.0, 115.0 * MPH, True), GustRow(inf, None, 0.0, False)),
    (0.95, 0.5), ("clear", "broken", "grey"),
    tuple(
        tuple(EngineToday(chance, 7.0, Band(low, high, high), Band(low, high, high), True) for chance, low, high in row)
        for row in (((0.0, 0.0, 0.0), (0.05, 0.0, 0.0), (0.3, 0.0, 2.0)), ((0.6, 0.0, 3.4), (0.9, 2.0, 5.0), (1.0, 6.0, 6.0)))
    ), 5.0,
)  # fmt: skip
NONE = "no tilt stands: 5 is firmest, go there only in calm; lock it, keep away"
# in mph, in m/s: what each row says of its span and its tilt
ROWS = {
    "feet": (("0 to 45 mph", "65, pin in: stands to 75"), ("45 to 70 mph", "flat, 5, pin in: stands to 115"), ("over 70 mph", NONE)),
    "metric": (("0 to 20 m/s", "65, pin in: stands to 34"), ("20 to 31 m/s", "flat, 5, pin in: stands to 51"), ("over 31 m/s", NONE)),
}  # fmt: skip


def matter(style, week=WEEK):
    paper = "letter" if style == "feet" else "a4"
    return matter_of(
        read_homestead(demo_path("hollow-spruce")), worked("hollow-spruce"), style, paper, week=week
    )


@pytest.mark.parametrize("style", ["feet", "metric"])
def test_the_leaf_is_one_page_with_its_rows_and_its_last_day(style) -> None:
    (page,) = PdfReader(BytesIO(leaf_pdf("week", matter(style)))).pages
    words = re.sub(r"\s+", " ", page.extract_text())
    assert "from Wed 25 Nov 2026, good until Wed 02 Dec" in words
    assert f"Move only under {'30 mph' if style == 'feet' else '13 m/s'}" in words
    for row in ROWS[style]:
        assert " ".join(row) in words
    assert "95 % no no perhaps, up to 2 h" in words
    assert "50 % yes, up to 3 h yes, 2 to 5 h yes, 6 h" in words
    assert f"Nothing heard: take {'46 mph' if style == 'feet' else '21 m/s'}" in words


@pytest.mark.parametrize("style", ["feet", "metric"])
def test_terminal_paper_and_phone_say_the_same(style) -> None:
    told = week_text(WEEK, style)
    phone = phone_file(matter(style))
    for span, where in ROWS[style]:
        assert re.search(rf"{re.escape(span)} +{re.escape(where)}", told)
        assert f'<tr><th scope="row">{span}</th><td>{where}</td></tr>' in phone
    assert "good until Wed 02 Dec" in phone
    assert '<a href="#week">' in phone


def test_without_a_week_the_phone_has_none_and_the_leaf_says_how_to_get_one() -> None:
    assert "Week leaf" not in phone_file(matter("feet", None))
    words = PdfReader(BytesIO(leaf_pdf("week", matter("feet", None)))).pages[0].extract_text()
    assert "--only week" in words


def test_it_is_of_one_day_so_a_whole_book_is_made_without_it() -> None:
    assert "week" not in wanted((), phone=True)
    assert wanted(["week"], phone=False) == ("week",)
    later = replace(WEEK, day=date(2026, 12, 1), good_until=date(2026, 12, 8))
    assert "good until Tue 08 Dec" in week_text(later, "feet")
