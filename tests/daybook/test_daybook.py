from __future__ import annotations

import sqlite3
import threading
from datetime import UTC, date, datetime, timedelta, timezone
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from polestead.base.problem import Wrong
from polestead.daybook.daybook import (
    Beside,
    Written,
    daybook_path,
    empty_daybook,
    open_daybook,
)
from polestead.daybook.entry import Entry, Moment
from polestead.daybook.form import FORM, MARK
from polestead.daybook.house import House
from tests.daybook.seen import MONDAY, NOW, at, entries

SEEN = Entry(at(19, 7, 10, -360), tilt_deg=62.0, charge=0.71, engine_hours=2.5, filled_l=9.0, snow="dusted", note="ice on the rod, left it")  # fmt: skip


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return daybook_path(tmp_path / "spruce.toml")


def test_what_is_written_is_read_back(path: Path) -> None:
    sparse = Entry(at(18), note="away")
    with open_daybook(path) as book:
        first, second = book.append(SEEN, NOW), book.append(sparse, NOW)
    assert (first, second) == (Written(1, SEEN, new=True), Written(2, sparse, new=True))
    with open_daybook(path) as book:
        assert [one.entry for one in book.entries()] == [sparse, SEEN]
        assert [one.number for one in book.entries(since=MONDAY)] == [1]
        assert [one.number for one in book.entries(until=date(2026, 1, 18))] == [2]
        assert book.entries()[0].kept_at == NOW


@settings(deadline=None, max_examples=25)
@given(st.lists(entries(), max_size=6))
def test_any_entry_comes_back_as_it_was(many: list[Entry]) -> None:
    with empty_daybook() as book:
        became = book.append_all(many, NOW)
        there = {one.number: one.entry for one in book.entries()}
    for said, result in zip(many, became, strict=True):
        kept = there[result.number]
        assert kept.same_as(said)
        if result.new:
            assert kept == said


def test_the_same_moment_with_the_same_values_is_told_and_not_written_twice(path: Path) -> None:
    with open_daybook(path) as book:
        book.append(SEEN, NOW)
        again = book.append(Entry(SEEN.moment, **{name: getattr(SEEN, name) for name in ("tilt_deg", "charge", "engine_hours", "filled_l", "snow", "note")}, whence="page"), NOW)  # fmt: skip
        assert (again.new, again.number) == (False, 1)
        assert len(book.entries()) == 1


def test_another_value_of_the_same_moment_is_kept_beside_and_the_newest_counts(path: Path) -> None:
    with open_daybook(path) as book:
        book.append(Entry(at(19, 7), tilt_deg=62.0), NOW)
        slip = book.append(Entry(at(19, 7), tilt_deg=26.0), NOW)
        assert slip.beside == (Beside("tilt_deg", 62.0, 26.0, 1, both=False),)
        assert len(book.entries()) == 2
        assert book.latest("tilt_deg", NOW).value == 26.0
        book.strike(2, "slip", NOW)
        assert book.latest("tilt_deg", NOW).value == 62.0


def test_what_was_seen_at_another_hour_is_no_contradiction(path: Path) -> None:
    with open_daybook(path) as book:
        book.append(Entry(at(19, 7), tilt_deg=62.0, charge=0.6, gust_m_s=20.0), NOW)
        assert book.append(Entry(at(19, 17), tilt_deg=5.0, charge=0.9, gust_m_s=9.0), NOW).beside == ()  # fmt: skip
        assert book.latest("charge", NOW).value == 0.9
        no_hour = book.append(Entry(at(19), tilt_deg=30.0), NOW)
        assert [one.number for one in no_hour.beside] == [1, 2]
        assert book.latest("tilt_deg", NOW).value == 30.0


def test_a_second_figure_of_the_whole_day_is_told_whatever_its_hour(path: Path) -> None:
    with open_daybook(path) as book:
        book.append(Entry(at(19, 7), engine_hours=2.0), NOW)
        second = book.append(Entry(at(19, 18), engine_hours=1.0), NOW)
        assert second.beside == (Beside("engine_hours", 2.0, 1.0, 1, both=False),)


def test_a_second_fill_of_as_much_is_asked_about_and_both_count(path: Path) -> None:
    with open_daybook(path) as book:
        book.append(Entry(at(19, 7), filled_l=11.0), NOW)
        assert book.append(Entry(at(19, 8), filled_l=11.0), NOW).beside == (Beside("filled_l", 11.0, 11.0, 1, both=True),)  # fmt: skip
        assert book.append(Entry(at(19, 9), filled_l=5.0), NOW).beside == ()


def test_a_meter_that_runs_backwards_is_told(path: Path) -> None:
    with open_daybook(path) as book:
        book.append(Entry(at(3), engine_meter_hours=100.0), NOW)
        assert book.append(Entry(at(9, 7), engine_meter_hours=90.0), NOW).beside == (Beside("engine_meter_hours", 100.0, 90.0, 1, both=True),)  # fmt: skip
        assert book.append(Entry(at(9, 8), engine_meter_hours=91.0), NOW).beside == ()
        assert book.append(Entry(at(2), engine_meter_hours=99.0), NOW).beside == ()


def test_a_struck_entry_stays_with_its_reason_counts_no_more_and_may_be_written_again(
    path: Path,
) -> None:
    with open_daybook(path) as book:
        book.append(SEEN, NOW)
        struck = book.strike(1, " wrong day ", NOW)
        assert (struck.struck, struck.struck_at, struck.entry) == ("wrong day", NOW, SEEN)
        assert book.entries() == ()
        assert book.entries(struck=True) == (struck,)
        assert book.latest("tilt_deg", NOW) is None
        assert book.append(SEEN, NOW).number == 2


@pytest.mark.parametrize(
    ("number", "why", "said"),
    [(7, "slip", "the number of an entry"), (1, "  ", "a reason"), (2, "again", "struck already")],
)
def test_what_cannot_be_struck_is_said(path: Path, number: int, why: str, said: str) -> None:
    with open_daybook(path) as book:
        book.append(SEEN, NOW)
        book.append(Entry(at(18), note="away"), NOW)
        book.strike(2, "slip", NOW)
        with pytest.raises(Wrong, match=said):
            book.strike(number, why, NOW)
        assert [one.struck for one in book.entries(struck=True)] == ["slip", None]


@pytest.mark.parametrize(
    ("entry", "key"),
    [
        (Entry(at(19), tilt_deg=91.0), "tilt"),
        (Entry(at(19), charge=71.0), "charge"),
        (Entry(at(19), charge=float("nan")), "charge"),
        (Entry(at(19), engine_hours=25.0), "engine hours"),
        (Entry(at(19), filled_l=-1.0), "fuel filled"),
        (Entry(at(19), gust_m_s=float("inf")), "gust"),
        (Entry(at(19), note="x" * 2001), "note"),
        (Entry(at(19), note="a\0b"), "note"),
        (Entry(at(19), note="\ud800"), "note"),
        (Entry(at(19), note="  "), "entry"),
        (Entry(at(19), snow="bare", snow_share=0.4), "snow"),
        (Entry(Moment(date(1026, 1, 19)), charge=0.5), "day"),
        (Entry(at(21), charge=0.5), "day"),
        (Entry(at(20, 9), charge=0.5), "time"),
        (Entry(at(19, 9, 0, 15 * 60), charge=0.5), "offset"),
    ],
)
def test_absurd_entries_are_refused_and_nothing_is_written(path: Path, entry: Entry, key: str) -> None:  # fmt: skip
    with open_daybook(path) as book:
        with pytest.raises(Wrong) as caught:
            book.append_all([SEEN, entry], NOW)
        assert [problem.key for problem in caught.value.problems] == [key]
        assert book.entries() == ()


def test_all_that_is_wrong_with_an_entry_is_told_at_once(path: Path) -> None:
    with open_daybook(path) as book, pytest.raises(Wrong) as caught:
        book.append(Entry(Moment(date(2027, 1, 1)), tilt_deg=120.0, charge=71.0, engine_hours=30.0), NOW)  # fmt: skip
    assert len(caught.value.problems) == 4


def test_a_slip_of_the_pen_is_seen_by_what_is_known_of_the_house(path: Path) -> None:
    house = House(least_tilt_deg=5.0, steepest_tilt_deg=70.0, nominal_v=24.0, new_w=3000.0, all_w=4000.0, tank_l=400.0)  # fmt: skip
    slips = {"tilt_deg": 80.0, "rest_v": 51.2, "new_wh": 62000.0, "all_wh": 90000.0, "filled_l": 500.0, "tank_l": 800.0}  # fmt: skip
    with open_daybook(path) as book:
        with pytest.raises(Wrong) as caught:
            book.append(Entry(at(19), **slips), NOW, house)
        assert len(caught.value.problems) == len(slips)
        book.append(Entry(at(19), **slips), NOW)  # nothing known of the house: nothing to say


def test_the_last_of_each_kind_is_handed_out_with_its_age(path: Path) -> None:
    with open_daybook(path) as book:
        book.append(Entry(at(17, 7, 10), charge=0.5, snow_share=0.7), NOW)
        book.append(Entry(at(19), tilt_deg=62.0), NOW)
        charge, tilt, snow = (book.latest(key, NOW) for key in ("charge", "tilt_deg", "snow"))
        assert (charge.value, charge.age_h) == (0.5, 72.0)
        assert (tilt.value, tilt.age_h) == (62.0, 31.0 + 10.0 / 60.0)  # the most: from midnight
        assert (snow.value, snow.number) == ("covered", 1)
        assert book.latest("rest_v", NOW) is None


def test_the_age_counts_both_clocks_where_both_are_known() -> None:
    abroad = datetime(2026, 1, 20, 7, 10, tzinfo=UTC)
    assert at(19, 7, 10, -360).age_h(abroad) == 18.0
    assert at(19, 7, 10).age_h(abroad) == 24.0  # without its offset the wall times alone
    assert at(20, 8, 0).age_h(NOW) == 0.0


def test_of_an_hour_that_came_twice_the_second_is_the_later_where_its_offset_is_known() -> None:
    morning = datetime(2026, 11, 1, 8, 0, tzinfo=timezone(timedelta(hours=-6)))
    first = Moment(date(2026, 11, 1), at(1, 1, 30).at, -300)
    second = Moment(date(2026, 11, 1), at(1, 1, 20).at, -360)  # twenty past, an hour later
    with empty_daybook() as book:
        book.append(Entry(second, charge=0.6), morning)
        book.append(Entry(first, charge=0.7), morning)
        assert book.latest("charge", morning).value == 0.6


def test_a_journey_west_may_write_of_a_day_that_is_to_come_there() -> None:
    west = datetime(2026, 1, 19, 23, 0, tzinfo=timezone(timedelta(hours=-10)))
    with empty_daybook() as book:
        book.append(Entry(at(20, 7, 10, -60), charge=0.5), west)  # 8:10 UTC, now 9:00 UTC
        with pytest.raises(Wrong, match="up to now"):
            book.append(Entry(at(20, 12, 10, -60), charge=0.5), west)


def test_looking_dry_writes_nothing(path: Path) -> None:
    with open_daybook(path) as book:
        book.append(SEEN, NOW)
        became = book.append_all([SEEN, Entry(at(18), note="away")], NOW, dry=True)
        assert [one.new for one in became] == [False, True]
        assert len(book.entries()) == 1


def test_several_programs_may_begin_the_same_daybook(tmp_path: Path) -> None:
    errors: list[BaseException] = []

    def begin(path: Path, together: threading.Barrier) -> None:
        try:
            together.wait()
            with open_daybook(path) as book:
                book.entries()
        except BaseException as error:
            errors.append(error)

    for round_ in range(40):  # once is not enough to meet it
        together, path = threading.Barrier(6), tmp_path / f"{round_}.daybook"
        threads = [threading.Thread(target=begin, args=(path, together)) for _ in range(6)]
        for thread in threads:
            thread.start()
        for thread in threads:
            thread.join()
    assert errors == []


def test_the_file_says_whose_it_is_and_keeps_a_write_ahead_log(path: Path) -> None:
    with open_daybook(path) as book:
        book.append(SEEN, NOW)
        assert book._connection.execute("PRAGMA synchronous").fetchone() == (2,)  # full
    connection = sqlite3.connect(path)
    assert connection.execute("PRAGMA application_id").fetchone() == (MARK,)
    assert connection.execute("PRAGMA user_version").fetchone() == (FORM,)
    assert connection.execute("PRAGMA journal_mode").fetchone() == ("wal",)
    connection.close()


def test_a_file_of_another_kind_is_not_touched(path: Path) -> None:
    path.write_text(
        "format = 1\nname = 'no daybook at all, but long enough to look like one'\n" * 40
    )
    before = path.read_bytes()
    with pytest.raises(Wrong, match="another kind of file"):
        open_daybook(path)
    assert path.read_bytes() == before


def test_another_programs_tables_are_not_written_into(path: Path) -> None:
    connection = sqlite3.connect(path)
    connection.execute("CREATE TABLE recipes (name TEXT)")
    connection.commit()
    connection.close()
    before = path.read_bytes()
    with pytest.raises(Wrong, match="another kind of file"):
        open_daybook(path)
    assert path.read_bytes() == before


@pytest.mark.parametrize(
    "change",
    ["DROP TABLE strike", "CREATE TABLE more (a TEXT)", "ALTER TABLE entry ADD COLUMN mood TEXT"],
)
def test_a_layout_that_was_changed_is_not_written_into(path: Path, change: str) -> None:
    with open_daybook(path):
        pass
    connection = sqlite3.connect(path)
    connection.execute(change)
    connection.close()
    with pytest.raises(Wrong, match="laid out otherwise"):
        open_daybook(path)


def test_a_newer_daybook_is_not_guessed_at(path: Path) -> None:
    with open_daybook(path):
        pass
    connection = sqlite3.connect(path)
    connection.execute(f"PRAGMA user_version = {FORM + 1}")
    connection.close()
    with pytest.raises(Wrong, match="newer version"):
        open_daybook(path)


def test_a_folder_that_is_not_there_is_told(tmp_path: Path) -> None:
    with pytest.raises(Wrong, match="a folder that exists"):
        open_daybook(tmp_path / "gone" / "spruce.daybook")
    with pytest.raises(Wrong, match="can be opened"):
        open_daybook(tmp_path)
