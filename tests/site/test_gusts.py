"""Gusts: the published return form, and laws of the chance of a gust."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from polestead.site.gusts import gusts_of_map, return_gust_share
from polestead.site.snowfall import lying_snow_m, snow_lies

CLIMATE = gusts_of_map(47.8)


def test_the_map_speed_is_the_gust_of_seven_hundred_years() -> None:
    assert CLIMATE.gust_of_m_s(700.0) == pytest.approx(47.8)
    assert CLIMATE.gust_of_m_s(50.0) == pytest.approx(
        CLIMATE.fifty_year_m_s, rel=1e-3
    )  # the form itself gives .9997


@pytest.mark.parametrize(("years", "share"), [(5.0, 0.769), (10.0, 0.839), (25.0, 0.930), (100.0, 1.069), (300.0, 1.179)])  # fmt: skip
def test_the_return_form_gives_what_its_equation_gives_by_hand(years: float, share: float) -> None:
    assert return_gust_share(years) == pytest.approx(share, abs=6e-4)


def test_no_return_period_under_a_year() -> None:
    with pytest.raises(ValueError, match="under a year"):
        return_gust_share(0.5)


@given(st.floats(5.0, 70.0), st.floats(1.0, 60.0), st.integers(1, 12))
def test_a_stronger_gust_is_rarer_and_a_longer_stay_likelier(
    gust: float, days: float, month: int
) -> None:
    now = CLIMATE.chance_over(gust, days, month)
    assert 0.0 <= now <= 1.0
    assert CLIMATE.chance_over(gust + 1.0, days, month) <= now + 1e-12
    assert CLIMATE.chance_over(gust, days + 1.0, month) >= now - 1e-12


def test_the_fifty_year_gust_comes_once_in_fifty_years() -> None:
    year = 1.0 - np.prod([1.0 - CLIMATE.chance_over(CLIMATE.fifty_year_m_s, 365.25 / 12, m) for m in range(1, 13)])  # fmt: skip
    assert year == pytest.approx(1.0 - np.exp(-1.0 / 50.0), rel=0.02)


def test_a_file_with_windy_winters_puts_the_rare_gusts_there() -> None:
    month = np.repeat(np.arange(1, 13), 30 * 24)
    wind = np.where(np.isin(month, (12, 1, 2)), 9.0, 4.0) + np.random.default_rng(1).gamma(
        1.0, 1.0, month.size
    )
    climate = gusts_of_map(47.8, wind, month)
    assert sum(climate.share_by_month) == pytest.approx(1.0)
    assert sum(climate.share_by_month[m] for m in (0, 1, 11)) > 0.5
    assert climate.everyday_mean_m_s[0] > climate.everyday_mean_m_s[6]


def test_snow_lies_until_it_has_melted() -> None:
    fresh, cold = np.zeros((1, 30)), np.full((1, 30), -5.0)
    fresh[0, 2] = 0.2
    cold[0, 20:] = 6.0
    lies = snow_lies(fresh, cold)[0]
    assert lies[2:20].all()
    assert not lies[:2].any()
    assert not lies[23:].any()


def test_lying_snow_is_the_water_that_fell_packed() -> None:
    fresh, cold = np.zeros((1, 5)), np.full((1, 5), -2.0)
    fresh[0, 1] = 0.33  # at -2 C eleven of snow to one of water: 30 mm, packed to five times that
    np.testing.assert_allclose(lying_snow_m(fresh, cold)[0], [0.0, 0.15, 0.15, 0.15, 0.15])
