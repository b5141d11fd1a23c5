"""Weather files of one typical year: EPW and TMY3, through pvlib's readers."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import numpy as np
from numpy.typing import NDArray

from polestead.base.hours import HOURS, WorkingYear
from polestead.base.problem import Problem, Wrong
from polestead.base.source import Source
from polestead.site.days import MEANS
from polestead.site.sunpath import SunPath
from polestead.site.weather import WeatherYears

Floats = NDArray[np.float64]
FAR_DEG = 1.0
NOTE = "Years are drawn about the months of the weather file, for one typical year has no good and no bad winter in it."


def weather_file(
    path: Path, year: WorkingYear, latitude_deg: float, longitude_deg: float
) -> WeatherYears:
    """One typical year from an EPW or a TMY3 file (old or new), turned to the working year.

    Hours of both kinds end at their stamp; pvlib's readers give the start of the hour.

    Args:
        path: The file; its ending tells the kind (``.epw``, ``.csv``).
        year: Calendar of the working year.
        latitude_deg: Of the homestead, to tell a file of another place.
        longitude_deg: The same.

    Raises:
        Wrong: No such file, not readable, not 8760 hours, or values that cannot be.
    """
    data, about = _read(path)
    data = data[~((data.index.month == 2) & (data.index.day == 29))]
    if len(data) != HOURS:
        raise _refused(
            path,
            f"{len(data)} hours",
            "a whole year of 8760 hours, a leap day left out",
            "Fill the gaps.",
        )
    columns = {
        name: data[name].to_numpy(dtype=np.float64) for name in ("ghi", "dni", "dhi", "temp_air")
    }
    notes = [NOTE, *_told(path, columns, about, latitude_deg, longitude_deg)]
    turned = {
        name: np.ascontiguousarray(year.from_january(values)[None, :], dtype=np.float32)
        for name, values in columns.items()
    }
    return WeatherYears(
        np.maximum(turned["ghi"], 0.0), np.maximum(turned["dni"], 0.0), np.maximum(turned["dhi"], 0.0), turned["temp_air"],
        "typical year", 0.05, 0.05, Source(path.name, str(about.get("city", about.get("Name", ""))), "owner"), tuple(notes),
    )  # fmt: skip


def _refused(path: Path, given: str, allowed: str, do: str) -> Wrong:
    return Wrong([Problem("climate", "file", f"{path.name}: {given}", allowed, do)])


def _read(path: Path) -> tuple[Any, dict[str, Any]]:
    from pvlib import iotools

    if not path.is_file():
        raise _refused(
            path, "no such file", "a weather file beside the homestead file", "Check its name."
        )
    try:
        if path.suffix.lower() == ".epw":
            data, about = iotools.read_epw(str(path))
        else:
            data, about = iotools.read_tmy3(str(path), map_variables=True)
    except Exception as failed:  # the readers raise whatever their parsers do
        raise _refused(
            path, f"not readable ({failed})", "an EPW or TMY3 file", "Is it another kind of file?"
        ) from None
    return data, about


def _told(
    path: Path,
    columns: dict[str, Any],
    about: dict[str, Any],
    latitude_deg: float,
    longitude_deg: float,
) -> list[str]:
    """What the owner must know of the file; what cannot be used is refused."""
    if any(not np.isfinite(values).all() for values in columns.values()):
        raise _refused(path, "missing values", "a number in every hour", "Fill the gaps.")
    notes = []
    for name, most in (("ghi", 1500.0), ("dni", 1500.0), ("dhi", 1000.0)):
        values = columns[name]
        if (values < -20.0).any() or (values > most).any():
            raise _refused(
                path,
                f"{name} from {values.min():.0f} to {values.max():.0f} W/m2",
                f"0 to {most:.0f}",
                "Check its units.",
            )
        if (values < 0.0).any():
            notes.append(
                f"{int((values < 0.0).sum())} hours of {path.name} had a little less than no light; taken as none."
            )
    if (np.abs(columns["temp_air"]) > 70.0).any():
        raise _refused(path, "air past 70 C", "-70 to 70 C", "Check its units.")
    north, east = (
        float(about.get("latitude", latitude_deg)),
        float(about.get("longitude", longitude_deg)),
    )
    if abs(north - latitude_deg) > FAR_DEG or abs(east - longitude_deg) > FAR_DEG:
        notes.append(
            f"{path.name} is of {north:.1f}, {east:.1f}, which is not this place: sun and temperature may differ."
        )
    return notes


def months_of(typical: WeatherYears, path: SunPath, year: WorkingYear) -> tuple[Floats, Floats]:
    """Monthly clearness and air temperature of a typical year, January first [12] each.

    Args:
        typical: One year.
        path: The sun's path over the place.
        year: Its calendar.
    """
    clear, air = np.empty(12), np.empty(12)
    for month in range(1, 13):
        hours = year.month == month
        outside = float(path.extra_flat_w_m2[hours].sum())
        clear[month - 1] = (
            float(typical.global_w_m2[0, hours].sum()) / outside if outside > 1.0 else MEANS[0]
        )
        air[month - 1] = float(typical.air_c[0, hours].mean())
    return np.clip(clear, *MEANS), air
