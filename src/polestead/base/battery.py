"""What cold and charge do to any battery, whoever owns it: one set of equations for the house's bank and the drive's, compiled.

Import it inside functions or in kernel files only: compiling machinery is slow to load.  The published symbols of each equation
stand in its own body; the sources are gathered in ``docs/method/household.md``.
"""

from __future__ import annotations

from math import exp, log

import numpy as np
from numpy.typing import NDArray

from polestead.base.compiled import compiled

Floats = NDArray[np.float64]


# IEEE 485-2020 Table 1 (seen on a page that quotes it); below -3.9 C extended by that page.
_LEAD_C = np.array([-20.0, -10.0, 0.0, 10.0, 15.0, 20.0, 25.0, 30.0, 40.0])
_LEAD_FACTOR = np.array([1.59, 1.35, 1.19, 1.11, 1.07, 1.04, 1.00, 0.98, 0.94])
# Lithium iron phosphate: share of the rating that can be had, by temperature (from memory).
_IRON_C = np.array([-20.0, -10.0, 0.0, 25.0])
_IRON_SHARE = np.array([0.70, 0.85, 0.93, 1.00])
# Rest voltage by charge and resistance by temperature, typical cells (from memory).
_IRON_CHARGE = np.array([0.0, 0.1, 0.3, 0.6, 0.9, 1.0])
_IRON_REST_V = np.array([3.00, 3.20, 3.27, 3.30, 3.33, 3.40])
_IRON_OHM_C = np.array([-20.0, 0.0, 25.0])
_IRON_OHM = np.array([4.0, 2.0, 1.0])
# Freezing point by specific gravity, a vehicle manual's table (seen), F turned to C.
_ACID = np.array([1.050, 1.100, 1.150, 1.200, 1.225, 1.265])
_ACID_FREEZES_C = np.array([-2.8, -7.8, -15.0, -27.2, -37.2, -59.4])

BRIM = (
    0.98  # from here the lead-acid controller floats; the acceptance equation is not fitted beyond
)


@compiled
def along(at: float, xs: Floats, ys: Floats | tuple[float, ...]) -> float:
    """A table read in a straight line between its points, held at its ends (quicker here than numpy's own).

    Args:
        at: Where.
        xs: Rising [points].
        ys: [points].

    Returns:
        Value there.

    Example:
        >>> along(0.25, np.array([0.0, 1.0]), np.array([2.0, 4.0]))
        2.5
    """
    if at <= xs[0]:
        return float(ys[0])
    for n in range(1, xs.size):
        if at < xs[n]:
            rise = (ys[n] - ys[n - 1]) / (xs[n] - xs[n - 1])
            return float(ys[n - 1] + rise * (at - xs[n - 1]))
    return float(ys[-1])


@compiled
def capacity_factor(battery_c: float) -> float:
    """Lead-acid sizing factor for cold: capacity at 25 C over capacity now (IEEE 485-2020, Table 1; seen quoted).

    Args:
        battery_c: Temperature of the electrolyte, -20 to 40 [C]; held at the ends.

    Returns:
        f_T, 1 at 25 C.

    Example:
        >>> round(capacity_factor(0.0), 2)
        1.19
    """
    return along(battery_c, _LEAD_C, _LEAD_FACTOR)


@compiled
def lead_share(battery_c: float) -> float:
    """Share of a lead-acid battery's rating that can be had: the table's, and below it straight on as it falls there.

    Source: ``capacity_factor`` down to -20 C; below, the fall from -10 to -20 C carried on (ours; plain sheets show about as
    much).  Over 25 C no more than the rating is counted.

    Args:
        battery_c: Of the battery [C].

    Example:
        At -40 C twenty kelvin under the table: .629 - 20 x .0112.

        >>> round(lead_share(-20.0), 3), round(lead_share(-40.0), 3), lead_share(25.0)
        (0.629, 0.405, 1.0)
    """
    share = min(1.0 / capacity_factor(battery_c), 1.0)
    if battery_c < _LEAD_C[0]:
        fall = (1.0 / _LEAD_FACTOR[1] - 1.0 / _LEAD_FACTOR[0]) / (_LEAD_C[1] - _LEAD_C[0])
        share = max(share - fall * (_LEAD_C[0] - battery_c), 0.0)
    return share


@compiled
def iron_share(battery_c: float) -> float:
    """Share of a lithium iron phosphate rating that can be had (from memory); held at its ends.

    Args:
        battery_c: Of the cells, -20 to 25 [C].

    Example:
        >>> iron_share(0.0)
        0.93
    """
    return along(battery_c, _IRON_C, _IRON_SHARE)


@compiled
def iron_in_per_h(battery_c: float) -> float:
    """Most charging current of lithium iron phosphate, of the rating in an hour: none below 0 C, .1 to 5, .2 to 10, .5 above.

    Source: cell makers' usual limits (from memory); the maker of the pack wins.

    Args:
        battery_c: Of the cells [C].

    Example:
        >>> iron_in_per_h(-0.1), iron_in_per_h(0.0), iron_in_per_h(7.0)
        (0.0, 0.1, 0.2)
    """
    if battery_c < 0.0:
        return 0.0
    return 0.1 if battery_c < 5.0 else (0.2 if battery_c < 10.0 else 0.5)


@compiled
def iron_out_per_h(battery_c: float) -> float:
    """Most current out of lithium iron phosphate, of the rating in an hour: all above 0 C, .5 to -10, .2 to -20, none below.

    Source: cell makers' usual limits (from memory); the maker of the pack wins.

    Args:
        battery_c: Of the cells [C].

    Example:
        >>> iron_out_per_h(-15.0), iron_out_per_h(-20.1)
        (0.2, 0.0)
    """
    if battery_c < -20.0:
        return 0.0
    return 0.2 if battery_c < -10.0 else (0.5 if battery_c < 0.0 else 1.0)


@compiled
def iron_rest_v(charge: float) -> float:
    """Rest voltage of a lithium iron phosphate cell (typical, from memory).

    Args:
        charge: s.
    """
    return along(charge, _IRON_CHARGE, _IRON_REST_V)


@compiled
def iron_ohm_growth(battery_c: float) -> float:
    """Resistance of a lithium cell over its own at 25 C (typical, from memory).

    Args:
        battery_c: Of the cells [C].
    """
    return along(battery_c, _IRON_OHM_C, _IRON_OHM)


@compiled
def charge_slope_v(charge: float, battery_c: float) -> float:
    """Volts per cell over the rest voltage for a charging current of the ten-hour capacity in one hour.

    Copetti, Lorenzo & Chenlo 1993, Progress in Photovoltaics 1:283 (constants from memory):
    V = 2.0 + .16 s + (I/C10) (6/(1 + I^.86) + .48/(1 - s)^1.2 + .036) (1 - .025 (T - 25)).  The first term in the bracket is
    not free of units (fitted to cells near 100 Ah) and is taken as 1.0.  Held beyond a charge of .98.

    Args:
        charge: s.
        battery_c: T [C].

    Returns:
        The bracket with its temperature factor [V].
    """
    empty = 1.0 - min(charge, BRIM)
    return (1.036 + 0.48 * exp(-1.2 * log(empty))) * max(1.0 - 0.025 * (battery_c - 25.0), 0.25)


@compiled
def acceptance_per_h(set_v: float, charge: float, battery_c: float) -> float:
    """What a lead-acid cell accepts at its set point, as a rate on the room it has left, from ``charge_slope_v``.

    The equation's s counts against its own unit of current, C10: I = alpha (1 - s) C10 fills the room (1 - s) C10 at the rate
    alpha.  The rate is applied to the room of the whole bank: (1 - s)' = (1 - s) exp(-alpha dt).

    Args:
        set_v: Voltage per cell [V].
        charge: s.
        battery_c: T [C].

    Returns:
        alpha [1/h].

    Example:
        At 2.45 V and 25 C a cell at .8 accepts .074 of its ten-hour capacity per hour.

        >>> round(acceptance_per_h(2.45, 0.8, 25.0) * 0.2, 3)
        0.074
    """
    return accepted_at_slope_per_h(set_v, charge, charge_slope_v(charge, battery_c))


@compiled
def accepted_at_slope_per_h(set_v: float, charge: float, slope_v: float) -> float:
    """``acceptance_per_h`` where the slope is known already."""
    s = min(charge, BRIM)
    return max(set_v - 2.0 - 0.16 * s, 0.0) / (slope_v * (1.0 - s))


@compiled
def freezes_at_c(charge: float) -> float:
    """Temperature at which the acid of a flooded cell freezes.

    Specific gravity 1.10 + .165 s (full 1.265); freezing points from a vehicle manual's table (seen; others differ by 10-20 F
    near full).

    Args:
        charge: s.

    Returns:
        Freezing point [C].
    """
    return along(1.10 + 0.165 * charge, _ACID, _ACID_FREEZES_C)


@compiled
def mean_accepted_a(offered_a: float, room_ah: float, per_h: float) -> float:
    """Mean current over an hour when a steady offer meets a battery that accepts ``per_h`` times the room it has left.

    Exact: the offer is taken until the acceptance has fallen to it, then the room shrinks exponentially.

    Args:
        offered_a: Steady offer [A].
        room_ah: Room left at the start [Ah].
        per_h: Acceptance per room [1/h].

    Returns:
        Mean current [A].

    Example:
        >>> mean_accepted_a(5.0, 100.0, 0.3)
        5.0
        >>> round(mean_accepted_a(50.0, 100.0, 0.3), 3)
        25.918
    """
    if offered_a <= 0.0 or room_ah <= 0.0 or per_h <= 0.0:
        return 0.0
    start_a = per_h * room_ah
    if offered_a >= start_a:
        return room_ah * (1.0 - exp(-per_h))
    steady_h = (start_a - offered_a) / (per_h * offered_a)
    if steady_h >= 1.0:
        return offered_a
    return offered_a * steady_h + offered_a / per_h * (1.0 - exp(-per_h * (1.0 - steady_h)))
