"""Bolted and pinned joints: count, size, length, and how tight, without a torque that is not the maker's own."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil

from polestead.base.source import COMMON_PRACTICE, Source
from polestead.base.table import table
from polestead.build.given import BEARINGS, Given
from polestead.build.pieces.held import clamp_count
from polestead.homestead.model import Lock

TURN = Source("RCSC Specification", "table 8.2, both faces square to the bolt", "seen-copy")
SNUG = Source("RCSC Specification", "8.1, snug-tightened", "memory")
MAKER = Source("the maker's own sheet, asked for", status="owner")
FULL_EFFORT = "snug-tight: the plies in firm contact, each nut as tight as one person brings it with an ordinary spanner as long as twelve bolt diameters or more, from the middle of the joint outwards, twice round"
LOCKED = "then a second nut or a nut that locks, and a mark across nut, bolt and plate"

BEYOND_EAR = (
    1.0  # pin diameters beyond each outer ear, for washer and cotter: common practice, no source
)


@dataclass(frozen=True, slots=True)
class BoltedJoint:
    """One joint.

    Attributes:
        place: Where.
        count: Bolts or pins in it.
        size: As sold, or the diameter.
        steel: Grade.
        grip_m: What it goes through, None where the file does not tell it.
        length_m: To buy: grip, washers, nut and two threads, up to the next length sold; None without a grip.
        washers: On each.
        hole_m: To drill, None where it is not to be drilled yet.
        tighten: How tight, in words.
        turn_share: Of a whole turn past snug, None where it is not turned on.
        source: Who says so.
    """

    place: str
    count: int
    size: str
    steel: str
    grip_m: float | None
    length_m: float | None
    washers: int
    hole_m: float | None
    tighten: str
    turn_share: float | None
    source: Source


def bolt_row(diameter_m: float) -> dict[str, str] | None:
    """Row of ``bolts.csv`` within a tenth of a millimetre; None for a size that is not there."""
    rows = table("build", "pieces/bolts")
    return next((r for r in rows if abs(float(r["diameter_mm"]) - diameter_m * 1000.0) < 0.1), None)


def bolt_length_m(grip_m: float, diameter_m: float, washers: int = 1) -> float | None:
    """Length to buy, measured under the head: grip, washers, and what nut and stick-out take, up to the next length sold.

    Source: ``bolts.csv`` (RCSC table C-2.2, from memory; ISO 4032 nut and two threads).

    Args:
        grip_m: All plies [m].
        diameter_m: Of the bolt [m].
        washers: On it.

    Returns:
        [m], None for a size the table has not.

    Example:
        >>> round(bolt_length_m(0.025, 0.01905, 1) / 0.0254, 2)  # 25 mm in 3/4 in: .984 + .156 + 1 = 2.14
        2.25
    """
    row = bolt_row(diameter_m)
    if row is None:
        return None
    wanted = grip_m * 1000.0 + washers * float(row["washer_mm"]) + float(row["adds_mm"])
    step = float(row["step_mm"])
    return ceil(wanted / step - 1e-9) * step / 1000.0


def turn_past_snug(length_m: float, diameter_m: float) -> float | None:
    """Part of a turn past snug that stretches a high-strength bolt: a third, a half, two thirds.

    Source: RCSC Specification table 8.2, both faces square (seen in a copy): up to 4 diameters long 1/3, to 8 diameters 1/2,
    to 12 diameters 2/3; longer ones are tried on a gauge.  A325 only; never A307, never a bolt through a hollow.

    Args:
        length_m: Of the bolt [m].
        diameter_m: Its diameter [m].

    Example:
        >>> [round(turn_past_snug(n * 0.019, 0.019), 3) for n in (4, 8, 12)], turn_past_snug(0.24, 0.019)
        ([0.333, 0.5, 0.667], None)
    """
    ratio = length_m / diameter_m - 1e-9
    if ratio <= 4.0:
        return 1.0 / 3.0
    if ratio <= 8.0:
        return 0.5
    return 2.0 / 3.0 if ratio <= 12.0 else None


def pin_length_m(g: Given) -> float | None:
    """Hinge pin: both ears, their gaps, what turns between, one diameter beyond each side; None where no ear is told."""
    ear_m, middle_m = g.frame.ear_thickness_m, g.middle_m
    if ear_m is None or middle_m is None:
        return None
    return middle_m + 2.0 * g.frame.ear_gap_m + 2.0 * ear_m + 2.0 * BEYOND_EAR * g.mount.hinge_pin_m


def joints_of(g: Given) -> tuple[BoltedJoint, ...]:
    """Every joint the file tells something of."""
    holds = ((g.lock, "storm hold"), (g.prop, "prop"))
    return tuple(
        joint
        for joint in (_cap(g), _hinge(g), *(_hold(g, hold, name) for hold, name in holds), _drive(g), _clamps(g))
        if joint is not None
    )  # fmt: skip


def size_words(diameter_m: float) -> str:
    """A bolt's size as sold, or its diameter.

    Example:
        >>> size_words(0.01905), size_words(0.02), size_words(0.03175)
        ('3/4 in', 'M20', '31.75 mm')
    """
    row = bolt_row(diameter_m)
    return row["size"] if row is not None else f"{diameter_m * 1000:.2f} mm"


def _cap(g: Given) -> BoltedJoint | None:
    """Cap bolts: two walls where the sleeve is of the pole's own pipe; drawn tight on a hollow they bend its walls in."""
    f = g.frame
    if f.cap_bolts is None or f.cap_bolt_m is None:
        return None
    grip = None if f.split_sleeve_play_m is None else 2.0 * g.pipe.wall_m + f.split_sleeve_play_m
    row = bolt_row(f.cap_bolt_m)
    length = None if grip is None else bolt_length_m(grip, f.cap_bolt_m, 1)
    turn = None if length is None or f.cap_bolt_steel != "A325" else turn_past_snug(length, f.cap_bolt_m)  # fmt: skip
    past = (
        f"; where the nut bears on the pole's inner face, A325 and new, {turn:.2f} of a turn more: the wind pulls this joint both ways"
        if turn is not None
        else ""
    )
    maker = "; an 8.8 bolt is stretched only by the torque its own maker prints for that lot" if f.cap_bolt_steel == "8.8" else ""  # fmt: skip
    words = f"{FULL_EFFORT}, {LOCKED}. A bolt right through the hollow pole is left at that: more bends the walls in{past}{maker}"
    return BoltedJoint(
        "cap or sleeve on the pole", f.cap_bolts, size_words(f.cap_bolt_m), f.cap_bolt_steel, grip, length, 1,
        None if row is None else float(row["hole_mm"]) / 1000.0, words, turn, SNUG if turn is None else TURN,
    )  # fmt: skip


def _hinge(g: Given) -> BoltedJoint:
    m, f = g.mount, g.frame
    ear, middle = f.ear_thickness_m, g.middle_m
    grip = None if ear is None or middle is None else middle + 2.0 * f.ear_gap_m + 2.0 * ear
    words = "not tightened at all: it turns. Washer and cotter at both ends, greased until grease shows at both sides"
    return BoltedJoint("hinge bearings", BEARINGS, g.sold(m.hinge_pin_m), m.hinge_pin_steel, grip, pin_length_m(g), 2, None, words, None, COMMON_PRACTICE)  # fmt: skip


def _hold(g: Given, hold: Lock | None, name: str) -> BoltedJoint | None:
    if hold is None:
        return None
    words = "not tightened: it is drawn by hand. Cotter or latch that cannot be shaken out, on a lanyard; bent or rusted ones are thrown away"
    return BoltedJoint(name, 2 if hold.strut is not None else 1, g.sold(hold.pin_diameter_m), hold.pin_steel, None, None, 2, None, words, None, COMMON_PRACTICE)  # fmt: skip


def _drive(g: Given) -> BoltedJoint | None:
    if g.drive is None:
        return None
    words = "asked of the actuator's maker: pins, play, grease and any torque. A pin held on one side only is not used"
    return BoltedJoint("actuator, both ends", 2, "asked of its maker", "asked of its maker", None, None, 0, None, words, None, MAKER)  # fmt: skip


def _clamps(g: Given) -> BoltedJoint:
    a, f = g.array, g.frame
    clamps = clamp_count(a.columns, a.rows, f.rails, f.clamps_per_module, a.gap_m, a.slot_m)
    words = "asked of the makers of module and clamp, and the lower of the two: no figure stands here. Finger-tight until all modules hang, then in the order they were hung; marked across; again after the first month"
    return BoltedJoint("module clamps", clamps.middle + clamps.end, "with the clamps", "stainless, with the clamps", None, None, 1, None, words, None, MAKER)  # fmt: skip
