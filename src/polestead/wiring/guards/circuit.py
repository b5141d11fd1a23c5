"""The guards of the circuit from the modules to the battery's leads, and what the file says of them."""

from __future__ import annotations

from dataclasses import dataclass

from polestead.base.check import Check, share
from polestead.base.source import OWNER, Source
from polestead.base.working import Step, Working
from polestead.wiring.currents import Code, standard_rating_a
from polestead.wiring.guards.clauses import clause
from polestead.wiring.guards.leads import leads_words
from polestead.wiring.guards.result import Guard
from polestead.wiring.guards.rounded import amps_up, volts_up, whole_amps_up

FUSES_FROM = 3  # strings, NEC 690.9
DC = "rated for direct current, its volts printed beside DC (an AC rating does not count)"
COLD_MARGIN = Source("cold voltage with margin", status="ours")


@dataclass(frozen=True, slots=True)
class Circuit:
    """What the guards of a circuit are chosen by.

    Attributes:
        code: That holds.
        cold_v: Cold voltage with margin [V].
        bright_a: 1.25 times the short-circuit current of all strings [A].
        fuse_wanted: Whether each string wants a fuse.
        back_feed_a: What all other strings on the controller push into one [A].
        string_fuse_a: Size of the string fuses; None where they are asked.
        breaker_a: Of the run, in the file or by rule [A].
        bears_v: Direct voltage on the breaker's label; None: the file does not say.
        breaks_a: Its interrupting rating; None: the file does not say.
        pole_a: Most a short circuit gives at the pole [A].
        house_a: The same at the controller [A]; None where no bank is known.
        full_v: The bank while it is charged, at its highest known [V].
        limit_a: The controller's largest charging current [A].
        bank_a: The bank's short-circuit current [A]; None where no bank is known.
        terminals: What breaker, switch and controller are marked with; None: nobody has read them.
    """

    code: Code
    cold_v: float
    bright_a: float
    fuse_wanted: bool
    back_feed_a: float
    string_fuse_a: float | None
    breaker_a: float
    bears_v: float | None
    breaks_a: float | None
    pole_a: float
    house_a: float | None
    full_v: float
    limit_a: float
    bank_a: float | None
    terminals: str | None = None


def circuit_guards(one: Circuit) -> tuple[Guard, ...]:
    """What opens and trips, from the modules to the battery's leads."""
    fuses = (_string_fuses(one),) if one.fuse_wanted else ()
    return (
        *fuses,
        _switch_at_pole(one),
        _switch_at_controller(one),
        _breaker(one),
        _to_battery(one),
    )


def circuit_checks(one: Circuit) -> tuple[Check, ...]:
    """The breaker's label in the file against cold voltage and short circuit; nothing where the file does not say."""
    found = []
    steps: tuple[Step, ...]
    if one.bears_v is not None:
        steps = (
            Step("coldest dawn with margin", "Vmax", "", one.cold_v, "V", COLD_MARGIN),
            Step("on the breaker's label, direct current", "Vdc", "", one.bears_v, "V", OWNER),
        )
        found.append(_check("bears the cold voltage", one.cold_v, one.bears_v, "V", clause("breaker", one.code), steps))  # fmt: skip
    if one.breaks_a is not None:
        wanted = one.pole_a if one.house_a is None else max(one.pole_a, one.house_a)
        asked = clause("breaker", one.code)
        steps = (
            Step("short circuit at the pole", "Ik,pole", "", one.pole_a, "A", asked),
            Step("the larger, were it at the controller", "Ik", "", wanted, "A", asked),
            Step("on the breaker's label, direct current", "Icu", "", one.breaks_a, "A", OWNER),
        )
        found.append(_check("breaks a short circuit", wanted, one.breaks_a, "A", asked, steps))
    return tuple(found)


def _check(
    name: str, demand: float, capacity: float, unit: str, source: Source, steps: tuple[Step, ...]
) -> Check:
    working = Working(f"the breaker {name}", steps)
    return Check("breaker", name, demand, capacity, unit, share(demand, capacity), source, working)


def _string_fuses(one: Circuit) -> Guard:
    return Guard(
        "string fuse", "in the box on the frame, one for each string, before they join", "string fuse", one.cold_v, one.string_fuse_a,
        max(one.back_feed_a, one.pole_a), clause("string fuse", one.code),
        f"A short in one string is fed by all the others on the controller with up to {whole_amps_up(one.back_feed_a)}, and back through the run by more. "
        "They sit where the strings join, for the cord behind them carries all strings at once. In holders that are opened only when no current flows.",
        f"Photovoltaic fuse (gPV, UL 248-19), {DC}; no larger than the series fuse on the module's label.",
    )  # fmt: skip


def _switch_at_pole(one: Circuit) -> Guard:
    return Guard(
        "pole switch", "at the pole, in reach and in sight of the array", "load-break switch, both live wires", one.cold_v, one.bright_a, None,
        clause("switch", one.code),
        "So that whoever works on the run can open it there, in its own box with the arrestor. The modules' side, up to the frame, stays live in any light. Lockable open.",
        f"A load-break switch, {DC}; for at least {amps_up(one.bright_a)}; which end is the array's must be marked if it matters.",
    )  # fmt: skip


def _breaker(one: Circuit) -> Guard:
    bears = "" if one.bears_v is None else f" The file gives {one.bears_v:g} V."
    breaks = "" if one.breaks_a is None else f" The file gives {one.breaks_a:g} A."
    ways = (
        f"Two ways a short is fed: the array gives no more than {amps_up(one.bright_a)} and cannot trip this breaker; the battery, through a controller that has failed, "
        + (
            f"gives up to {whole_amps_up(one.house_a)}"
            if one.house_a is not None
            else "gives what the bank gives"
        )
        + f" where the breaker sits at the controller, {whole_amps_up(one.pole_a)} through the whole run where it sits at the pole. It is there for the second."
    )
    return Guard(
        "run breaker", "on the run, at the controller's end", "breaker, both live wires", one.cold_v, one.breaker_a, one.house_a,
        clause("breaker", one.code),
        f"{ways} A polarised direct-current breaker burns when current comes from its wrong end, and here it may come from both: one marked for both directions "
        "(no plus and minus, no line and load on it) only.",
        f"{DC[0].upper()}{DC[1:]}.{bears} Its interrupting rating at that voltage"
        + (f": at least {whole_amps_up(one.house_a)}.{breaks}" if one.house_a is not None else f": over the bank's short circuit.{breaks}")
        + " May the current come from either end? Poles wired in series as its maker draws it?",
    )  # fmt: skip


def _switch_at_controller(one: Circuit) -> Guard:
    return Guard(
        "house switch", "in sight of the controller, where the run comes in", "load-break switch, both live wires", one.cold_v, one.bright_a, None,
        clause("switch", one.code),
        "Opens the array before anybody opens the battery: array off first, on last. The breaker may be this switch where it is listed as one and can be reached.",
        f"A load-break switch, {DC}; for at least {amps_up(one.bright_a)}; lockable open, its place agreed with the inspector.",
    )  # fmt: skip


def _to_battery(one: Circuit) -> Guard:
    wanted = 1.25 * one.limit_a
    rating, full = standard_rating_a(wanted, one.code), one.full_v
    size = leads_words(rating, one.code, one.terminals)
    return Guard(
        "controller breaker", "between controller and battery, near the battery", "breaker or fuse", full, rating, one.bank_a,
        clause("battery breaker", one.code),
        f"The controller's limit {one.limit_a:g} A x 1.25 = {wanted:g} A, the next standard size. It protects the leads against the battery, so it stands at the battery's end; "
        f"its wire carries at least its rating: {size}.",
        f"{DC[0].upper()}{DC[1:]}: over {volts_up(full)}, the bank at its highest while it is charged. Interrupting rating over the bank's short circuit. What size does the controller's own maker name?",
    )  # fmt: skip
