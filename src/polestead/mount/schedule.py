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
