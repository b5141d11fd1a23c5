"""The words of the command."""

from __future__ import annotations

import argparse
from datetime import date
from pathlib import Path

from polestead import __version__
from polestead.base.quantity import read_quantity

FILE_HELP = "your homestead file, or the name of a demo (hollow-spruce, cinder-mesa, slieve-moss)"


def whole(text: str, least: int, most: int, what: str) -> int:
    """A whole number between two ends, for argparse."""
    if not text.isdigit() or not least <= int(text) <= most:
        message = f"{text} is no {what}: a whole number from {least} to {most}"
        raise argparse.ArgumentTypeError(message)
    return int(text)


def years(text: str) -> int:
    """How many years to draw."""
    return whole(text, 10, 2000, "number of years")


def seed(text: str) -> int:
    """Seed of the draw."""
    return whole(text, 0, 2**31 - 1, "seed")


WIRE_PARTS = ("short", "strings", "run", "guards", "battery", "trench", "cord", "drive", "test", "basis")  # fmt: skip


def light_w_m2(text: str) -> float:
    """Sun on the glass, watts a square metre."""
    number = text.lower().removesuffix("w/m2").strip()
    try:
        value = float(number)
    except ValueError:
        value = -1.0
    if not 50.0 <= value <= 1500.0:
        message = f"{text} is no sun on glass: a number of W/m2 from 50 to 1500"
        raise argparse.ArgumentTypeError(message)
    return value


def cell_c(text: str) -> float:
    """Warmth of the cells."""
    try:
        value = read_quantity(text, "temperature")
    except ValueError as wrong:
        raise argparse.ArgumentTypeError(str(wrong)) from wrong
    if not -60.0 <= value <= 100.0:
        message = f"{text} is no warmth of cells in daylight: from -60 C to 100 C"
        raise argparse.ArgumentTypeError(message)
    return value


def count(text: str) -> int:
    """How many entries to list."""
    return whole(text, 1, 100_000, "number of entries")


def day(text: str) -> date:
    """A day of the calendar."""
    try:
        return date.fromisoformat(text)
    except ValueError:
        message = f"{text} is no day: write it as 2026-06-12"
        raise argparse.ArgumentTypeError(message) from None


def daily_air(text: str) -> tuple[float | None, ...]:
    """Mean temperature of each day, None for a question mark."""
    found: list[float | None] = []
    for one in text.split(","):
        word = one.strip()
        if word == "?":
            found.append(None)
            continue
        try:
            value = read_quantity(word, "temperature")
        except ValueError as wrong:
            raise argparse.ArgumentTypeError(str(wrong)) from wrong
        if not -60.0 <= value <= 60.0:
            message = f"{word} is no day's air: from -60 C to 60 C"
            raise argparse.ArgumentTypeError(message)
        found.append(value)
    return tuple(found)


def port(text: str) -> int:
    """A port of this machine."""
    return whole(text, 0, 65535, "port")


def read(arguments: list[str] | None) -> argparse.Namespace:
    """The words of a command; those of a log line may stand on both sides of its options."""
    top = parser()
    words, more = top.parse_known_args(arguments)
    if more and (words.command != "log" or any(one.startswith("--") for one in more)):
        top.error(f"unrecognized arguments: {' '.join(more)}")
    if more:
        words.words += more
    return words


def parser() -> argparse.ArgumentParser:
    """All commands and what they take."""
    top = argparse.ArgumentParser(
        prog="polestead",
        description="Plan, check, build and run a tipping solar array on one pole, for a house that lives on batteries.",
        epilog="Screening sums, not a stamped design: your local code, a licensed engineer and an electrician decide. "
        "Exit codes: 0 it stands; 1 something gives, or it stands only when laid flat; 2 the file or the command is wrong.",
    )
    top.add_argument("--version", action="version", version=f"polestead {__version__}")
    commands = top.add_subparsers(dest="command", required=True, metavar="COMMAND")

    start = commands.add_parser(
        "start", help="write a new homestead file, from five questions or from a demo"
    )
    start.add_argument(
        "file",
        type=Path,
        metavar="FILE",
        help="the new file; one that is there is never overwritten",
    )
    start.add_argument(
        "--demo", metavar="NAME", help="begin from a demo instead of the five questions"
    )

    answer = commands.add_parser(
        "answer", help="does it stand, does it carry us through winter, what does it cost"
    )
    _file(answer)
    _draw(answer)
    answer.add_argument(
        "--json", type=Path, metavar="PATH", help="write the answer as JSON too (SI)"
    )
    answer.add_argument("--pdf", type=Path, metavar="PATH", help="write the one-page sheet too")

    answer.add_argument(
        "--working",
        metavar="WORDS",
        help="print how a figure was found, step by step, instead (engine hours, concrete, ...)",
    )

    gusts = commands.add_parser("gusts", help="what each tilt stands to, and what gives first")
    _file(gusts)
    gusts.add_argument(
        "--working",
        metavar="PART",
        help="print how a part was found, step by step: in the code's check or, with --state, at the gust it stands to",
    )
    gusts.add_argument(
        "--state",
        choices=("locked", "half snow", "rod", "prop", "moving"),
        help="one state: the storm hold in; the same under half-covering snow; on the rod alone; on the prop half-way; being moved",
    )

    wires = commands.add_parser(
        "wires",
        help="strings, run, guards, battery, trench, tilt drive, test form: from the modules to the battery",
    )
    _file(wires)
    wires.add_argument(
        "--working",
        metavar="ITEM",
        help="print how a figure was found, step by step, instead (cold voltage, drop, ...)",
    )
    wires.add_argument("--part", choices=WIRE_PARTS, help="print one part only")
    wires.add_argument(
        "--light",
        type=light_w_m2,
        metavar="W/M2",
        help="sun on the glass at the hour of the test, for the test form (with --cell)",
    )
    wires.add_argument(
        "--cell", type=cell_c, metavar="TEMP", help="warmth of the cells then, as '35 C' or '95 F'"
    )
    wires.add_argument(
        "--seed", type=seed, default=1, metavar="N", help="of the weather (default 1)"
    )
    wires.add_argument("--json", type=Path, metavar="PATH", help="write all of it as JSON too (SI)")
    wires.add_argument(
        "--drawings", type=Path, metavar="FOLDER", help="write one-line and string map as SVG too"
    )

    build = commands.add_parser(
        "build", help="pieces, cut list, plates, bolts, pour, trench, lifts, order of the modules"
    )
    _file(build)
    build.add_argument(
        "--working",
        metavar="ITEM",
        help="print how a figure was found, step by step, instead (concrete, braces, lift, ...)",
    )
    build.add_argument("--json", type=Path, metavar="PATH", help="write all of it as JSON too (SI)")

    cards = commands.add_parser("cards", help="a card for each act of building, and for the pole")
    _file(cards)
    cards.add_argument("--act", metavar="ACT", help="one card: hole, pour, weld, stuck, ...")
    cards.add_argument(
        "--on", type=day, metavar="DATE", help="the day the pole is aimed, as 2026-06-12"
    )
    _cure(cards)

    calendar = commands.add_parser(
        "calendar", help="acts, sign-offs, cure clock, yearly chores and tilt dates"
    )
    calendar.add_argument("file", metavar="FILE", help=FILE_HELP)
    calendar.add_argument(
        "--start",
        type=day,
        metavar="DATE",
        help="the first day of building, as 2026-05-04; left out, chores and tilt dates from today on, by the daybook",
    )
    calendar.add_argument(
        "--ics", type=Path, metavar="PATH", help="write it for phone and desk too"
    )

    _log(commands.add_parser(
        "log", help="the daybook: write a line, list it, a table in and out, chores due, what it teaches",
        description="Write what you saw, things between commas: tilt 62, charge 78 %, engine 2.5 h, fuel 3 gal, snow dusted, gust 35 mph, note ice on the rod. "
        "Also: rod 7-3/8 in, rest 25.1 V, made 6.2 kWh, all made 9 kWh, meter 1250 h, tank 40 %, gust whole trees move, done grease.",
    ))  # fmt: skip

    habits = commands.add_parser(
        "habits", help="ways of tipping over the year, and what tipping is worth"
    )
    _file(habits)
    _draw(habits)

    money = commands.add_parser(
        "money", help="ledger, build or buy, worth today, and what else the money could do"
    )
    _file(money)
    _draw(money)
    money.add_argument(
        "--working",
        metavar="WORDS",
        help="print how a figure was found, step by step, instead (ledger, build, present value, ...)",
    )
    money.add_argument("--json", type=Path, metavar="PATH", help="write all of it as JSON too (SI)")
    money.add_argument(
        "--csv", type=Path, metavar="PATH", help="write the whole ledger as CSV too; it reads back"
    )

    book = commands.add_parser(
        "book", help="the build book, leaves for engineer, inspector, technician, and a phone file"
    )
    _file(book)
    _draw(book)
    book.add_argument(
        "--out", type=Path, required=True, metavar="DIR", help="folder to write into; it is made"
    )
    book.add_argument(
        "--only",
        metavar="LEAF",
        action="append",
        default=[],
        help="one leaf, and once more for each further one: book, engineer, inspector, technician, cards, gauge, gust-card, templates, calendar, asking, money, week (from --on or today) or phone",
    )
    book.add_argument(
        "--paper", choices=("letter", "a4"), help="left out: Letter in feet, A4 in metric"
    )
    book.add_argument("--phone", action="store_true", help="write the phone file too")
    book.add_argument(
        "--start", type=day, metavar="DATE", help="the first day of work, for the calendar's dates"
    )
    book.add_argument(
        "--on",
        type=day,
        metavar="YYYY-MM-DD",
        help="day to print in the foot; left out, a blank is, and the same file gives the same bytes",
    )

    _cure(book)

    _morning(commands.add_parser("morning", help="the line for today: tilt, engine, tonight; weighed against the gust"))  # fmt: skip

    ask = commands.add_parser("ask", help="what is assumed, and whom to ask")
    ask.add_argument("file", metavar="FILE", help=FILE_HELP)
    ask.add_argument(
        "--answer",
        action="append",
        nargs=2,
        default=[],
        metavar=("KEY", "VALUE"),
        help="write an answer into the file, with today's date: --answer place.frost_depth '63 in'; may be given again",
    )
    ask.add_argument("--of", default="", metavar="WHOM", help="who gave it: a name or an office")
    ask.add_argument(
        "--said", default="", metavar="WORDS", help="their own words, kept beside the value"
    )

    doubts = commands.add_parser(
        "doubts", help="what nobody has confirmed, ranked by how far it moves the answers"
    )
    _file(doubts)
    doubts.add_argument(
        "--seed", type=seed, default=1, metavar="N", help="of the weather (default 1)"
    )
    doubts.add_argument("--json", type=Path, metavar="PATH", help="write it as JSON too (SI)")

    schema = commands.add_parser(
        "schema", help="print the JSON Schema of the homestead file or of the answer"
    )
    schema.add_argument("--of", choices=("file", "answer"), default="file")

    page = commands.add_parser(
        "open",
        help="the sheet in the browser, on this machine only; without FILE: the letter and the demos",
    )
    page.add_argument("file", metavar="FILE", nargs="?", help=FILE_HELP)
    _draw(page)
    page.add_argument(
        "--port",
        type=port,
        default=0,
        metavar="N",
        help="port to use; left out, a free one is found",
    )
    page.add_argument("--no-browser", action="store_true", help="only say where it is")
    page.add_argument(
        "--lan", action="store_true", help="let other machines of the house in, with a passcode"
    )
    return top


def _log(command: argparse.ArgumentParser) -> None:
    _file(command)
    command.add_argument("words", nargs="*", metavar="WORDS", help="what you saw, things between commas; a note last or in quotes")  # fmt: skip
    command.add_argument("--on", metavar="DAY", help="2026-11-24 or yesterday; left out, today")
    command.add_argument("--at", metavar="TIME", help="7:10, 7:10 pm, or with its offset from UTC 7:10 -06:00; left out, now")  # fmt: skip
    command.add_argument("--list", type=count, nargs="?", const=20, metavar="N", help="the last N entries (20), and days without one")  # fmt: skip
    command.add_argument("--strike", nargs="+", metavar=("N", "WHY"), help="withdraw entry N; it stays, with the reason")  # fmt: skip
    command.add_argument("--chores", action="store_true", help="every chore: when, last time, why")
    command.add_argument("--chore", metavar="NAME", help="one chore, and how it is done")
    command.add_argument("--ticks", metavar="LINE", help="the phone file's line of ticks")
    command.add_argument("--csv", type=Path, metavar="IN", help="take a table in, by columns chosen by meaning, or an exported daybook")  # fmt: skip
    command.add_argument("--column", action="append", default=[], metavar="'MEANING = COLUMN'", help="as 'charge = column 4, %%' or 'day = headed Date, day first'; over [daybook] columns in your file")  # fmt: skip
    command.add_argument("--between", choices=("comma", "semicolon", "tab"), help="what stands between two cells of the table")  # fmt: skip
    command.add_argument("--encoding", choices=("utf-8", "utf-16", "windows-1252", "latin-1"), help="what the table was saved in (utf-8)")  # fmt: skip
    command.add_argument("--dry-run", action="store_true", help="only say what would be written, line by line")  # fmt: skip
    command.add_argument("--leave-out", action="store_true", help="write the lines that can be read, and leave the refused ones out")  # fmt: skip
    command.add_argument("--export", type=Path, metavar="OUT", help="the whole daybook as CSV; it comes back without loss")  # fmt: skip
    command.add_argument("--taught", action="store_true", help="what the log teaches: what has changed and since when, month factors, engine beside its years")  # fmt: skip
    command.add_argument("--why", action="store_true", help="with --taught: how each was found")
    command.add_argument("--json", type=Path, metavar="PATH", help="every entry as JSON (SI); with --taught, what the log teaches")  # fmt: skip


def _file(command: argparse.ArgumentParser) -> None:
    command.add_argument("file", metavar="FILE", help=FILE_HELP)
    command.add_argument(
        "--units",
        choices=("feet", "metric"),
        help="show in these units; left out, as the file says",
    )


def _morning(command: argparse.ArgumentParser) -> None:
    _file(command)
    command.add_argument("--heard", metavar="WORDS", help='the forecast as heard, as "clear, 20 to 30 F, gusts 45 kt, 4 in snow tonight; tomorrow grey"')  # fmt: skip
    command.add_argument("--forecast", type=Path, metavar="PATH", help="a forecast file, TOML or CSV")  # fmt: skip
    command.add_argument("--lies", metavar="TILT", help="where the array lies, as 62 or '62 deg'")
    command.add_argument("--charge", metavar="SHARE", help='of the battery, as "78 %%"')
    command.add_argument("--age", metavar="TIME", default="0 h", help='how long ago the charge was read, as "3 h" or "2 days"')  # fmt: skip
    command.add_argument("--away", metavar="WHERE", help='home, "till dark" or so many days, as "2 days"')  # fmt: skip
    command.add_argument("--blows", metavar="WIND", help='what it blows now: "35 mph", or by eye, as "small branches"')  # fmt: skip
    command.add_argument("--snow", metavar="GLASS", default="not looked", help='on the glass: bare, dusted, covered, iced, buried, or how deep, as "2 in"')  # fmt: skip
    command.add_argument("--today", type=day, metavar="DATE", help="the day, as 2026-11-25; left out, today")  # fmt: skip
    command.add_argument("--at", metavar="TIME", help="the hour as your clock shows it, as 7:10; left out, now")  # fmt: skip
    command.add_argument("--keep", action="store_true", help="write what you saw and the line into the daybook too")  # fmt: skip
    command.add_argument("--why", action="store_true", help="print why in five lines too")
    command.add_argument("--working", metavar="WORDS", help="print how a figure of the why was found instead (gust, sun, battery, ...)")  # fmt: skip
    command.add_argument("--week", action="store_true", help="print the week leaf instead")
    command.add_argument("--json", type=Path, metavar="PATH", help="write all of it as JSON too (SI); - for the screen, and nothing else there")  # fmt: skip


def _cure(command: argparse.ArgumentParser) -> None:
    command.add_argument(
        "--poured", type=day, metavar="DATE", help="the day of the pour, for the cure clock"
    )
    command.add_argument(
        "--air",
        type=daily_air,
        metavar="TEMPS",
        help="mean air of each day since, one after the other, ? where nobody looked: '12 C, 9 C, ?, 14 C'",
    )


def _draw(command: argparse.ArgumentParser) -> None:
    command.add_argument(
        "--years", type=years, default=100, metavar="N", help="synthetic years to draw (100)"
    )
    command.add_argument("--seed", type=seed, default=1, metavar="S", help="seed of the draw (1)")
