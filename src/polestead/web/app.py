"""The app: the desk, every leaf's routes, and the door that stays closed."""

from __future__ import annotations

from collections.abc import Awaitable, Callable
from importlib.resources import files

from starlette.applications import Starlette
from starlette.requests import Request
from starlette.responses import PlainTextResponse, Response
from starlette.routing import BaseRoute, Route

from polestead.web import leaves
from polestead.web.closed import middleware
from polestead.web.desk import Desk

KINDS = {".css": "text/css", ".js": "text/javascript", ".svg": "image/svg+xml"}


def sheet_app(desk: Desk) -> Starlette:
    """The page over one desk.

    Args:
        desk: The owner's file lying open.
    """
    app = Starlette(
        routes=[*_static_routes(), *leaves.routes()],
        middleware=middleware(),
        exception_handlers={404: _nothing_here},
    )
    app.state.desk = desk
    return app


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


async def _nothing_here(_: Request, __: Exception) -> Response:
    return PlainTextResponse("There is nothing here; the sheet is at /", status_code=404)
