"""One bond of neutral to earth, and no way back: engine, inverter, transfer switch."""

from __future__ import annotations

from polestead.wiring.currents import Code
from polestead.wiring.guards.clauses import clause
from polestead.wiring.guards.result import Guard


def house_side_guards(engine: bool, code: Code) -> tuple[Guard, ...]:
    """What the alternating side wants, by whether there is an engine.

    Source: NEC 250.30, 702.5, 710.15 (from memory); IEC 60364-5-551 (from memory).

    Args:
        engine: Whether there is one.
        code: That holds.

    Example:
        >>> [one.what for one in house_side_guards(False, "NEC")]
        ['one bond of neutral to earth', 'no way back']
    """
    return (
        _bond(engine, code),
        _no_way_back(engine, code),
        *((_transfer(code),) if engine else ()),
    )


def _bond(engine: bool, code: Code) -> Guard:
    if not engine:
        words = (
            "One bond, in the house's main panel or in the inverter, never in both. None at all, and no breaker trips on a fault to a case; two, and current "
            "flows in the earth wire for good."
        )
        ask = "Inverter's maker: does it bond neutral to earth inside, and how is that turned off?"
    else:
        words = (
            "Three things may bond neutral to earth: the main panel, the inverter (some by a relay that opens when the engine runs), the engine's frame. Exactly one may be closed at any moment. "
            "Usually: bonded in the panel, the inverter's bond off, the engine's neutral floating, the transfer switch leaving the neutral alone. An engine with its bond left in trips its own "
            "fault breaker, or puts current on every earth wire; a switch that moves the neutral needs the bond at each source instead."
        )
        ask = "Engine's maker: is the neutral bonded to the frame or floating, and may the strap be taken out? Inverter's maker: does it bond inside, and when? Test with the power off: one path only."
    return Guard("neutral bond", "main panel of the house", "one bond of neutral to earth", None, None, None, clause("neutral bond", code), words, ask)  # fmt: skip


def _no_way_back(engine: bool, code: Code) -> Guard:
    who = (
        "the engine never feeds the inverter's output, nor the inverter the engine"
        if engine
        else "nothing that makes current is ever plugged into an outlet of the house"
    )
    return Guard(
        "no way back", "between all sources", "no way back", None, None, None, clause("back-feed", code),
        f"One source at a time, by an interlock that cannot be cheated: {who}. No cord with pins at both ends, ever: its pins are live in the hand, and the inverter dies when both meet. "
        "And no line from outside may be joined without the utility.",
        "Inverter's maker: what happens when its output is fed from outside?",
    )  # fmt: skip


def _transfer(code: Code) -> Guard:
    return Guard(
        "transfer switch", "between engine, inverter and main panel", "transfer switch, opens before it closes", None, None, None, clause("back-feed", code),
        "In the inverter or apart from it. The engine's own breaker stays in front of it, for the wire to the house. Earth wire of the engine to the house's earth; a rod at the engine alone replaces nothing.",
        "Volts, amperes, and whether it moves the neutral: that decides where the one bond is.",
    )  # fmt: skip
