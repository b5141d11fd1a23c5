"""Every empty and every wrong state, wide and narrow, light and dark: it fits, nothing lies on another word, it leads on.

With POLESTEAD_PICTURES naming a folder a picture of each is put there, to be looked at by eye.
"""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterator
from contextlib import ExitStack
from dataclasses import replace
from importlib.resources import files
from pathlib import Path
from typing import Any

import pytest

from polestead.homestead.demos import demo_path
from polestead.morning.kept import keep, key_of
from polestead.web import gate
from polestead.web.app import sheet_app
from tests.morning.conftest import spruce as spruce
from tests.web.deck import served
from tests.web.states import STATES, Room, desk_in, settle

pytestmark = pytest.mark.browser

PICTURES = "POLESTEAD_PICTURES"
WIDTHS = (
    (1280, 768, 390) if os.environ.get(PICTURES) else (1280, 390)
)  # the middle one where somebody looks
EXPECTED = (
    "401",
    "403",
    "404",
    "409",
    "422",
    "429",
    "ERR_CONNECTION",
)  # replies a browser notes down, as they are meant
# Boxes of words that lie on one another or stick out of what holds them; words a reader of the screen hears alone are left out.
CROWDED = """() => {
  const found = [], wide = document.documentElement.clientWidth, boxes = [];
  const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  for (let node = walk.nextNode(); node; node = walk.nextNode()) {
    const words = node.data.trim(), of = node.parentElement;
    if (!words || !of.checkVisibility() || of.closest('.heard, .skip, .we, noscript, #gone, option, textarea, .keys')) continue;
    const range = document.createRange();
    range.selectNodeContents(node);
    for (const box of range.getClientRects()) if (box.width > 1) boxes.push([words.slice(0, 50), box, of]);
  }
  for (const [words, box, of] of boxes) {
    const scrolls = of.closest('.scroll, .scrolls, .changed, .field, pre');
    if (!scrolls && (box.left < -1 || box.right > wide + 1)) found.push('outside: ' + words);
    const svg = of.closest('svg');
    if (svg) { const frame = svg.getBoundingClientRect(); if (box.left < frame.left - 1 || box.right > frame.right + 1) found.push('clipped: ' + words); }
  }
  boxes.sort((one, two) => one[1].top - two[1].top);
  for (let n = 0; n < boxes.length; n++) for (let m = n + 1; m < boxes.length && boxes[m][1].top < boxes[n][1].bottom - 6; m++) {
    const [a, p, pe] = boxes[n], [b, q, qe] = boxes[m];
    if (pe === qe || pe.contains(qe) || qe.contains(pe)) continue;
    const dx = Math.min(p.right, q.right) - Math.max(p.left, q.left), dy = Math.min(p.bottom, q.bottom) - Math.max(p.top, q.top);
    if (dx > 2 && dy > 6) found.push(a + ' | ' + b);
  }
  return [...new Set(found)];
}"""
CUT = """() => [...document.querySelectorAll('button, .key, input:not([type=hidden])')].filter((one) => one.checkVisibility() && !one.closest('[hidden]')
  && (one.tagName === 'INPUT' ? false : one.scrollWidth > one.clientWidth + 1)).map((one) => one.textContent)"""


@pytest.fixture(scope="module")
def rules() -> str:
    return files("axe_playwright_python").joinpath("axe.min.js").read_text(encoding="utf-8")


@pytest.fixture(scope="module")
def put_by(spruce: Any, tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("put-by") / "home.toml"
    shutil.copy(demo_path("hollow-spruce"), path)
    assert keep(path.with_suffix(".morning"), key_of(path.read_bytes(), path.parent), spruce)
    return path


@pytest.fixture(scope="module")
def laid(put_by: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Room]:
    """One desk with three servers: a plain one, one that asks for the passcode, one that may be ended."""
    desk = desk_in(tmp_path_factory.mktemp("states"))
    asking = sheet_app(desk, gate=gate.Gate("abcd-efgh"))
    with ExitStack() as ending, served(sheet_app(desk)) as address, served(asking) as gated:
        leaving = ending.enter_context(served(sheet_app(desk)))
        yield Room(desk, put_by, None, address, gated, ending.close, leaving)


@pytest.fixture
def room(laid: Room, chromium: Any, monkeypatch: pytest.MonkeyPatch) -> Iterator[Room]:
    settle(laid.desk)
    monkeypatch.setattr(gate, "HERE", ())  # this machine is asked for the passcode like any other
    page = chromium.new_context(viewport={"width": 1280, "height": 900}, bypass_csp=True).new_page()
    page.set_default_timeout(20_000)
    yield replace(laid, page=page)
    page.context.close()


@pytest.mark.parametrize("name", STATES)
def test_a_state_fits_is_quiet_and_leads_on(room: Room, rules: str, name: str) -> None:
    page, said, found = room.page, [], []
    page.on("pageerror", lambda fault: said.append(str(fault)))
    page.on("console", lambda message: said.append(message.text))
    STATES[name](room)
    for width in WIDTHS:
        page.set_viewport_size({"width": width, "height": 900})
        page.wait_for_timeout(40)
        for scheme in ("light", "dark"):
            page.emulate_media(color_scheme=scheme)
            picture(page, f"{name}-{width}-{scheme}")
        if page.evaluate("document.documentElement.scrollWidth") > width:
            found.append(f"{width}: wider than the page")
        found += [f"{width}: {words}" for words in page.evaluate(CROWDED)]
        found += [f"{width}: cut off: {words}" for words in page.evaluate(CUT)]
    assert found == []
    assert page.locator("main h1:visible, header h1:visible, main h2:visible").count() >= 1
    onward = page.locator("main a:visible, main button:visible, main input:visible, #told a:visible, #told button:visible")  # fmt: skip
    assert onward.count() >= 1
    page.emulate_media(color_scheme="light")
    page.evaluate(rules)
    for broken in page.evaluate("axe.run({ exclude: ['svg'] }, { resultTypes: ['violations'] })")[
        "violations"
    ]:
        found.append(f"{broken['id']}: {broken['nodes'][0]['html'][:120]}")
    assert found == []
    assert [words for words in said if not any(code in words for code in EXPECTED)] == []


def picture(page: Any, name: str) -> None:
    """Put by for the eye, where somebody asked for it."""
    folder = os.environ.get(PICTURES)
    if folder:
        page.screenshot(path=str(Path(folder) / f"{name}.png"), full_page=True)
