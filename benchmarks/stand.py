"""All tilts of the gust card at once against one tilt after the other."""

from __future__ import annotations

from time import perf_counter

import numpy as np

from polestead.homestead.demos import demo_path
from polestead.homestead.read import read_homestead
from polestead.stand.actions import crossed, dead, unit_wind
from polestead.stand.gust import first_crossing
from polestead.stand.parts.holds import locked_parts
from polestead.stand.setting import setting_of
from polestead.stand.states import standing_parts


def run() -> list[tuple[str, float, float]]:
    h = read_homestead(demo_path("hollow-spruce")).homestead
    setting = setting_of(h.place, h.array, h.mount, h.footing, h.drive, h.lock)
    parts = (*standing_parts(setting), *locked_parts(setting))

    def gusts(tilts):
        still, blown = dead(setting, tilts), unit_wind(setting, tilts)
        calm, gusting = crossed(still, blown, 1.0, 0.0), crossed(still, blown, 0.0, 1.0)
        return first_crossing(parts, calm, gusting).gust_m_s

    tilts = setting.card_tilts_deg
    gusts(tilts)
    start = perf_counter()
    together = gusts(tilts)
    between = perf_counter()
    alone = np.concatenate([gusts(tilts[place : place + 1]) for place in range(len(tilts))])
    end = perf_counter()
    np.testing.assert_allclose(together, alone, rtol=1e-6)
    return [("gust card, all tilts at once", (end - between) / (between - start), 10.0)]
