"""What cord and pole wires lose, and what a run too long to bring the power loses: by hand and by law."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from polestead.answer.stands import beyond_in, layouts_in, wire_choices_of, wires_of
from polestead.base.show import in_one_unit_all
from polestead.sheets.sentences import lost_words
from polestead.wiring.run.beyond import NOTHING, loop_ohm
from polestead.wiring.run.conductor import conductor_of
from polestead.wiring.run.loss import HoursByStrength, hours_by_strength, lost_share, sum_i2_h_a2
from polestead.wiring.run.sizes import BRINGS
from tests.wiring.test_one_line import changed


def test_cord_and_pole_wires_are_in_the_drop_by_hand() -> None:
    """Run 220 ft and 5.09 ft of 4 AWG (.308 ohm/kft), there and back; 11.09 ft of 6 AWG cord (.491 ohm/kft), a twentieth more.

    2 x (220 + 5.085) x .308/1000 = .13865; 2 x 11.09 x .491/1000 x 1.05 = .01144: .15009 ohm x 26.8 A = 4.02 V of 131.6 = 3.06 %.
    """
    wires = wires_of(changed("hollow-spruce"))
    assert wires.cord is not None
    assert wires.cord.cut_m / 0.3048 == pytest.approx(11.09, abs=0.01)
    assert wires.cord.boxes.pipe_m / 0.3048 == pytest.approx(5.09, abs=0.01)
    assert wires.drop_v == pytest.approx(4.02, abs=0.005)
    assert wires.drop_share == pytest.approx(0.0306, abs=0.0001)
    assert wires.drop_working.steps[-1].value == wires.drop_share
    assert lost_words(wires) == "4.1 V lost warm, wires at 75 C (3.1 %)"


@pytest.mark.parametrize("demo", ["hollow-spruce", "cinder-mesa", "slieve-moss"])
def test_headline_table_and_layouts_tell_the_same_drop(demo) -> None:
    file = changed(demo)
    wires = wires_of(file)
    (chosen,) = (one for one in wire_choices_of(file).sizes if one.chosen)
    assert chosen.drop_v == pytest.approx(wires.drop_v)
    assert chosen.drop_share == pytest.approx(wires.drop_share)
    assert layouts_in(file).chosen.drop_v == pytest.approx(wires.drop_v)
    assert layouts_in(file).chosen.drop_share == pytest.approx(wires.drop_share)
    assert beyond_in(file) != NOTHING


def test_a_run_of_3000_m_of_14_awg_says_that_it_cannot_bring_the_power() -> None:
    file = changed("hollow-spruce", run={"length_m": 3000.0, "size": "14 AWG"})
    wires = wires_of(file)
    # 2 x 3000 m x 3.14/304.8 = 61.8 ohm and a little; V^2/4R = 131.6^2 / 247.3 = 70.0 W of 3526.9 W: 98.0 % is lost.
    assert wires.drop_share == pytest.approx(1.0 - 131.6**2 / (4.0 * 61.83) / (131.6 * 26.8), abs=1e-3)  # fmt: skip
    check = next(one for one in wires.checks if one.name == BRINGS)
    assert not check.holds
    assert check.capacity == pytest.approx(131.6 / (2.0 * 61.83), rel=1e-3)
    assert check.working.result.value == check.capacity
    assert "cannot carry: at most 2 % of the power can arrive" in lost_words(wires)
    sizes = wire_choices_of(file).sizes
    assert max(one.drop_share for one in sizes) < 1.0
    assert BRINGS in next(one for one in sizes if one.chosen).faults


@given(st.floats(0.0, 50.0), st.floats(0.0, 50.0))
def test_a_longer_run_never_loses_less_and_never_all(one, other) -> None:
    low, high = sorted((one, other))
    assert 0.0 <= lost_share(low) <= lost_share(high) < 1.0


@given(st.integers(0, 2**32 - 1), st.floats(0.001, 500.0), st.integers(1, 8))
def test_what_is_lost_in_a_year_is_what_each_hour_loses(seed, ohm, in_series) -> None:
    """Each hour by itself: I^2 R where the wire brings the power, else all but V^2 / 4R; bins are within a per cent of the whole."""
    rng = np.random.default_rng(seed)
    power = np.maximum(rng.normal(900.0, 900.0, (2, 200)), 0.0)
    volts = rng.uniform(28.0, 38.0, (2, 200))
    string = in_series * volts
    share = power * ohm / string**2
    by_hour = power * np.vectorize(lost_share)(share)
    told = hours_by_strength(power, volts).lost_wh(ohm, in_series)
    whole = float(power.sum()) / 2.0
    assert told == pytest.approx(float(by_hour.sum()) / 2.0, abs=0.01 * whole)
    assert 0.0 <= told <= whole
    if share.max() < 0.49:
        assert told == pytest.approx(ohm * sum_i2_h_a2(power, string), rel=1e-9)


def test_a_loss_never_grows_past_what_was_there() -> None:
    one = HoursByStrength((100.0,), (1000.0,), (10000.0,))
    lost = [one.lost_wh(ohm, 1) for ohm in (1.0, 5.0, 20.0, 1e4)]
    assert lost == sorted(lost)
    assert lost[1] == pytest.approx(500.0)  # 5 ohm: V/2R = 10 A, both formulas agree
    assert lost[-1] < 1000.0


def test_the_loop_is_one_resistance() -> None:
    wire = conductor_of("4 AWG", "copper")
    assert loop_ohm(wire, 10.0, 2.0, 0.0) == pytest.approx(24.0 * wire.ohm_per_m())
    assert loop_ohm(wire, 10.0, 0.0, 0.01, 20.0) == pytest.approx(20.0 * wire.ohm_per_m(20.0) + 0.01)  # fmt: skip
    assert in_one_unit_all((wire, ("10 ft (3 m)",)), "feet")[1] == ("10 ft",)
