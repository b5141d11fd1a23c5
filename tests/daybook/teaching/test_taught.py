from __future__ import annotations

from datetime import date, timedelta

import numpy as np
import pytest

from polestead.base.problem import Wrong
from polestead.daybook.days import Day
from polestead.daybook.teaching.from_days import series_of
from polestead.daybook.teaching.series import expected_of, seen_of
from polestead.daybook.teaching.taught import LEAST_DAYS, House, taught_of
from polestead.sheets.teaching import taught_text
from tests.daybook.teaching.logs import FAULTS, FIRST, START, log_of


def _taught(name: str | None, seed: int, days: int, sun: str = "eye", house: House | None = None):
    loss = FAULTS[name][0] if name else None
    made = log_of(seed, days, sun, loss)
    seen = seen_of(made.day, made.made_wh, charge=made.charge)
    expected = expected_of(made.expected_wh, made.log_sd, low_sun_share=made.low_sun_share)
    return taught_of(seen, expected, house, foresight=("Jan 2027: nothing.",))


@pytest.fixture(scope="module")
def lost():
    return _taught("string of 2", 61, FIRST + 60, house=House(strings=2))


def test_an_empty_log_says_what_to_write() -> None:
    nothing = np.zeros(0)
    taught = taught_of(seen_of([], nothing), expected_of(nothing, nothing))
    assert taught.days == 0
    assert taught.first is None
    assert "empty" in taught.missing[0]
    assert "nothing yet" in taught_text(taught, "feet")


def test_a_short_log_says_how_many_more_days() -> None:
    made = log_of(62, 12, missing=0.0)
    taught = taught_of(seen_of(made.day, made.made_wh), expected_of(made.expected_wh, made.log_sd))
    assert taught.findings == ()
    assert taught.months == ()
    assert f"{LEAST_DAYS - 12} more days" in taught.missing[0]


def test_a_lost_string_is_told_with_since_sureness_act_and_budget(lost) -> None:
    finding = lost.findings[0]
    assert finding.cause == "a string that no longer gives"
    assert finding.sureness in ("sure", "likely")
    assert abs((finding.since - (date(2026, 9, 1) + timedelta(days=FIRST))).days) <= 7
    assert finding.left_low <= 0.5 + 0.08
    assert finding.left_high >= 0.5 - 0.08
    assert "clamp meter" in finding.act
    assert "never unplug under load" in finding.act
    assert "10 years" in finding.false_alarms
    assert all(step.source.work for step in finding.working.steps)
    assert finding.until is None


def test_days_of_a_loss_are_kept_out_of_the_month_factors(lost) -> None:
    october = next(one for one in lost.months if one.month == 10)
    assert 0.75 < october.factor < 1.3  # with the half-dead October in it, it would lie near .7
    assert october.years == 2


def test_the_last_days_are_laid_beside_the_expected(lost) -> None:
    recent = lost.recent
    assert recent.seen_wh < recent.low_wh < recent.expected_wh < recent.high_wh
    assert not recent.within


def test_the_text_fits_its_columns_and_says_what_is_not_sure(lost) -> None:
    for why in (False, True):
        text = taught_text(lost, "feet", why)
        assert max(len(line) for line in text.splitlines()) <= 78
        assert "To settle it" in text
        assert "at least so much" in text
        assert "100 %" not in text
        assert "!" not in text
    assert "[Shiryaev" not in taught_text(lost, "feet")
    assert "(from memory)" in taught_text(lost, "feet", why=True)


def test_nothing_wrong_says_so() -> None:
    taught = _taught(None, 703, 300)
    assert taught.findings == ()
    assert "Nothing that this log can tell from luck" in taught_text(taught, "metric")
    assert any("is told on average after" in note for note in taught.notes)


def test_a_log_of_full_days_says_nothing_of_the_array() -> None:
    days = START + np.arange(60)
    taught = taught_of(
        seen_of(days, np.full(60, 500.0), charge=np.ones(60)),
        expected_of(np.full(60, 1000.0), np.full(60, 0.2)),
    )
    assert taught.findings == ()
    assert taught.recent is None
    assert any("full on every day" in note for note in taught.notes)


def test_days_of_the_daybook_become_series() -> None:
    first = date(2026, 1, 1)
    days = (
        Day(first, 2, new_wh=3000.0, all_wh=4000.0, charge_morning=0.6, charge_evening=0.9),
        Day(first + timedelta(days=1)),
        Day(first + timedelta(days=2), 1, snow="covered", done=("wash", "grease")),
        Day(first + timedelta(days=3), 1, snow="dusted", engine_hours=2.0, filled_l=40.0),
    )
    seen = series_of(days, washed=("wash",), rained=(first + timedelta(days=3),))
    assert seen.days == 3
    assert seen.made_wh[0] == 3000.0
    assert np.isnan(seen.made_wh[1])
    assert seen.charge[0] == 0.9
    assert seen.dawn_charge[0] == 0.6
    assert seen.snow.tolist() == [False, True, False]
    assert seen.cleaned.tolist() == [False, True, True]
    assert seen.fuel_l.tolist() == [0.0, 0.0, 40.0]
    assert series_of(days, array="all").made_wh[0] == 4000.0
    with pytest.raises(Wrong, match="one line a day"):
        series_of((days[0], days[0]))
