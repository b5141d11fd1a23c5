"""One file a leaf; each has its ROUTES, may stand in the contents with its CONTENTS, and asks the desk once.

A new file in this folder is found by itself; what a leaf may declare is said in docs/method/web.md.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from importlib import import_module
from pkgutil import iter_modules
from types import ModuleType

from starlette.routing import BaseRoute

from polestead.web.contents import Entry
from polestead.web.idle import Aside


@cache
def modules() -> tuple[ModuleType, ...]:
    """Every leaf that is there, by name."""
    names = sorted(found.name for found in iter_modules(__path__))
    return tuple(import_module(f"{__name__}.{name}") for name in names)


def routes() -> Iterator[BaseRoute]:
    """The routes of every leaf."""
    for leaf in modules():
        yield from getattr(leaf, "ROUTES", ())


@cache
def contents() -> tuple[Entry, ...]:
    """What the contents sentence lists, in order."""
    entries = [entry for leaf in modules() for entry in getattr(leaf, "CONTENTS", ())]
    return tuple(sorted(entries, key=lambda entry: entry.place))


def asides() -> tuple[Aside, ...]:
    """What the leaves would have worked while the sheet stands idle, by the place it has in a leaf's ASIDE."""
    found = [leaf.ASIDE for leaf in modules() if hasattr(leaf, "ASIDE")]
    return tuple(aside for _, aside in sorted(found, key=lambda one: one[0]))


def uploads() -> dict[str, int]:
    """Paths that take more than a form, with their largest size in bytes."""
    return {path: most for leaf in modules() for path, most in getattr(leaf, "UPLOADS", {}).items()}
