"""Every way to string them, as the owner reads it."""

from __future__ import annotations

from dataclasses import replace

import pytest

from polestead.answer.stands import layouts_in
from polestead.homestead.demos import demo_names, demo_path
from polestead.homestead.read import read_homestead
from polestead.sheets.wires.strings import strings_lines
from polestead.wiring.layouts import layouts_of
from tests.wiring.demos import SPRUCE, array, controller, house, old_array, place


def demo(name, held_back=None):
    return layouts_in(read_homestead(demo_path(name)).homestead, held_back)


def text(result) -> str:
    return "\n".join(strings_lines(result))


@pytest.mark.parametrize("name", demo_names())
def test_every_row_fits_the_page_and_tells_volts_left(name):
    lines = text(demo(name)).splitlines()
    assert max(len(line) for line in lines) <= 78
    rows = [line for line in lines if " of " in line and line.rstrip().endswith(("pole", "roof", "porch"))]  # fmt: skip
    told = demo(name)
    assert len(rows) == len(told.new) + sum(len(one.layouts) for one in told.old)


def test_the_row_of_the_file_is_marked_and_says_what_is_left():
    (row,) = (line for line in text(demo("slieve-moss")).splitlines() if line.startswith("  > "))
    assert "4 x 2" in row
    assert "172 V" in row
    assert "177 V" in row
    assert "+78 of 250 V" in row


def test_what_is_held_back_in_a_year_is_told_where_it_was_worked():
    assert "kWh held back" not in text(demo("cinder-mesa"))
    assert "12 kWh held back in a mean year" in " ".join(
        text(demo("cinder-mesa", {"pole": 12400.0, "porch": 0.0})).split()
    )


def test_what_nobody_can_say_is_refused_in_words():
    bare = old_array(change=None)
    roof = controller("150 V", "60 A").model_copy(update={"name": "roof"})
    told = layouts_of(place("-47 F"), SPRUCE[1], house((SPRUCE[2], roof), (bare,)), SPRUCE[3])
    said = " ".join(text(told).split())
    assert "? of 150 V" in said
    assert "at -44 C nobody can say what the string shows" in said


def test_a_house_with_no_layout_that_can_be_laid_still_reads():
    many = array(10, 4, "440 W", "39.5 V", "32.9 V", "14.0 A", "13.4 A", "-0.25 %/C", 10, 4)
    told = layouts_of(place("-47 F"), many, house((SPRUCE[2],)), SPRUCE[3])
    unlaid = replace(told, new=tuple(one for one in told.new if one.hot_v is None))
    assert {one.in_series for one in unlaid.new} == {1, 2}  # 40 and 20 strings: 875 and 437 A
    assert "no more than 400 A" in text(unlaid)
