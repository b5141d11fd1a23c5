"""One linked geometry: change one length and all of it moves.

Side view, sun side to the left.  Hinge axis at the origin, x away from the sun (towards the upper edge when flat), z up;
``t`` is the tilt.  Along the chord to the upper edge: (cos t, sin t); square to the glass, up: (-sin t, cos t).
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from polestead.base.check import Check
from polestead.homestead.model import Mount, NewArray

Floats = NDArray[np.float64]


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
        beam_below_m: Lowest beam behind the hinge.
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
    beam_below_m: float
    least_tilt_deg: float
    steepest_tilt_deg: float
    masses: tuple[Mass, ...]
    mass_kg: float
    centre_along_m: float
    centre_above_m: float


def geometry_of(mount: Mount, array: NewArray, strongback_kg: float) -> Geometry:
    """The linked geometry of a planned (or built) mount."""
    raise NotImplementedError


def lowest_edge_m(geometry: Geometry, tilt_deg: Floats) -> Floats:
    """Height of the low edge over the ground."""
    raise NotImplementedError


def top_height_m(geometry: Geometry, tilt_deg: Floats) -> Floats:
    """Height of the upper edge over the ground."""
    raise NotImplementedError


def geometry_checks(
    geometry: Geometry, pole_outside_m: float, clear_below_m: float, height_limit_m: float | None
) -> tuple[Check, ...]:
    """Clearance, pole strike and height over the whole travel, each at its worst tilt."""
    raise NotImplementedError
