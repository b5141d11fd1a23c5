"""The pipe: what lies in it, the smallest that holds it, the one in the file."""

from __future__ import annotations

import re
from dataclasses import dataclass
from math import pi, sqrt
from typing import Literal

from polestead.base.check import Check, share
from polestead.base.problem import Problem, Wrong
from polestead.base.source import Source
from polestead.base.table import table
from polestead.base.working import Step, Working
from polestead.homestead.model import CableRun
from polestead.wiring.by_code import borrowed
from polestead.wiring.currents import Code
from polestead.wiring.trench.burial import INCH_M

FILL = Source("NEC", "Ch. 9 Table 1")
FILL_BY_CODE: dict[Code, Source] = {
    "NEC": FILL,
    "Canada": Source("CSA C22.1", "Table 8", "memory"),
    "IEC": Source(
        "figures borrowed from NEC, Ch. 9 Table 1: IEC 60364-5-52 names none", status="ours"
    ),
}
AREAS = Source("NEC", "Ch. 9 Table 5", "seen-copy")
AREAS_METRIC = Source("EN 50618", "largest outside diameter", "memory")
JAM = Source("NEC", "Ch. 9 Table 1, note on jamming", "memory")
JAMS_FROM, JAMS_TO = 2.8, 3.2
IN2 = INCH_M * INCH_M
Kind = Literal["PVC schedule 40", "PVC schedule 80", "rigid metal", "duct"]
Insulated = Literal["THWN-2", "XHHW-2", "RHW-2", "H1Z2Z2-K"]
DESIGNATORS = "designator"  # CSA's and the NEC's metric names of the same pipes: 21 is 3/4 in

_INCHES = re.compile(r'^(?P<trade>\d+(?:[- ]\d/[248])?|\d/[248]|\d+\.\d+)\s*(?:in|inch|inches|")$')
_MM = re.compile(r"^(?P<mm>\d{2,3})\s*mm$")


@dataclass(frozen=True, slots=True)
class Pipe:
    """One size of pipe.

    Attributes:
        kind: Schedule, metal or duct.
        trade: Its name with the unit: ``1-1/4 in``, ``50 mm``.
        outside_m, inside_m: Diameters; the inside one from the area where the table gives that.
        area_m2: Inside, all of it.
        sweep_m: Least radius of a bend, to the pipe's middle.
        source: Where the figures come from.
    """

    kind: Kind
    trade: str
    outside_m: float
    inside_m: float
    area_m2: float
    sweep_m: float
    source: str


@dataclass(frozen=True, slots=True)
class InPipe:
    """Wires of one kind in the pipe."""

    what: str
    size: str
    count: int
    outside_m: float
    area_m2: float  # of one


@dataclass(frozen=True, slots=True)
class Conduit:
    """What lies in the pipe and whether it fits.

    Attributes:
        pipe: The one in the file, or the smallest that holds the wires; level in the ground.
        riser: Its risers, of the same trade size: schedule 80 where the pipe is of PVC, so that the smaller bore decides.
        given: True where the file names it.
        smallest: The smallest that holds the wires.
        roomy: One size larger than the smallest, to leave room to change one's mind; None past the table's end.
        insulated: Insulation the areas are for.
        wires: What lies in it.
        count: All wires, earth included.
        wires_m2: Their area together.
        fill: Share of the riser they take, the narrowest place.
        fill_allowed: Share they may take.
        jam_ratio: Inside diameter over a wire's, told for three wires; None else.  Where they differ, over a third of all
            three laid side by side: it is side by side across the pipe that they wedge.
        check: Fill against what is allowed.
        notes: Cautions.
    """

    pipe: Pipe
    riser: Pipe
    given: bool
    smallest: Pipe
    roomy: Pipe | None
    insulated: Insulated
    wires: tuple[InPipe, ...]
    count: int
    wires_m2: float
    fill: float
    fill_allowed: float
    jam_ratio: float | None
    check: Check
    notes: tuple[str, ...]

    @property
    def insulated_words(self) -> str:
        """The insulation as its areas are told."""
        return insulated_words(self.insulated)


def insulated_words(insulated: Insulated) -> str:
    """The insulation whose areas count.

    Example:
        >>> insulated_words("RHW-2"), insulated_words("THWN-2")
        ('RHW-2 without outer covering', 'THWN-2')
    """
    return f"{insulated} without outer covering" if insulated == "RHW-2" else insulated


def fill_allowed(count: int) -> float:
    """Share of the pipe that so many wires may take.

    Source: NEC Ch. 9 Table 1 (seen).

    Example:
        >>> [fill_allowed(n) for n in (1, 2, 3, 9)]
        [0.53, 0.31, 0.4, 0.4]
    """
    return {1: 0.53, 2: 0.31}.get(count, 0.40)


def insulated_m2(size: str, insulated: Insulated) -> float:
    """Area of one wire with its insulation.

    Source: NEC Ch. 9 Table 5: THWN-2 (seen), XHHW-2 and RHW-2 without outer covering (seen in public copies), the latter
    standing for the double-marked USE-2, which the table does not have; EN 50618, largest diameter, for sheathed H1Z2Z2-K
    (from memory).  Aluminium of the same stranding counts the same; compact aluminium is thinner.

    Args:
        size: As the tables write it.
        insulated: Insulation.

    Raises:
        Wrong: A size the table does not have.

    Example:
        >>> round(insulated_m2("4 AWG", "THWN-2") / 0.0254**2, 4)
        0.0824
    """
    for row in table("wiring", "trench/insulated"):
        if (row["kind"], row["size"]) == (insulated, size):
            if row["area_in2"]:
                return float(row["area_in2"]) * IN2
            return pi / 4.0 * (float(row["outside_mm"]) / 1000.0) ** 2
    known = ", ".join(
        r["size"] for r in table("wiring", "trench/insulated") if r["kind"] == insulated
    )
    do = "Take a size that stands there, or ask the maker for the wire's outside diameter."
    raise Wrong([Problem("run", "size", f"{size} in {insulated}", known, do)])


def pipes(kind: Kind) -> tuple[Pipe, ...]:
    """Sizes of one kind, thinnest first.

    Source: NEC Ch. 9 Table 4 and Table 2; IEC 61386-24 for ducts (from memory); see the table.

    Example:
        >>> [pipe.trade for pipe in pipes("duct")][:3]
        ['40 mm', '50 mm', '63 mm']
    """
    return tuple(_pipe(row) for row in table("wiring", "trench/pipes") if row["kind"] == kind)


def kind_of(run: CableRun, code: Code) -> Kind:
    """Which table the run's pipe stands in; plastic is a duct under IEC, or where the file names millimetres (Canada: designators)."""
    if run.method == "metal conduit":
        return "rigid metal"
    named = None if run.conduit is None else _plain(run.conduit)
    in_mm = named is not None and _MM.match(named) is not None
    as_duct = {"NEC": in_mm, "Canada": False, "IEC": named is None or in_mm}
    if as_duct[code]:
        return "duct"
    return "PVC schedule 40" if run.conduit_wall == "schedule 40" else "PVC schedule 80"


def pipe_named(written: str, kind: Kind) -> Pipe:
    """The pipe the owner named.

    Args:
        written: Trade size in his words: ``1-1/4 in``, ``1.25 in``, ``50 mm``, or a metric designator as ``35 mm``.
        kind: Which table.

    Raises:
        Wrong: A size that is not sold; the problem names those that are.

    Example:
        >>> pipe_named("1 1/4 in", "PVC schedule 40").trade, pipe_named("35 mm", "rigid metal").trade
        ('1-1/4 in', '1-1/4 in')
    """
    text = _plain(written)
    inches, metric = _INCHES.match(text), _MM.match(text)
    for row in table("wiring", "trench/pipes"):
        if row["kind"] != kind:
            continue
        by_mm = row["trade"] if kind == "duct" else row[DESIGNATORS]
        if metric is not None and metric["mm"] == by_mm:
            return _pipe(row)
        if (
            inches is not None
            and kind != "duct"
            and _number(inches["trade"]) == _number(row["trade"])
        ):
            return _pipe(row)
    raise Wrong([_no_such_pipe(written, kind)])  # fmt: skip


def conduit_of(
    run: CableRun, earth_size: str, code: Code = "NEC", insulated: Insulated | None = None
) -> Conduit:
    """What lies in the run's pipe, the smallest that holds it, and the one in the file or else the smallest in which they do not jam.

    The risers decide: they are of the same trade size and, of PVC, of schedule 80, whose bore is smaller.
    Two live wires, one insulated earth wire, and the file's other live wires, which are taken to be as thick as the run's
    (ours).  Where the insulation is not named the thickest of the table is taken (ours), so that the pipe holds any.

    Args:
        run: The run section.
        earth_size: Of the earth wire.
        code: Whose fill rule.
        insulated: Insulation, None for the thickest.

    Raises:
        Wrong: A pipe or a size no table knows; wires that no pipe of the table holds.
    """
    kind, metric = kind_of(run, code), run.size.endswith("mm2")
    first: Insulated = insulated or ("H1Z2Z2-K" if metric else "RHW-2")
    wires = _wires(run, earth_size, first)
    count = sum(wire.count for wire in wires)
    wires_m2 = sum(wire.count * wire.area_m2 for wire in wires)
    allowed = fill_allowed(count)
    known = pipes(kind)
    held = [pipe for pipe in known if wires_m2 <= allowed * riser_of(pipe).area_m2]
    if not held:
        raise Wrong([_too_many(count, known[-1])])
    given = run.conduit is not None
    jams = {pipe.trade: _jam_ratio(pipe, wires) for pipe in known}
    clear = [pipe for pipe in held if not _wedges(jams[pipe.trade])]
    pipe = pipe_named(run.conduit, kind) if run.conduit is not None else (clear or held)[0]
    riser = riser_of(pipe)
    jam = jams[pipe.trade]
    return Conduit(
        pipe=pipe,
        riser=riser,
        given=given,
        smallest=held[0],
        roomy=held[1] if len(held) > 1 else None,
        insulated=first,
        wires=wires,
        count=count,
        wires_m2=wires_m2,
        fill=wires_m2 / riser.area_m2,
        fill_allowed=allowed,
        jam_ratio=jam,
        check=_check(riser, wires, count, wires_m2, code),
        notes=(
            *_passed_over(held[0], pipe, given, jams),
            *_notes(pipe, first, insulated is None, jam, code),
        ),
    )


def _jam_ratio(pipe: Pipe, wires: tuple[InPipe, ...]) -> float | None:
    """Inside of the pipe over a wire's outside, told for three wires."""
    if sum(wire.count for wire in wires) != 3:
        return None
    return 3.0 * pipe.inside_m / sum(wire.count * wire.outside_m for wire in wires)


def _wedges(jam: float | None) -> bool:
    return jam is not None and JAMS_FROM <= jam <= JAMS_TO


def _passed_over(
    smallest: Pipe, pipe: Pipe, given: bool, jams: dict[str, float | None]
) -> tuple[str, ...]:
    """Why the smallest that holds them is not taken."""
    jam = jams[smallest.trade]
    if given or pipe == smallest or jam is None:
        return ()
    return (
        f"{smallest.trade} {smallest.kind} would hold the three wires, but its inside is {jam:.2f} times a wire, and from 2.8 to 3.2 the middle "
        "one wedges in a bend: the next size is taken.",
    )


def riser_of(pipe: Pipe) -> Pipe:
    """The riser that goes on from a pipe in the ground: PVC as schedule 80, for it may be hit.

    Source: NEC 300.5(D)(4) (seen in a public copy), 352.10(F), since 2023 352.10(K) (seen in public copies); ours elsewhere.

    Example:
        >>> riser_of(pipe_named("1 in", "PVC schedule 40")).kind
        'PVC schedule 80'
    """
    if pipe.kind != "PVC schedule 40":
        return pipe
    return next(one for one in pipes("PVC schedule 80") if one.trade == pipe.trade)


IN_THE_SUN = "steel, or plastic made for sun and knocks"


def riser_words(riser: Pipe | None) -> str:
    """A riser as it is bought; a duct for the ground bears neither sun nor knocks.

    Example:
        >>> riser_words(pipe_named("1 in", "PVC schedule 80")), riser_words(None)
        ('1 in PVC schedule 80', 'steel, or plastic made for sun and knocks')
    """
    if riser is None:
        return IN_THE_SUN
    return f"{IN_THE_SUN}, {riser.trade} or wider" if riser.kind == "duct" else f"{riser.trade} {riser.kind}"  # fmt: skip


def guard_pipe_of(run: CableRun, earth_size: str, insulated: Insulated | None = None) -> Pipe:
    """The smallest schedule 80 pipe that guards the risers of wires buried without a pipe.

    Args:
        run: The run section.
        earth_size: Of the earth wire.
        insulated: Insulation, None for the thickest.

    Raises:
        Wrong: A size no table knows; wires that no pipe of the table holds.

    Example:
        >>> run = CableRun.model_validate({"length": "220 ft", "size": "4 AWG", "method": "direct burial", "cover": "24 in"})
        >>> guard_pipe_of(run, "10 AWG").trade
        '1 in'
    """
    first: Insulated = insulated or ("H1Z2Z2-K" if run.size.endswith("mm2") else "RHW-2")
    wires = _wires(run.model_copy(update={"other_live_wires": 0}), earth_size, first)
    count = sum(wire.count for wire in wires)
    area_m2 = sum(wire.count * wire.area_m2 for wire in wires)
    known = pipes("PVC schedule 80")
    held = [pipe for pipe in known if area_m2 <= fill_allowed(count) * pipe.area_m2]
    if not held:
        raise Wrong([_too_many(count, known[-1])])
    return held[0]


def _wires(run: CableRun, earth_size: str, insulated: Insulated) -> tuple[InPipe, ...]:
    counted = [("live wire", run.size, 2), ("earth wire", earth_size, 1)]
    if run.other_live_wires:
        counted.append(("other live wire, taken as thick", run.size, run.other_live_wires))
    found = []
    for what, size, count in counted:
        of_its_own: Insulated = insulated
        if size.endswith("mm2") != (insulated == "H1Z2Z2-K"):  # the earth wire in the other family
            of_its_own = "H1Z2Z2-K" if size.endswith("mm2") else "RHW-2"
        area = insulated_m2(size, of_its_own)
        found.append(InPipe(what, size, count, sqrt(4.0 * area / pi), area))
    return tuple(found)


def _check(pipe: Pipe, wires: tuple[InPipe, ...], count: int, wires_m2: float, code: Code) -> Check:
    allowed, source = fill_allowed(count), FILL_BY_CODE[code]
    capacity = allowed * pipe.area_m2
    areas = AREAS_METRIC if wires[0].size.endswith("mm2") else borrowed(AREAS, code)
    working = Working(
        "wires in the pipe",
        (
            *(Step(f"{wire.what}, {wire.size}, each", "a", "", wire.area_m2, "m^2", areas) for wire in wires),
            Step(f"all {count}", "A", " + ".join(f"{w.count} x {w.area_m2:.3g}" for w in wires), wires_m2, "m^2", areas),
            Step(f"inside of the risers, {pipe.trade} {pipe.kind}", "Ap", "", pipe.area_m2, "m^2", borrowed(Source(pipe.source, status=_status(pipe)), code)),
            Step("share they may take", "f", "", allowed, "", source),
            Step("what they may take", "f Ap", f"{allowed:g} x {pipe.area_m2:.4g}", capacity, "m^2", source),
        ),
    )  # fmt: skip
    return Check(
        "conduit", "room for the wires", wires_m2, capacity, "m^2", share(wires_m2, capacity), source, working
    )  # fmt: skip


def _status(pipe: Pipe) -> Literal["seen-copy", "common practice"]:
    """The source's own words say what is from memory."""
    return "seen-copy" if pipe.kind != "duct" else "common practice"


def _notes(
    pipe: Pipe, insulated: Insulated, guessed: bool, jam: float | None, code: Code
) -> tuple[str, ...]:
    notes = []
    if guessed:
        notes.append(
            f"The areas are those of {insulated_words(insulated)}, the thickest of the table; "
            "PV wire is thicker still: ask its maker for the outside diameter."
        )
    notes.append("Single wires rated wet go into a pipe in the ground: it fills with water.")
    if _wedges(jam):
        notes.append(
            f"Three wires in this pipe may jam: its inside is {jam:.2f} times a wire, and from 2.8 to 3.2 the "
            "middle one wedges in a bend. Take the next size."
        )
    if code == "IEC":
        notes.append(
            "IEC 60364-5-52 names no share: the American one is taken; ask what the duct's maker and your country want."
        )
        if pipe.kind == "rigid metal":
            notes.append(
                "Metric steel pipe is sold in other sizes: ask for one of no smaller bore."
            )
    return tuple(notes)


def _pipe(row: dict[str, str]) -> Pipe:
    duct = row["kind"] == "duct"
    if duct:
        inside = float(row["inside_mm"]) / 1000.0
        area = pi / 4.0 * inside * inside
    else:
        area = float(row["inside_area_in2"]) * IN2
        inside = sqrt(4.0 * area / pi)
    kinds: dict[str, Kind] = {
        "PVC schedule 40": "PVC schedule 40", "PVC schedule 80": "PVC schedule 80", "rigid metal": "rigid metal", "duct": "duct",
    }  # fmt: skip
    return Pipe(
        kind=kinds[row["kind"]],
        trade=f"{row['trade']} {'mm' if duct else 'in'}",
        outside_m=float(row["outside"]) * INCH_M,
        inside_m=inside,
        area_m2=area,
        sweep_m=float(row["sweep_in"]) * INCH_M,
        source=row["source"],
    )


def _plain(written: str) -> str:
    return " ".join(written.strip().lower().split())


def _number(trade: str) -> float:
    whole, _, part = trade.replace(" ", "-").rpartition("-")
    if "/" in part:
        above, below = part.split("/")
        return (float(whole) if whole else 0.0) + float(above) / float(below)
    return float(part)


def _no_such_pipe(written: str, kind: Kind) -> Problem:
    known = ", ".join(pipe.trade for pipe in pipes(kind))
    do = "Write the trade size, as 1-1/4 in or 50 mm."
    return Problem("run", "conduit", f"{written.strip() or 'nothing'} ({kind})", known, do)


def _too_many(count: int, largest: Pipe) -> Problem:
    return Problem(
        "run",
        "other_live_wires",
        f"{count} wires in one pipe",
        f"what {largest.trade} holds",
        "Lay two pipes, or take thinner wire.",
    )
