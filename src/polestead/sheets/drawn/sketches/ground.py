"""Sketches of the ground: lines, stake, trench, hole, braces, shadow, pier, collar."""

from __future__ import annotations

from math import cos, radians, sin

from polestead.answer.drawables import Drawables
from polestead.base.show import Style, dimension, set_out
from polestead.build.cards.steel import COAT_OVER_COLLAR_M
from polestead.build.ground.spoil import EDGE_M
from polestead.mount.geometry import swept_m
from polestead.sheets.drawn.board import CUT, EDGE, FINE, Board
from polestead.sheets.drawn.common import arrow, north, zigzag
from polestead.sheets.drawn.dimension import of_length
from polestead.sheets.drawn.footing import concrete_and_pole
from polestead.sheets.drawn.hatches import banks
from polestead.sheets.drawn.sketches.board import fitted, pole, soil, stake, turned
from polestead.sheets.svg import Point, polygon
from polestead.wiring.trench.closing import BED_M
from polestead.wiring.trench.own_lines import BY_HAND_M


def locate(d: Drawables, board: Board, style: Style) -> None:
    """The run pulled straight, from the pole up to the house, with what crosses it."""
    run = d.given.run.length_m
    s = board.size
    top, foot = s * 2.4, board.height - s * 2.2
    x = board.width * 0.36

    def at(along: float) -> Point:
        return x, foot - (foot - top) * along / run

    board.edge((at(0.0), at(run)), EDGE, "14 3")
    board.circle(at(0.0), 7.0, 2.0, board.ink.paper)
    board.edge([(x - 16.0, top - 16.0), (x + 16.0, top - 16.0), (x + 16.0, top), (x - 16.0, top)], 2.0, closed=True)  # fmt: skip
    board.say((x + 24.0, top - 4.0), ("house",))
    board.say((x, foot + s * 1.6), ("pole",), "middle")
    of_length(board, (x - s * 4.6, foot), (x - s * 4.6, top), run, style, ((x, foot), (x, top)), "run")  # fmt: skip
    crossing = [one for one in d.own.lines if one.crosses_at_m is not None and one.crosses_at_m <= run]  # fmt: skip
    for nth, one in enumerate(crossing[:3]):
        y = at(one.crosses_at_m or 0.0)[1]
        half = max(BY_HAND_M * (foot - top) / run, s * 0.5)
        band = [(x - s, y - half), (x + s, y - half), (x + s, y + half), (x - s, y + half)]
        board.lines.append(polygon(band, "url(#sketch-hand)"))
        board.edge(((x - s * 1.6, y), (board.width - 6.0, y)), 2.0)
        lane = x + s * (1.9 + 2.0 * nth)
        of_length(board, (lane, foot), (lane, y), one.crosses_at_m or 0.0, style, ((x, foot), (lane, y)), f"{one.name} from the pole")  # fmt: skip
        deep = "depth not told" if one.top_m is None else f"{dimension(one.top_m, style)} down"
        _told(board, (board.width - 8.0, y - s * 0.5), (one.name, deep), up=True)
    others = [one for one in d.own.lines if one not in crossing]
    y = foot - s * 4.0
    for one in others[:2]:
        line = next(line for line in d.buried if line.name == one.name)
        far = (
            "" if line.from_pole_m is None else f"{dimension(line.from_pole_m, style)} off, or more"
        )
        _told(board, (board.width - 8.0, y), (one.name, far or "where not told"), up=True)
        y -= s * 5.0


def _told(board: Board, at: Point, words: tuple[str, ...], up: bool) -> None:
    """Words at the right edge, over a height."""
    most = int((board.width * 0.6) / (board.size * board.ink.letter))
    lines = [part for one in words if one for part in _broken(one, most)]
    y = at[1] - (board.step * (len(lines) - 1) if up else 0.0)
    for spot in (y, y - board.step, y + board.step, y - 2 * board.step):
        if board.free(board.box((at[0], spot), lines, "end")):
            board.say((at[0], spot), lines, "end")
            board.told.append(" ".join(words))
            return
    board.late.append(", ".join(words))


def _broken(words: str, most: int) -> list[str]:
    from textwrap import wrap

    return wrap(words, most)


def stake_out(d: Drawables, board: Board, style: Style) -> None:
    """From above: the stake, two in line each way, hole and what the array sweeps."""
    g, m = d.given.geometry, d.given.mount
    to_sun, away = swept_m(g)
    half = g.width_m / 2.0
    view = fitted(board, (-half, half), (-to_sun, away), (5.6, 5.6, 2.2, 5.4))
    corners = [view.at(x, z) for x, z in ((-half, away), (half, away), (half, -to_sun), (-half, -to_sun))]  # fmt: skip
    board.edge(corners, EDGE, "10 4", closed=True)
    radius = max(d.given.footing.diameter_m / 2.0 * view.scale, 5.0)
    board.circle(view.origin, radius, EDGE, dash="8 3")
    stake(board, view.origin)
    for dx, dy in ((0.0, 1.0), (0.0, -1.0), (1.0, 0.0), (-1.0, 0.0)):
        reach = max(radius * 2.6, board.size * 2.4)
        at = (view.origin[0] + dx * reach, view.origin[1] + dy * reach)
        board.edge((view.origin, at), FINE, "12 3 2 3", board.ink.pencil)
        stake(board, at)
    y = corners[0][1] - board.size * 2.6
    of_length(board, (corners[0][0], y), (corners[1][0], y), g.width_m, style, (corners[0], corners[1]), "array wide")  # fmt: skip
    x = corners[0][0] - board.size * 2.6
    of_length(board, (x, corners[0][1]), (x, corners[3][1]), to_sun + away, style, (corners[0], corners[3]), "swept by the array")  # fmt: skip
    foot = corners[2][1] + board.size * 0.7
    middle = (corners[0][0] + corners[1][0]) / 2.0
    arrow(board, (middle, foot), (middle, foot + board.size * 1.6))
    board.say((middle, foot + board.size * 2.9), (f"glass looks {m.facing_deg:g}° true",), "middle")
    north(board, (board.size * 2.2, board.height - board.size * 3.4), (180.0 - m.facing_deg) % 360.0, board.size * 2.0)  # fmt: skip
    rim = turned(view.origin, radius, 40.0)
    board.note(rim, (f"hole {dimension(d.given.footing.diameter_m, style)}",), [(turned(view.origin, radius + board.size * 2.6, 50.0), "start")])  # fmt: skip


def trench(d: Drawables, board: Board, style: Style) -> None:
    """The trench cut across, its heap beside it."""
    deep, wide = d.trench.lengths.floor_m, d.built.trench.width_m
    heap_wide = max(2.0 * wide, 0.6)
    reach = wide / 2.0 + EDGE_M + heap_wide
    view = fitted(board, (-wide / 2.0, reach), (-deep, heap_wide * 0.35), (6.2, 2.0, 1.0, 4.2))
    y0 = view.origin[1]
    left, right = view.at(-wide / 2.0, 0)[0], view.at(wide / 2.0, 0)[0]
    foot = view.at(0.0, -deep)[1]
    soil(board, y0, ((left, right),))
    board.lines += banks(board.ink, left, y0, foot, True) + banks(board.ink, right, y0, foot, False)
    board.edge([(left, y0), (left, foot), (right, foot), (right, y0)], CUT)
    start = view.at(wide / 2.0 + EDGE_M, 0.0)
    heap = [start, view.at(wide / 2.0 + EDGE_M + heap_wide / 2, heap_wide * 0.33), view.at(reach, 0.0)]  # fmt: skip
    board.edge(heap, EDGE)
    board.say((heap[1][0], y0 - board.size * 0.5), ("soil",), "middle")
    x = left - board.size * 3.4
    of_length(
        board, (x, y0), (x, foot), deep, style, ((x, y0), (left, foot)), "trench deep", way="up"
    )
    y = foot + board.size * 2.0
    of_length(board, (left, y), (right, y), wide, style, ((left, foot), (right, foot)), "trench wide", way="up")  # fmt: skip
    y = y0 + board.size * 2.4
    of_length(board, (right, y), (start[0], y), EDGE_M, style, ((right, y0), start), "heap from the edge, no nearer", way="up")  # fmt: skip


def trench_laid(d: Drawables, board: Board, style: Style) -> None:
    """What lies in the trench, cut across."""
    found = d.trench
    deep, wide, cover = found.lengths.floor_m, d.built.trench.width_m, d.given.run.cover_m
    view = fitted(board, (-wide / 2.0, wide / 2.0), (-deep, 0.0), (7.0, 1.6, 9.0, 1.6))
    y0 = view.origin[1]
    left, right = view.at(-wide / 2.0, 0)[0], view.at(wide / 2.0, 0)[0]
    foot = view.at(0.0, -deep)[1]
    soil(board, y0, ((left, right),))
    board.lines += banks(board.ink, left, y0, foot, True) + banks(board.ink, right, y0, foot, False)
    sand = view.at(0.0, -cover + BED_M)[1]
    bed = [(left, sand), (right, sand), (right, foot), (left, foot)]
    board.fill(bed, "sketch-sand")
    board.edge(((left, sand), (right, sand)), FINE, "4 3")
    board.edge([(left, y0), (left, foot), (right, foot), (right, y0)], CUT)
    line = max(deep - cover - BED_M, 0.02)
    middle = view.at(0.0, -cover - line / 2.0)
    if found.conduit is not None:
        board.circle(middle, max(line / 2.0 * view.scale, 5.0), EDGE, board.ink.paper)
        words = f"pipe {found.conduit.pipe.trade}"
    else:
        for off in (-1.6, 0.0, 1.6):
            board.circle((middle[0] + off * board.size * 0.5, middle[1]), 4.0, EDGE, board.ink.ink if off else board.ink.paper)  # fmt: skip
        words = "wires side by side"
    ribbon = view.at(0.0, -found.ribbon.depth_m)[1]
    board.edge(((left + 6.0, ribbon), (right - 6.0, ribbon)), 3.0, "9 5")
    x = left - board.size * 2.2
    of_length(board, (x, y0), (x, ribbon), found.ribbon.depth_m, style, ((x, y0), (left, ribbon)), "ribbon under the ground")  # fmt: skip
    x = left - board.size * 5.0
    top = view.at(0.0, -cover)[1]
    of_length(board, (x, y0), (x, top), cover, style, ((x, y0), (left, top)), "soil over the line")
    rail = right + board.size * 1.6
    for target, said in (((right - 12.0, ribbon), ("ribbon",)), ((right - 8.0, (sand + foot) / 2.0 - board.size), ("sand or", "sifted soil")), (middle, _pair(words))):  # fmt: skip
        board.note(target, said, [((rail, target[1] + off), "start") for off in (0.0, board.size * 1.6, -board.size * 1.8, board.size * 3.2)])  # fmt: skip


def _pair(words: str) -> tuple[str, ...]:
    return tuple(_broken(words, 13))


def hole(d: Drawables, board: Board, style: Style) -> None:
    """The hole cut through, planked over, its heap back from the edge."""
    f = d.given.footing
    half = f.diameter_m / 2.0
    heap = d.built.concrete.heap_wide_m
    reach = half + EDGE_M + min(heap, 1.4)
    view = fitted(board, (-half, reach), (-f.depth_m, 0.45), (6.0, 1.0, 1.0, 3.8))
    y0, foot = view.origin[1], view.at(0.0, -f.depth_m)[1]
    left, right = view.at(-half, 0.0)[0], view.at(half, 0.0)[0]
    soil(board, y0, ((left, right),))
    board.lines += banks(board.ink, left, y0 + 8.0, foot, True) + banks(board.ink, right, y0 + 8.0, foot, False)  # fmt: skip
    board.edge([(left, y0), (left, foot), (right, foot), (right, y0)], CUT)
    board.edge(((left - 14.0, y0 - 5.0), (right + 14.0, y0 - 5.0)), 5.0)
    board.note((left + 10.0, y0 - 6.0), ("planks, weighted",), [((8.0, y0 - board.size * 1.2), "start")])  # fmt: skip
    start = view.at(half + EDGE_M, 0.0)
    rise = board.size * 2.6
    board.edge([start, (min(start[0] + rise * 2.2, board.width - 2.0), y0 - rise)], EDGE)
    board.say((start[0] + rise * 0.95, y0 - board.size * 0.35), ("soil",), "start")
    frost, y = d.given.place.frost_depth_m, y0 + board.size * 2.4
    freezes = view.at(0.0, -frost)[1]
    if frost > 0.0 and abs(freezes - y) < board.size * 1.8:  # not on the line of the frost
        y = freezes + board.size * 1.8
    of_length(board, (right, y), (start[0], y), EDGE_M, style, ((right, y0), start), "heap from the edge, no nearer", way="up")  # fmt: skip
    x = left - board.size * 3.2
    of_length(board, (x, y0), (x, foot), f.depth_m, style, ((x, y0), (left, foot)), "hole deep")
    y = foot + board.size * 1.9
    of_length(board, (left, y), (right, y), f.diameter_m, style, ((left, foot), (right, foot)), "hole across")  # fmt: skip
    if frost > 0.0:
        y = freezes
        board.edge(((right + 14.0, y), (board.width - 4.0, y)), FINE, "10 4 2 4", board.ink.pencil)
        board.note((board.width - 6.0, y), (f"frost {dimension(frost, style)}",), [((board.width - 6.0, y - 5.0), "end"), ((board.width - 6.0, y + board.size), "end")], lead=False)  # fmt: skip


def brace(d: Drawables, board: Board, style: Style) -> None:
    """The pole in the hole with its braces."""
    b, f = d.built.braces, d.given.footing
    half, top = f.diameter_m / 2.0, d.given.pole_over_ground_m
    view = fitted(board, (-b.stakes_m, b.stakes_m), (-f.depth_m, top), (3.2, 1.4, 3.2, 1.2))
    y0, foot = view.origin[1], view.at(0.0, -f.depth_m)[1]
    left, right = view.at(-half, 0.0)[0], view.at(half, 0.0)[0]
    soil(board, y0, ((left, right),))
    board.lines += banks(board.ink, left, y0 + 8.0, foot, True) + banks(board.ink, right, y0 + 8.0, foot, False)  # fmt: skip
    board.edge([(left, y0), (left, foot), (right, foot), (right, y0)], CUT)
    for side in (-1.0, 1.0):
        end = view.at(side * b.stakes_m, 0.0)
        board.edge((view.at(0.0, b.at_m), end), 3.0)
        board.edge(((end[0], end[1] - 10.0), (end[0], end[1] + 16.0)), CUT)
    pole(d, board, view, -f.pole_depth_m)
    x = view.at(b.stakes_m, 0.0)[0] + board.size * 0.6
    at = view.at(0.0, b.at_m)
    of_length(board, (x, at[1]), (x, y0), b.at_m, style, (at, (x, y0)), "braces meet the pole, over the ground", way="near")  # fmt: skip
    y = y0 + board.size * 2.4
    end = view.at(b.stakes_m, 0.0)
    of_length(board, (view.origin[0], y), (end[0], y), b.stakes_m, style, ((view.origin[0], y0), end), "stakes from the pole", way="near")  # fmt: skip
    x = left - board.size * 3.2
    low = view.at(0.0, -f.pole_depth_m)
    of_length(board, (x, y0), (x, low[1]), f.pole_depth_m, style, ((x, y0), low), "pole's foot below the ground")  # fmt: skip
    board.note(view.at(-b.stakes_m * 0.55, b.at_m * 0.45), ("two braces,", "square to", "each other"), [((8.0, view.at(0, top)[1] + board.size), "start"), ((8.0, view.at(0, b.at_m)[1]), "start")])  # fmt: skip


def noon(d: Drawables, board: Board, style: Style) -> None:  # noqa: ARG001  a plan without a length
    """The pole from above at solar noon: sun, shadow, true north, and where the glass looks."""
    s = board.size
    centre = (board.width / 2.0, board.height * 0.52)
    north_up = d.given.place.latitude_deg >= 0.0
    reach = min(board.width / 2.0 - s * 2.5, board.height * 0.52 - s * 3.6)
    radius = s * 1.5
    up = -1.0 if north_up else 1.0
    tip = (centre[0], centre[1] + up * reach)
    for off in (-2.5, 0.0, 2.5):
        board.edge(((centre[0] + off, centre[1]), (tip[0] + off * 0.4, tip[1])), 1.2)
    board.circle(centre, radius, CUT, board.ink.paper)
    board.circle(centre, radius * 0.84, FINE)
    sun = (centre[0], centre[1] - up * reach)
    board.circle(sun, s * 0.8, EDGE, board.ink.paper)
    board.edge(((centre[0], centre[1] - up * radius), (centre[0], sun[1] + up * s * 0.8)), FINE, "4 5", board.ink.pencil)  # fmt: skip
    way = radians(d.given.mount.facing_deg)
    ux, uy = sin(way), -cos(way)
    arrow(board, (centre[0] + ux * radius, centre[1] + uy * radius), (centre[0] + ux * reach * 0.62, centre[1] + uy * reach * 0.62))  # fmt: skip
    board.say((tip[0] + s * 0.7, tip[1] + s * (0.9 if north_up else -0.3)), ("shadow at noon:", f"true {'north' if north_up else 'south'}"))  # fmt: skip
    board.say((sun[0] + s * 1.3, sun[1] + s * 0.4), ("sun at noon",))
    looks = (centre[0] + ux * reach * 0.45, centre[1] + uy * reach * 0.45)
    board.note(looks, ("glass looks", f"{d.given.mount.facing_deg:g}° true"), [((looks[0] - s * 1.0, looks[1] - s), "end"), ((looks[0] + s, looks[1]), "start")], lead=False)  # fmt: skip
    board.note(turned(centre, radius, 160.0), ("plumb line",), [((8.0, centre[1] - s), "start")])
    board.told.append(f"at solar noon the shadow points true {'north' if north_up else 'south'}; the glass looks {d.given.mount.facing_deg:g} degrees from true north")  # fmt: skip


def pour(d: Drawables, board: Board, style: Style) -> None:
    """The pier cut through, with pole, bars and collar."""
    f = d.given.footing
    half = f.diameter_m / 2.0
    view = fitted(board, (-half, half), (-f.depth_m, 0.45), (6.4, 0.8, 7.6, 3.8))
    concrete_and_pole(d, board, view)
    y0, foot = view.origin[1], view.at(0.0, -f.depth_m)[1]
    left, right = view.at(-half, 0.0)[0], view.at(half, 0.0)[0]
    x = left - board.size * 3.2
    of_length(board, (x, y0), (x, foot), f.depth_m, style, ((x, y0), (left, foot)), "hole deep")
    y = foot + board.size * 1.9
    of_length(board, (left, y), (right, y), f.diameter_m, style, ((left, foot), (right, foot)), "hole across")  # fmt: skip
    figure = dimension(f.pole_depth_m, style)  # its half keeps off the pier
    x = right + max(board.size * 2.2, board.wide(figure, heavy=True) / 2.0 + board.size * 0.8)
    low = view.at(d.given.pipe.outside_m / 2.0, -f.pole_depth_m)
    of_length(board, (x, y0), (x, low[1]), f.pole_depth_m, style, ((x, y0), low), "pole's foot below the ground")  # fmt: skip
    if f.collar_m > 0.0:
        board.note(view.at(half * 0.7, f.collar_m), (f"collar {dimension(f.collar_m, style)}",), [((right + board.size * 0.6, view.at(0, f.collar_m)[1] - board.size * 0.4), "start")])  # fmt: skip
    if f.twist_bars:
        board.note(view.at(half * 0.6, -f.pole_depth_m + 2.0 * d.given.pipe.outside_m), ("twist", "bars"), [((board.width - 6.0, y), "end") for y in (foot - board.size * 3.6, foot - board.size * 6.0)])  # fmt: skip


def collar(d: Drawables, board: Board, style: Style) -> None:
    """The collar large: the coat on the pole over and under its top."""
    f = d.given.footing
    r, up = d.given.pipe.outside_m / 2.0, f.collar_m
    half = f.diameter_m / 2.0
    view = fitted(board, (-half, half), (-0.2, up + 0.42), (6.2, 1.0, 6.8, 1.0))
    slope = 0.03
    top = [view.at(x, z) for x, z in ((-half, up), (-r, up + slope), (r, up + slope), (half, up))]
    low = view.at(0.0, -0.2)[1]
    left, right = top[0][0], top[3][0]
    board.fill([*top, (right, low), (left, low)], "footing-concrete")
    soil(board, view.origin[1], ((left, right),))
    board.edge([(left, low), *top, (right, low)], CUT)
    board.edge(((left, low), (right, low)), FINE, "8 4", board.ink.pencil)
    sides = [view.at(x, z) for x, z in ((-r, up - 0.16), (-r, up + 0.38), (r, up + 0.38), (r, up - 0.16))]  # fmt: skip
    board.lines.append(polygon(sides, board.ink.paper))
    board.edge(((sides[0][0], sides[0][1]), sides[1]), EDGE)
    board.edge((sides[2], (sides[3][0], sides[3][1])), EDGE)
    zigzag(board, sides[1][0], sides[2][0], sides[1][1])
    zigzag(board, sides[0][0], sides[3][0], sides[0][1])
    for side in (-1.0, 1.0):
        board.edge((view.at(side * r, up + COAT_OVER_COLLAR_M), view.at(side * r, up - COAT_OVER_COLLAR_M)), 5.0, keep_off=False)  # fmt: skip
    x = left - board.size * 5.6
    if up > 0.0:
        of_length(board, (x, top[0][1]), (x, view.origin[1]), up, style, (top[0], (left, view.origin[1])), "collar over the ground")  # fmt: skip
    x = right + board.size * 5.2
    a, b = view.at(r, up + COAT_OVER_COLLAR_M), view.at(r, up - COAT_OVER_COLLAR_M)
    of_length(board, (x, a[1]), (x, b[1]), 2.0 * set_out(COAT_OVER_COLLAR_M, style, "up"), style, (a, b), "coat over and under the collar's top", after=" coat")  # fmt: skip
    board.note(view.at(-half * 0.7, up + slope * 0.3), ("sloped", "to drain"), [((8.0, view.at(0, up + 0.3)[1]), "start")])  # fmt: skip
