"""The letter: five blanks to a first file; the demos to walk through; the files that lie in this folder."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import JSONResponse, RedirectResponse, Response
from starlette.routing import Route

from polestead.base.problem import Problem, Wrong
from polestead.base.row import Row
from polestead.homestead.demos import demo_names, demo_path
from polestead.homestead.start import LETTER, letter_fault, start_from_demo, start_from_letter
from polestead.sheets.doubts import doubt_name
from polestead.sheets.title_block import title_block
from polestead.web.desk import Desk
from polestead.web.leaves.doubts import href_of
from polestead.web.render import desk_of, form_of, page, style_of

FILE_NAME = re.compile(r"[^\W_][\w .-]{0,59}")
OTHER_KINDS = (".txt", ".json", ".yaml", ".yml", ".ini", ".cfg", ".conf", ".csv", ".md", ".xml", ".doc", ".docx", ".odt", ".pdf", ".xls", ".xlsx")  # fmt: skip
LONGEST = 200
REPLAYED = ("/file/keep", "/file/begin", "/file/out")
FILES_SHOWN = 12
LOOKED_AT_BYTES = 4000


async def letter(request: Request) -> Response:
    """The letter with its blanks."""
    return _letter(request, {}, (), 200)


def _letter(
    request: Request, typed: dict[str, str], problems: tuple[Problem, ...], status: int
) -> Response:
    desk = desk_of(request)
    faults: dict[str, str] = {}
    for problem in problems:
        faults[problem.key if problem.section == "letter" else "file"] = _words(problem)
    words: dict[str, Any] = {
        "blanks": LETTER,
        "typed": typed,
        "faults": faults,
        "demos": [(name, _first_remark(demo_path(name))) for name in demo_names()],
        "files": _files(desk),
        "folder": desk.folder.name or str(desk.folder),
    }
    return page(request, desk.state, "letter.html", words, status)


def _words(problem: Problem) -> str:
    """What stands under a blank."""
    words = f"Given {problem.given}. {problem.do[:1].upper()}{problem.do[1:]}"
    return f"{words} Write it {problem.allowed}." if problem.section == "letter" else words


async def read(request: Request) -> Response:
    """What is wrong with one blank, asked when it is left; the letter itself is read by its own form."""
    key, given = request.query_params.get("blank", ""), request.query_params.get("value", "")
    try:
        if key == "file":
            new_file(desk_of(request).folder, given[:LONGEST])
            return JSONResponse({"wrong": ""})
        problem = await run_in_threadpool(letter_fault, key, given[:LONGEST])
    except Wrong as wrong:
        return JSONResponse({"wrong": _words(wrong.problems[0])})
    except KeyError:
        return JSONResponse({"wrong": ""}, status_code=404)
    return JSONResponse({"wrong": "" if problem is None else _words(problem)})


def _first_remark(path: Path) -> tuple[str, str]:
    """What a demo says of itself on its first line: its name, and what it is."""
    line = path.read_text(encoding="utf-8").partition("\n")[0].removeprefix("#").strip()
    name, _, what = line.partition(": ")
    return name, what


def _files(desk: Desk) -> list[str]:
    """Homestead files of the folder the command was started in."""
    found = []
    for path in sorted(desk.folder.glob("*.toml")):
        try:
            with path.open("rb") as file:
                head = file.read(LOOKED_AT_BYTES)
        except OSError:
            continue
        if re.search(rb"^\s*we_are\s*=", head, re.MULTILINE):
            found.append(path.name)
    return found[:FILES_SHOWN]


def new_file(folder: Path, name: str) -> Path:
    """Where a new file of that name is to lie.

    Raises:
        Wrong: It is no plain name, or something lies there.
    """
    name = " ".join(name.split())
    if not FILE_NAME.fullmatch(name):
        do = "Write a plain name, without a folder."
        raise Wrong(
            [
                Problem(
                    "", "name", name or "no name", "letters, figures, space, point and hyphen", do
                )
            ]
        )
    ending = Path(name).suffix
    if ending.lower() in OTHER_KINDS:
        do = f"Write {Path(name).stem}, or {Path(name).stem}.toml."
        raise Wrong([Problem("", "name", name, "a name that ends in .toml, or has no ending", do)])
    path = folder / (name if name.endswith(".toml") else f"{name}.toml")
    if path.exists() or path.is_symlink():
        do = "Choose another name; nothing is ever overwritten."
        raise Wrong([Problem("", "name", f"{path.name}, which is there already", "a new name", do)])
    return path


async def begin(request: Request) -> Response:
    """Write the file of the letter and lay it on the desk."""
    form = await form_of(request)
    desk = desk_of(request)
    answers = {blank.key: form.get(blank.key, "")[:LONGEST] for blank in LETTER}
    try:
        path = new_file(desk.folder, form.get("file", ""))
    except Wrong as wrong:
        told = (letter_fault(key, given) for key, given in answers.items())
        return _letter(request, form, (*wrong.problems, *(one for one in told if one)), 422)
    called = form.get("called", "").strip()[:60] or path.stem.replace("-", " ").title()
    try:
        start_from_letter(path, answers, called)
        desk.open(path)
    except Wrong as wrong:
        return _letter(request, form, wrong.problems, 422)
    return RedirectResponse("/letter/begun", status_code=303)


async def begun(request: Request) -> Response:
    """What the letter assumed, and where to go from there."""
    state = desk_of(request).state
    if state.owners is None:
        return RedirectResponse("/letter", status_code=303)
    assumed: dict[str, list[tuple[str, str, Row]]] = {}
    for row in state.owners.rows:
        if row.standing == "assumed":
            top, _, below = doubt_name(row).partition(" ")
            assumed.setdefault(top, []).append((below, href_of(row, state), row))
    there = state.answer if not state.stale else None
    words = {
        "cells": () if there is None else title_block(there, style_of(request, state)),
        "assumed": sum(map(len, assumed.values())),
        "facts": assumed.pop("place", []),
        "others": assumed,
    }
    return page(request, state, "begun.html", words)


async def demo(request: Request) -> Response:
    """Lay a demo on the desk."""
    form = await form_of(request)
    if form.get("name") in demo_names():
        desk_of(request).open_demo(form["name"])
    return RedirectResponse("/", status_code=303)


async def take_up(request: Request) -> Response:
    """Lay a file of this folder on the desk."""
    form = await form_of(request)
    desk = desk_of(request)
    name = form.get("name", "")
    if name in _files(desk):
        try:
            desk.open(desk.folder / name)
        except Wrong as wrong:
            return page(
                request,
                desk.state,
                "refused.html",
                {"problems": wrong.problems, "form": {"back": "/letter"}},
                409,
            )
    return RedirectResponse("/", status_code=303)


async def own(request: Request) -> Response:
    """Keep the demo that lies here as a file of the owner's, then make the change that asked for it."""
    form = await form_of(request)
    desk = desk_of(request)
    state = desk.state
    again = form.get("again", "")
    if not state.demo or again not in REPLAYED:
        return RedirectResponse("/letter", status_code=303)
    try:
        path = new_file(desk.folder, form.get("name_of_file", ""))
        start_from_demo(path, state.demo)
        desk.open(path)
    except Wrong as wrong:
        problem = wrong.problems[0]
        kept = {
            name: value for name, value in form.items() if name not in ("again", "name_of_file")
        }
        words = {
            "form": kept,
            "again": again,
            "fault": f"Given {problem.given}. {problem.do}",
            "name": form.get("name_of_file", ""),
        }
        return page(request, state, "demo.html", words, 422)
    return RedirectResponse(again, status_code=307)  # the same form once more, now on the new file


ROUTES = (
    Route("/letter", letter),
    Route("/letter/read", read),
    Route("/letter/begin", begin, methods=["POST"]),
    Route("/letter/begun", begun),
    Route("/letter/demo", demo, methods=["POST"]),
    Route("/letter/open", take_up, methods=["POST"]),
    Route("/letter/own", own, methods=["POST"]),
)
