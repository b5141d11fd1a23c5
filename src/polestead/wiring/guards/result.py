"""What guards a circuit, a rule and its exemption, a label to engrave."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from polestead.base.check import Check
from polestead.base.source import Source
from polestead.base.working import Working
from polestead.wiring.currents import Code

Outcome = Literal["does not reach", "let off", "met", "missing", "ask"]


@dataclass(frozen=True, slots=True)
class Guard:
    """One thing that guards the circuit, with what must stand on its label.

    Attributes:
        key: What other rooms know it by.
        where: Where it sits.
        what: What it is.
        volts_v: Least direct-current rating [V]; None where the guard has none or it is asked.
        rating_a: Its own rating, or for a switch the least [A].
        interrupts_a: Fault current it must break at that voltage [A].
        source: Who asks for it.
        words: Why, and what goes wrong.
        ask: What to ask when it is ordered, or of whom; empty: nothing.
    """

    key: str
    where: str
    what: str
    volts_v: float | None
    rating_a: float | None
    interrupts_a: float | None
    source: Source
    words: str
    ask: str


@dataclass(frozen=True, slots=True)
class Rule:
    """A rule that holds or not by volts and place.

    Attributes:
        name: Of the rule.
        outcome: ``does not reach`` (under its limit), ``let off`` (an exemption), ``met``, ``missing`` (it must be bought), ``ask``.
        words: Why so.
        ask: What to ask; empty: nothing.
        source: The clause.
    """

    name: str
    outcome: Outcome
    words: str
    ask: str
    source: Source


@dataclass(frozen=True, slots=True)
class Label:
    """A label, line by line as it is engraved.

    Attributes:
        where: Where it goes.
        lines: As engraved; the words are our own, an inspector may want his code's.
        source: Who asks for it.
    """

    where: str
    lines: tuple[str, ...]
    source: Source


@dataclass(frozen=True, slots=True)
class Earth:
    """The earth wire that goes with the circuit.

    Attributes:
        least: Least copper size.
        aluminium: Least aluminium size, where it lies in pipe; None where the code here names none.
        check: The one in the file against it; None where the file names none.
        words: Where it comes from, and what it need not be.
        source: The table.
    """

    least: str
    aluminium: str | None
    check: Check | None
    words: str
    source: Source


@dataclass(frozen=True, slots=True)
class Electrode:
    """The electrode at the pole, and why it does not replace the earth wire.

    Attributes:
        guard: What to make and with which wire.
        rod_a: Current of a fault that must go home through a good rod [A].
        rod_v: Volts the pole then stands over the house's earth.
        wire_a: Current of the same fault through the earth wire, as much as the array gives [A].
        wire_v: Volts the pole then stands over the house's earth.
        working: How they were found.
    """

    guard: Guard
    rod_a: float
    rod_v: float
    wire_a: float
    wire_v: float
    working: Working


@dataclass(frozen=True, slots=True)
class Guards:
    """All that guards strings and run.

    Attributes:
        code: That holds at the place.
        guards: From modules to battery, in order.
        rules: Arc fault, rapid shutdown, wire in the house, ground fault.
        earth: The earth wire.
        electrode: At the pole.
        labels: To engrave.
        checks: Ratings in the file against what they must bear.
        fault_at_pole_a, fault_at_controller_a: Most a short circuit may give there [A]; None at the controller where no bank is known.
        workings: Of the fault currents and the surge lead.
        asks: What the file does not say; none of it counts as passed.
    """

    code: Code
    guards: tuple[Guard, ...]
    rules: tuple[Rule, ...]
    earth: Earth
    electrode: Electrode
    labels: tuple[Label, ...]
    checks: tuple[Check, ...]
    fault_at_pole_a: float
    fault_at_controller_a: float | None
    workings: tuple[Working, ...]
    asks: tuple[str, ...]
