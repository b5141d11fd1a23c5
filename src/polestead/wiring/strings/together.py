"""Arrays that share a controller: their volts must match, their amperes add up."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from polestead.base.check import Check, share
from polestead.base.source import OWNER, Source
from polestead.base.working import Step, Working
from polestead.homestead.model import Controller
from polestead.wiring.currents import BRIGHT_BY, Code, bright_current_a
from polestead.wiring.strings.label import Label

ALIKE = 0.05
MATCH = Source("working voltages of strings on one controller within 5 %", status="common practice")
MATCH_CHECK = "working voltage against the strings beside it on the controller"
AMPS_CHECK = "short-circuit current of all arrays against the controller's limit"
AMPS = Source("the controller's sheet, held against 1.25 times the datasheet's current", status="ours")  # fmt: skip


@dataclass(frozen=True, slots=True)
class Hung:
    """An array as it hangs on a controller.

    Attributes:
        number: Of the array: 0 the new one, then the old ones as the file has them; names may be alike.
        name: Of the array.
        label: Of its module.
        in_series, in_parallel: Modules in a string; strings.
        power_w: Its rating.
    """

    number: int
    name: str
    label: Label
    in_series: int
    in_parallel: int
    power_w: float

    @property
    def working_v(self) -> float:
        """Of a string at 25 C."""
        return self.in_series * self.label.working_voltage_v

    @property
    def short_circuit_a(self) -> float:
        """Of all its strings at 1000 W/m2."""
        return self.in_parallel * self.label.short_circuit_current_a


def match_checks(one: Hung, beside: Iterable[Hung]) -> tuple[Check, ...]:
    """The strings' working voltage against each array beside it.

    Source: within 5 %, common practice: a controller holds all its strings at one voltage, and the odd ones lose.
    """
    return tuple(_match(one, other) for other in beside)


def _match(one: Hung, other: Hung) -> Check:
    mine, theirs = one.working_v, other.working_v
    off = abs(mine - theirs) / theirs
    label, beside = one.label, other.label
    working = Working(
        "strings on one controller",
        (
            Step("working voltage of this string", "V1", f"{one.in_series} x {label.working_voltage_v:g}", mine, "V", OWNER),
            Step(f"of {other.name}", "V2", f"{other.in_series} x {beside.working_voltage_v:g}", theirs, "V", OWNER),
            Step("they differ by", "d", f"|{mine:.1f} - {theirs:.1f}| / {theirs:.1f}", off, "", MATCH),
        ),
        ("A controller holds all its strings at one voltage: the odd ones work off their best point, or not at all.",),
    )  # fmt: skip
    return Check("string", f"{MATCH_CHECK}: {other.name}", off, ALIKE, "", off / ALIKE, MATCH, working)  # fmt: skip


def amps_checks(
    all_hung: Iterable[Hung], controller: Controller, code: Code = "NEC"
) -> tuple[Check, ...]:
    """Short-circuit current of all arrays on a controller against its limit, where that was written."""
    limit = controller.array_current_limit_a
    if limit is None:
        return ()
    hung = tuple(all_hung)
    total = sum(one.short_circuit_a for one in hung)
    bright = bright_current_a(total)
    steps = (
        *(
            Step(
                f"short-circuit current, {one.name}", "Isc", f"{one.in_parallel} x {one.label.short_circuit_current_a:g}",
                one.short_circuit_a, "A", OWNER,
            )
            for one in hung
        ),
        Step("all of them, brightest sun", "Imax", f"1.25 x {total:g}", bright, "A", BRIGHT_BY[code]),
        Step("the controller bears", "Ilimit", "", limit, "A", OWNER),
    )  # fmt: skip
    note = "Some makers mean the datasheet's current without the 1.25: ask before you give a layout up for it."
    working = Working("current of all arrays on the controller", steps, (note,))
    return (Check("string", AMPS_CHECK, bright, limit, "A", share(bright, limit), AMPS, working),)
