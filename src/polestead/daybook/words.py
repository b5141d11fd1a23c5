"""One line of the owner's words, half awake: ``tilt 62, charge 78 %, engine 2.5 h, snow dusted, note ice on the rod``.

Things stand between commas in any order; each begins with its word.  A note runs to the end of the line, or between quotes.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from datetime import UTC, date, datetime, time, timedelta
from difflib import get_close_matches
from typing import Any, Literal

from polestead.base.problem import Problem, Wrong
from polestead.base.quantity import NotAQuantity, read_quantity
from polestead.daybook.entry import Entry, Moment, entry_problems
from polestead.daybook.house import UNKNOWN, House, Key

Offset = Callable[[datetime], timedelta]  # of a wall time (with its fold) from UTC
Clock = Literal["plain", "twice", "never"]
S_PER_H = 3600.0
# word, field, dimension, what it may look like
FIGURES: tuple[tuple[str, Key, str, tuple[str, ...]], ...] = (
    ("tilt", "tilt_deg", "angle", ("{} deg",)),
    ("rod", "rod_m", "length", ("{} in", "{} mm")),
    ("charge", "charge", "share", ("{} %",)),
    ("rest", "rest_v", "voltage", ("{} V",)),
    ("all made", "all_wh", "energy", ("{} kWh", "{} Wh")),
    ("made", "new_wh", "energy", ("{} kWh", "{} Wh")),
    ("engine", "engine_hours", "time", ("{} h", "{} min")),
    ("meter", "engine_meter_hours", "time", ("{} h",)),
    ("fuel", "filled_l", "volume", ("{} gal", "{} l")),
    ("tank", "tank_share", "share", ("{} %", "{} gal", "{} l")),
    ("snow", "snow_share", "share", ("{} %",)),
    ("gust", "gust_m_s", "speed", ("{} mph", "{} m/s", "{} km/h", "{} kt")),
    ("bank", "bank_c", "temperature", ("{} F", "{} C")),
)  # fmt: skip
WORDS = (*(word for word, *_ in FIGURES), "done", "note")
# What else he may say, and the word it stands for.
ALSO = {
    "angle": "tilt", "battery": "charge", "soc": "charge", "volts": "rest", "rested": "rest", "all": "all made", "made by all": "all made",
    "generator": "engine", "ran": "engine", "hours": "engine", "filled": "fuel", "wind": "gust", "glass": "snow", "did": "done",
}  # fmt: skip
SNOW = {
    "bare": "bare", "none": "bare", "no": "bare", "clear": "bare", "dusted": "dusted", "dusting": "dusted", "some": "dusted",
    "covered": "covered", "full": "covered", "buried": "covered", "iced": "covered", "icy": "covered", "ice": "covered",
}  # fmt: skip
EXAMPLE = {
    "tilt": "62", "rod": "7.5", "charge": "78", "rest": "25.1", "all made": "9", "made": "6.2", "engine": "2.5", "meter": "1250",
    "fuel": "3", "tank": "40", "snow": "30", "gust": "35", "bank": "28",
}  # fmt: skip
_BARE = re.compile(r"[+-]?\s*(?:\d+(?:\.\d+)?|\.\d+)")
_BETWEEN = re.compile(r",(?!\d)|(?<!\d),|\n|;")
_FORCE = re.compile(r"(?:force|bft|beaufort)\s*(\d{1,2})")


@dataclass(frozen=True, slots=True)
class Known:
    """What the words are read by, handed in by a face.

    Attributes:
        tilt_of_rod: Tilt at which so much rod shows [m -> deg]; it raises ``Wrong`` where it cannot be told.  None without a drive.
        gusts: What is seen in the wind, and the gust that goes with it [m/s].
        forces: Gust by force of the wind scale [m/s].
        chores: Words for a chore, and its key.
    """

    tilt_of_rod: Callable[[float], float] | None = None
    gusts: Mapping[str, float] = field(default_factory=dict)
    forces: Mapping[int, float] = field(default_factory=dict)
    chores: Mapping[str, str] = field(default_factory=dict)


NOTHING_KNOWN = Known()


@dataclass(frozen=True, slots=True)
class Heard:
    """A line as understood.

    Attributes:
        entry: What it says.
        told: What the owner should know of how it was read.
    """

    entry: Entry
    told: tuple[str, ...] = ()


def read_line(
    text: str,
    moment: Moment,
    known: Known,
    now: datetime,
    house: House = UNKNOWN,
    whence: str = "terminal",
) -> Heard:
    """Read one line.

    Args:
        text: As typed.
        moment: When it was.
        known: What the words are read by.
        now: The clock.
        house: What is known of the house, against slips of the pen.
        whence: Where it came from.

    Raises:
        Wrong: With everything in it that cannot be read or cannot be.

    Example:
        >>> evening = datetime(2026, 11, 24, 18, 0)
        >>> heard = read_line("tilt 62, engine 2 h 30 min, snow dusted", Moment(date(2026, 11, 24)), Known(), evening)
        >>> heard.entry.tilt_deg, heard.entry.engine_hours, heard.entry.snow
        (62.0, 2.5, 'dusted')
    """
    things, note, problems = _things(text)
    told: list[str] = []
    values: dict[str, Any] = {"done": ()}
    for thing in things:
        found, wrong = _read(thing, known, told)
        problems += wrong
        for key, value in found.items():
            if key == "done":
                values["done"] += tuple(one for one in value if one not in values["done"])
            elif key in values and values[key] != value:
                problems.append(_problem(thing, f"{_word_of(key)} twice in one line", "each once", "Take one out; what was at another hour goes into a line of its own."))  # fmt: skip
            else:
                values[key] = value
    if values.get("rod_m") is not None and "tilt_deg" not in values:
        problems += _tilt_from_rod(values, known)
    entry = Entry(moment, note=note, written=", ".join(things), whence=whence, **values)
    if things or note:
        seen = entry_problems(entry, now, house)
        problems += [one for one in seen if one.key != "entry" or not problems]
    elif not problems:
        problems.append(_problem("", "nothing", f"a line such as  tilt 62, charge 78 %, snow dusted  ({', '.join(WORDS)})", "Write down at least one thing."))  # fmt: skip
    if problems:
        raise Wrong(problems)
    told += _swallowed(note, known)
    return Heard(entry, tuple(told))


def joined(words: list[str]) -> str:
    """Words of a shell as one line: what the shell took out of quotes goes back into them, so that a note ends where it ended.

    Example:
        >>> joined(["tilt", "62,", "note", "ice, left it,", "fuel", "3", "gal"])
        'tilt 62, note "ice, left it", fuel 3 gal'
    """
    said: list[str] = []
    for word in words:
        after_note = bool(said) and said[-1].lower() == "note"
        if after_note and re.search(r"\s", word.strip()):
            text, comma = (word[:-1], ",") if word.endswith(",") else (word, "")
            said.append(f'"{text.replace(chr(34), chr(34) * 2)}"{comma}')
        else:
            said.append(word)
    return " ".join(said)


def _things(text: str) -> tuple[list[str], str, list[Problem]]:
    """The things of a line, its note, and what is wrong with its quotes."""
    found = re.search(r"(?:^|[\s,;])note\b[:\s]*", text, re.IGNORECASE)
    if found is None:
        return _split(text), "", []
    before, rest = text[: found.start()], text[found.end() :]
    if not rest.startswith('"'):
        return _split(before), rest.strip(), []
    quoted = re.match(r'"((?:[^"]|"")*)"\s*(?:[,;\n]|$)', rest)
    if quoted is None:
        problem = _problem("note", rest.strip()[:60], 'a note between two quotes: note "..."', "Close the quote; a quote inside is doubled.")  # fmt: skip
        return _split(before), "", [problem]
    more, second, problems = _things(rest[quoted.end() :])
    if second:
        problems.append(_problem("note", second[:60], "one note in a line", "Put both into one."))
    return [*_split(before), *more], quoted[1].replace('""', '"').strip(), problems


def _split(text: str) -> list[str]:
    return [thing for thing in (" ".join(one.split()) for one in _BETWEEN.split(text)) if thing]


def read_thing(thing: str, known: Known = NOTHING_KNOWN) -> tuple[dict[str, Any], list[str]]:
    """One thing by itself, its commas its own: the fields it fills, and what should be known of how it was read.

    Args:
        thing: As ``charge 78 %``.
        known: What the words are read by.

    Raises:
        Wrong: It cannot be read.

    Example:
        >>> read_thing("charge 78 %")
        ({'charge': 0.78}, [])
    """
    told: list[str] = []
    found, problems = _read(" ".join(thing.split()), known, told)
    if problems:
        raise Wrong(problems)
    return found, told


def _read(thing: str, known: Known, told: list[str]) -> tuple[dict[str, Any], list[Problem]]:
    """One thing: the fields it fills."""
    lower = thing.lower()
    chore = known.chores.get(lower)
    if chore is not None:
        return {"done": (chore,)}, []
    word, rest = _word(lower, thing)
    if word is None:
        first = lower.split()[0]
        near = get_close_matches(first, (*WORDS, *ALSO), n=1, cutoff=0.6)
        do = f"Did you mean {ALSO.get(near[0], near[0])}?" if near else "Begin it with one of these; free words go behind  note."  # fmt: skip
        return {}, [_problem(thing, f"no word known here ({first})", ", ".join(WORDS), do)]
    if not rest:
        return {}, [_problem(thing, "the word alone", _forms(word), "Write what you saw.")]  # fmt: skip
    if word == "done":
        return _done(thing, rest, known)
    if word == "snow" and rest.lower() in SNOW:
        return {"snow": SNOW[rest.lower()]}, []
    if word == "gust" and not re.match(r"[\d.]", rest):
        return _by_eye(thing, rest, known, told)
    return _figure(thing, word, rest)


def _word(lower: str, thing: str) -> tuple[str | None, str]:
    for said in sorted((*WORDS, *ALSO), key=len, reverse=True):
        found = re.match(rf"{re.escape(said)}(?=$|[\s:=\d.-])[\s:=]*", lower)
        if found is not None:
            return ALSO.get(said, said), thing[found.end() :].strip()
    return None, ""


def _forms(word: str, given: str = "") -> str:
    forms = next((forms for name, _, _, forms in FIGURES if name == word), ())
    said = [form.format(given or EXAMPLE.get(word, "")) for form in forms]
    if word == "snow":
        said = ["bare", "dusted", "covered", *said]
    if word == "done":
        said = ["a chore, as  done grease"]
    return " or ".join(said)


def _figure(thing: str, word: str, rest: str) -> tuple[dict[str, Any], list[Problem]]:
    """A number with its unit; a tilt may go without, since nobody says it otherwise."""
    _, key, dimension, _ = next(row for row in FIGURES if row[0] == word)
    if _BARE.fullmatch(rest):
        if word != "tilt":
            return {}, [_problem(thing, f"{rest} without a unit", _forms(word, rest), "Write its unit.")]  # fmt: skip
        rest += " deg"
    key, dimension = _of_the_tank(key, dimension, rest)
    try:
        value = read_quantity(rest, dimension)
    except NotAQuantity as wrong:
        more = re.search(rf"\s({'|'.join(map(re.escape, WORDS))})\b", rest.lower())
        do = f"Put a comma before {more[1]}." if more else "Write a number and its unit."
        return {}, [_problem(thing, str(wrong), _forms(word), do)]
    return {key: value / S_PER_H if dimension == "time" else value}, []


def _of_the_tank(key: Key, dimension: str, rest: str) -> tuple[Key, str]:
    """A tank's level is read as a share, or as a volume."""
    if key == "tank_share" and not rest.rstrip().endswith("%"):
        return "tank_l", "volume"
    return key, dimension


def _done(thing: str, rest: str, known: Known) -> tuple[dict[str, Any], list[Problem]]:
    keys, problems = [], []
    for one in re.split(r"\s+and\s+|\s*\+\s*", rest.lower()):
        key = known.chores.get(one.strip())
        if key is None:
            near = get_close_matches(one, known.chores, n=1, cutoff=0.5)
            do = f"Did you mean {near[0]}?" if near else "Write anything else as a note."
            there = ", ".join(dict.fromkeys(known.chores.values()))
            problems.append(_problem(thing, f"no chore known here ({one})", there, do))
        else:
            keys.append(key)
    return {"done": tuple(keys)}, problems


def _by_eye(thing: str, rest: str, known: Known, told: list[str]) -> tuple[dict[str, Any], list[Problem]]:  # fmt: skip
    """A gust judged by what it moves."""
    lower = rest.lower()
    force = _FORCE.fullmatch(lower)
    if force is not None and int(force[1]) in known.forces:
        told.append(f"Gust: {rest} is a mean wind; the gust that goes with it was taken.")
        return {"gust_m_s": known.forces[int(force[1])], "gust_seen": lower}, []
    steps = [step for step in known.gusts if lower == step.lower() or lower in step.lower()]
    if len(steps) == 1:
        told.append(f"Gust: by eye, {steps[0]}; the strongest that goes with it was taken.")
        return {"gust_m_s": known.gusts[steps[0]], "gust_seen": steps[0]}, []
    allowed = "; ".join((_forms("gust"), *known.gusts, *(("force 7",) if known.forces else ())))  # fmt: skip
    given = f"{rest}, which could be {' or '.join(steps)}" if steps else rest
    return {}, [_problem(thing, given, allowed, "Write a figure, or a step of this ladder.")]


def _tilt_from_rod(values: dict[str, Any], known: Known) -> list[Problem]:
    if known.tilt_of_rod is None:
        return [_problem("rod", "a rod, and no drive in the homestead file", "tilt 62", "Read the level, and write the tilt.")]  # fmt: skip
    try:
        values["tilt_deg"] = known.tilt_of_rod(values["rod_m"])
    except Wrong as wrong:
        return list(wrong.problems)
    return []


def _swallowed(note: str, known: Known) -> list[str]:
    """Parts of a note that read like figures: they were not taken, and that is said."""
    parts = [part for part in _split(note)[1:] if not _read(part, known, [])[1]]
    return [f"In the note, and not read: {', '.join(parts)}. Put the note last or between quotes."] if parts else []  # fmt: skip


def _word_of(key: str) -> str:
    return next((word for word, name, *_ in FIGURES if name == key), key)


def moment_of(
    on: str | None, at: str | None, now: datetime, offset_of: Offset
) -> tuple[Moment, Clock]:
    """The moment a line is about, from what was said of it.

    Args:
        on: Day, as 2026-11-24, today or yesterday; None: today.
        at: Time, as 7:10, 7:10 pm or 7:10 -06:00; None: now for today, not known for another day.
        now: Local wall clock, with its offset where that is known.
        offset_of: The local clock's offset from UTC at a wall time.

    Returns:
        The moment, and whether that wall time came once, twice, or never that day (its offset is then not known).

    Raises:
        Wrong: A day or a time that cannot be read.
    """
    problems: list[Problem] = []
    day, clock, offset = now.date(), None, None
    try:
        day = _day(on, now.date())
    except ValueError:
        problems.append(_problem("on", str(on), "2026-11-24, today or yesterday", "Write the year first."))  # fmt: skip
    try:
        clock, offset = read_time(at) if at is not None else (None, None)
    except ValueError:
        problems.append(_problem("at", str(at), "7:10, 19:10, 7:10 pm, or with its offset 7:10 -06:00", "Write hours and minutes."))  # fmt: skip
    if problems:
        raise Wrong(problems)
    if at is None and day == now.date():
        clock = now.time().replace(second=0, microsecond=0, fold=0)
        offset = _minutes(now.utcoffset() or offset_of(now.replace(tzinfo=None)))
    if clock is None or offset is not None:
        return Moment(day, clock, offset), "plain"
    return on_the_clock(day, clock, offset_of)


def on_the_clock(day: date, at: time, offset_of: Offset) -> tuple[Moment, Clock]:
    """A wall time with the offset its clock had; without it where that time came twice or never (PEP 495's rule).

    Args:
        day: The day.
        at: The time.
        offset_of: The clock's offset from UTC at a wall time.

    Example:
        >>> from zoneinfo import ZoneInfo
        >>> def chicago(t): return t.replace(tzinfo=ZoneInfo("America/Chicago")).utcoffset()
        >>> on_the_clock(date(2026, 11, 1), time(1, 30), chicago)[1], on_the_clock(date(2026, 3, 8), time(2, 30), chicago)[1]
        ('twice', 'never')
    """
    wall = datetime.combine(day, at)
    first, second = offset_of(wall.replace(fold=0)), offset_of(wall.replace(fold=1))
    if first == second:
        return Moment(day, at, _minutes(first)), "plain"
    return Moment(day, at, None), "twice" if first > second else "never"


def machine_offset(wall: datetime) -> timedelta:
    """This machine's own offset from UTC at a wall time.

    Args:
        wall: Without its offset; its fold counts.
    """
    # by its time stamp: `astimezone` gives an hour that never was the offset it would have had afterwards
    return wall - datetime.fromtimestamp(wall.timestamp(), UTC).replace(tzinfo=None)


def _minutes(offset: timedelta) -> int:
    return round(offset.total_seconds() / 60.0)


def _day(on: str | None, today: date) -> date:
    said = "today" if on is None else on.strip().lower()
    if said in ("today", "yesterday"):
        return today - timedelta(days=said == "yesterday")
    if not re.fullmatch(r"\d{4}-\d{2}-\d{2}", said):
        raise ValueError(said)
    return date.fromisoformat(said)


_TIME = re.compile(r"(\d{1,2})(?:[:.h](\d{2}))?\s*(am|pm)?(?:\s*(?:(Z)|([+-]\d{1,2}):?(\d{2})))?", re.IGNORECASE)  # fmt: skip


def read_time(said: str) -> tuple[time, int | None]:
    """A time of the day, and its offset from UTC in minutes where one is written.

    Args:
        said: As 7:10, 19:10, 7 pm or 7:10 -06:00.

    Raises:
        ValueError: It is none.

    Example:
        >>> read_time("7:10 pm"), read_time("7:10 -06:00")
        ((datetime.time(19, 10), None), (datetime.time(7, 10), -360))
    """
    found = _TIME.fullmatch(said.strip().replace("−", "-"))
    if found is None or (found[2] is None and found[3] is None):
        raise ValueError(said)
    hour, minute = int(found[1]), int(found[2] or 0)
    if found[3]:
        if not 1 <= hour <= 12:
            raise ValueError(said)
        hour = hour % 12 + 12 * (found[3].lower() == "pm")
    offset = 0 if found[4] else None
    if found[5]:
        sign = -1 if found[5].startswith("-") else 1
        offset = sign * (abs(int(found[5])) * 60 + int(found[6]))
    return time(hour, minute), offset


def _problem(key: str, given: str, allowed: str, do: str) -> Problem:
    return Problem("log", key, given, allowed, do)
