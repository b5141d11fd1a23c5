"""Four ways to leave it: working, storm flat, snow steep, hail steep."""

from __future__ import annotations

from polestead.stand.result import Stance, TiltStand

NEAR_FLAT_DEG = (
    15.0  # the first row of the open-roof figure's slopes; laid flat is looked for below it
)
HAIL_GUST_M_S = 27.0  # 60 mph: gusts that often come with hail, common practice, no source


def stances_of(card: tuple[TiltStand, ...], winter_deg: float, summer_deg: float) -> tuple[Stance, ...]:  # fmt: skip
    """The four stances.

    Working: the weaker of the owner's two tilts.  Storm flat: of the tilts near flat the one that stands to most.  Snow steep:
    the steepest.  Hail steep: the steepest that stands to the gusts that come with hail.

    Args:
        card: Every degree of the travel, flat to steep.
        winter_deg: The owner's winter tilt.
        summer_deg: His summer tilt.
    """
    working = min((_nearest(card, winter_deg), _nearest(card, summer_deg)), key=_gust)
    flat = max((row for row in card if row.tilt_deg <= max(NEAR_FLAT_DEG, card[0].tilt_deg)), key=_gust)  # fmt: skip
    steep = card[-1]
    hail = max((row for row in card if row.stands_to_m_s >= HAIL_GUST_M_S), key=lambda row: row.tilt_deg, default=steep)  # fmt: skip
    return (
        _stance("working", working, "The weaker of your two tilts: lay it flat before a rarer gust."),
        _stance("storm flat", flat, "Locked; the frame's own edges still push a little."),
        _stance("snow steep", steep, "Sheds snow; not for wind beyond this gust."),
        _stance("hail steep", hail, "Hail comes with gusts of its own: steeper than this it would not stand to them."),
    )  # fmt: skip


def _nearest(card: tuple[TiltStand, ...], tilt_deg: float) -> TiltStand:
    return min(card, key=lambda row: abs(row.tilt_deg - tilt_deg))


def _gust(row: TiltStand) -> float:
    return row.stands_to_m_s


def _stance(name: str, row: TiltStand, words: str) -> Stance:
    return Stance(name, row.tilt_deg, row.stands_to_m_s, row.gives_first, row.code_use, words)
