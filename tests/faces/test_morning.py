"""The morning command: words in, one line out, exit codes (conventions §17)."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from time import tzset

import pytest

from polestead.cli import main
from polestead.homestead.demos import demo_path


@pytest.fixture(autouse=True, scope="module")
def the_places_clock() -> Iterator[None]:
    """This machine stands in the zone of the place."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("TZ", "CST6")
        tzset()
        yield
    tzset()


WHEN = ["--today", "2026-11-25", "--at", "7:10"]


@pytest.fixture(scope="module")
def file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("home") / "spruce.toml"
    path.write_bytes(demo_path("hollow-spruce").read_bytes())
    main(["morning", str(path), *WHEN])
    return path


def test_one_line_and_what_it_costs_to_be_wrong(file, capsys) -> None:
    assert main(["morning", str(file), "--heard", "clear, gusts 15 mph", "--lies", "65", "--charge", "78 %", *WHEN]) == 0  # fmt: skip
    lines = capsys.readouterr().out.splitlines()
    assert lines[0].startswith("Wed 25 Nov, 7:10. Leave it at 65. (likely)")
    assert lines[1].startswith("If wrong: ")
    assert lines[2].startswith("Ahead, as it looks now: Thursday 65")
    assert "- Heard: Today: clear, gusts 15 mph." in lines


def test_why_and_json(file, capsys) -> None:
    words = ["morning", str(file), "--heard", "clear", "--lies", "25 deg", *WHEN]
    assert main([*words, "--why"]) == 0
    assert [line[:2] for line in capsys.readouterr().out.splitlines() if line[1:2] == "."] == ["1.", "2.", "3.", "4.", "5."]  # fmt: skip
    assert main([*words, "--json", "-"]) == 0
    told = json.loads(capsys.readouterr().out)
    assert (told["format"], told["stop"]) == (1, False)
    assert told["move"]["from_s"] is None
    assert told["ahead"]["charge_mid"][0] is None
    assert len(told["why"]) == 5


def test_the_working_of_a_figure(file, capsys) -> None:
    assert main(["morning", str(file), "--lies", "65", *WHEN, "--working", "gust"]) == 0
    assert "chance you bear" in capsys.readouterr().out


def test_do_not_move_it_ends_with_one(file, capsys) -> None:
    assert main(["morning", str(file), "--lies", "25", "--snow", "iced", *WHEN]) == 1
    out = capsys.readouterr().out
    assert "Do not move it." in out
    assert "Keep away from it" in out


def test_the_week(file, capsys) -> None:
    assert main(["morning", str(file), "--week", *WHEN]) == 0
    assert "Week leaf of Hollow Spruce" in capsys.readouterr().out


@pytest.mark.parametrize(
    "words",
    [
        ["--lies", "120"], ["--charge", "78"], ["--charge", "300 %"], ["--away", "soon"], ["--blows", "30"], ["--snow", "much"], ["--at", "25:00"],
        ["--heard", "clear", "--forecast", "x.toml"], ["--forecast", "none.toml"], ["--age", "long"],
    ],
)  # fmt: skip
def test_what_is_wrong_is_told_and_ends_with_two(file, words, capsys) -> None:
    assert main(["morning", str(file), *WHEN, *words]) == 2
    assert "to mend" in capsys.readouterr().err


def test_several_wrong_are_told_at_once(file, capsys) -> None:
    assert main(["morning", str(file), *WHEN, "--lies", "120", "--charge", "x", "--away", "soon"]) == 2  # fmt: skip
    assert "3 things to mend" in capsys.readouterr().err


def test_a_changed_file_is_worked_anew(file, tmp_path, capsys) -> None:
    path = tmp_path / "home.toml"
    path.write_bytes(file.read_bytes())
    (tmp_path / "home.morning").write_bytes(file.with_suffix(".morning").read_bytes())
    main(["morning", str(path), *WHEN])
    assert "takes longer" not in capsys.readouterr().err
    path.write_text(path.read_text() + '\n[morning]\ngust_chance = "0.1 %"\n', encoding="utf-8")
    main(["morning", str(path), *WHEN])
    assert "takes longer" in capsys.readouterr().err


def test_a_file_that_is_wrong_is_told_though_a_basis_is_kept(file, tmp_path, capsys) -> None:
    path = tmp_path / "home.toml"
    path.write_text("name = 3\n", encoding="utf-8")
    (tmp_path / "home.morning").write_bytes(file.with_suffix(".morning").read_bytes())
    assert main(["morning", str(path), *WHEN]) == 2


def test_from_a_cold_terminal_it_says_the_same(file, capsys) -> None:
    """Plain loops in a process of its own; nothing slow is read in."""
    words = ["morning", str(file), "--heard", "broken, gusts 20 mph", "--lies", "25", "--charge", "70 %", *WHEN]  # fmt: skip
    main(words)
    ours = capsys.readouterr().out
    code = "import sys; from polestead.cli import main; code = main(); assert 'numba' not in sys.modules and 'pydantic' not in sys.modules; sys.exit(code)"  # fmt: skip
    env = dict(os.environ) | {"PYTHONPATH": os.pathsep.join(sys.path)}
    done = subprocess.run([sys.executable, "-c", code, *words], capture_output=True, text=True, check=False, env=env)  # fmt: skip
    assert done.stderr == ""
    assert done.stdout == ours


THEN = ["--today", "2025-11-25", "--at", "7:10"]  # kept in a daybook, so before the day this is run


def test_the_daybook_beside_the_file_is_read_and_kept_into_only_when_asked(
    tmp_path, file, capsys
) -> None:
    path = tmp_path / "home.toml"
    path.write_bytes(file.read_bytes())
    (tmp_path / "home.morning").write_bytes(file.with_suffix(".morning").read_bytes())
    main(["morning", str(path), "--lies", "65", *THEN])
    assert not (tmp_path / "home.daybook").exists()
    assert (
        main(["log", str(path), "tilt 65, charge 78 %", "--on", "2025-11-24", "--at", "18:00"]) == 0
    )
    capsys.readouterr()
    assert main(["morning", str(path), "--heard", "clear, gusts 15 mph", *THEN]) == 0
    out = capsys.readouterr().out
    assert "Leave it at 65." in out
    assert "From the daybook: at 65 since Monday 18:00; ~ charge 78 % from Monday 18:00." in out
    assert main(["morning", str(path), "--charge", "80 %", "--keep", "--today", "2025-11-24", "--at", "20:00"]) == 0  # fmt: skip
    assert "Kept in the daybook: entry 2." in capsys.readouterr().err
    assert main(["log", str(path)]) == 0
    assert "charge 80 %, note: Morning line: " in " ".join(capsys.readouterr().out.split())
