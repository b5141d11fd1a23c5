"""Cards of the steel: shop, weld, coat, lift, load modules."""

from __future__ import annotations

from polestead.build.cards.card import AsBuilt, Card, CardStep, Figure
from polestead.build.cards.known import Known, card, count, text
from polestead.build.lifts.lift import CALM_WORDS, module_gust_m_s
from polestead.build.lifts.slings import SlingLeg
from polestead.build.pieces.hinge import BEARINGS

GRIND_BACK_M = 0.0508  # 2 in of bright steel about a weld on zinc: as trade guides to welding galvanized steel tell (seen)
COAT_OVER_COLLAR_M = 0.1  # a hand: common practice, no source
SLUNG_DEG = 60.0
WELDS = "welds of the hinge ears"


def shop_card(k: Known) -> Card:
    """Cut, drill, fit on the floor."""
    g = k.given
    bars = sum(len(plan.bars) for plan in k.built.cut_list)
    figures = [
        count(sum(p.count for p in k.built.pieces if p.cut_from is not None), "pieces to saw"),
        count(bars, "bars they come from"),
        Figure(g.geometry.width_m, "m", "strongback, the array's width"),
        Figure(g.geometry.chord_m, "m", f"each of {g.rails} rails"),
        Figure(g.mount.hinge_span_m, "m", "between the two hinge bearings"),
        Figure(g.mount.hinge_pin_m, "m", "hinge pin"),
    ]
    steps = (
        CardStep("Mark every piece with its letter from the cut list before the saw starts.", "Wear eye and ear guards; no gloves at drill or saw."),
        CardStep("Saw the longest first; measure each, and keep the drop."),
        CardStep("Drill both ears of a pair clamped together, so that the pin runs straight through."),
        CardStep("Lay the whole frame out on the floor: square by both diagonals, hinge pins through by hand.", "Block it up on stands: no hand under steel that a jack alone holds."),
        CardStep("Try storm hold and prop in every hole, on the floor, before paint."),
        CardStep("Weigh strongback and rails, or add them up; write it into the file."),
    )  # fmt: skip
    return card(
        "shop", "Shop", figures, steps, sketch="hinge",
        as_built=(
            AsBuilt("between the two hinge bearings", "mount.hinge_span"),
            AsBuilt("hinge axis to glass, square to it", "mount.glass_above_hinge"),
            AsBuilt("strongback, weighed", "mount.strongback_mass"),
            AsBuilt("rails, clamps and hinge, weighed", "mount.rails_mass"),
        ),
        missing=() if g.frame.rail is not None else ("the rails' size (frame.rail)",), notes=k.built.not_given,
    )  # fmt: skip


def weld_card(k: Known) -> Card:
    """The welds on which everything hangs."""
    f = k.given.frame
    figures = [count(2 * BEARINGS, "hinge ears, welded on both sides of the foot")]
    missing = []
    if f.weld_leg_m is None or f.weld_length_m is None:
        missing.append("leg and length of the ears' weld (frame.weld_leg, frame.weld_length): not summed without")  # fmt: skip
    else:
        figures += [Figure(f.weld_leg_m, "m", "leg of the fillet, both legs alike"), Figure(f.weld_length_m, "m", "long, on each side of each ear")]  # fmt: skip
    for check in k.stand.checks:
        if check.part.startswith(WELDS):
            everyday = (
                "everyday gusts of many years" if "everyday" in check.part else "the code's wind"
            )
            figures.append(text(f"{_of_100(check.use)} of 100", f"of what the weld may carry is used by {everyday}"))  # fmt: skip
    figures.append(Figure(GRIND_BACK_M, "m", "zinc and paint ground off, each side of the weld"))
    if f.cap_weld_leg_m is not None:
        figures.append(Figure(f.cap_weld_leg_m, "m", "leg of the fillet round cap and pole"))
    steps = (
        CardStep("Weld a test piece: two offcuts of the same plate, one fillet of this leg, one side only.", "Clear all that burns within 35 ft (11 m), keep water by you, and watch for half an hour afterwards."),
        CardStep("Break it: clamp one leg, hammer the other over onto the weld until it opens. Good: torn through grey weld metal, root fused along the whole length. Bad: shiny unfused root, holes, slag: change heat and weld another."),
        CardStep("Grind zinc and paint back to bright steel before you weld.", "Keep the air across the work and wear a P100 mask: zinc gives a fever hours later."),
        CardStep("Tack both ears with the pin through them; check square; weld in turn from side to side, short runs.", "Weld nothing near the batteries, and clamp the earth lead next to the weld: never through a bearing, nor with the array's wires joined."),
        CardStep("Carry each run round the end of the ear; stop and start nowhere at a corner."),
        CardStep("Look at each weld, brushed bright: flat or a little full, legs alike by the gauge, toes running smoothly into both plates. Cut out and weld again: a crack, a groove along a toe, holes, a lump that only lies on the plate."),
        CardStep("Leave the hinge to a welder with papers, if yours fails twice.", "Drill no hole to stop a crack, and weld nothing over one: cut it out."),
    )  # fmt: skip
    return card(
        "weld", "Weld", figures, steps, gate=(1, "test piece"), sketch="hinge",
        as_built=(AsBuilt("leg, the least found with the gauge", "frame.weld_leg"), AsBuilt("length of an ear's foot, welded", "frame.weld_length")),
        missing=tuple(missing),
    )  # fmt: skip


def coat_card(k: Known) -> Card:
    """Against rust and between metals."""
    g = k.given
    touching = [m for m in k.built.metals if not m.as_they_are]
    worst = next((m for m in k.built.metals if m.apart_v is not None), None)
    figures = [
        text(g.frame.finish or "not told", "finish of rails, strongback and pole"),
        count(len(touching), "places where something goes between two metals"),
        Figure(COAT_OVER_COLLAR_M, "m", "coat on the pole, over and under the collar's top"),
        Figure(g.footing.collar_m, "m", "collar over the ground"),
    ]
    if worst is not None:
        figures.append(Figure(worst.apart_v or 0.0, "V", f"apart, the worst pair: {worst.one} and {worst.other}"))  # fmt: skip
    steps = (
        CardStep("Cut vent and drain holes in every closed tube that goes into a zinc bath.", "Send no closed tube to the bath: it bursts."),
        CardStep("Clean to bright steel, free of oil; coat the same day; two coats, stripes on edges and welds first.", "Keep flame and sparks off; wear a mask against the solvent."),
        CardStep("Coat first what cannot be reached later: inside the sleeve, under the rails, behind the ears."),
        CardStep("Leave bare and grease: pin holes, and the faces under earth clamps."),
        CardStep("Coat the pole from a hand below the collar's top to a hand above it."),
        CardStep("Put isolators, paste and stainless washers by the places they belong to, from the chart of metals."),
    )  # fmt: skip
    return card(
        "coat", "Coat", figures, steps, sketch="section",
        as_built=(AsBuilt("finish it got", "frame.finish"),),
        missing=() if g.frame.finish is not None else ("the finish (frame.finish): the chart shows zinc and bare steel both",),
        notes=tuple(f"{m.where}: {m.between}" for m in touching),
    )  # fmt: skip


def lift_card(k: Known) -> Card:
    """Strongback and hinge up."""
    g = k.given
    frame = k.lift("strongback, rails")
    figures = [
        Figure(frame.mass_kg or 0.0, "kg", "strongback, rails and hinge together"),
        Figure(g.geometry.hinge_height_m, "m", "up to the hinge axis"),
        Figure(frame.lift_under_m_s, "m/s", "no lift in a gust over this"),
        Figure(frame.clear_m, "m", "nobody within this, but those at the tag lines"),
    ]
    leg = _leg(frame.legs)
    if leg is not None:
        figures.append(Figure(leg.each_n, "N", f"on each of two slings at {leg.from_level_deg:.0f} deg from the level"))  # fmt: skip
    if frame.left_in_m_s is not None:
        figures.append(
            Figure(frame.left_in_m_s, "m/s", "gust it stands to, left so, storm hold in")
        )
    missing = [f"the {name} ([{key}])" for name, key, there in (("storm hold", "lock", g.lock), ("prop", "prop", g.prop)) if there is None]  # fmt: skip
    steps = (
        CardStep("Read the wind for ten minutes; put it off if one gust is over the figure.", "Look up: no power line within 10 ft (3 m) of hook, load or rope, more where its voltage is not known."),
        CardStep("Lift it a foot, hold, look at slings and balance; set it down again if it tips.", "Use slings with a tag, none flatter than 30 deg from the level."),
        CardStep("Bring it over the hinge from one side, a tag line at each end.", "Stand nowhere under it, nor between load and pole; no finger in a hole: use a drift."),
        CardStep("Drive both hinge pins, cotter them."),
        CardStep("Set storm hold and prop, pins through and cottered.", "Unhook only after both are in: the frame alone wants to swing."),
        CardStep("Rails by hand from the middle outwards, left and right in turn, where they came apart from it."),
    )  # fmt: skip
    return card(
        "lift", "Lift", figures, steps, gate=(5, "modules"), sketch="side",
        as_built=(
            AsBuilt("hinge axis over the ground", "mount.hinge_height"),
            AsBuilt("pole's top below the hinge axis", "mount.pole_top_below_hinge"),
        ),
        missing=tuple(missing), notes=(f"Slung so: {frame.how}", CALM_WORDS, *k.built.notes),
    )  # fmt: skip


def load_card(k: Known) -> Card:
    """Modules in their order."""
    g, order = k.given, k.built.hanging
    module, one = g.array.module, k.lift("one module")
    figures = [
        count(g.modules, "modules"),
        Figure(module.mass_kg, "kg", "each"),
        text(" ".join(f"{s.row}-{s.column}" for s in order.steps), "order: row from the low edge - column from the left, seen from the glass"),
        Figure(order.largest_hinge_n_m, "N m", "most out of balance about the hinge, laid flat"),
        Figure(order.one_side_first_n_m, "N m", "had one side been hung first"),
        Figure(module_gust_m_s(module.mass_kg, module.length_m * module.width_m), "m/s", "two people do not rule a module in more"),
    ]  # fmt: skip
    if one.left_in_m_s is not None:
        figures.append(Figure(one.left_in_m_s, "m/s", "gust it stands to with half of them hung"))
    missing = tuple(f"{name} ([{key}])" for name, key, there in (("storm hold", "lock", g.lock), ("prop", "prop", g.prop)) if there is None)  # fmt: skip
    steps = (
        CardStep("Shake storm hold and prop: both in, cottered.", "Hang nothing while the rod alone holds the frame."),
        CardStep("Cap or tape every lead; keep the glass covered until it is wired.", "Take each lead for live: modules give volts in any light and cannot be switched off."),
        CardStep("Hang them in the order of the card, all clamps on and finger-tight before one is let go.", "Keep everyone from below; two platforms, not ladders; no module by its leads or box."),
        CardStep("Stop if a gust lifts one from the hand; leave it in balance, both holds in."),
        CardStep("Set the gaps by a spacer; clamps only where the maker's zones are."),
        CardStep("Tighten to the makers' torque, from the middle out; mark each bolt across nut and rail."),
    )  # fmt: skip
    return card(
        "load modules", "Load modules", figures, steps, sketch="side",
        as_built=(AsBuilt("gap between modules", "array.gap"), AsBuilt("slot over the strongback", "array.slot"), AsBuilt("clamps on each module", "frame.clamps_per_module")),
        missing=(*missing, "the torque: read it off the clamps' and the modules' sheets"), notes=(order.words,),
    )  # fmt: skip


def _leg(legs: tuple[SlingLeg, ...]) -> SlingLeg | None:
    return next((leg for leg in legs if leg.from_level_deg == SLUNG_DEG), None)


def _of_100(use: float) -> str:
    return f"{100.0 * use:.0f}" if use <= 1.0 else f"{max(101.0, 100.0 * use):.0f}"
