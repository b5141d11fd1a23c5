"""Entries rolled up day by day."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta
from itertools import pairwise

from polestead.daybook.daybook import Kept, newest
from polestead.daybook.entry import Snow
from polestead.daybook.house import Key

A_MOVE_DEG = 1.0  # smaller differences are the level's and the eye's
NOON = time(12)
_MORE_SNOW: tuple[Snow, ...] = ("bare", "dusted", "covered")


@dataclass(frozen=True, slots=True)
class Day:
    """One day of the log; what nobody looked at is None.

    Attributes:
        day: The day.
        entries: How many count.
        tilt_deg: Last tilt written that day.
        tilt_held_deg: Tilt it stood at by the end of the day: the last one written up to then.
        moves: Changes of tilt by a degree or more.
        charge_morning: First charge before noon; one without an hour counts as the morning's.
        charge_evening: Last charge from noon on.
        rest_v: First rest voltage of the day.
        new_wh, all_wh: Made that day.
        engine_hours: Written for the day, or from the meter.
        engine_over_days: 1 where the hours are the day's own; n where they are its share of what the meter ran over n days; 0 where
            nothing is known.
        filled_l: Fuel filled, all fills of the day.
        tank_l, tank_share: Last level of the tank.
        snow: The most that lay on the glass.
        gust_m_s: The strongest.
        done: Chores done.
    """

    day: date
    entries: int = 0
    tilt_deg: float | None = None
    tilt_held_deg: float | None = None
    moves: int = 0
    charge_morning: float | None = None
    charge_evening: float | None = None
    rest_v: float | None = None
    new_wh: float | None = None
    all_wh: float | None = None
    engine_hours: float | None = None
    engine_over_days: int = 0
    filled_l: float | None = None
    tank_l: float | None = None
    tank_share: float | None = None
    snow: Snow | None = None
    gust_m_s: float | None = None
    done: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Gap:
    """A run of days without an entry.

    Attributes:
        first, last: Both without one.
    """

    first: date
    last: date

    @property
    def days(self) -> int:
        """How many."""
        return (self.last - self.first).days + 1


def days(entries: Sequence[Kept], since: date, until: date) -> tuple[Day, ...]:
    """Every day from `since` to `until`, both counted, those without an entry too.

    Of several values of one kind and moment the last written counts; of a day's own figure (kWh, engine hours) the last written
    on that day; fills add up, the strongest gust and the most snow count.

    Args:
        entries: From ``Daybook.entries``, from before `since` on for the tilt held and the meter; those struck do not count.
        since: First day.
        until: Last day.
    """
    by_day: defaultdict[date, list[Kept]] = defaultdict(list)
    for one in entries:
        if one.struck is None:
            by_day[one.entry.moment.day].append(one)
    metered = _metered(by_day)
    made = []
    held: float | None = None
    for day in sorted({*by_day, *_span(since, until)}):
        if day > until:
            break
        tilts = _in_order(by_day.get(day, ()), "tilt_deg")
        moves = 0
        for tilt in tilts:
            moves += held is not None and abs(tilt - held) >= A_MOVE_DEG
            held = tilt
        if day >= since:
            made.append(_day(day, by_day.get(day, []), tilts, held, moves, metered.get(day)))
    return tuple(made)


def gaps(rolled: Sequence[Day]) -> tuple[Gap, ...]:
    """Runs of days without an entry from the first day that has one to the last of those given.

    Args:
        rolled: From ``days``, in order.
    """
    found: list[Gap] = []
    begun = False
    for day in rolled:
        begun = begun or day.entries > 0
        if begun and not day.entries:
            joins = bool(found) and found[-1].last == day.day - timedelta(days=1)
            first = found.pop().first if joins else day.day
            found.append(Gap(first, day.day))
    return tuple(found)


def _span(since: date, until: date) -> list[date]:
    return [since + timedelta(days=n) for n in range((until - since).days + 1)]


def _day(
    day: date,
    found: Sequence[Kept],
    tilts: Sequence[float],
    held: float | None,
    moves: int,
    metered: tuple[float, int] | None,
) -> Day:
    own = _newest_of(found, "engine_hours")
    hours, over = (own, 1) if own is not None else (metered or (None, 0))
    level = _newest_kept(found, "tank_l", "tank_share")
    return Day(
        day=day,
        entries=len(found),
        tilt_deg=tilts[-1] if tilts else None,
        tilt_held_deg=held,
        moves=moves,
        charge_morning=_morning(found),
        charge_evening=_evening(found),
        rest_v=_first_of(found, "rest_v"),
        new_wh=_newest_of(found, "new_wh"),
        all_wh=_newest_of(found, "all_wh"),
        engine_hours=hours,
        engine_over_days=over,
        filled_l=_sum_of(found, "filled_l"),
        tank_l=None if level is None else level.entry.tank_l,
        tank_share=None if level is None else level.entry.tank_share,
        snow=_most_snow(found),
        gust_m_s=max(_each_moment(found, "gust_m_s"), default=None),
        done=tuple(dict.fromkeys(chore for one in found for chore in one.entry.done)),
    )


def _with(found: Sequence[Kept], *keys: Key) -> list[Kept]:
    if len(keys) == 1:
        name = keys[0]
        return [one for one in found if getattr(one.entry, name) is not None]
    return [one for one in found if any(getattr(one.entry, key) is not None for key in keys)]


def _newest_kept(found: Sequence[Kept], *keys: Key) -> Kept | None:
    having = _with(found, *keys)
    return newest(having) if having else None


def _newest_of(found: Sequence[Kept], key: Key) -> float | None:
    """A figure of the whole day: the last written counts, whatever hour it bears."""
    having = _with(found, key)
    return getattr(max(having, key=lambda one: one.number).entry, key) if having else None


def _at_each_moment(found: Sequence[Kept], *keys: Key) -> list[Kept]:
    """One entry a moment, the last written, in the order of the hours (in that of writing, where an hour is missing)."""
    having = _with(found, *keys)
    if len(having) < 2:  # most days
        return having
    moments = {one.entry.moment: one for one in sorted(having, key=lambda one: one.number)}
    left, ordered = list(moments.values()), []
    while left:
        last = newest(left)
        left.remove(last)
        ordered.append(last)
    return ordered[::-1]


def _each_moment(found: Sequence[Kept], key: Key) -> list[float]:
    return [getattr(one.entry, key) for one in _at_each_moment(found, key)]


def _in_order(found: Sequence[Kept], key: Key) -> list[float]:
    """Every value of the day that counts; where one has no hour only the last written does."""
    values = _each_moment(found, key)
    no_hour = len(values) > 1 and any(one.entry.moment.at is None for one in _with(found, key))
    return values[-1:] if no_hour else values


def _sum_of(found: Sequence[Kept], key: Key) -> float | None:
    values = _each_moment(found, key)
    return sum(values) if values else None


def _first_of(found: Sequence[Kept], key: Key) -> float | None:
    values = _in_order(found, key)
    return values[0] if values else None


def _morning(found: Sequence[Kept]) -> float | None:
    return _first_of([one for one in found if (one.entry.moment.at or time()) < NOON], "charge")


def _evening(found: Sequence[Kept]) -> float | None:
    late = [one for one in found if (one.entry.moment.at or time()) >= NOON]
    values = _in_order(late, "charge")
    return values[-1] if values else None


def _most_snow(found: Sequence[Kept]) -> Snow | None:
    seen = [one.entry.glass for one in _at_each_moment(found, "snow", "snow_share")]
    return max((word for word in seen if word is not None), key=_MORE_SNOW.index, default=None)


def _metered(by_day: dict[date, list[Kept]]) -> dict[date, tuple[float, int]]:
    """Hours of each day from the standings of the meter, spread evenly between two of them, and over how many days.

    A standing without an hour is taken as the evening's.  A meter that runs backwards (another one, or a slip) tells nothing there.
    """
    standings = [
        (_end_of(one), one.entry.engine_meter_hours)
        for day in sorted(by_day)
        for one in _at_each_moment(by_day[day], "engine_meter_hours")
    ]
    hours: defaultdict[date, float] = defaultdict(float)
    over: defaultdict[date, int] = defaultdict(int)
    for (start, before), (end, after) in pairwise(standings):
        if before is None or after is None or after < before or end <= start:
            continue
        last = (end - timedelta(microseconds=1)).date()
        for day in _span(start.date(), last):
            morning = datetime.combine(day, time())
            inside = min(end, morning + timedelta(days=1)) - max(start, morning)
            hours[day] += (after - before) * (inside / (end - start))
            over[day] = max(over[day], (last - start.date()).days + 1)
    return {day: (hours[day], over[day]) for day in hours}


def _end_of(one: Kept) -> datetime:
    moment = one.entry.moment
    return moment.wall if moment.at is not None else moment.wall + timedelta(days=1)
