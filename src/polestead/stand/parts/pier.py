"""The pier in its soil: overturning, pressure, pull and twist; and its concrete below the pole's foot."""

from __future__ import annotations

from dataclasses import replace
from math import pi

import numpy as np

from polestead.base.source import COMMON_PRACTICE, Source
from polestead.base.working import Step
from polestead.footing.concrete import (
    LINE,
    deepest_moment_at_m,
    moment_at_foot_n_m,
    pressing_pa,
)
from polestead.footing.eurocode import SOURCE, bearing_resistance_pa
from polestead.footing.pier import (
    CAP_M,
    CONCRETE_N_M3,
    DOUBLING,
    IBC,
    IBC_HELD,
    TABLE,
    Pier,
    bearing_pa,
    needed_depth_m,
    skin_of,
    twist_allowable_n_m,
    uplift_allowable_n,
)
from polestead.footing.ultimate import BROMS, FULL, SAFETY, ultimate_n
from polestead.loads.combinations import LoadSet
from polestead.stand.actions import Acting
from polestead.stand.parts.part import STATICS, Floats, Of, Part, level, number, one, plain, shares
from polestead.stand.parts.pole import (
    below_n_m,
    deepest_moment_step,
    deepest_step,
    enlarged_n_m,
    overturning_n_m,
    shaft_bending_n_m,
)
from polestead.stand.setting import Setting

LEANING = Source("AISC 360-16", "Appendix 8, second order by 1/(1 - 1.6 P/Pe)", "memory")
SKIN = Source("skin below the useless top, over 1.5", "docs/method/footing.md", "ours")
HEAVY = 1.35  # gamma_G on the pier's own weight
NINE_TENTHS = 0.9  # of what holds down, EN 1990 set A (EQU)


def pier_parts(setting: Setting) -> tuple[Part, ...]:
    """The pier in its soil by the rules of the basis, and the concrete below the pole's foot."""
    soil = _eurocode(setting) if setting.eurocode else _allowable(setting)
    return (*soil, _foot(setting), _held_in_concrete(setting))


def _allowable(setting: Setting) -> tuple[Part, ...]:
    pier = setting.pier
    weight = Source(setting.site.basis, "2.4.1 (7), 0.6 of the pier's weight", "memory")
    return (
        _overturning(setting),
        _all_the_soil(setting, pier, SAFETY, "structure", "pier in giving soil"),
        _pressure(pier, (level(pier.bearing_pa), ()), TABLE, "soil under the pier", "structure"),
        _pull(pier, uplift_allowable_n(pier), weight, f"0.6 x {pier.weight_n:.0f}"),
        _turning(pier, setting.footing.twist_bars, 1.0, "structure"),
    )  # fmt: skip


def _eurocode(setting: Setting) -> tuple[Part, ...]:
    """Design approach 1: combination 1 with the soil as it is, combination 2 with weakened soil and lesser loads."""
    pier, weak = setting.pier, setting.weak_pier
    parts: list[Part] = []
    both: tuple[tuple[Pier, LoadSet, str, str], ...] = (
        (pier, "structure", "pier in giving soil", "soil under the pier"),
        (weak, "soil", "pier in weak soil", "weak soil under the pier"),
    )
    for soil, loads, name, under in both:
        parts.append(_all_the_soil(setting, soil, 1.0, loads, name))
        bears, step = bearing_resistance_pa(soil)
        parts.append(_pressure(soil, (level(bears), (*soil.steps, step)), step.source, under, loads, HEAVY if loads == "structure" else 1.0))  # fmt: skip
    held = Source("EN 1990:2002", "Table A1.2(A), .9 of what holds", "memory")
    still_n = (
        setting.array_weight_n + setting.pole_weight_n
    )  # in the pull with its whole weight, holds with .9 of it
    parts.append(
        _pull(
            pier,
            NINE_TENTHS * pier.weight_n - (1.0 - NINE_TENTHS) * still_n,
            held,
            f"0.9 x {pier.weight_n:.0f} - 0.1 x {still_n:.0f}",
        )
    )
    parts.append(_turning(weak, setting.footing.twist_bars, 1.0, "soil"))
    return tuple(parts)


def _overturning(setting: Setting) -> Part:
    pier, held = setting.pier, setting.footing.slab_at_ground
    rule = IBC_HELD if held else IBC

    def depth(a: Acting) -> Floats:
        return needed_depth_m(pier, np.abs(a.shear_n), enlarged_n_m(setting, a), held)

    def told(a: Acting) -> tuple[Step, ...]:
        shear, moment = abs(number(a, "shear_n")), one(lambda b: enlarged_n_m(setting, b), a)
        down = max(number(a, "foot_down_n"), 0.0)
        still = one(overturning_n_m, a)
        lean = f"{setting.pole.lean:g} x " if setting.pole.lean > 1.0 else ""
        other = replace(pier, lateral_pa_m=pier.lateral_pa_m * (2.0 if pier.times == 1.0 else 0.5))
        beside = float(needed_depth_m(other, np.array(shear), np.array(moment), held))
        word = "not doubled" if pier.times == 2.0 else "doubled, were half an inch at the ground allowed"  # fmt: skip
        return (
            Step("moment about the ground line and roll, square to each other", "M", f"sqrt({abs(number(a, 'base_n_m')):.0f}^2 + {number(a, 'roll_n_m'):.0f}^2)", still, "N m", STATICS),
            Step("second order in it, the pole leaning", "M'", f"{still:.0f} / (1 - {lean}{down:.0f} / {setting.pole.euler_n:.0f})", moment, "N m", LEANING),
            Step(f"beside it: depth needed with the soil value {word}", "D'", _depth_formula(other, held, shear, moment, beside), beside, "m", DOUBLING),
            Step("depth needed, put back into its own equation", "D", _depth_formula(pier, held, shear, moment, one(depth, a)), one(depth, a), "m", rule),
        )  # fmt: skip

    return plain("pier in the soil", "deep enough against overturning", "m", depth, (level(pier.depth_m), pier.lateral_steps), rule, told)  # fmt: skip


def _depth_formula(pier: Pier, held: bool, shear: float, moment: float, depth_m: float) -> str:
    """The equation with the found depth put back in where it asks for the pressure: it must give itself."""
    top, p, b = pier.effective_m, max(shear, 1e-6), pier.diameter_m
    embedded = min(depth_m - top, CAP_M)
    if held:
        pressed = pier.lateral_pa_m * embedded
        return f"{top:.4f} + sqrt(4.25 x {moment:.0f} / ({pressed:.0f} x {b:.4f}))"
    pressed = pier.lateral_pa_m * embedded / 3.0
    a = 2.34 * p / (pressed * b)
    high = moment / p + top
    s1 = f"A = 2.34 x {p:.0f} / ({pier.lateral_pa_m:.0f} x {embedded:.4f} / 3 x {b:.4f})"
    return f"{top:.4f} + {a:.4f} / 2 x (1 + sqrt(1 + 4.36 x {high:.4f} / {a:.4f})); {s1}, h = {moment:.0f} / {p:.0f} + {top:.4f}"


def _all_the_soil(setting: Setting, pier: Pier, safety: float, loads: LoadSet, name: str) -> Part:
    """The horizontal force against that at which all the soil gives, Broms' or the full statics', the lesser."""

    def lever(a: Acting) -> Floats:
        return np.asarray(enlarged_n_m(setting, a) / np.maximum(np.abs(a.shear_n), 1e-6))

    def force(a: Acting) -> Floats:
        return np.abs(a.shear_n)

    def holds(a: Acting) -> Floats:
        return ultimate_n(pier, lever(a)) / safety

    def use(a: Acting) -> Floats:
        # with hardly any force the moment alone counts: both sides go with the force
        return shares(np.maximum(force(a), 1e-6), holds(a))

    def told(a: Acting) -> tuple[Step, ...]:
        e, holding = one(lever, a), one(holds, a) * safety
        clay = f"c {pier.undrained_pa:.0f} Pa" if pier.undrained_pa > 0.0 else f"Kp {pier.passive:.3f}, g {pier.soil_n_m3:.0f} N/m3"  # fmt: skip
        formula = f"b {pier.diameter_m:.3f} m, L {pier.depth_m:.3f} m less {pier.effective_m:.3f} m, e {e:.3f} m, {clay}"
        turn = one(lambda b: enlarged_n_m(setting, b), a)
        return (
            Step("force over the ground at, second order in it", "e", f"{turn:.0f} / {one(force, a):.0f}", e, "m", STATICS),
            Step("force at which all the soil gives", "Hu", formula, holding, "N", BROMS if pier.undrained_pa > 0.0 else FULL),
            Step("use", "U", f"{one(force, a):.0f} / ({holding:.0f} / {safety:g})", one(use, a), "", STATICS),
        )  # fmt: skip

    source = SOURCE if loads == "soil" else BROMS
    return Part(name, "horizontal force", "N", force, holds, use, source, pier.steps, told, loads=loads)  # fmt: skip


def _pressure(
    pier: Pier,
    allowed: tuple[Of, tuple[Step, ...]],
    source: Source,
    name: str,
    loads: LoadSet,
    heavy: float = 1.0,
) -> Part:
    """Weight of all, the pier's own with its factor, on the pier's foot."""
    more_n = (heavy - 1.0) * pier.weight_n

    def pressure(a: Acting) -> Floats:
        return bearing_pa(pier, np.maximum(a.foot_down_n, 0.0) + more_n)

    def told(a: Acting) -> tuple[Step, ...]:
        down = max(number(a, "foot_down_n"), 0.0)
        formula = (
            f"({down:.0f} + {heavy:g} x {pier.weight_n:.0f}) / (pi x {pier.diameter_m:.3f}^2 / 4)"
        )
        return (weight_step(pier), Step("pressure under the pier", "p", formula, one(pressure, a), "Pa", STATICS))  # fmt: skip

    return plain(name, "pressure", "Pa", pressure, allowed, source, told, loads=loads)


def weight_step(pier: Pier) -> Step:
    """The pier's weight with its numbers; standing water takes its own weight off."""
    whole = f"{CONCRETE_N_M3:.0f} x pi x {pier.diameter_m:.4f}^2 / 4 x ({pier.depth_m:.4f} + {pier.collar_m:.4f})"
    dry_n = CONCRETE_N_M3 * pi * pier.diameter_m**2 / 4.0 * (pier.depth_m + pier.collar_m)
    floats = f" - {dry_n - pier.weight_n:.0f}" if dry_n - pier.weight_n > 1.0 else ""
    word = "weight of the pier and its collar" + (", less the water it displaces" if floats else "")
    return Step(word, "Wp", f"{whole}{floats}", pier.weight_n, "N", COMMON_PRACTICE)


def _pull(pier: Pier, holds_n: float, source: Source, formula: str) -> Part:
    def pull(a: Acting) -> Floats:
        return np.maximum(-a.foot_down_n, 0.0)

    def told(a: Acting) -> tuple[Step, ...]:
        return (Step("pull left over weight", "F", f"max(-({number(a, 'foot_down_n'):.0f}), 0)", one(pull, a), "N", STATICS),)  # fmt: skip

    return plain("pier pulled out", "pull", "N", pull, (level(holds_n), (weight_step(pier), Step("what holds it down", "Rh", formula, holds_n, "N", source))), source, told)  # fmt: skip


def _turning(pier: Pier, bars: bool, share: float, loads: LoadSet) -> Part:
    allowed = share * twist_allowable_n_m(pier, bars)

    below_m = max(pier.depth_m - pier.effective_m, 0.0)
    skin, rubs = skin_of(pier, pier.effective_m + below_m / 2.0)
    word = "twist its skin may hold" if bars else "twist its skin may hold, no twist bars"
    formula = (
        f"{skin:.0f} x pi x {pier.diameter_m:.4f} x {below_m:.4f} x {pier.diameter_m:.4f} / 2 / 1.5"
        if bars
        else ""
    )
    holds = Step(word, "Tc", formula, allowed, "N m", SKIN)

    def told(a: Acting) -> tuple[Step, ...]:
        return (Step("twist about the pole", "T", "", number(a, "twist_n_m"), "N m", STATICS),)  # fmt: skip

    return plain(
        "pier against turning", "twist", "N m", lambda a: np.asarray(a.twist_n_m), (level(allowed), (*pier.steps, *rubs, holds)), SKIN, told, loads=loads
    )  # fmt: skip


def _held_in_concrete(setting: Setting) -> Part:
    """The concrete round the pole: it holds moment and push by pressing, the most at its rim.

    p = V / (d L) + 6 (M + V L / 2) / (d L^2) over the pole's whole length in the pier, no soil helping.
    """
    d, length_m, strength = setting.pipe.outside_m, setting.footing.pole_depth_m, setting.footing.concrete_pa  # fmt: skip
    allowed, step = pressing_pa(strength, setting.eurocode)

    def pressure(a: Acting) -> Floats:
        push = np.abs(a.shear_n)
        turn = overturning_n_m(a) + push * length_m / 2.0
        return np.asarray(push / (d * length_m) + 6.0 * turn / (d * length_m**2))

    def told(a: Acting) -> tuple[Step, ...]:
        push, moment = abs(number(a, "shear_n")), one(overturning_n_m, a)
        formula = f"{push:.0f} / ({d:.4f} x {length_m:.3f}) + 6 x ({moment:.0f} + {push:.0f} x {length_m:.3f} / 2) / ({d:.4f} x {length_m:.3f}^2)"
        return (Step("pressure of the pole on the concrete's rim", "p", formula, one(pressure, a), "Pa", STATICS),)  # fmt: skip

    return plain("pole in its concrete", "pressure on the concrete round it", "Pa", pressure, (level(allowed), (step,)), step.source, told)  # fmt: skip


def _foot(setting: Setting) -> Part:
    """Plain concrete where the pole has ended; where it does not do, a cage must reach past the pole's foot."""
    pier = setting.pier
    allowed, step = shaft_bending_n_m(setting)
    caged = setting.footing.cage_bars is not None
    what = "bending, the cage carries it" if caged else "bending as plain concrete, no cage"

    def moment(a: Acting) -> Floats:
        return moment_at_foot_n_m(pier, below_n_m(setting, a), deepest_moment_at_m(pier, a.shear_n))

    def told(a: Acting) -> tuple[Step, ...]:
        largest, at = one(lambda b: below_n_m(setting, b), a), one(lambda b: deepest_moment_at_m(pier, b.shear_n), a)  # fmt: skip
        formula = f"{largest:.0f} x max(1 - s, 1 - 1.5 s^3), s = ({pier.pole_depth_m:.3f} - {at:.3f}) / ({pier.depth_m:.3f} - {at:.3f})"
        shear, turn = abs(number(a, "shear_n")), one(overturning_n_m, a)
        return (
            deepest_step(pier, shear, at),
            deepest_moment_step(pier, shear, turn, at, largest),
            Step("moment left at the pole's foot", "M", formula, one(moment, a), "N m", LINE),
        )

    return plain("concrete under the pole", what, "N m", moment, (level(allowed), (step,)), step.source, told)  # fmt: skip
