"""The gust ahead: its error, its climate, its thunder."""

from __future__ import annotations

from datetime import date
from math import exp, log

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from polestead.morning.forecast.forecast import Forecast, Span, nothing_heard
from polestead.morning.forecast.gust_ahead import (
    climate_gust_m_s,
    gust_ahead,
    gust_sd,
    week_gust_m_s,
)
from polestead.site.gusts import gusts_of_map
from tests.morning.given import CALM, ahead

DAY = date(2026, 11, 25)
PLACE = gusts_of_map(47.8)


def made(*spans, now=7.0, shift=0.0, **changes):
    given = {"month": 11, "bound": 0.01} | changes
    return gust_ahead(Forecast("heard", DAY, spans), PLACE, shift, now, **given)


def test_errors_grow_with_the_days() -> None:
    """METHODS 4.3: .20 at 24 h, .05 more a day; never less."""
    assert [gust_sd(lead) for lead in (0.0, 24.0, 48.0, 72.0)] == pytest.approx([0.2, 0.2, 0.25, 0.3])  # fmt: skip


def test_the_log_may_raise_the_median_but_never_lower_it() -> None:
    span = Span(0.0, 31.0, gust_m_s=20.0)
    assert made(span, bias=1.2).told_m_s(7.0, 31.0) == pytest.approx(24.0)
    assert made(span, bias=0.8).told_m_s(7.0, 31.0) == pytest.approx(20.0)


def test_two_spans_are_worse_than_one() -> None:
    """Two independent spans of 20 m/s: each may be passed with half the chance, about exp(2.576 x .2)."""
    both = ahead((0, 18, 20.0), (18, 31, 20.0))
    assert both.upper_m_s(7.0, 31.0) == pytest.approx(20 * 0.44704 * exp(0.2 * 2.5746), rel=1e-3)


def test_drawn_gusts_pass_the_upper_one_as_often_as_the_owner_bears() -> None:
    rng = np.random.default_rng(5)
    upper = ahead((0, 31, 45.0)).upper_m_s(7.0, 31.0)
    drawn = 45 * 0.44704 * np.exp(0.2 * rng.normal(size=200_000))
    assert (drawn > upper).mean() == pytest.approx(0.01, abs=0.0012)


def test_nothing_told_takes_the_gust_of_one_week_in_ten() -> None:
    found = gust_ahead(nothing_heard(DAY), PLACE, 0.0, 7.0, 11, 0.05)
    assert found.upper_m_s(7.0, 16.0) == pytest.approx(week_gust_m_s(PLACE, 11), rel=1e-3)
    assert PLACE.chance_over(week_gust_m_s(PLACE, 11), 7.0, 11) == pytest.approx(0.1)


def test_nothing_told_is_never_milder_than_the_owners_chance() -> None:
    found = gust_ahead(nothing_heard(DAY), PLACE, 0.0, 7.0, 11, 0.001)
    assert PLACE.chance_over(found.upper_m_s(7.0, 31.0), 1.0, 11) <= 0.001 + 1e-9


def test_thunder_takes_the_ten_year_gust() -> None:
    calm = made(Span(0.0, 31.0, gust_m_s=5.0), thunder=((12.0, 18.0),))
    assert calm.upper_m_s(7.0, 31.0) == pytest.approx(PLACE.gust_of_m_s(10.0))
    assert calm.upper_m_s(7.0, 11.0) < 10.0


def test_yesterdays_forecast_counts_from_its_own_midnight_and_is_wider() -> None:
    told = Forecast("file", DAY, (Span(24.0, 48.0, gust_m_s=20.0),), age_h=30.0)
    found = gust_ahead(told, PLACE, 24.0, 7.0, 11, 0.01)
    (piece,) = found.pieces
    assert (piece.from_h, piece.to_h) == (0.0, 24.0)
    assert piece.sd == pytest.approx(0.2 + 0.05 * ((15.5 - 7.0 + 30.0) / 24.0 - 1.0))


def test_hours_gone_by_are_left_out() -> None:
    assert made(Span(0.0, 6.0, gust_m_s=40.0)).pieces == ()


def test_a_gust_told_beside_a_wind_counts_alone() -> None:
    found = made(Span(0.0, 31.0, gust_m_s=20.0), Span(0.0, 31.0, gust_m_s=15.0, from_wind=True))
    assert [piece.median_m_s for piece in found.pieces] == [20.0]


@settings(max_examples=60, deadline=None)
@given(month=st.integers(1, 12), days=st.floats(0.2, 60.0), chance=st.floats(1e-4, 0.5), speed=st.floats(25.0, 90.0))  # fmt: skip
def test_the_climates_gust_is_its_chance_read_backwards(month, days, chance, speed) -> None:
    place = gusts_of_map(speed)
    assert place.chance_over(climate_gust_m_s(place, month, days, chance), days, month) == pytest.approx(chance, rel=1e-6)  # fmt: skip


@settings(max_examples=60, deadline=None)
@given(one=st.floats(1.0, 50.0), two=st.floats(1.0, 50.0), bound=st.floats(1e-4, 0.05))
def test_a_longer_window_is_never_milder(one, two, bound) -> None:
    found = ahead((0, 18, one), (18, 31, two), bound=bound, climate=CALM)
    assert found.upper_m_s(7.0, 31.0) >= max(found.upper_m_s(7.0, 17.0), found.upper_m_s(18.0, 31.0)) - 1e-6  # fmt: skip
    assert log(found.upper_m_s(7.0, 31.0) / 0.44704 / max(one, two)) > 0.3
