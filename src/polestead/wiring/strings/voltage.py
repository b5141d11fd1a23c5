"""What a string shows on the coldest dawn, and what is left of it in the heat."""

from __future__ import annotations

from math import floor

from polestead.base.check import Check, share
from polestead.base.source import OWNER, Source
from polestead.base.table import table
from polestead.base.working import Step, Working
from polestead.homestead.model import Controller, NewArray, Place
from polestead.modules.power import cold_voltage_v, hot_working_voltage_v

COLD = Source("NEC", "690.7(A), by the maker's coefficient")
COLD_TABLE = Source("NEC", "Table 690.7(A)", "seen-copy")
DWELLING = Source("NEC", "690.7, one- and two-family dwellings")
MARGIN = Source("greater of 3 % and 5 V over the coefficient", status="ours")
HEAT = Source(
    "full sun in air of 45 C, the working voltage falling by as many volts as the open one",
    status="ours",
)
DWELLING_V = 600.0
HOTTEST_AIR_C = 45.0  # our own assumption, hotter than most places ever are
HEAT_CHECK = "working voltage in summer heat, enough to charge"
CHARGE_OVER_NOMINAL = 1.2  # 2.40 V a lead cell, 57.6 V on a 48 V bank


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


def most_in_series(limit_v: float, one_cold_v: float) -> int:
    """Most modules in a string that keep under a voltage.

    Source: NEC 690.7 lesson text (seen).

    Example:
        >>> most_in_series(600.0, 54.18)
        11
    """
    return floor(limit_v / one_cold_v + 1e-9)


def string_checks(
    place: Place, array: NewArray, controller: Controller, battery_nominal_v: float, drop_v: float
) -> tuple[Check, ...]:
    """The string against the controller and the dwelling in the cold, and against the battery in the heat."""
    cold = _cold_working(place, array)
    limits = (
        (controller.voltage_limit_v, "cold voltage against the controller's limit", COLD),
        (DWELLING_V, "cold voltage against the limit in a dwelling", DWELLING),
    )
    demand = cold.result.value
    checks = tuple(
        Check("string", name, demand, limit, "V", share(demand, limit), source, cold)
        for limit, name, source in limits
    )
    return (*checks, _hot_check(array, battery_nominal_v, drop_v))


def _cold_working(place: Place, array: NewArray) -> Working:
    module, n, low = array.module, array.in_series, place.record_low_c
    voc, change = module.open_circuit_voltage_v, module.voltage_change_per_k
    cold = cold_voltage_v(module, n, low)
    return Working(
        "cold voltage of a string",
        (
            Step("open-circuit voltage of a module", "Voc", "", voc, "V", OWNER),
            Step("its change per degree", "beta", "", change, "1/K", OWNER),
            Step("record low", "T", "", low, "C", OWNER),
            Step(
                "cold voltage",
                "Vcold",
                f"{n} x {voc:g} x (1 + {change:g} x ({low:.1f} - 25))",
                cold,
                "V",
                COLD,
            ),
            Step(
                "with margin",
                "Vmax",
                f"{cold:.1f} + max(0.03 x {cold:.1f}, 5)",
                with_margin_v(cold),
                "V",
                MARGIN,
            ),
        ),
        ("The peak comes at a clear dawn, before anything warms, however weak the sun.",),
    )


def _hot_check(array: NewArray, battery_nominal_v: float, drop_v: float) -> Check:
    module, n = array.module, array.in_series
    needed = CHARGE_OVER_NOMINAL * battery_nominal_v
    in_heat = hot_working_voltage_v(module, n, HOTTEST_AIR_C)
    hot = in_heat - drop_v
    working = Working(
        "working voltage of a string in the heat",
        (
            Step(
                "wanted to charge",
                "Vcharge",
                f"{CHARGE_OVER_NOMINAL:g} x {battery_nominal_v:g}",
                needed,
                "V",
                HEAT,
            ),
            Step("hottest air", "Ta", "", HOTTEST_AIR_C, "C", HEAT),
            Step(
                "working voltage at the modules",
                "Vmp",
                f"{n} modules in full sun",
                in_heat,
                "V",
                HEAT,
            ),
            Step("at the controller", "Vhot", f"{in_heat:.1f} - {drop_v:.2f}", hot, "V", HEAT),
        ),
    )
    return Check(
        "string", HEAT_CHECK, needed, hot, "V", share(needed, max(hot, 0.0)), HEAT, working
    )
