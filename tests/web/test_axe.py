"""Every leaf by the rules of axe-core (a test tool only): at two widths, in light and dark, nothing is found."""

from __future__ import annotations

from collections.abc import Iterator
from importlib.resources import files
from pathlib import Path
from typing import Any

import pytest

from polestead.morning.kept import keep, key_of
from polestead.web.app import sheet_app
from polestead.web.desk import Desk
from tests.morning.conftest import spruce as spruce
from tests.web.deck import AtOnce, Owner, as_worked, own_file, served

pytestmark = pytest.mark.browser

LEAVES = (
    "/", "/doubts", "/spots", "/stand", "/winter", "/wires", "/build", "/build/pour", "/build/aim", "/money", "/book",
    "/file", "/file/household", "/words", "/letter", "/morning", "/morning/see", "/morning/week", "/log",
)  # fmt: skip
WIDTHS = {"wide": 1280, "narrow": 390}
INK = ", runOnly: ['color-contrast']"  # nothing but the ink differs in the dark
OPENED = (
    "details => details.forEach(one => { if (!one.classList.contains('are')) one.open = true; })"
)
LINE = "locate 1-5, stake 1-5, hole 1-2, gate footing 12 Jun RJ"


@pytest.fixture(scope="module")
def looked(
    chromium: Any, spruce: Any, tmp_path_factory: pytest.TempPathFactory
) -> Iterator[tuple[str, Any, str]]:
    """A server's address, a browser, and the rules."""
    folder = tmp_path_factory.mktemp("axe")
    desk = Desk(folder=folder, call=as_worked, jobs=Waiting())
    path = own_file(folder)
    assert keep(path.with_suffix(".morning"), key_of(path.read_bytes(), folder), spruce)
    desk.open(path)
    Owner(desk).send("/log/line", words="tilt 65, charge 78 %, note ice on the rod", once="axe")
    Owner(desk).send("/build/line", line=LINE, do="keep")
    rules = files("axe_playwright_python").joinpath("axe.min.js").read_text(encoding="utf-8")
    with served(sheet_app(desk)) as address:
        yield address, chromium, rules


class Waiting(AtOnce):
    """Everything but the answer waits to be begun: its leaves show what they say meanwhile."""

    def start(self, name: str, *given: Any, **also: Any) -> Any:
        from polestead.web.work import Job

        if name == "answer":
            return super().start(name, *given, **also)
        self._last[name] = Job(name, 1, "working", "so far", 1, 3)
        return self._last[name]


@pytest.mark.parametrize("width", WIDTHS)
def test_axe_finds_nothing_on_any_leaf(looked: Any, width: str) -> None:
    address, browser, rules = looked
    context = browser.new_context(viewport={"width": WIDTHS[width], "height": 900})
    context.add_cookies([{"name": "width", "value": width, "url": address}])
    page = context.new_page()
    page.set_default_timeout(60_000)
    found: list[str] = []
    for path in LEAVES:
        page.emulate_media(color_scheme="light")
        page.goto(address + path)
        page.evaluate(rules)
        page.locator("details").evaluate_all(OPENED)
        found += broken_rules(page, f"{path} in the light")
        if width == "narrow":
            page.emulate_media(color_scheme="dark")
            found += broken_rules(page, f"{path} in the dark", INK)
    context.close()
    assert found == [], "\n".join(found)


def broken_rules(page: Any, where: str, only: str = "") -> list[str]:
    """Each rule that is broken, how often, and where first."""
    found = []
    for broken in page.evaluate(f"axe.run({{ resultTypes: ['violations']{only} }})")["violations"]:
        at = "; ".join(str(node["target"]) + " " + node["html"][:90] for node in broken["nodes"][:3])  # fmt: skip
        found.append(f"{where}: {broken['id']}, {len(broken['nodes'])} times: {at}")
    return found


def test_the_rules_find_what_is_wrong(looked: Any, tmp_path: Path) -> None:
    _, browser, rules = looked
    page = browser.new_page()
    page.set_content("<html><body><input><button></button><h1>a</h1><h3>b</h3></body></html>")
    page.evaluate(rules)
    broken = {one["id"] for one in page.evaluate("axe.run()")["violations"]}
    page.close()
    assert {"label", "button-name", "heading-order", "document-title"} <= broken
