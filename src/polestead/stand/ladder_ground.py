"""The rungs that both codes' ladders end with: from the hinge to the ground."""

from __future__ import annotations

from collections.abc import Mapping

from polestead.base.source import Source
from polestead.base.working import Step
from polestead.stand.parts.part import STATICS
from polestead.stand.setting import Setting


def base_step(setting: Setting, at: Mapping[str, float]) -> Step:
    """Level force at hinge height, hinge moment and the pole's own drag about the ground line.

    Args:
        setting: The mount.
        at: Fields of one case of the wind at one tilt.
    """
    drag = at["shear_n"] - at["towards_n"]
    formula = (
        f"{at['towards_n']:.0f} x {setting.geometry.hinge_height_m:.3f} + {at['hinge_n_m']:.0f}"
        f" + {drag:.0f} x {setting.pole_height_m / 2.0:.3f}"
    )
    word = "wind's moment about the ground line, pole's drag in it"
    return Step(word, "Mb", formula, at["base_n_m"], "N m", STATICS)


def off_centre_steps(at: Mapping[str, float], lever_m: float, source: Source) -> tuple[Step, Step]:
    """Twist of the level part and roll of the upright one, off to one side.

    Args:
        at: Fields of one case of the wind at one tilt.
        lever_m: How far off.
        source: The code's rule for it.
    """
    twist, roll = (f"{lever_m:.3f} x {abs(at[name]):.0f}" for name in ("towards_n", "down_n"))
    return (
        Step("twist", "T", twist, at["twist_n_m"], "N m", source),
        Step("roll", "Mr", roll, at["roll_n_m"], "N m", source),
    )
