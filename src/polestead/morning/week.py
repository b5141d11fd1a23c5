"""The week leaf: charge, sky and gust to stance and engine, for a week without the laptop."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date, datetime, time, timedelta
from math import inf
from statistics import NormalDist

import numpy as np

from polestead.base.quantity import units
from polestead.base.show import Style
from polestead.morning.ahead import course, drawn, run_ahead, told
from polestead.morning.basis import Basis
from polestead.morning.card import Card, in_step_m_s, unit_of, up_m_s
from polestead.morning.choose import snow_season
from polestead.morning.forecast.forecast import Forecast, Sky, Span
from polestead.morning.forecast.gust_ahead import (
    climate_gust_m_s,
    gust_sd,
    week_gust_m_s,
)
from polestead.morning.result import EngineToday
from polestead.morning.rules import MORNING_H
from polestead.morning.seen import Reading, Seen

CHARGES = (0.95, 0.8, 0.7, 0.6, 0.5)
SKIES: tuple[Sky, ...] = ("clear", "broken", "grey")
GOOD_DAYS = 7
GUST_STEP = {"feet": 5.0, "metric": 2.0}
LAST_HOUR = 31.0


@dataclass(frozen=True, slots=True)
class GustRow:
    """Where to leave it in a span of gusts heard.

    Attributes:
        heard_to_m_s: Up to this gust, as heard; endless for the last row.
        tilt_deg: Where; None where no tilt stands.
        stands_to_m_s: What it stands to there, on bare glass.
        flat: Whether that is storm flat.
        snow_stands_to_m_s: What it stands to there under snow, by which it is chosen in months of snow; None in months without.
        bare_only: In a month of snow no tilt stands under it: the glass must be seen bare first.
    """

    heard_to_m_s: float
    tilt_deg: float | None
    stands_to_m_s: float
    flat: bool
    snow_stands_to_m_s: float | None = None
    bare_only: bool = False


@dataclass(frozen=True, slots=True)
class WeekLeaf:
    """The leaf.

    Attributes:
        name: Of the homestead.
        day: It was made on.
        good_until: Not to be used after.
        under_m_s: Least moving gust over the whole travel, rounded down.
        unheard_m_s: Gust to take where nothing is heard.
        gusts: Still first.
        charges: Of ``engine`` [charges].
        skies: Of ``engine`` [skies].
        engine: Of the day from seven on, as the morning line has it [charges][skies].
        firmest_deg: What stands to most, for a gust no tilt stands to.
    """

    name: str
    day: date
    good_until: date
    under_m_s: float
    unheard_m_s: float
    gusts: tuple[GustRow, ...]
    charges: tuple[float, ...]
    skies: tuple[Sky, ...]
    engine: tuple[tuple[EngineToday, ...], ...]
    firmest_deg: float


def week_of(basis: Basis, at: datetime, style: Style) -> WeekLeaf:
    """Work the leaf out for the week from a day on.

    The gust rows hold for any charge and sky: no charge is worth a tilt that does not stand.  The engine is asked of the middle
    day of the week at the plan's tilt.

    Args:
        basis: Of the homestead.
        at: The owner's clock.
        style: In whose units the gusts are stepped.
    """
    month, card = at.month, basis.card
    middle = datetime.combine((at + timedelta(days=3)).date(), time(int(MORNING_H)))
    wanted = basis.wanted_tilt_deg(min(middle.timetuple().tm_yday, 365))
    bound = basis.facts.gust_chance
    taken = max(week_gust_m_s(basis.climate, month), climate_gust_m_s(basis.climate, month, 1.0, bound))  # fmt: skip
    return WeekLeaf(
        name=basis.facts.name,
        day=at.date(),
        good_until=at.date() + timedelta(days=GOOD_DAYS),
        under_m_s=in_step_m_s(card.path_under_m_s(None, card.flat_deg), style),
        unheard_m_s=up_m_s(taken, style),
        gusts=_gust_rows(basis, wanted, bound, style, min(middle.timetuple().tm_yday, 365)),
        charges=CHARGES,
        skies=SKIES,
        firmest_deg=max(_pinned(card, card.flat_deg), key=card.stands_to_m_s),
        engine=tuple(tuple(_engine(basis, middle, charge, sky, wanted) for sky in SKIES) for charge in CHARGES),
    )  # fmt: skip


def _gust_rows(basis: Basis, wanted_deg: float, bound: float, style: Style, calendar_day: int) -> tuple[GustRow, ...]:  # fmt: skip
    """For each step of gust heard: the plan's tilt while it stands, then the nearest one that does.

    In months of snow what stands under it is chosen; above that, what stands on glass that was seen bare.
    """
    card = basis.card
    snows = snow_season(basis, calendar_day)
    times = float(np.exp(NormalDist().inv_cdf(1.0 - bound) * gust_sd(24.0)))
    tilts = _pinned(card, wanted_deg)
    bare = {tilt: in_step_m_s(card.stands_to_m_s(tilt), style) for tilt in tilts}
    snowed = {tilt: in_step_m_s(card.stands_to_m_s(tilt, under_snow=True), style) for tilt in tilts}
    step = GUST_STEP[style] * units()[unit_of(style)].factor
    rows: list[GustRow] = []
    for nth in range(1, 41):
        heard = nth * step
        may = up_m_s(heard * times, style)
        under = [tilt for tilt in tilts if snows and snowed[tilt] >= may]
        firm = under or [tilt for tilt in tilts if bare[tilt] >= may]
        tilt = min(firm, key=lambda one: (abs(one - wanted_deg), one)) if firm else None
        row = GustRow(heard, tilt, 0.0 if tilt is None else bare[tilt], tilt is not None and abs(tilt - card.flat_deg) < 0.5, snowed[tilt] if under and tilt is not None else None, bool(snows and not under))  # fmt: skip
        if rows and (rows[-1].tilt_deg, rows[-1].bare_only) == (tilt, row.bare_only):
            rows[-1] = replace(row, heard_to_m_s=heard)
        else:
            rows.append(row)
        if tilt is None:
            break
    rows[-1] = replace(rows[-1], heard_to_m_s=inf) if rows[-1].tilt_deg is None else rows[-1]
    return tuple(rows)


def _pinned(card: Card, first_deg: float) -> list[float]:
    """Tilts the storm hold finds a hole for; all of them where there is no hold."""
    return [tilt for tilt in card.tried(first_deg) if not card.has_lock or card.locks_at(tilt)]


def _engine(basis: Basis, at: datetime, charge: float, sky: Sky, tilt_deg: float) -> EngineToday:
    """The engine of the house run on from that charge, by the run and the reading of the morning line itself."""
    seen = Seen(at, charge=Reading(charge))
    skies = drawn(basis, seen, Forecast("heard", at.date(), (Span(0.0, LAST_HOUR, sky=sky),)))
    lanes = run_ahead(basis, skies, [course(basis, skies, tilt_deg, tilt_deg, None, 0.0)], 0.0)
    return told(basis, skies, lanes, 0).engine
