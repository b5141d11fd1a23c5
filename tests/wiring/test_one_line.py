"""The one-line as data: it hangs together, whatever the homestead has."""

from __future__ import annotations

import pytest

from polestead.answer.stands import wires_of
from polestead.homestead.demos import demo_names, demo_path
from polestead.homestead.model import Homestead
from polestead.homestead.read import read_homestead
from polestead.sheets.ratings import guard_figures, rating_words
from polestead.wiring.drawn.one_line import DRAWN, NO_THING, Bond, OneLine, one_line_of
from polestead.wiring.result import WiringResult


def changed(demo: str = "hollow-spruce", **change) -> Homestead:
    """A demo; ``place``, ``array``, ``household``, ``run`` replace fields of those sections."""
    h = read_homestead(demo_path(demo)).homestead
    return h.model_copy(update={name: getattr(h, name).model_copy(update=new) for name, new in change.items()})  # fmt: skip


def wired(h: Homestead) -> WiringResult:
    return wires_of(h)


KEPT: dict[str, OneLine] = {}


def drawn(demo: str = "hollow-spruce", bond: Bond = "house", **change) -> OneLine:
    """The one-line of a demo, changed; worked once a session."""
    name = f"{demo} {bond} {change}"
    if name not in KEPT:
        if "house" in change:
            change["household"] = change.pop("house")
        h = changed(demo, **change)
        KEPT[name] = one_line_of(h.household, h.array, h.run, wired(h), h.place.wired_by, bond)
    return KEPT[name]


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
    "bond at the engine": {"bond": "engine"},
    "bond at the inverter": {"bond": "inverter"},
    "labels told": {"run": {"breaker_bears_v": 500.0, "breaker_breaks_a": 20000.0, "breaker_a": 50.0}},
    "nothing in the house": {"run": {"in_house_m": 0.0}},
    "metal pipe": {"run": {"method": "metal conduit", "cover_m": 0.5}},
    "a low hinge": {"mount": {"hinge_height_m": 2.4}},
    "Canada": {"place": {"electrical_code": "Canada"}},
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
    order = ["strings", "frame box", "cord", "hinge box", "pole switch", "run", "house switch", "run breaker", "controller breaker", "bus", "battery switch", "main fuse", "battery"]  # fmt: skip
    assert [key for key in keys if key in order] == order
    assert keys[0] == "strings"


@pytest.mark.parametrize("name", VARIANTS)
def test_every_wire_ends_at_a_station_and_all_hangs_together(name: str) -> None:
    data = drawn(**VARIANTS[name])
    keys = [station.key for station in data.stations]
    assert len(keys) == len(set(keys))
    assert {w.start for w in data.wires} | {w.end for w in data.wires} <= set(keys)
    assert {"battery", "inverter"} <= followed(data, "strings", "direct")
    assert {"earth-bar", "electrode", "house-electrode"} <= followed(data, "strings", "earth")
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
    data = drawn(bond="engine", house={"engine": None})
    assert data.neutral_bond_at == "house"


def test_string_fuses_come_with_the_third_string_and_sit_where_the_strings_join() -> None:
    two, three = (drawn(array={"columns": 4, "rows": n, "in_parallel": n, "slot_m": 0.0}, run={"size": "1/0 AWG"}) for n in (2, 3))  # fmt: skip
    assert two.of_kind("string fuses") == ()
    (fuse,) = three.of_kind("string fuses")
    # 14.0 A x 1.5625 = 21.9 A: 25 A, which the label bears
    assert [r.value for r in fuse.ratings if r.what == ""] == [25.0]
    assert "frame" in fuse.note
    keys = [station.key for station in three.stations]
    assert keys.index("string fuse") < keys.index("cord") < keys.index("pole switch")
    joined = {wire.start: wire.circuits for wire in three.wires if wire.carries == "direct"}
    assert joined["strings"] == 3
    assert joined["string fuse"] == joined["cord"] == 1


def test_what_guards_the_string_must_bear_its_coldest_dawn() -> None:
    data = drawn()
    cold = next(r.value for r in data.station("strings").ratings if r.bound == "reaches")
    for key in ("frame box", "cord", "hinge box", "pole switch", "surge at the pole", "wall box", "surge at the house", "house switch", "run breaker"):  # fmt: skip
        bears = next(r for r in data.station(key).ratings if r.what == "bears")
        assert (bears.value, bears.bound) == (cold, "at least")


EVERYWHERE = [(demo, name) for demo in demo_names() for name in ("as it is", "Canada", "IEC", "nothing in the house", "a low hinge")]  # fmt: skip


@pytest.mark.parametrize(("demo", "name"), [*EVERYWHERE, ("hollow-spruce", "twelve strings")])
def test_list_and_drawing_tell_the_same_guards_with_the_same_ratings(demo: str, name: str) -> None:
    """Each thing of the list once on the drawing, and nothing on the drawing that guards and is not in the list."""
    change = {"as it is": {}, "IEC": {"place": {"electrical_code": "IEC"}}, **VARIANTS}[name]
    h = changed(demo, **change)
    wires = wired(h)
    assert wires.bank is not None
    data = one_line_of(h.household, h.array, h.run, wires, h.place.wired_by)
    listed = {g.key: guard_figures(g, "feet") for g in (*wires.guards.guards, *wires.bank.guards)}
    on_it = [station for station in data.stations if station.guards]
    assert sorted(station.key for station in on_it) == sorted(set(listed) - set(NO_THING))
    for station in on_it:
        assert tuple(rating_words(r, "feet") for r in station.ratings) == listed[station.key]
    guarding = {kind for kind, _ in DRAWN.values()}
    there_already = {f"breaker-{one.name}" for one in h.household.controller} | {"house-electrode"}
    assert {s.key for s in data.stations if s.kind in guarding} - there_already == {s.key for s in on_it}  # fmt: skip


def test_the_ratings_by_hand() -> None:
    """35 A of 1.25 Isc at both switches, 45 A the breaker, 14,800 A of the bank to break, 175 A the main fuse by rule."""
    data = drawn()

    def told(key: str) -> list[str]:
        return [rating_words(r, "feet").replace("\u00a0", " ") for r in data.station(key).ratings]

    assert told("pole switch") == told("house switch") == ["≥ 191 V DC", "≥ 35 A"]
    assert told("run breaker") == ["≥ 191 V DC", "45 A", "breaks ≥ 14,800 A"]
    assert told("main fuse")[1:] == ["175 A", "breaks ≥ 14,800 A"]
    asked = {(s.key, r.what) for s in data.stations for r in s.ratings if r.bound == "asked"}
    assert asked == {("inverter", "its own fuse")}


def test_what_the_file_gives_of_a_label_stands_beside_what_is_wanted() -> None:
    told = drawn(**VARIANTS["labels told"]).station("run breaker")
    assert told.note == "in the file: 500 V DC, 20000 A it breaks"
    assert [r.value for r in told.ratings][1] == 50.0
    assert drawn().station("run breaker").note == ""


def test_the_change_over_box_stands_on_the_wall_where_the_rule_asks_for_it() -> None:
    keys = {name: {s.key for s in drawn(**VARIANTS[name]).stations} for name in ("Canada", "nothing in the house", "metal pipe")}  # fmt: skip
    assert "wall box" in {s.key for s in drawn().stations}
    assert [name for name, there in keys.items() if "wall box" in there] == ["Canada"]
    assert drawn().station("wall box").where == "wall"


def test_a_low_hinge_has_one_box_with_the_switch_in_it() -> None:
    low = drawn(**VARIANTS["a low hinge"])
    assert "hinge box" not in {s.key for s in low.stations}
    assert low.after("cord") == "pole switch"
    assert low.after("cord", "earth") == "pole switch"


def test_the_earth_wire_over_the_hinge_is_the_cord_s_own() -> None:
    h = changed()
    wires = wired(h)
    assert wires.cord is not None
    (over,) = [w for w in drawn().wires if w.start == "cord" and w.carries == "earth"]
    assert over.size == wires.cord.cord.size == "6 AWG"
    (pipe,) = [w for w in drawn().wires if w.start == "hinge box" and w.carries == "direct"]
    assert (pipe.size, pipe.length_m) == ("4 AWG", wires.cord.boxes.pipe_m)


def test_engine_and_inverter_meet_in_the_transfer_switch() -> None:
    data = drawn()
    into = {w.start for w in data.wires if w.end == "transfer switch"}
    assert into == {"inverter", "engine"}
    assert data.after("transfer switch", "alternating") == "house"
    assert drawn(house={"engine": None}).after("inverter", "alternating") == "house"


def test_the_earth_wire_of_the_file_counts_before_the_least_lawful() -> None:
    assert drawn().earth_size == "10 AWG"
    assert drawn(run={"earth_size": "6 AWG"}).earth_size == "6 AWG"


def test_old_arrays_on_the_new_controller_join_it() -> None:
    data = drawn(**VARIANTS["old array on the new controller"])
    ends = [data.after(old.key) for old in data.of_kind("old modules")]
    assert ends == ["controller-roof", "controller-pole", "controller-roof"]
    assert len(data.of_kind("controller")) == 2
