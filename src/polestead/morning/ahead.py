"""The house run three days ahead, many times: skies drawn about the forecast, charge about the reading, one tilt after the other."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import exp, isnan, nan, sqrt
from statistics import NormalDist

import numpy as np
from numpy.typing import NDArray

from polestead.household.plan import (
    DARK_WH,
    ENGINE_H,
    ENGINE_WH,
    FULL,
    HELD_BACK,
    SUN_USED,
    TOO_SLOW,
    Plan,
)
from polestead.morning.basis import FULL_COUNT, Basis
from polestead.morning.forecast.forecast import Forecast, Span
from polestead.morning.forecast.gust_ahead import errors
from polestead.morning.result import Ahead, Band, EngineToday
from polestead.morning.rules import Held
from polestead.morning.seen import Seen
from polestead.sun.snow_on_glass import (
    COVERS_M,
    SLIDES_PER_H,
    SLIDES_UNDER_W_M2_K,
    power_left,
    stays_share,
)

Floats = NDArray[np.float64]
Places = NDArray[np.intp]
SCENARIOS = 24
DAYS = 3
HOURS = 24 * DAYS
ABOUT_DAYS = 12  # days of the weather years taken as being of the same season
SKY_STANDS = {
    "clear": 1.2,
    "broken": 0.0,
    "grey": -1.1,
}  # where a named sky lies among the season's days, in deviates: ours
FROM_YESTERDAY = (
    0.3  # a day's clearness hangs on the day before (climate figures of measured series)
)
CHARGE_SD = 0.02  # of a charge just read
AGES_H = 1.0  # a charge older than this is no fresh one; ours
CHARGE_KEPT_H = 48.0  # a reading fades into what the house usually has: ours
COVERED_BY = {
    "bare": 0.0,
    "not looked": 0.0,
    "dusted": 0.5,
    "covered": 1.0,
    "iced": 1.0,
    "buried": 1.0,
}  # share of the glass: ours
DARK_COUNTS = 3.0  # an hour in the dark hurts more than the engine's running; ours
EVEN_SHARE, EVEN_WH = (
    0.02,
    150.0,
)  # needs nearer than this share of a day's use, or than so much, are even; ours


@dataclass(frozen=True, slots=True, eq=False)
class Skies:
    """Days drawn ahead.

    Attributes:
        now_h: Hour of today from which they count.
        day: Calendar day of today, 1 to 365.
        years, days: Which day of the weather years each takes [scenarios, DAYS].
        factor: Sun against those days, of the log [scenarios].
        air_c: [scenarios, HOURS].
        fresh_m: Fresh snow at each midnight but the first [scenarios, DAYS].
        charge: Now [scenarios].
        bank_c: Of the battery now; not a number where nobody read it.
        tank_l: Fuel now; not a number where nobody read it.
        as_read: Charge as it was read, however long ago [scenarios]; None where that is not asked.
    """

    now_h: int
    day: int
    years: Places
    days: Places
    factor: Floats
    air_c: Floats
    fresh_m: Floats
    charge: Floats
    bank_c: float = nan
    tank_l: float = nan
    as_read: Floats | None = None


def day_of(seen: Seen) -> int:
    """Calendar day, 1 to 365; a leap day counts as the day before."""
    day = seen.at.timetuple().tm_yday
    leap = seen.at.year % 4 == 0 and (seen.at.year % 100 != 0 or seen.at.year % 400 == 0)
    return day - 1 if leap and day >= 60 else day


def drawn(basis: Basis, seen: Seen, forecast: Forecast) -> Skies:
    """Days about the forecast, the same for the same morning.

    Args:
        basis: Of the homestead.
        seen: By the owner.
        forecast: As told; its first day may lie before today.
    """
    rng = np.random.default_rng(seen.at.toordinal())
    shift = 24.0 * (seen.at.date() - forecast.day).days
    day = day_of(seen)
    deviates = np.array([NormalDist().inv_cdf((n + 0.5) / SCENARIOS) for n in range(SCENARIOS)])
    known = errors()
    years, days = (np.zeros((SCENARIOS, DAYS), dtype=np.intp) for _ in range(2))
    air = np.zeros((SCENARIOS, HOURS))
    fresh = np.zeros((SCENARIOS, DAYS))
    before, remembers = np.zeros(SCENARIOS), FROM_YESTERDAY
    if seen.last_sun is not None:  # the last days' sky is remembered, the less the longer it is ago
        before = np.full(SCENARIOS, seen.last_sun.stands)
        remembers = FROM_YESTERDAY**seen.last_sun.days_ago
    for nth in range(DAYS):
        noise = rng.permutation(deviates)
        sky = _sky(forecast, shift + 24.0 * nth)
        tells = known[f"sky_tells_day_{nth + 1}"] if sky is not None else remembers
        stands = np.full(SCENARIOS, SKY_STANDS[sky]) if sky is not None else before
        before, remembers = tells * stands + sqrt(1.0 - tells * tells) * noise, FROM_YESTERDAY
        years[:, nth], days[:, nth] = _picked(basis, day - 1 + nth, before)
        here = basis.air_c[years[:, nth], days[:, nth]].astype(np.float64)
        off = _warmer_k(forecast, shift + 24.0 * nth, here)
        if off is not None:
            here += (off + known["air_sd_k"] * rng.permutation(deviates))[:, None]
        air[:, 24 * nth : 24 * (nth + 1)] = here
        fell = _snow_m(forecast, shift + 24.0 * nth)
        if forecast.kind == "none":
            fresh[:, nth] = basis.fresh_m[years[:, nth], days[:, nth]]
        elif fell > 0.0:
            fresh[:, nth] = fell * np.exp(known["snow_share_sd"] * rng.permutation(deviates))
    factor = np.clip(seen.taught.sun_factor + seen.taught.sun_factor_sd * rng.permutation(deviates), 0.2, 2.0)  # fmt: skip
    off = rng.permutation(deviates)
    charge = _charge(basis, seen, off)
    as_read = charge if seen.charge is None else np.clip(seen.charge.value + CHARGE_SD * off, 0.02, 1.0)  # fmt: skip
    bank_c = nan if seen.bank_c is None else seen.bank_c.value
    return Skies(seen.at.hour, day, years, days, factor, air, fresh, charge, bank_c, fuel_left_l(basis, seen), as_read)  # fmt: skip


def fuel_l_h(basis: Basis) -> float:
    """What an engine hour at the charger's load burns, thirstier end [l/h]."""
    motor = basis.plan.motor
    load_w = min(motor.charger_w / motor.charger_efficiency, motor.power_w)
    if motor.burns_l_wh > 0.0:
        return motor.burns_l_h + motor.burns_l_wh * load_w
    return basis.facts.burns_l_wh * load_w


def fuel_left_l(basis: Basis, seen: Seen) -> float:
    """Fuel now: the level read, less what the engine hours written since have burnt; not a number where nobody read it."""
    if seen.tank is None or not basis.plan.motor.present:
        return nan
    return max(seen.tank.litres - seen.tank.engine_h * fuel_l_h(basis), 0.0)


def sky_told(seen: Seen, forecast: Forecast, nth: int = 0) -> str | None:
    """What was told of the sky of today, or of a day after it; None where nothing was."""
    return _sky(forecast, 24.0 * ((seen.at.date() - forecast.day).days + nth))


def _picked(basis: Basis, day: int, deviates: Floats) -> tuple[Places, Places]:
    """Days of the weather years, about a date, that stand where the deviates say among their like."""
    about = (day + np.arange(-ABOUT_DAYS, ABOUT_DAYS + 1)) % 365
    pool = basis.clearness[:, about]
    order = np.argsort(pool, axis=None, kind="stable")
    share = np.array([NormalDist().cdf(float(one)) for one in deviates])
    at = order[np.minimum((share * order.size).astype(np.intp), order.size - 1)]
    year, place = np.unravel_index(at, pool.shape)
    return np.asarray(year), about[place]


def _sky(forecast: Forecast, midnight_h: float) -> str | None:
    """What was told of a day's sky; of several, the one of most hours, the dullest among equals."""
    hours: dict[str, float] = {}
    for span in forecast.spans:
        over = min(span.to_h, midnight_h + 18.0) - max(span.from_h, midnight_h + 7.0)
        if span.sky is not None and over > 0.0:
            hours[span.sky] = hours.get(span.sky, 0.0) + over
    dull = {"grey": 0, "broken": 1, "clear": 2}
    return min(hours, key=lambda sky: (-hours[sky], dull[sky])) if hours else None


def _warmer_k(forecast: Forecast, midnight_h: float, here: Floats) -> Floats | None:
    """By how much a told day is warmer than the days picked for it; None where nothing was told."""

    def over(span: Span, from_h: float, to_h: float) -> bool:
        return span.from_h < midnight_h + to_h and span.to_h > midnight_h + from_h

    highs = [one.high_c for one in forecast.spans if one.high_c is not None and over(one, 11.0, 16.0)]  # fmt: skip
    lows = [one.low_c for one in forecast.spans if one.low_c is not None and (over(one, 3.0, 8.0) or over(one, 27.0, 31.0))]  # fmt: skip
    offs = [max(highs) - here.max(axis=1)] if highs else []
    offs += [min(lows) - here.min(axis=1)] if lows else []
    return np.mean(offs, axis=0) if offs else None


def _snow_m(forecast: Forecast, midnight_h: float) -> float:
    """Snow told for the half days before and after a midnight: it lies on the glass from then on."""
    return sum(
        span.snow_m
        for span in forecast.spans
        if span.snow_m is not None and midnight_h - 12.0 < 0.5 * (span.from_h + span.to_h) <= midnight_h + 12.0
    )  # fmt: skip


def _charge(basis: Basis, seen: Seen, deviates: Floats) -> Floats:
    """Charge now: the reading as far as it still tells, else what the house has at dawn in this month.

    One that is old is widened downward only: no more is taken to be in the bank than was read.
    """
    usual, usual_sd = float(basis.dawn_charge[seen.at.month - 1]), float(basis.dawn_charge_sd[seen.at.month - 1])  # fmt: skip
    kept = 0.0 if seen.charge is None else exp(-seen.charge.age_h / CHARGE_KEPT_H)
    value = usual if seen.charge is None else kept * seen.charge.value + (1.0 - kept) * usual
    spread = sqrt(kept * CHARGE_SD**2 + (1.0 - kept) * usual_sd**2)
    charge = value + spread * deviates
    if seen.charge is not None:
        below = np.where(deviates < 0.0, max(spread, CHARGE_SD), CHARGE_SD)
        charge = np.minimum(charge, seen.charge.value + below * deviates)
    return np.clip(charge, 0.02, 1.0)


@dataclass(frozen=True, slots=True, eq=False)
class Course:
    """Tilt hour by hour.

    Attributes:
        tilt_deg: What it is called by: today's.
        by_hour_deg: [HOURS].
    """

    tilt_deg: float
    by_hour_deg: Floats


def course(
    basis: Basis, skies: Skies, tilt_deg: float, night_deg: float, by_h: float | None, away_days: float, later: Sequence[Held | None] = ()
) -> Course:  # fmt: skip
    """Today's tilt, tonight's, and those of the days after, the plan's where none is given; one left behind stays while he is away."""
    by_hour = np.full(HOURS, tilt_deg)
    if by_h is not None:
        by_hour[int(by_h) :] = night_deg
    back = 24 * (1 + round(away_days))
    if back < HOURS:
        for nth in range(back // 24, DAYS):
            held = later[nth - 1] if nth <= len(later) else None
            if held is None:
                by_hour[24 * nth + 7 :] = basis.wanted_tilt_deg((skies.day - 1 + nth) % 365 + 1)
                continue
            by_hour[24 * nth + 7 :] = held.tilt_deg
            if held.by_h is not None:
                by_hour[int(held.by_h) :] = held.night_deg
    return Course(tilt_deg, by_hour)


def new_power_w(basis: Basis, skies: Skies, by_hour_deg: Floats, covered: float) -> Floats:
    """Power of the new array along a course [scenarios, HOURS]: days picked, between two tilts in a straight line, under snow."""
    tilts = basis.tilts_deg
    after = np.clip(np.searchsorted(tilts, by_hour_deg), 1, tilts.size - 1)
    share = np.clip((by_hour_deg - tilts[after - 1]) / (tilts[after] - tilts[after - 1]), 0.0, 1.0)
    hour = np.arange(HOURS)
    years, days = skies.years[:, hour // 24], skies.days[:, hour // 24]
    low = basis.power[after - 1, years, days, hour % 24].astype(np.float64)
    high = basis.power[after, years, days, hour % 24].astype(np.float64)
    power = (low + share * (high - low)) * (basis.peak_w / FULL_COUNT) * skies.factor[:, None]
    if covered <= 0.0 and not skies.fresh_m.any():
        return power
    return power * _left(basis, skies, by_hour_deg, power, covered)


def _left(basis: Basis, skies: Skies, by_hour_deg: Floats, power: Floats, covered: float) -> Floats:
    """What snow leaves of it: the rule of ``sun.snow_on_glass`` from what lies now; light on the plane from the power itself."""
    facts = basis.facts
    light = 1000.0 * power / facts.rated_w
    stays, slope = stays_share(by_hour_deg), np.sin(np.radians(by_hour_deg))
    share = np.full(skies.charge.size, covered)
    out = np.zeros(power.shape, dtype=np.float32)
    for hour in range(skies.now_h, HOURS):
        air = skies.air_c[:, hour]
        if hour % 24 == 0:
            share = np.where(skies.fresh_m[:, hour // 24] * stays[hour] >= COVERS_M, 1.0, share)
        else:
            slides = air > -light[:, hour] / SLIDES_UNDER_W_M2_K
            slides &= facts.room_to_slide | (air > 2.0)
            share = np.maximum(share - np.where(slides, SLIDES_PER_H * slope[hour], 0.0), 0.0)
        if facts.sweeps and hour % 24 == 9:
            share = np.zeros_like(share)
        out[:, hour] = share
    return power_left(out, facts.rows).astype(np.float64)


@dataclass(frozen=True, slots=True, eq=False)
class Lanes:
    """The house along some courses under every sky [courses, scenarios, ...].

    Attributes:
        power_w: New array [.., HOURS].
        engine_h, engine_wh, used_wh, turned_wh: By hour [.., HOURS].
        dark_wh: In all [..].
        charge: At the start of each hour and at the end [.., HOURS + 1].
    """

    power_w: Floats
    engine_h: Floats
    engine_wh: Floats
    used_wh: Floats
    turned_wh: Floats
    dark_wh: Floats
    charge: Floats


def run_ahead(
    basis: Basis, skies: Skies, courses: Sequence[Course], covered: float, from_h: int | None = None, charge: Floats | None = None
) -> Lanes:  # fmt: skip
    """Run the house along each course under every sky.

    Args:
        basis: Of the homestead.
        skies: Drawn.
        courses: At least one.
        covered: Share of the glass under snow now.
        from_h: The hour it starts in; None: now.
        charge: Then [scenarios]; None: now's.
    """
    from polestead.household.kernel import run_years

    plan, count, many = _cut(basis, skies), len(courses), skies.charge.size
    hours = HOURS + 1  # the last one is looked at only for the charge it begins with
    power = np.array([new_power_w(basis, skies, one.by_hour_deg, covered) for one in courses])
    hour = np.arange(HOURS)
    old = basis.old_w[:, skies.years[:, hour // 24], skies.days[:, hour // 24], hour % 24]
    sun = np.zeros((old.shape[0], count, many, hours), dtype=np.float32)
    sun[..., :HOURS] = old[:, None] * skies.factor[:, None].astype(np.float32)
    sun[basis.facts.new_on, ..., :HOURS] += power.astype(np.float32)
    air = np.repeat(np.append(skies.air_c, skies.air_c[:, -1:], axis=1)[None], count, axis=0)
    lanes = count * many
    by_hour, by_lane, charge = run_years(
        plan, np.ascontiguousarray(sun.reshape(old.shape[0], lanes, hours)), np.ascontiguousarray(air.reshape(lanes, hours), dtype=np.float32),
        1, np.tile(skies.charge if charge is None else charge, count), skies.now_h if from_h is None else from_h,
        skies.bank_c, skies.tank_l,
    )  # fmt: skip
    told = by_hour.reshape(by_hour.shape[0], count, many, -1)[..., :HOURS]
    return Lanes(
        power_w=power,
        engine_h=told[ENGINE_H],
        engine_wh=told[ENGINE_WH],
        used_wh=told[SUN_USED],
        turned_wh=told[FULL] + told[TOO_SLOW] + told[HELD_BACK],
        dark_wh=by_lane[DARK_WH].reshape(count, many),
        charge=charge.reshape(count, many, hours),
    )


def _cut(basis: Basis, skies: Skies) -> Plan:
    """The house's plan over today, the days ahead and one hour; a tank that was read is not filled by itself."""
    plan = basis.plan
    if not isnan(skies.tank_l):
        plan = plan._replace(motor=plan.motor._replace(fill_at=-1.0, fill_month=-1))
    first = (skies.day - basis.first_day) % 365
    hours = (24 * first + np.arange(HOURS + 1)) % plan.uses_w.size
    days = (first + np.arange(DAYS + 1)) % 365
    wanted = np.ascontiguousarray(plan.waiting.wanted[:, days])
    return plan._replace(
        uses_w=plan.uses_w[hours], month=plan.month[hours], hour_of_day=plan.hour_of_day[hours],
        column=np.arange(HOURS + 1), waiting=plan.waiting._replace(wanted=wanted),
    )  # fmt: skip


def needs_wh(basis: Basis, lanes: Lanes) -> Floats:
    """What each course costs under each sky: engine energy and dark hours, less what is left in the bank [courses, scenarios]."""
    bank_wh = basis.plan.bank.full_ah * basis.facts.nominal_v
    return np.asarray(lanes.engine_wh.sum(axis=2) + DARK_COUNTS * lanes.dark_wh - bank_wh * lanes.charge[..., -1])  # fmt: skip


def even_wh(basis: Basis) -> float:
    """Needs nearer than this are even."""
    return max(EVEN_SHARE * basis.facts.use_a_day_wh, EVEN_WH)


def as_if_just_read(basis: Basis, seen: Seen, skies: Skies, tilts: Course, covered: float) -> Lanes | None:  # fmt: skip
    """The course run from the charge as it was read, where that is some while ago; None for a fresh one, or no engine.

    Args:
        basis: Of the homestead.
        seen: By the owner.
        skies: Drawn.
        tilts: The course.
        covered: Share of the glass under snow now.
    """
    if seen.charge is None or seen.charge.age_h < AGES_H or not basis.plan.motor.present:
        return None
    return run_ahead(basis, skies, [tilts], covered, charge=skies.as_read)


def told(basis: Basis, skies: Skies, lanes: Lanes, nth: int, just_read: Lanes | None = None) -> Ahead:  # fmt: skip
    """One course in bands.

    Args:
        basis: Of the homestead.
        skies: Drawn.
        lanes: The house along the courses.
        nth: Which of them.
        just_read: The same course from an old charge as it was read: the engine runs no less than there.
    """
    now, sundown = skies.now_h, float(basis.sundown_h[skies.day - 1])
    charge = lanes.charge[nth].copy()
    charge[:, :now] = np.nan
    ends = charge[:, min(round(sundown), HOURS)] if sundown > now else charge[:, now]
    until = min(now + 24, HOURS)
    by_hour, ahead_h = lanes.engine_h[nth], lanes.engine_h[nth].sum(axis=1)
    if just_read is not None:
        more = just_read.engine_h[0][:, now:until].sum(axis=1) > by_hour[:, now:until].sum(axis=1)
        by_hour = np.where(more[:, None], just_read.engine_h[0], by_hour)
        ahead_h = np.maximum(ahead_h, just_read.engine_h[0].sum(axis=1))
    engine = by_hour[:, now:until]
    runs = engine.sum(axis=1) > 0.0
    first = np.argmax(engine > 0.0, axis=1)[runs] + now
    today = slice(now, 24)
    turned = lanes.turned_wh[nth][:, today]
    spare = np.flatnonzero((turned > 100.0).mean(axis=0) >= 0.6)
    low, mid, high = quantiles(charge, (0.1, 0.5, 0.9))
    return Ahead(
        sun_wh=_band(lanes.power_w[nth][:, today].sum(axis=1)),
        used_wh=_band(lanes.used_wh[nth][:, today].sum(axis=1)),
        sundown=_band(ends),
        sundown_h=sundown,
        engine=EngineToday(
            chance=float(runs.mean()),
            from_h=float(np.sort(first)[first.size // 2]) if runs.any() else None,
            hours=_band(engine.sum(axis=1)),
            ahead_h=_band(ahead_h),
            present=basis.plan.motor.present,
        ),
        turned_away_wh=_band(turned.sum(axis=1)),
        need_wh=float(needs_wh(basis, lanes)[nth].mean()),
        charge_low=tuple(low.tolist()),
        charge_mid=tuple(mid.tolist()),
        charge_high=tuple(high.tolist()),
        spare_from_h=float(spare[0] + now) if spare.size else None,
    )


def quantiles(values: Floats, shares: Sequence[float]) -> Floats:
    """Quantiles along the first axis, in a straight line between neighbours; the library's own reads in what a cold terminal waits for.

    Example:
        >>> quantiles(np.array([3.0, 1.0, 2.0]), (0.5, 0.75)).tolist()
        [2.0, 2.5]
    """
    order = np.sort(values, axis=0)
    found = []
    for share in shares:
        at = share * (values.shape[0] - 1)
        low = min(int(at), values.shape[0] - 1)
        high = min(low + 1, values.shape[0] - 1)
        found.append(order[low] + (at - low) * (order[high] - order[low]))
    return np.array(found)


def _band(values: Floats) -> Band:
    low, mid, high = quantiles(values, (0.1, 0.5, 0.9))
    return Band(float(low), float(mid), float(high))
