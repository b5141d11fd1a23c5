"""What tips: strongback, rails, clamps, modules, hinge ears and their welds; and what keeps the cap from turning."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from polestead.base.source import OWNER, Source
from polestead.base.working import Step
from polestead.stand.actions import Acting
from polestead.stand.parts.part import STATICS, Floats, Of, Part, level, number, one, plain, shares
from polestead.stand.setting import Setting
from polestead.strength.allowable import Allowable, en
from polestead.strength.parts import module_back, module_front
from polestead.strength.pins import (
    PinnedJoint,
    ears,
    pin_bending,
    pin_double_shear,
    pin_shear,
    pin_sheared_and_bent,
)
from polestead.strength.pole import aisc
from polestead.strength.rails import evenly_loaded
from polestead.strength.tubes import (
    tube_bending,
    tube_section,
    tube_shear,
    tube_torsion,
    tube_yield,
    turned,
)
from polestead.strength.welds import EarFoot, ear_weld, line_strength_n_m, round_weld

TUBE_H3_6 = Source("AISC 360-16", "Eq. H3-6", "memory")
TUBE_EN = Source("EN 1993-1-1:2005 6.2.1(5): the larger of bending + twist squared and bending squared + (shear + twist) squared", "docs/method/stand.md", "ours")  # fmt: skip
SQUARE, ALONG = "square to the glass", "along the glass"
BEAM = Source("a continuous beam, three moments", "docs/method/stand.md", "ours")
HOLE_OVER_M = 0.003  # hole over bolt, damage by drilling in it (AISC 360 B4.3b, from memory)
HOLE_BELOW = (
    6.0  # bolt diameters from the pole's top to the lowest bolts: common practice, no source
)
ON_PINS = ("towards_n", "down_n", "roll_n_m", "twist_n_m", "hinge_n_m")


def frame_parts(setting: Setting) -> tuple[Part, ...]:
    """All of the frame the file tells the size of; the hinge pins and ears come with the hold that loads them."""
    return (
        strongback(setting),
        *modules(setting),
        *rails(setting),
        *clamps(setting),
        *cap(setting),
        *cap_weld(setting),
        *cap_holes(setting),
    )


def unsized(setting: Setting) -> tuple[str, ...]:
    """Parts that are not summed because the file does not tell their size, in words."""
    f = setting.frame
    missing = (
        ("rails", f.rail is None), ("clamps", f.clamp_holds_n is None), ("hinge ears and bending of the pins", f.ear_thickness_m is None),
        ("welds of the ears", f.weld_leg_m is None or f.weld_length_m is None), ("knee braces under the rails", f.rail is not None and f.rail_brace_m is not None), ("the plate that is the storm hold", setting.lock is not None and setting.lock.strut is None), ("bolts or weld of the cap against turning", (f.cap_bolts is None or f.cap_bolt_m is None) and f.cap_weld_leg_m is None),
    )  # fmt: skip
    return tuple(word for word, left_out in missing if left_out)


def strongback(setting: Setting) -> Part:
    """The tube along the hinge: two cantilevers beyond the bearings, bent both ways, the worse one twisted by its own glass."""
    code, beam = setting.steel_code, setting.beam
    rule = TUBE_EN if setting.eurocode else TUBE_H3_6
    upright, lying = tube_bending(beam, code), tube_bending(turned(beam), code)
    torsion = tube_torsion(beam, code)
    by_depth, by_breadth = tube_shear(beam, code), tube_shear(turned(beam), code)
    width_m = setting.geometry.width_m
    reach_m = max((width_m - setting.mount.hinge_span_m) / 2.0, setting.mount.hinge_span_m / 2.0)
    lever_m = reach_m**2 / (2.0 * width_m)  # moment of an even load of 1 N over the whole width

    def bent(a: Acting) -> Floats:
        """Both ways, that along the glass as much more as the tube bends easier that way."""
        along = np.abs(a.along_n) * (upright.value / lying.value)
        return np.asarray(lever_m * (np.abs(a.square_n) + along))

    def sheared(a: Acting) -> Floats:
        """Share of the shear strength, of the pair of walls that has more of it."""
        return np.asarray(reach_m / width_m * np.maximum(np.abs(a.square_n) / by_depth.value, np.abs(a.along_n) / by_breadth.value))  # fmt: skip

    def use(a: Acting) -> Floats:
        bending, turned_by = bent(a) / upright.value, np.abs(a.half_turn_n_m) / torsion.value
        sideways = sheared(a) + turned_by
        if setting.eurocode:
            return np.maximum(bending + turned_by**2, bending**2 + sideways**2)
        return np.asarray(bending + sideways**2)

    def told(a: Acting) -> tuple[Step, ...]:
        square, along, turn = (abs(number(a, n)) for n in ("square_n", "along_n", "half_turn_n_m"))
        lever, part = f"{reach_m:.3f}^2 / (2 x {width_m:.3f})", f"{reach_m:.3f} / {width_m:.3f}"
        by_square, by_along = lever_m * square, lever_m * along
        v1, v2 = reach_m / width_m * square, reach_m / width_m * along
        bends = f"{by_square:.0f} / {upright.value:.0f} + {by_along:.0f} / {lying.value:.0f}"
        turns = f"{turn:.0f} / {torsion.value:.0f}"
        sideways = (
            f"(max({v1:.0f} / {by_depth.value:.0f}, {v2:.0f} / {by_breadth.value:.0f}) + {turns})^2"
        )
        share = f"{bends} + {sideways}"
        if setting.eurocode:
            share = f"max({bends} + ({turns})^2, ({bends})^2 + {sideways})"
        return (
            Step("bending square to the glass, at the hinge bearing", "M1", f"{square:.0f} x {lever}", by_square, "N m", STATICS),
            Step("bending along the glass", "M2", f"{along:.0f} x {lever}", by_along, "N m", STATICS),
            Step("shear square to the glass, at the hinge bearing", "V1", f"{square:.0f} x {part}", v1, "N", STATICS),
            Step("shear along the glass", "V2", f"{along:.0f} x {part}", v2, "N", STATICS),
            Step("use", "U", share, one(use, a), "", rule),
        )  # fmt: skip

    return Part(
        "strongback", "bending both ways, shear and twist", "N m", bent, level(upright.value), use, rule,
        (tube_yield(beam), *_that_way(upright, SQUARE), *_that_way(lying, ALONG), *torsion.steps, *_that_way(by_depth, SQUARE), *_that_way(by_breadth, ALONG)), told, ("square_n", "along_n", "half_turn_n_m"),
    )  # fmt: skip


def _that_way(allowed: Allowable, way: str) -> tuple[Step, ...]:
    """The rungs of one of two directions, each saying which."""
    return tuple(replace(step, word=f"{step.word}, {way}") for step in allowed.steps)


def _pressed(field: str) -> Of:
    return lambda a: np.asarray(np.maximum(getattr(a, field), 0.0))


def modules(setting: Setting) -> tuple[Part, ...]:
    """The worst module: pressed on its glass, lifted from behind."""
    module = setting.array.module
    test = Source("the maker's test load over 1.5", "docs/method/stand.md", "ours")

    def side(name: str, field: str, allowed: Allowable) -> Part:
        pressure = _pressed(field)

        def told(a: Acting) -> tuple[Step, ...]:
            formula = f"max({number(a, field):.0f}, 0)"
            return (Step("pressure on the worst module", "p", formula, one(pressure, a), "Pa", STATICS),)  # fmt: skip

        return plain(name, "pressure on the worst module", "Pa", pressure, allowed, test, told, (field,), "service")  # fmt: skip

    return (
        side("modules, on the glass", "front_pa", module_front(module.tested_front_pa)),
        side("modules, from behind", "back_pa", module_back(module.tested_back_pa)),
    )


def rails(setting: Setting) -> tuple[Part, ...]:
    """The outer rail as a continuous beam over the strongback and its braces, or clamped on the strongback alone."""
    f, g = setting.frame, setting.geometry
    if f.rail is None:
        return ()
    tube = tube_section(f.rail)
    allowed = tube_bending(tube, setting.steel_code)
    brace = f.rail_brace_m
    supports = (0.0,) if brace is None else (-brace, 0.0, brace)
    ends = -g.lower_m, g.upper_m
    if brace is not None and brace > min(g.lower_m, g.upper_m):
        supports = (0.0,)
    bent = evenly_loaded(*ends, supports)
    share_m = setting.rail_share_m

    def moment(a: Acting) -> Floats:
        worst = np.maximum(np.abs(a.rail_front_pa), np.abs(a.rail_back_pa))
        return np.asarray(worst * share_m * bent.largest_m2)

    def told(a: Acting) -> tuple[Step, ...]:
        front, back = abs(number(a, "rail_front_pa")), abs(number(a, "rail_back_pa"))
        over = "clamped over the strongback" if len(supports) == 1 else f"over the strongback and braces {brace:.3f} m from it"  # fmt: skip
        formula = f"max({front:.0f}, {back:.0f}) x {share_m:.3f} x {bent.largest_m2:.4f}"
        return (
            Step("moment of 1 N/m on the rail", "M / w", f"{over}, {-ends[0]:.3f} and {ends[1]:.3f} m long", bent.largest_m2, "m^2", BEAM),
            Step("bending of the outer rail", "M", formula, one(moment, a), "N m", STATICS),
        )  # fmt: skip

    source = en("1-1, 6.2.5") if setting.eurocode else aisc("F7")
    return (plain("rails", "bending of the outer rail", "N m", moment, Allowable(allowed.value, "N m", (tube_yield(tube), *allowed.steps)), source, told, ("rail_front_pa", "rail_back_pa")),)  # fmt: skip


def clamps(setting: Setting) -> tuple[Part, ...]:
    """A clamp of the worst module against the pull from behind; between two columns it holds its side of both."""
    f = setting.frame
    if f.clamp_holds_n is None:
        return ()
    wide_m, long_m = setting.module_sides_m
    holds = 2.0 if setting.array.columns > 1 else 1.0
    share_m2 = holds * wide_m * long_m / f.clamps_per_module

    def pull(a: Acting) -> Floats:
        return np.asarray(np.maximum(a.back_pa, 0.0) * share_m2)

    def told(a: Acting) -> tuple[Step, ...]:
        formula = f"{holds:g} x max({number(a, 'back_pa'):.0f}, 0) x {wide_m:.3f} x {long_m:.3f} / {f.clamps_per_module}"
        return (Step("pull on one clamp, its side of both modules" if holds > 1.0 else "pull on one clamp", "F", formula, one(pull, a), "N", STATICS),)  # fmt: skip

    given = Step("one clamp may hold", "", "", f.clamp_holds_n, "N", OWNER)
    return (
        plain("clamps", "pull on one clamp between two modules", "N", pull, Allowable(f.clamp_holds_n, "N", (given,)), OWNER, told, ("back_pa",), "service"),
    )  # fmt: skip


def cap(setting: Setting) -> tuple[Part, ...]:
    """The bolts that keep the cap from turning on the pole, each cut once at the pole's outside."""
    f = setting.frame
    if f.cap_bolts is None or f.cap_bolt_m is None:
        return ()
    bolt = pin_shear(f.cap_bolt_m, f.cap_bolt_steel, 1, setting.steel_code)
    radius_m, count = setting.pipe.outside_m / 2.0, f.cap_bolts

    def force(a: Acting) -> Floats:
        return np.asarray(a.twist_n_m / radius_m / count + np.hypot(a.towards_n, a.down_n) / count)

    def told(a: Acting) -> tuple[Step, ...]:
        twist, towards, down = (number(a, n) for n in ("twist_n_m", "towards_n", "down_n"))
        formula = f"({twist:.0f} / {radius_m:.4f} + sqrt({abs(towards):.0f}^2 + {abs(down):.0f}^2)) / {count}"
        return (Step("shear of one bolt", "V", formula, one(force, a), "N", STATICS),)

    source = en("1-8, Table 3.4") if setting.eurocode else aisc("J3.6")
    return (plain("cap bolts", "shear by twist and push", "N", force, bolt, source, told, ("twist_n_m", "towards_n", "down_n")),)  # fmt: skip


def cap_holes(setting: Setting) -> tuple[Part, ...]:
    """The pole's wall at the cap bolts: bending near its top on what two holes of each bolt leave of it."""
    f = setting.frame
    if f.cap_bolts is None or f.cap_bolt_m is None:
        return ()
    pipe = setting.pipe
    hole_m, middle_m = f.cap_bolt_m + HOLE_OVER_M, (pipe.outside_m - pipe.design_wall_m) / 2.0
    left = 1.0 - 2.0 * hole_m * pipe.design_wall_m * middle_m**2 / pipe.inertia_m4
    bending = max(left, 0.0) * setting.pole.bending_n_m
    lever_m = setting.geometry.pole_top_below_m + HOLE_BELOW * f.cap_bolt_m

    def moment(a: Acting) -> Floats:
        return np.hypot(np.abs(a.hinge_n_m) + np.abs(a.towards_n) * lever_m, a.roll_n_m)

    def told(a: Acting) -> tuple[Step, ...]:
        turn, towards, roll = (abs(number(a, n)) for n in ("hinge_n_m", "towards_n", "roll_n_m"))
        formula = f"sqrt(({turn:.0f} + {towards:.0f} x {lever_m:.3f})^2 + {roll:.0f}^2)"
        return (Step("moment at the bolts", "M", formula, one(moment, a), "N m", STATICS),)

    source = en("1-1, 6.2.2.2") if setting.eurocode else aisc("F13, holes")
    steps = (
        Step("share of the section two holes leave", "I net / I", f"1 - 2 x {hole_m:.4f} x {pipe.design_wall_m:.5f} x {middle_m:.4f}^2 / {pipe.inertia_m4:.4g}", left, "", source),
        Step("bending it may carry", "Mc", f"{left:.3f} x {setting.pole.bending_n_m:.0f}", bending, "N m", source),
    )  # fmt: skip
    return (plain("pole at the cap bolts", "bending on what the holes leave", "N m", moment, Allowable(bending, "N m", steps), source, told, ("hinge_n_m", "towards_n", "roll_n_m")),)  # fmt: skip


def cap_weld(setting: Setting) -> tuple[Part, ...]:
    """The fillet all round between cap and pole: bending, twist and push on a metre of weld."""
    leg_m = setting.frame.cap_weld_leg_m
    if leg_m is None:
        return ()
    allowed, step = line_strength_n_m(leg_m, setting.mount.pole.material, setting.steel_code)
    line = round_weld(setting.pipe.outside_m / 2.0)
    below_m = setting.geometry.pole_top_below_m

    def force(a: Acting) -> Floats:
        bent = np.hypot(np.abs(a.hinge_n_m) + np.abs(a.towards_n) * below_m, a.roll_n_m) / line.bending_m2  # fmt: skip
        along = np.abs(a.twist_n_m) / line.polar_m2 + np.abs(a.towards_n) / line.length_m
        return np.hypot(bent + np.abs(a.down_n) / line.length_m, along)

    def told(a: Acting) -> tuple[Step, ...]:
        turn, towards, roll, twist, down = (abs(number(a, n)) for n in ("hinge_n_m", "towards_n", "roll_n_m", "twist_n_m", "down_n"))  # fmt: skip
        formula = (
            f"sqrt((sqrt(({turn:.0f} + {towards:.0f} x {below_m:.3f})^2 + {roll:.0f}^2) / {line.bending_m2:.5f} + {down:.0f} / {line.length_m:.4f})^2"
            f" + ({twist:.0f} / {line.polar_m2:.5f} + {towards:.0f} / {line.length_m:.4f})^2)"
        )
        return (Step("force on a metre of weld", "f", formula, one(force, a), "N/m", STATICS),)

    return (
        plain("weld of the cap", "bending, twist and push on the fillet all round", "N/m", force, Allowable(allowed, "N/m", (step,)), step.source, told, ON_PINS),
    )  # fmt: skip


def pin_couple_n(setting: Setting, a: Acting) -> Floats:
    """Force of the twist and the roll on each hinge bearing: a couple over their distance."""
    couple = a.once("couple", lambda: np.hypot(a.roll_n_m, a.twist_n_m))
    return np.asarray(couple / setting.mount.hinge_span_m)


def joint_of(setting: Setting) -> PinnedJoint | None:
    """The hinge pin between its ears; None where the file does not tell the ears."""
    f, mount = setting.frame, setting.mount
    if f.ear_thickness_m is None:
        return None
    return PinnedJoint(
        mount.hinge_pin_m, mount.hinge_pin_steel, f.ear_thickness_m, f.middle_thickness_m or 2.0 * f.ear_thickness_m,
        f.ear_gap_m, edge_m(setting), f.ear_steel,
    )  # fmt: skip


def edge_m(setting: Setting) -> float:
    """From the middle of the hole to the ear's nearest edge."""
    return setting.frame.ear_edge_m or 2.0 * setting.mount.hinge_pin_m


def foot_of(setting: Setting) -> EarFoot | None:
    """The weld under one ear; None where the file does not tell it."""
    f = setting.frame
    if f.weld_leg_m is None or f.weld_length_m is None:
        return None
    return EarFoot(
        f.weld_leg_m, f.weld_length_m, f.ear_height_m or 2.0 * edge_m(setting), f.ear_steel
    )


def hinge_force(setting: Setting, arm_m: Of) -> Of:
    """Force on the worse bearing: half the force, the couple of twist and roll, and half of what the hold pulls with.

    Args:
        setting: The mount.
        arm_m: Lever of the hold.
    """

    def force(a: Acting) -> Floats:
        straight = np.hypot(a.towards_n, a.down_n) / 2.0
        hold = shares(np.abs(a.hinge_n_m), arm_m(a)) / 2.0
        return np.asarray(straight + pin_couple_n(setting, a) + hold)

    return force


def hinge(setting: Setting, arm_m: Of) -> tuple[Part, ...]:
    """Hinge pins in shear and bending, their ears and the welds of those, under a hold of a given lever.

    Args:
        setting: The mount.
        arm_m: Lever of the hold.
    """
    code, force = setting.steel_code, hinge_force(setting, arm_m)
    shear = pin_double_shear(setting.mount.hinge_pin_m, setting.mount.hinge_pin_steel, code)

    def told(a: Acting) -> tuple[Step, ...]:
        towards, down, roll, twist, turn = (number(a, n) for n in ON_PINS)
        arm = one(arm_m, a)
        formula = (
            f"sqrt({abs(towards):.0f}^2 + {abs(down):.0f}^2) / 2 + sqrt({roll:.0f}^2 + {twist:.0f}^2) / {setting.mount.hinge_span_m:.3f}"
            f" + {abs(turn):.0f} / {arm:.3f} / 2"
        )
        return (Step("force on the worse bearing", "V", formula, one(force, a), "N", STATICS),)

    def part(name: str, what: str, allowed: Allowable) -> Part:
        return plain(name, what, "N", force, allowed, allowed.steps[-1].source, told, ON_PINS)

    parts = [part("hinge pins", "shear with twist and roll over the hinge span", shear)]
    joint, foot = joint_of(setting), foot_of(setting)
    if joint is not None:
        # the Eurocode sums shear and bending of a pin; AISC checks them apart
        bent = pin_sheared_and_bent(joint) if code == "EN" else pin_bending(joint)
        parts.append(part("hinge pins, bent", "bending between the ears", bent))
        parts.append(part("hinge ears", "bearing and tearing at the hole", ears(joint, code)))
    if foot is not None:
        parts.append(part("welds of the hinge ears", "fillets of both ears", ear_weld(foot, code)))
    return tuple(parts)
