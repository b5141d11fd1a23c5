"""The ladder from the map's gust to the wind on the parts, after ASCE 7, with the numbers in it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from polestead.base.edition import in_edition
from polestead.base.source import OWNER, Source
from polestead.base.working import Step
from polestead.loads.coefficients import ROOF_SOURCE, SIGN_SOURCE, roof_halves, sign_coefficient
from polestead.loads.hill import SOURCE as HILL_SOURCE
from polestead.loads.hill import multipliers, topographic_factor
from polestead.loads.on_array import FLAT_PUSH, FLAT_SOURCE, projected_m2
from polestead.loads.pressure import (
    FLEXIBLE_SOURCE,
    GUST_SOURCE,
    KD_SOURCE,
    KE_SOURCE,
    KZ_SOURCE,
    LEAST_NATURAL_HZ,
    PRESSURE_SOURCE,
    RIGID_SOURCE,
    SiteWind,
    height_factor,
    velocity_pressure_pa,
)
from polestead.loads.wind import (
    BLEND_FROM_DEG,
    BLEND_SOURCE,
    LEAST_PUSH_PA,
    LEAST_SOURCE,
    OFF_CENTRE,
    OFF_CENTRE_SOURCE,
    SIGN_OFF_CENTRE,
)
from polestead.stand.actions import FIELDS, PLACE_OF, Acting, Blow
from polestead.stand.ladder_ground import base_steps, off_centre_steps
from polestead.stand.parts.part import STATICS
from polestead.stand.setting import Setting


def pressure_steps(setting: Setting, blow: Blow, tilt_deg: float) -> list[Step]:  # noqa: ARG001  one form for both ladders
    """From the map's gust to the pressure at the hinge."""
    site, height_m = setting.site, setting.geometry.hinge_height_m
    gust = blow.gust_m_s
    kz = float(height_factor(height_m, site.basis, site.exposure))
    kzt = site.topographic if site.hill is None else float(topographic_factor(site.hill, height_m))
    q = float(velocity_pressure_pa(gust, height_m, site))
    formula = f"0.613 x {kz:.4f} x {kzt:.4g} x {site.elevation:.4f} x {gust:.2f}^2"
    return [
        _gust_step(setting, gust),
        Step("height and exposure", "Kz", f"exposure {site.exposure}, {height_m:.3f} m", kz, "", in_edition(KZ_SOURCE, site.basis, own=True)),
        *_hill_steps(site, height_m, kzt),
        Step("elevation", "Ke", f"exp(-0.000119 x {setting.place.elevation_m:.0f})", site.elevation, "", in_edition(KE_SOURCE, site.basis)),
        Step("direction", "Kd", "", blow.directionality, "", in_edition(KD_SOURCE, site.basis) if blow.floors else TOLD),
        Step("gust factor", "G", "", blow.gust_factor, "", _gust_source(setting, blow)),
        Step("pressure at the hinge", "q", formula, q, "Pa", in_edition(PRESSURE_SOURCE, site.basis, own=True)),
    ]  # fmt: skip


TOLD = Source("the gust itself, not the map's", "conventions §12", "ours")


def _gust_step(setting: Setting, gust_m_s: float) -> Step:
    if abs(gust_m_s - setting.map_gust_m_s) < 1e-9:
        return Step("the map's gust", "V", "", gust_m_s, "m/s", OWNER)
    return Step("the gust", "V", "", gust_m_s, "m/s", TOLD)


def _gust_source(setting: Setting, blow: Blow) -> Source:
    if setting.sway_hz < LEAST_NATURAL_HZ:
        return in_edition(FLEXIBLE_SOURCE, setting.site.basis)
    if blow.floors:
        return in_edition(RIGID_SOURCE, setting.site.basis, own=True)
    return in_edition(GUST_SOURCE, setting.site.basis)


def _hill_steps(site: SiteWind, height_m: float, kzt: float) -> list[Step]:
    if site.hill is None:
        return [Step("hill", "Kzt", "", kzt, "", OWNER)]
    k1, k2, k3 = multipliers(site.hill, height_m)
    where = in_edition(HILL_SOURCE, site.basis)
    return [
        Step("hill, by its steepness", "K1", f"{site.hill.shape}, {site.hill.height_m:.0f} m over {site.hill.half_length_m:.0f} m", k1, "", where),
        Step("hill, by the distance to its crest", "K2", f"{site.hill.from_crest_m:.0f} m", k2, "", where),
        Step("hill, by the height over the ground", "K3", f"{height_m:.2f} m", float(k3), "", where),
        Step("hill", "Kzt", f"(1 + {k1:.3f} x {k2:.3f} x {float(k3):.3f})^2", kzt, "", where),
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


def _roof(setting: Setting, blow: Blow, side: str, case: str, tilt_deg: float) -> _Roof:
    """The figure's row; past flat the panel is its own mirror image, read from the other side's row (loads.wind)."""
    g = setting.geometry
    at = min(abs(tilt_deg), BLEND_FROM_DEG)
    other = "glass" if side == "back" else "back"
    halves = roof_halves(side if tilt_deg >= 0.0 else other, case, np.array([at]))
    upper, lower = (float(cn[0]) for cn in (halves if tilt_deg >= 0.0 else reversed(halves)))
    q = float(velocity_pressure_pa(blow.gust_m_s, g.hinge_height_m, setting.site))
    pressed = blow.directionality * q * blow.gust_factor * g.area_m2
    push, turn = -(upper + lower) / 2.0 * pressed, (lower - upper) / 8.0 * pressed * g.chord_m
    return _Roof(at, upper, lower, pressed, push, turn)


def push_steps(
    setting: Setting, blow: Blow, wind: Acting, row: int, tilt: int, tilt_deg: float
) -> list[Step]:
    """Push, its parts, hinge moment, base moment, twist and roll of the whole wind (factor 1)."""
    at = {name: float(wind.values[PLACE_OF[name], row, tilt]) for name in FIELDS}
    push = at["square_n"] / setting.lopsided
    g = setting.geometry
    side, case = wind.sides[row], wind.names[row].split(", ")[1].removeprefix("case ")
    roof = _roof(setting, blow, side, case, tilt_deg)
    upright = tilt_deg > BLEND_FROM_DEG
    ladder = _sign_steps(setting, blow, roof, wind.names[row], tilt_deg, push) if upright else []
    turned = ladder.pop() if ladder else _roof_turn(setting, roof)
    off_m = (g.lower_m - g.upper_m) / 2.0
    turn_formula = turned.formula + (f" - {off_m:.3f} x ({push:.0f})" if off_m else "")
    return [
        *_roof_steps(setting, blow, roof, side, case),
        *ladder,
        *_level_steps(setting, blow, push, at["towards_n"], tilt_deg),
        Step("upright part", "Fz", f"{push:.0f} x cos {tilt_deg:.1f}", -at["down_n"], "N", STATICS),
        Step("wind's moment about the hinge", "Mw", turn_formula, at["hinge_n_m"], "N m", turned.source),
        *base_steps(setting, blow, at),
        *off_centre_steps(at, f"{OFF_CENTRE} x {g.width_m:.3f}", in_edition(OFF_CENTRE_SOURCE, setting.site.basis)),
    ]  # fmt: skip


def _level_steps(
    setting: Setting, blow: Blow, push: float, towards: float, tilt_deg: float
) -> tuple[Step, ...]:
    """Level part of the push, or the code's least push where that is more."""
    level = push * float(np.sin(np.radians(tilt_deg)))
    word = "level part, + towards the sun side"
    if abs(towards - level) < 1.0:
        return (Step(word, "Fx", f"{push:.0f} x sin {tilt_deg:.1f}", towards, "N", STATICS),)
    g = setting.geometry
    q = float(velocity_pressure_pa(blow.gust_m_s, g.hinge_height_m, setting.site))
    seen_m2 = float(projected_m2(g, np.array([tilt_deg]))[0])
    facing = "" if towards > 0.0 else "-"
    least, flat = LEAST_PUSH_PA * seen_m2, FLAT_PUSH * blow.directionality * q * g.area_m2
    code = in_edition(LEAST_SOURCE, setting.site.basis)
    formula = f"{FLAT_PUSH} x {blow.directionality} x {q:.1f} x {g.area_m2:.2f}"
    return (
        Step("least push of the code", "Fmin", f"{LEAST_PUSH_PA:.1f} x {seen_m2:.3f}", least, "N", code),
        Step("least push on a panel that lies flat", "Fflat", formula, flat, "N", FLAT_SOURCE),
        Step(f"{word}: the larger least push governs", "Fx", f"{facing}max({least:.0f}, {flat:.0f})", towards, "N", code if least >= flat else FLAT_SOURCE),
    )  # fmt: skip


def _roof_steps(setting: Setting, blow: Blow, roof: _Roof, side: str, case: str) -> list[Step]:
    rule = in_edition(ROOF_SOURCE, setting.site.basis)
    where = f"wind on the {side}, case {case}, {roof.tilt_deg:.1f} deg"
    q = roof.pressed_n / (blow.directionality * blow.gust_factor * setting.geometry.area_m2)
    pressed = (
        f"{blow.directionality} x {q:.1f} x {blow.gust_factor:.3g} x {setting.geometry.area_m2:.2f}"
    )
    mean = f"{pressed} x -({roof.upper:.3f} + {roof.lower:.3f}) / 2"
    return [
        Step("coefficient, upper half, + presses", "CNU", where, roof.upper, "", rule),
        Step("coefficient, lower half, + presses", "CNL", where, roof.lower, "", rule),
        Step(f"push square to the glass at {roof.tilt_deg:.1f} deg, + from the back", "N", mean, roof.push_n, "N", rule),
    ]  # fmt: skip


def _roof_turn(setting: Setting, roof: _Roof) -> Step:
    formula = f"{roof.pressed_n:.0f} x {setting.geometry.chord_m:.3f} x ({roof.lower:.3f} - {roof.upper:.3f}) / 8"
    return Step(
        "moment about mid-chord",
        "M",
        formula,
        roof.turn_n_m,
        "N m",
        in_edition(ROOF_SOURCE, setting.site.basis),
    )


def _sign_steps(
    setting: Setting, blow: Blow, roof: _Roof, name: str, tilt_deg: float, push: float
) -> list[Step]:
    """The upright sign and the blend; the moment about mid-chord comes last."""
    g, gust, site = setting.geometry, blow.gust_m_s, setting.site
    sine = float(np.sin(np.radians(tilt_deg)))
    tall, top = g.chord_m * sine, g.hinge_height_m + g.upper_m * sine
    cf = float(sign_coefficient(np.array(g.width_m / tall), np.array(min(tall / top, 1.0))))
    q = float(velocity_pressure_pa(gust, top, site))
    share = (tilt_deg - BLEND_FROM_DEG) / (90.0 - BLEND_FROM_DEG)
    sign_n = blow.directionality * q * blow.gust_factor * cf * g.area_m2
    rule = in_edition(SIGN_SOURCE, site.basis)
    aspect = f"B/s {g.width_m / tall:.2f}, s/h {tall / top:.2f}"
    n90 = f"{blow.directionality} x {q:.1f} x {blow.gust_factor:.3g} x {cf:.3f} x {g.area_m2:.2f}"
    facing, sense = ("" if push >= 0.0 else "-"), name[-1]
    blend = f"{facing}({1 - share:.3f} x {abs(roof.push_n):.0f} + {share:.3f} x {sign_n:.0f})"
    off = SIGN_OFF_CENTRE * g.chord_m
    turn = f"{1 - share:.3f} x ({roof.turn_n_m:.0f}) {sense} {share:.3f} x {off:.4f} x {sign_n:.0f}"
    turned = (1 - share) * roof.turn_n_m + share * off * sign_n * (1.0 if sense == "+" else -1.0)
    return [
        Step("coefficient as an upright sign", "Cf", aspect, cf, "", rule),
        Step(
            "pressure at the top edge",
            "q",
            f"at {top:.3f} m",
            q,
            "Pa",
            in_edition(PRESSURE_SOURCE, site.basis, own=True),
        ),
        Step("push as an upright sign", "N90", n90, sign_n, "N", rule),
        Step("push, blended", "N", blend, push, "N", BLEND_SOURCE),
        Step("moment about mid-chord, blended", "M", turn, turned, "N m", BLEND_SOURCE),
    ]
