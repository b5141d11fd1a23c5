from __future__ import annotations

import signal
import sqlite3
import subprocess
import sys
import threading
from datetime import date, datetime, timedelta
from pathlib import Path

import pytest

from polestead.base.problem import Wrong
from polestead.daybook.daybook import MARK, SCHEMA, Line, daybook_path, open_daybook

NOW = datetime(2026, 1, 20, 7, 10)
MONDAY = Line(date(2026, 1, 19), 62.0, 0.71, 2.5, 9.0, "ice on the rod, left it")


@pytest.fixture
def path(tmp_path):
    return daybook_path(tmp_path / "spruce.toml")


def test_what_is_written_is_read_back(path) -> None:
    sparse = Line(date(2026, 1, 18), note="away")
    with open_daybook(path) as book:
        book.append(MONDAY, NOW)
        book.append(sparse, NOW)
    with open_daybook(path) as book:
        assert book.lines() == (sparse, MONDAY)
        assert book.lines(since=date(2026, 1, 19)) == (MONDAY,)


def test_the_day_of_today_may_be_written_and_tomorrow_not(path) -> None:
    with open_daybook(path) as book:
        book.append(Line(NOW.date(), charge=0.0), NOW)
        with pytest.raises(Wrong, match="a day up to today"):
            book.append(Line(NOW.date() + timedelta(days=1), charge=0.5), NOW)
        assert len(book.lines()) == 1


@pytest.mark.parametrize(
    ("line", "key"),
    [
        (Line(MONDAY.day, tilt_deg=91.0), "tilt"),
        (Line(MONDAY.day, charge=71.0), "charge"),
        (Line(MONDAY.day, charge=float("nan")), "charge"),
        (Line(MONDAY.day, engine_hours=25.0), "engine hours"),
        (Line(MONDAY.day, fuel_l=-1.0), "fuel"),
        (Line(MONDAY.day, note="x" * 2001), "note"),
        (Line(MONDAY.day, note="  "), "line"),
        (Line(date(1026, 1, 19), charge=0.5), "day"),
    ],
)
def test_absurd_lines_are_refused_and_nothing_is_written(path, line, key) -> None:
    with open_daybook(path) as book:
        with pytest.raises(Wrong) as caught:
            book.append(line, NOW)
        assert [problem.key for problem in caught.value.problems] == [key]
        assert book.lines() == ()


def test_all_that_is_wrong_with_a_line_is_told_at_once(path) -> None:
    with open_daybook(path) as book, pytest.raises(Wrong) as caught:
        book.append(Line(date(2027, 1, 1), 120.0, 71.0, 30.0), NOW)
    assert len(caught.value.problems) == 4


def test_a_day_has_one_line(path) -> None:
    with open_daybook(path) as book:
        book.append(MONDAY, NOW)
        with pytest.raises(Wrong, match="has its line already"):
            book.append(Line(MONDAY.day, 10.0), NOW)
        book.append(Line(date(2026, 1, 18), 60.0), NOW)  # the refusal left no transaction open
        assert len(book.lines()) == 2
        assert book.lines()[-1] == MONDAY


def test_two_writers_wait_for_each_other_and_lose_nothing(path) -> None:
    with open_daybook(path):
        pass
    errors: list[BaseException] = []
    together = threading.Barrier(2)

    def write(first: int) -> None:
        try:
            with open_daybook(path) as book:
                together.wait()
                for n in range(first, 40, 2):
                    book.append(Line(NOW.date() - timedelta(days=n), charge=n / 40), NOW)
        except BaseException as error:  # told by the assertion below
            errors.append(error)

    threads = [threading.Thread(target=write, args=(first,)) for first in (0, 1)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert errors == []
    with open_daybook(path) as book:
        assert len(book.lines()) == 40


def test_several_programs_may_begin_the_same_daybook(tmp_path) -> None:
    errors: list[BaseException] = []

    def begin(path: Path, together: threading.Barrier) -> None:
        try:
            together.wait()
            with open_daybook(path) as book:
                book.lines()
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


def test_a_program_killed_while_writing_leaves_whole_lines_only(path) -> None:
    with open_daybook(path) as book:
        book.append(MONDAY, NOW)
    torn = "INSERT INTO line VALUES ('2026-01-17', 1, 1, 1, 1, 'torn', '')"
    script = f"""
import os, signal
from datetime import date, datetime
from pathlib import Path
from polestead.daybook.daybook import Line, open_daybook
book = open_daybook(Path({str(path)!r}))
book.append(Line(date(2026, 1, 18), note="confirmed"), datetime(2026, 1, 20))
with book._writing() as connection:
    connection.execute({torn!r})
    os.kill(os.getpid(), signal.SIGKILL)
"""
    killed = subprocess.run([sys.executable, "-c", script], check=False)
    assert killed.returncode == -signal.SIGKILL
    with open_daybook(path) as book:
        assert [line.note for line in book.lines()] == ["confirmed", MONDAY.note]
        book.append(Line(date(2026, 1, 17), note="written again"), NOW)


def test_the_file_says_whose_it_is_and_keeps_a_write_ahead_log(path) -> None:
    with open_daybook(path) as book:
        book.append(MONDAY, NOW)
    connection = sqlite3.connect(path)
    assert connection.execute("PRAGMA application_id").fetchone() == (MARK,)
    assert connection.execute("PRAGMA user_version").fetchone() == (SCHEMA,)
    assert connection.execute("PRAGMA journal_mode").fetchone() == ("wal",)
    connection.close()


def test_a_file_of_another_kind_is_not_touched(path) -> None:
    path.write_text(
        "format = 1\nname = 'no daybook at all, but long enough to look like one'\n" * 40
    )
    before = path.read_bytes()
    with pytest.raises(Wrong, match="another kind of file"):
        open_daybook(path)
    assert path.read_bytes() == before


def test_another_programs_tables_are_not_written_into(path) -> None:
    connection = sqlite3.connect(path)
    connection.execute("CREATE TABLE recipes (name TEXT)")
    connection.commit()
    connection.close()
    before = path.read_bytes()
    with pytest.raises(Wrong, match="another kind of file"):
        open_daybook(path)
    assert path.read_bytes() == before
    connection = sqlite3.connect(path)
    assert [row[0] for row in connection.execute("SELECT name FROM sqlite_master")] == ["recipes"]
    connection.close()


def test_a_newer_daybook_is_not_guessed_at(path) -> None:
    with open_daybook(path):
        pass
    connection = sqlite3.connect(path)
    connection.execute(f"PRAGMA user_version = {SCHEMA + 1}")
    connection.close()
    with pytest.raises(Wrong, match="newer version"):
        open_daybook(path)


def test_a_folder_that_is_not_there_is_told(tmp_path) -> None:
    with pytest.raises(Wrong, match="a folder that exists"):
        open_daybook(tmp_path / "gone" / "spruce.daybook")
    with pytest.raises(Wrong, match="can be opened"):
        open_daybook(tmp_path)
