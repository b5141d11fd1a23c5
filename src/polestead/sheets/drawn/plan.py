"""Seen from above: the array flat and steepest, pole and pier, which way it looks, what it sweeps."""

from __future__ import annotations

from polestead.answer.drawables import Drawables
from polestead.base.show import Style, dimension
from polestead.mount.geometry import reach_m, swept_m
from polestead.sheets.drawn.board import EDGE, FINE, Board, View
from polestead.sheets.drawn.common import SCOPE, arrow, north, scale_bar, sun_side
from polestead.sheets.drawn.dimension import of_length
from polestead.sheets.drawn.hatches import concrete
from polestead.sheets.svg import Ink

LANE = 46.0
NARROW_UNDER = 560.0


def plan_drawing(d: Drawables, style: Style, ink: Ink, width: float = 802.0, size: float = 13.0, high: float = 380.0) -> str:  # fmt: skip
    """From above; the glass looks down the page.

    Args:
        d: What is drawn.
        style: Whose units.
        ink: Screen or paper.
        width: Of the drawing [px].
        size: Of its letters [px].
        high: Most that what it sweeps takes of the height [px].
    """
    g, m = d.given.geometry, d.given.mount
    board = Board(width, 0.0, ink, size)
    narrow = width < NARROW_UNDER
    to_sun, away = swept_m(g)
    left, right = (
        (LANE * 1.9, LANE * 1.5)
        if narrow
        else (board.lane * 3.2, board.rail_wide + board.lane * 2.1)
    )
    scale = min((width - left - right) / g.width_m, high / (to_sun + away))
    top = size * 4.6
    board.height = top + (to_sun + away) * scale + size * 11.0
    middle = left + (width - left - right) / 2.0
    view = View(scale, (middle, top + away * scale))
    half = g.width_m / 2.0
    wide = [view.at(x, z) for x, z in ((-half, away), (half, away), (half, -to_sun), (-half, -to_sun))]  # fmt: skip
    board.edge(wide, FINE, "12 3 2 3", board.ink.pencil, closed=True)
    spans = []
    for tilt in (m.least_tilt_deg, m.steepest_tilt_deg):
        near, far = reach_m(g, tilt)
        spans.append((tilt, near, far))
        corners = [view.at(x, z) for x, z in ((-half, far), (half, far), (half, -near), (-half, -near))]  # fmt: skip
        if tilt == m.least_tilt_deg:
            board.edge(corners, EDGE, closed=True)
        else:
            board.ghost(corners)
    board.centre(view.at(-half - 0.1, 0.0), view.at(half + 0.1, 0.0))
    board.circle(view.origin, d.given.footing.diameter_m / 2.0 * scale, FINE, dash="8 3")
    board.circle(view.origin, d.given.pipe.outside_m / 2.0 * scale, FINE, dash="8 3")
    _figures(d, board, view, style, spans, narrow)
    foot = view.at(0.0, -to_sun)[1] + size * 3.2
    arrow(board, (middle, foot), (middle, foot + 34.0))
    board.say((middle, foot + 34.0 + size * 1.2), (f"glass looks {m.facing_deg:g}° from true north",), "middle")  # fmt: skip
    turned = (180.0 - m.facing_deg) % 360.0
    north(board, (left * 0.4 + 20.0, foot + 12.0), turned)
    scale_bar(board, view, style, (8.0, board.height - size * 1.2))
    board.told.append(f"glass looks {m.facing_deg:g} degrees from true north")
    _notes(d, board, view, style, spans, narrow)
    board.foot([f"Solid at {m.least_tilt_deg:g}°, dashed at {m.steepest_tilt_deg:g}°, dash and dot: all the travel sweeps. The sun side ({sun_side(d)}) is at the foot of the page. A compass needle does not point to true north.", SCOPE])  # fmt: skip
    return board.svg(concrete("plan-drawn-concrete", ink), f"{d.name}, plan with dimensions")


def _figures(d: Drawables, board: Board, view: View, style: Style, spans: list[tuple[float, float, float]], narrow: bool) -> None:  # fmt: skip
    g = d.given.geometry
    half = g.width_m / 2.0
    to_sun, away = swept_m(g)
    left, right = view.at(-half, 0.0)[0], view.at(half, 0.0)[0]
    top, low = view.at(0.0, away)[1], view.at(0.0, -to_sun)[1]
    y = top - board.size * 2.2
    of_length(board, (left, y), (right, y), g.width_m, style, ((left, top), (right, top)), "array along the hinge")  # fmt: skip
    for nth, (tilt, near, far) in enumerate(spans):
        if narrow and nth:
            continue
        x = left - board.lane * (1.0 + 1.15 * nth)
        y1, y2, axis = view.at(0.0, far)[1], view.at(0.0, -near)[1], view.origin[1]
        of_length(board, (x, y1), (x, axis), far, style, ((left, y1), (left - 10.0, axis)), f"at {tilt:g} degrees, hinge axis to the upper edge")  # fmt: skip
        of_length(board, (x, axis), (x, y2), near, style, (((left - 10.0, axis)), (left, y2)), f"at {tilt:g} degrees, hinge axis to the lower edge")  # fmt: skip
    x = right + board.lane
    of_length(board, (x, top), (x, low), to_sun + away, style, ((right, top), (right, low)), "swept over the travel")  # fmt: skip


def _notes(d: Drawables, board: Board, view: View, style: Style, spans: list[tuple[float, float, float]], narrow: bool) -> None:  # fmt: skip
    if narrow:
        return
    given, g = d.given, d.given.geometry
    half, radius = g.width_m / 2.0, given.footing.diameter_m / 2.0
    at = view.at(given.pipe.outside_m / 2.0, 0.0)
    board.note((at[0], at[1] - 2.0), ("pole", f"{dimension(given.pipe.outside_m, style)} outside"), board.rail(at[1] - 40.0))  # fmt: skip
    at = view.at(radius * 0.72, -radius * 0.7)
    board.note(at, ("pier under the ground", f"{dimension(given.footing.diameter_m, style)} across"), board.rail(at[1] + 20.0))  # fmt: skip
    for tilt, near, _ in spans:
        at = view.at(half * 0.93, -near)
        board.note(at, (f"lower edge at {tilt:g}°",), board.rail(at[1] + 8.0))
    for tilt, _, far in spans:
        at = view.at(half * 0.93, far)
        board.note(at, (f"upper edge at {tilt:g}°",), board.rail(at[1] - 8.0))
    corner = ((half + 0.0) ** 2 + max(swept_m(g)) ** 2) ** 0.5
    board.note(view.at(half, 0.0), ("hinge axis; farthest corner", f"{dimension(corner, style)} from the pole"), board.rail(view.origin[1] + 60.0))  # fmt: skip
