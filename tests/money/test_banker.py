from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from polestead.money.banker import bankers_leaf
from tests.money.given import prices

HOURS = np.array([80.0, 120.0, 100.0])


def leaf(outlay=3000.0, hours=HOURS, least=1.0, most=2.0, **more):
    return bankers_leaf(
        prices(counted_years=10.0, **more), outlay, hours, least * hours, most * hours
    )


def test_the_outlay_is_today_and_not_discounted() -> None:
    # mean year: 100 h x .5 + 100 l x .7 = 120, and 190 by the high end; annuity of 10 winters at 4 %: (1 - 1.04^-10) / .04 = 8.110896
    found = leaf(discount=0.04)
    assert found.worth[0] == pytest.approx(120.0 * 8.110896 - 3000.0, abs=0.01)
    assert found.worth[1] == pytest.approx(190.0 * 8.110896 - 3000.0, abs=0.01)
    assert found.savings_worth[1] == pytest.approx(190.0 * 8.110896, abs=0.01)
    # a loan of 3000 over 10 winters at 4 %: 3000 / 8.110896
    assert found.level_cost == pytest.approx(369.873, abs=0.001)


def test_the_printed_means_make_the_printed_worth() -> None:
    # 100 h x .5 = 50 of wear; the rest of 120 and 190, 70 and 140, is fuel and rises: a pencil needs both
    found = leaf(discount=0.04, fuel_rise=0.03)
    assert (found.wear_mean, found.saved_mean) == (50.0, (120.0, 190.0))
    for mean, worth in zip(found.saved_mean, found.worth, strict=True):
        summed = sum(((mean - 50.0) * 1.03**t + 50.0) / 1.04**t for t in range(1, 11)) - 3000.0
        assert worth == pytest.approx(summed)


def test_without_a_rate_nothing_is_discounted_and_the_rate_is_asked_for() -> None:
    found = leaf(outlay=1000.0)
    assert found.rate is None
    assert found.worth == found.worth_undiscounted == (200.0, 900.0)
    assert any("none is invented" in one for one in found.sentences)
    # at the rate it brings, the 10 winters are worth the 1000 again
    for saving, rate in zip((120.0, 190.0), found.returns, strict=True):
        assert sum(saving / (1.0 + rate) ** t for t in range(1, 11)) == pytest.approx(1000.0)


def test_fuel_that_rises_has_risen_once_by_the_end_of_the_first_winter() -> None:
    found = leaf(fuel_rise=0.1)
    # fuel 70 x (1.1 + ... + 1.1^10) = 70 x 17.531167, wear 50 x 10
    assert found.savings_worth[0] == pytest.approx(70.0 * 17.531167 + 500.0, abs=0.01)


def test_like_winters_leave_luck_nothing_and_unlike_ones_something() -> None:
    even = leaf(hours=np.full(5, 100.0), discount=0.03)
    assert even.worth_unlucky == pytest.approx(even.worth[0])
    assert even.worth_lucky == pytest.approx(even.worth[1])
    odd = leaf(hours=np.tile([0.0, 200.0], 10), discount=0.03)
    assert odd.worth_unlucky < even.worth_unlucky
    assert odd.worth_lucky > even.worth_lucky


def test_what_saves_nothing_brings_no_rate_and_what_costs_nothing_is_all_gain() -> None:
    none = leaf(hours=np.zeros(3))
    assert none.returns == (None, None)
    assert any("No rate makes it worth" in one for one in none.sentences)
    free = leaf(outlay=0.0)
    assert free.level_cost == 0.0
    assert free.worth == free.savings_worth
    assert free.returns == (None, None)


@settings(max_examples=40, deadline=None)
@given(
    low=st.floats(0.0, 0.3), more=st.floats(0.001, 0.19), outlay=st.floats(1.0, 1e5), dearer=st.floats(0.0, 1e4),
)  # fmt: skip
def test_a_higher_rate_or_cost_never_makes_savings_worth_more(low, more, outlay, dearer) -> None:
    cheap, strict, dear = leaf(outlay, discount=low), leaf(outlay, discount=low + more), leaf(outlay + dearer, discount=low)  # fmt: skip
    assert strict.worth[0] < cheap.worth[0]
    assert strict.worth[1] < cheap.worth[1]
    assert dear.worth[0] <= cheap.worth[0]
    assert cheap.worth_undiscounted[0] >= cheap.worth[0]
    assert cheap.worth_unlucky <= cheap.worth_lucky
    assert cheap.worth[0] <= cheap.worth[1]


def test_the_working_ends_in_the_rate_it_brings() -> None:
    found = leaf(outlay=1000.0, discount=0.02)
    assert found.working.result.value == found.returns[1]
    assert [step.value for step in found.working.steps if step.symbol in ("N1", "N2")] == list(found.worth)  # fmt: skip
