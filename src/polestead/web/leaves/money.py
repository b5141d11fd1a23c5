"""Money: the ledger, what a year saves, winters until paid, build or buy, and what else the money might do."""

from __future__ import annotations

from collections.abc import Callable

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from polestead.answer.answer import Answer
from polestead.answer.instead import Instead, instead_of
from polestead.homestead.read import OwnersFile
from polestead.sheets.book.years import bankers, instead_section, money
from polestead.sheets.sentences import priced
from polestead.web.contents import Entry
from polestead.web.desk import State
from polestead.web.matter import matter_for
from polestead.web.render import back_to, desk_of, form_of, page, with_answer

NAME = "instead"


def worked(
    owners: OwnersFile, answer: Answer, progress: Callable[[str, int, int], None]
) -> tuple[str, tuple[Instead, ...]]:
    """The house run with each change, off the request."""
    progress("the same years with each change", 0, 1)
    return owners.fingerprint, instead_of(owners, answer)


@with_answer
async def leaf(request: Request, state: State, answer: Answer) -> Response:
    """The third answer at length."""
    matter = matter_for(request, state, answer)
    job = desk_of(request).jobs.job(NAME)
    sections = [("ledger", money(matter)), ("worth", bankers(matter))]
    done = job is not None and job.stage == "done" and job.result[0] == answer.fingerprint
    if done and job is not None:
        sections.append(("instead", instead_section(matter, job.result[1])))
    return page(request, state, "money.html", {
        "title": "money",
        "heading": "What it costs, and what it saves",
        "sections": sections,
        "working": job if job is not None and not job.over else None,
        "done": done,
        "unpriced": not priced(answer),
    })  # fmt: skip


async def start(request: Request) -> Response:
    """Work out what else the money might do."""
    form = await form_of(request)
    desk = desk_of(request)
    state = desk.state
    if state.answer is not None and state.owners is not None and not state.stale:
        desk.work(NAME, worked, state.owners, state.answer)
    return back_to(form)


ROUTES = (Route("/money", leaf), Route("/money/instead", start, methods=["POST"]))
CONTENTS = (Entry("money", "/money", 170),)
