from __future__ import annotations

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from polestead.homestead.ledger import PARTS, LedgerRow
from polestead.money.house import House
from polestead.money.ledger import ledger_of, part_by_name
from polestead.money.slips import slips
from tests.money.given import prices

ROWS = (
    LedgerRow("modules", "array", planned=1200.0, quoted=1180.0, paid=1150.0, on=date(2026, 4, 2)),
    LedgerRow("pole_20_ft", planned=800.0, quoted=960.0),
    LedgerRow("welding", "pole and frame", hours=30.0, by="us", rate=25.0),
    LedgerRow("digging", "footing", hours=8.0, by="a neighbour", paid=160.0),
    LedgerRow("state grant", planned=-400.0),
    LedgerRow("rods", hours=2.0, by="us"),
)


def test_each_line_counts_once_at_its_latest_stage() -> None:
    found = ledger_of(ROWS, "USD")
    # 1150 paid + 960 quoted + 160 paid - 400 planned
    assert found.total == 1870.0
    assert (found.paid, found.quoted, found.planned) == (1310.0, 960.0, -400.0)
    assert found.still_to_pay == 960.0
    assert found.grants_to_come == 400.0
    assert (found.slid_lines, found.slid_by) == (2, -50.0 + 160.0)


def test_totals_by_part_in_the_order_of_the_work() -> None:
    found = {one.part: one for one in ledger_of(ROWS, "USD").parts}
    assert list(found) == ["array", "pole and frame", "footing", "grants", "other"]
    frame = found["pole and frame"]
    assert (frame.quoted, frame.total, frame.still_to_pay, frame.hours) == (
        960.0,
        960.0,
        960.0,
        30.0,
    )
    assert found["grants"].still_to_pay == 0.0


def test_hours_stand_beside_the_money_by_person() -> None:
    workers = {one.by: one for one in ledger_of(ROWS, "USD").workers}
    assert (workers["us"].hours, workers["us"].priced_hours, workers["us"].worth) == (
        32.0,
        30.0,
        750.0,
    )
    assert (workers["a neighbour"].hours, workers["a neighbour"].worth) == (8.0, 0.0)


def test_hours_for_concrete_do_not_keep_its_price_out() -> None:
    rows = (LedgerRow("mixing concrete", hours=5.0),)
    found = ledger_of(rows, "USD", 2.0, 200.0)
    assert [(one.name, one.amount, one.mark) for one in found.lines if one.stage] == [
        ("concrete", 400.0, "~")
    ]


@pytest.mark.parametrize(
    ("name", "part"),
    [
        ("machine_hire", "tools and hire"),
        ("concrete pump hire", "tools and hire"),
        ("rails_clamps_hinge", "pole and frame"),
        ("actuator_and_lock", "drive and lock"),
        ("galvanizing", "pole and frame"),
        ("form tube and cage", "footing"),
        ("current clamp-on block 20 feet", "pole and frame"),
        ("charge controller", "controller and guards"),
        ("building permit", "papers"),
        ("utility rebate", "grants"),
        ("propane property driveway postage", "other"),
    ],
)  # fmt: skip
def test_a_part_is_guessed_from_whole_words(name, part) -> None:
    assert part_by_name(name) == part


money = st.none() | st.integers(-500_000, 500_000).map(lambda cents: cents / 100.0)
rows = st.lists(
    st.builds(
        LedgerRow,
        name=st.sampled_from(["modules", "pole", "auger hire", "rebate", "odds"]),
        part=st.sampled_from(["", *PARTS]),
        planned=money,
        quoted=money,
        paid=money,
        hours=st.none() | st.floats(0.0, 200.0),
        by=st.sampled_from(["", "us", "them"]),
    ),
    max_size=12,
)


@given(rows)
def test_parts_and_stages_add_up_to_the_same_total(listed) -> None:
    found = ledger_of(listed, "USD")
    by_hand = sum(
        next((v for v in (r.paid, r.quoted, r.planned) if v is not None), 0.0) for r in listed
    )
    assert found.total == pytest.approx(by_hand, abs=1e-6)
    assert sum(one.total for one in found.parts) == pytest.approx(by_hand, abs=1e-6)
    assert found.paid + found.still_to_pay - found.grants_to_come == pytest.approx(
        by_hand, abs=1e-6
    )
    assert found.hours == pytest.approx(sum(one.hours for one in found.workers), abs=1e-6)
    assert found.working.result.value == found.total


@pytest.mark.parametrize(
    ("row", "words"),
    [
        (LedgerRow("pole", planned=960.0, paid=96000.0), "cents in one of them"),
        (LedgerRow("pole", quoted=1180.0, paid=1.18), "read as a decimal point"),
        (LedgerRow("pole", planned=900.0, quoted=-900.0), "a minus too many"),
        (LedgerRow("pole", planned=60.0, quoted=900.0), "of the same thing"),
    ],
)
def test_a_line_that_speaks_against_itself_is_told_in_any_currency(row, words) -> None:
    given_prices = prices(currency="NOK")
    said = slips(given_prices, [row], ledger_of([row], "NOK"), House(3000.0))
    assert any(words in one.words for one in said)


def test_a_price_that_only_rose_is_no_slip() -> None:
    row = LedgerRow("steel", planned=400.0, quoted=560.0, paid=610.0)
    assert (
        slips(
            prices(currency="NOK", fuel_per_l=12.0, engine_hour=5.0),
            [row],
            ledger_of([row], "NOK"),
            House(100.0),
        )
        == ()
    )


def test_the_same_line_twice_is_asked_about_and_two_trips_are_not() -> None:
    once, again = LedgerRow("crane", paid=300.0, on=date(2026, 5, 1)), LedgerRow("crane", paid=300.0, on=date(2026, 5, 9))  # fmt: skip
    given_prices = prices(currency="NOK", fuel_per_l=12.0, engine_hour=5.0)
    assert slips(given_prices, [once, again], ledger_of([once, again], "NOK"), House(100.0)) == ()
    twice = slips(given_prices, [once, once], ledger_of([once, once], "NOK"), House(3000.0))
    assert any("stands in the ledger twice" in one.words for one in twice)


def test_an_hour_at_a_rate_no_hour_has_is_told() -> None:
    row = LedgerRow("welding", hours=30.0, rate=2500.0)
    assert any(
        "an hour at 2,500.00" in one.words
        for one in slips(prices(), [row], ledger_of([row], "$"), House(3000.0))
    )
