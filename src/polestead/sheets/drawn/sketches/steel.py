"""Sketches of the steel: frame on the floor, test piece, ears, sling, holds, order of the modules, clamps."""

from __future__ import annotations

from math import cos, radians, sin

from polestead.answer.drawables import Drawables
from polestead.base.show import Style, dimension
from polestead.build.cards.steel import SLUNG_DEG
from polestead.sheets.drawn.board import CUT, EDGE, FINE, Board, View
from polestead.sheets.drawn.common import arrow
from polestead.sheets.drawn.dimension import of_length
from polestead.sheets.drawn.front import columns_m, rail_middles_m, rows_m
from polestead.sheets.drawn.sketches.board import (
    array,
    fitted,
    hinge_of,
    hold_in,
    hold_named,
    pole,
    side_view,
    soil,
)
from polestead.sheets.svg import polygon

PLATE_SHOWN = 1.6  # legs of weld over the plate, where no plate is told


def frame(d: Drawables, board: Board, style: Style) -> None:
    """Strongback and rails laid out on the floor, both diagonals."""
    g, given = d.given.geometry, d.given
    half, chord = g.width_m / 2.0, g.chord_m
    figure = board.wide(
        dimension(chord, style), heavy=True
    )  # its half keeps off the strongback's end
    lane = figure / 2.0 + board.size * 0.8
    view = fitted(board, (-half, half), (-chord / 2.0, chord / 2.0), (1.2, 3.4, (lane + figure / 2.0) / board.size + 0.2, 4.0))  # fmt: skip
    axis = given.mount.hinge_off_centre_m
    for x in rail_middles_m(d):
        board.edge((view.at(x, -chord / 2.0), view.at(x, chord / 2.0)), 2.5)
    beam = max(given.beam.breadth_m, 0.05)
    tube = [view.at(x, axis + z) for x, z in ((-half, -beam / 2), (half, -beam / 2), (half, beam / 2), (-half, beam / 2))]  # fmt: skip
    board.lines.append(polygon(tube, board.ink.paper))
    board.edge(tube, EDGE, closed=True)
    rails = rail_middles_m(d)
    ends = [view.at(x, z) for x in (rails[0], rails[-1]) for z in (-chord / 2.0, chord / 2.0)]
    for a, b in ((ends[0], ends[3]), (ends[1], ends[2])):
        board.edge((a, b), FINE, "5 4", board.ink.pencil)
    y = view.at(0.0, chord / 2.0)[1] - board.size * 1.7
    of_length(board, (view.at(-half, 0)[0], y), (view.at(half, 0)[0], y), g.width_m, style, (view.at(-half, axis), view.at(half, axis)), "strongback long")  # fmt: skip
    x = view.at(half, 0.0)[0] + lane
    of_length(board, (x, view.at(0, chord / 2)[1]), (x, view.at(0, -chord / 2)[1]), chord, style, (view.at(rails[-1], chord / 2), view.at(rails[-1], -chord / 2)), "rail long")  # fmt: skip
    y = view.at(0.0, -chord / 2.0)[1] + board.size * 2.0
    a, b = (view.at(side * given.mount.hinge_span_m / 2.0, axis) for side in (-1.0, 1.0))
    for at in (a, b):
        board.edge(((at[0], at[1] - 9.0), (at[0], at[1] + 9.0)), 5.0)
    of_length(board, (a[0], y), (b[0], y), given.mount.hinge_span_m, style, (a, b), "between the hinge bearings", after=" bearings")  # fmt: skip
    board.told.append("both diagonals alike")
    board.note(view.at(0.0, 0.0), ("both diagonals alike",), [((board.width / 2.0, board.height - board.size * 0.5), "middle")], lead=False)  # fmt: skip


def test_piece(d: Drawables, board: Board, style: Style) -> None:
    """Two offcuts, one fillet, and which way the hammer goes."""
    f = d.given.frame
    leg = f.weld_leg_m or 0.008
    plate = f.ear_thickness_m or leg * PLATE_SHOWN
    arm = leg * 3.2 + plate
    view = fitted(board, (-arm, arm), (-plate, arm * 1.25), (3.6, 2.6, 3.6, 4.6))
    base = [view.at(x, z) for x, z in ((-arm, -plate), (arm, -plate), (arm, 0.0), (-arm, 0.0))]
    upright = [view.at(x, z) for x, z in ((-plate, 0.0), (0.0, 0.0), (0.0, arm * 1.2), (-plate, arm * 1.2))]  # fmt: skip
    for part in (base, upright):
        board.fill(part, "footing-steel")
        board.edge(part, CUT, closed=True)
    weld = [view.at(x, z) for x, z in ((0.0, 0.0), (leg, 0.0), (0.0, leg))]
    board.lines.append(polygon(weld, board.ink.ink))
    tip = view.at(0.0, arm * 1.02)
    board.say((tip[0] - plate * view.scale - board.size * 0.6, tip[1] - board.size * 2.2), ("hammer",), "end")  # fmt: skip
    arrow(board, (tip[0] - plate * view.scale - board.size * 4.4, tip[1]), (tip[0] - plate * view.scale - 2.0, tip[1]))  # fmt: skip
    if f.weld_leg_m is not None:
        y = base[0][1] + board.size * 2.0
        of_length(board, (weld[0][0], y), (weld[1][0], y), leg, style, ((weld[0][0], base[0][1]), (weld[1][0], base[0][1])), "leg of the fillet")  # fmt: skip
        x = weld[1][0] + board.size * 2.6
        of_length(board, (x, weld[2][1]), (x, weld[0][1]), leg, style, (weld[2], weld[1]), "the other leg", after="")  # fmt: skip
    board.note(view.at(-plate * 0.5, 0.0), ("root: look here", "once it is open"), [((8.0, board.height - board.size * 2.2), "start")])  # fmt: skip
    board.told.append("one side only; hammered over onto the weld")


def slung(d: Drawables, board: Board, style: Style) -> None:
    """The frame on the hook, seen along the array: slings, tag lines, clear ground."""
    g = d.given.geometry
    lift = next(one for one in d.built.lifts if one.name.startswith("strongback, rails"))
    half, quarter = g.width_m / 2.0, g.width_m / 4.0
    rise = quarter * sin(radians(SLUNG_DEG)) / cos(radians(SLUNG_DEG))
    over = g.hinge_height_m + 0.5
    reach = half * 1.15
    view = fitted(board, (-reach, reach), (0.0, over + rise), (1.0, 1.2, 1.0, 4.2))
    soil(board, view.origin[1])
    pole(d, board, view)
    beam = max(d.given.beam.depth_m, 0.12)
    tube = [view.at(x, z) for x, z in ((-half, over), (half, over), (half, over + beam), (-half, over + beam))]  # fmt: skip
    board.lines.append(polygon(tube, board.ink.paper))
    board.edge(tube, CUT, closed=True)
    hook = view.at(0.0, over + beam + rise)
    for side in (-1.0, 1.0):
        board.edge((hook, view.at(side * quarter, over + beam)), 2.0)
        board.edge((view.at(side * half, over), view.at(side * half * 1.05, 0.9)), FINE, "6 3")  # fmt: skip
    board.circle(hook, 6.0, 2.0, board.ink.paper)
    board.note(view.at(quarter, over + beam), (f"{SLUNG_DEG:.0f}° or steeper",), [((view.at(quarter, 0)[0] + board.size, hook[1] + board.size * 2.0), "start"), ((board.width - 6.0, hook[1] + board.size), "end")])  # fmt: skip
    board.note(view.at(-half * 1.02, over * 0.6), ("tag line", "at each end"), [((8.0, view.at(0, over * 0.55)[1]), "start")])  # fmt: skip
    y = view.origin[1] + board.size * 2.2
    a = view.at(0.0, 0.0)
    edge = min(a[0] + lift.clear_m * view.scale, board.width - 4.0)
    of_length(board, (a[0], y), (edge, y), lift.clear_m, style, (a, (edge, a[1])), "nobody within", after=" clear", way="up")  # fmt: skip
    x = view.at(-d.given.pipe.outside_m, 0.0)[0] - board.size * 2.4
    at = view.at(0.0, g.hinge_height_m)
    of_length(board, (x, at[1]), (x, view.origin[1]), g.hinge_height_m, style, (at, (x, view.origin[1])), "hinge over the ground")  # fmt: skip


def held(d: Drawables, board: Board, style: Style) -> None:
    """The frame on its hinge, storm hold and prop in; their places only so far as the file tells them."""
    g, given = d.given.geometry, d.given
    plate = given.lock is not None and given.lock.strut is None  # it has a hole at the least tilt
    tilt = given.mount.least_tilt_deg if plate else max(given.mount.least_tilt_deg, 5.0)
    view = side_view(d, board, (tilt,), (5.0, 2.4, 1.0, 2.6))
    soil(board, view.origin[1])
    pole(d, board, view)
    hinge = hinge_of(d, view)
    for hold, side, words in ((given.lock, 1.0, "storm hold"), (given.prop, -1.0, "prop")):
        if hold is None:
            continue
        middle = hold_in(d, board, hinge, tilt, hold, side)
        low = view.at(0.0, g.hinge_height_m - max(hold.arm_m, 0.5) * 1.1)[1] + board.size * 0.8
        board.note(middle, (words, hold_named("", hold).strip(", ")), [((middle[0] + side * board.size * 2.2, low), "start" if side > 0 else "end")])  # fmt: skip
        board.told.append(hold_named(words, hold))
    array(d, board, hinge, tilt)
    x = board.size * 2.6
    of_length(board, (x, hinge.origin[1]), (x, view.origin[1]), g.hinge_height_m, style, (hinge.origin, (x, view.origin[1])), "hinge over the ground")  # fmt: skip
    board.say((board.width / 2.0, board.height - board.size * 0.5), ("both pins through, cottered",), "middle")  # fmt: skip


def order(d: Drawables, board: Board, style: Style) -> None:  # noqa: ARG001  numbers only
    """The modules from the glass side, numbered as they are hung."""
    view = _grid(d, board)
    for nth, step in enumerate(d.built.hanging.steps, start=1):
        x1, x2 = columns_m(d)[step.column - 1]
        z1, z2 = rows_m(d)[step.row - 1]
        at = view.at((x1 + x2) / 2.0, (z1 + z2) / 2.0)
        high = min(board.size * 1.7, (x2 - x1) * view.scale * 0.7)
        board.say((at[0], at[1] + high * 0.35), (str(nth),), "middle", heavy=True, size=max(high, board.size))  # fmt: skip
    board.say((board.width / 2.0, view.at(0.0, d.given.geometry.chord_m / 2.0)[1] - board.size * 0.7), ("upper edge, seen from the glass",), "middle")  # fmt: skip
    board.say((board.width / 2.0, view.at(0.0, -d.given.geometry.chord_m / 2.0)[1] + board.size * 1.5), ("lower edge; dashed: hinge",), "middle")  # fmt: skip
    board.told.append("order, as row from the low edge and column from the left: " + ", ".join(f"{one.row}-{one.column}" for one in d.built.hanging.steps))  # fmt: skip


def _grid(d: Drawables, board: Board) -> View:
    g = d.given.geometry
    half = g.width_m / 2.0
    view = fitted(board, (-half, half), (-g.chord_m / 2.0, g.chord_m / 2.0), (0.4, 2.2, 0.4, 2.2))
    for x1, x2 in columns_m(d):
        for z1, z2 in rows_m(d):
            board.edge([view.at(x, z) for x, z in ((x1, z1), (x2, z1), (x2, z2), (x1, z2))], EDGE, closed=True)  # fmt: skip
    axis = d.given.mount.hinge_off_centre_m
    board.edge((view.at(-half - 0.05, axis), view.at(half + 0.05, axis)), FINE, "12 3 2 3")
    return view


def strings(d: Drawables, board: Board, style: Style) -> None:  # noqa: ARG001  letters only
    """The string map from where one stands to wire, each module with its letter and number, the wire through them."""
    m = d.strings
    wide, high = board.width - board.size, board.height - board.size * 5.4
    cell = (wide / m.columns, min(high / m.rows, wide / m.columns * 1.7))
    top = board.size * 2.4
    left = (board.width - cell[0] * m.columns) / 2.0
    ways: dict[str, list[tuple[float, float]]] = {}
    for spot in m.spots:
        x = left + (spot.column - 0.5) * cell[0]
        y = top + (m.rows - spot.row + 0.5) * cell[1]
        corners = [(x - cell[0] / 2 + 2, y - cell[1] / 2 + 2), (x + cell[0] / 2 - 2, y - cell[1] / 2 + 2), (x + cell[0] / 2 - 2, y + cell[1] / 2 - 2), (x - cell[0] / 2 + 2, y + cell[1] / 2 - 2)]  # fmt: skip
        board.edge(corners, EDGE, closed=True)
        ways.setdefault(spot.string, []).append((x, y + board.size * 0.9))
        # left of the middle, where a wire may come down; as far as the module goes
        start = max(corners[0][0] + 2.0, x - board.size * 0.4 - board.wide(spot.label, heavy=True))
        board.say((start, y - board.size * 0.1), (spot.label,), heavy=True)
    for way in ways.values():
        board.edge(way, 2.0, keep_off=False)
        for sign, at in (("−", way[0]), ("+", way[-1])):
            board.circle(at, 4.0, 2.0, board.ink.paper)
            board.say((at[0] + board.size * 0.7, at[1] + board.size * 1.15), (sign,), "middle", heavy=True)  # fmt: skip
    board.say((board.width / 2.0, board.size * 1.4), (f"upper edge, seen from the {m.seen}",), "middle")  # fmt: skip
    board.say(
        (board.width / 2.0, top + cell[1] * m.rows + board.size * 1.5), ("lower edge",), "middle"
    )
    board.told.append("strings " + "; ".join(f"{name}, {len(way)} modules" for name, way in ways.items()))  # fmt: skip


def clamps(d: Drawables, board: Board, style: Style) -> None:
    """Where four modules meet: gap, slot, rails, clamps; larger than true."""
    a, s = d.given.array, board.size
    gap, slot = s * 1.7, s * (2.6 if a.slot_m > a.gap_m else 1.7)
    x, y = board.width * 0.46, board.height * 0.46
    lx, rx, ty, by = x - gap / 2, x + gap / 2, y - slot / 2, y + slot / 2
    edge = s * 0.8
    for rail in (lx - s * 4.6, rx + s * 4.6):
        board.edge(((rail - 5.0, edge), (rail - 5.0, board.height - s * 2.4)), FINE, "8 3")
        board.edge(((rail + 5.0, edge), (rail + 5.0, board.height - s * 2.4)), FINE, "8 3")
        for at in (ty, by):
            board.lines.append(polygon([(rail - 9.0, at - 6.0), (rail + 9.0, at - 6.0), (rail + 9.0, at + 6.0), (rail - 9.0, at + 6.0)], board.ink.ink))  # fmt: skip
    for cx, cy, dx, dy in ((lx, ty, -1, -1), (rx, ty, 1, -1), (lx, by, -1, 1), (rx, by, 1, 1)):
        out = (edge if dx < 0 else board.width - edge, edge if dy < 0 else board.height - s * 2.4)
        board.edge([(out[0], cy), (cx, cy), (cx, out[1])], CUT)
    level = edge + s * 3.0
    of_length(
        board, (lx, level), (rx, level), a.gap_m, style, None, "gap between columns", after=" gap"
    )
    side = rx + s * 1.6
    between = a.slot_m if a.rows % 2 == 0 else a.gap_m
    of_length(board, (side, ty), (side, by), between, style, None, "between the two rows", after=" slot" if a.rows % 2 == 0 else " gap")  # fmt: skip
    board.note(
        (lx - s * 4.6 + 9.0, by), ("clamp", "on rail"), [((lx - s * 3.7, by + s * 2.4), "start")]
    )
    board.say(
        (board.width / 2.0, board.height - s * 0.6), ("larger than true; back dashed",), "middle"
    )
    board.told.append(f"gap {dimension(a.gap_m, style)}")
