"""The house run through all years, with or without the new array."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from polestead.base.hours import DAYS, working_year
from polestead.base.source import OWNER, Source
from polestead.base.spread import spread
from polestead.base.working import Step, Working
from polestead.homestead.model import Household
from polestead.household.bank import (
    bank_of,
    inside_of,
    motor_of,
    notes_of,
    refuse_what_cannot_work,
)
from polestead.household.fuel import fuel_lines
from polestead.household.plan import (
    ARRAYS_LEFT,
    CHARGE_LEFT,
    DARK_H,
    DARK_WH,
    DAWN,
    DAWNS,
    DRY_H,
    ENGINE_H,
    ENGINE_WH,
    FAILED_STARTS,
    FILLS,
    FREEZE_MARGIN,
    FULL,
    HEATER_WH,
    HELD_BACK,
    LONGEST_DARK,
    LONGEST_SINCE_FULL,
    LOWEST,
    STARTS,
    SUN_USED,
    TERMINALS_LEFT,
    TOO_SLOW,
    USES_WH,
    WAITING_WH,
    WITHOUT_SUN_WH,
    Plan,
)
from polestead.household.result import HouseHours, HouseSummary, HouseYears, middle_year
from polestead.household.uses import uses_by_hour_w, waiting_of
from polestead.household.wear import wear_of

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


def _run(
    house: Household,
    plan: Plan,
    array_power_w: dict[str, list[NDArray[np.float32]]],
    air_c: NDArray[np.floating],
    first_year: int,
) -> tuple[Floats, Floats, Floats]:
    """The compiled loop, handed what it wants."""
    from polestead.household.engine import LUCKS
    from polestead.household.kernel import run_years

    power = _stacked(house, array_power_w, air_c.shape)
    air = np.ascontiguousarray(np.asarray(air_c, dtype=np.float32))
    luck = 1 + (7919 * first_year) % (LUCKS - 1)
    return run_years(plan, power, air, luck)


def run_house(
    house: Household,
    array_power_w: dict[str, list[NDArray[np.float32]]],
    air_c: NDArray[np.floating],
    start_month: int,
    elevation_m: float,
    use_factor: float = 1.0,
    first_year: int = 0,
) -> HouseYears:
    """Run every working year, charge carried over.

    The first year is run once before, to find the state it starts in.

    Args:
        house: The household section.
        array_power_w: Direct-current power of each array by the name of its controller, each [years, 8760]; several
            arrays on one controller are listed together.
        air_c: Outdoor temperature [years, 8760].
        start_month: First month of the working year.
        elevation_m: For the engine's derating.
        use_factor: House-use factor: all uses times this.
        first_year: Number of the first year, where the years are a part of more; only the luck of starting hangs on it.

    Raises:
        Wrong: Where an array hangs on an unknown controller, or a section speaks against itself.
    """
    refuse_what_cannot_work(house, tuple(array_power_w))
    plan = plan_of(house, start_month, elevation_m, use_factor)
    return _result(house, plan, *_run(house, plan, array_power_w, air_c, first_year))


def run_by_hour(
    house: Household,
    array_power_w: dict[str, list[NDArray[np.float32]]],
    air_c: NDArray[np.floating],
    start_month: int,
    elevation_m: float,
    use_factor: float = 1.0,
    first_year: int = 0,
) -> HouseHours:
    """The same run as ``run_house``, told hour by hour; for a block of years, since it holds much.

    Args:
        house: The household section.
        array_power_w: As in ``run_house``.
        air_c: Outdoor temperature [years, 8760].
        start_month: First month of the working year.
        elevation_m: For the engine's derating.
        use_factor: House-use factor.
        first_year: Number of the first year.
    """
    plan = plan_of(house, start_month, elevation_m, use_factor)
    plan = plan._replace(column=np.arange(air_c.shape[1], dtype=np.int64))
    by_hour, _, charge = _run(house, plan, array_power_w, air_c, first_year)
    turned = by_hour[FULL] + by_hour[TOO_SLOW] + by_hour[HELD_BACK]
    return HouseHours(charge, by_hour[ENGINE_H], by_hour[SUN_USED], turned, by_hour[DARK_H])


def plan_of(
    house: Household, start_month: int, elevation_m: float, use_factor: float = 1.0
) -> Plan:
    """All the hourly loop is told of a house.

    Raises:
        Wrong: A section that speaks against itself.
    """
    year = working_year(start_month)
    return Plan(
        bank_of(house.battery),
        inside_of(house.inverter),
        motor_of(house.engine, house.battery, elevation_m),
        waiting_of(house.use_list, start_month, use_factor),
        np.array([controller.passes_a for controller in house.controller]),
        np.array([controller.efficiency for controller in house.controller]),
        use_factor * uses_by_hour_w(house.use_list, start_month),
        year.month - 1,
        np.array(year.hour),
        year.month - 1,
    )


def _result(
    house: Household, plan: Plan, by_month: Floats, by_year: Floats, charges: Floats
) -> HouseYears:
    ends = [np.zeros_like(by_month[ENGINE_H])] * 2
    if house.engine is not None:
        lines = fuel_lines(house.engine)
        ends = [line.burnt_l(by_month[ENGINE_H], by_month[ENGINE_WH]) for line in lines]
    # which end is the thirstier hangs on the load, so it is asked of the whole year
    least, most = sorted(ends, key=lambda burnt: float(burnt.sum()))
    full_ah = plan.bank.full_ah
    full_wh = full_ah * house.battery.nominal_v
    errors = np.abs(by_year[[CHARGE_LEFT, TERMINALS_LEFT, ARRAYS_LEFT]])
    errors /= np.array([[full_ah], [full_wh], [full_wh]])
    return HouseYears(
        engine_hours=by_month[ENGINE_H],
        sun_used_wh=by_month[SUN_USED],
        full_wh=by_month[FULL],
        acceptance_wh=by_month[TOO_SLOW],
        held_back_wh=by_month[HELD_BACK],
        uses_wh=by_year[USES_WH],
        dark_wh=by_year[DARK_WH],
        dawn_charge=by_month[DAWN] / np.maximum(by_month[DAWNS], 1.0),
        lowest_charge=by_year[LOWEST],
        charge=charges[middle_year(by_month[ENGINE_H].sum(axis=1))],
        freeze_margin_k=by_year[FREEZE_MARGIN],
        longest_since_brim_full_days=by_year[LONGEST_SINCE_FULL],
        balance_error=errors.max(axis=0),
        starts_by_month=by_month[STARTS],
        engine_wh_by_month=by_month[ENGINE_WH],
        fuel_least_l_by_month=least,
        fuel_most_l_by_month=most,
        dark_hours_by_month=by_month[DARK_H],
        longest_dark_h=by_year[LONGEST_DARK],
        failed_starts=by_year[FAILED_STARTS],
        fills=by_year[FILLS],
        dry_hours=by_year[DRY_H],
        waited_wh=by_year[WAITING_WH],
        sunless_wh=by_year[WITHOUT_SUN_WH],
        heater_wh=by_year[HEATER_WH],
        wear=wear_of(plan.bank, house.battery.kind == "flooded lead-acid", by_year),
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
        sun_used_low_wh_by_month=_points(years.sun_used_wh, 0.1),
        sun_used_high_wh_by_month=_points(years.sun_used_wh, 0.9),
        turned_away_wh_by_month=_means(turned),
        working=_working(years, turned),
        longest_dark_h=spread(years.longest_dark_h),
        engine_hours_good_by_month=_points(years.engine_hours, 0.1),
        engine_hours_bad_by_month=_points(years.engine_hours, 0.9),
        fuel_least_l_by_month=_means(years.fuel_least_l_by_month),
        fuel_most_l_by_month=_means(years.fuel_most_l_by_month),
        starts_by_month=_means(years.starts_by_month),
        dark_hours_by_month=_means(years.dark_hours_by_month),
        dawn_charge_by_month=_means(years.dawn_charge),
        dawn_charge_low_by_month=_points(years.dawn_charge, 0.1),
        full_wh_by_month=_means(years.full_wh),
        acceptance_wh_by_month=_means(years.acceptance_wh),
        held_back_wh_by_month=_means(years.held_back_wh),
        starts=float(years.starts.mean()),
        fills=float(years.fills.mean()),
        failed_starts=float(years.failed_starts.mean()),
        dry_hours=float(years.dry_hours.mean()),
        full_cycles=float(years.wear.full_cycles.mean()),
        water_l=float(years.wear.water_l.mean()),
        cycling_loss=float(years.wear.cycling_loss.mean()),
        longest_since_brim_full_days=float(np.median(years.longest_since_brim_full_days)),
    )


def _points(by_month: Floats, share: float) -> tuple[float, ...]:
    return tuple(float(value) for value in np.quantile(by_month, share, axis=0))


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
    if float(years.dry_hours.max()) > 0.0:
        told.append(f"In the worst year the tank could not feed the engine in {years.dry_hours.max():.0f} hours in which it was called: too little fuel on the place, or too cold for propane to boil off.")  # fmt: skip
    if float(years.failed_starts.max()) > 0.0:
        told.append(f"With the chance of starting you wrote, the engine fails {years.failed_starts.mean():.1f} times in a mean year, and the longest dark spell of a bad year is {np.quantile(years.longest_dark_h, 0.9):.0f} h.")  # fmt: skip
    if np.isfinite(margin) and longest > 14.0:
        goes = f"the bank goes {longest:.0f} days without being" if longest <= DAYS else "the bank is never"  # fmt: skip
        told.append(f"In a median year {goes} brim-full; lead-acid hardens after 7 to 14 days without.")  # fmt: skip
    return tuple(told)
