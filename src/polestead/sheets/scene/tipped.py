"""What tips: glass, frame, strongback, rod and storm hold; its ghosts at both ends of the travel."""

from __future__ import annotations

from collections.abc import Iterator
from math import hypot

from polestead.sheets.drawn.common import outline
from polestead.sheets.scene.field import Field, smooth, stroke
from polestead.sheets.svg import Point, polygon, tag


def ghosts(field: Field) -> Iterator[str]:
    """Where it stands flattest and steepest."""
    g = field.answer.geometry
    for tilt in (g.least_tilt_deg, g.steepest_tilt_deg):
        yield polygon(body(field, tilt), "none", field.ink.edge, 1.0, "5 4")


def body(field: Field, tilt_deg: float) -> list[Point]:
    """Corners of what tips."""
    g = field.answer.geometry
    return [(field.hinge[0] + x * field.scale, field.hinge[1] - z * field.scale) for x, z in outline(g, tilt_deg)]  # fmt: skip


def array_flat(field: Field) -> Iterator[str]:
    """The array laid flat; the page turns it about the hinge."""
    g, ink, setting = field.answer.geometry, field.ink, field.tilts.setting
    beam, half = setting.beam, setting.beam.breadth_m / 2.0
    yield polygon(body(field, 0.0), ink.paper)
    back = g.glass_above_m - g.depth_m
    module = setting.array.module.thickness_m
    rows = _rows(field)
    for low, high in rows:
        frame = [field.on_array(0.0, a, b) for a, b in ((low, g.glass_above_m), (high, g.glass_above_m), (high, g.glass_above_m - module), (low, g.glass_above_m - module))]  # fmt: skip
        yield polygon(frame, ink.paper, ink.ink, 1.0)
        yield stroke(smooth(frame[:2]), ink.ink, 3.5)
    rail = [field.on_array(0.0, a, b) for a, b in ((-g.lower_m, back + 0.02), (g.upper_m, back + 0.02), (g.upper_m, g.glass_above_m - module), (-g.lower_m, g.glass_above_m - module))]  # fmt: skip
    yield polygon(rail, ink.paper, ink.ink, 1.2)
    tube = [field.on_array(0.0, a, b) for a, b in ((-half, g.beam_clear_m - beam.depth_m), (half, g.beam_clear_m - beam.depth_m), (half, g.beam_clear_m), (-half, g.beam_clear_m))]  # fmt: skip
    yield polygon(tube, ink.paper)
    yield polygon(tube, f"url(#{field.id('steel')})", ink.ink, 1.5)
    drive = setting.drive
    if drive is not None:  # the bracket its pin sits in
        pin = field.on_array(0.0, drive.pin_along_m, -drive.pin_below_m)
        for off in (-0.07, 0.07):
            yield stroke(smooth([field.on_array(0.0, drive.pin_along_m + off, back + 0.02), pin]), ink.ink, 1.2)  # fmt: skip


def _rows(field: Field) -> list[tuple[float, float]]:
    """Lower and upper edge of each row of modules, along the chord from the hinge [m]."""
    setting, g = field.tilts.setting, field.answer.geometry
    up_m = setting.module_sides_m[1]
    centres = [mass.along_m for mass in g.masses if mass.name.startswith("modules")]
    return [(centre - up_m / 2.0, centre + up_m / 2.0) for centre in centres]


def rod(field: Field, tilt_deg: float) -> Iterator[str]:
    """The actuator: tube, rod, both pins."""
    drive, ink = field.tilts.setting.drive, field.ink
    if drive is None:
        return
    pin, foot = rod_ends(field, tilt_deg)
    far = hypot(pin[0] - foot[0], pin[1] - foot[1]) or 1.0
    share = min(drive.retracted_length_m * field.scale / far, 1.0) * 0.93
    knee = (foot[0] + (pin[0] - foot[0]) * share, foot[1] + (pin[1] - foot[1]) * share)
    half = field.answer.pipe.outside_m / 2.0
    arm = field.at(half, field.answer.geometry.hinge_height_m - drive.bracket_below_m)
    yield stroke(smooth([arm, foot]), ink.ink, 2.0)
    thick = 6.0 if not field.size.keyed else 4.5
    yield stroke(smooth([knee, pin]), ink.ink, 2.2)
    yield stroke(smooth([foot, knee]), ink.ink, thick)
    yield stroke(smooth([foot, knee]), ink.paper, thick - 3.0)
    for x, y in (pin, foot):
        yield tag("circle", cx=x, cy=y, r=3.4, fill=ink.paper, stroke=ink.ink, stroke_width=1.5)


def rod_ends(field: Field, tilt_deg: float) -> tuple[Point, Point]:
    """Frame pin and pole bracket; only where there is a drive."""
    drive = field.tilts.setting.drive
    assert drive is not None  # noqa: S101  the caller has looked
    up = field.answer.geometry.hinge_height_m - drive.bracket_below_m
    pin = field.on_array(tilt_deg, drive.pin_along_m, -drive.pin_below_m)
    return pin, field.at(drive.bracket_out_m, up)


def hinge(field: Field) -> Iterator[str]:
    """The pin all turns about."""
    x, y = field.hinge
    r = 6.0 if not field.size.keyed else 4.5
    yield tag("circle", cx=x, cy=y, r=r, fill=field.ink.paper, stroke=field.ink.ink, stroke_width=2.0)  # fmt: skip
    yield tag("circle", cx=x, cy=y, r=1.6, fill=field.ink.ink)


def handle(field: Field, tilt_deg: float, words: str) -> str:
    """The ring on the arc: taken hold of, it tips the array."""
    ink, x, y = field.ink, *field.on_arc(tilt_deg)
    g = field.answer.geometry
    marks = (
        tag("circle", r=24.0, fill="none", pointer_events="all", class_="reach")
        + tag("circle", r=14.0, fill=ink.paper, stroke=ink.plumb, stroke_width=2.5, class_="ring")
        + stroke("M-3.5 -5V5M3.5 -5V5", ink.plumb, 2.0)
    )
    return tag(
        "g", marks, id=field.id("handle"), class_="handle", transform=f"translate({x:.2f} {y:.2f})", role="slider",
        tabindex=0, aria_label="tilt", aria_orientation="vertical", aria_valuemin=f"{g.least_tilt_deg:g}",
        aria_valuemax=f"{g.steepest_tilt_deg:g}", aria_valuenow=f"{tilt_deg:g}", aria_valuetext=words,
    )  # fmt: skip
