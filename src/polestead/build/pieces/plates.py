"""Plates and wraps as data: outline, holes, thickness, mass; for drawings, for a file of lines, for paper at 1:1."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from math import acos, asin, atan2, cos, hypot, pi, radians, sin, tan

from polestead.base.check import Check, share
from polestead.base.source import Source
from polestead.base.working import Step, Working
from polestead.build.given import BEARINGS, Given
from polestead.build.pieces.bolts import bolt_row
from polestead.build.pieces.steel import carrier
from polestead.homestead.model import Lock
from polestead.strength.pole import material

Point = tuple[float, float]
Bend = tuple[float, float, float]  # a corner, and the bulge of the way to the next
CORNERS = 64  # of a round edge, drawn just outside the true round so that no edge distance is lost
PIN_PLAY_M = 0.00079375  # 1/32 in at most over the pin: AISC 360, D5.2 (from memory)
SPACING = Source("AISC 360-16", "J3.3, 3 bolt diameters between holes, as it prefers", "memory")
SPACING_EN = Source("3 bolt diameters between holes, over what EN 1993-1-8:2005, Table 3.3 asks", "docs/method/build.md", "ours")  # fmt: skip
CAP_HOLES_BELOW = 6.0  # bolt diameters under the pole's top, as its strength was summed


@dataclass(frozen=True, slots=True)
class DrilledHole:
    """A round hole.

    Attributes:
        name: What goes through it.
        x_m, y_m: Its middle.
        diameter_m: To drill.
    """

    name: str
    x_m: float
    y_m: float
    diameter_m: float


@dataclass(frozen=True, slots=True)
class PlateCut:
    """A plate to cut and drill, or a paper wrap to mark a pipe by.

    Attributes:
        name: What.
        kind: ``plate``, or ``wrap`` for paper laid round the pipe.
        count: How many.
        outline_m: Corners in order, closed by going back to the first; x to the right, y up.
        holes: To drill.
        thickness_m: Of the plate, None where not given; of a wrap the pipe's wall.
        steel: Grade.
        mass_kg: Of one, holes out; None without a thickness, and for a wrap.
        where: Where it goes.
        notes: What to know, what is not given.
        checks: Holes far enough from one another.
        cut_m: The true line to cut: x, y, and the bulge of the way to the next corner (the tangent of a quarter of its arc's
            angle, + against the clock, 0 straight); empty where the outline itself is true.
    """

    name: str
    kind: str
    count: int
    outline_m: tuple[Point, ...]
    holes: tuple[DrilledHole, ...]
    thickness_m: float | None
    steel: str
    mass_kg: float | None
    where: str
    notes: tuple[str, ...] = ()
    checks: tuple[Check, ...] = ()
    cut_m: tuple[Bend, ...] = ()

    @property
    def size_m(self) -> Point:
        """Width and height of the true line: a round is as wide as its round, not as the corners it is drawn with."""
        points = list(self.outline_m)
        if self.cut_m:
            points = [(x, y) for x, y, _ in self.cut_m]
            for (x, y, bulge), (x2, y2, _) in zip(self.cut_m, (*self.cut_m[1:], self.cut_m[0]), strict=True):  # fmt: skip
                points += _round_ends((x, y), (x2, y2), bulge)
        xs, ys = zip(*points, strict=True)
        return max(xs) - min(xs), max(ys) - min(ys)


def plates_of(g: Given) -> tuple[PlateCut, ...]:
    """Ears, what turns between them, the cap's disc and wrap, the storm hold's plate; as far as the file tells them."""
    return (*_ears(g), _cap_disc(g), *_cap_wrap(g), *_hold_plates(g))


def area_m2(outline: tuple[Point, ...]) -> float:
    """Area inside a closed line of corners.

    Source: the shoelace formula.

    Example:
        >>> area_m2(((0.0, 0.0), (2.0, 0.0), (2.0, 1.0), (0.0, 1.0)))
        2.0
    """
    closed = (*outline, outline[0])
    return abs(sum(x1 * y2 - x2 * y1 for (x1, y1), (x2, y2) in pairwise(closed))) / 2.0


def plate_kg(
    outline: tuple[Point, ...], holes: tuple[DrilledHole, ...], thickness_m: float, steel: str
) -> float:
    """Mass of a plate, its holes out.

    Args:
        outline: Corners.
        holes: Drilled.
        thickness_m: [m].
        steel: A row of ``materials.csv``.

    Example:
        >>> round(plate_kg(((0.0, 0.0), (0.1, 0.0), (0.1, 0.2), (0.0, 0.2)), (), 0.01, "A36"), 3)
        1.57
    """
    left = area_m2(outline) - sum(pi / 4.0 * hole.diameter_m**2 for hole in holes)
    return left * thickness_m * float(material(steel)["density_kg_m3"])


def ear_outline(foot_m: float, height_m: float, edge_m: float) -> tuple[Point, ...]:
    """The smallest plate that has its foot on the weld and so much steel all round the hole: foot and round, and the lines that touch both.

    The foot lies on y = 0, the hole at (0, height).

    Args:
        foot_m: Length of the foot [m].
        height_m: From the foot to the middle of the hole [m].
        edge_m: From the middle of the hole to the nearest edge [m].

    Example:
        >>> line = ear_outline(0.2, 0.075, 0.06)
        >>> line[0], line[1], round(max(y for _, y in line), 4)
        ((-0.1, 0.0), (0.1, 0.0), 0.1351)
    """
    half, out = foot_m / 2.0, edge_m / cos(pi / CORNERS)
    turns = [2.0 * pi * n / CORNERS for n in range(CORNERS)]
    round_ = [(out * cos(t), max(height_m + out * sin(t), 0.0)) for t in turns]
    hull = _hull([(-half, 0.0), (half, 0.0), *round_])
    start = hull.index((-half, 0.0)) if (-half, 0.0) in hull else 0
    return tuple(hull[start:] + hull[:start])


def ear_cut(foot_m: float, height_m: float, edge_m: float) -> tuple[Bend, ...]:
    """The same plate with its true round: from the foot's ends along the tangents, then one arc.

    Source: plane geometry; from a point d off the middle the tangent touches acos(r / d) from the way to it.

    Args:
        foot_m: Length of the foot [m].
        height_m: From the foot to the middle of the hole [m].
        edge_m: Radius of the round [m].

    Example:
        >>> [tuple(round(one, 4) for one in corner) for corner in ear_cut(0.2, 0.0, 0.1)]
        [(-0.1, 0.0, 0.0), (0.1, 0.0, 1.0)]
        >>> len(ear_cut(0.2, 0.075, 0.06))
        4
    """
    half, far = foot_m / 2.0, hypot(foot_m / 2.0, height_m)
    if far <= edge_m:  # the round takes in the foot's ends
        cut = (edge_m**2 - height_m**2) ** 0.5
        return ((-cut, 0.0, 0.0), (cut, 0.0, tan((pi + 2.0 * asin(height_m / edge_m)) / 4.0)))
    start = acos(edge_m / far) - atan2(height_m, half)
    x, y = edge_m * cos(start), height_m + edge_m * sin(start)
    return ((-half, 0.0, 0.0), (half, 0.0, 0.0), (x, y, tan((pi - 2.0 * start) / 4.0)), (-x, y, 0.0))  # fmt: skip


def disc_cut(diameter_m: float) -> tuple[Bend, ...]:
    """A round disc as two half rounds.

    Example:
        >>> disc_cut(0.2)
        ((-0.1, 0.0, 1.0), (0.1, 0.0, 1.0))
    """
    return ((-diameter_m / 2.0, 0.0, 1.0), (diameter_m / 2.0, 0.0, 1.0))


def _round_ends(start: Point, end: Point, bulge: float) -> list[Point]:
    """Where an arc reaches farthest left, right, up and down, as far as these lie on it; none on a straight way."""
    if not bulge:
        return []
    dx, dy = end[0] - start[0], end[1] - start[1]
    off = (1.0 - bulge**2) / (4.0 * bulge)
    x, y = start[0] + dx / 2.0 - dy * off, start[1] + dy / 2.0 + dx * off
    far = hypot(start[0] - x, start[1] - y)
    ends = ((x + far, y), (x - far, y), (x, y + far), (x, y - far))
    return [p for p in ends if bulge * (dx * (p[1] - start[1]) - dy * (p[0] - start[0])) < 0.0]


def _hull(points: list[Point]) -> list[Point]:
    """Corners of the tightest line round the points, against the clock."""
    ordered = sorted(set(points))

    def half(way: list[Point]) -> list[Point]:
        line: list[Point] = []
        for x, y in way:
            while len(line) > 1:
                (x1, y1), (x2, y2) = line[-2], line[-1]
                if (x2 - x1) * (y - y1) - (y2 - y1) * (x - x1) > 0.0:
                    break
                line.pop()
            line.append((x, y))
        return line

    return half(ordered)[:-1] + half(ordered[::-1])[:-1]


def ear_kg(g: Given) -> tuple[float, float] | None:
    """Mass of one hinge ear and of one lug; None where the file does not tell them."""
    plates = _ears(g)
    return None if not plates else (plates[0].mass_kg or 0.0, plates[1].mass_kg or 0.0)


def _ears(g: Given) -> tuple[PlateCut, ...]:
    f = g.frame
    if f.ear_thickness_m is None or f.weld_length_m is None:
        return ()
    line = ear_outline(f.weld_length_m, g.ear_height_m, g.edge_m)
    cut = ear_cut(f.weld_length_m, g.ear_height_m, g.edge_m)
    hole = (DrilledHole("hinge pin", 0.0, g.ear_height_m, g.mount.hinge_pin_m + PIN_PLAY_M),)
    ear = PlateCut(
        "hinge ear", "plate", 2 * BEARINGS, line, hole, f.ear_thickness_m, f.ear_steel, plate_kg(line, hole, f.ear_thickness_m, f.ear_steel),
        "two about each bearing, welded on both sides of the foot",
        ("The four are clamped together and drilled at once; holes are drilled or bored, not burned.", "On paper the round is drawn with corners that lie a tenth of a percent outside it: grind to the round."),
        cut_m=cut,
    )  # fmt: skip
    middle_m = g.middle_m or 2.0 * f.ear_thickness_m
    lug = PlateCut(
        "hinge lug", "plate", BEARINGS, line, hole, middle_m, f.ear_steel, plate_kg(line, hole, middle_m, f.ear_steel),
        "between each pair of ears", ("Taken with the ears' outline, as their strength was summed. Bored for the bushing, whose outside is not given: the hole here is the pin's.",),
        cut_m=cut,
    )  # fmt: skip
    return ear, lug


def ring_of(diameter_m: float) -> tuple[Point, ...]:
    """Corners of a round disc, just outside the true round."""
    out = diameter_m / 2.0 / cos(pi / CORNERS)
    return tuple((out * cos(2.0 * pi * n / CORNERS), out * sin(2.0 * pi * n / CORNERS)) for n in range(CORNERS))  # fmt: skip


def _cap_disc(g: Given) -> PlateCut:
    return PlateCut(
        "disc on the pole's top", "plate", 1, ring_of(g.pipe.outside_m), (), None, "not given", None, "welded on or in the cap, to keep water out",
        ("Thickness not given. A closed pole that is galvanized needs vent and drain holes: ask the galvanizer where.",),
        cut_m=disc_cut(g.pipe.outside_m),
    )  # fmt: skip


def _cap_wrap(g: Given) -> tuple[PlateCut, ...]:
    """A strip of paper once round the pole's top: holes evenly round, as far down as the strength was summed."""
    f = g.frame
    if f.cap_bolts is None or f.cap_bolt_m is None:
        return ()
    around, high = pi * g.pipe.outside_m, 2.0 * CAP_HOLES_BELOW * f.cap_bolt_m
    row = bolt_row(f.cap_bolt_m)
    drill = float(row["hole_mm"]) / 1000.0 if row is not None else f.cap_bolt_m
    pitch = around / f.cap_bolts
    holes = tuple(DrilledHole("cap bolt", (n + 0.5) * pitch, high / 2.0, drill) for n in range(f.cap_bolts))  # fmt: skip
    wanted, rule = 3.0 * f.cap_bolt_m, _spacing(g)
    steps = (
        Step("from hole to hole round the pole", "s", f"pi x {g.pipe.outside_m:.4f} / {f.cap_bolts}", pitch, "m", rule),
        Step("wanted", "3 d", f"3 x {f.cap_bolt_m:.5f}", wanted, "m", rule),
    )  # fmt: skip
    check = Check("cap bolts", "from hole to hole", wanted, pitch, "m", share(wanted, pitch), rule, Working("cap bolts, from hole to hole", steps))  # fmt: skip
    return (
        PlateCut(
            "wrap for the cap bolts", "wrap", 1, ((0.0, 0.0), (around, 0.0), (around, high), (0.0, high)), holes, g.pipe.wall_m, g.mount.pole.material, None,
            "once round the pole, its upper edge on the pole's top",
            ("One row, six bolt diameters under the top, as the pole was summed there; the seam is turned to true south (north below the equator). Measure round the real pole first: pipes are not true.",),
            (check,),
        ),
    )  # fmt: skip


def _hold_plates(g: Given) -> tuple[PlateCut, ...]:
    named = ((g.lock, "storm hold"), (g.prop, "prop"))
    return tuple(_hold_plate(g, hold, name) for hold, name in named if hold is not None and hold.strut is None)  # fmt: skip


def hold_tilts_deg(g: Given) -> tuple[float, ...]:
    """Tilts at which a plate's holes are drilled: those the file names.

    The least, summer, winter and steepest tilt, and the owner's own moves.
    """
    m = g.mount
    own = (tilt for _, tilt in m.own_move_list)
    return tuple(sorted({m.least_tilt_deg, m.summer_tilt_deg, m.winter_tilt_deg, m.steepest_tilt_deg, *own}))  # fmt: skip


def _hold_plate(g: Given, hold: Lock, name: str) -> PlateCut:
    """A plate about the hinge axis, fixed to the pole: a hole for every tilt, on a round of the hold's lever."""
    tilts, edge = hold_tilts_deg(g), 2.0 * hold.pin_diameter_m
    first = tilts[0]
    at = [(hold.arm_m * cos(radians(t - first)), hold.arm_m * sin(radians(t - first))) for t in tilts]  # fmt: skip
    holes = tuple(DrilledHole(f"{t:g} deg", x, y, hold.pin_diameter_m + PIN_PLAY_M) for t, (x, y) in zip(tilts, at, strict=True))  # fmt: skip
    span = radians(tilts[-1] - first)
    beyond = edge / hold.arm_m
    turns = [-beyond + (span + 2.0 * beyond) * n / CORNERS for n in range(CORNERS + 1)]
    out, inside = (
        (hold.arm_m + edge) / cos((span + 2.0 * beyond) / CORNERS / 2.0),
        hold.arm_m - edge,
    )
    line = tuple((out * cos(t), out * sin(t)) for t in turns) + tuple((inside * cos(t), inside * sin(t)) for t in reversed(turns))  # fmt: skip
    checks = tuple(_apart(_spacing(g), name, a, b, hold.pin_diameter_m) for a, b in pairwise(holes))
    bulge, outer = tan((span + 2.0 * beyond) / 4.0), hold.arm_m + edge
    ends = (cos(turns[0]), sin(turns[0])), (cos(turns[-1]), sin(turns[-1]))
    (c0, s0), (c1, s1) = ends
    cut = ((outer * c0, outer * s0, bulge), (outer * c1, outer * s1, 0.0), (inside * c1, inside * s1, -bulge), (inside * c0, inside * s0, 0.0))  # fmt: skip
    return PlateCut(
        f"plate of the {name}", "plate", 1, line, holes, None, "not given", None, f"about the hinge axis, fixed to the pole; the pin goes through it and the {carrier(g, hold)}",
        (
            f"Drawn from the hinge axis at (0, 0); the first hole is {first:g} degrees, the others turned from it by the tilt. Thickness, steel and what fixes it to the pole are not given.",
            "Drill one hole on the finished hinge at the level's tilt, then the others from it.",
        ),
        checks, cut,
    )  # fmt: skip


def _spacing(g: Given) -> Source:
    return SPACING_EN if g.eurocode else SPACING


def _apart(rule: Source, name: str, one: DrilledHole, other: DrilledHole, pin_m: float) -> Check:
    apart, wanted = hypot(one.x_m - other.x_m, one.y_m - other.y_m), 3.0 * pin_m
    steps = (Step("from hole to hole", "s", "", apart, "m", rule), Step("wanted", "3 d", f"3 x {pin_m:.5f}", wanted, "m", rule))  # fmt: skip
    what = f"holes at {one.name} and {other.name}"
    return Check(f"plate of the {name}", what, wanted, apart, "m", share(wanted, apart), rule, Working(what, steps))  # fmt: skip
