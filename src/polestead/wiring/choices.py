"""Over what else it could be wired: every size of wire, through the same checks."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from polestead.base.check import Check
from polestead.homestead.model import Battery, CableRun, Controller, NewArray, Place
from polestead.wiring.run.ampacity import carries_a, largest_breaker_a
from polestead.wiring.run.conductor import Conductor, conductor_of, sizes
from polestead.wiring.strings.voltage import HEAT_CHECK
from polestead.wiring.wiring import wiring_of

METALS = ("copper", "aluminium")
TRENCH = "trench"  # the same for every choice


@dataclass(frozen=True, slots=True)
class SizeOfWire:
    """One size of wire for the run as it is strung.

    Attributes:
        size, metal: As the tables write it.
        chosen: Whether the file has it so.
        carries_a: For good, terminals and heat looked at.
        largest_breaker_a: That still protects it.
        drop_v, drop_share: Lost in full sun, the wire at 75 C.
        faults: What does not hold; empty: lawful.
    """

    size: str
    metal: str
    chosen: bool
    carries_a: float
    largest_breaker_a: float
    drop_v: float
    drop_share: float
    faults: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Choices:
    """Sizes, thinnest first, metal by metal."""

    sizes: tuple[SizeOfWire, ...]

    def thinnest(self, metal: str) -> SizeOfWire | None:
        """The thinnest lawful size of a metal."""
        return next((one for one in self.sizes if one.metal == metal and not one.faults), None)


def choices_of(
    place: Place, array: NewArray, controller: Controller, run: CableRun, battery: Battery
) -> Choices:
    """Every size of both metals for the strings as they are.

    The breaker follows by the 1.56 rule; the one in the file belongs to the wire in the file only.

    Source: NEC 690.8, Table 310.16 as in ``wiring_of``.

    Args:
        place: Record low.
        array: Modules and how they are strung now.
        controller: The one it is wired to.
        run: From the pole.
        battery: Of the house.

    Raises:
        Wrong: For a size of wire in the file that no table knows, and for a layout in the file over 400 A.
    """
    laid = conductor_of(run.size, run.metal)
    freed = run.model_copy(update={"breaker_a": None})
    rows = [
        _size(place, array, controller, freed, battery, conductor_of(size, metal), laid)
        for metal in METALS
        for size in sizes(metal)
    ]
    return Choices(tuple(rows))


def _size(
    place: Place,
    array: NewArray,
    controller: Controller,
    run: CableRun,
    battery: Battery,
    wire: Conductor,
    laid: Conductor,
) -> SizeOfWire:
    """The string's own cold voltage is no fault of the wire and left out; what the wire takes from it in the heat is one."""
    other = run.model_copy(update={"size": wire.size, "metal": wire.metal})
    wires = wiring_of(place, array, controller, other, battery)
    checks = tuple(
        check for check in wires.checks if check.part != "string" or check.name == HEAT_CHECK
    )
    return SizeOfWire(
        size=wire.size,
        metal=wire.metal,
        chosen=wire == laid,
        carries_a=carries_a(wire),
        largest_breaker_a=largest_breaker_a(wire),
        drop_v=wires.drop_v,
        drop_share=wires.drop_share,
        faults=_faults(checks),
    )


def _faults(checks: Iterable[Check]) -> tuple[str, ...]:
    return tuple(check.name for check in checks if not check.holds and check.part != TRENCH)
