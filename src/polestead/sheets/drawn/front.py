"""The array seen square to the glass with its dimensions: modules, gaps, rails, strongback, hinge bearings."""

from __future__ import annotations

from itertools import pairwise

from polestead.answer.drawables import Drawables
from polestead.base.show import Style, dimension, sawn_m
from polestead.sheets.drawn.board import EDGE, Board, View
from polestead.sheets.drawn.common import SCOPE, UNSETTLED, mark, scale_bar
from polestead.sheets.drawn.dimension import of_length
from polestead.sheets.drawn.hatches import steel
from polestead.sheets.svg import Ink, polygon

NARROW_UNDER = 560.0


def front_drawing(d: Drawables, style: Style, ink: Ink, width: float = 802.0, size: float = 13.0, high: float = 420.0) -> str:  # fmt: skip
    """Columns and rows from the glass side, what lies behind them dashed.

    Args:
        d: What is drawn.
        style: Whose units.
        ink: Screen or paper.
        width: Of the drawing [px].
        size: Of its letters [px].
        high: Most that the array itself takes of the height [px].
    """
    g = d.given.geometry
    board = Board(width, 0.0, ink, size)
    narrow = width < NARROW_UNDER
    left, right = (
        (board.lane * 2.1, board.lane * 3.2)
        if narrow
        else (board.lane * 2.1, board.rail_wide + board.lane * 3.2)
    )
    scale = min((width - left - right) / g.width_m, high / g.chord_m)
    top = size * 6.8
    board.height = top + g.chord_m * scale + size * 6.4
    middle = left + (width - left - right) / 2.0
    view = View(scale, (middle, top + g.chord_m / 2.0 * scale))
    _behind(d, board, view)
    _modules(d, board, view)
    _figures(d, board, view, style)
    _notes(d, board, view, style, narrow)
    scale_bar(board, view, style, (8.0, board.height - size * 1.2))
    board.foot([
        "Seen square to the glass; dashed lies behind. Lower edge at the foot.",
        "Rails stand at a quarter of a module's width here for want of better: their place follows from the maker's clamping zones and is not in the file.",
        f"{SCOPE} {UNSETTLED}",
    ])  # fmt: skip
    return board.svg(steel("front-drawn-steel", ink), f"{d.name}, array square to the glass with dimensions")  # fmt: skip


def columns_m(d: Drawables) -> list[tuple[float, float]]:
    """Left and right edge of each column from the middle [m]."""
    side, gap = d.given.module_sides_m[0], d.given.array.gap_m
    start = -d.given.geometry.width_m / 2.0
    return [(start + n * (side + gap), start + n * (side + gap) + side) for n in range(d.given.array.columns)]  # fmt: skip


def rows_m(d: Drawables) -> list[tuple[float, float]]:
    """Lower and upper edge of each row from mid-chord [m]."""
    half = d.given.module_sides_m[1] / 2.0
    return [(centre - half, centre + half) for centre in d.given.grid.row_centres_m]


def rail_middles_m(d: Drawables) -> list[float]:
    """Middle of each rail from the middle of the array: at a quarter of a module's width for want of better [m]."""
    count = d.given.frame.rails
    shares = [0.5 if count == 1 else 0.25 + 0.5 * n / (count - 1) for n in range(count)]
    return [x1 + (x2 - x1) * share for x1, x2 in columns_m(d) for share in shares]


def _modules(d: Drawables, board: Board, view: View) -> None:
    for x1, x2 in columns_m(d):
        for z1, z2 in rows_m(d):
            board.edge([view.at(x, z) for x, z in ((x1, z1), (x2, z1), (x2, z2), (x1, z2))], EDGE, closed=True)  # fmt: skip


def _behind(d: Drawables, board: Board, view: View) -> None:
    """Strongback, rails, bearings and pole, dashed."""
    g, given = d.given.geometry, d.given
    axis, half = -given.mount.hinge_off_centre_m * -1.0, given.beam.breadth_m / 2.0
    rail = 0.05 if given.rail is None else given.rail.breadth_m
    for x in rail_middles_m(d):
        board.hidden([view.at(a, z) for a, z in ((x - rail / 2, -g.chord_m / 2), (x - rail / 2, g.chord_m / 2), (x + rail / 2, g.chord_m / 2), (x + rail / 2, -g.chord_m / 2))], closed=True)  # fmt: skip
    wide = g.width_m / 2.0
    board.hidden([view.at(x, axis + z) for x, z in ((-wide, -half), (wide, -half), (wide, half), (-wide, half))], closed=True)  # fmt: skip
    board.centre(view.at(-wide - 0.12, axis), view.at(wide + 0.12, axis))
    ear = given.frame.ear_thickness_m or 0.02
    for side in (-1.0, 1.0):
        x = side * given.mount.hinge_span_m / 2.0
        tall = max(half * 1.5, 0.06)
        for off in (-1.0, 1.0):
            middle = x + off * ((given.middle_m or 2 * ear) / 2 + ear / 2)
            a, b = view.at(middle - ear / 2, axis + tall), view.at(middle + ear / 2, axis - tall)
            board.lines.append(polygon([a, (b[0], a[1]), b, (a[0], b[1])], board.ink.ink))
    radius = given.pipe.outside_m / 2.0
    foot = view.at(0.0, -g.chord_m / 2.0)[1] + board.size * 0.8
    board.hidden([(view.at(-radius, 0)[0], foot), (view.at(-radius, 0)[0], view.at(0, axis - half)[1]), (view.at(radius, 0)[0], view.at(0, axis - half)[1]), (view.at(radius, 0)[0], foot)])  # fmt: skip


def _figures(d: Drawables, board: Board, view: View, style: Style) -> None:
    g, given = d.given.geometry, d.given
    top, low = view.at(0.0, g.chord_m / 2.0)[1], view.at(0.0, -g.chord_m / 2.0)[1]
    columns, rows = columns_m(d), rows_m(d)
    y_all, y_each = top - board.size * 4.6, top - board.size * 2.4
    left, right = view.at(-g.width_m / 2.0, 0.0)[0], view.at(g.width_m / 2.0, 0.0)[0]
    of_length(board, (left, y_all), (right, y_all), sawn_m(g.width_m, style), style, ((left, top), (right, top)), "array along the hinge")  # fmt: skip
    x1, x2 = (view.at(x, 0.0)[0] for x in columns[0])
    of_length(board, (x1, y_each), (x2, y_each), given.module_sides_m[0], style, None, "module along the hinge")  # fmt: skip
    if len(columns) > 1:
        a, b = view.at(columns[0][1], 0.0)[0], view.at(columns[1][0], 0.0)[0]
        of_length(board, (a, y_each), (b, y_each), given.array.gap_m, style, None, "gap between columns", mark=mark(d, "array", "gap"))  # fmt: skip
        if len(columns) > 2:
            x2 = view.at(columns[-1][1], 0.0)[0]
            words = f"{len(columns)} columns of {dimension(given.module_sides_m[0], style)}"
            board.note((x2, y_each), (words,), [((x2, y_each + board.size * up), "end") for up in (0.26, 1.4)], lead=False)  # fmt: skip
    x_all, x_each = right + board.lane * 2.1, right + board.lane
    of_length(board, (x_all, top), (x_all, low), sawn_m(g.chord_m, style), style, ((right, top), (right, low)), "chord")  # fmt: skip
    for nth, (z1, z2) in enumerate(rows):
        if nth in (0, len(rows) - 1):
            of_length(board, (x_each, view.at(0, z2)[1]), (x_each, view.at(0, z1)[1]), given.module_sides_m[1], style, None, f"module along the chord, row {nth + 1}")  # fmt: skip
    for nth, ((_, below), (above, _)) in enumerate(pairwise(rows)):
        slot = len(rows) % 2 == 0 and nth == len(rows) // 2 - 1
        if nth == 0 or slot:
            what = "slot over the strongback" if slot and given.array.slot_m > given.array.gap_m else "gap between rows"  # fmt: skip
            of_length(board, (x_each, view.at(0, above)[1]), (x_each, view.at(0, below)[1]), above - below, style, None, what)  # fmt: skip
    axis = view.at(0.0, given.mount.hinge_off_centre_m)[1]
    x = left - board.lane
    of_length(board, (x, axis), (x, low), g.lower_m, style, ((left - 14.0, axis), (left, low)), "hinge to lower edge")  # fmt: skip
    of_length(board, (x, top), (x, axis), g.upper_m, style, ((left, top), (left - 14.0, axis)), "hinge to upper edge")  # fmt: skip
    y = low + board.size * 2.6
    a, b = (view.at(s * given.mount.hinge_span_m / 2.0, 0.0)[0] for s in (-1.0, 1.0))
    of_length(board, (a, y), (b, y), given.mount.hinge_span_m, style, ((a, axis + 6.0), (b, axis + 6.0)), "between the hinge bearings", mark=mark(d, "mount", "hinge_span"))  # fmt: skip


def _notes(d: Drawables, board: Board, view: View, style: Style, narrow: bool) -> None:
    given, g = d.given, d.given.geometry
    if narrow:
        return
    axis = given.mount.hinge_off_centre_m
    (x1, x2), rails = columns_m(d)[-1], given.frame.rails
    share = 0.5 if rails == 1 else 0.75
    at = view.at(x1 + (x2 - x1) * share, g.chord_m * 0.32)
    rail = given.frame.rail or "section not in the file"
    board.note(at, (f"{given.rails} rails, {rails} a column", rail), board.rail(at[1]))
    at = view.at(g.width_m * 0.46, axis - given.beam.breadth_m / 2.0)
    board.note(at, ("strongback", given.mount.strongback), board.rail(at[1]))
    at = view.at(given.mount.hinge_span_m / 2.0, axis - given.beam.breadth_m * 0.7)
    board.note(
        at, ("hinge bearing, two of them", "see the hinge's detail"), board.rail(at[1] + 60.0)
    )
    at = view.at(given.pipe.outside_m / 2.0, -g.chord_m * 0.42)
    board.note(at, ("pole", given.mount.pole.written), board.rail(at[1] + 10.0))
    off = given.mount.hinge_off_centre_m
    words = "hinge axis, at mid-chord" if abs(off) < 5e-4 else f"hinge axis, {dimension(abs(off), style)} {'above' if off > 0 else 'below'} mid-chord"  # fmt: skip
    at = view.at(g.width_m / 2.0 + 0.1, axis)
    board.note(at, (words,), board.rail(at[1] - 30.0))
    if given.frame.rail_brace_m is not None:
        brace = given.frame.rail_brace_m
        at = view.at(x1 + (x2 - x1) * 0.25, axis + brace)
        board.edge((view.at(columns_m(d)[0][0], axis + brace), view.at(columns_m(d)[-1][1], axis + brace)), 0.6, "2 4", board.ink.pencil)  # fmt: skip
        board.edge((view.at(columns_m(d)[0][0], axis - brace), view.at(columns_m(d)[-1][1], axis - brace)), 0.6, "2 4", board.ink.pencil)  # fmt: skip
        board.note(at, ("knee braces under rails,", f"{dimension(brace, style)} each side"), board.rail(at[1]))  # fmt: skip
