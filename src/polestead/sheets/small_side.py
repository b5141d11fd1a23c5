"""A small side view for the morning: where it stands today, solid, and tonight, dashed."""

from __future__ import annotations

from collections.abc import Iterator
from math import cos, radians, sin

from polestead.mount.geometry import Geometry
from polestead.sheets.svg import Ink, Point, drawing, line, polygon, text

SIZE = 13.0


def small_side(shape: Geometry, today_deg: float | None, tonight_deg: float | None, sun_side: str, ink: Ink, width: float = 286.0, height: float = 190.0) -> str:  # fmt: skip
    """The drawing; one scale for the whole travel, sun side on the left.

    Args:
        shape: Of the mount.
        today_deg: Where it is to stand, or stands; None: not known.
        tonight_deg: Where it is to be for the night, where that is elsewhere.
        sun_side: South or north.
        ink: Of the medium.
        width: Of the picture [px].
        height: Of the picture [px].
    """
    reach = max(shape.upper_m, shape.lower_m)
    scale = min((height - 44.0) / (shape.hinge_height_m + reach), (width - 20.0) / (2.1 * reach))
    ground = height - 20.0
    hinge = (width / 2.0, ground - shape.hinge_height_m * scale)
    body = [
        *_ground(ink, width, ground),
        line((hinge[0], ground), hinge, ink.ink, 4.0),
        *_array(shape, hinge, scale, tonight_deg, ink, "8 4"),
        *_array(shape, hinge, scale, today_deg, ink, None),
        text((2.0, 12.0), f"\u2190 sun side ({sun_side})", ink.pencil, ink.face, SIZE),
    ]
    said = [f"today {today_deg:.0f}°" if today_deg is not None else "where it lies is not known"]
    if tonight_deg is not None:
        said.append(f"tonight {tonight_deg:.0f}°, dashed")
    body.append(text((width - 2.0, height - 3.0), ", ".join(said), ink.ink, ink.face, SIZE, "end"))
    return drawing(width, height, "", body, "Side view", f"Side view: {', '.join(said)}.")


def _ground(ink: Ink, width: float, ground: float) -> Iterator[str]:
    yield line((0.0, ground), (width, ground), ink.ink, 2.5)


def _array(shape: Geometry, hinge: Point, scale: float, tilt_deg: float | None, ink: Ink, dash: str | None) -> Iterator[str]:  # fmt: skip
    if tilt_deg is None:
        return
    turn = radians(tilt_deg)

    def at(along_m: float, above_m: float) -> Point:
        x = along_m * cos(turn) - above_m * sin(turn)
        return hinge[0] + scale * x, hinge[1] - scale * (along_m * sin(turn) + above_m * cos(turn))

    top, back = shape.glass_above_m, shape.glass_above_m - shape.depth_m
    outline = [at(-shape.lower_m, top), at(shape.upper_m, top), at(shape.upper_m, back), at(-shape.lower_m, back)]  # fmt: skip
    if dash is not None:
        yield polygon(outline, "none", ink.pencil, 1.5, dash)
        return
    yield polygon(outline, ink.paper, ink.ink, 1.5)
    yield line(outline[0], outline[1], ink.ink, 3.0)
