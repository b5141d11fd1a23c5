"""The single diode: what it must reproduce, pvlib hour by hour, and laws."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pvlib.temperature import faiman

from polestead.base.problem import Wrong
from polestead.homestead.demos import demo_path
from polestead.homestead.read import read_homestead
from polestead.modules.ageing import aged
from polestead.modules.diode import (
    diode_power_w,
    diode_voltage_v,
    fitted_diode,
    refuse_what_cannot_be,
)
from polestead.modules.power import KEPT, array_power_w, cell_c, hot_working_voltage_v

DEMOS = ("hollow-spruce", "cinder-mesa", "slieve-moss")


def module(demo: str = "hollow-spruce", **changes: float):
    return read_homestead(demo_path(demo)).homestead.array.module.model_copy(update=changes)


@pytest.mark.parametrize("demo", DEMOS)
def test_the_datasheet_comes_out_again(demo: str) -> None:
    sheet = module(demo)
    diode = fitted_diode(sheet)
    opened, working = diode_voltage_v(diode, 1000.0, 25.0)
    assert opened == pytest.approx(sheet.open_circuit_voltage_v, rel=1e-3)
    assert working == pytest.approx(sheet.working_voltage_v, rel=5e-3)
    assert diode.power_w == pytest.approx(sheet.power_w, rel=5e-3)
    # The sheet's own two coefficients do not quite go together in any diode
    assert diode.power_change_per_k == pytest.approx(sheet.power_change_per_k, abs=3e-4)
    warm, _ = diode_voltage_v(diode, 1000.0, 50.0)
    assert (warm / opened - 1.0) / 25.0 == pytest.approx(sheet.voltage_change_per_k, abs=1e-4)


def test_every_hour_reads_as_pvlibs_diode_does() -> None:
    rng = np.random.default_rng(2)
    sheet = module()
    light = np.concatenate([rng.uniform(0.5, 1300.0, 6000), rng.uniform(0.01, 20.0, 300)])
    air = rng.uniform(-40.0, 42.0, light.size)
    ours = array_power_w(sheet, 1, light, air, through_glass=True) / KEPT.value
    cells = faiman(light, air, 1.0)
    diode = fitted_diode(sheet)
    theirs = diode_power_w(diode, light, cells) * sheet.power_w / diode.power_w
    inside = cells < 100.0
    assert np.abs(ours - theirs)[inside].max() < 2e-3 * sheet.power_w
    assert ours[inside].sum() == pytest.approx(theirs[inside].sum(), rel=1e-3)


def test_cells_are_as_warm_as_pvlib_says() -> None:
    for light, air, wind in ((1000.0, 20.0, 1.0), (200.0, -30.0, 4.0)):
        assert cell_c(light, air, wind) == pytest.approx(float(faiman(light, air, wind)), abs=1e-9)


@settings(max_examples=30, deadline=None)
@given(st.floats(1.0, 1200.0), st.floats(-40.0, 45.0))
def test_power_rises_with_light_and_falls_with_warmth(light: float, air: float) -> None:
    def power(g: float, t: float) -> float:
        return float(array_power_w(module(), 8, np.array([g]), np.array([t]))[0])

    assert power(light, air) >= 0.0
    assert power(light * 1.02, air) >= power(light, air)
    if light > 50.0:
        assert power(light, air + 2.0) < power(light, air)


def test_the_dark_gives_nothing() -> None:
    assert array_power_w(module(), 8, np.zeros(3), np.zeros(3)).tolist() == [0.0, 0.0, 0.0]


@pytest.mark.parametrize(
    ("changes", "key"),
    [
        ({"working_voltage_v": 41.0}, "working_voltage"),
        ({"working_current_a": 15.0}, "working_current"),
        ({"power_w": 550.0}, "power"),
        ({"power_change_per_k": -0.009}, "power_change"),
    ],
)
def test_a_datasheet_that_cannot_be_is_refused(changes: dict[str, float], key: str) -> None:
    with pytest.raises(Wrong) as told:
        refuse_what_cannot_be(module(**changes))
    assert key in [problem.key for problem in told.value.problems]


def test_several_slips_are_told_at_once() -> None:
    with pytest.raises(Wrong) as told:
        fitted_diode(module(working_voltage_v=41.0, working_current_a=15.0))
    assert len(told.value.problems) >= 3


def test_the_coefficients_voltage_on_a_hot_day_is_not_over_the_diodes() -> None:
    sheet = module()
    _, working = diode_voltage_v(fitted_diode(sheet), 1000.0, cell_c(1000.0, 40.0))
    assert hot_working_voltage_v(sheet, 4, 40.0) <= 4.0 * working * 1.02


def test_modules_only_ever_lose() -> None:
    left = [aged(years) for years in (0.0, 1.0, 10.0, 30.0)]
    assert left[0].least == left[0].most == 1.0
    assert [a.middle for a in left] == sorted((a.middle for a in left), reverse=True)
    assert all(a.least <= a.middle <= a.most for a in left)
    with pytest.raises(ValueError, match="younger"):
        aged(-1.0)
