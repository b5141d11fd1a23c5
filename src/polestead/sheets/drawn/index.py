"""Every drawing by name, so that page and book ask for them alike."""

from __future__ import annotations

from collections.abc import Callable

from polestead.answer.drawables import Drawables
from polestead.base.problem import Problem, Wrong
from polestead.base.show import Style
from polestead.sheets.drawn.cap import cap_detail
from polestead.sheets.drawn.footing import footing_section
from polestead.sheets.drawn.front import front_drawing
from polestead.sheets.drawn.hinge import hinge_detail
from polestead.sheets.drawn.plan import plan_drawing
from polestead.sheets.drawn.side import side_drawing
from polestead.sheets.drawn.site_plan import site_plan
from polestead.sheets.one_line import one_line
from polestead.sheets.string_map import string_map
from polestead.sheets.svg import Ink

Drawing = Callable[[Drawables, Style, Ink, float, float], str]


def _one_line(d: Drawables, style: Style, ink: Ink, width: float, size: float) -> str:
    return one_line(d.one_line, style, ink, width, size, d.name)


def _string_map(d: Drawables, style: Style, ink: Ink, width: float, size: float) -> str:
    return string_map(d.strings, style, ink, width, size, d.name)


DRAWINGS: dict[str, Drawing] = {
    "side": side_drawing,
    "front": front_drawing,
    "plan": plan_drawing,
    "section": footing_section,
    "hinge": hinge_detail,
    "cap": cap_detail,
    "string map": _string_map,
    "one-line": _one_line,
    "site": site_plan,
}
ALSO = {"hole": "section", "footing": "section", "sleeve": "cap"}  # other words for the same


def drawing_named(name: str, d: Drawables, style: Style, ink: Ink, width: float = 802.0, size: float = 13.0) -> str:  # fmt: skip
    """A drawing by its name.

    Args:
        name: One of ``DRAWINGS``, or another word for one.
        d: What is drawn.
        style: Whose units.
        ink: Screen or paper.
        width: Of the drawing [px].
        size: Of its letters [px].

    Raises:
        Wrong: No such drawing.
    """
    made = DRAWINGS.get(ALSO.get(name, name))
    if made is None:
        raise Wrong([Problem("", "drawing", name, ", ".join(DRAWINGS), "Name one of these.")])
    return made(d, style, ink, width, size)
