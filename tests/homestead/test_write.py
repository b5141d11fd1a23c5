"""Written back: comments kept, whole or not at all, the older file never lost."""

from __future__ import annotations

import os
from pathlib import Path

import pytest
import tomlkit
from hypothesis import given, settings
from hypothesis import strategies as st

from polestead.base.problem import Wrong
from polestead.homestead.demos import demo_names, demo_path
from polestead.homestead.read import read_homestead
from polestead.homestead.start import LETTER, start_from_demo, start_from_letter
from polestead.homestead.text import fingerprint_of, text_of
from polestead.homestead.write import changed_text, keep_text

TEXT = demo_path("hollow-spruce").read_text(encoding="utf-8")
HINGE = ("mount", "hinge_height")


@pytest.mark.parametrize("name", demo_names())
def test_a_file_read_and_written_back_is_the_same_file(name: str) -> None:
    text = demo_path(name).read_text(encoding="utf-8")
    assert changed_text(text, {}) == text


@settings(deadline=None)  # how long a file takes to read is no law
@given(st.floats(0.5, 11.9).map(lambda metres: f"{metres:.3f} m"))
def test_one_change_changes_one_line_and_keeps_every_comment(value: str) -> None:
    before, after = TEXT.splitlines(), changed_text(TEXT, {HINGE: value}).splitlines()
    changed = [(old, new) for old, new in zip(before, after, strict=True) if old != new]
    assert changed == [('hinge_height = "11 ft"', f'hinge_height = "{value}"')]


LINES = st.sampled_from(
    ["", "   ", "# a remark", "   # äöü ✓ = [x]", "\t# tab", '# "quoted" \\ back']
)


@given(
    st.lists(st.tuples(st.integers(0, TEXT.count("\n")), LINES), max_size=12),
    st.sampled_from(["\n", "\r\n"]),
    st.sampled_from(["", "  ", "\t"]),
)
def test_however_the_owner_sets_his_file_only_the_changed_line_changes(
    remarks: list[tuple[int, str]], end: str, trailing: str
) -> None:
    lines = [line + trailing for line in TEXT.splitlines()]
    for at, remark in sorted(remarks, reverse=True):
        lines.insert(at, remark)
    text = end.join(lines) + end
    assert changed_text(text, {}) == text
    before, after = text.split(end), changed_text(text, {HINGE: "3.5 m"}).split(end)
    changed = [(old, new) for old, new in zip(before, after, strict=True) if old != new]
    assert [(old.strip(), new.strip()) for old, new in changed] == [
        ('hinge_height = "11 ft"', 'hinge_height = "3.5 m"')
    ]


def test_a_file_with_windows_line_ends_and_its_mark_keeps_both(tmp_path: Path) -> None:
    path = tmp_path / "home.toml"
    raw = b"\xef\xbb\xbf" + TEXT.replace("\n", "\r\n").encode()
    path.write_bytes(raw)
    text = text_of(path)
    keep_text(path, changed_text(text, {HINGE: "12 ft"}), fingerprint_of(text))
    assert path.read_bytes() == raw.replace(b'"11 ft"', b'"12 ft"')
    assert (tmp_path / "home.toml.before").read_bytes() == raw


def test_a_link_is_followed_and_stays_a_link(tmp_path: Path) -> None:
    true, link = tmp_path / "true.toml", tmp_path / "link.toml"
    true.write_text(TEXT, encoding="utf-8")
    link.symlink_to(true)
    keep_text(link, changed_text(TEXT, {HINGE: "12 ft"}), fingerprint_of(TEXT))
    assert link.is_symlink()
    assert '"12 ft"' in true.read_text(encoding="utf-8")


def test_a_new_file_in_no_folder_is_told(tmp_path: Path) -> None:
    for path in (tmp_path / "none" / "home.toml", tmp_path / ("x" * 300), tmp_path / "a\0b"):
        with pytest.raises(Wrong, match="may not be written"):
            keep_text(path, TEXT, None)


def test_lists_tables_and_removals_are_reached() -> None:
    text = changed_text(
        TEXT,
        {
            ("household", "controller", "2", "voltage_limit"): "300 V",
            HINGE: {"planned": "11 ft", "built": "11 ft 1/2 in"},
            ("climate", "snow_on_ground"): None,
        },
    )
    found = tomlkit.parse(text).unwrap()
    assert found["household"]["controller"][1]["voltage_limit"] == "300 V"
    assert found["mount"]["hinge_height"] == {"planned": "11 ft", "built": "11 ft 1/2 in"}
    assert "snow_on_ground" not in found["climate"]


@pytest.mark.parametrize(
    "path",
    [
        ("nowhere", "x"),
        ("household", "controller", "9", "name"),
        ("household", "controller", "0", "name"),
        ("household", "controller", "two", "name"),
        ("household", "controller", "1"),
        ("name", "x", "y"),
        ("name", "x"),
    ],
)
def test_a_path_that_leads_nowhere_is_told(path: tuple[str, ...]) -> None:
    with pytest.raises(Wrong, match="not in the file"):
        changed_text(TEXT, {path: "1"})


def test_the_older_file_lies_beside_the_new_one(tmp_path: Path) -> None:
    path = tmp_path / "home.toml"
    path.write_text(TEXT, encoding="utf-8")
    path.chmod(0o600)
    for number, height in enumerate(("12 ft", "13 ft"), start=1):
        older = path.read_text(encoding="utf-8")
        kept = keep_text(path, changed_text(older, {HINGE: height}), fingerprint_of(older))
        assert kept == tmp_path / f"home.toml.before{'' if number == 1 else '-2'}"
        assert kept.read_text(encoding="utf-8") == older
    assert read_homestead(path).homestead.mount.hinge_height_m == pytest.approx(13 * 0.3048)
    for file in tmp_path.iterdir():
        assert file.stat().st_mode & 0o777 == 0o600, file.name
    assert sorted(file.name for file in tmp_path.iterdir()) == [
        "home.toml",
        "home.toml.before",
        "home.toml.before-2",
    ]


def test_a_file_that_changed_meanwhile_is_not_overwritten(tmp_path: Path) -> None:
    path = tmp_path / "home.toml"
    path.write_text(TEXT + "# mine\n", encoding="utf-8")
    with pytest.raises(Wrong, match="someone else"):
        keep_text(path, TEXT, fingerprint_of(TEXT))
    assert path.read_text(encoding="utf-8").endswith("# mine\n")


def test_a_text_with_problems_is_never_written(tmp_path: Path) -> None:
    path = tmp_path / "home.toml"
    with pytest.raises(Wrong, match="hinge_height"):
        keep_text(path, changed_text(TEXT, {HINGE: "11"}), None)
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("step", ["fsync", "replace"])
def test_a_failure_half_way_leaves_the_older_file_and_no_rubbish(
    step: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "home.toml"
    path.write_text(TEXT, encoding="utf-8")

    def fail(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, step, fail)
    with pytest.raises(Wrong, match="No space left"):
        keep_text(path, changed_text(TEXT, {HINGE: "12 ft"}), fingerprint_of(TEXT))
    monkeypatch.undo()
    assert path.read_text(encoding="utf-8") == TEXT
    assert [file.name for file in tmp_path.iterdir()] == ["home.toml"]


@pytest.mark.parametrize("name", demo_names())
def test_a_new_file_from_a_demo_reads(name: str, tmp_path: Path) -> None:
    path = tmp_path / "new.toml"
    start_from_demo(path, name)
    assert read_homestead(path).homestead.name
    with pytest.raises(Wrong, match="there already"):
        start_from_demo(path, name)


def test_the_empty_letter_assumes_everything_and_says_so(tmp_path: Path) -> None:
    path = tmp_path / "new.toml"
    start_from_letter(path, {}, "Our place")
    file = read_homestead(path)
    standing = {(row.section, row.key): row.standing for row in file.rows}
    for key in (
        "latitude",
        "longitude",
        "elevation",
        "wind_speed",
        "exposure",
        "ground_snow",
        "record_low",
        "frost_depth",
        "soil",
    ):
        assert standing["place", key] == "assumed"
    assert standing["mount", "pole"] == "assumed"
    assert standing["array", "columns"] == "assumed"
    assert file.homestead.household.last_winter.fuel_l is None
    for section in (
        "household.battery",
        "mount",
        "drive",
        "lock",
        "footing",
        "run",
        "array.module",
        "household.engine",
    ):
        told = {standing[row.section, row.key] for row in file.rows if row.section == section}
        assert told <= {"assumed", "default"}, section


def test_nothing_of_the_demos_own_place_stays_in_a_new_file(tmp_path: Path) -> None:
    path = tmp_path / "new.toml"
    start_from_letter(path, {"place": "45.0, -110.0, 5000 ft"}, "Ours")
    home = read_homestead(path).homestead
    assert home.view.skyline == ()
    assert home.household.old_array == ()
    assert [controller.name for controller in home.household.controller] == ["pole"]
    assert home.prices.lines == {}
    assert home.climate.snow_on_ground == ()


def test_the_letter_takes_the_owners_words(tmp_path: Path) -> None:
    path = tmp_path / "new.toml"
    answers = {
        "place": "35.1 S, 149.2 E, 1,620 m", "array": "3 x 2, 400 W", "pole": "6 in schedule 80 A53 B", "use": "5 kWh", "winter": "220 h",
    }  # fmt: skip
    start_from_letter(path, answers, "South")
    home = read_homestead(path).homestead
    assert (home.place.latitude_deg, home.place.longitude_deg, home.place.clock_offset_hours) == (
        -35.1,
        149.2,
        10.0,
    )
    assert (home.array.columns, home.array.rows, home.array.in_series * home.array.in_parallel) == (
        3,
        2,
        6,
    )
    assert (home.place.elevation_m, home.units) == (1620.0, "metric")
    assert home.mount.facing_deg == 0.0
    assert home.household.last_winter.engine_hours == pytest.approx(220.0)
    assert sum(use.power_w * use.hours_per_day for use in home.household.use_list) == pytest.approx(
        5000.0
    )


@pytest.mark.parametrize(
    ("place", "latitude", "longitude"),
    [
        ("64.8 N, 147.7 W, 440 ft", 64.8, -147.7),
        ("64.8, -147.7, 440 ft", 64.8, -147.7),
        ("−35.123456° , 149.2 e , 20 m", -35.123456, 149.2),
        ("35.1 deg S, 0 E, 0 m", -35.1, 0.0),
    ],
)
def test_a_place_is_taken_with_letters_or_with_signs(
    place: str, latitude: float, longitude: float, tmp_path: Path
) -> None:
    path = tmp_path / "new.toml"
    start_from_letter(path, {"place": place}, "x")
    found = read_homestead(path).homestead.place
    assert (found.latitude_deg, found.longitude_deg) == (latitude, longitude)


@pytest.mark.parametrize("place", ["91.4 W, 47.9 N, 1 m", "-47.9 S, 1 E, 1 m", "47.9, 91.4", "47.9 N 91.4 W 1 m", "nan, inf, 1 m"])  # fmt: skip
def test_a_place_that_can_be_read_two_ways_is_refused(place: str, tmp_path: Path) -> None:
    with pytest.raises(Wrong) as told:
        start_from_letter(tmp_path / "new.toml", {"place": place}, "x")
    assert [problem.key for problem in told.value.problems] == ["place"]


def test_every_wrong_answer_of_the_letter_is_told_at_once(tmp_path: Path) -> None:
    answers = {blank.key: "?" for blank in LETTER}
    with pytest.raises(Wrong) as told:
        start_from_letter(tmp_path / "new.toml", answers, "x")
    assert {problem.key for problem in told.value.problems} == {blank.key for blank in LETTER}
