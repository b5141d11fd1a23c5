"""What faults look like in the log of a day's energy over the expected."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np

from polestead.base.source import Source
from polestead.daybook.teaching.series import Floats

ShapeName = Literal["string", "tenth", "dirt", "gone", "shade", "growth", "back"]

DIRT_A_DAY = (0.002, 0.005)  # of the energy, a day without rain; Kimber 2006: .1 to .3 % in dry country, more beside tilled land  # fmt: skip
DIRT_MOST = 0.25  # dirt takes no more than this here; ours
GONE = 0.1  # of the expected left under snow or with the array off; ours
SHADE = 0.5  # of the low sun that something new takes; ours, a bare crown
GROWTH_A_YEAR = 0.15  # more of the low sun is taken each year; ours
SHADE_MOST = 0.9
KIMBER = Source("Kimber et al. 2006, IEEE WCPEC-4", "loss of .1 to .3 % a day without rain", "memory")  # fmt: skip


@dataclass(frozen=True, slots=True)
class Shape:
    """One form a loss may take since the day it began.

    Attributes:
        name: Which.
        size: Share lost (string, tenth, gone, shade), a day (dirt), or a year (growth).
        weight: Share of the false-alarm budget it may use.
        every_days: A start is looked at every so many days; one stands for all of them.
        window_days: Starts older than this are let go.
        most: Dirt takes no more than this.
    """

    name: ShapeName
    size: float
    weight: float = 0.0
    every_days: int = 1
    window_days: int = 0
    most: float = DIRT_MOST

    def log_of(self, days: Floats, low_sun_share: Floats | float) -> Floats:
        """Logarithm of what is left, so many days after the start.

        Args:
            days: Days since the start, none under nothing [any].
            low_sun_share: Of the day's energy, one or as many.
        """
        if self.name in ("string", "tenth", "gone"):
            return np.full(days.shape, np.log1p(-self.size))
        if self.name == "dirt":
            return np.asarray(np.log1p(-np.minimum(self.size * days, self.most)))
        share = self.size if self.name == "shade" else np.minimum(self.size * days / 365.25, SHADE_MOST)  # fmt: skip
        return np.asarray(np.log1p(-share * low_sun_share) + np.zeros(days.shape))


def shapes_of(strings: int | None) -> tuple[Shape, ...]:
    """The losses looked for; their weights share one false-alarm budget.

    Args:
        strings: In parallel on the array; one of them lost takes its share.  None where not known: a half and a quarter.

    Example:
        >>> round(sum(shape.weight for shape in shapes_of(2)), 6)
        1.0
    """
    lost = (0.5, 0.25) if strings is None else (1.0 / strings,) if strings > 1 else ()
    steps = [Shape("string", share, 0.25 / len(lost), 3, 180) for share in lost]
    rest = (
        Shape("tenth", 0.1, 0.2, 3, 300),
        Shape("dirt", DIRT_A_DAY[0], 0.1, 3, 300),
        Shape("dirt", DIRT_A_DAY[1], 0.1, 3, 180),
        Shape("gone", 1.0 - GONE, 0.15, 1, 30),
        Shape("shade", SHADE, 0.1, 6, 365),
        Shape("growth", GROWTH_A_YEAR, 0.1, 60, 4000),
    )
    shapes = (*steps, *rest)
    whole = sum(shape.weight for shape in shapes)
    return tuple(Shape(s.name, s.size, s.weight / whole, s.every_days, s.window_days) for s in shapes)  # fmt: skip
