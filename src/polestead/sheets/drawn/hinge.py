"""The hinge large: the ear from the side, one bearing cut along its pin, and what lies between pole and glass."""

from __future__ import annotations

from functools import partial
from math import cos, radians, sin

from polestead.answer.drawables import Drawables
from polestead.base.show import Style, dimension, drill
from polestead.build.pieces.bolts import BEYOND_EAR, pin_length_m
from polestead.build.pieces.plates import PlateCut
from polestead.sheets.drawn.board import CUT, EDGE, FINE, Board, View
from polestead.sheets.drawn.common import SCOPE, UNSETTLED, Field, Part, in_fields, mark, zigzag
from polestead.sheets.drawn.dimension import of_length
from polestead.sheets.drawn.hatches import steel
from polestead.sheets.svg import Ink, Point, polygon

NARROW_UNDER = 560.0
NOT_TOLD = "The file has no ears (frame.ear_thickness, weld_length): the hinge cannot be drawn in detail."  # fmt: skip


def hinge_detail(d: Drawables, style: Style, ink: Ink, width: float = 802.0, size: float = 13.0) -> str:  # fmt: skip
    """Three views: ear, bearing, and the whole from pole to glass with the array flat.

    Args:
        d: What is drawn.
        style: Whose units.
        ink: Screen or paper.
        width: Of the drawing [px].
        size: Of its letters [px].
    """
    board = Board(width, size * 2.4, ink, size)
    ear = next((plate for plate in d.plates if plate.name == "hinge ear"), None)
    views = [Part(partial(_stack, d, board, style), 300.0, wide=True)]
    if ear is not None and d.given.middle_m is not None:
        views = [
            Part(partial(_ear_view, d, board, style), 270.0),
            Part(partial(_bearing, d, board, style), 250.0),
            Part(partial(_stack, d, board, style), 290.0, wide=True),
        ]
    in_fields(board, views, width < NARROW_UNDER)
    told = [] if ear is not None else [NOT_TOLD]
    board.foot([*told, *_fits(d, style), "Whether the ears stand on the pole's cap or on the strongback is not in the file; the lug turns between them on the other part. Each fillet runs round the ear's foot.", f"{SCOPE} {UNSETTLED}"])  # fmt: skip
    return board.svg(steel("hinge-steel", ink), f"{d.name}, hinge in detail")


def stack_short_m(d: Drawables) -> float:
    """How much rails and modules take more than the file leaves between hinge axis and glass [m]; nothing where they fit."""
    rail = d.given.rail
    if rail is None:
        return 0.0
    needed = d.given.geometry.beam_clear_m + rail.depth_m + d.given.array.module.thickness_m
    return max(needed - d.given.geometry.glass_above_m, 0.0)


def _fits(d: Drawables, style: Style) -> list[str]:
    short = stack_short_m(d)
    if short < 0.001 or d.given.rail is None:
        return []
    parts = [dimension(one, style) for one in (d.given.geometry.beam_clear_m, d.given.rail.depth_m, d.given.array.module.thickness_m)]  # fmt: skip
    return [f"Does not fit: {parts[0]} to the rail's back, a rail {parts[1]} deep and a module {parts[2]} thick are {dimension(short, style)} more than hinge to glass in the file. Measure, or lay the rails flat."]  # fmt: skip


def ear_sketch(d: Drawables, board: Board, style: Style) -> None:
    """The ear alone, for a card."""
    if any(plate.name == "hinge ear" for plate in d.plates):
        _ear_view(d, board, style, (0.0, 0.0, board.width, board.height - board.size * 4.0))
    else:
        board.say((8.0, board.size * 2.0), ("No ears in the file.",))
        board.told.append(NOT_TOLD)


def _ear_view(d: Drawables, board: Board, style: Style, at: Field) -> float:
    """One ear seen along the pin; returns where the next may begin."""
    left, top, across, high = at
    ear: PlateCut = next(plate for plate in d.plates if plate.name == "hinge ear")
    f, given = d.given.frame, d.given
    xs, ys = [x for x, _ in ear.outline_m], [y for _, y in ear.outline_m]
    wide, tall = max(xs) - min(xs), max(ys) - min(ys)
    scale = min((across - board.lane * 4.6) / wide, (high - board.size * 6.0) / tall)
    foot = top + board.size * 5.0 + tall * scale
    view = View(scale, (left + across / 2.0, foot))
    board.say((left + 8.0, top + board.size * 1.3), ("One ear, seen along the pin",), heavy=True)
    corners = [view.at(x, y) for x, y in ear.outline_m]
    board.edge(corners, CUT, closed=True)
    hole = ear.holes[0]
    centre = view.at(hole.x_m, hole.y_m)
    board.circle(centre, hole.diameter_m / 2.0 * scale, EDGE)
    arm = given.edge_m * scale + 8.0
    board.centre((centre[0] - arm, centre[1]), (centre[0] + arm, centre[1]))
    board.centre((centre[0], centre[1] - arm), (centre[0], foot + 8.0))
    base_l, base_r = view.at(min(xs), 0.0), view.at(max(xs), 0.0)
    leg = (f.weld_leg_m or 0.0) * scale
    for end, side in ((base_l, -1.0), (base_r, 1.0)):
        board.lines.append(polygon([end, (end[0] + side * leg, end[1]), (end[0], end[1] - leg)], board.ink.ink))  # fmt: skip
    board.edge(((base_l[0] - 26.0, foot), (base_r[0] + 26.0, foot)), CUT)
    y = foot + board.size * 2.0
    of_length(board, (base_l[0], y), (base_r[0], y), ear_foot_m(ear), style, (base_l, base_r), "ear's foot", mark=mark(d, "frame", "weld_length"))  # fmt: skip
    x = base_l[0] - board.lane * 0.9
    of_length(board, (x, centre[1]), (x, foot), hole.y_m, style, (centre, (base_l[0] - 26.0, foot)), "hole over the foot", mark=mark(d, "frame", "ear_height"))  # fmt: skip
    edge = (centre[0], centre[1] - given.edge_m * scale)
    x = base_r[0] + board.lane * 0.9
    of_length(board, (x, edge[1]), (x, centre[1]), given.edge_m, style, (edge, centre), "hole's middle to the edge", mark=mark(d, "frame", "ear_edge"))  # fmt: skip
    way = radians(35.0)
    rim = (centre[0] + hole.diameter_m / 2.0 * scale * cos(way), centre[1] - hole.diameter_m / 2.0 * scale * sin(way))  # fmt: skip
    board.note(rim, (f"hole {drill(hole.diameter_m, style)}", f"pin {dimension(given.mount.hinge_pin_m, style)} {given.mount.hinge_pin_steel}"), [((left + across - board.wide("pin 1 1/4″ A3600"), top + board.size * 3.2), "start")])  # fmt: skip
    board.told.append(f"ear hole {drill(hole.diameter_m, style)}")
    if f.weld_leg_m is not None:
        board.note((base_r[0] + leg * 0.5, foot - leg * 0.4), (f"fillet, leg {dimension(f.weld_leg_m, style)}", "both sides of the foot"), [((base_r[0] + 18.0, foot - board.size * 2.4), "start"), ((left + across - 4.0, foot - board.size * 2.4), "end")])  # fmt: skip
        board.told.append(f"fillet leg {dimension(f.weld_leg_m, style)}")
    return foot + board.size * 4.4


def ear_foot_m(ear: PlateCut) -> float:
    """Length of the foot, on the line y = 0."""
    on = [x for x, y in ear.outline_m if abs(y) < 1e-9]
    return max(on) - min(on)


def _bearing(d: Drawables, board: Board, style: Style, at: Field) -> float:
    """One bearing cut along its pin: ear, gap, lug, gap, ear."""
    left, top, across, high = at
    f, given = d.given.frame, d.given
    ear, middle, gap = f.ear_thickness_m or 0.0, given.middle_m or 0.0, f.ear_gap_m
    pin = given.mount.hinge_pin_m
    long = pin_length_m(given) or 0.0
    tall = given.ear_height_m + given.edge_m
    scale = min((across - board.lane * 3.2) / long, (high - board.size * 8.0) / tall)
    foot = top + board.size * 5.0 + tall * scale
    view = View(scale, (left + across / 2.0, foot))
    board.say((left + 8.0, top + board.size * 1.3), ("One bearing, cut along its pin",), heavy=True)  # fmt: skip
    z, e = given.ear_height_m, given.edge_m
    inner = middle / 2.0 + gap
    for x1, x2, low, up in ((-inner - ear, -inner, 0.0, z + e), (inner, inner + ear, 0.0, z + e), (-middle / 2, middle / 2, z - e, z + e * 1.45)):  # fmt: skip
        block = [view.at(x, y) for x, y in ((x1, low), (x2, low), (x2, up), (x1, up))]
        board.lines.append(polygon(block, board.ink.paper))
        board.lines.append(polygon(block, "url(#hinge-steel)"))
        board.edge(block, EDGE, closed=True)
    zigzag(board, view.at(-middle / 2, 0)[0], view.at(middle / 2, 0)[0], view.at(0, z + e * 1.45)[1])  # fmt: skip
    rod = [view.at(x, z + y) for x, y in ((-long / 2, -pin / 2), (long / 2, -pin / 2), (long / 2, pin / 2), (-long / 2, pin / 2))]  # fmt: skip
    board.lines.append(polygon(rod, board.ink.paper))
    board.edge(rod, EDGE, closed=True)
    board.centre(view.at(-long / 2 - 0.01, z), view.at(long / 2 + 0.01, z))
    wide = inner + ear
    board.edge((view.at(-wide * 1.25, 0.0), view.at(wide * 1.25, 0.0)), CUT)
    leg = (f.weld_leg_m or 0.0) * scale
    for x, side in ((-inner - ear, -1.0), (inner + ear, 1.0), (-inner, 1.0), (inner, -1.0)):
        a = view.at(x, 0.0)
        if leg and (abs(x) > inner + ear / 2 or gap * 2 + middle > 2.2 * (f.weld_leg_m or 0.0)):
            board.lines.append(polygon([a, (a[0] + side * leg, a[1]), (a[0], a[1] - leg)], board.ink.ink))  # fmt: skip
    lanes = (foot + board.size * 1.9, foot + board.size * 3.9, foot + board.size * 5.9)
    spans = ((-middle / 2, middle / 2, z - e, "lug"), (inner, inner + ear, 0.0, "ear"), (-long / 2, long / 2, z, "pin"))  # fmt: skip
    for y, (x1, x2, low, what) in zip(lanes, spans, strict=True):
        a, b = view.at(x1, low), view.at(x2, low)
        key = {"lug": "middle_thickness", "ear": "ear_thickness"}.get(what, "")
        of_length(board, (a[0], y), (b[0], y), x2 - x1, style, (a, b), what, mark=mark(d, "frame", key), after=f" {what}")  # fmt: skip
    hair = view.at(inner - gap / 2, (z - e) * 0.5 + z * 0.5)
    words = f"gap {mark(d, 'frame', 'ear_gap')}{dimension(gap, style)}"
    board.note(hair, (words, "each side of the lug"), [((view.at(long / 2, 0.0)[0] + 12.0, hair[1] + 14.0), "start")])  # fmt: skip
    board.told.append(f"{words} each side of the lug")
    x = view.at(long / 2, 0.0)[0] + board.lane * 0.55
    of_length(board, (x, rod[2][1]), (x, rod[1][1]), pin, style, (rod[2], rod[1]), "pin across")
    y3 = view.at(0.0, z + pin / 2)[1] - board.size * 1.6
    a, b = view.at(inner + ear, z + e), view.at(long / 2, z + pin / 2)
    of_length(board, (a[0], y3), (b[0], y3), BEYOND_EAR * pin, style, ((a[0], a[1]), b), "pin beyond the ear")  # fmt: skip
    return lanes[2] + board.size * 2.0


def _stack(d: Drawables, board: Board, style: Style, at: Field) -> float:
    """From the pole's top to the glass, the array flat."""
    left, top, across, high = at
    given, g = d.given, d.given.geometry
    r, gap, clear = given.pipe.outside_m / 2.0, g.pole_top_below_m, g.beam_clear_m
    beam = given.beam
    rail = 0.05 if given.rail is None else given.rail.depth_m
    reach = max(beam.breadth_m, 2 * r) * 1.1
    up = max(g.glass_above_m, clear + rail) + 0.02
    scale = min((high - board.size * 4.0) / (gap + 0.14 + up), (across * 0.36) / reach)
    x0 = left + across * 0.42 if across >= NARROW_UNDER else left + across * 0.5
    view = View(scale, (x0, top + board.size * 2.8 + up * scale))
    board.say((left + 8.0, top + board.size * 1.3), ("Between pole and glass, the array flat",), heavy=True)  # fmt: skip
    tall = -gap - 0.12
    pole = [view.at(x, z) for x, z in ((-r, -gap), (r, -gap), (r, tall), (-r, tall))]
    board.edge([pole[3], pole[0], pole[1], pole[2]], CUT)
    zigzag(board, pole[3][0], pole[2][0], pole[3][1])
    tube = [view.at(x, z) for x, z in ((-beam.breadth_m / 2, clear - beam.depth_m), (beam.breadth_m / 2, clear - beam.depth_m), (beam.breadth_m / 2, clear), (-beam.breadth_m / 2, clear))]  # fmt: skip
    board.edge(tube, CUT, closed=True)
    wall = beam.design_wall_m
    board.edge([view.at(x, z) for x, z in ((wall - beam.breadth_m / 2, clear - beam.depth_m + wall), (beam.breadth_m / 2 - wall, clear - beam.depth_m + wall), (beam.breadth_m / 2 - wall, clear - wall), (wall - beam.breadth_m / 2, clear - wall))], FINE, closed=True)  # fmt: skip
    far = reach * 0.95
    board.edge([view.at(x, z) for x, z in ((-far, clear), (far, clear))], EDGE)
    if stack_short_m(d) <= 0.0:
        board.edge([view.at(x, z) for x, z in ((-far, clear + rail), (far, clear + rail))], EDGE)
    board.edge([view.at(x, z) for x, z in ((-far, g.glass_above_m), (far, g.glass_above_m))], 3.0)
    board.centre(view.at(-far, 0.0), view.at(far, 0.0))
    board.circle(view.origin, given.mount.hinge_pin_m / 2.0 * scale, EDGE, board.ink.paper)
    x = view.at(-far, 0.0)[0] - board.lane * 0.4
    axis = view.at(-far, 0.0)
    of_length(board, (x, axis[1]), (x, view.at(0.0, -gap)[1]), gap, style, (axis, view.at(-r, -gap)), "hinge axis over the pole's top", mark=mark(d, "mount", "pole_top_below_hinge"))  # fmt: skip
    if abs(clear) > 5e-4:
        of_length(board, (x, view.at(0, max(clear, 0))[1]), (x, view.at(0, min(clear, 0))[1]), abs(clear), style, (view.at(-far, max(clear, 0)), view.at(-far, min(clear, 0))), "hinge axis to the rails' back", mark=mark(d, "mount", "beam_clear_of_hinge"))  # fmt: skip
    x -= board.lane * 1.3
    of_length(board, (x, view.at(0.0, g.glass_above_m)[1]), (x, axis[1]), g.glass_above_m, style, (view.at(-far, g.glass_above_m), axis), "hinge axis to the glass", mark=mark(d, "mount", "glass_above_hinge"))  # fmt: skip
    x = view.at(far, 0.0)[0] + board.lane * 0.6
    of_length(board, (x, tube[2][1]), (x, tube[1][1]), beam.depth_m, style, (tube[2], tube[1]), "strongback deep")  # fmt: skip
    y = pole[3][1] + board.size * 1.6
    of_length(board, (pole[0][0], y), (pole[1][0], y), given.pipe.outside_m, style, (pole[3], pole[2]), "pole outside")  # fmt: skip
    if across >= NARROW_UNDER:
        rail_x = board.width - board.rail_wide

        def spots(level: float) -> list[tuple[Point, str]]:
            return [((rail_x, y), "start") for (_, y), _ in board.rail(level) if y > top + board.size * 2]  # fmt: skip

        board.note(view.at(far * 0.8, g.glass_above_m), ("glass",), spots(view.at(0, g.glass_above_m)[1] - 8.0))  # fmt: skip
        board.note(view.at(far * 0.8, clear + min(rail, 0.06) / 2), ("rail", given.frame.rail or "section not in the file"), spots(view.at(0, clear + rail)[1] + 20.0))  # fmt: skip
        board.note(view.at(beam.breadth_m / 2, clear - beam.depth_m * 0.4), ("strongback", given.mount.strongback), spots(view.at(0, 0)[1]))  # fmt: skip
        board.note(view.at(given.mount.hinge_pin_m / 2, 0.0), ("hinge axis", f"bearings {dimension(given.mount.hinge_span_m, style)} apart"), spots(view.at(0, -gap * 0.6)[1] + 20.0))  # fmt: skip
        board.note(view.at(r, -gap - 0.06), ("pole", given.mount.pole.written), spots(view.at(0, -gap - 0.06)[1]))  # fmt: skip
    return y + board.size * 1.6
