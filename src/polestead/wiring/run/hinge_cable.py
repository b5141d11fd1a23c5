"""The cable that flexes at the hinge: what kind, what it carries, how long its loop, where it is held and guarded.

Side view as the mount's (conventions §9): hinge at the origin, x away from the sun side, z up.  The cord leaves its clamp on the
frame square to the glass, downwards when flat; it hangs in a loop and enters the box under the hinge from below, so that water drips
off the loop.  Between the two it may never bend tighter than its least radius, at any tilt of the travel.  From that box fixed
wires in pipe go on down to the switch (``on_pole``), unless a hand reaches it there.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import acos, asin, atan2, ceil, cos, hypot, pi, radians, sin, sqrt, tau
from typing import Literal

from polestead.base.check import Check, share
from polestead.base.show import warmth_both_ways
from polestead.base.source import COMMON_PRACTICE, OWNER, Source
from polestead.base.table import table
from polestead.base.working import Step, Working
from polestead.wiring.by_code import borrowed, bright_source, steady_source
from polestead.wiring.currents import Code
from polestead.wiring.run.ampacity import ABOUT_C
from polestead.wiring.run.conductor import SURROUNDING, share_left
from polestead.wiring.run.on_pole import LOOP_BOX_BELOW_M, OnPole, on_pole

Kind = Literal["SOOW", "H07RN-F"]
CARRIES: dict[Kind, Source] = {
    "SOOW": Source("NEC", "Table 400.5(A)(1), column B", "memory"),
    "H07RN-F": Source("HD 516", "two loaded cores in air", "memory"),
}
ALLOWED: dict[Code, Source] = {
    "NEC": Source("NEC", "690.31, flexible cord on parts that move; Table 400.4", "memory"),
    "Canada": Source("CSA C22.1", "4-012 and Table 11: ask", "memory"),
    "IEC": Source("EN 50525-2-21; IEC 60364-5-52", "flexible cable", "memory"),
}
PULLED: dict[Code, Source] = {
    "NEC": Source("NEC", "400.14; EN 60204-1", "memory"),
    "Canada": Source("EN 60204-1; CSA C22.1, section 4: ask", status="memory"),
    "IEC": Source("EN 60204-1", status="memory"),
}
PROTECTED_BY: dict[Code, Source] = {
    "NEC": Source("NEC", "240.5(A): by its own amperes, no next size up", "memory"),
    "Canada": Source("CSA C22.1", "14-104, taken without a next size up: ask", "memory"),
    "IEC": Source("IEC 60364-4-43", "433.1: no more than the cord carries", "memory"),
}
FIXED: dict[Code, Source] = {
    "NEC": Source(
        "NEC", "690.31(A) over 30 V in reach; 400.12: a cord is no fixed wiring", "memory"
    ),
    "Canada": Source("CSA C22.1", "4-012 and 64-210: ask", "memory"),
    "IEC": Source("IEC 60364-5-52", "522.6, guarded against knocks", "memory"),
}
HINGE_CABLE = "hinge cable"
BREAKER_FITS = "breaker protects the cord"
NO_CORD = (
    "No one cord of the table serves: longer strings (fewer amperes), or each half of the strings over a cord of its own "
    "behind a breaker of its own: ask the inspector."
)
ONE_CORD = "one cord at the hinge carries it, its breaker protects it"
BEND = Source("EN 60204-1", "cables that move, ten outside diameters", "seen-copy")
BEND_TIMES = 10.0
APART = Source("EN 60204-1", "25 mm from parts that move", "seen-copy")
PATH = Source("Dubins 1957, Amer. J. Math. 79", "shortest path of bounded curvature", "memory")
COLD = Source("UL 62 and EN 50525-2-21", "cold bend", "memory")
SLACK = Source("a cord is springy and hangs: 15 % over the shortest", status="ours")
SLACK_SHARE = 0.15
STEP_M = 0.01  # loop rounded up to it
TAIL_M = 0.5  # into each box, with a little to cut again: common practice, no source
SLEEVE_M = 0.3  # chafe sleeve at each clamp: ours
NO_SNOW = Source("none counted: the file does not say how deep it lies", status="ours")
LOOP_CLEAR_M = 0.6  # under the loop, over ground or lying snow: ours
TILT_STEP_DEG = 0.5
TESTED_MOVES = (
    30000  # two-pulley test of EN 50396 (from memory): small flexible cables; told, not checked
)
ROOM_C = 20.0
ROUND_RAD = 1e-9
ROUND_M = 1e-12  # nearer together than this is together: a direction between would be noise


@dataclass(frozen=True, slots=True)
class Cord:
    """One size of cord with two live conductors and an earth.

    Attributes:
        kind, size: As it is bought.
        carries_a: At 30 C about it.
        outside_m: Outside diameter.
        rated_c: What its insulation bears.
        coldest_c: Coldest it may be bent at.
        source: Where the figures come from.
    """

    kind: Kind
    size: str
    carries_a: float
    outside_m: float
    rated_c: int
    coldest_c: float
    source: str

    def carries_at_a(self, about_c: float) -> float:
        """What it carries in a warmer surrounding, by the column of its own rating."""
        return self.carries_a * share_left(about_c, self.rated_c)


@dataclass(frozen=True, slots=True)
class Clamps:
    """Where the cord is held, from the hinge, measured as the rod's pins are (conventions §9); the defaults are ours.

    Attributes:
        along_m: Clamp on the frame, along the chord, + towards the upper edge: the side that opens as it steepens.
        below_m: Below the hinge line, square to the glass.
        out_m: Entry of the box under the hinge, from the pole's axis, away from the sun side.
        down_m: Below the hinge.
    """

    along_m: float = 0.60
    below_m: float = 0.10
    out_m: float = 0.15
    down_m: float = LOOP_BOX_BELOW_M


@dataclass(frozen=True, slots=True)
class Pose:
    """A point and the direction the cord runs through it."""

    x_m: float
    z_m: float
    heading_rad: float


@dataclass(frozen=True, slots=True)
class AtTilt:
    """The loop at one tilt.

    Attributes:
        tilt_deg: The tilt.
        apart_m: Straight from clamp to clamp.
        least_m: Shortest cord that bends nowhere tighter than the least radius.
        spare_m: Loop less ``least_m``.
        lowest_m: Under the hinge; the loop can hang no lower, whatever its shape.
    """

    tilt_deg: float
    apart_m: float
    least_m: float
    spare_m: float
    lowest_m: float


@dataclass(frozen=True, slots=True)
class AtHinge:
    """One thing that goes with the loop."""

    what: str
    where: str
    why: str
    source: Source


@dataclass(frozen=True, slots=True)
class HingeCable:
    """The flexing cable.

    Attributes:
        cord: Kind and size.
        code: Whose rules.
        chosen: True where the size was named, not found.
        radius_m: Least radius of a bend.
        clamps: Where it is held.
        boxes: Where the loop ends over the ground, and where the switch sits.
        least_m: Shortest loop that serves every tilt of the travel.
        loop_m: Between the clamps, slack in it, rounded up: cut this plus the tails.
        cut_m: Loop and tails.
        tightest_deg: Tilt at which it is shortest of cord.
        longest_apart_m: Farthest the clamps come apart, and at which tilt.
        longest_apart_deg: See above.
        ends: At the least and the steepest tilt.
        lowest_m: Height over the ground under which the loop cannot hang at any tilt.
        moves: In its life.
        strands: Least strands where PV wire goes over the hinge instead; None where the table has none.
        parts: Strain reliefs, sleeves, drip loop.
        checks: Current, heat, breaker, cold, height of the loop, and the loop as cut.
        working: How the loop was found.
        notes: Cautions.
    """

    cord: Cord
    code: Code
    chosen: bool
    radius_m: float
    clamps: Clamps
    boxes: OnPole
    least_m: float
    loop_m: float
    cut_m: float
    tightest_deg: float
    longest_apart_m: float
    longest_apart_deg: float
    ends: tuple[AtTilt, AtTilt]
    lowest_m: float
    moves: int
    strands: int | None
    parts: tuple[AtHinge, ...]
    checks: tuple[Check, ...]
    working: Working
    notes: tuple[str, ...]


def cords(kind: Kind) -> tuple[Cord, ...]:
    """Sizes of one kind, thinnest first.

    Source: NEC Table 400.5(A)(1), two live conductors (12 AWG seen in a copy, the rest from memory); HD 516 and EN 50525-2-21
    (from memory).  Diameters are nominal or largest: measure the one you hold.

    Example:
        >>> [cord.size for cord in cords("SOOW")][:2]
        ['12 AWG', '10 AWG']
    """
    return tuple(
        Cord(kind, row["size"], float(row["carries_a"]), float(row["outside_mm"]) / 1000.0, int(row["rated_c"]), float(row["coldest_c"]), row["source"])
        for row in table("wiring", "run/cords")
        if row["kind"] == kind
    )  # fmt: skip


def cord_for(
    kind: Kind,
    steady_a: float,
    bright_a: float,
    about_c: float = ABOUT_C,
    breaker_a: float = 0.0,
) -> Cord:
    """The thinnest cord that carries both currents and that the breaker protects; the thickest there is where none does.

    Args:
        kind: Of cord.
        steady_a: 1.56 times the short-circuit current, before any correction [A].
        bright_a: 1.25 times it, in the heat [A].
        about_c: Air about it [C].
        breaker_a: Breaker of the run, which no next size up excuses here [A].

    Example:
        >>> cord_for("SOOW", 43.75, 35.0).size, cord_for("SOOW", 43.75, 35.0, breaker_a=50.0).size
        ('6 AWG', '4 AWG')
    """
    known = cords(kind)
    for cord in known:
        if cord.carries_a >= steady_a and cord.carries_at_a(about_c) >= max(bright_a, breaker_a):
            return cord
    return known[-1]


def one_cord_check(
    kind: Kind, steady_a: float, bright_a: float, breaker_a: float, code: Code
) -> Check:
    """Whether any one cord of the table serves these strings: the worst of its current for hours, in the heat, and its breaker.

    Source: as in ``hinge_cable_of``.

    Args:
        kind: Of cord.
        steady_a: 1.56 times the short-circuit current of all strings [A].
        bright_a: 1.25 times it [A].
        breaker_a: Breaker of the run [A].
        code: That holds.

    Example:
        A breaker of 90 A over 2 AWG, which carries 82.65 A in 45 C air.

        >>> one_cord_check("SOOW", 87.5, 70.0, 90.0, "NEC").holds, one_cord_check("SOOW", 43.75, 35.0, 45.0, "NEC").holds
        (False, True)
    """
    cord = cord_for(kind, steady_a, bright_a, breaker_a=breaker_a)
    three = (
        _steady_check(cord, steady_a, code),
        _bright_check(cord, bright_a, ABOUT_C, code),
        _breaker_check(cord, breaker_a, ABOUT_C, code),
    )
    return replace(max(three, key=lambda one: one.use), name=ONE_CORD)


def shortest_m(start: Pose, end: Pose, radius_m: float) -> float:
    """Shortest curve from one place and direction to another that bends nowhere tighter than a radius.

    Of arc, straight, arc and of three arcs, the shortest; each found from the circles that touch start and end.
    Source: Dubins 1957 (from memory); the tangents by plane geometry.

    Args:
        start: Where it begins, and its direction there.
        end: Where it ends, and its direction there.
        radius_m: Least radius [m].

    Returns:
        Length [m].

    Example:
        >>> half_turn = shortest_m(Pose(0.0, 0.0, -pi / 2), Pose(-0.4, 0.0, pi / 2), 0.2)
        >>> round(half_turn, 6) == round(pi * 0.2, 6)
        True
    """
    return min(_length(path, radius_m) for path in paths(start, end, radius_m))


Path = tuple[
    tuple[float, float], ...
]  # turn (+1 left, 0 straight, -1 right); angle [rad], or length of the straight [m]


def paths(start: Pose, end: Pose, radius_m: float) -> tuple[Path, ...]:
    """All curves of the two families, as pieces in order: turn, and angle or length."""
    found = [
        *(_with_straight(start, end, radius_m, first, last) for first in (1, -1) for last in (1, -1)),
        *(_three_arcs(start, end, radius_m, turn, side) for turn in (1, -1) for side in (1, -1)),
    ]  # fmt: skip
    return tuple(path for path in found if path is not None)


def _length(path: Path, radius_m: float) -> float:
    return sum(size * (radius_m if turn else 1.0) for turn, size in path)


def _with_straight(start: Pose, end: Pose, r: float, first: int, last: int) -> Path | None:
    """Arc, straight, arc.  Centres lie square to the heading; the straight touches both circles."""
    dx, dz = _between(start, end, r, first, last)
    apart = hypot(dx, dz)
    if first == last:
        straight, heading = apart, atan2(dz, dx) if apart > ROUND_M else start.heading_rad
    elif apart < 2.0 * r:
        return None
    else:
        straight = sqrt(apart * apart - 4.0 * r * r)
        heading = atan2(dz, dx) + first * asin(2.0 * r / apart)
    out = _turned(first * (heading - start.heading_rad))
    into = _turned(last * (end.heading_rad - heading))
    return (float(first), out), (0.0, straight), (float(last), into)


def _three_arcs(start: Pose, end: Pose, r: float, turn: int, side: int) -> Path | None:
    """Arc, arc the other way, arc: the middle circle touches both others, on one side or the other."""
    dx, dz = _between(start, end, r, turn, turn)
    apart = hypot(dx, dz)
    if apart > 4.0 * r or apart <= ROUND_M:
        return None
    to_middle = atan2(dz, dx) + side * acos(apart / (4.0 * r))
    first = to_middle + turn * pi / 2.0  # heading where the outer circle touches the middle one
    mx, mz = 2.0 * r * cos(to_middle) - dx, 2.0 * r * sin(to_middle) - dz
    second = atan2(mz, mx) + turn * pi / 2.0
    return (
        (float(turn), _turned(turn * (first - start.heading_rad))),
        (float(-turn), _turned(-turn * (second - first))),
        (float(turn), _turned(turn * (end.heading_rad - second))),
    )


def _between(start: Pose, end: Pose, r: float, first: int, last: int) -> tuple[float, float]:
    """From the centre of the circle at the start to that at the end."""
    return (
        end.x_m - start.x_m - r * (last * sin(end.heading_rad) - first * sin(start.heading_rad)),
        end.z_m - start.z_m + r * (last * cos(end.heading_rad) - first * cos(start.heading_rad)),
    )


def _turned(angle: float) -> float:
    """An angle within one turn; a whole turn that is but a rounding is none."""
    turned = angle % tau
    return 0.0 if tau - turned < ROUND_RAD else turned


def frame_pose(clamps: Clamps, tilt_deg: float) -> Pose:
    """The clamp on the frame: where it is at a tilt, the cord leaving square to the glass, away from it."""
    t = radians(tilt_deg)
    return Pose(
        clamps.along_m * cos(t) + clamps.below_m * sin(t),
        clamps.along_m * sin(t) - clamps.below_m * cos(t),
        t - pi / 2.0,
    )


def pole_pose(clamps: Clamps) -> Pose:
    """The entry of the box under the hinge: the cord goes up into it."""
    return Pose(clamps.out_m, -clamps.down_m, pi / 2.0)


def at_tilt(clamps: Clamps, radius_m: float, tilt_deg: float, loop_m: float) -> AtTilt:
    """The loop at one tilt.

    A cord of length L from z1 to z2 that reaches down to z is at least (z1 - z) + (z2 - z) long, so it hangs no lower than
    (z1 + z2 - L) / 2, whatever its shape.

    Args:
        clamps: Where it is held.
        radius_m: Least radius [m].
        tilt_deg: The tilt [deg].
        loop_m: Cord between the clamps [m].
    """
    start, end = frame_pose(clamps, tilt_deg), pole_pose(clamps)
    least = shortest_m(start, end, radius_m)
    return AtTilt(
        tilt_deg=tilt_deg,
        apart_m=hypot(end.x_m - start.x_m, end.z_m - start.z_m),
        least_m=least,
        spare_m=loop_m - least,
        lowest_m=(loop_m - start.z_m - end.z_m) / 2.0,
    )


def hinge_cable_of(
    least_tilt_deg: float,
    steepest_tilt_deg: float,
    hinge_height_m: float,
    bright_a: float,
    steady_a: float,
    record_low_c: float,
    *,
    kind: Kind = "SOOW",
    size: str | None = None,
    outside_m: float | None = None,
    coldest_c: float | None = None,
    clamps: Clamps | None = None,
    loop_m: float | None = None,
    bend_times: float = BEND_TIMES,
    about_c: float = ABOUT_C,
    snow_m: float | None = None,
    breaker_a: float | None = None,
    code: Code = "NEC",
    moves_a_day: float = 1.0,
    years: float = 25.0,
) -> HingeCable:
    """The cord over the hinge.

    Args:
        least_tilt_deg: Start of the travel [deg].
        steepest_tilt_deg: End of the travel [deg].
        hinge_height_m: Hinge over the ground [m].
        bright_a: 1.25 times the short-circuit current of all that goes over the hinge in this cord [A].
        steady_a: 1.56 times it [A].
        record_low_c: Coldest on record [C].
        kind: Of cord: ``SOOW`` under NEC and Canada, ``H07RN-F`` under IEC.
        size: Of cord; None for the thinnest that carries the current.
        outside_m: Its outside diameter as measured [m]; None for the table's.
        coldest_c: Coldest its maker lets it be bent at [C]; None for the table's.
        clamps: Where it is held; None for ours.
        loop_m: Cord between the clamps as cut [m]; None for the one found.
        bend_times: Least radius in outside diameters.
        about_c: Air about it [C].
        snow_m: Snow that lies under it, measured by the owner [m]; None: none is counted, and that is said.
        breaker_a: Breaker of the run [A]; None: the cord is not held against it.
        code: That holds.
        moves_a_day: Moves a day of many, there or back.
        years: Of its life.

    Raises:
        ValueError: A size the table does not have.
    """
    held = clamps or Clamps()
    cord = _cord(kind, size, steady_a, bright_a, about_c, outside_m, coldest_c, breaker_a or 0.0)
    radius = bend_times * cord.outside_m
    travel = _travel(least_tilt_deg, steepest_tilt_deg)
    bare = [at_tilt(held, radius, tilt, 0.0) for tilt in travel]
    tightest = max(bare, key=lambda one: one.least_m)
    farthest = max(bare, key=lambda one: one.apart_m)
    wanted = ceil(round((1.0 + SLACK_SHARE) * tightest.least_m / STEP_M, 6)) * STEP_M
    loop = wanted if loop_m is None else loop_m
    hung = [at_tilt(held, radius, tilt, loop) for tilt in travel]
    lowest = hinge_height_m - max(one.lowest_m for one in hung)
    checks = [
        _steady_check(cord, steady_a, code),
        _bright_check(cord, bright_a, about_c, code),
        *(() if breaker_a is None else (_breaker_check(cord, breaker_a, about_c, code),)),
        _cold_check(cord, record_low_c),
        _height_check(lowest, snow_m),
    ]
    if loop_m is not None:
        checks.append(_loop_check(tightest, loop_m))
    return HingeCable(
        cord=cord,
        code=code,
        chosen=size is not None,
        radius_m=radius,
        clamps=held,
        boxes=on_pole(hinge_height_m, held.down_m),
        least_m=tightest.least_m,
        loop_m=loop,
        cut_m=loop + 2.0 * TAIL_M,
        tightest_deg=tightest.tilt_deg,
        longest_apart_m=farthest.apart_m,
        longest_apart_deg=farthest.tilt_deg,
        ends=(hung[0], hung[-1]),
        lowest_m=lowest,
        moves=round(365.0 * moves_a_day * years),
        strands=_strands(cord.size),
        parts=_parts(cord, on_pole(hinge_height_m, held.down_m), code),
        checks=tuple(checks),
        working=_working(
            cord, bend_times, radius, tightest, farthest, loop, loop_m is not None, code
        ),
        notes=(
            *(() if size is not None or _serves(checks) else (NO_CORD,)),
            *_notes(cord, record_low_c, moves_a_day * 365.0 * years, tightest, radius),
        ),
    )


def _cord(
    kind: Kind, size: str | None, steady_a: float, bright_a: float, about_c: float,
    outside_m: float | None, coldest_c: float | None, breaker_a: float,
) -> Cord:  # fmt: skip
    if size is None:
        cord = cord_for(kind, steady_a, bright_a, about_c, breaker_a)
    else:
        named = [one for one in cords(kind) if one.size == size]
        if not named:
            known = ", ".join(one.size for one in cords(kind))
            message = f"no {kind} of {size}; known: {known}"
            raise ValueError(message)
        cord = named[0]
    return Cord(
        kind=cord.kind,
        size=cord.size,
        carries_a=cord.carries_a,
        outside_m=cord.outside_m if outside_m is None else outside_m,
        rated_c=cord.rated_c,
        coldest_c=cord.coldest_c if coldest_c is None else coldest_c,
        source=cord.source,
    )


def _serves(checks: list[Check]) -> bool:
    """Whether the cord bears current, heat and breaker; cold and height of the loop are other questions."""
    return all(one.holds for one in checks if one.unit == "A")


def _travel(least_deg: float, steepest_deg: float) -> list[float]:
    """Both ends and every half degree between, so that a longer travel looks at all a shorter one did."""
    first, last = ceil(least_deg / TILT_STEP_DEG), int(steepest_deg / TILT_STEP_DEG)
    inner = {number * TILT_STEP_DEG for number in range(first, last + 1)}
    return sorted(inner | {least_deg, steepest_deg})


def _steady_check(cord: Cord, steady_a: float, code: Code) -> Check:
    source = borrowed(CARRIES[cord.kind], code)
    working = Working(
        "what the cord carries for hours",
        (
            Step("1.56 times the short-circuit current", "I", "", steady_a, "A", steady_source(code)),
            Step(f"{cord.kind} {cord.size}, two live conductors", "Ic", "", cord.carries_a, "A", source),
        ),
    )  # fmt: skip
    use = share(steady_a, cord.carries_a)
    return Check(HINGE_CABLE, "current for hours", steady_a, cord.carries_a, "A", use, source, working)  # fmt: skip


def _in_heat(cord: Cord, about_c: float, code: Code) -> tuple[Step, Step]:
    left, source = share_left(about_c, cord.rated_c), borrowed(CARRIES[cord.kind], code)
    return (
        Step(f"share left at {about_c:g} C, {cord.rated_c} C column", "k", "", left, "", borrowed(SURROUNDING, code)),
        Step("carries", "k Ic", f"{left:g} x {cord.carries_a:g}", cord.carries_at_a(about_c), "A", source),
    )  # fmt: skip


def _breaker_check(cord: Cord, breaker_a: float, about_c: float, code: Code) -> Check:
    """The battery's way back through a failed controller is what the breaker is there for; the cord must outlast it."""
    source, steps = PROTECTED_BY[code], _in_heat(cord, about_c, code)
    working = Working(
        "the breaker against the cord",
        (Step("breaker of the run", "In", "", breaker_a, "A", Source("the homestead file, or the next standard rating", status="computed")), *steps),
        ("No next standard size up for a cord: it is taken that the breaker may not be over what it carries.",),
    )  # fmt: skip
    carried = steps[-1].value
    return Check(HINGE_CABLE, BREAKER_FITS, breaker_a, carried, "A", share(breaker_a, carried), source, working)  # fmt: skip


def _bright_check(cord: Cord, bright_a: float, about_c: float, code: Code) -> Check:
    carried, source = cord.carries_at_a(about_c), borrowed(CARRIES[cord.kind], code)
    working = Working(
        "what the cord carries in the heat",
        (Step("1.25 times the short-circuit current", "I", "", bright_a, "A", bright_source(code)), *_in_heat(cord, about_c, code)),
    )  # fmt: skip
    use = share(bright_a, carried)
    return Check(HINGE_CABLE, "current in the heat", bright_a, carried, "A", use, source, working)


def _cold_check(cord: Cord, record_low_c: float) -> Check:
    """Kelvins under a room's 20 C: what the place asks for, against what the cord was bent at."""
    asked, bears = max(0.0, ROOM_C - record_low_c), ROOM_C - cord.coldest_c
    working = Working(
        "bending in the cold",
        (
            Step("coldest on record", "T", "", record_low_c, "C", OWNER),
            Step("coldest the cord may be bent at", "Tmin", "", cord.coldest_c, "C", COLD),
            Step("how far under 20 C (68 F), asked", "20 - T", f"20 - ({record_low_c:.1f})", asked, "K", OWNER),
            Step("how far under 20 C (68 F), borne", "20 - Tmin", f"20 - ({cord.coldest_c:g})", bears, "K", COLD),
        ),
        ("Lying still it bears more cold than this; it is the move that cracks it.",),
    )  # fmt: skip
    return Check(
        HINGE_CABLE, "bent at the record low: degrees under 20 C (68 F)", asked, bears, "K", share(asked, bears), COLD, working
    )  # fmt: skip


def _height_check(lowest_m: float, lying_m: float | None) -> Check:
    snow_m = 0.0 if lying_m is None else lying_m
    wanted, given = snow_m + LOOP_CLEAR_M, max(0.0, lowest_m)
    lies = OWNER if lying_m is not None else NO_SNOW
    ours = Source("room under the loop", status="ours")
    working = Working(
        "the loop over ground and snow",
        (
            Step("lying snow", "", "", snow_m, "m", lies),
            Step("wanted under the loop", "", f"{snow_m:g} + {LOOP_CLEAR_M:g}", wanted, "m", ours),
            Step("lowest it can hang at any tilt", "", "", given, "m", Source("length of the loop", status="computed")),
        ),
    )  # fmt: skip
    return Check(
        HINGE_CABLE, "loop over ground and snow", wanted, given, "m", share(wanted, given), ours, working
    )  # fmt: skip


def _loop_check(tightest: AtTilt, loop_m: float) -> Check:
    working = Working(
        "the loop as cut",
        (
            Step(f"shortest, at tilt {tightest.tilt_deg:g}", "Lmin", "", tightest.least_m, "m", PATH),
            Step("as cut, between the clamps", "L", "", loop_m, "m", OWNER),
        ),
    )  # fmt: skip
    return Check(
        HINGE_CABLE, "loop long enough over the travel", tightest.least_m, loop_m, "m", share(tightest.least_m, loop_m), PATH, working
    )  # fmt: skip


def _working(
    cord: Cord, times: float, radius: float, tightest: AtTilt, farthest: AtTilt, loop: float, cut: bool, code: Code
) -> Working:  # fmt: skip
    found = Step("loop between the clamps, rounded up", "L", f"{1.0 + SLACK_SHARE:g} x {tightest.least_m:.3f}", loop, "m", SLACK)  # fmt: skip
    given = Step("loop between the clamps, as cut", "L", "", loop, "m", OWNER)
    return Working(
        "the loop at the hinge",
        (
            Step(f"{cord.kind} {cord.size}, outside", "D", "", cord.outside_m, "m", borrowed(Source(cord.source, status="seen-copy"), code)),
            Step("least radius of a bend", "R", f"{times:g} x {cord.outside_m:.4f}", radius, "m", BEND),
            Step(f"clamps farthest apart, at tilt {farthest.tilt_deg:g}", "a", "", farthest.apart_m, "m", Source("plane geometry", status="computed")),
            Step(f"shortest cord that bends no tighter, at tilt {tightest.tilt_deg:g}", "Lmin", "", tightest.least_m, "m", PATH),
            given if cut else found,
        ),
    )  # fmt: skip


def _strands(size: str) -> int | None:
    for row in table("wiring", "run/strands"):
        if row["size"] == size:
            return int(row["strands"])
    return None


def _parts(cord: Cord, boxes: OnPole, code: Code) -> tuple[AtHinge, ...]:
    ends = "the box under the hinge" if boxes.two_boxes else "the switch's box on the pole"
    down = (
        AtHinge("pipe down the pole", f"from {ends} to the switch's box", "fixed wires of the run's size go on in it: a cord in reach of hands, dogs and mowers is not allowed", FIXED[code]),
    )  # fmt: skip
    return (
        AtHinge("cord", f"from the box on the frame to {ends}", "for extra hard usage, wet, sunlight and cold", ALLOWED[code]),
        AtHinge("earth wire in the cord", "the same way", f"as thick as its live ones, {cord.size}: never thinner than the code asks", ALLOWED[code]),
        *(down if boxes.two_boxes else ()),
        AtHinge("strain relief, wet, for this diameter", "at both ends of the cord", "the pull ends at the gland, never at a terminal", PULLED[code]),
        AtHinge("clamp with a rubber lining", "on the frame and on the pole, just before each gland", "the loop flexes between the clamps, not at the glands", COMMON_PRACTICE),
        AtHinge("chafe sleeve, 12 in (300 mm)", "under each clamp and wherever it may touch steel", "wind rubs it all winter", COMMON_PRACTICE),
        AtHinge("drip loop", "the loop itself: lowest point under the box's entry, entry from below", "water runs off the loop, not into the box", COMMON_PRACTICE),
        AtHinge("1 in (25 mm) from every moving part", "rod, pins, lock, edges", "a pinched cord is a fault to the pole", APART),
        AtHinge("bare steel rounded or capped", "edges of strongback, ears and pole top near the loop", "a burr cuts it", COMMON_PRACTICE),
    )  # fmt: skip


def _notes(
    cord: Cord, record_low_c: float, moves: float, tightest: AtTilt, radius: float
) -> tuple[str, ...]:
    notes = [
        "The earth wire goes over the hinge inside the same cord: the hinge pins are no earth.",
        "Figures of cords are from memory: before you buy, read diameter, amperes and cold rating on its sheet, and sum again.",
        "Move the array once over the whole travel by hand before it is wired, the cord tied in place, and watch the loop: it must not "
        "reach the rod, the lock or the pole top.",
        "The run's length in the file ends at the switch; cord and wires down the pole lie beyond it; what they lose is counted with the run.",
        "Leave the cord out of plastic liquid-tight hose: that has cracked at hinges, and stiffens in the cold (common practice).",
    ]
    if record_low_c < cord.coldest_c:
        notes.append(
            f"Do not tip below {warmth_both_ways(cord.coldest_c)} with this cord, or ask for one made for colder; lying still it takes no harm."
        )
    if moves > TESTED_MOVES:
        notes.append(
            f"{moves:,.0f} moves in its life: more than the {TESTED_MOVES:,} of the usual flexing test (EN 50396, from memory). Ask for a cord with class 6 "
            "strands, or change it half-way."
        )
    if tightest.least_m > tightest.apart_m + tau * radius:
        notes.append(
            "The cord must make nearly a whole turn between these clamps: move the box under the hinge farther down or out."
        )
    return tuple(notes)
