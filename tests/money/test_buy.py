from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from polestead.homestead.demos import demo_path
from polestead.homestead.ledger import LedgerRow, rows_in
from polestead.homestead.read import read_homestead
from polestead.money.buy import build_or_buy
from polestead.money.ledger import ledger_of
from tests.money.given import prices

ROWS = (
    LedgerRow("modules", planned=1000.0),
    LedgerRow("pole", planned=700.0),
    LedgerRow("rails and hinge", planned=500.0),
    LedgerRow("actuator", planned=400.0),
    LedgerRow("concrete truck", planned=600.0),
    LedgerRow("fitting it together", "pole and frame", hours=40.0, by="us"),
    LedgerRow("trench by hand", "wires", hours=20.0, by="us"),
)


def compared(rows=ROWS, **more):
    return build_or_buy(prices({}, bought_mount=3000.0, **more), ledger_of(rows, "$"))


def test_without_a_quote_there_is_nothing_to_compare() -> None:
    assert build_or_buy(prices(), ledger_of(ROWS, "$")) is None


def test_the_quote_replaces_frame_and_drive_and_perhaps_the_pole() -> None:
    found = compared()
    # own lines 3200; rails and actuator (900) fall away, the pole (700) may: 3000 + 3200 - 900, or 700 less
    assert found.build == 3200.0
    assert (found.buy_low, found.buy_high) == (4600.0, 5300.0)
    assert dict(found.falls_away) == {"rails and hinge": 500.0, "actuator": 400.0}
    assert dict(found.perhaps) == {"pole": 700.0}
    assert any("Whether the quote replaces pole" in one for one in found.sentences)


def test_only_hours_on_what_falls_away_are_spared_and_earn_the_difference() -> None:
    found = compared()
    assert found.hours_spared == 40.0
    assert (found.hour_low, found.hour_high) == (1400.0 / 40.0, 2100.0 / 40.0)
    assert any(
        "40 h on what would fall away earn 35.00 to 52.50 $ an hour" in one
        for one in found.sentences
    )
    assert found.working.result.value == found.hour_high


def test_the_owner_may_name_what_falls_away() -> None:
    found = compared(bought_replaces=("pole", "rails_and_hinge"), bought_lines={"freight": 450.0, "utility grant": -100.0})  # fmt: skip
    assert found.buy_low == found.buy_high == 3000.0 + 350.0 + 3200.0 - 1200.0
    assert found.perhaps == ()
    assert not found.guessed


def test_without_hours_they_are_asked_for() -> None:
    found = compared(tuple(row for row in ROWS if row.hours is None))
    assert found.hour_low is None
    assert any("No hours of yours" in one for one in found.sentences)


def test_what_nobody_names_is_told_and_what_is_named_is_not() -> None:
    found = compared()
    assert any("hire" in one for one in found.forgotten_build)
    assert any("galvanizing" in one for one in found.forgotten_build)
    assert any("freight" in one for one in found.forgotten_buy)
    whole = (*ROWS, LedgerRow("crane hire", planned=1.0), LedgerRow("galvanizing", planned=1.0), LedgerRow("second trip", planned=1.0))  # fmt: skip
    more = compared(whole, bought_lines={"freight": 10.0, "crane": 10.0})
    assert more.forgotten_build == more.forgotten_buy == ()


def test_where_buying_is_cheaper_own_hours_earn_nothing() -> None:
    dear = (*ROWS, LedgerRow("frame steel work by a shop", "drive and lock", planned=9000.0))
    found = compared(dear)
    assert found.buy_high < found.build
    assert any("they come on top" in one for one in found.sentences)
    assert any("Building costs" in one for one in found.sentences)


def test_grants_are_taken_to_come_either_way_and_said_so() -> None:
    found = compared((*ROWS, LedgerRow("grant", planned=-500.0)))
    assert found.build == 2700.0
    assert found.buy_high - found.build == 2100.0
    assert any("Grants of 500" in one for one in found.sentences)


def test_the_demo_with_a_bought_mount_by_hand() -> None:
    file = read_homestead(demo_path("cinder-mesa"))
    prices_ = file.homestead.prices
    # 2.525 yd3 up to the next quarter is 2.75: 2.10253 m3 at 240 is 504.61; own lines 930 + 1120 + 480 + 460 + 610 + 690 + 280 + 240 - 240
    ledger = ledger_of(rows_in(prices_, file.rows, file.ledger), "USD", 2.75 * 0.764554858, prices_.concrete_per_m3)  # fmt: skip
    found = build_or_buy(prices_, ledger)
    assert found.build == pytest.approx(4570.0 + 504.61, abs=0.01)
    # 4900 + (540 + 310 - 400) + own lines - (480 + 460 + 240) that fall away + 240 own rebate that the bought one's stands for
    bought = 4900.0 + 450.0 + 5074.61 - 1180.0 + 240.0
    assert found.buy_low == found.buy_high == pytest.approx(bought, abs=0.01)
    assert (found.hours_spared, found.hours_to_set) == (34.0, 12.0)  # 46 at the bench, less 12
    assert found.hour_high == pytest.approx((bought - 5074.61) / 34.0, abs=0.001)
    said = " ".join(found.sentences)
    assert "Buying costs 4,410 USD more" in said
    assert "46 h on what would fall away, less 12 h to set the bought one" in said
    assert "each way has its own" in said


def test_a_mount_that_takes_as_long_to_set_leaves_hours_out() -> None:
    found = compared(bought_hours=60.0)
    assert found.hour_high is None
    assert any("hours do not decide" in one for one in found.sentences)


@given(quote=st.floats(0.0, 1e5), more=st.floats(0.0, 1e5))
def test_a_dearer_quote_never_makes_buying_cheaper(quote, more) -> None:
    ledger = ledger_of(ROWS, "$")
    one = build_or_buy(prices({}, bought_mount=quote), ledger)
    other = build_or_buy(prices({}, bought_mount=quote + more), ledger)
    assert one.buy_low <= one.buy_high
    assert other.buy_low >= one.buy_low
    assert other.hour_high - one.hour_high == pytest.approx(more / 40.0, abs=1e-6)
