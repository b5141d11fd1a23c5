"""The log on the page: the terminal's own words, chores, strikes, the export; nothing is written where anything is wrong."""

from __future__ import annotations

import re
import shutil
from datetime import datetime
from html import unescape
from pathlib import Path

import pytest

from polestead.daybook.daybook import open_daybook
from polestead.daybook.keeping import own_rows
from polestead.homestead.demos import demo_path
from polestead.web.desk import Desk
from tests.web.deck import AtOnce, Owner

NOW = datetime(2025, 11, 26, 7, 10)


@pytest.fixture
def home(tmp_path: Path) -> Path:
    path = tmp_path / "home.toml"
    shutil.copy(demo_path("hollow-spruce"), path)
    return path


@pytest.fixture
def owner(home: Path) -> Owner:
    desk = Desk(folder=home.parent, jobs=AtOnce(), call=lambda *_, **__: None, clock=lambda: NOW)  # type: ignore[arg-type]
    desk.work_answer = lambda: None  # type: ignore[method-assign]
    desk.open(home)
    return Owner(desk)


def entries(home: Path) -> list[str]:
    with open_daybook(home.with_suffix(".daybook")) as book:
        return [
            f"{one.number} {one.entry.written} {one.struck or ''}".strip()
            for one in book.entries(struck=True)
        ]


def test_looking_begins_no_daybook(home: Path, owner: Owner) -> None:
    assert "No entry yet" in owner.look("/log")
    assert owner.client.get("/log/daybook.csv").status_code == 200
    assert not home.with_suffix(".daybook").exists()


def test_a_line_is_read_by_the_same_words_and_written_once(home: Path, owner: Owner) -> None:
    line = "tilt 62, charge 78 %, gust whole trees move"
    for _ in range(2):
        reply = owner.send("/log/line", words=line, once="one")
        assert reply.status_code == 200
    assert "sent twice" in reply.text
    assert entries(home) == [f"1 {line}"]
    page = owner.look("/log")
    assert "Wed 26 Nov 2025, 7:10</b>" in page
    assert "tilt 62°, charge 78 %, gust to" in page


def test_another_day_and_what_stood_there_are_told(owner: Owner) -> None:
    owner.send("/log/line", words="made 5 kWh", on="2025-11-24", at="18:00", once="1")
    reply = owner.send("/log/line", words="made 6 kWh", on="2025-11-24", at="19:00", once="2")
    assert "Made: entry 1 says 5 kWh; both are kept, and the newest counts, 6 kWh." in unescape(
        reply.text
    )
    assert "--strike" not in reply.text
    assert "No entry on 25 Nov 2025." in unescape(reply.text)


@pytest.mark.parametrize(
    ("fields", "words"),
    [
        ({"words": ""}, "at least one thing"), ({"words": "tilt 400"}, "0 deg to 80 deg"), ({"words": "charge 78"}, "without a unit"), ({"words": "x" * 2501}, "2501 signs"),
        ({"words": "<b>tilt</b>"}, "<b>tilt</b>"), ({"words": "tilt 62", "on": "03/04/2025"}, "Write the year first"), ({"words": "tilt 62", "on": "2026-11-24"}, "not what will be"),
    ],
)  # fmt: skip
def test_what_is_wrong_is_told_beside_the_line_with_what_was_typed(
    home: Path, owner: Owner, fields: dict[str, str], words: str
) -> None:
    reply = owner.send("/log/line", **fields, once="1")
    assert reply.status_code == 422
    told = re.search(r'id="words-wrong" role="alert">(.*?)</div>', reply.text, re.DOTALL)
    assert told is not None
    assert words in unescape(told[1])
    assert "<b>tilt" not in reply.text
    assert "Nothing is written." in told[1]
    assert (
        unescape(re.search(r"<textarea[^>]*>(.*?)</textarea>", reply.text, re.DOTALL)[1])
        == fields["words"]
    )  # type: ignore[index]
    assert not home.with_suffix(".daybook").exists() or entries(home) == []


def test_a_strike_needs_its_reason_and_stays_in_sight(home: Path, owner: Owner) -> None:
    owner.send("/log/line", words="tilt 62", once="1")
    reply = owner.send("/log/strike", number="1", why=" ")
    assert reply.status_code == 422
    assert 'id="why-1-wrong"' in reply.text
    assert owner.send("/log/strike", number="1", why="slip").status_code == 200
    assert "Struck, does not count: slip" in owner.look("/log")
    assert entries(home) == ["1 tilt 62 slip"]
    for number in ("1", "99", "-3", "x" * 50):
        assert owner.send("/log/strike", number=number, why="again").status_code == 422


def test_a_chore_done_moves_on(owner: Owner) -> None:
    page = owner.look("/log")
    key = re.search(r'name="chore" value="([^"]+)"', page)
    assert key is not None
    reply = owner.send("/log/done", chore=key[1], once="1")
    assert f"Done today: {key[1]}." in unescape(reply.text)
    assert f"done: {key[1]}" in owner.look("/log")
    assert owner.send("/log/done", chore="sing", once="2").status_code == 422


def test_the_export_comes_back(home: Path, owner: Owner) -> None:
    owner.send("/log/line", words='tilt 62, note "ice; on, the rod"', once="1")
    reply = owner.client.get("/log/daybook.csv")
    assert "attachment" in reply.headers["content-disposition"]
    (one,) = own_rows(reply.content, NOW)
    with open_daybook(home.with_suffix(".daybook")) as book:
        assert one.entry == book.entries()[0].entry


def test_a_daybook_that_cannot_be_read_is_told(home: Path, owner: Owner) -> None:
    home.with_suffix(".daybook").write_bytes(b"no daybook" * 99)
    assert "The daybook cannot be read." in owner.look("/log")
    assert owner.send("/log/line", words="tilt 62", once="1").status_code == 422
    assert owner.client.get("/log/daybook.csv").status_code == 422


def test_what_the_log_teaches_is_read_back_in_the_terminals_words(home: Path, owner: Owner) -> None:
    assert "it needs days with the kWh made" in owner.look("/log")
    owner.send("/log/line", words="made 6.2 kWh, charge 78 %", once="one")
    page = owner.look("/log")
    assert "read what it teaches" in page
    owner.send("/log/taught")
    page = owner.look("/log")
    assert "What the log teaches: 1 days that count" in page or "What the log teaches: nothing yet" in page or "What the log lacks" in page  # fmt: skip
    assert "read it again" in page
    owner.send("/log/line", words="made 5 kWh, charge 70 %", on="2025-11-25", once="two")
    assert "Read when the log had 1 entries; it has 2 now." in owner.look("/log")
