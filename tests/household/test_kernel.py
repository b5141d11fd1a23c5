"""The compiled loop: equal to its plain twin, nothing made or lost, the laws of a battery."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from polestead.base.hours import working_year
from polestead.household import kernel
from polestead.household.bank import bank_of, inside_of, motor_of
from polestead.household.plan import Bank, Inside, Motor
from polestead.household.uses import uses_by_hour_w
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
        lead=False, cells=16.0, full_ah=full_ah, rated_ah=full_ah, ten_hour_ah=full_ah, at_once=1.0, slow_per_h=1.0, floor=floor,
        most_in_a=most_in_a, absorb_v=3.45, gas_share=0.0, self_per_h=0.0, own_draw_w=0.0, room_c=25.0, lag_h=24.0, cell_ohm=0.0,
        lag_v=0.0, returned=1.0, taper_from=1.0, cold_limits=False,
    )  # fmt: skip


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
    }
)


def told(house, days=24):
    """A random house in the loop's words."""
    bank = bank_of(
        battery(
            kind=house["kind"],
            capacity_ah=house["capacity_ah"],
            lowest_charge=house["lowest_charge"],
            temperature_c=house["room"],
        )
    )
    call_at = min(house["lowest_charge"] + house["call_above"], 0.9)
    motor = Motor(
        house["engine"], 5000.0, house["charger_w"], 0.85, call_at, min(call_at + house["let_go_above"], 0.97),
        min(house["lowest_charge"] + 0.03, call_at), float(house["heard"][0]), float(house["heard"][1]), house["shortest_h"],
    )  # fmt: skip
    inside = Inside(3000.0, 0.92, 25.0)
    weather = inputs(
        house["seed"],
        peak_w=house["peak_w"],
        uses_w=house["uses_w_per_ah"] * house["capacity_ah"],
        cold_c=house["cold_c"],
        days=days,
    )
    return bank, inside, motor, np.array([house["limit_a"], 60.0]), np.array([0.97, 0.95]), *weather


# Years of two days: where an engine charges more slowly than the house draws, each call of it doubles any rounding (a later stop is
# an earlier call), until two right answers part.  A usual house is compared over a whole year below.
@settings(max_examples=100, deadline=None)
@given(houses)
def test_the_compiled_loop_equals_its_plain_twin(house):
    bank, inside, motor, limits, efficiencies, sun, uses, air, month, clock = told(house, days=2)
    ours = kernel.run_years(bank, inside, motor, limits, efficiencies, sun, uses, air, month, clock)
    twin = Twin(bank, inside, motor).run(
        limits.tolist(), efficiencies.tolist(), sun.tolist(), uses.tolist(), air.tolist(), month.tolist(), clock.tolist()
    )  # fmt: skip
    next(twin)  # the first year once for its start
    for year, (by_month, by_year, charges) in enumerate(twin):
        np.testing.assert_allclose(ours[2][year], charges, atol=1e-9, rtol=0.0)
        scale = max(by_year["uses"], float(sun[:, year].sum()), 1.0)
        theirs = np.array(list(by_month.values()))
        np.testing.assert_allclose(ours[0][:, year], theirs, rtol=1e-9, atol=1e-9 * scale)
        np.testing.assert_allclose(ours[1][:8, year], list(by_year.values()), rtol=1e-9, atol=1e-7)


@pytest.mark.slow
@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("room_c", [None, 15.0])
def test_a_usual_house_equals_its_plain_twin_over_a_year(kind, room_c):
    house = household(bank=battery(kind=kind, temperature_c=room_c))
    year, power, outdoors = working_year(7), fabricated.sun(1)[0], fabricated.air(1)
    plan = (
        bank_of(house.battery),
        inside_of(house.inverter),
        motor_of(house.engine, house.battery, 500.0),
    )
    uses = uses_by_hour_w(house.use_list, 7)
    month, clock = year.month - 1, np.array(year.hour)
    charges = kernel.run_years(
        *plan, np.array([80.0]), np.array([0.97]), power[None, None], uses, outdoors, month, clock
    )[2]
    *_, (_, _, theirs) = Twin(*plan).run(
        [80.0], [0.97], [[power.tolist()]], uses.tolist(), outdoors.tolist(), month.tolist(), clock.tolist()
    )  # fmt: skip
    np.testing.assert_allclose(charges[0], theirs, atol=1e-9, rtol=0.0)


@settings(max_examples=60, deadline=None)
@given(houses)
def test_nothing_is_made_or_lost(house):
    bank, inside, motor, *rest = told(house)
    by_month, by_year, charges = kernel.run_years(bank, inside, motor, *rest)
    full_wh = bank.full_ah * bank.cells * 2.0
    assert np.all(np.abs(by_year[8]) <= 1e-9 * bank.full_ah)
    assert np.all(np.abs(by_year[9:11]) <= 1e-9 * full_wh)
    assert charges.min() >= -1e-12
    assert charges.max() <= 1.0 + 1e-12
    sun, efficiencies = rest[2], rest[1]
    offered = (sun.astype(float) * efficiencies[:, None, None]).sum(axis=(0, 2))
    np.testing.assert_allclose(by_month[1:5].sum(axis=(0, 2)), offered, rtol=1e-9, atol=1e-6)


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
    limits, efficiencies = np.array([1e9]), np.array([0.97])

    def dark(power):
        run = kernel.run_years(
            bank, inside, NO_MOTOR, limits, efficiencies, power, uses, air, month, clock
        )
        return run[1][3]

    bigger = (sun * np.float32(larger)).astype(np.float32)
    assert np.all(dark(bigger) <= dark(sun) + 1e-6)


def test_no_sun_no_engine_leaves_the_house_dark_once_the_floor_is_reached():
    sun, uses, air, month, clock = inputs(3, peak_w=0.0)
    run = kernel.run_years(
        ideal_bank(), Inside(1e6, 1.0, 0.0), NO_MOTOR, np.array([50.0]), np.array([0.97]), sun[:1], uses, air, month, clock
    )  # fmt: skip
    np.testing.assert_allclose(
        run[1][3, 1], uses.sum(), rtol=1e-12
    )  # the second year has nothing left
    assert run[1][4, 1] == np.count_nonzero(uses > 1e-3)


def test_no_use_leaves_the_battery_full_and_turns_the_rest_away():
    sun, uses, air, month, clock = inputs(4, uses_w=0.0)
    run = kernel.run_years(
        ideal_bank(), Inside(1e6, 1.0, 0.0), NO_MOTOR, np.array([1e9, 1e9]), np.array([1.0, 1.0]), sun, uses, air, month, clock
    )  # fmt: skip
    assert run[2][1].min() == pytest.approx(1.0, abs=1e-12)
    np.testing.assert_allclose(
        run[0][2, 1].sum(), sun[:, 1].astype(float).sum(), rtol=1e-9
    )  # battery full, nothing else
    assert run[0][3:5, 1].sum() == 0.0


def test_with_an_engine_that_is_large_enough_no_hour_is_dark():
    bank = bank_of(battery(capacity_ah=300.0))
    motor = Motor(True, 9000.0, 3000.0, 0.85, 0.6, 0.8, 0.53, 9.0, 17.0, 1.0)
    sun, uses, air, month, clock = inputs(5, peak_w=300.0, uses_w=400.0)
    uses = np.minimum(uses, 2500.0)
    run = kernel.run_years(
        bank, Inside(3000.0, 0.92, 25.0), motor, np.array([60.0, 60.0]), np.array([0.97, 0.97]), sun, uses, air, month, clock
    )  # fmt: skip
    assert run[1][3].sum() == 0.0
    assert run[0][0].sum() > 0.0


def test_no_run_is_shorter_than_the_owner_wants():
    bank = bank_of(battery())
    sun, uses, air, month, clock = inputs(6, peak_w=200.0, uses_w=300.0, days=60)

    def run(shortest_h):
        motor = Motor(True, 7000.0, 4000.0, 0.85, 0.6, 0.62, 0.53, 0.0, 24.0, shortest_h)
        result = kernel.run_years(
            bank, Inside(3000.0, 0.92, 25.0), motor, np.array([60.0, 60.0]), np.array([0.97, 0.97]), sun, uses, air, month, clock
        )  # fmt: skip
        return result[0][0].sum(), result[1][0].sum()

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
        bank, Inside(3000.0, 0.92, 25.0), heard, np.array([60.0, 60.0]), np.array([0.97, 0.97]), sun, uses, air, month, clock
    )  # fmt: skip
    rising = np.diff(run[2][1]) > 0.0
    assert set(clock[:-1][rising]) <= {10, 11, 12, 13}
    assert rising.any()


def test_lithium_takes_no_charge_below_freezing():
    bank = bank_of(battery(kind="lithium iron phosphate", temperature_c=-1.0))
    sun, uses, air, month, clock = inputs(8, uses_w=50.0)
    run = kernel.run_years(
        bank, Inside(3000.0, 0.92, 25.0), NO_MOTOR, np.array([60.0, 60.0]), np.array([0.97, 0.97]), sun, uses, air, month, clock
    )  # fmt: skip
    assert np.all(np.diff(run[2][0]) <= 0.0)
    assert (
        run[0][3].sum() > 0.0
    )  # turned away because the battery could not take it, not because it was full
    assert run[0][2].sum() == 0.0


def test_cold_keeps_charge_from_being_drawn_and_gives_it_back():
    warm, cold = (bank_of(battery(lowest_charge=0.0, temperature_c=t)) for t in (25.0, -10.0))
    assert kernel.out_of_reach_ah(warm, 25.0) == 0.0
    assert kernel.out_of_reach_ah(cold, -10.0) == pytest.approx(cold.full_ah * (1.0 - 1.0 / 1.35))


@pytest.mark.parametrize(
    ("hour", "heard"), [(7, False), (8, True), (19, True), (20, False), (0, False)]
)
def test_an_hour_is_heard_only_when_it_lies_whole_in_the_window(hour, heard):
    assert kernel.may_be_heard(float(hour), 8.0, 20.0) is heard


def test_a_window_may_run_over_midnight():
    assert [h for h in range(24) if kernel.may_be_heard(float(h), 22.0, 2.0)] == [0, 1, 22, 23]
