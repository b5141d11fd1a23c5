"""Charging currents that may come together, by hand."""

from __future__ import annotations

import pytest

from polestead.homestead.demos import demo_path
from polestead.homestead.model import Homestead
from polestead.homestead.read import read_homestead
from polestead.wiring.bank.charging import Charging, charging_of


def homestead(name: str = "hollow-spruce") -> Homestead:
    return read_homestead(demo_path(name)).homestead


def told(file: Homestead, **battery: float | None) -> Charging:
    house = file.household.model_copy(
        update={"battery": file.household.battery.model_copy(update=battery)}
    )
    return charging_of(house, file.array)


def test_sun_and_engine_add_up_by_hand():
    """48 V: roof 1600 W x .85 = 28.3 A; pole 8 x 440 W = 73.3 A; charger 4300 W = 89.6 A."""
    found = told(homestead())
    assert dict(found.currents_a) == pytest.approx(
        {"controller roof": 28.33, "controller pole": 73.33, "the engine's charger": 89.58},
        abs=0.01,
    )
    assert found.together_a == pytest.approx(191.25, abs=0.01)


def test_no_controller_passes_on_more_than_its_limit():
    file = homestead()
    small = tuple(
        one.model_copy(update={"current_limit_a": 20.0}) for one in file.household.controller
    )
    house = file.household.model_copy(update={"controller": small, "engine": None})
    assert charging_of(house, file.array).together_a == pytest.approx(40.0)


@pytest.mark.parametrize(
    ("limit_a", "words", "too_much"),
    [(None, "Ask the battery's maker", False), (250.0, "Together up to 191 A, under the 250 A", False),
     (150.0, "set the charger lower", True), (95.0, "The sun alone may push 102 A", True)],
)  # fmt: skip
def test_it_is_told_what_to_do(limit_a, words, too_much):
    found = told(homestead(), charge_limit_a=limit_a)
    assert words in found.words
    assert found.too_much is too_much


def test_an_array_with_its_age_written_counts_unaged():
    file = homestead()
    aged = tuple(one.model_copy(update={"age_years": 12.0}) for one in file.household.old_array)
    house = file.household.model_copy(update={"old_array": aged})
    assert dict(charging_of(house, file.array).currents_a)["controller roof"] == pytest.approx(
        1600 / 48
    )
