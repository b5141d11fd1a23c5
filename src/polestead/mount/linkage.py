"""The actuator's triangle over the travel: length, exposed rod, lever (conventions §9).

Frame pin: p = along (cos t, sin t) - below (-sin t, cos t).  Pole bracket: q = (out, -below).  L = |p - q|; the lever about
the hinge is dL/dt, so that a rod force F holds a moment F dL/dt (virtual work).
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from polestead.homestead.model import Drive

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class TapeRow:
    """One line of the tape table: at this tilt so much rod shows."""

    tilt_deg: float
    rod_shows_m: float


def _points(drive: Drive, tilt_deg: Floats) -> tuple[Floats, Floats, Floats, Floats]:
    """Frame pin less bracket, and the frame pin's rate of change per radian: dx, dz, px', pz'."""
    t = np.radians(tilt_deg)
    along, below = drive.pin_along_m, drive.pin_below_m
    x = along * np.cos(t) + below * np.sin(t)
    z = along * np.sin(t) - below * np.cos(t)
    return x - drive.bracket_out_m, z + drive.bracket_below_m, -z, x


def rod_length_m(drive: Drive, tilt_deg: Floats) -> Floats:
    """Pin-to-pin length at each tilt.

    Source: plane geometry.

    Args:
        drive: The drive section.
        tilt_deg: Any shape.

    Returns:
        [m], same shape.
    """
    dx, dz, _, _ = _points(drive, tilt_deg)
    return np.asarray(np.hypot(dx, dz))


def rod_arm_m(drive: Drive, tilt_deg: Floats) -> Floats:
    """Lever dL/dt [m per radian]: + where the rod lengthens as the array steepens, so that steepening pulls it.

    Source: virtual work; equals a b sin(phi) / L for pins a and b from the hinge with the angle phi between them.

    Args:
        drive: The drive section.
        tilt_deg: Any shape.
    """
    dx, dz, x_rate, z_rate = _points(drive, tilt_deg)
    return np.asarray((dx * x_rate + dz * z_rate) / np.hypot(dx, dz))


def triangle(a_m: float, b_m: float, between_deg: float) -> tuple[float, float]:
    """Length and lever of a rod between pins a and b from the hinge with an angle between them.

    Source: cosine rule; L^2 = a^2 + b^2 - 2 a b cos phi, lever = a b sin phi / L.

    Args:
        a_m: One pin from the hinge [m].
        b_m: The other [m].
        between_deg: Angle between them [deg].

    Example:
        >>> length, lever = triangle(0.8, 0.6, 90.0)
        >>> round(length, 12), round(lever, 12)
        (1.0, 0.48)
    """
    phi = np.radians(between_deg)
    length = float(np.sqrt(a_m**2 + b_m**2 - 2.0 * a_m * b_m * np.cos(phi)))
    return length, float(a_m * b_m * np.sin(phi)) / length


def tape_table(
    drive: Drive, least_tilt_deg: float, steepest_tilt_deg: float, step_deg: float = 5.0
) -> tuple[TapeRow, ...]:
    """Rod that shows at each tilt, for him without a printer.

    Args:
        drive: The drive section.
        least_tilt_deg: Start of the travel.
        steepest_tilt_deg: End of the travel, always the last row.
        step_deg: Between rows.
    """
    tilts = np.unique(
        np.append(np.arange(least_tilt_deg, steepest_tilt_deg, step_deg), steepest_tilt_deg)
    )
    shows = rod_length_m(drive, tilts) - drive.retracted_length_m
    return tuple(TapeRow(float(tilt), float(rod)) for tilt, rod in zip(tilts, shows, strict=True))
