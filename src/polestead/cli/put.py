"""A result written to a file."""

from __future__ import annotations

import json
import os
import sys
import tempfile
from collections.abc import Iterable
from contextlib import suppress
from pathlib import Path
from typing import Any

from polestead.base.problem import Problem, Wrong


def put(path: Path, content: bytes) -> None:
    """A result under its name, whole or not at all; its folder is made."""
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        handle, temporary = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}.")
        with os.fdopen(handle, "wb") as file:
            file.write(content)
        os.chmod(temporary, 0o644)
        os.replace(temporary, path)
    except OSError as wrong:
        raise refused(path, wrong.strerror or "no reason told") from None
    with suppress(BrokenPipeError):  # nobody listens: what comes after it is written all the same
        print(f"written: {path}", file=sys.stderr)


def put_data(path: Path, data: Any) -> None:
    """A result as JSON under its name."""
    put(path, data_text(data).encode("utf-8"))


def data_text(data: Any) -> str:
    """JSON as every command writes it."""
    return json.dumps(data, indent=1, allow_nan=False) + "\n"


def tried(folder: Path, names: Iterable[str] = ()) -> None:
    """Whether the folder can be made and written to, and its files too: told before the sums; what is made for the trial is taken away again.

    Args:
        folder: Where files will lie.
        names: Of the files.

    Raises:
        Wrong: It may not be written, or something else bears a file's name.
    """
    new = [one for one in (folder, *folder.parents) if not os.path.exists(one)]
    try:
        _ready(folder, names)
    finally:
        for made in new:
            with suppress(OSError):  # never made, or another's file lies in it by now
                made.rmdir()


def _ready(folder: Path, names: Iterable[str]) -> None:
    """The folder made and written to, and nothing in the way of its files."""
    try:
        folder.mkdir(parents=True, exist_ok=True)
        with tempfile.TemporaryFile(dir=folder):
            pass
    except OSError as wrong:
        raise refused(folder, wrong.strerror or "no reason told") from None
    for name in names:
        path = folder / name
        if path.is_dir():
            raise refused(path, "a folder has that name")
        if path.exists() and not path.is_file():
            raise refused(path, "that is no plain file")
        if path.parent != folder and path.parent.exists() and not path.parent.is_dir():
            raise refused(path.parent, "a file has that folder's name")


def refused(path: Path, why: str) -> Wrong:
    """That a path may not be written, and why."""
    given = f"{path}, which may not be written ({why})"
    return Wrong([Problem("", "", given, "a file in a folder of your own", "Name another path.")])
