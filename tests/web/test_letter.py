"""First use: the letter, what it assumed, the demos, the files that lie here."""

from __future__ import annotations

import re
from html import unescape
from pathlib import Path

import pytest

from polestead.homestead.read import read_homestead
from polestead.sheets.title_block import title_block
from polestead.web.desk import Desk
from tests.answers import worked
from tests.web.deck import AtOnce, Owner, as_worked, own_file
from tests.web.states import Staged

ANSWERS = {"place": "44.1 N, 121.3 W, 3600 ft", "array": "3 x 2, 400 W", "pole": "6 in schedule 40 A53 B", "use": "5 kWh", "winter": "120 h"}  # fmt: skip


@pytest.fixture
def owner(tmp_path: Path) -> Owner:
    return Owner(Desk(folder=tmp_path, call=as_worked, jobs=AtOnce()))


def test_with_no_file_every_leaf_leads_to_the_letter(owner: Owner) -> None:
    for path in ("/", "/file", "/file/mount"):
        assert "A letter with five blanks" in owner.look(path)


def test_the_letter_becomes_a_file_and_says_what_it_assumed(owner: Owner, tmp_path: Path) -> None:
    page = owner.send("/letter/begin", **ANSWERS, called="High Fir", file="high-fir.toml").text
    file = read_homestead(tmp_path / "high-fir.toml").homestead
    assert (file.name, file.array.columns, file.place.latitude_deg) == ("High Fir", 3, 44.1)
    assert "high-fir.toml is written" in page
    for cell in title_block(worked("hollow-spruce"), "feet"):  # the first answer came by itself
        assert f"<dt>{cell.question}</dt><dd>{cell.answer}<" in page
    assert 'record low</a> <span class="assumed">~−47 F</span>' in page
    assert not re.search(r"~-\d", page)
    assert "polestead ask" not in page
    assert "wind speed</a>" in page
    assert '<span class="assumed">~' in page
    assert "Does it stand?" in owner.look("/")


def test_while_it_is_worked_the_page_says_so_and_how_to_see_it_without_script(
    tmp_path: Path,
) -> None:
    jobs = Staged()
    jobs.stage = "working"
    owner = Owner(Desk(folder=tmp_path, call=as_worked, jobs=jobs))
    page = owner.send("/letter/begin", **ANSWERS, file="fir").text
    assert page.count("<dd>not yet</dd>") == 3
    assert "<noscript>: load this page again" in page


def test_nothing_of_the_demo_stands_in_the_file_as_if_the_owner_had_said_it(
    owner: Owner, tmp_path: Path
) -> None:
    owner.send("/letter/begin", file="empty")
    rows = read_homestead(tmp_path / "empty.toml").rows
    kept = {(row.section, row.key) for row in rows if row.standing == "planned"}
    assert kept == {("", "format"), ("", "name"), ("", "units"), ("", "we_are"), ("array", "controller"), ("household.controller pole", "name")}  # fmt: skip


@pytest.mark.parametrize(
    ("place", "said", "kept"),
    [
        ("44.1 N, 121.3 W, 3600 ft", "7 h a week", {"dec": 31.0, "jan": 31.0, "feb": 28.0}),
        ("44.1 N, 121.3 W, 3600 ft", "40 h/month", {"dec": 40.0, "jan": 40.0, "feb": 40.0}),
        ("33.9 S, 18.4 E, 200 m", "7 h per week", {"jun": 30.0, "jul": 31.0, "aug": 31.0}),
    ],
)
def test_hours_a_week_are_those_of_the_dark_months(
    owner: Owner, tmp_path: Path, place: str, said: str, kept: dict[str, float]
) -> None:
    owner.send("/letter/begin", **ANSWERS | {"place": place, "winter": said}, file="week")
    last = read_homestead(tmp_path / "week.toml").homestead.household.last_winter
    assert (last.engine_hours, last.engine_hours_by_month) == (None, kept)


def test_blanks_left_empty_are_assumed(owner: Owner, tmp_path: Path) -> None:
    owner.send("/letter/begin", file="empty")
    rows = read_homestead(tmp_path / "empty.toml").rows
    (latitude,) = [row for row in rows if row.key == "latitude"]
    assert (latitude.standing, latitude.why) == ("assumed", "left empty in the letter")


def test_what_cannot_be_read_is_told_at_its_blank_and_nothing_is_written(
    owner: Owner, tmp_path: Path
) -> None:
    reply = owner.send("/letter/begin", **ANSWERS | {"use": "7", "array": "12"}, file="x.toml")
    assert reply.status_code == 422
    assert "7 has no unit" in reply.text
    assert "columns x rows" in reply.text
    assert 'value="44.1 N, 121.3 W, 3600 ft"' in reply.text
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize(
    ("blank", "value", "told"),
    [
        ("use", "7", "7 has no unit"),
        ("use", "7 kWh", ""),
        ("winter", "", ""),
        ("winter", "6 h a week", ""),
        ("winter", "40 gal a month", "Of fuel the whole year's is wanted"),
        ("winter", "-5 gal", "Fuel: a volume with its unit"),
        ("place", "95 N, 121 W, 3600 ft", "Latitude: an angle with its unit"),
        ("array", "12", "Columns x rows"),
        ("array", "30 x 2, 400 W", "Columns: a whole number"),
        ("pole", "8 in", "cannot be read as a pole"),
        ("file", "a/b", "without a folder"),
        ("file", "new.toml", ""),
    ],
)
def test_a_blank_is_read_by_itself(owner: Owner, blank: str, value: str, told: str) -> None:
    wrong = owner.client.get("/letter/read", params={"blank": blank, "value": value}).json()["wrong"]  # fmt: skip
    assert told in wrong
    assert bool(told) is bool(wrong)
    if told:
        reply = owner.send("/letter/begin", **(ANSWERS | {"file": "x.toml"} | {blank: value}))
        assert reply.status_code == 422  # sent, it says the same
        assert told in unescape(reply.text)
        assert list(owner.desk.folder.iterdir()) == []


def test_all_that_is_wrong_is_told_at_once_also_the_name(owner: Owner) -> None:
    page = owner.send("/letter/begin", **ANSWERS | {"use": "7", "array": "12"}, file="a/b").text
    for words in ("7 has no unit", "columns x rows", "without a folder"):
        assert words in page


def test_no_other_blank_is_read(owner: Owner) -> None:
    assert owner.client.get("/letter/read", params={"blank": "x", "value": "1"}).status_code == 404


@pytest.mark.parametrize(
    "name",
    ["../x.toml", "/etc/x.toml", "a/b.toml", "..", "", ".x", "x\\y", "c:x", "nul\x00l", "a" * 80],
)
def test_no_file_is_begun_outside_the_folder(owner: Owner, tmp_path: Path, name: str) -> None:
    assert owner.send("/letter/begin", file=name).status_code == 422
    assert list(tmp_path.iterdir()) == []


def test_nothing_is_overwritten_not_even_through_a_link(owner: Owner, tmp_path: Path) -> None:
    (tmp_path / "there.toml").write_text("mine", encoding="utf-8")
    (tmp_path / "link.toml").symlink_to(tmp_path.parent / "elsewhere.toml")
    for name in ("there", "link.toml"):
        assert "there already" in owner.send("/letter/begin", file=name).text
    assert (tmp_path / "there.toml").read_text(encoding="utf-8") == "mine"
    assert not (tmp_path.parent / "elsewhere.toml").exists()


def test_a_demo_and_a_file_that_lies_here_are_opened(owner: Owner, tmp_path: Path) -> None:
    own_file(tmp_path)
    (tmp_path / "pyproject.toml").write_text("[project]\n", encoding="utf-8")
    page = owner.look("/letter")
    assert "larch.toml" in page
    assert "pyproject" not in page
    for name in ("Hollow Spruce", "Cinder Mesa", "Slieve Moss"):
        assert name in page
    assert "This is the demo Slieve Moss" in owner.send("/letter/demo", name="slieve-moss").text
    owner.send("/letter/open", name="larch.toml")
    assert owner.desk.state.path == tmp_path / "larch.toml"
    owner.send("/letter/open", name="../larch.toml")
    assert owner.desk.state.path == tmp_path / "larch.toml"
