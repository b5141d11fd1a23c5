"""The search for pins, and the pins as measured."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from polestead.base.problem import Wrong
from polestead.homestead.demos import demo_path
from polestead.homestead.read import read_homestead
from polestead.mount.linkage import rod_arm_m, rod_length_m, steepening_pulls, tape_table
from polestead.mount.pins import TAPE_M, PinBounds, as_measured, best_pins, bounds_about, refit

DRIVE = read_homestead(demo_path("hollow-spruce")).homestead.drive
TILTS = np.arange(5.0, 76.0, 1.0)


def shows(drive, tilts):
    return rod_length_m(drive, np.asarray(tilts, dtype=float)) - drive.retracted_length_m


def best(bounds=None, moment=3000.0):
    steepens = np.full(TILTS.size, moment)
    return best_pins(DRIVE, TILTS, steepens, np.zeros(TILTS.size), bounds or bounds_about(DRIVE))


def test_the_pins_found_bear_no_more_than_those_there_are_and_fit_the_actuator():
    found = best()
    moved = DRIVE.model_copy(update={name: getattr(found, name) for name in ("pin_along_m", "pin_below_m", "bracket_out_m", "bracket_below_m")})  # fmt: skip
    assert found.peak_n <= found.peak_now_n
    assert steepening_pulls(moved, 5.0, 75.0)
    out = shows(moved, TILTS)
    assert out.min() >= 0.0
    assert out.max() <= DRIVE.stroke_m
    assert found.peak_n == pytest.approx(3000.0 / rod_arm_m(moved, TILTS).min(), rel=1e-6)


def test_pins_stay_within_the_owners_bounds_and_wider_bounds_are_no_worse():
    tight, wide = bounds_about(DRIVE, 0.1), bounds_about(DRIVE, 0.4)
    found = best(tight)
    assert tight.along_m[0] <= found.pin_along_m <= tight.along_m[1]
    assert tight.down_m[0] <= found.bracket_below_m <= tight.down_m[1]
    assert best(wide).peak_n <= found.peak_n * 1.01


def test_bounds_no_linkage_fits_are_told():
    nowhere = PinBounds((0.06, 0.07), (0.0, 0.01), (0.0, 0.01), (0.11, 0.12))
    with pytest.raises(Wrong, match="stroke"):
        best(nowhere)


@settings(max_examples=20, deadline=None)
@given(st.floats(-0.012, 0.012), st.floats(-0.012, 0.012))
def test_a_planted_slip_is_found_from_two_pairs(along, below):
    """What is off in the pins is laid off so that the whole table lies within the tape."""
    planted = DRIVE.model_copy(update={"pin_along_m": DRIVE.pin_along_m + along, "bracket_below_m": DRIVE.bracket_below_m + below})  # fmt: skip
    pairs = np.array([15.0, 65.0])
    fit = refit(DRIVE, shows(planted, pairs), pairs)
    assert fit.proved
    update = {name: getattr(fit, name) for name in ("retracted_length_m", "pin_along_m", "bracket_below_m")}  # fmt: skip
    fitted = DRIVE.model_copy(update=update)
    off = np.abs(shows(fitted, TILTS) - shows(planted, TILTS)).max()
    before = np.abs(shows(DRIVE, TILTS) - shows(planted, TILTS)).max()
    assert off <= max(0.5 * before, TAPE_M)


def test_one_pair_or_two_close_ones_prove_nothing():
    assert not refit(DRIVE, shows(DRIVE, [30.0]), np.array([30.0])).proved
    assert not refit(DRIVE, shows(DRIVE, [30.0, 40.0]), np.array([30.0, 40.0])).proved
    assert refit(DRIVE, shows(DRIVE, [20.0, 60.0]), np.array([20.0, 60.0])).proved


def test_pairs_that_cannot_be_are_not_proved():
    wild = refit(DRIVE, np.array([0.2, 0.25, 0.9]), np.array([10.0, 40.0, 70.0]))
    assert not wild.proved
    assert wild.worst_miss_m > TAPE_M


def test_without_pairs_the_drive_is_as_planned():
    assert as_measured(DRIVE) == (DRIVE, None)
    built = read_homestead(demo_path("slieve-moss")).homestead.drive
    drive, fit = as_measured(built)
    assert fit is not None
    assert fit.proved
    np.testing.assert_allclose(shows(drive, [15.0, 60.0]), [0.174, 0.762], atol=TAPE_M)


def test_a_degree_takes_as_long_as_the_lever_is_long():
    rows = tape_table(DRIVE, 5.0, 75.0)
    for row in rows:
        assert row.seconds_per_deg == pytest.approx(
            abs(row.arm_m) * np.pi / 180.0 / DRIVE.speed_m_s
        )
        assert row.cold_seconds_per_deg > row.seconds_per_deg
    between = rows[4].rod_shows_m - rows[3].rod_shows_m
    mean = (rows[4].seconds_per_deg + rows[3].seconds_per_deg) / 2.0
    assert 5.0 * mean * DRIVE.speed_m_s == pytest.approx(between, rel=1e-3)
