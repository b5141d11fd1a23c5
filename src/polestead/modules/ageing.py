"""What years in the sun leave of a module."""

from __future__ import annotations

from dataclasses import dataclass

# Jordan, Kurtz, VanSant & Newmiller 2016, Progress in Photovoltaics 24:978: crystalline silicon of good data loses .5 to .6 % a
# year in the median, .8 to .9 % in the mean; one in ten or so loses over 1 % (from memory).
LOSES_A_YEAR = (0.003, 0.0055, 0.010)
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
