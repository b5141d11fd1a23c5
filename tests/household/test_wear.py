"""Wear and the cold tank: laws rather than figures."""

from __future__ import annotations

import numpy as np
import pytest

from polestead.household.engine import TANK_C, boiled_off_l_h, engine_power_w, start_chance
from polestead.household.fuel import boil_off_l_h
from polestead.household.plan import Motor
from polestead.household.wear import WATER_L_PER_AH, cycling_loss


def motor(tank_l=1500.0, **more):
    return Motor(
        True, 7000.0, 4000.0, 0.85, 0.6, 0.8, 0.53, 0.0, 24.0, 1.0, tank_l=tank_l, burns_l_h=1.0, burns_l_wh=0.0005, **more
    )  # fmt: skip


def test_cycling_loses_more_when_hotter_and_with_more_cycles():
    assert cycling_loss(250.0, 0.1, 35.0) > cycling_loss(250.0, 0.1, 15.0)
    assert cycling_loss(500.0, 0.1, 20.0) / cycling_loss(250.0, 0.1, 20.0) == pytest.approx(2**0.55)


def test_an_ampere_hour_splits_a_third_of_a_gram_of_water():
    assert pytest.approx(0.336e-3, rel=1e-3) == WATER_L_PER_AH


def test_a_tank_boils_off_less_the_colder_and_the_emptier():
    full = motor(boils_l_h=boil_off_l_h(1500.0))
    by_cold = [boiled_off_l_h(full, float(t), 900.0) for t in TANK_C]
    assert by_cold == sorted(by_cold)
    by_level = [boiled_off_l_h(full, -20.0, level) for level in (100.0, 400.0, 800.0, 1500.0)]
    assert by_level == sorted(by_level)
    assert by_level[0] < by_level[-1]


def test_a_bigger_tank_boils_off_more():
    rates = np.array([boil_off_l_h(size) for size in (200.0, 500.0, 1500.0, 4000.0)])
    assert np.all(np.diff(rates, axis=0) >= 0.0)
    assert np.all(np.diff(rates, axis=1) >= 0.0)


def test_no_tank_is_no_limit_and_heat_takes_its_share():
    free = motor(tank_l=np.inf)
    assert engine_power_w(free, -40.0, np.inf) == 7000.0
    assert engine_power_w(free, 25.0 + 5.5556, np.inf) == pytest.approx(7000.0 * 0.99)


def test_a_tank_that_would_not_last_the_hour_gives_nothing():
    assert engine_power_w(motor(), 10.0, 4.0) == 0.0
    assert engine_power_w(motor(), 10.0, 5.0) == 7000.0


def test_the_chance_of_starting_falls_between_freezing_and_deep_cold():
    assert [start_chance(0.6, t) for t in (-30.0, -20.0, -10.0, 0.0, 20.0)] == pytest.approx(
        [0.6, 0.6, 0.8, 1.0, 1.0]
    )
