"""Text, data, drawings and the page of paper."""

from __future__ import annotations

import io
import json
import re
import xml.etree.ElementTree as ET
from dataclasses import replace
from itertools import combinations
from math import inf
from typing import Any

import pytest
from pypdf import PdfReader

from polestead.homestead.demos import demo_names
from polestead.sheets.charts import gust_card
from polestead.sheets.data import answer_data, answer_schema
from polestead.sheets.elevation import elevation
from polestead.sheets.money import money_text
from polestead.sheets.paper import one_page
from polestead.sheets.sentences import UNPRICED, three_answers, use_of
from polestead.sheets.svg import PAPER, SCREEN, Ink
from polestead.sheets.text import answer_text
from polestead.sheets.verdict import failing
from polestead.sheets.year import HEAVY, THIN, year_picture
from tests.answers import worked
from tests.sheets.pdf_text import words_of

NAMES = demo_names()
SVG = "{http://www.w3.org/2000/svg}"


def valid(data: Any, schema: dict[str, Any], root: dict[str, Any], at: str = "$") -> list[str]:
    """The faults of data against the few words of JSON Schema that ours uses."""
    if "$ref" in schema:
        return valid(data, root["$defs"][schema["$ref"].rpartition("/")[2]], root, at)
    if "anyOf" in schema:
        return (
            []
            if any(not valid(data, one, root, at) for one in schema["anyOf"])
            else [f"{at}: none of the kinds"]
        )
    if "enum" in schema:
        return [] if data in schema["enum"] else [f"{at}: {data!r}"]
    kinds = schema["type"] if isinstance(schema["type"], list) else [schema["type"]]
    names = {
        "number": (int, float),
        "integer": int,
        "string": str,
        "boolean": bool,
        "null": type(None),
        "array": list,
        "object": dict,
    }
    if not any(
        isinstance(data, names[kind]) and (kind == "boolean" or not isinstance(data, bool))
        for kind in kinds
    ):
        return [f"{at}: {type(data).__name__} is no {kinds}"]
    if isinstance(data, dict):
        faults = [f"{at}.{key}: missing" for key in schema["required"] if key not in data]
        faults += [f"{at}.{key}: unknown" for key in data if key not in schema["properties"]]
        return faults + [
            f
            for key in data
            if key in schema["properties"]
            for f in valid(data[key], schema["properties"][key], root, f"{at}.{key}")
        ]
    if isinstance(data, list):
        each = schema.get("prefixItems") or [schema["items"]] * len(data)
        return [
            f
            for nth, (one, kind) in enumerate(zip(data, each, strict=True))
            for f in valid(one, kind, root, f"{at}[{nth}]")
        ]
    return []


@pytest.mark.parametrize("name", NAMES)
def test_the_data_is_json_and_what_its_schema_says(name: str) -> None:
    data = json.loads(json.dumps(answer_data(worked(name)), allow_nan=False))
    assert data["format"] == 1
    assert valid(data, answer_schema(), answer_schema()) == []


def test_the_schema_is_not_so_loose_that_anything_passes() -> None:
    data = answer_data(worked("hollow-spruce"))
    schema = answer_schema()
    for path, wrong in (
        (("format",), "one"),
        (("stand", "verdict"), "perhaps"),
        (("stand", "card"), {}),
        (("years",), 1.5),
    ):
        spoiled = json.loads(json.dumps(data))
        here = spoiled
        for key in path[:-1]:
            here = here[key]
        here[path[-1]] = wrong
        assert valid(spoiled, schema, schema), path
    assert valid({**data, "more": 1}, schema, schema)


def test_every_number_in_the_data_carries_its_unit_in_its_key_or_beside_it() -> None:
    bare = {
        "format", "years", "seed", "start_month", "use", "code_use", "demand", "capacity", "value", "count", "good", "median", "bad", "bad_low",
        "bad_high", "mean", "winter_error", "bags_80_lb", "total", "winters_low", "winters_high", "drop_share", "cold_drop_share",
        "ours_good", "ours_median", "ours_bad", "theirs", "most_in_series", "passive", "skin_friction", "per_engine_hour_saved",
        "moves_a_year", "group", "dull_under", "use_factor", "factor", "low", "high", "far", "starts", "failed_starts", "fills", "full_cycles", "cycling_loss",
        "fill", "fill_allowed", "jam_ratio", "friction", "strands", "order", "wedging",
        "weakest", "worst_use", "wear_mean", "winters", "times", "price", "pairs", "cells", "row", "column", "parts", "trucks", "washers", "seconds_per_deg", "cold_seconds_per_deg",
    }  # fmt: skip
    unit = re.compile(
        r"_(m|m2|m3|m4|mm|kg|kg_m|n|n_m|n_m3|pa|pa_m|m_s|c|deg|v|a|w|wh|wh_year|h|hours|s|l|k|days|share|by_month)$"
    )
    unknown: set[str] = set()

    def look(data: Any, key: str) -> None:
        if isinstance(data, dict):
            for inner, value in data.items():
                look(value, inner)
        elif isinstance(data, list):
            for value in data:
                look(value, key)
        elif (
            isinstance(data, (int, float))
            and not isinstance(data, bool)
            and key not in bare
            and not unit.search(key)
        ):
            unknown.add(key)

    look(answer_data(worked("cinder-mesa")), "")
    money = {
        "amount", "planned", "quoted", "paid", "still_to_pay", "grants_to_come", "slid_by", "build", "buy_low", "buy_high", "quote",
        "beside_quote", "falls_away", "perhaps", "grants", "grants_lost", "outlay", "saved_mean", "savings_worth", "worth", "worth_undiscounted",
        "worth_unlucky", "worth_lucky", "level_cost", "fuel_money", "wear_money", "money",
        "hour_low", "hour_high", "per_engine_hour", "engine_hour_worth", "rate",  # an hour
    }  # fmt: skip
    a_year_as_a_share, counts, hours = (
        {"returns", "fuel_rise"},
        {"slid_lines", "people"},
        {"hours", "hours_spared", "hours_to_set"},
    )
    # moves are (day, tilt) pairs, ledger lines and savings are in the ledger's own currency
    assert unknown <= money | a_year_as_a_share | counts | hours | {
        "moves",
        "lines",
        "saved_good",
        "saved_median",
        "saved_bad",
        "engine_hours_by_month",
    }


def test_what_has_no_end_is_null_in_the_data() -> None:
    answer = worked("hollow-spruce")
    endless = replace(
        answer, stand=replace(answer.stand, checks=(replace(answer.stand.checks[0], use=inf),))
    )
    assert answer_data(endless)["stand"]["checks"][0]["use"] is None


@pytest.mark.parametrize(
    ("use", "words"),
    [(0.0, "uses 0 of 100"), (0.741, "uses 75 of 100"), (0.999, "at its limit, 100 of 100"), (1.0, "at its limit, 100 of 100"),
     (1.0001, "gives: 101 of 100"), (1.12, "gives: 112 of 100"), (inf, "gives: far over"), (float("nan"), "gives: far over")],
)  # fmt: skip
def test_a_use_is_never_rounded_down(use: float, words: str) -> None:
    assert use_of(use) == words


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("style", ["feet", "metric"])
def test_no_line_of_text_is_wider_than_a_terminal_and_no_word_of_another_program_stands_in_it(
    name: str, style: str
) -> None:
    text = answer_text(worked(name), style)  # type: ignore[arg-type]
    assert max(len(line) for line in text.splitlines()) <= 78
    lowered = text.lower()
    for word in (
        "safe ",
        "performance ratio",
        "unmet",
        "excess",
        "autonomy",
        "capacity factor",
        "nan",
        "inf ",
    ):
        assert word not in lowered, word
    assert "screening sums, not a stamped design" in lowered.replace("\n", " ")


def test_assumed_values_carry_the_mark_in_every_output() -> None:
    answer = worked("hollow-spruce")
    assert "~ place.exposure = C" in answer_text(answer, "feet")
    assert (
        next(row for row in answer_data(answer)["rows"] if row["key"] == "exposure")["standing"]
        == "assumed"
    )
    assert "~exposure C" in pdf_text(one_page(answer, "feet"))


def test_a_design_that_gives_says_no_first() -> None:
    answer = worked("hollow-spruce")
    weak = replace(answer.stand.checks[0], use=1.3)
    broken = replace(
        answer,
        stand=replace(answer.stand, verdict="gives", checks=(weak, *answer.stand.checks[1:])),
    )
    assert three_answers(broken, "feet")[0].answer.startswith("No: ")
    assert failing(broken) == (weak,)
    assert "THE SUMS SAY NO" in pdf_text(one_page(broken, "feet"))
    assert "do not build it so" in answer_text(broken, "feet")


@pytest.mark.parametrize("name", demo_names())
def test_where_nothing_is_priced_no_face_says_when_it_is_paid_for(name: str) -> None:
    answer = worked(name)
    guessed = tuple(
        (part, amount, True) for part, amount, _ in answer.money.lines[:1]
    )  # as concrete at a price nobody gave
    unpriced = replace(answer, money=replace(answer.money, lines=guessed))
    told = three_answers(unpriced, "feet")[2]
    assert told.answer == "Not yet: nothing is priced in the file."
    text = money_text(unpriced, (), "feet")
    assert UNPRICED in text.replace("\n  ", " ")
    for words in (*told.beside, text):
        assert not re.search("[Pp]aid (for )?after|Worth today|never paid", words)
    assert re.search("[Pp]aid (for )?after|never paid", f"{three_answers(answer, 'feet')[2]}")
    assert "Worth today" in money_text(answer, (), "feet")


def pdf_text(pdf: bytes) -> str:
    return words_of(pdf)


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("style", ["feet", "metric"])
def test_the_sheet_is_one_page_of_the_owners_paper_with_the_three_answers(
    name: str, style: str
) -> None:
    answer = worked(name)
    pdf = one_page(answer, style)  # type: ignore[arg-type]
    pages = PdfReader(io.BytesIO(pdf)).pages
    assert len(pages) == 1
    width = float(pages[0].mediabox.width) / 72 * 25.4
    assert width == pytest.approx(215.9 if style == "feet" else 210.0, abs=0.2)
    text = re.sub(r"\s+", " ", pdf_text(pdf))
    for said in three_answers(answer, style):  # type: ignore[arg-type]
        assert said.question in text
        assert said.answer in text
    assert answer.fingerprint in text


def test_the_same_answer_gives_the_same_bytes_of_paper() -> None:
    answer = worked("cinder-mesa")
    assert one_page(answer, "feet") == one_page(answer, "feet")


def boxes(svg: str, ink: Ink, size: float) -> list[tuple[str, float, float, float, float]]:
    """Every text of a drawing with its box, letters taken as wide as the face's mean."""
    found = []
    for text in ET.fromstring(svg).iter(f"{SVG}text"):  # noqa: S314  our own drawing
        words, high = text.text or "", float(text.get("font-size", size))
        wide = len(words) * high * ink.letter
        x, y = float(text.get("x", 0)), float(text.get("y", 0))
        x -= {"start": 0.0, "middle": wide / 2, "end": wide}[text.get("text-anchor", "start")]
        found.append((words, x, y - high * 0.75, x + wide, y + high * 0.2))
    return found


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize(("ink", "size"), [(PAPER, 14.0), (SCREEN, 14.0), (SCREEN, 17.0)])
@pytest.mark.parametrize("tilt", [5.0, 30.0, 65.0, 75.0])
def test_no_label_of_the_elevation_overlaps_another_or_leaves_the_field(
    name: str, ink: Ink, size: float, tilt: float
) -> None:
    answer = worked(name)
    svg = elevation(answer, answer.units, tilt, ink, 802.0, 600.0 if ink is SCREEN else 424.0, size)
    drawn = boxes(svg, ink, size)
    for words, x1, y1, x2, y2 in drawn:
        assert x1 >= 0.0, words
        assert x2 <= 802.0, words
        assert y1 >= 0.0, words
        assert y2 <= 600.0, words
    for one, two in combinations(drawn, 2):
        apart = one[3] <= two[1] or two[3] <= one[1] or one[4] <= two[2] or two[4] <= one[2]
        assert apart, (one[0], two[0])


@pytest.mark.parametrize("name", NAMES)
def test_every_drawing_is_sound_and_has_words_for_those_who_do_not_see_it(name: str) -> None:
    answer = worked(name)
    for svg in (
        elevation(answer, "feet", 40.0, PAPER),
        gust_card(answer.stand, "metric", PAPER),
        year_picture(answer, SCREEN),
    ):
        root = ET.fromstring(svg)  # noqa: S314  our own drawing
        assert root.find(f"{SVG}title") is not None
        words = root.find(f"{SVG}desc")
        assert words is not None
        assert len(words.text or "") > 40
        assert "style=" not in svg
        assert "nan" not in svg


def test_the_year_hangs_a_stroke_for_every_five_engine_hours() -> None:
    answer = worked("hollow-spruce")
    svg = year_picture(answer, SCREEN)
    strokes = len(re.findall(rf'stroke-width="({THIN}|{HEAVY})"', svg))
    winter = answer.winter
    hours = (*winter.without.engine_hours_by_month, *winter.with_new.engine_hours_by_month)
    assert strokes == sum(round(month / 5.0) for month in hours)
