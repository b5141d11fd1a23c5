"""The morning decided: which tilt, whether it may be moved, how it is left for the night, what the house does."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import inf, nan
from typing import cast

import numpy as np

from polestead.base.show import Style, in_style
from polestead.morning.ahead import (
    COVERED_BY,
    HOURS,
    Course,
    Lanes,
    Skies,
    as_if_just_read,
    course,
    day_of,
    drawn,
    even_wh,
    needs_wh,
    new_power_w,
    quantiles,
    run_ahead,
    told,
)
from polestead.morning.basis import Basis
from polestead.morning.card import Card
from polestead.morning.choose import (
    SAME_TILT_DEG,
    SNOW_COUNTS_M,
    WORTH_A_LOOK,
    chosen,
    nights_of,
    snow_counts_h,
    snow_season,
    worth_a_move_wh,
)
from polestead.morning.firmest import firmest_of
from polestead.morning.forecast.forecast import Forecast
from polestead.morning.forecast.gust_ahead import GustAhead, gust_ahead
from polestead.morning.line import Decided, Meant, morning_words
from polestead.morning.outlook import Likely, calendar_day, later_bounds, likely_held, looked_ahead
from polestead.morning.result import Morning, Move, Tonight
from polestead.morning.rules import Bounds, Held, Hours, Refusal, hours_of, refused
from polestead.morning.seen import Seen

ODD_HEAT_K = 20.0  # beyond all the season has had: a slip of unit or sign; ours
_OF_SNOW = re.compile(r"(?<!no )snow|blizzard|flurr|graupel|wintry")
_OF_ICE = re.compile(
    r"\b(?<!no )(?:ice|icy|icing|sleet|glaze|rime)\b|freezing (?:rain|drizzle|fog|spray)"
)
UNLOOKED = "Glass not looked at: taken as under snow."
COMES_BACK_DEG = 5.0  # so far off is another tilt
TRIED = 5  # tilts run through the house


def morning_of(basis: Basis, seen: Seen, forecast: Forecast, style: Style | None = None) -> Morning:
    """The morning line.

    No tilt is named whose stands-to, as shown, is under the upper gust of the hours it must hold (conventions §19); nothing is
    moved over its moving gust, iced, buried or under too much snow (§20).

    Args:
        basis: Of the homestead.
        seen: What the owner sees.
        forecast: As told, or ``nothing_heard``.
        style: In whose units; None: as the file says.
    """
    style = style or basis.facts.units
    forecast = _likely_heat(basis, seen, forecast)
    skies = drawn(basis, seen, forecast)
    ahead = gusts_of(basis, seen, forecast)
    hours = hours_of(seen, float(basis.sundown_h[skies.day - 1]), basis.facts.gone_to_hour, float(basis.sunup_h[skies.day - 1]))  # fmt: skip
    bounds = _bounds(basis, seen, forecast, ahead, hours, style)
    covered = _covered(seen)
    held = _held(basis, bounds, seen, skies.day, forecast)
    lies = None if seen.lies is None else seen.lies.value
    asked = _asked(basis, seen, forecast, hours, style)
    if not held:
        return _words(basis, seen, forecast, style, bounds, None, None, basis.card.flat_deg, _as_it_lies(basis, skies, lies, covered, seen), asked)  # fmt: skip
    stays = next((one for one in held if lies is not None and abs(one.tilt_deg - lies) < SAME_TILT_DEG), None)  # fmt: skip
    if in_the_dark := _in_the_dark(bounds, stays, lies):
        # the night does not let it be moved; what stands against it by day is told before that
        why = refused(seen, basis.card.path_under_m_s(lies, basis.card.flat_deg), style)
        at = _as_it_lies(basis, skies, lies, covered, seen)
        return _words(basis, seen, forecast, style, bounds, stays, why or in_the_dark, basis.card.flat_deg, at, asked)  # fmt: skip
    if hours.light_h >= 24.0:
        held = [one for one in held if one is stays]
    tried = _tried(basis, skies, bounds, held, lies, covered)
    days = () if seen.away.days else later_bounds(basis, bounds, skies)
    likely = tuple(
        likely_held(basis, rules, forecast, calendar_day(skies, nth))
        for nth, rules in enumerate(days, 1)
    )
    courses = [course(basis, skies, one.tilt_deg, one.night_deg, one.by_h, seen.away.days, [held for held, _ in likely]) for one in tried]  # fmt: skip
    lanes = run_ahead(basis, skies, courses, covered)
    nth = chosen(basis, bounds, tried, lanes, lies, skies.day)
    picked = tried[nth]
    target = picked.tilt_deg
    refusal = refused(seen, basis.card.path_under_m_s(lies, target), style)
    moved = lies is None or abs(lies - target) >= SAME_TILT_DEG
    gain = 0.0
    if stays in tried:
        need = needs_wh(basis, lanes).mean(axis=1)
        gain = float(need[tried.index(stays)] - need[nth])
    may_rest = moved and stays is not None and refusal is None
    windy = may_rest and gain <= WORTH_A_LOOK * even_wh(basis) and _windy(bounds, seen, lies, target)  # fmt: skip
    if windy or (may_rest and gain < worth_a_move_wh(basis) and _comes_back(basis, seen, skies, days, likely, picked, lanes, nth, covered)):  # fmt: skip
        # it stands where it is, and there is little to be had for moving it in what is told, or to and fro
        picked, moved = cast("Held", stays), False
        nth = next(n for n, one in enumerate(tried) if one is stays)
    if refusal is not None and (moved or picked.by_h is not None or refusal != "blows"):
        at = _as_it_lies(basis, skies, lies, covered, seen)
        return _words(basis, seen, forecast, style, bounds, stays, refusal, target, at, asked)
    picked, quarrel = _for_the_night(basis.card, bounds, picked, forecast, _shift_h(seen, forecast))
    regret = _regret_wh(basis, lanes, nth)
    outlook = looked_ahead(basis, seen, skies, days, likely, picked, lanes, nth, covered)
    decided = Decided(
        held=picked,
        moved=moved,
        move=_move(basis.card, seen, target, bounds) if moved else None,
        tonight=_tonight(basis, bounds, picked, seen),
        ahead=told(
            basis, skies, lanes, nth, as_if_just_read(basis, seen, skies, courses[nth], covered)
        ),
        refusal=None,
        stands=True,
        quarrel=quarrel,
        regret_wh=regret,
        beside=_beside(basis, tried, lanes, nth, skies, lies),
        goal_deg=picked.tilt_deg,
        outlook=outlook,
        asked=asked,
        gain_wh=gain if moved and stays is not None else None,
        forgone=None if moved else _forgone(basis, tried, lanes, nth),
    )
    return _told(basis, seen, forecast, style, bounds, decided)


def _likely_heat(basis: Basis, seen: Seen, forecast: Forecast) -> Forecast:
    """A forecast without temperatures that are far from all this season has had; they are asked about."""
    about = (day_of(seen) - 1 + np.arange(-20, 21)) % 365
    air = basis.air_c[:, about]
    low, high = float(air.min()), float(air.max())
    # a low is no warmer than the warmest hour and a little, a high no colder than the coldest
    odd = [
        *(one.low_c for one in forecast.spans if one.low_c is not None and not -ODD_HEAT_K <= one.low_c - low <= high - low + ODD_HEAT_K / 2.0),
        *(one.high_c for one in forecast.spans if one.high_c is not None and not -ODD_HEAT_K / 2.0 <= one.high_c - low <= high - low + ODD_HEAT_K),
    ]  # fmt: skip
    if not odd:
        return forecast
    spans = tuple(
        replace(span, low_c=None, high_c=None) if {span.low_c, span.high_c} & set(odd) else span for span in forecast.spans
    )  # fmt: skip
    shown = " and ".join(in_style(one, "C", basis.facts.units) for one in dict.fromkeys(odd))
    return replace(forecast, spans=spans, notes=(*forecast.notes, f"~ {shown} is far from all this season has had here: is it a slip of unit or sign? Nothing is made of it."))  # fmt: skip


def _bounds(basis: Basis, seen: Seen, forecast: Forecast, ahead: GustAhead, hours: Hours, style: Style) -> Bounds:  # fmt: skip
    return Bounds(basis.card, ahead, hours, style, _snowed(basis, seen, forecast), _falls_h(seen, forecast), _falls_h(seen, forecast, ice=True))  # fmt: skip


def _asked(basis: Basis, seen: Seen, forecast: Forecast, hours: Hours, style: Style) -> tuple[Meant, ...]:  # fmt: skip
    """What each unit a wind may have been meant in would decide."""
    found = []
    lies = None if seen.lies is None else seen.lies.value
    for unit, one in forecast.readings:
        bounds = _bounds(basis, seen, one, gusts_of(basis, seen, one), hours, style)
        held = _held(basis, bounds, seen, day_of(seen), one)
        wanted = basis.wanted_tilt_deg(day_of(seen)) if lies is None else lies
        near = min(held, key=lambda each: (abs(each.tilt_deg - wanted) >= SAME_TILT_DEG, each.by_h is not None, abs(each.tilt_deg - wanted)), default=None)  # fmt: skip
        found.append(Meant(unit, near))
    return tuple(found)


def _in_the_dark(bounds: Bounds, stays: Held | None, lies: float | None) -> Refusal | None:
    """It is dark and where it lies does not hold for as long as nothing may be moved (conventions §20)."""
    hours = bounds.hours
    if not hours.dark:
        return None
    if hours.light_h >= 24.0:
        return None if stays is not None else "dark"
    until = hours.light_h + 1.0
    if lies is None or bounds.stands_m_s(lies, until) >= bounds.upper_m_s(hours.now_h, until):
        return None
    return "dark"


def _comes_back(basis: Basis, seen: Seen, skies: Skies, days: Sequence[Bounds], likely: Sequence[Likely], picked: Held, lanes: Lanes, nth: int, covered: float) -> bool:  # fmt: skip
    """Whether one of the next days would move it off again."""
    ahead = looked_ahead(basis, seen, skies, days, likely, picked, lanes, nth, covered)
    return any(one.tilt_deg is not None and abs(one.tilt_deg - picked.night_deg) >= COMES_BACK_DEG for one in ahead)  # fmt: skip


def _forgone(basis: Basis, tried: list[Held], lanes: Lanes, nth: int) -> tuple[float, float] | None:
    """A tilt that would save a little, and how much: not what a move must earn."""
    need = needs_wh(basis, lanes).mean(axis=1)
    best = int(np.argmin(need))
    gain = float(need[nth] - need[best])
    return (tried[best].tilt_deg, gain) if best != nth and 0.0 < gain < worth_a_move_wh(basis) else None  # fmt: skip


def gusts_of(basis: Basis, seen: Seen, forecast: Forecast) -> GustAhead:
    """The gusts ahead, with thunder where it was told, and where nobody is home in its season."""
    shift = _shift_h(seen, forecast)
    now = seen.at.hour + seen.at.minute / 60.0
    thunder = [(span.from_h - shift, span.to_h - shift) for span in forecast.spans if span.thunder]
    if not seen.away.home and seen.at.month in basis.facts.thunder_months:
        thunder.append((now, 24.0 * (1.0 + seen.away.days) + 7.0))
    facts = basis.facts
    return gust_ahead(forecast, basis.climate, shift, now, seen.at.month, facts.gust_chance, seen.taught.gust_bias, tuple(thunder), seen.met_m_s)  # fmt: skip


def _snowed(basis: Basis, seen: Seen, forecast: Forecast) -> bool:
    """Whether snow that counts with the wind lies on it, or may where nobody looked."""
    if seen.glass in ("covered", "iced", "buried") or (seen.snow_m or 0.0) >= SNOW_COUNTS_M:
        return True
    return _unlooked(basis, seen, forecast)


def _unlooked(basis: Basis, seen: Seen, forecast: Forecast) -> bool:
    """Whether nobody looked at the glass where snow may lie: in its season, or told, or noted of late."""
    if seen.glass != "not looked" or seen.snow_m is not None:
        return False
    told = snow_counts_h(forecast.spans, -inf) < inf
    day = min(seen.at.timetuple().tm_yday, 365)
    return told or seen.snow_of_late or snow_season(basis, day)


def _falls_h(seen: Seen, forecast: Forecast, ice: bool = False) -> float:
    """From when snow that counts is told, which lies until it is seen cleared; or else ice, which lets nothing be moved."""
    shift, now = _shift_h(seen, forecast), seen.at.hour + seen.at.minute / 60.0
    odd = [words.lower() for words in forecast.not_understood]
    if any(_OF_SNOW.search(words) or (ice and _OF_ICE.search(words)) for words in odd):
        return now  # how much and when is not known
    return snow_counts_h(forecast.spans, now + shift, ice) - shift


def _covered(seen: Seen) -> float:
    if seen.glass in ("bare", "not looked") and (seen.snow_m or 0.0) >= SNOW_COUNTS_M:
        return 1.0
    return COVERED_BY[seen.glass]


def _held(basis: Basis, bounds: Bounds, seen: Seen, day: int, forecast: Forecast) -> list[Held]:
    """Every tilt that can be held through to the morning after."""
    card = basis.card
    named = [basis.wanted_tilt_deg(day), basis.facts.winter_tilt_deg, card.flat_deg]
    if seen.lies is not None:
        named.append(seen.lies.value)
    held = []
    for tilt in card.tried(*named):
        one = bounds.held(tilt, nights_of(card, bounds, tilt, forecast))
        if one is not None:
            held.append(one)
    return held


def _tried(basis: Basis, skies: Skies, bounds: Bounds, held: list[Held], lies: float | None, covered: float) -> list[Held]:  # fmt: skip
    """The few worth running through the house: where it lies, what the plan wants, the firmest, those of most sun."""
    wanted = basis.wanted_tilt_deg(skies.day)
    sun = {
        one.tilt_deg: float(new_power_w(basis, skies, np.full(HOURS, one.tilt_deg), covered)[:, skies.now_h : 24].sum())
        for one in held
    }  # fmt: skip
    picked: dict[float, Held] = {}

    def take(one: Held | None) -> None:
        if one is not None and len(picked) < TRIED:
            picked.setdefault(one.tilt_deg, one)

    take(next((one for one in held if lies is not None and abs(one.tilt_deg - lies) < SAME_TILT_DEG), None))  # fmt: skip
    take(next((one for one in held if one.tilt_deg == wanted), None))
    take(max(held, key=lambda one: (bounds.stands_m_s(one.tilt_deg), one.by_h is None)))
    for one in sorted(held, key=lambda one: (one.by_h is not None, -sun[one.tilt_deg])):
        take(one)
        if len(picked) == TRIED - 1:
            break
    take(max(held, key=lambda one: sun[one.tilt_deg]))
    return list(picked.values())


def _windy(bounds: Bounds, seen: Seen, lies: float | None, target: float) -> bool:
    """Nobody looked, and what is told of the next hour is not under the moving gust of the way."""
    at = bounds.hours.move_h
    return seen.blows_m_s is None and bounds.upper_m_s(at, at + 1.0) >= bounds.under_m_s(lies, target)  # fmt: skip


def _shift_h(seen: Seen, forecast: Forecast) -> float:
    """From the forecast's midnight to today's."""
    return 24.0 * (seen.at.date() - forecast.day).days


def _for_the_night(card: Card, bounds: Bounds, held: Held, forecast: Forecast, shift: float) -> tuple[Held, str]:  # fmt: skip
    """Steep for snow or hail where the gust allows it; and what is to be said where they quarrel."""
    again = bounds.hours.again_h
    ahead = [span for span in forecast.spans if span.from_h - shift < again and span.to_h - shift > bounds.hours.now_h]  # fmt: skip
    for name, wish, steep in (
        ("hail", any(span.hail for span in ahead), card.steep_deg[1]),
        ("snow", snow_counts_h(ahead, -inf) < inf, card.steep_deg[0]),
    ):
        if not wish or held.night_deg >= steep - 5.0:
            continue
        by = bounds.deadline_h(held.tilt_deg, steep)
        if by is not None and bounds.stands_m_s(steep) >= held.night_upper_m_s:
            return replace(held, night_deg=steep, by_h=by, upper_m_s=bounds.upper_m_s(bounds.hours.now_h, by)), ""  # fmt: skip
        return held, name
    return held, ""


def _tonight(basis: Basis, bounds: Bounds, held: Held, seen: Seen) -> Tonight:
    night = held.night_deg
    start = bounds.hours.dusk_h if held.by_h is None else held.by_h
    steep = night > held.tilt_deg and held.by_h is not None
    return Tonight(
        tilt_deg=night,
        by_h=held.by_h,
        by_wall=None if held.by_h is None else seen.shown(held.by_h),
        why="as it is" if held.by_h is None else ("snow" if steep and bounds.stays(held.tilt_deg) else "gust"),
        gust_m_s=bounds.ahead.told_m_s(start, bounds.hours.again_h),
        upper_m_s=held.night_upper_m_s,
        stands_to_m_s=bounds.stands_m_s(night),
        locked=basis.card.locks_at(night),
    )  # fmt: skip


def _move(card: Card, seen: Seen, target: float, bounds: Bounds) -> Move:
    """How to get there; seconds only with a proved gauge (conventions §21)."""
    lies = None if seen.lies is None else seen.lies.value
    mark = card.rod_at_m(target)
    start = None if lies is None else card.rod_at_m(lies)
    travel = None if lies is None else card.rod_travel_m(lies, target)
    seconds = None
    if travel is not None and card.proved and card.key_s_per_m is not None:
        seconds = tuple(travel * each for each in card.key_s_per_m)
    key = "" if mark is None or start is None else ("out" if mark > start else "in")
    return Move(
        from_deg=lies,
        to_deg=target,
        key="out" if key == "out" else ("in" if key == "in" else ""),
        from_s=None if seconds is None else seconds[0],
        to_s=None if seconds is None else seconds[1],
        from_mark_m=start,
        mark_m=mark,
        proved=card.proved,
        under_m_s=bounds.under_m_s(lies, target),
        locked=card.locks_at(target),
        light_wall=seen.shown(bounds.hours.light_h) if bounds.hours.dark else None,
    )


def _regret_wh(basis: Basis, lanes: Lanes, nth: int) -> float:
    """What the choice costs where the sky turns out otherwise: nine times in ten no more than this."""
    need = needs_wh(basis, lanes)
    return float(quantiles(need[nth] - need.min(axis=0), (0.9,))[0])


@dataclass(frozen=True, slots=True)
class _Alone:
    """The house where it lies, where nothing can be chosen."""

    lanes: Lanes
    skies: Skies
    just_read: Lanes | None


def _as_it_lies(basis: Basis, skies: Skies, lies: float | None, covered: float, seen: Seen) -> _Alone:  # fmt: skip
    """Not moved: where it lies, or where the plan has it."""
    tilt = basis.wanted_tilt_deg(skies.day) if lies is None else float(np.clip(lies, basis.tilts_deg[0], basis.tilts_deg[-1]))  # fmt: skip
    alone: list[Course] = [course(basis, skies, tilt, tilt, None, max(seen.away.days, 0.0))]
    just_read = as_if_just_read(basis, seen, skies, alone[0], covered)
    return _Alone(run_ahead(basis, skies, alone, covered), skies, just_read)


def _words(basis: Basis, seen: Seen, forecast: Forecast, style: Style, bounds: Bounds, stays: Held | None, refusal: Refusal | None, goal_deg: float, alone: _Alone, asked: tuple[Meant, ...]) -> Morning:  # fmt: skip
    """The stop state: neither seconds nor mark (conventions §22)."""
    decided = Decided(
        held=stays,
        moved=False,
        move=None,
        tonight=None,
        ahead=told(basis, alone.skies, alone.lanes, 0, alone.just_read),
        refusal=refusal,
        stands=stays is not None and (stays.by_h is None),
        quarrel="",
        regret_wh=0.0,
        beside=None,
        goal_deg=goal_deg,
        outlook=(),
        asked=asked,
        firmest=firmest_of(basis.card, bounds, seen, style)
        if stays is None and refusal is None
        else None,
    )
    return _told(basis, seen, forecast, style, bounds, decided)


def _beside(basis: Basis, tried: list[Held], lanes: Lanes, nth: int, skies: Skies, lies: float | None) -> tuple[float, float] | None:  # fmt: skip
    """Another tilt and the sun the house would use there: where it lies, else the plan's, else the next best."""
    order = [
        *(n for n, one in enumerate(tried) if lies is not None and abs(one.tilt_deg - lies) < SAME_TILT_DEG),
        *(n for n, one in enumerate(tried) if one.tilt_deg == basis.wanted_tilt_deg(skies.day)),
        *np.argsort(needs_wh(basis, lanes).mean(axis=1)).tolist(),
    ]  # fmt: skip
    for other in order:
        if other != nth:
            used = float(np.median(lanes.used_wh[other][:, skies.now_h : 24].sum(axis=1)))
            return tried[other].tilt_deg, used
    return None


def _told(basis: Basis, seen: Seen, forecast: Forecast, style: Style, bounds: Bounds, decided: Decided) -> Morning:  # fmt: skip
    now = seen.at
    good_h = bounds.hours.dusk_h if decided.held is None or decided.held.by_h is None else decided.held.by_h  # fmt: skip
    if seen.away.days > 0.0:
        good_h = bounds.hours.again_h
    gusts = bounds.ahead
    hours = np.arange(HOURS, dtype=float)
    told_gust = tuple(nan if (gust := gusts.told_m_s(h, h + 1.0)) is None else gust for h in hours)
    upper = tuple(gusts.upper_m_s(h, h + 1.0) for h in hours)
    lies = None if seen.lies is None else seen.lies.value
    today = lies if decided.refusal is not None or decided.held is None else decided.held.tilt_deg
    words = morning_words(basis, seen, forecast, style, bounds, decided)
    return Morning(
        at=now,
        wall=seen.wall.replace(tzinfo=None),
        stop=words.stop,
        sentences=words.sentences,
        move=None if words.stop else decided.move,
        stays_deg=None if decided.moved or seen.lies is None else seen.lies.value,
        tonight=None if words.stop else decided.tonight,
        ahead=decided.ahead,
        gust_m_s=gusts.told_m_s(bounds.hours.now_h, bounds.hours.again_h),
        upper_m_s=bounds.whole_m_s,
        stands_to_m_s=None
        if today is None
        else bounds.stands_m_s(
            today,
            None if decided.refusal is not None or decided.held is None else decided.held.by_h,
        ),
        outlook=() if words.stop else decided.outlook,
        outlook_words=words.outlook,
        if_wrong=words.if_wrong,
        why=words.why,
        notes=(*words.notes, *((UNLOOKED,) if _unlooked(basis, seen, forecast) else ())),
        gust_by_hour=told_gust,
        upper_by_hour=upper,
        good_until=seen.shown(good_h),
        firmest=decided.firmest,
    )
