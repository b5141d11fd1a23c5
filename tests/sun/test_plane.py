"""The sun on a tilting plane, against pvlib hour by hour and by its own laws."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pvlib.irradiance import get_total_irradiance

from polestead.base.source import COMMON_PRACTICE
from polestead.homestead.model import View
from polestead.site.weather import WeatherYears
from polestead.sun.plane import (
    daily_wh_m2_at_tilts,
    ground_reflectance_by_hour,
    plane_at_tilts_w_m2,
    plane_over_years_w_m2,
)
from polestead.sun.view import OpenSky, open_sky
from tests.answers import path_of

OPEN = OpenSky(np.ones(8760), 1.0)
PLACES = [(47.9, -91.4, -6.0), (-35.1, 149.2, 10.0), (64.8, -147.7, -9.0)]


def weather(path: object, seed: int) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Any beam and sky light that go together, hour by hour."""
    rng = np.random.default_rng(seed)
    up = np.cos(np.radians(path.zenith_deg))  # type: ignore[attr-defined]
    beam = np.where(up > 0.02, rng.uniform(0.0, 0.8, 8760) * path.extra_w_m2, 0.0)  # type: ignore[attr-defined]
    diffuse = rng.uniform(0.05, 0.5, 8760) * path.extra_flat_w_m2  # type: ignore[attr-defined]
    return beam * np.maximum(up, 0.0) + diffuse, beam, diffuse


@pytest.mark.parametrize(("latitude", "longitude", "offset"), PLACES)
@pytest.mark.parametrize("facing", [180.0, 140.0, 0.0])
def test_every_hour_at_every_tilt_agrees_with_pvlib(
    latitude: float, longitude: float, offset: float, facing: float
) -> None:
    path = path_of(latitude, longitude, 500.0, offset)
    total, beam, diffuse = weather(path, 3)
    tilts = np.array([0.0, 1.0, 20.0, 45.0, 65.0, 90.0])
    ours = plane_at_tilts_w_m2(path, OPEN, total, beam, diffuse, tilts, facing, np.full(8760, 0.3))
    theirs = get_total_irradiance(
        tilts[:, None], facing, path.zenith_deg, path.azimuth_deg, beam, total, diffuse,
        dni_extra=path.extra_w_m2, albedo=0.3, model="haydavies",
    )["poa_global"]  # fmt: skip
    # pvlib adds the sky's two parts apart and cuts each at nothing; by night both are nothing
    assert np.abs(ours - theirs).max() < 0.5


def test_many_years_give_what_one_year_at_its_tilt_gives() -> None:
    path = path_of(47.9, -91.4, 500.0, -6.0)
    parts = [
        np.stack(both).astype(np.float32)
        for both in zip(weather(path, 1), weather(path, 2), strict=True)
    ]
    years = WeatherYears(
        parts[0], parts[1], parts[2], parts[0], "measured years", 0.0, 0.0, COMMON_PRACTICE
    )
    tilt = np.where(np.arange(8760) < 4008, 20.0, 60.0)
    ground = ground_reflectance_by_hour((1, 2, 12), 7)
    together = plane_over_years_w_m2(path, OPEN, years, tilt, 180.0, ground)
    for nth in range(2):
        alone = plane_at_tilts_w_m2(
            path,
            OPEN,
            parts[0][nth],
            parts[1][nth],
            parts[2][nth],
            np.array([20.0, 60.0]),
            180.0,
            ground,
        )
        wanted = np.where(tilt == 20.0, alone[0], alone[1])
        assert np.abs(together[nth] - wanted).max() < 0.05  # single precision of a thousand watts


@settings(max_examples=20, deadline=None)
@given(st.floats(0.0, 90.0), st.floats(0.0, 359.0), st.integers(0, 50))
def test_light_is_never_less_than_nothing_and_flat_glass_sees_the_level_ground(
    tilt: float, facing: float, seed: int
) -> None:
    path = path_of(47.9, -91.4, 500.0, -6.0)
    total, beam, diffuse = weather(path, seed)
    found = plane_at_tilts_w_m2(
        path, OPEN, total, beam, diffuse, np.array([0.0, tilt]), facing, np.full(8760, 0.25)
    )
    assert (found >= 0.0).all()
    high = np.cos(np.radians(path.zenith_deg)) > 0.02
    assert found[0][high] == pytest.approx(total[high], abs=1e-6)


def test_snow_lies_only_in_the_months_the_owner_names() -> None:
    ground = ground_reflectance_by_hour((1, 2), 7)
    assert np.isclose(ground, ground.max()).sum() == (31 + 28) * 24
    assert ground.min() < 0.3 < ground.max() < 0.9


def skyline(**changes: object) -> View:
    base = {"from_bearing": "90 deg", "to_bearing": "270 deg", "height": "10 deg", **changes}
    return View.model_validate({"skyline": (base,)})


def test_a_hill_takes_the_low_sun_and_lets_the_high_one_by() -> None:
    path = path_of(47.9, -91.4, 500.0, -6.0)
    sky = open_sky(skyline(), path, 47.9)
    elevation = 90.0 - path.zenith_deg
    # the sun moves up to 8 degrees up and 12 round in half an hour: hours that are wholly behind, wholly free, and those between
    south = (path.azimuth_deg > 105.0) & (path.azimuth_deg < 255.0)
    north = (path.azimuth_deg < 75.0) | (path.azimuth_deg > 285.0)
    assert (sky.beam_share[south & (elevation > 0.0) & (elevation < 2.0)] == 0.0).all()
    assert sky.beam_share[elevation > 18.0] == pytest.approx(1.0)
    assert sky.beam_share[north & (elevation > 0.0)] == pytest.approx(1.0)
    between = (sky.beam_share > 0.01) & (sky.beam_share < 0.99)
    assert 100 < between.sum() < 1500
    assert sky.sky_share == pytest.approx(1.0 - 0.5 * np.sin(np.radians(10.0)) ** 2, abs=0.002)


def test_a_span_may_go_through_north_and_round_the_whole_circle() -> None:
    path = path_of(-35.1, 149.2, 500.0, 10.0)
    north = open_sky(
        skyline(from_bearing="300 deg", to_bearing="60 deg", height="30 deg"), path, -35.1
    )
    low_north = (
        (90.0 - path.zenith_deg > 0)
        & (90.0 - path.zenith_deg < 21)
        & ((path.azimuth_deg > 315) | (path.azimuth_deg < 45))
    )
    assert (north.beam_share[low_north] == 0.0).all()
    whole = open_sky(
        skyline(from_bearing="0 deg", to_bearing="360 deg", height="90 deg"), path, -35.1
    )
    assert whole.beam_share[path.zenith_deg < 88.0].max() == 0.0
    assert whole.sky_share == pytest.approx(0.0, abs=1e-9)


@pytest.mark.parametrize(
    ("latitude", "leafy"), [(47.9, (5, 6, 7, 8, 9, 10)), (-35.1, (11, 12, 1, 2, 3, 4))]
)
def test_trees_let_more_through_when_bare(latitude: float, leafy: tuple[int, ...]) -> None:
    from polestead.base.hours import working_year

    path = path_of(latitude, 0.0, 0.0, 0.0)
    trees = skyline(from_bearing="0 deg", to_bearing="360 deg", height="89 deg", what="trees")
    share = open_sky(trees, path, latitude).beam_share
    summer = np.isin(working_year(path.start_month).month, leafy)
    up = path.zenith_deg < 90.0
    assert share[up & summer] == pytest.approx(0.2)
    assert share[up & ~summer] == pytest.approx(0.5)


def test_no_skyline_takes_nothing() -> None:
    path = path_of(47.9, -91.4, 500.0, -6.0)
    sky = open_sky(View(), path, 47.9)
    assert sky.sky_share == 1.0
    assert (sky.beam_share == 1.0).all()


@pytest.mark.parametrize(("latitude", "longitude", "offset"), PLACES)
def test_perez_agrees_with_pvlib_in_every_hour_at_every_tilt(
    latitude: float, longitude: float, offset: float
) -> None:
    from pvlib.atmosphere import get_relative_airmass

    path = path_of(latitude, longitude, 500.0, offset)
    total, beam, diffuse = weather(path, 5)
    tilts = np.array([0.0, 20.0, 45.0, 65.0, 90.0])
    ours = plane_at_tilts_w_m2(
        path, OPEN, total, beam, diffuse, tilts, 170.0, np.full(8760, 0.3), "perez"
    )
    theirs = get_total_irradiance(
        tilts[:, None], 170.0, path.zenith_deg, path.azimuth_deg, beam, total, diffuse, dni_extra=path.extra_w_m2,
        airmass=get_relative_airmass(path.zenith_deg), albedo=0.3, model="perez", model_perez="allsitescomposite1990",
    )["poa_global"]  # fmt: skip
    # with the sun under the horizon pvlib has no airmass and no sky; ours keeps an even one
    day = path.zenith_deg < 90.0
    # the published horizon light can make the sky less than nothing: both cut it there, we without the sun's own part
    assert np.quantile(np.abs(ours - theirs)[:, day], 0.999) < 0.5
    assert np.abs(ours - theirs)[:, day].mean() < 0.05


def test_many_years_give_what_perez_gives_for_one() -> None:
    path = path_of(47.9, -91.4, 500.0, -6.0)
    total, beam, diffuse = (part[None].astype(np.float32) for part in weather(path, 1))
    years = WeatherYears(total, beam, diffuse, total, "measured years", 0.0, 0.0, COMMON_PRACTICE)
    ground = np.full(8760, 0.2)
    many = plane_over_years_w_m2(path, OPEN, years, np.full((1, 365), 50.0), 180.0, ground, None, "perez")  # fmt: skip
    one = plane_at_tilts_w_m2(
        path, OPEN, total[0], beam[0], diffuse[0], np.array([50.0]), 180.0, ground, "perez"
    )
    assert np.abs(many[0] - one[0]).max() < 0.05


def test_daily_sums_are_the_hours_of_the_day() -> None:
    path = path_of(47.9, -91.4, 500.0, -6.0)
    total, beam, diffuse = (part[None].astype(np.float32) for part in weather(path, 1))
    years = WeatherYears(total, beam, diffuse, total, "measured years", 0.0, 0.0, COMMON_PRACTICE)
    ground, tilts = np.full(8760, 0.2), np.array([0.0, 35.0, 90.0])
    days = daily_wh_m2_at_tilts(path, OPEN, years, tilts, 180.0, ground)
    hours = plane_at_tilts_w_m2(path, OPEN, total[0], beam[0], diffuse[0], tilts, 180.0, ground)
    np.testing.assert_allclose(days[:, 0], hours.reshape(3, 365, 24).sum(axis=2), rtol=1e-4, atol=0.1)  # fmt: skip
