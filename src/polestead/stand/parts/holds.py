"""What keeps it from turning about its hinge: storm hold, prop, rod alone, rod while moving."""

from __future__ import annotations

import numpy as np

from polestead.base.source import OWNER, Source
from polestead.base.working import Step
from polestead.homestead.model import Lock
from polestead.loads.combinations import LoadSet
from polestead.mount.linkage import rod_arm_m
from polestead.stand.actions import Acting
from polestead.stand.parts.frame import hinge, pin_couple_n
from polestead.stand.parts.part import STATICS, Floats, Of, Part, level, number, one, plain, shares
from polestead.stand.setting import Setting
from polestead.strength.allowable import Allowable, en
from polestead.strength.parts import rod_push
from polestead.strength.pins import pin_double_shear
from polestead.strength.pole import aisc
from polestead.strength.tubes import strut_push, tube_section, tube_yield

HOLDING_SHARE = 1.0 / 1.5  # of the maker's static rating, where no safety-rated load is stated
MOVING_SHARE = 0.8  # of the maker's moving rating
RUSTY = 0.4  # friction of a dry, rusty pin
RATING = Source("the maker's holding rating over 1.5", "docs/method/stand.md", "ours")
MOVING_RATING = Source("0.8 of the maker's moving rating", "docs/method/stand.md", "ours")
EULER = Source("Euler over 3, the whole stroke out of a stiff tube", "docs/method/stand.md", "ours")


def rod_lever_m(setting: Setting) -> Of:
    """Size of the rod's lever at each tilt; nothing without a drive."""

    def lever(a: Acting) -> Floats:
        arm = np.abs(_signed_lever(setting, a))
        return np.broadcast_to(arm, a.values.shape[1:])

    return lever


def _signed_lever(setting: Setting, a: Acting) -> Floats:
    if setting.drive is None:
        return np.zeros_like(a.tilt_deg)
    return rod_arm_m(setting.drive, a.tilt_deg)


def locked_parts(setting: Setting) -> tuple[Part, ...]:
    """The storm hold and the hinge under it."""
    if setting.lock is None:
        message = "no storm hold"
        raise ValueError(message)
    return held_by(setting, setting.lock, "storm hold")


def prop_parts(setting: Setting) -> tuple[Part, ...]:
    """The loose prop and the hinge under it."""
    if setting.prop is None:
        message = "no prop"
        raise ValueError(message)
    return held_by(setting, setting.prop, "prop")


def held_by(setting: Setting, hold: Lock, name: str) -> tuple[Part, ...]:
    """Hinge, pin and strut of a hold with one lever at every tilt.

    Args:
        setting: The mount.
        hold: Storm hold or prop.
        name: In words.
    """
    arm, code = level(hold.arm_m), setting.steel_code
    force = _hold_force(arm)
    pin = pin_double_shear(hold.pin_diameter_m, hold.pin_steel, code)
    parts = [*hinge(setting, arm), _hold(f"{name} pin", "shear", arm, force, pin)]
    parts.append(_hold(f"strongback at the {name}", "pin's bearing on its walls", arm, force, wall_bearing(setting, hold)))  # fmt: skip
    if hold.strut is not None and hold.strut_length_m is not None:
        strut = strut_push(tube_section(hold.strut), hold.strut_length_m, code)
        parts.append(_hold(f"{name} strut", "push", arm, force, strut))
    return tuple(parts)


def wall_bearing(setting: Setting, hold: Lock) -> Allowable:
    """Force a pin through both walls of the strongback may press on them with; the hole far from any edge.

    Source: AISC 360 J7, 1.8 Fy d t over 2.0 a wall; EN 1993-1-8 Table 3.10, 1.5 t d fy (both from memory).
    """
    wall_m, fy, d = setting.beam.design_wall_m, setting.beam.yield_pa, hold.pin_diameter_m
    each = 1.5 * wall_m * d * fy if setting.eurocode else 1.8 * fy * d * wall_m / 2.0
    formula = f"2 x {'1.5' if setting.eurocode else '1.8 / 2'} x {wall_m:.5f} x {d:.4f} x {fy:.4g}"
    source = en("1-8, Table 3.10") if setting.eurocode else aisc("J7")
    return Allowable(2.0 * each, "N", (tube_yield(setting.beam), Step("bearing of the pin on two walls", "Rc", formula, 2.0 * each, "N", source),))  # fmt: skip


def _hold_force(arm_m: Of) -> Of:
    """The hinge moment over a lever."""
    return lambda a: shares(np.abs(a.hinge_n_m), arm_m(a))


def _hold(
    name: str, what: str, arm_m: Of, force: Of, allowed: Allowable, maker: Source | None = None
) -> Part:
    """A part that carries the hinge moment over a lever; what a maker rates is set against loads as they are."""

    def told(a: Acting) -> tuple[Step, ...]:
        formula = f"{abs(number(a, 'hinge_n_m')):.0f} / {one(arm_m, a):.3f}"
        return (Step("force in the hold", "F", formula, one(force, a), "N", STATICS),)

    source = maker or allowed.steps[-1].source
    loads: LoadSet = "structure" if maker is None else "service"
    return plain(name, what, "N", force, allowed, source, told, ("hinge_n_m",), loads)


def rod_parts(setting: Setting) -> tuple[Part, ...]:
    """The actuator holding still on its rod alone, and the hinge under it."""
    if setting.drive is None:
        message = "no drive"
        raise ValueError(message)
    rating, arm = setting.drive.holding_force_n, rod_lever_m(setting)
    still = Step("may hold", "F", f"{rating:.0f} / 1.5", HOLDING_SHARE * rating, "N", RATING)
    given = Step("maker's holding rating", "", "", rating, "N", OWNER)
    allowed = Allowable(HOLDING_SHARE * rating, "N", (given, still))
    return (
        *hinge(setting, arm),
        _hold("actuator holding", "force along the rod", arm, _hold_force(arm), allowed, RATING),
        _pushed_rod(setting, lambda a: np.zeros(a.values.shape[1:])),
    )


def friction_n_m(setting: Setting, a: Acting) -> Floats:
    """Moment of rusty friction on the hinge pins [N m]."""
    force = np.hypot(a.towards_n, a.down_n) + 2.0 * pin_couple_n(setting, a)
    return np.asarray(RUSTY * force * setting.mount.hinge_pin_m / 2.0)


def moving_parts(setting: Setting) -> tuple[Part, ...]:
    """The actuator while it moves, friction against it."""
    if setting.drive is None:
        message = "no drive"
        raise ValueError(message)
    rating, arm = setting.drive.moving_force_n, rod_lever_m(setting)
    given = Step("maker's moving rating", "", "", rating, "N", OWNER)
    may = Step(
        "may move with", "F", f"0.8 x {rating:.0f}", MOVING_SHARE * rating, "N", MOVING_RATING
    )

    def friction(a: Acting) -> Floats:
        return friction_n_m(setting, a)

    def force(a: Acting) -> Floats:
        return shares(np.abs(a.hinge_n_m) + friction(a), arm(a))

    def told(a: Acting) -> tuple[Step, ...]:
        turn, rub = abs(number(a, "hinge_n_m")), one(friction, a)
        formula = f"({turn:.0f} + {rub:.0f}) / {one(arm, a):.3f}"
        return (Step("force along the rod, friction against it", "F", formula, one(force, a), "N", STATICS),)  # fmt: skip

    moving = plain(
        "actuator moving", "force along the rod", "N", force, Allowable(MOVING_SHARE * rating, "N", (given, may)), MOVING_RATING,
        told, ("towards_n", "down_n", "roll_n_m", "twist_n_m", "hinge_n_m"), "service",
    )  # fmt: skip
    return moving, _pushed_rod(setting, friction)


def _pushed_rod(setting: Setting, friction: Of) -> Part:
    """The rod pushed: pin to pin with its whole stroke out, the tube stiff, a third of what buckles it."""
    if setting.drive is None:
        message = "no drive"
        raise ValueError(message)
    d = setting.drive
    allowed = rod_push(d.rod_diameter_m, d.stroke_m, d.retracted_length_m)
    arm = rod_lever_m(setting)

    def push(a: Acting) -> Floats:
        pulls = a.hinge_n_m * np.sign(_signed_lever(setting, a))  # + pulls the rod out
        return shares(np.maximum(friction(a) - pulls, 0.0), arm(a))

    def told(a: Acting) -> tuple[Step, ...]:
        turn, rub = abs(number(a, "hinge_n_m")), one(friction, a)
        formula = f"({turn:.0f} + {rub:.0f}) / {one(arm, a):.3f}"
        return (Step("push on the rod", "F", formula, one(push, a), "N", STATICS),)

    return plain("actuator rod", "buckling when pushed", "N", push, allowed, EULER, told, ("hinge_n_m",), "service")  # fmt: skip
