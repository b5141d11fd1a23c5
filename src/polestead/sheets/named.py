"""Which leaves there are, and the files they are written as; known before anything is worked."""

from __future__ import annotations

from collections.abc import Iterable

from polestead.base.problem import Problem, Wrong

PHONE = "phone"
TEMPLATES = "templates"  # plates and wraps: paper at 1:1, and DXF beside it
HANG = "gust-card"  # two faces to cut out and hang by the window
WEEK = "week"  # of one day only, so made only when it is named
ALL = ("book", "engineer", "inspector", "technician", "cards", "gauge", HANG, "calendar", "asking", "money", TEMPLATES)  # fmt: skip


def wanted(only: str | None, phone: bool) -> tuple[str, ...]:
    """Names of the leaves to make.

    Args:
        only: One leaf; None: all of the paper ones.
        phone: The phone file too.

    Raises:
        Wrong: No such leaf; names those there are.

    Example:
        >>> wanted("engineer", False), wanted("engineer", True)
        (('engineer',), ('engineer', 'phone'))
    """
    if only is not None and only not in (*ALL, WEEK, PHONE):
        there = ", ".join((*ALL, WEEK, PHONE))
        raise Wrong([Problem("", "--only", only, there, "Name one of these.")])
    names = ALL if only is None else (only,)
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
