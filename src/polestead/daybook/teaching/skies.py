"""What the place's drawn years make of each day of the calendar at every tilt, and what that lets expect of the days of a log.

The log seldom says what sky a day had.  Where it says what the arrays that were there already made beside the new one, and
the battery was not full, they measure the day's sun; on all other days only the season is known, and the doubt is wide.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta

import numpy as np

from polestead.daybook.days import Day
from polestead.daybook.teaching.from_days import charge_of
from polestead.daybook.teaching.scatter import scores
from polestead.daybook.teaching.series import FULL, LEAST_SHARE, Bools, Expected, Floats, Ints

WINDOW_DAYS = 10  # on both sides of a day, whose skies count as its own; ours
WEEKS_DAYS = 30  # the same, for what follows from the sun of the days before; ours
READ_SD = 0.03  # of a reading; ours
ROUNDED_WH = 40.0  # of a difference of two readings to a tenth of a kWh: .1 / sqrt(12) x sqrt(2)
FEW, MANY = (
    0.2,
    0.8,
)  # chance that the battery fills, under and over which it is taken as no and yes; ours
DAYS_BEFORE = (0.5, 0.25, 0.125, 0.0625, 0.0625)  # weight of each day's sun on the charge after it; ours  # fmt: skip
SNOW_TAKES, SNOW_SELDOM = (
    0.1,
    0.05,
)  # of the day of the arrays that were there; on so few days, and they measure; ours
LEAST_DAWN_SD, LEAST_ENGINE_SD = 0.03, 0.3  # no reading is better than that, share and hours; ours
LEAST_WEIGHT = 0.8  # of these that must be written; ours


@dataclass(frozen=True, slots=True, eq=False)
class BesideOld:
    """The new array's day told by that of the arrays that were there: log new = level + slope x log old.

    Attributes:
        level, slope, sd: At each tilt and day of the calendar [tilts, 365].
        tells: Whether they measure the sun then: not where snow may lie on them unseen [365].
    """

    level: Floats
    slope: Floats
    sd: Floats
    tells: Bools


@dataclass(frozen=True, slots=True, eq=False)
class FromSun:
    """A figure of a day as it follows from the sun of some days: mean + slope x (weighed sun over its mean - 1).

    Attributes:
        mean, slope: By day of the calendar [365].
        sd: What it strays from that [365].
    """

    mean: Floats
    slope: Floats
    sd: Floats


@dataclass(frozen=True, slots=True, eq=False)
class HouseDays:
    """What the house does on each day of the calendar.

    Attributes:
        fills: Chance that the battery fills [365].
        sun_wh: Mean of what the new array brings, what is turned away left out [365].
        off: What the middle of the days' logarithm must be moved by, so that the drawn years themselves, full days as at least so
            much, are read as nothing wrong: dull days lie farther out than clear ones, and a normal knows nothing of that [365].
        dawn_charge: From the sun of the days before.
        engine_h: From the sun of the day and those before.
    """

    fills: Floats
    sun_wh: Floats
    off: Floats
    dawn_charge: FromSun
    engine_h: FromSun


@dataclass(frozen=True, slots=True, eq=False)
class SkyTable:
    """A place's days at every tilt, January first; glass without snow, a battery that takes all.

    Attributes:
        tilts_deg: Rising [tilts].
        log_wh, log_sd: Mean of the logarithm of a day's energy, and its standard deviation [tilts, 365].
        mean_wh: Plain mean of it [tilts, 365].
        low_sun_share: Of the energy, beam that comes low over trees or skyline [tilts, 365].
        off: Added to ``log_wh`` where only the season is known, see ``HouseDays`` [365].
        old: The arrays that were there; None without any.
        house: None where it was not run.
    """

    tilts_deg: Floats
    log_wh: Floats
    log_sd: Floats
    mean_wh: Floats
    low_sun_share: Floats
    off: Floats
    old: BesideOld | None = None
    house: HouseDays | None = None


def sky_table(
    tilts_deg: Floats,
    daily_wh: Floats,
    old_wh: Floats | None = None,
    old_snowed: Floats | None = None,
    low_sun_share: Floats | None = None,
    house: HouseDays | None = None,
    off: Floats | None = None,
) -> SkyTable:
    """The table, from days drawn.

    The standard deviation is the larger of the plain one and what the lower tail asks of a normal: dull days lie farther below
    the middle than clear ones above.

    Args:
        tilts_deg: Rising [tilts].
        daily_wh: Of the new array, January first [tilts, years, 365].
        old_wh: Of all arrays that were there, on bare glass [years, 365].
        old_snowed: Share of that taken by snow on them [years, 365]; left out: none.
        low_sun_share: [tilts, 365]; left out: none.
        house: What the house does.
        off: Its ``off``, where no more than that of it is at hand; left out: the house's, or none.
    """
    days = _about(np.asarray(daily_wh, dtype=float))
    mean = days.mean(axis=1)
    there = mean > 1.0
    logs = np.log(np.maximum(days, np.maximum(LEAST_SHARE * mean, 1.0)[:, None]))
    middle, sd = _middle(days)
    table = SkyTable(
        np.asarray(tilts_deg, dtype=float), np.where(there, middle, np.nan), sd, mean,
        np.zeros(mean.shape) if low_sun_share is None else low_sun_share,
        house.off if house is not None else np.zeros(365) if off is None else off, house=house,
    )  # fmt: skip
    return table if old_wh is None or old_wh.max() < 1.0 else replace(table, old=_beside_old(logs, old_wh, old_snowed))  # fmt: skip


def _beside_old(logs: Floats, old_wh: Floats, snowed: Floats | None) -> BesideOld:
    days = _about(old_wh.astype(float))
    old = np.log(np.maximum(days, np.maximum(LEAST_SHARE * days.mean(axis=0), 1.0)))
    apart = old - old.mean(axis=0)
    spread = np.maximum((apart**2).mean(axis=0), 1e-6)
    middle = logs.mean(axis=1)
    slope = (apart * (logs - middle[:, None])).mean(axis=1) / spread
    rest = logs - middle[:, None] - slope[:, None] * apart
    seldom = np.ones(365, dtype=bool) if snowed is None else (_about(snowed) > SNOW_TAKES).mean(axis=0) < SNOW_SELDOM  # fmt: skip
    return BesideOld(middle - slope * old.mean(axis=0), slope, np.hypot(rest.std(axis=1), READ_SD), seldom)  # fmt: skip


def _about(values: Floats, days: int = WINDOW_DAYS) -> Floats:
    """Values of all years within some days of each day [.., years x window, 365]."""
    turned = [np.roll(values, by, axis=-1) for by in range(-days, days + 1)]
    return np.concatenate(turned, axis=-2)


def house_days(
    charge: Floats, engine_h: Floats, sun_wh: Floats, could_wh: Floats, calendar_day: Ints
) -> HouseDays:
    """What the house does on each day of the calendar, from its run hour by hour.

    Args:
        charge: At the start of each hour [years, 8760].
        engine_h: Share of each hour [years, 8760].
        sun_wh: That the new array brought, by day of the working year [years, 365].
        could_wh: That it could have, on bare glass [years, 365].
        calendar_day: 1 to 365 of each day of the working year [365].
    """
    order = np.argsort(calendar_day)
    by_day = charge.reshape(-1, 365, 24)
    full = (by_day.max(axis=2) >= FULL)[:, order].astype(float)
    dawn, ran = by_day[:, :, 6], engine_h.reshape(-1, 365, 24).sum(axis=2)
    mean_sun = _about(sun_wh[:, order]).mean(axis=0)
    share = (sun_wh[:, order] / np.maximum(mean_sun, 1.0))[:, np.argsort(order)]
    before = _weighed(share.ravel(), 1).reshape(share.shape)
    with_today = _weighed(share.ravel(), 0).reshape(share.shape)
    return HouseDays(
        _about(full).mean(axis=0), mean_sun, _off(sun_wh[:, order], could_wh[:, order], full > 0.5),
        _from_sun(dawn[:, order], before[:, order]), _from_sun(ran[:, order], with_today[:, order]),
    )  # fmt: skip


def _weighed(share: Floats, first: int) -> Floats:
    """Sun of the days before, the nearest the heaviest; years follow on one another."""
    return np.asarray(sum(weight * np.roll(share, first + nth) for nth, weight in enumerate(DAYS_BEFORE)))  # fmt: skip


def _from_sun(values: Floats, sun: Floats) -> FromSun:
    about, by = _about(values, WEEKS_DAYS), _about(sun, WEEKS_DAYS) - 1.0
    apart = by - by.mean(axis=0)
    slope = (apart * about).mean(axis=0) / np.maximum((apart**2).mean(axis=0), 1e-6)
    near = _about(values).mean(axis=0)
    mean = near - slope * (_about(sun).mean(axis=0) - 1.0)
    rest = values - mean - slope * (sun - 1.0)
    return FromSun(mean, slope, np.sqrt((_about(rest, WEEKS_DAYS) ** 2).mean(axis=0)))


def _off(sun_wh: Floats, could_wh: Floats, full: Bools) -> Floats:
    """Level of the drawn days by the very estimate the log's are put to, against the mean of their logarithm [365]."""
    middle, sd = _middle(_about(could_wh))
    share = np.where(full, np.minimum(sun_wh, could_wh), could_wh) / np.maximum(np.exp(middle), 1.0)
    miss, at_least = (
        _about(np.log(np.maximum(share, LEAST_SHARE))),
        _about(full.astype(float)) > 0.5,
    )
    level = np.zeros(365)
    for _ in range(25):
        z = (miss - level) / sd
        free, free_firm = scores(z, False)
        kept, kept_firm = scores(z, True)
        pull = np.where(at_least, kept, free).sum(axis=0) * sd
        known = np.where(at_least, kept_firm, free_firm).sum(axis=0)
        level += np.clip(pull / np.maximum(known, 1.0), -1.0, 1.0)
    return np.asarray(_about(level[None], 5).mean(axis=0))


def _middle(days: Floats) -> tuple[Floats, Floats]:
    """Mean of the logarithm of days drawn, and the standard deviation a normal needs for them [.., 365]."""
    mean = days.mean(axis=-2)
    logs = np.log(np.maximum(days, np.maximum(LEAST_SHARE * mean, 1.0)[..., None, :]))
    middle = logs.mean(axis=-2)
    tail = (middle - np.quantile(logs, 0.05, axis=-2)) / 1.645
    return middle, np.hypot(np.maximum(logs.std(axis=-2), tail), READ_SD)


def calendar_place(day: date) -> int:
    """Place of a day among the 365 of the calendar, from 0; the leap day as the day before it (conventions §7).

    Args:
        day: The day.

    Example:
        >>> calendar_place(date(2028, 2, 29)), calendar_place(date(2028, 3, 1)), calendar_place(date(2027, 3, 1))
        (58, 59, 59)
    """
    leaps = day.year % 4 == 0 and (day.year % 100 != 0 or day.year % 400 == 0)
    return day.timetuple().tm_yday - 1 - (leaps and (day.month, day.day) > (2, 28))


def expected_from(
    rolled: Sequence[Day], table: SkyTable, usual_tilt_deg: Floats
) -> tuple[Expected, tuple[str, ...]]:
    """What was to be expected of the days of a log that have a line, and how well that is known.

    What comes low over trees is told of days whose sun is measured only: in a season's mean it would be winter itself.

    A day is worked for the tilt it stood at; on a day it was moved, halfway between before and after, the difference in the
    doubt.  Where nobody read the charge late in the day and the household says neither that the battery fills nor that
    it does not, nothing is expected: the day could mean anything.

    Args:
        rolled: Every day in order, those without a line too, as from ``daybook.days``.
        table: Of the place.
        usual_tilt_deg: What the plan holds by day of the calendar, for days before the first tilt written [365].

    Returns:
        As many days as ``series_of`` makes of the same, and notes.
    """
    kept = [nth for nth, one in enumerate(rolled) if one.entries > 0]
    days = [rolled[nth] for nth in kept]
    at = np.array([calendar_place(one.day) for one in days], dtype=np.int64)
    held = _values([one.tilt_held_deg for one in days])
    before = _values([rolled[nth - 1].tilt_held_deg if nth and rolled[nth].moves else rolled[nth].tilt_held_deg for nth in kept])  # fmt: skip
    written = np.isfinite(held)
    usual = usual_tilt_deg[at] if at.size else np.zeros(0)
    held = np.where(written, held, usual)
    before = np.where(np.isfinite(before), before, held)
    made = _Made(table, at)
    ends = (float(usual_tilt_deg.min()), float(usual_tilt_deg.max()))
    tilt_sd = np.where(written, 0.0, made.apart(np.full(at.size, ends[0]), np.full(at.size, ends[1])))  # fmt: skip
    tilt_sd = np.hypot(tilt_sd, made.apart(held, before))
    old = _values([_old_wh(one) for one in days])
    fills, unknown = _fills(days, at, table)
    by_old = made.known(old) & ~fills & ~unknown
    log_wh, sd = made.log_wh(held, before, old, by_old)
    mean = np.where(by_old, np.exp(log_wh + 0.5 * sd**2), made.mean_wh(held, before))
    expected = Expected(
        np.where(unknown, np.nan, np.exp(log_wh)), np.hypot(sd, tilt_sd), np.where(by_old, made.at_tilt(table.low_sun_share, held), 0.0), fills,
        *_from_days(days, at, table), mean_wh=mean, **_strays(at, table),
    )  # fmt: skip
    return expected, _notes(days, by_old, unknown, written, expected.log_sd)


@dataclass(frozen=True, slots=True, eq=False)
class _Made:
    """Figures of a table on some days of the calendar."""

    table: SkyTable
    at: Ints

    def at_tilt(self, figure: Floats, tilt_deg: Floats) -> Floats:
        """Between the tilts of the table, in a straight line."""
        tilts = self.table.tilts_deg
        if tilts.size == 1:
            return np.asarray(figure[0, self.at])
        right = np.clip(np.searchsorted(tilts, tilt_deg), 1, tilts.size - 1)
        part = np.clip((tilt_deg - tilts[right - 1]) / (tilts[right] - tilts[right - 1]), 0.0, 1.0)
        return np.asarray((1.0 - part) * figure[right - 1, self.at] + part * figure[right, self.at])

    def apart(self, one_deg: Floats, other_deg: Floats) -> Floats:
        """Half of what two tilts differ by, on the logarithm."""
        log_wh = self.table.log_wh
        return np.asarray(0.5 * np.abs(np.nan_to_num(self.at_tilt(log_wh, one_deg) - self.at_tilt(log_wh, other_deg))))  # fmt: skip

    def between(self, figure: Floats, one_deg: Floats, other_deg: Floats) -> Floats:
        """Halfway."""
        return 0.5 * (self.at_tilt(figure, one_deg) + self.at_tilt(figure, other_deg))

    def mean_wh(self, held: Floats, before: Floats) -> Floats:
        """Plain mean of the season's days."""
        return self.between(self.table.mean_wh, held, before)

    def known(self, old_wh: Floats) -> Bools:
        """Days on which the arrays that were there tell the sun."""
        if self.table.old is None:
            return np.zeros(self.at.size, dtype=bool)
        return np.asarray(
            np.isfinite(old_wh) & (old_wh > ROUNDED_WH) & self.table.old.tells[self.at]
        )

    def log_wh(
        self, held: Floats, before: Floats, old_wh: Floats, by_old: Bools
    ) -> tuple[Floats, Floats]:
        """Logarithm of the expected and its doubt."""
        middle = self.between(self.table.log_wh, held, before) + self.table.off[self.at]
        sd = self.between(self.table.log_sd, held, before)
        beside = self.table.old
        if beside is None or not by_old.any():
            return middle, sd
        level, slope, rest = (self.between(one, held, before) for one in (beside.level, beside.slope, beside.sd))  # fmt: skip
        old = np.where(by_old, old_wh, 1.0)
        told = level + slope * np.log(old)
        return np.where(by_old, told, middle), np.where(by_old, np.hypot(rest, slope * ROUNDED_WH / old), sd)  # fmt: skip


def _fills(days: Sequence[Day], at: Ints, table: SkyTable) -> tuple[Bools, Bools]:
    """Days on which the battery was full, as read or expected; and those of which nobody knows."""
    charge = _values([charge_of(one) for one in days])
    unread = np.isnan(charge)
    if table.house is None:
        return charge >= FULL, unread
    chance = table.house.fills[at]
    return np.where(unread, chance > MANY, charge >= FULL), unread & (chance >= FEW) & (chance <= MANY)  # fmt: skip


def _from_days(days: Sequence[Day], at: Ints, table: SkyTable) -> tuple[Floats, Floats]:
    """Dawn charge and engine hours as they follow from what the array brought on the days before."""
    nothing = np.full(at.size, np.nan)
    if table.house is None:
        return nothing, nothing
    house = table.house
    brought = {one.day: one.new_wh / max(float(house.sun_wh[calendar_place(one.day)]), 1.0) for one in days if one.new_wh is not None}  # fmt: skip
    dawn: list[float] = []
    engine: list[float] = []
    for one, nth in zip(days, at, strict=True):
        for found, figure, first in ((dawn, house.dawn_charge, 1), (engine, house.engine_h, 0)):
            sun = _sun_before(brought, one.day, first)
            found.append(float(figure.mean[nth] + figure.slope[nth] * (sun - 1.0)))
    return np.clip(np.array(dawn), 0.0, 1.0), np.clip(np.array(engine), 0.0, 24.0)


def _strays(at: Ints, table: SkyTable) -> dict[str, Floats]:
    """How far dawn charge and engine hours stray in each season: far in winter, hardly in summer."""
    house = table.house
    if house is None:
        return {"dawn_sd": np.ones(at.size), "engine_sd": np.ones(at.size)}
    return {"dawn_sd": np.maximum(house.dawn_charge.sd[at], LEAST_DAWN_SD), "engine_sd": np.maximum(house.engine_h.sd[at], LEAST_ENGINE_SD)}  # fmt: skip


def _sun_before(brought: Mapping[date, float], day: date, first: int) -> float:
    known = [(weight, brought[on]) for nth, weight in enumerate(DAYS_BEFORE) if (on := day - timedelta(days=first + nth)) in brought]  # fmt: skip
    total = sum(weight for weight, _ in known)
    return sum(weight * share for weight, share in known) / total if total >= LEAST_WEIGHT else float("nan")  # fmt: skip


def _notes(
    days: Sequence[Day], by_old: Bools, unknown: Bools, written: Bools, log_sd: Floats
) -> tuple[str, ...]:
    made = np.array([one.new_wh is not None for one in days], dtype=bool)
    told, season = made & by_old, made & ~by_old & ~unknown
    said = []
    if told.any():
        said.append(f"On {told.sum()} days the sun is measured by the arrays that were there (all made less made): expected to about {100.0 * np.median(log_sd[told]):.0f} %.")  # fmt: skip
    if season.any():
        more = "" if told.any() else " Where older arrays are there, write  all made  too: they measure the day's sun."  # fmt: skip
        said.append(f"On {season.sum()} days only the season is known, not the sky: what a day should have made may be {np.exp(np.nanmedian(log_sd[season])):.1f} times too high or too low, so a loss is found late.{more}")  # fmt: skip
    if (made & unknown).any():
        said.append(f"On {(made & unknown).sum()} days nobody read the charge late in the day, and the battery may have been full or not: nothing is expected of them. Write the charge in the evening.")  # fmt: skip
    if (made & ~written).any():
        said.append(f"On {(made & ~written).sum()} days before the first tilt written the plan's tilt is taken, with more doubt.")  # fmt: skip
    return tuple(said)


def _old_wh(day: Day) -> float | None:
    return None if day.all_wh is None or day.new_wh is None else day.all_wh - day.new_wh


def _values(values: Sequence[float | None]) -> Floats:
    return np.array([np.nan if value is None else value for value in values], dtype=float)
