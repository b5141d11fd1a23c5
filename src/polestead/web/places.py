"""Where a thing of the file stands on the page."""

from __future__ import annotations

import re
from collections.abc import Iterable

from polestead.base.problem import Problem
from polestead.homestead.fields import key_of
from polestead.homestead.model import Homestead
from polestead.homestead.standing import section_class


def anchor(path: Iterable[str]) -> str:
    """The id of a field.

    Example:
        >>> anchor(("household", "controller", "2", "name")), anchor(("prices", "lines", "the crane"))
        ('f-household-controller-2-name', 'f-prices-lines-the-crane')
    """
    return "f-" + "-".join(re.sub(r"[^A-Za-z0-9_]+", "-", part).strip("-") or "x" for part in path)


def place_of_path(path: tuple[str, ...]) -> str:
    """The page and field of a path in the file."""
    top = path[0] if path else ""
    info = next(
        (info for name, info in Homestead.model_fields.items() if key_of(name) == top), None
    )
    if info is None:
        return "/file/wrong"
    leaf = f"/file/{top}" if section_class(info) is not None else "/file"
    return f"{leaf}#{anchor(path)}"


def place_of(problem: Problem) -> str:
    """The page and field a problem belongs to.

    Example:
        >>> place_of(Problem("mount", "hinge_height", "12", "a length", "Write a unit."))
        '/file/mount#f-mount-hinge_height'
        >>> place_of(Problem("", "", "text that is not TOML", "", ""))
        '/file/wrong'
    """
    return place_of_path(path_of(problem))


def path_of(problem: Problem) -> tuple[str, ...]:
    """The path a problem names, lists counted from 1."""
    section = tuple(problem.section.replace("[", ".").replace("]", "").split(".")) if problem.section else ()  # fmt: skip
    return (*section, problem.key) if problem.key else section


def called(problem: Problem) -> str:
    """A problem's place in a few words.

    Example:
        >>> called(Problem("mount", "hinge_height", "12", "a length", "Write a unit."))
        'mount: hinge height'
    """
    return called_path(path_of(problem))


def called_path(path: Iterable[str]) -> str:
    """A path in words.

    Example:
        >>> called_path(("run", "breaker_bears")), called_path(("frame",)), called_path(())
        ('run: breaker bears', 'frame', 'the file')
    """
    words = [part.replace("_", " ") for part in path]
    if not words:
        return "the file"
    *section, key = words
    return f"{' '.join(section)}: {key}" if section else key
