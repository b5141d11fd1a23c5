"""Snow on flat glass goes in warm air, as it does anywhere."""

from __future__ import annotations

import numpy as np
import pytest

from polestead.sun.snow_on_glass import covered_share

DAYS = 8


def after_one_fall(tilt_deg: float, air_c: float, room: bool = True) -> np.ndarray:  # type: ignore[type-arg]
    """A fall of ten centimetres on the first day, then so many days in the same air and no light."""
    fresh = np.zeros((1, DAYS), dtype=np.float32)
    fresh[0, 0] = 0.1
    dark = np.zeros((1, DAYS * 24), dtype=np.float32)
    air = np.full((1, DAYS * 24), air_c, dtype=np.float32)
    return covered_share(fresh, dark, air, np.full((1, DAYS), tilt_deg), room)[0]


def test_flat_glass_is_clear_again_after_two_days_of_warm_air() -> None:
    covered = after_one_fall(0.0, 5.0)
    # .0197 of the glass an hour: 1 / .0197 = 50.8 hours
    assert covered[50] == pytest.approx(1.0 - 50 * 0.0197, abs=1e-3)
    assert covered[51] == 0.0


def test_flat_glass_stays_white_in_frost() -> None:
    assert (after_one_fall(0.0, -3.0) == 1.0).all()


@pytest.mark.parametrize("tilt", [0.0, 3.0, 5.0, 6.0, 20.0, 45.0])
def test_more_slope_never_keeps_snow_longer_in_warm_air(tilt: float) -> None:
    flatter, steeper = after_one_fall(tilt, 5.0), after_one_fall(tilt + 10.0, 5.0)
    assert (steeper <= flatter + 1e-6).all()


def test_no_room_under_the_edge_never_clears_it_sooner_than_the_air_does() -> None:
    assert (after_one_fall(0.0, 5.0, room=False) == after_one_fall(0.0, 5.0)).all()
