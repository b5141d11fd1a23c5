"""Pins, ears, welds, rails, sleeve, rod; Eurocode pole; aluminium."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.linalg import eigh_tridiagonal

from polestead.homestead.sentences import pole_words
from polestead.strength.parts import rod_buckles_n, stepped_share
from polestead.strength.pins import (
    PinnedJoint,
    ears,
    pin_bending,
    pin_shear,
    pin_sheared_and_bent,
)
from polestead.strength.pole import pipe_section, pole_strength
from polestead.strength.rails import evenly_loaded
from polestead.strength.sleeve import split_sleeve
from polestead.strength.tubes import strut_push, tube_bending, tube_section, tube_torsion
from polestead.strength.welds import EarFoot, ear_weld, stress_of_one_n

JOINT = PinnedJoint(0.0254, "1045", 0.0127, 0.0254, 0.003, 0.0508, "A36")
FOOT = EarFoot(0.008, 0.15, 0.07, "A36")


def test_ears_by_hand():
    """AISC: bearing 2 x 1.8 Fy d t / 2; beside 2 x Fu 2 t be / 2, be = min(2 t + 16 mm, 38.1 mm); out 2 x .6 Fu 2 t (a + d/2) / 2."""
    t, d, fy, fu = 0.0127, 0.0254, 248.2e6, 399.9e6
    bearing, beside = 1.8 * fy * d * t, fu * 2 * t * 0.0381
    out = 0.6 * fu * 2 * t * (0.0381 + d / 2)
    assert ears(JOINT).value == pytest.approx(min(bearing, beside, out))


def test_a_hole_near_the_edge_tears_and_one_at_the_edge_carries_nothing():
    assert ears(replace(JOINT, edge_m=0.018)).value < 0.5 * ears(JOINT).value
    assert ears(replace(JOINT, edge_m=0.0127)).value == 0.0  # the hole's own edge is the plate's
    assert ears(replace(JOINT, edge_m=0.0254), "EN").value == 0.0


def test_slack_between_the_ears_bends_the_pin():
    wide = replace(JOINT, gap_m=0.012)
    for code in ("AISC", "EN"):
        assert pin_bending(wide, code).value < pin_bending(JOINT, code).value  # type: ignore[arg-type]


def test_twice_cut_is_twice_once():
    for code in ("AISC", "EN"):
        once, twice = (pin_shear(0.02, "8.8", n, code).value for n in (1, 2))  # type: ignore[arg-type]
        assert twice == pytest.approx(2.0 * once)
    # M20 8.8 with its threads in the shear planes: hand sum 188 kN
    assert pin_shear(0.02, "8.8", 2, "EN").value == pytest.approx(188e3, rel=2e-3)
    assert pin_shear(0.02, "1045", 2, "EN").value == pytest.approx(2 * 0.6 * 565.4e6 * np.pi / 4 * 4e-4 / 1.25)  # fmt: skip


def test_under_eurocode_shear_and_bending_of_a_pin_are_summed():
    both = pin_sheared_and_bent(JOINT).value
    shear, bent = pin_shear(JOINT.pin_m, JOINT.pin_steel, 2, "EN").value, pin_bending(JOINT, "EN").value  # fmt: skip
    assert (both / shear) ** 2 + (both / bent) ** 2 == pytest.approx(1.0)


def test_a_thin_middle_gives_before_its_ears():
    assert ears(replace(JOINT, middle_m=JOINT.ear_m)).value == pytest.approx(ears(JOINT).value / 2.0)  # fmt: skip


def test_a_flat_tube_buckles_its_weak_way():
    for code in ("AISC", "EN"):
        lying, standing = (strut_push(tube_section(w), 1.6, code).value for w in ("RHS 100x20x2 S355", "RHS 20x100x2 S355"))  # type: ignore[arg-type]  # fmt: skip
        assert lying == pytest.approx(standing)


@pytest.mark.parametrize("ratio", [0.0, 0.5, 1.37, 4.0])
def test_a_rod_out_of_a_stiff_tube_against_many_small_pieces(ratio):
    """Pinned column whose tube is all but stiff, by differences: the least eigenvalue."""
    rod, tube, pieces = 1.0, ratio, 800
    x = np.linspace(0.0, rod + tube, pieces + 1)[1:-1]
    step = (rod + tube) / pieces
    stiff = np.where(x < tube, 1e5, 1.0)  # of E I
    beside = -np.sqrt(stiff[1:] * stiff[:-1])  # the same eigenvalues as of stiff times differences
    least = eigh_tridiagonal(2.0 * stiff, beside, True, "i", (0, 0))[0] / step**2
    assert stepped_share(tube, rod) == pytest.approx(least / np.pi**2, rel=8e-3)  # of 800 pieces


def test_the_ears_weld_by_hand():
    """Half a newton on each ear: two fillets, throat .7071 leg; straight F/2/(2 a L), bent F/2 h / (a L^2 / 3)."""
    a, length, height = 0.008 / np.sqrt(2), 0.15, 0.07
    one = 0.5 / (2 * a * length) + 0.5 * height / (2 * a * length**2 / 6)
    assert stress_of_one_n(FOOT) == pytest.approx(one)
    assert ear_weld(FOOT).value == pytest.approx(0.6 * 399.9e6 / 2.0 / one)


@given(st.floats(0.3, 3.0), st.floats(0.1, 1.5), st.floats(0.1, 1.5))
def test_a_rails_supports_carry_all_of_its_load(span, left, right):
    bent = evenly_loaded(-left - span, right + span, (-span, 0.0, span))
    assert sum(bent.reactions_m) == pytest.approx(2 * span + left + right)
    turn = sum(r * x for r, x in zip(bent.reactions_m, (-span, 0.0, span), strict=True))
    whole = ((right + span) ** 2 - (left + span) ** 2) / 2.0
    assert turn == pytest.approx(whole, abs=1e-9)
    assert bent.largest_m2 >= max(left, right) ** 2 / 2.0 - 1e-12


def test_three_equal_spans_are_the_textbooks():
    bent = evenly_loaded(0.0, 3.0, (0.0, 1.0, 2.0, 3.0))
    assert bent.largest_m2 == pytest.approx(0.1)
    np.testing.assert_allclose(bent.reactions_m, [0.4, 1.1, 1.1, 0.4])


def test_a_rail_on_the_strongback_alone_is_a_cantilever():
    assert evenly_loaded(-1.5, 2.0, (0.0,)).largest_m2 == pytest.approx(2.0)
    with pytest.raises(ValueError, match="supports"):
        evenly_loaded(0.0, 1.0, (1.5,))


def test_the_split_sleeve_closes_round_its_pole():
    pipe = pipe_section(pole_words("6 in schedule 40 A53 B"))
    sleeve = split_sleeve(pipe, 0.002)
    inside_round = np.pi * (pipe.outside_m - 2 * pipe.wall_m) + sleeve.opens_m - 0.003
    assert inside_round == pytest.approx(np.pi * (pipe.outside_m + 0.002))
    assert 0.0 < sleeve.strip_m < sleeve.opens_m


@given(st.floats(0.01, 0.06), st.floats(0.1, 1.5))
def test_a_stocky_rod_yields_before_euler(d, length):
    euler = np.pi**2 * 200e9 * np.pi * d**4 / 64 / length**2
    yields = np.pi / 4 * d**2 * 350e6
    found = rod_buckles_n(d, length)
    assert found <= min(euler, yields) * (1 + 1e-9)
    assert found >= 0.49 * min(euler, yields)


def test_a_demo_pole_under_eurocode_by_hand():
    """CHS 219.1 x 12.5 in S355: Wpl 534.3 cm3, M 189.7 kNm; Wel 396.6 cm3, twist 2 Wel fy / sqrt 3 = 162.6 kNm."""
    strength = pole_strength(pipe_section(pole_words("CHS 219.1x12.5 S355")), 3.0, "EN")
    assert strength.bending_n_m == pytest.approx(189.7e3, rel=2e-3)
    assert strength.torsion_n_m == pytest.approx(162.6e3, rel=2e-3)
    thin = pole_strength(pipe_section(pole_words("CHS 219.1x2 S355")), 3.0, "EN")
    assert thin.bending_n_m == 0.0  # class 4: not summed, so it carries nothing


def test_a_tube_and_a_strut_under_eurocode():
    tube = tube_section("SHS 60x60x4 S355")
    assert tube_bending(tube, "EN").value == pytest.approx(355e6 * tube.plastic_m3)
    assert tube_torsion(tube, "EN").value == pytest.approx(355e6 * tube.torsion_m3 / np.sqrt(3))
    assert (
        strut_push(tube, 3.0, "EN").value < strut_push(tube, 1.0, "EN").value < tube.area_m2 * 355e6
    )


def test_an_aluminium_pole_takes_its_weld_zones_strength():
    steel = pole_strength(pipe_section(pole_words("6 in schedule 40 A53 B")), 3.0)
    soft = pole_strength(pipe_section(pole_words("6 in schedule 40 6063-T6")), 3.0)
    pipe = pipe_section(pole_words("6 in schedule 40 6063-T6"))
    assert soft.bending_n_m == pytest.approx(55.2e6 * pipe.elastic_m3 / 1.65)
    assert soft.bending_n_m < 0.25 * steel.bending_n_m
