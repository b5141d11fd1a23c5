"""A result written to a file."""

from __future__ import annotations

import os
import sys
import tempfile
from pathlib import Path

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
    except OSError as refused:
        given = f"{path}, which may not be written ({refused.strerror})"
        raise Wrong(
            [Problem("", "", given, "a file in a folder of your own", "Name another path.")]
        ) from None
    print(f"written: {path}", file=sys.stderr)
