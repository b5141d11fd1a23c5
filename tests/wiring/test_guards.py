"""Breakers, switches, rules, surge, earth and labels, by hand and by law."""

from __future__ import annotations

import json

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from polestead.base.problem import Wrong
from polestead.homestead.demos import demo_path
from polestead.homestead.read import read_homestead
from polestead.sheets.data import _plain
from polestead.sheets.ratings import down, up
from polestead.sheets.wires.guards import guards_lines, labels_lines
from polestead.wiring.guards.earth import earth_by_live_mm2, earth_of, earth_wire_of
from polestead.wiring.guards.electrode import electrode_of
from polestead.wiring.guards.fault import fault_workings
from polestead.wiring.guards.guards import guards_of
from polestead.wiring.guards.leads import lead_for
from polestead.wiring.guards.rounded import amps_up, volts_up
from polestead.wiring.guards.rules import arc_fault_rule, ground_fault_rule, shutdown_rule
from polestead.wiring.guards.surge import arrestor_v, lead_v
from polestead.wiring.run.conductor import area_mm2
from polestead.wiring.wiring import wiring_of
from tests.wiring.demos import BANK, SPRUCE, array, controller, place, run

VOLTS = {
    "cold_v": 190.8, "open_v": 158.0, "working_v": 131.6, "working_a": 26.8, "short_circuit_a": 14.0, "in_parallel": 2, "breaker_a": 45.0,
    "nominal_v": 48.0, "full_v": 57.6,
}  # fmt: skip


def told(laid=None, box=None, code="NEC", **other):
    box = controller("250 V", "80 A") if box is None else box
    return guards_of(
        code, laid or run("220 ft", "4 AWG"), box, **{**VOLTS, "bank_a": 14800.0, **other}
    )


def guard(found, what: str, where: str = ""):
    (one,) = [g for g in found.guards if what in g.what and where in g.where]
    return one


def rule(found, name: str):
    (one,) = [r for r in found.rules if r.name == name]
    return one


def wired(name: str):
    from polestead.answer.stands import wires_of

    return wires_of(read_homestead(demo_path(name)).homestead)


# Hand: Voc 39.5 x 4 x (1 + .0025 x 68.9) = 185.2, + 3 % = 190.8 V; 1.25 x 2 x 14 = 35 A; 1.5625 x 28 = 43.75 -> 45 A.
# Run 2 x 67.06 m x .308/304.8/1.2162 ohm/m (20 C) = .1114 ohm; 57.6/.1114 = 517 A. Controller 80 x 1.25 = 100 A.
def test_the_snowy_homestead_by_hand() -> None:
    found = told()
    run_breaker = guard(found, "breaker, both")
    assert (run_breaker.volts_v, run_breaker.rating_a, run_breaker.interrupts_a) == (190.8, 45.0, 14800.0)  # fmt: skip
    assert guard(found, "breaker or fuse").rating_a == 100.0
    assert guard(found, "breaker or fuse").volts_v == 57.6
    assert guard(found, "load-break", "at the pole").rating_a == 35.0
    assert guard(found, "load-break", "sight of the controller").volts_v == 190.8
    assert found.fault_at_pole_a == pytest.approx(517, abs=1)
    assert found.fault_at_controller_a == 14800.0


@pytest.mark.parametrize(
    ("name", "volts", "code", "earth"),
    [("hollow-spruce", 191, "NEC", "10 AWG"), ("cinder-mesa", 146, "NEC", "10 AWG"), ("slieve-moss", 172, "IEC", "16 mm2")],
)  # fmt: skip
def test_the_demos_carry_their_guards(name, volts, code, earth) -> None:
    wires = wired(name)
    assert wires.guards.code == code
    assert wires.earth_wire == wires.guards.earth.least == earth
    assert f"HIGHEST VOLTAGE {volts} V DC" in wires.guards.labels[0].lines
    assert all(check.holds for check in wires.checks)


def test_the_european_homestead_takes_european_ratings() -> None:
    """1.5625 x 2 x 13.9 = 43.4 A: 45 A by NEC 240.6, 50 A by IEC; 70 x 1.25 = 87.5 A: 90 A or 100 A."""
    wires = wired("slieve-moss")
    assert wires.breaker_a == 50.0
    assert guard(wires.guards, "breaker or fuse").rating_a == 100.0


# --- the breaker of unrated DC


def test_a_breaker_without_ratings_is_told_and_never_passed() -> None:
    found = told()
    assert not [c for c in found.checks if c.part == "breaker"]
    assert any("breaker_bears" in one and "not passed" in one for one in found.asks)
    assert any("breaker_breaks" in one and "not passed" in one for one in found.asks)


@pytest.mark.parametrize(("bears", "holds"), [("190 V", False), ("191 V", True), ("125 V", False), ("500 V", True)])  # fmt: skip
def test_the_breaker_must_bear_the_coldest_dawn(bears, holds) -> None:
    found = told(run("220 ft", "4 AWG", breaker_bears=bears))
    (check,) = [c for c in found.checks if c.name == "bears the cold voltage"]
    assert check.holds is holds
    assert not any("breaker_bears" in one for one in found.asks)


@pytest.mark.parametrize(("breaks", "holds"), [("5000 A", False), ("10000 A", False), ("20000 A", True)])  # fmt: skip
def test_the_breaker_must_break_what_the_battery_gives(breaks, holds) -> None:
    found = told(run("220 ft", "4 AWG", breaker_breaks=breaks))
    (check,) = [c for c in found.checks if c.name == "breaks a short circuit"]
    assert check.holds is holds
    assert check.demand == 14800.0


def test_a_breaker_that_cannot_bear_the_cold_fails_the_whole_wiring() -> None:
    weak = wiring_of(*SPRUCE[:3], run("220 ft", "4 AWG", breaker_bears="150 V"), BANK)
    assert [c.name for c in weak.checks if not c.holds] == ["bears the cold voltage"]


def test_without_a_bank_its_short_circuit_is_asked() -> None:
    found = told(bank_a=None)
    assert found.fault_at_controller_a is None
    assert any("short-circuit current" in one for one in found.asks)
    assert guard(found, "breaker, both").interrupts_a is None


def test_a_polarised_breaker_is_warned_of() -> None:
    assert "polarised" in guard(told(), "breaker, both").words
    assert "either end" in guard(told(), "breaker, both").ask


def test_string_fuses_stand_from_three_strings() -> None:
    assert not [g for g in told().guards if g.what == "string fuse"]
    three = told(in_parallel=3, string_fuse_a=25.0)
    fuse = guard(three, "string fuse")
    assert "box on the frame" in fuse.where
    assert "frame box" not in {g.key for g in three.guards}
    assert "frame box" in {g.key for g in told().guards}
    assert fuse.rating_a == 25.0
    assert fuse.volts_v == 190.8
    assert guard(told(in_parallel=3), "string fuse").rating_a is None  # not handed in: asked


def test_the_array_alone_cannot_trip_its_own_breaker() -> None:
    assert "cannot trip" in guard(told(), "breaker, both").words


@given(
    bright=st.floats(1, 200), beside=st.floats(0, 200), bank=st.floats(100, 50000), full=st.floats(14, 70), ohm=st.floats(0.001, 5),
)  # fmt: skip
def test_the_fault_is_never_less_at_the_controller_and_never_less_than_the_array(
    bright, beside, bank, full, ohm
) -> None:
    pole, house = fault_workings(bright, beside, bank, full, ohm)
    assert house is not None
    assert bright <= pole.result.value <= max(bright, bank + beside) + 1e-9
    assert pole.result.value <= house.result.value + 1e-9


@given(amps=st.floats(1, 230))
def test_the_wire_named_carries_what_is_asked(amps) -> None:
    from polestead.wiring.run.conductor import conductor_of

    assert conductor_of(lead_for(amps, "NEC"), "copper").at_75_a >= amps


@pytest.mark.parametrize(
    ("code", "terminals", "words"),
    [
        ("NEC", None, "copper from 3 AWG where every terminal bears 75 C, from 1 AWG where one bears 60 C only"),
        ("NEC", "60 C", "copper from 1 AWG at 60 C terminals"),
        ("Canada", "75 C", "copper from 3 AWG at 75 C terminals (figures borrowed from NEC Table 310.16: ask)"),
        ("IEC", None, "copper from 35 mm2 where every terminal bears 70 C, from 50 mm2 where one bears 60 C only"),
    ],
)  # fmt: skip
def test_the_leads_to_the_battery_are_told_by_what_their_terminals_bear(
    code, terminals, words
) -> None:
    """80 A x 1.25 = 100 A: 3 AWG carries 100 A at 75 C, 1 AWG 110 A at 60 C; 35 mm2 111 A by B.52.2, 50 mm2 133 x .866 = 115 A."""
    laid = (
        run("220 ft", "4 AWG") if terminals is None else run("220 ft", "4 AWG", terminals=terminals)
    )
    assert words in guard(told(laid, code=code), "breaker or fuse").words


# --- arc fault


@pytest.mark.parametrize(
    ("cold", "inside", "method", "guarded", "outcome"),
    [
        (79.9, 3.0, "direct burial", False, "does not reach"),
        (80.0, 3.0, "direct burial", False, "missing"),
        (190.0, 3.0, "metal conduit", True, "met"),
        (190.0, 0.0, "direct burial", False, "let off"),
        (190.0, 0.0, "metal conduit", False, "let off"),
        (190.0, 0.0, "PVC conduit", False, "ask"),  # the exception names soil and metal only
        (190.0, 0.1, "direct burial", False, "missing"),
    ],
)
def test_arc_fault_by_volts_and_place(cold, inside, method, guarded, outcome) -> None:
    assert arc_fault_rule("NEC", cold, 0.7 * cold, inside, method, guarded).outcome == outcome


def test_arc_fault_by_country() -> None:
    assert arc_fault_rule("IEC", 190.0, 130.0, 3.0, "direct burial", False).outcome == "does not reach"  # fmt: skip
    canada = arc_fault_rule("Canada", 190.0, 130.0, 0.0, "direct burial", False)
    assert (canada.outcome, canada.source.place) == ("ask", "64-216")


def test_only_the_dawn_is_over_80_volts_and_that_is_said() -> None:
    assert "an inspector may go by that" in arc_fault_rule("NEC", 82.0, 60.0, 3.0, "direct burial", False).words  # fmt: skip


# --- rapid shutdown: the run inside counts


@pytest.mark.parametrize(
    ("code", "inside", "outcome"),
    [("NEC", 0.0, "let off"), ("NEC", 0.9, "ask"), ("NEC", 3.0, "missing"), ("IEC", 3.0, "does not reach"), ("Canada", 3.0, "missing")],
)  # fmt: skip
def test_rapid_shutdown_counts_the_run_in_the_house(code, inside, outcome) -> None:
    assert shutdown_rule(code, inside).outcome == outcome


def test_its_label_stands_where_the_rule_does() -> None:
    def has(found):
        return any("rapid shutdown" in label.where for label in found.labels)

    assert has(told())
    assert not has(told(run("220 ft", "4 AWG", in_house="0 m")))
    assert not has(told(code="IEC"))


# --- ground fault


@pytest.mark.parametrize(
    ("strings", "inside", "guarded", "outcome"),
    [(2, 0.0, False, "let off"), (3, 0.0, False, "missing"), (2, 3.0, False, "missing"), (2, 3.0, True, "met")],
)  # fmt: skip
def test_two_strings_off_buildings_are_let_off_and_no_more(strings, inside, guarded, outcome) -> None:  # fmt: skip
    assert ground_fault_rule("NEC", strings, inside, guarded).outcome == outcome


def test_iec_asks_for_the_insulation() -> None:
    assert "insulation" in ground_fault_rule("IEC", 1, 0.0, False).words


# --- earth wire


def test_thicker_live_wire_for_drop_asks_for_no_thicker_earth_wire() -> None:
    """690.45: the trap of 250.122(B); only the breaker counts."""
    assert earth_of("NEC", 45.0, "4 AWG", "copper", None).least == "10 AWG"
    assert earth_of("NEC", 45.0, "4/0 AWG", "copper", None).least == "10 AWG"
    assert earth_of("NEC", 100.0, "4/0 AWG", "copper", None).least == "8 AWG"


def test_the_earth_wire_is_never_asked_thicker_than_the_live_one() -> None:
    assert earth_of("NEC", 25.0, "12 AWG", "copper", None).least == "12 AWG"


@pytest.mark.parametrize(("size", "holds"), [("12 AWG", False), ("10 AWG", True), ("6 mm2", True), ("4 mm2", False)])  # fmt: skip
def test_the_earth_wire_in_the_file_is_held_against_it(size, holds) -> None:
    found = told(run("220 ft", "4 AWG", earth_size=size))
    (check,) = [c for c in found.checks if c.part == "earth wire"]
    assert check.holds is holds


def test_iec_takes_it_by_the_live_wire() -> None:
    assert earth_of("IEC", 50.0, "16 mm2", "copper", None).least == "16 mm2"
    assert earth_of("IEC", 50.0, "25 mm2", "copper", None).least == "16 mm2"
    assert earth_of("IEC", 50.0, "70 mm2", "copper", None).least == "35 mm2"
    assert earth_of("IEC", 50.0, "25 mm2", "aluminium", None).least == "16 mm2"  # .66 x 16 = 10.6


@given(a=st.floats(1, 800), b=st.floats(1, 800))
def test_a_larger_breaker_never_asks_for_a_thinner_earth_wire(a, b) -> None:
    low, high = sorted((a, b))
    for metal in ("copper", "aluminium"):
        assert area_mm2(earth_wire_of(low, metal)) <= area_mm2(earth_wire_of(high, metal))
    assert area_mm2(earth_wire_of(a, "aluminium")) > area_mm2(earth_wire_of(a))


@given(a=st.floats(0.5, 300), b=st.floats(0.5, 300))
def test_a_thicker_live_wire_never_asks_for_a_thinner_one_by_iec(a, b) -> None:
    low, high = sorted((a, b))
    assert earth_by_live_mm2(low) <= earth_by_live_mm2(high) <= high


def test_over_the_end_of_the_table_is_told() -> None:
    with pytest.raises(Wrong, match="up to 800 A"):
        earth_wire_of(800.5)


# --- why a rod does not replace the earth wire


def test_the_rod_by_hand() -> None:
    """190.8 V / 25 ohm = 7.63 A of a 45 A breaker; frame at 190.8 V. 10 AWG: 67.056 x 1.24/304.8 = .2728 ohm; 35 A x .2728 = 9.55 V."""
    found = told().electrode
    assert found.rod_a == pytest.approx(7.632)
    assert found.rod_v == pytest.approx(190.8)
    assert found.wire_a == pytest.approx(35.0)
    assert found.wire_v == pytest.approx(9.548, abs=0.001)
    assert found.working.result.value == found.wire_v
    assert "7.6 A" in found.guard.words


@given(volts=st.floats(60, 600), bright=st.floats(25, 120), ohm=st.floats(0.01, 1.0))
def test_a_rod_never_trips_the_breaker_and_always_leaves_more_volts_than_the_wire(volts, bright, ohm) -> None:  # fmt: skip
    """The breaker is at least 1.25 times the current that can be there at all."""
    found = electrode_of("NEC", volts, bright, 1.25 * bright, ohm)
    assert found.rod_a < 1.25 * bright
    assert (
        found.wire_a < 1.25 * bright
    )  # nor does the wire: the array is its own limit, and that is said
    assert found.wire_v <= found.rod_v + 1e-9
    assert "no breaker clears" in found.working.notes[0]


# --- surge


def test_an_arrestor_at_both_ends_over_the_coldest_dawn() -> None:
    found = [g for g in told().guards if g.what == "surge arrestor"]
    assert [("pole" in g.where, "controller" in g.where) for g in found] == [(True, False), (False, True)]  # fmt: skip
    assert all(g.volts_v == 190.8 for g in found)


@given(cold=st.floats(20, 600), open_v=st.floats(20, 600))
def test_the_arrestor_bears_both(cold, open_v) -> None:
    assert arrestor_v(cold, open_v) >= max(cold, 1.2 * open_v)


def test_half_a_metre_of_lead_adds_five_hundred_volts() -> None:
    assert lead_v(0.5) == pytest.approx(1e-6 * 0.5 * 1e9)


# --- labels


def test_a_label_is_never_rounded_down() -> None:
    assert volts_up(190.01) == "191 V"
    assert amps_up(34.75) == "34.8 A"
    assert amps_up(34.751) == "34.8 A"
    assert amps_up(34.81) == "34.9 A"


def test_the_labels_carry_the_exact_figures() -> None:
    lines = [line for label in told().labels for line in label.lines]
    assert "HIGHEST VOLTAGE 191 V DC" in lines
    assert "LARGEST CURRENT 35.0 A DC" in lines
    assert "WORKING 131.6 V, 26.8 A DC" in lines
    assert any("LIVE ON BOTH SIDES" in line for line in lines)
    assert "SOLAR CIRCUIT, 191 V DC" in lines


def test_an_estimate_is_never_engraved() -> None:
    def short(found):
        return next(x for label in found.labels for x in label.lines if x.startswith("SHORT"))

    assert short(told()) == "SHORT CIRCUIT __________ A DC"
    assert short(told(bank_by_maker=True)) == "SHORT CIRCUIT 14800 A DC"
    assert all(any("WORKED ON" in x for x in one.lines) for one in told().labels if "battery" in one.where)  # fmt: skip


def test_the_engine_has_its_label_only_where_there_is_one() -> None:
    assert not any("engine" in label.where for label in told().labels)
    assert any("engine" in label.where for label in told(engine=True).labels)


# --- all of it


@settings(max_examples=20, deadline=None)
@given(low=st.floats(-55, 5), colder=st.floats(0, 9))
def test_a_colder_place_never_asks_for_fewer_volts(low, colder) -> None:
    warm = wiring_of(place(f"{low:.3f} C"), *SPRUCE[1:]).guards
    cold = wiring_of(place(f"{low - colder:.3f} C"), *SPRUCE[1:]).guards
    for a, b in zip(warm.guards, cold.guards, strict=True):
        assert a.volts_v is None or b.volts_v >= a.volts_v


def test_more_strings_never_ask_for_less_current() -> None:
    def bright(n):
        modules = array(4, n, "440 W", "39.5 V", "32.9 V", "14.0 A", "13.4 A", "-0.25 %/C")
        return guard(wiring_of(SPRUCE[0], modules, *SPRUCE[2:]).guards, "load-break", "at the pole").rating_a  # fmt: skip

    assert [bright(n) for n in (1, 2, 3)] == [17.5, 35.0, 52.5]


@pytest.mark.parametrize("code", ["NEC", "Canada", "IEC"])
def test_every_guard_names_who_asks_and_is_ready_for_json(code) -> None:
    found = told(code=code)
    assert all(g.source.work and g.words for g in (*found.guards,))
    assert all(g.source.status == "memory" for g in found.guards)  # none of these clauses was read
    json.dumps(_plain(found), allow_nan=False)


def test_the_text_is_no_wider_than_the_page() -> None:
    found = told(in_parallel=3, string_fuse_a=25.0, engine=True)
    text = "\n".join((*guards_lines(found), *labels_lines(found)))
    assert max(len(line) for line in text.splitlines()) <= 78
    assert "not passed" in text


def test_demand_is_told_up_and_capacity_down() -> None:
    """Cold 190.8 V against 190.85 V on the label holds, and is told as 191 V on 190.85 V; 10,000.4 A wanted of 10,000.9 A as 10,001 of 10,000."""
    near = told(run("220 ft", "4 AWG", breaker_bears="190.85 V"))
    assert "191 V on 190.85 V, at its limit" in " ".join("\n".join(guards_lines(near)).split())
    assert (up(10000.4), down(10000.9)) == ("10,001", "10,000")


@given(value=st.floats(0.0, 5000.0), digits=st.integers(0, 2))
def test_what_is_shown_is_never_kinder(value, digits) -> None:
    assert float(up(value, digits).replace(",", "")) >= value - 1e-6
    assert float(down(value, digits).replace(",", "")) <= value + 1e-6
    assert float(up(value, digits).replace(",", "")) - float(down(value, digits).replace(",", "")) <= 10.0**-digits + 1e-9  # fmt: skip
