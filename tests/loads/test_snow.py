"""Snow: slope, heap, halves, combinations."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from polestead.loads.combinations import combinations, snow_at_allowable
from polestead.loads.snow import (
    PSF_PA,
    heap_height_m,
    least_snow_pa,
    sloped_snow_pa,
    snow_actions,
)

GROUND = 60.0 * PSF_PA


def lying(tilts, p=1000.0, off=0.0, above=0.0):
    t = np.asarray(tilts, dtype=float)
    return snow_actions(np.full_like(t, p), np.zeros_like(t), t, 4.0, 1.8 - off, 1.8 + off, above)


def test_without_room_to_slide_the_whole_of_it_lies_steep_or_not():
    tilts = np.array([0.0, 40.0, 75.0])
    stuck = sloped_snow_pa(GROUND, "C", tilts, False, "ASCE 7-16")
    np.testing.assert_allclose(stuck, 50.4 * PSF_PA)
    free = sloped_snow_pa(GROUND, "C", tilts, True, "ASCE 7-16")
    assert free[2] == 0.0
    mixed = sloped_snow_pa(GROUND, "C", tilts, np.array([True, False, True]), "ASCE 7-16")
    np.testing.assert_allclose(mixed, [free[0], stuck[1], free[2]])


def test_an_unknown_edition_is_refused():
    with pytest.raises(ValueError, match="no snow rule"):
        sloped_snow_pa(GROUND, "C", np.array([0.0]), True, "some other code")


def test_snow_on_the_lower_half_steepens_and_on_the_upper_half_flattens():
    s = lying([5.0, 30.0])
    assert (s.hinge_n_m[1] > 0).all()
    assert (s.hinge_n_m[2] < 0).all()
    np.testing.assert_allclose(s.hinge_n_m[[0, 3]], 0.0, atol=1e-9)


def test_half_covered_moments_are_an_eighth_and_a_stopped_slab_three_sixteenths():
    s = lying([10.0, 20.0])
    whole = 1000.0 * 4.0 * 3.6**2 * np.cos(np.radians([10.0, 20.0])) ** 2
    np.testing.assert_allclose(s.hinge_n_m[1], whole * np.array([1 / 8, 3 / 16]))
    np.testing.assert_allclose(s.hinge_n_m[2], -whole / 8)


def test_one_side_alone_rolls_it():
    s = lying([10.0])
    assert s.roll_n_m[3, 0] == pytest.approx(
        1000.0 * 4.0 * 3.6 * np.cos(np.radians(10.0)) * 4.0 / 8
    )
    assert s.roll_n_m[[0, 1, 2, 4]].max() == 0.0


@given(off=st.floats(-0.5, 0.5), above=st.floats(0.0, 0.5), tilt=st.floats(0.0, 60.0))
def test_two_halves_make_the_whole(off, above, tilt):
    """Under 15 degrees; above it the slab is worse than its half."""
    s = lying([min(tilt, 14.0)], off=off, above=above)
    assert s.hinge_n_m[1, 0] + s.hinge_n_m[2, 0] == pytest.approx(s.hinge_n_m[0, 0], abs=1e-6)


def test_the_hinge_over_the_lower_half_lets_a_whole_cover_flatten_it():
    """Hinge nearer the low edge: off-set negative, more snow above it."""
    assert lying([10.0], off=-0.2).hinge_n_m[0, 0] < 0.0


def test_the_heap_grows_with_what_slides_and_is_nothing_without_snow():
    tilts = np.array([30.0, 30.0])
    heap = heap_height_m(GROUND, np.array([500.0, 2000.0]), 3.6, tilts)
    assert heap[1] > heap[0] > GROUND / (0.13 * 60 + 14) / 157.08746 - 1e-9
    np.testing.assert_allclose(heap_height_m(0.0, np.array([0.0, 0.0]), 3.6, tilts), 0.0)


def test_the_least_snow_is_for_low_slopes_only():
    least = least_snow_pa(GROUND, np.array([0.0, 14.9, 15.0]), "ASCE 7-16")
    np.testing.assert_allclose(least, [20 * PSF_PA, 20 * PSF_PA, 0.0])
    assert least_snow_pa(5 * PSF_PA, np.array([0.0]), "ASCE 7-16")[0] == pytest.approx(5 * PSF_PA)


def test_the_new_edition_s_snow_comes_down_to_the_allowable_level():
    assert snow_at_allowable("ASCE 7-22") == 0.7
    assert [c.snow for c in combinations("ASCE 7-22")] == pytest.approx([0, 0.7, 0, 0.525, 0])
    assert [c.snow for c in combinations("ASCE 7-16")] == pytest.approx([0, 1.0, 0, 0.75, 0])
    assert [c.wind for c in combinations("ASCE 7-16")] == [0, 0, 0.6, 0.45, 0.6]
