"""A card and a climate made up for the tests: plain figures, nothing read from a file."""

from __future__ import annotations

from datetime import datetime

from polestead.morning.card import Card
from polestead.morning.forecast.gust_ahead import GustAhead, Piece
from polestead.morning.rules import Hours
from polestead.site.gusts import GustClimate

MPH = 0.44704
AT = datetime(2026, 11, 25, 7, 10)
CALM = GustClimate(38.0, (8.0,) * 12, (1.0 / 12.0,) * 12, "made up")
HOME = Hours(now_h=7.0, there_to_h=16.0, back_h=7.0, dusk_h=16.0)


def card(locked=None, move=None, **changes) -> Card:
    """Every degree from 5 to 75: stands to 130 mph flat and 65 steep, moved under 30."""
    tilts = tuple(float(t) for t in range(5, 76))
    locked = locked or tuple((130.0 - (t - 5.0) * 65.0 / 70.0) * MPH for t in tilts)
    given = {
        "tilts_deg": tilts, "locked_m_s": tuple(locked), "snow_m_s": tuple(0.8 * g for g in locked),
        "rod_m_s": tuple(0.7 * g for g in locked), "move_m_s": move or tuple(31.0 * MPH for _ in tilts), "has_lock": True,
        "holes_deg": tuple(float(t) for t in range(5, 76, 10)), "rod_m": tuple(0.01 * (t - 5.0) for t in tilts),
        "key_s_per_m": (100.0, 130.0), "proved": True, "steep_deg": (75.0, 65.0), "flat_deg": 5.0,
    } | changes  # fmt: skip
    return Card(**given)


def ahead(*pieces, climate=CALM, bound=0.01, thunder=()) -> GustAhead:
    """Pieces as (from hour, to hour, gust in mph)."""
    told = tuple(Piece(start, end, gust * MPH, 0.2) for start, end, gust in pieces)
    return GustAhead(told, climate, 11, bound, thunder)
