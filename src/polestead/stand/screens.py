"""Screens beside the code's check: everyday gusts over years, flutter about the hinge, slack, rust at the ground."""

from __future__ import annotations

from dataclasses import replace
from math import pi, sqrt

import numpy as np

from polestead.base.check import Check
from polestead.base.source import Source
from polestead.base.working import Step, Working
from polestead.loads.pressure import allowable_gust_m_s, velocity_pressure_pa
from polestead.stand.actions import Acting, code_rule_wind, pole_drag_n, wind
from polestead.stand.code import code_loads
from polestead.stand.parts.frame import ON_PINS, foot_of, hinge_force
from polestead.stand.parts.part import STATICS, level
from polestead.stand.parts.pole import overturning_n_m
from polestead.stand.result import Rusted
from polestead.stand.setting import Setting
from polestead.strength.allowable import STEEL_EN_PA, STEEL_PA
from polestead.strength.pole import PoleStrength, bending_n_m, eurocode_bending_n_m, pole_use, ring
from polestead.strength.tubes import tube_section
from polestead.strength.welds import (
    ENDLESS_PA,
    ENDLESS_SOURCE,
    EVERYDAY_GUST_PA,
    EVERYDAY_SOURCE,
    stress_of_one_n,
)

REDUCED = 0.15  # hinge frequency over V / c, from plates and heliostats: from memory, a screen
SLOWEST_HZ, MOST_SLACK_M = 2.0, 0.005
FLUTTER = Source("screen: frequency over .15 V / c and 2 Hz, slack at the edge under 0.2 in (5 mm)", "docs/method/stand.md", "ours")  # fmt: skip
RUST_M_YEAR = 0.00008  # bare steel at the ground line, .03 to .12 mm a year (from memory)
RUST_YEARS = (0, 10, 25, 50)


def screens_of(setting: Setting) -> tuple[Check, ...]:
    """Everyday gusts on pole and welds; flutter and slack on the storm hold."""
    return (*_everyday(setting), *_flutter(setting))


def _everyday_range(setting: Setting) -> Acting:
    """What comes and goes with everyday gusts: 5.2 psf times the coefficients at every tilt."""
    tilts = setting.card_tilts_deg
    q1 = float(velocity_pressure_pa(1.0, setting.geometry.hinge_height_m, setting.site))
    blown = code_rule_wind(setting, 1.0, tilts, 1.0, 1.0, False)
    acting = wind(setting, blown, pole_drag_n(setting, 1.0, 1.0, 1.0))
    return acting.with_values(EVERYDAY_GUST_PA / q1 * acting.values)


def _everyday(setting: Setting) -> tuple[Check, ...]:
    code, acting = setting.steel_code, _everyday_range(setting)
    endless, source = ENDLESS_PA[code], ENDLESS_SOURCE[code]
    moments = overturning_n_m(acting)
    moment, section = float(moments.max()), setting.pipe.elastic_m3
    case, tilt = (int(place) for place in np.unravel_index(int(moments.argmax()), moments.shape))
    base, roll = (abs(float(of[case, tilt])) for of in (acting.base_n_m, acting.roll_n_m))
    borrowed = replace(EVERYDAY_SOURCE, work=f"figures borrowed from {EVERYDAY_SOURCE.work}") if setting.eurocode else EVERYDAY_SOURCE  # fmt: skip
    first = Step("range of pressure by everyday gusts, before the coefficient", "p", "", EVERYDAY_GUST_PA, "Pa", borrowed)  # fmt: skip
    steps = (
        first,
        Step(f"range of moment at the ground, worst at {acting.tilt_deg[tilt]:g} deg: base moment and roll of that pressure", "dM", f"sqrt({base:.0f}^2 + {roll:.0f}^2)", moment, "N m", STATICS),
        Step("range of stress", "ds", f"{moment:.0f} / {section:.4g}", moment / section, "Pa", STATICS),
        Step("range that may come for ever", "ds th", "plain pipe, no weld within a diameter of the ground", endless["pipe"], "Pa", source),
    )  # fmt: skip
    checks = [Check(
        "pole, everyday gusts", "stress range for years without end, no weld near the ground", moment / section, endless["pipe"], "Pa",
        moment / section / endless["pipe"], source, Working("pole, everyday gusts", steps),
    )]  # fmt: skip
    foot, arm = foot_of(setting), _hold_arm_m(setting)
    if foot is not None and arm > 0.0:
        forces = hinge_force(setting, level(arm))(acting)
        force = float(forces.max())
        row, at = (int(place) for place in np.unravel_index(int(forces.argmax()), forces.shape))
        towards, down, across, twist, turn = (abs(float(getattr(acting, name)[row, at])) for name in ON_PINS)  # fmt: skip
        bears = f"sqrt({towards:.0f}^2 + {down:.0f}^2) / 2 + sqrt({across:.0f}^2 + {twist:.0f}^2) / {setting.mount.hinge_span_m:.3f} + {turn:.0f} / {arm:.3f} / 2"
        each = stress_of_one_n(foot)
        stress = force * each
        welded = (
            first,
            Step(f"range of force on the worse bearing, worst at {acting.tilt_deg[at]:g} deg", "dV", bears, force, "N", STATICS),
            Step("range of stress in the weld", "ds", f"{force:.0f} x {each:.4g}", stress, "Pa", STATICS),
            Step("range that may come for ever", "ds th", "fillet welded ear", endless["weld"], "Pa", source),
        )  # fmt: skip
        checks.append(Check(
            "welds of the hinge ears, everyday gusts", "stress range for years without end", stress, endless["weld"], "Pa",
            stress / endless["weld"], source, Working("welds, everyday gusts", welded),
        ))  # fmt: skip
    return tuple(checks)


def _hold_arm_m(setting: Setting) -> float:
    return setting.lock.arm_m if setting.lock is not None else 0.0


def _flutter(setting: Setting) -> tuple[Check, ...]:
    """How stiffly the storm hold keeps the hinge, and how far the edge rattles."""
    lock, g = setting.lock, setting.geometry
    if lock is None:
        return ()
    checks = []
    slack = lock.play_m * g.chord_m / 2.0 / lock.arm_m
    formula = f"{lock.play_m:.4f} x {g.chord_m:.3f} / 2 / {lock.arm_m:.3f}"
    step = Step("how far the edge rattles", "s", formula, slack, "m", FLUTTER)
    checks.append(Check(
        "storm hold, slack", "how far the edge rattles", slack, MOST_SLACK_M, "m", slack / MOST_SLACK_M, FLUTTER,
        Working("slack at the edge", (step,)),
    ))  # fmt: skip
    if lock.strut is not None and lock.strut_length_m is not None:
        modulus_pa = STEEL_EN_PA if setting.eurocode else STEEL_PA
        stiff = modulus_pa * tube_section(lock.strut).area_m2 / lock.strut_length_m
        inertia = g.mass_kg * g.chord_m**2 / 12.0
        hz = sqrt(stiff * lock.arm_m**2 / inertia) / (2.0 * pi)
        gust = allowable_gust_m_s(setting.site.basis, setting.place.wind_speed_m_s)
        wanted = max(REDUCED * gust / g.chord_m, SLOWEST_HZ)
        steps = (
            Step("stiffness of the strut", "k", f"{modulus_pa:.4g} x {tube_section(lock.strut).area_m2:.4g} / {lock.strut_length_m:.4f}", stiff, "N/m", STATICS),
            Step("wanted at the code's wind", "f least", f"max(.15 x {gust:.1f} / {g.chord_m:.3f}, {SLOWEST_HZ:g})", wanted, "Hz", FLUTTER),
            Step("frequency about the hinge", "f", f"sqrt({stiff:.4g} x {lock.arm_m:.3f}^2 / ({g.mass_kg:.0f} x {g.chord_m:.3f}^2 / 12)) / (2 pi)", hz, "Hz", STATICS),
        )  # fmt: skip
        checks.append(Check(
            "storm hold, flutter", "stiff enough that wind and hinge do not fall into step", wanted, hz, "Hz", wanted / hz, FLUTTER,
            Working("flutter about the hinge", steps),
        ))  # fmt: skip
    return tuple(checks)


def rust_of(setting: Setting) -> tuple[Rusted, ...]:
    """The pole at the ground after so many years of bare steel: design wall left, and its use in the code's check."""
    acting = code_loads(setting, setting.card_tilts_deg).acting
    told = []
    for years in RUST_YEARS:
        lost = RUST_M_YEAR * years
        wall = setting.pipe.design_wall_m - lost
        if wall <= 0.0:
            told.append(Rusted(years, 0.0, float("inf")))
            continue
        strength = _thinner(setting, lost)
        use = pole_use(
            strength, np.abs(acting.foot_down_n), overturning_n_m(acting), np.abs(acting.shear_n), np.asarray(acting.twist_n_m)
        )  # fmt: skip
        told.append(Rusted(years, wall, float(use.max())))
    return tuple(told)


def _thinner(setting: Setting, lost_m: float) -> PoleStrength:
    """Strengths with the wall eaten from outside; push and Euler load, of the whole pole, stay."""
    pipe, whole = setting.pipe, setting.pole
    section = ring(pipe.outside_m - 2.0 * lost_m, pipe.design_wall_m - lost_m)
    thin = replace(
        pipe, outside_m=pipe.outside_m - 2.0 * lost_m, design_wall_m=pipe.design_wall_m - lost_m, area_m2=section.area_m2,
        inertia_m4=section.inertia_m4, elastic_m3=section.elastic_m3, plastic_m3=section.plastic_m3, torsion_m3=section.torsion_m3,
    )  # fmt: skip
    of = eurocode_bending_n_m if setting.eurocode else bending_n_m
    share = of(thin)[0] / of(pipe)[0]
    return replace(
        whole, bending_n_m=whole.bending_n_m * share, shear_n=whole.shear_n * thin.area_m2 / pipe.area_m2,
        torsion_n_m=whole.torsion_n_m * thin.torsion_m3 / pipe.torsion_m3,
    )  # fmt: skip
