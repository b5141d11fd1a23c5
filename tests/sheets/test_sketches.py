"""The cards' sketches and the cure clock: nothing overlaps or leaves the frame, only this act's figures, a day a tick."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from datetime import date
from functools import cache
from itertools import pairwise

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from polestead.answer.drawables import Drawables, drawables_of
from polestead.base.show import dimension, set_out
from polestead.build.cure import Cure, cured_by
from polestead.build.pieces.plates import hold_tilts_deg
from polestead.homestead.demos import demo_names, demo_path
from polestead.homestead.read import read_homestead
from polestead.sheets.book.acts import HEIGHTS_PX
from polestead.sheets.clip import clipped
from polestead.sheets.drawn.clock import DOTS, HEAVY, cure_clock, day_of
from polestead.sheets.drawn.index import drawing_named
from polestead.sheets.drawn.sketches.index import SKETCHES, WIDE_PX, sketch
from polestead.sheets.svg import PAPER, SCREEN
from tests.sheets.boxes import outside, overlaps, size_of, text_boxes
from tests.sheets.test_drawings import VARIANTS, changed

SVG = "{http://www.w3.org/2000/svg}"
LETTERS = 14.0 * 96.0 / 72.0


@cache
def drawn(demo: str) -> Drawables:
    return drawables_of(read_homestead(demo_path(demo)))


def said(svg: str) -> str:
    return " ".join(one.text or "" for one in ET.fromstring(svg).iter(f"{SVG}text"))  # noqa: S314


def sound(svg: str, ink) -> None:
    assert overlaps(svg, ink) == []
    assert outside(svg, ink) == []
    assert "nan" not in svg
    assert set(re.findall(r"url\(#([^)]+)\)", svg)) <= set(re.findall(r'id="([^"]+)"', svg))
    words = ET.fromstring(svg).find(f"{SVG}desc")  # noqa: S314
    assert words is not None
    assert len(words.text or "") > 8


@pytest.mark.parametrize("demo", demo_names())
@pytest.mark.parametrize("name", SKETCHES)
def test_no_words_of_a_sketch_touch_others_or_leave_it(demo, name) -> None:
    for style in ("feet", "metric"):
        for high in (WIDE_PX.get(name, HEIGHTS_PX[0]), 330.0):
            sound(sketch(name, drawn(demo), style, PAPER, 392.0, high, LETTERS), PAPER)
        sound(sketch(name, drawn(demo), style, SCREEN, 358.0, 360.0, 15.0), SCREEN)


@pytest.mark.parametrize("variant", VARIANTS)
def test_nor_do_those_of_other_homesteads(tmp_path, variant) -> None:
    d = changed(tmp_path, "hollow-spruce", *VARIANTS[variant])
    for name in SKETCHES:
        sound(sketch(name, d, "feet", PAPER, 392.0, 430.0, LETTERS), PAPER)


def test_without_drive_lock_and_own_lines_there_is_a_sketch_all_the_same(tmp_path) -> None:
    import tomlkit

    raw = tomlkit.parse(demo_path("hollow-spruce").read_text(encoding="utf-8"))
    for section in ("drive", "lock", "prop", "buried"):
        raw.pop(section, None)
    file = tmp_path / "poor.toml"
    file.write_text(tomlkit.dumps(raw), encoding="utf-8")
    d = drawables_of(read_homestead(file))
    for name in SKETCHES:
        sound(sketch(name, d, "feet", PAPER, 392.0, 430.0, LETTERS), PAPER)


@pytest.mark.parametrize("name", ["held", "stuck"])
@pytest.mark.parametrize("demo", demo_names())
def test_a_hold_is_drawn_as_the_kind_the_file_has(demo, name) -> None:
    d = drawn(demo)
    words = said(sketch(name, d, "feet", PAPER, 392.0, 430.0, LETTERS))
    holds = [one for one in (d.given.lock, d.given.prop) if one is not None]
    assert words.count("plate") == sum(one.strut is None for one in holds)
    assert words.count("strut") == sum(one.strut is not None for one in holds)
    # a plate has a hole for every tilt it is drilled for, over those of the hinge and the pins
    svg = sketch(name, d, "feet", PAPER, 392.0, 430.0, LETTERS)
    small = [one for one in ET.fromstring(svg).iter(f"{SVG}circle") if float(one.get("r") or 0.0) == 3.0]  # noqa: S314  # fmt: skip
    assert len(small) == len(hold_tilts_deg(d.given)) * sum(one.strut is None for one in holds)


@pytest.mark.parametrize("style", ["feet", "metric"])
@pytest.mark.parametrize("demo", demo_names())
def test_a_sketch_carries_the_figures_of_its_act_and_no_others(demo, style) -> None:
    d = drawn(demo)
    f, b, g = d.given.footing, d.built.braces, d.given.geometry
    wanted = {
        "hole": [f.depth_m, f.diameter_m],
        "brace": [
            set_out(b.at_m, style, "near"),
            set_out(b.stakes_m, style, "near"),
            f.pole_depth_m,
        ],
        "pour": [f.depth_m, f.diameter_m, f.pole_depth_m],
        "trench": [
            set_out(one, style, "up") for one in (d.trench.lengths.floor_m, d.built.trench.width_m)
        ],
        "trench laid": [d.given.run.cover_m, d.trench.ribbon.depth_m],
        "shop": [g.width_m, g.chord_m, d.given.mount.hinge_span_m],
        "held": [g.hinge_height_m],
        "locate": [d.given.run.length_m],
    }
    for name, metres in wanted.items():
        words = said(sketch(name, d, style, PAPER, 392.0, 430.0, LETTERS))
        for one in metres:
            assert dimension(one, style) in words, (name, one)
        assert len(re.findall(r"\d(?:″| mm)", words)) <= len(metres) + 4
    hole = said(sketch("hole", d, style, PAPER, 392.0, 430.0, LETTERS))
    assert dimension(f.pole_depth_m, style) not in hole or f.pole_depth_m == f.depth_m
    assert dimension(g.hinge_height_m, style) not in hole


def test_on_a_narrow_footing_the_words_stand_under_it_and_not_over_its_figures() -> None:
    """They had lain over pier, bank and the tick of the hole's width."""
    svg = drawing_named("footing", drawn("hollow-spruce"), "metric", SCREEN, 358.0)
    found = text_boxes(svg, SCREEN)
    deepest = max(box[4] for box in found if box[0] == "914 mm")
    for begins in ("Pole: 8 in", "Collar sloped", "Twist bars, two", "Concrete 20.7 MPa"):
        (under,) = [box for box in found if box[0].startswith(begins)]
        assert under[2] > deepest, begins
    assert "731 mm" in said(svg)  # the twist bars, as the cut list has them sawn


def test_the_heaps_figure_keeps_off_the_frosts_line() -> None:
    svg = sketch("hole", drawn("slieve-moss"), "metric", PAPER, 392.0, 420.0, LETTERS)
    boxes = {box[0]: box for box in text_boxes(svg, PAPER)}
    (frost_y,) = {float(y) for y in re.findall(r'<polyline points="[\d.]+,([\d.]+) [\d.]+,\1"[^>]*stroke-dasharray="10 4 2 4"', svg)}  # fmt: skip
    top, bottom = boxes["610 mm"][2], boxes["610 mm"][4]
    assert not top <= frost_y <= bottom


def test_modules_are_numbered_in_the_order_they_are_hung() -> None:
    d = drawn("hollow-spruce")
    svg = ET.fromstring(sketch("order", d, "feet", PAPER, 392.0, 380.0, LETTERS))  # noqa: S314
    at = {one.text: (float(one.get("x", 0)), float(one.get("y", 0))) for one in svg.iter(f"{SVG}text") if (one.text or "").isdigit()}  # fmt: skip
    steps = d.built.hanging.steps
    assert sorted(at, key=int) == [str(n + 1) for n in range(len(steps))]
    for nth, step in enumerate(steps, 1):
        left = sum(x < at[str(nth)][0] - 1.0 for x, y in at.values() if abs(y - at[str(nth)][1]) < 1.0)  # fmt: skip
        assert left == step.column - 1
        above = sum(y < at[str(nth)][1] - 1.0 for x, y in at.values() if abs(x - at[str(nth)][0]) < 1.0)  # fmt: skip
        assert above == d.strings.rows - step.row  # row 1 is the lowest


def strokes_of(svg: str, weight: float, dash: str | None) -> list[tuple[float, float]]:
    """Starts and ends of level strokes of one kind."""
    found = []
    for one in ET.fromstring(svg).iter(f"{SVG}path"):  # noqa: S314
        if float(one.get("stroke-width", 0)) == weight and one.get("stroke-dasharray") == dash:
            for x1, y1, x2, y2 in re.findall(r"M([\d.]+) ([\d.]+)L([\d.]+) ([\d.]+)", one.get("d") or ""):  # fmt: skip
                if y1 == y2:
                    found.append((float(x1), float(x2)))
    return found


@settings(deadline=None, max_examples=30)
@example([None] * 15)  # two marks six days apart
@given(st.lists(st.one_of(st.none(), st.floats(-10.0, 30.0)), max_size=40))
def test_a_day_with_its_temperature_is_ruled_one_without_is_dotted(days) -> None:
    cure = cured_by(days, 20.7e6)
    svg = cure_clock(cure, "metric", PAPER, 660.0, LETTERS)
    assert len(strokes_of(svg, HEAVY, None)) == sum(day.counts for day in cure.days)
    assert len(strokes_of(svg, HEAVY, DOTS)) == sum(day is None for day in days)
    assert overlaps(svg, PAPER) == []
    assert outside(svg, PAPER) == []


def test_marks_stand_at_their_days() -> None:
    # 3,000 psi, 20 C: 500 psi after less than the one day a form stays on; 70 of 100 after a week; all of it after 28 days
    blank = cured_by([], 20.684e6)
    assert {mark.name: day_of(blank, mark) for mark in blank.marks} == {"strip": 1, "bare steel": 7, "modules": 28}  # fmt: skip
    words = said(cure_clock(blank, "feet", PAPER, 660.0, LETTERS))
    for told in (
        "strip, 1",
        "bare steel, 7",
        "modules, 28",
        "poured ____",
        "under 45 F: 0",
        "add up",
    ):
        assert told in words
    # ten days at 10 C count five at 20 C: two more to bare steel, 23 more to modules
    cold = cured_by([10.0] * 10, 20.684e6, poured=date(2026, 6, 1))
    assert (day_of(cold, cold.mark("bare steel")), day_of(cold, cold.mark("modules"))) == (12, 33)
    assert "poured 1 Jun 2026" in said(cure_clock(cold, "metric", PAPER, 660.0, LETTERS))


def test_a_mark_never_reached_is_not_drawn() -> None:
    weak: Cure = cured_by([], 15e6, needed_pa=20e6)  # wants 1.33 of it; the curve ends at 7/6
    assert day_of(weak, weak.mark("modules")) is None
    assert "modules" not in said(cure_clock(weak, "feet", PAPER, 660.0, LETTERS))


def test_on_a_narrow_screen_the_clock_keeps_its_words_inside() -> None:
    svg = cure_clock(cured_by([], 20.684e6), "feet", SCREEN, 358.0, 15.0)
    assert overlaps(svg, SCREEN) == []
    assert outside(svg, SCREEN) == []
    assert size_of(svg)[0] == 358.0


def test_no_wire_runs_through_a_modules_name_or_sign_on_the_card() -> None:
    """Two strings of three turn a row: their wires go up through the middle of modules."""
    for style in ("feet", "metric"):
        svg = sketch("strings", drawn("cinder-mesa"), style, PAPER, 392.0, 400.0, LETTERS)
        root = ET.fromstring(svg)  # noqa: S314  our own drawing
        wires = [w for w in root.iter(f"{SVG}polyline") if w.get("stroke-width") == "2"]
        ways = [
            s
            for w in wires
            for s in pairwise(
                [tuple(map(float, p.split(","))) for p in (w.get("points") or "").split()]
            )
        ]
        assert len(ways) == 4
        boxes = [one[1:] for one in text_boxes(svg, PAPER)]
        assert not [way for way in ways for box in boxes if clipped(way, box) is not None]
