from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import numpy as np
import pytest

from polestead.daybook.days import Day
from polestead.daybook.teaching.from_days import series_of
from polestead.daybook.teaching.series import paired
from polestead.daybook.teaching.skies import (
    READ_SD,
    ROUNDED_WH,
    FromSun,
    HouseDays,
    SkyTable,
    calendar_place,
    expected_from,
    sky_table,
)

MAY = date(2026, 5, 4)
FLAT, STEEP = 20.0, 60.0
USUAL = np.full(365, FLAT)


def _drawn(seed: int = 5, years: int = 30) -> tuple[np.ndarray, np.ndarray]:
    """A sky's day for two tilts, log-normal with sd .4, the old array a quarter of the flat one and another .05 beside."""
    rng = np.random.default_rng(seed)
    sky = rng.normal(0.0, 0.4, (years, 365))
    flat = 8000.0 * np.exp(sky)
    old = 0.25 * flat * np.exp(rng.normal(0.0, 0.05, flat.shape))
    return np.array([flat, 0.5 * flat]), old


def _house(chance: float) -> HouseDays:
    still = FromSun(np.full(365, 0.8), np.full(365, 0.2), np.full(365, 0.05))
    return HouseDays(np.full(365, chance), np.full(365, 4000.0), np.zeros(365), still, still)


@pytest.fixture(scope="module")
def table() -> SkyTable:
    daily, old = _drawn()
    return sky_table(np.array([FLAT, STEEP]), daily, old, house=_house(0.05))


def _expected(table: SkyTable, *days: Day):
    return expected_from(days, table, USUAL)[0]


def _day(nth: int = 0, **given) -> Day:
    return Day(MAY + timedelta(days=nth), 1, **({"new_wh": 4000.0, "tilt_held_deg": FLAT, "charge_evening": 0.7} | given))  # fmt: skip


def test_a_day_is_worked_for_the_tilt_it_stood_at_and_between_tilts_in_a_straight_line(table: SkyTable) -> None:  # fmt: skip
    flat, half, steep = _expected(table, _day(), _day(1, tilt_held_deg=40.0), _day(2, tilt_held_deg=STEEP)).made_wh  # fmt: skip
    assert flat == pytest.approx(8000.0, rel=0.05)
    assert steep == pytest.approx(4000.0, rel=0.05)
    assert half == pytest.approx(np.sqrt(8000.0 * 4000.0), rel=0.05)  # halfway on the logarithm


def test_only_the_season_known_is_a_wide_doubt_and_the_plain_mean_lies_over_the_middle(table: SkyTable) -> None:  # fmt: skip
    expected = _expected(table, _day())
    assert expected.log_sd[0] == pytest.approx(np.hypot(0.4, READ_SD), rel=0.1)
    assert expected.mean_wh[0] / expected.made_wh[0] == pytest.approx(np.exp(0.5 * 0.4**2), rel=0.03)  # fmt: skip


def test_the_arrays_that_were_there_measure_the_sun_of_a_day_not_full(table: SkyTable) -> None:
    """1,000 Wh by a quarter as large an array is a day of 4,000, known to .05 and what two rounded readings are good for."""
    expected = _expected(table, _day(all_wh=5000.0))
    assert expected.made_wh[0] == pytest.approx(4000.0, rel=0.03)
    assert expected.log_sd[0] == pytest.approx(np.hypot(np.hypot(0.05, READ_SD), ROUNDED_WH / 1000.0), rel=0.1)  # fmt: skip


def test_on_a_full_day_they_are_turned_away_too_and_measure_nothing(table: SkyTable) -> None:
    full = _expected(table, _day(all_wh=5000.0, charge_evening=1.0))
    assert full.fills[0]
    assert full.log_sd[0] > 0.3
    snowed = replace(table, old=replace(table.old, tells=np.zeros(365, dtype=bool)))
    assert _expected(snowed, _day(all_wh=5000.0)).log_sd[0] > 0.3


def test_a_day_it_was_moved_lies_halfway_with_the_difference_in_its_doubt(table: SkyTable) -> None:
    still, moved = _expected(table, _day(), _day(1, tilt_held_deg=STEEP, moves=1)).log_sd
    assert moved == pytest.approx(np.hypot(still, 0.5 * np.log(2.0)), rel=0.05)


def test_days_before_the_first_tilt_take_the_plans_and_more_doubt(table: SkyTable) -> None:
    plan = np.where(np.arange(365) < 180, FLAT, STEEP)
    expected, notes = expected_from((_day(tilt_held_deg=None),), table, plan)
    assert expected.made_wh[0] == pytest.approx(8000.0, rel=0.05)
    assert expected.log_sd[0] == pytest.approx(np.hypot(0.4, 0.5 * np.log(2.0)), rel=0.1)
    assert any("before the first tilt" in note for note in notes)


@pytest.mark.parametrize(("chance", "counts", "full"), [(0.05, 1, False), (0.5, 0, False), (0.95, 1, True)])  # fmt: skip
def test_a_charge_nobody_read_late_in_the_day_is_settled_by_the_house_or_not_at_all(chance: float, counts: int, full: bool) -> None:  # fmt: skip
    table = sky_table(np.array([FLAT, STEEP]), _drawn()[0], house=_house(chance))
    rolled = (_day(charge_evening=None, charge_morning=0.6),)
    pairs = paired(series_of(rolled), expected_from(rolled, table, USUAL)[0])
    assert pairs.days == counts
    assert pairs.at_least.tolist() == [full] * counts


def test_dawn_charge_follows_the_sun_of_the_days_before_where_it_is_written(table: SkyTable) -> None:  # fmt: skip
    """Days of 2,000 where 4,000 is the mean: .8 + .2 (.5 - 1) = .7; with gaps before it nothing is expected."""
    days = [_day(nth, new_wh=2000.0) for nth in range(7)]
    dawn = _expected(table, *days).dawn_charge
    assert np.isnan(dawn[:2]).all()
    assert dawn[6] == pytest.approx(0.7)
    gap = [_day(nth, new_wh=None if nth == 5 else 2000.0) for nth in range(7)]
    assert np.isnan(_expected(table, *gap).dawn_charge[6])


def test_drawn_days_are_read_as_nothing_wrong_however_lopsided(table: SkyTable) -> None:
    """Where full days hide the bright half, the middle is moved until the drawn years' own estimate is nothing."""
    from polestead.daybook.teaching.months import month_factors
    from polestead.daybook.teaching.skies import house_days

    rng = np.random.default_rng(8)
    could = 8000.0 * np.minimum(
        rng.gamma(3.0, 0.5, (60, 365)), 1.6
    )  # dull days far out, clear ones bounded
    full = could > 5000.0
    charge = np.repeat(np.where(full, 1.0, 0.6), 24, axis=1)
    made = np.minimum(could, 5000.0)
    house = house_days(charge, np.zeros_like(charge), made, could, np.arange(1, 366))
    assert np.abs(house.off).max() > 0.02
    at = np.array([FLAT, STEEP])
    # eight years: days stray by about .6, half of them speak, so that their mean is known to .6 / sqrt(8 x 365 / 2) = .016
    last = rng.integers(0, 60, (8, 365))
    rolled = [
        Day(date(2017 + year, 1, 1) + timedelta(days=n), 1, new_wh=float(made[last[year, n], n]), tilt_held_deg=FLAT, charge_evening=1.0 if full[last[year, n], n] else 0.6)
        for year in range(8) for n in range(365)
    ]  # fmt: skip
    off = {}
    for name, moved in (("moved", house), ("not", replace(house, off=np.zeros(365)))):
        table = sky_table(at, np.array([could, could]), house=moved)
        pairs = paired(series_of(rolled), expected_from(rolled, table, USUAL)[0])
        found = month_factors(pairs, np.zeros(pairs.days, dtype=bool), beforehand=1.0)
        off[name] = abs(float(np.mean([np.log(one.factor) for one in found])))
    assert off["moved"] < 0.04
    assert off["moved"] < off["not"]


def test_the_leap_day_is_the_day_before_it() -> None:
    assert [calendar_place(date(2028, 12, 31)), calendar_place(date(2027, 12, 31))] == [364, 364]
    assert calendar_place(date(2028, 1, 1)) == 0
