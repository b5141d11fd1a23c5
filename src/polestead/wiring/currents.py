"""Currents of the circuit by 690.8, and the standard ratings."""

from __future__ import annotations

from typing import Literal

from polestead.base.problem import Problem, Wrong
from polestead.base.source import Source
from polestead.base.table import table

BRIGHT = Source("NEC", "690.8(A)(1)")
STEADY = Source("NEC", "690.8(B)(1) and 690.9(B)")
RATINGS = Source("NEC", "240.6(A)", "seen-copy")


def bright_current_a(short_circuit_current_a: float, in_parallel: int = 1) -> float:
    """Largest current of the circuit: sun at a snow or cloud edge is brighter than the datasheet's.

    Source: NEC 690.8(A)(1): 1.25 x short-circuit current of all strings (seen).

    Args:
        short_circuit_current_a: Of one string [A].
        in_parallel: Strings.

    Example:
        >>> bright_current_a(11.2)
        14.0
    """
    return 1.25 * short_circuit_current_a * in_parallel


def steady_current_a(short_circuit_current_a: float, in_parallel: int = 1) -> float:
    """Current that terminals and breaker must bear for hours.

    Source: NEC 690.8(B)(1): 1.25 x the largest current, that is 1.5625 x short-circuit current (seen).

    Example:
        >>> steady_current_a(11.2), round(steady_current_a(14.0, 2), 2)
        (17.5, 43.75)
    """
    return 1.25 * bright_current_a(short_circuit_current_a, in_parallel)


Code = Literal["NEC", "Canada", "IEC"]
# Where the number of a rule is not known for certain, the section is named and the rule is asked for.
BRIGHT_BY: dict[Code, Source] = {
    "NEC": BRIGHT,
    "Canada": Source("CSA C22.1", "section 64, 1.25 times the short-circuit current; ask for the rule", "memory"),
    "IEC": Source("IEC 60364-7-712", "1.25 times the short-circuit current", "memory"),
}  # fmt: skip
STEADY_BY: dict[Code, Source] = {
    "NEC": STEADY,
    "Canada": Source("CSA C22.1", "section 64 with 8 and 14; ask whether 1.25 once more is wanted for hours", "memory"),
    "IEC": Source("IEC 62548", "1.5 times the short-circuit current at least for the fuse of a string; 1.5625 is taken", "memory"),
}  # fmt: skip
ONE_RUN_A = 400.0
_RATINGS: dict[Code, str] = {
    "NEC": "guards/breakers",
    "Canada": "guards/breakers",
    "IEC": "guards/breakers_iec",
}


def ratings_a(code: Code = "NEC") -> tuple[float, ...]:
    """Standard ratings of breakers and fuses, by the code [A].

    Source: NEC 240.6(A); Canada sells the same; IEC 60898-1, 60947-2 and 60269-1 (from memory).

    Example:
        >>> ratings_a()[:3], ratings_a("IEC")[:3]
        ((15.0, 20.0, 25.0), (6.0, 10.0, 13.0))
    """
    return tuple(float(row["rating_a"]) for row in table("wiring", _RATINGS[code]))


def standard_rating_a(current_a: float, code: Code = "NEC") -> float | None:
    """Smallest standard breaker or fuse that is no smaller; None past the end of the table at about 1,200 A.

    Source: NEC 240.6(A) (seen in a public copy up to 400 A, from memory beyond); IEC as in ``ratings_a``.

    Example:
        >>> standard_rating_a(17.5), standard_rating_a(401.0), standard_rating_a(1200.5)
        (20.0, 450.0, None)
        >>> standard_rating_a(43.4, "IEC")
        50.0
    """
    return next((one for one in ratings_a(code) if one >= current_a - 1e-9), None)


def rating_under_a(current_a: float, code: Code = "IEC") -> float:
    """Largest standard breaker that is no larger; 0 under the smallest.

    Source: as ``standard_rating_a``.

    Example:
        >>> rating_under_a(59.76), rating_under_a(63.0), rating_under_a(1.0)
        (50.0, 63.0, 0.0)
    """
    return max((one for one in ratings_a(code) if one <= current_a + 1e-9), default=0.0)


def next_rating_a(current_a: float, code: Code = "NEC") -> float:
    """Smallest standard breaker of a run that is no smaller.

    Source: NEC 240.6(A) (seen in a public copy).  Valid for: up to 400 A.

    Raises:
        Wrong: Over 400 A: one run is not the way.

    Example:
        >>> next_rating_a(17.5), next_rating_a(60.0), next_rating_a(43.75)
        (20.0, 60.0, 45.0)
    """
    rating = standard_rating_a(current_a, code)
    if rating is not None and rating <= ONE_RUN_A:
        return rating
    problem = Problem(
        "array",
        "in_parallel",
        f"strings that together ask for {current_a:.0f} A",
        "no more than 400 A in one run",
        "Put more modules in series, or run two cables with a breaker each.",
    )
    raise Wrong([problem])
