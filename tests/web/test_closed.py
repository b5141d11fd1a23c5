"""The door: who may come, with what, and how much of it."""

from __future__ import annotations

import re
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
from starlette.testclient import TestClient

from polestead.base.problem import Wrong
from polestead.web.app import sheet_app
from polestead.web.closed import HEADERS, LARGEST_FORM_BYTES
from polestead.web.desk import Desk
from polestead.web.gate import Gate
from polestead.web.leaves.letter import new_file
from polestead.web.passcode import OPENS, new_passcode
from polestead.web.serve import _say_where, listening_at
from tests.web.deck import HERE, ORIGIN, AtOnce, Owner, desk_over, own_file


@pytest.fixture(scope="module")
def owner(tmp_path_factory: pytest.TempPathFactory) -> Owner:
    return Owner(desk_over(own_file(tmp_path_factory.mktemp("closed"))))


@pytest.mark.parametrize(
    "host",
    ["evil.example", "127.0.0.1.evil.example", "0.0.0.0", "127.0.0.1@evil.example", "[::2]", "", "127.0.0.1:x", "localhost/x"],  # noqa: S104  hostile names
)  # fmt: skip
def test_it_answers_to_no_other_name(owner: Owner, host: str) -> None:
    reply = owner.client.get("/", headers={"Host": host})
    assert reply.status_code == 400
    assert "Larch" not in reply.text
    assert "Hollow" not in reply.text


@pytest.mark.parametrize("host", ["127.0.0.1:8123", "localhost", "LOCALHOST:80", "[::1]:99"])
def test_it_answers_to_this_machines_own_names(owner: Owner, host: str) -> None:
    assert owner.client.get("/words", headers={"Host": host}).status_code == 200


@pytest.mark.parametrize(
    "headers",
    [
        {"origin": "http://evil.example"}, {"origin": "null"}, {"origin": "https://127.0.0.1"}, {"origin": "http://127.0.0.1:1"},
        {"origin": "http://localhost"}, {"origin": "", "sec-fetch-site": "same-origin"},
    ],
)  # fmt: skip
def test_no_other_page_sends_a_form(owner: Owner, headers: dict[str, str]) -> None:
    before = owner.desk.state
    given = {"token": owner.token(), "of": before.fingerprint, "at": "name", "value": "Taken over"}
    assert owner.client.post("/file/keep", data=given, headers=headers).status_code == 403
    assert owner.desk.state.text == before.text


@pytest.mark.parametrize("site", ["cross-site", "same-site", "none", None])
def test_a_form_without_an_origin_must_come_from_here(owner: Owner, site: str | None) -> None:
    client = TestClient(sheet_app(owner.desk), base_url=HERE)
    headers = {} if site is None else {"sec-fetch-site": site}
    assert client.post("/device", data={"scheme": "dark"}, headers=headers).status_code == 403


def test_a_form_without_the_token_of_this_server_is_not_taken(owner: Owner) -> None:
    for token in ("", "x" * 22, "ö"):
        given = {"token": token, "at": "name", "value": "Other", "of": owner.desk.state.fingerprint}
        reply = owner.client.post("/file/keep", data=given)
        assert reply.status_code == 403
        assert "older than this server" in reply.text


@pytest.mark.parametrize("method", ["PUT", "DELETE", "PATCH", "OPTIONS", "TRACE", "BREW"])
def test_no_other_method_is_known(owner: Owner, method: str) -> None:
    assert owner.client.request(method, "/").status_code == 405


def test_no_more_than_a_form_is_taken(owner: Owner) -> None:
    much = b"x" * (LARGEST_FORM_BYTES + 1)
    assert owner.client.post("/device", content=much).status_code == 413

    def pieces() -> Any:  # sent without its length
        for _ in range(80):
            yield b"x" * 1000

    assert owner.client.post("/device", content=pieces()).status_code == 413
    for length in ("999999999", "-1", "1e3"):
        assert owner.client.post("/device", content=b"a=1", headers={"content-length": length}).status_code == 413  # fmt: skip


@pytest.mark.parametrize(
    "body", [b"\xff\xfe", b"&".join(b"a=%d" % n for n in range(600)), b"no form at all"]
)
def test_what_is_no_form_is_told(owner: Owner, body: bytes) -> None:
    assert owner.client.post("/device", content=body).status_code in (400, 403)


@pytest.mark.parametrize(
    "path",
    ["/etc/passwd", "/../../etc/passwd", "/static/../app.py", "/static/%2e%2e/app.py", "/docs", "/file/..%2f..", "/file/older?look=../../etc/passwd",
     "/file/older?look=larch.toml", "/file/nothing", "/static/"],
)  # fmt: skip
def test_there_is_nothing_else_to_fetch(owner: Owner, path: str) -> None:
    reply = owner.client.get(path)
    assert reply.status_code == 404
    assert "root:" not in reply.text


def test_every_reply_carries_the_headers_good_or_bad(owner: Owner) -> None:
    class Broken(Desk):
        def look(self) -> Any:
            raise RuntimeError

    broken = TestClient(
        sheet_app(Broken(jobs=AtOnce())), base_url=HERE, raise_server_exceptions=False
    )
    replies = [
        owner.client.get("/"), owner.client.get("/static/ink.css"), owner.client.get("/nothing"), owner.client.put("/"),
        owner.client.get("/", headers={"host": "evil"}), owner.client.post("/device", content=b"x" * 99999), broken.get("/words"),
    ]  # fmt: skip
    assert [reply.status_code for reply in replies] == [200, 200, 404, 405, 400, 413, 500]
    for reply in replies:
        for name, value in HEADERS.items():
            assert reply.headers.get_list(name) == [value]
    assert "unsafe" not in HEADERS["content-security-policy"]
    assert "Your file was not touched" in replies[-1].text


@pytest.mark.parametrize("back", ["//evil.example", "https://evil.example", "/\\evil.example", "evil", "/\nx"])  # fmt: skip
def test_a_form_leads_back_to_this_page_only(owner: Owner, back: str) -> None:
    given = {"token": owner.token(), "scheme": "dark", "back": back}
    reply = owner.client.post("/device", data=given, follow_redirects=False)
    assert reply.headers["location"] == "/"


def test_a_file_outside_the_folder_cannot_be_named_from_the_page(tmp_path: Path) -> None:
    (tmp_path / "outside.csv").write_text("name,paid\nsecret,12\n", encoding="utf-8")
    folder = tmp_path / "place"
    folder.mkdir()
    owner = Owner(desk_over(own_file(folder)))
    for name in ("../outside.csv", str(tmp_path / "outside.csv")):
        page = owner.keep("prices/ledger", name, back="/file/prices")
        assert "a file in the folder of your homestead file" in page.text
        assert "secret" not in page.text
    assert owner.desk.state.owners is not None
    assert owner.desk.state.owners.homestead.prices.ledger is None


class Clock:
    def __init__(self) -> None:
        self.now = 1000.0

    def __call__(self) -> float:
        return self.now


def _other(gate: Gate, owner: Owner, address: str = "192.168.7.20") -> TestClient:
    app = sheet_app(owner.desk, gate=gate)
    return TestClient(app, base_url=HERE, headers=ORIGIN, client=(address, 5))


def test_another_machine_is_asked_for_the_passcode_once(owner: Owner) -> None:
    passcode = new_passcode()
    other = _other(Gate(passcode), owner)
    for path in ("/", "/file", "/state", "/static/frame.js"):
        refused = other.get(path)
        assert refused.status_code == 401
        assert "Hollow" not in refused.text
    assert other.post("/file/keep", data={"at": "name"}).status_code == 403
    typed = passcode.upper().replace("-", " ")
    let_in = other.post("/passcode", data={"passcode": typed}, follow_redirects=False)
    cookie = let_in.headers["set-cookie"].lower()
    assert "httponly" in cookie
    assert "samesite=strict" in cookie
    assert passcode.replace("-", "") not in cookie
    assert other.get("/words").status_code == 200
    assert _other(Gate(passcode), owner).get("/words").status_code == 401  # a key of another server


def test_this_machine_is_not_asked(owner: Owner) -> None:
    assert _other(Gate("x"), owner, "127.0.0.1").get("/words").status_code == 200


def test_wrong_tries_wait_longer_and_longer(owner: Owner) -> None:
    clock = Clock()
    gate = Gate("abcd-efgh", clock)
    other = _other(gate, owner)

    def wrong() -> int:
        return other.post("/passcode", data={"passcode": "nonsense"}).status_code

    assert [wrong() for _ in range(4)] == [401, 401, 401, 429]
    waits = []
    for _ in range(4):
        begun = clock.now
        while wrong() == 429:
            clock.now += 1.0
        waits.append(clock.now - begun)
    assert waits == sorted(waits)
    assert waits[-1] > 2 * waits[0]
    assert (
        other.post("/passcode", data={"passcode": "abcd-efgh"}).status_code == 429
    )  # the right one waits too
    clock.now += 400.0
    assert other.post("/passcode", data={"passcode": "abcd-efgh"}).status_code == 200


def test_many_addresses_are_no_way_round_the_waits(owner: Owner) -> None:
    gate = Gate("abcd-efgh", Clock())
    codes = [_other(gate, owner, f"192.168.7.{n}").post("/passcode", data={"passcode": "x"}).status_code for n in range(30)]  # fmt: skip
    assert codes[0] == 401
    assert codes[-1] == 429


def test_a_reached_address_is_answered_to_where_others_may_come(owner: Owner) -> None:
    inside = TestClient(
        sheet_app(owner.desk, gate=Gate("x")),
        base_url="http://192.168.7.2:80",
        client=("192.168.7.20", 5),
    )
    assert inside.get("/words").status_code == 401
    assert inside.get("/words", headers={"host": "192.168.7.3"}).status_code == 400
    assert (
        TestClient(sheet_app(owner.desk), base_url="http://192.168.7.2").get("/words").status_code
        == 400
    )


def test_a_wrong_try_is_forgotten_in_time(owner: Owner) -> None:
    """Once a day mistyped for two months: never locked out; a dozen in a row still waits."""
    clock = Clock()
    other = _other(Gate("abcd-efgh", clock), owner)
    for _ in range(60):
        assert other.post("/passcode", data={"passcode": "nonsense"}).status_code == 401
        clock.now += 86_400.0
    assert other.post("/passcode", data={"passcode": "abcd-efgh"}).status_code == 200
    stranger = _other(Gate("abcd-efgh", clock), owner)
    codes = [stranger.post("/passcode", data={"passcode": "nonsense"}).status_code for _ in range(12)]  # fmt: skip
    assert codes[-1] == 429


def test_the_passcode_is_told_with_what_it_opens_before_anything_slow_is_read_in(capsys: pytest.CaptureFixture[str]) -> None:  # fmt: skip
    code = "import sys; import polestead.web.passcode, polestead.web.serve; print(sorted(m for m in sys.modules if m.startswith(('polestead.answer', 'numpy', 'starlette', 'jinja2'))))"
    told = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert told.stdout.strip() == "[]"
    passcode = _say_where("http://127.0.0.1:1/", 1, True)
    said = capsys.readouterr().out
    assert passcode in said
    assert OPENS in " ".join(said.split())


def test_a_taken_port_is_told_once() -> None:
    with listening_at(0) as there, pytest.raises(Wrong) as told:
        listening_at(there.getsockname()[1])
    assert re.fullmatch(r"\d+, which is taken", told.value.problems[0].given)


@pytest.mark.parametrize(("name", "taken"), [("x.txt", False), ("x.JSON", False), ("my.place", True), ("x", True), ("x.toml", True)])  # fmt: skip
def test_a_name_with_the_ending_of_another_kind_is_refused_in_words(tmp_path: Path, name: str, taken: bool) -> None:  # fmt: skip
    if taken:
        assert new_file(tmp_path, name).suffix == ".toml"
        return
    with pytest.raises(Wrong) as told:
        new_file(tmp_path, name)
    assert told.value.problems[0].do == "Write x, or x.toml."
