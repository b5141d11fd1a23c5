"""Seeded years of hourly weather from a monthly climate.

Daily clearness: the family of ``days``, Gaussian-mapped with a lag-1 memory; each month's own mean is drawn too, and each
year leans a little to one side.  Hours: the day's shape after Collares-Pereira & Rabl with correlated noise, the day's sum kept.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from polestead.base.hours import DAYS, HOURS, WorkingYear, between_months, dark_months
from polestead.base.source import Source
from polestead.site.days import MEANS, DaySpread, daily_clearness
from polestead.site.snowfall import fresh_snow_m, mean_snowfall_m_year
from polestead.site.sunpath import SunPath
from polestead.site.weather import WeatherYears

Floats = NDArray[np.float64]

DAY_MEMORY = 0.33  # gives the days .26 to .36, as measured; Graham, Hollands & Unny 1988 have about .29 (from memory)
HOUR_MEMORY = 0.54  # Graham & Hollands 1990, Solar Energy 44:333
MONTH_MEMORY = 0.25
WINTER_SPREAD, SUMMER_SPREAD, YEAR_SPREAD = (
    0.065,
    0.045,
    0.030,
)  # of a month's mean beyond the luck of its days: our own fit
AIR_MEMORY = 0.75  # day to day, measured .64-.82 at four long stations
SUN_UP = 0.065  # cosine of the zenith below which the beam is counted as sky light (86.3 degrees)
MOST_BEAM = 0.82  # of what arrives outside the air: the clearest air at sea level, a little over any measured hour
NOTE = (
    "Synthetic years spread as four long measured series do; at another place the spread of its days may be off by a tenth "
    "and more. A measured weather file of the place is better."
)
SOURCE = Source(
    "synthetic years from the shipped one-degree table",
    "docs/method/site.md",
    "ours",
)


@dataclass(frozen=True, slots=True, eq=False)
class _Draws:
    """Standard normal numbers of each year, drawn apart for every year: a year is the same in whatever company it is drawn.

    Attributes:
        months, lean, days, hours, air, swing: [years, 12], [years, 1], [years, 365], [years, 8760], [years, 365], [years, 365].
        snow: Evenly spread, two for each day [years, 2, 365].
    """

    months: Floats
    lean: Floats
    days: Floats
    hours: Floats
    air: Floats
    swing: Floats
    snow: Floats


def _draws(seed: int, first: int, years: int) -> _Draws:
    sizes = np.cumsum([12, 1, DAYS, HOURS, DAYS])
    numbers = np.empty((years, int(sizes[-1]) + DAYS))
    snow = np.empty((years, 2, DAYS))
    for nth in range(years):
        rng = np.random.default_rng([seed, first + nth])
        rng.standard_normal(out=numbers[nth])
        rng.random(out=snow[nth])
    months, lean, days, hours, air, swing = np.split(numbers, sizes, axis=1)
    return _Draws(months, lean, days, hours, air, swing, snow)


def remembering(normals: Floats, memory: float) -> Floats:
    """Standard normal numbers made to remember the one before, along the last axis.

    Args:
        normals: Independent ones, any shape.
        memory: Correlation of neighbours.

    Returns:
        The same shape; still standard normal.
    """
    numbers = np.array(normals)
    numbers[..., 1:] *= np.sqrt(1.0 - memory**2)
    steps = np.moveaxis(numbers, -1, 0)
    for nth in range(1, steps.shape[0]):
        steps[nth] += memory * steps[nth - 1]
    return numbers


def synthetic_years(
    clearness: Floats,
    air_c: Floats,
    path: SunPath,
    year: WorkingYear,
    years: int,
    seed: int,
    notes: tuple[str, ...],
    errors: tuple[float, float],
    source: Source = SOURCE,
    first: int = 0,
    day_spread: DaySpread | None = None,
    snowfall_m_year: float | None = None,
) -> WeatherYears:
    """Working years of hourly weather; a year's bytes depend on its number and the seed, not on the others drawn with it.

    Args:
        clearness: Monthly, January first [12].
        air_c: Monthly mean air temperature, January first [12].
        path: The sun's path.
        year: Its calendar.
        years: How many.
        seed: The same seed gives the same bytes.
        notes: What stands beside.
        errors: Winter and year error of the climate.
        source: Where the monthly climate comes from.
        first: Number of the first year drawn, so that many years can be drawn in blocks.
        day_spread: How the days of the place's own series spread; None for the family's.
        snowfall_m_year: A mean winter's fresh snow, the owner's or the weather office's [m]; None for the rough rule.
    """
    drawn = _draws(seed, first, years)
    mean = _month_means(drawn, clearness, year)
    z = remembering(drawn.days, day_spread.memory if day_spread else DAY_MEMORY)
    month_air = np.broadcast_to(air_c[year.month_of_day - 1], mean.shape)
    days = daily_clearness(mean, month_air, _share_below(z), _of_days(day_spread, year))
    total = _hours(drawn, days, path)
    diffuse, beam = split_light(total, path)
    air, day_c = _air(drawn, days, mean, air_c, year)
    snow = fresh_snow_m(days, day_c, drawn.snow, _snow_scale(clearness, air_c, snowfall_m_year))
    parts = [np.ascontiguousarray(part, dtype=np.float32) for part in (total, beam, diffuse, air)]
    return WeatherYears(
        parts[0],
        parts[1],
        parts[2],
        parts[3],
        "synthetic",
        errors[0],
        errors[1],
        source,
        (NOTE, *notes),
        np.asarray(snow, dtype=np.float32),
    )


def _of_days(spread: DaySpread | None, year: WorkingYear) -> Floats | None:
    """Learned spread, by day of the working year."""
    return None if spread is None else np.asarray(spread.sd_by_month[year.month_of_day - 1])


def _snow_scale(clearness: Floats, air_c: Floats, snowfall_m_year: float | None) -> float:
    """What brings a mean winter's fresh snow to the owner's figure."""
    if snowfall_m_year is None:
        return 1.0
    rough = mean_snowfall_m_year(clearness, air_c)
    return snowfall_m_year / rough if rough > 0.0 else 0.0


def _share_below(z: Floats) -> Floats:
    from scipy.special import ndtr

    return np.asarray(ndtr(z))


def _month_means(drawn: _Draws, clearness: Floats, year: WorkingYear) -> Floats:
    """Each month's own mean, by day [years, 365]."""
    start = year.start_month - 1
    order = (np.arange(12) + start) % 12
    dark = np.isin(order + 1, dark_months(year.start_month))
    spread = np.where(dark, WINTER_SPREAD, SUMMER_SPREAD)
    z = remembering(drawn.months, MONTH_MEMORY)
    lean = YEAR_SPREAD * drawn.lean
    means = np.clip(clearness[order] * (1.0 + spread * z + lean), *MEANS)
    month = (year.month_of_day - 1 - start) % 12
    return np.asarray(means[:, month])


def _hours(drawn: _Draws, days: Floats, path: SunPath) -> Floats:
    """Global irradiance of each hour, the day's clearness kept [years, 8760]."""
    extra = path.extra_flat_w_m2.reshape(DAYS, 24)
    shape = _day_shape(extra)
    noise = remembering(drawn.hours, HOUR_MEMORY).reshape(-1, DAYS, 24)
    depth = 0.1557 * np.sin(
        np.pi * np.minimum(days, 0.93) / 0.933
    )  # Graham & Hollands 1990 (from memory)
    kt = days[..., None] * shape + depth[..., None] * noise
    wanted = days * extra.sum(axis=1)
    for _ in range(3):
        kt = np.clip(kt, 0.02, 0.84)
        kt *= (wanted / np.maximum((kt * extra).sum(axis=2), 1e-9))[..., None]
    return np.asarray((np.minimum(kt, 0.9) * extra).reshape(-1, HOURS))


def _day_shape(extra: Floats) -> Floats:
    """Hourly over daily clearness: a + b cos w, its weighed mean brought to 1 [365, 24].

    Source: Collares-Pereira & Rabl 1979 (from memory): a = .409 + .5016 sin(ws - 60), b = .6609 - .4767 sin(ws - 60).
    The hour angle's cosine is read off the hour's own height over the day's highest.
    """
    sums, most = extra.sum(axis=1, keepdims=True), extra.max(axis=1, keepdims=True)
    lit = (extra > 0.0).sum(axis=1, keepdims=True) / 24.0
    late = np.sin(np.pi * lit - np.pi / 3.0)
    height = extra / np.maximum(most, 1e-9)
    raw = (0.409 + 0.5016 * late) + (0.6609 - 0.4767 * late) * height
    return np.asarray(raw * sums / np.maximum((raw * extra).sum(axis=1, keepdims=True), 1e-9))


def diffuse_share(clearness: Floats) -> Floats:
    """Share of the light that comes from the whole sky, by the hour's clearness.

    Source: Erbs, Klein & Duffie 1982 (Duffie & Beckman Eq. 2.10.1).

    Args:
        clearness: Hourly clearness, any shape.

    Example:
        >>> [round(float(share), 4) for share in diffuse_share(np.array([0.1, 0.5, 0.9]))]
        [0.991, 0.6591, 0.165]
    """
    k = np.asarray(clearness)
    middle = 0.9511 - 0.1604 * k + 4.388 * k**2 - 16.638 * k**3 + 12.336 * k**4
    return np.where(k <= 0.22, 1.0 - 0.09 * k, np.where(k <= 0.8, middle, 0.165))


def split_light(total: Floats, path: SunPath) -> tuple[Floats, Floats]:
    """Sky light and beam; the beam is laid on the sun's height at mid-hour, as the plane will take it.

    Args:
        total: Global light [years, 8760].
        path: The sun's path.
    """
    extra = np.maximum(path.extra_flat_w_m2, 1e-9)
    cos_z = np.cos(np.radians(path.zenith_deg))
    up = cos_z > SUN_UP
    beam_flat = total * (1.0 - diffuse_share(total / extra)) * up
    beam = np.minimum(beam_flat / np.where(up, cos_z, 1.0), MOST_BEAM * path.extra_w_m2)
    return total - beam * np.where(up, cos_z, 0.0), beam


def _air(
    drawn: _Draws, days: Floats, mean: Floats, air_c: Floats, year: WorkingYear
) -> tuple[Floats, Floats]:
    """Air temperature by hour [years, 8760] and mean of each day [years, 365]: the month's mean, days that remember, clear winter days cold, a daily swing by clearness.

    Source: swing 26.6 K - 3.06 + 0.113 T, sd 1.3 (the project's fit on 11 measured sites); spread of days and their tie to
    clearness read off four long measured series.
    """
    normal = _by_day(air_c, year)
    amplitude = float(air_c.max() - air_c.min())
    cold = np.clip((float(air_c.mean()) - normal) / max(amplitude / 2.0, 1.0), -1.0, 1.0)
    sd = amplitude * (0.15 + 0.06 * cold)
    tie = -12.0 * np.maximum(cold, 0.0) * min(amplitude / 30.0, 1.0)
    wander = remembering(drawn.air, AIR_MEMORY) * sd
    day = normal + wander + tie * (days - mean)
    swing = np.maximum(-3.06 + 26.6 * days + 0.113 * day + 1.3 * drawn.swing, 1.0)
    hour = np.cos(2.0 * np.pi * (np.arange(24) + 0.5 - 15.0) / 24.0)
    return (day[..., None] + 0.5 * swing[..., None] * hour).reshape(-1, HOURS), day


def _by_day(monthly: Floats, year: WorkingYear) -> Floats:
    """A smooth course through the months' means, by day of the working year [365]."""
    course = between_months(monthly, year.calendar_day)
    for month in range(1, 13):  # keep each month's own mean
        days = year.month_of_day == month
        course[days] += monthly[month - 1] - course[days].mean()
    return np.asarray(course)
