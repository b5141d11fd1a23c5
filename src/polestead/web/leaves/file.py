"""The file leaf: every field of the homestead file, what may stand there, who says so, and every step back."""

from __future__ import annotations

from dataclasses import dataclass, replace
from difflib import SequenceMatcher
from typing import Any
from urllib.parse import quote, unquote

from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import JSONResponse, RedirectResponse, Response
from starlette.routing import Route

from polestead.base.problem import Problem, Wrong
from polestead.base.show import Style
from polestead.homestead.edits import Change, value_at
from polestead.homestead.entries import (
    Line,
    Part,
    Said,
    echo,
    field_at,
    parts_of,
    section_at,
    typed,
    value_from,
    ways,
)
from polestead.homestead.text import fingerprint_of, text_of
from polestead.homestead.write import NEXT, Begun
from polestead.web.contents import Entry
from polestead.web.desk import ConflictError, Desk, State
from polestead.web.places import anchor, path_of, place_of_path
from polestead.web.plainly import spanned
from polestead.web.render import back_to, desk_of, form_of, page, style_of

LONGEST = 4000
AROUND = 2  # lines shown on either side of a changed one
OLDER_SHOWN = 40
SAID_KEYS = ("base", "built", "asked_of", "on", "why")


@dataclass(frozen=True, slots=True)
class Fault:
    """What is wrong with a field, in a sentence, and what may have been meant."""

    words: str
    ways: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Told:
    """What a section's template asks of the state for each of its fields.

    Attributes:
        problems: By the path they belong to.
        was: What the last step changed: what stood there before, as typed.
        begun: Paths begun and not kept, with what the file still holds, as typed.
        style: Units offered first.
    """

    problems: dict[tuple[str, ...], list[Problem]]
    was: dict[tuple[str, ...], str]
    begun: dict[tuple[str, ...], str]
    style: Style

    def faults(self, line: Line) -> list[Fault]:
        """What is wrong with this field."""
        info = field_at(line.path)
        found = []
        for problem in self.problems.get(line.path, ()):
            meant = ways(info, line.written, self.style) if info is not None else ()
            found.append(Fault(_sentence(problem, line, meant), meant))
        return found

    def at(self, path: tuple[str, ...], lines: tuple[Line, ...]) -> list[Problem]:
        """What is wrong at a section as a whole: what names it, or a field it does not have."""
        own = {line.path for line in lines}
        here = [one for at, problems in self.problems.items() if at == path for one in problems]
        return here + [
            one
            for at, problems in self.problems.items()
            if at[:-1] == path and at not in own and section_at(at) is None and at != path
            for one in problems
        ]


def _sentence(problem: Problem, line: Line, meant: tuple[str, ...]) -> str:
    """Given, what is wanted, what may have been meant."""
    given = f"Given {problem.given}. " if problem.given not in ("nothing", "") else ""
    if meant and line.kind == "quantity" and "has no unit" in problem.do:
        either = " or ".join((", ".join(meant[:-1]), meant[-1]) if len(meant) > 1 else meant)
        return f"{given}The {line.word} needs a unit: {either}?"
    if problem.given == "nothing":
        return (
            f"This must be written: {problem.allowed}."
            if not line.whom
            else f"Ask {line.whom}, or write your own guess."
        )
    return f"{given}{problem.do} Allowed: {problem.allowed}."


def _told(state: State, style: Style) -> Told:
    problems: dict[tuple[str, ...], list[Problem]] = {}
    for problem in state.wrong:
        problems.setdefault(path_of(problem), []).append(problem)
    last = state.steps[-1] if state.steps and state.steps[-1].after == state.text else None
    was = {change.path: typed(_counting(change.value)) for change in last.changes} if last else {}
    begun = {
        change.path: typed(_counting(value_at(state.text, change.path)))
        for change in state.unkept
        if change.path[-1] != NEXT and not isinstance(change.value, Begun)
    }
    return Told(problems, was, begun, style)


def _counting(value: Any) -> Any:
    """The value of a table of standings that an owner would call the value."""
    if isinstance(value, dict):
        return next(
            (value[word] for word in ("built", "said", "planned", "assumed") if word in value), None
        )
    return value


def at_of(path: tuple[str, ...]) -> str:
    """A path as a form sends it."""
    return "/".join(quote(part, safe="") for part in path)


def _path(at: str) -> tuple[str, ...]:
    return tuple(unquote(part) for part in at.split("/")) if at else ()


# Looking.


async def overview(request: Request) -> Response:
    """The whole file: its sections with what is open in each, and the fields under no heading."""
    state = desk_of(request).state
    if state.path is None:
        return RedirectResponse("/letter", status_code=303)
    whole = _whole(state)
    if whole is None:
        return await wrong(request)
    words = _words(request, state) | {
        "whole": whole,
        "counts": [(part, _counts(part, state)) for part in whole.parts],
    }
    return page(request, state, "file.html", words)


async def section(request: Request) -> Response:
    """One section with everything in it."""
    state = desk_of(request).state
    if state.path is None:
        return RedirectResponse("/letter", status_code=303)
    whole = _whole(state)
    if whole is None:
        return await wrong(request)
    name = request.path_params["section"]
    found = [part for part in whole.parts if part.path[-1] == name]
    if not found:
        raise HTTPException(404)
    names = [part.path[-1] for part in whole.parts]
    place = names.index(name)
    words = _words(request, state) | {
        "part": found[0],
        "before": whole.parts[place - 1] if place else None,
        "after": whole.parts[place + 1] if place + 1 < len(names) else None,
        "every": whole.parts,
    }
    return page(request, state, "section.html", words)


def _words(request: Request, state: State) -> dict[str, Any]:
    return {
        "told": _told(state, style_of(request, state)),
        "anchor": anchor,
        "at_of": at_of,
        "path_of": path_of,
    }


def _whole(state: State) -> Part | None:
    """The file field by field; None where it is no TOML."""
    try:
        return parts_of(state.draft, state.owners.homestead if state.owners else None)
    except (ValueError, Wrong):
        return None


def _counts(part: Part, state: State) -> dict[str, int]:
    lines = tuple(part.every_line())
    path = part.path
    return {
        "written": sum(1 for line in lines if line.standing),
        "assumed": sum(1 for line in lines if line.standing == "assumed"),
        "built": sum(1 for line in lines if line.standing == "built"),
        "wrong": sum(1 for problem in state.wrong if path_of(problem)[:1] == path),
    }


async def wrong(request: Request) -> Response:
    """Everything that is wrong, one by one."""
    state = desk_of(request).state
    lines = state.text.splitlines()
    broken = next((problem for problem in state.problems if "not TOML" in problem.given), None)
    number = _line_number(broken.given) if broken is not None else 0
    near = (
        [(n, lines[n - 1]) for n in range(max(1, number - 3), min(len(lines), number + 2) + 1)]
        if number
        else []
    )
    words = {
        "places": [(one, place_of_path(path_of(one))) for one in state.wrong],
        "near": near,
        "number": number,
    }
    return page(
        request,
        state,
        "wrong.html",
        words | {"begun": [(_called(one), one) for one in state.unkept]},
    )


def _line_number(given: str) -> int:
    """The line a reader of TOML names."""
    after = given.partition("(at line ")[2].partition(",")[0]
    return int(after) if after.isdecimal() else 0


def _called(change: Change) -> str:
    parts = (part.replace("_", " ") for part in change.path if part != NEXT)
    what = ", taken out" if change.value is None else ""
    return ": ".join(parts) + (", one more" if change.path[-1] == NEXT else "") + what


async def changed(request: Request) -> Response:
    """What another editor changed."""
    state = desk_of(request).state
    if state.on_disk is None:
        return RedirectResponse("/file", status_code=303)
    words = {"lines": changed_lines(state.text, state.on_disk.text)}
    return page(request, state, "changed.html", words)


async def older(request: Request) -> Response:
    """The steps of this session, and the older texts that lie beside the file."""
    state = desk_of(request).state
    look = request.query_params.get("look", "")
    lines = None
    if look:
        text = _older_text(desk_of(request), state, look)
        lines = changed_lines(text, state.text)
    words = {
        "beside": _beside(state),
        "look": look,
        "lines": lines,
        "fingerprint_of": fingerprint_of,
    }
    return page(request, state, "older.html", words)


def _beside(state: State) -> list[str]:
    """Names of the older texts on disk, the newest first."""
    if state.path is None or state.demo:
        return []
    found = [
        one for one in state.path.parent.glob(f"{_glob(state.path.name)}.before*") if one.is_file()
    ]
    found.sort(key=lambda one: one.stat().st_mtime_ns, reverse=True)
    return [one.name for one in found[:OLDER_SHOWN]]


def _glob(name: str) -> str:
    return "".join(f"[{sign}]" if sign in "*?[" else sign for sign in name)


def _older_text(desk: Desk, state: State, which: str) -> str:
    """A text of this session by its fingerprint, or an older one beside the file by its name."""
    text = desk.text_of_fingerprint(which)
    if text is None and state.path is not None and which in _beside(state):
        text = text_of(state.path.with_name(which))
    if text is None:
        raise HTTPException(404)
    return text


@dataclass(frozen=True, slots=True)
class ChangedLine:
    """A line of a text beside another: ``+`` came in, ``-`` went out, nothing stayed; a gap has no words."""

    sign: str
    words: str


def changed_lines(before: str, after: str) -> list[ChangedLine]:
    """Lines that differ, with a few around them."""
    old, new = before.splitlines(), after.splitlines()
    shown: list[ChangedLine] = []
    for group in SequenceMatcher(None, old, new, autojunk=False).get_grouped_opcodes(AROUND):
        if shown:
            shown.append(ChangedLine("…", ""))
        for what, i1, i2, j1, j2 in group:
            if what == "equal":
                shown += [ChangedLine("", line) for line in old[i1:i2]]
            else:
                shown += [ChangedLine("−", line) for line in old[i1:i2]]
                shown += [ChangedLine("+", line) for line in new[j1:j2]]
    return shown


async def read_back(request: Request) -> Response:
    """How what is being typed is read."""
    state = desk_of(request).state
    path, text = _path(request.query_params.get("at", "")), request.query_params.get("value", "")
    info = field_at(path)
    if info is None or len(text) > LONGEST:
        raise HTTPException(404)
    try:
        return JSONResponse({"says": echo(info, text), "wrong": "", "ways": []})
    except ValueError as said:
        return JSONResponse(
            {
                "says": "",
                "wrong": spanned(str(said), style_of(request, state)),
                "ways": ways(info, text, style_of(request, state)),
            }
        )


# Changing.


async def keep(request: Request) -> Response:
    """Keep one field."""
    form = await form_of(request)
    desk = desk_of(request)
    path = _path(form.get("at", ""))
    if form.get("name", "").strip():
        path = (*path, form["name"].strip())  # one more under a name of the owner's
    info = field_at(path)
    if info is None or any(len(value) > LONGEST for value in form.values()):
        raise HTTPException(400, "There is no such field in a homestead file.")
    given = value_at(desk.state.draft, path)
    said = (
        Said(form.get("value", ""), *(form.get(key, "") for key in SAID_KEYS))
        if "base" in form
        else _plainly(given, form)
    )
    value = value_from(info, given, said)
    if value == given and value == value_at(desk.state.text, path):
        desk.let_go(path)
        return back_to(form)
    return _kept(request, desk, form, (Change(path, value),), path)


def _plainly(given: Any, form: dict[str, str]) -> Said:
    """Only the value was sent: what stands beside it stays."""
    table = given if isinstance(given, dict) else {}
    beside = {key: typed(table.get(key)) for key in ("built", "asked_of", "on", "why")}
    return replace(Said(form.get("value", "")), **beside)


async def begin(request: Request) -> Response:
    """Begin a section, or one more of a list."""
    form = await form_of(request)
    path = _path(form.get("at", ""))
    found = section_at(path)
    if found is None:
        raise HTTPException(400, "There is no such section in a homestead file.")
    if found[1]:
        name = form.get("name", "").strip()[:60]
        change = Change((*path, NEXT), {"name": name} if name else {})
    else:
        change = Change(path, Begun())
    return _kept(request, desk_of(request), form, (change,), path)


async def take_out(request: Request) -> Response:
    """Take a section, one of a list, or what stands under a name out of the file."""
    form = await form_of(request)
    path = _path(form.get("at", ""))
    known = section_at(path) is not None or field_at(path) is not None
    if not known and value_at(desk_of(request).state.draft, path) is None:
        raise HTTPException(400, "There is no such thing in a homestead file.")
    return _kept(request, desk_of(request), form, (Change(path, None),), path[:-1])


def _kept(
    request: Request,
    desk: Desk,
    form: dict[str, str],
    changes: tuple[Change, ...],
    path: tuple[str, ...],
) -> Response:
    """Keep changes, or say why not: a demo, another text meanwhile, no leave to write."""
    if desk.state.demo:
        return _demo(request, desk.state, form)
    words = _called(changes[0])
    try:
        desk.keep(changes, words, form.get("of", ""))
    except ConflictError:
        return _conflict(request, desk, form)
    except Wrong as refused:
        return page(
            request, desk.state, "refused.html", {"problems": refused.problems, "form": form}, 409
        )
    back = form.get("back", "")
    own = place_of_path(path)
    return back_to(
        {
            "back": back.partition("#")[0] + "#" + own.partition("#")[2]
            if back.startswith("/file")
            else back or own
        }
    )


def _conflict(request: Request, desk: Desk, form: dict[str, str]) -> Response:
    """What was typed, beside what was changed meanwhile."""
    state = desk.state
    base = desk.text_of_fingerprint(form.get("of", ""))
    now = state.on_disk.text if state.on_disk is not None else state.text
    words = {
        "form": form,
        "conflict": True,
        "again": request.url.path,
        "what": _called(Change(_path(form.get("at", "")), "")),
        "lines": changed_lines(base, now) if base is not None else None,
    }
    return page(request, state, "conflict.html", words, 409)


def _demo(request: Request, state: State, form: dict[str, str]) -> Response:
    """A demo is never written: it may become a file of the owner's own."""
    return page(
        request,
        state,
        "demo.html",
        {"form": form, "again": request.url.path, "fault": "", "name": ""},
        409,
    )


async def let_go(request: Request) -> Response:
    """Let what was begun be, at one place or everywhere."""
    form = await form_of(request)
    desk_of(request).let_go(_path(form["at"]) if form.get("at") else None)
    return back_to(form)


async def undo(request: Request) -> Response:
    """Take the last step back."""
    form = await form_of(request)
    desk = desk_of(request)
    try:
        desk.undo(form.get("of", ""))
    except ConflictError:
        return _conflict(request, desk, form)
    except Wrong as refused:
        return page(
            request, desk.state, "refused.html", {"problems": refused.problems, "form": form}, 409
        )
    return back_to(form)


async def back(request: Request) -> Response:
    """Write an older text again."""
    form = await form_of(request)
    desk = desk_of(request)
    which = form.get("which", "")
    text = _older_text(desk, desk.state, which)
    try:
        desk.back(text, "an older text taken back", form.get("of", ""))
    except ConflictError:
        return _conflict(request, desk, form)
    except Wrong as refused:
        return page(
            request, desk.state, "refused.html", {"problems": refused.problems, "form": form}, 409
        )
    return RedirectResponse("/file/older", status_code=303)


async def disk(request: Request) -> Response:
    """Take what another editor wrote, or write ours over it."""
    form = await form_of(request)
    desk = desk_of(request)
    try:
        if form.get("do") == "take":
            desk.take()
        elif form.get("do") == "mine":
            desk.mine()
    except Wrong as refused:
        return page(
            request, desk.state, "refused.html", {"problems": refused.problems, "form": form}, 409
        )
    return back_to({"back": form.get("back", "/file")})


ROUTES = (
    Route("/file", overview),
    Route("/file/wrong", wrong),
    Route("/file/changed", changed),
    Route("/file/older", older),
    Route("/file/echo", read_back),
    Route("/file/keep", keep, methods=["POST"]),
    Route("/file/begin", begin, methods=["POST"]),
    Route("/file/out", take_out, methods=["POST"]),
    Route("/file/let-go", let_go, methods=["POST"]),
    Route("/file/undo", undo, methods=["POST"]),
    Route("/file/back", back, methods=["POST"]),
    Route("/file/disk", disk, methods=["POST"]),
    Route("/file/{section}", section),
)
CONTENTS = (Entry("file", "/file", 900),)
