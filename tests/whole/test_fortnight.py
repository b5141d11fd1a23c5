"""The worst fortnight: found by hand in a year made by hand."""

from __future__ import annotations

import numpy as np

from polestead.answer.fortnight import worst_fortnight
from polestead.household.result import HouseHours
from tests.answers import worked

DAYS = np.roll(np.arange(1, 366), -181)  # a year from 1 July


def _hours(engine_on: dict[int, float], dark_on: dict[int, float]) -> HouseHours:
    """One year, 10 kWh of sun a day but 1 kWh on days 160 to 165; engine and dark hours at noon of the days named."""
    engine, dark, sun = (np.zeros((1, 8760)) for _ in range(3))
    for day, hours in engine_on.items():
        engine[0, 24 * day + 12] = hours
    for day, hours in dark_on.items():
        dark[0, 24 * day + 12] = hours
    for day in range(365):
        sun[0, 24 * day + 12] = 1000.0 if 160 <= day <= 165 else 10000.0
    charge = np.full((1, 8760), 0.8)
    charge[0, 24 * 200 : 24 * 214] = 0.3
    return HouseHours(charge, engine, sun, np.zeros((1, 8760)), dark)


def test_it_holds_the_most_engine_and_dark_hours():
    # Days 150, 155, 163 lie within fourteen days: three hours; day 300 alone has one. Of the windows that hold all three the first begins on day 150.
    found = worst_fortnight(_hours({150: 1.0, 155: 1.0, 300: 1.0}, {163: 1.0}), 0, DAYS)
    assert found.calendar_days[0] == DAYS[150]
    assert sum(found.engine_h) == 2.0
    assert found.dark_hours == 1.0
    assert found.engine_h[12] == 1.0
    assert found.grey == tuple(160 <= day <= 165 for day in range(150, 164))
    assert found.sun_wh[0] == 10000.0


def test_where_nothing_is_ever_wanted_it_is_the_emptiest():
    found = worst_fortnight(_hours({}, {}), 0, DAYS)
    assert found.calendar_days[0] == DAYS[200]
    assert min(found.charge_share) == 0.3


def test_of_a_demo_it_lies_in_its_winter_and_its_engine_hours_are_part_of_a_bad_years():
    winter = worked("hollow-spruce").winter
    assert all(day > 300 or day < 60 for day in winter.fortnight.calendar_days)
    bad = winter.with_new.engine_hours.bad_high
    assert 0.0 < sum(winter.fortnight.engine_h) <= bad
    assert len(winter.fortnight.charge_share) == 14 * 24
    assert all(0.0 <= share <= 1.0 for share in winter.fortnight.engine_h)
