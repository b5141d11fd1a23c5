"""Pieces and cut list, pour, trench, lifts."""

from __future__ import annotations

from collections.abc import Iterator

from polestead.base.show import (
    cut_length,
    dimension,
    drill,
    gust,
    hole_place,
    in_style,
    length,
    number,
    sawn,
    set_length,
)
from polestead.build.bars import CuttingPlan
from polestead.build.ground.spoil import EDGE_M
from polestead.build.lifts.lift import CALM_WORDS, Lift
from polestead.build.pieces.piece import Piece
from polestead.build.pieces.plates import PlateCut
from polestead.sheets.book.blocks import (  # fmt: skip
    Block,
    Section,
    blank_lines,
    caution,
    head,
    listed,
    raised,
    say,
    small,
    table,
    together,
)
from polestead.sheets.book.matter import Matter
from polestead.sheets.building import APART, kerf_words, lengths_words, piece_weight, plate_stuff
from polestead.sheets.sentences import use_of


def pieces(matter: Matter) -> Section:
    """What is bought, cut and drilled."""
    return Section("Pieces and cut list", tuple(_pieces(matter)))


def _pieces(matter: Matter) -> Iterator[Block]:
    built, style = matter.answer.build, matter.style
    rows = [
        (
            one.mark,
            str(one.count),
            one.name,
            one.long(style),
            piece_weight(one, style),
            _price(one),
            f"{one.material}, {one.where}{'; ' + one.how if one.how else ''}",
        )
        for one in built.pieces
    ]
    currency = matter.answer.money.currency
    yield table(("", "no.", "piece", "cut to", "all weigh", f"{currency}, all", "of what, where"), rows, ("auto", "auto", "1.1fr", "auto", "auto", "0.75fr", "2fr"), "lrlrrrl")  # fmt: skip
    yield small("ask: the file has no price of it alone; in a line: part of that line of the ledger. Steel by the length has its price with the cut list.")  # fmt: skip
    yield from _noted(built.notes)
    yield head("Cut list")
    if built.lengths_guessed:
        yield say(lengths_words(built.lengths_guessed))
    for plan in built.cut_list:
        yield from _plan(plan, matter)
    yield small(f"Each piece is measured from the last cut, longest first, the saw on the waste side of the mark. {kerf_words(built.cut_list, style)} Measure the real ends first.")  # fmt: skip
    yield head("Plates and wraps")
    for plate in built.plates:
        yield together(list(_plate(plate, matter)))  # its holes stand under its name
    yield head("Bolts and pins")
    joints = [
        (one.place, f"{one.count} × {one.size}, {one.steel}", "ask" if one.length_m is None else cut_length(one.length_m, style), "" if one.hole_m is None else drill(one.hole_m, style), one.tighten)
        for one in built.joints
    ]  # fmt: skip
    yield table(("where", "what", "long", "hole", "how tight"), joints, ("1.2fr", "1.2fr", "auto", "auto", "2fr"))  # fmt: skip
    yield head("Metals that meet")
    metals = [(one.where, f"{one.one} on {one.other}", "–" if one.apart_v is None else f"{one.apart_v:.2f} V", f"the {one.eaten} is eaten" if one.eaten else "", one.between) for one in built.metals]  # fmt: skip
    yield table(
        ("where", "metals", "apart", "", "between them"),
        metals,
        ("1.3fr", "1.2fr", "auto", "1fr", "2fr"),
    )
    yield small(APART)
    yield head("Not in the file: measure, choose or ask before it is bought")
    yield listed(built.not_given, "?")


def _price(piece: Piece) -> str:
    """What all of them cost, or where the money stands."""
    if piece.price is not None:
        return number(piece.price, 0)
    return f"in “{piece.paid_in.replace('_', ' ')}”" if piece.paid_in else "ask"


def _noted(notes: tuple[str, ...]) -> Iterator[Block]:
    if notes:
        yield listed(notes)


def _plan(plan: CuttingPlan, matter: Matter) -> Iterator[Block]:
    style = matter.style
    paid = "" if plan.price is None else f", {number(plan.price, 2)} {matter.answer.money.currency}"
    best = "none better" if plan.proved else "perhaps not the best"
    yield head(f"{plan.material}: buy {len(plan.bars)}{paid} ({best})", 3)
    rows = [
        (str(nth), sawn(bar.stock_m, style), ",  ".join(f"{cut.mark} {sawn(cut.length_m, style)}" for cut in bar.cuts), sawn(bar.left_m(plan.kerf_m, style), style))
        for nth, bar in enumerate(plan.bars, start=1)
    ]  # fmt: skip
    yield table(("bar", "as bought", "saw in this order", "left over"), rows, ("auto", "auto", "1fr", "auto"), "lrlr")  # fmt: skip
    for words in plan.too_long:
        yield caution(words)


def _plate(plate: PlateCut, matter: Matter) -> Iterator[Block]:
    style = matter.style
    xs, ys = [x for x, _ in plate.outline_m], [y for _, y in plate.outline_m]
    size = f"{cut_length(max(xs) - min(xs), style)} × {cut_length(max(ys) - min(ys), style)}"
    mass = "" if plate.mass_kg is None else f", {in_style(plate.mass_kg, 'kg', style)} each"
    yield head(f"{plate.count} {plate.name}: {size}, {plate_stuff(plate, style)}{mass}", 3)
    yield small(plate.where)
    if plate.holes:
        rows = [(hole.name, drill(hole.diameter_m, style), hole_place(hole.x_m, style), hole_place(hole.y_m, style)) for hole in plate.holes]  # fmt: skip
        yield table(("hole", "drill", "to the right", "up"), rows, ("1fr", "auto", "auto", "auto"), "lrrr")  # fmt: skip
    yield from _noted(plate.notes)


def pour(matter: Matter) -> Section:
    """Hole, concrete, spoil, trench, the pole plumb."""
    return Section("Hole, pour and trench", tuple(_pour(matter)))


def _pour(matter: Matter) -> Iterator[Block]:
    built, style, pier = matter.answer.build, matter.style, matter.answer.pier
    pour = built.concrete
    bags = pour.bags_sold(style == "metric")[0]
    yield {
        "kind": "figures",
        "figures": [
            {"figure": dimension(pier.depth_m, style), "words": "deep from the ground"},
            {"figure": dimension(pier.diameter_m, style), "words": "across, straight sides"},
            {"figure": pour.sold, "words": f"concrete to order: {pour.why}"},
            {"figure": str(bags.count), "words": f"bags of {bags.bag}, if it is mixed by hand"},
        ],
    }  # fmt: skip
    yield caution("Cover the hole whenever you step away. Nobody goes down into it.")
    yield head("Say it so to the plant")
    yield say(f"“{pour.order}”")
    yield from _noted(pour.doubts)
    yield head("Spoil")
    yield say(
        f"{in_style(pour.spoil_bank_m3, 'm^3', style)} in the ground, {in_style(pour.spoil_loose_m3, 'm^3', style)} loose: a heap {set_length(pour.heap_wide_m, style, 'up')} wide and "
        f"{set_length(pour.heap_high_m, style, 'up')} high, its foot no nearer to the hole than {set_length(EDGE_M, style, 'up')}."
    )
    yield head("The pole plumb")
    braces = built.braces
    yield say(
        f"Braces at {set_length(braces.at_m, style, 'near')} over the ground, {set_length(braces.long_m, style, 'up')} long or more, stakes {set_length(braces.stakes_m, style, 'near')} from the pole. "
        f"Its top within {set_length(braces.plumb_m, style, 'down')} of plumb, both ways. {braces.words}"
    )
    rows = [(gust(row.gust_m_s, style), in_style(row.brace_n, "N", style), in_style(row.stake_up_n, "N", style)) for row in braces.rows]  # fmt: skip
    yield table(("in a gust of", "along a brace, push or pull", "up at its stake"), rows, ("1fr", "1fr", "1fr"), "rrr")  # fmt: skip
    blanks = ["Hole, depth", "Across, top and foot", "Soil seen, water at", "Plumb after the pour, both ways"]  # fmt: skip
    yield together([head("Measured as built"), blank_lines(blanks)])
    yield together(_trench(matter))


def _volume(cubic_m: float, matter: Matter) -> str:
    return raised(in_style(cubic_m, "m^3", matter.style))


def _trench(matter: Matter) -> Iterator[Block]:
    trench, style = matter.answer.build.trench, matter.style
    yield head("Trench")
    yield say(
        f"{set_length(trench.length_m, style, 'up')} long at most, {set_length(trench.width_m, style, 'up')} wide, {set_length(trench.depth_m, style, 'up')} deep: {in_style(trench.bank_m3, 'm^3', style)} in the ground, "
        f"{in_style(trench.loose_m3, 'm^3', style)} loose. Sand or sifted soil under, about and over the line {in_style(trench.bedding_m3, 'm^3', style)}. Ribbon {length(trench.ribbon_below_m, style)} below the ground."
    )
    yield from _noted(trench.contents)
    for check in trench.checks:
        if not check.holds:
            yield caution(f"Not {check.name}: slope it, or hold its sides, and set a ladder.")


def lifts(matter: Matter) -> Section:
    """Every lift and the order of the modules."""
    return Section("Lifts and modules", tuple(_lifts(matter)))


def _lifts(matter: Matter) -> Iterator[Block]:
    built, style = matter.answer.build, matter.style
    yield caution(f"Lift under {gust(built.lifts[0].lift_under_m_s, style)}. {CALM_WORDS}")
    for lift in built.lifts:
        yield together(_lift(lift, matter))
    yield head("Hanging the modules")
    yield say(built.hanging.words)
    rows = [
        (str(nth), str(step.row), str(step.column), *(in_style(value, "N m", style) for value in (step.hinge_n_m, step.pole_n_m, step.worst_n_m)))
        for nth, step in enumerate(built.hanging.steps, start=1)
    ]  # fmt: skip
    yield table(("", "row", "column", "out of balance: hinge", "pole", "at the worst tilt"), rows, ("auto", "auto", "auto", "1fr", "1fr", "1fr"), "rrrrrr")  # fmt: skip
    yield small("Row 1 is the lowest, column 1 at the left, seen from the glass; figures laid flat, but the last column.")  # fmt: skip
    for check in built.hanging.checks:
        yield say(f"{check.part}: {use_of(check.use)}.")


def _lift(lift: Lift, matter: Matter) -> Iterator[Block]:
    style = matter.style
    mass = "weight asked of its maker" if lift.mass_kg is None else in_style(lift.mass_kg, "kg", style)  # fmt: skip
    times = f", {lift.count} times" if lift.count > 1 else ""
    yield head(f"{lift.name[0].upper()}{lift.name[1:]}{times}: {mass}")
    yield say(f"{lift.how} Held by: {lift.holds}")
    said = [f"Centre of gravity {length(lift.centre_m, style)} {lift.datum}."]
    if lift.legs:
        legs = ", ".join(f"{leg.from_level_deg:.0f}° {in_style(leg.each_n, 'N', style)}" for leg in lift.legs)  # fmt: skip
        said.append(f"Each of two sling legs, angle from the LEVEL: {legs}; never flatter.")
    if lift.left_in_m_s is not None:
        said.append(f"Left so, it stands to {gust(lift.left_in_m_s, style)}; first gives {lift.gives_first}.")  # fmt: skip
    yield listed(said)
    yield caution(f"Clear for {set_length(lift.clear_m, style, 'up')} all round: {lift.not_under}.")
