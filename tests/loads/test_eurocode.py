"""Eurocode wind: signs, mirror, no jumps, the square of the gust; and the sets of combinations."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from polestead.loads.combinations import combinations, in_gust
from polestead.loads.eurocode import corner_coefficient, eurocode_actions, force_coefficient
from polestead.loads.pressure import (
    EN,
    SiteWind,
    allowable_gust_m_s,
    exposure_factor,
    map_gust_m_s,
    mean_pressure_pa,
    velocity_pressure_pa,
)
from tests.loads.test_wind import panel, rows

SITE = SiteWind("II", 1.0, 1.0, EN)
SIDES = (1.13, 1.72)


def blow(tilts, gust=41.4, floors=False, geometry=None):
    return eurocode_actions(
        geometry or panel(), SITE, gust, np.asarray(tilts, dtype=float), floors, SIDES
    )


def test_wind_on_the_back_lifts_on_the_glass_presses_and_both_steepen_most():
    a = blow([10.0, 30.0, 45.0])
    back = rows(a, "back")
    assert (a.push_n[back] > 0).all()
    assert (a.push_n[~back] < 0).all()
    steepens, flattens = a.hinge_n_m.max(axis=0), -a.hinge_n_m.min(axis=0)
    assert (flattens > 0.0).all()
    assert (steepens > 1.5 * flattens).all()


def test_from_sixty_degrees_it_lies_as_far_on_either_side_of_the_middle():
    steep = blow([60.0, 75.0, 90.0]).hinge_n_m
    np.testing.assert_allclose(steep.max(axis=0), -steep.min(axis=0), rtol=1e-9)


def test_by_hand_at_thirty_degrees():
    """q_b = 1/2 1.25 27^2 = 455.6 Pa; ce at 3.35 + 1.8 sin 30 m in terrain II; cf 1.8; a quarter of the chord."""
    a, g = blow([30.0], 27.0 * np.sqrt(exposure_factor(10.0, "II"))), panel()
    top = g.hinge_height_m + g.upper_m * 0.5
    lot = np.log(top / 0.05)
    ce = (1.0 + 7.0 / lot) * (0.19 * lot) ** 2
    force = 455.625 * ce * 1.8 * g.area_m2
    assert a.push_n.max() == pytest.approx(force, rel=1e-4)
    assert a.hinge_n_m.max() == pytest.approx(force * 0.25 * g.chord_m, rel=1e-4)


@given(st.floats(-20.0, 85.0), st.floats(0.01, 0.2))
@example(30.0, 0.125)
def test_nothing_jumps(tilt, step):
    """The blocked way is a case of its own up to 30 degrees, where its table ends; from there it is as the open one, which governs."""
    if abs(tilt) < 0.3:  # where flat turns into its mirror image
        return
    one, other = blow([tilt]), blow([tilt + step])
    every = np.arange(len(one.case_names))
    if tilt <= 30.0 < tilt + step:
        blocked = np.array(["blocked" in name for name in one.case_names])
        assert (np.abs(one.push_n[blocked]) <= np.abs(one.push_n[~blocked]) + 1e-9).all()
        assert np.abs(other.push_n[blocked] - other.push_n[~blocked]).max() <= 1e-9
        every = every[~blocked]
    scale = np.abs(one.push_n).max()
    assert np.abs(one.push_n - other.push_n)[every].max() <= 0.05 * scale
    turn = np.abs(one.hinge_n_m).max()
    assert np.abs(one.hinge_n_m - other.hinge_n_m)[every].max() <= 0.05 * turn


@given(st.floats(1.0, 45.0))
def test_past_flat_is_the_mirror_image(tilt):
    flat, past = blow([tilt]), blow([-tilt])
    there = {
        (side, round(float(push)), round(float(turn)))
        for side, push, turn in zip(
            flat.sides, flat.push_n[:, 0], flat.hinge_n_m[:, 0], strict=True
        )
    }
    for side, push, turn in zip(past.sides, past.push_n[:, 0], past.hinge_n_m[:, 0], strict=True):
        other = "glass" if side == "back" else "back"
        same = [one for one in there if one[0] == other and abs(one[1] - push) < 2]
        assert any(abs(one[2] + turn) < 2 for one in same)


@given(st.floats(-20.0, 90.0), st.floats(5.0, 60.0))
def test_all_of_it_goes_with_the_gust_squared(tilt, gust):
    one, two = blow([tilt], gust), blow([tilt], 2.0 * gust)
    np.testing.assert_allclose(two.base_signed_n_m, 4.0 * one.base_signed_n_m, rtol=1e-9, atol=1e-6)
    np.testing.assert_allclose(two.lift_pa, 4.0 * one.lift_pa, rtol=1e-9)


def test_the_gust_that_stands_for_the_map_gives_the_codes_own_peak_pressure():
    gust = map_gust_m_s(EN, 27.0)
    q = float(velocity_pressure_pa(gust, 4.7, SITE))
    assert q == pytest.approx(0.5 * 1.25 * 27.0**2 * float(exposure_factor(4.7, "II")))
    assert allowable_gust_m_s(EN, 27.0) == gust
    assert allowable_gust_m_s("ASCE 7-16", 50.0) == pytest.approx(50.0 * np.sqrt(0.6))


def test_the_mean_pressure_is_that_of_the_ten_minute_mean():
    rough = 0.19 * np.log(4.0 / 0.05)
    expected = 0.5 * 1.25 * (rough * 27.0) ** 2
    assert mean_pressure_pa(map_gust_m_s(EN, 27.0), 4.0, SITE) == pytest.approx(expected)


def test_the_corner_module_bears_more_than_the_whole_and_a_larger_one_less():
    flat = np.array([True])
    for tilt in (0.0, 15.0, 30.0, 60.0):
        corner = float(corner_coefficient(panel(), flat, np.array([tilt]), SIDES)[0])
        assert corner > float(force_coefficient("back", False, np.array(tilt)))
        larger = corner_coefficient(panel(), flat, np.array([tilt]), (2.0, 3.5))
        assert float(larger[0]) <= corner + 1e-9


def test_the_three_sets_are_one_in_allowable_stress_and_differ_under_eurocode():
    assert combinations("ASCE 7-16", "soil") == combinations("ASCE 7-16")
    names = {
        kind: [c.name for c in combinations(EN, kind)] for kind in ("structure", "soil", "service")
    }  # type: ignore[arg-type]
    assert "1.35 G + 1.5 W" in names["structure"]
    assert "G + 1.5 W" in names["structure"]  # dead load that helps
    assert "G + 1.3 W" in names["soil"]
    assert "G + W" in names["service"]
    assert in_gust(EN, "structure").dead == (1.35, 1.0)


def test_high_ground_keeps_its_snow_beside_the_wind():
    low = next(c for c in combinations(EN, elevation_m=200.0) if c.snow and c.wind == 1.5)
    high = next(c for c in combinations(EN, elevation_m=1200.0) if c.snow and c.wind == 1.5)
    assert (low.snow, high.snow) == (pytest.approx(0.75), pytest.approx(1.05))
