"""Cover, pipe, pull, growth, own lines and the list, by hand, against traps, and as laws."""

from __future__ import annotations

from dataclasses import asdict
from itertools import pairwise
from math import e, exp, pi

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from polestead.answer.stands import built_only
from polestead.base.problem import Wrong
from polestead.base.table import table
from polestead.build.steps import STEPS
from polestead.homestead.demos import demo_path
from polestead.homestead.model import BuriedLine
from polestead.homestead.read import read_homestead
from polestead.sheets.wires.trench import trench_lines
from polestead.wiring.run.conductor import sizes
from polestead.wiring.trench.burial import cover_check, cover_notes, least_cover_m, ribbon_of
from polestead.wiring.trench.closing import lengths_of
from polestead.wiring.trench.conduit import (
    conduit_of,
    fill_allowed,
    insulated_m2,
    kind_of,
    pipe_named,
    pipes,
)
from polestead.wiring.trench.expansion import expansion_of, grows_m, soil_swing_k
from polestead.wiring.trench.own_lines import own_lines_of, passing
from polestead.wiring.trench.pull import (
    after_bend_n,
    bears_n,
    pull_of,
    straight_n,
    wedging_of,
    worst_wire,
)
from polestead.wiring.trench.trench import trench_of
from tests.wiring.demos import place, run

KINDS = ("PVC schedule 40", "PVC schedule 80", "rigid metal", "duct")
CODES = ("NEC", "Canada", "IEC")
IN2 = 0.0254**2


def pvc(size="4 AWG", **more):
    return run("150 ft", size, "PVC conduit", more.pop("cover", "18 in"), **more)


def line(**more) -> BuriedLine:
    return BuriedLine.model_validate({"name": "pipe", "what": "water", **more})


# cover


@pytest.mark.parametrize("code", CODES)
@pytest.mark.parametrize("under", ["yard", "own drive", "public road", "slab"])
@pytest.mark.parametrize("method", ["direct burial", "PVC conduit", "metal conduit"])
def test_every_word_the_file_may_say_has_its_cover(code, under, method):
    assert 0.1 <= least_cover_m(method, under, code) <= 0.9


def test_a_cable_without_a_pipe_under_a_building_is_refused():
    assert least_cover_m("metal conduit", "building") == 0.0
    with pytest.raises(ValueError, match="no cover"):
        least_cover_m("direct burial", "building")


@pytest.mark.parametrize(
    ("under", "cover", "holds"),
    [("yard", "18 in", True), ("own drive", "18 in", True), ("public road", "18 in", False),
     ("public road", "24 in", True), ("slab", "4 in", True), ("slab", "3-7/8 in", False)],
)  # fmt: skip
def test_what_lies_over_it_decides(under, cover, holds):
    assert cover_check(pvc(cover=cover, under=under)).holds is holds


def test_each_code_has_its_own_depth_and_says_how_sure_it_is():
    shallow = pvc(cover="460 mm")
    assert cover_check(shallow, "NEC").holds
    assert cover_check(shallow, "Canada").holds
    assert not cover_check(shallow, "IEC").holds
    assert "from memory" in str(cover_check(shallow, "Canada").source)
    assert any("names a depth" in note for note in cover_notes(shallow, "IEC", 0.0, ""))


def test_frost_under_the_line_is_told_and_worse_in_silt():
    deep = run("100 ft", "4 AWG", cover="24 in")
    assert not any("Frost" in note for note in cover_notes(deep, "NEC", 0.6, "silt or clay"))
    lifts = cover_notes(deep, "NEC", 0.7, "silt or clay")
    drained = cover_notes(deep, "NEC", 0.7, "drained, not frost-susceptible")
    assert any("lifts this soil" in note for note in lifts)
    assert any("drains" in note for note in drained)


def test_the_ribbon_lies_a_foot_over_the_line_or_half_way_up():
    assert ribbon_of(0.6096).depth_m == pytest.approx(0.3048)
    assert ribbon_of(0.4572).depth_m == pytest.approx(0.1524)  # 18 in: 6 in deep
    assert ribbon_of(0.1524).depth_m == pytest.approx(0.0762)
    assert "service" in str(ribbon_of(0.6).source)


@given(st.floats(0.02, 3.0))
def test_the_ribbon_is_between_the_grass_and_the_line(cover_m):
    ribbon = ribbon_of(cover_m)
    assert 0.0 < ribbon.depth_m < cover_m
    assert ribbon.depth_m + ribbon.over_m == pytest.approx(cover_m)


# pipe


def test_wrong_public_figures_are_not_ours():
    one = next(pipe for pipe in pipes("PVC schedule 40") if pipe.trade == "1 in")
    half = next(pipe for pipe in pipes("PVC schedule 40") if pipe.trade == "1-1/2 in")
    assert one.area_m2 / IN2 != pytest.approx(0.864, abs=0.01)  # that is thin-walled steel
    assert half.area_m2 / IN2 != pytest.approx(1.767, abs=0.01)  # that is a circle of 1.5 in
    assert insulated_m2("4 AWG", "THWN-2") / IN2 != pytest.approx(0.1293, abs=0.01)
    assert insulated_m2("1 AWG", "RHW-2") * 1e6 != pytest.approx(112.6, abs=1.0)  # a slip for 122.6


@pytest.mark.parametrize("kind", KINDS)
def test_a_pipe_is_thicker_outside_than_inside_and_grows_with_its_name(kind):
    known = pipes(kind)
    for pipe in known:
        assert 0.55 * pipe.outside_m < pipe.inside_m < pipe.outside_m
        assert pipe.area_m2 == pytest.approx(pi / 4 * pipe.inside_m**2)
    for thin, thick in pairwise(known):
        assert thick.area_m2 > thin.area_m2
        assert thick.sweep_m > thin.sweep_m
        assert thick.outside_m > thin.outside_m


def test_schedule_80_has_less_room_than_40_in_the_same_outside():
    for forty, eighty in zip(pipes("PVC schedule 40"), pipes("PVC schedule 80"), strict=True):
        assert eighty.area_m2 < forty.area_m2
        assert eighty.outside_m == forty.outside_m


def test_every_size_the_run_may_have_stands_in_the_table_of_wires():
    for metal in ("copper", "aluminium"):
        for size in sizes(metal):
            kinds = ("H1Z2Z2-K",) if size.endswith("mm2") else ("THWN-2", "XHHW-2", "RHW-2")
            assert all(insulated_m2(size, kind) > 0.0 for kind in kinds)


def test_insulation_never_makes_a_wire_thinner():
    for row in table("wiring", "trench/insulated"):
        if row["area_in2"]:
            thin = insulated_m2(row["size"], "THWN-2")
            assert insulated_m2(row["size"], "RHW-2") > thin


def test_the_pipe_of_two_live_wires_and_earth_by_hand():
    """THWN-2: 2 x .0824 + .0211 = .1859 in2; the risers are schedule 80: 40 % of 3/4 in is .1636, of 1 in .2752.  RHW-2: 2 x .0973 + .0333 = .2279: 1 in too."""
    thin = conduit_of(pvc(), "10 AWG", insulated="THWN-2")
    assert thin.wires_m2 / IN2 == pytest.approx(0.1859)
    assert thin.smallest.trade == "1 in"
    assert (thin.pipe.kind, thin.riser.kind) == ("PVC schedule 40", "PVC schedule 80")
    assert thin.fill == pytest.approx(0.1859 / 0.688)
    assert thin.roomy.trade == "1-1/4 in"
    thick = conduit_of(pvc(), "10 AWG")
    assert thick.insulated == "RHW-2"
    assert thick.wires_m2 / IN2 == pytest.approx(0.2279)
    assert thick.smallest.trade == "1 in"
    assert any("thickest of the table" in note for note in thick.notes)


def test_other_live_wires_count_as_thick_as_the_run():
    more = conduit_of(pvc(other_live_wires=2), "10 AWG", insulated="THWN-2")
    assert more.count == 5
    assert more.wires_m2 / IN2 == pytest.approx(0.1859 + 2 * 0.0824)
    assert more.smallest.trade == "1-1/4 in"  # .3507 over .2752 of 1 in, under .4948


def test_the_pipe_in_the_file_is_the_one_checked():
    small = conduit_of(pvc(conduit="1/2 in"), "10 AWG", insulated="THWN-2")
    assert not small.check.holds
    assert small.given
    assert small.smallest.trade == "1 in"
    # 3/4 in of schedule 40 would hold them, .2032; its risers of schedule 80 do not, .1636
    assert not conduit_of(pvc(conduit="3/4 in"), "10 AWG", insulated="THWN-2").check.holds
    assert conduit_of(pvc(conduit="1 in"), "10 AWG", insulated="THWN-2").check.holds
    eighty = conduit_of(
        pvc(conduit="3/4 in", conduit_wall="schedule 80"), "10 AWG", insulated="THWN-2"
    )
    assert not eighty.check.holds  # 40 % of .409 is .1636


@pytest.mark.parametrize(
    ("written", "kind", "trade"),
    [("1-1/4 in", "PVC schedule 40", "1-1/4 in"), ("1 1/4 IN", "rigid metal", "1-1/4 in"), ('1.25"', "PVC schedule 80", "1-1/4 in"),
     ("2 inch", "PVC schedule 40", "2 in"), ("50 mm", "duct", "50 mm"), ("53 mm", "PVC schedule 40", "2 in"), ("3/4 in", "rigid metal", "3/4 in")],
)  # fmt: skip
def test_a_pipe_is_read_as_owners_write_it(written, kind, trade):
    assert pipe_named(written, kind).trade == trade


@pytest.mark.parametrize("written", ["5 in", "1", "wide", "1-1/3 in", "50 mm", "1/0 in"])
def test_an_unknown_pipe_is_told_with_the_known_ones(written):
    with pytest.raises(Wrong) as caught:
        pipe_named(written, "PVC schedule 40")
    (problem,) = caught.value.problems
    assert (problem.section, problem.key) == ("run", "conduit")
    assert "1-1/4 in" in problem.allowed


def test_millimetres_are_a_duct_and_a_designator_in_canada():
    assert kind_of(pvc(conduit="50 mm"), "NEC") == "duct"
    assert kind_of(pvc(), "IEC") == "duct"
    assert kind_of(pvc(), "NEC") == "PVC schedule 40"
    assert conduit_of(pvc(conduit="35 mm"), "10 AWG", "Canada").pipe.trade == "1-1/4 in"


def test_more_wires_than_any_pipe_holds_are_turned_away():
    with pytest.raises(Wrong, match="two pipes"):
        conduit_of(pvc("4/0 AWG", other_live_wires=40), "4 AWG")


def test_three_wires_that_wedge_side_by_side_are_told():
    """Three of 4 AWG RHW-2 are .352 in each, 1 in PVC 1.029: 2.92.  With a 10 AWG earth, .206: 3 x 1.029 / .910 = 3.39."""
    alike = conduit_of(pvc(conduit="1 in"), "4 AWG")
    assert alike.jam_ratio == pytest.approx(2.924, abs=0.002)
    assert any("may jam" in note for note in alike.notes)
    thinner = conduit_of(pvc(conduit="1 in"), "10 AWG")
    assert thinner.jam_ratio == pytest.approx(3.393, abs=0.005)
    assert not any("may jam" in note for note in thinner.notes)
    assert conduit_of(pvc(other_live_wires=1), "4 AWG").jam_ratio is None


def test_a_size_nobody_named_is_the_smallest_in_which_three_wires_do_not_wedge():
    """Slieve Moss: 40 mm holds them, 2.97 times a wire inside."""
    file = read_homestead(demo_path("slieve-moss")).homestead
    found = conduit_of(file.run, "16 mm2", "IEC")
    assert (found.smallest.trade, found.pipe.trade) == ("40 mm", "50 mm")
    assert found.jam_ratio is not None
    assert found.jam_ratio > 3.2
    assert any(
        note.startswith("40 mm duct would hold the three wires, but ") for note in found.notes
    )
    assert not any("may jam" in note for note in found.notes)
    named = conduit_of(file.run.model_copy(update={"conduit": "40 mm"}), "16 mm2", "IEC")
    assert named.pipe.trade == "40 mm"
    assert any("may jam" in note for note in named.notes)


@settings(max_examples=60)
@given(
    st.sampled_from(["14 AWG", "10 AWG", "6 AWG", "2 AWG"]),
    st.integers(0, 6),
    st.integers(0, 6),
    st.sampled_from(CODES),
    st.sampled_from(["PVC conduit", "metal conduit"]),
)
def test_more_wires_never_need_a_smaller_pipe(size, few, more, code, method):
    first = run("150 ft", size, method, "24 in", other_live_wires=few)
    then = first.model_copy(update={"other_live_wires": few + more})
    a, b = conduit_of(first, size, code), conduit_of(then, size, code)
    assert b.smallest.area_m2 >= a.smallest.area_m2
    assert b.wires_m2 <= fill_allowed(b.count) * b.smallest.area_m2


def test_the_thickest_insulation_is_told_with_what_its_areas_leave_out():
    told = conduit_of(pvc(), "10 AWG")
    assert told.insulated_words == "RHW-2 without outer covering"
    assert any("RHW-2 without outer covering" in note for note in told.notes)
    assert conduit_of(pvc(), "10 AWG", insulated="THWN-2").insulated_words == "THWN-2"


def test_both_risers_have_their_guard_from_18_in_under_to_the_box():
    """Cover 24 in: 18 in under, 1.2 m over: .4572 + 1.2 = 1.6572 m; cover 12 in: .3048 + 1.2; a box at 3 m: 8 ft over."""
    deep = trench("hollow-spruce").lengths
    assert deep.pole_guard_m == deep.house_guard_m == pytest.approx(1.6572)
    thin = run("150 ft", "4 AWG", cover="12 in")
    assert lengths_of(thin, 0.03, 1.2, 1.2).pole_guard_m == pytest.approx(1.5048)
    assert lengths_of(thin, 0.03, 3.0, 1.2).pole_guard_m == pytest.approx(0.3048 + 2.4384)
    items = {item.what: item for item in trench("hollow-spruce").items}
    for what in ("guard pipe at the pole", "guard pipe at the wall"):
        assert items[what].length_m == pytest.approx(1.6572)
        assert (
            items[what].size == "1 in PVC schedule 80, or metal"
        )  # .2279 in2 over .1636 of 3/4 in


def test_a_plastic_pipe_has_strong_risers_and_is_counted_without_them():
    found = trench("cinder-mesa")
    items = {item.what: item for item in found.items}
    assert items["pipe"].length_m == pytest.approx(found.lengths.level_m)
    for what, length_m in (("riser at the pole", found.lengths.pole_riser_m), ("riser at the wall", found.lengths.house_riser_m)):  # fmt: skip
        assert items[what].length_m == pytest.approx(length_m)
        assert items[what].size.endswith("PVC schedule 80")
    assert found.conduit.check.capacity == pytest.approx(0.4 * found.conduit.riser.area_m2)


# pull


def test_tension_by_hand():
    """1 kg/m over 100 m at .5 is 490.3 N; a bend of 90 deg raises by e^(pi/4) = 2.193; at mu 1/pi two sweeps raise by e."""
    assert straight_n(1.0, 100.0, 0.5) == pytest.approx(490.3325)
    assert after_bend_n(490.3325, 90.0, 0.5) == pytest.approx(490.3325 * exp(pi / 4))
    assert after_bend_n(1.0, 180.0, 1.0 / pi) == pytest.approx(e)


def test_what_the_metal_bears_by_hand():
    """4 AWG has 41,740 circular mils: 334 lbf; four bear a fifth less than four times that; aluminium three quarters."""
    one = bears_n("4 AWG", "copper", 1)
    assert one / 4.44822 == pytest.approx(0.008 * 41740, rel=2e-4)
    assert bears_n("4 AWG", "copper", 4) == pytest.approx(3.2 * one)
    assert bears_n("4 AWG", "aluminium", 1) == pytest.approx(0.75 * one)


def test_three_wires_press_on_one_another_and_the_worst_bears_less_than_all():
    assert wedging_of(1, 0.01, 0.03) == 1.0
    assert wedging_of(2, 0.01, 0.03) == pytest.approx(1.0 / (1.0 - 0.25) ** 0.5)
    assert wedging_of(3, 0.01, 0.03) == pytest.approx(1.0 + 4.0 / 3.0 * 0.25)
    assert worst_wire(3, 4.0 / 3.0) == pytest.approx(2.0 / 3.0)


def test_two_sweeps_taken_raise_the_straight_once_and_named_bends_raise_all():
    pipe = conduit_of(pvc(), "10 AWG")
    taken, named = (pull_of(pipe, "copper", 40.0, bends) for bends in ((), (90.0, 90.0)))
    straight = straight_n(taken.mass_kg_m, 40.0, 0.5, taken.wedging)
    assert taken.tension_n == pytest.approx(straight * exp(taken.wedging * 0.5 * pi / 2))
    assert named.tension_n == pytest.approx(straight * exp(named.wedging * 0.5 * pi))
    assert not taken.bends_told
    assert named.bends_told


def test_no_order_of_straights_and_bends_pulls_harder_than_the_bound():
    """Two straights of 30 and 10 m with three bends in every order, by the same two equations, step by step."""
    from itertools import permutations

    pipe = conduit_of(pvc(), "10 AWG")
    bound = pull_of(pipe, "copper", 40.0, (90.0, 45.0, 30.0))
    pieces = (("m", 30.0), ("m", 10.0), ("deg", 90.0), ("deg", 45.0), ("deg", 30.0))
    for order in permutations(pieces):
        felt = 0.0
        for what, size in order:
            if what == "m":
                felt += straight_n(bound.mass_kg_m, size, 0.5, bound.wedging)
            else:
                felt = after_bend_n(felt, size, 0.5, bound.wedging)
        assert felt <= bound.tension_n * (1.0 + 1e-12)


def test_more_than_a_whole_turn_is_refused():
    pipe = conduit_of(pvc(), "10 AWG")
    assert pull_of(pipe, "copper", 5.0, (90.0, 90.0, 90.0, 90.0)).checks[0].holds
    fifth = pull_of(pipe, "copper", 5.0, (90.0, 90.0, 90.0, 90.0, 15.0))
    assert not fifth.checks[0].holds
    assert fifth.pull_box


def test_the_longest_pull_is_where_the_first_check_gives():
    pipe = conduit_of(pvc(), "10 AWG")
    for bends in ((), (90.0, 60.0)):
        longest = pull_of(pipe, "copper", 1.0, bends, rise_m=1.5).longest_m
        assert not pull_of(pipe, "copper", 0.999 * longest, bends, rise_m=1.5).pull_box
        assert pull_of(pipe, "copper", 1.001 * longest, bends, rise_m=1.5).pull_box


@settings(max_examples=60)
@given(
    st.floats(1.0, 300.0),
    st.floats(1.0, 3.0),
    st.lists(st.floats(0.0, 120.0), min_size=1, max_size=4),
    st.floats(0.0, 90.0),
)
def test_a_longer_pull_or_a_further_bend_never_pulls_less(length_m, longer, bends, bend):
    pipe = conduit_of(pvc(), "10 AWG")
    here = pull_of(pipe, "copper", length_m, tuple(bends))
    far = pull_of(pipe, "copper", longer * length_m, tuple(bends))
    turned = pull_of(pipe, "copper", length_m, (*bends, bend))
    assert far.tension_n >= here.tension_n
    assert turned.tension_n >= here.tension_n
    assert here.oiled_n <= here.tension_n
    assert turned.longest_m <= here.longest_m * (1.0 + 1e-9)


# growth


def test_growth_by_hand():
    """10 ft of PVC over 100 F: 3.38e-5 x 120 in x 100 = .4056 in; steel a fifth of it, .078."""
    assert grows_m("PVC schedule 40", 3.048, 100 / 1.8) / 0.0254 == pytest.approx(0.4056)
    assert grows_m("rigid metal", 3.048, 100 / 1.8) / 0.0254 == pytest.approx(0.078)


def test_a_fitting_is_wanted_from_a_quarter_inch():
    """A quarter of an inch over 140 F: .25 / (3.38e-5 x 140) = 52.83 in."""
    low_c, hottest_c = 0.0, 140 / 1.8 - 30 / 1.8
    for inches, wanted in ((52.7, False), (53.0, True)):
        legs = (("riser", inches * 0.0254),)
        found = expansion_of("PVC schedule 40", legs, 10.0, 0.6, low_c, hottest_c, False)
        assert found.legs[0].swing_k == pytest.approx(140 / 1.8)
        assert found.legs[0].fitting is wanted
    assert not expansion_of("rigid metal", (("riser", 1.5),), 9, 0.6, 0.0, 61.0, False).legs[0].fitting  # fmt: skip


def test_the_ground_swings_less_than_the_air_and_less_the_deeper():
    swings = [soil_swing_k(40.0, depth) for depth in (0.0, 0.3, 0.6, 1.2, 5.0)]
    assert swings[0] == 40.0
    assert swings == sorted(swings, reverse=True)
    assert swings[-1] < 0.15 * 40.0


def test_the_buried_length_is_told_only_where_the_months_are_known():
    untold = expansion_of("PVC schedule 40", (("riser", 2.0),), 50.0, 0.6, -40.0, 45.0, True)
    told = expansion_of("PVC schedule 40", (("riser", 2.0),), 50.0, 0.6, -40.0, 45.0, True, (-15.0, 18.0))  # fmt: skip
    assert [leg.name for leg in untold.legs] == ["riser"]
    assert told.legs[-1].swing_k == pytest.approx(soil_swing_k(33.0, 0.6))
    assert told.legs[-1].fitting is None
    assert untold.slip_riser
    assert any("Frost lifts" in note for note in untold.notes)


# own lines


def test_over_under_and_into_by_hand():
    """Our pipe from .60 to .65 m; a line with its top at 1.0 leaves .35; at .3, .05 thick, .25; at .62 they meet."""
    assert passing(0.60, 0.05, 1.0, 0.05) == ("over it", pytest.approx(0.35))
    assert passing(0.60, 0.05, 0.3, 0.05) == ("under it", pytest.approx(0.25))
    way, clear = passing(0.60, 0.05, 0.62, 0.05)
    assert way == "into it"
    assert clear < 0.0


@given(st.floats(0.1, 2.0), st.floats(0.01, 0.1), st.floats(0.05, 3.0), st.floats(0.01, 0.2))
def test_two_lines_either_pass_or_meet(cover_m, outside_m, top_m, thick_m):
    way, clear = passing(cover_m, outside_m, top_m, thick_m)
    apart = top_m >= cover_m + outside_m or cover_m >= top_m + thick_m
    assert (way != "into it") is apart
    assert (clear >= 0.0) is apart


def test_a_crossing_keeps_its_foot_and_is_dug_by_hand_on_both_sides():
    lines = (line(depth="1 m", crosses_run_at="20 m"),)
    (found,) = own_lines_of(lines, 0.6, 0.05, 60.0, 0.45).lines
    assert (found.way, found.clear_m) == ("over it", pytest.approx(0.35))
    assert found.hand_dig_m == pytest.approx((20.0 - 0.6096, 20.0 + 0.6096))
    assert [check.holds for check in found.checks] == [True]
    (near,) = own_lines_of((line(depth="90 cm", crosses_run_at="20 m"),), 0.6, 0.05, 60.0, 0.45).lines  # fmt: skip
    assert [check.holds for check in near.checks] == [False]  # .25 under .3048
    (met,) = own_lines_of((line(depth="62 cm", crosses_run_at="20 m"),), 0.6, 0.05, 60.0, 0.45).lines  # fmt: skip
    assert met.way == "into it"
    assert not met.checks[0].holds


def test_what_is_not_known_is_asked():
    (nowhere,) = own_lines_of((line(),), 0.6, 0.05, 60.0, 0.45).lines
    assert nowhere.way == "unknown"
    assert len(nowhere.asked) == 3
    assert nowhere.checks == ()
    (no_depth,) = own_lines_of((line(crosses_run_at="5 m"),), 0.6, 0.05, 60.0, 0.45).lines
    assert (no_depth.way, no_depth.clear_m) == ("depth unknown", None)
    assert any("How deep" in ask for ask in no_depth.asked)
    past = own_lines_of((line(crosses_run_at="70 m"),), 0.6, 0.05, 60.0, 0.45).lines[0]
    assert any("past the end" in ask for ask in past.asked)


def test_beside_the_trench_and_beside_the_hole():
    near = line(from_run="50 cm", from_pole="60 cm", offsets=("3 m from the wall",))
    (found,) = own_lines_of((near,), 0.6, 0.05, 60.0, 0.45).lines
    assert found.hand_dig_all  # 50 cm less half a bucket is under 24 in
    assert found.hole_edge_m == pytest.approx(0.15)
    assert found.hand_dig_hole
    assert [check.holds for check in found.checks] == [True, False]  # .45 beside, .15 at the hole
    assert found.asked == ()
    (far,) = own_lines_of((line(from_run="2 m", from_pole="9 m"),), 0.6, 0.05, 60.0, 0.45).lines
    assert not far.hand_dig_all
    assert not far.hand_dig_hole


def test_nobody_marks_them_is_said_always_and_that_none_is_written():
    assert any("nobody marks them" in note for note in own_lines_of((line(),), 0.6, 0.05, 9, 0.4).notes)  # fmt: skip
    assert any("does not mean" in note for note in own_lines_of((), 0.6, 0.05, 9, 0.4).notes)


# all of it


def homestead(name):
    return read_homestead(demo_path(name)).homestead


def trench(name, **more):
    h = homestead(name)
    earth = "6 mm2" if h.run.size.endswith("mm2") else "10 AWG"
    return trench_of(h.place, h.run, h.buried, earth, h.footing.diameter_m / 2.0, **more)


def test_the_first_demo_by_hand():
    """220 ft less 3 m in the house, less twice 24 in and 1.2 m: 67.056 - 3 - 2 x 1.8096 = 60.437 m level."""
    found = trench("hollow-spruce")
    assert found.lengths.level_m == pytest.approx(60.437, abs=0.001)
    assert found.conduit is None
    water = found.own.lines[0]
    assert water.way == "over it"
    assert water.clear_m == pytest.approx(1.8288 - 0.6096 - 0.03)  # 6 ft, 24 in, a bundle of 3 cm
    assert all(check.holds for check in found.checks)


@pytest.mark.parametrize("name", ["hollow-spruce", "cinder-mesa", "slieve-moss"])
def test_the_list_goes_in_order_and_nothing_is_covered_before_the_photograph(name):
    found = trench(name, drive_wire_m=12.0)
    assert [item.order for item in found.items] == list(range(1, len(found.items) + 1))
    at = {item.what: item.order for item in found.items}
    assert at["PHOTOGRAPH with a tape in it"] < at["SIGN-OFF"] < at["warning ribbon"]
    assert at["bed of sand or sifted soil"] < at["earth wire"] < at["SIGN-OFF"]
    assert ("spare pull string" in at) is (found.conduit is not None)
    assert at["low-voltage wire"] < at["SIGN-OFF"]
    ribbon = next(item for item in found.items if item.what == "warning ribbon")
    assert ribbon.depth_m == found.ribbon.depth_m
    assert all(item.source.work for item in found.items)


def test_the_build_says_the_same():
    found = trench("cinder-mesa")
    built = built_only(read_homestead(demo_path("cinder-mesa")))
    pieces = {piece.name: piece for piece in built.pieces}
    items = {item.what: item for item in found.items}
    cable = items["live wires, each of two"]
    assert pieces["run cable, each live wire"].length_m == pytest.approx(cable.length_m)
    assert pieces["warning ribbon"].where.endswith(items["warning ribbon"].where)
    assert items["SIGN-OFF"].why in STEPS
    for name in (
        "riser, at the pole",
        "pipe, down the pole",
        "change-over box",
        "way inside, from the wall",
    ):
        assert name in pieces


@settings(max_examples=20)
@given(st.sampled_from(["yard", "own drive"]), st.floats(0.2, 1.5), st.integers(0, 4))
def test_every_check_of_a_part_is_among_the_trench_s(under, cover_m, others):
    h = homestead("cinder-mesa")
    laid = h.run.model_copy(update={"cover_m": cover_m, "under": under, "other_live_wires": others})
    found = trench_of(h.place, laid, h.buried, "10 AWG", 0.45)
    assert found.cover in found.checks
    assert found.conduit.check in found.checks
    assert set(found.pull.checks) <= set(found.checks)
    assert found.lengths.pipe_m <= laid.length_m


@pytest.mark.parametrize("style", ["feet", "metric"])
@pytest.mark.parametrize("name", ["hollow-spruce", "cinder-mesa", "slieve-moss"])
def test_the_text_fits_a_terminal_and_says_what_gives(name, style):
    found = trench(name, month_means_c=(-10.0, 20.0))
    lines = "\n".join(trench_lines(found, style)).splitlines()
    assert max(len(line) for line in lines) <= 78
    text = " ".join(" ".join(lines).split())
    assert text.count("NO: ") == sum(not check.holds for check in found.checks)
    assert ("ft" in text) is (style == "feet") or "ft" in str(found.own)
    assert "nobody marks them but you" in text


def test_all_of_it_is_plain_data():
    assert asdict(trench("slieve-moss"))["conduit"]["pipe"]["trade"] == "40 mm"
    assert place("-20 F").wired_by == "NEC"
