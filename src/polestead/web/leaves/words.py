"""The words: a line for each term."""

from __future__ import annotations

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from polestead.web.contents import Entry
from polestead.web.render import desk_of, page


async def words(request: Request) -> Response:
    """Every term with its line."""
    return page(request, desk_of(request).state, "words.html", {})


ROUTES = (Route("/words", words),)
CONTENTS = (Entry("words", "/words", 950),)
