"""What must be in the trench before it closes, in the order it goes in."""

from __future__ import annotations

from dataclasses import dataclass

from polestead.base.source import COMMON_PRACTICE, Source
from polestead.homestead.model import CableRun
from polestead.wiring.by_code import borrowed
from polestead.wiring.currents import Code
from polestead.wiring.trench.burial import (
    INCH_M,
    LOW_VOLTAGE,
    Ribbon,
    low_voltage_note,
    ribbon_words,
)
from polestead.wiring.trench.conduit import Conduit, Pipe, riser_words
from polestead.wiring.trench.expansion import FITTING, Expansion
from polestead.wiring.trench.own_lines import OwnLines

CABLE_SLACK_SHARE = 0.05  # loops at both ends and the hinge: common practice, no source
BED_M = 0.10  # sand or sifted soil under and over: common practice, no source
_BY_CODE: dict[str, dict[Code, Source]] = {
    "bed": {
        "NEC": Source("common practice; NEC 300.5(F) asks for no stones against the line", status="common practice"),
        "Canada": COMMON_PRACTICE, "IEC": COMMON_PRACTICE,
    },
    "earth": {
        "NEC": Source("NEC", "300.5(I): with its live wires", "memory"), "Canada": Source("CSA C22.1", "section 10: with its live wires, ask", "memory"),
        "IEC": Source("IEC 60364-5-54", "543.6: beside its live wires", "memory"),
    },
    "seal": {
        "NEC": Source("NEC", "300.5(G)", "memory"), "Canada": Source("CSA C22.1", "22-300: ask", "memory"), "IEC": COMMON_PRACTICE,
    },
    "riser": {
        "NEC": Source("NEC", "300.5(D)(1) and (4), 352.10(F): guarded from 18 in under to the box or 8 ft over the ground", "seen-copy"),
        "Canada": Source("CSA C22.1", "12-012, guard over the ground: how high, ask", "memory"),
        "IEC": Source("IEC 60364-5-52", "522.6 and 522.8, guarded against knocks: how high, ask", "memory"),
    },
    "sweep": {
        "NEC": Source("NEC, Ch. 9 Table 2", status="memory"), "Canada": Source("CSA C22.1", "12-924 or the pipe's maker: ask", "memory"),
        "IEC": Source("the duct's maker", status="memory"),
    },
    "slip": {
        "NEC": Source("NEC", "300.5(J)", "memory"), "Canada": Source("CSA C22.1", "12-012, movement by frost: ask", "memory"), "IEC": COMMON_PRACTICE,
    },
}  # fmt: skip
GUARD_UNDER_M, GUARD_OVER_M = (
    18.0 * INCH_M,
    8.0 * 12.0 * INCH_M,
)  # NEC 300.5(D)(1) (seen in a public copy); taken for every code
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
        pole_riser_m, house_riser_m: From the line's depth up to the switch's box or the wall.
        pole_guard_m, house_guard_m: Guard pipe on each: from 18 in under the ground, or the line where it lies higher, to the box, or
            8 ft over the ground.
        pipe_m: Level and both risers.
        floor_m: Depth of the trench's floor.
    """

    level_m: float
    pole_riser_m: float
    house_riser_m: float
    pole_guard_m: float
    house_guard_m: float
    pipe_m: float
    floor_m: float


def lengths_of(
    run: CableRun, outside_m: float, pole_above_m: float, house_above_m: float
) -> Lengths:
    """The run's length taken apart: in the house, up both risers, and the level rest.

    Args:
        run: The run section.
        outside_m: Outside diameter of cable or pipe [m].
        pole_above_m: The switch's box at the pole over the ground [m].
        house_above_m: Entry at the wall over the ground [m].

    Example:
        >>> run = CableRun.model_validate({"length": "60 m", "size": "16 mm2", "method": "PVC conduit", "cover": "600 mm"})
        >>> parts = lengths_of(run, 0.05, 1.2, 1.2)
        >>> round(parts.level_m, 2), round(parts.pole_riser_m, 2), round(parts.floor_m, 2)
        (53.4, 1.8, 0.75)
    """
    up_pole, up_house = run.cover_m + pole_above_m, run.cover_m + house_above_m
    level = max(0.0, run.length_m - run.in_house_m - up_pole - up_house)
    under = min(run.cover_m, GUARD_UNDER_M)
    return Lengths(
        level_m=level,
        pole_riser_m=up_pole,
        house_riser_m=up_house,
        pole_guard_m=under + min(pole_above_m, GUARD_OVER_M),
        house_guard_m=under + min(house_above_m, GUARD_OVER_M),
        pipe_m=level + up_pole + up_house,
        floor_m=run.cover_m + outside_m + BED_M,
    )


def in_trench(
    run: CableRun,
    lengths: Lengths,
    conduit: Conduit | None,
    expansion: Expansion | None,
    ribbon: Ribbon,
    earth_size: str,
    own: OwnLines,
    drive_wire_m: float | None,
    code: Code = "NEC",
    guard: Pipe | None = None,
    signal_wire: bool = False,
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
        code: That holds.
        guard: Pipe that guards the risers of cable straight in the soil; None: asked.
        signal_wire: Whether the thin wire of a rapid shutdown goes out to the pole.
    """
    items = [
        *_ground(lengths, own, code),
        *(_pipe(run, lengths, conduit, expansion, code) if conduit else ()),
        *_wires(run, earth_size, conduit, code),
        *_beside(run, lengths, conduit, drive_wire_m, code, guard, signal_wire),
        *_cover(run, lengths, conduit, ribbon, own, code),
    ]
    return tuple(InTrench(order, *item) for order, item in enumerate(items, start=1))


_Item = tuple[str, str, float | None, float | None, str, str, Source]


def _ground(lengths: Lengths, own: OwnLines, code: Code) -> list[_Item]:
    items: list[_Item] = [
        ("trench floor", "level, no stones", lengths.level_m, lengths.floor_m, "the whole length", "measure it at both ends and in the middle", COMMON_PRACTICE),
        ("bed of sand or sifted soil", "4 in (100 mm)", lengths.level_m, None, "under the line", "a stone under it works through insulation with every frost", _BY_CODE["bed"][code]),
    ]  # fmt: skip
    crossed = [line.name for line in own.lines if line.crosses_at_m is not None]
    if crossed:
        items.insert(
            0, ("own lines laid bare", "", None, None, ", ".join(crossed), "before a bucket comes near; seen, measured, carried across the trench, nothing rests on them", COMMON_PRACTICE)
        )  # fmt: skip
    return items


def _pipe(
    run: CableRun, lengths: Lengths, conduit: Conduit, expansion: Expansion | None, code: Code
) -> list[_Item]:
    bends, riser = run.bends_deg or (90.0, 90.0), riser_words(conduit.riser)
    hit = "where hands, mowers and machines come the pipe is the strong one; its bore is what the wires are counted against"
    items: list[_Item] = [
        ("pipe", f"{conduit.pipe.trade} {conduit.pipe.kind}", lengths.level_m, run.cover_m, "along the trench", "every joint glued or made up tight", Source("the run's length", status="computed")),
        ("riser at the pole", riser, lengths.pole_riser_m, None, "from the line's depth into the switch's box", hit, _BY_CODE["riser"][code]),
        ("riser at the wall", riser, lengths.house_riser_m, None, "from the line's depth to the box or entry at the wall", hit, _BY_CODE["riser"][code]),
        ("sweeps", f"{len(bends)} of {conduit.pipe.trade}, {'/'.join(f'{b:g}' for b in bends)} deg", None, None, "at the bends", "long ones pull easier", _BY_CODE["sweep"][code]),
    ]  # fmt: skip
    fittings = [] if expansion is None else [leg.name for leg in expansion.legs if leg.fitting]
    if fittings:
        items.append(
            ("expansion fitting", f"{len(fittings)} of {conduit.pipe.trade}", None, None, ", ".join(fittings), "the pipe grows more than 1/4 in there", borrowed(FITTING, code))
        )  # fmt: skip
    if expansion is not None and expansion.slip_riser:
        items.append(
            ("slip risers", "", None, None, "pole and wall", "frost lifts the soil and the pipe with it", _BY_CODE["slip"][code])
        )  # fmt: skip
    return items


def _wires(run: CableRun, earth_size: str, conduit: Conduit | None, code: Code) -> list[_Item]:
    long = run.length_m * (1.0 + CABLE_SLACK_SHARE)
    where = "in the pipe" if conduit else "side by side in the sand, snaked a little"
    depth = None if conduit else run.cover_m
    items: list[_Item] = [
        ("live wires, each of two", f"{run.size} {run.metal}", long, depth, where, "with a twentieth more for loops at both ends", COMMON_PRACTICE),
        ("earth wire", f"{earth_size} copper", long, depth, where, "it goes with its live wires all the way", _BY_CODE["earth"][code]),
    ]  # fmt: skip
    if conduit and run.other_live_wires:
        items.append(
            ("other live wires", f"{run.other_live_wires} wires", long, None, "in the pipe", "counted in the pipe's room", Source("the homestead file", status="owner"))
        )  # fmt: skip
    return items


def _beside(
    run: CableRun,
    lengths: Lengths,
    conduit: Conduit | None,
    drive_wire_m: float | None,
    code: Code,
    guard: Pipe | None,
    signal_wire: bool,
) -> list[_Item]:
    items: list[_Item] = [
        ("bare copper, if wanted against lightning", "6 AWG (16 mm2) or thicker", lengths.level_m, None, "in the soil beside the line, off the sand", "ties pole and house ground together; it never replaces the earth wire, and any rod at the pole is tied to it", COMMON_PRACTICE),
    ]  # fmt: skip
    if drive_wire_m is not None:
        items.append(
            ("low-voltage wire", "in a pipe of its own", drive_wire_m, run.cover_m, "beside the run", low_voltage_note(code), LOW_VOLTAGE[code])
        )  # fmt: skip
    if signal_wire:
        items.append(
            ("signal wire of the rapid shutdown", "in a pipe of its own", lengths.pipe_m, run.cover_m, "beside the run, from the pole's switch to the house", "if the inspector asks for a rapid shutdown it cannot be laid afterwards", LOW_VOLTAGE[code])
        )  # fmt: skip
    if conduit:
        items.append(
            ("spare pull string", "rot-proof", lengths.pipe_m + 2.0 * STRING_TAIL_M, None, "in the pipe, tied off at both ends", "pulled in with the wires, for the next one", COMMON_PRACTICE)
        )  # fmt: skip
    else:
        size = (
            "steel, or plastic made for sun and knocks"
            if guard is None
            else f"{guard.trade} {guard.kind}, or metal"
        )
        why = "a bushing on its foot, so that its edge cuts nothing; mowers, dogs and spades"
        items += [
            ("guard pipe at the pole", size, lengths.pole_guard_m, None, "from the line, or 18 in (0.45 m) down, up into the switch's box", why, _BY_CODE["riser"][code]),
            ("guard pipe at the wall", size, lengths.house_guard_m, None, "from the line, or 18 in (0.45 m) down, up to the box or entry at the wall", why, _BY_CODE["riser"][code]),
        ]  # fmt: skip
    return items


def _cover(
    run: CableRun,
    lengths: Lengths,
    conduit: Conduit | None,
    ribbon: Ribbon,
    own: OwnLines,
    code: Code,
) -> list[_Item]:
    items: list[_Item] = []
    if conduit:
        items.append(
            ("ends sealed", "duct seal", None, None, "at pole and house", "warm damp air, water and mice travel in pipes", _BY_CODE["seal"][code])
        )  # fmt: skip
    offsets = ", ".join(line.name for line in own.lines if not line.offsets)
    tape = "from two corners that stay, at every bend and crossing"
    items += [
        ("PHOTOGRAPH with a tape in it", "", None, None, tape, "it becomes your own map; write the offsets into the file" + (f", those of {offsets} too" if offsets else ""), COMMON_PRACTICE),
        ("SIGN-OFF", "", None, None, "inspector, or the one who answers for the wiring", GATE, COMMON_PRACTICE),
        ("sand or sifted soil over the line", "4 in (100 mm)", lengths.level_m, run.cover_m - BED_M if run.cover_m > BED_M else 0.0, "by hand", "then the rest in layers, trodden down", _BY_CODE["bed"][code]),
        ("warning ribbon", "plastic, for power", lengths.level_m, ribbon.depth_m, ribbon_words(run.cover_m), "the next spade meets it first", ribbon.source),
    ]  # fmt: skip
    return items
