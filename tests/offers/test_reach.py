"""How far a doubtful row moves the answers: spans that can be written, bearings that are worked, the order."""

from __future__ import annotations

import tomllib
from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest

from polestead.base.row import Row
from polestead.homestead.demos import demo_names, demo_path
from polestead.homestead.read import check_text, read_homestead
from polestead.homestead.start import start_from_letter
from polestead.homestead.text import text_of
from polestead.homestead.write import changed_text
from polestead.offers.doubts import Doubt, Ranked, doubts_of
from polestead.offers.reach import VERDICT_POINTS, Bearing, Reach, Trials, path_of
from polestead.offers.spans import Span, Variant, span_of
from polestead.sheets.doubts import doubts_text, reach_words


@cache
def trials(name: str, years: int = 10) -> Trials:
    path = demo_path(name)
    return Trials(read_homestead(path), text_of(path), years=years)


def row_of(name: str, section: str, key: str) -> Row:
    rows = read_homestead(demo_path(name)).rows
    return next(row for row in rows if (row.section, row.key) == (section, key))


def reach_of(name: str, section: str, key: str) -> Reach:
    row = row_of(name, section, key)
    span = span_of(row)
    assert span is not None
    return trials(name).reach(row, span)


@pytest.mark.parametrize("name", demo_names())
def test_every_written_row_is_found_where_it_stands_in_the_text(name: str) -> None:
    owners, whole = read_homestead(demo_path(name)), tomllib.loads(text_of(demo_path(name)))
    for row in owners.rows:
        *sections, key = path_of(owners.homestead, row)
        here = whole
        for part in sections:
            here = here[int(part) - 1] if isinstance(here, list) else here.get(part, {})
        assert (key in here) == (row.standing != "default"), row


def test_every_end_of_every_span_can_be_written_in_the_file_of_somebody_who_knows_nothing(
    tmp_path: Path,
) -> None:
    path = tmp_path / "new.toml"
    start_from_letter(path, {"place": "45.1 N, 93 W, 1000 ft"}, "New")
    owners, text = read_homestead(path), text_of(path)
    written = 0
    for doubt in doubts_of(owners.rows):
        span = span_of(doubt.row)
        for end in span.variants if span else ():
            if end.value is not None:
                changed, _ = text_and_problems(text, path_of(owners.homestead, doubt.row), end)
                assert changed, (doubt.row.section, doubt.row.key, end)
                written += 1
    assert written > 40


def text_and_problems(text: str, place: tuple[str, ...], end: Variant) -> tuple[bool, str]:
    """Whether an end reads as a value of its field; that it fits the rest of the file is another matter."""
    from polestead.base.problem import Wrong

    try:
        check_text(changed_text(text, {place: end.value}))
    except Wrong as wrong:
        told = " ".join(f"{one.key} {one.allowed} {one.do}" for one in wrong.problems)
        return "unit" not in told and "number" not in told, told
    return True, ""


def test_a_colder_record_takes_what_the_coefficient_says_of_the_room() -> None:
    row = replace(row_of("hollow-spruce", "place", "record_low"), standing="assumed")
    span = span_of(row)
    assert span is not None
    assert [
        round(float(end.written.split()[0].replace("\u2212", "-"))) for end in span.variants
    ] == [-58, -40]
    reach = trials("hollow-spruce").reach(row, span)
    assert reach.base.room_v is not None
    colder, warmer = (end.room_v for end in reach.ends)
    assert colder is not None
    assert warmer is not None
    # four modules of 39.5 V, .25 % a kelvin: 4 x 39.5 x .0025 = .395 V a kelvin, and the margin of 3 % on it;
    # the ends are written to a whole degree of Fahrenheit, so half of one may be lost
    assert reach.base.room_v - colder == pytest.approx(6.0 * 0.395 * 1.03, abs=0.5 * 0.395)
    assert warmer - reach.base.room_v == pytest.approx(4.0 * 0.395 * 1.03, abs=0.5 * 0.395)


def test_more_wind_uses_more_and_what_the_tilts_stand_to_does_not_hang_on_the_map() -> None:
    row = replace(row_of("hollow-spruce", "place", "wind_speed"), standing="assumed")
    span = span_of(row)
    assert span is not None
    reach = trials("hollow-spruce").reach(row, span)
    less, more = reach.ends
    assert less.weakest_gust_m_s == more.weakest_gust_m_s == reach.base.weakest_gust_m_s
    assert (less.most_used or 0.0) <= (reach.base.most_used or 0.0) < (more.most_used or 0.0)
    assert reach.turns
    assert reach.points > VERDICT_POINTS


def test_more_uses_and_darker_years_run_the_engine_longer() -> None:
    uses = reach_of("hollow-spruce", "household", "use_factor")
    years = reach_of("hollow-spruce", "climate", "source")
    for reach in (uses, years):
        assert reach.base.engine_h is not None
        assert all(end.engine_h is not None for end in reach.ends)
    (fewer, more), (dark, bright) = uses.ends, years.ends
    assert fewer.engine_h < uses.base.engine_h < more.engine_h  # type: ignore[operator]
    assert bright.engine_h < years.base.engine_h < dark.engine_h  # type: ignore[operator]


def test_an_end_that_contradicts_the_file_is_told_and_counts_for_nothing() -> None:
    reach = reach_of("slieve-moss", "place", "frost_soil")
    assert reach.ends[0].refused
    assert reach.points == 0.0
    assert not reach.turns
    assert "was not tried" in " ".join(reach_words(reach, "metric"))


def test_nothing_is_written_to_the_owner_s_file(tmp_path: Path) -> None:
    path = tmp_path / "mine.toml"
    path.write_bytes(demo_path("hollow-spruce").read_bytes())
    before = path.read_bytes()
    row = row_of("hollow-spruce", "place", "exposure")
    span = span_of(row)
    assert span is not None
    Trials(read_homestead(path), text_of(path), years=10).reach(row, span)
    assert path.read_bytes() == before
    assert [one.name for one in tmp_path.iterdir()] == ["mine.toml"]


def made(key: str, points: float, turns: bool = False) -> Ranked:
    row = Row("place", key, "so", 1.0, "", "assumed")
    span = Span((Variant("else", "else"),), "stand", "Look.", trials_source())
    end = Bearing(30.0, 1.2 if turns else 0.9, "pole")
    return Ranked(Doubt(row, False, "Measure it.", "", ""), Reach(span, Bearing(40.0, 0.8, "pole"), (end,), points))  # fmt: skip


def trials_source():  # type: ignore[no-untyped-def]
    span = span_of(Row("place", "exposure", "C", "C", "", "assumed"))
    assert span is not None
    return span.source


def test_the_page_tells_what_moves_much_what_moves_little_and_what_has_no_span() -> None:
    none = Ranked(Doubt(Row("view", "fist", "10 deg", 10.0, "deg", "assumed"), False, "Measure it.", "", ""), None)  # fmt: skip
    told = doubts_text(
        "Here", [made("exposure", 101.0, turns=True), made("soil", 0.1), none], "feet"
    )
    much, little = told.index("place exposure"), told.index("place soil")
    assert told.index("The verdict turns on it.") < little
    assert much < told.index("These move next to nothing") < little < told.index("view fist")
    assert "pole gives: 120 of 100; as it stands pole uses 80 of 100." in " ".join(told.split())
    assert "Settle it: Look." in told
    assert "not a stamped design" in " ".join(told.split())
