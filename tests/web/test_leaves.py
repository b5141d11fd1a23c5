"""Leaves of results: each stands, shows what the rooms found, and begins its long work only when it is asked."""

from __future__ import annotations

import re
import time
from collections.abc import Iterator
from dataclasses import replace
from html import unescape
from html.parser import HTMLParser
from typing import Any
from unicodedata import normalize

import pytest
from starlette.testclient import TestClient

from polestead.answer.views import views_of
from polestead.base.show import in_one_unit
from polestead.homestead.entries import field_at, section_at
from polestead.offers.doubts import Doubt, Ranked, doubts_of
from polestead.sheets.view import clear_sentence
from polestead.web.app import sheet_app
from polestead.web.cures import FIELDS, cure_place
from polestead.web.desk import Desk
from polestead.web.leaves import book as book_leaf
from polestead.web.leaves import doubts as doubts_leaf
from polestead.web.plainly import places
from polestead.web.work import Job
from tests.answers import on_the_desk
from tests.sheets.pdf_text import pages_of, words_of
from tests.web.browser import served as browsed
from tests.web.deck import with_plain_blanks

PATHS = ("/spots", "/winter", "/stand", "/wires", "/money", "/book")


class Kept:
    """Jobs that are only written down."""

    def __init__(self) -> None:
        self.begun: list[str] = []
        self.jobs: dict[str, Job] = {}

    def start(self, name: str, *_: object, **__: object) -> Job:
        self.begun.append(name)
        self.jobs[name] = Job(name, len(self.begun), "working", "so far", 1, 3)
        return self.jobs[name]

    def job(self, name: str) -> Job | None:
        return self.jobs.get(name)

    def running(self) -> tuple[Job, ...]:
        return tuple(job for job in self.jobs.values() if not job.over)

    def stop(self, name: str) -> None: ...

    def close(self) -> None: ...


@pytest.fixture
def kept() -> Kept:
    return Kept()


@pytest.fixture
def client(kept: Kept) -> Iterator[TestClient]:
    desk = Desk(on_the_desk("hollow-spruce"))
    desk.jobs = kept  # type: ignore[assignment]
    with TestClient(sheet_app(desk), base_url="http://127.0.0.1") as client:
        client.event_hooks = {"response": [with_plain_blanks]}
        yield client


def text(client: TestClient, path: str) -> str:
    reply = client.get(path)
    assert reply.status_code == 200, path
    return unescape(re.sub(r"<[^>]+>", " ", reply.text))


def token(client: TestClient) -> str:
    found = re.search(r'name="token" value="([^"]+)"', client.get("/book").text)
    assert found is not None
    return found[1]


@pytest.mark.parametrize("path", PATHS)
def test_every_leaf_stands_is_listed_and_shows_no_object(client: TestClient, path: str) -> None:
    page = client.get(path)
    assert page.status_code == 200
    assert f'<b aria-current="page">{path[1:]}</b>' in page.text
    for slip in ("object at 0x", "built-in method", "Undefined", " None<", "style="):
        assert slip not in page.text, slip
    ids = re.findall(r'\sid="([^"]+)"', page.text)
    assert len(ids) == len(set(ids))


def test_the_spots_leaf_says_what_the_view_says(client: TestClient) -> None:
    home = on_the_desk("hollow-spruce").owners
    assert home is not None
    (seen, *_) = views_of(home.homestead)
    assert clear_sentence(seen.days[0]) in text(client, "/spots")


def test_every_check_of_the_steel_and_the_soil_has_its_working_on_the_stand_leaf(
    client: TestClient,
) -> None:
    page = client.get("/stand").text
    stand = on_the_desk("hollow-spruce").answer.stand  # type: ignore[union-attr]
    checks = (*stand.checks, *stand.geometry_checks)
    assert page.count("<details") - page.count('<details class="are"') == len(checks)
    shown = unescape(page)
    for check in checks:
        assert check.part in shown
        assert in_one_unit(str(check.source), "feet") in shown


def test_whether_it_clears_and_reaches_stands_by_itself_worst_first_each_with_its_ladder(kept: Kept) -> None:  # fmt: skip
    state = on_the_desk("hollow-spruce")
    answer = state.answer
    assert answer is not None
    first, *rest = answer.stand.geometry_checks
    fits = (*rest, replace(first, use=1.3))  # told last, and past all it has
    desk = Desk(replace(state, answer=replace(answer, stand=replace(answer.stand, geometry_checks=fits))))  # fmt: skip
    desk.jobs = kept  # type: ignore[assignment]
    with TestClient(sheet_app(desk), base_url="http://127.0.0.1") as client:
        page = unescape(client.get("/stand").text)
    by_code, _, section = page.partition('<section id="fits">')
    section = section.partition("</section>")[0]
    assert '<a href="#fits">whether it clears and reaches</a>' in by_code
    assert "Whether it clears and reaches, worst first" in section
    told = re.findall(r"<summary><b>(.*?)</b> <span.*?>(.*?)</span> <span class=\"pencil\">(.*?)</span></summary>", section)  # fmt: skip
    assert [(part, name) for part, _, name in told] == [(check.part, check.name) for check in sorted(fits, key=lambda check: -check.use)]  # fmt: skip
    assert told[0] == (first.part, "gives: 130 of 100", first.name)
    assert section.count("What cures it:") == sum(not check.holds for check in fits)
    assert section.count('<table class="ladder">') == len(fits)
    assert not any(f"<b>{check.part}</b>" in section for check in answer.stand.checks)


def test_the_fortnight_of_the_winter_leaf_has_the_charge_at_which_the_engine_is_called(client: TestClient) -> None:  # fmt: skip
    owners = on_the_desk("hollow-spruce").owners
    assert owners is not None
    engine = owners.homestead.household.engine
    assert engine is not None
    assert f"call at {100.0 * engine.call_at:.0f} %" in text(client, "/winter")
    assert f"call at {100.0 * engine.call_at:.0f} %" in text(client, "/")


def test_a_part_that_gives_is_told_by_word(kept: Kept) -> None:
    state = on_the_desk("hollow-spruce")
    answer = state.answer
    assert answer is not None
    worst = replace(answer.stand.checks[0], use=1.12)
    stand = replace(answer.stand, checks=(worst, *answer.stand.checks[1:]))
    desk = Desk(replace(state, answer=replace(answer, stand=stand)))
    desk.jobs = kept  # type: ignore[assignment]
    with TestClient(sheet_app(desk), base_url="http://127.0.0.1") as client:
        assert "gives: 112 of 100" in text(client, "/stand")


def test_looking_begins_nothing_but_the_doubts(client: TestClient, kept: Kept) -> None:
    for path in PATHS:
        client.get(path)
    assert kept.begun == []
    client.get("/doubts")
    client.get("/doubts")
    assert kept.begun == ["doubts"]


@pytest.mark.parametrize(
    ("path", "more", "name"),
    [
        ("/wires/years", {}, "wires"),
        ("/money/instead", {}, "instead"),
        ("/book/make", {"leaf": "gauge", "paper": "letter"}, "leaf-gauge"),
    ],
)
def test_long_work_is_begun_by_its_key_and_shows_its_bar(
    client: TestClient, kept: Kept, path: str, more: dict[str, str], name: str
) -> None:
    back = "/" + path.split("/")[1]
    reply = client.post(
        path,
        data={"token": token(client), "back": back, **more},
        headers={"origin": "http://127.0.0.1"},
    )
    assert reply.status_code == 200
    assert kept.begun == [name]
    assert 'role="progressbar"' in reply.text
    assert "so far, 1 of 3" in reply.text


def test_no_leaf_and_no_paper_of_another_name_is_made(client: TestClient, kept: Kept) -> None:
    for more in ({"leaf": "../etc", "paper": "letter"}, {"leaf": "book", "paper": "foolscap"}):
        reply = client.post(
            "/book/make",
            data={"token": token(client), **more},
            headers={"origin": "http://127.0.0.1"},
        )
        assert reply.status_code == 400
    assert kept.begun == []
    assert client.get("/book/take/book/book.pdf").status_code == 404
    assert client.get("/book/take/book/../../etc/passwd").status_code == 404


def test_the_doubts_are_shown_ranked_with_what_settles_them(client: TestClient, kept: Kept) -> None:
    assert "place exposure" in text(client, "/doubts")
    state = on_the_desk("hollow-spruce")
    assert state.owners is not None
    doubts = doubts_of(state.owners.rows)
    wind = next(doubt for doubt in doubts if doubt.row.key == "exposure")
    found = (_moving(wind), *(Ranked(doubt, None) for doubt in doubts if doubt is not wind))
    kept.jobs["doubts"] = Job("doubts", 1, "done", result=(state.owners.fingerprint, found))
    page = text(client, "/doubts")
    assert "The verdict turns on it." in page
    assert in_one_unit(wind.act, "feet") in page
    kept.jobs["doubts"] = Job("doubts", 1, "done", result=("another", found))
    client.get("/doubts")
    assert kept.begun[-1] == "doubts"


def test_the_margin_of_the_sheet_shows_the_ranked_doubts_once_they_are_worked(
    client: TestClient, kept: Kept
) -> None:
    assert "Not ranked yet; here in the order of the file." in text(client, "/")
    state = on_the_desk("hollow-spruce")
    assert state.owners is not None
    doubts = doubts_of(state.owners.rows)
    soil = next(doubt for doubt in doubts if doubt.row.key == "frost_soil")
    wind = next(doubt for doubt in doubts if doubt.row.key == "exposure")
    found = (_moving(wind), *(Ranked(doubt, None) for doubt in doubts if doubt is not wind))
    kept.jobs["doubts"] = Job("doubts", 1, "done", result=(state.owners.fingerprint, found))
    margin = text(client, "/").partition("Doubts that matter most")[2].partition("Next act")[0]
    assert "The verdict turns on it." in margin
    assert "exposure" in margin
    assert "Not ranked" not in margin
    assert soil.brief not in margin
    kept.jobs["doubts"] = Job("doubts", 1, "done", result=(state.owners.fingerprint, found[1:]))
    assert "None moves an answer by a step you would act on." in text(client, "/")
    kept.jobs["doubts"] = Job("doubts", 1, "done", result=("another", found))
    assert "Not ranked yet" in text(client, "/")
    assert kept.begun == []


def test_the_spots_of_the_demo_are_ranked_with_what_rules_one_out(client: TestClient) -> None:
    page = text(client, "/spots")
    answer = on_the_desk("hollow-spruce").answer
    assert answer is not None
    assert [one.name for one in answer.spots] == ["as drawn", "by the garden", "the knoll"]
    for name in ("by the garden", "the knoll"):
        assert name in page
    assert "The file names no other spot" not in page
    assert "No: pier" in page  # the knoll has more sun, and silty sand
    assert answer.spots[2].winter_wh > answer.spots[0].winter_wh > answer.spots[1].winter_wh


def _moving(doubt: Doubt) -> Ranked:
    from polestead.offers.reach import Bearing, Reach
    from polestead.offers.spans import span_of

    span = span_of(doubt.row)
    assert span is not None
    ends = tuple(Bearing(30.0, 1.2, "pole") for _ in span.variants)
    return Ranked(doubt, Reach(span, Bearing(40.0, 0.8, "pole"), ends, 101.0))


def test_a_leaf_is_made_in_another_process_and_taken_away() -> None:
    desk = Desk(on_the_desk("hollow-spruce"))
    with TestClient(sheet_app(desk), base_url="http://127.0.0.1") as client:
        client.post(
            "/book/make",
            data={"token": token(client), "leaf": "gauge", "paper": "a4"},
            headers={"origin": "http://127.0.0.1"},
        )
        end = time.monotonic() + 90.0
        while time.monotonic() < end and not desk.jobs.job("leaf-gauge").over:  # type: ignore[union-attr]
            time.sleep(0.1)
        job = desk.jobs.job("leaf-gauge")
        assert job is not None
        assert job.stage == "done", job.fault
        taken = client.get("/book/take/gauge/gauge.pdf")
    assert taken.content.startswith(b"%PDF")
    assert taken.headers["content-disposition"] == 'attachment; filename="gauge.pdf"'
    assert book_leaf.LISTED.keys() >= {"book", "engineer", "phone"}
    assert doubts_leaf.NAME == "doubts"


def test_what_fails_leads_to_the_field_that_cures_it(kept: Kept) -> None:
    state = on_the_desk("hollow-spruce")
    answer = state.answer
    assert answer is not None
    worst = replace(answer.stand.checks[0], part="pier in the soil", use=1.12)
    stand = replace(answer.stand, checks=(worst, *answer.stand.checks[1:]))
    desk = Desk(replace(state, answer=replace(answer, stand=stand)))
    desk.jobs = kept  # type: ignore[assignment]
    with TestClient(sheet_app(desk), base_url="http://127.0.0.1") as client:
        assert '<a href="/file/footing#f-footing-depth">pier in the soil in the file</a>' in client.get("/stand").text  # fmt: skip


def test_every_check_has_a_field_to_turn_to() -> None:
    answer = on_the_desk("hollow-spruce").answer
    assert answer is not None
    for check in (*answer.stand.checks, *answer.stand.geometry_checks, *answer.wiring.checks):
        assert cure_place(check) != "/file", check.part
    for _, path in FIELDS:
        assert field_at(path) is not None or section_at(path) is not None, path


# -- in a browser ----------------------------------------------------------------------------------------------------


@pytest.fixture(scope="module")
def address() -> Iterator[str]:
    with browsed(on_the_desk("hollow-spruce")) as at:
        yield at


@pytest.mark.browser
def test_what_is_wider_than_a_phone_says_so_and_is_reached_by_keys(chromium: Any, address: str) -> None:  # fmt: skip
    page = chromium.new_context(viewport={"width": 390, "height": 844}).new_page()
    for path in ("", "winter", "wires", "stand", "money", "build"):
        page.goto(address + path)
        page.wait_for_timeout(
            200
        )  # a narrow device tells its width once, and the leaf is drawn for it
        page.evaluate("document.querySelectorAll('main details').forEach(one => one.open = true)")
        page.wait_for_timeout(200)
        bare = page.evaluate(
            "[...document.querySelectorAll('main *')].filter(one => one.checkVisibility() && ['auto', 'scroll'].includes(getComputedStyle(one).overflowX)"
            " && one.scrollWidth > one.clientWidth + 3 && one.tagName !== 'PRE' && !one.closest('.slips'))"
            ".filter(one => one.tabIndex !== 0 || !one.getAttribute('role') || !one.getAttribute('aria-label')"
            " || !one.classList.contains('more-right') || one.querySelector('.more-words').textContent !== 'more to the right →')"
            ".map(one => one.outerHTML.slice(0, 120))"
        )
        assert bare == [], path
    page.goto(address + "stand")
    wide = page.locator(".more-right").first
    wide.wait_for()
    wide.focus()
    wide.evaluate("one => { one.scrollLeft = 9999; }")
    page.locator(".more-words", has_text="more to the left").first.wait_for()
    page.set_viewport_size({"width": 1280, "height": 900})
    page.wait_for_timeout(900)
    assert page.locator(".more-words").count() == 0
    page.context.close()


@pytest.mark.browser
@pytest.mark.parametrize("script", [True, False])
def test_on_paper_small_folds_are_open_and_workings_stay_as_they_are(
    chromium: Any, address: str, script: bool
) -> None:
    page = chromium.new_context(java_script_enabled=script).new_page()
    page.goto(address + "log")
    folded = page.locator("#later p").all_text_contents()
    assert len(folded) >= 3
    assert page.locator("main details[open]").count() == 0
    words = "".join(normalize("NFKC", words_of(page.pdf(format="Letter"))).split())
    for inside in folded:
        assert "".join(inside.split())[:25] in words
    assert page.locator("main details[open]").count() == 0  # folded again on the screen
    page.goto(address + "stand")
    page.emulate_media(media="print")
    assert page.locator("details.working").first.is_visible()
    few = len(pages_of(page.pdf(format="Letter")))
    page.goto(address + "wires")
    wires = pages_of(page.pdf(format="Letter"))
    assert len(wires) <= 6
    assert "open it on the page" in "".join(wires)
    page.goto(address + "stand")
    for one in page.locator("details.working").all()[:6]:
        one.evaluate("e => e.open = true")
    assert len(pages_of(page.pdf(format="Letter"))) > few  # opened, they are printed
    page.context.close()


FILE_WORD = re.compile(r"\b[a-z]+(?:[_.][a-z0-9_]+)+\b|\[\[?[a-z_]+\]|\bpolestead (?:ask|doubts|wires|answer|start)\b|--[a-z]+")  # fmt: skip


def leaks(words: str) -> list[str]:
    """Lines in which a key of the file or a command of the terminal stands."""
    known = {name for name in places() if re.search(r"[_.]", name)} | {f"[{name}]" for name in places()}  # fmt: skip

    def one(word: str) -> bool:
        return word in known or word.startswith(("--", "polestead ", "[["))

    return [line.strip() for line in words.split("\n") if any(map(one, FILE_WORD.findall(line)))]


ALL_PATHS = (*PATHS, "/", "/doubts", "/build", "/file", "/file/place", "/file/household", "/file/run", "/file/drive")  # fmt: skip


class Words(HTMLParser):
    """What a reader sees, block by block; and every piece of it that is marked as assumed."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.words, self.assumed = "", list[str]()
        self._hidden, self._ochre, self._depth = 0, [], 0
        self.feed(page)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given = dict(attrs)
        if tag in ("input", "br", "meta", "link", "img", "hr"):
            return
        self._depth += 1
        self._hidden += tag in ("script", "style", "pre", "code", "title", "desc")
        marks = (given.get("class") or "").split()
        if {"assumed", "ochre"} & set(marks) or given.get("fill") == "var(--ochre)":
            self._ochre.append(self._depth)
            self.assumed.append("")

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None: ...

    def handle_endtag(self, tag: str) -> None:
        if tag in ("input", "br", "meta", "link", "img", "hr"):
            return
        self._hidden -= tag in ("script", "style", "pre", "code", "title", "desc")
        if self._ochre and self._ochre[-1] == self._depth:
            self._ochre.pop()
        self._depth -= 1
        self.words += " " if tag in ("a", "b", "span", "i") else "\n"

    def handle_data(self, data: str) -> None:
        if not self._hidden:
            self.words += data
            if self._ochre:
                self.assumed[-1] += data


def test_a_cost_that_is_not_known_is_not_said_to_be_paid_for(kept: Kept) -> None:
    state = on_the_desk("hollow-spruce")
    assert state.answer is not None
    money = replace(state.answer.money, lines=())
    desk = Desk(replace(state, answer=replace(state.answer, money=money)))
    desk.jobs = kept  # type: ignore[assignment]
    with TestClient(sheet_app(desk), base_url="http://127.0.0.1") as client:
        page = text(client, "/money")
    assert "Nothing is priced yet" in page
    assert "What a year saves" in page
    assert "Paid for after" not in page
    assert "Worth today" not in page


def test_each_way_of_tipping_stands_under_its_own_words(client: TestClient) -> None:
    rows = re.findall(r'<th scope="row" class="words">([^<]*)</th>', client.get("/winter").text)
    assert [row for row in rows if row.startswith("fixed at its best: ")]
    assert "1" not in rows


@pytest.mark.parametrize("name", ["hollow-spruce", "cinder-mesa", "slieve-moss"])
def test_no_page_speaks_in_keys_of_the_file_and_every_assumed_figure_has_its_mark(name: str, kept: Kept) -> None:  # fmt: skip
    desk = Desk(on_the_desk(name))
    desk.jobs = kept  # type: ignore[assignment]
    marked = 0
    with TestClient(sheet_app(desk), base_url="http://127.0.0.1") as client:
        for path in ALL_PATHS:
            read = Words(client.get(path).text)
            assert leaks(read.words) == [], path
            for line in read.words.replace("\xa0", " ").split("\n"):
                assert in_one_unit(line, desk.state.style) == line, path
                assert not re.search(r"~-\.?\d", line), (path, line)
            for words in read.assumed:
                if re.search(r"\d", words):
                    assert "~" in words, (path, words)
                    marked += 1
    assert marked > 0
    assert leaks("see run.breaker_bears")
    assert leaks("under [frame]")
    assert not leaks("mu_1 of the code")
