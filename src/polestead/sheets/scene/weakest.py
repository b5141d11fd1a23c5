"""The part that gives first, inked over in rust; broken where it gives; hatched across where two things meet."""

from __future__ import annotations

from collections.abc import Iterator
from math import cos, radians, sin

from polestead.sheets.scene.field import Field, smooth, stroke
from polestead.sheets.scene.said import place_of_part
from polestead.sheets.svg import Point, polygon, tag

RUST_PX = 2.5


def weakest(field: Field, tilt_deg: float) -> Iterator[str]:
    """At one tilt."""
    here = field.tilts.place_of(tilt_deg)
    name = field.answer.stand.card[here].gives_first
    for points in _outline(field, name, tilt_deg):
        yield stroke(smooth(points), field.ink.rust, RUST_PX)
    if "hinge" in name:
        yield tag("circle", cx=field.hinge[0], cy=field.hinge[1], r=9.0, fill="none", stroke=field.ink.rust, stroke_width=RUST_PX)  # fmt: skip
    if dict(field.tilts.at[here].uses).get(name, 0.0) > 1.0:
        yield _break(field, place_of_part(field, name, tilt_deg))


def _outline(field: Field, name: str, tilt_deg: float) -> Iterator[list[Point]]:
    """Lines of the part."""
    g, pier, setting = field.answer.geometry, field.answer.pier, field.tilts.setting
    half, beam = field.answer.pipe.outside_m / 2.0, setting.beam

    def on(along: float, above: float) -> Point:
        return field.on_array(tilt_deg, along, above)

    if "storm hold" in name:
        return
    if "modules" in name or "clamps" in name:
        yield [on(-g.lower_m, g.glass_above_m), on(g.upper_m, g.glass_above_m)]
    elif "rails" in name:
        yield [on(-g.lower_m, g.glass_above_m - g.depth_m), on(g.upper_m, g.glass_above_m - g.depth_m)]  # fmt: skip
    elif "strongback" in name:
        across, low, high = beam.breadth_m / 2.0, g.beam_clear_m - beam.depth_m, g.beam_clear_m
        yield [on(-across, low), on(across, low), on(across, high), on(-across, high), on(-across, low)]  # fmt: skip
    elif any(word in name for word in ("below the ground", "in its concrete", "under the pole")):
        for x in (-half, half):
            yield [field.at(x, 0.0), field.at(x, -pier.pole_depth_m)]
    elif "pier" in name or "soil" in name:
        wide = pier.diameter_m / 2.0
        yield [field.at(-wide, 0.0), field.at(-wide, -pier.depth_m), field.at(wide, -pier.depth_m), field.at(wide, 0.0)]  # fmt: skip
    elif name.startswith("pole"):
        top = g.hinge_height_m - g.pole_top_below_m
        for x in (-half, half):
            yield [field.at(x, pier.collar_m), field.at(x, top)]


def _break(field: Field, at: Point) -> str:
    x, y = at
    return stroke(f"M{x - 9.0:.1f} {y:.1f}l4 -5l4 10l4 -10l4 10l3 -5", field.ink.paper, 6.0) + stroke(f"M{x - 9.0:.1f} {y:.1f}l4 -5l4 10l4 -10l4 10l3 -5", field.ink.rust, 2.0)  # fmt: skip


def clashes(field: Field) -> Iterator[str]:
    """Where what tips meets the pole, at its worst tilt."""
    found = clash(field)
    if found is not None:
        x, y = found[0]
        box = [(x - 16, y - 16), (x + 16, y - 16), (x + 16, y + 16), (x - 16, y + 16)]
        yield polygon(box, f"url(#{field.id('clash')})")


def clash(field: Field) -> tuple[Point, str] | None:
    """Where that is, and its words."""
    for check in field.answer.stand.geometry_checks:
        if check.holds or "pole" not in check.part:
            continue
        worst = next((s.value for s in check.working.steps if s.symbol == "t"), 0.0)
        x, y = field.hinge
        drop, t = field.answer.geometry.pole_top_below_m * field.scale, radians(worst)
        words = f"{check.part.split(' and ')[0]} meets the pole at {worst:.0f}°"
        return (x - 6.0 * sin(t), y + drop + 2.0 * cos(t)), words
    return None
