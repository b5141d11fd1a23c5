"""The linked geometry (conventions §9)."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from polestead.base.problem import Wrong
from polestead.homestead.demos import demo_path
from polestead.homestead.read import read_homestead
from polestead.mount.checks import geometry_checks, linkage_checks
from polestead.mount.geometry import (
    Geometry,
    dead_hinge_moment_n_m,
    geometry_of,
    grid_of,
    lowest_edge_m,
    pole_gap_m,
    strongback_gap_m,
    top_height_m,
)
from polestead.mount.heap import heap_height_m, snow_room_check
from polestead.mount.linkage import (
    move_time_s,
    rod_arm_m,
    rod_length_m,
    steepening_pulls,
    tape_table,
    tilt_from_rod_deg,
    triangle,
)

HOMESTEAD = read_homestead(demo_path("hollow-spruce")).homestead
DRIVE = HOMESTEAD.drive
assert DRIVE is not None
PLAIN = Geometry(4.0, 3.0, 12.0, 3.0, 1.5, 1.5, 0.2, 0.13, 0.2, 0.1, 5.0, 75.0, (), 300.0, 0.0, 0.1)
tilts = st.floats(0.0, 90.0)
lengths = st.floats(0.2, 3.0)


def test_the_grid_is_as_wide_and_long_as_its_modules_and_gaps() -> None:
    grid = grid_of(HOMESTEAD.array.module, 4, 2, True, 0.02, 0.05)
    assert grid.width_m == pytest.approx(4 * 1.134 + 3 * 0.02)
    assert grid.chord_m == pytest.approx(2 * 1.762 + 0.05)
    assert grid.row_centres_m == pytest.approx((-(1.762 + 0.05) / 2, (1.762 + 0.05) / 2))


def test_an_odd_number_of_rows_has_no_slot() -> None:
    grid = grid_of(HOMESTEAD.array.module, 2, 3, False, 0.02, 0.05)
    assert grid.chord_m == pytest.approx(3 * 1.134 + 2 * 0.02)
    assert grid.row_centres_m[1] == pytest.approx(0.0)


def test_every_piece_that_tips_is_weighed() -> None:
    geometry = geometry_of(HOMESTEAD.mount, HOMESTEAD.array, 100.0)
    assert geometry.mass_kg == pytest.approx(8 * 21.772 + 263.084 + 100.0, abs=0.01)
    assert geometry.centre_along_m == pytest.approx(0.0, abs=1e-12)


@given(tilts, st.floats(0.1, 2.0))
def test_raising_the_hinge_raises_both_edges_as_much(tilt: float, up: float) -> None:
    at = np.array([tilt])
    higher = replace(PLAIN, hinge_height_m=PLAIN.hinge_height_m + up)
    assert lowest_edge_m(higher, at) == pytest.approx(lowest_edge_m(PLAIN, at) + up)
    assert top_height_m(higher, at) == pytest.approx(top_height_m(PLAIN, at) + up)


@given(tilts, st.floats(0.5, 4.0))
def test_everything_grows_in_proportion(tilt: float, by: float) -> None:
    at = np.array([tilt])
    larger = replace(
        PLAIN,
        **{
            name: getattr(PLAIN, name) * by
            for name in (
                "hinge_height_m",
                "upper_m",
                "lower_m",
                "glass_above_m",
                "depth_m",
                "pole_top_below_m",
                "beam_clear_m",
            )
        },
    )
    assert lowest_edge_m(larger, at) == pytest.approx(lowest_edge_m(PLAIN, at) * by)
    assert top_height_m(larger, at) == pytest.approx(top_height_m(PLAIN, at) * by)
    assert pole_gap_m(larger, 0.2 * by, at) == pytest.approx(pole_gap_m(PLAIN, 0.2, at) * by)


def test_upright_the_array_clears_its_pole_by_the_beam_less_the_radius() -> None:
    assert pole_gap_m(PLAIN, 0.16, np.array([90.0])) == pytest.approx(0.1 - 0.08)


def test_the_pole_gap_is_the_distance_of_two_points_drawn_out_by_hand() -> None:
    # at 30 deg: plane through (-b sin t, b cos t) along (cos t, sin t); corner of the pole's top at (-R, -g)
    t, b, g, r = np.radians(30.0), 0.1, 0.2, 0.08
    corner, point = np.array([-r, -g]), np.array([-b * np.sin(t), b * np.cos(t)])
    along = np.array([np.cos(t), np.sin(t)])
    off = (point - corner) - np.dot(point - corner, along) * along
    assert pole_gap_m(PLAIN, 0.16, np.array([30.0]))[0] == pytest.approx(np.hypot(*off))


@given(tilts)
def test_weight_over_the_hinge_steepens_as_virtual_work_says(tilt: float) -> None:
    step = 1e-5
    geometry = replace(PLAIN, centre_along_m=0.07, centre_above_m=0.12)

    def height(at: float) -> float:
        t = np.radians(at)
        return 0.07 * np.sin(t) + 0.12 * np.cos(t)

    lost = -(height(tilt + step) - height(tilt - step)) / np.radians(2 * step) * 300.0 * 9.80665
    assert dead_hinge_moment_n_m(geometry, np.array([tilt]))[0] == pytest.approx(lost, abs=1e-3)


@given(tilts, lengths, st.floats(-0.3, 0.4), st.floats(0.1, 1.0), st.floats(0.5, 2.0))
def test_the_lever_is_the_change_of_length_with_tilt(
    tilt: float, along: float, below: float, out: float, down: float
) -> None:
    drive = DRIVE.model_copy(
        update={
            "pin_along_m": along,
            "pin_below_m": below,
            "bracket_out_m": out,
            "bracket_below_m": down,
        }
    )
    step = 1e-5
    ends = rod_length_m(drive, np.array([tilt - step, tilt + step]))
    assert rod_arm_m(drive, np.array([tilt]))[0] == pytest.approx(
        (ends[1] - ends[0]) / np.radians(2 * step), abs=2e-5
    )


@given(lengths, lengths, st.floats(1.0, 179.0))
def test_the_triangle_of_two_pins_is_the_same_rod(a: float, b: float, phi: float) -> None:
    drive = DRIVE.model_copy(
        update={"pin_along_m": a, "pin_below_m": 0.0, "bracket_out_m": 0.0, "bracket_below_m": b}
    )
    at = np.array([phi - 90.0])
    length, lever = triangle(a, b, phi)
    assert rod_length_m(drive, at)[0] == pytest.approx(length)
    assert rod_arm_m(drive, at)[0] == pytest.approx(lever)


@given(st.floats(5.0, 75.0))
def test_the_tilt_is_read_back_from_the_rod_that_shows(tilt: float) -> None:
    shows = rod_length_m(DRIVE, np.array([tilt])) - DRIVE.retracted_length_m
    assert tilt_from_rod_deg(DRIVE, shows, 5.0, 75.0)[0] == pytest.approx(tilt, abs=1e-6)


def test_a_rod_no_tilt_shows_is_refused() -> None:
    with pytest.raises(Wrong, match="Measure the rod again"):
        tilt_from_rod_deg(DRIVE, np.array([2.0]), 5.0, 75.0)


def test_a_move_takes_the_rods_way_over_its_speed() -> None:
    ends = rod_length_m(DRIVE, np.array([5.0, 75.0]))
    assert move_time_s(DRIVE, 5.0, 75.0) == pytest.approx((ends[1] - ends[0]) / 0.00635, rel=1e-6)
    assert move_time_s(DRIVE.model_copy(update={"speed_m_s": None}), 5.0, 75.0) is None
    assert steepening_pulls(DRIVE, 5.0, 75.0)


def test_a_heap_stands_as_a_ridge_at_its_angle_of_repose() -> None:
    """One fall of 0.3 m off 3.5 m of glass, settled to half: section 0.525 m2, h = sqrt(0.525 tan 40)."""
    assert heap_height_m(0.3, 3.5) == pytest.approx((0.525 * 0.8391) ** 0.5, rel=1e-4)
    low = snow_room_check(replace(PLAIN, hinge_height_m=1.8), 0.4, 0.5)
    assert not low.holds
    assert snow_room_check(PLAIN, 0.2, 0.2).holds


@given(st.floats(0.0, 90.0), st.floats(0.05, 0.3), st.floats(0.05, 0.3))
def test_a_deeper_strongback_leaves_less_room_over_the_pole(
    tilt: float, depth: float, breadth: float
) -> None:
    at = np.array([tilt])
    assert strongback_gap_m(PLAIN, depth + 0.05, breadth, at) <= strongback_gap_m(
        PLAIN, depth, breadth, at
    )
    assert strongback_gap_m(PLAIN, depth, breadth + 0.05, at) <= strongback_gap_m(
        PLAIN, depth, breadth, at
    )


def test_the_tape_ends_at_the_steepest_tilt_and_never_shows_less_rod_when_steeper() -> None:
    rows = tape_table(DRIVE, 5.0, 73.0)
    assert rows[-1].tilt_deg == 73.0
    shown = [row.rod_shows_m for row in rows]
    assert shown == sorted(shown)


def test_a_short_stroke_a_long_tube_and_a_dead_centre_are_told() -> None:
    short = DRIVE.model_copy(update={"stroke_m": 0.8})
    long = DRIVE.model_copy(update={"retracted_length_m": 1.3})
    dead = DRIVE.model_copy(
        update={"bracket_out_m": -0.61}
    )  # in line with hinge and pin at 63 degrees
    told = [
        [check.name for check in linkage_checks(drive, 5.0, 75.0) if not check.holds]
        for drive in (DRIVE, short, long, dead)
    ]
    assert told[0] == []
    assert told[1] == ["stroke long enough"]
    assert "short enough at the flattest" in told[2]
    assert "away from dead centre" in told[3]


def test_each_room_is_told_when_it_is_missing() -> None:
    low = replace(PLAIN, hinge_height_m=1.8)
    near = replace(PLAIN, beam_clear_m=0.0)
    assert [c.part for c in geometry_checks(low, 0.16, 0.6, 10.0) if not c.holds] == ["lowest edge"]
    assert [c.part for c in geometry_checks(near, 0.16, 0.6, 10.0) if not c.holds] == [
        "frame and pole"
    ]
    assert [c.part for c in geometry_checks(PLAIN, 0.16, 0.6, 4.0) if not c.holds] == ["upper edge"]
    assert all(c.holds for c in geometry_checks(PLAIN, 0.16, 0.6, None))
