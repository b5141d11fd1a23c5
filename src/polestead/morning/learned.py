"""What the log has taught, as the morning takes it: the month's sun factor, and gusts met over gusts heard.

Made from the kept basis alone, within a cold terminal's time: the tests for losses are not run here (``polestead log --taught``).
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from datetime import date, datetime, timedelta
from math import log

import numpy as np

from polestead.daybook.daybook import Kept
from polestead.daybook.days import days
from polestead.daybook.teaching.from_days import series_of
from polestead.daybook.teaching.months import month_factors
from polestead.daybook.teaching.series import Floats, paired
from polestead.daybook.teaching.skies import expected_from, sky_table
from polestead.daybook.teaching.taught import LEAST_DAYS, MONTH_DAYS
from polestead.morning.basis import FULL_COUNT, Basis
from polestead.morning.forecast.words import read_heard
from polestead.morning.remembered import HEARD
from polestead.morning.seen import Taught

LEAST_GUSTS = 10  # days on which one was heard and met before they are compared; ours
MOST_BIAS = 2.0  # more is another place's forecast, or a slip; ours
YEARS_BACK = 4  # of the log looked at: older trees, older glass; ours


def morning_taught(entries: Sequence[Kept], basis: Basis, now: datetime) -> Taught:
    """What the log has taught for this month.

    A day whose charge nobody read late in the day is left out: the array may have been turned away.

    Args:
        entries: From ``Daybook.entries``.
        basis: Of the homestead.
        now: The owner's clock.

    Returns:
        Nothing but the gust where the month has too few days.
    """
    since = now.date() - timedelta(days=366 * YEARS_BACK)
    counted = [one for one in entries if one.struck is None and since <= one.entry.moment.day <= now.date()]  # fmt: skip
    bias = gust_bias(counted, basis)
    if not counted:
        return Taught()
    rolled = days(counted, min(one.entry.moment.day for one in counted), now.date())
    seen = series_of(rolled)
    if np.isfinite(seen.made_wh).sum() < LEAST_DAYS:
        return Taught(
            gust_bias=bias, days=int(np.isfinite(seen.made_wh).sum()) if bias > 1.0 else 0
        )
    usual = basis.moves.tilt_by_hour_deg(np.arange(1, 366))
    pairs = paired(
        seen,
        expected_from(rolled, sky_table(basis.tilts_deg, _daily(basis), off=basis.sky_off), usual)[
            0
        ],
    )
    found = month_factors(pairs, np.zeros(pairs.days, dtype=bool))[now.month - 1]
    if found.days < MONTH_DAYS:
        return Taught(gust_bias=bias, days=pairs.days if bias > 1.0 else 0)
    return Taught(found.factor, found.factor * log(found.high / found.low) / 3.29, bias, found.days)


def gust_bias(entries: Sequence[Kept], basis: Basis) -> float:
    """Median of the day's strongest gust met over the strongest heard for it beforehand; 1 where too few days hold both.

    A gust read at the owner's own gauge is turned to 10 m in the open; one judged by eye is meant there.

    Args:
        entries: Those that count.
        basis: Of the homestead.
    """
    met: defaultdict[date, list[float]] = defaultdict(list)
    heard: dict[date, float] = {}
    for one in entries:
        entry, day = one.entry, one.entry.moment.day
        if entry.gust_m_s is not None:
            met[day].append(entry.gust_m_s if entry.gust_seen else entry.gust_m_s / basis.facts.anemometer_share)  # fmt: skip
        if entry.note.startswith(HEARD):
            told = read_heard(entry.note.removeprefix(HEARD), day, basis.facts.units == "feet")
            gusts = [span.gust_m_s for span in told.spans if span.gust_m_s and not span.from_wind and span.from_h < 24.0]  # fmt: skip
            if gusts:
                heard[day] = max(gusts)
    ratios = [max(met[day]) / heard[day] for day in met.keys() & heard.keys()]
    if len(ratios) < LEAST_GUSTS:
        return 1.0
    return float(np.clip(np.median(ratios), 1.0, MOST_BIAS))


def _daily(basis: Basis) -> Floats:
    """Energy of the new array by day at every tilt [tilts, years, 365]."""
    counts = basis.power.sum(axis=3, dtype=np.int64)
    return np.asarray(counts * (basis.peak_w / FULL_COUNT))
