"""Wind coefficients as published: open roof, sign, isolated collector."""

from __future__ import annotations

from functools import cache

import numpy as np
from numpy.typing import NDArray

from polestead.base.source import Source
from polestead.base.table import table

Floats = NDArray[np.float64]
SIDES = ("back", "glass")
SETS = ("A", "B")
BLOCKED_SETS = ("A blocked", "B blocked")  # more than half of the opening below is blocked
ROOF_SOURCE = Source("ASCE 7-16", "Fig. 27.3-4, clear flow", "seen-copy")
SIGN_SOURCE = Source("ASCE 7-16", "Fig. 29.3-1, case A", "seen-copy")
COLLECTOR_SOURCE = Source("Peterka & Derickson 1992, SAND92-7009", "peak coefficients", "memory")
ZONE_SOURCE = Source("ASCE 7-16", "Fig. 30.7-1, corner zone", "memory")


@cache
def _roof_rows(side: str, case: str) -> tuple[Floats, Floats, Floats]:
    rows = [r for r in table("loads", "open_roof") if (r["side"], r["set"]) == (side, case)]
    columns = (np.array([float(r[c]) for r in rows]) for c in ("tilt_deg", "windward", "leeward"))
    tilts, windward, leeward = columns
    return tilts, windward, leeward


def roof_halves(side: str, case: str, tilt_deg: Floats) -> tuple[Floats, Floats]:
    """Net coefficients of the upper and the lower half, + presses on the glass.

    The figure counts by windward and leeward half.  Its wind direction 0 meets the high edge (the force lifts), so it is our wind
    on the back and the windward half is the upper one; direction 180 meets the low edge, is our wind on the glass, and the
    windward half is the lower one.
    Source: ASCE 7-16 Fig. 27.3-4 (seen in public copies).  Between rows straight; held outside 0 to 45 degrees.

    Args:
        side: ``back`` or ``glass``.
        case: Load case ``A`` or ``B`` of the figure, with ``blocked`` behind it for obstructed flow.
        tilt_deg: 0 to 45, any shape.

    Returns:
        Upper half, lower half, same shape.

    Example:
        >>> upper, lower = roof_halves("back", "B", np.array([30.0]))
        >>> float(upper[0]), float(lower[0])
        (-2.5, -0.5)
    """
    tilts, windward, leeward = _roof_rows(side, case)
    w, l = np.interp(tilt_deg, tilts, windward), np.interp(tilt_deg, tilts, leeward)  # noqa: E741
    return (w, l) if side == "back" else (l, w)


@cache
def _sign_grid() -> tuple[Floats, Floats, Floats]:
    rows = sorted(table("loads", "sign"), key=lambda row: float(row["s_over_h"]))
    columns = [key for key in rows[0] if key not in ("s_over_h", "source")]
    values = np.array([[float(row[key]) for key in columns] for row in rows])
    return (
        np.array([float(row["s_over_h"]) for row in rows]),
        np.array([float(key) for key in columns]),
        values,
    )


def sign_coefficient(aspect: Floats, clearance: Floats) -> Floats:
    """Force coefficient Cf of a solid freestanding sign, straight between the printed cells both ways.

    Source: ASCE 7-16 Fig. 29.3-1 cases A and B (seen in public copies); interpolation by its note.  Held outside
    B/s 0.05 to 45 and s/h 0.16 to 1.

    Args:
        aspect: B / s, width over height of the sign, any shape.
        clearance: s / h, height of the sign over height of its top; same shape.

    Example:
        >>> float(sign_coefficient(np.array(4.0), np.array(0.7)))
        1.6
    """
    s_over_h, b_over_s, cells = _sign_grid()
    by_row = np.stack([np.interp(aspect, b_over_s, row) for row in cells])
    place = np.interp(clearance, s_over_h, np.arange(len(s_over_h), dtype=float))
    low = np.minimum(place.astype(int), len(s_over_h) - 2)
    share = place - low
    lower = np.take_along_axis(by_row, low[None, ...], axis=0)[0]
    upper = np.take_along_axis(by_row, low[None, ...] + 1, axis=0)[0]
    return np.asarray(lower + share * (upper - lower))


def sign_fit(aspect: float, clearance: float) -> float:
    """The commentary's surface behind the sign table: a second way to the same cell.

    Cf = (1.563 + .008542 ln x - .06148 y + .009011 ln2 x - .2603 y2 - .08393 y ln x) / .85, x = B/s, y = s/h.
    Source: ASCE 7-22 C29.3 draft (seen; its minus signs were lost in the copy and are restored by the table).

    Args:
        aspect: B / s.
        clearance: s / h.

    Example:
        >>> round(sign_fit(4.0, 0.7), 2)
        1.58
    """
    x, y = float(np.log(aspect)), clearance
    top = 1.563 + 0.008542 * x - 0.06148 * y + 0.009011 * x**2 - 0.2603 * y**2 - 0.08393 * y * x
    return top / 0.85


@cache
def _collector_rows() -> tuple[Floats, Floats, Floats]:
    rows = table("loads", "collector")
    tilts, lift, hinge = (
        np.array([float(row[key]) for row in rows]) for key in ("tilt_deg", "lift", "hinge")
    )
    return tilts, lift, hinge


def collector_coefficients(tilt_deg: Floats) -> tuple[Floats, Floats, Floats, Floats]:
    """Peak drag, lift, hinge and twist coefficients of an isolated collector, on the mean-speed pressure.

    Drag .6 flat to 4.0 upright and twist .02 to .7, both with the sine (the sine is ours); lift and hinge by table.  Peaks of
    different wind directions are taken together, which is on the careful side.
    Source: Peterka & Derickson 1992, SAND92-7009 (from memory).  Valid 0 to 90 degrees.

    Args:
        tilt_deg: Any shape.

    Returns:
        Drag and lift by area, hinge moment and twist by area and chord; same shape each.

    Example:
        >>> [round(float(value), 2) for value in collector_coefficients(np.array(90.0))]
        [4.0, 0.0, 0.2, 0.7]
    """
    sine = np.sin(np.radians(tilt_deg))
    tilts, lift, hinge = _collector_rows()
    return (
        np.asarray(0.6 + 3.4 * sine),
        np.interp(tilt_deg, tilts, lift),
        np.interp(tilt_deg, tilts, hinge),
        np.asarray(0.02 + 0.68 * sine),
    )


def corner_factor(module_area_m2: float, width_m: float, chord_m: float, height_m: float) -> float:
    """How much worse the corner module is pressed than the worse half of the whole: 2, 1.5 or 1.

    By its area against the edge width a squared and four times that; a = the least of a tenth of the lesser side and .4 h, but
    no less than 4 % of the lesser side or .9 m.  The whole's half-panel peak is the figure's inner zone.
    Source: ASCE 7-16 Fig. 30.7-1 (from memory: zones in the ratio 1 to 1.5 to 2).

    Args:
        module_area_m2: One module [m2].
        width_m: Array along the hinge [m].
        chord_m: Array along the chord [m].
        height_m: Hinge height [m].

    Example:
        >>> corner_factor(2.0, 4.6, 3.6, 3.35)
        1.5
    """
    least_m = min(width_m, chord_m)
    edge_m = max(min(0.1 * least_m, 0.4 * height_m), 0.04 * least_m, 0.9)
    if module_area_m2 <= edge_m**2:
        return 2.0
    return 1.5 if module_area_m2 <= 4.0 * edge_m**2 else 1.0
