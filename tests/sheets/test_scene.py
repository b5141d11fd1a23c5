"""The drawing of the sheet, its title block, slips and habits: what they say is what the sums say, in the room there is."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from dataclasses import replace
from html import unescape
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from polestead.answer.day_sun import SunOfDays, sun_of_days
from polestead.answer.tilts import Tilts, tilts_of
from polestead.base.show import Style, dimension, gust
from polestead.mount.gauge import gauge_of
from polestead.sheets.axes import spread
from polestead.sheets.book.gusts import tape_rows
from polestead.sheets.habit_lines import habit_groups, plan_of
from polestead.sheets.scene.field import RIM_PX_PER_M_S, SIZES, field_of, size_named
from polestead.sheets.scene.scene import Day, changes_of, empty_scene, scene
from polestead.sheets.sentences import tipping_worth
from polestead.sheets.slip import Slips, slug
from polestead.sheets.svg import SCREEN
from polestead.sheets.title_block import MOST, title_block
from polestead.sheets.workings import of_answer
from polestead.sheets.year import year_picture, year_upright
from polestead.stand.setting import SET_WITHIN_DEG
from polestead.stand.stances import set_within_deg
from tests.answers import on_the_desk
from tests.sheets.strokes import pieces_of, run_through, words_of

NAMES = ("hollow-spruce", "cinder-mesa", "slieve-moss")
SVG = "{http://www.w3.org/2000/svg}"
DAY = Day("21 Dec", 18.7, (300.0, 4200.0, 7800.0))


@pytest.fixture(scope="module", params=NAMES)
def one(request: pytest.FixtureRequest) -> tuple[Any, Tilts]:
    state = on_the_desk(request.param)
    return state, tilts_of(state.owners)


@pytest.mark.parametrize("name", list(SIZES))
def test_the_drawing_is_sound_at_every_width_and_no_longer_than_its_field(one: tuple[Any, Tilts], name: str) -> None:  # fmt: skip
    state, tilts = one
    for which in ("side", "front", "plan"):
        svg, changes = scene(state.answer, tilts, state.style, SCREEN, size_named(name), 30.0, DAY, which)  # fmt: skip
        root = ET.fromstring(svg)  # noqa: S314  our own drawing
        assert root.get("viewBox") == f"0 0 {SIZES[name].width:g} {SIZES[name].height:g}"
        assert "style=" not in svg
        assert "nan" not in svg
        ids = [node.get("id") for node in root.iter() if node.get("id")]
        assert len(ids) == len(set(ids))
        assert all(group in ids for group in changes.groups)
        assert len(changes.told) <= SIZES[name].numbers


def test_numbers_are_those_of_the_card_and_the_sums_of_that_tilt(one: tuple[Any, Tilts]) -> None:
    state, tilts = one
    field = field_of(state.answer, tilts, state.style, SCREEN, size_named("wide"))
    for row in state.answer.stand.card[::7]:
        here = tilts.at[tilts.place_of(row.tilt_deg)]
        told = {number.key: number for number in changes_of(field, row.tilt_deg, DAY).told}
        assert told["stands-to"].head == (f"stands to {gust(row.stands_to_m_s, state.style)}",)
        assert told["lowest-edge"].head == (dimension(here.lowest_edge_m, state.style, 1),)
        assert row.gives_first in " ".join(told["first-gives"].head)
        assert told["sun"].head == ("4.2 kWh, 21 Dec",)
        most = max(use for name, use in here.uses if name.startswith("pole"))
        shown = int(re.findall(r"\d+", " ".join(told["pole"].head))[0])
        assert shown - 1 < 100.0 * most <= shown + 1e-9


def test_the_rim_is_as_high_as_the_gust_and_the_scale_does_not_change_with_the_tilt(one: tuple[Any, Tilts]) -> None:  # fmt: skip
    state, tilts = one
    field = field_of(state.answer, tilts, state.style, SCREEN, size_named("wide"))
    assert 0.0 < field.rim_px_per_m_s <= RIM_PX_PER_M_S
    still = [scene(state.answer, tilts, state.style, SCREEN, size_named("wide"), tilt, DAY)[0].split('id="wide-rod"')[0] for tilt in (10.0, 60.0)]  # fmt: skip
    left, right = (re.sub(r"<title>.*?</title>|<desc>.*?</desc>|aria-label=\"[^\"]*\"|data-tilt=\"[^\"]*\"", "", svg) for svg in still)  # fmt: skip
    assert left == right
    g = state.answer.geometry
    highest = min(field.on_arc(row.tilt_deg, field.rim(row.stands_to_m_s))[1] for row in state.answer.stand.card)  # fmt: skip
    assert highest >= 0.0
    assert field.at(0.0, -state.answer.pier.depth_m)[1] <= field.size.height
    assert field.on_arc(g.least_tilt_deg, field.rim(state.answer.stand.code_gust_m_s))[0] <= field.rail  # fmt: skip


DAYS = {355: DAY, 172: Day("21 Jun", 65.7, (7800.0, 16400.0, 20900.0))}
EVERY = [("wide", False, 355, 1), ("wide", True, 355, 1), ("narrow", False, 355, 1), ("narrow", True, 355, 1), ("mid", False, 355, 6), ("paper", False, 355, 6), ("mid", True, 172, 6), ("wide", False, 172, 6), ("wide", True, 172, 6)]  # fmt: skip


@pytest.mark.parametrize(("name", "large", "day", "step"), EVERY)
def test_no_stroke_runs_through_a_word_at_any_whole_tilt(one: tuple[Any, Tilts], name: str, large: bool, day: int, step: int) -> None:  # fmt: skip
    state, tilts = one
    size, card = size_named(name, large), state.answer.stand.card
    svg, changes = scene(state.answer, tilts, state.style, SCREEN, size, 30.0, DAYS[day])
    root = ET.fromstring(svg)  # noqa: S314  our own drawing
    field = field_of(state.answer, tilts, state.style, SCREEN, size)
    moving = {*changes.groups, *changes.attributes}
    groups = {node.get("id"): node for node in root.iter() if node.get("id") in moving}
    for parent in list(root.iter()):
        for child in [one for one in parent if one.get("id") in moving]:
            parent.remove(child)
    still, still_words = list(pieces_of(root)), list(words_of(root, SCREEN))
    assert len(still) > 50
    found, said = {}, 0
    for row in card[::step]:
        now = changes_of(field, row.tilt_deg, DAYS[day])
        wrapped = [ET.fromstring(f"<g xmlns='http://www.w3.org/2000/svg'>{inside}</g>") for inside in now.groups.values()]  # fmt: skip  # noqa: S314
        for name_, attributes in now.attributes.items():
            for key, value in attributes.items():
                groups[name_].set(key, value)
            wrapped.append(groups[name_])
        pieces = [*still, *(piece for node in wrapped for piece in pieces_of(node))]
        words = [*still_words, *(box for node in wrapped for box in words_of(node, SCREEN))]
        said = max(said, len(words))
        bad = run_through(words, pieces)
        if bad:
            found[row.tilt_deg] = bad
    assert found == {}
    assert said > (5 if size.keyed else 12)


@pytest.mark.parametrize("name", ["wide", "paper"])
def test_no_leader_runs_into_words_in_the_other_units(one: tuple[Any, Tilts], name: str) -> None:
    """Millimetres are broader than feet and inches: a leader begins where its own words end."""
    state, tilts = one
    other: Style = "metric" if state.style == "feet" else "feet"
    for tilt_deg in (9.0, 42.0, 70.0):
        svg, _ = scene(state.answer, tilts, other, SCREEN, size_named(name), tilt_deg, DAY)
        root = ET.fromstring(svg)  # noqa: S314  our own drawing
        assert run_through(list(words_of(root, SCREEN)), list(pieces_of(root))) == []


def test_a_stroke_through_a_word_is_seen() -> None:
    """The eye of the test above is not blind: a line, a curve and a ring through a word are found, one beside it is not."""
    word = '<text x="100" y="50" font-size="13">lowest edge</text>'
    for shape, through in (
        ('<path d="M90 40L200 55" stroke="red"/>', True), ('<path d="M90 80C120 20 150 20 180 80" stroke="red"/>', True),
        ('<circle cx="95" cy="45" r="14" stroke="red"/>', True), ('<line x1="90" y1="56" x2="200" y2="56" stroke="red"/>', False),
        ('<g transform="rotate(-90 100 100)"><path d="M100 120H160" stroke="red"/></g>', True), ('<path d="M90 40L200 55" stroke="none"/>', False),
    ):  # fmt: skip
        root = ET.fromstring(f"<svg xmlns='http://www.w3.org/2000/svg'>{word}{shape}</svg>")  # noqa: S314
        assert bool(run_through(list(words_of(root, SCREEN)), list(pieces_of(root)))) is through, (
            shape
        )


def test_what_is_over_its_limit_is_said_in_rust_with_a_break(one: tuple[Any, Tilts]) -> None:
    state, tilts = one
    weak = replace(tilts, at=tuple(replace(here, uses=tuple((name, 1.12) for name, _ in here.uses)) for here in tilts.at))  # fmt: skip
    svg, changes = scene(state.answer, weak, state.style, SCREEN, size_named("wide"), 30.0, DAY)
    told = {number.key: number for number in changes.told}
    assert "gives: 112 of 100" in told["pole"].words
    assert told["pole"].colour == "rust"
    assert "l4 -5l4 10l4 -10l4 10l3 -5" in svg
    sound, _ = scene(state.answer, tilts, state.style, SCREEN, size_named("wide"), 30.0, DAY)
    assert "l4 -5l4 10l4 -10l4 10l3 -5" not in sound


@pytest.mark.parametrize("name", list(SIZES))
def test_a_pier_in_soil_nobody_has_confirmed_has_its_mark(one: tuple[Any, Tilts], name: str) -> None:  # fmt: skip
    state, tilts = one
    for standing, marked in (("assumed", True), ("said", False)):
        rows = tuple(replace(row, standing=standing) if (row.section, row.key) == ("place", "soil") else row for row in state.answer.rows)  # fmt: skip
        size = replace(size_named(name), numbers=9)
        field = field_of(replace(state.answer, rows=rows), tilts, state.style, SCREEN, size)
        pier = next(one for one in changes_of(field, 60.0, DAY).told if one.key == "pier")
        assert ("~" in pier.head[0]) is marked
        assert (pier.colour == "ochre") is marked


@pytest.mark.parametrize("style", ["feet", "metric"])
def test_every_length_of_the_drawing_is_a_dimension_and_the_rod_is_read_as_in_the_tape_table(one: tuple[Any, Tilts], style: Style) -> None:  # fmt: skip
    state, tilts = one
    drive, mount = state.owners.homestead.drive, state.owners.homestead.mount
    gauge = gauge_of(drive, mount.least_tilt_deg, mount.steepest_tilt_deg)
    svg, changes = scene(state.answer, tilts, style, SCREEN, size_named("wide"), 30.0, DAY)
    words = [unescape(found) for found in re.findall(r"<text[^>]*>(.*?)</text>", svg)]
    assert not [said for said in words if re.search(r"\d ft\b|(?<![\d,.])\d(?:\.\d+)? m\b", said)]
    (rod,) = (number.head[0] for number in changes.told if number.key == "rod")
    (shown,) = (row[1] for row in tape_rows(gauge, style) if row[0] == "30°")
    assert rod == f"rod out {shown}"
    assert all(row[1].startswith("~") is not gauge.proved for row in tape_rows(gauge, style))
    slip = Slips(state.answer, tilts, None, style, 30.0, 355).of("rod")
    assert slip is not None
    assert slip.heading.endswith(f"the rod is out {shown}")


def test_a_clash_is_hatched_across_with_words_at_it(one: tuple[Any, Tilts]) -> None:
    state, tilts = one
    stand = state.answer.stand
    hit = tuple(replace(check, use=9.0) if check.part == "frame and pole" else check for check in stand.geometry_checks)  # fmt: skip
    answer = replace(state.answer, stand=replace(stand, geometry_checks=hit))
    svg, _ = scene(answer, tilts, state.style, SCREEN, size_named("wide"), 30.0, DAY)
    assert "frame meets the pole at " in svg
    assert 'fill="url(#wide-clash)"' in svg


def test_the_ground_is_hatched_where_the_rim_falls_inside_the_code_s_wind(one: tuple[Any, Tilts]) -> None:  # fmt: skip
    state, tilts = one
    stand = state.answer.stand
    for speed, hatched in ((0.0, False), (500.0, True)):
        answer = replace(state.answer, stand=replace(stand, code_gust_m_s=speed))
        svg, _ = scene(answer, tilts, state.style, SCREEN, size_named("wide"), 30.0, DAY)
        assert ('fill="url(#wide-short)"' in svg) is hatched


def test_before_there_is_an_answer_nothing_is_invented() -> None:
    for size in SIZES.values():
        svg = empty_scene(SCREEN, size)
        assert svg.count("not yet") == 5
        assert not re.search(r">[^<]*\d[^<]*<", svg)


def test_an_answer_fits_its_cell(one: tuple[Any, Tilts]) -> None:
    state, _ = one
    answer, stand = state.answer, state.answer.stand
    changed = [answer, replace(answer, stand=replace(stand, verdict="stands only when laid flat"))]
    for check in stand.checks:
        broken = (replace(check, use=1.12), *(one for one in stand.checks if one is not check))
        changed.append(replace(answer, stand=replace(stand, verdict="gives", checks=broken)))
    changed.append(replace(answer, money=replace(answer.money, total=1234567.0)))
    for case in changed:
        cells = title_block(case, state.style)
        assert all(0 < len(cell.answer) <= MOST for cell in cells), [cell.answer for cell in cells]
        assert all(cell.beside for cell in cells)
    said = [title_block(case, state.style)[0].answer for case in changed]
    assert all(words.startswith("No") for words in said[2:-1])


@given(st.lists(st.tuples(st.floats(0.0, 500.0), st.floats(5.0, 60.0)), max_size=8))
@settings(max_examples=60)
def test_words_spread_on_a_rail_keep_their_order_their_gap_and_the_field(given_: list[tuple[float, float]]) -> None:  # fmt: skip
    boxes = sorted(given_)
    wanted, high = [at for at, _ in boxes], [tall for _, tall in boxes]
    tops = spread(wanted, high, 0.0, 600.0)
    for n in range(len(tops) - 1):
        assert tops[n] + high[n] <= tops[n + 1] + 1e-6
    assert all(top >= -1e-6 and top + tall <= 600.0 + 1e-6 for top, tall in zip(tops, high, strict=True))  # fmt: skip


def test_every_working_of_the_answer_has_a_slip(one: tuple[Any, Tilts]) -> None:
    state, tilts = one
    slips = Slips(state.answer, tilts, None, state.style, 30.0, 355)
    names = [slug(name) for name, _ in of_answer(state.answer)]
    assert len(names) == len(set(names))
    for key in (*names, "stands-to", "lowest-edge", "first-gives", "pole", "pier", "top", "heap"):
        slip = slips.of(key)
        assert slip is not None, key
        assert slip.heading
        assert slip.rungs
        assert all(row.unsettled for row in slip.assumed)
        assert all(rung.source for rung in slip.rungs)
    assert slips.of("sun") is None  # still being worked
    assert slips.of("nothing of the kind") is None


def test_the_sun_of_a_day_is_dull_middle_and_bright_in_this_order() -> None:
    state = on_the_desk("cinder-mesa")
    tilts = tilts_of(state.owners).setting.card_tilts_deg[::35]
    sun: SunOfDays = sun_of_days(state.owners, state.answer.geometry, tilts, state.answer.seed)
    assert sun.wh.shape == (3, tilts.size, 365)
    assert (sun.wh[0] <= sun.wh[1]).all()
    assert (sun.wh[1] <= sun.wh[2]).all()
    winter, summer = 355, 172
    steep, flat = float(tilts[-1]), float(tilts[0])
    assert (
        sun.of(steep, winter)[2] > sun.of(flat, winter)[2]
    )  # on bright days the lower sun wants it steeper
    assert sun.of(flat, summer)[1] > sun.of(steep, summer)[1]
    assert sun.working(steep, winter).result.value == pytest.approx(sun.of(steep, winter)[1])


def test_the_year_has_the_hours_of_the_title_block(one: tuple[Any, Tilts]) -> None:
    state, _ = one
    told, was = re.findall(r"\d[\d,]*", title_block(state.answer, state.style)[1].answer)
    for svg in (year_picture(state.answer, SCREEN), year_upright(state.answer, SCREEN)):
        assert f"{told} with it" in svg
        assert f"{was} without" in svg


def test_ways_of_tipping_are_told_once_and_the_bound_is_none_of_them(one: tuple[Any, Tilts]) -> None:  # fmt: skip
    state, _ = one
    answer = state.answer
    lines = [line for _, some in habit_groups(answer) for line in some]
    assert sorted(line.nth for line in lines) == [n for n, habit in enumerate(answer.habits) if not habit.a_bound]  # fmt: skip
    plan = plan_of(answer)
    assert [line.nth for line in lines if line.chosen] == ([] if plan is None else [plan])


def test_the_year_of_a_habit_hangs_its_own_hours(one: tuple[Any, Tilts]) -> None:
    state, _ = one
    answer = state.answer
    for habit in answer.habits:
        wide, narrow = year_picture(answer, SCREEN, habit=habit), year_upright(answer, SCREEN, habit=habit)  # fmt: skip
        assert f"{habit.engine_hours.median:,.0f} with it" in wide
        assert f"{habit.engine_hours.median:,.0f} with it" in narrow
        for svg in (wide, narrow):
            ET.fromstring(svg)  # noqa: S314  our own drawing
            assert "nan" not in svg
        assert all(low <= high for low, high in zip(habit.sun_used_low_wh_by_month, habit.sun_used_high_wh_by_month, strict=True))  # fmt: skip


def test_tipping_in_storm_sets_like_against_like_and_says_how_near_it_is_set(
    one: tuple[Any, Tilts],
) -> None:
    """Two tilts of the card within the setting error of each; the card's own rows beside them stand to more."""
    state, _ = one
    stand, fixed = state.answer.stand, state.answer.tipping.fixed_tilt_deg
    flat = next(stance for stance in stand.stances if stance.name == "storm flat")
    near = [row.stands_to_m_s for row in stand.card if abs(row.tilt_deg - fixed) <= SET_WITHIN_DEG]
    short = title_block(state.answer, state.style)[2].beside[-1]
    long = tipping_worth(state.answer)
    for words in (short, long):
        assert f"of {fixed:.0f}°" in words
        assert f"within {set_within_deg(flat.tilt_deg):.0f}° of {flat.tilt_deg:.0f}°" in words
        assert gust(min(near), state.style) in words
        assert gust(flat.stands_to_m_s, state.style) in words
