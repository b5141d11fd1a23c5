"""In a real browser: from the letter to an answer, an edit with an error, two tabs, a server that is gone, keys only, no script."""

from __future__ import annotations

import os
import pickle
import re
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from polestead.web.app import sheet_app
from polestead.web.desk import Desk
from polestead.web.work import Jobs
from tests.answers import worked
from tests.web.browser import until
from tests.web.deck import PAUSE, PICKLED, as_unpickled, own_file, served

pytestmark = pytest.mark.browser


class Room:
    """One server for all of these, its folder emptied between them."""

    def __init__(self, desk: Desk, address: str, browser: Any) -> None:
        self.desk, self.address, self.browser = desk, address, browser
        self.said: list[str] = []
        self.asked: list[str] = []

    def page(self, width: int = 1280, **also: Any) -> Any:
        page = self.browser.new_context(viewport={"width": width, "height": 900}, **also).new_page()
        page.set_default_timeout(15_000)
        page.on("request", lambda request: self.asked.append(request.url))
        page.on("pageerror", lambda fault: self.said.append(str(fault)))
        page.on("console", lambda message: self.said.append(message.text) if "409" not in message.text and "422" not in message.text and "403" not in message.text and "ERR_CONNECTION" not in message.text else None)  # fmt: skip
        return page


@pytest.fixture(scope="module")
def server(chromium: Any, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Room]:
    folder = tmp_path_factory.mktemp("desk")
    pickled = folder / "answer.pickle"
    pickled.write_bytes(pickle.dumps(worked("hollow-spruce")))
    pause = folder / "pause"
    pause.write_text("3")
    os.environ[PICKLED], os.environ[PAUSE] = str(pickled), str(pause)
    jobs = Jobs()
    desk = Desk(folder=folder, call=as_unpickled, jobs=jobs)
    with served(sheet_app(desk)) as address:
        yield Room(desk, address, chromium)
    desk.close()
    del os.environ[PICKLED], os.environ[PAUSE]


@pytest.fixture
def room(server: Room) -> Iterator[Room]:
    server.said.clear()
    server.asked.clear()
    yield server
    assert server.said == []
    assert all(url.startswith("http://127.0.0.1:") for url in server.asked)
    server.desk.put_away()
    for path in server.desk.folder.glob("*.toml*"):
        path.unlink()


@pytest.fixture
def lying(room: Room) -> Path:
    """A file on the desk with its answer worked."""
    path = own_file(room.desk.folder)
    room.desk.open(path)
    end = time.monotonic() + 40.0
    while room.desk.state.answer is None and time.monotonic() < end:
        time.sleep(0.05)
    assert room.desk.state.answer is not None
    return path


def test_from_the_letter_to_a_first_answer_without_reloading(room: Room) -> None:
    page = room.page()
    page.goto(room.address)
    assert page.url.endswith("/letter")
    page.get_by_label("We live at").fill("44.1 N, 121.3 W, 3600 ft")
    page.get_by_label("The house uses in a winter day").fill("5")
    page.get_by_role("button", name="draw it").click()
    page.locator("#main").get_by_text("5 has no unit").wait_for()
    assert page.get_by_label("We live at").input_value() == "44.1 N, 121.3 W, 3600 ft"
    page.get_by_label("The house uses in a winter day").fill("5 kWh")
    page.get_by_role("button", name="draw it").click()
    page.get_by_role("heading", name="my-place.toml is written").wait_for()
    page.get_by_role("link", name="to the sheet").click()
    page.get_by_text("Does it stand?").first.wait_for()
    page.get_by_text("Gust card").first.wait_for(
        timeout=60_000
    )  # it fills itself in when the answer is there
    assert (room.desk.folder / "my-place.toml").exists()
    page.locator("#draw-key").wait_for(
        state="hidden"
    )  # and it can be tipped by hand, without a new page
    handle = page.locator("#wide-handle")
    before = handle.get_attribute("aria-valuenow")
    handle.press("ArrowDown")
    until(
        page, f"document.getElementById('wide-handle').getAttribute('aria-valuenow') !== '{before}'"
    )


def test_a_leaf_that_waited_for_its_answer_is_furnished_when_it_is_there(room: Room) -> None:
    (room.desk.folder / "pause").write_text("20")
    room.desk.open(own_file(room.desk.folder))
    page = room.page()
    page.goto(f"{room.address}/stand")
    page.get_by_role("heading", name="The sums are being worked.").wait_for()
    page.locator("details.working").first.wait_for(timeout=60_000)
    until(
        page, "getComputedStyle(document.querySelector('details.working')).borderTopWidth === '1px'"
    )
    (room.desk.folder / "pause").write_text("3")
    page.context.close()


def test_a_blank_of_the_letter_is_told_when_it_is_left_and_lets_go_when_it_is_mended(
    room: Room,
) -> None:
    page = room.page()
    page.goto(f"{room.address}/letter")
    page.get_by_label("The house uses in a winter day").fill("5")
    page.keyboard.press("Tab")
    wrong = page.locator("#b-use-wrong")
    wrong.get_by_text("5 has no unit").wait_for()
    field = page.get_by_label("The house uses in a winter day")
    assert field.get_attribute("aria-invalid") == "true"
    assert "b-use-wrong" in (field.get_attribute("aria-describedby") or "")
    assert page.locator(".letter .wrong:visible").count() == 1
    field.fill("5 kWh")
    page.keyboard.press("Tab")
    wrong.wait_for(state="hidden")
    assert field.get_attribute("aria-invalid") is None
    page.get_by_label("and keep all this in").fill("a/b")
    page.keyboard.press("Tab")
    page.locator("#b-file-wrong").get_by_text("without a folder").wait_for()
    assert list(room.desk.folder.glob("*.toml")) == []
    page.context.close()


def test_an_edit_with_an_error_is_told_beside_its_field_mended_by_a_key_and_undone(
    room: Room, lying: Path
) -> None:
    page = room.page()
    page.goto(f"{room.address}/file/mount")
    field = page.get_by_label("hinge height", exact=True)
    field.fill("12 ft 6 in")
    page.get_by_text("= 3.81 m").wait_for()
    field.press("Escape")
    assert field.input_value() == "11 ft"
    field.fill("12")
    field.press("Enter")
    page.locator("#main").get_by_text(
        "The hinge height needs a unit: 12 ft, 12 in or 12 m?"
    ).wait_for()
    until(page, "document.querySelector('#announce').textContent.includes('needs a unit')")
    assert field.input_value() == "12"
    assert field.get_attribute("aria-invalid") == "true"
    assert page.locator("#contents").get_by_text("1 wrong").count() == 1
    assert 'hinge_height = "11 ft"' in lying.read_text(encoding="utf-8")
    page.get_by_role("button", name="12 ft", exact=True).click()
    page.locator("#main").get_by_text("was 11 ft").wait_for()
    assert 'hinge_height = "12 ft"' in lying.read_text(encoding="utf-8")
    page.get_by_role("button", name="undo: hinge height").click()
    until(page, "document.querySelector('#f-mount-hinge_height-in').value === '11 ft'")
    assert 'hinge_height = "11 ft"' in lying.read_text(encoding="utf-8")


def test_work_is_told_and_stopped_and_what_stands_there_stays(room: Room, lying: Path) -> None:
    (room.desk.folder / "pause").write_text("600")
    page = room.page()
    page.goto(f"{room.address}/file/mount")
    page.get_by_label("hinge height", exact=True).fill("12 ft")
    page.get_by_label("hinge height", exact=True).press("Enter")
    page.get_by_text("What stands here is being worked again").wait_for()
    until(page, "Number(document.querySelector('#working [role=progressbar]').ariaValueNow) >= 1")
    page.locator("#working").get_by_role("button", name="stop").click()
    page.get_by_text("What stands here was worked from an older entry").wait_for()
    assert room.desk.state.stale
    (room.desk.folder / "pause").write_text("3")
    page.get_by_role("button", name="work it out").click()
    until(page, "!document.querySelector('#main').classList.contains('stale')")
    assert not room.desk.state.stale


def stepwise(steps: int, *, progress: Any) -> int:
    """Long work, told step by step."""
    for step in range(steps):
        progress(f"step {step}", step, steps)
        time.sleep(0.4)
    return steps


def test_the_bar_of_a_leafs_own_work_moves(room: Room, lying: Path) -> None:
    page = room.page()
    room.desk.jobs.start("doubts", stepwise, 200)
    page.goto(f"{room.address}/doubts")
    bar = page.locator("#job-doubts [role=progressbar]")
    bar.wait_for()
    first = int(bar.get_attribute("aria-valuenow"))
    moved = f"+document.querySelector('#job-doubts [role=progressbar]').getAttribute('aria-valuenow') > {first + 2}"
    until(page, moved, 60.0)  # the other process begins with its own reading in
    room.desk.jobs.stop("doubts")


def test_what_another_editor_and_another_tab_changed_is_noticed(room: Room, lying: Path) -> None:
    one, two = room.page(), room.page()
    for page in (one, two):
        page.goto(f"{room.address}/file/household")
    typed = two.get_by_label("capacity", exact=True)
    typed.fill("800 A")  # half typed
    one.get_by_label("health", exact=True).fill("85 %")
    one.get_by_label("health", exact=True).press("Enter")
    until(two, "document.querySelector('#f-household-battery-health-in').value === '85 %'")
    assert typed.input_value() == "800 A"  # what was typed stays, and so does the place in it
    assert two.evaluate("document.activeElement.id") == "f-household-battery-capacity-in"
    text = lying.read_text(encoding="utf-8").replace(
        'name = "Hollow Spruce"', 'name = "Larch Hollow"'
    )
    one.goto(f"{room.address}/")  # on the sheet as well
    lying.write_text(text, encoding="utf-8")
    one.get_by_text("The file was changed on disk by another editor").wait_for()
    two.get_by_text("The file was changed on disk by another editor").wait_for()
    two.get_by_role("link", name="look").click()
    two.get_by_text('name = "Larch Hollow"').wait_for()
    two.get_by_role("button", name="take these").click()
    two.get_by_role("link", name="Larch Hollow").wait_for()


def test_a_server_that_is_gone_is_said_and_one_that_is_there_again_carried_on_with(
    room: Room, lying: Path
) -> None:
    page = room.page()
    with served(sheet_app(room.desk)) as address:
        port = int(address.rpartition(":")[2])
        page.goto(f"{address}/file/mount")
        page.get_by_label("hinge height", exact=True).fill("12 ft")
    page.get_by_label("hinge height", exact=True).press("Enter")
    page.get_by_text("The laptop does not answer.").wait_for()
    assert page.get_by_label("hinge height", exact=True).input_value() == "12 ft"
    with served(sheet_app(room.desk), port):
        page.get_by_role("button", name="try now").click()
        page.get_by_text("The laptop does not answer.").wait_for(state="hidden")
        assert page.get_by_label("hinge height", exact=True).input_value() == "12 ft"
        page.get_by_label("hinge height", exact=True).press("Enter")
        page.locator("#main").get_by_text(
            "was 11 ft"
        ).wait_for()  # the form has the new server's token
        page.context.close()


def test_keys_alone_are_enough(room: Room, lying: Path) -> None:
    page = room.page()
    page.goto(f"{room.address}/file/mount")
    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.className") == "skip"
    page.keyboard.press("Enter")
    for _ in range(40):
        page.keyboard.press("Tab")
        if page.evaluate("document.activeElement.id") == "f-mount-hinge_height-in":
            break
    width = page.evaluate("getComputedStyle(document.activeElement).outlineWidth")
    assert width in ("2px", "2.5px")  # the screen's own rounding
    page.keyboard.press("Control+a")
    page.keyboard.type("12 ft")
    page.keyboard.press("Enter")
    page.locator("#main").get_by_text("was 11 ft").wait_for()
    assert page.evaluate("document.activeElement.id") == "f-mount-hinge_height-in"
    page.goto(f"{room.address}/words")
    page.locator("details.are summary").focus()
    page.keyboard.press("Enter")
    page.keyboard.press("Tab")
    page.keyboard.press("Tab")
    page.keyboard.press("Enter")
    until(page, "document.querySelector('details.are summary b').textContent === 'building'")
    assert 'we_are = "building"' in lying.read_text(encoding="utf-8")


@pytest.mark.parametrize(("width", "large"), [(390, False), (390, True), (768, True), (1280, True)])
def test_every_page_of_the_frame_fits(room: Room, lying: Path, width: int, large: bool) -> None:
    page = room.page(width)
    if large:
        page.context.add_cookies([{"name": "type", "value": "large", "url": room.address}])
    for path in ("/file", "/file/household", "/file/place", "/file/prices", "/file/older", "/file/wrong", "/letter", "/words"):  # fmt: skip
        page.goto(room.address + path)
        assert page.evaluate("document.documentElement.scrollWidth") <= width, path
        small = page.evaluate(
            "[...document.querySelectorAll('body *')].filter(e => e.checkVisibility() && [...e.childNodes].some(n => n.nodeType === 3 && n.data.trim())"
            " && parseFloat(getComputedStyle(e).fontSize) < 12.9).map(e => e.outerHTML.slice(0, 80))"
        )
        assert small == [], path
        if width == 390:
            low = page.evaluate(
                "[...document.querySelectorAll('main button:not(.quiet), main .key')].filter(e => e.checkVisibility() && e.getBoundingClientRect().height < 43).map(e => e.textContent)"
            )
            assert low == [], path


def test_without_script_it_is_all_there(room: Room, lying: Path) -> None:
    page = room.page(java_script_enabled=False)
    page.goto(f"{room.address}/file/mount")
    field = page.get_by_label("hinge height", exact=True)
    field.fill("12")
    field.press("Enter")
    assert re.search(r"/file/mount#f-mount-hinge_height$", page.url)
    assert "needs a unit" in page.content()
    page.get_by_role("button", name="12 ft", exact=True).click()
    assert "was 11&nbsp;ft" in page.content()
    assert 'hinge_height = "12 ft"' in lying.read_text(encoding="utf-8")
    page.get_by_role("button", name="dark", exact=True).click()
    assert page.locator("html").get_attribute("data-scheme") == "dark"
    assert page.url.endswith("/file/mount")
    page.locator("details.are summary").click()
    page.get_by_role("button", name="building").click()
    assert 'we_are = "building"' in lying.read_text(encoding="utf-8")


def test_two_schemes_and_forced_colours_show_the_ink(room: Room, lying: Path) -> None:
    for also in (
        {"color_scheme": "light"},
        {"color_scheme": "dark"},
        {"forced_colors": "active"},
        {"reduced_motion": "reduce"},
    ):
        page = room.page(**also)
        page.goto(f"{room.address}/file/mount")
        ink, paper = page.evaluate(
            "[getComputedStyle(document.body).color, getComputedStyle(document.body).backgroundColor]"
        )
        assert ink != paper
        page.context.close()


def test_a_form_sent_to_another_server_than_drew_it_goes_through_once_more(
    room: Room, lying: Path
) -> None:
    page = room.page()
    with served(sheet_app(room.desk)) as address:
        page.goto(f"{address}/file/mount")
    page.route(
        "**/state", lambda route: route.abort("connectionrefused")
    )  # it has not yet asked the other one
    with served(sheet_app(room.desk), int(address.rpartition(":")[2])):
        page.get_by_label("hinge height", exact=True).fill("12 ft")
        page.get_by_label("hinge height", exact=True).press("Enter")
        page.locator("#main").get_by_text("was 11 ft").wait_for()
        page.context.close()
    assert 'hinge_height = "12 ft"' in lying.read_text(encoding="utf-8")
