"""Whose clause a figure of the run stands by, in each code; where only the NEC's figures were read, that is said."""

from __future__ import annotations

from polestead.base.source import Source
from polestead.wiring.currents import BRIGHT, RATINGS, STEADY, Code

_BRIGHT: dict[Code, Source] = {
    "NEC": BRIGHT,
    "Canada": Source(
        "CSA C22.1", "section 64, 1.25 times the short-circuit current: ask", "memory"
    ),
    "IEC": Source("IEC 60364-7-712", "1.25 times the short-circuit current", "memory"),
}
_STEADY: dict[Code, Source] = {
    "NEC": STEADY,
    "Canada": Source("CSA C22.1", "8-104 and section 64, another 1.25 for hours: ask", "memory"),
    "IEC": Source("1.25 times 1.25, where IEC 60364-7-712 names no second factor", status="ours"),
}
_RATINGS: dict[Code, Source] = {
    "NEC": RATINGS,
    "Canada": Source("CSA C22.1", "Table 13", "memory"),
    "IEC": Source("IEC 60898-1, 60947-2 and 60269-1", "rated currents", "memory"),
}


def bright_source(code: Code) -> Source:
    """Who asks for 1.25 times the short-circuit current.

    Example:
        >>> str(bright_source("NEC")), str(bright_source("IEC"))
        ('NEC, 690.8(A)(1)', 'IEC 60364-7-712, 1.25 times the short-circuit current (from memory)')
    """
    return _BRIGHT[code]


def steady_source(code: Code) -> Source:
    """Who asks for another 1.25 for hours.

    Example:
        >>> str(steady_source("Canada"))
        'CSA C22.1, 8-104 and section 64, another 1.25 for hours: ask (from memory)'
    """
    return _STEADY[code]


def ratings_source(code: Code) -> Source:
    """Where the standard ratings stand."""
    return _RATINGS[code]


def borrowed(source: Source, code: Code) -> Source:
    """A figure of the NEC's or UL's tables where another code holds: told as borrowed, never as that code's own.

    Args:
        source: Of the figure.
        code: That holds.

    Example:
        >>> str(borrowed(Source("NEC", "Ch. 9 Table 4", "seen-copy"), "Canada"))
        'figures borrowed from NEC, Ch. 9 Table 4: ask'
    """
    if code == "NEC" or not source.work.startswith(("NEC", "UL ")):
        return source
    place = f", {source.place}" if source.place else ""
    return Source(f"figures borrowed from {source.work}{place}: ask", status=source.status)
