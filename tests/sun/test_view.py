"""The skyline read with compass and fist, and trees that grow."""

from __future__ import annotations

from datetime import date

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from polestead.homestead.consistency import contradictions
from polestead.homestead.model import View
from polestead.homestead.sentences import skyline_words
from polestead.sun.compass import PastTheModel, declination_deg
from polestead.sun.trees import growing_trees
from polestead.sun.view import BEARINGS, open_sky, skyline
from tests.answers import path_of

PATH = path_of(47.9, -91.4, 500.0, -6.0)


def view(**changes: object) -> View:
    return View.model_validate(changes)


def height_at(seen: View, bearing: float, **more: float) -> float:
    layers = skyline(seen, 48.0, -117.0, 0.0, **more)
    return max(
        float(layer.height_deg[int(np.argmin(np.abs(BEARINGS - bearing)))]) for layer in layers
    )


def test_straight_lines_run_between_neighbouring_readings() -> None:
    seen = view(readings=("100 deg, 2 fists, trees", "140 deg, 3 fists", "180 deg, 1 fist, ground"))
    assert height_at(seen, 120.0) == pytest.approx(25.0, abs=0.3)
    assert height_at(seen, 160.0) == pytest.approx(20.0, abs=0.3)
    assert height_at(seen, 200.0) == 0.0
    ground, trees = skyline(seen, 48.0, -117.0, 0.0)
    assert trees.height_deg[np.abs(BEARINGS - 120.0) < 5.0].min() > 20.0
    assert ground.height_deg[np.abs(BEARINGS - 120.0) < 5.0].max() == 0.0
    assert (trees.summer, trees.winter, ground.summer) == (0.2, 0.5, 0.0)


def test_readings_round_the_whole_horizon_close_through_north() -> None:
    seen = view(
        readings=("20 deg, 10 deg", "110 deg, 10 deg", "200 deg, 10 deg", "290 deg, 10 deg")
    )
    assert height_at(seen, 355.0) == pytest.approx(10.0, abs=0.1)


def test_the_owners_own_fist_counts() -> None:
    readings = ("100 deg, 2 fists", "140 deg, 2 fists")
    assert height_at(view(readings=readings, fist="9 deg"), 120.0) == pytest.approx(18.0)


def test_a_compass_is_turned_to_true_north() -> None:
    """East of north in Idaho: 13.8 degrees at the start of 2026."""
    readings = ("90 deg, 40 deg", "100 deg, 40 deg")
    seen = view(readings=readings, bearings="magnetic", read_on=date(2026, 1, 1))
    assert height_at(seen, 95.0) == 0.0
    assert height_at(seen, 95.0 + 13.8) == pytest.approx(40.0)
    span = ({"from_bearing": "90 deg", "to_bearing": "100 deg", "height": "40 deg"},)
    assert height_at(view(skyline=span, bearings="magnetic", read_on=date(2026, 1, 1)), 108.8) == pytest.approx(40.0)  # fmt: skip


@pytest.mark.parametrize("on", [date(2019, 12, 31), date(2030, 1, 1), date(2044, 6, 1)])
def test_past_the_models_years_there_is_a_clear_error(on: date) -> None:
    with pytest.raises(PastTheModel, match="2020 to 2029"):
        declination_deg(48.0, -117.0, 0.0, on)


def test_both_models_meet_at_the_turn_of_2025() -> None:
    before = declination_deg(48.0, -117.0, 0.0, date(2024, 12, 31))
    assert declination_deg(48.0, -117.0, 0.0, date(2025, 1, 1)) == pytest.approx(before, abs=0.15)


class Everything:
    """A homestead of which only the view could be read."""

    def __init__(self, seen: View) -> None:
        self.view = seen


@pytest.mark.parametrize(
    ("changes", "key"),
    [
        ({"readings": ("90 deg, 2 fists", "100 deg, 2 fists"), "bearings": "magnetic"}, "read_on"),
        ({"readings": ("90 deg, 2 fists", "100 deg, 2 fists"), "bearings": "magnetic", "read_on": date(2033, 1, 1)}, "read_on"),
        ({"readings": ("90 deg, 2 fists", "90 deg, 3 fists")}, "readings"),
        ({"readings": ("90 deg, 2 fists", "150 deg, 3 fists", "100 deg, 1 fist", "200 deg, 1 fist", "120 deg, 1 fist")}, "readings"),
        ({"readings": ("90 deg, 2 fists",)}, "readings"),
    ],
)  # fmt: skip
def test_a_skyline_that_cannot_be_is_told(changes: dict[str, object], key: str) -> None:
    from polestead.homestead.consistency import _skyline_read

    assert [problem.key for problem in _skyline_read(Everything(view(**changes)))] == [key]
    assert contradictions is not None


@pytest.mark.parametrize(
    "written", ["400 deg, 2 fists", "90 deg, 15 fists", "90 deg, 95 deg", "east, 2 fists", "90, 2"]
)
def test_a_reading_that_cannot_be_is_refused(written: str) -> None:
    with pytest.raises(ValueError, match=r"."):
        skyline_words(written)


def trees(grows: str = "1 ft", away: str = "60 ft", height: str = "8 deg") -> View:
    return view(
        skyline=({"from_bearing": "100 deg", "to_bearing": "260 deg", "height": height, "what": "trees", "away": away, "grows": grows},)
    )  # fmt: skip


def test_growing_trees_reach_the_december_noon_sun_in_a_year_worked_by_hand() -> None:
    """Noon height 90 - 47.9 - 23.4 = 18.7 degrees; tan 18.7 = .3385, tan 8 = .1405: .198 x 60 ft at 1 ft a year is 11.9 years."""
    told = growing_trees(trees(), PATH, 47.9)
    assert told is not None
    assert told.noon_cut_in_years in (12, 13)
    assert told.left_by_year[0] > told.left_by_year[-1]
    assert all(
        a >= b - 1e-12 for a, b in zip(told.left_by_year, told.left_by_year[1:], strict=False)
    )
    assert told.working.result.value == told.left_by_year[-1]


def test_nothing_that_grows_is_nothing_to_tell() -> None:
    assert growing_trees(View(), PATH, 47.9) is None
    assert growing_trees(trees(grows="0 in"), PATH, 47.9) is None


def test_from_a_higher_hinge_near_things_stand_lower() -> None:
    near = trees(away="60 ft", height="20 deg")
    eye, array = height_at(near, 180.0), height_at(near, 180.0, array_m=3.4)
    assert array < eye
    assert np.tan(np.radians(array)) == pytest.approx(np.tan(np.radians(20.0)) - (3.4 - 1.6) / 18.288, abs=1e-6)  # fmt: skip


@settings(max_examples=10, deadline=None)
@given(st.floats(0.0, 40.0), st.floats(0.0, 40.0))
def test_a_higher_skyline_never_lets_more_through(low: float, more: float) -> None:
    def seen(height: float):
        return open_sky(view(skyline=({"from_bearing": "80 deg", "to_bearing": "290 deg", "height": f"{height:.6f} deg"},)), PATH, 47.9)  # fmt: skip

    lower, higher = seen(low), seen(low + more)
    assert np.all(higher.beam_share <= lower.beam_share + 1e-12)
    assert higher.sky_share <= lower.sky_share + 1e-12
