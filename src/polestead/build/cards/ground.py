"""Cards of the ground: locate, stake, trench, hole, aim and plumb, pour."""

from __future__ import annotations

import numpy as np

from polestead.build.cards.card import AsBuilt, Card, CardStep, Figure
from polestead.build.cards.known import Known, card, count, text
from polestead.build.cure import STEEL_SHARE, cured_by
from polestead.build.ground.concrete import rounded_order, strength_words
from polestead.mount.geometry import top_height_m
from polestead.wiring.trench.closing import InTrench
from polestead.wiring.trench.own_lines import BY_HAND_M, NOBODY_MARKS

HEAP_FROM_EDGE_M = 0.6096  # 2 ft: 29 CFR 1926.651(j)(2) (seen)
# The verb each thing of the trench's list begins its step with.
VERBS = {
    "trench floor": "Level the trench floor", "bed of sand or sifted soil": "Spread the bed of sand or sifted soil",
    "own lines laid bare": "Lay your own lines bare", "pipe": "Lay the pipe", "sweeps": "Set the sweeps",
    "expansion fitting": "Fit the expansion fitting", "slip risers": "Fit slip risers", "live wires, each of two": "Pull in both live wires",
    "earth wire": "Pull in the earth wire", "other live wires": "Pull in the other live wires",
    "bare copper, if wanted against lightning": "Lay bare copper, if wanted against lightning", "low-voltage wire": "Lay the low-voltage wire",
    "signal wire of the rapid shutdown": "Lay the signal wire of the rapid shutdown",
    "spare pull string": "Leave a pull string", "guard pipe at the pole": "Fix guard pipe at the pole", "guard pipe at the wall": "Fix guard pipe at the wall", "riser at the pole": "Set the riser at the pole", "riser at the wall": "Set the riser at the wall", "ends sealed": "Seal both ends",
    "PHOTOGRAPH with a tape in it": "Photograph it with a tape in it", "sand or sifted soil over the line": "Spread sand or sifted soil over the line",
    "warning ribbon": "Lay the warning ribbon",
}  # fmt: skip


def locate_card(k: Known) -> Card:
    """Find what lies in the ground already."""
    lines = k.trench.own.lines
    figures = [
        count(len(lines), "lines of your own in the file"),
        Figure(BY_HAND_M, "m", "only a spade within this of any mark"),
        Figure(k.given.run.length_m, "m", "run to walk and mark"),
    ]
    for line in lines[:2]:
        if line.crosses_at_m is not None:
            figures.append(Figure(line.crosses_at_m, "m", f"{line.name} crosses the run, from the pole"))  # fmt: skip
        if line.top_m is not None:
            figures.append(Figure(line.top_m, "m", f"{line.name}, depth to its top"))
    steps = (
        CardStep("Ring the public dig line; ask how many working days it wants before the spade.", "Wait for its answer: no mark is not the same as no line."),
        CardStep("Walk the ground with all who ever dug here; flag water, gas, septic, every earlier cable.", "Take every line for live and full until you have seen its end."),
        CardStep("Dig by hand across each mark until you see the line; measure its depth.", "Stop at a smell of gas: go, and ring from far off."),
        CardStep("Tape each from two corners that stay, and write it into the file."),
        CardStep("Move the stake or the trench on paper now, while it costs nothing."),
    )  # fmt: skip
    missing = () if lines else ("your own buried lines, each as [[buried]]",)
    asked = tuple(word for line in lines for word in line.asked)
    return card(
        "locate", "Find what lies in the ground", figures, steps, sketch="plan",
        as_built=(
            AsBuilt("depth of each line to its top", "buried.depth"),
            AsBuilt("where it crosses the run, from the pole", "buried.crosses_run_at"),
            AsBuilt("tape to it from two corners that stay", "buried.offsets"),
        ),
        missing=(*missing, *asked), notes=(NOBODY_MARKS,),
    )  # fmt: skip


def stake_card(k: Known) -> Card:
    """Where the pole stands."""
    g = k.given
    geometry, place = g.geometry, g.place
    top = float(top_height_m(geometry, np.array([geometry.steepest_tilt_deg]))[0])
    figures = [
        Figure(g.mount.facing_deg, "deg", "glass looks, from true north"),
        Figure(g.footing.diameter_m, "m", "hole across"),
        Figure(geometry.width_m, "m", "array wide"),
        Figure(geometry.chord_m, "m", "array from low to top edge"),
        Figure(top, "m", "top edge at the steepest tilt"),
    ]
    if place.height_limit_m is not None:
        figures.append(Figure(place.height_limit_m, "m", "height limit there"))
    if place.setback_m is not None:
        figures.append(Figure(place.setback_m, "m", "setback, to the nearest part of the array"))
    steps = (
        CardStep("Drive the pole's stake; two more in line well outside the hole, both ways, so that it can be found again."),
        CardStep("Tape the setback from the boundary to the nearest edge the array will ever have, not to the pole.", "Look up: no power line over hook, array or its fall."),
        CardStep("Stand at the stake at nine, noon and three by the sun; look for trees, roof slides and where the plough throws snow."),
        CardStep("Lay out the true north-south line; mark the trench with paint."),
        CardStep("Drive a truck's width to it, and see where the soil will lie and which way the loader leaves."),
    )  # fmt: skip
    missing = []
    if place.height_limit_m is None:
        missing.append("height limit (place.height_limit)")
    if place.setback_m is None:
        missing.append("setback (place.setback)")
    return card(
        "stake", "Stake the pole", figures, steps, sketch="plan", missing=tuple(missing),
        as_built=(AsBuilt("run, pole to controller, taped along the paint", "run.length"),),
    )  # fmt: skip


def trench_card(k: Known) -> Card:
    """The trench, from its floor to the last foot of soil."""
    found, dug = k.trench, k.built.trench
    figures = [
        Figure(found.lengths.floor_m, "m", "deep, to its floor"),
        Figure(dug.width_m, "m", "wide"),
        Figure(found.lengths.level_m, "m", "long, on the level"),
        Figure(k.given.run.cover_m, "m", "soil over the line"),
        Figure(found.ribbon.depth_m, "m", "ribbon below the ground"),
    ]
    if found.conduit is not None:
        figures.append(text(f"{found.conduit.pipe.trade} {found.conduit.pipe.kind}", "pipe"))
    by_hand = next((line for line in found.own.lines if line.hand_dig_m is not None), None)
    if by_hand is not None and by_hand.hand_dig_m is not None:
        figures.append(Figure(by_hand.hand_dig_m[0], "m", f"by hand from here on, from the pole ({by_hand.name})"))  # fmt: skip
    steps = [
        CardStep("Dig from the house end; heap the soil on one side, two feet and more from the edge.", "Keep out of it where it is 5 ft (1.5 m) deep, or less where it crumbles, until its sides are sloped or held."),
    ]  # fmt: skip
    gate_after = 0
    for item in found.items:
        if item.what == "SIGN-OFF":
            gate_after = len(steps) - 1
        else:
            steps.append(_laid(item))
    steps.append(CardStep("Fill in layers, tread each down, leave it a hand proud."))
    return card(
        "trench", "Trench", figures, tuple(steps), gate=(gate_after, "trench"), sketch="section",
        as_built=(
            AsBuilt("soil over the line, least of three places", "run.cover"),
            AsBuilt("run, pole to controller, as laid", "run.length"),
            AsBuilt("where it crosses your own lines", "buried.crosses_run_at"),
        ),
        missing=() if found.own.lines else ("your own buried lines, each as [[buried]]",),
        notes=found.notes,
    )  # fmt: skip


def _laid(item: InTrench) -> CardStep:
    verb = VERBS[item.what]
    size = f": {item.size}" if item.size else ""
    where = f", {item.where}" if item.where else ""
    caution = "Lift it out by hand: no bucket within a spade's length of it." if item.what == "own lines laid bare" else ""  # fmt: skip
    return CardStep(f"{verb}{size}{where}.", caution)


def hole_card(k: Known) -> Card:
    """The hole."""
    f, pour = k.given.footing, k.built.concrete
    figures = [
        Figure(f.diameter_m, "m", "across"),
        Figure(f.depth_m, "m", "deep"),
        Figure(f.pole_depth_m, "m", "pole's foot below the ground"),
        Figure(f.collar_m, "m", "collar over the ground"),
        Figure(pour.spoil_loose_m3, "m^3", "soil that comes out, loose"),
        Figure(pour.heap_wide_m, "m", "its heap, wide"),
        Figure(HEAP_FROM_EDGE_M, "m", "heap's foot from the edge, no nearer"),
    ]
    steps = (
        CardStep("Drill to depth in one go, plumb; look at what comes up all the way down.", "Never climb in, nor lean over: pier holes fall in without a sound."),
        CardStep("Stop at water, peat, fill or rock that the file does not know; ring before going on.", "Pour nothing into soil of another class: the sums do not hold there."),
        CardStep("Measure depth and width from above, at two crossings, with rod and tape."),
        CardStep("Clean the foot from above; loose soil under a pier settles."),
        CardStep("Plank it over, weight the planks, fence it.", "Cover it whenever nobody stands beside it, and every night: children and animals."),
    )  # fmt: skip
    return card(
        "hole", "Hole", figures, steps, sketch="hole",
        as_built=(
            AsBuilt("hole, least width of two crossings", "footing.diameter"),
            AsBuilt("depth, least of three soundings", "footing.depth"),
            AsBuilt("soil that came up", "place.soil"),
            AsBuilt("water in it, below the ground", "place.water_depth"),
        ),
        missing=() if f.twist_bars or f.cage_bars else ("twist bars: the file has neither these nor a cage",),
        notes=tuple(f"Not {c.name}: {c.part} is deeper than {c.capacity:.2f} m." for c in k.built.trench.checks if not c.holds),
    )  # fmt: skip


def aim_card(k: Known) -> Card:
    """Pole into the hole, braced, plumb, aimed."""
    braces, aim, f = k.built.braces, k.aim, k.given.footing
    figures = [Figure(braces.plumb_m, "m", "pole's top may be off plumb, either way"), Figure(k.given.mount.facing_deg, "deg", "glass looks, from true north")]  # fmt: skip
    missing = []
    notes = ["A clock on summer time shows one hour more.", "A compass is turned by truck, pole and wrist watch: the shadow counts, the compass only bars a gross slip."]  # fmt: skip
    if aim is None:
        missing.append("a date: then solar noon and the compass stand here")
    else:
        figures.append(text(aim.noon, f"solar noon on {aim.on:%d %b %Y}, standard time"))
        if aim.compass_deg is None:
            missing.append("the compass: the date lies past the magnetic models at hand")
        else:
            figures.append(Figure(aim.compass_deg, "deg", "the compass shows, where the glass looks"))  # fmt: skip
        if aim.shadow_per_m is None:
            missing.append("a shadow: the noon sun is too low on this date")
        else:
            figures.append(Figure(aim.turns_deg_per_min, "deg", "the shadow turns in a minute"))
            notes.append(f"At solar noon the shadow of a plumb line points true {'north' if aim.shadow_to_deg == 0.0 else 'south'}; the glass looks {abs(aim.off_shadow_deg):.1f} deg {'clockwise' if aim.off_shadow_deg > 0.0 else 'anticlockwise'} of the sun then." if abs(aim.off_shadow_deg) >= 0.05 else f"At solar noon the shadow of a plumb line points true {'north' if aim.shadow_to_deg == 0.0 else 'south'}, straight away from where the glass looks.")  # fmt: skip
    figures += [Figure(braces.at_m, "m", "braces meet the pole, over the ground"), Figure(braces.stakes_m, "m", "stakes from the pole")]  # fmt: skip
    foot = "Lower the pole, foot first, its twist bars through it" if f.twist_bars else "Lower the pole, foot first"  # fmt: skip
    steps = (
        CardStep(f"{foot}, to the depth marked on it; conduit sweep and earth wire tied in.", "Stand clear of hook and hole: nobody reaches under a hanging pole."),
        CardStep("Clamp and stake both braces, square to each other, before the hook comes off.", "Keep hands off the pole while it hangs."),
        CardStep("Plumb it both ways with two long levels or two plumb lines."),
        CardStep("Hang a plumb line on the pole; at solar noon mark its shadow, a minute before and after too; turn the pole to it.", "Do not look into the sun, nor through a glass at it."),
        CardStep("Read plumb again, both ways; mark pole and brace with paint so that any turn shows."),
        CardStep("Call for the footing to be looked at; photograph bars, sweep and depth with a tape in the picture."),
    )  # fmt: skip
    return card(
        "aim", "Aim and plumb", figures, steps, gate=(5, "footing"), sketch="plan",
        as_built=(
            AsBuilt("where the glass will look, from true north", "mount.facing"),
            AsBuilt("pole's foot below the ground", "footing.pole_depth"),
        ),
        missing=tuple(missing), notes=(braces.words, *notes),
    )  # fmt: skip


def pour_card(k: Known) -> Card:
    """The pour and the cure clock."""
    g, pour = k.given, k.built.concrete
    f = g.footing
    cure = k.cure or cured_by((), f.concrete_pa)
    figures = [
        text(rounded_order(pour.with_waste_m3, g.metric), "to order, a tenth for waste in it"),
        count(pour.bags_80_lb, "or bags of 80 lb (36 kg)"),
        text(strength_words(f.concrete_pa, g.eurocode), "strength at 28 days"),
        Figure(f.collar_m, "m", "collar over the ground, sloped to drain"),
    ]
    named = {"strip": "strip the collar's form", "bare steel": "bare steel on the pole", "modules": "modules"}  # fmt: skip
    for mark in cure.marks:
        if mark.on is not None:
            figures.append(text(f"{mark.on:%a %d %b %Y}", f"{named[mark.name]}, by the temperatures written down"))  # fmt: skip
        elif mark.least_days is not None:
            figures.append(Figure(mark.least_days, "d", f"{named[mark.name]}: days at 20 C (68 F), more when colder"))  # fmt: skip
    steps = (
        CardStep("Wet the soil, take the planks off, look once more down the hole.", "Wear boots, gloves and goggles: wet concrete burns skin and eyes, and is not felt until later."),
        CardStep("Pour without a stop, round the pole in turn; rod or vibrate each foot of it." + (" Fill the pole as high as the concrete outside." if f.pole_filled else "")),
        CardStep("Add no water, and no calcium chloride: there is steel in it."),
        CardStep("Read plumb and aim again at once, and once more after half an hour.", "Keep off the pole and its braces until it is hard."),
        CardStep("Slope the collar; cover it; keep it damp for a week."),
        CardStep("Write the mean temperature of each day.", "Keep it from freezing while young: concrete that froze early never gets its strength. No flame under a closed cover: it kills by its breath."),
        CardStep("Leave the braces until it has all its strength."),
    )  # fmt: skip
    return card(
        "pour", "Pour", figures, steps, gate=(6, "bare steel"), sketch="hole",
        as_built=(
            AsBuilt("collar over the ground", "footing.collar"),
            AsBuilt("strength on the delivery ticket", "footing.concrete"),
            AsBuilt("where the glass will look, read again after the pour", "mount.facing"),
        ),
        missing=() if k.cure is not None and any(day.air_c is not None for day in k.cure.days) else ("temperatures since the pour: until then the clock counts days at 20 C",),
        notes=(f"To say: {pour.order}", *pour.doubts, *cure.notes, f"Bare steel at {STEEL_SHARE:.0%} of the strength is our own rule."),
    )  # fmt: skip
