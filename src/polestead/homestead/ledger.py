"""The ledger: lines of the homestead file, and a CSV beside it, read with all its faults told at once and written without loss."""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from difflib import get_close_matches
from pathlib import Path
from typing import Any, Literal, get_args

from polestead.base.problem import Problem, Wrong
from polestead.base.row import Row
from polestead.homestead.model import LedgerColumn, Part, Prices
from polestead.homestead.standing import FIRST_YEAR, LAST_YEAR
from polestead.homestead.text import shown

Stage = Literal["planned", "quoted", "paid", ""]
COLUMNS: tuple[str, ...] = get_args(LedgerColumn)
PARTS: tuple[str, ...] = get_args(Part)
MONEY = ("planned", "quoted", "paid")
LARGEST_BYTES = 1_000_000
MOST_LINES = 2000
LONGEST = {"name": 60, "by": 60, "note": 300}
MOST = {"planned": 1e8, "quoted": 1e8, "paid": 1e8, "hours": 1e5, "rate": 1e6}
_MONEY = re.compile(r"(-?)\s*(?:[A-Z]{1,3}\$?|[$€£])?\s*(-?)\s*(\d{1,3}(?:,\d{3})+|\d{1,12})(\.\d+)?\s*(?:[A-Z]{3}|[$€£])?")  # fmt: skip
_DOLLARS = ("USD", "CAD", "AUD", "NZD", "US$", "C$", "A$", "NZ$")
_SIGN_OF = {"EUR": "€", "€": "EUR", "GBP": "£", "£": "GBP"}
_HOURS = re.compile(r"(\d{1,9}(?:\.\d+)?)\s*(?:h|hrs?|hours?)?\.?")


@dataclass(frozen=True, slots=True)
class LedgerRow:
    """One line of the ledger as the owner keeps it.

    Attributes:
        name: What it is.
        part: What it belongs to; empty where the owner leaves it open.
        planned, quoted, paid: Money at each stage, None where there is none; a grant has a minus.
        on: Day of the figure that counts.
        hours: Of work, None where none are counted.
        by: Whose hours.
        rate: What one of them is worth; beside, never in a sum of money.
        note: The owner's own.
        mark: ``~`` where the figure is assumed.
        beside: Headings and texts of the owner's other columns.
    """

    name: str
    part: str = ""
    planned: float | None = None
    quoted: float | None = None
    paid: float | None = None
    on: date | None = None
    hours: float | None = None
    by: str = ""
    rate: float | None = None
    note: str = ""
    mark: str = ""
    beside: tuple[tuple[str, str], ...] = ()

    @property
    def stage(self) -> Stage:
        """The latest stage that has a figure: paid counts before quoted before planned; none for hours alone."""
        for stage, value in (("paid", self.paid), ("quoted", self.quoted), ("planned", self.planned)):  # fmt: skip
            if value is not None:
                return stage  # type: ignore[return-value]
        return ""

    @property
    def amount(self) -> float:
        """The figure that counts.

        Example:
            >>> LedgerRow("pole", planned=900.0, quoted=960.0).amount, LedgerRow("digging", hours=6.0).amount
            (960.0, 0.0)
        """
        figures = (self.paid, self.quoted, self.planned)
        return next((value for value in figures if value is not None), 0.0)


def rows_in(
    prices: Prices, rows: Iterable[Row], beside: tuple[LedgerRow, ...]
) -> tuple[LedgerRow, ...]:
    """Every line of the ledger: ``[prices.lines]``, ``[[prices.entry]]``, then the file beside.

    A line under ``[prices.lines]`` is planned as it stands; ``said`` is what was quoted, ``built`` what was paid.

    Args:
        prices: The section.
        rows: Of the homestead file, for who says so.
        beside: Read from the CSV.
    """
    said = {row.key: row for row in rows if row.section == "prices.lines"}
    lines = tuple(_line(name, amount, said.get(name)) for name, amount in prices.lines.items())
    entries = tuple(
        LedgerRow(
            one.name, one.part or "", one.planned, one.quoted, one.paid, one.on, one.hours, one.by or "", one.rate, one.note
        )
        for one in prices.entry
    )  # fmt: skip
    return (*lines, *entries, *beside)


def _line(name: str, amount: float, row: Row | None) -> LedgerRow:
    if row is None or row.standing not in ("built", "said"):
        return LedgerRow(name, planned=amount, mark="" if row is None else row.mark)
    before = float(row.planned) if row.planned else None
    paid = amount if row.standing == "built" else None
    quoted = amount if row.standing == "said" else None
    return LedgerRow(name, "", before, quoted, paid, row.on, by="", note=row.asked_of)


def read_ledger(
    path: Path, columns: Mapping[str, str], currency: str = ""
) -> tuple[LedgerRow, ...]:
    """Read the CSV beside the homestead file.

    Args:
        path: The file.
        columns: The owner's own heading by what it means, where it is not our word for it.
        currency: Of the prices; a figure marked with another is refused.

    Raises:
        Wrong: With every problem found, each with line, column, given, allowed, what to do.
    """
    return ledger_rows(_text_of(path), columns, path.name, currency)


def _text_of(path: Path) -> str:
    try:
        with path.open("rb") as file:
            raw = file.read(LARGEST_BYTES + 1)
    except (OSError, ValueError) as refused:
        why = f"{shown(str(path))}, which cannot be opened ({getattr(refused, 'strerror', None) or refused})"
        do = "Check the name; it is looked for in the folder of the homestead file."
        raise Wrong([Problem("prices", "ledger", why, "a CSV file", do)]) from None
    if len(raw) > LARGEST_BYTES:
        why = f"{shown(path.name)}, which has more than {LARGEST_BYTES:,} bytes"
        raise Wrong([Problem("prices", "ledger", why, "a CSV file under 1 MB", "Is it another file?")])  # fmt: skip
    try:
        return raw.decode("utf-8-sig")
    except UnicodeDecodeError:
        why = f"{shown(path.name)}, which is not UTF-8 text"
        do = "Save the sheet again as CSV in UTF-8."
        raise Wrong([Problem("prices", "ledger", why, "UTF-8 text", do)]) from None


def ledger_rows(
    text: str, columns: Mapping[str, str], name: str = "ledger.csv", currency: str = ""
) -> tuple[LedgerRow, ...]:
    r"""The lines of a ledger's text.

    Comma, semicolon or tab may stand between; columns stand in any order; those of the owner's own are kept.

    Args:
        text: Of the file.
        columns: The owner's own heading by what it means.
        name: Of the file, for what is told.
        currency: Of the prices; a figure marked with another is refused.

    Raises:
        Wrong: With every problem found.

    Example:
        >>> row, = ledger_rows("Item,paid,on\nPole,\"1,180.00\",2026-05-01\n", {"name": "Item"})
        >>> row.name, row.amount, row.stage, row.on.isoformat()
        ('Pole', 1180.0, 'paid', '2026-05-01')
    """
    cells, problems = _cells(_bare(text), name)
    if not cells:
        if not problems:
            do = "Write a first line  name,part,planned,quoted,paid,on,hours,by,rate,note  and a line for each thing."
            problems.append(Problem(name, "", "nothing", "a line of headings", do))
        raise Wrong(problems)
    heads, faults = _headings([head.strip() for head in cells[0][1]], columns, name)
    problems += faults
    rows: list[LedgerRow] = []
    if not faults:
        for line, given in cells[1:]:
            row, wrong = _row(given, heads, f"{name} line {line}", currency)
            problems += wrong
            rows += [row] if row is not None else []
    if len(cells) - 1 > MOST_LINES:
        allowed = f"at most {MOST_LINES}"
        problems.append(Problem(name, "", f"{len(cells) - 1} lines", allowed, "Is it another file?"))  # fmt: skip
    if problems:
        raise Wrong(problems[:200])
    return tuple(rows)


def _bare(text: str) -> str:
    """Without a byte-order mark, and without the line a sheet may write to say what stands between its columns."""
    return re.sub(r"\Asep=.\r?\n", "", text.removeprefix("\ufeff"))


def _cells(text: str, name: str) -> tuple[list[tuple[int, list[str]]], list[Problem]]:
    """Lines that hold anything, with their number."""
    head = next((line for line in text.splitlines() if line.strip()), "")
    between = max(",;\t", key=head.count)
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=between, strict=True)
    found: list[tuple[int, list[str]]] = []
    try:
        found.extend(
            (reader.line_num, given) for given in reader if any(cell.strip() for cell in given)
        )
    except csv.Error as wrong:
        do = "Mend that line: a text with a comma or a quote in it stands in quotes, its own quotes doubled."
        return found, [Problem(f"{name} line {reader.line_num}", "", f"no CSV ({wrong})", "one line for each thing", do)]  # fmt: skip
    return found, []


def _headings(heads: list[str], columns: Mapping[str, str], name: str) -> tuple[list[str], list[Problem]]:  # fmt: skip
    """What each column means, or its own heading in brackets; and what is wrong with the headings."""
    section = f"{name} line 1"
    problems: list[Problem] = []
    own = {head.strip().lower(): meaning for meaning, head in columns.items()}
    taken = set(columns)
    meanings: list[str] = []
    for head in heads:
        word = head.lower()
        meaning = own.get(word) or (word if word in COLUMNS and word not in taken else f"[{head}]")
        if not head:
            problems.append(Problem(section, "", "a column without a heading", ", ".join(COLUMNS), "Give it one, or take the column out."))  # fmt: skip
        elif meaning in meanings:
            problems.append(Problem(section, shown(head), "a heading that stands twice", "each once", "Rename one of them."))  # fmt: skip
        meanings.append(meaning)
    for meaning, head in columns.items():
        if meaning not in meanings:
            do = f'Write its heading as it stands in the file: ledger_columns = {{ {meaning} = "..." }}.'
            problems.append(Problem("prices.ledger_columns", meaning, shown(head), ", ".join(heads), do))  # fmt: skip
    if "name" not in meanings and "name" not in columns:
        problems.append(_missing(section, "name", heads))
    elif not problems and not set(meanings) & {*MONEY, "hours"}:
        problems.append(_missing(section, "planned", heads))
    return meanings, problems


def _missing(section: str, meaning: str, heads: list[str]) -> Problem:
    near = get_close_matches(meaning, heads, n=1, cutoff=0.6)
    own = near[0] if near else "..."
    which = "name" if meaning == "name" else "planned, quoted, paid or hours"
    do = f'Name one so, or write under [prices]  ledger_columns = {{ {meaning} = "{own}" }}.'
    return Problem(section, "", f"the headings {shown(', '.join(heads))}", f"a column {which}", do)


def _row(
    given: list[str], heads: list[str], section: str, currency: str
) -> tuple[LedgerRow | None, list[Problem]]:
    """One line read, or all that is wrong with it."""
    if len(given) > len(heads) and any(cell.strip() for cell in given[len(heads) :]):
        do = "Put a text or a sum that has a comma in it in quotes."
        allowed = f"{len(heads)}, as there are headings"
        return None, [Problem(section, "", f"{len(given)} columns", allowed, do)]
    texts = {head: cell.strip() for head, cell in zip(heads, given, strict=False)}
    problems: list[Problem] = []
    numbers = {key: _number(texts.get(key, ""), key, section, problems) for key in MOST}
    problems += _other_money(texts, section, currency)
    on = _day(texts.get("on", ""), section, problems)
    for key, longest in LONGEST.items():
        text = texts.get(key, "")
        if len(text) > longest or not text.isprintable():
            allowed = f"one line, at most {longest} letters"
            problems.append(Problem(section, key, shown(text), allowed, "Say it shorter."))
    if not texts.get("name"):
        problems.append(Problem(section, "name", "nothing", "a name", "Say what it is, or take the line out."))  # fmt: skip
    part = texts.get("part", "").lower()
    if part and part not in PARTS:
        near = get_close_matches(part, PARTS, n=1, cutoff=0.5)
        do = f"Did you mean {near[0]}?" if near else "Leave it empty, and it is guessed from the name."  # fmt: skip
        problems.append(Problem(section, "part", shown(part), ", ".join(PARTS), do))
    money = [numbers[key] for key in MONEY]
    if not problems and all(value is None for value in (*money, numbers["hours"])):
        problems.append(
            Problem(section, "", "a line with neither money nor hours", "planned, quoted, paid or hours", "Add one of them; a thing that costs nothing is 0.")
        )  # fmt: skip
    if not problems and numbers["rate"] is not None and numbers["hours"] is None:
        problems.append(Problem(section, "rate", texts["rate"], "a rate beside hours", "Add the hours it is for."))  # fmt: skip
    if problems:
        return None, problems
    beside = tuple((head[1:-1], texts.get(head, "")) for head in heads if head.startswith("["))
    return LedgerRow(
        texts["name"], part, numbers["planned"], numbers["quoted"], numbers["paid"], on, numbers["hours"],
        texts.get("by", ""), numbers["rate"], texts.get("note", ""), "", beside,
    ), []  # fmt: skip


def _number(text: str, key: str, section: str, problems: list[Problem]) -> float | None:
    """Money or hours; None for an empty cell."""
    if not text:
        return None
    found, do = _hours(text) if key == "hours" else _money(text, key)
    if found is not None and not abs(found) <= MOST[key]:
        found, do = None, "Check the number and its unit."
    if found is None:
        what = "hours as a number" if key == "hours" else "money as a number, 1180 or 1,180.00"
        problems.append(Problem(section, key, shown(text), f"{what}, at most {MOST[key]:,.0f}", do))
    return found


def _other_money(texts: Mapping[str, str], section: str, currency: str) -> Iterator[Problem]:
    """Figures marked with a currency that is not the file's: no sum mixes two."""
    own = currency.strip().upper()
    for key in (*MONEY, "rate"):
        sign = re.sub(r"[^A-Z$€£]", "", texts.get(key, ""))
        if not own or not sign or sign in (own, _SIGN_OF.get(own, "")) or ("$" in sign and (own == "$" or own in _DOLLARS)):  # fmt: skip
            continue
        do = f"Turn it into {currency} at the day's rate; every line stands in one currency."
        yield Problem(section, key, shown(texts[key]), f"money in {currency}", do)


def _hours(text: str) -> tuple[float | None, str]:
    found = _HOURS.fullmatch(text.lower())
    if found is not None:
        return float(found[1]), ""
    if re.search(r"[$€£]", text):
        return None, "That is money: it goes under planned, quoted or paid."
    return None, "Write hours with a point for parts of one: 6.5."


def _money(text: str, key: str) -> tuple[float | None, str]:
    plain = text.replace("−", "-").replace("\u00a0", " ").strip()
    if re.search(r"\d\s*(?:h|hrs?|hours?)\.?$", plain.lower()):
        return None, "Those are hours: they go under hours."
    if re.search(r",\d{1,2}\D*$", plain):
        return None, "A decimal comma: write a point, and a comma only between thousands."
    if re.fullmatch(r"\D*[1-9]\d{0,2}\.\d{3}\D*", plain):
        return (
            None,
            "Three places behind the point: write 1180 if a thousand is meant, 1.18 if not.",
        )
    if re.fullmatch(r"\(.*\d.*\)", plain):
        return None, "Brackets: write money that comes back with a minus, -42.50."
    if re.search(r"\d \d{3}", plain):
        return None, "A space between thousands: write 1180 or 1,180."
    found = _MONEY.fullmatch(plain)
    if found is None or (found[1] and found[2]):
        return None, "Write one plain number."
    value = float(found[3].replace(",", "") + (found[4] or ""))
    if value and (found[1] or found[2]):
        value = -value
    if value < 0.0 and key == "rate":
        return None, "A rate has no minus."
    return value, ""


def _day(text: str, section: str, problems: list[Problem]) -> date | None:
    if not text:
        return None
    try:
        day = date.fromisoformat(text) if re.fullmatch(r"\d{4}-\d{2}-\d{2}", text) else None
    except ValueError:
        day = None
    if day is not None and FIRST_YEAR <= day.year <= LAST_YEAR:
        return day
    problems.append(
        Problem(section, "on", shown(text), f"a day of {FIRST_YEAR} to {LAST_YEAR}", "Write it year first, 2026-05-01: 5/1 is read two ways.")
    )  # fmt: skip
    return None


def ledger_text(rows: Iterable[LedgerRow], columns: Mapping[Any, str] | None = None) -> str:
    r"""Lines as CSV that reads back to the same lines; the ``~`` of an assumed one stays with the homestead file.

    Args:
        rows: In their order.
        columns: The owner's own heading by what it means, as for reading.

    Example:
        >>> ledger_text([LedgerRow("pole, 20 ft", paid=960.0, on=date(2026, 5, 1))])
        'name,part,planned,quoted,paid,on,hours,by,rate,note\n"pole, 20 ft",,,,960,2026-05-01,,,,\n'
    """
    listed = list(rows)
    own = list(dict.fromkeys(head for row in listed for head, _ in row.beside))
    out = io.StringIO(newline="")
    writer = csv.writer(out, lineterminator="\n")
    heads = columns or {}
    writer.writerow([*(heads.get(column, column) for column in COLUMNS), *own])
    for row in listed:
        beside = dict(row.beside)
        writer.writerow([*_written(row), *(beside.get(head, "") for head in own)])
    return out.getvalue()


def _written(row: LedgerRow) -> Iterator[str]:
    for column in COLUMNS:
        value = getattr(row, column)
        if value is None:
            yield ""
        elif isinstance(value, float):
            yield _plain(value)
        else:
            yield value.isoformat() if isinstance(value, date) else value


def _plain(value: float) -> str:
    """A number without an exponent; never three places behind the point, which reads as thousands."""
    text = format(Decimal(repr(value)), "f")
    text = text.rstrip("0").rstrip(".") if "." in text else text
    return text + "0" if re.search(r"\.\d{3}$", text) else text
