"""Stand: the verdict, the card's stances, every check with its working, what is half built."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from polestead.answer.answer import Answer
from polestead.base.check import Check
from polestead.base.show import Style
from polestead.sheets.book.book import gauge_in
from polestead.sheets.book.gusts import beside_the_card, tape_table
from polestead.sheets.book.leaves import ladder_block
from polestead.sheets.book.matter import Matter
from polestead.sheets.sentences import helps_most, three_answers, use_of
from polestead.web.contents import Entry
from polestead.web.cures import cure_place
from polestead.web.desk import State
from polestead.web.matter import matter_for
from polestead.web.render import page, with_answer


@with_answer
async def leaf(request: Request, state: State, answer: Answer) -> Response:
    """The first answer at length."""
    matter = matter_for(request, state, answer)
    said = three_answers(answer, matter.style)[0]
    return page(request, state, "stand.html", {
        "title": "stand",
        "heading": " ".join((said.question, said.answer)),
        "said": said.beside,
        "helps": helps_most(answer, matter.style),
        "sections": [("beside", await run_in_threadpool(beside_the_card, matter)), ("tape", tape_table(gauge_in(matter), matter.style))],
        "by_the_code": len(answer.stand.checks),
        "checks": await run_in_threadpool(list, _checks(matter)),
    })  # fmt: skip


def _checks(matter: Matter) -> Iterator[dict[str, Any]]:
    stand = matter.answer.stand
    fits = sorted(stand.geometry_checks, key=lambda check: -check.use)
    for check in (*stand.checks, *fits):
        yield _told(check, matter.style)


def _told(check: Check, style: Style) -> dict[str, Any]:
    _, ladder = ladder_block(("", check), style)
    return {"part": check.part, "name": check.name, "use": use_of(check.use), "gives": not check.holds, "cure": cure_place(check), "ladder": ladder}  # fmt: skip


ROUTES = (Route("/stand", leaf),)
CONTENTS = (Entry("stand", "/stand", 125),)
