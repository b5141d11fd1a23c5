"""Power and voltages: limits, directions, agreement with pvlib's own forms."""

from __future__ import annotations

import time

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from polestead.homestead.model import Module, OldArray
from polestead.modules import power
from polestead.modules.power import (
    CONSTANTS,
    KEPT,
    THROUGH_THE_GLASS,
    array_power_w,
    cell_c,
    cold_voltage_v,
    hot_working_voltage_v,
    old_array_power_w,
)

MODULE = Module.model_construct(
    power_w=455.0, open_circuit_voltage_v=41.0, working_voltage_v=34.2, short_circuit_current_a=13.9,
    working_current_a=13.3, voltage_change_per_k=-0.0025, power_change_per_k=-0.0034,
)  # fmt: skip


def test_no_sun_gives_no_power():
    dark = np.zeros(5, dtype=np.float32)
    assert array_power_w(MODULE, 6, dark, dark).tolist() == [0.0] * 5


@given(st.floats(5.0, 1200.0), st.floats(-40.0, 40.0), st.floats(1.0, 200.0))
def test_more_sun_gives_more_power_and_warmer_air_less(plane, air, more):
    at = lambda g, t: float(array_power_w(MODULE, 1, np.array([g]), np.array([t]))[0])  # noqa: E731
    assert at(plane, air) <= at(plane + more, air)
    assert at(plane, air + 10.0) <= at(plane, air) + 1e-3


def test_power_agrees_with_pvlib_step_by_step():
    from pvlib.pvsystem import pvwatts_dc
    from pvlib.temperature import faiman

    plane, air = np.array([100.0, 400.0, 800.0, 1050.0]), np.array([-20.0, 0.0, 15.0, 30.0])
    light = plane * THROUGH_THE_GLASS.value
    straight = pvwatts_dc(light, faiman(plane, air), 455.0 * 6 * KEPT.value, -0.0034)
    share = power.low_light_share(light / 1000.0)
    ours = power.rated_power_w(455.0 * 6, -0.0034, KEPT.value, plane, air)
    np.testing.assert_allclose(ours, straight * share, rtol=1e-5)
    # the diode, fitted apart, stays near that simpler form
    np.testing.assert_allclose(array_power_w(MODULE, 6, plane, air), straight * share, rtol=0.03)


def test_low_light_agrees_with_pvlib_at_25_degrees():
    from pvlib.pvarray import huld

    light = np.array([30.0, 80.0, 300.0, 1000.0])
    theirs = huld(light, 25.0, 1.0, cell_type="csi", k_version="pvgis6")
    np.testing.assert_allclose(
        power.low_light_share(light / 1000.0) * light / 1000.0, theirs, rtol=1e-9
    )


def test_an_old_array_gives_what_the_owner_says_is_left():
    full = OldArray.model_construct(power_w=1600.0, still_gives=1.0, age_years=None)
    tired = OldArray.model_construct(power_w=1600.0, still_gives=0.7, age_years=None)
    plane, air = np.array([500.0]), np.array([10.0])
    ratio = old_array_power_w(tired, plane, air) / old_array_power_w(full, plane, air)
    assert float(ratio[0]) == pytest.approx(0.7, rel=1e-6)


def test_colder_strings_show_more_volts_and_hot_ones_work_lower():
    assert cold_voltage_v(MODULE, 3, -33.0) > cold_voltage_v(MODULE, 3, 25.0) == pytest.approx(123.0)  # fmt: skip
    assert hot_working_voltage_v(MODULE, 3, 35.0) < 3 * 34.2
    assert hot_working_voltage_v(MODULE, 3, 25.0 - 1000.0 / 31.84) == pytest.approx(3 * 34.2)


def test_wind_cools():
    assert cell_c(800.0, 10.0, 5.0) < cell_c(800.0, 10.0, 0.0)


def test_every_constant_tells_its_source_and_reason():
    assert all(c.why and str(c.source) and c.word for c in CONSTANTS)


@pytest.mark.slow
def test_a_hundred_years_take_a_moment():
    rng = np.random.default_rng(1)
    plane = rng.uniform(0.0, 1000.0, (100, 8760)).astype(np.float32)
    start = time.perf_counter()
    array_power_w(MODULE, 8, plane, plane * np.float32(0.02))
    assert time.perf_counter() - start < 1.0
