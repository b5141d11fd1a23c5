"""Loads that act together, allowable stress design (ASCE 7-16 and 7-22, 2.4.1)."""

from __future__ import annotations

from dataclasses import dataclass

from polestead.base.source import Source


@dataclass(frozen=True, slots=True)
class Combination:
    """Loads taken together, each with its factor."""

    name: str
    dead: float
    snow: float
    wind: float
    source: Source


def combinations(basis: str) -> tuple[Combination, ...]:
    """The five combinations that can govern an array on a pole.

    In 7-22 the snow of the map is a strength-level load: it comes with 0.7, and with 0.75 x 0.7 beside wind.
    Source: ASCE 7-16 and 7-22, 2.4.1 (from memory).

    Args:
        basis: ``ASCE 7-16`` or ``ASCE 7-22``.

    Example:
        >>> [c.name for c in combinations("ASCE 7-16")]
        ['D', 'D + S', 'D + 0.6 W', 'D + 0.75 S + 0.45 W', '0.6 D + 0.6 W']
    """
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
    return tuple(
        Combination(name, d, snow, w, Source(basis, f"2.4.1 ({number})", "memory"))
        for name, d, snow, w, number in rows
    )


def snow_at_allowable(basis: str) -> float:
    """Factor that brings the edition's snow to the allowable level: 1 in 7-16, 0.7 in 7-22 (from memory)."""
    return 0.7 if basis == "ASCE 7-22" else 1.0
