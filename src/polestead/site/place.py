"""The weather of a homestead's place, and the guard of the sign of its longitude."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from polestead.base.hours import MONTH_DAYS, MONTH_NAMES, dark_months, working_year
from polestead.base.problem import Problem, Wrong
from polestead.base.show import percent
from polestead.base.source import Source
from polestead.homestead.model import Climate, Place
from polestead.site.days import MEANS, DaySpread
from polestead.site.sunpath import SunPath, nearest_clock_hours
from polestead.site.table import (
    WINTER_ERROR,
    YEAR_ERROR,
    is_land,
    land_mask,
    monthly_climate,
)
from polestead.site.weather import WeatherYears

OWN_ERROR = 0.05  # of a long station mean: common practice, no source
Floats = NDArray[np.float64]
MAP_ROWS, MAP_COLUMNS = 27, 72  # five degrees each way, 75 N to 60 S


@dataclass(frozen=True, slots=True)
class PlaceInWords:
    """What the owner reads to see that the place is his.

    Attributes:
        words: The place's own climate in a sentence or two (coldest and warmest month, sunniest and darkest).
        land_map: A coarse land map as lines of text with the place marked.
        doubts: What does not fit together (record low against the table, clock against longitude).
    """

    words: str
    land_map: tuple[str, ...]
    doubts: tuple[str, ...]


def clock_offset_hours(place: Place) -> float:
    """Local standard time minus UTC: the file's, else the nearest whole hour by longitude."""
    if place.clock_offset_hours is not None:
        return place.clock_offset_hours
    return nearest_clock_hours(place.longitude_deg)


def place_in_words(place: Place) -> PlaceInWords:
    """The place's own climate in words, a map with a dot, and what does not fit.

    Args:
        place: The place section.

    Raises:
        Wrong: The point lies in the sea: most likely a sign.
    """
    found = monthly_climate(place.latitude_deg, place.longitude_deg, place.elevation_m)
    cold, warm = int(np.argmin(found.air_c)), int(np.argmax(found.air_c))
    words = (
        f"{abs(place.latitude_deg):.1f}° {'N' if place.latitude_deg >= 0 else 'S'}, "
        f"{abs(place.longitude_deg):.1f}° {'E' if place.longitude_deg >= 0 else 'W'}: "
        f"{MONTH_NAMES[cold]} is coldest at {_both(found.air_c[cold])}, {MONTH_NAMES[warm]} warmest at {_both(found.air_c[warm])}; "
        f"the air lets {percent(found.clearness.min())} of the sun through in {MONTH_NAMES[int(np.argmin(found.clearness))]} "
        f"and {percent(found.clearness.max())} in {MONTH_NAMES[int(np.argmax(found.clearness))]}. Is that your place?"
    )
    return PlaceInWords(
        words,
        _land_map(place.latitude_deg, place.longitude_deg),
        tuple(_doubts(place, float(found.air_c[cold]), found.cell_elevation_m)),
    )


def _both(celsius: float) -> str:
    return f"{celsius:.0f} C ({celsius * 1.8 + 32:.0f} F)".replace("-", "−")


def _doubts(place: Place, coldest_c: float, ground_m: float) -> list[str]:
    told = []
    if place.record_low_c > coldest_c - 5.0:
        told.append(
            f"a record low of {place.record_low_c:.0f} C is hardly under the coldest month's mean of {coldest_c:.0f} C: is the longitude's sign right?"
        )
    if place.record_low_c < coldest_c - 50.0:
        told.append(
            f"a record low of {place.record_low_c:.0f} C is far under the coldest month's mean of {coldest_c:.0f} C: is the place right?"
        )
    off = clock_offset_hours(place) - place.longitude_deg / 15.0
    if abs(off) > 2.5:
        told.append(
            f"the clock runs {off:+.1f} h off the sun: is the longitude's sign right, and is it standard time?"
        )
    if abs(ground_m - place.elevation_m) > 1000.0:
        told.append(
            f"the country there lies about {ground_m:.0f} m high, the file says {place.elevation_m:.0f} m"
        )
    if not is_land(place.latitude_deg, place.longitude_deg):
        told.append("the coarse map has water there; the nearest land's climate was taken")
    return told


def _land_map(latitude_deg: float, longitude_deg: float) -> tuple[str, ...]:
    """The earth in letters, # land, the place an X."""
    land = (
        land_mask()[15 : 15 + 5 * MAP_ROWS].reshape(MAP_ROWS, 5, MAP_COLUMNS, 5).mean(axis=(1, 3))
        > 0.4
    )
    lines = [["#" if cell else "." for cell in row] for row in land]
    row = int(np.clip((75.0 - latitude_deg) // 5, 0, MAP_ROWS - 1))
    lines[row][int((longitude_deg + 180.0) // 5) % MAP_COLUMNS] = "X"
    return tuple("".join(line) for line in lines)


@dataclass(frozen=True, slots=True, eq=False)
class KnownClimate:
    """What is known of a place's climate, found once; years are drawn from it as often as wanted.

    Attributes:
        path: The sun's path over the place.
        clearness: Monthly, January first [12].
        air_c: The same [12].
        winter_error, year_error: Shares by which the sun may be off.
        source: Where it comes from.
        notes: What stands beside.
        day_spread: How the place's own days spread; None for the family's.
        snowfall_m: The owner's mean winter of fresh snow; None for the rough rule.
        measured: Years that run as they are; None where years are drawn.
    """

    path: SunPath
    clearness: Floats
    air_c: Floats
    winter_error: float
    year_error: float
    source: Source
    notes: tuple[str, ...]
    day_spread: DaySpread | None
    snowfall_m: float | None
    measured: WeatherYears | None

    def years(self, count: int, seed: int, first: int = 0, lean: float = 0.0) -> WeatherYears:
        """Synthetic years about the months, or all the measured ones.

        Args:
            count: Synthetic years to draw.
            seed: Of the draw.
            first: Number of the first year drawn, where years are drawn in blocks.
            lean: How far the climate is laid to the bright (above nothing) or the dark side of what its source may be off by, in
                whole errors: 1 is as far off as that; measured years are not moved.
        """
        from polestead.site.synthetic import synthetic_years

        if self.measured is not None:
            return self.measured
        start_month = self.path.start_month
        dark = np.isin(np.arange(1, 13), dark_months(start_month))
        error = np.where(dark, self.winter_error, self.year_error)
        return synthetic_years(
            np.clip(self.clearness * (1.0 + lean * error), *MEANS), self.air_c, self.path, working_year(start_month), count, seed,
            self.notes, (self.winter_error, self.year_error), self.source, first, self.day_spread, self.snowfall_m,
        )  # fmt: skip


def climate_of(place: Place, climate: Climate, path: SunPath, folder: Path) -> KnownClimate:
    """What is known of the climate: from the weather file, the owner's figures, or the shipped table.

    Args:
        place: The place section.
        climate: The climate section.
        path: The sun's path over the place.
        folder: Folder of the homestead file, for a weather file named in it.

    Raises:
        Wrong: A weather file or figures that cannot be.
    """
    from polestead.site.synthetic import SOURCE

    snow = climate.snowfall_m
    if climate.source == "file" and climate.file is not None:
        return _from_file(place, folder / climate.file, path, snow)
    found = monthly_climate(place.latitude_deg, place.longitude_deg, place.elevation_m)
    if climate.source == "months":
        air = np.array(climate.air_by_month_c) if climate.air_by_month_c else found.air_c
        note = "Your own monthly figures of the sun; a long mean of a station nearby is good to about 5 %."
        clear = _clearness_of(np.array(climate.sun_kwh_m2_day), path)
        return KnownClimate(
            path, clear, air, OWN_ERROR, OWN_ERROR, SOURCE, (note,), None, snow, None
        )
    note = f"Table climate: figures may be off by {percent(YEAR_ERROR)} a year and {percent(WINTER_ERROR)} in winter."
    return KnownClimate(
        path,
        found.clearness,
        found.air_c,
        WINTER_ERROR,
        YEAR_ERROR,
        SOURCE,
        (note,),
        None,
        snow,
        None,
    )


def _from_file(place: Place, file: Path, path: SunPath, snowfall_m: float | None) -> KnownClimate:
    """Measured years as they are; else the file's months and the spread of its own days."""
    from polestead.site.files_in import (
        FILE_ERROR,
        MEASURED_YEARS,
        learned_days,
        months_of,
        weather_file,
    )

    year = working_year(path.start_month)
    known = weather_file(
        file, year, place.latitude_deg, place.longitude_deg, clock_offset_hours(place), place.elevation_m, path
    )  # fmt: skip
    enough = known.kind == "measured years" and known.years >= MEASURED_YEARS
    clear, air = months_of(known, path, year)
    return KnownClimate(
        path, clear, air, FILE_ERROR, FILE_ERROR, known.source, known.notes, learned_days(known, path, year), snowfall_m,
        known if enough else None,
    )  # fmt: skip


def weather_of(
    place: Place, climate: Climate, path: SunPath, folder: Path, years: int = 100, seed: int = 1
) -> WeatherYears:
    """Years of the place's weather in one piece: ``climate_of``, then its ``years``.

    Args:
        place: The place section.
        climate: The climate section.
        path: The sun's path over the place.
        folder: Folder of the homestead file, for a weather file named in it.
        years: Synthetic years to draw.
        seed: Of the draw.
    """
    return climate_of(place, climate, path, folder).years(years, seed)


def _clearness_of(sun_kwh_m2_day: Floats, path: SunPath) -> Floats:
    """Monthly clearness from the owner's figures, January first [12].

    Raises:
        Wrong: A month with more sun than the clearest air lets through, or none where there should be some.
    """
    month = working_year(path.start_month).month
    outside = np.array(
        [
            path.extra_flat_w_m2[month == m].sum() / (MONTH_DAYS[m - 1] * 1000.0)
            for m in range(1, 13)
        ]
    )
    clear = np.where(outside > 0.05, sun_kwh_m2_day / np.maximum(outside, 0.05), MEANS[0])
    problems = [
        Problem(
            "climate", "sun_kwh_m2_day", f"{sun_kwh_m2_day[m]:g} in {MONTH_NAMES[m]}",
            f"{MEANS[0] * outside[m]:.2f} to {MEANS[1] * outside[m]:.2f} kWh/m2 a day at this latitude",
            "Check the place, the unit, and that January comes first.",
        )
        for m in range(12)
        if not MEANS[0] <= clear[m] <= MEANS[1] + 1e-9
    ]  # fmt: skip
    if problems:
        raise Wrong(problems)
    return np.asarray(clear)
