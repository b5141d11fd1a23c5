"""Cells of a bank in series, and the volts a cell is charged at: one count and one set of figures for every room."""

from __future__ import annotations

from polestead.base.source import Source

LEAD_CELL_V = 2.0
IRON_CELL_V = 3.2
IRON_GENTLE_V = 3.45  # lower end of what makers of lithium iron phosphate cells write for charging
IRON_FULL_V = 3.6  # upper end
IRON_WH_PER_KG = 100.0  # a bank in its box, from memory
IRON_HEAT_J_KG_K = 1000.0  # lithium cells, from memory
LEAD_CELLS = Source("2 V a cell", status="common practice")
IRON_CELLS = Source("3.2 V a cell; lithium banks named 12, 24, 36 or 48 V are sold with 4 cells for every 12 V", status="common practice")  # fmt: skip


def cells_in_series(lithium: bool, nominal_v: float) -> int:
    """Cells of a bank in series, from the name of its voltage.

    Source: 2 V (lead-acid) or 3.2 V (lithium iron phosphate) a cell, common practice.  A lithium bank named in twelves has 4
    cells for every 12 V, so that 48 V is the 51.2 V bank of 16; one of 15 cells is sold under that name too, and its owner
    writes the count (``battery.cells``).

    Args:
        lithium: Lithium iron phosphate; else lead-acid.
        nominal_v: As the bank is named [V].

    Example:
        >>> cells_in_series(True, 51.2), cells_in_series(True, 48.0), cells_in_series(True, 12.8), cells_in_series(False, 48.0)
        (16, 16, 4, 24)
    """
    if not lithium:
        return max(round(nominal_v / LEAD_CELL_V), 1)
    if nominal_v % 12.0 == 0.0:
        return round(nominal_v / 3.0)
    return max(round(nominal_v / IRON_CELL_V), 1)
