"""The form of what he sees, read field by field: each by the daybook's own words, each told beside itself where it cannot be."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from datetime import datetime
from typing import Any

from polestead.base.problem import Problem, Wrong
from polestead.base.show import Style
from polestead.daybook.entry import Entry, Moment, entry_problems
from polestead.daybook.words import Known, machine_offset, moment_of, read_thing
from polestead.homestead.read import OwnersFile
from polestead.morning.forecast.by_eye import ladder, read_blows
from polestead.morning.forecast.words import LONGEST, read_heard
from polestead.morning.looked import read_away
from polestead.morning.remembered import NOTED
from polestead.morning.seen import AWAY, HEARD
from polestead.sheets.owners_log import house_in, known_in

GLASS = ("not looked", "bare", "dusted", "covered", "iced", "buried")
SKIES = ("clear", "broken", "grey")
NOT_LOOKED = "not looked"
# field of the form, word of the daybook; what is bare is read with the unit beside the field
TYPED = (("charge", "charge", " %"), ("lies", "tilt", ""), ("filled", "fuel", ""), ("tank", "tank", ""), ("engine", "engine", " h"), ("bank", "bank", ""))  # fmt: skip
BESIDE = {"tilt": "lies", "charge": "charge", "fuel filled": "filled", "tank": "tank", "fuel in the tank": "tank", "gust": "gauge", "engine hours": "engine", "bank": "bank", "note": "note", "entry": "entry"}  # fmt: skip
EYE = (0, 3, 4, 6, 7, 8)  # steps of the ladder worth a key


@dataclass(frozen=True, slots=True)
class Form:
    """What was sent, and what became of it.

    Attributes:
        given: As sent.
        wrong: What is wrong, by field.
        entry: To be written; None where something is wrong.
    """

    given: Mapping[str, str]
    wrong: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    entry: Entry | None = None

    def value(self, name: str, default: str = "") -> str:
        """What was sent in a field."""
        return self.given.get(name, default)


def moment_now(now: datetime) -> Moment:
    """This minute."""
    return moment_of(None, None, now, machine_offset)[0]


def eye_choices() -> list[tuple[str, str]]:
    """Steps of the ladder: what is sent, what is shown."""
    return [(step.also[0], step.sign.split("; ")[0]) for step in ladder() if step.force in EYE]


def read_form(given: Mapping[str, str], owners: OwnersFile, now: datetime, style: Style, away_now: str) -> Form:  # fmt: skip
    """Read the form.

    Args:
        given: As sent.
        owners: The file as read.
        now: The clock.
        style: Whose units.
        away_now: Where he is, as known before.
    """
    wrong: dict[str, list[str]] = {}
    values: dict[str, Any] = {}
    known = known_in(owners)
    written = []
    for name, word, unit in TYPED:
        text = _one_line(given.get(name, ""))
        if not text:
            continue
        thing = f"{word} {text}{unit if re.fullmatch(r'[+-]?[0-9.]+', text) else ''}"
        found = _thing(thing, name, known, wrong)
        values |= found
        written += [thing] if found else []
    values |= _glass(given, wrong)
    values |= _blows(given, owners, wrong)
    lines = [*_notes(given, owners, now, away_now, wrong)]
    note = given.get("note", "").strip()
    entry = Entry(moment_now(now), **values, note="\n".join([*([note] if note else []), *lines]), written=", ".join(written), whence="page")  # fmt: skip
    for problem in entry_problems(entry, now, house_in(owners, style)):
        _tell(wrong, BESIDE.get(problem.key, "entry"), problem)
    if wrong.keys() - {"entry"}:
        wrong.pop("entry", None)
    told = {name: tuple(words) for name, words in wrong.items()}
    return Form(given, told, None if told else entry)


def _one_line(text: str) -> str:
    return " ".join(text.split())


def told_beside(problem: Problem) -> str:
    """What is wrong, for a place that names its field already."""
    return f"Given {problem.given}; allowed: {problem.allowed}. {problem.do}"


def _tell(wrong: dict[str, list[str]], name: str, problem: Problem) -> None:
    wrong.setdefault(name, []).append(told_beside(problem))


def _thing(thing: str, name: str, known: Known, wrong: dict[str, list[str]]) -> dict[str, Any]:
    try:
        return read_thing(thing[:300], known)[0]
    except Wrong as found:
        for problem in found.problems:
            _tell(wrong, name, problem)
        return {}


def _glass(given: Mapping[str, str], wrong: dict[str, list[str]]) -> dict[str, Any]:
    glass = given.get("glass", NOT_LOOKED)
    if glass not in GLASS:
        wrong["glass"] = ["Choose one of these."]
    if glass in ("bare", "dusted", "covered"):
        return {"snow": glass}
    return {"snow": "covered"} if glass in NOTED else {}


def _blows(given: Mapping[str, str], owners: OwnersFile, wrong: dict[str, list[str]]) -> dict[str, Any]:  # fmt: skip
    """By an own gauge as read, or by what is seen; the morning turns the gauge to ten metres."""
    typed, eye = _one_line(given.get("gauge", "")), given.get("blows", NOT_LOOKED)
    if typed:
        return _thing(f"gust {typed}", "gauge", Known(), wrong)
    if eye == NOT_LOOKED:
        return {}
    if eye not in [value for value, _ in eye_choices()]:
        wrong["blows"] = ["Choose one of these."]
        return {}
    gust, seen = read_blows(eye, owners.homestead.place.exposure)
    return {"gust_m_s": gust, "gust_seen": seen}


def _notes(given: Mapping[str, str], owners: OwnersFile, now: datetime, away_now: str, wrong: dict[str, list[str]]) -> Iterator[str]:  # fmt: skip
    """What the daybook keeps in words: ice, what was heard, where he is."""
    noted = next((words for glass, words in NOTED.items() if glass == given.get("glass")), "")
    if noted:
        yield noted
    heard = _heard(given, owners, now, wrong)
    if heard:
        yield f"{HEARD}{heard}"
    away = _away(given, wrong)
    if away and away != away_now:
        yield f"{AWAY}{away}"


def _heard(given: Mapping[str, str], owners: OwnersFile, now: datetime, wrong: dict[str, list[str]]) -> str:  # fmt: skip
    """What was heard, with the sky that is seen in front of it; nothing is kept that is not understood."""
    text, sky = _one_line(given.get("heard", "")), given.get("sky", NOT_LOOKED)
    if len(text) > LONGEST:
        wrong["heard"] = [f"{len(text)} signs; at most {LONGEST} are read."]
        return ""
    if sky in SKIES:
        text = ", ".join([sky, *(part.strip() for part in text.split(",") if part.strip().lower() not in (*SKIES, ""))])  # fmt: skip
    elif sky != NOT_LOOKED:
        wrong["sky"] = ["Choose one of these."]
    if not text:
        return ""
    found = read_heard(text, now.date(), owners.homestead.units == "feet")
    missed = [f"Not understood: {words}." for words in found.not_understood]
    if missed or not found.spans:
        wrong["heard"] = [*missed, "Say it as: clear, 20 to 30 F, gusts 45 kt tonight, 4 in snow; tomorrow grey."]  # fmt: skip
    return text


def _away(given: Mapping[str, str], wrong: dict[str, list[str]]) -> str:
    away = given.get("away", "")
    if away == "days":
        away = f"{_one_line(given.get('days', ''))} days"
    if not away:
        return ""
    try:
        return read_away(away).words
    except Wrong as found:
        for problem in found.problems:
            _tell(wrong, "days", problem)
        return ""
