"""From the file on disk to a checked homestead with its rows; all problems told at once."""

from __future__ import annotations

import hashlib
import tomllib
from collections.abc import Mapping
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from types import SimpleNamespace
from typing import Annotated, Any

from pydantic import TypeAdapter, ValidationError
from pydantic.fields import FieldInfo

from polestead.base.problem import Problem, Wrong
from polestead.base.row import Row
from polestead.homestead.consistency import contradictions
from polestead.homestead.fields import Section, key_of
from polestead.homestead.model import Homestead
from polestead.homestead.standing import is_list, plain_values, rows_of, section_class
from polestead.homestead.told import told

LARGEST_BYTES = 1_000_000
FORMAT = 1


@dataclass(frozen=True, slots=True)
class OwnersFile:
    """A homestead file as read.

    Attributes:
        path: Where it lies.
        homestead: The checked sections; as-built values stand where the owner measured them.
        rows: Every input of the sums with its standing, defaults included.
        fingerprint: First eight hex digits of the SHA-256 of its text.
    """

    path: Path
    homestead: Homestead
    rows: tuple[Row, ...]
    fingerprint: str


def read_homestead(path: Path) -> OwnersFile:
    """Read and check a homestead file.

    Raises:
        Wrong: With every problem found, each with section, key, given, allowed, what to do.
    """
    text = text_of(path)
    homestead, rows = check_text(text)
    return OwnersFile(path, homestead, rows, fingerprint_of(text))


def fingerprint_of(text: str) -> str:
    """First eight hex digits of the SHA-256 of the text."""
    return hashlib.sha256(text.encode("utf-8")).hexdigest()[:8]


def text_of(path: Path) -> str:
    """The text of the file, or the one problem that keeps it from being read."""

    def stop(given: str, do: str) -> Wrong:
        return Wrong([Problem("", "", given, "a readable TOML text file, under 1 MB", do)])

    if path.is_dir():
        msg = f"{path}, which is a folder"
        raise stop(msg, "Name the file in it.")
    try:
        raw = path.read_bytes()
    except FileNotFoundError:
        msg = f"{path}, which does not exist"
        raise stop(
            msg,
            "Check the name, or begin one with: polestead start FILE",
        ) from None
    except OSError as refused:
        msg = f"{path}, which cannot be opened ({refused.strerror})"
        raise stop(msg, "Check who may read it.") from None
    if len(raw) > LARGEST_BYTES:
        msg = f"{path} with {len(raw):,} bytes"
        raise stop(
            msg,
            "A homestead file is a few thousand; is it another file?",
        )
    try:
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError:
        msg = f"{path}, which is not UTF-8 text"
        raise stop(msg, "Save it as UTF-8 in a text editor.") from None
    if not text.strip():
        msg = f"{path}, which is empty"
        raise stop(msg, "Begin one with: polestead start FILE")
    return text


def check_text(text: str) -> tuple[Homestead, tuple[Row, ...]]:
    """Check the text of a homestead file.

    Raises:
        Wrong: With every problem found.
    """
    raw = _parsed(text)
    _format(raw)
    plain, problems = plain_values(raw, Homestead)
    homestead: Homestead | None = None
    try:
        homestead = Homestead.model_validate(plain.values)
    except ValidationError as wrong:
        problems += told(wrong, plain, Homestead)
    problems += contradictions(homestead or readable(plain.values, Homestead))
    if problems or homestead is None:
        raise Wrong(dict.fromkeys(problems))
    return homestead, rows_of(homestead, plain)


def _parsed(text: str) -> dict[str, Any]:
    try:
        return tomllib.loads(text)
    except tomllib.TOMLDecodeError as wrong:
        problem = Problem(
            "",
            "",
            f"text that is not TOML: {wrong}",
            'lines like  key = "12 ft"  under headings like  [mount]',
            "Mend that line; texts and quantities stand in quotes, and each key once.",
        )
        raise Wrong([problem]) from None


def _format(raw: Mapping[str, Any]) -> None:
    """An older or newer format is told before anything else: its keys may mean other things."""
    given = raw.get("format", FORMAT)
    if given != FORMAT and isinstance(given, int) and not isinstance(given, bool):
        do = (
            "Get a newer polestead to read it."
            if given > FORMAT
            else "There was no older format; write format = 1."
        )
        raise Wrong([Problem("", "format", str(given), f"{FORMAT}", do)])


def readable(values: Any, kind: type[Section]) -> Any:
    """Those fields of a section that can be read, each by itself; asking for another one is an AttributeError."""
    found = SimpleNamespace()
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
                setattr(found, name, _one_field(info, info.default if given is None else given))
    return found


def _one_field(info: FieldInfo, given: Any) -> Any:
    """One value by its own field's rules."""
    kind: Any = info.annotation
    if info.metadata:
        kind = Annotated[(kind, *info.metadata)]
    return TypeAdapter(kind).validate_python(given, strict=True)
