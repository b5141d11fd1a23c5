"""The book: make each leaf, and take it away."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, datetime
from pathlib import Path
from typing import Any, cast

from starlette.requests import Request
from starlette.responses import PlainTextResponse, Response
from starlette.routing import Route

from polestead.answer.answer import Answer
from polestead.answer.cards import cards_only
from polestead.answer.drawables import drawables_of
from polestead.base.show import Style
from polestead.homestead.read import OwnersFile
from polestead.morning.week import week_of
from polestead.sheets.book.book import LEAVES, matter_of
from polestead.sheets.leaf import Paper
from polestead.sheets.named import PHONE, TEMPLATES, WEEK
from polestead.sheets.shelf import made
from polestead.web.contents import Entry
from polestead.web.desk import State
from polestead.web.render import back_to, desk_of, form_of, page, style_of, with_answer
from polestead.web.window import basis_for, kept_of

PAPERS = ("letter", "a4")
LISTED = {name: title for name, (title, _) in LEAVES.items()} | {TEMPLATES: "drill templates at 1:1, and plates as DXF", PHONE: "the phone file"}  # fmt: skip
KINDS = {".pdf": "application/pdf", ".html": "text/html; charset=utf-8", ".dxf": "image/vnd.dxf"}
Files = dict[str, bytes]


def worked(
    owners: OwnersFile,
    answer: Answer,
    name: str,
    style: Style,
    paper: Paper,
    on: date | None,
    kept: Path,
    progress: Callable[[str, int, int], None],
) -> tuple[str, str, str, Files]:
    """One leaf with all its files, off the request."""
    progress(LISTED[name], 0, 1)
    drawn = drawables_of(owners, answer.stand, style)
    cards = cards_only(owners, on, stand=answer.stand, style=style)
    week = None
    if name in (WEEK, PHONE):
        at = on or date.today()
        week = week_of(
            basis_for(owners, kept, progress), datetime(at.year, at.month, at.day), style
        )
    matter = matter_of(owners, answer, style, paper, on, cards, drawn, week=week)
    files: Files = {}
    for words, file, make in made((name,), matter, drawn):
        progress(words, len(files), len(files) + 1)
        files[file] = make()
    return owners.fingerprint, style, paper, files


@with_answer
async def leaf(request: Request, state: State, answer: Answer) -> Response:
    """The list of leaves, each to be made and taken away."""
    desk = desk_of(request)
    style = style_of(request, state)
    paper = _paper(request, style)
    rows = [_row(name, title, desk.jobs.job(f"leaf-{name}"), answer, style, paper) for name, title in LISTED.items()]  # fmt: skip
    return page(request, state, "book.html", {"rows": rows, "paper": paper, "papers": PAPERS})


def _paper(request: Request, style: Style) -> Paper:
    asked = request.query_params.get("paper", "")
    return cast("Paper", asked if asked in PAPERS else "letter" if style == "feet" else "a4")


def _row(name: str, title: str, job: Any, answer: Answer, style: Style, paper: Paper) -> dict[str, Any]:  # fmt: skip
    done = job is not None and job.stage == "done" and job.result[:3] == (answer.fingerprint, style, paper)  # fmt: skip
    return {
        "name": name,
        "title": f"{title[0].upper()}{title[1:]}",
        "files": list(job.result[3]) if done else [],
        "job": job if job is not None and not job.over else None,
        "fault": job.fault if job is not None and job.stage == "failed" else "",
    }


async def make(request: Request) -> Response:
    """Begin one leaf."""
    form = await form_of(request)
    desk = desk_of(request)
    state = desk.state
    name, paper = form.get("leaf", ""), form.get("paper", "")
    if name not in LISTED or paper not in PAPERS:
        return PlainTextResponse("There is no such leaf or paper.", status_code=400)
    if state.answer is not None and state.owners is not None and not state.stale:
        style = style_of(request, state)
        desk.work(f"leaf-{name}", worked, state.owners, state.answer, name, style, cast("Paper", paper), None, kept_of(state, state.owners))  # fmt: skip
    return back_to(form)


async def take(request: Request) -> Response:
    """One file of a leaf that was made."""
    name, file = request.path_params["leaf"], request.path_params["file"]
    job = desk_of(request).jobs.job(f"leaf-{name}")
    files: Files = job.result[3] if job is not None and job.stage == "done" else {}
    if file not in files:
        return PlainTextResponse("This leaf is not made yet. Make it at /book.", status_code=404)
    last = file.rpartition("/")[2]
    kind = KINDS.get("." + last.rpartition(".")[2], "application/octet-stream")
    return Response(files[file], media_type=kind, headers={"content-disposition": f'attachment; filename="{last}"'})  # fmt: skip


ROUTES = (
    Route("/book", leaf),
    Route("/book/make", make, methods=["POST"]),
    Route("/book/take/{leaf}/{file:path}", take),
)
CONTENTS = (Entry("book", "/book", 180),)
