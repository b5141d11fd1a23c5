"""A forecast as plain data, whoever told it."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Literal

Sky = Literal["clear", "broken", "grey"]
Kind = Literal["heard", "file", "service", "none"]
GUST_OVER_MEAN = 1.5  # ten-minute mean in the open to a gust of three seconds (METHODS 4.3)


@dataclass(frozen=True, slots=True)
class Span:
    """What is told of some hours; None: nothing was said of it.

    Attributes:
        from_h, to_h: Hours since midnight at the start of the forecast's day: by the clock it was told by, then in standard time (``clock.in_standard``).
        gust_m_s: Largest gust at 10 m in the open.
        from_wind: The gust was not told but made from the mean wind.
        sky: Clear, broken or grey.
        high_c, low_c: Highest and lowest temperature.
        snow_m: Fresh snow.
        rain, thunder, hail: Whether they were named.
        ice: Rain that freezes to what it falls on, or sleet.
    """

    from_h: float
    to_h: float
    gust_m_s: float | None = None
    from_wind: bool = False
    sky: Sky | None = None
    high_c: float | None = None
    low_c: float | None = None
    snow_m: float | None = None
    rain: bool = False
    thunder: bool = False
    hail: bool = False
    ice: bool = False


@dataclass(frozen=True, slots=True)
class Forecast:
    """What was told of the days ahead.

    Attributes:
        kind: Who told it.
        day: The day whose midnight the hours are counted from.
        spans: In the order told.
        echo: What was made of it, in words.
        not_understood: Words nothing was made of; nothing is guessed from them.
        age_h: Hours since it was made.
        notes: What to know of it: a service that did not answer, a file that is old.
        gust_doubted: Hours of a gust had passed when it was heard, and were taken as those to come.
        least_gust_m_s: Largest gust that can be meant by words not understood; 0 where there are none.
        storm: Something was said of a storm, without a figure that is understood.
        least_to_h: Until when these two count, from midnight at the start of the forecast's day.
        unitless: A wind whose unit was left out, as it was said; empty where none was.
        readings: The same forecast read in each unit that wind may have been meant in.
    """

    kind: Kind
    day: date
    spans: tuple[Span, ...] = ()
    echo: str = ""
    not_understood: tuple[str, ...] = ()
    age_h: float = 0.0
    notes: tuple[str, ...] = ()
    gust_doubted: bool = False
    least_gust_m_s: float = 0.0
    storm: bool = False
    least_to_h: float = 0.0
    unitless: str = ""
    readings: tuple[tuple[str, Forecast], ...] = ()

    @property
    def tells_gust(self) -> bool:
        """Whether any gust was told."""
        return any(span.gust_m_s is not None for span in self.spans)


def nothing_heard(day: date, notes: tuple[str, ...] = ()) -> Forecast:
    """No forecast: climate counts."""
    return Forecast("none", day, notes=notes)
