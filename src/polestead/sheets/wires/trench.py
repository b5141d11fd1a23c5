"""The trench and the cable at the hinge, as text."""

from __future__ import annotations

from collections.abc import Iterator

from polestead.base.check import Check
from polestead.base.quantity import in_unit
from polestead.base.show import Style, feet_inches, in_style, length, number, percent, set_length
from polestead.sheets.ratings import down, share_up, up
from polestead.sheets.sentences import figures_of
from polestead.sheets.text import heading, say
from polestead.wiring.run.ampacity import ABOUT_C
from polestead.wiring.run.hinge_cable import AtTilt, HingeCable
from polestead.wiring.run.on_pole import OnPole
from polestead.wiring.trench.closing import InTrench
from polestead.wiring.trench.conduit import Conduit
from polestead.wiring.trench.expansion import Expansion
from polestead.wiring.trench.own_lines import OwnLine, OwnLines
from polestead.wiring.trench.pull import Pull
from polestead.wiring.trench.trench import Trench
from polestead.wiring.trench.wall import Bought

EIGHTHS = 8  # an eighth of an inch is as near as a trench is dug or a loop is cut


def trench_lines(trench: Trench, style: Style, to_buy: bool = True) -> Iterator[str]:
    """Cover, pipe, pull, growth, own lines, and the list of what goes in.

    Args:
        trench: As worked.
        style: Feet and inches, or metric.
        to_buy: Whether what is bought for pole, risers and wall stands at the end; who looks only has no use for it.
    """
    yield heading("Trench and pipe")
    yield from _cover(trench, style)
    if trench.conduit is not None:
        yield from _pipe(trench.conduit, style)
    if trench.pull is not None:
        yield from _pull(trench.pull, style)
    if trench.expansion is not None:
        yield from _growth(trench.expansion, style)
    yield from _faults(tuple(check for check in trench.checks if check.part != "own line"), style)
    own = set(trench.own.notes)
    for note in trench.notes:
        if note not in own:
            yield say(note, "  * ", "    ")
    yield heading("Your own lines in the ground")
    yield from _own_lines(trench.own, style)
    yield heading("In the trench before it closes")
    for item in trench.items:
        yield from _item(item, style)
    if trench.wall:
        yield heading("In the wall before it closes")
        for item in trench.wall:
            yield from _item(item, style)
    if not to_buy:
        return
    yield heading("To buy for pole, risers and wall, beside the run's own length")
    for one in trench.bought:
        yield _bought(one, style)


def hinge_cable_lines(cable: HingeCable, style: Style) -> Iterator[str]:
    """The flexing cable: kind, loop, what goes with it.

    Args:
        cable: As worked.
        style: Feet and inches, or metric.
    """
    cord = cable.cord
    yield heading("The cable at the hinge")
    strands = (
        ""
        if cable.strands is None or cable.code != "NEC"
        else f" Or PV wire, {cable.strands} strands or more (NEC Table 690.31, from memory)."
    )
    yield say(
        f"{cord.kind} {cord.size}, two live conductors and earth, {_short(cord.outside_m, style)} outside; carries {down(cord.carries_a)} A at {in_style(30.0, 'C', style)}, {down(cord.carries_at_a(ABOUT_C))} A at {in_style(ABOUT_C, 'C', style)}, "
        f"bent no colder than {in_style(cord.coldest_c, 'C', style)}.{strands}"
    )  # fmt: skip
    yield say(
        f"Loop between the clamps: {_short(cable.loop_m, style)}; cut {_short(cable.cut_m, style)} with both tails. No bend tighter than "
        f"{_short(cable.radius_m, style)} radius. The shortest that serves the whole travel is {_short(cable.least_m, style)}, at tilt {cable.tightest_deg:g}°."
    )
    held = cable.clamps
    yield say(
        f"Clamp on the frame {_short(held.along_m, style)} from the hinge towards the upper edge, {_short(held.below_m, style)} behind the hinge line; "
        f"box under the hinge {_short(held.down_m, style)} below it, {_short(held.out_m, style)} from the pole's axis, entry from below."
    )
    yield say(_boxes(cable.boxes, style))
    yield "  tilt     clamps apart    shortest cord           spare"
    for end in cable.ends:
        yield _end(end, style)
    yield say(
        f"Farthest apart {_short(cable.longest_apart_m, style)} at tilt {cable.longest_apart_deg:g}°. At no tilt can the loop hang lower than "
        f"{_short(cable.lowest_m, style)} over the ground. {number(cable.moves)} moves in its life."
    )
    yield from _faults(cable.checks, style)
    for part in cable.parts:
        yield say(f"{part.what}: {part.where}; {part.why} ({part.source}).", "  - ", "    ")
    for note in cable.notes:
        yield say(note, "  * ", "    ")


def _boxes(boxes: OnPole, style: Style) -> str:
    """Where the boxes stand over the ground."""
    if not boxes.two_boxes:
        return f"The loop ends {_short(boxes.cord_ends_m, style)} over the ground, where a hand reaches: the switch sits in that box, and the run's riser ends in it."
    return (
        f"The loop ends {_short(boxes.cord_ends_m, style)} over the ground, out of reach: joints only. The switch's box, where the run's riser ends, is "
        f"{_short(boxes.switch_m, style)} over the ground; between them {_short(boxes.pipe_m, style)} of fixed wire in pipe down the pole."
    )


def _cover(trench: Trench, style: Style) -> Iterator[str]:
    cover, ribbon, parts = trench.cover, trench.ribbon, trench.lengths
    yield say(
        f"Cover: {_short(cover.capacity, style)} in the file, {_short(cover.demand, style)} wanted ({cover.source}). Trench floor at "
        f"{set_length(parts.floor_m, style, 'up')}, {set_length(parts.level_m, style, 'up')} long; risers {_short(parts.pole_riser_m, style)} at the pole, "
        f"{_short(parts.house_riser_m, style)} at the house."
    )
    where = (
        "half-way up"
        if ribbon.half_way
        else f"{set_length(ribbon.over_m, style, 'near')} over the line"
    )
    yield say(
        f"Ribbon {set_length(ribbon.depth_m, style, 'near')} deep, {where} ({ribbon.source})."
    )


def _pipe(conduit: Conduit, style: Style) -> Iterator[str]:
    pipe = conduit.pipe
    wires = ", ".join(f"{wire.count} {wire.size}" for wire in conduit.wires)
    narrow = "" if conduit.riser.kind == conduit.pipe.kind else f", counted in its risers of {conduit.riser.kind}"  # fmt: skip
    smallest = "the smallest that holds them" if pipe.trade == conduit.smallest.trade else "the smallest in which they do not jam"  # fmt: skip
    whose = "in the file" if conduit.given else smallest
    yield say(
        f"Pipe: {pipe.trade} {pipe.kind}, {whose}. {conduit.count} wires ({wires}, {conduit.insulated_words}) take {share_up(conduit.fill, 0)} of it{narrow}; "
        f"{percent(conduit.fill_allowed)} is allowed. Sweeps of {_short(pipe.sweep_m, style)} radius or more."
    )
    if conduit.given and conduit.smallest.trade != pipe.trade:
        yield say(f"The smallest that holds them is {conduit.smallest.trade}.")
    if conduit.roomy is not None and pipe.trade == conduit.smallest.trade:
        yield say(
            f"{conduit.roomy.trade} leaves room to change your mind (common practice): the trench is the dear part."
        )


def _pull(pull: Pull, style: Style) -> Iterator[str]:
    bends = " + ".join(f"{bend:g}" for bend in pull.bends_deg)
    told = "" if pull.bends_told else ", none in the file: two sweeps taken"
    yield say(
        f"Pull: {_long(pull.length_m, style)} of pipe, bends {bends}°{told}. At the rope up to {in_style(pull.tension_n, 'N', style)} dry, "
        f"{in_style(pull.oiled_n, 'N', style)} with lubricant; the wires bear {in_style(pull.limit_n, 'N', style)}. "
        f"The longest pull with these bends, dry: {_long(pull.longest_m, style)}."
    )
    if pull.pull_box:
        yield say("A pull box is wanted on the way.")


def _growth(expansion: Expansion, style: Style) -> Iterator[str]:
    for leg in expansion.legs:
        fitting = {True: " Expansion fitting wanted.", False: " No fitting wanted.", None: ""}
        swing = leg.swing_k * (1.8 if style == "feet" else 1.0)
        yield say(
            f"{leg.name.capitalize()}: {(_short if leg.length_m < 6.0 else _long)(leg.length_m, style)} grows {_small(leg.change_m, style)} from coldest to hottest "
            f"({swing:.0f} {'F' if style == 'feet' else 'K'}).{fitting[leg.fitting]}"
        )


def _own_lines(own: OwnLines, style: Style) -> Iterator[str]:
    for line in own.lines:
        yield from _own_line(line, style)
    for note in own.notes:
        yield say(note, "  * ", "    ")


def _own_line(line: OwnLine, style: Style) -> Iterator[str]:
    words = [f"{line.name} ({line.what}):"]
    if line.crosses_at_m is not None:
        words.append(f"crossed {length(line.crosses_at_m, style)} from the pole")
        words.append(
            f"with our line {line.way}," if line.top_m is not None else "at a depth nobody knows,"
        )
    elif line.way == "beside it":
        words.append("beside the trench,")
    else:
        words.append("nobody has said where it lies,")
    if line.clear_m is not None:
        words.append(f"{set_length(max(0.0, line.clear_m), style, 'down')} of soil between.")
    elif line.crosses_at_m is not None or line.way == "unknown":
        words[-1] = words[-1].removesuffix(",") + "."
    if line.hand_dig_m is not None:
        first, last = line.hand_dig_m
        words.append(
            f"Only a spade from {set_length(first, style, 'down')} to {set_length(last, style, 'up')} along the run."
        )
    if line.hand_dig_all:
        words.append("So near that the trench beside it is dug by hand.")
    if line.hole_edge_m is not None:
        words.append(
            f"{set_length(max(0.0, line.hole_edge_m), style, 'down')} from the pier's hole{', dig that side by hand' if line.hand_dig_hole else ''}."
        )
    yield say(" ".join(words), "  ", "    ")  # fmt: skip
    for offset in line.offsets:
        yield say(f"taped: {offset}", "      ", "        ")
    for ask in line.asked:
        yield say(f"? {ask}", "      ", "        ")
    yield from _faults(line.checks, style, "      ")


def _item(item: InTrench, style: Style) -> Iterator[str]:
    as_set_out = (
        style == "metric" and (item.length_m or 0.0) >= 6.0
    )  # the same figure as the trench's own
    much = "" if item.length_m is None else f", {set_length(item.length_m, style, 'up') if as_set_out else _long(item.length_m, style)}"  # fmt: skip
    floor = item.what == "trench floor"  # as deep as the card says to dig, not to the eighth
    depth = "" if item.depth_m is None else set_length(item.depth_m, style, "up") if floor else set_length(item.depth_m, style, "near")  # fmt: skip
    deep = f", {'' if floor else 'top '}{depth} down" if depth else ""
    size = f", {item.size}" if item.size else ""
    yield say(f"{item.order:>2} [ ] {item.what}{size}{much}{deep}", "  ", "         ")
    yield say(f"{item.where}: {item.why} ({item.source})", "         ")


def _bought(one: Bought, style: Style) -> str:
    much = "" if one.length_m is None else f", {_short(one.length_m, style)}{' each' if one.count > 1 else ''}"  # fmt: skip
    return say(f"{one.count} x {one.name}, {one.size}{much}: {one.where}.", "  - ", "    ")


def _end(end: AtTilt, style: Style) -> str:
    tilt = f"{end.tilt_deg:g}°"
    return f"  {tilt:<6}{_short(end.apart_m, style):>15}{_short(end.least_m, style):>17}{_short(end.spare_m, style):>16}"


def _faults(checks: tuple[Check, ...], style: Style, indent: str = "  ") -> Iterator[str]:
    for check in checks:
        if not check.holds:
            yield say(f"NO: {check.part}, {check.name}: {figures_of(check, style)}.", indent)


def _short(metres: float, style: Style) -> str:
    """A length as a trench is dug and a cord is cut: to 1/8 in, or to a millimetre or a centimetre."""
    return feet_inches(metres, EIGHTHS) if style == "feet" else length(metres, style)


def _small(metres: float, style: Style) -> str:
    return in_style(metres, "m", style) if style == "feet" else f"{number(metres * 1000.0, 1)} mm"


def _long(metres: float, style: Style) -> str:
    """A length as pipe and ribbon are bought, never less than is wanted: whole feet, or a tenth of a metre."""
    return f"{up(in_unit(metres, 'ft'))} ft" if style == "feet" else f"{up(metres, 1)} m"
