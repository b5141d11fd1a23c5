"""The money command: the leaf, its workings, the ledger written and read back beside the file."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from polestead.cli import main
from polestead.homestead.demos import demo_path
from polestead.homestead.ledger import ledger_rows, rows_in
from polestead.homestead.read import read_homestead


def test_the_ledger_moves_out_of_the_file_and_costs_the_same(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    csv, data = tmp_path / "ledger.csv", tmp_path / "money.json"
    assert (
        main(["money", "cinder-mesa", "--years", "10", "--csv", str(csv), "--json", str(data)]) == 0
    )
    out = capsys.readouterr().out
    said = " ".join(out.split())
    assert (
        "The 34 h you would be spared (46 h on what would fall away, less 12 h to set the bought one)"
        in said
    )
    assert "none is invented" in out
    owners = read_homestead(demo_path("cinder-mesa"))
    assert ledger_rows(csv.read_text(encoding="utf-8"), {}) == rows_in(
        owners.homestead.prices, owners.rows, ()
    )

    text = owners.path.read_text(encoding="utf-8")
    bare = text[: text.index("[prices.lines]")].replace(
        "engine_hour = 0.6", 'engine_hour = 0.6\nledger = "ledger.csv"'
    )
    moved = tmp_path / "mine.toml"
    moved.write_text(bare, encoding="utf-8")
    again = tmp_path / "again.json"
    assert main(["money", str(moved), "--years", "10", "--json", str(again)]) == 0
    first, second = (json.loads(one.read_text(encoding="utf-8"))["money"] for one in (data, again))
    assert second["ledger"] == first["ledger"]
    assert second["total"] == first["total"] > 4000.0


def test_the_workings_of_money_are_printed(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["money", "cinder-mesa", "--years", "10", "--working", "build against buy"]) == 0
    out = capsys.readouterr().out
    assert "quote for the mount" in out
    assert "an hour of building earns, at most" in out


def test_a_fault_in_the_ledger_is_told_with_its_line(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    text = demo_path("cinder-mesa").read_text(encoding="utf-8")
    (tmp_path / "mine.toml").write_text(
        text.replace("engine_hour = 0.6", 'engine_hour = 0.6\nledger = "l.csv"'), encoding="utf-8"
    )
    (tmp_path / "l.csv").write_text('name,paid\nrope,"1,5"\n', encoding="utf-8")
    assert main(["money", str(tmp_path / "mine.toml")]) == 2
    told = capsys.readouterr().err
    assert "[l.csv line 2] paid" in told
    assert "A decimal comma" in told
