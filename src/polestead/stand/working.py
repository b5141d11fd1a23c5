"""The ladder from the gust to the moment at the ground, with the numbers in it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from polestead.base.source import OWNER, Source
from polestead.base.working import Step
from polestead.loads.coefficients import (
    ROOF_SOURCE,
    SIGN_SOURCE,
    ZONE_SOURCE,
    corner_factor,
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
from polestead.loads.snow import (
    EXPOSURE_CE,
    FLAT_SOURCE,
    IMPORTANCE,
    OPEN_AIR_CT,
    SLOPE_SOURCE,
    UNEVEN_SOURCE,
    flat_snow_pa,
)
from polestead.loads.wind import (
    BLEND_FROM_DEG,
    BLEND_SOURCE,
    FLAT_PUSH,
    LEAST_PUSH_PA,
    LEAST_SOURCE,
    OFF_CENTRE,
    OFF_CENTRE_SOURCE,
    SIGN_OFF_CENTRE,
    projected_m2,
)
from polestead.stand.actions import FIELDS, LOPSIDED, PLACE_OF, Acting, Combined
from polestead.stand.setting import Setting

STATICS = Source("statics", "docs/method/stand.md", "ours")
SHOWN = {
    "down_n": ("down on the hinge", "P", "N"),
    "foot_down_n": ("down at the ground", "P", "N"),
    "towards_n": ("level force at the hinge, + towards the sun side", "F", "N"),
    "shear_n": ("level force at the ground, + towards the sun side", "F", "N"),
    "hinge_n_m": ("moment about the hinge, + steepens", "M", "N m"),
    "base_n_m": ("moment about the ground line", "Mb", "N m"),
    "roll_n_m": ("roll", "Mr", "N m"),
    "twist_n_m": ("twist", "T", "N m"),
    "square_n": ("on the strongback square to the glass, worse side doubled", "W", "N"),
    "along_n": ("on the strongback along the glass", "W", "N"),
    "front_pa": ("on the worst module's glass", "p", "Pa"),
    "back_pa": ("on the worst module's back, corner zone in it", "p", "Pa"),
}


def load_steps(
    setting: Setting, loads: Combined, case: int, tilt: int, fields: tuple[str, ...]
) -> tuple[Step, ...]:
    """From the gust to the combined actions of one case at one tilt.

    Args:
        setting: The mount.
        loads: All combinations.
        case: Row.
        tilt: Column.
        fields: Which actions to add up.
    """
    tilt_deg = float(loads.acting.tilt_deg[tilt])
    steps: list[Step] = []
    wind_row, snow_row = loads.wind_row[case], loads.snow_row[case]
    if wind_row is not None:
        steps += _pressure_steps(setting)
        steps += _push_steps(setting, loads.wind, wind_row, tilt, tilt_deg)
    if snow_row is not None:
        steps += _snow_steps(setting, loads.snow, snow_row, tilt, tilt_deg)
    if wind_row is not None and fields[0] in ("front_pa", "back_pa"):
        steps.append(_zone_step(setting, loads.wind, wind_row, tilt, fields[0]))
    return (*steps, *_sum_steps(loads, case, tilt, fields))


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


@dataclass(frozen=True, slots=True)
class _Roof:
    """One case of the open-roof figure, with the numbers the ladder prints."""

    tilt_deg: float
    upper: float
    lower: float
    pressed_n: float  # Kd q G A
    push_n: float
    turn_n_m: float


def _roof(setting: Setting, side: str, case: str, tilt_deg: float) -> _Roof:
    """The figure's row; past flat the panel is its own mirror image, read from the other side's row (loads.wind)."""
    g = setting.geometry
    at = min(abs(tilt_deg), BLEND_FROM_DEG)
    other = "glass" if side == "back" else "back"
    halves = roof_halves(side if tilt_deg >= 0.0 else other, case, np.array([at]))
    upper, lower = (float(cn[0]) for cn in (halves if tilt_deg >= 0.0 else reversed(halves)))
    q = float(velocity_pressure_pa(setting.place.wind_speed_m_s, g.hinge_height_m, setting.site))
    pressed = DIRECTIONALITY * q * RIGID_GUST_FACTOR * g.area_m2
    push, turn = -(upper + lower) / 2.0 * pressed, (lower - upper) / 8.0 * pressed * g.chord_m
    return _Roof(at, upper, lower, pressed, push, turn)


def _push_steps(setting: Setting, wind: Acting, row: int, tilt: int, tilt_deg: float) -> list[Step]:
    """Push, its parts, hinge moment, base moment, twist and roll of the whole wind (factor 1)."""
    at = {name: float(wind.values[PLACE_OF[name], row, tilt]) for name in FIELDS}
    push, t = at["square_n"] / LOPSIDED, np.radians(tilt_deg)
    g = setting.geometry
    lever = OFF_CENTRE * g.width_m
    side, case = wind.sides[row], wind.names[row].split(", ")[1].removeprefix("case ")
    roof = _roof(setting, side, case, tilt_deg)
    upright = tilt_deg > BLEND_FROM_DEG
    ladder = _sign_steps(setting, roof, wind.names[row], tilt_deg, push) if upright else []
    turned = ladder.pop() if ladder else _roof_turn(setting, roof)
    off_m = (g.lower_m - g.upper_m) / 2.0
    turn_formula = turned.formula + (f" - {off_m:.3f} x ({push:.0f})" if off_m else "")
    return [
        *_roof_steps(setting, roof, side, case),
        *ladder,
        _level_step(setting, push, at["towards_n"], tilt_deg),
        Step("upright part", "Fz", f"{push:.0f} x cos {tilt_deg:.1f}", -at["down_n"], "N", STATICS),
        Step("wind's moment about the hinge", "Mw", turn_formula, at["hinge_n_m"], "N m", turned.source),
        Step(
            "wind's moment about the ground line, pole's drag in it", "Mb",
            f"{at['towards_n']:.0f} x {g.hinge_height_m:.3f} + {at['hinge_n_m']:.0f}"
            f" + {at['shear_n'] - at['towards_n']:.0f} x {setting.pole_height_m / 2.0:.3f}",
            at["base_n_m"], "N m", STATICS,
        ),
        Step("twist", "T", f"{lever:.3f} x {abs(at['towards_n']):.0f}", at["twist_n_m"], "N m", OFF_CENTRE_SOURCE),
        Step("roll", "Mr", f"{lever:.3f} x {abs(push * np.cos(t)):.0f}", at["roll_n_m"], "N m", OFF_CENTRE_SOURCE),
    ]  # fmt: skip


def _level_step(setting: Setting, push: float, towards: float, tilt_deg: float) -> Step:
    """Level part of the push, or the code's least push where that is more."""
    level = push * float(np.sin(np.radians(tilt_deg)))
    word = "level part, + towards the sun side"
    if abs(towards - level) < 1.0:
        return Step(word, "Fx", f"{push:.0f} x sin {tilt_deg:.1f}", towards, "N", STATICS)
    g = setting.geometry
    q = float(velocity_pressure_pa(setting.place.wind_speed_m_s, g.hinge_height_m, setting.site))
    seen_m2 = float(projected_m2(g, np.array([tilt_deg]))[0])
    facing = "" if towards > 0.0 else "-"
    formula = (
        f"{facing}max({LEAST_PUSH_PA:.1f} x {seen_m2:.3f}, "
        f"{FLAT_PUSH} x {DIRECTIONALITY} x {q:.1f} x {g.area_m2:.2f})"
    )
    return Step(f"{word}: the least push governs", "Fx", formula, towards, "N", LEAST_SOURCE)


def _roof_steps(setting: Setting, roof: _Roof, side: str, case: str) -> list[Step]:
    where = f"wind on the {side}, case {case}, {roof.tilt_deg:.1f} deg"
    q = roof.pressed_n / (DIRECTIONALITY * RIGID_GUST_FACTOR * setting.geometry.area_m2)
    pressed = f"{DIRECTIONALITY} x {q:.1f} x {RIGID_GUST_FACTOR} x {setting.geometry.area_m2:.2f}"
    mean = f"{pressed} x -({roof.upper:.3f} + {roof.lower:.3f}) / 2"
    return [
        Step("coefficient, upper half, + presses", "CNU", where, roof.upper, "", ROOF_SOURCE),
        Step("coefficient, lower half, + presses", "CNL", where, roof.lower, "", ROOF_SOURCE),
        Step(f"push square to the glass at {roof.tilt_deg:.1f} deg, + from the back", "N", mean, roof.push_n, "N", ROOF_SOURCE),
    ]  # fmt: skip


def _roof_turn(setting: Setting, roof: _Roof) -> Step:
    formula = f"{roof.pressed_n:.0f} x {setting.geometry.chord_m:.3f} x ({roof.lower:.3f} - {roof.upper:.3f}) / 8"
    return Step("moment about mid-chord", "M", formula, roof.turn_n_m, "N m", ROOF_SOURCE)


def _sign_steps(
    setting: Setting, roof: _Roof, name: str, tilt_deg: float, push: float
) -> list[Step]:
    """The upright sign and the blend; the moment about mid-chord comes last."""
    g, gust, site = setting.geometry, setting.place.wind_speed_m_s, setting.site
    sine = float(np.sin(np.radians(tilt_deg)))
    tall, top = g.chord_m * sine, g.hinge_height_m + g.upper_m * sine
    cf = float(sign_coefficient(np.array(g.width_m / tall), np.array(min(tall / top, 1.0))))
    q = float(velocity_pressure_pa(gust, top, site))
    share = (tilt_deg - BLEND_FROM_DEG) / (90.0 - BLEND_FROM_DEG)
    sign_n = DIRECTIONALITY * q * RIGID_GUST_FACTOR * cf * g.area_m2
    aspect = f"B/s {g.width_m / tall:.2f}, s/h {tall / top:.2f}"
    n90 = f"{DIRECTIONALITY} x {q:.1f} x {RIGID_GUST_FACTOR} x {cf:.3f} x {g.area_m2:.2f}"
    facing, sense = ("" if push >= 0.0 else "-"), name[-1]
    blend = f"{facing}({1 - share:.3f} x {abs(roof.push_n):.0f} + {share:.3f} x {sign_n:.0f})"
    off = SIGN_OFF_CENTRE * g.chord_m
    turn = f"{1 - share:.3f} x ({roof.turn_n_m:.0f}) {sense} {share:.3f} x {off:.4f} x {sign_n:.0f}"
    turned = (1 - share) * roof.turn_n_m + share * off * sign_n * (1.0 if sense == "+" else -1.0)
    return [
        Step("coefficient as an upright sign", "Cf", aspect, cf, "", SIGN_SOURCE),
        Step("pressure at the top edge", "q", f"at {top:.3f} m", q, "Pa", PRESSURE_SOURCE),
        Step("push as an upright sign", "N90", n90, sign_n, "N", SIGN_SOURCE),
        Step("push, blended", "N", blend, push, "N", BLEND_SOURCE),
        Step("moment about mid-chord, blended", "M", turn, turned, "N m", BLEND_SOURCE),
    ]


def _zone_step(setting: Setting, wind: Acting, row: int, tilt: int, field: str) -> Step:
    """The whole wind on the corner module: the worse half's pressure times the zone."""
    g, module = setting.geometry, setting.array.module
    zone = corner_factor(module.length_m * module.width_m, g.width_m, g.chord_m, g.hinge_height_m)
    pressure = float(wind.values[PLACE_OF[field], row, tilt])
    formula = f"{zone} x {pressure / zone:.1f}"
    return Step(
        "wind on the corner module, zone x the worse half",
        "p",
        formula,
        pressure,
        "Pa",
        ZONE_SOURCE,
    )


def _snow_steps(setting: Setting, snow: Acting, row: int, tilt: int, tilt_deg: float) -> list[Step]:
    at = {name: float(snow.values[PLACE_OF[name], row, tilt]) for name in FIELDS}
    g, t = setting.geometry, np.radians(tilt_deg)
    plan_m2 = g.area_m2 * float(np.cos(t))
    lies = at["down_n"] / plan_m2
    ground, named = setting.place.ground_snow_pa, snow.names[row]
    ce = EXPOSURE_CE[setting.place.exposure]
    slope = lies / flat_snow_pa(ground, ce, OPEN_AIR_CT, IMPORTANCE) if ground > 0.0 else 0.0
    flat = f"0.7 x {ce} x {OPEN_AIR_CT} x {IMPORTANCE} x {ground:.0f} x {slope:.3f}; {named}"
    # What the pattern's own lever leaves of the moment over the whole weight, as one length.
    lever = at["hinge_n_m"] / at["down_n"] if at["down_n"] > 0.0 else 0.0
    turn = f"{at['down_n']:.0f} x {lever:.4f}; chord {g.chord_m:.3f} m, {named}"
    roll = f"{at['down_n']:.0f} x {g.width_m:.3f} / 8"
    steps = [
        Step("snow of the ground", "pg", "", ground, "Pa", OWNER),
        Step("snow on plan area, slope factor last", "p", flat, lies, "Pa", SLOPE_SOURCE if tilt_deg > 15.0 else FLAT_SOURCE),
        Step("its weight, of the whole cover", "S", f"{lies:.0f} x {plan_m2:.2f}", at["down_n"], "N", UNEVEN_SOURCE),
        Step("its moment about the hinge", "Ms", turn, at["hinge_n_m"], "N m", UNEVEN_SOURCE),
    ]  # fmt: skip
    if at["roll_n_m"] > 0.0:
        steps.append(Step("its roll", "Mr", roll, at["roll_n_m"], "N m", UNEVEN_SOURCE))
    return steps


def _sum_steps(loads: Combined, case: int, tilt: int, fields: tuple[str, ...]) -> list[Step]:
    """Dead, snow and wind with their factors, field by field."""
    rule = loads.rule[case]
    pieces = [(rule.dead, loads.dead, 0)]
    snow_row, wind_row = loads.snow_row[case], loads.wind_row[case]
    if snow_row is not None:
        pieces.append((rule.snow, loads.snow, snow_row))
    if wind_row is not None:
        pieces.append((rule.wind, loads.wind, wind_row))
    steps = []
    for name in fields:
        word, symbol, unit = SHOWN[name]
        place = PLACE_OF[name]
        formula = " + ".join(f"{f:g} x ({a.values[place, row, tilt]:.0f})" for f, a, row in pieces)
        value = float(loads.acting.values[place, case, tilt])
        steps.append(Step(f"{word}, {rule.name}", symbol, formula, value, unit, rule.source))
    return steps
