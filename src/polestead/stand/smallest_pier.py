"""The pier of least concrete that holds, over diameter and depth."""

from __future__ import annotations

from math import ceil, pi

import numpy as np
from numpy.typing import NDArray

from polestead.footing.frost import frost_check
from polestead.loads.combinations import LoadSet
from polestead.stand.actions import Acting
from polestead.stand.code import code_loads, found_at_deg
from polestead.stand.gust import uses
from polestead.stand.parts.part import Floats, Part
from polestead.stand.parts.pier import pier_parts
from polestead.stand.parts.pole import pole_parts
from polestead.stand.result import SmallestPier
from polestead.stand.setting import Setting

DIAMETERS_M = {"feet": np.arange(18.0, 61.0, 3.0) * 0.0254, "metric": np.arange(0.45, 1.55, 0.05)}
DEPTH_STEP_M = {"feet": 3.0 * 0.0254, "metric": 0.1}
LEAST_DEPTH_M = 0.6  # nothing shallower is looked at
MOST_M = 4.5  # no auger a farmer hires goes deeper: common practice, no source
ROUNDS = 8
LEAST_ROUND_POLE_M = 0.075  # concrete on each side of the pole, ACI cover 3 in


def smallest_pier(setting: Setting, units: str = "feet") -> SmallestPier | None:
    """Search of every diameter for the least depth at which soil, frost and concrete hold; the least volume of all.

    The pole ends a foot over the pier's foot.  Depth is halved between what does not hold and what does, then taken up to the
    next step of a tape; deeper holds better but for the pressure under the foot, which is looked at there: where the least
    depth presses too hard, every greater one would.

    Args:
        setting: The mount.
        units: ``feet`` or ``metric``: steps of the sizes tried.

    Returns:
        None where no pier tried holds.
    """
    loads = {kind: _worst_rows(setting, kind) for kind in setting.load_sets}
    step = DEPTH_STEP_M[units]
    found: SmallestPier | None = None
    for diameter_m in DIAMETERS_M[units]:
        if diameter_m < setting.pipe.outside_m + 2.0 * LEAST_ROUND_POLE_M:
            continue
        most_m = MOST_M
        if found is not None:  # deeper than this it would take more concrete than the one there is
            most_m = min(found.concrete_m3 / (pi / 4.0 * diameter_m**2), MOST_M)
        if most_m <= LEAST_DEPTH_M:
            break
        size = _least_depth(setting, float(diameter_m), step, float(most_m), loads)
        if size is not None and (found is None or size.concrete_m3 < found.concrete_m3):
            found = size
    return found


def _least_depth(
    setting: Setting, diameter_m: float, step_m: float, most_m: float, loads: dict[LoadSet, Acting]
) -> SmallestPier | None:
    frozen_m = setting.place.frost_depth_m if setting.place.frost_soil == "silt or clay" else 0.0
    low, high = max(LEAST_DEPTH_M, frozen_m), most_m
    if _use(setting, diameter_m, high, loads, False)[1] > 1.0:
        return None
    for _ in range(ROUNDS):
        middle = (low + high) / 2.0
        if _use(setting, diameter_m, middle, loads, False)[1] > 1.0:
            low = middle
        else:
            high = middle
    depth_m = ceil(high / step_m - 1e-9) * step_m
    name, use = _use(setting, diameter_m, depth_m, loads)
    if use > 1.0:
        return None
    footing = setting.footing
    planned = pi / 4.0 * footing.diameter_m**2 * footing.depth_m
    return SmallestPier(diameter_m, depth_m, pi / 4.0 * diameter_m**2 * depth_m, planned, name, use)


def _use(
    setting: Setting,
    diameter_m: float,
    depth_m: float,
    loads: dict[LoadSet, Acting],
    pressure: bool = True,
) -> tuple[str, float]:
    """The pier's part that is used most, and how much; the pressure under it, which grows with depth, only if asked."""
    changed = _with_pier(setting, diameter_m, depth_m)
    place = setting.place
    dead_n = setting.array_weight_n + setting.pole_weight_n
    frost = frost_check(changed.pier, place.frost_soil, place.frost_depth_m, dead_n, setting.footing.sleeve)  # fmt: skip
    told = [(frost.part, frost.use)]
    for part in (*pier_parts(changed), *pole_parts(changed)[1:]):
        if not pressure and "soil under" in part.name:
            continue
        told.append((part.name, _worst(setting, part, loads)))
    return max(told, key=lambda one: one[1])


def _worst(setting: Setting, part: Part, loads: dict[LoadSet, Acting]) -> float:
    return float(uses((part,), loads[setting.set_of(part.loads)]).max())


def _with_pier(setting: Setting, diameter_m: float, depth_m: float) -> Setting:
    footing = setting.footing.model_copy(
        update={"diameter_m": diameter_m, "depth_m": depth_m, "pole_depth_m": depth_m - 0.3}
    )
    return setting.with_footing(footing)


def _worst_rows(setting: Setting, loads: LoadSet) -> Acting:
    """Of all cases at all tilts those that can govern: none other has more of every figure the pier asks for."""
    acting = code_loads(setting, found_at_deg(setting), loads).acting
    flat = acting.values.reshape(acting.values.shape[0], -1)
    whole = Acting(("",) * flat.shape[1], ("",) * flat.shape[1], acting.tilt_deg[:1], flat[:, :, None])  # fmt: skip
    moment = np.hypot(whole.base_n_m, whole.roll_n_m)[:, 0]
    figures = np.stack([
        np.abs(whole.shear_n[:, 0]), moment, np.maximum(whole.foot_down_n[:, 0], 0.0), np.maximum(-whole.foot_down_n[:, 0], 0.0),
        whole.twist_n_m[:, 0],
    ])  # fmt: skip
    kept = _not_beaten(figures)
    return Acting(("",) * kept.size, ("",) * kept.size, acting.tilt_deg[:1], flat[:, kept][:, :, None])  # fmt: skip


def _not_beaten(figures: Floats) -> NDArray[np.intp]:
    """Columns that no other column reaches in every row: the one of the largest sum, less all it reaches, and so on."""
    sums = (figures / np.maximum(figures.max(axis=1, keepdims=True), 1e-9)).sum(axis=0)
    left, kept = np.argsort(-sums, kind="stable"), []
    while left.size:
        first = left[0]
        kept.append(int(first))
        reached = (figures[:, left] <= figures[:, [first]] + 1e-9).all(axis=0)
        left = left[~reached]
    return np.array(kept)
