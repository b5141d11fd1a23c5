"""The pole where it leaves the concrete, and where the soil bends it most."""

from __future__ import annotations

import numpy as np

from polestead.base.source import Source
from polestead.base.working import Step
from polestead.footing.pier import below_grade_moment_n_m
from polestead.footing.ultimate import BROMS
from polestead.stand.actions import Acting
from polestead.stand.parts.part import STATICS, Floats, Part, level, number
from polestead.stand.setting import Setting
from polestead.strength.pole import pole_use

H3_6 = Source("AISC 360-16", "Eq. H3-6, second order by 1/(1 - P/Pe)", "memory")
SUMMED_EN = Source("EN 1993-1-1 6.2 and 6.3 summed in a straight line, shear and twist squared", "docs/method/stand.md", "ours")  # fmt: skip


def summed_by(setting: Setting) -> Source:
    """The rule by which the shares of a member are added."""
    return SUMMED_EN if setting.eurocode else H3_6


def overturning_n_m(a: Acting) -> Floats:
    """Base moment and roll together, square to each other [N m]."""
    return np.hypot(a.base_n_m, a.roll_n_m)


def enlarged_n_m(setting: Setting, a: Acting) -> Floats:
    """Base moment enlarged for the array's weight leaning with the pole, 1 / (1 - P / Pe)."""
    share = np.clip(np.maximum(a.foot_down_n, 0.0) / setting.pole.euler_n, 0.0, 0.99)
    return np.asarray(overturning_n_m(a) / (1.0 - share))


def _use(setting: Setting, a: Acting, moment: Floats, shear: Floats) -> Floats:
    return pole_use(setting.pole, np.abs(a.foot_down_n), moment, shear, np.asarray(a.twist_n_m))


def pole_parts(setting: Setting) -> tuple[Part, ...]:
    """The pole at the collar and below the ground."""
    bending, rule = setting.pole.bending_n_m, summed_by(setting)

    def told_collar(a: Acting) -> tuple[Step, ...]:
        base, roll = number(a, "base_n_m"), number(a, "roll_n_m")
        formula = f"sqrt({abs(base):.0f}^2 + {roll:.0f}^2)"
        moment = float(overturning_n_m(a)[0, 0])
        return (
            Step("moment at the collar", "M", formula, moment, "N m", STATICS),
            *_share_steps(setting, a, moment, True),
        )

    def told_below(a: Acting) -> tuple[Step, ...]:
        shear, moment = abs(number(a, "shear_n")), float(overturning_n_m(a)[0, 0])
        deepest = float(below_n_m(setting, a)[0, 0])
        formula = f"short free-headed pile under {shear:.0f} N and {moment:.0f} N m at the ground"
        return (
            Step("largest moment below the ground", "M max", formula, deepest, "N m", BROMS),
            *_share_steps(setting, a, deepest, False),
        )

    below = "bending with axial force and twist, steel alone"
    return (
        Part(
            "pole at the collar", "bending, axial force, shear and twist together", "N m",
            overturning_n_m, level(bending),
            lambda a: _use(setting, a, overturning_n_m(a), np.abs(a.shear_n)), rule, setting.pole.steps, told_collar,
        ),
        Part(
            "pole below the ground", below, "N m", lambda a: below_n_m(setting, a), level(bending),
            lambda a: _use(setting, a, below_n_m(setting, a), np.zeros_like(a.shear_n)), rule, setting.pole.steps, told_below,
        ),
    )  # fmt: skip


def below_n_m(setting: Setting, a: Acting) -> Floats:
    """Largest moment in the pole below the ground, never taken smaller than at the ground; second order enlarges it."""
    moment = overturning_n_m(a)
    return np.maximum(below_grade_moment_n_m(setting.pier, np.abs(a.shear_n), moment), moment)


def _share_steps(setting: Setting, a: Acting, moment: float, sheared: bool) -> tuple[Step, ...]:
    axial, twist = abs(number(a, "foot_down_n")), number(a, "twist_n_m")
    shear = abs(number(a, "shear_n")) if sheared else 0.0
    one = np.ones((1, 1))
    use = float(pole_use(setting.pole, axial * one, moment * one, shear * one, twist * one)[0, 0])
    s = setting.pole
    formula = (
        f"({axial:.0f} / {s.axial_n:.0f} + {moment:.0f} / (1 - {axial:.0f} / {s.euler_n:.0f}) / {s.bending_n_m:.0f})"
        f" + ({shear:.0f} / {s.shear_n:.0f} + {twist:.0f} / {s.torsion_n_m:.0f})^2"
    )
    return (Step("use", "U", formula, use, "", summed_by(setting)),)
