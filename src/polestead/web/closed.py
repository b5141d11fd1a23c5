"""What keeps the page to this machine: hosts, origins, sizes, headers, and what may not be fetched."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from ipaddress import ip_address
from urllib.parse import urlsplit

from starlette.datastructures import Headers
from starlette.responses import PlainTextResponse, Response
from starlette.types import ASGIApp, Message, Receive, Scope, Send

POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; connect-src 'self'; "
    "base-uri 'none'; form-action 'self'; frame-ancestors 'none'"
)
HEADERS = {
    "content-security-policy": POLICY,
    "x-content-type-options": "nosniff",
    "x-frame-options": "DENY",
    "referrer-policy": "same-origin",  # under no-referrer a form of our own would come with the origin "null"
    "cross-origin-opener-policy": "same-origin",
    "cross-origin-resource-policy": "same-origin",
    "cache-control": "no-store",
}
HOSTS = ("127.0.0.1", "localhost", "::1")
READING = ("GET", "HEAD")
LARGEST_FORM_BYTES = 64_000


class Closed:
    """The door: every request passes it first, and every reply, good or bad, carries the same strict headers.

    Args:
        app: What lies behind it.
        hosts: Names the server answers to, without a port.
        lan: Other machines may come too, under the address they reached the server by.
        uploads: Largest body in bytes by path, where a leaf takes more than a form.
    """

    def __init__(
        self,
        app: ASGIApp,
        hosts: Iterable[str] = HOSTS,
        *,
        lan: bool = False,
        uploads: Mapping[str, int] | None = None,
    ) -> None:
        self._app = app
        self._hosts = frozenset(hosts)
        self._lan = lan
        self._uploads = dict(uploads or {})

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Refuse, or pass the request on; add the headers to what comes back."""
        if scope["type"] == "lifespan":
            await self._app(scope, receive, send)
            return
        if scope["type"] != "http":
            return

        async def closed(message: Message) -> None:
            if message["type"] == "http.response.start":
                own = [(name.encode(), value.encode()) for name, value in HEADERS.items()]
                held = [pair for pair in message.get("headers", []) if pair[0].decode().lower() not in HEADERS]  # fmt: skip
                message["headers"] = [*held, *own]
            await send(message)

        refusal = self._refusal(scope)
        if refusal is not None:
            await refusal(scope, receive, closed)
            return
        most = self._uploads.get(scope["path"], LARGEST_FORM_BYTES)
        body = await _body_of(scope, receive, most)
        if body is None:
            await _no(413, f"That is too much at once: at most {most:,} bytes are taken here.")(scope, receive, closed)  # fmt: skip
            return
        await self._app(scope, _given(body, receive), closed)

    def _refusal(self, scope: Scope) -> Response | None:
        headers = Headers(scope=scope)
        if len(headers.getlist("host")) != 1 or not self._answers_to(headers["host"], scope):
            return _no(400, "This page answers under its own address only.")
        if scope["method"] not in (*READING, "POST"):
            return _no(405, "Only reading and sending a form are known here.")
        if scope["method"] == "POST" and not _from_here(headers, scope):
            return _no(403, "This was sent by another page, and is not taken.")
        return None

    def _answers_to(self, host: str, scope: Scope) -> bool:
        name = _name_of(host)
        if name in self._hosts:
            return True
        return self._lan and name is not None and name == _plain(str((scope.get("server") or ("",))[0]))  # fmt: skip


def _name_of(host: str) -> str | None:
    """The name in a Host header, without its port; None for what is none."""
    try:
        split = urlsplit(f"//{host}")
        _ = split.port
    except ValueError:
        return None
    if split.path or split.query or split.fragment or split.username is not None:
        return None
    return _plain(split.hostname or "")


def _plain(name: str) -> str:
    """An address in one writing; an older one that comes as a newer one is the older one."""
    try:
        address = ip_address(name.partition("%")[0])
    except ValueError:
        return name.lower()
    older = getattr(address, "ipv4_mapped", None)
    return str(older or address)


def _from_here(headers: Headers, scope: Scope) -> bool:
    """A form of ours: the browser says so by its origin, or where it sends none by the site it comes from."""
    origin = headers.get("origin")
    if origin is not None:
        return origin == f"{scope.get('scheme', 'http')}://{headers['host']}"
    return headers.get("sec-fetch-site") == "same-origin"


async def _body_of(scope: Scope, receive: Receive, most: int) -> bytes | None:
    """The whole body, or None as soon as it is more than may be."""
    if scope["method"] in READING:
        return b""
    told = Headers(scope=scope).get("content-length", "0")
    if not told.isdecimal() or int(told) > most:
        return None
    parts: list[bytes] = []
    size = 0
    while True:
        message = await receive()
        if message["type"] != "http.request":
            return None
        parts.append(message.get("body", b""))
        size += len(parts[-1])
        if size > most:
            return None
        if not message.get("more_body", False):
            return b"".join(parts)


def _given(body: bytes, receive: Receive) -> Receive:
    """The body once, then whatever comes after it."""
    told = False

    async def give() -> Message:
        nonlocal told
        if not told:
            told = True
            return {"type": "http.request", "body": body, "more_body": False}
        return await receive()

    return give


def _no(status: int, words: str) -> PlainTextResponse:
    return PlainTextResponse(words, status_code=status)
