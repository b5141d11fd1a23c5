from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from polestead.modules.power import cold_voltage_v
from polestead.wiring.strings.voltage import most_in_series, table_factor, with_margin_v
from tests.wiring.demos import SPRUCE


@given(cell=st.floats(-60.0, 60.0), colder=st.floats(0.0, 40.0), change=st.floats(-0.01, -0.0001))
def test_colder_never_lowers_the_voltage(cell, colder, change) -> None:
    module = SPRUCE[1].module.model_copy(update={"voltage_change_per_k": change})
    assert cold_voltage_v(module, 4, cell - colder) >= cold_voltage_v(module, 4, cell)


@given(low=st.floats(-40.0, 40.0), colder=st.floats(0.0, 80.0))
def test_colder_never_lowers_the_tables_factor_while_it_reaches(low, colder) -> None:
    after = table_factor(low - colder)
    assert after is None or after >= table_factor(low)


@given(low=st.floats(-90.0, -40.001))
def test_the_table_says_nothing_below_its_end(low) -> None:
    assert table_factor(low) is None


def test_minus_forty_is_the_same_in_both_scales() -> None:
    fahrenheit = (-40 - 32) * 0.55555555555556
    assert table_factor(fahrenheit) == 1.25


@pytest.mark.parametrize(("low", "between"), [(-26.0, 1.22), (-31.0, 1.24)])
def test_the_uneven_steps_are_not_smoothed(low, between) -> None:
    assert table_factor(low) != between


@given(cold=st.floats(1.0, 1500.0))
def test_the_margin_is_never_under_3_percent_nor_5_volts(cold) -> None:
    assert with_margin_v(cold) - cold >= 5.0 - 1e-9
    assert with_margin_v(cold) >= 1.03 * cold - 1e-9


@given(limit=st.floats(10.0, 1500.0), one=st.floats(5.0, 200.0))
def test_one_more_in_series_than_the_most_goes_over(limit, one) -> None:
    most = most_in_series(limit, one)
    assert most * one <= limit * (1 + 1e-6)
    assert (most + 1) * one > limit
