"""The string map: every module once, neighbours joined, as few strings in the lowest row as can be."""

from __future__ import annotations

from itertools import pairwise
from math import ceil, hypot

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from polestead.base.problem import Wrong
from polestead.homestead.demos import demo_path
from polestead.homestead.read import read_homestead
from polestead.wiring.drawn.string_map import string_map_of


def array(columns: int, rows: int, in_series: int, **more):
    sheet = read_homestead(demo_path("hollow-spruce")).homestead.array
    change = {"columns": columns, "rows": rows, "in_series": in_series, "in_parallel": columns * rows // in_series, "slot_m": 0.0}  # fmt: skip
    return sheet.model_copy(update={**change, **more})


@st.composite
def layouts(draw):
    columns, rows = draw(st.integers(1, 20)), draw(st.integers(1, 10))
    lengths = [n for n in range(1, 41) if (columns * rows) % n == 0 and columns * rows // n <= 40]
    lie = draw(st.sampled_from(["portrait", "landscape"]))
    return (
        array(columns, rows, draw(st.sampled_from(lengths)), lie=lie) if lengths else array(1, 1, 1)
    )


@settings(max_examples=80, deadline=None)
@given(layouts(), st.sampled_from(["back", "front"]))
def test_every_module_hangs_once_and_strings_go_from_neighbour_to_neighbour(one, seen) -> None:
    found = string_map_of(one, seen)
    places = {(spot.column, spot.row) for spot in found.spots}
    assert len(found.spots) == len(places) == one.columns * one.rows
    assert places == {(c, r) for c in range(1, one.columns + 1) for r in range(1, one.rows + 1)}
    letters = {spot.string for spot in found.spots}
    assert len(letters) == one.in_parallel
    for letter in letters:
        chain = found.of_string(letter)
        assert [spot.number for spot in chain] == list(range(1, one.in_series + 1))
        for a, b in pairwise(chain):
            assert abs(a.column - b.column) + abs(a.row - b.row) == 1


@settings(max_examples=80, deadline=None)
@given(layouts())
def test_the_lowest_row_lies_in_as_few_strings_as_can_be(one) -> None:
    found = string_map_of(one)
    # No fewer can be: a string has only so many modules.
    assert found.low_row_strings == ceil(one.columns / one.in_series)
    alone = one.columns % one.in_series == 0
    assert found.low_row_alone is (alone or one.rows == 1)
    assert all(one.columns % n == 0 for n in found.clean_lengths)
    if one.in_series in found.clean_lengths:
        assert found.low_row_alone


@settings(max_examples=60, deadline=None)
@given(layouts())
def test_both_ends_of_every_string_come_out_and_no_wire_is_shorter_than_the_straight_way(
    one,
) -> None:
    found = string_map_of(one)
    ends = {(run.string, run.sign): run for run in found.home_runs}
    assert len(ends) == len(found.home_runs) == 2 * one.in_parallel
    for run in found.home_runs:
        (spot,) = [s for s in found.of_string(run.string) if s.number == run.number]
        assert run.length_m >= hypot(spot.along_m, spot.up_m)
        assert run.number == (1 if run.sign == "-" else one.in_series)
    assert found.wire_m == pytest.approx(sum(run.length_m for run in found.home_runs))


def test_the_front_is_the_back_mirrored() -> None:
    back, front = (string_map_of(array(4, 2, 4), seen) for seen in ("back", "front"))
    for a, b in zip(back.spots, front.spots, strict=True):
        assert (a.label, a.row) == (b.label, b.row)
        assert a.column == 5 - b.column
        assert a.along_m == pytest.approx(-b.along_m)


def test_four_by_two_in_fours_is_as_drawn_by_hand() -> None:
    found = string_map_of(array(4, 2, 4))
    rows = {row: [s.label for s in sorted(found.spots, key=lambda s: s.column) if s.row == row] for row in (1, 2)}  # fmt: skip
    assert rows == {1: ["A1", "A2", "A3", "A4"], 2: ["B4", "B3", "B2", "B1"]}
    assert found.split_cleanly
    # 1134 mm wide, 3/4 in apart: 1.153 m from middle to middle
    assert found.links_m == pytest.approx(1.134 + 0.01905)
    # End of the row: 1.5 pitches along, half a module and half a gap up: (1.7296 + 0.8905) x 1.2
    assert found.home_runs[0].length_m == pytest.approx(3.144, abs=0.002)


def test_what_does_not_split_is_told_with_what_would() -> None:
    found = string_map_of(array(2, 3, 3, lie="landscape"))
    assert not found.split_cleanly
    assert not found.low_row_alone
    assert any("In strings of 2" in words for words in found.words)


def test_modules_left_over_are_refused() -> None:
    with pytest.raises(Wrong, match="8, all modules"):
        string_map_of(array(4, 2, 3))
