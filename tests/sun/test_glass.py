"""Glass, dirt and snow: against pvlib, and laws."""

from __future__ import annotations

import numpy as np
import pandas as pd
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pvlib import iam, snow

from polestead.sun.glass import module_glass
from polestead.sun.snow_on_glass import COVERS_M, covered_share, power_left, stays_share


def test_the_glass_reads_as_the_published_equations_do() -> None:
    glass = module_glass()
    angle = np.linspace(0.0, 89.0, 90)
    ours = np.interp(np.cos(np.radians(angle)), np.linspace(0.0, 1.0, glass.beam.size), glass.beam)
    assert (
        np.abs(ours - iam.martin_ruiz(angle, a_r=0.16)).max() < 0.02
    )  # steep only past 85 degrees
    assert np.abs(ours - iam.martin_ruiz(angle, a_r=0.16))[:80].max() < 2e-4
    theirs = iam.martin_ruiz_diffuse(40.0, a_r=0.16)
    assert glass.sky[40] == pytest.approx(float(theirs["sky"]))
    assert glass.ground[40] == pytest.approx(float(theirs["ground"]))


def test_dirtier_glass_never_lets_more_through() -> None:
    clean, dirty = module_glass(0.16), module_glass(0.25)
    assert np.all(dirty.beam <= clean.beam + 1e-12)
    assert np.all(dirty.sky <= clean.sky + 1e-12)


def weather(seed: int, days: int = 60) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    rng = np.random.default_rng(seed)
    hump = np.clip(np.sin(np.pi * (np.arange(24) - 7.0) / 10.0), 0.0, None)
    plane = (rng.uniform(50.0, 900.0, days)[:, None] * hump).ravel()
    air = rng.normal(-5.0, 5.0, days).repeat(24) + 3.0 * np.tile(hump, days)
    fresh = np.where(rng.random(days) < 0.2, rng.uniform(0.0, 0.2, days), 0.0)
    return (
        plane[None].astype(np.float32),
        air[None].astype(np.float32),
        fresh[None].astype(np.float32),
    )


@settings(max_examples=25, deadline=None)
@given(
    st.integers(0, 10**6), st.floats(6.0, 90.0)
)  # flatter glass clears by warm air too, a rule of ours
def test_with_room_to_slide_snow_goes_as_published(seed: int, tilt: float) -> None:
    plane, air, fresh = weather(seed)
    ours = covered_share(fresh, plane, air, np.full((1, 60), tilt))[0]
    index = pd.date_range("2025-01-01", periods=60 * 24, freq="h")
    falls = pd.Series(0.0, index=index)
    falls.iloc[::24] = np.where(
        fresh[0] * float(stays_share(np.array(tilt))) >= COVERS_M, 5.0, 0.0
    )  # cm in the first hour of the day
    theirs = snow.coverage_nrel(
        falls, pd.Series(plane[0], index=index), pd.Series(air[0], index=index), tilt
    )
    assert np.abs(ours - theirs.to_numpy()).max() < 1e-4


def test_flat_glass_keeps_its_snow_and_steep_glass_sheds_it() -> None:
    plane, air, fresh = weather(4)
    flat, low, steep = (
        covered_share(fresh, plane, air, np.full((1, 60), tilt)).mean()
        for tilt in (0.0, 20.0, 60.0)
    )
    assert steep < low < flat
    assert covered_share(fresh, plane, air, np.full((1, 60), 75.0)).max() == 0.0


def test_without_room_less_slides_and_a_broom_leaves_it_bare_by_nine() -> None:
    plane, air, fresh = weather(5)
    tilt = np.full((1, 60), 50.0)
    assert covered_share(fresh, plane, air, tilt, room_to_slide=False).mean() > covered_share(fresh, plane, air, tilt).mean()  # fmt: skip
    swept = covered_share(fresh, plane, air, tilt, sweeps=True).reshape(60, 24)
    assert swept[:, 9:].max() == 0.0


def test_a_row_partly_covered_gives_nothing() -> None:
    left = power_left(np.array([0.0, 0.01, 0.5, 0.51, 1.0], dtype=np.float32), 2)
    assert left.tolist() == [1.0, 0.5, 0.5, 0.0, 0.0]
