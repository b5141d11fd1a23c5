"""Which files a book is written as."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from functools import partial

from polestead.answer.drawables import Drawables
from polestead.base.problem import Problem, Wrong
from polestead.sheets.book.book import LEAVES, leaf_pdf
from polestead.sheets.book.matter import Matter
from polestead.sheets.drawn.dxf import plates_dxf
from polestead.sheets.drawn.gust_leaf import gust_leaf_pdf
from polestead.sheets.drawn.template import template_pdf

PHONE = "phone"
TEMPLATES = "templates"  # plates and wraps: paper at 1:1, and DXF beside it
HANG = "gust-card"  # two faces to cut out and hang by the window


WEEK = "week"  # of one day only, so made only when it is named
ALL = (*(name for name in LEAVES if name != WEEK), TEMPLATES)
Made = tuple[str, str, Callable[[], bytes]]


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


def made(names: tuple[str, ...], matter: Matter, drawn: Drawables) -> Iterator[Made]:
    """What each is called, the name of its file, and how it is made."""
    style, paper = matter.style, matter.paper
    for name in names:
        if name == PHONE:
            yield "the phone file", f"{PHONE}.html", lambda: _phone(matter)
        elif name == HANG:
            yield (
                "gust card to hang",
                f"{name}.pdf",
                lambda: gust_leaf_pdf(drawn, style, paper, matter.on, matter.warning),
            )
        elif name == TEMPLATES:
            yield "drill templates at 1:1", f"{name}.pdf", lambda: template_pdf(drawn.plates, drawn.name, drawn.fingerprint, style, paper, matter.warning)  # fmt: skip
            for plate, content in plates_dxf(drawn.plates).items():
                yield f"plate {plate}", f"plates/{plate}", partial(bytes, content)
        else:
            yield LEAVES[name][0], f"{name}.pdf", _of(name, matter)


def _of(name: str, matter: Matter) -> Callable[[], bytes]:
    return lambda: leaf_pdf(name, matter)


def _phone(matter: Matter) -> bytes:
    from polestead.sheets.phone.phone import phone_file

    return phone_file(matter).encode("utf-8")
