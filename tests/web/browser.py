"""A server over one answer and a page in Chromium, for every test that looks at the sheet as a person does."""

from __future__ import annotations

import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

import uvicorn

from polestead.web.app import sheet_app
from polestead.web.desk import Desk, State
from polestead.web.serve import listening_at


@contextmanager
def served(state: State) -> Iterator[str]:
    """The address of a server over a state, while it runs."""
    listening = listening_at(0)
    server = uvicorn.Server(uvicorn.Config(sheet_app(Desk(state)), log_level="warning"))
    thread = threading.Thread(target=lambda: server.run(sockets=[listening]), daemon=True)
    thread.start()
    while not server.started:
        time.sleep(0.02)
    yield f"http://127.0.0.1:{listening.getsockname()[1]}/"
    server.should_exit = True
    thread.join(timeout=5)


def until(page: Any, truth: str, patience_s: float = 15.0) -> None:
    """Wait until something is so on the page; the page's own policy forbids the browser tool to watch for it there."""
    end = time.monotonic() + patience_s
    while not page.evaluate(truth):
        assert time.monotonic() < end, truth
        time.sleep(0.01)
