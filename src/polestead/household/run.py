"""The house run through all years, with or without the new array."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from polestead.homestead.model import Household
from polestead.household.result import HouseSummary, HouseYears


def run_house(
    house: Household,
    array_power_w: dict[str, list[NDArray[np.float32]]],
    air_c: NDArray[np.floating],
    start_month: int,
    elevation_m: float,
) -> HouseYears:
    """Run every working year, one after the other, charge carried over.

    Args:
        house: The household section.
        array_power_w: Direct-current power of each array by the name of its controller, each [years, 8760]; several
            arrays on one controller are listed together.
        air_c: Outdoor temperature [years, 8760].
        start_month: First month of the working year.
        elevation_m: For the engine's derating.
    """
    raise NotImplementedError


def summary(years: HouseYears) -> HouseSummary:
    """Good, median and bad year."""
    raise NotImplementedError
