"""Brings published wind and snow figures into their own units."""

from __future__ import annotations

import numpy as np

from polestead.loads.coefficients import collector_coefficients, sign_coefficient, sign_fit
from polestead.loads.eurocode import force_coefficient
from polestead.loads.pressure import (
    AIR_FACTOR,
    DIRECTIONALITY,
    SiteWind,
    elevation_factor,
    height_factor,
    mean_pressure_pa,
    velocity_pressure_pa,
)
from polestead.loads.snow import PSF_PA, flat_snow_pa, slope_factor, snow_density_n_m3
from polestead.loads.wind import WindActions, wind_actions
from polestead.mount.geometry import Geometry, Mass

FOOT_M, MPH_M_S, KIP_N, KIP_FOOT_N_M = 0.3048, 0.44704, 4448.2216, 1355.818
LOW_ROOF = SiteWind("C", 1.0, 1.0, "ASCE 7-16")


def plain(width_ft: float, chord_ft: float, hinge_ft: float) -> Geometry:
    """A panel hinged at mid-chord, its mass at the hinge."""
    half_m = chord_ft * FOOT_M / 2.0
    mass = Mass("all", 400.0, 0.0, 0.1)
    return Geometry(
        width_ft * FOOT_M, chord_ft * FOOT_M, width_ft * chord_ft * FOOT_M**2, hinge_ft * FOOT_M, half_m, half_m,
        0.18, 0.13, 0.2, 0.1, 5.0, 75.0, (mass,), 400.0, 0.0, 0.1,
    )  # fmt: skip


def kz(feet, basis, exposure):
    return height_factor(np.asarray(feet) * FOOT_M, basis, exposure)


def ke(feet):
    return [elevation_factor(z * FOOT_M) for z in feet]


def air_factor():
    return AIR_FACTOR


def pressure_psf(mph, feet, directionality):
    q = velocity_pressure_pa(mph * MPH_M_S, feet * FOOT_M, LOW_ROOF)
    return directionality * q / PSF_PA


def pressure_pa(gust_m_s, height_m, elevation_m, directionality):
    site = SiteWind("C", 1.0, elevation_factor(elevation_m), "ASCE 7-16")
    return directionality * velocity_pressure_pa(gust_m_s, height_m, site)


def _unit_panel(tilt_deg) -> WindActions:
    geometry = plain(10.0, 10.0, 10.0)
    return wind_actions(geometry, LOW_ROOF, 30.0, np.array([float(tilt_deg)]), 1.0, 1.0, False)


def _per_pressure(actions: WindActions, values, by_chord: bool):
    geometry = plain(10.0, 10.0, 10.0)
    q = float(velocity_pressure_pa(30.0, geometry.hinge_height_m, LOW_ROOF))
    share = values[::2, 0] / (q * geometry.area_m2)
    return share / geometry.chord_m if by_chord else share


def push_coefficients(tilt_deg):
    """Figure's order and sign: 0 A, 0 B, 180 A, 180 B, + presses."""
    actions = _unit_panel(tilt_deg)
    return -_per_pressure(actions, actions.push_n, False)


def turn_coefficients(tilt_deg):
    """The same order, about mid-chord, + steepens."""
    actions = _unit_panel(tilt_deg)
    return _per_pressure(actions, actions.hinge_n_m, True)


def largest_off_centre(tilt_deg):
    return np.abs(turn_coefficients(tilt_deg) / push_coefficients(tilt_deg)).max()


def sign_row(clearance, aspects):
    return sign_coefficient(np.asarray(aspects), np.full(len(aspects), clearance))


def sign_fit_row(clearance, aspects):
    return [sign_fit(float(aspect), clearance) for aspect in aspects]


def collector_drag_kn(mph, height_m, area_m2):
    drag = float(collector_coefficients(np.array(90.0))[0])
    return drag * mean_pressure_pa(mph * MPH_M_S, height_m, LOW_ROOF) * area_m2 / 1000.0


def flat_psf(pg, ce, ct):
    return flat_snow_pa(pg * PSF_PA, ce, ct, 1.0) / PSF_PA


def slope(tilts, slides_from, bare_from):
    return slope_factor(np.asarray(tilts), slides_from, bare_from)


def density_pcf(pgs):
    return [snow_density_n_m3(pg * PSF_PA) / 157.08746 for pg in pgs]


def hand_sum(mph, elevation_ft, width_ft, chord_ft, hinge_ft, tilt, case, what):
    """A demo's wind at 0.6 W with Kd = G = 0.85, in kips and feet, of the named case."""
    site = SiteWind("C", 1.0, elevation_factor(elevation_ft * FOOT_M), "ASCE 7-16")
    geometry = plain(width_ft, chord_ft, hinge_ft)
    actions = wind_actions(geometry, site, mph * MPH_M_S, np.array([tilt]), 0.85, 0.85, False)
    value = getattr(actions, what)[actions.case_names.index(case), 0]
    return 0.6 * abs(value) / (KIP_N if what == "across_n" else KIP_FOOT_N_M)


def canopy(side: str, blocked: bool, tilt_deg: np.ndarray) -> np.ndarray:
    """Size of the overall coefficient."""
    return force_coefficient(side, blocked, tilt_deg)


def directionality() -> float:
    """Kd of the code's check."""
    return DIRECTIONALITY
