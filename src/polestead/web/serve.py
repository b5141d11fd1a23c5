"""Serve the sheet on this machine and open the browser."""

from __future__ import annotations

import socket
import webbrowser

import uvicorn

from polestead.answer.answer import Answer
from polestead.base.problem import Problem, Wrong
from polestead.base.show import Style
from polestead.web.page import sheet_app

HERE = "127.0.0.1"


def serve(answer: Answer, style: Style, port: int, browser: bool) -> int:
    """Serve until stopped with Ctrl-C.

    Args:
        answer: What the page shows.
        style: In which units.
        port: 0 finds a free one.
        browser: Whether to open the owner's browser.

    Returns:
        0.

    Raises:
        Wrong: The port is taken.
    """
    try:
        listening = socket.create_server((HERE, port))
    except OSError as refused:
        do = "Leave --port out and a free one is found."
        given = f"{port}, which is taken ({refused.strerror})"
        raise Wrong([Problem("", "--port", given, "a free port", do)]) from None
    address = f"http://{HERE}:{listening.getsockname()[1]}/"
    print(
        f"The sheet of {answer.name} is at {address}\nOnly this machine can see it. Stop with Ctrl-C.",
        flush=True,
    )
    if browser:
        webbrowser.open(address)
    server = uvicorn.Server(
        uvicorn.Config(sheet_app(answer, style), log_level="warning", server_header=False)
    )
    server.run(sockets=[listening])
    return 0
