"""What a run carries and costs: by hand, against the metal's own physics, and as laws."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from polestead.base.table import table
from polestead.homestead.model import CableRun
from polestead.wiring.run.ampacity import (
    AT_TERMINALS,
    IN_HEAT,
    IN_SOIL,
    ampacity_of,
    fill_share,
    wire_checks,
)
from polestead.wiring.run.conductor import area_mm2, conductor_of, is_metric, sizes, wire_c
from polestead.wiring.run.economy import costs_the_same, economy_of
from polestead.wiring.run.loss import loss_over_year_wh, sum_i2_h_a2, working_v
from polestead.wiring.run.sizes import IN_SUMMER, PROTECTED, SizeOfWire, Strings, size_of, sizes_of
from polestead.wiring.run.trade import Strung, trade_of
from polestead.wiring.strings.voltage import HEAT_CHECK
from tests.wiring.demos import run

CODES = ("NEC", "Canada", "IEC")
METALS = ("copper", "aluminium")
FAMILIES = [(metal, metric) for metal in METALS for metric in (False, True)]
STRINGS = Strings(14.0, 2, 131.6, 26.8, 45.0)


def laid(method="direct burial", length="220 ft", size="4 AWG", **more) -> CableRun:
    return run(length, size, method, **more)


def told(size="4 AWG", metal="copper", code="NEC", **more):
    return ampacity_of(conductor_of(size, metal), laid(**more), code)


def by_limit(ampacity) -> dict[str, float]:
    return {limit.name: limit.carries_a for limit in ampacity.limits}


def family(metal: str, metric: bool) -> list[str]:
    return [size for size in sizes(metal) if is_metric(size) == metric]


# By hand: 4 AWG copper stands at 70 / 85 / 95 A, the riser in 45 C keeps .87 of the 90 C column.


def test_the_least_place_decides_and_is_named():
    found = told()
    assert by_limit(found) == {
        AT_TERMINALS: 85.0, IN_HEAT: pytest.approx(82.65), IN_SOIL: pytest.approx(95.0),
    }  # fmt: skip
    assert (found.governs, found.carries_a) == (IN_HEAT, pytest.approx(82.65))
    assert IN_HEAT in found.working.result.word
    assert found.working.result.value == found.carries_a


def test_other_live_wires_in_the_pipe_take_their_share():
    """Four live wires: 95 x .87 x .8 = 66.12 in the riser, 95 x .8 = 76 in the ground; the terminals know nothing of it."""
    found = by_limit(told(method="PVC conduit", other_live_wires=2))
    assert found == {AT_TERMINALS: 85.0, IN_HEAT: pytest.approx(66.12), IN_SOIL: pytest.approx(76.0)}  # fmt: skip
    assert by_limit(told(other_live_wires=2))[IN_SOIL] == 95.0  # a cable in the soil lies alone


def test_hot_soil_decides_over_the_riser():
    """95 x .82 = 77.9 A in soil of 50 C."""
    found = told(soil="50 C")
    assert (found.governs, found.carries_a) == (IN_SOIL, pytest.approx(77.9))


def test_terminals_that_bear_60_c_and_cooler_insulation():
    """60 C column: 70 A; 75 C insulation: 85 x .82 = 69.7 A in the riser; 70 C insulation goes by the 60 C column, 70 x .71."""
    assert (told(terminals="60 C").governs, told(terminals="60 C").carries_a) == (
        AT_TERMINALS,
        70.0,
    )
    assert by_limit(told(insulation="75 C"))[IN_HEAT] == pytest.approx(69.7)
    cool = by_limit(told(insulation="70 C"))
    assert (cool[AT_TERMINALS], cool[IN_HEAT]) == (70.0, pytest.approx(49.7))
    assert any("run.terminals" in note for note in told().notes)
    assert not any("run.terminals" in note for note in told(terminals="75 C").notes)


def test_small_wire_keeps_its_small_breaker():
    """240.4(D): 10 AWG copper carries 34.8 A, yet no breaker over 30 A protects it; 8 AWG may have the next size over 47.85."""
    assert told("10 AWG").largest_breaker_a == 30.0
    assert told("8 AWG").largest_breaker_a == 50.0


def test_nothing_under_14_awg_is_lawful_under_the_nec():
    assert told("1.5 mm2").carries_a == 0.0
    assert told("1.5 mm2").largest_breaker_a == 0.0
    assert told("1.5 mm2", code="IEC", method="PVC conduit").carries_a > 10.0


def test_canada_goes_by_the_necs_figures_and_says_so():
    """Table 5C keeps .7 of ten live wires, where the NEC keeps .5: 95 x .87 x .7 = 57.86 A."""
    more = {"method": "PVC conduit", "other_live_wires": 8}
    assert by_limit(told(code="Canada", **more))[IN_HEAT] == pytest.approx(57.855)
    assert by_limit(told(**more))[IN_HEAT] == pytest.approx(41.325)
    assert any("inspector" in note for note in told(code="Canada").notes)
    assert any("rule 4-004" in note for note in told("2/0 AWG", code="Canada").notes)
    assert not any("rule 4-004" in note for note in told("4 AWG", code="Canada").notes)
    assert all(limit.source.status == "memory" for limit in told(code="Canada").limits)


def test_iec_by_duct_by_soil_and_by_terminals():
    """16 mm2 copper XLPE: duct 91 A, in soil of 30 C and 1.5 K m/W 91 x .93 x 1.10 = 93.09; riser 91 x .87; terminals at 70 C: 69."""
    duct = told("16 mm2", code="IEC", method="PVC conduit", soil="30 C", soil_resistivity=1.5)
    assert by_limit(duct) == {
        AT_TERMINALS: 69.0, IN_HEAT: pytest.approx(79.17), IN_SOIL: pytest.approx(93.093),
    }  # fmt: skip
    wet = told("16 mm2", code="IEC", soil_resistivity=1.0)
    assert by_limit(wet)[IN_SOIL] == pytest.approx(150.0)
    pvc = told("16 mm2", code="IEC", insulation="70 C", method="PVC conduit")
    assert by_limit(pvc)[IN_HEAT] == pytest.approx(69.0 * 0.79)
    assert (
        pvc.largest_breaker_a == 50.0
    )  # 433.1: none over the 54.5 A it carries, and 50 A is the size sold under it


def test_soil_drier_than_the_table_is_not_guessed():
    dry = told("16 mm2", code="IEC", soil_resistivity=3.5)
    assert dry.carries_a == 0.0
    assert any("ends at 3" in note for note in dry.notes)


def test_iec_figures_stand_from_memory_and_say_so():
    found = told("16 mm2", code="IEC")
    assert all(limit.source.status == "memory" for limit in found.limits)
    assert any("from memory" in note for note in found.notes)


def test_iec_tables_follow_the_metal_and_their_own_ratios():
    """A slipped digit shows: amperes are printed whole, so a ratio may be off by half an ampere in each.

    In duct XLPE over PVC: sqrt(70/50 x (1 + .00393 x 50)/(1 + .00393 x 70)) = 1.146; aluminium over copper: sqrt(.017241/.028264)
    = .781.  In a pipe in air a hotter wire sheds heat better too, so there only the ratio's sameness over the sizes is asked.
    """
    rows = {
        (row["size"], row["metal"], row["insulation_c"]): row for row in table("wiring", "run/iec")
    }
    in_air = []
    for (size, metal, insulation), row in rows.items():
        if insulation == "90":
            cool = rows[size, metal, "70"]
            most = 0.035 + 1.2 / float(cool["duct_d1"])
            assert float(row["duct_d1"]) / float(cool["duct_d1"]) == pytest.approx(1.146, abs=most), (size, metal)  # fmt: skip
            in_air.append(float(row["pipe_b2"]) / float(cool["pipe_b2"]))
        if metal == "aluminium":
            best = rows[size, "copper", insulation]
            for column in ("duct_d1", "pipe_b2"):
                most = 0.015 + 1.0 / float(best[column])
                assert float(row[column]) / float(best[column]) == pytest.approx(0.781, abs=most), (size, column)  # fmt: skip
    assert max(in_air) / min(in_air) < 1.05


def test_metric_resistances_are_the_largest_allowed():
    """One public copy heads them minimum; a minimum would lie under the ideal metal for its nominal area, these lie 3 to 12 % over it."""
    ideal = {"copper": 0.017241, "aluminium": 0.028264}
    for metal in METALS:
        for size in family(metal, metric=True):
            over = conductor_of(size, metal).ohm_per_m_20c * area_mm2(size) / ideal[metal]
            assert 1.03 < over < 1.14, (size, metal, over)
            assert "largest allowed" in conductor_of(size, metal).source.place


def test_a_wire_at_its_ampacity_is_at_90_degrees():
    wire = conductor_of("4 AWG", "copper")
    assert wire_c(wire, 95.0, 30.0) == pytest.approx(90.0)
    assert wire_c(wire, 0.0, 12.0) == 12.0


def test_checks_hold_the_terminals_against_hours_and_the_rest_against_the_brightest():
    checks = {check.name: check for check in wire_checks(conductor_of("8 AWG", "copper"), laid(), "NEC", 14.0, 2)}  # fmt: skip
    assert (checks[AT_TERMINALS].demand, checks[IN_HEAT].demand) == (43.75, 35.0)
    assert all(check.working.result.value == check.capacity for check in checks.values())
    iec = wire_checks(conductor_of("16 mm2", "copper"), laid(), "IEC", 14.0, 2)
    assert {check.demand for check in iec} == {35.0}


@pytest.mark.parametrize("code", CODES)
@pytest.mark.parametrize(("metal", "metric"), FAMILIES)
def test_thicker_never_carries_less_and_never_drops_more(code, metal, metric):
    for method in ("direct burial", "PVC conduit"):
        where = laid(method)
        rows = [
            size_of(where, code, STRINGS, conductor_of(s, metal)) for s in family(metal, metric)
        ]
        assert len(rows) >= 8
        for thin, thick in pairwise(rows):
            assert thick.carries_a >= thin.carries_a
            assert thick.largest_breaker_a >= thin.largest_breaker_a
            assert thick.drop_v < thin.drop_v
            assert thick.loop_ohm < thin.loop_ohm


@settings(max_examples=60)
@given(
    soil=st.floats(-5.0, 49.0), hotter=st.floats(0.0, 30.0), drier=st.floats(0.3, 5.0), more=st.floats(0.0, 4.0),
    others=st.integers(0, 38), one_more=st.integers(0, 10), code=st.sampled_from(CODES), metal=st.sampled_from(METALS),
    size=st.sampled_from(["10 AWG", "2 AWG", "250 kcmil", "16 mm2", "50 mm2"]), method=st.sampled_from(["direct burial", "PVC conduit"]),
)  # fmt: skip
def test_hotter_or_drier_soil_and_more_wires_never_carry_more(
    soil, hotter, drier, more, others, one_more, code, metal, size, method
):
    wire = conductor_of(size, metal)
    here, there = (
        laid(method).model_copy(update={"soil_c": t, "soil_resistivity": r, "other_live_wires": n})
        for t, r, n in ((soil, drier, others), (soil + hotter, drier + more, others + one_more))
    )
    cool, warm = ampacity_of(wire, here, code), ampacity_of(wire, there, code)
    for before, after in zip(cool.limits, warm.limits, strict=True):
        assert after.carries_a <= before.carries_a
    assert warm.carries_a <= cool.carries_a


@given(live=st.integers(1, 60), code=st.sampled_from(CODES))
def test_one_more_wire_never_leaves_more(live, code):
    assert fill_share(live + 1, code) <= fill_share(live, code)


@settings(max_examples=30)
@given(short=st.floats(1.0, 800.0), longer=st.floats(1.0, 3.0))
def test_a_longer_run_never_loses_less(short, longer):
    near, far = (sizes_of(laid().model_copy(update={"length_m": m}), "NEC", STRINGS) for m in (short, short * longer))  # fmt: skip
    for one, other in zip(near, far, strict=True):
        assert other.loop_ohm >= one.loop_ohm
        assert other.drop_v >= one.drop_v


# The year's loss.


def test_the_loss_of_a_made_up_year_by_hand():
    """Two years of three hours at 100 V and .5 ohm: 10, 5, 0 A and 0, 5, 5 A: 50 + 12.5 + 12.5 + 12.5 Wh over two years: 43.75."""
    power = np.array([[1000.0, 500.0, 0.0], [0.0, 500.0, 500.0]], dtype=np.float32)
    assert loss_over_year_wh(power, 100.0, 0.5) == pytest.approx(43.75)
    volts = np.array([[100.0, 50.0, 80.0], [90.0, 100.0, 100.0]])
    assert loss_over_year_wh(power, volts, 0.5) == pytest.approx(
        (50 + 50 + 0 + 0 + 12.5 + 12.5) / 2
    )


def test_lower_volts_never_lose_less_and_half_the_volts_lose_four_times():
    power = np.random.default_rng(3).uniform(0.0, 3500.0, size=(2, 8760))
    assert loss_over_year_wh(power, 60.0, 0.1) == pytest.approx(4.0 * loss_over_year_wh(power, 120.0, 0.1))  # fmt: skip
    assert sum_i2_h_a2(power, working_v(32.9, -0.1, 4, 65.0)) > sum_i2_h_a2(power, working_v(32.9, -0.1, 4))  # fmt: skip


def test_a_voltage_of_nothing_is_refused():
    with pytest.raises(ValueError, match="above nothing"):
        sum_i2_h_a2(np.ones((1, 3)), np.array([[100.0, 0.0, 100.0]]))
    with pytest.raises(ValueError, match="years and hours"):
        sum_i2_h_a2(np.ones(3), 100.0)


# The cheapest, by hand.  S = 500 000 A2 h; thin .2 ohm loses 100 kWh a year, thick .1 ohm 50 kWh.  A lost Wh costs .0002 to
# .0004: 20 to 40 a year, and 10 to 20.  Run of 50 m, ten years.  Thin at 4 a metre: 200, in all 400 to 600, middle 500.  Thick at
# 6.50: 325, in all 425 to 525, middle 475.  The thicker may cost (20 - 10) x 10 / 50 = 2 to (40 - 20) x 10 / 50 = 4 more a metre.


def a_size(size: str, loop_ohm: float, faults=(), metal="copper") -> SizeOfWire:
    return SizeOfWire(size, metal, False, 60.0, IN_HEAT, 60.0, 2.0, 0.02, 40.0, 0.02, loop_ohm, faults)  # fmt: skip


TWO = (a_size("6 AWG", 0.2), a_size("4 AWG", 0.1))
PRICES = {("6 AWG", "copper"): 4.0, ("4 AWG", "copper"): 6.5}


def costed(sizes=TWO, worth=(2e-4, 4e-4), prices=PRICES):
    return economy_of(sizes, 5e5, worth, 10.0, 50.0, prices)


def test_the_cheapest_by_hand():
    found = costed()
    thin, thick = found.rows
    assert (thin.lost_wh, thick.lost_wh) == (pytest.approx(100e3), pytest.approx(50e3))
    assert thin.worth_year == (pytest.approx(20.0), pytest.approx(40.0))
    assert thin.total == (pytest.approx(400.0), pytest.approx(600.0))
    assert thick.total == (pytest.approx(425.0), pytest.approx(525.0))
    assert found.cheapest is thick
    assert found.smallest == (thin,)
    assert found.cheapest_at_ends == (thin, thick)  # fuel decides
    assert thin.next_worth_per_m == (pytest.approx(2.0), pytest.approx(4.0))
    assert (thin.next_size, thick.next_size, thick.next_worth_per_m) == ("4 AWG", None, None)
    assert found.working is not None
    assert found.working.result.value == pytest.approx(525.0)


def test_an_unlawful_wire_is_never_the_cheapest():
    found = costed((a_size("6 AWG", 0.2, (PROTECTED,)), a_size("4 AWG", 0.1)))
    assert found.cheapest is found.rows[1]
    assert found.smallest == (found.rows[1],)
    assert found.priced == 1


def test_without_a_price_the_worth_of_the_next_size_still_serves():
    found = costed(prices={})
    assert found.cheapest is None
    assert found.cheapest_at_ends == ()
    assert found.rows[0].next_worth_per_m == (pytest.approx(2.0), pytest.approx(4.0))
    assert found.working is not None


def test_where_a_lost_watt_hour_costs_nothing_the_least_price_wins():
    found = costed(worth=(0.0, 0.0))
    assert found.cheapest is found.rows[0]
    assert not costs_the_same(found.rows[0], found.rows[1])


@given(scale=st.floats(1.0, 100.0))
def test_dearer_fuel_never_makes_a_thinner_wire_the_cheapest(scale):
    rows = tuple(sizes_of(laid(), "NEC", STRINGS))
    prices = {
        (row.size, row.metal): 0.1 * area_mm2(row.size) for row in rows if row.metal == "copper"
    }
    cheap, dear = (economy_of(rows, 6e5, (w, w), 15.0, 67.0, prices).cheapest for w in (2e-5, 2e-5 * scale))  # fmt: skip
    assert dear.wire.loop_ohm <= cheap.wire.loop_ohm


def test_the_fault_of_too_few_volts_has_the_strings_own_name():
    assert IN_SUMMER == HEAT_CHECK


def test_the_volts_the_run_may_take_in_the_heat_bind():
    """10 AWG over 220 ft loses 2 x 67.06 x 26.8 x 1.24/304.8 = 14.6 V."""
    one = size_of(laid(), "NEC", Strings(14.0, 2, 131.6, 26.8, None, 14.0), conductor_of("10 AWG", "copper"))  # fmt: skip
    assert one.drop_v == pytest.approx(14.62, abs=0.01)
    assert IN_SUMMER in one.faults
    assert IN_SUMMER not in size_of(laid(), "NEC", Strings(14.0, 2, 131.6, 26.8, None, 15.0), conductor_of("10 AWG", "copper")).faults  # fmt: skip


# Strings, controller and wire.


def way(in_series: int, in_parallel: int, controller="pole", **more) -> Strung:
    strings = Strings(14.0, in_parallel, 32.9 * in_series, 13.4 * in_parallel)
    return Strung(controller, in_series, in_parallel, False, more.pop("allowed", True), strings, **more)  # fmt: skip


def test_half_the_volts_want_thicker_wire_and_lose_four_times_in_the_same():
    """For hours one string of 8 wants 1.5625 x 14 = 21.9 A at its terminals, 12 AWG has 25; four of 2 want 87.5 A: 3 AWG has 100."""
    lines = trade_of([way(8, 1), way(2, 4)], laid(), "NEC", 1e7, (2e-5, 4e-5), 15.0, {})
    thin, thick = (next(one for one in lines if (one.strung.in_series, one.metal) == (n, "copper")) for n in (8, 2))  # fmt: skip
    assert (thin.smallest.wire.size, thick.smallest.wire.size) == ("12 AWG", "3 AWG")
    assert thin.smallest.lost_wh == pytest.approx(thin.smallest.wire.loop_ohm * 1e7 / 64)
    assert thick.smallest.lost_wh == pytest.approx(thick.smallest.wire.loop_ohm * 1e7 / 4)


def test_what_is_not_allowed_is_not_in_the_table_and_the_cheapest_comes_first():
    ways = [way(8, 1, allowed=False), way(4, 2, controller_price=300.0), way(4, 2, "old", held_back_w=600.0, held_back_year=(1.0, 2.0))]  # fmt: skip
    prices = {("8 AWG", "copper"): 6.0, ("4 AWG", "copper"): 12.0}
    lines = trade_of(ways, laid(), "NEC", 1e7, (2e-5, 4e-5), 15.0, prices)
    assert {one.strung.in_series for one in lines} == {4}
    priced = [one for one in lines if one.total is not None]
    assert lines[: len(priced)] == tuple(priced)
    assert [(one.strung.controller, one.metal) for one in priced] == [("old", "copper"), ("pole", "copper")]  # fmt: skip
    old, new = priced
    assert new.total[0] - 300.0 == pytest.approx(old.total[0] - 15.0 * 1.0)
    assert new.total[1] - 300.0 == pytest.approx(old.total[1] - 15.0 * 2.0)
