"""The sheet: the drawing, the three answers, gusts, the year, what was checked."""

from __future__ import annotations

from typing import Any

from starlette.requests import Request
from starlette.responses import Response
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
from polestead.web.contents import Entry
from polestead.web.desk import State
from polestead.web.render import page, style_of, with_answer


@with_answer
async def sheet(request: Request, state: State, answer: Answer) -> Response:
    """The whole sheet."""
    return page(request, state, "sheet.html", _words(answer, style_of(request, state)))


def _words(answer: Answer, style: Style) -> dict[str, Any]:
    steepest = max(answer.schedule.moves, key=lambda move: move[1])[1]
    card = answer.stand.card
    doubts = doubts_of(answer.rows)
    return {
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


ROUTES = (Route("/", sheet),)
CONTENTS = (
    Entry("drawing", "/#drawing", 10), Entry("gusts", "/#gusts", 20), Entry("habits", "/#habits", 40),
    Entry("doubts", "/#doubts", 50),
)  # fmt: skip
