"""The travel, walked finely enough that no worst tilt is stepped over."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from polestead.base.source import Source

TRIGONOMETRY = Source("trigonometry of the side view (conventions §9)", status="ours")
STEP_DEG = 0.25


def travel_deg(least_tilt_deg: float, steepest_tilt_deg: float) -> NDArray[np.float64]:
    """The travel in steps of at most a quarter degree, both ends in it.

    Args:
        least_tilt_deg: Start [deg].
        steepest_tilt_deg: End [deg].

    Example:
        >>> travel_deg(5.0, 6.1).round(2).tolist()
        [5.0, 5.22, 5.44, 5.66, 5.88, 6.1]
    """
    count = max(2, int(np.ceil((steepest_tilt_deg - least_tilt_deg) / STEP_DEG)) + 1)
    return np.linspace(least_tilt_deg, steepest_tilt_deg, count)
