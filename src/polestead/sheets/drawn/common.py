"""What several drawings share: marks of unsettled values, the scale bar, the words at the foot."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import cos, radians, sin

from polestead.answer.drawables import Drawables
from polestead.base.show import Style
from polestead.mount.geometry import Geometry
from polestead.sheets.drawn.board import Board, View
from polestead.sheets.svg import Point, line, polygon

FOOT_M = 0.3048
SCOPE = "Screening sums, not a stamped design. Measure on the work, not on the paper: the figures count."
UNSETTLED = "~ nobody has said yet that it is so."


def mark(d: Drawables, section: str, key: str) -> str:
    """The ``~`` of a value nobody has settled."""
    return "~" if (section, key) in d.unsettled else ""


def sun_side(d: Drawables) -> str:
    """Which way the noon sun stands."""
    return sun_side_of(d.given.place.latitude_deg)


def sun_side_of(latitude_deg: float) -> str:
    """The same at a latitude."""
    return "south" if latitude_deg >= 0.0 else "north"


def looking(d: Drawables) -> str:
    """Where he looks who has the sun side at his left."""
    return looking_from(d.given.place.latitude_deg)


def looking_from(latitude_deg: float) -> str:
    """The same at a latitude."""
    return "west" if latitude_deg >= 0.0 else "east"


def chord_point(tilt_deg: float, along_m: float, above_m: float) -> Point:
    """A point of the tipping array in the side view, from the hinge: x away from the sun, z up [m]."""
    t = radians(tilt_deg)
    return along_m * cos(t) - above_m * sin(t), along_m * sin(t) + above_m * cos(t)


def outline(g: Geometry, tilt_deg: float) -> list[Point]:
    """Corners of modules and rails seen from the side, from the hinge [m]: glass low, glass high, back high, back low."""
    back = g.glass_above_m - g.depth_m
    corners = ((-g.lower_m, g.glass_above_m), (g.upper_m, g.glass_above_m), (g.upper_m, back), (-g.lower_m, back))  # fmt: skip
    return [chord_point(tilt_deg, along, above) for along, above in corners]


def scale_bar(board: Board, view: View, style: Style, at: Point) -> None:
    """A bar of feet or metres: the drawing has one scale, the paper may not."""
    step, count, unit = (FOOT_M, 5, "ft") if style == "feet" else (0.5, 4, "m")
    wide = step * view.scale
    for nth in range(count):
        x = at[0] + nth * wide
        corners = [(x, at[1]), (x + wide, at[1]), (x + wide, at[1] + 4.0), (x, at[1] + 4.0)]
        board.lines.append(polygon(corners, board.ink.ink if nth % 2 == 0 else board.ink.paper, board.ink.ink, 0.8))  # fmt: skip
    board.say((at[0] + count * wide + 6.0, at[1] + 5.0), (f"{count * step / (FOOT_M if style == 'feet' else 1.0):g} {unit}",), colour=board.ink.pencil)  # fmt: skip


def arrow(board: Board, tail: Point, head: Point) -> None:
    """A line with a filled head."""
    far = ((head[0] - tail[0]) ** 2 + (head[1] - tail[1]) ** 2) ** 0.5 or 1.0
    ux, uy = (head[0] - tail[0]) / far, (head[1] - tail[1]) / far
    base = (head[0] - 9.0 * ux, head[1] - 9.0 * uy)
    board.edge((tail, base), 1.2)
    board.lines.append(polygon([head, (base[0] - 3.4 * uy, base[1] + 3.4 * ux), (base[0] + 3.4 * uy, base[1] - 3.4 * ux)], board.ink.ink))  # fmt: skip


def north(board: Board, at: Point, turned_deg: float, long: float = 44.0) -> None:
    """True north; turned so many degrees from the top of the page, clockwise."""
    t = radians(turned_deg)
    ux, uy = sin(t), -cos(t)
    head = (at[0] + ux * long / 2, at[1] + uy * long / 2)
    arrow(board, (at[0] - ux * long / 2, at[1] - uy * long / 2), head)
    board.circle(at, 3.2, 1.0, board.ink.paper)
    place = (head[0] + ux * board.size * 1.1, head[1] + uy * board.size * 1.1 + board.size * 0.35)
    board.say(place, ("true N",), "middle")


def zigzag(board: Board, x1: float, x2: float, y: float) -> None:
    """A break across what goes on."""
    middle = (x1 + x2) / 2.0
    board.lines.append(polygon([(x1, y - 3.5), (x2, y - 3.5), (x2, y + 3.5), (x1, y + 3.5)], board.ink.paper))  # fmt: skip
    way: Sequence[Point] = ((x1 - 7.0, y), (middle - 6.0, y), (middle - 3.0, y - 6.0), (middle + 3.0, y + 6.0), (middle + 6.0, y), (x2 + 7.0, y))  # fmt: skip
    for a, b in pairwise(way):
        board.lines.append(line(a, b, board.ink.ink, 1.2))


Field = tuple[float, float, float, float]  # left, top, width, height


@dataclass(frozen=True, slots=True)
class Part:
    """One of several views on a board.

    Attributes:
        draw: Draws it in a field; returns where the next may begin.
        high: How much height it is given.
        wide: Whether it takes the whole width.
    """

    draw: Callable[[Field], float]
    high: float
    wide: bool = False


def in_fields(board: Board, parts: Sequence[Part], narrow: bool) -> None:
    """Views two by two, or one under the other where the board is narrow; the board is as high as they need."""
    low = top = x = 0.0
    for nth, part in enumerate(parts):
        wide = narrow or part.wide
        if nth and (wide or x == 0.0):
            top, x = low, 0.0
        across = board.width if wide else board.width / 2.0
        board.height = max(board.height, top + part.high + board.size * 8.0)
        low = max(low, part.draw((x, top, across, part.high)), board.lowest + board.size * 0.6)
        x = 0.0 if wide or x > 0.0 else across
    board.height = low + board.size
