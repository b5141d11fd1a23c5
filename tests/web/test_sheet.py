"""The sheet in a real browser: tipped by keys, mouse and steps; numbers opened; habits chosen; printed; on three widths."""

from __future__ import annotations

import io
import json
import re
from collections.abc import Iterator
from dataclasses import replace
from functools import partial
from pathlib import Path
from typing import Any

import pytest
from pypdf import PdfReader

from polestead.answer.answer import Answer
from polestead.answer.tilts import tilts_of
from polestead.base.show import gust
from polestead.homestead.edits import Change
from polestead.homestead.read import OwnersFile
from polestead.sheets.scene.field import field_of, size_named
from polestead.sheets.svg import SCREEN
from polestead.sheets.text import day_words
from polestead.sheets.tonight import TonightGust
from polestead.web.app import sheet_app
from polestead.web.desk import Desk
from polestead.web.kept import KEPT
from polestead.web.leaves import sheet as sheet_leaf
from tests.answers import on_the_desk, worked
from tests.sheets.pdf_text import pages_of
from tests.web import browser
from tests.web.browser import served
from tests.web.deck import AtOnce, own_file
from tests.web.deck import served as desked

pytestmark = pytest.mark.browser
DEMO = "hollow-spruce"
WIDTHS = {"wide": 1280, "mid": 768, "narrow": 390}
WINTER = "2026-12-21"

OVERLAPS = """(svg) => {
  const seen = (one) => one.getClientRects().length && one.textContent.trim();
  const frame = svg.getBoundingClientRect();
  const words = [...svg.querySelectorAll('text')].filter(seen);
  const boxes = words.map((one) => [one.textContent, one.getBoundingClientRect()]);
  const found = [];
  for (let n = 0; n < boxes.length; n++) {
    const [a, p] = boxes[n];
    if (p.left < frame.left - .5 || p.right > frame.right + .5 || p.top < frame.top - .5 || p.bottom > frame.bottom + .5) found.push('outside: ' + a);
    for (let m = n + 1; m < boxes.length; m++) {
      const [b, q] = boxes[m];
      const dx = Math.min(p.right, q.right) - Math.max(p.left, q.left), dy = Math.min(p.bottom, q.bottom) - Math.max(p.top, q.top);
      if (dx > 1 && dy > 3) found.push(a + ' | ' + b);
    }
  }
  return found;
}"""
RINGS = """(svg) => {
  const rings = [...svg.querySelectorAll('a.number circle[r="11"]')].map((one) => [Number(one.getAttribute('cx')), Number(one.getAttribute('cy'))]);
  return rings.flatMap((a, n) => rings.slice(n + 1).filter((b) => Math.hypot(a[0] - b[0], a[1] - b[1]) < 23));
}"""
EVERY_TILT = """async ([width, day, check, step]) => {
  const svg = document.getElementById('scene-' + width), look = eval(check), found = {};
  for (let tilt = Number(svg.dataset.least); tilt <= Number(svg.dataset.steepest); tilt += step) {
    const told = await (await fetch(`/draw?tilt=${tilt}&width=${width}&day=${day}`)).json();
    for (const [id, inside] of Object.entries(told.groups)) { const group = document.getElementById(id); if (group) group.innerHTML = inside; }
    const bad = look(svg);
    if (bad.length) found[tilt] = bad;
  }
  return found;
}"""


@pytest.fixture(scope="module")
def state() -> Any:
    return on_the_desk(DEMO)


@pytest.fixture(scope="module")
def address(state: Any) -> Iterator[str]:
    KEPT.wait(state.owners, state.answer)
    with served(state) as at:
        yield at


def opened(chromium: Any, address: str, width: int = 1280, path: str = "?tilt=52", **how: Any) -> Any:  # fmt: skip
    page = chromium.new_context(viewport={"width": width, "height": 900}, **how).new_page()
    page.said = []
    page.on("console", lambda message: page.said.append(message.text))
    page.on("pageerror", lambda error: page.said.append(str(error)))
    page.goto(address + path)
    return page


until = partial(browser.until, patience_s=10.0)


def settled(page: Any) -> None:
    until(page, "!document.querySelector('.drawn.waiting')")


@pytest.mark.parametrize("large", [False, True])
@pytest.mark.parametrize("width", list(WIDTHS))
def test_no_words_overlap_or_leave_the_frame_at_any_tilt(chromium: Any, address: str, width: str, large: bool) -> None:  # fmt: skip
    context = chromium.new_context(viewport={"width": WIDTHS[width], "height": 900}, bypass_csp=True)  # fmt: skip
    if large:
        context.add_cookies([{"name": "type", "value": "large", "url": address}])
    page = context.new_page()
    page.goto(address)
    assert page.evaluate(EVERY_TILT, [width, WINTER, OVERLAPS, 1]) == {}
    assert page.evaluate(EVERY_TILT, [width, "2026-06-21", OVERLAPS, 10]) == {}  # the sun high
    if width == "narrow":
        assert page.evaluate(EVERY_TILT, [width, WINTER, RINGS, 1]) == {}
    context.close()


@pytest.mark.parametrize("demo", ["cinder-mesa", "slieve-moss"])
def test_nor_in_the_other_demos_with_large_type(chromium: Any, demo: str) -> None:
    other = on_the_desk(demo)
    KEPT.wait(other.owners, other.answer)
    with served(other) as at:
        context = chromium.new_context(viewport={"width": 768, "height": 900}, bypass_csp=True)
        context.add_cookies([{"name": "type", "value": "large", "url": at}])
        page = context.new_page()
        page.goto(at)
        for day in (WINTER, "2026-06-21"):
            assert page.evaluate(EVERY_TILT, ["mid", day, OVERLAPS, 7]) == {}
        context.close()


GUST_CARD = "document.getElementById('card-narrow-today').closest('svg')"


@pytest.mark.parametrize("tonight", [None, TonightGust(18.0, 25.4)])
@pytest.mark.parametrize("demo", [DEMO, "cinder-mesa", "slieve-moss"])
def test_no_words_overlap_or_leave_the_gust_card_of_a_phone_with_large_type(
    chromium: Any, demo: str, tonight: TonightGust | None, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(sheet_leaf, "_tonight", lambda *_: tonight)
    with served(on_the_desk(demo)) as at:
        context = chromium.new_context(viewport={"width": 390, "height": 844}, bypass_csp=True)
        page = context.new_page()
        for kind in ("usual", "large"):
            context.add_cookies([{"name": "type", "value": kind, "url": at}])
            for tilt in (20, 52, 90) if kind == "large" else (45,):
                page.goto(f"{at}?tilt={tilt}")
                assert page.evaluate(f"({OVERLAPS})({GUST_CARD})") == [], (kind, tilt)
                size = float(page.evaluate(f"{GUST_CARD}.querySelector('text').getAttribute('font-size')"))  # fmt: skip
                assert size == (17.0 if kind == "large" else 13.0)
                assert page.evaluate("document.documentElement.scrollWidth") <= 390
        if tonight:
            told = page.inner_text("#card-said").replace("\xa0", " ")
            assert "Tonight 40 to 57 mph is told" in told or "Tonight 18 to 26 m/s is told" in told  # fmt: skip
            assert "tonight, to " in page.evaluate(f"{GUST_CARD}.textContent")
        context.close()


def test_the_compare_key_lays_the_state_before_the_last_edit_under_this_one(
    chromium: Any, tmp_path: Path
) -> None:
    def raised(owners: OwnersFile, *_: Any, progress: Any) -> Answer:
        answer, height_m = worked(DEMO), owners.homestead.mount.hinge_height_m
        return replace(
            answer, fingerprint=owners.fingerprint, geometry=replace(answer.geometry, hinge_height_m=height_m),
            money=replace(answer.money, total=answer.money.total + 1000.0 * (height_m > 3.5)),
        )  # fmt: skip

    desk = Desk(folder=tmp_path, call=raised, jobs=AtOnce())
    desk.open(own_file(tmp_path))
    with desked(sheet_app(desk)) as at:
        page = opened(chromium, at, path="/?tilt=52")
        assert page.locator("#before-key").count() == 0  # nothing was edited yet
        assert page.request.get(f"{at}/before").status == 404
        desk.keep((Change(("mount", "hinge_height"), "12 ft"),), "hinge height", desk.state.fingerprint)  # fmt: skip
        page.goto(f"{at}/?tilt=52")
        settled(page)
        now = page.locator(".cell .answer a").nth(2).inner_text()
        page.keyboard.down("c")
        until(page, "document.querySelectorAll('#wide-before path').length === 4")
        paths = page.locator("#wide-before path")
        assert [one.get_attribute("stroke-dasharray") for one in paths.all()] == ["4 4"] * 4
        was = page.locator(".cell .answer del").nth(2)
        until(page, "[...document.querySelectorAll('.cell .answer del')].every(one => !one.hidden)")
        assert was.inner_text() != now
        assert f"{worked(DEMO).money.total:,.0f}" in was.inner_text()
        mast = page.locator("#wide-before path").nth(2).bounding_box()
        answer = desk.state.answer
        assert answer is not None
        field = field_of(answer, KEPT.tilts(desk.state.owners, answer), "feet", SCREEN, size_named("wide"))  # fmt: skip
        frame = page.locator("#scene-wide").bounding_box()
        foot_m = 12 * 0.3048 - 11 * 0.3048  # what it was raised by
        top_now = frame["y"] + field.hinge[1] + answer.geometry.pole_top_below_m * field.scale
        assert mast["y"] - top_now == pytest.approx(foot_m * field.scale, abs=1.5)
        page.keyboard.up("c")
        until(page, "document.querySelectorAll('#wide-before path').length === 0")
        assert was.is_hidden()
        page.locator("#before-key").click()
        until(page, "document.querySelectorAll('#wide-before path').length === 4")
        assert page.locator("#before-key").get_attribute("aria-pressed") == "true"
        page.locator("#before-key").press("Enter")
        until(page, "document.querySelectorAll('#wide-before path').length === 0")
        assert page.said == []
        page.context.close()


ASKED = (
    "performance.getEntriesByType('resource').some((one) => one.name.includes('/draw?tilt=%d&'))"
)
PRESSED = """(serial) => {
  const handle = document.getElementById('wide-handle');
  if (serial) document.body.dataset.serial = serial;
  handle.dispatchEvent(new KeyboardEvent('keydown', { key: 'ArrowDown', bubbles: true, cancelable: true }));
  return handle.getAttribute('aria-valuenow');
}"""


HEARD = """() => {
  const place = document.getElementById('announce');
  window.heard = [];
  new MutationObserver(() => window.heard.push(place.textContent)).observe(place, { childList: true });
}"""


def test_what_is_to_be_said_is_not_lost_to_a_quiet_question_behind_it(chromium: Any, address: str) -> None:  # fmt: skip
    page = chromium.new_context(viewport={"width": 1280, "height": 900}).new_page()
    late: list[Any] | None = []
    page.route("**/draw?tilt=25&*", lambda one: one.continue_() if late is None else late.append(one))  # fmt: skip
    page.goto(address + "?tilt=52")
    page.locator("#wide-handle").focus()
    page.keyboard.press("s")
    until(page, "document.querySelector('.drawn.waiting') !== null")
    page.wait_for_timeout(900)  # the page's own quiet question, .6 s after it began, waits behind
    first, late = late, None
    for one in first:
        one.continue_()
    until(page, "document.querySelector('#announce').textContent.startsWith('25 degrees, stands to ')")  # fmt: skip
    page.context.close()


def test_keys_tip_it_and_the_figures_are_those_of_the_sums(chromium: Any, address: str, state: Any) -> None:  # fmt: skip
    page = opened(chromium, address)
    page.evaluate(HEARD)
    handle = page.locator("#wide-handle")
    handle.focus()
    steps = {"ArrowUp": 53, "ArrowRight": 54, "ArrowDown": 53, "PageUp": 58, "PageDown": 53, "Home": 5, "End": 75, "f": 5, "w": 65, "s": 25}  # fmt: skip
    for key, tilt in steps.items():
        page.keyboard.press(key)
        until(page, f"document.getElementById('wide-handle').getAttribute('aria-valuenow') === '{tilt}'")  # fmt: skip
        settled(page)
        row = next(one for one in state.answer.stand.card if one.tilt_deg == tilt)
        words = page.locator("#wide-said").text_content()
        assert f"stands to {gust(row.stands_to_m_s, 'feet')}" in words
        assert f"{tilt}°" in page.locator("#card-said").inner_text()
        assert page.locator("#today-first").inner_text() == row.gives_first
    for where in (
        "#wide-handle",
        "#day-field",
        "input[name=habit]:checked",
    ):  # whoever goes by keys sees where he is
        page.locator(where).focus()
        style, width = page.evaluate("[getComputedStyle(document.activeElement).outlineStyle, parseFloat(getComputedStyle(document.activeElement).outlineWidth)]")  # fmt: skip
        assert (style, width >= 2.0) == ("solid", True), where
    page.locator("#day-field").focus()
    for _ in range(3):  # month, day, year, the calendar's key
        page.keyboard.press("Tab")
        assert page.evaluate("[document.activeElement.id, getComputedStyle(document.activeElement).outlineStyle]") == ["day-field", "solid"]  # fmt: skip
    spoken = handle.get_attribute("aria-valuetext")
    assert re.fullmatch(r"25 degrees, stands to \d+ miles an hour, .+ gives first, lowest edge \d+ feet( \d+)?", spoken)  # fmt: skip
    until(page, f"window.heard.includes({json.dumps(spoken)})")
    KEPT.wait(state.owners, state.answer)  # of a day whose sun is still worked nothing is kept
    at_once = False
    for tilt in range(24, 14, -1):
        until(page, ASKED % tilt)
        page.wait_for_timeout(100)  # what has come is read and put by
        at_once = page.evaluate(PRESSED, None) == str(tilt)
        settled(page)
        assert page.locator("#wide-handle").get_attribute("aria-valuenow") == str(tilt)
        if at_once:
            break
    assert at_once
    until(page, ASKED % (tilt - 1))
    assert page.evaluate(PRESSED, "another") == str(
        tilt
    )  # of another state of the file nothing is taken
    settled(page)
    assert page.locator("#wide-handle").get_attribute("aria-valuenow") == str(tilt - 1)
    assert page.said == []


def test_the_ring_is_dragged_and_the_arc_pressed(chromium: Any, address: str) -> None:
    page = opened(chromium, address)
    page.locator("#scene-wide").scroll_into_view_if_needed()
    box = page.locator("#scene-wide").bounding_box()
    x, y = (float(v) for v in page.locator("#scene-wide").get_attribute("data-hinge").split())
    far = float(page.locator("#scene-wide").get_attribute("data-radius"))

    def at(tilt: float) -> tuple[float, float]:
        from math import cos, radians, sin

        return box["x"] + x + far * cos(radians(tilt)), box["y"] + y - far * sin(radians(tilt))

    page.mouse.move(*at(52.0))
    page.mouse.down()
    for tilt in (48.0, 41.0, 33.0, 30.0):
        page.mouse.move(*at(tilt))
    turned = (
        "document.querySelector('#wide-turn').getAttribute('transform').startsWith('rotate(-30 ')"
    )
    until(page, turned)  # drawn with the next picture, not with the pointer's event
    page.mouse.up()
    settled(page)
    assert page.locator("#wide-handle").get_attribute("aria-valuenow") == "30"
    until(
        page, "document.querySelector('#announce').innerText.includes('30 degrees')"
    )  # said a moment later
    page.mouse.click(*at(70.0))
    settled(page)
    assert page.locator("#wide-handle").get_attribute("aria-valuenow") == "70"
    page.mouse.move(*at(20.0))  # let go: nothing follows
    assert page.locator("#wide-handle").get_attribute("aria-valuenow") == "70"


def test_a_finger_drags_it_and_steps_move_it_on_the_phone(chromium: Any, address: str) -> None:
    page = opened(chromium, address, 390, has_touch=True)
    assert page.locator(".handle").last.evaluate("e => getComputedStyle(e).touchAction") == "none"
    for step, tilt in ((5, 57), (1, 58), (-1, 57), (-5, 52)):
        page.locator(f"button[data-step='{step}']").tap()
        settled(page)
        assert page.locator("#step-tilt").inner_text() == f"{tilt}°"
        assert f"at {tilt}°" in page.locator("#beside-stands-to").inner_text()
    sizes = page.evaluate("[...document.querySelectorAll('.stepper button')].map(e => e.getBoundingClientRect().height)")  # fmt: skip
    assert min(sizes) >= 56
    assert page.evaluate("document.documentElement.scrollWidth") <= 390


def test_a_number_opens_its_working_and_gives_the_focus_back(chromium: Any, address: str) -> None:
    for width in WIDTHS.values():
        page = opened(chromium, address, width)
        number = page.locator("a.number[data-w=stands-to]:visible").first
        number.focus()
        page.keyboard.press("Enter")
        page.locator("#sheet-slip h2").wait_for()
        assert page.locator("#sheet-slip h2").inner_text() == "At 52° it stands to 75\xa0mph"
        assert page.evaluate("location.hash") == "#w-stands-to"
        rungs = page.locator("#sheet-slip .rungs li")
        assert rungs.count() > 5
        assert all(rungs.nth(n).locator(".source").inner_text() for n in range(rungs.count()))
        if width == 390:
            box = page.locator("#sheet-slip").bounding_box()
            assert box["y"] + box["height"] == pytest.approx(900, abs=1)
            assert box["height"] == pytest.approx(630, abs=2)
        page.keyboard.press("Escape")
        assert page.locator("#sheet-slip").is_hidden()
        assert page.evaluate("document.activeElement.dataset.w") == "stands-to"
        assert page.evaluate("location.hash") == ""
        assert page.said == []
        page.context.close()


def test_an_address_with_a_working_opens_it(chromium: Any, address: str) -> None:
    page = opened(chromium, address, path="?tilt=30#w-pole")
    page.locator("#sheet-slip h2").wait_for()
    assert page.locator("#sheet-slip h2").inner_text().startswith("At 30°, pole")


def test_front_and_plan_take_its_place(chromium: Any, address: str) -> None:
    page = opened(chromium, address)
    page.locator("#scene-wide a.view[data-view=front]").click()
    page.locator("#scene-wide[aria-label*=front] #wide-big").wait_for()
    assert page.locator("#scene-wide a.view[data-view=side]").count() == 1
    page.locator("#scene-wide a.view[data-view=side]").click()
    page.locator("#wide-handle").wait_for()
    assert page.said == []


def test_choosing_a_habit_redraws_the_year(chromium: Any, address: str, state: Any) -> None:
    page = opened(chromium, address)
    before = page.locator("[data-year=wide]").inner_html()
    monthly = next(n for n, one in enumerate(state.answer.habits) if one.schedule.name == "monthly")
    page.locator(f"input[name=habit][value='{monthly}']").check()
    page.locator(f"[data-year=wide][data-habit='{monthly}']").wait_for()
    after = page.locator("[data-year=wide]").inner_html()
    assert after != before
    hours = state.answer.habits[monthly].engine_hours.median
    assert f"{hours:.0f} with it" in after
    assert page.said == []


def test_the_fortnight_reads_one_hour(chromium: Any, address: str, state: Any) -> None:
    page = opened(chromium, address)
    page.locator("#fortnight").focus()
    page.keyboard.press("ArrowRight")
    until(page, "document.getElementById('fortnight-read').textContent.includes(' 0:00')")
    page.keyboard.press("PageUp")
    page.keyboard.press("ArrowRight")
    words = page.locator("#fortnight-read").inner_text()
    charge = state.answer.winter.fortnight.charge_share[25]
    assert ", 1:00: " in words
    assert f"charge {100.0 * charge:.0f} %" in words
    page.set_viewport_size(
        {"width": 390, "height": 900}
    )  # a week to a row: pointed at in the second
    told = state.answer.winter.fortnight
    week = page.locator("#fortnight .for-narrow svg")
    week.scroll_into_view_if_needed()
    box = week.bounding_box()
    assert box["width"] <= 358.0
    page.mouse.move(box["x"] + box["width"] - 5.0, box["y"] + 0.75 * box["height"])
    last = day_words(told.calendar_days[13])
    until(page, f"document.getElementById('fortnight-read').textContent.startsWith('{last}, ')")
    assert page.locator("#fortnight-narrow-hour path").count() == 1


def sheet_one(pdf: bytes) -> str:
    """The first page's words; letters with an edge are drawn twice, which this reader takes as one."""
    return " ".join(PdfReader(io.BytesIO(pdf)).pages[0].extract_text().split())


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_it_prints_on_paper_with_drawing_answers_and_card(chromium: Any, address: str, scheme: str) -> None:  # fmt: skip
    page = opened(chromium, address, color_scheme=scheme)
    page.emulate_media(media="print", color_scheme=scheme)
    assert page.locator(".under").is_hidden()
    assert page.locator("#scene-paper").is_visible()
    assert not page.locator("#scene-wide").is_visible()
    assert page.evaluate("getComputedStyle(document.querySelector('.leaf')).backgroundColor") == "rgb(255, 255, 255)"  # fmt: skip
    sheets = pages_of(page.pdf(format="Letter", landscape=True, print_background=True))
    words = sheets[0]
    assert "Does it stand?" in words
    assert "screening sums" in words
    assert "homestead" in words
    assert "stands to" in sheets[1]
    assert len(sheets) <= 4
    for paper in ("Letter", "A4"):  # drawing across the page, the three answers under it
        first = sheet_one(page.pdf(format=paper, landscape=True))
        for words in ("Does it stand?", "Through the winter?", "What does it cost?", "stands to", "pier uses", "screening sums"):  # fmt: skip
            assert words in first, (paper, words)
    drawn, whole = page.locator("#scene-paper").bounding_box(), page.locator("#main").bounding_box()
    assert drawn["width"] >= whole["width"] - 4.0


def test_forced_colours_keep_lines_handle_and_hatch(chromium: Any, address: str) -> None:
    page = opened(chromium, address, forced_colors="active")
    ink = page.evaluate("getComputedStyle(document.querySelector('#wide-handle .ring')).stroke")
    ground = page.evaluate("getComputedStyle(document.querySelector('#scene-wide')).getPropertyValue('--ink')")  # fmt: skip
    assert ink
    assert ground.strip() == "CanvasText"
    assert page.locator("#scene-wide pattern").count() >= 5


def test_without_script_the_field_and_the_links_do_the_same(chromium: Any, address: str) -> None:
    page = opened(chromium, address, java_script_enabled=False)
    page.locator("#tilt-field").fill("20")
    page.locator("#draw-key").click()
    assert page.locator("#wide-handle").get_attribute("aria-valuenow") == "20"
    page.locator("a.number[data-w=lowest-edge]:visible").first.click()
    assert "lowest edge" in page.locator(".ladder h2").inner_text()
    page.go_back()
    page.locator("a.view[data-view=plan]").first.click()
    assert page.locator("#scene-wide[aria-label*=plan]").count() == 1


def test_every_number_of_the_drawing_and_the_title_block_has_a_working(chromium: Any, address: str) -> None:  # fmt: skip
    page = opened(chromium, address)
    keys = set(page.evaluate("[...document.querySelectorAll('[data-w]')].map(e => e.dataset.w)"))
    assert {"stands-to", "lowest-edge", "rod", "first-gives", "sun", "pole", "pier", "top", "heap"} <= keys  # fmt: skip
    for key in sorted(keys):
        reply = page.request.get(f"{address}working/{key}?slip=1&tilt=52&day={WINTER}")
        assert reply.status == 200, key
        assert '<ol class="rungs">' in reply.text()


def test_the_use_at_a_tilt_is_the_sum_of_that_tilt(state: Any) -> None:
    tilts = tilts_of(state.owners)
    for tilt in (5.0, 30.0, 52.0, 75.0):
        for name, use in tilts.at[tilts.place_of(tilt)].uses[:6]:
            assert tilts.use_of(name, tilt).use == pytest.approx(use, rel=1e-12)
        row = state.answer.stand.card[tilts.place_of(tilt)]
        assert tilts.stands_to(tilt).result.value == pytest.approx(row.stands_to_m_s)
