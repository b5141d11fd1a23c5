"""Long work, off the request: a kept-warm process beside the page, with progress, and it can be stopped.

A thread would do the sums as well, but it shares the interpreter with the page, and nothing can stop it (decision 0013).
"""

from __future__ import annotations

import os
import signal
import time
from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass, replace
from multiprocessing import get_context
from multiprocessing.connection import Connection
from threading import Condition, Lock, Thread
from typing import Any, Literal

from polestead.base.problem import Problem, Wrong

Stage = Literal["waiting", "working", "done", "stopped", "wrong", "failed"]
OVER: tuple[Stage, ...] = ("done", "stopped", "wrong", "failed")
GRACE_S = 2.0  # how long work that was told to stop may take to come to its next step
LISTEN_S = 0.1
EVEN_STEPS = 10  # so many steps are taken to be of about one length
POLITE = 5  # the page goes before the sums


@dataclass(frozen=True, slots=True)
class Job:
    """One piece of long work as it stands; it is replaced whole.

    Attributes:
        name: What it is called; a new job of the name takes the older one's place.
        serial: Counts up over all jobs.
        stage: How far it is.
        words: What is being worked.
        step: Steps done.
        of: Of so many; 0 while that is not known.
        begun: Seconds of a clock that only runs forward.
        took_s: From begin to end.
        took_before_s: What the last one of the name took; 0 where there was none.
        result: What came out, once it is done.
        problems: What was wrong with what it was given.
        fault: Why it failed, in words.
    """

    name: str
    serial: int
    stage: Stage = "waiting"
    words: str = ""
    step: int = 0
    of: int = 0
    begun: float = 0.0
    took_s: float = 0.0
    took_before_s: float = 0.0
    result: Any = None
    problems: tuple[Problem, ...] = ()
    fault: str = ""

    @property
    def over(self) -> bool:
        """Nothing more will come of it."""
        return self.stage in OVER

    @property
    def left_s(self) -> float | None:
        """What is left, by what the last one took, or by the pace of many steps; None while that cannot be said."""
        gone = time.monotonic() - self.begun
        if self.stage == "working" and self.took_before_s > gone:
            return self.took_before_s - gone
        if self.stage == "working" and 2 < self.step < self.of and self.of >= EVEN_STEPS:
            return gone / self.step * (self.of - self.step)
        return None

    @property
    def said(self) -> str:
        """How far it is, in words."""
        if self.stage == "waiting":
            return "waiting for what was begun before it"
        if not self.of:
            return "beginning"
        left = (
            f", about {self.left_s:.0f} s" if self.left_s is not None and self.left_s >= 1.0 else ""
        )
        return f"{self.words}, {self.step} of {self.of}{left}"


@dataclass(slots=True)
class _Task:
    job: Job
    call: Callable[..., Any]
    given: tuple[Any, ...]
    then: Callable[[Job], None] | None
    told_to_stop: float = 0.0


class Jobs:
    """All long work of a server: the answer has a process of its own, everything else shares another."""

    def __init__(self) -> None:
        self._lock = Lock()
        self._serial = 0
        self._last: dict[str, Job] = {}
        self._lanes: dict[str, _Lane] = {}

    def start(
        self,
        name: str,
        call: Callable[..., Any],
        *given: Any,
        then: Callable[[Job], None] | None = None,
    ) -> Job:
        """Begin something long; an unfinished job of the same name is stopped first.

        Args:
            name: What it is called.
            call: A function of a module, called in another process as ``call(*given, progress=tell)`` with
                ``tell(what, step, of)``; what it takes and gives must bear the way between two processes.
            given: What it is given.
            then: Called with the finished job, from another thread.
        """
        self.stop(name)
        with self._lock:
            self._serial += 1
            last = self._last.get(name)
            took = last.took_s if last is not None and last.stage == "done" else 0.0
            job = self._last[name] = Job(name, self._serial, took_before_s=took)
            lane = self._lanes.setdefault("answer" if name == "answer" else "beside", _Lane(self._tell))  # fmt: skip
        lane.put(_Task(job, call, given, then))
        return job

    def job(self, name: str) -> Job | None:
        """The newest job of the name."""
        with self._lock:
            return self._last.get(name)

    def running(self) -> tuple[Job, ...]:
        """Everything that is not over."""
        with self._lock:
            return tuple(job for job in self._last.values() if not job.over)

    def stop(self, name: str) -> None:
        """Tell the job to stop; at its next step, or by ending its process when that does not come."""
        with self._lock:
            lanes = tuple(self._lanes.values())
        for lane in lanes:
            lane.stop(name)

    def close(self) -> None:
        """End every process."""
        with self._lock:
            lanes, self._lanes = tuple(self._lanes.values()), {}
        for lane in lanes:
            lane.close()

    def _tell(self, job: Job) -> None:
        """Take a job's new standing in, unless a newer one of its name is there."""
        with self._lock:
            last = self._last.get(job.name)
            if last is None or last.serial <= job.serial:
                self._last[job.name] = job


class _Lane:
    """One process and the thread that feeds it, a job at a time."""

    def __init__(self, tell: Callable[[Job], None]) -> None:
        self._tell = tell
        self._tasks: list[_Task] = []
        self._now: _Task | None = None
        self._changed = Condition()
        self._closed = False
        self._process: Any = None
        self._wire: Connection | None = None
        self._thread = Thread(target=self._feed, name="jobs", daemon=True)
        self._thread.start()

    def put(self, task: _Task) -> None:
        with self._changed:
            self._tasks.append(task)
            self._changed.notify()

    def stop(self, name: str) -> None:
        with self._changed:
            waiting = [task for task in self._tasks if task.job.name == name]
            self._tasks = [task for task in self._tasks if task.job.name != name]
            now = self._now
            if now is not None and now.job.name == name and not now.told_to_stop:
                now.told_to_stop = time.monotonic()
        for task in waiting:
            self._over(task, replace(task.job, stage="stopped"))

    def close(self) -> None:
        with self._changed:
            self._closed = True
            self._tasks.clear()
            self._changed.notify()
        self._thread.join(timeout=2.0 + GRACE_S)

    def _feed(self) -> None:
        while True:
            with self._changed:
                while not self._tasks and not self._closed:
                    self._changed.wait()
                if self._closed:
                    self._end()
                    return
                self._now = task = self._tasks.pop(0)
            job = self._carry(task)
            with self._changed:
                self._now = None
            self._over(task, job)

    def _over(self, task: _Task, job: Job) -> None:
        self._tell(job)
        if task.then is not None:
            task.then(job)

    def _carry(self, task: _Task) -> Job:
        """One job from beginning to end."""
        job = replace(task.job, stage="working", begun=time.monotonic())
        self._tell(job)
        wire = self._begun()
        try:
            wire.send((task.call, task.given))
            while True:
                if wire.poll(LISTEN_S):
                    job, over = self._heard(job, wire.recv())
                    self._tell(job)
                    if over:
                        return replace(job, took_s=time.monotonic() - job.begun)
                if self._closed or self._overdue(task, wire):
                    self._end()
                    return replace(job, stage="stopped", took_s=time.monotonic() - job.begun)
        except (EOFError, OSError):
            self._end()
            return replace(job, stage="failed", fault="the process that worked it ended by itself")
        except Exception as fault:  # what cannot bear the way between two processes
            self._end()
            return replace(job, stage="failed", fault=f"{type(fault).__name__}: {fault}")

    def _overdue(self, task: _Task, wire: Connection) -> bool:
        """Told to stop, and still there when its grace is over."""
        if not task.told_to_stop:
            return False
        if task.told_to_stop > 0.0:
            wire.send("stop")
            task.told_to_stop = -task.told_to_stop
        return time.monotonic() + task.told_to_stop > GRACE_S

    @staticmethod
    def _heard(job: Job, said: tuple[Any, ...]) -> tuple[Job, bool]:
        kind = said[0]
        if kind == "step":
            return replace(job, words=said[1], step=said[2], of=said[3]), False
        if kind == "done":
            return replace(job, stage="done", result=said[1]), True
        if kind == "wrong":
            return replace(job, stage="wrong", problems=said[1]), True
        if kind == "stopped":
            return replace(job, stage="stopped"), True
        return replace(job, stage="failed", fault=said[1]), True

    def _begun(self) -> Connection:
        """The wire to the process, begun where there is none."""
        if self._wire is None or not self._process.is_alive():
            self._end()
            here, there = _SPAWN.Pipe()
            self._process = _SPAWN.Process(target=_serve, args=(there,), daemon=True)
            self._process.start()
            there.close()
            self._wire = here
        return self._wire

    def _end(self) -> None:
        if self._wire is not None:
            self._wire.close()
            self._process.terminate()
            self._process.join(timeout=GRACE_S)
            self._process.close() if self._process.exitcode is not None else self._process.kill()
            self._wire = self._process = None


_SPAWN = get_context("spawn")  # a fork would take the page's sockets and locks along


class _StoppedError(Exception):
    """Told to stop."""


def _serve(wire: Connection) -> None:
    """In the other process: one call after the other, until the wire is cut."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # Ctrl-C is the server's to hear
    with suppress(OSError, AttributeError):
        os.nice(POLITE)
    while True:
        try:
            said = wire.recv()
            if said != "stop":  # one that came after its work was over
                wire.send(_worked(wire, *said))
        except (EOFError, OSError):
            return


def _worked(wire: Connection, call: Callable[..., Any], given: tuple[Any, ...]) -> tuple[Any, ...]:
    def tell(what: str, step: int, of: int) -> None:
        if wire.poll() and wire.recv() == "stop":
            raise _StoppedError
        wire.send(("step", what, step, of))

    try:
        return ("done", call(*given, progress=tell))
    except _StoppedError:
        return ("stopped",)
    except Wrong as wrong:
        return ("wrong", wrong.problems)
    except Exception as fault:  # whatever it is, the page must be able to say so
        return ("failed", f"{type(fault).__name__}: {fault}")
