"""What the log has taught, as the morning takes it: the month's sun factor, and gusts met over gusts heard.

Made from the kept basis alone, within a cold terminal's time: the tests for losses are not run here (``polestead log --taught``).
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import replace
from datetime import date, datetime, timedelta
from math import exp, inf, log, pi, sqrt
from statistics import NormalDist

import numpy as np

from polestead.daybook.daybook import Kept, newest
from polestead.daybook.days import Day, days
from polestead.daybook.teaching.from_days import charge_of, series_of
from polestead.daybook.teaching.months import month_factors
from polestead.daybook.teaching.series import FULL, Floats, paired
from polestead.daybook.teaching.skies import expected_from, sky_table
from polestead.daybook.teaching.taught import LEAST_DAYS, MONTH_DAYS
from polestead.morning.basis import FULL_COUNT, Basis
from polestead.morning.forecast.words import read_heard
from polestead.morning.seen import HEARD, LastSun, Seen, Tank, Taught

LEAST_GUSTS = 10  # days on which one was heard and met before they are compared; ours
MOST_BIAS = 2.0  # more is another place's forecast, or a slip; ours
YEARS_BACK = 4  # of the log looked at: older trees, older glass; ours
DAYS_BACK = 3  # a day's sky that long ago tells next to nothing (.3 a day)
NOT_FULL = 0.85  # a bank that stands under this the morning after was not full: ours
MET_H = 48.0  # a gust met so long ago still counts where nothing is told; ours
SEASON_DAYS = 12
FARTHEST = 2.2  # deviates


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
    # a lucky month makes no house careless: more sun than worked counts only as far as it is sure
    factor = min(found.factor, max(found.low, 1.0))
    return Taught(factor, factor * log(found.high / found.low) / 3.29, bias, found.days)


def with_log(seen: Seen, entries: Sequence[Kept], basis: Basis) -> Seen:
    """What the log teaches and what its last days tell, for this morning.

    Args:
        seen: With the clock.
        entries: From ``Daybook.entries``.
        basis: Of the homestead.
    """
    now = seen.wall
    counted = [one for one in entries if one.struck is None and not one.entry.moment.to_come(now)]
    if not counted:
        return seen
    taught = morning_taught(counted, basis, now)
    since = now.date() - timedelta(days=DAYS_BACK + 1)
    lately = days(counted, since, now.date())
    return replace(
        seen, taught=taught, last_sun=last_sun(lately, basis, now.date(), taught.sun_factor), met_m_s=_met_m_s(counted, basis, now),
        tank=tank_of(counted, basis, now),
    )  # fmt: skip


def last_sun(lately: Sequence[Day], basis: Basis, today: date, factor: float = 1.0) -> LastSun | None:  # fmt: skip
    """The newest of the last days whose energy is known, among its season's days at the tilt it was held at.

    Days with snow on the glass tell of the snow.  A day on which the battery was full, or may have been, is at least what was seen:
    it stands where the mean of what lies above it does (a normal one), and tells nothing where it was a poor day.

    Args:
        lately: Days rolled up, with the morning of today.
        basis: Of the homestead.
        today: By the owner's clock.
        factor: Sun seen over expected, of the log.
    """
    known = {one.day: one for one in lately}
    for ago in range(1, DAYS_BACK + 1):
        on = today - timedelta(days=ago)
        day = known.get(on)
        if day is None or day.new_wh is None or day.snow in ("dusted", "covered") or day.moves:
            continue
        tilt = basis.wanted_tilt_deg(_calendar(on)) if day.tilt_held_deg is None else day.tilt_held_deg  # fmt: skip
        season = np.sort(_season_wh(basis, _calendar(on), tilt) * factor)
        share = (np.searchsorted(season, day.new_wh) + 0.5) / (season.size + 1.0)
        stands = float(np.clip(NormalDist().inv_cdf(float(share)), -FARTHEST, FARTHEST))
        read = charge_of(day)
        after = known.get(on + timedelta(days=1))
        later = None if after is None else after.charge_morning
        full = read >= FULL if read is not None else later is None or later >= NOT_FULL
        if full and stands <= 0.0:
            continue
        if full:
            stands = min(exp(-0.5 * stands**2) / sqrt(2.0 * pi) / NormalDist().cdf(-stands), FARTHEST)  # fmt: skip
        return LastSun(ago, stands, day.new_wh, full)
    return None


def _calendar(on: date) -> int:
    return min(on.timetuple().tm_yday, 365)


def _season_wh(basis: Basis, calendar_day: int, tilt_deg: float) -> Floats:
    """Energy of the days of a season at a tilt [days]."""
    about = (calendar_day - 1 + np.arange(-SEASON_DAYS, SEASON_DAYS + 1)) % 365
    tilts = basis.tilts_deg
    after = int(np.clip(np.searchsorted(tilts, tilt_deg), 1, tilts.size - 1))
    part = float(np.clip((tilt_deg - tilts[after - 1]) / (tilts[after] - tilts[after - 1]), 0.0, 1.0))  # fmt: skip
    low, high = (basis.power[n][:, about].sum(axis=2, dtype=np.int64).ravel() for n in (after - 1, after))  # fmt: skip
    return np.asarray((low + part * (high - low)) * (basis.peak_w / FULL_COUNT))


def _met_m_s(counted: Sequence[Kept], basis: Basis, now: datetime) -> float:
    """Strongest gust met lately, at 10 m in the open."""
    met = [
        one.entry.gust_m_s if one.entry.gust_seen else one.entry.gust_m_s / basis.facts.anemometer_share
        for one in counted
        if one.entry.gust_m_s is not None and one.entry.moment.age_h(now) <= MET_H
    ]  # fmt: skip
    return max(met, default=0.0)


def tank_of(counted: Sequence[Kept], basis: Basis, now: datetime) -> Tank | None:
    """The last level read, with what was filled after it, and the engine hours of the days after it.

    Args:
        counted: Entries that count.
        basis: Of the homestead, with the size of the tank.
        now: The owner's clock.
    """
    size = basis.plan.motor.tank_l
    read = [one for one in counted if one.entry.tank_l is not None or (one.entry.tank_share is not None and size < inf)]  # fmt: skip
    if not read:
        return None
    last = newest([one for one in read if one.entry.moment.day == max(one.entry.moment.day for one in read)])  # fmt: skip
    litres = last.entry.tank_l if last.entry.tank_l is not None else (last.entry.tank_share or 0.0) * size  # fmt: skip
    then = last.entry.moment
    filled = sum(
        one.entry.filled_l or 0.0
        for one in counted
        if (one.entry.moment.wall > then.wall if then.at is not None and one.entry.moment.at is not None else one.entry.moment.day > then.day)
    )  # fmt: skip
    hours = sum(one.engine_hours or 0.0 for one in days(counted, then.day + timedelta(days=1), now.date()))  # fmt: skip
    return Tank(min(litres + filled, size), then.age_h(now), hours)


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
            told = read_heard(entry.note.removeprefix(HEARD), day, basis.facts.units == "feet", entry.moment.clock_h)  # fmt: skip
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
