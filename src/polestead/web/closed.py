"""What keeps the page to this machine: hosts, headers, and what may not be fetched."""

from __future__ import annotations

from collections.abc import Sequence

from starlette.middleware import Middleware
from starlette.middleware.trustedhost import TrustedHostMiddleware
from starlette.types import ASGIApp, Message, Receive, Scope, Send

POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; connect-src 'self'; "
    "base-uri 'none'; form-action 'self'; frame-ancestors 'none'"
)
HEADERS = {
    "content-security-policy": POLICY,
    "x-content-type-options": "nosniff",
    "referrer-policy": "no-referrer",
    "cross-origin-opener-policy": "same-origin",
    "cache-control": "no-store",
}
HOSTS = ("127.0.0.1", "localhost")


class ClosedHeaders:
    """Every reply, good or bad, carries the same strict headers."""

    def __init__(self, app: ASGIApp) -> None:
        self._app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Pass the request on; add the headers to what comes back."""

        async def closed(message: Message) -> None:
            if message["type"] == "http.response.start":
                own = [(name.encode(), value.encode()) for name, value in HEADERS.items()]
                message["headers"] = [*message.get("headers", []), *own]
            await send(message)

        await self._app(scope, receive, closed if scope["type"] == "http" else send)


def middleware(hosts: Sequence[str] = HOSTS) -> list[Middleware]:
    """In the order in which a request meets them."""
    return [
        Middleware(ClosedHeaders),
        Middleware(TrustedHostMiddleware, allowed_hosts=list(hosts)),
    ]
