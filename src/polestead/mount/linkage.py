"""The actuator's triangle over the travel: length, exposed rod, lever (conventions §9).

Frame pin: p = along (cos t, sin t) - below (-sin t, cos t).  Pole bracket: q = (out, -below).  L = |p - q|; the lever about
the hinge is dL/dt, so that a rod force F holds a moment F dL/dt (virtual work).
"""

from __future__ import annotations

from dataclasses import dataclass
from math import pi

import numpy as np
from numpy.typing import NDArray

from polestead.base.problem import Problem, Wrong
from polestead.homestead.model import Drive

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class TapeRow:
    """One line of the tape table: at this tilt so much rod shows.

    Attributes:
        tilt_deg: The tilt.
        rod_shows_m: Rod out of its tube.
        arm_m: Lever about the hinge.
        seconds_per_deg: At the drive's rated speed, None where it is not known.
        cold_seconds_per_deg: Loaded and in the cold.
    """

    tilt_deg: float
    rod_shows_m: float
    arm_m: float
    seconds_per_deg: float | None
    cold_seconds_per_deg: float | None


COLD_SLOWER = (
    2.0  # a loaded drive in cold grease runs at half its speed: common practice, no source
)


def length_and_arm_m(
    along_m: Floats | float,
    below_m: Floats | float,
    out_m: Floats | float,
    down_m: Floats | float,
    tilt_deg: Floats,
) -> tuple[Floats, Floats]:
    """Pin-to-pin length and lever dL/dt of any pins; all shapes go together as numpy has them.

    Source: plane geometry; virtual work.

    Args:
        along_m: Frame pin from the hinge along the chord.
        below_m: Below the hinge line.
        out_m: Pole bracket from the pole's axis.
        down_m: Below the hinge.
        tilt_deg: The tilt.

    Returns:
        Length [m], lever [m per radian].
    """
    t = np.radians(tilt_deg)
    x = along_m * np.cos(t) + below_m * np.sin(t)
    z = along_m * np.sin(t) - below_m * np.cos(t)
    dx, dz = x - out_m, z + down_m
    length = np.asarray(np.hypot(dx, dz))
    # the frame pin moves by (-z, x) a radian; pins on one another have no lever
    return length, np.asarray((dz * x - dx * z) / np.maximum(length, 1e-6))


def _of_drive(drive: Drive, tilt_deg: Floats) -> tuple[Floats, Floats]:
    return length_and_arm_m(
        drive.pin_along_m, drive.pin_below_m, drive.bracket_out_m, drive.bracket_below_m, tilt_deg
    )


def rod_length_m(drive: Drive, tilt_deg: Floats) -> Floats:
    """Pin-to-pin length at each tilt.

    Source: plane geometry.

    Args:
        drive: The drive section.
        tilt_deg: Any shape.

    Returns:
        [m], same shape.
    """
    return _of_drive(drive, tilt_deg)[0]


def rod_arm_m(drive: Drive, tilt_deg: Floats) -> Floats:
    """Lever dL/dt [m per radian]: + where the rod lengthens as the array steepens, so that steepening pulls it.

    Source: virtual work; equals a b sin(phi) / L for pins a and b from the hinge with the angle phi between them.

    Args:
        drive: The drive section.
        tilt_deg: Any shape.
    """
    return _of_drive(drive, tilt_deg)[1]


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
    """Rod that shows at each tilt, its lever and how long a degree takes, for him without a printer.

    Args:
        drive: The drive section.
        least_tilt_deg: Start of the travel.
        steepest_tilt_deg: End of the travel, always the last row.
        step_deg: Between rows.
    """
    tilts = np.unique(
        np.append(np.arange(least_tilt_deg, steepest_tilt_deg, step_deg), steepest_tilt_deg)
    )
    shows, arms = rod_length_m(drive, tilts) - drive.retracted_length_m, rod_arm_m(drive, tilts)
    rows = []
    for tilt, rod, arm in zip(tilts.tolist(), shows.tolist(), arms.tolist(), strict=True):
        rated = None if drive.speed_m_s is None else abs(arm) * pi / 180.0 / drive.speed_m_s
        cold = None if rated is None else COLD_SLOWER * rated
        rows.append(TapeRow(tilt, rod, arm, rated, cold))
    return tuple(rows)


def tilt_from_rod_deg(
    drive: Drive, rod_shows_m: Floats, least_tilt_deg: float, steepest_tilt_deg: float
) -> Floats:
    """Tilt at which so much rod shows: the triangle solved the other way round.

    With r and q the two pins' distances from the hinge, cos phi = (r^2 + q^2 - L^2) / 2 r q; the tilt is that angle laid off
    from the bracket's direction, on the side on which the rod lengthens (or shortens) over the travel.
    Source: cosine rule.  Valid for: a linkage without a dead centre on the travel.

    Args:
        drive: The drive section.
        rod_shows_m: Measured rod out of its tube, any shape [m].
        least_tilt_deg: Start of the travel [deg].
        steepest_tilt_deg: End of the travel [deg].

    Returns:
        Tilt [deg], same shape.

    Raises:
        Wrong: A rod that no tilt of the travel shows (half a degree is let pass), or a dead centre on the travel.
    """
    r = np.hypot(drive.pin_along_m, drive.pin_below_m)
    q = np.hypot(drive.bracket_out_m, drive.bracket_below_m)
    length = drive.retracted_length_m + np.asarray(rod_shows_m, dtype=np.float64)
    phi = np.degrees(np.arccos(np.clip((r**2 + q**2 - length**2) / (2.0 * r * q), -1.0, 1.0)))
    turned = np.degrees(
        np.arctan2(-drive.bracket_below_m, drive.bracket_out_m)
        + np.arctan2(drive.pin_below_m, drive.pin_along_m)
    )
    side = _side(drive, least_tilt_deg, steepest_tilt_deg)
    tilt = (turned + side * phi + 180.0) % 360.0 - 180.0
    outside = (tilt < least_tilt_deg - 0.5) | (tilt > steepest_tilt_deg + 0.5)
    outside |= np.abs(rod_length_m(drive, tilt) - length) > 1e-6
    if np.any(outside):
        raise Wrong([_no_such_rod(drive, least_tilt_deg, steepest_tilt_deg, length)])
    return np.asarray(tilt)


def _side(drive: Drive, least_tilt_deg: float, steepest_tilt_deg: float) -> float:
    """+1 where the rod lengthens as the array steepens, -1 where it shortens."""
    levers = rod_arm_m(drive, np.linspace(least_tilt_deg, steepest_tilt_deg, 181))
    if np.all(levers > 0.0):
        return 1.0
    if np.all(levers < 0.0):
        return -1.0
    raise Wrong([Problem(
        "drive", "", "a linkage with a dead centre on the travel", "a lever that keeps its sign",
        "Move the frame pin or the pole bracket, then measure again.",
    )])  # fmt: skip


def _no_such_rod(
    drive: Drive, least_tilt_deg: float, steepest_tilt_deg: float, length: Floats
) -> Problem:
    ends = rod_length_m(drive, np.array([least_tilt_deg, steepest_tilt_deg]))
    shows = np.sort(ends - drive.retracted_length_m)
    given = ", ".join(f"{rod:.3f} m" for rod in np.ravel(length) - drive.retracted_length_m)
    return Problem(
        "drive", "", f"{given} of rod showing", f"{shows[0]:.3f} to {shows[1]:.3f} m over the travel",
        "Measure the rod again, or the pins: one of the lengths in the file is not as built.",
    )  # fmt: skip


def steepening_pulls(drive: Drive, least_tilt_deg: float, steepest_tilt_deg: float) -> bool:
    """True where the rod lengthens over the whole travel, so that whatever steepens the array (wind) pulls the rod.

    A rod that is pushed instead can buckle in the wind; then its column strength decides.

    Args:
        drive: The drive section.
        least_tilt_deg: Start of the travel [deg].
        steepest_tilt_deg: End of the travel [deg].
    """
    levers = rod_arm_m(drive, np.linspace(least_tilt_deg, steepest_tilt_deg, 181))
    return bool(np.all(levers > 0.0))


def move_time_s(drive: Drive, from_deg: float, to_deg: float) -> float | None:
    """How long a move takes at the drive's rated speed; under load and in the cold it takes longer.  None if not known.

    Args:
        drive: The drive section.
        from_deg: Tilt at the start [deg].
        to_deg: Tilt at the end [deg].
    """
    if drive.speed_m_s is None:
        return None
    path = rod_length_m(drive, np.linspace(from_deg, to_deg, 181))
    return float(np.abs(np.diff(path)).sum()) / drive.speed_m_s
