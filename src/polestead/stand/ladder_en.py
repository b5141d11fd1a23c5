"""The ladder from the map's wind to the wind on the parts, after EN 1991-1-4, with the numbers in it."""

from __future__ import annotations

import numpy as np

from polestead.base.source import OWNER
from polestead.base.working import Step
from polestead.loads.eurocode import (
    BRANCH_SOURCE,
    CANOPY_SOURCE,
    ENDS_AT_DEG,
    OFF_CENTRE,
    OFF_CENTRE_SOURCE,
    STRUCTURAL_SOURCE,
    ZONES_BRANCH,
    ZONES_SOURCE,
    cases,
    force_coefficient,
    place_of_force,
    top_edge_m,
)
from polestead.loads.on_array import FLAT_PUSH, FLAT_SOURCE
from polestead.loads.pressure import (
    EN_PRESSURE_SOURCE,
    OPEN_TEN_METRES,
    exposure_factor,
    velocity_pressure_pa,
)
from polestead.stand.actions import FIELDS, PLACE_OF, Acting, Blow
from polestead.stand.ladder_ground import base_steps, off_centre_steps
from polestead.stand.parts.part import STATICS
from polestead.stand.setting import Setting


def _top_m(setting: Setting, tilt_deg: float) -> float:
    return float(top_edge_m(setting.geometry, np.array(tilt_deg)))


def pressure_steps(setting: Setting, blow: Blow, tilt_deg: float) -> list[Step]:
    """From v_b to q_p at the top edge."""
    site, top_m, gust = setting.site, _top_m(setting, tilt_deg), blow.gust_m_s
    ce = float(exposure_factor(top_m, site.exposure, site.topographic))
    q = float(velocity_pressure_pa(gust, top_m, site))
    given = [
        Step("the map's wind, a ten-minute mean", "vb", "", setting.place.wind_speed_m_s, "m/s", OWNER),
        Step("the gust that stands for it, 10 m, terrain II", "V", f"{setting.place.wind_speed_m_s:.2f} x sqrt({OPEN_TEN_METRES:.3f})", gust, "m/s", EN_PRESSURE_SOURCE),
    ]  # fmt: skip
    if not blow.floors:
        given = [Step("the gust, three seconds at 10 m, terrain II", "V", "", gust, "m/s", EN_PRESSURE_SOURCE)]  # fmt: skip
    return [
        *given,
        Step("exposure at the top edge", "ce", f"terrain {site.exposure}, {top_m:.3f} m, c0 {site.topographic:g}", ce, "", EN_PRESSURE_SOURCE),
        Step("peak pressure at the top edge", "q", f"1/2 x 1.25 x {gust:.2f}^2 x {ce:.4f} / {OPEN_TEN_METRES:.4f}", q, "Pa", EN_PRESSURE_SOURCE),
    ]  # fmt: skip


def push_steps(
    setting: Setting, blow: Blow, wind: Acting, row: int, tilt: int, tilt_deg: float
) -> list[Step]:
    """Push, its parts, hinge moment, base moment, twist and roll of the whole wind (factor 1)."""
    at = {name: float(wind.values[PLACE_OF[name], row, tilt]) for name in FIELDS}
    case, g = cases()[row], setting.geometry
    seen = np.array(tilt_deg)
    side = case.side if tilt_deg >= 0.0 else ("glass" if case.side == "back" else "back")
    cf, e = float(force_coefficient(side, case.blocked, seen)), float(place_of_force(seen))
    q = float(velocity_pressure_pa(blow.gust_m_s, _top_m(setting, tilt_deg), setting.site))
    push = at["square_n"] / setting.lopsided
    sign = "" if push >= 0.0 else "-"
    where = f"wind on the {case.side}, {abs(tilt_deg):.1f} deg, {'blocked' if case.blocked else 'open'} below"
    rule = CANOPY_SOURCE if abs(tilt_deg) <= ENDS_AT_DEG else BRANCH_SOURCE
    lever = at["hinge_n_m"] / push if push else 0.0
    off_m = (g.lower_m - g.upper_m) / 2.0
    return [
        Step("structural factor", "cs cd", "", 1.0, "", STRUCTURAL_SOURCE),
        Step("force coefficient", "cf", where, cf, "", rule),
        Step("push square to the glass, + from the back", "N", f"{sign}1 x {q:.1f} x {cf:.3f} x {g.area_m2:.3f}", push, "N", rule),
        Step("its place from mid-chord, over the chord", "e/c", f"{abs(tilt_deg):.1f} deg", e, "", rule),
        _level(setting, push, at["towards_n"], tilt_deg, q),
        Step("upright part", "Fz", f"{push:.0f} x cos {tilt_deg:.1f}", -at["down_n"], "N", STATICS),
        Step("wind's moment about the hinge", "Mw", f"{push:.0f} x {lever:.4f}; {e:.3f} x {g.chord_m:.3f}, hinge {off_m:.3f} m off", at["hinge_n_m"], "N m", rule),
        *base_steps(setting, blow, at),
        *off_centre_steps(at, f"{OFF_CENTRE} x {g.width_m:.3f}", OFF_CENTRE_SOURCE),
    ]  # fmt: skip


def zone_step(setting: Setting, blow: Blow, tilt_deg: float, pressure_pa: float) -> Step:
    """The whole wind on the corner module, or over the outer rail.

    Args:
        setting: The mount.
        blow: The wind.
        tilt_deg: The tilt.
        pressure_pa: What it came to.
    """
    q = float(velocity_pressure_pa(blow.gust_m_s, _top_m(setting, tilt_deg), setting.site))
    source = ZONES_SOURCE if abs(tilt_deg) <= ENDS_AT_DEG else ZONES_BRANCH
    word = "wind in the corner, zones by the share of a module they cover"
    return Step(word, "p", f"{pressure_pa / q:.3f} x {q:.1f}", pressure_pa, "Pa", source)


def _level(setting: Setting, push: float, towards: float, tilt_deg: float, q: float) -> Step:
    """Level part of the push, or a quarter of the pressure where that is more."""
    word = "level part, + towards the sun side"
    level = push * float(np.sin(np.radians(tilt_deg)))
    if abs(towards - level) < 1.0:
        return Step(word, "Fx", f"{push:.0f} x sin {tilt_deg:.1f}", towards, "N", STATICS)
    facing = "" if towards > 0.0 else "-"
    formula = f"{facing}{FLAT_PUSH} x {q:.1f} x {setting.geometry.area_m2:.2f}"
    return Step(f"{word}: the least push governs", "Fx", formula, towards, "N", FLAT_SOURCE)
