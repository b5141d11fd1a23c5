"""Out as CSV and back: the same daybook."""

from __future__ import annotations

import csv
import io
from datetime import date, datetime, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from polestead.base.problem import Wrong
from polestead.daybook.daybook import Kept, empty_daybook
from polestead.daybook.entry import Entry, Moment
from polestead.daybook.keeping import HEADS, exported, is_own, own_rows
from tests.daybook.seen import NOW, TEXTS, at, entries

LATER = NOW + timedelta(days=1)
REASONS = TEXTS.filter(lambda text: bool(text.strip()))


def daybook_of(many: list[tuple[Entry, str | None]]) -> tuple[Kept, ...]:
    with empty_daybook() as book:
        for nth, (entry, why) in enumerate(many):
            now = NOW + timedelta(minutes=nth)
            written = book.append(entry, now)
            if why is not None and written.new:
                book.strike(written.number, why, now)
        return book.entries(struck=True)


@settings(deadline=None, max_examples=40)
@given(st.lists(st.tuples(entries(), st.none() | REASONS), max_size=5))
def test_export_then_import_gives_an_equal_daybook(many: list[tuple[Entry, str | None]]) -> None:
    kept = daybook_of(many)
    text = exported(kept)
    assert is_own(text)
    back = own_rows(text, LATER)
    assert back == kept
    with empty_daybook() as fresh:
        fresh.restore(back)
        assert fresh.entries(struck=True) == kept
        again = fresh.restore(back)
        assert not any(one.new for one in again)
        assert fresh.entries(struck=True) == kept


def test_notes_with_new_lines_quotes_and_any_script_come_back() -> None:
    note = 'first "line", then\nsecond\r\nthird\rfourth;\t=1+1 氷 ❄ \u2028 end'
    kept = daybook_of([(Entry(at(19), note=note), 'he said "no",\nthen yes')])
    assert own_rows(exported(kept), LATER) == kept


def test_into_another_daybook_it_brings_only_what_is_not_there() -> None:
    kept = daybook_of([(Entry(at(19), note="both"), None), (Entry(at(18), note="new"), None)])
    with empty_daybook() as book:
        book.append(Entry(at(19), note="both"), NOW)
        became = book.restore(own_rows(exported(kept), LATER))
        assert [one.new for one in became] == [False, True]
        assert len(book.entries()) == 2
        dry = book.restore(daybook_of([(Entry(at(17), note="dry"), None)]), dry=True)
        assert dry[0].new
        assert len(book.entries()) == 2


def test_every_field_has_its_own_column_with_its_unit() -> None:
    text = exported(daybook_of([(Entry(at(19, 7, 10, -360), tilt_deg=62.0, filled_l=11.356), None)])).decode()  # fmt: skip
    (row,) = csv.DictReader(io.StringIO(text))
    assert list(row) == list(HEADS)
    assert (row["day"], row["time"], row["offset_min"], row["tilt_deg"], row["filled_l"]) == ("2026-01-19", "07:10", "-360", "62.0", "11.356")  # fmt: skip


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ("2026-01-19,", "19.1.2026,", "line 2"),
        ("62.0", "620", "tilt"),
        ("62.0", "steep", "line 2"),
        (",note here,", ',"note here,', "no CSV"),
        (",note here,", ",", "line 2"),
    ],
)
def test_a_line_that_was_changed_is_refused_with_its_number(old: str, new: str, said: str) -> None:
    text = exported(daybook_of([(Entry(at(19), tilt_deg=62.0, note="note here"), None)])).decode()
    assert old in text
    with pytest.raises(Wrong, match=said):
        own_rows(text.replace(old, new, 1).encode(), LATER)


def test_a_file_saved_with_a_mark_in_front_comes_back_and_one_of_another_encoding_is_told() -> None:
    kept = daybook_of([(Entry(at(19), note="früh"), None)])
    assert is_own(b"\xef\xbb\xbf" + exported(kept))
    assert own_rows(b"\xef\xbb\xbf" + exported(kept), LATER) == kept
    with pytest.raises(Wrong, match="not UTF-8"):
        own_rows(exported(kept).decode().encode("cp1252"), LATER)
    assert not is_own(b"day,soc\n")


def test_a_table_written_before_the_battery_had_its_column_is_still_read() -> None:
    kept = [Kept(1, Entry(Moment(date(2026, 11, 24)), charge=0.5, bank_c=-3.0), datetime(2026, 11, 24, 7, 10))]  # fmt: skip
    now = datetime(2026, 11, 25)
    text = exported(kept)
    assert own_rows(text, now)[0].entry.bank_c == -3.0
    at = text.decode().split("\r\n")[0].split(",").index("bank_c")
    older = "\r\n".join(
        ",".join(cell for nth, cell in enumerate(line.split(",")) if nth != at)
        for line in text.decode().split("\r\n")
        if line
    )
    assert is_own(older.encode())
    (entry,) = (one.entry for one in own_rows(older.encode(), now))
    assert (entry.charge, entry.bank_c) == (0.5, None)
