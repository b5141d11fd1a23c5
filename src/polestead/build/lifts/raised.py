"""The lifts of one mount, in their order, and the order in which its modules are hung."""

from __future__ import annotations

from math import hypot

import numpy as np

from polestead.build.given import Given
from polestead.build.lifts.hanging import HangingOrder, Hold, hanging_order, spots_of
from polestead.build.lifts.lift import Lift, Raised, lift_of
from polestead.build.pieces.hinge import hinge_kg
from polestead.build.pieces.steel import ARM, off_the_hinge
from polestead.homestead.model import Lock
from polestead.stand.half_built import BARE, HALF, STRONGBACK
from polestead.strength.allowable import Allowable, SteelCode
from polestead.strength.pins import pin_double_shear
from polestead.strength.tubes import strut_push, tube_section

NOT_UNDER = "nobody under the hook, the load, or between load and pole; no hand in the hinge; children and animals indoors"


def lifts_of(g: Given) -> tuple[Lift, ...]:
    """Every lift, in the order in which they are made."""
    raised = [_pole(g), _frame_whole(g), _strongback(g), _rail(g), _module(g)]
    if g.drive is not None:
        raised.append(_actuator(g))
    return tuple(lift_of(one, g.half_built) for one in raised if one is not None)


def heaviest(lifts: tuple[Lift, ...]) -> Lift:
    """The heaviest of those whose weight is known."""
    return max(lifts, key=lambda lift: lift.mass_kg or 0.0)


def _pole(g: Given) -> Raised:
    return Raised(
        "the pole", 1, g.pole_m * g.pipe.mass_kg_m, g.pole_m / 2.0, "from its foot, along the pole",
        "Two legs while it lies; to stand it, a choker and a second turn above the middle, or it turns over; foot first into the hole, let down, never dropped.",
        "Both braces clamped and staked before the hook comes off; twist bars in; plumb both ways.",
        f"{NOT_UNDER}; nobody in the hole, ever", g.pipe.outside_m * g.pole_m, g.pole_over_ground_m, g.pole_m, BARE,
    )  # fmt: skip


def _frame_whole(g: Given) -> Raised:
    geometry, parts = g.geometry, frame_parts(g)
    high = {m.name: m.above_m for m in geometry.masses}
    kg = sum(mass for _, mass in parts)
    above = sum(mass * _above_m(name, high) for name, mass in parts) / kg
    return Raised(
        "strongback, rails and hinge together", 1, kg, above, "from the hinge axis towards the glass, at mid-width; along the chord at the hinge's own off-set",
        "Two legs to the strongback as far apart as the slings allow, one tag line at each end; down on the hinge, both pins in.",
        "Hinge pins in and cottered, storm hold and prop in, before the hook comes off.",
        NOT_UNDER, None, geometry.hinge_height_m, hypot(geometry.width_m, geometry.chord_m), STRONGBACK, parts, unweighed(g),
    )  # fmt: skip


def frame_parts(g: Given) -> tuple[tuple[str, float], ...]:
    """What goes up with the strongback, in kilograms: the pieces by their size, and what ``mount.rails_mass`` leaves beyond them."""
    parts = [("strongback", g.strongback_kg)]
    if g.rails_kg is not None:
        parts.append(("rails", g.rails_kg))
    hinge = hinge_kg(g)
    if hinge > 0.0:
        parts.append(("hinge: ears, lugs and pins", hinge))
    left = g.mount.rails_mass_kg - (g.rails_kg or 0.0) - hinge
    if left > 0.0:
        parts.append(("clamps, and what else the file weighs with the rails", left))
    return tuple(parts)


def unweighed(g: Given) -> tuple[str, ...]:
    """Pieces on the frame that no size tells the weight of."""
    found = [] if g.rail is not None else ["rails beyond what the file weighs"]
    if g.frame.rail_brace_m is not None:
        found.append(f"{2 * g.rails} knee braces")
    if off_the_hinge(g):
        found.append(f"the {ARM}")
    if g.drive is not None:
        found.append("the rod's lug")
    return tuple(found)


def _above_m(name: str, high: dict[str, float]) -> float:
    """Over the hinge axis: the hinge itself lies on it, what else is not the strongback at the rails."""
    if name.startswith("hinge"):
        return 0.0
    return high["strongback" if name == "strongback" else "rails, clamps and hinge"]


def _strongback(g: Given) -> Raised:
    return Raised(
        "the strongback alone", 1, g.strongback_kg, g.geometry.width_m / 2.0, "from either end, along the tube",
        "Where the whole frame is too heavy: strongback with its hinge first, rails one by one after it.",
        "Hinge pins in and cottered, storm hold in.",
        NOT_UNDER, g.beam.depth_m * g.geometry.width_m, g.geometry.hinge_height_m, g.geometry.width_m, STRONGBACK,
    )  # fmt: skip


def _rail(g: Given) -> Raised | None:
    if g.rail is None:
        return None
    return Raised(
        "one rail", g.rails, g.geometry.chord_m * g.rail.mass_kg_m, g.geometry.chord_m / 2.0, "from either end, along the rail",
        "From two platforms or ladders tied off, one at each end; from the middle of the strongback outwards, left and right in turn.",
        "Its fastening to the strongback tight before it is let go; storm hold in.",
        NOT_UNDER, g.rail.depth_m * g.geometry.chord_m, g.geometry.hinge_height_m, g.geometry.chord_m, STRONGBACK,
    )  # fmt: skip


def _module(g: Given) -> Raised:
    module = g.array.module
    top_m = g.geometry.hinge_height_m + g.geometry.upper_m * float(np.sin(np.radians(g.mount.least_tilt_deg)))  # fmt: skip
    return Raised(
        "one module", g.modules, module.mass_kg, module.length_m / 2.0, "from its short side, along the long one",
        "Two people from two platforms, or a hoist made for modules; never by its cables or its junction box; covered, or its leads capped.",
        "All its clamps on, finger-tight, before it is let go; storm hold and prop in since before the first.",
        f"{NOT_UNDER}; nobody below either half of the array", module.length_m * module.width_m, top_m, module.length_m, HALF,
    )  # fmt: skip


def _actuator(g: Given) -> Raised | None:
    d = g.drive
    if d is None:
        return None
    return Raised(
        "the actuator", 1, None, d.retracted_length_m / 2.0, "from its foot pin, taken half-way for want of the maker's word",
        "Hung by a soft sling round its tube, pinned at the pole first, then at the frame; storm hold in meanwhile.",
        "Storm hold in: the rod alone holds no storm.",
        NOT_UNDER, None, g.geometry.hinge_height_m, d.retracted_length_m, "",
    )  # fmt: skip


def hanging_of(g: Given) -> HangingOrder:
    """The order of the modules, against storm hold and prop."""
    wide_m = g.module_sides_m[0]
    off_m = g.mount.hinge_off_centre_m
    spots = spots_of([row - off_m for row in g.grid.row_centres_m], g.array.columns, wide_m + g.array.gap_m)  # fmt: skip
    along, above = _bare_kg_m(g)
    low, high = g.geometry.least_tilt_deg, g.geometry.steepest_tilt_deg
    named = ((g.lock, "storm hold"), (g.prop, "prop"))
    holds = [_hold(g, hold, name) for hold, name in named if hold is not None]
    return hanging_order(
        spots, along, above, g.array.module.mass_kg, g.mount.glass_above_hinge_m, np.linspace(low, high, 91).tolist(), holds
    )  # fmt: skip


def _bare_kg_m(g: Given) -> tuple[float, float]:
    """What tips before the first module, about the hinge: along the chord, and square to the glass."""
    along = above = 0.0
    for mass in g.geometry.masses:
        if mass.name.startswith("modules"):
            continue
        kg = (
            max(mass.mass_kg, (g.rails_kg or 0.0) + hinge_kg(g))
            if mass.name.startswith("rails")
            else mass.mass_kg
        )
        along, above = along + kg * mass.along_m, above + kg * mass.above_m
    return along, above


def _hold(g: Given, hold: Lock, name: str) -> Hold:
    """The weaker of its pin and its strut."""
    code: SteelCode = "EN" if g.eurocode else "AISC"
    bears: Allowable = pin_double_shear(hold.pin_diameter_m, hold.pin_steel, code)
    if hold.strut is not None and hold.strut_length_m is not None:
        bears = min(bears, strut_push(tube_section(hold.strut), hold.strut_length_m, code), key=lambda one: one.value)  # fmt: skip
    return Hold(name, hold.arm_m, bears)
