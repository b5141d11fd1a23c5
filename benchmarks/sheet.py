"""A key press on the drawing's handle, from the press to the figures redrawn by the sums of that tilt: thirty milliseconds over it."""

from __future__ import annotations

from typing import Any

from tests.answers import on_the_desk
from tests.browser import CHROMIUM, FLAGS
from tests.web.browser import served

from polestead.web.kept import KEPT

DEMO = "hollow-spruce"
PRESSES = 100
WANTED_MS = 30.0
AT = 0.95
PRESS = """async (presses) => {
  const svg = document.getElementById('scene-wide'), handle = document.getElementById('wide-handle'), spans = [];
  const said = document.getElementById('wide-said');
  for (let n = 0; n < presses; n++) {
    const key = Math.floor(n / 15) % 2 ? 'ArrowUp' : 'ArrowDown';
    const begun = performance.now();
    const changed = new Promise((done) => new MutationObserver((_, seen) => { seen.disconnect(); done(performance.now()); }).observe(said, { childList: true }));
    handle.dispatchEvent(new KeyboardEvent('keydown', { key, bubbles: true, cancelable: true }));
    spans.push((await changed) - begun);
    await new Promise((done) => setTimeout(done, 20));
  }
  return spans;
}"""


def spans_ms(presses: int = PRESSES) -> list[float]:
    """From each press to the words changed [ms], the first ten left out."""
    from playwright.sync_api import sync_playwright

    state = on_the_desk(DEMO)
    KEPT.wait(state.owners, state.answer)
    with served(state) as address, sync_playwright() as play:
        browser = play.chromium.launch(executable_path=CHROMIUM, args=FLAGS)
        page: Any = browser.new_context(viewport={"width": 1280, "height": 1000}).new_page()
        page.goto(f"{address}?tilt=52")
        page.locator("#wide-handle").focus()
        page.wait_for_timeout(1500)
        found = page.evaluate(PRESS, presses + 10)
        browser.close()
    return [float(span) for span in found[10:]]


def run() -> list[tuple[str, float, float]]:
    """(name, ratio, wanted)."""
    spans = sorted(spans_ms())
    late = spans[int(AT * len(spans)) - 1]
    return [("a key press to the redrawn sheet, 95 of 100, against 30 ms", WANTED_MS / late, 1.0)]
