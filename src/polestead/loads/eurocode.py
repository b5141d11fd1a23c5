"""Wind on the tipped array after EN 1991-1-4: the monopitch canopy to 30 degrees, and our own branch above it.

Table 7.6 ends at 30 degrees.  From there to 90 the force goes in a straight line to that of a signboard (7.4.3, cf = 1.8) on
the back and on the glass, and its place from a quarter to a tenth of the chord: ours, without a jump, on the careful side.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

import numpy as np
from numpy.typing import NDArray

from polestead.base.source import Source
from polestead.base.table import table
from polestead.loads.coefficients import SIDES
from polestead.loads.on_array import FLAT_PUSH, WindActions, assembled
from polestead.loads.pressure import SiteWind, velocity_pressure_pa
from polestead.mount.geometry import Geometry

Floats = NDArray[np.float64]
ENDS_AT_DEG = 30.0
UPRIGHT = 1.8  # 7.4.3
OFF_CENTRE = 0.25  # of the width, 7.4.3 (2)
NEAR_EDGE, NEAR_MIDDLE = 0.25, 0.10  # of the chord: place of the force to 30 degrees, and upright
BOTH_SIGNS_FROM_DEG = 60.0  # from here the force may lie as far on either side of the middle
BEYOND = 0.05  # of the chord, beyond the middle, to 30 degrees
STRIP = 0.1  # of width and chord: zones B and C of Table 7.6
CANOPY_SOURCE = Source("EN 1991-1-4:2005", "7.3, Table 7.6, both blockages", "seen-copy")
STRUCTURAL_SOURCE = Source("EN 1991-1-4:2005", "6.2 (1), lower than 15 m", "memory")
OFF_CENTRE_SOURCE = Source("a quarter of the width as EN 1991-1-4:2005, 7.4.3, but at every tilt", "docs/method/loads.md", "ours")  # fmt: skip
BRANCH_SOURCE = Source("straight from Table 7.6 at 30 degrees to 7.4.3 upright", "docs/method/loads.md", "ours")  # fmt: skip
ZONES_SOURCE = Source("EN 1991-1-4:2005", "Table 7.6, zones A, B, C over the corner module", "memory")  # fmt: skip
ZONES_BRANCH = Source("straight from the zones of Table 7.6 at 30 degrees to 2.3, a free-standing wall's end (Table 7.9), upright", "docs/method/loads.md", "ours")  # fmt: skip
WALL_END = 2.3  # net pressure in the end zone of a free-standing wall
BLOCKAGES = ("open below", "blocked below")


@cache
def _columns() -> dict[str, Floats]:
    rows = table("loads", "canopy")
    return {key: np.array([float(row[key]) for row in rows]) for key in rows[0] if key != "source"}


def _at(column: str, tilt_deg: Floats) -> Floats:
    columns = _columns()
    return np.asarray(np.interp(np.abs(tilt_deg), columns["tilt_deg"], columns[column]))


def force_coefficient(side: str, blocked: bool, tilt_deg: Floats) -> Floats:
    """Size of cf on the whole array, square to the glass.

    Wind on the back lifts (the table's upward figures, by blockage), wind on the glass presses (its downward figure).
    Source: EN 1991-1-4 Table 7.6 to 30 degrees (seen in a copy), 7.4.3 at 90; between, ours.

    Args:
        side: ``back`` or ``glass``.
        blocked: Whether the way under the array is blocked; of the lift only, and below 30 degrees.
        tilt_deg: Any shape, size taken.

    Example:
        >>> [round(float(force_coefficient("glass", False, np.array(t))), 2) for t in (30.0, 60.0, 90.0)]
        [1.2, 1.5, 1.8]
    """
    share = np.clip((np.abs(tilt_deg) - ENDS_AT_DEG) / (90.0 - ENDS_AT_DEG), 0.0, 1.0)
    column = "down" if side == "glass" else ("up1" if blocked else "up0")
    at = np.abs(_at(column, tilt_deg))
    end = np.abs(_at("down" if side == "glass" else "up0", np.array(ENDS_AT_DEG)))
    return np.where(np.abs(tilt_deg) <= ENDS_AT_DEG, at, end + (UPRIGHT - end) * share)


def place_of_force(tilt_deg: Floats) -> Floats:
    """Distance of the force from mid-chord over the chord, towards the edge that meets the wind: .25 to .10."""
    share = np.clip((np.abs(tilt_deg) - ENDS_AT_DEG) / (90.0 - ENDS_AT_DEG), 0.0, 1.0)
    return np.asarray(NEAR_EDGE + (NEAR_MIDDLE - NEAR_EDGE) * share)


def place_beyond(tilt_deg: Floats) -> Floats:
    """How far beyond the middle the force may lie, away from the edge that meets the wind: .05 to 30 degrees, as much as before it from 60.

    Source: ours; EN 1991-1-4 tells of no such place to 30 degrees, tests and the US figure have the force turn the array
    flatter now and then.
    """
    share = np.clip(
        (np.abs(tilt_deg) - ENDS_AT_DEG) / (BOTH_SIGNS_FROM_DEG - ENDS_AT_DEG), 0.0, 1.0
    )
    return np.asarray(BEYOND + share * (place_of_force(tilt_deg) - BEYOND))


@dataclass(frozen=True, slots=True)
class EurocodeCase:
    """One case of wind."""

    side: str
    blocked: bool
    sense: float


def cases() -> tuple[EurocodeCase, ...]:
    """Both sides, both blockages (of the lift; what presses knows none), the force on either side of the middle."""
    return tuple(
        EurocodeCase(side, blocked, sense)
        for side in SIDES
        for blocked in (False, True)
        for sense in (1.0, -1.0)
    )


def case_name(case: EurocodeCase) -> str:
    """Of a case, in words."""
    return f"wind on the {case.side}, {BLOCKAGES[case.blocked]}, {'+' if case.sense > 0 else '-'}"


def eurocode_actions(
    geometry: Geometry,
    site: SiteWind,
    gust_m_s: float,
    tilt_deg: Floats,
    code_floors: bool,
    module_sides_m: tuple[float, float],
) -> WindActions:
    """Wind actions at one gust (3 s, 10 m, terrain II), all cases and tilts; characteristic, without any partial factor.

    N = cs cd q_p(z top) cf A with cs cd = 1 (lower than 15 m); M = N e.  A tilt below 0 is the same panel seen in a mirror.
    Source: EN 1991-1-4 5.3, 6.2 (1), 7.3, 7.4.3.

    Args:
        geometry: The linked geometry.
        site: The place.
        gust_m_s: [m/s].
        tilt_deg: -45 to 90 [tilts].
        code_floors: Whether a quarter of the pressure pushes level on a flat panel (ours; the code check only).
        module_sides_m: Of a module along the hinge and along the chord [m].
    """
    q_pa = velocity_pressure_pa(gust_m_s, top_edge_m(geometry, tilt_deg), site)
    rows, names, sides = [], [], []
    for case in cases():
        rows.append(_one(geometry, case, q_pa, tilt_deg, module_sides_m))
        names.append(case_name(case))
        sides.append(case.side)
    push, turn, lift, press = (np.stack(part) for part in zip(*rows, strict=True))
    least_n = np.zeros_like(tilt_deg)
    if code_floors:
        least_n = FLAT_PUSH * q_pa * geometry.area_m2
    return assembled(
        geometry, tuple(names), tuple(sides), tilt_deg, push, turn, lift, press, least_n, OFF_CENTRE
    )


def top_edge_m(geometry: Geometry, tilt_deg: Floats) -> Floats:
    """Height of the higher edge, z_e; past flat it is the other one.

    Args:
        geometry: The linked geometry.
        tilt_deg: Any shape.
    """
    reach_m = np.where(np.asarray(tilt_deg) < 0.0, geometry.lower_m, geometry.upper_m)
    sine = np.sin(np.radians(np.abs(tilt_deg)))
    return np.asarray(geometry.hinge_height_m + reach_m * sine)


def _one(
    geometry: Geometry,
    case: EurocodeCase,
    q_pa: Floats,
    tilt_deg: Floats,
    module_sides_m: tuple[float, float],
) -> tuple[Floats, Floats, Floats, Floats]:
    """Push, moment about mid-chord, pressures off and onto the corner module; each [tilts]."""
    past_flat = tilt_deg < 0.0
    other = SIDES[1 - SIDES.index(case.side)]
    straight = force_coefficient(case.side, case.blocked, tilt_deg)
    mirrored = force_coefficient(other, case.blocked, tilt_deg)
    from_back = np.logical_xor(past_flat, case.side == "back")
    force = np.where(past_flat, mirrored, straight) * q_pa * geometry.area_m2
    push = np.where(from_back, force, -force)
    towards_upper = 1.0 if case.side == "back" else -1.0  # the edge that meets the wind
    place = place_of_force(tilt_deg) if case.sense > 0.0 else -place_beyond(tilt_deg)
    lever = towards_upper * place * geometry.chord_m
    local = corner_coefficient(geometry, from_back, tilt_deg, module_sides_m) * q_pa
    return (
        push,
        push * lever,
        np.where(from_back, local, 0.0),
        np.where(from_back, 0.0, local),
    )


def corner_coefficient(
    geometry: Geometry,
    from_back: NDArray[np.bool_],
    tilt_deg: Floats,
    module_sides_m: tuple[float, float],
) -> Floats:
    """Size of the net pressure coefficient over the module in a corner: zones A, B and C by the share of it they cover.

    Strips of a tenth of the width (B) and of the chord (C) run along the edges.  From 30 degrees to upright straight to 2.3, the
    end zone of a free-standing wall: ours, for the signboard's rule knows no zones.
    Source: EN 1991-1-4 Table 7.6 (zones) and Table 7.9 (zone A, l/h <= 3), both from memory.

    Args:
        geometry: The linked geometry.
        from_back: Whether it lifts [tilts].
        tilt_deg: [tilts].
        module_sides_m: Along the hinge and along the chord [m].
    """
    wide_m, long_m = module_sides_m
    side = min(STRIP * geometry.width_m / wide_m, 1.0)
    front = min(STRIP * geometry.chord_m / long_m, 1.0) * (1.0 - side)
    shares = {"a": 1.0 - side - front, "b": side, "c": front}
    tilts = np.minimum(np.abs(tilt_deg), ENDS_AT_DEG)

    def over(kind: str) -> Floats:
        zones = [share * np.abs(_at(f"{kind}_{zone}", tilts)) for zone, share in shares.items()]
        return np.asarray(sum(zones))

    share = np.clip((np.abs(tilt_deg) - ENDS_AT_DEG) / (90.0 - ENDS_AT_DEG), 0.0, 1.0)
    at_most_30 = np.where(from_back, over("up0"), over("down"))
    return np.asarray((1.0 - share) * at_most_30 + share * WALL_END)
