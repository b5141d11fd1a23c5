"""The two days after today: which tilt each is likely to want, and whether it can be held through its night."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import timedelta
from math import inf

import numpy as np

from polestead.morning.ahead import HOURS, Lanes, Skies, course, new_power_w, run_ahead
from polestead.morning.basis import Basis
from polestead.morning.choose import SAME_TILT_DEG, chosen, nights_of
from polestead.morning.forecast.forecast import Forecast
from polestead.morning.result import DayAhead
from polestead.morning.rules import Bounds, Held, Hours
from polestead.morning.seen import Seen

TRIED = 4  # tilts of a later day run through the house
EVERY = 2  # of the skies: an outlook needs no more, and the line is wanted at once
Likely = tuple[Held | None, tuple[Held, ...]]


def later_bounds(basis: Basis, bounds: Bounds, skies: Skies) -> tuple[Bounds, ...]:
    """The rules of the next two days: he is there from morning to sundown; snow that lies or is told stays on the glass.

    Args:
        basis: Of the homestead.
        bounds: Of today.
        skies: Drawn.
    """
    found = []
    for nth in (1, 2):
        dusk = 24.0 * nth + float(basis.sundown_h[(skies.day - 1 + nth) % 365])
        up = bounds.hours.morning_h + 24.0 * (nth - 1)
        hours = Hours(up, dusk, up, dusk, up + 24.0)
        later = Bounds(basis.card, bounds.ahead, hours, bounds.style, False, bounds.snow_from_h)
        # what fell before that morning was looked at by then
        later.falls_h = bounds.falls_h if bounds.falls_h >= up else inf
        found.append(later)
    return tuple(found)


def likely_held(basis: Basis, bounds: Bounds, forecast: Forecast, day: int) -> Likely:
    """The plan's tilt of a later day, or the nearest to it that can be held; and all that can.

    Args:
        basis: Of the homestead.
        bounds: Of that day.
        forecast: As told.
        day: Of the calendar, 1 to 365.
    """
    card, wanted = basis.card, basis.wanted_tilt_deg(day)
    held = tuple(
        one for tilt in card.tried(wanted, card.flat_deg)
        if (one := bounds.held(tilt, nights_of(card, bounds, tilt, forecast))) is not None
    )  # fmt: skip
    return (min(held, key=lambda one: (one.by_h is not None, abs(one.tilt_deg - wanted))), held) if held else (None, ())  # fmt: skip


def calendar_day(skies: Skies, nth: int) -> int:
    """Of a later day, 1 to 365."""
    return (skies.day - 1 + nth) % 365 + 1


def looked_ahead(
    basis: Basis, seen: Seen, skies: Skies, days: Sequence[Bounds], likely: Sequence[Likely], today: Held, lanes: Lanes, nth: int, covered: float
) -> tuple[DayAhead, ...]:  # fmt: skip
    """The tilt of each later day: the house is run on from the charge today leaves it, with a few tilts for the one day after the other.

    Args:
        basis: Of the homestead.
        seen: With the clock.
        skies: Drawn.
        days: The rules of each.
        likely: From ``likely_held``, for each.
        today: How today is held.
        lanes: Of today's courses.
        nth: Which of them was chosen.
        covered: Share of the glass under snow now.
    """
    some = _some(skies)
    charge, lies = lanes.charge[nth, ::EVERY, :], today.night_deg
    held = [first for first, _ in likely]
    found = []
    for later, (bounds, (_, all_held)) in enumerate(zip(days, likely, strict=True), 1):
        day, begins = calendar_day(skies, later), 24 * later
        tried = _tried(basis, some, bounds, all_held, lies, day, later)
        if tried:
            courses = [
                course(basis, some, today.tilt_deg, today.night_deg, today.by_h, 0.0, [*held[: later - 1], one, *held[later:]])
                for one in tried
            ]  # fmt: skip
            run = run_ahead(basis, some, courses, covered, begins, charge[:, begins])
            # a day that wants nothing more is told to rest: for firmness alone it is moved by that morning's own line
            best = chosen(basis, bounds, tried, run, lies, day, firmest_wins=False)
            held[later - 1], charge, lies = tried[best], run.charge[best], tried[best].night_deg
        one = held[later - 1]
        found.append(DayAhead(
            day=(seen.at + timedelta(days=later)).date(),
            tilt_deg=None if one is None else one.tilt_deg,
            night_deg=None if one is None else one.night_deg,
            by_wall=None if one is None or one.by_h is None else seen.shown(one.by_h),
            upper_m_s=bounds.whole_m_s,
            told=bounds.ahead.told_m_s(bounds.hours.now_h, bounds.hours.again_h) is not None,
        ))  # fmt: skip
    return tuple(found)


def _some(skies: Skies) -> Skies:
    return replace(
        skies, years=skies.years[::EVERY], days=skies.days[::EVERY], factor=skies.factor[::EVERY], air_c=skies.air_c[::EVERY],
        fresh_m=skies.fresh_m[::EVERY], charge=skies.charge[::EVERY],
    )  # fmt: skip


def _tried(basis: Basis, skies: Skies, bounds: Bounds, held: Sequence[Held], lies: float, day: int, later: int) -> list[Held]:  # fmt: skip
    """Where it would lie, what the plan wants, the firmest, and the one of most sun."""
    if not held:
        return []
    wanted, hours = basis.wanted_tilt_deg(day), slice(24 * later, 24 * later + 24)

    def sun(one: Held) -> float:
        return float(new_power_w(basis, skies, np.full(HOURS, one.tilt_deg), 0.0)[:, hours].sum())

    named = (
        next((one for one in held if abs(one.tilt_deg - lies) < SAME_TILT_DEG), None),
        next((one for one in held if one.tilt_deg == wanted), None),
        max(held, key=lambda one: (bounds.stands_m_s(one.tilt_deg), one.by_h is None)),
        max(held, key=lambda one: (one.by_h is None, sun(one))),
    )  # fmt: skip
    picked = {one.tilt_deg: one for one in named if one is not None}
    return list(picked.values())[:TRIED]
