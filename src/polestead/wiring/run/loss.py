"""What the run loses over the real year, from the power of every hour.

All sizes come from one pass: the loss of a wire is its resistance times the sum of the squared current over the hours, and
that sum does not know the wire.
"""

from __future__ import annotations

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
