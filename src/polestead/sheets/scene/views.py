"""The front and the plan at today's tilt: small beside the side view, or in its place with their figures."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from math import cos, radians, sin
from typing import Literal

import numpy as np

from polestead.answer.answer import Answer
from polestead.answer.tilts import Tilts
from polestead.base.show import Style, dimension, sawn_m
from polestead.mount.geometry import Geometry, lowest_edge_m, swept_m
from polestead.sheets.drawn.common import chord_point, outline, sun_side_of
from polestead.sheets.scene.field import smooth, stroke
from polestead.sheets.svg import Ink, Point, line, polygon, tag

Which = Literal["side", "front", "plan"]
WHICH: tuple[Which, ...] = ("side", "front", "plan")


@dataclass(frozen=True, slots=True)
class Pane:
    """A rectangle a view is drawn in.

    Attributes:
        left, top, width, height: Of it [px].
        letters: Size of its words [px].
        figured: Whether its figures stand in it.
    """

    left: float
    top: float
    width: float
    height: float
    letters: float
    figured: bool = False


@dataclass(frozen=True, slots=True)
class _To:
    """From metres to the pane."""

    scale: float
    origin: Point

    def at(self, x_m: float, z_m: float) -> Point:
        return self.origin[0] + x_m * self.scale, self.origin[1] - z_m * self.scale


def view(which: Which, answer: Answer, tilts: Tilts, style: Style, ink: Ink, pane: Pane, tilt_deg: float) -> str:  # fmt: skip
    """One of the three, without the numbers of the sums."""
    draw = {"side": _side, "front": _front, "plan": _plan}[which]
    return "".join(draw(answer, tilts, style, ink, pane, tilt_deg))


def _say(ink: Ink, pane: Pane, at: Point, words: str, anchor: str = "middle", colour: str | None = None) -> str:  # fmt: skip
    return tag("text", words, x=at[0], y=at[1], fill=colour or ink.ink, font_family=ink.face, font_size=pane.letters, text_anchor=anchor, stroke=ink.paper, stroke_width=4.0, paint_order="stroke")  # fmt: skip


def _side(answer: Answer, _tilts: Tilts, _style: Style, ink: Ink, pane: Pane, tilt_deg: float) -> Iterator[str]:  # fmt: skip
    g = answer.geometry
    top_m = g.hinge_height_m + g.upper_m + g.glass_above_m
    scale = min((pane.width - 20.0) / (2.2 * g.upper_m), (pane.height - pane.letters * 1.6) / top_m)
    to = _To(scale, (pane.left + pane.width / 2.0, pane.top + pane.height - pane.letters * 0.8))
    half = answer.pipe.outside_m / 2.0
    top = g.hinge_height_m - g.pole_top_below_m
    yield polygon([to.at(x, z) for x, z in ((-half, 0.0), (-half, top), (half, top), (half, 0.0))], ink.paper, ink.ink, 1.2)  # fmt: skip
    body = [to.at(x, z + g.hinge_height_m) for x, z in outline(g, tilt_deg)]
    yield polygon(body, ink.paper, ink.ink, 1.2) + stroke(smooth(body[:2]), ink.ink, 2.5)
    yield line((pane.left + 4.0, to.origin[1]), (pane.left + pane.width - 4.0, to.origin[1]), ink.ink, 2.5)  # fmt: skip


def _heights(g: Geometry, tilt_deg: float) -> tuple[float, float]:
    """Low and upper edge of the glass over the ground."""
    low, high = (chord_point(tilt_deg, along, g.glass_above_m)[1] for along in (-g.lower_m, g.upper_m))  # fmt: skip
    return g.hinge_height_m + low, g.hinge_height_m + high


def _front(answer: Answer, tilts: Tilts, style: Style, ink: Ink, pane: Pane, tilt_deg: float) -> Iterator[str]:  # fmt: skip
    """Seen from the sun side, upright on the ground."""
    g, setting = answer.geometry, tilts.setting
    tallest = g.hinge_height_m + max(_heights(g, t)[1] - g.hinge_height_m for t in (g.steepest_tilt_deg, tilt_deg))  # fmt: skip
    sides = 150.0 if pane.figured else 26.0
    scale = min((pane.width - 2.0 * sides) / g.width_m, (pane.height - pane.letters * (5.6 if pane.figured else 1.6)) / tallest)  # fmt: skip
    to = _To(scale, (pane.left + pane.width / 2.0, pane.top + pane.height - pane.letters * (3.2 if pane.figured else 0.8)))  # fmt: skip
    half, top = answer.pipe.outside_m / 2.0, g.hinge_height_m - g.pole_top_below_m
    yield polygon([to.at(x, z) for x, z in ((-half, 0.0), (-half, top), (half, top), (half, 0.0))], ink.paper, ink.ink, 1.2)  # fmt: skip
    side_m, up_m = setting.module_sides_m
    centres = [mass.along_m for mass in g.masses if mass.name.startswith("modules")]
    gap = setting.array.gap_m
    s, c = sin(radians(tilt_deg)), cos(radians(tilt_deg))
    base = g.hinge_height_m + g.glass_above_m * c
    for n in range(setting.array.columns):
        x = -g.width_m / 2.0 + n * (side_m + gap)
        for middle in centres:
            low, high = base + (middle - up_m / 2.0) * s, base + (middle + up_m / 2.0) * s
            shape = [to.at(a, b) for a, b in ((x, low), (x + side_m, low), (x + side_m, high), (x, high))]  # fmt: skip
            yield polygon(shape, ink.paper, ink.ink, 1.2)
    yield line((pane.left + 4.0, to.origin[1]), (pane.left + pane.width - 4.0, to.origin[1]), ink.ink, 2.5)  # fmt: skip
    low, high = _heights(g, tilt_deg)
    if not pane.figured:
        return
    edge = float(lowest_edge_m(g, np.array(tilt_deg)))
    right = g.width_m / 2.0
    yield from _across(
        ink, pane, to, style, (-right, high), (right, high), sawn_m(g.width_m, style)
    )
    yield from _upright(ink, pane, to, style, right, 0.0, high, high, 44.0)
    yield from _upright(ink, pane, to, style, -right, 0.0, edge, edge, -44.0)
    yield _say(ink, pane, (to.origin[0], to.origin[1] + pane.letters * 1.6), f"seen from the sun side at {tilt_deg:.0f}°", colour=ink.pencil)  # fmt: skip


def _plan(answer: Answer, tilts: Tilts, style: Style, ink: Ink, pane: Pane, tilt_deg: float) -> Iterator[str]:  # fmt: skip
    """From above; the glass looks down the page."""
    g, setting = answer.geometry, tilts.setting
    to_sun, away = _swept_m(g)
    sides = 150.0 if pane.figured else 16.0
    scale = min((pane.width - 2.0 * sides - (0.0 if pane.figured else 28.0)) / g.width_m, (pane.height - pane.letters * (6.5 if pane.figured else 2.6)) / (to_sun + away))  # fmt: skip
    to = _To(scale, (pane.left + pane.width / 2.0 + (0.0 if pane.figured else 14.0), pane.top + pane.letters * (2.6 if pane.figured else 0.6) + away * scale))  # fmt: skip
    half = g.width_m / 2.0
    swept = [to.at(x, z) for x, z in ((-half, away), (half, away), (half, -to_sun), (-half, -to_sun))]  # fmt: skip
    yield polygon(swept, "none", ink.pencil, 1.0, "12 3 2 3")
    s, c = sin(radians(tilt_deg)), cos(radians(tilt_deg))
    side_m, up_m = setting.module_sides_m
    for n in range(setting.array.columns):
        x = -half + n * (side_m + setting.array.gap_m)
        for mass in g.masses:
            if not mass.name.startswith("modules"):
                continue
            ends = [(mass.along_m + k * up_m / 2.0) * c - g.glass_above_m * s for k in (-1.0, 1.0)]
            shape = [to.at(a, b) for a, b in ((x, ends[0]), (x + side_m, ends[0]), (x + side_m, ends[1]), (x, ends[1]))]  # fmt: skip
            yield polygon(shape, ink.paper, ink.ink, 1.2)
    for radius, dash in ((answer.pier.diameter_m / 2.0, "8 3"), (answer.pipe.outside_m / 2.0, None)):  # fmt: skip
        yield tag("circle", cx=to.origin[0], cy=to.origin[1], r=radius * scale, fill="none", stroke=ink.ink, stroke_width=1.0, stroke_dasharray=dash)  # fmt: skip
    yield line(to.at(-half - 0.2, 0.0), to.at(half + 0.2, 0.0), ink.pencil, 1.0, "12 3 2 3")
    yield _north(ink, pane, setting.mount.facing_deg)
    if not pane.figured:
        return
    far = g.upper_m * c - g.glass_above_m * s
    near = g.lower_m * c + g.glass_above_m * s
    yield from _across(ink, pane, to, style, (-half, away), (half, away), sawn_m(g.width_m, style))
    yield from _upright(ink, pane, to, style, half, -near, far, near + far, 44.0)
    yield from _upright(ink, pane, to, style, -half, -to_sun, away, to_sun + away, -44.0)
    x, y = to.at(0.0, -to_sun)
    words = (
        f"sun side ({sun_side_of(setting.place.latitude_deg)}); dash and dot: all the travel sweeps"
    )
    yield _say(ink, pane, (x, y + pane.letters * 2.2), words, colour=ink.pencil)


_swept_m = lru_cache(maxsize=8)(swept_m)  # the same for every tilt


def _north(ink: Ink, pane: Pane, facing_deg: float) -> str:
    t = radians(180.0 - facing_deg)
    long = 15.0 if not pane.figured else 26.0
    x, y = pane.left + (10.0 if not pane.figured else 44.0), pane.top + (26.0 if not pane.figured else 60.0)  # fmt: skip
    ux, uy = sin(t), -cos(t)
    head = (x + ux * long, y + uy * long)
    wing = [(head[0] - 7.0 * ux + k * 3.2 * uy, head[1] - 7.0 * uy - k * 3.2 * ux) for k in (-1.0, 1.0)]  # fmt: skip
    shaft = line((x - ux * long * 0.6, y - uy * long * 0.6), head, ink.ink, 1.0)
    return shaft + polygon([head, *wing], ink.ink) + _say(ink, pane, (x - ux * long - 0.0, y - uy * (long + 2.0) + 4.0), "N")  # fmt: skip


def _across(ink: Ink, pane: Pane, to: _To, style: Style, a: Point, b: Point, value: float) -> Iterator[str]:  # fmt: skip
    (x1, y), (x2, _) = to.at(*a), to.at(*b)
    y -= pane.letters * 1.5
    yield line((x1, y), (x2, y), ink.pencil, 1.0)
    for x in (x1, x2):
        yield line((x - 3.5, y + 3.5), (x + 3.5, y - 3.5), ink.ink, 1.5)
    yield _say(ink, pane, ((x1 + x2) / 2.0, y + pane.letters * 0.35), dimension(value, style, 2))


def _upright(ink: Ink, pane: Pane, to: _To, style: Style, x_m: float, z1: float, z2: float, value: float, off: float) -> Iterator[str]:  # fmt: skip
    (x, y1), (_, y2) = to.at(x_m, z1), to.at(x_m, z2)
    far = x + off
    for y in (y1, y2):
        yield line((x + off * 0.1, y), (far + off * 0.12, y), ink.pencil, 1.0)
        yield line((far - 3.5, y + 3.5), (far + 3.5, y - 3.5), ink.ink, 1.5)
    yield line((far, y1), (far, y2), ink.pencil, 1.0)
    anchor = "start" if off > 0 else "end"
    yield _say(ink, pane, (far + (8.0 if off > 0 else -8.0), (y1 + y2) / 2.0 + pane.letters * 0.35), dimension(value, style, 2), anchor)  # fmt: skip
