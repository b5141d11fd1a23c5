"""Answers written back: comments kept, every problem told, the file untouched when it is refused."""

from __future__ import annotations

import tomllib
from datetime import date
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from polestead.base.problem import Wrong
from polestead.cli import main
from polestead.homestead.answered import Reply, answered_text, keep_answers, whom_of
from polestead.homestead.demos import demo_path
from polestead.homestead.read import check_text, read_homestead

TEXT = demo_path("hollow-spruce").read_text(encoding="utf-8")
ON = date(2026, 11, 27)


def reply(key: str, value: str, of: str = "Ann", words: str = "") -> Reply:
    return Reply(key, value, of, ON, words)


def file_in(tmp_path: Path) -> Path:
    path = tmp_path / "home.toml"
    path.write_text(TEXT, encoding="utf-8")
    return path


def test_an_answer_takes_the_place_of_a_guess_and_nothing_else_changes() -> None:
    new = answered_text(TEXT, [reply("place.exposure", "B", words="B, by the map")])
    assert tomllib.loads(new)["place"]["exposure"] == {"said": "B", "asked_of": "Ann", "on": ON, "why": "B, by the map"}  # fmt: skip
    changed = [(old, now) for old, now in zip(TEXT.splitlines(), new.splitlines(), strict=True) if old != now]  # fmt: skip
    assert len(changed) == 1
    assert [line.partition("#")[2] for line in new.splitlines()] == [line.partition("#")[2] for line in TEXT.splitlines()]  # fmt: skip


@settings(deadline=None, max_examples=8)
@given(st.floats(0.3, 3.9).map(lambda metres: f"{metres:.3f} m"))
def test_whatever_depth_of_frost_is_told_counts_from_then_on(value: str) -> None:
    _, rows = check_text(answered_text(TEXT, [reply("place.frost_depth", value)]))
    row = next(one for one in rows if (one.section, one.key) == ("place", "frost_depth"))
    assert (row.written, row.standing, row.asked_of, row.on) == (value, "said", "Ann", ON)
    assert row.value == pytest.approx(float(value.split()[0]))


def test_a_comment_behind_the_value_stays() -> None:
    text = TEXT.replace('hinge_height = "11 ft"', 'hinge_height = "11 ft"   # to the axis')
    assert "# to the axis" in answered_text(text, [reply("mount.hinge_height", "11 ft 1 in")])


def test_a_planned_value_stays_beside_the_answer_and_a_measured_one_counts_first() -> None:
    new = answered_text(TEXT, [reply("footing.twist_bars", "false"), reply("buried.1.depth", "5 ft")])  # fmt: skip
    raw = tomllib.loads(new)
    assert raw["footing"]["twist_bars"] == {"planned": True, "said": False, "asked_of": "Ann", "on": ON}  # fmt: skip
    assert raw["buried"][0]["depth"]["planned"] == "6 ft"
    built = TEXT.replace('hinge_height = "11 ft"', 'hinge_height = { built = "11 ft 1 in", on = 2026-06-01 }')  # fmt: skip
    _, rows = check_text(answered_text(built, [reply("mount.hinge_height", "12 ft")]))
    row = next(one for one in rows if one.key == "hinge_height")
    assert (row.written, row.standing) == ("11 ft 1 in", "built")


def test_a_key_that_was_not_in_the_file_is_added_to_its_section() -> None:
    new = answered_text(TEXT, [reply("footing.concrete", "3500 psi")])
    assert tomllib.loads(new)["footing"]["concrete"]["said"] == "3500 psi"
    assert set(TEXT.splitlines()) <= set(new.splitlines())


def test_every_problem_of_every_answer_is_told_and_the_file_stays_as_it_was(tmp_path: Path) -> None:
    path = file_in(tmp_path)
    replies = [reply("place.frost_depth", "63"), reply("place.winds", "12 mph"), reply("mount.hinge_height", "12 kg"), reply("place.soil", "clay or silt", of=""), reply("nothing", "1")]  # fmt: skip
    with pytest.raises(Wrong) as wrong:
        keep_answers(path, replies)
    told = {(problem.section, problem.key) for problem in wrong.value.problems}
    assert told >= {("place", "frost_depth"), ("place", "winds"), ("mount", "hinge_height"), ("place", "soil")}  # fmt: skip
    assert any("did you mean" in problem.do for problem in wrong.value.problems)
    assert any("--of" in problem.do for problem in wrong.value.problems)
    assert path.read_text(encoding="utf-8") == TEXT
    assert [one.name for one in tmp_path.iterdir()] == ["home.toml"]


def test_the_older_file_lies_beside_the_new_one(tmp_path: Path) -> None:
    path = file_in(tmp_path)
    rows, kept = keep_answers(path, [reply("place.exposure", "B")])
    assert [(row.key, row.written) for row in rows] == [("exposure", "B")]
    assert kept is not None
    assert kept.read_text(encoding="utf-8") == TEXT
    assert "told" not in kept.name
    assert read_homestead(path).homestead.place.exposure == "B"


def test_whom_a_field_asks_is_known() -> None:
    assert whom_of("place.frost_depth") == "the county building office"
    assert whom_of("mount.hinge_height") == whom_of("no.such") == ""


def test_the_command_writes_today_and_refuses_a_demo(tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> None:  # fmt: skip
    path = file_in(tmp_path)
    before = date.today()
    assert main(["ask", str(path), "--answer", "place.exposure", "B", "--answer", "footing.concrete", "3500 psi", "--of", "Ann", "--said", "B"]) == 0  # fmt: skip
    assert "place.exposure = B, told by Ann" in capsys.readouterr().out
    on = tomllib.loads(path.read_text(encoding="utf-8"))["place"]["exposure"]["on"]
    assert before <= on <= date.today()
    monkeypatch.chdir(tmp_path)
    assert main(["ask", "hollow-spruce", "--answer", "place.exposure", "B", "--of", "Ann"]) == 2
    assert "a file of your own" in capsys.readouterr().err
    assert main(["ask", str(path), "--answer", "place.frost_depth", "63", "--of", "Ann"]) == 2
    assert "did you mean" in capsys.readouterr().err
