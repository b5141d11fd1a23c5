"""What goes into hole and trench: bars, tube, wires, ribbon."""

from __future__ import annotations

from dataclasses import replace
from math import ceil, pi

from polestead.base.show import percent
from polestead.build.given import FOOT_M, Given
from polestead.build.pieces.piece import Listed, Piece, bar_kg
from polestead.wiring.trench.burial import ribbon_words
from polestead.wiring.trench.closing import CABLE_SLACK_SHARE

COVER_M = (
    0.0762  # ACI 318, 20.5.1.3, 3 in cast against earth; EN 1992-1-1, 4.4.1.3, 75 mm (from memory)
)
TWIST_BAR_M = 0.016  # No. 5 bar
TWIST_SHARE = 0.8  # of the pier's diameter: ours
HOOK = 12.0  # bar diameters of a square hook's straight end (ACI 318 table 25.3.1, from memory)
CAGE_BAR_M = 0.0127
PLIES = 2


def ground_pieces(g: Given) -> Listed:
    """Twist bars, cage, tube, sleeve; wires, conduit, ribbon."""
    lists = (_twist_bars(g), _cage(g), _tube(g), _wires(g))
    return Listed(tuple(p for one in lists for p in one.pieces), tuple(w for one in lists for w in one.not_given))  # fmt: skip


def twist_bar_m(pier_m: float) -> float:
    """Length of a twist bar: four fifths of the pier, and never nearer to the soil than the cover.

    Example:
        >>> round(twist_bar_m(0.9144), 3), round(twist_bar_m(0.6), 3)
        (0.732, 0.448)
    """
    return min(TWIST_SHARE * pier_m, pier_m - 2.0 * COVER_M)


def _twist_bars(g: Given) -> Listed:
    if not g.footing.twist_bars:
        return Listed((), ("what keeps the pole from turning in the pier: the file has no twist bars",))  # fmt: skip
    length_m = twist_bar_m(g.footing.diameter_m)
    piece = Piece(
        "twist bar", 2, "16 mm (No. 5) reinforcing bar", length_m, 2 * bar_kg(TWIST_BAR_M, length_m), "through holes in the pole's foot, crosswise, one over the other",
        "four fifths of the pier, at least 3 in (75 mm) of concrete at each end", "rebar",
    )  # fmt: skip
    return Listed((piece,))


def cage_bar_length_m(depth_m: float, collar_m: float) -> float:
    """An upright bar from the cover over the hole's foot to the cover under the collar's top.

    Example:
        >>> round(cage_bar_length_m(3.0, 0.1), 4)
        2.9476
    """
    return depth_m + collar_m - 2.0 * COVER_M


def _cage(g: Given) -> Listed:
    f = g.footing
    if f.cage_bars is None:
        return Listed(())
    bar_m = f.cage_bar_m or CAGE_BAR_M
    length_m = cage_bar_length_m(f.depth_m, f.collar_m)
    piece = Piece(
        "cage bar, upright", f.cage_bars, f"{g.sold(bar_m)} reinforcing bar", length_m, f.cage_bars * bar_kg(bar_m, length_m), "in a ring, 3 in (75 mm) from the soil",
        "hole and collar less the cover at both ends; straight, in one length", "rebar",
    )  # fmt: skip
    ring_m = pi * (f.diameter_m - 2.0 * COVER_M)
    return Listed((piece,), (
        f"the cage's ties: their bar and spacing (asked of whoever answers for the pier); a round tie goes {g.long(ring_m)} round, and its lap on top",
        f"hooks, where the drawing asks for them: a square hook takes {HOOK:.0f} diameters more, {g.long(HOOK * bar_m)}, and its bend; laps are the engineer's to say",
    ))  # fmt: skip


def _tube(g: Given) -> Listed:
    f = g.footing
    frost_m = g.place.frost_depth_m if f.sleeve != "none" else 0.0
    high_m = f.collar_m + min(frost_m, f.depth_m)
    if high_m <= 0.0:
        return Listed(())
    where = "from the collar's top down through the frost, smooth side out" if frost_m > 0.0 else "over the ground only: below it the concrete is poured against the cut soil"  # fmt: skip
    pieces = [Piece("form tube", 1, f"{g.long(f.diameter_m)} inside", high_m, None, where)]
    if frost_m > 0.0:
        each_m = pi * f.diameter_m
        pieces.append(Piece("plastic sheet round the tube", PLIES, f"0.15 mm (6 mil), {g.long(high_m)} wide", each_m, None, "two plies, loose on one another, before the soil goes back", "once round the tube; the lap is yours"))  # fmt: skip
    return Listed(tuple(pieces))


def sticks_of_conduit(run_m: float, stick_m: float) -> int:
    """Whole sticks for a run.

    Example:
        >>> sticks_of_conduit(45.72, 10 * 0.3048)
        15
    """
    return ceil(run_m / stick_m - 1e-9)


def _wires(g: Given) -> Listed:
    run, long_m = g.run, g.run.length_m * (1.0 + CABLE_SLACK_SHARE)
    how = f"the run and {percent(CABLE_SLACK_SHARE)} for loops at both ends and at the hinge"
    per_m = g.prices.wire.get(f"{run.size} {run.metal}")
    pieces = [
        Piece("run cable, each live wire", 2, f"{run.size} {run.metal}", long_m, None, f"in the trench, {run.method}", how, reaches=True),
        Piece("earth wire of the run", 1, g.earth_wire or "copper", long_m, None, "with the live wires, all the way", how, reaches=True),
        Piece("warning ribbon", 1, "plastic", run.length_m, None, f"in the trench, {ribbon_words(run.cover_m)}", reaches=True),
    ]  # fmt: skip
    missing = []
    if per_m is not None:
        pieces[0] = replace(
            pieces[0], price=per_m * long_m, how=f"{how}; the price is of both and the earth wire"
        )
    if g.earth_wire is None:
        missing.append("the earth wire's size: the wiring says the least lawful one")
    if run.method != "direct burial":
        level_m = run.length_m if g.trench_level_m is None else g.trench_level_m
        stick_m = g.shop.conduit_length_m or (3.0 if g.metric else 10.0 * FOOT_M)
        pieces.append(Piece("conduit, sticks", sticks_of_conduit(level_m, stick_m), run.method if run.conduit is None else f"{run.method}, {run.conduit}", stick_m, None, "under the ribbon, on its bedding", "as sold; sweeps and couplings beside"))  # fmt: skip
    pieces += [Piece(one.name, one.count, one.size, one.length_m, None, one.where, reaches=True) for one in g.bought]  # fmt: skip
    return Listed(tuple(pieces), tuple(missing))
