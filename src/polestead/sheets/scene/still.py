"""What stands still in the side view: paper, ground, frost, pier, pole, snow heap, a person, the limit, the wind arc."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from math import cos, hypot, radians, sin

from polestead.sheets.drawn.common import looking_from, sun_side_of
from polestead.sheets.drawn.hatches import concrete, ground, steel
from polestead.sheets.scene.field import (
    PERSON_M,
    Field,
    drawn_limit_m,
    smooth,
    stroke,
    words_at,
)
from polestead.sheets.svg import Ink, Point, line, polygon, tag

Bow = tuple[Point, Point, Point, Point]
RULING_PX, WAYS_UP_PX = 20.0, 10.0
BODY = (
    (0.035, 0.865), (0.05, 0.835), (0.115, 0.815), (0.125, 0.76), (0.12, 0.6), (0.13, 0.47), (0.105, 0.465),
    (0.085, 0.6), (0.085, 0.5), (0.085, 0.26), (0.075, 0.03), (0.105, 0.0), (0.02, 0.0), (0.015, 0.25), (0.0, 0.44),
)  # half of a standing outline, in heights  # fmt: skip


def hatches(field: Field) -> str:
    """Fills of this drawing."""
    ink = field.ink
    short = tag("path", d="M-1 1L1 -1M0 6L6 0M5 7L7 5", stroke=ink.edge, stroke_width=1.0)
    clash = tag("path", d="M0 0L5 5M0 5L5 0", stroke=ink.rust, stroke_width=1.0)
    snow = "".join(
        tag("circle", cx=x, cy=y, r=0.9, fill=ink.edge) for x, y in ((2.0, 3.0), (6.5, 7.5))
    )
    tiles = (
        ("short", 6.0, short),
        ("clash", 5.0, clash),
        ("snow", 9.0, snow),
    )
    plain = "".join(
        tag("pattern", body, id=field.id(name), width=wide, height=wide, patternUnits="userSpaceOnUse")
        for name, wide, body in tiles
    )  # fmt: skip
    fills = concrete(field.id("concrete"), ink) + steel(field.id("steel"), ink)
    return ruling(field.id("ruling"), ink) + plain + fills


def ruling(name: str, ink: Ink) -> str:
    """The ruling of squared paper."""
    square = tag("path", d=f"M{RULING_PX:g} 0V{RULING_PX:g}H0", fill="none", stroke=ink.ghost, stroke_width=0.5)  # fmt: skip
    return tag("pattern", square, id=name, width=RULING_PX, height=RULING_PX, patternUnits="userSpaceOnUse")  # fmt: skip


def paper(field: Field) -> str:
    """Squared paper."""
    size = field.size
    return tag("rect", width=size.width, height=size.height, fill=f"url(#{field.id('ruling')})")


def ways(field: Field) -> Iterator[str]:
    """Where the sun stands, and which way one looks."""
    for words, x, anchor in ways_words(field):
        yield words_at(field, (x, field.size.height - WAYS_UP_PX), words, field.ink.pencil, anchor)


def ways_words(field: Field) -> Iterator[tuple[str, float, str]]:
    """The words of that, where they begin or end, and which of the two."""
    size, latitude_deg = field.size, field.tilts.setting.place.latitude_deg
    yield "sun side" if size.keyed else f"sun side ({sun_side_of(latitude_deg)})", 14.0, "start"
    if not size.keyed and not size.large:
        yield f"looking {looking_from(latitude_deg)}", size.width - 12.0, "end"


def earth(field: Field) -> Iterator[str]:
    """Ground, frost line, pier with its bars."""
    setting, ink, pier = field.tilts.setting, field.ink, field.answer.pier
    half, y = pier.diameter_m / 2.0, field.ground_y
    corners = [field.at(x, z) for x, z in ((-half, pier.collar_m), (half, pier.collar_m), (half, -pier.depth_m), (-half, -pier.depth_m))]  # fmt: skip
    left, right = corners[0][0], corners[1][0]
    for a, b in frost_lines(field):
        yield line(a, b, ink.pencil, 1.0, "12 3 2 3")
    yield from ground(ink, 0.0, field.size.width, y, [(left, right)])
    yield polygon(corners, ink.paper)
    yield polygon(corners, f"url(#{field.id('concrete')})")
    yield polygon(corners, "none", ink.ink, 2.5)
    if setting.footing.twist_bars:
        reach = half * 0.84
        for share in (0.08, 0.2):
            z = -pier.pole_depth_m + pier.pole_depth_m * share
            yield line(field.at(-reach, z), field.at(reach, z), ink.ink, 2.0)


def frost_lines(field: Field) -> list[list[Point]]:
    """To both sides of the pier; none where no frost is."""
    frost, half = field.tilts.setting.place.frost_depth_m, field.answer.pier.diameter_m / 2.0
    if frost <= 0.0:
        return []
    (left, y), (right, _) = field.at(-half, -frost), field.at(half, -frost)
    return [[(left - 112.0, y), (left, y)], [(right, y), (right + 76.0, y)]]


def pole(field: Field) -> Iterator[str]:
    """Pole over and under the ground, its axis, its cap."""
    ink, pier, g = field.ink, field.answer.pier, field.answer.geometry
    half, top = field.answer.pipe.outside_m / 2.0, g.hinge_height_m - g.pole_top_below_m
    shape = [(-half, pier.collar_m), (-half, top), (half, top), (half, pier.collar_m)]
    yield polygon([field.at(x, z) for x, z in shape], ink.paper)
    yield stroke(smooth(field.at(x, z) for x, z in shape), ink.ink, 1.5)
    for x in (-half, half):
        yield line(field.at(x, pier.collar_m), field.at(x, -pier.pole_depth_m), ink.ink, 1.0, "8 3")
    yield line(field.at(-half, -pier.pole_depth_m), field.at(half, -pier.pole_depth_m), ink.ink, 1.0, "8 3")  # fmt: skip
    yield line(field.at(0.0, top - 0.04), field.at(0.0, -pier.depth_m - 0.1), ink.pencil, 1.0, "12 3 2 3")  # fmt: skip
    wide = half * 1.7
    plate = [field.at(x, z) for x, z in ((-wide, top), (wide, top), (wide, top + 0.03), (-wide, top + 0.03))]  # fmt: skip
    yield polygon(plate, ink.paper, ink.ink, 1.5)
    for x in (-wide * 0.55, wide * 0.55):  # the ears that bear the hinge
        yield line(field.at(x, top + 0.03), field.hinge, ink.ink, 1.5)


def heap(field: Field) -> Iterator[str]:
    """Snow under the low edge: one shed fall in dots, a hard winter's crest dashed."""
    if field.tilts.setting.place.ground_snow_pa <= 0.0:
        return
    hard, shed = (_ridge(*sides) for sides in ridges(field))
    yield stroke(hard, field.ink.pencil, 1.0, "5 3")
    yield tag("path", d=shed + "Z", fill=f"url(#{field.id('snow')})")
    yield stroke(shed, field.ink.edge, 1.0)


def ridges(field: Field) -> list[tuple[Bow, Bow]]:
    """A hard winter's ridge, then that of one shed fall, each by its rising and its falling side; none where no snow is."""
    t, setting, g = field.tilts, field.tilts.setting, field.answer.geometry
    if setting.place.ground_snow_pa <= 0.0:
        return []
    middle, found = -g.lower_m * cos(radians(setting.mount.winter_tilt_deg)), []
    for high in (t.heap_m + t.lying_m, t.heap_m):
        wide = high / 0.839  # both sides at the angle of repose
        (x1, y), (x2, top), (x3, _) = field.at(middle - wide, 0.0), field.at(middle, high), field.at(middle + wide, 0.0)  # fmt: skip
        bow = (x2 - x1) * 0.55
        rising = ((x1, y), (x1 + bow, y), (x2 - bow * 0.7, top), (x2, top))
        found.append((rising, ((x2, top), (x2 + bow * 0.7, top), (x3 - bow, y), (x3, y))))
    return found


def _ridge(rising: Bow, falling: Bow) -> str:
    points = [f"{x:.1f} {y:.1f}" for x, y in (*rising, *falling[1:])]
    return f"M{points[0]}C{' '.join(points[1:4])}C{' '.join(points[4:])}"


def person(field: Field) -> str:
    """Somebody of 5 ft 8 in, in outline, for scale."""
    high, x = PERSON_M * field.scale, _person_x(field)
    head = tag("ellipse", cx=x, cy=field.ground_y - high * 0.93, rx=high * 0.047, ry=high * 0.068, fill="none", stroke=field.ink.edge, stroke_width=1.0)  # fmt: skip
    return tag(
        "g", stroke(smooth(outline_of_person(field)), field.ink.edge, 1.0) + head, class_="person"
    )


def _person_x(field: Field) -> float:
    return 44.0 if not field.size.keyed else 56.0


def outline_of_person(field: Field) -> list[Point]:
    """Both sides of the body."""
    high, x = PERSON_M * field.scale, _person_x(field)
    half = [(x + a * high, field.ground_y - b * high) for a, b in BODY]
    return [*half, *((2.0 * x - px, py) for px, py in reversed(half))]


def limit(field: Field) -> Iterator[str]:
    """The permit's height limit across the field."""
    limit_m = drawn_limit_m(field.tilts)
    if limit_m is None:
        return
    y, over = field.at(0.0, limit_m)[1], max(one.top_height_m for one in field.tilts.at) > limit_m
    yield line((0.0, y), (field.size.width, y), field.ink.rust if over else field.ink.pencil, 2.5 if over else 1.0, "8 5")  # fmt: skip


def wind_arc(field: Field) -> Iterator[str]:
    """The rim's height is what each tilt stands to; hatched where it falls inside the code's own wind."""
    card, ink = field.answer.stand.card, field.ink
    code = field.rim(field.answer.stand.code_gust_m_s)
    tilts = [row.tilt_deg for row in card]
    rim = [field.on_arc(row.tilt_deg, field.rim(row.stands_to_m_s)) for row in card]
    base, wind = [field.on_arc(t) for t in tilts], [field.on_arc(t, code) for t in tilts]
    yield polygon([*base, *reversed(rim)], ink.paper)
    for a, b in pairwise(range(len(card))):
        if min(card[a].stands_to_m_s, card[b].stands_to_m_s) < field.answer.stand.code_gust_m_s:
            piece = [wind[a], wind[b], rim[b], rim[a]]
            yield polygon(piece, f"url(#{field.id('short')})")
    yield stroke(smooth(base), ink.ink, 1.0)
    yield stroke(smooth(wind), ink.pencil, 1.0, "10 4")
    yield stroke(smooth(rim), ink.ink, 1.5)
    yield line(base[0], rim[0], ink.ink, 1.0)
    yield line(base[-1], rim[-1], ink.ink, 1.0)
    yield from _notches(field)
    ticks = "".join(
        f"M{x1:.1f} {y1:.1f}L{x2:.1f} {y2:.1f}"
        for t in range(-90, 91, 5)
        if tilts[0] <= t <= tilts[-1]
        for (x1, y1), (x2, y2) in ((field.on_arc(t), field.on_arc(t, -9.0 if t % 15 == 0 else -5.0)),)
    )  # fmt: skip
    yield stroke(ticks, ink.ink, 1.0)


def _notches(field: Field) -> Iterator[str]:
    """Where another part gives first."""
    card = field.answer.stand.card
    for one, two in pairwise(card):
        if one.gives_first != two.gives_first:
            out = field.rim((one.stands_to_m_s + two.stands_to_m_s) / 2.0)
            t = (one.tilt_deg + two.tilt_deg) / 2.0
            apex = field.on_arc(t, out - 6.0)
            yield polygon([field.on_arc(t - 1.2, out + 1.0), apex, field.on_arc(t + 1.2, out + 1.0)], field.ink.paper, field.ink.ink, 1.0)  # fmt: skip


def sun(field: Field, noon_deg: float) -> Iterator[str]:
    """The sun's height at noon of the chosen day, on the side it stands."""
    if not 0.0 < noon_deg <= 90.0:
        return
    x, y = sun_at(field, noon_deg)
    yield stroke(smooth(sun_path(field, noon_deg)), field.ink.edge, 1.4, "0.1 7")
    yield tag("circle", cx=x, cy=y, r=disc_px(field), fill=field.ink.paper, stroke=field.ink.ink, stroke_width=1.5)  # fmt: skip


def disc_px(field: Field) -> float:
    """Radius of the disc."""
    return 14.0 if not field.size.keyed else 10.0


def sun_path(field: Field, noon_deg: float) -> list[Point]:
    """A piece of its way about the noon of that day; nothing where it does not rise."""
    if not 0.0 < noon_deg <= 90.0:
        return []
    x, y = sun_at(field, noon_deg)
    far = hypot(x - field.hinge[0], y - field.hinge[1])
    turns = (radians(noon_deg + step) for step in range(-26, 15) if noon_deg + step > 1.0)
    points = ((field.hinge[0] - far * cos(t), field.hinge[1] - far * sin(t)) for t in turns)
    return [point for point in points if point[0] > 12.0 and point[1] > y - 40.0]


def sun_at(field: Field, noon_deg: float) -> Point:
    """Middle of the disc: seen from the hinge at its true height, as far off as the field lets it."""
    t, limit_m = radians(noon_deg), drawn_limit_m(field.tilts)
    top = 30.0 if limit_m is None else max(30.0, field.at(0.0, limit_m)[1] + 34.0)
    far = field.hinge[0] - (56.0 if field.size.keyed else 46.0)
    far = min(far, max(field.hinge[1] - top, 60.0) / max(sin(t), 1e-6))
    return field.hinge[0] - far * cos(t), field.hinge[1] - far * sin(t)


def pier_figure(field: Field) -> Iterator[str]:
    """How deep the pier is, at its side; its words are placed with the others."""
    if field.size.keyed:
        return
    ink, (upright, level) = field.ink, pier_lines(field)
    yield line(upright[0], upright[1], ink.pencil, 1.0)
    yield line(level[0], level[1], ink.pencil, 1.0)
    for x, y in upright:
        yield line((x - 3.5, y + 3.5), (x + 3.5, y - 3.5), ink.ink, 1.5)


def pier_lines(field: Field) -> tuple[list[Point], list[Point]]:
    """The dimension line of the pier, and the one that leads to it from its foot."""
    pier = field.answer.pier
    x = field.at(pier.diameter_m / 2.0, 0.0)[0] + 22.0
    foot = field.at(0.0, -pier.depth_m)[1]
    return [(x, field.ground_y), (x, foot)], [(x - 16.0, foot), (x + 6.0, foot)]


def mark_of(field: Field, section: str, key: str) -> str:
    """The ``~`` of what nobody has settled."""
    found = next(
        (row for row in field.answer.rows if (row.section, row.key) == (section, key)), None
    )
    return "" if found is None else found.mark
