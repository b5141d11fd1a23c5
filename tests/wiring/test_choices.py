"""Every size of wire: by hand, and as laws."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from polestead.base.problem import Wrong
from polestead.wiring.choices import METALS, choices_of
from polestead.wiring.run.conductor import area_mm2, sizes
from polestead.wiring.wiring import wiring_of
from tests.wiring.demos import MESA, SPRUCE, array, run

PLACE, ARRAY, POLE, RUN, BANK = SPRUCE


def choices(strung=ARRAY, laid=RUN):
    return choices_of(PLACE, strung, POLE, laid, BANK)


@pytest.mark.parametrize("house", [SPRUCE, MESA])
def test_the_size_in_the_file_is_told_as_the_answer_tells_it(house):
    where, strung, one, laid, battery = house
    found = choices_of(where, strung, one, laid, battery)
    told = wiring_of(where, strung, one, laid.model_copy(update={"breaker_a": None}), battery)
    (size,) = (one for one in found.sizes if one.chosen)
    assert size.drop_v == told.drop_v


def test_every_size_of_both_metals_and_the_thinnest_that_will_do():
    """43.75 A for hours: copper 8 AWG bears 50 A at its terminals and 55 x .87 = 47.9 A in the heat, 10 AWG 35; aluminium 6 AWG 50 and 52."""
    found = choices()
    assert {(one.metal, one.size) for one in found.sizes} == {(m, s) for m in METALS for s in sizes(m)}  # fmt: skip
    assert found.thinnest("copper").size == "8 AWG"
    assert found.thinnest("aluminium").size == "6 AWG"
    assert next(one for one in found.sizes if one.size == "8 AWG" and one.metal == "copper").carries_a == pytest.approx(47.85)  # fmt: skip


def test_a_wire_that_takes_the_charging_voltage_is_refused():
    far = choices(laid=run("3000 ft", "8 AWG"), strung=array(4, 1, "440 W", "39.5 V", "32.9 V", "14.0 A", "13.4 A", "-0.25 %/C", 4, 1))  # fmt: skip
    thin = next(one for one in far.sizes if one.size == "12 AWG" and one.metal == "copper")
    assert "working voltage in summer heat, enough to charge" in thin.faults


def test_a_wire_no_table_knows_is_asked_back():
    with pytest.raises(Wrong, match="given string"):
        choices(laid=RUN.model_copy(update={"size": "string"}))


@settings(max_examples=25)
@given(st.floats(10.0, 400.0), st.floats(1.01, 3.0))
def test_longer_or_thinner_never_loses_less(length_m, longer):
    here, there = (
        choices(laid=RUN.model_copy(update={"length_m": m})) for m in (length_m, longer * length_m)
    )
    for near, far in zip(here.sizes, there.sizes, strict=True):
        assert far.drop_share > near.drop_share
    for metal in METALS:
        family = [one for one in here.sizes if one.metal == metal and one.size.endswith("AWG")]
        family.sort(key=lambda one: area_mm2(one.size))
        lost = [one.drop_v for one in family]
        assert lost == sorted(lost, reverse=True)
