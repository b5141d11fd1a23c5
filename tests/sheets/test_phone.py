"""The phone file: from storage, with no network, at 390 px; ticks, gates, and the line that carries them."""

from __future__ import annotations

import re
from datetime import date, datetime
from html import escape
from pathlib import Path

import pytest

from polestead.base.problem import Wrong
from polestead.base.quantity import read_quantity
from polestead.build.cure import cured_by
from polestead.daybook.ticks import BuiltTick, GateTick, Ticks, cards_of, plain, read_ticks
from polestead.homestead.demos import demo_path
from polestead.homestead.read import read_homestead
from polestead.sheets.book.book import matter_of
from polestead.sheets.phone.phone import phone_file
from tests.answers import deck, drawn, worked
from tests.browser import CHROMIUM, FLAGS
from tests.sheets.deck import DECK

TODAY = date(2026, 7, 1)


@pytest.fixture(scope="module")
def text() -> str:
    owners = read_homestead(demo_path("hollow-spruce"))
    return phone_file(matter_of(owners, worked("hollow-spruce"), "feet", "letter", None, DECK))


@pytest.fixture(scope="module")
def path(text: str, tmp_path_factory: pytest.TempPathFactory) -> Path:
    file = tmp_path_factory.mktemp("phone") / "phone.html"
    file.write_text(text, encoding="utf-8")
    return file


@pytest.fixture
def page(chromium, path: Path):
    shown = on_a_phone(chromium)
    shown.said = []
    shown.on("console", lambda message: shown.said.append(message.text))
    shown.on("pageerror", lambda error: shown.said.append(str(error)))
    shown.goto(path.as_uri())
    yield shown
    shown.context.close()


def on_a_phone(chromium, **also):
    """A page 390 px wide with no network, and with nothing kept from another."""
    return chromium.new_context(viewport={"width": 390, "height": 844}, offline=True, **also).new_page()  # fmt: skip


def tick(page, act: str, step: int):
    return page.locator(f"input[data-act={act}][data-step='{step}']")


def test_it_is_one_file_that_names_nothing_outside_itself(text: str):
    assert "default-src 'none'" in text
    assert not re.findall(r'(?:src|href)="(?!#)', text)
    assert "http" not in text.replace("http://www.w3.org/2000/svg", "").replace("http-equiv", "")
    assert "url(" not in re.sub(r"url\(#\w+\)", "", text)
    assert "@import" not in text
    for words in ("Gust card", "Tape table", "Hole and footing", "screening sums"):
        assert words in text
    assert "style=" not in text


@pytest.fixture(scope="module")
def whole() -> str:
    owners = read_homestead(demo_path("hollow-spruce"))
    return phone_file(matter_of(owners, worked("hollow-spruce"), "feet", "letter", None, deck("hollow-spruce"), drawn("hollow-spruce")))  # fmt: skip


def test_that_the_line_of_ticks_carries_the_pour_is_said_beside_it(text: str, whole: str):
    assert 'id="cure"' in whole
    assert "the air since, as typed at the cure clock, stand at its end" in whole.partition('id="ticks"')[2]  # fmt: skip
    assert 'id="cure"' not in text
    assert "cure clock" not in text.partition('id="ticks"')[2]


def test_each_card_stands_in_it_once_and_those_wanted_in_a_hurry_first(whole: str):
    titles = re.findall(r"<h2>(.*?)</h2>", whole)
    assert titles[:4] == ["It will not move", "It will not move: why", "At the pole", "At the pole: EMERGENCY DROP"]  # fmt: skip
    assert titles[4:6] == ["Gust card", "Tape table"]
    assert len(titles) == len(set(titles)) == len(deck("hollow-spruce")) + 3
    assert sorted(titles) == sorted([*(card.title for card in deck("hollow-spruce")), "Gust card", "Tape table", "Your ticks as one line"])  # fmt: skip
    links = re.findall(r'<a href="#([^"]+)">', whole)
    assert all(whole.count(f'id="{link}"') == 1 for link in links)
    ids = re.findall(r' id="([^"]+)"', whole)
    assert len(ids) == len(set(ids))
    assert set(re.findall(r"url\(#([^)]+)\)", whole)) <= set(ids)
    assert whole.count("<svg ") == len(deck("hollow-spruce")) + 2  # sketches, clock, gust card


def test_a_step_has_one_tick_however_many_cards_its_act_has(whole: str):
    ticks = re.findall(r'data-act="([^"]+)" data-step="(\d+)"', whole)
    steps = [step for card in deck("hollow-spruce") for step in card.steps]
    rules = [step for step in steps if step.rule]
    assert len(ticks) == len(set(ticks)) == len(steps) - len(rules)
    # what is never done with has no box: the eight that stay at the pole, each a plain line
    assert len(rules) == 8
    assert all(
        f' data-rule="{nth}">{escape(step.words)}</li>' in whole
        for nth, step in enumerate(rules, start=1)
    )
    gate = re.search(r'data-act="lift" data-gate="modules" data-after="(\d+)"', whole)
    assert gate is not None
    assert int(gate[1]) == sum(len(card.steps) for card in deck("hollow-spruce") if card.act == "lift")  # fmt: skip


@pytest.mark.browser
def test_it_fits_a_narrow_phone_and_is_quiet(page):
    assert page.evaluate("document.documentElement.scrollWidth") <= 390
    assert page.said == []
    box = tick(page, "hole", 1).bounding_box()
    assert box["width"] >= 56 <= box["height"]
    for key in page.locator("button, nav a").all():
        assert key.bounding_box()["height"] >= 55.9


@pytest.mark.browser
def test_a_gate_holds_back_what_comes_after_it_and_says_why(page):
    tick(page, "hole", 1).click()
    tick(page, "hole", 4).click()
    assert not tick(page, "hole", 4).is_checked()
    assert "Nothing closes before the footing inspection." in page.inner_text("#said")
    assert page.input_value("#line") == "ticks: hole 1"
    page.fill(".gate [data-part=by]", "RJ")
    tick(page, "hole", 5).click()
    assert not tick(page, "hole", 5).is_checked()  # a name without a day is no signature
    page.fill(".gate [data-part=on]", "12 Jun")
    for step in (2, 3, 4):
        tick(page, "hole", step).click()
    assert page.input_value("#line") == "ticks: hole 1-4, gate footing 12 Jun RJ"
    page.fill(".gate [data-part=on]", "")  # the signature taken back takes back what stood on it
    assert page.input_value("#line") == "ticks: hole 1-3"


@pytest.fixture
def house(chromium, whole: str, tmp_path: Path):
    """The demo's own cards, all of them, on a phone."""
    file = tmp_path / "phone.html"
    file.write_text(whole, encoding="utf-8")
    shown = on_a_phone(chromium)
    shown.goto(file.as_uri())
    yield shown
    shown.context.close()


def part(page, gate: str, which: str):
    return page.locator(f".gate[data-gate='{gate}'] [data-part={which}]")


def sign(page, gate: str) -> None:
    part(page, gate, "by").fill("RJ")
    part(page, gate, "on").fill("12 Jun")


def pressed(page, act: str) -> bool:
    """The act's first box after it was pressed."""
    page.locator(f"input[data-act='{act}'][data-step='1']").click()
    return page.locator(f"input[data-act='{act}'][data-step='1']").is_checked()


def wanted(page, act: str) -> str:
    """The words beside the act's first box."""
    return page.locator(f"li:has(> label > input[data-act='{act}'][data-step='1']) .wanted").inner_text()  # fmt: skip


# Act, gates before it still wanted when all earlier ones of this list are signed, in the order of work.
ORDER = (
    ("pour", ("footing",)),
    ("lift", ("test piece", "bare steel")),
    ("load modules", ("modules",)),
    ("wire", ("trench",)),
    ("first travel", ("wiring",)),
)


@pytest.mark.browser
def test_no_act_is_ticked_before_each_gate_of_the_acts_it_needs_is_signed(house):
    assert pressed(house, "hole")  # nothing stands before it
    assert pressed(house, "aim")
    assert not pressed(house, "first travel")
    assert wanted(house, "first travel") == "Locked until signed: footing, trench, test piece, bare steel, modules, wiring."  # fmt: skip
    for act, gates in ORDER:
        for at, gate in enumerate(gates):
            assert not pressed(house, act)
            assert f"Fill the gate {gate} " in house.inner_text("#said")
            assert wanted(house, act) == f"Locked until signed: {', '.join(gates[at:])}."
            sign(house, gate)
        assert pressed(house, act)
        assert wanted(house, act) == ""
    line = house.input_value("#line")
    assert len(read_ticks(line, cards_of(deck("hollow-spruce")), TODAY).gates) == 6
    part(house, "footing", "on").fill("")  # taken back, with all that stood on it
    assert house.input_value("#line") == "ticks: hole 1, aim 1, gate trench 12 Jun RJ, gate test piece 12 Jun RJ"  # fmt: skip


@pytest.mark.browser
def test_a_gate_is_not_signed_before_those_that_stand_before_it(house):
    assert part(house, "bare steel", "by").get_attribute("readonly") is not None
    assert "Locked until signed: footing." in house.locator(".gate[data-gate='bare steel']").inner_text()  # fmt: skip
    part(house, "footing", "why").fill("none is asked here")
    assert part(house, "bare steel", "by").get_attribute("readonly") is None
    assert pressed(house, "pour")


EARLY = (
    ("pour 1", "pour 1", "footing"),
    ("lift 1, gate footing 12 Jun RJ, gate test piece 12 Jun RJ", "lift 1", "bare steel"),
    ("load modules 1, gate footing 12 Jun RJ, gate test piece 12 Jun RJ, gate bare steel 12 Jun RJ", "load modules 1", "modules"),
    ("first travel 1, gate trench 12 Jun RJ, gate footing 12 Jun RJ, gate bare steel 12 Jun RJ, gate test piece 12 Jun RJ, gate modules 12 Jun RJ", "first travel 1", "wiring"),
    ("gate bare steel 12 Jun RJ", "gate bare steel", "footing"),
)  # fmt: skip


@pytest.mark.browser
def test_a_line_out_of_order_is_refused_by_the_phone_and_by_the_daybook(house):
    cards = cards_of(deck("hollow-spruce"))
    for line, early, gate in EARLY:
        house.fill("#line", f"ticks: {line}")
        house.click("#take")
        assert house.inner_text("#said") == f"Not taken: {early} (its gate is not filled: {gate})."
        assert early not in house.input_value("#line")
        with pytest.raises(Wrong) as caught:
            read_ticks(line, cards, TODAY)
        (problem,) = caught.value.problems
        assert (problem.given, problem.allowed) == (early, f"it once the gate {gate} is filled")
        signed = line + f", gate {gate} 12 Jun RJ"
        assert read_ticks(signed, cards, TODAY)
        house.fill("#line", f"ticks: {signed}")
        house.click("#take")
        assert house.inner_text("#said") == "Taken in."
    signed = ", ".join(
        f"gate {name} 12 Jun RJ" for name in cards.gates
    )  # rules that an older file ticked
    house.fill("#line", f"ticks: pole-side 1-9, {signed}")
    house.click("#take")
    assert (
        house.inner_text("#said")
        == "Not taken: pole-side 1-8 (rules that hold for ever: they have no box)."
    )
    assert house.input_value("#line").startswith("ticks: pole-side 9, gate ")
    assert read_ticks(f"ticks: pole-side 1-9, {signed}", cards, TODAY) == read_ticks(
        house.input_value("#line"), cards, TODAY
    )


@pytest.mark.browser
def test_a_gate_may_be_waived_with_its_reason(page):
    page.fill(".gate [data-part=why]", "no office here")
    tick(page, "hole", 4).click()
    assert page.input_value("#line") == "ticks: hole 4, gate footing not needed: no office here"


@pytest.mark.browser
def test_the_line_given_back_sets_the_same_ticks(chromium, path: Path):
    alone = chromium.browser_type.launch(
        executable_path=CHROMIUM, args=FLAGS
    )  # what it keeps is its own business
    page = on_a_phone(alone)
    page.goto(path.as_uri())
    line = "ticks: hole 1-4, lift 2, gate footing 12 Jun RJ, built hole/footing.depth = 8 ft 7 in"
    page.fill("#line", line)
    page.click("#take")
    assert page.input_value("#line") == line
    assert tick(page, "hole", 4).is_checked()
    assert not tick(page, "hole", 5).is_checked()
    assert page.input_value("[data-key='footing.depth']") == "8 ft 7 in"
    page.reload()
    assert page.input_value("#line") == line  # kept where the phone keeps such things
    alone.close()


@pytest.mark.browser
def test_the_daybook_reads_what_the_phone_writes(page):
    cards = cards_of(DECK)
    assert read_ticks(page.input_value("#line"), cards, TODAY) == Ticks()
    page.fill(".gate [data-part=by]", "R. J")
    page.fill(".gate [data-part=on]", "12, Jun")
    for step in (1, 2, 5):
        tick(page, "hole", step).click()
    tick(page, "lift", 2).click()
    page.fill("[data-key='footing.depth']", "8 ft, 7 in; about")
    ticks = read_ticks(page.input_value("#line"), cards, TODAY)
    assert ticks.steps == (("hole", (1, 2, 5)), ("lift", (2,)))
    assert ticks.gates == (GateTick("footing", "12 Jun", "R..J"),)
    assert ticks.built == (BuiltTick("hole", "footing.depth", "8 ft 7 in about"),)
    assert "ticks: " + plain(ticks) == page.input_value("#line")


@pytest.mark.browser
@pytest.mark.parametrize(
    ("line", "word"),
    [
        ("ticks: hole 4", "its gate is not filled"),
        ("ticks: pond 1-3", "pond 1-3"),
        ("ticks: hole 1-99", "hole 1-99"),
    ],
)
def test_what_cannot_be_taken_in_is_said_and_ticks_nothing(page, line, word):
    page.fill("#line", line)
    page.click("#take")
    assert word in page.inner_text("#said")
    assert page.input_value("#line") == "ticks: none"


@pytest.mark.browser
@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_without_script_it_is_a_text_to_read_by_day_and_by_night(chromium, path: Path, scheme):
    shown = on_a_phone(chromium, java_script_enabled=False, color_scheme=scheme)
    shown.goto(path.as_uri())
    words = shown.locator("body").inner_text()
    shown.locator("input[data-act=lift][data-step='1']").click()
    ticked = shown.locator("input:checked").count()
    shown.context.close()
    assert "Without script the boxes tick" in words
    assert "Cover the hole whenever you step away." in words
    assert "Take it in" not in words  # a key that does nothing is not shown
    assert ticked == 1


def test_when_something_gives_it_says_so_first(text: str):
    from tests.sheets.test_book import broken

    told = phone_file(broken())
    assert told.index("THE SUMS SAY NO: pole at the collar 112 of 100") < told.index("<nav")
    assert "THE SUMS SAY NO" not in text


@pytest.mark.browser
def test_a_gate_emptied_by_a_slip_is_given_back_with_one_key(house):
    for gate in ("trench", "footing"):
        sign(house, gate)
    house.locator("input[data-act='pour'][data-step='1']").click()
    before = house.input_value("#line")
    assert "pour 1" in before
    part(house, "footing", "on").fill("")
    assert "pour 1" not in house.input_value("#line")
    assert "behind it went with it" in house.inner_text("#said")
    house.locator("#said button").click()
    assert house.input_value("#line") == before
    assert house.locator("#said button").count() == 0


WARM = ["68 F", "59 F", "?", "50 F", "12 C", "41 F", "30 C"] + ["61.5 F"] * 13


@pytest.mark.browser
def test_the_cure_clock_counts_as_the_one_on_paper(house):
    typed = [None if one == "?" else read_quantity(one, "temperature") for one in WARM]
    clock = cured_by(typed, read_homestead(demo_path("hollow-spruce")).homestead.footing.concrete_pa, poured=date(2020, 5, 4))  # fmt: skip
    house.fill("#air", ", ".join(WARM))
    assert house.inner_text("#counted") == "Type the day of the pour first."
    house.fill("#poured", "2020-05-04")
    said = house.inner_text("#counted")
    worth = float(re.search(r"20 days typed, worth ([\d.]+) at 68 F", said)[1])
    exact = clock.maturity_c_days / 20.0
    assert exact - 13 * 0.03 - 0.1 <= worth <= exact  # 61.5 F counts as 61, never more
    for name, words in (
        ("strip", "Strip the collar's form"),
        ("bare steel", "Bare steel on the pole"),
    ):
        on = re.search(rf"{words}: reached \w+,? (\d+ \w+ \d+)", said)[1]
        late = (datetime.strptime(on, "%d %b %Y").date() - clock.mark(name).on).days
        assert 0 <= late <= 1, name
    assert re.search(r"Modules: ~ not before \w+,? \d+ \w+ 2020", said)
    assert house.evaluate("document.documentElement.scrollWidth") <= 390
    house.fill("#air", "68 F, warm")
    assert house.inner_text("#counted").startswith("Not read: warm.")
    assert (
        house.input_value("#line") == "ticks: poured 2020-05-04"
    )  # what is not understood stays out of the line
    house.fill("#air", "99 C")  # nor does the daybook take it
    assert house.inner_text("#counted").startswith("Not read: 99 C.")
    house.fill("#air", "?, 30 F, 68 F")
    assert "at freezing while young" in house.inner_text("#counted")
    house.reload()
    assert house.input_value("#poured") == "2020-05-04"
    assert "worth 1 at 68 F" in house.inner_text("#counted")
    assert house.input_value("#line") == "ticks: poured 2020-05-04: ?; 30 F; 68 F"


@pytest.mark.browser
def test_the_pour_rides_in_the_line_and_comes_back_from_it(house):
    cards = cards_of(deck("hollow-spruce"))
    house.fill("#poured", "2020-05-04")
    house.fill("#air", "68, 59 F, ?, 9.5 C, \u22122 C")
    line = house.input_value("#line")
    assert line == "ticks: poured 2020-05-04: 68 F; 59 F; ?; 9.5 C; -2 C"
    told = read_ticks(line, cards, TODAY).poured
    assert told is not None
    assert (told.on, told.daily_c[2:]) == (date(2020, 5, 4), (None, 9.5, -2.0))
    house.fill("#air", "")
    house.fill("#poured", "")
    assert house.input_value("#line") == "ticks: none"
    house.fill("#line", line)
    house.click("#take")
    assert (house.input_value("#poured"), house.input_value("#line")) == ("2020-05-04", line)
    assert "5 days typed" in house.inner_text("#counted")
    house.fill("#line", "ticks: hole 1")  # of an older file: the clock stays as it is
    house.click("#take")
    assert house.input_value("#line") == line.replace("ticks: ", "ticks: hole 1, ")
    for wrong, why in (
        ("2020-02-30", "there is no such day"),
        ("2999-01-01", "still to come"),
        ("2020-05-04: warm", "Not read: warm."),
    ):
        house.fill("#line", f"ticks: poured {wrong}")
        house.click("#take")
        assert house.inner_text("#said").startswith(f"Not taken: poured {wrong} (")
        assert why in house.inner_text("#said")
        assert house.input_value("#poured") == "2020-05-04"  # what stood there stands
        with pytest.raises(Wrong):
            read_ticks(f"ticks: poured {wrong}", cards, TODAY)
