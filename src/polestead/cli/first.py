"""What can be refused at once: a file that is not there, a leaf there is not, a place that may not be written; told before the sums are read in."""

from __future__ import annotations

import argparse
import os
from collections.abc import Iterator
from pathlib import Path

from polestead.base.problem import Problem, Wrong
from polestead.cli.put import refused, tried
from polestead.homestead.demos import demo_names
from polestead.homestead.text import text_of
from polestead.sheets.named import files_of, wanted

DRAWINGS = ("one-line.svg", "string-map.svg")
ON_SCREEN = Path("-")


def looked_at(words: argparse.Namespace) -> None:
    """The file a command reads, the leaf it makes and the places it writes.

    Args:
        words: Of the command.

    Raises:
        Wrong: The file cannot be read at all, there is no such leaf, or a place may not be written.
    """
    name = getattr(words, "file", None)
    if isinstance(name, str) and (name not in demo_names() or Path(name).exists()):
        text_of(Path(name))
    for path in _written(words):
        if isinstance(name, str) and path.exists() and Path(name).exists() and os.path.samefile(path, name):  # fmt: skip
            given = f"{path}, which is the homestead file itself"
            raise Wrong([Problem("", "", given, "another file", "Name another path: yours is not written over.")])  # fmt: skip
        tried(path.parent, (path.name,))
    if words.command == "start" and not words.file.exists():
        if not words.file.parent.is_dir():
            raise refused(words.file, "its folder is not there")
        tried(words.file.parent)
    if words.command == "book":
        tried(words.out, files_of(wanted(words.only, words.phone)))


def _written(words: argparse.Namespace) -> Iterator[Path]:
    """Results a command writes, one by one; of ``log``, --csv is a table to read."""
    options = ["json", "pdf", "ics", "export"] + ["csv"] * (words.command == "money")
    paths = (getattr(words, option, None) for option in options)
    yield from (path for path in paths if path is not None and path != ON_SCREEN)
    drawings = getattr(words, "drawings", None)
    yield from () if drawings is None else (drawings / name for name in DRAWINGS)
