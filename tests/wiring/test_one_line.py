"""The one-line as data: it hangs together, whatever the homestead has."""

from __future__ import annotations

import pytest

from polestead.homestead.demos import demo_names, demo_path
from polestead.homestead.read import read_homestead
from polestead.wiring.drawn.one_line import InHand, OneLine, one_line_of
from polestead.wiring.wiring import wiring_of


def drawn(demo: str = "hollow-spruce", in_hand: InHand | None = None, **change) -> OneLine:
    """A demo's one-line; ``array``, ``house``, ``run`` replace fields of those sections."""
    h = read_homestead(demo_path(demo)).homestead
    array = h.array.model_copy(update=change.get("array", {}))
    house = h.household.model_copy(update=change.get("house", {}))
    run = h.run.model_copy(update=change.get("run", {}))
    controller = next(one for one in house.controller if one.name == array.controller)
    wires = wiring_of(h.place, array, controller, run, house.battery)
    return one_line_of(house, array, run, wires, h.place.wired_by, in_hand or InHand())


def many_old(demo: str = "hollow-spruce", on: str = "pole"):
    h = read_homestead(demo_path(demo)).homestead
    (old,) = h.household.old_array
    return (old, old.model_copy(update={"name": "shed", "controller": on}), old.model_copy(update={"name": "barn wall"}))  # fmt: skip


VARIANTS = {
    "no engine": {"house": {"engine": None}},
    "no old array": {"house": {"old_array": ()}},
    "old array on the new controller": {"house": {"old_array": many_old()}},
    "twelve strings": {"array": {"columns": 6, "rows": 8, "in_series": 4, "in_parallel": 12}, "run": {"size": "4/0 AWG"}},
    "one module": {"array": {"columns": 1, "rows": 1, "in_series": 1, "in_parallel": 1}},
    "bond at the engine": {"in_hand": InHand(neutral_bond_at="engine")},
    "bond at the inverter": {"in_hand": InHand(neutral_bond_at="inverter")},
    "all in hand": {"in_hand": InHand(20.0, "10 AWG", 300.0, 60.0, 300.0, 100.0, 150.0, 250.0, 8000.0)},
}  # fmt: skip


def followed(data: OneLine, start: str, carries: str) -> set[str]:
    seen, todo = {start}, [start]
    while todo:
        here = todo.pop()
        for wire in data.wires:
            if wire.carries == carries and wire.start == here and wire.end not in seen:
                seen.add(wire.end)
                todo.append(wire.end)
    return seen


@pytest.mark.parametrize("demo", demo_names())
def test_the_pole_stands_left_the_battery_right(demo: str) -> None:
    keys = [station.key for station in drawn(demo).stations]
    order = ["strings", "frame-box", "cord", "pole-switch", "run", "breaker", "bus", "battery-switch", "main-fuse", "battery"]  # fmt: skip
    assert [key for key in keys if key in order] == order
    assert keys[0] == "strings"


@pytest.mark.parametrize("name", VARIANTS)
def test_every_wire_ends_at_a_station_and_all_hangs_together(name: str) -> None:
    data = drawn(**VARIANTS[name])
    keys = [station.key for station in data.stations]
    assert len(keys) == len(set(keys))
    assert {w.start for w in data.wires} | {w.end for w in data.wires} <= set(keys)
    assert {"battery", "inverter"} <= followed(data, "strings", "direct")
    assert {"earth-bar", "pole-electrode", "house-electrode"} <= followed(data, "strings", "earth")
    for old in data.of_kind("old modules"):
        assert "battery" in followed(data, old.key, "direct")
    assert data.of_kind("engine") == () or "bus" in followed(data, "charger", "direct")


@pytest.mark.parametrize("name", VARIANTS)
def test_neutral_and_earth_meet_once(name: str) -> None:
    data = drawn(**VARIANTS[name])
    (bond,) = [wire for wire in data.wires if wire.carries == "bond"]
    assert bond.start == data.neutral_bond_at
    assert bond.end == "earth-bar"


def test_a_bond_at_an_engine_that_is_not_there_goes_to_the_house() -> None:
    data = drawn(in_hand=InHand(neutral_bond_at="engine"), house={"engine": None})
    assert data.neutral_bond_at == "house"


def test_string_fuses_come_with_the_third_string() -> None:
    two, three = (drawn(array={"columns": 4, "rows": n, "in_parallel": n, "slot_m": 0.0}, run={"size": "1/0 AWG"}) for n in (2, 3))  # fmt: skip
    assert two.of_kind("string fuses") == ()
    (fuse,) = three.of_kind("string fuses")
    # 14.0 A x 1.5625 = 21.9 A at least, 25 A on the label at most
    assert [(r.value, r.bound) for r in fuse.ratings[:2]] == [(pytest.approx(21.875), "at least"), (25.0, "at most")]  # fmt: skip
    joined = {wire.start: wire.circuits for wire in three.wires if wire.carries == "direct"}
    assert joined["strings"] == 3
    assert joined["string-fuses"] == joined["cord"] == 1


def test_what_guards_the_string_must_bear_its_coldest_dawn() -> None:
    data = drawn()
    cold = next(r.value for r in data.station("strings").ratings if r.bound == "reaches")
    for key in ("pole-switch", "pole-surge", "house-surge", "breaker", "cord", "frame-box"):
        bears = next(r for r in data.station(key).ratings if r.what == "bears")
        assert (bears.value, bears.bound) == (cold, "at least")


def test_what_nobody_told_is_asked_and_what_is_in_hand_is_said() -> None:
    bare, full = drawn(), drawn(in_hand=VARIANTS["all in hand"]["in_hand"])
    asked = {(s.key, r.what) for s in bare.stations for r in s.ratings if r.bound == "asked"}
    assert {("breaker", "breaks"), ("main-fuse", ""), ("main-fuse", "breaks"), ("battery-switch", "carries"), ("inverter", "its own fuse")} == asked  # fmt: skip
    assert full.station("pole-switch").ratings[0].value == 300.0
    assert full.station("pole-switch").ratings[0].bound == "is"
    # 8000 A into a dead short: the fuse must break at least that
    assert (full.station("main-fuse").ratings[1].value, full.station("main-fuse").ratings[1].bound) == (8000.0, "at least")  # fmt: skip


def test_the_earth_wire_of_the_file_counts_before_the_least_lawful() -> None:
    assert drawn().earth_size == "10 AWG"
    assert drawn(run={"earth_size": "6 AWG"}).earth_size == "6 AWG"


def test_old_arrays_on_the_new_controller_join_it() -> None:
    data = drawn(**VARIANTS["old array on the new controller"])
    ends = [data.after(old.key) for old in data.of_kind("old modules")]
    assert ends == ["controller-roof", "controller-pole", "controller-roof"]
    assert len(data.of_kind("controller")) == 2
