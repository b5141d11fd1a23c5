"""Where the sun stands, hour by hour: a fact of the place, worked once and handed up (decision 0003)."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray


@dataclass(frozen=True, slots=True, eq=False)
class SunPath:
    """The sun at the middle of each hour of the working year.

    Attributes:
        zenith_deg: Apparent zenith [8760].
        azimuth_deg: From true north, clockwise [8760].
        extra_w_m2: Irradiance outside the air, square to the sun [8760].
        extra_flat_w_m2: Mean over the hour of the same on a level plane, sunrise hours included [8760].
        start_month: First month of the working year (7 or 1).
    """

    zenith_deg: NDArray[np.float64]
    azimuth_deg: NDArray[np.float64]
    extra_w_m2: NDArray[np.float64]
    extra_flat_w_m2: NDArray[np.float64]
    start_month: int


def sun_path(
    latitude_deg: float, longitude_deg: float, elevation_m: float, clock_offset_hours: float
) -> SunPath:
    """The sun's path over a place, by pvlib's solar position algorithm."""
    raise NotImplementedError
