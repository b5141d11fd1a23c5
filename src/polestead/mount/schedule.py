"""Which tilt on which day: plain data, made in `habits`, used everywhere above."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray


@dataclass(frozen=True, slots=True)
class TiltSchedule:
    """Moves of the year.

    Attributes:
        name: ``fixed``, ``two moves``, ...
        moves: (calendar day 1 to 365, tilt [deg]) in order of the calendar day; the last one holds over New Year.
    """

    name: str
    moves: tuple[tuple[int, float], ...]

    def tilt_by_hour_deg(self, day_of_year: NDArray[np.int64]) -> NDArray[np.float64]:
        """Tilt in each hour whose calendar day is given.

        Example:
            >>> two = TiltSchedule("two moves", ((73, 20.0), (265, 60.0)))
            >>> two.tilt_by_hour_deg(np.array([1, 73, 264, 265])).tolist()
            [60.0, 20.0, 20.0, 60.0]
        """
        days = np.array([day for day, _ in self.moves])
        tilts = np.array([tilt for _, tilt in self.moves])
        return np.asarray(
            tilts[np.searchsorted(days, day_of_year, side="right") - 1], dtype=np.float64
        )

    @property
    def moves_a_year(self) -> float:
        """Walks to the pole in a year."""
        return float(len(self.moves)) if len(self.moves) > 1 else 0.0


@dataclass(frozen=True, slots=True)
class SkyRule:
    """A rule for each morning: look at the sky, set one of two angles of the month.

    Attributes:
        name: In words.
        clear_tilt_deg: For a clear or broken sky, by month, January first [12].
        dull_tilt_deg: For a dull one [12].
        dull_under: Clearness of the day under which it was dull.
    """

    name: str
    clear_tilt_deg: tuple[float, ...]
    dull_tilt_deg: tuple[float, ...]
    dull_under: float

    def tilt_by_day_deg(
        self, month_of_day: NDArray[np.int64], clearness: NDArray[np.floating]
    ) -> NDArray[np.float64]:
        """Tilt of each day.

        Args:
            month_of_day: 1 to 12 [days].
            clearness: Of each day [years, days].

        Returns:
            [years, days].

        Example:
            >>> rule = SkyRule("by the sky", (60.0,) * 12, (5.0,) * 12, 0.3)
            >>> rule.tilt_by_day_deg(np.array([1, 1]), np.array([[0.6, 0.2]])).tolist()
            [[60.0, 5.0]]
        """
        clear = np.array(self.clear_tilt_deg)[month_of_day - 1]
        dull = np.array(self.dull_tilt_deg)[month_of_day - 1]
        return np.where(clearness < self.dull_under, dull, clear)


@dataclass(frozen=True, slots=True)
class EachDaysBest:
    """The angle that turns out best for each day, on glass always bare: no habit, the most that any could bring.

    Attributes:
        name: In words.
        tilts_deg: Angles to choose from.
    """

    name: str
    tilts_deg: tuple[float, ...]


Habitual = TiltSchedule | SkyRule | EachDaysBest

STEEP_TO_SHALLOW_DAY = 89  # 30 March
SHALLOW_TO_STEEP_DAY = 253  # 10 September
HALF_A_YEAR_DAYS = 182


def two_tilts(winter_tilt_deg: float, summer_tilt_deg: float, latitude_deg: float) -> TiltSchedule:
    """The owner's own two tilts, changed on the days a published rule for two settings names.

    Source: C. Landau's rule for two settings, restated by A. Weaver (25 to 50 degrees north): shallow from 30 March, steep
    from 10 September; half a year later south of the equator (ours).

    Args:
        winter_tilt_deg: Steep tilt [deg].
        summer_tilt_deg: Shallow tilt [deg].
        latitude_deg: Of the place; only its sign counts.

    Example:
        >>> two_tilts(60.0, 20.0, 45.0).moves
        ((89, 20.0), (253, 60.0))
        >>> two_tilts(50.0, 50.0, 45.0).moves
        ((1, 50.0),)
    """
    if winter_tilt_deg == summer_tilt_deg:
        return TiltSchedule("your own, fixed", ((1, winter_tilt_deg),))
    shift = 0 if latitude_deg >= 0.0 else HALF_A_YEAR_DAYS
    days = [(day + shift - 1) % 365 + 1 for day in (STEEP_TO_SHALLOW_DAY, SHALLOW_TO_STEEP_DAY)]
    moves = sorted(zip(days, (summer_tilt_deg, winter_tilt_deg), strict=True))
    return TiltSchedule("your own two tilts", tuple(moves))
