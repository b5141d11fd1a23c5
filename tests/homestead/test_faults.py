"""Faults of a file are told, all of them, in the owner's words."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from polestead.base.problem import Problem, Wrong
from polestead.homestead.demos import demo_names, demo_path
from polestead.homestead.read import check_text, read_homestead

TEXT = demo_path("hollow-spruce").read_text(encoding="utf-8")

# what stands in the demo, what is planted, the section and key it must be told of
PLANTED = (
    ('units = "feet"', 'units = "imperial"', "", "units"),
    ('latitude = "47.9 deg"', 'latitude = "147.9 deg"', "place", "latitude"),
    ('said = "107 mph"', 'said = "107 mhp"', "place", "wind_speed"),
    ('record_low = { said = "-47 F", asked_of = "the weather office", on = 2026-05-06 }', "", "place", "record_low"),
    ('soil = "sandy gravel or gravel"', 'soil = "chalk"', "place", "soil"),
    ("snow_on_ground = [11,", "snow_on_ground = [13,", "climate", "snow_on_ground"),
    ('well_pump = "900 W, 40 min in the morning"', 'well_pump = "40 min"', "household.uses", "well_pump"),
    ('fuel = "propane"', 'fuel = "wood"', "household.engine", "fuel"),
    ('call_at = "55 %"', 'call_at = "95 %"', "household.engine", "let_go_at"),
    ('nominal = "48 V"', 'nominal = "48 V"\ncells = 16', "household.battery", "cells"),
    ('nominal = "48 V"', 'nominal = "48 V"\nnever_equalized = true\nequalize_every_days = 60.0', "household.battery", "never_equalized"),
    ('set_current = "68 A"', 'set_current = "90 A"', "household.controller.2", "set_current"),
    ("columns = 4", "columns = 5", "array", "in_parallel"),
    ('lie = "portrait"', 'lie = "sideways"', "array", "lie"),
    ('controller = "pole"\n\n[array.module]', 'controller = "pol"\n\n[array.module]', "array", "controller"),
    ('mass = "48 lb"', 'mass = "-48 lb"', "array.module", "mass"),
    ('hinge_height = "11 ft"', "hinge_height = 11", "mount", "hinge_height"),
    ('pole = "8 in schedule 80 A53 B"', 'pole = "8 in schedule 80 tin"', "mount", "pole"),
    ('stroke = "36 in"', 'stroke = "36 lb"', "drive", "stroke"),
    ("twist_bars = true", 'twist_bars = "yes"', "footing", "twist_bars"),
    ("[run]\nlength", "[run]\nlenght", "run", "lenght"),
    ('size = "4 AWG"', 'size = "5 AWG"', "run", "size"),
    ('strut_length = "5 ft"\n', "", "lock", "strut_length"),
    ('strut_length = "6 ft"\n', "", "prop", "strut_length"),
    ("depth = \"9 ft 6 in\"", 'depth = { planned = "9 feet 6", built = "9 ft 6 in", on = 2026-05-04 }', "footing", "depth"),
    ('cover = "24 in"', 'cover = { built = "24 in", on = 2026-05-04T10:00:00 }', "run", "cover"),
    ("engine_hour = 0.9", 'engine_hour = "0.9"', "prices", "engine_hour"),
    ('"8 AWG copper" = ', '"8 AWG brass" = ', "prices.wire", "8 AWG brass"),
    ('"6 AWG copper" = ', '"7 AWG copper" = ', "prices.wire", "7 AWG copper"),
    ('"2 AWG copper" = ', '"4 awg copper" = ', "prices.wire", "4 awg copper"),
    ('"4 AWG aluminium" = ', '"14 AWG aluminum" = ', "prices.wire", "14 AWG aluminum"),
    ("modules = 1180.0", 'modules = "1180 USD"', "prices.lines", "modules"),
)  # fmt: skip


def test_fifteen_lithium_cells_of_48_v_are_taken_and_a_short_circuit_in_kiloamperes() -> None:
    lithium = TEXT.replace('kind = "flooded lead-acid"', 'kind = "lithium iron phosphate"')
    told = lithium.replace('nominal = "48 V"', 'nominal = "48 V"\ncells = 15\nshort_circuit = "14.8 kA"\nmain_fuse_breaks = "20 kA"')  # fmt: skip
    battery = check_text(told)[0].household.battery
    assert battery.in_series == 15
    assert (battery.short_circuit_a, battery.main_fuse_breaks_a) == (14800.0, 20000.0)


def problems_of(text: str) -> tuple[Problem, ...]:
    with pytest.raises(Wrong) as told:
        check_text(text)
    return told.value.problems


@pytest.mark.parametrize(
    ("stands", "planted", "section", "key"), PLANTED, ids=lambda value: str(value)[:24]
)
def test_each_planted_fault_is_told_at_its_place(
    stands: str, planted: str, section: str, key: str
) -> None:
    assert TEXT.count(stands) == 1
    problems = problems_of(TEXT.replace(stands, planted))
    assert (section, key) in {(problem.section, problem.key) for problem in problems}


def test_all_planted_faults_are_told_at_once() -> None:
    text = TEXT
    for stands, planted, _, _ in PLANTED:
        text = text.replace(stands, planted)
    told = {(problem.section, problem.key) for problem in problems_of(text)}
    assert [(section, key) for *_, section, key in PLANTED if (section, key) not in told] == []


def test_every_problem_says_what_was_given_what_is_allowed_and_what_to_do() -> None:
    text = TEXT
    for stands, planted, _, _ in PLANTED:
        text = text.replace(stands, planted)
    for problem in problems_of(text):
        assert problem.given
        assert problem.allowed
        assert problem.do.endswith((".", "?"))
        assert not any(
            word in str(problem) for word in ("Input should", "pydantic", "type=", "Value error")
        )


def replaced(stands: str, planted: str) -> str:
    assert TEXT.count(stands) == 1
    return TEXT.replace(stands, planted)


HINGE = 'hinge_height = "11 ft"'


@pytest.mark.parametrize(
    ("written", "words"),
    [
        ("true", "in quotes"),
        ('["11 ft"]', "in quotes"),
        ("2026-05-04", "in quotes"),
        ("nan", "no number"),
        ("inf", "no number"),
        ('"' + "9" * 400 + '/1 in"', "too long"),
        ('"+-11 ft"', "cannot be read"),
        ('{ built = { built = "11 ft" } }', "in quotes"),
        ('{ planned = "11 fx", built = "11 ft" }', "no unit known"),
        ('{ built = "11 ft", assumed = 11, why = "x" }', "did you mean"),
        ('{ built = "11 ft", on = 0206-06-01 }', "Check the year"),
        ('{ built = "11 ft", on = 2026-06-01T10:00:00 }', "without a time"),
        ('{ said = "11 ft", asked_of = 3 }', "text in quotes"),
        ('"13 m"', "Check the number"),
    ],
)
def test_whatever_stands_in_place_of_a_quantity_there_is_one_answer(
    written: str, words: str
) -> None:
    (problem,) = problems_of(replaced(HINGE, f"hinge_height = {written}"))
    assert (problem.section, problem.key) == ("mount", "hinge_height")
    assert words in problem.do
    assert len(problem.given) <= 75


def test_a_limit_is_told_in_metres_and_in_feet() -> None:
    (problem,) = problems_of(replaced(HINGE, 'hinge_height = "50 ft"'))
    assert "12 m (39.4 ft)" in problem.allowed
    (problem,) = problems_of(replaced('pole_depth = "8 ft 6 in"', 'pole_depth = "10 ft"'))
    assert "2.896 m (9.50 ft)" in problem.allowed
    assert "3.048 m (10.0 ft)" in problem.given


def test_a_share_without_its_sign_is_offered_both_ways() -> None:
    (problem,) = problems_of(replaced('call_at = "55 %"', "call_at = 0.55"))
    assert "0.55 % or 55 %" in problem.do


def test_a_strut_whose_length_is_not_written_is_not_passed_over() -> None:
    (problem,) = problems_of(replaced('strut_length = "5 ft"\n', ""))
    assert (problem.section, problem.key) == ("lock", "strut_length")


def test_clay_cannot_be_told_to_be_free_of_frost() -> None:
    clay = replaced('soil = "sandy gravel or gravel"', 'soil = "clay or silt"')
    (problem,) = problems_of(clay)
    assert (problem.section, problem.key) == ("place", "frost_soil")
    check_text(
        clay.replace('assumed = "drained, not frost-susceptible"', 'assumed = "silt or clay"')
    )


def test_a_key_in_the_wrong_section_is_told_where_it_belongs() -> None:
    (problem,) = problems_of(replaced("[footing]\n", '[footing]\nhinge_span = "20 in"\n'))
    assert "[mount]" in problem.do


def test_one_old_array_in_single_brackets_is_read_and_the_brackets_are_told() -> None:
    text = replaced("[[household.old_array]]", "[household.old_array]")
    (problem,) = problems_of(text)
    assert "[[household.old_array]]" in problem.do
    assert len(problems_of(text.replace('\ntilt = "25 deg"', '\ntilt = "125 deg"'))) == 2


def test_a_slip_of_ours_in_a_look_is_not_taken_for_a_value_that_could_not_be_read(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    from polestead.homestead import consistency

    monkeypatch.setattr(consistency, "LOOKS", (lambda h: iter([h.mount.no_such_field]),))
    with pytest.raises(AttributeError):
        check_text(TEXT)


def test_a_bare_number_is_refused_with_the_units_it_could_have_meant() -> None:
    (problem,) = problems_of(TEXT.replace('hinge_height = "11 ft"', "hinge_height = 11"))
    assert "11 ft" in problem.do
    assert "11 m" in problem.do


def test_a_slip_of_the_pen_is_answered_with_the_nearest_key() -> None:
    told = [
        problem
        for problem in problems_of(TEXT.replace("[run]\nlength", "[run]\nlenght"))
        if problem.key == "lenght"
    ]
    assert told[0].do == "Did you mean length?"


def test_a_fact_of_the_place_that_is_missing_names_whom_to_ask() -> None:
    line = 'record_low = { said = "-47 F", asked_of = "the weather office", on = 2026-05-06 }'
    (problem,) = problems_of(TEXT.replace(line, ""))
    assert "weather office" in problem.do
    assert "assumed" in problem.do


@pytest.mark.parametrize(
    ("table", "word"),
    [
        ('{ said = "107 mph" }', "asked_of"),
        ('{ assumed = "107 mph" }', "why"),
        ("{ }", "without a value"),
        ('{ built = "107 mph", by = "me" }', "by"),
        ('{ built = "107 mph", on = "May" }', "on"),
    ],
)
def test_a_value_table_says_what_it_lacks(table: str, word: str) -> None:
    line = 'wind_speed = { said = "107 mph", asked_of = "county building office", on = 2026-05-04 }'
    problems = problems_of(TEXT.replace(line, f"wind_speed = {table}"))
    assert any(
        word in f"{problem.given} {problem.do}"
        for problem in problems
        if problem.key == "wind_speed"
    )


@pytest.mark.parametrize(
    ("text", "word"),
    [
        ("a = 1\na = 2", "TOML"),
        ("[mount\n", "TOML"),
        ("format = 2", "newer"),
        ("format = 0", "no older"),
        ('format = "1"', "without quotes"),
        ("[household]\nuses = 3\ncontroller = 3", "section"),
        ("place = 3\nhousehold = [1]\narray = 'x'", "section"),
        ("[[place]]\nlatitude = 1", "section"),
        ("[[household.old_array]]\nname = 1", "text"),
        ("format = 1.0", "whole number"),
        ("format = true", "whole number"),
        ("a = " + "[" * 5000 + "]" * 5000, "without end"),
        ("a = " + "9" * 5000, "thousands of digits"),
    ],
)
def test_a_file_of_quite_another_shape_is_answered_in_words(text: str, word: str) -> None:
    assert any(word in str(problem) for problem in problems_of(text))


@given(st.text(max_size=200))
def test_no_text_whatever_brings_anything_but_problems(text: str) -> None:
    assert problems_of(text)


@given(
    st.dictionaries(
        st.sampled_from(
            [
                "place",
                "mount",
                "household",
                "array",
                "climate",
                "view",
                "run",
                "prices",
                "format",
                "x",
            ]
        ),
        st.recursive(
            st.one_of(st.integers(), st.floats(), st.text(max_size=5), st.booleans(), st.dates()),
            lambda inner: (
                st.lists(inner, max_size=3)
                | st.dictionaries(
                    st.sampled_from(["uses", "engine", "pole", "said", "latitude", "skyline", "y"]),
                    inner,
                    max_size=3,
                )
            ),
            max_leaves=6,
        ),
        max_size=6,
    )
)
def test_no_shape_whatever_brings_anything_but_problems(shape: dict[str, object]) -> None:
    import tomlkit

    assert problems_of(tomlkit.dumps(shape))


def test_an_array_that_looks_away_from_the_sun_is_told() -> None:
    mount = '[mount]\nfacing = "180 deg"'
    (problem,) = problems_of(TEXT.replace(mount, mount.replace("180", "20")))
    assert (problem.section, problem.key) == ("mount", "facing")


@pytest.mark.parametrize(
    ("lines", "word"),
    [
        ('source = "months"\nsun_kwh_m2_day = [1.0, 2.0]', "2 numbers"),
        ("sun_kwh_m2_day = [1, 2, 3, 4, 5, 6, 6, 5, 4, 3, 2, 1]", 'source = "months"'),
        ('source = "months"\nsun_kwh_m2_day = [31, 2, 3, 4, 5, 6, 6, 5, 4, 3, 2, 1]', "for a day"),
        (
            'source = "months"\nsun_kwh_m2_day = [1, 2, 3, 4, 5, 6, 6, 5, 4, 3, 2, 1]\nair_by_month = ["1 C"]',
            "1 temperatures",
        ),
        ('file = "x.epw"', 'source = "file"'),
        ('source = "file"', "name of an EPW"),
    ],
)
def test_a_climate_that_contradicts_itself_is_told(lines: str, word: str) -> None:
    problems = problems_of(TEXT.replace("[climate]\n", f"[climate]\n{lines}\n"))
    assert any(word in f"{problem.given} {problem.allowed} {problem.do}" for problem in problems)


@pytest.mark.parametrize("soil", ["peat", "fill", "crystalline bedrock", "slope"])
def test_ground_that_needs_an_engineer_gets_no_number(soil: str) -> None:
    (problem,) = problems_of(TEXT.replace('soil = "sandy gravel or gravel"', f'soil = "{soil}"'))
    assert "engineer" in problem.do


def test_what_is_no_file_is_told(tmp_path: object) -> None:
    from pathlib import Path

    folder = Path(str(tmp_path))
    (folder / "binary.toml").write_bytes(b"\xff\xfe\x00\x01")
    (folder / "empty.toml").write_text("  \n")
    (folder / "huge.toml").write_bytes(b"#" * 1_000_001)
    for name, word in (
        ("binary", "UTF-8"),
        ("empty", "empty"),
        ("huge", "bytes"),
        ("none", "does not exist"),
    ):
        with pytest.raises(Wrong, match=word):
            read_homestead(folder / f"{name}.toml")
    with pytest.raises(Wrong, match="folder"):
        read_homestead(folder)
    with pytest.raises(Wrong, match="no file"):
        read_homestead(Path("/dev/null"))
    for name in ("x" * 300, "a\0b", "empty.toml/inside"):
        with pytest.raises(Wrong, match=r"cannot be opened"):
            read_homestead(folder / name)


@pytest.mark.parametrize("name", demo_names())
def test_every_demo_reads_without_a_problem(name: str) -> None:
    file = read_homestead(demo_path(name))
    assert len(file.rows) > 100
    assert {row.standing for row in file.rows} >= {"planned", "said", "default"}


def test_an_unknown_demo_names_those_there_are() -> None:
    with pytest.raises(Wrong, match="cinder-mesa"):
        demo_path("nowhere")


@pytest.mark.parametrize("soil", ["fill", "peat or mud", "rock"])
def test_ground_that_has_no_number_is_sent_to_an_engineer_and_says_why(soil: str) -> None:
    (problem,) = problems_of(TEXT.replace('soil = "sandy gravel or gravel"', f'soil = "{soil}"'))
    assert (problem.section, problem.key) == ("place", "soil")
    assert "engineer" in problem.do
    assert soil in problem.do


@pytest.mark.parametrize(
    ("planted", "key"),
    [
        ('wind_basis = "EN 1991-1-4"', "exposure"),  # its exposure is still written C
        ('ground_slope = "14 deg"', "ground_slope"),
    ],
)
def test_words_of_another_code_and_steep_ground_are_told(planted: str, key: str) -> None:
    problems = problems_of(TEXT.replace("[climate]", f"{planted}\n\n[climate]", 1).replace('wind_basis = "ASCE 7-16"\n', "" if "basis" in planted else 'wind_basis = "ASCE 7-16"\n'))  # fmt: skip
    assert ("place", key) in {(problem.section, problem.key) for problem in problems}


def test_half_of_a_pair_is_told_in_words() -> None:
    bounds = '[drive.bounds]\npin_along = ["2 ft 6 in"]\npin_below = ["0 in", "6 in"]\nbracket_out = ["1 ft", "2 ft"]\nbracket_below = ["3 ft", "5 ft"]\n\n[lock]'  # fmt: skip
    (problem,) = problems_of(TEXT.replace("[lock]", bounds, 1))
    assert problem.section == "drive.bounds.pin_along"
    assert "one more" in problem.do


@pytest.mark.parametrize(
    ("stands", "planted", "key", "words"),
    [
        ("in_series = 3\nin_parallel = 2\n\n[h", "in_parallel = 2\n\n[h", "in_series", "Count the modules"),
        ("in_series = 3\nin_parallel = 2\n\n[h", "\n[h", "in_parallel", "Count the modules"),
        ('power = "1.6 kW"\ntilt', 'power = "3.2 kW"\ntilt', "power", "6 modules x 30.8 V x 8.6 A"),
        ('power = "1.6 kW"\ntilt', 'power = "1.2 kW"\ntilt', "power", "about 1589 W"),
        ('working_voltage = "30.8 V"', 'working_voltage = "38.0 V"', "working_voltage", "under the open-circuit voltage (37.9 V)"),
        ('working_current = "8.6 A"', 'working_current = "9.4 A"', "working_current", "under the short-circuit current (9.2 A)"),
    ],
)  # fmt: skip
def test_an_old_array_that_does_not_add_up_is_told(stands, planted, key, words) -> None:
    assert TEXT.count(stands) == 1
    told = [one for one in problems_of(TEXT.replace(stands, planted)) if one.key == key]
    assert any("household.old_array.1" in one.section and words in str(one) for one in told)


def test_strings_of_an_old_array_without_its_label_are_told() -> None:
    start, end = TEXT.index("[household.old_array.module]"), TEXT.index("[household.last_winter]")
    problems = problems_of(TEXT[:start] + TEXT[end:])
    assert {one.key for one in problems} == {"in_series", "in_parallel"}
    assert all("old_array.module" in one.allowed for one in problems)


@pytest.mark.parametrize("power", ["1.3 kW", "1.6 kW", "1.95 kW"])
def test_a_rating_said_from_memory_is_let_stand(power: str) -> None:
    check_text(TEXT.replace('power = "1.6 kW"\ntilt', f'power = "{power}"\ntilt'))


def test_fuel_has_a_price_where_there_is_an_engine_and_only_there() -> None:
    text = demo_path("hollow-spruce").read_text("utf-8")
    bare = "\n".join(line for line in text.splitlines() if not line.startswith('fuel = "2.15'))
    assert bare != text
    (problem,) = problems_of(bare)
    assert (problem.section, problem.key) == ("prices", "fuel")
    start = bare.index("[household.engine]")
    end = bare.index("\n[", start)
    without, _ = check_text(bare[:start] + bare[end:])
    assert without.household.engine is None
    assert without.prices.fuel_per_l == 0.0
