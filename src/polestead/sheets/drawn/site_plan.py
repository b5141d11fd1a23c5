"""The site as far as the file tells it: round the pole in plan, the run straightened, own lines with their distances, blanks for what must be asked."""

from __future__ import annotations

from math import cos, radians, sin

import numpy as np

from polestead.answer.drawables import Drawables
from polestead.base.show import Style, dimension, sawn_m
from polestead.homestead.model import BuriedLine
from polestead.mount.geometry import swept_m, top_height_m
from polestead.sheets.drawn.board import EDGE, FINE, GHOST_DASH, HEAVY, Board, View, wrapped
from polestead.sheets.drawn.common import SCOPE, UNSETTLED, arrow, north
from polestead.sheets.drawn.dimension import of_length
from polestead.sheets.drawn.hatches import by_hand
from polestead.sheets.svg import Ink, Point, polygon
from polestead.wiring.trench.own_lines import BY_HAND_M, OwnLine

NARROW_UNDER = 560.0
BLANKS = (
    "setback from the nearest boundary", "setback from the road", "from the house or nearest building", "from the well", "from the septic tank and field",
    "overhead line, level and height", "easement",
)  # fmt: skip


def site_plan(d: Drawables, style: Style, ink: Ink, width: float = 802.0, size: float = 13.0, run_bearing_deg: float | None = None) -> str:  # fmt: skip
    """Pole and array with north up, the run beside it, lines and blanks.

    Args:
        d: What is drawn.
        style: Whose units.
        ink: Screen or paper.
        width: Of the drawing [px].
        size: Of its letters [px].
        run_bearing_deg: Where the run leaves to, from true north; None where nobody said.
    """
    board = Board(width, 0.0, ink, size)
    narrow = width < NARROW_UNDER
    across = width if narrow else width * 0.5
    round_high = 300.0
    board.height = round_high + (20.0 * size if narrow else 0.0)
    low = _blanks(d, board, style, (8.0, round_high + size) if narrow else (across + 12.0, size * 2.0))  # fmt: skip
    _round_the_pole(d, board, style, across, round_high, run_bearing_deg)
    top = max(low, round_high)
    board.height = top + (24.0 + 2.0 * len(d.buried)) * size
    low = _ladder(d, board, style, top, run_bearing_deg)
    board.height = low
    _table(d, board, style)
    board.foot([*d.own.notes, f"Dig by hand within {dimension(BY_HAND_M, style)} of a line on either side (hatched).", "Distances alone place nothing: what has one distance only may lie anywhere at that distance.", f"{SCOPE} {UNSETTLED}"])  # fmt: skip
    return board.svg(by_hand("site-by-hand", ink), f"{d.name}, site plan")


def _round_the_pole(d: Drawables, board: Board, style: Style, across: float, high: float, bearing: float | None) -> None:  # fmt: skip
    g, m = d.given.geometry, d.given.mount
    to_sun, away = swept_m(g)
    reach = ((g.width_m / 2.0) ** 2 + max(to_sun, away) ** 2) ** 0.5
    near = [line for line in d.buried if line.from_pole_m is not None and line.from_pole_m < 2.2 * reach]  # fmt: skip
    most = max([reach, *(line.from_pole_m or 0.0 for line in near)]) * 1.12
    scale = (high - board.size * 5.0) / 2.0 / most
    view = View(scale, (across * 0.42, high / 2.0 + board.size))
    board.say((8.0, board.size * 1.3), ("Round the pole, true north up",), heavy=True)
    t = radians(m.facing_deg)
    glass, side = (sin(t), cos(t)), (cos(t), -sin(t))

    def at(along: float, out: float) -> Point:
        return view.at(along * side[0] + out * glass[0], along * side[1] + out * glass[1])

    half = g.width_m / 2.0
    board.edge([at(x, z) for x, z in ((-half, to_sun), (half, to_sun), (half, -away), (-half, -away))], EDGE, closed=True)  # fmt: skip
    board.circle(view.origin, d.given.footing.diameter_m / 2.0 * scale, FINE, dash="8 3")
    board.circle(view.origin, max(d.given.pipe.outside_m / 2.0 * scale, 2.0), EDGE, board.ink.ink)
    board.circle(view.origin, reach * scale, FINE, dash=GHOST_DASH, colour=board.ink.pencil)
    arrow(board, at(0.0, to_sun * 0.3), at(0.0, to_sun + 16.0 / scale))
    rim = view.at(reach * sin(radians(60.0)), reach * cos(radians(60.0)))
    board.note(rim, ("corners reach", dimension(reach, style)), [((across - 6.0, rim[1] - 30.0), "end"), ((across - 6.0, rim[1]), "end")])  # fmt: skip
    swept = max(
        at(half * 0.8, to_sun * 0.8), at(-half * 0.8, to_sun * 0.8)
    )  # the right one: its corner is bare
    board.note(swept, ("swept by the array", f"{dimension(sawn_m(g.width_m, style), style)} x {dimension(to_sun + away, style)}"), [((across - 6.0, high - board.size * 3.2), "end"), ((6.0, high - board.size * 4.0), "start")])  # fmt: skip
    board.note(at(0.0, to_sun + 16.0 / scale), ("looks", f"{m.facing_deg:g}° true"), [((view.origin[0] + 8.0, at(0.0, to_sun * 0.55)[1]), "start"), ((view.origin[0] + 8.0, view.origin[1] - 20.0), "start")], lead=False)  # fmt: skip
    north(board, (30.0, board.size * 6.0), 0.0)
    for line in near:
        away_m = line.from_pole_m or 0.0
        board.circle(view.origin, away_m * scale, 1.2, dash="2 4")
        place = view.at(away_m * sin(radians(300.0)), away_m * cos(radians(300.0)))
        board.note(place, (line.name, f"{dimension(away_m, style)} off, side not told"))
    if bearing is not None:
        b = radians(bearing)
        arrow(board, view.origin, view.at(most * 0.95 * sin(b), most * 0.95 * cos(b)))
        board.note(view.at(most * 0.8 * sin(b), most * 0.8 * cos(b)), (f"run leaves at {bearing:g}° true",))  # fmt: skip
    board.told += [f"array swept {dimension(sawn_m(g.width_m, style), style)} by {dimension(to_sun + away, style)}", f"farthest corner {dimension(reach, style)} from the pole"]  # fmt: skip


def _blanks(d: Drawables, board: Board, style: Style, at: Point) -> float:
    """What the office asks and the file does not hold."""
    x, y = at
    step = board.size * 1.75
    right = board.width - 8.0
    board.say((x, y - board.size * 0.6), ("To ask and to measure",), heavy=True)
    place, m = d.given.place, d.given.mount
    top = float(top_height_m(d.given.geometry, np.array(m.steepest_tilt_deg)))
    limit = "not in the file" if place.height_limit_m is None else dimension(place.height_limit_m, style)  # fmt: skip
    y += board.size * 1.2
    told = (f"height limit {limit}", f"top at {m.steepest_tilt_deg:g}°: {dimension(top, style)}")
    board.say((x, y), told, colour=board.ink.ink)
    board.told += told
    y += board.step + step
    for words in BLANKS:
        board.say((x, y), (words,))
        end = x + board.wide(words) + 6.0
        if end < right - 40.0:
            board.thin.append(((end, y + 2.0), (right, y + 2.0)))
        y += step
    return y


def _ladder(d: Drawables, board: Board, style: Style, top: float, bearing: float | None) -> float:
    """The run pulled straight, with what crosses it where it crosses."""
    run = d.given.run
    ink, size = board.ink, board.size
    where_to = "its direction is not in the file" if bearing is None else f"leaving at {bearing:g}° true"  # fmt: skip
    most = int((board.width - 16.0) / (size * ink.letter * HEAVY))
    for nth, part in enumerate(wrapped(f"The run, pulled straight; {where_to}", most)):
        board.say((8.0, top + size * (1.2 + 1.28 * nth)), (part,), heavy=True)
    left, right = 40.0, board.width - 60.0
    y = top + size * 10.2
    scale = (right - left) / run.length_m

    def at(along: float) -> float:
        return left + along * scale

    board.edge(((left, y), (right, y)), EDGE, "14 3")
    board.circle((left, y), 6.0, 2.0, ink.paper)
    house = [(right, y - 10.0), (right + 18.0, y - 10.0), (right + 18.0, y + 10.0), (right, y + 10.0)]  # fmt: skip
    board.edge(house, 2.0, closed=True)
    board.say((8.0, y + size * 2.0), ("pole",))
    board.say((board.width - 4.0, y + size * 2.0), ("controller",), "end")
    crossing = [one for one in d.own.lines if one.crosses_at_m is not None and one.crosses_at_m <= run.length_m]  # fmt: skip
    for one in crossing:
        where = at(one.crosses_at_m or 0.0)
        if one.hand_dig_m is not None:
            a, b = at(one.hand_dig_m[0]), at(one.hand_dig_m[1])
            middle, half = (a + b) / 2.0, max((b - a) / 2.0, 4.0)
            band = [(middle - half, y - 14.0), (middle + half, y - 14.0), (middle + half, y + 14.0), (middle - half, y + 14.0)]  # fmt: skip
            board.lines.append(polygon(band, "url(#site-by-hand)"))
        board.edge(((where, y - size * 2.2), (where, y + 20.0)), 2.0)
    lane = y + size * 4.0
    for nth, one in enumerate(crossing):
        where, floor = at(one.crosses_at_m or 0.0), lane + nth * size * 1.7
        of_length(board, (left, floor), (where, floor), one.crosses_at_m or 0.0, style, ((left, y + 8.0), (where, y + 20.0)), f"{one.name} crosses the run from the pole at", after=" from the pole")  # fmt: skip
    for line in d.buried:
        if line.crosses_run_at_m is None and line.from_pole_m is not None and line.from_pole_m <= run.length_m:  # fmt: skip
            _arc(board, line, style, (left, y), scale)
    for one in crossing:
        where = at(one.crosses_at_m or 0.0)
        deep = "depth not told" if one.top_m is None else f"{dimension(one.top_m, style)} down"
        board.note((where, y - size * 2.0), (one.name, f"{deep}, we pass {one.way}"), [((where + 8.0, y - size * 2.9), "start"), ((where - 8.0, y - size * 2.9), "end")], most=34)  # fmt: skip
    lane += len(crossing) * size * 1.7
    of_length(board, (left, lane), (right, lane), run.length_m, style, ((left, y + 8.0), (right, y + 12.0)), "run, one way with its rises", after=" with the rises")  # fmt: skip
    return lane + size * 1.6


def _arc(board: Board, line: BuriedLine, style: Style, pole: Point, scale: float) -> None:
    """A piece of the round about the pole on which a line is somewhere nearest."""
    far = (line.from_pole_m or 0.0) * scale
    turn = min(34.0 / max(far, 1.0), 0.8)
    ways = [-turn + 2.0 * turn * n / 12.0 for n in range(13)]
    board.edge([(pole[0] + far * cos(w), pole[1] + far * sin(w)) for w in ways], 1.2, "2 4")
    beside = "" if line.from_run_m is None else f", {dimension(line.from_run_m, style)} beside the run"  # fmt: skip
    words = (line.name, f"nearest {dimension(line.from_pole_m or 0.0, style)} from the pole{beside}", "somewhere on this round, side not told")  # fmt: skip
    tip = (pole[0] + far * cos(turn), pole[1] - far * sin(turn))
    board.note(tip, words, [((tip[0] + k, pole[1] - board.size * up), a) for up in (7.2, 8.0, 5.0) for k, a in ((-40.0, "start"), (10.0, "end"), (-180.0, "start"))], most=60)  # fmt: skip


def _table(d: Drawables, board: Board, style: Style) -> None:
    """Own lines with every distance there is, and what is still asked."""
    board.height += board.size * 2.2
    board.say((8.0, board.height - board.size * 0.8), ("Own lines in the ground",), heavy=True)
    if not d.own.lines:
        board.height += board.step
        board.say((8.0, board.height - board.size * 0.6), ("none in the file",))
    for one in d.own.lines:
        said = [("", f"{one.name} ({one.what}): {_placed(d, one, style)}")]
        said += [("", f"taped: {words}") for words in one.offsets]
        said += [("", f"to find out: {words}") for words in one.asked]
        most = int((board.width - 30.0) / (board.size * board.ink.letter))
        for nth, (_, words) in enumerate(said):
            for part in wrapped(words, most):
                board.height += board.step
                board.say((8.0 if nth == 0 else 22.0, board.height - board.size * 0.6), (part,), colour=board.ink.ink if nth == 0 else board.ink.pencil)  # fmt: skip
        board.told += [words for _, words in said]


def _placed(d: Drawables, one: OwnLine, style: Style) -> str:
    line = next(line for line in d.buried if line.name == one.name)
    parts = ["depth not told" if one.top_m is None else f"top {dimension(one.top_m, style)} down"]
    if one.crosses_at_m is not None:
        parts.append(f"crosses the run {dimension(one.crosses_at_m, style)} from the pole")
    if line.from_run_m is not None:
        parts.append(f"{dimension(line.from_run_m, style)} beside the run at its nearest, side not told")  # fmt: skip
    if line.from_pole_m is not None:
        parts.append(f"{dimension(line.from_pole_m, style)} from the pole at its nearest")
    return ", ".join(parts)
