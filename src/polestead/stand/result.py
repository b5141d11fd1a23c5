"""What `stand` hands up."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from polestead.base.check import Check
from polestead.base.working import Working
from polestead.mount.linkage import TapeRow
from polestead.mount.pins import BestPins, Refit
from polestead.strength.sleeve import SplitSleeve

Verdict = Literal["stands", "stands only when laid flat", "gives"]
State = Literal["locked", "half snow", "rod", "prop", "moving"]
STATES: tuple[State, ...] = ("locked", "half snow", "rod", "prop", "moving")


@dataclass(frozen=True, slots=True)
class TiltStand:
    """One tilt of the gust card.

    Attributes:
        tilt_deg: The tilt.
        stands_to_m_s: First gust at which a part is at its limit, locked (METHODS 4.3; conventions §12).
        gives_first: That part.
        wind_side: ``back`` or ``glass``.
        snow_stands_to_m_s: The same with half-covered snow lying on it.
        rod_stands_to_m_s: On the rod alone, None without a drive.
        rod_gives_first: The part then.
        move_under_m_s: Largest gust in which it may be moved *at this tilt*, None without a drive.
        path_under_m_s: Largest gust in which it may be laid flat from here: the least of ``move_under_m_s`` on the way.
        flat_in_s: How long that takes at the drive's rated speed; None if not known.
        code_use: Largest use of any part in the code's own check at this tilt.
        code_part: That part.
    """

    tilt_deg: float
    stands_to_m_s: float
    gives_first: str
    wind_side: str
    snow_stands_to_m_s: float
    rod_stands_to_m_s: float | None
    rod_gives_first: str
    move_under_m_s: float | None
    path_under_m_s: float | None
    flat_in_s: float | None
    code_use: float
    code_part: str


@dataclass(frozen=True, slots=True)
class StateCard:
    """The gusts of one state over the card's tilts.

    Attributes:
        state: Its name.
        words: What it means.
        tilt_deg: [tilts]; the prop knows one only.
        gust_m_s: [tilts].
        gives_first: [tilts].
        weakest: Place of the least gust.
        working: How the least gust was found.
    """

    state: State
    words: str
    tilt_deg: tuple[float, ...]
    gust_m_s: tuple[float, ...]
    gives_first: tuple[str, ...]
    weakest: int
    working: Working


@dataclass(frozen=True, slots=True)
class Stance:
    """A tilt it is left at for a reason.

    Attributes:
        name: ``working``, ``storm flat``, ``snow steep`` or ``hail steep``.
        tilt_deg: The tilt.
        stands_to_m_s: Locked there, at the weakest tilt within the owner's setting error (5 degrees, about flat 10).
        gives_first: The part then.
        code_use: Largest use in the code's own check there.
        words: What to know.
    """

    name: str
    tilt_deg: float
    stands_to_m_s: float
    gives_first: str
    code_use: float
    words: str


@dataclass(frozen=True, slots=True)
class HalfBuilt:
    """A state on the way up.

    Attributes:
        name: In words.
        gust_m_s: Gust at which something is at its limit.
        gives_first: That thing.
        words: What to do.
        working: How it was found.
    """

    name: str
    gust_m_s: float
    gives_first: str
    words: str
    working: Working


@dataclass(frozen=True, slots=True)
class Change:
    """One change and what it does to the card.

    Attributes:
        words: What is changed.
        weakest_m_s: Least gust of the card with it.
        gives_first: The part that gives first then.
        worst_use: Largest use in the code's own check with it.
        price: In the owner's currency, None where not known.
    """

    words: str
    weakest_m_s: float
    gives_first: str
    worst_use: float
    price: float | None = None


@dataclass(frozen=True, slots=True)
class Rusted:
    """The pole at the ground after so many years without care.

    Attributes:
        years: After the paint or zinc is gone.
        wall_m: Design wall left.
        use: Of the pole at the collar, in the code's own check.
    """

    years: int
    wall_m: float
    use: float


@dataclass(frozen=True, slots=True)
class RodForce:
    """What acts along the rod at one tilt, + pulls it out.

    Attributes:
        tilt_deg: The tilt.
        dead_n: Weight alone.
        snow_pull_n, snow_push_n: Uneven snow, what pulls most and what pushes most.
        wind_pull_n, wind_push_n: Wind of the code's check in its factor.
        friction_n: Of rusty pins under weight and that wind, against any move.
    """

    tilt_deg: float
    dead_n: float
    snow_pull_n: float
    snow_push_n: float
    wind_pull_n: float
    wind_push_n: float
    friction_n: float


@dataclass(frozen=True, slots=True)
class StandMore:
    """What is asked for beside the card.

    Attributes:
        half_built: States on the way up.
        changes: Single changes, the one that helps the card most first.
        smallest_pier: The pier of least concrete that holds, None where none of those tried does.
        best_pins: Where the actuator's pins bear least, None without a drive.
        rod_table: Rod that shows, lever and seconds a degree, every five degrees; empty without a drive.
        refit: The pins as the measured pairs have them, None without a pair.
        rod_forces: What acts along the rod over the travel; empty without a drive.
        governing_room: Which limit of the geometry governs, and how much of it is used.
        heap: The low edge over the snow that lies and the heap of one shed fall; not in the verdict, for it can be cleared.
        leans_m: How far the hinge moves in the code's wind at its allowable level, the pole alone bending.
        sleeve: What to cut for a split sleeve, None where none is wanted.
    """

    half_built: tuple[HalfBuilt, ...]
    changes: tuple[Change, ...]
    smallest_pier: SmallestPier | None
    best_pins: BestPins | None
    rod_table: tuple[TapeRow, ...]
    refit: Refit | None
    rod_forces: tuple[RodForce, ...]
    governing_room: Check
    heap: Check
    leans_m: float
    sleeve: SplitSleeve | None


@dataclass(frozen=True, slots=True)
class SmallestPier:
    """A pier found by search.

    Attributes:
        diameter_m, depth_m: Its size.
        concrete_m3: What it takes, without the collar and the pole.
        as_planned_m3: What the file's own pier takes.
        governs: The part used most, and how much.
        use: Of that part.
    """

    diameter_m: float
    depth_m: float
    concrete_m3: float
    as_planned_m3: float
    governs: str
    use: float


@dataclass(frozen=True, slots=True)
class StandResult:
    """Does it stand.

    Attributes:
        verdict: Over the whole travel.
        card: Every whole degree of the travel.
        states: The same by state, with the working of the weakest tilt of each.
        stances: Four ways to leave it.
        checks: The code check of every part, each at its worst tilt and side, worst first.
        geometry_checks: Clearance, pole strike, height, linkage.
        code_gust_m_s: The code's wind at its allowable level, to draw beside the card (METHODS 4.3).
        move_under_m_s: Least moving gust over the whole travel, None without a drive.
        first_gives: Part that gives first over the whole card, and its tilt and gust.
        first_gives_working: How that gust was found.
        rust: The pole at the ground, by years.
        relied_on: What the verdict relies on (the lock, laying flat, soil ticked double).
        notes: Scope and caution said once.
    """

    verdict: Verdict
    card: tuple[TiltStand, ...]
    states: tuple[StateCard, ...]
    stances: tuple[Stance, ...]
    checks: tuple[Check, ...]
    geometry_checks: tuple[Check, ...]
    code_gust_m_s: float
    move_under_m_s: float | None
    first_gives: str
    first_gives_tilt_deg: float
    first_gives_m_s: float
    first_gives_working: Working
    rust: tuple[Rusted, ...]
    relied_on: tuple[str, ...]
    notes: tuple[str, ...]
