"""A log as a house would write it: another draw of the place's weather, run hour by hour, told in round figures."""

from __future__ import annotations

from datetime import date, time, timedelta

import numpy as np

from polestead.answer.stands import strongback_kg_of
from polestead.answer.supply import Skies, bare_power_w, new_power_w, old_supply, with_new
from polestead.daybook.entry import Entry, Moment
from polestead.homestead.read import OwnersFile
from polestead.household.run import run_by_hour
from polestead.mount.geometry import geometry_of
from polestead.mount.schedule import two_tilts

SEED = 7301  # not the teaching's own draw


def house_log(
    owners: OwnersFile, first: date, count: int, *, years: int = 1, seed: int = SEED, lost_from: date | None = None, left: float = 0.5, old: bool = True
) -> list[Entry]:  # fmt: skip
    """Evening and morning lines of so many days.

    The array makes .94 of what is worked for it, in every month (its own level), and `left` of that from a day on.
    """
    file = owners.homestead
    geometry = geometry_of(file.mount, file.array, strongback_kg_of(file.mount, file.array))
    skies = Skies(file, owners.path.parent, geometry, years, seed)
    sun = next(skies.blocks())
    plan = two_tilts(file.mount.winter_tilt_deg, file.mount.summer_tilt_deg, file.place.latitude_deg)  # fmt: skip
    facing = file.mount.facing_deg
    begin = date(first.year - (first.month < sun.path.start_month), sun.path.start_month, 1)
    on = [one for one in (begin + timedelta(days=n) for n in range(366 * years + 366)) if (one.month, one.day) != (2, 29)][: 365 * years]  # fmt: skip
    level = np.array([0.94 * (left if lost_from is not None and day >= lost_from else 1.0) for day in on])  # fmt: skip
    hourly = np.repeat(level, 24).reshape(years, 8760).astype(np.float32)
    power = new_power_w(file.array, facing, sun, plan) * hourly
    tilts = plan.tilt_by_hour_deg(sun.year.calendar_day)
    bare = bare_power_w(file.array, facing, sun, tilts[None]) * hourly
    supply = with_new(old_supply(file.household, sun), file.array.controller, power)
    hours = run_by_hour(file.household, supply, sun.weather.air_c, sun.path.start_month, file.place.elevation_m, 1.0)  # fmt: skip
    total = sum(np.asarray(one, dtype=float) for powers in supply.values() for one in powers)
    kept = 1.0 - np.clip(hours.turned_away_wh / np.maximum(total, 1.0), 0.0, 1.0)
    new, everything, could, clear = (one.reshape(-1, 24).sum(axis=1) for one in (power * kept, total * kept, power, bare))  # fmt: skip
    charge, ran = hours.charge.reshape(-1, 24), hours.engine_h.reshape(-1, 24).sum(axis=1)
    tilt = np.tile(tilts, years)
    lines: list[Entry] = []
    for n, day in enumerate(on):
        if not first <= day < first + timedelta(days=count):
            continue
        moved = day == first or (n and tilt[n] != tilt[n - 1])
        lines.append(Entry(Moment(day, time(6, 0)), charge=_round(charge[n, 6], 0.01), tilt_deg=float(tilt[n]) if moved else None))  # fmt: skip
        lines.append(
            Entry(
                Moment(day, time(18, 0)), charge=_round(charge[n].max() if charge[n].max() >= 0.97 else charge[n, 18], 0.01),
                new_wh=_round(new[n], 100.0), all_wh=_round(everything[n], 100.0) if old else None, engine_hours=_round(ran[n], 0.1),
                snow="covered" if could[n] < 0.8 * clear[n] else None,
            )
        )  # fmt: skip
    return lines


def _round(value: float, to: float) -> float:
    return min(round(float(value) / to) * to, 1.0) if to == 0.01 else round(float(value) / to) * to
