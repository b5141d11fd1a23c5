"""Winter and engine: the year, the worst fortnight, whether this looks like your house, ways of tipping."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from polestead.answer.answer import Answer
from polestead.sheets.book.blocks import Block, Section
from polestead.sheets.book.matter import Matter
from polestead.sheets.book.years import habits, likeness, winter
from polestead.web.contents import Entry
from polestead.web.desk import State
from polestead.web.matter import matter_for
from polestead.web.render import page, with_answer


@with_answer
async def leaf(request: Request, state: State, answer: Answer) -> Response:
    """The second answer at length."""
    matter = matter_for(request, state, answer)
    sections = await run_in_threadpool(_sections, matter)
    return page(request, state, "winter.html", {"title": "winter", "heading": "Winter and engine", "sections": sections})  # fmt: skip


def _sections(matter: Matter) -> list[tuple[str, Section]]:
    return [
        ("year", winter(matter)),
        ("house", likeness(matter)),
        ("tipping", _named_first(habits(matter))),
    ]


def _named_first(section: Section) -> Section:
    """Each way of tipping under its own words; the number that several share comes after them."""
    return replace(section, blocks=tuple(_turned(one) if "how" in one.get("heads", ())[1:2] else one for one in section.blocks))  # fmt: skip


def _turned(table: Block) -> Block:
    def turned(row: Sequence[str]) -> tuple[str, ...]:
        return (row[1], row[0], *row[2:])

    heads = turned(table["heads"])
    return {**table, "heads": (heads[0], "number", *heads[2:]), "rows": [turned(row) for row in table["rows"]]}  # fmt: skip


ROUTES = (Route("/winter", leaf),)
CONTENTS = (Entry("winter", "/winter", 130),)
