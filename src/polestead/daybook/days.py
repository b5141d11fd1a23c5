"""Entries rolled up day by day."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from polestead.daybook.daybook import Kept
from polestead.daybook.entry import Snow


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


def days(entries: Sequence[Kept], since: date, until: date) -> tuple[Day, ...]:
    """Every day from `since` to `until`, both counted, those without an entry too.

    Args:
        entries: From ``Daybook.entries``, from before `since` on for the tilt held and the meter.
        since: First day.
        until: Last day.
    """
    raise NotImplementedError
