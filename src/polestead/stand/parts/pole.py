"""The pole where it leaves the concrete, and where the soil bends it most."""

from __future__ import annotations

from math import pi

import numpy as np

from polestead.base.source import Source
from polestead.base.working import Step
from polestead.footing.concrete import (
    cage_bending_n_m,
    deepest_moment_at_m,
    plain_bending_n_m,
)
from polestead.footing.pier import Pier, below_grade_moment_n_m
from polestead.footing.ultimate import BROMS
from polestead.stand.actions import Acting
from polestead.stand.parts.part import STATICS, Floats, Part, level, number
from polestead.stand.setting import Setting
from polestead.strength.pole import pole_use

BOND_PA = 0.30e6
USUAL_BAR_M = 0.0127
HANDED = Source("pole to two diameters down, from there pole or concrete alone", "docs/method/footing.md", "ours")  # fmt: skip
BOND_EN = Source("EN 1994-1-1:2004", "Table 6.6, .30 MPa", "memory")
BOND = Source("EN 1994-1-1:2004", "Table 6.6, .30 MPa, over 1.5 for the allowable format", "memory")
H3_6 = Source("AISC 360-16", "Eq. H3-6, second order by 1/(1 - 1.6 P/Pe)", "memory")
SUMMED_EN = Source("EN 1993-1-1:2005 6.2 and 6.3 summed in a straight line, shear and twist squared", "docs/method/stand.md", "ours")  # fmt: skip


def summed_by(setting: Setting) -> Source:
    """The rule by which the shares of a member are added."""
    return SUMMED_EN if setting.eurocode else H3_6


def overturning_n_m(a: Acting) -> Floats:
    """Base moment and roll together, square to each other [N m]."""
    return a.once("overturning", lambda: np.hypot(a.base_n_m, a.roll_n_m))


def enlarged_n_m(setting: Setting, a: Acting) -> Floats:
    """Base moment enlarged for the array's weight leaning with the pole, 1 / (1 - P / Pe); P 1.6 times itself under AISC."""
    push = setting.pole.lean * np.maximum(a.foot_down_n, 0.0)
    share = np.clip(push / setting.pole.euler_n, 0.0, 0.99)
    return np.asarray(overturning_n_m(a) / (1.0 - share))


def _use(setting: Setting, a: Acting, moment: Floats, shear: Floats, twist: Floats) -> Floats:
    return pole_use(setting.pole, np.abs(a.foot_down_n), moment, shear, twist)


def twist_left_n_m(setting: Setting, a: Acting, depth_m: Floats | float) -> Floats:
    """Twist left in the steel at a depth: what the bond above has not passed to the concrete.

    Bond on the pole's outside from the ground down, tau 2 pi r^2 z; none where no twist bars tie the two.
    Source: statics; tau .30 MPa for steel cast round with concrete (EN 1994-1-1 Table 6.6), over 1.5 in allowable format
    (both from memory).
    """
    passed = bond_pa(setting) * 2.0 * pi * (setting.pipe.outside_m / 2.0) ** 2 * np.asarray(depth_m)
    return np.maximum(a.twist_n_m - passed * setting.footing.twist_bars, 0.0)


def bond_pa(setting: Setting) -> float:
    """Bond between pole and pier."""
    return BOND_PA if setting.eurocode else BOND_PA / 1.5


def pole_parts(setting: Setting) -> tuple[Part, ...]:
    """The pole at the collar and below the ground."""
    bending, summed = setting.pole.bending_n_m, summed_by(setting)

    def told_collar(a: Acting) -> tuple[Step, ...]:
        base, roll = number(a, "base_n_m"), number(a, "roll_n_m")
        formula = f"sqrt({abs(base):.0f}^2 + {roll:.0f}^2)"
        moment = float(overturning_n_m(a)[0, 0])
        return (
            Step("moment at the collar", "M", formula, moment, "N m", STATICS),
            *_share_steps(setting, a, moment, abs(number(a, "shear_n")), number(a, "twist_n_m")),
        )

    def told_below(a: Acting) -> tuple[Step, ...]:
        shear, moment = abs(number(a, "shear_n")), float(overturning_n_m(a)[0, 0])
        whole, handed = (float(of(setting, a)[0, 0]) for of in (below_n_m, handed_over_n_m))
        at_m = float(deepest_moment_at_m(setting.pier, np.array(shear)))
        concrete, step = shaft_bending_n_m(setting)
        to_there, alone, bears = (float(use[0, 0]) for use in _below_uses(setting, a))
        left = [float(twist_left_n_m(setting, a, z)[0, 0]) for z in (handing_over_m(setting), at_m)]
        tied = "" if setting.footing.twist_bars else "0 x "
        rule = BOND_EN if setting.eurocode else BOND
        bond = f"max({number(a, 'twist_n_m'):.0f} - {tied}{bond_pa(setting):.3g} x 2 pi x {setting.pipe.outside_m / 2.0:.4f}^2 x "
        return (
            *_deepest_steps(setting, shear, moment, at_m, whole),
            Step("moment two diameters down", "M 2d", f"min({moment:.0f} + {shear:.0f} x {handing_over_m(setting):.3f}, {whole:.0f})", handed, "N m", STATICS),
            Step("twist left in the steel there", "T 2d", f"{bond}{handing_over_m(setting):.3f}, 0)", left[0], "N m", rule),
            Step("steel alone to there", "U1", _shares(setting, a, handed, shear, left[0]), to_there, "", summed_by(setting)),
            Step("twist left in the steel at the largest moment", "T max", f"{bond}{at_m:.3f}, 0)", left[1], "N m", rule),
            Step("steel alone", "U2", _shares(setting, a, whole, 0.0, left[1]), alone, "", summed_by(setting)),
            step,
            Step("concrete alone", "U3", f"{whole:.0f} / {concrete:.0f}", bears, "", HANDED),
            Step("use", "U", f"max(U1, min(U2, U3)) = max({to_there:.4f}, min({alone:.4f}, {bears:.4f}))", max(to_there, min(alone, bears)), "", HANDED),
        )  # fmt: skip

    below = "steel alone to two diameters down, from there steel or concrete"
    return (
        Part(
            "pole at the collar", "bending, axial force, shear and twist together", "N m",
            overturning_n_m, level(bending),
            lambda a: _use(setting, a, overturning_n_m(a), np.abs(a.shear_n), np.asarray(a.twist_n_m)),
            summed, setting.pole.steps, told_collar,
        ),
        Part(
            "pole below the ground", below, "N m", lambda a: below_n_m(setting, a), level(bending),
            lambda a: _below_use(setting, a), HANDED, setting.pole.steps, told_below,
        ),
    )  # fmt: skip


def below_n_m(setting: Setting, a: Acting) -> Floats:
    """Largest moment in the pole below the ground, never taken smaller than at the ground; second order enlarges it."""
    moment = overturning_n_m(a)
    return np.maximum(below_grade_moment_n_m(setting.pier, np.abs(a.shear_n), moment), moment)


def handing_over_m(setting: Setting) -> float:
    """Depth by which bearing between pole and concrete has handed the moment over: two diameters, ours."""
    return 2.0 * setting.pipe.outside_m


def handed_over_n_m(setting: Setting, a: Acting) -> Floats:
    """Moment in the pole at that depth; no soil helps above it."""
    there = overturning_n_m(a) + np.abs(a.shear_n) * handing_over_m(setting)
    return np.minimum(there, below_n_m(setting, a))


def shaft_bending_n_m(setting: Setting) -> tuple[float, Step]:
    """Bending the concrete shaft may carry: its cage, or plain."""
    pier, footing = setting.pier, setting.footing
    if footing.cage_bars is None:
        return plain_bending_n_m(pier.diameter_m, footing.concrete_pa, setting.eurocode)
    bar_m = footing.cage_bar_m or USUAL_BAR_M
    return cage_bending_n_m(pier.diameter_m, footing.cage_bars, bar_m, setting.eurocode)


def _below_uses(setting: Setting, a: Acting) -> tuple[Floats, Floats, Floats]:
    """Steel alone to where it hands over, all the shear in it; steel alone at the largest moment, where there is none; concrete alone there."""
    whole, none = below_n_m(setting, a), np.zeros_like(a.shear_n)
    deep = deepest_moment_at_m(setting.pier, np.abs(a.shear_n))
    return (
        _use(setting, a, handed_over_n_m(setting, a), np.abs(a.shear_n), twist_left_n_m(setting, a, handing_over_m(setting))),
        _use(setting, a, whole, none, twist_left_n_m(setting, a, deep)),
        whole / shaft_bending_n_m(setting)[0],
    )  # fmt: skip


def _below_use(setting: Setting, a: Acting) -> Floats:
    to_there, alone, concrete = _below_uses(setting, a)
    return np.maximum(to_there, np.minimum(alone, concrete))


def _share_steps(
    setting: Setting, a: Acting, moment: float, shear: float, twist: float
) -> tuple[Step, ...]:
    axial = abs(number(a, "foot_down_n"))
    one = np.ones((1, 1))
    use = float(pole_use(setting.pole, axial * one, moment * one, shear * one, twist * one)[0, 0])
    return (Step("use", "U", _shares(setting, a, moment, shear, twist), use, "", summed_by(setting)),)  # fmt: skip


def _shares(setting: Setting, a: Acting, moment: float, shear: float, twist: float) -> str:
    """The sum of ``pole_use`` with its numbers; shear is left out of it where there is none."""
    axial, s = abs(number(a, "foot_down_n")), setting.pole
    lean = f"{s.lean:g} x " if s.lean > 1.0 else ""
    sideways = f"{shear:.0f} / {s.shear_n:.0f} + " if shear else ""
    return (
        f"({axial:.0f} / {s.axial_n:.0f} + {moment:.0f} / (1 - {lean}{axial:.0f} / {s.euler_n:.0f}) / {s.bending_n_m:.0f})"
        f" + ({sideways}{twist:.0f} / {s.torsion_n_m:.0f})^2"
    )


def deepest_step(pier: Pier, shear: float, at_m: float) -> Step:
    """How deep the largest moment stands, with its numbers (``deepest_moment_at_m``)."""
    b = f"{pier.diameter_m:.4f}"
    formula = f"{pier.effective_m:.4f} + 0.82 x sqrt({shear:.0f} / ({pier.soil_n_m3:.0f} x {pier.passive:.4f} x {b}))"
    if pier.undrained_pa > 0.0:
        formula = f"max({pier.effective_m:.4f}, 1.5 x {b}) + {shear:.0f} / (9 x {pier.undrained_pa:.0f} x {b})"
    return Step("depth of the largest moment below the ground", "z max", formula, at_m, "m", BROMS)


def _deepest_steps(
    setting: Setting, shear: float, moment: float, at_m: float, whole: float
) -> tuple[Step, ...]:
    pier = setting.pier
    return deepest_step(pier, shear, at_m), deepest_moment_step(pier, shear, moment, at_m, whole)


def deepest_moment_step(pier: Pier, shear: float, moment: float, at_m: float, whole: float) -> Step:
    """The largest moment below the ground of a short free-headed pile, with its numbers (``below_grade_moment_n_m``)."""
    start, share = pier.effective_m, "2 / 3"
    if pier.undrained_pa > 0.0:
        start, share = max(start, 1.5 * pier.diameter_m), "1 / 2"
    formula = f"{moment:.0f} + {shear:.0f} x ({start:.4f} + {share} x ({at_m:.4f} - {start:.4f}))"
    return Step("largest moment below the ground", "M max", formula, whole, "N m", BROMS)
