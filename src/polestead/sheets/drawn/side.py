"""The side view with dimensions: heights over the ground, pole and pier, hinge and rod, the travel ghosted."""

from __future__ import annotations

from math import cos, radians, sin

import numpy as np

from polestead.answer.drawables import Drawables
from polestead.base.show import Style, dimension, rod_words, sawn_m
from polestead.homestead.model import Lock
from polestead.mount.geometry import lowest_edge_m, top_height_m
from polestead.mount.linkage import rod_length_m
from polestead.mount.pins import as_measured
from polestead.sheets.drawn.board import CUT, EDGE, FINE, LONGEST, Board, View
from polestead.sheets.drawn.common import (
    SCOPE,
    UNSETTLED,
    chord_point,
    looking,
    mark,
    outline,
    scale_bar,
    sun_side,
)
from polestead.sheets.drawn.dimension import of_length
from polestead.sheets.drawn.hatches import HATCHED, concrete, ground
from polestead.sheets.svg import Ink, Point, line, polygon

LANE = 52.0  # from one upright dimension line to the next
NARROW_UNDER = 560.0
FAR_LIMIT_M = 1.2  # a height limit higher than this over the top is told, not drawn


def side_drawing(d: Drawables, style: Style, ink: Ink, width: float = 802.0, size: float = 13.0, tilt_deg: float | None = None, high: float = 600.0) -> str:  # fmt: skip
    """The whole mount from the side, sun side at the left.

    Args:
        d: What is drawn.
        style: Whose units.
        ink: Screen or paper.
        width: Of the drawing [px].
        size: Of its letters [px].
        tilt_deg: Drawn solid; the winter tilt where None.
        high: Most that the mount itself takes of the height [px].
    """
    g, f = d.given.geometry, d.given.footing
    tilt = d.given.mount.winter_tilt_deg if tilt_deg is None else tilt_deg
    narrow = width < NARROW_UNDER
    board = Board(width, 0.0, ink, size)
    left, right = (LANE * 2.2, LANE * 0.9) if narrow else (LANE * 3.5, board.rail_wide + LANE * 1.9)
    ends = [c for t in _tilts(d) for c in outline(g, t)]
    out = max(abs(x) for x, _ in ends)
    over = g.hinge_height_m + max(z for _, z in ends)
    over = max(over, _drawn_limit_m(d, over) or 0.0) + 0.15
    scale = (width - left - right) / (2.0 * out)
    scale = min(scale, high / (over + f.depth_m + 0.3)) if not narrow else scale
    height = (over + f.depth_m) * scale + 4.6 * size + 18.0
    middle = left + (width - left - right) / 2.0
    board.height = height
    view = View(scale, (middle, over * scale + size * 1.6))
    board.say((8.0, height - size * 2.6), (f"← sun side ({sun_side(d)})",), colour=ink.pencil)
    board.say((width - 8.0, height - size * 1.0), (f"looking {looking(d)}",), "end", ink.pencil)
    scale_bar(board, view, style, (8.0, height - size * 1.2))
    _earth(d, board, view)
    _steel(d, board, view, tilt)
    _heights(d, board, view, style, narrow, middle - out * scale, middle + out * scale)
    _pier_figures(d, board, view, style, narrow)
    _array_figures(d, board, view, style, tilt, narrow)
    _notes(d, board, view, style, tilt, narrow)
    tail = [] if d.given.drive is None or not narrow else ["Rod and pins: see the wide drawing."]
    board.foot([f"Solid at {tilt:g}° (winter); ghosted at {', '.join(f'{t:g}°' for t in _tilts(d) if t != tilt)}.", *tail, f"{SCOPE} {UNSETTLED}"])  # fmt: skip
    return board.svg(concrete("side-drawn-concrete", ink), f"{d.name}, side view with dimensions, at {tilt:g} degrees")  # fmt: skip


def _tilts(d: Drawables) -> list[float]:
    m = d.given.mount
    return sorted({m.least_tilt_deg, m.summer_tilt_deg, m.winter_tilt_deg, m.steepest_tilt_deg})


def _drawn_limit_m(d: Drawables, over_m: float) -> float | None:
    """The height limit, where it lies near enough to be drawn."""
    limit = d.given.place.height_limit_m
    return limit if limit is not None and limit < over_m + FAR_LIMIT_M else None


def _earth(d: Drawables, board: Board, view: View) -> None:
    f = d.given.footing
    half = f.diameter_m / 2.0
    corners = [view.at(x, z) for x, z in ((-half, f.collar_m), (half, f.collar_m), (half, -f.depth_m), (-half, -f.depth_m))]  # fmt: skip
    board.fill(corners, "side-drawn-concrete")
    y = view.at(0.0, 0.0)[1]
    board.lines += ground(board.ink, 0.0, board.width, y, [(corners[0][0], corners[1][0])])
    for level in (y, y + HATCHED):
        board.inked += [((0.0, level), (corners[0][0], level)), ((corners[1][0], level), (board.width, level))]  # fmt: skip
    board.edge(corners, CUT, closed=True)
    frost = d.given.place.frost_depth_m
    if frost > 0.0:
        y = view.at(0.0, -frost)[1]
        for a, b in ((8.0, corners[0][0]), (corners[1][0], board.width - 8.0)):
            board.edge(((a, y), (b, y)), FINE, "10 4 2 4", board.ink.pencil)


def _steel(d: Drawables, board: Board, view: View, tilt: float) -> None:
    given, g = d.given, d.given.geometry
    half, top = given.pipe.outside_m / 2.0, given.pole_over_ground_m
    foot, collar = -given.footing.pole_depth_m, given.footing.collar_m
    wall = given.pipe.wall_m
    board.fill([view.at(x, z) for x, z in ((-half, collar), (-half, top), (half, top), (half, collar))])  # fmt: skip
    board.edge([view.at(x, z) for x, z in ((-half, collar), (-half, top), (half, top), (half, collar))])  # fmt: skip
    if wall * view.scale > 1.6:
        for x in (wall - half, half - wall):
            board.edge((view.at(x, collar), view.at(x, top)), 0.6, keep_off=False)
    board.hidden([view.at(x, z) for x, z in ((-half, collar), (-half, foot), (half, foot), (half, collar))])  # fmt: skip
    board.centre(view.at(0.0, top + 0.05), view.at(0.0, foot - 0.12))
    hinge = View(view.scale, view.at(0.0, g.hinge_height_m))
    for one in _tilts(d):
        if one != tilt:
            board.ghost([hinge.at(*c) for c in outline(g, one)])
    body = [hinge.at(*c) for c in outline(g, tilt)]
    board.lines.append(polygon(body, board.ink.paper))
    board.edge(body, EDGE, closed=True)
    board.edge(body[:2], 3.0)
    beam, half_beam = given.beam, given.beam.breadth_m / 2.0
    tube = [hinge.at(*chord_point(tilt, a, b)) for a, b in ((-half_beam, g.beam_clear_m - beam.depth_m), (half_beam, g.beam_clear_m - beam.depth_m), (half_beam, g.beam_clear_m), (-half_beam, g.beam_clear_m))]  # fmt: skip
    board.lines.append(polygon(tube, board.ink.paper))
    board.edge(tube, EDGE, closed=True)
    _rod(d, board, hinge, tilt)
    board.circle(hinge.at(0.0, 0.0), max(given.mount.hinge_pin_m / 2.0 * view.scale, 3.2), 2.0, board.ink.paper)  # fmt: skip
    limit = given.place.height_limit_m
    if limit is not None and view.at(0.0, limit)[1] > 0.0:
        y = view.at(0.0, limit)[1]
        board.edge(((8.0, y), (board.width - 8.0, y)), FINE, "8 5", board.ink.pencil)


def _pin(d: Drawables, tilt: float) -> Point:
    drive = d.given.drive
    assert drive is not None  # noqa: S101  the caller has looked
    return chord_point(tilt, drive.pin_along_m, -drive.pin_below_m)


def _held_at(lock: Lock, tilt: float) -> Point:
    """Where the storm hold's pin runs: on the chord; through a plate, behind the array, where it meets no glass."""
    return chord_point(tilt, lock.arm_m, 0.0) if lock.strut is not None else chord_point(tilt, 0.0, -lock.arm_m)  # fmt: skip


def _rod(d: Drawables, board: Board, hinge: View, tilt: float) -> None:
    drive, lock = d.given.drive, d.given.lock
    if lock is not None:
        steep, least = d.given.mount.steepest_tilt_deg, d.given.mount.least_tilt_deg
        arc = [hinge.at(*_held_at(lock, least + (steep - least) * n / 12.0)) for n in range(13)]
        board.edge(arc, FINE, "2 4", keep_off=False)
    if drive is None:
        return
    pin, bracket = hinge.at(*_pin(d, tilt)), hinge.at(drive.bracket_out_m, -drive.bracket_below_m)
    drive = as_measured(drive)[0]
    far = float(rod_length_m(drive, np.array(tilt)))
    share = min(drive.retracted_length_m / far, 1.0)
    knee = (bracket[0] + (pin[0] - bracket[0]) * share * 0.92, bracket[1] + (pin[1] - bracket[1]) * share * 0.92)  # fmt: skip
    pole = hinge.at(d.given.pipe.outside_m / 2.0, -drive.bracket_below_m)
    board.edge((pole, bracket), 1.2)
    board.edge((bracket, knee), 5.0)
    board.edge((knee, pin), 2.0)
    foot = hinge.at(*chord_point(tilt, drive.pin_along_m, d.given.geometry.glass_above_m - d.given.geometry.depth_m))  # fmt: skip
    board.edge((pin, foot), 1.2)
    for at in (pin, bracket):
        board.circle(at, 3.0, 1.5, board.ink.paper)


def _heights(d: Drawables, board: Board, view: View, style: Style, narrow: bool, left: float, right: float) -> None:  # fmt: skip
    """At the left what is under the array, at the right what is over it."""
    g, m = d.given.geometry, d.given.mount
    steep, least = m.steepest_tilt_deg, m.least_tilt_deg
    y0 = view.at(0.0, 0.0)[1]
    lows = [(steep, 0.7 if not narrow else 0.5), (least, 1.7)]
    for tilt, lane in lows:
        low = float(lowest_edge_m(g, np.array(tilt)))
        corners = outline(g, tilt)
        at = view.at(corners[3][0], low)
        x = left - LANE * (lane - 0.35)
        of_length(board, (x, at[1]), (x, y0), low, style, ((at[0], at[1]), (x, y0)), f"lowest edge over the ground at {tilt:g} degrees")  # fmt: skip
    if not narrow:
        x = left - LANE * 2.75
        top = view.at(0.0, g.hinge_height_m)
        of_length(board, (x, top[1]), (x, y0), g.hinge_height_m, style, ((view.at(-0.06, 0)[0], top[1]), (x, y0)), "hinge over the ground", mark=mark(d, "mount", "hinge_height"))  # fmt: skip
    for tilt, lane in ((steep, 0.6),) if narrow else ((least, 0.6), (steep, 1.6)):
        high = float(top_height_m(g, np.array(tilt)))
        at = view.at(outline(g, tilt)[1][0], high)
        x = right + LANE * (lane - 0.2)
        of_length(board, (x, at[1]), (x, y0), high, style, ((at[0], at[1]), (x, y0)), f"top over the ground at {tilt:g} degrees")  # fmt: skip


def _pier_figures(d: Drawables, board: Board, view: View, style: Style, narrow: bool) -> None:
    f = d.given.footing
    half = f.diameter_m / 2.0
    x1, y0 = view.at(-half, 0.0)
    x2, foot = view.at(half, -f.depth_m)
    lane = board.lane / LANE
    of_length(board, (x1 - LANE * lane, y0), (x1 - LANE * lane, foot), f.depth_m, style, ((x1 - LANE * lane, y0), (x1, foot)), "pier below the ground", mark=mark(d, "footing", "depth"))  # fmt: skip
    y = foot + board.size * 1.5
    of_length(board, (x1, y), (x2, y), f.diameter_m, style, ((x1, foot), (x2, foot)), "pier across", mark=mark(d, "footing", "diameter"))  # fmt: skip
    if narrow:
        return
    pole = view.at(d.given.pipe.outside_m / 2.0, -f.pole_depth_m)
    x = x2 + board.lane
    of_length(board, (x, y0), (x, pole[1]), f.pole_depth_m, style, ((x, y0), pole), "pole below the ground", mark=mark(d, "footing", "pole_depth"))  # fmt: skip
    if f.collar_m > 0.0:
        top = view.at(half, f.collar_m)
        x = x2 + LANE * 0.35
        of_length(board, (x, top[1]), (x, y0), f.collar_m, style, (top, (x2, y0)), "collar over the ground", mark=mark(d, "footing", "collar"))  # fmt: skip


def _array_figures(d: Drawables, board: Board, view: View, style: Style, tilt: float, narrow: bool) -> None:  # fmt: skip
    g = d.given.geometry
    hinge = View(view.scale, view.at(0.0, g.hinge_height_m))
    t = radians(tilt)

    def on(along: float, above_px: float) -> Point:
        x, y = hinge.at(*chord_point(tilt, along, g.glass_above_m))
        return x - sin(t) * above_px, y - cos(t) * above_px

    low, high = on(-g.lower_m, 0.0), on(g.upper_m, 0.0)
    of_length(board, on(-g.lower_m, 22.0), on(g.upper_m, 22.0), sawn_m(g.chord_m, style), style, (low, high), "chord")  # fmt: skip
    if narrow:
        return
    pole_top, y0 = d.given.pole_over_ground_m, view.at(0.0, 0.0)[1]
    x = view.at(-d.given.pipe.outside_m / 2.0, 0.0)[0] - board.lane
    top = view.at(-d.given.pipe.outside_m / 2.0, pole_top)
    of_length(board, (x, top[1]), (x, y0), pole_top, style, (top, (x, y0)), "pole over the ground")
    drive = d.given.drive
    if drive is not None:
        bracket = hinge.at(drive.bracket_out_m, -drive.bracket_below_m)
        y = bracket[1] + board.size * 1.4
        of_length(board, (hinge.origin[0], y), (bracket[0], y), abs(drive.bracket_out_m), style, (hinge.at(0.0, -drive.bracket_below_m), bracket), "rod bracket from the pole's axis")  # fmt: skip
        x = bracket[0] + board.lane
        of_length(board, (x, hinge.origin[1]), (x, bracket[1]), drive.bracket_below_m, style, (hinge.at(0.05, 0.0), bracket), "rod bracket below the hinge")  # fmt: skip


def _notes(d: Drawables, board: Board, view: View, style: Style, tilt: float, narrow: bool) -> None:
    given, g, f = d.given, d.given.geometry, d.given.footing
    hinge = View(view.scale, view.at(0.0, g.hinge_height_m))
    limit = given.place.height_limit_m
    if limit is not None:
        top = float(top_height_m(g, np.array(given.mount.steepest_tilt_deg)))
        spare = limit - top
        whole, spared = (dimension(m, style).replace(" ", "\u00a0") for m in (limit, abs(spare)))
        words = f"height limit {whole}: {spared} {'over it' if spare < 0 else 'left'}"
        y = view.at(0.0, limit)[1]
        most = int((board.width - 20.0) / (board.size * board.ink.letter))
        if y < 0.0:
            words, y, most = f"{words}, over this drawing", board.size * 1.6, LONGEST
        if spare < 0.0:
            board.lines.append(line((8.0, y), (board.width - 8.0, y), board.ink.rust, 2.5))
        board.note((8.0, y), (words,), [((8.0, y - 5.0), "start"), ((8.0, y + board.size * 1.1), "start")], lead=False, most=most)  # fmt: skip
        board.told.append(words.replace("\u00a0", " "))
    frost = given.place.frost_depth_m
    edge = view.at(f.diameter_m / 2.0, -frost)
    if narrow:
        if frost > 0.0:
            board.note((edge[0] + 30.0, edge[1]), (f"frost {dimension(frost, style)}",), [((board.width - 8.0, edge[1] - 4.0), "end")], lead=False)  # fmt: skip
        return
    drive, lock = given.drive, given.lock
    right = board.width - 8.0
    if frost > 0.0:
        words = f"frost {mark(d, 'place', 'frost_depth')}{dimension(frost, style)}"
        board.note((right, edge[1]), (words,), [((right, edge[1] - 4.0), "end"), ((right, edge[1] + 14.0), "end")], lead=False)  # fmt: skip
    y0 = view.at(0.0, 0.0)[1]
    board.note(view.at(given.pipe.outside_m / 2.0, given.pole_over_ground_m * 0.2), (given.mount.pole.written, "pole"), board.rail(y0 - board.size * 3.0))  # fmt: skip
    bend = f"hinge {dimension(g.pole_top_below_m, style)} over pole top"
    off = given.mount.hinge_off_centre_m
    where = "at mid-chord" if abs(off) < 5e-4 else f"{dimension(abs(off), style)} {'above' if off > 0 else 'below'} mid-chord"  # fmt: skip
    board.note(hinge.origin, (bend, where, f"glass {dimension(g.glass_above_m, style)} off"), board.rail(hinge.origin[1] - board.size * 4.0, right=False))  # fmt: skip
    if drive is not None:
        fitted, fit = as_measured(drive)
        shows = float(rod_length_m(fitted, np.array(tilt))) - fitted.retracted_length_m
        pin = hinge.at(*_pin(d, tilt))
        lines = (f"rod out {rod_words(shows, style, fit is not None and fit.proved)} at {tilt:g}°", f"its pin {dimension(drive.pin_along_m, style)} along,", f"{dimension(drive.pin_below_m, style)} behind hinge line")  # fmt: skip
        board.note(pin, lines, board.rail(pin[1] - 20.0))  # fmt: skip
        board.told.append(", ".join(lines))
    if lock is not None:
        kind = "plate" if lock.strut is None else f"strut {lock.strut}"
        lever = dimension(lock.arm_m, style)
        held = ("storm hold, place not told:", f"{kind}, lever {lever} or more")
        if lock.strut is None:
            held = ("storm hold: plate, holes on", f"{lever} about the hinge")
        along = given.mount.least_tilt_deg + 12.0 if lock.strut else given.mount.steepest_tilt_deg - 6.0  # clear of the rod  # fmt: skip
        middle = hinge.at(*_held_at(lock, along))
        board.note(middle, held, board.rail(middle[1] + 40.0))  # fmt: skip
    board.note(view.at(f.diameter_m / 2.0, -f.depth_m * 0.85), ("concrete pier", "see the footing's section"), board.rail(view.at(0.0, -f.depth_m * 0.8)[1]))  # fmt: skip
    for tilt_, word in ((given.mount.steepest_tilt_deg, "steepest"), (given.mount.summer_tilt_deg, "summer"), (given.mount.least_tilt_deg, "least"), (given.mount.winter_tilt_deg, "winter")):  # fmt: skip
        radius = g.upper_m * view.scale + board.size * 1.1
        at = (hinge.origin[0] + radius * cos(radians(tilt_)), hinge.origin[1] - radius * sin(radians(tilt_)))  # fmt: skip
        tip = hinge.at(*chord_point(tilt_, g.upper_m, 0.0))
        board.note(tip, (f"{tilt_:g}°",), [(at, "start"), ((at[0], at[1] - 6.0), "middle"), ((at[0] + 6.0, at[1] + 10.0), "start")], lead=False)  # fmt: skip
        board.told.append(f"{word} {tilt_:g} degrees")
