"""Writing the homestead file back: comments stay, nothing is half-written, the older file is never lost."""

from __future__ import annotations

import codecs
import os
import tempfile
from collections.abc import Mapping, MutableMapping
from difflib import SequenceMatcher
from pathlib import Path
from typing import Any

import tomlkit
from tomlkit.exceptions import TOMLKitError
from tomlkit.items import AbstractTable

from polestead.base.problem import Problem, Wrong
from polestead.homestead.read import check_text
from polestead.homestead.text import fingerprint_of, shown, text_of

NEXT = "+"  # in a path: one more at the end of a list


def changed_text(text: str, changes: Mapping[tuple[str, ...], Any], *, grow: bool = False) -> str:
    """The file's text with some values changed, every comment and all other writing kept.

    Args:
        text: The text of a homestead file.
        changes: New value by the path of its key, ``("mount", "hinge_height")``; a part that is a whole number
            counts into a list from 1; None takes the key, or the one of a list, out.
        grow: Begin the sections that a path goes through where they are not there yet, and let a path end in ``+``:
            a section is begun at the end of that list.

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
        _change(document, path, value, grow)
    return _spliced(text, untouched, tomlkit.dumps(document))


def _spliced(text: str, untouched: str, changed: str) -> str:
    """The owner's own lines wherever the change left them alone; the library drops a space here and there."""
    own, before, after = (part.splitlines(keepends=True) for part in (text, untouched, changed))
    if len(own) != len(before):
        return changed
    lines: list[str] = []
    for what, i1, i2, j1, j2 in SequenceMatcher(None, before, after, autojunk=False).get_opcodes():
        fresh = own[i1:i2] if what == "equal" else after[j1:j2]
        if i1 and _wants_air(lines, fresh, what):
            lines.append("\n")
        lines += fresh
    return "".join(lines)


def _wants_air(lines: list[str], fresh: list[str], what: str) -> bool:
    """A heading that was begun, or stands behind one that was, has an empty line before it."""
    if not lines or not fresh or not fresh[0].startswith("[") or not lines[-1].strip():
        return False
    return what != "equal" or not lines[-1].startswith("#")


def _change(document: Any, path: tuple[str, ...], value: Any, grow: bool) -> None:
    here = document
    *through, last = path
    one_more = grow and last == NEXT
    for part in through[:-1] if one_more else through:
        if grow and isinstance(here, MutableMapping) and part not in here:
            if value is None:
                return  # what is to be taken out is not there
            here[part] = tomlkit.table()
        here = _inside(here, part, path)
    if one_more:
        _append(here, through[-1], value, path)
    elif isinstance(here, list):
        at = _index(here, path[-1], path)
        if value is not None:
            raise _nowhere(path)  # one of a list is a section: its keys are changed, not itself
        del here[at]
    elif not isinstance(here, MutableMapping):
        raise _nowhere(path)
    elif value is None:
        here.pop(path[-1], None)
    else:
        here[path[-1]] = _item(value)


def _append(here: Any, name: str, values: Mapping[str, Any], path: tuple[str, ...]) -> None:
    """One more section at the end of a list of them."""
    if not isinstance(here, MutableMapping) or not isinstance(here.get(name, []), list):
        raise _nowhere(path)
    if name not in here:
        here[name] = tomlkit.aot()
    section = tomlkit.table()
    section.update(values)
    here[name].append(section)


def _inside(here: Any, part: str, path: tuple[str, ...]) -> Any:
    if isinstance(here, list):
        return here[_index(here, part, path)]
    if isinstance(here, MutableMapping) and part in here:
        return here[part]
    raise _nowhere(path)


def _index(here: list[Any], part: str, path: tuple[str, ...]) -> int:
    """A place in a list, counted from 1 by the owner."""
    if part.isdecimal() and 1 <= int(part) <= len(here):
        return int(part) - 1
    raise _nowhere(path)


def _nowhere(path: tuple[str, ...]) -> Wrong:
    given = "a place that is not in the file"
    do = "Add the section to the file first."
    return Wrong([Problem(".".join(path[:-1]), path[-1], given, "a section of it", do)])


class Begun(dict[str, Any]):
    """Values of a section that is to stand under a heading of its own."""


def _item(value: Any) -> Any:
    if isinstance(value, Begun):
        section = tomlkit.table()
        section.update(value)
        return section
    if isinstance(value, Mapping) and not isinstance(value, AbstractTable):
        inline = tomlkit.inline_table()
        inline.update(value)
        return inline
    return value


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
    try:
        path = path.resolve()
        older = path.read_bytes() if path.exists() else None
        if older is not None:
            _same_as_read(path, read_fingerprint)
        mode = path.stat().st_mode & 0o777 if older is not None else 0o644
        kept = _keep_older(path, older, mode) if older is not None else None
        mark = codecs.BOM_UTF8 if older is not None and older.startswith(codecs.BOM_UTF8) else b""
        _put(path, mark + text.encode("utf-8"), mode)
    except (OSError, ValueError) as refused:  # ValueError: a name no file can have
        reason = getattr(refused, "strerror", None) or refused
        given = f"{shown(str(path))}, which may not be written ({reason})"
        do = "Check the name, and who may write there."
        raise Wrong([Problem("", "", given, "a file in a folder of your own", do)]) from None
    return kept


def _same_as_read(path: Path, read_fingerprint: str | None) -> None:
    """The file on disk is still the one the change was made from."""
    if read_fingerprint is None:
        given, do = "a file that is there already", "Choose another name, or move it away first."
        raise Wrong([Problem("", "", given, "the name of a new file", do)])
    if fingerprint_of(text_of(path)) != read_fingerprint:
        given = "a file that was changed by someone else meanwhile"
        do = "Read it again, then make the change."
        raise Wrong([Problem("", "", given, "the text it was read from", do)])


def _keep_older(path: Path, older: bytes, mode: int) -> Path:
    """A copy of the older bytes under the first free name, readable by no more people than the file itself."""
    number = 1
    while True:
        kept = path.with_name(f"{path.name}.before{'' if number == 1 else f'-{number}'}")
        if not kept.exists():
            _put(kept, older, mode)
            return kept
        if kept.is_file() and kept.read_bytes() == older:
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
