"""The owner's own lines in the ground, against the trench and the pier's hole."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from polestead.base.check import Check, share
from polestead.base.source import OWNER, Source
from polestead.base.working import Step, Working
from polestead.homestead.model import BuriedLine
from polestead.wiring.trench.burial import INCH_M

FUEL = Source("Common Ground Alliance best practices", "2.12, a foot from fuel lines")
FOOT = Source("a foot from water: common practice, no source", status="common practice")
SPADE = Source("6 in (150 mm) from any other line: room for a hand and a spade", status="ours")
APART: dict[str, tuple[float, Source]] = {
    "gas": (12.0 * INCH_M, FUEL),
    "water": (12.0 * INCH_M, FOOT),
}
ANY_OTHER = (6.0 * INCH_M, SPADE)
BY_HAND = Source("public dig-line guidance", "hand-dig within 24 in of a mark; some say 36")
BY_HAND_M = 24.0 * INCH_M
HALF_TRENCH_M = 0.15  # of a narrow digger bucket
THICK_M = {
    "water": 0.05,
    "gas": 0.05,
    "sewer": 0.11,
    "power": 0.05,
    "signal": 0.03,
    "other": 0.11,
}  # ours: taken, where nobody measured
THICK = Source("outside diameter taken", status="ours")
NOBODY_MARKS = (
    "The public dig line marks only what utilities own. On this place water, gas, septic and every earlier cable are your own: "
    "nobody marks them but you. Write each into the file as [[buried]], or pay a locator, before anything digs."
)
NONE_WRITTEN = "No line of your own stands in the file. That does not mean that there is none."
NONE_ASKED = "Lines of your own in the ground (buried): the file has none. Is there truly none where trench and hole go: water, gas, septic, an earlier cable?"
Way = Literal["over it", "under it", "into it", "depth unknown", "beside it", "unknown"]


@dataclass(frozen=True, slots=True)
class OwnLine:
    """One line against trench and hole.

    Attributes:
        name, what: As in the file.
        way: How the trench passes: over it, under it, into it; beside it; or what is unknown.
        crosses_at_m: Along the run from the pole; None where it does not cross or nobody said.
        top_m: Depth to its top, None unknown.
        clear_m: Soil left between pipe and line, + apart; None where depth or distance is unknown.
        hand_dig_m: From and to, along the run from the pole, where only a spade digs; None for none there.
        hand_dig_all: True where the line runs so near beside the trench that all of it is dug by hand.
        hole_edge_m: From the line to the edge of the pier's hole, None unknown.
        hand_dig_hole: Whether that side of the hole is dug by hand.
        offsets: The owner's own tape marks.
        asked: What is still unknown, each as a question.
        checks: Distance kept, in the trench and at the hole.
    """

    name: str
    what: str
    way: Way
    crosses_at_m: float | None
    top_m: float | None
    clear_m: float | None
    hand_dig_m: tuple[float, float] | None
    hand_dig_all: bool
    hole_edge_m: float | None
    hand_dig_hole: bool
    offsets: tuple[str, ...]
    asked: tuple[str, ...]
    checks: tuple[Check, ...]


@dataclass(frozen=True, slots=True)
class OwnLines:
    """All of them.

    Attributes:
        lines: In order along the run, those without a place last.
        notes: That nobody marks them.
    """

    lines: tuple[OwnLine, ...]
    notes: tuple[str, ...]

    @property
    def asks(self) -> tuple[str, ...]:
        """What is still unknown of each, by its name; of a file without lines, whether there are any."""
        if not self.lines:
            return (NONE_ASKED,)
        return tuple(f"{line.name}: {ask}" for line in self.lines for ask in line.asked)


def own_lines_of(
    lines: tuple[BuriedLine, ...],
    cover_m: float,
    outside_m: float,
    run_length_m: float,
    pier_radius_m: float,
) -> OwnLines:
    """Every line of the file against the trench and the hole.

    Args:
        lines: As written.
        cover_m: Soil over our cable or pipe [m].
        outside_m: Its outside diameter [m].
        run_length_m: Length of the run [m].
        pier_radius_m: Radius of the pier's hole [m].
    """
    found = [_line(line, cover_m, outside_m, run_length_m, pier_radius_m) for line in lines]
    found.sort(key=lambda one: (one.crosses_at_m is None, one.crosses_at_m or 0.0))
    return OwnLines(tuple(found), (NOBODY_MARKS,) if lines else (NONE_WRITTEN, NOBODY_MARKS))


def passing(cover_m: float, outside_m: float, top_m: float, thick_m: float) -> tuple[Way, float]:
    """Whether our pipe passes over or under a line, and the soil between the two.

    Args:
        cover_m: Depth to our pipe's top [m].
        outside_m: Its outside diameter [m].
        top_m: Depth to the line's top [m].
        thick_m: Its outside diameter [m].

    Returns:
        The way, and the soil left [m]; less than nothing where they meet.

    Example:
        >>> way, clear = passing(0.6096, 0.04, 1.8288, 0.05)
        >>> way, round(clear, 3)
        ('over it', 1.179)
    """
    over, under = top_m - (cover_m + outside_m), cover_m - (top_m + thick_m)
    if over >= 0.0:
        return "over it", over
    if under >= 0.0:
        return "under it", under
    return "into it", max(over, under)


def _line(
    line: BuriedLine, cover_m: float, outside_m: float, run_length_m: float, pier_radius_m: float
) -> OwnLine:
    way, clear, checks, asked = _in_trench(line, cover_m, outside_m, run_length_m)
    edge = None if line.from_pole_m is None else line.from_pole_m - pier_radius_m
    if edge is None:
        asked.append("How near does it come to the pole?")
    else:
        checks.append(_hole_check(line, pier_radius_m))
    if not line.offsets:
        asked.append("How far is it from two things that stay? Tape it before it is covered.")
    at, beside = line.crosses_run_at_m, line.from_run_m
    near = at is None and beside is not None and beside - HALF_TRENCH_M < BY_HAND_M
    return OwnLine(
        name=line.name,
        what=line.what,
        way=way,
        crosses_at_m=at,
        top_m=line.depth_m,
        clear_m=clear,
        hand_dig_m=None if at is None or at > run_length_m else (max(0.0, at - BY_HAND_M), min(run_length_m, at + BY_HAND_M)),
        hand_dig_all=near,
        hole_edge_m=edge,
        hand_dig_hole=edge is not None and edge < BY_HAND_M,
        offsets=line.offsets,
        asked=tuple(asked),
        checks=tuple(checks),
    )  # fmt: skip


def _in_trench(
    line: BuriedLine, cover_m: float, outside_m: float, run_length_m: float
) -> tuple[Way, float | None, list[Check], list[str]]:
    """How the trench passes it: way, soil between, checks, questions."""
    if line.crosses_run_at_m is not None:
        asked = []
        if line.crosses_run_at_m > run_length_m:
            asked.append("It is said to cross past the end of the run: measure again.")
        if line.depth_m is None:
            return "depth unknown", None, [], [*asked, "How deep is its top? Find it with a spade before the digger comes."]  # fmt: skip
        thick = THICK_M[line.what]
        way, clear = passing(cover_m, outside_m, line.depth_m, thick)
        return way, clear, [_crossing_check(line, way, clear, cover_m, outside_m, thick)], asked
    if line.from_run_m is None:
        ask = "Where does it lie: does it cross the trench, or how near does it come?"
        return "unknown", None, [], [ask]
    clear = line.from_run_m - outside_m / 2.0 - THICK_M[line.what] / 2.0
    return "beside it", clear, [_beside_check(line, clear, outside_m)], []


def _crossing_check(
    line: BuriedLine, way: Way, clear: float, cover_m: float, outside_m: float, thick_m: float
) -> Check:
    top = line.depth_m or 0.0
    formula = (
        f"{cover_m:.3f} - ({top:.3f} + {thick_m:g})"
        if way == "under it"
        else f"{top:.3f} - ({cover_m:.3f} + {outside_m:.3f})"
    )
    working = Working(
        f"{line.name} where the trench crosses it",
        (
            Step("its top, under the ground", "z", "", top, "m", OWNER),
            Step("its outside diameter", "D", "", thick_m, "m", THICK),
            Step("our pipe's or cable's top", "d", "", cover_m, "m", OWNER),
            Step("wanted between", "", "", _apart(line)[0], "m", _apart(line)[1]),
            Step(f"left between, passing {way}", "c", formula, clear, "m", Source("levels", status="computed")),
        ),
        ("A gas line may want more by the local code or its supplier: ask.",) if line.what == "gas" else (),
    )  # fmt: skip
    return _kept(line, "between it and our line where they cross", clear, working)


def _beside_check(line: BuriedLine, clear: float, outside_m: float) -> Check:
    working = Working(
        f"{line.name} beside the trench",
        (
            Step("nearest, middle to middle", "a", "", line.from_run_m or 0.0, "m", OWNER),
            Step("wanted between", "", "", _apart(line)[0], "m", _apart(line)[1]),
            Step("left between", "c", f"{line.from_run_m:.3f} - {outside_m / 2.0:.3f} - {THICK_M[line.what] / 2.0:g}", clear, "m", THICK),
        ),
    )  # fmt: skip
    return _kept(line, "between it and our line beside it", clear, working)


def _hole_check(line: BuriedLine, radius_m: float) -> Check:
    edge = (line.from_pole_m or 0.0) - radius_m
    working = Working(
        f"{line.name} beside the pier's hole",
        (
            Step("nearest to the pole", "a", "", line.from_pole_m or 0.0, "m", OWNER),
            Step("radius of the hole", "r", "", radius_m, "m", OWNER),
            Step("wanted between", "", "", _apart(line)[0], "m", _apart(line)[1]),
            Step("left", "c", f"{line.from_pole_m:.3f} - {radius_m:.3f}", edge, "m", Source("plan", status="computed")),
        ),
    )  # fmt: skip
    return _kept(line, "between it and the pier's hole", edge, working)


def _apart(line: BuriedLine) -> tuple[float, Source]:
    """Soil wanted between it and us, and who wants it."""
    return APART.get(line.what, ANY_OTHER)


def _kept(line: BuriedLine, between: str, left_m: float, working: Working) -> Check:
    """A distance that must be kept; nothing left, or less, holds nothing."""
    left, (wanted, source) = max(0.0, left_m), _apart(line)
    return Check(
        "own line", f"{line.name}, soil left {between}", wanted, left, "m", share(wanted, left), source, working
    )  # fmt: skip
