"""The gauge's data: the triangle's own rod at each tilt, the proof, the spans in which it tells little."""

from __future__ import annotations

from math import cos, hypot, radians, sin

import pytest

from polestead.homestead.demos import demo_path
from polestead.homestead.model import Drive
from polestead.homestead.read import read_homestead
from polestead.mount.gauge import Gauge, gauge_of


def _drive(**more) -> Drive:
    """Frame pin 1 m along the chord, bracket 0.6 m out and 1.2 m down, rod 1.1 m retracted."""
    return Drive.model_validate(
        {
            "retracted_length": "1.1 m", "stroke": "1.0 m", "moving_force": "8 kN", "holding_force": "12 kN",
            "rod_diameter": "30 mm", "pin_along": "1 m", "pin_below": "0 m", "bracket_out": "0.6 m",
            "bracket_below": "1.2 m", "speed": "6 mm/s", **more,
        }
    )  # fmt: skip


def _by_hand_m(tilt_deg: float) -> float:
    """Pin to pin, from the two pins' own places."""
    x, z = cos(radians(tilt_deg)), sin(radians(tilt_deg))
    return hypot(x - 0.6, z + 1.2)


def _gauge(drive: Drive, least: float = 10.0, steepest: float = 70.0, **more) -> Gauge:
    return gauge_of(drive, least, steepest, **more)


def test_every_degree_lies_where_the_triangle_has_it():
    gauge = _gauge(_drive())
    assert [mark.tilt_deg for mark in gauge.degrees] == [float(t) for t in range(10, 71)]
    for mark in gauge.degrees:
        assert mark.rod_m == pytest.approx(_by_hand_m(mark.tilt_deg) - 1.1, abs=1e-9)


def test_ends_that_are_no_whole_degrees_are_stops_and_rows_of_the_table():
    gauge = _gauge(_drive(), 10.4, 69.5)
    assert [stop.tilt_deg for stop in gauge.stops] == [10.4, 69.5]
    assert gauge.degrees[0].tilt_deg == 11.0
    assert gauge.degrees[-1].tilt_deg == 69.0
    assert [row.tilt_deg for row in gauge.table][:2] == [10.4, 15.0]
    assert gauge.table[-1].tilt_deg == 69.5


def test_seconds_are_withheld_until_two_pairs_prove_the_table():
    assert all(row.from_s is None for row in _gauge(_drive()).table)
    pairs = [f"{(_by_hand_m(t) - 1.1) * 1000:.1f} mm at {t} deg" for t in (20, 60)]
    proved = _gauge(_drive(measured=tuple(pairs)))
    assert proved.proved
    assert proved.pairs == 2
    whole_s = (_by_hand_m(70) - _by_hand_m(10)) / 0.006  # path over speed
    assert proved.table[-1].from_s == pytest.approx(whole_s, rel=1e-3)
    assert proved.table[-1].to_s == pytest.approx(2.0 * whole_s, rel=1e-3)
    one = _gauge(_drive(measured=tuple(pairs[:1])))
    assert not one.proved
    assert one.table[-1].from_s is None


def test_near_a_dead_centre_the_rod_tells_little():
    # the lever dL/dt is nought where hinge, frame pin and bracket lie in a line: atan2(-1.2, 0.6) + 180 = 116.6 degrees
    near = _drive(bracket_out="-0.6 m", bracket_below="1.2 m")  # in line at 63.4 degrees
    spans = _gauge(near, 10.0, 75.0).tells_little
    assert spans
    assert any(low <= 64.0 and high >= 63.0 for low, high in spans)
    assert _gauge(_drive()).tells_little == ()


def test_holes_are_numbered_from_the_flattest_and_stances_keep_their_names():
    gauge = _gauge(_drive(), holes_deg=(45.0, 15.0, 30.0), stances=(("storm flat", 12.0),))
    assert [(hole.words, hole.tilt_deg) for hole in gauge.holes] == [("1", 15.0), ("2", 30.0), ("3", 45.0)]  # fmt: skip
    assert gauge.stances[0].rod_m == pytest.approx(_by_hand_m(12.0) - 1.1, abs=1e-9)


def test_the_demo_with_two_pairs_is_proved_and_the_others_are_not():
    proved = {}
    for name in ("hollow-spruce", "cinder-mesa", "slieve-moss"):
        file = read_homestead(demo_path(name)).homestead
        assert file.drive is not None
        proved[name] = gauge_of(file.drive, file.mount.least_tilt_deg, file.mount.steepest_tilt_deg).proved  # fmt: skip
    assert proved == {"hollow-spruce": False, "cinder-mesa": False, "slieve-moss": True}
