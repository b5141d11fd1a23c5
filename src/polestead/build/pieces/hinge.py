"""Hinge, holds and drive: pins, ears, bushings, the actuator."""

from __future__ import annotations

from polestead.build.given import BEARINGS, Given
from polestead.build.pieces.bolts import pin_length_m
from polestead.build.pieces.piece import Listed, Piece, bar_kg
from polestead.build.pieces.plates import ear_kg
from polestead.build.pieces.steel import carrier
from polestead.homestead.model import Lock

HOLD_PIN_BEYOND = 4.0  # pin diameters for both lugs, washers and cotters, to weigh it by: ours


def hinge_pieces(g: Given) -> Listed:
    """Pins, ears, what turns between them, bushings; the pins of the holds; the drive."""
    lists = [_pins(g), _ears(g), *(_hold_pin(g, hold, name) for hold, name in ((g.lock, "storm hold"), (g.prop, "prop"))), _drive(g)]  # fmt: skip
    return Listed(tuple(p for one in lists for p in one.pieces), tuple(w for one in lists for w in one.not_given))  # fmt: skip


def hinge_kg(g: Given) -> float:
    """Ears, lugs and pins together; 0 where the file does not tell them."""
    each, long_m = ear_kg(g), pin_length_m(g)
    plates = 0.0 if each is None else 2 * BEARINGS * each[0] + BEARINGS * each[1]
    pins = 0.0 if long_m is None else BEARINGS * bar_kg(g.mount.hinge_pin_m, long_m, g.mount.hinge_pin_steel)  # fmt: skip
    return plates + pins


def _pins(g: Given) -> Listed:
    steel, d, length_m = g.mount.hinge_pin_steel, g.mount.hinge_pin_m, pin_length_m(g)
    mass = None if length_m is None else BEARINGS * bar_kg(d, length_m, steel)
    how = "two ears, two gaps and what turns between them, and one diameter beyond each side for washer and cotter"
    piece = Piece("hinge pin", BEARINGS, f"{steel} round, {g.sold(d)}", length_m, mass, "through the hinge ears, greased", how if length_m else "", "round" if length_m else None)  # fmt: skip
    return Listed((piece,), () if length_m else ("the hinge pins' length: it follows from the ears (frame.ear_thickness)",))  # fmt: skip


def _ears(g: Given) -> Listed:
    bushing = Piece("bushing", BEARINGS, "greased bronze or plastic, not given", g.middle_m, None, f"in what turns between the ears, bored for the {g.long(g.mount.hinge_pin_m)} pin", "as long as the middle is thick" if g.middle_m else "")  # fmt: skip
    missing = "the bushings' kind and outside: asked of their maker, with the load on the hinge pin and the cold"
    if g.frame.ear_thickness_m is None:
        return Listed((bushing,), (missing, "the hinge ears: thickness, edge, foot and weld"))
    each = ear_kg(g)
    ears_kg, lugs_kg = (None, None) if each is None else (2 * BEARINGS * each[0], BEARINGS * each[1])  # fmt: skip
    ears = Piece("hinge ear", 2 * BEARINGS, f"{g.frame.ear_steel} plate, {g.sold(g.frame.ear_thickness_m)}", None, ears_kg, "two about each bearing; see the plates")  # fmt: skip
    middle = Piece("hinge lug", BEARINGS, f"{g.frame.ear_steel} plate, {g.sold(g.middle_m or 0.0)}", None, lugs_kg, "between each pair of ears; see the plates")  # fmt: skip
    return Listed((ears, middle, bushing), (missing,))


def _hold_pin(g: Given, hold: Lock | None, name: str) -> Listed:
    if hold is None:
        return Listed(())
    count = 2 if hold.strut is not None else 1
    where = "at both ends of the strut" if count == 2 else f"through plate and {carrier(g, hold)}"
    least_m, d = g.beam.breadth_m, hold.pin_diameter_m
    about_kg = count * bar_kg(d, least_m + HOLD_PIN_BEYOND * d, hold.pin_steel)
    piece = Piece(
        f"pin of the {name}", count, f"{hold.pin_steel}, {g.sold(d)}", None, about_kg, where,
        "on a lanyard, with a cotter that cannot be shaken out; weighed as long as the strongback is wide and four diameters more", guessed=True,
    )  # fmt: skip
    return Listed((piece,), (f"the {name}'s pin length: what it goes through on the {carrier(g, hold)}, and what holds it on both sides",))  # fmt: skip


def _drive(g: Given) -> Listed:
    if g.drive is None:
        return Listed(())
    d = g.drive
    pieces = (
        Piece("actuator", 1, f"stroke {g.long(d.stroke_m)}, {g.long(d.retracted_length_m)} pin to pin with the rod in", None, None, "from the rod bracket to the rod lug"),
        Piece("rod bracket on the pole", 1, "not given", None, None, f"on the pole, {g.long(d.bracket_below_m)} under the hinge, its hole {g.long(d.bracket_out_m)} from the pole's axis away from the sun side"),
        Piece("rod lug on the frame", 1, "not given", None, None, f"{g.long(d.pin_along_m)} from the hinge towards the upper edge, {g.long(d.pin_below_m)} below the hinge line"),
    )  # fmt: skip
    return Listed(pieces, (
        "the actuator's mass, its pins' diameter and length, and their tightening: asked of its maker",
        "rod bracket and rod lug: plate, hole and welds; their holes follow the actuator's pins",
    ))  # fmt: skip
