"""The house over the years: sections in, years out, told as good, median and bad."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from polestead.base.problem import Wrong
from polestead.household.run import run_house, summary
from tests.household.fabricated import air, battery, controller, engine, household, sun, use

YEARS = 6


def run(house=None, power=None, **weather):
    house = house or household()
    power = {"roof": [sun(YEARS)]} if power is None else power
    return run_house(house, power, air(YEARS, **weather), 7, 500.0)


@pytest.fixture(scope="module")
def years():
    return run()


def test_every_balance_closes(years):
    assert years.balance_error.max() < 1e-9


def test_the_engine_makes_up_for_missing_sun(years):
    bigger = run(power={"roof": [sun(YEARS), sun(YEARS, seed=2)]})
    assert bigger.engine_hours.sum() < 0.6 * years.engine_hours.sum()
    assert bigger.fuel_most_l.mean() < years.fuel_most_l.mean()
    assert np.all(years.fuel_least_l < years.fuel_most_l)


def test_engine_hours_fall_in_the_dark_months(years):
    by_month = years.engine_hours.mean(axis=0)
    assert by_month[[10, 11, 0]].sum() > 2.0 * by_month[[4, 5, 6]].sum()


def test_two_arrays_on_one_controller_are_held_back_by_its_limit():
    both = {"roof": [sun(YEARS), sun(YEARS)]}
    small = household(controllers=[controller(limit_a=40.0)])
    large = household(controllers=[controller(limit_a=400.0)])
    assert run(small, both).held_back_wh.sum() > 0.0
    assert run(large, both).held_back_wh.sum() == pytest.approx(0.0, abs=1.0)


def test_a_house_without_an_engine_burns_nothing_and_goes_dark():
    none = run(household(motor=None))
    assert none.engine_hours.sum() == none.fuel_most_l.sum() == none.starts.sum() == 0.0
    assert none.dark_hours.mean() > 100.0
    assert "No engine" in " ".join(none.notes)


def test_a_use_the_inverter_cannot_carry_stays_dark():
    kettle = use(9000.0, 1.0, 18.0, 19.0)
    dark = run(household(uses=[use(), kettle], motor=None), {"roof": [sun(YEARS, 30000.0)]})
    assert dark.dark_hours.min() >= 365


def test_sealed_lead_acid_gasses_less_than_flooded():
    flooded, sealed = run(), run(household(bank=battery(kind="sealed lead-acid")))
    assert flooded.wear.water_l.min() > 0.0
    assert sealed.wear.water_l.max() == 0.0
    assert any("quarter of the gassing" in note for note in sealed.notes)


def test_a_cold_shed_costs_engine_hours_and_is_told():
    shed = run(household(bank=battery(temperature_c=None)), mean_c=-8.0)
    assert shed.engine_hours.sum() > run().engine_hours.sum()
    assert any("follows the outdoor air" in note for note in shed.notes)


def test_a_bank_near_freezing_is_told_beside_the_hours():
    cold = household(bank=battery(temperature_c=-22.0, lowest_charge=0.2), motor=engine(call_at=0.3, let_go_at=0.5))  # fmt: skip
    told = summary(run(cold, {"roof": [sun(YEARS, 600.0)]}))
    assert any("freezing" in note for note in told.working.notes)


def test_a_bank_that_is_never_full_is_told_so_and_no_days_are(years):
    """366 days between two full charges are no count of days within a year."""
    for days, words in (
        (400.0, "In a median year the bank is never brim-full;"),
        (30.0, "the bank goes 30 days without being brim-full;"),
        (10.0, ""),
    ):
        such = replace(
            years,
            longest_since_brim_full_days=np.full(YEARS, days),
            freeze_margin_k=np.full(YEARS, 20.0),
        )
        told = [note for note in summary(such).working.notes if "brim-full" in note]
        assert len(told) == bool(words)
        assert words in "".join(told)


def test_thin_air_weakens_the_engine():
    low = household(motor=engine(power_w=2000.0))
    high = run_house(low, {"roof": [sun(YEARS)]}, air(YEARS), 7, 3000.0)
    sea = run_house(low, {"roof": [sun(YEARS)]}, air(YEARS), 7, 0.0)
    assert high.engine_hours.sum() > sea.engine_hours.sum()


def test_the_southern_year_is_told_by_its_own_months():
    turned = run_house(household(), {"roof": [sun(2)]}, air(2), 1, 500.0)
    assert turned.engine_hours.shape == (2, 12)
    north = run_house(household(), {"roof": [sun(2)]}, air(2), 7, 500.0)
    assert turned.engine_hours[:, [5, 6]].sum() == pytest.approx(north.engine_hours[:, [11, 0]].sum(), rel=0.1)  # fmt: skip


def test_the_summary_tells_the_working_of_the_median_year(years):
    told = summary(years)
    assert told.engine_hours.good <= told.engine_hours.median <= told.engine_hours.bad
    assert told.working.result.value == pytest.approx(told.engine_hours.median)
    values = {step.symbol: step.value for step in told.working.steps}
    assert values["E_t"] == pytest.approx(values["E_f"] + values["E_a"] + values["E_h"])
    assert values["h_mean"] * values["P_g"] == pytest.approx(values["E_g"])
    assert sum(told.engine_hours_by_month) == pytest.approx(values["h_mean"])


def test_an_unknown_controller_and_an_engine_let_go_too_early_are_told_together():
    house = household(motor=engine(call_at=0.8, let_go_at=0.6))
    with pytest.raises(Wrong) as told:
        run(house, {"shed": [sun(YEARS)]})
    assert [problem.key for problem in told.value.problems] == ["name", "let_go_at"]


def test_iron_cells_give_back_most_of_what_they_take():
    """Direct-current round trip at C/5 between .2 and .8: 95 to 97 %."""
    from polestead.household import cells
    from polestead.household.bank import bank_of

    bank = bank_of(battery(kind="lithium iron phosphate", nominal_v=51.2, capacity_ah=280.0))
    gave = took = 0.0
    for charge in np.linspace(0.2, 0.8, 13):
        a, b, _ = cells.taking_line(bank, charge, 25.0)
        took += (a + b * 56.0) * 56.0 / bank.returned
        a, b = cells.giving_line(bank, charge, 25.0)
        gave += (a - b * 56.0) * 56.0
    assert 0.95 <= gave / took <= 0.97


def test_lead_acid_gives_back_about_four_fifths():
    """Direct-current round trip over daily cycles of a healthy flooded bank: 78 to 85 %."""
    from polestead.household import kernel
    from polestead.household.bank import bank_of
    from polestead.household.plan import (
        DARK_WH,
        SUN_USED,
        USES_WH,
        Inside,
        Motor,
        Plan,
        nothing_waits,
    )

    hours = 24 * 60
    clock = np.arange(hours) % 24
    power = np.where((clock >= 8) & (clock < 16), 2600.0, 0.0).astype(np.float32)
    uses = np.where((clock >= 17) | (clock < 5), 900.0, 0.0)
    month = np.zeros(hours, dtype=np.int64)
    none = Motor(False, 0.0, 0.0, 1.0, 0.0, 1.0, 0.0, 0.0, 24.0, 0.0)
    by_month, by_year, _ = kernel.run_years(
        Plan(bank_of(battery()), Inside(1e5, 1.0, 0.0), none, nothing_waits(60), np.array([1e4]), np.array([1.0]), uses, month, clock, month),
        power.reshape(1, 1, -1), np.full((1, hours), 25.0, dtype=np.float32),
    )  # fmt: skip
    assert by_year[DARK_WH, 0] == 0.0
    assert 0.78 <= by_year[USES_WH, 0] / by_month[SUN_USED, 0].sum() <= 0.85
