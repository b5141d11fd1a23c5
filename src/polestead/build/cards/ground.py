"""Cards of the ground: locate, stake, trench, hole, aim and plumb, pour."""

from __future__ import annotations

import numpy as np

from polestead.build.aim import Aim
from polestead.build.cards.card import AsBuilt, Card, CardStep, Figure
from polestead.build.cards.known import Known, card, count, in_chunks, text
from polestead.build.cards.steel import COAT_OVER_COLLAR_M
from polestead.build.cure import cured_by, share_words
from polestead.build.ground.concrete import strength_words
from polestead.build.ground.spoil import EDGE_M
from polestead.mount.geometry import swept_m, top_height_m
from polestead.wiring.trench.closing import InTrench
from polestead.wiring.trench.own_lines import BY_HAND_M

LINES_ON_A_CARD = 13
BLOCK_FROM_M = 0.02  # less than this under the pole's foot is a shim
NO_LINES = "your own buried lines: what lies there, how deep, how far from pole and run (in the file, each a [[buried]])"
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


def locate_cards(k: Known) -> tuple[Card, ...]:
    """Find what lies in the ground already."""
    lines = k.trench.own.lines
    figures = [
        count(len(lines), f"{'line' if len(lines) == 1 else 'lines'} of your own in the file"),
        Figure(BY_HAND_M, "m", "only a spade within this of any mark"),
        Figure(k.given.run.length_m, "m", "run to walk and mark"),
    ]
    for line in lines[:2]:
        if line.crosses_at_m is not None:
            figures.append(Figure(line.crosses_at_m, "m", f"from the pole: {line.name}"))
        if line.top_m is not None:
            figures.append(Figure(line.top_m, "m", f"to the top of: {line.name}"))
    steps = (
        CardStep("Ring the public dig line; ask how many working days it wants.", "Wait for its answer: no mark is not the same as no line."),
        CardStep("Walk the ground with all who ever dug here; flag every line they know.", "Take every line for live and full until you have seen its end."),
        CardStep("Dig by hand across each mark until you see the line; measure its depth.", "Stop at a smell of gas: go, and ring from far off."),
        CardStep("Tape each from two corners that stay, and write it into the file."),
        CardStep("Move the stake or the trench on paper now, while it costs nothing."),
    )  # fmt: skip
    missing = () if lines else (NO_LINES,)
    asked = tuple(word for line in lines for word in line.asked)
    return (card(
        "locate", "Find what lies in the ground", figures, steps, sketch="locate",
        as_built=(
            AsBuilt("depth to each top", "buried.depth"),
            AsBuilt("crosses the run at", "buried.crosses_run_at"),
            AsBuilt("two tapes to each", "buried.offsets"),
        ),
        missing=(*missing, *asked),
        notes=("Water, gas, septic and old cables are your own: nobody marks them but you, or a locator you pay.",),
    ),)  # fmt: skip


def stake_cards(k: Known) -> tuple[Card, ...]:
    """Where the pole stands."""
    g = k.given
    geometry, place = g.geometry, g.place
    top = float(top_height_m(geometry, np.array([geometry.steepest_tilt_deg]))[0])
    figures = [
        Figure(g.mount.facing_deg, "deg", "glass looks, from true north"),
        Figure(g.footing.diameter_m, "m", "hole across"),
        Figure(geometry.width_m, "m", "array wide"),
        Figure(sum(swept_m(geometry)), "m", "swept by the array, edge to edge"),
        Figure(top, "m", "top edge at the steepest tilt"),
    ]
    if place.height_limit_m is not None:
        figures.append(Figure(place.height_limit_m, "m", "height limit there"))
    if place.setback_m is not None:
        figures.append(Figure(place.setback_m, "m", "setback, to the array's edge"))
    steps = (
        CardStep("Drive the pole's stake, and two more in line both ways, well off the hole."),
        CardStep("Tape the setback to the nearest edge the array will ever have.", "Look up: no power line over hook, array or its fall."),
        CardStep("Stand there at nine, noon and three by the sun: trees, roof slides, plough?"),
        CardStep("Lay out the true north-south line; paint the trench."),
        CardStep("See where truck, soil heap and loader will stand, and how they leave."),
    )  # fmt: skip
    missing = []
    if place.height_limit_m is None:
        missing.append("height limit (place.height_limit)")
    if place.setback_m is None:
        missing.append("setback (place.setback)")
    return (card(
        "stake", "Stake the pole", figures, steps, sketch="stake", missing=tuple(missing),
        as_built=(AsBuilt("run, taped", "run.length"),),
    ),)  # fmt: skip


def trench_cards(k: Known) -> tuple[Card, ...]:
    """The trench: dug, laid out from its floor, and closed once it has been looked at."""
    found, dug = k.trench, k.built.trench
    items = list(found.items)
    at = next(nth for nth, item in enumerate(items) if item.what == "SIGN-OFF")
    first = [item for item in items[:at] if item.what in ON_THE_FLOOR]
    laid = in_chunks([_laid(item) for item in items[:at] if item.what not in ON_THE_FLOOR], LINES_ON_A_CARD)  # fmt: skip
    return (
        _dug(k, first),
        *(_in_it(k, chunk, f", {nth}" if len(laid) > 1 else "", last=nth == len(laid)) for nth, chunk in enumerate(laid, 1)),
        card(
            "trench", "Trench: close it",
            [
                Figure(k.given.run.cover_m, "m", "soil over the line"),
                Figure(found.ribbon.depth_m, "m", "ribbon below the ground"),
                Figure(dug.bedding_m3, "m^3", "sand or sifted soil: under, about, over it"),
            ],
            (*(_laid(item) for item in items[at + 1 :]), CardStep("Fill in layers, tread each down, leave it a hand proud.")),
            sketch="trench laid",
            as_built=(
                AsBuilt("soil over, least of 3", "run.cover"),
                AsBuilt("run, as laid", "run.length"),
                AsBuilt("crosses lines at", "buried.crosses_run_at"),
            ),
            goes_on=True,
        ),
    )  # fmt: skip


OWN_LINES = "own lines laid bare"
ON_THE_FLOOR = ("trench floor", OWN_LINES, "bed of sand or sifted soil")


def _dug(k: Known, items: list[InTrench]) -> Card:
    found, dug = k.trench, k.built.trench
    figures = [
        Figure(found.lengths.floor_m, "m", "deep, to its floor", way="up"),
        Figure(dug.width_m, "m", "wide", way="up"),
        Figure(found.lengths.level_m, "m", "long, on the level", way="up"),
        Figure(EDGE_M, "m", "heap's foot from the edge, no nearer", way="up"),
    ]
    by_hand = next((line for line in found.own.lines if line.hand_dig_m is not None), None)
    if by_hand is not None and by_hand.hand_dig_m is not None:
        figures.append(Figure(by_hand.hand_dig_m[0], "m", f"from the pole on, a spade only: {by_hand.name}", way="down"))  # fmt: skip
    bare = [item for item in items if item.what == OWN_LINES]  # before a bucket comes near them
    steps = (
        *(_laid(item) for item in bare),
        CardStep("Dig from the house end; heap the soil on one side, back from the edge.", "Keep out of it from 5 ft (1.5 m) deep on, or where it crumbles, until sloped or held."),
        *(_laid(item) for item in items if item not in bare),
    )  # fmt: skip
    return card(
        "trench", "Trench: dig it", figures, steps, sketch="trench",
        missing=() if found.own.lines else (NO_LINES,),
    )  # fmt: skip


def _in_it(k: Known, steps: tuple[CardStep, ...], nth: str, *, last: bool) -> Card:
    """Things laid, from the bottom up; the sign-off stands on the last of these cards."""
    found = k.trench
    figures = [Figure(k.given.run.cover_m, "m", "soil over the line")]
    if found.conduit is not None:
        figures.append(text(found.conduit.pipe.trade, f"pipe: {found.conduit.pipe.kind}"))
    figures += [
        Figure(k.given.run.length_m, "m", "run, all of it, loops left out"),
        text(k.given.run.size, f"{k.given.run.metal}: both live wires"),
        text(k.given.earth_wire or "ask", "earth wire"),
    ]
    return card(
        "trench", f"Trench: lay what belongs in it{nth}", figures, steps, gate="trench" if last else "",
        sketch="trench laid", goes_on=True,
    )  # fmt: skip


def _laid(item: InTrench) -> CardStep:
    verb = VERBS[item.what]
    size = f": {item.size}" if item.size else ""
    where = f", {item.where}" if item.where else ""
    caution = "A spade only, no bucket within 2 ft (0.61 m) of it: take it for live and full." if item.what == OWN_LINES else ""  # fmt: skip
    return CardStep(f"{verb}{size}{where}.", caution)


def hole_cards(k: Known) -> tuple[Card, ...]:
    """The hole."""
    f, pour = k.given.footing, k.built.concrete
    figures = [
        Figure(f.depth_m, "m", "deep"),
        Figure(f.diameter_m, "m", "across, straight sides"),
        Figure(pour.spoil_loose_m3, "m^3", "soil that comes out, loose"),
        Figure(pour.heap_wide_m, "m", "its heap, wide", way="up"),
        Figure(EDGE_M, "m", "heap's foot from the edge, no nearer", way="up"),
    ]
    steps = (
        CardStep("Drill to depth in one go, plumb; look at what comes up all the way.", "Never climb in, nor lean over: pier holes fall in without a sound."),
        CardStep("Stop at water, peat, fill or rock the file does not know; ring first.", "Pour nothing into soil of another class: the sums do not hold there."),
        CardStep("Measure depth and width from above, at two crossings."),
        CardStep("Clean the foot from above; loose soil under a pier settles."),
        CardStep("Plank it over, weight the planks, fence it.", "Cover it whenever nobody stands beside it, and every night."),
    )  # fmt: skip
    return (card(
        "hole", "Hole", figures, steps, sketch="hole",
        as_built=(
            AsBuilt("width, least of 2", "footing.diameter"),
            AsBuilt("depth, least of 3", "footing.depth"),
            AsBuilt("soil that came up", "place.soil"),
            AsBuilt("water, from top", "place.water_depth"),
        ),
        missing=() if f.twist_bars or f.cage_bars else ("twist bars: the file has neither these nor a cage",),
    ),)  # fmt: skip


def aim_cards(k: Known) -> tuple[Card, ...]:
    """Pole into the hole, braced, plumb; then aimed by the sun."""
    braces, f = k.built.braces, k.given.footing
    foot = "Lower the pole, foot first, its twist bars through it" if f.twist_bars else "Lower the pole, foot first"  # fmt: skip
    on_block = f.depth_m - f.pole_depth_m > BLOCK_FROM_M
    stood = card(
        "aim", "Aim: stand it and brace it",
        [
            Figure(f.pole_depth_m, "m", "pole's foot below the ground"),
            *((Figure(f.depth_m - f.pole_depth_m, "m", "stone or cast block under its foot"),) if on_block else ()),
            Figure(COAT_OVER_COLLAR_M, "m", "coat over and under the collar's top", way="up"),
            Figure(braces.plumb_m, "m", "its top off plumb, at most", way="down"),
            Figure(braces.at_m, "m", "braces meet it, over the ground", way="near"),
            Figure(braces.stakes_m, "m", "stakes from the pole", way="near"),
            Figure(braces.long_m, "m", "each brace long, or more", way="up"),
        ],
        (
            CardStep("Have the pole ready: sawn, drilled, its depth marked, coated over and under where the collar's top will be.", "Coat it now: once it stands in concrete nobody reaches there."),
            CardStep(f"{foot}{', onto its block' if on_block else ''}, to the depth marked on it; tie in sweep and earth wire.", "Stand clear of hook and hole: nobody reaches under a hanging pole."),
            CardStep("Clamp and stake two braces, square to each other, that push and pull.", "Unhook only then; keep hands off the pole while it hangs."),
            CardStep("Plumb it both ways with two long levels or two plumb lines."),
            CardStep("Leave the braces until the concrete has all its strength."),
        ),
        sketch="brace", as_built=(AsBuilt("foot below ground", "footing.pole_depth"),),
    )  # fmt: skip
    return (stood, _aimed(k))


def _aimed(k: Known) -> Card:
    aim = k.aim
    figures = [Figure(k.given.mount.facing_deg, "deg", "glass looks, from true north")]
    missing, notes = [], ["Truck, pole and watch turn a compass: the shadow counts, the compass bars a slip."]  # fmt: skip
    if aim is None:
        missing.append("the day of the aim (--on): then solar noon and compass stand here")
        figures += [text("______", "solar noon, standard time"), text("______", "compass, where the glass looks")]  # fmt: skip
    else:
        figures.append(text(aim.noon, f"solar noon on {aim.on:%d %b %Y}, standard time"))
        if aim.compass_deg is None:
            missing.append("the compass: the date lies past the magnetic models at hand")
        else:
            figures.append(Figure(aim.compass_deg, "deg", "compass, where the glass looks"))
        if aim.shadow_per_m is None:
            missing.append("a shadow: the noon sun is too low on this date")
        else:
            figures.append(Figure(aim.turns_deg_per_min, "deg", "the shadow turns in a minute"))
            notes.append(_shadow_words(aim))
    steps = (
        CardStep("Hang a plumb line on the pole; at solar noon mark its shadow, a minute before and after too; turn the pole to it.", "Do not look into the sun, nor through a glass at it."),
        CardStep("Read plumb again, both ways; paint a mark over pole and brace."),
        CardStep("Call for the footing; photograph bars, sweep and depth with a tape."),
    )  # fmt: skip
    return card(
        "aim", "Aim: turn it to the sun", figures, steps, gate="footing", sketch="noon",
        as_built=(AsBuilt("glass looks at", "mount.facing"),), missing=tuple(missing),
        notes=("A clock on summer time shows one hour more.", *notes), goes_on=True,
    )  # fmt: skip


def _shadow_words(aim: Aim) -> str:
    points = f"At solar noon the shadow of a plumb line points true {'north' if aim.shadow_to_deg == 0.0 else 'south'}"  # fmt: skip
    if abs(aim.off_shadow_deg) < 0.05:
        return f"{points}, straight away from where the glass looks."
    return f"{points}; the glass looks {abs(aim.off_shadow_deg):.1f}° {'clockwise' if aim.off_shadow_deg > 0.0 else 'anticlockwise'} of the sun then."  # fmt: skip


def pour_cards(k: Known) -> tuple[Card, ...]:
    """The pour; then the wait, with the cure clock."""
    g, pour = k.given, k.built.concrete
    f, metric = g.footing, g.style == "metric"
    bags = pour.bags_sold(metric)[0]
    poured = card(
        "pour", "Pour",
        [
            text(pour.sold, "to order, waste and the plant's step in it"),
            count(bags.count, f"or bags of {bags.bag}"),
            text(*_strength(f.concrete_pa, metric)),
            Figure(f.collar_m, "m", "collar over the ground"),
        ],
        (
            CardStep("Wet the soil, take the planks off, look once more down the hole.", "Wear boots, gloves and goggles: wet concrete burns, and is felt too late."),
            CardStep("Pour without a stop, round the pole in turn; rod every 1 ft (30 cm)." + (" Fill the pole as high as the concrete outside." if f.pole_filled else "")),
            CardStep("Add no water, and no calcium chloride: there is steel in it."),
            CardStep("Read plumb and aim again at once, and after half an hour.", "Keep off the pole and its braces until it is hard."),
            CardStep("Slope the collar; cover it."),
        ),
        sketch="pour",
        as_built=(
            AsBuilt("collar", "footing.collar"),
            AsBuilt("strength on ticket", "footing.concrete"),
            AsBuilt("looks at, again", "mount.facing"),
        ),
        missing=tuple(_short(words) for words in pour.doubts),  # above the steps: concrete is ordered before any of them
        notes=("What to say to the plant stands in the book under Hole, pour and trench.",),
    )  # fmt: skip
    return (poured, _cured(k))


def _short(words: str) -> str:
    """A doubt to its first stop; the whole of it stands in the book."""
    first = words.split(": ")[0]
    return f"an answer before you order: {first[0].lower()}{first[1:]}"


def _strength(pa: float, metric: bool) -> tuple[str, str]:
    words = strength_words(pa, metric)
    return words.removeprefix("cylinder strength "), "cylinder strength at 28 days" if metric else "strength at 28 days"  # fmt: skip


def _cured(k: Known) -> Card:
    cure = k.cure or cured_by((), k.given.footing.concrete_pa)
    named = {"strip": "strip the collar's form", "bare steel": "bare steel on the pole", "modules": "modules"}  # fmt: skip
    figures = []
    for mark in cure.marks:
        if mark.on is not None:
            figures.append(text(f"{mark.on.day} {mark.on:%b %Y}", f"{named[mark.name]}, not before"))  # fmt: skip
        elif mark.least_days is not None:
            figures.append(Figure(mark.least_days, "d", f"{named[mark.name]}, at 20 C (68 F), later when colder"))  # fmt: skip
        else:
            figures.append(text("never", f"{named[mark.name]}: this mix does not get there"))
    steps = (
        CardStep("Keep it damp and covered for a week."),
        CardStep(f"Write each day's mean temperature, and what it counts, in its box: {share_words()}. Add them up: the marks count whole days.", "Keep it from freezing while young. No flame under a cover: its breath kills."),
        CardStep("Leave the braces until it has all its strength."),
    )  # fmt: skip
    told = any(day.air_c is not None for day in cure.days)
    return card(
        "pour", "Pour: let it cure", figures, steps, gate="bare steel", sketch="collar", clock=cure, goes_on=True,
        missing=() if told else ("temperatures since the pour (--poured, --air): until then days at 20 C (68 F) count",),
        notes=tuple(words for words in cure.notes if not words.startswith("The air")) or ("The air stands for the concrete; a cylinder broken by a laboratory knows better.",),
    )  # fmt: skip
