"""The daybook's file: its mark, its form, and how an older form is brought forward with a copy kept before."""

from __future__ import annotations

import os
import sqlite3
import tempfile
from collections.abc import Iterator
from contextlib import closing, contextmanager
from datetime import date
from pathlib import Path
from time import monotonic, sleep

from polestead.base.problem import Problem, Wrong
from polestead.base.quantity import NotAQuantity, read_quantity
from polestead.daybook.house import BANK_SPAN_C

FORM = 3
MARK = 0x504F4C45  # application_id: says that the file is ours
LINE_TABLE = """
CREATE TABLE line (
    day TEXT PRIMARY KEY, tilt_deg REAL, charge REAL, engine_hours REAL, fuel_l REAL,
    note TEXT NOT NULL, written TEXT NOT NULL
) STRICT
"""
ENTRY_2_TABLE = """
CREATE TABLE entry (
    number INTEGER PRIMARY KEY, day TEXT NOT NULL, at TEXT, offset_min INTEGER,
    tilt_deg REAL, rod_m REAL, charge REAL, rest_v REAL, new_wh REAL, all_wh REAL, engine_hours REAL, engine_meter_hours REAL,
    filled_l REAL, tank_l REAL, tank_share REAL, snow TEXT CHECK (snow IN ('bare', 'dusted', 'covered')), snow_share REAL,
    gust_m_s REAL, gust_seen TEXT NOT NULL, done TEXT NOT NULL, ticks TEXT NOT NULL, note TEXT NOT NULL,
    written TEXT NOT NULL, whence TEXT NOT NULL, kept_at TEXT NOT NULL
) STRICT
"""
BANK_COLUMN = "bank_c REAL"
# as the database writes a column that was added behind the others
ENTRY_TABLE = ENTRY_2_TABLE.replace("\n) STRICT", f"\n, {BANK_COLUMN}) STRICT")
STRIKE_TABLE = """
CREATE TABLE strike (
    number INTEGER PRIMARY KEY REFERENCES entry (number), why TEXT NOT NULL, kept_at TEXT NOT NULL
) STRICT
"""
DAY_INDEX = "CREATE INDEX entry_day ON entry (day)"
_LAID_OUT = {
    1: {"line": LINE_TABLE.strip()},
    2: {"entry": ENTRY_2_TABLE.strip(), "strike": STRIKE_TABLE.strip(), "entry_day": DAY_INDEX},
    3: {"entry": ENTRY_TABLE.strip(), "strike": STRIKE_TABLE.strip(), "entry_day": DAY_INDEX},
}
BANK_LINE = "bank: "  # of a note, in which form 2 kept the battery's temperature
_UP_TO = {1: "line", 2: "entry", 3: "entry"}  # the table whose rows a copy is counted by


def prepare(connection: sqlite3.Connection, path: Path, today: date, wait_s: float) -> Path | None:
    """Check whose file it is; begin a new one, or bring an older form forward, in one transaction.

    Args:
        connection: Just opened.
        path: Of the file.
        today: For the name of the copy.
        wait_s: How long another program is waited for.

    Returns:
        The copy kept of an older form; None where there was none.

    Raises:
        Wrong: Another kind of file, another layout, or a newer form.
    """
    connection.execute("PRAGMA synchronous = FULL")
    connection.execute("PRAGMA foreign_keys = ON")
    mark, form, tables = _found(connection)
    if mark == 0 and form == 0 and not tables:
        _write_ahead(connection, wait_s)
        with transaction(connection):
            _begin(connection, path)
        mark, form, tables = _found(connection)
    if mark != MARK:
        raise Wrong([foreign(path)])
    if form > FORM:
        raise Wrong([problem("", f"{path}, form {form}", f"form {FORM}", "A newer version wrote it: use that one.")])  # fmt: skip
    kept = None
    if form < FORM:
        with transaction(connection):
            kept = _bring_forward(connection, path, today)
        tables = _found(connection)[2]
    _check_layout(tables, FORM, path)
    return kept


@contextmanager
def transaction(connection: sqlite3.Connection) -> Iterator[sqlite3.Connection]:
    """One transaction, all or nothing; waits while another program writes."""
    connection.execute("BEGIN IMMEDIATE")
    try:
        yield connection
    except BaseException:
        connection.execute("ROLLBACK")
        raise
    connection.execute("COMMIT")


def _write_ahead(connection: sqlite3.Connection, wait_s: float) -> None:
    """Turn the write-ahead log on; the database does not itself wait here for another program that does the same."""
    give_up = monotonic() + wait_s
    while True:
        try:
            connection.execute("PRAGMA journal_mode = WAL")
        except sqlite3.OperationalError as error:
            if error.sqlite_errorcode != sqlite3.SQLITE_BUSY or monotonic() > give_up:
                raise
            sleep(0.005)
        else:
            return


def _found(connection: sqlite3.Connection) -> tuple[int, int, dict[str, str]]:
    """Mark, form and what is laid out, all of one moment: another program may be laying it out."""
    connection.execute("BEGIN")
    mark, form = _pragma(connection, "application_id"), _pragma(connection, "user_version")
    tables = _tables(connection)
    connection.execute("COMMIT")
    return mark, form, tables


def _tables(connection: sqlite3.Connection) -> dict[str, str]:
    rows = connection.execute("SELECT name, sql FROM sqlite_master WHERE sql IS NOT NULL")
    return {name: sql.strip() for name, sql in rows}


def _check_layout(tables: dict[str, str], form: int, path: Path) -> None:
    if tables != _LAID_OUT[form]:
        other = sorted({name for name, sql in (tables.items() ^ _LAID_OUT[form].items())})
        raise Wrong([problem("", f"{path}: {', '.join(other)} laid out otherwise", f"the layout of form {form}", "Another program changed it: put a copy back, or ask for help before writing.")])  # fmt: skip


def _begin(connection: sqlite3.Connection, path: Path) -> None:
    """Lay the tables out, unless another program has just done so."""
    if _pragma(connection, "application_id") == 0:
        if _tables(connection):
            raise Wrong([foreign(path)])
        _lay_out(connection)
        connection.execute(f"PRAGMA application_id = {MARK}")


def _lay_out(connection: sqlite3.Connection) -> None:
    for statement in (ENTRY_TABLE, STRIKE_TABLE, DAY_INDEX):
        connection.execute(statement)
    connection.execute(f"PRAGMA user_version = {FORM}")


def _bring_forward(connection: sqlite3.Connection, path: Path, today: date) -> Path | None:
    """An older form to this one, inside a transaction that already keeps every other program from writing."""
    form = _pragma(connection, "user_version")
    if form == FORM:  # another program has just done it
        return None
    if form not in _UP_TO:
        raise Wrong([foreign(path)])
    _check_layout(_tables(connection), form, path)
    copy = keep_copy(path, form, today)
    if form == 1:
        _from_lines(connection)
    else:
        _with_bank(connection)
    return copy


def _with_bank(connection: sqlite3.Connection) -> None:
    """Form 2 kept the battery's temperature in a line of the note only: it gets its column; the note stays as it is."""
    connection.execute(f"ALTER TABLE entry ADD COLUMN {BANK_COLUMN}")
    noted = connection.execute("SELECT number, note FROM entry WHERE note LIKE ?", (f"%{BANK_LINE}%",)).fetchall()  # fmt: skip
    for number, note in noted:
        bank = bank_in_note(note)
        if bank is not None:
            connection.execute("UPDATE entry SET bank_c = ? WHERE number = ?", (bank, number))
    connection.execute(f"PRAGMA user_version = {FORM}")


def bank_in_note(note: str) -> float | None:
    """The battery's temperature in the last line of a note that tells one; None where none does, or it is none a battery has.

    Args:
        note: As written.

    Example:
        >>> round(bank_in_note("cold night\\nbank: 28 F"), 2), bank_in_note("bank: warm")
        (-2.22, None)
    """
    found = None
    for line in note.splitlines():
        if line.startswith(BANK_LINE):
            try:
                read_c = read_quantity(line.removeprefix(BANK_LINE).strip(), "temperature")
            except NotAQuantity:
                continue
            found = read_c if BANK_SPAN_C[0] <= read_c <= BANK_SPAN_C[1] else found
    return found


def _from_lines(connection: sqlite3.Connection) -> None:
    """Fuel of form 1 did not say whether it was filled or burnt: it goes into the note, with its words."""
    lines = connection.execute("SELECT day, tilt_deg, charge, engine_hours, fuel_l, note, written FROM line ORDER BY written, day").fetchall()  # fmt: skip
    _lay_out(connection)
    for day, tilt, charge, hours, fuel, note, written in lines:
        said = f"fuel {fuel:g} l, filled or burnt" if fuel is not None else ""
        connection.execute(
            "INSERT INTO entry (day, tilt_deg, charge, engine_hours, gust_seen, done, ticks, note, written, whence, kept_at) "
            "VALUES (?, ?, ?, ?, '', '', '', ?, '', 'form 1', ?)",
            (day, tilt, charge, hours, "\n".join(one for one in (note, said) if one), written),
        )
    connection.execute("DROP TABLE line")


def keep_copy(path: Path, form: int, today: date) -> Path:
    """A copy beside the daybook, named by form and day, opened and counted before it gets its name; none is ever overwritten.

    Args:
        path: The daybook.
        form: Its form now.
        today: For the name.

    Raises:
        Wrong: The copy does not hold what the daybook holds.

    Returns:
        The copy.
    """
    handle, name = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}.")
    os.close(handle)
    unfinished = Path(name)
    try:
        with closing(sqlite3.connect(path)) as own, closing(sqlite3.connect(unfinished)) as copy:
            own.backup(copy)
            copy.execute("PRAGMA journal_mode = DELETE")  # one file, nothing beside it
            table = _UP_TO[form]
            wanted = own.execute(f"SELECT * FROM {table}").fetchall()  # noqa: S608  our own word
        with closing(sqlite3.connect(unfinished)) as copy:
            sound = copy.execute("PRAGMA quick_check(1)").fetchone()[0] == "ok"
            there = copy.execute(f"SELECT * FROM {table}").fetchall()  # noqa: S608
            if not sound or there != wanted or _pragma(copy, "user_version") != form:
                raise Wrong([problem("", f"{len(there)} lines in the copy, {len(wanted)} in {path}", "the same", "The copy failed, nothing was changed: look at the disk.")])  # fmt: skip
        _on_disk(unfinished)
        final = _free_name(path, form, today)
        os.replace(unfinished, final)
        _on_disk(path.parent)
    finally:
        unfinished.unlink(missing_ok=True)
    return final


def _free_name(path: Path, form: int, today: date) -> Path:
    """A name that was free, and is now ours."""
    nth = 1
    while True:
        more = "" if nth == 1 else f".{nth}"
        name = path.with_name(f"{path.name}.form-{form}.{today}{more}.copy")
        try:
            os.close(os.open(name, os.O_CREAT | os.O_EXCL | os.O_WRONLY, 0o644))
        except FileExistsError:
            nth += 1
        else:
            return name


def _on_disk(path: Path) -> None:
    """Flushed through to the disk; a folder only where the system lets one be opened."""
    try:
        handle = os.open(path, os.O_RDONLY)
    except OSError:
        return
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


def why_not(error: BaseException, path: Path) -> Problem | None:
    """What the database could not do, in the owner's words; None for what is not its own.

    Args:
        error: As raised.
        path: Of the daybook.
    """
    if not isinstance(error, sqlite3.DatabaseError):
        return None
    code = getattr(error, "sqlite_errorcode", None)
    if code is not None and code & 0xFF in (sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED):
        return problem("", f"{path}, which another program has been writing in all the while", "a moment's peace", "Nothing was written. Close the other one, or try again.")  # fmt: skip
    if code is not None and code & 0xFF == sqlite3.SQLITE_FULL:
        return problem("", f"{path}: the disk is full", "a little room on the disk", "Nothing was written. Make room, then write it again.")  # fmt: skip
    if isinstance(error, sqlite3.OperationalError):
        return problem("", f"{path}: {error}", "a file that can be opened and written", "Look at the disk, the rights, and who else has it open.")  # fmt: skip
    if code is not None and code & 0xFF == sqlite3.SQLITE_CORRUPT:
        return problem("", f"{path}: {error}", "a sound file", "Part of it is damaged: move it away, and put the newest copy back.")  # fmt: skip
    return foreign(path)


def foreign(path: Path) -> Problem:
    """It is no daybook."""
    return problem("", str(path), "a daybook of this house", "It is another kind of file: move it away or name another.")  # fmt: skip


def problem(key: str, given: str, allowed: str, do: str) -> Problem:
    """One thing wrong with the daybook."""
    return Problem("daybook", key, given, allowed, do)


def _pragma(connection: sqlite3.Connection, name: str) -> int:
    return int(connection.execute(f"PRAGMA {name}").fetchone()[0])
