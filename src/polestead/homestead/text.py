"""The text of a homestead file as it lies on disk, before anybody reads what it says; reads in next to nothing."""

from __future__ import annotations

import hashlib
from pathlib import Path

from polestead.base.problem import Problem, Wrong

LARGEST_BYTES = 1_000_000


def fingerprint_of(text: str) -> str:
    """First eight hex digits of the SHA-256 of the text."""
    return hashlib.sha256(text.encode("utf-8")).hexdigest()[:8]


def text_of(path: Path) -> str:
    """The text of the file, or the one problem that keeps it from being read."""
    raw = _bytes_of(path)
    try:
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError:
        do = "Save it as UTF-8 in a text editor."
        raise _unreadable(path, "which is not UTF-8 text", do) from None
    if not text.strip():
        raise _unreadable(path, "which is empty", "Begin one with: polestead start FILE")
    return text


def _bytes_of(path: Path) -> bytes:
    """At most one byte more than a homestead file may have, so that no file however large is taken in."""
    try:
        if path.is_dir():
            raise _unreadable(path, "which is a folder", "Name the file in it.")
        if path.exists() and not path.is_file():
            raise _unreadable(path, "which is no file", "Name a file.")
        with path.open("rb") as file:
            raw = file.read(LARGEST_BYTES + 1)
    except FileNotFoundError:
        do = "Check the name, or begin one with: polestead start FILE"
        raise _unreadable(path, "which does not exist", do) from None
    except (OSError, ValueError) as refused:  # ValueError: a name no file can have
        reason = f"which cannot be opened ({getattr(refused, 'strerror', None) or refused})"
        raise _unreadable(path, reason, "Check the name, and who may read it.") from None
    if len(raw) > LARGEST_BYTES:
        many = f"which has more than {LARGEST_BYTES:,} bytes"
        raise _unreadable(path, many, "A homestead file has a few thousand; is it another file?")
    return raw


def _unreadable(path: Path, which: str, do: str) -> Wrong:
    given = f"{shown(str(path))}, {which}"
    return Wrong([Problem("", "", given, "a readable TOML text file, under 1 MB", do)])


def shown(given: str) -> str:
    """A piece of the file in a sentence: one line, and not too long.

    Example:
        >>> shown("a" * 99)[-5:], shown("two\\nlines"), shown(" ")
        ('aa...', 'two lines', 'an empty text')
    """
    text = " ".join("".join(letter if letter.isprintable() else " " for letter in given).split())
    return (text if len(text) <= 60 else text[:57] + "...") or "an empty text"
