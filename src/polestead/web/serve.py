"""Serve the sheet on this machine and open the browser."""

from __future__ import annotations

import socket
import webbrowser

import uvicorn

from polestead.answer.answer import Answer
from polestead.base.problem import Problem, Wrong
from polestead.base.show import Style
from polestead.homestead.read import OwnersFile
from polestead.web.app import sheet_app
from polestead.web.desk import Desk, State

HERE = "127.0.0.1"


def listening_at(port: int) -> socket.socket:
    """A socket that sends each piece at once: held back for the next one, a key press would wait forty milliseconds.

    The event loop sees to it only for sockets that name their protocol, which `create_server` leaves open; what is accepted
    inherits it.
    """
    listening = socket.create_server((HERE, port))
    listening.setsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY, 1)
    return listening


def serve(owners: OwnersFile, answer: Answer, style: Style, port: int, browser: bool) -> int:
    """Serve until stopped with Ctrl-C.

    Args:
        owners: The file as read.
        answer: What was worked from it.
        style: In which units.
        port: 0 finds a free one.
        browser: Whether to open the owner's browser.

    Returns:
        0.

    Raises:
        Wrong: The port is taken.
    """
    try:
        listening = listening_at(port)
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
    app = sheet_app(Desk(State(owners, answer, style)))
    server = uvicorn.Server(uvicorn.Config(app, log_level="warning", server_header=False))
    server.run(sockets=[listening])
    return 0
