"""The pier: laws, a hand sum of the first demo, frost."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from polestead.footing.frost import frost_check
from polestead.footing.pier import (
    CAP_M,
    bearing_pa,
    below_grade_moment_n_m,
    embedment_m,
    needed_depth_m,
    pier_of,
    twist_allowable_n_m,
    uplift_allowable_n,
)
from polestead.homestead.consistency import NO_NUMBER
from polestead.homestead.demos import demo_path
from polestead.homestead.model import SoilClass
from polestead.homestead.read import read_homestead

KIP, KIP_FT, FOOT = 4448.2216, 1355.8179, 0.3048
FOOTING = read_homestead(demo_path("hollow-spruce")).homestead.footing
DRAINED, SILT = "drained, not frost-susceptible", "silt or clay"
PIER = pier_of(FOOTING, "sandy gravel or gravel", DRAINED, 1.6)
forces, heights = st.floats(10.0, 60e3), st.floats(0.1, 8.0)


@given(forces, heights)
def test_the_closed_form_solves_the_codes_own_equation(force: float, height: float) -> None:
    lateral, width = 60e3, 0.9
    d = float(embedment_m(lateral, width, np.array(force), np.array(height)))
    s1 = lateral * min(d, CAP_M) / 3.0
    a = 2.34 * force / (s1 * width)
    again = 0.5 * a * (1.0 + np.sqrt(1.0 + 4.36 * height / a))
    assert again == pytest.approx(d, rel=1e-6) or d == pytest.approx(CAP_M)


@given(forces, heights, st.floats(1.01, 3.0))
def test_more_force_more_height_weaker_soil_or_a_thinner_pier_go_deeper(
    force: float, height: float, more: float
) -> None:
    p, h = np.array(force), np.array(height)
    base = float(embedment_m(60e3, 0.9, p, h))
    slack = base * 1e-9
    assert float(embedment_m(60e3, 0.9, p * more, h)) >= base - slack
    assert float(embedment_m(60e3, 0.9, p, h * more)) >= base - slack
    assert float(embedment_m(60e3 / more, 0.9, p, h)) >= base - slack
    assert float(embedment_m(60e3, 0.9 / more, p, h)) >= base - slack


def test_no_force_needs_no_depth() -> None:
    assert embedment_m(60e3, 0.9, np.array(0.0), np.array(3.0)) == pytest.approx(0.0, abs=1e-6)


def test_many_forces_at_once_are_those_one_by_one() -> None:
    forces_n, moments = np.array([[1e3, 5e3], [2e4, 4e4]]), np.array([[2e3, 3e4], [6e4, 2e5]])
    together = needed_depth_m(PIER, forces_n, moments)
    for i in range(2):
        for j in range(2):
            assert needed_depth_m(PIER, forces_n[i, j], moments[i, j]) == pytest.approx(
                together[i, j]
            )


def test_the_first_demos_pier_as_the_hand_sum() -> None:
    """Fx 3.36 kip, Mb 37.1 kip ft with roll 4.5: 9.06 ft by hand; twist 14 kip ft; uplift allowed about 6.4 kip with the array."""
    moment = np.hypot(37.1, 4.5) * KIP_FT
    needed = float(needed_depth_m(PIER, np.array(3.36 * KIP), np.array(moment))) / FOOT
    assert needed == pytest.approx(9.06, rel=0.015)  # the hand sum rounds h and S1
    assert twist_allowable_n_m(PIER, True) / KIP_FT == pytest.approx(14.0, rel=0.03)
    below = float(below_grade_moment_n_m(PIER, np.array(3.36 * KIP), np.array(moment))) / KIP_FT
    # the hand sum, 47.3, puts the whole depth f under the force; Broms takes two thirds of it
    assert 45.0 < below < 47.3


def test_doubling_is_taken_only_when_ticked_and_shown_either_way() -> None:
    single = pier_of(
        FOOTING.model_copy(update={"half_inch_allowed": False}),
        "sandy gravel or gravel",
        DRAINED,
        1.6,
    )
    assert PIER.lateral_pa_m == 2 * single.lateral_pa_m
    assert any("doubled" in step.word for step in single.lateral_steps)


@pytest.mark.parametrize(
    "soil",
    [soil for soil in SoilClass.__args__ if soil not in NO_NUMBER],  # type: ignore[attr-defined]
)
def test_every_soil_class_has_its_values(soil: str) -> None:
    pier = pier_of(FOOTING, soil, DRAINED, 0.5)
    assert pier.bearing_pa > 50e3
    assert pier.lateral_pa_m > 10e3
    assert twist_allowable_n_m(pier, True) > 0.0
    assert (pier.undrained_pa > 0.0) is (soil == "clay or silt")
    assert float(below_grade_moment_n_m(pier, np.array(1e4), np.array(3e4))) > 3e4


def test_soft_ground_in_spring_does_not_help() -> None:
    assert pier_of(FOOTING, "clay or silt", SILT, 1.6).effective_m == pytest.approx(0.8)
    shallow = FOOTING.model_copy(update={"neglected_m": 0.1})
    assert pier_of(shallow, "sandy gravel or gravel", DRAINED, 1.6).effective_m == pytest.approx(
        0.3
    )


def test_without_bars_the_pole_may_turn_in_its_pier() -> None:
    assert twist_allowable_n_m(PIER, False) == 0.0


def test_weight_and_pressure() -> None:
    area = np.pi / 4 * PIER.diameter_m**2
    assert PIER.weight_n == pytest.approx(area * (PIER.depth_m + PIER.collar_m) * 23.5e3)
    assert uplift_allowable_n(PIER) == pytest.approx(0.6 * PIER.weight_n)
    assert float(bearing_pa(PIER, np.array(1e4))) == pytest.approx((1e4 + PIER.weight_n) / area)


def test_drained_soil_does_not_lift_and_says_why() -> None:
    check = frost_check(PIER, DRAINED, 1.6, 5e3, "none")
    assert check.use == 0.0
    assert "does not lift" in check.working.notes[0]
    assert [step.value for step in check.working.steps if step.symbol == "F"] == [0.0]
    # .9 of 5 kN and of the pier, over 1.5: the ladder ends in what the check holds it against
    assert (
        check.working.steps[-1].value
        == check.capacity
        == pytest.approx(0.6 * (5e3 + PIER.weight_n))
    )


def test_frost_in_silt_sizes_the_pier_as_the_hand_sum_says() -> None:
    """36 in pier, 1.6 m of frost: 299 kN rough, 92 kN sleeved (hand sums, tau 65 and 20 kPa)."""
    pier = pier_of(FOOTING, "clay or silt", SILT, 1.6)
    rough, sleeved = (
        frost_check(pier, SILT, 1.6, 5e3, sleeve)
        for sleeve in ("none", "smooth tube and two plies")
    )
    assert rough.demand == pytest.approx(299e3, rel=0.01)
    assert sleeved.demand == pytest.approx(92e3, rel=0.01)
    assert not rough.holds
    assert any("not without a sleeve" in note for note in rough.working.notes)
    assert any("looked at" in note for note in sleeved.working.notes)


@given(st.floats(0.1, 2.5), st.floats(0.1, 2.5))
def test_deeper_frost_never_uses_less(a: float, b: float) -> None:
    pier = replace(pier_of(FOOTING, "clay or silt", SILT, 0.5), depth_m=3.0)
    low, high = sorted((a, b))
    assert (
        frost_check(pier, SILT, high, 5e3, "none").use
        >= frost_check(pier, SILT, low, 5e3, "none").use - 1e-12
    )
