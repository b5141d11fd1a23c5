"""The terminal: words, exit codes, and that nothing but sentences reaches the owner (conventions §17)."""

from __future__ import annotations

import json
import os
import shlex
import subprocess
import sys
from pathlib import Path

import pytest

from polestead.cli import main
from polestead.cli.put import tried
from polestead.homestead.demos import demo_names, demo_path
from polestead.sheets.workings import of_answer, printed
from tests.answers import wired, worked

TEXT = demo_path("hollow-spruce").read_text(encoding="utf-8")
COMMAND = [sys.executable, "-c", "import sys; from polestead.cli import main; sys.exit(main())"]


def run(*words: str, **more: object) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [*COMMAND, *words], capture_output=True, text=True, check=False, timeout=120, **more
    )  # type: ignore[call-overload,no-any-return]


def changed(folder: Path, *changes: tuple[str, str]) -> Path:
    text = TEXT
    for old, new in changes:
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    path = folder / "home.toml"
    path.write_text(text, encoding="utf-8")
    return path


def test_the_answer_of_a_demo_is_printed_written_and_ends_with_nothing_wrong(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    paths = tmp_path / "new folder" / "a.json", tmp_path / "b.pdf"
    assert (
        main(
            [
                "answer",
                "hollow-spruce",
                "--years",
                "10",
                "--json",
                str(paths[0]),
                "--pdf",
                str(paths[1]),
            ]
        )
        == 0
    )
    out = capsys.readouterr().out
    for question in ("Does it stand?", "Does it carry us through winter?", "What does it cost?"):
        assert question in out
    assert json.loads(paths[0].read_text())["format"] == 1
    assert paths[1].read_bytes().startswith(b"%PDF")
    assert sorted(file.name for file in paths[0].parent.iterdir()) == ["a.json"]


def test_units_are_the_files_own_or_those_asked_for(capsys: pytest.CaptureFixture[str]) -> None:
    main(["gusts", "hollow-spruce"])
    assert "mph" in capsys.readouterr().out
    main(["gusts", "hollow-spruce", "--units", "metric"])
    out = capsys.readouterr().out
    assert "m/s" in out
    assert "mph" not in out


def test_wires_tells_every_layout_and_size_and_writes_them_as_data(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "wires.json"
    assert main(["wires", "hollow-spruce", "--json", str(path)]) == 0
    out = capsys.readouterr().out
    assert "8 x 1" in out
    assert "NO: cold voltage against the controller's limit: 382 V on a 250 V" in out
    assert "Every way to string the old array roof" in out
    assert "thinnest lawful" in out
    assert "Into the battery at once" in out
    data = json.loads(path.read_text())
    assert {one["in_series"] for one in data["layouts"]["new"]} == {1, 2, 4, 8}
    assert "caution" in data
    assert all(len(line) < 80 for line in out.splitlines())


def test_wires_prints_a_working_or_names_those_there_are(
    capsys: pytest.CaptureFixture[str],
) -> None:
    assert main(["wires", "hollow-spruce", "--working", "cold controller"]) == 0
    assert "690.7(A)" in capsys.readouterr().out
    assert main(["wires", "hollow-spruce", "--working", "roof fuse"]) == 0
    assert "fuse of a string: roof, 3 x 2 on roof" in capsys.readouterr().out
    assert main(["wires", "hollow-spruce", "--working", "chimney"]) == 2
    assert "drop in the run" in capsys.readouterr().err


@pytest.mark.parametrize("name", demo_names())
def test_build_lists_cuts_pours_and_lifts(
    name: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "build.json"
    for units in ("feet", "metric"):
        assert main(["build", name, "--units", units, "--json", str(path)]) == 0
        out = capsys.readouterr().out
        for part in ("Cut list", "none better", "from the LEVEL", "Which slump", "Hanging the modules"):  # fmt: skip
            assert part in out
        assert all(len(line) < 80 for line in out.splitlines())
    data = json.loads(path.read_text())
    assert data["build"]["hanging"]["proved"] is True
    assert "caution" in data


def test_build_prints_a_working_or_names_those_there_are(
    capsys: pytest.CaptureFixture[str],
) -> None:
    assert main(["build", "hollow-spruce", "--working", "braces"]) == 0
    assert "cos(45)" in capsys.readouterr().out
    assert main(["build", "hollow-spruce", "--working", "chimney"]) == 2
    assert "concrete" in capsys.readouterr().err


def test_a_hold_too_weak_to_hang_modules_on_ends_with_one(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    lock = '[lock]\narm = "{}"\npin_diameter = "{}"'
    path = changed(tmp_path, (lock.format("3 ft", "3/4 in"), lock.format("3 in", "0.2 in")))
    assert main(["build", str(path)]) == 1
    assert "storm hold while modules are hung: gives" in capsys.readouterr().out


def test_what_gives_ends_with_one(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = changed(tmp_path, ("8 in schedule 80", "6 in schedule 40"))
    assert main(["answer", str(path), "--years", "10"]) == 1
    assert main(["gusts", str(path)]) == 1
    assert main(["wires", str(path)]) == 0  # the pole is no matter of the wires
    assert "gives" in capsys.readouterr().out


def test_a_wiring_check_that_fails_ends_with_one_too(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = changed(tmp_path, ('voltage_limit = "250 V"', 'voltage_limit = "150 V"'))
    assert main(["answer", str(path), "--years", "10"]) == 1
    assert "NO: " in capsys.readouterr().out


def test_a_wrong_file_ends_with_two_and_every_problem_is_numbered(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = changed(
        tmp_path,
        ('hinge_height = "11 ft"', "hinge_height = 11"),
        ('stroke = "36 in"', 'stroke = "36 lb"'),
    )
    assert main(["answer", str(path)]) == 2
    told = capsys.readouterr().err
    assert "2 things to mend" in told
    assert "1. [mount] hinge_height" in told
    assert "do:" in told


@pytest.mark.parametrize("point", ["-41.4", "-91.4"])
def test_a_point_in_the_sea_ends_with_two(
    point: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = changed(tmp_path, ('longitude = "-91.4 deg"', f'longitude = "{point} deg"'))
    assert main(["answer", str(path), "--years", "10"]) == (2 if point == "-41.4" else 0)
    if point == "-41.4":
        assert "sea" in capsys.readouterr().err


def test_a_working_is_printed_step_by_step_and_an_unknown_part_names_those_there_are(
    capsys: pytest.CaptureFixture[str],
) -> None:
    assert main(["gusts", "hollow-spruce", "--working", "pole collar"]) == 0
    out = capsys.readouterr().out
    assert "AISC 360-16" in out
    assert " = " in out
    assert main(["gusts", "hollow-spruce", "--working", "chimney"]) == 2
    assert "hinge pins" in capsys.readouterr().err
    assert main(["gusts", "hollow-spruce", "--working", "pole at the colar"]) == 2
    told = capsys.readouterr().err
    assert "The nearest is: pole at the collar" in told
    assert max(map(len, told.splitlines())) <= 140  # a list to run down, not one paragraph


def test_a_headline_can_print_its_working_alone(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["answer", "hollow-spruce", "--years", "10", "--working", "engine hours with the"]) == 0  # fmt: skip
    out = capsys.readouterr().out
    assert " = " in out
    assert "Does it stand?" not in out


@pytest.mark.parametrize("words", ["engine hours with the", "concrete", "drop", "cost", "stands to", "cold"])  # fmt: skip
def test_every_headline_has_its_working(words: str) -> None:
    assert " = " in printed(of_answer(worked("hollow-spruce")), words, "feet")


def test_habits_are_told_one_by_one_with_what_tipping_is_worth(
    capsys: pytest.CaptureFixture[str],
) -> None:
    assert main(["habits", "hollow-spruce", "--years", "10"]) == 0
    out = capsys.readouterr().out
    for words in (
        "two moves",
        "monthly",
        "fixed at its best",
        "daily, by the sky",
        "your own two tilts",
        "What tipping is worth",
    ):
        assert words in out
    assert max(len(line) for line in out.splitlines()[1:]) <= 78


def test_ask_says_whom_and_what(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["ask", "hollow-spruce"]) == 0
    out = capsys.readouterr().out
    assert "exposure" in out
    assert "Trap:" in out
    assert sum(line.count("X") for line in out.splitlines() if set(line.strip()) <= set("#.X")) == 1


@pytest.mark.parametrize("of", ["file", "answer"])
def test_the_schemas_are_json(of: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["schema", "--of", of]) == 0
    assert json.loads(capsys.readouterr().out)["type"] == "object"


def test_start_from_a_demo_and_never_over_a_file(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "mine.toml"
    assert main(["start", str(path), "--demo", "cinder-mesa"]) == 0
    assert main(["ask", str(path)]) == 0
    before = path.read_bytes()
    assert main(["start", str(path)]) == 2
    assert path.read_bytes() == before
    assert main(["start", str(tmp_path / "other.toml"), "--demo", "nowhere"]) == 2
    assert "cinder-mesa" in capsys.readouterr().err


def test_start_asks_five_questions_and_takes_silence_for_an_answer(tmp_path: Path) -> None:
    path = tmp_path / "our-place.toml"
    done = run("start", str(path), input="45.0, -110.0, 5000 ft\n\n\n5 kWh\n")
    assert done.returncode == 0, done.stderr
    assert "Our Place" in path.read_text()
    assert run("gusts", str(path)).returncode in (0, 1)


def test_start_tells_wrong_answers_and_writes_nothing(tmp_path: Path) -> None:
    path = tmp_path / "mine.toml"
    done = run("start", str(path), input="nowhere\n\n\n\n\n")
    assert done.returncode == 2
    assert not path.exists()
    assert "letter" in done.stderr


@pytest.mark.parametrize(
    "words",
    [[], ["dance"], ["answer"], ["answer", "x", "--years", "3"], ["answer", "x", "--years", "many"], ["answer", "x", "--seed", "-1"],
     ["gusts", "hollow-spruce", "--units", "cubits"], ["schema", "--of", "soup"], ["open", "x", "--port", "99999"]],
)  # fmt: skip
def test_wrong_words_end_with_two_and_a_sentence(
    words: list[str], capsys: pytest.CaptureFixture[str]
) -> None:
    with pytest.raises(SystemExit) as ended:
        main(words)
    assert ended.value.code == 2
    assert "Traceback" not in capsys.readouterr().err


def test_a_failure_of_the_tool_is_one_sentence_and_ends_with_three(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def fail(*_: object) -> None:
        raise ZeroDivisionError

    monkeypatch.setattr("polestead.answer.stands.stands", fail)
    assert main(["gusts", "hollow-spruce"]) == 3
    told = capsys.readouterr().err
    assert "ZeroDivisionError" in told
    assert "Traceback" not in told


def test_no_traceback_for_a_file_that_is_none(tmp_path: Path) -> None:
    for name in ("none.toml", "."):
        done = run("answer", str(tmp_path / name))
        assert done.returncode == 2
        assert "Traceback" not in done.stderr


def test_a_result_that_may_not_be_written_is_told(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "file").write_text("x")
    assert (
        main(
            [
                "answer",
                "hollow-spruce",
                "--years",
                "10",
                "--json",
                str(tmp_path / "file" / "a.json"),
            ]
        )
        == 2
    )
    assert "may not be written" in capsys.readouterr().err


WRITING = (
    *(["answer", "hollow-spruce", option] for option in ("--json", "--pdf")),
    *([command, "hollow-spruce", "--json"] for command in ("wires", "build", "doubts", "morning", "log")),
    *(["money", "hollow-spruce", option] for option in ("--json", "--csv")),
    ["log", "hollow-spruce", "tilt 30", "--export"],
    ["calendar", "hollow-spruce", "--ics"],
)  # fmt: skip


def test_what_cannot_be_read_or_written_is_refused_before_the_sums_are_read_in(tmp_path: Path) -> None:  # fmt: skip
    (tmp_path / "file").write_text("x")
    (tmp_path / "home.toml").write_text(TEXT, encoding="utf-8")
    (tmp_path / "out" / "book.pdf").mkdir(parents=True)
    (tmp_path / "out" / "one-line.svg").mkdir()
    none, way = "none.toml", "file/deeper"
    refused = [
        *([command, none] for command in ("answer", "doubts", "log", "morning", "open")),
        ["book", none, "--out", "new"],
        ["book", "hollow-spruce", "--out", way],
        ["book", "hollow-spruce", "--out", "new", "--only", "everything"],
        ["book", "hollow-spruce", "--out", "out", "--only", "book"],
        ["wires", "hollow-spruce", "--drawings", "out"],
        *([*command, way] for command in WRITING),
        *([*command, "out"] for command in WRITING),
        ["answer", "home.toml", "--json", "./home.toml"],
        ["start", "file"],
        ["start", "nowhere/home.toml"],
    ]
    told = f"import sys; from polestead.cli import main; print([main(one) for one in {refused!r}], sorted({{'numpy', 'pydantic', 'typst'}} & set(sys.modules)))"
    done = subprocess.run([sys.executable, "-c", told], capture_output=True, text=True, check=False, timeout=60, cwd=tmp_path)  # fmt: skip
    assert done.stdout.splitlines()[-1] == f"{[2] * len(refused)} []", done.stderr
    assert done.stderr.count(f"{none}, which does not exist") == 6
    assert done.stderr.count("file, which may not be written") == len(WRITING)
    assert f"{way}, which may not be written" in done.stderr
    assert done.stderr.count("(a folder has that name)") == len(WRITING) + 2
    assert "given:   everything" in done.stderr
    assert "home.toml, which is the homestead file itself" in done.stderr
    assert (tmp_path / "home.toml").read_text(encoding="utf-8") == TEXT
    assert sorted(one.name for one in tmp_path.iterdir()) == ["file", "home.toml", "out"]


def test_a_trial_of_a_folder_leaves_nothing_and_takes_nothing_away(tmp_path: Path) -> None:
    (tmp_path / "there").mkdir()
    tried(tmp_path / "there" / "new" / "newer")
    tried(tmp_path / "there")
    assert [one.name for one in tmp_path.rglob("*")] == ["there"]


def test_who_stops_reading_has_the_file_he_asked_for_all_the_same(tmp_path: Path) -> None:
    told = f"{shlex.join(COMMAND)} build hollow-spruce --json build.json | head -n 1"
    done = subprocess.run(["bash", "-c", told], capture_output=True, text=True, check=False, timeout=60, cwd=tmp_path)  # fmt: skip
    assert done.stdout.startswith("Hollow Spruce: what is bought")
    assert json.loads((tmp_path / "build.json").read_text(encoding="utf-8"))


def test_an_ascii_terminal_and_a_closed_pipe_do_no_harm() -> None:
    plain = run("gusts", "hollow-spruce", env={**os.environ, "PYTHONIOENCODING": "ascii"})
    assert plain.returncode == 0
    assert "Traceback" not in plain.stderr
    piped = subprocess.run(
        " ".join([sys.executable, "-c", "'import sys; from polestead.cli import main; sys.exit(main())'", "gusts hollow-spruce | head -1"]),
        shell=True, capture_output=True, text=True, check=False, timeout=120,
    )  # fmt: skip
    assert "Traceback" not in piped.stderr


def test_help_knows_every_command_and_starts_without_the_heavy_rooms() -> None:
    done = run("--help")
    assert done.returncode == 0
    for word in ("start", "answer", "gusts", "habits", "ask", "schema", "open"):
        assert word in done.stdout
    loaded = subprocess.run(
        [sys.executable, "-X", "importtime", "-c", "from polestead.cli.arguments import parser; parser()"],
        capture_output=True, text=True, check=True,
    ).stderr  # fmt: skip
    for heavy in ("numpy", "pvlib", "numba", "pydantic", "starlette", "typst", "pandas", "scipy"):
        assert f" {heavy}\n" not in loaded, heavy


def test_metres_a_second_where_miles_an_hour_were_meant_is_asked_back(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = changed(tmp_path, ('"107 mph"', '"107 m/s"'))
    assert main(["gusts", str(path)]) == 2
    assert "unit" in capsys.readouterr().err


def test_wires_prints_every_part_apart_and_fills_the_test_form(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    assert main(["wires", "cinder-mesa", "--part", "test", "--light", "800", "--cell", "35 C"]) == 0
    assert "One string, at this hour" in capsys.readouterr().out
    monkeypatch.setattr("polestead.answer.wires.wires_in", lambda *_: wired("cinder-mesa"))  # worked once for all parts  # fmt: skip
    for part, words in {
        "guards": "SOLAR SWITCH, DIRECT CURRENT", "battery": "one bond of neutral to earth", "trench": "In the trench before it closes",
        "cord": "Loop between the clamps", "drive": "Day by day", "basis": "Ask, for local rules differ",
    }.items():  # fmt: skip
        assert main(["wires", "cinder-mesa", "--part", part]) == 0
        assert words in capsys.readouterr().out


@pytest.mark.parametrize(("word", "given"), [("--light", "dark"), ("--light", "9000"), ("--cell", "35"), ("--cell", "400 F"), ("--part", "roof")])  # fmt: skip
def test_wires_refuses_what_no_meter_shows(
    word: str, given: str, capsys: pytest.CaptureFixture[str]
) -> None:
    with pytest.raises(SystemExit) as refused:
        main(["wires", "cinder-mesa", word, given])
    assert refused.value.code == 2
    assert given in capsys.readouterr().err


def test_wires_writes_its_drawings_and_all_of_its_data(tmp_path: Path) -> None:
    out = tmp_path / "wires.json"
    assert main(["wires", "slieve-moss", "--json", str(out), "--drawings", str(tmp_path)]) == 0
    told = json.loads(out.read_text(encoding="utf-8"))
    assert {"wiring", "layouts", "choices", "over_years", "tilt_drive", "one_line", "string_map", "form", "basis", "asks"} <= set(told)  # fmt: skip
    for name in ("one-line", "string-map"):
        assert (tmp_path / f"{name}.svg").read_text(encoding="utf-8").startswith("<svg")


def test_the_words_of_the_parts_are_the_parts_there_are() -> None:
    from polestead.cli.arguments import WIRE_PARTS
    from polestead.sheets.wires.page import parts

    assert tuple(parts(wired("slieve-moss"), "EUR", "metric")) == WIRE_PARTS


def test_a_string_that_kills_its_controller_at_the_record_low_is_refused(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A fifth and a sixth module in a string: 6 x 46.3 = 278 V and margin, on 250 V; every mean day would be well under."""
    from polestead.homestead.demos import demo_path

    text = demo_path("hollow-spruce").read_text(encoding="utf-8")
    longer = text.replace("columns = 4", "columns = 6").replace("in_series = 4", "in_series = 6")
    file = tmp_path / "longer.toml"
    file.write_text(longer, encoding="utf-8")
    assert main(["wires", str(file), "--part", "short"]) == 1
    assert "NO: string, cold voltage against the controller's limit" in capsys.readouterr().out


@pytest.mark.parametrize(
    ("was", "becomes", "words"),
    [
        ("in_series = 3\nin_parallel = 2\n\n[household.old", "in_series = 6\nin_parallel = 1\n\n[household.old", "old array roof, string, cold voltage"),
        ('series_fuse = "25 A"', 'series_fuse = "10 A"', "string fuse"),
        ('voltage_limit = "250 V"\n', 'voltage_limit = "250 V"\narray_current_limit = "30 A"\n', "controller"),
        ('set_current = "68 A"\n', "", "battery, charging current of all arrays together: gives: 100 A against 95 A"),
        ('facing = "190 deg"\ncontroller = "roof"', 'facing = "190 deg"\ncontroller = "pole"', "beside"),
    ],
)  # fmt: skip
def test_no_fault_of_the_strings_in_the_file_is_left_out_of_the_verdict(
    was: str, becomes: str, words: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """An old string of 289 V on 150 V, 26 A and 3520 W / 48 V = 73.3 A into 95 A, a fuse its label does not bear, 35 A on a controller of 30 A, strings that do not match."""
    text = demo_path("hollow-spruce").read_text(encoding="utf-8")
    assert was in text
    file = tmp_path / "one-fault.toml"
    file.write_text(text.replace(was, becomes, 1), encoding="utf-8")
    assert main(["wires", str(file), "--part", "short"]) == 1
    out = " ".join(capsys.readouterr().out.split())
    told = [one for one in out.split("NO: ")[1:] if words in one]
    assert told
    assert "checks hold" not in out
