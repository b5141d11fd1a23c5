"""The boxes in which the array's wires meet: on the frame, and at the end of the cord's loop."""

from __future__ import annotations

from polestead.wiring.currents import Code
from polestead.wiring.guards.clauses import clause
from polestead.wiring.guards.result import Guard


def frame_box(code: Code, cold_v: float, in_parallel: int) -> Guard:
    """Where the strings join, without fuses."""
    joins = "the string ends on terminals" if in_parallel == 1 else f"{in_parallel} strings join, each on terminals of its own"  # fmt: skip
    return Guard(
        "frame box", "near the hinge, where the strings meet", "box on the frame", cold_v, None, None, clause("box", code),
        f"Here {joins} so that each can be opened and measured alone, and the cord begins. No fuses here: the strings are too few to harm one another. Live in any light.",
        "Box and terminals for direct current of these volts, for wet, sun and cold; is it listed, or built of listed parts?",
    )  # fmt: skip


def hinge_box(code: Code, cold_v: float) -> Guard:
    """Where the cord's loop ends and fixed wires go on down the pole."""
    return Guard(
        "hinge box", "on the pole, entered from below", "box under the hinge", cold_v, None, None, clause("box", code),
        "The cord ends here, for it may only flex: from here fixed wires go down the pole in pipe to the switch, where hands reach. Nothing in it to operate, and no more than three joints.",
        "Box and terminals for direct current of these volts and for wet; terminals for both the cord's fine strands and the run's wire.",
    )  # fmt: skip
