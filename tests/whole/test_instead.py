from __future__ import annotations

import re

import numpy as np
import pytest

from polestead.answer.instead import BATTERY, MODULE, SWEEPING, TIPPING, bigger, instead_of
from polestead.answer.supply import BLOCK_YEARS, Skies
from polestead.answer.winter import HouseOnSun, saved_under
from polestead.homestead.demos import demo_path
from polestead.homestead.read import check_text, read_homestead
from polestead.sheets.data import money_data
from polestead.sheets.money import money_text
from tests.answers import worked

NAME = "slieve-moss"


@pytest.fixture(scope="module")
def both():
    answer = worked(NAME)
    return answer, {one.word: one for one in instead_of(read_homestead(demo_path(NAME)), answer)}


def house_of(text: str, answer) -> HouseOnSun:
    """The house a changed file describes, under the same years."""
    file, _ = check_text(text)
    skies = Skies(file, demo_path(NAME).parent, answer.geometry, BLOCK_YEARS, answer.seed)
    return HouseOnSun(file, skies, answer.winter.use_factor)


def test_a_bigger_battery_is_the_file_with_a_bigger_battery(both) -> None:
    answer, found = both
    text = demo_path(NAME).read_text(encoding="utf-8")
    grown = re.sub(
        r'(capacity = )"(\d+) Ah"', lambda m: f'{m[1]}"{int(m[2]) * 1.25} Ah"', text, count=1
    )
    assert grown != text
    before, after = (house_of(one, answer).under(answer.schedule) for one in (text, grown))
    hours, least, most = saved_under(before, after)
    prices = read_homestead(demo_path(NAME)).homestead.prices
    one = found[BATTERY]
    assert one.saved_hours.mean == pytest.approx(hours.mean(), abs=1e-6)
    money = sorted(float((fuel * prices.fuel_per_l + hours * prices.engine_hour).mean()) for fuel in (least, most))  # fmt: skip
    assert one.saved_money == pytest.approx(money, abs=1e-6)


def test_a_better_habit_is_the_difference_of_the_two_habits(both) -> None:
    answer, found = both
    house = house_of(demo_path(NAME).read_text(encoding="utf-8"), answer)
    best = answer.habits[0].schedule
    hours, _, _ = saved_under(house.under(answer.schedule), house.under(best))
    assert found[TIPPING].saved_hours.mean == pytest.approx(hours.mean(), abs=1e-6)


def test_more_module_more_battery_and_bare_glass_do_not_cost_engine_hours(both) -> None:
    _, found = both
    for word in (MODULE, BATTERY, SWEEPING):
        assert found[word].saved_hours.mean >= -0.1
        assert found[word].mean_interval_h[0] <= found[word].saved_hours.mean <= found[word].mean_interval_h[1]  # fmt: skip


def test_a_step_may_cost_what_it_saves_in_the_counted_years(both) -> None:
    answer, found = both
    battery = found[BATTERY]
    added = 0.25 * read_homestead(demo_path(NAME)).homestead.household.battery.capacity_ah / 100.0
    assert battery.may_cost[1] == pytest.approx(battery.saved_money[1] / added * answer.money.banker.winters)  # fmt: skip
    assert battery.working.result.value == pytest.approx(battery.may_cost[1])


def test_a_bigger_bank_keeps_its_kind_and_its_makers_table_grows_with_it() -> None:
    battery = read_homestead(demo_path("hollow-spruce")).homestead.household.battery
    grown = bigger(battery, 2.0)
    assert grown.capacity_ah == 2.0 * battery.capacity_ah
    assert [row.charge_ah for row in grown.table_rows] == pytest.approx(
        [2.0 * row.charge_ah for row in battery.table_rows]
    )
    assert [row.hours for row in grown.table_rows] == pytest.approx([row.hours for row in battery.table_rows])  # fmt: skip
    if battery.charge_limit_a is not None:
        assert grown.charge_limit_a == 2.0 * battery.charge_limit_a


def test_the_leaf_tells_ledger_worth_and_what_else(both) -> None:
    answer, found = both
    text = money_text(answer, tuple(found.values()), "metric")
    assert max(map(len, text.splitlines())) <= 80
    for words in (
        "Ledger, EUR",
        "by part",
        "Worth today",
        "What else it could be spent on",
        "bigger battery",
    ):
        assert words.lower() in text.lower()
    data = money_data(answer, tuple(found.values()))
    assert len(data["instead"]) == len(found)
    assert data["money"]["ledger"]["total"] == pytest.approx(answer.money.total)
    assert np.isfinite(data["money"]["banker"]["worth"]).all()
