"""How the array's wire lies inside the house, and where the buried kind must end."""

from __future__ import annotations

from polestead.base.show import both_ways
from polestead.base.source import Source
from polestead.wiring.currents import Code
from polestead.wiring.guards.clauses import clause
from polestead.wiring.guards.result import Guard, Rule
from polestead.wiring.guards.rounded import amps_up, volts_up

FROM_V, FROM_A = 30.0, 8.0  # over either; NEC 690.31(D) (seen in a public excerpt)
NAME = "wire in the house"
NOT_INSIDE = Source("NEC", "338.12(B)(1) and (2)", "seen-copy")
WALL_BOX = "wall box"
INSIDE_KINDS = "RHW-2, THWN-2 or XHHW-2"


def inside_rule(code: Code, cold_v: float, bright_a: float, in_house_m: float, method: str) -> Rule:
    """Whether the run must change to another way of wiring where it enters the house.

    Source: NEC 690.31(D), 690.31(G) before 2020, for metal pipe, metal-clad cable or metal boxes over 30 V or 8 A inside (seen
    in public excerpts; letters of the editions from memory); NEC 338.12(B) for USE-2 (seen in a public copy).  Canada and IEC: asked.

    Args:
        code: That holds.
        cold_v: Cold voltage with margin [V].
        bright_a: 1.25 times the short-circuit current of all strings [A].
        in_house_m: How much of the run lies on or in a building [m].
        method: How the rest lies: ``direct burial``, ``PVC conduit``, ``metal conduit``.

    Example:
        >>> [inside_rule("NEC", 190.0, 35.0, m, way).outcome for m, way in ((0.0, "direct burial"), (3.0, "direct burial"), (3.0, "metal conduit"))]
        ['does not reach', 'missing', 'met']
        >>> inside_rule("IEC", 190.0, 35.0, 3.0, "direct burial").outcome
        'ask'
    """
    source = clause(NAME, code)
    if in_house_m <= 0.0:
        return Rule(
            NAME, "does not reach", "Nothing of the run lies on or in a building.",
            "Cable that is marked for burial only ends in a box outside, its riser in guard pipe up to it: is the controller's own box that one?", source,
        )  # fmt: skip
    if code == "IEC":
        return Rule(
            NAME, "ask", "IEC 60364-7-712 wants the wire so laid that a short or a fault to earth is least likely, and leaves the way to the country.",
            "Each live wire in insulation and sheath of its own from the wall on (EN 50618), or armoured cable? In plastic or in earthed metal? Of which class of fire? Before the wall is closed.",
            source,
        )  # fmt: skip
    if code == "Canada":
        return Rule(
            NAME, "ask", "Taken here, from memory, until he answers: inside the house the run lies in metal pipe or armoured cable, and cable marked for burial only ends in a box on the outside wall.",
            "Which ways does section 64 allow inside, from the wall or from the room on; may the buried kind of cable go on inside, by its marking? Before the wall is closed.",
            source,
        )  # fmt: skip
    reach = f"{volts_up(cold_v)} and {amps_up(bright_a)}"
    if cold_v <= FROM_V and bright_a <= FROM_A:
        return Rule(
            NAME, "does not reach", f"{reach} are not over {FROM_V:g} V nor over {FROM_A:g} A. USE-2 alone still ends outside ({NOT_INSIDE}).", "", source,
        )  # fmt: skip
    over = f"{reach}, over {FROM_V:g} V or {FROM_A:g} A: inside the house both live wires lie in metal pipe, metal-clad cable (type MC) or metal boxes, up to the controller."
    if method == "metal conduit":
        return Rule(
            NAME, "met", f"{over} The run lies in metal pipe: that pipe goes on, unbroken and bonded, to the controller's own box. A wire in it marked USE-2 alone may not go inside ({NOT_INSIDE}).",
            f"Is the wire marked {INSIDE_KINDS}, or USE-2 and RHW-2 both?", source,
        )  # fmt: skip
    ends = "plastic pipe ends at the wall" if method == "PVC conduit" else "USE-2 is for the ground: its insulation may feed a fire"  # fmt: skip
    return Rule(
        NAME, "missing",
        f"{over} The file's run is {method}, and {ends} ({NOT_INSIDE}). So it ends in a change-over box on the outside wall; from there {INSIDE_KINDS} in metal pipe, or MC cable, goes on. "
        "A wire marked USE-2 and RHW-2 both may go on uncut, in the metal pipe.",
        "Does he count the outside wall as 'on'? May a cable marked for both go on uncut? Before the wall is closed.", source,
    )  # fmt: skip


def changes_over(code: Code, rule: Rule) -> bool:
    """Whether a box at the wall is taken: where the rule asks for it, and in Canada until it is answered."""
    return rule.outcome == "missing" or (code == "Canada" and rule.outcome == "ask")


def wall_box(code: Code, cold_v: float, in_house_m: float) -> Guard:
    """The box on the outside wall at which the buried wire ends."""
    return Guard(
        WALL_BOX, "on the outside wall, where the riser ends", "change-over box", cold_v, None, None, clause(NAME, code),
        f"The buried wire ends here; from here metal pipe or armoured cable goes {both_ways(in_house_m)} on to the controller. Wet, metal or with its pipes bonded together, terminals for both sizes, its cover in reach for good, "
        "a drain hole at its lowest point, the pipe into the house falling outward and sealed.",
        "Box and terminals for direct current of these volts and for wet places; is a bonding bushing wanted where the metal pipe starts?",
    )  # fmt: skip
