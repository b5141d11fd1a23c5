"""The drawings a builder works from: a page each, as large as it takes, lettered to be read at arm's length."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from polestead.answer.drawables import Drawables
from polestead.base.show import Style
from polestead.sheets.book.blocks import Section, picture
from polestead.sheets.book.matter import Matter, high_of, picture_of
from polestead.sheets.drawn.board import patched
from polestead.sheets.drawn.front import front_drawing
from polestead.sheets.drawn.index import drawing_named
from polestead.sheets.drawn.plan import plan_drawing
from polestead.sheets.leaf import PAPERS
from polestead.sheets.svg import PAPER

WORKED_FROM = {
    "site": "Site plan",
    "side": "The mount from the side",
    "front": "The array square to the glass",
    "plan": "The mount from above",
    "section": "Pole and footing, cut through",
    "hinge": "Hinge in detail",
    "cap": "Pole's top and sleeve in detail",
}
# wider than high: the page lies on its side, and the array gives way before the letters do
TURNED: dict[str, Callable[..., str]] = {"front": front_drawing, "plan": plan_drawing}
HIGHS_PX = (420.0, 380.0, 340.0, 300.0, 260.0)
UPRIGHT_PX, TURNED_PX = 760.0, 1040.0  # over the width of the type area
SIZES_PX = (20.5, 19.0, 17.5, 16.0, 14.5, 13.0)  # 20.5 are 14 pt there, 13 are 9 pt
CLEAR_PX = 16.0  # 11 pt: no smaller for the sake of a covered line
TYPE_MM = (34.0, 51.0)  # of the sheet's width and height: margins, and the heading over the drawing
WARNED_MM = 11.0  # the top line of a book whose sums say no


def drawing_pages(matter: Matter) -> Iterator[Section]:
    """A section for each drawing; none where nothing is handed in to draw from."""
    if matter.drawn_from is None:
        return
    for name, title in WORKED_FROM.items():
        width, most = room_px(matter, name in TURNED)
        made = drawn_to_fit(name, matter.drawn_from, matter.style, width, most)
        block = picture(picture_of(made))
        yield Section(title, (block,), "wide" if name in TURNED else "flow")


def drawn_to_fit(name: str, drawn_from: Drawables, style: Style, width: float, most: float) -> str:
    """The drawing no higher than so much whose words cover fewest of its lines, in the largest letters that do; at least the least where none is low enough."""
    made, best = "", ""
    for size, made in _from_large_to_small(name, drawn_from, style, width):
        if best and size < CLEAR_PX:
            break
        if high_of(made) <= most:
            best = made if not best or patched(made) < patched(best) else best
            if name in TURNED:
                break
    return best or made


def _from_large_to_small(name: str, d: Drawables, style: Style, width: float) -> Iterator[tuple[float, str]]:  # fmt: skip
    for size in SIZES_PX:
        if name in TURNED:
            yield from ((size, TURNED[name](d, style, PAPER, width, size, high)) for high in HIGHS_PX)  # fmt: skip
        else:
            yield size, drawing_named(name, d, style, PAPER, width, size)


def room_px(matter: Matter, turned: bool) -> tuple[float, float]:
    """Width of a drawing on this paper, and the most it may be high [px of it]."""
    paper = PAPERS[matter.paper]
    wide, high = (paper.height_mm, paper.width_mm) if turned else (paper.width_mm, paper.height_mm)
    left = high - TYPE_MM[1] - (WARNED_MM if matter.warning else 0.0)
    width = TURNED_PX if turned else UPRIGHT_PX
    return width, left / (wide - TYPE_MM[0]) * width
