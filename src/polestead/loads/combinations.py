"""Loads that act together: allowable stress design (ASCE 7, 2.4.1), or the sets of the Eurocodes (EN 1990, 6.10).

Three sets are asked for by name.  ``structure``: what steel and timber must carry.  ``soil``: what soil with its own partial
factors must carry (EN 1997-1, design approach 1, combination 2).  ``service``: loads as they are, for parts rated by a maker.
In allowable stress design the three are one.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from polestead.base.source import Source
from polestead.loads.pressure import EN

LoadSet = Literal["structure", "soil", "service"]
LOAD_SETS: tuple[LoadSet, ...] = ("structure", "soil", "service")
HIGH_GROUND_M = 1000.0  # above it snow lasts longer: psi_0 of snow .7 in place of .5 (EN 1990 Table A1.1, from memory)
WIND_BESIDE = 0.6  # psi_0 of wind (EN 1990 Table A1.1, from memory)


@dataclass(frozen=True, slots=True)
class Combination:
    """Loads taken together, each with its factor; ``ice`` comes with wind at its own, lesser gust."""

    name: str
    dead: float
    snow: float
    wind: float
    source: Source
    ice: float = 0.0


@dataclass(frozen=True, slots=True)
class InGust:
    """Factors in which a gust is met: dead load that helps and that hurts, the whole wind, snow that lies."""

    dead: tuple[float, ...]
    wind: float
    snow: float


def combinations(basis: str, loads: LoadSet = "structure", elevation_m: float = 0.0, ice: bool = False) -> tuple[Combination, ...]:  # fmt: skip
    """The combinations that can govern an array on a pole.

    In 7-22 the snow of the map is a strength-level load: it comes with 0.7, and with 0.75 x 0.7 beside wind.
    Source: ASCE 7-16 and 7-22, 2.4.1 and (ice) 2.4.3; EN 1990 Eqs. 6.10, 6.14 and Table A1.2; EN 1997-1 Tables A.3, A.4
    (all from memory).

    Args:
        basis: ``ASCE 7-16``, ``ASCE 7-22`` or ``EN 1991-1-4``.
        loads: Which set.
        elevation_m: Of the place; high ground keeps its snow longer (Eurocode).
        ice: Whether the file tells of freezing rain (ASCE only).

    Example:
        >>> [c.name for c in combinations("ASCE 7-16")]
        ['D', 'D + S', 'D + 0.6 W', 'D + 0.75 S + 0.45 W', '0.6 D + 0.6 W']
        >>> [c.name for c in combinations("EN 1991-1-4", "soil")][:3]
        ['G', 'G + 1.3 S', 'G + 1.3 W']
    """
    if basis == EN:
        return _eurocode(loads, 0.7 if elevation_m > HIGH_GROUND_M else 0.5)
    s = snow_at_allowable(basis)
    word = "S" if s == 1.0 else f"{s:g} S"
    beside = f"{0.75 * s:g} S"
    rows = (
        ("D", 1.0, 0.0, 0.0, "1"),
        (f"D + {word}", 1.0, s, 0.0, "3"),
        ("D + 0.6 W", 1.0, 0.0, 0.6, "5"),
        (f"D + {beside} + 0.45 W", 1.0, 0.75 * s, 0.45, "6"),
        ("0.6 D + 0.6 W", 0.6, 0.0, 0.6, "7"),
    )
    told = [
        Combination(name, d, snow, w, Source(basis, f"2.4.1 ({number})", "memory"))
        for name, d, snow, w, number in rows
    ]
    if ice:
        where = Source(basis, "2.4.3, 10.5", "memory")
        told += [
            Combination("D + 0.7 Di", 1.0, 0.0, 0.0, where, 0.7),
            Combination(f"D + 0.7 Di + 0.7 Wi + {word}", 1.0, s, 0.7, where, 0.7),
        ]
    return tuple(told)


def _eurocode(loads: LoadSet, snow_beside: float) -> tuple[Combination, ...]:
    heavy, most = {"structure": (1.35, 1.5), "soil": (1.0, 1.3), "service": (1.0, 1.0)}[loads]
    clause = {
        "structure": Source("EN 1990:2002", "Eq. 6.10, Table A1.2(B); EN 1997-1 A1", "memory"),
        "soil": Source("EN 1997-1:2004", "2.4.7.3.4.2, A2 with M2", "memory"),
        "service": Source("EN 1990:2002", "Eq. 6.14b", "memory"),
    }[loads]

    def factor(value: float, letter: str) -> str:
        return letter if value == 1.0 else f"{value:g} {letter}"

    def row(dead: float, snow: float, wind: float) -> Combination:
        words = [factor(dead, "G")]
        words += [factor(snow, "S")] if snow else []
        words += [factor(wind, "W")] if wind else []
        return Combination(" + ".join(words), dead, snow, wind, clause)

    rows = [
        row(heavy, 0.0, 0.0), row(heavy, most, 0.0), row(heavy, 0.0, most),
        row(heavy, most, most * WIND_BESIDE), row(heavy, most * snow_beside, most),
    ]  # fmt: skip
    if heavy > 1.0:
        rows.append(row(1.0, 0.0, most))
    return tuple(rows)


def in_gust(basis: str, loads: LoadSet) -> InGust:
    """In which factors a gust is met when it is asked what a part stands to (METHODS 4.3).

    Allowable stress: dead load, the whole wind, against the full allowable.  Eurocode: gamma_G D + 1.5 W against the design
    resistance; snow that lies is as sure as dead load.

    Args:
        basis: Edition.
        loads: Which set.

    Example:
        >>> in_gust("ASCE 7-16", "soil"), in_gust("EN 1991-1-4", "structure").wind
        (InGust(dead=(1.0,), wind=1.0, snow=1.0), 1.5)
    """
    if basis != EN or loads == "service":
        return InGust((1.0,), 1.0, 1.0)
    return InGust((1.35, 1.0), 1.5, 1.35) if loads == "structure" else InGust((1.0,), 1.3, 1.0)


def snow_at_allowable(basis: str) -> float:
    """Factor that brings the edition's snow to the level its resistances expect: 1, in 7-22 0.7 (from memory)."""
    return 0.7 if basis == "ASCE 7-22" else 1.0
