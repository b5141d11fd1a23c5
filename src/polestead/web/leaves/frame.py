"""What every leaf has with it: how far the work is, stopping and beginning it, and the choices of a device."""

from __future__ import annotations

from typing import Any

from starlette.requests import Request
from starlette.responses import JSONResponse, RedirectResponse, Response
from starlette.routing import Route

from polestead.web.desk import ANSWER, State
from polestead.web.render import UNITS, back_to, desk_of, form_of
from polestead.web.work import Job

CHOICES = {"units": UNITS, "scheme": ("machine", "light", "dark"), "type": ("usual", "large")}
A_YEAR_S = 365 * 86400


async def state(request: Request) -> Response:
    """What the page asks every few seconds."""
    desk = desk_of(request)
    now = desk.state
    jobs = desk.jobs.running()
    answer = next((job for job in jobs if job.name == ANSWER), None)
    return JSONResponse(
        {
            "serial": now.serial,
            "boot": request.app.state.boot,
            "fingerprint": now.fingerprint,
            "working": _told(answer) if answer is not None else None,
            "jobs": [_told(job) for job in jobs if job.name != ANSWER],
            "problems": len(now.wrong),
            "on_disk": now.on_disk is not None,
            "said": _said(now),
        }
    )


def _told(job: Job) -> dict[str, Any]:
    return {"name": job.name, "words": job.words, "step": job.step, "of": job.of, "said": job.said}


def _said(now: State) -> str:
    if now.on_disk is not None:
        return "The file was changed on disk."
    if now.problems:
        return f"{len(now.problems)} wrong in the file."
    return "" if now.answer is None or now.stale else "The answer is worked."


async def stop(request: Request) -> Response:
    """Stop a job; what stood there before stays."""
    form = await form_of(request)
    desk_of(request).jobs.stop(form.get("name", ""))
    return back_to(form)


async def start(request: Request) -> Response:
    """Work the answer out."""
    form = await form_of(request)
    desk_of(request).work_answer()
    return back_to(form)


async def device(request: Request) -> Response:
    """Keep a choice with this device."""
    form = await form_of(request)
    reply: RedirectResponse = back_to(form)
    for name, values in CHOICES.items():
        if form.get(name) in values:
            reply.set_cookie(name, form[name], max_age=A_YEAR_S, httponly=True, samesite="strict")
    return reply


ROUTES = (
    Route("/state", state),
    Route("/sums/stop", stop, methods=["POST"]),
    Route("/sums/start", start, methods=["POST"]),
    Route("/device", device, methods=["POST"]),
)
