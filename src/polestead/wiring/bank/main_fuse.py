"""The main fuse and switch at the battery."""

from __future__ import annotations

from dataclasses import dataclass

from polestead.base.check import Check, share
from polestead.base.problem import Problem, Wrong
from polestead.base.source import OWNER, Source
from polestead.base.working import Step, Working
from polestead.homestead.fields import source_of
from polestead.homestead.model import Battery, Inverter
from polestead.wiring.bank.set_points import cells_source
from polestead.wiring.bank.short_circuit import ShortCircuit
from polestead.wiring.currents import Code, standard_rating_a
from polestead.wiring.guards.circuit import DC
from polestead.wiring.guards.clauses import clause
from polestead.wiring.guards.leads import (
    BARE,
    largest_lead_fuse_a,
    lead_carries_a,
    lead_for,
    lead_source,
    leads_words,
)
from polestead.wiring.guards.result import Guard
from polestead.wiring.guards.rounded import volts_up, whole_amps_up
from polestead.wiring.run.conductor import Conductor, conductor_of

LOW_CELL_V = {"flooded lead-acid": 1.75, "sealed lead-acid": 1.75, "lithium iron phosphate": 2.8}
LOW = Source("usual end of discharge, 1.75 V a lead cell, 2.8 V a lithium one", status="memory")
FOR_HOURS: dict[Code, Source] = {
    "NEC": Source("NEC", "690.8(B), 1.25 times", "memory"),
    "Canada": Source("CSA C22.1", "section 14, no more for hours than the fuse's marking; ask. 1.25 times is taken", "memory"),
    "IEC": Source("IEC 60364-4-43", "433.1, no less than the current; the 1.25 over it is ours", "memory"),
}  # fmt: skip
CLASS_T_BREAKS_A = 20_000.0  # class T of UL 248-15, direct current; from memory
PROTECTS: dict[Code, Source] = {
    "NEC": Source("NEC", "240.4(B), next standard size up to 800 A"),
    "Canada": Source("CSA C22.1", "14-104 and Table 13; ask", "memory"),
    "IEC": Source("IEC 60364-4-43", "433.1: no more than the lead carries", "memory"),
}  # fmt: skip
IN_PIPE = "Taken as two leads in a pipe: in free air they carry more, which is left as margin."
FAR_OVER = 1.6  # times the least rating; the next standard size is never so far off
FAR = Source("1.6 times the least rating, past every next standard size", status="ours")
TO_CARRY = Source("the largest current for hours, 1.25 times", status="computed")
LEADS_UNTOLD = "not far over its rule while its leads are not told"
LOSES_MORE_AT_FULL = 0.04  # the file's own default, four points under the usual load's


@dataclass(frozen=True, slots=True)
class MainFuse:
    """The main fuse, what it must carry, break and protect.

    Attributes:
        carries_a: Largest current for hours, to the inverter or from everything that charges [A].
        least_a: 1.25 times that.
        rating_a: Next standard size; None past 1,200 A.
        in_place_a: The fuse in the file, else that size; what ``wire`` and ``guards`` belong to.
        wire: Thinnest copper the one in place protects, its terminals as the file has them or as the code takes marked ones; None: two
            leads in parallel, asked.
        guards: Fuse and switch.
        checks: The fuse in the file against both; nothing where the file does not say.
        working: Of the least rating.
        asks: What the file does not say; it is not passed.
    """

    carries_a: float
    least_a: float
    rating_a: float | None
    in_place_a: float | None
    wire: str | None
    guards: tuple[Guard, ...]
    checks: tuple[Check, ...]
    working: Working
    asks: tuple[str, ...]


def inverter_a(inverter: Inverter, battery: Battery) -> float:
    """Current of an inverter at its continuous power from a bank nearly empty [A].

    Source: NEC 690.8(A), input of an inverter that stands alone: rated power at its lowest input voltage (from memory).

    Args:
        inverter: Power and efficiency.
        battery: Kind and nominal voltage.

    Example:
        >>> bank = Battery.model_validate({"kind": "flooded lead-acid", "nominal": "48 V", "capacity": "740 Ah"})
        >>> round(inverter_a(Inverter.model_validate({"power": "4.4 kW", "efficiency": "91 %"}), bank), 1)
        120.4
    """
    low_v = battery.in_series * LOW_CELL_V[battery.kind]
    return inverter.power_w / (_at_full(inverter) * low_v)


def _at_full(inverter: Inverter) -> float:
    if inverter.efficiency_at_full_load is not None:
        return inverter.efficiency_at_full_load
    return inverter.efficiency - LOSES_MORE_AT_FULL


def _full_source(inverter: Inverter) -> Source:
    if inverter.efficiency_at_full_load is not None:
        return OWNER
    usual = source_of(inverter, "efficiency")
    return Source(f"four points under its usual efficiency ({usual})", status="memory")


def main_fuse_of(
    battery: Battery,
    inverter: Inverter,
    charging_a: float,
    full_v: float,
    short: ShortCircuit,
    code: Code,
) -> MainFuse:
    """What the main fuse must carry and break, and whether the one in the file does.

    Source: NEC 690.8 (inverter's input), 110.9, 240.21(H) (from memory).

    Args:
        battery: Its fuse, where the file gives one.
        inverter: Continuous power.
        charging_a: Everything that may charge at once [A].
        full_v: The bank while it is charged, at its highest known [V].
        short: The bank's short circuit.
        code: That holds.
    """
    out_a, low_v = inverter_a(inverter, battery), battery.in_series * LOW_CELL_V[battery.kind]
    carries = max(out_a, charging_a)
    least = 1.25 * carries
    rating = standard_rating_a(least, code)
    steps = (
        Step("inverter for hours", "P", "", inverter.power_w, "W", OWNER),
        Step("its efficiency at full load", "eta", "", _at_full(inverter), "", _full_source(inverter)),
        Step("cells in series", "n", "", battery.in_series, "", cells_source(battery)),
        Step("bank nearly empty", "Vlow", f"{battery.in_series} x {LOW_CELL_V[battery.kind]:g}", low_v, "V", LOW),
        Step("to the inverter", "Iout", f"{inverter.power_w:.0f} / ({_at_full(inverter):.2f} x {low_v:.1f})", out_a, "A", clause("inverter", code)),
        Step("from all that charges", "Iin", "", charging_a, "A", Source("the sum of all chargers", status="ours")),
        Step("main fuse at least", "In,min", f"1.25 x max({out_a:.1f}, {charging_a:.1f})", least, "A", FOR_HOURS[code]),
    )  # fmt: skip
    working = Working("the main fuse's least rating", steps)
    fuse_a = battery.main_fuse_a if battery.main_fuse_a is not None else rating
    wire = None if fuse_a is None else lead_for(fuse_a, code, battery.main_terminals)
    leads = _leads(battery)
    return MainFuse(
        carries, least, rating, fuse_a, wire, _guards(battery, full_v, fuse_a, rating, short, code),
        (*_checks(battery, steps, least, short, code), *_protects(battery, leads, fuse_a, code, least)), working,
        (*_asks(battery, rating, short), *_leads_asks(battery, leads, fuse_a, least, code)),
    )  # fmt: skip


def _guards(
    battery: Battery, full: float, fuse_a: float | None, rating: float | None, short: ShortCircuit, code: Code
) -> tuple[Guard, ...]:  # fmt: skip
    """Fuse and switch, with the wire that goes with this very fuse."""
    size = leads_words(fuse_a, code, battery.main_terminals)
    told = battery.main_leads is not None
    leads = f"The file's leads are {battery.main_leads} copper. " if told else ""
    ask_leads = "" if told else " How thick are the leads, and of what heat is their insulation?"
    whose = ""
    if battery.main_fuse_a is not None and rating != fuse_a:
        by_rule = "past the standard sizes" if rating is None else f"{rating:g} A"
        whose = f"The {fuse_a:g} A are the file's; by the rule {by_rule}. "
    enough = _breaks_enough(short.amps_a, code)
    return (
        Guard(
            "main fuse", "at the battery's own terminal, within a hand's breadth", "main fuse", full, fuse_a, short.amps_a, clause("main fuse", code),
            f"{whose}What lies before it nothing protects. {enough[0].upper()}{enough[1:]}. {leads}Leads it protects: {size}. With strings in parallel each string has its own besides.",
            f"{DC[0].upper()}{DC[1:]}: over {volts_up(full)}; interrupting rating {whole_amps_up(short.amps_a)} or more.{ask_leads}",
        ),
        Guard(
            "battery switch", "beside the main fuse", "battery switch, load-break", full, fuse_a, None, clause("main fuse", code),
            "Opens the bank from everything; array first, then this. Its short-time rating must outlast the fuse.",
            f"{DC[0].upper()}{DC[1:]}; that it may be opened at its full current.",
        ),
    )  # fmt: skip


def _breaks_enough(short_a: float, code: Code) -> str:
    """What kind of fuse breaks so much, by what is sold under the code."""
    if code == "IEC":
        return "fuses of IEC 60269 (gS, aR; gBat to its part 7) are made for it, from memory: read the breaking capacity at direct current and these volts"
    if short_a <= CLASS_T_BREAKS_A:
        return "a class T fuse (UL 248-15) usually breaks 20,000 A of direct current, from memory: read its label"
    return "over the 20,000 A that a class T fuse usually breaks (from memory): one for each string in parallel, or a fuse of a higher class (class J)"


def _checks(
    battery: Battery, steps: tuple[Step, ...], least: float, short: ShortCircuit, code: Code
) -> tuple[Check, ...]:
    found = []
    if battery.main_fuse_a is not None:
        given = Step("main fuse in the file", "In", "", battery.main_fuse_a, "A", OWNER)
        working = Working("the main fuse against what it carries", (*steps, given))
        found.append(
            Check("main fuse", "carries the inverter and all that charges", least, battery.main_fuse_a, "A", share(least, battery.main_fuse_a), FOR_HOURS[code], working)
        )  # fmt: skip
    if battery.main_fuse_breaks_a is not None:
        given = Step("interrupting rating in the file", "I1", "", battery.main_fuse_breaks_a, "A", OWNER)  # fmt: skip
        working = Working(
            "the main fuse against a dead short", (*short.working.steps, given), short.working.notes
        )
        found.append(
            Check("main fuse", "breaks the bank's short circuit", short.amps_a, battery.main_fuse_breaks_a, "A", share(short.amps_a, battery.main_fuse_breaks_a), clause("main fuse", code), working)
        )  # fmt: skip
    return tuple(found)


def _asks(battery: Battery, rating: float | None, short: ShortCircuit) -> tuple[str, ...]:
    asks = []
    size = "over 1,200 A: two banks of leads" if rating is None else f"{rating:g} A by rule"
    if battery.main_fuse_a is None:
        asks.append(f"The file gives no main fuse (battery.main_fuse): not passed; {size}.")
    if battery.main_fuse_breaks_a is None:
        asks.append(
            f"The file gives no interrupting rating of the main fuse (battery.main_fuse_breaks): not passed; {whole_amps_up(short.amps_a)} or more of direct current."
        )
    if not short.by_maker:
        asks.append(
            "Battery's maker: what current does one string give into a dead short (battery.short_circuit)?"
        )
    return tuple(asks)


def _leads(battery: Battery) -> Conductor | None:
    """The leads in the file.

    Raises:
        Wrong: A size no table knows, told at its place in the file.
    """
    if battery.main_leads is None:
        return None
    try:
        return conductor_of(battery.main_leads, "copper")
    except Wrong as wrong:
        raise Wrong(
            [Problem("household.battery", "main_leads", one.given, one.allowed, one.do) for one in wrong.problems]
        ) from wrong  # fmt: skip


def _protects(
    battery: Battery, leads: Conductor | None, fuse_a: float | None, code: Code, least: float
) -> tuple[Check, ...]:
    """The fuse in place against the leads in the file; where it does not say, the file's fuse against one far too large."""
    if leads is None or fuse_a is None:
        return _far_over(battery, least)
    marked = battery.main_terminals
    carried, most = lead_carries_a(leads, code, marked), largest_lead_fuse_a(leads, code, marked)
    own = OWNER if battery.main_fuse_a is not None else FOR_HOURS[code]
    steps = (
        Step(f"{leads.size} copper carries", "Iz", "", carried, "A", lead_source(code)),
        Step("largest fuse that protects it", "In,max", "", most, "A", PROTECTS[code]),
        Step("main fuse", "In", "", fuse_a, "A", own),
    )
    working = Working("the main fuse against its leads", steps, (IN_PIPE,))
    return (Check("main fuse", "protects the leads", fuse_a, most, "A", share(fuse_a, most), PROTECTS[code], working),)  # fmt: skip


def _far_over(battery: Battery, least: float) -> tuple[Check, ...]:
    """A fuse far over its rule over leads nobody has told of is refused: leads bought for the rule's fuse burn before it opens.

    A smaller one is neither passed nor refused: the leads are asked.
    """
    given, most = battery.main_fuse_a, FAR_OVER * least
    if given is None or given <= most:
        return ()
    steps = (
        Step("main fuse at least", "In,min", "", least, "A", TO_CARRY),
        Step("far over it", "In,far", f"{FAR_OVER:g} x {least:.1f}", most, "A", FAR),
        Step("main fuse in the file", "In", "", given, "A", OWNER),
    )
    note = "Write the leads' size (battery.main_leads) and they decide instead."
    working = Working("the main fuse, its leads not told", steps, (note,))
    return (Check("main fuse", LEADS_UNTOLD, given, most, "A", share(given, most), FAR, working),)


def _leads_asks(
    battery: Battery, leads: Conductor | None, fuse_a: float | None, least_a: float, code: Code
) -> tuple[str, ...]:
    """What stands open of the leads: their size, with the size this fuse needs; their terminals, where those decide."""
    if fuse_a is None:
        return ()
    if leads is None:
        times = fuse_a / least_a
        over = "" if times < FAR_OVER else f", {times:.1f} times what it must carry"
        return (
            f"Size of the leads between bank, main fuse and inverter (battery.main_leads): the file does not say, so whether the fuse of {fuse_a:g} A{over} protects them is not "
            f"passed. It needs {leads_words(fuse_a, code, battery.main_terminals)}; thinner ones burn before it opens. And their insulation: of what heat?",
        )  # fmt: skip
    if battery.main_terminals is not None or largest_lead_fuse_a(leads, code, BARE) >= fuse_a:
        return ()
    return (
        f"Terminals of the main leads (battery.main_terminals): not read. Where one bears 60 C only, {leads.size} carries {lead_carries_a(leads, code, BARE):.0f} A there and the fuse of "
        f"{fuse_a:g} A does not protect it: not passed.",
    )  # fmt: skip
