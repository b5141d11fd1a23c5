"""Wind on the tipped array: open-roof coefficients to 45 degrees, blended into the sign above; the collector set beside.

Signs (conventions §9, §10): the push square to the glass is + from the back; its level part is + towards the sun side; a
moment is + where it steepens.  docs/method/loads.md derives them.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from polestead.base.source import Source
from polestead.loads.coefficients import (
    BLOCKED_SETS,
    SETS,
    SIDES,
    collector_coefficients,
    roof_halves,
    sign_coefficient,
)
from polestead.loads.on_array import FLAT_PUSH, WindActions, assembled, on_hinge, projected_m2
from polestead.loads.pressure import SiteWind, mean_pressure_pa, velocity_pressure_pa
from polestead.mount.geometry import Geometry

__all__ = ["SiteWind", "WindActions", "collector_actions", "sign_force_n", "wind_actions"]

Floats = NDArray[np.float64]
BLEND_FROM_DEG = 45.0
SIGN_OFF_CENTRE = 0.05  # of the chord, either way, for the upright plate
OFF_CENTRE = 0.2  # of the width, to either side, at all tilts
LEAST_PUSH_PA = 16.0 * 47.88026  # strength level, on the projected area
BLEND_SOURCE = Source(
    "straight blend of forces from 45 to 90 degrees", "docs/method/loads.md", "ours"
)
LEAST_SOURCE = Source("ASCE 7-16", "29.7, 16 psf on the projected area", "memory")
OFF_CENTRE_SOURCE = Source("a fifth of the width as ASCE 7-16, Fig. 29.3-1, case B (from memory), but at every tilt", "docs/method/loads.md", "ours")  # fmt: skip


def wind_actions(
    geometry: Geometry,
    site: SiteWind,
    gust_m_s: float,
    tilt_deg: Floats,
    directionality: float,
    gust_factor: float,
    code_floors: bool,
) -> WindActions:
    """Wind actions at one gust (3 s, 10 m, open country), all cases and tilts.

    To 45 degrees N = Kd q(H) G A CN with Fig. 27.3-4; at 90 degrees N = Kd q(z top) G Cf A with Fig. 29.3-1; between, the forces
    are blended in a straight line.  A tilt below 0 (a panel set a little past flat) is the same panel seen in a mirror.
    Source: ASCE 7-16 Figs. 27.3-4 and 29.3-1; the blend is ours (docs/method/loads.md).  Valid -45 to 90 degrees.

    Args:
        geometry: The linked geometry.
        site: The place.
        gust_m_s: [m/s].
        tilt_deg: [tilts].
        directionality: Kd, 0.85 for the code check, 1.0 for what it stands to.
        gust_factor: G.
        code_floors: Whether the least pressures of the code apply (the code check only).

    Returns:
        Eight cases (sixteen where the way below may be blocked), newtons and metres.  All of it goes with the gust squared, the least pressures apart.
    """
    q_pa = (
        directionality
        * gust_factor
        * float(velocity_pressure_pa(gust_m_s, geometry.hinge_height_m, site))
    )
    sign_n = directionality * gust_factor * sign_force_n(geometry, site, gust_m_s, tilt_deg)
    names, sides, rows = [], [], []
    for side in SIDES:
        for case in (*SETS, *(BLOCKED_SETS if site.blocked else ())):
            for sense in (1.0, -1.0):
                names.append(f"wind on the {side}, case {case}, {'+' if sense > 0 else '-'}")
                sides.append(side)
                rows.append(_one_case(geometry, side, case, sense, q_pa, sign_n, tilt_deg))
    push, turn, lift, press = (np.stack(part) for part in zip(*rows, strict=True))
    least_n = np.zeros_like(tilt_deg)
    if code_floors:
        flat_n = FLAT_PUSH * q_pa / gust_factor * geometry.area_m2
        least_n = np.maximum(LEAST_PUSH_PA * projected_m2(geometry, tilt_deg), flat_n)
    return assembled(
        geometry, tuple(names), tuple(sides), tilt_deg, push, turn, lift, press, least_n, OFF_CENTRE
    )


def case_told(names: str) -> str:
    """The last sign of a case's name in words: the push stands above or below mid-chord.

    Example:
        >>> case_told("0.6 D + 0.6 W; wind on the glass, case A, -")
        '0.6 D + 0.6 W; wind on the glass, case A, its push off the middle along the chord (−)'
        >>> case_told("dead load alone")
        'dead load alone'
    """
    if not names.endswith((", +", ", -")):
        return names
    sign = "+" if names.endswith("+") else "−"
    return f"{names[:-3]}, its push off the middle along the chord ({sign})"


def sign_force_n(geometry: Geometry, site: SiteWind, gust_m_s: float, tilt_deg: Floats) -> Floats:
    """q(z top) Cf A of the panel taken as a solid sign of height c sin t, without Kd and G.

    Source: ASCE 7-16 Eq. 29.3-1 and Fig. 29.3-1.  Below 45 degrees it is not used.

    Args:
        geometry: The linked geometry.
        site: The place.
        gust_m_s: [m/s].
        tilt_deg: [tilts].
    """
    sine = np.sin(np.radians(np.maximum(np.abs(tilt_deg), BLEND_FROM_DEG)))
    tall_m = geometry.chord_m * sine
    top_m = geometry.hinge_height_m + geometry.upper_m * sine
    cf = sign_coefficient(geometry.width_m / tall_m, np.minimum(tall_m / top_m, 1.0))
    return np.asarray(velocity_pressure_pa(gust_m_s, top_m, site) * cf * geometry.area_m2)


def _one_case(
    geometry: Geometry,
    side: str,
    case: str,
    sense: float,
    q_pa: float,
    sign_n: Floats,
    tilt_deg: Floats,
) -> tuple[Floats, Floats, Floats, Floats]:
    """Push (+ from the back), moment about mid-chord, worst lift and press of a half panel; each [tilts]."""
    area, chord = geometry.area_m2, geometry.chord_m
    past_flat = tilt_deg < 0.0
    roof_deg = np.minimum(np.abs(tilt_deg), BLEND_FROM_DEG)
    other = SIDES[1 - SIDES.index(side)]
    upper, lower = (
        np.where(past_flat, mirrored, straight)
        for straight, mirrored in zip(
            roof_halves(side, case, roof_deg),
            reversed(roof_halves(other, case, roof_deg)),
            strict=True,
        )
    )
    push = -(upper + lower) / 2.0 * q_pa * area
    turn = (lower - upper) / 8.0 * q_pa * area * chord
    share = np.clip((tilt_deg - BLEND_FROM_DEG) / (90.0 - BLEND_FROM_DEG), 0.0, 1.0)
    facing = 1.0 if side == "back" else -1.0
    lift = (1.0 - share) * np.maximum(np.maximum(-upper, -lower), 0.0) * q_pa
    press = (1.0 - share) * np.maximum(np.maximum(upper, lower), 0.0) * q_pa
    upright_pa = share * sign_n / area
    return (
        (1.0 - share) * push + share * facing * sign_n,
        (1.0 - share) * turn + share * sense * SIGN_OFF_CENTRE * chord * sign_n,
        lift + (upright_pa if side == "back" else 0.0),
        press + (upright_pa if side == "glass" else 0.0),
    )


def collector_actions(
    geometry: Geometry, site: SiteWind, gust_m_s: float, tilt_deg: Floats
) -> WindActions:
    """The second opinion: peak coefficients of an isolated collector on the pressure of the mean speed at the hinge.

    No Kd, no gust factor (conventions §11).  Wind on the back lifts, on the glass presses; the hinge moment steepens by the
    whole coefficient and flattens by at most the flat one.  It knows nothing of single modules: those pressures are 0.
    Source: Peterka & Derickson 1992, SAND92-7009 (from memory); the way between their angles is ours.

    Args:
        geometry: The linked geometry.
        site: The place.
        gust_m_s: [m/s].
        tilt_deg: 0 to 90 [tilts].
    """
    force_n = mean_pressure_pa(gust_m_s, geometry.hinge_height_m, site) * geometry.area_m2
    drag, lift, hinge, twist = collector_coefficients(np.abs(tilt_deg))
    flat_hinge = float(collector_coefficients(np.array(0.0))[2])
    senses = (hinge, -np.minimum(hinge, flat_hinge))
    names = tuple(
        f"collector, wind on the {s}, {w}" for s in SIDES for w in ("steepens", "flattens")
    )
    sides = tuple(side for side in SIDES for _ in senses)
    facing = np.array([1.0 if side == "back" else -1.0 for side in sides])[:, None]
    towards = facing * drag * force_n
    up = facing * lift * force_n
    turn = np.stack(senses * 2) * force_n * geometry.chord_m
    t = np.radians(tilt_deg)
    push = towards * np.sin(t) + up * np.cos(t)
    nothing = np.zeros_like(push)
    twisted = np.broadcast_to(twist * force_n * geometry.chord_m, push.shape)
    return on_hinge(
        geometry,
        names,
        sides,
        tilt_deg,
        push,
        towards,
        up,
        turn,
        twisted,
        nothing,
        nothing,
        nothing,
    )
