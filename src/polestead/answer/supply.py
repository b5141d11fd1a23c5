"""From the place's weather to the watts of each array, block of years after block."""

from __future__ import annotations

from collections.abc import Iterator
from copy import copy
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from polestead.base.hours import WorkingYear, working_year
from polestead.homestead.model import Homestead, Household, NewArray, View
from polestead.modules.power import array_power_w, old_array_power_w
from polestead.mount.geometry import Geometry, lowest_edge_m
from polestead.mount.heap import heap_height_m
from polestead.mount.schedule import EachDaysBest, Habitual, SkyRule, TiltSchedule
from polestead.site.place import climate_of, clock_offset_hours
from polestead.site.snowfall import lying_snow_m, snow_lies
from polestead.site.sunpath import SunPath, sun_path
from polestead.site.weather import WeatherYears
from polestead.sun.glass import RAIN_WASHED, Glass, kept_by_dirt, module_glass
from polestead.sun.plane import (
    SkyModel,
    daily_wh_m2_at_tilts,
    ground_reflectance_by_hour,
    plane_over_years_w_m2,
    reflectance_under_snow,
)
from polestead.sun.snow_on_glass import covered_share, power_left
from polestead.sun.view import OpenSky, open_sky

Single = NDArray[np.float32]
BLOCK_YEARS = 25  # worked in one piece: memory does not grow with the number of years
KEPT_YEARS = 100  # up to so many, blocks are kept; beyond, they are drawn again when wanted
SHED_FALL_M = 0.3  # one fall the ground under the low edge must take: common practice, no source


@dataclass(frozen=True, eq=False)
class Sun:
    """Path, sky and weather of the place over a block of years, ready for any plane.

    Attributes:
        path: Of the sun.
        sky: What comes past the skyline.
        weather: The block's years.
        reflectance: Of the ground [1 or years, 365].
        year: Calendar.
        room: Whether snow finds room under the low edge.
        sweeps: Whether the owner sweeps the glass.
        model: Of the sky.
        dirt: What dirt lets through against rain-washed glass [365].
        first: Number of the block's first year.
    """

    path: SunPath
    sky: OpenSky
    weather: WeatherYears
    reflectance: NDArray[np.float64]
    year: WorkingYear
    room: bool
    sweeps: bool
    dirt: NDArray[np.float64]
    model: SkyModel = "hay-davies"
    first: int = 0

    @cached_property
    def clearness(self) -> NDArray[np.float64]:
        """Of each day [years, 365]."""
        outside = self.path.extra_flat_w_m2.reshape(365, 24).sum(axis=1)
        total = self.weather.global_w_m2.reshape(-1, 365, 24).sum(axis=2, dtype=np.float64)
        return np.asarray(total / np.maximum(outside, 1e-9))

    def tilts_of(self, habit: Habitual, facing_deg: float) -> NDArray[np.float64]:
        """Tilt of each day of the working year [1 or years, 365]."""
        if isinstance(habit, TiltSchedule):
            return habit.tilt_by_hour_deg(self.year.calendar_day)[None]
        if isinstance(habit, SkyRule):
            return habit.tilt_by_day_deg(self.year.month_of_day, self.clearness)
        tilts = np.array(habit.tilts_deg)
        light = daily_wh_m2_at_tilts(
            self.path, self.sky, self.weather, tilts, facing_deg, self.reflectance
        )
        return np.asarray(tilts[np.argmax(light, axis=0)])

    def on_plane_w_m2(self, tilts_deg: NDArray[np.float64], facing_deg: float, glass: Glass | None) -> Single:  # fmt: skip
        """All years on a plane whose tilt is given by day."""
        return plane_over_years_w_m2(
            self.path,
            self.sky,
            self.weather,
            tilts_deg,
            facing_deg,
            self.reflectance,
            glass,
            self.model,
        )


class Skies:
    """The weather of a homestead, handed out in blocks of years."""

    def __init__(self, file: Homestead, folder: Path, geometry: Geometry, years: int, seed: int, lean: float = 0.0) -> None:  # fmt: skip
        place = file.place
        self._file, self._seed, self._lean = file, seed, lean
        self.path = sun_path(
            place.latitude_deg, place.longitude_deg, place.elevation_m, clock_offset_hours(place)
        )
        self._climate = climate_of(place, file.climate, self.path, folder)
        self._sky = self._past(file.view)
        steep = np.array([file.mount.winter_tilt_deg])
        heap_m = heap_height_m(SHED_FALL_M, geometry.chord_m)
        self._room = bool(lowest_edge_m(geometry, steep)[0] > heap_m + SHED_FALL_M)
        self._begin(years)

    def leaning(self, lean: float, years: int) -> Skies:
        """The same place with its climate laid to the bright (1) or the dark side (-1) of its error."""
        other = copy(self)
        other._lean = lean
        other._begin(years)
        return other

    def past(self, view: View, years: int) -> Skies:
        """The same weather past another skyline."""
        other = copy(self)
        other._sky = self._past(view)
        other._begin(years)
        return other

    def _past(self, view: View) -> OpenSky:
        place, array_m = self._file.place, self._file.mount.hinge_height_m
        return open_sky(
            view, self.path, place.latitude_deg, place.longitude_deg, place.elevation_m, array_m
        )

    def _begin(self, years: int) -> None:
        """Draw the first block, which tells what kind of weather it is."""
        self._kept: dict[int, Sun] = {}
        first = self._drawn(0, min(years, BLOCK_YEARS))
        self.weather = first  # of the first block: kind, source, errors, notes
        self._whole = first if first.kind == "measured years" else None
        self.years = first.years if self._whole is not None else years
        if self._whole is None:
            self._kept[0] = self._sun(first, 0)

    def _drawn(self, first: int, years: int) -> WeatherYears:
        return self._climate.years(years, self._seed, first, self._lean)

    def blocks(self, most_years: int | None = None) -> Iterator[Sun]:
        """The years in their order, a block at a time.

        Args:
            most_years: Stop after the block that holds so many; None for all.
        """
        years = self.years if most_years is None else min(most_years, self.years)
        for start in range(0, years, BLOCK_YEARS):
            stop = min(start + BLOCK_YEARS, self.years)
            if start in self._kept:
                yield self._kept[start]
                continue
            weather = (
                self._whole.part(start, stop)
                if self._whole is not None
                else self._drawn(start, stop - start)
            )
            sun = self._sun(weather, start)
            if self.years <= KEPT_YEARS:
                self._kept[start] = sun
            yield sun

    def _sun(self, weather: WeatherYears, first: int) -> Sun:
        file, year = self._file, working_year(self.path.start_month)
        dirt = file.array.dirt_by_month or RAIN_WASHED
        washed = kept_by_dirt(year.month_of_day, RAIN_WASHED)
        return Sun(
            self.path, self._sky, weather, _ground(file, weather, self.path.start_month), year, self._room,
            file.array.swept, kept_by_dirt(year.month_of_day, tuple(dirt)) / washed, file.climate.sky, first,
        )  # fmt: skip


def _ground(file: Homestead, weather: WeatherYears, start_month: int) -> NDArray[np.float64]:
    """Reflectance of the ground [1 or years, 365]: the owner's snowy months, else the weather's own snow."""
    months = file.climate.snow_on_ground
    if months or weather.fresh_snow_m is None:
        return ground_reflectance_by_hour(months, start_month)[None, ::24]
    day_c = weather.air_c.reshape(-1, 365, 24).mean(axis=2)
    return reflectance_under_snow(snow_lies(weather.fresh_snow_m, day_c))


def lying_by_day_m(sun: Sun) -> NDArray[np.float64]:
    """Snow on open ground that one winter in ten passes, by calendar day [365]."""
    fresh = sun.weather.fresh_snow_m
    if fresh is None:
        return np.zeros(365)
    day_c = sun.weather.air_c.reshape(-1, 365, 24).mean(axis=2)
    by_day = np.empty(365)
    by_day[sun.year.calendar_day - 1] = np.quantile(lying_snow_m(fresh, day_c), 0.9, axis=0)
    return by_day


def old_supply(house: Household, sun: Sun) -> dict[str, list[Single]]:
    """Watts of the arrays that are there already, by controller; snow on their glass as on the new array's."""
    supply: dict[str, list[Single]] = {}
    for old in house.old_array:
        tilts = np.full((1, 365), old.tilt_deg)
        plane = sun.on_plane_w_m2(tilts, old.facing_deg, None)
        power = old_array_power_w(old, plane, sun.weather.air_c)
        supply.setdefault(old.controller, []).append(_under_snow(sun, power, plane, tilts, 1, True))
    return supply


def new_power_w(array: NewArray, facing_deg: float, sun: Sun, habit: Habitual) -> Single:
    """Watts of the new array under a habit [years, 8760]."""
    tilts = sun.tilts_of(habit, facing_deg)
    plane, power = _bare(array, facing_deg, sun, tilts)
    if isinstance(habit, EachDaysBest):  # a bound: on glass always bare
        return power
    return _under_snow(sun, power, plane, tilts, array.rows, sun.room, sun.sweeps) * _dirt(sun)


def bare_power_w(array: NewArray, facing_deg: float, sun: Sun, tilts_deg: NDArray[np.float64]) -> Single:  # fmt: skip
    """Watts of the new array on glass without snow, dirt counted [years, 8760].

    Args:
        array: The new array.
        facing_deg: Where it looks.
        sun: A block of years.
        tilts_deg: By day of the working year [1 or years, 365].
    """
    return np.asarray(_bare(array, facing_deg, sun, tilts_deg)[1] * _dirt(sun), dtype=np.float32)


def _bare(
    array: NewArray, facing_deg: float, sun: Sun, tilts_deg: NDArray[np.float64]
) -> tuple[Single, Single]:
    """Light on the plane, and watts on clean glass."""
    plane = sun.on_plane_w_m2(tilts_deg, facing_deg, module_glass())
    count = array.columns * array.rows
    return plane, array_power_w(array.module, count, plane, sun.weather.air_c, through_glass=True)


def _dirt(sun: Sun) -> Single:
    return np.repeat(sun.dirt, 24).astype(np.float32)


def _under_snow(
    sun: Sun, power: Single, plane: Single, tilts: NDArray[np.float64], rows: int, room: bool, sweeps: bool = False
) -> Single:  # fmt: skip
    fresh = sun.weather.fresh_snow_m
    if fresh is None or not fresh.any():
        return power
    covered = covered_share(fresh, plane, sun.weather.air_c, tilts, room, sweeps)
    return np.asarray(power * power_left(covered, rows), dtype=np.float32)


def with_new(
    supply: dict[str, list[Single]], controller: str, power_w: Single
) -> dict[str, list[Single]]:
    """The supply with the new array beside the old ones, on a controller."""
    joined = {name: list(powers) for name, powers in supply.items()}
    joined.setdefault(controller, []).append(power_w)
    return joined


def daily_wh_by_tilt(
    array: NewArray, facing_deg: float, sun: Sun, tilts_deg: NDArray[np.float64]
) -> Single:
    """Energy of the new array on each day if it stood at each tilt, snow, glass and warmth counted [tilts, years, 365]."""
    days = [
        new_power_w(array, facing_deg, sun, TiltSchedule("fixed", ((1, float(tilt)),)))
        .reshape(-1, 365, 24)
        .sum(axis=2)
        for tilt in tilts_deg
    ]
    return np.array(days, dtype=np.float32)
