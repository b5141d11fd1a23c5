"""Every empty and every wrong state of the page, and how the desk is brought into each; for the tests and for whoever wants pictures."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from polestead.web.desk import Desk
from polestead.web.work import Job, Stage
from tests.web.deck import AtOnce, as_worked, own_file

LETTER = {
    "place": "44.1 N, 121.3 W",
    "array": "12",
    "pole": "4 in",
    "use": "5",
    "winter": "a lot",
}


class Staged(AtOnce):
    """The answer comes as far as it is told to; all other work waits."""

    def __init__(self) -> None:
        super().__init__()
        self.stage: Stage = "done"

    def start(self, name: str, call: Any, *given: Any, then: Any = None) -> Job:
        if name == "answer" and self.stage == "done":
            return super().start(name, call, *given, then=then)
        self._serial += 1
        stage: Stage = self.stage if name == "answer" else "working"
        fault = "the process that worked it ended by itself" if stage == "failed" else ""
        job = Job(name, self._serial, stage, "ways of tipping", 5, 7, fault=fault)
        self._last[name] = job
        if job.over and then is not None:
            then(job)
        return job


@dataclass(frozen=True, slots=True)
class Room:
    """Where a state is brought about.

    Attributes:
        desk: With jobs that are `Staged`.
        basis: A homestead file with its morning put by beside it.
        page: Of the browser.
        address: Of the server.
        gated: Of the server that asks for the passcode.
        leave: Ends the server that may be ended.
        leaving: Its address.
    """

    desk: Desk
    basis: Path
    page: Any
    address: str
    gated: str
    leave: Callable[[], None]
    leaving: str

    def go(self, path: str) -> None:
        """To a page of it."""
        self.page.goto(self.address + path)

    def lies(self, *changes: tuple[str, str], stage: Stage = "done") -> Path:
        """A file with these changes on the desk, its answer so far."""
        path = own_file(self.desk.folder)
        text = path.read_text(encoding="utf-8")
        for old, new in changes:
            assert old in text, old
            text = text.replace(old, new, 1)
        path.write_text(text, encoding="utf-8")
        self.desk.jobs.stage = stage  # type: ignore[attr-defined]
        self.desk.open(path)
        return path


def desk_in(folder: Path) -> Desk:
    """A desk for it."""
    return Desk(folder=folder, call=as_worked, jobs=Staged())


TILT = ('hinge_height = "11 ft"', 'hinge_height = "11"')
SEVERAL = (TILT, ('elevation = "1,650 ft"', 'elevation = "1,650"'), ("[lock]", "[lok]"))


def _empty(room: Room) -> None:
    room.go("/")


def _letter_wrong(room: Room) -> None:
    room.go("/letter")
    for key, words in LETTER.items():
        room.page.fill(f"#b-{key}", words)
    room.page.fill("#b-file", "a/b")
    room.page.click("button.main")
    room.page.wait_for_selector(".letter .wrong")


def _no_toml(room: Room) -> None:
    room.lies(("[mount]", "[mount"))
    room.go("/file/wrong")


def _no_toml_sheet(room: Room) -> None:
    room.lies(("[mount]", "[mount"))
    room.go("/")


def _one_wrong(room: Room) -> None:
    room.lies(TILT)
    room.go("/file/mount")


def _several_wrong(room: Room) -> None:
    room.lies(*SEVERAL)
    room.go("/file/wrong")


def _several_sheet(room: Room) -> None:
    room.lies(*SEVERAL)
    room.go("/")


def _wrong_after_good(room: Room) -> None:
    path = room.lies()
    path.write_text(path.read_text(encoding="utf-8").replace(*TILT), encoding="utf-8")
    room.desk._looked = 0.0
    room.desk.look()
    room.desk.take()
    room.go("/")


def _not_worked(room: Room) -> None:
    room.lies(stage="working")
    room.go("/")


def _leaf_not_worked(room: Room) -> None:
    room.lies(stage="working")
    room.go("/stand")


def _failed(room: Room) -> None:
    room.lies(stage="failed")
    room.go("/")


def _leaf_failed(room: Room) -> None:
    room.lies(stage="failed")
    room.go("/money")


def _stopped(room: Room) -> None:
    room.lies(stage="stopped")
    room.go("/")


def _worked_again(room: Room) -> None:
    room.lies()
    room.desk.jobs.stage = "working"  # type: ignore[attr-defined]
    _edited(room, 'health = "90 %"', 'health = "80 %"')
    room.go("/book")


def _edited(room: Room, old: str, new: str) -> None:
    """Taken from another editor."""
    path = room.desk.state.path
    assert path is not None
    text = path.read_text(encoding="utf-8")
    path.write_text(text.replace(old, new) if old in text else text + "\n", encoding="utf-8")
    room.desk._looked = 0.0
    room.desk.look()
    room.desk.take()


def _changed(room: Room) -> Path:
    path = room.lies()
    text = path.read_text(encoding="utf-8")
    path.write_text(text.replace('name = "Hollow Spruce"', 'name = "Larch Hollow"'), encoding="utf-8")  # fmt: skip
    room.desk._looked = 0.0
    return path


def _another_editor(room: Room) -> None:
    _changed(room)
    room.go("/file")


def _another_editor_lines(room: Room) -> None:
    _changed(room)
    room.go("/file/changed")


def _gone_from_disk(room: Room) -> None:
    room.lies().unlink()
    room.desk._looked = 0.0
    room.go("/file")


def _conflict(room: Room) -> None:
    path = room.lies()
    room.go("/file/mount")
    room.page.fill(
        "#f-mount-hinge_height-in", "12 ft"
    )  # what he is typing is left alone when the change is noticed
    path.write_text(path.read_text(encoding="utf-8") + "# one more remark\n", encoding="utf-8")
    room.page.press("#f-mount-hinge_height-in", "Enter")
    room.page.wait_for_selector(".conflict")


def _demo_refused(room: Room) -> None:
    room.desk.jobs.stage = "done"  # type: ignore[attr-defined]
    room.desk.open_demo("hollow-spruce")
    room.go("/file/mount")
    room.page.fill("#f-mount-hinge_height-in", "12 ft")
    room.page.press("#f-mount-hinge_height-in", "Enter")
    room.page.wait_for_selector(".conflict")


def _missing(room: Room) -> None:
    room.lies()
    room.go("/no-such-leaf")


def _missing_before_a_file(room: Room) -> None:
    room.go("/no-such-leaf")


def _passcode(room: Room) -> None:
    room.page.goto(room.gated)


def _too_many_tries(room: Room) -> None:
    room.page.goto(room.gated)
    for _ in range(9):
        room.page.fill("#passcode", "nonsense")
        room.page.click("button")
        room.page.wait_for_selector("#said")
        if "Too many" in room.page.inner_text("#said"):
            return


def _morning_unworked(room: Room) -> None:
    room.lies()
    room.go("/morning")


def _morning_nothing_heard(room: Room) -> None:
    room.desk.jobs.stage = "working"  # type: ignore[attr-defined]
    room.desk.open(room.basis)
    room.go("/morning")
    assert "No forecast" in room.page.content()


def _week(room: Room) -> None:
    room.desk.jobs.stage = "working"  # type: ignore[attr-defined]
    room.desk.open(room.basis)
    room.go("/morning/week")


def _morning_wrong_file(room: Room) -> None:
    room.lies(TILT)
    room.go("/morning")


def _log_empty(room: Room) -> None:
    room.lies()
    room.go("/log")


def _log_wrong(room: Room) -> None:
    room.lies()
    room.go("/log")
    room.page.fill("#words", "tilt 200, charge much")
    room.page.click("button.main")
    room.page.wait_for_selector("#words-wrong")


def _book_unmade(room: Room) -> None:
    room.lies()
    room.go("/book")


def _doubts_unranked(room: Room) -> None:
    room.lies()
    room.go("/doubts")


def _server_gone(room: Room) -> None:
    room.lies()
    room.page.goto(room.leaving + "/file/mount")
    room.leave()
    room.page.wait_for_selector("#gone:visible")


STATES: dict[str, Callable[[Room], None]] = {
    "empty": _empty,
    "letter-wrong": _letter_wrong,
    "no-toml": _no_toml,
    "no-toml-sheet": _no_toml_sheet,
    "one-wrong": _one_wrong,
    "several-wrong": _several_wrong,
    "several-wrong-sheet": _several_sheet,
    "wrong-after-good": _wrong_after_good,
    "not-worked": _not_worked,
    "leaf-not-worked": _leaf_not_worked,
    "failed": _failed,
    "leaf-failed": _leaf_failed,
    "stopped": _stopped,
    "worked-again": _worked_again,
    "another-editor": _another_editor,
    "another-editor-lines": _another_editor_lines,
    "gone-from-disk": _gone_from_disk,
    "conflict": _conflict,
    "demo-refused": _demo_refused,
    "missing": _missing,
    "missing-before-a-file": _missing_before_a_file,
    "passcode": _passcode,
    "too-many-tries": _too_many_tries,
    "morning-unworked": _morning_unworked,
    "morning-nothing-heard": _morning_nothing_heard,
    "week": _week,
    "morning-wrong-file": _morning_wrong_file,
    "log-empty": _log_empty,
    "log-wrong": _log_wrong,
    "book-unmade": _book_unmade,
    "doubts-unranked": _doubts_unranked,
    "server-gone": _server_gone,
}


def settle(desk: Desk) -> None:
    """Nothing lies on the desk, nothing in its folder."""
    desk.put_away()
    desk.jobs._last.clear()
    for path in desk.folder.iterdir():
        if path.is_file():
            path.unlink()
