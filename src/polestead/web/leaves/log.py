"""The log: chores due, a line to write, the last entries and how one is withdrawn, the whole of it to take away."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import date, datetime, timedelta
from pathlib import Path
from typing import Any

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response
from starlette.routing import Route

from polestead.base.problem import Problem, Wrong
from polestead.base.show import Style
from polestead.build.chores import chore_words
from polestead.daybook.chores import Due, due_soon
from polestead.daybook.daybook import Kept, empty_daybook, open_daybook
from polestead.daybook.days import days, gaps
from polestead.daybook.entry import Entry
from polestead.daybook.keeping import exported
from polestead.daybook.words import machine_offset, moment_of, read_line
from polestead.homestead.read import OwnersFile
from polestead.sheets.log import (
    CLOCK,
    beside_told,
    due_words,
    entry_words,
    gap_words,
    moment_words,
)
from polestead.sheets.owners_log import dues_in, house_in, known_in, unproved_rod
from polestead.web.contents import Entry as Word
from polestead.web.desk import State
from polestead.web.render import back_to, desk_of, form_of, page, style_of
from polestead.web.seen_form import told_beside
from polestead.web.window import Window, new_once, window_of

SHOWN = 20
TAUGHT = "taught"
MOST = 2000
LONGEST = 2500


async def leaf(request: Request) -> Response:
    """The last entries and what is due."""
    return await _shown(request, {}, 200)


async def _shown(request: Request, more: dict[str, Any], status: int) -> Response:
    state = desk_of(request).state
    if state.path is None or state.owners is None:
        return RedirectResponse("/letter" if state.path is None else "/file/wrong", status_code=303)
    asked = request.query_params.get("last", "")
    last = min(int(asked), MOST) if asked.isascii() and asked.isdigit() and len(asked) < 6 else SHOWN  # fmt: skip
    words = {"here": "/log", "form": {}, "wrong": (), "told": (), "strike_wrong": {}, "strike_said": {}, "once": new_once(), "last": last}  # fmt: skip
    found = await run_in_threadpool(_words, window_of(request), state, state.owners, desk_of(request).now().date(), style_of(request, state), last)  # fmt: skip
    return page(request, state, "log.html", {**words, **found, **_taught(request, state), **more}, status)  # fmt: skip


def _words(window: Window, state: State, owners: OwnersFile, today: date, style: Style, last: int) -> dict[str, Any]:  # fmt: skip
    try:
        with window.looks(state) as book:
            every = book.entries(struck=True)
            due = dues_in(book, owners, today)
    except Wrong as wrong:
        return {"fault": [told_beside(one) for one in wrong.problems], "entries": [], "missing": [], "soon": [], "later": [], "all": 0}  # fmt: skip
    kept = every[-last:] if last else ()
    soon = due_soon(due, today)
    return {
        "fault": [],
        "entries": [_entry(one, style) for one in reversed(kept)],
        "missing": _missing(kept, today),
        "soon": [_due(one, today) for one in soon],
        "later": [_due(one, today) for one in due if one not in soon],
        "all": len(every),
    }


def read_taught(owners: OwnersFile, book: Path, today: date, style: Style, progress: Callable[[str, int, int], None]) -> tuple[str, int, str]:  # fmt: skip
    """What the log teaches, in the terminal's own words, off the request; with the file and the last entry it was read from."""
    from polestead.daybook.teaching.expected import taught_from
    from polestead.sheets.teaching import taught_text

    progress("the log against the house's skies", 0, 1)
    with open_daybook(book) if book.exists() else empty_daybook() as daybook:
        every = daybook.entries(struck=True)
    counted = [one for one in every if one.struck is None]
    return owners.fingerprint, len(every), taught_text(taught_from(owners, counted, today), style)


def _taught(request: Request, state: State) -> dict[str, Any]:
    """What was read of the log, and whether it is being read."""
    job = desk_of(request).jobs.job(TAUGHT)
    own = job is not None and job.stage == "done" and state.owners is not None and job.result[0] == state.owners.fingerprint  # fmt: skip
    return {
        "teaches": job.result[2] if own and job is not None else "",
        "teaches_of": job.result[1] if own and job is not None else 0,
        "reading": job if job is not None and not job.over else None,
        "unread": [told_beside(one) for one in job.problems] + ([job.fault] if job.fault else []) if job is not None and job.over and job.stage != "done" else [],
    }  # fmt: skip


async def teaches(request: Request) -> Response:
    """Read the log for what it teaches; some seconds, beside the page."""
    form = await form_of(request)
    desk, window = desk_of(request), window_of(request)
    state = desk.state
    if state.path is None or state.owners is None:
        return RedirectResponse("/letter", status_code=303)
    desk.work(TAUGHT, read_taught, state.owners, window.daybook(state), desk.now().date(), style_of(request, state))  # fmt: skip
    return back_to(form)


def _missing(kept: Sequence[Kept], today: date) -> list[str]:
    if not kept:
        return []
    since = min(one.entry.moment.day for one in kept)
    counted = [one for one in kept if one.struck is None]
    return [gap_words(gap) for gap in gaps(days(counted, since, today - timedelta(days=1)))]


def _entry(one: Kept, style: Style) -> dict[str, Any]:
    return {"number": one.number, "when": moment_words(one.entry.moment), "words": entry_words(one.entry, style), "struck": one.struck}  # fmt: skip


def _due(one: Due, today: date) -> dict[str, Any]:
    left = one.days_left(today)
    return {"key": one.chore.key, "name": one.chore.name, "why": one.chore.why, "how": one.chore.words, "when": due_words(one, today), "over": left is not None and left <= 0}  # fmt: skip


async def line(request: Request) -> Response:
    """One line of his words; what is wrong with it is told beside it, and nothing is written then."""
    form = await form_of(request)
    desk, window = desk_of(request), window_of(request)
    state = desk.state
    if state.path is None or state.owners is None:
        return RedirectResponse("/letter", status_code=303)
    try:
        told = await run_in_threadpool(_write, window, state, state.owners, form, desk.now(), style_of(request, state))  # fmt: skip
    except Wrong as wrong:
        return await _shown(request, {"form": form, "wrong": [told_beside(one) for one in wrong.problems]}, 422)  # fmt: skip
    return await _shown(request, {"told": told}, 200)


def _write(window: Window, state: State, owners: OwnersFile, form: dict[str, str], now: datetime, style: Style) -> list[str]:  # fmt: skip
    words = form.get("words", "")
    if len(words) > LONGEST:
        raise Wrong([Problem("", "line", f"{len(words)} signs", f"up to {LONGEST} signs", "Shorten it.")])  # fmt: skip
    moment, clock = moment_of(form.get("on", "").strip() or None, form.get("at", "").strip() or None, now, machine_offset)  # fmt: skip
    house = house_in(owners, style)
    heard = read_line(words, moment, known_in(owners), now, house, "page")
    written = window.write(state, heard.entry, now, style, form.get("once") or new_once())
    if written is None:
        return ["This line was sent twice; it stands there once."]
    said = f"{moment_words(written.entry.moment)}: {entry_words(written.entry, style)}."
    head = f"Kept, entry {written.number}. {said}" if written.new else f"Written already, as entry {written.number}; nothing was added. {said}"  # fmt: skip
    more = [*heard.told, *unproved_rod(heard.entry, owners), *(beside_told(one, style) for one in written.beside)]  # fmt: skip
    return [head, *more, *([CLOCK[clock]] if CLOCK[clock] else [])]


async def strike(request: Request) -> Response:
    """Withdraw an entry; it stays, with the reason."""
    form = await form_of(request)
    desk, window = desk_of(request), window_of(request)
    state, given = desk.state, form.get("number", "")
    number = int(given) if given.isascii() and given.isdigit() and len(given) < 10 else 0
    if state.path is None or state.owners is None:
        return RedirectResponse("/letter", status_code=303)
    try:
        await run_in_threadpool(_strike, window, state, number, form.get("why", "")[:300], desk.now())  # fmt: skip
    except Wrong as wrong:
        said = [told_beside(one) for one in wrong.problems]
        return await _shown(request, {"strike_wrong": {number: said}, "strike_said": {number: form.get("why", "")}, "told": () if number else said}, 422)  # fmt: skip
    return await _shown(request, {"told": [f"Struck, entry {number}: it stays and counts no more."]}, 200)  # fmt: skip


def _strike(window: Window, state: State, number: int, why: str, now: datetime) -> None:
    with window.looks(state) as book:
        book.strike(number, why, now)


async def done(request: Request) -> Response:
    """A chore was done today."""
    form = await form_of(request)
    desk, window = desk_of(request), window_of(request)
    state, key = desk.state, form.get("chore", "")
    if state.path is None or state.owners is None:
        return RedirectResponse("/letter", status_code=303)
    now = desk.now()
    if key not in chore_words().values():
        return await _shown(request, {"told": ["There is no such chore."]}, 422)
    entry = Entry(moment_of(None, None, now, machine_offset)[0], done=(key,), written=f"done {key}", whence="page")  # fmt: skip
    try:
        written = await run_in_threadpool(window.write, state, entry, now, style_of(request, state), form.get("once") or new_once())  # fmt: skip
    except Wrong as wrong:
        return await _shown(request, {"told": [told_beside(one) for one in wrong.problems]}, 422)
    said = (
        f"Done today: {key}."
        if written is not None
        else "This was sent twice; it stands there once."
    )
    return await _shown(request, {"told": [said]}, 200)


async def take(request: Request) -> Response:
    """The whole daybook as CSV; it comes back without loss."""
    state = desk_of(request).state
    if state.path is None:
        return RedirectResponse("/letter", status_code=303)
    try:
        content = await run_in_threadpool(_export, window_of(request), state)
    except Wrong as wrong:
        return await _shown(request, {"told": [told_beside(one) for one in wrong.problems]}, 422)
    return Response(content, media_type="text/csv; charset=utf-8", headers={"content-disposition": 'attachment; filename="daybook.csv"'})  # fmt: skip


def _export(window: Window, state: State) -> bytes:
    with window.looks(state) as book:
        return exported(book.entries(struck=True))


ROUTES = (
    Route("/log", leaf),
    Route("/log/line", line, methods=["POST"]),
    Route("/log/strike", strike, methods=["POST"]),
    Route("/log/done", done, methods=["POST"]),
    Route("/log/taught", teaches, methods=["POST"]),
    Route("/log/daybook.csv", take),
)
CONTENTS = (Word("log", "/log", 191, lived_in=6),)
