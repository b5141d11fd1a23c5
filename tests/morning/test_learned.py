from __future__ import annotations

from datetime import date, datetime, time, timedelta

import pytest

from polestead.daybook.daybook import Kept
from polestead.daybook.entry import Entry, Moment
from polestead.homestead.demos import demo_path
from polestead.homestead.read import read_homestead
from polestead.morning.basis import Basis
from polestead.morning.learned import LEAST_GUSTS, morning_taught
from polestead.morning.seen import Taught
from tests.daybook.teaching.planted import house_log

MPH = 0.44704
FIRST = date(2025, 7, 1)


def _kept(entries: list[Entry]) -> list[Kept]:
    return [Kept(n, one, datetime(2026, 7, 1)) for n, one in enumerate(entries, 1)]


@pytest.fixture(scope="module")
def logs() -> dict[float, list[Kept]]:
    owners = read_homestead(demo_path("hollow-spruce"))
    return {left: _kept(house_log(owners, FIRST, 365, lost_from=FIRST, left=left, old=False)) for left in (1.0, 0.6)}  # fmt: skip


def test_without_a_log_nothing_is_taught(spruce: Basis) -> None:
    assert morning_taught((), spruce, datetime(2026, 1, 25, 7)) == Taught()


def test_the_months_sun_is_told_with_its_doubt(spruce: Basis, logs: dict[float, list[Kept]]) -> None:  # fmt: skip
    """The planted house makes .94 of what is worked, and .6 of that: both lie where the doubt says, the second far lower."""
    whole, less = (morning_taught(logs[left], spruce, datetime(2025, 12, 31, 7)) for left in (1.0, 0.6))  # fmt: skip
    assert abs(whole.sun_factor - 0.94) < 2.5 * whole.sun_factor_sd
    assert less.sun_factor < whole.sun_factor - 0.1
    assert 0.02 < whole.sun_factor_sd < 0.15
    assert whole.days >= 20


def test_a_bright_month_makes_no_house_careless(spruce: Basis, logs: dict[float, list[Kept]]) -> None:  # fmt: skip
    """October of the planted log was a bright one (1.04, by no means sure): nothing is added to the sun worked."""
    bright = morning_taught(logs[1.0], spruce, datetime(2025, 10, 31, 7))
    assert bright.days >= 20
    assert bright.sun_factor == 1.0
    every = [morning_taught(logs[left], spruce, datetime(2025, month, 28, 7)).sun_factor for month in (8, 9, 10, 11, 12) for left in (0.6, 1.0)]  # fmt: skip
    assert all(less < whole <= 1.0 for less, whole in zip(every[::2], every[1::2], strict=True))


def test_a_month_of_few_days_is_not_told(spruce: Basis, logs: dict[float, list[Kept]]) -> None:
    early = [one for one in logs[1.0] if one.entry.moment.day < FIRST + timedelta(days=40)]
    assert morning_taught(early, spruce, datetime(2025, 8, 9, 7)).sun_factor == 1.0
    struck = [Kept(one.number, one.entry, one.kept_at, "slip") for one in logs[1.0]]
    assert morning_taught(struck, spruce, datetime(2025, 12, 31, 7)) == Taught()


@pytest.mark.parametrize(("met_mph", "days", "bias"), [(50.0, LEAST_GUSTS, 1.25), (50.0, LEAST_GUSTS - 1, 1.0), (30.0, LEAST_GUSTS, 1.0)])  # fmt: skip
def test_gusts_met_over_gusts_heard(spruce: Basis, met_mph: float, days: int, bias: float) -> None:
    """40 heard and 50 met each day is a quarter more; under it, or on too few days, nothing is taken off."""
    lines: list[Entry] = []
    for n in range(days):
        day = date(2026, 1, 1) + timedelta(days=n)
        lines.append(Entry(Moment(day, time(7)), note="heard: broken, gusts 40 mph"))
        lines.append(Entry(Moment(day, time(15)), gust_m_s=met_mph * MPH, gust_seen="whole trees move"))  # fmt: skip
    assert morning_taught(_kept(lines), spruce, datetime(2026, 1, 25, 7)).gust_bias == pytest.approx(bias)  # fmt: skip
