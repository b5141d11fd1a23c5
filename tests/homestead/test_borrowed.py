"""A default is told by the file's own codes and in its own yard's lengths; what is taken from elsewhere says so."""

from __future__ import annotations

import re

import pytest

from polestead.base.row import Row
from polestead.base.show import default_words
from polestead.homestead.demos import demo_path
from polestead.homestead.read import check_text, read_homestead

AMERICAN = re.compile(r"\b(ASCE|IBC|ACI|AISC|NEC|UL) ")
EUROPEAN = re.compile(r"\bEN (19|5)")


def defaults(demo: str) -> list[Row]:
    return [row for row in read_homestead(demo_path(demo)).rows if row.standing == "default"]


def source(rows: list[Row], key: str) -> str:
    (one,) = [row.source for row in rows if f"{row.section}.{row.key}" == key]
    return one


def test_an_american_clause_in_a_european_file_is_told_as_borrowed() -> None:
    rows = defaults("slieve-moss")
    strange = [row for row in rows if AMERICAN.search(row.source)]
    assert [row.key for row in strange] == ["concrete"]
    assert all(row.source.startswith("borrowed from the United States: ") for row in strange)
    assert source(rows, "run.terminals") == "IEC 60364-5-52, wires of 70 C (from memory)"


@pytest.mark.parametrize("demo", ["hollow-spruce", "cinder-mesa"])
def test_an_american_file_names_no_european_clause(demo: str) -> None:
    rows = defaults(demo)
    assert [row.source for row in rows if EUROPEAN.search(row.source)] == []
    assert source(rows, "run.terminals") == "NEC 110.14(C) (from memory)"
    assert source(rows, "place.topographic_factor") == "ASCE 7-16, 26.8.2"


def test_canada_has_its_own_and_borrows_the_rest() -> None:
    text = demo_path("hollow-spruce").read_text(encoding="utf-8")
    _, rows = check_text(text.replace("wind_basis =", 'electrical_code = "Canada"\nwind_basis ='))
    said = {f"{row.section}.{row.key}": row.source for row in rows}
    assert said["run.breaker"] == "CSA C22.1, Table 13 (from memory)"
    assert said["footing.concrete"] == "IBC 2012, Table 1808.8.1 (from memory)"


def test_the_later_edition_is_not_told_to_have_been_read() -> None:
    text = demo_path("hollow-spruce").read_text(encoding="utf-8")
    _, rows = check_text(text.replace('wind_basis = "ASCE 7-16"', 'wind_basis = "ASCE 7-22"'))
    said = {row.key: row.source for row in rows}
    assert said["risk_category"] == "ASCE 7-16, Table 1.5-1; ASCE 7-22 not seen (from memory)"


def test_a_metric_file_buys_in_metres_and_its_leaf_has_no_inches() -> None:
    for demo, other in (("slieve-moss", r" (in|ft|psi)$"), ("hollow-spruce", r"\d (mm|m|kPa)$")):
        rows = defaults(demo)
        style = read_homestead(demo_path(demo)).homestead.units
        told = {f"{row.section}.{row.key}": default_words(row.written, row.value, row.unit, style) for row in rows}  # fmt: skip
        assert {key: words for key, words in told.items() if re.search(other, words)} == {}
        assert told["shop.rebar_lengths"] == ("6 m" if style == "metric" else "20 ft")
