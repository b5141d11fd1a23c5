"""What `morning` hands up."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime
from typing import Literal

from polestead.base.working import Working

Sureness = Literal["sure", "likely", "guess"]


@dataclass(frozen=True, slots=True)
class Band:
    """A figure with its range: one time in ten under the low end, one in ten over the high."""

    low: float
    mid: float
    high: float


@dataclass(frozen=True, slots=True)
class Move:
    """How to get to the tilt.

    Attributes:
        from_deg: Where it lies; None: not known.
        to_deg: Where it goes.
        key: ``in`` or ``out``; empty without a drive or where the start is not known.
        from_s, to_s: How long the key is held; None while the gauge is unproved or the start is not known.
        from_mark_m, mark_m: Rod that shows there and then; None without a drive.
        proved: Whether the gauge is proved.
        under_m_s: Least moving gust of the way.
        locked: Whether the storm hold finds a hole there.
        light_wall: From when it is light, on the owner's clock; None where it is light now.
    """

    from_deg: float | None
    to_deg: float
    key: Literal["in", "out", ""]
    from_s: float | None
    to_s: float | None
    from_mark_m: float | None
    mark_m: float | None
    proved: bool
    under_m_s: float
    locked: bool
    light_wall: datetime | None = None


@dataclass(frozen=True, slots=True)
class Firmest:
    """Where no tilt holds: the firmest, and whether it may be brought there.

    Attributes:
        tilt_deg: The firmest that may be reached; where none may, the firmest of all.
        stands_to_m_s: As shown, under snow where it lies or is told.
        lies_m_s: What it stands to where it lies; None: that is not known.
        under_m_s: Least moving gust of the way.
        allowed: Whether it may be brought there.
        why_not: ``blows``, ``iced``, ``buried``, ``covered``, ``snow`` or ``dark``; empty where it may.
        look_first: What is told of the hour is not under the moving gust: only in a lull that is seen.
        from_wall: From when it is light, on the owner's clock; None: now.
        by_wall: By when it must be there; None: the sooner the better.
        locked: Whether the storm hold finds a hole there.
    """

    tilt_deg: float
    stands_to_m_s: float
    lies_m_s: float | None
    under_m_s: float
    allowed: bool
    why_not: Literal["", "blows", "iced", "buried", "covered", "snow", "dark"]
    look_first: bool
    from_wall: datetime | None
    by_wall: datetime | None
    locked: bool


@dataclass(frozen=True, slots=True)
class Tonight:
    """How it is left for the night.

    Attributes:
        tilt_deg: The tilt.
        by_h: By what hour it must be there, standard time from today's midnight; None where nothing need be done.
        by_wall: The same on the owner's clock.
        why: ``gust``, ``snow``, ``hail`` or ``as it is``.
        gust_m_s: Gust told for the night, and ``upper_m_s`` what it may be.
        upper_m_s: See there.
        stands_to_m_s: What the tilt stands to.
        locked: With the storm hold in.
    """

    tilt_deg: float
    by_h: float | None
    by_wall: datetime | None
    why: Literal["gust", "snow", "hail", "as it is"]
    gust_m_s: float | None
    upper_m_s: float
    stands_to_m_s: float
    locked: bool


@dataclass(frozen=True, slots=True)
class EngineToday:
    """The engine until tomorrow at the same hour.

    Attributes:
        chance: That it is called.
        from_h: Hour from today's midnight at which it is called, the middle one of the skies under which it is; None for never.
        hours: It runs, under all skies, those that do not call it too.
        ahead_h: Hours it runs over the three days, under all skies.
        present: False for a house without one.
    """

    chance: float
    from_h: float | None
    hours: Band
    ahead_h: Band
    present: bool


@dataclass(frozen=True, slots=True)
class Ahead:
    """The house run ahead at one tilt; each by hour from midnight of today.

    Attributes:
        sun_wh: Energy of the new array today.
        used_wh: Sun the house can use today, all arrays.
        sundown: Charge at sundown.
        sundown_h: When that is.
        engine: Until tomorrow.
        turned_away_wh: Sun today that nobody could take.
        need_wh: What it costs: engine energy and dark hours less what is left in the bank after three days, mean.
        charge_low, charge_mid, charge_high: Charge at the start of each hour [hours]; not a number before now.
        spare_from_h: Hour from which sun is turned away in most of the runs; None for none.
    """

    sun_wh: Band
    used_wh: Band
    sundown: Band
    sundown_h: float
    engine: EngineToday
    turned_away_wh: Band
    need_wh: float
    charge_low: tuple[float, ...]
    charge_mid: tuple[float, ...]
    charge_high: tuple[float, ...]
    spare_from_h: float | None


@dataclass(frozen=True, slots=True)
class DayAhead:
    """The tilt of one of the next days, as it looks now; it is worked again each morning.

    Attributes:
        day: Which.
        tilt_deg: Its tilt; None where none on the card stands.
        night_deg: For its night.
        by_wall: By when it must be there, on the owner's clock; None where it stays.
        upper_m_s: Upper gust until the morning after it.
        told: Whether a gust was told for it.
    """

    day: date
    tilt_deg: float | None
    night_deg: float | None
    by_wall: datetime | None
    upper_m_s: float
    told: bool


@dataclass(frozen=True, slots=True)
class Sentence:
    """One sentence of the line, and how sure it is."""

    sureness: Sureness
    text: str


@dataclass(frozen=True, slots=True)
class Reason:
    """One line of the why, with its working."""

    text: str
    working: Working


@dataclass(frozen=True, slots=True)
class Morning:
    """The morning line and all it rests on.

    Attributes:
        at: Standard time of the place; hours are counted from its midnight.
        wall: What the owner's clock shows.
        stop: It must not be moved, or no tilt holds: neither seconds nor mark are in this result then.
        sentences: At most five short ones.
        move: How to get there; None where it stays or must not be moved.
        stays_deg: Where it stays; None where it is moved or not known.
        tonight: How it is left for the night; None in the stop state.
        ahead: The house at that tilt; None where nothing of it is known.
        gust_m_s, upper_m_s: Told and upper gust until he can next move it; the first None without a forecast.
        stands_to_m_s: What the tilt of today stands to, as shown; None where it is not known where it lies.
        outlook: The two days after today; empty where he is away or it must not be moved.
        outlook_words: The same in words.
        if_wrong: The cost of being wrong.
        why: Five lines.
        notes: Stale readings, what was not understood, what a service did.
        gust_by_hour, upper_by_hour: [hours] for the strip [m/s]; the first not a number where nothing was told.
        good_until: The line holds until then, by the owner's clock.
        firmest: Where no tilt holds: where it may still be brought; None elsewhere, or where it lies firmest.
    """

    at: datetime
    wall: datetime
    stop: bool
    sentences: tuple[Sentence, ...]
    move: Move | None
    stays_deg: float | None
    tonight: Tonight | None
    ahead: Ahead | None
    gust_m_s: float | None
    upper_m_s: float
    stands_to_m_s: float | None
    outlook: tuple[DayAhead, ...]
    outlook_words: str
    if_wrong: str
    why: tuple[Reason, ...]
    notes: tuple[str, ...]
    gust_by_hour: tuple[float, ...]
    upper_by_hour: tuple[float, ...]
    good_until: datetime
    firmest: Firmest | None = None
