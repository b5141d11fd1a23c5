"""Solar noon against the almanac's equation of time, and the compass beside it."""

from __future__ import annotations

from datetime import date
from math import radians, tan

import pytest
from hypothesis import given
from hypothesis import strategies as st

from polestead.build.aim import aim_of
from polestead.homestead.demos import demo_path
from polestead.homestead.read import read_homestead
from polestead.site.noon import solar_noon

PLACE = read_homestead(demo_path("hollow-spruce")).homestead.place


@pytest.mark.parametrize(
    ("on", "minutes"),
    # equation of time, apparent less mean, as almanacs print it; half a minute for the year within the leap cycle
    [((2026, 2, 11), -14.2), ((2026, 5, 14), 3.7), ((2026, 7, 26), -6.5), ((2026, 11, 3), 16.4), ((2026, 4, 15), 0.0), ((2026, 9, 1), 0.0)],
)  # fmt: skip
def test_noon_is_off_by_longitude_and_the_equation_of_time(on: tuple[int, int, int], minutes: float) -> None:  # fmt: skip
    """Hollow Spruce at 91.4 W on the clock of 90 W: 1.4 deg x 4 min = 5.6 min late, less the equation of time."""
    noon = solar_noon(47.9, -91.4, 500.0, -6.0, date(*on))
    assert noon.clock_h * 60.0 == pytest.approx(720.0 + 5.6 - minutes, abs=0.6)


@given(
    st.floats(-60.0, 66.0), st.floats(-180.0, 180.0), st.dates(date(2020, 1, 1), date(2029, 12, 31))
)
def test_noon_belongs_to_its_date_and_its_sun_stands_in_the_meridian(lat: float, lon: float, on: date) -> None:  # fmt: skip
    noon = solar_noon(lat, lon, 0.0, round(lon / 15.0), on)
    assert 11.1 < noon.clock_h < 12.9
    off = min(noon.azimuth_deg % 180.0, 180.0 - noon.azimuth_deg % 180.0)
    assert off < 0.3 or noon.height_deg > 88.0


def test_height_is_ninety_less_latitude_on_the_equinox_and_23_4_off_at_the_solstices() -> None:
    for on, declination in ((date(2026, 12, 21), -23.4), (date(2026, 6, 21), 23.4)):
        noon = solar_noon(47.9, -91.4, 0.0, -6.0, on)
        assert noon.height_deg == pytest.approx(90.0 - 47.9 + declination, abs=0.1)


def test_shadow_and_compass() -> None:
    aim = aim_of(PLACE, 170.0, date(2026, 9, 23))
    assert aim.shadow_to_deg == 0.0
    assert aim.off_shadow_deg == pytest.approx(-10.0)
    assert aim.shadow_per_m == pytest.approx(1.0 / tan(radians(aim.sun_height_deg)))
    assert aim.compass_deg + aim.declination_deg == pytest.approx(170.0)  # true = magnetic + east
    south = PLACE.model_copy(update={"latitude_deg": -35.0})
    assert aim_of(south, 0.0, date(2026, 9, 23)).shadow_to_deg == 180.0


def test_past_the_magnetic_model_and_under_a_low_sun_nothing_is_invented() -> None:
    assert aim_of(PLACE, 180.0, date(2031, 6, 1)).compass_deg is None
    arctic = PLACE.model_copy(update={"latitude_deg": 66.0})
    assert aim_of(arctic, 180.0, date(2026, 12, 21)).shadow_to_deg is None
