"""What the leaves of results show: the book's own sections, their drawings inked for the screen."""

from __future__ import annotations

from collections import OrderedDict
from dataclasses import replace
from functools import cache, partial
from threading import Lock
from typing import Literal, cast

from starlette.requests import Request

from polestead.answer.answer import Answer
from polestead.answer.drawables import Drawables, drawables_of
from polestead.base.show import Style
from polestead.homestead.read import OwnersFile
from polestead.sheets.book.book import matter_of
from polestead.sheets.book.drawn import own_drawings
from polestead.sheets.book.matter import Matter
from polestead.sheets.drawn.index import ALSO, DRAWINGS, drawing_named
from polestead.sheets.leaf import Paper
from polestead.sheets.svg import SCREEN
from polestead.sheets.year import year_upright
from polestead.web.desk import State
from polestead.web.render import style_of

Width = Literal["wide", "mid", "narrow"]
WIDTHS: dict[Width, float] = {"wide": 802.0, "mid": 720.0, "narrow": 358.0}
LEAST = 640.0  # under that words of a chart would lie on each other: it scrolls in its own box
KEPT = 6
OWN_PAGE = ("one-line", "string map")  # the book turns a page of its own for these
Key = tuple[str, int, Style, Width]


class Shelf:
    """The last few matters, each made once; one for a server."""

    def __init__(self) -> None:
        self._made: OrderedDict[Key, Matter] = OrderedDict()
        self._lock = Lock()

    def matter(self, owners: OwnersFile, answer: Answer, style: Style, width: Width) -> Matter:
        """The matter of an answer in some units at some width."""
        key = (owners.fingerprint, id(answer), style, width)
        with self._lock:
            if key not in self._made:
                self._made[key] = _made(owners, answer, style, WIDTHS[width])
                while len(self._made) > KEPT:
                    self._made.popitem(last=False)
            self._made.move_to_end(key)
            return self._made[key]


SHELF = Shelf()


def width_of(request: Request) -> Width:
    """Width class of the device, as it told us; wide until it has."""
    told = request.cookies.get("width", "")
    return next((width for width in WIDTHS if width == told), "wide")


def matter_for(request: Request, state: State, answer: Answer) -> Matter:
    """What this device is shown.

    Args:
        request: Tells units and width.
        state: The desk's; its file has been read.
        answer: The state's own.
    """
    owners = cast("OwnersFile", state.owners)
    return SHELF.matter(owners, answer, style_of(request, state), width_of(request))


def _made(owners: OwnersFile, answer: Answer, style: Style, width: float) -> Matter:
    """Nothing is worked here: what is drawn is worked when it is drawn."""

    @cache
    def drawn() -> Drawables:
        return drawables_of(owners, answer.stand, style)

    def draw(name: str) -> str:
        return drawing_named(name, drawn(), style, SCREEN, max(width, LEAST))

    drawings = {name: partial(draw, name) for name in (*DRAWINGS, *ALSO) if name not in OWN_PAGE}
    own = own_drawings(owners, answer, style, SCREEN, max(width, LEAST))

    def upright(name: str) -> str:
        return drawing_named(name, drawn(), style, SCREEN, width)

    if width < LEAST:  # these are drawn anew for a narrow screen
        anew = own_drawings(owners, answer, style, SCREEN, width)
        own = {
            **own,
            **{name: anew[name] for name in ("costs", "fortnight", "habits")},
            "year": partial(year_upright, answer, SCREEN),
            **{name: partial(upright, name) for name in OWN_PAGE},
        }
    paper: Paper = "letter" if style == "feet" else "a4"
    return replace(matter_of(owners, answer, style, paper), drawings={**own, **drawings})
