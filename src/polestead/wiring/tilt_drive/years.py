"""The drive's supply through every year: the worst month, the darkest, the coldest; the sizes that would do."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from polestead.base.hours import MONTH_STARTS, WorkingYear, working_year
from polestead.base.table import table
from polestead.homestead.model import DriveSupply
from polestead.wiring.tilt_drive.numbers import IRON, Cell, MotorNumbers, cell_of
from polestead.wiring.tilt_drive.result import DayOfDrive, MonthOfDrive, WouldDo, YearsOfDrive

Floats = NDArray[np.float64]
Single = NDArray[np.float32]
MORNING_HOUR, EVENING_HOUR = 8, 16
LEAST_CHARGE = {True: 0.5, False: 0.2}  # lead-acid: lives longer and does not freeze; lithium
FREEZE_MARGIN_K = 5.0


@dataclass(frozen=True, eq=False)
class SupplyYears:
    """What `answer` hands over: the sky over the drive's own panel.

    Attributes:
        watts_per_w: Power of each watt of panel rating, bare of the owner's `panel_kept`, snow and skyline in it [years, 8760].
        air_c: Outdoors [years, 8760].
        start_month: First month of the working year.
        sun_error: Share by which winter sun may be off because of its source; 0 for measured years.
    """

    watts_per_w: Single
    air_c: Single
    start_month: int
    sun_error: float = 0.0


def moves_by_hour(year: WorkingYear, moves_a_day: float) -> Floats:
    """Full moves wanted in each hour: the greater half of a day's in the morning hour, the rest in the evening hour.

    Less than one a day falls on every second, third day and so on.

    Args:
        year: Calendar.
        moves_a_day: Of the section.

    Example:
        >>> wanted = moves_by_hour(working_year(7), 0.5)
        >>> float(wanted.sum()), float(wanted[8]), float(wanted[24 + 8])
        (182.0, 0.0, 1.0)
    """
    due = np.floor(moves_a_day * np.arange(1, 366) + 1e-9)
    by_day = np.diff(due, prepend=0.0)
    morning = np.ceil(by_day / 2.0)
    wanted = np.zeros((365, 24))
    wanted[:, MORNING_HOUR], wanted[:, EVENING_HOUR] = morning, by_day - morning
    return np.asarray(wanted.ravel()[: year.hour.size])


def years_of(
    supply: DriveSupply, cell: Cell, motor: MotorNumbers, sky: SupplyYears, panel_w: float | None = None, sun_share: float = 1.0,
) -> YearsOfDrive:  # fmt: skip
    """Hour by hour through every year.

    Args:
        supply: The section.
        cell: The battery, which may be another than the file's.
        motor: Motor and wire.
        sky: Light and air.
        panel_w: Another panel than the file's.
        sun_share: Sun less or more than the sky's, by this factor.
    """
    from polestead.wiring.tilt_drive import kernel as k

    year = working_year(sky.start_month)
    rated_w = supply.panel_w if panel_w is None else panel_w
    watts = sky.watts_per_w * np.float32(rated_w * supply.panel_kept * sun_share)
    known = motor.full_travel_s > 0.0
    wanted = moves_by_hour(year, supply.moves_a_day if known else 0.0)
    air = np.ascontiguousarray(sky.air_c, dtype=np.float32)
    rows, by_day, charges, cell_c = k.run_supply(
        cell, motor, supply.idle_w, wanted, np.ascontiguousarray(watts), air, year.month - 1
    )
    run = _Run(rows, by_day, watts, charges, cell_c, year, cell.lead, known)
    count = rows.shape[1]
    longest = float(rows[k.SECONDS].max())
    return YearsOfDrive(
        years=count,
        lowest_charge=float(rows[k.LOWEST].min()),
        freeze_margin_k=float(rows[k.MARGIN].min()) if cell.lead else None,
        without_power_h=float(rows[k.EMPTY_H].sum()),
        moves=float(rows[k.WANTED].sum()) if known else None,
        missed=float(rows[k.MISSED].sum()),
        missed_for_cold=float(rows[k.TOO_COLD].sum()),
        refused_h=float(rows[k.REFUSED_H].sum()) / count,
        coldest_c=float(rows[k.COLDEST].min()),
        longest_move_s=longest if longest > 0.0 else None,
        panel_wh=float(rows[k.SUN].sum()) / count,
        idle_wh=float(rows[k.IDLE].sum()) / count,
        moves_wh=float(rows[k.MOVES].sum()) / count,
        worst=run.month_of(*_worst(rows[k.EMPTY_H] + rows[k.MISSED], rows[k.LOWEST]), days=True),
        darkest=run.month_of(*_least(np.where(_winter(rows[k.AIR]), rows[k.SUN], np.inf))),
        coldest=run.month_of(*_least(rows[k.AIR])),
    )


def holds(told: YearsOfDrive, lead: bool) -> bool:
    """Whether a run met every hour and move, kept its least charge and stayed clear of freezing.

    Args:
        told: The run.
        lead: Lead-acid.
    """
    cold = told.freeze_margin_k is not None and told.freeze_margin_k < FREEZE_MARGIN_K
    short = told.without_power_h > 0.0 or told.missed > 0.0
    return not (cold or short) and told.lowest_charge >= LEAST_CHARGE[lead]


def sold(what: str) -> tuple[float, ...]:
    """Sizes commonly sold of a thing, smallest first.

    Example:
        >>> sold("panel")[:2]
        (10.0, 20.0)
    """
    rows = table("wiring", "tilt_drive/sizes")
    return tuple(float(row["size"]) for row in rows if row["what"] == what)


def would_do(supply: DriveSupply, motor: MotorNumbers, sky: SupplyYears) -> tuple[WouldDo, ...]:
    """Panels commonly sold, smallest first, each with the smallest battery that holds through every year.

    The sun is taken less by its source's error.  A panel that lets no smaller battery do than the one before is left out; where no
    lithium of those sizes holds, sealed lead-acid is tried.  A bigger panel never wants a bigger battery, so the search walks down
    the stairs: every pair told was run and held.

    Args:
        supply: The section; its volts, idle draw and moves stay.
        motor: Motor and wire.
        sky: Light and air.
    """
    found = _stairs(supply, motor, sky)
    if not found and supply.battery_kind == IRON:
        sealed = supply.model_copy(update={"battery_kind": "sealed lead-acid"})
        return _stairs(sealed, motor, sky)
    return found


def _stairs(supply: DriveSupply, motor: MotorNumbers, sky: SupplyYears) -> tuple[WouldDo, ...]:
    sizes = sold(IRON if supply.battery_kind == IRON else "lead-acid")
    cells = [cell_of(supply, size) for size in sizes]
    found: list[WouldDo] = []
    smallest = len(sizes)  # of those before; nothing larger is looked at again
    for panel in sold("panel"):
        fits = smallest
        while fits > 0:
            told = years_of(supply, cells[fits - 1], motor, sky, panel, 1.0 - sky.sun_error)
            if not holds(told, cells[fits - 1].lead):
                break
            fits -= 1
        if fits < smallest:
            found.append(WouldDo(supply.battery_kind, panel, sizes[fits]))
            smallest = fits
        if smallest == 0:
            break
    return tuple(found)


@dataclass(frozen=True, eq=False)
class _Run:
    """What the loop handed back, ready to be told month by month."""

    rows: Floats
    by_day: Floats
    watts: Single
    charges: Single
    cell_c: Single
    year: WorkingYear
    lead: bool
    known: bool

    def month_of(self, y: int, m: int, days: bool = False) -> MonthOfDrive:
        """One month of one year, both from 0."""
        from polestead.wiring.tilt_drive import kernel as k

        one = [float(value) for value in self.rows[:, y, m]]
        return MonthOfDrive(
            year=y + 1,
            month=m + 1,
            air_c=one[k.AIR],
            coldest_c=one[k.COLDEST],
            panel_wh=one[k.SUN],
            turned_away_wh=one[k.TURNED_AWAY],
            idle_wh=one[k.IDLE],
            moves_wh=one[k.MOVES],
            charge_loss_wh=one[k.CHARGE_LOSS],
            standing_wh=one[k.STANDING],
            change_wh=one[k.CHANGE],
            lowest_charge=one[k.LOWEST],
            freeze_margin_k=one[k.MARGIN] if self.lead else None,
            without_power_h=one[k.EMPTY_H],
            moves=one[k.WANTED] if self.known else None,
            missed=one[k.MISSED],
            refused_h=one[k.REFUSED_H],
            refused_wh=one[k.REFUSED_WH],
            days=self._days(y, m) if days else (),
        )

    def _days(self, y: int, m: int) -> tuple[DayOfDrive, ...]:
        found = []
        for d in np.flatnonzero(self.year.month_of_day == m + 1).tolist():
            of_day = slice(24 * d, 24 * d + 24)
            boxed = self.cell_c[y, of_day]
            found.append(
                DayOfDrive(
                    day=int(self.year.calendar_day[d]) - MONTH_STARTS[m],
                    panel_wh=float(self.watts[y, of_day].sum(dtype=np.float64)),
                    uses_wh=float(self.by_day[0, y, d]),
                    charge=float(self.charges[y, 24 * d + 23]),
                    coldest_c=float(boxed.min()),
                    warmest_c=float(boxed.max()),
                    missed=float(self.by_day[1, y, d]),
                )
            )
        return tuple(found)


def _worst(short: Floats, lowest: Floats) -> tuple[int, int]:
    """Where most fell short, else where the charge was lowest."""
    return _least(-short) if short.any() else _least(lowest)


def _winter(air_c: Floats) -> NDArray[np.bool_]:
    """The six months whose mean air over all years is coldest [1, 12]: a steep panel sees little of the high summer sun too."""
    mean = air_c.mean(axis=0)
    return np.asarray(mean <= np.sort(mean)[5])[None]


def _least(values: Floats) -> tuple[int, int]:
    """Year and month of the least value, both from 0."""
    y, m = np.unravel_index(int(np.argmin(values)), values.shape)
    return int(y), int(m)
