"""From a template and its words to a reply."""

from __future__ import annotations

from functools import lru_cache
from typing import Any, cast

from jinja2 import Environment, PackageLoader, StrictUndefined, select_autoescape
from starlette.requests import Request
from starlette.responses import HTMLResponse

from polestead.base.show import Style
from polestead.web.desk import Desk, State

UNITS = ("feet", "metric")


def desk_of(request: Request) -> Desk:
    """The desk of the server a request came to."""
    return cast("Desk", request.app.state.desk)


def style_of(request: Request, state: State) -> Style:
    """The units this device asked for, else the file's own."""
    asked = request.cookies.get("units", "")
    return cast("Style", asked) if asked in UNITS else state.style


def page(
    request: Request, state: State, template: str, words: dict[str, Any], status: int = 200
) -> HTMLResponse:
    """A whole page; every page has the name, the contents sentence and the units choice.

    Args:
        request: What was asked.
        state: The state the words were made from.
        template: Its file in `templates`.
        words: What the template shows.
        status: Of the reply.
    """
    common = {"state": state, "answer": state.answer, "style": style_of(request, state), "here": request.url.path}  # fmt: skip
    html = _templates().get_template(template).render(**common, **words)
    return HTMLResponse(html, status_code=status)


@lru_cache(maxsize=1)
def _templates() -> Environment:
    return Environment(
        loader=PackageLoader("polestead.web", "templates"),
        autoescape=select_autoescape(),
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
