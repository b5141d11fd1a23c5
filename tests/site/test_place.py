"""The guard of the place, the table, and the sun's path."""

from __future__ import annotations

import numpy as np
import pytest

from polestead.base.problem import Wrong
from polestead.homestead.demos import demo_names, demo_path
from polestead.homestead.read import read_homestead
from polestead.site.place import clock_offset_hours, place_in_words
from polestead.site.sunpath import sun_path
from polestead.site.table import is_land, land_mask, monthly_climate

PLACE = read_homestead(demo_path("hollow-spruce")).homestead.place


@pytest.mark.parametrize("name", demo_names())
def test_the_demos_lie_on_land_and_fit_their_own_facts(name: str) -> None:
    words = place_in_words(read_homestead(demo_path(name)).homestead.place)
    assert words.doubts == ()
    assert "warmest" in words.words
    assert sum(line.count("X") for line in words.land_map) == 1


def test_a_lost_minus_lands_in_the_sea_or_in_another_climate() -> None:
    with pytest.raises(Wrong, match="signs"):
        place_in_words(PLACE.model_copy(update={"latitude_deg": 47.9, "longitude_deg": -41.4}))
    china = place_in_words(PLACE.model_copy(update={"longitude_deg": 91.4}))
    assert any("clock" in doubt for doubt in china.doubts)


def test_a_record_low_that_does_not_fit_is_doubted() -> None:
    warm = place_in_words(PLACE.model_copy(update={"record_low_c": -5.0}))
    assert any("record low" in doubt for doubt in warm.doubts)
    high = place_in_words(PLACE.model_copy(update={"elevation_m": 3000.0}))
    assert any("high" in doubt for doubt in high.doubts)


@pytest.mark.parametrize(
    ("longitude", "hours"), [(-91.4, -6.0), (149.2, 10.0), (0.0, 0.0), (-8.2, -1.0)]
)
def test_the_clock_comes_from_the_longitude_when_it_is_left_out(
    longitude: float, hours: float
) -> None:
    place = PLACE.model_copy(update={"longitude_deg": longitude, "clock_offset_hours": None})
    assert clock_offset_hours(place) == hours
    assert clock_offset_hours(PLACE) == -6.0


def test_the_map_knows_land_from_sea() -> None:
    assert land_mask().sum() == 20542
    assert is_land(39.0, -105.0)
    assert is_land(-25.0, 134.0)
    assert not is_land(0.0, -140.0)
    assert not is_land(-50.0, 100.0)


@pytest.mark.parametrize(
    ("place", "kwh"),
    [((33.4, -112.1), 5.63), ((44.5, -73.2), 3.68), ((64.8, -147.7), 2.56), ((51.5, -0.1), 2.83), ((39.7, -105.0), 4.68), ((49.9, -97.1), 3.37)],
)  # fmt: skip
def test_the_tables_own_yearly_sun_comes_back(place: tuple[float, float], kwh: float) -> None:
    """Yearly means of the table as its own page states them; a point's mean of four cells may be 3 % off one cell's."""
    path = sun_path(*place, 0.0, 0.0)
    from polestead.base.hours import working_year

    climate = monthly_climate(*place, 200.0)
    month = working_year(path.start_month).month
    total = (
        sum(climate.clearness[m - 1] * path.extra_flat_w_m2[month == m].sum() for m in range(1, 13))
        / 365
        / 1000
    )
    assert total == pytest.approx(kwh, rel=0.035)


def test_higher_is_colder_by_the_standard_air() -> None:
    low, high = (monthly_climate(39.5, -105.0, height).air_c for height in (1500.0, 2500.0))
    assert low - high == pytest.approx(6.5)


def test_a_point_just_off_the_shore_takes_the_nearest_land() -> None:
    land = land_mask()
    row, column = next(
        (r, c) for r in range(30, 60) for c in range(1, 359) if not land[r, c] and land[r, c - 1]
    )
    shore = (89.5 - row, column - 179.5)
    assert 0.0 < monthly_climate(*shore, 0.0).shore_km < 200.0


def test_the_sun_path_has_noon_in_the_south_and_the_right_heights() -> None:
    path = sun_path(47.9, -91.4, 500.0, -6.0)
    elevation = (90.0 - path.zenith_deg).reshape(365, 24)
    azimuth = path.azimuth_deg.reshape(365, 24)
    solstice = 365 - 182 + 355 - 365  # 21 December, 173 days after 1 July
    assert elevation[solstice].max() == pytest.approx(
        90 - 47.9 - 23.44, abs=0.6
    )  # noon is up to half an hour off mid-hour
    assert azimuth[solstice][elevation[solstice].argmax()] == pytest.approx(180.0, abs=8.0)
    south = sun_path(-35.1, 149.2, 500.0, 10.0)
    high = (90.0 - south.zenith_deg).reshape(365, 24)
    assert high[0].max() > high[180].max()  # January first, the southern summer
    assert (
        abs((south.azimuth_deg.reshape(365, 24)[0][high[0].argmax()] + 180.0) % 360.0 - 180.0)
        < 40.0
    )


def test_the_hours_mean_outside_the_air_holds_the_sunrise_hours() -> None:
    path = sun_path(47.9, -91.4, 500.0, -6.0)
    flat = np.maximum(np.cos(np.radians(path.zenith_deg)), 0.0) * path.extra_w_m2
    assert path.extra_flat_w_m2.sum() == pytest.approx(flat.sum(), rel=0.01)
    below = (path.zenith_deg > 90.5) & (path.extra_flat_w_m2 > 0.0)
    assert below.sum() > 100
