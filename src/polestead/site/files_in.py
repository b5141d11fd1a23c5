"""Weather files turned to working years: every defect told, small gaps filled, the clock set right."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import numpy as np
from numpy.typing import NDArray

from polestead.base.hours import HOURS, WorkingYear
from polestead.base.problem import Problem, Wrong
from polestead.base.show import percent
from polestead.base.source import Source
from polestead.site.days import MEANS, DaySpread, spread_of_days
from polestead.site.readers import RawWeather, read_raw
from polestead.site.sunpath import SunPath, nearest_clock_hours
from polestead.site.weather import WeatherYears

Floats = NDArray[np.float64]
FAR_DEG = 1.0
FAR_M = 300.0
FILE_ERROR = 0.05  # of a typical year's or a short record's months: common practice, no source
ZONE_OFF_H = 2.5
MOST = {"ghi": 1500.0, "dni": 1500.0, "dhi": 1000.0}
LIGHT_GAP_H, AIR_GAP_H = 3, 24
MEASURED_YEARS = 10  # from so many working years on a record has its own good and bad years
NOTE = "Years are drawn about the months of the weather file, for one typical year has no good and no bad winter in it."
FEW = "Years are drawn about the months of the record, for {n} whole winters are too few for a good and a bad one; from {least} on they run as they are."
RUN = "{n} measured years run as they are, one after the other; good and bad year are the best and worst tenth of these."
KNOWN_DAYS = 30.0  # a month's spread learned from so many days counts as much as the family's: ours


def weather_file(
    path: Path,
    year: WorkingYear,
    latitude_deg: float,
    longitude_deg: float,
    clock_offset_h: float | None = None,
    elevation_m: float | None = None,
    sun: SunPath | None = None,
) -> WeatherYears:
    """A typical year, or all whole working years of a record, from an EPW, TMY3, NSRDB or PVGIS file.

    Args:
        path: The file.
        year: Calendar of the working year.
        latitude_deg: Of the homestead, to tell a file of another place.
        longitude_deg: The same.
        clock_offset_h: The homestead's standard time minus UTC; None for the nearest hour by longitude.
        elevation_m: Of the homestead; None leaves the question out.
        sun: The sun's path over the homestead, to tell stamps that are off; None leaves the question out.

    Returns:
        Kind "typical year" with one year, or "measured years" with all of them, few or many.

    Raises:
        Wrong: With everything that is wrong with the file.
    """
    raw = read_raw(path)
    offset = nearest_clock_hours(longitude_deg) if clock_offset_h is None else clock_offset_h
    notes = [*raw.notes, *_placed(raw, latitude_deg, longitude_deg, elevation_m)]
    _refuse(path, [*_zone(raw), *_values(raw)])
    blocks, told = _years_of(path, raw, offset, year)
    _refuse(path, told.problems)
    notes += told.notes
    columns = {name: np.array([block[name] for block in blocks]) for name in blocks[0]}
    notes += _light_made(raw, columns, sun)
    if sun is not None:
        notes += _off_the_sun(raw, columns["ghi"], sun)
    floats = {name: np.asarray(values, dtype=np.float32) for name, values in columns.items()}
    measured = raw.kind in ("NSRDB", "PVGIS hourly") and len(blocks) > 1
    error = 0.0 if measured else FILE_ERROR
    return WeatherYears(
        np.maximum(floats["ghi"], 0.0), np.maximum(floats["dni"], 0.0), np.maximum(floats["dhi"], 0.0), floats["air"],
        "measured years" if measured else "typical year", error, error,
        Source(path.name, raw.kind, "owner"), (_kind_note(measured, len(blocks)), *notes),
    )  # fmt: skip


def _kind_note(measured: bool, years: int) -> str:
    if not measured:
        return NOTE
    return RUN.format(n=years) if years >= MEASURED_YEARS else FEW.format(n=years, least=MEASURED_YEARS)  # fmt: skip


def _refuse(path: Path, slips: list[tuple[str, str, str]]) -> None:
    if slips:
        raise Wrong(
            [Problem("climate", "file", f"{path.name}: {given}", allowed, do) for given, allowed, do in slips]
        )  # fmt: skip


Slip = tuple[str, str, str]


def _zone(raw: RawWeather) -> list[Slip]:
    """A clock that does not go with the file's own longitude."""
    if raw.kind.startswith("PVGIS") or not np.isfinite(raw.longitude_deg):
        return []
    off = raw.zone_h - raw.longitude_deg / 15.0
    if abs(off) <= ZONE_OFF_H:
        return []
    return [
        (
            f"its clock (UTC{raw.zone_h:+g}) runs {off:+.1f} h off the sun at its own longitude {raw.longitude_deg:.1f}",
            f"within {ZONE_OFF_H:g} h", "A sign of longitude or zone was changed in its head: mend it.",
        )
    ]  # fmt: skip


def _values(raw: RawWeather) -> list[Slip]:
    slips = []
    for name, most in MOST.items():
        if name not in raw.frame:
            continue
        low, high = float(raw.frame[name].min()), float(raw.frame[name].max())
        if low < -20.0 or high > most:
            at = raw.frame[name].idxmax() if high > most else raw.frame[name].idxmin()
            slips.append((f"{name} from {low:.0f} to {high:.0f} W/m2, on {at:%d %b %H:00}", f"0 to {most:.0f}", "Check its units: W/m2, not kJ or Wh a day."))  # fmt: skip
        elif name == "ghi" and 0.0 < high < 20.0:
            slips.append((f"ghi at most {high:.2f}", "some hundred W/m2 at noon", "It seems to be in kW or kWh: turn it to W/m2."))  # fmt: skip
    air = raw.frame["air"]
    if float(air.abs().max()) > 70.0:
        slips.append((f"air from {air.min():.0f} to {air.max():.0f}", "-70 to 70 C", "Check its units: kelvin or Fahrenheit?"))  # fmt: skip
    return slips


def _placed(raw: RawWeather, latitude_deg: float, longitude_deg: float, elevation_m: float | None) -> list[str]:  # fmt: skip
    notes = []
    north, east = raw.latitude_deg, raw.longitude_deg
    if abs(north - latitude_deg) > FAR_DEG or abs(east - longitude_deg) > FAR_DEG:
        notes.append(f"{raw.name} is of {north:.1f}, {east:.1f}, which is not this place: sun and temperature may differ.")  # fmt: skip
    if elevation_m is not None and abs(raw.elevation_m - elevation_m) > FAR_M:
        notes.append(f"{raw.name} is of {raw.elevation_m:.0f} m, the homestead lies at {elevation_m:.0f} m: about {0.0065 * (raw.elevation_m - elevation_m):+.1f} K between them.")  # fmt: skip
    return notes


class _Told:
    """What filling found: notes, and slips that refuse the file."""

    def __init__(self) -> None:
        self.notes: list[str] = []
        self.problems: list[Slip] = []


def _years_of(
    path: Path, raw: RawWeather, offset_h: float, year: WorkingYear
) -> tuple[list[dict[str, Floats]], _Told]:
    """Whole years of 8760 hours in the homestead's standard time, turned to working years."""
    import pandas as pd

    told = _Told()
    frame = raw.frame
    shift = round(offset_h - raw.zone_h)
    if abs(offset_h - raw.zone_h - shift) > 0.01:
        told.notes.append(f"{path.name} is {offset_h - raw.zone_h:+.2f} h off your clock; it is moved by the nearest whole hour.")  # fmt: skip
    elif shift and not raw.kind.startswith("PVGIS"):
        told.notes.append(f"{path.name} keeps UTC{raw.zone_h:+g}, you UTC{offset_h:+g}: moved by {shift:+d} h.")  # fmt: skip
    twice = int(frame.index.duplicated().sum())
    typical = raw.kind in ("EPW", "TMY3", "PVGIS typical year")
    stamps = frame.index.tz_localize(None)
    if not typical and shift:
        stamps = stamps + pd.Timedelta(hours=shift)
    frame = frame.set_axis(stamps)
    leap = (frame.index.month == 2) & (frame.index.day == 29)
    if leap.any():
        told.notes.append(f"{path.name} has {int(leap.sum()) // 24 or 1} leap day(s); left out.")
        frame = frame[~leap]
    if typical:
        one = _on_grid(path, frame, told)
        return [{name: _turned(year, np.roll(values, shift)) for name, values in one.items()}], told
    return _record(path, frame, year, told, twice), told


def _turned(year: WorkingYear, values: Floats) -> Floats:
    return np.asarray(year.from_january(values), dtype=np.float64)


def _record(
    path: Path, frame: Any, year: WorkingYear, told: _Told, twice: int
) -> list[dict[str, Floats]]:
    """Working years of a record of calendar years, those not whole left out."""
    if twice:
        told.problems.append((f"{twice} hours stand in it twice", "each hour once", "Take the doubled rows out."))  # fmt: skip
        frame = frame[~frame.index.duplicated()]
    counts = frame.index.year.value_counts().sort_index()
    whole = [int(y) for y, n in counts.items() if n >= HOURS - AIR_GAP_H]
    ragged = [str(y) for y, n in counts.items() if n < HOURS - AIR_GAP_H]
    if not whole:
        told.problems.append((f"{int(counts.max())} hours", "a whole year of 8760 hours, a leap day left out", "Fill the gaps, or take whole years."))  # fmt: skip
        return [_on_grid(path, frame, _Told())]
    # the clock's shift leaves a few hours of a year before or after; only a year with much in it is missed
    missed = [y for y in ragged if counts[int(y)] > AIR_GAP_H]
    if missed:
        told.notes.append(f"{path.name}: {', '.join(missed)} not whole; left out.")
    calendar = {y: _on_grid(path, frame[frame.index.year == y], told) for y in whole}
    if len(calendar) == 1:
        only = next(iter(calendar.values()))
        return [{name: _turned(year, values) for name, values in only.items()}]
    if year.start_month == 1:
        return list(calendar.values())
    half = year.from_january(np.arange(HOURS, dtype=np.float64)).astype(int)
    first = int(np.flatnonzero(half == 0)[0])  # hours of the first calendar year in a working year
    joined = [
        {
            name: np.concatenate(
                [calendar[y][name][half[:first]], calendar[y + 1][name][half[first:]]]
            )
            for name in calendar[y]
        }
        for y in whole
        if y + 1 in calendar
    ]
    if not joined:
        told.problems.append((f"years {', '.join(map(str, whole))} do not follow each other", "two whole years in a row", "A winter lies over New Year."))  # fmt: skip
        joined = [calendar[whole[0]]]
    return joined


def _on_grid(path: Path, frame: Any, told: _Told) -> dict[str, Floats]:
    """One calendar year on its 8760 hours, small gaps filled and told, larger ones refused."""
    import pandas as pd

    base = 2023
    keys = pd.DatetimeIndex(
        pd.to_datetime({"year": base, "month": frame.index.month, "day": frame.index.day, "hour": frame.index.hour})
    )  # fmt: skip
    frame = frame.set_axis(keys)
    doubled = int(keys.duplicated().sum())
    if doubled:
        at = keys[keys.duplicated()][0]
        told.problems.append((f"{doubled} hours stand in it twice, the first on {at:%d %b %H:00}", "each hour once", "Take the doubled rows out."))  # fmt: skip
        frame = frame[~keys.duplicated()]
    grid = pd.date_range(f"{base}-01-01", periods=HOURS, freq="h")
    frame = frame.reindex(grid)
    filled = {}
    for name in frame:
        filled[str(name)] = _filled(path, frame[name], told)
    return filled


def _filled(path: Path, column: Any, told: _Told) -> Floats:
    missing = column.isna().to_numpy()
    if not missing.any() or (column.name in ("dni", "dhi") and missing.mean() > 0.5):
        return np.asarray(
            column.to_numpy(), dtype=np.float64
        )  # such are made from the global light
    starts = np.flatnonzero(missing & ~np.roll(missing, 1))
    lengths = [int(np.argmax(~missing[s:]) or missing[s:].size) for s in starts]
    most = AIR_GAP_H if column.name == "air" else LIGHT_GAP_H
    large = [(s, n) for s, n in zip(starts, lengths, strict=True) if n > most]
    if large:
        s, n = large[0]
        total = int(missing.sum())
        of = HOURS - total
        told.problems.append(
            (
                f"{of} hours of {column.name} in the year; {total} missing values, {n} of them in a row from {column.index[s]:%d %b %H:00}",
                f"a whole year of 8760 hours, a leap day left out, no gap over {most} h", "Fill the gaps.",
            )
        )  # fmt: skip
        return np.asarray(column.to_numpy(), dtype=np.float64)
    told.notes.append(f"{path.name}: {int(missing.sum())} hours of {column.name} missing, filled from their neighbours.")  # fmt: skip
    return np.asarray(column.interpolate(limit_direction="both").to_numpy(), dtype=np.float64)


def _light_made(raw: RawWeather, columns: dict[str, Floats], sun: SunPath | None) -> list[str]:
    """Beam and sky light where the file lacks them, and a word on light a little under nothing."""
    notes = []
    below = int((columns["ghi"] < 0.0).sum())
    if below:
        notes.append(f"{below} hours of {raw.name} had a little less than no light; taken as none.")
    lacking = "dni" not in columns or "dhi" not in columns or not (np.isfinite(columns["dni"]).all() and np.isfinite(columns["dhi"]).all())  # fmt: skip
    if not lacking:
        return notes
    if sun is None:
        raise Wrong([Problem("climate", "file", f"{raw.name}: missing values of beam light", "a number in every hour", "Fill the gaps.")])  # fmt: skip
    from polestead.site.synthetic import split_light

    total = np.maximum(columns["ghi"], 0.0)
    columns["dhi"], columns["dni"] = split_light(total, sun)
    notes.append(f"{raw.name} lacks beam or sky light in some hours; both are made from the global light (Erbs et al. 1982).")  # fmt: skip
    return notes


def _off_the_sun(raw: RawWeather, total: Floats, sun: SunPath) -> list[str]:
    """Light at night, and stamps an hour or more off the sun."""
    mean = total.mean(axis=0)
    night = sun.zenith_deg > 96.0
    share = float(mean[night].sum() / max(mean.sum(), 1e-9))
    notes = []
    if share > 0.01:
        notes.append(f"{percent(share)} of the light of {raw.name} falls at night: its stamps or its clock are off.")  # fmt: skip
    shifts = range(-3, 4)
    fits = [float((np.roll(mean, k) * sun.extra_flat_w_m2).sum()) for k in shifts]
    best = list(shifts)[int(np.argmax(fits))]
    if best and fits[best + 3] > 1.01 * fits[3]:
        notes.append(f"The light of {raw.name} goes best with the sun when moved by {best:+d} h: look at its stamps. It is left where it stands.")  # fmt: skip
    return notes


def months_of(typical: WeatherYears, path: SunPath, year: WorkingYear) -> tuple[Floats, Floats]:
    """Monthly clearness and air temperature, mean of the years, January first [12] each.

    Args:
        typical: One year or more.
        path: The sun's path over the place.
        year: Its calendar.
    """
    clear, air = np.empty(12), np.empty(12)
    for month in range(1, 13):
        hours = year.month == month
        outside = float(path.extra_flat_w_m2[hours].sum())
        light = float(typical.global_w_m2[:, hours].sum(axis=1).mean())
        clear[month - 1] = light / outside if outside > 1.0 else MEANS[0]
        air[month - 1] = float(typical.air_c[:, hours].mean())
    return np.clip(clear, *MEANS), air


def learned_days(known: WeatherYears, path: SunPath, year: WorkingYear) -> DaySpread:
    """How the days of the place's own series spread, drawn towards the family's by how few they are.

    A month's standard deviation learned from n days counts n / (n + 30) of it (ours); so does the memory, by 365 days.

    Args:
        known: The file's years.
        path: The sun's path over the place.
        year: Its calendar.
    """
    from polestead.site.synthetic import DAY_MEMORY

    outside = path.extra_flat_w_m2.reshape(-1, 24).sum(axis=1)
    days = known.global_w_m2.reshape(known.years, -1, 24).sum(axis=2, dtype=np.float64)
    lit = outside > 200.0
    clear = np.where(lit, days / np.maximum(outside, 1.0), np.nan)
    mean, air = months_of(known, path, year)
    family = spread_of_days(mean, air)
    sd, apart = np.array(family), np.full(clear.shape, np.nan)
    for month in range(1, 13):
        column = (year.month_of_day == month) & lit
        values = clear[:, column]
        if values.size < 10:
            continue
        # a month's own mean moves from year to year; the draw adds that again
        apart[:, column] = values - values.mean(axis=1, keepdims=True)
        own = float(np.sqrt((apart[:, column] ** 2).sum() / max(values.size - known.years, 1)))
        weight = values.size / (values.size + KNOWN_DAYS)
        sd[month - 1] = weight * own + (1.0 - weight) * family[month - 1]
    pairs = np.stack([apart[:, :-1].ravel(), apart[:, 1:].ravel()])
    pairs = pairs[:, np.isfinite(pairs).all(axis=0)]
    memory = float(np.corrcoef(pairs)[0, 1]) if pairs.shape[1] > 30 else DAY_MEMORY
    weight = pairs.shape[1] / (pairs.shape[1] + 365.0)
    return DaySpread(sd, float(np.clip(weight * memory + (1.0 - weight) * DAY_MEMORY, 0.0, 0.8)), int(np.isfinite(clear).sum()))  # fmt: skip
