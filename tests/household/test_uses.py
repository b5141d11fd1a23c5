"""Uses as power by the hour."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from polestead.base.hours import working_year
from polestead.base.problem import Wrong
from polestead.household.uses import hours_in_window, uses_by_hour_w
from tests.household.fabricated import use


@given(st.floats(0.0, 23.9), st.floats(0.1, 24.0))
def test_a_window_holds_its_own_length(start, end):
    length = (end - start) % 24.0 or 24.0
    assert hours_in_window(start, end).sum() == pytest.approx(length, abs=1e-9)


def test_a_use_asks_for_its_energy_every_day():
    power = uses_by_hour_w((use(900.0, 1.0 / 3.0, 7.0, 9.0),), 7)
    np.testing.assert_allclose(power.reshape(365, 24).sum(axis=1), 300.0)
    assert set(np.flatnonzero(power.reshape(365, 24)[0])) == {7, 8}


@pytest.mark.parametrize(("start_month", "dark_month"), [(7, 1), (1, 7)])
def test_winter_is_winter_on_either_half_of_the_earth(start_month, dark_month):
    power = uses_by_hour_w((use(100.0, 24.0, season="winter"),), start_month)
    month = working_year(start_month).month
    assert np.all(power[month == dark_month] == 100.0)
    assert power[month == (dark_month + 5) % 12 + 1].max() == 0.0


def test_summer_and_winter_together_make_the_year():
    halves = uses_by_hour_w((use(season="winter"), use(season="summer")), 7)
    np.testing.assert_allclose(halves, uses_by_hour_w((use(),), 7))


def test_a_weekly_use_runs_whole_on_one_day_in_seven():
    days = uses_by_hour_w((use(2000.0, 1.0, 10.0, 14.0, share=1.0 / 7.0),), 7).reshape(365, 24).sum(axis=1)  # fmt: skip
    assert np.count_nonzero(days) == 52
    assert set(np.diff(np.flatnonzero(days))) == {7}
    np.testing.assert_allclose(days[days > 0.0], 2000.0)


def test_two_weekly_uses_fall_on_different_days():
    weekly = use(2000.0, 1.0, share=1.0 / 7.0)
    first, both = uses_by_hour_w((weekly,), 7), uses_by_hour_w((weekly, weekly), 7)
    assert both.max() == first.max()


def test_a_use_longer_than_its_time_of_day_is_refused_in_words():
    with pytest.raises(Wrong, match="time of day"):
        uses_by_hour_w((use(hours=3.0, start=7.0, end=9.0, name="pump"),), 7)


def test_no_uses_ask_for_nothing():
    assert uses_by_hour_w((), 7).sum() == 0.0
