"""Which files a book is written as."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from polestead.base.problem import Problem, Wrong
from polestead.sheets.book.book import LEAVES, leaf_pdf
from polestead.sheets.book.matter import Matter

PHONE = "phone"


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
    if only is not None and only not in (*LEAVES, PHONE):
        there = ", ".join((*LEAVES, PHONE))
        raise Wrong([Problem("", "--only", only, there, "Name one of these.")])
    names = tuple(LEAVES) if only is None else (only,)
    return (*names, PHONE) if phone and PHONE not in names else names


def made(names: tuple[str, ...], matter: Matter) -> Iterator[tuple[str, str, Callable[[], bytes]]]:
    """What each is called, the name of its file, and how it is made."""
    for name in names:
        if name == PHONE:
            yield "the phone file", "phone.html", lambda: _phone(matter)
        else:
            yield LEAVES[name][0], f"{name}.pdf", _of(name, matter)


def _of(name: str, matter: Matter) -> Callable[[], bytes]:
    return lambda: leaf_pdf(name, matter)


def _phone(matter: Matter) -> bytes:
    from polestead.sheets.phone.phone import phone_file

    return phone_file(matter).encode("utf-8")
