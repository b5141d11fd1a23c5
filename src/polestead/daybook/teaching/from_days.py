"""The rolled-up days of the daybook as series."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from datetime import date
from typing import Literal

import numpy as np

from polestead.daybook.days import Day
from polestead.daybook.teaching.series import FULL, Floats, Seen, seen_of


def series_of(
    days: Sequence[Day],
    array: Literal["new", "all"] = "new",
    washed: Collection[str] = (),
    rained: Collection[date] = (),
) -> Seen:
    """Series of the days with a line.

    Snow counts as seen where the glass was covered: dusted glass is left to the test.  Fuel counts on the day it was filled.

    Args:
        days: Rolled up, rising.
        array: Whose energy is meant.
        washed: Keys of chores that clean the glass, where the owner keeps one.
        rained: Days of hard rain, where somebody knows them.
    """
    kept = [one for one in days if one.entries > 0]
    return seen_of(
        [one.day for one in kept],
        _values([one.new_wh if array == "new" else one.all_wh for one in kept]),
        charge=_values([charge_of(one) for one in kept]),
        dawn_charge=_values([one.charge_morning for one in kept]),
        snow=np.array([one.snow == "covered" for one in kept], dtype=bool),
        cleaned=np.array(
            [one.day in rained or any(key in washed for key in one.done) for one in kept],
            dtype=bool,
        ),
        engine_h=_values([one.engine_hours for one in kept]),
        fuel_l=_values([one.filled_l or 0.0 for one in kept]),
    )


def charge_of(day: Day) -> float | None:
    """The highest charge of a day as read; None where only the morning's is known and it was not full then.

    A half full battery of the morning says nothing of the afternoon.

    Args:
        day: Rolled up.
    """
    morning, evening = day.charge_morning, day.charge_evening
    if evening is None:
        return morning if morning is not None and morning >= FULL else None
    return evening if morning is None else max(morning, evening)


def _values(values: Sequence[float | None]) -> Floats:
    return np.array([np.nan if value is None else value for value in values], dtype=float)
