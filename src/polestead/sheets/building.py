"""How it is built, as text: pieces, cut list, plates, bolts, metals, pour, trench, lifts, order of the modules."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from polestead.base.show import (
    Style,
    cut_length,
    drill,
    gust,
    hole_place,
    in_style,
    length,
    number,
    sawn,
    set_length,
    styled,
)
from polestead.build.bars import CuttingPlan
from polestead.build.ground.concrete import Concrete
from polestead.build.ground.spoil import EDGE_M
from polestead.build.lifts.hanging import HangingOrder
from polestead.build.lifts.lift import CALM_WORDS, Lift
from polestead.build.pieces.piece import Piece
from polestead.build.pieces.plates import PlateCut
from polestead.build.pieces.welds import weld_words
from polestead.build.result import BuildResult
from polestead.sheets.data import CAUTION
from polestead.sheets.lines import heading, say
from polestead.sheets.sentences import use_of

APART = (
    "Outdoors two metals up to 0.15 V apart may touch as they are (MIL-STD-1250 and -889, anodic index; steel, aluminium and zinc from memory). "
    "A small noble bolt in a large plate goes slowly, the reverse fast."
)


def building_text(name: str, built: BuildResult, style: Style) -> str:
    """All of it."""
    parts = (
        pieces_lines(built, style),
        _not_given(built),
        cut_lines(built, style),
        _plates(built, style),
        _joints(built, style),
        _welds(built, style),
        _metals(built),
        pour_lines(built, style),
        _trench(built, style),
        _braces(built, style),
        lift_lines(built, style, whole=True),
        hanging_lines(built.hanging, style, whole=True),
        _end(built),
    )
    return "\n".join((f"{name}: what is bought, cut, poured and lifted", *("\n".join(part) for part in parts)))  # fmt: skip


def pieces_lines(built: BuildResult, style: Style) -> Iterator[str]:
    """Every piece on two lines: letter, count, name, length, weight; material, place, price."""
    yield heading("Pieces")
    for piece in built.pieces:
        yield from _piece(piece, style)
    for note in built.notes:
        yield say(note, "  * ", "    ")


def _piece(piece: Piece, style: Style) -> Iterator[str]:
    long = piece.long(style)
    mass = piece_weight(piece, style)
    yield f"  {piece.mark:<3}{piece.count:>3} {piece.name:<30} {long:>18} {mass:>10}"
    paid = "" if not piece.paid_in else f"; paid for in {piece.paid_in.replace('_', ' ')}"
    price = paid if piece.price is None else f"; {number(piece.price, 2)}"
    how = f"; {piece.how}" if piece.how else ""
    yield say(f"{piece.material}, {piece.where}{how}{price}", "         ")


def piece_weight(piece: Piece, style: Style) -> str:
    """What all of them weigh, guessed or not; a dash where it is bought by the length or the piece."""
    if piece.mass_kg is None:
        return "weigh it" if piece.to_weigh else "-"
    shown = in_style(piece.mass_kg, "kg", style)
    shown = f"under 1 {shown[2:]}" if shown.startswith("0 ") else shown
    return f"~{shown}" if piece.guessed else shown


def _not_given(built: BuildResult) -> Iterator[str]:
    yield heading("Not in the file: measured, chosen or asked before it is bought")
    for word in built.not_given:
        yield say(word, "  ? ", "    ")


def lengths_words(guessed: Sequence[str]) -> str:
    """Whose word the bought lengths are, where the file has none."""
    return f"Lengths of {', '.join(guessed)} are those such yards mostly sell (common practice, no source): ask your yard which it has before you buy, and write them under [shop]."


def cut_lines(built: BuildResult, style: Style) -> Iterator[str]:
    """Bars to buy and how each is sawn."""
    yield heading("Cut list")
    if built.lengths_guessed:
        yield say(lengths_words(built.lengths_guessed))
    for plan in built.cut_list:
        yield from _plan(plan, style)
    yield say(
        f"Each piece is measured from the last cut, longest first, the saw on the waste side of the mark. {kerf_words(built.cut_list, style)} Measure the real ends first."
    )


def kerf_words(plans: Sequence[CuttingPlan], style: Style) -> str:
    """What each cut takes off the bar, so that bar, pieces, cuts and what is left can be added up."""
    kerf = f", {drill(plans[0].kerf_m, style)}," if plans else ""
    return f"Each cut takes the saw's own width{kerf} off the bar."


def _plan(plan: CuttingPlan, style: Style) -> Iterator[str]:
    best = "none better" if plan.proved else "perhaps not the best"
    paid = "" if plan.price is None else f", {number(plan.price, 2)}"
    yield say(f"{plan.material}: buy {len(plan.bars)}{paid} ({best})")
    same: dict[tuple[float, tuple[str, ...], float], int] = {}
    for bar in plan.bars:
        key = (bar.stock_m, tuple(f"{cut.mark} {sawn(cut.length_m, style)}" for cut in bar.cuts), bar.left_m(plan.kerf_m, style))  # fmt: skip
        same[key] = same.get(key, 0) + 1
    for (stock_m, cuts, left_m), count in same.items():
        yield say(f"{count} x {sawn(stock_m, style)}: {', '.join(cuts)}; left {sawn(left_m, style)}", "      ", "        ")  # fmt: skip
    for word in plan.too_long:
        yield say(word, "    ! ", "      ")


def plate_stuff(plate: PlateCut, style: Style) -> str:
    """Thickness and steel of a plate, each where the file tells it."""
    thick = "thickness not given" if plate.thickness_m is None else f"{cut_length(plate.thickness_m, style)} thick"  # fmt: skip
    return f"{thick}, {'steel ' if plate.steel == 'not given' else ''}{plate.steel}"


def _plates(built: BuildResult, style: Style) -> Iterator[str]:
    yield heading("Plates and wraps")
    for plate in built.plates:
        mass = "" if plate.mass_kg is None else f", {in_style(plate.mass_kg, 'kg', style)} each"
        xs, ys = [x for x, _ in plate.outline_m], [y for _, y in plate.outline_m]
        size = f"{cut_length(max(xs) - min(xs), style)} x {cut_length(max(ys) - min(ys), style)}"
        yield say(f"{plate.count} {plate.name}: {size}, {plate_stuff(plate, style)}{mass}")
        yield say(plate.where, "      ")
        for hole in plate.holes:
            yield say(f"hole {hole.name}: {drill(hole.diameter_m, style)} at {hole_place(hole.x_m, style)}, {hole_place(hole.y_m, style)}", "      ")  # fmt: skip
        for note in plate.notes:
            yield say(note, "      * ", "        ")


def _joints(built: BuildResult, style: Style) -> Iterator[str]:
    yield heading("Bolts and pins")
    for joint in built.joints:
        long = "length not given" if joint.length_m is None else f"{cut_length(joint.length_m, style)} long"  # fmt: skip
        hole = "" if joint.hole_m is None else f", hole {drill(joint.hole_m, style)}"
        yield say(f"{joint.place}: {joint.count} x {joint.size}, {joint.steel}, {long}{hole}", "  ")
        yield say(f"{joint.tighten} ({joint.source})", "      ")


def _welds(built: BuildResult, style: Style) -> Iterator[str]:
    yield heading("Welds")
    for weld in built.welds:
        size = "" if weld.leg_m is None or weld.length_m is None else f", leg {cut_length(weld.leg_m, style)}, {cut_length(weld.length_m, style)} long, {weld.runs}"  # fmt: skip
        yield say(f"{weld.count} x {weld.place}{size}: {weld_words(weld, {})}", "  ", "      ")
    yield say("A weld without a check is not made by eye: leg and length from an engineer or the maker of what it holds.")  # fmt: skip


def _metals(built: BuildResult) -> Iterator[str]:
    yield heading("Metals that meet")
    for pair in built.metals:
        apart = "" if pair.apart_v is None else f", {pair.apart_v:.2f} V apart"
        eaten = f"; the {pair.eaten} is eaten" if pair.eaten else ""
        yield say(f"{pair.where}: {pair.one} on {pair.other}{apart}{eaten}", "  ")
        yield say(f"{pair.between}", "      ")
    yield say(APART)


def pour_lines(built: BuildResult, style: Style) -> Iterator[str]:
    """Concrete, its order, spoil."""
    pour = built.concrete
    yield heading("Pour")
    way = f"{pour.trucks} truck{'s' if pour.trucks > 1 else ''}" if pour.truck else "mixed by hand"
    bags = ", ".join(f"{one.count} of {one.bag}" for one in pour.bags_sold(style == "metric"))
    yield say(
        f"{in_place_words(pour, style)} "
        f"To order {pour.sold} ({pour.why}): {way}. Or from bags, a tenth for waste in them: {bags}."
    )
    yield say(f'"{pour.order}"', "      ")
    for doubt in pour.doubts:
        yield say(doubt, "  * ", "    ")
    yield say(
        f"Spoil {_cubic(pour.spoil_bank_m3, style)} in the ground, {_cubic(pour.spoil_loose_m3, style)} loose: a heap {set_length(pour.heap_wide_m, style, 'up')} wide and {set_length(pour.heap_high_m, style, 'up')} high, "
        f"its foot no nearer to the hole than {set_length(EDGE_M, style, 'up')}."
    )


def in_place_words(pour: Concrete, style: Style) -> str:
    """What the pour is, as a subtraction that adds up as it is shown: one rounding of all three, to a thousandth."""
    hole, pole = (round(styled(one, "m^3", style)[0], 3) for one in (pour.hole_m3, pour.pole_m3))
    unit = styled(1.0, "m^3", style)[1].replace("^3", "³")
    return f"Hole and collar {hole:.3f} {unit}, less the pole {pole:.3f} {unit}, is {hole - pole:.3f} {unit} in place."


def _cubic(volume_m3: float, style: Style) -> str:
    return in_style(volume_m3, "m^3", style).replace("^3", "³")


def _trench(built: BuildResult, style: Style) -> Iterator[str]:
    trench = built.trench
    yield heading("Trench")
    yield say(
        f"{set_length(trench.length_m, style, 'up')} long at most, {set_length(trench.width_m, style, 'up')} wide, {set_length(trench.depth_m, style, 'up')} deep: {_cubic(trench.bank_m3, style)} in the ground, {_cubic(trench.loose_m3, style)} loose. "
        f"Sand or sifted soil under, about and over the line {_cubic(trench.bedding_m3, style)}; loose soil left over {_cubic(trench.over_m3, style)}. Ribbon {length(trench.ribbon_below_m, style)} below the ground."
    )
    for what in trench.contents:
        yield say(what, "  - ", "    ")
    for check in trench.checks:
        if not check.holds:
            yield say(f"Not {check.name}: slope it, or hold its sides, and set a ladder.", "  ! ", "    ")  # fmt: skip


def _braces(built: BuildResult, style: Style) -> Iterator[str]:
    braces = built.braces
    yield heading("The pole plumb")
    yield say(
        f"Braces at {set_length(braces.at_m, style, 'near')} over the ground, {set_length(braces.long_m, style, 'up')} long or more, stakes {set_length(braces.stakes_m, style, 'near')} from the pole. Its top within {set_length(braces.plumb_m, style, 'down')} of plumb, both ways. {braces.words}"
    )
    for row in braces.rows:
        yield say(
            f"In a gust of {gust(row.gust_m_s, style)}: {in_style(row.brace_n, 'N', style)} along a brace, push or pull; {in_style(row.stake_up_n, 'N', style)} up at its stake.",
            "      ",
        )


def lift_lines(built: BuildResult, style: Style, whole: bool) -> Iterator[str]:
    """Every lift; whole, with slings, tackle, holds and clear ground."""
    yield heading("Lifts")
    for lift in built.lifts:
        mass = "weight asked of its maker" if lift.mass_kg is None else in_style(lift.mass_kg, "kg", style)  # fmt: skip
        left = "" if lift.left_in_m_s is None else f"; left so, it stands to {gust(lift.left_in_m_s, style)} ({lift.gives_first})"  # fmt: skip
        times = f" ({lift.count} times)" if lift.count > 1 else ""
        yield say(f"{lift.name}{times}: {mass}{left}", "  ", "      ")
        if whole:
            yield from _lift(lift, style)
    yield say(f"Lift under {gust(built.lifts[0].lift_under_m_s, style)}. {CALM_WORDS}")


def _lift(lift: Lift, style: Style) -> Iterator[str]:
    if lift.parts:
        of = ", ".join(f"{name} {in_style(kg, 'kg', style)}" for name, kg in lift.parts)
        beside = f" Weighed by nobody: {', '.join(lift.unweighed)}; weigh the whole on the hook." if lift.unweighed else ""  # fmt: skip
        yield say(f"Of it {of}.{beside}", "      ")
    yield say(f"Centre of gravity {length(lift.centre_m, style)} {lift.datum}.", "      ")
    if lift.legs:
        legs = ", ".join(f"{leg.from_level_deg:.0f} deg {in_style(leg.each_n, 'N', style)}" for leg in lift.legs)  # fmt: skip
        gear = ", ".join(f"{one.gear} {in_style(one.breaks_n, 'N', style)}" for one in lift.gear)
        yield say(f"Each of two sling legs, angle from the LEVEL: {legs}; never flatter. Its tag no less than the last; breaking strength {gear}.", "      ")  # fmt: skip
        rope = ", ".join(f"{row.parts} parts {in_style(row.new_n, 'N', style)} (worn {in_style(row.worn_n, 'N', style)})" for row in lift.tackle[::2])  # fmt: skip
        yield say(f"On the rope of a tackle hauled downwards: {rope}.", "      ")
    if lift.push_n is not None:
        yield say(f"A gust at the limit pushes it with {in_style(lift.push_n, 'N', style)}.", "      ")  # fmt: skip
    yield say(f"{lift.how} Held by: {lift.holds}", "      ")
    yield say(
        f"Clear for {set_length(lift.clear_m, style, 'up')} all round: {lift.not_under}.", "      "
    )


def hanging_lines(order: HangingOrder, style: Style, whole: bool) -> Iterator[str]:
    """The order of the modules and what is out of balance."""
    yield heading("Hanging the modules")
    yield say(order.words)
    if whole:
        yield "      row  column   out of balance, laid flat: hinge    pole     worst tilt"
        for number_, step in enumerate(order.steps, start=1):
            hinge, pole, worst = (in_style(value, "N m", style) for value in (step.hinge_n_m, step.pole_n_m, step.worst_n_m))  # fmt: skip
            yield f"  {number_:>2}. {step.row:>3}{step.column:>8}{hinge:>32}{pole:>12}{worst:>14}"
    else:
        yield say("Row (1 lowest) and column (1 at the left, seen from the glass): " + ", ".join(f"{s.row}-{s.column}" for s in order.steps) + ".")  # fmt: skip
    sure = "no order has less" if order.proved else "perhaps not the least"
    yield say(
        f"Largest out of balance about the hinge, laid flat: {in_style(order.largest_hinge_n_m, 'N m', style)} ({sure}); one side first, {in_style(order.one_side_first_n_m, 'N m', style)}. "
        f"At the worst tilt the hold bears {in_style(order.largest_worst_n_m, 'N m', style)} of weight, wind beside."
    )
    for check in order.checks:
        yield say(f"{check.part}: {use_of(check.use)}.")


def _end(built: BuildResult) -> Iterator[str]:
    yield ""
    yield say(
        f"--working ITEM shows how a figure was found: {', '.join(['concrete', 'trench', 'braces', 'lift', 'storm hold'])}. {CAUTION}"
    )
    for caution in built.cautions:
        yield say(caution, "  * ", "    ")
