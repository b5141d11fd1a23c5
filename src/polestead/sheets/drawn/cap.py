"""The pole's top: where the cap's bolts go round and down, its weld, and a split sleeve cut from the pole's own pipe."""

from __future__ import annotations

from functools import partial
from math import cos, pi, radians, sin

from polestead.answer.drawables import Drawables
from polestead.base.show import Style, dimension, drill, wall
from polestead.build.pieces.plates import PlateCut
from polestead.sheets.drawn.board import CUT, EDGE, FINE, Board, View
from polestead.sheets.drawn.common import SCOPE, UNSETTLED, Field, Part, in_fields, mark, zigzag
from polestead.sheets.drawn.dimension import of_length
from polestead.sheets.drawn.hatches import steel
from polestead.sheets.svg import Ink, Point, tag
from polestead.strength.sleeve import split_sleeve

NARROW_UNDER = 560.0
VIEW_HIGH = 226.0
NO_BOLTS = "No cap bolts in the file (frame.cap_bolts, cap_bolt): how is the cap kept from turning on the pole?"  # fmt: skip
NO_SLEEVE = "No split sleeve in the file (frame.split_sleeve_play): the cap's or sleeve's own length and wall are not told either."  # fmt: skip


def cap_detail(d: Drawables, style: Style, ink: Ink, width: float = 802.0, size: float = 13.0) -> str:  # fmt: skip
    """Side and plan of the pole's top with its holes; the split sleeve where one is wanted.

    Args:
        d: What is drawn.
        style: Whose units.
        ink: Screen or paper.
        width: Of the drawing [px].
        size: Of its letters [px].
    """
    board = Board(width, size * 2.0, ink, size)
    wrap = next((plate for plate in d.plates if plate.kind == "wrap"), None)
    sleeve = d.given.frame.split_sleeve_play_m is not None
    views = [_side, _round, *([_sleeve] if sleeve else [])]
    in_fields(board, [Part(partial(view, d, board, style, wrap), VIEW_HIGH) for view in views], width < NARROW_UNDER)  # fmt: skip
    told = [*([] if wrap else [NO_BOLTS]), *([] if sleeve else [NO_SLEEVE])]
    leg = d.given.frame.cap_weld_leg_m
    told.append(f"Fillet all round where the cap meets the pole, leg {dimension(leg, style)}." if leg else "No weld of cap to pole in the file (frame.cap_weld_leg).")  # fmt: skip
    board.foot([*told, "Measure round the real pole before a hole is marked: pipes are not true. A closed, galvanized pole needs vent and drain holes.", f"{SCOPE} {UNSETTLED}"])  # fmt: skip
    return board.svg(steel("cap-steel", ink), f"{d.name}, pole's top in detail")


def _side(d: Drawables, board: Board, style: Style, wrap: PlateCut | None, at: Field) -> float:
    left, top, across, _ = at
    r = d.given.pipe.outside_m / 2.0
    down = wrap.holes[0].y_m if wrap else 0.1
    tall = 2.0 * down + 0.06
    scale = min((across - board.lane * 3.6) / (2.0 * r), 190.0 / tall)
    view = View(scale, (left + across / 2.0, top + board.size * 4.0))
    board.say((left + 8.0, top + board.size * 1.3), ("Pole's top from the side",), heavy=True)
    corners = [view.at(x, z) for x, z in ((-r, -tall), (-r, 0.0), (r, 0.0), (r, -tall))]
    board.edge(corners, CUT)
    zigzag(board, corners[0][0], corners[3][0], corners[0][1])
    board.centre(view.at(0.0, 0.03), view.at(0.0, -tall - 0.02))
    if wrap is None:
        y = corners[0][1] + board.size * 2.0
        of_length(board, (corners[0][0], y), (corners[3][0], y), 2.0 * r, style, (corners[0], corners[3]), "pole outside")  # fmt: skip
        return y + board.size * 1.6
    count = len(wrap.holes)
    drill_m = wrap.holes[0].diameter_m
    for way in hole_ways_deg(count):
        if cos(radians(way)) > 0.01:  # on the side that is seen
            x = r * sin(radians(way))
            half = drill_m / 2.0 * cos(radians(way)) * scale
            place = view.at(x, -down)
            board.lines.append(tag("ellipse", cx=place[0], cy=place[1], rx=max(half, 0.6), ry=drill_m / 2.0 * scale, fill="none", stroke=board.ink.ink, stroke_width=EDGE))  # fmt: skip
    row = view.at(-r, -down)
    board.centre((row[0] - 10.0, row[1]), (view.at(r, 0)[0] + 10.0, row[1]))
    x = corners[0][0] - board.lane * 0.6
    of_length(board, (x, corners[1][1]), (x, row[1]), down, style, (corners[1], row), "bolt row under the pole's top")  # fmt: skip
    y = corners[0][1] + board.size * 2.0
    of_length(board, (corners[0][0], y), (corners[3][0], y), 2.0 * r, style, (corners[0], corners[3]), "pole outside")  # fmt: skip
    words = (f"{count} holes {drill(drill_m, style)}", f"bolts {dimension(d.given.frame.cap_bolt_m or 0.0, style)} {d.given.frame.cap_bolt_steel}")  # fmt: skip
    board.note(view.at(r * 0.5, -down), words, [((view.at(r, 0)[0] + 14.0, view.at(0, -down * 0.45)[1]), "start"), ((view.at(r, 0)[0] + 14.0, view.at(0, -down * 1.6)[1]), "start")])  # fmt: skip
    board.told.append(", ".join(words))
    return y + board.size * 1.6


def hole_ways_deg(count: int) -> list[float]:
    """Directions of the holes round the pole, from the middle between the first and the last, which is the seam."""
    return [360.0 * (n + 0.5) / count for n in range(count)]


def _round(d: Drawables, board: Board, style: Style, wrap: PlateCut | None, at: Field) -> float:
    left, top, across, _ = at
    pipe = d.given.pipe
    r = pipe.outside_m / 2.0
    scale = min((across - board.lane * 4.0) / (2.0 * r), 190.0 / (2.0 * r))
    centre = (left + across / 2.0, top + board.size * 5.0 + r * scale)
    board.say((left + 8.0, top + board.size * 1.3), ("Pole's top from above",), heavy=True)
    board.circle(centre, r * scale, CUT)
    board.circle(centre, (r - pipe.wall_m) * scale, FINE)
    if wrap is not None:
        ways = hole_ways_deg(len(wrap.holes))
        for way in ways:
            s, c = sin(radians(way)), cos(radians(way))
            a, b = (r - pipe.wall_m) * scale * 0.9, r * scale + 8.0
            board.edge(((centre[0] + a * s, centre[1] + a * c), (centre[0] + b * s, centre[1] + b * c)), 1.2, "6 2")  # fmt: skip
        pitch = pi * pipe.outside_m / len(ways)
        way = radians(ways[0])
        rim: Point = (centre[0] - r * scale * sin(way * 2), centre[1] + r * scale * cos(way * 2))
        words = (f"{dimension(pitch, style)} along the round", f"from hole to hole, {360.0 / len(ways):g}°")  # fmt: skip
        board.note(rim, words, [((centre[0] - r * scale - 6.0, centre[1] + r * scale * 0.95), "end")])  # fmt: skip
        board.told.append(", ".join(words))
        side = "south" if d.given.place.latitude_deg >= 0.0 else "north"
        foot = (centre[0], centre[1] + r * scale)
        board.note(foot, (f"seam, true {side}",), [((centre[0], foot[1] + board.size * 2.2), "middle")])  # fmt: skip
    y = centre[1] - r * scale - board.size * 1.6
    of_length(board, (centre[0] - r * scale, y), (centre[0] + r * scale, y), 2 * r, style, ((centre[0] - r * scale, centre[1]), (centre[0] + r * scale, centre[1])), "pole outside")  # fmt: skip
    board.note((centre[0] - (r - pipe.wall_m / 2) * scale, centre[1]), (f"wall {wall(pipe.wall_m, style)}",), [((centre[0] - r * scale - 12.0, centre[1] - board.size), "end")])  # fmt: skip
    board.told.append(f"wall {wall(pipe.wall_m, style)}")
    return centre[1] + r * scale + board.size * 3.4


def _sleeve(d: Drawables, board: Board, style: Style, _wrap: PlateCut | None, at: Field) -> float:
    """A round cut through pole and opened sleeve with its strip."""
    left, top, across, _ = at
    pipe, play = d.given.pipe, d.given.frame.split_sleeve_play_m or 0.0
    cut = split_sleeve(pipe, play)
    inner = (pipe.outside_m + play) / 2.0
    outer = inner + pipe.wall_m
    scale = min((across - board.lane * 4.0) / (2.0 * outer), 190.0 / (2.0 * outer))
    centre = (left + across / 2.0, top + board.size * 5.6 + outer * scale)
    board.say((left + 8.0, top + board.size * 1.3), ("Split sleeve round the pole",), heavy=True)
    board.circle(centre, pipe.outside_m / 2.0 * scale, EDGE)
    board.circle(centre, (pipe.outside_m / 2.0 - pipe.wall_m) * scale, FINE)
    half = cut.opens_m / 2.0 / (inner + pipe.wall_m / 2.0)
    strip = cut.strip_m / 2.0 / (inner + pipe.wall_m / 2.0)
    for a, b in ((half, 2 * pi - half), (-strip, strip)):
        ring = [(rad, a + (b - a) * n / 48.0) for rad in (outer,) for n in range(49)]
        ring += [(inner, a + (b - a) * n / 48.0) for n in range(48, -1, -1)]
        corners = [(centre[0] + rad * scale * sin(t), centre[1] - rad * scale * cos(t)) for rad, t in ring]  # fmt: skip
        board.lines.append(tag("path", d="M" + "L".join(f"{x:.2f} {y:.2f}" for x, y in corners) + "Z", fill="url(#cap-steel)", stroke=board.ink.ink, stroke_width=EDGE))  # fmt: skip
    ends = [(centre[0] + s * inner * scale * sin(half), centre[1] - outer * scale) for s in (-1.0, 1.0)]  # fmt: skip
    y = centre[1] - outer * scale - board.size * 1.6
    of_length(board, (ends[0][0], y), (ends[1][0], y), cut.opens_m, style, (ends[0], ends[1]), "slot as opened", after=" slot")  # fmt: skip
    tip = (centre[0], centre[1] - outer * scale)
    board.note(tip, (f"strip {dimension(cut.strip_m, style)} wide", "welded on both edges"), [((centre[0] + outer * scale * 0.7, centre[1] - outer * scale), "start")])  # fmt: skip
    board.note((centre[0] - (inner + pipe.wall_m / 2) * scale, centre[1]), (f"play {mark(d, 'frame', 'split_sleeve_play')}{dimension(play, style)}", "on the diameter"), [((centre[0] - outer * scale - 12.0, centre[1]), "end")])  # fmt: skip
    board.told += [
        f"slot {dimension(cut.opens_m, style)}",
        f"strip {dimension(cut.strip_m, style)}",
    ]
    return centre[1] + outer * scale + board.size * 2.0
