"""The rungs that both codes' ladders end with: from the hinge to the ground."""

from __future__ import annotations

from collections.abc import Mapping

from polestead.base.edition import in_edition
from polestead.base.source import Source
from polestead.base.working import Step
from polestead.loads.pressure import velocity_pressure_pa
from polestead.stand.actions import POLE_DRAG, Blow
from polestead.stand.parts.part import STATICS
from polestead.stand.setting import Setting

DRAG_US = Source("ASCE 7-16", "Fig. 29.4-1, a round pole", "memory")
DRAG_EN = Source("Cf 1 for a round pole, over what EN 1991-1-4:2005, 7.9 gives", "docs/method/stand.md", "ours")  # fmt: skip


def base_steps(setting: Setting, blow: Blow, at: Mapping[str, float]) -> tuple[Step, Step]:
    """Level force at hinge height, hinge moment and the pole's own drag about the ground line.

    Args:
        setting: The mount.
        blow: The wind.
        at: Fields of one case of the wind at one tilt.
    """
    drag = at["shear_n"] - at["towards_n"]
    formula = (
        f"{at['towards_n']:.0f} x {setting.geometry.hinge_height_m:.3f} + {at['hinge_n_m']:.0f}"
        f" + {drag:.0f} x {setting.pole_height_m / 2.0:.3f}"
    )
    word = "wind's moment about the ground line, pole's drag in it"
    q = float(velocity_pressure_pa(blow.gust_m_s, setting.geometry.hinge_height_m, setting.site))
    taken = f"{'' if drag >= 0.0 else '-'}{q:.1f} x {POLE_DRAG:g} x {setting.pipe.outside_m:.4f} x {setting.pole_height_m:.3f}"
    if not setting.eurocode:
        taken += f" x {blow.directionality:g} x {blow.gust_factor:.3g}"
    source = DRAG_EN if setting.eurocode else in_edition(DRAG_US, setting.site.basis)
    return (
        Step("drag of the pole, at half its height", "Fp", taken, drag, "N", source),
        Step(word, "Mb", formula, at["base_n_m"], "N m", STATICS),
    )


def off_centre_steps(at: Mapping[str, float], lever: str, source: Source) -> tuple[Step, Step]:
    """Twist of the level part and roll of the upright one, off to one side.

    Args:
        at: Fields of one case of the wind at one tilt.
        lever: How far off, with its numbers.
        source: The code's rule for it.
    """
    twist, roll = (f"{lever} x {abs(at[name]):.0f}" for name in ("towards_n", "down_n"))
    return (
        Step("twist", "T", twist, at["twist_n_m"], "N m", source),
        Step("roll", "Mr", roll, at["roll_n_m"], "N m", source),
    )
