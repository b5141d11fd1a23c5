"""An older daybook brought forward: a copy before, all or nothing, and never over another copy."""

from __future__ import annotations

import shutil
import signal
import sqlite3
import subprocess
import sys
import threading
from contextlib import closing
from datetime import date, datetime, time
from pathlib import Path

import pytest

from polestead.base.problem import Wrong
from polestead.daybook import form
from polestead.daybook.daybook import Daybook, open_daybook
from polestead.daybook.entry import Entry, Moment
from polestead.daybook.form import DAY_INDEX, ENTRY_2_TABLE, LINE_TABLE, MARK, STRIKE_TABLE

TODAY = date(2026, 1, 20)
# day, tilt, charge, engine hours, fuel, note, written
LINES = [
    ("2026-01-18", 62.0, 0.71, 2.5, 9.0, "ice on the rod", "2026-01-18T07:10:00"),
    ("2026-01-17", None, None, None, None, "away", "2026-01-19T08:00:00"),
    ("2026-01-16", 5.0, 0.0, 0.0, None, "", "2026-01-16T07:00:00"),
]


@pytest.fixture
def path(tmp_path: Path) -> Path:
    """A daybook as the first form left it."""
    file = tmp_path / "spruce.daybook"
    with closing(sqlite3.connect(file, isolation_level=None)) as connection:
        connection.execute("PRAGMA journal_mode = WAL")
        connection.execute(LINE_TABLE)
        connection.execute(f"PRAGMA application_id = {MARK}")
        connection.execute("PRAGMA user_version = 1")
        connection.executemany("INSERT INTO line VALUES (?, ?, ?, ?, ?, ?, ?)", LINES)
    return file


def lines_in(path: Path) -> list[tuple[object, ...]]:
    with closing(sqlite3.connect(f"file:{path}?mode=ro", uri=True)) as connection:
        assert connection.execute("PRAGMA user_version").fetchone() == (1,)
        return connection.execute("SELECT * FROM line ORDER BY day DESC").fetchall()


def check_brought(book: Daybook) -> None:
    kept = book.entries()
    assert [(one.entry.moment.day.day, one.entry.tilt_deg, one.entry.charge, one.entry.engine_hours, one.entry.note) for one in kept] == [
        (16, 5.0, 0.0, 0.0, ""),
        (17, None, None, None, "away"),
        (18, 62.0, 0.71, 2.5, "ice on the rod\nfuel 9 l, filled or burnt"),
    ]  # fmt: skip
    assert [one.number for one in kept] == [1, 3, 2]  # numbered as they were written
    assert all(one.entry.moment.at is None and one.entry.whence == "form 1" for one in kept)


def test_it_is_brought_forward_and_kept_as_it_was(path: Path) -> None:
    with open_daybook(path, today=TODAY) as book:
        check_brought(book)
        assert book.copy == path.with_name("spruce.daybook.form-1.2026-01-20.copy")
    assert lines_in(path.with_name("spruce.daybook.form-1.2026-01-20.copy")) == LINES
    with open_daybook(path, today=TODAY) as book:
        assert book.copy is None  # once is enough
        check_brought(book)


def test_a_copy_is_never_written_over_another(path: Path) -> None:
    older = path.with_name("spruce.daybook.form-1.2026-01-20.copy")
    older.write_text("kept by hand")
    with open_daybook(path, today=TODAY) as book:
        assert book.copy == path.with_name("spruce.daybook.form-1.2026-01-20.2.copy")
    assert older.read_text() == "kept by hand"
    assert lines_in(path.with_name("spruce.daybook.form-1.2026-01-20.2.copy")) == LINES


def test_a_copy_put_back_is_a_daybook_again(path: Path) -> None:
    with open_daybook(path, today=TODAY) as book:
        copy = book.copy
    assert copy is not None
    again = path.with_name("again.daybook")
    shutil.copy(copy, again)
    with open_daybook(again, today=TODAY) as book:
        check_brought(book)


def test_a_copy_that_does_not_hold_the_same_changes_nothing(path: Path, monkeypatch: pytest.MonkeyPatch) -> None:  # fmt: skip
    connect = sqlite3.connect

    class Forgetful(sqlite3.Connection):
        def backup(self, target: sqlite3.Connection, **more: object) -> None:
            super().backup(target)
            target.execute("DELETE FROM line WHERE day = '2026-01-17'")
            target.commit()

    monkeypatch.setattr(sqlite3, "connect", lambda *a, **k: connect(*a, **{"factory": Forgetful, **k}))  # fmt: skip
    with pytest.raises(Wrong, match="The copy failed"):
        open_daybook(path, today=TODAY)
    monkeypatch.undo()
    assert lines_in(path) == LINES
    assert sorted(one.name for one in path.parent.iterdir() if not one.name.endswith(("-wal", "-shm"))) == ["spruce.daybook"]  # fmt: skip


def test_a_fault_half_way_leaves_the_old_form_whole(path: Path, monkeypatch: pytest.MonkeyPatch) -> None:  # fmt: skip
    lay_out = form._lay_out

    def fails(connection: sqlite3.Connection) -> None:
        lay_out(connection)
        raise OSError

    monkeypatch.setattr(form, "_lay_out", fails)
    with pytest.raises(OSError):
        open_daybook(path, today=TODAY)
    assert lines_in(path) == LINES


@pytest.mark.parametrize("kill_at", ["INSERT INTO entry", "DROP TABLE line", "COMMIT"])
def test_killed_half_way_it_is_of_one_form_or_the_other(path: Path, kill_at: str) -> None:
    script = f"""
import os, signal, sqlite3
from datetime import date, datetime, time
from pathlib import Path
from polestead.daybook.daybook import open_daybook
connect = sqlite3.connect
class Killed(sqlite3.Connection):
    brings = False
    def execute(self, statement, *values):
        Killed.brings |= statement.startswith("CREATE TABLE entry") or "CREATE TABLE entry" in statement
        if Killed.brings and statement.startswith({kill_at!r}):
            os.kill(os.getpid(), signal.SIGKILL)
        return super().execute(statement, *values)
sqlite3.connect = lambda *a, **k: connect(*a, **{{"factory": Killed, **k}})
open_daybook(Path({str(path)!r}), today=date(2026, 1, 20))
"""
    killed = subprocess.run([sys.executable, "-c", script], check=False)
    assert killed.returncode == -signal.SIGKILL
    assert lines_in(path) == LINES  # nothing of the new form is there
    assert lines_in(path.with_name("spruce.daybook.form-1.2026-01-20.copy")) == LINES
    with open_daybook(path, today=TODAY) as book:
        check_brought(book)
        assert book.copy == path.with_name("spruce.daybook.form-1.2026-01-20.2.copy")


def test_several_programs_that_find_it_at_once_bring_it_forward_once(path: Path) -> None:
    together, errors, copies = threading.Barrier(4), [], []

    def forward() -> None:
        try:
            together.wait()
            with open_daybook(path, today=TODAY) as book:
                copies.append(book.copy)
                check_brought(book)
        except BaseException as error:
            errors.append(error)

    threads = [threading.Thread(target=forward) for _ in range(4)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert errors == []
    assert [copy is None for copy in copies].count(False) == 1


def test_a_first_form_that_was_changed_is_not_guessed_at(path: Path) -> None:
    with closing(sqlite3.connect(path)) as connection:
        connection.execute("ALTER TABLE line ADD COLUMN mood TEXT")
    with pytest.raises(Wrong, match="laid out otherwise"):
        open_daybook(path, today=TODAY)
    assert not list(path.parent.glob("*.copy"))


def form_2(file: Path, notes: list[str]) -> None:
    """A daybook as the second form left it."""
    with closing(sqlite3.connect(file, isolation_level=None)) as connection:
        connection.execute("PRAGMA journal_mode = WAL")
        for statement in (ENTRY_2_TABLE, STRIKE_TABLE, DAY_INDEX):
            connection.execute(statement)
        connection.execute(f"PRAGMA application_id = {MARK}")
        connection.execute("PRAGMA user_version = 2")
        for nth, note in enumerate(notes, 1):
            connection.execute(
                "INSERT INTO entry (number, day, at, tilt_deg, gust_seen, done, ticks, note, written, whence, kept_at) "
                "VALUES (?, '2026-01-18', '07:10', 62.0, '', '', '', ?, '', 'terminal', '2026-01-18T07:10:00')", (nth, note),
            )  # fmt: skip
        connection.execute("INSERT INTO strike VALUES (1, 'a slip', '2026-01-18T08:00:00')")


def test_the_second_form_gets_its_column_of_the_batterys_temperature(tmp_path: Path) -> None:
    """28 F is -2.22 C; what is none stays in its note alone, and every note stays as it was."""
    file, notes = tmp_path / "spruce.daybook", ["cold\nbank: 28 F", "bank: warm", "bank: 280 F", "", "bank: 1 C\nbank: -4 C"]  # fmt: skip
    form_2(file, notes)
    with open_daybook(file, today=TODAY) as book:
        kept = book.entries(struck=True)
        assert book.copy == file.with_name("spruce.daybook.form-2.2026-01-20.copy")
        book.append(Entry(Moment(date(2026, 1, 19), time(7)), bank_c=-10.0), datetime(2026, 1, 19, 8))  # fmt: skip
    assert [one.entry.note for one in kept] == notes
    assert [one.entry.bank_c for one in kept] == [pytest.approx(-2.222, abs=1e-3), None, None, None, -4.0]  # fmt: skip
    assert [one.struck for one in kept] == ["a slip", None, None, None, None]
    with closing(sqlite3.connect(file.with_name("spruce.daybook.form-2.2026-01-20.copy"))) as copy:
        assert copy.execute("SELECT note FROM entry ORDER BY number").fetchall() == [(note,) for note in notes]  # fmt: skip
    with open_daybook(file, today=TODAY) as book:
        assert (book.copy, book.entries()[-1].entry.bank_c) == (None, -10.0)


def test_a_new_daybook_and_one_brought_forward_are_laid_out_the_same(tmp_path: Path) -> None:
    form_2(tmp_path / "old.daybook", [])
    laid_out = []
    for name in ("old", "new"):
        with open_daybook(tmp_path / f"{name}.daybook", today=TODAY):
            pass
        with closing(sqlite3.connect(tmp_path / f"{name}.daybook")) as connection:
            laid_out.append(sorted(connection.execute("SELECT name, sql FROM sqlite_master WHERE sql IS NOT NULL")))  # fmt: skip
    assert laid_out[0] == laid_out[1]
