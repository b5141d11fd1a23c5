"""Surge arrestors at both ends of the run, and why their leads are short."""

from __future__ import annotations

from polestead.base.show import both_ways
from polestead.base.source import COMMON_PRACTICE, Source
from polestead.base.working import Step, Working
from polestead.wiring.currents import Code
from polestead.wiring.guards.clauses import clause
from polestead.wiring.guards.result import Guard
from polestead.wiring.guards.rounded import volts_up

OVER_OPEN = Source("IEC 61643-32", "Ucpv from 1.2 Uoc at standard conditions", "memory")
LEAD = Source("IEC 60364-5-53", "534, leads under 0.5 m", "memory")
HENRY_PER_M = 1e-6  # a straight wire, common practice
RISE_A_PER_S = 1e9  # 1 kA in a microsecond, common practice for a strike near by
LONGEST_LEAD_M = 0.5
APART_M = 10.0  # IEC 60364-7-712: over 10 m one at each end; from memory
FORM = Source("U = L di/dt", status="computed")


def arrestor_v(cold_v: float, open_v: float) -> float:
    """Least direct voltage an arrestor must bear for good.

    Source: IEC 61643-32 (from memory): 1.2 x open-circuit voltage at standard conditions; never under the coldest dawn.

    Args:
        cold_v: Cold voltage with margin [V].
        open_v: Open-circuit voltage of a string at 25 C [V].

    Example:
        >>> round(arrestor_v(190.8, 158.0), 1), round(arrestor_v(150.0, 140.0), 1)
        (190.8, 168.0)
    """
    return max(cold_v, 1.2 * open_v)


def lead_v(lead_m: float, rise_a_per_s: float = RISE_A_PER_S) -> float:
    """Volts that the leads of an arrestor add to what it lets through.

    Source: U = L di/dt, 1 uH a metre of straight wire (common practice).

    Args:
        lead_m: Both leads together [m].
        rise_a_per_s: How fast the current rises [A/s].

    Example:
        >>> lead_v(0.5), lead_v(3.0)
        (500.0, 3000.0)
    """
    return HENRY_PER_M * lead_m * rise_a_per_s


def lead_working() -> Working:
    """Why the leads are short, in volts."""
    return Working(
        "what a surge arrestor's leads add",
        (
            Step("leads, both together", "l", "", LONGEST_LEAD_M, "m", LEAD),
            Step("a metre of straight wire", "L/l", "", HENRY_PER_M, "H/m", COMMON_PRACTICE),
            Step("rise of the current, strike near by", "di/dt", "", RISE_A_PER_S, "A/s", COMMON_PRACTICE),
            Step("volts added", "U", f"{HENRY_PER_M:g} x {LONGEST_LEAD_M:g} x {RISE_A_PER_S:g}", lead_v(LONGEST_LEAD_M), "V", FORM),
        ),
        (f"Three metres of lead would add {lead_v(3.0):.0f} V: the arrestor might as well not be there.",),
    )  # fmt: skip


def surge_guards(code: Code, cold_v: float, open_v: float, length_m: float) -> tuple[Guard, ...]:
    """One arrestor at the pole, one at the controller."""
    volts, source = arrestor_v(cold_v, open_v), clause("surge", code)
    both = (
        f"The run is {both_ways(length_m)} long, over the {both_ways(APART_M)} that one arrestor covers: one at each end."
        if length_m > APART_M
        else f"The run is only {both_ways(length_m)} long: one at the controller may do; both cost little."
    )
    ask = (
        f"Type 2 for photovoltaic direct current, from plus and from minus to earth; largest continuous voltage (Ucpv, in America MCOV) at least {volts_up(volts)}; "
        "a mark that shows when it is spent."
    )
    short = f"Straight leads, plus, minus and earth together under 20 in ({LONGEST_LEAD_M:g} m): each 20 in ({LONGEST_LEAD_M:g} m) more adds some {lead_v(LONGEST_LEAD_M):.0f} V."
    return (
        Guard(
            "surge at the pole", "at the pole, in the box with the switch", "surge arrestor", volts, None, None, source,
            f"{both} {short} Its earth end goes to the earth wire, the pole and the bars in the pier at one point.", ask,
        ),
        Guard(
            "surge at the house", "at the controller, on the array's side", "surge arrestor", volts, None, None, source,
            "Strikes near by, not on the pole, kill controllers and inverters. In thunder open both switches while it is still far, and stay off the pole: "
            f"an arrestor takes its share, an open switch more. {short}", ask,
        ),
    )  # fmt: skip
