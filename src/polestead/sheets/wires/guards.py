"""What guards the circuit, and the labels, as text."""

from __future__ import annotations

from collections.abc import Iterator

from polestead.base.check import Check
from polestead.sheets.ratings import down, guard_figures, up
from polestead.sheets.sentences import figures_of, use_of
from polestead.sheets.text import heading, say
from polestead.wiring.bank.cold_charge import COLD_CHECK
from polestead.wiring.guards.result import Guard, Guards
from polestead.wiring.guards.rounded import amps_down, amps_up, volts_up

OUTCOME = {
    "does not reach": "does not reach this circuit",
    "let off": "let off",
    "met": "met",
    "missing": "asked for, and the file has none",
    "ask": "ask the inspector",
}


def guards_lines(guards: Guards) -> Iterator[str]:
    """Breakers, switches, rules, surge, earth; what does not hold and what the file does not say."""
    yield heading(f"What guards strings and run ({guards.code})")
    yield say(
        "An arc of alternating current dies at every zero, a hundred times a second; one of direct current does not: a breaker, switch or fuse without volts DC on its label "
        "never passes here."
    )
    for guard in guards.guards:
        yield from guard_lines(guard)
    yield heading("Rules that hold or not")
    for rule in guards.rules:
        yield say(f"{rule.name}: {OUTCOME[rule.outcome]}. {rule.words}", "  ", "    ")
        if rule.ask:
            yield say(f"What to do: {rule.ask}", "    ", "      ")
        yield say(f"by {rule.source}", "    ")
    yield heading("Earth wire")
    earth, electrode = guards.earth, guards.electrode
    aluminium = "" if earth.aluminium is None else f", or {earth.aluminium} aluminium in pipe"
    yield say(f"At least {earth.least} copper{aluminium}, all the way with the run. {earth.words}")
    yield say(f"by {earth.source}", "    ")
    yield say(
        f"Why a rod does not do: a live wire on the frame would send {amps_down(electrode.rod_a)} home through a good rod, and the frame would stand "
        f"{volts_up(electrode.rod_v)} over the house's earth; through the earth wire {amps_up(electrode.wire_a)}, and it stands {up(electrode.wire_v, 1)} V over it. "
        f"{electrode.working.notes[0]}"
    )
    for check in guards.checks:
        mark = "" if check.holds else "NO: "
        yield say(
            f"{mark}{check.part} {check.name}: {held(check)}.",
            "  ",
            "    ",
        )
    if guards.asks:
        yield heading("Not passed, because the file does not say")
        for one in guards.asks:
            yield say(one, "  ? ", "    ")


def guard_lines(guard: Guard) -> Iterator[str]:
    """One guard: where, what, the figures of its label, why, what to ask."""
    yield say(f"{guard.what}, {guard.where}", "  ", "    ")
    figures = guard_figures(guard, "feet")
    if figures:
        yield say(", ".join(figures), "      ")
    yield say(guard.words, "    ")
    if guard.ask:
        yield say(f"Ask: {guard.ask}", "    ", "      ")
    yield say(f"by {guard.source}", "    ")


def held(check: Check) -> str:
    """Demand up, capacity down: neither is told kinder than it is; what gives, and volts, as everywhere.

    Example:
        >>> from polestead.base.source import COMMON_PRACTICE
        >>> from polestead.base.working import Step, Working
        >>> working = Working("x", (Step("x", "", "", 1.0, "A", COMMON_PRACTICE),))
        >>> held(Check("breaker", "x", 43.42, 47.85, "A", 0.9, COMMON_PRACTICE, working))
        '43.5 of 47.8 A, uses 90 of 100'
    """
    if not check.holds or check.unit == "V":
        return figures_of(check)
    if check.name == COLD_CHECK and check.demand <= 0.0:
        return "holds without a heater"
    whole = check.demand >= 1000.0 or check.capacity >= 1000.0
    digits = 0 if whole else 1
    told = f"{up(check.demand, digits)} of {down(check.capacity, digits)} {check.unit}"
    return f"{told}, {use_of(check.use)}"


def labels_lines(guards: Guards) -> Iterator[str]:
    """Every label, line by line as it is engraved."""
    yield heading("Labels to engrave")
    for label in guards.labels:
        yield say(f"{label.where} ({label.source})", "  ", "    ")
        for line in label.lines:
            yield say(f"| {line}", "      ", "      |   ")
    yield say(
        "Volts are the coldest dawn with margin, amperes 1.25 times the short circuit of all strings, both rounded up. Engraved or etched, not written: sun and "
        "frost take ink. The words are ours; where the inspector wants those of his code, put these figures into them. An estimate is never engraved: the line stays blank until "
        "the maker answers."
    )
