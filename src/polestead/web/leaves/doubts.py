"""The doubts: what nobody has confirmed, ranked by how far it moves the answers, each with the act that settles it."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from polestead.answer.answer import Answer
from polestead.base.row import Row
from polestead.base.show import Style
from polestead.homestead.model import Homestead
from polestead.homestead.read import OwnersFile
from polestead.offers.doubts import RANKED, Ranked, doubts_of, ranked
from polestead.offers.reach import path_of
from polestead.sheets.doubts import doubt_name, doubt_span, matters, reach_words
from polestead.web.contents import Entry
from polestead.web.desk import Desk, State
from polestead.web.places import place_of_path
from polestead.web.render import back_to, desk_of, form_of, page, style_of, with_answer
from polestead.web.work import Job

NAME = "doubts"
Found = tuple[str, tuple[Ranked, ...]]  # fingerprint of the file, its doubts


def worked(
    owners: OwnersFile, text: str, seed: int, progress: Callable[[str, int, int], None]
) -> Found:
    """The doubts of a text, off the request."""
    return owners.fingerprint, ranked(owners, text, seed, progress)


@with_answer
async def doubts(request: Request, state: State, answer: Answer) -> Response:
    """The whole list; it is begun when somebody looks, and begun again when the file is another."""
    job = _begun(desk_of(request), state, answer)
    found = found_in(job, state)
    words = {
        "working": job if job is not None and not job.over else None,
        "stopped": job is not None and job.over and found is None,
        "much": [_told(one, state, style_of(request, state)) for one in found or () if matters(one)],
        "little": [_named(one.doubt.row, state) for one in found or () if one.reach and not matters(one)],
        "without": [_named(one.doubt.row, state) for one in found or () if one.reach is None and one.doubt.row.standing == "assumed"],
        "unranked": [] if found else [_named(one.row, state) for one in doubts_of(answer.rows) if one.row.standing == "assumed"],
        "order": RANKED,
        "defaults": sum(row.standing == "default" for row in answer.rows),
    }  # fmt: skip
    return page(request, state, "doubts.html", words)


async def start(request: Request) -> Response:
    """Work them out."""
    form = await form_of(request)
    desk = desk_of(request)
    state = desk.state
    if state.answer is not None and state.owners is not None:
        desk.work(NAME, worked, state.owners, state.text, state.answer.seed)
    return back_to(form)


def _begun(desk: Desk, state: State, answer: Answer) -> Job | None:
    """The job of this text: begun where none was, or where the last one was of another text; not where it was stopped."""
    job = desk.jobs.job(NAME)
    older = job is not None and job.stage == "done" and found_in(job, state) is None
    if (job is None or older) and state.owners is not None:
        return desk.work(NAME, worked, state.owners, state.text, answer.seed)
    return job


def aside(desk: Desk) -> bool:
    """Begin the ranking where none is of this text; not where the owner stopped it, or where it failed."""
    state, job = desk.state, desk.jobs.job(NAME)
    if state.owners is None or state.answer is None or found_in(job, state) is not None:
        return False
    if job is not None and job.stage != "done" and not desk.put_off(NAME):
        return False
    desk.work_aside(NAME, worked, state.owners, state.text, state.answer.seed)
    return True


def found_in(job: Job | None, state: State) -> tuple[Ranked, ...] | None:
    """The ranked doubts of the text that lies here; None while they are not worked."""
    if job is None or job.stage != "done" or state.owners is None:
        return None
    fingerprint, found = job.result
    return tuple(found) if fingerprint == state.owners.fingerprint else None


def _told(one: Ranked, state: State, style: Style) -> dict[str, Any]:
    reach = one.reach
    return {
        **_named(one.doubt.row, state),
        "span": doubt_span(one),
        "moves": [] if reach is None else list(reach_words(reach, style)),
        "turns": reach is not None and reach.turns,
        "act": one.act,
        "trap": one.doubt.trap,
        "source": "" if reach is None else str(reach.span.source),
        "why": one.doubt.row.why,
    }


def _named(row: Row, state: State) -> dict[str, str]:
    return {"name": doubt_name(row), "written": row.told, "href": href_of(row, state)}


def href_of(row: Row, state: State) -> str:
    """The field of a row."""
    home: Homestead | None = state.owners.homestead if state.owners else None
    try:
        return "/file" if home is None else place_of_path(path_of(home, row))
    except KeyError:
        return "/file"


ASIDE = (2, aside)
ROUTES = (Route("/doubts", doubts), Route("/doubts/start", start, methods=["POST"]))
CONTENTS = (Entry("doubts", "/doubts", 110),)
