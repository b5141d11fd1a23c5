"""Which leaves there are, and the files they are written as; known before anything is worked."""

from __future__ import annotations

from collections.abc import Iterable

from polestead.base.problem import Problem, Wrong

PHONE = "phone"
TEMPLATES = "templates"  # plates and wraps: paper at 1:1, and DXF beside it
HANG = "gust-card"  # two faces to cut out and hang by the window
WEEK = "week"  # of one day only, so made only when it is named
ALL = ("book", "engineer", "inspector", "technician", "cards", "gauge", HANG, "calendar", "asking", "money", TEMPLATES)  # fmt: skip


def wanted(only: Iterable[str], phone: bool) -> tuple[str, ...]:
    """Names of the leaves to make.

    Args:
        only: Those named, each made once; empty: all of the paper ones.
        phone: The phone file too.

    Raises:
        Wrong: Each that there is not; names those there are.

    Example:
        >>> wanted(["engineer"], False), wanted(["money", "engineer", "money"], True)
        (('engineer',), ('money', 'engineer', 'phone'))
    """
    named = tuple(dict.fromkeys(only))
    there = ", ".join((*ALL, WEEK, PHONE))
    strange = [one for one in named if one not in (*ALL, WEEK, PHONE)]
    if strange:
        raise Wrong([Problem("", "--only", one, there, "Name one of these.") for one in strange])
    names = named or ALL
    return (*names, PHONE) if phone and PHONE not in names else names


def files_of(names: Iterable[str]) -> tuple[str, ...]:
    """Names of the files the leaves are written as; of the plates, one that stands for all.

    Example:
        >>> files_of(("book", "templates", "phone"))
        ('book.pdf', 'templates.pdf', 'plates/plate.dxf', 'phone.html')
    """
    files = []
    for name in names:
        files.append(f"{name}.html" if name == PHONE else f"{name}.pdf")
        files += ["plates/plate.dxf"] if name == TEMPLATES else []
    return tuple(files)
