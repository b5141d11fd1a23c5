"""The code's own check of every part, at every tilt it may be found at, and its working."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from polestead.base.check import Check
from polestead.base.edition import in_edition
from polestead.base.source import Source
from polestead.base.working import Step, Working
from polestead.footing.frost import frost_check
from polestead.loads.combinations import LoadSet
from polestead.loads.wind import case_told
from polestead.stand.actions import (
    Combined,
    blown,
    code_blow,
    combined,
    dead,
    ice,
    rules_of,
    snow,
)
from polestead.stand.gust import uses
from polestead.stand.parts.part import STATICS, Part
from polestead.stand.setting import SET_WITHIN_DEG, Setting
from polestead.stand.working import load_steps

Floats = NDArray[np.float64]
FLAT_DEG = 7.5  # the figure's flat row ends here
FLAT_WITHIN_DEG = 2.0 * SET_WITHIN_DEG
ENVELOPE = Source("set within 5 degrees, flat within 10, the ground's slope on top", "docs/method/stand.md", "ours")  # fmt: skip


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


def code_loads(setting: Setting, tilt_deg: Floats, loads: LoadSet = "structure") -> Combined:
    """All combinations of a set at the tilts: Kd 0.85, G 0.85 (more where the pole sways slowly), the least pressures in."""
    return combined(
        rules_of(setting, loads),
        dead(setting, tilt_deg),
        snow(setting, tilt_deg),
        blown(setting, code_blow(setting), tilt_deg),
        ice(setting, tilt_deg),
    )


def found_at_deg(setting: Setting) -> Floats:
    """Every tilt it may be found at, in steps of at most a degree; past flat is allowed, past upright is not."""
    low, high = setting.geometry.least_tilt_deg, setting.geometry.steepest_tilt_deg
    start = low - _error_deg(setting, low)
    end = min(high + setting.tilt_error_deg, 90.0)
    return np.unique(np.concatenate((np.arange(start, end, 1.0), [end], setting.card_tilts_deg)))


def _error_deg(setting: Setting, tilt_deg: float) -> float:
    """Flat is set within ten degrees, any other tilt within five; the ground's slope comes on top."""
    flat = FLAT_WITHIN_DEG - SET_WITHIN_DEG if tilt_deg <= FLAT_DEG else 0.0
    return setting.tilt_error_deg + flat


def _within(setting: Setting, found_deg: Floats, tilt_deg: float) -> NDArray[np.bool_]:
    return np.asarray(np.abs(found_deg - tilt_deg) <= _error_deg(setting, tilt_deg) + 1e-9)


def found_near(setting: Setting, tilt_deg: float) -> Floats:
    """The tilts it may be found at when it is set to one."""
    found = found_at_deg(setting)
    return np.asarray(found[_within(setting, found, tilt_deg)])


def code_check(setting: Setting, parts: tuple[Part, ...]) -> CodeCheck:
    """Every part, every combination, every tilt of the travel with its setting error.

    Args:
        setting: The mount.
        parts: Standing parts and the hold.
    """
    found, tilts = found_at_deg(setting), setting.card_tilts_deg
    near = [_within(setting, found, float(tilt)) for tilt in tilts]
    use = np.zeros((len(parts), tilts.size))
    checks: list[Check] = []
    for loads in setting.load_sets:
        rows = [row for row, part in enumerate(parts) if setting.set_of(part.loads) == loads]
        if not rows:
            continue
        together = code_loads(setting, found, loads)
        every = uses(tuple(parts[row] for row in rows), together.acting)  # [parts, cases, tilts]
        worst = every.max(axis=1)
        use[rows] = np.stack([worst[:, window].max(axis=1) for window in near], axis=1)
        checks += [worst_check(setting, parts[row], together, every[n]) for n, row in enumerate(rows)]  # fmt: skip
    checks += [_frost(setting), sway_check(setting)]
    checks.sort(key=lambda check: -check.use)
    return CodeCheck(parts, tilts, use, tuple(checks))


def worst_check(setting: Setting, part: Part, loads: Combined, use: Floats) -> Check:
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
    working = Working(
        f"{part.name}: {part.what}", steps, (f"Worst: {case_told(acting.names[0])}.",)
    )
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


SLOWEST_HZ = 0.5  # so slow a pole is beyond the gust factor's own footing: ours
SLOWEST_EN_HZ = 1.0  # no factor of a flexible thing is worked there, so none may be: ours
SLOW = Source("half of the 1 Hz under which ASCE 7-16, 26.2 calls it flexible and 26.11.5 is used", "docs/method/stand.md", "ours")  # fmt: skip
SLOW_EN = Source("1 Hz, for cs cd = 1 (EN 1991-1-4:2005, 6.2) knows no sway and 6.3 is not worked", "docs/method/stand.md", "ours")  # fmt: skip


def sway_check(setting: Setting) -> Check:
    """Under 1 Hz the flexible gust factor counts in its place; under half of that no factor is trusted.

    Under Eurocode cs cd = 1 is taken throughout, so that a pole under 1 Hz fails.
    """
    hz, eurocode = setting.sway_hz, setting.eurocode
    least, source = (
        (SLOWEST_EN_HZ, SLOW_EN) if eurocode else (SLOWEST_HZ, in_edition(SLOW, setting.site.basis))
    )
    p, m = setting.pipe, setting.geometry.mass_kg
    formula = (
        f"sqrt(3 x {p.stiffness_pa:.3g} x {p.inertia_m4:.4g} / "
        f"({m:.0f} + {setting.pole_weight_n / 9.80665:.0f} / 4) / {setting.geometry.hinge_height_m:.3f}^3) / (2 pi)"
    )
    steps = (
        Step("least taken", "f least", "", least, "Hz", source),
        Step("natural frequency, foot held fast", "f", formula, hz, "Hz", STATICS),
    )
    return Check(
        "pole and array", f"stiff enough for the {'structural' if eurocode else 'gust'} factor", least, hz, "Hz",
        least / hz, source, Working("sway", steps),
    )  # fmt: skip
