"""The drawings a builder works from: a page each, as large as it takes, lettered to be read at arm's length."""

from __future__ import annotations

from collections.abc import Iterator

from polestead.sheets.book.blocks import Section, picture
from polestead.sheets.book.matter import Matter, high_of, picture_of
from polestead.sheets.drawn.index import drawing_named
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
WIDE_PX = 760.0  # over the width of the type area
SIZES_PX = (20.5, 19.0, 17.5, 16.0, 14.5, 13.0)  # 20.5 are 14 pt there, 13 are 9 pt
TYPE_MM = (34.0, 51.0)  # of the sheet's width and height: margins, and the heading over the drawing
WARNED_MM = 11.0  # the top line of a book whose sums say no


def drawing_pages(matter: Matter) -> Iterator[Section]:
    """A section for each drawing; none where nothing is handed in to draw from."""
    for name, title in WORKED_FROM.items() if matter.drawn_from is not None else ():
        yield Section(title, (picture(picture_of(drawn_to_fit(matter, name))),))


def drawn_to_fit(matter: Matter, name: str) -> str:
    """The drawing in the largest letters with which it stands on one page."""
    assert matter.drawn_from is not None
    made = ""
    for size in SIZES_PX:
        made = drawing_named(name, matter.drawn_from, matter.style, PAPER, WIDE_PX, size)
        if high_of(made) <= most_px(matter):
            break
    return made


def most_px(matter: Matter) -> float:
    """Height a drawing may take on this paper [px of it]."""
    paper = PAPERS[matter.paper]
    high = paper.height_mm - TYPE_MM[1] - (WARNED_MM if matter.warning else 0.0)
    return high / (paper.width_mm - TYPE_MM[0]) * WIDE_PX
