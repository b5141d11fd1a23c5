"""Whole pages drawn to scale: SVG whose unit is the millimetre, and a PDF made of them at 1:1."""

from __future__ import annotations

import json
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from importlib.resources import files
from typing import Any, Literal
from xml.sax.saxutils import escape

from polestead.sheets.svg import PAPER, Point, tag, text

Paper = Literal["letter", "a4"]
MM_PER_PT = 25.4 / 72.0
CARD_MM = (85.6, 54.0)  # ISO/IEC 7810, ID-1


@dataclass(frozen=True, slots=True)
class PaperSize:
    """Width and height of a sheet, upright [mm], and the typesetter's name for it."""

    width_mm: float
    height_mm: float
    name: str


PAPERS: dict[Paper, PaperSize] = {
    "letter": PaperSize(215.9, 279.4, "us-letter"),
    "a4": PaperSize(210.0, 297.0, "a4"),
}


@dataclass(frozen=True, slots=True)
class Leaf:
    """A page as drawn, and its words for those who do not see it."""

    svg: str
    title: str
    words: str


def say_pt(
    at: Point, words: str, points: float, anchor: str = "start", weight: str | None = None
) -> str:
    """One line of text on a page in millimetres, its size in points."""
    return text(at, words, PAPER.ink, PAPER.face, points * MM_PER_PT, anchor, weight)


def bank_card(at: Point, told: Sequence[str]) -> list[str]:
    """The outline of a bank card to prove a print with, and what to do with it, the first line heavy."""
    wide, high = CARD_MM
    middle = at[0] + wide / 2.0
    first = at[1] + 0.38 * high
    return [
        tag("rect", x=at[0], y=at[1], width=wide, height=high, rx=3.18, fill="none", stroke=PAPER.ink, stroke_width=0.35),
        say_pt((middle, first), told[0], 14, "middle", "bold"),
        *(say_pt((middle, first + 1.5 + 5.5 * nth), words, 10 if nth < 2 else 9, "middle") for nth, words in enumerate(told[1:], 1)),
    ]  # fmt: skip


def leaf(paper: Paper, defs: str, body: Iterable[str], title: str, words: str) -> Leaf:
    """A page whose user unit is one millimetre."""
    size = PAPERS[paper]
    inside = f"<title>{escape(title)}</title><desc>{escape(words)}</desc>" + tag("defs", defs or " ") + "".join(body)  # fmt: skip
    # width and height are bare: given in millimetres a reader rounds them to whole pixels, and the page is a thousandth too small
    svg = tag(
        "svg", inside, xmlns="http://www.w3.org/2000/svg", viewBox=f"0 0 {size.width_mm:g} {size.height_mm:g}",
        width=f"{size.width_mm:g}", height=f"{size.height_mm:g}", role="img",
    )  # fmt: skip
    return Leaf(svg, title, words)


def leaves_pdf(leaves: Sequence[Leaf], paper: Paper, title: str, warning: str = "") -> bytes:
    """A PDF of whole drawn pages at 1:1, a warning on the top line of each; the same leaves give the same bytes."""
    import typst

    parts: dict[str, Any] = {"main": files("polestead.sheets").joinpath("leaves.typ").read_bytes()}
    told = []
    for nth, one in enumerate(leaves):
        parts[f"leaf-{nth}.svg"] = one.svg.encode("utf-8")
        told.append({"file": f"leaf-{nth}.svg", "alt": one.words})
    page = {"paper": PAPERS[paper].name, "title": title, "leaves": told, "warning": warning}
    compile_files: Any = (
        typst.compile
    )  # its stub does not know that a folder of files may be handed over
    made = compile_files(
        parts, format="pdf", sys_inputs={"page": json.dumps(page)}, ignore_system_fonts=True, timestamp=0
    )  # fmt: skip
    return bytes(made)
