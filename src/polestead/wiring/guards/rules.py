"""Arc fault, rapid shutdown, ground fault: whom they reach, whom they let off."""

from __future__ import annotations

from math import inf

from polestead.base.show import both_ways
from polestead.base.source import Source
from polestead.wiring.currents import Code
from polestead.wiring.guards.clauses import clause
from polestead.wiring.guards.result import Rule
from polestead.wiring.guards.rounded import volts_up
from polestead.wiring.guards.shutdown import Shutdown, shutdown_of

ARC_FROM_V = 80.0  # NEC 690.11; CSA 64-216 from memory
GROUND_MOUNT_2023 = Source("NEC", "2023, 690.12(A), exception", "seen-copy")
TWO_CIRCUITS = Source("NEC", "690.41(B), exception", "seen-copy")
NAMED_METHODS = ("direct burial", "metal conduit")


def arc_fault_rule(
    code: Code, cold_v: float, working_v: float, in_house_m: float, method: str, guarded: bool
) -> Rule:
    """Whether the circuit must be watched for arcs.

    Source: NEC 690.11 and its exception for circuits not on or in buildings (from memory); CSA C22.1 64-216 (from memory).

    Args:
        code: That holds.
        cold_v: Cold voltage with margin [V]; decides, being the higher.
        working_v: In full sun [V].
        in_house_m: How much of the run lies on or in a building [m].
        method: How the rest lies: ``direct burial``, ``PVC conduit``, ``metal conduit``.
        guarded: Whether the controller watches for arcs.

    Example:
        >>> arc_fault_rule("NEC", 190.0, 130.0, 3.0, "direct burial", False).outcome
        'missing'
        >>> arc_fault_rule("NEC", 190.0, 130.0, 0.0, "direct burial", False).outcome
        'let off'
    """
    name, source = "arc fault", clause("arc fault", code)
    if code == "IEC":
        words = "IEC 60364-7-712 asks for no arc watch; an arc of direct current does not go out by itself all the same."
        met = "The controller has one all the same." if guarded else "One in the controller (IEC 63027) is worth having."  # fmt: skip
        return Rule(
            name,
            "does not reach",
            f"{words} {met}",
            "Does your own country ask for one?",
            source,
        )
    if cold_v < ARC_FROM_V:
        return Rule(name, "does not reach", f"{cold_v:.1f} V on the coldest dawn is under {ARC_FROM_V:g} V.", "", source)  # fmt: skip
    over = f"{volts_up(cold_v)} on the coldest dawn, from {ARC_FROM_V:g} V on it holds"
    if working_v < ARC_FROM_V:
        over += f" (the working {working_v:.0f} V is under it: an inspector may go by that)"
    if guarded:
        return Rule(
            name, "met", f"{over}; the controller watches for arcs.", "Is it listed for it, on a string of this voltage and current?", source,
        )  # fmt: skip
    if in_house_m > 0.0 and code == "Canada":
        return Rule(
            name, "missing", f"{over}; {both_ways(in_house_m)} of the run lie on or in the house.",
            "A controller with arc-fault protection, or a listed arc-fault device at the entry. Does 64-216 let off any part of it?", source,
        )  # fmt: skip
    if in_house_m > 0.0:
        return Rule(
            name, "missing",
            f"{over}, on or in a building. The run in soil or metal raceway to a pole off the building would be let off, but {both_ways(in_house_m)} of it lie on or in the "
            "house, and the circuit is one.",
            "A controller with arc-fault protection, or a listed arc-fault device at the entry; or end the run in a box on the outside and ask whether that lets it off.",
            source,
        )  # fmt: skip
    if code == "Canada":
        return Rule(
            name, "ask", f"{over}; nothing of it lies on or in a building.", "Does 64-216 let off a buried run to a pole off the building?", source,
        )  # fmt: skip
    if method in NAMED_METHODS:
        return Rule(
            name, "let off", f"{over}, yet nothing of it lies on or in a building, and {method} is one of the ways the exception names.",
            "Which edition holds here? The list of ways has changed.", source,
        )  # fmt: skip
    return Rule(
        name, "ask", f"{over}. Nothing of it lies on or in a building, but the exception names direct burial and metal raceway, not {method}.",
        "Does the inspector take plastic pipe in the soil for buried? If not: an arc-fault device.", source,
    )  # fmt: skip


def shutdown_rule(code: Code, in_house_m: float, away_m: float = inf) -> Rule:
    """Whether the run must fall to a touchable voltage when firemen come.

    Source: the figures of ``shutdown_of``: NEC 690.12 (from memory; the exception of 2023 seen in a public copy); CSA C22.1 64-218
    (the edition of 2015 as a dealer quotes it).

    Args:
        code: That holds.
        in_house_m: How much of the run lies on or in a building [m].
        away_m: How far from the array that part begins, along the run [m].

    Example:
        >>> shutdown_rule("NEC", 0.0).outcome, shutdown_rule("NEC", 3.0).outcome, shutdown_rule("IEC", 3.0).outcome
        ('let off', 'missing', 'does not reach')
        >>> shutdown_rule("Canada", 0.0).outcome, shutdown_rule("Canada", 1.0, away_m=60.0).outcome
        ('ask', 'missing')
    """
    name, source, asked = "rapid shutdown", clause("rapid shutdown", code), shutdown_of(code)
    if asked is None:
        return Rule(
            name, "does not reach", "IEC 60364-7-712 has no such rule: a switch at the entry is common practice.",
            "Has your own country, its fire service or your insurer one?", source,
        )  # fmt: skip
    what = (
        f"a switch at the pole opened from outside the house (a contactor held in by a thin signal wire, so that a cut wire opens it), which must leave under {asked.left} on the run "
        f"within {asked.within_s:g} s: the controller's own capacitors count"
    )
    if code == "Canada":
        return _canada(in_house_m, away_m, what, asked, source)
    return _nec(in_house_m, what, asked, source)


def _canada(in_house_m: float, away_m: float, what: str, asked: Shutdown, source: Source) -> Rule:
    """By the edition of 2015, the only one of which words were seen; nothing of the NEC's exemptions."""
    name, edition = "rapid shutdown", f"The figures are those of the edition of 2015 ({asked.source}); later ones may count otherwise."  # fmt: skip
    if in_house_m <= 0.0:
        return Rule(
            name, "ask", f"Nothing of the run lies on or in a building, and the rule counts wire on or in buildings. {edition}",
            "Which edition holds here, does the outside wall count, and does the pole itself?", source,
        )  # fmt: skip
    if in_house_m <= asked.inside_m and away_m <= (asked.from_array_m or 0.0):
        return Rule(
            name, "ask", f"{both_ways(in_house_m)} on or in the house, no more than {both_ways(asked.inside_m)}, and no farther than {both_ways(asked.from_array_m or 0.0)} from the array. {edition}",
            f"Is it let off by the edition that holds here? If not: {what}.", source,
        )  # fmt: skip
    return Rule(
        name, "missing", f"{both_ways(in_house_m)} of the run lie on or in the house: more than {both_ways(asked.inside_m)}, or farther than {both_ways(asked.from_array_m or 0.0)} from the array. {edition}",
        f"{what[0].upper()}{what[1:]}. Ask the inspector before the wall is closed, and for the edition that holds.", source,
    )  # fmt: skip


def _nec(in_house_m: float, what: str, asked: Shutdown, source: Source) -> Rule:
    name = "rapid shutdown"
    if in_house_m <= 0.0:
        return Rule(
            name, "let off",
            "An array off the building whose run ends on the outside of it: let off in plain words since the edition of 2023; before, an inspector may count the outside wall as 'on'.",
            "Which edition holds here, and does the outside wall count?", GROUND_MOUNT_2023,
        )  # fmt: skip
    sole = "A shed that holds nothing but the system's own equipment is let off (editions of 2020 and 2023)"
    if in_house_m <= asked.inside_m:
        return Rule(
            name, "ask", f"{both_ways(in_house_m)} on or in the house: about the 3 ft inside the entry that the rule leaves alone. {sole}.",
            "Does he count the length on the outside wall? If so: " + what + ".", source,
        )  # fmt: skip
    return Rule(
        name, "missing", f"{both_ways(in_house_m)} of the run lie on or in the house: the rule is for the roof's firemen, yet its words reach the run inside. {sole}.",
        f"{what[0].upper()}{what[1:]}. Ask the inspector before the wall is closed.", source,
    )  # fmt: skip


def ground_fault_rule(code: Code, in_parallel: int, in_house_m: float, guarded: bool) -> Rule:
    """Whether a fault to earth must be found and cut off.

    Source: NEC 690.41(B) and its exception for two source circuits off buildings (seen in a public copy); IEC 60364-7-712.

    Args:
        code: That holds.
        in_parallel: Strings.
        in_house_m: How much of the run lies on or in a building [m].
        guarded: Whether the controller guards against earth faults.

    Example:
        >>> ground_fault_rule("NEC", 2, 3.0, False).outcome, ground_fault_rule("NEC", 2, 0.0, False).outcome
        ('missing', 'let off')
    """
    name, source = "ground fault", clause("ground fault", code)
    if guarded:
        return Rule(
            name, "met", "The controller guards against it.",
            "By a fuse or breaker in the bond of minus to earth? Then that bond is the only one on the direct-current side: no second strap from minus to earth.",
            source,
        )  # fmt: skip
    if code == "IEC":
        return Rule(
            name, "missing", "An array that floats must have its insulation measured each day before it starts and a fault told; one with a pole at earth, a fuse that opens that bond.",
            "Does the controller measure insulation? If not: a watch for insulation (IEC 61557-8) at the array's voltage.", source,
        )  # fmt: skip
    if code == "NEC" and in_parallel <= 2 and in_house_m <= 0.0:
        return Rule(
            name, "let off", f"{in_parallel} string{'s' if in_parallel > 1 else ''}, at most two, and nothing of the circuit on or in a building.",
            "Worth buying all the same: the first fault to earth is silent, the second burns.", TWO_CIRCUITS,
        )  # fmt: skip
    why = "the run goes into the house" if in_house_m > 0.0 else "there are more than two strings"
    let = f" The exception for two circuits off buildings does not let it off: {why}."
    letting = let if code == "NEC" else ""
    return Rule(
        name, "missing", f"Asked for, and the file does not say that the controller has it.{letting}",
        "A controller with ground-fault protection, or a listed device that opens both live wires, for this voltage. Where it bonds minus to earth, that is the only bond.",
        source,
    )  # fmt: skip
