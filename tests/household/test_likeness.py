"""The owner's own figures: set beside, and one factor fitted that finds what the list of uses forgot."""

from __future__ import annotations

import numpy as np
import pytest

from polestead.homestead.model import LastWinter
from polestead.household.likeness import beside_last_winter, house_use, known_of
from polestead.household.run import run_house
from tests.household.fabricated import air, household, sun

YEARS = 40
LEAN = [11, 0, 1]


def run(factor=1.0, seed=1, years=YEARS):
    return run_house(
        household(), {"roof": [sun(years, 3000.0, seed=seed)]}, air(years), 7, 500.0, factor
    )


def last(**known):
    return LastWinter.model_validate(known)


def figures(years, nth):
    """What an owner would have written down of one winter."""
    return {
        "engine_hours": float(years.engine_hours[nth].sum()),
        "fuel": f"{0.5 * (years.fuel_least_l[nth] + years.fuel_most_l[nth])} l",
        "dawn_charge": f"{100 * years.dawn_charge[nth, LEAN].mean()} %",
        "engine_hours_by_month": {
            "dec": float(years.engine_hours[nth, 11]),
            "jan": float(years.engine_hours[nth, 0]),
        },
    }


@pytest.fixture(scope="module")
def planted():
    """Other winters than those it is fitted on, of a house that draws 18 % more than its list."""
    return run(1.18, seed=99, years=12)


def test_a_house_with_hidden_use_is_found_within_its_band(planted):
    fits = [house_use(run, known_of(last(**figures(planted, nth)))) for nth in range(0, 12, 2)]
    assert sum(fit.low <= 1.18 <= fit.high for fit in fits) >= 5
    assert all(0.5 * (fit.high - fit.low) < 0.15 for fit in fits)
    assert abs(np.mean([fit.factor for fit in fits]) - 1.18) < 0.06
    assert not any(fit.at_edge for fit in fits)


def test_more_known_figures_make_it_surer(planted):
    every = house_use(run, known_of(last(**figures(planted, 1))))
    one = house_use(run, known_of(last(dawn_charge=figures(planted, 1)["dawn_charge"])))
    assert every.high - every.low < one.high - one.low


def test_nothing_known_fits_nothing():
    assert house_use(run, known_of(last())) is None
    assert beside_last_winter(run(), known_of(last())) == ()


def test_figures_no_factor_explains_lie_at_the_edge():
    fit = house_use(run, known_of(last(engine_hours=6000.0)))
    assert fit.at_edge
    assert fit.factor > 2.3


def test_the_working_ends_in_the_factor_and_names_the_owners_figures(planted):
    fit = house_use(run, known_of(last(**figures(planted, 2))))
    assert fit.working.result.value == fit.factor
    words = [step.word for step in fit.working.steps]
    assert "engine hours in Dec, yours" in words
    assert fit.low < fit.factor < fit.high


def test_last_winter_stands_beside_as_plain_figures():
    years = run()
    rows = beside_last_winter(years, known_of(last(engine_hours=2900.0, dawn_charge="68 %")))
    assert [row.word for row in rows] == ["engine hours", "charge at dawn, three leanest months"]
    assert not rows[0].within
    assert rows[1].ours_bad <= rows[1].ours_median <= rows[1].ours_good


def test_fills_count_only_where_the_tank_is_known():
    assert known_of(last(fills=3.0)) == ()
    (fills,) = known_of(last(fills=3.0), tank_l=1500.0)
    assert fills.of(run()).mean() == pytest.approx(
        (run().fuel_least_l + run().fuel_most_l).mean() / 2.0 / 1500.0
    )


def test_the_years_hours_step_back_where_the_months_are_given():
    months = dict.fromkeys(("oct", "nov", "dec", "jan", "feb", "mar"), 30.0)
    known = known_of(last(engine_hours=200.0, engine_hours_by_month=months))
    assert len(known) == 6
