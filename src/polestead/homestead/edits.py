"""Changes of the owner's text, one after the other."""

from __future__ import annotations

import tomllib
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from polestead.homestead.write import NEXT, Begun, changed_text

Path = tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Change:
    """One value set, a section or one of a list begun, or something taken out.

    Attributes:
        path: Of its key, as `changed_text` takes it.
        value: As the file is to hold it; None takes it out.
    """

    path: Path
    value: Any


def text_with(text: str, changes: Iterable[Change]) -> str:
    """The text with the changes in it, each made after the one before; sections that are wanted are begun.

    Raises:
        Wrong: A path that leads nowhere.
    """
    for change in changes:
        text = changed_text(text, {change.path: change.value}, grow=True)
    return text


def value_at(text: str, path: Path) -> Any:
    """What stands in a text at a path, as it was parsed; None where there is nothing.

    Example:
        >>> value_at('[[a]]\\nb = "1 ft"\\n', ("a", "1", "b")), value_at("", ("a",))
        ('1 ft', None)
    """
    try:
        here: Any = tomllib.loads(text)
    except ValueError:
        return None
    for part in path:
        if isinstance(here, list):
            here = here[int(part) - 1] if part.isdecimal() and 1 <= int(part) <= len(here) else None
        else:
            here = here.get(part) if isinstance(here, dict) else None
    return here


def back_from(text: str, change: Change) -> Change | None:
    """The change that brings back what a text holds where a change is to be made; None where a step back must do."""
    if change.path[-1] == NEXT or isinstance(change.value, Begun):
        return None
    was = value_at(text, change.path)
    return (
        None
        if isinstance(was, list) and was and isinstance(was[0], dict)
        else Change(change.path, was)
    )
