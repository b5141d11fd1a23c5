"""The build book and its leaves: what stands on every page, both papers, both units, the same bytes twice."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import date
from functools import cache, partial
from io import BytesIO
from threading import Event
from time import sleep

import pytest
from pypdf import PdfReader

from polestead.answer.cards import calendar_only
from polestead.answer.drawables import drawables_of
from polestead.base.problem import Wrong
from polestead.base.show import dimension, feet_inches, in_one_unit
from polestead.build.asking import asking_leaf
from polestead.homestead.demos import demo_names, demo_path
from polestead.homestead.read import read_homestead
from polestead.sheets.book.book import LEAVES, leaf_pdf, matter_of
from polestead.sheets.book.built import pieces as pieces_section
from polestead.sheets.book.drawings import WORKED_FROM, drawing_pages, room_px
from polestead.sheets.book.leaves import engineer
from polestead.sheets.book.matter import Matter, guessed_of, high_of, warning_of
from polestead.sheets.book.wired import label_page
from polestead.sheets.leaf import PAPERS
from polestead.sheets.named import ALL, TEMPLATES, WEEK, wanted
from polestead.sheets.shelf import AT_ONCE, made, pressed
from tests.answers import drawn, worked
from tests.sheets.deck import DECK
from tests.sheets.pdf_lines import straight_lines_mm
from tests.sheets.pdf_text import pages_of


def matter(name: str = "hollow-spruce", style="feet", paper="letter", on=None, cards=DECK) -> Matter:  # fmt: skip
    return matter_of(read_homestead(demo_path(name)), worked(name), style, paper, on, cards)


@cache
def leaf(leaf_name: str, name: str = "hollow-spruce", style="feet", paper="letter") -> bytes:
    return leaf_pdf(leaf_name, matter(name, style, paper))


def broken() -> Matter:
    """Hollow Spruce whose pole at the collar would use 112 of 100: the answer's own check, its use put over."""
    whole = matter()
    stand = whole.answer.stand
    pole = next(one for one in stand.checks if one.part == "pole at the collar")
    checks = tuple(replace(one, use=1.12) if one is pole else one for one in stand.checks)
    return replace(whole, answer=replace(whole.answer, stand=replace(stand, checks=checks, verdict="gives")))  # fmt: skip


def test_the_names_known_beforehand_are_the_leaves_there_are():
    assert {*ALL, WEEK} == {*LEAVES, TEMPLATES}


@pytest.mark.parametrize("leaf_name", LEAVES)
@pytest.mark.parametrize(("paper", "style", "size"), [("letter", "feet", (612, 792)), ("a4", "metric", (595, 842))])  # fmt: skip
def test_every_page_says_whose_it_is_which_it_is_and_what_it_is_not(leaf_name, paper, style, size):
    pdf = leaf(leaf_name, "slieve-moss", style, paper)
    sheets = PdfReader(BytesIO(pdf)).pages
    count = len(sheets)
    for nth, (page, words) in enumerate(zip(sheets, pages_of(pdf), strict=True), start=1):
        assert f"page {nth} of {count}" in words
        box = sorted(round(float(side)) for side in (page.mediabox.width, page.mediabox.height))
        assert box == sorted(size)
        if words:
            assert worked("slieve-moss").fingerprint in words or "Rod gauge" in words
        if "void if the pins move" not in words:  # the 1:1 strips carry a foot of their own
            assert "screening sums, not a stamped design" in words


@pytest.mark.parametrize("leaf_name", LEAVES)
def test_a_leaf_is_tagged_has_a_language_a_title_and_words_for_its_pictures(leaf_name):
    reader = PdfReader(BytesIO(leaf(leaf_name)))
    root = reader.trailer["/Root"]
    assert root["/MarkInfo"]["/Marked"]
    assert str(root["/Lang"]).startswith("en")
    assert "/StructTreeRoot" in root
    assert (reader.metadata.title or "").startswith("Hollow Spruce: ")
    assert b"pdfuaid" in leaf(leaf_name) or "pdfuaid" in root["/Metadata"].get_data().decode()
    assert all(len(words) > 20 for words in _alternatives(root["/StructTreeRoot"]))


def _alternatives(node, depth=0):
    node = node.get_object()
    if isinstance(node, list):
        for one in node:
            yield from _alternatives(one, depth + 1)
    elif hasattr(node, "get"):
        if node.get("/S") == "/Figure":
            yield str(node.get("/Alt", ""))
        if "/K" in node and depth < 60:
            yield from _alternatives(node["/K"], depth + 1)


def test_the_same_answer_gives_the_same_bytes_and_another_day_other_ones():
    assert leaf_pdf("book", matter()) == leaf("book")
    dated = leaf_pdf("money", matter(on=date(2026, 6, 12)))
    assert dated != leaf("money")
    assert all("12 Jun 2026" in page for page in pages_of(dated))


def test_the_book_holds_every_part_and_its_contents_name_the_right_page():
    told = pages_of(leaf("book"))
    contents = next(page for page in told if page.startswith("What is in it"))
    for title in ("Pieces and cut list", "Hole, pour and trench", "Lifts and modules", "Hole and footing", "Gust card", "Tape table", "Rod gauge, page 1",
                  "One-line: pole to battery", "What guards strings and run", "Labels to engrave", "Test form", "What it costs", "Through the winter", "Ways of tipping", "Calendar", "Whom to ask"):  # fmt: skip
        found = re.search(re.escape(title) + r"[ .⁠]+(\d+)", contents)
        assert found is not None, title
        assert title.split(", page")[0] in told[int(found.group(1)) - 1]


@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_the_strips_inside_the_leaf_stay_at_their_own_scale(paper):
    pdf = leaf("gauge", "slieve-moss", "metric", paper)
    for page in range(2):
        upright = sorted(abs(y1 - y2) for x1, y1, x2, y2 in straight_lines_mm(pdf, page) if abs(x1 - x2) < 1e-3)  # fmt: skip
        bars = [long for long in upright if 140.0 < long < 160.0]
        assert bars == pytest.approx([150.0, 152.4], abs=0.1)  # a tenth: what a good rule shows


def test_the_engineers_leaf_names_the_nec_it_is_numbered_by_and_no_rung_begins_with_equals():
    sections = engineer(matter())
    assert "numbered as in its 2020 edition" in str(sections[0].blocks[0])
    ladders = [block for part in sections for block in part.blocks if block.get("kind") == "ladder"]
    rows = [row for block in ladders for row in block["rows"]]
    assert len(rows) > 500
    assert [row for row in rows if row[1].lstrip().startswith("=")] == []
    european = engineer(matter("slieve-moss", "metric"))
    assert "2020 edition" not in str(european[0].blocks[0])


def test_without_cards_the_order_of_work_stands_in_their_place():
    told = " ".join(pages_of(leaf_pdf("cards", matter(cards=()))))
    assert "The order of work" in told
    assert "Nothing is poured before the footing has been looked at and signed for" in told


@pytest.mark.parametrize("leaf_name", ["book", "gauge", "cards"])
def test_when_something_gives_every_page_says_so_on_its_top_line(leaf_name):
    given = broken()
    assert warning_of(given.answer) == "THE SUMS SAY NO: pole at the collar 112 of 100"
    for page in pages_of(leaf_pdf(leaf_name, given)):
        assert "THE SUMS SAY NO: pole at the collar 112 of 100" in page
    assert "THE SUMS SAY NO" not in " ".join(pages_of(leaf(leaf_name)))


def test_every_page_says_how_much_of_the_place_is_guessed():
    """Its cards had carried depth and width of a hole that nobody had asked for, with no word of it."""
    whole = matter()
    guessed = [row for row in whole.answer.rows if row.section == "place" and row.standing == "assumed"]  # fmt: skip
    assert guessed
    for page in pages_of(leaf("cards")):
        assert f"{len(guessed)} facts of the place guessed" in page
    asked = tuple(replace(row, standing="confirmed") if row in guessed else row for row in whole.answer.rows)  # fmt: skip
    assert guessed_of(replace(whole.answer, rows=asked)) == ""


def test_flat_only_is_said_too():
    whole = matter()
    stand = replace(whole.answer.stand, verdict="stands only when laid flat")
    assert warning_of(replace(whole.answer, stand=stand)) == "THE SUMS SAY NO: it stands only when laid flat"  # fmt: skip


def test_a_card_has_its_figures_at_24_points_or_more_and_its_words_at_14():
    reader = PdfReader(BytesIO(leaf("cards")))
    sizes: dict[str, float] = {}

    def look(text, _cm, matrix, _font, size):
        for word in text.split():
            sizes[word] = max(sizes.get(word, 0.0), abs(size * matrix[3]))

    page = reader.pages[next(nth for nth, words in enumerate(pages_of(leaf("cards"))) if "Hole and footing" in words)]  # fmt: skip
    page.extract_text(visitor_text=look)
    assert sizes["Hole"] >= 34.9
    assert max(size for word, size in sizes.items() if word.startswith("8′-6″")) >= 24.0
    assert sizes["Auger"] >= 13.9


@pytest.mark.parametrize("name", demo_names())
def test_a_card_with_its_gate_fits_on_one_page(name):
    told = pages_of(leaf_pdf("cards", matter(name)))
    assert len(told) == 3  # cautions, hole, lift
    assert "Nothing closes before the footing inspection." in told[1]
    assert "This card needs: pier size." in told[1]
    assert "Measured as built" in told[1]


def test_the_engineer_finds_every_check_with_every_rung_and_every_input():
    told = " ".join(pages_of(leaf("engineer"))).replace("\u200b", "")
    answer = worked("hollow-spruce")
    squeezed = re.sub(r"[\s\xad-]", "", told)
    for check in (*answer.stand.checks, *answer.stand.geometry_checks, *answer.wiring.checks):
        for word in (check.part, check.name, check.working.result.word):
            shown = in_one_unit(word, "feet").replace("^2", "²")
            assert re.sub(r"[\s-]", "", shown) in squeezed, word
    for row in answer.rows:
        if row.standing == "assumed":
            assert f"{row.section}.{row.key}" in squeezed
    assert "from memory" in told


def test_no_page_of_the_engineer_begins_with_what_closes_a_ladder_of_the_page_before():
    pages = [re.sub(r"\s+", " ", page) for page in pages_of(leaf("engineer"))]
    closing = [page for page in pages if ". Demand " in page]
    assert len(closing) > 20
    for page in closing:
        first = re.split(r" · |\. Demand ", page.split(" value source ", 1)[-1], maxsplit=1)[0]
        assert "=" in first, page[:200]


def test_only_the_face_of_the_package_is_used_and_it_is_inside():
    for page in PdfReader(BytesIO(leaf("book"))).pages:
        for font in page["/Resources"].get("/Font", {}).values():
            name = str(font.get_object()["/BaseFont"])
            assert "LibertinusSerif" in name


def test_lengths_are_feet_and_inches_or_metric():
    feet, metric = (" ".join(pages_of(leaf("book", "hollow-spruce", *how))) for how in (("feet", "letter"), ("metric", "a4")))  # fmt: skip
    hinge_m = worked("hollow-spruce").geometry.hinge_height_m
    assert feet_inches(hinge_m) in feet
    assert f"{1000.0 * hinge_m:,.0f} mm" in metric
    card = " ".join(pages_of(leaf("gust-card", "hollow-spruce", "metric", "a4")))
    assert " m/s" in card
    assert " mph" not in card.split("Rests on")[0]  # behind it stand the owner's own words
    assert dimension(2.5908, "feet") == "8′-6″"  # 102 in


def test_a_leaf_nobody_knows_is_refused_by_the_names_of_those_there_are():
    with pytest.raises(Wrong) as wrong:
        wanted(["everything"], False)
    assert "engineer" in wrong.value.problems[0].allowed
    names = wanted((), True)
    drawn = drawables_of(read_homestead(demo_path("hollow-spruce")), worked("hollow-spruce").stand)
    files = [file for _, file, _ in made(names, matter(), drawn)]
    assert files[0] == "book.pdf"
    assert files[-1] == "phone.html"
    assert {"templates.pdf", "gust-card.pdf", "plates/hinge-ear.dxf"} <= set(files)


def test_leaves_are_pressed_beside_each_other_and_come_in_their_order():
    first_waits = Event()

    def slow() -> bytes:
        assert first_waits.wait(10)  # only one beside it can let it go
        return b"1"

    def quick() -> bytes:
        first_waits.set()
        return b"2"

    told: list[tuple[str, int, int]] = []
    files = pressed(
        [("one", "1.pdf", slow), ("two", "2.pdf", quick)], lambda *more: told.append(more)
    )
    assert files == [("1.pdf", b"1"), ("2.pdf", b"2")]
    assert told == [("one", 0, 2), ("two", 1, 2)]


def test_where_one_leaf_fails_the_ones_behind_it_are_not_begun():
    begun: list[int] = []

    def fails() -> bytes:
        raise BufferError

    def waits(nth: int) -> bytes:
        begun.append(nth)
        sleep(0.2)
        return b""

    behind = [(f"{n}", f"{n}.pdf", partial(waits, n)) for n in range(20)]
    with pytest.raises(BufferError):
        pressed([("torn", "torn.pdf", fails), *behind], lambda *_: None)
    assert len(begun) <= 2 * AT_ONCE


def test_the_book_engraves_nothing_for_strings_that_are_refused():
    whole = matter()
    wiring = whole.answer.wiring
    first = next(one for one in wiring.checks if one.part == "string")
    checks = tuple(replace(one, use=1.53) if one is first else one for one in wiring.checks)
    refused = replace(whole, answer=replace(whole.answer, wiring=replace(wiring, checks=checks)))
    assert "Nothing to engrave" in str(label_page(refused))
    assert "HIGHEST VOLTAGE" not in str(label_page(refused))
    assert "HIGHEST VOLTAGE" in str(label_page(whole))


def test_the_asking_leaf_has_a_blank_for_every_open_fact_and_tells_how_to_keep_the_answer():
    told = " ".join(pages_of(leaf("asking")))
    answer = worked("hollow-spruce")
    open_lines = [line for line in asking_leaf(answer.rows, matter().owners.homestead.buried) if not line.settled]  # fmt: skip
    more = [one for one in answer.questions if one.row.key in ("exposure", "frost_soil")]
    assert told.count("They said") == told.count("Who, and on which day") == len(open_lines) + len(more)  # fmt: skip
    for line in open_lines:
        assert line.whom in told
        if "." in line.key:
            assert f"polestead ask FILE --answer {line.key} " in told
    assert "Settled, with a name and a day: wind 107 mph" in told


def test_the_calendar_has_dates_from_a_first_day_on_and_blanks_without_one():
    blank = " ".join(pages_of(leaf("calendar")))
    assert blank.count("__________") >= 23
    for words in ("No first day was given", "GATE footing", "Pour", "Set the array to 65°", "Grease hinge pins", "every month"):  # fmt: skip
        assert words in blank
    owners = read_homestead(demo_path("hollow-spruce"))
    dates = calendar_only(owners, date(2026, 5, 4))
    whole = matter_of(owners, worked("hollow-spruce"), "feet", "letter", None, DECK, None, dates)
    told = " ".join(pages_of(leaf_pdf("calendar", whole)))
    assert "__________ do" not in told
    pour = next(event for event in dates.events if event.key == "act pour")
    assert f"{pour.on:%a} {pour.on.day} {pour.on:%b %Y}" in told
    assert "bare steel not before today" in told


def test_the_book_lists_pieces_as_the_text_does_with_guessed_weights_and_whose_the_lengths_are():
    blocks = pieces_section(matter("cinder-mesa")).blocks
    rows = {row[2]: row for row in blocks[0]["rows"]}
    assert rows["isolator"][4] == "~under 1 lb"
    assert rows["knee brace"][4] == "weigh it"
    told = " ".join(str(block) for block in blocks)
    assert "such yards mostly sell (common practice, no source)" in told
    assert "Lengths are the file" not in told
    assert "6 lb each" in told
    assert "thickness not given, steel not given" in told


def test_the_gust_card_says_that_a_row_holds_for_its_own_tilt_only():
    """Storm flat a few degrees off stands to much less than its row: the hung card says so itself."""
    assert "set it a few degrees off, and the neighbour's row counts" in " ".join(pages_of(leaf("gust-card"))).replace("’", "'")  # fmt: skip


@pytest.mark.parametrize(("name", "style", "paper", "fails"), [("hollow-spruce", "feet", "letter", True), ("cinder-mesa", "metric", "a4", False)])  # fmt: skip
def test_each_drawing_a_builder_works_from_has_one_page_of_the_book_and_large_letters(
    name, style, paper, fails
):
    whole = replace(matter(name, style, paper, cards=()), drawn_from=drawn(name, style))
    if fails:
        stand = whole.answer.stand
        checks = tuple(replace(one, use=1.12) if one.part == "pole at the collar" else one for one in stand.checks)  # fmt: skip
        whole = replace(whole, answer=replace(whole.answer, stand=replace(stand, checks=checks, verdict="gives")))  # fmt: skip
    told = pages_of(leaf_pdf("book", whole))
    begins = [next(nth for nth, page in enumerate(told) if nth > 1 and re.search(rf"^(THE SUMS SAY NO.*?)?{re.escape(title)}", page)) for title in WORKED_FROM.values()]  # fmt: skip
    assert begins == list(range(begins[0], begins[0] + len(WORKED_FROM)))
    assert all(("THE SUMS SAY NO: " in page) is fails for page in told)
    for section in drawing_pages(whole):
        svg, turned = section.blocks[0]["svg"], section.kind == "wide"
        wide, most = room_px(whole, turned)
        assert high_of(svg) <= most, section.title
        across_mm = (PAPERS[paper].height_mm if turned else PAPERS[paper].width_mm) - 34.0
        least = min(float(one) for one in re.findall(r'font-size="([\d.]+)"', svg)) * across_mm / wide * 72.0 / 25.4  # fmt: skip
        assert least >= 10.5, (section.title, least)


def test_the_technicians_leaf_begins_with_what_is_asked_of_him():
    """Its first page had held the contents alone."""
    told = pages_of(leaf("technician"))
    assert "What is in it" in told[0]
    for words in ("For the licensed technician", "What is asked of you", "The circuit in short", "coldest dawn", "License"):  # fmt: skip
        assert words in told[0], words
    assert (
        sum("most modules in a string" in page for page in told) == 1
    )  # the table stands once in the leaf
