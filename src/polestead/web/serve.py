"""Serve the sheet on this machine and open the browser."""

from __future__ import annotations

import errno
import os
import socket
import webbrowser
from pathlib import Path
from textwrap import fill
from threading import Timer
from typing import TYPE_CHECKING

from polestead.base.problem import Problem, Wrong

if TYPE_CHECKING:
    from polestead.web.desk import Desk

HERE = "127.0.0.1"


def serve(
    path: Path | None, *, demo: str = "", years: int = 100, seed: int = 1, port: int = 0,
    browser: bool = True, lan: bool = False,
) -> int:  # fmt: skip
    """Serve until stopped with Ctrl-C.

    Args:
        path: The homestead file; None: the letter lies open.
        demo: Name of the demo that lies at the path.
        years: Synthetic years an answer draws.
        seed: Of the draw.
        port: 0 finds a free one.
        browser: Whether to open the owner's browser.
        lan: Let other machines of the house in, with a passcode.

    Returns:
        0.

    Raises:
        Wrong: The port is taken, or the file cannot be read.
    """
    from polestead.homestead.text import text_of

    if path is not None:
        text_of(path)  # told in the terminal, before anything is opened
    with listening_at(port, lan) as listening:
        number = listening.getsockname()[1]
        address = f"http://{HERE}:{number}/"
        passcode = _say_where(address, number, lan)
        from polestead.web.desk import Desk  # reads the sums in; the address is told before that

        desk = Desk(years=years, seed=seed)
        try:
            if path is not None:
                desk.open(path, demo)
            _run(desk, listening, address if browser else "", passcode)
        finally:
            desk.close()
    return 0


def _say_where(address: str, port: int, lan: bool) -> str:
    """Tell where it is and who can see it.

    Returns:
        The passcode, where other machines may come.
    """
    print(f"The sheet is at {address}", flush=True)
    if not lan:
        print("Only this machine can see it. Stop with Ctrl-C.", flush=True)
        return ""
    from polestead.sheets.lines import WIDTH
    from polestead.web.passcode import OPENS, new_passcode

    passcode = new_passcode()
    others = " or ".join(f"http://{name}:{port}/" for name in own_addresses()) or "this machine's address"  # fmt: skip
    told = (
        f"Whoever has it can {OPENS}.",
        "It goes over your network in the clear: use it at home only, and stop it with Ctrl-C when you are done.",
    )
    print(f"Other machines of your network reach it at {others}\n")
    print(f"    passcode  {passcode}    typed once on each\n")
    print("\n".join(fill(words, WIDTH) for words in told), flush=True)
    return passcode


def _run(desk: Desk, listening: socket.socket, browse: str, passcode: str) -> None:
    import uvicorn

    from polestead.web.app import sheet_app
    from polestead.web.closed import HOSTS
    from polestead.web.gate import Gate
    from polestead.web.idle import Idle
    from polestead.web.leaves import asides

    names = [*HOSTS, socket.gethostname().lower(), f"{socket.gethostname().lower()}.local"]
    gate = Gate(passcode) if passcode else None
    app = sheet_app(desk, hosts=names if gate else HOSTS, gate=gate)
    if browse:
        opener = Timer(0.2, webbrowser.open, (browse,))
        opener.daemon = True
        opener.start()
    idle = Idle(desk, asides())
    idle.start()
    config = uvicorn.Config(app, log_level="warning", server_header=False, timeout_graceful_shutdown=2)  # fmt: skip
    try:
        uvicorn.Server(config).run(sockets=[listening])
    finally:
        idle.close()


def listening_at(port: int, lan: bool = False) -> socket.socket:
    """A socket that sends each piece at once.

    Args:
        port: 0 finds a free one.
        lan: Whether other machines may reach it.

    Raises:
        Wrong: The port is taken.
    """
    try:
        if lan and socket.has_dualstack_ipv6():
            listening = socket.create_server(
                ("::", port), family=socket.AF_INET6, dualstack_ipv6=True
            )
        else:
            listening = socket.create_server(("0.0.0.0" if lan else HERE, port))  # noqa: S104  asked for, and behind a passcode
    except OSError as refused:
        do = "Leave --port out and a free one is found."
        taken = refused.errno == errno.EADDRINUSE
        given = f"{port}, which {'is taken' if taken else f'may not be used ({os.strerror(refused.errno or 0)})'}"
        raise Wrong([Problem("", "--port", given, "a free port", do)]) from None
    # Each piece is sent at once: held back for the next one, a key press would wait forty milliseconds.  The event loop sees
    # to it only for sockets that name their protocol, which `create_server` leaves open; what is accepted inherits it.
    listening.setsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY, 1)
    return listening


def own_addresses() -> tuple[str, ...]:
    """Addresses under which other machines may reach this one; nothing is sent to find them."""
    found: list[str] = []
    for family, far in ((socket.AF_INET, "192.0.2.1"), (socket.AF_INET6, "2001:db8::1")):
        try:
            with socket.socket(family, socket.SOCK_DGRAM) as asked:
                asked.connect(
                    (far, 9)
                )  # picks the way out; a datagram socket sends nothing by this
                found.append(asked.getsockname()[0])
        except OSError:
            continue
    return tuple(f"[{name}]" if ":" in name else name for name in found)
