"""The file leaf: every field is there, what is good is written, what is wrong is held and told, nobody's change is lost."""

from __future__ import annotations

import os
import re
import tomllib
from html import unescape
from pathlib import Path

import pytest

from polestead.homestead.demos import demo_path
from polestead.homestead.entries import parts_of
from polestead.homestead.text import fingerprint_of
from polestead.web.desk import Desk
from polestead.web.places import anchor
from polestead.web.plainly import plainly
from tests.web.deck import AtOnce, Owner, as_worked, desk_over, own_file


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return own_file(tmp_path)


@pytest.fixture
def owner(path: Path) -> Owner:
    return Owner(desk_over(path))


def held(path: Path) -> dict[str, object]:
    return tomllib.loads(path.read_text(encoding="utf-8"))


def beside(page: str, field: str) -> str:
    """What stands in and under one field."""
    after = page.partition(f'<div class="line faulty" id="{field}">')[2] or page.partition(f'<div class="line" id="{field}">')[2]  # fmt: skip
    return after.partition('<div class="line')[0]


def another_editor(path: Path, old: str, new: str) -> None:
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new), encoding="utf-8")
    os.utime(path, ns=(1, path.stat().st_mtime_ns + 10_000_000))


@pytest.mark.parametrize("demo", ["hollow-spruce", "slieve-moss"])
def test_every_field_of_the_model_has_its_place_with_label_and_help(
    tmp_path: Path, demo: str
) -> None:
    owner = Owner(desk_over(own_file(tmp_path, demo)))
    whole = parts_of(owner.desk.state.text, None)
    pages = {part.path[0]: owner.look(f"/file/{part.path[0]}") for part in whole.parts}
    pages[""] = owner.look("/file")
    count = 0
    for line in whole.every_line():
        if line.path == ("format",):
            continue  # it takes one value only
        page = pages[line.path[0] if len(line.path) > 1 else ""]
        field = beside(page, anchor(line.path))
        assert f'<label for="{anchor(line.path)}-in">' in field, line.path
        help_ = unescape(
            str(plainly(line.help, owner.desk.state.style))
        )  # labels for keys, one unit
        assert help_ in field, line.path
        count += 1
    assert count > 250


def test_a_good_entry_is_written_with_its_remarks_kept_and_says_what_it_was(
    owner: Owner, path: Path
) -> None:
    before = path.read_text(encoding="utf-8")
    page = owner.keep("household/battery/capacity", "800 Ah", back="/file/household")
    after = path.read_text(encoding="utf-8")
    assert after == before.replace('capacity = "740 Ah"', 'capacity = "800 Ah"')
    assert "# at the 20 h rate" in after
    assert (path.parent / "larch.toml.before").read_text(encoding="utf-8") == before
    assert "was 740 Ah" in beside(page.text, "f-household-battery-capacity")
    assert owner.desk.state.answer is not None
    assert owner.desk.state.answer.fingerprint == fingerprint_of(after)


def test_a_wrong_entry_is_not_written_and_told_beside_its_field_with_the_ways_it_may_be_meant(
    owner: Owner, path: Path
) -> None:
    before = path.read_text(encoding="utf-8")
    page = owner.keep("mount/hinge_height", "12", back="/file/mount").text
    field = beside(page, "f-mount-hinge_height")
    assert path.read_text(encoding="utf-8") == before
    assert "Given 12. The hinge height needs a unit: 12 ft, 12 in or 12 m?" in field
    assert re.findall(r'name="value" value="(12 [a-z]+)"', field) == ["12 ft", "12 in", "12 m"]
    assert 'value="12"' in field  # what was typed stays
    assert "In the file: <b>11 ft</b>" in field
    assert "At least 0 ft, at most 4.92 ft" in page  # one unit, of a nought too
    assert not re.search(r'class="span">[^<]*\d (?:m|mm)\b', page)
    assert "1 wrong" in page
    assert 'href="/file/mount#f-mount-hinge_height"' in page
    owner.keep("mount/hinge_height", "12 ft")
    assert 'hinge_height = "12 ft"' in path.read_text(encoding="utf-8")
    assert owner.desk.state.wrong == ()


def test_what_only_fits_together_is_written_together(owner: Owner, path: Path) -> None:
    before = path.read_text(encoding="utf-8")
    page = owner.keep("array/columns", "6", back="/file/array").text
    assert path.read_text(encoding="utf-8") == before
    assert "array: in parallel" in beside(page, "f-array-columns")
    owner.keep("array/in_series", "3")
    assert path.read_text(encoding="utf-8") == before
    owner.keep(
        "household/battery/health", "85 %"
    )  # good by itself: it does not wait for the others
    assert 'health = "85 %"' in path.read_text(encoding="utf-8")
    assert len(owner.desk.state.unkept) == 2
    owner.keep("array/in_parallel", "4")
    array = held(path)["array"]
    assert isinstance(array, dict)
    assert (array["columns"], array["in_series"], array["in_parallel"]) == (6, 3, 4)
    assert owner.desk.state.unkept == ()


def test_what_was_begun_can_be_let_be(owner: Owner, path: Path) -> None:
    owner.keep("mount/hinge_height", "a bit")
    owner.keep("array/columns", "6")
    owner.send("/file/let-go", at="mount/hinge_height")
    assert [change.path for change in owner.desk.state.unkept] == [("array", "columns")]
    owner.keep("array/columns", "4")  # typed back to what stands there
    assert owner.desk.state.unkept == ()
    owner.keep("mount/hinge_height", "a bit")
    owner.send("/file/let-go")
    assert owner.desk.state.wrong == ()


def test_undo_goes_back_step_by_step_to_the_first_text(owner: Owner, path: Path) -> None:
    texts = [path.read_text(encoding="utf-8")]
    for height in ("12 ft", "12 ft 6 in", "13 ft"):
        owner.keep("mount/hinge_height", height)
        texts.append(path.read_text(encoding="utf-8"))
    owner.keep("lock/holes", "5 deg\n15 deg")
    while owner.desk.state.steps:
        owner.send("/file/undo")
        assert path.read_text(encoding="utf-8") == texts.pop()
    assert texts == []


def test_an_older_text_is_looked_at_and_taken_back(owner: Owner, path: Path) -> None:
    first = path.read_text(encoding="utf-8")
    owner.keep("mount/hinge_height", "12 ft")
    owner.keep("mount/hinge_height", "13 ft")
    page = owner.look("/file/older?look=larch.toml.before")
    assert 'hinge_height = "11 ft"' in page
    assert 'hinge_height = "13 ft"' in page
    owner.send("/file/back", which="larch.toml.before")
    assert path.read_text(encoding="utf-8") == first
    assert 'hinge_height = "13 ft"' in (path.parent / "larch.toml.before-3").read_text(
        encoding="utf-8"
    )


def test_who_says_so_is_written_as_a_table(owner: Owner, path: Path) -> None:
    owner.keep(
        "place/exposure", "B", base="said", asked_of="the county", on="2026-11-20", why="", built=""
    )
    place = held(path)["place"]
    assert isinstance(place, dict)
    assert {name: str(value) for name, value in place["exposure"].items()} == {
        "said": "B",
        "asked_of": "the county",
        "on": "2026-11-20",
    }
    owner.keep(
        "mount/hinge_height",
        "11 ft",
        base="planned",
        built="11 ft 1/2 in",
        on="2026-11-21",
        asked_of="",
        why="",
    )
    mount = held(path)["mount"]
    assert isinstance(mount, dict)
    assert {name: str(value) for name, value in mount["hinge_height"].items()} == {
        "planned": "11 ft",
        "built": "11 ft 1/2 in",
        "on": "2026-11-21",
    }
    assert "as built, 2026-11-21" in beside(owner.look("/file/mount"), "f-mount-hinge_height")


def test_an_answer_without_the_one_who_gave_it_is_not_written(owner: Owner, path: Path) -> None:
    before = path.read_text(encoding="utf-8")
    page = owner.keep(
        "place/soil",
        "clay or silt",
        base="said",
        asked_of="",
        on="",
        why="",
        built="",
        back="/file/place",
    ).text
    assert path.read_text(encoding="utf-8") == before
    assert "an answer without the one who gave it" in beside(page, "f-place-soil")


def test_a_fact_typed_anew_stays_a_guess_and_anything_else_is_the_owners_word(
    tmp_path: Path,
) -> None:
    from polestead.homestead.start import start_from_letter

    path = tmp_path / "new.toml"
    start_from_letter(path, {}, "New")
    owner = Owner(desk_over(path))
    owner.keep("place/record_low", "-40 F")
    owner.keep("mount/hinge_height", "12 ft")
    file = held(path)
    place, mount = file["place"], file["mount"]
    assert isinstance(place, dict)
    assert isinstance(mount, dict)
    assert place["record_low"] == {
        "assumed": "-40 F",
        "why": "the owner's own guess; nobody was asked yet",
    }
    assert mount["hinge_height"] == "12 ft"


def test_one_of_a_list_is_begun_filled_in_and_taken_out(owner: Owner, path: Path) -> None:
    before = path.read_text(encoding="utf-8")
    page = owner.send(
        "/file/begin", at="household/controller", name="shed", back="/file/household"
    ).text
    assert path.read_text(encoding="utf-8") == before  # its limits are not told yet
    assert "household controller 3: voltage limit" in page
    owner.keep("household/controller/3/voltage_limit", "150 V")
    owner.keep("household/controller/3/current_limit", "60 A")
    household = held(path)["household"]
    assert isinstance(household, dict)
    assert household["controller"][2] == {
        "name": "shed",
        "voltage_limit": "150 V",
        "current_limit": "60 A",
    }
    owner.send("/file/out", at="household/controller/3")
    assert tomllib.loads(path.read_text(encoding="utf-8")) == tomllib.loads(before)


def test_a_name_of_the_owners_is_added_and_taken_out_and_a_section_begun(
    owner: Owner, path: Path
) -> None:
    before = tomllib.loads(path.read_text(encoding="utf-8"))
    owner.keep("household/uses", "40 W, all day", name="the goats' fence")
    assert held(path)["household"]["uses"]["the goats' fence"] == "40 W, all day"  # type: ignore[index]
    owner.send("/file/out", at="household/uses/the%20goats%27%20fence")
    assert held(path) == before
    owner.keep("shop/kerf", "3 mm")
    assert held(path)["shop"] == {"kerf": "3 mm"}


def test_a_field_that_may_be_left_out_is_left_out_when_it_is_emptied(
    owner: Owner, path: Path
) -> None:
    owner.keep("place/height_limit", "")
    assert "height_limit" not in held(path)["place"]  # type: ignore[operator]
    page = owner.keep("mount/pole", "", back="/file/mount").text
    assert "This must be written" in beside(page, "f-mount-pole")
    assert "pole" in held(path)["mount"]  # type: ignore[operator]


@pytest.mark.parametrize(
    "at",
    [
        "mount",
        "mount/nothing",
        "nothing",
        "",
        "mount/hinge_height/x",
        "household/uses/a/b",
        "format/1",
    ],
)
def test_what_is_no_field_is_refused(owner: Owner, path: Path, at: str) -> None:
    before = path.read_text(encoding="utf-8")
    assert owner.keep(at, "12 ft").status_code == 400
    assert path.read_text(encoding="utf-8") == before


@pytest.mark.parametrize(
    "value",
    [
        '"] \n[place]\nlatitude = "1',
        "x" * 3999,
        "\x00",
        "\\",
        '"""',
        "<script>alert(1)</script>",
        "{{ 7 * 7 }}",
    ],
)
def test_what_is_typed_never_gets_out_of_its_field(owner: Owner, path: Path, value: str) -> None:
    before = held(path)
    page = owner.keep("household/uses/washing", value, back="/file/household")
    assert page.status_code == 200
    assert held(path) == before
    assert "<script>alert" not in page.text
    name = owner.keep("name", value[:50].replace("\n", " "))
    assert name.status_code == 200
    assert {key: part for key, part in held(path).items() if key != "name"} == {
        key: part for key, part in before.items() if key != "name"
    }


def test_two_tabs_the_later_is_told_what_the_earlier_changed(owner: Owner, path: Path) -> None:
    looked_at = owner.desk.state.fingerprint
    owner.keep("mount/hinge_height", "12 ft")
    reply = owner.keep("mount/winter_tilt", "60 deg", of=looked_at, back="/file/mount")
    assert reply.status_code == 409
    assert 'hinge_height = "11 ft"' in reply.text.replace("&#34;", '"')
    assert "60 deg" in reply.text
    assert 'winter_tilt = "60 deg"' not in path.read_text(encoding="utf-8")
    owner.keep(
        "mount/winter_tilt", "60 deg"
    )  # keep mine: the same once more, on the text as it stands now
    text = path.read_text(encoding="utf-8")
    assert 'winter_tilt = "60 deg"' in text
    assert 'hinge_height = "12 ft"' in text


def test_another_editors_change_is_noticed_never_overwritten_and_taken_when_asked(
    owner: Owner, path: Path
) -> None:
    another_editor(path, 'health = "90 %"', 'health = "80 %"  # measured')
    theirs = path.read_text(encoding="utf-8")
    owner.desk._looked = 0.0
    assert owner.client.get("/state").json()["on_disk"] is True
    reply = owner.keep("mount/hinge_height", "12 ft")
    assert reply.status_code == 409
    assert "# measured" in reply.text
    assert path.read_text(encoding="utf-8") == theirs
    assert "# measured" in owner.look("/file/changed")
    owner.send("/file/disk", do="take")
    assert owner.desk.state.owners is not None
    assert owner.desk.state.owners.homestead.household.battery.health == pytest.approx(0.8)
    owner.keep("mount/hinge_height", "12 ft")
    assert "# measured" in path.read_text(encoding="utf-8")


def test_keep_mine_lays_the_other_text_beside(owner: Owner, path: Path) -> None:
    mine = path.read_text(encoding="utf-8")
    another_editor(path, 'health = "90 %"', 'health = "80 %"')
    theirs = path.read_text(encoding="utf-8")
    owner.desk._looked = 0.0
    owner.look("/file")
    owner.send("/file/disk", do="mine")
    assert path.read_text(encoding="utf-8") == mine
    assert (path.parent / "larch.toml.before").read_text(encoding="utf-8") == theirs


def test_a_file_that_is_gone_is_told_and_written_again_when_asked(owner: Owner, path: Path) -> None:
    mine = path.read_text(encoding="utf-8")
    path.unlink()
    owner.desk._looked = 0.0
    assert "does not exist" in owner.look("/file")
    owner.send("/file/disk", do="mine")
    assert path.read_text(encoding="utf-8") == mine


def test_a_wrong_file_keeps_the_last_good_answer_and_is_mended_field_by_field(
    owner: Owner, path: Path
) -> None:
    good = owner.desk.state.answer
    another_editor(path, 'elevation = "1,650 ft"', 'elevation = "1,650"')
    another_editor(path, 'wind_basis = "ASCE 7-16"', 'wind_bazis = "ASCE 7-16"')
    owner.desk._looked = 0.0
    owner.look("/")
    owner.send("/file/disk", do="take")
    page = owner.look("/file/place")
    assert owner.desk.state.answer is good
    assert "Drawn from your last good entry" in page
    assert "2 wrong" in page
    assert "The elevation needs a unit" in beside(page, "f-place-elevation")
    assert "wind_bazis is no key of this section. Did you mean wind_basis?" in page
    owner.keep("place/elevation", "1,650 ft")
    assert 'elevation = "1,650"' in path.read_text(encoding="utf-8")  # one is still wrong
    owner.send("/file/out", at="place/wind_bazis")
    assert 'elevation = "1,650 ft"' in path.read_text(encoding="utf-8")
    assert owner.desk.state.wrong == ()


def test_a_file_that_is_no_toml_shows_the_line(owner: Owner, path: Path) -> None:
    another_editor(path, "[mount]", "[mount")
    owner.desk._looked = 0.0
    owner.look("/")
    page = owner.send("/file/disk", do="take").text
    assert "1 thing to mend" in page
    number = path.read_text(encoding="utf-8").splitlines().index("[mount") + 1
    assert f"Mend line {number}" in page
    assert "Drawn from your last good entry" in owner.look("/")
    owner.send("/file/undo")
    assert "[mount]" in path.read_text(encoding="utf-8")


def test_a_broken_file_opens_with_what_is_wrong_and_without_an_answer(path: Path) -> None:
    another_editor(path, 'elevation = "1,650 ft"', 'elevation = "1,650"')
    owner = Owner(desk_over(path))
    assert owner.desk.state.answer is None
    assert "1 thing, then it is worked" in owner.look("/")
    assert "needs a unit" in owner.look("/file/place")
    owner.keep("place/elevation", "1,650 ft")
    assert owner.desk.state.answer is not None


def test_what_is_wrong_in_the_world_is_told_too(owner: Owner) -> None:
    def no_such_place(*_: object, progress: object) -> None:
        from polestead.base.problem import Problem, Wrong

        raise Wrong(
            [Problem("place", "longitude", "-140 deg", "a place on land", "Check its sign.")]
        )

    owner.desk._call = no_such_place  # type: ignore[assignment]
    page = owner.keep("mount/hinge_height", "12 ft", back="/file/place").text
    assert "Check its sign." in beside(page, "f-place-longitude")


def test_a_demo_is_never_written_and_becomes_a_file_of_ones_own_with_the_change(
    tmp_path: Path,
) -> None:
    shipped = demo_path("cinder-mesa").read_text(encoding="utf-8")
    desk = Desk(folder=tmp_path, call=as_worked, jobs=AtOnce())
    desk.open_demo("cinder-mesa")
    owner = Owner(desk)
    reply = owner.keep("name", "Our Mesa")
    assert reply.status_code == 409
    assert "A demo is never written" in reply.text
    for name in ("../mine.toml", "/etc/mine.toml", "", ".hidden", "a/b"):
        assert (
            owner.send(
                "/letter/own",
                at="name",
                value="Our Mesa",
                again="/file/keep",
                name_of_file=name,
            ).status_code
            == 422
        )
    owner.send(
        "/letter/own",
        at="name",
        value="Our Mesa",
        again="/file/keep",
        name_of_file="mine",
    )
    assert 'name = "Our Mesa"' in (tmp_path / "mine.toml").read_text(encoding="utf-8")
    assert demo_path("cinder-mesa").read_text(encoding="utf-8") == shipped
    assert desk.state.demo == ""


def test_what_is_being_typed_is_read_back(owner: Owner) -> None:
    def read(at: str, value: str) -> dict[str, object]:
        found: dict[str, object] = owner.client.get(
            "/file/echo", params={"at": at, "value": value}
        ).json()
        return found

    assert read("mount/hinge_height", "12 ft 6 in") == {
        "says": "3.81 m (12.5 ft)",
        "wrong": "",
        "ways": [],
    }
    assert read("mount/hinge_height", "12")["ways"] == ["12 ft", "12 in", "12 m"]
    assert "no use" not in str(read("household/uses/washing", "500 W, 1 h at midday"))
    assert owner.client.get("/file/echo", params={"at": "nothing", "value": "1"}).status_code == 404


def test_a_choice_of_this_device_is_kept_by_it_alone(owner: Owner) -> None:
    page = owner.send("/device", scheme="dark", back="/file").text
    assert 'data-scheme="dark"' in page
    page = owner.send("/device", units="metric", back="/file").text
    assert re.search(r'value="metric" aria-current="true"', page)
    assert 'data-type="large"' in owner.send("/device", type="large", back="/words").text
    assert 'data-scheme="machine"' in Owner(owner.desk).look("/words")


def test_every_term_has_its_line(owner: Owner) -> None:
    from polestead.web.terms import terms

    page = owner.look("/words")
    assert len(terms()) > 60
    for word, line in terms().items():
        assert f"<dt>{word}</dt><dd>{line}</dd>" in page
