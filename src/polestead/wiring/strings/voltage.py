"""What a string shows on the coldest dawn: by the maker's coefficient, by the code's table, against every limit."""

from __future__ import annotations

from dataclasses import dataclass
from math import floor, nan
from typing import Literal

from polestead.base.check import Check, share
from polestead.base.source import OWNER, Source
from polestead.base.table import table
from polestead.base.working import Step, Working
from polestead.homestead.model import Controller
from polestead.modules.power import open_voltage_v
from polestead.wiring.currents import Code
from polestead.wiring.strings.label import Label

Decides = Literal["the maker's coefficient", "the code's table", "nothing"]

COLD = Source("NEC", "690.7(A), by the maker's coefficient")
BY_COEFFICIENT: dict[Code, Source] = {
    "NEC": COLD,
    "Canada": Source("CSA C22.1", "64-202, by the maker's coefficient at the lowest temperature", "memory"),
    "IEC": Source("IEC 62548", "largest voltage of the array, by the maker's coefficient", "memory"),
}  # fmt: skip
COLD_TABLE = Source("NEC", "Table 690.7(A)", "seen-copy")
BY_TABLE: dict[Code, Source] = {
    "NEC": COLD_TABLE,
    "Canada": Source("CSA C22.1", "64-202, 125 % of the rated open-circuit voltage", "memory"),
    "IEC": Source("IEC 62548", "its table of factors by temperature", "memory"),
}
CANADA_FACTOR = 1.25
TABLE_ENDS_C = -40.0
DWELLING = Source("NEC", "690.7, one- and two-family dwellings")
DWELLING_V = 600.0
CONTROLLER_CHECK = "cold voltage against the controller's limit"
DWELLING_CHECK = "cold voltage against the limit in a dwelling"
LOW_VOLTAGE_CHECK = "cold voltage against the end of low voltage"
LABEL_CHECK = "cold voltage against the system voltage on the module's label"
UNKNOWN_CHECK = "cold voltage that anybody can tell"
CODE_LIMITS: dict[Code, tuple[float, str, Source]] = {
    "NEC": (DWELLING_V, DWELLING_CHECK, DWELLING),
    "Canada": (DWELLING_V, DWELLING_CHECK, Source("CSA C22.1", "64-202, dwelling units")),
    "IEC": (
        1500.0, LOW_VOLTAGE_CHECK, Source("IEC 60364-1", "low voltage ends at 1500 V direct current", "memory"),
    ),
}  # fmt: skip
SYSTEM = Source("IEC 61730-1", "largest system voltage, on the module's label", "memory")
MARGIN = Source("greater of 3 % and 5 V over what decides", status="ours")
HEAT_CHECK = "working voltage in summer heat, enough to charge"
PEAK = "The peak comes at a clear dawn, before anything warms, however weak the sun."


@dataclass(frozen=True, slots=True)
class Cold:
    """A string at the record low.

    Attributes:
        by_coefficient_v: By the maker's coefficient; None where nobody knows it.
        by_table_v: By the code's table, shown; None below its end at -40 C.
        decides: Which of the two is held against the limits.
        with_margin_v: That one with our margin; None where nothing decides.
        working: How it was found.
    """

    by_coefficient_v: float | None
    by_table_v: float | None
    decides: Decides
    with_margin_v: float | None
    working: Working


def with_margin_v(cold_v: float) -> float:
    """Cold voltage with what a colder dawn or a strong module may add: 3 % or 5 V, whichever is more.

    Source: our own rule.

    Example:
        >>> with_margin_v(100.0), with_margin_v(500.0)
        (105.0, 515.0)
    """
    return cold_v + max(0.03 * cold_v, 5.0)


def table_factor(low_c: float) -> float | None:
    """What the code's table multiplies the open-circuit voltage with; None below its end at -40 C.

    Source: NEC Table 690.7(A) (seen in two public copies).  Valid for: crystalline and multicrystalline silicon; down
    to -40 C.  A temperature between two rows takes the colder row; its steps are uneven below -25 C and stay so.

    Args:
        low_c: Lowest temperature expected [C].

    Example:
        >>> table_factor(-18.0), table_factor(-20.5), table_factor(-40.0), table_factor(-40.1), table_factor(25.0)
        (1.18, 1.2, 1.25, None, 1.0)
    """
    if low_c >= 25.0:
        return 1.0
    for row in table("wiring", "strings/cold"):
        if round(low_c, 6) >= float(row["down_to_c"]):
            return float(row["factor"])
    return None


def code_factor(low_c: float, code: Code = "NEC") -> float | None:
    """What the code multiplies the open-circuit voltage with where no coefficient is taken.

    Source: NEC Table 690.7(A) (seen-copy), the same figures under IEC 62548 (from memory); CSA C22.1 64-202 takes 1.25 at any
    temperature (from memory).

    Args:
        low_c: Lowest temperature expected [C].
        code: Which code the wires follow.

    Example:
        >>> code_factor(-18.0), code_factor(-18.0, "Canada"), code_factor(-44.0, "Canada"), code_factor(-44.0, "IEC")
        (1.18, 1.25, 1.25, None)
    """
    return CANADA_FACTOR if code == "Canada" else table_factor(low_c)


def most_in_series(limit_v: float, one_cold_v: float) -> int:
    """Most modules in a string that keep under a voltage.

    Source: NEC 690.7 lesson text (seen).

    Example:
        >>> most_in_series(600.0, 54.18)
        11
    """
    return floor(limit_v / one_cold_v + 1e-9)


def cold_of(label: Label, in_series: int, low_c: float, code: Code = "NEC") -> Cold:
    """A string at the record low: the coefficient decides, the table only where there is none, and only down to -40 C.

    Source: NEC 690.7(A) and its table, or what stands for it under the code; the margin, and that the table wants it too, is ours.

    Args:
        label: Of the module.
        in_series: Modules in the string.
        low_c: Record low of the place [C].
        code: Which code the wires follow.
    """
    volts, change = label.open_circuit_voltage_v, label.change_per_k
    factor = code_factor(low_c, code)
    tabled = None if factor is None else factor * in_series * volts
    steps = [
        Step("open-circuit voltage of a module", "Voc", "", volts, "V", OWNER),
        Step("record low", "T", "", low_c, "C", OWNER),
        *_tabled(factor, tabled, in_series, volts, code),
    ]
    if change is not None:
        cold = open_voltage_v(volts, change, in_series, low_c)
        formula = f"{in_series} x {volts:g} x (1 + {change:g} x ({low_c:.1f} - 25))"
        steps += [
            Step("its change per degree", "beta", "", change, "1/K", OWNER),
            Step("cold voltage", "Vcold", formula, cold, "V", BY_COEFFICIENT[code]),
        ]
        return _decided(cold, tabled, "the maker's coefficient", cold, steps, PEAK)
    if tabled is not None and round(low_c, 6) >= TABLE_ENDS_C:
        return _decided(None, tabled, "the code's table", tabled, steps, PEAK)
    nobody = (
        f"No coefficient of this module is known, and the code's table ends at {TABLE_ENDS_C:g} C: at {low_c:.0f} C nobody can "
        "say what the string shows. Read the coefficient of the open-circuit voltage off the maker's sheet."
    )
    working = Working("cold voltage of a string", tuple(steps), (nobody,))
    return Cold(None, tabled, "nothing", None, working)


def _tabled(
    factor: float | None, tabled: float | None, in_series: int, volts: float, code: Code
) -> list[Step]:
    if factor is None or tabled is None:
        return []
    return [
        Step("by the code's table, shown", "Vtable", f"{factor:g} x {in_series} x {volts:g}", tabled, "V", BY_TABLE[code])
    ]  # fmt: skip


def _decided(
    by_coefficient: float | None, tabled: float | None, decides: Decides, cold: float, steps: list[Step], note: str
) -> Cold:  # fmt: skip
    most = with_margin_v(cold)
    formula = f"{cold:.1f} + max(0.03 x {cold:.1f}, 5)"
    margin = Step(f"with margin; {decides} decides", "Vmax", formula, most, "V", MARGIN)
    working = Working("cold voltage of a string", (*steps, margin), (note,))
    return Cold(by_coefficient, tabled, decides, most, working)


def limits_of(
    label: Label, controller: Controller, code: Code
) -> tuple[tuple[float, str, Source], ...]:
    """All a cold string is held against: volts, the check's name, its source."""
    limits = [(controller.voltage_limit_v, CONTROLLER_CHECK, BY_COEFFICIENT[code]), CODE_LIMITS[code]]  # fmt: skip
    if label.system_voltage_v is not None:
        limits.append((label.system_voltage_v, LABEL_CHECK, SYSTEM))
    return tuple(limits)


def cold_checks(label: Label, cold: Cold, controller: Controller, code: Code) -> tuple[Check, ...]:
    """The string in the cold against the controller, the code and the module's own label.

    Where nothing says what it shows, a single check that does not hold.
    """
    limits = limits_of(label, controller, code)
    most = cold.with_margin_v
    if most is None:
        limit = min(volts for volts, _, _ in limits)
        return (Check("string", UNKNOWN_CHECK, nan, limit, "V", nan, BY_TABLE[code], cold.working),)
    return tuple(
        Check("string", name, most, volts, "V", share(most, volts), source, cold.working)
        for volts, name, source in limits
    )
