"""Sentences of data read into plain values: a pole, a use, a price per litre, a conductor."""

from __future__ import annotations

import re
from typing import Literal

from polestead.base.quantity import NotAQuantity, read_quantity
from polestead.homestead.words import PoleWords, Use

MATERIALS = {
    "a53b": "A53 B",
    "a53gradeb": "A53 B",
    "a500b": "A500 B",
    "a500gradeb": "A500 B",
    "a500c": "A500 C",
    "a500gradec": "A500 C",
    "6061t6": "6061-T6",
    "6061t6aluminium": "6061-T6",
    "6061t6aluminum": "6061-T6",
    "6063t6": "6063-T6",
    "6063t6aluminium": "6063-T6",
    "6063t6aluminum": "6063-T6",
    "s235": "S235",
    "s235jrh": "S235",
    "s355": "S355",
    "s355j2h": "S355",
    "unknownsteel": "unknown steel",
}
POLE_FORMS = '"8 in schedule 80 A53 B", "CHS 219.1x12.5 S355" or "measured 8-5/8 in outside, 0.32 in wall, unknown steel"'

TUBE_FORMS = '"HSS 6x6x1/4 A500 C" or "SHS 60x60x4 S355"'

WINDOWS = {
    "all day": (0.0, 24.0),
    "day and night": (0.0, 24.0),
    "by day": (7.0, 19.0),
    "after breakfast": (7.0, 10.0),
    "in the morning": (6.0, 11.0),
    "at midday": (11.0, 14.0),
    "in the afternoon": (13.0, 17.0),
    "in the evening": (17.0, 22.0),
    "at night": (22.0, 6.0),
}
USE_FORMS = (
    '"900 W, 20 min after breakfast", "60 W, all day", "1.2 kWh a day, from 6 to 22 in winter"'
)

CONDUCTORS = (
    *(f"{size} AWG" for size in ("14", "12", "10", "8", "6", "4", "3", "2", "1", "1/0", "2/0", "3/0", "4/0")),
    *(f"{size} mm2" for size in ("1.5", "2.5", "4", "6", "10", "16", "25", "35", "50", "70", "95")),
)  # fmt: skip


def _text(written: object, forms: str) -> str:
    if not isinstance(written, str) or not written.strip():
        message = f"it must be a sentence such as {forms}"
        raise ValueError(message)
    return " ".join(written.split())


def _material(words: str) -> str:
    material = MATERIALS.get(re.sub(r"[\s.-]", "", words.lower()))
    if material is None:
        known = ", ".join(dict.fromkeys(MATERIALS.values()))
        message = f"{words or 'nothing'} is no material known here: write {known}"
        raise ValueError(message)
    return material


def pole_words(written: object) -> PoleWords:
    """Read a pole.

    Example:
        >>> pole_words("8 in schedule 80 A53 B").schedule
        '80'
        >>> measured = pole_words("measured 8-5/8 in outside, 0.32 in wall, unknown steel")
        >>> round(measured.outside_m, 6), measured.material
        (0.219075, 'unknown steel')
    """
    text = _text(written, POLE_FORMS)
    pipe = re.fullmatch(
        r"(\d+(?:[- ]\d/\d|\.5)?) ?in(?:ch)? sch(?:edule|\.)? ?(\w+)\s*(.*)", text, re.IGNORECASE
    )
    if pipe:
        nominal = pipe[1].replace("-1/2", ".5").replace(" 1/2", ".5")
        return PoleWords(text, nominal, pipe[2].upper(), None, None, _material(pipe[3]))
    tube = re.fullmatch(r"CHS (\d+(?:\.\d+)?) ?[x×] ?(\d+(?:\.\d+)?)\s*(.*)", text, re.IGNORECASE)
    if tube:
        outside_m, wall_m = float(tube[1]) / 1000.0, float(tube[2]) / 1000.0
        return _round(text, outside_m, wall_m, _material(tube[3]))
    measured = re.fullmatch(r"measured (.+?) outside,\s*(.+?) wall,\s*(.*)", text, re.IGNORECASE)
    if measured:
        outside_m, wall_m = (
            read_quantity(measured[1], "length"),
            read_quantity(measured[2], "length"),
        )
        return _round(text, outside_m, wall_m, _material(measured[3]))
    message = f"{text} cannot be read as a pole: write {POLE_FORMS}"
    raise ValueError(message)


def _round(text: str, outside_m: float, wall_m: float, material: str) -> PoleWords:
    if not 0.02 <= outside_m <= 1.5 or not 0.0005 <= wall_m < outside_m / 2.0:
        message = f"{text}: a pole is 20 mm to 1.5 m across, with a wall under half of that"
        raise ValueError(message)
    return PoleWords(text, None, None, outside_m, wall_m, material)


def tube_sentence(written: str) -> str:
    """A square or rectangular tube's words, once they have been found readable.

    Example:
        >>> tube_sentence("HSS 6x6x1/4 A500 C"), tube_sentence("SHS 60x60x4 S355")
        ('HSS 6x6x1/4 A500 C', 'SHS 60x60x4 S355')
    """
    text = _text(written, TUBE_FORMS)
    found = re.fullmatch(
        r"(HSS|SHS|RHS) (\d+(?:\.\d+)?) ?[x×] ?(\d+(?:\.\d+)?) ?[x×] ?(\d+(?:\.\d+)?|\d+/[1-9]\d*) (.+)",
        text,
        re.IGNORECASE,
    )
    if found is None:
        message = f"{text} cannot be read as a tube: write {TUBE_FORMS}, depth x breadth x wall, then the steel"
        raise ValueError(message)
    above, _, below = found[4].partition("/")
    wall, sides = float(above) / float(below or 1), (float(found[2]), float(found[3]))
    if not 0.0 < 4.0 * wall < min(sides):
        message = f"{text}: the wall is under a quarter of the side"
        raise ValueError(message)
    if max(sides) > (40.0 if found[1].upper() == "HSS" else 1000.0):
        message = f"{text}: HSS is written in inches, SHS and RHS in millimetres"
        raise ValueError(message)
    return f"{found[1].upper()} {found[2]}x{found[3]}x{found[4]} {_material(found[5])}"


def use_words(name: str, written: object) -> Use:
    """Read one use of the house: power (or energy a day), how long, when, in which season, on which days.

    The windows of the day's words (``after breakfast`` 7 to 10, ``in the evening`` 17 to 22, ...) are the table
    ``WINDOWS``; ``in winter`` and ``in summer`` are the half years about the shortest and the longest day.

    Args:
        name: The key in the file.
        written: The sentence.

    Raises:
        ValueError: Not readable; the message shows how to write it.

    Example:
        >>> use = use_words("well_pump", "900 W, 20 min after breakfast")
        >>> use.power_w, round(use.hours_per_day, 3), use.from_hour, use.to_hour
        (900.0, 0.333, 7.0, 10.0)
        >>> use_words("house", "6 kWh a day, from 6 to 22 in winter").season
        'winter'
    """
    text = _text(written, USE_FORMS)
    amount, _, rest = text.partition(", ")
    if not rest:
        message = f"{text} has no comma after the power: write {USE_FORMS}"
        raise ValueError(message)
    rest, season = _season(rest.strip())
    rest, share = _days(rest)
    start, end, hours, weekly = _when(rest, text)
    if weekly:
        share = 1.0 / 7.0
    window = (end - start) % 24.0 or 24.0
    energy = re.fullmatch(r"(.+?) (?:a|per) day", amount.strip())
    try:
        if energy:
            power_w, hours = read_quantity(energy[1], "energy") / window, window
        else:
            power_w = read_quantity(amount, "power")
            hours = window if hours is None else hours
    except NotAQuantity as wrong:
        message = f"{wrong}; a use is written like {USE_FORMS}"
        raise ValueError(message) from None
    _believable(text, power_w, hours, window)
    return Use(name, text, power_w, hours, start, end, season, share)


def use_sentence(sentence: str) -> str:
    """A use's sentence, once it has been found readable."""
    use_words("", sentence)
    return sentence


def _believable(text: str, power_w: float, hours: float, window: float) -> None:
    if not 0.0 < power_w <= 50_000.0:
        message = f"{text}: a use draws more than 0 W and at most 50 kW"
        raise ValueError(message)
    if not 0.0 < hours <= window + 1e-9:
        message = f"{text}: it runs {hours:g} h in a window of {window:g} h; name a longer window, as 'all day'"
        raise ValueError(message)


def _season(rest: str) -> tuple[str, Literal["all year", "winter", "summer"]]:
    if rest.endswith("in winter"):
        return rest.removesuffix("in winter").strip(" ,"), "winter"
    if rest.endswith("in summer"):
        return rest.removesuffix("in summer").strip(" ,"), "summer"
    return rest.removesuffix("all year").strip(" ,"), "all year"


def _days(rest: str) -> tuple[str, float]:
    for words, share in (
        ("on weekdays", 5.0 / 7.0),
        ("at weekends", 2.0 / 7.0),
        ("once a week", 1.0 / 7.0),
    ):
        if rest.endswith(words):
            return rest.removesuffix(words).strip(" ,"), share
    return rest, 1.0


def _when(rest: str, text: str) -> tuple[float, float, float | None, bool]:
    """Window start and end, hours a day (None: the whole window), and whether those are hours a week."""
    hours: float | None = None
    weekly = False
    timed = re.match(r"((?:\d[\d./ -]*(?:h|hours?|min)\s*)+)(a day|a week)?", rest)
    if timed and not rest.startswith("from"):
        hours = read_quantity(timed[1], "time") / 3600.0
        weekly = timed[2] == "a week"
        rest = rest[timed.end() :].strip(" ,")
    if not rest:
        if hours is None:
            message = f"{text} does not say when: write {USE_FORMS}"
            raise ValueError(message)
        return 0.0, 24.0, hours, weekly
    if rest in WINDOWS:
        return *WINDOWS[rest], hours, weekly
    clock = re.fullmatch(r"from (\d{1,2})(?::(\d\d))? to (\d{1,2})(?::(\d\d))?", rest)
    if clock:
        start = int(clock[1]) + int(clock[2] or 0) / 60.0
        end = int(clock[3]) + int(clock[4] or 0) / 60.0
        if start < 24.0 and 0.0 <= end <= 24.0 and start != end:
            return start, end, hours, weekly
    message = (
        f"{rest} is no time of day known here: write one of {', '.join(WINDOWS)}, or from 6 to 22"
    )
    raise ValueError(message)


def price_per_l(written: object) -> float:
    """Read a fuel price in money per litre.

    Example:
        >>> round(price_per_l("2.60 per gal"), 4), price_per_l("1.45 per l")
        (0.6868, 1.45)
    """
    forms = '"2.60 per gal" or "1.45 per l"'
    text = _text(str(written), forms)
    found = re.fullmatch(
        r"[$€£]?\s*(\d+(?:\.\d+)?)\s*(?:[A-Z]{3}|[$€£])?\s*(?:per|/|a)\s*(\w+)", text
    )
    if not found:
        message = f"{text} is no price with its unit: write {forms}"
        raise ValueError(message)
    return float(found[1]) / read_quantity(f"1 {found[2]}", "volume")


def conductor_words(written: object) -> str:
    """Read a conductor size into its standard writing.

    Example:
        >>> conductor_words("4 awg"), conductor_words("16 mm²"), conductor_words("#2/0 AWG")
        ('4 AWG', '16 mm2', '2/0 AWG')
    """
    text = (
        _text(str(written), '"4 AWG", "2/0 AWG" or "16 mm2"')
        .replace("²", "2")
        .replace("sq mm", "mm2")
        .lstrip("#")
    )
    found = re.fullmatch(r"([\d./]+) ?(awg|mm2)", text, re.IGNORECASE)
    size = f"{found[1]} {'AWG' if found[2].lower() == 'awg' else 'mm2'}" if found else text
    if size not in CONDUCTORS:
        message = f"{text} is no standard conductor: write one of {', '.join(CONDUCTORS)}"
        raise ValueError(message)
    return size
