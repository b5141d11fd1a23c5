"""Hourly weather of one or many years."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from polestead.base.source import Source

Floats = NDArray[np.float32]


@dataclass(frozen=True, slots=True, eq=False)
class WeatherYears:
    """Working years of hourly weather, hours [start, end) in local standard time (conventions §6).

    Attributes:
        global_w_m2: Global horizontal irradiance [years, 8760].
        beam_w_m2: Beam normal irradiance [years, 8760].
        diffuse_w_m2: Diffuse horizontal irradiance [years, 8760].
        air_c: Air temperature [years, 8760].
        kind: Where the years come from.
        winter_error: Share by which a winter figure may be off because of the source (0.15 for the table).
        year_error: The same for a whole year.
        source: Provenance.
        notes: What the owner must see beside figures that rest on it (defects of a file included).
        fresh_snow_m: Fresh snow of each day [years, 365]; None where nothing is known of it.
    """

    global_w_m2: Floats
    beam_w_m2: Floats
    diffuse_w_m2: Floats
    air_c: Floats
    kind: Literal["synthetic", "typical year", "measured years"]
    winter_error: float
    year_error: float
    source: Source
    notes: tuple[str, ...] = ()
    fresh_snow_m: Floats | None = None

    @property
    def years(self) -> int:
        """How many there are."""
        return int(self.air_c.shape[0])

    def part(self, start: int, stop: int) -> WeatherYears:
        """Some of the years, as views."""
        cut = slice(start, stop)
        snow = None if self.fresh_snow_m is None else self.fresh_snow_m[cut]
        return replace(
            self,
            global_w_m2=self.global_w_m2[cut],
            beam_w_m2=self.beam_w_m2[cut],
            diffuse_w_m2=self.diffuse_w_m2[cut],
            air_c=self.air_c[cut],
            fresh_snow_m=snow,
        )
