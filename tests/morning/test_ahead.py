"""The house run ahead."""

from __future__ import annotations

import os
import subprocess
import sys
from dataclasses import replace
from datetime import timedelta

import numpy as np
import pytest

from polestead.household.kernel import run_years
from polestead.household.plan import CHARGE_LEFT
from polestead.household.run import plan_of
from polestead.morning.ahead import (
    HOURS,
    SCENARIOS,
    course,
    day_of,
    drawn,
    needs_wh,
    new_power_w,
    run_ahead,
    told,
)
from polestead.morning.forecast.forecast import Forecast, Span, nothing_heard
from polestead.morning.forecast.words import read_heard
from polestead.morning.seen import Reading, Seen, Taught
from tests.household.fabricated import air, battery, household, sun
from tests.morning.given import AT

DAY = AT.date()
SEEN = Seen(AT, charge=Reading(0.78), glass="bare")


def heard(text):
    return read_heard(text, DAY)


def runs(basis, forecast, tilts=(60.0,), seen=SEEN, covered=0.0):
    skies = drawn(basis, seen, forecast)
    courses = [course(basis, skies, tilt, tilt, None, 0.0) for tilt in tilts]
    lanes = run_ahead(basis, skies, courses, covered)
    return skies, lanes, [told(basis, skies, lanes, nth) for nth in range(len(tilts))]


def test_each_year_by_itself_starts_where_it_is_told() -> None:
    """A lithium bank has no memory but its charge: a year begun where the year before ended goes the same way."""
    house = household(bank=battery(kind="lithium iron phosphate", capacity_ah=300.0, nominal_v=51.2), motor=None)  # fmt: skip
    plan = plan_of(house, 7, 300.0)
    power, outdoors = sun(3)[None], air(3)
    _, _, whole = run_years(plan, power, outdoors)
    starts = np.ascontiguousarray(whole[:, 0])
    _, by_year, alone = run_years(plan, power, outdoors, 1, starts)
    np.testing.assert_allclose(alone, whole, atol=1e-12)
    assert np.abs(by_year[CHARGE_LEFT]).max() < 1e-9 * plan.bank.full_ah


def test_the_order_of_the_years_is_nothing_to_them() -> None:
    plan = plan_of(household(), 7, 300.0)
    power, outdoors = np.ascontiguousarray(sun(4)[None][:, :, :96]), np.ascontiguousarray(air(4)[:, :96])  # fmt: skip
    plan = plan._replace(uses_w=plan.uses_w[:96], month=plan.month[:96], hour_of_day=plan.hour_of_day[:96], column=np.arange(96))  # fmt: skip
    starts = np.array([0.4, 0.6, 0.8, 1.0])
    forth = run_years(plan, power, outdoors, 1, starts, 7)
    back = run_years(plan, np.ascontiguousarray(power[:, ::-1]), np.ascontiguousarray(outdoors[::-1]), 1, starts[::-1].copy(), 7)  # fmt: skip
    np.testing.assert_array_equal(forth[2], back[2][::-1])
    np.testing.assert_array_equal(forth[2][:, 7], starts)


def test_plain_and_compiled_loops_say_the_same(spruce, tmp_path) -> None:
    """In a process of its own that never loads the compiler."""
    from polestead.morning.kept import keep

    path = tmp_path / "kept"
    assert keep(path, "key", spruce)
    _, lanes, _ = runs(spruce, heard("broken, gusts 10 mph"), (20.0, 60.0))
    code = f"""
import sys
from pathlib import Path
from datetime import datetime
from polestead.base.compiled import plain_loops
from polestead.morning.kept import read_kept
from polestead.morning.ahead import *
from polestead.morning.seen import *
from polestead.morning.forecast.words import read_heard
at = datetime(2026, 11, 25, 7, 10)
basis = read_kept(Path({str(path)!r}), "key")
skies = drawn(basis, Seen(at, charge=Reading(0.78), glass="bare"), read_heard("broken, gusts 10 mph", at.date()))
with plain_loops():
    lanes = run_ahead(basis, skies, [course(basis, skies, t, t, None, 0.0) for t in (20.0, 60.0)], 0.0)
assert "numba" not in sys.modules and "pydantic" not in sys.modules
print(lanes.charge.sum().hex(), lanes.engine_wh.sum().hex(), lanes.used_wh.sum().hex())
"""
    env = dict(os.environ)
    env["PYTHONPATH"] = os.pathsep.join(sys.path)
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True, env=env)  # fmt: skip
    theirs = [float.fromhex(word) for word in done.stdout.split()]
    ours = [lanes.charge.sum(), lanes.engine_wh.sum(), lanes.used_wh.sum()]
    assert theirs == pytest.approx(ours, rel=1e-9)


def test_a_brighter_sky_brings_more_sun(spruce) -> None:
    mids = [runs(spruce, heard(f"{sky}, gusts 10 mph"))[2][0].sun_wh.mid for sky in ("grey", "broken", "clear")]  # fmt: skip
    assert mids[0] < mids[1] < mids[2]
    assert mids[2] > 2.0 * mids[0]


def test_no_sky_told_is_wider_than_one_that_is(spruce) -> None:
    def width(forecast):
        band = runs(spruce, forecast)[2][0].sun_wh
        return band.high - band.low

    assert width(nothing_heard(DAY)) > width(heard("grey")) * 1.5


def test_without_a_sky_the_days_are_those_of_the_season(spruce) -> None:
    """24 days drawn about the date against all of them: the mean within three standard errors."""
    skies = drawn(spruce, SEEN, nothing_heard(DAY))
    season = spruce.clearness[:, [(day_of(SEEN) - 1 + n) % 365 for n in range(-12, 13)]]
    picked = spruce.clearness[skies.years[:, 0], skies.days[:, 0]]
    assert picked.mean() == pytest.approx(
        season.mean(), abs=3.0 * float(season.std()) / SCENARIOS**0.5
    )


def test_the_same_morning_is_drawn_the_same(spruce) -> None:
    one, two = (drawn(spruce, SEEN, heard("clear")) for _ in range(2))
    np.testing.assert_array_equal(one.days, two.days)
    np.testing.assert_array_equal(one.charge, two.charge)


def test_an_old_charge_is_widened_downward_only(spruce) -> None:
    """No more is taken to be there than was read; one over what is usual drifts down to it."""
    fresh, old, none = (drawn(spruce, replace(SEEN, charge=reading), heard("clear")).charge for reading in (Reading(0.3), Reading(0.3, 72.0), None))  # fmt: skip
    usual = spruce.dawn_charge[10]
    assert abs(fresh.mean() - 0.3) < 0.01
    assert fresh.std() < old.std()
    assert old.mean() < fresh.mean() < none.mean()
    assert (old <= fresh).all()
    high = drawn(spruce, replace(SEEN, charge=Reading(0.98, 72.0)), heard("clear")).charge
    assert usual - 0.05 < high.mean() < 0.95
    assert none.mean() == pytest.approx(usual, abs=0.02)


def test_the_bank_keeps_within_its_bounds_and_the_hours_gone_by_are_empty(spruce) -> None:
    _, lanes, (ahead,) = runs(spruce, nothing_heard(DAY))
    assert lanes.charge[0][:, 7:].min() >= 0.0
    assert lanes.charge.max() <= 1.0 + 1e-9
    assert np.isnan(ahead.charge_mid[6])
    assert not np.isnan(ahead.charge_mid[7])
    assert lanes.engine_wh[..., :7].sum() == 0.0


def test_an_empty_bank_calls_the_engine_and_a_full_one_does_not(spruce) -> None:
    empty = runs(spruce, heard("grey"), seen=replace(SEEN, charge=Reading(0.5)))[2][0].engine
    full = runs(spruce, heard("clear"), seen=replace(SEEN, charge=Reading(0.95)))[2][0].engine
    assert (empty.chance, empty.from_h) == (1.0, 7.0)
    assert full.chance == 0.0
    assert full.from_h is None


def test_snow_on_the_glass_takes_its_sun_and_a_steep_one_sheds_sooner(spruce) -> None:
    text = "clear, 10 to 34 F"
    bare = runs(spruce, heard(text), (60.0,))[2][0].sun_wh.mid
    steep, flat = (one.sun_wh.mid for one in runs(spruce, heard(text), (60.0, 10.0), covered=1.0)[2])  # fmt: skip
    assert steep < bare
    assert flat < 0.5 * steep


def test_snow_told_for_tonight_covers_what_lies_flat_tomorrow(spruce) -> None:
    skies = drawn(spruce, SEEN, heard("clear; clear"))
    snowy = drawn(spruce, SEEN, heard("clear, 6 in snow tonight; clear"))
    tomorrow = slice(24, 48)
    for tilt, least, most in ((10.0, 0.0, 0.3), (75.0, 0.95, 1.0)):
        held = np.full(HOURS, tilt)
        left = new_power_w(spruce, snowy, held, 0.0)[:, tomorrow].sum() / new_power_w(spruce, skies, held, 0.0)[:, tomorrow].sum()  # fmt: skip
        assert least <= left <= most + 1e-9


def test_told_cold_makes_the_day_colder(spruce) -> None:
    mild = drawn(spruce, SEEN, heard("high 40 F, low 30 F")).air_c[:, :24].mean()
    cold = drawn(spruce, SEEN, heard("high 0 F, low -20 F")).air_c[:, :24].mean()
    assert mild - cold == pytest.approx(45.0 / 1.8, abs=1.5)


def test_the_logs_factor_scales_the_sun(spruce) -> None:
    plain = runs(spruce, heard("clear"))[2][0].sun_wh.mid
    taught = replace(SEEN, taught=Taught(0.8, 0.0, 1.0, 40))
    assert runs(spruce, heard("clear"), seen=taught)[2][0].sun_wh.mid == pytest.approx(0.8 * plain)


def test_the_sun_between_two_worked_tilts_lies_between_them(spruce) -> None:
    skies = drawn(spruce, SEEN, heard("clear"))
    at = [new_power_w(spruce, skies, np.full(HOURS, tilt), 0.0) for tilt in (40.0, 42.5, 45.0)]
    np.testing.assert_allclose(at[1], 0.5 * (at[0] + at[2]), atol=1e-9)


def test_what_is_left_in_the_bank_counts_against_the_need(spruce) -> None:
    seen = replace(SEEN, charge=Reading(0.6))
    _, lanes, _ = runs(spruce, heard("clear; clear; clear"), (65.0, 10.0), seen)
    need = needs_wh(spruce, lanes).mean(axis=1)
    assert need[0] < need[1] - 1000.0  # a bank that is low can take what flat would not bring


def test_leap_days_and_the_turn_of_the_year(spruce) -> None:
    for at in (AT.replace(year=2028, month=2, day=29), AT.replace(month=12, day=31), AT.replace(month=6, day=30), AT.replace(hour=23)):  # fmt: skip
        seen = replace(SEEN, at=at)
        _, lanes, (ahead,) = runs(spruce, nothing_heard(at.date()), seen=seen)
        assert 1 <= day_of(seen) <= 365
        assert np.isfinite(ahead.sundown.mid)
        assert lanes.charge.shape[-1] == HOURS + 1


def test_a_forecast_of_yesterday_tells_today_by_its_second_day(spruce) -> None:
    told_before = Forecast("file", DAY - timedelta(days=1), (Span(0.0, 24.0, sky="clear"), Span(24.0, 48.0, sky="grey")))  # fmt: skip
    assert runs(spruce, told_before)[2][0].sun_wh.mid < 0.5 * runs(spruce, heard("clear"))[2][0].sun_wh.mid  # fmt: skip
