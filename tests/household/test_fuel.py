"""What the engine burns."""

from __future__ import annotations

import numpy as np
import pytest

from polestead.base.problem import Wrong
from polestead.household.fuel import derated_power_w, fuel_lines
from tests.household.fabricated import engine

KWH_PER_L = 1.0 / 3.785411784


def test_two_points_of_the_sheet_give_one_line_through_both():
    least, most = fuel_lines(engine(full_load_fuel_l_h=5.0, half_load_fuel_l_h=3.1))
    assert least == most
    assert least.at_l_h(7000.0) == pytest.approx(5.0)
    assert least.at_l_h(3500.0) == pytest.approx(3.1)


@pytest.mark.parametrize(("end", "full_kwh_gal", "half_kwh_gal"), [(0, 5.7, 4.8), (1, 4.5, 2.9)])
def test_small_propane_engines_burn_what_two_sheets_say(end, full_kwh_gal, half_kwh_gal):
    line = fuel_lines(engine())[end]
    assert 7.0 / line.at_l_h(7000.0) / KWH_PER_L == pytest.approx(full_kwh_gal, rel=0.02)
    assert 3.5 / line.at_l_h(3500.0) / KWH_PER_L == pytest.approx(half_kwh_gal, rel=0.02)


@pytest.mark.parametrize("fuel", ["propane", "gasoline", "diesel"])
def test_the_most_thirsty_line_never_lies_below_the_least_in_use(fuel):
    least, most = fuel_lines(engine(fuel=fuel))
    for load in np.linspace(0.0, 7000.0, 8):
        assert most.at_l_h(load) >= least.at_l_h(load) - 1e-12


@pytest.mark.parametrize(
    ("key", "load"), [("full_load_fuel_l_h", 7000.0), ("half_load_fuel_l_h", 3500.0)]
)
def test_one_point_of_the_sheet_moves_the_whole_range_through_it(key, load):
    lines = fuel_lines(engine(**{key: 4.4}))
    assert [line.at_l_h(load) for line in lines] == pytest.approx([4.4, 4.4])
    assert lines[0] != lines[1]


def test_figures_that_cannot_be_are_refused_together():
    with pytest.raises(Wrong) as told:
        fuel_lines(engine(full_load_fuel_l_h=1.2, half_load_fuel_l_h=1.3))
    keys = [problem.key for problem in told.value.problems]
    assert keys == ["half_load_fuel", "full_load_fuel", "half_load_fuel"] or len(keys) >= 2
    assert all(problem.section == "household.engine" for problem in told.value.problems)


def test_an_engine_gains_nothing_below_the_sea():
    assert derated_power_w(5000.0, -100.0) == 5000.0
    assert derated_power_w(5000.0, 20000.0) == 0.0
