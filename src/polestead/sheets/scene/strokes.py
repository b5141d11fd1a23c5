"""Every stroke of the side view at a tilt, so that words keep clear of them."""

from __future__ import annotations

from collections.abc import Iterator
from math import cos, radians, sin

from polestead.sheets.clear import Clear
from polestead.sheets.scene import still, tipped
from polestead.sheets.scene.field import Field, drawn_limit_m
from polestead.sheets.svg import Point

RING_PX = 17.0
EARTH_PX = (3.0, 7.0, 11.0)  # the strokes under the ground line, taken as three level ones
BOW_STEPS = 8
ARC_STEP = 3  # every so many degrees of the wind arc


def clear_at(field: Field, tilt_deg: float, noon_deg: float) -> Clear:
    """The drawing with its strokes and the ring, no words on it yet."""
    clear = Clear(field.size.width, field.size.height)
    for points in (*_still(field, noon_deg), *_tipped(field, tilt_deg)):
        clear.stroke(points)
    if 0.0 < noon_deg <= 90.0:
        clear.ring(still.sun_at(field, noon_deg), still.disc_px(field))
    clear.ring(field.on_arc(tilt_deg), RING_PX)
    return clear


def _still(field: Field, noon_deg: float) -> Iterator[list[Point]]:
    pier, g, size = field.answer.pier, field.answer.geometry, field.size
    limit_m = drawn_limit_m(field.tilts)
    if limit_m is not None:
        y = field.at(0.0, limit_m)[1]
        yield [(0.0, y), (size.width, y)]
    yield still.sun_path(field, noon_deg)
    for off in (0.0, *EARTH_PX):
        yield [(0.0, field.ground_y + off), (size.width, field.ground_y + off)]
    yield from still.frost_lines(field)
    half, mast = pier.diameter_m / 2.0, field.answer.pipe.outside_m / 2.0
    yield [field.at(x, z) for x, z in ((-half, pier.collar_m), (half, pier.collar_m), (half, -pier.depth_m), (-half, -pier.depth_m), (-half, pier.collar_m))]  # fmt: skip
    top = g.hinge_height_m - g.pole_top_below_m
    for x in (-mast, 0.0, mast):
        yield [field.at(x, -pier.pole_depth_m), field.at(x, top)]
    yield [field.at(-mast * 1.7, top), field.at(mast * 1.7, top)]
    if not size.keyed:
        yield from still.pier_lines(field)
    for ridge in still.ridges(field):
        yield from (_bowed(*side) for side in ridge)
    yield still.outline_of_person(field)
    card = field.answer.stand.card
    rows = (*card[::ARC_STEP], card[-1])
    code = field.rim(field.answer.stand.code_gust_m_s)
    yield [field.on_arc(row.tilt_deg) for row in rows]
    yield [field.on_arc(row.tilt_deg, code) for row in rows]
    yield [field.on_arc(row.tilt_deg, field.rim(row.stands_to_m_s)) for row in rows]
    for row in (card[0], card[-1]):
        yield [field.on_arc(row.tilt_deg), field.on_arc(row.tilt_deg, field.rim(row.stands_to_m_s))]
    for t in range(-90, 91, 5):
        if card[0].tilt_deg <= t <= card[-1].tilt_deg:
            yield [field.on_arc(t), field.on_arc(t, -9.0 if t % 15 == 0 else -5.0)]
    for tilt in (g.least_tilt_deg, g.steepest_tilt_deg):
        yield _closed(tipped.body(field, tilt))


def _tipped(field: Field, tilt_deg: float) -> Iterator[list[Point]]:
    g, setting = field.answer.geometry, field.tilts.setting
    yield _closed(tipped.body(field, tilt_deg))
    half, beam = setting.beam.breadth_m / 2.0, setting.beam
    yield _closed([field.on_array(tilt_deg, a, b) for a, b in ((-half, g.beam_clear_m - beam.depth_m), (half, g.beam_clear_m - beam.depth_m), (half, g.beam_clear_m), (-half, g.beam_clear_m))])  # fmt: skip
    if setting.drive is not None:
        pin, foot = tipped.rod_ends(field, tilt_deg)
        arm = field.at(field.answer.pipe.outside_m / 2.0, g.hinge_height_m - setting.drive.bracket_below_m)  # fmt: skip
        yield [pin, foot, arm]
    far, (hx, hy) = g.lower_m * field.scale + 12.0, field.hinge
    yield [(hx - far - 8.0, hy), (hx - 12.0, hy)]
    turns = [tilt_deg * n / BOW_STEPS for n in range(BOW_STEPS + 1)]
    yield [(hx - far * cos(radians(t)), hy + far * sin(radians(t))) for t in turns]


def _closed(points: list[Point]) -> list[Point]:
    return [*points, points[0]]


def _bowed(a: Point, b: Point, c: Point, d: Point) -> list[Point]:
    """A bowed stroke by its four points."""
    shares = [n / BOW_STEPS for n in range(BOW_STEPS + 1)]
    return [
        tuple(a[k] * (1 - s) ** 3 + 3 * b[k] * s * (1 - s) ** 2 + 3 * c[k] * s * s * (1 - s) + d[k] * s**3 for k in (0, 1))  # type: ignore[misc]
        for s in shares
    ]  # fmt: skip
