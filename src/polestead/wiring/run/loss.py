"""What the run loses over the real year, from the power of every hour.

All sizes come from one pass: the loss of a wire is its resistance times the sum of the squared current over the hours, and
that sum does not know the wire.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from polestead.base.source import Source

Hours = NDArray[np.floating]
JOULE = Source("Joule's law, I^2 R, summed over the hours", status="computed")
NOTES = (
    "The current of an hour is the array's power over its working voltage, as if the controller took all of it. Where the battery is full "
    "it takes less and the wire loses less, but what is lost then would have been turned away.",
    "Hourly means smooth broken clouds: with clouds coming and going the wire loses a few per cent more of its loss than told.",
)


MOST_SHARE = (
    0.5  # of the working volts: more never falls in a wire whose far end is worked at its best
)
BINS = 64


def lost_share(share: float) -> float:
    """Share of the power that does not arrive, by the share of the volts that its full current would lose.

    Up to half, the two are one.  Past it the full current would bring less than a smaller one: the most that arrives is V^2 / 4R, at
    half the volts and V / 2R, so of the power V I an I R / V of x lets 1 / 4x arrive.  Source: maximum power transfer, the string
    taken as a steady voltage up to its working current.

    Args:
        share: I R / V, R there and back.

    Example:
        >>> lost_share(0.03), lost_share(0.5), round(lost_share(1.235), 3)
        (0.03, 0.5, 0.798)
    """
    return share if share <= MOST_SHARE else 1.0 - 0.25 / share


@dataclass(frozen=True, slots=True)
class HoursByStrength:
    """The hours of a mean year sorted by how strong the array's power is for its volts, in one module's volts.

    One pass over the hours serves every wire and every way to string: what is lost is R sum I^2 where the wire carries the power, and all
    but V^2 / 4R where it cannot.

    Attributes:
        a2_h: Sum of (P / V)^2 of each bin [A^2 h].
        wh: Sum of P of each bin [Wh].
        v2_h: Sum of V^2 of each bin [V^2 h].
    """

    a2_h: tuple[float, ...]
    wh: tuple[float, ...]
    v2_h: tuple[float, ...]

    def lost_wh(self, loop_ohm: float, in_series: int) -> float:
        """What does not arrive in a mean year [Wh]; never more than was there.

        Source: Joule's law; maximum power transfer past half the volts.

        Args:
            loop_ohm: There and back [ohm].
            in_series: Modules in a string.

        Example:
            Hours of 1000 W at 100 V: 1 ohm loses 100 W; 20 ohm can carry no more than 125 W.

            >>> one = HoursByStrength((100.0,), (1000.0,), (10000.0,))
            >>> one.lost_wh(1.0, 1), one.lost_wh(20.0, 1)
            (100.0, 875.0)
        """
        ohm = loop_ohm / in_series**2  # as if all modules lay side by side
        lost = 0.0
        for a2, wh, v2 in zip(self.a2_h, self.wh, self.v2_h, strict=True):
            carried = wh * ohm <= MOST_SHARE * v2
            lost += ohm * a2 if carried else wh - v2 / (4.0 * ohm)
        return lost


def hours_by_strength(power_w: Hours, module_v: Hours) -> HoursByStrength:
    """Sort the hours of all years by P / V^2.

    Args:
        power_w: Of the whole array [years, 8760] [W].
        module_v: Working voltage of one module in the same hours [V].
    """
    power, volts = np.asarray(power_w, np.float64), np.asarray(module_v, np.float64)
    strength = power / volts**2
    most = float(strength.max())
    which = np.zeros(power.shape, np.int64)
    if most > 0.0:
        which = np.minimum((strength * (BINS / most)).astype(np.int64), BINS - 1)
    at, years, lit = which.ravel(), float(power.shape[0]), power.ravel() > 0.0
    sums = (
        np.bincount(at[lit], weights=one.ravel()[lit], minlength=BINS) / years
        for one in ((power / volts) ** 2, power, volts**2)
    )
    a2, wh, v2 = (tuple(float(value) for value in one) for one in sums)
    return HoursByStrength(a2, wh, v2)


def working_v(
    module_working_v: float, fall_v_per_k: float, in_series: int, cell_c: float | Hours = 25.0
) -> Hours:
    """Working voltage of a string with its cells so warm; it hardly moves with light.

    Source: the working voltage falls by as many volts a kelvin as the open one (common practice).

    Args:
        module_working_v: Of a module at 25 C [V].
        fall_v_per_k: Its change per kelvin, below zero [V/K].
        in_series: Modules in a string.
        cell_c: Of the cells, any shape; 25 C for a constant voltage [C].

    Example:
        >>> float(working_v(32.9, -0.09875, 4)), round(float(working_v(32.9, -0.09875, 4, 65.0)), 1)
        (131.6, 115.8)
    """
    return np.asarray(in_series * (module_working_v + fall_v_per_k * (np.asarray(cell_c) - 25.0)))


def sum_i2_h_a2(power_w: Hours, string_v: float | Hours) -> float:
    """Sum of the squared current over the hours of a mean year.

    Args:
        power_w: Of the whole array, hour by hour [years, 8760] [W].
        string_v: Working voltage of a string, one for all hours or one for each [V].

    Returns:
        Sum of I^2 [A^2 h] of a mean year.

    Raises:
        ValueError: If a voltage is not above nothing, or the power is no table of years and hours.

    Example:
        >>> sum_i2_h_a2(np.array([[1000.0, 500.0, 0.0], [0.0, 500.0, 0.0]]), 100.0)  # (100 + 25 + 25) / 2
        75.0
    """
    power = np.asarray(power_w)
    volts = np.asarray(string_v)
    if power.ndim != 2 or power.shape[0] == 0:
        message = "power by years and hours is wanted, at least one year"
        raise ValueError(message)
    if not (volts > 0.0).all():
        message = "a string's working voltage is above nothing"
        raise ValueError(message)
    current = power / volts
    squares = np.einsum("yh,yh->", current, current, dtype=np.float64)
    return float(squares) / float(power.shape[0])


def loss_over_year_wh(power_w: Hours, string_v: float | Hours, loop_ohm: float) -> float:
    """Energy lost in the run in a mean year.

    Source: Joule's law.

    Args:
        power_w: Of the whole array [years, 8760] [W].
        string_v: Working voltage of a string, one for all hours or one for each [V].
        loop_ohm: Resistance there and back [ohm].

    Example:
        >>> loss_over_year_wh(np.array([[1000.0, 500.0], [0.0, 500.0]]), 100.0, 0.1)
        7.5
    """
    return loop_ohm * sum_i2_h_a2(power_w, string_v)
