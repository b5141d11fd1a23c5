"""Killed in the middle, two at once, locked out: what was acknowledged is there, and what was not is told."""

from __future__ import annotations

import random
import signal
import sqlite3
import subprocess
import sys
from datetime import datetime
from pathlib import Path

import pytest

from polestead.base.problem import Wrong
from polestead.daybook.daybook import open_daybook
from polestead.daybook.entry import Entry
from tests.daybook.seen import NOW, at

WRITER = """
import sys
from datetime import date, datetime, time
from pathlib import Path
from polestead.daybook.daybook import open_daybook
from polestead.daybook.entry import Entry, Moment
path, name, many = Path(sys.argv[1]), sys.argv[2], int(sys.argv[3])
with open_daybook(path) as book:
    print("open", flush=True)
    for n in range(many):
        moment = Moment(date(2026, 1, 1 + n % 19), time(n // 60 % 24, n % 60))
        book.append(Entry(moment, charge=n / many, note=f"{name} {n}"), datetime(2026, 1, 20, 7, 10))
        print(f"{name} {n}", flush=True)
"""


def writer(path: Path, name: str, many: int) -> subprocess.Popen[str]:
    return subprocess.Popen([sys.executable, "-c", WRITER, str(path), name, str(many)], stdout=subprocess.PIPE, text=True)  # fmt: skip


def test_killed_somewhere_in_many_writes_nothing_acknowledged_is_lost(tmp_path: Path) -> None:
    path, chance = tmp_path / "spruce.daybook", random.Random(8)  # noqa: S311  moments, no secrets
    with open_daybook(path):
        pass
    acknowledged: list[str] = []
    for round_ in range(4):
        process = writer(path, f"round {round_}", 5000)  # more than it ever comes to
        assert process.stdout is not None
        assert process.stdout.readline() == "open\n"
        many = chance.randrange(1, 300)
        acknowledged += [process.stdout.readline().strip() for _ in range(many)]
        process.kill()
        acknowledged += [line.strip() for line in process.stdout if line.endswith("\n")]
        assert process.wait() == -signal.SIGKILL  # it was killed, and had not come to its end
        process.stdout.close()
        with open_daybook(path) as book:
            notes = [one.entry.note for one in book.entries()]
            assert set(acknowledged) <= set(notes)
            assert (
                len(notes) - len(acknowledged) <= round_ + 1
            )  # at most the one in hand, each time
            assert book._connection.execute("PRAGMA quick_check").fetchone() == ("ok",)
    assert len(acknowledged) >= 4


def test_two_programs_at_once_wait_for_each_other_and_lose_nothing(tmp_path: Path) -> None:
    path = tmp_path / "spruce.daybook"
    both = [writer(path, name, 60) for name in ("terminal", "page")]
    for process in both:
        process.communicate(timeout=120)
        assert process.returncode == 0
    with open_daybook(path) as book:
        notes = {one.entry.note for one in book.entries()}
    assert notes == {f"{name} {n}" for name in ("terminal", "page") for n in range(60)}


def test_a_file_locked_past_the_wait_is_told_in_words_and_nothing_is_written(tmp_path: Path) -> None:  # fmt: skip
    path = tmp_path / "spruce.daybook"
    with open_daybook(path, wait_s=0.05) as book:
        other = sqlite3.connect(path, isolation_level=None)
        other.execute("BEGIN IMMEDIATE")
        for act in (
            lambda: book.append(Entry(at(19), note="one"), NOW),
            lambda: book.strike(1, "slip", NOW),
        ):
            with pytest.raises(Wrong, match="another program has been writing") as caught:
                act()
            assert "Nothing was written" in str(caught.value)
        assert book.entries() == ()  # reading does not wait
        other.execute("ROLLBACK")
        other.close()
        book.append(Entry(at(19), note="one"), NOW)
        assert len(book.entries()) == 1


def test_a_program_killed_between_the_rows_of_one_transaction_leaves_none_of_them(tmp_path: Path) -> None:  # fmt: skip
    path = tmp_path / "spruce.daybook"
    script = f"""
import os, signal
from datetime import date, datetime
from pathlib import Path
from polestead.daybook.daybook import Daybook, open_daybook
from polestead.daybook.entry import Entry, Moment
book = open_daybook(Path({str(path)!r}))
book.append(Entry(Moment(date(2026, 1, 18)), note="confirmed"), datetime(2026, 1, 20))
write = Daybook._write
def torn(self, entry, now):
    if entry.note == "third":
        os.kill(os.getpid(), signal.SIGKILL)
    return write(self, entry, now)
Daybook._write = torn
book.append_all([Entry(Moment(date(2026, 1, 17)), note=n) for n in ("first", "second", "third")], datetime(2026, 1, 20))
"""
    killed = subprocess.run([sys.executable, "-c", script], check=False)
    assert killed.returncode == -signal.SIGKILL
    with open_daybook(path) as book:
        assert [one.entry.note for one in book.entries()] == ["confirmed"]
        book.append(Entry(at(17), note="first"), NOW)


def test_a_damaged_file_is_told_and_not_written_into(tmp_path: Path) -> None:
    path = tmp_path / "spruce.daybook"
    with open_daybook(path) as book:
        book.append_all([Entry(at(19, n // 60, n % 60), note="x" * 500) for n in range(200)], NOW)
    raw = bytearray(path.read_bytes())
    raw[4096 : 4096 * 8] = b"\x5a" * (4096 * 7)
    path.write_bytes(raw)
    with pytest.raises(Wrong, match=r"damaged|another kind|laid out otherwise"), open_daybook(path) as book:  # fmt: skip
        book.append(Entry(at(19), note="one"), datetime(2026, 1, 20))
