"""Aluminium poles after the Aluminum Design Manual: weld zone, column, yielding."""

from __future__ import annotations

from dataclasses import dataclass
from math import pi, sqrt

from polestead.base.source import Source

KSI_PA = 6894757.293168
OMEGA_YIELD, OMEGA_RUPTURE = 1.65, 1.95  # ADM 2015 (from memory)
SOURCE = Source("Aluminum Design Manual 2015", "B.4, E.3, Table B.4.2", "memory")


@dataclass(frozen=True, slots=True)
class BucklingConstants:
    """Of a temper T6 in compression of the whole member.

    Attributes:
        b_pa: Bc.
        d_pa: Dc.
        c: Cc.
    """

    b_pa: float
    d_pa: float
    c: float


def column_constants(yield_pa: float, stiffness_pa: float) -> BucklingConstants:
    """Bc = Fcy (1 + sqrt(Fcy / 2250 ksi)), Dc = Bc / 10 sqrt(Bc / E), Cc = .41 Bc / Dc.

    Source: ADM Table B.4.2, artificially aged tempers (from memory).

    Args:
        yield_pa: Fcy [Pa].
        stiffness_pa: E [Pa].

    Example:
        >>> c = column_constants(35 * KSI_PA, 10100 * KSI_PA)
        >>> round(c.b_pa / KSI_PA, 1), round(c.d_pa / KSI_PA, 3), round(c.c, 1)
        (39.4, 0.246, 65.7)
    """
    b = yield_pa * (1.0 + sqrt(yield_pa / (2250.0 * KSI_PA)))
    d = b / 10.0 * sqrt(b / stiffness_pa)
    return BucklingConstants(b, d, 0.41 * b / d)


def column_stress_pa(slenderness: float, yield_pa: float, stiffness_pa: float) -> float:
    """Nominal stress of a column in member buckling, no more than Fcy.

    Source: ADM 2015 E.3: (Bc - Dc l)(.85 + .15 (Cc - l)/(Cc - l1)) to Cc, .85 pi^2 E / l^2 beyond (from memory).

    Args:
        slenderness: K L / r.
        yield_pa: Fcy [Pa].
        stiffness_pa: E [Pa].

    Example:
        >>> round(column_stress_pa(100.0, 35 * KSI_PA, 10100 * KSI_PA) / KSI_PA, 2)
        8.47
    """
    k = column_constants(yield_pa, stiffness_pa)
    if slenderness >= k.c:
        return 0.85 * pi**2 * stiffness_pa / slenderness**2
    first = (k.b_pa - yield_pa) / k.d_pa
    bow = 0.85 + 0.15 * (k.c - slenderness) / (k.c - first)
    return min((k.b_pa - k.d_pa * slenderness) * min(bow, 1.0), yield_pa)
