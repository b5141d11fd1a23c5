"""`polestead log` and what the daybook does to `polestead calendar`, from words to an exit code."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from datetime import date, timedelta
from pathlib import Path

import pytest
import vobject

from polestead.cli import main
from polestead.daybook.daybook import open_daybook
from polestead.homestead.demos import demo_path

YESTERDAY = date.today() - timedelta(days=1)


@pytest.fixture
def file(tmp_path: Path) -> Path:
    """A file of one's own."""
    path = tmp_path / "spruce.toml"
    text = demo_path("hollow-spruce").read_text(encoding="utf-8")
    columns = '\n[daybook]\ncolumns = { day = "column 1, day first", charge = "column 2, %, decimal comma" }\n'
    path.write_text(text + columns, encoding="utf-8")
    return path


def log(file: Path, *words: str) -> int:
    return main(["log", str(file), *words])


def test_a_line_is_kept_echoed_in_his_units_and_ends_with_what_is_due(file: Path, capsys: pytest.CaptureFixture[str]) -> None:  # fmt: skip
    typed = ["tilt", "62,", "charge", "78", "%,", "engine", "2.5", "h,", "fuel", "3", "gal,", "snow", "dusted,", "gust", "35", "mph,", "note", "ice, left it"]  # fmt: skip
    assert log(file, *typed, "--on", "yesterday", "--at", "7:10") == 0
    said = " ".join(capsys.readouterr().out.split())
    assert f"Kept, entry 1. {YESTERDAY:%a} {YESTERDAY.day} {YESTERDAY:%b %Y}, 7:10: tilt 62°, charge 78 %, engine 2.5 h, fuel 3 gal, snow dusted, gust 35 mph, note: ice, left it." in said  # fmt: skip
    assert said.split(". ")[-1].startswith("Nothing is due this week; next: ")
    assert log(file, *typed, "--on", "yesterday", "--at", "7:10", "--units", "metric") == 0
    said = " ".join(capsys.readouterr().out.split())
    assert "Written already, as entry 1; nothing was added." in said
    assert "fuel 11.4 l" in said
    with open_daybook(file.with_suffix(".daybook")) as book:
        (kept,) = book.entries()
    assert kept.entry.note == "ice, left it"
    assert kept.entry.filled_l == pytest.approx(11.356, abs=0.001)


def test_words_may_stand_on_both_sides_of_the_options(file: Path) -> None:
    assert log(file, "--on", "yesterday", "tilt", "62,", "--at", "7:10", "charge", "78", "%") == 0
    with open_daybook(file.with_suffix(".daybook")) as book:
        assert (book.entries()[0].entry.tilt_deg, book.entries()[0].entry.charge) == (62.0, 0.78)


def test_all_that_is_wrong_is_told_at_once_and_nothing_is_begun(file: Path, capsys: pytest.CaptureFixture[str]) -> None:  # fmt: skip
    assert log(file, "tilt 95, charge 78, engin 2 h", "--on", "24/11/2026", "--at", "25:00") == 2
    said = capsys.readouterr()
    assert said.out == ""
    assert said.err.startswith("5 things to mend:")
    assert not file.with_suffix(".daybook").exists() or log(file, "--list") == 0
    with pytest.raises(SystemExit) as caught:
        log(file, "tilt", "62", "--colour", "red")
    assert caught.value.code == 2


def test_looking_begins_no_file(file: Path, capsys: pytest.CaptureFixture[str]) -> None:
    for words in ((), ("--list",), ("--chores",)):
        assert log(file, *words) == 0
    assert not file.with_suffix(".daybook").exists()
    assert "The daybook has no entry yet." in capsys.readouterr().out


def test_a_contradiction_is_told_a_slip_struck_and_a_gap_named(file: Path, capsys: pytest.CaptureFixture[str]) -> None:  # fmt: skip
    before = str(YESTERDAY - timedelta(days=4))
    log(file, "charge 60 %", "--on", before)
    log(file, "tilt 62", "--on", "yesterday", "--at", "7:10")
    capsys.readouterr()
    log(file, "tilt 26", "--on", "yesterday", "--at", "7:10")
    said = " ".join(capsys.readouterr().out.split())
    assert "Tilt: entry 2 says 62°; both are kept, and the newest counts, 26°. If this one is the slip: --strike 3 'slip'." in said  # fmt: skip
    assert log(file, "--strike", "3", "a", "slip") == 0
    assert "Reason: a slip." in " ".join(capsys.readouterr().out.split())
    assert log(file, "--list", "2") == 0
    assert "(struck, does not count: a slip)" in " ".join(capsys.readouterr().out.split())
    assert log(file) == 0
    said = " ".join(capsys.readouterr().out.split())
    first, last = YESTERDAY - timedelta(days=3), YESTERDAY - timedelta(days=1)
    assert f"No entry from {first.day} {first:%b %Y} to {last.day} {last:%b %Y} (3 days)." in said
    assert log(file, "--strike", "9", "slip") == 2
    assert log(file, "--strike", "one", "slip") == 2


def test_a_gust_by_eye_and_a_rod_say_how_they_were_taken(file: Path, capsys: pytest.CaptureFixture[str]) -> None:  # fmt: skip
    assert log(file, "gust whole trees move, rod 20 in") == 0
    said = " ".join(capsys.readouterr().out.split())
    # 17.1 m/s ten-minute mean x 1.5 in the open = 25.65 m/s = 57.4 mph, up to 60
    assert "gust to 60 mph by eye (whole trees move)" in said
    assert "rod 20 in" in said
    assert "unproved until two pairs" in said


def test_a_table_is_tried_dry_then_taken_and_goes_out_and_comes_back(file: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:  # fmt: skip
    table = tmp_path / "old.csv"
    table.write_text("Datum;SOC\n03.04.2026;78,5\n04.04.2026;81,0\n31.04.2026;50,0\n", encoding="utf-8")  # fmt: skip
    assert log(file, "--csv", str(table), "--dry-run") == 2
    said = " ".join(capsys.readouterr().out.split())
    assert "line 2: Fri 3 Apr 2026: charge 78.5 %" in said
    assert "old.csv line 4, day: 31.04.2026 is refused" in said
    assert "Lines: 2 would be written, 0 written already, 1 refused." in said
    assert log(file, "--csv", str(table)) == 2
    assert "Nothing was written. Mend the refused lines" in " ".join(capsys.readouterr().out.split())  # fmt: skip
    assert log(file, "--csv", str(table), "--leave-out") == 0
    assert "Lines: 2 written, 0 written already, 1 refused." in capsys.readouterr().out
    assert log(file, "--csv", str(table), "--leave-out") == 0
    assert "Lines: 0 written, 2 written already, 1 refused." in capsys.readouterr().out
    out, data = tmp_path / "all.csv", tmp_path / "all.json"
    log(file, "--strike", "2", "not", "so")
    assert log(file, "--export", str(out), "--json", str(data)) == 0
    entries = json.loads(data.read_text())
    assert entries["format"] == 1
    assert [(one["number"], one["day"], one["charge"], one["struck"]) for one in entries["entries"]] == [(1, "2026-04-03", 0.785, None), (2, "2026-04-04", 0.81, "not so")]  # fmt: skip
    other = tmp_path / "other.toml"
    other.write_text(file.read_text(encoding="utf-8"), encoding="utf-8")
    capsys.readouterr()
    assert log(other, "--csv", str(out), "--dry-run") == 0
    assert "2 entries would be put back, 0 stand here already" in capsys.readouterr().out
    assert log(other, "--csv", str(out)) == 0
    with open_daybook(file.with_suffix(".daybook")) as one, open_daybook(other.with_suffix(".daybook")) as two:  # fmt: skip
        assert one.entries(struck=True) == two.entries(struck=True) != ()


def test_columns_may_be_given_on_the_command_line(file: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:  # fmt: skip
    table = tmp_path / "old.csv"
    table.write_text("2026-04-03;1;2.5\n", encoding="utf-8")
    assert log(file, "--csv", str(table), "--column", "day = column 1", "--column", "charge = column 2, %", "--column", "engine = column 3, h") == 0  # fmt: skip
    assert log(file, "--csv", str(table), "--column", "engine") == 2
    assert log(file, "--csv", str(tmp_path / "none.csv")) == 2
    assert log(file, "--column", "engine = column 3, h") == 2
    with open_daybook(file.with_suffix(".daybook")) as book:
        assert [(one.entry.charge, one.entry.engine_hours) for one in book.entries()] == [(0.01, 2.5)]  # fmt: skip


def test_chores_are_listed_told_one_by_one_and_marked_as_done(file: Path, capsys: pytest.CaptureFixture[str]) -> None:  # fmt: skip
    log(file, "done grease and torque", "--on", "yesterday")
    capsys.readouterr()
    assert log(file, "--chore", "greased") == 0
    said = " ".join(capsys.readouterr().out.split())
    assert f"last {YESTERDAY.day} {YESTERDAY:%b %Y}" in said
    assert "Storm hold and prop in first." in said
    assert "common practice, no source" in said
    assert log(file, "--chores") == 0
    said = capsys.readouterr().out
    assert "brim-full: on " in said
    assert "equalize: how often, its maker knows" in said
    assert log(file, "--chore", "hoovering") == 2


def test_the_calendar_needs_no_first_day_once_there_is_a_daybook(file: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:  # fmt: skip
    assert main(["calendar", str(file)]) == 2
    assert "no first day, and no daybook yet" in capsys.readouterr().err
    log(file, "tilt 62, done monthly cycle", "--on", "yesterday")
    ics = tmp_path / "chores.ics"
    assert main(["calendar", str(file), "--ics", str(ics)]) == 0
    read = vobject.readOne(ics.read_text(encoding="utf-8"))
    entries = {entry.summary.value: entry for entry in read.vevent_list}
    cycle = entries["Move it once over its whole travel and back"]
    assert cycle.dtstart.value == YESTERDAY + timedelta(days=30)
    assert cycle.rrule.value == "FREQ=DAILY;INTERVAL=30"
    assert not any(name.startswith("Hole") for name in entries)


def test_a_demos_daybook_lies_in_this_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:  # fmt: skip
    monkeypatch.chdir(tmp_path)
    assert main(["log", "cinder-mesa", "charge 78 %"]) == 0
    assert (tmp_path / "cinder-mesa.daybook").exists()


def test_ticks_of_the_phone_file_are_kept_and_told(file: Path, capsys: pytest.CaptureFixture[str]) -> None:  # fmt: skip
    line = "ticks: hole 1-4, gate footing 12 Jun RJ, built hole/footing.depth = 9 ft 7 in"
    assert log(file, "--ticks", f"{line}, poured 2026-06-12: 54 F; ?") == 0
    said = " ".join(capsys.readouterr().out.split())
    assert "hole: steps 1, 2, 3, 4 done. Gate footing: signed 12 Jun by RJ." in said
    assert "Poured 2026-06-12; the air since, one mean for each 24 hours: 54 F; ?." in said
    assert log(file, "--ticks", f"{line}, poured 2999-06-12") == 2
    assert "Write down what was, not what will be." in capsys.readouterr().err
    assert log(file, "--ticks", "ticks: hole 1-4, pond 3") == 2
    assert "part 2, sign 18" in capsys.readouterr().err
    with open_daybook(file.with_suffix(".daybook")) as book:
        assert [one.entry.ticks for one in book.entries()] == [line.removeprefix("ticks: "), ""]
        assert [one.entry.note for one in book.entries()] == ["", "poured 2026-06-12: 54 F; ?"]


def test_an_export_is_written_though_the_reader_of_the_words_has_gone(file: Path, tmp_path: Path) -> None:  # fmt: skip
    """As with ``| head``: a pipe whose reading end is closed before a word is said."""
    out = tmp_path / "all.csv"
    script = "import sys; from polestead.cli import main; sys.exit(main())"
    reading, writing = os.pipe()
    os.close(reading)
    found = subprocess.run([sys.executable, "-c", script, "log", str(file), "charge 78 %", "--export", str(out)], stdout=writing, stderr=subprocess.PIPE, text=True, check=False)  # fmt: skip
    os.close(writing)
    assert "charge" in out.read_text(encoding="utf-8")
    assert (found.returncode, found.stderr) == (0, f"written: {out}\n")


def test_the_heavy_rooms_are_not_read_in_for_one_line(file: Path) -> None:
    script = (
        "import sys; from polestead.cli import main; main(sys.argv[1:]); "
        "print([m for m in ('numba', 'pvlib', 'scipy', 'pandas', 'polestead.answer.answer') if m in sys.modules])"
    )
    told = subprocess.run([sys.executable, "-c", script, "log", str(file), "charge 78 %"], capture_output=True, text=True, check=True)  # fmt: skip
    assert told.stdout.splitlines()[-1] == "[]"
