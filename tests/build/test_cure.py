"""The cure clock by hand sums, and its laws."""

from __future__ import annotations

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from polestead.build.cure import (
    SHARES_AT_C,
    SHARES_AT_F,
    cured_by,
    days_for,
    share_words,
    strength_share,
)

PSI = 6894.757
air = st.floats(-20.0, 40.0)
record = st.lists(st.one_of(st.none(), air), max_size=60)


def test_twenty_eight_days_at_twenty_are_the_whole() -> None:
    """28 x 20 = 560 C d; 28 / (4 + 6/7 x 28) = 28 / 28 = 1; a week: 7 / (4 + 6) = .7."""
    clock = cured_by([20.0] * 28, 3000 * PSI, poured=date(2026, 6, 1))
    assert clock.maturity_c_days == pytest.approx(560.0)
    assert clock.maturity_share == pytest.approx(1.0)
    assert clock.strength_share == pytest.approx(1.0)
    assert clock.mark("bare steel").on == date(2026, 6, 8)
    assert clock.mark("modules").on == date(2026, 6, 29)
    assert (
        clock.mark("strip").reached_day == 1
    )  # 500 psi of 3000: 4 / 6 / (1 - 1 / 7) = .78 d, a day at least


def test_a_cool_record_by_hand() -> None:
    """12, 8, unknown, 5, -1, 30 C: 12 + 8 + 0 + 0 + 0 + 20 = 40 C d = 2 days at 20 C; 2 / (4 + 12/7) = .35."""
    clock = cured_by([12.0, 8.0, None, 5.0, -1.0, 30.0], 3000 * PSI)
    assert clock.maturity_c_days == pytest.approx(40.0)
    assert clock.strength_share == pytest.approx(0.35)
    assert (clock.unknown_days, clock.cold_days) == (1, 2)
    # bare steel wants 7 days at 20 C, 140 C d: 100 are left, 5 more days at 20 C
    assert clock.mark("bare steel").more_days == 5
    assert clock.mark("bare steel").reached_day is None
    assert [day.counts for day in clock.days] == [True, True, False, False, False, True]


def test_the_other_datum_by_hand() -> None:
    """At 10 C with T0 = -10 C a day is 20 of 30: 42 of them make 28 at 20 C; with 0 C it takes 56."""
    assert cured_by([10.0] * 60, 3000 * PSI, datum_c=-10.0).mark("modules").reached_day == 42
    assert cured_by([10.0] * 60, 3000 * PSI).mark("modules").reached_day == 56


def test_a_stronger_mix_is_there_sooner_and_a_weaker_one_never() -> None:
    """3000 of 4000 psi: .75; 4 x .75 / (1 - 6/7 x .75) = 3 / .357 = 8.4 days.  3000 of 2500 is 1.2, past 7/6."""
    strong = cured_by([20.0] * 30, 4000 * PSI, 3000 * PSI)
    assert strong.mark("modules").least_days == pytest.approx(8.4)
    assert strong.mark("modules").reached_day == 9
    weak = cured_by([20.0] * 500, 2500 * PSI, 3000 * PSI)
    assert weak.mark("modules").least_days is None
    assert weak.mark("modules").more_days is None
    assert any("never gets" in note for note in weak.notes)


def test_frost_while_young_is_told_and_later_frost_is_not() -> None:
    assert cured_by([10.0, -2.0], 3000 * PSI).froze_young  # .5 day at 20 C: .113 x 3000 = 339 psi
    assert not cured_by([20.0, 20.0, -2.0], 3000 * PSI).froze_young


@given(record, st.integers(0, 59), st.floats(0.0, 20.0))
def test_warmer_is_never_later(days: list[float | None], nth: int, more: float) -> None:
    warmer = [t if t is None or i != nth else t + more for i, t in enumerate(days)]
    for before, after in zip(cured_by(days, 2e7).marks, cured_by(warmer, 2e7).marks, strict=True):
        assert after.more_days <= before.more_days
        if before.reached_day is not None:
            assert after.reached_day is not None
            assert after.reached_day <= before.reached_day


@given(record)
def test_no_record_is_sooner_than_twenty_degrees(days: list[float | None]) -> None:
    for mark in cured_by(days, 2e7).marks:
        assert mark.reached_day is None or mark.reached_day >= mark.least_days - 1e-9


@given(st.floats(0.01, 1.15))
def test_days_and_share_are_each_others_inverse(share: float) -> None:
    assert strength_share(days_for(share)) == pytest.approx(share)


def test_nonsense_is_refused() -> None:
    with pytest.raises(ValueError, match="strength"):
        cured_by([20.0], 0.0)


def test_a_pencil_never_counts_a_cold_day_for_more_than_the_clock_does() -> None:
    """Days at 45 F (7.2 C): each is worth .36; the pencil writes 1/4, so seven marks are never seven days' strength."""
    for air in (5.0, 5.9, 6.0, 7.2, 9.9, 10.0, 12.0, 14.9, 15.0, 19.0, 25.0):
        clock = cured_by([air], 20.7e6).maturity_share * 28.0
        told = next((share for least, share in ((20.0, 1.0), (15.0, 0.75), (10.0, 0.5), (6.0, 0.25)) if air >= least), 0.0)  # fmt: skip
        assert told <= clock + 1e-9
    for told_f, celsius in zip(SHARES_AT_F, SHARES_AT_C, strict=True):
        assert 0.0 <= told_f - (1.8 * celsius + 32.0) < 5.0  # said round, never colder
    assert share_words() == "20 C (68 F) and over 1; from 15 C (60 F) 3/4; from 10 C (50 F) 1/2; from 6 C (45 F) 1/4; colder 0"  # fmt: skip
