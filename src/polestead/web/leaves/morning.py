"""The morning: the line, why, the days ahead, three keys; and the leaf on which he says what he sees."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime, time
from functools import lru_cache
from typing import Any, cast

from starlette.concurrency import run_in_threadpool
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response
from starlette.routing import Route

from polestead.answer.stands import strongback_kg_of
from polestead.base.problem import Wrong
from polestead.base.show import Style
from polestead.daybook.daybook import Kept
from polestead.daybook.entry import Entry
from polestead.homestead.read import OwnersFile
from polestead.morning.basis import Basis
from polestead.morning.forecast.words import LONGEST
from polestead.morning.result import Morning
from polestead.mount.geometry import geometry_of
from polestead.sheets.charts_ahead import strip
from polestead.sheets.log import entry_words, moment_words
from polestead.sheets.morning import CAUTION, cautions_of, said, week_tables
from polestead.sheets.slip import slip_of
from polestead.sheets.small_side import small_side
from polestead.sheets.svg import SCREEN
from polestead.sheets.view import clock
from polestead.site.noon import sun_up_and_down_h
from polestead.web.contents import Entry as Word
from polestead.web.desk import Desk, State
from polestead.web.render import back_to, desk_of, form_of, page, style_of
from polestead.web.seen_form import Form, eye_choices, moment_now, read_form
from polestead.web.window import (
    NAME,
    Looked,
    Window,
    factor_of,
    kept_of,
    new_once,
    window_of,
    window_over,
    worked,
)
from polestead.web.work import Job

WIDTHS = (("phone", 358.0), ("desk", 680.0))
WHENCE = "page"
NEAR_H = (
    3.0  # so long before its hour the move for the night is taken to be the one that was done; ours
)


async def leaf(request: Request) -> Response:
    """The line of this minute."""
    state = desk_of(request).state
    if state.path is None or state.owners is None:
        return _without(request, state)
    window, desk = window_of(request), desk_of(request)
    basis, job = await run_in_threadpool(_basis, desk, window, state)
    working = job if job is not None and not job.over else None
    if basis is None:
        return page(request, state, "morning-first.html", {"working": working, "failed": job if job is not None and job.over else None})  # fmt: skip
    style = style_of(request, state)
    look = await run_in_threadpool(window.look, state, basis, desk.now(), style, _told(desk))
    number = request.query_params.get("kept", "")
    kept = int(number) if number.isascii() and number.isdigit() and len(number) < 10 else None
    words = await run_in_threadpool(_words, state, window, basis, look, style, kept)
    return page(request, state, "morning.html", {**words, "working": working})


def _without(request: Request, state: State) -> Response:
    if state.path is None:
        return RedirectResponse("/letter", status_code=303)
    return page(request, state, "morning-first.html", {"working": None, "failed": None})


def _told(desk: Desk) -> Callable[[], None]:
    return lambda: cast("None", desk.lay())


def _basis(desk: Desk, window: Window, state: State) -> tuple[Basis | None, Job | None]:
    """The basis, begun where there is none of this text; the older one while the newer is worked."""
    job = desk.jobs.job(NAME)
    found = window.basis(state, job)
    if found is not None:
        return found, None
    owners = cast("OwnersFile", state.owners)
    if not state.problems and (job is None or (job.stage == "done" and job.result[0] != owners.fingerprint)):  # fmt: skip
        job = desk.work(NAME, worked, owners, kept_of(state, owners), factor_of(state, owners))
        found = window.basis(state, job)
    return found or window.older(state), job


def aside(desk: Desk) -> bool:
    """Have the basis and this morning's line, so that the sheet knows the coming night's gust; no service is asked."""
    state, window, job = desk.state, window_over(desk), desk.jobs.job(NAME)
    if state.path is None or state.owners is None or state.problems:
        return False
    basis = window.basis(state, job)
    if basis is not None:
        if not window.due(state, desk.now()):
            return False
        window.look(state, basis, desk.now(), state.style, _told(desk), ask=False)
        desk.lay()
        return True
    older = job is not None and job.stage == "done"
    if job is not None and not older and not desk.put_off(NAME):
        return False
    desk.work_aside(NAME, worked, state.owners, kept_of(state, state.owners), factor_of(state, state.owners))  # fmt: skip
    return True


async def start(request: Request) -> Response:
    """Work the basis again, where it was stopped."""
    form = await form_of(request)
    desk = desk_of(request)
    state = desk.state
    if state.owners is not None and not state.problems:
        desk.work(NAME, worked, state.owners, kept_of(state, state.owners), factor_of(state, state.owners))  # fmt: skip
    return back_to(form)


# -- what is shown ---------------------------------------------------------------------------------------------------


def _words(state: State, window: Window, basis: Basis, look: Looked, style: Style, number: int | None) -> dict[str, Any]:  # fmt: skip
    line, owners = look.line, cast("OwnersFile", state.owners)
    before = None if number is None else window.before(number)
    kept = None if number is None else _entry(window, state, number)
    return {
        "line": line,
        "said": said(line, before),
        "head": _head(basis, line, style),
        "why": [slip_of(f"w-{nth}", one.text, one.working, style) for nth, one in enumerate(line.why, start=1)],
        "strips": [(name, strip(line, line.ahead, line.stands_to_m_s, style, SCREEN, width)) for name, width in WIDTHS] if line.ahead else [],
        "side": _side(owners, basis, look),
        "caution": cautions_of(line),
        "moves": line.stop or cautions_of(line) == CAUTION,
        "good_until": f"{clock((line.good_until - datetime.combine(line.good_until.date(), time())).total_seconds() / 3600.0, style)}{_half(line.good_until, style)}",
        "good_day": "" if line.good_until.date() == line.wall.date() else f"{line.good_until:%A} ",
        "done": _done(line),
        "once": new_once(),
        "kept": None if kept is None or kept.struck is not None else f"{moment_words(kept.entry.moment)}: {entry_words(kept.entry, style)}",
        "number": number,
        "week": week_tables(window.week(basis, line.wall.date(), style), style),
        "begun": window.daybook(state).exists(),
        "sent": "; ".join(one.text for one in line.sentences[:1]),
    }  # fmt: skip


def _entry(window: Window, state: State, number: int) -> Kept | None:
    try:
        with window.looks(state) as book:
            return next((one for one in book.entries(struck=True) if one.number == number), None)
    except Wrong:
        return None


def _half(at: datetime, style: Style) -> str:
    return "" if style == "metric" else " am" if at.hour < 12 else " pm"


def _head(basis: Basis, line: Morning, style: Style) -> dict[str, str]:
    facts, at = basis.facts, line.wall
    ahead_h = (line.wall - line.at).total_seconds() / 3600.0
    sun = _sun(facts.latitude_deg, facts.longitude_deg, facts.clock_offset_h, line.at.date())
    ups = (
        ""
        if sun is None
        else f"sun up {clock(sun[0] + ahead_h, style)} to {clock(sun[1] + ahead_h, style)}"
    )
    hour = (
        f"{at.hour}:{at:%M}"
        if style == "metric"
        else f"{(at.hour - 1) % 12 + 1}:{at:%M}{'' if at.hour < 12 else ' pm'}"
    )
    return {"day": f"{at:%a} {at.day} {at:%b}, {hour}", "sun": ups}


_sun = lru_cache(maxsize=8)(sun_up_and_down_h)  # the same all day


def _side(owners: OwnersFile, basis: Basis, look: Looked) -> str:
    """Today solid, tonight dashed where that is elsewhere."""
    file, line = owners.homestead, look.line
    shape = geometry_of(file.mount, file.array, strongback_kg_of(file.mount, file.array))
    lies = None if look.seen.lies is None else look.seen.lies.value
    today = line.move.to_deg if line.move is not None else lies
    night = line.tonight.tilt_deg if line.tonight is not None and line.tonight.by_h is not None else None  # fmt: skip
    return small_side(shape, today, night, "south" if basis.facts.latitude_deg >= 0.0 else "north", SCREEN)  # fmt: skip


def _done(line: Morning) -> dict[str, str] | None:
    """What the key writes down: the move told for now, near its hour the one for the night, else that it lies where it lies."""
    if line.firmest is not None and line.firmest.allowed:
        return {"tilt": f"{line.firmest.tilt_deg:g}", "words": f"it lies at {line.firmest.tilt_deg:.0f}"}  # fmt: skip
    if line.stop:
        return None
    if line.move is not None:
        return {"tilt": f"{line.move.to_deg:g}", "words": f"it lies at {line.move.to_deg:.0f}"}
    night = line.tonight
    if night is not None and night.by_h is not None and line.at.hour >= night.by_h - NEAR_H:
        return {"tilt": f"{night.tilt_deg:g}", "words": f"laid at {night.tilt_deg:.0f} for the night"}  # fmt: skip
    if line.stays_deg is not None:
        return {"tilt": f"{line.stays_deg:g}", "words": f"it lies at {line.stays_deg:.0f}"}
    return None


# -- what is kept ----------------------------------------------------------------------------------------------------


async def done(request: Request) -> Response:
    """It was moved as told: the tilt is written down."""
    form = await form_of(request)
    try:
        tilt = float(form.get("tilt", ""))
    except ValueError:
        raise HTTPException(400, "There is no tilt in this form.") from None
    return await _keep(request, form, lambda now: Entry(moment_now(now), tilt_deg=tilt, written=f"tilt {tilt:g}", whence=WHENCE))  # fmt: skip


async def not_moved(request: Request) -> Response:
    """It was not moved: a note says so."""
    form = await form_of(request)
    told = form.get("said", "")[:200].strip()
    note = f"Not moved. The line said: {told}" if told else "Not moved."
    return await _keep(request, form, lambda now: Entry(moment_now(now), note=note, whence=WHENCE))


async def _keep(request: Request, form: dict[str, str], made: Callable[[datetime], Entry]) -> Response:  # fmt: skip
    """Write one entry and go back to the line, with what it said before held on to."""
    desk, window = desk_of(request), window_of(request)
    state = desk.state
    if state.path is None or state.owners is None:
        return RedirectResponse("/letter", status_code=303)
    try:
        number = await run_in_threadpool(_write, desk, window, state, made, style_of(request, state), form.get("once", ""))  # fmt: skip
    except Wrong as wrong:
        return page(request, state, "told.html", {"here": "/morning", "said": " ".join(f"{one.key}: {one.given}; allowed: {one.allowed}. {one.do}" for one in wrong.problems)}, 422)  # fmt: skip
    return RedirectResponse(f"/morning?kept={number}", status_code=303)


def _write(desk: Desk, window: Window, state: State, made: Callable[[datetime], Entry], style: Style, once: str) -> int | None:  # fmt: skip
    now = desk.now()
    basis = window.basis(state, desk.jobs.job(NAME)) or window.older(state)
    before = None if basis is None else window.look(state, basis, now, style, _told(desk)).line
    written = window.write(state, made(now), now, style, once or new_once())
    if written is None:
        return window.entry_of(once)
    if before is not None:
        window.said_before(written.number, tuple(one.text for one in before.sentences))
    return written.number


async def see(request: Request) -> Response:
    """The leaf of large choices."""
    state = desk_of(request).state
    if state.path is None or state.owners is None:
        return _without(request, state)
    return await _see(request, state, Form({}), 200)


async def _see(request: Request, state: State, form: Form, status: int) -> Response:
    window, desk = window_of(request), desk_of(request)
    style = style_of(request, state)
    basis, _ = await run_in_threadpool(_basis, desk, window, state)
    look = None if basis is None else await run_in_threadpool(window.look, state, basis, desk.now(), style, _told(desk))  # fmt: skip
    seen = None if look is None else look.seen
    heard = look.forecast if look is not None and look.forecast.kind == "heard" else None
    return page(
        request, state, "see.html",
        {
            "form": form, "seen": seen, "heard": heard, "told": [] if seen is None else seen.told, "eye": eye_choices(),
            "once": form.given.get("once") or new_once(), "longest": LONGEST,
        },
        status,
    )  # fmt: skip


async def seen(request: Request) -> Response:
    """What he saw, written down; what cannot be read is told beside its field, and nothing is written then."""
    given = await form_of(request)
    desk, window = desk_of(request), window_of(request)
    state = desk.state
    if state.path is None or state.owners is None:
        return RedirectResponse("/letter", status_code=303)
    style, now = style_of(request, state), desk.now()
    away = await run_in_threadpool(_away_now, window, state, desk, style)
    form = read_form(given, state.owners, now, style, away)
    if form.entry is None:
        return await _see(request, state, form, 422)
    return await _keep(request, given, lambda _: cast("Entry", form.entry))


def _away_now(window: Window, state: State, desk: Desk, style: Style) -> str:
    basis = window.basis(state, desk.jobs.job(NAME)) or window.older(state)
    if basis is None:
        return "home"
    return window.look(state, basis, desk.now(), style, _told(desk)).seen.away.words


async def week(request: Request) -> Response:
    """The week leaf on a page of its own, for the wall."""
    state = desk_of(request).state
    if state.path is None or state.owners is None:
        return _without(request, state)
    window, desk = window_of(request), desk_of(request)
    basis, job = await run_in_threadpool(_basis, desk, window, state)
    if basis is None:
        return page(request, state, "morning-first.html", {"working": job if job is not None and not job.over else None, "failed": job})  # fmt: skip
    style = style_of(request, state)
    leaf_of = await run_in_threadpool(window.week, basis, desk.now().date(), style)
    return page(request, state, "morning-week.html", {"week": week_tables(leaf_of, style)})


async def take_back(request: Request) -> Response:
    """Strike what was just kept."""
    form = await form_of(request)
    desk, window = desk_of(request), window_of(request)
    state, number = desk.state, form.get("number", "")
    if state.path is not None and number.isascii() and number.isdigit() and len(number) < 10:
        try:
            await run_in_threadpool(_strike, window, state, int(number), desk.now())
        except Wrong as wrong:
            raise HTTPException(422, " ".join(f"{one.given}. {one.do}" for one in wrong.problems)) from None  # fmt: skip
    return RedirectResponse("/morning", status_code=303)


def _strike(window: Window, state: State, number: int, now: datetime) -> None:
    with window.looks(state) as book:
        book.strike(number, "taken back on the page", now)


ASIDE = (1, aside)
ROUTES = (
    Route("/morning", leaf),
    Route("/morning/start", start, methods=["POST"]),
    Route("/morning/done", done, methods=["POST"]),
    Route("/morning/not-moved", not_moved, methods=["POST"]),
    Route("/morning/week", week),
    Route("/morning/see", see),
    Route("/morning/see", seen, methods=["POST"]),
    Route("/morning/take-back", take_back, methods=["POST"]),
)
CONTENTS = (Word("morning", "/morning", 190, lived_in=5),)
