"""The daybook from a terminal: each thing asked is done by its room, and told by a sheet."""

from __future__ import annotations

import argparse
from contextlib import AbstractContextManager
from dataclasses import replace
from datetime import date, datetime, timedelta
from pathlib import Path
from typing import cast

from polestead.base.problem import Problem, Wrong
from polestead.base.show import Style
from polestead.build.chores import chore_words
from polestead.cli.beside import daybook_beside
from polestead.cli.put import put, put_data
from polestead.cli.taught import taught
from polestead.daybook.chores import Due
from polestead.daybook.daybook import Daybook, empty_daybook, open_daybook
from polestead.daybook.days import days, gaps
from polestead.daybook.entry import Entry
from polestead.daybook.words import joined, machine_offset, moment_of, read_line
from polestead.homestead.read import OwnersFile
from polestead.sheets import log as sheet
from polestead.sheets.owners_log import dues_in, house_in, known_in, unproved_rod


def log(words: argparse.Namespace, owners: OwnersFile) -> int:
    """Everything `polestead log` does; without anything asked, the last entries are listed."""
    now = datetime.now().astimezone()
    style = cast("Style", words.units or owners.homestead.units)
    path = daybook_beside(words.file)
    _one_thing(words)
    looks_only = not (words.words or words.ticks or words.strike or (words.csv and not words.dry_run))  # fmt: skip
    with _book(path, looks_only=looks_only) as book:
        code, said = _done(words, owners, book, now, style)
        told = [] if book.copy is None else [sheet.brought_forward(book.copy)]
        told += [] if said is None else [said]
        if not (words.chores or words.chore or words.taught):
            told.append(sheet.due_line(dues_in(book, owners, now.date()), now.date()))
        try:
            _put_files(words, owners, book)
        finally:  # said last: a reader that closes early takes no file with it
            print("\n".join(told))
    return code


def _done(
    words: argparse.Namespace, owners: OwnersFile, book: Daybook, now: datetime, style: Style
) -> tuple[int, str | None]:
    """The one thing asked, with its exit code and what is said of it."""
    if words.csv is not None:
        return _table(words, owners, book, now, style)
    if words.strike is not None:
        return 0, _strike(words.strike, book, now, style)
    if words.ticks is not None:
        return 0, _ticks(words, owners, book, now, style)
    if words.words:
        return 0, _line(words, owners, book, now, style)
    if words.taught:
        return taught(words, owners, book, now.date(), style)
    if words.chores or words.chore is not None:
        return 0, _chores(words.chore, book, owners, now.date())
    if (words.export is None and words.json is None) or words.list is not None:
        return 0, _list(words.list or 20, book, now.date(), style)
    return 0, None


def found_chores(name: str, owners: OwnersFile, today: date) -> tuple[Due, ...]:
    """Chores by the daybook of a file.

    Args:
        name: As given to the command.
        owners: The file as read.
        today: The day.
    """
    with _book(daybook_beside(name), looks_only=True) as book:
        return dues_in(book, owners, today)


def _book(path: Path, *, looks_only: bool) -> AbstractContextManager[Daybook]:
    """Looking begins no file."""
    return empty_daybook() if looks_only and not path.exists() else open_daybook(path)


def _one_thing(words: argparse.Namespace) -> None:
    asked = {"words of a line": words.words, "--csv": words.csv, "--strike": words.strike, "--ticks": words.ticks, "--taught": words.taught}  # fmt: skip
    named = [name for name, value in asked.items() if value]
    problems = []
    if len(named) > 1:
        problems.append(Problem("", "log", " and ".join(named), "one of them", "Do one after the other."))  # fmt: skip
    if (words.on or words.at) and not (words.words or words.ticks):
        problems.append(Problem("", "log", "a day or an hour, and nothing seen", "tilt 62", "Write what was seen then."))  # fmt: skip
    if words.why and not words.taught:
        problems.append(Problem("", "--why", "nothing it could tell the why of", "--taught --why", "Ask for what the log teaches."))  # fmt: skip
    if words.csv is None and (words.dry_run or words.leave_out or words.column or words.between or words.encoding):  # fmt: skip
        problems.append(Problem("", "log", "how to read a table, and no table", "--csv IN", "Name the table."))  # fmt: skip
    if problems:
        raise Wrong(problems)


def _line(
    words: argparse.Namespace, owners: OwnersFile, book: Daybook, now: datetime, style: Style
) -> str:
    problems: list[Problem] = []
    moment, clock = None, None
    try:
        moment, clock = moment_of(words.on, words.at, now, machine_offset)
    except Wrong as wrong:
        problems += wrong.problems
    heard = None
    try:
        unplaced = moment_of(None, None, now, machine_offset)[0]
        heard = read_line(
            joined(words.words), moment or unplaced, known_in(owners), now, house_in(owners, style)
        )
    except Wrong as wrong:
        problems += wrong.problems
    if problems or heard is None or clock is None:
        raise Wrong(problems)
    told = [*heard.told, *unproved_rod(heard.entry, owners)]
    written = book.append(heard.entry, now, house_in(owners, style))
    return sheet.written_text(written, told, clock, style)


def _strike(said: list[str], book: Daybook, now: datetime, style: Style) -> str:
    number, *why = said
    if not number.isdigit():
        raise Wrong([Problem("", "--strike", number, "the number of an entry, then the reason", "As  --strike 12 wrong day.")])  # fmt: skip
    return sheet.strike_text(book.strike(int(number), " ".join(why), now), style)


def _ticks(
    words: argparse.Namespace, owners: OwnersFile, book: Daybook, now: datetime, style: Style
) -> str:
    from polestead.answer.cards import cards_only
    from polestead.daybook.poured import pour_note
    from polestead.daybook.ticks import cards_of, plain, read_ticks

    moment, clock = moment_of(words.on, words.at, now, machine_offset)
    ticks = read_ticks(words.ticks, cards_of(cards_only(owners)), now.date())
    line = plain(replace(ticks, poured=None))
    entries = [Entry(moment, ticks=line, written=words.ticks, whence="phone file")]
    if ticks.poured is not None:
        entries.append(Entry(moment, note=pour_note(ticks.poured), whence="phone file"))
    kept = book.append_all(entries, now, house_in(owners, style))
    return "\n".join([*(sheet.written_text(one, (), clock, style) for one in kept), *sheet.ticks_lines(ticks)])  # fmt: skip


def _chores(name: str | None, book: Daybook, owners: OwnersFile, today: date) -> str:
    found = dues_in(book, owners, today)
    key = None if name is None else chore_words().get(name.lower(), name)
    if key is not None and key not in [one.chore.key for one in found]:
        raise Wrong([Problem("", "--chore", str(name), ", ".join(one.chore.key for one in found), "Name one of these.")])  # fmt: skip
    return sheet.chores_text(found, today, key)


def _list(most: int, book: Daybook, today: date, style: Style) -> str:
    kept = book.entries(struck=True)[-most:]
    since = min((one.entry.moment.day for one in kept), default=today)
    rolled = days(book.entries(since), since, today - timedelta(days=1))
    return sheet.list_text(kept, gaps(rolled), style)


def _table(
    words: argparse.Namespace, owners: OwnersFile, book: Daybook, now: datetime, style: Style
) -> tuple[int, str]:
    """A table in; what is refused ends with 2, and nothing is written unless it may be left out."""
    from polestead.daybook.columns import LARGEST_BYTES, Table, columns_of, read_table
    from polestead.daybook.keeping import is_own, own_rows

    try:
        with words.csv.open("rb") as file:
            raw = file.read(LARGEST_BYTES + 1)
            own = is_own(raw)
            raw += file.read() if own else b""
    except OSError as refused:
        raise Wrong([Problem("", "--csv", f"{words.csv}, which cannot be opened ({refused.strerror})", "a table saved as CSV", "Check the name.")]) from None  # fmt: skip
    if own:
        kept = own_rows(raw, now, words.csv.name)
        return 0, sheet.restored_text(book.restore(kept, dry=words.dry_run), dry=words.dry_run)
    columns = columns_of(words.column, cast("dict[str, str]", owners.homestead.daybook.columns))
    table = Table(columns, words.encoding, words.between)
    taken = read_table(raw, table, known_in(owners), machine_offset, now, house_in(owners, style), words.csv.name)  # fmt: skip
    writes = not taken.refused or words.leave_out
    became = book.append_all(
        taken.entries, now, house_in(owners, style), dry=words.dry_run or not writes
    )
    said = sheet.table_text(taken, became, style, dry=words.dry_run, wrote=writes and not words.dry_run)  # fmt: skip
    return 0 if writes else 2, said


def _put_files(words: argparse.Namespace, owners: OwnersFile, book: Daybook) -> None:
    from polestead.daybook.keeping import exported

    if words.export is not None:
        put(words.export, exported(book.entries(struck=True)))
    if words.json is not None and not words.taught:
        data = sheet.log_data(owners.homestead.name, book.entries(struck=True))
        put_data(words.json, data)
