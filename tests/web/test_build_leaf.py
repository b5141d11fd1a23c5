"""The build leaf: ticks and gates kept in the daybook, what is refused, what is measured as built, and the cure clock."""

from __future__ import annotations

import re
from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from typing import Any

import pytest

from polestead.answer.cards import cards_only
from polestead.answer.drawables import drawables_of
from polestead.base.problem import Wrong
from polestead.build.cards.cards import whole
from polestead.build.cure import cured_by
from polestead.daybook.daybook import daybook_path, open_daybook
from polestead.daybook.entry import Entry, Moment
from polestead.daybook.last import last_of, write_on
from polestead.daybook.poured import Poured, pour_note, poured_in, read_poured
from polestead.daybook.ticking import (
    gate_gone,
    gate_of,
    held_back,
    line_of,
    standings,
    ticked,
    together,
    with_gate,
)
from polestead.daybook.ticks import Cards, Ticks, cards_of, read_ticks, read_what_fits
from polestead.homestead.demos import demo_path
from polestead.homestead.read import read_homestead
from polestead.sheets.charts_cure import cure_line, cure_words
from polestead.sheets.drawn.clock import day_of
from polestead.sheets.drawn.index import drawing_named
from polestead.sheets.svg import SCREEN
from polestead.web.leaves import build as build_leaf
from tests.answers import worked
from tests.web.deck import AtOnce, Owner, as_worked, desk_over, own_file

NOW = datetime(2026, 6, 20, 14, 30, tzinfo=UTC)


@pytest.fixture(autouse=True)
def at_that_time(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(build_leaf, "now", lambda: NOW)


@pytest.fixture
def owner(tmp_path: Path) -> Owner:
    return Owner(desk_over(own_file(tmp_path)))


@pytest.fixture(scope="module")
def deck() -> Any:
    owners = read_homestead(demo_path("hollow-spruce"))
    return whole(cards_only(owners, stand=worked("hollow-spruce").stand))


def kept_line(owner: Owner) -> str:
    """What the terminal reads: the newest line of ticks in the daybook."""
    path = owner.desk.state.path
    assert path is not None
    with open_daybook(daybook_path(path)) as book:
        last = last_of(book.entries(), lambda entry: bool(entry.ticks))
    return "" if last is None else last.entry.ticks


def box(page: str, nth: int) -> str:
    found = re.search(rf'id="tick-{nth}"[^>]*aria-checked="(true|false)"', page)
    assert found is not None
    return found[1]


def test_a_tick_is_kept_in_the_daybook_read_back_and_taken_back(owner: Owner) -> None:
    assert box(owner.look("/build/hole"), 2) == "false"
    for step in ("1", "2", "3"):
        reply = owner.send("/build/tick", act="hole", step=step, done="yes", back="/build/hole")
        assert reply.url.path == "/build/hole"
    assert kept_line(owner) == "hole 1-3"
    assert box(owner.look("/build/hole"), 2) == "true"
    owner.send("/build/tick", act="hole", step="2", done="no", back="/build/hole")
    assert kept_line(owner) == "hole 1 3"
    owner.send("/build/undo", back="/build/hole")
    assert kept_line(owner) == "hole 1-3"
    again = Owner(desk_over(owner.desk.state.path))  # type: ignore[arg-type]  # another server
    assert box(again.look("/build/hole"), 2) == "true"


def test_the_same_line_twice_within_a_minute_is_still_the_newest(owner: Owner) -> None:
    for done in ("yes", "no", "yes", "no", "yes"):
        owner.send("/build/tick", act="hole", step="1", done=done, back="/build/hole")
    assert kept_line(owner) == "hole 1"
    path = owner.desk.state.path
    assert path is not None
    with open_daybook(daybook_path(path)) as book:
        assert len(book.entries()) == 1
        assert len(book.entries(struck=True)) == 5


def test_looking_begins_no_daybook(owner: Owner) -> None:
    owner.look("/build")
    owner.look("/build/pour")
    path = owner.desk.state.path
    assert path is not None
    assert not daybook_path(path).exists()


def test_a_line_from_the_terminal_is_what_the_page_shows(owner: Owner) -> None:
    path = owner.desk.state.path
    assert path is not None
    with open_daybook(daybook_path(path)) as book:
        moment = Moment(NOW.date() - timedelta(days=1))
        book.append(Entry(moment, ticks="hole 1-5, stake 1 4", whence="phone file"), NOW)
    page = owner.look("/build")
    assert "ticks: hole 1-5, stake 1 4" in page
    assert re.search(r'class="done[^"]*"><a href="/build/hole">', page)


def test_boxes_behind_a_gate_take_no_tick_until_it_is_filled_and_the_reason_is_said(
    owner: Owner,
) -> None:
    last = owner.send("/build/tick", act="trench", step="12", done="yes", back="/build/trench")
    assert last.status_code == 409
    assert "Fill the gate first" in last.text
    refused = owner.send("/build/tick", act="pour", step="1", done="yes", back="/build/pour")
    assert refused.status_code == 409  # the gate of another card that it waits for
    assert kept_line(owner) == ""
    half = owner.send("/build/gate", gate="footing", by="", on="12 Jun", why="", back="/build/aim")
    assert half.status_code == 409
    assert "No name" in half.text
    assert 'value="12 Jun"' in half.text  # what was filled in stays
    owner.send("/build/gate", gate="footing", by="R. Jensen", on="12 Jun", back="/build/aim")
    assert "Signed <b>R.Jensen</b> on <b>12 Jun</b>" in owner.look("/build/aim")
    owner.send("/build/tick", act="pour", step="1", done="yes", back="/build/pour")
    assert kept_line(owner) == "pour 1, gate footing 12 Jun R.Jensen"
    owner.send("/build/gate", gate="footing", do="back", back="/build/aim")
    assert kept_line(owner) == "none"


def test_a_gate_that_is_not_needed_says_why(owner: Owner) -> None:
    why = "no inspector here; the county, in writing, says so <b>"
    owner.send("/build/gate", gate="trench", by="", on="", why=why, back="/build/trench")
    assert kept_line(owner) == "gate trench not needed: no inspector here the county in writing says so <b>"  # fmt: skip
    raw = owner.client.get("/build/trench").text
    assert "says so &lt;b&gt;." in raw


@pytest.mark.parametrize(
    "fields",
    [
        {"act": "hole", "step": "99"},
        {"act": "hole", "step": "-1"},
        {"act": "well", "step": "1"},
        {"act": "hole, gate footing x y", "step": "1"},
        {"act": "", "step": "9999999999"},
    ],
)
def test_no_other_step_is_ticked(owner: Owner, fields: dict[str, str]) -> None:
    assert owner.send("/build/tick", **fields, back="/build/hole").status_code == 409
    assert kept_line(owner) == ""


def test_hostile_input_is_refused_and_writes_nothing(owner: Owner) -> None:
    assert owner.client.get("/build/..%2f..%2fetc").status_code == 404
    assert owner.client.get("/build/no-such-act").status_code == 404
    assert owner.client.post("/build/tick", data={"act": "hole", "step": "1"}).status_code == 403
    assert owner.send("/build/gate", gate="../x", by="a", on="b").status_code == 400
    for by, on in (("a\x00b", "12 Jun"), ("a", "not needed: x")):
        assert owner.send("/build/gate", gate="footing", by=by, on=on, back="/build/aim").status_code == 409  # fmt: skip
    for line in ("ticks: well 1", "hole 1, hole 1", "hole 9-1", "x" * 9000, "gate footing", "\ud7ff"):  # fmt: skip
        reply = owner.send("/build/line", line=line, do="keep")
        assert reply.status_code == 422, line
        assert "Nothing was taken in." in reply.text
    assert owner.send("/build/tick", act="hole", step="1", back="//evil.example/x").url.path == "/"
    assert kept_line(owner) == "hole 1"


def test_the_phone_line_is_understood_before_it_is_taken(owner: Owner) -> None:
    owner.send("/build/tick", act="stake", step="2", back="/build/stake")
    line = "ticks: hole 1-4, gate footing 12 Jun RJ, built hole/footing.depth = 9 ft 2 in"
    page = owner.send("/build/line", line=line, do="look").text
    assert "hole: steps 1, 2, 3, 4 done." in page
    assert "Ticked here, and not in the line: stake 2." in page
    assert kept_line(owner) == "stake 2"
    owner.send("/build/line", line=line, do="add")
    assert kept_line(owner).startswith("stake 2, hole 1-4, gate footing 12 Jun RJ")
    owner.send("/build/line", line=line, do="keep")
    assert kept_line(owner) == line.removeprefix("ticks: ")
    assert "By the line of ticks; not in the file until you keep it" in owner.look("/build/hole")
    # the pour rides in the line both ways, is kept as its note, and a line without one leaves it
    owner.send("/build/line", line=f"{line}, poured 2026-06-12: 12 C; ?; 9 C", do="add")
    assert kept_line(owner) == line.removeprefix("ticks: ")
    assert 'value="2026-06-12"' in owner.look("/build/pour")
    owner.send("/build/line", line=line, do="keep")
    assert f"{line}, poured 2026-06-12: 12 C; ?; 9 C</code>" in owner.look("/build")
    to_come = owner.send("/build/line", line=f"{line}, poured 2026-06-21", do="keep")
    assert to_come.status_code == 422
    assert "Write down what was, not what will be." in to_come.text


def test_what_is_measured_is_written_as_built_with_remarks_kept(owner: Owner) -> None:
    path = owner.desk.state.path
    assert path is not None
    path.write_text(path.read_text(encoding="utf-8").replace("[footing]", "# mind the well\n[footing]"), encoding="utf-8")  # fmt: skip
    owner.desk.look()
    owner.desk.take()
    form = re.search(r'<form[^>]*id="b-2">(.*?)</form>', owner.client.get("/build/hole").text, re.DOTALL)  # fmt: skip
    assert form is not None
    fields = dict(re.findall(r'name="([a-z_]+)" value="([^"]*)"', form[1]))
    assert fields["at"] == "footing/depth"
    fields.pop("token")
    reply = owner.send("/file/keep", **{**fields, "built": "9 ft 2 in", "on": "2026-06-11"})
    assert reply.url.path == "/build/hole"
    text = path.read_text(encoding="utf-8")
    assert 'depth = {planned = "9 ft 6 in", built = "9 ft 2 in", on = 2026-06-11}' in text
    assert "# mind the well" in text
    reply = owner.send("/file/keep", **{**fields, "of": owner.desk.state.fingerprint, "built": "9"})
    assert "Not written: given" in reply.text
    assert path.read_text(encoding="utf-8") == text


def test_every_figure_measured_as_built_has_its_field_or_the_way_to_it(owner: Owner) -> None:
    deck = cards_of(cards_only(owner.desk.state.owners, stand=worked("hollow-spruce").stand))  # type: ignore[arg-type]
    for act, keys in deck.built.items():
        page = owner.look(f"/build/{build_leaf.slug(act)}")
        ats = {re.sub(r"/\d+", "", at).replace("/", ".") for at in re.findall(r'name="at" value="([^"]+)"', page)}  # fmt: skip
        for key in keys - ats:
            assert f'href="/file/{key.partition(".")[0]}' in page, key


def test_the_section_orders_the_concrete_that_is_poured() -> None:
    owners = read_homestead(demo_path("hollow-spruce"))
    answer = worked("hollow-spruce")
    svg = drawing_named("section", drawables_of(owners, answer.stand), "feet", SCREEN)
    assert f"{round(answer.build.concrete.order_m3 / 0.9144**3, 2):g} yd³, waste in it" in svg


def test_an_act_of_several_sheets_has_its_sketches_figures_and_every_box(owner: Owner) -> None:
    page = owner.look("/build/test")
    assert page.count('aria-label="sketch') == 4
    assert re.findall(r'id="tick-(\d+)"', page) == [str(nth) for nth in range(1, 10)]
    ids = re.findall(r'\sid="([^"]+)"', page)
    assert len(ids) == len(set(ids))


def test_a_demo_keeps_its_ticks_in_memory_and_says_so(tmp_path: Path) -> None:
    desk = desk_over(own_file(tmp_path))
    desk.open_demo("hollow-spruce")
    owner = Owner(desk)
    owner.send("/build/tick", act="hole", step="1", back="/build/hole")
    page = owner.look("/build/hole")
    assert box(page, 1) == "true"
    assert "memory of this server only" in page
    assert not daybook_path(demo_path("hollow-spruce")).exists()


def test_a_daybook_that_cannot_be_read_is_said(owner: Owner) -> None:
    path = owner.desk.state.path
    assert path is not None
    daybook_path(path).write_text("no daybook", encoding="utf-8")
    assert "The daybook cannot be read" in owner.look("/build/hole")
    reply = owner.send("/build/tick", act="hole", step="1", back="/build/hole")
    assert reply.status_code == 409
    assert daybook_path(path).read_text(encoding="utf-8") == "no daybook"


def test_the_cure_clock_is_moved_by_typed_temperatures(owner: Owner) -> None:
    assert "Not begun" in owner.look("/build/pour")
    owner.send("/build/cure", poured="2026-06-01", days="68 F\n" * 10, back="/build/pour")
    page = owner.look("/build/pour")
    assert "Bare steel: from Mon 8 Jun 2026 on." in page  # seven days at 20 C
    assert "Modules: not before Mon 29 Jun 2026." in page  # and eighteen more to twenty-eight
    owner.send("/build/cure", poured="2026-06-01", days="68 F\n?\n38 F", back="/build/pour")
    assert "Modules: not before Wed 1 Jul 2026." in owner.look("/build/pour")  # two days lost
    for poured, days in (("2027-01-01", ""), ("1 June", ""), ("2026-06-01", "68"), ("2026-06-01", "9 C\n" * 30)):  # fmt: skip
        assert owner.send("/build/cure", poured=poured, days=days, back="/build/pour").status_code == 409  # fmt: skip
    assert "Modules: not before Wed 1 Jul 2026." in owner.look("/build/pour")


def test_what_is_never_done_with_is_a_list_of_rules_and_no_order_of_steps(owner: Owner) -> None:
    page = owner.look("/build/pole-side")
    rules = page.partition('<ul class="afresh">')[2].partition("</ul>")[0]
    assert rules.count("<li>Never ") == rules.count("<li>") == 8
    assert 'action="/build/tick"' not in page
    afresh = page.partition('<ol class="afresh"')[2].partition("</ol>")[0]
    assert "<li>Never" not in afresh
    assert "<li>" in afresh
    assert page.count("Gone through each time from the top") == 1


# The rooms below the leaf.


def test_no_act_is_at_hand_before_what_it_needs(deck: Any) -> None:
    stands = standings(deck, Ticks())
    assert {act for act, one in stands.items() if one.stage == "now"} == {"locate", "shop"}
    assert stands["first travel"].stage == "later"
    assert stands["pole-side"].stage == "stays"
    cards = cards_of(deck)
    done = read_ticks("locate 1-5, stake 1-5, trench 1-11, hole 1-5, aim 1-8", cards, NOW.date())
    stands = standings(deck, done)
    assert (stands["hole"].stage, stands["trench"].stage, stands["trench"].gate) == ("done", "waits", "trench")  # fmt: skip
    signed = with_gate(done, gate_of("footing", "RJ", "12 Jun", ""))
    assert standings(deck, signed)["aim"].stage == "done"
    assert (
        held_back(signed, cards, "first travel", 1) == "trench"
    )  # the first open one of all before it
    assert "wiring" in cards.waits["first travel"]  # by the act without a card


def test_a_line_of_other_cards_is_read_as_far_as_it_fits(deck: Any) -> None:
    cards = cards_of(deck)
    ticks, lost = read_what_fits("hole 1-5, trench 1-60, stake 1", cards, NOW.date())
    assert ticks.steps == (("hole", (1, 2, 3, 4, 5)), ("stake", (1,)))
    assert [one.given for one in lost] == ["trench 1-60"]


def test_ticks_are_joined_and_taken_back_in_order() -> None:
    cards = Cards({"hole": 5, "pour": 4}, {"footing": ("hole", 4)}, {}, {"pour": ("footing",)})
    one, other = read_ticks("hole 1-2", cards, NOW.date()), read_ticks("hole 2 4, gate footing 12 Jun RJ", cards, NOW.date())  # fmt: skip
    both = together(one, other, cards)
    assert line_of(both, cards) == "hole 1-2 4, gate footing 12 Jun RJ"
    more = ticked(ticked(both, cards, "hole", 5, done=True), cards, "pour", 1, done=True)
    assert line_of(gate_gone(more, cards, "footing"), cards) == "hole 1-2 4"
    with pytest.raises(Wrong, match="footing"):
        ticked(one, cards, "hole", 5, done=True)


def test_a_pour_reads_back_from_its_note(tmp_path: Path) -> None:
    today = NOW.date()
    poured = read_poured("2026-06-01", "54 F\n\n?\n9 C", today)
    assert poured.daily_c[1:] == (None, None, 9.0)
    with open_daybook(tmp_path / "a.daybook") as book:
        write_on(book, None, NOW, note=pour_note(Poured(date(2026, 5, 1))))
        write_on(book, book.entries()[-1], NOW, note=pour_note(poured))
        assert poured_in(book.entries(), today) == poured
        assert len(book.entries()) == 1


@pytest.mark.parametrize("width", [358.0, 720.0, 802.0])
def test_the_ruled_line_stays_in_its_frame_and_says_what_the_words_say(width: float) -> None:
    for days in ((), (20.0,) * 40, (12.0, None, 3.0, -2.0)):
        cure = cured_by(days, 20.7e6, poured=date(2026, 6, 1))
        svg = cure_line(cure, "feet", SCREEN, width)
        for x, anchor, words in re.findall(r'<text x="([\d.-]+)"[^>]*?text-anchor="(\w+)"[^>]*>([^<]*)<', svg):  # fmt: skip
            long = len(words) * 13.0 * 0.5
            left = float(x) - {"start": 0.0, "middle": long / 2.0, "end": long}[anchor]
            assert left >= -4.0
            assert left + long <= width + 4.0
        for mark in cure.marks:
            day = day_of(cure, mark)
            assert day is not None
            on = date(2026, 6, 1) + timedelta(days=day)
            assert any(f"{on.day} {on:%b} 2026" in words for words in cure_words(cure, "feet"))
            assert f"{on.day} {on:%b}" in svg


@pytest.mark.browser
def test_on_a_phone_a_card_is_ticked_with_a_thumb(chromium: Any, tmp_path: Path) -> None:
    from polestead.web.app import sheet_app
    from polestead.web.desk import Desk
    from tests.web.deck import served

    desk = Desk(folder=tmp_path, call=as_worked, jobs=AtOnce())
    desk.open(own_file(tmp_path))
    said: list[str] = []
    with served(sheet_app(desk)) as address:
        page = chromium.new_context(viewport={"width": 390, "height": 844}, has_touch=True).new_page()  # fmt: skip
        page.on("console", lambda message: said.append(message.text) if "409" not in message.text else None)  # fmt: skip
        page.goto(f"{address}/build/trench")
        assert page.evaluate("document.documentElement.scrollWidth") == 390
        assert not page.locator("#acts").is_visible()
        first = page.get_by_role("checkbox").first
        place = first.bounding_box()
        assert place is not None
        assert place["height"] >= 56
        assert page.evaluate("parseFloat(getComputedStyle(document.querySelector('.tick')).fontSize)") >= 20.9  # fmt: skip
        first.tap()
        page.locator("#tick-1[aria-checked=true]").wait_for()
        page.locator("#tick-12").tap()
        page.locator("#s-12 .wrong").wait_for()
        assert "Fill the gate first" in page.locator("#announce").inner_text()
        page.locator("#tick-1").focus()
        page.keyboard.press("Space")
        page.locator("#tick-1[aria-checked=false]").wait_for()
        assert page.evaluate("document.activeElement.id") == "tick-1"
        page.get_by_role("link", name="next: Hole").tap()
        page.get_by_role("heading", name="Hole", exact=True).wait_for()
        page.context.close()
    assert said == []
