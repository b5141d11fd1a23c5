"""From the file on disk to a checked homestead with its rows; all problems told at once."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from pydantic import ValidationError

from polestead.base.problem import Problem, Wrong
from polestead.base.row import Row
from polestead.homestead.borrowed import of_this_file
from polestead.homestead.consistency import Readable, contradictions
from polestead.homestead.fields import Section, key_of, read_one
from polestead.homestead.ledger import COLUMNS, LedgerRow, read_ledger
from polestead.homestead.model import Homestead
from polestead.homestead.standing import is_list, plain_values, rows_of, section_class
from polestead.homestead.text import fingerprint_of, text_of
from polestead.homestead.told import told, told_beside

FORMAT = 1


@dataclass(frozen=True, slots=True)
class OwnersFile:
    """A homestead file as read.

    Attributes:
        path: Where it lies.
        homestead: The checked sections; as-built values stand where the owner measured them.
        rows: Every input of the sums with its standing, defaults included.
        fingerprint: First eight hex digits of the SHA-256 of its text.
        ledger: Lines of the CSV beside it, where it names one.
    """

    path: Path
    homestead: Homestead
    rows: tuple[Row, ...]
    fingerprint: str
    ledger: tuple[LedgerRow, ...] = ()


def read_homestead(path: Path) -> OwnersFile:
    """Read and check a homestead file, and the ledger beside it where it names one.

    Raises:
        Wrong: With every problem found in either, each with section, key, given, allowed, what to do.
    """
    return read_text(path, text_of(path))


def read_text(path: Path, text: str) -> OwnersFile:
    """The text of a homestead file checked as if it lay at the path, with the ledger that lies beside it there.

    Raises:
        Wrong: With every problem found in either.
    """
    ledger, problems = _ledger_beside(path, text)
    try:
        homestead, rows = check_text(text)
    except Wrong as wrong:
        raise Wrong((*wrong.problems, *problems)) from None
    if problems:
        raise Wrong(problems)
    return OwnersFile(path, homestead, rows, fingerprint_of(text), ledger)


def _ledger_beside(path: Path, text: str) -> tuple[tuple[LedgerRow, ...], tuple[Problem, ...]]:
    """The ledger a file names, read as far as its name and headings can be, and what is wrong with it."""
    try:
        prices = tomllib.loads(text).get("prices", {})
    except (ValueError, RecursionError):  # told by the check of the text
        return (), ()
    name = prices.get("ledger") if isinstance(prices, Mapping) else None
    columns = prices.get("ledger_columns", {}) if isinstance(prices, Mapping) else {}
    if not isinstance(name, str) or not name or not isinstance(columns, Mapping):
        return (), ()
    heads = {key: head for key, head in columns.items() if isinstance(head, str) and key in COLUMNS}
    own = prices.get("currency")
    try:
        return read_ledger(path.parent / name, heads, own if isinstance(own, str) else ""), ()
    except Wrong as wrong:
        return (), wrong.problems


def check_text(text: str) -> tuple[Homestead, tuple[Row, ...]]:
    """Check the text of a homestead file.

    Raises:
        Wrong: With every problem found.
    """
    raw = _parsed(text)
    _format(raw)
    plain, problems = plain_values(raw, Homestead)
    problems += told_beside(plain)
    homestead: Homestead | None = None
    try:
        homestead = Homestead.model_validate(plain.values)
    except ValidationError as wrong:
        problems += told(wrong, plain, Homestead)
    problems += contradictions(homestead or readable(plain.values, Homestead))
    if problems or homestead is None:
        raise Wrong(dict.fromkeys(problems))
    return homestead, of_this_file(rows_of(homestead, plain), homestead)


def _parsed(text: str) -> dict[str, Any]:
    try:
        return tomllib.loads(text)
    except tomllib.TOMLDecodeError as wrong:
        said = str(wrong)
    except RecursionError:
        said = "brackets inside brackets without end"
    except ValueError:  # the reader's own limit on the digits of a whole number
        said = "a number of thousands of digits"
    problem = Problem(
        "",
        "",
        f"text that is not TOML: {said}",
        'lines like  key = "12 ft"  under headings like  [mount]',
        "Mend that line; texts and quantities stand in quotes, and each key once.",
    )
    raise Wrong([problem])


def _format(raw: Mapping[str, Any]) -> None:
    """An older or newer format is told before anything else: its keys may mean other things."""
    given = raw.get("format", FORMAT)
    if isinstance(given, (bool, float)):
        do = f"Write  format = {FORMAT}  as a whole number."
    elif not isinstance(given, int) or given == FORMAT:
        return
    elif given > FORMAT:
        do = "Get a newer polestead to read it."
    else:
        do = f"There was no older format; write format = {FORMAT}."
    raise Wrong([Problem("", "format", str(given)[:20].lower(), f"{FORMAT}", do)])


def readable(values: Any, kind: type[Section]) -> Any:
    """Those fields of a section that can be read, each by itself; asking for another one is an AttributeError."""
    found = Readable()
    if not isinstance(values, Mapping):
        return found
    for name, info in kind.model_fields.items():
        given = values.get(key_of(name))
        inner = section_class(info)
        if inner is not None and is_list(info):
            if isinstance(given, tuple):
                setattr(found, name, tuple(readable(one, inner) for one in given))
        elif inner is not None and isinstance(given, Mapping):
            setattr(found, name, readable(given, inner))
        elif inner is not None:
            if given is None and not info.is_required():
                setattr(found, name, info.default)
        elif given is not None or not info.is_required():
            with suppress(ValidationError):
                setattr(found, name, read_one(info, info.default if given is None else given))
    return found
