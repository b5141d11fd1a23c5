"""The file field by field: what is typed goes into the file as it is meant, and nothing is listed by hand."""

from __future__ import annotations

import tomllib
from datetime import date
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from polestead.homestead.demos import demo_names, demo_path
from polestead.homestead.edits import Change, back_from, text_with, value_at
from polestead.homestead.entries import (
    Said,
    echo,
    field_at,
    from_typed,
    parts_of,
    typed,
    value_from,
    ways,
)
from polestead.homestead.read import check_text
from polestead.homestead.write import Begun

TEXTS = {name: demo_path(name).read_text(encoding="utf-8") for name in demo_names()}


@pytest.mark.parametrize("name", demo_names())
def test_every_written_value_is_typed_and_read_back_to_itself(name: str) -> None:
    text = TEXTS[name]
    count = 0
    for line in parts_of(text, None).every_line():
        held = value_at(text, line.path)
        if held is None:
            continue
        info = field_at(line.path)
        assert info is not None, line.path
        said = Said(line.written, line.base, line.built, line.asked_of, line.on, line.why)
        assert value_from(info, held, said) == held, line.path
        count += 1
    assert count > 120


@pytest.mark.parametrize("name", demo_names())
def test_every_key_of_the_file_has_a_field(name: str) -> None:
    text = TEXTS[name]
    fields = {line.path for line in parts_of(text, None).every_line()}

    def leaves(here: Any, at: tuple[str, ...]) -> Any:
        if at in fields:
            yield at
        elif isinstance(here, dict):
            for key, inner in here.items():
                yield from leaves(inner, (*at, key))
        elif isinstance(here, list):
            for number, inner in enumerate(here, start=1):
                yield from leaves(inner, (*at, str(number)))
        else:
            pytest.fail(f"{at} has no field")

    assert len(list(leaves(tomllib.loads(text), ()))) > 120


def test_fields_that_change_nothing_say_so() -> None:
    homestead, _ = check_text(TEXTS["hollow-spruce"])
    lines = {line.path: line for line in parts_of(TEXTS["hollow-spruce"], homestead).every_line()}
    assert lines["place", "ice_gust"].idle
    assert lines["run", "conduit"].idle
    assert not lines["place", "exposure"].idle


@pytest.mark.parametrize(
    ("path", "text", "held"),
    [
        (("mount", "hinge_height"), "12 ft", "12 ft"), (("array", "columns"), "4", 4), (("array", "columns"), "4.5", 4.5),
        (("array", "columns"), "four", "four"), (("array", "swept"), "Yes", True), (("array", "swept"), "perhaps", "perhaps"),
        (("place", "clock_offset_hours"), "−6", -6), (("lock", "holes"), "5 deg\n\n 15 deg ", ["5 deg", "15 deg"]),
        (("climate", "snow_on_ground"), "11\n12", [11, 12]), (("view", "read_on"), "2026-09-14", date(2026, 9, 14)),
        (("view", "read_on"), "last week", "last week"), (("format",), "1", 1), (("household", "uses", "x"), "9 W, all day", "9 W, all day"),
        (("prices", "lines", "x"), "-200.50", -200.5), (("place", "setback"), "  ", None),
    ],
)  # fmt: skip
def test_what_is_typed_becomes_what_the_file_holds(
    path: tuple[str, ...], text: str, held: Any
) -> None:
    info = field_at(path)
    assert info is not None
    assert from_typed(info, text) == held
    assert type(from_typed(info, text)) is type(held)


@pytest.mark.parametrize(
    ("path", "text", "meant"),
    [
        (("mount", "hinge_height"), "12", ("12 ft", "12 in", "12 m")), (("mount", "hinge_height"), "3,5 m", ("3.5 m",)),
        (("household", "battery", "health"), "0.9", ("90 %",)), (("place", "wind_speed"), "115", ("115 mph", "115 kt", "115 km/h")),
        (("mount", "pole"), "12", ()), (("place", "soil"), "sandy gravel", ("sandy gravel or gravel",)),
    ],
)  # fmt: skip
def test_what_may_be_meant_always_fits(
    path: tuple[str, ...], text: str, meant: tuple[str, ...]
) -> None:
    info = field_at(path)
    assert info is not None
    found = ways(info, text, "feet")
    assert set(meant) <= set(found) if meant else found == ()
    for way in found:
        echo(info, way)


@given(st.text(max_size=30))
@settings(max_examples=60, deadline=None)
def test_nothing_that_is_typed_breaks_the_reading(text: str) -> None:
    for path in (
        ("mount", "hinge_height"),
        ("array", "columns"),
        ("lock", "holes"),
        ("place", "soil"),
        ("view", "read_on"),
    ):
        info = field_at(path)
        assert info is not None
        ways(info, text, "metric")
        typed(from_typed(info, text))


def test_sections_that_are_wanted_are_begun_each_under_its_heading() -> None:
    text = TEXTS["hollow-spruce"]
    changes = [
        Change(("shop", "kerf"), "3 mm"), Change(("household", "controller", "+"), {"name": "shed"}),
        Change(("household", "controller", "3", "voltage_limit"), "150 V"), Change(("place", "hill"), Begun({"shape": "ridge"})),
        Change(("household", "uses", "the goats' fence"), "9 W, all day"),
    ]  # fmt: skip
    new = text_with(text, changes)
    held = tomllib.loads(new)
    assert held["shop"] == {"kerf": "3 mm"}
    assert held["household"]["controller"][2] == {"name": "shed", "voltage_limit": "150 V"}
    assert held["place"]["hill"] == {"shape": "ridge"}
    lines = new.splitlines()
    for heading in ("[shop]", "[place.hill]", "[[household.controller]]", "[climate]"):
        for at in (number for number, line in enumerate(lines) if line == heading):
            assert lines[at - 1] == "", heading
    rest = iter(lines)
    assert all(
        line in rest for line in text.splitlines()
    )  # the owner's own lines, all of them, in their order


def test_a_change_is_taken_back_by_its_own_back() -> None:
    text = TEXTS["hollow-spruce"]
    for change in (Change(("mount", "hinge_height"), "12 ft"), Change(("place", "height_limit"), None), Change(("lock", "play"), "1 mm"),
                   Change(("household", "uses", "new"), "9 W, all day")):  # fmt: skip
        back = back_from(text, change)
        assert back is not None
        assert tomllib.loads(text_with(text_with(text, [change]), [back])) == tomllib.loads(text)
    assert back_from(text, Change(("household", "controller", "+"), {})) is None
