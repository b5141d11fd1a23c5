"""Writing the homestead file back: comments stay, nothing is half-written, the older file is never lost."""

from __future__ import annotations

import os
import tempfile
from collections.abc import Mapping
from difflib import SequenceMatcher
from pathlib import Path
from typing import Any

import tomlkit
from tomlkit.exceptions import TOMLKitError
from tomlkit.items import AbstractTable

from polestead.base.problem import Problem, Wrong
from polestead.homestead.read import check_text, fingerprint_of, text_of


def changed_text(text: str, changes: Mapping[tuple[str, ...], Any]) -> str:
    """The file's text with some values changed, every comment and all other writing kept.

    Args:
        text: The text of a homestead file.
        changes: New value by the path of its key, ``("mount", "hinge_height")``; a part that is a whole number
            counts into a list from 1; None takes the key, or the one of a list, out.

    Raises:
        Wrong: A path that leads nowhere.

    Example:
        >>> changed_text('[mount]\\nhinge_height = "11 ft"  # to the axis\\n', {("mount", "hinge_height"): "12 ft"})
        '[mount]\\nhinge_height = "12 ft"  # to the axis\\n'
    """
    try:
        document = tomlkit.parse(text)
    except TOMLKitError as wrong:
        problem = Problem(
            "", "", f"text that is not TOML: {wrong}", "a readable file", "Mend it first."
        )
        raise Wrong([problem]) from None
    untouched = tomlkit.dumps(document)
    for path, value in changes.items():
        _change(document, path, value)
    return _spliced(text, untouched, tomlkit.dumps(document))


def _spliced(text: str, untouched: str, changed: str) -> str:
    """The owner's own lines wherever the change left them alone; the library drops a space here and there."""
    own, before, after = (part.splitlines(keepends=True) for part in (text, untouched, changed))
    if len(own) != len(before):
        return changed
    lines: list[str] = []
    for what, i1, i2, j1, j2 in SequenceMatcher(None, before, after, autojunk=False).get_opcodes():
        lines += own[i1:i2] if what == "equal" else after[j1:j2]
    return "".join(lines)


def _change(document: Any, path: tuple[str, ...], value: Any) -> None:
    here = document
    for part in path[:-1]:
        try:
            here = here[int(part) - 1] if part.isdigit() else here[part]
        except (KeyError, IndexError, TypeError):
            section = ".".join(path[:-1])
            do = "Add the section to the file first."
            raise Wrong(
                [
                    Problem(
                        section, path[-1], "a place that is not in the file", "a section of it", do
                    )
                ]
            ) from None
    if value is None and path[-1].isdigit():
        del here[int(path[-1]) - 1]
    elif value is None:
        here.pop(path[-1], None)
    elif isinstance(value, Mapping) and not isinstance(value, AbstractTable):
        inline = tomlkit.inline_table()
        inline.update(value)
        here[path[-1]] = inline
    else:
        here[path[-1]] = value


def keep_text(path: Path, text: str, read_fingerprint: str | None) -> Path | None:
    """Write the text in place of the file: whole or not at all, the older text kept beside it.

    The text goes to a temporary file in the same folder, is forced to the disk, and takes the name in one step; the
    older file stays as ``NAME.before``, and earlier ones as ``NAME.before-2``, ``-3`` ...

    Args:
        path: The homestead file.
        text: Its new text; it must read without problems.
        read_fingerprint: Fingerprint of the text the change was made from; None for a new file.

    Returns:
        Where the older text lies, or None for a new file.

    Raises:
        Wrong: The new text has problems, the file changed on disk meanwhile, or it may not be written.
    """
    check_text(text)
    path = path.resolve()
    try:
        older = path.read_bytes() if path.exists() else None
        if older is not None and (
            read_fingerprint is None or fingerprint_of(text_of(path)) != read_fingerprint
        ):
            given = (
                "a file that was changed by someone else meanwhile"
                if read_fingerprint
                else "a file that is there already"
            )
            raise Wrong(
                [
                    Problem(
                        "",
                        "",
                        given,
                        "the text it was read from",
                        "Read it again, then make the change.",
                    )
                ]
            )
        kept = _keep_older(path, older) if older is not None else None
        _put(
            path, text.encode("utf-8"), path.stat().st_mode & 0o777 if older is not None else 0o644
        )
    except OSError as refused:
        given = f"{path}, which may not be written ({refused.strerror})"
        raise Wrong(
            [Problem("", "", given, "a file in a folder of your own", "Check who may write there.")]
        ) from None
    return kept


def _keep_older(path: Path, older: bytes) -> Path:
    """A copy of the older bytes under the first free name."""
    number = 1
    while True:
        kept = path.with_name(f"{path.name}.before{'' if number == 1 else f'-{number}'}")
        if not kept.exists():
            _put(kept, older, 0o644)
            return kept
        if kept.read_bytes() == older:
            return kept
        number += 1


def _put(path: Path, content: bytes, mode: int) -> None:
    """The bytes under the name, whole or not at all."""
    handle, temporary = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}.")
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        os.chmod(temporary, mode)
        os.replace(temporary, path)
    except BaseException:
        Path(temporary).unlink(missing_ok=True)
        raise
    folder = os.open(path.parent, os.O_RDONLY)
    try:
        os.fsync(folder)
    finally:
        os.close(folder)
