"""The heap of shed snow under the low edge, first version: one fall, the depths handed in."""

from __future__ import annotations

from math import cos, radians, sqrt, tan

import numpy as np

from polestead.base.check import Check, share
from polestead.base.source import OWNER, Source
from polestead.base.working import Step, Working
from polestead.mount.geometry import Geometry, lowest_edge_m
from polestead.mount.travel import TRIGONOMETRY, travel_deg

REPOSE_DEG = 40.0
REPOSE = Source("pvlib documentation of the Townsend snow model", "pile angle 40 degrees")
SETTLED_SHARE = 0.5  # fresh snow that has slid and settled: common practice, no source
RIDGE = Source("a ridge of shed snow, both sides at the angle of repose", status="ours")


def heap_height_m(fall_m: float, chord_m: float, caught_at_deg: float = 0.0) -> float:
    """Height of the ridge that one shed fall leaves on the ground under the low edge.

    Snow caught per metre of width: fall x chord x cos(tilt).  It settles to half and lies as a ridge with both sides at 40
    degrees, of section h^2 / tan 40.  Cautious: caught lying flat unless told, nothing blown away, no end slopes.  Not
    cautious: one fall only; falls that are not cleared away add up.
    Source: our own rule; angle of repose 40 degrees (pvlib documentation of the Townsend model).

    Args:
        fall_m: Depth of fresh snow on the level [m].
        chord_m: Low edge to upper edge [m].
        caught_at_deg: Tilt while it fell [deg].

    Returns:
        Over the snow that lies already [m].

    Example:
        >>> round(heap_height_m(0.3048, 4.023, 45.0), 2)  # a foot of snow on 13.2 ft: about two feet
        0.6
    """
    section_m2 = SETTLED_SHARE * fall_m * chord_m * cos(radians(caught_at_deg))
    return sqrt(section_m2 * tan(radians(REPOSE_DEG)))


def snow_room_check(
    geometry: Geometry, fall_m: float, lying_m: float, caught_at_deg: float = 0.0
) -> Check:
    """Whether the low edge stays over the lying snow and the heap, at the worst tilt of the travel.

    Args:
        geometry: The linked geometry.
        fall_m: The largest single fall to be shed [m].
        lying_m: Snow that lies on the ground already [m].
        caught_at_deg: Tilt while it fell [deg]; flat is the cautious choice.
    """
    tilts = travel_deg(geometry.least_tilt_deg, geometry.steepest_tilt_deg)
    edges = lowest_edge_m(geometry, tilts)
    worst = int(np.argmin(edges))
    edge_m, heap_m = float(edges[worst]), heap_height_m(fall_m, geometry.chord_m, caught_at_deg)
    section = f"{SETTLED_SHARE} x {fall_m:.3f} x {geometry.chord_m:.3f} x cos {caught_at_deg:.1f}"
    steps = (
        Step("snow that lies already", "z lying", "", lying_m, "m", OWNER),
        Step("heap of one shed fall", "h", f"sqrt({section} x tan {REPOSE_DEG:.0f})", heap_m, "m", REPOSE),
        Step("at the worst tilt", "t", "", float(tilts[worst]), "deg", TRIGONOMETRY),
        Step("lowest edge over the ground", "z", "", edge_m, "m", TRIGONOMETRY),
        Step("top of the heap over the ground", "z lying + h", f"{lying_m:.3f} + {heap_m:.3f}", lying_m + heap_m, "m", RIDGE),
    )  # fmt: skip
    notes = ("One fall only: heaps that are not cleared away add up.",)
    wanted_m = lying_m + heap_m
    return Check(
        "lowest edge", "free of the snow heap", wanted_m, edge_m, "m", share(wanted_m, edge_m), RIDGE,
        Working("heap of shed snow", steps, notes),
    )  # fmt: skip
