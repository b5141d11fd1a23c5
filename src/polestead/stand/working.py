"""The ladder from the gust to the moment at the ground, with the numbers in it."""

from __future__ import annotations

import numpy as np

from polestead.base.edition import READ, in_edition
from polestead.base.source import OWNER, Source
from polestead.base.working import Step
from polestead.loads.coefficients import ZONE_SOURCE
from polestead.loads.ice import SOURCE as ICE_SOURCE
from polestead.loads.snow import (
    EN_SOURCE,
    EXPOSURE_CE,
    FLAT_LATER_SOURCE,
    FLAT_SOURCE,
    IMPORTANCE,
    LEAST_SOURCE,
    LEAST_WHOLE,
    OPEN_AIR_CT,
    SHAPE_FLAT,
    SLIDES_FROM_DEG,
    SLOPE_SOURCE,
    UNEVEN_SOURCE,
    flat_snow_pa,
    least_snow_words,
)
from polestead.stand import ladder_collector, ladder_en, ladder_us
from polestead.stand.actions import (
    FIELDS,
    PLACE_OF,
    Acting,
    Blow,
    Combined,
    Met,
    blown,
    code_blow,
    told_blow,
)
from polestead.stand.setting import Setting

SHOWN = {
    "down_n": ("down on the hinge", "P", "N"),
    "foot_down_n": ("down at the ground", "P", "N"),
    "towards_n": ("level force at the hinge, + towards the sun side", "F", "N"),
    "shear_n": ("level force at the ground, + towards the sun side", "F", "N"),
    "hinge_n_m": ("moment about the hinge, + steepens", "M", "N m"),
    "base_n_m": ("moment about the ground line", "Mb", "N m"),
    "roll_n_m": ("roll", "Mr", "N m"),
    "twist_n_m": ("twist", "T", "N m"),
    "square_n": ("on the strongback square to the glass, as if its worse side were both", "W", "N"),
    "along_n": ("on the strongback along the glass", "W", "N"),
    "front_pa": ("on the worst module's glass", "p", "Pa"),
    "back_pa": ("on the worst module's back, corner zone in it", "p", "Pa"),
    "half_turn_n_m": ("twist on the strongback's worse half", "Mt", "N m"),
    "rail_front_pa": ("on the glass over the outer rail", "p", "Pa"),
    "rail_back_pa": ("on the back over the outer rail, its zone in it", "p", "Pa"),
}
ZONES = ("front_pa", "back_pa", "rail_front_pa", "rail_back_pa")


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
        ladder = ladder_en if setting.eurocode else ladder_us
        steps += ladder.pressure_steps(setting, code_blow(setting), tilt_deg)
        steps += ladder.push_steps(
            setting, code_blow(setting), loads.wind, wind_row, tilt, tilt_deg
        )
    if snow_row is not None:
        steps += _snow_steps(setting, loads.snow, snow_row, tilt, tilt_deg)
    if loads.rule[case].ice > 0.0:
        weight = float(loads.ice.values[PLACE_OF["down_n"], 0, tilt])
        formula = f".8 x pi x {setting.place.ice_thickness_m:.4f} x {setting.geometry.area_m2:.2f} x 56 lb/ft3"
        steps.append(
            Step(
                "weight of ice",
                "Di",
                formula,
                weight,
                "N",
                in_edition(ICE_SOURCE, setting.site.basis),
            )
        )
    if wind_row is not None:
        blow = code_blow(setting)
        steps += _zone_steps(setting, blow, loads.wind, wind_row, tilt, tilt_deg, fields)
    return (*steps, *_sum_steps(loads, case, tilt, fields))


def _zone_steps(
    setting: Setting, blow: Blow, wind: Acting, row: int, tilt: int, tilt_deg: float, fields: tuple[str, ...]
) -> list[Step]:  # fmt: skip
    """The whole wind on the corner module or the outer rail, by the zones of the basis."""
    told = [name for name in fields if name in ZONES and wind.values[PLACE_OF[name], row, tilt]]
    if setting.eurocode:
        return [ladder_en.zone_step(setting, blow, tilt_deg, float(wind.values[PLACE_OF[name], row, tilt])) for name in told[:1]]  # fmt: skip
    return [_zone_step(setting, wind, row, tilt, name) for name in told[:1]]


def _zone_step(setting: Setting, wind: Acting, row: int, tilt: int, field: str) -> Step:
    """On the US basis: the worse half's pressure times the zone."""
    on, zone = (
        ("corner module", setting.module_zone)
        if field in ("front_pa", "back_pa")
        else ("outer rail", setting.rail_zone)
    )
    pressure = float(wind.values[PLACE_OF[field], row, tilt])
    formula = f"{zone} x {pressure / zone:.1f}"
    return Step(f"wind on the {on}, zone x the worse half", "p", formula, pressure, "Pa", in_edition(ZONE_SOURCE, setting.site.basis))  # fmt: skip


def _snow_steps(setting: Setting, snow: Acting, row: int, tilt: int, tilt_deg: float) -> list[Step]:
    at = {name: float(snow.values[PLACE_OF[name], row, tilt]) for name in FIELDS}
    g, t = setting.geometry, np.radians(tilt_deg)
    plan_m2 = g.area_m2 * float(np.cos(t))
    lies = at["down_n"] / plan_m2
    ground, named = setting.place.ground_snow_pa, snow.names[row]
    flat, source = _lying(setting, lies, named, tilt_deg)
    # What the pattern's own lever leaves of the moment over the whole weight, as one length.
    lever = at["hinge_n_m"] / at["down_n"] if at["down_n"] > 0.0 else 0.0
    turn = f"{at['down_n']:.0f} x {lever:.4f}; chord {g.chord_m:.3f} m, {named}"
    roll = f"{at['down_n']:.0f} x {g.width_m:.3f} / 8"
    steps = [
        Step("snow of the ground", "pg", "", ground, "Pa", OWNER),
        Step("snow on plan area, slope factor last", "p", flat, lies, "Pa", source),
        Step("its weight, of the whole cover", "S", f"{lies:.0f} x {plan_m2:.2f}", at["down_n"], "N", UNEVEN_SOURCE),
        Step("its moment about the hinge", "Ms", turn, at["hinge_n_m"], "N m", UNEVEN_SOURCE),
    ]  # fmt: skip
    if at["roll_n_m"] > 0.0:
        steps.append(Step("its roll", "Mr", roll, at["roll_n_m"], "N m", UNEVEN_SOURCE))
    return steps


def _lying(setting: Setting, lies: float, named: str, tilt_deg: float) -> tuple[str, Source]:
    """The formula of the snow on plan area, and its clause."""
    ground = setting.place.ground_snow_pa
    if setting.eurocode:
        shape = lies / ground if ground > 0.0 else SHAPE_FLAT
        return f"{shape:.3f} x 1 x 1 x {ground:.0f}; {named}", EN_SOURCE
    ce = EXPOSURE_CE[setting.site.exposure]
    basis, risk = setting.site.basis, setting.place.risk_category
    if named.endswith(LEAST_WHOLE):
        return f"{least_snow_words(ground, basis, risk)}; {named}", in_edition(
            LEAST_SOURCE, basis, own=True
        )
    by_risk = IMPORTANCE[risk] if basis == READ else None  # 7-22 has it in its map
    slope = lies / flat_snow_pa(ground, ce, OPEN_AIR_CT, by_risk or 1.0) if ground > 0.0 else 0.0
    factors = f"0.7 x {ce} x {OPEN_AIR_CT}" + ("" if by_risk is None else f" x {by_risk}")
    flat = FLAT_SOURCE if by_risk is not None else FLAT_LATER_SOURCE
    source = in_edition(SLOPE_SOURCE, basis) if tilt_deg > SLIDES_FROM_DEG else flat
    return f"{factors} x {ground:.0f} x {slope:.3f}; {named}", source


def _sum_steps(loads: Combined, case: int, tilt: int, fields: tuple[str, ...]) -> list[Step]:
    """Dead, snow and wind with their factors, field by field."""
    rule = loads.rule[case]
    pieces = [(rule.dead, loads.dead, 0)]
    if rule.ice > 0.0:
        pieces.append((rule.ice, loads.ice, 0))
    snow_row, wind_row = loads.snow_row[case], loads.wind_row[case]
    if snow_row is not None:
        pieces.append((rule.snow, loads.snow, snow_row))
    if wind_row is not None:
        pieces.append((rule.wind, loads.wind, wind_row))
    steps = []
    for name in fields:
        word, symbol, unit = SHOWN[name]
        place = PLACE_OF[name]
        each = [(f, float(a.values[place, row, tilt])) for f, a, row in pieces]
        formula = " + ".join(f"{f:g} x ({_whole(one)})" for f, one in each)
        value = float(loads.acting.values[place, case, tilt])
        if abs(value) < 1e-9 * max(1.0, *(abs(one) for _, one in each)):
            value = 0.0  # a moment of nothing but rounding
        steps.append(Step(f"{word}, {rule.name}", symbol, formula, value, unit, rule.source))
    return steps


def _whole(value: float) -> str:
    """A load as a formula shows it: whole, or to four figures where it is small."""
    return f"{value:.0f}" if abs(value) >= 1000.0 or abs(value) < 1e-6 else f"{value:.4g}"


def gust_steps(
    setting: Setting,
    met: Met,
    case: int,
    tilt_deg: float,
    gust_m_s: float,
    fields: tuple[str, ...] = (),
) -> tuple[Step, ...]:
    """From a gust of the card to the wind of one case at one tilt.

    Args:
        setting: The mount.
        met: The gust as a set meets it.
        case: Row of its actions.
        tilt_deg: The tilt.
        gust_m_s: The gust.
        fields: Which actions the part's working adds up.
    """
    row, tilts, blow = met.rows(case)[1], np.array([tilt_deg]), told_blow(setting, gust_m_s)
    acting = blown(setting, blow, tilts)
    if row >= len(acting.names):
        return ladder_collector.push_steps(setting, gust_m_s, tilt_deg, row - len(acting.names))
    ladder = ladder_en if setting.eurocode else ladder_us
    return (
        *ladder.pressure_steps(setting, blow, tilt_deg),
        *ladder.push_steps(setting, blow, acting, row, 0, tilt_deg),
        *_zone_steps(setting, blow, acting, row, 0, tilt_deg, fields),
    )
