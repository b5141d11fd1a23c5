"""Layouts and sizes: by hand for a made-up array, against the layout of the file, and as laws."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from polestead.base.problem import Wrong
from polestead.wiring.choices import METALS, choices_of, series_of
from polestead.wiring.run.conductor import area_mm2, sizes
from polestead.wiring.wiring import wiring_of
from tests.wiring.demos import MESA, SPRUCE, array, controller, place, run

PLACE, ARRAY, POLE, RUN, NOMINAL_V = SPRUCE


def choices(low="-47 F", strung=ARRAY, controllers=(POLE,), laid=RUN):
    return choices_of(place(low), strung, controllers, laid, NOMINAL_V)


def by_strings(found, in_series, name="new"):
    return next(
        one for one in found.layouts if (one.in_series, one.controller) == (in_series, name)
    )


def test_every_layout_leaves_no_module_over():
    assert [series_of(n) for n in (1, 6, 9)] == [(1,), (1, 2, 3, 6), (1, 3, 9)]
    assert all(one.in_series * one.in_parallel == 8 for one in choices().layouts)
    assert {one.in_series for one in choices().layouts} == {1, 2, 4, 8}


def test_the_margin_by_hand():
    """-47 F is -43.89 C: 39.5 x (1 + .0025 x 68.89) = 46.303 V a module; four: 185.2, with 3 % or 5 V 190.8; 250 leaves 59.2."""
    four, eight = by_strings(choices(), 4), by_strings(choices(), 8)
    assert four.cold_with_margin_v == pytest.approx(190.77, abs=0.02)
    assert four.margin_v == pytest.approx(59.23, abs=0.02)
    assert eight.margin_v == pytest.approx(250.0 - 1.03 * 370.42, abs=0.05)
    assert four.faults == ()


def test_a_layout_that_kills_the_controller_is_refused_and_comes_after_those_that_hold():
    found = choices()
    eight = by_strings(found, 8)
    assert "cold voltage against the controller's limit" in eight.faults
    held = [not one.faults for one in found.layouts]
    assert held == sorted(held, reverse=True)
    assert found.layouts[0].in_series == 4


def test_the_dwelling_counts_where_the_controller_bears_more():
    found = choices(controllers=(controller("1000 V", "80 A"),), strung=array(16, 1, "440 W", "39.5 V", "32.9 V", "14.0 A", "13.4 A", "-0.25 %/C", 4, 4))  # fmt: skip
    sixteen = by_strings(found, 16)
    assert sixteen.limit_v == 600.0
    assert "cold voltage against the limit in a dwelling" in sixteen.faults


def test_each_controller_has_its_own_rows_and_the_chosen_one_is_told():
    small = controller("150 V", "20 A").model_copy(update={"name": "small"})
    found = choices(controllers=(POLE, small))
    assert [(one.controller, one.in_series) for one in found.layouts if one.chosen] == [("new", 4)]
    assert by_strings(found, 4, "small").margin_v == pytest.approx(-40.77, abs=0.02)
    assert by_strings(found, 4, "small").held_back_w == pytest.approx(8 * 440.0 - 20.0 * 48.0)
    assert by_strings(found, 4).held_back_w == 0.0


def test_from_three_strings_each_wants_a_fuse():
    assert [by_strings(choices(), n).string_fuses for n in (8, 4, 2, 1)] == [
        False,
        False,
        True,
        True,
    ]


@pytest.mark.parametrize("house", [SPRUCE, MESA])
def test_the_layout_of_the_file_is_told_as_the_answer_tells_it(house):
    where, strung, one, laid, volts, *_ = house
    found = choices_of(where, strung, (one,), laid, volts)
    told = wiring_of(where, strung, one, laid.model_copy(update={"breaker_a": None}), volts)
    (mine,) = (layout for layout in found.layouts if layout.chosen)
    assert (mine.cold_with_margin_v, mine.drop_share, mine.breaker_a) == (
        told.cold_with_margin_v, told.drop_share, told.breaker_a,
    )  # fmt: skip
    (size,) = (one for one in found.sizes if one.chosen)
    assert size.drop_v == told.drop_v


def test_more_than_one_run_may_carry_is_a_fault_of_the_layout_not_of_the_file():
    many = array(10, 4, "440 W", "39.5 V", "32.9 V", "14.0 A", "13.4 A", "-0.25 %/C", 10, 4)
    alone = by_strings(choices(strung=many), 1)
    assert alone.breaker_a is None
    assert alone.margin_v is None
    assert "400 A" in alone.faults[0]


def test_every_size_of_both_metals_and_the_thinnest_that_will_do():
    """43.75 A for hours: copper 8 AWG bears 50 A at its terminals and 55 x .87 = 47.9 A in the heat, 10 AWG 35; aluminium 6 AWG 50 and 52."""
    found = choices()
    assert {(one.metal, one.size) for one in found.sizes} == {(m, s) for m in METALS for s in sizes(m)}  # fmt: skip
    assert found.thinnest("copper").size == "8 AWG"
    assert found.thinnest("aluminium").size == "6 AWG"
    assert next(one for one in found.sizes if one.size == "8 AWG" and one.metal == "copper").carries_a == pytest.approx(47.85)  # fmt: skip


def test_a_wire_that_takes_the_charging_voltage_is_refused():
    far = choices(laid=run("3000 ft", "8 AWG"), strung=array(4, 1, "440 W", "39.5 V", "32.9 V", "14.0 A", "13.4 A", "-0.25 %/C", 4, 1))  # fmt: skip
    thin = next(one for one in far.sizes if one.size == "12 AWG" and one.metal == "copper")
    assert "working voltage in summer heat, enough to charge" in thin.faults


def test_a_wire_no_table_knows_is_asked_back():
    with pytest.raises(Wrong, match="given string"):
        choices(laid=RUN.model_copy(update={"size": "string"}))


@settings(max_examples=25, deadline=None)
@given(st.floats(-60.0, 20.0), st.floats(0.1, 30.0), st.floats(10.0, 400.0), st.floats(1.01, 3.0))
def test_colder_never_leaves_more_and_longer_or_thinner_never_loses_less(low_c, colder, length_m, longer):  # fmt: skip
    here, there = (
        choices_of(PLACE.model_copy(update={"record_low_c": t}), ARRAY, (POLE,), RUN.model_copy(update={"length_m": m}), NOMINAL_V)
        for t, m in ((low_c, length_m), (low_c - colder, longer * length_m))
    )  # fmt: skip
    for n in series_of(8):
        assert by_strings(there, n).margin_v < by_strings(here, n).margin_v
        assert by_strings(there, n).drop_share > by_strings(here, n).drop_share
    for metal in METALS:
        family = [one for one in here.sizes if one.metal == metal and one.size.endswith("AWG")]
        family.sort(key=lambda one: area_mm2(one.size))
        lost = [one.drop_v for one in family]
        assert lost == sorted(lost, reverse=True)
