"""Two clocks: the standard time of the place, in which the day is worked (conventions §6), and the one on the owner's wall."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import UTC, datetime, time, timedelta, timezone

from polestead.morning.basis import Facts
from polestead.morning.forecast.forecast import Forecast

OffsetAt = Callable[[datetime], timedelta]
BY_LONGITUDE_H = 1.0  # a zone may stand so far from the hour of its longitude; ours
SUMMER = "summer time"


@dataclass(frozen=True, slots=True)
class PlaceClock:
    """What the owner's clock shows, and what the sums go by.

    Attributes:
        standard_h: Standard time of the place less UTC; None: nothing is known, both clocks are one.
        offset_at: The owner's clock less UTC, at a moment of UTC; None: standard time all the year.
        told: What is to be known of it; empty where the machine's clock is the place's.
    """

    standard_h: float | None = None
    offset_at: OffsetAt | None = None
    told: str = ""

    def standard(self, wall: datetime) -> datetime:
        """A time of the owner's clock, as standard time without an offset.

        An hour that came twice is the earlier one unless its ``fold`` is set; one that never came is told by the clock before.

        Args:
            wall: With its offset a moment of any clock, without one a time of the owner's.
        """
        if self.standard_h is None:
            return wall.replace(tzinfo=None)
        ahead = timedelta(hours=self.standard_h)
        if wall.tzinfo is not None:
            return wall.astimezone(UTC).replace(tzinfo=None) + ahead
        if self.offset_at is None:
            return wall.replace(fold=0)
        day = timedelta(days=1)
        before, after = (self._offset(wall - ahead + shift) for shift in (-day, day))
        real = [one for one in {before, after} if self._offset(wall - one) == one]
        off = before if not real else (min(real) if wall.fold else max(real))
        return wall.replace(fold=0) - off + ahead

    def wall(self, standard: datetime) -> datetime:
        """What the owner's clock shows at a standard time; with its offset where that is known.

        Args:
            standard: Without an offset.
        """
        if self.standard_h is None:
            return standard
        utc = standard - timedelta(hours=self.standard_h)
        off = self._offset(utc)
        return (utc + off).replace(tzinfo=timezone(off))

    def ahead_h(self, standard: datetime) -> float:
        """How far the owner's clock stands ahead of standard time then."""
        shows = self.wall(standard).replace(tzinfo=None)
        return (shows - standard).total_seconds() / 3600.0

    def _offset(self, utc: datetime) -> timedelta:
        if self.offset_at is None:
            return timedelta(hours=self.standard_h or 0.0)
        return self.offset_at(utc.replace(tzinfo=UTC))


ONE_CLOCK = PlaceClock()


def machine_at(utc: datetime) -> timedelta:
    """This machine's clock less UTC at a moment of UTC."""
    return utc.astimezone().utcoffset() or timedelta(0)


def place_clock(facts: Facts, year: int, offset_at: OffsetAt = machine_at) -> PlaceClock:
    """The clock of a place: the machine's, summer time and all, where its zone is the place's; else the place's standard time.

    The zone is the place's where its own standard time is what the file writes, or, where the file writes none, stands within an
    hour of the longitude's.

    Args:
        facts: Of the homestead.
        year: In which the machine's standard time is looked for.
        offset_at: The machine's clock less UTC at a moment of UTC.
    """
    standard_h = facts.clock_offset_h
    own_h = min(offset_at(datetime(year, month, 1, tzinfo=UTC)).total_seconds() for month in (1, 7)) / 3600.0  # fmt: skip
    off = abs(own_h - standard_h)
    if off < 1e-9 or (not facts.clock_told and off <= BY_LONGITUDE_H):
        return PlaceClock(standard_h, offset_at)
    words = f"~ This machine's clock is of another zone (UTC{_signed(own_h)}): hours here are the place's standard time, UTC{_signed(standard_h)}, never {SUMMER}."  # fmt: skip
    return PlaceClock(standard_h, None, words)


def in_standard(forecast: Forecast, clock: PlaceClock) -> Forecast:
    """A forecast told by the owner's clock, its hours in standard time.

    Args:
        forecast: As heard or read, in hours of his clock from the midnight of its day.
        clock: On his wall.
    """
    midnight = datetime.combine(forecast.day, time())

    def hour(shown: float) -> float:
        at = clock.standard(midnight + timedelta(hours=shown))
        return (at - midnight).total_seconds() / 3600.0

    spans = tuple(replace(one, from_h=hour(one.from_h), to_h=hour(one.to_h)) for one in forecast.spans)  # fmt: skip
    return replace(
        forecast, spans=spans, least_to_h=hour(forecast.least_to_h) if forecast.least_to_h else 0.0,
        readings=tuple((unit, in_standard(one, clock)) for unit, one in forecast.readings),
    )  # fmt: skip


def _signed(hours: float) -> str:
    whole, part = divmod(round(abs(hours) * 60.0), 60)
    return f"{'−' if hours < 0.0 else '+'}{whole}{f':{part:02d}' if part else ''}"
