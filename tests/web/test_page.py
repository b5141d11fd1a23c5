"""The page: closed by default, all there, nothing from outside."""

from __future__ import annotations

import re
import socket
from collections.abc import Iterator
from html import unescape
from typing import Any

import pytest
from starlette.testclient import TestClient

from polestead.base.problem import Wrong
from polestead.homestead.demos import demo_path
from polestead.mount.schedule import TiltSchedule
from polestead.sheets.habit_lines import MOST_DATES
from polestead.sheets.text import moves_words
from polestead.web.app import sheet_app
from polestead.web.desk import Desk
from polestead.web.serve import serve
from tests.answers import on_the_desk, worked
from tests.web.browser import served


@pytest.fixture(scope="module")
def client() -> TestClient:
    return TestClient(sheet_app(Desk(on_the_desk("hollow-spruce"))), base_url="http://127.0.0.1")


def test_the_page_holds_the_three_answers_the_drawings_and_the_cautions(client: TestClient) -> None:
    page = client.get("/")
    assert page.status_code == 200
    for words in (
        "Does it stand?",
        "Gust card",
        "Cautions",
        "screening sums",
        "~exposure",
        "Doubts that matter most",
        "<svg",
    ):
        assert words in page.text


@pytest.mark.parametrize("host", ["evil.example", "127.0.0.1.evil.example", "0.0.0.0"])  # noqa: S104  a hostile name, not a binding
def test_another_host_is_refused(client: TestClient, host: str) -> None:
    assert client.get("/", headers={"Host": host}).status_code == 400


@pytest.mark.parametrize("method", ["post", "put", "delete", "patch"])
def test_nothing_can_be_sent_to_it(client: TestClient, method: str) -> None:
    assert getattr(client, method)("/").status_code in (403, 405)


@pytest.mark.parametrize(
    "path", ["/etc/passwd", "/../../etc/passwd", "/static/../page.py", "/docs"]
)
def test_there_is_nothing_else_to_fetch(client: TestClient, path: str) -> None:
    assert client.get(path).status_code == 404


def test_every_reply_closes_the_door_behind_it(client: TestClient) -> None:
    for path in ("/", "/static/sheet.css", "/nothing"):
        policy = client.get(path).headers["content-security-policy"]
        assert "default-src 'none'" in policy
        assert "unsafe" not in policy
    page = client.get("/").text
    assert "style=" not in page
    assert re.findall(r'<script[^>]*src="([^"]+)"', page) == [
        "/static/sheet.js",
        "/static/frame.js",
    ]
    assert page.count("<script") == 2


def test_names_of_the_owner_are_not_markup() -> None:
    from dataclasses import replace

    state = on_the_desk("hollow-spruce")
    assert state.owners is not None
    file = state.owners.homestead.model_copy(update={"name": "<b>Hollow & Spruce</b>"})
    desk = Desk(replace(state, owners=replace(state.owners, homestead=file)))
    page = TestClient(sheet_app(desk), base_url="http://127.0.0.1").get("/").text
    assert "<b>Hollow" not in page
    assert "&lt;b&gt;Hollow &amp; Spruce" in page


def test_a_busy_port_is_told() -> None:
    with socket.create_server(("127.0.0.1", 0)) as taken:
        port = taken.getsockname()[1]
        with pytest.raises(Wrong, match="taken"):
            serve(demo_path("hollow-spruce"), port=port, browser=False)


@pytest.fixture(scope="module")
def address() -> Iterator[str]:
    with served(on_the_desk("hollow-spruce")) as at:
        yield at


@pytest.mark.browser
@pytest.mark.parametrize(
    ("width", "scheme"),
    [(1280, "light"), (1280, "dark"), (768, "light"), (390, "light"), (390, "dark")],
)
def test_in_a_real_browser_it_fits_is_quiet_and_fetches_nothing_from_outside(
    chromium: Any, address: str, width: int, scheme: str
) -> None:
    page = chromium.new_context(
        viewport={"width": width, "height": 900}, color_scheme=scheme
    ).new_page()  # type: ignore[arg-type]
    asked: list[str] = []
    said: list[str] = []
    page.on("request", lambda request: asked.append(request.url))
    page.on("console", lambda message: said.append(message.text))
    page.goto(address)
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    assert page.locator("h1").inner_text() == "Hollow Spruce"
    ink = page.evaluate(
        "getComputedStyle([...document.querySelectorAll('.scene')].find((one) => one.getClientRects().length).querySelector('g.person ~ path[stroke=\"var(--ink)\"], path[stroke=\"var(--ink)\"]')).stroke"
    )
    paper = page.evaluate("getComputedStyle(document.body).backgroundColor")
    page.context.close()
    assert all(url.startswith(address) for url in asked)
    assert said == []
    assert ink != paper
    assert ink == ("rgb(30, 28, 24)" if scheme == "light" else "rgb(236, 231, 218)")


def test_every_way_of_tipping_says_what_is_moved_and_the_bound_is_no_habit(
    client: TestClient,
) -> None:
    page = unescape(client.get("/").text)
    habits = worked("hollow-spruce").habits
    for habit in habits:
        dates = isinstance(habit.schedule, TiltSchedule) and len(habit.schedule.moves) > MOST_DATES
        assert (
            f"{len(habit.schedule.moves)} tilts a year" if dates else moves_words(habit.schedule)
        ) in page
    (bound,) = [habit for habit in habits if habit.a_bound]
    name = bound.schedule.name
    assert f'<p class="pencil">{name[0].upper()}{name[1:]}: ' in page


def test_a_habit_that_is_none_of_them_is_taken_as_not_asked(client: TestClient) -> None:
    asked = client.get("/year", params={"habit": "9" * 5000})  # past what Python reads as a number
    assert asked.status_code == 200
    assert asked.text == client.get("/year").text


def test_the_words_under_the_gust_card_are_true_of_the_figures_shown(client: TestClient) -> None:
    """A gust is rounded down and the code's wind up: where one reads as much as the other, it has it in it."""
    code = re.search(r"code's wind (\d+)\s+mph", unescape(client.get("/").text))
    assert code is not None
    for tilt in range(5, 76, 2):
        said = client.get("/draw", params={"tilt": tilt}).json()["texts"]["card-said"]
        (shown,) = re.findall(r"stands to (\d+) mph", said)
        assert ("which covers the code's wind" in said) == (int(shown) >= int(code[1])), said


def test_nothing_is_ochre_but_what_is_assumed_or_old(client: TestClient) -> None:
    for path in ("/", "/log", "/morning", "/build", "/money"):
        page = unescape(client.get(path).text)
        for words in re.findall(r'<(?:p|li)[^>]*class="ochre[^"]*"[^>]*>(.*?)</(?:p|li)>', page, re.S):  # fmt: skip
            assert "~" in words, (path, words)
    css = client.get("/static/ink.css").text
    assert "--ochre" not in re.findall(r"\.demo\{([^}]*)\}", css)[0]
