"""The sheet: the drawing that is tipped by hand, the three answers, gusts, the year, the worst fortnight, what was checked."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from typing import Any

from starlette.requests import Request
from starlette.responses import JSONResponse, PlainTextResponse, RedirectResponse, Response
from starlette.routing import Route

from polestead.answer.answer import Answer
from polestead.answer.day_sun import noon_height_deg
from polestead.answer.tilts import Tilts
from polestead.base.problem import Wrong
from polestead.base.row import Row
from polestead.base.show import Style, gust, gust_step, length
from polestead.homestead.read import OwnersFile, read_text
from polestead.offers.doubts import doubts_of
from polestead.offers.reach import path_of
from polestead.sheets.charts import gust_card, plot_of, today_mark
from polestead.sheets.charts_fortnight import fortnight_chart, fortnight_words, hours_told
from polestead.sheets.doubts import doubt_name, matters, reach_words
from polestead.sheets.gust_rows import rows_of
from polestead.sheets.gusts import AS_SET
from polestead.sheets.habit_lines import bounds, habit_groups, plan_of
from polestead.sheets.scene.field import PERSON_M, SIZES, field_of, size_named
from polestead.sheets.scene.scene import (
    Day,
    changes_of,
    empty_scene,
    ghost,
    scene,
    small_view,
    standalone,
)
from polestead.sheets.scene.views import WHICH, Which
from polestead.sheets.sentences import (
    fault_of,
    helps_most,
    tipping_worth,
    use_of,
)
from polestead.sheets.slip import Slips, slug
from polestead.sheets.svg import SCREEN
from polestead.sheets.text import day_words, moves_words
from polestead.sheets.title_block import assumed, next_act, title_block
from polestead.sheets.tonight import TonightGust, tonight_words
from polestead.sheets.verdict import TWO_QUESTIONS, against_the_code, failing
from polestead.sheets.year import year_picture, year_upright
from polestead.web.contents import Entry
from polestead.web.desk import Desk, State
from polestead.web.kept import KEPT
from polestead.web.leaves.doubts import NAME as DOUBTS
from polestead.web.leaves.doubts import found_in
from polestead.web.places import place_of_path
from polestead.web.render import desk_of, page, style_of
from polestead.web.window import window_of

PLOTS = {"card": (802.0, 380.0), "card-mid": (720.0, 340.0), "card-narrow": (358.0, 320.0)}
YEARS = {"wide": 802.0, "mid": 720.0}
WEEKS = {
    "wide": 1000.0,
    "mid": 720.0,
    "narrow": 358.0,
}  # the fortnight's chart; on a narrow page a week to a row
LONG_YEAR = 366
MARGIN_DOUBTS = 3


@dataclass(frozen=True, slots=True)
class Asked:
    """What a request wants to see.

    Attributes:
        tilt_deg: On the card.
        on: The day.
        which: The view.
        large: Large type.
    """

    tilt_deg: float
    on: date
    which: Which
    large: bool

    @property
    def calendar_day(self) -> int:
        """1 to 365; the last day of a long year is the one before it."""
        return min(self.on.timetuple().tm_yday, LONG_YEAR - 1)


def _asked(request: Request, answer: Answer, tilts: Tilts) -> Asked:
    """Whatever cannot be read is taken as not asked."""
    given = request.query_params
    try:
        tilt = float(given.get("tilt", ""))
    except ValueError:
        tilt = answer.schedule.moves[-1][1]
    try:
        on = date.fromisoformat(given.get("day", ""))
    except ValueError:
        on = date.today()
    wanted: Which = next((one for one in WHICH if one == given.get("view")), WHICH[0])
    place = tilts.place_of(tilt) if tilt == tilt else 0
    large = request.cookies.get("type") == "large"
    return Asked(tilts.at[place].tilt_deg, on, wanted, large)


def _day(owners: OwnersFile, answer: Answer, asked: Asked) -> Day:
    sun = KEPT.sun(owners, answer)
    day = asked.calendar_day
    return Day(day_words(day), noon_height_deg(owners.homestead.place, asked.on), None if sun is None else sun.of(asked.tilt_deg, day), KEPT.fault(owners, answer))  # fmt: skip


def _open(state: State) -> tuple[OwnersFile, Answer] | None:
    """File and answer of the state; None before there are both."""
    owners, answer = state.owners, state.answer
    return None if owners is None or answer is None else (owners, answer)


async def sheet(request: Request) -> Response:
    """The whole sheet."""
    state = desk_of(request).state
    if state.path is None and state.answer is None:
        return RedirectResponse("/letter", status_code=303)
    there = _open(state)
    if there is None:
        large = request.cookies.get("type") == "large"
        scenes = {name: empty_scene(SCREEN, size_named(name, large)) for name in SIZES}
        return page(request, state, "sheet-empty.html", {"scenes": scenes})
    return page(request, state, "sheet.html", _words(request, state, *there))


def _tonight(request: Request, state: State) -> TonightGust | None:
    """Of the morning's last line, where that heard a forecast and still holds."""
    return window_of(request).tonight(state, desk_of(request).now())


def _words(request: Request, state: State, owners: OwnersFile, answer: Answer) -> dict[str, Any]:
    style = style_of(request, state)
    tilts = KEPT.tilts(owners, answer)
    asked = _asked(request, answer, tilts)
    day = _day(owners, answer, asked)
    made = {name: scene(answer, tilts, style, SCREEN, size_named(name, asked.large), asked.tilt_deg, day, asked.which) for name in SIZES}  # fmt: skip
    stand, best = answer.stand, answer.more.changes[0] if answer.more.changes else None
    helps = best if best is not None and best.weakest_m_s > stand.first_gives_m_s + 0.5 else None
    doubts, tonight = doubts_of(answer.rows), _tonight(request, state)
    plan = plan_of(answer)
    engine = owners.homestead.household.engine
    rules = None if engine is None else (engine.call_at, engine.let_go_at)
    mount = owners.homestead.mount
    return {
        "asked": asked,
        "scenes": {name: one[0] for name, one in made.items()},
        "told": made["narrow"][1].told,
        "small": {which: standalone(answer, tilts, style, SCREEN, asked.tilt_deg, which) for which in WHICH if which != asked.which},
        "stances": (("flat", "f", mount.least_tilt_deg), ("summer", "s", mount.summer_tilt_deg), ("winter", "w", mount.winter_tilt_deg)),
        "two_questions": TWO_QUESTIONS,
        "cells": title_block(answer, style),
        "broken": [fault_of(answer, check) for check in failing(answer)],
        "assumed": assumed(answer),
        "first_gives": (stand.first_gives, gust(stand.first_gives_m_s, style), f"{stand.first_gives_tilt_deg:.0f}°"),
        "helps": None if helps is None else (helps.words, gust(helps.weakest_m_s, style), helps.gives_first, helps.price),
        "next": next_act(answer, asked.on),
        "today": asked.on.isoformat(),
        "person": length(PERSON_M, style),
        "plots": {own: gust_card(stand, style, SCREEN, *size, _letters(asked), asked.tilt_deg, own, tonight) for own, size in PLOTS.items()},
        "today_row": _today_row(answer, style, asked.tilt_deg),
        "card_said": _card_said(answer, style, asked.tilt_deg, tonight),
        "card_rows": rows_of(stand),
        "gust": lambda speed: gust(speed, style),
        "speed": lambda speed: _speed(speed, style),
        "years": {name: year_picture(answer, SCREEN, wide, habit=None if plan is None else answer.habits[plan]) for name, wide in YEARS.items()},
        "upright": year_upright(answer, SCREEN),
        "groups": habit_groups(answer),
        "plan": plan,
        "bounds": list(bounds(answer)),
        "tipping": tipping_worth(answer),
        "weeks": {name: fortnight_chart(answer.winter.fortnight, SCREEN, wide, rules=rules, mark=f"fortnight-{name}-hour") for name, wide in WEEKS.items()},
        "fortnight_said": fortnight_words(answer.winter.fortnight),
        "use_of": use_of,
        "slug": slug,
        "field_of": _addresses(owners),
        "named": doubt_name,
        "helps_most": helps_most(answer, style),
        "as_set": AS_SET,
        "moves_words": moves_words,
        "guesses": [doubt for doubt in doubts if doubt.row.standing == "assumed"],
        "defaults": [doubt for doubt in doubts if doubt.row.standing == "default"],
        "before": state.before is not None,
        "ranked": _ranked(request, state, style),
    }  # fmt: skip


def _today_row(answer: Answer, style: Style, tilt_deg: float) -> tuple[str, str, str, str]:
    row = min(answer.stand.card, key=lambda one: abs(one.tilt_deg - tilt_deg))
    return f"today, {tilt_deg:.0f}°", _speed(row.stands_to_m_s, style), row.gives_first, _speed(row.path_under_m_s, style)  # fmt: skip


def _speed(speed_m_s: float | None, style: Style) -> str:
    """A gust in a column whose head has the unit."""
    return "–" if speed_m_s is None else f"{gust_step(speed_m_s, style):.0f}"


def _ranked(request: Request, state: State, style: Style) -> list[tuple[Row, str, str]] | None:
    """The doubts that move the answers most: the row, what it moves, what settles it; None while they are not ranked."""
    found = found_in(desk_of(request).jobs.job(DOUBTS), state)
    if found is None:
        return None
    much = [one for one in found if one.reach is not None and matters(one)][:MARGIN_DOUBTS]
    return [(one.doubt.row, next(iter(reach_words(one.reach, style)), "") if one.reach else "", one.brief) for one in much]  # fmt: skip


def _letters(asked: Asked) -> float:
    """Size of the letters of a chart [px]."""
    return size_named("wide", asked.large).letters


def _card_said(answer: Answer, style: Style, tilt_deg: float, tonight: TonightGust | None) -> str:
    row = min(answer.stand.card, key=lambda one: abs(one.tilt_deg - tilt_deg))
    said = f"At {tilt_deg:.0f}° it stands to {gust(row.stands_to_m_s, style)}, {against_the_code(row.stands_to_m_s, answer.stand, style)}."
    return said if tonight is None else f"{said} {tonight_words(row.stands_to_m_s, tonight, style)}"


def _addresses(owners: OwnersFile) -> Callable[[Row], str]:
    """Where a row is edited."""

    def address(row: Row) -> str:
        try:
            return place_of_path(path_of(owners.homestead, row))
        except KeyError:
            return "/file"

    return address


async def draw(request: Request) -> Response:
    """What one tilt changes; with ``whole`` the drawing itself."""
    state = desk_of(request).state
    there = _open(state)
    if there is None:
        return JSONResponse({"told": "not yet"}, status_code=409)
    owners, answer = there
    style, tilts = style_of(request, state), KEPT.tilts(owners, answer)
    asked = _asked(request, answer, tilts)
    name = request.query_params.get("width", "wide")
    size = size_named(name if name in SIZES else "wide", asked.large)
    day = _day(owners, answer, asked)
    if "whole" in request.query_params:
        svg, _ = scene(answer, tilts, style, SCREEN, size, asked.tilt_deg, day, asked.which)
        return Response(svg, media_type="image/svg+xml")
    changes = changes_of(field_of(answer, tilts, style, SCREEN, size), asked.tilt_deg, day, asked.which)  # fmt: skip
    groups = dict(changes.groups)
    if size.name != "wide":
        groups |= {f"small-{which}": small_view(answer, tilts, style, SCREEN, asked.tilt_deg, which) for which in WHICH if which != asked.which}  # fmt: skip
    tonight = _tonight(request, state)
    own = {"wide": "card", "mid": "card-mid"}.get(size.name, "card-narrow")
    groups[f"{own}-today"] = today_mark(plot_of(answer.stand, style, SCREEN, *PLOTS[own], _letters(asked), tonight), asked.tilt_deg)  # fmt: skip
    texts = {"card-said": _card_said(answer, style, asked.tilt_deg, tonight)}
    texts |= dict(zip(("today-tilt", "today-stands", "today-first", "today-move"), _today_row(answer, style, asked.tilt_deg), strict=True))  # fmt: skip
    for number in changes.told:
        texts |= {f"told-{number.key}": " ".join(number.head), f"beside-{number.key}": ", ".join(number.beside)}  # fmt: skip
    return JSONResponse(
        {
            "serial": state.serial,
            "tilt": asked.tilt_deg,
            "groups": groups,
            "attributes": changes.attributes,
            "texts": texts,
            "keys": [number.key for number in changes.told],
            "spoken": changes.spoken,
            "sun": day.sun is not None,
        }
    )


async def working(request: Request) -> Response:
    """The slip of one number, as a page of its own or, asked for so, by itself."""
    state = desk_of(request).state
    there = _open(state)
    if there is None:
        return PlainTextResponse("There is no answer yet; the sheet is at /", status_code=404)
    owners, answer = there
    tilts = KEPT.tilts(owners, answer)
    asked, key = _asked(request, answer, tilts), request.path_params["key"]
    style = style_of(request, state)
    slips = Slips(answer, tilts, KEPT.sun(owners, answer), style, asked.tilt_deg, asked.calendar_day)  # fmt: skip
    slip = slips.of(key)
    if slip is None:
        fault = KEPT.fault(owners, answer)
        words = (
            f"The sun of the days could not be worked ({fault}); it is tried again."
            if fault
            else "The sun of this day is still being worked; ask again in a few seconds."
        )
        words = words if key == "sun" else "No number has that name; the sheet is at /"
        return PlainTextResponse(words, status_code=404)
    template = "sheet-slip.html" if "slip" in request.query_params else "sheet-working.html"
    return page(request, state, template, {"slip": slip, "field_of": _addresses(owners)})


async def year(request: Request) -> Response:
    """The year under one way of tipping, another as a ghost; from results at hand."""
    there = _open(desk_of(request).state)
    if there is None:
        return JSONResponse({"told": "not yet"}, status_code=409)
    answer, given = there[1], request.query_params
    habits = answer.habits

    def one(name: str) -> Any:
        nth = given.get(name, "")
        return next((habit for at, habit in enumerate(habits) if str(at) == nth), None)

    name = given.get("width", "wide")
    if name == "narrow":
        return Response(year_upright(answer, SCREEN, habit=one("habit")), media_type="image/svg+xml")  # fmt: skip
    svg = year_picture(answer, SCREEN, YEARS.get(name, YEARS["wide"]), habit=one("habit"), before=one("before"))  # fmt: skip
    return Response(svg, media_type="image/svg+xml")


async def fortnight(request: Request) -> Response:
    """Every hour of the worst fortnight, where it lies and what it says."""
    there = _open(desk_of(request).state)
    if there is None:
        return JSONResponse({"told": "not yet"}, status_code=409)
    wide = WEEKS.get(request.query_params.get("width", "wide"), WEEKS["wide"])
    return JSONResponse({"hours": hours_told(there[1].winter.fortnight, wide)})


def _before(desk: Desk, state: State) -> tuple[OwnersFile, Answer] | None:
    """File and answer before the last edit, where the desk still holds both."""
    was = state.before
    text = None if was is None else desk.text_of_fingerprint(was.fingerprint)
    if was is None or text is None or state.path is None:
        return None
    try:
        return read_text(state.path, text), was
    except Wrong:
        return None


async def before(request: Request) -> Response:
    """The state before the last edit, to lay dashed under this one, with its three answers."""
    desk = desk_of(request)
    state = desk.state
    there, was = _open(state), _before(desk, state)
    if there is None or was is None:
        return JSONResponse({"told": "no edit yet"}, status_code=404)
    style, tilts = style_of(request, state), KEPT.tilts(*there)
    asked = _asked(request, there[1], tilts)
    name = request.query_params.get("width", "wide")
    size = size_named(name if name in SIZES else "wide", asked.large)
    field = field_of(there[1], tilts, style, SCREEN, size)
    other = field_of(was[1], KEPT.tilts(*was), style, SCREEN, size)
    told = {"id": field.id("before"), "group": ghost(field.under(other), asked.tilt_deg)}
    return JSONResponse({**told, "answers": [cell.answer for cell in title_block(was[1], style)]})


ROUTES = (
    Route("/", sheet),
    Route("/draw", draw),
    Route("/working/{key}", working),
    Route("/year", year),
    Route("/fortnight", fortnight),
    Route("/before", before),
)
CONTENTS = (
    Entry("drawing", "/#drawing", 10), Entry("gusts", "/#gusts", 20), Entry("habits", "/#habits", 30),
    Entry("the worst fortnight", "/#winter", 40), Entry("what was checked", "/#checked", 50), Entry("cautions", "/#cautions", 60),
)  # fmt: skip
