"""The gauge read backwards: from the rod that shows to the tilt."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from polestead.base.problem import Wrong
from polestead.homestead.demos import demo_names, demo_path
from polestead.homestead.read import read_homestead
from polestead.mount.gauge import Gauge, Mark, gauge_of, tilt_at_rod
from polestead.mount.linkage import rod_length_m
from polestead.mount.pins import as_measured

HOMES = {name: read_homestead(demo_path(name)).homestead for name in demo_names()}


@settings(deadline=None, max_examples=40)
@given(st.sampled_from(sorted(HOMES)), st.floats(0.0, 1.0))
def test_the_rod_at_a_tilt_leads_back_to_the_tilt(name: str, share: float) -> None:
    file = HOMES[name]
    assert file.drive is not None
    drive, _ = as_measured(file.drive)
    gauge = gauge_of(file.drive, file.mount.least_tilt_deg, file.mount.steepest_tilt_deg)
    assert gauge.tells_little == ()
    tilt = file.mount.least_tilt_deg + share * (file.mount.steepest_tilt_deg - file.mount.least_tilt_deg)  # fmt: skip
    rod_m = float(rod_length_m(drive, np.array([tilt]))[0]) - drive.retracted_length_m
    assert tilt_at_rod(gauge, rod_m) == pytest.approx(tilt, abs=0.05)


def gauge(*marks: tuple[float, float], little: tuple[tuple[float, float], ...] = ()) -> Gauge:
    made = tuple(Mark(tilt, rod) for tilt, rod in marks)
    return Gauge(made, (made[0], made[-1]), (), (), little, max(rod for _, rod in marks), True, 2, ())  # fmt: skip


def test_a_little_past_the_stop_is_the_stop_and_more_is_refused() -> None:
    plain = gauge((5.0, 0.0), (6.0, 0.01), (7.0, 0.02))
    assert tilt_at_rod(plain, 0.023) == 7.0
    assert tilt_at_rod(plain, 0.005) == pytest.approx(5.5)
    with pytest.raises(Wrong, match="0 to 20 mm"):
        tilt_at_rod(plain, 0.03)


def test_a_rod_that_shows_twice_or_tells_little_asks_for_the_level() -> None:
    with pytest.raises(Wrong, match="5 deg or 10 deg"):
        tilt_at_rod(gauge((5.0, 0.0), (7.0, 0.02), (10.0, 0.0)), 0.0)
    with pytest.raises(Wrong, match="tells little"):
        tilt_at_rod(gauge((5.0, 0.0), (6.0, 0.0002), (7.0, 0.02), little=((5.0, 6.0),)), 0.0001)
