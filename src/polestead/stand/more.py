"""What is asked for beside the card: half-built states, the change that helps most, the least pier, the best pins."""

from __future__ import annotations

import numpy as np

from polestead.base.check import Check
from polestead.base.problem import Wrong
from polestead.loads.combinations import snow_at_allowable
from polestead.loads.snow import snow_density_n_m3
from polestead.mount.checks import tightest
from polestead.mount.heap import snow_room_check
from polestead.mount.linkage import rod_arm_m, tape_table
from polestead.mount.pins import BestPins, best_pins, bounds_of
from polestead.stand.changes import changes_of
from polestead.stand.code import code_loads
from polestead.stand.half_built import half_built
from polestead.stand.parts.holds import friction_n_m
from polestead.stand.result import RodForce, StandMore
from polestead.stand.setting import Setting
from polestead.stand.smallest_pier import smallest_pier
from polestead.stand.stand import shape_checks
from polestead.strength.pole import tip_moves_m
from polestead.strength.sleeve import SplitSleeve, split_sleeve

SHED_FALL_M = 0.3  # one fall the ground under the low edge must take: common practice, no source


def more_of(setting: Setting, concrete_per_m3: float | None = None, units: str = "feet") -> StandMore:  # fmt: skip
    """All of it.

    Args:
        setting: The mount.
        concrete_per_m3: Price of concrete, where known.
        units: ``feet`` or ``metric``: sizes tried.
    """
    drive, g = setting.drive, setting.geometry
    return StandMore(
        half_built(setting),
        changes_of(setting, concrete_per_m3),
        smallest_pier(setting, units),
        pins_of(setting),
        () if drive is None else tape_table(drive, g.least_tilt_deg, g.steepest_tilt_deg),
        setting.refit,
        rod_forces(setting),
        tightest(shape_checks(setting)),
        heap_of(setting),
        leans_m(setting),
        sleeve_of(setting),
    )


def rod_forces(setting: Setting, step_deg: float = 10.0) -> tuple[RodForce, ...]:
    """Weight, uneven snow, wind and friction along the rod, every so many degrees; empty without a drive."""
    if setting.drive is None:
        return ()
    low, high = setting.geometry.least_tilt_deg, setting.geometry.steepest_tilt_deg
    tilts = np.unique(np.concatenate(([low, high], np.arange(np.ceil(low / step_deg) * step_deg, high, step_deg))))  # fmt: skip
    arm = rod_arm_m(setting.drive, tilts)
    loads = code_loads(setting, tilts, setting.set_of("service"))
    factor = max(rule.wind for rule in loads.rule if not rule.ice)
    snow = snow_at_allowable(setting.site.basis) * loads.snow.hinge_n_m / arm
    wind = factor * loads.wind.hinge_n_m / arm
    both = loads.dead.with_values(loads.dead.values + factor * loads.wind.values)
    rub = friction_n_m(setting, both).max(axis=0) / np.abs(arm)
    dead = loads.dead.hinge_n_m[0] / arm
    return tuple(
        RodForce(*(float(v) for v in row))
        for row in zip(
            tilts, dead, np.maximum(snow.max(axis=0), 0.0), np.minimum(snow.min(axis=0), 0.0),
            np.maximum(wind.max(axis=0), 0.0), np.minimum(wind.min(axis=0), 0.0), rub, strict=True,
        )
    )  # fmt: skip


def heap_of(setting: Setting) -> Check:
    """The low edge over the design snow that lies and the heap of one fall shed on top."""
    ground = setting.place.ground_snow_pa
    lying_m = ground / snow_density_n_m3(ground) if ground > 0.0 else 0.0
    return snow_room_check(setting.geometry, SHED_FALL_M, lying_m)


def leans_m(setting: Setting) -> float:
    """How far the hinge moves in the code's wind at its allowable level; soil and foot held fast."""
    loads = code_loads(setting, setting.card_tilts_deg, setting.set_of("service"))  # fmt: skip
    level = np.abs(loads.acting.towards_n)
    turn = np.abs(loads.acting.hinge_n_m)
    case, tilt = (int(n) for n in np.unravel_index(int((level + turn).argmax()), level.shape))
    height_m, stiff = setting.geometry.hinge_height_m, setting.pipe.stiffness_pa * setting.pipe.inertia_m4  # fmt: skip
    down = max(float(loads.acting.foot_down_n[case, tilt]), 0.0)
    by_turn = float(turn[case, tilt]) * height_m**2 / (2.0 * stiff)
    return tip_moves_m(setting.pipe, float(level[case, tilt]), down, height_m) + by_turn


def sleeve_of(setting: Setting) -> SplitSleeve | None:
    """What to cut for a split sleeve over the pole, where the file wants one."""
    play_m = setting.frame.split_sleeve_play_m
    return None if play_m is None else split_sleeve(setting.pipe, play_m)


def pins_of(setting: Setting) -> BestPins | None:
    """Pins of the least peak force under the code's own loads, within a third about the pins as they are."""
    drive = setting.drive
    if drive is None:
        return None
    tilts = setting.card_tilts_deg
    turn = code_loads(setting, tilts, setting.set_of("service")).acting.hinge_n_m
    try:
        return best_pins(
            drive, tilts, np.maximum(turn.max(axis=0), 0.0), np.maximum(-turn.min(axis=0), 0.0), bounds_of(drive)
        )  # fmt: skip
    except Wrong:  # the actuator fits nowhere near: the linkage's own checks say so
        return None
