"""What the wire may carry for good by each code, and the largest breaker that still protects it.

A run is as good as its worst place: its terminals, the riser in the sun, the soil or the pipe in it.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil, floor

from polestead.base.check import Check, share
from polestead.base.source import OWNER, Source
from polestead.base.table import table
from polestead.base.working import Step, Working
from polestead.homestead.model import CableRun
from polestead.wiring.by_code import bright_source, steady_source
from polestead.wiring.currents import (
    Code,
    bright_current_a,
    next_rating_a,
    rating_under_a,
    steady_current_a,
)
from polestead.wiring.run.conductor import (
    AMPACITY,
    SURROUNDING,
    Conductor,
    area_mm2,
    share_left,
)

ABOUT = Source("45 C about the cable where it rises in the sun", status="ours")
ABOUT_C = 45.0  # our own assumption: a riser in summer sun; buried soil is cooler
SOIL_C = {"NEC": 30.0, "Canada": 30.0, "IEC": 20.0}  # the tables' own
TERMINALS_C = {"NEC": "75 C", "Canada": "75 C", "IEC": "70 C"}
TERMINALS_IEC_60 = (
    30.0 / 40.0
) ** 0.5  # of what 70 C ones let through, air 30 C: heat goes with the square
PAIR = 2  # the run's own live wires
TERMINALS = Source("NEC", "110.14(C)", "memory")
TERMINALS_CANADA = Source("CSA C22.1", "rule 4-006", "memory")
TERMINALS_IEC = Source("IEC 60364-5-52", "526.4", "memory")
FILL = Source("NEC", "Table 310.15(C)(1)")
FILL_CANADA = Source("CSA C22.1", "Table 5C", "memory")
FILL_IEC = Source("IEC 60364-5-52:2009", "Table B.52.17", "memory")
TABLE_CANADA = Source(
    "CSA C22.1", "Tables 2 and 4, figures borrowed from NEC Table 310.16", "memory"
)
AIR_CANADA = Source("CSA C22.1", "Table 5A, figures borrowed from NEC Table 310.15(B)(1)", "memory")
TABLE_IEC = Source("IEC 60364-5-52:2009", "Tables B.52.2 and B.52.3, two loaded wires", "memory")
AIR_IEC = Source("IEC 60364-5-52:2009", "Table B.52.14", "memory")
SOIL_IEC = Source("IEC 60364-5-52:2009", "Table B.52.15", "memory")
RESISTIVITY_IEC = Source("IEC 60364-5-52:2009", "Table B.52.16", "memory")
DEMAND_IEC = Source("IEC 60364-7-712", "wire for 1.25 x the short-circuit current", "memory")
LEAST = Source("the least of all places along the run", status="ours")
AT_TERMINALS, IN_HEAT, IN_SOIL = (
    "current at the terminals",
    "current in the heat",
    "current in the soil",
)
NEC_COLUMN = {"90 C": 90, "75 C": 75, "70 C": 60, "60 C": 60}  # no 70 C column: the one under it
FROM_1_0_MM2 = 53.0  # 1/0 AWG, from which Canada asks for other figures underground


@dataclass(frozen=True, slots=True)
class Limit:
    """What one place along the run lets the wire carry.

    Attributes:
        name: As its check is named: current at the terminals, in the heat, in the soil.
        carries_a: For good [A].
        for_hours: Held against the current for hours (1.5625 Isc); else against the largest current (1.25 Isc).
        steps: How it was found.
        source: The rule.
    """

    name: str
    carries_a: float
    for_hours: bool
    steps: tuple[Step, ...]
    source: Source


@dataclass(frozen=True, slots=True)
class Ampacity:
    """What a wire may carry in the run as it lies.

    Attributes:
        code: By which code.
        carries_a: The least of the limits.
        governs: The name of the limit that decides.
        limits: All of them.
        largest_breaker_a: That still protects it; 0 where none does.
        working: The sums, the deciding limit last.
        notes: What was taken for granted, and what to ask.
    """

    code: Code
    carries_a: float
    governs: str
    limits: tuple[Limit, ...]
    largest_breaker_a: float
    working: Working
    notes: tuple[str, ...]


def ampacity_of(wire: Conductor, run: CableRun, code: Code, about_c: float = ABOUT_C) -> Ampacity:
    """What the wire carries at its terminals, in the riser and in the ground; the least decides.

    Source: NEC Table 310.16, 310.15(B)(1), 310.15(C)(1), 110.14(C), 240.4(B) and (D); CSA C22.1 tables 2, 4, 5A, 5C by the
    NEC's figures (from memory); IEC 60364-5-52:2009 tables B.52.2, .3, .14 to .17 (from memory).

    Args:
        wire: The conductor.
        run: How it lies.
        code: Which code counts.
        about_c: Air about the riser [C].

    Example:
        >>> run = CableRun.model_validate({"length": "220 ft", "size": "8 AWG", "method": "direct burial", "cover": "24 in"})
        >>> from polestead.wiring.run.conductor import conductor_of
        >>> told = ampacity_of(conductor_of("8 AWG", "copper"), run, "NEC")
        >>> round(told.carries_a, 2), told.governs
        (47.85, 'current in the heat')
    """
    limits = _iec_limits(wire, run, about_c) if code == "IEC" else _us_limits(wire, run, code, about_c)  # fmt: skip
    least = min(limits, key=lambda one: one.carries_a)
    carried = least.carries_a
    # IEC 60364-4-43, 433.1: no breaker over what the wire carries; the NEC lets the next standard size pass
    breaker = rating_under_a(carried) if code == "IEC" else _next_breaker_a(wire, carried)
    said = ", ".join(f"{one.carries_a:.1f}" for one in limits)
    working = Working(
        f"what {wire.size} {wire.metal} carries",
        (
            *(step for one in limits for step in one.steps),
            Step(f"the least: {least.name}", "Iz", f"min({said})", carried, "A", LEAST),
        ),
        _notes(wire, run, code),
    )
    return Ampacity(code, carried, least.name, limits, breaker, working, working.notes)


def wire_checks(
    wire: Conductor,
    run: CableRun,
    code: Code,
    short_circuit_current_a: float,
    in_parallel: int,
    about_c: float = ABOUT_C,
) -> tuple[Check, ...]:
    """The wire at its terminals, in the heat and in the soil, against the current of all strings.

    Source: NEC 690.8(B): 1.5625 Isc at the terminals, 1.25 Isc in its surroundings (seen); Canada the same (from memory);
    IEC 60364-7-712: 1.25 Isc everywhere (from memory).
    """
    told = ampacity_of(wire, run, code, about_c)
    bright = bright_current_a(short_circuit_current_a, in_parallel)
    steady = steady_current_a(short_circuit_current_a, in_parallel)
    largest = (
        Step("short-circuit current of a string", "Isc", "", short_circuit_current_a, "A", OWNER),
        Step("largest current", "Imax", f"1.25 x {in_parallel} x {short_circuit_current_a:g}", bright, "A",
             DEMAND_IEC if code == "IEC" else bright_source(code)),
    )  # fmt: skip
    hours = Step(
        "current for hours", "Isteady", f"1.25 x {bright:g}", steady, "A", steady_source(code)
    )
    return tuple(
        _check(limit, (*largest, hours) if limit.for_hours else largest, told.notes)
        for limit in told.limits
    )


def terminals_ask(
    wire: Conductor, run: CableRun, code: Code, short_circuit_current_a: float, in_parallel: int
) -> str | None:
    """What to read where the file does not say what the terminals bear, and what it would change; None where it says."""
    if run.terminals is not None:
        return None
    cooler = run.model_copy(update={"terminals": "60 C"})
    one = wire_checks(wire, cooler, code, short_circuit_current_a, in_parallel)[0]
    carried = floor(one.capacity)
    then = (
        f"enough for that current, and no breaker over {carried} A then protects it"
        if one.holds
        else "too little"
    )
    return (
        f"Terminals of breaker, switch, combiner and controller (run.terminals): not read: taken as {TERMINALS_C[code]}. Where one bears 60 C only, {wire.size} carries "
        f"{carried} A there against {ceil(10.0 * one.demand - 1e-9) / 10.0:.1f} A: {then}."
    )


def demanded_a(limit: Limit, short_circuit_current_a: float, in_parallel: int) -> float:
    """The current a limit is held against [A]."""
    demand = steady_current_a if limit.for_hours else bright_current_a
    return demand(short_circuit_current_a, in_parallel)


def carries_a(wire: Conductor, about_c: float = ABOUT_C) -> float:
    """What the wire carries for good: the 75 C column, or the 90 C column in its surrounding, whichever is less.

    Source: NEC Table 310.16 with 110.14(C) and Table 310.15(B)(1).
    """
    return min(wire.at_75_a, wire.at_90_a * share_left(about_c, 90))


def largest_breaker_a(wire: Conductor, about_c: float = ABOUT_C) -> float:
    """Largest breaker that still protects the wire: the next rating over its ampacity, less on small wire.

    Source: NEC 240.4(B), next standard size up; 240.4(D), small conductors (seen).
    """
    return _next_breaker_a(wire, carries_a(wire, about_c))


def fill_share(live_wires: int, code: Code) -> float:
    """Share left with so many live wires in one pipe.

    Source: NEC Table 310.15(C)(1) (seen); CSA C22.1 Table 5C and IEC 60364-5-52 Table B.52.17 (from memory).

    Example:
        >>> fill_share(2, "NEC"), fill_share(4, "NEC"), fill_share(4, "IEC"), fill_share(10, "Canada")
        (1.0, 0.8, 0.8, 0.7)
    """
    rows = [row for row in table("wiring", "run/fill") if row["code"] == code]
    for row in rows:
        if live_wires <= int(row["up_to"]):
            return float(row["share"])
    return float(rows[-1]["share"])


def soil_c_of(run: CableRun, code: Code) -> float:
    """Warmest soil about the cable: the owner's, else that of the code's own tables [C]."""
    return SOIL_C[code] if run.soil_c is None else run.soil_c


def _next_breaker_a(wire: Conductor, carried_a: float) -> float:
    if carried_a <= 0.0:
        return 0.0
    for row in table("wiring", "run/small"):
        if (row["size"], row["metal"]) == (wire.rated_as, wire.metal):
            return min(float(row["largest_a"]), next_rating_a(carried_a))
    return next_rating_a(carried_a)


def _us_limits(wire: Conductor, run: CableRun, code: Code, about_c: float) -> tuple[Limit, ...]:
    """NEC; Canada by the same figures until a licensed copy says otherwise."""
    canada = code == "Canada"
    terminals, tables, air, fill = (
        (TERMINALS_CANADA, TABLE_CANADA, AIR_CANADA, FILL_CANADA)
        if canada
        else (TERMINALS, AMPACITY, SURROUNDING, FILL)
    )
    bears = NEC_COLUMN[run.insulation]
    column = min(NEC_COLUMN[run.terminals or TERMINALS_C[code]], bears)
    at_terminals = _column_a(wire, column)
    live = _live_wires(run)
    filled = fill_share(live, code)
    base = _column_a(wire, bears)
    of_table = Step(f"{wire.rated_as} {wire.metal}, {bears} C column", f"I{bears}", "", base, "A", tables)  # fmt: skip
    of_fill = Step(f"share left with {live} live wires together", "kf", "", filled, "", fill)
    limits = [
        Limit(
            AT_TERMINALS, at_terminals, True,
            (Step(f"{wire.rated_as} {wire.metal}, {column} C column", f"I{column}", "", at_terminals, "A", tables),), terminals,
        )
    ]  # fmt: skip
    for name, where, warm_c, said in (
        (IN_HEAT, "air about the riser", about_c, ABOUT),
        (IN_SOIL, "warmest soil", soil_c_of(run, code), air if run.soil_c is None else OWNER),
    ):
        left = share_left(warm_c, bears)
        carried = base * left * filled
        steps = (
            of_table,
            Step(where, "Ta", "", warm_c, "C", said),
            Step("share left in it", "k", "", left, "", air),
            of_fill,
            Step("carried", "I", f"{base:g} x {left:g} x {filled:g}", carried, "A", air),
        )
        limits.append(Limit(name, carried, False, steps, air))
    return tuple(limits)


def _iec_limits(wire: Conductor, run: CableRun, about_c: float) -> tuple[Limit, ...]:
    bears = 90 if run.insulation == "90 C" else 70
    direct = run.method == "direct burial"
    row, cool = _iec_row(wire, bears), _iec_row(wire, 70)
    rated = row["size"]
    live = _live_wires(run)
    filled = fill_share(live, "IEC")
    fill = Step(f"share left with {live} live wires together", "kf", "", filled, "", FILL_IEC)
    # A terminal that bears 70 C takes what warms a 70 C wire so far in air of 30 C; one that bears 60 C less by its rise.
    cooler = TERMINALS_IEC_60 if run.terminals == "60 C" else 1.0
    at_terminals = float(cool["pipe_b2"]) * cooler
    riser, air = float(row["pipe_b2"]), _iec_share("air", about_c, bears)
    soil_c = soil_c_of(run, "IEC")
    column = "soil_d2" if direct else "duct_d1"
    ground, warm = float(row[column]), _iec_share("soil", soil_c, bears)
    dry = resistivity_share(run.soil_resistivity, direct)
    in_heat, in_soil = riser * air * filled, ground * warm * dry * filled
    kind = "XLPE, 90 C" if bears == 90 else "PVC, 70 C"
    way = "D2, in the soil" if direct else "D1, in duct"
    return (
        Limit(
            AT_TERMINALS, at_terminals, False,
            (Step(f"{rated} {wire.metal} at no more than {run.terminals or '70 C'}, B2, air 30 C", "I70", "", at_terminals, "A", TABLE_IEC),),
            TERMINALS_IEC,
        ),
        Limit(
            IN_HEAT, in_heat, False,
            (
                Step(f"{rated} {wire.metal}, {kind}, B2, pipe on a wall", "I", "", riser, "A", TABLE_IEC),
                Step("air about the riser", "Ta", "", about_c, "C", ABOUT),
                Step("share left in it", "k", "", air, "", AIR_IEC),
                fill,
                Step("carried", "I", f"{riser:g} x {air:g} x {filled:g}", in_heat, "A", AIR_IEC),
            ),
            AIR_IEC,
        ),
        Limit(
            IN_SOIL, in_soil, False,
            (
                Step(f"{rated} {wire.metal}, {kind}, {way}", "I", "", ground, "A", TABLE_IEC),
                Step("warmest soil", "Ts", "", soil_c, "C", SOIL_IEC if run.soil_c is None else OWNER),
                Step("share left in it", "k", "", warm, "", SOIL_IEC),
                Step("share left in soil of this resistivity", "kr", f"{run.soil_resistivity:g} K m/W", dry, "", RESISTIVITY_IEC),
                fill,
                Step("carried", "I", f"{ground:g} x {warm:g} x {dry:g} x {filled:g}", in_soil, "A", SOIL_IEC),
            ),
            SOIL_IEC,
        ),
    )  # fmt: skip


def resistivity_share(resistivity: float, direct: bool) -> float:
    """Share left in soil of so much thermal resistivity; 0 past the table's end at 3 K m/W.

    Source: IEC 60364-5-52:2009, Table B.52.16 (from memory).  Between two rows the drier one counts.

    Args:
        resistivity: Of the soil [K m/W].
        direct: Buried without a duct.

    Example:
        >>> resistivity_share(2.5, True), resistivity_share(1.2, False), resistivity_share(3.5, True)
        (1.0, 1.1, 0.0)
    """
    for row in table("wiring", "run/iec_soil"):
        if round(resistivity, 6) <= float(row["up_to"]):
            return float(row["soil_d2" if direct else "duct_d1"])
    return 0.0


def iec_in_air_a(wire: Conductor, bears: int, about_c: float) -> float:
    """What a wire carries in pipe on a wall, in air so warm.

    Source: IEC 60364-5-52:2009, Tables B.52.2 and B.52.3, B2, with B.52.14 (from memory).

    Args:
        wire: Of copper or aluminium, 1.5 mm2 or thicker.
        bears: Its insulation, 70 or 90 [C].
        about_c: The air [C].
    """
    return float(_iec_row(wire, bears)["pipe_b2"]) * _iec_share("air", about_c, bears)


def _iec_share(where: str, about_c: float, bears: int) -> float:
    for row in table("wiring", "run/iec_surrounding"):
        if round(about_c, 6) <= float(row["up_to_c"]):
            return float(row[f"{where}_{bears}"])
    return 0.0


def _iec_row(wire: Conductor, bears: int) -> dict[str, str]:
    """The row of the thickest metric size that is no thicker than the wire."""
    rows = [
        row
        for row in table("wiring", "run/iec")
        if (row["metal"], row["insulation_c"]) == (wire.metal, str(bears))
        and area_mm2(row["size"]) <= wire.area_mm2 * (1.0 + 1e-9)
    ]
    return max(rows, key=lambda row: area_mm2(row["size"]))


def _live_wires(run: CableRun) -> int:
    """The run's own two, and what else lies in its pipe; a cable in the soil lies alone."""
    return PAIR if run.method == "direct burial" else PAIR + run.other_live_wires


def _column_a(wire: Conductor, column: int) -> float:
    return {60: wire.at_60_a, 75: wire.at_75_a, 90: wire.at_90_a}[column]


def _notes(wire: Conductor, run: CableRun, code: Code) -> tuple[str, ...]:
    notes = []
    if run.terminals is None and code != "IEC":
        rule = "rule 4-006" if code == "Canada" else "110.14(C)"
        notes.append(
            f"Terminals are taken as marked 75 C. Unmarked ones up to 100 A, or for 1 AWG and thinner, count as 60 C ({rule}, from "
            "memory): read breaker, switch, combiner and controller, and write run.terminals."
        )
    if run.insulation == "90 C":
        kinds = {
            "NEC": "USE-2 (outside only), RHW-2, THWN-2",
            "Canada": "RWU90, RW90",
            "IEC": "H1Z2Z2-K",
        }
        notes.append(f"Wire with 90 C insulation: {kinds[code]} or another of XLPE.")
    if code == "Canada":
        notes.append(
            "The figures of CSA C22.1 Tables 2, 4 and 5A are borrowed from the NEC's tables. Ask the inspector: which edition, "
            "and does section 64 want 1.25 x 1.25 x the short-circuit current of the wire?"
        )
        if wire.area_mm2 > FROM_1_0_MM2:
            notes.append(
                "For 1/0 AWG and thicker underground, rule 4-004 sends you to other figures (Appendix D): ask the inspector for "
                "them; they may be lower."
            )
    if code == "IEC":
        notes.append(
            "Figures of IEC 60364-5-52 stand from memory; national rules (BS 7671, VDE 0298-4, NF C 15-100) have their own tables. "
            "The electrician confirms the size from his."
        )
        if run.soil_resistivity > 3.0:
            notes.append(
                "Table B.52.16 ends at 3 K m/W: for drier soil ask the cable's maker, or bed the cable in damp-holding fill."
            )
        if not wire.size.endswith("mm2"):
            notes.append(f"{wire.size} is rated here like the next thinner metric size.")
    return tuple(notes)


def _check(limit: Limit, currents: tuple[Step, ...], notes: tuple[str, ...]) -> Check:
    demand, capacity = currents[-1].value, limit.carries_a
    working = Working(f"the wire: {limit.name}", (*currents, *limit.steps), notes)
    return Check("run", limit.name, demand, capacity, "A", share(demand, capacity), limit.source, working)  # fmt: skip
