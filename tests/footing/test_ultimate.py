"""The pier when all its soil gives: Broms, the full statics against scipy, Eurocode's soil, concrete, frost depth."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import quad
from scipy.optimize import fsolve

from polestead.footing.concrete import (
    cage_bending_n_m,
    deepest_moment_at_m,
    moment_at_foot_n_m,
    plain_bending_n_m,
    pressing_pa,
)
from polestead.footing.eurocode import bearing_resistance_pa, weakened
from polestead.footing.pier import constrained_embedment_m, needed_depth_m, pier_of
from polestead.footing.ultimate import (
    broms_drained_n,
    broms_undrained_n,
    full_statics_drained_n,
    ultimate_n,
)
from tests.footing.test_pier import DRAINED, FOOTING, PIER

depths, levers = st.floats(1.0, 5.0), st.floats(0.0, 8.0)


@settings(max_examples=25, deadline=None)
@given(depths, levers)
def test_the_full_statics_is_what_scipy_solves(depth, lever):
    """Force and moment of the two passive blocks, integrated and solved by the library."""
    k = 9.0 * 18e3 * 0.75

    def off(unknown):
        force, turn = unknown[0] * 1e4, unknown[1]
        above, below = quad(lambda z: k * z, 0, turn)[0], quad(lambda z: k * z, turn, depth)[0]
        about = quad(lambda z: k * z * (z + lever), 0, turn)[0] - quad(lambda z: k * z * (z + lever), turn, depth)[0]  # fmt: skip
        return [(force - above + below) / 1e4, about / 1e4]

    found = fsolve(off, [2.0, 0.75 * depth], full_output=True)
    assert found[2] == 1
    ours = float(full_statics_drained_n(depth, 0.75, 18e3, 3.0, lever))
    assert ours == pytest.approx(found[0][0] * 1e4, rel=1e-5)


@settings(max_examples=25, deadline=None)
@given(st.floats(1.8, 5.0), levers)
def test_in_clay_broms_is_the_full_statics(depth, lever):
    """Nine undrained strengths from the dead zone to the turning point, and back below it."""
    c, b = 50e3, 0.75

    def off(unknown):
        force, turn = unknown[0] * 1e4, unknown[1]
        p, dead = 9.0 * c * b, 1.5 * b
        about = p * ((turn + lever) ** 2 - (dead + lever) ** 2 - (depth + lever) ** 2 + (turn + lever) ** 2) / 2.0  # fmt: skip
        return [(force - p * (2 * turn - dead - depth)) / 1e4, about / 1e4]

    found = fsolve(off, [2.0, 0.8 * depth], full_output=True)
    assert found[2] == 1
    ours = float(broms_undrained_n(depth, b, c, lever))
    assert ours == pytest.approx(found[0][0] * 1e4, rel=1e-6)


@given(depths, levers, st.floats(1.01, 2.0))
def test_deeper_wider_and_lower_hold_more(depth, lever, more):
    for rule, strength in ((broms_drained_n, (18e3, 3.0)), (full_statics_drained_n, (18e3, 3.0)), (broms_undrained_n, (50e3,))):  # fmt: skip
        base = float(rule(depth, 0.75, *strength, lever))
        assert float(rule(depth * more, 0.75, *strength, lever)) >= base
        assert float(rule(depth, 0.75, *strength, lever + 1.0)) <= base + 1e-9
    assert float(broms_drained_n(depth, 0.75 * more, 18e3, 3.0, lever)) > float(broms_drained_n(depth, 0.75, 18e3, 3.0, lever))  # fmt: skip


def test_the_full_statics_is_the_stricter_one_in_grains():
    levers = np.linspace(0.5, 8.0, 20)
    assert (full_statics_drained_n(2.4, 0.9, 18e3, 3.0, levers) < broms_drained_n(2.4, 0.9, 18e3, 3.0, levers)).all()  # fmt: skip
    assert (ultimate_n(PIER, levers) > 0.0).all()


def test_a_slab_at_the_ground_saves_depth():
    force, moment = np.array(5e3), np.array(20e3)
    free = float(needed_depth_m(PIER, force, moment))
    held = float(needed_depth_m(PIER, force, moment, constrained=True))
    assert held < free
    assert float(constrained_embedment_m(60e3, 0.9, np.array(0.0), np.array(3.0))) == 0.0


def test_weak_soil_is_weaker_in_every_way():
    clay = replace(PIER, angle_deg=0.0, passive=0.0, undrained_pa=75e3)
    for pier in (PIER, clay):
        weak = weakened(pier)
        lever = np.array(3.0)
        assert float(ultimate_n(weak, lever)) < float(ultimate_n(pier, lever))
        assert bearing_resistance_pa(weak)[0] < bearing_resistance_pa(pier)[0]
    # tan 30 over 1.25 is tan 24.79: Kp falls from 3 to 2.44
    assert weakened(PIER).passive == pytest.approx(2.444, rel=2e-3)


def test_bearing_of_clay_by_hand():
    """(2 + pi) 75 kPa 1.2 + 18 kN/m3 x 2.9 m."""
    clay = replace(PIER, angle_deg=0.0, undrained_pa=75e3, depth_m=2.9)
    assert bearing_resistance_pa(clay)[0] == pytest.approx(
        (5.1416 * 75 * 1.2 + 18 * 2.9) * 1e3, rel=1e-4
    )


def test_plain_concrete_and_a_cage():
    plain = plain_bending_n_m(0.9144, 20.7e6, False)[0]
    counts = (1.2 - 0.0508) / (0.9144 - 0.0508)
    assert plain_bending_n_m(1.2, 20.7e6, False)[0] == pytest.approx(plain * counts**3)
    # 36 in drilled counts as 34: .6 x 5 x sqrt(3000) = 164.3 psi, S = pi 34^3 / 32 = 3,859 in3, 634.1 kip in at strength
    # level, 0.6 of it = 380.4 kip in at the allowable one.
    assert plain_bending_n_m(0.9144, 3000 * 6894.757, False)[0] == pytest.approx(
        380.4e3 * 0.112985, rel=1e-3
    )
    # .85 x 3000 x .6 x .6 = 918 psi
    assert pressing_pa(3000 * 6894.757, False)[0] == pytest.approx(918 * 6894.757, rel=1e-4)
    # EN, .9 m drilled counts as .855: fctd = .168 x 20^(2/3) / 1.65 = .7502 MPa on pi .855^3 / 32 = .06136 m3
    assert plain_bending_n_m(0.9, 20e6, True)[0] == pytest.approx(0.7502e6 * 0.06136, rel=1e-3)
    assert pressing_pa(20e6, True)[0] == pytest.approx(10.303e6, rel=1e-3)  # .85 x 20 / 1.65
    few, many = (cage_bending_n_m(0.9144, n, 0.016, False)[0] for n in (6, 12))
    assert many == pytest.approx(2.0 * few)


@given(st.floats(0.5, 6.0), st.floats(0.0, 1.0))
def test_what_is_left_at_the_poles_foot_is_no_less_than_the_full_statics(lever, share):
    """Moment along a pier in grains whose soil gives all along, from the largest down to the foot."""
    bare = replace(PIER, effective_m=0.0)
    force = float(
        full_statics_drained_n(bare.depth_m, bare.diameter_m, bare.soil_n_m3, bare.passive, lever)
    )
    k, depth = 3.0 * bare.passive * bare.soil_n_m3 * bare.diameter_m, bare.depth_m
    turn = np.sqrt(force / k + depth**2 / 2.0)
    at = float(deepest_moment_at_m(bare, np.array(force)))
    z = at + share * (depth - at)
    above = min(z, turn)
    moment = force * (lever + z) - k * (above**2 * z / 2.0 - above**3 / 3.0)
    if z > turn:
        moment += k * ((z**2 - turn**2) * z / 2.0 - (z**3 - turn**3) / 3.0)
    largest = force * (lever + at) - k * at**3 / 6.0
    ours = float(moment_at_foot_n_m(replace(bare, pole_depth_m=z), np.array(largest), np.array(at)))
    assert ours >= moment - 1e-6 * largest


def test_water_in_the_hole_makes_all_of_it_lighter():
    dry = pier_of(FOOTING, "sandy gravel or gravel", DRAINED, 0.5)
    wet = pier_of(FOOTING, "sandy gravel or gravel", DRAINED, 0.5, None, 0.0)
    half = pier_of(FOOTING, "sandy gravel or gravel", DRAINED, 0.5, None, FOOTING.depth_m / 2.0)
    assert wet.soil_n_m3 == pytest.approx(dry.soil_n_m3 - 9810.0)
    assert wet.weight_n < half.weight_n < dry.weight_n
    lever = np.array(3.0)
    assert float(ultimate_n(wet, lever)) == pytest.approx(
        float(ultimate_n(dry, lever)) * (18.0 - 9.81) / 18.0
    )
    deep = pier_of(FOOTING, "sandy gravel or gravel", DRAINED, 0.5, None, 9.0)
    assert deep == dry


@pytest.mark.parametrize("bars", [6, 8, 12])
def test_the_cage_is_on_the_careful_side_of_the_strip_by_strip_sum(bars):
    """Bars yield at 414 MPa, concrete bears .85 x 20.7 MPa over .85 of the depth in push; pure bending, worst way round."""
    radius, bar = 0.9144 / 2.0, 0.016
    ring = radius - 0.0762 - bar / 2.0
    area = np.pi / 4.0 * bar**2
    strips = np.linspace(-radius, radius, 4001)
    width = 2.0 * np.sqrt(np.maximum(radius**2 - strips**2, 0.0))
    thick = strips[1] - strips[0]

    def bends(turn):
        heights = ring * np.sin(turn + 2.0 * np.pi * np.arange(bars) / bars)
        low, high = -radius, radius  # neutral axis: push above it
        for _ in range(60):
            axis = (low + high) / 2.0
            pushed = strips > radius - 0.85 * (radius - axis)
            push = 0.85 * 20.7e6 * (width * pushed).sum() * thick
            stress = 414e6 * np.clip(
                (axis - heights) / (radius - axis) * 0.003 / 0.00207, -1.0, 1.0
            )
            pull = (area * stress).sum()
            low, high = (axis, high) if push > pull else (low, axis)
        moment = 0.85 * 20.7e6 * (width * pushed * strips).sum() * thick
        return moment - (area * stress * heights).sum()

    least = min(bends(turn) for turn in np.linspace(0.0, 2.0 * np.pi / bars, 7))
    assert cage_bending_n_m(0.9144, bars, bar, False)[0] <= 0.9 * 0.6 * least


def test_the_moment_falls_to_nothing_at_the_piers_foot():
    at = deepest_moment_at_m(PIER, np.array([5e3, 20e3]))
    assert at[0] < at[1] < PIER.depth_m
    left = moment_at_foot_n_m(PIER, np.array([10e3, 10e3]), at)
    assert (left > 0.0).all()
    assert (left < 10e3).all()
    whole = replace(PIER, pole_depth_m=PIER.depth_m)
    assert (moment_at_foot_n_m(whole, np.array([10e3, 10e3]), at) == 0.0).all()
