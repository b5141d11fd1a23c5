"""What is worked while nobody asks: it begins by itself, makes way, goes on afterwards; and work that failed is tried again."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from starlette.testclient import TestClient

from polestead.web import kept as kept_room
from polestead.web.app import sheet_app
from polestead.web.desk import Desk
from polestead.web.idle import Idle
from polestead.web.kept import TRY_AGAIN_S, Kept
from polestead.web.leaves import asides, doubts
from polestead.web.work import Job, Jobs
from tests.answers import on_the_desk


class Written(Jobs):
    """Jobs that are only written down, and end when they are told to."""

    def start(self, name: str, call: Any, *given: Any, then: Any = None) -> Job:
        self._serial += 1
        self._last[name] = Job(name, self._serial, "working", "so far", 1, 3)
        return self._last[name]

    def stop(self, name: str) -> None:
        if name in self._last:
            self._last[name] = Job(name, self._serial, "stopped")


def nothing(progress: Any) -> None: ...


@pytest.fixture
def desk() -> Desk:
    return Desk(on_the_desk("hollow-spruce"), jobs=Written())


def test_it_begins_by_itself_makes_way_and_goes_on(desk: Desk) -> None:
    idle = Idle(desk, (doubts.aside,), quiet_s=0.0)
    assert idle.turn()
    first = desk.jobs.job("doubts")
    assert first is not None
    assert not idle.turn()  # one thing at a time
    desk.work("wires", nothing)
    stopped = desk.jobs.job("doubts")
    assert stopped is not None
    assert stopped.stage == "stopped"
    assert not idle.turn()  # the owner's own work goes first
    desk.jobs.stop("wires")
    assert idle.turn()
    again = desk.jobs.job("doubts")
    assert again is not None
    assert again.stage == "working"


def test_what_the_owner_stopped_is_not_begun_again(desk: Desk) -> None:
    idle = Idle(desk, (doubts.aside,), quiet_s=0.0)
    assert idle.turn()
    desk.jobs.stop("doubts")
    assert not idle.turn()


def test_nothing_is_begun_while_somebody_asks_or_before_there_is_an_answer(desk: Desk) -> None:
    assert not Idle(desk, (doubts.aside,), quiet_s=60.0).turn()
    before = desk.quiet_s()
    with TestClient(sheet_app(desk), base_url="http://127.0.0.1") as client:
        client.get("/state")  # the page asks by itself
        assert desk.quiet_s() >= before
        client.get("/words")
        assert desk.quiet_s() < 5.0
    assert not Idle(Desk(jobs=Written()), (doubts.aside,), quiet_s=0.0).turn()


def test_leaves_name_the_morning_and_then_the_doubts() -> None:
    assert [aside.__module__.rpartition(".")[2] for aside in asides()] == ["morning", "doubts"]


def test_the_sun_of_the_days_is_tried_again_where_it_failed(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    state, now, tried = on_the_desk("cinder-mesa"), [0.0], []

    def works(*_: Any) -> str:
        tried.append(1)
        if len(tried) == 1:
            raise ValueError
        return "the sun"

    monkeypatch.setattr(kept_room, "sun_of_days", works)
    kept = Kept(lambda: now[0])
    owners, answer = state.owners, state.answer
    assert owners is not None
    assert answer is not None
    while kept.sun(owners, answer) is None and not kept.fault(owners, answer):
        pass
    assert kept.fault(owners, answer) == "ValueError"
    assert kept.sun(owners, answer) is None
    assert len(tried) == 1  # not at once
    now[0] += TRY_AGAIN_S + 1.0
    while kept.sun(owners, answer) is None:
        now[0] += 0.01
    assert kept.sun(owners, answer) == "the sun"  # type: ignore[comparison-overlap]
    assert kept.fault(owners, answer) == ""


def test_a_sun_that_failed_is_said_on_the_page(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:  # fmt: skip
    state = on_the_desk("hollow-spruce")

    def fails(*_: Any) -> None:
        raise ValueError

    monkeypatch.setattr(kept_room, "sun_of_days", fails)
    monkeypatch.setattr("polestead.web.leaves.sheet.KEPT", Kept())
    with TestClient(sheet_app(Desk(state)), base_url="http://127.0.0.1") as client:
        for _ in range(200):
            page = client.get("/")
            assert page.status_code == 200
            if "could not be worked" in page.text:
                break
        else:
            pytest.fail("it is not said")
        assert "ValueError" in client.get("/working/sun?slip=1").text
