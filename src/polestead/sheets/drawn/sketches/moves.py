"""Sketches of what moves: the whole travel, the rod, the four stances, the emergency drop, stuck in a wind."""

from __future__ import annotations

from math import cos, radians, sin

import numpy as np

from polestead.answer.drawables import Drawables
from polestead.base.show import Style, dimension, rod_words
from polestead.build.lifts.lift import clear_m
from polestead.build.pieces.plates import hold_tilts_deg
from polestead.mount.geometry import lowest_edge_m, top_height_m
from polestead.mount.linkage import rod_length_m
from polestead.mount.pins import as_measured
from polestead.sheets.drawn.board import CUT, EDGE, FINE, Board, View
from polestead.sheets.drawn.dimension import dimensioned, of_length
from polestead.sheets.drawn.sketches.board import (
    array,
    hinge_of,
    hold_in,
    hold_named,
    on_chord,
    pole,
    side_view,
    soil,
)
from polestead.sheets.svg import Point


def travel(d: Drawables, board: Board, style: Style) -> None:
    """Both ends of the travel, with the heights of the steepest."""
    g = d.given.geometry
    flat, steep = g.least_tilt_deg, g.steepest_tilt_deg
    view = side_view(d, board, (flat, steep), (4.6, 2.0, 5.4, 2.2))
    _sides(d, board, view)
    hinge = hinge_of(d, view)
    array(d, board, hinge, flat, ghost=True)
    array(d, board, hinge, steep)
    y0 = view.origin[1]
    low, high = (float(of(g, np.array(steep))) for of in (lowest_edge_m, top_height_m))
    at = on_chord(hinge, steep, -g.lower_m)
    x = board.size * 2.4
    of_length(board, (x, view.at(0.0, low)[1]), (x, y0), low, style, (at, (x, y0)), f"low edge at {steep:g} degrees")  # fmt: skip
    at = on_chord(hinge, steep, g.upper_m, g.glass_above_m)
    x = board.width - board.size * 2.6
    of_length(board, (x, view.at(0.0, high)[1]), (x, y0), high, style, (at, (x, y0)), f"top edge at {steep:g} degrees")  # fmt: skip
    for tilt in (flat, steep):
        _named(board, hinge, tilt, g.upper_m, f"{tilt:g}°")


def _sides(d: Drawables, board: Board, view: View) -> None:
    soil(board, view.origin[1])
    pole(d, board, view)
    where = "south" if d.given.place.latitude_deg >= 0.0 else "north"
    board.say((6.0, board.height - board.size * 0.5), (f"← sun side ({where})",), colour=board.ink.pencil)  # fmt: skip


def _named(board: Board, hinge: View, tilt: float, along: float, *words: str) -> None:
    """Words beyond the upper edge at a tilt."""
    tip = on_chord(hinge, tilt, along)
    way = radians(tilt)
    far = board.size * 1.0
    at = (tip[0] + far * cos(way), tip[1] - far * sin(way))
    anchor = "start" if tilt < 60.0 else "middle"
    board.note(tip, words, [((at[0], at[1] + board.size * off), anchor) for off in (0.3, -0.8, 1.4)], lead=False)  # fmt: skip
    board.told.append(" ".join(words))


def rod(d: Drawables, board: Board, style: Style) -> None:
    """The actuator at both stops: how much rod shows from the gland nut to the clevis."""
    drive, g = d.given.drive, d.given.geometry
    s = board.size
    if drive is None:
        board.say((8.0, s * 2.0), ("No drive in the file.",))
        board.told.append("no drive in the file")
        return
    drive, fit = as_measured(drive)
    proved = fit is not None and fit.proved
    shows = [max(float(rod_length_m(drive, np.array(tilt))) - drive.retracted_length_m, 0.0) for tilt in (g.least_tilt_deg, g.steepest_tilt_deg)]  # fmt: skip
    longest = max(*shows, 1e-6)
    body = board.height * 0.34
    scale = (board.height - body - s * 5.0) / longest
    foot = board.height - s * 2.6
    for nth, (tilt, out) in enumerate(zip((g.least_tilt_deg, g.steepest_tilt_deg), shows, strict=True)):  # fmt: skip
        x = board.width * (0.24 + 0.42 * nth)
        nut, tip = foot - body, foot - body - out * scale
        board.edge([(x - 15.0, foot), (x - 15.0, nut), (x + 15.0, nut), (x + 15.0, foot)], CUT, closed=True)  # fmt: skip
        board.edge([(x - 20.0, nut), (x + 20.0, nut)], 4.0)
        board.edge(((x, nut), (x, tip)), 6.0)
        board.circle((x, tip - 9.0), 9.0, 2.0, board.ink.paper)
        board.circle((x, foot + 9.0), 9.0, 2.0, board.ink.paper)
        lane = x + max(
            s * 3.2, board.wide(rod_words(out, style, proved), heavy=True) / 2.0 + s * 0.6
        )  # its half keeps off the rod
        words = rod_words(out, style, proved)
        board.told.append(f"rod at {tilt:g} degrees {words}")
        dimensioned(board, (lane, tip), (lane, nut), words, ((x, tip), (x + 20.0, nut)), heavy=True)
        board.say((x, (foot + nut) / 2.0), (f"{tilt:g}°",), "middle", heavy=True)
    face = (board.width * 0.24 - 20.0, foot - body)
    board.note(face, ("face of the", "gland nut"), [((4.0, face[1] - s * 3.4), "start"), ((4.0, face[1] + s * 2.0), "start")])  # fmt: skip
    clevis = (board.width * 0.66, foot - body - shows[1] * scale)
    board.note(clevis, ("clevis",), [((clevis[0] - s * 1.4, clevis[1] + s * 0.4), "end")])


def stances(d: Drawables, board: Board, style: Style) -> None:
    """The array at each stance, with the number of the hole where there is one."""
    g, lock = d.given.geometry, d.given.lock
    holes = sorted(lock.holes_deg) if lock is not None else []
    tilts: dict[float, list[str]] = {}
    for one in d.stand.stances:
        tilts.setdefault(one.tilt_deg, []).append(one.name)
    view = side_view(d, board, tuple(tilts), (1.0, 3.6, 6.0, 2.4))
    _sides(d, board, view)
    hinge = hinge_of(d, view)
    for tilt in tilts:
        way = [on_chord(hinge, tilt, -g.lower_m), on_chord(hinge, tilt, g.upper_m)]
        board.edge(way, CUT)
    board.circle(hinge.origin, 5.0, 2.0, board.ink.paper)
    for tilt, names in sorted(tilts.items()):
        hole = next((nth for nth, at in enumerate(holes, start=1) if abs(at - tilt) <= 0.5), None)
        pin = "" if hole is None else f", hole {hole}"
        _named(board, hinge, tilt, g.upper_m, f"{tilt:g}°{pin}", *names)
    board.told.append(f"hinge {dimension(g.hinge_height_m, style)} over the ground")


def drop(d: Drawables, board: Board, style: Style) -> None:
    """Steep, a tackle on either side of the hinge, and the ground kept clear."""
    g = d.given.geometry
    steep = g.steepest_tilt_deg
    view = _cleared(d, board, style, steep)
    hinge = hinge_of(d, view)
    array(d, board, hinge, g.least_tilt_deg, ghost=True)
    array(d, board, hinge, steep)
    foot = view.at(0.0, d.given.pole_over_ground_m * 0.25)
    for along in (-g.lower_m * 0.8, g.upper_m * 0.8):
        on = on_chord(hinge, steep, along)
        board.edge((on, foot), FINE, "7 4")
        board.circle(on, 4.0, 2.0, board.ink.paper)
    board.circle(foot, 4.0, 2.0, board.ink.paper)
    on = on_chord(hinge, steep, g.upper_m * 0.8)
    board.note(_between(on, foot), ("holds back",), [((board.width - 6.0, _between(on, foot)[1]), "end")])  # fmt: skip
    on = on_chord(hinge, steep, -g.lower_m * 0.8)
    board.note(_between(on, foot), ("lets down",), [((6.0, _between(on, foot)[1] + board.size * 0.6), "start")])  # fmt: skip


def _between(a: Point, b: Point) -> Point:
    return (a[0] + b[0]) / 2.0, (a[1] + b[1]) / 2.0


def _cleared(d: Drawables, board: Board, style: Style, *tilts: float) -> View:
    """The mount with the ground on which nobody stands."""
    g = d.given.geometry
    reach = clear_m(g.hinge_height_m, g.chord_m)
    view = side_view(d, board, tilts, (1.0, 1.4, 1.0, 5.0))
    soil(board, view.origin[1])
    pole(d, board, view)
    y = view.origin[1] + board.size * 2.2
    right = min(view.origin[0] + reach * view.scale, board.width - 4.0)
    of_length(board, (view.origin[0], y), (right, y), reach, style, (view.origin, (right, view.origin[1])), "nobody within, all round", way="up")  # fmt: skip
    board.say((view.origin[0], y + board.size * 2.0), ("nobody within, all round",), "middle")
    return view


def _stopped_at_deg(d: Drawables) -> float:
    """Half-way; where the storm hold is a plate, at its nearest hole."""
    g, lock = d.given.geometry, d.given.lock
    middle = (g.least_tilt_deg + g.steepest_tilt_deg) / 2.0
    if lock is None or lock.strut is not None:
        return middle
    return min(hold_tilts_deg(d.given), key=lambda tilt: abs(tilt - middle))


def stuck(d: Drawables, board: Board, style: Style) -> None:
    """Stopped on its way, the hold in at the nearest hole."""
    g, given = d.given.geometry, d.given
    tilt = _stopped_at_deg(d)
    view = _cleared(d, board, style, tilt)
    hinge = hinge_of(d, view)
    for hold, side, words in ((given.lock, 1.0, "storm hold, nearest hole"), (given.prop, -1.0, "prop")):  # fmt: skip
        if hold is None:
            continue
        middle = hold_in(d, board, hinge, tilt, hold, side)
        board.note(middle, (hold_named(words, hold),), [((board.width - 6.0 if side > 0 else 6.0, view.at(0.0, g.hinge_height_m - max(hold.arm_m, 0.5) * 1.1)[1] + board.size * 0.8), "end" if side > 0 else "start")], most=13)  # fmt: skip
        board.told.append(hold_named(words, hold))
    array(d, board, hinge, tilt)
    board.edge((hinge.origin, hinge.origin), EDGE, keep_off=False)
