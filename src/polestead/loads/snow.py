"""Snow on the glass: flat, sloped, uneven (ASCE 7 chapter 7)."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]


def sloped_snow_pa(
    ground_snow_pa: float, exposure: str, tilt_deg: Floats, room_to_slide: bool, basis: str
) -> Floats:
    """Design snow on plan area at each tilt."""
    raise NotImplementedError
