"""Build: a card for each act with its boxes and gates, kept in the daybook; then what is bought, cut, poured and lifted."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime
from typing import Any, cast

from starlette.concurrency import run_in_threadpool
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response
from starlette.routing import Route

from polestead.answer.answer import Answer
from polestead.base.problem import Wrong
from polestead.base.show import Style, gust, length
from polestead.build.cards.card import AsBuilt, Card, StanceLine
from polestead.daybook.poured import NOT_SEEN, read_poured
from polestead.daybook.ticking import (
    Standing,
    filled,
    gate_filled,
    gate_gone,
    gate_of,
    held_back,
    standings,
    steps_of,
    ticked,
    together,
)
from polestead.daybook.ticks import Ticks, needs_of, read_ticks
from polestead.homestead.edits import value_at
from polestead.homestead.entries import Line, parts_of
from polestead.sheets.book import built as book
from polestead.sheets.book.blocks import Section, raised
from polestead.sheets.book.matter import Matter, figure_words, warning_of
from polestead.sheets.charts_cure import cure_line, cure_words
from polestead.sheets.log import ticks_lines
from polestead.sheets.svg import SCREEN
from polestead.web.bench import Bench, Laid, bench_of
from polestead.web.contents import Entry
from polestead.web.desk import State
from polestead.web.leaves.file import at_of
from polestead.web.matter import WIDTHS, Width, matter_for, width_of
from polestead.web.places import anchor, path_of, place_of_path
from polestead.web.render import back_to, desk_of, form_of, page, style_of, with_answer

SKETCH: dict[Width, float] = {
    "wide": 428.0,
    "mid": 428.0,
    "narrow": 346.0,
}  # with its margin of 6 px
LONGEST = 9000
SAID = {"done": "done", "now": "now", "stays": "stays at the pole"}


@dataclass(frozen=True, slots=True)
class Press:
    """What was pressed or filled in and not taken, and why.

    Attributes:
        at: The box, gate or field it belongs to.
        words: Why.
        given: What was filled in.
    """

    at: str = ""
    words: str = ""
    given: dict[str, str] | None = None


def now() -> datetime:
    """The clock, with its offset."""
    return datetime.now().astimezone()


def slug(act: str) -> str:
    """An act as it stands in an address.

    Example:
        >>> slug("load modules")
        'load-modules'
    """
    return act.replace(" ", "-")


@with_answer
async def leaf(request: Request, state: State, answer: Answer) -> Response:
    """The list of acts, a card, and on the leaf itself the book's pages under it."""
    return await shown(request, state, answer, request.path_params.get("act", ""))


async def shown(
    request: Request, state: State, answer: Answer, act: str, press: Press | None = None, status: int = 200, **more: Any
) -> Response:  # fmt: skip
    """A card, or the whole leaf where no act is named."""
    bench = bench_of(desk_of(request))
    try:
        laid = await run_in_threadpool(bench.laid, state, answer, now(), style_of(request, state))
    except Wrong as wrong:
        return page(request, state, "build-none.html", {"problems": wrong.problems})
    stands = standings(laid.deck, laid.ticks)
    card = next((one for one in laid.deck if slug(one.act) == act), None)
    if act and card is None:
        raise HTTPException(404)
    chosen = card or _now(laid, stands)
    style = style_of(request, state)
    words: dict[str, Any] = {
        "here": f"/build/{act}" if act else "/build",
        "whole": not act,
        "acts": [_act(one, stands, chosen) for one in laid.deck],
        "counts": sum(one.stage == "done" for one in stands.values()),
        "warning": warning_of(answer),
        "laid": laid,
        "press": press or Press(),
        "sections": await run_in_threadpool(list, _sections(matter_for(request, state, answer))) if not act else [],
        "understood": None,
        **await run_in_threadpool(_card, request, state, answer, bench, laid, stands, chosen, style),
        **more,
    }  # fmt: skip
    return page(request, state, "build.html", words, status)


def _now(laid: Laid, stands: Any) -> Card:
    """The card that is at hand: the first that may be worked on, else the first that waits."""
    for stage in ("now", "waits"):
        for card in laid.deck:
            if stands[card.act].stage == stage:
                return card
    return laid.deck[-1]


def _act(card: Card, stands: Any, chosen: Card) -> dict[str, Any]:
    one = stands[card.act]
    return {
        "title": card.title,
        "href": f"/build/{slug(card.act)}",
        "stage": one.stage,
        "state": _state(one),
        "here": card is chosen,
    }


def _state(one: Standing) -> str:
    said = SAID.get(one.stage) or (f"waits for the gate: {one.gate}" if one.stage == "waits" else f"after {', '.join(one.after)}")  # fmt: skip
    return f"{said}, {one.done} of {one.of}" if one.done and one.stage != "done" else said


def _card(
    request: Request, state: State, answer: Answer, bench: Bench, laid: Laid, stands: Any, card: Card, style: Style
) -> dict[str, Any]:  # fmt: skip
    place = laid.deck.index(card)
    width = width_of(request)
    done = steps_of(laid.ticks, card.act)
    pour = card.act == "pour"
    return {
        "card": card,
        "nth": place + 1,
        "back_to_card": f"/build/{slug(card.act)}",
        "standing": stands[card.act],
        "who": _who(card),
        "needs": [_need(need, laid) for need in needs_of(card, laid.deck)],
        "shut": next((_gate_at(name, laid) for name in laid.cards.waits.get(card.act, ()) if name in laid.cards.gates and gate_filled(laid.ticks, name) is None), None),
        "parts": [_part(one, card, laid, done, style, bench.sketch(state, answer, one, style, SKETCH[width])) for one in laid.sheets if one.act == card.act],
        "gate": None if card.gate is None else gate_filled(laid.ticks, card.gate.name),
        "early": [nth for nth in sorted(done) if held_back(laid.ticks, laid.cards, card.act, nth)],
        "as_built": [one for item in card.as_built for one in _as_built(item, card, laid, state)],
        "notes": [_set(words) for words in card.notes],
        "before": laid.deck[place - 1] if place else None,
        "after": laid.deck[place + 1] if place + 1 < len(laid.deck) else None,
        "slug": slug,
        "today": now().date().isoformat(),
        "day_words": f"{now().day} {now():%b %Y}",
        "pour": pour,
        "cure_line": cure_line(laid.cure, style, SCREEN, WIDTHS[width]) if laid.cure is not None and pour else "",
        "cure_words": cure_words(laid.cure, style) if laid.cure is not None else (),
        "not_seen": NOT_SEEN,
    }  # fmt: skip


def _set(words: str) -> str:
    """Words as a printer sets them: powers raised."""
    return re.sub(r"\b(yd|ft|in|mm|cm|m)([23])\b", lambda found: found[1] + "²³"[int(found[2]) - 2], raised(words))  # fmt: skip


def _who(card: Card) -> str:
    tools = ", ".join(card.tools)
    said = f"{card.who[0].upper()}{card.who[1:]}."
    said += f" {tools[0].upper()}{tools[1:]}." if tools else ""
    return said + (f" Hire: {card.hire}." if card.hire else "")


def _need(need: str, laid: Laid) -> dict[str, str]:
    """What comes before, with its place."""
    name = need.removeprefix("gate: ")
    if name != need:
        return _gate_at(name, laid) | {"words": f"the gate: {name}"}
    return {"words": cast("Card", laid.card(need)).title, "href": f"/build/{slug(need)}"}


def _gate_at(name: str, laid: Laid) -> dict[str, str]:
    act, _ = laid.cards.gates.get(name, ("", 0))
    card = laid.card(act)
    words = "" if card is None or card.gate is None else card.gate.words
    return {"name": name, "words": words, "href": f"/build/{slug(act)}#gate" if act else "", "title": card.title if card else ""}  # fmt: skip


def _part(
    sheet: Card, card: Card, laid: Laid, done: frozenset[int], style: Style, sketch: str
) -> dict[str, Any]:
    """One sheet of an act: its sketch, its figures, its steps."""
    title = "" if sheet.parts == 1 else sheet.title.partition(": ")[2]
    return {
        "title": f"{title[:1].upper()}{title[1:]}",
        "sketch": sketch,
        "figures": [(_set(figure_words(one, style)), _set(one.words)) for one in sheet.figures],
        "stances": [_stance(one, style) for one in sheet.stances],
        "steps": [_step(nth, step, card, laid, nth in done) for nth, step in enumerate(sheet.steps, start=sheet.first)],
    }  # fmt: skip


def _step(nth: int, step: Any, card: Card, laid: Laid, done: bool) -> dict[str, Any]:
    return {
        "nth": nth,
        "words": _set(step.words),
        "caution": _set(step.caution),
        "done": done,
        "rule": step.rule,
        "behind": bool(held_back(laid.ticks, laid.cards, card.act, nth)),
        "gate_after": card.gate is not None and card.gate_after == nth - 1,
    }


def _stance(one: StanceLine, style: Style) -> dict[str, str]:
    hole = "not in the file" if one.hole is None else str(one.hole)
    return {"name": one.name, "tilt": f"{one.tilt_deg:.0f}°", "stands_to": gust(one.stands_to_m_s, style), "gives_first": one.gives_first, "hole": hole}  # fmt: skip


def _as_built(item: AsBuilt, card: Card, laid: Laid, state: State) -> Iterator[dict[str, Any]]:
    """A field for each place of the key: a list of the file has several."""
    found = [line for line in _lines(state) if ".".join(part for part in line.path if not part.isdecimal()) == item.key]  # fmt: skip
    told = next((one.value for one in laid.ticks.built if (one.act, one.key) == (card.act, item.key)), "")  # fmt: skip
    if not found:
        section = tuple(item.key.split("."))[:1]
        yield {"words": item.words, "line": None, "href": place_of_path(section), "told": told, "section": section[0]}  # fmt: skip
    for line in found:
        name = value_at(state.draft, (*line.path[:-1], "name")) if any(part.isdecimal() for part in line.path) else None  # fmt: skip
        several = f": {name}" if name and len(found) > 1 else ""
        yield {
            "words": f"{item.words}{several}",
            "line": line,
            "id": anchor(line.path),
            "at": at_of(line.path),
            "href": place_of_path(line.path),
            "told": told if told and not line.built else "",
            "wrong": [one for one in state.wrong if path_of(one) == line.path],
            "begun": any(change.path == line.path for change in state.unkept),
        }


def _lines(state: State) -> list[Line]:
    try:
        whole = parts_of(state.draft, state.owners.homestead if state.owners else None)
    except (ValueError, Wrong):
        return []
    return list(whole.every_line())


def _sections(matter: Matter) -> Iterator[tuple[str, str, Section]]:
    """The book's own pages, each with what is in it, but for the drawings the cards show already."""
    built, style = matter.answer.build, matter.style
    bars = sum(len(plan.bars) for plan in built.cut_list)
    lift = built.lifts[0].lift_under_m_s
    every = (
        ("pieces", f"{len(built.pieces)} pieces, {bars} lengths to buy, {len(built.plates)} plates, {len(built.joints)} joints; {len(built.not_given)} things to measure, choose or ask first", book.pieces),
        ("concrete", f"{built.concrete.sold} to order; the heap of soil; braces; the trench {length(built.trench.length_m, style)} at most", book.pour),
        ("lifts", f"{len(built.lifts)} lifts, each under {gust(lift, style)}, and the order of the modules", book.lifts),
    )  # fmt: skip
    for name, says, make in every:
        found = make(matter)
        yield name, says, Section(found.title, tuple(one for one in found.blocks if one["kind"] not in ("picture", "blanks")))  # fmt: skip


# Pressing.


async def tick(request: Request) -> Response:
    """Tick a step, or take its tick back."""
    form = await form_of(request)
    act, said = form.get("act", ""), form.get("step", "")
    step = int(said) if said.isdecimal() and len(said) < 4 else 0

    def change(laid: Laid) -> Ticks:
        return ticked(laid.ticks, laid.cards, act, step, done=form.get("done") != "no")

    return await _changed(request, form, change, Press(f"step-{step}"))


async def gate(request: Request) -> Response:
    """Fill a gate, or take it back."""
    form = await form_of(request)
    name = form.get("gate", "")

    def change(laid: Laid) -> Ticks:
        if name not in laid.cards.gates:
            raise HTTPException(400, "There is no such gate.")
        if form.get("do") == "back":
            return gate_gone(laid.ticks, laid.cards, name)
        return filled(laid.ticks, laid.cards, gate_of(name, form.get("by", ""), form.get("on", ""), form.get("why", "")))  # fmt: skip

    return await _changed(request, form, change, Press("gate", given=form))


async def undo(request: Request) -> Response:
    """Go one line of ticks back."""
    form = await form_of(request)
    desk = desk_of(request)
    try:
        await run_in_threadpool(bench_of(desk).back, desk.state, now())
    except Wrong as wrong:
        return await _again(request, form, Press("undo", _said(wrong)))
    desk.lay()
    return back_to(form)


async def _changed(request: Request, form: dict[str, str], change: Any, press: Press) -> Response:
    """Work a change of the ticks out and keep it; what is refused is said where it was pressed."""
    desk = desk_of(request)
    state = desk.state
    if state.answer is None:
        return back_to(form)
    bench = bench_of(desk)
    try:
        laid = await run_in_threadpool(
            bench.laid, state, state.answer, now(), style_of(request, state)
        )
        await run_in_threadpool(bench.tick, state, laid, change(laid), now())
    except Wrong as wrong:
        return await _again(request, form, Press(press.at, _said(wrong), press.given))
    desk.lay()
    return back_to(form)


def _said(wrong: Wrong) -> str:
    return " ".join(f"{one.given[0].upper()}{one.given[1:]}. {one.do}" for one in wrong.problems)


async def _again(request: Request, form: dict[str, str], press: Press, **more: Any) -> Response:
    """The page that was looked at, with why it was not taken."""
    state = desk_of(request).state
    if state.answer is None:
        return back_to(form)
    back = form.get("back", "").partition("#")[0]
    act = back.removeprefix("/build").strip("/") if back.startswith("/build") else ""
    return await shown(request, state, state.answer, act, press, 409, **more)


async def line(request: Request) -> Response:
    """Look what a line of the phone file says, then take it in."""
    form = await form_of(request)
    text, do = form.get("line", ""), form.get("do", "look")
    desk = desk_of(request)
    state = desk.state
    if state.answer is None:
        return RedirectResponse("/build", status_code=303)
    bench = bench_of(desk)
    try:
        laid = await run_in_threadpool(
            bench.laid, state, state.answer, now(), style_of(request, state)
        )
        found = read_ticks(text[:LONGEST], laid.cards, now().date())
        if do in ("keep", "add"):
            kept = together(laid.ticks, found, laid.cards) if do == "add" else found
            await run_in_threadpool(bench.tick, state, laid, kept, now())
            desk.lay()
            return RedirectResponse("/build#line", status_code=303)
    except Wrong as wrong:
        told = [f"{one.key}: given {one.given}. {one.do}" for one in wrong.problems]
        return await shown(request, state, state.answer, "", Press("line", "Nothing was taken in.", form), 422, understood={"wrong": told, "said": [], "gone": [], "text": text})  # fmt: skip
    return await shown(request, state, state.answer, "", Press("line", given=form), understood=_understood(laid, found, text))  # fmt: skip


def _understood(laid: Laid, found: Ticks, text: str) -> dict[str, Any]:
    """The line in words, and what is ticked here and not in it."""
    gone = []
    for act, steps in laid.ticks.steps:
        left = sorted(set(steps) - steps_of(found, act))
        if left:
            gone.append(f"{act} {', '.join(map(str, left))}")
    gone += [f"the gate {one.name}" for one in laid.ticks.gates if gate_filled(found, one.name) is None]  # fmt: skip
    return {
        "wrong": [],
        "said": [" ".join(words.split()) for words in ticks_lines(found)],
        "gone": gone,
        "text": text,
    }


async def cure(request: Request) -> Response:
    """Keep the day of the pour and the days since."""
    form = await form_of(request)
    desk = desk_of(request)
    state = desk.state
    try:
        poured = read_poured(form.get("poured", ""), form.get("days", "")[:LONGEST], now().date())
        await run_in_threadpool(bench_of(desk).pour, state, poured, now())
    except Wrong as wrong:
        words = " ".join(f"{one.key[0].upper()}{one.key[1:]}: given {one.given}. {one.do}" for one in wrong.problems)  # fmt: skip
        return await _again(request, form | {"act": "pour"}, Press("cure", words, form))
    desk.lay()
    return back_to(form)


ROUTES = (
    Route("/build", leaf),
    Route("/build/tick", tick, methods=["POST"]),
    Route("/build/gate", gate, methods=["POST"]),
    Route("/build/undo", undo, methods=["POST"]),
    Route("/build/line", line, methods=["POST"]),
    Route("/build/cure", cure, methods=["POST"]),
    Route("/build/{act}", leaf),
)
CONTENTS = (Entry("build", "/build", 150),)
