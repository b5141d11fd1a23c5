"""The wires' page: volts in volts, what belongs together, what is offered, and nothing kinder than it is."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path

import pytest

from polestead.answer.stands import layouts_in, wire_choices_of, wires_of
from polestead.answer.wires import Wires, wires_in
from polestead.answer.wires_run import run_choices_of
from polestead.base.check import Check
from polestead.base.problem import Wrong
from polestead.base.show import in_one_unit
from polestead.base.source import OWNER
from polestead.base.working import Step, Working
from polestead.cli.arguments import parser
from polestead.homestead.demos import demo_names, demo_path
from polestead.homestead.model import Homestead
from polestead.homestead.read import read_homestead
from polestead.sheets.data import wires_data
from polestead.sheets.sentences import figures_of
from polestead.sheets.text import strings_and_run, wires_lines
from polestead.sheets.wires.page import parts, wires_text
from polestead.sheets.workings import of_all_wires, printed
from tests.answers import wired


def homestead(name: str, **place: str) -> Homestead:
    file = read_homestead(demo_path(name)).homestead
    return file.model_copy(update={"place": file.place.model_copy(update=place)})


def wires(file: Homestead) -> Wires:
    """All the wires of a file, its hours of the year borrowed from one demo."""
    base = wired("slieve-moss")
    layouts, choices = layouts_in(file), wire_choices_of(file)
    return replace(
        base, name=file.name, wiring=wires_of(file), layouts=layouts, choices=choices,
        over_years=run_choices_of(file, base.over_years.year, choices.sizes, layouts.new),
    )  # fmt: skip


def one_line(text: str) -> str:
    return " ".join(text.split())


def changed(file: Homestead, **sections: dict[str, object]) -> Homestead:
    """A file with fields of its sections put in place of its own."""
    update = {
        name: getattr(file, name).model_copy(update=fields) for name, fields in sections.items()
    }
    return file.model_copy(update=update)


# --- every working that is offered is found


CASES = [
    *((name, {}) for name in demo_names()), ("hollow-spruce", {"electrical_code": "Canada"}), ("cinder-mesa", {"electrical_code": "IEC"}),
]  # fmt: skip


@pytest.mark.parametrize(("name", "place"), CASES)
def test_every_working_offered_anywhere_is_found(name, place):
    told = wires(homestead(name, **place))
    page = one_line(wires_text(told, "USD", "feet"))
    (footer,) = re.findall(r"--working ITEM shows how a figure was found: ([^.]*)\.", page)
    with pytest.raises(Wrong) as refused:
        printed(of_all_wires(told), "no such thing", "feet")
    parts = refused.value.problems[0].allowed.splitlines()
    named = [(part, rest) for part, _, rest in (line.partition(": ") for line in parts)]
    names = [f"{part}: {one}" for part, rest in named for one in rest.split("; ")]
    offered = [*footer.split(", "), *names]
    assert len(offered) > 40
    for words in offered:
        assert printed(of_all_wires(told), words, "feet")


def test_hydrogen_is_offered_where_there_is_gas_and_pull_where_there_is_a_pipe():
    spruce, mesa, moss = (
        one_line(wires_text(wires(homestead(name)), "USD", "feet")).rpartition("--working ITEM")[2]
        for name in ("hollow-spruce", "cinder-mesa", "slieve-moss")
    )
    assert "hydrogen" in spruce
    assert "hydrogen" not in mesa
    assert "pull" not in spruce
    assert "pull" in moss


def test_the_workings_of_help_and_readme_are_found():
    told = wires(homestead("hollow-spruce"))
    readme = (Path(__file__).parents[2] / "README.md").read_text("utf-8")
    (example,) = re.findall(r'--part strings, --working "([^"]+)"', readme)
    every = parser()
    commands = next(one for one in every._actions if one.choices and "wires" in one.choices)  # type: ignore[operator]
    help_of = one_line(commands.choices["wires"].format_help())  # type: ignore[index, call-overload]
    (named,) = re.findall(r"--working ITEM [^(]*\(([^)]+)\)", help_of)
    for words in (example, *(one for one in named.split(", ") if one != "...")):
        assert printed(of_all_wires(told), words, "feet")


# --- volts as volts, nothing kinder than it is


def test_a_string_over_its_controller_is_told_in_volts_everywhere():
    """Eight in one string on 250 V: 382 V (2 x 190.8 exactly 381.3 with 3 %)."""
    file = changed(homestead("hollow-spruce"), array={"in_series": 8, "in_parallel": 1})
    told = wires(file)
    for text in ("\n".join(wires_lines(told.wiring)), wires_text(told, "USD", "feet", "short"), wires_text(told, "USD", "feet", "strings")):  # fmt: skip
        assert "382 V on a 250 V controller" in one_line(text)
    assert not re.search(r"cold voltage[^:]*: gives: \d+ of 100", one_line(wires_text(told, "USD", "feet")))  # fmt: skip
    assert "382 V on a 250 V controller" in one_line(printed(of_all_wires(told), "cold voltage controller", "feet"))  # fmt: skip


def test_a_refused_layout_has_nothing_to_engrave():
    file = changed(homestead("hollow-spruce"), array={"in_series": 8, "in_parallel": 1})
    refused = "\n".join(parts(wires(file), "USD", "feet")["guards"])
    assert "HIGHEST VOLTAGE" not in refused
    assert "Nothing to engrave until this is mended: cold voltage against the controller" in one_line(refused)  # fmt: skip
    kept = "\n".join(parts(wires(homestead("hollow-spruce")), "USD", "feet")["guards"])
    assert "HIGHEST VOLTAGE 191 V DC" in kept


@pytest.mark.parametrize("name", demo_names())
def test_margins_are_never_told_larger_nor_demands_smaller_than_they_are(name):
    told = wires(homestead(name))
    text = "\n".join(parts(told, "USD", "feet")["strings"])
    rows = re.findall(r"^  [> ] (\d+) x (\d+)(?: f)? +(\d+) V\*? +(?:\d+ V|-) +([+-]\d+) of (\d+) V +([+-]\d+) V .* (\S+)$", text, re.M)  # fmt: skip
    every = (*told.layouts.new, *(one for old in told.layouts.old for one in old.layouts))
    assert len(rows) == len(every)
    for row, one in zip(rows, every, strict=True):
        assert (int(row[0]), row[6]) == (one.in_series, one.controller)
        assert one.cold_with_margin_v is not None
        assert one.margin_v is not None
        assert one.hot_margin_v is not None
        assert one.cold_with_margin_v - 1e-6 <= int(row[2]) < one.cold_with_margin_v + 1.0
        assert one.margin_v - 1.0 < int(row[3]) <= one.margin_v + 1e-6
        assert one.hot_margin_v - 1.0 < int(row[5]) <= one.hot_margin_v + 1e-6


# --- what stands together belongs together


def test_the_earth_wire_stands_beside_its_own_breaker():
    """A 100 A breaker in the file asks for 8 AWG (Table 250.122); the rule's 45 A for 10 AWG."""
    file = changed(homestead("hollow-spruce"), run={"breaker_a": 100.0})
    said = one_line("\n".join(strings_and_run(wires_of(file))))
    assert "Breaker 100 A in the file (45 A by the rule), earth wire 8 AWG" in said
    plain = one_line("\n".join(strings_and_run(wires_of(homestead("hollow-spruce")))))
    assert "Breaker 45 A, earth wire 10 AWG" in plain


def test_without_an_engine_nothing_speaks_of_one():
    file = changed(homestead("hollow-spruce"), household={"engine": None})
    told = wires(file)
    battery = one_line("\n".join(parts(told, "USD", "feet")["battery"]))
    assert "engine" not in battery
    assert "One bond" in battery
    assert told.wiring.bank is not None
    assert not told.wiring.bank.engine


def test_a_room_of_one_temperature_has_one_column():
    text = "\n".join(parts(wires(homestead("hollow-spruce")), "USD", "feet")["battery"])
    (head,) = (line for line in text.splitlines() if line.lstrip().startswith("a cell"))
    assert head.count("at 54 F") == 1
    cold = changed(homestead("hollow-spruce"), household={})
    shed = cold.household.model_copy(
        update={"battery": cold.household.battery.model_copy(update={"temperature_c": None})}
    )
    text = "\n".join(
        parts(wires(cold.model_copy(update={"household": shed})), "USD", "feet")["battery"]
    )
    (head,) = (line for line in text.splitlines() if line.lstrip().startswith("a cell"))
    assert "104 F" in head


@pytest.mark.parametrize("metres", [3000.0, 20.0])
@pytest.mark.parametrize("name", demo_names())
def test_no_line_leaves_the_page_however_long_the_run(name, metres):
    told = wires(changed(homestead(name), run={"length_m": metres}))
    for line in wires_text(told, "USD", "feet").splitlines():
        assert len(line) <= 78, line
    rows = [line for line in "\n".join(parts(told, "USD", "feet")["run"]).splitlines() if re.match(r"    \d", line)]  # fmt: skip
    assert rows
    for line in rows:  # figures that touch cannot be read
        assert not re.search(r"%\d|\dall|A\d+\.\d%", line), line


# --- terminals


def test_terminals_nobody_has_read_stand_open_with_the_size_both_ways():
    """At 60 C copper of 8 AWG carries 40 A, under the 43.75 A for hours; 6 AWG carries 55 A."""
    told = wires(homestead("hollow-spruce"))
    (ask,) = told.wiring.run_asks
    assert "not read: taken as 75 C" in ask
    assert (
        "4 AWG carries 70 A there against 43.8 A: enough for that current, and no breaker over 70 A"
        in ask
    )
    text = one_line("\n".join(parts(told, "USD", "feet")["run"]))
    assert "Thinnest lawful copper, by the terminals: 8 AWG if marked 75 C, else 6 AWG." in text
    assert "? Terminals of breaker" in text
    read = changed(homestead("hollow-spruce"), run={"terminals": "75 C"})
    again = wires(read)
    assert again.wiring.run_asks == ()
    assert "by the terminals" not in one_line("\n".join(parts(again, "USD", "feet")["run"]))
    assert len(told.wiring.open_asks) == len(again.wiring.open_asks) + 1


# --- codes


@pytest.mark.parametrize("code", ["Canada", "IEC"])
@pytest.mark.parametrize("name", demo_names())
def test_no_clause_of_the_nec_stands_under_another_code(name, code):
    told = wires(homestead(name, electrical_code=code))
    shown = [*parts(told, "USD", "feet")["strings"], *parts(told, "USD", "feet")["battery"]]
    bank = told.wiring.bank
    assert bank is not None
    sources = [str(one.source) for one in (*bank.guards, *bank.checks, *(c for lay in told.layouts.new for c in lay.checks if c.part == "string"))]  # fmt: skip
    workings = [*bank.workings, *(lay.fuse.working for lay in told.layouts.new), *(c.working for c in bank.checks), *(c.working for lay in told.layouts.new for c in lay.checks if c.part == "string")]  # fmt: skip
    sources += [str(step.source) for one in workings for step in one.steps]
    for line in (*shown, *sources):
        own = re.sub(r"borrowed from NEC Table 310\.16", "", one_line(line))
        assert not re.search(r"\bNEC\b|\b690\.|\b240\.|\b250\.|\b110\.", own), line
        if code == "Canada":
            assert "IEC 60364" not in line
        else:
            assert "CSA" not in line


# --- what was not looked at, and what stands open


def test_a_file_without_the_drive_s_supply_says_so_in_its_verdict_and_in_json(tmp_path):
    text = demo_path("slieve-moss").read_text("utf-8")
    start = text.index("[drive.supply]")
    bare = tmp_path / "bare.toml"
    bare.write_text(text[:start] + text[text.index("\n[", start) :], "utf-8")
    told = wires_in(read_homestead(bare))
    words = (
        "The file gives no [drive.supply]: the drive's wire, fuse and battery are not looked at."
    )
    assert words in one_line(wires_text(told, "EUR", "metric", "short"))
    assert wires_data(told)["not_looked_at"] == [words]
    whole = wired("slieve-moss")
    assert whole.not_looked_at == ()
    assert "[drive.supply]" not in one_line(wires_text(whole, "EUR", "metric", "short"))


def test_what_stands_open_counts_trench_and_drive():
    told = wired("hollow-spruce")
    assert told.tilt_drive is not None
    own = [one for one in told.open_asks if one.startswith("propane to the kitchen")]
    assert own == ["propane to the kitchen: How far is it from two things that stay? Tape it before it is covered."]  # fmt: skip
    assert any("drive.supply.fuse" in one for one in told.open_asks)
    assert set(told.tilt_drive.asks) <= set(told.open_asks)
    page = one_line(wires_text(told, "USD", "feet"))
    assert f"{len(told.open_asks)} ratings, labels, rules and own lines stand open" in page
    for ask in told.open_asks:  # each is written out further down
        assert one_line(in_one_unit(ask, "feet")).rpartition(": ")[2] in page
    none = wires_of(homestead("hollow-spruce").model_copy(update={"buried": ()}))
    assert any("buried" in one for one in none.open_asks)


def test_forces_and_charges_are_told_in_the_file_s_units():
    """A pull of 4448 N against 2224 N is 1000 lbf against 500."""
    working = Working("x", (Step("x", "", "", 1.0, "N", OWNER),))
    pull = Check("conduit", "pull on the wires", 4448.2, 2224.2, "N", 2.0, OWNER, working)
    assert figures_of(pull, "feet") == "gives: 1000 lbf against 500 lbf, 200 of 100"
    side = Check("conduit", "side pressure in a sweep", 4377.0, 1000.0, "N/m", 4.4, OWNER, working)
    assert "gives: 300 lbf/ft against 68 lbf/ft" in figures_of(side, "feet")
    low = Check("battery", "lowest charge", 0.5, 0.201, "", 2.49, OWNER, working)
    assert figures_of(low, "feet") == "gives: reaches 20 % against least 50 %"
    missed = Check("battery", "moves missed", 730.0, 0.0, "", float("inf"), OWNER, working)
    assert figures_of(missed, "feet") == "gives: 730, none may be"
    near = Check("battery", "clear of freezing", 5.0, 2.0, "K", 2.5, OWNER, working)
    assert figures_of(near, "feet") == "gives: 3.60 F over freezing, 9.00 F wanted"
