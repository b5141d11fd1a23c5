"""What the wires do over a year of the house, not of its brightest hour."""

from __future__ import annotations

from polestead.answer.winter import HouseOnSun
from polestead.homestead.model import Homestead
from polestead.household.result import HouseYears
from polestead.mount.schedule import TiltSchedule


def held_back_by_controller(
    file: Homestead, house: HouseOnSun, plan: TiltSchedule
) -> dict[str, float]:
    """Sun each controller would hold back with the new array on it, more than is held back without it, in a mean year [Wh].

    One run of the house for each controller and one without, over the first block of years.  The strings do not matter here: a
    controller is at its limit by its charging current, which is the same however the modules are strung.

    Args:
        file: The homestead.
        house: It under the sun of its place.
        plan: The owner's own moves.
    """
    without = _mean_held_back_wh(house.few(None))
    return {
        one.name: _mean_held_back_wh(house.few(plan, one.name)) - without
        for one in file.household.controller
    }


def _mean_held_back_wh(years: HouseYears) -> float:
    return float(years.held_back_wh.sum(axis=1).mean())
