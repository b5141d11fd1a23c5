"""What the owner sees this morning, and what the log has taught: the seam to the daybook."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, time, timedelta
from typing import Literal

from polestead.morning.clock import ONE_CLOCK, PlaceClock

# What a line of a note may begin with, so that the morning reads it again.
HEARD, AWAY, BANK = "heard: ", "away: ", "bank: "
STALE_CHARGE_H = 12.0
Glass = Literal["not looked", "bare", "dusted", "covered", "iced", "buried"]
GLASS: tuple[Glass, ...] = ("not looked", "bare", "dusted", "covered", "iced", "buried")


@dataclass(frozen=True, slots=True)
class Reading:
    """A figure and how old it is.

    Attributes:
        value: In the unit of its field.
        age_h: Hours since it was read.
    """

    value: float
    age_h: float = 0.0


@dataclass(frozen=True, slots=True)
class Away:
    """Where he is today.

    Attributes:
        words: ``home``, ``till dark`` or so many days.
        days: Nights he is not back for; 0 at home and till dark.
        till_dark: Not there by day.
    """

    words: str = "home"
    days: float = 0.0
    till_dark: bool = False

    @property
    def home(self) -> bool:
        """Whether he is there by day."""
        return self.days == 0.0 and not self.till_dark


@dataclass(frozen=True, slots=True)
class Taught:
    """What the log has taught; without one, nothing.

    Attributes:
        sun_factor: Sun seen over sun expected in this month.
        sun_factor_sd: How uncertain that factor is.
        gust_bias: Median of gusts seen over gusts heard; under 1 it counts as 1.
        days: Days it rests on; 0 without a log.
    """

    sun_factor: float = 1.0
    sun_factor_sd: float = 0.0
    gust_bias: float = 1.0
    days: int = 0


@dataclass(frozen=True, slots=True)
class LastSun:
    """The newest of the last days whose sun the log tells.

    Attributes:
        days_ago: How long ago.
        stands: Where it lay among its season's days, in deviates; of a day that may have been turned away, the mean of what lies above.
        made_wh: What the new array made.
        at_least: It may have been turned away by a full battery.
    """

    days_ago: int
    stands: float
    made_wh: float
    at_least: bool = False


@dataclass(frozen=True, slots=True)
class Tank:
    """Fuel in the tank.

    Attributes:
        litres: When it was read, and what was filled since; engine hours since are not taken off yet.
        age_h: Of the reading.
        engine_h: Engine hours written down since.
    """

    litres: float
    age_h: float
    engine_h: float = 0.0


@dataclass(frozen=True, slots=True)
class Seen:
    """All that is known by looking.

    Attributes:
        at: Standard time of the place, in which the day is worked.
        lies: Tilt it lies at [deg].
        charge: Of the battery, 0 to 1.
        glass: What lies on the glass.
        snow_m: How deep, where he measured it.
        blows_m_s: What it blows now, as a gust at 10 m in the open; None: not looked.
        away: Where he is.
        taught: Of the log.
        told: What is to be known of how it was seen: from the daybook, how long ago, or why not.
        clock: On the owner's wall.
        last_sun: Of the last days; None where the log tells none.
        met_m_s: Strongest gust met in the last two days, at 10 m in the open; 0 where none was written.
        tank: Fuel; None where nobody read it.
        bank_c: Temperature of the battery.
        snow_of_late: Snow on the glass was written down in the last two days, and nothing since.
    """

    at: datetime
    lies: Reading | None = None
    charge: Reading | None = None
    glass: Glass = "not looked"
    snow_m: float | None = None
    blows_m_s: float | None = None
    away: Away = Away()
    taught: Taught = Taught()
    told: tuple[str, ...] = ()
    clock: PlaceClock = ONE_CLOCK
    last_sun: LastSun | None = None
    met_m_s: float = 0.0
    tank: Tank | None = None
    bank_c: Reading | None = None
    snow_of_late: bool = False

    @property
    def wall(self) -> datetime:
        """What the owner's clock shows."""
        return self.clock.wall(self.at)

    def shown(self, hour: float) -> datetime:
        """What his clock shows at an hour from the midnight of today, without its offset."""
        midnight = datetime.combine(self.at.date(), time())
        return self.clock.wall(midnight + timedelta(hours=hour)).replace(tzinfo=None)

    def hour_of(self, wall: datetime) -> float:
        """The hour from the midnight of today at which his clock shows this."""
        midnight = datetime.combine(self.at.date(), time())
        return (self.clock.standard(wall) - midnight).total_seconds() / 3600.0
