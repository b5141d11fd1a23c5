"""The parts: what acts on each, what it may carry, how much of that is used."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from polestead.base.source import OWNER, Source
from polestead.base.working import Step
from polestead.footing.pier import (
    bearing_pa,
    below_grade_moment_n_m,
    needed_depth_m,
    twist_allowable_n_m,
    uplift_allowable_n,
)
from polestead.mount.linkage import rod_arm_m
from polestead.stand.actions import Acting
from polestead.stand.setting import Setting
from polestead.strength.parts import (
    Allowable,
    module_back,
    module_front,
    pin_double_shear,
    rod_push,
    strut_push,
    tube_bending,
    tube_section,
    tube_torsion,
)
from polestead.strength.pole import pole_use

Floats = NDArray[np.float64]
Of = Callable[[Acting], Floats]
HOLDING_SHARE = 1.0 / 1.5  # of the maker's static rating, where no safety-rated load is stated
MOVING_SHARE = 0.8  # of the maker's moving rating
RUSTY = 0.4  # friction of a dry, rusty pin
STATICS = Source("statics", "docs/method/stand.md", "ours")
H3_6 = Source("AISC 360-16", "Eq. H3-6, second order by 1/(1 - P/Pe)", "memory")
IBC_POLE = Source("IBC 2018", "Eq. 18-1", "seen")
BROMS = Source("Broms 1964", "short free-headed pile", "seen")
RATING = Source("the maker's holding rating over 1.5", "docs/method/stand.md", "ours")
MOVING_RATING = Source("0.8 of the maker's moving rating", "docs/method/stand.md", "ours")


@dataclass(frozen=True, eq=False)
class Part:
    """One part and one way it can give.

    Attributes:
        name: In the owner's words (``pole at the collar``).
        what: What is checked.
        unit: SI unit of demand and capacity.
        demand: What acts on it, [cases, tilts] of any actions.
        capacity: What it may carry, the same or one number for all.
        use: Share used.
        source: The rule.
        steps: How the capacity was found.
        told: Steps from the actions of one case at one tilt to the demand.
        fields: Which actions its working adds up.
    """

    name: str
    what: str
    unit: str
    demand: Of
    capacity: Of
    use: Of
    source: Source
    steps: tuple[Step, ...]
    told: Callable[[Acting], tuple[Step, ...]]
    fields: tuple[str, ...] = ("foot_down_n", "shear_n", "base_n_m", "roll_n_m", "twist_n_m")


def shares(demand: Floats, capacity: Floats | float) -> Floats:
    """Demand over capacity, endless where nothing can be carried, 0 where nothing acts.

    Example:
        >>> shares(np.array([1.0, 1.0, 0.0]), np.array([4.0, 0.0, 0.0])).tolist()
        [0.25, inf, 0.0]
    """
    room = np.broadcast_to(np.asarray(capacity, dtype=float), demand.shape)
    use = np.full(demand.shape, np.inf)
    np.divide(demand, room, out=use, where=room > 0.0)
    return np.where(demand == 0.0, 0.0, use)


def number(acting: Acting, name: str) -> float:
    """One field of one case at one tilt."""
    return float(getattr(acting, name)[0, 0])


def _plain(
    name: str,
    what: str,
    unit: str,
    demand: Of,
    capacity: Of,
    source: Source,
    steps: tuple[Step, ...],
    told: Callable[[Acting], tuple[Step, ...]],
) -> Part:
    """A part whose use is demand over capacity."""
    return Part(
        name,
        what,
        unit,
        demand,
        capacity,
        lambda a: shares(demand(a), capacity(a)),
        source,
        steps,
        told,
    )


def _level(value: float) -> Of:
    return lambda a: np.full(a.values.shape[1:], value)


def standing_parts(setting: Setting) -> tuple[Part, ...]:
    """Pole, pier, hinge pins, strongback and modules; the holds apart."""
    return (
        *pole_parts(setting),
        *pier_parts(setting),
        strongback(setting),
        *modules(setting),
    )


# --- pole ---------------------------------------------------------------------------------------------------------------


def overturning_n_m(a: Acting) -> Floats:
    """Base moment and roll together, square to each other [N m]."""
    return np.hypot(a.base_n_m, a.roll_n_m)


def enlarged_n_m(setting: Setting, a: Acting) -> Floats:
    """Base moment enlarged for the array's weight leaning with the pole, 1 / (1 - P / Pe)."""
    share = np.clip(np.maximum(a.foot_down_n, 0.0) / setting.pole.euler_n, 0.0, 0.99)
    return np.asarray(overturning_n_m(a) / (1.0 - share))


def _h3_6(setting: Setting, a: Acting, moment: Floats, shear: Floats) -> Floats:
    return pole_use(setting.pole, np.abs(a.foot_down_n), moment, shear, np.asarray(a.twist_n_m))


def pole_parts(setting: Setting) -> tuple[Part, ...]:
    """The pole where it leaves the concrete, and where the soil bends it most."""
    bending = setting.pole.bending_n_m

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
        deepest = float(_below(setting, a)[0, 0])
        formula = f"short free-headed pile under {shear:.0f} N and {moment:.0f} N m at the ground"
        return (
            Step("largest moment below the ground", "M max", formula, deepest, "N m", BROMS),
            *_share_steps(setting, a, deepest, False),
        )

    below = "bending with axial force and twist, steel alone"
    return (
        Part(
            "pole at the collar", "bending, axial force, shear and twist together", "N m",
            overturning_n_m, _level(bending),
            lambda a: _h3_6(setting, a, overturning_n_m(a), np.abs(a.shear_n)), H3_6, setting.pole.steps, told_collar,
        ),
        Part(
            "pole below the ground", below, "N m", lambda a: _below(setting, a), _level(bending),
            lambda a: _h3_6(setting, a, _below(setting, a), np.zeros_like(a.shear_n)), H3_6, setting.pole.steps, told_below,
        ),
    )  # fmt: skip


def _below(setting: Setting, a: Acting) -> Floats:
    """Largest moment in the pole below the ground, never taken smaller than at the ground; H3-6 enlarges it."""
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
    return (Step("use", "U", formula, use, "", H3_6),)


# --- pier ---------------------------------------------------------------------------------------------------------------


def pier_parts(setting: Setting) -> tuple[Part, ...]:
    """The pier in its soil: overturning, pressure, pull and twist."""
    pier = setting.pier

    def depth(a: Acting) -> Floats:
        return needed_depth_m(pier, np.abs(a.shear_n), enlarged_n_m(setting, a))

    def pressure(a: Acting) -> Floats:
        return bearing_pa(pier, np.maximum(a.foot_down_n, 0.0))

    def pull(a: Acting) -> Floats:
        return np.maximum(-a.foot_down_n, 0.0)

    def told_depth(a: Acting) -> tuple[Step, ...]:
        shear, moment = abs(number(a, "shear_n")), float(enlarged_n_m(setting, a)[0, 0])
        formula = f"P = {shear:.0f} N, h = {moment:.0f} / {shear:.0f} m over the ground; useless top {pier.effective_m:.3f} m"
        return (Step("depth needed", "D", formula, float(depth(a)[0, 0]), "m", IBC_POLE),)

    def told_pressure(a: Acting) -> tuple[Step, ...]:
        down = max(number(a, "foot_down_n"), 0.0)
        formula = f"({down:.0f} + {pier.weight_n:.0f}) / (pi x {pier.diameter_m:.3f}^2 / 4)"
        return (
            Step("pressure under the pier", "p", formula, float(pressure(a)[0, 0]), "Pa", STATICS),
        )

    def told_pull(a: Acting) -> tuple[Step, ...]:
        return (Step("pull left over weight", "F", f"max(-({number(a, 'foot_down_n'):.0f}), 0)", float(pull(a)[0, 0]), "N", STATICS),)  # fmt: skip

    def told_twist(a: Acting) -> tuple[Step, ...]:
        return (Step("twist about the pole", "T", f"{number(a, 'twist_n_m'):.0f}", number(a, "twist_n_m"), "N m", STATICS),)  # fmt: skip

    skin = Source("skin below the useless top, over 1.5", "docs/method/footing.md", "ours")
    weight = Source("ASCE 7-16", "2.4.1 (7), 0.6 of the pier's weight", "memory")
    bearing = Source("IBC 2018", "Table 1806.2", "seen")
    return (
        _plain("pier in the soil", "deep enough against overturning", "m", depth, _level(pier.depth_m), IBC_POLE, pier.steps, told_depth),
        _plain("soil under the pier", "pressure", "Pa", pressure, _level(pier.bearing_pa), bearing, pier.steps, told_pressure),
        _plain("pier against being pulled out", "pull", "N", pull, _level(uplift_allowable_n(pier)), weight, pier.steps, told_pull),
        _plain(
            "pier against turning", "twist", "N m", lambda a: np.asarray(a.twist_n_m),
            _level(twist_allowable_n_m(pier, setting.footing.twist_bars)), skin, pier.steps, told_twist,
        ),
    )  # fmt: skip


# --- frame --------------------------------------------------------------------------------------------------------------


def strongback(setting: Setting) -> Part:
    """The tube along the hinge: two cantilevers beyond the bearings, bent both ways, and twisted by half the hinge moment."""
    bending, torsion = tube_bending(setting.beam), tube_torsion(setting.beam)
    width_m = setting.geometry.width_m
    reach_m = max((width_m - setting.mount.hinge_span_m) / 2.0, setting.mount.hinge_span_m / 2.0)
    lever_m = reach_m**2 / (2.0 * width_m)  # moment of an even load of 1 N over the whole width

    def bent(a: Acting) -> Floats:
        return np.asarray(lever_m * (np.abs(a.square_n) + np.abs(a.along_n)))

    def use(a: Acting) -> Floats:
        twisted = np.abs(a.hinge_n_m) / 2.0 / torsion.value
        return np.asarray(bent(a) / bending.value + twisted**2)

    def told(a: Acting) -> tuple[Step, ...]:
        square, along, turn = (abs(number(a, n)) for n in ("square_n", "along_n", "hinge_n_m"))
        total = float(bent(a)[0, 0])
        formula = f"({square:.0f} + {along:.0f}) x {reach_m:.3f}^2 / (2 x {width_m:.3f})"
        share = f"{total:.0f} / {bending.value:.0f} + ({turn:.0f} / 2 / {torsion.value:.0f})^2"
        return (
            Step("bending at the hinge bearing", "M", formula, total, "N m", STATICS),
            Step("use", "U", share, float(use(a)[0, 0]), "", H3_6),
        )

    return Part(
        "strongback", "bending both ways and twist", "N m", bent, _level(bending.value), use, H3_6,
        (*bending.steps, *torsion.steps), told, ("square_n", "along_n", "hinge_n_m"),
    )  # fmt: skip


def modules(setting: Setting) -> tuple[Part, ...]:
    """The worst module: pressed on its glass, lifted from behind."""
    module = setting.array.module
    front, back = module_front(module.tested_front_pa), module_back(module.tested_back_pa)
    test = Source("the maker's test load over 1.5", "docs/method/stand.md", "ours")

    def side(name: str, field: str, allowed: Allowable) -> Part:
        def pressure(a: Acting) -> Floats:
            return np.asarray(np.maximum(getattr(a, field), 0.0))

        def told(a: Acting) -> tuple[Step, ...]:
            formula = f"max({number(a, field):.0f}, 0)"
            return (Step("pressure on the worst module", "p", formula, float(pressure(a)[0, 0]), "Pa", STATICS),)  # fmt: skip

        part = _plain(
            name,
            "pressure on the worst module",
            "Pa",
            pressure,
            _level(allowed.value),
            test,
            allowed.steps,
            told,
        )
        return replace(part, fields=(field,))

    return side("modules, on the glass", "front_pa", front), side(
        "modules, from behind", "back_pa", back
    )


def pin_couple_n(setting: Setting, a: Acting) -> Floats:
    """Force of the twist and the roll on each hinge bearing: a couple over their distance."""
    return np.asarray(np.hypot(a.roll_n_m, a.twist_n_m) / setting.mount.hinge_span_m)


def hinge_pins(setting: Setting, arm_m: Of) -> Part:
    """Each pin: half the force, the couple of twist and roll, and half of what the hold pulls with.

    Args:
        setting: The mount.
        arm_m: Lever of the hold.
    """
    allowed = pin_double_shear(setting.mount.hinge_pin_m, setting.mount.hinge_pin_steel)

    def force(a: Acting) -> Floats:
        straight = np.hypot(a.towards_n, a.down_n) / 2.0
        hold = shares(np.abs(a.hinge_n_m), arm_m(a)) / 2.0
        return np.asarray(straight + pin_couple_n(setting, a) + hold)

    def told(a: Acting) -> tuple[Step, ...]:
        towards, down, roll, twist, turn = (
            number(a, n) for n in ("towards_n", "down_n", "roll_n_m", "twist_n_m", "hinge_n_m")
        )
        arm = float(arm_m(a)[0, 0])
        formula = (
            f"sqrt({abs(towards):.0f}^2 + {abs(down):.0f}^2) / 2 + sqrt({roll:.0f}^2 + {twist:.0f}^2) / {setting.mount.hinge_span_m:.3f}"
            f" + {abs(turn):.0f} / {arm:.3f} / 2"
        )
        return (Step("shear of the worse pin", "V", formula, float(force(a)[0, 0]), "N", STATICS),)

    source = Source("AISC 360-16", "J3.6, cut twice", "memory")
    part = _plain(
        "hinge pins", "shear with twist and roll over the hinge span", "N", force, _level(allowed.value), source,
        allowed.steps, told,
    )  # fmt: skip
    return replace(part, fields=("towards_n", "down_n", "roll_n_m", "twist_n_m", "hinge_n_m"))


# --- holds --------------------------------------------------------------------------------------------------------------


def lock_arm_m(setting: Setting) -> Of:
    """Lever of the storm hold, the same at every tilt."""
    return _level(setting.lock.arm_m if setting.lock else 0.0)


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
    """The storm hold and the hinge pins under it."""
    if setting.lock is None:
        message = "no storm hold"
        raise ValueError(message)
    lock, arm = setting.lock, lock_arm_m(setting)
    pin = pin_double_shear(lock.pin_diameter_m, lock.pin_steel)
    source = Source("AISC 360-16", "J3.6, cut twice", "memory")
    parts = [
        hinge_pins(setting, arm),
        _hold("storm hold pin", "shear", arm, pin, source),
    ]
    if lock.strut is not None and lock.strut_length_m is not None:
        strut = strut_push(tube_section(lock.strut), lock.strut_length_m)
        parts.append(
            _hold("storm hold strut", "push", arm, strut, Source("AISC 360-16", "E3", "memory"))
        )
    return tuple(parts)


def _hold(name: str, what: str, arm_m: Of, allowed: Allowable, source: Source) -> Part:
    """A part that carries the hinge moment over a lever."""

    def force(a: Acting) -> Floats:
        return shares(np.abs(a.hinge_n_m), arm_m(a))

    def told(a: Acting) -> tuple[Step, ...]:
        formula = f"{abs(number(a, 'hinge_n_m')):.0f} / {float(arm_m(a)[0, 0]):.3f}"
        return (Step("force in the hold", "F", formula, float(force(a)[0, 0]), "N", STATICS),)

    part = _plain(name, what, "N", force, _level(allowed.value), source, allowed.steps, told)
    return replace(part, fields=("hinge_n_m",))


def rod_parts(setting: Setting) -> tuple[Part, ...]:
    """The actuator holding still on its rod alone, and the hinge pins under it."""
    if setting.drive is None:
        message = "no drive"
        raise ValueError(message)
    rating = setting.drive.holding_force_n
    still = Step("may hold", "F", f"{rating:.0f} / 1.5", HOLDING_SHARE * rating, "N", RATING)
    given = Step("maker's holding rating", "", "", rating, "N", OWNER)
    allowed = Allowable(HOLDING_SHARE * rating, "N", (given, still))
    arm = rod_lever_m(setting)
    return (
        hinge_pins(setting, arm),
        _hold("actuator holding", "force along the rod", arm, allowed, RATING),
        _pushed_rod(setting, lambda a: np.zeros(a.values.shape[1:])),
    )


def friction_n_m(setting: Setting, a: Acting) -> Floats:
    """What a dry, rusty hinge pin holds back: mu N r, both bearings."""
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
        turn, rub = abs(number(a, "hinge_n_m")), float(friction(a)[0, 0])
        formula = f"({turn:.0f} + {rub:.0f}) / {float(arm(a)[0, 0]):.3f}"
        return (Step("force along the rod, friction against it", "F", formula, float(force(a)[0, 0]), "N", STATICS),)  # fmt: skip

    moving = _plain(
        "actuator moving",
        "force along the rod",
        "N",
        force,
        _level(MOVING_SHARE * rating),
        MOVING_RATING,
        (given, may),
        told,
    )
    return moving, _pushed_rod(setting, friction)


def _pushed_rod(setting: Setting, friction: Of) -> Part:
    """The rod pushed: pinned at both ends over its whole stroke, a third of Euler's load."""
    if setting.drive is None:
        message = "no drive"
        raise ValueError(message)
    allowed = rod_push(setting.drive.rod_diameter_m, setting.drive.stroke_m)
    arm = rod_lever_m(setting)

    def push(a: Acting) -> Floats:
        pulls = a.hinge_n_m * np.sign(_signed_lever(setting, a))  # + pulls the rod out
        return shares(np.maximum(friction(a) - pulls, 0.0), arm(a))

    def told(a: Acting) -> tuple[Step, ...]:
        turn, rub = abs(number(a, "hinge_n_m")), float(friction(a)[0, 0])
        formula = f"({turn:.0f} + {rub:.0f}) / {float(arm(a)[0, 0]):.3f}"
        return (Step("push on the rod", "F", formula, float(push(a)[0, 0]), "N", STATICS),)

    source = Source("Euler over 3, pinned over the whole stroke", "docs/method/stand.md", "ours")
    part = _plain(
        "actuator rod",
        "buckling when pushed",
        "N",
        push,
        _level(allowed.value),
        source,
        allowed.steps,
        told,
    )
    return replace(part, fields=("hinge_n_m",))
