"""The two tanks of a lead-acid battery fitted to its maker's discharge table."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from math import exp

import numpy as np
from numpy.typing import NDArray

from polestead.base.problem import Problem, Wrong
from polestead.base.show import percent
from polestead.homestead.words import BatteryTableRow
from polestead.household.plan import HourOfTanks

Floats = NDArray[np.float64]
FEWEST_RATES = 4
FARTHEST = 0.05  # of a line of the table: farther off, the form does not fit it
# Usual tables by kind, at 25 C, as shares of the 20 h rating: flooded (a deep-cycle cell), sealed (thin plates give more when
# drawn fast); both typical, from memory.
USUAL = {
    "flooded lead-acid": ((100.0, 1.13), (20.0, 1.00), (10.0, 0.89), (5.0, 0.78), (2.0, 0.62)),
    "sealed lead-acid": ((100.0, 1.09), (20.0, 1.00), (10.0, 0.93), (5.0, 0.85), (2.0, 0.72)),
}


@dataclass(frozen=True, slots=True)
class Tanks:
    """Two tanks: what they hold in all, the share that gives at once, how fast the other follows.

    Attributes:
        holds: What is held brim-full, of the 20 h rating.
        at_once: c, share of the first tank.
        slow_per_h: k [1/h].
        worst_miss: Largest miss of the table, as a share of its line.
    """

    holds: float
    at_once: float
    slow_per_h: float
    worst_miss: float


# The fits of those two tables, to two figures and three.
USUAL_TANKS = {
    "flooded lead-acid": Tanks(1.15, 0.43, 0.47, 0.02),
    "sealed lead-acid": Tanks(1.10, 0.556, 0.465, 0.02),
}


def hour_of_tanks(at_once: float, slow_per_h: float) -> HourOfTanks:
    """What an hour of steady current does to the two tanks, in numbers that do not change with their contents.

    Manwell & McGowan 1993, Solar Energy 50:399 (seen cited), their combined constant k here ``slow_per_h``:
    q1' = q1 e + (q k c - I)(1 - e)/k - I c (k - 1 + e)/k with e = exp(-k), and q' = q - I.

    Args:
        at_once: c, share of the first tank.
        slow_per_h: k [1/h].
    """
    k, c = slow_per_h, at_once
    e = exp(-k)
    return HourOfTanks(e, c * (1.0 - e), (1.0 - e + c * (k - 1.0 + e)) / k)


def given_over(hours: Floats, holds: float, at_once: float, slow_per_h: float) -> Floats:
    """Charge a full two-tank battery gives when drawn evenly until its first tank is dry.

    Manwell & McGowan 1993, Solar Energy 50:399 (seen cited):
    q(T) = q_max k c T / (1 - e^(-kT) + c (kT - 1 + e^(-kT))).

    Args:
        hours: T, above zero [rates].
        holds: q_max.
        at_once: c.
        slow_per_h: k [1/h].

    Returns:
        In the unit of ``holds`` [rates].

    Example:
        >>> [round(float(q), 2) for q in given_over(np.array([20.0, 5.0]), 1.15, 0.43, 0.47)]
        [1.01, 0.76]
    """
    kt = slow_per_h * hours
    gone = -np.expm1(-kt)
    return np.asarray(holds * kt * at_once / (gone + at_once * (kt - gone)))


def fitted(hours: Floats, shares: Floats) -> Tanks:
    """The tanks that miss a discharge table least (least squares on the logarithm, so each line counts alike).

    Args:
        hours: Of the table's lines, at least four different [rates].
        shares: Charge given, of the 20 h rating [rates].
    """
    from scipy.optimize import least_squares

    def misses(at: Floats) -> Floats:
        return np.asarray(np.log(given_over(hours, *np.exp(at))) - np.log(shares))

    start = np.log([1.1 * float(shares.max()), 0.4, 0.5])
    bounds = (np.log([0.5, 0.02, 1e-3]), np.log([5.0, 0.999, 50.0]))
    found = least_squares(misses, np.clip(start, *bounds), bounds=bounds)
    holds, at_once, slow = np.exp(found.x)
    worst = float(np.abs(np.expm1(misses(found.x))).max())
    return Tanks(float(holds), float(at_once), float(slow), worst)


def tanks_of(kind: str, capacity_ah: float, rows: tuple[BatteryTableRow, ...]) -> Tanks:
    """The tanks of the owner's battery: fitted to its maker's table, else of a usual one of its kind.

    Args:
        kind: Of lead-acid.
        capacity_ah: At the 20 h rate [Ah].
        rows: The maker's discharge table; empty for none.

    Raises:
        Wrong: Too few lines, a table that gives more when drawn faster, does not agree with the rating, or that no two tanks fit.
    """
    if not rows:
        return USUAL_TANKS[kind]
    rows = tuple(sorted(rows, key=lambda row: row.hours))
    hours = np.array([row.hours for row in rows])
    shares = np.array([row.charge_ah for row in rows]) / capacity_ah
    problems = []
    if np.unique(hours).size < FEWEST_RATES:
        problems.append(
            _refused(
                f"{np.unique(hours).size} different rates",
                f"at least {FEWEST_RATES}",
                "Copy more lines of the maker's table.",
            )
        )
    problems += [
        _refused(
            f"{fast.written} beside {slow.written}",
            "less charge the faster it is drawn",
            "Read the two lines again.",
        )
        for fast, slow in pairwise(rows)
        if fast.charge_ah > slow.charge_ah or fast.hours == slow.hours
    ]
    at_20 = float(np.interp(np.log(20.0), np.log(hours), shares))
    if not problems and hours[0] <= 20.0 <= hours[-1] and abs(at_20 - 1.0) > FARTHEST:
        problems.append(
            _refused(
                f"{at_20 * capacity_ah:.0f} Ah in 20 h by the table",
                f"{capacity_ah:.0f} Ah, the capacity in the file",
                "Capacity is the 20 h figure of the whole bank: strings side by side add up.",
            )
        )
    if problems:
        raise Wrong(problems)
    tanks = fitted(hours, shares)
    if tanks.worst_miss > FARTHEST:
        raise Wrong(
            [
                _refused(
                    f"a table two tanks miss by {percent(tanks.worst_miss)}",
                    f"{percent(FARTHEST)} at most",
                    "Look for a line at another temperature or end voltage.",
                )
            ]
        )
    return tanks


def _refused(given: str, allowed: str, do: str) -> Problem:
    return Problem("household.battery", "gives", given, allowed, do)
