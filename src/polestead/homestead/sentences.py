"""Sentences of data read into plain values: a pole, a use, a price per litre, a conductor."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Literal

from polestead.base.hours import MONTH_DAYS, MONTH_NAMES, MONTH_STARTS
from polestead.base.quantity import NotAQuantity, read_quantity
from polestead.homestead.words import BatteryTableRow, PoleWords, SkylineReading, Use

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
SUNNY = (8.0, 18.0)  # hours in which a use that waits for sun may run, where none are named
USE_FORMS = (
    '"900 W, 20 min after breakfast", "60 W, all day", "1.2 kWh a day, from 6 to 22 in winter"'
)

CONDUCTORS = (
    *(f"{size} AWG" for size in ("14", "12", "10", "8", "6", "4", "3", "2", "1", "1/0", "2/0", "3/0", "4/0")),
    *(f"{size} kcmil" for size in ("250", "300", "350", "400", "500")),
    *(f"{size} mm2" for size in ("1.5", "2.5", "4", "6", "10", "16", "25", "35", "50", "70", "95", "120")),
)  # fmt: skip
NOT_IN_ALUMINIUM = ("14 AWG", "1.5 mm2", "2.5 mm2", "4 mm2", "6 mm2")
METALS = {"copper": "copper", "aluminium": "aluminium", "aluminum": "aluminium"}


def _text(written: object, forms: str) -> str:
    if not isinstance(written, str) or not written.strip():
        message = f"it must be a sentence such as {forms}"
        raise ValueError(message)
    return " ".join(written.split())


def _material(words: str) -> str:
    squeezed = re.sub(r"[\s.-]", "", words.lower())
    material = MATERIALS.get(squeezed) or MATERIALS.get(squeezed.removesuffix("steel"))
    if words.strip().lower() == "steel":  # no grade told: the sums take a soft one, and say so
        return "unknown steel"
    if not words.strip():
        message = 'of what? Write the grade, as "A53 B", or "steel" (the sums then take a soft one)'
        raise ValueError(message)
    if material is None:
        known = ", ".join(dict.fromkeys(MATERIALS.values()))
        message = f"{words} is no material known here: write {known}"
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
        r"(\d+(?:[- ]\d/\d|\.5)?) ?(?:in(?:ch)?\.?|\"|″|”) ?sch(?:edule|\.)? ?(\w+)\s*(.*)",
        text,
        re.IGNORECASE,
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
    """Read one use of the house: power (or energy a day or a week), then how long, when, in which season, on which days.

    What follows the comma may stand in any order.  The windows of the day's words (``after breakfast`` 7 to 10,
    ``in the evening`` 17 to 22, ...) are the table ``WINDOWS``; ``in winter`` and ``in summer`` are the half years
    about the shortest and the longest day.  Hours a week are taken on one day where they fit into its window, else
    spread evenly over the days.

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
        >>> sauna = use_words("sauna", "14 kWh a week, once a week in the evening")
        >>> sauna.power_w, sauna.hours_per_day, round(sauna.share_of_days, 3)
        (2800.0, 5.0, 0.143)
        >>> wash = use_words("washing", "500 W, 2 h twice a week when there is sun or after 3 days")
        >>> wash.waits_days, wash.from_hour, wash.to_hour
        (3.0, 8.0, 18.0)
    """
    text = _text(written, USE_FORMS)
    amount, rest = _amount_and_rest(text)
    told = _said(rest, text)
    start, end = told.window
    window = (end - start) % 24.0 or 24.0
    hours, share = _hours_and_share(told, window)
    power_w = _power(amount, hours, share)
    if told.weekly and amount.lower().endswith("day"):
        message = (
            f"{text}: energy a day does not go with hours a week; write both a day or both a week"
        )
        raise ValueError(message)
    _believable(text, power_w, hours, window)
    return Use(
        name, text, power_w, hours, start, end, told.season, share, told.waits_days, told.days
    )


@dataclass(frozen=True, slots=True)
class _Said:
    """What a use's sentence says after its comma."""

    window: tuple[float, float]
    hours: float | None
    weekly: bool
    season: Literal["all year", "winter", "summer"]
    share: float | None
    days: Literal["any", "weekdays", "weekends"]
    waits_days: float | None


def _amount_and_rest(text: str) -> tuple[str, str]:
    # The comma of 1,100 W has no space behind it; one that stands between the parts may lack it too.
    parts = re.split(r",(?!\d{3}(?!\d))\s*|,\s+", text, maxsplit=1)
    if len(parts) < 2 or not parts[1]:
        message = f"{text} does not say when, after a comma: write {USE_FORMS}"
        raise ValueError(message)
    return parts[0].strip(), parts[1].lower()


_CLOCK = r"(\d{1,2})(?::([0-5]\d))? ?(am|pm)?"
_PARTS: tuple[tuple[str, re.Pattern[str]], ...] = tuple(
    (what, re.compile(pattern + r"(?![a-z0-9:])"))
    for what, pattern in (
        ("clock", rf"from {_CLOCK} to {_CLOCK}"),
        ("season", r"in (winter|summer)|all year"),
        (
            "days",
            r"on weekdays|(?:at|on) weekends|once a week|twice a week|three times a week|every day",
        ),
        ("waits", r"when there is sun(?:,? or after (\d+|a) days?)?"),
        ("window", "|".join(WINDOWS)),
        (
            "time",
            r"((?:\d[\d./-]*(?: \d+/\d+)? ?(?:hours?|hrs?|h|minutes?|min) ?)+)(a day|a week)?",
        ),
    )
)
_SHARES = {"on weekdays": 5.0 / 7.0, "at weekends": 2.0 / 7.0, "on weekends": 2.0 / 7.0, "once a week": 1.0 / 7.0, "twice a week": 2.0 / 7.0, "three times a week": 3.0 / 7.0, "every day": 1.0}  # fmt: skip


def _said(rest: str, text: str) -> _Said:
    """The parts of the sentence after the comma, in whatever order; each at most once."""
    found: dict[str, re.Match[str]] = {}
    while rest := rest.strip(" ,"):
        what, match = next(
            ((what, match) for what, pattern in _PARTS if (match := pattern.match(rest))),
            ("", None),
        )
        if match is None:
            message = f"{rest} is no time of day known here: write one of {', '.join(WINDOWS)}, or from 6 to 22"
            raise ValueError(message)
        if what in found or (what in ("clock", "window") and {"clock", "window"} & set(found)):
            message = f"{text} says twice when: {found.get(what, match)[0].strip()} and {match[0].strip()}; write a line for each"
            raise ValueError(message)
        found[what] = match
        rest = rest[match.end() :]
    if not {"clock", "window", "time", "waits"} & set(found):
        message = f"{text} does not say when: write {USE_FORMS}"
        raise ValueError(message)
    return _Said(
        _window(found, text),
        read_quantity(found["time"][1], "time") / 3600.0 if "time" in found else None,
        "time" in found and found["time"][2] == "a week",
        _season(found),
        _SHARES[found["days"][0]] if "days" in found else None,
        _weekdays(found),
        _patience_days(found),
    )


def _weekdays(found: dict[str, re.Match[str]]) -> Literal["any", "weekdays", "weekends"]:
    said = found["days"][0] if "days" in found else ""
    return "weekdays" if "weekdays" in said else "weekends" if "weekends" in said else "any"


def _patience_days(found: dict[str, re.Match[str]]) -> float | None:
    """Days a use that waits for sun may be put off: as said, else until the same evening."""
    if "waits" not in found:
        return None
    said = found["waits"][1]
    return 0.0 if said is None else 1.0 if said == "a" else float(said)


def _season(found: dict[str, re.Match[str]]) -> Literal["all year", "winter", "summer"]:
    named = found["season"][1] if "season" in found else None
    return "winter" if named == "winter" else "summer" if named == "summer" else "all year"


def _window(found: dict[str, re.Match[str]], text: str) -> tuple[float, float]:
    if "clock" not in found:
        whole = SUNNY if "waits" in found else (0.0, 24.0)
        return WINDOWS[found["window"][0]] if "window" in found else whole
    clock = found["clock"]
    start, end = (
        _hour(clock[1], clock[2], clock[3], text),
        _hour(clock[4], clock[5], clock[6], text),
    )
    start = start % 24.0
    if start == end:
        message = f"{text}: from and to are the same hour; for the whole day write all day"
        raise ValueError(message)
    return start, end or 24.0


def _hour(hour: str, minute: str | None, half: str | None, text: str) -> float:
    """An hour of the clock, 0 to 24."""
    value = int(hour) + int(minute or 0) / 60.0
    if half is not None and 1.0 <= value < 13.0:
        value = value % 12.0 + (12.0 if half == "pm" else 0.0)
    elif half is not None or value > 24.0:
        message = f"{text}: hours go from 0 to 24, or from 1 am to 12 pm"
        raise ValueError(message)
    return value


def _hours_and_share(told: _Said, window: float) -> tuple[float, float]:
    """Hours on a day on which it runs, and the share of such days."""
    share = 1.0 if told.share is None else told.share
    if told.hours is None:
        return window, share
    if not told.weekly:
        return told.hours, share
    if told.share is None and told.hours <= window:
        return told.hours, 1.0 / 7.0
    return told.hours / (7.0 * share), share


def _power(amount: str, hours: float, share: float) -> float:
    """Power while it runs [W], from the power or from the energy a day or a week."""
    energy = re.fullmatch(r"(.+?) ?(?:a|per|/) ?(day|week)", amount, re.IGNORECASE)
    try:
        if energy is None:
            return read_quantity(amount, "power")
        energy_wh = read_quantity(energy[1], "energy")
    except NotAQuantity as wrong:
        message = f"{wrong}; a use is written like {USE_FORMS}"
        raise ValueError(message) from None
    running_days = 1.0 if energy[2].lower() == "day" else 7.0 * share
    return energy_wh / running_days / hours if hours > 0.0 else 0.0


def battery_row(written: str) -> BatteryTableRow:
    """Read a line of a maker's discharge table.

    Raises:
        ValueError: Not readable; the message shows how to write it.

    Example:
        >>> row = battery_row("740 Ah in 20 h")
        >>> row.charge_ah, row.hours
        (740.0, 20.0)
    """
    forms = '"740 Ah in 20 h"'
    text = _text(written, forms)
    found = re.fullmatch(r"(.+?) (?:in|at|over) (.+)", text)
    if found is None:
        message = f"{text} is no line of a discharge table: write {forms}"
        raise ValueError(message)
    row = BatteryTableRow(
        text, read_quantity(found[1], "charge"), read_quantity(found[2], "time") / 3600.0
    )
    if not (row.charge_ah > 0.0 and 0.05 <= row.hours <= 1000.0):
        message = f"{text}: a table goes from 3 minutes to 1,000 hours, and gives something"
        raise ValueError(message)
    return row


def rod_words(written: str) -> tuple[float, float]:
    """Read a measured pair: rod that shows, and the tilt at that moment.

    Returns:
        Rod out of its tube [m], tilt [deg].

    Raises:
        ValueError: Not readable; the message shows how to write it.

    Example:
        >>> rod, tilt = rod_words("18-3/4 in at 35 deg")
        >>> round(rod, 5), tilt
        (0.47625, 35.0)
    """
    forms = '"18-3/4 in at 35 deg"'
    text = _text(written, forms)
    found = re.fullmatch(r"(.+?) at (.+)", text)
    if found is None:
        message = f"{text} is no rod and tilt: write {forms}"
        raise ValueError(message)
    rod, tilt = read_quantity(found[1], "length"), read_quantity(found[2], "angle")
    if not 0.0 <= rod <= 3.0 or not -15.0 <= tilt <= 95.0:
        message = f"{text}: a rod shows 0 to 3 m, a tilt goes from 0 (flat) to 90 degrees"
        raise ValueError(message)
    return rod, tilt


def rod_sentence(sentence: str) -> str:
    """A measured pair, once it has been found readable."""
    rod_words(sentence)
    return sentence


def move_words(written: str) -> tuple[int, float]:
    """Read a move of the array: a date and an angle.

    Returns:
        Calendar day 1 to 365, tilt [deg].

    Raises:
        ValueError: Not readable; the message shows how to write it.

    Example:
        >>> move_words("15 Mar 35 deg"), move_words("Oct 1, 60 deg")
        ((74, 35.0), (274, 60.0))
    """
    forms = '"15 Mar 35 deg"'
    text = _text(written, forms)
    found = re.fullmatch(r"(?:(\d{1,2})\.? ([A-Za-z]+)|([A-Za-z]+) (\d{1,2}))\.?,? (.+)", text)
    name = (found[2] or found[3])[:3].capitalize() if found else ""
    if found is None or name not in MONTH_NAMES:
        message = f"{text} is no date and angle: write {forms}"
        raise ValueError(message)
    day, month = int(found[1] or found[4]), MONTH_NAMES.index(name)
    if not 1 <= day <= MONTH_DAYS[month]:
        message = f"{text}: {name} has {MONTH_DAYS[month]} days"
        raise ValueError(message)
    tilt = read_quantity(found[5], "angle")
    if not 0.0 <= tilt <= 90.0:
        message = f"{text}: a tilt goes from 0 (flat) to 90 degrees"
        raise ValueError(message)
    return MONTH_STARTS[month] + day, tilt


def move_sentence(sentence: str) -> str:
    """A move's sentence, once it has been found readable."""
    move_words(sentence)
    return sentence


def skyline_words(written: str) -> SkylineReading:
    """Read one reading of the skyline.

    Raises:
        ValueError: Not readable; the message shows how to write it.

    Example:
        >>> one = skyline_words("140 deg, 2.5 fists, trees")
        >>> one.bearing_deg, one.height, one.in_fists, one.trees
        (140.0, 2.5, True, True)
    """
    forms = '"140 deg, 2.5 fists, trees" or "165 deg, 8 deg, ground"'
    text = _text(written, forms)
    found = re.fullmatch(
        r"(\d+(?:\.\d+)?) ?(?:deg|°)?, ?(\d+(?:\.\d+)?) ?(fists?|deg|°)(?:, ?(trees|ground))?", text
    )
    if found is None:
        message = f"{text} is no reading of the skyline: write {forms}"
        raise ValueError(message)
    bearing, height, in_fists = float(found[1]), float(found[2]), found[3].startswith("fist")
    if bearing > 360.0:
        message = f"{text}: a compass goes from 0 to 360 degrees"
        raise ValueError(message)
    if height > (12.0 if in_fists else 90.0):
        message = f"{text}: nothing stands higher than straight up, 90 degrees or about 9 fists"
        raise ValueError(message)
    return SkylineReading(text, bearing % 360.0, height, in_fists, found[4] == "trees")


def skyline_sentence(sentence: str) -> str:
    """A reading's sentence, once it has been found readable."""
    skyline_words(sentence)
    return sentence


def battery_sentence(sentence: str) -> str:
    """A discharge table's line, once it has been found readable."""
    battery_row(sentence)
    return sentence


def use_sentence(sentence: str) -> str:
    """A use's sentence, once it has been found readable."""
    use_words("", sentence)
    return sentence


def _believable(text: str, power_w: float, hours: float, window: float) -> None:
    if not 0.0 < hours <= window + 1e-9:
        message = f"{text}: it runs {hours:g} h in a window of {window:g} h; name a longer window, as 'all day'"
        raise ValueError(message)
    if not 0.0 < power_w <= 50_000.0:
        message = f"{text}: a use draws more than 0 W and at most 50 kW"
        raise ValueError(message)


def price_per_l(written: object) -> float:
    """Read a fuel price in money per litre.

    Example:
        >>> round(price_per_l("2.60 per gal"), 4), price_per_l("1.45 per l")
        (0.6868, 1.45)
    """
    return _price(written, "volume", '"2.60 per gal" or "1.45 per l"')


def price_per_m(written: object) -> float:
    """Read the price of a length in money per metre.

    Example:
        >>> round(price_per_m("3.10 per ft"), 3), price_per_m("9 per m")
        (10.171, 9.0)
    """
    return _price(written, "length", '"3.10 per ft" or "9 per m"')


def _price(written: object, dimension: str, forms: str) -> float:
    text = _text(str(written), forms)
    if re.search(r"\d,\d{1,2}(?!\d)", text):
        message = f"{text} has a comma in the number: write a point for decimals, as in 1.45"
        raise ValueError(message)
    found = re.fullmatch(
        r"[$€£]?\s*(\d{1,3}(?:,\d{3})+(?:\.\d+)?|\d{1,12}(?:\.\d+)?)\s*(?:[A-Z]{3}|[$€£])?\s*(?:per|/|a)\s*(\w+)",
        text,
    )
    if not found:
        message = f"{text} is no price with its unit: write {forms}"
        raise ValueError(message)
    return float(found[1].replace(",", "")) / read_quantity(f"1 {found[2]}", dimension)


def conductor_words(written: object) -> str:
    """Read a conductor size into its standard writing.

    Example:
        >>> conductor_words("4 awg"), conductor_words("16 mm²"), conductor_words("#2/0 AWG"), conductor_words("250 MCM")
        ('4 AWG', '16 mm2', '2/0 AWG', '250 kcmil')
    """
    text = _text(str(written), '"4 AWG", "2/0 AWG" or "16 mm2"')
    found = re.fullmatch(r"#?([\d./]+) ?(awg|kcmil|mcm|mm ?\^?[2²]|sq\.? ?mm)", text, re.IGNORECASE)
    if found is None and re.fullmatch(r"#?[\d./]+", text):
        message = (
            f"{text} has no unit: did you mean {text.lstrip('#')} AWG or {text.lstrip('#')} mm2?"
        )
        raise ValueError(message)
    size = text
    if found:
        unit = {"awg": "AWG", "kcmil": "kcmil", "mcm": "kcmil"}.get(found[2].lower(), "mm2")
        awg = unit == "AWG"
        noughts = f"{len(found[1])}/0" if awg and re.fullmatch(r"0{1,4}", found[1]) else found[1]
        size = f"{noughts} {unit}"
    if size not in CONDUCTORS:
        message = f"{text} is no standard conductor: write one of {', '.join(CONDUCTORS)}"
        raise ValueError(message)
    return size


def priced_wire_words(written: object) -> tuple[str, str]:
    """Read the name of a priced wire: its live size and its metal.

    Raises:
        ValueError: If it names no standard size of that metal.

    Example:
        >>> priced_wire_words("4 AWG copper"), priced_wire_words("1/0 awg aluminum")
        (('4 AWG', 'copper'), ('1/0 AWG', 'aluminium'))
    """
    size, _, metal = _text(str(written), '"4 AWG copper"').rpartition(" ")
    if metal.lower() not in METALS:
        message = f"{str(written).strip()} does not end in copper or aluminium"
        raise ValueError(message)
    wire = (conductor_words(size), METALS[metal.lower()])
    if wire[1] == "aluminium" and wire[0] in NOT_IN_ALUMINIUM:
        message = f"{wire[0]} is not made in aluminium"
        raise ValueError(message)
    return wire
