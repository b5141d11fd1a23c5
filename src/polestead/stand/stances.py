"""Four ways to leave it: working, storm flat, snow steep, hail steep."""

from __future__ import annotations

from polestead.stand.code import FLAT_DEG, FLAT_WITHIN_DEG
from polestead.stand.result import Stance, TiltStand
from polestead.stand.setting import SET_WITHIN_DEG

NEAR_FLAT_DEG = (
    15.0  # the first row of the open-roof figure's slopes; laid flat is looked for below it
)
HAIL_GUST_M_S = 27.0  # 60 mph: gusts that often come with hail, common practice, no source


def stances_of(card: tuple[TiltStand, ...], winter_deg: float, summer_deg: float) -> tuple[Stance, ...]:  # fmt: skip
    """The four stances.

    Each stands to what the weakest tilt within the owner's setting error stands to: 5 degrees, about flat 10.
    Working: the weaker of the owner's two tilts.  Storm flat: of the tilts near flat the one that stands to most.  Snow steep:
    the steepest.  Hail steep: the steepest that stands to the gusts that come with hail.

    Args:
        card: Every degree of the travel, flat to steep.
        winter_deg: The owner's winter tilt.
        summer_deg: His summer tilt.
    """

    def as_set(row: TiltStand) -> float:
        return as_really_set(card, row).stands_to_m_s

    working = min((_nearest(card, winter_deg), _nearest(card, summer_deg)), key=as_set)
    flat = max((row for row in card if row.tilt_deg <= max(NEAR_FLAT_DEG, card[0].tilt_deg)), key=as_set)  # fmt: skip
    steep = card[-1]
    hail = max((row for row in card if as_set(row) >= HAIL_GUST_M_S), key=lambda row: row.tilt_deg, default=steep)  # fmt: skip
    return (
        _stance(card, "working", working, "The weaker of your two tilts: lay it flat before a rarer gust."),
        _stance(card, "storm flat", flat, "Locked; the frame's own edges still push a little."),
        _stance(card, "snow steep", steep, "Sheds snow; not for wind beyond this gust."),
        _stance(card, "hail steep", hail, "Hail comes with gusts of its own: steeper than this it would not stand to them."),
    )  # fmt: skip


def _nearest(card: tuple[TiltStand, ...], tilt_deg: float) -> TiltStand:
    return min(card, key=lambda row: abs(row.tilt_deg - tilt_deg))


def set_within_deg(tilt_deg: float) -> float:
    """How near the owner is taken to set a tilt [degree]; near flat the level tells less."""
    return FLAT_WITHIN_DEG if tilt_deg <= FLAT_DEG else SET_WITHIN_DEG


def as_really_set(card: tuple[TiltStand, ...], row: TiltStand) -> TiltStand:
    """The weakest tilt within the owner's setting error of a row."""
    error = set_within_deg(row.tilt_deg)
    near = (one for one in card if abs(one.tilt_deg - row.tilt_deg) <= error + 1e-9)
    return min(near, key=lambda one: one.stands_to_m_s)


def _stance(card: tuple[TiltStand, ...], name: str, row: TiltStand, words: str) -> Stance:
    """A stance as it is really set."""
    near = as_really_set(card, row)
    return Stance(name, row.tilt_deg, near.stands_to_m_s, near.gives_first, row.code_use, words)
