"""Which of the tilts that may be held: by what the house needs, then by rest, then by firmness."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from math import inf

import numpy as np

from polestead.morning.ahead import Lanes, even_wh, needs_wh
from polestead.morning.basis import Basis
from polestead.morning.card import Card
from polestead.morning.forecast.forecast import Forecast, Span
from polestead.morning.rules import Bounds, Held

SAME_TILT_DEG = 1.0
SNOW_COUNTS_M = 0.01  # a fall that covers the glass (``sun.snow_on_glass``)
SEASON_DAYS = 15  # about the date; ours
ONE_DAY_IN = 1.0 / 30.0  # of snow: ours
AS_FIRM = 0.9  # stands to nearly as much: not worth a walk; ours
WORTH_A_MOVE = 2.0  # times what counts as even: less does not earn the walk and the wear; ours
WORTH_A_LOOK = 3.0  # the same where a lull must be watched for; ours


def snow_season(basis: Basis, calendar_day: int) -> bool:
    """Whether snow falls and may lie about this date: in one day of thirty or more it falls so deep that it counts, and it freezes.

    Args:
        basis: Of the homestead.
        calendar_day: 1 to 365.
    """
    about = (calendar_day - 1 + np.arange(-SEASON_DAYS, SEASON_DAYS + 1)) % 365
    falls = float((basis.fresh_m[:, about] >= SNOW_COUNTS_M).mean())
    return falls >= ONE_DAY_IN and float(basis.air_c[:, about].min()) <= 0.0


def snow_counts_h(spans: Iterable[Span], now_h: float, ice: bool = False) -> float:
    """From when what falls counts: the hours in which all that is told from now on comes to that depth, however it is parted.

    Args:
        spans: With their hours counted as now is.
        now_h: What ended before it is seen.
        ice: Whether rain that freezes, and sleet, count as well, from their first hour.

    Returns:
        The hour; infinite where too little is told.

    Example:
        >>> snow_counts_h([Span(18.0, 24.0, snow_m=0.008), Span(12.0, 18.0, snow_m=0.008)], 7.0)
        18.0
    """
    fallen = 0.0
    for span in sorted(spans, key=lambda one: one.from_h):
        if span.to_h > now_h:
            fallen += span.snow_m or 0.0
            if (ice and span.ice) or (span.snow_m and fallen >= SNOW_COUNTS_M - 1e-9):
                return span.from_h
    return inf


def nights_of(card: Card, bounds: Bounds, tilt_deg: float, forecast: Forecast) -> Iterator[float]:
    """Tilts for the night, the best first: steep where snow or hail is told, flat, then what stands to most."""
    if any(span.hail for span in forecast.spans) or snow_counts_h(forecast.spans, -inf) < inf:
        yield from card.steep_deg
    yield card.flat_deg
    yield from sorted(
        (tilt for tilt in card.tried() if not card.has_lock or card.locks_at(tilt)),
        key=lambda tilt: (-bounds.stands_m_s(tilt), abs(tilt - tilt_deg)),
    )


def worth_a_move_wh(basis: Basis) -> float:
    """What a move must save of need over the days ahead, where it may as well be left where it lies."""
    return WORTH_A_MOVE * even_wh(basis)


def chosen(basis: Basis, bounds: Bounds, tried: list[Held], lanes: Lanes, lies: float | None, day: int, *, firmest_wins: bool = True) -> int:  # fmt: skip
    """The tilt of least need; among those even with it one that need not be moved again, where it lies, the plan's.

    Where all of them are even, the sun is worth nothing today (full by noon): the firmest wins, or where it lies if that stands
    to nearly as much.  Where it may be left where it lies, a move must save what is worth one.

    Args:
        basis: Of the homestead.
        bounds: The rules of the day.
        tried: Tilts that may be held.
        lanes: The house at each.
        lies: Where it lies.
        day: Of the calendar.
        firmest_wins: Else, where all are even, it stays where it lies.
    """
    need = needs_wh(basis, lanes).mean(axis=1)
    near = [nth for nth in range(len(tried)) if need[nth] <= need.min() + even_wh(basis)]

    def firm(nth: int) -> float:
        return bounds.stands_m_s(tried[nth].tilt_deg)

    here = [nth for nth in near if lies is not None and abs(tried[nth].tilt_deg - lies) < SAME_TILT_DEG]  # fmt: skip
    if len(near) == len(tried) and len(tried) > 1:
        firmest = max(near, key=firm)
        return here[0] if here and (not firmest_wins or firm(here[0]) >= AS_FIRM * firm(firmest)) else firmest  # fmt: skip
    rests = [nth for nth in near if tried[nth].by_h is None] or near
    wanted = basis.wanted_tilt_deg(day)
    first = [n for n in here if n in rests] or [n for n in rests if tried[n].tilt_deg == wanted]
    best = first[0] if first else min(rests, key=lambda nth: float(need[nth]))
    for nth, one in enumerate(tried):
        if lies is None or abs(one.tilt_deg - lies) >= SAME_TILT_DEG:
            continue
        no_more_moves = one.by_h is None or tried[best].by_h is not None
        if no_more_moves and need[nth] - need[best] < worth_a_move_wh(basis):
            return nth
    return best
