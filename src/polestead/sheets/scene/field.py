"""The drawing's field: its width class, its one scale over the whole travel, and how ink is laid on it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from html import escape
from math import cos, radians, sin

from polestead.answer.answer import Answer
from polestead.answer.tilts import Tilts
from polestead.base.show import Style
from polestead.sheets.drawn.common import chord_point
from polestead.sheets.svg import Ink, Point, tag

ARC_OFF_PX = 34.0
RIM_PX_PER_M_S = 0.5 / 0.44704  # half a pixel for each mile an hour
RIM_MOST_PX = {"wide": 92.0, "paper": 76.0, "mid": 76.0, "narrow": 44.0}
HEAVY = 1.12  # of a heavy letter's width over a plain one's
FAR_LIMIT_M = 1.2  # a height limit higher than this over the top is told, not drawn
PERSON_M = 1.727  # 5 ft 8 in


@dataclass(frozen=True, slots=True)
class Size:
    """A width class.

    Attributes:
        name: ``wide``, ``mid``, ``narrow``, or ``paper``, which is as a landscape sheet is with a title block under it.
        width, height: Of the field [px].
        numbers: So many stand on the drawing.
        large: Whether letters are large.
    """

    name: str
    width: float
    height: float
    numbers: int
    large: bool = False

    @property
    def letters(self) -> float:
        """Size of the letters [px]."""
        return 17.0 if self.large else 13.0

    @property
    def with_views(self) -> bool:
        """Whether the two small views stand in the field."""
        return self.name in ("wide", "paper")

    @property
    def keyed(self) -> bool:
        """Whether numbers stand as ringed keys, written out beneath."""
        return self.name == "narrow"


SIZES = {
    "wide": Size("wide", 802.0, 620.0, 9),
    "mid": Size("mid", 720.0, 560.0, 7),
    "narrow": Size("narrow", 358.0, 400.0, 5),
    "paper": Size("paper", 1000.0, 480.0, 9),
}


def size_named(name: str, large: bool = False) -> Size:
    """A width class by its name, its letters large or not.

    Raises:
        KeyError: No such class.
    """
    plain = SIZES[name]
    return Size(plain.name, plain.width, plain.height, min(plain.numbers, 6), True) if large and name != "paper" else plain  # fmt: skip


@dataclass(frozen=True, slots=True)
class Field:
    """From metres in the side view to pixels, and what is drawn there.

    Attributes:
        answer, tilts, style, ink, size: What is drawn, how.
        scale: Pixels for a metre.
        hinge: Where the hinge axis is.
        ground_y: Where the ground is.
        rail: Left edge of the words on the right rail.
        rim_px_per_m_s: Height of the wind arc's rim.
    """

    answer: Answer
    tilts: Tilts
    style: Style
    ink: Ink
    size: Size
    scale: float
    hinge: Point
    ground_y: float
    rail: float
    rim_px_per_m_s: float

    def at(self, x_m: float, z_m: float) -> Point:
        """A point x away from the sun side and z over the ground."""
        return self.hinge[0] + x_m * self.scale, self.ground_y - z_m * self.scale

    def on_array(self, tilt_deg: float, along_m: float, above_m: float) -> Point:
        """A point of what tips."""
        x, z = chord_point(tilt_deg, along_m, above_m)
        return self.hinge[0] + x * self.scale, self.hinge[1] - z * self.scale

    @property
    def radius(self) -> float:
        """Of the wind arc, where the handle runs [px]."""
        return self.answer.geometry.upper_m * self.scale + ARC_OFF_PX

    def on_arc(self, tilt_deg: float, out_px: float = 0.0) -> Point:
        """A point of the wind arc or over it."""
        t, far = radians(tilt_deg), self.radius + out_px
        return self.hinge[0] + far * cos(t), self.hinge[1] - far * sin(t)

    def rim(self, gust_m_s: float) -> float:
        """Height of the rim for a gust [px]."""
        return gust_m_s * self.rim_px_per_m_s

    def under(self, other: Field) -> Field:
        """Another state of the same place at this one's scale, its ground on this one's ground."""
        hinge = (self.hinge[0], self.ground_y - other.answer.geometry.hinge_height_m * self.scale)
        return replace(self, answer=other.answer, tilts=other.tilts, hinge=hinge)

    def id(self, name: str) -> str:
        """A name of its own among the drawings of a page."""
        return f"{self.size.name}-{name}"

    @property
    def most_letters(self) -> int:
        """That a line on the right rail may have."""
        return int((self.size.width - self.rail - 8.0) / (self.size.letters * self.ink.letter * HEAVY))  # fmt: skip


def field_of(answer: Answer, tilts: Tilts, style: Style, ink: Ink, size: Size) -> Field:
    """One scale, fitted once to the union of everything over the whole travel."""
    g, under_m = answer.geometry, answer.pier.depth_m + 0.2
    fastest = max(
        *(row.stands_to_m_s for row in answer.stand.card), answer.stand.code_gust_m_s, 1.0
    )
    per = min(RIM_PX_PER_M_S, RIM_MOST_PX[size.name] / fastest)
    rail = {"wide": 540.0 if size.large else 584.0, "mid": 452.0 if size.large else 512.0, "paper": size.width - 230.0}.get(size.name, size.width - 44.0)  # fmt: skip
    left = 46.0 if size.keyed else (178.0 if size.large else 150.0)
    over_px = 14.0 if size.keyed else 20.0
    steep = sin(radians(g.steepest_tilt_deg))
    around_px = ARC_OFF_PX + fastest * per
    top_m = max(g.upper_m * steep, 0.5)
    limit_m = drawn_limit_m(tilts)
    by_height = (size.height - over_px - around_px * steep - 14.0) / (g.hinge_height_m + under_m + top_m)  # fmt: skip
    if limit_m is not None:
        by_height = min(by_height, (size.height - over_px - 30.0) / (limit_m + under_m))
    room = rail - 14.0 - left - around_px - 24.0
    scale = min(by_height, room / (g.upper_m + g.lower_m))
    reach_px = g.upper_m * scale + around_px
    hinge_x = rail - 14.0 - reach_px
    if size.name in ("narrow", "paper"):  # in the middle of what keys and words leave
        spare = hinge_x - g.lower_m * scale - left
        hinge_x -= spare / 2.0
    ground_y = size.height - 14.0 - under_m * scale
    hinge = (hinge_x, ground_y - g.hinge_height_m * scale)
    return Field(answer, tilts, style, ink, size, scale, hinge, ground_y, rail, per)


def views_places(field: Field) -> tuple[tuple[float, float, float, float], ...]:
    """Left, top, width, height of the two small views: lower right, in the ground beside the pier; none but in a wide field."""
    if not field.size.with_views:
        return ()
    figure_px = 30.0 + 9.0 * field.size.letters * field.ink.letter  # the pier's depth at its side
    free_px = field.size.width - 24.0 - figure_px - field.at(field.answer.pier.diameter_m / 2.0, 0.0)[0]  # fmt: skip
    top, wide = field.ground_y + 18.0, min(150.0 if field.size.large else 158.0, free_px / 2.0)
    lefts = (field.size.width - 16.0 - beside * (wide + 8.0) for beside in (2, 1))
    return tuple((left, top, wide, field.size.height - top - 38.0) for left in lefts)


def drawn_limit_m(tilts: Tilts) -> float | None:
    """The permit's height limit, where it lies near enough to be drawn."""
    limit, top = tilts.setting.place.height_limit_m, max(one.top_height_m for one in tilts.at)
    return limit if limit is not None and limit < top + FAR_LIMIT_M else None


def words_at(
    field: Field,
    at: Point,
    words: str,
    colour: str | None = None,
    anchor: str = "start",
    heavy: bool = False,
    size: float | None = None,
) -> str:
    """A line of words with a gap of paper about it, so that lines break where they pass it."""
    return tag(
        "text", escape(words, quote=False), x=at[0], y=at[1], fill=colour or field.ink.ink, font_family=field.ink.face,
        font_size=size or field.size.letters, text_anchor=None if anchor == "start" else anchor,
        font_weight="600" if heavy else None, stroke=field.ink.paper, stroke_width=4.0, stroke_linejoin="round",
        paint_order="stroke",
    )  # fmt: skip


def group(name: str | None, parts: Iterable[str], **attributes: object) -> str:
    """Parts under a name."""
    return tag("g", "".join(parts) or " ", id=name, **attributes)


def smooth(points: Iterable[Point], closed: bool = False) -> str:
    """The `d` of a path through points."""
    drawn = "L".join(f"{x:.1f} {y:.1f}" for x, y in points)
    return f"M{drawn}{'Z' if closed else ''}"


def stroke(d: str, colour: str, width: float = 1.0, dash: str | None = None, fill: str = "none") -> str:  # fmt: skip
    """A path."""
    return tag("path", d=d, fill=fill, stroke=colour, stroke_width=width, stroke_dasharray=dash, stroke_linejoin="round", stroke_linecap="round")  # fmt: skip
