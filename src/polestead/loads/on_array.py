"""Wind laid on the tipping array: the one form in which every rule of wind hands it on.

Signs (conventions §9, §10): the push square to the glass is + from the back; its level part is + towards the sun side; a
moment is + where it steepens.  docs/method/loads.md derives them.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from polestead.base.source import Source
from polestead.mount.geometry import Geometry

Floats = NDArray[np.float64]
FLAT_PUSH = 0.25  # level push on a flat panel, by area: our own floor
FLAT_SOURCE = Source("a quarter of the pressure on the whole area, for no panel is pushed by nothing", "docs/method/loads.md", "ours")  # fmt: skip


@dataclass(frozen=True, slots=True, eq=False)
class WindActions:
    """Wind on the whole array, one line per load case, one column per tilt.

    Cases: wind on the back or on the glass, coefficient set A or B; above 45 degrees each with both signs of the
    hinge eccentricity.  Hinge moment: + turns the array steeper (conventions §10).

    Attributes:
        case_names: [cases].
        sides: ``back`` or ``glass`` [cases].
        tilt_deg: [tilts].
        push_n: Force square to the glass, + from the back [cases, tilts].
        normal_n: Its size [cases, tilts].
        towards_sun_n: Level part, + towards the sun side, least pushes in it [cases, tilts].
        across_n: Size of that [cases, tilts].
        up_n: Upright part, + upwards [cases, tilts].
        hinge_n_m: Moment about the hinge, + steepens [cases, tilts].
        base_signed_n_m: ``towards_sun_n`` at hinge height and the hinge moment about the ground line [cases, tilts].
        base_n_m: Size of that [cases, tilts].
        twist_n_m: About the pole's axis, from the force off centre [cases, tilts].
        roll_n_m: About the horizontal axis across the hinge [cases, tilts].
        lift_pa: Largest pressure of a half panel off the glass, outwards, not below 0 [cases, tilts].
        press_pa: The same onto the glass [cases, tilts].
    """

    case_names: tuple[str, ...]
    sides: tuple[str, ...]
    tilt_deg: Floats
    push_n: Floats
    normal_n: Floats
    towards_sun_n: Floats
    across_n: Floats
    up_n: Floats
    hinge_n_m: Floats
    base_signed_n_m: Floats
    base_n_m: Floats
    twist_n_m: Floats
    roll_n_m: Floats
    lift_pa: Floats
    press_pa: Floats


def assembled(
    geometry: Geometry,
    names: tuple[str, ...],
    sides: tuple[str, ...],
    tilt_deg: Floats,
    push: Floats,
    turn: Floats,
    lift: Floats,
    press: Floats,
    least_n: Floats,
    off_centre: float,
) -> WindActions:
    """Components, hinge moment with the hinge off mid-chord, base moment, twist and roll.

    Args:
        geometry: The linked geometry.
        names: Of the cases [cases].
        sides: ``back`` or ``glass`` [cases].
        tilt_deg: [tilts].
        push: Square to the glass, + from the back [cases, tilts] N.
        turn: Moment about mid-chord, + steepens [cases, tilts] N m.
        lift: Pressure off the glass [cases, tilts] Pa.
        press: Pressure onto it [cases, tilts] Pa.
        least_n: Least level push [tilts].
        off_centre: How far to one side the push may act, as a share of the width.
    """
    t = np.radians(tilt_deg)
    facing = np.array([1.0 if side == "back" else -1.0 for side in sides])[:, None]
    level = push * np.sin(t)
    towards = facing * np.maximum(facing * level, least_n)  # the least push blows with its wind
    towards = np.where(least_n > 0.0, towards, level)
    lever_m, up = off_centre * geometry.width_m, push * np.cos(t)
    twist, roll = lever_m * np.abs(towards), lever_m * np.abs(up)
    return on_hinge(
        geometry, names, sides, tilt_deg, push, towards, up, turn, twist, roll, lift, press
    )


def on_hinge(
    geometry: Geometry,
    names: tuple[str, ...],
    sides: tuple[str, ...],
    tilt_deg: Floats,
    push: Floats,
    towards: Floats,
    up: Floats,
    turn: Floats,
    twist: Floats,
    roll: Floats,
    lift: Floats,
    press: Floats,
) -> WindActions:
    """Moments carried from mid-chord to the hinge and from there to the ground.

    Args:
        geometry: The linked geometry.
        names: Of the cases [cases].
        sides: ``back`` or ``glass`` [cases].
        tilt_deg: [tilts].
        push: Square to the glass, + from the back [cases, tilts] N.
        towards: Level part [cases, tilts] N.
        up: Upright part [cases, tilts] N.
        turn: Moment about mid-chord, + steepens [cases, tilts] N m.
        twist: About the pole [cases, tilts] N m.
        roll: Across the hinge [cases, tilts] N m.
        lift: Pressure off the glass [cases, tilts] Pa.
        press: Pressure onto it [cases, tilts] Pa.
    """
    off_centre_m = (geometry.lower_m - geometry.upper_m) / 2.0  # hinge over mid-chord
    hinge = turn - off_centre_m * push
    base = towards * geometry.hinge_height_m + hinge
    return WindActions(
        case_names=names,
        sides=sides,
        tilt_deg=tilt_deg,
        push_n=push,
        normal_n=np.abs(push),
        towards_sun_n=towards,
        across_n=np.abs(towards),
        up_n=up,
        hinge_n_m=hinge,
        base_signed_n_m=base,
        base_n_m=np.abs(base),
        twist_n_m=twist,
        roll_n_m=roll,
        lift_pa=lift,
        press_pa=press,
    )


def projected_m2(geometry: Geometry, tilt_deg: Floats) -> Floats:
    """Area the level wind sees, B (c sin t + depth cos t): glass and frame depth.

    Source: projection.

    Args:
        geometry: The linked geometry.
        tilt_deg: [tilts].
    """
    t = np.radians(tilt_deg)
    seen_m = geometry.chord_m * np.abs(np.sin(t)) + geometry.depth_m * np.cos(t)
    return np.asarray(geometry.width_m * seen_m)
