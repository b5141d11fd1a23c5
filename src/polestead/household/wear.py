"""What the years do to the bank: told, not taken off its capacity."""

from __future__ import annotations

from dataclasses import dataclass
from math import exp

import numpy as np
from numpy.typing import NDArray

from polestead.household.plan import (
    AH_AMPS,
    AH_KELVIN,
    GAS_AH,
    OUT_AH,
    UNDER_HALF_H,
    WORN_AH,
    Bank,
)

Floats = NDArray[np.float64]
WATER_L_PER_AH = 18.015 / (2.0 * 96485.0) * 3600.0 / 1000.0  # Faraday: two electrons a molecule
_GAS_J_MOL_K = 8.314
_CELL_AH = 2.2  # of the cells Wang et al. measured
_KELVIN = 273.15


@dataclass(frozen=True, slots=True, eq=False)
class Wear:
    """What each year does to the bank.

    Attributes:
        full_cycles: Charge drawn over the rating: full cycles' worth [years].
        worn_cycles: The same, each ampere-hour weighted by 1 + 2 x (days since brim-full)/30: for ranking only [years].
        under_half_h: Hours under half charge [years].
        water_l: Water a flooded bank loses, all cells [years]; nothing for others.
        cycling_loss: Share of its capacity a new lithium bank loses to cycling in a first such year [years]; not a number for
            lead-acid.
    """

    full_cycles: Floats
    worn_cycles: Floats
    under_half_h: Floats
    water_l: Floats
    cycling_loss: Floats


def cycling_loss(full_cycles: float, c_rate: float, cell_c: float) -> float:
    """Capacity a lithium iron phosphate cell loses to cycling.

    Wang et al. 2011, J. Power Sources 196:3942 (from memory): Q% = 31630 exp(-(31700 - 370.3 C)/(R T)) Ah^.55, the charge
    that went through a 2.2 Ah cell; fitted from C/2 to 2C and 15 to 60 C, used below C/2 here.  Ageing that goes on while
    nothing flows is not in it and is often the larger part.

    Args:
        full_cycles: Charge drawn over the rating.
        c_rate: C, current over the rating [1/h].
        cell_c: Mean temperature of the cells [C].

    Returns:
        Share of the capacity.

    Example:
        >>> round(cycling_loss(250.0, 0.1, 20.0), 3)
        0.023
    """
    through_ah = full_cycles * _CELL_AH
    energy = 31700.0 - 370.3 * c_rate
    return 316.30 * exp(-energy / (_GAS_J_MOL_K * (cell_c + _KELVIN))) * float(through_ah**0.55)


def wear_of(bank: Bank, flooded: bool, by_year: Floats) -> Wear:
    """The wear in the rows the loop hands back.

    Args:
        bank: The battery.
        flooded: Whether it loses water.
        by_year: [rows, years].
    """
    out = by_year[OUT_AH]
    mean_c = np.divide(by_year[AH_KELVIN], out, out=np.full_like(out, 20.0), where=out > 0.0)
    amps = np.divide(by_year[AH_AMPS], out, out=np.zeros_like(out), where=out > 0.0)
    cycles = out / bank.rated_ah
    loss = [
        np.nan if bank.lead else cycling_loss(n, a / bank.rated_ah, c)
        for n, a, c in zip(cycles.tolist(), amps.tolist(), mean_c.tolist(), strict=True)
    ]
    water = by_year[GAS_AH] * bank.cells * WATER_L_PER_AH if flooded else np.zeros_like(out)
    return Wear(cycles, by_year[WORN_AH] / bank.rated_ah, by_year[UNDER_HALF_H], water, np.array(loss))  # fmt: skip
