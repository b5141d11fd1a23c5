"""What the money might do instead: one more module, a bigger battery, a better habit, each run through the same years.

Not part of the answer: it takes as long as four more houses, and is asked for by the banker's leaf and the book.
"""

from __future__ import annotations

from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, replace
from functools import partial

import numpy as np

from polestead.answer.answer import Answer
from polestead.answer.supply import (
    BLOCK_YEARS,
    Single,
    Skies,
    Sun,
    new_power_w,
    old_supply,
    with_new,
)
from polestead.answer.winter import CORES, saved_under
from polestead.base.source import OWNER, Source
from polestead.base.spread import Spread
from polestead.base.working import Step, Working
from polestead.habits.habits import saving
from polestead.homestead.model import Battery, Homestead, Household
from polestead.homestead.read import OwnersFile
from polestead.household.result import HouseYears
from polestead.household.run import run_house
from polestead.money.saved import Floats, saved_by_year
from polestead.mount.schedule import Habitual

BIGGER = 1.25  # of the battery's capacity: a step one can buy; ours
MODULE, BATTERY, TIPPING, SWEEPING = "one more module", "a bigger battery", "a better way of tipping", "sweeping the snow off by nine"  # fmt: skip
RUN = Source("the same years run with and without the change, the new array in both", status="computed")  # fmt: skip
DRAWS, SEED = 400, 1


@dataclass(frozen=True, slots=True)
class Instead:
    """One change beside the new array as planned, against the same array without the change.

    Attributes:
        word: What is changed.
        what: How much of it, in words.
        saved_hours: Engine hours saved in a year; more is better, so ``good`` is the 90 % point.
        mean_interval_h: 90 % interval of the mean hours saved, years drawn again.
        told_apart: Whether that interval leaves nothing out, so that the change does something.
        saved_dark_hours: Hours without power that are spared, in a mean year.
        saved_fuel_l: Saved in a mean year by the low and by the high end of the fuel line.
        saved_money: The same in money, wear of the engine in it.
        per: What one step is, as ``module`` or ``100 Ah``; empty where nothing is bought.
        money_per: Money saved in a mean year for one such step.
        may_cost: What such a step may cost to be paid for in the counted years, nothing discounted.
        costs: What one costs by the ledger, None where it is not known.
        working: How it comes about.
    """

    word: str
    what: str
    saved_hours: Spread
    mean_interval_h: tuple[float, float]
    told_apart: bool
    saved_dark_hours: float
    saved_fuel_l: tuple[float, float]
    saved_money: tuple[float, float]
    per: str
    money_per: tuple[float, float]
    may_cost: tuple[float, float]
    costs: float | None
    working: Working


@dataclass(frozen=True, slots=True)
class _Change:
    """A change, and the house and the new array's power it makes of a block of years."""

    word: str
    what: str
    per: str
    steps: float
    costs: float | None
    house: Household
    power: Callable[[Sun, Single], Single]


def instead_of(owners: OwnersFile, answer: Answer, years: int = BLOCK_YEARS) -> tuple[Instead, ...]:
    """Run the house with each change; changes the homestead has already are left out.

    Args:
        owners: The file as read.
        answer: Its answer; the same seed, house-use factor and plan are used.
        years: To run; the first ones of the answer's.
    """
    file = owners.homestead
    skies = Skies(file, owners.path.parent, answer.geometry, answer.years, answer.seed)
    changes = _changes(file, answer)
    base: list[HouseYears] = []
    changed: list[list[HouseYears]] = [[] for _ in changes]
    with ThreadPoolExecutor(max_workers=CORES) as pool:
        for sun in skies.blocks(years):
            old = old_supply(file.household, sun)
            plan = new_power_w(file.array, file.mount.facing_deg, sun, answer.schedule)

            work = partial(_run, file, answer.winter.use_factor, sun, old)
            jobs = [pool.submit(work, file.household, plan)]
            jobs += [pool.submit(_changed, work, one, sun, plan) for one in changes]
            found = [job.result() for job in jobs]
            base.append(found[0])
            for kept, one in zip(changed, found[1:], strict=True):
                kept.append(one)
    return tuple(_told(file, one, base, after) for one, after in zip(changes, changed, strict=True))


def _run(
    file: Homestead,
    use_factor: float,
    sun: Sun,
    old: dict[str, list[Single]],
    house: Household,
    power: Single,
) -> HouseYears:
    """One house over a block of years."""
    return run_house(
        house,
        with_new(old, file.array.controller, power),
        sun.weather.air_c,
        sun.path.start_month,
        file.place.elevation_m,
        use_factor,
        sun.first,
    )


def _changed(
    work: Callable[[Household, Single], HouseYears], one: _Change, sun: Sun, plan: Single
) -> HouseYears:
    return work(one.house, one.power(sun, plan))


def _changes(file: Homestead, answer: Answer) -> tuple[_Change, ...]:
    """What could be done instead at this homestead."""
    array, house = file.array, file.household
    count = array.columns * array.rows
    modules = [part.total for part in answer.money.ledger.parts if part.part == "array"]
    grown = bigger(house.battery)
    added = grown.capacity_ah - house.battery.capacity_ah
    found = [
        _Change(
            MODULE, f"{count} + 1 modules on the same controller", "module", 1.0,
            modules[0] / count if modules and modules[0] > 0.0 else None, house,
            lambda _, plan: np.asarray(plan * np.float32((count + 1) / count)),
        ),
        _Change(
            BATTERY, f"{grown.capacity_ah:.0f} Ah in place of {house.battery.capacity_ah:.0f} Ah of the same kind", "100 Ah", added / 100.0,
            None, house.model_copy(update={"battery": grown}), lambda _, plan: plan,
        ),
    ]  # fmt: skip
    best = next((one for one in answer.habits if not one.a_bound), None)
    if best is not None and best.schedule != answer.schedule:
        moved = f"{best.schedule.name}, {best.moves_a_year:.0f} moves a year"
        found.append(_Change(TIPPING, moved, "", 1.0, None, house, _tipped(file, best.schedule)))
    if not array.swept:
        found.append(
            _Change(
                SWEEPING, "every snowy day", "", 1.0, None, house, _swept(file, answer.schedule)
            )
        )
    return tuple(found)


def _tipped(file: Homestead, habit: Habitual) -> Callable[[Sun, Single], Single]:
    return lambda sun, _: new_power_w(file.array, file.mount.facing_deg, sun, habit)


def _swept(file: Homestead, plan: Habitual) -> Callable[[Sun, Single], Single]:
    return lambda sun, _: new_power_w(
        file.array, file.mount.facing_deg, replace(sun, sweeps=True), plan
    )


def bigger(battery: Battery, times: float = BIGGER) -> Battery:
    """A bank of the same kind with more in it: capacity, charging limit and the maker's table grow alike.

    Args:
        battery: That is there.
        times: How much bigger.
    """
    limit = battery.charge_limit_a
    gives = tuple(
        f"{row.charge_ah * times:.3f} Ah in {row.hours:g} h" for row in battery.table_rows
    )
    return battery.model_copy(
        update={
            "capacity_ah": battery.capacity_ah * times,
            "charge_limit_a": None if limit is None else limit * times,
            "gives": gives,
        }
    )


def _told(
    file: Homestead, change: _Change, base: list[HouseYears], after: list[HouseYears]
) -> Instead:
    """The yearly savings of one change."""
    pairs = [saved_under(one, other) for one, other in zip(base, after, strict=True)]
    hours, least, most = (np.concatenate([pair[nth] for pair in pairs]) for nth in range(3))
    dark = np.concatenate([one.dark_hours - other.dark_hours for one, other in zip(base, after, strict=True)])  # fmt: skip
    low, high = saved_by_year(file.prices, hours, least, most)
    money = (float(low.mean()), float(high.mean()))
    per = (money[0] / change.steps, money[1] / change.steps)
    counted = float(max(1, round(file.prices.counted_years)))
    fuel_l = sorted((float(least.mean()), float(most.mean())))
    interval = _interval(hours)
    return Instead(
        change.word, change.what, saving(hours), interval, not interval[0] <= 0.0 <= interval[1],
        float(dark.mean()), (fuel_l[0], fuel_l[1]), money, change.per, per,
        (max(0.0, per[0] * counted), max(0.0, per[1] * counted)), change.costs,
        _working(file, change, hours, (fuel_l[0], fuel_l[1]), money, per, counted),
    )  # fmt: skip


def _interval(hours: Floats) -> tuple[float, float]:
    """90 % interval of the mean, years drawn again."""
    picks = np.random.default_rng(SEED).integers(0, hours.size, size=(DRAWS, hours.size))
    low, high = np.quantile(hours[picks].mean(axis=1), (0.05, 0.95))
    return float(low), float(high)


def _working(
    file: Homestead,
    change: _Change,
    hours: Floats,
    fuel_l: tuple[float, float],
    money: tuple[float, float],
    per: tuple[float, float],
    counted: float,
) -> Working:
    currency, mean = file.prices.currency, float(hours.mean())
    price, wear = file.prices.fuel_per_l, file.prices.engine_hour
    steps = [
        Step("engine hours saved, mean year", "h", f"mean of {hours.size} years", mean, "h", RUN),
        Step("fuel saved, mean year, low end", "f1", "", fuel_l[0], "l", RUN),
        Step("fuel saved, mean year, high end", "f2", "", fuel_l[1], "l", RUN),
        Step("money saved, mean year, low end", "s1", f"{fuel_l[0]:.2f} x {price:.3f} + {mean:.2f} x {wear:.2f}", money[0], currency, OWNER),
        Step("money saved, mean year, high end", "s2", f"{fuel_l[1]:.2f} x {price:.3f} + {mean:.2f} x {wear:.2f}", money[1], currency, OWNER),
    ]  # fmt: skip
    if change.per:
        steps += [
            Step(f"for each {change.per}, high end", "k2", f"{money[1]:.2f} / {change.steps:g}", per[1], currency, RUN),
            Step(f"each {change.per} may cost, high end", "c2", f"{per[1]:.2f} x {counted:.0f} years", max(0.0, per[1] * counted), currency, RUN),
        ]  # fmt: skip
    return Working(f"instead: {change.word}", tuple(steps), ("Beside the new array as planned, not in place of it.",))  # fmt: skip
