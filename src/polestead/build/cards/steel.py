"""Cards of the steel: shop, weld, coat, lift, load modules."""

from __future__ import annotations

from polestead.build.cards.card import AsBuilt, Card, CardStep, Figure
from polestead.build.cards.known import Known, card, count, text
from polestead.build.given import BEARINGS
from polestead.build.lifts.lift import module_gust_m_s
from polestead.build.lifts.slings import SlingLeg
from polestead.build.pieces.welds import weld_words

GRIND_BACK_M = 0.0508  # 2 in of bright steel about a weld on zinc: as trade guides to welding galvanized steel tell (seen)
COAT_OVER_COLLAR_M = 0.1  # a hand: common practice, no source
SLUNG_DEG = 60.0
WELDS = "welds of the hinge ears"


def shop_cards(k: Known) -> tuple[Card, ...]:
    """Cut, drill, fit on the floor."""
    g = k.given
    bars = sum(len(plan.bars) for plan in k.built.cut_list)
    figures = [
        count(sum(p.count for p in k.built.pieces if p.cut_from is not None), "pieces to saw"),
        count(bars, "bars they come from"),
        Figure(g.geometry.width_m, "m", "strongback, the array's width"),
        Figure(g.geometry.chord_m, "m", f"each of {g.rails} rails"),
        Figure(g.mount.hinge_span_m, "m", "between the hinge bearings"),
        Figure(g.mount.hinge_pin_m, "m", "hinge pin"),
    ]
    steps = (
        CardStep("Mark every piece with its letter from the cut list before the saw starts.", "Wear eye and ear guards; no gloves at drill or saw."),
        CardStep("Saw the longest first; measure each, and keep the drop."),
        CardStep("Drill both ears of a pair clamped together: the pin runs straight through."),
        CardStep("Lay the frame out on the floor: square by both diagonals, pins in by hand.", "Block it up on stands: no hand under steel that a jack alone holds."),
        CardStep("Try storm hold and prop in every hole, on the floor, before paint."),
        CardStep("Weigh strongback and rails, or add them up."),
    )  # fmt: skip
    return (card(
        "shop", "Shop", figures, steps, sketch="shop",
        as_built=(
            AsBuilt("between bearings", "mount.hinge_span"),
            AsBuilt("axis to glass", "mount.glass_above_hinge"),
            AsBuilt("strongback weighs", "mount.strongback_mass"),
            AsBuilt("rails, clamps weigh", "mount.rails_mass"),
        ),
        missing=() if g.frame.rail is not None else ("the rails' size (frame.rail)",),
        notes=(f"{len(k.built.not_given)} things the file does not tell stand in the book under Pieces and cut list.",) if k.built.not_given else (),
    ),)  # fmt: skip


def weld_cards(k: Known) -> tuple[Card, ...]:
    """The welds on which everything hangs: a test piece first, then the ears."""
    f = k.given.frame
    sizes, missing = _weld_sizes(k)
    tried = card(
        "weld", "Weld: break a test piece", sizes,
        (
            CardStep("Weld two offcuts of the same plate, one fillet of this leg, one side only.", "Clear all that burns within 35 ft (11 m); water by you; watch half an hour after."),
            CardStep("Clamp one leg, hammer the other over onto the weld until it opens."),
            CardStep("Good: torn through grey weld metal, root fused along the whole length."),
            CardStep("Bad: shiny unfused root, holes, slag. Change the heat and weld another."),
        ),
        gate="test piece", sketch="test piece", missing=missing,
    )  # fmt: skip
    figures = [count(2 * BEARINGS, "hinge ears, welded on both sides"), *sizes[:2]]
    for check in k.stand.checks:
        if check.part.startswith(WELDS):
            everyday = "everyday gusts of many years" if "everyday" in check.part else "the code's wind"  # fmt: skip
            figures.append(text(f"{_of_100(check.use)} of 100", f"of it used by {everyday}"))
    figures.append(Figure(GRIND_BACK_M, "m", "zinc ground off, each side", way="up"))
    if f.cap_weld_leg_m is not None:
        figures.append(Figure(f.cap_weld_leg_m, "m", "leg round cap and pole"))
    ears = card(
        "weld", "Weld: the hinge ears", figures,
        (
            CardStep("Grind zinc and paint back to bright steel.", "Keep the air across the work, wear a P100 mask: zinc gives a fever."),
            CardStep("Tack both ears, the pin through them; check square; weld in turn, short runs.", "Clamp the earth lead next to the weld: never through a bearing, nor with the array's wires joined."),
            CardStep("Carry each run round the ear's end; stop and start at no corner."),
            CardStep("Look, brushed bright: a little full, legs alike by the gauge, toes smooth. A crack, a groove at a toe, holes, a lump that lies on: cut it out, weld again.", "Drill no hole to stop a crack, and weld nothing over one."),
            CardStep("Leave the hinge to a welder with papers, if yours fails twice."),
        ),
        sketch="ears", as_built=(AsBuilt("leg, the least", "frame.weld_leg"), AsBuilt("foot, welded", "frame.weld_length")), goes_on=True,
    )  # fmt: skip
    return (tried, ears, _other_welds(k))


def _other_welds(k: Known) -> Card:
    """Every other weld: what its check says, or that it has none."""
    uses = {check.part: check.use for check in k.stand.checks}
    others = [weld for weld in k.built.welds if not weld.place.startswith("foot of each hinge ear")]
    figures = []
    for weld in (one for one in others if one.part):
        figures += [Figure(weld.leg_m or 0.0, "m", f"leg, {weld.place}"), Figure(weld.length_m or 0.0, "m", f"long, {weld.runs}; {weld_words(weld, uses)}")]  # fmt: skip
    bare = [weld for weld in others if not weld.part]
    figures.append(count(sum(weld.count for weld in bare), "places with a weld that has no check"))
    figures.append(text("______", "leg and length for them, in an engineer's hand"))
    if k.given.frame.weld_leg_m is not None:
        figures.append(Figure(k.given.frame.weld_leg_m, "m", "leg of the ears, which says nothing of these"))  # fmt: skip
    steps = (
        CardStep("Write leg and length beside each place, from the engineer or the maker of what it holds.", "Without one it is not welded: no sum here stands behind it."),
        *(CardStep(f"{weld.place[0].upper()}{weld.place[1:]}: {weld.count}.") for weld in bare),
    )  # fmt: skip
    return card("weld", "Weld: all the others", figures, steps, sketch="shop", goes_on=True)


def _weld_sizes(k: Known) -> tuple[list[Figure], tuple[str, ...]]:
    f = k.given.frame
    if f.weld_leg_m is None or f.weld_length_m is None:
        return [], ("leg and length of the ears' weld (frame.weld_leg, frame.weld_length): not summed without",)  # fmt: skip
    sizes = [
        Figure(f.weld_leg_m, "m", "leg of the fillet, both alike"),
        Figure(f.weld_length_m, "m", "long, each side of an ear"),
    ]
    if f.ear_thickness_m is not None:
        sizes.append(Figure(f.ear_thickness_m, "m", f"plate, {f.ear_steel}"))
    return sizes, ()


def coat_cards(k: Known) -> tuple[Card, ...]:
    """Against rust and between metals."""
    g = k.given
    touching = [m for m in k.built.metals if not m.as_they_are]
    worst = next((m for m in k.built.metals if m.apart_v is not None), None)
    figures = [
        text(g.frame.finish or "not told", "finish of rails, strongback and pole"),
        count(len(touching), "places with something between two metals"),
        Figure(COAT_OVER_COLLAR_M, "m", "coat over and under the collar's top", way="up"),
        Figure(g.footing.collar_m, "m", "collar over the ground"),
    ]
    if worst is not None:
        figures.append(Figure(worst.apart_v or 0.0, "V", f"worst pair: {worst.one} and {worst.other}"))  # fmt: skip
    steps = (
        CardStep("Cut vent and drain holes in every closed tube that goes into a zinc bath.", "Send no closed tube to the bath: it bursts."),
        CardStep("Clean to bright steel, free of oil; coat the same day, two coats.", "Keep flame and sparks off; wear a mask against the solvent."),
        CardStep("Coat first what cannot be reached later: in the sleeve, behind the ears."),
        CardStep("Leave bare and grease: pin holes, and the faces under earth clamps."),
        CardStep("Coat the pole from a hand below the collar's top to a hand above it."),
        CardStep("Put isolators, paste and washers by their places, from the chart of metals."),
    )  # fmt: skip
    return (card(
        "coat", "Coat", figures, steps, sketch="collar",
        as_built=(AsBuilt("finish it got", "frame.finish"),),
        missing=() if g.frame.finish is not None else ("the finish (frame.finish): the chart shows zinc and bare steel both",),
        notes=("The chart of your own metals stands in the book under Pieces and cut list.",),
    ),)  # fmt: skip


def lift_cards(k: Known) -> tuple[Card, ...]:
    """Strongback and hinge up; then held before the hook comes off."""
    g = k.given
    frame = k.lift("strongback, rails")
    figures = [
        Figure(frame.mass_kg or 0.0, "kg", "strongback, rails and hinge"),
        Figure(g.geometry.hinge_height_m, "m", "up to the hinge axis"),
        Figure(frame.lift_under_m_s, "m/s", "no lift in a gust over this"),
        Figure(frame.clear_m, "m", "nobody within this, but at the tag lines", way="up"),
    ]
    leg = _leg(frame.legs)
    if leg is not None:
        figures.append(
            Figure(leg.each_n, "N", f"on each of two slings at {leg.from_level_deg:.0f}°")
        )
    missing = _no_hold(k)
    unknown = (f"weight of {', '.join(frame.unweighed)}: not in the figure; weigh the whole on the hook",) if frame.unweighed else ()  # fmt: skip
    up = card(
        "lift", "Lift: up to the hinge", figures,
        (
            CardStep("Read the wind for ten minutes; put it off if one gust is over the figure.", "Look up: no power line within 10 ft (3 m) of hook, load or rope; more where its volts are not known. Not at dusk, not alone."),
            CardStep("Lift it a foot (30 cm), hold; look at slings and balance; set it down if it tips.", "Use slings with a tag, none flatter than 30° from the level."),
            CardStep("Bring it over the hinge from one side, a tag line at each end.", "Stand nowhere under it, nor between load and pole."),
            CardStep("Drive both hinge pins, cotter them.", "No finger in a hole: use a drift."),
        ),
        sketch="lift", missing=(*missing, *unknown),
    )  # fmt: skip
    held = [Figure(g.geometry.hinge_height_m, "m", "hinge axis over the ground")]
    if g.lock is not None:
        held.append(Figure(g.lock.pin_diameter_m, "m", "pin of the storm hold"))
    if frame.left_in_m_s is not None:
        held.append(Figure(frame.left_in_m_s, "m/s", "gust it stands to, left so, storm hold in"))
    held.append(count(g.rails, "rails, from the middle outwards"))
    hung = card(
        "lift", "Lift: hold it before you unhook", held,
        (
            CardStep("Set storm hold and prop, pins through and cottered; shake both.", "Unhook only after both are in: the frame alone wants to swing."),
            CardStep("Bolt on by hand what came apart, from the middle, left and right in turn."),
            CardStep("Measure the hinge over the ground, and the pole's top under it."),
        ),
        gate="modules", sketch="held", missing=missing, goes_on=True,
        as_built=(
            AsBuilt("hinge over ground", "mount.hinge_height"),
            AsBuilt("pole's top under it", "mount.pole_top_below_hinge"),
        ),
    )  # fmt: skip
    return (up, hung)


def load_cards(k: Known) -> tuple[Card, ...]:
    """Modules in their order; then tightened."""
    g, order = k.given, k.built.hanging
    module, one = g.array.module, k.lift("one module")
    figures = [
        count(g.modules, "modules, in the order of the sketch"),
        Figure(module.mass_kg, "kg", "each"),
        Figure(order.largest_hinge_n_m, "N m", "most out of balance at the hinge"),
        Figure(order.one_side_first_n_m, "N m", "had one side been hung first"),
        Figure(module_gust_m_s(module.mass_kg, module.length_m * module.width_m), "m/s", "two people do not rule one in more"),
    ]  # fmt: skip
    if one.left_in_m_s is not None:
        figures.append(Figure(one.left_in_m_s, "m/s", "gust it stands to, half of them hung"))
    missing = _no_hold(k)
    hang = card(
        "load modules", "Load modules: hang them", figures,
        (
            CardStep("Shake storm hold and prop: both in, cottered.", "Hang nothing while the rod alone holds the frame."),
            CardStep("Cap or tape every lead; keep the glass covered until it is wired.", "Take each lead for live: modules give volts in any light."),
            CardStep("Hang them in order, all clamps on, finger-tight, before one is let go.", "Keep everyone from below; two platforms, not ladders."),
            CardStep("Stop if a gust lifts one from the hand; leave it in balance, both holds in."),
        ),
        sketch="order", missing=missing, notes=order_words(order.proved),
    )  # fmt: skip
    tighten = card(
        "load modules", "Load modules: tighten them",
        [
            Figure(g.array.gap_m, "m", "gap between modules"),
            Figure(g.array.slot_m, "m", "slot over the strongback"),
            count(sum(j.count for j in k.built.joints if j.place == "module clamps"), "clamps in all"),
            text("______", "torque, off the makers' sheets, the lower"),
        ],
        (
            CardStep("Set the gaps by a spacer; clamps only where the maker's zones are."),
            CardStep("Tighten in the order they were hung, from the middle out.", "Lift none by its leads or box; stand on no glass and no rail."),
            CardStep("Mark each bolt across nut and rail with paint."),
            CardStep("Go round once more after the first month: what has turned shows."),
        ),
        sketch="clamps", goes_on=True,
        as_built=(AsBuilt("gap", "array.gap"), AsBuilt("slot", "array.slot"), AsBuilt("clamps on each", "frame.clamps_per_module")),
        missing=("the torque: read it off the clamps' and the modules' sheets",),
    )  # fmt: skip
    return (hang, tighten)


def order_words(proved: bool) -> tuple[str, ...]:
    """What the order is good for."""
    return ("No other order leaves the hinge less out of balance.",) if proved else ()


def _no_hold(k: Known) -> tuple[str, ...]:
    """Storm hold and prop, where the file has none."""
    holds = (("storm hold", "lock", k.given.lock), ("prop", "prop", k.given.prop))
    return tuple(f"the {name} ([{key}])" for name, key, there in holds if there is None)


def _leg(legs: tuple[SlingLeg, ...]) -> SlingLeg | None:
    return next((leg for leg in legs if leg.from_level_deg == SLUNG_DEG), None)


def _of_100(use: float) -> str:
    return f"{100.0 * use:.0f}" if use <= 1.0 else f"{max(101.0, 100.0 * use):.0f}"
