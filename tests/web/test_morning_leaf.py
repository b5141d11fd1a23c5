"""The morning on the page: every state of the line, three keys, what he sees; by forms without script, and by touch and keys in a browser."""

from __future__ import annotations

import re
import shutil
from collections.abc import Iterator
from datetime import datetime, timedelta
from html import unescape
from pathlib import Path
from time import tzset
from typing import Any

import pytest

from polestead.base.show import gust_step
from polestead.daybook.daybook import open_daybook
from polestead.daybook.entry import Entry, Moment
from polestead.homestead.demos import demo_path
from polestead.homestead.read import read_homestead
from polestead.morning.kept import keep, key_of
from polestead.web.app import sheet_app
from polestead.web.desk import Desk
from tests.answers import worked
from tests.morning.conftest import spruce as spruce
from tests.web.deck import AtOnce, Owner, as_worked, served

NOW = datetime(2025, 11, 26, 7, 10)
HEARD = "heard: clear, gusts 15 mph"


@pytest.fixture(autouse=True)
def the_places_clock(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """This machine stands in the zone of the place."""
    with monkeypatch.context() as patch:
        patch.setenv("TZ", "CST6")
        tzset()
        yield
    tzset()


class Never(AtOnce):
    """No answer is worked: the morning stands without it."""

    def start(self, name: str, call: Any, *given: Any, then: Any = None) -> Any:
        assert name != "morning", "the basis is put by: it is not worked again"
        return self.job(name) or super().start(name, lambda *_, **__: None, then=None)


@pytest.fixture(scope="module")
def put_by(spruce: Any, tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("put-by")
    shutil.copy(demo_path("hollow-spruce"), folder / "home.toml")
    assert keep(
        folder / "home.morning", key_of((folder / "home.toml").read_bytes(), folder), spruce
    )
    return folder


@pytest.fixture
def home(put_by: Path, tmp_path: Path) -> Path:
    for name in ("home.toml", "home.morning"):
        shutil.copy(put_by / name, tmp_path / name)
    return tmp_path / "home.toml"


def desk_at(home: Path, now: datetime = NOW) -> Desk:
    desk = Desk(folder=home.parent, jobs=Never(), clock=lambda: now)
    desk.open(home)
    return desk


def written(home: Path, *entries: Entry) -> None:
    with open_daybook(home.with_suffix(".daybook")) as book:
        book.append_all(entries, NOW.astimezone())


def kept(home: Path) -> list[Entry]:
    with open_daybook(home.with_suffix(".daybook")) as book:
        return [one.entry for one in book.entries()]


def at(hour: int, day: int = 26, **seen: Any) -> Entry:
    return Entry(Moment(NOW.date().replace(day=day), datetime(2025, 1, 1, hour).time()), **seen)


def line(page: str) -> str:
    """The line itself, without its why."""
    found = re.search(r'<section class="line.*?</section>', page, re.DOTALL)
    assert found is not None
    return " ".join(re.sub(r"<[^>]+>", " ", found[0]).split())


def once(page: str, key: str) -> dict[str, str]:
    """The hidden fields of one form."""
    form = re.search(rf'<form[^>]*action="{key}".*?</form>', page, re.DOTALL)
    assert form is not None
    return dict(re.findall(r'type="hidden" name="([^"]+)" value="([^"]*)"', form[0]))


def test_a_morning_says_where_it_stands_and_links_five_reasons_to_their_workings(
    home: Path,
) -> None:
    written(home, at(6, tilt_deg=65.0, charge=0.78, snow="bare", note=HEARD))
    page = Owner(desk_at(home)).look("/morning")
    assert "Leave it at 65" in line(page)
    assert "Wed 26 Nov, 7:10" in page
    assert (
        "From the daybook: at 65 since today 6:00; charge 78 % from today 6:00; glass bare today 6:00."
        in page
    )
    links = re.findall(r'class="why-slip" href="#([^"]+)"', page)
    assert len(links) == 5
    for link in links:
        slip = re.search(rf'<section id="{link}">.*?</section>', page, re.DOTALL)
        assert slip is not None
        assert 'class="rungs"' in slip[0]
    for slip_of_the_pen in ("object at 0x", "Undefined", "style=", "nan"):
        assert slip_of_the_pen not in page


def test_to_be_moved_with_an_unproved_gauge_no_seconds_are_shown_and_the_mark_is_marked(
    home: Path,
) -> None:
    written(
        home,
        at(
            6,
            tilt_deg=25.0,
            charge=0.4,
            snow="bare",
            gust_m_s=2.0,
            note="heard: clear, gusts 10 mph",
        ),
    )
    page = Owner(desk_at(home, NOW.replace(hour=6, minute=30))).look("/morning")
    said = line(page)
    assert "Set" in said
    assert "to mark ~" in said
    assert not re.search(r"\d s\b", said)
    assert "unproved" in page
    assert "Nobody under the array" in page


def test_the_stop_state_shows_neither_seconds_nor_mark_nor_a_key_to_say_it_was_done(
    home: Path,
) -> None:
    written(
        home, at(6, tilt_deg=25.0, charge=0.4, snow="covered", note="heard: clear, gusts 10 mph")
    )
    page = Owner(desk_at(home)).look("/morning")
    assert "Do not move it." in line(page)
    shown = re.sub(r'<section id="w-.*?</section>', "", page, flags=re.DOTALL)
    assert "mark" not in line(page)
    assert " s," not in shown
    assert not re.search(r"\d s\b|rod", line(page))
    assert 'action="/morning/done"' not in page
    assert 'class="hand"' in page


def test_no_forecast_and_no_daybook_are_said_and_all_of_it_is_a_guess(home: Path) -> None:
    page = Owner(desk_at(home)).look("/morning")
    assert "No forecast. I take the gust" in line(page)
    assert set(re.findall(r"<i>(\w+)</i>", page)) == {"guess"}
    assert "No daybook yet" in page
    assert not home.with_suffix(".daybook").exists()


def test_an_old_reading_is_told_with_its_day_in_ochre(home: Path) -> None:
    written(home, at(6, day=24, tilt_deg=65.0, charge=0.6))
    page = Owner(desk_at(home)).look("/morning")
    assert '<p class="ochre stale">~ The charge is from Monday; its range is widened.</p>' in page
    assert "~ Where it lies was last written down Monday" in page


def test_a_daybook_that_cannot_be_read_is_told_and_the_line_stands(home: Path) -> None:
    home.with_suffix(".daybook").write_bytes(b"not a daybook" * 99)
    owner = Owner(desk_at(home))
    page = owner.look("/morning")
    assert "~ The daybook cannot be read" in page
    reply = owner.send("/morning/not-moved", once="x")
    assert reply.status_code == 422
    assert home.with_suffix(".daybook").read_bytes() == b"not a daybook" * 99


def test_done_writes_the_tilt_that_was_shown_once_however_often_it_is_sent(home: Path) -> None:
    written(home, at(6, tilt_deg=65.0, charge=0.78, note=HEARD))
    owner = Owner(desk_at(home))
    fields = once(owner.look("/morning"), "/morning/done")
    for _ in range(2):
        reply = owner.client.post("/morning/done", data=fields)
        assert "Kept. Wed 26 Nov 2025, 7:10: tilt 65°." in unescape(reply.text)
    assert [one.tilt_deg for one in kept(home)] == [65.0, 65.0]
    owner.client.post("/morning/take-back", data=once(unescape(reply.text), "/morning/take-back"))
    assert len(kept(home)) == 1


def test_not_moved_writes_a_note_and_no_tilt(home: Path) -> None:
    written(home, at(6, tilt_deg=65.0))
    owner = Owner(desk_at(home))
    fields = once(owner.look("/morning"), "/morning/not-moved")
    assert owner.client.post("/morning/not-moved", data=fields).status_code == 200
    note = kept(home)[-1]
    assert note.note.startswith("Not moved. The line said: ")
    assert note.tilt_deg is None


def test_a_tilt_off_the_travel_or_no_number_is_not_written(home: Path) -> None:
    owner = Owner(desk_at(home))
    assert owner.send("/morning/done", tilt="400", once="a").status_code == 422
    assert owner.send("/morning/done", tilt="nan", once="b").status_code == 422
    assert owner.send("/morning/done", tilt="steep", once="c").status_code == 400
    assert kept(home) == []


SEEN = {
    "glass": "dusted", "sky": "grey", "blows": "still", "charge": "71", "heard": "gusts 70 mph tonight", "away": "till dark", "days": "2",
    "lies": "65", "tank": "40 %", "filled": "", "engine": "", "note": "ice, on the rod",
}  # fmt: skip


def test_what_he_sees_is_one_entry_and_the_line_is_worked_again_with_what_changed_marked(
    home: Path,
) -> None:
    written(home, at(6, tilt_deg=65.0, charge=0.78, note=HEARD))
    owner = Owner(desk_at(home))
    owner.look("/morning")
    fields = once(owner.look("/morning/see"), "/morning/see") | SEEN
    for _ in range(2):
        reply = owner.client.post("/morning/see", data=fields)
        assert reply.status_code == 200
    page = unescape(reply.text)
    assert 'class="long changed"' in page or 'class=" changed"' in page
    assert "Heard: today 7:10. Today: grey. Tonight: gusts 70 mph." in page
    assert "away till dark" in page
    first, entry = kept(home)
    assert first.charge == 0.78
    assert (entry.charge, entry.tilt_deg, entry.snow, entry.tank_share, entry.gust_seen) == (0.71, 65.0, "dusted", 0.4, "calm: still; smoke goes straight up")  # fmt: skip
    assert entry.note.splitlines() == [
        "ice, on the rod",
        "heard: grey, gusts 70 mph tonight",
        "away: till dark",
    ]
    assert entry.whence == "page"


@pytest.mark.parametrize(
    ("field", "value", "words"),
    [
        ("charge", "300", "allowed"), ("charge", "78 %, tilt 5", "cannot be read"), ("lies", "89", "allowed"), ("lies", "<script>", "<script>"),
        ("heard", "gusts 45, purple", "purple"), ("heard", "x" * 401, "401 signs"), ("tank", "900 gal", "allowed"), ("gauge", "30", "without a unit"),
        ("glass", "lava", "Choose one"), ("blows", "lava", "Choose one"), ("sky", "lava", "Choose one"), ("note", "n" * 2001, "2000"),
    ],
)  # fmt: skip
def test_what_cannot_be_is_told_beside_its_field_and_nothing_is_written(
    home: Path, field: str, value: str, words: str
) -> None:
    owner = Owner(desk_at(home))
    reply = owner.send("/morning/see", **(SEEN | {field: value}), once="x")
    assert reply.status_code == 422
    assert "<script>" not in re.sub(r"<script type=.module. src=[^>]+>", "", reply.text)
    told = re.search(rf'id="{field}-wrong" role="alert">(.*?)</div>', reply.text, re.DOTALL)
    assert told is not None
    assert words in unescape(told[1])
    for name in {"charge", "lies", "tank", "note"} - {field}:  # the rest stands as it was typed
        assert f'name="{name}" value="{SEEN[name]}"' in reply.text
    assert kept(home) == []


def test_ice_that_he_sees_lets_the_line_move_nothing(home: Path) -> None:
    written(home, at(6, tilt_deg=25.0, charge=0.78, snow="bare"))
    owner = Owner(desk_at(home))
    seen = SEEN | {"glass": "iced", "away": "home", "heard": "", "lies": ""}
    fields = once(owner.look("/morning/see"), "/morning/see") | seen
    page = unescape(owner.client.post("/morning/see", data=fields).text)
    assert "Do not move it." in page
    assert "There is ice on it or on the rod." in page


def test_days_away_are_told_beside_theirs(home: Path) -> None:
    owner = Owner(desk_at(home))
    reply = owner.send("/morning/see", **(SEEN | {"away": "days", "days": "many"}), once="x")
    assert 'id="days-wrong"' in reply.text


def test_nothing_looked_at_writes_nothing(home: Path) -> None:
    owner = Owner(desk_at(home))
    reply = owner.send(
        "/morning/see",
        glass="not looked",
        sky="not looked",
        blows="not looked",
        away="home",
        once="x",
    )
    assert reply.status_code == 422
    assert 'id="entry-wrong"' in reply.text
    assert kept(home) == []


def test_a_demo_is_never_written_and_says_what_becomes_of_what_is_kept(
    spruce: Any, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path))
    path = demo_path("hollow-spruce")
    keep(
        tmp_path / "polestead" / "hollow-spruce.morning",
        key_of(path.read_bytes(), path.parent),
        spruce,
    )
    desk = Desk(folder=tmp_path, jobs=Never(), clock=lambda: NOW)
    desk.open_demo("hollow-spruce")
    owner = Owner(desk)
    assert "thrown away when this server ends" in owner.look("/morning")
    owner.client.post("/morning/done", data=once(owner.look("/morning"), "/morning/done"))
    assert "From the daybook: at 65 since today 7:10" in owner.look("/morning")
    assert not path.with_suffix(".daybook").exists()
    assert list(tmp_path.glob("*.daybook")) == []


def test_until_its_basis_is_worked_the_page_says_how_far_it_is_and_a_wrong_file_gives_no_line(
    tmp_path: Path,
) -> None:
    class Begun(AtOnce):
        def start(self, name: str, call: Any, *given: Any, then: Any = None) -> Any:
            from polestead.web.work import Job

            self._last[name] = Job(name, 1, "working", "the weather", 1, 5)
            return self._last[name]

    path = tmp_path / "home.toml"
    shutil.copy(demo_path("hollow-spruce"), path)
    desk = Desk(folder=tmp_path, jobs=Begun(), clock=lambda: NOW)
    desk.open(path)
    page = Owner(desk).look("/morning")
    assert "takes about half a minute" in page
    assert "the weather, 1 of 5" in page
    wrong = tmp_path / "wrong.toml"
    wrong.write_text('name = "x"\n', encoding="utf-8")
    desk.open(wrong)
    assert "The file must be mended first" in Owner(desk).look("/morning")


def test_the_morning_comes_first_for_those_who_live_with_it(home: Path) -> None:
    page = Owner(desk_at(home)).look("/morning")
    assert re.search(r'On other leaves: <a href="(?!/morning)', page)
    text = home.read_text(encoding="utf-8")
    home.write_text(re.sub(r"^we_are = .*$", "", text, flags=re.MULTILINE).replace("\nname = ", '\nwe_are = "living with it"\nname = ', 1) if "\nname = " in text else 'we_are = "living with it"\n' + text, encoding="utf-8")  # fmt: skip
    assert read_homestead(home).homestead.we_are == "living with it"
    desk = Desk(folder=home.parent, jobs=AtOnce(), call=lambda *_, **__: None, clock=lambda: NOW)
    desk.work_answer = lambda: None  # type: ignore[method-assign]
    desk.open(home)
    assert re.search(r'On other leaves: <a href="/morning">morning</a>', Owner(desk).look("/words"))


def test_the_week_leaf_stands_on_the_page_and_on_one_for_the_wall(home: Path) -> None:
    owner = Owner(desk_at(home))
    for path in ("/morning", "/morning/week"):
        page = owner.look(path)
        assert "good until Wed 03 Dec" in page
        assert "Move only under" in page


def test_the_night_s_gust_stands_on_the_sheet_s_gust_card_while_its_forecast_holds(
    home: Path,
) -> None:
    clock = [NOW]
    desk = Desk(folder=home.parent, call=as_worked, jobs=AtOnce(), clock=lambda: clock[0])
    desk.open(home)
    owner = Owner(desk)
    owner.look("/morning")
    assert "Tonight" not in owner.look("/")  # nothing was heard: nothing is drawn
    written(home, at(6, tilt_deg=65.0, charge=0.78, note="heard: clear, gusts 50 mph"))
    owner.look("/morning")
    page = owner.look("/?tilt=65")
    found = re.search(r"Tonight (\d+) to (\d+) mph is told: ([^<]*)", page)
    assert found is not None
    told, upper = int(found[1]), int(found[2])
    assert told < upper
    assert f"tonight, to {upper} mph" in page
    row = next(row for row in worked("hollow-spruce").stand.card if row.tilt_deg == 65.0)
    room = gust_step(row.stands_to_m_s, "feet") - upper
    assert found[3].startswith(f"{room:.0f} in hand" if room >= 0 else f"over by up to {-room:.0f}")
    drawn = owner.client.get("/draw", params={"tilt": "5", "width": "wide"}).json()
    assert f"to {upper} mph is told" in drawn["texts"]["card-said"]
    clock[0] = NOW + timedelta(days=1, hours=6)  # the line of yesterday no longer holds
    assert "Tonight" not in owner.look("/")


# -- in a browser ----------------------------------------------------------------------------------------------------


@pytest.mark.browser
def test_on_a_phone_the_keys_lie_under_the_thumb_and_what_he_sees_is_kept_by_touch_and_by_keys(
    home: Path, chromium: Any
) -> None:
    written(home, at(6, tilt_deg=65.0, charge=0.78, note=HEARD))
    asked: list[str] = []
    said: list[str] = []
    with served(sheet_app(desk_at(home))) as address:
        page = chromium.new_context(
            viewport={"width": 390, "height": 844}, has_touch=True
        ).new_page()
        page.set_default_timeout(15_000)
        page.on("request", lambda request: asked.append(request.url))
        page.on("pageerror", lambda fault: said.append(str(fault)))
        page.on("console", lambda message: said.append(message.text))
        page.goto(f"{address}/morning")
        boxes = [one.bounding_box() for one in page.query_selector_all(".keys button, .keys .key")]
        assert len(boxes) == 3
        for box in boxes:
            assert box["height"] >= 64
            assert box["y"] >= 844 - 84
            assert box["y"] + box["height"] <= 844
        assert page.evaluate("document.documentElement.scrollWidth") == 390
        page.context.add_cookies([{"name": "type", "value": "large", "url": address}])
        page.reload()  # in large type a key's words still lie within it
        assert page.evaluate("[...document.querySelectorAll('.keys button, .keys .key')].every(key => key.scrollWidth <= key.clientWidth)")  # fmt: skip
        page.context.clear_cookies()
        page.reload()
        page.tap("a.why-slip >> nth=1")
        assert "stands to" in page.inner_text("#slip-body")
        page.keyboard.press("Escape")
        assert page.evaluate("document.activeElement.getAttribute('href')") == "#w-2"
        page.tap("text=What I see")
        page.wait_for_selector("h1:has-text('What I see')")
        page.tap("input[value=dusted]")
        page.tap("[aria-label='charge, 5 less']")
        page.tap("[aria-label='charge, 5 less']")
        assert page.input_value("#charge") == "73"
        page.tap("button.main")
        page.wait_for_selector(".kept")
        assert "charge 73\xa0%, snow dusted" in page.inner_text(".kept")
        page.focus("text=What I see")
        page.keyboard.press("Enter")
        page.wait_for_selector("h1:has-text('What I see')")
        page.focus("input[name=sky]")
        page.keyboard.press("ArrowRight")
        page.focus("#heard")
        page.keyboard.type("purple")
        page.focus("button.main")
        page.keyboard.press("Enter")
        page.wait_for_selector("#heard-wrong")
        page.fill("#heard", "gusts 20 mph")
        page.focus("button.main")
        page.keyboard.press("Enter")
        page.wait_for_selector(".kept")
        assert "heard: clear, gusts 20\xa0mph" in page.inner_text(".kept")
        page.context.close()
    assert [one.charge for one in kept(home)] == [0.78, 0.73, None]
    assert [url for url in asked if not url.startswith(address)] == []
    assert [one for one in said if "422" not in one] == []


@pytest.mark.browser
def test_a_laptop_that_is_gone_leaves_the_line_with_its_date_struck_and_the_week(
    home: Path, chromium: Any
) -> None:
    written(home, at(6, tilt_deg=65.0, charge=0.78, note=HEARD))
    with served(sheet_app(desk_at(home))) as address:
        page = chromium.new_context(viewport={"width": 390, "height": 844}).new_page()
        page.goto(f"{address}/morning")
        assert "then use the week leaf" not in page.inner_text(".good")
    page.wait_for_selector("#gone:visible")
    assert "line-through" in page.evaluate(
        "getComputedStyle(document.querySelector('.date')).textDecorationLine"
    )
    assert "Good until 4:20 pm; then use the week leaf below." in page.inner_text(".good")
    assert "Leave it at 65" in " ".join(page.inner_text(".line").split())
    page.click("#week summary")
    assert "Move only under" in page.inner_text("#week")
    assert page.evaluate("document.documentElement.scrollWidth") == 390
    gone, keys = (
        page.query_selector("#gone").bounding_box(),
        page.query_selector(".keys").bounding_box(),
    )
    assert gone["y"] + gone["height"] <= keys["y"] + 1
    page.context.close()
