"""From a template and its words to a reply."""

from __future__ import annotations

from collections.abc import Awaitable, Callable, Mapping
from dataclasses import dataclass
from functools import lru_cache
from hmac import compare_digest
from typing import Any, Literal, cast
from urllib.parse import parse_qsl

from jinja2 import Environment, PackageLoader, StrictUndefined, select_autoescape
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import HTMLResponse, RedirectResponse, Response

from polestead.answer.answer import Answer
from polestead.base.show import Style, signed
from polestead.web.desk import ANSWER, Desk, State
from polestead.web.places import called, place_of
from polestead.web.plainly import plainly, spanned
from polestead.web.terms import term_slug, terms
from polestead.web.unparted import unparted

UNITS = ("feet", "metric")
UNASKED = "/state"  # the page asks for it by itself
MOST_FIELDS = 500
Scheme = Literal["machine", "light", "dark"]
WithAnswer = Callable[[Request, State, Answer], Awaitable[Response]]


@dataclass(frozen=True, slots=True)
class Device:
    """What this device asked for, kept by its cookies.

    Attributes:
        units: Units shown; empty: as the file has them.
        scheme: Light or dark.
        large: Large type.
    """

    units: str
    scheme: str
    large: bool


def desk_of(request: Request) -> Desk:
    """The desk of the server a request came to; it has looked whether the file is still the one it read."""
    desk = cast("Desk", request.app.state.desk)
    if request.url.path != UNASKED:
        desk.asked()
    desk.look()
    return desk


def device_of(request: Request) -> Device:
    """What this device asked for."""
    kept = request.cookies
    units, scheme = kept.get("units", ""), kept.get("scheme", "")
    return Device(
        units if units in UNITS else "",
        scheme if scheme in ("light", "dark") else "machine",
        kept.get("type") == "large",
    )


def style_of(request: Request, state: State) -> Style:
    """The units this device asked for, else the file's own."""
    asked = device_of(request).units
    return cast("Style", asked) if asked else state.style


async def form_of(request: Request) -> dict[str, str]:
    """What a form of this page sent, the last of each name; text only.

    Raises:
        HTTPException: It is no form, or of another server than this one.
    """
    body = await request.body()
    try:
        pairs = parse_qsl(body.decode("utf-8"), keep_blank_values=True, strict_parsing=bool(body), max_num_fields=MOST_FIELDS)  # fmt: skip
    except ValueError:
        raise HTTPException(400, "What was sent is no form of this page.") from None
    given = {name: value.replace("\r\n", "\n") for name, value in pairs}
    if not compare_digest(given.get("token", "").encode(), request.app.state.token.encode()):
        raise HTTPException(403, "The page you sent this from is older than this server. Go back, load it again, then send it.")  # fmt: skip
    return given


def back_to(form: Mapping[str, str]) -> RedirectResponse:
    """To the page a form was sent from; never anywhere else."""
    back = form.get("back", "/")
    inside = back.startswith("/") and back[1:2] not in ("/", "\\") and back.isprintable()
    return RedirectResponse(back if inside else "/", status_code=303)


def with_answer(leaf: WithAnswer) -> Callable[[Request], Awaitable[Response]]:
    """A leaf that shows an answer: until there is one, the page says how far it is.

    Example:
        >>> @with_answer
        ... async def money(request, state, answer):
        ...     return page(request, state, "money.html", {})
    """

    async def shown(request: Request) -> Response:
        state = desk_of(request).state
        if state.path is None and state.answer is None:
            return RedirectResponse("/letter", status_code=303)
        if state.answer is None:
            return page(request, state, "unworked.html", {})
        return await leaf(request, state, state.answer)

    return shown


def page(
    request: Request, state: State, template: str, words: dict[str, Any], status: int = 200
) -> HTMLResponse:
    """A whole page; every page has the name, the contents sentence and the choices of the device.

    Args:
        request: What was asked.
        state: The state the words were made from.
        template: Its file in `templates`.
        words: What the template shows.
        status: Of the reply.
    """
    desk = cast("Desk", request.app.state.desk)
    entries = (
        request.app.state.contents if state.path is not None or state.answer is not None else ()
    )
    we_are = state.owners.homestead.we_are if state.owners else ""
    entries = tuple(sorted(entries, key=lambda entry: entry.place_when(we_are)))
    common = {
        "state": state,
        "answer": state.answer,
        "style": style_of(request, state),
        "device": device_of(request),
        "here": request.url.path,
        "contents": entries,
        "job": desk.jobs.job(ANSWER),
        "token": request.app.state.token,
        "boot": request.app.state.boot,
        "conflict": False,
    }
    html = templates().get_template(template).render(**{**common, **words})
    return HTMLResponse(unparted(html), status_code=status)


@lru_cache(maxsize=1)
def templates() -> Environment:
    """Every template of the page."""
    made = Environment(
        loader=PackageLoader("polestead.web", "templates"),
        autoescape=select_autoescape(),
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    made.globals["terms"] = terms
    made.filters |= {
        "slug": term_slug,
        "place_of": place_of,
        "called": called,
        "plainly": plainly,
        "spanned": spanned,
        "signed": signed,
    }
    return made
