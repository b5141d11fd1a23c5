"""The hand sums' own panels on our parts: kips, feet and miles per hour."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from polestead.homestead.demos import demo_path
from polestead.homestead.read import read_homestead
from polestead.stand.actions import chosen, dead, unit_wind
from polestead.stand.code import code_loads
from polestead.stand.gust import first_crossing
from polestead.stand.parts.holds import rod_parts
from polestead.stand.parts.pole import pole_parts
from polestead.stand.setting import Setting, setting_of
from tests.published.adapters_loads import KIP_FOOT_N_M, MPH_M_S, plain

# Width, chord and hinge height of the hand sums, feet; the demo files differ by an inch or two.
PANELS = {"hollow-spruce": (15.1, 11.8, 11.0), "cinder-mesa": (11.9, 11.6, 9.0)}


def hand_setting(demo: str) -> Setting:
    """The demo with the hand sums' panel and their second order, P / Pe once; the pole's own drag, which they leave out, is in."""
    file = read_homestead(demo_path(demo)).homestead
    setting = setting_of(file.place, file.array, file.mount, file.footing, file.drive, file.lock)
    geometry = replace(
        plain(*PANELS[demo]),
        mass_kg=setting.geometry.mass_kg,
        steepest_tilt_deg=setting.geometry.steepest_tilt_deg,
    )
    return replace(setting, geometry=geometry, pole=replace(setting.pole, lean=1.0))


def pole_stands_to_mph(demo, tilts):
    """The pole at the collar under the code's coefficients alone, the collector set left out."""
    setting = hand_setting(demo)
    blown = unit_wind(setting, np.asarray(tilts))
    code = tuple(row for row, name in enumerate(blown.names) if "collector" not in name)
    return _first(setting, pole_parts(setting)[:1], chosen(blown, code))


def rod_stands_to_mph(demo, tilts):
    setting = hand_setting(demo)
    return _first(setting, rod_parts(setting)[1:2], unit_wind(setting, np.asarray(tilts)))


def _first(setting, parts, blown):
    still = dead(setting, blown.tilt_deg)
    return first_crossing(parts, still, blown).gust_m_s / MPH_M_S


def _wind_rows(setting, tilt):
    loads = code_loads(setting, np.array([float(tilt)]))
    rows = tuple(row for row, rule in enumerate(loads.rule) if rule.name == "D + 0.6 W")
    return chosen(loads.acting, rows)


def pole_use(demo, tilt):
    setting = hand_setting(demo)
    return pole_parts(setting)[0].use(_wind_rows(setting, tilt)).max()


def base_moment_kft(demo, tilt):
    return np.abs(_wind_rows(hand_setting(demo), tilt).base_n_m).max() / KIP_FOOT_N_M


def below_moment_kft(demo, tilt):
    setting = hand_setting(demo)
    return pole_parts(setting)[1].demand(_wind_rows(setting, tilt)).max() / KIP_FOOT_N_M
