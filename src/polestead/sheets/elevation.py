"""The side elevation: pole, pier, array over its travel, the wind arc; numbers on leaders where the thing is."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import cos, radians, sin

import numpy as np

from polestead.answer.answer import Answer
from polestead.base.show import Style, dimension, gust, gust_asked
from polestead.mount.geometry import lowest_edge_m, top_height_m
from polestead.sheets.sentences import use_of
from polestead.sheets.svg import (
    Ink,
    Label,
    Point,
    drawing,
    hatch,
    label_boxes,
    line,
    polygon,
    polyline,
    tag,
    text,
)

RIM_PX_PER_M_S = 0.5 / 0.44704  # half a pixel for each mile an hour
ARC_OFF_PX = 34.0
LETTERS = 31  # kept free for labels on either side


@dataclass(frozen=True, slots=True)
class Frame:
    """From metres in the side view to pixels."""

    width: float
    height: float
    scale: float
    hinge: Point
    ground_y: float
    rail: float
    own: str  # before the names of its fills, so that two drawings on one page keep theirs apart

    def at(self, x_m: float, z_m: float) -> Point:
        """A point x away from the sun side and z over the ground."""
        return self.hinge[0] + x_m * self.scale, self.ground_y - z_m * self.scale


def elevation(
    answer: Answer,
    style: Style,
    tilt_deg: float,
    ink: Ink,
    width: float = 802.0,
    height: float = 424.0,
    size: float = 14.0,
) -> str:
    """The drawing at one tilt."""
    frame = _frame(answer, width, height, LETTERS * size * ink.letter, "side")
    parts = [
        *_body(answer, frame, ink, tilt_deg, size),
        *_labels(answer, style, frame, ink, tilt_deg, size),
    ]
    words = "; ".join(
        " ".join(label.words) for label in _label_list(answer, style, frame, tilt_deg)
    )
    return drawing(width, height, _defs(ink, frame.own), parts, _title(answer, tilt_deg), words)


def _title(answer: Answer, tilt_deg: float) -> str:
    return f"{answer.name}, side view at {tilt_deg:.0f} degrees"


def _defs(ink: Ink, own: str) -> str:
    return (
        hatch(f"{own}-concrete", ink.pencil, 7.0, 20.0, dots=True)
        + hatch(f"{own}-soil", ink.ghost, 6.0, 45.0)
        + hatch(f"{own}-short", ink.rust, 4.0, 135.0)
    )


def _body(answer: Answer, frame: Frame, ink: Ink, tilt_deg: float, size: float) -> Iterator[str]:
    """Everything but the numbers."""
    side = "south" if answer.winter.start_month == 7 else "north"
    yield from _ground(answer, frame, ink)
    yield from _pole(answer, frame, ink)
    yield from _wind_arc(answer, frame, ink, size)
    yield from _array(answer, frame, ink, answer.geometry.least_tilt_deg, ghost=True)
    yield from _array(answer, frame, ink, answer.geometry.steepest_tilt_deg, ghost=True)
    yield from _array(answer, frame, ink, tilt_deg, ghost=False)
    yield text((24.0, size * 1.6), f"← sun side ({side})", ink.pencil, ink.face, size - 1.0)


def _frame(answer: Answer, width: float, height: float, rail: float, own: str) -> Frame:
    """One scale for the union of everything over the whole travel."""
    g, pier = answer.geometry, answer.pier
    rim = max((row.stands_to_m_s for row in answer.stand.card), default=0.0) * RIM_PX_PER_M_S
    reach_m = max(g.upper_m, g.lower_m)
    over_px, under_m = ARC_OFF_PX + rim + 14.0, pier.depth_m + 0.25
    scale = (height - over_px - 8.0) / (g.hinge_height_m + reach_m + under_m)
    side = (width - 2.0 * rail - rim - ARC_OFF_PX) / (2.2 * reach_m)
    scale = min(scale, side)
    ground_y = height - 8.0 - under_m * scale
    hinge = (rail + reach_m * scale * 1.05, ground_y - g.hinge_height_m * scale)
    return Frame(width, height, scale, hinge, ground_y, rail, own)


def _ground(answer: Answer, frame: Frame, ink: Ink) -> Iterator[str]:
    pier, y = answer.pier, frame.ground_y
    yield line((0.0, y), (frame.width, y), ink.ink, 2.5)
    half = pier.diameter_m / 2.0
    corners = [
        frame.at(x, z)
        for x, z in (
            (-half, pier.collar_m),
            (half, pier.collar_m),
            (half, -pier.depth_m),
            (-half, -pier.depth_m),
        )
    ]
    reach = half + 0.5
    soil = [
        frame.at(x, z)
        for x, z in (
            (-reach, 0.0),
            (reach, 0.0),
            (reach, -pier.depth_m - 0.2),
            (-reach, -pier.depth_m - 0.2),
        )
    ]
    yield polygon(soil, f"url(#{frame.own}-soil)")
    yield polygon(corners, ink.paper)
    yield polygon(corners, f"url(#{frame.own}-concrete)")
    yield polygon(corners, "none", ink.ink, 2.5)


def _pole(answer: Answer, frame: Frame, ink: Ink) -> Iterator[str]:
    half = answer.pipe.outside_m / 2.0
    top = answer.geometry.hinge_height_m - answer.geometry.pole_top_below_m
    foot = -answer.pier.pole_depth_m
    above = [
        frame.at(x, z)
        for x, z in (
            (-half, answer.pier.collar_m),
            (-half, top),
            (half, top),
            (half, answer.pier.collar_m),
        )
    ]
    yield polygon(above, ink.paper)
    yield polyline(above, ink.ink, 1.8)
    for x in (-half, half):
        yield line(frame.at(x, answer.pier.collar_m), frame.at(x, foot), ink.ink, 1.0, "8 3")
    yield line(frame.at(0.0, top + 0.15), frame.at(0.0, foot - 0.1), ink.pencil, 0.8, "12 3 2 3")


def _array(answer: Answer, frame: Frame, ink: Ink, tilt_deg: float, ghost: bool) -> Iterator[str]:
    g, t = answer.geometry, radians(tilt_deg)
    back = g.glass_above_m - g.depth_m

    def point(along: float, above: float) -> Point:
        return frame.at(
            along * cos(t) - above * sin(t), g.hinge_height_m + along * sin(t) + above * cos(t)
        )

    face = [point(-g.lower_m, g.glass_above_m), point(g.upper_m, g.glass_above_m)]
    outline = [*face, point(g.upper_m, back), point(-g.lower_m, back)]
    if ghost:
        yield polygon(outline, "none", ink.ghost, 1.0, "8 3")
        return
    yield polygon(outline, ink.paper, ink.ink, 1.5)
    yield polyline(face, ink.ink, 3.0)
    yield line(frame.at(0.0, g.hinge_height_m), point(0.0, back), ink.ink, 2.0)
    yield tag(
        "circle",
        cx=frame.hinge[0],
        cy=frame.hinge[1],
        r=4.5,
        fill=ink.paper,
        stroke=ink.ink,
        stroke_width=2.0,
    )


def _wind_arc(answer: Answer, frame: Frame, ink: Ink, size: float) -> Iterator[str]:
    """Around the hinge, in the quadrant away from the sun: the rim's height is what each tilt stands to."""
    base = answer.geometry.upper_m * frame.scale + ARC_OFF_PX
    code = answer.stand.code_gust_m_s * RIM_PX_PER_M_S

    def on(tilt: float, out: float) -> Point:
        return frame.hinge[0] + (base + out) * cos(radians(tilt)), frame.hinge[1] - (
            base + out
        ) * sin(radians(tilt))

    card = answer.stand.card
    if not card:
        return
    arc = [on(row.tilt_deg, 0.0) for row in card]
    rim = [on(row.tilt_deg, row.stands_to_m_s * RIM_PX_PER_M_S) for row in card]
    limit = [on(row.tilt_deg, code) for row in card]
    inside = [on(row.tilt_deg, min(code, row.stands_to_m_s * RIM_PX_PER_M_S)) for row in card]
    yield polygon([*limit, *reversed(inside)], f"url(#{frame.own}-short)")
    yield polyline(arc, ink.ink, 1.0)
    yield polyline(rim, ink.ink, 1.5)
    yield polyline(limit, ink.pencil, 1.0, "10 3 2 3")
    for row in card:
        if round(row.tilt_deg) % 15 == 0:
            yield line(on(row.tilt_deg, 0.0), on(row.tilt_deg, -7.0), ink.ink, 1.0)
        if round(row.tilt_deg) % 30 == 0:
            x, y = on(row.tilt_deg, -21.0)
            yield text(
                (x, y + 4.0), f"{row.tilt_deg:.0f}°", ink.pencil, ink.face, size - 2.0, "middle"
            )


def _label_list(answer: Answer, style: Style, frame: Frame, tilt_deg: float) -> list[Label]:
    g, stand, pier = answer.geometry, answer.stand, answer.pier
    here = min(stand.card, key=lambda row: abs(row.tilt_deg - tilt_deg))
    steepest = np.array([g.steepest_tilt_deg])
    t = radians(tilt_deg)
    out = g.upper_m * frame.scale + ARC_OFF_PX + here.stands_to_m_s * RIM_PX_PER_M_S
    rim = (frame.hinge[0] + out * cos(t), frame.hinge[1] - out * sin(t))
    s = radians(g.steepest_tilt_deg)
    low = frame.at(
        -g.lower_m * cos(s) - g.glass_above_m * sin(s), float(lowest_edge_m(g, steepest)[0])
    )
    top = frame.at(
        g.upper_m * cos(s) - g.glass_above_m * sin(s), float(top_height_m(g, steepest)[0])
    )
    uses = {check.part: use_of(check.use) for check in stand.checks}
    labels = [
        Label((f"at {tilt_deg:.0f}° it stands to {gust(here.stands_to_m_s, style)}", f"first: {here.gives_first}"), rim, False, True),
        Label((f"top {dimension(float(top_height_m(g, steepest)[0]), style, 1)} at {g.steepest_tilt_deg:.0f}°",), top, True),
        Label((f"lowest edge {dimension(float(lowest_edge_m(g, steepest)[0]), style, 1)}", f"at {g.steepest_tilt_deg:.0f}°"), low, True),
        Label((f"hinge {dimension(g.hinge_height_m, style)} up",), frame.hinge, True),
        Label((answer.pipe.written, uses.get("pole at the collar", "")), frame.at(answer.pipe.outside_m / 2.0, g.hinge_height_m * 0.42), False),
        Label(("pole below the ground", uses.get("pole below the ground", "")), frame.at(answer.pipe.outside_m / 2.0, -pier.depth_m * 0.35), False),
        Label((f"pier {dimension(pier.diameter_m, style)} x {dimension(pier.depth_m, style)}", uses.get("pier in the soil", "")), frame.at(-pier.diameter_m / 2.0, -pier.depth_m * 0.6), True),
        Label((f"code's wind {gust_asked(stand.code_gust_m_s, style)}", "on the same scale"), _code_end(answer, frame), False),
    ]  # fmt: skip
    return [
        Label(tuple(word for word in label.words if word), label.at, label.left, label.strong)
        for label in labels
    ]


def _code_end(answer: Answer, frame: Frame) -> Point:
    least = radians(answer.geometry.least_tilt_deg)
    out = (
        answer.geometry.upper_m * frame.scale
        + ARC_OFF_PX
        + answer.stand.code_gust_m_s * RIM_PX_PER_M_S
    )
    return frame.hinge[0] + out * cos(least), frame.hinge[1] - out * sin(least)


def _labels(
    answer: Answer, style: Style, frame: Frame, ink: Ink, tilt_deg: float, size: float
) -> Iterator[str]:
    for label, y in label_boxes(_label_list(answer, style, frame, tilt_deg), frame.height, size):
        x = 24.0 if label.left else frame.width - frame.rail
        end = (
            (x + _wide(label, size, ink) + 4.0, y - size * 0.35)
            if label.left
            else (x - 5.0, y - size * 0.35)
        )
        elbow = (label.at[0] + (-14.0 if label.left else 14.0), end[1])
        yield polyline([end, elbow, label.at], ink.pencil, 0.8)
        yield tag("circle", cx=label.at[0], cy=label.at[1], r=2.0, fill=ink.pencil)
        for nth, words in enumerate(label.words):
            strong = label.strong and nth == 0
            colour = ink.rust if words.startswith("gives") else ink.ink if nth == 0 else ink.pencil
            yield text(
                (x, y + nth * size * 1.25),
                words,
                colour,
                ink.face,
                size,
                weight="600" if strong else None,
            )


def _wide(label: Label, size: float, ink: Ink) -> float:
    """Width of the first line, about."""
    return len(label.words[0]) * size * ink.letter
