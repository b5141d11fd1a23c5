"""The code's own check of every part, at every tilt it may be found at, and its working."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from polestead.base.check import Check
from polestead.base.source import Source
from polestead.base.working import Step, Working
from polestead.footing.frost import frost_check
from polestead.loads.pressure import DIRECTIONALITY, LEAST_NATURAL_HZ, RIGID_GUST_FACTOR
from polestead.loads.wind import wind_actions
from polestead.stand.actions import Combined, combined, dead, pole_drag_n, snow, wind
from polestead.stand.gust import uses
from polestead.stand.parts import Part
from polestead.stand.setting import Setting
from polestead.stand.working import load_steps

Floats = NDArray[np.float64]
FLAT_DEG = 7.5  # the figure's flat row ends here
SET_WITHIN_DEG, FLAT_WITHIN_DEG = 5.0, 10.0
ENVELOPE = Source("set within 5 degrees, flat within 10", "docs/method/stand.md", "ours")


@dataclass(frozen=True, eq=False)
class CodeCheck:
    """Uses of every part over the travel, and the worst of each.

    Attributes:
        parts: The parts.
        tilt_deg: Tilts it may be set to [tilts].
        use: Worst use within the setting error [parts, tilts].
        checks: Each part at its worst, the largest use first; those that know no wind too.
    """

    parts: tuple[Part, ...]
    tilt_deg: Floats
    use: Floats
    checks: tuple[Check, ...]

    @property
    def flat_use(self) -> float:
        """Largest use laid flat."""
        return float(self.use[:, 0].max())


def code_wind_m_s(setting: Setting) -> float:
    """The map's gust (strength level)."""
    return setting.place.wind_speed_m_s


def code_loads(setting: Setting, tilt_deg: Floats) -> Combined:
    """All combinations at the tilts: Kd 0.85, G 0.85, the code's least pressures in.

    G is 0.85 where the pole sways at 1 Hz or faster; slower ones are a check that fails.
    """
    gust = code_wind_m_s(setting)
    blown = wind_actions(
        setting.geometry, setting.site, gust, tilt_deg, DIRECTIONALITY, RIGID_GUST_FACTOR, True
    )
    drag = pole_drag_n(setting, gust, DIRECTIONALITY, RIGID_GUST_FACTOR)
    return combined(
        setting.site.basis,
        dead(setting, tilt_deg),
        snow(setting, tilt_deg),
        wind(setting, blown, drag),
    )


def _found_at_deg(setting: Setting) -> Floats:
    """Every tilt it may be found at, in steps of at most a degree; past flat is allowed, past upright is not."""
    low, high = setting.geometry.least_tilt_deg, setting.geometry.steepest_tilt_deg
    start = low - (FLAT_WITHIN_DEG if low <= FLAT_DEG else SET_WITHIN_DEG)
    end = min(high + SET_WITHIN_DEG, 90.0)
    return np.unique(np.concatenate((np.arange(start, end, 1.0), [end], setting.card_tilts_deg)))


def _within(found_deg: Floats, tilt_deg: float) -> NDArray[np.bool_]:
    error = FLAT_WITHIN_DEG if tilt_deg <= FLAT_DEG else SET_WITHIN_DEG
    return np.asarray(np.abs(found_deg - tilt_deg) <= error + 1e-9)


def code_check(setting: Setting, parts: tuple[Part, ...]) -> CodeCheck:
    """Every part, every combination, every tilt of the travel with its setting error.

    Args:
        setting: The mount.
        parts: Standing parts and the hold.
    """
    found = _found_at_deg(setting)
    loads = code_loads(setting, found)
    every = uses(parts, loads.acting)  # [parts, cases, tilts]
    worst = every.max(axis=1)
    tilts = setting.card_tilts_deg
    near = [_within(found, float(tilt)) for tilt in tilts]
    use = np.stack([worst[:, window].max(axis=1) for window in near], axis=1)
    checks = [_worst_check(setting, part, loads, every[row]) for row, part in enumerate(parts)]
    checks += [_frost(setting), _sway(setting)]
    checks.sort(key=lambda check: -check.use)
    return CodeCheck(parts, tilts, use, tuple(checks))


def _worst_check(setting: Setting, part: Part, loads: Combined, use: Floats) -> Check:
    """The part at its worst case and tilt, with the whole working."""
    case, tilt = (int(place) for place in np.unravel_index(int(use.argmax()), use.shape))
    acting = loads.acting.only(case, tilt)
    demand, capacity = float(part.demand(acting)[0, 0]), float(part.capacity(acting)[0, 0])
    told = part.told(acting)
    steps = (
        Step(
            "worst tilt, setting error in it", "t", "", float(acting.tilt_deg[0]), "deg", ENVELOPE
        ),
        *load_steps(setting, loads, case, tilt, part.fields),
        *part.steps,
        Step("may carry", "R", "", capacity, part.unit, part.source),
        *told,
    )
    if told[-1].word != "use":
        formula = f"{demand:.4g} / {capacity:.4g}"
        steps += (Step("use", "U", formula, float(use[case, tilt]), "", part.source),)
    working = Working(f"{part.name}: {part.what}", steps, (f"Worst: {acting.names[0]}.",))
    return Check(
        part.name,
        part.what,
        demand,
        capacity,
        part.unit,
        float(use[case, tilt]),
        part.source,
        working,
    )


def _frost(setting: Setting) -> Check:
    """Frost pull against dead weight without snow and skin below the frost."""
    place = setting.place
    still = setting.array_weight_n + setting.pole_weight_n
    return frost_check(
        setting.pier, place.frost_soil, place.frost_depth_m, still, setting.footing.sleeve
    )


def _sway(setting: Setting) -> Check:
    """Below 1 Hz the gust factor of a rigid thing does not hold."""
    hz = setting.sway_hz
    source = Source("ASCE 7-16", "26.2 and 26.11.1: flexible below 1 Hz", "memory")
    p, m = setting.pipe, setting.geometry.mass_kg
    formula = (
        f"sqrt(3 x {p.stiffness_pa:.3g} x {p.inertia_m4:.4g} / "
        f"({m:.0f} + {setting.pole_weight_n / 9.80665:.0f} / 4) / {setting.geometry.hinge_height_m:.3f}^3) / (2 pi)"
    )
    steps = (
        Step("least for a rigid pole", "f least", "", LEAST_NATURAL_HZ, "Hz", source),
        Step("natural frequency, foot held fast", "f", formula, hz, "Hz", source),
    )
    return Check(
        "pole and array", "stiff enough for the gust factor", LEAST_NATURAL_HZ, hz, "Hz",
        LEAST_NATURAL_HZ / hz, source, Working("sway", steps),
    )  # fmt: skip
