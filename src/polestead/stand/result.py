"""What `stand` hands up."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from polestead.base.check import Check
from polestead.base.working import Working

Verdict = Literal["stands", "stands only when laid flat", "gives"]


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
    code_use: float
    code_part: str


@dataclass(frozen=True, slots=True)
class StandResult:
    """Does it stand.

    Attributes:
        verdict: Over the whole travel.
        card: Every whole degree of the travel.
        checks: The code check of every part, each at its worst tilt and side, worst first.
        geometry_checks: Clearance, pole strike, height, linkage.
        code_gust_m_s: The code's wind at its allowable level, to draw beside the card (METHODS 4.3).
        move_under_m_s: Least moving gust over the whole travel, None without a drive.
        first_gives: Part that gives first over the whole card, and its tilt and gust.
        first_gives_working: How that gust was found.
        relied_on: What the verdict relies on (the lock, laying flat, soil ticked double).
        notes: Scope and caution said once.
    """

    verdict: Verdict
    card: tuple[TiltStand, ...]
    checks: tuple[Check, ...]
    geometry_checks: tuple[Check, ...]
    code_gust_m_s: float
    move_under_m_s: float | None
    first_gives: str
    first_gives_tilt_deg: float
    first_gives_m_s: float
    first_gives_working: Working
    relied_on: tuple[str, ...]
    notes: tuple[str, ...]
