"""What the current passes beside the run: the cord over the hinge and the fixed wires down the pole."""

from __future__ import annotations

from dataclasses import dataclass

from polestead.base.source import Source
from polestead.wiring.run.conductor import RISE_PER_K, WARM_C, Conductor, conductor_of
from polestead.wiring.run.hinge_cable import HingeCable, Kind, cord_for

FINE = 1.05  # fine strands over stranded wire of the same name
FINE_STRANDS = Source("IEC 60228", "class 5 against class 2, as 1.21 against 1.15 ohm/km for 16 mm2: a twentieth more", "memory")  # fmt: skip


@dataclass(frozen=True, slots=True)
class Beyond:
    """Lengths beside the run; the same for every size of wire and every way to string.

    Attributes:
        pipe_m: Fixed wires down the pole, of the run's own size and metal, one way.
        cord_m: Cord as cut, one way.
        kind: Of cord.
    """

    pipe_m: float
    cord_m: float
    kind: Kind

    def cord_ohm_20c(self, steady_a: float, bright_a: float, breaker_a: float) -> float:
        """The cord there and back at 20 C, of the size these currents want [ohm].

        Source: resistance of the run's own tables, a twentieth more for fine strands (IEC 60228 class 5, from memory).

        Args:
            steady_a: 1.56 times the short-circuit current of all strings [A].
            bright_a: 1.25 times it [A].
            breaker_a: Breaker of the run [A].
        """
        cord = cord_for(self.kind, steady_a, bright_a, breaker_a=breaker_a)
        return 2.0 * self.cord_m * FINE * conductor_of(cord.size, "copper").ohm_per_m(20.0)


NOTHING = Beyond(0.0, 0.0, "SOOW")


def beyond_of(cord: HingeCable) -> Beyond:
    """As the cord was worked out."""
    return Beyond(cord.boxes.pipe_m, cord.cut_m, cord.cord.kind)


def loop_ohm(
    wire: Conductor, length_m: float, pipe_m: float, cord_ohm_20c: float, wire_c: float = WARM_C
) -> float:
    """Run, pole wires and cord, there and back, all equally warm [ohm].

    Source: two conductors in series with the cord; IEC 60228 for the rise with warmth.

    Args:
        wire: Of run and pole.
        length_m: Of the run, one way [m].
        pipe_m: Down the pole, one way [m].
        cord_ohm_20c: The cord there and back at 20 C [ohm].
        wire_c: How warm [C].

    Example:
        >>> wire = conductor_of("4 AWG", "copper")
        >>> round(loop_ohm(wire, 67.056, 0.0, 0.0), 4)  # 440 ft of .308 ohm a kft
        0.1355
    """
    cord = cord_ohm_20c * (1.0 + RISE_PER_K["copper"] * (wire_c - 20.0))
    return 2.0 * (length_m + pipe_m) * wire.ohm_per_m(wire_c) + cord
