"""From the wall to the controller: what must be in before the wall closes; and what pole and wall ask to be bought besides."""

from __future__ import annotations

from dataclasses import dataclass

from polestead.base.source import COMMON_PRACTICE, Source
from polestead.homestead.model import CableRun
from polestead.wiring.currents import Code
from polestead.wiring.trench.closing import CABLE_SLACK_SHARE, InTrench
from polestead.wiring.trench.conduit import Conduit, Pipe, riser_words

INSIDE: dict[Code, Source] = {
    "NEC": Source("NEC", "690.31(D), before 2020 690.31(G)", "memory"),
    "Canada": Source("CSA C22.1", "64-210: ask", "memory"),
    "IEC": Source("IEC 60364-7-712", "712.52", "memory"),
}
SEALED: dict[Code, Source] = {
    "NEC": Source("NEC", "300.5(G) and 300.7(A)", "memory"),
    "Canada": Source("CSA C22.1", "22-300: ask", "memory"),
    "IEC": COMMON_PRACTICE,
}
LABELLED: dict[Code, Source] = {
    "NEC": Source("NEC", "690.31(D)(2)", "memory"),
    "Canada": Source("CSA C22.1", "section 64, marking", "memory"),
    "IEC": Source("IEC 60364-7-712", "712.514", "memory"),
}
KINDS: dict[Code, str] = {
    "NEC": "RHW-2, THWN-2 or XHHW-2", "Canada": "RW90, or as the inspector names", "IEC": "H1Z2Z2-K, or as the electrician names",
}  # fmt: skip
WAYS: dict[Code, str] = {
    "NEC": "metal pipe, or type MC cable", "Canada": "metal pipe or armoured cable", "IEC": "the way the electrician names",
}  # fmt: skip
WALL_GATE = "GATE: the wall is not closed before box, pipe, wires and label have been looked at and photographed."
CHANGE_OVER = "change-over box"


@dataclass(frozen=True, slots=True)
class Bought:
    """A thing of the run that is bought to a length or a count.

    Attributes:
        name: What.
        count: How many.
        size: As it is bought.
        length_m: Of each; None where it has none.
        where: Where it goes.
    """

    name: str
    count: int
    size: str
    length_m: float | None
    where: str


def in_wall(
    run: CableRun, earth_size: str, code: Code, change_over: bool, signal_wire: bool
) -> tuple[InTrench, ...]:
    """What is in before the wall closes, in order; nothing where the run stays outside.

    Args:
        run: The run section.
        earth_size: Of the earth wire.
        code: That holds.
        change_over: Whether the buried wire ends in a box at the wall.
        signal_wire: Whether a rapid shutdown is asked for: its thin wire to the pole goes through the wall too.
    """
    if run.in_house_m <= 0.0:
        return ()
    long = run.in_house_m
    items: list[tuple[str, str, float | None, str, str, Source]] = []
    if change_over:
        items.append((CHANGE_OVER, "wet, terminals for both sizes", None, "on the outside wall, where the riser ends", "here the buried wire ends", INSIDE[code]))  # fmt: skip
    items += [
        ("sleeve through the wall", "falls outward", None, "behind the box or entry", "water runs out, not in; sealed round and inside against damp, mice and fire", SEALED[code]),
        ("way inside", WAYS[code], long, "from the wall to the controller's own box, unbroken", "a nail through a plastic one is an arc in the wall", INSIDE[code]),
        ("live wires inside, each of two", f"{run.size} {run.metal}, {KINDS[code]}", long, "in it", "wire that is made for the ground only stays outside", INSIDE[code]),
        ("earth wire inside", f"{earth_size} copper", long, "with them, and bonded to metal pipe at both ends", "all the way from the pole", INSIDE[code]),
        ("labels", "as engraved", None, "every 10 ft (3 m), at each wall and bend", "the next who drills there knows", LABELLED[code]),
    ]  # fmt: skip
    if signal_wire:
        items.append(("signal wire of the rapid shutdown", "in a pipe of its own", None, "from its switch outside the house to the pole", "laid in the same trench, it must be there before that closes", INSIDE[code]))  # fmt: skip
    items += [
        ("PHOTOGRAPH of the open wall", "", None, "with a tape in it", "it becomes your own map", COMMON_PRACTICE),
        ("SIGN-OFF", "", None, "inspector, or the one who answers for the wiring", WALL_GATE, COMMON_PRACTICE),
    ]  # fmt: skip
    return tuple(
        InTrench(order, what, size, length_m, None, where, why, source)
        for order, (what, size, length_m, where, why, source) in enumerate(items, start=1)
    )


def bought_of(
    run: CableRun,
    earth_size: str,
    code: Code,
    conduit: Conduit | None,
    guard: Pipe | None,
    riser_m: tuple[float, float],
    pole_pipe_m: float,
    change_over: bool,
) -> tuple[Bought, ...]:
    """Risers, the pipe down the pole with its wires, and what goes on inside the house.

    Args:
        run: The run section.
        earth_size: Of the earth wire.
        code: That holds.
        conduit: The run's pipe; None for cable straight in the soil.
        guard: Pipe over its risers then; None: asked.
        riser_m: Pipe at the pole and at the wall [m].
        pole_pipe_m: Fixed wires down the pole, from the box under the hinge to the switch [m].
        change_over: Whether the buried wire ends in a box at the wall.
    """
    pipe = guard if conduit is None else conduit.riser
    size = riser_words(pipe)
    name = "guard pipe" if conduit is None else "riser"
    found = [
        Bought(f"{name}, at the pole", 1, size, riser_m[0], "from the trench into the switch's box"),
        Bought(f"{name}, at the wall", 1, size, riser_m[1], "from the trench to the box or entry at the wall"),
    ]  # fmt: skip
    if pole_pipe_m > 0.0:
        long = pole_pipe_m * (1.0 + CABLE_SLACK_SHARE)
        found += [
            Bought("pipe, down the pole", 1, size, pole_pipe_m, "from the box under the hinge to the switch's box"),
            Bought("live wires, down the pole, each of two", 2, f"{run.size} {run.metal}, {KINDS[code]}", long, "in that pipe"),
            Bought("earth wire, down the pole", 1, f"{earth_size} copper", long, "in that pipe"),
        ]  # fmt: skip
    if change_over:
        found.append(Bought(CHANGE_OVER, 1, "wet, for direct current", None, "on the outside wall, where the riser ends"))  # fmt: skip
    if run.in_house_m > 0.0:
        found.append(Bought("way inside, from the wall", 1, WAYS[code], run.in_house_m, "from the wall to the controller"))  # fmt: skip
        if change_over:
            found.append(Bought("live wires, inside, each of two", 2, f"{run.size} {run.metal}, {KINDS[code]}", run.in_house_m, "in it"))  # fmt: skip
            found.append(Bought("earth wire, inside", 1, f"{earth_size} copper", run.in_house_m, "in it"))  # fmt: skip
    return tuple(found)
