"""A table of the owner's (CSV) read into entries: columns chosen by meaning, nothing guessed, every refusal with its line."""

from __future__ import annotations

import csv
import io
import re
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date, datetime, time
from typing import Any

from polestead.base.problem import Problem, Wrong
from polestead.base.quantity import NotAQuantity, read_quantity, unit_names, units
from polestead.daybook.entry import Entry, Moment, entry_problems
from polestead.daybook.house import UNKNOWN, House
from polestead.daybook.words import (
    FIGURES,
    S_PER_H,
    SNOW,
    Known,
    Offset,
    on_the_clock,
    read_time,
)
from polestead.homestead.columns import COLUMN_FORMS, MEANINGS, ColumnWords, column_words

LARGEST_BYTES = 10_000_000
MOST_LINES = 20_000
LOOKED_AT = 50  # lines by which it is seen what stands between
ENCODINGS = {"utf-8": "utf-8-sig", "utf-16": "utf-16", "windows-1252": "cp1252", "latin-1": "latin-1"}  # fmt: skip
BETWEEN = {"comma": ",", "semicolon": ";", "tab": "\t"}
NOTHING = ("-", "–", "—", "n/a", "na", "nan", "null", "none", "?", "--")
_FIGURE = {word.replace(" ", "_"): (key, dimension) for word, key, dimension, _ in FIGURES}
_BARE = re.compile(r"[+-]?(?:\d+(?:\.\d+)?|\.\d+)")
_DATE = re.compile(r"(\d{1,4})([-/. ])(\d{1,2})\2(\d{1,4})\.?")


@dataclass(frozen=True, slots=True)
class Table:
    """How the owner's table is to be read.

    Attributes:
        columns: Which column holds what.
        encoding: One of ``ENCODINGS``; None: UTF-8, or UTF-16 where it says so itself.
        between: What stands between two cells, one of ``BETWEEN``; None: seen from its first lines, if it can be.
    """

    columns: Mapping[str, ColumnWords]
    encoding: str | None = None
    between: str | None = None


@dataclass(frozen=True, slots=True)
class Taken:
    """What was made of a table.

    Attributes:
        entries: In the order of its lines.
        lines: The line of each.
        refused: What could not be read, with line and column.
        refused_lines: How many lines that is.
        empty_lines: Lines that hold nothing asked for.
        told: How it was read.
    """

    entries: tuple[Entry, ...]
    lines: tuple[int, ...]
    refused: tuple[Problem, ...]
    refused_lines: int
    empty_lines: int
    told: tuple[str, ...]


@dataclass(slots=True)
class _Counted:
    """What is told of the whole table in the end."""

    nothing: Counter[str] = field(default_factory=Counter)
    seconds: int = 0
    twice: list[int] = field(default_factory=list)
    never: list[int] = field(default_factory=list)


def columns_of(written: Sequence[str], in_file: Mapping[str, str]) -> dict[str, ColumnWords]:
    """The columns named in the homestead file, and over them those of the command line.

    Args:
        written: Each as ``charge = column 4, %``.
        in_file: ``[daybook] columns``.

    Raises:
        Wrong: With everything that names no column, or nothing that is known.
    """
    problems: list[Problem] = []
    said = dict(in_file)
    for one in written:
        meaning, equals, words = one.partition("=")
        meaning = meaning.strip().lower().replace(" ", "_")
        if not equals or meaning not in MEANINGS:
            problems.append(_problem("", "--column", one, f"one of {', '.join(MEANINGS)}, then = and the column", 'Write it as --column "charge = column 4, %".'))  # fmt: skip
        else:
            said[meaning] = words.strip().strip("\"'")
    found = {}
    for meaning, words in said.items():
        try:
            found[meaning] = column_words(words)
        except ValueError as wrong:
            problems.append(_problem("", meaning, words, COLUMN_FORMS, str(wrong)))
    if problems:
        raise Wrong(problems)
    return found


def read_table(
    raw: bytes,
    table: Table,
    known: Known,
    offset_of: Offset,
    now: datetime,
    house: House = UNKNOWN,
    name: str = "the table",
) -> Taken:
    """Read a table; what is wrong with single lines is handed back, not raised.

    Args:
        raw: The file.
        table: How to read it.
        known: What words in it are read by.
        offset_of: The local clock's offset from UTC at a wall time.
        now: The clock.
        house: What is known of the house.
        name: Of the file, for what is told.

    Raises:
        Wrong: It cannot be read as a table at all.
    """
    text, told = _text(raw, table.encoding, name)
    rows, between = _rows(text, table.between, name)
    told.append(f"Between the cells: {between}.")
    at, heads = _places(rows, table.columns, name)
    if heads is not None:
        told.append(f"Line {heads} taken as headings.")
    counted = _Counted()
    entries: list[Entry] = []
    lines: list[int] = []
    refused: list[Problem] = []
    wrong_lines = empty = 0
    for line, cells in rows:
        if line == heads:
            continue
        section = f"{name} line {line}"
        reader = _Row(section, line, cells, at, table.columns, counted)
        entry, problems = reader.entry(known, offset_of)
        if entry is None and not problems:
            empty += 1
            continue
        if entry is not None:
            problems += [Problem(section, one.key, one.given, one.allowed, one.do) for one in entry_problems(entry, now, house)]  # fmt: skip
        if problems or entry is None:
            refused += problems
            wrong_lines += 1
        else:
            entries.append(entry)
            lines.append(line)
    told += _told(counted)
    return Taken(tuple(entries), tuple(lines), tuple(refused), wrong_lines, empty, tuple(told))


def _text(raw: bytes, encoding: str | None, name: str) -> tuple[str, list[str]]:
    if len(raw) > LARGEST_BYTES:
        raise Wrong([_problem("", name, f"more than {LARGEST_BYTES:,} bytes", "a table under 10 MB", "Is it another file? Else cut it in two.")])  # fmt: skip
    said = encoding or ("utf-16" if raw[:2] in (b"\xff\xfe", b"\xfe\xff") else "utf-8")
    try:
        text = raw.decode(ENCODINGS[said])
    except UnicodeError:
        raise Wrong([_problem("", name, f"not {said.upper()}", ", ".join(ENCODINGS), "Name what it was saved in, as  --encoding windows-1252.")]) from None  # fmt: skip
    if "\0" in text:
        raise Wrong([_problem("", name, "no text", "a table saved as CSV", "Save the sheet as CSV first.")])  # fmt: skip
    return text, [f"Read as {said.upper()}."]


def _rows(text: str, between: str | None, name: str) -> tuple[list[tuple[int, list[str]]], str]:
    """The lines that hold anything, with their number, and what stands between the cells."""
    plausible = [between] if between else [one for one in BETWEEN if _even(text, one)]
    if len(plausible) > 1:
        raise Wrong([_problem("", name, f"lines that could be cut at {' or '.join(plausible)}", "one of them", f"Name it: --between {plausible[0]}.")])  # fmt: skip
    chosen = plausible[0] if plausible else "comma"
    rows: list[tuple[int, list[str]]] = []
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=BETWEEN[chosen], strict=True)
    line = 1
    try:
        for cells in reader:
            if any(cell.strip() for cell in cells):
                rows.append((line, [cell.strip() for cell in cells]))
            line = reader.line_num + 1
    except csv.Error as wrong:
        raise Wrong([_problem(f"{name} line {line}", "", f"no CSV ({wrong})", "one line for each moment", "A text with quotes or new lines in it stands in quotes, its own quotes doubled.")]) from None  # fmt: skip
    if not rows:
        raise Wrong([_problem("", name, "nothing", "lines with a day and a figure", "Is it another file?")])  # fmt: skip
    if len(rows) > MOST_LINES:
        raise Wrong([_problem("", name, f"{len(rows):,} lines", f"at most {MOST_LINES:,}", "A daybook holds what is seen in a day, not every second: thin it out first.")])  # fmt: skip
    return rows, chosen


def _even(text: str, between: str) -> bool:
    """Whether the first lines, cut there, have one number of cells, two or more."""
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=BETWEEN[between])
    counts: list[int] = []
    try:
        for cells in reader:
            if any(cell.strip() for cell in cells):
                counts.append(len(cells))
            if len(counts) >= LOOKED_AT:
                break
    except csv.Error:
        return False
    if not counts:
        return False
    usual, often = Counter(counts).most_common(1)[0]
    return usual >= 2 and often >= 0.8 * len(counts)


def _places(
    rows: Sequence[tuple[int, list[str]]], columns: Mapping[str, ColumnWords], name: str
) -> tuple[dict[str, int], int | None]:
    """Where each column stands, and the line of the headings if there is one."""
    problems: list[Problem] = []
    if not {"day", "moment"} & set(columns):
        problems.append(_problem("", name, "no column for the day", "day, or moment for day and time in one", 'Name it: --column "day = column 1, year first".'))  # fmt: skip
    if not set(columns) - {"day", "moment", "time", "offset"}:
        problems.append(_problem("", name, "no column with anything seen", ", ".join(MEANINGS[4:]), 'Name it: --column "charge = column 4, %".'))  # fmt: skip
    for meaning, words in columns.items():
        problems += _unit_problem(meaning, words, name)
    first_line, first = rows[0]
    by_heading = any(words.number is None for words in columns.values())
    at: dict[str, int] = {}
    for meaning, words in columns.items():
        if words.number is not None:
            at[meaning] = words.number - 1
            if words.number > max(len(cells) for _, cells in rows):
                problems.append(_problem("", meaning, f"column {words.number}", f"columns 1 to {max(len(cells) for _, cells in rows)}", "Count them from the left, from 1."))  # fmt: skip
            continue
        there = [nth for nth, head in enumerate(first) if head.lower() == words.heading.lower()]
        if len(there) != 1:
            why = "no column headed so" if not there else "two columns headed so"
            problems.append(_problem("", meaning, f"{words.heading}: {why}", ", ".join(first), "Write the heading as it stands, or count: column 4."))  # fmt: skip
        else:
            at[meaning] = there[0]
    if problems:
        raise Wrong(problems)
    cells = [first[nth] for nth in at.values() if nth < len(first)]
    headed = by_heading or not any(re.search(r"\d", cell) for cell in cells)
    return at, first_line if headed else None


def _unit_problem(meaning: str, words: ColumnWords, name: str) -> Iterator[Problem]:
    dimension = _FIGURE[meaning][1] if meaning in _FIGURE else None
    wanted = ("share", "volume") if meaning == "tank" else (dimension,)
    if words.unit and units()[words.unit].dimension not in wanted:
        allowed = ", ".join(unit_names(dimension)[:8]) if dimension else "no unit"
        yield _problem("", f"{name}: {meaning}", words.unit, allowed, "Name the unit its numbers are in.")  # fmt: skip
    if words.order and meaning not in ("day", "moment"):
        yield _problem("", f"{name}: {meaning}", words.order, "an order for day or moment only", "Take it out.")  # fmt: skip


@dataclass(slots=True)
class _Row:
    """One line of the table."""

    section: str
    line: int
    cells: Sequence[str]
    at: Mapping[str, int]
    columns: Mapping[str, ColumnWords]
    counted: _Counted

    def entry(self, known: Known, offset_of: Offset) -> tuple[Entry | None, list[Problem]]:
        values: dict[str, Any] = {}
        problems: list[Problem] = []
        for meaning in self.at:
            cell = self._cell(meaning)
            if not cell or meaning in ("day", "moment", "time", "offset"):
                continue
            try:
                values |= self._value(meaning, cell, known)
            except ValueError as wrong:
                problems.append(self._refused(meaning, cell, str(wrong)))
        if not values and not problems:
            return None, []
        if "rod_m" in values and "tilt_deg" not in values:
            problems += self._tilt(values, known)
        moment: Moment | None = None
        try:
            moment = self._moment(offset_of)
        except ValueError as wrong:
            problems.append(self._refused("moment" if "moment" in self.at else "day", self._cell("moment") or self._cell("day"), str(wrong)))  # fmt: skip
        if problems or moment is None:
            return None, problems
        return Entry(moment, whence=self.section, written="; ".join(self._cell(one) for one in self.at if self._cell(one))[:2000], **values), []  # fmt: skip

    def _cell(self, meaning: str) -> str:
        nth = self.at.get(meaning)
        cell = self.cells[nth] if nth is not None and nth < len(self.cells) else ""
        if meaning not in ("note", "snow") and cell.lower() in NOTHING:
            self.counted.nothing[cell] += 1
            return ""
        return cell

    def _refused(self, meaning: str, cell: str, why: str) -> Problem:
        words = self.columns[meaning]
        return Problem(self.section, meaning, cell[:60] or "nothing", f"as {words.written}", why)

    def _value(self, meaning: str, cell: str, known: Known) -> dict[str, Any]:
        if meaning == "note":
            return {"note": cell}
        if meaning == "done":
            return {"done": _chores(cell, known)}
        if meaning == "snow" and cell.lower() in SNOW:
            return {"snow": SNOW[cell.lower()]}
        words = self.columns[meaning]
        key, dimension = _FIGURE[meaning]
        text = with_point(cell, decimal_comma=words.decimal_comma)
        if _BARE.fullmatch(text):
            unit = words.unit or ("deg" if meaning == "tilt" else "")
            if not unit:
                message = f"Its unit is not known: name it behind the column, as  {words.written}, {unit_names(dimension)[0]}."
                raise ValueError(message)
            text = f"{text} {unit}"
        if meaning == "tank" and not text.endswith("%"):
            key, dimension = "tank_l", "volume"
        try:
            value = read_quantity(text, dimension)
        except NotAQuantity as wrong:
            message = f"{wrong}."
            raise ValueError(message) from None
        return {key: value / S_PER_H if dimension == "time" else value}

    def _tilt(self, values: dict[str, Any], known: Known) -> list[Problem]:
        if known.tilt_of_rod is None:
            return [self._refused("rod", self._cell("rod"), "No drive in the homestead file: give the tilt.")]  # fmt: skip
        try:
            values["tilt_deg"] = known.tilt_of_rod(values["rod_m"])
        except Wrong as wrong:
            return [self._refused("rod", self._cell("rod"), f"{one.given}; {one.do}") for one in wrong.problems]  # fmt: skip
        return []

    def _moment(self, offset_of: Offset) -> Moment:
        which = "moment" if "moment" in self.at else "day"
        cell = self._cell(which)
        if not cell:
            raise ValueError("A line with figures needs its day.")  # noqa: EM101
        found = _DATE.match(cell)
        if found is None:
            raise ValueError("No date: write it as 2026-11-24.")  # noqa: EM101
        day = read_date(found, self.columns[which].order)
        rest = cell[found.end() :].strip(" T,")
        if which == "day" and rest:
            raise ValueError(f"More than a day: {rest}. Name the column  moment  if it holds the time too.")  # noqa: EM102  # fmt: skip
        said = rest if which == "moment" else self._cell("time")
        if not said:
            return Moment(day)
        at, offset = self._time(said)
        if self._cell("offset"):
            offset = _offset(self._cell("offset"))
        if offset is not None:
            return Moment(day, at, offset)
        moment, clock = on_the_clock(day, at, offset_of)
        if clock == "twice":
            self.counted.twice.append(self.line)
        elif clock == "never":
            self.counted.never.append(self.line)
        return moment

    def _time(self, said: str) -> tuple[time, int | None]:
        plain = re.sub(r"(\d:\d{2}):\d{2}(?:\.\d+)?", r"\1", said)
        if plain != said:
            self.counted.seconds += 1
        try:
            return read_time(plain)
        except ValueError:
            message = f"No time: {said}. Write it as 7:10, 19:10 or 7:10 pm."
            raise ValueError(message) from None


def with_point(cell: str, *, decimal_comma: bool) -> str:
    """The number of a cell with a decimal point and no marks between thousands; text stays text.

    Args:
        cell: As it stands.
        decimal_comma: The column's numbers have a decimal comma.

    Raises:
        ValueError: A comma or a point that may mean two things.

    Example:
        >>> with_point("1.234,5 kWh", decimal_comma=True), with_point("78.5 %", decimal_comma=False)
        ('1234.5 kWh', '78.5 %')
        >>> with_point("78,5", decimal_comma=False)
        Traceback (most recent call last):
        ValueError: A decimal comma? Then say so behind the column: decimal comma.
    """
    found = re.match(r"[+-]?[\d.,]*\d", cell)
    if found is None:
        return cell
    figure, rest = found[0], cell[found.end() :]
    if decimal_comma:
        if "." in figure and not re.fullmatch(r"[+-]?\d{1,3}(?:\.\d{3})+,\d+", figure):
            message = f"{figure} has a point, and its column a decimal comma: write one of them."
            raise ValueError(message)
        return figure.replace(".", "").replace(",", ".") + rest
    if "," not in figure:
        return cell
    if re.fullmatch(r"[+-]?\d{1,3},\d{3}", figure):
        message = f"{figure} may be {figure.replace(',', '')} or {figure.replace(',', '.')}: write it without the comma, or say  decimal comma  behind the column."
        raise ValueError(message)
    if re.fullmatch(r"[+-]?\d{1,3}(?:,\d{3})+(?:\.\d+)?", figure):
        return figure.replace(",", "") + rest
    raise ValueError("A decimal comma? Then say so behind the column: decimal comma.")  # noqa: EM101


def read_date(found: re.Match[str], order: str) -> date:
    """A date of three numbers; without an order the year stands first, or only one order can be meant.

    Args:
        found: Three numbers and what stands between them.
        order: Named by the owner, or empty.

    Raises:
        ValueError: No day, or one that may be two.
    """
    first, between, second, third = found[1], found[2], found[3], found[4]
    told = f"{first}{between}{second}{between}{third}"
    order = order or ("year first" if len(first) == 4 else "")
    if order:
        parts = {"year first": (first, second, third), "day first": (third, second, first), "month first": (third, first, second)}[order]  # fmt: skip
        if len(parts[0]) != 4:
            message = f"{told} has no year of four figures where the order ({order}) has it."
            raise ValueError(message)
        return _calendar_day(*parts, told)
    if len(third) != 4:
        message = f"{told}: write the year with four figures, as 2026-11-24."
        raise ValueError(message)
    meant = []
    for day, month in ((first, second), (second, first)):
        try:
            meant.append(date(int(third), int(month), int(day)))
        except ValueError:
            continue
    if not meant:
        message = f"{told} is no day of the calendar."
        raise ValueError(message)
    if len(set(meant)) > 1:
        message = f"{told} may be {_said(meant[0])} or {_said(meant[1])}: say  day first  or  month first  behind the column."
        raise ValueError(message)
    return meant[0]


def _calendar_day(year: str, month: str, day: str, told: str) -> date:
    try:
        return date(int(year), int(month), int(day))
    except ValueError:
        message = f"{told} is no day of the calendar in that order."
        raise ValueError(message) from None


def _said(day: date) -> str:
    return f"{day.day} {day:%B %Y}"


def _offset(said: str) -> int:
    found = re.fullmatch(r"(?:UTC|GMT)?\s*([+-])(\d{1,2}):?(\d{2})?", said.replace("−", "-"), re.IGNORECASE)  # fmt: skip
    if found is None:
        message = f"No offset from UTC: {said}. Write it as -06:00."
        raise ValueError(message)
    return (-1 if found[1] == "-" else 1) * (60 * int(found[2]) + int(found[3] or 0))


def _chores(cell: str, known: Known) -> tuple[str, ...]:
    words = [word.strip().lower() for word in re.split(r"[;+]|\band\b", cell) if word.strip()]
    missing = [word for word in words if word not in known.chores]
    if missing:
        message = f"No chore known here: {', '.join(missing)}. Known: {', '.join(dict.fromkeys(known.chores.values()))}."
        raise ValueError(message)
    return tuple(dict.fromkeys(known.chores[word] for word in words))


def _told(counted: _Counted) -> Iterator[str]:
    if counted.nothing:
        said = ", ".join(f"{cell} ({count})" for cell, count in sorted(counted.nothing.items()))
        yield f"Cells taken as not looked at: {said}."
    if counted.seconds:
        yield f"Seconds left out in {counted.seconds} lines; a minute is one moment."
    if counted.twice:
        yield f"Hours that came twice when the clocks went back, kept as written: lines {_few(counted.twice)}."
    if counted.never:
        yield f"Hours that never were when the clocks went on, kept as written: lines {_few(counted.never)}."


def _few(lines: Sequence[int]) -> str:
    more = f" and {len(lines) - 8} more" if len(lines) > 8 else ""
    return ", ".join(str(line) for line in lines[:8]) + more


def _problem(section: str, key: str, given: str, allowed: str, do: str) -> Problem:
    return Problem(section, key, given, allowed, do)
