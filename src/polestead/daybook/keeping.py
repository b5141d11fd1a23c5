"""The daybook as CSV and back, without loss: every entry, struck ones too, with number, offset and the words it was read from."""

from __future__ import annotations

import csv
import io
from codecs import BOM_UTF8
from collections.abc import Iterable, Sequence
from dataclasses import fields
from datetime import date, datetime, time
from typing import Any, get_args

from polestead.base.problem import Problem, Wrong
from polestead.daybook.daybook import BETWEEN, Kept
from polestead.daybook.entry import KINDS, Entry, Moment, Snow, entry_problems

_FIELDS = tuple(one.name for one in fields(Entry) if one.name != "moment")
HEADS = ("number", "day", "time", "offset_min", *_FIELDS, "kept_at", "struck", "struck_at")
OLDER_HEADS = tuple(head for head in HEADS if head != "bank_c")  # before it had a column of its own
_NUMBERS = frozenset(KINDS) - {"snow"}


def exported(kept: Iterable[Kept]) -> bytes:
    r"""Entries as CSV in UTF-8, SI with the unit last in each heading; ``own_rows`` reads it back to the same entries.

    Args:
        kept: In order.

    Example:
        >>> text = exported([Kept(1, Entry(Moment(date(2026, 11, 24)), note="ice\non it"), datetime(2026, 11, 24, 7, 10))])
        >>> own_rows(text, datetime(2026, 11, 25))[0].entry.note
        'ice\non it'
    """
    out = io.StringIO(newline="")
    writer = csv.writer(out, lineterminator="\r\n", quoting=csv.QUOTE_MINIMAL)
    writer.writerow(HEADS)
    for one in kept:
        moment, entry = one.entry.moment, one.entry
        writer.writerow([
            one.number, moment.day.isoformat(), "" if moment.at is None else f"{moment.at:%H:%M}", _text(moment.offset_min),
            *(_text(getattr(entry, name)) for name in _FIELDS),
            one.kept_at.isoformat(timespec="seconds"), _text(one.struck), "" if one.struck_at is None else one.struck_at.isoformat(timespec="seconds"),
        ])  # fmt: skip
    return out.getvalue().encode("utf-8")


def _text(value: Any) -> str:
    if value is None:
        return ""
    if isinstance(value, tuple):
        return BETWEEN.join(value)
    return repr(value) if isinstance(value, float) else str(value)


def is_own(raw: bytes) -> bool:
    """Whether a file is a daybook written by ``exported``.

    Args:
        raw: The file, or its beginning.
    """
    plain = raw.removeprefix(BOM_UTF8)
    return any(plain.startswith(",".join(heads).encode()) for heads in (HEADS, OLDER_HEADS))


def own_rows(raw: bytes, now: datetime, name: str = "the daybook") -> tuple[Kept, ...]:
    """Entries of an exported file, in its order.

    Args:
        raw: From ``exported``.
        now: The clock; nothing may be later.
        name: Of the file, for what is told.

    Raises:
        Wrong: With every line that was changed so that it cannot be read.
    """
    try:
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise Wrong([Problem(name, "", "not UTF-8", "the file as it was exported", "Save it as UTF-8, or export again.")]) from None  # fmt: skip
    kept: list[Kept] = []
    problems: list[Problem] = []
    reader = csv.reader(io.StringIO(text, newline=""), strict=True)
    line, heads = 0, HEADS
    try:
        for cells in reader:
            line, begins = reader.line_num, line + 1
            if begins == 1:
                heads = OLDER_HEADS if tuple(cells) == OLDER_HEADS else HEADS
            if begins == 1 or not cells:
                continue
            try:
                one = _row(cells, heads)
            except ValueError as wrong:
                problems.append(Problem(f"{name} line {begins}", "", str(wrong)[:80], "a line as it was written", "Mend it, or export again."))  # fmt: skip
                continue
            problems += [Problem(f"{name} line {begins}", bad.key, bad.given, bad.allowed, bad.do) for bad in entry_problems(one.entry, now)]  # fmt: skip
            kept.append(one)
    except csv.Error as wrong:
        problems.append(Problem(f"{name} line {line + 1}", "", f"no CSV ({wrong})", "a line as it was written", "Mend it, or export again."))  # fmt: skip
    if problems:
        raise Wrong(problems)
    return tuple(kept)


def _row(cells: Sequence[str], heads: Sequence[str]) -> Kept:
    given = {"bank_c": ""} | dict(zip(heads, cells, strict=True))
    at, offset = given["time"], given["offset_min"]
    moment = Moment(date.fromisoformat(given["day"]), time.fromisoformat(at) if at else None, int(offset) if offset else None)  # fmt: skip
    values = {name: _value(name, given[name]) for name in _FIELDS}
    struck_at = given["struck_at"]
    return Kept(
        int(given["number"]), Entry(moment, **values), datetime.fromisoformat(given["kept_at"]), given["struck"] or None,
        datetime.fromisoformat(struck_at) if struck_at else None,
    )  # fmt: skip


def _value(name: str, cell: str) -> Any:
    if name in _NUMBERS:
        return float(cell) if cell else None
    if name == "done":
        return tuple(cell.split(BETWEEN)) if cell else ()
    if name == "snow":
        if cell and cell not in get_args(Snow):
            message = f"{cell} is no snow"
            raise ValueError(message)
        return cell or None
    return cell
