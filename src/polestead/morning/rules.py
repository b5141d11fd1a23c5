"""The rules that never bend: where it may stand, whether it may be moved, by when it must be laid (conventions §19 to §26)."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime, time, timedelta
from math import ceil, floor, inf, isfinite
from typing import Literal

from polestead.base.show import Style
from polestead.morning.card import Card, in_step_m_s, up_m_s
from polestead.morning.forecast.gust_ahead import GustAhead
from polestead.morning.seen import Seen

SNOW_LIMIT_PA = 239.0  # 5 psf: over it the drive is not asked to move (METHODS 4.4)
WET_SNOW_KG_M3 = 200.0  # what lies a day; fresh snow is half of it: ours, careful
GRAVITY_M_S2 = 9.81
FIVE_MIN_H = 1.0 / 12.0  # hours of the sun are told so fine, a move within them
MORNING_H = 7.0  # he is up; ours
Refusal = Literal["blows", "iced", "buried", "covered", "snow", "dark"]


@dataclass(frozen=True, slots=True)
class Hours:
    """The day in hours from midnight, as far as moving goes.

    Attributes:
        now_h: Now.
        there_to_h: He can move it until then today; now itself where he leaves at once.
        back_h: From when he can move it again; before dark, or a later morning.
        dusk_h: Sundown: nothing is moved after it.
        morning_h: Of the morning after, when he is up.
        light_h: From when it is light: nothing is moved before it; gone by where it is light now.
    """

    now_h: float
    there_to_h: float
    back_h: float
    dusk_h: float
    morning_h: float = 24.0 + MORNING_H
    light_h: float = -inf

    @property
    def dark(self) -> bool:
        """Whether it is dark now."""
        return self.light_h > self.now_h

    @property
    def move_h(self) -> float:
        """The earliest hour it may be moved in."""
        return max(self.now_h, self.light_h)

    @property
    def again_h(self) -> float:
        """The morning until which tonight's tilt must stand."""
        gone = self.there_to_h <= self.now_h and self.back_h >= 24.0
        return self.back_h if gone else self.morning_h


def hours_of(seen: Seen, sundown_h: float, back_hour: float | None = None, sunup_h: float = -inf) -> Hours:  # fmt: skip
    """When he is there.

    Args:
        seen: With the clock and where he is.
        sundown_h: Of today.
        back_hour: He is home again at by his own clock, where he is gone till dark; None: an hour before sundown.
        sunup_h: Of today, and near enough of tomorrow.
    """
    now = seen.at.hour + seen.at.minute / 60.0
    dusk, up = max(sundown_h, now), _morning_h(seen, 1)
    light = ceil(sunup_h / FIVE_MIN_H - 1e-9) * FIVE_MIN_H if isfinite(sunup_h) else sunup_h
    if now >= sundown_h and isfinite(sunup_h):
        light += 24.0
    if seen.away.days > 0.0:
        back = _morning_h(seen, max(round(seen.away.days), 1))
        return Hours(now, now, back, dusk, back, light)
    if seen.away.till_dark:
        home = None if back_hour is None else seen.hour_of(_midnight(seen) + timedelta(hours=back_hour))  # fmt: skip
        back = max(dusk - 1.0, now) if home is None else max(home, now)
        # back in the dark he moves nothing
        return Hours(now, now, back if back < dusk else up, dusk, up, light)
    return Hours(now, dusk, now, dusk, up, light)


def _midnight(seen: Seen) -> datetime:
    return datetime.combine(seen.at.date(), time())


def _morning_h(seen: Seen, days: int) -> float:
    """When he is up by his own clock, so many days on."""
    return seen.hour_of(_midnight(seen) + timedelta(days=days, hours=MORNING_H))


def refused(seen: Seen, under_m_s: float, style: Style) -> Refusal | None:
    """Why it may not be moved now; None: by what is known it may, under its moving gust.

    Args:
        seen: Glass, snow and wind.
        under_m_s: Least moving gust of the way.
        style: In whose steps gusts are shown.
    """
    if seen.glass == "iced" or seen.glass == "buried":
        return seen.glass
    if seen.snow_m is not None:
        if seen.snow_m * WET_SNOW_KG_M3 * GRAVITY_M_S2 > SNOW_LIMIT_PA:
            return "snow"
    elif seen.glass == "covered":
        return "covered"
    if seen.blows_m_s is not None and up_m_s(seen.blows_m_s, style) >= in_step_m_s(under_m_s, style):  # fmt: skip
        return "blows"
    return None


@dataclass(frozen=True, slots=True)
class Held:
    """A tilt for today with a way through the night.

    Attributes:
        tilt_deg: For today.
        upper_m_s: Upper gust it must stand to there.
        night_deg: For tonight.
        night_upper_m_s: Upper gust of the night (of the whole window where nothing is moved).
        by_h: By when it must be at the night's tilt; None where it stays.
    """

    tilt_deg: float
    upper_m_s: float
    night_deg: float
    night_upper_m_s: float
    by_h: float | None


class Bounds:
    """The rules for one morning: a card, the gusts ahead, the hours, the owner's steps."""

    def __init__(self, card: Card, ahead: GustAhead, hours: Hours, style: Style, under_snow: bool, snow_from_h: float = inf, falls_h: float = inf) -> None:  # fmt: skip
        self.card, self.ahead, self.hours, self.style = card, ahead, hours, style
        self.snow_from_h = -inf if under_snow else snow_from_h
        self.falls_h = min(snow_from_h, falls_h)
        self._upper: dict[tuple[float, float], float] = {}
        self._stands: dict[tuple[float, bool], float] = {}
        self.whole_m_s = up_m_s(ahead.upper_m_s(hours.now_h, hours.again_h), style)

    def under_snow(self, to_h: float | None = None) -> bool:
        """Whether snow lies, or is told to fall, before an hour; None: before the morning after."""
        return self.snow_from_h < (self.hours.again_h if to_h is None else to_h)

    def stands_m_s(self, tilt_deg: float, to_h: float | None = None) -> float:
        """As shown, until an hour; None: until the morning after.  Under snow from when it lies or is told."""
        key = (tilt_deg, self.under_snow(to_h))
        if key not in self._stands:
            self._stands[key] = in_step_m_s(self.card.stands_to_m_s(*key), self.style)
        return self._stands[key]

    def under_m_s(self, one_deg: float | None, other_deg: float) -> float:
        """Moving gust of a way, as shown."""
        return in_step_m_s(self.card.path_under_m_s(one_deg, other_deg), self.style)

    def upper_m_s(self, from_h: float, to_h: float) -> float:
        """Upper gust of some hours, as shown."""
        if (from_h, to_h) not in self._upper:
            self._upper[from_h, to_h] = up_m_s(self.ahead.upper_m_s(from_h, to_h), self.style)
        return self._upper[from_h, to_h]

    def stays(self, tilt_deg: float) -> bool:
        """Whether it may be left there until the morning after."""
        return self.stands_m_s(tilt_deg) >= self.whole_m_s

    def held(self, tilt_deg: float, nights: Iterable[float]) -> Held | None:
        """How a tilt can be held through; None where it cannot.

        It stays where it stands to the upper gust of all the hours until the morning after.  Else it is moved while he is there:
        by an hour up to which the upper gust keeps under the least moving gust of the way, to a tilt that stands to what comes.

        Args:
            tilt_deg: For today.
            nights: Tilts to try for the night, the best first.
        """
        if self.stays(tilt_deg):
            return Held(tilt_deg, self.whole_m_s, tilt_deg, self.whole_m_s, None)
        for night in nights:
            by = self.deadline_h(tilt_deg, night)
            if by is not None:
                night_upper = self.upper_m_s(by - 1.0, self.hours.again_h)
                return Held(tilt_deg, self.upper_m_s(self.hours.now_h, by), night, night_upper, by)
        return None

    def deadline_h(self, tilt_deg: float, night_deg: float) -> float | None:
        """The last hour by which it can be at the night's tilt; None for no such hour.

        The move falls in the hour before: its gusts, and all before it, keep under the moving gust of the way; the day's tilt
        stands until then, the night's from the beginning of the move.
        """
        hours = self.hours
        under = self.under_m_s(tilt_deg, night_deg)
        if hours.there_to_h > hours.now_h:
            first, last = hours.move_h + 1.0, hours.dusk_h
        elif hours.back_h < 24.0:
            first, last = max(hours.back_h, hours.light_h) + 1.0, hours.dusk_h
        else:
            return None
        if self.falls_h < last:
            # before it lies under snow nobody measured, or iced; what may fall at any hour leaves this one
            at_once = self.falls_h <= first - 1.0
            if at_once and first > hours.now_h + 1.0:
                return None
            last = first if at_once else self.falls_h
            first = min(first, last)
        by = float(int(last))
        if by < first <= last:
            by = floor(last / FIVE_MIN_H + 1e-9) * FIVE_MIN_H  # less than a whole hour is left
        while by >= first - 1e-9:
            until = self.upper_m_s(hours.now_h, by)
            if until < under and self.stands_m_s(tilt_deg, by) >= until:
                night = self.upper_m_s(by - 1.0, hours.again_h)
                return by if self.stands_m_s(night_deg) >= night else None
            by -= 1.0
        return None
