"""One-line, string map, test form and basis as drawn and as written."""

from __future__ import annotations

import json
import re
import xml.etree.ElementTree as ET

import pytest

from polestead.base.show import Style
from polestead.homestead.demos import demo_names, demo_path
from polestead.homestead.read import read_homestead
from polestead.sheets.book.drawn import own_drawings
from polestead.sheets.one_line import one_line, rating_words, station_words
from polestead.sheets.plain import plain_data
from polestead.sheets.string_map import string_map
from polestead.sheets.svg import PAPER, SCREEN, Ink
from polestead.sheets.wires.basis import basis_lines
from polestead.sheets.wires.form import form_data, form_text
from polestead.wiring.basis import NAMES, asks_of, basis_of
from polestead.wiring.drawn.form import form_of
from polestead.wiring.drawn.one_line import Rating
from polestead.wiring.drawn.string_map import string_map_of
from tests.answers import worked
from tests.sheets.boxes import crossed, outside, overlaps, size_of
from tests.wiring.test_one_line import VARIANTS, drawn
from tests.wiring.test_string_map import array

SVG = "{http://www.w3.org/2000/svg}"
MEDIA = [(SCREEN, 1216.0, 13.0), (SCREEN, 1216.0, 17.0), (SCREEN, 358.0, 13.0), (SCREEN, 358.0, 17.0), (PAPER, 960.0, 12.0)]  # fmt: skip
GRIDS = [(1, 1, 1), (7, 1, 7), (1, 7, 7), (4, 2, 4), (2, 3, 3), (10, 4, 8), (10, 4, 5), (20, 10, 10), (20, 2, 1), (3, 5, 5)]  # fmt: skip


def sound(svg: str) -> None:
    root = ET.fromstring(svg)  # noqa: S314  our own drawing
    for tag in ("title", "desc"):
        words = root.find(f"{SVG}{tag}")
        assert words is not None
        assert len(words.text or "") > 8
    assert "style=" not in svg
    assert "nan" not in svg


@pytest.mark.parametrize("demo", demo_names())
@pytest.mark.parametrize(("ink", "width", "size"), MEDIA)
def test_no_words_of_a_demos_one_line_touch_others_or_a_wire_or_leave_the_drawing(
    demo: str, ink: Ink, width: float, size: float
) -> None:
    svg = one_line(drawn(demo), "feet", ink, width, size, demo)
    sound(svg)
    assert overlaps(svg, ink) == []
    assert outside(svg, ink) == []
    assert crossed(svg, ink) == []


@pytest.mark.parametrize("name", VARIANTS)
@pytest.mark.parametrize(("ink", "width", "size"), MEDIA)
def test_nor_do_those_of_other_homesteads(name: str, ink: Ink, width: float, size: float) -> None:
    svg = one_line(drawn(**VARIANTS[name]), "metric", ink, width, size, name)
    sound(svg)
    assert overlaps(svg, ink) == []
    assert outside(svg, ink) == []
    assert crossed(svg, ink) == []


@pytest.mark.parametrize("demo", demo_names())
@pytest.mark.parametrize("ink", [SCREEN, PAPER])
def test_no_word_of_the_page_s_and_the_books_one_line_is_broken(demo: str, ink: Ink) -> None:
    """A breaking capacity cut in two is misread."""
    svg = own_drawings(read_homestead(demo_path(demo)), worked(demo), "feet", ink)["one-line"]()
    root = ET.fromstring(svg)  # noqa: S314  our own drawing
    words = {word for one in root.iter(f"{SVG}text") for word in (one.text or "").replace("\xa0", " ").split()}  # fmt: skip
    data = drawn(demo)
    wanted = [word for one in data.stations if one.kind != "run" for said in station_words(one, "feet")[:1] for word in said.split()]  # fmt: skip
    assert [word for word in wanted if word not in words] == []


@pytest.mark.parametrize("demo", demo_names())
def test_a_demos_one_line_fits_a_letter_sheet_laid_across(demo: str) -> None:
    # 11 x 8.5 in less half an inch all round, 96 px an inch; 12 px are 9 pt
    wide, high = size_of(one_line(drawn(demo), "feet", PAPER, 960.0, 12.0, demo))
    assert wide <= 960.0
    assert high <= 720.0


@pytest.mark.parametrize("width", [358.0, 1216.0])
def test_every_station_is_told_on_the_drawing_and_in_its_words(width: float) -> None:
    data = drawn(**VARIANTS["twelve strings"])
    svg = one_line(data, "feet", SCREEN, width)
    root = ET.fromstring(svg)  # noqa: S314  our own drawing
    written = " ".join(text.text or "" for text in root.iter(f"{SVG}text"))
    told = root.find(f"{SVG}desc").text or ""  # type: ignore[union-attr]
    for station in data.stations:
        assert all(word in written for word in station.name.split()), station.key
        assert station.name in told
    assert "neutral to" in written
    assert "Neutral and earth meet in one place only, drawn at the house board: ask" in told


@pytest.mark.parametrize(
    ("rating", "words"),
    [(Rating("bears", 190.01, "V", "at least"), "≥ 191 V"), (Rating("array", 250.0, "V", "at most"), "array up to 250 V"),
     (Rating("cold dawn", 190.2, "V", "reaches"), "cold dawn up to 191 V"), (Rating("", None, "A", "asked"), "amperes: ask"),
     (Rating("gives", 4400.0, "W"), "gives 4.4 kW"), (Rating("label allows", 12.5, "A", "at most"), "label allows up to 12.5 A")],
)  # fmt: skip
def test_a_rating_is_never_rounded_to_the_wrong_side(rating: Rating, words: str) -> None:
    assert rating_words(rating, "feet").replace("\u00a0", " ") == words


@pytest.mark.parametrize("grid", GRIDS)
@pytest.mark.parametrize("lie", ["portrait", "landscape"])
@pytest.mark.parametrize(("ink", "width", "size"), [(SCREEN, 720.0, 13.0), (SCREEN, 358.0, 13.0), (SCREEN, 358.0, 17.0), (PAPER, 700.0, 12.0)])  # fmt: skip
def test_no_words_of_a_string_map_touch(grid, lie: str, ink: Ink, width: float, size: float) -> None:  # fmt: skip
    data = string_map_of(array(*grid, lie=lie))
    svg = string_map(data, "feet", ink, width, size, "x")
    sound(svg)
    assert overlaps(svg, ink) == []
    assert outside(svg, ink) == []
    labels = [text.text for text in ET.fromstring(svg).iter(f"{SVG}text")]  # noqa: S314
    assert all(labels.count(spot.label) == 1 for spot in data.spots)
    assert labels.count("+") == labels.count("−") == len({spot.string for spot in data.spots})


def formed(demo: str, **more):
    h = read_homestead(demo_path(demo)).homestead
    controller = next(one for one in h.household.controller if one.name == h.array.controller)
    return form_of(h.place, h.array, controller, 0.028, **more), h


@pytest.mark.parametrize("demo", demo_names())
@pytest.mark.parametrize("style", ["feet", "metric"])
@pytest.mark.parametrize("hour", [{}, {"plane_w_m2": 820.0, "cell_c": 41.0}, {"plane_w_m2": 310.0, "cell_c": -12.0}])  # fmt: skip
def test_the_form_fits_a_terminal_and_carries_its_cautions(demo: str, style: Style, hour) -> None:
    form, h = formed(demo, **hour)
    text = form_text(form, h.name, style)
    assert max(len(line) for line in text.splitlines()) <= 78
    assert text.count("CAUTION") == sum(bool(step.caution) for step in form.steps)
    assert "nan" not in text.lower()
    for letter in form.strings:
        assert text.count(f"{letter} _______") == sum(step.each_string for step in form.steps)
    assert ("tell little" in text) is (hour.get("plane_w_m2") == 310.0)


def test_forty_strings_have_forty_blanks() -> None:
    h = read_homestead(demo_path("hollow-spruce")).homestead
    many = h.array.model_copy(update={"columns": 20, "rows": 10, "in_series": 5, "in_parallel": 40})
    text = form_text(form_of(h.place, many, h.household.controller[1]), h.name, "feet")
    assert max(len(line) for line in text.splitlines()) <= 78
    assert "AN _______" in text


def test_the_worked_example_of_the_form_is_the_sum_it_shows() -> None:
    form, h = formed("slieve-moss", plane_w_m2=800.0, cell_c=40.0)
    text = " ".join(form_text(form, h.name, "metric").split())
    shown = re.search(r"(\d+) x ([\d.]+) x ([\d.]+) = (\d+) V\.", text)
    assert shown is not None
    volts, light, cold, result = (float(number) for number in shown.groups())
    # Slieve Moss: 37.4 V, -0.27 %/C, -18 C. The cold: (1 + 0.0027 x 43) / (1 - 0.0027 x 15) = 1.1161 / 0.9595 = 1.163
    assert cold == 1.163
    assert volts * light * cold == pytest.approx(result, abs=1.0)
    # and it comes near the sum from the sheet: 4 x 37.4 x 1.1161 = 167.0 V, the diode's warm end a little off the straight line
    assert result == pytest.approx(167.0, rel=0.01)


def test_form_map_and_one_line_are_data_for_a_page() -> None:
    form, h = formed("cinder-mesa", plane_w_m2=820.0, cell_c=41.0)
    data = json.loads(json.dumps(form_data(form), allow_nan=False))
    assert data["expected"]["open_v"]["low"] < data["expected"]["open_v"]["value"]
    assert data["steps"][1]["source"] == "IEC 62446-1, 6.1 (from memory)"
    assert len(data["faults"]) == 4
    for thing in (string_map_of(h.array), drawn("cinder-mesa")):
        assert json.loads(json.dumps(plain_data(thing), allow_nan=False))


@pytest.mark.parametrize("name", NAMES)
def test_the_basis_fits_a_terminal_and_says_what_is_from_memory(name) -> None:
    h = read_homestead(demo_path("slieve-moss")).homestead
    place = h.place.model_copy(update={"electrical_code": name})
    asks = asks_of(place, 190.0, 3.0)
    text = "\n".join(basis_lines(basis_of(name), asks))
    assert max(len(line) for line in text.splitlines()) <= 78
    assert "(from memory)" in text
    assert text.count("Trap:") == text.count("said: ___") == len(asks)
