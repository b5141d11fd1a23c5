"""Whether the geometry works over the whole travel, each thing at its worst tilt."""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np
from numpy.typing import NDArray

from polestead.base.check import Check
from polestead.base.show import percent
from polestead.base.source import COMMON_PRACTICE, OWNER, Source
from polestead.base.working import Step, Working
from polestead.homestead.model import Drive
from polestead.mount.geometry import (
    Geometry,
    lowest_edge_m,
    pole_gap_m,
    strongback_gap_m,
    top_height_m,
)
from polestead.mount.linkage import rod_arm_m, rod_length_m
from polestead.mount.travel import TRIGONOMETRY, travel_deg

Floats = NDArray[np.float64]
LEAST_POLE_GAP_M = (
    0.0127  # half an inch for paint, bolts and a pole out of plumb: common practice, no source
)
LEAST_LEVER_SHARE = (
    0.25  # of the largest lever on the travel; under it the rod is near dead centre: our own rule
)


def _room(
    part: str,
    name: str,
    wanted_m: float,
    there: Floats,
    tilts: Floats,
    formula: str,
    symbol: str,
    wanted_by: Source = COMMON_PRACTICE,
) -> Check:
    """A check of a room that must be at least so large; its use is what is taken of it."""
    worst = int(np.argmin(there))
    least_m, tilt = float(there[worst]), float(tilts[worst])
    use = wanted_m / least_m if least_m > 0.0 else np.inf
    steps = (
        Step(f"{name}, wanted", f"{symbol} least", "", wanted_m, "m", wanted_by),
        Step("at the worst tilt", "t", "", tilt, "deg", TRIGONOMETRY),
        Step(name, symbol, formula, least_m, "m", TRIGONOMETRY),
    )
    return Check(part, name, wanted_m, least_m, "m", float(use), TRIGONOMETRY, Working(part, steps))


def tightest(checks: Iterable[Check]) -> Check:
    """The check that governs: the one that uses most; a use that is no number governs before all.

    Args:
        checks: At least one.

    Raises:
        ValueError: If there is none.
    """
    return max(checks, key=lambda check: np.inf if np.isnan(check.use) else check.use)


def geometry_checks(
    geometry: Geometry,
    pole_outside_m: float,
    clear_below_m: float,
    height_limit_m: float | None,
    strongback_m: tuple[float, float] | None = None,
) -> tuple[Check, ...]:
    """Clearance, pole strike and height over the whole travel, each at its worst tilt.

    Args:
        geometry: The linked geometry.
        pole_outside_m: Pole's outside diameter [m].
        clear_below_m: Wanted under the low edge [m].
        height_limit_m: The permit's limit [m], or None.
        strongback_m: Its depth square to the glass and its breadth along the chord [m]; None leaves its check out.
    """
    g, tilts = geometry, travel_deg(geometry.least_tilt_deg, geometry.steepest_tilt_deg)
    checks = [
        _room(
            "lowest edge", "clear of the ground", clear_below_m, lowest_edge_m(g, tilts), tilts,
            f"{g.hinge_height_m:.3f} - {g.lower_m:.3f} sin t + ({g.glass_above_m:.3f} - {g.depth_m:.3f}) cos t", "z", OWNER,
        ),
        _room(
            "frame and pole", "clear of the pole's top", LEAST_POLE_GAP_M, pole_gap_m(g, pole_outside_m, tilts), tilts,
            f"{g.pole_top_below_m:.3f} cos t + {g.beam_clear_m:.3f} - {pole_outside_m / 2.0:.3f} sin t", "gap",
        ),
    ]  # fmt: skip
    if strongback_m is not None:
        depth_m, breadth_m = strongback_m
        gaps_m = strongback_gap_m(g, depth_m, breadth_m, tilts)
        checks.append(_room(
            "strongback and pole", "clear of the pole's top", LEAST_POLE_GAP_M, gaps_m, tilts,
            f"{g.pole_top_below_m:.3f} + ({g.beam_clear_m:.3f} - {depth_m:.3f}) cos t - {breadth_m / 2.0:.3f} sin t", "gap",
        ))  # fmt: skip
    if height_limit_m is not None:
        checks.append(_height(g, tilts, height_limit_m))
    return tuple(checks)


def _height(g: Geometry, tilts: Floats, limit_m: float) -> Check:
    heights = top_height_m(g, tilts)
    worst = int(np.argmax(heights))
    top_m = float(heights[worst])
    formula = f"{g.hinge_height_m:.3f} + {g.upper_m:.3f} sin t + {g.glass_above_m:.3f} cos t"
    steps = (
        Step("at the worst tilt", "t", "", float(tilts[worst]), "deg", TRIGONOMETRY),
        Step("the permit's limit", "z max", "", limit_m, "m", OWNER),
        Step("top height", "z", formula, top_m, "m", TRIGONOMETRY),
    )
    working = Working("height over the ground", steps)
    return Check(
        "upper edge", "under the height limit", top_m, limit_m, "m", top_m / limit_m, OWNER, working
    )


def linkage_checks(
    drive: Drive, least_tilt_deg: float, steepest_tilt_deg: float
) -> tuple[Check, ...]:
    """Stroke, retracted length, dead centre and the rod's side over the travel.

    Args:
        drive: The drive section.
        least_tilt_deg: Start of the travel.
        steepest_tilt_deg: End of the travel.
    """
    tilts = travel_deg(least_tilt_deg, steepest_tilt_deg)
    lengths, levers = rod_length_m(drive, tilts), rod_arm_m(drive, tilts)
    return (
        _short_enough(drive, float(lengths.min()), float(tilts[np.argmin(lengths)])),
        _long_enough(drive, lengths, float(tilts[np.argmax(lengths)])),
        _off_dead_centre(levers, tilts),
    )


def _short_enough(drive: Drive, shortest_m: float, tilt: float) -> Check:
    steps = (
        Step("rod right in, pin to pin", "L0", "", drive.retracted_length_m, "m", OWNER),
        Step("at the worst tilt", "t", "", tilt, "deg", TRIGONOMETRY),
        Step(
            "shortest length on the travel",
            "L",
            "|frame pin - bracket|",
            shortest_m,
            "m",
            TRIGONOMETRY,
        ),
    )
    use = drive.retracted_length_m / shortest_m if shortest_m > 0.0 else np.inf
    return Check(
        "actuator", "short enough at the flattest", drive.retracted_length_m, shortest_m, "m", float(use),
        TRIGONOMETRY, Working("retracted length", steps),
    )  # fmt: skip


def _long_enough(drive: Drive, lengths: Floats, tilt: float) -> Check:
    longest_m, reach_m = float(lengths.max()), drive.retracted_length_m + drive.stroke_m
    used = f"The travel uses {percent(np.ptp(lengths) / drive.stroke_m)} of the stroke; the frame needs stops of its own at both ends."
    steps = (
        Step(
            "longest length on the travel",
            "L",
            "|frame pin - bracket|",
            longest_m,
            "m",
            TRIGONOMETRY,
        ),
        Step("at the tilt", "t", "", tilt, "deg", TRIGONOMETRY),
        Step(
            "reach",
            "L0 + s",
            f"{drive.retracted_length_m:.4f} + {drive.stroke_m:.4f}",
            reach_m,
            "m",
            TRIGONOMETRY,
        ),
    )
    return Check(
        "actuator", "stroke long enough", longest_m, reach_m, "m", longest_m / reach_m, TRIGONOMETRY,
        Working("stroke", steps, (used,)),
    )  # fmt: skip


def _off_dead_centre(levers: Floats, tilts: Floats) -> Check:
    """The lever keeps one sign and never falls under a quarter of its largest."""
    same_sign = bool((levers > 0.0).all() or (levers < 0.0).all())
    largest_m, worst = float(np.abs(levers).max()), int(np.argmin(np.abs(levers)))
    least_m, wanted_m = (
        float(np.abs(levers[worst])) if same_sign else 0.0,
        LEAST_LEVER_SHARE * largest_m,
    )
    use = wanted_m / least_m if least_m > 0.0 else np.inf
    pulled = (
        "steepening pulls the rod"
        if levers.mean() > 0.0
        else "steepening PUSHES the rod: it must not buckle"
    )
    steps = (
        Step("largest lever on the travel", "r max", "", largest_m, "m", TRIGONOMETRY),
        Step(
            "least lever wanted",
            "r least",
            f"{LEAST_LEVER_SHARE} x {largest_m:.4f}",
            wanted_m,
            "m",
            TRIGONOMETRY,
        ),
        Step("at the worst tilt", "t", "", float(tilts[worst]), "deg", TRIGONOMETRY),
        Step("least lever", "r", "dL/dt", least_m, "m", TRIGONOMETRY),
    )
    working = Working("lever of the rod about the hinge", steps, (pulled,))
    return Check(
        "actuator",
        "away from dead centre",
        wanted_m,
        least_m,
        "m",
        float(use),
        TRIGONOMETRY,
        working,
    )
