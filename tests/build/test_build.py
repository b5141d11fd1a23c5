"""Pieces, pour and asking list."""

from __future__ import annotations

from math import pi

import pytest
from polestead.build.concrete import concrete_of

from polestead.build.asking import asking_list
from polestead.build.build import build_of, pole_length_m
from polestead.homestead.demos import demo_path
from polestead.homestead.model import SoilClass
from polestead.homestead.read import read_homestead
from polestead.mount.geometry import geometry_of

FILE = read_homestead(demo_path("hollow-spruce"))
H = FILE.homestead


def test_the_pour_of_the_first_demo_as_a_hand_sum() -> None:
    # 36 in across, 9 ft 6 in and a 4 in collar: pi/4 x 3^2 x 9.833 ft3 = 69.5 ft3 = 2.57 yd3
    pour = concrete_of(0.9144, 2.8956, 0.1016, 0.2191, 2.5908, "sandy gravel or gravel")
    assert pour.volume_m3 / 0.764555 == pytest.approx(2.574, abs=0.005)
    assert pour.with_waste_m3 == pytest.approx(pour.volume_m3 * 1.1)
    assert pour.bags_80_lb == 128  # 76.46 ft3 / 0.60 = 127.4
    assert pour.truck
    assert pour.spoil_bank_m3 == pytest.approx(pi / 4 * 0.9144**2 * 2.8956)
    assert pour.spoil_loose_m3 == pytest.approx(pour.spoil_bank_m3 * 1.12)
    assert pour.working.result.value == pour.bags_80_lb


def test_a_small_pier_is_mixed_by_hand() -> None:
    assert not concrete_of(0.6, 1.5, 0.1, 0.1, 1.2, "clay or silt").truck


@pytest.mark.parametrize("soil", SoilClass.__args__)  # type: ignore[attr-defined]
def test_every_soil_class_has_its_swell(soil: str) -> None:
    assert concrete_of(0.9, 2.0, 0.1, 0.2, 1.8, soil).spoil_loose_m3 > 1.2


def test_the_pole_reaches_from_its_foot_to_under_the_hinge() -> None:
    assert pole_length_m(H.mount, H.footing) / 0.3048 == pytest.approx(8.5 + 11.0 - 8.0 / 12.0)


def test_pieces_weigh_what_they_are_made_of() -> None:
    geometry = geometry_of(H.mount, H.array, 100.0)
    built = build_of(H.array, H.mount, H.footing, H.run, geometry, 0.219, 64.6, 100.0, H.place.soil)
    weights = {piece.name: piece.mass_kg for piece in built.pieces}
    assert weights["pole"] == pytest.approx(pole_length_m(H.mount, H.footing) * 64.6)
    assert built.tipping_mass_kg == pytest.approx(
        weights["module"] + weights["rails, clamps and hinge"] + weights["strongback"]
    )
    assert built.heaviest_lift == "the pole"
    assert built.trench_m3 == pytest.approx(67.056 * 0.3 * 0.6096)
    assert sum(step.startswith("GATE") for step in built.steps) >= 3


def test_only_what_nobody_confirmed_is_asked() -> None:
    questions = asking_list(FILE.rows)
    assert [question.row.key for question in questions] == ["exposure", "frost_soil"]
    assert all(question.whom and question.sentence and question.trap for question in questions)
