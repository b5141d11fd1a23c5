"""Signs, mirror, continuity and the square of the gust."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from polestead.loads.coefficients import corner_factor, sign_coefficient
from polestead.loads.pressure import (
    SiteWind,
    gust_factor,
    height_factor,
    terrain,
    velocity_pressure_pa,
)
from polestead.loads.wind import collector_actions, wind_actions
from polestead.mount.geometry import Geometry, Mass

SITE = SiteWind("C", 1.0, 0.95, "ASCE 7-16")
TILTS = st.floats(-20.0, 90.0)


def panel(off_m: float = 0.0, width_m: float = 4.6, chord_m: float = 3.6) -> Geometry:
    return Geometry(
        width_m, chord_m, width_m * chord_m, 3.35, chord_m / 2 - off_m, chord_m / 2 + off_m, 0.18, 0.13, 0.2, 0.08,
        5.0, 75.0, (Mass("all", 400.0, 0.0, 0.1),), 400.0, 0.0, 0.1,
    )  # fmt: skip


def blow(tilts, gust=40.0, floors=False, geometry=None, site=SITE, kd=1.0, factor=0.9):
    return wind_actions(
        geometry or panel(), site, gust, np.asarray(tilts, dtype=float), kd, factor, floors
    )


def rows(actions, side):
    return np.array([name == side for name in actions.sides])


def test_wind_on_the_back_lifts_and_drives_towards_the_sun_side():
    a = blow([20.0, 45.0, 70.0, 90.0])
    back = rows(a, "back")
    assert (a.push_n[back] > 0).all()
    assert (a.towards_sun_n[back] > 0).all()
    assert (a.push_n[~back] < 0).all()
    assert (a.towards_sun_n[~back] < 0).all()


def test_case_b_steepens_from_either_side_and_is_worst_near_22_degrees():
    tilts = np.arange(7.5, 45.1, 0.5)
    a = blow(tilts)
    for name in a.case_names:
        if "case B" in name:
            assert (a.hinge_n_m[a.case_names.index(name)] > 0).all()
    worst = a.hinge_n_m.max(axis=0)
    assert tilts[worst.argmax()] == 22.5


def test_flattening_stays_small_between_7_5_and_45_degrees():
    a = blow(np.arange(7.5, 45.1, 0.5), gust=30.0, factor=1.0)
    g = panel()
    q = float(velocity_pressure_pa(30.0, g.hinge_height_m, SITE))
    assert a.hinge_n_m.min() / (q * g.area_m2 * g.chord_m) >= -0.075 - 1e-9


def test_base_moment_is_force_at_hinge_height_with_the_hinge_moment_helping_on_the_back():
    a, g = blow([30.0]), panel()
    for case, side in enumerate(a.sides):
        size = abs(a.across_n[case, 0]) * g.hinge_height_m
        with_hinge = size + a.hinge_n_m[case, 0] if side == "back" else size - a.hinge_n_m[case, 0]
        assert a.base_n_m[case, 0] == pytest.approx(with_hinge)


@given(tilt=TILTS, gust=st.floats(1.0, 90.0), scale=st.floats(0.1, 3.0))
def test_all_of_it_goes_with_the_gust_squared(tilt, gust, scale):
    one, other = blow([tilt], gust), blow([tilt], gust * scale)
    for field in (
        "push_n",
        "towards_sun_n",
        "hinge_n_m",
        "base_signed_n_m",
        "twist_n_m",
        "roll_n_m",
        "lift_pa",
    ):
        np.testing.assert_allclose(
            getattr(other, field), scale**2 * getattr(one, field), rtol=1e-9, atol=1e-9
        )


@given(tilt=st.floats(0.0, 30.0))
def test_a_panel_past_flat_is_its_own_mirror_image(tilt):
    straight, mirror = blow([tilt]), blow([-tilt])
    other = [
        straight.case_names.index(
            name.replace("back", "?").replace("glass", "back").replace("?", "glass")
        )
        for name in mirror.case_names
    ]
    if tilt > 0.0:
        np.testing.assert_allclose(mirror.push_n, straight.push_n[other])
        np.testing.assert_allclose(mirror.hinge_n_m, -straight.hinge_n_m[other])
        np.testing.assert_allclose(mirror.towards_sun_n, -straight.towards_sun_n[other])


def test_flat_is_the_same_from_both_sides():
    a = blow([0.0])
    back = rows(a, "back")
    np.testing.assert_allclose(a.push_n[back], a.push_n[~back])
    np.testing.assert_allclose(a.hinge_n_m[back], -a.hinge_n_m[~back])


@given(tilt=st.floats(0.1, 89.9), floors=st.booleans())
def test_forces_never_jump_with_the_tilt(tilt, floors):
    a = blow([tilt - 1e-7, tilt + 1e-7], floors=floors)
    for field in (
        "push_n",
        "hinge_n_m",
        "base_n_m",
        "twist_n_m",
        "roll_n_m",
        "lift_pa",
        "press_pa",
    ):
        values = getattr(a, field)
        assert np.abs(values[:, 1] - values[:, 0]).max() < 0.1


def test_upright_is_the_sign_and_nothing_else():
    a, g = blow([90.0]), panel()
    top = g.hinge_height_m + g.upper_m
    cf = float(sign_coefficient(np.array(g.width_m / g.chord_m), np.array(g.chord_m / top)))
    wanted = 0.9 * float(velocity_pressure_pa(40.0, top, SITE)) * cf * g.area_m2
    np.testing.assert_allclose(a.normal_n[:, 0], wanted)
    np.testing.assert_allclose(np.abs(a.hinge_n_m[:, 0]), 0.05 * g.chord_m * wanted)


def test_the_level_push_is_worst_near_66_degrees_and_above_the_upright_one():
    tilts = np.arange(45.0, 90.5, 0.5)
    across = blow(tilts).across_n.max(axis=0)
    assert 60.0 <= tilts[across.argmax()] <= 70.0
    assert across.max() == pytest.approx(1.14 * across[-1], rel=0.03)


def test_a_flat_panel_is_still_pushed_under_the_code():
    a, g = blow([0.0], floors=True, kd=0.85, factor=0.85), panel()
    q = 0.85 * float(velocity_pressure_pa(40.0, g.hinge_height_m, SITE))
    least = max(0.25 * q * g.area_m2, 766.08 * g.width_m * g.depth_m)
    np.testing.assert_allclose(a.across_n, least, rtol=1e-4)


def test_in_a_light_wind_the_least_push_of_the_code_governs():
    a, g = blow([60.0], gust=5.0, floors=True), panel()
    area = g.width_m * (g.chord_m * np.sin(np.pi / 3) + g.depth_m * 0.5)
    np.testing.assert_allclose(a.across_n, 766.084 * area, rtol=1e-5)


def test_a_hinge_off_mid_chord_gets_the_push_times_the_offset():
    plain, moved = blow([30.0]), blow([30.0], geometry=panel(off_m=0.1))
    np.testing.assert_allclose(moved.hinge_n_m, plain.hinge_n_m - 0.1 * plain.push_n)


def test_collector_and_code_agree_within_a_quarter_upright_and_at_the_worst_hinge_moment():
    tilts = np.array([30.0, 90.0])
    code, collector = blow(tilts, kd=1.0), collector_actions(panel(), SITE, 40.0, tilts)
    ratio = collector.base_n_m.max(axis=0)[1] / code.base_n_m.max(axis=0)[1]
    assert 0.75 < ratio < 1.25
    hinge = collector.hinge_n_m.max(axis=0)[0] / code.hinge_n_m.max(axis=0)[0]
    assert 0.75 < hinge < 1.25


def test_no_pressure_is_read_lower_than_at_fifteen_feet():
    assert height_factor(1.0, "ASCE 7-16", "C") == height_factor(15 * 0.3048, "ASCE 7-16", "C")


def test_an_unknown_exposure_is_refused():
    with pytest.raises(ValueError, match="no exposure"):
        terrain("ASCE 7-16", "E")


@settings(max_examples=30)
@given(height=st.floats(2.0, 15.0), width=st.floats(1.0, 10.0), exposure=st.sampled_from("BCD"))
def test_the_gust_factor_stays_between_the_code_s_least_and_one(height, width, exposure):
    assert 0.85 <= gust_factor(height, width, "ASCE 7-16", exposure) < 1.0


def test_the_smaller_the_module_the_worse_its_corner():
    factors = [corner_factor(area, 4.6, 3.6, 3.35) for area in (0.5, 2.0, 6.0)]
    assert factors == [2.0, 1.5, 1.0]


def test_rougher_ground_is_kinder():
    pushes = [blow([60.0], site=replace(SITE, exposure=e)).across_n.max() for e in "BCD"]
    assert pushes == sorted(pushes)
