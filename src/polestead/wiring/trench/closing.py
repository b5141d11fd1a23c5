"""What must be in the trench before it closes, in the order it goes in."""

from __future__ import annotations

from dataclasses import dataclass

from polestead.base.source import COMMON_PRACTICE, Source
from polestead.homestead.model import CableRun
from polestead.wiring.trench.burial import LOW_VOLTAGE, LOW_VOLTAGE_NOTE, Ribbon, ribbon_words
from polestead.wiring.trench.conduit import Conduit
from polestead.wiring.trench.expansion import Expansion
from polestead.wiring.trench.own_lines import OwnLines

CABLE_SLACK_SHARE = 0.05  # loops at both ends and the hinge: common practice, no source
BED_M = 0.10  # sand or sifted soil under and over: common practice, no source
BED = Source(
    "common practice; NEC 300.5(F) asks for no stones against the line", status="common practice"
)
EARTH = Source("NEC", "300.5(I): with its live wires", "memory")
SEAL = Source("NEC", "300.5(G)", "memory")
RISER = Source(
    "NEC", "300.5(D)(1) and (4): guarded from 18 in under to 8 ft over the ground", "memory"
)
STRING_TAIL_M = 2.0
GATE = "GATE: nothing is covered before the trench has been looked at and photographed with a tape in it."


@dataclass(frozen=True, slots=True)
class InTrench:
    """One thing that goes in, or is done, before the trench closes.

    Attributes:
        order: 1 first.
        what: The thing or the act.
        size: As it is bought; empty for an act.
        length_m: To order or to lay; None where it has none.
        depth_m: Of its top under the ground; None where that says nothing.
        where: In words.
        why: In words.
        source: Who asks for it.
    """

    order: int
    what: str
    size: str
    length_m: float | None
    depth_m: float | None
    where: str
    why: str
    source: Source


@dataclass(frozen=True, slots=True)
class Lengths:
    """The run taken apart.

    Attributes:
        level_m: Along the trench.
        pole_riser_m, house_riser_m: From the line's depth up to the box or the wall.
        pipe_m: Level and both risers.
        floor_m: Depth of the trench's floor.
    """

    level_m: float
    pole_riser_m: float
    house_riser_m: float
    pipe_m: float
    floor_m: float


def lengths_of(
    run: CableRun, outside_m: float, pole_above_m: float, house_above_m: float
) -> Lengths:
    """The run's length taken apart: in the house, up both risers, and the level rest.

    Args:
        run: The run section.
        outside_m: Outside diameter of cable or pipe [m].
        pole_above_m: Box at the pole over the ground [m].
        house_above_m: Entry at the wall over the ground [m].

    Example:
        >>> run = CableRun.model_validate({"length": "60 m", "size": "16 mm2", "method": "PVC conduit", "cover": "600 mm"})
        >>> parts = lengths_of(run, 0.05, 1.2, 1.2)
        >>> round(parts.level_m, 2), round(parts.pole_riser_m, 2), round(parts.floor_m, 2)
        (53.4, 1.8, 0.75)
    """
    up_pole, up_house = run.cover_m + pole_above_m, run.cover_m + house_above_m
    level = max(0.0, run.length_m - run.in_house_m - up_pole - up_house)
    return Lengths(level, up_pole, up_house, level + up_pole + up_house, run.cover_m + outside_m + BED_M)  # fmt: skip


def in_trench(
    run: CableRun,
    lengths: Lengths,
    conduit: Conduit | None,
    expansion: Expansion | None,
    ribbon: Ribbon,
    earth_size: str,
    own: OwnLines,
    drive_wire_m: float | None,
) -> tuple[InTrench, ...]:
    """The list, in order.

    Args:
        run: The run section.
        lengths: The run taken apart.
        conduit: The pipe; None for cable straight in the soil.
        expansion: Its growth.
        ribbon: The warning ribbon.
        earth_size: Of the earth wire.
        own: The owner's own lines.
        drive_wire_m: Low-voltage wire of the tilt drive or a sensor that shares the trench [m]; None for none.
    """
    items = [
        *_ground(lengths, own),
        *(_pipe(run, lengths, conduit, expansion) if conduit else ()),
        *_wires(run, earth_size, conduit),
        *_beside(run, lengths, conduit, drive_wire_m),
        *_cover(run, lengths, conduit, ribbon, own),
    ]
    return tuple(InTrench(order, *item) for order, item in enumerate(items, start=1))


_Item = tuple[str, str, float | None, float | None, str, str, Source]


def _ground(lengths: Lengths, own: OwnLines) -> list[_Item]:
    items: list[_Item] = [
        ("trench floor", "level, no stones", lengths.level_m, lengths.floor_m, "the whole length", "measure it at both ends and in the middle", COMMON_PRACTICE),
        ("bed of sand or sifted soil", "4 in (0.1 m)", lengths.level_m, None, "under the line", "a stone under it works through insulation with every frost", BED),
    ]  # fmt: skip
    crossed = [line.name for line in own.lines if line.crosses_at_m is not None]
    if crossed:
        items.append(
            ("own lines laid bare", "", None, None, ", ".join(crossed), "seen, measured, carried across the trench, nothing rests on them", COMMON_PRACTICE)
        )  # fmt: skip
    return items


def _pipe(
    run: CableRun, lengths: Lengths, conduit: Conduit, expansion: Expansion | None
) -> list[_Item]:
    bends = run.bends_deg or (90.0, 90.0)
    items: list[_Item] = [
        ("pipe", f"{conduit.pipe.trade} {conduit.pipe.kind}", lengths.pipe_m, run.cover_m, "the trench and both risers", "every joint glued or made up tight", Source("the run's length", status="computed")),
        ("sweeps", f"{len(bends)} of {conduit.pipe.trade}, {'/'.join(f'{b:g}' for b in bends)} deg", None, None, "at the bends", "long ones pull easier", Source("NEC, Ch. 9 Table 2, or the duct's maker", status="memory")),
    ]  # fmt: skip
    fittings = [] if expansion is None else [leg.name for leg in expansion.legs if leg.fitting]
    if fittings:
        items.append(
            ("expansion fitting", f"{len(fittings)} of {conduit.pipe.trade}", None, None, ", ".join(fittings), "the pipe grows more than 1/4 in there", Source("NEC", "352.44"))
        )  # fmt: skip
    if expansion is not None and expansion.slip_riser:
        items.append(
            ("slip risers", "", None, None, "pole and wall", "frost lifts the soil and the pipe with it", Source("NEC", "300.5(J)", "memory"))
        )  # fmt: skip
    return items


def _wires(run: CableRun, earth_size: str, conduit: Conduit | None) -> list[_Item]:
    long = run.length_m * (1.0 + CABLE_SLACK_SHARE)
    where = "in the pipe" if conduit else "side by side in the sand, snaked a little"
    depth = None if conduit else run.cover_m
    items: list[_Item] = [
        ("live wires, each of two", f"{run.size} {run.metal}", long, depth, where, "with a twentieth more for loops at both ends", COMMON_PRACTICE),
        ("earth wire", f"{earth_size} copper", long, depth, where, "it goes with its live wires all the way", EARTH),
    ]  # fmt: skip
    if conduit and run.other_live_wires:
        items.append(
            ("other live wires", f"{run.other_live_wires} wires", long, None, "in the pipe", "counted in the pipe's room", Source("the homestead file", status="owner"))
        )  # fmt: skip
    return items


def _beside(
    run: CableRun, lengths: Lengths, conduit: Conduit | None, drive_wire_m: float | None
) -> list[_Item]:
    items: list[_Item] = [
        ("bare copper, if wanted against lightning", "6 AWG (16 mm2) or thicker", lengths.level_m, None, "in the soil beside the line, off the sand", "ties pole and house ground together; it never replaces the earth wire, and any rod at the pole is tied to it", COMMON_PRACTICE),
    ]  # fmt: skip
    if drive_wire_m is not None:
        items.append(
            ("low-voltage wire", "in a pipe of its own", drive_wire_m, run.cover_m, "beside the run", LOW_VOLTAGE_NOTE, LOW_VOLTAGE)
        )  # fmt: skip
    if conduit:
        items.append(
            ("spare pull string", "rot-proof", lengths.pipe_m + 2.0 * STRING_TAIL_M, None, "in the pipe, tied off at both ends", "pulled in with the wires, for the next one", COMMON_PRACTICE)
        )  # fmt: skip
    else:
        items.append(
            ("guard pipe on both risers", "PVC schedule 80 or metal", lengths.pole_riser_m + lengths.house_riser_m, None, "from the trench up the pole and the wall", "mowers, dogs and spades", RISER)
        )  # fmt: skip
    return items


def _cover(
    run: CableRun, lengths: Lengths, conduit: Conduit | None, ribbon: Ribbon, own: OwnLines
) -> list[_Item]:
    items: list[_Item] = []
    if conduit:
        items.append(
            ("ends sealed", "duct seal", None, None, "at pole and house", "warm damp air, water and mice travel in pipes", SEAL)
        )  # fmt: skip
    offsets = ", ".join(line.name for line in own.lines if not line.offsets)
    tape = "from two corners that stay, at every bend and crossing"
    items += [
        ("PHOTOGRAPH with a tape in it", "", None, None, tape, "it becomes your own map; write the offsets into the file" + (f", those of {offsets} too" if offsets else ""), COMMON_PRACTICE),
        ("SIGN-OFF", "", None, None, "inspector, or the one who answers for the wiring", GATE, COMMON_PRACTICE),
        ("sand or sifted soil over the line", "4 in (0.1 m)", lengths.level_m, run.cover_m - BED_M if run.cover_m > BED_M else 0.0, "by hand", "then the rest in layers, trodden down", BED),
        ("warning ribbon", "plastic, for power", lengths.level_m, ribbon.depth_m, ribbon_words(run.cover_m), "the next spade meets it first", ribbon.source),
    ]  # fmt: skip
    return items
