"""Labels with the exact volts and amperes to engrave."""

from __future__ import annotations

from dataclasses import dataclass

from polestead.wiring.currents import Code
from polestead.wiring.guards.clauses import clause
from polestead.wiring.guards.result import Label, Outcome
from polestead.wiring.guards.rounded import amps_up, volts_up
from polestead.wiring.guards.shutdown import shutdown_of

BLANK = "__________"


@dataclass(frozen=True, slots=True)
class Engraved:
    """The figures that go on the labels.

    Attributes:
        code: That holds.
        cold_v: Cold voltage with margin [V].
        bright_a: 1.25 times the short-circuit current of all strings [A].
        working_v, working_a: In full sun.
        breaker_a: Of the run.
        nominal_v, full_v: Of the bank, and while it is charged.
        bank_a: The maker's short-circuit current; None where it is only estimated or not known: an estimate is not engraved.
        limit_a: The controller's charging limit.
        in_house: Whether any of the run lies on or in a building.
        shutdown: Outcome of the rule of rapid shutdown.
        engine: Whether there is one.
        controller: Name of the one the run ends at.
        to_set: What controllers and charger are set to, by name [A].
        charge_a: What all of them together may push into the bank; None where its maker has not said.
    """

    code: Code
    cold_v: float
    bright_a: float
    working_v: float
    working_a: float
    breaker_a: float
    nominal_v: float
    full_v: float
    bank_a: float | None
    limit_a: float
    in_house: bool
    shutdown: Outcome
    engine: bool
    controller: str = ""
    to_set: tuple[tuple[str, float], ...] = ()
    charge_a: float | None = None


def labels_of(one: Engraved) -> tuple[Label, ...]:
    """Every label, from the pole to the house door."""
    most = (
        f"HIGHEST VOLTAGE {volts_up(one.cold_v)} DC",
        f"LARGEST CURRENT {amps_up(one.bright_a)} DC",
        f"WORKING {one.working_v:.1f} V, {one.working_a:.1f} A DC",
    )
    both = "SHOCK HAZARD: OPEN, IT MAY BE LIVE ON BOTH SIDES"
    switch, array = clause("label of the switch", one.code), clause("label of the array", one.code)
    labels = [
        Label("switch at the pole", ("SOLAR SWITCH, DIRECT CURRENT", *most, both), switch),
        Label("switch at the controller", ("SOLAR SWITCH, DIRECT CURRENT", *most, both), switch),
        Label("breaker of the run", (f"RUN FROM THE POLE, {one.breaker_a:g} A DC", *most[:2], "NOT THE MODULES: THEY ARE LIVE IN ANY LIGHT"), array),
        Label("string fuses and PV connectors", ("NEVER OPEN UNDER LOAD", "OPEN THE SWITCH AT THE POLE FIRST"), array),
    ]  # fmt: skip
    if one.in_house:
        labels.append(
            Label("pipe or cable in the house, every 10 ft (3 m), at each wall and bend", (f"SOLAR CIRCUIT, {volts_up(one.cold_v)} DC",), clause("label of the pipe", one.code))
        )  # fmt: skip
    asked = shutdown_of(one.code)
    if asked is not None and one.in_house and one.shutdown != "let off":
        labels.append(
            Label(
                "switch of the rapid shutdown, outside the house", ("RAPID SHUTDOWN OF THE SOLAR CIRCUIT", f"THE RUN FALLS UNDER {asked.left.upper()} WITHIN {asked.within_s:g} SECONDS", "THE ARRAY ON THE POLE STAYS LIVE"),
                clause("label of shutdown", one.code),
            )
        )  # fmt: skip
    battery, mine = clause("label of the battery", one.code), f"controller {one.controller}"
    own = tuple(line for name, amps in one.to_set if name == mine for line in set_to(amps))
    together = () if one.charge_a is None else (f"ALL CHARGING TOGETHER AT MOST {one.charge_a:g} A DC",)  # fmt: skip
    bank = BLANK if one.bank_a is None else f"{one.bank_a:.0f}"
    labels += [
        Label("controller", (f"ARRAY {volts_up(one.cold_v)} DC HIGHEST", f"BATTERY {one.nominal_v:g} V, {one.limit_a:g} A DC HIGHEST", *own, "ARRAY OFF FIRST, ON LAST"), array),
        *(Label(name, (*set_to(amps), *together), battery) for name, amps in one.to_set if name != mine),
        Label(
            "switch and main fuse of the battery",
            (f"BATTERY {one.nominal_v:g} V DC, UP TO {volts_up(one.full_v)} CHARGING", *together, f"SHORT CIRCUIT {bank} A DC", f"WORKED ON {BLANK}", "NO FLAME, NO RINGS, TOOLS INSULATED"),
            battery,
        ),
        Label("outside of the house, at the main switch", _house(one), clause("label of the house", one.code)),
    ]  # fmt: skip
    if one.engine:
        labels.append(
            Label(
                "transfer switch and the engine's inlet", ("ENGINE AND INVERTER NEVER TOGETHER", "NEUTRAL IS BONDED TO EARTH IN ONE PLACE ONLY, AT: " + BLANK),
                clause("neutral bond", one.code),
            )
        )  # fmt: skip
    return tuple(labels)


def set_to(amps: float) -> tuple[str]:
    """The line of what a charging current is set to.

    Example:
        >>> set_to(68.0)
        ('SET TO CHARGE WITH 68 A, NO MORE',)
    """
    return (f"SET TO CHARGE WITH {amps:g} A, NO MORE",)


def _house(one: Engraved) -> tuple[str, ...]:
    sources = (
        "SUN, BATTERY AND ENGINE FEED THIS HOUSE"
        if one.engine
        else "SUN AND BATTERY FEED THIS HOUSE"
    )
    return (
        sources,
        "NO LINE FROM OUTSIDE",
        f"SOLAR SWITCH AT: {BLANK}",
        f"BATTERY SWITCH AT: {BLANK}",
    )
