"""The build book, and each of its leaves, as PDF."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace
from datetime import date
from functools import partial

from polestead.answer.answer import Answer
from polestead.answer.drawables import Drawables
from polestead.base.show import Style
from polestead.build.calendar import Calendar
from polestead.build.cards.card import Card
from polestead.homestead.read import OwnersFile
from polestead.morning.week import WeekLeaf
from polestead.mount.gauge import Gauge, gauge_of
from polestead.sheets.book import (
    acts,
    asked,
    built,
    dates,
    drawings,
    front,
    gusts,
    leaves,
    weeks,
    wired,
    years,
)
from polestead.sheets.book.blocks import Picture, Section, picture, say
from polestead.sheets.book.drawn import WIDE, own_drawings
from polestead.sheets.book.matter import Matter
from polestead.sheets.book.press import Cover, pressed
from polestead.sheets.drawn.front import front_drawing
from polestead.sheets.drawn.index import ALSO, DRAWINGS, drawing_named
from polestead.sheets.drawn.side import side_drawing
from polestead.sheets.gauge import gauge_leaves
from polestead.sheets.leaf import Paper
from polestead.sheets.svg import PAPER

FRONT_PX = 205.0  # of the array: front and plan stand on one page
TITLE_PX = 440.0  # of the mount on the title sheet: the answers stand under it
Pages = Callable[[Matter], Iterable[Section | None]]


def matter_of(
    owners: OwnersFile,
    answer: Answer,
    style: Style,
    paper: Paper,
    on: date | None = None,
    cards: Sequence[Card] = (),
    drawn_from: Drawables | None = None,
    calendar: Calendar | None = None,
    week: WeekLeaf | None = None,
) -> Matter:
    """What a book is made from.

    Args:
        owners: The file as read.
        answer: Its answer.
        style: Feet and inches to 1/16, or metric.
        paper: Letter or A4.
        on: Day of the print; None leaves a blank, so that the same answer gives the same bytes.
        cards: One for each act; without them the order of work stands in their place.
        drawn_from: What working drawings and the cards' sketches are drawn from, its words in the same style; None leaves them out.
        calendar: Acts, sign-offs and chores by date; None where no first day was given.
        week: For the week leaf and the phone file; None leaves it out.
    """
    named = dict(own_drawings(owners, answer, style))
    if drawn_from is not None:  # the book turns its own page for one-line and string map
        named |= {
            name: partial(drawing_named, name, drawn_from, style, PAPER, WIDE)
            for name in (*DRAWINGS, *ALSO)
            if name not in ("one-line", "string map")
        }
        named["front"] = partial(front_drawing, drawn_from, style, PAPER, WIDE, high=FRONT_PX)
        named["title"] = partial(side_drawing, drawn_from, style, PAPER, WIDE, high=TITLE_PX)
    built = answer.build if drawn_from is None else drawn_from.built
    shown = replace(answer, units=style, build=built)  # the same figures, their words in this style
    return Matter(owners, shown, style, paper, on, cards, named, drawn_from, calendar, week)


def gauge_in(matter: Matter) -> Gauge | None:
    """The rod gauge of the owner's drive; None without one."""
    file = matter.owners.homestead
    if file.drive is None:
        return None
    names = ("storm flat", "snow steep")
    stances = [(one.name, one.tilt_deg) for one in matter.answer.stand.stances if one.name in names]
    holes = () if file.lock is None else file.lock.holes_deg
    return gauge_of(file.drive, file.mount.least_tilt_deg, file.mount.steepest_tilt_deg, stances, holes)  # fmt: skip


def _gauge_pages(matter: Matter) -> list[Section]:
    """The strips at 1:1; a sentence where there is no drive."""
    gauge = gauge_in(matter)
    if gauge is None:
        return [Section("Rod gauge", (say("The gauge needs pins and stroke: write [drive] into the file."),))]  # fmt: skip
    made = gauge_leaves(gauge, matter.answer.name, matter.answer.fingerprint, matter.paper, matter.on, matter.style)  # fmt: skip
    return [Section(one.title, (picture(Picture(one.svg, one.words)),), "whole") for one in made]


def _acts(matter: Matter) -> list[Section]:
    return list(acts.card_pages(matter)) if matter.cards else [front.steps(matter)]


def _book(matter: Matter) -> list[Section | None]:
    return [
        front.title_sheet(matter), front.cautions(matter), *drawings.drawing_pages(matter), built.pieces(matter), built.pour(matter), built.lifts(matter), *_acts(matter),
        gusts.gust_card_page(matter), gusts.beside_the_card(matter), gusts.tape_table(gauge_in(matter), matter.style), *_gauge_pages(matter),
        wired.one_line_page(matter), wired.layout(matter), wired.guards(matter), wired.label_page(matter), wired.bank_page(matter),
        wired.test_form(matter), years.money(matter), years.bankers(matter), years.winter(matter), years.habits(matter), dates.calendar(matter), asked.asking(matter),
    ]  # fmt: skip


def _inspector(matter: Matter) -> list[Section | None]:
    return [leaves.inspector(matter), wired.one_line_page(matter), wired.trench_page(matter, to_buy=False), wired.label_page(matter)]  # fmt: skip


def _technician(matter: Matter) -> list[Section | None]:
    return [
        wired.to_the_technician(matter), wired.one_line_page(matter), wired.layout(matter, in_short=False), wired.guards(matter), wired.label_page(matter), wired.bank_page(matter),
        wired.trench_page(matter), wired.sizes_page(matter), wired.test_form(matter),
    ]  # fmt: skip


LEAVES: dict[str, tuple[str, Pages]] = {
    "book": ("build book", _book),
    "engineer": ("engineer's leaf", leaves.engineer),
    "inspector": ("inspector's leaf", _inspector),
    "technician": ("technician's leaf", _technician),
    "cards": ("build cards", lambda matter: [front.cautions(matter), *_acts(matter)]),
    "gauge": ("rod gauge and tape table", lambda matter: [*_gauge_pages(matter), gusts.tape_table(gauge_in(matter), matter.style)]),
    "gust-card": ("gust card", lambda matter: [gusts.gust_card_page(matter)]),
    "calendar": ("calendar", lambda matter: [dates.calendar(matter)]),
    "asking": ("asking list", lambda matter: [asked.asking(matter)]),
    "week": ("week leaf", lambda matter: [weeks.week_page(matter)]),
    "money": ("banker's leaf", lambda matter: [years.money(matter), years.bankers(matter)]),
}  # fmt: skip
CONTENTS = ("book", "engineer", "technician")


def leaf_pdf(name: str, matter: Matter) -> bytes:
    """One leaf; the same matter gives the same bytes.

    Args:
        name: One of ``LEAVES``.
        matter: From ``matter_of``.
    """
    title, pages = LEAVES[name]
    answer = matter.answer
    cover = Cover(
        title, answer.name, answer.fingerprint, matter.warning, matter.on, name in CONTENTS, 1 if name == "book" else 0
    )  # fmt: skip
    return pressed(
        cover, [one for one in pages(matter) if one is not None], matter.paper, matter.style
    )
