"""The charts: no word on another, none outside, in any ink; what is drawn is what was worked."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from dataclasses import replace

import pytest

from polestead.homestead.demos import demo_names, demo_path
from polestead.homestead.read import read_homestead
from polestead.sheets.book.drawn import own_drawings
from polestead.sheets.charts import gust_card
from polestead.sheets.charts_costs import costs_chart
from polestead.sheets.charts_fortnight import fortnight_chart, hours_told, runs_of
from polestead.sheets.charts_rod import rod_force_chart
from polestead.sheets.svg import PAPER, SCREEN
from polestead.sheets.tonight import TonightGust
from tests.answers import worked
from tests.sheets.boxes import outside, overlaps
from tests.sheets.strokes import pieces_of, run_through, words_of

CHARTS = ("year", "fortnight", "habits", "rod force", "costs")


@pytest.mark.parametrize("name", demo_names())
@pytest.mark.parametrize(("ink", "width"), [(PAPER, 760.0), (SCREEN, 802.0), (SCREEN, 720.0)])
def test_no_word_lies_on_another_or_outside(name, ink, width):
    drawings = own_drawings(read_homestead(demo_path(name)), worked(name), "feet", ink, width)
    for chart in CHARTS:
        if chart in drawings:
            svg = drawings[chart]()
            assert overlaps(svg, ink) == [], chart
            assert outside(svg, ink) == [], chart
            words = ET.fromstring(svg)[1].text  # noqa: S314  our own drawing
            assert len(words or "") > 40


@pytest.mark.parametrize("name", demo_names())
def test_charts_drawn_anew_for_a_phone_have_every_word_to_itself(name):
    drawings = own_drawings(read_homestead(demo_path(name)), worked(name), "feet", SCREEN, 346.0)
    for chart in ("fortnight", "habits", "costs"):
        svg = drawings[chart]()
        assert overlaps(svg, SCREEN) == [], chart
        assert outside(svg, SCREEN) == [], chart


def test_two_weeks_one_under_the_other_are_the_same_fortnight():
    """The charge read back from the two lines of a phone's chart, hour by hour."""
    told = worked("hollow-spruce").winter.fortnight
    svg = fortnight_chart(told, SCREEN, 358.0)
    weeks = [[point.split(",") for point in found.split()] for found in re.findall(r'<polyline points="([^"]*)"', svg)]  # fmt: skip
    bases = sorted({float(y) for y in re.findall(r'<line x1="32" y1="([^"]*)"', svg)})
    assert [len(week) for week in weeks] == [
        169,
        168,
    ]  # the first goes on to the second's first hour
    read = [(base - float(y)) / 120.0 for week, base in zip(weeks, bases, strict=True) for _, y in week[:168]]  # fmt: skip
    assert read == pytest.approx(told.charge_share, abs=0.001)
    assert weeks[0][-1][0] == "354.00"
    assert weeks[1][0][0] == "40.00"
    places = hours_told(told, 358.0)
    assert [(f"{float(one['x']):.0f}", one["base"]) for one in places[::168]] == [("40", base) for base in bases]  # fmt: skip


def test_the_same_picture_on_page_and_paper_but_for_ink_and_face():
    told = worked("hollow-spruce").winter.fortnight
    page, paper = (fortnight_chart(told, ink) for ink in (SCREEN, PAPER))

    def bare(svg: str) -> str:
        return re.sub(r'(fill|stroke|font-family)="[^"]*"', "", svg)

    assert bare(page) == bare(paper)


def test_the_year_chart_needs_no_colour():
    """Solid and outline, thin and heavy: a grey copy loses nothing, since only inks of the medium are used."""
    drawings = own_drawings(read_homestead(demo_path("hollow-spruce")), worked("hollow-spruce"), "feet")  # fmt: skip
    for chart in CHARTS:
        colours = set(re.findall(r'(?:fill|stroke)="(#[0-9A-F]{6})"', drawings[chart]()))
        assert colours <= {PAPER.ink, PAPER.pencil, PAPER.ghost, PAPER.edge}


def test_the_engine_blocks_of_the_fortnight_are_the_hours_it_ran():
    told = worked("hollow-spruce").winter.fortnight
    blocks = len(re.findall(r"<rect", fortnight_chart(told, PAPER)))
    assert blocks == len(runs_of(told.engine_h))
    assert sum(hours for _, _, hours in runs_of(told.engine_h)) == pytest.approx(sum(told.engine_h))


def test_the_bars_of_cost_are_as_long_as_their_money():
    money = worked("hollow-spruce").money
    svg = costs_chart(money.ledger, money.currency, PAPER)
    wide = sorted({float(w) for w in re.findall(r'<rect x="[^"]*" y="[^"]*" width="([^"]*)" height="15"', svg)})  # fmt: skip
    totals = sorted({part.total for part in money.ledger.parts})
    assert len(wide) == len(totals)
    for long, total in zip(wide, totals, strict=True):
        assert long / wide[-1] == pytest.approx(total / totals[-1], abs=0.001)


def test_what_is_given_back_has_its_bar_so_that_bars_and_sum_agree():
    """Cinder Mesa has a rebate of 240 in its ledger."""
    money = worked("cinder-mesa").money
    svg = costs_chart(money.ledger, money.currency, PAPER)
    drawn = [float(words.replace(",", "").replace("−", "-").partition(" ")[0]) for words in re.findall(r">([−0-9,]+(?: given back)?)</text>", svg)]  # fmt: skip
    assert -240.0 in drawn
    assert sum(drawn) == pytest.approx(money.ledger.total, abs=0.5 * len(drawn))
    assert "grants: −240 given back" in svg  # for those who do not see it
    assert re.search(rf'fill="{PAPER.pencil}"[^>]*>−240 given back<', svg)


def test_the_weight_line_lies_where_its_force_is():
    """Pixels back into pounds by the two outermost figures of the axis."""
    forces = worked("hollow-spruce").more.rod_forces
    svg = rod_force_chart(forces, "feet", PAPER)
    ticks = {}
    for y, words in re.findall(r'<text [^>]*?y="([^"]*)"[^>]*text-anchor="end"[^>]*>([−0-9,]+)</text>', svg):  # fmt: skip
        ticks[float(words.replace(",", "").replace("−", "-"))] = float(y) - 4.5
    low, high = min(ticks), max(ticks)
    line = re.search(r'<polyline points="([^"]*)"[^>]*stroke-width="2.5"', svg)
    assert line is not None
    for point, force in zip(line.group(1).split(), forces, strict=True):
        y = float(point.split(",")[1])
        pounds = low + (ticks[low] - y) / (ticks[low] - ticks[high]) * (high - low)
        assert pounds == pytest.approx(force.dead_n / 4.4482216152605, abs=(high - low) / 200.0)


@pytest.mark.parametrize("name", demo_names())
@pytest.mark.parametrize("style", ["feet", "metric"])
def test_the_gust_card_says_of_every_span_what_gives_and_from_which_side(name, style):
    stand = worked(name).stand
    for ink, width, size in ((PAPER, 760.0, 13.0), (PAPER, 680.0, 13.0), (SCREEN, 802.0, 13.0), (SCREEN, 358.0, 13.0), (SCREEN, 358.0, 17.0)):  # fmt: skip
        svg = gust_card(stand, style, ink, width, 300.0, size)
        assert overlaps(svg, ink) == []
        assert outside(svg, ink) == []
        told = [one.text for one in ET.fromstring(svg).iter("{http://www.w3.org/2000/svg}text")]  # noqa: S314
        assert {row.gives_first for row in stand.card} <= set(told)
    below = sum(int(float(drop) > 0) for drop in re.findall(r"M[\d.]+ [\d.]+v(-?\d+)", svg))
    above = sum(int(float(drop) < 0) for drop in re.findall(r"M[\d.]+ [\d.]+v(-?\d+)", svg))
    assert (below > 0) == any(row.wind_side == "back" for row in stand.card)
    assert (above > 0) == any(row.wind_side == "glass" for row in stand.card)


@pytest.mark.parametrize("name", demo_names())
@pytest.mark.parametrize(("width", "size", "step"), [(802.0, 13.0, 3), (802.0, 17.0, 5), (720.0, 13.0, 9), (358.0, 13.0, 15), (358.0, 17.0, 15)])  # fmt: skip
def test_no_stroke_of_the_gust_card_runs_through_its_words(name, width, size, step):
    stand = worked(name).stand
    for tonight in (None, TonightGust(18.0, 25.4)):
        for row in stand.card[::step]:
            svg = gust_card(
                stand, "feet", SCREEN, width, 340.0, size, row.tilt_deg, "card", tonight
            )
            root = ET.fromstring(svg)  # noqa: S314  our own drawing
            words = list(words_of(root, SCREEN))
            assert run_through(words, list(pieces_of(root))) == [], row.tilt_deg
            assert "not at this tilt" in [word for word, *_ in words]
            assert overlaps(svg, SCREEN) == []
            assert outside(svg, SCREEN) == []


def test_the_days_of_a_fortnight_that_turns_the_month_lie_clear_on_a_narrow_chart():
    told = replace(worked("hollow-spruce").winter.fortnight, calendar_days=(365, *range(1, 14)))
    assert overlaps(fortnight_chart(told, SCREEN, 640.0), SCREEN) == []


@pytest.mark.parametrize("rules", [(0.0, 0.05), (0.2, 0.3), (0.55, 0.85), (0.9, 1.0)])
def test_wherever_the_charge_ends_its_word_and_those_of_the_rules_are_clear(rules):
    told = worked("hollow-spruce").winter.fortnight
    for percent in range(0, 101, 5):
        ends = replace(told, charge_share=(*told.charge_share[:-1], percent / 100.0))
        svg = fortnight_chart(ends, SCREEN, 720.0, rules=rules)
        assert overlaps(svg, SCREEN) == []
        assert outside(svg, SCREEN) == []
        for word, share in zip(("call at", "let go at"), rules, strict=True):
            assert f"{word} {100.0 * share:.0f} %" in svg


def test_large_forces_in_newtons_lie_inside_the_chart():
    """By the letters of a wide screen face: minus 0.84, a figure 0.64, a comma 0.32 of the size."""
    forces = [replace(one, snow_push_n=-21_000.0) for one in worked("hollow-spruce").more.rod_forces]  # fmt: skip
    svg = rod_force_chart(forces, "metric", SCREEN, 640.0)
    (ends_at,) = re.findall(r'<text [^>]*?x="([^"]*)"[^>]*>−20,000</text>', svg)
    assert float(ends_at) >= (0.84 + 5 * 0.64 + 0.32) * 13.0
