"""Every weld of the list of pieces: leg and length from the file, what its own check says, and which has no check."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from math import pi

from polestead.build.given import BEARINGS, Given
from polestead.build.pieces.steel import ARM, off_the_hinge

EARS, CAP = "welds of the hinge ears", "weld of the cap"


@dataclass(frozen=True, slots=True)
class WeldJoint:
    """One kind of weld.

    Attributes:
        place: Where.
        count: How many such places.
        leg_m: Leg of the fillet, None where the file does not tell it.
        length_m: Of each run, None where the file does not tell it.
        runs: Runs at each place.
        part: Part of the strength check that sums it; empty where none does.
        missing: What to write or ask, where something is not told.
    """

    place: str
    count: int
    leg_m: float | None
    length_m: float | None
    runs: str
    part: str
    missing: str = ""


def welds_of(g: Given) -> tuple[WeldJoint, ...]:
    """All of them, those with a check first.

    Args:
        g: Sections of the file.
    """
    f = g.frame
    known = f.weld_leg_m is not None and f.weld_length_m is not None
    ears = WeldJoint(
        "foot of each hinge ear", 2 * BEARINGS, f.weld_leg_m, f.weld_length_m, "both sides", EARS if known else "",
        "" if known else "write frame.weld_leg and frame.weld_length: not summed without",
    )  # fmt: skip
    round_m = None if f.cap_weld_leg_m is None else pi * g.pipe.outside_m
    bolted = f.cap_bolts is not None and f.cap_bolt_m is not None
    cap = WeldJoint(
        "cap or sleeve to the pole", 1, f.cap_weld_leg_m, round_m, "all round", CAP if f.cap_weld_leg_m is not None else "",
        "" if f.cap_weld_leg_m is not None else "bolted: no weld asked for" if bolted else "write frame.cap_weld_leg, or bolts",
    )  # fmt: skip
    found = [ears] if bolted and f.cap_weld_leg_m is None else [ears, cap]
    found += [_unsummed(place, count) for place, count in _others(g)]
    return tuple(sorted(found, key=lambda weld: not weld.part))


def weld_words(weld: WeldJoint, uses: Mapping[str, float]) -> str:
    """What its check says, or that it has none.

    Args:
        weld: One of ``welds_of``.
        uses: Use of each part of the strength check, by its name.
    """
    found = [use for part, use in uses.items() if weld.part and part.startswith(weld.part)]
    if weld.part and not uses:
        return f"summed as {weld.part}, by the answer"
    if not found:
        return "no check: " + (weld.missing or "an engineer or the maker gives leg and length")
    return f"its check uses {100.0 * max(found):.0f} of 100"


def _unsummed(place: str, count: int) -> WeldJoint:
    return WeldJoint(place, count, None, None, "", "")


def _others(g: Given) -> list[tuple[str, int]]:
    """Welds that the pieces need and nothing sums."""
    f = g.frame
    found = [("foot of each hinge lug, to the strongback", BEARINGS)]
    if f.split_sleeve_play_m is not None:
        found.append(("strip in the split sleeve", 1))
    found.append(("hinge's cross-piece to cap or sleeve", 1))
    for hold, name in ((g.lock, "storm hold"), (g.prop, "prop")):
        if hold is not None and hold.strut is not None:
            found.append((f"lugs at both ends of the {name}", 2))
        elif hold is not None:
            found.append((f"plate of the {name} to the pole", 1))
    far = off_the_hinge(g)
    if g.drive is not None:
        found.append(("rod bracket to the pole", 1))
        found.append((f"{ARM}, to the strongback, and the rod lug to it", 2) if far else ("rod lug to the frame", 1))  # fmt: skip
    elif far:
        found.append((f"{ARM}, to the strongback", 1))
    if f.rail_brace_m is not None:
        found.append(("knee braces, both ends", 2 * g.rails))
    found.append(("disc on the pole's top, against water only", 1))
    return found
