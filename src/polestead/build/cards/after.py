"""Cards that stay at the pole: its angles, and what to do when it will not move."""

from __future__ import annotations

from polestead.build.cards.card import Card, CardStep, Figure, StanceLine
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


def pole_side_cards(k: Known) -> tuple[Card, ...]:
    """Angles, holes and the never-list; then the emergency drop."""
    lines = stance_lines(k)
    flat = next(line for line in lines if line.name == "storm flat")
    figures = [
        Figure(k.given.mount.winter_tilt_deg, "deg", "winter"),
        Figure(k.given.mount.summer_tilt_deg, "deg", "summer"),
    ]
    if k.stand.move_under_m_s is not None:
        figures.append(Figure(k.stand.move_under_m_s, "m/s", "move only under"))
    pole = Card(
        "pole-side", "At the pole", "Whoever moves it", ("level", "torch", "both pins on their lanyards", "grease"), "", ("first travel",),
        tuple(figures), tuple(CardStep(words, rule=True) for words in NEVER), None, None, (), "stances", _missing_at_the_pole(k, lines),
        (), lines,
    )  # fmt: skip
    return (pole, _drop(k, flat))


def _missing_at_the_pole(k: Known, lines: tuple[StanceLine, ...]) -> tuple[str, ...]:
    missing = []
    if k.stand.move_under_m_s is None:
        missing.append("the actuator ([drive]): the gust to move in is not worked without it")
    if k.given.lock is None:
        missing.append("the storm hold ([lock]): nothing but the rod holds it")
    elif not k.given.lock.holes_deg:
        missing.append("the tilts of the holes (lock.holes)")
    else:
        missing += [f"a hole at {line.name}, {line.tilt_deg:g}°" for line in lines if line.hole is None]  # fmt: skip
    if k.gauge is not None and not k.gauge.proved:
        missing.append("two measured pairs (drive.measured): rod marks are unproved")
    return tuple(missing)


def _drop(k: Known, flat: StanceLine) -> Card:
    figures = [
        Figure(flat.tilt_deg, "deg", "down to storm flat"),
        Figure(_clear(k), "m", "nobody within this", way="up"),
        Figure(k.given.geometry.mass_kg, "kg", "all that tips"),
    ]
    if k.stand.move_under_m_s is not None:
        figures.append(Figure(k.stand.move_under_m_s, "m/s", "only under this gust"))
    steps = (
        CardStep("Two people, daylight, no snow on it, under the moving gust; else leave it.", "Leave it locked where it is if the wind is over that: better than let go."),
        CardStep("Storm hold and prop in, both pins through; lock off the drive's supply.", "Keep out from under either half until the last pin is in."),
        CardStep("Hang two tackles, each rated for the whole, on both sides of the hinge, tight: one lets down, one holds back."),
        CardStep("Take the load off the rod, pull its upper pin, tie the rod to the pole.", "Stand aside of the pin: it may jump."),
        CardStep("Prop out, storm hold out; let down a hand's breadth at a time.", "Let go of nothing, wrap no rope round a hand."),
        CardStep("Storm hold in at storm flat; prop in; only then tackles off."),
    )  # fmt: skip
    missing = () if k.given.prop is not None else ("the prop ([prop]): the emergency drop needs one",)  # fmt: skip
    return Card(
        "pole-side", "At the pole: EMERGENCY DROP", "Two people, when the rod is dead and the array steep", ("two tackles", "both pins", "rope"), "", (),
        tuple(figures), steps, None, None, (), "drop", missing, (),
    )  # fmt: skip


def _clear(k: Known) -> float:
    return clear_m(k.given.geometry.hinge_height_m, k.given.geometry.chord_m)


def stuck_cards(k: Known) -> tuple[Card, ...]:
    """It will not move and a storm is coming: first made safe to leave, then looked at."""
    g = k.given
    flat = next(line for line in stance_lines(k) if line.name == "storm flat")
    figures = [Figure(flat.stands_to_m_s, "m/s", f"locked flat, {flat.tilt_deg:g}°, stands to")]
    missing = []
    locked = _weakest(k, "locked")
    if locked is not None:
        figures.append(Figure(locked[1], "m/s", f"locked at its worst, {locked[0]:g}°"))
    for state, words in (("rod", "on the rod alone, its worst"), ("prop", "on the prop, half-way")):
        found = _weakest(k, state)
        if found is not None:
            figures.append(Figure(found[1], "m/s", f"{words}, {found[0]:g}°"))
        else:
            missing.append(f"the {'actuator ([drive])' if state == 'rod' else 'prop ([prop])'}: not worked without it")  # fmt: skip
    if k.stand.move_under_m_s is not None:
        figures.append(Figure(k.stand.move_under_m_s, "m/s", "no hand moves it in more"))
    figures.append(Figure(_clear(k), "m", "nobody within this until locked", way="up"))
    if g.lock is None:
        missing.append("the storm hold ([lock])")
    first = Card(
        "stuck", "It will not move", "Two people; one only to lock it", ("both pins", "soft broom", "blanket"), "", ("first travel",),
        tuple(figures),
        (
            CardStep("Let go of the key; no second try: a motor that stalls burns.", "Go out from under it; nobody under either half from now on."),
            CardStep("Over the moving gust: storm hold in at the nearest hole, prop in, leave it.", "Pin nothing by force in a gust: stand to the side, leave if it swings."),
            CardStep("Storm hold and prop in before anything is looked at.", "No hand in hinge or clevis before both pins are through."),
            CardStep("Snow or ice: off from the side and the ground, with a soft tool. Ice in rod, hinge or switch: wait for the sun, or warm it with a blanket.", "No flame, no hot water, no hammer on the rod."),
            CardStep("Nothing helps: lock it where it stands, prop in, the array's breaker open; keep everyone away."),
        ),
        None, None, (), "stuck", tuple(missing),
        ("Figures are rounded down; a real gust may beat the forecast's.",), stance_lines(k),
    )  # fmt: skip
    return (first, _why(k))


def _why(k: Known) -> Card:
    supply = None if k.given.drive is None else k.given.drive.supply
    figures = [] if supply is None else [Figure(supply.nominal_v, "V", "at the motor, key held")]
    if k.stand.move_under_m_s is not None:
        figures.append(Figure(k.stand.move_under_m_s, "m/s", "by hand only under this gust"))
    figures += [Figure(_clear(k), "m", "nobody within this until locked", way="up"), Figure(2.0, "", "people, daylight, both holds in")]  # fmt: skip
    steps = (
        CardStep("Key: switch lock on? hand stop out? other key pressed? limit switch open?"),
        CardStep("Volts at the drive's battery, behind its fuse, at the motor, the key held.", "Cut the supply and lock it before a plug is parted; no bigger fuse."),
        CardStep("None behind the fuse: the fuse. Low at the motor: wire or plug. Full at the motor and no sound: the motor."),
        CardStep("Flat battery: another of the same volts, plus to plus, with its fuse.", "Charge no lithium battery under 0 C (32 F); a frozen lead-acid one may burst."),
        CardStep("By hand: crank or drill on the actuator's own end, the storm hold moved from hole to hole behind it; or the emergency drop."),
    )  # fmt: skip
    missing = () if supply is not None else ("the drive's own supply ([drive.supply]): its volts",)
    return Card(
        "stuck", "It will not move: why", "Two people, storm hold and prop in", ("meter", "spare fuse of the same size", "crank or drill"), "", (),
        tuple(figures), steps, None, None, (), "volts", missing, (),
    )  # fmt: skip


def _weakest(k: Known, name: str) -> tuple[float, float] | None:
    """Tilt and gust of a state's weakest tilt."""
    found: StateCard | None = next((one for one in k.stand.states if one.state == name), None)
    return None if found is None else (found.tilt_deg[found.weakest], found.gust_m_s[found.weakest])
