"""What a meter shows, in the unit and order it is published in."""

from __future__ import annotations

from polestead.homestead.demos import demo_path
from polestead.homestead.read import read_homestead
from polestead.wiring.drawn.cold_reading import cold_factor
from polestead.wiring.drawn.form import insulation_of


def insulation_test_v(open_v) -> list[float]:
    return [insulation_of(float(v)).test_v for v in open_v]


def cold_reading_v(reading_v: float, cell_c: float, record_low_c: float, change: float) -> float:
    sheet = read_homestead(demo_path("hollow-spruce")).homestead.array.module
    module = sheet.model_copy(update={"voltage_change_per_k": change})
    return reading_v * cold_factor(module, cell_c, record_low_c)
