"""Spots: the view from each with the sun over it, the same day at each, and what each brings and costs."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from polestead.answer.answer import Answer
from polestead.answer.views import DRAWN, SpotView, views_of
from polestead.base.show import Style
from polestead.sheets.spots import spot_words, trees_words
from polestead.sheets.svg import SCREEN
from polestead.sheets.view import clear_sentence, day_bars, stretch_words, view_picture
from polestead.web.contents import Entry
from polestead.web.desk import State
from polestead.web.render import page, style_of, with_answer

WIDTHS = (("wide", 802.0), ("mid", 720.0), ("narrow", 358.0))


@with_answer
async def spots(request: Request, state: State, answer: Answer) -> Response:
    """The view from one spot, and all spots beside it."""
    style = style_of(request, state)
    views = views_of(state.owners.homestead) if state.owners else ()
    asked = request.query_params.get("from", DRAWN)
    seen = next((one for one in views if one.spot == asked), views[0])
    return page(request, state, "spots.html", {
        "seen": seen,
        "sentence": clear_sentence(seen.days[0]),
        "lost": [stretch_words(lost, style) for lost in seen.days[0].lost],
        "pictures": list(_pictures(seen, style)),
        "bars": list(_bars(views, style)),
        "spots": [_spot(one, answer, style) for one in views],
        "trees": trees_words(answer.trees) if answer.trees else "",
        "drawn": DRAWN,
    })  # fmt: skip


def _pictures(seen: SpotView, style: Style) -> Iterator[tuple[str, str]]:
    for name, width in WIDTHS:
        yield name, view_picture(seen, style, SCREEN, width)


def _bars(views: tuple[SpotView, ...], style: Style) -> Iterator[tuple[str, str]]:
    days = [(one.spot, one.days[0]) for one in views]
    for name, width in WIDTHS:
        yield name, day_bars(days, style, SCREEN, width)


def _spot(view: SpotView, answer: Answer, style: Style) -> dict[str, Any]:
    rank = next((one for one in answer.spots if one.name == view.spot), None)
    return {
        "name": view.spot,
        "rank": rank.rank if rank and not rank.breaks else None,
        "breaks": ", ".join(rank.breaks) if rank else "",
        "same": rank is not None and rank.same_as_best and rank.rank > 1,
        "words": spot_words(rank, style) if rank else "",
        "sun": clear_sentence(view.days[0]),
    }


ROUTES = (Route("/spots", spots),)
CONTENTS = (Entry("spots", "/spots", 120),)
