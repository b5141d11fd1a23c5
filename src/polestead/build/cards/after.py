"""Cards that stay at the pole: its angles, and what to do when it will not move."""

from __future__ import annotations

from polestead.build.cards.card import Card, CardStep, Figure
from polestead.build.cards.known import Known, stance_lines
from polestead.build.lifts.lift import clear_m
from polestead.stand.result import StateCard

NEVER = (
    "Never stand under it while it moves, while the rod alone holds it, in wind, or with snow on it.",
    "Never put a hand in the hinge before storm hold and prop are in.",
    "Never move it over the gust on this card, iced, buried in snow, or when the current climbs.",
    "Never leave it on the rod alone, nor lock it in the storm: hours before.",
    "Never move it alone, at dusk, or where you do not see the whole of it.",
    "Never bridge a limit switch or put a bigger fuse in.",
    "Never part a connector or open a box in the sun under load.",
    "Never touch pole or box in thunder; never knock snow off with metal or hot water.",
)


def pole_side_card(k: Known) -> Card:
    """Angles, holes, never-list, emergency drop."""
    lines = stance_lines(k)
    by_name = {line.name: line for line in lines}
    flat, steep = by_name["storm flat"], by_name["snow steep"]
    figures = [
        Figure(k.given.mount.winter_tilt_deg, "deg", "winter"),
        Figure(k.given.mount.summer_tilt_deg, "deg", "summer"),
        Figure(flat.tilt_deg, "deg", "storm flat"),
        Figure(flat.stands_to_m_s, "m/s", "storm flat, locked, stands to"),
        Figure(steep.tilt_deg, "deg", "snow steep"),
        Figure(steep.stands_to_m_s, "m/s", "snow steep, locked, stands to"),
    ]
    missing = []
    if k.stand.move_under_m_s is None:
        missing.append("the actuator ([drive]): the gust to move in is not worked without it")
    else:
        figures.append(Figure(k.stand.move_under_m_s, "m/s", "move only under"))
    if k.given.lock is None:
        missing.append("the storm hold ([lock]): nothing but the rod holds it")
    elif not k.given.lock.holes_deg:
        missing.append("hole numbers: write the tilts of the holes into lock.holes")
    else:
        missing += [f"a hole at {line.name}, {line.tilt_deg:g} deg" for line in lines if line.hole is None]  # fmt: skip
    if k.given.prop is None:
        missing.append("the prop ([prop]): the emergency drop needs one")
    if k.gauge is not None and not k.gauge.proved:
        missing.append("two measured pairs (drive.measured): rod marks are unproved until then")
    drop = (
        CardStep("EMERGENCY DROP, the rod dead and the array steep. Do it only in less than the moving gust, with no snow on it, two people, daylight.", "Leave it locked where it is if the wind is already over that: a locked array at any tilt is better off than one let go."),
        CardStep("Storm hold and prop in, both pins through; disconnect and lock the drive's own supply.", "Keep out from under either half until the last pin is in."),
        CardStep("Hang two tackles or come-alongs, each rated for the whole, between frame and pole on both sides of the hinge, drawn tight: one lets down, one holds back."),
        CardStep("Take the load off the rod with the tackles, pull its upper pin, tie the rod to the pole.", "Stand aside of the pin: it may jump."),
        CardStep("Prop out, storm hold out; let down a hand's breadth at a time, both tackles in hand.", "Let go of nothing, wrap no rope round a hand."),
        CardStep("Storm hold in at storm flat; prop in; only then tackles off."),
    )  # fmt: skip
    return Card(
        "pole-side", "At the pole", "whoever moves it", ("level", "torch", "both pins on their lanyards", "grease"), "", ("first travel",),
        tuple(figures), (*(CardStep(words) for words in NEVER), *drop), None, None, (), "side", tuple(missing),
        tuple(s.words for s in k.stand.stances), lines,
    )  # fmt: skip


def stuck_card(k: Known) -> Card:
    """It will not move and a storm is coming."""
    g = k.given
    flat = next(line for line in stance_lines(k) if line.name == "storm flat")
    geometry = g.geometry
    figures = [
        Figure(
            flat.stands_to_m_s, "m/s", f"locked at storm flat, {flat.tilt_deg:g} deg, it stands to"
        )
    ]
    missing = []
    locked = _weakest(k, "locked")
    if locked is not None:
        figures.append(Figure(locked[1], "m/s", f"locked at its worst tilt, {locked[0]:g} deg"))
    for state, words in (("rod", "on the rod alone, at its worst tilt"), ("prop", "on the prop, half-way")):  # fmt: skip
        found = _weakest(k, state)
        if found is not None:
            figures.append(Figure(found[1], "m/s", f"{words}, {found[0]:g} deg"))
        else:
            missing.append(f"the {'actuator ([drive])' if state == 'rod' else 'prop ([prop])'}: not worked without it")  # fmt: skip
    if k.stand.move_under_m_s is not None:
        figures.append(Figure(k.stand.move_under_m_s, "m/s", "no hand moves it in more"))
    figures.append(Figure(clear_m(geometry.hinge_height_m, geometry.chord_m), "m", "nobody within this while it is not locked"))  # fmt: skip
    if g.drive is not None and g.drive.supply is not None:
        figures.append(Figure(g.drive.supply.nominal_v, "V", "at the motor, while the key is held"))
    else:
        missing.append("the drive's own supply ([drive.supply]): its volts")
    if g.lock is None:
        missing.append("the storm hold ([lock])")
    steps = (
        CardStep("Let go of the key; do not try again and again: a motor that stalls burns.", "Go out from under it; nobody under either half from now on."),
        CardStep("Read the wind. Over the moving gust: storm hold in at the nearest hole, prop in, leave it; go no further down this card.", "Pin nothing by force in a gust: stand to the side, and leave if it swings."),
        CardStep("Storm hold and prop in before anything is looked at.", "Put no hand in hinge or clevis before both pins are through."),
        CardStep("Snow or ice on it? Off first, from the side and from the ground, with a soft tool. Ice in rod, hinge or limit switch: wait for the sun or warm it with a blanket.", "Use no flame, no hot water, no hammer on the rod."),
        CardStep("Key: is the switch's lock on, the hand stop out, the other key pressed, the limit switch already open?"),
        CardStep("Volts: at the drive's battery, behind its fuse, at the motor while the key is held. None behind the fuse: fuse. Full at the battery, low at the motor: wire or plug. Full at the motor and no sound: motor.", "Cut the supply and lock it before a plug is parted; put in no bigger fuse."),
        CardStep("Flat battery: another of the same volts, plus to plus, with its fuse.", "Charge no lithium battery under 0 C; a frozen lead-acid one may burst."),
        CardStep("Hand means: crank or drill on the actuator's own end, the storm hold moved from hole to hole behind it; or the emergency drop of the pole-side card.", "Only under the moving gust, two people, daylight."),
        CardStep("Nothing helps: lock it where it stands, prop in, the array's breaker open; tell the house what gust it stands to there, and keep everyone away."),
    )  # fmt: skip
    return Card(
        "stuck", "It will not move", "two people; one only to lock it", ("both pins", "meter", "spare fuse of the same size", "soft broom", "two tackles", "crank or drill"), "", ("first travel",),
        tuple(figures[:7]), steps, None, None, (), "side", tuple(missing),
        ("The figures are rounded down where they are shown; the forecast's gust may be beaten by the real one.",), stance_lines(k),
    )  # fmt: skip


def _weakest(k: Known, name: str) -> tuple[float, float] | None:
    """Tilt and gust of a state's weakest tilt."""
    found: StateCard | None = next((one for one in k.stand.states if one.state == name), None)
    return None if found is None else (found.tilt_deg[found.weakest], found.gust_m_s[found.weakest])
