"""The footing cut through: pier, collar, pole, bars, frost, water, gravel if any, with every depth."""

from __future__ import annotations

from collections.abc import Sequence
from math import cos, pi, radians, sin

from polestead.answer.drawables import Drawables
from polestead.base.quantity import in_unit
from polestead.base.show import Style, dimension, in_one_unit, number, sawn_m
from polestead.build.pieces.ground import CAGE_BAR_M, COVER_M, cage_bar_length_m, twist_bar_m
from polestead.sheets.drawn.board import CUT, FINE, Board, View
from polestead.sheets.drawn.common import SCOPE, UNSETTLED, mark, zigzag
from polestead.sheets.drawn.dimension import of_length
from polestead.sheets.drawn.hatches import HATCHED, banks, concrete, ground, steel
from polestead.sheets.svg import Ink, Point, polygon

NARROW_UNDER = 560.0
SLOPE_M = 0.025  # how much the collar's top is drawn domed; the figure is the mason's
ABOVE_M = 0.5  # of pole drawn over the ground


def footing_section(d: Drawables, style: Style, ink: Ink, width: float = 620.0, size: float = 13.0) -> str:  # fmt: skip
    """The pier from top to foot, cut through the pole.

    Args:
        d: What is drawn.
        style: Whose units.
        ink: Screen or paper.
        width: Of the drawing [px].
        size: Of its letters [px].
    """
    f, place = d.given.footing, d.given.place
    board = Board(width, 0.0, ink, size)
    narrow = width < NARROW_UNDER
    scale = min(430.0 / (f.depth_m + ABOVE_M), (width - 5.0 * board.lane - (0.0 if narrow else board.rail_wide)) / f.diameter_m)  # fmt: skip
    board.height = (f.depth_m + ABOVE_M) * scale + size * 7.0
    middle = board.lane * 2.6 + f.diameter_m * scale / 2.0
    view = View(scale, (middle, ABOVE_M * scale + size * 2.0))
    concrete_and_pole(d, board, view)
    y0 = view.origin[1]
    half = f.diameter_m / 2.0
    for depth, kind in ((place.frost_depth_m, "frost"), (place.water_depth_m, "water")):
        if depth is not None and depth > 0.0:
            y = view.at(0.0, -depth)[1]
            dash = "10 4 2 4" if kind == "frost" else "14 3"
            if y < board.height - size * 5.0:
                board.edge(((6.0, y), (view.at(-half, 0)[0] - 16.0, y)), FINE, dash, ink.pencil)
                board.edge(((view.at(half, 0)[0] + 16.0, y), (width - 6.0, y)), FINE, dash, ink.pencil)  # fmt: skip
    _figures(d, board, view, style, y0)
    under = _notes(d, board, view, style, narrow)
    board.foot([*under, *_foot(d, style)])
    return board.svg(concrete("footing-concrete", ink) + steel("footing-steel", ink), f"{d.name}, footing cut through")  # fmt: skip


def concrete_and_pole(d: Drawables, board: Board, view: View) -> None:
    """Pier, pole and bars without a figure; wants the hatches ``footing-concrete`` and ``footing-steel``."""
    _pier(d, board, view)
    _pole(d, board, view)
    _bars(d, board, view)


def _pier(d: Drawables, board: Board, view: View) -> None:
    f = d.given.footing
    half, r = f.diameter_m / 2.0, d.given.pipe.outside_m / 2.0
    top = f.collar_m
    dome = [view.at(x, top + (SLOPE_M * (1.0 - ((abs(x) - r) / max(half - r, 0.01)) ** 2) if top > 0 else 0.0)) for x in (-half, -(half + r) / 2.0, -r, r, (half + r) / 2.0, half)]  # fmt: skip
    corners = [*dome, view.at(half, -f.depth_m), view.at(-half, -f.depth_m)]
    board.fill(corners, "footing-concrete")
    left, right = view.at(-half, 0.0)[0], view.at(half, 0.0)[0]
    y0, foot = view.origin[1], view.at(0.0, -f.depth_m)[1]
    board.lines += ground(board.ink, 0.0, board.width, y0, [(left, right)])
    board.lines += banks(board.ink, left, y0 + 8.0, foot, True)
    board.lines += banks(board.ink, right, y0 + 8.0, foot, False)
    for level in (y0, y0 + HATCHED):
        board.inked += [((0.0, level), (left, level)), ((right, level), (board.width, level))]
    board.edge(corners, CUT, closed=True)
    deep = -f.neglected_m
    if f.sleeve != "none":
        deep = -min(d.given.place.frost_depth_m, f.depth_m)
        for side in (-1.0, 1.0):
            for off in (3.0, 6.0):
                x = view.at(side * half, 0.0)[0] + side * off
                board.edge(((x, view.at(0.0, top)[1]), (x, view.at(0.0, deep)[1])), 1.0)


def _pole(d: Drawables, board: Board, view: View) -> None:
    pipe, f = d.given.pipe, d.given.footing
    r, foot, top = pipe.outside_m / 2.0, -f.pole_depth_m, ABOVE_M
    wall = max(pipe.wall_m, 2.5 / view.scale)
    inside = [view.at(x, z) for x, z in ((wall - r, top), (r - wall, top), (r - wall, foot), (wall - r, foot))]  # fmt: skip
    above = [view.at(x, z) for x, z in ((-r, top), (r, top), (r, f.collar_m), (-r, f.collar_m))]
    board.lines.append(polygon(above, board.ink.paper))
    if f.pole_filled:
        board.lines.append(polygon(inside, board.ink.paper))
        filled = [(x, max(y, view.at(0.0, f.collar_m)[1])) for x, y in inside]
        board.lines.append(polygon(filled, "url(#footing-concrete)"))
    else:
        board.lines.append(polygon(inside, board.ink.paper))
    for side in (-1.0, 1.0):
        a, b = sorted((side * r, side * (r - wall)))
        strip = [view.at(x, z) for x, z in ((a, top), (b, top), (b, foot), (a, foot))]
        board.lines.append(polygon(strip, board.ink.paper))
        board.lines.append(polygon(strip, "url(#footing-steel)"))
        board.edge(strip, FINE, closed=True)
    zigzag(board, view.at(-r, 0)[0], view.at(r, 0)[0], view.at(0.0, top)[1] + 3.0)
    board.centre(view.at(0.0, top + 0.04), view.at(0.0, -f.depth_m - 0.08))


def bar_depths_m(d: Drawables) -> tuple[float, float] | None:
    """How deep the two twist bars are drawn: their depth is not in the file, so a pole diameter and two over its foot."""
    if not d.given.footing.twist_bars:
        return None
    foot, step = d.given.footing.pole_depth_m, d.given.pipe.outside_m
    return foot - 2.0 * step, foot - step


def _bars(d: Drawables, board: Board, view: View) -> None:
    f = d.given.footing
    depths = bar_depths_m(d)
    if depths is not None:
        half = twist_bar_m(f.diameter_m) / 2.0
        a, b = view.at(-half, -depths[0]), view.at(half, -depths[0])
        board.edge((a, b), 3.5)
        board.circle(view.at(0.0, -depths[1]), 3.2, 1.0, board.ink.ink)  # seen end on
        r = d.given.pipe.outside_m / 2.0
        board.hidden([view.at(-r, -depths[1]), view.at(r, -depths[1])])
    if f.cage_bars is None:
        return
    bar = f.cage_bar_m or CAGE_BAR_M
    ring = f.diameter_m / 2.0 - COVER_M - bar / 2.0
    top, foot = f.collar_m - COVER_M, COVER_M - f.depth_m
    for n in range(f.cage_bars):
        x = ring * cos(2.0 * pi * n / f.cage_bars + radians(15.0))
        front = sin(2.0 * pi * n / f.cage_bars + radians(15.0)) >= 0.0
        board.edge((view.at(x, top), view.at(x, foot)), 2.0 if front else 1.0, None if front else "6 3")  # fmt: skip


def _figures(d: Drawables, board: Board, view: View, style: Style, y0: float) -> None:
    f, place = d.given.footing, d.given.place
    half = f.diameter_m / 2.0
    left, right, foot = view.at(-half, 0.0)[0], view.at(half, 0.0)[0], view.at(0.0, -f.depth_m)[1]
    x = left - board.lane * 1.9
    of_length(board, (x, y0), (x, foot), f.depth_m, style, ((x, y0), (left, foot)), "hole below the ground", mark=mark(d, "footing", "depth"))  # fmt: skip
    if place.frost_depth_m > 0.0:
        x = left - board.lane * 0.85
        y = view.at(0.0, -place.frost_depth_m)[1]
        of_length(board, (x, y0), (x, y), place.frost_depth_m, style, None, "frost below the ground", mark=mark(d, "place", "frost_depth"))  # fmt: skip
    pole = view.at(d.given.pipe.outside_m / 2.0, -f.pole_depth_m)
    x = right + board.lane * 0.9
    of_length(board, (x, y0), (x, pole[1]), f.pole_depth_m, style, ((x, y0), pole), "pole below the ground", mark=mark(d, "footing", "pole_depth"))  # fmt: skip
    under = f.depth_m - f.pole_depth_m
    if under > 0.005:
        of_length(board, (x, pole[1]), (x, foot), under, style, (pole, (right, foot)), "under the pole's foot")  # fmt: skip
    if f.collar_m > 0.0:
        top = view.at(half, f.collar_m)
        x = right + board.lane * 0.35
        of_length(board, (x, top[1]), (x, y0), f.collar_m, style, (top, (right, y0)), "collar over the ground", mark=mark(d, "footing", "collar"))  # fmt: skip
    y = foot + board.size * 1.8
    of_length(board, (left, y), (right, y), f.diameter_m, style, ((left, foot), (right, foot)), "hole across", mark=mark(d, "footing", "diameter"))  # fmt: skip
    if f.twist_bars:
        long = twist_bar_m(f.diameter_m)
        depths = bar_depths_m(d) or (0.0, 0.0)
        a, b = view.at(-long / 2.0, -depths[0]), view.at(long / 2.0, -depths[0])
        y = a[1] - board.size * 1.5
        of_length(board, (a[0], y), (b[0], y), sawn_m(long, style), style, (a, b), "twist bar long")


def _notes(d: Drawables, board: Board, view: View, style: Style, narrow: bool) -> list[str]:
    """Words beside the section with a leader each; on a narrow one, which has no room beside, lines to stand under it."""
    under: list[str] = []
    given, f = d.given, d.given.footing
    half = f.diameter_m / 2.0
    rail = board.width - board.rail_wide

    def spots(y: float) -> list[tuple[tuple[float, float], str]]:
        return [((rail, at[1]), anchor) for at, anchor in board.rail(y)]

    def note(at: Point, said: tuple[str, ...], name: str = "", higher: float = 0.0, first: Sequence[tuple[Point, str]] = ()) -> None:  # fmt: skip
        if narrow:
            words = ", ".join(said)
            under.append(f"{name}{words}." if name else f"{words[0].upper()}{words[1:]}.")
        else:
            board.note(at, said, [*first, *spots(at[1] - higher)])

    at = view.at(
        -given.pipe.outside_m / 2.0, ABOVE_M * 0.6
    )  # bare ground at its left; the collar's figure stands at its right
    beside = [((at[0] - board.size * 0.5, at[1] - board.size * 0.3), "end")]
    note(at, (given.mount.pole.written, f"{dimension(given.pipe.outside_m, style)} outside, filled" if f.pole_filled else "not filled: it must drain"), "Pole: ", first=beside)  # fmt: skip
    at = view.at(half * 0.8, f.collar_m)
    if f.collar_m > 0.0:
        note(at, ("collar sloped to drain",), higher=4.0)
    depths = bar_depths_m(d)
    if depths is not None:
        at = view.at(twist_bar_m(f.diameter_m) / 2.0, -depths[0])
        note(at, ("twist bars, two, crosswise", "No. 5 bar" if style == "feet" else "16 mm bar"))
    else:
        note(
            view.at(0.0, -f.pole_depth_m + 0.1),
            ("no twist bars in the file", "what keeps it from turning?"),
        )
    if f.cage_bars is not None:
        bar = f.cage_bar_m or CAGE_BAR_M
        at = view.at(half - COVER_M, -f.depth_m * 0.3)
        note(at, (f"{f.cage_bars} bars of {dimension(bar, style)}", f"{dimension(sawn_m(cage_bar_length_m(f.depth_m, f.collar_m), style), style)} long, {dimension(COVER_M, style)} cover"))  # fmt: skip
    if f.sleeve != "none":
        at = view.at(half, -given.place.frost_depth_m * 0.5)
        note(at, ("smooth tube round it", "two plies of sheet"))
    water = given.place.water_depth_m
    if water is not None and water < f.depth_m:
        y = view.at(0.0, -water)[1]
        board.note((board.width - 8.0, y), (f"water {dimension(water, style)} down",), [((board.width - 8.0, y - 4.0), "end"), ((board.width - 8.0, y + 14.0), "end")], lead=False)  # fmt: skip
    if given.place.frost_depth_m > 0.0:
        y = view.at(0.0, -given.place.frost_depth_m)[1]
        board.note((board.width - 8.0, y), ("frost",), [((board.width - 8.0, y - 4.0), "end"), ((board.width - 8.0, y + 14.0), "end")], lead=False)  # fmt: skip
    at = view.at(half * 0.7, -f.depth_m * 0.62)
    note(at, (f"concrete {_strength(f.concrete_pa, style)}", f"{in_one_unit(d.built.concrete.sold, style)}, waste in it"))  # fmt: skip
    return under


def _strength(pa: float, style: Style) -> str:
    return f"{number(in_unit(pa, 'psi'))} psi" if style == "feet" else f"{number(in_unit(pa, 'MPa'), 1)} MPa"  # fmt: skip


def _foot(d: Drawables, style: Style) -> list[str]:
    f = d.given.footing
    told = [f"Soil taken as {d.given.place.soil}; the top {dimension(f.neglected_m, style)} is not trusted."]  # fmt: skip
    if f.twist_bars:
        told.append("The bars' depth is not in the file: drawn one and two pole diameters over the pole's foot.")  # fmt: skip
    told.append("Gravel under the concrete is not in the file: what is laid there is dug deeper than the figure.")  # fmt: skip
    if d.given.place.water_depth_m is None:
        told.append("Water is taken to stand deeper than the pier: look into the hole.")
    return [*told, "Nobody goes down into the hole. Cover it whenever you step away.", f"{SCOPE} {UNSETTLED}"]  # fmt: skip
