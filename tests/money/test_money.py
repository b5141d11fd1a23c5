from __future__ import annotations

from math import inf

import numpy as np
import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from polestead.homestead.ledger import rows_in
from polestead.money.discount import level_payment, present_value, rate_of_return
from polestead.money.house import House
from polestead.money.money import money_of
from polestead.money.saved import winters_until_paid
from tests.money.given import prices


def result(given_prices, hours, least=1.0, most=2.0, power=3520.0):
    hours = np.asarray(hours, dtype=float)
    rows = rows_in(given_prices, (), ())
    house = House(power, 8, 2.0)
    return money_of(given_prices, rows, house, hours, least * hours, most * hours)


def test_the_ledger_adds_up_and_estimated_concrete_carries_its_mark() -> None:
    found = result(prices(concrete_per_m3=200.0), [100.0] * 5)
    assert found.lines[-1] == ("concrete", 400.0, "~")
    assert found.total == 1400 + 2100 + 400


def test_a_concrete_line_of_the_owners_is_not_doubled() -> None:
    found = result(prices({"Concrete_truck": 500.0}, concrete_per_m3=200.0), [100.0] * 5)
    assert found.lines == (("Concrete truck", 500.0, ""),)


def test_the_saving_has_its_own_points_low_and_high() -> None:
    found = result(prices(), np.arange(101.0))
    assert found.saved_good == pytest.approx((90 * 1.2, 90 * 1.9))
    assert found.saved_median == pytest.approx((50 * 1.2, 50 * 1.9))
    assert found.saved_bad == pytest.approx((10 * (0.7 + 0.5), 10 * (1.4 + 0.5)))


def test_money_per_engine_hour_is_over_ten_median_winters() -> None:
    assert result(prices(), [100.0] * 9).per_engine_hour_saved == pytest.approx(3500 / 1000)


def test_the_years_nearest_the_points_split_into_fuel_and_wear() -> None:
    good, median, bad = result(prices(), np.arange(101.0)).saved_years
    assert [one.engine_hours for one in (good, median, bad)] == [90.0, 50.0, 10.0]
    assert median.fuel_l == (50.0, 100.0)
    assert median.fuel_money == pytest.approx((35.0, 70.0))
    assert median.wear_money == 25.0
    assert median.money == pytest.approx((60.0, 95.0))
    assert bad.per_engine_hour == pytest.approx(3500.0 / 100.0)
    assert result(prices(), [100.0] * 5).engine_hour_worth == pytest.approx((1.2, 1.9))


def test_hours_and_fuel_of_a_row_are_their_own_points_however_the_years_lie() -> None:
    # the year of the median hours (30) is not that of the median fuel (20 to 40): no one year is picked for both
    hours, least = np.array([10.0, 30.0, 50.0]), np.array([20.0, 5.0, 90.0])
    house = House(3520.0, 8, 2.0)
    found = money_of(prices(), rows_in(prices(), (), ()), house, hours, least, 2.0 * least)
    median = found.saved_years[1]
    assert (median.engine_hours, median.fuel_l) == (30.0, (20.0, 40.0))
    assert median.money == pytest.approx(found.saved_median)


def test_an_engine_that_wears_nothing_is_asked_about() -> None:
    assert any(
        "wears nothing" in one for one in result(prices(engine_hour=0.0), [100.0] * 5).doubts
    )


def test_a_grant_not_yet_paid_out_is_told_with_the_cost_without_it() -> None:
    found = result(prices({"modules": 1400.0, "state rebate": -300.0}), [100.0] * 5)
    assert any(
        "Grants of 300 $ are counted and not yet paid out; without them it costs 1,400" in one
        for one in found.doubts
    )
    assert any("31 December 2025" in one for one in found.doubts)
    abroad = result(prices({"modules": 1400.0, "grant": -300.0}, currency="EUR"), [100.0] * 5)
    assert not any("31 December 2025" in one for one in abroad.doubts)


@settings(max_examples=40, deadline=None)
@given(hours=st.lists(st.floats(1.0, 400.0), min_size=2, max_size=30), more=st.floats(0.0, 9000.0))
def test_more_to_pay_never_pays_in_fewer_winters_nor_costs_less_an_hour(hours, more) -> None:
    one = result(prices({"steel": 900.0}), hours)
    other = result(prices({"steel": 900.0, "more": more}), hours)
    assert other.winters_low >= one.winters_low
    assert other.winters_high >= one.winters_high
    assert other.per_engine_hour_saved >= one.per_engine_hour_saved
    assert other.banker.worth[0] <= one.banker.worth[0]


def test_even_winters_pay_after_total_over_saving() -> None:
    found = result(prices(), [100.0] * 30)
    assert (found.winters_low, found.winters_high) == (19.0, 30.0)  # 3500 / 190 and 3500 / 120


def test_luck_widens_the_winters_even_where_the_fuel_line_is_one() -> None:
    years = np.tile([0.0, 400.0], 50)
    low, high = winters_until_paid(2000.0, years, years)
    assert low < 10 < high


def test_nothing_saved_is_never_paid_for_and_says_so() -> None:
    found = result(prices(), [0.0] * 20)
    assert found.winters_low is None
    assert found.winters_high is None
    assert found.per_engine_hour_saved is None
    assert any("saves no engine hours" in doubt for doubt in found.doubts)


def test_an_array_that_costs_engine_hours_is_never_paid_for() -> None:
    found = result(prices(), [-20.0, -5.0, 3.0])
    assert found.winters_high is None
    assert found.saved_median[0] <= found.saved_median[1] < 0.0


def test_nothing_priced_is_no_gift() -> None:
    found = result(prices({}), [50.0] * 5)
    assert found.total == 0.0
    assert found.winters_low is None
    assert any("Nothing is priced" in doubt for doubt in found.doubts)


def test_very_long_is_told_as_very_long() -> None:
    found = result(prices(), [1.0] * 20)
    assert found.winters_low > 100
    assert any("more than 100 winters" in doubt for doubt in found.doubts)


@pytest.mark.parametrize(
    ("given_prices", "words"),
    [
        (prices({"modules": 140000.0}), "cents written as"),
        (prices({"modules": 0.32}), "price of one watt"),
        (prices({"solar panels": 141.0}), "price of one module"),
        (prices(fuel_per_l=70.0), "cents written as"),
        (prices(fuel_per_l=0.05), "next to nothing"),
        (prices(fuel_per_l=0.0), "costs nothing"),
        (prices(engine_hour=150.0), "counted in it twice"),
        (prices(concrete_per_m3=7.0), "price of one bag"),
        (prices({"steel": 200000.0}), "a line in cents"),
        (prices({"steel": 12.0}), "lines missing"),
    ],
)
def test_a_slipped_unit_is_caught_in_words(given_prices, words) -> None:
    assert any(words in doubt for doubt in result(given_prices, [100.0] * 5).doubts)


@pytest.mark.parametrize("fuel", [0.16, 0.55, 0.706, 1.45, 3.9])
def test_honest_prices_raise_no_doubt(fuel) -> None:
    assert result(prices(fuel_per_l=fuel, concrete_per_m3=230.0), [100.0] * 5).doubts == ()


@pytest.mark.parametrize(
    ("given_prices", "words"),
    [
        (prices({"modules": 1400.0, "pole": 1.18, "steel": 900.0}), "1.180 written for 1,180"),
        (prices({"modules": 1400.0, "our hours": 120.0}), "are these hours"),
        (prices({"modules": 1400.0, "state rebate": 300.0}), "written with a minus"),
        (prices({"modules": 1400.0, "steel": -300.0}), "Is it a grant, a refund or something sold"),
        (prices(wire={"4 AWG copper": 1020.0}), "cents, or a reel"),
        (prices(bought_mount=490000.0), "cents written as"),
        (prices(bought_mount=49.0), "the price of one module"),
    ],
)
def test_a_slip_elsewhere_in_the_prices_is_caught_in_words(given_prices, words) -> None:
    assert any(words in doubt for doubt in result(given_prices, [100.0] * 5).doubts)


def test_other_currencies_are_not_judged_by_the_dollar() -> None:
    assert result(prices({"modules": 140000.0}, currency="INR", fuel_per_l=95.0, engine_hour=40.0), [100.0] * 5).doubts == ()  # fmt: skip


def test_years_that_do_not_agree_are_refused() -> None:
    with pytest.raises(ValueError, match="same years"):
        money_of(prices(), (), House(1.0), np.ones(3), np.ones(2), np.ones(3))
    with pytest.raises(ValueError, match="at least one"):
        money_of(prices(), (), House(1.0), np.ones(0), np.ones(0), np.ones(0))


def test_the_working_ends_in_the_winters() -> None:
    found = result(prices(), [100.0] * 30)
    assert found.working.result.value == found.winters_high
    assert all(step.source.work for step in found.working.steps)


@settings(max_examples=40, deadline=None)
@given(
    hours=st.lists(st.floats(-50, 400), min_size=2, max_size=30), dearer=st.floats(1.0, 3.0), total=st.floats(10, 20000)
)  # fmt: skip
@example(hours=[0.0, 0.0, 19.0, -11.0], dearer=2.0, total=10.0)
def test_dearer_steel_never_pays_sooner_and_low_never_passes_high(hours, dearer, total) -> None:
    saved = np.asarray(hours)
    low, high = np.minimum(saved, 1.5 * saved), np.maximum(saved, 1.5 * saved)
    cheap, dear = winters_until_paid(total, low, high), winters_until_paid(dearer * total, low, high)  # fmt: skip
    if cheap is None:  # what may never be paid for is not paid for by costing more
        assert dear is None
        return
    assert cheap[0] <= cheap[1]
    sooner, later = (inf, inf) if dear is None else dear  # it may never be paid for: later than any
    assert sooner >= cheap[0]
    assert later >= cheap[1]


@given(
    rate=st.just(0.0) | st.floats(1e-9, 0.3),
    periods=st.integers(1, 60),
    borrowed=st.floats(1.0, 1e6),
)
def test_the_level_payments_are_worth_what_was_borrowed(rate, periods, borrowed) -> None:
    payment = level_payment(rate, periods, borrowed)
    assert present_value(rate, [0.0] + [payment] * periods) == pytest.approx(borrowed, rel=1e-6)


@given(rate=st.floats(-0.3, 2.0), outlay=st.floats(1.0, 1e6), winters=st.integers(1, 40))
def test_the_rate_of_return_is_that_at_which_the_level_savings_are_worth_the_outlay(
    rate, outlay, winters
) -> None:
    saving = outlay / sum((1.0 + rate) ** -t for t in range(1, winters + 1))
    found = rate_of_return([-outlay] + [saving] * winters)
    assert found == pytest.approx(rate, abs=1e-6)


@pytest.mark.parametrize("flows", [[1.0, 2.0], [-1.0, -2.0], [], [-10.0, 30.0, -20.0], [0.0, 0.0]])
def test_flows_that_do_not_turn_once_have_no_one_rate(flows) -> None:
    assert rate_of_return(flows) is None


def test_a_loan_without_a_period_is_refused() -> None:
    with pytest.raises(ValueError, match="period"):
        level_payment(0.05, 0, 1.0)
    with pytest.raises(ValueError, match="rate"):
        present_value(-1.0, [1.0])


def test_the_saving_under_another_climate_is_told_beside() -> None:
    hours = np.full(20, 100.0)
    plain = result(prices(), hours)
    leaned = ((0.5 * hours, 0.5 * hours, hours), (2.0 * hours, 2.0 * hours, 4.0 * hours))
    found = money_of(
        prices(),
        rows_in(prices(), (), ()),
        House(3520.0, 8, 2.0),
        hours,
        hours,
        2.0 * hours,
        leaned,
    )
    assert plain.if_off == ()
    assert [one.saved_median for one in found.if_off] == [
        pytest.approx((0.5 * plain.saved_median[0], 0.5 * plain.saved_median[1])),
        pytest.approx((2.0 * plain.saved_median[0], 2.0 * plain.saved_median[1])),
    ]
    # 3500 over 60 and 95 a year, and over 240 and 380
    assert [one.winters for one in found.if_off] == [(37.0, 59.0), (10.0, 15.0)]
