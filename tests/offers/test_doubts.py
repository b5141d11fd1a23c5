from __future__ import annotations

import pytest

from polestead.base.row import Row
from polestead.base.table import table
from polestead.homestead.demos import demo_names, demo_path
from polestead.homestead.model import Homestead
from polestead.homestead.read import read_homestead
from polestead.offers.doubts import MEASURE, ORDER, _fields, doubts_of


def row(section: str, key: str, standing) -> Row:
    return Row(section, key, "as written", 1.0, "", standing)


WIND = row("place", "wind_speed", "assumed")
SOIL = row("place", "soil", "assumed")
IDLE = row("household.inverter", "idle", "default")
POLE = row("mount", "pole", "assumed")


def test_only_what_nobody_has_said_is_in_doubt() -> None:
    settled = [row("mount", "hinge_height", s) for s in ("planned", "built", "said")]
    assert [doubt.row for doubt in doubts_of([*settled, WIND])] == [WIND]


def test_facts_of_the_place_stand_first_in_the_order_of_the_file() -> None:
    doubts = doubts_of([IDLE, POLE, WIND, SOIL])
    assert [doubt.row for doubt in doubts] == [WIND, SOIL, POLE, IDLE]
    assert [doubt.of_the_place for doubt in doubts] == [True, True, False, False]


def test_a_fact_of_the_place_names_whom_to_ask_and_the_trap() -> None:
    (doubt,) = doubts_of([WIND])
    assert doubt.act.startswith("The county building office")
    assert "three-second gust" in doubt.act
    assert "edition" in doubt.trap
    assert doubt.brief == doubt.act.partition(":")[0]
    assert (doubt.in_full, doubt.write_at) == (doubt.act, "")


def test_what_can_be_measured_is_to_be_measured() -> None:
    (doubt,) = doubts_of([IDLE])
    assert (doubt.act, doubt.write_at) == ("Read it off the inverter's sheet.", "[household.inverter] idle")  # fmt: skip
    assert doubt.in_full == "Read it off the inverter's sheet, and write it at [household.inverter] idle."  # fmt: skip
    assert doubt.brief == "Read it off the inverter's sheet"


def test_what_settles_a_row_is_of_its_key_else_of_its_section_else_of_what_holds_it() -> None:
    told = {
        ("place", "electrical_code"): "Ask the electrical inspector which code he goes by.",
        ("household.old_array porch.module", "voltage_change"): "Read the label on a module's back, or look for its bill.",
        ("household.controller[0]", "efficiency"): "Read it off the controller's sheet, or ask its maker.",
        ("spot the knoll.view.skyline 1", "away"): "Walk there with compass, fist, tape and auger.",
        ("", "name"): MEASURE,
    }  # fmt: skip
    for (section, key), act in told.items():
        (doubt,) = doubts_of([row(section, key, "default")])
        assert doubt.act == act


@pytest.mark.parametrize("name", demo_names())
def test_no_row_of_a_demo_is_without_an_act_of_its_own_kind(name: str) -> None:
    rows = read_homestead(demo_path(name)).rows
    assert [doubt.row.key for doubt in doubts_of(rows) if doubt.act == MEASURE] == []


def test_every_act_is_of_a_section_and_a_key_of_the_file() -> None:
    known = {(section, key) for section, key, _ in _fields(Homestead, "")}
    sections = {section for section, _ in known}
    for one in table("offers", "acts"):
        assert one["section"] in sections, one
        assert not one["key"] or (one["section"], one["key"]) in known, one
        assert one["act"].endswith("."), one


def test_rows_of_a_list_are_found_whatever_their_number() -> None:
    for section in ("household.controller[0]", "household.controller.1"):
        (doubt,) = doubts_of([row(section, "efficiency", "default")])
        assert section in doubt.write_at


def test_a_key_of_the_same_name_elsewhere_is_no_fact_of_the_place() -> None:
    (doubt,) = doubts_of([row("mount", "wind_speed", "assumed")])
    assert not doubt.of_the_place


def test_the_owner_is_told_where_the_ranking_is() -> None:
    assert "polestead doubts FILE" in ORDER
