"""Wires: one-line and string map, what guards them, labels, battery, trench, sizes, the test form; the trade table when it is asked for."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from polestead.answer.answer import Answer
from polestead.answer.wires import Wires, wires_in
from polestead.homestead.read import OwnersFile
from polestead.sheets.book import wired
from polestead.sheets.book.blocks import Section
from polestead.sheets.book.matter import Matter
from polestead.sheets.book.wired import from_lines
from polestead.sheets.sentences import use_of
from polestead.sheets.wires.page import parts
from polestead.web.contents import Entry
from polestead.web.cures import cure_place
from polestead.web.desk import State
from polestead.web.matter import matter_for
from polestead.web.render import back_to, desk_of, form_of, page, with_answer

NAME = "wires"
OVER_YEARS = {"strings": "Every layout on every controller", "run": "Sizes, their loss over the years, and the trade", "drive": "The tilt drive's own supply, through the winters"}  # fmt: skip

FOLDED = {
    "guards": "Each switch, breaker, fuse and arrestor: where it sits, what its label must say, what to ask; then the rules that hold here or do not.",
    "labels": "Each plate in its own words, and where it is fixed.",
    "battery": "Main fuse and switch, the one bond to earth, charging currents, hydrogen and fresh air.",
    "trench": "What lies in it from the bottom up, how deep, and what crosses it.",
    "sizes": "Each size of wire: what it carries, what it loses.",
    "test": "The form, in its order: nothing is closed before all of it has passed.",
    "years-strings": "Every layout of new and old modules, and why it may or may not be.",
    "years-run": "What each size loses over the years, and what that is worth.",
    "years-drive": "How often its supply is empty, and what it then needs.",
}  # the verdict, the drawing and the layout lie open


def worked(owners: OwnersFile, seed: int, progress: Callable[[str, int, int], None]) -> tuple[str, Wires]:  # fmt: skip
    """Layouts, losses of the years and the drive's winters, off the request."""
    progress("layouts, losses and the drive's winters", 0, 1)
    return owners.fingerprint, wires_in(owners, seed, None, None)


@with_answer
async def leaf(request: Request, state: State, answer: Answer) -> Response:
    """From the modules to the battery."""
    matter = matter_for(request, state, answer)
    job = desk_of(request).jobs.job(NAME)
    done = job is not None and job.stage == "done" and job.result[0] == answer.fingerprint
    more = list(_over_years(job.result[1], matter)) if done and job is not None else []
    return page(request, state, "wires.html", {
        "title": "wires",
        "heading": "Wires, from the modules to the battery",
        "sections": [*await run_in_threadpool(list, _sections(matter)), *more],
        "folded": FOLDED,
        "broken": [(_broken(check), cure_place(check)) for check in answer.wiring.checks if not check.holds],
        "working": job if job is not None and not job.over else None,
        "done": done,
    })  # fmt: skip


def _broken(check: Any) -> str:
    return f"{check.part}, {check.name}: {use_of(check.use)}"


def _sections(matter: Matter) -> Iterator[tuple[str, Section]]:
    every = (
        ("one-line", wired.one_line_page), ("strings", wired.layout), ("guards", wired.guards), ("labels", wired.label_page),
        ("battery", wired.bank_page), ("trench", wired.trench_page), ("sizes", wired.sizes_page), ("test", wired.test_form),
    )  # fmt: skip
    for name, make in every:
        found = make(matter)
        if found is not None:
            yield name, found


def _over_years(wires: Wires, matter: Matter) -> Iterator[tuple[str, Section]]:
    told = parts(wires, matter.answer.money.currency, matter.style)
    for name, title in OVER_YEARS.items():
        yield f"years-{name}", Section(title, tuple(from_lines(told[name])))


async def start(request: Request) -> Response:
    """Work the layouts and the years out."""
    form = await form_of(request)
    desk = desk_of(request)
    state = desk.state
    if state.answer is not None and state.owners is not None and not state.stale:
        desk.work(NAME, worked, state.owners, state.answer.seed)
    return back_to(form)


ROUTES = (Route("/wires", leaf), Route("/wires/years", start, methods=["POST"]))
CONTENTS = (Entry("wires", "/wires", 140),)
