"""Pour, spoil and trench."""

from __future__ import annotations

from dataclasses import replace
from math import pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from polestead.base.show import set_out
from polestead.build.build import pour_of
from polestead.build.ground.concrete import Pour, bags_for, concrete_of, order_step_m3, sold_words
from polestead.build.ground.spoil import heap_m, loose_m3
from polestead.build.ground.trench import depth_checks, trench_of
from polestead.homestead.model import SoilClass
from tests.build.given import changed, demo

INCH = 0.0254
HOLLOW = Pour(0.9144, 2.8956, 0.1016, 0.2191, 8.23e-3, 2.5908, True, 20.68e6, True, False, False)
GRAVEL = "sandy gravel or gravel"


def test_the_pour_of_the_first_demo_as_a_hand_sum() -> None:
    # 36 in across, 9 ft 6 in and a 4 in collar: pi/4 x 3^2 x 9.833 ft3 = 69.51 ft3
    # less 12.76 in2 of steel over 8 ft 10 in: 12.76 / 144 x 8.833 = .783 ft3; 68.72 ft3 = 2.545 yd3
    pour = pour_of(demo("hollow-spruce"))
    assert pour.hole_m3 / 0.028316847 == pytest.approx(69.51, abs=0.01)
    assert pour.pole_m3 / 0.028316847 == pytest.approx(0.783, abs=0.003)
    assert pour.volume_m3 / 0.764555 == pytest.approx(2.545, abs=0.002)
    assert pour.with_waste_m3 == pytest.approx(pour.volume_m3 * 1.1)
    assert pour.bags_80_lb == 126  # 68.72 x 1.1 / 0.60 = 125.99
    assert [(bags.bag, bags.count) for bags in pour.bags][:2] == [
        ("80 lb", 126),
        ("60 lb", 168),
    ]  # 167.98
    assert (pour.truck, pour.trucks, pour.short_load) == (True, 1, True)
    assert pour.spoil_bank_m3 == pytest.approx(pi / 4 * 0.9144**2 * 2.8956)
    assert pour.spoil_loose_m3 == pytest.approx(pour.spoil_bank_m3 * 1.12)
    # 2.545 x 1.1 = 2.80 yd3, up to the next quarter yard
    assert pour.order_m3 / 0.764554857984 == pytest.approx(3.0)
    assert pour.working.result.value == pour.order_m3
    assert pour.sold == "3 yd³"
    assert pour.sold in pour.order
    assert "2.80 yd³" in pour.why


def test_an_empty_pole_takes_its_whole_self_out_of_the_pour() -> None:
    full, empty = concrete_of(HOLLOW, GRAVEL), concrete_of(replace(HOLLOW, filled=False), GRAVEL)
    # pi/4 x .2191^2 = .03770 m2 over 2.6924 m
    assert empty.pole_m3 == pytest.approx(0.03770 * 2.6924, rel=1e-3)
    assert full.volume_m3 - empty.volume_m3 == pytest.approx(empty.pole_m3 - full.pole_m3)
    assert any("drain" in doubt for doubt in empty.doubts)
    left = pour_of(changed("hollow-spruce", footing={"pole_filled": False}))
    assert left.volume_m3 < pour_of(demo("hollow-spruce")).volume_m3


def test_a_small_pier_is_mixed_by_hand() -> None:
    small = concrete_of(replace(HOLLOW, diameter_m=0.6, depth_m=1.5, pole_depth_m=1.2), "clay or silt")  # fmt: skip
    assert (small.truck, small.trucks, small.short_load) == (False, 0, False)


@given(st.floats(0.3, 2.0), st.floats(0.6, 5.0))
def test_bags_of_every_size_hold_the_order_and_one_fewer_does_not(wide: float, deep: float) -> None:
    pour = concrete_of(replace(HOLLOW, diameter_m=wide, depth_m=deep, pole_depth_m=deep * 0.9, pole_outside_m=0.1, pole_steel_m2=0.002), GRAVEL)  # fmt: skip
    makes = {"80 lb": 0.60 * 0.0283168466, "60 lb": 0.45 * 0.0283168466, "25 kg": 25.0 / (36.2873896 / 0.0169901)}  # fmt: skip
    for bags in pour.bags:
        assert bags.count * makes[bags.bag] >= pour.with_waste_m3 * (1 - 1e-4)
        assert (bags.count - 1) * makes[bags.bag] < pour.with_waste_m3 * (1 + 1e-4)
    # bags are ordered by weight alike: the dry mix is the same to a bag
    assert max(b.mass_kg for b in pour.bags) - min(b.mass_kg for b in pour.bags) < 40.0


def test_the_order_says_what_is_known_and_asks_what_is_the_plants() -> None:
    order = concrete_of(HOLLOW, GRAVEL).order
    for part in ("3 yd³", "3,000 psi", "3/4 in", "entrained air", "Which slump", "calcium chloride", "36 in across"):  # fmt: skip
        assert part in order
    warm = concrete_of(replace(HOLLOW, freezes=False), GRAVEL)
    assert "no entrained air" in warm.order
    assert warm.doubts == ()
    assert any("4,500 psi" in doubt for doubt in concrete_of(HOLLOW, GRAVEL).doubts)
    metric = concrete_of(replace(HOLLOW, metric=True, eurocode=True, strength_pa=25e6), GRAVEL)
    assert "2.2 m³" in metric.order
    assert any("C30/37" in doubt for doubt in metric.doubts)


def test_an_order_is_rounded_up_never_down() -> None:
    yard = 0.764554857984
    assert order_step_m3(2.0 * yard, metric=False) == pytest.approx(2.0 * yard)
    assert order_step_m3(2.01 * yard, metric=False) == pytest.approx(2.25 * yard)
    assert order_step_m3(2.01, metric=True) == pytest.approx(2.1)
    assert bags_for(0.0169901, "80 lb").count == 1


def test_a_reader_in_metres_is_told_the_yards_the_plant_sells_too() -> None:
    read = concrete_of(replace(HOLLOW, metric=True, sold_metric=False), GRAVEL)
    own = concrete_of(HOLLOW, GRAVEL)
    assert read.order_m3 == own.order_m3
    assert read.sold == sold_words(own.order_m3, True, False) == "3 yd³ (2.29 m³)"


@pytest.mark.parametrize("soil", SoilClass.__args__)  # type: ignore[attr-defined]
def test_every_soil_that_is_dug_has_its_swell(soil: str) -> None:
    if soil in ("fill", "peat or mud", "rock"):  # refused before: no number is given for them
        with pytest.raises(KeyError):
            loose_m3(1.0, soil)
    else:
        assert 1.0 < loose_m3(1.0, soil) < 1.6


@given(st.floats(0.01, 50.0))
def test_a_heap_holds_what_was_dug(loose: float) -> None:
    wide, high = heap_m(loose)
    assert pi / 12.0 * wide**2 * high == pytest.approx(loose)
    assert high / (wide / 2.0) == pytest.approx(0.6745, abs=1e-3)  # tan 34


def test_the_trench_as_a_hand_sum() -> None:
    # 67.056 - 3 = 64.056 m, up to 64.5; .6096 + .05 + .10 = .7596 m, up to .76; x .3 = 14.706 m3
    trench = trench_of(67.056, 3.0, 0.6096, GRAVEL, ("cable", "ribbon"))
    assert trench.bank_m3 == pytest.approx(64.5 * 0.76 * 0.3)
    assert trench.loose_m3 == pytest.approx(trench.bank_m3 * 1.12)
    assert trench.bedding_m3 == pytest.approx(
        64.5 * 0.3 * 0.2504
    )  # line 5 cm, 10 cm under it and 10 over, and the round depth
    assert trench.over_m3 == pytest.approx(trench.bedding_m3 * 1.12)
    assert trench.contents == ("cable", "ribbon")
    assert trench.ribbon_below_m == pytest.approx(0.6096 - 0.3048)  # 12 in over the line
    assert all(check.holds for check in trench.checks)


def test_a_run_taken_apart_is_dug_as_it_was_taken_apart() -> None:
    trench = trench_of(67.056, 3.0, 0.6096, GRAVEL, (), 60.0, 0.75)
    assert (trench.length_m, trench.depth_m) == (60.0, 0.75)
    assert trench.bank_m3 == pytest.approx(60.0 * 0.75 * 0.3)
    assert trench.bedding_m3 == pytest.approx(60.0 * (0.75 - 0.6096 + 0.1) * 0.3)


@pytest.mark.parametrize("style", ["feet", "metric"])
def test_a_pencil_makes_of_the_shown_sizes_what_is_shown_to_come_out(style) -> None:
    trench = trench_of(39.41, 0.0, 0.4572, GRAVEL, (), 39.41, 0.5906, style)
    shown = [set_out(one, style, "up") for one in (39.41, 0.3, 0.5906)]
    assert [trench.length_m, trench.width_m, trench.depth_m] == shown
    # 130 ft x 1 ft x 2 ft = 260 ft3 = 9.63 yd3; 39.5 m x 0.3 m x 0.6 m = 7.11 m3
    assert trench.bank_m3 == pytest.approx(260 * 0.3048**3 if style == "feet" else 7.11)


def test_a_trench_of_five_feet_is_not_entered_with_straight_sides() -> None:
    sides = {depth: depth_checks("trench", depth)[0].holds for depth in (1.50, 1.524, 2.0)}
    assert sides == {1.50: True, 1.524: False, 2.0: False}
    ladder = {depth: depth_checks("trench", depth)[1].holds for depth in (1.2, 1.22)}
    assert ladder == {1.2: True, 1.22: False}
