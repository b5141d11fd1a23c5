"""Figures for a label: never rounded down; what falls short is never rounded up."""

from __future__ import annotations

from math import ceil, floor

from polestead.base.show import number


def volts_up(volts: float) -> str:
    """Whole volts.

    Example:
        >>> volts_up(190.2), volts_up(191.0)
        ('191 V', '191 V')
    """
    return f"{ceil(volts - 1e-9)} V"


def amps_up(amps: float) -> str:
    """Tenths of an ampere.

    Example:
        >>> amps_up(35.0), amps_up(34.81)
        ('35.0 A', '34.9 A')
    """
    return f"{ceil(amps * 10.0 - 1e-6) / 10.0:.1f} A"


def amps_down(amps: float) -> str:
    """Tenths of an ampere, for a current that is too small to trip anything.

    Example:
        >>> amps_down(7.632), amps_down(7.6)
        ('7.6 A', '7.6 A')
    """
    return f"{floor(amps * 10.0 + 1e-6) / 10.0:.1f} A"


def whole_amps_up(amps: float) -> str:
    """Whole amperes.

    Example:
        >>> whole_amps_up(516.2)
        '517 A'
    """
    return f"{number(ceil(amps - 1e-9))} A"
