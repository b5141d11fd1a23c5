"""The ladder of the second opinion: an isolated collector on the pressure of the mean speed."""

from __future__ import annotations

import numpy as np

from polestead.base.working import Step
from polestead.loads.coefficients import COLLECTOR_SOURCE, collector_coefficients
from polestead.loads.pressure import mean_pressure_pa
from polestead.loads.wind import collector_actions
from polestead.stand.parts.part import STATICS
from polestead.stand.setting import Setting


def push_steps(setting: Setting, gust_m_s: float, tilt_deg: float, row: int) -> tuple[Step, ...]:
    """From the gust to force and moments of one case.

    Args:
        setting: The mount.
        gust_m_s: Three seconds, 10 m, in the open.
        tilt_deg: The tilt.
        row: Of the collector's four cases.
    """
    g, at = setting.geometry, np.array([tilt_deg])
    q = mean_pressure_pa(gust_m_s, g.hinge_height_m, setting.site)
    acts = collector_actions(g, setting.site, gust_m_s, at)
    drag, lift, hinge, twist = (float(c[0]) for c in collector_coefficients(np.abs(at)))
    on = f"{q:.1f} x {g.area_m2:.3f}"
    turn = f"{on} x {g.chord_m:.3f} x {hinge:.3f}" if "steepens" in acts.case_names[row] else f"{on} x {g.chord_m:.3f} x the least of it and the flat one, against"  # fmt: skip
    return (
        Step("the gust", "V", "", gust_m_s, "m/s", COLLECTOR_SOURCE),
        Step("pressure of the mean speed at the hinge", "q", f"{g.hinge_height_m:.3f} m", q, "Pa", COLLECTOR_SOURCE),
        Step("level part, + towards the sun side", "Fx", f"{on} x {drag:.3f}", float(acts.towards_sun_n[row, 0]), "N", COLLECTOR_SOURCE),
        Step("upright part", "Fz", f"{on} x {lift:.3f}", float(acts.up_n[row, 0]), "N", COLLECTOR_SOURCE),
        Step("wind's moment about the hinge", "Mw", turn, float(acts.hinge_n_m[row, 0]), "N m", COLLECTOR_SOURCE),
        Step("wind's moment about the ground line, without the pole's drag", "Mb", f"Fx x {g.hinge_height_m:.3f} + Mw", float(acts.base_signed_n_m[row, 0]), "N m", STATICS),
        Step("twist", "T", f"{on} x {g.chord_m:.3f} x {twist:.3f}", float(acts.twist_n_m[row, 0]), "N m", COLLECTOR_SOURCE),
    )  # fmt: skip
