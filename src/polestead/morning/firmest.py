"""Where no tilt holds: the firmest that can be reached, and whether the way there is allowed (conventions §19, §20)."""

from __future__ import annotations

from polestead.base.show import Style
from polestead.morning.card import Card
from polestead.morning.choose import AS_FIRM
from polestead.morning.result import Firmest
from polestead.morning.rules import Bounds, Refusal, refused
from polestead.morning.seen import Seen


def firmest_of(card: Card, bounds: Bounds, seen: Seen, style: Style) -> Firmest | None:
    """The firmest tilt that may be reached; where none may be, the firmest and why it may not.

    Args:
        card: Gust card.
        bounds: The rules of this morning.
        seen: By the owner.
        style: In whose steps gusts are shown.

    Returns:
        None where nothing on the card stands to much more than where it lies (``choose.AS_FIRM``).
    """
    lies = None if seen.lies is None else seen.lies.value
    here = -1.0 if lies is None else bounds.stands_m_s(lies)
    firmer = [
        tilt for tilt in card.tried(card.flat_deg) if AS_FIRM * bounds.stands_m_s(tilt) > here
    ]
    if not firmer:
        return None
    firmer.sort(key=lambda tilt: (-bounds.stands_m_s(tilt), abs(tilt - (card.flat_deg if lies is None else lies))))  # fmt: skip
    refusals = {tilt: _refusal(bounds, seen, lies, tilt, style) for tilt in firmer}
    tilt = next((one for one in firmer if refusals[one] is None), firmer[0])
    why = refusals[tilt]
    hours, under = bounds.hours, bounds.under_m_s(lies, tilt)
    by = None if why is not None else _deadline_h(bounds, under)
    lull = seen.blows_m_s is None and bounds.upper_m_s(hours.move_h, hours.move_h + 1.0) >= under
    return Firmest(
        tilt_deg=tilt,
        stands_to_m_s=bounds.stands_m_s(tilt),
        lies_m_s=None if lies is None else here,
        under_m_s=under,
        allowed=why is None,
        why_not=why or "",
        look_first=lull,
        from_wall=seen.shown(hours.light_h) if hours.dark else None,
        by_wall=None if by is None else seen.shown(by),
        locked=card.locks_at(tilt),
    )


def _refusal(bounds: Bounds, seen: Seen, lies: float | None, tilt: float, style: Style) -> Refusal | None:  # fmt: skip
    """What stands against the way there: ice, snow, wind, or the night that lies before it."""
    why = refused(seen, bounds.card.path_under_m_s(lies, tilt), style)
    return "dark" if why is None and bounds.hours.light_h >= 24.0 else why


def _deadline_h(bounds: Bounds, under_m_s: float) -> float | None:
    """The last whole hour of daylight, before snow, up to which what may blow keeps under the moving gust; None: now or in a lull."""
    hours = bounds.hours
    by = float(int(min(hours.dusk_h, bounds.falls_h)))
    while hours.there_to_h > hours.now_h and by >= hours.move_h + 1.0:
        if bounds.upper_m_s(hours.move_h, by) < under_m_s:
            return by
        by -= 1.0
    return None
