"""What years in the sun leave of a module."""

from __future__ import annotations

from dataclasses import dataclass

from polestead.base.source import Source

# Jordan, Kurtz, VanSant & Newmiller 2016, Progress in Photovoltaics 24:978: crystalline silicon of good data loses .5 to .6 % a
# year in the median, .8 to .9 % in the mean; one in ten or so loses over 1 % (from memory).
LOSES_A_YEAR = (0.003, 0.0055, 0.010)
# Half of the median loss of power taken as volts.  Published series of whole curves find that mostly the current falls, the
# open-circuit voltage hardly (Smith, Jordan & Kurtz 2012, NREL/CP-5200-53713; from memory): a growing series resistance is what
# takes working volts, and half of the loss is more than those series show.
VOLTS_LOST_A_YEAR = 0.003
VOLTS_LOST = Source(
    "half of the median loss of power taken as volts, published series find mostly the current falls", status="ours"
)  # fmt: skip
FIRST_DAYS = 0.01  # light-induced loss of the first weeks, 0 to 2 % by kind of cell (from memory)


@dataclass(frozen=True, slots=True)
class Aged:
    """Share of its rating an old module still gives: careful, middle and kind end."""

    least: float
    middle: float
    most: float


def aged(years: float) -> Aged:
    """What is left of a module's rating after some years.

    Args:
        years: In the sun, 0 and more.

    Raises:
        ValueError: Less than nothing.

    Example:
        >>> old = aged(15.0)
        >>> round(old.least, 3), round(old.middle, 3), round(old.most, 3)
        (0.842, 0.908, 0.945)
    """
    if years < 0.0:
        message = "a module is not younger than new"
        raise ValueError(message)
    first = FIRST_DAYS if years > 0.0 else 0.0
    kind, middle, hard = ((1.0 - first) * (1.0 - rate * years) for rate in LOSES_A_YEAR)
    return Aged(max(hard, 0.0), max(middle, 0.0), max(kind, 0.0))


def volts_left(years: float) -> float:
    """Share of its working voltage a module still has after some years.

    Source: our own rule: .3 % a year (see ``VOLTS_LOST_A_YEAR``).  Valid for: crystalline silicon, to 50 years.

    Args:
        years: In the sun, 0 and more.

    Raises:
        ValueError: Less than nothing.

    Example:
        >>> volts_left(0.0), round(volts_left(20.0), 3)
        (1.0, 0.94)
    """
    if years < 0.0:
        message = "a module is not younger than new"
        raise ValueError(message)
    return max(1.0 - VOLTS_LOST_A_YEAR * years, 0.0)
