"""Pole, strongback, rails, braces, struts: what is cut from bought lengths of steel."""

from __future__ import annotations

from polestead.base.show import sawn_m
from polestead.build.given import Given
from polestead.build.pieces.piece import Listed, Piece
from polestead.homestead.model import Lock
from polestead.strength.sleeve import split_sleeve
from polestead.strength.tubes import tube_section

ARM = "arm on the strongback"
BEYOND_PINS = 2.0  # pin diameters from a strut's hole to its end: common practice, no source


def steel_pieces(g: Given) -> Listed:
    """All of them, from the ground up."""
    lists = (_pole(g), _strongback(g), _rails(g), _arm(g), _cap(g), *(_strut(g, hold, name) for hold, name in ((g.lock, "storm hold"), (g.prop, "prop"))))  # fmt: skip
    return Listed(tuple(p for one in lists for p in one.pieces), tuple(w for one in lists for w in one.not_given))  # fmt: skip


def _pole(g: Given) -> Listed:
    over_m = sawn_m(g.pole_over_ground_m, g.style)  # as marked, so that both make the whole
    how = f"{g.long(sawn_m(g.pole_m, g.style) - over_m)} in the pier and {g.long(over_m)} to its top under the hinge"
    piece = Piece("pole", 1, g.mount.pole.written, g.pole_m, g.pole_m * g.pipe.mass_kg_m, "from the pier to under the hinge", how, "pole")  # fmt: skip
    return Listed((piece,))


def _strongback(g: Given) -> Listed:
    weighed = "weighed" if g.mount.strongback_mass_kg is not None else "from its size"
    return Listed((
        Piece("strongback", 1, g.mount.strongback, g.geometry.width_m, g.strongback_kg, "along the hinge", f"the array's whole width; mass {weighed}", "tube"),
    ))  # fmt: skip


def _rails(g: Given) -> Listed:
    f, missing = g.frame, ["how the rails are held to the strongback (bolts, U-bolts or welds): size, count and holes"]  # fmt: skip
    pieces: list[Piece] = []
    if f.rail is None:
        pieces.append(Piece("rail", g.rails, "not given", g.geometry.chord_m, None, "square to the strongback, under the modules", "low edge to upper edge"))  # fmt: skip
        missing.append("the rails' section: write frame.rail, as HSS 3x2x1/8 A500 C")
    else:
        how = f"low edge to upper edge; {f.rails} under each of {g.array.columns} columns"
        pieces.append(Piece("rail", g.rails, f.rail, g.geometry.chord_m, g.rails_kg, "square to the strongback, under the modules", how, "tube"))  # fmt: skip
    if f.rail_brace_m is not None:
        pieces.append(Piece("knee brace", 2 * g.rails, "not given", None, None, f"under each rail, {g.long(f.rail_brace_m)} from the strongback on either side"))  # fmt: skip
        missing.append("the knee braces' section and length, and what they stand on: measure them on the frame laid out on the floor")  # fmt: skip
    return Listed(tuple(pieces), tuple(missing))


def off_the_hinge(g: Given) -> tuple[tuple[str, float], ...]:
    """Pins that turn the frame from beyond the strongback, and how far from the hinge each stands [m]: the strongback lies on the hinge and does not reach them."""
    far = [(name, hold.arm_m) for hold, name in ((g.lock, "storm hold"), (g.prop, "prop")) if hold is not None]  # fmt: skip
    if g.drive is not None:
        far.append(("rod", g.drive.pin_along_m))
    return tuple((name, arm_m) for name, arm_m in far if arm_m > g.beam.breadth_m / 2.0)


def carrier(g: Given, hold: Lock) -> str:
    """What a hold's pin goes through."""
    return ARM if hold.arm_m > g.beam.breadth_m / 2.0 else "strongback"


def _arm(g: Given) -> Listed:
    far = off_the_hinge(g)
    if not far:
        return Listed(())
    carries = ", ".join(f"{name} {g.long(arm_m)}" for name, arm_m in far)
    piece = Piece(ARM, 1, "not given", None, None, f"square to it, over the pole; carries the pins of {carries} from the hinge")  # fmt: skip
    names = ", ".join(name for name, _ in far)
    return Listed((piece,), (f"the arm (or arms) that carry the pins of {names}: the strongback is {g.long(g.beam.breadth_m)} wide and lies on the hinge; section, welds and bending are an engineer's",))  # fmt: skip


def _cap(g: Given) -> Listed:
    f = g.frame
    if f.split_sleeve_play_m is None:
        return Listed(
            (Piece("cap or sleeve on the pole", 1, "not given", None, None, "on the pole's top, under the hinge"),),
            ("the cap or sleeve on the pole's top: its length, its wall (the cap bolts' length follows from it) and how the hinge ears stand on it",),
        )  # fmt: skip
    cut = split_sleeve(g.pipe, f.split_sleeve_play_m)
    how = f"slit along and opened by {g.long(cut.opens_m)}, filled with a strip {g.long(cut.strip_m)} wide"  # fmt: skip
    return Listed(
        (Piece("split sleeve", 1, g.mount.pole.written, None, None, "on the pole's top, under the hinge", how),),
        ("the split sleeve's length",),
    )  # fmt: skip


def _strut(g: Given, hold: Lock | None, name: str) -> Listed:
    if hold is None:
        return Listed((), (f"{name}: the file has none",) if name == "storm hold" else ())
    if hold.strut is None or hold.strut_length_m is None:
        piece = Piece(f"plate of the {name}", 1, "not given", None, None, f"fixed to the pole, its pin through the {carrier(g, hold)}")  # fmt: skip
        return Listed((piece,), (f"the {name}'s plate: its thickness, steel and what fixes it to the pole",))  # fmt: skip
    length_m = hold.strut_length_m + 2.0 * BEYOND_PINS * hold.pin_diameter_m
    how = f"{g.long(hold.strut_length_m)} pin to pin, and two pin diameters beyond each hole"
    where = f"from the pole to the {carrier(g, hold)}, pinned at both ends"
    mass = tube_section(hold.strut).mass_kg_m * length_m
    return Listed(
        (Piece(f"strut of the {name}", 1, hold.strut, length_m, mass, where, how, "tube"),),
        (f"the lugs at both ends of the {name}: on the pole and on the {carrier(g, hold)}",),
    )
