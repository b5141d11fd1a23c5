"""The owner's log: one line a day, in a small SQLite file beside the homestead file.

A line is on the disk before `append` comes back; a torn one is never seen (one transaction a line, write-ahead log).
Two programs may write at once: the second waits for the first.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import date, datetime
from math import isfinite
from pathlib import Path
from time import monotonic, sleep
from types import TracebackType
from typing import Self

from polestead.base.problem import Problem, Wrong

SCHEMA = 1
MARK = 0x504F4C45  # application_id: says that the file is ours
WAIT_S = 10.0
_TABLE = """
CREATE TABLE line (
    day TEXT PRIMARY KEY, tilt_deg REAL, charge REAL, engine_hours REAL, fuel_l REAL,
    note TEXT NOT NULL, written TEXT NOT NULL
) STRICT
"""
# key, what it is, least, most, as the owner knows it
_SPANS = (
    ("tilt_deg", "tilt", 0.0, 90.0, "0 to 90 degrees"),
    ("charge", "charge", 0.0, 1.0, "0 to 100 %"),
    ("engine_hours", "engine hours", 0.0, 24.0, "0 to 24 hours in a day"),
    ("fuel_l", "fuel", 0.0, 2000.0, "0 to 2000 litres in a day"),
)
NOTE_MOST = 2000
EARLIEST = date(1970, 1, 1)


@dataclass(frozen=True, slots=True)
class Line:
    """What the owner saw on one day; what he did not look at is None.

    Attributes:
        day: The day.
        tilt_deg: Tilt the array stood at.
        charge: Charge of the battery in the morning, 0 to 1.
        engine_hours: The engine ran that day.
        fuel_l: Fuel filled or burnt that day.
        note: In his own words.
    """

    day: date
    tilt_deg: float | None = None
    charge: float | None = None
    engine_hours: float | None = None
    fuel_l: float | None = None
    note: str = ""


class Daybook:
    """An open daybook; use it in a ``with``."""

    def __init__(self, connection: sqlite3.Connection) -> None:
        self._connection = connection

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        self.close()

    def close(self) -> None:
        """Close the file."""
        self._connection.close()

    def append(self, line: Line, now: datetime) -> None:
        """Write one line; it is on the disk when this comes back.

        Args:
            line: What the owner saw.
            now: The clock, local time.

        Raises:
            Wrong: For absurd values, a day to come, or a day that has its line already; nothing is written then.
        """
        problems = line_problems(line, now.date())
        if problems:
            raise Wrong(problems)
        with self._writing() as connection:
            if connection.execute("SELECT 1 FROM line WHERE day = ?", (line.day.isoformat(),)).fetchone():  # fmt: skip
                raise Wrong([_problem("day", str(line.day), "one line a day", "That day has its line already.")])  # fmt: skip
            connection.execute(
                "INSERT INTO line VALUES (?, ?, ?, ?, ?, ?, ?)",
                (line.day.isoformat(), line.tilt_deg, line.charge, line.engine_hours, line.fuel_l, line.note, now.isoformat(timespec="seconds")),
            )  # fmt: skip

    def lines(self, since: date | None = None) -> tuple[Line, ...]:
        """The lines, oldest first.

        Args:
            since: Leave out the days before.
        """
        rows = self._connection.execute(
            "SELECT day, tilt_deg, charge, engine_hours, fuel_l, note FROM line WHERE day >= ? ORDER BY day",
            ((since or EARLIEST).isoformat(),),
        ).fetchall()
        return tuple(Line(date.fromisoformat(row[0]), *row[1:]) for row in rows)

    @contextmanager
    def _writing(self) -> Iterator[sqlite3.Connection]:
        """One transaction, all or nothing; waits while another program writes."""
        self._connection.execute("BEGIN IMMEDIATE")
        try:
            yield self._connection
        except BaseException:
            self._connection.execute("ROLLBACK")
            raise
        self._connection.execute("COMMIT")


def daybook_path(homestead: Path) -> Path:
    """Where the daybook of a homestead file lies.

    Example:
        >>> daybook_path(Path("spruce.toml")).name
        'spruce.daybook'
    """
    return homestead.with_suffix(".daybook")


def open_daybook(path: Path) -> Daybook:
    """Open a daybook, or begin one where there is none.

    Raises:
        Wrong: If the file is something else, or was written by a newer version.
    """
    if not path.parent.is_dir():
        raise Wrong([_problem("", str(path), "a folder that exists", "Keep it beside the homestead file.")])  # fmt: skip
    connection: sqlite3.Connection | None = None
    try:
        connection = sqlite3.connect(path, timeout=WAIT_S, isolation_level=None)
        _prepare(connection, path)
    except BaseException as error:
        if connection is not None:
            connection.close()
        problem = _why_not(error, path)
        if problem is None:
            raise
        raise Wrong([problem]) from error
    return Daybook(connection)


def line_problems(line: Line, today: date) -> list[Problem]:
    """All that is wrong with a line, at once.

    Args:
        line: The line.
        today: By the owner's clock.
    """
    problems = []
    if not EARLIEST <= line.day <= today:
        problems.append(_problem("day", str(line.day), f"a day up to today, {today}", "Write down what was, not what will be."))  # fmt: skip
    for key, name, least, most, allowed in _SPANS:
        value = getattr(line, key)
        if value is not None and not (isfinite(value) and least <= value <= most):
            problems.append(_problem(name, f"{value:g}", allowed, "Look again, or leave it out."))
    if len(line.note) > NOTE_MOST:
        problems.append(_problem("note", f"{len(line.note)} signs", f"up to {NOTE_MOST} signs", "Shorten it."))  # fmt: skip
    empty = all(getattr(line, key) is None for key, *_ in _SPANS) and not line.note.strip()
    if empty:
        problems.append(_problem("line", "nothing", "a figure or a note", "Write down at least one thing."))  # fmt: skip
    return problems


def _prepare(connection: sqlite3.Connection, path: Path) -> None:
    """Check whose file it is; begin a new one in one transaction."""
    connection.execute("PRAGMA synchronous = FULL")
    mark, version, tables = _found(connection)
    if mark == 0 and version == 0 and not tables:
        _write_ahead(connection)
        connection.execute("BEGIN IMMEDIATE")
        mark, version = _begin(connection, path)
        connection.execute("COMMIT")
    if mark != MARK:
        raise Wrong([_foreign(path)])
    if version != SCHEMA:
        raise Wrong([_problem("", f"{path}, form {version}", f"form {SCHEMA}", "A newer version wrote it: use that one.")])  # fmt: skip


def _write_ahead(connection: sqlite3.Connection) -> None:
    """Turn the write-ahead log on; the database does not itself wait here for another program that does the same."""
    give_up = monotonic() + WAIT_S
    while True:
        try:
            connection.execute("PRAGMA journal_mode = WAL")
        except sqlite3.OperationalError as error:
            if error.sqlite_errorcode != sqlite3.SQLITE_BUSY or monotonic() > give_up:
                raise
            sleep(0.005)
        else:
            return


def _found(connection: sqlite3.Connection) -> tuple[int, int, bool]:
    """Mark, form, and whether there are tables, all of one moment: another program may be laying it out."""
    connection.execute("BEGIN")
    mark, version = _pragma(connection, "application_id"), _pragma(connection, "user_version")
    tables = _has_tables(connection)
    connection.execute("COMMIT")
    return mark, version, tables


def _begin(connection: sqlite3.Connection, path: Path) -> tuple[int, int]:
    """Lay the table out, unless another program has just done so."""
    if _pragma(connection, "application_id") == 0:
        if _has_tables(connection):
            raise Wrong([_foreign(path)])
        connection.execute(_TABLE)
        connection.execute(f"PRAGMA application_id = {MARK}")
        connection.execute(f"PRAGMA user_version = {SCHEMA}")
    return _pragma(connection, "application_id"), _pragma(connection, "user_version")


def _has_tables(connection: sqlite3.Connection) -> bool:
    return connection.execute("SELECT 1 FROM sqlite_master").fetchone() is not None


def _why_not(error: BaseException, path: Path) -> Problem | None:
    """What the database could not do, in the owner's words; None for what is not its own."""
    if isinstance(error, sqlite3.OperationalError):
        given = f"{path}: {error}"
        return _problem(
            "",
            given,
            "a file that can be opened and written",
            "Look at the disk, the rights, and who else has it open.",
        )
    return _foreign(path) if isinstance(error, sqlite3.DatabaseError) else None


def _pragma(connection: sqlite3.Connection, name: str) -> int:
    return int(connection.execute(f"PRAGMA {name}").fetchone()[0])


def _foreign(path: Path) -> Problem:
    return _problem("", str(path), "a daybook of this house", "It is another kind of file: move it away or name another.")  # fmt: skip


def _problem(key: str, given: str, allowed: str, do: str) -> Problem:
    return Problem("daybook", key, given, allowed, do)
