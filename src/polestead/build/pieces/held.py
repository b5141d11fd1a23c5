"""Modules, clamps, isolators."""

from __future__ import annotations

from dataclasses import dataclass

from polestead.build.given import Given
from polestead.build.pieces.piece import Listed, Piece

CLAMP_KG, ISOLATOR_KG = 0.1, 0.005  # each, bolt and nut in it: common practice, no source


@dataclass(frozen=True, slots=True)
class ClampCount:
    """Clamps to buy.

    Attributes:
        middle: Between two modules, holding both.
        end: Holding one.
        places: Clamped places of all modules together.
        by_rails: Whether every rail holds each module at both its ends, as the count takes it.
    """

    middle: int
    end: int
    places: int
    by_rails: bool


def clamp_count(
    columns: int, rows: int, rails: int, per_module: int, gap_m: float, slot_m: float
) -> ClampCount:
    """Middle and end clamps on rails that run along the chord.

    Each rail holds each of its modules at both ends; between two rows one middle clamp holds both, but not over a slot that is
    wider than the common gap.  Where the clamps per module are not twice the rails, each place is counted as an end clamp.
    Source: counting.

    Args:
        columns: Modules along the hinge.
        rows: Modules along the chord.
        rails: Under each column.
        per_module: Clamps that hold one module.
        gap_m: Between neighbours [m].
        slot_m: Between the two middle rows [m]; 0 for none.

    Example:
        >>> clamp_count(4, 2, 2, 4, 0.019, 0.038), clamp_count(2, 3, 2, 4, 0.019, 0.0)
        (ClampCount(middle=0, end=32, places=32, by_rails=True), ClampCount(middle=8, end=8, places=24, by_rails=True))
    """
    places = columns * rows * per_module
    if per_module != 2 * rails:
        return ClampCount(0, places, places, False)
    slotted = 1 if slot_m > gap_m and rows % 2 == 0 else 0
    lines = columns * rails
    middle = lines * (rows - 1 - slotted)
    return ClampCount(middle, lines * (2 + 2 * slotted), places, True)


def held_pieces(g: Given) -> Listed:
    """Modules and what holds them."""
    a, f = g.array, g.frame
    clamps = clamp_count(a.columns, a.rows, f.rails, f.clamps_per_module, a.gap_m, a.slot_m)
    how = (
        "each rail holds each module at both ends; one middle clamp holds two modules"
        if clamps.by_rails
        else "counted as one for each place; fewer where one clamp holds two modules"
    )
    pieces = [
        Piece("module", g.modules, f"{a.module.power_w:.0f} W", None, g.modules * a.module.mass_kg, "on the rails", f"{g.long(a.module.length_m)} x {g.long(a.module.width_m)} x {g.long(a.module.thickness_m)}"),
        Piece("end clamp", clamps.end, f"for frames {g.long(a.module.thickness_m)} thick", None, clamps.end * CLAMP_KG, "low and upper edge, and beside a wider slot", how, guessed=True),
        Piece("middle clamp", clamps.middle, f"for a gap of {g.long(a.gap_m)}", None, clamps.middle * CLAMP_KG, "between two rows", how, guessed=True),
        Piece("isolator", clamps.places, "plastic or rubber washer or tape", None, clamps.places * ISOLATOR_KG, "between module frame and rail at every clamp", "where aluminium lies on steel: see the chart of metals", guessed=True),
    ]  # fmt: skip
    missing = (
        "the clamps' bolts, their zone on the module's frame and their torque: asked of the makers of module and clamp; a torque that suits one frame crushes another",
    )
    return Listed(tuple(piece for piece in pieces if piece.count > 0), missing)
