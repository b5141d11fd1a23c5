"""Answers of the asking list written back into the file: who said what, on which day, every comment kept."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Any

from polestead.base.problem import Problem, Wrong
from polestead.base.row import Row
from polestead.homestead.edits import value_at
from polestead.homestead.entries import field_at, from_typed
from polestead.homestead.fields import extra_of
from polestead.homestead.read import check_text
from polestead.homestead.text import fingerprint_of, text_of
from polestead.homestead.write import changed_text, keep_text

GOES = (
    "assumed",
    "why",
    "said",
    "asked_of",
    "on",
)  # of the older table, what an answer takes the place of


@dataclass(frozen=True, slots=True)
class Reply:
    """One answer.

    Attributes:
        key: Of the file (``place.frost_depth``); a number counts into a list from 1.
        value: As it is written into the file, with its unit.
        of: Who gave it.
        on: On which day.
        words: What was said, word by word; empty: nothing beside the value.
    """

    key: str
    value: str
    of: str
    on: date
    words: str = ""


def answered_text(text: str, replies: Sequence[Reply]) -> str:
    """The file's text with the answers in it, checked.

    What was assumed is replaced; a plain value stays beside the answer as what was planned; a measured one stays and counts first.

    Args:
        text: The text of a homestead file.
        replies: The answers.

    Raises:
        Wrong: With every problem of every answer.
    """
    problems = [problem for reply in replies for problem in _faults(reply)]
    changes: dict[tuple[str, ...], Any] = {}
    for reply in replies:
        path = tuple(reply.key.split("."))
        told = _table(value_at(text, path), path, reply)
        try:
            changed_text(text, {path: told})
        except Wrong as wrong:
            problems += wrong.problems
        else:
            changes[path] = told
    new = changed_text(text, changes)
    try:
        check_text(new)
    except Wrong as wrong:
        problems += wrong.problems
    if problems:
        raise Wrong(dict.fromkeys(problems))
    return new


def keep_answers(path: Path, replies: Sequence[Reply]) -> tuple[tuple[Row, ...], Path | None]:
    """The answers written into the file, whole or not at all; what stood there is kept beside it.

    Args:
        path: The homestead file.
        replies: The answers.

    Returns:
        The rows that were answered as they stand now, and where the older text lies.

    Raises:
        Wrong: With every problem; the file is then as it was.
    """
    text = text_of(path)
    new = answered_text(text, replies)
    _, rows = check_text(new)
    kept = keep_text(path, new, fingerprint_of(text))
    wanted = {reply.key for reply in replies}
    return tuple(row for row in rows if f"{row.section}.{row.key}" in wanted), kept


def whom_of(key: str) -> str:
    """Whom the field's own question goes to; empty for a field that has none.

    Example:
        >>> whom_of("place.ground_snow"), whom_of("mount.pole")
        ('the county building office', '')
    """
    info = field_at(tuple(key.split(".")))
    return "" if info is None else str(extra_of(info).get("ask", ""))


def _faults(reply: Reply) -> list[Problem]:
    section, _, key = reply.key.rpartition(".")
    faults = []
    if not section or not key:
        faults.append(Problem("", reply.key, reply.key, "a key of the file with its section", "Write it like place.frost_depth."))  # fmt: skip
    if not reply.value.strip():
        faults.append(Problem(section, key, "nothing", "what was said, with its unit", "Write the value behind the key."))  # fmt: skip
    if not reply.of.strip():
        whom = whom_of(reply.key) or "the county building office"
        faults.append(Problem(section, key, "an answer without the one who gave it", "a name or an office", f'Add  --of "{whom}".'))  # fmt: skip
    return faults


def _table(here: Any, path: tuple[str, ...], reply: Reply) -> dict[str, Any]:
    """The value's table: what stays of the older one, and the answer."""
    info = field_at(path)
    value = reply.value if info is None else from_typed(info, reply.value)
    if isinstance(here, Mapping):
        kept = {key: one for key, one in here.items() if key not in GOES}
    else:
        kept = {} if here is None or here == value else {"planned": here}
    said = {"said": value, "asked_of": reply.of or "nobody named", "on": reply.on}
    return {**kept, **said, **({"why": reply.words} if reply.words else {})}
