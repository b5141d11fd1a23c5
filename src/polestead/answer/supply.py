"""From the place's weather to the watts of each array."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from polestead.base.hours import WorkingYear, working_year
from polestead.homestead.model import Homestead, Household, NewArray
from polestead.modules.power import array_power_w, old_array_power_w
from polestead.mount.schedule import TiltSchedule
from polestead.site.place import clock_offset_hours, weather_of
from polestead.site.sunpath import SunPath, sun_path
from polestead.site.weather import WeatherYears
from polestead.sun.plane import (
    ground_reflectance_by_hour,
    plane_at_tilts_w_m2,
    plane_over_years_w_m2,
)
from polestead.sun.view import OpenSky, open_sky

Single = NDArray[np.float32]
SAMPLED_YEARS = (
    12  # enough for the mean energy by month and tilt that the search for habits starts from
)


@dataclass(frozen=True, slots=True, eq=False)
class Sun:
    """Path, sky and weather of the place, ready for any plane."""

    path: SunPath
    sky: OpenSky
    weather: WeatherYears
    reflectance: NDArray[np.float64]
    year: WorkingYear

    def on_plane_w_m2(self, schedule: TiltSchedule, facing_deg: float) -> Single:
        """All years on a plane that follows a schedule [years, 8760]."""
        tilts = schedule.tilt_by_hour_deg(self.year.day_of_year)
        return plane_over_years_w_m2(
            self.path, self.sky, self.weather, tilts, facing_deg, self.reflectance
        )


def sun_over(file: Homestead, folder: Path, years: int, seed: int) -> Sun:
    """The sun over the homestead.

    Args:
        file: The homestead.
        folder: Folder of its file, for a weather file named in it.
        years: Synthetic years to draw, where years are drawn.
        seed: Of the draw.
    """
    place = file.place
    path = sun_path(
        place.latitude_deg, place.longitude_deg, place.elevation_m, clock_offset_hours(place)
    )
    return Sun(
        path,
        open_sky(file.view, path, place.latitude_deg),
        weather_of(place, file.climate, path, folder, years, seed),
        ground_reflectance_by_hour(file.climate.snow_on_ground, path.start_month),
        working_year(path.start_month),
    )


def old_supply(house: Household, sun: Sun) -> dict[str, list[Single]]:
    """Watts of the arrays that are there already, by controller."""
    supply: dict[str, list[Single]] = {}
    for old in house.old_array:
        plane = sun.on_plane_w_m2(TiltSchedule("fixed", ((1, old.tilt_deg),)), old.facing_deg)
        supply.setdefault(old.controller, []).append(
            old_array_power_w(old, plane, sun.weather.air_c)
        )
    return supply


def new_power_w(array: NewArray, facing_deg: float, sun: Sun, schedule: TiltSchedule) -> Single:
    """Watts of the new array under a schedule [years, 8760]."""
    plane = sun.on_plane_w_m2(schedule, facing_deg)
    return array_power_w(array.module, array.columns * array.rows, plane, sun.weather.air_c)


def with_new(
    supply: dict[str, list[Single]], array: NewArray, power_w: Single
) -> dict[str, list[Single]]:
    """The supply with the new array beside the old ones."""
    joined = {name: list(powers) for name, powers in supply.items()}
    joined.setdefault(array.controller, []).append(power_w)
    return joined


def monthly_wh_by_tilt(
    array: NewArray, facing_deg: float, sun: Sun, tilts_deg: NDArray[np.float64]
) -> NDArray[np.float64]:
    """Mean energy of the new array by calendar month (January first) and tilt [12, tilts]."""
    weather, count = sun.weather, array.columns * array.rows
    picked = np.unique(np.linspace(0, weather.air_c.shape[0] - 1, SAMPLED_YEARS).astype(int))
    by_month = np.zeros((12, tilts_deg.size))
    for nth in picked:
        plane = plane_at_tilts_w_m2(
            sun.path,
            sun.sky,
            weather.global_w_m2[nth],
            weather.beam_w_m2[nth],
            weather.diffuse_w_m2[nth],
            tilts_deg,
            facing_deg,
            sun.reflectance,
        )
        power = array_power_w(
            array.module, count, plane, np.broadcast_to(weather.air_c[nth], plane.shape)
        )
        for month in range(12):
            by_month[month] += power[:, sun.year.month == month + 1].sum(axis=1)
    return by_month / picked.size
