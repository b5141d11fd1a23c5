"""The house run through all years, with or without the new array."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from polestead.base.hours import working_year
from polestead.base.source import OWNER, Source
from polestead.base.spread import spread
from polestead.base.working import Step, Working
from polestead.homestead.model import Household, LastWinter
from polestead.household.bank import (
    bank_of,
    inside_of,
    motor_of,
    notes_of,
    refuse_what_cannot_work,
)
from polestead.household.fuel import fuel_lines
from polestead.household.result import Beside, HouseSummary, HouseYears
from polestead.household.uses import uses_by_hour_w

Floats = NDArray[np.float64]
OURS = Source("the house run hour by hour", status="ours")


def _stacked(
    house: Household, array_power_w: dict[str, list[NDArray[np.float32]]], shape: tuple[int, ...]
) -> NDArray[np.float32]:
    """Power on each controller [controllers, years, 8760]."""
    total = np.zeros((len(house.controller), *shape), dtype=np.float32)
    for nth, controller in enumerate(house.controller):
        for power in array_power_w.get(controller.name, []):
            total[nth] += power
    return total


def run_house(
    house: Household,
    array_power_w: dict[str, list[NDArray[np.float32]]],
    air_c: NDArray[np.floating],
    start_month: int,
    elevation_m: float,
) -> HouseYears:
    """Run every working year, one after the other, charge carried over.

    Args:
        house: The household section.
        array_power_w: Direct-current power of each array by the name of its controller, each [years, 8760]; several
            arrays on one controller are listed together.
        air_c: Outdoor temperature [years, 8760].
        start_month: First month of the working year.
        elevation_m: For the engine's derating.

    Raises:
        Wrong: Where an array hangs on an unknown controller, or a section speaks against itself.
    """
    from polestead.household.kernel import run_years

    refuse_what_cannot_work(house, tuple(array_power_w))
    year = working_year(start_month)
    bank = bank_of(house.battery)
    by_month, by_year, charges = run_years(
        bank,
        inside_of(house.inverter),
        motor_of(house.engine, house.battery, elevation_m),
        np.array([controller.current_limit_a for controller in house.controller]),
        np.array([controller.efficiency for controller in house.controller]),
        _stacked(house, array_power_w, air_c.shape),
        uses_by_hour_w(house.use_list, start_month),
        np.ascontiguousarray(air_c, dtype=np.float32),
        year.month - 1,
        np.array(year.hour),
    )
    return _result(house, by_month, by_year, charges, bank.full_ah, bank.full_ah * house.battery.nominal_v)  # fmt: skip


def _result(
    house: Household,
    by_month: Floats,
    by_year: Floats,
    charges: Floats,
    full_ah: float,
    full_wh: float,
) -> HouseYears:
    hours, engine_wh = by_month[0].sum(axis=1), by_year[1]
    least = most = np.zeros_like(engine_wh)
    if house.engine is not None:
        least, most = (line.burnt_l(hours, engine_wh) for line in fuel_lines(house.engine))
    middle = int(np.argmin(np.abs(hours - np.median(hours))))
    errors = np.abs(by_year[8:11]) / np.array([[full_ah], [full_wh], [full_wh]])
    return HouseYears(
        engine_hours=by_month[0],
        starts=by_year[0],
        fuel_least_l=np.minimum(least, most),
        fuel_most_l=np.maximum(least, most),
        engine_wh=engine_wh,
        sun_used_wh=by_month[1],
        full_wh=by_month[2],
        acceptance_wh=by_month[3],
        held_back_wh=by_month[4],
        uses_wh=by_year[2],
        dark_wh=by_year[3],
        dark_hours=by_year[4],
        dawn_charge=by_month[5] / np.maximum(by_month[6], 1.0),
        lowest_charge=by_year[5],
        charge=charges[middle],
        freeze_margin_k=by_year[6],
        longest_since_brim_full_days=by_year[7],
        balance_error=errors.max(axis=0),
        notes=notes_of(house),
    )


def summary(years: HouseYears) -> HouseSummary:
    """Good, median and bad year."""
    turned = years.full_wh + years.acceptance_wh + years.held_back_wh
    return HouseSummary(
        engine_hours=spread(years.engine_hours.sum(axis=1)),
        fuel_least_l=spread(years.fuel_least_l),
        fuel_most_l=spread(years.fuel_most_l),
        dark_hours=spread(years.dark_hours),
        engine_hours_by_month=_means(years.engine_hours),
        sun_used_wh_by_month=_means(years.sun_used_wh),
        turned_away_wh_by_month=_means(turned),
        working=_working(years, turned),
    )


def _means(by_month: Floats) -> tuple[float, ...]:
    return tuple(float(value) for value in by_month.mean(axis=0))


def _working(years: HouseYears, turned: Floats) -> Working:
    """How the engine hours of a mean year come about, and the median as the headline."""
    hours = years.engine_hours.sum(axis=1)
    mean_hours, given = float(hours.mean()), float(years.engine_wh.mean())
    power = given / mean_hours if mean_hours > 0.0 else 0.0
    steps = (
        Step("uses of a mean year", "E_u", "", float(years.uses_wh.mean()), "Wh", OWNER),
        Step("sun used", "E_s", "", float(years.sun_used_wh.sum(axis=1).mean()), "Wh", OURS),
        Step("sun turned away, battery full", "E_f", "", _whole(years.full_wh), "Wh", OURS),
        Step("sun turned away, battery could not take it so fast", "E_a", "", _whole(years.acceptance_wh), "Wh", OURS),
        Step("sun held back by the controller", "E_h", "", _whole(years.held_back_wh), "Wh", OURS),
        Step("sun turned away in all", "E_t", "E_f + E_a + E_h", _whole(turned), "Wh", OURS),
        Step("what the engine gave, house and charger", "E_g", "", given, "Wh", OURS),
        Step("its mean power while it ran", "P_g", f"{given:.0f} Wh / {mean_hours:.2f} h", power, "W", OURS),
        Step("engine hours of a mean year", "h_mean", f"{given:.0f} Wh / {power:.1f} W" if power > 0.0 else "", mean_hours, "h", OURS),
        Step("engine hours of the median year", "h_50", f"50 % point of {hours.size} years", float(np.median(hours)), "h", OURS),
    )  # fmt: skip
    notes = (*years.notes, *_dangers(years))
    return Working("engine hours of the median year", steps, notes)


def _whole(by_month: Floats) -> float:
    """Sum of a mean year, to the whole watt-hour."""
    return float(round(by_month.sum(axis=1).mean()))


def _dangers(years: HouseYears) -> tuple[str, ...]:
    """What hurts the bank, told beside the hours."""
    told = []
    margin = float(years.freeze_margin_k.min())
    if margin < 5.0:
        told.append(f"The acid came within {max(margin, 0.0):.0f} K of freezing in the worst hour: a frozen bank may burst. Keep it warmer or fuller.")  # fmt: skip
    longest = float(np.median(years.longest_since_brim_full_days))
    if np.isfinite(margin) and longest > 14.0:
        told.append(f"In a median year the bank goes {longest:.0f} days without being brim-full; lead-acid hardens after 7 to 14.")  # fmt: skip
    return tuple(told)


def beside_last_winter(years: HouseYears, last_winter: LastWinter) -> tuple[Beside, ...]:
    """The owner's own figures of last winter beside the years worked without the new array; nothing is fitted.

    Args:
        years: The house as it was last winter.
        last_winter: What the owner knows; rows for what is left out are missing.

    Returns:
        A row for each figure given: engine hours, fuel (middle of the range), dawn charge (December to February in the
        north, the leanest three months anywhere).
    """
    lean = np.argsort(years.dawn_charge.mean(axis=0))[:3]
    fuel = 0.5 * (years.fuel_least_l + years.fuel_most_l)
    rows = (
        ("engine hours", years.engine_hours.sum(axis=1), last_winter.engine_hours, "h", False),
        ("fuel", fuel, last_winter.fuel_l, "l", False),
        ("charge at dawn, three leanest months", years.dawn_charge[:, lean].mean(axis=1), last_winter.dawn_charge, "", True),
    )  # fmt: skip
    return tuple(
        _beside(word, values, theirs, unit, more_is_better)
        for word, values, theirs, unit, more_is_better in rows
        if theirs is not None
    )


def _beside(word: str, values: Floats, theirs: float, unit: str, more_is_better: bool) -> Beside:
    low, median, high = (float(value) for value in np.quantile(values, (0.1, 0.5, 0.9)))
    good, bad = (high, low) if more_is_better else (low, high)
    return Beside(word, good, median, bad, theirs, unit, low <= theirs <= high)
