"""The run over the real year of a demo: its sums against a plain pass over the hours, and what the house makes of a loss."""

from __future__ import annotations

from functools import cache

import numpy as np
import pytest

from polestead.answer.stands import strongback_kg_of, wire_choices_of
from polestead.answer.supply import Skies, new_power_w
from polestead.answer.winter import HouseOnSun, saved_under
from polestead.answer.wires_run import TRIED_SHARE, module_v, run_choices_of, run_over_year
from polestead.homestead.demos import demo_path
from polestead.homestead.read import read_homestead
from polestead.mount.geometry import geometry_of
from polestead.mount.schedule import two_tilts
from polestead.sheets.wires.run import run_lines, trade_lines
from polestead.wiring.run.loss import sum_i2_h_a2

YEARS = 6


@cache
def scene():
    owners = read_homestead(demo_path("hollow-spruce"))
    file = owners.homestead
    geometry = geometry_of(file.mount, file.array, strongback_kg_of(file.mount, file.array))
    skies = Skies(file, owners.path.parent, geometry, YEARS, 1)
    plan = two_tilts(file.mount.winter_tilt_deg, file.mount.summer_tilt_deg, file.place.latitude_deg)  # fmt: skip
    house = HouseOnSun(file, skies, 1.0)
    return file, skies, house, plan, run_over_year(file, skies, house, plan)


def test_the_squared_current_is_that_of_the_hours():
    file, skies, _, plan, year = scene()
    sun = next(skies.blocks(YEARS))
    power = new_power_w(file.array, file.mount.facing_deg, sun, plan)
    volts = module_v(file.array, sun, power)
    total = sum(float((p.astype(float) / (4.0 * v)) @ (p.astype(float) / (4.0 * v))) for p, v in zip(power, volts, strict=True))  # fmt: skip
    assert year.i2_h_a2 == pytest.approx(total / YEARS, rel=1e-5)
    assert year.module_a2_h == pytest.approx(16.0 * year.i2_h_a2)
    assert 0.85 * 32.9 < float(volts[power > 1000.0].mean()) < 1.15 * 32.9
    # the cells' warmth moves it by a few per cent only: a constant voltage would have served
    assert year.i2_h_a2 == pytest.approx(sum_i2_h_a2(power, 131.6), rel=0.1)


def test_a_year_loses_a_smaller_share_than_full_sun():
    *_, year = scene()
    assert 0.2 * TRIED_SHARE < year.tried_wh / year.array_wh < TRIED_SHARE


def test_what_a_lost_watt_hour_costs_is_the_house_run_twice():
    file, _, house, plan, year = scene()
    ohm = year.tried_wh / year.i2_h_a2

    def behind_the_wire(sun, power):
        volts = 4.0 * module_v(file.array, sun, power)
        return np.maximum(power - np.float32(ohm) * (power / volts) ** 2, 0.0).astype(np.float32)

    whole = house.with_less(plan, lambda _sun, power: power)
    less = house.with_less(plan, behind_the_wire)
    hours, least, most = saved_under(less, whole)
    per_l, per_h = file.prices.fuel_per_l, file.prices.engine_hour
    ends = sorted(float((litres * per_l + hours * per_h).mean()) for litres in (least, most))
    low, high = year.worth_per_wh
    assert low * year.tried_wh <= max(ends[0], 0.0) + 1e-9
    assert high * year.tried_wh >= ends[1] - 1e-9
    assert 0.0 <= year.would_be_taken <= 1.0
    assert whole.engine_hours.shape == (YEARS, 12)


def test_a_house_without_an_engine_pays_no_fuel_for_a_loss():
    file, skies, _, plan, _ = scene()
    house = file.household.model_copy(update={"engine": None})
    alone = file.model_copy(update={"household": house})
    year = run_over_year(alone, skies, HouseOnSun(alone, skies, 1.0), plan)
    assert year.worth_per_wh == (0.0, 0.0)
    assert any("no engine" in note for note in year.notes)


def test_the_choice_of_the_demo_and_its_text():
    file, _, _, _, year = scene()
    choices = wire_choices_of(file)
    told = run_choices_of(file, year, choices.sizes, choices.layouts)
    assert told.economy.cheapest is not None
    assert told.economy.cheapest.wire.faults == ()
    middles = [row.middle for row in told.economy.rows if row.middle is not None and not row.wire.faults]  # fmt: skip
    assert told.economy.cheapest.middle == min(middles)
    assert [(one.strung.in_series, one.strung.in_parallel) for one in told.trade] == [(4, 2), (4, 2)]  # fmt: skip
    lines = "\n".join(
        (*run_lines(choices.sizes, told, "USD", "feet"), *trade_lines(told.trade, 15.0, "USD"))
    )
    assert all(len(line) <= 78 for line in lines.splitlines())
    assert "thinnest lawful" in lines
    assert "cheapest over the years" in lines
    assert "no pass mark" in lines
    assert "USD a ft" in lines
    assert "not worked here" in "\n".join(run_lines(choices.sizes, None, "USD", "feet"))
