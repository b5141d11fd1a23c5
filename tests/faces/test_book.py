"""`polestead book`: what it writes, what it says, what it ends with."""

from __future__ import annotations

from io import BytesIO
from pathlib import Path

import pytest
from pypdf import PdfReader

from polestead.cli import main
from polestead.homestead.demos import demo_path
from polestead.sheets.named import ALL
from tests.sheets.pdf_text import pages_of

TEXT = demo_path("hollow-spruce").read_text(encoding="utf-8")


def test_the_whole_book_is_written_and_nothing_else(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    out = tmp_path / "new" / "folder"
    assert main(["book", "slieve-moss", "--out", str(out), "--phone", "--years", "10"]) == 0
    assert sorted(path.name for path in out.iterdir()) == sorted([*(f"{name}.pdf" for name in ALL), "phone.html", "plates"])  # fmt: skip
    told = capsys.readouterr()
    assert told.err.count("written: ") == len(ALL) + 1 + len(list((out / "plates").iterdir()))
    size = PdfReader(BytesIO((out / "book.pdf").read_bytes())).pages[0].mediabox
    assert (round(float(size.width)), round(float(size.height))) == (595, 842)  # a metric file: A4


def test_a_thinner_pole_says_no_on_every_page_and_ends_with_1(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:  # fmt: skip
    assert TEXT.count('pole = "8 in schedule 80 A53 B"') == 1
    file = tmp_path / "home.toml"
    file.write_text(
        TEXT.replace("8 in schedule 80 A53 B", "6 in schedule 40 A53 B"), encoding="utf-8"
    )
    words = ["book", str(file), "--out", str(tmp_path), "--only", "gust-card", "--paper", "a4", "--on", "2026-06-12", "--years", "10"]  # fmt: skip
    assert main(words) == 1
    assert "THE SUMS SAY NO: " in capsys.readouterr().err
    for said in pages_of((tmp_path / "gust-card.pdf").read_bytes()):
        assert "THE SUMS SAY NO: " in said
        assert " of 100" in said
        assert "12 Jun 2026" in said


@pytest.mark.parametrize("words", [["--only", "everything"], ["--on", "June"]])
def test_what_is_not_there_is_refused_before_any_work(
    tmp_path: Path, words: list[str], capsys: pytest.CaptureFixture[str]
) -> None:
    try:
        code: object = main(["book", "hollow-spruce", "--out", str(tmp_path / "out"), *words])
    except SystemExit as left:
        code = left.code
    assert code == 2
    assert not (tmp_path / "out").exists()
    assert capsys.readouterr().err


def test_a_folder_that_may_not_be_written_is_refused_before_the_sums(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:  # fmt: skip
    monkeypatch.setattr("polestead.cli.commands._worked", lambda *_: pytest.fail("the sums were begun"))  # fmt: skip
    there = tmp_path / "a file"
    there.write_text("kept", encoding="utf-8")
    way = tmp_path / "out"
    (way / "book.pdf").mkdir(parents=True)
    plates = tmp_path / "plates in the way"
    plates.mkdir()
    (plates / "plates").write_text("", encoding="utf-8")
    for out, named in ((there, there), (there / "deeper", there / "deeper"), (way, way / "book.pdf"), (plates, plates / "plates")):  # fmt: skip
        assert main(["book", "hollow-spruce", "--out", str(out)]) == 2
        told = capsys.readouterr().err
        assert f"{named}, which may not be written" in told
        assert "Name another path." in told
    assert there.read_text(encoding="utf-8") == "kept"
    assert sorted(one.name for one in way.iterdir()) == ["book.pdf"]
