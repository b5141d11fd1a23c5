"""The owner's log: dated entries at any rhythm, in a small SQLite file beside the homestead file.

An entry is on the disk before `append` comes back; a torn one is never seen (one transaction, write-ahead log, synchronous FULL).
Two programs may write at once: the second waits for the first.  Nothing is ever deleted: an entry is struck, with the reason.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, fields
from datetime import date, datetime, time
from functools import partial
from pathlib import Path
from types import TracebackType
from typing import Any, Self

from polestead.base.problem import Wrong
from polestead.daybook.entry import EARLIEST, KINDS, OF_THE_DAY, Entry, Moment, entry_problems
from polestead.daybook.form import prepare, problem, transaction, why_not
from polestead.daybook.house import UNKNOWN, House, Key

WAIT_S = 10.0
BETWEEN = "; "  # chores in one text
_FIELDS = tuple(one.name for one in fields(Entry) if one.name not in ("moment", "done"))
_COLUMNS = ("day", "at", "offset_min", *_FIELDS, "done")


@dataclass(frozen=True, slots=True)
class Kept:
    """An entry in the daybook.

    Attributes:
        number: Its number, in the order of writing; it never changes.
        entry: What it says.
        kept_at: When it was written, by the clock then.
        struck: Why it was withdrawn; None where it counts.
        struck_at: When, by the clock then.
    """

    number: int
    entry: Entry
    kept_at: datetime
    struck: str | None = None
    struck_at: datetime | None = None


@dataclass(frozen=True, slots=True)
class Beside:
    """What stood there already, of the same day and kind as what is written.

    Attributes:
        key: Which figure.
        before: What stood there.
        now: What is written.
        number: Of the entry that holds it.
        both: Both count (a second fill, a meter that ran backwards); else the newest does.
    """

    key: Key
    before: float | str
    now: float | str
    number: int
    both: bool


@dataclass(frozen=True, slots=True)
class Written:
    """What became of an entry.

    Attributes:
        number: Its number; of the one that says the same, where it was not written again.
        entry: The entry.
        new: It was written; False where one of the same moment and values stands there.
        beside: What it stands beside, to be told.
    """

    number: int
    entry: Entry
    new: bool
    beside: tuple[Beside, ...] = ()


@dataclass(frozen=True, slots=True)
class Latest:
    """The last reading of a kind.

    Attributes:
        key: Which figure.
        value: SI; a word for snow.
        moment: When it was seen.
        age_h: Hours since, the most it can be.
        number: Of its entry.
    """

    key: Key
    value: float | str
    moment: Moment
    age_h: float
    number: int


class Daybook:
    """An open daybook; use it in a ``with``.

    Attributes:
        path: The file.
        copy: Kept when an older form was brought forward on opening, else None.
    """

    def __init__(self, connection: sqlite3.Connection, path: Path, copy: Path | None = None) -> None:  # fmt: skip
        self._connection = connection
        self.path = path
        self.copy = copy

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

    def append(self, entry: Entry, now: datetime, house: House = UNKNOWN) -> Written:
        """Write one entry; it is on the disk when this comes back.

        Args:
            entry: What was seen.
            now: The clock, local time, with its offset where that is known.
            house: What is known of the house, against slips of the pen.

        Raises:
            Wrong: For absurd values, a moment to come, or a file that cannot be written; nothing is written then.
        """
        return self.append_all((entry,), now, house)[0]

    def append_all(
        self, entries: Sequence[Entry], now: datetime, house: House = UNKNOWN, *, dry: bool = False
    ) -> tuple[Written, ...]:
        """Write several entries, all of them or none.

        Args:
            entries: In the order of writing.
            now: The clock, local time.
            house: What is known of the house.
            dry: Only say what would become of them.

        Raises:
            Wrong: With all that is wrong with any of them; nothing is written then.
        """
        problems = [one for entry in entries for one in entry_problems(entry, now, house)]
        if problems:
            raise Wrong(problems)
        with self._told():
            return self._all_or_none([partial(self._write, entry, now) for entry in entries], dry=dry)  # fmt: skip

    def restore(self, kept: Sequence[Kept], *, dry: bool = False) -> tuple[Written, ...]:
        """Entries of an exported daybook, with the hours they were kept and struck; those that stand here already are left out.

        Args:
            kept: From ``keeping.own_rows``, already found sound; written in the order of their numbers.
            dry: Only say what would become of them.
        """
        with self._told():
            return self._all_or_none([partial(self._put_back, one) for one in sorted(kept, key=lambda one: one.number)], dry=dry)  # fmt: skip

    def _all_or_none(self, acts: Sequence[Callable[[], Written]], *, dry: bool) -> tuple[Written, ...]:  # fmt: skip
        if not dry:
            with transaction(self._connection):
                return tuple(act() for act in acts)
        self._connection.execute("BEGIN IMMEDIATE")
        try:
            return tuple(act() for act in acts)
        finally:
            self._connection.execute("ROLLBACK")

    def _put_back(self, one: Kept) -> Written:
        if one.struck is None:
            return self._write(one.entry, one.kept_at)
        there = self._kept("day = ? AND strike.number IS NOT NULL", (one.entry.moment.day.isoformat(),))  # fmt: skip
        same = next((each for each in there if each.entry == one.entry and each.kept_at == one.kept_at), None)  # fmt: skip
        if same is not None:
            return Written(same.number, one.entry, new=False)
        number = self._insert(one.entry, one.kept_at)
        self._connection.execute("INSERT INTO strike VALUES (?, ?, ?)", (number, one.struck, _iso(one.struck_at or one.kept_at)))  # fmt: skip
        return Written(number, one.entry, new=True)

    def _write(self, entry: Entry, now: datetime) -> Written:
        there = [one for one in self._kept("day = ?", (entry.moment.day.isoformat(),)) if one.struck is None]  # fmt: skip
        same = next((one for one in there if one.entry.same_as(entry)), None)
        if same is not None:
            return Written(same.number, entry, new=False)
        beside = (*_beside(entry, there), *self._backwards(entry, there))
        return Written(self._insert(entry, now), entry, new=True, beside=beside)

    def _backwards(self, entry: Entry, there: Sequence[Kept]) -> Iterator[Beside]:
        """The standing of the meter before, where it was higher: a meter does not run backwards."""
        now = entry.engine_meter_hours
        if now is None:
            return
        earlier = [one for one in there if one.entry.engine_meter_hours is not None and one.entry.moment.wall < entry.moment.wall]  # fmt: skip
        if not earlier:
            column = "engine_meter_hours IS NOT NULL AND strike.number IS NULL"
            last_day = f"SELECT max(day) FROM entry LEFT JOIN strike USING (number) WHERE {column} AND day < ?"  # noqa: S608  our own columns
            earlier = self._kept(f"{column} AND day = ({last_day})", (entry.moment.day.isoformat(),))  # fmt: skip
        if earlier and (before := newest(earlier).entry.engine_meter_hours) is not None and before > now:  # fmt: skip
            yield Beside("engine_meter_hours", before, now, newest(earlier).number, both=True)

    def _insert(self, entry: Entry, kept_at: datetime) -> int:
        marks = ", ".join("?" for _ in range(len(_COLUMNS) + 1))
        cursor = self._connection.execute(
            f"INSERT INTO entry ({', '.join(_COLUMNS)}, kept_at) VALUES ({marks})",  # noqa: S608  our own columns
            (*_row(entry), _iso(kept_at)),
        )
        return int(cursor.lastrowid or 0)

    def strike(self, number: int, why: str, now: datetime) -> Kept:
        """Withdraw an entry: it stays, marked with the reason, and counts no more.

        Args:
            number: Of the entry.
            why: The reason, in the owner's words.
            now: The clock.

        Returns:
            The entry, struck.

        Raises:
            Wrong: No such entry, one that is struck already, or no reason.
        """
        with self._told(), transaction(self._connection):
            found = self._kept("entry.number = ?", (number,))
            problems = []
            if not found:
                problems.append(problem("strike", str(number), "the number of an entry", "Look at the list: it stands at the left of each."))  # fmt: skip
            elif found[0].struck is not None:
                problems.append(problem("strike", f"{number}, struck already ({found[0].struck})", "an entry that counts", "Nothing is to be done."))  # fmt: skip
            if not why.strip():
                problems.append(problem("strike", "no reason", "a reason in your own words", "Say why it is withdrawn."))  # fmt: skip
            if problems:
                raise Wrong(problems)
            self._connection.execute("INSERT INTO strike VALUES (?, ?, ?)", (number, why.strip(), _iso(now)))  # fmt: skip
            return self._kept("entry.number = ?", (number,))[0]

    def entries(
        self, since: date | None = None, until: date | None = None, *, struck: bool = False
    ) -> tuple[Kept, ...]:
        """Entries by day, and within a day in the order of writing.

        Args:
            since: Leave out the days before.
            until: Leave out the days after.
            struck: With those that were withdrawn.
        """
        ends = ((since or EARLIEST).isoformat(), (until or date.max).isoformat())
        with self._told():
            found = self._kept("day BETWEEN ? AND ?", ends)
        return tuple(one for one in found if struck or one.struck is None)

    def latest(self, key: Key, now: datetime) -> Latest | None:
        """The last reading of a kind, and how old it is; None where there is none.

        Args:
            key: Which figure; "snow" takes a share too and gives the word.
            now: The clock, local time.
        """
        column = "coalesce(snow, snow_share)" if key == "snow" else key
        where = f"{column} IS NOT NULL AND strike.number IS NULL"
        with self._told():
            last_day = f"SELECT max(day) FROM entry LEFT JOIN strike USING (number) WHERE {where}"  # noqa: S608  our own columns
            found = self._kept(f"{where} AND day = ({last_day})")
        if not found:
            return None
        last = newest(found)
        value: float | str = getattr(last.entry, "glass" if key == "snow" else key)
        return Latest(key, value, last.entry.moment, last.entry.moment.age_h(now), last.number)

    def _kept(self, where: str, values: Iterable[Any] = ()) -> list[Kept]:
        rows = self._connection.execute(
            f"SELECT {', '.join(_COLUMNS)}, entry.number, entry.kept_at, strike.why, strike.kept_at "  # noqa: S608  our own columns
            f"FROM entry LEFT JOIN strike USING (number) WHERE {where} ORDER BY day, entry.number",
            tuple(values),
        ).fetchall()
        return [_kept(row) for row in rows]

    @contextmanager
    def _told(self) -> Iterator[None]:
        """What the database could not do, said in the owner's words."""
        try:
            yield
        except sqlite3.Error as error:
            found = why_not(error, self.path)
            if found is None:
                raise
            raise Wrong([found]) from error


def daybook_path(homestead: Path) -> Path:
    """Where the daybook of a homestead file lies.

    Example:
        >>> daybook_path(Path("spruce.toml")).name
        'spruce.daybook'
    """
    return homestead.with_suffix(".daybook")


def open_daybook(path: Path, *, wait_s: float = WAIT_S, today: date | None = None) -> Daybook:
    """Open a daybook, begin one where there is none, or bring an older form forward (a copy is kept, see ``Daybook.copy``).

    Args:
        path: The file.
        wait_s: How long another program that writes is waited for.
        today: For the name of the copy; left out, the machine's day.

    Raises:
        Wrong: If the file is something else, or was written by a newer version.
    """
    if not path.parent.is_dir():
        raise Wrong([problem("", str(path), "a folder that exists", "Keep it beside the homestead file.")])  # fmt: skip
    return _opened(str(path), path, wait_s, today or date.today())


def empty_daybook() -> Daybook:
    """One that lies in memory only, for looking where there is none yet."""
    return _opened(":memory:", Path("no daybook yet"), WAIT_S, EARLIEST)


def _opened(name: str, path: Path, wait_s: float, today: date) -> Daybook:
    connection: sqlite3.Connection | None = None
    try:
        connection = sqlite3.connect(name, timeout=wait_s, isolation_level=None)
        copy = prepare(connection, path, today, wait_s)
    except BaseException as error:
        if connection is not None:
            connection.close()
        found = why_not(error, path)
        if found is None:
            raise
        raise Wrong([found]) from error
    return Daybook(connection, path, copy)


def newest(found: Sequence[Kept]) -> Kept:
    """Of entries of one day, the one that counts: the latest by the hour; the last written, where one has no hour.

    Offsets count where all have one, else the wall times.

    Args:
        found: One or more.
    """
    if any(one.entry.moment.at is None for one in found):
        return max(found, key=lambda one: one.number)
    return max(found, key=lambda one: (_when(one, found), one.number))


def _when(one: Kept, among: Sequence[Kept]) -> datetime:
    instants = [each.entry.moment.instant for each in among]
    own = one.entry.moment.instant
    return own if own is not None and None not in instants else one.entry.moment.wall


def _beside(entry: Entry, there: Sequence[Kept]) -> tuple[Beside, ...]:
    """What of the same day and kind stands there already."""
    found = []
    for one in there:
        same_moment = one.entry.moment == entry.moment
        no_hour = None in (one.entry.moment.at, entry.moment.at)
        for key in KINDS:
            before, now = getattr(one.entry, key), getattr(entry, key)
            if before is None or now is None:
                continue
            if key == "rod_m" and entry.tilt_deg is not None:
                continue  # the tilt made from it tells
            if key == "filled_l" and not same_moment:
                if before == now:
                    found.append(Beside(key, before, now, one.number, both=True))
            elif key == "gust_m_s" and not same_moment:
                continue  # the strongest counts
            elif before != now and (same_moment or no_hour or key in OF_THE_DAY):
                found.append(Beside(key, before, now, one.number, both=False))
    return tuple(found)


def _row(entry: Entry) -> tuple[Any, ...]:
    moment = entry.moment
    at = None if moment.at is None else moment.at.isoformat("minutes")
    values = (getattr(entry, name) for name in _FIELDS)
    return (moment.day.isoformat(), at, moment.offset_min, *values, BETWEEN.join(entry.done))


def _kept(row: Sequence[Any]) -> Kept:
    day, at, offset_min, *values, done, number, kept_at, why, struck_at = row
    moment = Moment(date.fromisoformat(day), None if at is None else time.fromisoformat(at), offset_min)  # fmt: skip
    given = dict(zip(_FIELDS, values, strict=True))
    entry = Entry(moment, **given, done=tuple(done.split(BETWEEN)) if done else ())
    return Kept(number, entry, datetime.fromisoformat(kept_at), why, None if struck_at is None else datetime.fromisoformat(struck_at))  # fmt: skip


def _iso(at: datetime) -> str:
    return at.isoformat(timespec="seconds")
