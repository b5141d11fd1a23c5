"""Every size of wire for the run as the file strings it."""

from __future__ import annotations

from dataclasses import dataclass

from polestead.homestead.model import Battery, CableRun, Controller, NewArray, Place
from polestead.wiring.result import AtThePole
from polestead.wiring.run.ampacity import TERMINALS_C
from polestead.wiring.run.beyond import NOTHING
from polestead.wiring.run.sizes import (
    METALS,
    SizeOfWire,
    Strings,
    sizes_of,
    smallest_lawful,
    thinnest_of,
)
from polestead.wiring.strings.voltage import HEAT_CHECK
from polestead.wiring.wiring import beyond_run, wiring_of


@dataclass(frozen=True, slots=True)
class Choices:
    """Sizes, thinnest first, metal by metal.

    Attributes:
        sizes: With the terminals of the file, or as the code takes them.
        at_60_c: Each metal's thinnest lawful size at terminals that bear 60 C, where nobody has read them; None for a metal that has
            none; else empty.
        terminals: What they are marked with: the file's, or as the code takes them.
    """

    sizes: tuple[SizeOfWire, ...]
    at_60_c: tuple[tuple[str, str | None], ...] = ()
    terminals: str = "75 C"

    def thinnest(self, metal: str) -> SizeOfWire | None:
        """The thinnest lawful size of a metal."""
        return smallest_lawful(self.sizes, metal)

    def thinnest_words(self, metal: str) -> str | None:
        """The thinnest lawful size by what the terminals are marked with, where nobody has read them; None where it is known.

        Example:
            >>> Choices(()).thinnest_words("copper") is None
            True
        """
        if not self.at_60_c:
            return None
        marked, bare = self.thinnest(metal), dict(self.at_60_c)[metal]
        if marked is None:
            return None
        other = "none at all" if bare is None else bare
        if other == marked.size:
            return f"{marked.size}, marked {self.terminals} or not"
        return f"{marked.size} if marked {self.terminals}, else {other}"


def choices_of(
    place: Place, array: NewArray, controller: Controller, run: CableRun, battery: Battery, pole: AtThePole | None = None
) -> Choices:  # fmt: skip
    """Every size of both metals.

    The breaker follows the layout by the 1.56 rule; the one in the file does not count here.

    Source: as in ``sizes_of``.

    Args:
        place: Record low and code.
        array: Modules and how they are strung now.
        controller: The one the new array is wired to.
        run: From the pole.
        battery: The bank.
        pole: For cord and wires down the pole; without it they lose nothing.

    Raises:
        Wrong: For a size of wire in the file that no table knows, and for a layout in the file over 400 A.
    """
    freed = run.model_copy(update={"breaker_a": None})
    beyond = NOTHING if pole is None else beyond_run(place, array, freed, pole)
    wires = wiring_of(place, array, controller, freed, battery, beyond=beyond)
    hot = next(check for check in wires.checks if check.name == HEAT_CHECK)
    strings = Strings(
        short_circuit_current_a=array.module.short_circuit_current_a,
        in_parallel=array.in_parallel,
        full_sun_v=wires.full_sun_v,
        full_sun_a=wires.full_sun_a,
        breaker_a=wires.breaker_a,
        spare_v=hot.capacity + wires.drop_v - hot.demand,
        pipe_m=beyond.pipe_m,
        cord_ohm_20c=beyond.cord_ohm_20c(
            wires.current_for_hours_a, wires.current_for_hours_a / 1.25, wires.breaker_a
        ),
    )
    unread = run.terminals is None
    cooler = run.model_copy(update={"terminals": "60 C"})
    return Choices(
        sizes_of(run, place.wired_by, strings),
        tuple((metal, thinnest_of(cooler, place.wired_by, strings, metal)) for metal in METALS)
        if unread
        else (),
        run.terminals or TERMINALS_C[place.wired_by],
    )
