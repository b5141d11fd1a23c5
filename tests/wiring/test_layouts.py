"""Every way to string new and old arrays: the three demos by hand, what must be refused, and laws."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from polestead.base.problem import Wrong
from polestead.homestead.demos import demo_path
from polestead.homestead.read import read_homestead
from polestead.wiring.layouts import layouts_of, series_of
from polestead.wiring.result import AtThePole
from polestead.wiring.run.hinge_cable import ONE_CORD
from polestead.wiring.strings.heat import HEAT_CHECK
from polestead.wiring.strings.together import AMPS_CHECK, MATCH_CHECK
from polestead.wiring.strings.voltage import (
    CONTROLLER_CHECK,
    DWELLING_CHECK,
    LABEL_CHECK,
    UNKNOWN_CHECK,
)
from polestead.wiring.wiring import wiring_of
from tests.wiring.demos import (
    BANK,
    MESA,
    MOSS,
    SPRUCE,
    array,
    controller,
    house,
    old_array,
    place,
    run,
)

PLACE, ARRAY, POLE, RUN, _ = SPRUCE
ROOF = controller("150 V", "60 A").model_copy(update={"name": "roof"})


def layouts(low="-47 F", strung=ARRAY, controllers=(POLE,), laid=RUN, old=(), **more):
    return layouts_of(place(low), strung, house(controllers, old), laid, **more)


def by_strings(found, in_series, name="new"):
    return next(one for one in found if (one.in_series, one.controller) == (in_series, name))


def demo(name):
    file = read_homestead(demo_path(name)).homestead
    return layouts_of(file.place, file.array, file.household, file.run)


def test_every_layout_leaves_no_module_over():
    assert [series_of(n) for n in (1, 6, 9)] == [(1,), (1, 2, 3, 6), (1, 3, 9)]
    assert all(one.in_series * one.in_parallel == 8 for one in layouts().new)
    assert {one.in_series for one in layouts().new} == {1, 2, 4, 8}


def test_the_cold_snowy_demo_by_hand():
    """Spruce, -47 F = -43.89 C, 68.89 K under 25.

    Dawn: 39.5 x (1 + .0025 x 68.89) = 46.303 V; four 185.2, margin 3 % = 5.56 > 5: 190.8; 250 leaves 59.2; five 238.5, 11.5.
    Heat: cells 45 + 1000/31.84 = 76.41 C; 32.9 - 39.5 x .0025 x 51.41 = 27.824; four 111.29; x .97 x .94 = 101.48; run 3.63: 97.8.
    Wanted: 24 x 2.45 + 5 = 63.8; equalizing 24 x 2.58 + 5 = 66.92.  Isc 28 A, 35, 43.75: breaker 45.
    """
    four = demo("hollow-spruce").chosen
    assert (four.controller, four.in_series, four.in_parallel) == ("pole", 4, 2)
    assert four.cold_v == pytest.approx(185.21, abs=0.02)
    assert four.cold_with_margin_v == pytest.approx(190.77, abs=0.02)
    assert four.margin_v == pytest.approx(59.23, abs=0.02)
    assert four.one_more_margin_v == pytest.approx(250.0 - 1.03 * 5 * 46.303, abs=0.02)
    assert four.table_voltage_v is None
    assert four.wanted_v == pytest.approx(63.8)
    assert four.hot_v == pytest.approx(101.48 - 3.63, abs=0.03)
    assert four.hot_margin_v == pytest.approx(34.05, abs=0.05)
    assert four.equalize_margin_v == pytest.approx(97.85 - 66.92, abs=0.03)
    assert (four.short_circuit_a, four.bright_a, four.steady_a, four.breaker_a) == (
        28.0,
        35.0,
        43.75,
        45.0,
    )
    assert four.fuse.back_feed_a == 17.5
    assert not four.fuse.wanted
    assert four.faults == ()


def test_the_old_roof_of_the_cold_snowy_demo_by_hand():
    """Its label: 37.9 x (1 + .0034 x 68.89) = 46.777 V; three 140.33, margin 5 V: 145.33; 150 leaves 4.67; four 187.11 and 3 %.

    Heat: 30.8 - 37.9 x .0034 x 51.41 = 24.175; three 72.53; x .97 x .94 = 66.13 against 63.8: it charges.
    Two strings: the other one pushes 1.25 x 9.2 = 11.5 A back: asked of the label, no fuse from two strings on by itself.
    """
    (roof,) = demo("hollow-spruce").old
    now = next(one for one in roof.layouts if one.chosen)
    assert (now.array, now.controller, now.in_series, now.in_parallel) == ("roof", "roof", 3, 2)
    assert now.cold_with_margin_v == pytest.approx(145.33, abs=0.02)
    assert now.margin_v == pytest.approx(4.67, abs=0.02)
    assert now.one_more_margin_v == pytest.approx(150.0 - 187.11 * 1.03, abs=0.03)
    assert now.hot_v == pytest.approx(66.13, abs=0.02)
    assert now.faults == ()
    assert now.fuse.back_feed_a == pytest.approx(11.5)
    assert not now.fuse.wanted
    assert now.drop_share is None


def test_the_dry_windy_demo_by_hand():
    """Mesa, -27 F = -32.78 C, 57.78 K under 25.

    Dawn: 41 x (1 + .0025 x 57.78) = 46.922; three 140.77, margin 5: 145.8; table 1.23 x 123 = 151.3 V; 250 leaves 104.2.
    Heat: 34.2 - 41 x .0025 x 51.41 = 28.931; three 86.79; x .9118 = 79.14; run 2.46: 76.68.  Wanted 16 x 3.6 + 5 = 62.6.
    Old porch: no coefficient, so 1.23 x 3 x 37.9 = 139.9 V by the table, with 5 V 144.9; 150 leaves 5.1.
    """
    found = demo("cinder-mesa")
    three = found.chosen
    assert three.cold_with_margin_v == pytest.approx(145.77, abs=0.02)
    assert three.table_voltage_v == pytest.approx(151.29, abs=0.01)
    assert three.margin_v == pytest.approx(104.23, abs=0.02)
    assert three.wanted_v == pytest.approx(62.6)
    assert three.hot_v == pytest.approx(76.68, abs=0.03)
    assert three.equalize_margin_v is None
    (porch,) = found.old
    now = next(one for one in porch.layouts if one.chosen)
    assert now.decides == "the code's table"
    assert now.cold_with_margin_v == pytest.approx(144.85, abs=0.01)
    assert now.margin_v == pytest.approx(5.15, abs=0.01)


def test_where_the_table_goes_over_and_the_coefficient_does_not_both_are_told():
    small = by_strings(demo("cinder-mesa").new, 3, "porch")
    assert small.margin_v == pytest.approx(150.0 - 145.77, abs=0.02)
    assert any("By the code's table it shows 152 V, over 150 V" in ask for ask in small.asks)


def test_the_wet_dim_demo_by_hand():
    """Moss, -18 C: 37.4 x (1 + .0027 x 43) = 41.742; four 166.97, margin 3 % = 5.01: 171.98; table 1.18 x 149.6 = 176.5; 78 left.

    Heat: 31.2 - 37.4 x .0027 x 51.41 = 26.009; four 104.03; x .9118 = 94.86, less what the run takes.
    """
    found = demo("slieve-moss")
    four = found.chosen
    assert found.code == "IEC"
    assert four.cold_with_margin_v == pytest.approx(171.98, abs=0.02)
    assert four.table_voltage_v == pytest.approx(176.53, abs=0.01)
    assert four.margin_v == pytest.approx(78.02, abs=0.02)
    assert four.hot_v + four.drop_share * 4 * 31.2 == pytest.approx(94.86, abs=0.02)
    assert found.old == ()


def test_a_layout_that_kills_the_controller_is_refused_and_comes_after_those_that_hold():
    found = layouts().new
    eight = by_strings(found, 8)
    assert CONTROLLER_CHECK in eight.faults
    assert eight.kills
    assert eight.margin_v == pytest.approx(250.0 - 1.03 * 370.42, abs=0.05)
    held = [not one.faults for one in found]
    assert held == sorted(held, reverse=True)
    assert found[0].in_series == 4


def test_what_holds_on_the_average_day_and_dies_at_the_record_low_is_refused():
    """Three of 45 V at -.3 %/K on 150 V: at 10 C 3 x 45 x 1.045 = 141 V; at -40 C 3 x 45 x 1.195 = 161.3 V."""
    three = array(3, 2, "400 W", "45 V", "37.6 V", "11.2 A", "10.64 A", "-0.30 %/C", 3, 2)
    small = (controller("150 V", "80 A"),)
    mild = by_strings(layouts("10 C", three, small).new, 3)
    assert mild.faults == ()
    cold = by_strings(layouts("-40 C", three, small).new, 3)
    assert cold.cold_v == pytest.approx(161.325)
    assert CONTROLLER_CHECK in cold.faults
    # sun enough for no watt to be held back and a run that loses little do not help it
    assert cold.held_back_w == mild.held_back_w == 0.0
    assert cold.drop_share == mild.drop_share
    assert layouts("-40 C", three, small, held_back_wh_by_controller={"new": 0.0}).chosen.faults


def test_three_of_40_volts_by_the_table_leave_nothing_on_150_and_fail():
    """E18: 3 x 40 x 1.25 = 150 V on a controller of 150 V: no margin is no yes."""
    bare = old_array(3, 2, power="1.2 kW", change=None, open_circuit_voltage="40 V", working_voltage="36.4 V")  # fmt: skip
    (old,) = layouts("-40 C", controllers=(POLE, ROOF), old=(bare,)).old
    now = next(one for one in old.layouts if one.chosen)
    assert now.cold_v == 150.0
    assert now.margin_v == -5.0
    assert CONTROLLER_CHECK in now.faults


def test_below_minus_40_nothing_says_what_a_string_without_a_coefficient_shows():
    (old,) = layouts("-41 C", controllers=(POLE, ROOF), old=(old_array(change=None),)).old
    assert all(UNKNOWN_CHECK in one.faults for one in old.layouts)
    assert all(one.margin_v is None and one.kills for one in old.layouts)
    check = next(one for one in old.layouts[0].checks if one.name == UNKNOWN_CHECK)
    assert "-41 C nobody can say" in check.working.notes[0]
    (known,) = layouts("-41 C", controllers=(POLE, ROOF), old=(old_array(),)).old
    assert not any(UNKNOWN_CHECK in one.faults for one in known.layouts)


def test_the_dwelling_counts_where_the_controller_bears_more_but_not_under_iec():
    long = array(16, 1, "440 W", "39.5 V", "32.9 V", "14.0 A", "13.4 A", "-0.25 %/C", 4, 4)
    big = (controller("1000 V", "80 A"),)
    sixteen = by_strings(layouts(strung=long, controllers=big).new, 16)
    assert sixteen.limit_v == 600.0
    assert DWELLING_CHECK in sixteen.faults
    assert by_strings(layouts(strung=long, controllers=big, code="Canada").new, 16).limit_v == 600.0
    free = by_strings(layouts(strung=long, controllers=big, code="IEC").new, 16)
    assert free.limit_v == 1000.0
    assert free.margin_v == pytest.approx(1000.0 - 1.03 * 16 * 46.303, abs=0.1)


def test_the_modules_own_label_counts_where_it_bears_less():
    weak = ARRAY.module.model_copy(update={"system_voltage_v": 180.0})
    four = by_strings(layouts(strung=ARRAY.model_copy(update={"module": weak})).new, 4)
    assert (four.limit_v, four.limited_by) == (180.0, LABEL_CHECK)
    assert LABEL_CHECK in four.faults
    assert CONTROLLER_CHECK not in four.faults


def test_each_controller_has_its_own_rows_and_the_chosen_one_is_told():
    small = controller("150 V", "20 A").model_copy(update={"name": "small"})
    found = layouts(controllers=(POLE, small)).new
    assert [(one.controller, one.in_series) for one in found if one.chosen] == [("new", 4)]
    assert by_strings(found, 4, "small").margin_v == pytest.approx(-40.77, abs=0.02)
    assert by_strings(found, 4, "small").held_back_w == pytest.approx(8 * 440.0 - 20.0 * 48.0)
    assert by_strings(found, 4).held_back_w == 0.0


def test_what_is_held_back_in_a_year_is_handed_in_by_controller():
    found = layouts(controllers=(POLE, ROOF), held_back_wh_by_controller={"new": 1.5, "roof": 9e5}).new  # fmt: skip
    assert {one.held_back_year_wh for one in found if one.controller == "roof"} == {9e5}
    assert {one.held_back_year_wh for one in found if one.controller == "new"} == {1.5}
    assert {one.held_back_year_wh for one in layouts().new} == {None}


def test_less_lost_comes_before_more_among_those_that_hold():
    """A 150 V controller of 20 A holds 2560 W back: it bears three of the six, yet comes after the one that holds back nothing."""
    mesa = (controller("250 V", "60 A"), controller("150 V", "20 A").model_copy(update={"name": "small"}))  # fmt: skip
    found = layouts_of(MESA[0], MESA[1], house(mesa, battery=MESA[4]), MESA[3]).new
    held = [(one.controller, one.in_series) for one in found if not one.faults]
    assert held == [("new", 3), ("small", 3)]
    lost = [one.lost_w for one in found if not one.faults]
    assert lost == sorted(lost)
    # six in series lose least in the wire, and are refused all the same
    assert by_strings(found, 6).lost_w < lost[0]


def test_strings_on_one_controller_must_match_and_their_amperes_add():
    """New 4 x 32.9 = 131.6 V beside old 2 x 36.4 = 72.8 V: 81 % off.  Four strings of the old, two of the new: six."""
    beside = old_array(on="new")
    strong = POLE.model_copy(update={"array_current_limit_a": 60.0})
    four = by_strings(layouts(controllers=(strong,), old=(beside,)).new, 4)
    assert f"{MATCH_CHECK}: roof" in four.faults
    assert four.controller_short_circuit_a == pytest.approx(28.0 + 4 * 5.9)
    assert AMPS_CHECK in four.faults  # 1.25 x 51.6 = 64.5 A
    assert four.fuse.strings == 6
    assert four.fuse.back_feed_a == pytest.approx(1.25 * (14.0 + 4 * 5.9))
    assert four.held_back_w == pytest.approx(8 * 440 + 1600 - 80 * 48)
    alike = old_array(4, 2, on="new", working_voltage="33.5 V", power="1475 W")
    near = by_strings(layouts(controllers=(POLE,), old=(alike,)).new, 4)
    assert not any(MATCH_CHECK in fault for fault in near.faults)  # 134 V: 1.8 % off


@pytest.mark.parametrize(("limit_a", "holds"), [(34.9, False), (35.0, True)])
def test_the_controllers_array_current_is_held_against_the_brightest_sun(limit_a, holds):
    one = POLE.model_copy(update={"array_current_limit_a": limit_a})
    assert (AMPS_CHECK not in by_strings(layouts(controllers=(one,)).new, 4).faults) is holds


def test_an_old_array_without_its_label_is_told_and_asked_for():
    bare = old_array().model_copy(update={"module": None, "in_series": None, "in_parallel": None})
    found = layouts(controllers=(POLE, ROOF), old=(bare,))
    assert found.old == ()
    (told,) = found.not_looked_at
    assert "Voc" in told
    assert "old_array.module" in told
    assert any("label of roof" in ask for ask in by_strings(found.new, 4, "roof").asks)
    assert not any("label of roof" in ask for ask in by_strings(found.new, 4).asks)


def test_two_old_arrays_of_one_name_are_still_two():
    twins = (old_array(on="roof"), old_array(on="roof"))
    found = layouts(controllers=(POLE, ROOF), old=twins)
    assert [len(one.layouts) for one in found.old] == [8, 8]
    now = next(one for one in found.old[0].layouts if one.chosen)
    assert now.fuse.strings == 8


def test_one_module_more_is_told_with_its_margin():
    words = " ".join(layouts().words)
    assert "5 x 2) would show 239 V" in words
    assert "11 V left of 250 V" in words
    tight = " ".join(layouts(controllers=(controller("200 V", "80 A"),)).words)
    assert "It would kill it." in tight


@pytest.mark.parametrize("known", [SPRUCE, MESA, MOSS])
def test_the_layout_of_the_file_is_told_as_the_answer_tells_it(known):
    where, strung, one, laid, battery = known
    found = layouts_of(where, strung, house((one,), battery=battery), laid).chosen
    told = wiring_of(where, strung, one, laid.model_copy(update={"breaker_a": None}), battery)
    assert (found.cold_with_margin_v, found.drop_share, found.breaker_a, found.table_voltage_v) == (
        told.cold_with_margin_v, told.drop_share, told.breaker_a, told.table_voltage_v,
    )  # fmt: skip


def test_more_than_one_run_may_carry_is_a_fault_of_the_layout_not_of_the_file():
    many = array(10, 4, "440 W", "39.5 V", "32.9 V", "14.0 A", "13.4 A", "-0.25 %/C", 10, 4)
    alone = by_strings(layouts(strung=many).new, 1)
    assert alone.breaker_a is None
    assert alone.hot_v is None
    assert "400 A" in alone.faults[0]
    assert alone.margin_v == pytest.approx(250.0 - 51.303, abs=0.01)


def test_a_wire_no_table_knows_is_asked_back():
    with pytest.raises(Wrong, match="given string"):
        layouts(laid=RUN.model_copy(update={"size": "string"}))


def test_a_long_run_takes_the_charging_voltage():
    assert HEAT_CHECK in by_strings(layouts(laid=run("3000 ft", "12 AWG")).new, 4).faults


def test_every_check_ends_in_the_number_it_is_judged_by():
    for one in (*demo("hollow-spruce").new, *demo("hollow-spruce").old[0].layouts):
        for check in one.checks:
            ends = (check.demand, check.capacity)
            assert any(step.value in ends for step in check.working.steps), check.name
            assert all(step.source.work for step in check.working.steps)


@settings(max_examples=20, deadline=None)
@given(st.floats(-60.0, 20.0), st.floats(0.1, 30.0))
def test_colder_never_leaves_more(low_c, colder):
    here, there = (
        layouts_of(PLACE.model_copy(update={"record_low_c": t}), ARRAY, house((POLE,)), RUN).new
        for t in (low_c, low_c - colder)
    )
    for n in series_of(8):
        assert by_strings(there, n).margin_v < by_strings(here, n).margin_v


@settings(max_examples=20, deadline=None)
@given(st.floats(-60.0, 20.0))
def test_more_in_series_never_leaves_more_in_the_cold_nor_less_in_the_heat(low_c):
    found = layouts_of(PLACE.model_copy(update={"record_low_c": low_c}), ARRAY, house((POLE,)), RUN)
    rows = [by_strings(found.new, n) for n in series_of(8)]
    left, hot = [one.margin_v for one in rows], [one.hot_v for one in rows]
    assert left == sorted(left, reverse=True)
    assert hot == sorted(hot)
    assert [one.one_more_margin_v < one.margin_v for one in rows] == [True] * 4


@settings(max_examples=20, deadline=None)
@given(st.floats(60.0, 700.0), st.floats(-50.0, 10.0))
def test_no_layout_that_may_be_wired_is_over_any_limit_at_the_record_low(limit_v, low_c):
    box = POLE.model_copy(update={"voltage_limit_v": limit_v})
    found = layouts_of(PLACE.model_copy(update={"record_low_c": low_c}), ARRAY, house((box,)), RUN)
    for one in found.new:
        if not one.faults:
            bare = one.in_series * 39.5 * (1.0 + 0.0025 * (25.0 - low_c))
            assert bare + 5.0 <= min(limit_v, 600.0) + 1e-9
            assert 1.03 * bare <= min(limit_v, 600.0) + 1e-9


def test_the_bank_is_the_one_handed_in():
    """24 V: 12 x 2.45 + 5 = 34.4 V, which two in series reach in the heat."""
    half = BANK.model_copy(update={"nominal_v": 24.0})
    short = by_strings(layouts_of(PLACE, ARRAY, house((POLE,), battery=half), RUN).new, 2)
    assert short.wanted_v == pytest.approx(34.4)
    assert HEAT_CHECK not in short.faults


def test_a_layout_no_cord_at_the_hinge_serves_is_refused():
    """4 strings: 4 x 14 A x 1.25 x 1.25 = 87.5 A, breaker 90 A; the thickest cord carries 95 x .87 = 82.7 A in 45 C air."""
    file = read_homestead(demo_path("hollow-spruce")).homestead
    strung = file.array.model_copy(update={"columns": 8, "in_parallel": 4})
    laid = file.run.model_copy(update={"size": "2/0 AWG"})
    pole = AtThePole(0.45, 3.35, 5.0, 75.0, 1.0, ())
    found = layouts_of(file.place, strung, file.household, laid, pole=pole).new
    four = next(one for one in found if (one.in_series, one.controller) == (4, "pole"))
    (cord,) = [one for one in four.checks if one.name == ONE_CORD]
    assert ONE_CORD in four.faults
    assert (cord.demand, round(cord.capacity, 1)) == (90.0, 82.7)
    two = layouts_of(file.place, file.array, file.household, file.run, pole=pole).chosen
    assert ONE_CORD not in two.faults
