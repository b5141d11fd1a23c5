"""The ladder from the gust to the moment at the ground, with the numbers in it."""

from __future__ import annotations

import numpy as np

from polestead.base.source import OWNER, Source
from polestead.base.working import Step
from polestead.loads.coefficients import (
    ROOF_SOURCE,
    SIGN_SOURCE,
    roof_halves,
    sign_coefficient,
)
from polestead.loads.pressure import (
    DIRECTIONALITY,
    KD_SOURCE,
    KE_SOURCE,
    KZ_SOURCE,
    PRESSURE_SOURCE,
    RIGID_GUST_FACTOR,
    RIGID_SOURCE,
    height_factor,
    velocity_pressure_pa,
)
from polestead.loads.snow import FLAT_SOURCE, SLOPE_SOURCE, UNEVEN_SOURCE
from polestead.loads.wind import BLEND_FROM_DEG, BLEND_SOURCE, OFF_CENTRE, OFF_CENTRE_SOURCE
from polestead.stand.actions import FIELDS, LOPSIDED, PLACE_OF, Acting, Combined
from polestead.stand.setting import Setting

STATICS = Source("statics", "docs/method/stand.md", "ours")
SHOWN = {
    "down_n": ("down on the hinge", "P", "N"),
    "shear_n": ("level force at the ground, + towards the sun side", "F", "N"),
    "hinge_n_m": ("moment about the hinge, + steepens", "M", "N m"),
    "base_n_m": ("moment about the ground line", "Mb", "N m"),
    "roll_n_m": ("roll", "Mr", "N m"),
    "twist_n_m": ("twist", "T", "N m"),
}


def wind_steps(setting: Setting, loads: Combined, case: int, tilt: int) -> tuple[Step, ...]:
    """From the gust to the combined actions of one case at one tilt."""
    tilt_deg = float(loads.acting.tilt_deg[tilt])
    steps: list[Step] = []
    wind_row, snow_row = loads.wind_row[case], loads.snow_row[case]
    if wind_row is not None:
        steps += _pressure_steps(setting)
        steps += _push_steps(setting, loads.wind, wind_row, tilt, tilt_deg)
    if snow_row is not None:
        steps += _snow_steps(setting, loads.snow, snow_row, tilt, tilt_deg)
    return (*steps, *_sum_steps(loads, case, tilt))


def _pressure_steps(setting: Setting) -> list[Step]:
    site, height_m = setting.site, setting.geometry.hinge_height_m
    gust = setting.place.wind_speed_m_s
    kz = float(height_factor(height_m, site.basis, site.exposure))
    q = float(velocity_pressure_pa(gust, height_m, site))
    formula = f"0.613 x {kz:.4f} x {site.topographic:g} x {site.elevation:.4f} x {gust:.2f}^2"
    return [
        Step("the map's gust", "V", "", gust, "m/s", OWNER),
        Step("height and exposure", "Kz", f"exposure {site.exposure}, {height_m:.3f} m", kz, "", KZ_SOURCE),
        Step("hill", "Kzt", "", site.topographic, "", OWNER),
        Step("elevation", "Ke", f"exp(-0.000119 x {setting.place.elevation_m:.0f})", site.elevation, "", KE_SOURCE),
        Step("direction", "Kd", "", DIRECTIONALITY, "", KD_SOURCE),
        Step("gust factor", "G", "", RIGID_GUST_FACTOR, "", RIGID_SOURCE),
        Step("pressure at the hinge", "q", formula, q, "Pa", PRESSURE_SOURCE),
    ]  # fmt: skip


def _push_steps(setting: Setting, wind: Acting, row: int, tilt: int, tilt_deg: float) -> list[Step]:
    """Push, its parts, hinge moment, base moment, twist and roll of the whole wind (factor 1)."""
    at = {name: float(wind.values[PLACE_OF[name], row, tilt]) for name in FIELDS}
    push, t = at["square_n"] / LOPSIDED, np.radians(tilt_deg)
    g = setting.geometry
    level = f"{push:.0f} x sin {tilt_deg:.1f}"
    lever = OFF_CENTRE * g.width_m
    return [
        *_coefficient_steps(setting, wind, row, tilt_deg, push),
        Step("level part, least push in it", "Fx", level, at["towards_n"], "N", STATICS),
        Step("upright part", "Fz", f"{push:.0f} x cos {tilt_deg:.1f}", -at["down_n"], "N", STATICS),
        Step("wind's moment about the hinge", "Mw", _turn_words(setting, wind, row, tilt_deg), at["hinge_n_m"], "N m", ROOF_SOURCE),
        Step(
            "wind's moment about the ground line, pole's drag in it", "Mb",
            f"{at['towards_n']:.0f} x {g.hinge_height_m:.3f} + {at['hinge_n_m']:.0f}"
            f" + {at['shear_n'] - at['towards_n']:.0f} x {setting.pole_height_m / 2.0:.3f}",
            at["base_n_m"], "N m", STATICS,
        ),
        Step("twist", "T", f"{lever:.3f} x {abs(at['towards_n']):.0f}", at["twist_n_m"], "N m", OFF_CENTRE_SOURCE),
        Step("roll", "Mr", f"{lever:.3f} x {abs(push * np.cos(t)):.0f}", at["roll_n_m"], "N m", OFF_CENTRE_SOURCE),
    ]  # fmt: skip


def _coefficient_steps(
    setting: Setting, wind: Acting, row: int, tilt_deg: float, push: float
) -> list[Step]:
    g, gust, site = setting.geometry, setting.place.wind_speed_m_s, setting.site
    side, case = wind.sides[row], wind.names[row].split(", ")[1].removeprefix("case ")
    roof_deg = min(abs(tilt_deg), BLEND_FROM_DEG)
    # Past flat the panel is its own mirror image: the other side's row (loads.wind).
    read = side if tilt_deg >= 0.0 else ("glass" if side == "back" else "back")
    upper, lower = (float(cn[0]) for cn in roof_halves(read, case, np.array([roof_deg])))
    mean = -(upper + lower) / 2.0
    q = float(velocity_pressure_pa(gust, g.hinge_height_m, site))
    kd, factor = DIRECTIONALITY, RIGID_GUST_FACTOR
    formula = f"{kd} x {q:.1f} x {factor} x {g.area_m2:.2f} x {mean:.3f}"
    roof_n = kd * q * factor * g.area_m2 * mean
    steps = [
        Step("coefficient, upper half, + presses", "CN", f"{side}, case {case}, {roof_deg:.1f} deg", upper, "", ROOF_SOURCE),
        Step("coefficient, lower half, + presses", "CN", f"{side}, case {case}, {roof_deg:.1f} deg", lower, "", ROOF_SOURCE),
        Step(f"push square to the glass at {roof_deg:.1f} deg, + from the back", "N", formula, roof_n, "N", ROOF_SOURCE),
    ]  # fmt: skip
    if tilt_deg <= BLEND_FROM_DEG:
        return steps
    sine = float(np.sin(np.radians(tilt_deg)))
    tall, top = g.chord_m * sine, g.hinge_height_m + g.upper_m * sine
    cf = float(sign_coefficient(np.array(g.width_m / tall), np.array(min(tall / top, 1.0))))
    q_top = float(velocity_pressure_pa(gust, top, site))
    share = (tilt_deg - BLEND_FROM_DEG) / (90.0 - BLEND_FROM_DEG)
    sign_n = kd * q_top * factor * cf * g.area_m2
    aspect = f"B/s {g.width_m / tall:.2f}, s/h {tall / top:.2f}"
    return [
        *steps,
        Step("coefficient as an upright sign", "Cf", aspect, cf, "", SIGN_SOURCE),
        Step("pressure at the top edge", "q", f"at {top:.3f} m", q_top, "Pa", PRESSURE_SOURCE),
        Step("push as an upright sign", "N90", f"{kd} x {q_top:.1f} x {factor} x {cf:.3f} x {g.area_m2:.2f}", sign_n, "N", SIGN_SOURCE),
        Step("push, blended", "N", f"{1 - share:.3f} x {abs(roof_n):.0f} + {share:.3f} x {sign_n:.0f}", push, "N", BLEND_SOURCE),
    ]  # fmt: skip


def _turn_words(setting: Setting, wind: Acting, row: int, tilt_deg: float) -> str:
    if tilt_deg > BLEND_FROM_DEG:
        sign = wind.names[row][-1]
        return f"(1 - w) x moment at 45 deg {sign} w x 0.05 x {setting.geometry.chord_m:.3f} x N90"
    return f"Kd q G A c (CN lower - CN upper) / 8, c = {setting.geometry.chord_m:.3f} m"


def _snow_steps(setting: Setting, snow: Acting, row: int, tilt: int, tilt_deg: float) -> list[Step]:
    at = {name: float(snow.values[PLACE_OF[name], row, tilt]) for name in FIELDS}
    cosine = float(np.cos(np.radians(tilt_deg)))
    plan_m2 = setting.geometry.area_m2 * cosine
    lies = at["down_n"] / plan_m2
    flat = f"0.7 Ce Ct Is x {setting.place.ground_snow_pa:.0f}, then the slope; {snow.names[row]}"
    return [
        Step("snow of the ground", "pg", "", setting.place.ground_snow_pa, "Pa", OWNER),
        Step("snow on plan area", "p", flat, lies, "Pa", SLOPE_SOURCE if tilt_deg > 15.0 else FLAT_SOURCE),
        Step("its weight, of the whole cover", "S", f"{lies:.0f} x {plan_m2:.2f}", at["down_n"], "N", UNEVEN_SOURCE),
        Step("its moment about the hinge", "Ms", snow.names[row], at["hinge_n_m"], "N m", UNEVEN_SOURCE),
    ]  # fmt: skip


def _sum_steps(loads: Combined, case: int, tilt: int) -> list[Step]:
    """Dead, snow and wind with their factors, field by field."""
    rule = loads.rule[case]
    pieces = [(rule.dead, loads.dead, 0)]
    snow_row, wind_row = loads.snow_row[case], loads.wind_row[case]
    if snow_row is not None:
        pieces.append((rule.snow, loads.snow, snow_row))
    if wind_row is not None:
        pieces.append((rule.wind, loads.wind, wind_row))
    steps = []
    for name, (word, symbol, unit) in SHOWN.items():
        place = PLACE_OF[name]
        formula = " + ".join(f"{f:g} x ({a.values[place, row, tilt]:.0f})" for f, a, row in pieces)
        value = float(loads.acting.values[place, case, tilt])
        steps.append(Step(f"{word}, {rule.name}", symbol, formula, value, unit, rule.source))
    return steps
