"""The app: the desk, every leaf's routes, and the door that stays closed."""

from __future__ import annotations

import secrets
from collections.abc import Awaitable, Callable, Iterable
from importlib.resources import files

from starlette.applications import Starlette
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import BaseRoute, Route
from starlette.types import ASGIApp

from polestead.web import leaves
from polestead.web.closed import HOSTS, Closed
from polestead.web.desk import Desk
from polestead.web.gate import Gate
from polestead.web.render import page

KINDS = {".css": "text/css", ".js": "text/javascript", ".svg": "image/svg+xml"}
SAID = {
    404: "There is nothing here.",
    405: "This can only be looked at, or only be sent.",
}


def sheet_app(desk: Desk, *, hosts: Iterable[str] = HOSTS, gate: Gate | None = None) -> ASGIApp:
    """The page over one desk.

    Args:
        desk: The owner's file lying open.
        hosts: Names the server answers to.
        gate: Asks other machines for the passcode; None: only this machine may come.
    """
    app = Starlette(
        routes=[*_static_routes(), *leaves.routes()],
        exception_handlers={HTTPException: _told, Exception: _failed},
    )
    app.state.desk = desk
    app.state.token = secrets.token_urlsafe(16)  # a form of this server, not of another page
    app.state.contents = leaves.contents()
    app.state.boot = secrets.token_hex(4)
    inner: ASGIApp = app if gate is None else gate.before(app)
    return Closed(inner, hosts, lan=gate is not None, uploads=leaves.uploads())


def _static_routes() -> list[BaseRoute]:
    """Each shipped file under its own name; nothing is looked up by what a request says."""
    folder = files("polestead.web").joinpath("static")
    routes: list[BaseRoute] = [Route("/favicon.ico", _nothing)]
    for item in sorted(folder.iterdir(), key=lambda one: one.name):
        suffix = "." + item.name.rpartition(".")[2]
        if suffix in KINDS:
            routes.append(Route(f"/static/{item.name}", _giving(item.read_bytes(), KINDS[suffix])))
    return routes


def _giving(content: bytes, kind: str) -> Callable[[Request], Awaitable[Response]]:
    async def give(_: Request) -> Response:
        return Response(content, media_type=kind)

    return give


async def _nothing(_: Request) -> Response:
    return Response(status_code=204)


async def _told(request: Request, fault: Exception) -> Response:
    status = fault.status_code if isinstance(fault, HTTPException) else 500
    said = SAID.get(status) or getattr(fault, "detail", "") or "This cannot be done."
    return _words(request, said, status)


async def _failed(request: Request, fault: Exception) -> Response:
    said = f"polestead itself failed ({type(fault).__name__}). Your file was not touched."
    return _words(request, said, 500)


def _words(request: Request, said: str, status: int) -> Response:
    return page(request, request.app.state.desk.state, "told.html", {"said": said}, status)
