"""What the tests of the page share: a desk over a file of their own, work done at once, a server in a thread."""

from __future__ import annotations

import os
import pickle
import re
import socket
import threading
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import replace
from html import unescape
from pathlib import Path
from typing import Any

import uvicorn
from starlette.testclient import TestClient

from polestead.answer.answer import Answer
from polestead.base.problem import Wrong
from polestead.homestead.demos import demo_path
from polestead.homestead.read import OwnersFile
from polestead.web.app import sheet_app
from polestead.web.desk import Desk
from polestead.web.work import Job, Jobs
from tests.answers import worked

HERE = "http://127.0.0.1"
ORIGIN = {"origin": HERE}
PICKLED = "POLESTEAD_TESTS_ANSWER"
PAUSE = "POLESTEAD_TESTS_PAUSE"


class AtOnce(Jobs):
    """Work done in the request, for tests of everything but the work."""

    def start(
        self,
        name: str,
        call: Callable[..., Any],
        *given: Any,
        then: Callable[[Job], None] | None = None,
    ) -> Job:
        job = Job(name, self._serial + 1)
        self._serial += 1
        try:
            job = replace(job, stage="done", result=call(*given, progress=lambda *_: None))
        except Wrong as wrong:
            job = replace(job, stage="wrong", problems=wrong.problems)
        self._last[name] = job
        if then is not None:
            then(job)
        return job


def as_worked(owners: OwnersFile, _years: int, _seed: int, *, progress: Any) -> Answer:
    """The demo's answer with the name of what it stands for: the page is tested here, not the sums."""
    return replace(
        worked("hollow-spruce"), fingerprint=owners.fingerprint, name=owners.homestead.name
    )


def as_unpickled(owners: OwnersFile, _years: int, _seed: int, *, progress: Any) -> Answer:
    """The same in another process: the answer comes from a file, step by step."""
    answer: Answer = pickle.loads(Path(os.environ[PICKLED]).read_bytes())  # noqa: S301  written by this test run
    steps = int(Path(os.environ[PAUSE]).read_text())
    for step in range(steps):
        progress(f"part {step}", step, steps)
        time.sleep(0.1)
    return replace(answer, fingerprint=owners.fingerprint, name=owners.homestead.name)


def own_file(folder: Path, demo: str = "hollow-spruce") -> Path:
    """A copy of a demo, as an owner's file."""
    path = folder / "larch.toml"
    path.write_text(demo_path(demo).read_text(encoding="utf-8"), encoding="utf-8")
    return path


def desk_over(path: Path, **also: Any) -> Desk:
    """A desk with this file on it and its answer worked."""
    desk = Desk(folder=path.parent, call=as_worked, jobs=AtOnce(), **also)
    desk.open(path)
    return desk


def with_plain_blanks(reply: Any) -> None:
    """A page as it is read: a blank that does not break is a blank."""
    reply._content = reply.read().replace("\xa0".encode(), b" ")


class Owner:
    """A browser without script: it looks, fills forms in, and follows where it is led."""

    def __init__(self, desk: Desk) -> None:
        self.desk = desk
        self.client = TestClient(sheet_app(desk), base_url=HERE, headers=ORIGIN)
        self.client.event_hooks = {"response": [with_plain_blanks]}

    def look(self, path: str) -> str:
        page = self.client.get(path)
        assert page.status_code == 200, page.text
        return unescape(page.text)

    def token(self) -> str:
        found = re.search(r'name="token" value="([^"]+)"', self.client.get("/words").text)
        assert found is not None
        return found[1]

    def send(self, action: str, **fields: str) -> Any:
        given = {"token": self.token(), "of": self.desk.state.fingerprint, "back": "/file"} | fields
        return self.client.post(action, data=given)

    def keep(self, at: str, value: str, **fields: str) -> Any:
        return self.send("/file/keep", at=at, value=value, **fields)


@contextmanager
def served(app: Any, port: int = 0) -> Iterator[str]:
    """The address of a server in a thread."""
    with socket.create_server(("127.0.0.1", port)) as listening:
        server = uvicorn.Server(
            uvicorn.Config(app, log_level="warning", timeout_graceful_shutdown=1)
        )
        thread = threading.Thread(target=lambda: server.run(sockets=[listening]), daemon=True)
        thread.start()
        while not server.started:
            time.sleep(0.02)
        yield f"http://127.0.0.1:{listening.getsockname()[1]}"
        server.should_exit = True
        thread.join(timeout=5)
