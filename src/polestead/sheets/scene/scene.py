"""The drawing put together: what stands still once, what a tilt changes apart, so that the page may change that alone."""

from __future__ import annotations

from dataclasses import dataclass
from html import escape
from math import cos, radians, sin

from polestead.answer.answer import Answer
from polestead.answer.tilts import Tilts
from polestead.base.show import Style
from polestead.sheets.drawn.hatches import concrete, ground
from polestead.sheets.scene import still, tipped
from polestead.sheets.scene.field import (
    Field,
    Size,
    field_of,
    group,
    smooth,
    stroke,
    views_places,
    words_at,
)
from polestead.sheets.scene.rails import said
from polestead.sheets.scene.said import Number, Sun, numbers, slider_words
from polestead.sheets.scene.views import WHICH, Pane, Which, view
from polestead.sheets.scene.weakest import clashes, weakest
from polestead.sheets.svg import Ink, Point, polygon, tag

SMALL = Pane(0.0, 4.0, 348.0, 172.0, 13.0)
TITLES = {"side": "side view", "front": "front, from the sun side", "plan": "plan, from above"}


@dataclass(frozen=True, slots=True)
class Day:
    """The chosen day.

    Attributes:
        words: As it is said.
        noon_deg: Height of the sun.
        sun: What the array gives; None while it is being worked.
        fault: Why it could not be worked.
    """

    words: str
    noon_deg: float
    sun: Sun
    fault: str = ""


@dataclass(frozen=True, slots=True)
class Changes:
    """What one tilt changes in a drawing.

    Attributes:
        groups: New inside of each named group.
        attributes: By name of the element, its new attributes.
        told: The numbers, in their order.
        spoken: What the handle says.
    """

    groups: dict[str, str]
    attributes: dict[str, dict[str, str]]
    told: tuple[Number, ...]
    spoken: str


def scene(answer: Answer, tilts: Tilts, style: Style, ink: Ink, size: Size, tilt_deg: float, day: Day, which: Which = "side") -> tuple[str, Changes]:  # fmt: skip
    """The whole drawing at one tilt.

    Args:
        answer: Whose card it shows.
        tilts: Of the same file.
        style: Whose units.
        ink: Of the medium.
        size: Width class.
        tilt_deg: On the card.
        day: Whose sun is shown.
        which: The view that fills the field.

    Returns:
        The drawing, and what of it a tilt changes.
    """
    field = field_of(answer, tilts, style, ink, size)
    changes = changes_of(field, tilt_deg, day, which)
    body = _side(field, day, changes, tilt_deg) if which == "side" else _other(field, changes)
    if size.with_views:
        body = [*body, *(_small(field, one, changes) for one in _others(which))]
    title = f"{answer.name}, {TITLES[which]} at {tilt_deg:.0f}°"
    told = "; ".join(number.words for number in changes.told)
    return _svg(field, still.hatches(field), body, title, told, tilt_deg), changes


def changes_of(field: Field, tilt_deg: float, day: Day, which: Which = "side") -> Changes:
    """What one tilt changes, by the names of the groups that hold it."""
    told = numbers(field, tilt_deg, day.sun, day.noon_deg, day.words, day.fault)
    spoken = slider_words(field, tilt_deg)
    x, y = field.on_arc(tilt_deg)
    groups = {field.id(f"view-{one}"): _pane(field, one, tilt_deg) for one in _others(which)} if field.size.with_views else {}  # fmt: skip
    if which == "side":
        groups |= {
            field.id("rod"): "".join(tipped.rod(field, tilt_deg)),
            field.id("weakest"): "".join(weakest(field, tilt_deg)),
            field.id("said"): "".join(said(field, tilt_deg, told, day.noon_deg)),
        }
        attributes = {
            field.id("turn"): {"transform": turned(field, tilt_deg)},
            field.id("handle"): {"transform": f"translate({x:.2f} {y:.2f})", "aria-valuenow": f"{tilt_deg:g}", "aria-valuetext": spoken},
        }  # fmt: skip
    else:
        pane = Pane(20.0, 24.0, field.size.width - 40.0, field.size.height - (190.0 if field.size.with_views else 44.0), field.size.letters, not field.size.keyed)  # fmt: skip
        groups[field.id("big")] = view(which, field.answer, field.tilts, field.style, field.ink, pane, tilt_deg)  # fmt: skip
        attributes = {}
    return Changes(groups, attributes, tuple(told), spoken)


def turned(field: Field, tilt_deg: float) -> str:
    """How the array's group is turned."""
    return f"rotate({-tilt_deg:g} {field.hinge[0]:.2f} {field.hinge[1]:.2f})"


def _others(which: Which) -> tuple[Which, ...]:
    return tuple(one for one in WHICH if one != which)


def _side(field: Field, day: Day, changes: Changes, tilt_deg: float) -> list[str]:
    groups = changes.groups
    return [
        still.paper(field),
        *still.ways(field),
        *still.sun(field, day.noon_deg),
        *still.heap(field),
        *still.earth(field),
        *still.pier_figure(field),
        still.person(field),
        *still.limit(field),
        *still.wind_arc(field),
        group(field.id("press"), [_press(field)]),
        group(field.id("before"), [""], class_="before"),
        *tipped.ghosts(field),
        *still.pole(field),
        group(field.id("rod"), [groups[field.id("rod")]], class_="moves"),
        group(field.id("turn"), tipped.array_flat(field), transform=turned(field, tilt_deg)),
        *tipped.hinge(field),
        group(field.id("weakest"), [groups[field.id("weakest")]], class_="moves"),
        *clashes(field),
        group(field.id("said"), [groups[field.id("said")]], class_="said"),
        tipped.handle(field, tilt_deg, changes.spoken),
    ]


def _press(field: Field) -> str:
    """A broad band over the arc that takes a press."""
    card = field.answer.stand.card
    return tag("path", d=smooth(field.on_arc(row.tilt_deg) for row in card), fill="none", stroke="transparent", stroke_width=36.0, class_="band")  # fmt: skip


def _other(field: Field, changes: Changes) -> list[str]:
    return [still.paper(field), group(field.id("big"), [changes.groups[field.id("big")]])]


def _small(field: Field, which: Which, changes: Changes) -> str:
    """A small view, pressed to take the large one's place."""
    pane = _place(field, which)
    hit = tag("rect", x=pane.left, y=pane.top, width=pane.width, height=pane.height, fill=field.ink.paper, fill_opacity=0.001, class_="hit")  # fmt: skip
    inside = group(field.id(f"view-{which}"), [changes.groups[field.id(f"view-{which}")]])
    words = words_at(field, (pane.left + pane.width / 2.0, pane.top + pane.height + 9.0), which, field.ink.plumb, "middle")  # fmt: skip
    return tag("a", hit + inside + words, href=f"/?view={which}", data_view=which, class_="view", aria_label=f"show the {which}")  # fmt: skip


def _place(field: Field, which: Which) -> Pane:
    """Lower right, in the ground beside the pier."""
    return Pane(*views_places(field)[_others_order(which)], min(field.size.letters, 13.0))


def _others_order(which: Which) -> int:
    return 0 if which in ("side", "front") else 1


def _pane(field: Field, which: Which, tilt_deg: float) -> str:
    return view(which, field.answer, field.tilts, field.style, field.ink, _place(field, which), tilt_deg)  # fmt: skip


def standalone(answer: Answer, tilts: Tilts, style: Style, ink: Ink, tilt_deg: float, which: Which) -> str:  # fmt: skip
    """One of the views in a drawing of its own, for pages where they stand under the large one."""
    inside = group(f"small-{which}", [small_view(answer, tilts, style, ink, tilt_deg, which)])
    return tag("svg", tag("title", escape(f"{answer.name}, {TITLES[which]}")) + inside, viewBox=f"0 0 {SMALL.width:g} 180", width=f"{SMALL.width:g}", height="180", role="img")  # fmt: skip


def small_view(answer: Answer, tilts: Tilts, style: Style, ink: Ink, tilt_deg: float, which: Which) -> str:  # fmt: skip
    """What such a drawing holds at a tilt."""
    return view(which, answer, tilts, style, ink, SMALL, tilt_deg)


def ghost(field: Field, tilt_deg: float) -> str:
    """Outline of what tips, pole and pier: laid dashed under another state of the same place."""
    g, pier, half = field.answer.geometry, field.answer.pier, field.answer.pipe.outside_m / 2.0
    ink, dash = field.ink, "4 4"
    back = g.glass_above_m - g.depth_m
    body = [field.on_array(tilt_deg, a, b) for a, b in ((-g.lower_m, g.glass_above_m), (g.upper_m, g.glass_above_m), (g.upper_m, back), (-g.lower_m, back))]  # fmt: skip
    wide, top = pier.diameter_m / 2.0, g.hinge_height_m - g.pole_top_below_m
    hole = [field.at(x, z) for x, z in ((-wide, 0.0), (-wide, -pier.depth_m), (wide, -pier.depth_m), (wide, 0.0))]  # fmt: skip
    mast = [field.at(x, z) for x, z in ((-half, 0.0), (-half, top), (half, top), (half, 0.0))]
    rim = [field.on_arc(row.tilt_deg, field.rim(row.stands_to_m_s)) for row in field.answer.stand.card]  # fmt: skip
    return "".join(stroke(smooth(points, closed), ink.pencil, 1.0, dash) for points, closed in ((body, True), (hole, False), (mast, False), (rim, False)))  # fmt: skip


def _svg(field: Field, defs: str, body: list[str], title: str, told: str, tilt_deg: float) -> str:
    size, g = field.size, field.answer.geometry
    inside = tag("title", escape(title)) + tag("desc", escape(told)) + tag("defs", defs) + "".join(body)  # fmt: skip
    return tag(
        "svg", inside, xmlns="http://www.w3.org/2000/svg", id=f"scene-{size.name}", class_="scene", viewBox=f"0 0 {size.width:g} {size.height:g}",
        width=f"{size.width:g}", height=f"{size.height:g}", role="group", aria_label=title, data_width=size.name,
        data_hinge=f"{field.hinge[0]:.2f} {field.hinge[1]:.2f}", data_radius=f"{field.radius:.2f}", data_least=f"{g.least_tilt_deg:g}",
        data_steepest=f"{g.steepest_tilt_deg:g}", data_tilt=f"{tilt_deg:g}",
    )  # fmt: skip


def empty_scene(ink: Ink, size: Size) -> str:
    """Nothing to draw from yet: glass, pole and pier in dashes, tilted at 45, no wind arc; each number says so at its place."""
    w, h, name = size.width, size.height, f"{size.name}-empty"
    x, ground_y, top = w * 0.45, h * 0.7, h * 0.38
    away, thick = h * 0.19 * sin(radians(45.0)), 7.0 * cos(radians(45.0))
    low, high = (x - away, top + away), (x + away, top - away)
    back = [(high[0] + thick, high[1] + thick), (low[0] + thick, low[1] + thick)]
    pier = [(x - 26.0, ground_y), (x - 26.0, h * 0.92), (x + 26.0, h * 0.92), (x + 26.0, ground_y)]
    mast = [(x - 8.0, ground_y), (x - 8.0, top + 12.0), (x + 8.0, top + 12.0), (x + 8.0, ground_y)]
    body = tag("defs", still.ruling(f"{name}-ruling", ink) + concrete(f"{name}-concrete", ink))
    body += tag("rect", width=w, height=h, fill=f"url(#{name}-ruling)")
    body += "".join(ground(ink, 0.0, w, ground_y, [(x - 26.0, x + 26.0)]))
    body += polygon(pier, ink.paper) + polygon(pier, f"url(#{name}-concrete)")
    for points, closed in ((pier, False), (mast, False), ([low, high, *back], True)):
        body += stroke(smooth(points, closed), ink.edge, 1.5, "8 5")
    body += tag("circle", cx=x, cy=top, r=5.0, fill=ink.paper, stroke=ink.edge, stroke_width=1.5)
    right, left = w * 0.71, 16.0
    body += _not_yet(ink, size, "lowest edge", (left, h * 0.36), (low[0] - 6.0, low[1] - 2.0))
    for words, y, end in (
        ("stands to", h * 0.14, (high[0] + 8.0, high[1] - 2.0)), ("first gives", h * 0.34, (x + 8.0, top)),
        ("pole uses", h * 0.54, (x + 12.0, h * 0.54)), ("pier uses", h * 0.82, (x + 30.0, h * 0.82)),
    ):  # fmt: skip
        body += _not_yet(ink, size, words, (right, y), end)
    return tag("svg", tag("title", "Nothing to draw yet") + body, id=f"scene-{size.name}", class_="scene", viewBox=f"0 0 {w:g} {h:g}", width=f"{w:g}", height=f"{h:g}", role="img")  # fmt: skip


def _not_yet(ink: Ink, size: Size, words: str, at: Point, end: Point) -> str:
    """What will be told, where it will stand, and a leader to what it is of."""
    wide = len(words) * size.letters * ink.letter
    start = at[0] - 6.0 if end[0] < at[0] else at[0] + wide + 6.0
    say = {"font_family": ink.face, "font_size": size.letters, "fill": ink.pencil}
    leader = stroke(smooth([(start, at[1]), end]), ink.edge, 1.0)
    return leader + tag("text", words, x=at[0], y=at[1] + 4.0, **say) + tag("text", "not yet", x=at[0], y=at[1] + 4.0 + size.letters * 1.35, **say)  # fmt: skip
