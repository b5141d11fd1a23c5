"""What is left in the heat and what the battery wants, by hand and as laws."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from polestead.modules.ageing import volts_left
from polestead.wiring.strings.heat import (
    charges_to_air_c,
    hot_check,
    hot_voltage_v,
    wanted_of,
)
from polestead.wiring.strings.label import new_label, old_label
from tests.wiring.demos import BANK, IRON, SPRUCE, bank, old_array

LABEL, POLE = new_label(SPRUCE[1]), SPRUCE[2]


@pytest.mark.parametrize(
    ("battery", "cells", "wanted"),
    [
        (BANK, 24, 24 * 2.45 + 5), (bank("sealed lead-acid", "24 V", "200 Ah", absorb_v_per_cell=2.35), 12, 12 * 2.35 + 5),
        (bank("flooded lead-acid", "12 V", "200 Ah"), 6, 6 * 2.45 + 5), (IRON, 16, 16 * 3.6 + 5),
        (bank("lithium iron phosphate", "48 V", "300 Ah"), 16, 16 * 3.6 + 5),
        (bank("lithium iron phosphate", "25.6 V", "300 Ah"), 8, 8 * 3.6 + 5),
        (bank("lithium iron phosphate", "12 V", "100 Ah"), 4, 4 * 3.6 + 5),
    ],
)  # fmt: skip
def test_the_battery_wants_what_its_cells_want(battery, cells, wanted):
    assert battery.in_series == wanted_of(battery, POLE).cells == cells
    assert wanted_of(battery, POLE).wanted_v == pytest.approx(wanted)


def test_equalizing_stands_beside_for_flooded_cells_only():
    assert wanted_of(BANK, POLE).equalizing_v == pytest.approx(24 * 2.58 + 5)
    assert wanted_of(bank("sealed lead-acid", "48 V", "200 Ah"), POLE).equalizing_v is None
    assert wanted_of(IRON, POLE).equalizing_v is None
    (note,) = hot_check(LABEL, 4, BANK, POLE, 3.63).working.notes
    assert "Equalizing at 2.58 V a cell wants 66.9 V" in note
    (note,) = hot_check(LABEL, 4, IRON, POLE, 3.63).working.notes
    assert f"{16 * 3.45 + 5:.1f} V" in note


def test_a_sensor_on_a_cool_bank_lifts_what_is_wanted_and_never_lowers_it():
    """12 C: 5 mV x 13 = .065 V a cell, 24 of them 1.56 V."""
    cool = BANK.model_copy(update={"sensor": True, "temperature_c": 12.0})
    assert wanted_of(cool, POLE).charge_v == pytest.approx(58.8 + 1.56)
    warm = BANK.model_copy(update={"sensor": True, "temperature_c": 35.0})
    assert wanted_of(warm, POLE).charge_v == pytest.approx(58.8)
    unread = BANK.model_copy(update={"temperature_c": 12.0})
    assert wanted_of(unread, POLE).charge_v == pytest.approx(58.8)


def test_the_controller_may_want_more_over_the_battery():
    greedy = POLE.model_copy(update={"over_battery_v": 40.0})
    assert hot_check(LABEL, 4, BANK, POLE, 3.63).holds
    assert not hot_check(LABEL, 4, BANK, greedy, 3.63).holds  # 98.8 V wanted, 97.85 there


def test_every_step_of_the_ladder_by_hand():
    """See the demo's own hand sum: 111.29 hot, 107.96 weak, 101.48 old, 97.85 after the run."""
    steps = {one.symbol: one.value for one in hot_check(LABEL, 4, BANK, POLE, 3.63).working.steps}
    assert steps["Tc"] == pytest.approx(76.407, abs=0.001)
    assert steps["dV/dT"] == pytest.approx(-0.09875)
    assert steps["Vhot"] == pytest.approx(111.29, abs=0.01)
    assert steps["tol"] == 0.03
    assert steps["a"] == pytest.approx(0.94)
    assert steps["Vold"] == pytest.approx(111.29 * 0.97 * 0.94, abs=0.01)
    assert steps["Vleast"] == pytest.approx(97.85, abs=0.01)
    assert steps["Vwant"] == pytest.approx(63.8)


def test_an_old_module_without_a_coefficient_falls_steeply_in_the_heat_only():
    bare = old_label(old_array(change=None), 0.0)
    assert bare.change_per_k is None
    assert bare.hot_change_per_k == -0.0035
    aged = old_label(old_array().model_copy(update={"age_years": 12.0}), 20.0)
    assert aged.years == 32.0


def test_a_string_charges_in_air_up_to_where_its_volts_run_out():
    air = charges_to_air_c(LABEL, 2, 50.0, 0.0)
    assert hot_voltage_v(LABEL, 2, air) == pytest.approx(50.0)
    assert hot_voltage_v(LABEL, 2, air + 1.0) < 50.0


@given(st.floats(0.0, 50.0), st.floats(0.0, 50.0), st.floats(0.0, 0.2), st.floats(0.0, 0.2))
def test_older_and_lower_never_raise_the_hot_voltage(years, more, low, lower):
    fresh = replace(LABEL, years=years, volts_low_by=low)
    worn = replace(LABEL, years=years + more, volts_low_by=low + lower)
    assert hot_voltage_v(worn, 4) <= hot_voltage_v(fresh, 4) + 1e-9


@given(st.floats(-20.0, 60.0), st.floats(0.0, 30.0), st.integers(1, 20))
def test_hotter_never_raises_it_and_longer_never_lowers_it(air_c, hotter, n):
    assert hot_voltage_v(LABEL, n, air_c + hotter) <= hot_voltage_v(LABEL, n, air_c) + 1e-9
    assert hot_voltage_v(LABEL, n + 1) > hot_voltage_v(LABEL, n)


@given(st.floats(0.0, 100.0))
def test_more_lost_in_the_run_leaves_so_much_less(drop_v):
    whole = hot_check(LABEL, 4, BANK, POLE, None).capacity
    assert hot_check(LABEL, 4, BANK, POLE, drop_v).capacity == pytest.approx(whole - drop_v)


def test_a_module_is_not_younger_than_new():
    with pytest.raises(ValueError, match="younger"):
        volts_left(-1.0)
    assert volts_left(400.0) == 0.0
