"""The earth wire that goes with the circuit."""

from __future__ import annotations

from polestead.base.problem import Problem, Wrong
from polestead.base.table import table
from polestead.wiring.run.conductor import area_mm2


def earth_wire_of(breaker_a: float) -> str:
    """Least copper earth wire behind a breaker; 690.45 asks for no thicker one because of voltage drop.

    Source: NEC Table 250.122 (seen in a public copy); 690.45 (from memory).  Valid for: up to 400 A.

    Example:
        >>> earth_wire_of(15.0), earth_wire_of(45.0), earth_wire_of(61.0)
        ('14 AWG', '10 AWG', '8 AWG')
    """
    for row in table("wiring", "guards/earth"):
        if breaker_a <= float(row["up_to_a"]):
            return row["size"]
    problem = Problem(
        "run", "breaker", f"{breaker_a:g} A", "up to 400 A", "Run two cables with a breaker each."
    )
    raise Wrong([problem])


def in_metric(size: str) -> str:
    """The thinnest metric size that is no thinner than an American one.

    Example:
        >>> in_metric("10 AWG"), in_metric("14 AWG")
        ('6 mm2', '2.5 mm2')
    """
    metric = [
        row["size"]
        for row in table("wiring", "run/resistance")
        if row["metal"] == "copper" and row["size"].endswith("mm2")
    ]
    return min((m for m in metric if area_mm2(m) >= area_mm2(size)), key=area_mm2)
