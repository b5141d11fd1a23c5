"""What the bank gives into a dead short."""

from __future__ import annotations

from dataclasses import dataclass

from polestead.base.show import number
from polestead.base.source import OWNER, Source
from polestead.base.table import table
from polestead.base.working import Step, Working
from polestead.homestead.model import Battery


@dataclass(frozen=True, slots=True)
class ShortCircuit:
    """Current into a dead short at the bank's terminals.

    Attributes:
        amps_a: What to choose fuses by [A].
        by_maker: The file gives it; else a high guess, not to be engraved.
        words: How far it can be believed.
        working: How it was found.
    """

    amps_a: float
    by_maker: bool
    words: str
    working: Working


def short_circuit_of(battery: Battery) -> ShortCircuit:
    """The maker's figure, or a high guess by kind and capacity; strings in parallel are in the capacity.

    Source: the table beside this room, each row with its own; ours where nothing better was found.
    Valid for: a guess within a factor of two; high rather than low, a fuse that breaks more costs little.

    Args:
        battery: The bank.

    Example:
        >>> bank = Battery.model_validate({"kind": "flooded lead-acid", "nominal": "48 V", "capacity": "740 Ah"})
        >>> short_circuit_of(bank).amps_a
        14800.0
    """
    if battery.short_circuit_a is not None:
        given = battery.short_circuit_a
        step = Step("short circuit, by the file", "Isc", "", given, "A", OWNER)
        words = f"{number(given)} A by the file: for the whole bank, all strings in parallel?"
        return ShortCircuit(given, True, words, Working("the bank's short circuit", (step,)))
    row = next(r for r in table("wiring", "bank/short") if r["kind"] == battery.kind)
    per_ah = float(row["a_per_ah"])
    guess = per_ah * battery.capacity_ah
    working = Working(
        "the bank's short circuit",
        (
            Step("capacity, all strings", "C", "", battery.capacity_ah, "Ah", OWNER),
            Step("amperes for each ampere-hour", "k", "", per_ah, "1/h", Source(row["source"], status="ours")),
            Step("into a dead short", "Isc", f"{per_ah:g} x {battery.capacity_ah:g}", guess, "A", Source("a high guess", status="ours")),
        ),
        ("For 50 V or 12 V alike: cells in series add volts and resistance together.",),
    )  # fmt: skip
    words = (
        f"About {number(guess)} A, a high guess by kind and capacity ({per_ah:g} A per Ah). Ask its maker: the current of one string, times the strings in parallel. "
        "Never measure it."
    )
    return ShortCircuit(guess, False, words, working)
