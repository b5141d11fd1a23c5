"""The compiled loop: equal to its plain twin, nothing made or lost, the laws of a battery."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from polestead.household import cells, engine, kernel
from polestead.household.bank import bank_of
from polestead.household.fuel import boil_off_l_h
from polestead.household.plan import (
    ARRAYS_LEFT,
    CHARGE_LEFT,
    DARK_H,
    DARK_WH,
    DRY_H,
    ENGINE_H,
    FAILED_STARTS,
    FILLS,
    FULL,
    HEATER_WH,
    HELD_BACK,
    LONGEST_DARK,
    STARTS,
    SUN_USED,
    TANK_LEFT,
    TERMINALS_LEFT,
    TOO_SLOW,
    USES_WH,
    WAITING_WH,
    WITHOUT_SUN_WH,
    Bank,
    Inside,
    Motor,
    Plan,
    Waiting,
    nothing_waits,
)
from polestead.household.run import plan_of
from polestead.household.tanks import hour_of_tanks
from tests.household import fabricated
from tests.household.fabricated import battery, household
from tests.household.twin import Twin

KINDS = ("flooded lead-acid", "sealed lead-acid", "lithium iron phosphate")


def inputs(seed, years=2, days=24, controllers=2, peak_w=4000.0, uses_w=500.0, cold_c=0.0):
    """Rough weather and uses of a short year: clouds, calm spells, cold snaps."""
    rng = np.random.default_rng(seed)
    hours = days * 24
    hump = np.clip(np.sin(np.pi * (np.arange(hours) % 24 - 6.5) / 11.0), 0.0, None)
    sky = rng.beta(0.7, 1.1, size=(controllers, years, days)).repeat(24, axis=2)
    sun = (peak_w * hump * sky).astype(np.float32)
    uses = uses_w * rng.gamma(1.0, 1.0, size=hours)
    drift = rng.normal(0.0, 9.0, size=(years, days)).repeat(24, axis=1)
    air = (cold_c + drift + 5.0 * hump).astype(np.float32)
    month = (np.arange(hours) // (hours // 4)).clip(0, 11)
    return sun, uses, air, month, np.arange(hours) % 24


def ideal_bank(full_ah=400.0, floor=0.2, most_in_a=1e9):
    """No loss, no cold, no taper, no resistance."""
    return Bank(
        lead=False, cells=16.0, full_ah=full_ah, rated_ah=full_ah, ten_hour_ah=full_ah, at_once=1.0, slow_per_h=1.0, hour=hour_of_tanks(1.0, 1.0), floor=floor,
        most_in_a=most_in_a, absorb_v=3.45, gas_share=0.0, self_per_h=0.0, own_draw_w=0.0, room_c=25.0, lag_h=24.0, cell_ohm=0.0,
        lag_v=0.0, returned=1.0, taper_from=1.0, cold_limits=False,
    )  # fmt: skip


def plan(bank, inside, motor, limits, efficiencies, uses, month, clock, waiting=None):
    """All the loop is told, in the order the tests say it."""
    waiting = waiting or nothing_waits(len(uses) // 24)
    return Plan(bank, inside, motor, waiting, np.array(limits), np.array(efficiencies), uses, month, clock, month)  # fmt: skip


NO_MOTOR = Motor(False, 0.0, 0.0, 1.0, 0.0, 1.0, 0.0, 0.0, 24.0, 0.0)
houses = st.fixed_dictionaries(
    {
        "kind": st.sampled_from(KINDS),
        "capacity_ah": st.floats(80.0, 1200.0),
        "lowest_charge": st.floats(0.1, 0.6),
        "room": st.one_of(st.none(), st.floats(-25.0, 35.0)),
        "engine": st.booleans(),
        "call_above": st.floats(0.01, 0.25),
        "let_go_above": st.floats(0.02, 0.4),
        "heard": st.tuples(st.integers(0, 23), st.integers(0, 24)),
        "shortest_h": st.floats(0.0, 4.0),
        "charger_w": st.floats(500.0, 6000.0),
        "limit_a": st.floats(5.0, 90.0),
        "peak_w": st.floats(0.0, 6000.0),
        "uses_w_per_ah": st.floats(0.0, 1.2),  # a 740 Ah bank: up to 21 kWh a day
        "cold_c": st.floats(-20.0, 25.0),
        "seed": st.integers(0, 10**6),
        "heater_w": st.sampled_from([0.0, 60.0, 400.0]),
        "equalize_every_days": st.sampled_from([None, 0.5, 1.0]),
        "airing_every_h": st.sampled_from([0.0, 7.0, 20.0]),
        "start_in_cold": st.sampled_from([1.0, 0.7, 0.0]),
        "tank_l": st.sampled_from([np.inf, 12.0, 60.0, 400.0]),
        "fill": st.sampled_from([(-1.0, -1), (0.3, -1), (-1.0, 2)]),
        "propane": st.booleans(),
        "curve": st.floats(0.0, 2e-5),
        "waiting": st.integers(0, 2),
        "patience": st.integers(0, 2),
    }
)


def told(house, days=24):
    """A random house in the loop's words, and its weather."""
    bank = bank_of(
        battery(
            kind=house["kind"],
            capacity_ah=house["capacity_ah"],
            lowest_charge=house["lowest_charge"],
            temperature_c=house["room"],
            heater_w=house["heater_w"],
            equalize_every_days=house["equalize_every_days"],
        )
    )
    call_at = min(house["lowest_charge"] + house["call_above"], 0.9)
    tank_l = house["tank_l"]
    motor = Motor(
        house["engine"], 5000.0, house["charger_w"], 0.85, call_at, min(call_at + house["let_go_above"], 0.97),
        min(house["lowest_charge"] + 0.03, call_at), float(house["heard"][0]), float(house["heard"][1]), house["shortest_h"],
        airing_every_h=house["airing_every_h"], airing_h=0.4, start_in_cold=house["start_in_cold"], mended_h=5.0,
        tank_l=tank_l, fill_at=house["fill"][0], fill_month=house["fill"][1], burns_l_h=0.9, burns_l_wh=0.0005,
        boils_l_h=boil_off_l_h(tank_l) if house["propane"] and tank_l < np.inf else (np.inf,) * 7,
    )  # fmt: skip
    sun, uses, air, month, clock = inputs(
        house["seed"],
        peak_w=house["peak_w"],
        uses_w=house["uses_w_per_ah"] * house["capacity_ah"],
        cold_c=house["cold_c"],
        days=days,
    )
    rng = np.random.default_rng(house["seed"])
    k = house["waiting"]
    waiting = Waiting(
        rng.uniform(100.0, 900.0, k), rng.uniform(50.0, 2500.0, k), np.array([8.0, 20.0])[:k], np.array([17.0, 3.0])[:k],
        np.full(k, float(house["patience"])), rng.random((k, days)) < 0.7,
    )  # fmt: skip
    inside = Inside(3000.0, 0.92, 25.0, house["curve"])
    limits = [house["limit_a"], 60.0]
    return plan(bank, inside, motor, limits, [0.97, 0.95], uses, month, clock, waiting), sun, air


def twin_of(given):
    """The twin of a plan, and what it is run with beside the weather."""
    rest = (given.uses_w.tolist(), given.month.tolist(), given.hour_of_day.tolist())
    return Twin(given.bank, given.inside, given.motor, given.waiting), rest


# Years of two days: where an engine charges more slowly than the house draws, each call of it doubles any rounding (a later stop is
# an earlier call), until two right answers part.  A usual house is compared over a whole year below.
@settings(max_examples=150, deadline=None)
@given(houses)
def test_the_compiled_loop_equals_its_plain_twin(house):
    given, sun, air = told(house, days=2)
    ours = kernel.run_years(given, sun, air, 77)
    twin, (uses, month, clock) = twin_of(given)
    run = twin.run(given.limits_a.tolist(), given.efficiencies.tolist(), sun.tolist(), uses, air.tolist(), month, clock, 77)  # fmt: skip
    next(run)  # the first year once for its start
    for year, (by_month, by_year, charges) in enumerate(run):
        np.testing.assert_allclose(ours[2][year], charges, atol=1e-9, rtol=0.0)
        scale = max(by_year["uses"], float(sun[:, year].sum()), 1.0)
        theirs = np.array(list(by_month.values()))
        np.testing.assert_allclose(ours[0][:, year], theirs, rtol=1e-9, atol=1e-9 * scale)
        np.testing.assert_allclose(
            ours[1][: len(by_year), year], list(by_year.values()), rtol=1e-8, atol=1e-7
        )


@pytest.mark.slow
@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("room_c", [None, 15.0])
def test_a_usual_house_equals_its_plain_twin_over_a_year(kind, room_c):
    house = household(
        bank=battery(kind=kind, temperature_c=room_c, heater_w=80.0, equalize_every_days=45.0),
        motor=fabricated.engine(
            airing_every_days=7.0, starts_in_deep_cold=0.8, tank_l=900.0, filled="when low"
        ),
        uses=[
            fabricated.use(),
            fabricated.use(500.0, 2.0, 8.0, 18.0, share=3 / 7, waits_days=2.0, name="wash"),
        ],
    )
    power, outdoors = fabricated.sun(1)[0], fabricated.air(1, mean_c=-2.0)
    given = plan_of(house, 7, 500.0)
    charges = kernel.run_years(given, power[None, None], outdoors)[2]
    twin, (uses, month, clock) = twin_of(given)
    *_, (_, _, theirs) = twin.run(
        [80.0], [0.97], [[power.tolist()]], uses, outdoors.tolist(), month, clock
    )
    np.testing.assert_allclose(charges[0], theirs, atol=1e-9, rtol=0.0)


@settings(max_examples=60, deadline=None)
@given(houses)
def test_nothing_is_made_or_lost(house):
    given, sun, air = told(house)
    by_month, by_year, charges = kernel.run_years(given, sun, air)
    bank = given.bank
    full_wh = bank.full_ah * bank.cells * 2.0
    assert np.all(np.abs(by_year[CHARGE_LEFT]) <= 1e-9 * bank.full_ah)
    assert np.all(np.abs(by_year[[TERMINALS_LEFT, ARRAYS_LEFT]]) <= 1e-9 * full_wh)
    assert np.all(np.abs(by_year[TANK_LEFT]) <= 1e-6)
    assert charges.min() >= -1e-12
    assert charges.max() <= 1.0 + 1e-12
    offered = (sun.astype(float) * given.efficiencies[:, None, None]).sum(axis=(0, 2))
    taken = by_month[[SUN_USED, FULL, TOO_SLOW, HELD_BACK]].sum(axis=(0, 2))
    np.testing.assert_allclose(taken, offered, rtol=1e-9, atol=1e-6)
    assert np.all(by_year[WITHOUT_SUN_WH] <= by_year[WAITING_WH] + 1e-9)
    assert np.all(by_year[WAITING_WH] <= by_year[USES_WH] + 1e-9)


@settings(max_examples=60, deadline=None)
@given(
    st.integers(0, 10**6),
    st.floats(1.0, 3.0),
    st.floats(50.0, 900.0),
    st.floats(0.0, 0.7),
    st.floats(5.0, 200.0),
)
def test_without_an_engine_a_bigger_array_never_leaves_an_ideal_battery_darker(
    seed, larger, full_ah, floor, most_in_a
):
    sun, uses, air, month, clock = inputs(seed, controllers=1)
    bank, inside = ideal_bank(full_ah, floor, most_in_a), Inside(1e6, 0.92, 25.0)
    limits, efficiencies = [1e9], [0.97]

    def dark(power):
        run = kernel.run_years(
            plan(bank, inside, NO_MOTOR, limits, efficiencies, uses, month, clock), power, air
        )
        return run[1][DARK_WH]

    bigger = (sun * np.float32(larger)).astype(np.float32)
    assert np.all(dark(bigger) <= dark(sun) + 1e-6)


def test_no_sun_no_engine_leaves_the_house_dark_once_the_floor_is_reached():
    sun, uses, air, month, clock = inputs(3, peak_w=0.0)
    run = kernel.run_years(
        plan(ideal_bank(), Inside(1e6, 1.0, 0.0), NO_MOTOR, [50.0], [0.97], uses, month, clock), sun[:1], air
    )  # fmt: skip
    np.testing.assert_allclose(
        run[1][DARK_WH, 1], uses.sum(), rtol=1e-12
    )  # the second year has nothing left
    assert run[0][DARK_H, 1].sum() == np.count_nonzero(uses > 1e-3)


def test_no_use_leaves_the_battery_full_and_turns_the_rest_away():
    sun, uses, air, month, clock = inputs(4, uses_w=0.0)
    run = kernel.run_years(
        plan(ideal_bank(), Inside(1e6, 1.0, 0.0), NO_MOTOR, [1e9, 1e9], [1.0, 1.0], uses, month, clock), sun, air
    )  # fmt: skip
    assert run[2][1].min() == pytest.approx(1.0, abs=1e-12)
    np.testing.assert_allclose(
        run[0][FULL, 1].sum(), sun[:, 1].astype(float).sum(), rtol=1e-9
    )  # battery full, nothing else
    assert run[0][[TOO_SLOW, HELD_BACK], 1].sum() == 0.0


def test_with_an_engine_that_is_large_enough_no_hour_is_dark():
    bank = bank_of(battery(capacity_ah=300.0))
    motor = Motor(True, 9000.0, 3000.0, 0.85, 0.6, 0.8, 0.53, 9.0, 17.0, 1.0)
    sun, uses, air, month, clock = inputs(5, peak_w=300.0, uses_w=400.0)
    uses = np.minimum(uses, 2500.0)
    run = kernel.run_years(
        plan(bank, Inside(3000.0, 0.92, 25.0), motor, [60.0, 60.0], [0.97, 0.97], uses, month, clock), sun, air
    )  # fmt: skip
    assert run[1][DARK_WH].sum() == 0.0
    assert run[0][ENGINE_H].sum() > 0.0


def test_no_run_is_shorter_than_the_owner_wants():
    bank = bank_of(battery())
    sun, uses, air, month, clock = inputs(6, peak_w=200.0, uses_w=300.0, days=60)

    def run(shortest_h):
        motor = Motor(True, 7000.0, 4000.0, 0.85, 0.6, 0.62, 0.53, 0.0, 24.0, shortest_h)
        result = kernel.run_years(
            plan(bank, Inside(3000.0, 0.92, 25.0), motor, [60.0, 60.0], [0.97, 0.97], uses, month, clock), sun, air
        )  # fmt: skip
        return result[0][ENGINE_H].sum(), result[0][STARTS].sum()

    hours, starts = run(3.0)
    assert hours >= 3.0 * (starts - 1.0) - 1e-9  # the last run may reach over the end
    free_hours, free_starts = run(0.0)
    assert free_starts > starts
    assert free_hours / free_starts < 3.0


def test_the_engine_keeps_to_its_hours_while_the_charge_allows():
    bank = bank_of(battery(capacity_ah=1000.0))
    sun, uses, air, month, clock = inputs(7, peak_w=0.0, uses_w=250.0)
    heard = Motor(True, 9000.0, 5000.0, 0.85, 0.7, 0.8, 0.53, 10.0, 14.0, 0.0)
    run = kernel.run_years(
        plan(bank, Inside(3000.0, 0.92, 25.0), heard, [60.0, 60.0], [0.97, 0.97], uses, month, clock), sun, air
    )  # fmt: skip
    rising = np.diff(run[2][1]) > 0.0
    assert set(clock[:-1][rising]) <= {10, 11, 12, 13}
    assert rising.any()


def test_lithium_takes_no_charge_below_freezing():
    bank = bank_of(battery(kind="lithium iron phosphate", temperature_c=-1.0))
    sun, uses, air, month, clock = inputs(8, uses_w=50.0)
    run = kernel.run_years(
        plan(bank, Inside(3000.0, 0.92, 25.0), NO_MOTOR, [60.0, 60.0], [0.97, 0.97], uses, month, clock), sun, air
    )  # fmt: skip
    assert np.all(np.diff(run[2][0]) <= 0.0)
    assert (
        run[0][TOO_SLOW].sum() > 0.0
    )  # turned away because the battery could not take it, not because it was full
    assert run[0][FULL].sum() == 0.0


def test_cold_keeps_charge_from_being_drawn_and_gives_it_back():
    warm, cold = (bank_of(battery(lowest_charge=0.0, temperature_c=t)) for t in (25.0, -10.0))
    assert cells.out_of_reach_ah(warm, 25.0) == 0.0
    assert cells.out_of_reach_ah(cold, -10.0) == pytest.approx(cold.full_ah * (1.0 - 1.0 / 1.35))


@pytest.mark.parametrize(
    ("hour", "heard"), [(7, False), (8, True), (19, True), (20, False), (0, False)]
)
def test_an_hour_is_heard_only_when_it_lies_whole_in_the_window(hour, heard):
    assert engine.may_be_heard(float(hour), 8.0, 20.0) is heard


def test_a_window_may_run_over_midnight():
    assert [h for h in range(24) if engine.may_be_heard(float(h), 22.0, 2.0)] == [0, 1, 22, 23]


# -- tank, cold, airing, heater, equalizing, uses that wait ----------------------------------------------------------------
def hungry(days=60, **motor):
    """A house that lives off its engine, and what came of it."""
    sun, uses, air, month, clock = inputs(9, peak_w=0.0, uses_w=500.0, days=days, cold_c=-15.0)
    made = Motor(True, 7000.0, 4000.0, 0.85, 0.6, 0.8, 0.53, 0.0, 24.0, 1.0, **motor)
    given = plan(bank_of(battery()), Inside(3000.0, 0.92, 25.0), made, [60.0, 60.0], [0.97, 0.97], uses, month, clock)  # fmt: skip
    return kernel.run_years(given, sun, air)


def test_an_empty_tank_leaves_the_house_dark_and_is_counted():
    by_month, by_year, _ = hungry(tank_l=100.0, burns_l_h=1.0, burns_l_wh=0.0005)
    assert by_year[FILLS].sum() == 0.0
    assert by_year[DRY_H, 1] > 0.0
    assert by_month[DARK_H, 1].sum() == 60 * 24  # the second year starts with nothing left


def test_a_tank_that_is_filled_when_low_never_runs_dry_and_burns_what_was_filled():
    by_month, by_year, _ = hungry(tank_l=100.0, burns_l_h=1.0, burns_l_wh=0.0005, fill_at=0.3)
    assert by_year[DRY_H].sum() == 0.0
    assert by_month[DARK_H].sum() == 0.0
    assert by_year[FILLS].min() > 2.0


def test_a_tank_too_cold_to_boil_cannot_feed_the_engine():
    cold = hungry(tank_l=100.0, burns_l_h=1.0, burns_l_wh=0.0005, fill_at=0.3, boils_l_h=(0.1,) * 7)
    assert cold[0][ENGINE_H].sum() == 0.0
    assert cold[1][DRY_H].min() > 0.0


def test_an_engine_that_never_starts_in_cold_is_no_engine():
    none = hungry(start_in_cold=0.0)
    sure = hungry()
    assert none[1][FAILED_STARTS].min() > 10.0
    assert none[0][DARK_H].sum() > 0.0
    assert none[1][LONGEST_DARK].max() > 24.0
    assert sure[0][DARK_H].sum() == 0.0
    assert sure[1][FAILED_STARTS].sum() == 0.0


def test_an_engine_nobody_needs_is_aired_as_often_as_the_owner_says():
    sun, uses, air, month, clock = inputs(10, peak_w=6000.0, uses_w=50.0, days=70)
    idle = Motor(True, 7000.0, 4000.0, 0.85, 0.55, 0.8, 0.53, 10.0, 14.0, 1.0, airing_every_h=168.0, airing_h=0.25)  # fmt: skip
    given = plan(bank_of(battery()), Inside(3000.0, 0.92, 25.0), idle, [60.0, 60.0], [0.97, 0.97], uses, month, clock)  # fmt: skip
    by_month, _, _ = kernel.run_years(given, sun, air)
    assert by_month[STARTS, 1].sum() in (9.0, 10.0)
    assert by_month[ENGINE_H, 1].sum() == pytest.approx(0.25 * by_month[STARTS, 1].sum())


def test_a_heater_lets_a_cold_lithium_bank_take_the_sun():
    sun, uses, air, month, clock = inputs(11, uses_w=100.0, days=30, cold_c=-12.0)

    def used(heater_w):
        bank = bank_of(battery(kind="lithium iron phosphate", temperature_c=None, heater_w=heater_w))  # fmt: skip
        given = plan(bank, Inside(3000.0, 0.92, 25.0), NO_MOTOR, [60.0, 60.0], [0.97, 0.97], uses, month, clock)  # fmt: skip
        by_month, by_year, _ = kernel.run_years(given, sun, air)
        return by_month[DARK_H].sum(), by_year[HEATER_WH].sum()

    cold, none = used(0.0)
    warm, drawn = used(400.0)
    assert none == 0.0
    assert drawn > 0.0
    assert warm < 0.5 * cold


def test_equalizing_costs_water_and_nothing_else_is_changed_by_never():
    sun, uses, air, month, clock = inputs(12, peak_w=6000.0, uses_w=100.0, days=90)

    def gas(every):
        bank = bank_of(battery(equalize_every_days=every))
        given = plan(bank, Inside(3000.0, 0.92, 25.0), NO_MOTOR, [90.0, 90.0], [0.97, 0.97], uses, month, clock)  # fmt: skip
        return kernel.run_years(given, sun, air)[1][12]

    assert np.all(gas(10.0) > 1.02 * gas(None))


def test_a_use_that_waits_takes_sun_that_would_be_turned_away():
    sun, uses, air, month, clock = inputs(13, peak_w=5000.0, uses_w=150.0, days=60)
    wash = Waiting(np.array([600.0]), np.array([1500.0]), np.array([8.0]), np.array([17.0]), np.array([3.0]), np.ones((1, 60), bool))  # fmt: skip
    bank = bank_of(battery())

    def run(steady, waiting):
        given = plan(bank, Inside(3000.0, 0.92, 25.0), NO_MOTOR, [60.0, 60.0], [0.97, 0.97], steady, month, clock, waiting)  # fmt: skip
        return kernel.run_years(given, sun, air)

    evening = uses + np.where((clock >= 18) & (clock < 22), 1500.0 / 4.0, 0.0)
    waits, fixed = run(uses, wash), run(evening, None)
    assert waits[1][WAITING_WH, 1] == pytest.approx(60 * 1500.0, rel=0.05)
    assert waits[1][WITHOUT_SUN_WH, 1] < 0.2 * waits[1][WAITING_WH, 1]
    assert waits[2][1].mean() > fixed[2][1].mean()


def test_a_use_without_sun_runs_in_the_last_hours_of_its_time_once_patience_is_gone():
    sun, uses, air, month, clock = inputs(14, peak_w=0.0, uses_w=0.0, days=10)
    wanted = np.zeros((1, 10), bool)
    wanted[0, [0, 3, 6]] = True
    wash = Waiting(np.array([500.0]), np.array([1000.0]), np.array([8.0]), np.array([17.0]), np.array([0.0]), wanted)  # fmt: skip
    given = plan(ideal_bank(4000.0), Inside(3000.0, 1.0, 0.0), NO_MOTOR, [60.0, 60.0], [0.97, 0.97], uses, month, clock, wash)  # fmt: skip
    charges = kernel.run_years(given, sun[:, :1], air[:1])[2][0]
    drawn = np.flatnonzero(np.diff(charges) < -1e-9)
    assert (drawn % 24).tolist() == [15, 16] * 3
    assert (drawn // 24).tolist() == [0, 0, 3, 3, 6, 6]
