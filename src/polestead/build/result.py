"""What `build` hands up."""

from __future__ import annotations

from dataclasses import dataclass

from polestead.base.row import Row
from polestead.base.working import Working


@dataclass(frozen=True, slots=True)
class Piece:
    """One line of the list of pieces."""

    name: str
    count: int
    material: str
    length_m: float | None
    mass_kg: float  # of all of them together
    where: str


@dataclass(frozen=True, slots=True)
class Concrete:
    """The pour.

    Attributes:
        volume_m3: In place, the pole's own volume taken out, the collar included.
        with_waste_m3: To order.
        bags_80_lb: Number of 80 lb bags for it.
        truck: Whether a truck is the sensible way.
        spoil_bank_m3, spoil_loose_m3: Soil out of the hole.
        working: The sums.
    """

    volume_m3: float
    with_waste_m3: float
    bags_80_lb: int
    truck: bool
    spoil_bank_m3: float
    spoil_loose_m3: float
    working: Working


@dataclass(frozen=True, slots=True)
class Question:
    """Whom to ask what, with the trap in the reply."""

    row: Row
    whom: str
    sentence: str
    trap: str


@dataclass(frozen=True, slots=True)
class BuildResult:
    """How it is built, first version."""

    pieces: tuple[Piece, ...]
    tipping_mass_kg: float
    heaviest_lift_kg: float
    heaviest_lift: str
    concrete: Concrete
    trench_m: float
    trench_m3: float
    steps: tuple[str, ...]
    cautions: tuple[str, ...]
