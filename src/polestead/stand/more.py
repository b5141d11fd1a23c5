"""What is asked for beside the card: half-built states, the change that helps most, the least pier, the best pins."""

from __future__ import annotations

import numpy as np

from polestead.base.problem import Wrong
from polestead.mount.checks import tightest
from polestead.mount.linkage import tape_table
from polestead.mount.pins import BestPins, best_pins, bounds_about
from polestead.stand.changes import changes_of
from polestead.stand.code import code_loads
from polestead.stand.half_built import half_built
from polestead.stand.result import StandMore
from polestead.stand.setting import Setting
from polestead.stand.smallest_pier import smallest_pier
from polestead.stand.stand import shape_checks


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
        tightest(shape_checks(setting)),
    )


def pins_of(setting: Setting) -> BestPins | None:
    """Pins of the least peak force under the code's own loads, within a third about the pins as they are."""
    drive = setting.drive
    if drive is None:
        return None
    tilts = setting.card_tilts_deg
    turn = code_loads(
        setting, tilts, "service" if setting.eurocode else "structure"
    ).acting.hinge_n_m
    try:
        return best_pins(
            drive, tilts, np.maximum(turn.max(axis=0), 0.0), np.maximum(-turn.min(axis=0), 0.0), bounds_about(drive)
        )  # fmt: skip
    except Wrong:  # the actuator fits nowhere near: the linkage's own checks say so
        return None
