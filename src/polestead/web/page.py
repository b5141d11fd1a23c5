"""The app: one read-only sheet, closed to everything but this machine."""

from __future__ import annotations

from functools import partial
from importlib.resources import files
from typing import Any

from jinja2 import Environment, PackageLoader, select_autoescape
from starlette.applications import Starlette
from starlette.middleware import Middleware
from starlette.middleware.trustedhost import TrustedHostMiddleware
from starlette.requests import Request
from starlette.responses import HTMLResponse, PlainTextResponse, Response
from starlette.routing import Route

from polestead.answer.answer import Answer
from polestead.base.show import Style, gust
from polestead.offers.doubts import doubts_of
from polestead.sheets.charts import gust_card
from polestead.sheets.elevation import elevation, elevation_with_keys
from polestead.sheets.sentences import failing, fault_of, helps_most, three_answers, use_of
from polestead.sheets.svg import SCREEN
from polestead.sheets.text import moves_words
from polestead.sheets.year import year_picture

CLOSED = {
    "Content-Security-Policy": "default-src 'none'; style-src 'self'; img-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'",
    "X-Content-Type-Options": "nosniff",
    "Referrer-Policy": "no-referrer",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cache-Control": "no-store",
}
HOSTS = ["127.0.0.1", "localhost"]


def sheet_app(answer: Answer, style: Style) -> Starlette:
    """The page of one answer.

    Args:
        answer: What it shows.
        style: In which units.
    """
    html = _html(answer, style)
    css = files("polestead.web").joinpath("static", "sheet.css").read_text(encoding="utf-8")
    routes = [
        Route("/", partial(_give, HTMLResponse(html, headers=CLOSED))),
        Route("/favicon.ico", partial(_give, Response(status_code=204, headers=CLOSED))),
        Route("/sheet.css", partial(_give, Response(css, media_type="text/css", headers=CLOSED))),
    ]
    return Starlette(
        routes=routes,
        middleware=[Middleware(TrustedHostMiddleware, allowed_hosts=HOSTS)],
        exception_handlers={404: _nothing_here},
    )


async def _give(response: Response, _: Request) -> Response:
    return response


async def _nothing_here(_: Request, __: Exception) -> Response:
    return PlainTextResponse(
        "There is nothing here; the sheet is at /", status_code=404, headers=CLOSED
    )


def _html(answer: Answer, style: Style) -> str:
    loader = PackageLoader("polestead.web", "templates")
    page = Environment(loader=loader, autoescape=select_autoescape()).get_template("sheet.html")
    return page.render(**_words(answer, style))


def _words(answer: Answer, style: Style) -> dict[str, Any]:
    steepest = max(answer.schedule.moves, key=lambda move: move[1])[1]
    card = answer.stand.card
    doubts = doubts_of(answer.rows)
    return {
        "answer": answer,
        "answers": three_answers(answer, style),
        "broken": [fault_of(answer, check) for check in failing(answer)],
        "elevation": elevation(answer, style, steepest, SCREEN, 802.0, 600.0),
        "keyed": elevation_with_keys(answer, style, steepest, SCREEN),
        "card": gust_card(answer.stand, style, SCREEN, 802.0, 380.0),
        "year": year_picture(answer, SCREEN),
        "rows": [row for row in card if round(row.tilt_deg) % 5 == 0 or row in (card[0], card[-1])],
        "gust": lambda speed: "–" if speed is None else gust(speed, style),
        "use_of": use_of,
        "helps_most": helps_most(answer, style),
        "moves_words": moves_words,
        "guesses": [doubt for doubt in doubts if doubt.row.standing == "assumed"],
        "defaults": [doubt for doubt in doubts if doubt.row.standing == "default"],
    }
