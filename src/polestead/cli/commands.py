"""One function a command; each reads, asks a room, writes what is asked for, and prints what a sheet made of it: last, for who reads it may stop reading (`| head`)."""

from __future__ import annotations

import argparse
import json
import sys
from datetime import date, datetime
from itertools import chain
from pathlib import Path
from typing import TYPE_CHECKING, cast

from polestead.base.problem import Problem, Wrong
from polestead.base.show import Style
from polestead.cli.put import put, put_data
from polestead.homestead.demos import demo_names, demo_path

if TYPE_CHECKING:
    from polestead.answer.answer import Answer
    from polestead.answer.wires import Wires
    from polestead.build.calendar import Calendar
    from polestead.homestead.read import OwnersFile
    from polestead.morning.week import WeekLeaf


def _owners(name: str) -> OwnersFile:
    """The owner's file, or the demo of that name where no such file is there."""
    from polestead.homestead.read import read_homestead

    path = Path(name)
    if name in demo_names() and not path.exists():
        path = demo_path(name)
    return read_homestead(path)


def _style(words: argparse.Namespace, answer: Answer) -> Style:
    return cast("Style", words.units or answer.units)


def _worked(owners: OwnersFile, years: int, seed: int) -> Answer:
    from polestead.answer.answer import answer_of
    from polestead.cli.progress import shown

    with shown() as progress:
        return answer_of(owners, years, seed, progress)


def _code(answer: Answer) -> int:
    from polestead.sheets.verdict import failing

    return 1 if answer.stand.verdict != "stands" or failing(answer) else 0


def answer(words: argparse.Namespace) -> int:
    """The three answers."""
    from polestead.sheets.data import answer_data
    from polestead.sheets.text import answer_text
    from polestead.sheets.workings import of_answer, printed

    result = _worked(_owners(words.file), words.years, words.seed)
    style = _style(words, result)
    said = answer_text(result, style) if words.working is None else printed(of_answer(result), words.working, style)  # fmt: skip
    if words.json is not None:
        put_data(words.json, answer_data(result))
    if words.pdf is not None:
        from polestead.sheets.paper import one_page

        put(words.pdf, one_page(result, style))
    print(said)
    return _code(result)


def gusts(words: argparse.Namespace) -> int:
    """The gust card; it asks nothing of the weather and the house."""
    from polestead.answer.stands import more_only, stand_only, state_workings
    from polestead.sheets.gusts import gusts_text, state_text
    from polestead.sheets.workings import of_more, of_stand, printed

    owners = _owners(words.file)
    name, stand = owners.homestead.name, stand_only(owners)
    style = cast("Style", words.units or owners.homestead.units)
    if words.working is not None and words.state is not None:
        print(printed(state_workings(owners, words.state), words.working, style))
    elif words.working is not None:
        print(printed(chain(of_stand(stand), of_more(more_only(owners))), words.working, style))
    elif words.state is not None:
        card = next((one for one in stand.states if one.state == words.state), None)
        if card is None:
            next(iter(state_workings(owners, words.state)))  # tells which there are
        else:
            print(state_text(name, card, style))
    else:
        print(gusts_text(name, stand, more_only(owners), style))
    holds = stand.verdict == "stands" and all(check.holds for check in stand.geometry_checks)
    return 0 if holds else 1


def wires(words: argparse.Namespace) -> int:
    """Strings, run, guards, battery, trench, tilt drive and test form; one block of years is worked."""
    from polestead.answer.wires import wires_in
    from polestead.sheets.data import wires_data
    from polestead.sheets.wires.page import wires_text
    from polestead.sheets.workings import of_all_wires, printed

    owners = _owners(words.file)
    file = owners.homestead
    result = wires_in(owners, words.seed, words.light, words.cell)
    style = cast("Style", words.units or file.units)
    said = wires_text(result, file.prices.currency, style, words.part) if words.working is None else printed(of_all_wires(result), words.working, style)  # fmt: skip
    if words.json is not None:
        put_data(words.json, wires_data(result))
    if words.drawings is not None:
        _draw_wires(result, words.drawings, style)
    print(said)
    return 0 if all(check.holds for check in result.checks) else 1


def _draw_wires(result: Wires, folder: Path, style: Style) -> None:
    from polestead.sheets.one_line import one_line
    from polestead.sheets.string_map import string_map
    from polestead.sheets.svg import PAPER

    one = one_line(result.one_line, style, PAPER, name=result.name)
    put(folder / "one-line.svg", one.encode("utf-8"))
    strings = string_map(result.string_map, style, PAPER, name=result.name)
    put(folder / "string-map.svg", strings.encode("utf-8"))


def build(words: argparse.Namespace) -> int:
    """Pieces, cut list, pour and lifts; it asks nothing of the weather."""
    from polestead.answer.stands import built_only
    from polestead.sheets.building import building_text
    from polestead.sheets.data import build_data
    from polestead.sheets.workings import of_build, printed

    owners = _owners(words.file)
    file = owners.homestead
    style = cast("Style", words.units or file.units)
    result = built_only(owners, style)
    said = building_text(file.name, result, style) if words.working is None else printed(of_build(result), words.working, style)  # fmt: skip
    if words.json is not None:
        put_data(words.json, build_data(file.name, result))
    print(said)
    return 0 if all(check.holds for check in result.hanging.checks) else 1


def habits(words: argparse.Namespace) -> int:
    """Ways of tipping."""
    from polestead.sheets.habits import habits_text

    result = _worked(_owners(words.file), words.years, words.seed)
    print(habits_text(result, _style(words, result)))
    return 0


def money(words: argparse.Namespace) -> int:
    """Ledger, worth today, build or buy, and what else the money could do."""
    from polestead.answer.instead import instead_of
    from polestead.homestead.ledger import ledger_text, rows_in
    from polestead.sheets.data import money_data
    from polestead.sheets.money import money_text
    from polestead.sheets.workings import of_instead, of_money, printed

    owners = _owners(words.file)
    result = _worked(owners, words.years, words.seed)
    instead = instead_of(owners, result)
    style = _style(words, result)
    found = chain(of_money(result.money), of_instead(instead))
    said = money_text(result, instead, style) if words.working is None else printed(found, words.working, style)  # fmt: skip
    if words.json is not None:
        put_data(words.json, money_data(result, instead))
    if words.csv is not None:
        prices = owners.homestead.prices
        rows = rows_in(prices, owners.rows, owners.ledger)
        put(words.csv, ledger_text(rows, prices.ledger_columns).encode("utf-8"))
    print(said)
    return 0


def book(words: argparse.Namespace) -> int:
    """The build book and its leaves."""
    from polestead.answer.cards import calendar_only, cards_only
    from polestead.answer.drawables import drawables_of
    from polestead.cli.progress import shown
    from polestead.sheets.book.book import matter_of
    from polestead.sheets.leaf import Paper
    from polestead.sheets.named import PHONE, WEEK, wanted
    from polestead.sheets.shelf import made, pressed

    names = wanted(words.only, words.phone)
    owners = _owners(words.file)
    result = _worked(owners, words.years, words.seed)
    style = _style(words, result)
    paper: Paper = words.paper or ("letter" if style == "feet" else "a4")
    drawn = drawables_of(owners, result.stand, style)
    cards = cards_only(owners, words.on, words.poured, words.air or (), result.stand, style)
    dates = (
        None
        if words.start is None
        else calendar_only(owners, words.start, words.poured, words.air or ())
    )
    week = _week(words, style) if WEEK in names or (PHONE in names and words.on is not None) else None  # fmt: skip
    matter = matter_of(owners, result, style, paper, words.on, cards, drawn, dates, week)
    # all of it before the first is written: a folder never holds half a book
    with shown() as progress:
        files = pressed(made(names, matter, drawn), progress)
    for file, content in files:
        put(words.out / file, content)
    if matter.warning:
        print(matter.warning, file=sys.stderr)
    return _code(result)


def _week(words: argparse.Namespace, style: Style) -> WeekLeaf:
    """The week from the day of the print on; from today where none is told."""
    from polestead.cli.morning import basis_in
    from polestead.morning.week import week_of

    day = words.on or date.today()
    return week_of(basis_in(words.file)[0], datetime(day.year, day.month, day.day), style)


def ask(words: argparse.Namespace) -> int:
    """The asking list; with answers, these are written into the file instead."""
    from polestead.build.asking import asking_leaf, asking_list
    from polestead.sheets.asking import asking_text
    from polestead.site.place import place_in_words

    if words.answer:
        return _answered(words)
    owners = _owners(words.file)
    file = owners.homestead
    leaf = asking_leaf(owners.rows, file.buried)
    print(asking_text(file.name, place_in_words(file.place), asking_list(owners.rows), owners.rows, leaf))  # fmt: skip
    return 0


def doubts(words: argparse.Namespace) -> int:
    """What nobody has confirmed, what moves the answers most first."""
    from polestead.cli.progress import shown
    from polestead.homestead.text import text_of
    from polestead.offers.doubts import ranked
    from polestead.sheets.data import doubts_data
    from polestead.sheets.doubts import doubts_text

    owners = _owners(words.file)
    file = owners.homestead
    with shown() as progress:
        found = ranked(owners, text_of(owners.path), words.seed, progress)
    if words.json is not None:
        put_data(words.json, doubts_data(file.name, found))
    print(doubts_text(file.name, found, cast("Style", words.units or file.units)))
    return 0


def _answered(words: argparse.Namespace) -> int:
    from polestead.homestead.answered import Reply, keep_answers
    from polestead.sheets.asking import answered_line

    path = Path(words.file)
    if words.file in demo_names() and not path.exists():
        do = f"Begin a file of your own: polestead start FILE --demo {words.file}"
        raise Wrong([Problem("", "", f"{words.file}, a demo", "a file of your own", do)])
    today = date.today()
    replies = [Reply(key, value, words.of, today, words.said) for key, value in words.answer]
    rows, kept = keep_answers(path, replies)
    for reply in replies:
        print(answered_line(reply, rows))
    print(f"written: {path}; as it was: {kept}", file=sys.stderr)
    return 0


def cards(words: argparse.Namespace) -> int:
    """The build cards; they ask nothing of the weather and the house."""
    from polestead.answer.cards import cards_only
    from polestead.sheets.cards import cards_text

    owners = _owners(words.file)
    style = cast("Style", words.units or owners.homestead.units)
    every = cards_only(owners, words.on, words.poured, words.air or (), style=style)
    picked = [card for card in every if words.act is None or card.act == words.act]
    if not picked:
        there = ", ".join(card.act for card in every)
        raise Wrong([Problem("", "--act", words.act, there, "Name one of these.")])
    print(cards_text(owners.homestead.name, picked, style, words.on))
    return 0


def calendar(words: argparse.Namespace) -> int:
    """Acts, sign-offs, cure clock, chores and tilt dates; chores by the daybook, where there is one."""
    from datetime import date

    from polestead.sheets.calendar import calendar_ics

    owners = _owners(words.file)
    today = date.today()
    made = _calendar(words, owners, today)
    name = owners.homestead.name
    if words.ics is not None:
        put(words.ics, calendar_ics(name, owners.fingerprint, words.start or today, made))
    for event in made.events:
        print(f"{event.on:%a %d %b %Y}  {event.name}{_repeats(event.repeats, event.every_days)}")
    for note in made.notes:
        print(f"- {note}")
    return 0


def _repeats(repeats: str, every_days: int) -> str:
    return f", {repeats}" if repeats else f", every {every_days} days" if every_days else ""


def _calendar(words: argparse.Namespace, owners: OwnersFile, today: date) -> Calendar:
    from polestead.cli.beside import daybook_beside
    from polestead.cli.log import found_chores
    from polestead.daybook.chores import calendar_from, with_daybook
    from polestead.mount.schedule import two_tilts

    there = daybook_beside(words.file).exists()
    if words.start is None and not there:
        raise Wrong([Problem("", "--start", "no first day, and no daybook yet", "2026-05-04", "Say when building begins; once there is a daybook the chores need no first day.")])  # fmt: skip
    file = owners.homestead
    tilts = two_tilts(file.mount.winter_tilt_deg, file.mount.summer_tilt_deg, file.place.latitude_deg)  # fmt: skip
    dated = calendar_from(found_chores(words.file, owners, today), today, tilts) if there else None
    if words.start is None and dated is not None:
        return dated
    from polestead.answer.cards import calendar_only

    made = calendar_only(owners, words.start)
    return made if dated is None else with_daybook(made, dated)


def log(words: argparse.Namespace) -> int:
    """The daybook."""
    from polestead.cli.log import log as work

    return work(words, _owners(words.file))


def schema(words: argparse.Namespace) -> int:
    """The schema of the file or of the answer."""
    from polestead.homestead.schema import homestead_schema
    from polestead.sheets.data import answer_schema

    print(json.dumps(homestead_schema() if words.of == "file" else answer_schema(), indent=1))
    return 0


def start(words: argparse.Namespace) -> int:
    """A new homestead file."""
    if words.file.exists():
        do = "Name another file; nothing is ever overwritten."
        raise Wrong([Problem("", "", f"{words.file}, which is there already", "a new name", do)])
    from polestead.homestead.start import LETTER, start_from_demo, start_from_letter

    if words.demo is not None:
        start_from_demo(words.file, words.demo)
    else:
        print(
            "Five blanks. Leave one empty and it is assumed, marked ~, for you to change later.\n"
        )
        answers = {
            blank.key: _asked(f"{blank.question}\n  as: {blank.example}\n> ") for blank in LETTER
        }
        start_from_letter(words.file, answers, words.file.stem.replace("-", " ").title())
    print(
        f"Written: {words.file}\nRead it through in a text editor, then: polestead answer {words.file}"
    )
    return 0


def _asked(prompt: str) -> str:
    try:
        return input(prompt)
    except EOFError:
        return ""


def open(words: argparse.Namespace) -> int:  # noqa: A001  the command's own word
    """The page in the browser; without a file the letter lies open."""
    from importlib.metadata import entry_points

    (page,) = entry_points(group="polestead.faces", name="page")  # decision 0006
    path = None if words.file is None else Path(words.file)
    demo = (
        words.file if path is not None and words.file in demo_names() and not path.exists() else ""
    )
    return int(
        page.load()(
            demo_path(demo) if demo else path, demo=demo, years=words.years, seed=words.seed,
            port=words.port, browser=not words.no_browser, lan=words.lan,
        )
    )  # fmt: skip
