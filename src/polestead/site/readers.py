"""Weather files of every kind brought to one shape, through pvlib's readers: what kind a file is, its own first lines tell."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import timedelta
from pathlib import Path
from typing import Any, Literal

import numpy as np

from polestead.base.problem import Problem, Wrong
from polestead.base.quiet import solar_library

Kind = Literal["EPW", "TMY3", "NSRDB", "PVGIS hourly", "PVGIS typical year"]
KINDS = "an EPW, TMY3, NSRDB or PVGIS file"
LARGEST_BYTES = 400e6
COLUMNS = ("ghi", "dni", "dhi", "air")


@dataclass(frozen=True, slots=True, eq=False)
class RawWeather:
    """A file as read: rows begin at their stamp.

    Attributes:
        name: Of the file.
        kind: Of the file.
        frame: Columns ghi, dni, dhi, air; index in the file's own local standard time.
        latitude_deg, longitude_deg, elevation_m: The file's own; not a number where it has none.
        zone_h: Its local standard time minus UTC.
        notes: What was done to bring it here.
    """

    name: str
    kind: Kind
    frame: Any
    latitude_deg: float
    longitude_deg: float
    elevation_m: float
    zone_h: float
    notes: tuple[str, ...]


def refused(path: Path, given: str, allowed: str, do: str) -> Wrong:
    """A weather file that cannot be used, in the owner's words."""
    return Wrong([Problem("climate", "file", f"{path.name}: {given}", allowed, do)])


def kind_of(path: Path) -> Kind:
    """What kind of weather file it is, by its first lines.

    Raises:
        Wrong: No such file, too large, or of no kind known here.
    """
    if not path.is_file():
        raise refused(path, "no such file", "a weather file beside the homestead file", "Check its name.")  # fmt: skip
    if path.stat().st_size > LARGEST_BYTES:
        raise refused(path, f"{path.stat().st_size / 1e6:.0f} MB", f"at most {LARGEST_BYTES / 1e6:.0f} MB", "Take fewer years.")  # fmt: skip
    with path.open("rb") as opened:
        head = opened.read(4096).decode("utf-8", errors="replace")
    lines = [*head.splitlines(), "", "", ""]
    if lines[0].startswith("LOCATION,"):
        return "EPW"
    if lines[1].lower().startswith("date (mm/dd/yyyy)"):
        return "TMY3"
    if lines[0].startswith("Source,") and lines[2].startswith("Year,Month,Day,Hour,Minute"):
        return "NSRDB"
    if lines[0].startswith("Latitude (decimal degrees)") or head.lstrip().startswith('{"inputs"'):
        return "PVGIS typical year" if "month,year" in head or '"tmy' in head else "PVGIS hourly"
    raise refused(path, "not readable: its first lines are of no kind known here", KINDS, "Is it another kind of file?")  # fmt: skip


def read_raw(path: Path) -> RawWeather:
    """Read a weather file of any kind.

    Args:
        path: The file.

    Raises:
        Wrong: Not readable, or light on a slanting plane.
    """
    kind = kind_of(path)
    try:
        return _READERS[kind](path, kind)
    except Wrong:
        raise
    except Exception as failed:  # the readers raise whatever their parsers do
        first = (str(failed).strip().splitlines() or [""])[0][:120]
        raise refused(path, f"not readable as {kind} ({first})", KINDS, "Is it whole?") from None


def _epw_or_tmy3(path: Path, kind: Kind) -> RawWeather:
    if kind == "EPW":
        data, about = solar_library().iotools.read_epw(str(path))
    else:
        data, about = solar_library().iotools.read_tmy3(str(path), map_variables=True)
        data.index = data.index - timedelta(hours=1)  # its stamps end the hour
    return _raw(path, kind, data, about, float(about["TZ"]), ())


def _nsrdb(path: Path, kind: Kind) -> RawWeather:
    data, about = solar_library().iotools.read_nsrdb_psm4(str(path))
    minutes = sorted(set(data.index.minute))
    notes: tuple[str, ...] = ()
    if len(minutes) > 1:
        data = data.select_dtypes("number").resample("1h").mean().dropna(how="all")
        notes = (
            f"{path.name} has a row every {60 // len(minutes)} minutes; hours are their means.",
        )
    elif minutes != [0]:
        data.index = data.index.floor("h")
        notes = (f"{path.name} stamps its hours at their minute {minutes[0]}; each is taken as the hour about it.",)  # fmt: skip
    return _raw(path, kind, data, about, float(about["Time Zone"]), notes)


def _pvgis_typical(path: Path, kind: Kind) -> RawWeather:
    read = solar_library().iotools.read_pvgis_tmy(str(path))
    data, about = read[0], read[-1]
    about = about.get("inputs", about) if isinstance(about, dict) else {}
    place = about.get("location", about)
    place = {key: value.get("value", value) if isinstance(value, dict) else value for key, value in place.items()}  # fmt: skip
    note = f"{path.name} is in UTC; it is turned to the homestead's clock."
    return _raw(path, kind, data, place, 0.0, (note,))


def _pvgis_hourly(path: Path, kind: Kind) -> RawWeather:
    data, about = solar_library().iotools.read_pvgis_hourly(str(path))[:2]
    slope = _slope_deg(path, about)
    if slope is None or abs(slope) > 0.5:
        given = "light on a slanting plane" if slope is None else f"light on a plane of {slope:g} degrees"  # fmt: skip
        raise refused(path, given, "light on level ground", "Ask for the hourly series again with a slope of 0.")  # fmt: skip
    if "poa_global" in data:
        data["ghi"] = data["poa_global"]
    else:
        data["ghi"] = data["poa_direct"] + data["poa_sky_diffuse"] + data["poa_ground_diffuse"]
        data["dhi"] = data["poa_sky_diffuse"]
    stamp = int(data.index[0].minute)
    data.index = data.index.floor("h")
    place = about.get("inputs", {}).get("location", about) if "inputs" in about else about
    notes = (
        f"{path.name} is in UTC and tells the light at minute {stamp} of each hour; that is taken for the hour's mean.",
    )
    return _raw(path, kind, data, place, 0.0, notes)


def _slope_deg(path: Path, about: dict[str, Any]) -> float | None:
    """Slope of the plane the light falls on, where the file tells it."""
    text = path.read_text(encoding="utf-8", errors="replace")[:4096]
    for line in text.splitlines():
        if line.lower().startswith("slope"):
            digits = "".join(
                c if c.isdigit() or c in ".-" else " " for c in line.split(":", 1)[-1]
            ).split()
            return float(digits[0]) if digits else None
    mounted = about.get("inputs", {}).get("mounting_system", {}).get("fixed", {})
    slope = mounted.get("slope", {}).get("value")
    return float(slope) if slope is not None else None


_READERS = {
    "EPW": _epw_or_tmy3,
    "TMY3": _epw_or_tmy3,
    "NSRDB": _nsrdb,
    "PVGIS hourly": _pvgis_hourly,
    "PVGIS typical year": _pvgis_typical,
}
_NAMES = {"temp_air": "air"}


def _raw(
    path: Path, kind: Kind, data: Any, about: dict[str, Any], zone_h: float, notes: tuple[str, ...]
) -> RawWeather:
    frame = data.rename(columns=_NAMES)
    kept = [name for name in COLUMNS if name in frame]
    if "ghi" not in kept or "air" not in kept:
        raise refused(path, "no global light or no air temperature in it", KINDS, "Ask for the file again with both.")  # fmt: skip
    frame = frame[kept].astype(np.float64)
    # makers of these files write a missing value as 9999, -9999 or -99
    return RawWeather(
        path.name, kind, frame.mask((frame >= 9999.0) | (frame <= -99.0)), _number(about, "latitude"), _number(about, "longitude"),
        _number(about, "altitude", "elevation"), zone_h, notes,
    )  # fmt: skip


def _number(about: dict[str, Any], *names: str) -> float:
    for name in names:
        if name in about and about[name] is not None:
            return float(about[name])
    return float("nan")
