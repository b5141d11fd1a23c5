"""The run over the real year: its squared current, and what a lost watt-hour costs this house."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import partial
from typing import Protocol

import numpy as np
from numpy.typing import NDArray

from polestead.answer.stands import beyond_in
from polestead.answer.supply import BLOCK_YEARS, Single, Skies, Sun, new_power_w
from polestead.answer.winter import HouseOnSun, saved_under
from polestead.base.source import OWNER, Source
from polestead.base.working import Step, Working
from polestead.homestead.model import Homestead, NewArray, Prices
from polestead.household.result import HouseYears
from polestead.modules.power import cell_c
from polestead.money.saved import saved_by_year
from polestead.mount.schedule import Habitual
from polestead.wiring.currents import bright_current_a, steady_current_a
from polestead.wiring.run.ampacity import AT_TERMINALS, IN_HEAT, IN_SOIL
from polestead.wiring.run.beyond import Beyond
from polestead.wiring.run.economy import Economy, economy_of, wire_prices
from polestead.wiring.run.loss import (
    JOULE,
    NOTES,
    HoursByStrength,
    hours_by_strength,
    sum_i2_h_a2,
    working_v,
)
from polestead.wiring.run.sizes import BRINGS, IN_SUMMER, PROTECTED, SizeOfWire, Strings
from polestead.wiring.run.trade import Strung, Trade, controller_price, trade_of

Pair = tuple[float, float]
Floats = NDArray[np.float64]
TRIED_SHARE = 0.05  # lost in full sun in the run that is tried: large enough to be told from luck, small enough to be a margin
HOUSE = Source("the house run with and without the loss, hour by hour", status="computed")
OF_WIRE = frozenset({AT_TERMINALS, IN_HEAT, IN_SOIL, PROTECTED, IN_SUMMER, BRINGS})


class LaidOut(Protocol):
    """What the trade asks of a layout, whoever worked it."""

    @property
    def controller(self) -> str:
        """Its name."""

    @property
    def in_series(self) -> int:
        """Modules in a string."""

    @property
    def in_parallel(self) -> int:
        """Strings."""

    @property
    def chosen(self) -> bool:
        """Whether the file has it so."""

    @property
    def full_sun_a(self) -> float:
        """Working current [A]."""

    @property
    def hot_margin_v(self) -> float | None:
        """Volts left over what charging wants, behind the wire in the file."""

    @property
    def drop_v(self) -> float | None:
        """Lost in full sun in the wire in the file [V]."""

    @property
    def breaker_a(self) -> float | None:
        """By the rule."""

    @property
    def held_back_w(self) -> float:
        """What the controller cannot pass on [W]."""

    @property
    def faults(self) -> tuple[str, ...]:
        """What does not hold, as the checks are named."""


@dataclass(frozen=True, slots=True)
class RunYear:
    """What the weather and the house say of the run; every size of wire and every layout follows from it.

    Attributes:
        years: Worked.
        array_wh: The new array's energy in a mean year.
        module_a2_h: Sum of (array's power over one module's working voltage)^2 over a mean year [A^2 h].
        i2_h_a2: Sum of the squared current of the run as strung [A^2 h].
        hours: The hours by strength: what any wire loses follows from them, also one too thin to bring the power.
        tried_wh: Lost in a mean year by the wire that was tried, 5 % in full sun.
        would_be_taken: Share of what is lost that battery or house would have taken.
        would_spare_engine: Share of what is lost that the engine gives instead.
        worth_per_wh: What a lost watt-hour costs in fuel and engine hours (low, high): the two ends of the fuel line, each
            opened by the luck of the years, and never under nothing.
        unsure_per_wh: That luck: standard error of the high end over the years.
        working: The sums.
        notes: What stands beside.
    """

    years: int
    array_wh: float
    module_a2_h: float
    i2_h_a2: float
    hours: HoursByStrength
    tried_wh: float
    would_be_taken: float
    would_spare_engine: float
    worth_per_wh: Pair
    unsure_per_wh: float
    working: Working
    notes: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class RunChoices:
    """The run over the year, every size over the owner's years, and the trade of strings, controller and wire."""

    year: RunYear
    economy: Economy
    trade: tuple[Trade, ...]


def run_over_year(file: Homestead, skies: Skies, house: HouseOnSun, plan: Habitual) -> RunYear:
    """Hourly currents of the first block of years, and two runs of the house: without any loss, and with a wire's loss.

    The loss that is tried has the shape of a wire's, most in full sun, so that hours in which the battery is full count for as
    little as they do for a wire.  What it costs is divided by what it loses; for any other wire it grows in proportion.

    Source: Joule's law; the household's own hours.

    Args:
        file: The homestead.
        skies: Its weather.
        house: The house under it.
        plan: How the array is tipped.
    """
    sun = next(skies.blocks(BLOCK_YEARS))
    array = file.array
    power = new_power_w(array, file.mount.facing_deg, sun, plan)
    volts = module_v(array, sun, power)
    module_a2_h = sum_i2_h_a2(power, volts)
    i2_h = module_a2_h / array.in_series**2
    tried_ohm = (
        TRIED_SHARE * _full_sun_v(array) / (array.in_parallel * array.module.working_current_a)
    )
    tried_wh = tried_ohm * i2_h
    string_v = array.in_series * volts
    whole = house.with_less(plan, lambda _sun, all_of_it: all_of_it)
    less = house.with_less(
        plan, lambda _sun, all_of_it: _after_wire(all_of_it, string_v, tried_ohm)
    )
    low, high = _cost_by_year(file.prices, whole, less)
    cost = (float(low.mean()), float(high.mean()))
    years = high.size
    unsure = (_luck(low), _luck(high))
    worth = (max(cost[0] - unsure[0], 0.0) / tried_wh, max(cost[1] + unsure[1], 0.0) / tried_wh)
    taken = float((whole.sun_used_wh - less.sun_used_wh).sum(axis=1).mean())
    spared = float((less.engine_wh - whole.engine_wh).mean())
    efficiency = next(
        one.efficiency for one in file.household.controller if one.name == array.controller
    )
    return RunYear(
        years=years,
        array_wh=float(power.sum(dtype=np.float64)) / years,
        module_a2_h=module_a2_h,
        i2_h_a2=i2_h,
        hours=hours_by_strength(power, volts),
        tried_wh=tried_wh,
        would_be_taken=taken / efficiency / tried_wh,
        would_spare_engine=spared / tried_wh,
        worth_per_wh=worth,
        unsure_per_wh=unsure[1] / tried_wh,
        working=_working(file, i2_h, tried_ohm, tried_wh, taken, spared, cost, worth, unsure),
        notes=(*NOTES, *_notes(file, cost, unsure[1])),
    )


def module_v(array: NewArray, sun: Sun, power_w: Single) -> Single:
    """Working voltage of one module, hour by hour, its cells warmed by the light the power tells of [years, 8760] [V]."""
    module = array.module
    rated = module.power_w * array.columns * array.rows
    rise = np.float32((cell_c(1000.0, 0.0)) / rated)  # K a watt, as the light goes with the power
    cells = sun.weather.air_c.astype(np.float32) + power_w * rise
    fall = module.open_circuit_voltage_v * module.voltage_change_per_k
    return np.asarray(working_v(module.working_voltage_v, fall, 1, cells), dtype=np.float32)


def run_choices_of(
    file: Homestead,
    year: RunYear,
    sizes: Iterable[SizeOfWire],
    layouts: Iterable[LaidOut],
    held_back_wh: Mapping[str, float] | None = None,
) -> RunChoices:
    """Every size and every layout over the owner's years.

    Args:
        file: The homestead.
        year: Of ``run_over_year``.
        sizes: As worked without the weather.
        layouts: Of the new array, as worked without the weather.
        held_back_wh: What each controller holds back in a mean year; None where that was not worked.
    """
    prices, run = wire_prices(file.prices.wire), file.run
    years, code = file.prices.counted_years, file.place.wired_by
    losing = partial(year.hours.lost_wh, in_series=file.array.in_series)
    economy = economy_of(sizes, year.i2_h_a2, year.worth_per_wh, years, run.length_m, prices, losing)  # fmt: skip
    ways = strung_of(file, layouts, year.worth_per_wh, held_back_wh or {})
    trade = trade_of(ways, run, code, year.module_a2_h, year.worth_per_wh, years, prices, year.hours)  # fmt: skip
    return RunChoices(year, economy, trade)


def strung_of(
    file: Homestead,
    layouts: Iterable[LaidOut],
    worth_per_wh: Pair,
    held_back_wh: Mapping[str, float],
) -> Iterator[Strung]:
    """Layouts as the trade takes them; a fault of the wire in the file is no fault of a layout.

    What is held back costs as much a watt-hour as what a wire loses: both fall in full sun (ours).
    """
    module, beyond = file.array.module, beyond_in(file)
    for one in layouts:
        full_sun_v = one.in_series * module.working_voltage_v
        spare = None
        if one.hot_margin_v is not None and one.drop_v is not None:
            spare = one.hot_margin_v + one.drop_v
        too_few_volts = spare is not None and spare <= 0.0
        own = set(one.faults) - (OF_WIRE if not too_few_volts else OF_WIRE - {IN_SUMMER})
        held = held_back_wh.get(one.controller)
        yield Strung(
            controller=one.controller,
            in_series=one.in_series,
            in_parallel=one.in_parallel,
            chosen=one.chosen,
            allowed=not own and one.breaker_a is not None,
            strings=Strings(
                module.short_circuit_current_a, one.in_parallel, full_sun_v, one.full_sun_a, one.breaker_a, spare, *_beyond(beyond, module.short_circuit_current_a, one)
            ),
            controller_price=controller_price(one.controller, file.prices.lines),
            held_back_w=one.held_back_w,
            held_back_year=None if held is None else (held * worth_per_wh[0], held * worth_per_wh[1]),
        )  # fmt: skip


def _beyond(beyond: Beyond, isc_a: float, one: LaidOut) -> tuple[float, float]:
    """Metres of wire down the pole, and the cord's ohm, as these strings want it."""
    steady, bright = steady_current_a(isc_a, one.in_parallel), bright_current_a(isc_a, one.in_parallel)  # fmt: skip
    return beyond.pipe_m, beyond.cord_ohm_20c(steady, bright, one.breaker_a or 0.0)


def _after_wire(power_w: Single, string_v: Single, loop_ohm: float) -> Single:
    current = power_w / string_v
    return np.maximum(power_w - np.float32(loop_ohm) * current * current, np.float32(0.0))


def _full_sun_v(array: NewArray) -> float:
    return array.in_series * array.module.working_voltage_v


def _cost_by_year(prices: Prices, whole: HouseYears, less: HouseYears) -> tuple[Floats, Floats]:  # fmt: skip
    """Money the loss costs each year, by the low and the high end of the fuel line."""
    return saved_by_year(prices, *saved_under(less, whole))


def _luck(by_year: Floats) -> float:
    """Standard error of the mean; nothing where a single year was worked."""
    return float(by_year.std(ddof=1)) / float(by_year.size) ** 0.5 if by_year.size > 1 else 0.0


def _notes(file: Homestead, cost: Pair, unsure: float) -> tuple[str, ...]:
    if file.household.engine is None:
        return ("There is no engine: what the wire loses costs no fuel, it costs hours without power in winter.",)  # fmt: skip
    if cost[1] < 2.0 * unsure:
        return (
            "What the loss costs in fuel can hardly be told from the luck of these years: nearly all of it falls in sun that would have "
            "been turned away. Take its worth as small.",
        )
    return ()


def _working(
    file: Homestead,
    i2_h: float,
    tried_ohm: float,
    tried_wh: float,
    taken: float,
    spared: float,
    cost: Pair,
    worth: Pair,
    unsure: Pair,
) -> Working:
    array, money = file.array, file.prices.currency
    amps = array.in_parallel * array.module.working_current_a
    steps = (
        Step("working voltage of a string in full sun", "V", "", _full_sun_v(array), "V", OWNER),
        Step("current in full sun", "I", "", amps, "A", OWNER),
        Step("squared current over a mean year", "S", "sum of (P/V)^2 over the hours, V with the cells' warmth", i2_h, "A^2 h", JOULE),
        Step("a wire that is tried, there and back", "R", f"{TRIED_SHARE:g} x {_full_sun_v(array):g} / {amps:g}", tried_ohm, "ohm", HOUSE),
        Step("it loses in a mean year", "E", f"{tried_ohm:.4f} x {i2_h:.0f}", tried_wh, "Wh", JOULE),
        Step("of that battery or house would have taken", "E1", "at the battery's terminals", taken, "Wh", HOUSE),
        Step("and the engine gives instead", "E2", "", spared, "Wh", HOUSE),
        Step("it costs in a mean year, low end", "c1", "", cost[0], money, HOUSE),
        Step("it costs in a mean year, high end", "c2", "", cost[1], money, HOUSE),
        Step("the luck of the years, low end", "s1", "standard error", unsure[0], money, HOUSE),
        Step("the luck of the years, high end", "s2", "standard error", unsure[1], money, HOUSE),
        Step("a lost watt-hour costs, low end", "w1", f"max({cost[0]:.5g} - {unsure[0]:.5g}, 0) / {tried_wh:.0f}", worth[0], f"{money}/Wh", HOUSE),
        Step("a lost watt-hour costs, high end", "w2", f"max({cost[1]:.5g} + {unsure[1]:.5g}, 0) / {tried_wh:.0f}", worth[1], f"{money}/Wh", HOUSE),
    )  # fmt: skip
    return Working("what a watt-hour lost in the run costs", steps, NOTES)
