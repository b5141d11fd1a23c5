"""What all sketches share: a field fitted to the card, the mount from the side, people's ground."""

from __future__ import annotations

from collections.abc import Callable
from math import cos, degrees, radians, sin

from polestead.answer.drawables import Drawables
from polestead.base.show import Style
from polestead.build.pieces.plates import hold_tilts_deg
from polestead.homestead.model import Lock
from polestead.sheets.drawn.board import EDGE, FINE, Board, View
from polestead.sheets.drawn.common import chord_point, outline
from polestead.sheets.drawn.hatches import ground
from polestead.sheets.svg import Point, polygon

Sketch = Callable[[Drawables, Board, Style], None]
Pad = tuple[float, float, float, float]  # left, top, right, bottom, in letters
PLATE_PX = 8.0  # half the width of a hold's plate, at least


def fitted(board: Board, x_m: tuple[float, float], z_m: tuple[float, float], pad: Pad) -> View:
    """A view that brings a span of metres into the board, so much kept free about it, its middle in the middle."""
    left, top, right, bottom = (one * board.size for one in pad)
    wide, high = board.width - left - right, board.height - top - bottom
    scale = min(wide / (x_m[1] - x_m[0]), high / (z_m[1] - z_m[0]))
    x = left + (wide - (x_m[1] - x_m[0]) * scale) / 2.0 - x_m[0] * scale
    y = top + (high + (z_m[1] - z_m[0]) * scale) / 2.0 + z_m[0] * scale
    return View(scale, (x, y))


def soil(board: Board, y: float, bare: tuple[tuple[float, float], ...] = ()) -> None:
    """The ground line over the whole width."""
    board.lines += ground(board.ink, 0.0, board.width, y, bare)
    board.inked.append(((0.0, y), (board.width, y)))


def pole(d: Drawables, board: Board, view: View, foot_m: float = 0.0) -> None:
    """The pole from a depth up to its top, with its centre line."""
    half, top = d.given.pipe.outside_m / 2.0, d.given.pole_over_ground_m
    corners = [view.at(x, z) for x, z in ((-half, foot_m), (-half, top), (half, top), (half, foot_m))]  # fmt: skip
    board.lines.append(polygon(corners, board.ink.paper))
    board.edge(corners, EDGE)
    board.centre(view.at(0.0, top), view.at(0.0, foot_m))


def array(d: Drawables, board: Board, hinge: View, tilt_deg: float, ghost: bool = False) -> None:
    """The tipping array from the side, from the hinge."""
    body = [hinge.at(*corner) for corner in outline(d.given.geometry, tilt_deg)]
    if ghost:
        board.ghost(body)
        return
    board.lines.append(polygon(body, board.ink.paper))
    board.edge(body, EDGE, closed=True)
    board.edge(body[:2], 3.0, keep_off=False)
    board.circle(hinge.at(0.0, 0.0), 4.0, 2.0, board.ink.paper)


def hold_in(d: Drawables, board: Board, hinge: View, tilt_deg: float, hold: Lock, side: float) -> Point:  # fmt: skip
    """Storm hold or prop with its pins in, as the file has it: a strut from the chord to the pole, or a plate with holes on the pole.

    Where a strut stands on the pole and how a plate is turned about the hinge the file does not tell: the plate is drawn
    behind the array, where it meets no glass. Returns where words may lead to.
    """
    if hold.strut is None:
        return _plate_in(d, board, hinge, tilt_deg, hold)
    on = on_chord(hinge, tilt_deg, side * hold.arm_m)
    foot = hinge.at(0.0, -max(hold.arm_m, 0.5) * 1.1)
    board.edge((on, foot), 3.0)
    for at in (on, foot):
        board.circle(at, 4.5, 2.0, board.ink.paper)
    return (on[0] + foot[0]) / 2.0, (on[1] + foot[1]) / 2.0


def _plate_in(d: Drawables, board: Board, hinge: View, tilt_deg: float, hold: Lock) -> Point:
    """The plate with a hole for each of its tilts, and the arm of the frame that is pinned to it."""
    tilts = hold_tilts_deg(d.given)
    half = max(2.0 * hold.pin_diameter_m, PLATE_PX / hinge.scale)
    beyond = degrees(half / hold.arm_m)
    turns = [tilts[0] - beyond + (tilts[-1] - tilts[0] + 2.0 * beyond) * n / 16.0 for n in range(17)]  # fmt: skip
    outer, inner = ([hinge.at(*chord_point(turn, 0.0, -far)) for turn in turns] for far in (hold.arm_m + half, hold.arm_m - half))  # fmt: skip
    board.lines.append(polygon([*outer, *reversed(inner)], board.ink.paper))
    board.edge([*outer, *reversed(inner)], EDGE, closed=True)
    for tilt in tilts:
        board.circle(on_chord(hinge, tilt, 0.0, -hold.arm_m), 3.0, FINE, board.ink.paper)
    pin = on_chord(hinge, tilt_deg, 0.0, -hold.arm_m)
    board.edge((hinge.origin, pin), 3.0)
    board.circle(pin, 4.5, 2.0, board.ink.ink)
    return outer[len(outer) * 3 // 4]


def hold_named(words: str, hold: Lock) -> str:
    """A hold in a sketch, with its kind."""
    return f"{words}, {'plate' if hold.strut is None else 'strut'}"


def on_chord(hinge: View, tilt_deg: float, along_m: float, above_m: float = 0.0) -> Point:
    """A point of the array in the sketch."""
    return hinge.at(*chord_point(tilt_deg, along_m, above_m))


def hinge_of(d: Drawables, view: View) -> View:
    """The same scale, its origin in the hinge."""
    return View(view.scale, view.at(0.0, d.given.geometry.hinge_height_m))


def side_view(d: Drawables, board: Board, tilts: tuple[float, ...], pad: Pad) -> View:
    """A field that holds the mount at every given tilt, down to the ground."""
    g = d.given.geometry
    corners = [corner for tilt in tilts for corner in outline(g, tilt)]
    out = max(abs(x) for x, _ in corners)
    over = max(g.hinge_height_m + max(z for _, z in corners), d.given.pole_over_ground_m)
    return fitted(board, (-out, out), (0.0, over), pad)


def stake(board: Board, at: Point, words: str = "") -> None:
    """A stake seen from above."""
    arm = board.size * 0.32
    for dx, dy in ((arm, arm), (arm, -arm)):
        board.edge(((at[0] - dx, at[1] - dy), (at[0] + dx, at[1] + dy)), 2.0)
    if words:
        board.note(at, (words,), lead=False)


def box_of(board: Board, middle: Point, wide: float, words: tuple[str, ...], high: float = 0.0) -> tuple[Point, Point]:  # fmt: skip
    """A ruled box with words in it; returns the middles of its upper and lower side."""
    tall = high or board.step * len(words) + board.size * 0.5
    x, y = middle[0] - wide / 2.0, middle[1] - tall / 2.0
    corners = [(x, y), (x + wide, y), (x + wide, y + tall), (x, y + tall)]
    board.lines.append(polygon(corners, board.ink.paper))
    board.edge(corners, EDGE, closed=True)
    first = middle[1] - board.step * (len(words) - 1) / 2.0 + board.size * 0.3
    board.say((middle[0], first), words, "middle")
    return (middle[0], y), (middle[0], y + tall)


def turned(at: Point, long: float, deg: float) -> Point:
    """A point so far from another, so many degrees from level, counterclockwise."""
    return at[0] + long * cos(radians(deg)), at[1] - long * sin(radians(deg))
