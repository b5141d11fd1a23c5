"""The flexing cable: its shortest curve by hand and by walking it, its loop, currents, cold."""

from __future__ import annotations

from dataclasses import asdict
from itertools import pairwise
from math import cos, hypot, pi, sin

import pytest
from hypothesis import assume, example, given, settings
from hypothesis import strategies as st

from polestead.answer.stands import wires_of
from polestead.sheets.wires.trench import hinge_cable_lines
from polestead.wiring.run.hinge_cable import (
    Clamps,
    Pose,
    at_tilt,
    cord_for,
    cords,
    frame_pose,
    hinge_cable_of,
    paths,
    pole_pose,
    shortest_m,
)
from polestead.wiring.run.on_pole import REACH_M, on_pole
from tests.wiring.test_one_line import changed

ANGLES = st.floats(-pi, pi)
SPANS = st.floats(-2.0, 2.0)


def spruce(**more):
    return hinge_cable_of(5.0, 75.0, 3.35, 35.0, 43.75, -43.9, **more)


def check(found, name):
    (one,) = [check for check in found.checks if name in check.name]
    return one


def walk(start, path, radius_m):
    """Where a curve of arcs and straights ends, walked in short chords."""
    x, z, heading = start.x_m, start.z_m, start.heading_rad
    for turn, size in path:
        long = size * (radius_m if turn else 1.0)
        steps = 2000
        for _ in range(steps):
            half = turn * long / steps / radius_m / 2.0
            heading += half
            x, z = x + long / steps * cos(heading), z + long / steps * sin(heading)
            heading += half
    return x, z, heading


def test_straight_ahead_a_half_turn_and_an_s_by_hand():
    assert shortest_m(Pose(0, 0, 0.0), Pose(3.0, 0, 0.0), 0.2) == pytest.approx(3.0)
    assert shortest_m(Pose(0, 0, pi / 2), Pose(0.4, 0, -pi / 2), 0.2) == pytest.approx(0.2 * pi)
    # an S: a quarter left, a quarter right, each .2: up .4, along .4
    assert shortest_m(Pose(0, 0, 0.0), Pose(0.4, 0.4, 0.0), 0.2) == pytest.approx(0.2 * pi)
    # a half turn wider than its circle: two quarters and a straight of .6
    assert shortest_m(Pose(0, 0, -pi / 2), Pose(1.0, 0, pi / 2), 0.2) == pytest.approx(0.2 * pi + 0.6)  # fmt: skip


def test_turning_about_on_the_spot_takes_three_arcs():
    """Published: 7 pi/3 radii from a point back to it the other way round."""
    assert shortest_m(Pose(0, 0, 0.0), Pose(0, 0, pi), 0.3) == pytest.approx(7.0 * pi / 3.0 * 0.3)


@settings(max_examples=150, deadline=None)
@given(SPANS, SPANS, ANGLES, ANGLES, st.floats(0.05, 0.6))
def test_every_curve_arrives_where_and_as_it_should(x, z, first, last, radius):
    start, end = Pose(0.0, 0.0, first), Pose(x, z, last)
    for path in paths(start, end, radius):
        at_x, at_z, heading = walk(start, path, radius)
        assert at_x == pytest.approx(x, abs=1e-4)
        assert at_z == pytest.approx(z, abs=1e-4)
        assert cos(heading - last) == pytest.approx(1.0, abs=1e-6)


@settings(max_examples=150)
@given(SPANS, SPANS, ANGLES, ANGLES, st.floats(0.05, 0.6), st.floats(1.0, 3.0))
def test_no_curve_is_shorter_than_straight_nor_a_stiffer_cord_shorter(x, z, a, b, radius, stiffer):
    start, end = Pose(0.0, 0.0, a), Pose(x, z, b)
    assert shortest_m(start, end, radius) >= hypot(x, z) - 1e-9
    assume(stiffer > 1.0)
    assert shortest_m(start, end, stiffer * radius) >= shortest_m(start, end, radius) - 1e-9


@settings(max_examples=100)
@given(SPANS, SPANS, ANGLES, ANGLES, st.floats(0.05, 0.6))
@example(0.0, 1.1e-17, 3.0, 3.0, 0.05)
def test_walked_the_other_way_it_is_as_long(x, z, first, last, radius):
    there = shortest_m(Pose(0.0, 0.0, first), Pose(x, z, last), radius)
    back = shortest_m(Pose(x, z, last + pi), Pose(0.0, 0.0, first + pi), radius)
    assert back == pytest.approx(there, rel=1e-6, abs=1e-6)


def test_the_clamps_move_as_the_pins_of_the_rod_do():
    """Clamp .6 along and .1 behind: flat at (.6, -.1), upright at (.1, .6); the cord leaves down, and away from the glass."""
    clamps = Clamps(0.6, 0.1, 0.15, 0.6)
    flat, upright = frame_pose(clamps, 0.0), frame_pose(clamps, 90.0)
    assert (flat.x_m, flat.z_m) == pytest.approx((0.6, -0.1))
    assert (upright.x_m, upright.z_m) == pytest.approx((0.1, 0.6))
    assert (cos(flat.heading_rad), sin(flat.heading_rad)) == pytest.approx((0.0, -1.0))
    assert (cos(upright.heading_rad), sin(upright.heading_rad)) == pytest.approx((1.0, 0.0))
    assert (pole_pose(clamps).x_m, pole_pose(clamps).z_m) == (0.15, -0.6)


def test_the_loop_of_a_flat_array_by_hand():
    """Down at (.6, -.1), up at (.1, -.6), radius .25: .5 straight down, then half a turn: .5 + .25 pi = 1.2854."""
    clamps = Clamps(0.6, 0.1, 0.1, 0.6)
    assert at_tilt(clamps, 0.25, 0.0, 2.0).least_m == pytest.approx(0.5 + 0.25 * pi)
    assert at_tilt(clamps, 0.25, 0.0, 2.0).spare_m == pytest.approx(1.5 - 0.25 * pi)
    # it can hang no lower than (2 + .1 + .6) / 2 under the hinge
    assert at_tilt(clamps, 0.25, 0.0, 2.0).lowest_m == pytest.approx(1.35)


def test_the_curve_itself_hangs_no_lower_than_the_bound():
    clamps = Clamps()
    for tilt in (0.0, 20.0, 45.0, 75.0, 90.0):
        least = at_tilt(clamps, 0.254, tilt, 0.0).least_m
        start, end = frame_pose(clamps, tilt), pole_pose(clamps)
        path = min(paths(start, end, 0.254), key=lambda p: sum(s * (0.254 if t else 1.0) for t, s in p))  # fmt: skip
        lowest = min(
            walk(start, (*path[:n], (path[n][0], part * path[n][1])), 0.254)[1]
            for n in range(3)
            for part in (0.25, 0.5, 0.75, 1.0)
        )
        assert -lowest <= at_tilt(clamps, 0.254, tilt, least).lowest_m + 1e-6


def test_the_loop_serves_every_tilt_with_its_slack():
    found = spruce()
    assert found.loop_m >= 1.15 * found.least_m
    assert found.loop_m <= 1.15 * found.least_m + 0.01
    assert found.cut_m == pytest.approx(found.loop_m + 1.0)
    for tilt in range(5, 76):
        here = at_tilt(found.clamps, found.radius_m, float(tilt), found.loop_m)
        assert here.spare_m >= 0.15 * found.least_m - 1e-9
        assert here.apart_m <= found.longest_apart_m + 1e-9
    assert [end.tilt_deg for end in found.ends] == [5.0, 75.0]


@settings(max_examples=40, deadline=None)
@given(st.integers(0, 60), st.integers(1, 30), st.integers(0, 30), st.integers(0, 30))
def test_a_larger_travel_never_has_a_shorter_loop(least, span, down, up):
    small = hinge_cable_of(least, least + span, 3.0, 20.0, 25.0, -10.0)
    wide = hinge_cable_of(max(0, least - down), min(90, least + span + up), 3.0, 20.0, 25.0, -10.0)
    assert wide.least_m >= small.least_m
    assert wide.loop_m >= small.loop_m
    assert wide.longest_apart_m >= small.longest_apart_m


def test_the_cord_by_its_two_currents():
    """43.75 A for hours wants 55 A (6 AWG), 8 AWG carries 40; in 45 C .87 of 55 is 47.9 over 35."""
    assert cord_for("SOOW", 43.75, 35.0).size == "6 AWG"
    assert cord_for("SOOW", 40.0, 32.0).size == "8 AWG"
    assert cord_for("SOOW", 40.0, 35.0).size == "6 AWG"  # .87 of 40 is 34.8
    assert cord_for("H07RN-F", 34.0, 27.2).size == "6 mm2"  # .71 of 34 is 24.1, of 43 30.5
    found = spruce()
    assert check(found, "current for hours").holds
    assert check(found, "in the heat").capacity == pytest.approx(0.87 * 55.0)


def test_where_no_cord_is_thick_enough_the_thickest_is_told_and_gives():
    found = hinge_cable_of(5.0, 75.0, 3.35, 100.0, 125.0, -10.0)
    assert found.cord.size == "2 AWG"
    assert not check(found, "current for hours").holds


@pytest.mark.parametrize(("low_c", "holds"), [(-40.0, True), (-40.1, False), (25.0, True)])
def test_a_cord_is_not_bent_colder_than_its_maker_lets_it(low_c, holds):
    found = hinge_cable_of(5.0, 75.0, 3.35, 35.0, 43.75, low_c)
    assert check(found, "record low").holds is holds
    assert any("Do not tip below" in note for note in found.notes) is not holds


def test_a_cord_made_for_colder_may_be_named():
    found = spruce(coldest_c=-50.0, outside_m=0.03)
    assert check(found, "record low").holds
    assert found.radius_m == pytest.approx(0.30)
    with pytest.raises(ValueError, match="known"):
        spruce(size="7 AWG")
    assert spruce(size="4 AWG").chosen


def test_the_loop_as_cut_is_checked():
    least = spruce().least_m
    assert check(spruce(loop_m=least + 0.01), "long enough").holds
    assert not check(spruce(loop_m=least - 0.01), "long enough").holds


def test_snow_under_a_low_hinge_buries_the_loop():
    low = hinge_cable_of(5.0, 75.0, 2.2, 35.0, 43.75, -10.0)
    assert check(low, "ground and snow").holds
    deep = hinge_cable_of(5.0, 75.0, 2.2, 35.0, 43.75, -10.0, snow_m=0.5)
    assert not check(deep, "ground and snow").holds
    assert deep.lowest_m == low.lowest_m


def test_moves_in_a_life_and_when_they_are_many():
    assert spruce().moves == 9125
    assert not any("flexing test" in note for note in spruce().notes)
    many = spruce(moves_a_day=6.0)
    assert many.moves == 54750
    assert any("flexing test" in note for note in many.notes)


@pytest.mark.parametrize("kind", ["SOOW", "H07RN-F"])
def test_a_thicker_cord_carries_more_and_bends_wider(kind):
    known = cords(kind)
    for thin, thick in pairwise(known):
        assert thick.carries_a > thin.carries_a
        assert thick.outside_m > thin.outside_m


@pytest.mark.parametrize("style", ["feet", "metric"])
def test_the_text_fits_a_terminal_and_says_what_gives(style):
    found = spruce()
    lines = "\n".join(hinge_cable_lines(found, style)).splitlines()
    assert max(len(line) for line in lines) <= 78
    text = " ".join(" ".join(lines).split())
    assert "NO: hinge cable, bent at the record low" in text
    assert "49 strands" in text
    assert "drip loop" in text
    assert asdict(found)["cord"]["size"] == "6 AWG"


# the boxes on the pole, and the breaker


def test_the_boxes_on_the_pole_are_one_truth_for_cord_trench_and_drawing() -> None:
    """Hinge at 11 ft: the loop ends .6 m under it, 2.753 m up; the switch 1.2 m up; 1.553 m of pipe between."""
    h = changed("hollow-spruce")
    wires = wires_of(h)
    assert wires.cord is not None
    assert wires.trench is not None
    boxes = wires.cord.boxes
    assert boxes.cord_ends_m == pytest.approx(h.mount.hinge_height_m - wires.cord.clamps.down_m)
    assert boxes.switch_m == pytest.approx(1.2)
    assert wires.trench.lengths.pole_riser_m == pytest.approx(h.run.cover_m + boxes.switch_m)
    (pipe,) = [one for one in wires.trench.bought if one.name == "pipe, down the pole"]
    assert pipe.length_m == pytest.approx(boxes.cord_ends_m - boxes.switch_m)
    said = " ".join(" ".join(hinge_cable_lines(wires.cord, "metric")).split())
    assert f"The loop ends {boxes.cord_ends_m:.2f} m over the ground" in said
    assert "The switch's box, where the run's riser ends, is 1.20 m" in said


@given(st.floats(1.0, 6.0), st.floats(0.2, 1.5))
def test_the_switch_is_always_in_reach_and_the_pieces_add_up(hinge_m, below_m) -> None:
    boxes = on_pole(hinge_m, below_m)
    assert boxes.switch_m <= REACH_M
    assert boxes.switch_m + boxes.pipe_m == pytest.approx(boxes.cord_ends_m)
    assert boxes.two_boxes is (boxes.cord_ends_m > REACH_M)


def test_the_breaker_must_protect_the_cord_with_no_next_size_up() -> None:
    """SOOW 6 AWG: 55 A x .87 at 45 C = 47.85 A: 45 A passes, 50 A does not and takes 4 AWG, 70 x .87 = 60.9 A."""
    fits = hinge_cable_of(5.0, 75.0, 3.35, 35.0, 43.75, -30.0, breaker_a=45.0)
    assert fits.cord.size == "6 AWG"
    held = check(fits, "breaker")
    assert (held.demand, held.capacity) == (45.0, pytest.approx(47.85))
    assert held.holds
    named = hinge_cable_of(5.0, 75.0, 3.35, 35.0, 43.75, -30.0, size="6 AWG", breaker_a=50.0)
    assert not check(named, "breaker").holds
    assert hinge_cable_of(5.0, 75.0, 3.35, 35.0, 43.75, -30.0, breaker_a=50.0).cord.size == "4 AWG"
    assert not [c for c in spruce().checks if "breaker" in c.name]


def test_a_rubber_cord_in_the_heat_grows_with_the_european_breaker() -> None:
    """H07RN-F 10 mm2: 60 A x .71 = 42.6 A, under 50 A; 16 mm2: 79 x .71 = 56.1 A."""
    found = hinge_cable_of(5.0, 75.0, 3.35, 34.75, 43.4, -18.0, kind="H07RN-F", breaker_a=50.0, code="IEC")  # fmt: skip
    assert found.cord.size == "16 mm2"
    assert check(found, "breaker").capacity == pytest.approx(79.0 * 0.71)


@pytest.mark.parametrize("demo", ["hollow-spruce", "cinder-mesa", "slieve-moss"])
def test_a_larger_breaker_in_the_file_takes_a_thicker_cord_or_fails(demo) -> None:
    for amps in (60.0, 400.0):
        wires = wires_of(changed(demo, run={"breaker_a": amps}))
        assert wires.cord is not None
        held = check(wires.cord, "breaker")
        assert held in wires.checks
        assert held.holds is (wires.cord.cord.carries_at_a(45.0) >= amps)
        assert held.holds is (amps < 100.0)


def test_snow_nobody_measured_is_the_tool_s_own_word_and_not_the_file_s() -> None:
    def lying(found):
        return next(s for s in check(found, "loop over ground").working.steps if s.word == "lying snow")  # fmt: skip

    assert lying(spruce()).source.status == "ours"
    assert lying(spruce(snow_m=0.4)).source.status == "owner"


def test_amperes_are_told_rounded_down() -> None:
    assert "47 A at 113 F" in " ".join(" ".join(hinge_cable_lines(spruce(), "feet")).split())
