"""What the house itself wants of the things that are paid for: the counterpart a price is held against."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from polestead.base.show import Style


@dataclass(frozen=True, slots=True)
class House:
    """Quantities worked out by the rooms below.

    Attributes:
        module_power_w: Rated power of the new array.
        modules: How many.
        concrete_m3: To order; 0 where none is poured.
        steel_kg: Weight of pole, strongback and rails, by the word a line would name them with (``pole``).
        stock_kg_m: Weight of a metre of each stock, named as the file names it.
        run_m: Length of the run; 0 where it is not known.
        fuel: Of the engine, empty for none.
        style: In whose units a figure per unit is told.
    """

    module_power_w: float
    modules: int = 1
    concrete_m3: float = 0.0
    steel_kg: Mapping[str, float] = field(default_factory=dict)
    stock_kg_m: Mapping[str, float] = field(default_factory=dict)
    run_m: float = 0.0
    fuel: str = ""
    style: Style = "metric"
