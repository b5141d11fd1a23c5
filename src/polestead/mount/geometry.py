"""One linked geometry: change one length and all of it moves.

Side view (conventions §9).  Sun side to the left, hinge axis at the origin, x away from the sun side, z up; ``t`` is the
tilt.  Along the chord to the upper edge: (cos t, sin t); square to the glass, upwards: (-sin t, cos t).
"""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil

import numpy as np
from numpy.typing import NDArray

from polestead.homestead.model import Module, Mount, NewArray

Floats = NDArray[np.float64]
FRAME_DEPTH_M = 0.10  # rails and clamps behind a module's own thickness, seen edge on: common practice, no source


@dataclass(frozen=True, slots=True)
class Mass:
    """A piece that tips: its mass and where it sits from the hinge."""

    name: str
    mass_kg: float
    along_m: float  # along the chord, + towards the upper edge
    above_m: float  # square to the glass, + towards the glass


@dataclass(frozen=True, slots=True)
class Geometry:
    """Lengths, areas and masses of the tipping array.

    Attributes:
        width_m: Along the hinge, B.
        chord_m: From low edge to upper edge, c.
        area_m2: B c, gaps included.
        hinge_height_m: H over the ground.
        upper_m: Hinge to upper edge along the chord.
        lower_m: Hinge to low edge along the chord.
        glass_above_m: Hinge to glass, square to it.
        depth_m: Depth of frame and rails, edge on.
        pole_top_below_m: Hinge over the pole top.
        beam_clear_m: From the hinge axis to the back of the lowest beam, towards the glass.
        least_tilt_deg, steepest_tilt_deg: The travel.
        masses: The pieces that tip.
        mass_kg: Their sum.
        centre_along_m, centre_above_m: Their centre of gravity from the hinge.
    """

    width_m: float
    chord_m: float
    area_m2: float
    hinge_height_m: float
    upper_m: float
    lower_m: float
    glass_above_m: float
    depth_m: float
    pole_top_below_m: float
    beam_clear_m: float
    least_tilt_deg: float
    steepest_tilt_deg: float
    masses: tuple[Mass, ...]
    mass_kg: float
    centre_along_m: float
    centre_above_m: float


@dataclass(frozen=True, slots=True)
class Grid:
    """How the modules lie.

    Attributes:
        width_m: Along the hinge.
        chord_m: From low edge to upper edge.
        row_centres_m: Of each row along the chord, from mid-chord, + towards the upper edge.
    """

    width_m: float
    chord_m: float
    row_centres_m: tuple[float, ...]


def grid_of(
    module: Module, columns: int, rows: int, portrait: bool, gap_m: float, slot_m: float
) -> Grid:
    """The grid of modules, gaps and slot.

    Args:
        module: One module.
        columns: Side by side along the hinge.
        rows: From low edge to upper edge.
        portrait: Whether the long side runs along the chord.
        gap_m: Between neighbours [m].
        slot_m: Wider gap between the two middle rows in place of the common one [m]; 0 for none.
    """
    up_m, side_m = (
        (module.length_m, module.width_m) if portrait else (module.width_m, module.length_m)
    )
    gaps = [gap_m] * (rows - 1)
    if slot_m > 0.0 and rows % 2 == 0:
        gaps[rows // 2 - 1] = max(slot_m, gap_m)
    starts = np.cumsum([0.0] + [up_m + gap for gap in gaps])
    chord_m = float(starts[-1]) + up_m
    centres = tuple(float(start) + up_m / 2.0 - chord_m / 2.0 for start in starts)
    return Grid(columns * side_m + (columns - 1) * gap_m, chord_m, centres)


def geometry_of(mount: Mount, array: NewArray, strongback_kg: float) -> Geometry:
    """The linked geometry of a planned (or built) mount.

    Where the pieces sit square to the glass is not asked for, so it is assumed (our own rule), each a little nearer to the
    glass than it lies, because weight above the hinge steepens as the wind does: the modules at the glass itself; the
    rails half-way between the back of the lowest rail and the glass; the strongback half-way between the hinge axis and the
    back of the lowest rail, which is at or above its middle as long as it reaches down to the axis.

    Args:
        mount: The mount section.
        array: The array section.
        strongback_kg: Weighed, or from its size and the array's width [kg].
    """
    grid = grid_of(
        array.module, array.columns, array.rows, array.lie == "portrait", array.gap_m, array.slot_m
    )
    off_m = mount.hinge_off_centre_m
    rails_m = (mount.beam_clear_of_hinge_m + mount.glass_above_hinge_m) / 2.0
    strongback_m = max(mount.beam_clear_of_hinge_m, 0.0) / 2.0
    masses = [
        Mass(
            f"modules, row {number}",
            array.columns * array.module.mass_kg,
            centre - off_m,
            mount.glass_above_hinge_m,
        )
        for number, centre in enumerate(grid.row_centres_m, start=1)
    ]
    masses += [
        Mass("rails, clamps and hinge", mount.rails_mass_kg, -off_m, rails_m),
        Mass("strongback", strongback_kg, 0.0, strongback_m),
    ]
    total_kg = sum(mass.mass_kg for mass in masses)
    return Geometry(
        width_m=grid.width_m,
        chord_m=grid.chord_m,
        area_m2=grid.width_m * grid.chord_m,
        hinge_height_m=mount.hinge_height_m,
        upper_m=grid.chord_m / 2.0 - off_m,
        lower_m=grid.chord_m / 2.0 + off_m,
        glass_above_m=mount.glass_above_hinge_m,
        depth_m=array.module.thickness_m + FRAME_DEPTH_M,
        pole_top_below_m=mount.pole_top_below_hinge_m,
        beam_clear_m=mount.beam_clear_of_hinge_m,
        least_tilt_deg=mount.least_tilt_deg,
        steepest_tilt_deg=mount.steepest_tilt_deg,
        masses=tuple(masses),
        mass_kg=total_kg,
        centre_along_m=sum(mass.mass_kg * mass.along_m for mass in masses) / total_kg,
        centre_above_m=sum(mass.mass_kg * mass.above_m for mass in masses) / total_kg,
    )


def lowest_edge_m(geometry: Geometry, tilt_deg: Floats) -> Floats:
    """Height of the low edge over the ground, the frame's own depth included.

    z = H - lower sin t + (s - depth) cos t, the back corner of the low edge; H hinge height, s hinge to glass.

    Args:
        geometry: The linked geometry.
        tilt_deg: Any shape.
    """
    t = np.radians(tilt_deg)
    back_m = geometry.glass_above_m - geometry.depth_m
    return np.asarray(geometry.hinge_height_m - geometry.lower_m * np.sin(t) + back_m * np.cos(t))


def top_height_m(geometry: Geometry, tilt_deg: Floats) -> Floats:
    """Height of the upper edge over the ground: z = H + upper sin t + s cos t.

    Args:
        geometry: The linked geometry.
        tilt_deg: Any shape.
    """
    t = np.radians(tilt_deg)
    return np.asarray(
        geometry.hinge_height_m + geometry.upper_m * np.sin(t) + geometry.glass_above_m * np.cos(t)
    )


def reach_m(geometry: Geometry, tilt_deg: float) -> tuple[float, float]:
    """How far glass and frame reach from the hinge axis in plan at one tilt.

    x = a cos t - b sin t for each corner, a along the chord, b square to it, upwards.

    Args:
        geometry: The linked geometry.
        tilt_deg: The tilt [deg].

    Returns:
        Towards the sun, away from it [m].
    """
    t = np.radians(tilt_deg)
    back_m = geometry.glass_above_m - geometry.depth_m
    xs = [along * np.cos(t) - above * np.sin(t) for along in (-geometry.lower_m, geometry.upper_m) for above in (geometry.glass_above_m, back_m)]  # fmt: skip
    return -float(min(xs)), float(max(xs))


def swept_m(geometry: Geometry) -> tuple[float, float]:
    """The same over the whole travel, a degree at a time [m]."""
    count = ceil(geometry.steepest_tilt_deg - geometry.least_tilt_deg) + 1
    tilts = np.linspace(geometry.least_tilt_deg, geometry.steepest_tilt_deg, count).tolist()
    both = [reach_m(geometry, tilt) for tilt in tilts]
    return max(one for one, _ in both), max(two for _, two in both)


def pole_gap_m(geometry: Geometry, pole_outside_m: float, tilt_deg: Floats) -> Floats:
    """Least distance between the tipping frame and the pole's top; negative where they meet.

    The low half of the frame swings down on the sun side and backs against the pole.  Its backmost pieces reaching that far
    are the lowest rails: a plane ``b`` from the hinge axis towards the glass, with the normal n = (-sin t, cos t); the frame
    is where p.n >= b.  The pole is where -R <= x <= R and z <= -g; the largest p.n in it is R sin t - g cos t, at its top
    corner on the sun side, (-R, -g).  So they clear by g cos t + b - R sin t; at 90 degrees by b - R.  Cautious: the plane
    is taken to reach over the whole width and the whole low half.  The strongback, nearer to the hinge, has a sum of its
    own (`strongback_gap_m`).
    Source: our own trigonometry.

    Args:
        geometry: The linked geometry.
        pole_outside_m: Pole's outside diameter [m].
        tilt_deg: Any shape.

    Returns:
        Distance [m], same shape.

    Example:
        >>> bare = Geometry(4, 3, 12, 3, 1.5, 1.5, 0.2, 0.1, 0.2, 0.15, 0, 90, (), 200, 0, 0.1)
        >>> [round(float(gap), 3) for gap in pole_gap_m(bare, 0.2, np.array([0.0, 90.0]))]
        [0.35, 0.05]
    """
    t = np.radians(tilt_deg)
    gap_m, beam_m, radius_m = geometry.pole_top_below_m, geometry.beam_clear_m, pole_outside_m / 2.0
    return np.asarray(gap_m * np.cos(t) + beam_m - radius_m * np.sin(t))


def strongback_gap_m(
    geometry: Geometry, depth_m: float, breadth_m: float, tilt_deg: Floats
) -> Floats:
    """Room between the strongback's lowest corner and the level of the pole's top; negative where it may meet it.

    The tube lies against the rails: from b - depth to b square to the glass, breadth/2 each way along the chord.  Its two
    lower corners turn about the hinge; the lower one stands at (b - depth) cos t - (breadth/2) sin t over the axis, the
    pole's top at -g.  Cautious: the corner need not be over the pole when it is at its lowest.
    Source: our own trigonometry.

    Args:
        geometry: The linked geometry.
        depth_m: Of the tube, square to the glass [m].
        breadth_m: Of the tube, along the chord [m].
        tilt_deg: Any shape.

    Returns:
        Distance [m], same shape.

    Example:
        >>> bare = Geometry(4, 3, 12, 3, 1.5, 1.5, 0.2, 0.1, 0.2, 0.08, 0, 90, (), 200, 0, 0.1)
        >>> [round(float(g), 3) for g in strongback_gap_m(bare, 0.15, 0.15, np.array([0.0, 90.0]))]
        [0.13, 0.125]
    """
    t = np.radians(tilt_deg)
    lower_face_m = geometry.beam_clear_m - depth_m
    return np.asarray(
        geometry.pole_top_below_m + lower_face_m * np.cos(t) - breadth_m / 2.0 * np.sin(t)
    )


def dead_hinge_moment_n_m(geometry: Geometry, tilt_deg: Floats) -> Floats:
    """Moment of the tipping weight about the hinge, + steepens (conventions §10).

    M = W (z sin t - x cos t), z the centre of gravity's distance to the glass side, x towards the upper edge.
    Source: statics.

    Args:
        geometry: The linked geometry.
        tilt_deg: Any shape.

    Returns:
        [N m], same shape.

    Example:
        >>> bare = Geometry(4, 3, 12, 3, 1.5, 1.5, 0.2, 0.1, 0.2, 0.08, 0, 90, (), 200, 0.05, 0.1)
        >>> [round(float(m), 2) for m in dead_hinge_moment_n_m(bare, np.array([0.0, 90.0]))]
        [-98.07, 196.13]
    """
    t = np.radians(tilt_deg)
    weight_n = geometry.mass_kg * 9.80665
    return np.asarray(
        weight_n * (geometry.centre_above_m * np.sin(t) - geometry.centre_along_m * np.cos(t))
    )
