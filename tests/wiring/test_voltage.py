from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from polestead.modules.power import cold_voltage_v
from polestead.wiring.strings import voltage
from polestead.wiring.strings.label import old_label
from polestead.wiring.strings.voltage import (
    cold_checks,
    cold_of,
    most_in_series,
    table_factor,
    with_margin_v,
)
from tests.published.cases import cases
from tests.wiring.demos import SPRUCE, controller, old_array


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


def test_a_smoothed_table_is_caught(monkeypatch) -> None:
    """A copy that goes on by .02 every 5 K below -25 C is wrong in three rows, and the published rows refuse it."""
    smooth = [
        {**row, "factor": str(round(1.20 - 0.02 * (float(row["down_to_c"]) + 25.0) / 5.0, 3))}
        if float(row["down_to_c"]) < -25.0
        else row
        for row in voltage.table("wiring", "strings/cold")
    ]
    rows = [case for case in cases() if case.identity.startswith("wiring:cold factors")]
    assert len(rows) == 2
    for case in rows:
        np.testing.assert_allclose(case.ours(), case.published, atol=case.abs_tolerance)
    monkeypatch.setattr(voltage, "table", lambda *_: smooth)
    for case in rows:
        off = np.abs(case.ours() - np.array(case.published)) > case.abs_tolerance
        assert off.sum() == 3


@pytest.mark.parametrize("code", ["NEC", "Canada", "IEC"])
def test_below_its_end_no_table_decides(code) -> None:
    bare = old_label(old_array(change=None), 20.0)
    assert cold_of(bare, 2, -40.0, code).decides == "the code's table"
    assert cold_of(bare, 2, -40.1, code).decides == "nothing"
    assert cold_of(bare, 2, -40.1, code).with_margin_v is None
    known = old_label(old_array(), 20.0)
    assert cold_of(known, 2, -40.1, code).decides == "the maker's coefficient"


def test_canada_counts_a_quarter_more_at_any_temperature() -> None:
    bare = old_label(old_array(change=None), 20.0)
    assert cold_of(bare, 2, -5.0, "Canada").by_table_v == pytest.approx(1.25 * 2 * 44.8)
    assert cold_of(bare, 2, -5.0, "NEC").by_table_v == pytest.approx(1.12 * 2 * 44.8)


@given(
    low=st.floats(-60.0, 20.0),
    colder=st.floats(0.0, 40.0),
    n=st.integers(1, 20),
    known=st.booleans(),
)
def test_colder_never_lowers_what_is_held_against_the_limits(low, colder, n, known) -> None:
    label = old_label(old_array(change="-0.34 %/C" if known else None), 20.0)
    warm, cold = cold_of(label, n, low), cold_of(label, n, low - colder)
    if cold.with_margin_v is not None:
        assert cold.with_margin_v >= warm.with_margin_v


def test_nothing_known_never_holds() -> None:
    bare = old_label(old_array(change=None), 20.0)
    (check,) = cold_checks(bare, cold_of(bare, 1, -50.0), controller("1000 V", "60 A"), "NEC")
    assert not check.holds
