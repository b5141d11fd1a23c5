"""Soil over the cable, and the ribbon that warns of it."""

from __future__ import annotations

from dataclasses import dataclass

from polestead.base.check import Check, share
from polestead.base.source import COMMON_PRACTICE, OWNER, Source
from polestead.base.table import table
from polestead.base.working import Step, Working
from polestead.homestead.model import CableRun
from polestead.wiring.currents import Code

COVER = Source("NEC", "Table 300.5")
BY_CODE: dict[Code, Source] = {
    "NEC": COVER,
    "Canada": Source("CSA C22.1", "Table 53", "memory"),
    "IEC": Source(
        "national practice, no depth named by IEC 60364-5-52 or BS 7671, 522.8.10",
        status="common practice",
    ),
}
INCH_M = 0.0254
METRES = {"in": INCH_M, "mm": 0.001}
RIBBON_OVER_M = 12.0 * INCH_M
RIBBON_FROM_M = 18.0 * INCH_M  # of cover: below it 12 in would bring the ribbon into the sod
RIBBON = Source("NEC", "300.5(D)(3), asked for service conductors only; taken over for this run")


@dataclass(frozen=True, slots=True)
class Ribbon:
    """Where the warning ribbon lies.

    Attributes:
        depth_m: Below the finished ground.
        over_m: Over the top of cable or pipe.
        half_way: True where the cover is too thin for 12 in, so that it lies half-way up.
        source: The clause, or our own rule.
    """

    depth_m: float
    over_m: float
    half_way: bool
    source: Source


def least_cover_m(method: str, under: str = "yard", code: Code = "NEC") -> float:
    """Least soil over cable or pipe, from its top to the finished ground.

    Source: NEC Table 300.5, every cell of the rows and columns kept (seen); CSA C22.1, Table 53, up to 750 V (from
    memory; a cable with armour may lie shallower, 150 mm less under a board or concrete over it); IEC: no depth
    in the standard, national practice (common practice, no source).
    Valid for: up to 1000 V AC, 1500 V DC.  Slab: 4 in of concrete without vehicles, 6 in wider than the line on each side.

    Args:
        method: ``direct burial``, ``PVC conduit`` or ``metal conduit``; under NEC also ``guarded 120 V circuit`` and
            ``control wire of 30 V``.
        under: ``yard``, ``own drive``, ``public road`` or ``slab``; under NEC also ``2 in of concrete in the trench``,
            ``building`` and ``airport runway``.
        code: Whose.

    Returns:
        Cover [m].

    Raises:
        ValueError: For a place and method no row has, such as cable without a pipe under a building.

    Example:
        >>> round(least_cover_m("direct burial"), 4), round(least_cover_m("PVC conduit", "own drive"), 4)
        (0.6096, 0.4572)
        >>> least_cover_m("PVC conduit", "yard", "Canada")
        0.45
    """
    for row in table("wiring", "trench/cover"):
        if (row["code"], row["under"], row["method"]) == (code, under, method):
            return float(row["cover"]) * METRES[row["unit"]]
    message = f"no cover stands for {method} under {under} by {code}"
    raise ValueError(message)


def cover_check(run: CableRun, code: Code = "NEC") -> Check:
    """The run's cover, to a tenth of a millimetre, against the table."""
    least = round(least_cover_m(run.method, run.under, code), 4)
    given, source = round(run.cover_m, 4), BY_CODE[code]
    working = Working(
        "soil over the cable",
        (
            Step(f"wanted over {run.method}, {run.under}", "dmin", "", least, "m", source),
            Step("in the file, top of cable or pipe to the finished ground", "d", "", given, "m", OWNER),
        ),
    )  # fmt: skip
    return Check(
        "trench", "soil over the cable", least, given, "m", share(least, given), source, working
    )


def ribbon_of(cover_m: float, code: Code = "NEC") -> Ribbon:
    """How deep the warning ribbon lies: 12 in over the line, or half-way up where the cover is thin.

    Source: NEC 300.5(D)(3) (seen): at least 12 in over service conductors that lie 18 in deep or more; common practice
    takes it over.  Half-way up under less than 18 in of cover: ours.

    Args:
        cover_m: Soil over cable or pipe [m].
        code: Whose; outside the NEC it is common practice.

    Example:
        >>> round(ribbon_of(0.6096).depth_m, 4), ribbon_of(0.2).half_way
        (0.3048, True)
    """
    if round(cover_m, 4) >= round(RIBBON_FROM_M, 4):
        return Ribbon(
            cover_m - RIBBON_OVER_M,
            RIBBON_OVER_M,
            False,
            RIBBON if code == "NEC" else COMMON_PRACTICE,
        )
    half = cover_m / 2.0
    return Ribbon(half, half, True, Source("half-way up where the cover is thin", status="ours"))


def ribbon_words(cover_m: float) -> str:
    """Where the ribbon lies, in words.

    Example:
        >>> ribbon_words(0.6096), ribbon_words(0.15)
        ('12 in (300 mm) over the line', 'half-way up')
    """
    return "half-way up" if ribbon_of(cover_m).half_way else "12 in (300 mm) over the line"


def cover_notes(
    run: CableRun, code: Code, frost_depth_m: float, frost_soil: str
) -> tuple[str, ...]:
    """What stands beside the cover: what the code leaves open, and the frost.

    Args:
        run: The run section.
        code: Whose.
        frost_depth_m: Frost depth of the place [m].
        frost_soil: ``silt or clay`` where frost lifts it.
    """
    return (*_code_notes(run, code), *_frost_notes(run, code, frost_depth_m, frost_soil))


def _code_notes(run: CableRun, code: Code) -> tuple[str, ...]:
    notes = []
    if code == "NEC" and run.under == "slab":
        notes.append(
            "The slab counts only if it is 4 in of concrete outdoors, carries no vehicles, and reaches 6 in past the line "
            "on both sides."
        )
    if code == "NEC" and run.under == "own drive":
        notes.append(
            "Own drive: of a one- or two-family dwelling, used for nothing else. A field track for trucks is a road: 24 in."
        )
    if code == "Canada":
        notes.append(
            "Table 53 is told from memory. Ask the inspector, and whether a board or concrete over the line, or an armoured "
            "cable, lets it lie shallower; under a slab the yard's depth is taken."
        )
    if code == "IEC":
        notes.append(
            "Neither IEC 60364-5-52 nor BS 7671 names a depth: it must be enough for whatever may be done to the ground. "
            "The depth here is common practice; ask the electrician what your country wants, and go deeper where a plough or "
            "a subsoiler may come. Cable straight in the soil is armoured or has an earthed metal sheath (BS 7671, 522.8.10, from memory)."
        )
    if run.method == "direct burial":
        notes.append(
            "Cable straight in the soil must be marked for it; it is one try only, a pipe lets you pull again."
        )
    return tuple(notes)


def _frost_notes(
    run: CableRun, code: Code, frost_depth_m: float, frost_soil: str
) -> tuple[str, ...]:
    if frost_depth_m <= run.cover_m:
        return ()
    if frost_soil == "silt or clay":
        return (
            "Frost goes deeper than the line and lifts this soil: the line rises and falls with it while pole and wall stand "
            "still. Leave a curve of spare cable at each end, and a slip riser on a pipe"
            f"{' (NEC 300.5(J), from memory)' if code == 'NEC' else ''}.",
        )
    return (
        "Frost goes deeper than the line; soil that drains lifts little, yet a pipe that holds water freezes: let it fall to "
        "a drain, and seal both ends.",
    )


LOW_VOLTAGE: dict[Code, Source] = {
    "NEC": Source("NEC", "Table 300.5, column 5; 300.3(C)", "memory"),
    "Canada": Source("CSA C22.1", "section 16, class 2 circuits: ask", "memory"),
    "IEC": Source("IEC 60364-5-52", "528.1, circuits of other voltages", "memory"),
}
_LOW_VOLTAGE_NOTE = (
    "The tilt drive's own low-voltage wire may lie in the same trench, in a pipe of its own, as deep as the run. In one pipe with the run it "
    "would need insulation for the run's full voltage."
)


def low_voltage_note(code: Code) -> str:
    """How the tilt drive's wire may share the trench."""
    six_in = " The 6 in of column 5 of Table 300.5 are for irrigation and garden lights of 30 V."
    return _LOW_VOLTAGE_NOTE + (six_in if code == "NEC" else "")
