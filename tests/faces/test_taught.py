"""`polestead log FILE --taught`, from a daybook written through the public API."""

from __future__ import annotations

import json
from datetime import date, datetime, timedelta
from pathlib import Path

import pytest

from polestead.cli import main
from polestead.daybook.daybook import open_daybook
from polestead.daybook.house import house_of
from polestead.daybook.teaching.taught import LEAST_DAYS
from polestead.homestead.demos import demo_path
from polestead.homestead.read import read_homestead
from tests.daybook.teaching.planted import house_log

FIRST = date(2025, 7, 1)
LOST = date(2025, 11, 15)
NOW = datetime(2026, 7, 1, 12, 0)


@pytest.fixture
def file(tmp_path: Path) -> Path:
    """A file of one's own; the house-use factor written, so that it need not be fitted."""
    path = tmp_path / "spruce.toml"
    text = demo_path("hollow-spruce").read_text(encoding="utf-8")
    path.write_text(text.replace("[household]\n", "[household]\nuse_factor = 1.0\n", 1), encoding="utf-8")  # fmt: skip
    return path


def _write(file: Path, count: int, lost_from: date | None = None) -> None:
    owners = read_homestead(file)
    home = owners.homestead
    house = house_of(home.mount, home.household, home.array, home.units)
    with open_daybook(file.with_suffix(".daybook")) as book:
        book.append_all(house_log(owners, FIRST, count, lost_from=lost_from), NOW, house)


def test_a_year_with_a_lost_string_is_told_with_since_budget_and_act(file: Path, capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:  # fmt: skip
    _write(file, 365, LOST)
    assert main(["log", str(file), "--taught", "--why", "--json", str(tmp_path / "taught.json")]) == 1  # fmt: skip
    text = capsys.readouterr().out
    said = " ".join(text.split())
    assert max(len(line) for line in text.splitlines()) <= 78
    assert "the array makes" in said
    assert "a string that no longer gives" in said
    assert "once in 10 years at most" in said
    assert "clamp meter" in said
    assert "sum of likelihood ratios when told" in said
    assert "What foresight would have saved" in said
    assert "Nobody has written down the hours of sun" in said
    assert "the sun is measured by the arrays that were there" in said
    data = json.loads((tmp_path / "taught.json").read_text())
    assert data["loss_lasts"] is True
    found = next(one for one in data["findings"] if one["left"] is not None)
    assert abs(date.fromisoformat(found["since"]) - LOST) <= timedelta(days=14)
    assert found["left_low"] <= 0.5 <= found["left_high"]


def test_the_same_year_with_nothing_wrong_says_so(file: Path, capsys: pytest.CaptureFixture[str]) -> None:  # fmt: skip
    _write(file, 365)
    assert main(["log", str(file), "--taught"]) == 0
    said = " ".join(capsys.readouterr().out.split())
    assert "Nothing that this log can tell from luck." in said
    assert "a string that no longer gives" not in said


def test_twenty_days_say_how_many_more(file: Path, capsys: pytest.CaptureFixture[str]) -> None:
    _write(file, 20)
    assert main(["log", str(file), "--taught"]) == 0
    said = " ".join(capsys.readouterr().out.split())
    assert f"{LEAST_DAYS - 20} more days with what the array made" in said
    assert "What has changed" not in said


def test_an_empty_log_says_what_to_write_and_begins_no_file(file: Path, capsys: pytest.CaptureFixture[str]) -> None:  # fmt: skip
    assert main(["log", str(file), "--taught"]) == 0
    said = " ".join(capsys.readouterr().out.split())
    assert f"{LEAST_DAYS} more days" in said
    assert not file.with_suffix(".daybook").exists()
    assert main(["log", str(file), "--why"]) == 2
