"""A new homestead file: a demo to change, or the letter of five blanks."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from polestead.base.problem import Problem, Wrong
from polestead.base.quantity import NotAQuantity, read_quantity
from polestead.homestead.demos import demo_path
from polestead.homestead.read import check_text
from polestead.homestead.sentences import pole_words
from polestead.homestead.write import changed_text, keep_text


@dataclass(frozen=True, slots=True)
class Blank:
    """One blank of the letter.

    Attributes:
        key: Its name.
        question: The sentence with the blank.
        example: How an answer looks; also what is taken, marked as assumed, when it is left empty.
    """

    key: str
    question: str
    example: str


LETTER = (
    Blank(
        "place",
        "We live at (latitude, longitude, height)",
        "47.9 N, 91.4 W, 1650 ft",
    ),
    Blank("array", "On the pole go (columns x rows, watts of a module)", "4 x 2, 440 W"),
    Blank("pole", "The pole is", "8 in schedule 80 A53 B"),
    Blank("use", "The house uses in a winter day", "7 kWh"),
    Blank(
        "winter",
        "Last winter the engine burned, or ran (in the whole year, or hours a week in the dark months)",
        "300 gal, 90 h, or 6 h a week",
    ),
)
FACTS = (
    "wind_speed",
    "wind_basis",
    "exposure",
    "ground_snow",
    "record_low",
    "frost_depth",
    "soil",
    "frost_soil",
)


def start_from_demo(path: Path, demo: str) -> None:
    """Write a new homestead file that is a demo's text, to be changed line by line.

    Raises:
        Wrong: The file is there already, or there is no such demo.
    """
    keep_text(path, demo_path(demo).read_text(encoding="utf-8"), None)


def start_from_letter(path: Path, answers: Mapping[str, str], name: str) -> None:
    """Write a new homestead file from the letter; whatever was not answered is assumed by name.

    Facts of the place are never taken from the letter's example place as if they were said: each is written as
    assumed, with the reason that nobody has been asked yet.

    Args:
        path: The new file.
        answers: Answers by the key of the blank; empty or missing ones are assumed.
        name: What the place is called.

    Raises:
        Wrong: Every answer that cannot be read, or the file is there already.
    """
    text = _written(answers, name)
    try:
        check_text(text)
    except Wrong as wrong:
        raise Wrong([_at_blank(problem, answers) for problem in wrong.problems]) from None
    keep_text(path, text, None)


def letter_fault(key: str, given: str) -> Problem | None:
    """What is wrong with one answer of the letter; None where it can be read, or was left.

    Args:
        key: Of the blank.
        given: As the owner wrote it.

    Raises:
        KeyError: No such blank.
    """
    if key not in _READ:
        raise KeyError(key)
    answers = {key: given}
    try:
        check_text(_written(answers, "a place"))
    except Wrong as wrong:
        return _at_blank(wrong.problems[0], answers)
    return None


def _at_blank(problem: Problem, answers: Mapping[str, str]) -> Problem:
    """A fault of the file, told at the blank it came from."""
    if problem.section == "letter":
        return problem
    section = re.split(r"[ .\[]", problem.section)[0]
    key = "winter" if "last_winter" in problem.section else BLANK_OF.get(section, LETTER[0].key)
    allowed = f"as: {next(blank.example for blank in LETTER if blank.key == key)}"
    word = problem.key.replace("_", " ").capitalize()
    words = f"{word}: {problem.allowed}; not {problem.given}. {problem.do}"
    return Problem("letter", key, answers.get(key, "").strip() or "nothing", allowed, words)


BLANK_OF = {"place": "place", "array": "array", "mount": "pole", "household": "use"}


def _written(answers: Mapping[str, str], name: str) -> str:
    """The text of the letter's file.

    Raises:
        Wrong: Every answer that cannot be read.
    """
    problems: list[Problem] = []
    changes: dict[tuple[str, ...], Any] = {("name",): name, ("we_are",): "thinking"}
    for blank in LETTER:
        given = answers.get(blank.key, "").strip()
        try:
            changes |= _READ[blank.key](given or blank.example, not given)
        except ValueError as wrong:
            do = f"{wrong}." if not str(wrong).endswith("?") else f"{wrong}"
            problems.append(Problem("letter", blank.key, given, f"as: {blank.example}", do))
    if problems:
        raise Wrong(problems)
    south = str(_plainly(changes["place", "latitude"])).startswith("-")
    changes |= {path: _of_that_winter(value, south) for path, value in changes.items() if path == LAST_WINTER}  # fmt: skip
    text = _without_remarks(demo_path("hollow-spruce").read_text(encoding="utf-8"))
    demo = tomllib.loads(text)
    said = {
        key: value
        for key, value in changes.items()
        if not isinstance(value, dict) or "assumed" not in value
    }
    return _headed(
        changed_text(text, _left_from(demo) | _facts(demo) | NOT_THIS_PLACE | changes | said)
    )


# What only the demo's own place has: its hills, its other spots, its old array with its controller, what was paid and known there.
NOT_THIS_PLACE: dict[tuple[str, ...], Any] = {
    ("view",): None,
    ("climate",): None,
    ("household", "old_array"): None,
    ("household", "controller", "1"): None,
    ("prices", "lines"): None,
    ("prices", "wire"): None,
    ("buried",): None,
    ("spot",): None,
    ("place", "height_limit"): None,
}
# Sections whose every value stands as assumed until the owner says his own.
STILL_THE_DEMOS = (
    ("household", "battery"),
    ("household", "inverter"),
    ("household", "engine"),
    ("household", "controller", "2"),
    ("array",),
    ("array", "module"),
    ("mount",),
    ("drive",),
    ("drive", "supply"),
    ("lock",),
    ("footing",),
    ("prop",),
    ("frame",),
    ("run",),
    ("prices",),
)
NAMES = {"name", "controller"}  # what other sections call a thing by


def _left_from(demo: Mapping[str, Any]) -> dict[tuple[str, ...], Any]:
    """Every value of those sections as an assumption."""
    marked: dict[tuple[str, ...], Any] = {}
    for section in STILL_THE_DEMOS:
        here: Any = demo
        for part in section:
            here = here[int(part) - 1] if part.isdigit() else here[part]
        for key, value in here.items():
            if not isinstance(value, dict | list) and key not in NAMES:
                marked[*section, key] = {
                    "assumed": value,
                    "why": "not asked in the letter: the demo's own",
                }
    return marked


def _facts(demo: Mapping[str, Any]) -> dict[tuple[str, ...], Any]:
    """The facts of the place as assumptions, whoever said them of the demo's."""
    why = "nobody has been asked yet: this is the demo's figure, not this place's"
    facts: dict[tuple[str, ...], Any] = {}
    for key in FACTS:
        value = demo["place"][key]
        plain = (
            next(value[word] for word in ("said", "assumed") if word in value)
            if isinstance(value, dict)
            else value
        )
        facts["place", key] = {"assumed": plain, "why": why}
    return facts


def _without_remarks(text: str) -> str:
    """The demo's remarks are of its own place: they do not come along."""
    lines = (
        re.sub(r"\s+# .*$", "", line) for line in text.splitlines() if not line.startswith("#")
    )
    return "\n".join(lines) + "\n"


def _headed(text: str) -> str:
    """The demo's own head of remarks replaced by ours."""
    body = text[text.index("format = ") :]
    head = (
        "# Begun from the letter.  Everything you did not say stands as the first demo has it: read it through and change it.\n"
        "# Facts of the place are written as assumed; `polestead ask` says whom to ring for each.\n\n"
    )
    return head + body


def _assume(value: str, empty: bool) -> Any:
    return {"assumed": value, "why": "left empty in the letter"} if empty else value


def _place(given: str, empty: bool) -> dict[tuple[str, ...], Any]:
    parts = [part.strip() for part in given.split(",", 2)]
    if len(parts) != 3:
        message = "three parts with commas between are wanted"
        raise ValueError(message)
    latitude, longitude = _degrees(parts[0], "N", "S"), _degrees(parts[1], "E", "W")
    read_quantity(parts[2], "length")
    metric = parts[2].rstrip(". ").endswith(("m", "metres", "meters"))
    offset = float(round(float(longitude.split()[0]) / 15.0))
    return {
        ("units",): "metric" if metric else "feet",
        ("place", "latitude"): _assume(latitude, empty),
        ("place", "longitude"): _assume(longitude, empty),
        ("place", "elevation"): _assume(parts[2], empty),
        ("place", "clock_offset_hours"): _assume_number(offset),
        ("mount", "facing"): {
            "assumed": "0 deg" if latitude.startswith("-") else "180 deg",
            "why": "towards the noon sun, from true north",
        },
    }


def _assume_number(offset: float) -> Any:
    return {"assumed": offset, "why": "the nearest whole hour by longitude; standard time"}


def _degrees(part: str, plus: str, minus: str) -> str:
    """A coordinate by its letter or its sign, as degrees with a sign; every figure the owner wrote is kept."""
    found = re.fullmatch(
        r"([-−+]?)(\d{1,3}(?:\.\d{1,9})?)\s*(?:deg|°)?\s*([NSEWnsew]?)", part.strip()
    )
    letter = found[3].upper() if found else ""
    if found is None or letter not in ("", plus, minus) or (letter and found[1]):
        message = f"{part} is no number of degrees with {plus} or {minus} behind it"
        raise ValueError(message)
    negative = letter == minus or found[1] in ("-", "−")
    return f"{'-' if negative else ''}{found[2]} deg"


def _array(given: str, empty: bool) -> dict[tuple[str, ...], Any]:
    grid, comma, watts = given.partition(",")
    sides = grid.replace("×", "x").split("x")
    if not comma or len(sides) != 2 or not all(side.strip().isdigit() for side in sides):
        message = "columns x rows, then a comma and the watts, are wanted"
        raise ValueError(message)
    columns, rows = (int(side) for side in sides)
    power_w = read_quantity(watts.strip(), "power")
    count = columns * rows
    series = max(number for number in range(1, 5) if count % number == 0)
    current_a = power_w / 32.9
    return {
        ("array", "columns"): _assume_whole(columns, empty),
        ("array", "rows"): _assume_whole(rows, empty),
        ("array", "slot"): _worked_out("1-1/2 in" if rows % 2 == 0 else "0 in"),
        ("array", "in_series"): _worked_out(series),
        ("array", "in_parallel"): _worked_out(count // series),
        ("array", "module", "power"): _assume(watts.strip(), empty),
        ("array", "module", "working_current"): _worked_out(f"{current_a:.2f} A"),
        ("array", "module", "short_circuit_current"): _worked_out(f"{current_a * 1.05:.2f} A"),
    }


def _worked_out(value: Any) -> Any:
    return {"assumed": value, "why": "worked out from the grid and the watts; the datasheet knows"}


def _assume_whole(value: int, empty: bool) -> Any:
    return {"assumed": value, "why": "left empty in the letter"} if empty else value


def _pole(given: str, empty: bool) -> dict[tuple[str, ...], Any]:
    pole_words(given)
    return {("mount", "pole"): _assume(given, empty)}


def _use(given: str, empty: bool) -> dict[tuple[str, ...], Any]:
    if read_quantity(given, "energy") <= 0.0:
        message = "a house uses something"
        raise ValueError(message)
    return {("household", "uses"): {"house": _assume(f"{given} a day, from 6 to 22", empty)}}


LAST_WINTER = ("household", "last_winter")
_EVERY = re.compile(r"(.+?)\s*(?:/|\b(?:a|per|each|every|in a)\s)\s*(week|month)", re.IGNORECASE)
DAYS_A_WEEK = 7.0
# The three months of the least sun and their days, in the north and in the south: those an owner means by an hour a week last winter.
DARK_MONTHS = {
    False: {"dec": 31, "jan": 31, "feb": 28},
    True: {"jun": 30, "jul": 31, "aug": 31},
}


def _winter(given: str, empty: bool) -> dict[tuple[str, ...], Any]:
    if empty:
        return {LAST_WINTER: None}
    every = _EVERY.fullmatch(given)
    if every is not None:
        return {LAST_WINTER: _each(every[1], every[2].lower())}
    try:
        read_quantity(given, "volume")
    except NotAQuantity:
        hours = read_quantity(given, "time") / 3600.0
        return {LAST_WINTER: {"engine_hours": hours}}
    return {LAST_WINTER: {"fuel": given}}


def _each(given: str, span: str) -> dict[str, float]:
    """Hours a week or a month; of fuel only the whole year's can be kept."""
    try:
        read_quantity(given, "volume")
    except NotAQuantity:
        return {span: read_quantity(given, "time") / 3600.0}
    message = f"of fuel the whole year's is wanted, as 300 gal; in a {span}, the engine's hours"
    raise ValueError(message)


def _of_that_winter(known: Any, south: bool) -> Any:
    """Hours a week or a month as those of the dark months."""
    if not known or not known.keys() & {"week", "month"}:
        return known
    months = DARK_MONTHS[south]
    hours = {
        month: round(known["month"] if "month" in known else known["week"] * days / DAYS_A_WEEK, 1)
        for month, days in months.items()
    }
    return {"engine_hours_by_month": hours}


def _plainly(value: Any) -> Any:
    """What stands in a table of an assumption, or the value itself."""
    return value["assumed"] if isinstance(value, dict) else value


_READ = {"place": _place, "array": _array, "pole": _pole, "use": _use, "winter": _winter}
