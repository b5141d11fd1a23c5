from __future__ import annotations

from datetime import date, datetime, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from polestead.daybook.daybook import Kept
from polestead.daybook.days import Day, days, gaps
from polestead.daybook.entry import Entry, Moment
from tests.daybook.seen import NOW, at, entries


def rolled(*seen: Entry, since: int = 1, until: int = 20) -> dict[int, Day]:
    kept = [Kept(n, entry, NOW) for n, entry in enumerate(seen, start=1)]
    made = days(kept, date(2026, 1, since), date(2026, 1, until))
    assert [day.day.day for day in made] == list(range(since, until + 1))
    return {day.day.day: day for day in made}


def test_states_of_a_day_by_their_hour() -> None:
    day = rolled(
        Entry(at(5, 17), tilt_deg=5.0, charge=0.9, snow="bare"),
        Entry(at(5, 7), tilt_deg=62.0, charge=0.6, snow="covered", rest_v=24.4),
        Entry(at(5, 11, 59), charge=0.7, rest_v=25.0),
    )[5]
    assert (day.tilt_deg, day.moves) == (5.0, 1)
    assert (day.charge_morning, day.charge_evening, day.rest_v) == (0.6, 0.9, 24.4)
    assert day.snow == "covered"
    assert day.entries == 3


def test_without_an_hour_the_last_written_counts() -> None:
    day = rolled(Entry(at(5, 7), tilt_deg=62.0), Entry(at(5), tilt_deg=40.0, charge=0.5))[5]
    assert (day.tilt_deg, day.charge_morning, day.charge_evening) == (40.0, 0.5, None)


def test_the_tilt_is_held_till_the_next_and_moves_are_counted() -> None:
    seen = rolled(Entry(at(3), tilt_deg=60.0), Entry(at(6, 7), tilt_deg=60.4), Entry(at(6, 16), tilt_deg=5.0), since=5)  # fmt: skip
    assert [seen[n].tilt_held_deg for n in (5, 6, 7)] == [60.0, 5.0, 5.0]
    assert [seen[n].tilt_deg for n in (5, 6, 7)] == [None, 5.0, None]
    assert [seen[n].moves for n in (5, 6, 7)] == [0, 1, 0]


def test_figures_of_the_day_fills_and_gusts() -> None:
    day = rolled(
        Entry(at(5, 20), engine_hours=3.0, new_wh=6000.0, gust_m_s=9.0, filled_l=10.0),
        Entry(at(5, 7), engine_hours=2.5, gust_m_s=16.0, filled_l=10.0),
        Entry(at(5, 7), gust_m_s=14.0, filled_l=4.0),  # the same moment again: a slip mended
        Entry(at(5), tank_share=0.4),
    )[5]
    assert (day.engine_hours, day.engine_over_days, day.new_wh) == (2.5, 1, 6000.0)
    assert (day.gust_m_s, day.filled_l, day.tank_share, day.tank_l) == (14.0, 14.0, 0.4, None)


def test_a_struck_entry_does_not_count() -> None:
    kept = [Kept(1, Entry(at(5), charge=0.5), NOW), Kept(2, Entry(at(5), charge=0.9), NOW, "slip", NOW)]  # fmt: skip
    (day,) = days(kept, date(2026, 1, 5), date(2026, 1, 5))
    assert (day.charge_morning, day.entries) == (0.5, 1)


def test_the_meter_gives_the_hours_between_two_standings() -> None:
    seen = rolled(
        Entry(at(5), engine_meter_hours=100.0),
        Entry(at(6), engine_meter_hours=102.5),
        Entry(at(9), engine_meter_hours=108.5),  # three days, six hours
        Entry(at(10), engine_meter_hours=3.0),  # another meter
        Entry(at(11), engine_meter_hours=4.0),
    )
    hours = [(seen[n].engine_hours, seen[n].engine_over_days) for n in range(5, 12)]
    assert hours == [(None, 0), (2.5, 1), (2.0, 3), (2.0, 3), (2.0, 3), (None, 0), (1.0, 1)]


def test_read_in_the_morning_the_meter_tells_of_the_day_before_for_the_most_part() -> None:
    # 6:00 to 6:00 is eighteen hours of one day and six of the next: 4 h are 3 h and 1 h
    seen = rolled(Entry(at(5, 6), engine_meter_hours=100.0), Entry(at(6, 6), engine_meter_hours=104.0))  # fmt: skip
    assert (seen[5].engine_hours, seen[6].engine_hours) == (3.0, 1.0)


def test_hours_written_for_the_day_count_before_the_meter() -> None:
    seen = rolled(Entry(at(5), engine_meter_hours=100.0), Entry(at(6), engine_meter_hours=104.0, engine_hours=3.5))  # fmt: skip
    assert (seen[6].engine_hours, seen[6].engine_over_days) == (3.5, 1)


@settings(deadline=None)
@given(
    st.lists(
        st.tuples(st.datetimes(datetime(2026, 1, 1), datetime(2026, 1, 15)), st.floats(0.0, 30.0)),
        min_size=2,
        max_size=8,
        unique_by=lambda one: one[0].replace(second=0, microsecond=0),
    )
)
def test_what_the_meter_ran_is_spread_over_the_days_and_none_of_it_is_lost(ran: list[tuple[datetime, float]]) -> None:  # fmt: skip
    standing, kept = 0.0, []
    for n, (when, hours) in enumerate(sorted(ran)):
        standing += hours
        moment = Moment(when.date(), when.time().replace(second=0, microsecond=0))
        kept.append(Kept(n, Entry(moment, engine_meter_hours=standing), NOW))
    made = days(kept, date(2026, 1, 1), date(2026, 1, 16))
    assert sum(day.engine_hours or 0.0 for day in made) == pytest.approx(standing - sorted(ran)[0][1])  # fmt: skip


@settings(deadline=None, max_examples=30)
@given(st.lists(entries(), max_size=8))
def test_every_day_is_there_and_holds_only_what_was_seen(many: list[Entry]) -> None:
    kept = [Kept(n, entry, NOW) for n, entry in enumerate(many, start=1)]
    first = min((entry.moment.day for entry in many), default=date(2026, 1, 1))
    made = days(kept, first, first + timedelta(days=30))
    assert len(made) == 31
    for day in made:
        same = [entry for entry in many if entry.moment.day == day.day]
        assert day.entries == len(same)
        for name in ("tilt_deg", "new_wh", "all_wh", "gust_m_s", "tank_l", "rest_v"):
            assert getattr(day, name) in {None, *(getattr(entry, name) for entry in same)}
        assert (day.gust_m_s is None) == all(entry.gust_m_s is None for entry in same)


def test_days_without_an_entry_are_told_from_the_first_that_has_one() -> None:
    seen = rolled(Entry(at(3), charge=0.5), Entry(at(4), charge=0.5), Entry(at(7), charge=0.5), until=9)  # fmt: skip
    told = gaps(list(seen.values()))
    assert [(gap.first.day, gap.last.day, gap.days) for gap in told] == [(5, 6, 2), (8, 9, 2)]
    assert gaps(list(rolled().values())) == ()
