"""The owner's file as it lies open on the desk: what was read, what was worked from it, and its last good state."""

from __future__ import annotations

import time
from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import datetime
from functools import lru_cache
from pathlib import Path
from threading import RLock
from typing import Any

from polestead.answer.answer import Answer, answer_of
from polestead.base.problem import Problem, Wrong
from polestead.base.show import Style
from polestead.homestead.demos import demo_path
from polestead.homestead.edits import Change, back_from, text_with, value_at
from polestead.homestead.read import OwnersFile, read_text
from polestead.homestead.standing import COUNTS_FIRST
from polestead.homestead.text import fingerprint_of, text_of
from polestead.homestead.write import keep_text
from polestead.web.work import Job, Jobs

ANSWER = "answer"
LOOK_AGAIN_S = 0.3


@dataclass(frozen=True, slots=True)
class Step:
    """One step of this session, so that it can be taken back.

    Attributes:
        before: The text before it.
        after: The text after it.
        words: What was done.
        at: When.
        changes: What was changed, and what stood there before as the owner wrote it.
    """

    before: str
    after: str
    words: str
    at: datetime
    changes: tuple[Change, ...] = ()


@dataclass(frozen=True, slots=True)
class OnDisk:
    """What another editor made of the file, noticed and not yet taken.

    Attributes:
        text: Its text; empty where it cannot be read.
        fingerprint: Of it.
        fault: Why it cannot be read.
    """

    text: str
    fingerprint: str
    fault: str = ""


@dataclass(frozen=True, slots=True)
class State:
    """One state of the desk; it is replaced whole, never changed.

    Attributes:
        owners: The file as last read without problems; None before there is any.
        answer: What was last worked, perhaps from an older text (`stale`); None before the first.
        style: The owner's units, unless the device asks for others.
        path: Where the file lies; None while there is none.
        demo: Name of the demo that lies here; a demo is never written.
        text: The text as last read or written, good or not.
        fingerprint: Of that text.
        problems: What is wrong with it.
        read_at: When the last good text was read.
        before: The answer before this one, of another text.
        unkept: Changes begun and not written, for with them the file would be wrong.
        unkept_problems: What would be wrong.
        steps: What was done in this session, the last at the end.
        on_disk: What another editor made of the file meanwhile.
        fault: Why the answer could not be worked, in words.
        serial: Counts up with every change.
    """

    owners: OwnersFile | None
    answer: Answer | None
    style: Style
    path: Path | None = None
    demo: str = ""
    text: str = ""
    fingerprint: str = ""
    problems: tuple[Problem, ...] = ()
    read_at: datetime | None = None
    before: Answer | None = None
    unkept: tuple[Change, ...] = ()
    unkept_problems: tuple[Problem, ...] = ()
    steps: tuple[Step, ...] = ()
    on_disk: OnDisk | None = None
    fault: str = ""
    serial: int = 0

    @property
    def stale(self) -> bool:
        """The answer belongs to an older text."""
        return (
            self.answer is not None
            and self.owners is not None
            and self.answer.fingerprint != self.owners.fingerprint
        )

    @property
    def wrong(self) -> tuple[Problem, ...]:
        """Everything that is wrong; what was begun stands on the file, so it has the file's problems too."""
        return self.unkept_problems if self.unkept else self.problems

    @property
    def draft(self) -> str:
        """The text with what was begun in it."""
        return text_with(self.text, self.unkept)

    @property
    def name(self) -> str:
        """What the place is called."""
        return self.owners.homestead.name if self.owners is not None else ""


EMPTY = State(None, None, "feet")


class ConflictError(Exception):
    """A change was made from another text than the one that lies here now."""


class Desk:
    """Hands out the state; one for a server, shared by all requests.

    Args:
        state: What lies on it.
        folder: Where new files are begun; the folder the command was started in.
        years: Synthetic years an answer draws.
        seed: Of the draw.
        call: What works the answer, as `answer_of`.
        jobs: Where long work is done.
        clock: Tells the time of day.
    """

    def __init__(
        self,
        state: State = EMPTY,
        *,
        folder: Path | None = None,
        years: int = 100,
        seed: int = 1,
        call: Callable[..., Answer] = answer_of,
        clock: Callable[[], datetime] = datetime.now,
        jobs: Jobs | None = None,
    ) -> None:
        self._state = state
        self._lock = RLock()
        self._call, self._years, self._seed, self._clock = call, years, seed, clock
        self._signature = _signature(state)
        self._looked = 0.0
        self._asked = time.monotonic()
        self._aside: set[str] = set()
        self._put_off: set[str] = set()
        self._texts: dict[str, str] = {state.fingerprint: state.text}
        self.folder = folder or Path.cwd()
        self.jobs = jobs or Jobs()

    @property
    def state(self) -> State:
        """The state now; a request reads it once and keeps it."""
        with self._lock:
            return self._state

    def lay(self, **changes: Any) -> State:
        """Put another state in its place."""
        with self._lock:
            serial = self._state.serial + 1
            self._state = replace(self._state, **changes, serial=serial)
            return self._state

    def now(self) -> datetime:
        """The clock on the wall, with its offset from UTC."""
        return self._clock().astimezone()

    def work(self, name: str, call: Callable[..., Any], *given: Any) -> Job:
        """Begin long work, or give the one that runs under this name.

        Args:
            name: What it is called; `/state` tells how far it is, and its end changes the state's serial.
            call: A function of a module, called elsewhere as ``call(*given, progress=tell)``.
            given: What it is given.
        """
        job = self.jobs.job(name)
        if job is not None and not job.over:
            return job
        self._make_way()
        self._aside.discard(name)
        return self.jobs.start(name, call, *given, then=lambda _: self._serial_up())

    # What is worked aside, while nobody asks.

    def asked(self) -> None:
        """Somebody asks for a page."""
        self._asked = time.monotonic()

    def quiet_s(self) -> float:
        """How long nobody has asked [s]."""
        return time.monotonic() - self._asked

    def work_aside(self, name: str, call: Callable[..., Any], *given: Any) -> Job:
        """Begin work nobody has asked for; it makes way for whatever is asked, and is then begun again."""
        job = self.work(name, call, *given)
        self._aside.add(name)
        self._put_off.discard(name)
        return job

    def put_off(self, name: str) -> bool:
        """Whether such work was stopped only to make way."""
        return name in self._put_off

    def _make_way(self) -> None:
        for job in self.jobs.running():
            if job.name in self._aside:
                self._put_off.add(job.name)
                self.jobs.stop(job.name)

    def _serial_up(self) -> None:
        self.lay()

    # What lies here.

    def open(self, path: Path, demo: str = "") -> None:
        """Lay a file on the desk, good or not, and begin its answer.

        Raises:
            Wrong: It cannot be read at all.
        """
        text = text_of(path)
        self.jobs.stop(ANSWER)
        with self._lock:
            old = self._state
            same = old.answer if old.demo and old.fingerprint == fingerprint_of(text) else None
            self._state = replace(EMPTY, path=path, demo=demo, answer=same, serial=old.serial)
            self._take(text, "")

    def open_demo(self, name: str) -> None:
        """Lay a demo on the desk; it is never written.

        Raises:
            Wrong: No such demo.
        """
        self.open(demo_path(name), name)

    def put_away(self) -> None:
        """Clear the desk, so that the letter lies on it."""
        self.jobs.stop(ANSWER)
        with self._lock:
            self._state = replace(EMPTY, serial=self._state.serial + 1)

    def look(self) -> State:
        """Whether the file on disk is still the one that was read; cheap, and done on every request."""
        with self._lock:
            now = time.monotonic()
            if self._state.path is None or now - self._looked < LOOK_AGAIN_S:
                return self._state
            self._looked = now
            signature = _signature(self._state)
            if signature != self._signature:
                self._signature = signature
                self._noticed()
            return self._state

    def _noticed(self) -> None:
        """Something was written; what lies beside the file is simply read again."""
        path = self._state.path
        if path is None:
            return
        try:
            text, fault = text_of(path), ""
        except Wrong as wrong:
            text, fault = "", wrong.problems[0].given
        fingerprint = fingerprint_of(text)
        if fault:
            self.lay(on_disk=OnDisk("", "", fault))
        elif fingerprint != self._state.fingerprint:
            self.lay(on_disk=OnDisk(text, fingerprint))
        else:
            self._take(text, "")

    def take(self) -> State:
        """Take what another editor wrote, good or not."""
        with self._lock:
            if self._state.path is not None:
                self._take(text_of(self._state.path), "read again, as another editor left it")
            return self._state

    def _take(self, text: str, words: str, changes: tuple[Change, ...] = ()) -> None:
        """A text takes the place of the one that lay here; where it is good its answer is begun."""
        was = self._state
        path = was.path
        if path is None:
            return
        new: dict[str, Any] = {"text": text, "fingerprint": fingerprint_of(text), "on_disk": None}
        if words and text != was.text:
            new["steps"] = (*was.steps, Step(was.text, text, words, self._clock(), changes))
        try:
            owners = read_text(path, text)
        except Wrong as wrong:
            self.lay(**new, problems=wrong.problems)
        else:
            self.lay(**new, problems=(), owners=owners, read_at=self._clock(), style=owners.homestead.units, fault="")  # fmt: skip
            if self._state.answer is None or self._state.stale:
                self.work_answer()
        self._texts[self._state.fingerprint] = text
        self._signature = _signature(self._state)

    # What is changed.

    def text_of_fingerprint(self, fingerprint: str) -> str | None:
        """A text that lay here in this session."""
        with self._lock:
            return self._texts.get(fingerprint)

    def keep(self, changes: tuple[Change, ...], words: str, of: str) -> bool:
        """Write changes, with those begun before where that makes the file good; else hold on to them.

        Args:
            changes: What is to be changed.
            words: What it is, for the list of steps.
            of: Fingerprint of the text the owner looked at.

        Returns:
            True when it was written, False when it would make the file wrong and is held on to.

        Raises:
            ConflictError: The text that lies here, or on disk, is another one.
            Wrong: It may not be written, or leads nowhere.
        """
        with self._lock:
            state = self._now(of)
            together = (*_without(state.unkept, changes), *changes)
            problems: tuple[Problem, ...] = ()
            for tried in (together, changes) if together != changes else (changes,):
                try:
                    text = text_with(state.text, tried)
                    self._checked(text)
                except Wrong as wrong:
                    problems = problems or wrong.problems
                    continue
                back = tuple(
                    one for one in (back_from(state.text, change) for change in tried) if one
                )
                self._write(text, words, back)
                self._hold(() if tried == together else _without(state.unkept, changes))
                return True
            self.lay(unkept=together, unkept_problems=problems)
            return False

    def let_go(self, path: tuple[str, ...] | None = None) -> None:
        """Drop what was begun and not kept, at one place or everywhere."""
        with self._lock:
            begun = () if path is None else tuple(one for one in self._state.unkept if one.path[: len(path)] != path)  # fmt: skip
            self._hold(begun)

    def _hold(self, begun: tuple[Change, ...]) -> None:
        """Hold on to changes that are not written, and say what is wrong with them."""
        problems: tuple[Problem, ...] = ()
        if begun:
            try:
                self._checked(text_with(self._state.text, begun))
            except Wrong as wrong:
                problems = wrong.problems
        self.lay(unkept=begun, unkept_problems=problems)

    def mine(self) -> None:
        """Write the text that lies here over what another editor made of the file; that one stays beside it.

        Raises:
            Wrong: It may not be written.
        """
        with self._lock:
            state = self._state
            if state.on_disk is None or state.path is None:
                return
            keep_text(state.path, state.text, state.on_disk.fingerprint or None)
            self._take(state.text, "")

    def back(self, text: str, words: str, of: str) -> None:
        """Write an older text again.

        Raises:
            ConflictError: The text that lies here, or on disk, is another one.
            Wrong: It may not be written, or is wrong.
        """
        with self._lock:
            self._now(of)
            self._write(text, words, ())
            self._hold(())

    def undo(self, of: str) -> None:
        """Take the last step of this session back.

        Raises:
            ConflictError: The text that lies here, or on disk, is another one.
            Wrong: It may not be written, or the older text is wrong.
        """
        with self._lock:
            state = self._now(of)
            if state.steps:
                self._write(state.steps[-1].before, "", ())
                self.lay(steps=state.steps[:-1])

    def _write(self, text: str, words: str, back: tuple[Change, ...]) -> None:
        state = self._state
        if state.path is None or state.demo:
            return
        keep_text(state.path, text, state.fingerprint)
        self._take(text, words, back)

    def _now(self, of: str) -> State:
        """The state, if it is the one the owner looked at and nobody wrote the file meanwhile."""
        self._looked = 0.0
        state = self.look()
        if state.on_disk is not None or state.fingerprint != of:
            raise ConflictError
        return state

    def _checked(self, text: str) -> None:
        """A text changed from the page is good, and names no file outside the folder that was not named before.

        Raises:
            Wrong: It is not, or does; the file outside is not even looked at.
        """
        path = self._state.path or Path()
        folder = path.parent.resolve()
        known = _files_named(self._state.text)
        for section, key, name in _files_named(text):
            if (section, key, name) not in known and not (folder / name).resolve().is_relative_to(
                folder
            ):
                do = "Put the file into the folder of your homestead file, and write its name."
                allowed = "a file in the folder of your homestead file"
                raise Wrong([Problem(section, key, name, allowed, do)])
        read_text(path, text)

    # What is worked.

    def work_answer(self) -> None:
        """Begin the answer of the last good text, away from the requests."""
        owners = self.state.owners
        self._make_way()
        if owners is not None:
            self.jobs.start(ANSWER, self._call, owners, self._years, self._seed, then=self._answered)  # fmt: skip

    def _answered(self, job: Job) -> None:
        with self._lock:
            state = self._state
            if state.owners is None or (job.stage == "stopped" and self.jobs.job(ANSWER) != job):
                return
            if job.stage == "done" and job.result.fingerprint == state.owners.fingerprint:
                old = state.answer
                before = old if old is not None and old.fingerprint != job.result.fingerprint else state.before  # fmt: skip
                self.lay(answer=job.result, before=before, fault="")
            elif job.stage == "wrong":
                self.lay(problems=job.problems)
            elif job.stage in ("failed", "stopped"):
                self.lay(fault=job.fault)

    def close(self) -> None:
        """End all work."""
        self.jobs.close()


def _without(begun: tuple[Change, ...], changes: tuple[Change, ...]) -> tuple[Change, ...]:
    """What was begun, less what the new changes write anew."""
    anew = {change.path for change in changes if change.path[-1] != "+"}
    return tuple(one for one in begun if one.path not in anew)


FILES_NAMED = (("climate", "file"), ("prices", "ledger"))


@lru_cache(maxsize=8)  # looked at with every request
def _files_named(text: str) -> tuple[tuple[str, str, str], ...]:
    """Files a text names: section, key, name."""
    named = ((section, key, value_at(text, (section, key))) for section, key in FILES_NAMED)
    counting = ((section, key, _counts(value)) for section, key, value in named)
    return tuple((section, key, name) for section, key, name in counting if name)


def _counts(value: Any) -> str:
    """A name, also where it stands in a table with who says so."""
    if isinstance(value, dict):
        value = next((value[word] for word in COUNTS_FIRST if word in value), None)
    return value if isinstance(value, str) and "\x00" not in value else ""


def _signature(state: State) -> tuple[tuple[int, int] | None, ...]:
    """Of the file and of those it names, so that a change is noticed without reading them."""
    if state.path is None:
        return ()
    paths = (state.path, *(state.path.parent / name for _, _, name in _files_named(state.text)))
    return tuple(_stamp(path) for path in paths)


def _stamp(path: Path) -> tuple[int, int] | None:
    try:
        found = path.stat()
    except OSError:
        return None
    return found.st_mtime_ns, found.st_size
