"""Long work: it is told how far it is, can be stopped in two ways, and no fault of it reaches the page."""

from __future__ import annotations

import os
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest

from polestead.base.problem import Problem, Wrong
from polestead.web.work import Job, Jobs


def counts(most: int, pause_s: float, *, progress: Any) -> int:
    for step in range(most):
        progress(f"line {step}", step, most)
        time.sleep(pause_s)
    return most


def sleeps(note: str, *, progress: Any) -> None:
    Path(note).write_text(str(os.getpid()))
    progress("asleep", 1, 2)
    time.sleep(60.0)


def is_given_nonsense(*, progress: Any) -> None:
    raise Wrong([Problem("mount", "pole", "12", "a pole", "Write one.")])


def breaks(*, progress: Any) -> None:
    message = "a bar slipped"
    raise RuntimeError(message)


def dies(*, progress: Any) -> None:
    os._exit(3)


@pytest.fixture(scope="module")
def jobs() -> Iterator[Jobs]:
    made = Jobs()
    yield made
    made.close()


def until(jobs: Jobs, name: str, want: Callable[[Job], bool], seconds: float = 40.0) -> Job:
    end = time.monotonic() + seconds
    while time.monotonic() < end:
        job = jobs.job(name)
        if job is not None and want(job):
            return job
        time.sleep(0.02)
    pytest.fail(f"{name}: {jobs.job(name)}")


def test_it_says_how_far_it_is_and_gives_its_result(jobs: Jobs) -> None:
    heard: list[Job] = []
    jobs.start("count", counts, 12, 0.05, then=heard.append)
    halfway = until(jobs, "count", lambda job: job.step >= 3)
    assert (halfway.stage, halfway.of) == ("working", 12)
    assert halfway.said.startswith(f"line {halfway.step}, {halfway.step} of 12")
    assert [job.name for job in jobs.running()] == ["count"]
    done = until(jobs, "count", lambda job: job.over)
    assert (done.stage, done.result) == ("done", 12)
    until(jobs, "count", lambda _: bool(heard))
    assert heard == [done]
    assert not jobs.running()


def test_it_stops_at_its_next_step_and_the_process_goes_on_with_the_next(jobs: Jobs) -> None:
    jobs.start("count", counts, 1000, 0.02)
    until(jobs, "count", lambda job: job.step >= 2)
    jobs.stop("count")
    assert until(jobs, "count", lambda job: job.over).stage == "stopped"
    jobs.start("next", counts, 2, 0.0)
    assert until(jobs, "next", lambda job: job.over).result == 2


def test_one_that_comes_to_no_step_is_ended(jobs: Jobs, tmp_path: Path) -> None:
    note = tmp_path / "process"
    jobs.start("sleep", sleeps, str(note))
    until(jobs, "sleep", lambda job: job.step == 1)
    jobs.stop("sleep")
    assert until(jobs, "sleep", lambda job: job.over, 10.0).stage == "stopped"
    with pytest.raises(ProcessLookupError):
        os.kill(int(note.read_text()), 0)


def test_a_newer_one_of_the_name_takes_its_place(jobs: Jobs) -> None:
    jobs.start("count", counts, 1000, 0.02)
    until(jobs, "count", lambda job: job.step >= 1)
    newer = jobs.start("count", counts, 3, 0.0)
    done = until(jobs, "count", lambda job: job.over)
    assert (done.serial, done.result) == (newer.serial, 3)


def test_what_is_wrong_and_what_fails_is_told_and_the_next_goes_on(jobs: Jobs) -> None:
    jobs.start("wrong", is_given_nonsense)
    jobs.start("breaks", breaks)
    jobs.start("dies", dies)
    jobs.start("unsendable", lambda *, progress: None)
    jobs.start("after", counts, 1, 0.0)
    assert until(jobs, "after", lambda job: job.over).result == 1
    wrong, broken, died, unsent = (
        jobs.job(name) for name in ("wrong", "breaks", "dies", "unsendable")
    )
    assert wrong is not None and broken is not None and died is not None and unsent is not None  # noqa: PT018
    assert [problem.key for problem in wrong.problems] == ["pole"]
    assert broken.fault == "RuntimeError: a bar slipped"
    assert (died.stage, died.fault) == ("failed", "the process that worked it ended by itself")
    assert unsent.stage == "failed"


def test_a_waiting_one_is_stopped_without_ever_beginning(jobs: Jobs) -> None:
    jobs.start("count", counts, 1000, 0.02)
    waiting = jobs.start("waits", counts, 1, 0.0)
    assert waiting.said == "waiting for what was begun before it"
    jobs.stop("waits")
    assert until(jobs, "waits", lambda job: job.over).stage == "stopped"
    jobs.stop("count")
    until(jobs, "count", lambda job: job.over)
