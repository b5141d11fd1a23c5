"""Charging currents that may come together, by hand."""

from __future__ import annotations

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from polestead.answer.stands import wires_of
from polestead.answer.wires import drawn_from
from polestead.base.source import OWNER
from polestead.homestead.demos import demo_names, demo_path
from polestead.homestead.model import Battery, Homestead
from polestead.homestead.read import read_homestead
from polestead.household.run import plan_of
from polestead.sheets.wires.bank import bank_lines
from polestead.wiring.bank.charging import (
    CHARGER,
    ENGINE_CHECK,
    SUN_CHECK,
    Charging,
    charging_of,
    tenths_that_add,
)
from polestead.wiring.guards.rating import Rating

BANK = {"kind": "flooded lead-acid", "nominal": "48 V", "capacity": "740 Ah", "charge_limit": "95 A"}  # fmt: skip


def homestead(name: str = "hollow-spruce") -> Homestead:
    return read_homestead(demo_path(name)).homestead


def unset(name: str = "hollow-spruce") -> Homestead:
    """The demo with every controller at its largest and a charger that gives way to nobody."""
    file = homestead(name)
    house = file.household
    assert house.engine is not None
    loose = {
        "controller": tuple(one.model_copy(update={"set_current_a": None}) for one in house.controller),
        "engine": house.engine.model_copy(update={"charger_gives_way": False}),
    }  # fmt: skip
    return file.model_copy(update={"household": house.model_copy(update=loose)})


def told(file: Homestead, **battery: float | None) -> Charging:
    house = file.household.model_copy(
        update={"battery": file.household.battery.model_copy(update=battery)}
    )
    return charging_of(house, file.array)


def test_sun_and_engine_add_up_by_hand():
    """48 V: roof 1600 W x .85 = 28.3 A; pole 8 x 440 W = 73.3 A; charger 4300 W = 89.6 A."""
    found = told(unset())
    assert dict(found.currents_a) == pytest.approx(
        {"controller roof": 28.33, "controller pole": 73.33, "the engine's charger": 89.58},
        abs=0.01,
    )
    assert found.together_a == pytest.approx(191.25, abs=0.01)


def test_no_controller_passes_on_more_than_its_limit():
    file = unset()
    small = tuple(
        one.model_copy(update={"current_limit_a": 20.0}) for one in file.household.controller
    )
    house = file.household.model_copy(update={"controller": small, "engine": None})
    assert charging_of(house, file.array).together_a == pytest.approx(40.0)


@pytest.mark.parametrize(
    ("limit_a", "words", "too_much"),
    [(None, "148 A, a fifth of its capacity an hour", True), (250.0, "Together up to 191.3 A, within the 250 A", False),
     (150.0, "set the charger to 48 A (2304 W", True), (95.0, "The sun alone may push 101.7 A", True)],
)  # fmt: skip
def test_it_is_told_what_to_do(limit_a, words, too_much):
    found = told(unset(), charge_limit_a=limit_a)
    assert words in found.words
    assert found.too_much is too_much


def test_an_array_with_its_age_written_counts_unaged():
    file = unset()
    aged = tuple(one.model_copy(update={"age_years": 12.0}) for one in file.household.old_array)
    house = file.household.model_copy(update={"old_array": aged})
    assert dict(charging_of(house, file.array).currents_a)["controller roof"] == pytest.approx(
        1600 / 48
    )


# --- checks


def broken(charging: Charging) -> list[str]:
    return [check.name for check in charging.checks if not check.holds]


def test_too_much_is_a_check_that_reaches_the_verdict_of_the_wires():
    """Sun 28.3 + 73.3 = 101.7 A, with the charger's 89.6 A 191.3 A, against 95 A."""
    checks = {one.name: one for one in wires_of(unset()).checks if one.part == "battery"}
    assert checks[SUN_CHECK].demand == pytest.approx(101.67, abs=0.01)
    assert checks[ENGINE_CHECK].demand == pytest.approx(191.25, abs=0.01)
    assert {one.capacity for one in checks.values()} == {95.0}
    assert not any(one.holds for one in checks.values())


@pytest.mark.parametrize("name", demo_names())
def test_every_demo_charges_within_what_its_battery_may_take(name):
    assert broken(told(homestead(name))) == []


def test_without_an_engine_only_the_sun_is_held():
    file = homestead()
    house = file.household.model_copy(update={"engine": None})
    found = charging_of(house, file.array)
    assert [check.name for check in found.checks] == [SUN_CHECK]
    assert "engine" not in found.words
    assert "charger" not in found.words


def test_a_set_current_counts_by_hand():
    """Set 26 and 68 A: 94 A of sun; the charger, giving way, pushes the 1 A that is left, and 89.6 A where it does not."""
    found = told(homestead())
    assert found.sun_a == pytest.approx(94.0)
    assert found.together_a == pytest.approx(95.0)
    assert found.settings == ()
    stubborn = homestead()
    engine = stubborn.household.engine
    assert engine is not None
    house = stubborn.household.model_copy(
        update={"engine": engine.model_copy(update={"charger_gives_way": False})}
    )
    held = charging_of(house, stubborn.array)
    assert broken(held) == [ENGINE_CHECK]
    assert "charger_gives_way = true" in held.words
    assert "set the charger to 1 A" in held.words


def test_a_set_current_is_held_back_in_the_years_too():
    file = homestead()
    assert list(plan_of(file.household, 7, 0.0).limits_a) == [26.0, 68.0]
    assert list(plan_of(unset().household, 7, 0.0).limits_a) == [60.0, 80.0]


def test_what_is_proposed_cures_it():
    """28.33 + 73.33 = 101.67 A against 95: x .9344: 26.5 and 68.5, rounded down; nothing left for a charger that does not give way."""
    found = told(unset())
    to = {one.name.removeprefix("controller "): one.set_to_a for one in found.settings}
    assert to == {"roof": 26.0, "pole": 68.0, CHARGER: 0.0}
    assert found.charger_in_dark_a == pytest.approx(4300 / 48)
    file = unset()
    assert file.household.engine is not None
    house = file.household.model_copy(
        update={
            "controller": tuple(one.model_copy(update={"set_current_a": to[one.name]}) for one in file.household.controller),
            "engine": file.household.engine.model_copy(update={"charger_w": 48.0}),
        }
    )  # fmt: skip
    assert broken(charging_of(house, file.array)) == []


@given(limit=st.floats(10.0, 400.0), set_a=st.floats(1.0, 80.0))
def test_a_charger_that_gives_way_never_takes_it_over_the_limit_by_itself(limit, set_a):
    file = homestead()
    house = file.household.model_copy(
        update={
            "battery": file.household.battery.model_copy(update={"charge_limit_a": limit}),
            "controller": tuple(
                one.model_copy(update={"set_current_a": set_a}) for one in file.household.controller
            ),
        }
    )
    found = charging_of(house, file.array)
    assert found.together_a <= max(limit, found.sun_a) + 1e-9
    assert found.too_much is (found.sun_a > limit)


def test_a_limit_nobody_wrote_is_no_owners_word():
    written = told(homestead()).checks[0]
    assert (written.capacity, written.source) == (95.0, OWNER)
    file = homestead()
    said = {key: value for key, value in BANK.items() if key != "charge_limit"}
    bare = file.household.model_copy(update={"battery": Battery.model_validate(said)})
    check = charging_of(bare, file.array).checks[0]
    assert check.capacity == pytest.approx(148.0)
    assert str(check.source).startswith("the tool's default, not in the file")
    assert check.working.result.source == check.source


# --- what is set is told, and what is told adds up


def test_the_currents_that_are_shown_add_up_to_the_sum_that_is_shown():
    """Slieve Moss: 3280 W / 48 V = 68.3 A, the charger 51.7 A of what is left of 120 A; 69 and 52 would make 121."""
    file = homestead("slieve-moss")
    bank = wires_of(file).bank
    assert bank is not None
    said = "\n".join(bank_lines(bank, "metric"))
    shown = [float(one) for one in re.findall(r"^  (?:controller \S+|the engine's charger) +([\d.]+) A$", said, re.M)]  # fmt: skip
    (together,) = re.findall(r"^  together +([\d.]+) A$", said, re.M)
    assert shown == [68.3, 51.7]
    assert sum(shown) == pytest.approx(float(together)) == pytest.approx(120.0)
    assert "pushes up to 68.3 A" in bank.charging.words


@given(st.lists(st.floats(0.0, 400.0), min_size=1, max_size=6))
def test_tenths_that_add_are_each_within_a_tenth_and_never_less_in_all(amps):
    shown = tenths_that_add(tuple(amps))
    assert all(abs(one - other) < 0.1 + 1e-6 for one, other in zip(shown, amps, strict=True))
    assert sum(amps) - 1e-6 <= sum(shown) < sum(amps) + 0.1 + 1e-6


def test_what_is_set_stands_on_the_labels_and_on_the_one_line():
    file = homestead()
    wires = wires_of(file)
    labels = {label.where: label.lines for label in wires.guards.labels}
    assert "SET TO CHARGE WITH 68 A, NO MORE" in labels["controller"]
    assert "SET TO CHARGE WITH 26 A, NO MORE" in labels["controller roof"]
    assert "ALL CHARGING TOGETHER AT MOST 95 A DC" in labels["switch and main fuse of the battery"]
    drawn = drawn_from(file, wires)
    assert Rating("set to", 68.0, "A") in drawn.station("controller-pole").ratings
    assert Rating("set to", 26.0, "A") in drawn.station("controller-roof").ratings


def test_what_the_sum_demands_stands_there_too():
    """Nothing set: 191 A into 95 A; the charger to nought, the controllers to 95 x 28.3/101.7 and 95 x 73.3/101.7."""
    file = unset()
    wires = wires_of(file)
    assert wires.bank is not None
    assert {one.name: one.amps_a for one in wires.bank.charging.to_set} == {
        "controller roof": 26.0, "controller pole": 68.0, CHARGER: 0.0,
    }  # fmt: skip
    assert all(one.demanded for one in wires.bank.charging.to_set)
    drawn = drawn_from(file, wires)
    assert Rating("set to", 68.0, "A", "at most") in drawn.station("controller-pole").ratings
    assert Rating("set to", 0.0, "A", "at most") in drawn.station("charger").ratings
    lines = {label.where: label.lines for label in wires.guards.labels}
    assert "SET TO CHARGE WITH 0 A, NO MORE" in lines[CHARGER]
    loose = unset()
    bare = loose.household.model_copy(update={"battery": loose.household.battery.model_copy(update={"charge_limit_a": 300.0})})  # fmt: skip
    free = wires_of(loose.model_copy(update={"household": bare}))
    assert not any("SET TO CHARGE" in line for label in free.guards.labels for line in label.lines)
