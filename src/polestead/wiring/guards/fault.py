"""How much a short circuit may give: from the array one way, from the battery the other."""

from __future__ import annotations

from polestead.base.source import Source
from polestead.base.working import Step, Working
from polestead.wiring.by_code import bright_source
from polestead.wiring.currents import Code

BACK = Source(
    "a controller whose transistors fail joins bank and run; its own resistance left out",
    status="ours",
)
OHM = Source("Ohm's law, there and back, the wire at 20 C", status="computed")
EITHER = Source("the larger of both; they flow in opposite directions", status="computed")


def fault_workings(
    bright_a: float,
    beside_a: float,
    bank_a: float | None,
    full_v: float,
    run_ohm: float,
    code: Code = "NEC",
) -> tuple[Working, Working | None]:
    """Most a short circuit may give at the pole and at the controller.

    A fault on the run is fed by the array from one end, never more than 1.25 Isc, and from the other by the battery, if the
    controller has failed and lets it back.  The breaker must break whichever is more at the place it stands.

    Source: NEC 110.9 for what must be broken; Ohm's law; the way back through a failed controller is our own assumption.

    Args:
        bright_a: 1.25 times the short-circuit current of all strings [A].
        beside_a: The same of other arrays on the same controller [A].
        bank_a: The bank's short-circuit current [A]; None where no bank is known.
        full_v: The bank while it is charged [V].
        run_ohm: Both live wires together at 20 C [ohm].
        code: That holds.

    Returns:
        Workings at the pole and at the controller; their results are the currents.

    Example:
        >>> pole, house = fault_workings(35.0, 0.0, 14800.0, 57.6, 0.1112)
        >>> round(pole.result.value), round(house.result.value)
        (518, 14800)
    """
    source = bright_source(code)
    from_array = Step(
        "from the array, no more than", "Iarray", f"{bright_a:.1f}", bright_a, "A", source
    )
    through = full_v / run_ohm
    back = through if bank_a is None else min(through, bank_a)
    far = back + beside_a
    pole = Working(
        "short circuit at the pole's end",
        (
            from_array,
            Step("bank being charged", "Vbat", "", full_v, "V", BACK),
            Step("the run, both wires", "Rrun", "", run_ohm, "ohm", OHM),
            Step("back through the run", "Iback", f"{full_v:.1f} / {run_ohm:.4f}, no more than the bank gives", back, "A", OHM),
            *_beside(beside_a, source),
            Step("what must be broken", "Ik", f"max({bright_a:.1f}, {far:.1f})", max(bright_a, far), "A", EITHER),
        ),
    )  # fmt: skip
    if bank_a is None:
        return pole, None
    near = bank_a + beside_a
    house = Working(
        "short circuit at the controller's end",
        (
            from_array,
            Step("from the battery through a failed controller", "Ibat", "", bank_a, "A", BACK),
            *_beside(beside_a, source),
            Step("what must be broken", "Ik", f"max({bright_a:.1f}, {near:.1f})", max(bright_a, near), "A", EITHER),
        ),
        ("The leads from bank to controller bring it down: the electrician may work it with their length and size.",),
    )  # fmt: skip
    return pole, house


def _beside(beside_a: float, source: Source) -> tuple[Step, ...]:
    if beside_a == 0.0:
        return ()
    return (Step("other arrays on the same controller", "Iother", "", beside_a, "A", source),)
