"""Other machines of the house: a passcode typed once, and waits that grow with every wrong try."""

from __future__ import annotations

import secrets
import time
from collections.abc import Callable
from hmac import compare_digest
from urllib.parse import parse_qs

from starlette.requests import Request
from starlette.responses import HTMLResponse, RedirectResponse, Response
from starlette.types import ASGIApp, Receive, Scope, Send

from polestead.web.passcode import OPENS
from polestead.web.render import templates

COOKIE = "passed"
HERE = ("127.0.0.1", "::1", "::ffff:127.0.0.1")
FREE_TRIES = 3
LONGEST_WAIT_S = 300.0
FORGET_S = 600.0  # in so long one wrong try is forgotten: who mistypes now and then is not locked out for good
ALL_FREE = -20  # of all addresses together so many more are free
MOST_ADDRESSES = 1000
MOST_PASSED = 100
OPEN_TO_ALL = ("/static/ink.css",)


class Gate:
    """Lets this machine through, and others once they have typed the passcode.

    Args:
        passcode: As printed in the terminal.
        clock: A clock that only runs forward.
    """

    def __init__(self, passcode: str, clock: Callable[[], float] = time.monotonic) -> None:
        self._passcode = _bare(passcode)
        self._clock = clock
        self._passed: dict[str, None] = {}
        self._wrong: dict[str, tuple[int, float]] = {}

    def before(self, app: ASGIApp) -> ASGIApp:
        """The app behind the gate."""

        async def guarded(scope: Scope, receive: Receive, send: Send) -> None:
            if scope["type"] != "http" or self._may(scope):
                await app(scope, receive, send)
            else:
                reply = await self._reply(Request(scope, receive))
                await reply(scope, receive, send)

        return guarded

    def _may(self, scope: Scope) -> bool:
        if _from(scope) in HERE or scope["path"] in OPEN_TO_ALL:
            return True
        cookies = Request(scope).cookies
        return cookies.get(COOKIE, "") in self._passed

    async def _reply(self, request: Request) -> Response:
        if request.method != "POST" or request.url.path != "/passcode":
            return _asking("", 401 if request.method == "GET" else 403)
        address = _from(request.scope)
        wait_s = self._wait_s(address)
        if wait_s > 0.0:
            return _asking(f"Too many tries. Try again in {wait_s:.0f} s.", 429)
        typed = parse_qs((await request.body()).decode("utf-8", "replace")).get("passcode", [""])[0]
        if not compare_digest(_bare(typed).encode(), self._passcode.encode()):
            self._note(address)
            return _asking(
                "That is not the passcode. It stands in the terminal on the laptop.", 401
            )
        self._wrong.pop(address, None)
        key = secrets.token_urlsafe(24)
        while len(self._passed) >= MOST_PASSED:
            self._passed.pop(next(iter(self._passed)))
        self._passed[key] = None
        reply = RedirectResponse("/", status_code=303)
        reply.set_cookie(COOKIE, key, httponly=True, samesite="strict", path="/")
        return reply

    def _wait_s(self, address: str) -> float:
        """What is left of this address's wait, or of everybody's."""
        now = self._clock()
        waits = (_until(self._tries(name), self._wrong[name][1]) - now for name in (address, "*") if name in self._wrong)  # fmt: skip
        return max(0.0, *waits, 0.0)

    def _note(self, address: str) -> None:
        """One wrong try more, for the address and for all together: many addresses are no way round the waits."""
        while len(self._wrong) >= MOST_ADDRESSES:
            self._wrong.pop(next(name for name in self._wrong if name != "*"))
        now = self._clock()
        self._wrong[address] = (self._tries(address) + 1, now)
        self._wrong["*"] = (self._tries("*") + 1, now)

    def _tries(self, name: str) -> int:
        """Wrong tries that still count; those of all together may be more."""
        fewest = ALL_FREE if name == "*" else 0
        tries, last = self._wrong.get(name, (fewest, 0.0))
        return max(fewest, tries - int((self._clock() - last) / FORGET_S))


def _until(tries: int, last: float) -> float:
    """When the next try may be made."""
    over = tries - FREE_TRIES
    return last + (min(LONGEST_WAIT_S, 2.0 ** min(over, 20)) if over >= 0 else 0.0)


def _bare(passcode: str) -> str:
    return "".join(sign for sign in passcode.lower() if sign.isalnum())[:64]


def _from(scope: Scope) -> str:
    return str((scope.get("client") or ("",))[0])


def _asking(said: str, status: int) -> HTMLResponse:
    html = templates().get_template("passcode.html").render(said=said, opens=OPENS)
    return HTMLResponse(html, status_code=status)
