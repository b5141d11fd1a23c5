"""The gust card of all states against twenty milliseconds, and against one tilt after the other; pins and pier searched."""

from __future__ import annotations

from collections.abc import Callable
from time import perf_counter

import numpy as np

from polestead.homestead.demos import demo_path
from polestead.homestead.read import read_homestead
from polestead.stand.actions import met_by_set
from polestead.stand.gust import crossing_of
from polestead.stand.more import pins_of
from polestead.stand.setting import Setting, setting_of
from polestead.stand.smallest_pier import smallest_pier
from polestead.stand.states import curves_of, hold_parts, standing_parts

CARD_S, PINS_S, PIER_S = 0.020, 1.0, 0.2


def _setting(demo: str) -> Setting:
    h = read_homestead(demo_path(demo)).homestead
    mount = h.mount.model_copy(update={"least_tilt_deg": 0.0, "steepest_tilt_deg": 85.0})
    return setting_of(h.place, h.array, mount, h.footing, h.drive, h.lock, h.frame, h.prop)


def _least(work: Callable[[], object], times: int) -> float:
    """Shortest of several runs, the first not counted."""
    work()
    taken = []
    for _ in range(times):
        start = perf_counter()
        work()
        taken.append(perf_counter() - start)
    return min(taken)


def run() -> list[tuple[str, float, float]]:
    """Ratios; the card is the same whichever way it is worked."""
    rows = []
    for demo, basis in (("hollow-spruce", "ASCE"), ("slieve-moss", "Eurocode")):
        setting = _setting(demo)
        rows.append((f"twenty milliseconds over the whole card, {basis}", CARD_S / _least(lambda s=setting: curves_of(s), 12), 1.0))  # fmt: skip
        rows.append((f"a fifth of a second over the least pier, {basis}", PIER_S / _least(lambda s=setting: smallest_pier(s, "feet"), 4), 1.0))  # fmt: skip
        rows.append((f"a second over the best pins, {basis}", PINS_S / _least(lambda s=setting: pins_of(s), 2), 1.0))  # fmt: skip
    setting = _setting("hollow-spruce")
    parts = (*standing_parts(setting), *hold_parts(setting))

    def gusts(tilts: np.ndarray) -> np.ndarray:
        return crossing_of(setting, parts, met_by_set(setting, tilts)).gust_m_s

    tilts = setting.card_tilts_deg
    gusts(tilts)
    start = perf_counter()
    together = gusts(tilts)
    between = perf_counter()
    alone = np.concatenate([gusts(tilts[place : place + 1]) for place in range(len(tilts))])
    end = perf_counter()
    np.testing.assert_allclose(together, alone, rtol=1e-6)
    return [*rows, ("gust card, all tilts at once", (end - between) / (between - start), 10.0)]
