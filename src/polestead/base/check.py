"""A pass or fail is always a Check."""

from __future__ import annotations

from dataclasses import dataclass
from math import inf

from polestead.base.source import Source
from polestead.base.working import Working


@dataclass(frozen=True, slots=True)
class Check:
    """Demand against capacity of one part.

    Attributes:
        part: The thing (``pole at the collar``).
        name: What is checked (``bending, axial, shear and twist together``).
        demand: What acts on it [unit].
        capacity: What it may carry [unit].
        unit: SI unit of both.
        use: demand / capacity, or the interaction sum where the clause has one.
        source: The clause.
        working: How both were found.
    """

    part: str
    name: str
    demand: float
    capacity: float
    unit: str
    use: float
    source: Source
    working: Working

    @property
    def holds(self) -> bool:
        """True while no more than the whole capacity is used; a use that is no number never holds."""
        return self.use <= 1.0


def share(demand: float, capacity: float) -> float:
    """Demand over capacity, endless where nothing can be carried.

    Example:
        >>> share(3.0, 4.0), share(1.0, 0.0), share(0.0, 0.0)
        (0.75, inf, 0.0)
    """
    if demand == 0.0:
        return 0.0
    return demand / capacity if capacity > 0.0 else inf
