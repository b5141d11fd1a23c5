"""One file a leaf; each has its ROUTES, and asks the desk once."""

from __future__ import annotations

from starlette.routing import BaseRoute

from polestead.web.leaves import sheet

LEAVES = (sheet,)


def routes() -> list[BaseRoute]:
    """The routes of every leaf."""
    return [route for leaf in LEAVES for route in leaf.ROUTES]
